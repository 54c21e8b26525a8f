/* Curves and slanting bends of a blank: arcs by radius and centre, others by numbered points. */
#include "report/figure_blank.h"

#include <math.h>

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
                                              pattern_figure(pattern, at.x), pattern_figure(pattern, at.y)));
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
void pattern_centre(struct pattern *pattern, struct flat centre) {
    struct flat datum = blank_datum(pattern->blank);
    bool across = fabs(centre.x - datum.x) > same_mark, up = fabs(centre.y - datum.y) > same_mark;
    for (size_t i = 0; i < pattern->centres.count; i++) {
        across = across && fabs(pattern->centres.at[i].x - centre.x) > same_mark;
        up = up && fabs(pattern->centres.at[i].y - centre.y) > same_mark;
    }
    *list_add(pattern->arena, &pattern->centres) = centre;
    struct spot corner = spot_of(datum), at = spot_of(centre);
    if (across)
        figure_dimension(pattern->figure, corner, at, FIGURE_BELOW, pattern_text(pattern, fabs(centre.x - datum.x)));
    if (up)
        figure_dimension(pattern->figure, corner, at, FIGURE_LEFT, pattern_text(pattern, fabs(centre.y - datum.y)));
}

/* How far a radius's line is from all that lies near it: from the extension lines of its centre, which stand upright
 * and level, and from other radii. */
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
    const char *text = arena_format(pattern->arena, "R %s", pattern_text(pattern, cut));
    if (edge->allowance > 0)
        text = arena_format(pattern->arena, "%s, R %s to the %s", text, pattern_text(pattern, edge->radius),
                            edge_own_line(edge));
    figure_radius(pattern->figure, spot_of(edge->centre), spot_of(flat_add(edge->centre, flat_scale(way, cut))), true,
                  text);
    pattern_centre(pattern, edge->centre);
}

/* Whether its points are stations. */
static bool has_stations(const struct pattern *pattern, const struct blank_edge *edge) {
    for (size_t i = 0; i < pattern->stations.count; i++)
        if (pattern->stations.at[i].from.edge == edge || pattern->stations.at[i].to.edge == edge)
            return true;
    return false;
}

/* The outline to cut between the ends of a curved edge is its own line moved out by the allowance, square to it. */
void pattern_curves(struct pattern *pattern) {
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

void pattern_slanting_bends(struct pattern *pattern) {
    for (size_t i = 0; i < pattern->blank->bends.count; i++) {
        const struct blank_bend *bend = &pattern->blank->bends.at[i];
        if (line_is_upright(bend->from, bend->to))
            continue;
        struct flat way = flat_sub(bend->to, bend->from);
        add_point(pattern, bend->from, flat_scale(way, -1));
        add_point(pattern, bend->to, way);
    }
}
