/* Lofts: tubes between two sections, and collars on them. */
#include "metal/outline.h"

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
        outline_point(&loft->near, loft->from, k, true),
        outline_point(&loft->near, loft->from, k + 1, false),
        outline_point(&loft->far, loft->to, k + 1, false),
        outline_point(&loft->far, loft->to, k, true),
    };
    const struct quad_edge edges[4] = {
        outline_end(&loft->near_end),
        outline_edge(outline, k, true),
        outline_end(&loft->far_end),
        outline_edge(outline, k, false),
    };
    if (!outline->sharp && outline->seam[k])
        split_side(lofting->solid, outline_names[k], corners, edges);
    else
        solid_quad(lofting->solid, outline_names[k], corners, edges);
}

/* Radii nearer than this make a cylinder: the cone's apex would be too far to compute with, and the far edge is off by
 * no more. */
static const double same_radius = 1e-7;

static struct roll corner_roll(const struct lofting *lofting, int k, int corners) {
    const struct loft *loft = lofting->loft;
    struct space near = outline_centre(&loft->near, loft->from, k), far = outline_centre(&loft->far, loft->to, k);
    double from = loft->from.radius, to = loft->to.radius;
    bool from_far = from <= SAME_POINT;
    struct roll roll = {
        .name = loft->name,
        .arc =
            from_far ? outline_arc(&loft->far, loft->to, k, corners) : outline_arc(&loft->near, loft->from, k, corners),
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

static void loft_corner(void *what, int k, int corners, enum join from, enum join to) {
    struct lofting *lofting = what;
    struct roll roll = corner_roll(lofting, k, corners);
    outline_roll(&roll, &lofting->loft->near_end, &lofting->loft->far_end, from, to);
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
    outline_corners(&lofting.outline, &lofting, loft_corner);
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
    const struct quad_edge edges[4] = {outline_end(&collar->near_end), after, outline_end(&collar->far_end), before};
    solid_quad(collar->lofting.solid, outline_names[k], corners, edges);
}

static void collar_side(const struct collar *collar, int k) {
    static const struct quad_edge seam = {JOIN_SEAM, NO_PORT, false}, pocket = {JOIN_SEAM, NO_PORT, true};
    const struct loft *loft = collar->lofting.loft;
    const struct outline *outline = &collar->lofting.outline;
    struct quad_edge before = outline_edge(outline, k, false), after = outline_edge(outline, k, true);
    struct space a = outline_point(&loft->far, loft->to, k, true),
                 b = outline_point(&loft->far, loft->to, k + 1, false);
    if (outline->sharp || !outline->seam[k]) {
        collar_flat(collar, k, a, b, before, after);
        return;
    }
    struct space middle = space_between(a, b, 0.5);
    if (outline_closed(loft->from, k))
        middle = seam_foot(a, b, outline_point(&loft->near, loft->from, k, true));
    collar_flat(collar, k, a, middle, before, seam);
    collar_flat(collar, k, middle, b, pocket, after);
}

/* Where the loft's seam ends in a point between two corners, the collar's stands between them too. */
static enum join beside_corner(const struct collar *collar, int k, enum join join) {
    bool seam = collar->lofting.outline.seam[outline_turn(k)] && outline_closed(collar->lofting.loft->to, k);
    return seam ? JOIN_SEAM : join;
}

static void collar_corner(void *what, int k, int corners, enum join from, enum join to) {
    const struct collar *collar = what;
    const struct loft *loft = collar->lofting.loft;
    struct roll roll = {
        .name = collar->name,
        .arc = outline_arc(&loft->far, loft->to, k, corners),
        .way = loft->far.along,
        .near = {.kind = CUT_ARC},
        .far = {.kind = CUT_PLANE, .point = space_add(loft->far.origin, collar->way), .way = loft->far.along},
        .divisions = solid_divisions(collar->lofting.solid, fmax(loft->from.radius, loft->to.radius), corners * PI / 2),
    };
    if (loft->to.radius <= SAME_POINT)
        return;
    outline_roll(&roll, &collar->near_end, &collar->far_end, beside_corner(collar, k - 1, from),
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
        if (collar.lofting.outline.open[k] && !outline_closed(loft->to, k))
            collar_side(&collar, k);
    outline_corners(&collar.lofting.outline, &collar, collar_corner);
}
