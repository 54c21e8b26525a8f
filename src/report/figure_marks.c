/* The marks of a blank on story sticks: every one measured from the same edge. */
#include "report/figure_blank.h"

#include <math.h>
#include <string.h>

/* An outline that turns by more than this is at a corner; by less, but more than a curve does, unless it
 * follows a curved edge. */
static const double corner_turn = 0.8; /* rad */

/* A story stick of `distances`, sorted here, those that read the same once; what would stand at the origin is left out.
 */
static void add_stick(struct pattern *pattern, struct distances *distances, struct spot origin, enum figure_side side,
                      bool back) {
    if (distances->list.count == 0)
        return;
    distances_sort(distances);
    struct figure_ordinates *stick = figure_ordinates(pattern->figure, origin, side, back, "0");
    const char *last = "0";
    for (size_t i = 0; i < distances->list.count; i++) {
        const char *text = pattern_figure(pattern, distances->list.at[i]);
        if (distances->list.at[i] < 0 || strcmp(text, last) == 0)
            continue;
        ordinates_mark(pattern->figure, stick, distances->list.at[i], text);
        last = text;
    }
}

/* The marks of the brake, from the edge that they all are measured from, to the far edge. */
void pattern_brake_marks(struct pattern *pattern) {
    const struct blank *blank = pattern->blank;
    struct distances distances = {0};
    for (size_t i = 0; i < blank->marks.count; i++)
        distances_add(pattern, &distances, blank->marks.at[i].at);
    if (distances.list.count == 0)
        return;
    distances_add(pattern, &distances, blank->marks_upward ? blank->height : blank->width);
    struct spot origin = {0, 0};
    if (blank->marks_from_right)
        *(blank->marks_upward ? &origin.y : &origin.x) = blank->marks_upward ? blank->height : blank->width;
    add_stick(pattern, &distances, origin, blank->marks_upward ? FIGURE_LEFT : FIGURE_BELOW, blank->marks_from_right);
}

/* How sharply a loop turns at point i. */
static double turn_at(const struct flat *points, size_t count, size_t i) {
    struct flat in = flat_sub(points[i], points[(i + count - 1) % count]);
    struct flat out = flat_sub(points[(i + 1) % count], points[i]);
    return fabs(atan2(flat_cross(in, out), flat_dot(in, out)));
}

/* Whether the point stands an allowance away from a curved edge, between its ends. */
static bool follows_curve(const struct blank *blank, struct flat at) {
    static const double mitred = 1.1; /* chords moved out meet a little farther out */
    for (size_t i = 0; i < blank->edges.count; i++) {
        const struct blank_edge *edge = &blank->edges.at[i];
        for (size_t j = 1; edge->shape != EDGE_LINE && j + 1 < edge->count; j++)
            if (flat_distance(edge->points[j], at) < mitred * edge->allowance + same_mark)
                return true;
    }
    return false;
}

static bool is_corner(const struct blank *blank, size_t i) {
    double turn = turn_at(blank->cut, blank->cut_count, i);
    return turn > corner_turn || (turn > curve_turn && !follows_curve(blank, blank->cut[i]));
}

static void add_corner(struct pattern *pattern, struct flat corner, struct distances *across, struct distances *up) {
    distances_add(pattern, across, corner.x);
    distances_add(pattern, up, corner.y);
}

/* Distances from the other end of `whole`. */
static void turn_round(struct distances *distances, double whole) {
    for (size_t i = 0; i < distances->list.count; i++)
        distances->list.at[i] = whole - distances->list.at[i];
}

/* What the marks of the brake say already is not said twice. */
static void leave_out_brake_marks(const struct blank *blank, struct distances *across, struct distances *up) {
    struct distances *distances = blank->marks_upward ? up : across;
    size_t kept = 0;
    for (size_t i = 0; i < distances->list.count; i++) {
        bool said = false;
        for (size_t j = 0; j < blank->marks.count; j++)
            said = said || fabs(distances->list.at[i] - blank->marks.at[j].at) < same_mark;
        if (!said)
            distances->list.at[kept++] = distances->list.at[i];
    }
    distances->list.count = kept;
}

/* Whether neither side of the outline at a corner is upright or level. */
static bool is_slanting(const struct blank *blank, size_t i) {
    size_t before = (i + blank->cut_count - 1) % blank->cut_count, after = (i + 1) % blank->cut_count;
    return !line_is_upright(blank->cut[before], blank->cut[i]) && !line_is_upright(blank->cut[i], blank->cut[after]);
}

/* Those of a box say all of a rectangle that stands upright. */
static void add_opening_corners(struct pattern *pattern, const struct blank_opening *opening, struct distances *across,
                                struct distances *up) {
    struct flat low, high;
    if (!opening_has_corners(opening))
        return;
    opening_box(opening, &low, &high);
    if (opening->count != 4) {
        add_corner(pattern, low, across, up);
        add_corner(pattern, high, across, up);
    } else
        for (size_t j = 0; j < opening->count; j++)
            add_corner(pattern, opening->points[j], across, up);
}

/* The corners of the outline and of square holes, the inner ends of snips, and straight net lines and bends: across
 * from the left edge, up from the bottom. */
void pattern_corner_marks(struct pattern *pattern) {
    const struct blank *blank = pattern->blank;
    struct distances across = {0}, up = {0};
    bool lettered = pattern->last_station > 0 && !pattern->square; /* see add_other_corners */
    add_corner(pattern, (struct flat){0, 0}, &across, &up);
    add_corner(pattern, (struct flat){blank->width, blank->height}, &across, &up);
    for (size_t i = 0; i < blank->cut_count; i++)
        if (is_corner(blank, i) && !(lettered && is_slanting(blank, i)))
            add_corner(pattern, blank->cut[i], &across, &up);
    for (size_t i = 0; i < blank->reliefs.count; i++)
        add_corner(pattern, blank->reliefs.at[i].to, &across, &up);
    for (size_t i = 0; i < blank->openings.count; i++)
        add_opening_corners(pattern, &blank->openings.at[i], &across, &up);
    for (size_t i = 0; i < blank->edges.count; i++) {
        const struct blank_edge *edge = &blank->edges.at[i];
        struct flat from = edge->points[0], to = edge->points[edge->count - 1];
        if (edge->shape == EDGE_LINE && edge->allowance > 0 && line_is_upright(from, to))
            distances_add(pattern, fabs(from.x - to.x) < same_mark ? &across : &up,
                          fabs(from.x - to.x) < same_mark ? from.x : from.y);
    }
    for (size_t i = 0; i < blank->bends.count; i++) {
        struct flat from = blank->bends.at[i].from, to = blank->bends.at[i].to;
        if (line_is_upright(from, to))
            distances_add(pattern, fabs(from.x - to.x) < same_mark ? &across : &up,
                          fabs(from.x - to.x) < same_mark ? from.x : from.y);
    }
    struct flat datum = blank_datum(blank);
    bool left = datum.x > 0, down = datum.y > 0;
    if (left)
        turn_round(&across, blank->width);
    if (down)
        turn_round(&up, blank->height);
    leave_out_brake_marks(blank, &across, &up);
    add_stick(pattern, &across, (struct spot){left ? blank->width : 0, blank->height}, FIGURE_ABOVE, left);
    add_stick(pattern, &up, (struct spot){blank->width, down ? blank->height : 0}, FIGURE_RIGHT, down);
}
