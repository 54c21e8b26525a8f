/* Whether a loop of points crosses itself. */
#include <stdlib.h>

#include "metal/blank.h"

struct reach {
    double low, high; /* x */
    size_t segment;
};

static int by_low(const void *left, const void *right) {
    const struct reach *a = left, *b = right;
    if (a->low != b->low)
        return a->low < b->low ? -1 : 1;
    return (a->segment > b->segment) - (a->segment < b->segment);
}

/* Properly: each has the ends of the other on either side, by more than rounding. */
bool lines_cross(struct flat a, struct flat b, struct flat c, struct flat d) {
    struct flat ab = flat_sub(b, a), cd = flat_sub(d, c);
    double slack_ab = 1e-9 * flat_length(ab), slack_cd = 1e-9 * flat_length(cd);
    double c_side = flat_cross(ab, flat_sub(c, a)), d_side = flat_cross(ab, flat_sub(d, a));
    double a_side = flat_cross(cd, flat_sub(a, c)), b_side = flat_cross(cd, flat_sub(b, c));
    bool parts_cd = (c_side > slack_ab && d_side < -slack_ab) || (c_side < -slack_ab && d_side > slack_ab);
    bool parts_ab = (a_side > slack_cd && b_side < -slack_cd) || (a_side < -slack_cd && b_side > slack_cd);
    return parts_cd && parts_ab;
}

/* Segments by their least x; each is held against those that begin before it ends. */
bool loop_crosses(const struct flat *points, size_t count, struct arena *arena) {
    struct reach *reaches = ARENA_ARRAY(arena, struct reach, count + 1);
    for (size_t i = 0; i < count; i++) {
        double a = points[i].x, b = points[(i + 1) % count].x;
        reaches[i] = (struct reach){fmin(a, b), fmax(a, b), i};
    }
    qsort(reaches, count, sizeof *reaches, by_low);
    for (size_t i = 0; i < count; i++)
        for (size_t j = i + 1; j < count && reaches[j].low < reaches[i].high; j++) {
            size_t one = reaches[i].segment, other = reaches[j].segment;
            if (lines_cross(points[one], points[(one + 1) % count], points[other], points[(other + 1) % count]))
                return true;
        }
    return false;
}
