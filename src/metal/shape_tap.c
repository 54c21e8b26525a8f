/* Taps: the collars that join a run to the wall of another, and the openings that they need there. */
#include "metal/shape_tap_wall.h"

/* The plate of a saddle lies so far round its opening: common practice, no source. */
static const double plate_margin = 1 * INCH;

/* Spreads by less than this are none: a cone's apex would be too far to compute with. */
static const double no_spread = 1e-6;

void tap_lengths(struct tap_size *tap) {
    static const double straight = 4 * INCH, spin = 2.5 * INCH, cone = 4 * INCH, collar = 2 * INCH;
    enum tap_style style = (enum tap_style)tap->style;
    bool spreads = style == TAP_SHOE || style == TAP_CONICAL;
    tap->collar = spreads ? collar : 0;
    tap->length = style == TAP_SHOE      ? tap->base.upstream
                  : style == TAP_CONICAL ? cone
                  : style == TAP_SPIN    ? spin
                                         : straight;
    tap->length += tap->collar;
}

/* A straight tap does where the run itself is no wider than the wall; else only a flat wall takes it. */
static const char *wide_hint(const struct tap_size *tap) {
    return tap_run_wise(tap).width / 2 + fabs(tap->aside) <= tap->wall / 2 + SAME_POINT ? "tap straight"
                                                                                        : "shape rectangular";
}

/* ---- Straight collars -------------------------------------------------------------------------------------------- */

enum { BASE, FAR };
static const struct tube_end base_end = {JOIN_PORT, BASE, false}, far_end = {JOIN_PORT, FAR, false};
static const struct tube_end seam_end = {JOIN_SEAM, NO_PORT, false};

/* The quarter turns that bring the seam to the side away from the unit, where a collar on a round wall is shortest; of
 * an oval collar to a flat side, whichever way that lies. */
static double seam_turns(const struct tap_size *tap) {
    enum shape shape = profile_size(tap->run).shape;
    int away = (int)floor(tap->toward / (PI / 2) + 0.5) + 1,
        usual = 2 + (tap->run.height > tap->run.width + SAME_POINT);
    int turns = (away - usual + 8) % 4;
    return shape == SHAPE_ROUND || (shape == SHAPE_OVAL && turns % 2 == 0) ? turns : 0;
}

static void add_straight(struct solid *solid, const struct tap_size *tap) {
    struct frame far = frame_moved(&frame_near, 0, tap->length, 0);
    struct prism prism = {
        .frame = far,
        .section = tap->run,
        .near = tap_wall_cut(tap),
        .far = {.kind = CUT_PLANE, .point = far.origin, .way = far.along},
        .wrap = WRAP_ONE,
        .seam = seam_turns(tap),
        .near_end = base_end,
        .far_end = far_end,
        .name = "collar",
    };
    solid_prism(solid, &prism);
}

/* ---- Shoes and cones of rectangular runs: four sides ------------------------------------------------------------- */

enum { TOWARD, LEFT, AWAY, RIGHT, TAP_SIDES };

struct flared {
    struct solid *solid;
    const struct tap_size *tap;
    struct cut wall;
    struct space base[TAP_SIDES], shoulder[TAP_SIDES], far[TAP_SIDES]; /* corner k begins side k */
    double grows[TAP_SIDES];                                           /* by how much side k leans out */
};

/* A corner leads straight to the far end when neither side there leans. */
static bool corner_bends(const struct flared *flared, int k) {
    return flared->grows[k % TAP_SIDES] > no_spread || flared->grows[(k + TAP_SIDES - 1) % TAP_SIDES] > no_spread;
}

/* Evenly round the wall. */
static double even_share(const struct flared *flared, int k, double share) {
    struct space a = flared->base[k], b = flared->base[(k + 1) % TAP_SIDES];
    return space_distance(a, cut_between(&flared->wall, a, b, frame_near.along, share)) / space_distance(a, b);
}

/* Where side k meets the wall, at a share of the way from its first corner. */
static struct space on_wall(const struct flared *flared, int k, double share) {
    int next = (k + 1) % TAP_SIDES;
    int end = share < 1 ? k : next;
    struct space base = flared->base[end], shoulder = flared->shoulder[end], point = base;
    if (share > 0 && share < 1) {
        share = even_share(flared, k, share);
        base = space_between(flared->base[k], flared->base[next], share);
        shoulder = space_between(flared->shoulder[k], flared->shoulder[next], share);
    }
    if (!cut_meets(&flared->wall, shoulder, space_unit(space_sub(base, shoulder)), &point))
        solid_fault(flared->solid, wide_hint(flared->tap),
                    "the tap is wider at its base than the round duct that it sits on");
    return point;
}

/* The first edge of side k, on the wall: a line, or across a round wall a curve. */
static struct plane begin_side(const struct flared *flared, int k, const char *name) {
    double radius = flared->wall.radius;
    struct plane plane = plane_begin(flared->solid, name, on_wall(flared, k, 0));
    if (radius <= 0 || k == LEFT || k == RIGHT) {
        plane_line(&plane, on_wall(flared, k, 1), JOIN_PORT, BASE);
        return plane;
    }
    double sweep = cut_sweep(&flared->wall, flared->base[k], flared->base[(k + 1) % TAP_SIDES], frame_near.along);
    size_t parts = solid_divisions(flared->solid, radius, sweep);
    struct space *points = ARENA_ARRAY(flared->solid->arena, struct space, parts + 1);
    for (size_t i = 0; i <= parts; i++)
        points[i] = on_wall(flared, k, (double)i / (double)parts);
    for (size_t i = 0; i < parts; i++) {
        struct space middle = on_wall(flared, k, ((double)i + 0.5) / (double)parts);
        plane.panel.chord_error = fmax(plane.panel.chord_error, space_off_line(points[i], points[i + 1], middle));
    }
    plane_curve(&plane, points, parts + 1, JOIN_PORT, BASE);
    return plane;
}

static void seam_to(struct plane *plane, struct space to, bool pocket) {
    plane_edge(plane, to, (struct quad_edge){JOIN_SEAM, NO_PORT, pocket});
}

/* The narrow strips, toward the unit and away from it, take the pockets: SOURCE_PITTSBURGH. */
static void add_side(const struct flared *flared, int k, const char *name) {
    int next = (k + 1) % TAP_SIDES;
    bool pocket = k == TOWARD || k == AWAY, leans = flared->grows[k] > no_spread && flared->tap->collar > 0;
    struct plane plane = begin_side(flared, k, name);
    struct space first = plane.first;
    if (leans) {
        seam_to(&plane, flared->shoulder[next], pocket);
        plane_line(&plane, flared->shoulder[k], JOIN_BEND, NO_PORT);
        seam_to(&plane, first, pocket);
        plane_end(&plane, JOIN_SEAM, NO_PORT);
        plane = plane_begin(flared->solid, name, flared->shoulder[k]);
        plane_line(&plane, flared->shoulder[next], JOIN_BEND, NO_PORT);
    } else if (corner_bends(flared, next)) {
        seam_to(&plane, flared->shoulder[next], pocket);
    }
    seam_to(&plane, flared->far[next], pocket);
    plane_line(&plane, flared->far[k], JOIN_PORT, FAR);
    if (leans || corner_bends(flared, k))
        seam_to(&plane, flared->shoulder[k], pocket);
    if (!leans)
        seam_to(&plane, first, pocket);
    plane_end(&plane, JOIN_SEAM, NO_PORT);
}

static void add_flared(struct solid *solid, const struct tap_size *tap) {
    static const double right[TAP_SIDES] = {0.5, -0.5, -0.5, 0.5}, up[TAP_SIDES] = {0.5, 0.5, -0.5, -0.5};
    static const char *const shoe[TAP_SIDES] = {"throat", "cheek", "heel", "cheek"};
    static const char *const cone[TAP_SIDES] = {"side toward the unit", "side", "side away from the unit", "side"};
    struct flared flared = {.solid = solid, .tap = tap, .wall = tap_wall_cut(tap)};
    struct frame wise = tap_parent_wise(tap), base = tap_base_frame(tap);
    struct profile run = tap_run_wise(tap), wide = tap_spread(run, tap->base);
    for (int k = 0; k < TAP_SIDES; k++) {
        flared.base[k] = frame_point(&base, right[k] * wide.width, 0, up[k] * wide.height);
        flared.shoulder[k] = frame_point(&wise, right[k] * run.width, tap->length - tap->collar, up[k] * run.height);
        flared.far[k] = frame_point(&wise, right[k] * run.width, tap->length, up[k] * run.height);
    }
    flared.grows[TOWARD] = tap->base.upstream;
    flared.grows[AWAY] = tap->base.downstream;
    flared.grows[LEFT] = flared.grows[RIGHT] = tap->base.across / 2;
    on_wall(&flared, TOWARD, 0);
    for (int k = 0; k < TAP_SIDES && !solid->fault; k++)
        add_side(&flared, k, (tap->style == TAP_SHOE ? shoe : cone)[k]);
}

/* ---- Cones and shoes of round and oval runs ---------------------------------------------------------------------- */

/* Of a round run that spreads alike all round: the cone goes down to the wall, flat or round. */
static void add_cone(struct solid *solid, const struct tap_size *tap) {
    struct frame wise = tap_parent_wise(tap), shoulder = frame_moved(&wise, 0, tap->length - tap->collar, 0);
    double radius = tap->run.radius, grows = tap->base.across / 2,
           height = tap->length - tap->collar + tap_base_depth(tap);
    struct roll roll = {
        .name = "cone",
        .arc = {shoulder.origin, wise.right, wise.up, radius, -PI / 2, 3 * PI / 2},
        .cone = true,
        .apex = frame_point(&shoulder, 0, radius * height / grows, 0),
        .near = tap_wall_cut(tap),
        .far = {.kind = CUT_ARC},
        .divisions = 4 * solid_divisions(solid, radius + grows, PI / 2),
        .near_join = JOIN_PORT,
        .near_port = BASE,
        .far_join = tap->collar > 0 ? JOIN_SEAM : JOIN_PORT,
        .far_port = FAR,
        .from_join = JOIN_SEAM,
        .to_join = JOIN_SEAM,
        .from_pocket = true,
    };
    solid_roll(solid, &roll);
    if (tap->collar <= 0)
        return;
    roll.name = "collar";
    roll.cone = false;
    roll.way = wise.along;
    roll.near = (struct cut){.kind = CUT_ARC};
    roll.far = (struct cut){.kind = CUT_PLANE, .point = frame_point(&wise, 0, tap->length, 0), .way = wise.along};
    roll.near_join = JOIN_SEAM;
    roll.far_join = JOIN_PORT;
    solid_roll(solid, &roll);
}

/* On a flat wall, from its base to the run, and a collar on it. */
static void add_loft(struct solid *solid, const struct tap_size *tap) {
    struct frame wise = tap_parent_wise(tap);
    struct loft loft = {
        .near = tap_base_frame(tap),
        .far = frame_moved(&wise, 0, tap->length - tap->collar, 0),
        .from = tap_spread(tap_run_wise(tap), tap->base),
        .to = tap_run_wise(tap),
        .wrap = WRAP_ONE,
        .near_end = base_end,
        .far_end = tap->collar > 0 ? seam_end : far_end,
        .name = tap->style == TAP_SHOE ? "shoe" : "cone",
    };
    if (tap->style == TAP_SHOE)
        loft.from.radius = 0;
    solid_loft(solid, &loft);
    if (tap->collar > 0 && !solid->fault)
        solid_loft_collar(solid, &loft, tap->collar, "collar", &far_end);
}

static bool spreads_alike(const struct tap_size *tap) {
    double each = tap->base.across / 2;
    return tap->style == TAP_CONICAL && profile_size(tap->run).shape == SHAPE_ROUND &&
           fabs(tap->base.upstream - each) <= no_spread && fabs(tap->base.downstream - each) <= no_spread;
}

static void add_spreading(struct solid *solid, const struct tap_size *tap) {
    if (tap->run.radius <= SAME_POINT)
        add_flared(solid, tap);
    else if (spreads_alike(tap))
        add_cone(solid, tap);
    else if (tap->wall > 0)
        solid_fault(solid, "tap straight", "a %s tap of this run sits on a flat wall only, and the duct there is round",
                    tap->style == TAP_SHOE ? "shoe" : "conical");
    else
        add_loft(solid, tap);
}

/* ---- The border of the base -------------------------------------------------------------------------------------- */

static bool is_base(const struct solid_edge *edge) {
    return edge->join == JOIN_PORT && edge->port == BASE;
}

static const struct solid_edge *base_edge_from(const struct solid *solid, const struct space *at) {
    for (size_t p = 0; p < solid->panels.count; p++)
        for (size_t e = 0; e < solid->panels.at[p].edges.count; e++) {
            const struct solid_edge *edge = &solid->panels.at[p].edges.at[e];
            if (is_base(edge) && (!at || space_distance(edge->space[0], *at) <= SAME_POINT))
                return edge;
        }
    return NULL;
}

static size_t base_edges(const struct solid *solid) {
    size_t count = 0;
    for (size_t p = 0; p < solid->panels.count; p++)
        for (size_t e = 0; e < solid->panels.at[p].edges.count; e++)
            count += is_base(&solid->panels.at[p].edges.at[e]);
    return count;
}

struct space *tap_base_border(struct solid *solid, struct arena *arena, size_t *count) {
    LIST(struct space) points = {0};
    const struct solid_edge *edge = base_edge_from(solid, NULL);
    struct space first = edge ? edge->space[0] : (struct space){0, 0, 0};
    for (size_t left = base_edges(solid); edge && left > 0; left--) {
        for (size_t i = 0; i + 1 < edge->count; i++)
            *list_add(arena, &points) = edge->space[i];
        struct space last = edge->space[edge->count - 1];
        if (space_distance(last, first) <= SAME_POINT) {
            *count = points.count;
            return points.at;
        }
        edge = base_edge_from(solid, &last);
    }
    solid_fault(solid, NULL, "the border of the tap's base is no closed line");
    *count = 0;
    return NULL;
}

/* ---- The plate of a saddle --------------------------------------------------------------------------------------- */

static void add_flat_plate(struct solid *solid, const struct tap_size *tap, const struct space *points, size_t count) {
    struct frame wise = tap_parent_wise(tap);
    /* In the wall itself; seen from inside the parent. */
    struct frame on = {
        .right = space_scale(wise.right, -1),
        .along = space_scale(wise.along, -1),
        .up = wise.up,
    };
    struct profile run = tap_run_wise(tap);
    struct profile plate = {run.width + 2 * plate_margin, run.height + 2 * plate_margin, 0};
    int panel = solid_plate(solid, &on, plate, "plate", JOIN_FREE, NO_PORT);
    panel_opening(solid, panel, points, count, NULL);
}

/* Rolled to the parent's wall. */
static void add_round_plate(struct solid *solid, const struct tap_size *tap, const struct space *points, size_t count) {
    struct cut wall = tap_wall_cut(tap);
    struct frame wise = tap_parent_wise(tap);
    struct space up = space_cross(wise.right, wall.way);
    struct profile run = tap_run_wise(tap);
    double left = tap->aside - run.width / 2, reach = tap->aside + run.width / 2, half = run.height / 2 + plate_margin;
    double from = acos(fmin(reach / wall.radius, 1)), to = acos(fmax(left / wall.radius, -1));
    double margin = plate_margin / wall.radius;
    struct roll roll = {
        .name = "plate",
        .arc = {space_add(wall.point, space_scale(wall.way, -half)), wise.right, up, wall.radius, from - margin,
                to + margin},
        .way = wall.way,
        .near = {.kind = CUT_ARC},
        .far = {.kind = CUT_PLANE, .point = space_add(wall.point, space_scale(wall.way, half)), .way = wall.way},
        .divisions = solid_divisions(solid, wall.radius, to - from + 2 * margin),
        .near_join = JOIN_FREE,
        .far_join = JOIN_FREE,
        .from_join = JOIN_FREE,
        .to_join = JOIN_FREE,
    };
    if (to - from + 2 * margin > 2 * PI) {
        solid_fault(solid, "tap straight",
                    "the plate of the saddle would go more than once round the duct that it sits on");
        return;
    }
    int panel = solid_roll(solid, &roll);
    roll_opening(solid, panel, &roll, points, count, frame_near.along, NULL);
    if (to - from + 2 * margin > PI)
        solid_note(solid, "The plate goes more than half round the duct: spring it open to put it on.");
}

static void add_plate(struct solid *solid, const struct tap_size *tap) {
    size_t count;
    const struct space *points = tap_base_border(solid, solid->arena, &count);
    if (!points)
        return;
    if (tap->wall > 0)
        add_round_plate(solid, tap, points, count);
    else
        add_flat_plate(solid, tap, points, count);
    solid_note(solid, "The plate lies on the outside of the duct; the collar's tabs hold it from the inside.");
}

/* ---- The tap ----------------------------------------------------------------------------------------------------- */

/* Beyond it the end at the wall is a sliver, four times as long as the tap is wide.  Common practice, no source. */
static const double greatest_lean = 75 * DEGREE;

static bool can_be(struct solid *solid, const struct tap_size *tap) {
    enum tap_style style = (enum tap_style)tap->style;
    struct profile run = tap_run_wise(tap);
    bool round = profile_size(tap->run).shape == SHAPE_ROUND;
    double reach = (run.width + (style == TAP_CONICAL ? tap->base.across : 0)) / 2 + fabs(tap->aside);
    if (tap->wall > 0 && reach > tap->wall / 2 + SAME_POINT)
        solid_fault(solid, wide_hint(tap), "the tap is wider at its base than the round duct that it sits on");
    else if (style == TAP_SPIN && !round)
        solid_fault(solid, "tap straight", "a spin collar is round, and the run behind it is not");
    else if (style == TAP_SPIN && tap->wall > 0)
        solid_fault(solid, "tap saddle", "a spin collar sits on a flat wall, and the duct there is round");
    else if (tap->lean != 0 && style != TAP_STRAIGHT)
        solid_fault(solid, "tap straight", "only a straight tap leans: others stand square to the wall they sit on");
    else if (fabs(tap->lean) > greatest_lean)
        solid_fault(solid, "tap straight", "the tap leans by more than %.0f degrees", greatest_lean / DEGREE);
    else if (tap->length - tap->collar <= SAME_POINT)
        solid_fault(solid, NULL, "the tap has no length");
    return !solid->fault;
}

static void add_ports(struct solid *solid, const struct tap_size *tap) {
    struct frame base = tap_base_frame(tap), far = frame_moved(&frame_near, 0, tap->length, 0);
    struct frame out = {base.origin, {-1, 0, 0}, {0, -1, 0}, {0, 0, 1}};
    solid_port(solid, PORT_USE_BASE, "onto the wall", &out, profile_size(tap_base_section(tap)));
    solid_port(solid, PORT_USE_DUCT, "away from the unit", &far, profile_size(tap->run));
}

void shape_tap(struct solid *solid, const void *size) {
    const struct tap_size *tap = size;
    enum tap_style style = (enum tap_style)tap->style;
    bool spreads = tap->base.across > no_spread || tap->base.upstream > no_spread || tap->base.downstream > no_spread;
    add_ports(solid, tap);
    if (!can_be(solid, tap))
        return;
    if ((style == TAP_SHOE || style == TAP_CONICAL) && spreads)
        add_spreading(solid, tap);
    else
        add_straight(solid, tap);
    if (style == TAP_SADDLE && !solid->fault)
        add_plate(solid, tap);
}
