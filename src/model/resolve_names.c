/* One name, one thing. */
#include "model/resolve.h"

static struct span place_of(const struct name *name) {
    if (name->kind == NAMED_UNIT)
        return ((const struct air_unit *)name->thing)->at;
    if (name->kind == NAMED_ALTERNATE)
        return ((const struct alternate *)name->thing)->at;
    return ((const struct run *)name->thing)->at;
}

/* A name like `text` that nothing has: "desk_2". */
static const char *free_name(const struct resolve *resolve, const struct names *names, const char *text) {
    for (int i = 2; i < 100; i++) {
        const char *other = arena_format(resolve->job->arena, "%s_%d", text, i);
        if (!names_find(names, other) && !names_find(&resolve->names, other))
            return other;
    }
    return NULL;
}

static void say_taken(struct resolve *resolve, const struct names *names, struct diagnostic *error, const char *text,
                      struct span first) {
    const int often = 20; /* as names that nothing is called by: a job full of errors stays linear */
    diagnostic_relate(resolve->job->diagnostics, error, first, "first declared here");
    const char *other = resolve->free_sought++ < often ? free_name(resolve, names, text) : NULL;
    if (other)
        diagnostic_hint(resolve->job->diagnostics, error, "call this one %s", other);
}

/* Whether nothing of `others` is called so either, which is diagnosed. */
static bool is_free(struct resolve *resolve, const struct names *others, const char *text, struct span at) {
    const struct name *taken = names_find(others, text);
    if (!taken)
        return true;
    struct diagnostic *error =
        diagnose(resolve->job->diagnostics, DIAGNOSTIC_ERROR, "name", at, "there are two things called '%s'", text);
    say_taken(resolve, others, error, text, place_of(taken));
    return false;
}

/* Enters `thing`; false: the name is taken, which has been diagnosed. */
static bool enter(struct resolve *resolve, struct names *names, const char *text, struct span at, void *thing,
                  enum named kind) {
    struct diagnostics *all = resolve->job->diagnostics;
    struct name *name = names_add(names, text);
    if (name->thing) {
        struct diagnostic *error =
            diagnose(all, DIAGNOSTIC_ERROR, "name", at, "there are two things called '%s'", text);
        say_taken(resolve, names, error, text, place_of(name));
        return false;
    }
    name->thing = thing;
    name->kind = (int)kind;
    return true;
}

void resolve_names(struct resolve *resolve) {
    struct job *job = resolve->job;
    for (size_t i = 0; i < job->units.count; i++) {
        struct air_unit *unit = job->units.at[i];
        if (enter(resolve, &resolve->names, unit->name, unit->at, unit, NAMED_UNIT))
            *list_add(job->arena, &resolve->candidates) = unit->name;
        else
            unit->faulty = true;
    }
    for (size_t i = 0; i < job->runs.count; i++) {
        struct run *run = job->runs.at[i];
        if (enter(resolve, &resolve->names, run->name, run->at, run, NAMED_RUN))
            *list_add(job->arena, &resolve->candidates) = run->name;
        else
            run->faulty = true;
    }
    for (size_t i = 0; i < job->alternates.count; i++) {
        struct alternate *alternate = job->alternates.at[i];
        if (is_free(resolve, &resolve->names, alternate->name, alternate->at))
            enter(resolve, &resolve->alternates, alternate->name, alternate->at, alternate, NAMED_ALTERNATE);
    }
}

static void leave_out(struct resolve *resolve, struct names *without, struct left_out *out) {
    struct diagnostics *all = resolve->job->diagnostics;
    struct name *name = names_add(without, out->name);
    const struct left_out *before = name->thing;
    name->thing = out;
    if (!before)
        return;
    struct diagnostic *error = diagnose(all, DIAGNOSTIC_ERROR, "name", out->at, "'%s' is left out twice", out->name);
    diagnostic_relate(all, error, before->at, "it is left out here already");
    diagnostic_hint(all, error, "name each once: without %s", out->name);
}

/* What an alternate leaves out must be there to be left out. */
static void check_without(struct resolve *resolve, const struct alternate *alternate, struct names *without) {
    struct diagnostics *all = resolve->job->diagnostics;
    for (size_t i = 0; i < alternate->without.count; i++) {
        struct left_out *out = &alternate->without.at[i];
        const struct name *name = names_find(&resolve->names, out->name);
        if (name && name->kind == NAMED_RUN) {
            leave_out(resolve, without, out);
            continue;
        }
        struct diagnostic *error = diagnose(all, DIAGNOSTIC_ERROR, "name", out->at,
                                            "there is no run, outlet or inlet called '%s' to leave out", out->name);
        const char *nearest = resolve_nearest(resolve, out->name);
        if (nearest)
            diagnostic_hint(all, error, "write %s", nearest);
    }
}

static void say_empty(struct resolve *resolve, const struct alternate *alternate) {
    struct diagnostics *all = resolve->job->diagnostics;
    struct diagnostic *error =
        diagnose(all, DIAGNOSTIC_ERROR, "alternate", alternate->at, "alternate %s changes nothing", alternate->name);
    for (size_t i = 0; i < resolve->job->runs.count; i++)
        if (resolve->job->runs.at[i]->role == RUN_OUTLET) {
            diagnostic_hint(all, error, "say what it adds or leaves out: alternate %s { without %s }", alternate->name,
                            resolve->job->runs.at[i]->name);
            return;
        }
}

void resolve_alternate_names(struct resolve *resolve, struct alternate *alternate, struct names *names) {
    struct names without = {.arena = resolve->job->arena};
    check_without(resolve, alternate, &without);
    if (!alternate->runs.count && !alternate->without.count)
        say_empty(resolve, alternate);
    for (size_t i = 0; i < alternate->runs.count; i++) {
        struct run *run = alternate->runs.at[i];
        const struct name *taken = names_find(&resolve->names, run->name);
        if (taken && !names_find(&without, run->name)) {
            struct diagnostic *error =
                run_error(resolve, run, "name", run->at, "there are two things called '%s'", run->name);
            say_taken(resolve, names, error, run->name, place_of(taken));
        } else if (!is_free(resolve, &resolve->alternates, run->name, run->at) ||
                   !enter(resolve, names, run->name, run->at, run, NAMED_RUN)) {
            run->faulty = true;
        }
    }
}

const char *resolve_nearest(struct resolve *resolve, const char *name) {
    const int often = 20;
    if (resolve->nearest_sought++ >= often)
        return NULL;
    return text_nearest(name, resolve->candidates.at, resolve->candidates.count);
}
