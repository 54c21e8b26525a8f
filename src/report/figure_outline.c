/* Convex outlines: what a body covers of a drawing, and which part of a line another covers. */
#include "report/figure_outline.h"

#include <math.h>
#include <stdlib.h>

/* Corners are told apart to this, m: those of a section that is seen from its edge lie on one line but for rounding,
 * and must be in their order along it. */
static const double grain = 1e-9;

void outline_add(struct outline *outline, struct spot at, int end) {
    struct spot placed = {round(at.x / grain) * grain, round(at.y / grain) * grain};
    outline->corners[outline->count++] = (struct seen_corner){placed, end};
}

static int by_place(const void *left, const void *right) {
    const struct seen_corner *a = left, *b = right;
    if (a->at.x < b->at.x || a->at.x > b->at.x)
        return a->at.x < b->at.x ? -1 : 1;
    if (a->at.y < b->at.y || a->at.y > b->at.y)
        return a->at.y < b->at.y ? -1 : 1;
    return a->end - b->end;
}

/* > 0: c lies to the left of the way from a to b. */
static double turning(struct spot a, struct spot b, struct spot c) {
    return (b.x - a.x) * (c.y - a.y) - (b.y - a.y) * (c.x - a.x);
}

/* Andrew's monotone chain. */
void outline_enclose(struct outline *outline) {
    struct seen_corner *all = outline->corners, hull[2 * OUTLINE_CORNERS];
    size_t count = outline->count, used = 0;
    if (count == 0)
        return;
    qsort(all, count, sizeof *all, by_place);
    for (int half = 0; half < 2; half++) {
        size_t begins = used;
        for (size_t i = 0; i < count; i++) {
            const struct seen_corner *next = &all[half ? count - 1 - i : i];
            while (used >= begins + 2 && turning(hull[used - 2].at, hull[used - 1].at, next->at) <= 1e-12)
                used--;
            hull[used++] = *next;
        }
        used--; /* the last begins the other half */
    }
    outline->count = used;
    for (size_t i = 0; i < used; i++)
        all[i] = hull[i];
}

/* Each side cuts off what lies to its right. */
struct line_part outline_covers(const struct outline *outline, struct spot a, struct spot b) {
    struct line_part part = {0, outline->count < 3 ? 0 : 1};
    for (size_t i = 0; i < outline->count && part.from < part.to; i++) {
        struct spot from = outline->corners[i].at, to = outline->corners[(i + 1) % outline->count].at;
        double at_a = turning(from, to, a), at_b = turning(from, to, b);
        if (at_a < 0 && at_b < 0)
            part.to = part.from;
        else if (at_a < 0)
            part.from = fmax(part.from, at_a / (at_a - at_b));
        else if (at_b < 0)
            part.to = fmin(part.to, at_a / (at_a - at_b));
    }
    return part;
}
