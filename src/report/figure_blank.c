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

bool opening_has_corners(const struct blank_opening *opening) {
    return opening->count == 4;
}

void distances_sort(struct distances *distances) {
    if (distances->list.count)
        qsort(distances->list.at, distances->list.count, sizeof *distances->list.at, by_size);
}
