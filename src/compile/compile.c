/* The driver: the table of passes is the table of contents of the program. */
#include "compile/compile.h"

#include <errno.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>

#include "air/air.h"
#include "base/output.h"
#include "check/check.h"
#include "lang/syntax.h"
#include "metal/metal.h"
#include "model/model.h"
#include "piece/kinds.h"
#include "report/report.h"
#include "size/size.h"

struct cleat {
    struct arena *arena;
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
    {"units, runs, pieces, settings, shop", build},
    {"what each run hangs from", resolve},
    {"ducts, sections, items", model_network},
    {"the state of the air", air_set},
    {"airflow of every section", model_airflow},
    {"sizes, losses and the budget", size_ducts},
    {"parts, blanks, and what is bought", metal_make},
    {"the sources that were used", air_sources},
    {"warnings by name, and those accepted", check_job},
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
    struct arena *arena = arena_new(source);
    if (!cleat || !arena) {
        arena_free(arena);
        free(cleat);
        return NULL;
    }
    cleat->arena = arena;
    cleat->shop_folder = shop_folder;
    cleat->diagnostics.arena = arena;
    cleat->job.arena = arena;
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
    free(cleat);
}

static enum cleat_status run_passes(struct cleat *cleat) {
    for (size_t i = 0; i < sizeof passes / sizeof passes[0]; i++)
        passes[i].run(&cleat->job);
    diagnostics_sort(&cleat->diagnostics);
    return cleat->diagnostics.error_count ? CLEAT_ERRORS : CLEAT_OK;
}

enum cleat_status cleat_compile(struct cleat *cleat, const char *path) {
    cleat->problem[0] = 0;
    if (setjmp(cleat->out_of_memory))
        return problem(cleat, CLEAT_IO, "there is not enough memory for this job");
    arena_on_failure(cleat->arena, &cleat->out_of_memory);
    const char *cannot = NULL;
    if (!syntax_read(&cleat->syntax, path, cleat->shop_folder, cleat->arena, &cleat->diagnostics, &cannot))
        return problem(cleat, CLEAT_IO, "cannot read %s: %s", path, cannot);
    return run_passes(cleat);
}

enum cleat_status cleat_compile_text(struct cleat *cleat, const char *name, const char *bytes, size_t length) {
    cleat->problem[0] = 0;
    if (setjmp(cleat->out_of_memory))
        return problem(cleat, CLEAT_IO, "there is not enough memory for this job");
    arena_on_failure(cleat->arena, &cleat->out_of_memory);
    syntax_read_text(&cleat->syntax, name, bytes, length, cleat->shop_folder, cleat->arena, &cleat->diagnostics);
    return run_passes(cleat);
}

const char *const *cleat_formats(size_t *count) {
    return report_formats(count);
}

const char *cleat_format_of(const char *path) {
    return report_format_of(path);
}

/* Writes the whole report into `out`; false when memory or the format failed, which has been noted as the problem. */
static bool write_report(struct cleat *cleat, const char *format, struct output *out) {
    if (setjmp(cleat->out_of_memory)) {
        problem(cleat, CLEAT_IO, "there is not enough memory for this report");
        return false;
    }
    arena_on_failure(cleat->arena, &cleat->out_of_memory);
    if (report_write(&cleat->job, format, out))
        return true;
    problem(cleat, CLEAT_IO, "there is not enough memory for this report");
    return false;
}

static bool known_format(const char *format) {
    size_t count;
    const char *const *formats = report_formats(&count);
    for (size_t i = 0; i < count; i++)
        if (strcmp(formats[i], format) == 0)
            return true;
    return false;
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

/* "cannot write bid.md: No space left on device"; from errno. */
static enum cleat_status cannot_write(struct cleat *cleat, const char *path) {
    char why[128] = "";
    strerror_r(errno, why, sizeof why);
    return problem(cleat, CLEAT_IO, "cannot write %s: %s", strcmp(path, "-") == 0 ? "standard output" : path, why);
}

enum cleat_status cleat_write(struct cleat *cleat, const char *format, const char *path) {
    cleat->problem[0] = 0;
    if (!known_format(format))
        return problem(cleat, CLEAT_USAGE, "'%s' is not a format of the report", format);
    bool errors = cleat->diagnostics.error_count > 0;
    if (errors && !report_format_shows_errors(format))
        return CLEAT_ERRORS;
    if (is_source(cleat, path))
        return problem(cleat, CLEAT_USAGE, "the job itself is read from %s: write the bid to another file", path);
    struct output *out = output_open(path);
    if (!out)
        return cannot_write(cleat, path);
    if (!write_report(cleat, format, out)) {
        output_abandon(out);
        return CLEAT_IO;
    }
    if (!output_commit(out))
        return cannot_write(cleat, path);
    return errors ? CLEAT_ERRORS : CLEAT_OK;
}

const char *cleat_summary(struct cleat *cleat) {
    if (cleat->diagnostics.error_count)
        return "";
    if (setjmp(cleat->out_of_memory))
        return "";
    arena_on_failure(cleat->arena, &cleat->out_of_memory);
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
