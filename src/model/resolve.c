/* What each run hangs from: the steps in their order. */
#include "model/resolve.h"

#include <stdarg.h>

#include "model/taps.h"

struct diagnostic *run_error(struct resolve *resolve, struct run *run, const char *check, struct span at,
                             const char *format, ...) {
    va_list list;
    va_start(list, format);
    const char *message = arena_format_list(resolve->job->arena, format, list);
    va_end(list);
    run->faulty = true;
    return diagnose(resolve->job->diagnostics, DIAGNOSTIC_ERROR, check, at, "%s", message);
}

/* Only if there are no errors: what seems to be missing may be in a statement that could not be read. */
static void check_missing(struct resolve *resolve) {
    struct job *job = resolve->job;
    struct diagnostics *all = job->diagnostics;
    if (all->error_count)
        return;
    if (!job->units.count) {
        struct diagnostic *error =
            diagnose(all, DIAGNOSTIC_ERROR, "unit", job->at, "there is no 'unit': nothing moves the air");
        diagnostic_hint(all, error, "unit AHU { airflow 1200 cfm }");
    }
    for (size_t i = 0; i < job->units.count; i++) {
        const struct air_unit *unit = job->units.at[i];
        const char *open = !unit->supply_run ? "supply" : !unit->return_run ? "return" : NULL;
        if (!open)
            continue;
        struct diagnostic *error = diagnose(all, DIAGNOSTIC_ERROR, "unit", unit->at,
                                            "nothing hangs from %s.%s: expected a %s side", unit->name, open, open);
        diagnostic_hint(all, error, "run NAME from %s.%s { straight 6 ft }", unit->name, open);
    }
}

/* Read and checked for sense, but not part of the network: names, pieces, a tap beyond the end of its run. */
static void resolve_alternate(struct resolve *resolve, struct alternate *alternate) {
    struct names names = {.arena = resolve->job->arena};
    resolve_alternate_names(resolve, alternate, &names);
    for (size_t i = 0; i < alternate->runs.count; i++) {
        struct run *run = alternate->runs.at[i];
        resolve_port(resolve, run, &names);
        resolve_pieces(resolve, run);
    }
    for (size_t i = 0; i < alternate->runs.count; i++) {
        struct run *run = alternate->runs.at[i];
        const struct run *parent = run->from.run;
        if (run->faulty || run->from.kind != PORT_TAP || parent->faulty)
            continue;
        if (run->from.station > parent->length + SAME_STATION)
            run_error(resolve, run, "tap", run->from.station_at, "'%s' is tapped in beyond the end of '%s'", run->name,
                      parent->name);
    }
}

static void each_run(struct resolve *resolve, void (*step)(struct resolve *resolve, struct run *run)) {
    for (size_t i = 0; i < resolve->job->runs.count; i++)
        step(resolve, resolve->job->runs.at[i]);
}

static void resolve_base_port(struct resolve *resolve, struct run *run) {
    resolve_port(resolve, run, &resolve->names);
}

void model_resolve(struct job *job, const struct piece_table *pieces) {
    job->pieces = pieces;
    struct resolve resolve = {.job = job,
                              .pieces = pieces,
                              .names = {.arena = job->arena},
                              .alternates = {.arena = job->arena},
                              .unknown = {.arena = job->arena}};
    resolve_names(&resolve);
    each_run(&resolve, resolve_base_port);
    each_run(&resolve, resolve_pieces);
    each_run(&resolve, resolve_hang);
    each_run(&resolve, resolve_legs);
    each_run(&resolve, resolve_taps);
    resolve_order(&resolve);
    each_run(&resolve, resolve_end);
    for (size_t i = 0; i < job->alternates.count; i++)
        resolve_alternate(&resolve, job->alternates.at[i]);
    check_missing(&resolve);
}
