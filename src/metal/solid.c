/* Solids: panels, ports, and what each edge is joined to. */
#include "metal/solid.h"

#include <assert.h>
#include <stdarg.h>
#include <stdlib.h>

/* ---- Where a thing stands ---------------------------------------------------------------------------------------- */

const struct frame frame_near = {
    .right = {1, 0, 0},
    .along = {0, 1, 0},
    .up = {0, 0, 1},
};

struct space frame_way(const struct frame *frame, double right, double along, double up) {
    return space_add(space_add(space_scale(frame->right, right), space_scale(frame->along, along)),
                     space_scale(frame->up, up));
}

struct space frame_point(const struct frame *frame, double right, double along, double up) {
    return space_add(frame->origin, frame_way(frame, right, along, up));
}

struct frame frame_moved(const struct frame *frame, double right, double along, double up) {
    struct frame moved = *frame;
    moved.origin = frame_point(frame, right, along, up);
    return moved;
}

struct frame frame_rolled(const struct frame *frame, double angle) {
    struct frame rolled = *frame;
    double c = cos(angle), s = sin(angle);
    rolled.right = frame_way(frame, c, 0, -s);
    rolled.up = frame_way(frame, s, 0, c);
    return rolled;
}

struct frame frame_turned(const struct frame *frame, double angle) {
    struct frame turned = *frame;
    double c = cos(angle), s = sin(angle);
    turned.along = frame_way(frame, -s, c, 0);
    turned.right = frame_way(frame, c, s, 0);
    return turned;
}

/* ---- Solids ------------------------------------------------------------------------------------------------------ */

struct solid *solid_new(struct arena *arena, double fineness) {
    struct solid *solid = ARENA_NEW(arena, struct solid);
    solid->arena = arena;
    solid->fineness = fineness;
    return solid;
}

void solid_fault(struct solid *solid, const char *hint, const char *format, ...) {
    if (solid->fault)
        return;
    va_list list;
    va_start(list, format);
    solid->fault = arena_format_list(solid->arena, format, list);
    va_end(list);
    solid->hint = hint;
}

void solid_note(struct solid *solid, const char *format, ...) {
    va_list list;
    va_start(list, format);
    *list_add(solid->arena, &solid->notes) = arena_format_list(solid->arena, format, list);
    va_end(list);
}

int solid_port(struct solid *solid, enum port_use use, const char *name, const struct frame *frame,
               struct duct_size size) {
    *list_add(solid->arena, &solid->ports) = (struct solid_port){use, name, *frame, size};
    return (int)solid->ports.count - 1;
}

/* What a seam's or joint's allowance adds to a radius, so that the line that is cut is as near to its arc as the net
 * line: the widest is a rolled flange of 1-7/8 in. */
static const double allowance_room = 2 * INCH;

/* Quarter turns are divided by fours, so that a shop's usual stations, 16 round a duct, are among the points. */
static double by_quarters(double parts, double sweep) {
    double quarters = round(fabs(sweep) / (PI / 2)), step = 4 * quarters;
    bool whole = quarters > 0 && fabs(fabs(sweep) - quarters * PI / 2) < 1e-9;
    return whole ? ceil(parts / step - 1e-9) * step : ceil(parts - 1e-9);
}

/* A chord of an arc of angle a lies r (1 - cos a/2) off it.  Two at least: one alone does not say which way the arc
 * goes. */
size_t solid_divisions(const struct solid *solid, double radius, double sweep) {
    double chord = 2 * acos(1 - CHORD_LIMIT / (radius + allowance_room));
    double least = fabs(sweep) / (PI / 4), fine = fabs(sweep) / chord;
    return (size_t)by_quarters(fmax(fmax(fine, least), 2) * solid->fineness, sweep);
}

double solid_chord_error(const struct solid *solid) {
    double error = 0;
    for (size_t i = 0; i < solid->panels.count; i++)
        error = fmax(error, solid->panels.at[i].chord_error);
    return error;
}

/* ---- Areas and lengths ------------------------------------------------------------------------------------------- */

static double shoelace(const struct flat *points, size_t count) {
    double twice = 0;
    for (size_t i = 0; i + 1 < count; i++)
        twice += flat_cross(points[i], points[i + 1]);
    return twice / 2;
}

/* The part of a circle between an arc and its chord; the sign is the sweep's. */
static double arc_excess(const struct solid_edge *edge) {
    return edge->radius * edge->radius * (edge->sweep - sin(edge->sweep)) / 2;
}

/* Green's theorem along the loop; arcs as arcs. */
double panel_area(const struct solid_panel *panel) {
    double area = 0;
    for (size_t i = 0; i < panel->edges.count; i++) {
        const struct solid_edge *edge = &panel->edges.at[i];
        if (edge->shape == EDGE_ARC)
            area += flat_cross(edge->flat[0], edge->flat[edge->count - 1]) / 2 + arc_excess(edge);
        else
            area += shoelace(edge->flat, edge->count);
    }
    return area;
}

double opening_area(const struct opening *opening) {
    if (opening->round)
        return PI * opening->radius * opening->radius;
    double area = shoelace(opening->flat, opening->count);
    if (opening->count)
        area += flat_cross(opening->flat[opening->count - 1], opening->flat[0]) / 2;
    return fabs(area);
}

double edge_length(const struct solid_edge *edge) {
    if (edge->shape == EDGE_ARC)
        return fabs(edge->sweep) * edge->radius;
    double length = 0;
    for (size_t i = 0; i + 1 < edge->count; i++)
        length += flat_distance(edge->flat[i], edge->flat[i + 1]);
    return length;
}

/* Turns `within` over for each time that the edge crosses the line from a point to the right: in the end it says which
 * points lie inside.  Most edges lie wholly above or below a point. */
static void count_crossings(const struct solid_edge *edge, const struct opening *opening, bool *within) {
    double low = INFINITY, high = -INFINITY;
    for (size_t i = 0; i < edge->count; i++) {
        low = edge->flat[i].y < low ? edge->flat[i].y : low;
        high = edge->flat[i].y > high ? edge->flat[i].y : high;
    }
    for (size_t k = 0; k < opening->count; k++) {
        struct flat point = opening->flat[k];
        for (size_t i = 0; point.y >= low && point.y <= high && i + 1 < edge->count; i++) {
            struct flat a = edge->flat[i], b = edge->flat[i + 1];
            if ((a.y > point.y) != (b.y > point.y) && point.x < a.x + (b.x - a.x) * (point.y - a.y) / (b.y - a.y))
                within[k] = !within[k];
        }
    }
}

void panel_holds(struct solid *solid, const struct solid_panel *panel, const struct opening *opening) {
    bool *within = ARENA_ARRAY(solid->arena, bool, opening->count + 1);
    for (size_t e = 0; e < panel->edges.count; e++)
        count_crossings(&panel->edges.at[e], opening, within);
    for (size_t k = 0; k < opening->count && !solid->fault; k++)
        if (!within[k])
            solid_fault(solid, NULL, "an opening reaches over the edge of the %s that it is cut into", panel->name);
}

/* ---- What joins what --------------------------------------------------------------------------------------------- */

/* An edge on its way to its mate: the sum of its end points, which both have. */
struct loose {
    struct space sum;
    int panel, edge;
};

static const struct solid_edge *edge_of(const struct solid *solid, const struct loose *loose) {
    return &solid->panels.at[loose->panel].edges.at[loose->edge];
}

/* By x, then y, then z: edges that differ by less than SAME_POINT in one may stand apart, so x alone decides the order,
 * and the search looks at all whose x is near. */
static int by_place(const void *left, const void *right) {
    const struct loose *a = left, *b = right;
    if (a->sum.x != b->sum.x)
        return a->sum.x < b->sum.x ? -1 : 1;
    return a->panel != b->panel ? (a->panel > b->panel) - (a->panel < b->panel)
                                : (a->edge > b->edge) - (a->edge < b->edge);
}

/* The other way round, and by the same way: a curve's middle tells two arcs between the same points apart. */
static bool are_mates(const struct solid_edge *a, const struct solid_edge *b) {
    if (space_distance(a->space[0], b->space[b->count - 1]) > SAME_POINT ||
        space_distance(a->space[a->count - 1], b->space[0]) > SAME_POINT)
        return false;
    if (a->count != b->count)
        return false;
    size_t middle = a->count / 2;
    return space_distance(a->space[middle], b->space[b->count - 1 - middle]) <= SAME_POINT;
}

static void mate(struct solid *solid, const struct loose *a, const struct loose *b) {
    struct solid_edge *one = &solid->panels.at[a->panel].edges.at[a->edge];
    struct solid_edge *other = &solid->panels.at[b->panel].edges.at[b->edge];
    one->mate_panel = b->panel;
    one->mate_edge = b->edge;
    other->mate_panel = a->panel;
    other->mate_edge = a->edge;
    /* Either may have said that there is a seam. */
    enum join join = one->join == JOIN_SEAM || other->join == JOIN_SEAM ? JOIN_SEAM : one->join;
    one->join = other->join = join;
    if (join == JOIN_SEAM && !one->pocket && !other->pocket)
        other->pocket = true;
}

static size_t list_loose(struct solid *solid, struct loose *loose) {
    size_t count = 0;
    for (size_t p = 0; p < solid->panels.count; p++)
        for (size_t e = 0; e < solid->panels.at[p].edges.count; e++) {
            struct solid_edge *edge = &solid->panels.at[p].edges.at[e];
            edge->mate_panel = NO_PANEL;
            edge->mate_edge = NO_EDGE;
            if (edge->join == JOIN_PORT || edge->join == JOIN_FREE)
                continue;
            struct space sum = space_add(edge->space[0], edge->space[edge->count - 1]);
            loose[count++] = (struct loose){sum, (int)p, (int)e};
        }
    return count;
}

/* No brake closes a bend sharper than this: the sheet is parted there.  Common practice, no source. */
static const double sharpest_bend = 135 * DEGREE;

static void part_sharp_bends(struct solid *solid) {
    for (size_t p = 0; p < solid->panels.count; p++)
        for (size_t e = 0; e < solid->panels.at[p].edges.count; e++) {
            struct solid_edge *edge = &solid->panels.at[p].edges.at[e];
            if (edge->join != JOIN_BEND || fabs(solid_bend(solid, (int)p, (int)e)) <= sharpest_bend)
                continue;
            struct solid_edge *mate = &solid->panels.at[edge->mate_panel].edges.at[edge->mate_edge];
            edge->join = mate->join = JOIN_SEAM;
            mate->pocket = true;
        }
}

void solid_close(struct solid *solid) {
    size_t all = 0;
    for (size_t p = 0; p < solid->panels.count; p++)
        all += solid->panels.at[p].edges.count;
    struct loose *loose = ARENA_ARRAY(solid->arena, struct loose, all + 1);
    size_t count = list_loose(solid, loose);
    qsort(loose, count, sizeof *loose, by_place);
    for (size_t i = 0; i < count; i++) {
        const struct solid_edge *edge = edge_of(solid, &loose[i]);
        for (size_t j = i + 1; j < count && edge->mate_panel == NO_PANEL; j++) {
            if (loose[j].sum.x - loose[i].sum.x > 4 * SAME_POINT)
                break;
            if (edge_of(solid, &loose[j])->mate_panel == NO_PANEL && are_mates(edge, edge_of(solid, &loose[j])))
                mate(solid, &loose[i], &loose[j]);
        }
        if (edge->mate_panel == NO_PANEL)
            solid_fault(solid, NULL, "the %s does not close along one edge", solid->panels.at[loose[i].panel].name);
    }
    if (!solid->fault)
        part_sharp_bends(solid);
}

/* ---- Bends ------------------------------------------------------------------------------------------------------- */

/* Of a panel beside one of its edges: square to it, in the panel's surface, away from the panel. */
static struct space outward(const struct solid_panel *panel, int edge, struct space normal) {
    const struct solid_edge *at = &panel->edges.at[edge];
    struct space way = space_sub(at->space[at->count - 1], at->space[0]);
    return space_unit(space_cross(way, normal));
}

/* Toward the inside of the duct, at an edge.  Of a plane from its loop; of a rolled panel from the facet beside the
 * ruling. */
static struct space inside(const struct solid_panel *panel, int edge) {
    struct space sum = {0, 0, 0};
    if (panel->kind == PANEL_ROLLED) {
        const struct solid_edge *at = &panel->edges.at[edge];
        size_t last = panel->rulings - 1, i = 0;
        if (space_distance(at->space[0], panel->near[last]) <= SAME_POINT ||
            space_distance(at->space[0], panel->far[last]) <= SAME_POINT)
            i = last - 1;
        struct space a = space_sub(panel->far[i + 1], panel->near[i]), b = space_sub(panel->far[i], panel->near[i + 1]);
        sum = space_cross(a, b);
        /* Flat and space turn the same way. */
        struct flat c = flat_sub(panel->far_flat[i + 1], panel->near_flat[i]);
        struct flat d = flat_sub(panel->far_flat[i], panel->near_flat[i + 1]);
        return space_unit(space_scale(sum, flat_cross(c, d) < 0 ? -1 : 1));
    }
    struct space first = panel->edges.at[0].space[0];
    for (size_t e = 0; e < panel->edges.count; e++)
        for (size_t i = 0; i + 1 < panel->edges.at[e].count; i++)
            sum = space_add(sum, space_cross(space_sub(panel->edges.at[e].space[i], first),
                                             space_sub(panel->edges.at[e].space[i + 1], first)));
    return space_unit(sum);
}

double solid_bend(const struct solid *solid, int panel, int edge) {
    const struct solid_panel *from = &solid->panels.at[panel];
    const struct solid_edge *at = &from->edges.at[edge];
    const struct solid_panel *to = &solid->panels.at[at->mate_panel];
    struct space up = inside(from, edge), out = outward(from, edge, up);
    struct space onward = space_scale(outward(to, at->mate_edge, inside(to, at->mate_edge)), -1);
    return atan2(space_dot(onward, up), space_dot(onward, out));
}
