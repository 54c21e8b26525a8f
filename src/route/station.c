/* Stations as places in space. */
#include <math.h>

#include "model/piece.h"
#include "route/route.h"

/* The last piece that begins at the station or before it. */
static size_t piece_at(const struct run *run, double station) {
    size_t low = 0, high = run->pieces.count;
    while (high - low > 1) {
        size_t middle = low + (high - low) / 2;
        if (run->pieces.at[middle]->station <= station + 1e-9)
            low = middle;
        else
            high = middle;
    }
    return low;
}

static double between(double a, double b, double share) {
    return a + (b - a) * share;
}

static struct space way_between(struct space a, struct space b, double share) {
    return space_unit(space_between(a, b, share));
}

/* A bend's middle line is that of its chords. */
static struct route_point on_stretch(const struct stretch *stretch, double way) {
    double length = stretch->ends - stretch->begins;
    double share = length > 0 ? fmin(fmax((way - stretch->begins) / length, 0), 1) : 0;
    const struct frame *near = &stretch->near, *far = &stretch->far;
    struct duct_size size = share < 0.5 ? stretch->from : stretch->to;
    if (stretch->from.shape == stretch->to.shape) {
        size.width = between(stretch->from.width, stretch->to.width, share);
        size.height = between(stretch->from.height, stretch->to.height, share);
    }
    return (struct route_point){
        .frame = {.origin = space_between(near->origin, far->origin, share),
                  .right = way_between(near->right, far->right, share),
                  .along = way_between(near->along, far->along, share),
                  .up = way_between(near->up, far->up, share)},
        .size = size,
    };
}

bool route_at(const struct job *job, const struct run *run, double station, struct route_point *point) {
    const struct placed_run *placed = route_of(job, run);
    if (!placed || !run->pieces.count)
        return false;
    size_t index = piece_at(run, station);
    const struct piece *piece = run->pieces.at[index];
    const struct placed_piece *at = &job->route->pieces.at[placed->first + index + (run->connect != NULL ? 1 : 0)];
    double share = piece->length > 0 ? fmin(fmax((station - piece->station) / piece->length, 0), 1) : 0;
    double way = between(at->begins, at->ends, share);
    *point = (struct route_point){.frame = at->near, .size = piece->near ? piece->near->size : (struct duct_size){0}};
    for (size_t i = at->first; i < at->first + at->count; i++) {
        const struct stretch *stretch = &job->route->stretches.at[i];
        if (way < stretch->begins - 1e-9 && i > at->first)
            break;
        *point = on_stretch(stretch, way);
    }
    return true;
}
