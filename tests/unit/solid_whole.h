/* Proof of a solid as a whole: every edge is joined as it says, the surface closes and is seen from the inside, the
 * ports are what they declare, bends have their angles, and the blanks hold every panel once.  Include it behind
 * cmocka.h. */
#ifndef TESTS_UNIT_SOLID_WHOLE_H
#define TESTS_UNIT_SOLID_WHOLE_H

#include "metal/allow.h"
#include "outline.h"
#include "solid_panels.h"

/* ---- Joins ------------------------------------------------------------------------------------------------------- */

static inline bool runs_back(const struct proof *proof, const struct solid_edge *edge, const struct solid_edge *mate) {
    for (size_t i = 0; i < edge->count; i++)
        if (edge->count != mate->count ||
            !(space_distance(edge->space[i], mate->space[mate->count - 1 - i]) <= near_enough(proof)))
            return false;
    return true;
}

static inline void prove_mates(struct proof *proof, const struct solid *solid, int panel, int e) {
    const struct solid_edge *edge = edge_of_panel(solid, panel, e);
    const char *name = panel_at(solid, panel)->name;
    if (!holds(proof,
               edge->mate_panel >= 0 && (size_t)edge->mate_panel < solid->panels.count && edge->mate_edge >= 0 &&
                   (size_t)edge->mate_edge < panel_at(solid, edge->mate_panel)->edges.count,
               "edge %d of the %s is joined to nothing", e, name))
        return;
    const struct solid_edge *mate = edge_of_panel(solid, edge->mate_panel, edge->mate_edge);
    holds(proof, mate->mate_panel == panel && mate->mate_edge == e && mate != edge,
          "edge %d of the %s is not its mate's mate", e, name);
    holds(proof, mate->join == edge->join, "edge %d of the %s and its mate are joined differently", e, name);
    holds(proof, runs_back(proof, edge, mate), "edge %d of the %s does not run along its mate", e, name);
    if (edge->join == JOIN_SEAM)
        holds(proof, edge->pocket != mate->pocket, "the seam at edge %d of the %s has not one pocket", e, name);
}

static inline void prove_joins(struct proof *proof, const struct solid *solid) {
    for (size_t p = 0; p < solid->panels.count; p++)
        for (size_t e = 0; e < solid->panels.at[p].edges.count && !proof->property; e++) {
            const struct solid_edge *edge = edge_of_panel(solid, (int)p, (int)e);
            const char *name = panel_at(solid, (int)p)->name;
            if (edge->join == JOIN_PORT)
                holds(proof, edge->port >= 0 && (size_t)edge->port < solid->ports.count,
                      "edge %zu of the %s is open at no port", e, name);
            else if (edge->join != JOIN_FREE)
                prove_mates(proof, solid, (int)p, (int)e);
            if (edge->join == JOIN_PORT || edge->join == JOIN_FREE)
                holds(proof, edge->mate_panel == NO_PANEL, "edge %zu of the %s is open and has a mate", e, name);
        }
}

/* Flat length less the mate's. */
static inline double mate_change(const struct solid *solid, const struct measure_of *of, double *parts) {
    const struct solid_edge *edge = edge_of_panel(solid, of->panel, of->edge);
    struct measure_of mate = {.panel = edge->mate_panel, .edge = edge->mate_edge};
    return drawn_length(solid, of, parts) - drawn_length(solid, &mate, parts);
}

static inline void prove_mating_lengths(struct proof *proof) {
    const struct solid *solid = proof->at[0];
    for (size_t p = 0; p < solid->panels.count; p++)
        for (size_t e = 0; e < solid->panels.at[p].edges.count && !proof->property; e++) {
            const struct solid_edge *edge = edge_of_panel(solid, (int)p, (int)e);
            if (edge->mate_panel == NO_PANEL || edge->mate_panel < (int)p)
                continue;
            struct measure_of of = {.panel = (int)p, .edge = (int)e};
            bool exact = proof->exact[p] && proof->exact[edge->mate_panel];
            struct limit limit;
            holds(proof, tends_to(proof, mate_change, &of, 0, edge_length(edge), exact, &limit),
                  "edge %zu of the %s is longer than its mate by %g m (known to %g)", e, panel_at(solid, (int)p)->name,
                  limit.value, limit.doubt);
        }
}

/* ---- Inside and outside ------------------------------------------------------------------------------------------ */

static inline int root_of(int *parent, int at) {
    while (parent[at] != at)
        at = parent[at] = parent[parent[at]];
    return at;
}

/* Panels and, behind them, ports that hang together. */
static inline int *find_bodies(struct proof *proof, const struct solid *solid) {
    size_t panels = solid->panels.count;
    int *parent = ARENA_ARRAY(proof->arena, int, panels + solid->ports.count + 1);
    for (size_t i = 0; i < panels + solid->ports.count; i++)
        parent[i] = (int)i;
    for (size_t p = 0; p < panels; p++)
        for (size_t e = 0; e < solid->panels.at[p].edges.count; e++) {
            const struct solid_edge *edge = edge_of_panel(solid, (int)p, (int)e);
            if (edge->mate_panel != NO_PANEL)
                parent[root_of(parent, (int)p)] = root_of(parent, edge->mate_panel);
            else if (edge->join == JOIN_PORT)
                parent[root_of(parent, (int)p)] = root_of(parent, (int)panels + edge->port);
        }
    return parent;
}

/* Six times the volume between a triangle and a point. */
static inline double six_volume(struct space foot, struct space a, struct space b, struct space c) {
    return space_dot(space_sub(a, foot), space_cross(space_sub(b, foot), space_sub(c, foot)));
}

static inline double panel_volume(const struct solid_panel *panel, struct space foot) {
    double sum = 0;
    struct space first = panel->edges.at[0].space[0];
    if (panel->kind == PANEL_PLANE)
        for (size_t e = 0; e < panel->edges.count; e++)
            for (size_t i = 0; i + 1 < panel->edges.at[e].count; i++)
                sum += six_volume(foot, first, panel->edges.at[e].space[i], panel->edges.at[e].space[i + 1]);
    for (size_t i = 0; i + 1 < panel->rulings; i++)
        sum += six_volume(foot, panel->near[i], panel->near[i + 1], panel->far[i + 1]) +
               six_volume(foot, panel->near[i], panel->far[i + 1], panel->far[i]);
    return sum;
}

static inline double cap_volume(const struct solid *solid, const struct solid_panel *panel, struct space foot) {
    double sum = 0;
    for (size_t e = 0; e < panel->edges.count; e++) {
        const struct solid_edge *edge = &panel->edges.at[e];
        for (size_t i = 0; edge->join == JOIN_PORT && i + 1 < edge->count; i++)
            sum += six_volume(foot, solid->ports.at[edge->port].frame.origin, edge->space[i + 1], edge->space[i]);
    }
    return sum;
}

static inline bool has_join(const struct solid_panel *panel, enum join join) {
    for (size_t e = 0; e < panel->edges.count; e++)
        if (panel->edges.at[e].join == join)
            return true;
    return false;
}

/* Gauss: with its ports capped, a body whose loops all go anticlockwise seen from the inside has a volume below zero.
 * A sheet that stands free (a vane) has no inside. */
static inline void prove_inside(struct proof *proof, const struct solid *solid) {
    const int *body = find_bodies(proof, solid);
    for (size_t b = 0; b < solid->panels.count + solid->ports.count && !proof->property; b++) {
        double six = 0;
        bool free = false, port = false, any = false;
        const char *name = "";
        struct space foot = {0, 0, 0};
        for (size_t p = 0; p < solid->panels.count; p++) {
            const struct solid_panel *panel = &solid->panels.at[p];
            if (root_of((int *)body, (int)p) != (int)b)
                continue;
            if (!any)
                foot = panel->edges.at[0].space[0];
            any = true;
            name = panel->name;
            free = free || has_join(panel, JOIN_FREE);
            port = port || has_join(panel, JOIN_PORT);
            six += panel_volume(panel, foot) + cap_volume(solid, panel, foot);
        }
        if (any && (port || !free))
            holds(proof, six < 0, "the body of the %s is turned inside out (%g m3)", name, -six / 6);
    }
}

/* ---- Ports ------------------------------------------------------------------------------------------------------- */

/* In the frame's plane: x right, y up. */
static inline struct flat in_port(const struct frame *frame, struct space point) {
    struct space from = space_sub(point, frame->origin);
    return (struct flat){space_dot(from, frame->right), space_dot(from, frame->up)};
}

/* How far a point is from the border of the declared section; > 0 outside.  Of a rectangle with rounded corners, by its
 * distance. */
static inline double off_border(struct duct_size size, struct flat point) {
    double radius = size.shape == SHAPE_RECTANGULAR ? 0 : fmin(size.width, size.height) / 2;
    double x = fabs(point.x) - (size.width / 2 - radius), y = fabs(point.y) - (size.height / 2 - radius);
    return hypot(fmax(x, 0), fmax(y, 0)) + fmin(fmax(x, y), 0) - radius;
}

static inline double port_length(const struct solid *solid, const struct measure_of *of, double *parts) {
    const struct solid_edge *edge = edge_of_panel(solid, of->panel, of->edge);
    double sum = 0;
    for (size_t i = 0; i + 1 < edge->count; i++)
        sum += space_distance(edge->space[i], edge->space[i + 1]);
    *parts = (double)edge->count - 1;
    return sum;
}

/* Twice what the edge takes about the port's middle, in the port's plane. */
static inline double port_sweep(const struct solid *solid, const struct measure_of *of, double *parts) {
    const struct solid_edge *edge = edge_of_panel(solid, of->panel, of->edge);
    double sum = 0;
    for (size_t i = 0; i + 1 < edge->count; i++)
        sum += flat_cross(in_port(&of->frame, edge->space[i]), in_port(&of->frame, edge->space[i + 1]));
    *parts = (double)edge->count - 1;
    return sum;
}

/* An open edge, and whether one goes on from its end. */
struct open_edge {
    int panel, edge;
    bool taken;
};

static inline struct open_edge *open_edges(struct proof *proof, const struct solid *solid, int port, size_t *count) {
    size_t all = 0;
    for (size_t p = 0; p < solid->panels.count; p++)
        all += solid->panels.at[p].edges.count;
    struct open_edge *open = ARENA_ARRAY(proof->arena, struct open_edge, all + 1);
    *count = 0;
    for (size_t p = 0; p < solid->panels.count; p++)
        for (size_t e = 0; e < solid->panels.at[p].edges.count; e++)
            if (solid->panels.at[p].edges.at[e].join == JOIN_PORT && solid->panels.at[p].edges.at[e].port == port)
                open[(*count)++] = (struct open_edge){(int)p, (int)e, false};
    return open;
}

/* From the first edge on, all of them, back to the first. */
static inline bool is_one_loop(const struct proof *proof, const struct solid *solid, struct open_edge *open,
                               size_t count) {
    size_t at = 0, passed = 0;
    while (count && !open[at].taken) {
        open[at].taken = true;
        passed++;
        struct space end = space_end(edge_of_panel(solid, open[at].panel, open[at].edge));
        size_t next = 0;
        while (next < count && space_distance(edge_of_panel(solid, open[next].panel, open[next].edge)->space[0], end) >
                                   near_enough(proof))
            next++;
        if (next == count)
            return false;
        at = next;
    }
    return count && at == 0 && passed == count;
}

/* A tap's base follows the wall that it sits on, and shows the declared size along its frame; above where it has that,
 * a base that spreads is less. Other ports are plane. */
static inline void prove_border(struct proof *proof, const struct solid *solid, const struct solid_port *port,
                                const struct open_edge *open, size_t count) {
    for (size_t k = 0; k < count; k++) {
        const struct solid_edge *edge = edge_of_panel(solid, open[k].panel, open[k].edge);
        for (size_t i = 0; i < edge->count && !proof->property; i++) {
            double off = space_dot(space_sub(edge->space[i], port->frame.origin), port->frame.along);
            if (port->use != PORT_USE_BASE)
                holds(proof, fabs(off) <= near_enough(proof), "the end %s is not plane, by %g m", port->name, off);
            double border = off_border(port->size, in_port(&port->frame, edge->space[i]));
            bool above = port->use == PORT_USE_BASE && off < -near_enough(proof);
            holds(proof, above ? border <= near_enough(proof) : fabs(border) <= near_enough(proof),
                  "the border of the end %s is off its size by %g m", port->name, border);
        }
    }
}

static inline bool is_frame(const struct frame *frame) {
    struct space up = space_cross(frame->right, frame->along);
    return fabs(space_length(frame->right) - 1) < 1e-12 && fabs(space_length(frame->along) - 1) < 1e-12 &&
           space_distance(up, frame->up) < 1e-12;
}

/* Whether some of a tap's base lies above where it has its declared size. */
static inline bool rises(const struct proof *proof, const struct solid *solid, const struct solid_port *port,
                         const struct open_edge *open, size_t count) {
    for (size_t k = 0; k < count && port->use == PORT_USE_BASE; k++) {
        const struct solid_edge *edge = edge_of_panel(solid, open[k].panel, open[k].edge);
        for (size_t i = 0; i < edge->count; i++)
            if (space_dot(space_sub(edge->space[i], port->frame.origin), port->frame.along) < -near_enough(proof))
                return true;
    }
    return false;
}

/* An end without edges is an opening in a plate. */
static inline bool is_opening(const struct proof *proof, const struct solid *solid, const struct solid_port *port) {
    for (size_t p = 0; p < solid->panels.count; p++)
        for (size_t o = 0; o < solid->panels.at[p].openings.count; o++) {
            const struct opening *opening = &solid->panels.at[p].openings.at[o];
            bool same = true;
            for (size_t i = 0; i < opening->count && same; i++)
                same = fabs(space_dot(space_sub(opening->space[i], port->frame.origin), port->frame.along)) <=
                           near_enough(proof) &&
                       fabs(off_border(port->size, in_port(&port->frame, opening->space[i]))) <= near_enough(proof);
            if (same)
                return true;
        }
    return false;
}

static inline void prove_port(struct proof *proof, int index) {
    const struct solid *solid = proof->at[0];
    const struct solid_port *port = &solid->ports.at[index];
    size_t count;
    struct open_edge *open = open_edges(proof, solid, index, &count);
    holds(proof, is_frame(&port->frame), "the frame of the end %s is not square", port->name);
    if (!count) {
        holds(proof, is_opening(proof, solid, port), "the end %s is neither open nor an opening of its size",
              port->name);
        return;
    }
    holds(proof, is_one_loop(proof, solid, open, count), "the border of the end %s is not one loop", port->name);
    prove_border(proof, solid, port, open, count);
    double length = 0, sweep = 0, whole = size_perimeter(port->size), area = size_area(port->size);
    for (size_t k = 0; k < count && !proof->property; k++) {
        struct measure_of of = {.panel = open[k].panel, .edge = open[k].edge, .frame = port->frame};
        length += limit_of(proof, port_length, &of, 1e-11 * whole).value;
        sweep += limit_of(proof, port_sweep, &of, 1e-11 * area).value;
    }
    if (port->use != PORT_USE_BASE)
        holds(proof, fabs(length - whole) <= 1e-9 * whole, "the end %s is %.12g m round, not %.12g", port->name, length,
              whole);
    if (rises(proof, solid, port, open, count)) {
        holds(proof, -sweep / 2 <= area * (1 + 1e-9), "the end %s opens %.12g m2, more than %.12g", port->name,
              -sweep / 2, area);
        return;
    }
    /* x right and y up is how the inside sees the port: a cap would go anticlockwise, so the edges that end there go
     * clockwise. */
    holds(proof, fabs(-sweep / 2 - area) <= 1e-9 * area, "the end %s opens %.12g m2, not %.12g", port->name, -sweep / 2,
          area);
}

/* ---- Bends ------------------------------------------------------------------------------------------------------- */

/* Toward the inside of the duct, of a plane by all its points, of a rolled panel by its first or last facet. */
static inline struct space inward(const struct proof *proof, const struct solid_panel *panel,
                                  const struct solid_edge *edge) {
    struct space sum = {0, 0, 0}, first = panel->edges.at[0].space[0];
    if (panel->kind == PANEL_ROLLED) {
        size_t last = panel->rulings - 1;
        bool at_end = at_ruling(proof, panel, edge, last);
        size_t i = at_end ? last - 1 : 0;
        return space_unit(
            space_cross(space_sub(panel->far[i + 1], panel->near[i]), space_sub(panel->far[i], panel->near[i + 1])));
    }
    for (size_t e = 0; e < panel->edges.count; e++)
        for (size_t i = 0; i + 1 < panel->edges.at[e].count; i++)
            sum = space_add(sum, space_cross(space_sub(panel->edges.at[e].space[i], first),
                                             space_sub(panel->edges.at[e].space[i + 1], first)));
    return space_unit(sum);
}

/* About the edge, from one side's inward way to the other's: bent up is a turn to the
 * right about the edge's own way. */
static inline double turn_at(const struct proof *proof, const struct solid *solid, int panel, int e) {
    const struct solid_edge *edge = edge_of_panel(solid, panel, e);
    const struct solid_edge *mate = edge_of_panel(solid, edge->mate_panel, edge->mate_edge);
    struct space own = inward(proof, panel_at(solid, panel), edge),
                 other = inward(proof, panel_at(solid, edge->mate_panel), mate);
    struct space way = space_unit(space_sub(space_end(edge), edge->space[0]));
    return -atan2(space_dot(space_cross(own, other), way), space_dot(own, other));
}

/* By how much one facet of a rolled panel turns from the next, rad; of a cylinder the same all along. */
static inline double facet_turn(const struct solid_panel *panel) {
    struct space across[2];
    for (size_t i = 0; i < 2; i++) {
        if (panel->kind != PANEL_ROLLED || panel->rulings < 3)
            return 0;
        struct space ruling = space_sub(panel->far[i], panel->near[i]);
        across[i] = space_unit(space_cross(ruling, space_sub(panel->near[i + 1], panel->near[i])));
    }
    return atan2(space_length(space_cross(across[0], across[1])), space_dot(across[0], across[1]));
}

/* Tangent cylinders turn by half a facet of each, together or against each other: where these nearly cancel, the turn
 * of one drawing says nothing of the next. */
static inline bool is_tangent(const struct solid *solid, int panel, int e, double turn) {
    double own = facet_turn(panel_at(solid, panel)) / 2;
    double other = facet_turn(panel_at(solid, edge_of_panel(solid, panel, e)->mate_panel)) / 2;
    return fabs(fabs(turn) - fabs(own - other)) <= 1e-9 || fabs(fabs(turn) - (own + other)) <= 1e-9;
}

/* A bend has its angle; where a sheet goes on smoothly there is none, but for the facets of a drawn curve, which turn
 * less the finer they are. */
static inline void prove_bend(struct proof *proof, int panel, int e) {
    const struct solid *solid = proof->at[0];
    const struct solid_edge *edge = edge_of_panel(solid, panel, e);
    const char *name = panel_at(solid, panel)->name;
    if (edge->count != 2 || edge->mate_panel == NO_PANEL)
        return;
    double turn = turn_at(proof, solid, panel, e);
    if (edge->join == JOIN_BEND)
        holds(proof, fabs(turn - solid_bend(solid, panel, e)) <= 1e-9,
              "the bend at edge %d of the %s is %g rad, not %g", e, name, solid_bend(solid, panel, e), turn);
    bool smooth = edge->join != JOIN_SMOOTH;
    for (size_t level = 0; level + 3 < SERIES_MOST && !smooth; level += 3) {
        turn = turn_at(proof, series_at(proof, level), panel, e);
        smooth = fabs(turn_at(proof, series_at(proof, level + 3), panel, e)) <= fabs(turn) / 4 + 1e-7 ||
                 is_tangent(proof->at[level], panel, e, turn);
    }
    holds(proof, smooth, "the sheet is not smooth at edge %d of the %s: %g rad", e, name, turn);
}

/* ---- Blanks ------------------------------------------------------------------------------------------------------ */

static inline struct flat on_sheet(const struct blank_panel *placed, struct flat point) {
    return flat_add(placed->origin, flat_turn(point, placed->turn));
}

static inline bool goes_on(const struct solid_edge *edge) {
    return edge->join == JOIN_BEND || edge->join == JOIN_SMOOTH;
}

/* Neighbours lie side by side along the edge that they share. */
static inline void prove_beside(struct proof *proof, const struct solid *solid, const struct blank_panel *const *placed,
                                int panel) {
    for (size_t e = 0; e < panel_at(solid, panel)->edges.count; e++) {
        const struct solid_edge *edge = edge_of_panel(solid, panel, (int)e);
        if (!goes_on(edge))
            continue;
        const struct solid_edge *mate = edge_of_panel(solid, edge->mate_panel, edge->mate_edge);
        for (size_t i = 0; i < edge->count && !proof->property; i++)
            holds(proof,
                  flat_distance(on_sheet(placed[panel], edge->flat[i]),
                                on_sheet(placed[edge->mate_panel], mate->flat[mate->count - 1 - i])) <=
                      near_enough(proof),
                  "the %s and the %s do not lie side by side on their blank", panel_at(solid, panel)->name,
                  panel_at(solid, edge->mate_panel)->name);
    }
}

/* Together the panels wind once about every point within the outline; if that is one loop that crosses itself nowhere,
 * no two of them overlap. */
static inline void prove_blank(struct proof *proof, const struct solid *solid, const struct blank *blank) {
    double area = 0, net = 0, twice = 0;
    size_t border = 0, points = 0;
    for (size_t i = 0; i < blank->panels.count; i++) {
        const struct solid_panel *panel = panel_at(solid, blank->panels.at[i].panel);
        area += polygon_area(panel);
        net += panel_area(panel);
        for (size_t e = 0; e < panel->edges.count; e++)
            border += !goes_on(&panel->edges.at[e]);
    }
    for (size_t e = 0; e < blank->edges.count; e++)
        points += blank->edges.at[e].count;
    struct flat *loop = ARENA_ARRAY(proof->arena, struct flat, points + 1);
    points = 0;
    for (size_t e = 0; e < blank->edges.count; e++) {
        const struct blank_edge *edge = &blank->edges.at[e], *next = &blank->edges.at[(e + 1) % blank->edges.count];
        holds(proof, flat_distance(edge->points[edge->count - 1], next->points[0]) <= near_enough(proof),
              "the outline of the %s is torn", blank->name);
        for (size_t i = 0; i + 1 < edge->count; i++)
            loop[points++] = edge->points[i];
    }
    for (size_t i = 0; i < points; i++)
        twice += flat_cross(flat_sub(loop[i], loop[0]), flat_sub(loop[(i + 1) % points], loop[0]));
    holds(proof, border == blank->edges.count, "the blank of the %s has %zu open edges, %zu of them in its outline",
          blank->name, border, blank->edges.count);
    holds(proof, loop_is_simple(proof, loop, points), "the outline of the blank of the %s crosses itself", blank->name);
    holds(proof, fabs(twice / 2 - area) <= 1e-9 * area, "the blank of the %s takes %g m2, its panels %g", blank->name,
          twice / 2, area);
    holds(proof, fabs(blank->net_area - net) <= 1e-9 * net, "the blank of the %s says %g m2, its panels %g",
          blank->name, blank->net_area, net);
}

/* How far from a corner that turns in an allowance is cut off by its neighbour's, along its own edge: where their outer
 * lines meet. */
static inline double cut_off(const struct blank_edge *edge, const struct blank_edge *next, double own, double other) {
    struct flat way = flat_sub(edge->points[edge->count - 1], edge->points[edge->count - 2]);
    struct flat on = flat_sub(next->points[1], next->points[0]);
    double turn = atan2(flat_cross(way, on), flat_dot(way, on));
    double off = turn < -1e-9 ? (other - own * cos(turn)) / -sin(turn) : 0;
    if (off > 0 && (edge->count > 2 || next->count > 2))
        off = 2 * off + own; /* the outer line of a curve has another length, and is cut off by chords */
    return off;
}

/* How far a point is outside of the drawn line of an edge, below 0 inside; and how far from the ends of that line the
 * nearest place is. */
static inline double from_line(const struct blank_edge *edge, struct flat at, double *inward) {
    double least = INFINITY, along = 0, whole = 0, best = 0, side = 1;
    for (size_t i = 0; i + 1 < edge->count; i++) {
        struct flat a = edge->points[i], way = flat_sub(edge->points[i + 1], a);
        double share = fmax(0, fmin(1, flat_dot(flat_sub(at, a), way) / flat_dot(way, way)));
        double off = flat_distance(at, flat_add(a, flat_scale(way, share)));
        if (off < least) {
            least = off;
            side = flat_cross(way, flat_sub(at, a)) <= 0 ? 1 : -1;
            best = along + share * flat_length(way);
        }
        along = whole += flat_length(way);
    }
    *inward = fmin(best, whole - best);
    return side * least;
}

/* Whether a point lies on the outline to cut, looked for from segment *from on: there the next one will be, too. */
static inline bool on_outline(const struct proof *proof, const struct blank *blank, struct flat at, size_t *from) {
    for (size_t k = 0; k < blank->cut_count; k++) {
        size_t i = (*from + k) % blank->cut_count;
        struct flat a = blank->cut[i], way = flat_sub(blank->cut[(i + 1) % blank->cut_count], a);
        double share = fmax(0, fmin(1, flat_dot(flat_sub(at, a), way) / flat_dot(way, way)));
        if (flat_distance(at, flat_add(a, flat_scale(way, share))) > near_enough(proof))
            continue;
        *from = i;
        return true;
    }
    return false;
}

/* The box of an edge's line, and `beyond` more on all sides: whether a point lies in it. */
static inline bool is_near(const struct flat box[2], struct flat at, double beyond) {
    return at.x >= box[0].x - beyond && at.x <= box[1].x + beyond && at.y >= box[0].y - beyond &&
           at.y <= box[1].y + beyond;
}

static inline void find_box(const struct blank_edge *edge, struct flat box[2]) {
    box[0] = box[1] = edge->points[0];
    for (size_t i = 1; i < edge->count; i++) {
        struct flat at = edge->points[i];
        box[0] = (struct flat){fmin(box[0].x, at.x), fmin(box[0].y, at.y)};
        box[1] = (struct flat){fmax(box[1].x, at.x), fmax(box[1].y, at.y)};
    }
}

/* Nothing is cut nearer to a curve than its allowance is wide, but for its ends and what its neighbours do there. */
static inline void prove_cut_clear(struct proof *proof, const struct blank *blank, size_t e) {
    size_t count = blank->edges.count;
    const struct blank_edge *edge = &blank->edges.at[e], *next = &blank->edges.at[(e + 1) % count];
    const struct blank_edge *before = &blank->edges.at[(e + count - 1) % count];
    double ends =
        2 * fmax(edge->allowance, fmax(next->allowance, before->allowance)) + fmax(edge->start_cut, edge->end_cut);
    if (edge->count < 3 || !(edge->allowance > 0))
        return;
    struct flat box[2];
    find_box(edge, box);
    for (size_t i = 0; i < blank->cut_count && !proof->property; i++) {
        struct flat at = flat_between(blank->cut[i], blank->cut[(i + 1) % blank->cut_count], 0.5);
        if (!is_near(box, at, edge->allowance))
            continue;
        double inward, off = from_line(edge, at, &inward);
        holds(proof, inward < ends || off < 0 || off >= edge->allowance - near_enough(proof),
              "the %s of the %s is cut within %g m of its line, not %g", edge->label, blank->name, off,
              edge->allowance);
    }
}

/* By how much the outline turns in between two edges. */
static inline double turns_in(const struct blank_edge *edge, const struct blank_edge *next) {
    struct flat way = flat_sub(edge->points[edge->count - 1], edge->points[edge->count - 2]);
    struct flat on = flat_sub(next->points[1], next->points[0]);
    return -atan2(flat_cross(way, on), flat_dot(way, on));
}

/* Whether what is turned along one edge hangs by its sheet on what stands on the next. */
static inline bool hangs_together(const struct blank_edge *edge, const struct blank_edge *next) {
    bool turned = (edge->allowance > 0 && edge->turn != TURN_FLAT) || (next->allowance > 0 && next->turn != TURN_FLAT);
    return turned && !(edge->end_cut > 0) && !(next->start_cut > 0) && turns_in(edge, next) > 16 * DEGREE;
}

/* Where the outline turns in, what is to be turned is snipped free, from the outline to cut in to the corner and not
 * into the piece. */
static inline void prove_reliefs(struct proof *proof, const struct blank *blank, size_t e) {
    const struct blank_edge *edge = &blank->edges.at[e], *next = &blank->edges.at[(e + 1) % blank->edges.count];
    struct flat corner = next->points[0], back = flat_sub(edge->points[edge->count - 2], corner);
    if (!hangs_together(edge, next))
        return;
    size_t found = 0;
    for (size_t i = 0; i < blank->reliefs.count; i++) {
        struct flat from = blank->reliefs.at[i].from, to = blank->reliefs.at[i].to, way = flat_sub(from, to);
        if (flat_distance(to, corner) > near_enough(proof))
            continue;
        found++;
        holds(proof, outline_distance(blank, from) <= near_enough(proof),
              "a snip of the %s does not begin at its outline", blank->name);
        holds(proof,
              flat_cross(back, way) >= -1e-9 * flat_length(back) * flat_length(way) &&
                  flat_cross(way, flat_sub(next->points[1], corner)) >= -1e-9 * flat_length(way),
              "a snip of the %s goes into the piece", blank->name);
    }
    holds(proof, found == 1, "the %s and the %s of the %s hang together in a corner that turns in", edge->label,
          next->label, blank->name);
}

/* Every line to cut lies as far beyond its net line as its allowance says, between the notches, but where another part
 * of a curve that turns in is nearer. */
static inline void prove_cut_edge(struct proof *proof, const struct blank *blank, size_t e) {
    const struct blank_edge *edge = &blank->edges.at[e], *next = &blank->edges.at[(e + 1) % blank->edges.count];
    const struct blank_edge *before = &blank->edges.at[(e + blank->edges.count - 1) % blank->edges.count];
    double start = fmax(edge->start_cut, cut_off(before, edge, edge->allowance, before->allowance));
    double end = fmax(edge->end_cut, cut_off(edge, next, edge->allowance, next->allowance));
    double length = 0, passed = 0, inward;
    size_t found = 0;
    for (size_t i = 0; i + 1 < edge->count; i++)
        length += flat_distance(edge->points[i], edge->points[i + 1]);
    for (size_t i = 0; i + 1 < edge->count && !proof->property; i++) {
        struct flat a = edge->points[i], b = edge->points[i + 1], middle = flat_between(a, b, 0.5);
        double part = flat_distance(a, b), at = passed + part / 2;
        passed += part;
        struct flat out = flat_add(middle, flat_scale(flat_right(flat_unit(flat_sub(b, a))), edge->allowance));
        if (part < 1e-6 || at < start || length - at < end || on_outline(proof, blank, out, &found) ||
            from_line(edge, out, &inward) < edge->allowance - near_enough(proof))
            continue;
        holds(proof, on_outline(proof, blank, out, &found), "the %s of the %s is cut %g m off its allowance of %g",
              edge->label, blank->name, outline_distance(blank, out), edge->allowance);
    }
}

/* With what the pass allows, as the shop would cut it.  A size whose allowances have no room is not made. */
static inline void prove_cut(struct proof *proof, const struct solid *solid, double deduction) {
    static const struct settings settings;
    struct shop shop = {.bend_deduction = deduction};
    struct allowing allowing = {.shop = &shop, .settings = &settings, .supply = true};
    for (int side = 0; side < JOINT_SIDES; side++)
        allowing.joints[side] = &settings;
    struct part part = {.solid = (struct solid *)solid};
    const char *why = NULL;
    solid_blanks(solid, deduction, &part.blanks);
    part_connections(&part, &allowing);
    if (!part_allow(&part, &allowing, &why))
        return;
    for (size_t b = 0; b < part.blanks.count && !proof->property; b++) {
        struct blank *blank = &part.blanks.at[b];
        if (!blank_cut(blank, proof->arena, &why))
            continue;
        holds(proof, loop_is_simple(proof, blank->cut, blank->cut_count), "the cut outline of the %s crosses itself",
              blank->name);
        for (size_t e = 0; e < blank->edges.count && !proof->property; e++)
            prove_cut_edge(proof, blank, e);
        for (size_t e = 0; e < blank->edges.count && !proof->property; e++) {
            prove_cut_clear(proof, blank, e);
            prove_reliefs(proof, blank, e);
        }
    }
}

static inline void prove_blanks(struct proof *proof, const struct solid *solid) {
    blank_list blanks = {0};
    solid_blanks(solid, 0, &blanks);
    const struct blank_panel **placed = ARENA_ARRAY(proof->arena, const struct blank_panel *, solid->panels.count + 1);
    size_t count = 0;
    for (size_t b = 0; b < blanks.count; b++)
        for (size_t i = 0; i < blanks.at[b].panels.count; i++) {
            const struct blank_panel *panel = &blanks.at[b].panels.at[i];
            holds(proof, !placed[panel->panel], "the %s lies on two blanks", panel_at(solid, panel->panel)->name);
            placed[panel->panel] = panel;
            count++;
        }
    holds(proof, count == solid->panels.count, "of %zu panels %zu lie on a blank", solid->panels.count, count);
    for (size_t p = 0; p < solid->panels.count && !proof->property; p++)
        prove_beside(proof, solid, placed, (int)p);
    for (size_t b = 0; b < blanks.count && !proof->property; b++)
        prove_blank(proof, solid, &blanks.at[b]);
}

#endif
