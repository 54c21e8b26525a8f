/* Writing what was compiled: each paper under a new name until it is whole. */
#include <errno.h>
#include <string.h>
#include <sys/stat.h>

#include "base/output.h"
#include "compile/driver.h"
#include "report/drawings.h"
#include "report/report.h"

const char *const *cleat_formats(size_t *count) {
    return report_formats(count);
}

const char *const *cleat_readers(size_t *count) {
    return report_readers(count);
}

bool cleat_has(const char *reader, const char *format) {
    return report_has(reader, format) && !report_format_is_whole(format);
}

const char *cleat_format_of(const char *path) {
    return report_format_of(path);
}

static bool among(const char *name, const char *const *names, size_t count) {
    for (size_t i = 0; i < count; i++)
        if (strcmp(names[i], name) == 0)
            return true;
    return false;
}

/* Drawings are files beside a file: standard output, a pipe or a device has none. */
static bool takes_drawings(const char *path) {
    struct stat old;
    return strcmp(path, "-") != 0 && (stat(path, &old) != 0 || S_ISREG(old.st_mode));
}

/* CLEAT_OK when that reader's packet can be had in that format. */
static enum cleat_status find_packet(struct cleat *cleat, const char *reader, const char *format) {
    size_t count;
    const char *const *known = report_readers(&count);
    if (reader && !among(reader, known, count))
        return driver_problem(cleat, CLEAT_USAGE, "'%s' is no reader of the papers", reader);
    const char *first = known[0];
    known = report_formats(&count);
    if (!among(format, known, count))
        return driver_problem(cleat, CLEAT_USAGE, "'%s' is not a format of the report", format);
    if (!report_has(reader, format))
        return driver_problem(cleat, CLEAT_USAGE,
                              "what is for the %s does not come as %s; --for shop gives the cut list",
                              reader ? reader : first, format);
    return CLEAT_OK;
}

/* Whether `path` leads to a file that the job was read from, by whatever name or link. */
static bool is_source(const struct cleat *cleat, const char *path) {
    struct stat written, read;
    if (stat(path, &written) != 0)
        return false;
    for (size_t i = 0; i < cleat->syntax.texts.count; i++)
        if (stat(cleat->syntax.texts.at[i]->name, &read) == 0 && read.st_dev == written.st_dev &&
            read.st_ino == written.st_ino)
            return true;
    return false;
}

/* "cannot write bid.md: No space left on device". */
static enum cleat_status cannot_write(struct cleat *cleat, const char *path, int fault) {
    char why[128] = "";
    strerror_r(fault, why, sizeof why);
    return driver_problem(cleat, CLEAT_IO, "cannot write %s: %s", strcmp(path, "-") == 0 ? "standard output" : path,
                          why);
}

/* What is to be written. */
struct writing {
    const char *reader, *format, *path;
    struct drawings *drawings;         /* NULL: none */
    const struct pattern_order *order; /* a pattern, and no packet */
    const struct explained *explained; /* the working for a thing, and no packet */
};

/* Into `out`; false when memory ran out, here or in a library that does not use the arena. */
static bool write_whole(struct cleat *cleat, const struct writing *writing, struct output *out) {
    if (setjmp(cleat->out_of_memory))
        return false;
    driver_guard(cleat);
    if (writing->order)
        return report_pattern(&cleat->job, writing->order, out);
    if (writing->explained)
        return report_explain(writing->explained, writing->format, out);
    return report_write(&cleat->job, writing->reader, writing->format, writing->drawings, out);
}

/* CLEAT_OK when nothing has failed with the drawings. */
static enum cleat_status drawn_status(struct cleat *cleat, const struct drawings *drawings) {
    const char *why, *failed = drawings ? drawings_failed(drawings, &why) : NULL;
    return failed ? driver_problem(cleat, CLEAT_IO, "cannot write %s: %s", failed, why) : CLEAT_OK;
}

/* The paper and its drawings, all written under new names. */
static enum cleat_status fill_files(struct cleat *cleat, const struct writing *writing, struct output *out) {
    if (!write_whole(cleat, writing, out))
        return driver_problem(cleat, CLEAT_IO, "there is not enough memory%s for this report",
                              report_format_is_typeset(writing->format) ? ", or no room for temporary files," : "");
    enum cleat_status status = drawn_status(cleat, writing->drawings);
    if (status == CLEAT_OK && !output_close(out))
        return cannot_write(cleat, writing->path, errno);
    if (status == CLEAT_OK && writing->drawings && !drawings_commit(writing->drawings))
        return drawn_status(cleat, writing->drawings);
    return status;
}

/* NULL: all that it needs are there. */
static const char *missing_font(const struct writing *writing) {
    bool pages = writing->order ? writing->order->tiled : report_format_is_typeset(writing->format);
    return pages || writing->drawings || writing->order ? report_missing_font(pages) : NULL;
}

/* What a paper says of one more, and of estimates that come out otherwise, is asked when it is written: that takes as
 * long as compiling.  False: no memory. */
static bool ask_questions(struct cleat *cleat, const char *reader, const char *format) {
    if (setjmp(cleat->out_of_memory))
        return false;
    driver_guard(cleat);
    if (report_asks_what_ifs(reader, format))
        driver_what_ifs(cleat);
    if (report_asks_effects(reader, format))
        driver_effects(cleat);
    return true;
}

/* A paper whose drawings could not be written is not written either, and the drawings are put in their places when the
 * paper needs nothing more than that itself. */
static enum cleat_status write_file(struct cleat *cleat, const struct writing *writing) {
    const char *font = missing_font(writing);
    if (font)
        return driver_problem(cleat, CLEAT_IO, "nothing can be drawn: the font %s is not installed", font);
    struct output *out = output_open(writing->path);
    if (!out)
        return cannot_write(cleat, writing->path, errno);
    enum cleat_status status = fill_files(cleat, writing, out);
    if (status != CLEAT_OK) {
        output_abandon(out);
        return status;
    }
    if (!output_commit(out))
        return cannot_write(cleat, writing->path, errno);
    if (writing->drawings)
        drawings_sweep(writing->drawings);
    return CLEAT_OK;
}

/* Whether there is something wrong with more than the price: then nothing is to be built by what was computed. */
bool cleat_is_faulty(const struct cleat *cleat) {
    return cleat->diagnostics.error_count > cleat->diagnostics.price_error_count;
}

bool cleat_writes(const struct cleat *cleat, const char *reader, const char *format) {
    bool errors = cleat->diagnostics.error_count > 0;
    return !errors || report_format_shows_errors(format) || (!cleat_is_faulty(cleat) && !report_tells_price(reader));
}

enum cleat_status cleat_write(struct cleat *cleat, const char *reader, const char *format, const char *path) {
    cleat->problem[0] = 0;
    enum cleat_status status = find_packet(cleat, reader, format);
    if (status != CLEAT_OK)
        return status;
    bool errors = cleat->diagnostics.error_count > 0;
    if (!cleat_writes(cleat, reader, format))
        return CLEAT_ERRORS;
    if (is_source(cleat, path))
        return driver_problem(cleat, CLEAT_USAGE, "the job itself is read from %s: write to another file", path);
    if (!ask_questions(cleat, reader, format))
        return driver_problem(cleat, CLEAT_IO, "there is not enough memory for this report");
    struct writing writing = {.reader = reader, .format = format, .path = path};
    bool drawn = report_drawn(reader, format) && takes_drawings(path);
    if (drawn)
        writing.drawings = drawings_beside(path);
    if (drawn && !writing.drawings)
        return driver_problem(cleat, CLEAT_IO, "there is not enough memory for this report");
    status = write_file(cleat, &writing);
    drawings_free(writing.drawings);
    return status == CLEAT_OK && errors ? CLEAT_ERRORS : status;
}

/* The part that is meant; false: `why` says what there is instead.  Also false when memory ran out: *why is then "". */
static bool find_pattern(struct cleat *cleat, const char *part, struct pattern_order *order, const char **why) {
    *why = "";
    if (setjmp(cleat->out_of_memory))
        return false;
    driver_guard(cleat);
    return report_find_pattern(&cleat->job, part, order, why);
}

enum cleat_status cleat_write_pattern(struct cleat *cleat, const char *part, const char *path) {
    cleat->problem[0] = 0;
    if (cleat_is_faulty(cleat))
        return CLEAT_ERRORS;
    struct pattern_order order;
    const char *why;
    if (!find_pattern(cleat, part, &order, &why))
        return *why ? driver_problem(cleat, CLEAT_USAGE, "%s", why)
                    : driver_problem(cleat, CLEAT_IO, "there is not enough memory for this pattern");
    if (is_source(cleat, path))
        return driver_problem(cleat, CLEAT_USAGE, "the job itself is read from %s: write to another file", path);
    const char *format = report_format_of(path);
    order.tiled = format && strcmp(format, "pdf") == 0;
    struct writing writing = {.path = path, .order = &order};
    enum cleat_status status = write_file(cleat, &writing);
    return status == CLEAT_OK && cleat->diagnostics.error_count ? CLEAT_ERRORS : status;
}

/* Fills in where the thing is.  NULL: it can be explained; "": memory ran out. */
static const char *cannot_explain(struct cleat *cleat, struct explained *explained) {
    if (setjmp(cleat->out_of_memory))
        return "";
    driver_guard(cleat);
    const char *why = report_cannot_explain(&cleat->job, explained->name);
    size_t alternate = report_alternate_of(&cleat->job, explained->name, 1);
    size_t other = alternate ? report_alternate_of(&cleat->job, explained->name, alternate + 1) : 0;
    explained->alternate = alternate ? cleat->job.alternates.at[alternate - 1] : NULL;
    explained->other = other ? cleat->job.alternates.at[other - 1] : NULL;
    explained->job = alternate ? driver_with_alternate(cleat, alternate) : &cleat->job;
    return why;
}

enum cleat_status cleat_write_working(struct cleat *cleat, const char *name, const char *format, const char *path) {
    cleat->problem[0] = 0;
    if (cleat->diagnostics.error_count)
        return CLEAT_ERRORS;
    if (strcmp(format, "md") != 0 && strcmp(format, "pdf") != 0)
        return driver_problem(cleat, CLEAT_USAGE, "the working comes as md or pdf, not as %s", format);
    struct explained explained = {.name = name};
    const char *why = cannot_explain(cleat, &explained);
    if (why)
        return *why ? driver_problem(cleat, CLEAT_USAGE, "%s", why)
                    : driver_problem(cleat, CLEAT_IO, "there is not enough memory for this report");
    if (is_source(cleat, path))
        return driver_problem(cleat, CLEAT_USAGE, "the job itself is read from %s: write to another file", path);
    struct writing writing = {.path = path, .format = format, .explained = &explained};
    return write_file(cleat, &writing);
}

const char *cleat_checks(struct cleat *cleat) {
    if (setjmp(cleat->out_of_memory))
        return "";
    driver_guard(cleat);
    return report_checks(cleat->arena);
}

const char *cleat_parts(struct cleat *cleat) {
    if (cleat_is_faulty(cleat))
        return "";
    if (setjmp(cleat->out_of_memory))
        return "";
    driver_guard(cleat);
    return report_parts(&cleat->job);
}

const char *cleat_summary(struct cleat *cleat) {
    if (cleat->diagnostics.error_count)
        return "";
    if (setjmp(cleat->out_of_memory))
        return "";
    driver_guard(cleat);
    return report_summary(&cleat->job);
}

void cleat_print_diagnostics(const struct cleat *cleat, FILE *out, bool colour, bool json) {
    if (json)
        report_diagnostics_json(&cleat->diagnostics, out);
    else
        diagnostics_print(out, &cleat->diagnostics, colour);
}
