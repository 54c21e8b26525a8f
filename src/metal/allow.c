/* What seams and connections ask of each edge of a blank. */
#include "metal/allow.h"

#include <string.h>

#include "metal/blank.h"
#include "metal/shape.h"
#include "model/words.h"

/* The flange that a register or grille is screwed to, and the tabs that hold a collar in the wall of another duct: both
 * are turned out, the tabs behind the wall.
 * Common practice, no source. */
static const double face_flange = 1 * INCH, collar_tabs = 0.5 * INCH;

/* ---- The seams --------------------------------------------------------------------------------------------------- */

/* The shape of its round or oval ports, else rectangular. */
static enum shape round_shape(const struct solid *solid) {
    for (size_t i = 0; i < solid->ports.count; i++)
        if (solid->ports.at[i].size.shape != SHAPE_RECTANGULAR)
            return solid->ports.at[i].size.shape;
    return SHAPE_RECTANGULAR;
}

/* Flat sheet on both sides, and a corner between: less than that is a seam within a side. */
static const double corner_turns = 15 * DEGREE;

/* A flat side of oval duct goes on into its round ends, and its seams with theirs. */
static bool runs_round(const struct solid *solid, int panel) {
    for (size_t e = 0; e < solid->panels.at[panel].edges.count; e++) {
        const struct solid_edge *edge = &solid->panels.at[panel].edges.at[e];
        if (edge->join == JOIN_SMOOTH && solid->panels.at[edge->mate_panel].kind == PANEL_ROLLED)
            return true;
    }
    return false;
}

static bool is_corner(const struct solid *solid, int panel, int edge) {
    const struct solid_edge *at = &solid->panels.at[panel].edges.at[edge];
    if (at->mate_panel == NO_PANEL || at->count != 2 || solid->panels.at[panel].kind != PANEL_PLANE ||
        solid->panels.at[at->mate_panel].kind != PANEL_PLANE)
        return false;
    return fabs(solid_bend(solid, panel, edge)) > corner_turns && !runs_round(solid, panel) &&
           !runs_round(solid, at->mate_panel);
}

/* In a part with a round end, a corner between two flat panels is locked as that of a rectangular duct. */
static enum seam_kind seam_at(const struct part *part, const struct allowing *allowing, int panel, int edge) {
    enum shape shape = round_shape(part->solid);
    bool fitting = !(part->finished_length > 0);
    if (shape != SHAPE_RECTANGULAR && is_corner(part->solid, panel, edge))
        shape = SHAPE_RECTANGULAR;
    return metal_seam_used(allowing->settings, shape, fitting);
}

static void note_unused_seam(struct part *part, const struct allowing *allowing) {
    enum seam_kind declared = allowing->settings->seam;
    if (!allowing->seam_own || part->seamed[declared])
        return;
    *list_add(part->solid->arena, &part->solid->notes) =
        arena_format(part->solid->arena, "No seam of it can be a %s, which the job asks for: they are made as listed.",
                     metal_seam_rule(declared)->title);
}

static void find_seams(struct part *part, const struct allowing *allowing) {
    size_t edges[SEAM_COUNT] = {0};
    bool any = false;
    for (size_t p = 0; p < part->solid->panels.count; p++)
        for (size_t e = 0; e < part->solid->panels.at[p].edges.count; e++)
            if (part->solid->panels.at[p].edges.at[e].join == JOIN_SEAM) {
                enum seam_kind kind = seam_at(part, allowing, (int)p, (int)e);
                part->seamed[kind] = any = true;
                edges[kind]++;
            }
    part->seam = metal_seam_used(allowing->settings, round_shape(part->solid), !(part->finished_length > 0));
    for (enum seam_kind kind = 0; kind < SEAM_COUNT; kind++)
        if (edges[kind] > edges[part->seam])
            part->seam = kind;
    if (any)
        note_unused_seam(part, allowing);
}

/* ---- The connections --------------------------------------------------------------------------------------------- */

/* Of the ports that are joined as duct; NO_PORT when the part has none. */
static int duct_port(const struct solid *solid, bool near) {
    for (size_t i = near ? 0 : 1; i < solid->ports.count; i++) {
        if (solid->ports.at[i].use == PORT_USE_DUCT || solid->ports.at[i].use == PORT_USE_BRANCH)
            return (int)i;
        if (near)
            return NO_PORT;
    }
    return NO_PORT;
}

/* The leg that a port is named for; LEG_COUNT: none. */
static int leg_of(const struct solid_port *port) {
    int leg = 0;
    while (leg < LEG_COUNT && strncmp(port->name, leg_name((enum leg)leg), strlen(leg_name((enum leg)leg))) != 0)
        leg++;
    return port->use == PORT_USE_BRANCH ? leg : LEG_COUNT;
}

static enum joint_kind joint_at(const struct solid *solid, int port, const struct allowing *allowing) {
    const struct solid_port *at = &solid->ports.at[port];
    int leg = leg_of(at), side = port == 0 ? JOINT_OWN : leg < LEG_COUNT ? JOINT_LEGS + leg : JOINT_BEHIND;
    if (side == JOINT_BEHIND && allowing->capped)
        return JOINT_RAW;
    return metal_joint_used(allowing->joints[side], at->size);
}

static void note_short_side(struct part *part) {
    struct strip_set strips = metal_strips(part->joints[0], part->solid->ports.at[0].size);
    if (!strips.fits)
        *list_add(part->solid->arena, &part->solid->notes) = arena_format(
            part->solid->arena,
            "A side of its near end is too short for its slip: %s has no strip there, fasten it by screws.",
            metal_connection_rule(part->joints[0])->title);
}

void part_connections(struct part *part, const struct allowing *allowing) {
    const struct solid *solid = part->solid;
    find_seams(part, allowing);
    for (int end = 0; end < 2; end++) {
        int port = duct_port(solid, end == 0);
        part->joined[end] = port != NO_PORT;
        if (port != NO_PORT)
            part->joints[end] = joint_at(solid, port, allowing);
    }
    if (part->joined[0])
        note_short_side(part);
}

/* ---- One edge ---------------------------------------------------------------------------------------------------- */

static void allow_seam(const struct part *part, const struct allowing *allowing, struct blank_edge *edge) {
    const struct solid_edge *from = &part->solid->panels.at[edge->panel].edges.at[edge->edge];
    enum seam_kind kind = seam_at(part, allowing, edge->panel, edge->edge);
    struct edge_allowance seam = metal_seam(allowing->shop, kind);
    edge->kind = from->pocket ? ALLOW_POCKET : ALLOW_FLANGE;
    edge->allowance = from->pocket ? seam.pocket : seam.flange;
    edge->turn = from->pocket ? seam.pocket_turn : seam.flange_turn;
    if (kind == SEAM_LAP)
        edge->label = from->pocket ? "lies on the lap" : "lap";
    else
        edge->label = from->pocket ? "pocket" : "flange";
}

/* The sides of a rectangle that run across are its top and bottom. */
static enum side_pair pair_of(const struct solid_edge *edge, const struct solid_port *port) {
    struct space way = space_sub(edge->space[edge->count - 1], edge->space[0]);
    double across = fabs(space_dot(way, port->frame.right)), up = fabs(space_dot(way, port->frame.up));
    return across >= up ? PAIR_TOP_BOTTOM : PAIR_LEFT_RIGHT;
}

static const char *end_label(const struct end_side *side, enum joint_kind joint) {
    switch (side->edge) {
    case EDGE_TURNED:
        return "drive, turned back";
    case EDGE_FLANGED:
        return "rolled flange";
    case EDGE_CRIMPED:
        return "crimp";
    default:
        return joint == JOINT_RAW ? "raw end" : "S lip, left flat";
    }
}

/* A drive slides over hems that are turned out, and flanges are bolted outside.  Common practice, no source. */
static enum allowance_turn end_turn(const struct end_side *side) {
    return side->edge == EDGE_TURNED || side->edge == EDGE_FLANGED ? TURN_OUT : TURN_FLAT;
}

/* Notches are for the corners of the duct, not for a seam in the middle of a side. */
static bool is_port_corner(const struct solid_port *port, struct space point) {
    struct space from = space_sub(point, port->frame.origin);
    double across = fabs(space_dot(from, port->frame.right)), up = fabs(space_dot(from, port->frame.up));
    return fabs(across - port->size.width / 2) < 1e-6 && fabs(up - port->size.height / 2) < 1e-6;
}

static void allow_joint(const struct part *part, const struct allowing *allowing, struct blank_edge *edge) {
    const struct solid_port *port = &part->solid->ports.at[edge->port];
    const struct solid_edge *from = &part->solid->panels.at[edge->panel].edges.at[edge->edge];
    enum joint_kind joint = joint_at(part->solid, edge->port, allowing);
    bool male = (edge->port > 0) == allowing->supply;
    struct end_allowance end = metal_connection(allowing->shop, joint, port->size, male);
    enum side_pair pair = pair_of(from, port);
    struct notch notch = metal_notch(&end, allowing->shop->notch);
    edge->kind = end.sides[pair].edge == EDGE_TURNED ? ALLOW_TURNED : ALLOW_END;
    edge->allowance = end.sides[pair].allowance;
    edge->turn = end_turn(&end.sides[pair]);
    edge->label = edge->allowance > 0 ? end_label(&end.sides[pair], joint) : "plain end";
    if (edge->shape != EDGE_LINE || port->size.shape != SHAPE_RECTANGULAR)
        return;
    edge->start_cut = is_port_corner(port, from->space[0]) ? notch.width[pair] : 0;
    edge->end_cut = is_port_corner(port, from->space[from->count - 1]) ? notch.width[pair] : 0;
    edge->notch_depth = fmin(notch.depth, edge->allowance);
    edge->notch_vee = notch.shape == NOTCH_VEE;
}

static void allow_port(const struct part *part, const struct allowing *allowing, struct blank_edge *edge) {
    switch (part->solid->ports.at[edge->port].use) {
    case PORT_USE_DUCT:
    case PORT_USE_BRANCH:
        allow_joint(part, allowing, edge);
        break;
    case PORT_USE_FACE:
        edge->kind = ALLOW_FACE;
        edge->allowance = metal_usual(allowing->shop, face_flange);
        edge->turn = TURN_OUT;
        edge->label = "flange for the face";
        break;
    case PORT_USE_BASE:
        edge->kind = ALLOW_TABS;
        edge->allowance = metal_usual(allowing->shop, collar_tabs);
        edge->turn = TURN_OUT;
        edge->label = "tabs";
        break;
    }
}

/* ---- Corners ----------------------------------------------------------------------------------------------------- */

/* The angle of the bend that ends at a point of the outline; 0: none does. */
static double bend_at(const struct blank *blank, struct flat point) {
    for (size_t i = 0; i < blank->bends.count; i++)
        if (flat_distance(blank->bends.at[i].from, point) <= SAME_POINT ||
            flat_distance(blank->bends.at[i].to, point) <= SAME_POINT)
            return blank->bends.at[i].angle;
    return 0;
}

/* An allowance that runs on across a bend of its sheet is cut there to fold: a vee as wide as the bend takes, 45
 * degrees on either side at a square one.  Common practice, no source. */
static double fold_cut(const struct blank_edge *edge, double bend) {
    return edge->allowance * fmin(1, tan(fmin(fabs(bend), PI / 2) / 2));
}

static bool folds(const struct blank_edge *edge) {
    return edge->allowance > 0 && edge->kind != ALLOW_END && edge->kind != ALLOW_TURNED;
}

/* By how much the outline turns in between two edges, rad. */
static double turn_in(const struct blank_edge *edge, const struct blank_edge *next) {
    struct flat way = flat_sub(edge->points[edge->count - 1], edge->points[edge->count - 2]);
    struct flat on = flat_sub(next->points[1], next->points[0]);
    return -atan2(flat_cross(way, on), flat_dot(way, on));
}

/* What is turned the other way than its sheet is bent goes apart there: a slit is enough. */
static bool goes_apart(const struct blank_edge *edge, double bend) {
    return bend > 0 ? edge->turn == TURN_OUT : edge->turn == TURN_IN;
}

/* Where the outline turns in more than the sheet is bent the allowances end where they meet, and that is enough. */
static void cut_at_bends(struct blank *blank) {
    for (size_t i = 0; i < blank->edges.count; i++) {
        struct blank_edge *edge = &blank->edges.at[i], *next = &blank->edges.at[(i + 1) % blank->edges.count];
        double bend = bend_at(blank, next->points[0]);
        if (!(fabs(bend) > fmax(0, turn_in(edge, next))) || !folds(edge) || !folds(next))
            continue;
        edge->slit = goes_apart(edge, bend) && goes_apart(next, bend);
        if (edge->slit)
            continue;
        edge->end_cut = fold_cut(edge, bend);
        next->start_cut = fold_cut(next, bend);
        edge->notch_vee = next->notch_vee = true;
        edge->notch_depth = edge->allowance;
        next->notch_depth = next->allowance;
    }
}

/* ---- The part ---------------------------------------------------------------------------------------------------- */

/* No lap is narrower. Common practice, no source. */
static const double least_lap = INCH / 8;

/* What can be declared so that an edge's allowance is no wider than `depth`; NULL: nothing. */
static const char *narrower(const struct part *part, const struct allowing *allowing, const struct blank_edge *edge,
                            double depth) {
    struct arena *arena = part->solid->arena;
    bool metric = part->solid->system == MEASURE_METRIC;
    double step = metric ? MILLIMETRE : INCH / 16, lap = floor(depth / step) * step;
    bool lapped;
    switch (edge->kind) {
    case ALLOW_END:
    case ALLOW_TURNED:
        return "joint raw";
    case ALLOW_FACE: /* its sides are at least half as wide at the mean as at the face */
        return arena_format(arena, "boot straight over %s",
                            enough_length(arena, part->solid->system, 2 * edge->allowance));
    case ALLOW_POCKET:
    case ALLOW_FLANGE:
        lapped = seam_at(part, allowing, edge->panel, edge->edge) == SEAM_LAP;
        if (!lapped && metal_seam(allowing->shop, SEAM_LAP).flange <= depth)
            return "seam lap";
        return lap < least_lap
                   ? NULL
                   : arena_format(arena, "%sin the shop: seam lap, flange %s", lapped ? "" : "seam lap, and ",
                                  measure_text(arena, part->solid->system, SHOW_CUT, lap));
    default:
        return NULL;
    }
}

/* An allowance is folded onto the panel behind it or bent up beside it: it may not be wider than the panel is deep. */
static bool fits(const struct part *part, const struct allowing *allowing, const struct blank_edge *edge,
                 const char **why) {
    const struct solid_panel *panel = &part->solid->panels.at[edge->panel];
    double depth = panel_area(panel) / blank_edge_length(edge);
    if (edge->allowance <= depth)
        return true;
    part->solid->hint = narrower(part, allowing, edge, depth);
    *why = arena_format(part->solid->arena, "the %s of its %s is wider than the %s itself", edge->label, panel->name,
                        panel->name);
    return false;
}

static void allow_edge(const struct part *part, const struct allowing *allowing, struct blank_edge *edge) {
    if (edge->join == JOIN_SEAM)
        allow_seam(part, allowing, edge);
    else if (edge->join == JOIN_PORT)
        allow_port(part, allowing, edge);
}

bool part_allow(struct part *part, const struct allowing *allowing, const char **why) {
    for (size_t b = 0; b < part->blanks.count; b++) {
        struct blank *blank = &part->blanks.at[b];
        for (size_t e = 0; e < blank->edges.count; e++) {
            allow_edge(part, allowing, &blank->edges.at[e]);
            if (!fits(part, allowing, &blank->edges.at[e], why))
                return false;
        }
        cut_at_bends(blank);
    }
    return true;
}
