/* The marks of a blank on story sticks: every one measured from the same edge. */
#include "report/figure_blank.h"

#include <math.h>
#include <string.h>

/* An outline that turns by more than this has a corner.  If it turns by less, but by more than curve_turn, it has
 * one unless it follows a curved edge. */
static const double corner_turn = 0.8; /* rad */

/* A story stick of `distances`, sorted here, those that read the same once; what would stand at
 * the origin is left out. */
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

/* Whether the point lies beside a curved edge at the distance of its allowance. */
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

/* Distances along two sticks, each on the side of the sheet that what it measures is nearer to. */
struct sticks {
    struct distances left, right, lower, upper;
};

/* The brake's marks have one side of the sheet to themselves. */
static bool has_left(const struct pattern *pattern) {
    return pattern->blank->marks.count == 0 || !pattern->blank->marks_upward;
}

static bool has_lower(const struct pattern *pattern) {
    return pattern->blank->marks.count == 0 || pattern->blank->marks_upward;
}

static void add_up(struct pattern *pattern, struct flat at, struct sticks *sticks) {
    bool left = has_left(pattern) && at.x < pattern->blank->width / 2 - same_mark;
    distances_add(pattern, left ? &sticks->left : &sticks->right, at.y);
}

static void add_across(struct pattern *pattern, struct flat at, struct sticks *sticks) {
    bool lower = has_lower(pattern) && at.y < pattern->blank->height / 2 - same_mark;
    distances_add(pattern, lower ? &sticks->lower : &sticks->upper, at.x);
}

static void add_corner(struct pattern *pattern, struct flat corner, struct sticks *sticks) {
    add_across(pattern, corner, sticks);
    add_up(pattern, corner, sticks);
}

/* A line that stands upright or level: by the end that is nearer to its stick. */
static void add_line(struct pattern *pattern, struct flat from, struct flat to, struct sticks *sticks) {
    const struct blank *blank = pattern->blank;
    if (fabs(from.x - to.x) < same_mark) {
        double low = fmin(from.y, to.y), high = fmax(from.y, to.y);
        add_across(pattern, (struct flat){from.x, low < blank->height - high ? low : high}, sticks);
    } else {
        double left = fmin(from.x, to.x), right = fmax(from.x, to.x);
        add_up(pattern, (struct flat){left < blank->width - right ? left : right, from.y}, sticks);
    }
}

/* Distances from the other end of `whole`. */
static void turn_round(struct distances *distances, double whole) {
    for (size_t i = 0; i < distances->list.count; i++)
        distances->list.at[i] = whole - distances->list.at[i];
}

/* What the marks of the brake say already is not said twice. */
static void leave_out_brake_marks(const struct blank *blank, struct distances *distances) {
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
static void add_opening_corners(struct pattern *pattern, const struct blank_opening *opening, struct sticks *sticks) {
    struct flat low, high;
    if (!opening_has_corners(opening))
        return;
    opening_box(opening, &low, &high);
    if (opening->count != 4) {
        add_corner(pattern, low, sticks);
        add_corner(pattern, high, sticks);
    } else
        for (size_t j = 0; j < opening->count; j++)
            add_corner(pattern, opening->points[j], sticks);
}

/* Both sticks of a pair, from the datum; `whole` is how far they may reach. */
static void add_pair(struct pattern *pattern, struct distances *near, struct distances *far, bool upright) {
    const struct blank *blank = pattern->blank;
    struct flat datum = blank_datum(blank);
    bool back = upright ? datum.y > 0 : datum.x > 0;
    double whole = upright ? blank->height : blank->width;
    struct distances *both[] = {near, far};
    for (int i = 0; i < 2; i++) {
        if (back)
            turn_round(both[i], whole);
        if (upright == blank->marks_upward)
            leave_out_brake_marks(blank, both[i]);
    }
    struct spot low = {upright ? 0 : datum.x, upright ? datum.y : 0};
    struct spot high = {upright ? blank->width : datum.x, upright ? datum.y : blank->height};
    add_stick(pattern, near, low, upright ? FIGURE_LEFT : FIGURE_BELOW, back);
    add_stick(pattern, far, high, upright ? FIGURE_RIGHT : FIGURE_ABOVE, back);
}

/* The corners of the outline and of square holes, the inner ends of snips, and straight net lines and bends: across
 * from the left edge, up from the bottom, or from the edges that the brake marks are counted from. */
void pattern_corner_marks(struct pattern *pattern) {
    const struct blank *blank = pattern->blank;
    struct sticks sticks = {0};
    bool lettered = pattern->last_station > 0 && !pattern->square; /* see add_other_corners */
    add_corner(pattern, (struct flat){blank->width, blank->height}, &sticks);
    distances_add(pattern, &sticks.right, 0);
    distances_add(pattern, &sticks.upper, 0);
    for (size_t i = 0; i < blank->cut_count; i++)
        if (is_corner(blank, i) && !(lettered && is_slanting(blank, i)))
            add_corner(pattern, blank->cut[i], &sticks);
    for (size_t i = 0; i < blank->reliefs.count; i++)
        add_corner(pattern, blank->reliefs.at[i].to, &sticks);
    for (size_t i = 0; i < blank->openings.count; i++)
        add_opening_corners(pattern, &blank->openings.at[i], &sticks);
    for (size_t i = 0; i < blank->edges.count; i++) {
        const struct blank_edge *edge = &blank->edges.at[i];
        struct flat from = edge->points[0], to = edge->points[edge->count - 1];
        if (edge->shape == EDGE_LINE && edge->allowance > 0 && line_is_upright(from, to))
            add_line(pattern, from, to, &sticks);
    }
    for (size_t i = 0; i < blank->bends.count; i++)
        if (line_is_upright(blank->bends.at[i].from, blank->bends.at[i].to))
            add_line(pattern, blank->bends.at[i].from, blank->bends.at[i].to, &sticks);
    add_pair(pattern, &sticks.lower, &sticks.upper, false);
    add_pair(pattern, &sticks.left, &sticks.right, true);
}
