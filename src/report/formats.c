/* The table of formats, and the library's face to it. */
#include "report/formats.h"

#include <string.h>
#include <strings.h>

#include "report/drawings.h"
#include "report/report.h"

static bool write_markdown(const struct job *job, const struct packet *packet, struct drawings *drawings,
                           const struct arena_source *memory, struct output *out) {
    return packet_write(packet, job, &markdown_writer, drawings, memory, out);
}

static bool write_pdf(const struct job *job, const struct packet *packet, struct drawings *drawings,
                      const struct arena_source *memory, struct output *out) {
    (void)drawings;
    return packet_write(packet, job, &pdf_writer, drawings_on_page(), memory, out);
}

/* Everything is for every reader, but the customer. */
static bool write_json(const struct job *job, const struct packet *packet, struct drawings *drawings,
                       const struct arena_source *memory, struct output *out) {
    (void)drawings;
    return json_write_job(job, packet == &packet_customer, memory, out);
}

static bool write_csv(const struct job *job, const struct packet *packet, struct drawings *drawings,
                      const struct arena_source *memory, struct output *out) {
    (void)drawings;
    (void)memory;
    packet->csv(job, out);
    return true;
}

static bool has_csv(const struct packet *packet) {
    return packet->csv;
}

static const char *const markdown_extensions[] = {"md", "markdown", NULL};
static const char *const pdf_extensions[] = {"pdf", NULL};
static const char *const json_extensions[] = {"json", NULL};
static const char *const csv_extensions[] = {"csv", NULL};

static const struct report_format format_md = {
    .extensions = markdown_extensions,
    .drawn = true,
    .write = write_markdown,
};

static const struct report_format format_pdf = {
    .extensions = pdf_extensions,
    .typeset = true,
    .write = write_pdf,
};

static const struct report_format format_json = {
    .extensions = json_extensions,
    .everything = true,
    .shows_errors = true,
    .whole = true,
    .write = write_json,
};

static const struct report_format format_csv = {
    .extensions = csv_extensions,
    .takes = has_csv,
    .write = write_csv,
};

/* The table: ROW(name) for each, format_NAME being what is known of it. */
#define FORMATS(ROW)                                                                                                   \
    ROW(md)                                                                                                            \
    ROW(pdf)                                                                                                           \
    ROW(json)                                                                                                          \
    ROW(csv)

#define FORMAT(name) &format_##name,
#define NAME(name) #name,
static const struct report_format *const formats[] = {FORMATS(FORMAT)};
static const char *const names[] = {FORMATS(NAME)};
enum { FORMAT_COUNT = sizeof formats / sizeof formats[0] };

static const struct report_format *format_named(const char *name) {
    for (size_t i = 0; i < FORMAT_COUNT; i++)
        if (strcmp(names[i], name) == 0)
            return formats[i];
    return NULL;
}

const char *const *report_formats(size_t *count) {
    *count = FORMAT_COUNT;
    return names;
}

const char *const *report_readers(size_t *count) {
    return packet_readers(count);
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
        if (has_extension(formats[i], dot + 1))
            return names[i];
    return NULL;
}

bool report_format_shows_errors(const char *name) {
    const struct report_format *format = format_named(name);
    return format && format->shows_errors;
}

bool report_tells_price(const char *reader) {
    const struct packet *packet = packet_for(reader);
    return packet && packet->tells_price;
}

bool report_format_is_whole(const char *name) {
    const struct report_format *format = format_named(name);
    return format && format->whole;
}

bool report_format_is_typeset(const char *name) {
    const struct report_format *format = name ? format_named(name) : NULL;
    return format && format->typeset;
}

bool report_has(const char *reader, const char *name) {
    const struct packet *packet = packet_for(reader);
    const struct report_format *format = format_named(name);
    return packet && format && (!format->takes || format->takes(packet));
}

bool report_drawn(const char *reader, const char *name) {
    return report_has(reader, name) && packet_for(reader)->drawn && format_named(name)->drawn;
}

bool report_asks_what_ifs(const char *reader, const char *name) {
    return report_has(reader, name) && (format_named(name)->everything || packet_for(reader)->asks_what_ifs);
}

bool report_asks_effects(const char *reader, const char *name) {
    if (!report_has(reader, name))
        return false;
    const struct report_format *format = format_named(name);
    if (format->everything)
        return !reader || packet_for(reader) != &packet_customer;
    return !format->takes && packet_for(reader)->asks_effects;
}

bool report_write(const struct job *job, const char *reader, const char *name, struct drawings *drawings,
                  struct output *out) {
    if (!report_has(reader, name))
        return false;
    const struct report_format *format = format_named(name);
    const struct packet *packet = format->whole && !reader ? NULL : packet_for(reader);
    return format->write(job, packet, drawings, NULL, out);
}
