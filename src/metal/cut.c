/* The outline to cut: the net outline of a blank with the allowances of its edges, and the notches between them.
 *
 * An allowance stands square on its edge, as wide as told.  At a corner that turns out, two allowances leave a square
 * notch down to the net corner; where the outline turns in, or hardly turns, they meet where their outer lines do.  A
 * notch of an end is cut out of its allowance besides: square, or as a vee aslant from its outer line to the corner.
 */
#include <stdlib.h>

#include "metal/blank.h"

/* Two equal allowances go on into each other when the outline turns by less than this: chords of a curve do. */
static const double hardly_turns = 15 * DEGREE;

struct cutting {
    struct blank *blank;
    struct arena *arena;
    LIST(struct flat) outline;
};

static void add_point(struct cutting *cutting, struct flat point) {
    size_t count = cutting->outline.count;
    if (count && flat_distance(cutting->outline.at[count - 1], point) <= SAME_POINT)
        return;
    *list_add(cutting->arena, &cutting->outline) = point;
}

static struct flat segment_way(const struct blank_edge *edge, size_t i) {
    return flat_unit(flat_sub(edge->points[i + 1], edge->points[i]));
}

static struct flat first_way(const struct blank_edge *edge) {
    return segment_way(edge, 0);
}

static struct flat last_way(const struct blank_edge *edge) {
    return segment_way(edge, edge->count - 2);
}

/* Where two lines meet that run `a` beyond one way and `b` beyond the next, about their corner.  Both are to the right
 * of their ways. */
static struct flat outer_corner(struct flat corner, struct flat way, double a, struct flat next, double b) {
    double sine = flat_cross(way, next);
    if (fabs(sine) < 1e-12)
        return flat_add(corner, flat_scale(flat_right(next), b));
    struct flat from = flat_add(corner, flat_scale(flat_right(way), a));
    struct flat to = flat_add(corner, flat_scale(flat_right(next), b));
    double share = flat_cross(flat_sub(to, from), next) / sine;
    return flat_add(from, flat_scale(way, share));
}

/* Whether the allowances of two edges go on into each other at the corner between them, or are cut where they meet. */
static bool runs_on(const struct blank_edge *edge, const struct blank_edge *next) {
    if (edge->end_cut > 0 || next->start_cut > 0)
        return false;
    struct flat way = last_way(edge), on = first_way(next);
    double turn = atan2(flat_cross(way, on), flat_dot(way, on));
    bool alike = edge->kind == next->kind && fabs(edge->allowance - next->allowance) < 1e-9;
    return turn < -hardly_turns || (alike && turn < hardly_turns);
}

/* Two allowances of different width where the outline hardly turns: a step between them, square to both as nearly as
 * can be. */
static bool steps(const struct blank_edge *edge, const struct blank_edge *next) {
    if (edge->end_cut > 0 || next->start_cut > 0 || runs_on(edge, next))
        return false;
    struct flat way = last_way(edge), on = first_way(next);
    return fabs(atan2(flat_cross(way, on), flat_dot(way, on))) < hardly_turns;
}

static struct flat step_point(struct flat corner, struct flat way, struct flat on, double allowance) {
    struct flat out = flat_right(flat_unit(flat_add(way, on)));
    return flat_add(corner, flat_scale(out, allowance / flat_dot(out, flat_right(way))));
}

/* How high a notched end of an allowance stands at its corner: what the notch leaves of it there. */
static double left_at(const struct blank_edge *edge, double cut) {
    return cut > 0 ? edge->allowance - edge->notch_depth : edge->allowance;
}

/* Notches that are not cut down to the net line leave the sheet whole from one side of a duct's end to the next: no
 * slit at the corner between them. */
static bool stays_whole(const struct blank_edge *edge, const struct blank_edge *next) {
    struct flat way = last_way(edge), on = first_way(next);
    return edge->join == JOIN_PORT && next->join == JOIN_PORT && edge->port == next->port &&
           left_at(edge, edge->end_cut) > SAME_POINT && left_at(next, next->start_cut) > SAME_POINT &&
           atan2(flat_cross(way, on), flat_dot(way, on)) < hardly_turns;
}

/* The points of one notch, from the corner out to the full width of the allowance. */
struct notch_points {
    struct flat at_corner, inner, outer;
};

/* `way` leads along the edge away from the corner; `out` square to it. */
static struct notch_points notch_points(const struct blank_edge *edge, struct flat corner, struct flat way,
                                        struct flat out, double cut) {
    struct flat along = flat_scale(way, cut);
    struct notch_points at = {.at_corner = flat_add(corner, flat_scale(out, left_at(edge, cut)))};
    at.inner = edge->notch_vee ? at.at_corner : flat_add(at.at_corner, along);
    at.outer = flat_add(flat_add(corner, along), flat_scale(out, edge->allowance));
    return at;
}

/* The corner line of sheet that stays whole: where what is left of both meets. */
static void add_whole_corner(struct cutting *cutting, const struct blank_edge *before, const struct blank_edge *edge) {
    struct flat way = last_way(before), on = first_way(edge);
    double left = left_at(before, before->end_cut), next = left_at(edge, edge->start_cut);
    if (fabs(flat_cross(way, on)) > 1e-6) {
        add_point(cutting, outer_corner(edge->points[0], way, left, on, next));
        return;
    }
    add_point(cutting, flat_add(edge->points[0], flat_scale(flat_right(way), left)));
    add_point(cutting, flat_add(edge->points[0], flat_scale(flat_right(on), next)));
}

static void add_start(struct cutting *cutting, const struct blank_edge *before, const struct blank_edge *edge) {
    struct flat corner = edge->points[0], way = first_way(edge);
    if (runs_on(before, edge)) {
        add_point(cutting, outer_corner(corner, last_way(before), before->allowance, way, edge->allowance));
        return;
    }
    if (steps(before, edge)) {
        if (!(before->allowance > 0))
            add_point(cutting, corner);
        add_point(cutting, step_point(corner, last_way(before), way, edge->allowance));
        return;
    }
    struct notch_points at = notch_points(edge, corner, way, flat_right(way), edge->start_cut);
    bool whole = stays_whole(before, edge);
    if (whole)
        add_whole_corner(cutting, before, edge);
    else
        add_point(cutting, corner);
    if (!(edge->allowance > 0))
        return;
    if (!whole)
        add_point(cutting, at.at_corner);
    if (edge->start_cut > 0) {
        add_point(cutting, at.inner);
        add_point(cutting, at.outer);
    }
}

static void add_end(struct cutting *cutting, const struct blank_edge *edge, const struct blank_edge *next) {
    if (runs_on(edge, next) || !(edge->allowance > 0))
        return;
    struct flat corner = edge->points[edge->count - 1], way = last_way(edge);
    if (steps(edge, next)) {
        add_point(cutting, step_point(corner, way, first_way(next), edge->allowance));
        return;
    }
    struct notch_points at = notch_points(edge, corner, flat_scale(way, -1), flat_right(way), edge->end_cut);
    if (edge->end_cut > 0) {
        add_point(cutting, at.outer);
        add_point(cutting, at.inner);
    }
    if (!stays_whole(edge, next))
        add_point(cutting, at.at_corner);
}

static void add_middle(struct cutting *cutting, const struct blank_edge *edge) {
    for (size_t i = 1; i + 1 < edge->count; i++)
        add_point(cutting, outer_corner(edge->points[i], segment_way(edge, i - 1), edge->allowance,
                                        segment_way(edge, i), edge->allowance));
}

static const struct blank_edge *edge_after(const struct blank *blank, size_t i) {
    return &blank->edges.at[(i + 1) % blank->edges.count];
}

static double loop_area(const struct flat *points, size_t count) {
    double twice = 0;
    for (size_t i = 0; i < count; i++)
        twice += flat_cross(points[i], points[(i + 1) % count]);
    return twice / 2;
}

static void trace(struct cutting *cutting) {
    struct blank *blank = cutting->blank;
    const struct blank_edge *before = &blank->edges.at[blank->edges.count - 1];
    for (size_t i = 0; i < blank->edges.count; i++) {
        const struct blank_edge *edge = &blank->edges.at[i];
        add_start(cutting, before, edge);
        add_middle(cutting, edge);
        add_end(cutting, edge, edge_after(blank, i));
        before = edge;
    }
    while (cutting->outline.count > 1 &&
           flat_distance(cutting->outline.at[0], cutting->outline.at[cutting->outline.count - 1]) <= SAME_POINT)
        cutting->outline.count--;
    blank->cut = cutting->outline.at;
    blank->cut_count = cutting->outline.count;
    blank->cut_area = loop_area(blank->cut, blank->cut_count);
}

static double length_of(const struct blank_edge *edge) {
    double length = 0;
    for (size_t i = 0; i + 1 < edge->count; i++)
        length += flat_distance(edge->points[i], edge->points[i + 1]);
    return length;
}

bool blank_cut(struct blank *blank, struct arena *arena, const char **why) {
    for (size_t i = 0; i < blank->edges.count; i++) {
        const struct blank_edge *edge = &blank->edges.at[i];
        if (edge->start_cut + edge->end_cut < length_of(edge) || !(edge->allowance > 0))
            continue;
        *why = "its corner notches meet: the side is too narrow for them";
        return false;
    }
    struct cutting cutting = {.blank = blank, .arena = arena};
    trace(&cutting);
    if (loop_crosses(blank->cut, blank->cut_count, arena)) {
        *why = "its allowances run into each other";
        return false;
    }
    return true;
}

/* ---- Whether a loop crosses itself ------------------------------------------------------------------------------- */

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
static bool segments_cross(struct flat a, struct flat b, struct flat c, struct flat d) {
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
            if (segments_cross(points[one], points[(one + 1) % count], points[other], points[(other + 1) % count]))
                return true;
        }
    return false;
}
