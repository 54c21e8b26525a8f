/* A blank as a drawing that metal is scribed from: nothing on it is left to be worked out. */
#include "report/figure_stations.h"
#include "report/figures.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "report/shop.h"

/* Two marks nearer than this are one. */
static const double same_mark = 1e-4; /* m */

/* Nor does a point so near to the one before it help the hand that scribes. */
static const double same_point = INCH / 8; /* m */

/* Where an outline turns by less than the first it is a curve; by more than the second, a corner; between them it is a
 * corner unless it follows a curved edge. */
static const double curve_turn = 0.15, corner_turn = 0.8; /* rad */

struct pattern {
    struct arena *arena;
    struct figure *figure;
    const struct job *job;
    const struct part *part;
    const struct blank *blank;
    size_t points;       /* numbered so far */
    size_t last_station; /* the first of them are stations, so many */
    struct flat last_point;
    bool opening_points; /* an opening is listed by points */
    station_list stations;
    bool square, across; /* its stations, see stations_square */
    LIST(struct flat) centres; /* dimensioned already */
    LIST(struct flat) radii;   /* of arcs: directions of their lines */
};

static struct spot spot_of(struct flat flat) {
    return (struct spot){flat.x, flat.y};
}

static const char *length_figure(const struct pattern *pattern, double length) {
    return measure_figure(pattern->arena, pattern->job->system, SHOW_CUT, length);
}

static const char *length_text(const struct pattern *pattern, double length) {
    return measure_text(pattern->arena, pattern->job->system, SHOW_CUT, length);
}

/* "90", "22.5" */
static const char *degrees(const struct pattern *pattern, double angle) {
    double shown = round(fabs(angle) / DEGREE * 10) / 10;
    return arena_format(pattern->arena, fabs(shown - round(shown)) < 1e-9 ? "%.0f" : "%.1f", shown);
}

/* What an edge's own line is called where an allowance stands outside of it. */
static const char *own_line(const struct blank_edge *edge) {
    return edge->join == JOIN_SEAM ? "seam" : "net line";
}

/* ---- Outlines ---------------------------------------------------------------------------------------------------- */

static void draw_loop(struct figure *figure, enum stroke stroke, const struct flat *points, size_t count) {
    if (count == 0)
        return;
    struct figure_path *path = figure_path(figure, stroke, spot_of(points[0]));
    for (size_t i = 1; i < count; i++)
        path_line(figure, path, spot_of(points[i]));
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
static void draw_cut(struct pattern *pattern) {
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
static void draw_net(struct pattern *pattern) {
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

/* Where it is rolled or formed: at its stations and nowhere else. */
static void draw_stations(struct pattern *pattern) {
    for (size_t i = 0; i < pattern->stations.count; i++) {
        const struct station *station = &pattern->stations.at[i];
        figure_line(pattern->figure, STROKE_HIDDEN, spot_of(station->from.net), spot_of(station->to.net));
    }
    pattern->figure->key[STROKE_HIDDEN] = "roll or form lightly along";
}

static void draw_bends(struct pattern *pattern) {
    for (size_t i = 0; i < pattern->blank->bends.count; i++) {
        const struct blank_bend *bend = &pattern->blank->bends.at[i];
        const char *way = bend->angle < 0 ? "down" : "up";
        figure_line(pattern->figure, bend->angle < 0 ? STROKE_BEND_DOWN : STROKE_BEND_UP, spot_of(bend->from),
                    spot_of(bend->to));
        figure_label_line(pattern->figure, arena_format(pattern->arena, "%s %s°", way, degrees(pattern, bend->angle)),
                          spot_of(bend->from), spot_of(bend->to), LETTER_SMALL);
    }
}

/* ---- Names ------------------------------------------------------------------------------------------------------- */

static bool lies_in(const struct frame *frame, const struct solid_edge *edge) {
    for (size_t i = 0; i < edge->count; i++)
        if (fabs(space_dot(space_sub(edge->space[i], frame->origin), frame->along)) > same_mark)
            return false;
    return true;
}

/* Whether an edge that is no port's own lies in the plane of the near port, as that of a box whose end is closed round
 * the duct; the plate in the end itself has no such end. */
static bool is_toward_unit(const struct solid *solid, int index, const struct solid_edge *edge) {
    const struct solid_panel *panel = &solid->panels.at[index];
    if (solid->ports.count == 0 || solid->ports.at[0].use != PORT_USE_DUCT || !lies_in(&solid->ports.at[0].frame, edge))
        return false;
    for (size_t i = 0; i < panel->edges.count; i++)
        if (!lies_in(&solid->ports.at[0].frame, &panel->edges.at[i]))
            return true;
    return false;
}

/* "toward the unit: S slip, 1/2 in", "pocket, 1 in", "throat". */
static const char *edge_words(const struct pattern *pattern, const struct blank_edge *edge) {
    const struct solid_edge *own = &pattern->part->solid->panels.at[edge->panel].edges.at[edge->edge];
    const char *name = own->name, *label = edge->label;
    if (!name && edge->join == JOIN_PORT)
        name = pattern->part->solid->ports.at[edge->port].name;
    if (!name && is_toward_unit(pattern->part->solid, edge->panel, own))
        name = pattern->part->solid->ports.at[0].name;
    if (label && edge->allowance > 0)
        label = arena_format(pattern->arena, "%s, %s", label, length_text(pattern, edge->allowance));
    if (name && label)
        return arena_format(pattern->arena, "%s: %s", name, label);
    if (name || label)
        return name ? name : label;
    return edge->join == JOIN_SEAM ? "seam" : "free edge";
}

static double edge_span(const struct blank_edge *edge) {
    return flat_distance(edge->points[0], edge->points[edge->count - 1]);
}

/* Along a straight edge when there is room, else by a letter; at the middle of a curved one. */
static void name_edge(struct pattern *pattern, const struct blank_edge *edge, const char *words) {
    struct spot from = spot_of(edge->points[0]), to = spot_of(edge->points[edge->count - 1]);
    if (edge->shape != EDGE_LINE)
        from = to = spot_of(edge->points[edge->count / 2]);
    figure_label_briefly(pattern->figure, words, from, to, LETTER_SMALL);
}

/* The first edge whose words are not those of the edge before it, round the loop. */
static size_t first_named(const struct pattern *pattern) {
    const struct blank *blank = pattern->blank;
    for (size_t i = 1; i < blank->edges.count; i++)
        if (strcmp(edge_words(pattern, &blank->edges.at[i - 1]), edge_words(pattern, &blank->edges.at[i])) != 0)
            return i;
    return 0;
}

/* Neighbours with the same words are named once, at the longest. */
static void name_edges(struct pattern *pattern) {
    size_t count = pattern->blank->edges.count, first = first_named(pattern);
    const struct blank_edge *longest = NULL;
    const char *said = NULL;
    for (size_t i = 0; i < count; i++) {
        const struct blank_edge *edge = &pattern->blank->edges.at[(first + i) % count];
        const char *words = edge_words(pattern, edge);
        if (said && strcmp(said, words) == 0) {
            longest = edge_span(edge) > edge_span(longest) ? edge : longest;
            continue;
        }
        if (said)
            name_edge(pattern, longest, said);
        longest = edge;
        said = words;
    }
    if (said)
        name_edge(pattern, longest, said);
}

/* Whether no other panel of the blank is called so. */
static bool has_own_name(const struct pattern *pattern, const struct solid_panel *panel) {
    const struct blank *blank = pattern->blank;
    size_t alike = 0;
    for (size_t i = 0; panel->name && i < blank->panels.count; i++) {
        const char *name = pattern->part->solid->panels.at[blank->panels.at[i].panel].name;
        alike += name && strcmp(name, panel->name) == 0;
    }
    return alike == 1;
}

static bool in_opening(const struct blank *blank, struct flat at) {
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

/* The middle of a panel, or, where that is cut out, a place between it and a corner. */
static struct flat name_place(const struct pattern *pattern, const struct blank_panel *placed) {
    static const double aside = 0.75; /* of the way to the corner */
    const struct solid_panel *panel = &pattern->part->solid->panels.at[placed->panel];
    struct flat sum = {0, 0};
    for (size_t e = 0; e < panel->edges.count; e++)
        sum = flat_add(sum, panel->edges.at[e].flat[0]);
    struct flat middle = flat_scale(sum, 1 / fmax(1, (double)panel->edges.count));
    struct flat place = flat_add(placed->origin, flat_turn(middle, placed->turn));
    for (size_t e = 0; e < panel->edges.count && in_opening(pattern->blank, place); e++)
        place = flat_add(placed->origin,
                         flat_turn(flat_between(middle, panel->edges.at[e].flat[0], aside), placed->turn));
    return place;
}

/* In the middle of each panel of several. */
static void name_panels(struct pattern *pattern) {
    const struct blank *blank = pattern->blank;
    for (size_t i = 0; blank->panels.count > 1 && i < blank->panels.count; i++) {
        const struct blank_panel *placed = &blank->panels.at[i];
        const struct solid_panel *panel = &pattern->part->solid->panels.at[placed->panel];
        struct spot at = spot_of(name_place(pattern, placed));
        if (has_own_name(pattern, panel))
            figure_label_briefly(pattern->figure, panel->name, at, at, LETTER_PLAIN);
    }
}

/* ---- Marks from one edge ----------------------------------------------------------------------------------------- */

struct distances {
    LIST(double) list;
};

static int by_size(const void *a, const void *b) {
    double one = *(const double *)a, other = *(const double *)b;
    return (one > other) - (one < other);
}

static void add_distance(struct pattern *pattern, struct distances *distances, double distance) {
    *list_add(pattern->arena, &distances->list) = distance;
}

/* A story stick of `distances`, sorted here, those that read the same once; what would stand at the origin is left out.
 */
static void add_stick(struct pattern *pattern, struct distances *distances, struct spot origin, enum figure_side side,
                      bool back) {
    if (distances->list.count == 0)
        return;
    qsort(distances->list.at, distances->list.count, sizeof *distances->list.at, by_size);
    struct figure_ordinates *stick = figure_ordinates(pattern->figure, origin, side, back, "0");
    const char *last = "0";
    for (size_t i = 0; i < distances->list.count; i++) {
        const char *text = length_figure(pattern, distances->list.at[i]);
        if (distances->list.at[i] < 0 || strcmp(text, last) == 0)
            continue;
        ordinates_mark(pattern->figure, stick, distances->list.at[i], text);
        last = text;
    }
}

/* The marks of the brake, from the edge that they all are measured from, to the far edge. */
static void add_brake_marks(struct pattern *pattern) {
    const struct blank *blank = pattern->blank;
    struct distances distances = {0};
    for (size_t i = 0; i < blank->marks.count; i++)
        add_distance(pattern, &distances, blank->marks.at[i].at);
    if (distances.list.count == 0)
        return;
    add_distance(pattern, &distances, blank->marks_upward ? blank->height : blank->width);
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

/* A rectangle; other openings that are not circles are curves drawn by chords. */
static bool has_corners(const struct blank_opening *opening) {
    return opening->count == 4;
}

static void add_corner(struct pattern *pattern, struct flat corner, struct distances *across, struct distances *up) {
    add_distance(pattern, across, corner.x);
    add_distance(pattern, up, corner.y);
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

static bool is_upright(struct flat from, struct flat to) {
    return fabs(from.x - to.x) < same_mark || fabs(from.y - to.y) < same_mark;
}

/* Whether neither side of the outline at a corner is upright or level. */
static bool is_slanting(const struct blank *blank, size_t i) {
    size_t before = (i + blank->cut_count - 1) % blank->cut_count, after = (i + 1) % blank->cut_count;
    return !is_upright(blank->cut[before], blank->cut[i]) && !is_upright(blank->cut[i], blank->cut[after]);
}

/* The corners of the outline and of square holes, and straight net lines and bends: across from the left edge, up from
 * the bottom. */
static void add_corner_marks(struct pattern *pattern) {
    const struct blank *blank = pattern->blank;
    struct distances across = {0}, up = {0};
    bool lettered = pattern->last_station > 0 && !pattern->square; /* see add_other_corners */
    add_corner(pattern, (struct flat){0, 0}, &across, &up);
    add_corner(pattern, (struct flat){blank->width, blank->height}, &across, &up);
    for (size_t i = 0; i < blank->cut_count; i++)
        if (is_corner(blank, i) && !(lettered && is_slanting(blank, i)))
            add_corner(pattern, blank->cut[i], &across, &up);
    for (size_t i = 0; i < blank->openings.count; i++)
        for (size_t j = 0; has_corners(&blank->openings.at[i]) && j < blank->openings.at[i].count; j++)
            add_corner(pattern, blank->openings.at[i].points[j], &across, &up);
    for (size_t i = 0; i < blank->edges.count; i++) {
        const struct blank_edge *edge = &blank->edges.at[i];
        struct flat from = edge->points[0], to = edge->points[edge->count - 1];
        if (edge->shape == EDGE_LINE && edge->allowance > 0 && is_upright(from, to))
            add_distance(pattern, fabs(from.x - to.x) < same_mark ? &across : &up,
                         fabs(from.x - to.x) < same_mark ? from.x : from.y);
    }
    for (size_t i = 0; i < blank->bends.count; i++) {
        struct flat from = blank->bends.at[i].from, to = blank->bends.at[i].to;
        if (is_upright(from, to))
            add_distance(pattern, fabs(from.x - to.x) < same_mark ? &across : &up,
                         fabs(from.x - to.x) < same_mark ? from.x : from.y);
    }
    bool back = blank->marks.count > 0 && blank->marks_from_right; /* one edge for all that is measured along it */
    bool left = back && !blank->marks_upward, down = back && blank->marks_upward;
    if (left)
        turn_round(&across, blank->width);
    if (down)
        turn_round(&up, blank->height);
    leave_out_brake_marks(blank, &across, &up);
    add_stick(pattern, &across, (struct spot){left ? blank->width : 0, blank->height}, FIGURE_ABOVE, left);
    add_stick(pattern, &up, (struct spot){blank->width, down ? blank->height : 0}, FIGURE_RIGHT, down);
}

/* ---- Points ------------------------------------------------------------------------------------------------------ */

/* A numbered point of the drawing, with its place in the list: "3: 4-1/2 across, 7-1/16 up".  Its number stands on the
 * side `out`. */
static void add_point(struct pattern *pattern, struct flat at, struct flat out) {
    if (pattern->points > 0 && flat_distance(at, pattern->last_point) < same_point)
        return; /* where one curve goes on as another */
    pattern->last_point = at;
    size_t number = ++pattern->points;
    unsigned toward =
        fabs(out.x) > fabs(out.y) ? (out.x > 0 ? TOWARD_RIGHT : TOWARD_LEFT) : (out.y > 0 ? TOWARD_UP : TOWARD_DOWN);
    figure_label(pattern->figure, arena_format(pattern->arena, "%zu", number), spot_of(at), toward | TOWARD_DOT,
                 LETTER_SMALL);
    figure_list(pattern->figure, arena_format(pattern->arena, "%zu: %s across, %s up", number,
                                              length_figure(pattern, at.x), length_figure(pattern, at.y)));
}

/* How many spaces between points along a curve: as many as the shop wants stations along the whole blank, in
 * proportion. */
static size_t spaces_of(const struct pattern *pattern, double length) {
    double whole = fmax(pattern->blank->width, pattern->blank->height);
    return (size_t)fmax(2, round(pattern->job->shop.stations * fmin(1, length / whole)));
}

/* The direction square to a line, to its right: outward of a loop that goes anticlockwise. */
static struct flat outward(struct flat from, struct flat to) {
    return flat_right(flat_unit(flat_sub(to, from)));
}

/* Points of a curve, the ends among them, evenly spaced along it and moved outward by `by`. */
static void add_points(struct pattern *pattern, const struct flat *points, size_t count, double by) {
    double length = 0, before = 0;
    for (size_t i = 1; i < count; i++)
        length += flat_distance(points[i - 1], points[i]);
    size_t spaces = spaces_of(pattern, length), at = 1;
    for (size_t i = 0; i <= spaces; i++) {
        double place = length * (double)i / (double)spaces, step = flat_distance(points[at - 1], points[at]);
        while (at + 1 < count && before + step < place) {
            before += step;
            at++;
            step = flat_distance(points[at - 1], points[at]);
        }
        double share = step > 0 ? fmin(1, (place - before) / step) : 0;
        struct flat out = outward(points[at - 1], points[at]);
        add_point(pattern, flat_add(flat_between(points[at - 1], points[at], share), flat_scale(out, by)), out);
    }
}

/* The same of an arc, in equal steps of its sweep. */
static void add_arc_points(struct pattern *pattern, const struct blank_edge *edge) {
    size_t spaces = spaces_of(pattern, edge->radius * fabs(edge->sweep));
    double sign = edge->sweep > 0 ? 1 : -1;
    struct flat start = flat_unit(flat_sub(edge->points[0], edge->centre));
    for (size_t i = 0; i <= spaces; i++) {
        struct flat way = flat_turn(start, edge->sweep * (double)i / (double)spaces);
        add_point(pattern, flat_add(edge->centre, flat_scale(way, edge->radius + sign * edge->allowance)),
                  flat_scale(way, sign));
    }
}

/* Each distance is said once: of two centres on one level, the level. */
static void locate_centre(struct pattern *pattern, struct flat centre) {
    bool across = fabs(centre.x) > same_mark, up = fabs(centre.y) > same_mark;
    for (size_t i = 0; i < pattern->centres.count; i++) {
        across = across && fabs(pattern->centres.at[i].x - centre.x) > same_mark;
        up = up && fabs(pattern->centres.at[i].y - centre.y) > same_mark;
    }
    *list_add(pattern->arena, &pattern->centres) = centre;
    struct spot corner = {0, 0}, at = spot_of(centre);
    if (across)
        figure_dimension(pattern->figure, corner, at, FIGURE_BELOW, length_text(pattern, fabs(centre.x)));
    if (up)
        figure_dimension(pattern->figure, corner, at, FIGURE_LEFT, length_text(pattern, fabs(centre.y)));
}

/* How far a radius's line is from all that lies near it: from the extension lines of its centre, which stand upright and
 * level, and from other radii. */
static double clearance(const struct pattern *pattern, struct flat way) {
    double least = fmin(fabs(way.x), fabs(way.y));
    for (size_t i = 0; i < pattern->radii.count; i++)
        least = fmin(least, fabs(flat_cross(way, pattern->radii.at[i])));
    return least;
}

/* Where on the arc its radius is drawn to: near the middle, unless the line would lie on another there. */
static struct flat radius_way(struct pattern *pattern, const struct blank_edge *edge) {
    static const double shares[] = {0.5, 0.4, 0.6, 0.3, 0.7, 0.2, 0.8};
    static const double clear = 0.1; /* rad, nearly */
    struct flat start = flat_unit(flat_sub(edge->points[0], edge->centre)), best = start;
    double most = -1;
    for (size_t i = 0; i < sizeof shares / sizeof *shares && most < clear; i++) {
        struct flat way = flat_turn(start, edge->sweep * shares[i]);
        if (clearance(pattern, way) <= most)
            continue;
        most = clearance(pattern, way);
        best = way;
    }
    *list_add(pattern->arena, &pattern->radii) = best;
    return best;
}

/* An arc is scribed with a trammel: its radius to the cut, and to its own line when it has an allowance. */
static void add_arc(struct pattern *pattern, const struct blank_edge *edge) {
    double sign = edge->sweep > 0 ? 1 : -1, cut = edge->radius + sign * edge->allowance;
    struct flat way = radius_way(pattern, edge);
    const char *text = arena_format(pattern->arena, "R %s", length_text(pattern, cut));
    if (edge->allowance > 0)
        text = arena_format(pattern->arena, "%s, R %s to the %s", text, length_text(pattern, edge->radius),
                            own_line(edge));
    figure_radius(pattern->figure, spot_of(edge->centre), spot_of(flat_add(edge->centre, flat_scale(way, cut))), true,
                  text);
    locate_centre(pattern, edge->centre);
}

/* Whether its points are stations. */
static bool has_stations(const struct pattern *pattern, const struct blank_edge *edge) {
    for (size_t i = 0; i < pattern->stations.count; i++)
        if (pattern->stations.at[i].from.edge == edge || pattern->stations.at[i].to.edge == edge)
            return true;
    return false;
}

/* The outline to cut between the ends of a curved edge is its own line moved out by the allowance, square to it. */
static void add_curves(struct pattern *pattern) {
    for (size_t i = 0; i < pattern->blank->edges.count; i++) {
        const struct blank_edge *edge = &pattern->blank->edges.at[i];
        bool points = edge_by_points(pattern->blank, edge) && !has_stations(pattern, edge);
        if (edge->shape == EDGE_ARC && !edge_by_points(pattern->blank, edge))
            add_arc(pattern, edge);
        else if (edge->shape == EDGE_ARC && points)
            add_arc_points(pattern, edge);
        else if (points)
            add_points(pattern, edge->points, edge->count, edge->allowance);
    }
}

/* ---- Stations ---------------------------------------------------------------------------------------------------- */

/* "P", "Q" ... "Z", "P2" ...: a corner that form lines come together in. */
static const char *corner_letter(const struct pattern *pattern, size_t number) {
    enum { LETTERS = 11 };
    char letter = (char)('P' + (number - 1) % LETTERS);
    return number <= LETTERS ? arena_format(pattern->arena, "%c", letter)
                             : arena_format(pattern->arena, "%c%zu", letter, (number - 1) / LETTERS + 1);
}

/* Across, up: "2-3/4, 7-1/16". */
static const char *place_text(const struct pattern *pattern, struct flat at) {
    return arena_format(pattern->arena, "%s, %s", length_figure(pattern, at.x), length_figure(pattern, at.y));
}

/* One end of a station that stands squarely: ", upper 10-15/16 (seam 10-3/16)". */
static const char *end_text(const struct pattern *pattern, const struct station_end *end, const struct flat *other) {
    if (!end->edge)
        return "";
    bool across = pattern->across, upper = across ? end->net.x > other->x : end->net.y > other->y;
    const char *side = across ? (upper ? "right" : "left") : (upper ? "upper" : "lower");
    const char *cut = length_figure(pattern, across ? end->cut.x : end->cut.y);
    if (flat_distance(end->cut, end->net) < same_mark)
        return arena_format(pattern->arena, ", %s %s", side, cut);
    return arena_format(pattern->arena, ", %s %s (%s %s)", side, cut, own_line(end->edge),
                        length_figure(pattern, across ? end->net.x : end->net.y));
}

/* A number at one end, the lower or the left when that is on a curve. */
static void number_squarely(struct pattern *pattern, const struct station *station) {
    const struct station_end *from = &station->from, *to = &station->to;
    bool turned = pattern->across ? to->net.x < from->net.x : to->net.y < from->net.y;
    const struct station_end *low = turned ? to : from, *high = turned ? from : to, *end = low->edge ? low : high;
    unsigned toward = pattern->across ? (end == low ? TOWARD_LEFT : TOWARD_RIGHT)
                                      : (end == low ? TOWARD_DOWN : TOWARD_UP);
    const char *number = arena_format(pattern->arena, "%zu", station->number);
    figure_label(pattern->figure, number, spot_of(end->cut), toward | TOWARD_DOT, LETTER_SMALL);
    figure_list(pattern->figure,
                arena_format(pattern->arena, "%s: at %s%s%s", number,
                             length_figure(pattern, pattern->across ? low->net.y : low->net.x),
                             end_text(pattern, low, &high->net), end_text(pattern, high, &low->net)));
}

static void add_square_stations(struct pattern *pattern) {
    size_t last = 0;
    for (size_t i = 0; i < pattern->stations.count; i++)
        if (pattern->stations.at[i].number > last) {
            number_squarely(pattern, &pattern->stations.at[i]);
            last = pattern->stations.at[i].number;
        }
}

/* A foot of a slanting station: "3: 4-1/2, 7-1/16; seam 4-7/8, 7-1/2". */
static void add_foot(struct pattern *pattern, const char *number, const struct station_end *end, struct flat other) {
    struct flat out = flat_unit(flat_sub(end->net, other));
    unsigned toward =
        fabs(out.x) > fabs(out.y) ? (out.x > 0 ? TOWARD_RIGHT : TOWARD_LEFT) : (out.y > 0 ? TOWARD_UP : TOWARD_DOWN);
    figure_label(pattern->figure, number, spot_of(end->cut), toward | TOWARD_DOT, LETTER_SMALL);
    const char *text = arena_format(pattern->arena, "%s: %s", number, place_text(pattern, end->cut));
    if (flat_distance(end->cut, end->net) > same_mark)
        text = arena_format(pattern->arena, "%s; %s %s", text, own_line(end->edge), place_text(pattern, end->net));
    figure_list(pattern->figure, text);
}

/* Of a line between two curves the number at its farther end is that of the nearer with a stroke. */
static void add_slanting_station(struct pattern *pattern, const struct station *station) {
    const struct station_end *one = station->from.edge ? &station->from : &station->to;
    const struct station_end *other = one == &station->from ? &station->to : &station->from;
    add_foot(pattern, arena_format(pattern->arena, "%zu", station->number), one, other->net);
    if (other->edge)
        add_foot(pattern, arena_format(pattern->arena, "%zu'", station->number), other, one->net);
}

/* A corner that form lines start from, or another of the net outline. */
static void add_lettered(struct pattern *pattern, size_t number, struct flat at) {
    const char *letter = corner_letter(pattern, number);
    figure_label(pattern->figure, letter, spot_of(at), TOWARD_CORNERS | TOWARD_DOT, LETTER_SMALL);
    figure_list(pattern->figure, arena_format(pattern->arena, "%s: %s", letter, place_text(pattern, at)));
}

/* Whether a place has a number or a letter of its own as the end of a station. */
static bool is_station_end(const struct pattern *pattern, struct flat at) {
    for (size_t i = 0; i < pattern->stations.count; i++) {
        const struct station *station = &pattern->stations.at[i];
        for (int end = 0; station->number > 0 && end < 2; end++) {
            const struct station_end *ends = end ? &station->to : &station->from;
            if ((ends->edge || ends->corner > 0) && flat_distance(ends->net, at) < same_point)
                return true;
        }
    }
    return false;
}

/* Corners of the net outline that no form line ends at. */
static void add_other_corners(struct pattern *pattern, size_t last) {
    const struct blank *blank = pattern->blank;
    for (size_t i = 0; i < blank->edges.count; i++) {
        const struct blank_edge *edge = &blank->edges.at[i], *before = &blank->edges.at[i ? i - 1 : blank->edges.count - 1];
        struct flat in = flat_sub(before->points[before->count - 1], before->points[before->count - 2]);
        struct flat out = flat_sub(edge->points[1], edge->points[0]);
        if (fabs(atan2(flat_cross(in, out), flat_dot(in, out))) > curve_turn && !is_station_end(pattern, edge->points[0]))
            add_lettered(pattern, ++last, edge->points[0]);
    }
}

/* Lengths of form lines, from their corner: "P to 1: 15-7/8". */
static void add_true_lengths(struct pattern *pattern) {
    for (size_t i = 0; i < pattern->stations.count; i++) {
        const struct station *station = &pattern->stations.at[i];
        size_t corner = station->from.corner ? station->from.corner : station->to.corner;
        double length = flat_distance(station->from.net, station->to.net);
        if (corner > 0 && station->number > 0)
            figure_list(pattern->figure,
                        arena_format(pattern->arena, "%s to %zu: %s", corner_letter(pattern, corner), station->number,
                                     length_figure(pattern, length)));
    }
}

static void add_slanting_stations(struct pattern *pattern) {
    size_t feet = 0, corners = 0;
    for (size_t n = 1; n <= pattern->stations.count; n++)
        for (size_t i = 0; i < pattern->stations.count && feet < n; i++)
            if (pattern->stations.at[i].number == n) {
                add_slanting_station(pattern, &pattern->stations.at[i]);
                feet = n;
            }
    for (size_t i = 0; i < 2 * pattern->stations.count; i++) {
        const struct station *station = &pattern->stations.at[i / 2];
        const struct station_end *end = i % 2 ? &station->to : &station->from;
        if (station->number == 0 || end->corner <= corners)
            continue;
        add_lettered(pattern, end->corner, end->net);
        corners = end->corner;
    }
    add_other_corners(pattern, corners);
    add_true_lengths(pattern);
}

static void add_stations(struct pattern *pattern) {
    if (pattern->square)
        add_square_stations(pattern);
    else
        add_slanting_stations(pattern);
}

static void add_slanting_bends(struct pattern *pattern) {
    for (size_t i = 0; i < pattern->blank->bends.count; i++) {
        const struct blank_bend *bend = &pattern->blank->bends.at[i];
        if (is_upright(bend->from, bend->to))
            continue;
        struct flat way = flat_sub(bend->to, bend->from);
        add_point(pattern, bend->from, flat_scale(way, -1));
        add_point(pattern, bend->to, way);
    }
}

/* ---- Openings ---------------------------------------------------------------------------------------------------- */

/* Its middle: of a round one its centre, else of the box around it. */
static struct flat middle_of(const struct blank_opening *opening, double *half_width, double *half_height) {
    struct flat low = {INFINITY, INFINITY}, high = {-INFINITY, -INFINITY};
    for (size_t i = 0; i < opening->count; i++) {
        low = (struct flat){fmin(low.x, opening->points[i].x), fmin(low.y, opening->points[i].y)};
        high = (struct flat){fmax(high.x, opening->points[i].x), fmax(high.y, opening->points[i].y)};
    }
    *half_width = opening->round ? opening->radius : (high.x - low.x) / 2;
    *half_height = opening->round ? opening->radius : (high.y - low.y) / 2;
    return opening->round ? opening->middle : flat_between(low, high, 0.5);
}

/* Where the line from the middle along `way` meets its outline, which lies all round the middle. */
static struct flat on_opening(const struct blank_opening *opening, struct flat middle, struct flat way) {
    struct flat best = middle;
    for (size_t i = 0; i < opening->count; i++) {
        struct flat a = opening->points[i], side = flat_sub(opening->points[(i + 1) % opening->count], a);
        double across = flat_cross(way, side);
        if (fabs(across) < 1e-15)
            continue;
        double far = flat_cross(flat_sub(a, middle), side) / across;
        double along = flat_cross(flat_sub(a, middle), way) / across;
        if (far > 0 && along >= -1e-9 && along <= 1 + 1e-9)
            best = flat_add(middle, flat_scale(way, far));
    }
    return best;
}

enum { OPENING_POINTS = 16 };

/* Whether it is alike on both sides of both centre lines: then a quarter says all. */
static bool is_alike_all_round(const struct blank_opening *opening, struct flat middle) {
    for (int i = 1; i < OPENING_POINTS / 4; i++) {
        struct flat way = flat_turn((struct flat){1, 0}, 2 * PI * i / OPENING_POINTS);
        double far = flat_distance(middle, on_opening(opening, middle, way));
        struct flat mirrored[] = {{-way.x, way.y}, {-way.x, -way.y}, {way.x, -way.y}};
        for (int m = 0; m < 3; m++)
            if (fabs(flat_distance(middle, on_opening(opening, middle, mirrored[m])) - far) > CHORD_LIMIT)
                return false;
    }
    return true;
}

/* Points of a curved opening, evenly round its centre, measured from its centre lines. */
static void add_opening_points(struct pattern *pattern, const struct blank_opening *opening, struct flat middle) {
    bool alike = is_alike_all_round(opening, middle);
    for (int i = 0; i < (alike ? OPENING_POINTS / 4 + 1 : OPENING_POINTS); i++) {
        struct flat way = flat_turn((struct flat){1, 0}, 2 * PI * i / OPENING_POINTS);
        struct flat at = on_opening(opening, middle, way), from = flat_sub(at, middle);
        const char *number = arena_format(pattern->arena, "%zu", ++pattern->points);
        unsigned toward = fabs(way.x) > fabs(way.y) ? (way.x > 0 ? TOWARD_RIGHT : TOWARD_LEFT)
                                                    : (way.y > 0 ? TOWARD_UP : TOWARD_DOWN);
        figure_label(pattern->figure, number, spot_of(at), toward | TOWARD_DOT, LETTER_SMALL);
        figure_list(pattern->figure,
                    arena_format(pattern->arena, "%s: %s %s, %s %s of the centre%s", number,
                                 length_figure(pattern, fabs(from.x)), from.x < -same_mark ? "left" : "right",
                                 length_figure(pattern, fabs(from.y)), from.y < -same_mark ? "below" : "above",
                                 alike ? ", on all sides alike" : ""));
    }
    pattern->opening_points = true;
}

static void draw_centre_lines(struct pattern *pattern, struct flat middle, double half_width, double half_height) {
    static const double past = 1.15;
    figure_line(pattern->figure, STROKE_CENTRE, (struct spot){middle.x - past * half_width, middle.y},
                (struct spot){middle.x + past * half_width, middle.y});
    figure_line(pattern->figure, STROKE_CENTRE, (struct spot){middle.x, middle.y - past * half_height},
                (struct spot){middle.x, middle.y + past * half_height});
}

static void add_opening(struct pattern *pattern, const struct blank_opening *opening) {
    struct figure *figure = pattern->figure;
    double half_width = 0, half_height = 0;
    struct flat middle = middle_of(opening, &half_width, &half_height);
    const char *name = opening->name ? opening->name : "opening";
    if (opening->round) {
        const char *across = length_text(pattern, 2 * opening->radius);
        figure_circle(figure, STROKE_CUT, spot_of(middle), opening->radius);
        name = arena_format(pattern->arena, opening->name ? "%s: hole %s across" : "%s %s across", name, across);
    } else
        draw_loop(figure, STROKE_CUT, opening->points, opening->count);
    if (opening->round || !has_corners(opening)) {
        draw_centre_lines(pattern, middle, half_width, half_height);
        locate_centre(pattern, middle);
    }
    if (!opening->round && !has_corners(opening))
        add_opening_points(pattern, opening, middle);
    bool lined = opening->round || !has_corners(opening); /* its name keeps off the centre lines */
    struct spot place = {middle.x + (lined ? half_width / 3 : 0), middle.y + (lined ? half_height / 3 : 0)};
    figure_label(figure, name, place, TOWARD_HERE, LETTER_SMALL);
}

/* ---- The whole --------------------------------------------------------------------------------------------------- */

static const char *subtitle(const struct pattern *pattern) {
    const struct blank *blank = pattern->blank;
    size_t all = blank->quantity * pattern->part->uses.count;
    const char *text =
        arena_format(pattern->arena, "%s · %d gauge · %zu wanted", pattern->part->title, pattern->part->gauge, all);
    if (blank->opposite == 0)
        return text;
    return arena_format(pattern->arena, "%s, %zu of them of the opposite hand: turn over before bending", text,
                        blank->opposite * pattern->part->uses.count);
}

/* Whether what is cut is the whole sheared sheet, but for small notches: its area says so. */
static bool is_box(const struct blank *blank) {
    static const double nearly = 0.97;
    return blank->cut_area > nearly * blank->width * blank->height;
}

static void draw_sheet(struct pattern *pattern) {
    const struct blank *blank = pattern->blank;
    const struct spot corners[] = {{0, 0}, {blank->width, 0}, {blank->width, blank->height}, {0, blank->height}};
    if (!is_box(blank))
        figure_polygon(pattern->figure, STROKE_THIN, SHADE_NONE, corners, 4);
}

/* Lines of a seam that nothing is bent along are no marks for the brake. */
static bool has_brake_marks(const struct blank *blank) {
    for (size_t i = 0; i < blank->marks.count; i++)
        if (blank->marks.at[i].kind == LINE_BEND)
            return true;
    return false;
}

static const char *station_note(const struct pattern *pattern) {
    if (!pattern->square)
        return "Points and corners: across from the left edge of the sheet, up from its bottom edge. P to 1: the length "
               "of the form line between them. An allowance stands square to its edge, as wide as its name says.";
    return pattern->across ? "Stations are up from the bottom edge; their left and right ends, across from the left edge."
                           : "Stations are across from the left edge; their lower and upper ends, up from the bottom "
                             "edge.";
}

static void add_notes(struct pattern *pattern) {
    struct figure *figure = pattern->figure;
    const struct blank *blank = pattern->blank;
    figure_note(figure, "Seen from the inside of the duct: bends up come toward you.");
    if (has_brake_marks(blank))
        figure_note(figure, arena_format(pattern->arena, "The brake marks are all measured from the %s edge.",
                                         shop_marks_from(blank)));
    if (pattern->last_station > 0)
        figure_note(figure, station_note(pattern));
    if (pattern->points > pattern->last_station)
        figure_note(figure, pattern->opening_points
                                ? "Points of openings are measured from their centre lines."
                                : "Numbered points are across from the left edge and up from the bottom edge of the sheet.");
    if (!is_box(blank))
        figure_note(figure, arena_format(pattern->arena, "The thin box is the sheet as sheared, %s x %s.",
                                         length_text(pattern, blank->width), length_text(pattern, blank->height)));
}

struct figure *figure_pattern(struct arena *arena, const struct job *job, const struct part *part,
                              const struct blank *blank) {
    struct pattern pattern = {.arena = arena, .job = job, .part = part, .blank = blank};
    const char *title = arena_format(arena, "Part %zu%s: %s", part->number, blank->letter ? blank->letter : "",
                                     blank->name ? blank->name : part->shape);
    struct figure *figure = pattern.figure = figure_new(arena, title, subtitle(&pattern));
    figure->metric = job->system == MEASURE_METRIC;
    draw_sheet(&pattern);
    draw_cut(&pattern);
    draw_net(&pattern);
    find_stations(arena, part->solid, blank, job->shop.stations, &pattern.stations);
    pattern.square = stations_square(&pattern.stations, &pattern.across);
    for (size_t i = 0; i < pattern.stations.count; i++)
        pattern.last_station = pattern.points =
            pattern.stations.at[i].number > pattern.points ? pattern.stations.at[i].number : pattern.points;
    draw_stations(&pattern);
    draw_bends(&pattern);
    add_stations(&pattern);
    for (size_t i = 0; i < blank->openings.count; i++)
        add_opening(&pattern, &blank->openings.at[i]);
    add_brake_marks(&pattern);
    add_corner_marks(&pattern);
    add_curves(&pattern);
    add_slanting_bends(&pattern);
    name_edges(&pattern);
    name_panels(&pattern);
    add_notes(&pattern);
    return figure;
}
