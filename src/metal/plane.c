/* Flat panels: a loop of edges in space, laid flat. */
#include "metal/solid.h"

#include <assert.h>

struct plane plane_begin(struct solid *solid, const char *name, struct space first) {
    return (struct plane){
        .solid = solid,
        .panel = {.kind = PANEL_PLANE, .name = name},
        .first = first,
        .at = first,
    };
}

static struct solid_edge *add_edge(struct plane *plane, enum join join, int port, size_t count) {
    struct solid_edge *edge = list_add(plane->solid->arena, &plane->panel.edges);
    edge->join = join;
    edge->port = port;
    edge->count = count;
    edge->space = ARENA_ARRAY(plane->solid->arena, struct space, count);
    edge->flat = ARENA_ARRAY(plane->solid->arena, struct flat, count);
    return edge;
}

void plane_line(struct plane *plane, struct space to, enum join join, int port) {
    if (space_distance(plane->at, to) <= SAME_POINT)
        return;
    struct solid_edge *edge = add_edge(plane, join, port, 2);
    edge->space[0] = plane->at;
    edge->space[1] = plane->at = to;
}

void plane_edge(struct plane *plane, struct space to, struct quad_edge edge) {
    size_t before = plane->panel.edges.count;
    plane_line(plane, to, edge.join, edge.port);
    if (edge.pocket && plane->panel.edges.count > before)
        plane_pocket(plane);
}

/* A point turned about a line (Rodrigues). */
static struct space turned_about(struct space point, struct space centre, struct space axis, double angle) {
    struct space from = space_sub(point, centre);
    struct space along = space_scale(axis, space_dot(from, axis)), out = space_sub(from, along);
    struct space turned = space_add(space_scale(out, cos(angle)), space_scale(space_cross(axis, out), sin(angle)));
    return space_add(centre, space_add(along, turned));
}

void plane_arc(struct plane *plane, struct space centre, struct space axis, double angle, enum join join, int port) {
    double radius = space_distance(plane->at, centre);
    if (radius * fabs(angle) <= SAME_POINT)
        return;
    size_t parts = solid_divisions(plane->solid, radius, angle);
    struct solid_edge *edge = add_edge(plane, join, port, parts + 1);
    edge->shape = EDGE_ARC;
    edge->radius = radius;
    edge->sweep = angle;
    for (size_t i = 0; i <= parts; i++)
        edge->space[i] = turned_about(plane->at, centre, axis, angle * (double)i / (double)parts);
    double error = radius * (1 - cos(angle / (double)parts / 2));
    plane->panel.chord_error = fmax(plane->panel.chord_error, error);
    plane->at = edge->space[parts];
}

void plane_curve(struct plane *plane, const struct space *points, size_t count, enum join join, int port) {
    struct solid_edge *edge = add_edge(plane, join, port, count);
    edge->shape = count > 2 ? EDGE_CURVE : EDGE_LINE;
    for (size_t i = 0; i < count; i++)
        edge->space[i] = points[i];
    plane->at = points[count - 1];
}

void plane_pocket(struct plane *plane) {
    plane->panel.edges.at[plane->panel.edges.count - 1].pocket = true;
}

void plane_name(struct plane *plane, const char *name) {
    plane->panel.edges.at[plane->panel.edges.count - 1].name = name;
}

/* Toward the eye: the loop goes anticlockwise about it.  Newell's sum over all points. */
static struct space normal_of(const struct solid_panel *panel) {
    struct space sum = {0, 0, 0}, first = panel->edges.at[0].space[0];
    for (size_t e = 0; e < panel->edges.count; e++) {
        const struct solid_edge *edge = &panel->edges.at[e];
        for (size_t i = 0; i + 1 < edge->count; i++)
            sum = space_add(sum, space_cross(space_sub(edge->space[i], first), space_sub(edge->space[i + 1], first)));
    }
    return space_unit(sum);
}

/* x along the beginning of the first edge, y square to it, to its left. */
struct axes {
    struct space origin, x, y;
};

static struct axes axes_of(const struct solid_panel *panel) {
    const struct solid_edge *first = &panel->edges.at[0];
    struct axes axes = {.origin = first->space[0]};
    axes.x = space_unit(space_sub(first->space[1], first->space[0]));
    axes.y = space_cross(normal_of(panel), axes.x);
    return axes;
}

static struct flat flat_of(const struct axes *axes, struct space point) {
    struct space from = space_sub(point, axes->origin);
    return (struct flat){space_dot(from, axes->x), space_dot(from, axes->y)};
}

/* A whole circle: it bounds the panel from outside, anticlockwise. */
static void lay_circle(struct solid_edge *edge) {
    edge->centre = (struct flat){0, 0};
    for (size_t i = 0; i + 1 < edge->count; i++)
        edge->centre = flat_add(edge->centre, flat_scale(edge->flat[i], 1 / (double)(edge->count - 1)));
    edge->sweep = fabs(edge->sweep);
}

/* The centre lies on the middle normal of the chord. */
static void lay_arc(struct solid_edge *edge) {
    if (flat_distance(edge->flat[0], edge->flat[edge->count - 1]) <= SAME_POINT) {
        lay_circle(edge);
        return;
    }
    struct flat from = edge->flat[0], to = edge->flat[edge->count - 1], chord = flat_sub(to, from);
    struct flat left = flat_scale(flat_right(flat_unit(chord)), -1);
    /* Seen from the inside the arc goes left of its chord when it turns clockwise. */
    struct flat middle = edge->flat[edge->count / 2];
    bool clockwise = flat_cross(chord, flat_sub(middle, from)) > 0;
    double half = fabs(edge->sweep) / 2, rise = edge->radius * cos(half);
    edge->sweep = clockwise ? -2 * half : 2 * half;
    edge->centre = flat_add(flat_between(from, to, 0.5), flat_scale(left, clockwise ? -rise : rise));
}

static void lay_flat(struct solid_panel *panel) {
    struct axes axes = axes_of(panel);
    struct space normal = space_cross(axes.x, axes.y);
    for (size_t e = 0; e < panel->edges.count; e++) {
        struct solid_edge *edge = &panel->edges.at[e];
        for (size_t i = 0; i < edge->count; i++) {
            struct space from = space_sub(edge->space[i], axes.origin);
            assert(fabs(space_dot(from, normal)) <= 1e-9 * (1 + space_length(from)));
            edge->flat[i] = flat_of(&axes, edge->space[i]);
            (void)from;
        }
        if (edge->shape == EDGE_ARC)
            lay_arc(edge);
    }
    (void)normal;
}

int plane_end(struct plane *plane, enum join join, int port) {
    struct solid *solid = plane->solid;
    plane_line(plane, plane->first, join, port);
    bool circle = plane->panel.edges.count == 1 && plane->panel.edges.at[0].shape == EDGE_ARC;
    if (plane->panel.edges.count < 2 && !circle) {
        solid_fault(solid, NULL, "the %s has no area", plane->panel.name);
        return NO_PANEL;
    }
    lay_flat(&plane->panel);
    *list_add(solid->arena, &solid->panels) = plane->panel;
    return (int)solid->panels.count - 1;
}

/* A loop whose points all lie as far from their middle is a circle; eight of them do so by chance in no duct. */
static void know_circle(struct opening *opening) {
    double radius = opening->count < 8 ? 0 : flat_distance(opening->flat[0], opening->middle);
    opening->round = radius > 0;
    for (size_t i = 0; i < opening->count && opening->round; i++)
        opening->round = fabs(flat_distance(opening->flat[i], opening->middle) - radius) <= 1e-9 * (1 + radius);
    opening->radius = opening->round ? radius : 0;
}

void panel_opening(struct solid *solid, int panel, const struct space *points, size_t count, const char *name) {
    if (panel == NO_PANEL)
        return;
    struct solid_panel *into = &solid->panels.at[panel];
    struct axes axes = axes_of(into);
    struct opening *opening = list_add(solid->arena, &into->openings);
    opening->name = name;
    opening->count = count;
    opening->space = ARENA_ARRAY(solid->arena, struct space, count);
    opening->flat = ARENA_ARRAY(solid->arena, struct flat, count);
    for (size_t i = 0; i < count; i++) {
        opening->space[i] = points[i];
        opening->flat[i] = flat_of(&axes, points[i]);
        opening->middle = flat_add(opening->middle, flat_scale(opening->flat[i], 1 / (double)count));
    }
    know_circle(opening);
    panel_holds(solid, into, opening);
}

/* ---- Four corners ------------------------------------------------------------------------------------------------ */

/* Six times the volume that the corners span over their size: 0 for a plane. */
static double twist(const struct space c[4]) {
    struct space a = space_sub(c[1], c[0]), b = space_sub(c[2], c[0]), d = space_sub(c[3], c[0]);
    return space_dot(space_cross(a, b), d);
}

static double size_of(const struct space c[4]) {
    return fmax(space_distance(c[0], c[2]), space_distance(c[1], c[3]));
}

/* The bend between the triangles that a diagonal from corner k leaves. */
static double fold_angle(const struct space c[4], int k) {
    struct space a = c[k], b = c[(k + 1) % 4], o = c[(k + 2) % 4], d = c[(k + 3) % 4];
    struct space one = space_cross(space_sub(b, a), space_sub(o, a)),
                 two = space_cross(space_sub(o, a), space_sub(d, a));
    return fabs(atan2(space_length(space_cross(one, two)), space_dot(one, two)));
}

/* 0: from corner 0 to 2; 1: from 1 to 3.  The shorter is the stiffer and the easier bend. */
static int better_diagonal(const struct space c[4]) {
    double first = space_distance(c[0], c[2]), second = space_distance(c[1], c[3]);
    if (fabs(first - second) > 1e-9 * (first + second))
        return first < second ? 0 : 1;
    return fold_angle(c, 0) <= fold_angle(c, 1) + 1e-9 ? 0 : 1;
}

static void note_broken(struct solid *solid, const char *name, const struct space c[4], int k) {
    double length = space_distance(c[k], c[k + 2]), other = space_distance(c[1 - k], c[3 - k]);
    const char *why = fabs(length - other) > 1e-9 * (length + other)
                          ? "the shorter of its diagonals"
                          : "of two equal diagonals the one with the lesser bend";
    solid_note(solid,
               "The %s is twisted: its four corners do not lie in one plane. It is broken along the dashed diagonal, "
               "%s, and bent there by %.1f degrees.",
               name, why, fold_angle(c, k) / DEGREE);
}

/* A flat loop of three or four corners; edge i goes from corner i on. */
static void add_flat(struct solid *solid, const char *name, const struct space *corners, const struct quad_edge *edges,
                     int count) {
    struct plane plane = plane_begin(solid, name, corners[0]);
    for (int i = 0; i < count; i++)
        plane_edge(&plane, corners[(i + 1) % count], edges[i]);
    plane_end(&plane, JOIN_FREE, NO_PORT);
}

void solid_quad(struct solid *solid, const char *name, const struct space corners[4], const struct quad_edge edges[4]) {
    double size = size_of(corners);
    if (fabs(twist(corners)) <= 1e-10 * size * size * size) {
        add_flat(solid, name, corners, edges, 4);
        return;
    }
    static const struct quad_edge diagonal = {JOIN_BEND, NO_PORT, false};
    int k = better_diagonal(corners);
    note_broken(solid, name, corners, k);
    for (int half = 0; half < 2; half++) {
        int a = (k + 2 * half) % 4, b = (a + 1) % 4, c = (a + 2) % 4;
        struct space half_corners[3] = {corners[a], corners[b], corners[c]};
        struct quad_edge half_edges[3] = {edges[a], edges[b], diagonal};
        add_flat(solid, name, half_corners, half_edges, 3);
    }
}
