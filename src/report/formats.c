/* The table of formats, and the library's face to it. */
#include "report/formats.h"

#include <string.h>
#include <strings.h>

#include "report/bid.h"
#include "report/document.h"
#include "report/report.h"

static bool write_markdown_bid(const struct job *job, const struct arena_source *memory, struct output *out) {
    return bid_write(job, markdown_write, memory, out);
}

static const char *const markdown_extensions[] = {"md", "markdown", NULL};
static const char *const json_extensions[] = {"json", NULL};

static const struct report_format formats[] = {
    {
        .name = "md",
        .extensions = markdown_extensions,
        .write = write_markdown_bid,
    },
    {
        .name = "json",
        .extensions = json_extensions,
        .shows_errors = true,
        .write = json_write_job,
    },
};
enum { FORMAT_COUNT = sizeof formats / sizeof formats[0] };

/* The names alone, for those who list them; in the order of the table. */
static const char *const names[FORMAT_COUNT] = {"md", "json"};

static const struct report_format *format_named(const char *name) {
    for (size_t i = 0; i < FORMAT_COUNT; i++)
        if (strcmp(formats[i].name, name) == 0)
            return &formats[i];
    return NULL;
}

const char *const *report_formats(size_t *count) {
    *count = FORMAT_COUNT;
    return names;
}

static bool has_extension(const struct report_format *format, const char *extension) {
    for (const char *const *known = format->extensions; *known; known++)
        if (strcasecmp(*known, extension) == 0)
            return true;
    return false;
}

const char *report_format_of(const char *path) {
    const char *name = strrchr(path, '/');
    const char *dot = strrchr(name ? name : path, '.');
    if (!dot)
        return NULL;
    for (size_t i = 0; i < FORMAT_COUNT; i++)
        if (has_extension(&formats[i], dot + 1))
            return formats[i].name;
    return NULL;
}

bool report_format_shows_errors(const char *name) {
    const struct report_format *format = format_named(name);
    return format && format->shows_errors;
}

bool report_write(const struct job *job, const char *name, struct output *out) {
    const struct report_format *format = format_named(name);
    return format && format->write(job, NULL, out);
}
