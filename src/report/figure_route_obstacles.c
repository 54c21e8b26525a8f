/* Which obstacles are drawn, and how much of each: what is about the ducts of a sheet, and no more than one can read.
 */
#include <math.h>
#include <stdlib.h>

#include "base/constant.h"
#include "report/figure_route.h"
#include "route/box_tree.h"
#include "route/hull.h"

/* An obstacle farther from the ducts than this is not drawn: it is of another part of the building.  More than these
 * cover what they stand beside.  By look. */
static const double beside_ducts = 10 * FOOT;
enum { OBSTACLES_MOST = 24 };

/* Nor one that is farther than this share of how far the ducts reach, or than this: it would make them small. By look.
 */
static const double beside_share = 0.4, beside_least = 3 * FOOT;

/* Of an obstacle that goes on beyond the ducts so much is drawn, by which share of how far they reach, and at least: a
 * long beam must not make the ducts small.  By look. */
static const double drawn_beyond = 0.08, least_beyond = 2 * FOOT;

struct near_one {
    size_t index;
    double distance; /* m from the nearest duct, box to box */
};

struct looking {
    const struct box *at;
    double distance;
};

/* Calls for each duct that is near; the boxes of the tree are as far greater as one looks. */
static int see(void *context, const struct box *box) {
    struct looking *looking = context;
    double square = 0;
    for (int i = 0; i < 3; i++) {
        double low = box->low[i] + beside_ducts, high = box->high[i] - beside_ducts;
        double gap = fmax(fmax(looking->at->low[i] - high, low - looking->at->high[i]), 0);
        square += gap * gap;
    }
    looking->distance = fmin(looking->distance, sqrt(square));
    return looking->distance > 0;
}

static const struct box_tree *tree_of(struct arena *arena, const struct route_drawn *drawn, size_t count) {
    struct box *boxes = ARENA_ARRAY(arena, struct box, count + 1);
    for (size_t i = 0; i < count; i++) {
        struct hull hull = hull_of_stretch(drawn[i].stretch);
        boxes[i].what = i;
        hull_bounds(&hull, boxes[i].low, boxes[i].high);
        for (int axis = 0; axis < 3; axis++) {
            boxes[i].low[axis] -= beside_ducts;
            boxes[i].high[axis] += beside_ducts;
        }
    }
    return box_tree_new(arena, boxes, count);
}

static double distance_of(const struct box_tree *ducts, const struct obstacle *obstacle) {
    struct box box = {.what = 0};
    for (int i = 0; i < 3; i++) {
        box.low[i] = obstacle->low[i];
        box.high[i] = obstacle->high[i];
    }
    struct looking looking = {&box, INFINITY};
    box_tree_each(ducts, &box, see, &looking);
    return looking.distance;
}

static int by_distance(const void *left, const void *right) {
    const struct near_one *a = left, *b = right;
    if (fabs(a->distance - b->distance) > 1e-9)
        return a->distance < b->distance ? -1 : 1;
    return (a->index > b->index) - (a->index < b->index);
}

bool *figure_route_obstacles(const struct route_drawing *drawing, const struct route_drawn *drawn, size_t count,
                             size_t *near, size_t *most) {
    const struct job *job = drawing->job;
    bool *shown = ARENA_ARRAY(drawing->arena, bool, job->obstacles.count + 1);
    struct near_one *all = ARENA_ARRAY(drawing->arena, struct near_one, job->obstacles.count + 1);
    const struct box_tree *ducts = tree_of(drawing->arena, drawn, count);
    double reach = fmin(beside_ducts, fmax(beside_least, beside_share * figure_route_part(drawn, count).size));
    *near = 0;
    *most = OBSTACLES_MOST;
    for (size_t i = 0; count && i < job->obstacles.count; i++) {
        double distance = distance_of(ducts, job->obstacles.at[i]);
        if (distance <= reach)
            all[(*near)++] = (struct near_one){i, distance};
    }
    qsort(all, *near, sizeof *all, by_distance);
    for (size_t i = 0; i < *near && i < *most; i++)
        shown[all[i].index] = true;
    return shown;
}

/* ---- How much of one --------------------------------------------------------------------------------------------- */

struct route_part figure_route_part(const struct route_drawn *drawn, size_t count) {
    struct route_part part = {.low = {INFINITY, INFINITY, INFINITY}, .high = {-INFINITY, -INFINITY, -INFINITY}};
    for (size_t i = 0; i < count; i++) {
        double low[3], high[3];
        struct hull hull = hull_of_stretch(drawn[i].stretch);
        hull_bounds(&hull, low, high);
        for (int axis = 0; axis < 3; axis++) {
            part.low[axis] = fmin(part.low[axis], low[axis]);
            part.high[axis] = fmax(part.high[axis], high[axis]);
        }
    }
    for (int axis = 0; axis < 3; axis++)
        part.size = fmax(part.size, part.high[axis] - part.low[axis]);
    double beyond = fmax(drawn_beyond * part.size, least_beyond);
    for (int axis = 0; axis < 3; axis++) {
        part.low[axis] -= beyond;
        part.high[axis] += beyond;
    }
    return part;
}

/* Of what stands wholly beyond its beginning: it is near all the same. */
void figure_route_part_of(const struct route_part *part, const struct obstacle *obstacle, double low[3],
                          double high[3]) {
    for (int axis = 0; axis < 3; axis++) {
        double from = obstacle->low[axis], to = obstacle->high[axis];
        low[axis] = fmin(fmax(from, part->low[axis]), fmax(from, to - least_beyond));
        high[axis] = fmax(fmin(to, part->high[axis]), fmin(to, from + least_beyond));
    }
}

bool figure_route_part_cuts(const struct route_part *part, const struct obstacle *obstacle) {
    double low[3], high[3];
    figure_route_part_of(part, obstacle, low, high);
    for (int axis = 0; axis < 3; axis++)
        if (obstacle->low[axis] < low[axis] || obstacle->high[axis] > high[axis])
            return true;
    return false;
}
