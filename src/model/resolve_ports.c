/* What a run hangs from. */
#include "model/resolve.h"

#include <string.h>

#include "model/words.h"

/* ---- Names to things --------------------------------------------------------------------------------------------- */

enum { UNKNOWN_RELATED = 5 }; /* of those that hang from one unknown name, so many are shown */

/* One misspelt name is one error, whatever hangs from it. */
static void unknown_name(struct resolve *resolve, struct run *run) {
    struct port *port = &run->from;
    struct name *sought = names_add(&resolve->unknown, port->name);
    if (sought->thing) {
        struct diagnostic *first = sought->thing;
        run->faulty = true;
        if (first->related.count < UNKNOWN_RELATED)
            diagnostic_relate(resolve->job->diagnostics, first, port->at, "'%s' hangs from it too", run->name);
        return;
    }
    struct diagnostic *error = run_error(resolve, run, "name", port->at, "nothing is called '%s'", port->name);
    sought->thing = error;
    const char *nearest = resolve_nearest(resolve, port->name);
    if (!nearest)
        return;
    const struct name *name = names_find(&resolve->names, nearest);
    const char *leg = port->leg_name;
    if (!leg && name->kind == NAMED_UNIT)
        leg = run->role == RUN_INLET ? "return" : "supply";
    diagnostic_hint(resolve->job->diagnostics, error, "from %s%s%s", nearest, leg ? "." : "", leg ? leg : "");
}

static void resolve_collar(struct resolve *resolve, struct run *run, struct air_unit *unit) {
    struct port *port = &run->from;
    struct diagnostics *all = resolve->job->diagnostics;
    bool tapped = port->kind == PORT_TAP;
    port->kind = PORT_NONE;
    port->unit = unit;
    if (tapped) {
        struct diagnostic *error = run_error(resolve, run, "port", port->station_at,
                                             "'%s' is a unit: nothing can be tapped into it", port->name);
        diagnostic_hint(all, error, "from %s.supply", port->name);
        return;
    }
    port->supply = port->leg_name && strcmp(port->leg_name, "supply") == 0;
    if (port->supply || (port->leg_name && strcmp(port->leg_name, "return") == 0)) {
        port->kind = PORT_UNIT;
        return;
    }
    static const char *const collars[] = {"supply", "return"};
    const char *nearest = port->leg_name ? text_nearest(port->leg_name, collars, 2) : NULL;
    if (!nearest)
        nearest = run->role == RUN_INLET ? "return" : "supply";
    struct diagnostic *error =
        run_error(resolve, run, "port", port->at, "'%s' is a unit: expected its supply or its return", port->name);
    diagnostic_hint(all, error, "from %s.%s", port->name, nearest);
}

/* A leg by its word; the split is looked at when all pieces are known. */
static void resolve_leg(struct resolve *resolve, struct run *run) {
    struct port *port = &run->from;
    for (int leg = 0; leg < LEG_COUNT; leg++)
        if (strcmp(port->leg_name, leg_choices[leg]) == 0) {
            port->kind = PORT_LEG;
            port->leg = (enum leg)leg;
            return;
        }
    const char *nearest = text_nearest(port->leg_name, leg_choices, LEG_COUNT);
    struct diagnostic *error = run_error(
        resolve, run, "port", port->at, "'%s' is not a leg of a run: expected left, right or straight", port->leg_name);
    if (nearest)
        diagnostic_hint(resolve->job->diagnostics, error, "from %s.%s", port->name, nearest);
}

static void resolve_run_port(struct resolve *resolve, struct run *run, struct run *parent) {
    struct port *port = &run->from;
    port->run = parent;
    if (!port->leg_name) {
        if (port->kind != PORT_TAP)
            port->kind = PORT_END;
        return;
    }
    if (port->kind == PORT_TAP) {
        struct diagnostic *error =
            run_error(resolve, run, "port", port->at, "a tap is made in a run, not in a leg of its split");
        diagnostic_hint(resolve->job->diagnostics, error, "tap the run that hangs from %s.%s", port->name,
                        port->leg_name);
        port->kind = PORT_NONE;
        return;
    }
    resolve_leg(resolve, run);
}

void resolve_port(struct resolve *resolve, struct run *run, const struct names *names) {
    struct port *port = &run->from;
    if (!port->name) {
        run->faulty = true;
        port->kind = PORT_NONE; /* a station may have been read, but nothing that it lies on */
        return;
    }
    const struct name *name = names_find(names, port->name);
    if (!name)
        name = names_find(&resolve->names, port->name);
    if (!name) {
        unknown_name(resolve, run);
        port->kind = PORT_NONE;
    } else if (name->kind == NAMED_UNIT) {
        resolve_collar(resolve, run, name->thing);
    } else {
        resolve_run_port(resolve, run, name->thing);
    }
}

/* ---- Hanging ----------------------------------------------------------------------------------------------------- */

/* Puts the run on a port that takes one run only. */
static void take_port(struct resolve *resolve, struct run *run, struct run **place, const char *what) {
    if (!*place) {
        *place = run;
        return;
    }
    if (run->faulty)
        return;
    struct diagnostics *all = resolve->job->diagnostics;
    struct diagnostic *error =
        run_error(resolve, run, "port", run->from.at, "'%s' hangs from %s already", (*place)->name, what);
    diagnostic_relate(all, error, (*place)->at, "it hangs there since here");
    if (run->from.run)
        diagnostic_hint(all, error, "from %s at 6 ft left", run->from.run->name);
    else
        diagnostic_hint(all, error, "from %s", (*place)->name);
}

static void hang_from_end(struct resolve *resolve, struct run *run, struct run *parent) {
    struct diagnostics *all = resolve->job->diagnostics;
    const struct piece *last = parent->pieces.count ? parent->pieces.at[parent->pieces.count - 1] : NULL;
    struct diagnostic *error = NULL;
    /* A run that hangs from itself is a loop, and told of as one. */
    if (parent->faulty || parent == run) {
        take_port(resolve, run, &parent->end, arena_format(resolve->job->arena, "the end of '%s'", parent->name));
        return;
    }
    if (parent->split) {
        error = run_error(resolve, run, "port", run->from.at, "'%s' ends in a split: expected one of its legs",
                          parent->name);
        unsigned legs = parent->split->kind->legs ? parent->split->kind->legs(parent->split) : 0;
        for (int leg = 0; leg < LEG_COUNT; leg++)
            if (legs & (1u << leg)) {
                diagnostic_hint(all, error, "from %s.%s", parent->name, leg_choices[leg]);
                break;
            }
    } else if (parent->role != RUN_DUCT) {
        error = run_error(resolve, run, "port", run->from.at, "'%s' is an %s: nothing hangs behind it", parent->name,
                          parent->role == RUN_OUTLET ? "outlet" : "inlet");
        if (parent->from.run && parent->from.run != run)
            diagnostic_hint(all, error, "from %s at %s left", parent->from.name,
                            resolve->job->system == MEASURE_METRIC ? "2 m" : "6 ft");
    } else if (last && (last->kind->traits & PIECE_ENDS_RUN)) {
        error = run_error(resolve, run, "port", run->from.at,
                          "'%s' is closed by its last piece: nothing hangs behind it", parent->name);
        diagnostic_hint(all, error, "leave out the '%s', or say where along '%s' the tap is: from %s at %s left",
                        last->kind->form.word, parent->name, parent->name,
                        resolve->job->system == MEASURE_METRIC ? "2 m" : "6 ft");
    } else {
        take_port(resolve, run, &parent->end, arena_format(resolve->job->arena, "the end of '%s'", parent->name));
        return;
    }
    if (last)
        diagnostic_relate(all, error, last->at, "its last piece is here");
}

static void hang_from_leg(struct resolve *resolve, struct run *run, struct run *parent) {
    struct diagnostics *all = resolve->job->diagnostics;
    const char *word = leg_name(run->from.leg);
    unsigned legs = parent->split && parent->split->kind->legs ? parent->split->kind->legs(parent->split) : 0;
    if (parent->faulty || (legs & (1u << run->from.leg))) {
        take_port(resolve, run, &parent->legs[run->from.leg],
                  arena_format(resolve->job->arena, "the %s leg of '%s'", word, parent->name));
        return;
    }
    if (parent->split) {
        struct diagnostic *error =
            run_error(resolve, run, "split", run->from.at, "the split of '%s' has no %s leg", parent->name, word);
        diagnostic_relate(all, error, parent->split->at, "the split is here");
        return;
    }
    struct diagnostic *error = run_error(resolve, run, "split", run->from.at,
                                         "'%s' does not end in a split, so it has no %s leg", parent->name, word);
    diagnostic_relate(all, error, parent->at, "it is declared here");
    diagnostic_hint(all, error, "from %s", parent->name);
}

void resolve_hang(struct resolve *resolve, struct run *run) {
    struct port *port = &run->from;
    switch (port->kind) {
    case PORT_UNIT:
        take_port(resolve, run, port->supply ? &port->unit->supply_run : &port->unit->return_run,
                  arena_format(resolve->job->arena, "%s.%s", port->unit->name, port->leg_name));
        break;
    case PORT_END:
        hang_from_end(resolve, run, port->run);
        break;
    case PORT_LEG:
        hang_from_leg(resolve, run, port->run);
        break;
    case PORT_TAP:
        *list_add(resolve->job->arena, &port->run->taps) = run;
        break;
    case PORT_NONE:
        break;
    }
}

/* A split that offers two sides and a straight leg is made with one of the sides. */
void resolve_legs(struct resolve *resolve, struct run *run) {
    struct run *left = run->legs[LEG_LEFT], *right = run->legs[LEG_RIGHT];
    if (!run->split || run->faulty || !run->split->kind->legs || !left || !right)
        return;
    if (!(run->split->kind->legs(run->split) & (1u << LEG_STRAIGHT)))
        return;
    struct run *later = left->at.begin > right->at.begin ? left : right;
    struct diagnostic *error =
        run_error(resolve, later, "split", later->from.at,
                  "the split of '%s' goes on straight and to one side: its other side is taken", run->name);
    diagnostic_relate(resolve->job->diagnostics, error, (later == left ? right : left)->at, "taken here");
    diagnostic_relate(resolve->job->diagnostics, error, run->split->at, "the split is here");
}
