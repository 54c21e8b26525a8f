/* Supply outlets beside a return inlet: their air goes straight back to the unit. */
#include "base/constant.h"
#include "check/checks.h"
#include "route/route.h"
#include "route/box_tree.h"

/* Common practice, no source. */
static const double least_distance = 6 * FOOT;

/* An outlet, and the inlet that is nearest to it so far. */
struct nearest {
    const struct look *look;
    const struct run *outlet, *inlet;
    struct space at;
    double distance;
};

/* `box->what` is the index of an inlet in job->runs. */
static int see(void *context, const struct box *box) {
    struct nearest *nearest = context;
    const struct run *inlet = nearest->look->job->runs.at[box->what];
    double distance = space_distance(nearest->at, route_face(route_of(nearest->look->job, inlet)));
    bool nearer = !nearest->inlet || distance < nearest->distance ||
                  (!(distance > nearest->distance) && inlet->id < nearest->inlet->id);
    if (inlet->unit == nearest->outlet->unit && distance < least_distance && nearer) {
        nearest->inlet = inlet;
        nearest->distance = distance;
    }
    return 1;
}

static struct box around(const struct placed_run *run, double by, size_t what) {
    struct space at = route_face(run);
    at.x += route_apart(run);
    return (struct box){{at.x - by, at.y - by, at.z - by}, {at.x + by, at.y + by, at.z + by}, what};
}

static void warn(const struct nearest *nearest) {
    const struct run *outlet = nearest->outlet, *inlet = nearest->inlet;
    const struct look *look = nearest->look;
    bool free = route_of(look->job, outlet)->free || route_of(look->job, inlet)->free;
    struct diagnostic *said =
        check_warn(look, outlet->at, outlet->name, "%s is %s%s from the return inlet %s: its air may go straight back",
                   check_name(look, outlet), free ? "about " : "", check_text(look->job, SHOW_RUN, nearest->distance),
                   check_name(look, inlet));
    diagnostic_hint(look->job->diagnostics, said, "%s apart would do; across a wall they may be nearer: accept it then",
                    check_text(look->job, SHOW_RUN, least_distance));
    diagnostic_relate(look->job->diagnostics, said, inlet->at, "the return inlet");
}

static struct box_tree *inlets_of(const struct job *job) {
    struct box *boxes = ARENA_ARRAY(job->arena, struct box, job->runs.count + 1);
    size_t count = 0;
    for (size_t i = 0; i < job->runs.count; i++)
        if (job->runs.at[i]->role == RUN_INLET && route_of(job, job->runs.at[i]))
            boxes[count++] = around(route_of(job, job->runs.at[i]), 0, i);
    return box_tree_new(job->arena, boxes, count);
}

void check_short_cycle(const struct look *look) {
    const struct job *job = look->job;
    if (!job->route)
        return;
    const struct box_tree *inlets = inlets_of(job);
    for (size_t i = 0; i < job->runs.count; i++) {
        const struct placed_run *placed = route_of(job, job->runs.at[i]);
        if (job->runs.at[i]->role != RUN_OUTLET || !placed)
            continue;
        look->result->looked_at++;
        struct nearest nearest = {.look = look, .outlet = job->runs.at[i], .at = route_face(placed)};
        struct box near = around(placed, least_distance, 0);
        box_tree_each(inlets, &near, see, &nearest);
        if (nearest.inlet)
            warn(&nearest);
    }
}

const char *short_cycle_limit(struct arena *arena) {
    return arena_format(arena, "%s from face to face", check_both(arena, SHOW_RUN, least_distance));
}
