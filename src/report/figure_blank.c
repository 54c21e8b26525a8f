/* What the files of a blank's drawing share. */
#include "report/figure_blank.h"

#include <math.h>
#include <stdlib.h>

const char *pattern_figure(const struct pattern *pattern, double length) {
    return measure_figure(pattern->arena, pattern->job->system, SHOW_CUT, length);
}

const char *pattern_text(const struct pattern *pattern, double length) {
    return measure_text(pattern->arena, pattern->job->system, SHOW_CUT, length);
}

const char *edge_own_line(const struct blank_edge *edge) {
    return edge->join == JOIN_SEAM ? "seam" : "net line";
}

bool line_is_upright(struct flat from, struct flat to) {
    return fabs(from.x - to.x) < same_mark || fabs(from.y - to.y) < same_mark;
}

static int by_size(const void *a, const void *b) {
    double one = *(const double *)a, other = *(const double *)b;
    return (one > other) - (one < other);
}

void distances_add(struct pattern *pattern, struct distances *distances, double distance) {
    *list_add(pattern->arena, &distances->list) = distance;
}

void opening_box(const struct blank_opening *opening, struct flat *low, struct flat *high) {
    *low = (struct flat){INFINITY, INFINITY};
    *high = (struct flat){-INFINITY, -INFINITY};
    for (size_t i = 0; i < opening->count; i++) {
        *low = (struct flat){fmin(low->x, opening->points[i].x), fmin(low->y, opening->points[i].y)};
        *high = (struct flat){fmax(high->x, opening->points[i].x), fmax(high->y, opening->points[i].y)};
    }
}

/* All of its points lie on its box: what is bent or seamed there has points between the corners too. */
bool opening_has_corners(const struct blank_opening *opening) {
    struct flat low, high;
    opening_box(opening, &low, &high);
    for (size_t i = 0; i < opening->count; i++) {
        struct flat at = opening->points[i];
        if (fmin(fmin(at.x - low.x, high.x - at.x), fmin(at.y - low.y, high.y - at.y)) > same_mark)
            return opening->count == 4; /* it lies aslant */
    }
    return !opening->round;
}

struct flat blank_datum(const struct blank *blank) {
    bool back = blank->marks.count > 0 && blank->marks_from_right;
    return (struct flat){back && !blank->marks_upward ? blank->width : 0,
                         back && blank->marks_upward ? blank->height : 0};
}

void distances_sort(struct distances *distances) {
    if (distances->list.count)
        qsort(distances->list.at, distances->list.count, sizeof *distances->list.at, by_size);
}
