/* Where a point lies from the outline to cut of a blank. */
#ifndef TESTS_UNIT_OUTLINE_H
#define TESTS_UNIT_OUTLINE_H

#include "metal/blank.h"

static inline double segment_distance(struct flat a, struct flat b, struct flat point) {
    struct flat way = flat_sub(b, a);
    double square = flat_dot(way, way), share = square > 0 ? flat_dot(flat_sub(point, a), way) / square : 0;
    return flat_distance(point, flat_add(a, flat_scale(way, fmin(fmax(share, 0), 1))));
}

/* m, to the nearest of its segments. */
static inline double outline_distance(const struct blank *blank, struct flat point) {
    double least = INFINITY;
    for (size_t i = 0; i < blank->cut_count; i++)
        least = fmin(least, segment_distance(blank->cut[i], blank->cut[(i + 1) % blank->cut_count], point));
    return least;
}

/* From the beginning of an edge: `along` it, and `out` from it. */
static inline struct flat off_edge(const struct blank_edge *edge, double along, double out) {
    struct flat way = flat_unit(flat_sub(edge->points[1], edge->points[0]));
    return flat_add(edge->points[0], flat_add(flat_scale(way, along), flat_scale(flat_right(way), out)));
}

#endif
