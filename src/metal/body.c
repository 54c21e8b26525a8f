/* Tubes: lofts between two sections, and prisms. */
#include "metal/body.h"

#include <assert.h>

struct profile profile_of(struct duct_size size) {
    struct profile section = {size.width, size.height, 0};
    if (size.shape != SHAPE_RECTANGULAR)
        section.radius = fmin(size.width, size.height) / 2;
    return section;
}

struct duct_size profile_size(struct profile section) {
    struct duct_size size = {SHAPE_RECTANGULAR, section.width, section.height};
    if (section.radius > SAME_POINT)
        size.shape = fabs(section.width - section.height) <= SAME_POINT ? SHAPE_ROUND : SHAPE_OVAL;
    return size;
}

/* ---- The border of a section ------------------------------------------------------------------------------------- */

/* Corner k is the arc from k to k + 1 quarter turns, anticlockwise from the right; side k leads from corner k to the
 * next. */
enum { SIDE_TOP_OF, SIDE_LEFT_OF, SIDE_BOTTOM_OF, SIDE_RIGHT_OF, SIDES };

static const char *const side_names[SIDES] = {"top", "left side", "bottom", "right side"};

static int turn(int k) {
    return ((k % SIDES) + SIDES) % SIDES;
}

static struct space corner_centre(const struct frame *frame, struct profile section, int k) {
    double right = section.width / 2 - section.radius, up = section.height / 2 - section.radius;
    k = turn(k);
    return frame_point(frame, k == 0 || k == 3 ? right : -right, 0, k < 2 ? up : -up);
}

/* Where corner k begins, and with `end` where it ends: the ends of its sides. */
static struct space corner_point(const struct frame *frame, struct profile section, int k, bool end) {
    static const double cosine[SIDES] = {1, 0, -1, 0}, sine[SIDES] = {0, 1, 0, -1};
    int at = turn(end ? k + 1 : k);
    struct space out = frame_way(frame, cosine[at] * section.radius, 0, sine[at] * section.radius);
    return space_add(corner_centre(frame, section, k), out);
}

static struct arc corner_arc(const struct frame *frame, struct profile section, int k, int corners) {
    return (struct arc){
        .centre = corner_centre(frame, section, k),
        .u = frame->right,
        .v = frame->up,
        .radius = section.radius,
        .from = k * PI / 2,
        .to = (k + corners) * PI / 2,
    };
}

/* Whether side k has no length. */
static bool side_closed(struct profile section, int k) {
    bool across = turn(k) == SIDE_TOP_OF || turn(k) == SIDE_BOTTOM_OF;
    return (across ? section.width : section.height) - 2 * section.radius <= SAME_POINT;
}

static double side_length(struct profile section, int k) {
    bool across = turn(k) == SIDE_TOP_OF || turn(k) == SIDE_BOTTOM_OF;
    return across ? section.width : section.height;
}

/* ---- What a tube is made of: flat sides, and corners between them; corners with no side between are one ---------- */

struct outline {
    struct profile from, to;
    bool sharp;          /* rectangular at both ends: its corners are lines */
    bool open[SIDES];    /* there is a flat side k */
    bool seam[SIDES];    /* sharp: at corner k; else in the middle of side k, or, all round, where side k would be */
    bool round;          /* no flat side at all */
    bool pockets_across; /* four sides of straight duct: on the top and bottom */
};

static struct outline outline_of(struct profile from, struct profile to, enum wrap wrap, double moved) {
    struct outline outline = {.from = from, .to = to, .round = true};
    outline.sharp = from.radius <= SAME_POINT && to.radius <= SAME_POINT;
    for (int k = 0; k < SIDES; k++) {
        outline.open[k] = !side_closed(from, k) || !side_closed(to, k);
        outline.round = outline.round && !outline.open[k];
    }
    /* The lower right corner, or the bottom; where there is no flat bottom, the right side. */
    int first = outline.sharp ? 3 : SIDE_BOTTOM_OF;
    if (!outline.sharp && !outline.round && !outline.open[first])
        first = SIDE_RIGHT_OF;
    first = turn(first + (int)moved);
    if (!outline.sharp && !outline.round &&
        !outline.open[first]) /* an oval has two flat sides: the seam goes into one */
        first = turn(first + 1);
    outline.seam[first] = true;
    if (wrap != WRAP_ONE)
        outline.seam[turn(first + 2)] = true;
    if (wrap == WRAP_SIDES && outline.sharp)
        outline.seam[turn(first + 1)] = outline.seam[turn(first + 3)] = true;
    return outline;
}

/* The pocket of a seam at corner k, between side k - 1 and side k, stands on the narrower side; between equal ones on
 * the left or right (common practice: the pocket goes on the narrow strip).  Straight duct of four sides has its
 * pockets on the top and bottom. */
static bool pocket_before(const struct outline *outline, int k) {
    if (outline->pockets_across)
        return turn(k - 1) == SIDE_TOP_OF || turn(k - 1) == SIDE_BOTTOM_OF;
    double before = side_length(outline->from, k - 1), behind = side_length(outline->from, k);
    if (fabs(before - behind) > SAME_POINT)
        return before < behind;
    return turn(k - 1) == SIDE_LEFT_OF || turn(k - 1) == SIDE_RIGHT_OF;
}

/* What the tube's lengthwise edge is at the end of side k where its anticlockwise neighbour begins (`after`), or at its
 * beginning. */
static struct quad_edge side_edge(const struct outline *outline, int k, bool after) {
    if (!outline->sharp)
        return (struct quad_edge){JOIN_SMOOTH, NO_PORT, false};
    int corner = after ? k + 1 : k;
    bool seam = outline->seam[turn(corner)];
    bool pocket = seam && pocket_before(outline, corner) == after;
    return (struct quad_edge){seam ? JOIN_SEAM : JOIN_BEND, NO_PORT, pocket};
}

static struct quad_edge end_edge(const struct tube_end *end) {
    return (struct quad_edge){end->join, end->port, end->pocket};
}

/* Corners from `k` on that have no side between them: 1 to 4. */
static int corners_from(const struct outline *outline, int k) {
    int corners = 1;
    while (corners < SIDES && !outline->open[turn(k + corners - 1)])
        corners++;
    return corners;
}

/* Calls `add` for each run of corners that is rolled as one: those between two flat sides, or, all round, between two
 * seams. */
static void each_corner(const struct outline *outline, void *what,
                        void (*add)(void *what, int k, int corners, enum join from, enum join to)) {
    if (outline->sharp)
        return;
    for (int k = 0; k < SIDES; k++) {
        bool begins = outline->round ? outline->seam[turn(k - 1)] : outline->open[turn(k - 1)];
        if (!begins)
            continue;
        int corners = 1;
        enum join join = outline->round ? JOIN_SEAM : JOIN_SMOOTH;
        if (outline->round)
            while (!outline->seam[turn(k + corners - 1)])
                corners++;
        else
            corners = corners_from(outline, k);
        add(what, k, corners, join, join);
    }
}

/* ---- Lofts ------------------------------------------------------------------------------------------------------- */

struct lofting {
    struct solid *solid;
    const struct loft *loft;
    struct outline outline;
};

/* Where the seam in a flat side stands: opposite the point of a triangle, else in the middle. */
static struct space seam_foot(struct space a, struct space b, struct space point) {
    struct space way = space_sub(b, a);
    double square = space_dot(way, way), share = square > 0 ? space_dot(space_sub(point, a), way) / square : 0.5;
    return space_between(a, b, share > 0.02 && share < 0.98 ? share : 0.5);
}

static void split_side(struct solid *solid, const char *name, const struct space c[4], const struct quad_edge e[4]) {
    static const struct quad_edge seam = {JOIN_SEAM, NO_PORT, false}, pocket = {JOIN_SEAM, NO_PORT, true};
    struct space near = space_between(c[0], c[1], 0.5), far = space_between(c[3], c[2], 0.5);
    if (space_distance(c[2], c[3]) <= SAME_POINT)
        near = seam_foot(c[0], c[1], c[2]);
    else if (space_distance(c[0], c[1]) <= SAME_POINT)
        far = seam_foot(c[3], c[2], c[0]);
    struct space one[4] = {c[0], near, far, c[3]}, other[4] = {near, c[1], c[2], far};
    solid_quad(solid, name, one, (struct quad_edge[4]){e[0], seam, e[2], e[3]});
    solid_quad(solid, name, other, (struct quad_edge[4]){e[0], e[1], e[2], pocket});
}

static void loft_side(struct lofting *lofting, int k) {
    const struct loft *loft = lofting->loft;
    const struct outline *outline = &lofting->outline;
    const struct space corners[4] = {
        corner_point(&loft->near, loft->from, k, true),
        corner_point(&loft->near, loft->from, k + 1, false),
        corner_point(&loft->far, loft->to, k + 1, false),
        corner_point(&loft->far, loft->to, k, true),
    };
    const struct quad_edge edges[4] = {
        end_edge(&loft->near_end),
        side_edge(outline, k, true),
        end_edge(&loft->far_end),
        side_edge(outline, k, false),
    };
    if (!outline->sharp && outline->seam[k])
        split_side(lofting->solid, side_names[k], corners, edges);
    else
        solid_quad(lofting->solid, side_names[k], corners, edges);
}

/* Radii nearer than this make a cylinder: the cone's apex would be too far to compute with, and the far edge is off by
 * no more. */
static const double same_radius = 1e-7;

static struct roll corner_roll(const struct lofting *lofting, int k, int corners) {
    const struct loft *loft = lofting->loft;
    struct space near = corner_centre(&loft->near, loft->from, k), far = corner_centre(&loft->far, loft->to, k);
    double from = loft->from.radius, to = loft->to.radius;
    bool from_far = from <= SAME_POINT;
    struct roll roll = {
        .name = loft->name,
        .arc =
            from_far ? corner_arc(&loft->far, loft->to, k, corners) : corner_arc(&loft->near, loft->from, k, corners),
        .cone = fabs(from - to) > same_radius,
        .near = {.kind = from_far ? CUT_APEX : CUT_ARC},
        .far = {.kind = CUT_PLANE, .point = loft->far.origin, .way = loft->far.along},
        .divisions = solid_divisions(lofting->solid, fmax(from, to), corners * PI / 2),
    };
    if (roll.cone)
        roll.apex = space_add(near, space_scale(space_sub(far, near), from / (from - to)));
    else
        roll.way = space_unit(space_sub(far, near));
    if (from_far)
        roll.far.kind = CUT_ARC;
    else if (to <= SAME_POINT)
        roll.far.kind = CUT_APEX;
    return roll;
}

static void take_ends(struct roll *roll, const struct tube_end *near, const struct tube_end *far, enum join from,
                      enum join to) {
    roll->near_join = near->join;
    roll->near_port = near->port;
    roll->near_pocket = near->pocket;
    roll->far_join = far->join;
    roll->far_port = far->port;
    roll->far_pocket = far->pocket;
    roll->from_join = from;
    roll->to_join = to;
    roll->from_pocket = from == JOIN_SEAM;
}

static void loft_corner(void *what, int k, int corners, enum join from, enum join to) {
    struct lofting *lofting = what;
    struct roll roll = corner_roll(lofting, k, corners);
    take_ends(&roll, &lofting->loft->near_end, &lofting->loft->far_end, from, to);
    solid_roll(lofting->solid, &roll);
}

void solid_loft(struct solid *solid, const struct loft *loft) {
    struct lofting lofting = {solid, loft, outline_of(loft->from, loft->to, loft->wrap, 0)};
    if (space_dot(space_sub(loft->far.origin, loft->near.origin), loft->near.along) <= SAME_POINT) {
        solid_fault(solid, NULL, "the %s has no length", loft->name);
        return;
    }
    for (int k = 0; k < SIDES; k++)
        if (lofting.outline.open[k])
            loft_side(&lofting, k);
    each_corner(&lofting.outline, &lofting, loft_corner);
}

/* ---- Collars on lofts -------------------------------------------------------------------------------------------- */

struct collar {
    struct lofting lofting;
    const char *name;
    struct space way; /* along it, as long as it is */
    struct tube_end near_end, far_end;
};

/* The part of a flat side between two points of the loft's far end. */
static void collar_flat(const struct collar *collar, int k, struct space a, struct space b, struct quad_edge before,
                        struct quad_edge after) {
    const struct space corners[4] = {a, b, space_add(b, collar->way), space_add(a, collar->way)};
    const struct quad_edge edges[4] = {end_edge(&collar->near_end), after, end_edge(&collar->far_end), before};
    solid_quad(collar->lofting.solid, side_names[k], corners, edges);
}

static void collar_side(const struct collar *collar, int k) {
    static const struct quad_edge seam = {JOIN_SEAM, NO_PORT, false}, pocket = {JOIN_SEAM, NO_PORT, true};
    const struct loft *loft = collar->lofting.loft;
    const struct outline *outline = &collar->lofting.outline;
    struct quad_edge before = side_edge(outline, k, false), after = side_edge(outline, k, true);
    struct space a = corner_point(&loft->far, loft->to, k, true), b = corner_point(&loft->far, loft->to, k + 1, false);
    if (outline->sharp || !outline->seam[k]) {
        collar_flat(collar, k, a, b, before, after);
        return;
    }
    struct space middle = space_between(a, b, 0.5);
    if (side_closed(loft->from, k))
        middle = seam_foot(a, b, corner_point(&loft->near, loft->from, k, true));
    collar_flat(collar, k, a, middle, before, seam);
    collar_flat(collar, k, middle, b, pocket, after);
}

/* Where the loft's seam ends in a point between two corners, the collar's stands between them too. */
static enum join beside_corner(const struct collar *collar, int k, enum join join) {
    bool seam = collar->lofting.outline.seam[turn(k)] && side_closed(collar->lofting.loft->to, k);
    return seam ? JOIN_SEAM : join;
}

static void collar_corner(void *what, int k, int corners, enum join from, enum join to) {
    const struct collar *collar = what;
    const struct loft *loft = collar->lofting.loft;
    struct roll roll = {
        .name = collar->name,
        .arc = corner_arc(&loft->far, loft->to, k, corners),
        .way = loft->far.along,
        .near = {.kind = CUT_ARC},
        .far = {.kind = CUT_PLANE, .point = space_add(loft->far.origin, collar->way), .way = loft->far.along},
        .divisions = solid_divisions(collar->lofting.solid, fmax(loft->from.radius, loft->to.radius), corners * PI / 2),
    };
    if (loft->to.radius <= SAME_POINT)
        return;
    take_ends(&roll, &collar->near_end, &collar->far_end, beside_corner(collar, k - 1, from),
              beside_corner(collar, k + corners - 1, to));
    solid_roll(collar->lofting.solid, &roll);
}

void solid_loft_collar(struct solid *solid, const struct loft *loft, double length, const char *name,
                       const struct tube_end *end) {
    struct collar collar = {
        .lofting = {solid, loft, outline_of(loft->from, loft->to, loft->wrap, 0)},
        .name = name,
        .way = space_scale(loft->far.along, length),
        .near_end = {JOIN_SEAM, NO_PORT, false},
        .far_end = *end,
    };
    for (int k = 0; k < SIDES; k++)
        if (collar.lofting.outline.open[k] && !side_closed(loft->to, k))
            collar_side(&collar, k);
    each_corner(&collar.lofting.outline, &collar, collar_corner);
}

/* ---- Prisms ------------------------------------------------------------------------------------------------------ */

struct pushing {
    struct solid *solid;
    const struct prism *prism;
    struct outline outline;
    const struct tapped *taps;
    size_t tap_count;
};

/* Both ends of the line through a point of the section; a fault when it has none or they lie the wrong way round. */
static void push_point(const struct pushing *pushing, struct space base, struct space *near, struct space *far) {
    const struct prism *prism = pushing->prism;
    struct space along = prism->frame.along;
    *near = *far = base;
    if (!cut_meets(&prism->near, base, along, near) || !cut_meets(&prism->far, base, along, far))
        solid_fault(pushing->solid, NULL, "the %s misses what it is cut by", prism->name);
    else if (space_dot(space_sub(*far, *near), along) < -SAME_POINT)
        solid_fault(pushing->solid, NULL, "the %s is too short: its two ends cross", prism->name);
}

/* An end of a flat side, in the order of its line: two points at a plane, more at a cylinder. */
struct side_line {
    struct space *points;
    size_t count;
    double *chord_error; /* m, from each point to the next */
};

/* A side along the cylinder is cut off straight. */
static bool is_curved(const struct cut *cut, struct space a, struct space b) {
    return cut->kind == CUT_CYLINDER && fabs(space_dot(space_unit(space_sub(b, a)), cut->way)) < 1 - 1e-12;
}

static struct space side_point(const struct pushing *pushing, int k, bool far, double share) {
    const struct prism *prism = pushing->prism;
    struct space a = corner_point(&prism->frame, prism->section, k, true);
    struct space b = corner_point(&prism->frame, prism->section, k + 1, false), near_point, far_point;
    const struct cut *cut = far ? &prism->far : &prism->near;
    struct space base =
        is_curved(cut, a, b) ? cut_between(cut, a, b, prism->frame.along, share) : space_between(a, b, share);
    push_point(pushing, base, &near_point, &far_point);
    return far ? far_point : near_point;
}

static bool has_seam(const struct pushing *pushing, int k) {
    return !pushing->outline.sharp && pushing->outline.seam[k];
}

/* With a seam in its middle the side has a point there. */
static size_t side_parts(const struct pushing *pushing, int k, const struct cut *cut) {
    const struct prism *prism = pushing->prism;
    struct space a = corner_point(&prism->frame, prism->section, k, true);
    struct space b = corner_point(&prism->frame, prism->section, k + 1, false);
    size_t parts = 1;
    if (is_curved(cut, a, b))
        parts = solid_divisions(pushing->solid, cut->radius, cut_sweep(cut, a, b, prism->frame.along));
    return has_seam(pushing, k) ? (parts + 1) / 2 * 2 : parts;
}

static struct side_line side_end(const struct pushing *pushing, int k, bool far) {
    size_t parts = side_parts(pushing, k, far ? &pushing->prism->far : &pushing->prism->near);
    struct arena *arena = pushing->solid->arena;
    struct side_line line = {ARENA_ARRAY(arena, struct space, parts + 1), parts + 1, ARENA_ARRAY(arena, double, parts)};
    line.points[0] = side_point(pushing, k, far, 0);
    for (size_t i = 1; i <= parts; i++) {
        line.points[i] = side_point(pushing, k, far, (double)i / (double)parts);
        struct space middle = side_point(pushing, k, far, ((double)i - 0.5) / (double)parts);
        struct space chord = space_sub(line.points[i], line.points[i - 1]), off = space_sub(middle, line.points[i - 1]);
        double length = space_length(chord);
        line.chord_error[i - 1] = length > 0 ? space_length(space_cross(chord, off)) / length : 0;
    }
    return line;
}

/* One half of it, to or from its middle. */
static struct side_line half_line(struct side_line line, bool second) {
    size_t middle = line.count / 2, from = second ? middle : 0;
    return (struct side_line){line.points + from, middle + 1, line.chord_error + from};
}

/* Along the line, or back. */
static void add_end(struct plane *plane, const struct side_line *line, bool back, const struct tube_end *end) {
    struct space *points = ARENA_ARRAY(plane->solid->arena, struct space, line->count);
    size_t before = plane->panel.edges.count;
    for (size_t i = 0; i < line->count; i++)
        points[i] = line->points[back ? line->count - 1 - i : i];
    if (line->count == 2)
        plane_line(plane, points[1], end->join, end->port);
    else
        plane_curve(plane, points, line->count, end->join, end->port);
    if (end->pocket && plane->panel.edges.count > before)
        plane_pocket(plane);
    for (size_t i = 0; i + 1 < line->count; i++)
        plane->panel.chord_error = fmax(plane->panel.chord_error, line->chord_error[i]);
}

static void add_length(struct plane *plane, struct space to, struct quad_edge edge) {
    size_t before = plane->panel.edges.count;
    plane_line(plane, to, edge.join, edge.port);
    if (edge.pocket && plane->panel.edges.count > before)
        plane_pocket(plane);
}

/* Flat side k, or a half of it, from `near`'s first point on. */
static int flat_part(const struct pushing *pushing, int k, struct side_line near, struct side_line far,
                     struct quad_edge before, struct quad_edge after) {
    struct plane plane = plane_begin(pushing->solid, side_names[k], near.points[0]);
    add_end(&plane, &near, false, &pushing->prism->near_end);
    add_length(&plane, far.points[far.count - 1], after);
    add_end(&plane, &far, true, &pushing->prism->far_end);
    add_length(&plane, near.points[0], before);
    return plane_end(&plane, JOIN_FREE, NO_PORT);
}

/* In two, with a seam between. */
static void split_flat(const struct pushing *pushing, int k, struct side_line near, struct side_line far) {
    static const struct quad_edge seam = {JOIN_SEAM, NO_PORT, false}, pocket = {JOIN_SEAM, NO_PORT, true};
    flat_part(pushing, k, half_line(near, false), half_line(far, false), side_edge(&pushing->outline, k, false), seam);
    flat_part(pushing, k, half_line(near, true), half_line(far, true), pocket, side_edge(&pushing->outline, k, true));
}

static struct space side_out(const struct frame *frame, int k) {
    static const double right[SIDES] = {0, -1, 0, 1}, up[SIDES] = {1, 0, -1, 0};
    return frame_way(frame, right[k], 0, up[k]);
}

static bool leaves_by_side(const struct prism *prism, const struct tapped *tap, int k) {
    return space_dot(tap->tap.along, side_out(&prism->frame, k)) > 0.5;
}

/* The border of a tap's opening, in the arena. */
static struct space *tap_points(const struct pushing *pushing, const struct tapped *tap, size_t *count) {
    if (!tap->points)
        return profile_points(pushing->solid, &tap->tap, tap->section, count);
    struct space *points = ARENA_ARRAY(pushing->solid->arena, struct space, tap->count);
    for (size_t i = 0; i < tap->count; i++)
        points[i] = tap->points[i];
    *count = tap->count;
    return points;
}

/* Openings in a flat side: the tap's section, moved along its own line onto the side's plane. */
static void open_side(const struct pushing *pushing, int panel, int k) {
    const struct prism *prism = pushing->prism;
    struct space out = side_out(&prism->frame, k);
    for (size_t i = 0; i < pushing->tap_count && panel != NO_PANEL; i++) {
        const struct tapped *tap = &pushing->taps[i];
        if (!leaves_by_side(prism, tap, k))
            continue;
        size_t count;
        struct space *points = tap_points(pushing, tap, &count);
        struct cut wall = {
            .kind = CUT_PLANE, .point = corner_point(&prism->frame, prism->section, k, true), .way = out};
        for (size_t p = 0; p < count; p++)
            cut_meets(&wall, points[p], tap->tap.along, &points[p]);
        panel_opening(pushing->solid, panel, points, count, tap->name);
    }
}

static void push_side(const struct pushing *pushing, int k) {
    struct side_line near = side_end(pushing, k, false), far = side_end(pushing, k, true);
    if (pushing->solid->fault)
        return;
    if (has_seam(pushing, k)) {
        split_flat(pushing, k, near, far);
        for (size_t i = 0; i < pushing->tap_count; i++)
            if (leaves_by_side(pushing->prism, &pushing->taps[i], k))
                solid_fault(pushing->solid, NULL, "an opening lies across the seam of the %s", pushing->prism->name);
        return;
    }
    int panel =
        flat_part(pushing, k, near, far, side_edge(&pushing->outline, k, false), side_edge(&pushing->outline, k, true));
    open_side(pushing, panel, k);
}

/* Whether the tap leaves through the corners from k on; straight up from where they begin or end a flat side has it. */
static bool leaves_by(const struct pushing *pushing, const struct tapped *tap, int k, int corners) {
    const struct prism *prism = pushing->prism;
    double slack = pushing->outline.round ? 1e-9 : -1e-9;
    double right = space_dot(tap->tap.along, prism->frame.right), up = space_dot(tap->tap.along, prism->frame.up);
    double t = atan2(up, right), from = k * PI / 2;
    t -= floor((t - from + slack) / (2 * PI)) * 2 * PI;
    return t <= from + corners * PI / 2 + slack;
}

/* Where a tube as wide as the cylinder that cuts it touches it, its end has a corner: each quarter ends in a ruling. */
static size_t push_divisions(const struct pushing *pushing, int corners) {
    const struct prism *prism = pushing->prism;
    if (prism->near.kind != CUT_CYLINDER && prism->far.kind != CUT_CYLINDER)
        return solid_divisions(pushing->solid, prism->section.radius, corners * PI / 2);
    return (size_t)corners * solid_divisions(pushing->solid, prism->section.radius, PI / 2);
}

static void push_corner(void *what, int k, int corners, enum join from, enum join to) {
    struct pushing *pushing = what;
    const struct prism *prism = pushing->prism;
    struct roll roll = {
        .name = prism->name,
        .arc = corner_arc(&prism->frame, prism->section, k, corners),
        .way = prism->frame.along,
        .near = prism->near,
        .far = prism->far,
        .divisions = push_divisions(pushing, corners),
    };
    struct space near, far;
    for (int quarter = k; quarter <= k + corners; quarter++)
        push_point(pushing, corner_point(&prism->frame, prism->section, quarter, false), &near, &far);
    take_ends(&roll, &prism->near_end, &prism->far_end, from, to);
    int panel = solid_roll(pushing->solid, &roll);
    for (size_t i = 0; i < pushing->tap_count; i++) {
        const struct tapped *tap = &pushing->taps[i];
        if (!leaves_by(pushing, tap, k, corners))
            continue;
        size_t count;
        const struct space *points = tap_points(pushing, tap, &count);
        roll_opening(pushing->solid, panel, &roll, points, count, tap->tap.along, tap->name);
    }
}

void solid_tapped_prism(struct solid *solid, const struct prism *prism, const struct tapped *taps, size_t count) {
    struct outline outline = outline_of(prism->section, prism->section, prism->wrap, prism->seam);
    outline.pockets_across = prism->wrap == WRAP_SIDES;
    struct pushing pushing = {solid, prism, outline, taps, count};
    for (int k = 0; k < SIDES; k++)
        if (outline.open[k])
            push_side(&pushing, k);
    each_corner(&outline, &pushing, push_corner);
}

void solid_prism(struct solid *solid, const struct prism *prism) {
    solid_tapped_prism(solid, prism, NULL, 0);
}

/* ---- Plates and borders ------------------------------------------------------------------------------------------ */

/* Back along side k. The usual tube is one blank with its seam in the middle of the bottom or, without a flat bottom,
 * of its own right side, which from where a plate is seen is the left: the plate's border is parted there like the
 * tube's. */
static void plate_side(struct plane *plane, const struct frame *frame, struct profile section, int k, enum join join,
                       int port) {
    struct space to = corner_point(frame, section, k, true);
    int seam = side_closed(section, SIDE_BOTTOM_OF) ? SIDE_LEFT_OF : SIDE_BOTTOM_OF;
    if (join == JOIN_SEAM && section.radius > SAME_POINT && k == seam)
        plane_line(plane, space_between(plane->at, to, 0.5), join, port);
    plane_line(plane, to, join, port);
}

/* Clockwise in the frame: anticlockwise for who looks from where `along` points. */
int solid_plate(struct solid *solid, const struct frame *frame, struct profile section, const char *name,
                enum join join, int port) {
    struct outline outline = outline_of(section, section, WRAP_ONE, 0);
    int start = outline.round ? 3 : 0, done = 0;
    while (!outline.round && !outline.open[turn(start - 1)])
        start++;
    struct plane plane = plane_begin(solid, name, corner_point(frame, section, start - 1, true));
    while (done < SIDES) {
        /* Backward: the corners before this point, then the side before them. */
        int corners = 1;
        while (done + corners < SIDES && !outline.open[turn(start - done - corners - 1)])
            corners++;
        int first = start - done - corners;
        if (section.radius > SAME_POINT)
            plane_arc(&plane, corner_centre(frame, section, first), frame->along, corners * PI / 2, join, port);
        if (outline.open[turn(first - 1)])
            plate_side(&plane, frame, section, turn(first - 1), join, port);
        done += corners;
    }
    return plane_end(&plane, join, port);
}

struct space *profile_points(const struct solid *solid, const struct frame *frame, struct profile section,
                             size_t *count) {
    size_t parts = section.radius > SAME_POINT ? solid_divisions(solid, section.radius, PI / 2) : 0;
    struct space *points = ARENA_ARRAY(solid->arena, struct space, SIDES * (parts + 1));
    size_t made = 0;
    for (int k = 0; k < SIDES; k++) {
        struct arc arc = corner_arc(frame, section, k, 1);
        bool side = !side_closed(section, k);
        for (size_t i = 0; i < parts + (side || !parts); i++) {
            double t = arc.from + (arc.to - arc.from) * (double)i / (double)(parts ? parts : 1);
            points[made++] = space_add(arc.centre, space_add(space_scale(arc.u, arc.radius * cos(t)),
                                                             space_scale(arc.v, arc.radius * sin(t))));
        }
    }
    *count = made;
    return points;
}
