/* The lines of a blank: what is cut, where its edges' own lines run, where it is bent and formed. */
#include "report/figure_blank.h"

#include <math.h>

/* "90", "22.5" */
static const char *degrees(const struct pattern *pattern, double angle) {
    double shown = round(fabs(angle) / DEGREE * 10) / 10;
    return arena_format(pattern->arena, fabs(shown - round(shown)) < 1e-9 ? "%.0f" : "%.1f", shown);
}

void pattern_loop(struct pattern *pattern, const struct flat *points, size_t count) {
    if (count == 0)
        return;
    struct figure_path *path = figure_path(pattern->figure, STROKE_CUT, spot_of(points[0]));
    for (size_t i = 1; i < count; i++)
        path_line(pattern->figure, path, spot_of(points[i]));
    path->closed = true;
}

/* The angle by which the cut goes round an arc's centre from one point to the next; 0 when the two do not lie on the
 * arc moved out by its allowance, as near as its chords do. */
static double arc_between(const struct blank_edge *edge, struct flat from, struct flat to) {
    if (edge->shape != EDGE_ARC)
        return 0;
    double radius = edge->radius + (edge->sweep > 0 ? edge->allowance : -edge->allowance);
    struct flat a = flat_sub(from, edge->centre), b = flat_sub(to, edge->centre);
    if (fabs(flat_length(a) - radius) > CHORD_LIMIT || fabs(flat_length(b) - radius) > CHORD_LIMIT)
        return 0;
    double sweep = atan2(flat_cross(a, b), flat_dot(a, b)), step = fabs(edge->sweep) / (double)(edge->count - 1);
    return sweep * edge->sweep > 0 && fabs(sweep) < 1.5 * step ? sweep : 0;
}

/* The outline to cut, with arcs as arcs where the blank has them. */
void pattern_cut(struct pattern *pattern) {
    const struct blank *blank = pattern->blank;
    if (blank->cut_count == 0)
        return;
    struct figure_path *path = figure_path(pattern->figure, STROKE_CUT, spot_of(blank->cut[0]));
    for (size_t i = 0; i < blank->cut_count; i++) {
        struct flat from = blank->cut[i], to = blank->cut[(i + 1) % blank->cut_count];
        double sweep = 0;
        for (size_t e = 0; sweep == 0 && e < blank->edges.count; e++)
            sweep = arc_between(&blank->edges.at[e], from, to);
        path_arc(pattern->figure, path, spot_of(to), sweep);
    }
    path->closed = true;
}

/* An edge that has an allowance shows its own line, inside the cut. */
void pattern_net(struct pattern *pattern) {
    for (size_t i = 0; i < pattern->blank->edges.count; i++) {
        const struct blank_edge *edge = &pattern->blank->edges.at[i];
        if (edge->allowance <= 0)
            continue;
        enum stroke stroke = edge->join == JOIN_SEAM ? STROKE_SEAM : STROKE_NET;
        struct figure_path *path = figure_path(pattern->figure, stroke, spot_of(edge->points[0]));
        if (edge->shape == EDGE_ARC)
            path_arc(pattern->figure, path, spot_of(edge->points[edge->count - 1]), edge->sweep);
        for (size_t j = 1; edge->shape != EDGE_ARC && j < edge->count; j++)
            path_line(pattern->figure, path, spot_of(edge->points[j]));
    }
}

void pattern_reliefs(struct pattern *pattern) {
    for (size_t i = 0; i < pattern->blank->reliefs.count; i++)
        figure_line(pattern->figure, STROKE_CUT, spot_of(pattern->blank->reliefs.at[i].from),
                    spot_of(pattern->blank->reliefs.at[i].to));
}

bool blank_is_open_at(const struct blank *blank, struct flat at) {
    for (size_t i = 0; i < blank->openings.count; i++) {
        const struct blank_opening *opening = &blank->openings.at[i];
        bool inside = opening->round && flat_distance(opening->middle, at) < opening->radius;
        for (size_t j = 0; j < opening->count; j++) {
            struct flat a = opening->points[j], b = opening->points[(j + 1) % opening->count];
            if (!opening->round && (a.y > at.y) != (b.y > at.y) &&
                at.x < a.x + (at.y - a.y) / (b.y - a.y) * (b.x - a.x))
                inside = !inside;
        }
        if (inside)
            return true;
    }
    return false;
}

/* A line of the blank, as far as there is metal: not across its openings. */
static void draw_on_metal(struct pattern *pattern, enum stroke stroke, struct flat from, struct flat to) {
    const struct blank *blank = pattern->blank;
    struct distances shares = {0};
    struct flat way = flat_sub(to, from);
    distances_add(pattern, &shares, 0);
    distances_add(pattern, &shares, 1);
    for (size_t i = 0; i < blank->openings.count; i++)
        for (size_t j = 0; j < blank->openings.at[i].count; j++) {
            const struct blank_opening *opening = &blank->openings.at[i];
            struct flat a = opening->points[j], side = flat_sub(opening->points[(j + 1) % opening->count], a);
            double across = flat_cross(way, side), on = flat_cross(flat_sub(a, from), way);
            double at = flat_cross(flat_sub(a, from), side);
            if (across != 0 && at / across > 0 && at / across < 1 && on / across >= 0 && on / across <= 1)
                distances_add(pattern, &shares, at / across);
        }
    distances_sort(&shares);
    for (size_t i = 1; i < shares.list.count; i++) {
        double begin = shares.list.at[i - 1], end = shares.list.at[i];
        if (end > begin && !blank_is_open_at(blank, flat_between(from, to, (begin + end) / 2)))
            figure_line(pattern->figure, stroke, spot_of(flat_between(from, to, begin)),
                        spot_of(flat_between(from, to, end)));
    }
}

/* Where it is rolled or formed: at its stations and nowhere else. */
void pattern_forming(struct pattern *pattern) {
    for (size_t i = 0; i < pattern->stations.count; i++) {
        const struct station *station = &pattern->stations.at[i];
        draw_on_metal(pattern, STROKE_HIDDEN, station->from.net, station->to.net);
    }
    pattern->figure->key[STROKE_HIDDEN] = "roll or form lightly along";
}

void pattern_bends(struct pattern *pattern) {
    for (size_t i = 0; i < pattern->blank->bends.count; i++) {
        const struct blank_bend *bend = &pattern->blank->bends.at[i];
        const char *way = bend->angle < 0 ? "down" : "up";
        figure_line(pattern->figure, bend->angle < 0 ? STROKE_BEND_DOWN : STROKE_BEND_UP, spot_of(bend->from),
                    spot_of(bend->to));
        figure_label_line(pattern->figure, arena_format(pattern->arena, "%s %s°", way, degrees(pattern, bend->angle)),
                          spot_of(bend->from), spot_of(bend->to), LETTER_SMALL);
    }
}
