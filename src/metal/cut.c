/* The outline to cut: the net outline of a blank with the allowances of its edges, and the notches between them.
 *
 * An allowance stands square on its edge, as wide as told.  At a corner that turns out, two allowances leave a square
 * notch down to the net corner; where the outline turns in, or hardly turns, they meet where their outer lines do.  A
 * notch of an end is cut out of its allowance besides: square, or as a vee aslant from its outer line to the corner.
 * Where two allowances meet and one of them is turned, the sheet is snipped between them, in to the net corner.
 */
#include "metal/blank.h"

/* Two equal allowances go on into each other when the outline turns by less than this: chords of a curve do. */
static const double hardly_turns = 15 * DEGREE;

/* A flange on a curve that turns in must stretch when it is turned: by more than this it is snipped, so far apart.
 * Common practice, no source. */
static const double most_stretch = 0.15, snips_apart = 1 * INCH;

/* A point of the outline, and the edge whose allowance it bounds. */
struct cut_point {
    struct flat at;
    const struct blank_edge *of;
};

struct cutting {
    struct blank *blank;
    struct arena *arena;
    const struct blank_edge *edge; /* at hand */
    LIST(struct cut_point) outline;
};

static void add_point(struct cutting *cutting, struct flat point) {
    size_t count = cutting->outline.count;
    if (count && flat_distance(cutting->outline.at[count - 1].at, point) <= SAME_POINT)
        return;
    *list_add(cutting->arena, &cutting->outline) = (struct cut_point){point, cutting->edge};
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

static bool is_turned(const struct blank_edge *edge) {
    return edge->allowance > 0 && edge->turn != TURN_FLAT;
}

/* A snip from where the outer lines of two allowances meet to the corner of the net outline, when the sheet beyond it
 * is of one piece and what is turned along one edge would take along what stands on the other. */
static void relieve_corner(struct cutting *cutting, const struct blank_edge *before, const struct blank_edge *edge,
                           struct flat outer) {
    struct flat way = last_way(before), on = first_way(edge);
    double turn = atan2(flat_cross(way, on), flat_dot(way, on));
    bool apart = turn >= -hardly_turns && (!(before->allowance > 0) || !(edge->allowance > 0));
    if ((is_turned(before) || is_turned(edge)) && !apart)
        *list_add(cutting->arena, &cutting->blank->reliefs) = (struct blank_relief){outer, edge->points[0]};
}

/* Whether one allowance goes on as the other, past chords of one curve or along one line. */
static bool goes_on(const struct blank_edge *before, const struct blank_edge *edge) {
    struct flat way = last_way(before), on = first_way(edge);
    return fabs(atan2(flat_cross(way, on), flat_dot(way, on))) < hardly_turns && runs_on(before, edge);
}

static void add_start(struct cutting *cutting, const struct blank_edge *before, const struct blank_edge *edge) {
    struct flat corner = edge->points[0], way = first_way(edge);
    if (runs_on(before, edge)) {
        struct flat outer = outer_corner(corner, last_way(before), before->allowance, way, edge->allowance);
        add_point(cutting, outer);
        if (before->slit || !goes_on(before, edge))
            relieve_corner(cutting, before, edge, outer);
        return;
    }
    if (steps(before, edge)) {
        if (!(before->allowance > 0))
            add_point(cutting, corner);
        add_point(cutting, step_point(corner, last_way(before), way, edge->allowance));
        relieve_corner(cutting, before, edge,
                       step_point(corner, last_way(before), way, fmin(before->allowance, edge->allowance)));
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

/* Snips across a flange that is to stretch along an arc that turns in. */
static void relieve_arc(struct cutting *cutting, const struct blank_edge *edge) {
    double inner = edge->radius - edge->allowance, length = edge->radius * -edge->sweep;
    if (edge->shape != EDGE_ARC || edge->sweep >= 0 || !is_turned(edge) || inner <= SAME_POINT ||
        edge->allowance <= most_stretch * inner)
        return;
    size_t parts = (size_t)ceil(length / snips_apart);
    struct flat start = flat_unit(flat_sub(edge->points[0], edge->centre));
    for (size_t i = 1; i < parts; i++) {
        struct flat way = flat_turn(start, edge->sweep * (double)i / (double)parts);
        *list_add(cutting->arena, &cutting->blank->reliefs) = (struct blank_relief){
            flat_add(edge->centre, flat_scale(way, inner)), flat_add(edge->centre, flat_scale(way, edge->radius))};
    }
}

static const struct blank_edge *edge_after(const struct blank *blank, size_t i) {
    return &blank->edges.at[(i + 1) % blank->edges.count];
}

/* ---- Where the line of an allowance crosses itself --------------------------------------------------------------- */

/* Where two segments meet, which do. */
static struct flat crossing(struct flat a, struct flat b, struct flat c, struct flat d) {
    struct flat ab = flat_sub(b, a), cd = flat_sub(d, c);
    return flat_add(a, flat_scale(ab, flat_cross(flat_sub(c, a), cd) / flat_cross(ab, cd)));
}

/* How far a point is from an edge's own line. */
static double edge_distance(const struct blank_edge *edge, struct flat at) {
    double least = INFINITY;
    for (size_t i = 0; i + 1 < edge->count; i++) {
        struct flat a = edge->points[i], way = flat_sub(edge->points[i + 1], a);
        double share = flat_dot(flat_sub(at, a), way) / flat_dot(way, way);
        least = fmin(least, flat_distance(at, flat_add(a, flat_scale(way, fmax(0, fmin(1, share))))));
    }
    return least;
}

/* Whether all points from `first` to `last` are nearer to their edge than its allowance is wide. */
static bool are_within(const struct cutting *cutting, size_t first, size_t last) {
    for (size_t i = first; i <= last; i++)
        if (edge_distance(cutting->outline.at[i].of, cutting->outline.at[i].at) >=
            cutting->outline.at[i].of->allowance - SAME_POINT)
            return false;
    return true;
}

/* The points from `first` to `last` make way for one. */
static void replace_points(struct cutting *cutting, size_t first, size_t last, struct flat point) {
    cutting->outline.at[first].at = point;
    size_t gone = last - first, count = cutting->outline.count -= gone;
    for (size_t i = first + 1; i < count; i++)
        cutting->outline.at[i] = cutting->outline.at[i + gone];
}

/* Cuts off the loop that the line beyond one edge makes behind segment i, where it crosses itself; false: none. */
static bool cut_off_loop(struct cutting *cutting, size_t i) {
    const struct cut_point *at = cutting->outline.at;
    size_t count = cutting->outline.count;
    for (size_t j = i + 2; j + 1 < count && at[j].of == at[i + 1].of; j++) {
        if (!lines_cross(at[i].at, at[i + 1].at, at[j].at, at[j + 1].at))
            continue;
        if (!are_within(cutting, i + 1, j))
            continue;
        replace_points(cutting, i + 1, j, crossing(at[i].at, at[i + 1].at, at[j].at, at[j + 1].at));
        return true;
    }
    return false;
}

/* Beyond a curve that turns in within less than the allowance the line of the allowance turns back on itself: nearer to
 * another part of the curve than the allowance is wide.  Cut is what lies outside of that: farther from the curve than
 * any of it, where the line crosses itself. */
static void trim(struct cutting *cutting) {
    for (size_t i = 0; i + 2 < cutting->outline.count;)
        if (!cut_off_loop(cutting, i))
            i++;
}

/* ---- The whole --------------------------------------------------------------------------------------------------- */

static double loop_area(const struct flat *points, size_t count) {
    double twice = 0;
    for (size_t i = 0; i < count; i++)
        twice += flat_cross(points[i], points[(i + 1) % count]);
    return twice / 2;
}

static void keep_outline(struct cutting *cutting) {
    struct blank *blank = cutting->blank;
    blank->cut_count = cutting->outline.count;
    blank->cut = ARENA_ARRAY(cutting->arena, struct flat, blank->cut_count + 1);
    for (size_t i = 0; i < blank->cut_count; i++)
        blank->cut[i] = cutting->outline.at[i].at;
    blank->cut_area = loop_area(blank->cut, blank->cut_count);
}

static void trace(struct cutting *cutting) {
    struct blank *blank = cutting->blank;
    const struct blank_edge *before = &blank->edges.at[blank->edges.count - 1];
    for (size_t i = 0; i < blank->edges.count; i++) {
        const struct blank_edge *edge = cutting->edge = &blank->edges.at[i];
        add_start(cutting, before, edge);
        add_middle(cutting, edge);
        add_end(cutting, edge, edge_after(blank, i));
        relieve_arc(cutting, edge);
        before = edge;
    }
    while (cutting->outline.count > 1 &&
           flat_distance(cutting->outline.at[0].at, cutting->outline.at[cutting->outline.count - 1].at) <= SAME_POINT)
        cutting->outline.count--;
}

bool blank_cut(struct blank *blank, struct arena *arena, const char **why) {
    for (size_t i = 0; i < blank->edges.count; i++) {
        const struct blank_edge *edge = &blank->edges.at[i];
        if (edge->start_cut + edge->end_cut < blank_edge_length(edge) || !(edge->allowance > 0))
            continue;
        *why = "its corner notches meet: the side is too narrow for them";
        return false;
    }
    struct cutting cutting = {.blank = blank, .arena = arena};
    trace(&cutting);
    keep_outline(&cutting);
    if (!loop_crosses(blank->cut, blank->cut_count, arena))
        return true;
    trim(&cutting);
    keep_outline(&cutting);
    if (loop_crosses(blank->cut, blank->cut_count, arena)) {
        *why = "its allowances run into each other";
        return false;
    }
    return true;
}
