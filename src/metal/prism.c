/* Prisms: a section pushed along a line, cut at each end, with openings for what is tapped into it. */
#include "metal/outline.h"

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
    struct space a = outline_point(&prism->frame, prism->section, k, true);
    struct space b = outline_point(&prism->frame, prism->section, k + 1, false), near_point, far_point;
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
    struct space a = outline_point(&prism->frame, prism->section, k, true);
    struct space b = outline_point(&prism->frame, prism->section, k + 1, false);
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
    for (size_t i = 0; i < line->count; i++)
        points[i] = line->points[back ? line->count - 1 - i : i];
    if (line->count == 2) {
        plane_edge(plane, points[1], (struct quad_edge){end->join, end->port, end->pocket});
    } else {
        plane_curve(plane, points, line->count, end->join, end->port);
        if (end->pocket)
            plane_pocket(plane);
    }
    for (size_t i = 0; i + 1 < line->count; i++)
        plane->panel.chord_error = fmax(plane->panel.chord_error, line->chord_error[i]);
}

/* Flat side k, or a half of it, from `near`'s first point on. */
static int flat_part(const struct pushing *pushing, int k, struct side_line near, struct side_line far,
                     struct quad_edge before, struct quad_edge after) {
    struct plane plane = plane_begin(pushing->solid, outline_names[k], near.points[0]);
    add_end(&plane, &near, false, &pushing->prism->near_end);
    plane_edge(&plane, far.points[far.count - 1], after);
    add_end(&plane, &far, true, &pushing->prism->far_end);
    plane_edge(&plane, near.points[0], before);
    return plane_end(&plane, JOIN_FREE, NO_PORT);
}

/* In two, with a seam between. */
static void split_flat(const struct pushing *pushing, int k, struct side_line near, struct side_line far) {
    static const struct quad_edge seam = {JOIN_SEAM, NO_PORT, false}, pocket = {JOIN_SEAM, NO_PORT, true};
    flat_part(pushing, k, half_line(near, false), half_line(far, false), outline_edge(&pushing->outline, k, false),
              seam);
    flat_part(pushing, k, half_line(near, true), half_line(far, true), pocket,
              outline_edge(&pushing->outline, k, true));
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
            .kind = CUT_PLANE, .point = outline_point(&prism->frame, prism->section, k, true), .way = out};
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
    int panel = flat_part(pushing, k, near, far, outline_edge(&pushing->outline, k, false),
                          outline_edge(&pushing->outline, k, true));
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
        .arc = outline_arc(&prism->frame, prism->section, k, corners),
        .way = prism->frame.along,
        .near = prism->near,
        .far = prism->far,
        .divisions = push_divisions(pushing, corners),
    };
    struct space near, far;
    for (int quarter = k; quarter <= k + corners; quarter++)
        push_point(pushing, outline_point(&prism->frame, prism->section, quarter, false), &near, &far);
    outline_roll(&roll, &prism->near_end, &prism->far_end, from, to);
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
    outline_corners(&outline, &pushing, push_corner);
}

void solid_prism(struct solid *solid, const struct prism *prism) {
    solid_tapped_prism(solid, prism, NULL, 0);
}
