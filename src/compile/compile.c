/* The driver: the table of passes is the table of contents of the program. */
#include "compile/compile.h"

#include <errno.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>

#include "air/heat.h"
#include "air/leakage.h"
#include "air/operation.h"
#include "base/output.h"
#include "check/check.h"
#include "compile/variants.h"
#include "cost/price.h"
#include "cost/takeoff.h"
#include "lang/syntax.h"
#include "metal/metal.h"
#include "metal/nest.h"
#include "metal/worth.h"
#include "model/model.h"
#include "piece/kinds.h"
#include "report/drawings.h"
#include "report/report.h"
#include "route/route.h"
#include "size/size.h"

struct cleat {
    struct arena *arena, *scratch, *spare; /* the last for what the job would be with a change */
    struct diagnostics diagnostics;
    struct syntax syntax;
    struct job job;
    jmp_buf out_of_memory;
    const char *shop_folder;
    char problem[512];
};

static void build(struct job *job) {
    model_build(job, piece_kinds());
}

static void resolve(struct job *job) {
    model_resolve(job, piece_kinds());
}

/* Each takes what those above it filled, and fills its own part; what is faulty has been reported and is skipped. */
static const struct pass {
    const char *fills;
    void (*run)(struct job *job);
} passes[] = {
    {"units, runs, pieces, settings, shop", build},      {"what each run hangs from", resolve},
    {"ducts, sections, items", model_network},           {"the state of the air", air_set},
    {"airflow of every section", model_airflow},         {"what walls of duct cost", metal_worth},
    {"sizes, losses and the budget", size_ducts},        {"what will really flow", air_operate},
    {"what a gauge reads at start-up", air_start_up},    {"what passes through the walls", air_heat},
    {"what leaks", air_leakage},                         {"parts, blanks, and what is bought", metal_make},
    {"how blanks lie on sheets", metal_nest},            {"where everything is in space", route_place},
    {"everything bought, counted", cost_takeoff},        {"the price, step by step", cost_price},
    {"the sources that were used", air_sources},         {"warnings by name, and those accepted", check_job},
};

static enum cleat_status problem(struct cleat *cleat, enum cleat_status status, const char *format, ...)
    __attribute__((format(printf, 3, 4)));

static enum cleat_status problem(struct cleat *cleat, enum cleat_status status, const char *format, ...) {
    va_list list;
    va_start(list, format);
    vsnprintf(cleat->problem, sizeof cleat->problem, format, list);
    va_end(list);
    return status;
}

struct cleat *cleat_new_from(const struct arena_source *source, const char *shop_folder) {
    struct cleat *cleat = calloc(1, sizeof *cleat);
    struct arena *arena = arena_new(source), *scratch = arena_new(source), *spare = arena_new(source);
    if (!cleat || !arena || !scratch || !spare) {
        arena_free(arena);
        arena_free(scratch);
        arena_free(spare);
        free(cleat);
        return NULL;
    }
    cleat->arena = arena;
    cleat->scratch = scratch;
    cleat->spare = spare;
    cleat->shop_folder = shop_folder;
    cleat->diagnostics.arena = arena;
    cleat->job.arena = arena;
    cleat->job.scratch = scratch;
    cleat->job.diagnostics = &cleat->diagnostics;
    cleat->job.syntax = &cleat->syntax;
    return cleat;
}

struct cleat *cleat_new(const char *shop_folder) {
    return cleat_new_from(NULL, shop_folder);
}

const struct job *cleat_job(const struct cleat *cleat) {
    return &cleat->job;
}

void cleat_free(struct cleat *cleat) {
    if (!cleat)
        return;
    arena_free(cleat->arena);
    arena_free(cleat->scratch);
    arena_free(cleat->spare);
    free(cleat);
}

/* Where to go when memory runs out, from now on. */
static void set_failure(struct cleat *cleat) {
    arena_on_failure(cleat->arena, &cleat->out_of_memory);
    arena_on_failure(cleat->scratch, &cleat->out_of_memory);
    arena_on_failure(cleat->spare, &cleat->out_of_memory);
}

enum { PASSES = sizeof passes / sizeof passes[0] };

static void run_passes_over(struct job *job) {
    for (size_t i = 0; i < PASSES; i++)
        passes[i].run(job);
}

static enum cleat_status run_passes(struct cleat *cleat) {
    const struct compiler compiler = {.passes = run_passes_over, .spare = cleat->spare};
    for (size_t i = 0; i + 1 < PASSES; i++)
        passes[i].run(&cleat->job);
    variants_equal_friction(&cleat->job, &compiler);
    passes[PASSES - 1].run(&cleat->job); /* the checks, which count what was warned of before them */
    variants_alternates(&cleat->job, &compiler);
    diagnostics_sort(&cleat->diagnostics);
    return cleat->diagnostics.error_count ? CLEAT_ERRORS : CLEAT_OK;
}

enum cleat_status cleat_compile(struct cleat *cleat, const char *path) {
    cleat->problem[0] = 0;
    if (setjmp(cleat->out_of_memory))
        return problem(cleat, CLEAT_IO, "there is not enough memory for this job");
    set_failure(cleat);
    const char *cannot = NULL;
    if (!syntax_read(&cleat->syntax, path, cleat->shop_folder, cleat->arena, &cleat->diagnostics, &cannot))
        return problem(cleat, CLEAT_IO, "cannot read %s: %s", path, cannot);
    return run_passes(cleat);
}

enum cleat_status cleat_compile_text(struct cleat *cleat, const char *name, const char *bytes, size_t length) {
    cleat->problem[0] = 0;
    if (setjmp(cleat->out_of_memory))
        return problem(cleat, CLEAT_IO, "there is not enough memory for this job");
    set_failure(cleat);
    syntax_read_text(&cleat->syntax, name, bytes, length, cleat->shop_folder, cleat->arena, &cleat->diagnostics);
    return run_passes(cleat);
}

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
        return problem(cleat, CLEAT_USAGE, "'%s' is no reader of the papers", reader);
    const char *first = known[0];
    known = report_formats(&count);
    if (!among(format, known, count))
        return problem(cleat, CLEAT_USAGE, "'%s' is not a format of the report", format);
    if (!report_has(reader, format))
        return problem(cleat, CLEAT_USAGE, "what is for the %s does not come as %s; --for shop gives the cut list",
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
    return problem(cleat, CLEAT_IO, "cannot write %s: %s", strcmp(path, "-") == 0 ? "standard output" : path, why);
}

/* What is to be written. */
struct writing {
    const char *reader, *format, *path;
    struct drawings *drawings;         /* NULL: none */
    const struct pattern_order *order; /* a pattern, and no packet */
    const char *explained;             /* the working for the thing of that name, and no packet */
};

/* Into `out`; false when memory ran out, here or in a library that does not use the arena. */
static bool write_whole(struct cleat *cleat, const struct writing *writing, struct output *out) {
    if (setjmp(cleat->out_of_memory))
        return false;
    set_failure(cleat);
    if (writing->order)
        return report_pattern(&cleat->job, writing->order, out);
    if (writing->explained)
        return report_explain(&cleat->job, writing->explained, writing->format, out);
    return report_write(&cleat->job, writing->reader, writing->format, writing->drawings, out);
}

/* CLEAT_OK when nothing has failed with the drawings. */
static enum cleat_status drawn_status(struct cleat *cleat, const struct drawings *drawings) {
    const char *why, *failed = drawings ? drawings_failed(drawings, &why) : NULL;
    return failed ? problem(cleat, CLEAT_IO, "cannot write %s: %s", failed, why) : CLEAT_OK;
}

/* The paper and its drawings, all written under new names. */
static enum cleat_status fill_files(struct cleat *cleat, const struct writing *writing, struct output *out) {
    if (!write_whole(cleat, writing, out))
        return problem(cleat, CLEAT_IO, "there is not enough memory%s for this report",
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

/* What a paper says of prices of one more is asked when it is written: that takes as long as compiling.  False: no memory. */
static bool ask_what_ifs(struct cleat *cleat, const char *reader, const char *format) {
    if (setjmp(cleat->out_of_memory))
        return false;
    set_failure(cleat);
    if (report_asks_what_ifs(reader, format))
        variants_what_ifs(&cleat->job, &(struct compiler){.passes = run_passes_over, .spare = cleat->spare});
    return true;
}

/* A paper whose drawings could not be written is not written either, and the drawings are put in their places when the
 * paper needs nothing more than that itself. */
static enum cleat_status write_file(struct cleat *cleat, const struct writing *writing) {
    const char *font = missing_font(writing);
    if (font)
        return problem(cleat, CLEAT_IO, "nothing can be drawn: the font %s is not installed", font);
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

enum cleat_status cleat_write(struct cleat *cleat, const char *reader, const char *format, const char *path) {
    cleat->problem[0] = 0;
    enum cleat_status status = find_packet(cleat, reader, format);
    if (status != CLEAT_OK)
        return status;
    bool errors = cleat->diagnostics.error_count > 0;
    if (errors && !report_format_shows_errors(format))
        return CLEAT_ERRORS;
    if (is_source(cleat, path))
        return problem(cleat, CLEAT_USAGE, "the job itself is read from %s: write the bid to another file", path);
    if (!ask_what_ifs(cleat, reader, format))
        return problem(cleat, CLEAT_IO, "there is not enough memory for this report");
    struct writing writing = {.reader = reader, .format = format, .path = path};
    bool drawn = report_drawn(reader, format) && takes_drawings(path);
    if (drawn)
        writing.drawings = drawings_beside(path);
    if (drawn && !writing.drawings)
        return problem(cleat, CLEAT_IO, "there is not enough memory for this report");
    status = write_file(cleat, &writing);
    drawings_free(writing.drawings);
    return status == CLEAT_OK && errors ? CLEAT_ERRORS : status;
}

/* The part that is meant; false: `why` says what there is instead.  Also false when memory ran out: *why is then "". */
static bool find_pattern(struct cleat *cleat, const char *part, struct pattern_order *order, const char **why) {
    *why = "";
    if (setjmp(cleat->out_of_memory))
        return false;
    set_failure(cleat);
    return report_find_pattern(&cleat->job, part, order, why);
}

enum cleat_status cleat_write_pattern(struct cleat *cleat, const char *part, const char *path) {
    cleat->problem[0] = 0;
    if (cleat->diagnostics.error_count)
        return CLEAT_ERRORS;
    struct pattern_order order;
    const char *why;
    if (!find_pattern(cleat, part, &order, &why))
        return *why ? problem(cleat, CLEAT_USAGE, "%s", why)
                    : problem(cleat, CLEAT_IO, "there is not enough memory for this pattern");
    if (is_source(cleat, path))
        return problem(cleat, CLEAT_USAGE, "the job itself is read from %s: write the pattern to another file", path);
    const char *format = report_format_of(path);
    order.tiled = format && strcmp(format, "pdf") == 0;
    struct writing writing = {.path = path, .order = &order};
    return write_file(cleat, &writing);
}

/* NULL: it can be explained; "": memory ran out. */
static const char *cannot_explain(struct cleat *cleat, const char *name) {
    if (setjmp(cleat->out_of_memory))
        return "";
    set_failure(cleat);
    return report_cannot_explain(&cleat->job, name);
}

enum cleat_status cleat_write_working(struct cleat *cleat, const char *name, const char *format, const char *path) {
    cleat->problem[0] = 0;
    if (cleat->diagnostics.error_count)
        return CLEAT_ERRORS;
    if (strcmp(format, "md") != 0 && strcmp(format, "pdf") != 0)
        return problem(cleat, CLEAT_USAGE, "the working comes as md or pdf, not as %s", format);
    const char *why = cannot_explain(cleat, name);
    if (why)
        return *why ? problem(cleat, CLEAT_USAGE, "%s", why)
                    : problem(cleat, CLEAT_IO, "there is not enough memory for this report");
    if (is_source(cleat, path))
        return problem(cleat, CLEAT_USAGE, "the job itself is read from %s: write the working to another file", path);
    struct writing writing = {.path = path, .format = format, .explained = name};
    return write_file(cleat, &writing);
}

const char *cleat_checks(struct cleat *cleat) {
    if (setjmp(cleat->out_of_memory))
        return "";
    set_failure(cleat);
    return report_checks(cleat->arena);
}

const char *cleat_parts(struct cleat *cleat) {
    if (cleat->diagnostics.error_count)
        return "";
    if (setjmp(cleat->out_of_memory))
        return "";
    set_failure(cleat);
    return report_parts(&cleat->job);
}

const char *cleat_summary(struct cleat *cleat) {
    if (cleat->diagnostics.error_count)
        return "";
    if (setjmp(cleat->out_of_memory))
        return "";
    set_failure(cleat);
    return report_summary(&cleat->job);
}

void cleat_print_diagnostics(const struct cleat *cleat, FILE *out, bool colour, bool json) {
    if (json)
        report_diagnostics_json(&cleat->diagnostics, out);
    else
        diagnostics_print(out, &cleat->diagnostics, colour);
}

size_t cleat_error_count(const struct cleat *cleat) {
    return cleat->diagnostics.error_count;
}

size_t cleat_warning_count(const struct cleat *cleat) {
    return cleat->diagnostics.warning_count;
}

const char *cleat_problem(const struct cleat *cleat) {
    return cleat->problem[0] ? cleat->problem : NULL;
}
