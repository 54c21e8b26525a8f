/* Boxes of flat sheet with mouths: cheeks, walls, and a loft at each mouth that needs one. */
#include "metal/split_box.h"

#include "metal/shape_split.h"

/* ---- The outline ------------------------------------------------------------------------------------------------- */

static void add_corner(struct split_plan *plan, double x, double y, double half, struct plan_side side) {
    plan->corner[plan->corners] = (struct plan_corner){x, y, half};
    plan->side[plan->corners++] = side;
}

void plan_wall(struct split_plan *plan, double x, double y, double half, const char *name) {
    add_corner(plan, x, y, half, (struct plan_side){name, 0});
}

void plan_open(struct split_plan *plan, double x, double y, double half, int mouth) {
    add_corner(plan, x, y, half, (struct plan_side){NULL, mouth});
}

/* Corner 0 stays first; the others go the other way round. */
void plan_mirror(struct split_plan *plan) {
    struct split_plan from = *plan;
    int count = plan->corners;
    for (int i = 0; i < count; i++) {
        plan->corner[i] = from.corner[(count - i) % count];
        plan->corner[i].x = -plan->corner[i].x;
        plan->side[i] = from.side[count - 1 - i];
    }
}

static struct space corner_at(const struct split_plan *plan, int i, bool top) {
    const struct plan_corner *corner = &plan->corner[(i + plan->corners) % plan->corners];
    return (struct space){corner->x, corner->y, top ? corner->half : -corner->half};
}

/* From corner i to the next, in the middle plane; (0, 0) for a side of no length. */
static struct flat side_way(const struct split_plan *plan, int i) {
    const struct plan_corner *from = &plan->corner[i], *to = &plan->corner[(i + 1) % plan->corners];
    struct flat way = {to->x - from->x, to->y - from->y};
    return flat_length(way) > SAME_POINT ? flat_unit(way) : (struct flat){0, 0};
}

static double side_width(const struct split_plan *plan, int i) {
    const struct plan_corner *from = &plan->corner[i], *to = &plan->corner[(i + 1) % plan->corners];
    return hypot(to->x - from->x, to->y - from->y);
}

/* ---- Mouths ------------------------------------------------------------------------------------------------------ */

/* `along` out of the box; looking there, the side's first corner is on the right. */
static struct frame mouth_frame(const struct split_plan *plan, int side) {
    struct flat way = side_way(plan, side), out = flat_right(way);
    struct space from = corner_at(plan, side, true), to = corner_at(plan, side + 1, true);
    struct frame frame = {
        .origin = space_between(from, to, 0.5),
        .right = {-way.x, -way.y, 0},
        .along = {out.x, out.y, 0},
        .up = {0, 0, 1},
    };
    frame.origin.z = 0;
    return frame;
}

/* What stands between the box and a mouth's port. */
enum neck { NECK_NONE, NECK_SHEET, NECK_LOFT };

/* Rectangular duct of another height: the box's own sheets go on.  Else a loft, seamed to the box. */
static enum neck neck_of(const struct plan_mouth *mouth) {
    if (mouth->loft <= 0)
        return NECK_NONE;
    return mouth->to.radius > SAME_POINT ? NECK_LOFT : NECK_SHEET;
}

static struct quad_edge mouth_edge(const struct plan_mouth *mouth, enum join sheet) {
    switch (neck_of(mouth)) {
    case NECK_NONE:
        return (struct quad_edge){JOIN_PORT, mouth->port, false};
    case NECK_SHEET:
        return (struct quad_edge){sheet, NO_PORT, false};
    default:
        return (struct quad_edge){JOIN_SEAM, NO_PORT, false};
    }
}

/* Where a wall meets the sheet beside it, which goes on along `way`. */
static enum join turn_join(struct flat wall, struct flat way) {
    return fabs(flat_cross(wall, way)) < 1e-9 && flat_dot(wall, way) > 0 ? JOIN_SMOOTH : JOIN_BEND;
}

/* Of the wall or loft beside a mouth: at the mouth's first corner the wall before it, at its end the one behind it. */
static enum join beside_mouth(const struct split_plan *plan, int side, bool end) {
    struct flat out = flat_right(side_way(plan, side));
    int beside = end ? side + 1 : side - 1 + plan->corners;
    struct flat wall = side_way(plan, beside % plan->corners);
    return turn_join(end ? flat_scale(wall, -1) : wall, out);
}

/* The four sides of a mouth that leads to rectangular duct of another height. */
static void add_sheets(struct solid *solid, const struct split_plan *plan, int side) {
    static const double right[4] = {1, -1, -1, 1}, up[4] = {1, 1, -1, -1};
    static const char *const names[4] = {"top", "left side", "bottom", "right side"};
    const struct plan_mouth *mouth = &plan->mouth[plan->side[side].mouth];
    struct frame near = mouth_frame(plan, side);
    double half = plan->corner[side].half, width = side_width(plan, side);
    struct space corner[2][4];
    for (int k = 0; k < 4; k++) {
        corner[0][k] = frame_point(&near, right[k] * width / 2, 0, up[k] * half);
        corner[1][k] = frame_point(&near, right[k] * mouth->to.width / 2, mouth->loft, up[k] * mouth->to.height / 2);
    }
    for (int k = 0; k < 4; k++) {
        int n = (k + 1) % 4;
        bool wall = k % 2 == 1;
        enum join at_box = wall ? beside_mouth(plan, side, k == 1) : JOIN_BEND;
        const struct space corners[4] = {corner[0][k], corner[0][n], corner[1][n], corner[1][k]};
        const struct quad_edge seam = {JOIN_SEAM, NO_PORT, wall};
        solid_quad(solid, names[k], corners,
                   (struct quad_edge[4]){{at_box, NO_PORT, false}, seam, {JOIN_PORT, mouth->port, false}, seam});
    }
}

static struct frame backward(const struct frame *frame) {
    return (struct frame){frame->origin, space_scale(frame->right, -1), space_scale(frame->along, -1), frame->up};
}

static void add_loft(struct solid *solid, const struct split_plan *plan, int side) {
    const struct plan_mouth *mouth = &plan->mouth[plan->side[side].mouth];
    struct frame frame = mouth_frame(plan, side), far = frame_moved(&frame, 0, mouth->loft, 0);
    struct profile own = {side_width(plan, side), 2 * plan->corner[side].half, 0};
    struct tube_end port = {JOIN_PORT, mouth->port, false}, seam = {JOIN_SEAM, NO_PORT, true};
    struct loft loft = {.wrap = WRAP_ONE, .name = "corner"};
    if (mouth->inward) {
        loft.near = backward(&far), loft.from = mouth->to, loft.near_end = port;
        loft.far = backward(&frame), loft.to = own, loft.far_end = seam;
    } else {
        loft.near = frame, loft.from = own, loft.near_end = seam;
        loft.far = far, loft.to = mouth->to, loft.far_end = port;
    }
    solid_loft(solid, &loft);
}

static void add_mouth(struct solid *solid, const struct split_plan *plan, int side) {
    switch (neck_of(&plan->mouth[plan->side[side].mouth])) {
    case NECK_NONE:
        break;
    case NECK_SHEET:
        add_sheets(solid, plan, side);
        break;
    case NECK_LOFT:
        add_loft(solid, plan, side);
        break;
    }
}

static void add_ports(struct solid *solid, struct split_plan *plan) {
    for (int m = 0; m < plan->mouths; m++)
        for (int i = 0; i < plan->corners; i++) {
            struct plan_mouth *mouth = &plan->mouth[m];
            if (plan->side[i].name || plan->side[i].mouth != m)
                continue;
            struct frame frame = mouth_frame(plan, i);
            frame = frame_moved(&frame, 0, mouth->loft, 0);
            mouth->port = solid_port(solid, mouth->use, mouth->name, &frame, profile_size(mouth->to));
        }
}

/* ---- Walls and cheeks -------------------------------------------------------------------------------------------- */

/* The upright edge of wall i at its first corner, or at its end. */
static struct quad_edge upright(const struct split_plan *plan, int i, bool end) {
    int beside = (end ? i + 1 : i - 1 + plan->corners) % plan->corners;
    while (plan->side[beside].name && side_width(plan, beside) <= SAME_POINT)
        beside = (end ? beside + 1 : beside - 1 + plan->corners) % plan->corners;
    const struct plan_side *side = &plan->side[beside];
    if (!side->name)
        return mouth_edge(&plan->mouth[side->mouth], beside_mouth(plan, beside, !end));
    struct flat one = side_way(plan, end ? i : beside), other = side_way(plan, end ? beside : i);
    return (struct quad_edge){turn_join(one, other), NO_PORT, false};
}

static void add_wall(struct solid *solid, const struct split_plan *plan, int i) {
    if (side_width(plan, i) <= SAME_POINT)
        return;
    const struct space corners[4] = {corner_at(plan, i + 1, false), corner_at(plan, i, false), corner_at(plan, i, true),
                                     corner_at(plan, i + 1, true)};
    const struct quad_edge seam = {JOIN_SEAM, NO_PORT, true};
    solid_quad(solid, plan->side[i].name, corners,
               (struct quad_edge[4]){seam, upright(plan, i, false), seam, upright(plan, i, true)});
}

/* The side between two corners that follow each other either way; NO_EDGE: they do not. */
static int side_between(const struct split_plan *plan, int from, int to) {
    if (to == (from + 1) % plan->corners)
        return from;
    return from == (to + 1) % plan->corners ? to : NO_EDGE;
}

/* A loft's seam comes down the middle of the bottom: the box's edge there is parted at its foot. */
static void cheek_edge(struct plane *plane, const struct split_plan *plan, int from, int to, bool top) {
    int side = side_between(plan, from, to);
    struct space end = corner_at(plan, to, top);
    struct quad_edge edge = {JOIN_BEND, NO_PORT, false};
    if (side != NO_EDGE && plan->side[side].name)
        edge.join = JOIN_SEAM;
    else if (side != NO_EDGE) {
        const struct plan_mouth *mouth = &plan->mouth[plan->side[side].mouth];
        edge = mouth_edge(mouth, JOIN_BEND);
        if (neck_of(mouth) == NECK_LOFT && !top)
            plane_edge(plane, space_between(plane->at, end, 0.5), edge);
    }
    plane_edge(plane, end, edge);
}

static void add_cheek(struct solid *solid, const struct split_plan *plan, const struct plan_face *face, bool top) {
    int first = face->corner[0];
    struct plane plane = plane_begin(solid, top ? "top cheek" : "bottom cheek", corner_at(plan, first, top));
    for (int i = 0; i < face->count; i++) {
        int from = top ? face->count - i : i, to = top ? from - 1 : from + 1;
        cheek_edge(&plane, plan, face->corner[from % face->count], face->corner[to % face->count], top);
    }
    plane_end(&plane, JOIN_FREE, NO_PORT);
}

static void one_face(struct split_plan *plan) {
    plan->faces = 1;
    plan->face[0].count = plan->corners;
    for (int i = 0; i < plan->corners; i++)
        plan->face[0].corner[i] = i;
}

void split_box(struct solid *solid, struct split_plan *plan) {
    add_ports(solid, plan);
    if (!plan->faces)
        one_face(plan);
    for (int top = 1; top >= 0; top--)
        for (int f = 0; f < plan->faces; f++)
            add_cheek(solid, plan, &plan->face[f], top);
    for (int i = 0; i < plan->corners; i++)
        if (plan->side[i].name)
            add_wall(solid, plan, i);
        else
            add_mouth(solid, plan, i);
}
