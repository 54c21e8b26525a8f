/* From every run to its unit, without recursion: a chain of runs may be as long as the job. */
#include "model/resolve.h"

#include <assert.h>

#include "model/inherit.h"

enum colour { WHITE, GREY, BLACK }; /* not seen, on the way at hand, done */

struct walk {
    struct resolve *resolve;
    unsigned char *colour;  /* by run->id */
    LIST(struct run *) way; /* from a run toward its unit */
};

/* If a member has an error already the loop follows from that: all become faulty without another message. */
static bool spoken_of(struct run *const *members, size_t count) {
    bool faulty = false;
    for (size_t i = 0; i < count; i++)
        faulty |= members[i]->faulty;
    for (size_t i = 0; i < count && faulty; i++)
        members[i]->faulty = true;
    return faulty;
}

/* The first free collar: most likely where the run was meant to hang. */
static void hint_collar(struct resolve *resolve, struct diagnostic *error) {
    struct job *job = resolve->job;
    for (size_t i = 0; i < job->units.count; i++) {
        const struct air_unit *unit = job->units.at[i];
        if (unit->supply_run && unit->return_run)
            continue;
        diagnostic_hint(job->diagnostics, error, "from %s.%s", unit->name, unit->supply_run ? "return" : "supply");
        return;
    }
}

/* The members of a loop, from `first` round to it again; a long loop is cut in the middle. */
static void report_loop(struct walk *walk, size_t first) {
    const size_t shown = 8;
    struct arena *arena = walk->resolve->job->arena;
    struct diagnostics *all = walk->resolve->job->diagnostics;
    struct run *const *members = walk->way.at + first;
    size_t count = walk->way.count - first;
    if (spoken_of(members, count))
        return;
    if (count == 1) {
        struct diagnostic *error = run_error(walk->resolve, members[0], "loop", members[0]->from.at,
                                             "'%s' hangs from itself, not from a unit", members[0]->name);
        hint_collar(walk->resolve, error);
        return;
    }
    const char *text = arena_format(arena, "'%s'", members[0]->name);
    for (size_t i = 1; i < count && i < shown; i++)
        text = arena_format(arena, "%s from '%s'", text, members[i]->name);
    struct diagnostic *error = run_error(walk->resolve, members[0], "loop", members[0]->from.at,
                                         "these runs hang from each other, not from a unit: %s%s from '%s'", text,
                                         count > shown ? " ..." : "", members[0]->name);
    for (size_t i = 1; i < count && i < shown; i++)
        diagnostic_relate(all, error, members[i]->from.at, "'%s' hangs from '%s'", members[i]->name,
                          members[i]->from.name);
    hint_collar(walk->resolve, error);
    for (size_t i = 0; i < count; i++)
        members[i]->faulty = true;
}

static void check_side(struct resolve *resolve, struct run *run) {
    bool wrong = run->supply ? run->role == RUN_INLET : run->role == RUN_OUTLET;
    if (!wrong)
        return;
    struct diagnostic *error =
        run_error(resolve, run, "port", run->from.at, "'%s' is an %s, but hangs on the %s side of '%s'", run->name,
                  run->role == RUN_OUTLET ? "outlet" : "inlet", run->supply ? "supply" : "return", run->unit->name);
    diagnostic_hint(resolve->job->diagnostics, error, "%s %s from %s", run->supply ? "outlet" : "inlet", run->name,
                    run->from.name);
}

/* The parent is done: what the run takes over from it. */
static void settle(struct resolve *resolve, struct run *run) {
    struct port *port = &run->from;
    if (port->run) {
        run->parent = port->run;
        run->faulty |= port->run->faulty;
        run->unit = port->run->unit;
        run->supply = port->run->supply;
    } else if (port->kind == PORT_UNIT) {
        run->faulty |= port->unit->faulty;
        run->unit = port->unit;
        run->supply = port->supply;
    }
    if (port->kind == PORT_NONE || !run->unit)
        run->faulty = true;
    if (!run->faulty)
        check_side(resolve, run);
    if (run->faulty)
        return;
    settings_inherit(run, resolve->job);
    if (run->role != RUN_DUCT)
        *(run->supply ? &run->unit->has_outlet : &run->unit->has_inlet) = true;
}

static void walk_from(struct walk *walk, struct run *run) {
    walk->way.count = 0;
    while (run && walk->colour[run->id] == WHITE) {
        walk->colour[run->id] = GREY;
        *list_add(walk->resolve->job->arena, &walk->way) = run;
        run = run->from.run;
    }
    if (run && walk->colour[run->id] == GREY) {
        size_t first = 0;
        assert(walk->way.count); /* what is grey is on the way */
        while (walk->way.at[first] != run)
            first++;
        report_loop(walk, first);
    }
    for (size_t i = walk->way.count; i-- > 0;) {
        settle(walk->resolve, walk->way.at[i]);
        walk->colour[walk->way.at[i]->id] = BLACK;
    }
}

void resolve_order(struct resolve *resolve) {
    struct job *job = resolve->job;
    struct walk walk = {.resolve = resolve, .colour = ARENA_ARRAY(job->arena, unsigned char, job->runs.count)};
    for (size_t i = 0; i < job->runs.count; i++)
        walk_from(&walk, job->runs.at[i]);
}
