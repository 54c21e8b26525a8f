/* Proof of each panel by itself: its loop, that laying it flat bends but never stretches, its area, that it does not
 * cross itself, and how far its drawn curves are from the true ones.  Include it behind cmocka.h. */
#ifndef TESTS_UNIT_SOLID_PANELS_H
#define TESTS_UNIT_SOLID_PANELS_H

#include "solid_series.h"

static inline const struct solid_panel *panel_at(const struct solid *solid, int panel) {
    return &solid->panels.at[panel];
}

static inline const struct solid_edge *edge_of_panel(const struct solid *solid, int panel, int edge) {
    return &solid->panels.at[panel].edges.at[edge];
}

static inline struct space space_end(const struct solid_edge *edge) {
    return edge->space[edge->count - 1];
}

static inline struct flat flat_end(const struct solid_edge *edge) {
    return edge->flat[edge->count - 1];
}

/* Points nearer than this are the same: a billionth of the solid. */
static inline double near_enough(const struct proof *proof) {
    return 1e-9 * proof->extent;
}

/* ---- Its loop ---------------------------------------------------------------------------------------------------- */

static inline double polygon_area(const struct solid_panel *panel) {
    double twice = 0;
    for (size_t e = 0; e < panel->edges.count; e++)
        for (size_t i = 0; i + 1 < panel->edges.at[e].count; i++)
            twice += flat_cross(panel->edges.at[e].flat[i], panel->edges.at[e].flat[i + 1]);
    return twice / 2;
}

static inline void prove_loop(struct proof *proof, const struct solid_panel *panel) {
    size_t count = panel->edges.count;
    holds(proof, count >= 1, "the %s has no edges", panel->name);
    for (size_t e = 0; e < count; e++) {
        const struct solid_edge *edge = &panel->edges.at[e], *next = &panel->edges.at[(e + 1) % count];
        holds(proof, edge->count >= 2, "edge %zu of the %s has no length", e, panel->name);
        holds(proof, space_distance(space_end(edge), next->space[0]) <= near_enough(proof),
              "the %s is torn behind edge %zu in space", panel->name, e);
        holds(proof, flat_distance(flat_end(edge), next->flat[0]) <= near_enough(proof),
              "the %s is torn behind edge %zu in the flat", panel->name, e);
    }
    holds(proof, polygon_area(panel) > 0, "the %s lies on its face: its loop goes clockwise (%g m2)", panel->name,
          polygon_area(panel));
}

/* ---- It does not cross itself ------------------------------------------------------------------------------------ */

struct segment {
    struct flat a, b;
    double low, high; /* x */
    size_t index;
};

static inline int segment_by_low(const void *left, const void *right) {
    const struct segment *a = left, *b = right;
    return (a->low > b->low) - (a->low < b->low);
}

/* Each has the ends of the other on both sides of it, by more than rounding. */
static inline bool segments_cross(const struct segment *s, const struct segment *t, double rounding) {
    struct flat u = flat_sub(s->b, s->a), v = flat_sub(t->b, t->a);
    double a = flat_cross(u, flat_sub(t->a, s->a)) / flat_length(u),
           b = flat_cross(u, flat_sub(t->b, s->a)) / flat_length(u);
    double c = flat_cross(v, flat_sub(s->a, t->a)) / flat_length(v),
           d = flat_cross(v, flat_sub(s->b, t->a)) / flat_length(v);
    return fmin(a, b) < -rounding && fmax(a, b) > rounding && fmin(c, d) < -rounding && fmax(c, d) > rounding;
}

/* A loop of points, the first not repeated.  Sweeps along x. */
static inline bool loop_is_simple(struct proof *proof, const struct flat *points, size_t count) {
    struct segment *segments = ARENA_ARRAY(proof->arena, struct segment, count + 1);
    size_t made = 0;
    for (size_t i = 0; i < count; i++) {
        struct flat a = points[i], b = points[(i + 1) % count];
        if (flat_distance(a, b) > SAME_POINT)
            segments[made++] = (struct segment){a, b, fmin(a.x, b.x), fmax(a.x, b.x), i};
    }
    qsort(segments, made, sizeof *segments, segment_by_low);
    for (size_t i = 0; i < made; i++)
        for (size_t j = i + 1; j < made && segments[j].low < segments[i].high; j++)
            if (segments_cross(&segments[i], &segments[j], near_enough(proof)))
                return false;
    return true;
}

static inline struct flat *panel_points(struct proof *proof, const struct solid_panel *panel, size_t *count) {
    size_t all = 0;
    for (size_t e = 0; e < panel->edges.count; e++)
        all += panel->edges.at[e].count;
    struct flat *points = ARENA_ARRAY(proof->arena, struct flat, all + 1);
    *count = 0;
    for (size_t e = 0; e < panel->edges.count; e++)
        for (size_t i = 0; i + 1 < panel->edges.at[e].count; i++)
            points[(*count)++] = panel->edges.at[e].flat[i];
    return points;
}

/* By the crossings of a line to the right. */
static inline bool lies_within(struct flat point, const struct flat *loop, size_t count) {
    bool within = false;
    for (size_t i = 0; i < count; i++) {
        struct flat a = loop[i], b = loop[(i + 1) % count];
        if ((a.y > point.y) != (b.y > point.y) && point.x < a.x + (b.x - a.x) * (point.y - a.y) / (b.y - a.y))
            within = !within;
    }
    return within;
}

static inline void prove_outline(struct proof *proof, const struct solid_panel *panel) {
    size_t count;
    struct flat *points = panel_points(proof, panel, &count);
    holds(proof, loop_is_simple(proof, points, count), "the outline of the %s crosses itself", panel->name);
    for (size_t i = 0; i < panel->openings.count; i++) {
        const struct opening *opening = &panel->openings.at[i];
        holds(proof, loop_is_simple(proof, opening->flat, opening->count), "opening %zu of the %s crosses itself", i,
              panel->name);
        for (size_t k = 0; k < opening->count; k++)
            holds(proof, lies_within(opening->flat[k], points, count), "opening %zu of the %s leaves it", i,
                  panel->name);
    }
}

/* ---- A rigid motion ---------------------------------------------------------------------------------------------- */

/* Two figures of the same points. */
struct figure {
    struct flat *flat;
    struct space *space;
    size_t count;
};

static inline struct figure figure_new(struct proof *proof, const struct solid_panel *panel) {
    size_t room = 2 * panel->rulings;
    for (size_t e = 0; e < panel->edges.count; e++)
        room += panel->edges.at[e].count;
    for (size_t i = 0; i < panel->openings.count; i++)
        room += panel->openings.at[i].count;
    return (struct figure){ARENA_ARRAY(proof->arena, struct flat, room + 1),
                           ARENA_ARRAY(proof->arena, struct space, room + 1), 0};
}

static inline void figure_add(struct figure *figure, struct flat flat, struct space space) {
    figure->flat[figure->count] = flat;
    figure->space[figure->count++] = space;
}

static inline double off_line(struct flat a, struct flat b, struct flat point) {
    return fabs(flat_cross(flat_sub(b, a), flat_sub(point, a)));
}

/* Three points far from each other: distances to them tell where a point of a plane is. */
static inline void find_corners(const struct figure *figure, size_t corners[3]) {
    corners[0] = corners[1] = corners[2] = 0;
    const struct flat *p = figure->flat;
    for (size_t i = 0; i < figure->count; i++)
        if (flat_distance(p[i], p[0]) > flat_distance(p[corners[1]], p[0]))
            corners[1] = i;
    for (size_t i = 0; i < figure->count; i++)
        if (off_line(p[0], p[corners[1]], p[i]) > off_line(p[0], p[corners[1]], p[corners[2]]))
            corners[2] = i;
}

/* Every distance to three points is the same in both. */
static inline bool moves_rigidly(const struct proof *proof, const struct figure *figure) {
    size_t corners[3];
    find_corners(figure, corners);
    for (size_t i = 0; i < figure->count; i++)
        for (int k = 0; k < 3; k++) {
            double flat = flat_distance(figure->flat[i], figure->flat[corners[k]]);
            double space = space_distance(figure->space[i], figure->space[corners[k]]);
            if (!(fabs(flat - space) <= near_enough(proof)))
                return false;
        }
    return true;
}

static inline bool lies_in_plane(const struct proof *proof, const struct figure *figure) {
    size_t c[3];
    find_corners(figure, c);
    struct space a = figure->space[c[0]];
    struct space normal = space_unit(space_cross(space_sub(figure->space[c[1]], a), space_sub(figure->space[c[2]], a)));
    for (size_t i = 0; i < figure->count; i++)
        if (!(fabs(space_dot(space_sub(figure->space[i], a), normal)) <= near_enough(proof)))
            return false;
    return true;
}

static inline void prove_plane(struct proof *proof, const struct solid_panel *panel) {
    struct figure figure = figure_new(proof, panel);
    for (size_t e = 0; e < panel->edges.count; e++)
        for (size_t i = 0; i < panel->edges.at[e].count; i++)
            figure_add(&figure, panel->edges.at[e].flat[i], panel->edges.at[e].space[i]);
    for (size_t o = 0; o < panel->openings.count; o++)
        for (size_t i = 0; i < panel->openings.at[o].count; i++)
            figure_add(&figure, panel->openings.at[o].flat[i], panel->openings.at[o].space[i]);
    holds(proof, lies_in_plane(proof, &figure), "the %s is no plane", panel->name);
    holds(proof, moves_rigidly(proof, &figure), "the %s does not fold back to its points in space", panel->name);
}

/* ---- Rolled: its rulings ----------------------------------------------------------------------------------------- */

static inline bool same_row(const struct proof *proof, const struct solid_edge *edge, const struct space *space,
                            const struct flat *flat, bool back) {
    double enough = near_enough(proof);
    for (size_t i = 0; i < edge->count; i++) {
        size_t k = back ? edge->count - 1 - i : i;
        if (space_distance(edge->space[i], space[k]) > enough || flat_distance(edge->flat[i], flat[k]) > enough)
            return false;
    }
    return true;
}

static inline bool at_ruling(const struct proof *proof, const struct solid_panel *panel, const struct solid_edge *edge,
                             size_t i) {
    double enough = near_enough(proof);
    bool back = i == 0; /* the loop comes down the first ruling and goes up the last */
    struct flat from = back ? panel->far_flat[i] : panel->near_flat[i],
                to = back ? panel->near_flat[i] : panel->far_flat[i];
    struct space start = back ? panel->far[i] : panel->near[i], end = back ? panel->near[i] : panel->far[i];
    return edge->count == 2 && flat_distance(edge->flat[0], from) <= enough &&
           flat_distance(edge->flat[1], to) <= enough && space_distance(edge->space[0], start) <= enough &&
           space_distance(edge->space[1], end) <= enough;
}

/* Every edge is a row of the rulings' ends, or the first or last ruling: what is proved of the rulings holds of the
 * outline. */
static inline void prove_rulings(struct proof *proof, const struct solid_panel *panel) {
    holds(proof, panel->rulings >= 2, "the %s is rolled without rulings", panel->name);
    for (size_t i = 0; i < panel->rulings; i++)
        holds(proof,
              fabs(flat_distance(panel->near_flat[i], panel->far_flat[i]) -
                   space_distance(panel->near[i], panel->far[i])) <= near_enough(proof),
              "ruling %zu of the %s changes its length", i, panel->name);
    for (size_t e = 0; e < panel->edges.count && !proof->property; e++) {
        const struct solid_edge *edge = &panel->edges.at[e];
        bool row = edge->count == panel->rulings && (same_row(proof, edge, panel->near, panel->near_flat, false) ||
                                                     same_row(proof, edge, panel->far, panel->far_flat, true));
        holds(proof, row || at_ruling(proof, panel, edge, 0) || at_ruling(proof, panel, edge, panel->rulings - 1),
              "edge %zu of the %s does not go along its rulings", e, panel->name);
    }
}

/* ---- Rolled: right cylinders and cones, point by point ----------------------------------------------------------- */

/* The circle through three points. */
static inline struct space circle_middle(struct space a, struct space b, struct space c) {
    struct space u = space_sub(b, a), v = space_sub(c, a), w = space_cross(u, v);
    double square = 2 * space_dot(w, w);
    struct space rise =
        space_sub(space_scale(space_cross(v, w), space_dot(u, u)), space_scale(space_cross(u, w), space_dot(v, v)));
    return square > 0 ? space_add(a, space_scale(rise, 1 / square)) : a;
}

/* Three of the rulings far from each other, though the last may be the first again. */
static inline void three_rulings(const struct solid_panel *panel, size_t three[3]) {
    size_t last = panel->rulings - 1;
    three[0] = 0;
    three[1] = last < 3 ? last / 2 : last / 3;
    three[2] = last < 3 ? last : last * 2 / 3;
}

static inline struct space ruling_along(const struct solid_panel *panel, size_t i) {
    return space_unit(space_sub(panel->far[i], panel->near[i]));
}

/* The axis, and how far round it a point is. */
struct axis {
    struct space foot, along, zero;
    double radius; /* of a cylinder, m; of a cone the sine of half its angle */
    struct space apex;
    bool cone;
};

static inline double round_axis(const struct axis *axis, struct space point) {
    struct space from = space_sub(point, axis->foot);
    return atan2(space_dot(space_cross(axis->along, axis->zero), from), space_dot(axis->zero, from));
}

static inline double next_to(double angle, double before) {
    return angle - 2 * PI * round((angle - before) / (2 * PI));
}

/* A cylinder whose right section is a circle. */
static inline bool find_cylinder(const struct proof *proof, const struct solid_panel *panel, struct axis *axis) {
    size_t three[3];
    three_rulings(panel, three);
    size_t longest = 0;
    for (size_t i = 0; i < panel->rulings; i++)
        if (space_distance(panel->near[i], panel->far[i]) > space_distance(panel->near[longest], panel->far[longest]))
            longest = i;
    *axis = (struct axis){.along = ruling_along(panel, longest)};
    struct space section[3];
    for (int k = 0; k < 3; k++) {
        struct space from = panel->near[three[k]];
        section[k] = space_sub(from, space_scale(axis->along, space_dot(from, axis->along)));
    }
    axis->foot = circle_middle(section[0], section[1], section[2]);
    axis->radius = space_distance(section[0], axis->foot);
    axis->zero = space_unit(space_sub(section[0], axis->foot));
    for (size_t i = 0; i < panel->rulings; i++)
        for (int end = 0; end < 2; end++) {
            struct space from = space_sub(end ? panel->far[i] : panel->near[i], axis->foot);
            from = space_sub(from, space_scale(axis->along, space_dot(from, axis->along)));
            if (!(fabs(space_length(from) - axis->radius) <= near_enough(proof) / 10))
                return false;
        }
    return axis->radius < 1e2 * proof->extent && axis->radius > 0;
}

/* Where two rulings are nearest to each other. */
static inline struct space lines_meet(struct space p, struct space u, struct space q, struct space v) {
    struct space off = space_sub(q, p);
    double b = space_dot(u, v), d = space_dot(off, u), e = space_dot(off, v), square = 1 - b * b;
    return square > 0 ? space_add(p, space_scale(u, (d - b * e) / square)) : p;
}

/* A cone whose rulings all stand at one angle to its axis. */
static inline bool find_cone(const struct proof *proof, const struct solid_panel *panel, struct axis *axis) {
    size_t three[3];
    three_rulings(panel, three);
    struct space apex = lines_meet(panel->near[three[0]], ruling_along(panel, three[0]), panel->near[three[1]],
                                   ruling_along(panel, three[1]));
    if (space_distance(apex, panel->near[0]) > 1e2 * proof->extent)
        return false;
    struct space ways[3];
    for (int k = 0; k < 3; k++) {
        struct space near = panel->near[three[k]], far = panel->far[three[k]];
        ways[k] = space_unit(space_sub(space_distance(near, apex) > space_distance(far, apex) ? near : far, apex));
    }
    struct space along = space_unit(space_cross(space_sub(ways[1], ways[0]), space_sub(ways[2], ways[0])));
    struct space out = space_sub(ways[0], space_scale(along, space_dot(along, ways[0])));
    *axis = (struct axis){
        .cone = true, .apex = apex, .foot = apex, .along = along, .radius = space_length(out), .zero = space_unit(out)};
    for (size_t i = 0; i < panel->rulings; i++)
        for (int end = 0; end < 2; end++) {
            struct space from = space_sub(end ? panel->far[i] : panel->near[i], apex);
            double off = space_length(space_sub(from, space_scale(along, space_dot(from, along))));
            if (!(fabs(off - axis->radius * space_length(from)) <= near_enough(proof) / 10))
                return false;
        }
    return axis->radius > 1e-3;
}

/* Where the closed law lays a point that stands so far round the axis. */
static inline struct space laid(const struct axis *axis, struct space point, double angle) {
    if (!axis->cone)
        return (struct space){axis->radius * angle, space_dot(point, axis->along), 0};
    double distance = space_distance(point, axis->apex);
    return (struct space){distance * cos(angle * axis->radius), distance * sin(angle * axis->radius), 0};
}

/* Of a ruling: its end farther from the apex or, of no length, any. */
static inline double ruling_angle(const struct axis *axis, const struct solid_panel *panel, size_t i, double before) {
    bool far = axis->cone && space_distance(panel->far[i], axis->apex) > space_distance(panel->near[i], axis->apex);
    return next_to(round_axis(axis, far ? panel->far[i] : panel->near[i]), before);
}

/* The closed law and the panel's own flat points differ by a rigid motion. */
static inline void prove_law(struct proof *proof, const struct solid_panel *panel, const struct axis *axis) {
    struct figure figure = figure_new(proof, panel);
    double angle = 0, middle = 0;
    for (size_t i = 0; i < panel->rulings; i++) {
        angle = ruling_angle(axis, panel, i, angle);
        middle += angle / (double)panel->rulings;
        figure_add(&figure, panel->near_flat[i], laid(axis, panel->near[i], angle));
        figure_add(&figure, panel->far_flat[i], laid(axis, panel->far[i], angle));
    }
    for (size_t o = 0; o < panel->openings.count; o++)
        for (size_t k = 0; k < panel->openings.at[o].count; k++) {
            struct space point = panel->openings.at[o].space[k];
            figure_add(&figure, panel->openings.at[o].flat[k],
                       laid(axis, point, next_to(round_axis(axis, point), middle)));
        }
    holds(proof, moves_rigidly(proof, &figure), "the %s does not roll back to its points in space", panel->name);
}

/* ---- Rolled: any law, by what sums tend to ----------------------------------------------------------------------- */

enum { NEAR_RIM, FAR_RIM, SLANT, ROW_COUNT, WEIGHED = ROW_COUNT };

/* How far a part of the near rim goes along the rulings at its ends, times their length. */
static inline double flat_slant(const struct solid_panel *panel, size_t i) {
    const struct flat *n = panel->near_flat, *f = panel->far_flat;
    return flat_dot(flat_sub(n[i + 1], n[i]), flat_add(flat_sub(f[i], n[i]), flat_sub(f[i + 1], n[i + 1])));
}

static inline double space_slant(const struct solid_panel *panel, size_t i) {
    const struct space *n = panel->near, *f = panel->far;
    return space_dot(space_sub(n[i + 1], n[i]), space_add(space_sub(f[i], n[i]), space_sub(f[i + 1], n[i + 1])));
}

static inline double row_change(const struct solid_panel *panel, size_t i, int row) {
    const struct space *n = panel->near, *f = panel->far;
    const struct flat *nf = panel->near_flat, *ff = panel->far_flat;
    if (row == NEAR_RIM)
        return flat_distance(nf[i], nf[i + 1]) - space_distance(n[i], n[i + 1]);
    if (row == FAR_RIM)
        return flat_distance(ff[i], ff[i + 1]) - space_distance(f[i], f[i + 1]);
    return flat_slant(panel, i) - space_slant(panel, i);
}

/* By how much a rim grows when it is laid flat, or its slant against the rulings (m2) changes; weighed by the place
 * too, so that what grows here cannot be made good by what shrinks there.  With the rulings' own lengths these are the
 * whole metric of the surface. */
static inline double strip_change(const struct solid *solid, const struct measure_of *of, double *parts) {
    const struct solid_panel *panel = panel_at(solid, of->panel);
    size_t last = panel->rulings - 1;
    double sum = 0;
    for (size_t i = 0; i < last; i++) {
        double weight = of->way >= WEIGHED ? ((double)i + 0.5) / (double)last : 1;
        sum += weight * row_change(panel, i, of->way % WEIGHED);
    }
    *parts = (double)last;
    return sum;
}

static inline double triangle_area(struct space a, struct space b, struct space c) {
    return space_length(space_cross(space_sub(b, a), space_sub(c, a))) / 2;
}

/* The flat area less that of the surface in space, by triangles (the mean of both diagonals). */
static inline double area_change(const struct solid *solid, const struct measure_of *of, double *parts) {
    const struct solid_panel *panel = panel_at(solid, of->panel);
    const struct space *n = panel->near, *f = panel->far;
    size_t last = panel->rulings - 1;
    double sum = 0;
    for (size_t i = 0; i < last; i++)
        sum += triangle_area(n[i], n[i + 1], f[i + 1]) + triangle_area(n[i], f[i + 1], f[i]) +
               triangle_area(n[i], n[i + 1], f[i]) + triangle_area(n[i + 1], f[i + 1], f[i]);
    *parts = (double)last;
    return panel_area(panel) - sum / 2;
}

static inline void prove_isometry(struct proof *proof, int index) {
    const struct solid_panel *panel = panel_at(proof->at[0], index);
    double whole = 0;
    for (size_t e = 0; e < panel->edges.count; e++)
        whole += edge_length(&panel->edges.at[e]);
    struct limit limit;
    for (int way = 0; way < 2 * ROW_COUNT && !proof->property; way++) {
        struct measure_of of = {.panel = index, .way = way};
        double size = way % WEIGHED == SLANT ? whole * whole : whole;
        holds(proof, tends_to(proof, strip_change, &of, 0, size, proof->exact[index], &limit),
              "the %s is stretched when it is laid flat: row %d by %g (known to %g)", panel->name, way, limit.value,
              limit.doubt);
    }
    struct measure_of of = {.panel = index};
    holds(proof, tends_to(proof, area_change, &of, 0, panel_area(panel), proof->exact[index], &limit),
          "the area of the %s changes when it is laid flat, by %g m2 (known to %g)", panel->name, limit.value,
          limit.doubt);
}

static inline void prove_roll(struct proof *proof, int index) {
    for (size_t level = 0; level < SERIES_LEAST && !proof->property; level++) {
        const struct solid_panel *panel = panel_at(series_at(proof, level), index);
        prove_rulings(proof, panel);
        struct axis axis;
        bool known = find_cylinder(proof, panel, &axis) || find_cone(proof, panel, &axis);
        if (known)
            prove_law(proof, panel, &axis);
        holds(proof, known || !panel->openings.count, "the openings of the %s lie in no right cylinder or cone",
              panel->name);
        proof->exact[index] = known;
    }
    if (!proof->property)
        prove_isometry(proof, index);
}

/* ---- Lines and arcs of the flat ---------------------------------------------------------------------------------- */

/* Between the drawn curve and its chord. */
static inline double edge_excess(const struct solid *solid, const struct measure_of *of, double *parts) {
    const struct solid_edge *edge = edge_of_panel(solid, of->panel, of->edge);
    double twice = 0;
    for (size_t i = 0; i + 1 < edge->count; i++)
        twice += flat_cross(flat_sub(edge->flat[i], edge->flat[0]), flat_sub(edge->flat[i + 1], edge->flat[0]));
    *parts = (double)edge->count - 1;
    return twice / 2;
}

static inline double drawn_length(const struct solid *solid, const struct measure_of *of, double *parts) {
    const struct solid_edge *edge = edge_of_panel(solid, of->panel, of->edge);
    double sum = 0;
    for (size_t i = 0; i + 1 < edge->count; i++)
        sum += flat_distance(edge->flat[i], edge->flat[i + 1]);
    *parts = (double)edge->count - 1;
    return sum;
}

/* What is called an arc is one, about its centre, of its radius and sweep: the points stand there, and length and area
 * tend to the closed ones. */
static inline void prove_arc(struct proof *proof, int panel, int e) {
    const struct solid_edge *edge = edge_of_panel(proof->at[0], panel, e);
    for (size_t i = 0; i < edge->count; i++)
        holds(proof, fabs(flat_distance(edge->flat[i], edge->centre) - edge->radius) <= near_enough(proof),
              "point %zu of arc %d of the %s is off its circle", i, e, panel_at(proof->at[0], panel)->name);
    double length = fabs(edge->sweep) * edge->radius;
    double excess = edge->radius * edge->radius * (edge->sweep - sin(edge->sweep)) / 2;
    struct measure_of of = {.panel = panel, .edge = e};
    struct limit limit;
    holds(proof, tends_to(proof, drawn_length, &of, length, length, false, &limit),
          "arc %d of the %s is %.12g m long, its points say %.12g", e, panel_at(proof->at[0], panel)->name, length,
          limit.value);
    holds(proof, tends_to(proof, edge_excess, &of, excess, length * length, false, &limit),
          "arc %d of the %s takes %.12g m2, its points say %.12g", e, panel_at(proof->at[0], panel)->name, excess,
          limit.value);
}

static inline void prove_line(struct proof *proof, int panel, int e) {
    const struct solid_edge *edge = edge_of_panel(proof->at[0], panel, e);
    double length = flat_distance(edge->flat[0], flat_end(edge));
    for (size_t i = 0; i < edge->count && length > 0; i++)
        holds(proof, off_line(edge->flat[0], flat_end(edge), edge->flat[i]) / length <= near_enough(proof),
              "edge %d of the %s is called a line and is none", e, panel_at(proof->at[0], panel)->name);
}

/* ---- How far the drawn curves are off ---------------------------------------------------------------------------- */

static inline double off_part_flat(struct flat a, struct flat b, struct flat point) {
    struct flat way = flat_sub(b, a);
    double square = flat_dot(way, way), share = square > 0 ? flat_dot(flat_sub(point, a), way) / square : 0;
    return flat_distance(point, flat_between(a, b, fmin(fmax(share, 0), 1)));
}

static inline double off_part_space(struct space a, struct space b, struct space point) {
    struct space way = space_sub(b, a);
    double square = space_dot(way, way), share = square > 0 ? space_dot(space_sub(point, a), way) / square : 0;
    return space_distance(point, space_between(a, b, fmin(fmax(share, 0), 1)));
}

/* Of the points of the same edge drawn many times finer; edges are divided evenly, so the part that a point belongs to
 * is known. */
static inline double edge_off(const struct solid_edge *edge, const struct solid_edge *dense, bool flat_too) {
    double off = 0;
    size_t parts = edge->count - 1, fine = dense->count - 1;
    for (size_t i = 0; i <= fine; i++) {
        size_t k = i * parts / fine;
        k = k < parts ? k : parts - 1;
        off = fmax(off, off_part_space(edge->space[k], edge->space[k + 1], dense->space[i]));
        if (flat_too)
            off = fmax(off, off_part_flat(edge->flat[k], edge->flat[k + 1], dense->flat[i]));
    }
    return off;
}

/* A rolled panel lies in the same place of its flat at any fineness; a plane does not, but there space says as much. */
static inline void prove_chords(struct proof *proof, size_t level, int index) {
    const struct solid_panel *panel = panel_at(series_at(proof, level), index);
    const struct solid_panel *dense = panel_at(series_at(proof, level + 3), index);
    double off = 0;
    for (size_t e = 0; e < panel->edges.count; e++)
        off = fmax(off, edge_off(&panel->edges.at[e], &dense->edges.at[e], panel->kind == PANEL_ROLLED));
    double rounding = 1e-9 + near_enough(proof);
    holds(proof, off <= panel->chord_error * 1.1 + rounding, "the curves of the %s are off by %g m, and it says %g",
          panel->name, off, panel->chord_error);
    holds(proof, panel->chord_error <= off * 1.3 + rounding,
          "the curves of the %s are off by only %g m, and it says %g", panel->name, off, panel->chord_error);
}

static inline void prove_panel(struct proof *proof, int index) {
    for (size_t level = 0; level < SERIES_LEAST && !proof->property; level++) {
        prove_loop(proof, panel_at(series_at(proof, level), index));
        if (!proof->property && panel_at(proof->at[0], index)->kind == PANEL_PLANE)
            prove_plane(proof, panel_at(proof->at[level], index));
    }
    const struct solid_panel *panel = panel_at(proof->at[0], index);
    proof->exact[index] = panel->kind == PANEL_PLANE;
    if (!proof->property && panel->kind == PANEL_ROLLED)
        prove_roll(proof, index);
    if (!proof->property)
        prove_outline(proof, panel);
    for (size_t e = 0; e < panel->edges.count && !proof->property; e++) {
        if (panel->edges.at[e].shape == EDGE_ARC)
            prove_arc(proof, index, (int)e);
        else if (panel->edges.at[e].shape == EDGE_LINE)
            prove_line(proof, index, (int)e);
    }
}

#endif
