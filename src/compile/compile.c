/* The driver: the table of passes is the table of contents of the program. */
#include "compile/driver.h"

#include <stdarg.h>
#include <stdlib.h>
#include <string.h>

#include "air/heat.h"
#include "air/leakage.h"
#include "air/operation.h"
#include "check/check.h"
#include "compile/effects.h"
#include "compile/retype.h"
#include "compile/variants.h"
#include "cost/price.h"
#include "cost/takeoff.h"
#include "metal/metal.h"
#include "metal/nest.h"
#include "metal/worth.h"
#include "model/model.h"
#include "piece/kinds.h"
#include "route/route.h"
#include "size/size.h"

static void build(struct job *job) {
    model_build(job, piece_kinds());
}

static void resolve(struct job *job) {
    model_resolve(job, piece_kinds());
}

/* Each takes what those above it filled, and fills its own part; what is faulty has been reported and is skipped.  The
 * alternates come behind the table: the whole of it runs again for each (run_passes, alternates.c).  One row a line,
 * which the formatter would fill like text. */
/* clang-format off */
static const struct pass {
    const char *name;
    void (*run)(struct job *job);
} passes[] = {
    {"build", build},             /* units, runs, pieces, settings, shop */
    {"resolve", resolve},         /* what each run hangs from */
    {"network", model_network},   /* ducts, sections, items */
    {"air", air_set},             /* the state of the air */
    {"airflow", model_airflow},   /* airflow of every section */
    {"worth", metal_worth},       /* what walls of duct cost */
    {"size", size_ducts},         /* sizes, losses and the budget */
    {"operate", air_operate},     /* what will really flow */
    {"start-up", air_start_up},   /* what a gauge reads at start-up */
    {"make", metal_make},         /* parts, blanks, and what is bought */
    {"heat", heat_fill},           /* what passes through the walls, of which "make" knows the surface */
    {"leakage", leakage_fill},     /* what leaks, likewise */
    {"place", route_place},       /* where everything is in space */
    {"nest", metal_nest},         /* how blanks lie on sheets */
    {"takeoff", cost_takeoff},    /* everything bought, counted */
    {"price", cost_price},        /* the price, step by step */
    {"sources", air_sources},     /* the sources that were used */
    {"check", check_job},         /* warnings by name, and those accepted */
};
/* clang-format on */

enum { PASS_COUNT = sizeof passes / sizeof passes[0] };

enum cleat_status driver_problem(struct cleat *cleat, enum cleat_status status, const char *format, ...) {
    va_list list;
    va_start(list, format);
    vsnprintf(cleat->problem, sizeof cleat->problem, format, list);
    va_end(list);
    return status;
}

/* About two seconds each, by measurement: no job waits much longer for its papers, however many estimates it has.
 * Chosen here. */
static const struct effort usual_effort = {.whole = 4000, .sizes = 200000};

struct cleat *cleat_new_from(const struct arena_source *source, const char *shop_folder) {
    struct cleat *cleat = calloc(1, sizeof *cleat);
    struct arena *arena = arena_new(source), *scratch = arena_new(source), *spare = arena_new(source);
    struct arena *beside = arena_new(source);
    if (!cleat || !arena || !scratch || !spare || !beside) {
        arena_free(arena);
        arena_free(scratch);
        arena_free(spare);
        arena_free(beside);
        free(cleat);
        return NULL;
    }
    cleat->arena = arena;
    cleat->scratch = scratch;
    cleat->spare = spare;
    cleat->beside = beside;
    cleat->effort = usual_effort;
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
    arena_free(cleat->beside);
    free(cleat);
}

void driver_guard(struct cleat *cleat) {
    arena_on_failure(cleat->arena, &cleat->out_of_memory);
    arena_on_failure(cleat->scratch, &cleat->out_of_memory);
    arena_on_failure(cleat->spare, &cleat->out_of_memory);
    arena_on_failure(cleat->beside, &cleat->out_of_memory);
}

/* The first so many of the table. */
static void run_first(struct job *job, size_t count) {
    for (size_t i = 0; i < count; i++)
        passes[i].run(job);
}

static void run_all(struct job *job) {
    run_first(job, PASS_COUNT);
}

/* Through the pass "size": all that pressure hangs on, in a hundredth of the time. */
static void run_sizes(struct job *job) {
    size_t count = 0;
    while (passes[count++].run != size_ducts)
        ;
    run_first(job, count);
}

static struct compiler compiler_of(const struct cleat *cleat) {
    return (struct compiler){
        .passes = run_all, .sizes = run_sizes, .spare = cleat->spare, .beside = cleat->beside, .effort = cleat->effort};
}

void driver_what_ifs(struct cleat *cleat) {
    struct compiler compiler = compiler_of(cleat);
    variants_what_ifs(&cleat->job, &compiler);
}

void driver_effects(struct cleat *cleat) {
    struct compiler compiler = compiler_of(cleat);
    effects_ask(&cleat->job, &compiler);
}

const struct job *driver_with_alternate(struct cleat *cleat, size_t alternate) {
    struct compiler compiler = compiler_of(cleat);
    return variants_with(&cleat->job, (struct variant){.alternate = alternate}, &compiler);
}

/* All of the table, and what is asked of the job itself and not of its variants: the checks count what the comparison
 * with another method warns of, and may have ways out of a budget compiled. */
static void run_whole(struct cleat *cleat) {
    struct compiler compiler = compiler_of(cleat);
    struct retypist typist = retypist_make(compiler, cleat->shop_folder);
    for (size_t i = 0; i < PASS_COUNT; i++) {
        if (passes[i].run == check_job) {
            variants_compared(&cleat->job, &compiler);
            cleat->job.retyper = &typist.base;
        }
        passes[i].run(&cleat->job);
    }
    cleat->job.retyper = NULL;
    variants_alternates(&cleat->job, &compiler);
}

static enum cleat_status run_passes(struct cleat *cleat, size_t count) {
    if (count < PASS_COUNT)
        run_first(&cleat->job, count);
    else
        run_whole(cleat);
    diagnostics_sort(&cleat->diagnostics);
    return cleat->diagnostics.error_count ? CLEAT_ERRORS : CLEAT_OK;
}

enum cleat_status cleat_compile(struct cleat *cleat, const char *path) {
    cleat->problem[0] = 0;
    if (setjmp(cleat->out_of_memory))
        return driver_problem(cleat, CLEAT_IO, "there is not enough memory for this job");
    driver_guard(cleat);
    const char *cannot = NULL;
    if (!syntax_read(&cleat->syntax, path, cleat->shop_folder, cleat->arena, &cleat->diagnostics, &cannot))
        return driver_problem(cleat, CLEAT_IO, "cannot read %s: %s", path, cannot);
    return run_passes(cleat, PASS_COUNT);
}

static enum cleat_status compile_text(struct cleat *cleat, const char *name, const char *bytes, size_t length,
                                      size_t count) {
    cleat->problem[0] = 0;
    if (setjmp(cleat->out_of_memory))
        return driver_problem(cleat, CLEAT_IO, "there is not enough memory for this job");
    driver_guard(cleat);
    syntax_read_text(&cleat->syntax, name, bytes, length, cleat->shop_folder, cleat->arena, &cleat->diagnostics);
    return run_passes(cleat, count);
}

enum cleat_status cleat_compile_text(struct cleat *cleat, const char *name, const char *bytes, size_t length) {
    return compile_text(cleat, name, bytes, length, PASS_COUNT);
}

bool cleat_compile_until(struct cleat *cleat, const char *pass, const char *name, const char *bytes, size_t length) {
    for (size_t i = 0; i < PASS_COUNT; i++)
        if (strcmp(passes[i].name, pass) == 0)
            return compile_text(cleat, name, bytes, length, i + 1) != CLEAT_IO;
    return false;
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
