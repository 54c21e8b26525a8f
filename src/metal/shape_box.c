/* Plenum boxes, caps, and blades of volume dampers. */
#include "metal/shape_box.h"

/* ---- Boxes ------------------------------------------------------------------------------------------------------- */

static bool is_closed(struct profile end) {
    return end.width <= 0 || end.height <= 0;
}

static bool is_whole(const struct box_size *box, struct profile end) {
    return end.radius <= SAME_POINT && fabs(end.width - box->width) <= SAME_POINT &&
           fabs(end.height - box->height) <= SAME_POINT;
}

/* Its plate or port; the frame's `along` points into the box. */
static struct tube_end box_end(struct solid *solid, const struct box_size *box, struct profile end, enum port_use use,
                               const char *name, const struct frame *inward) {
    static const struct tube_end plate = {JOIN_SEAM, NO_PORT, false};
    struct frame out = frame_turned(inward, PI);
    if (is_closed(end))
        return plate;
    if (end.width > box->width + SAME_POINT || end.height > box->height + SAME_POINT)
        solid_fault(solid, "box 24 x 24 x 24", "the duct is larger than the box that it joins: the box has to be as wide and as high");
    int port = solid_port(solid, use, name, &out, profile_size(end));
    return is_whole(box, end) ? (struct tube_end){JOIN_PORT, port, false} : plate;
}

/* Its edges take the pockets of the lock all round. */
static void add_plate(struct solid *solid, const struct box_size *box, struct profile end, const struct frame *inward,
                      const char *name) {
    struct profile whole = {box->width, box->height, 0};
    int plate = solid_plate(solid, inward, whole, name, JOIN_SEAM, NO_PORT);
    for (size_t e = 0; plate != NO_PANEL && e < solid->panels.at[plate].edges.count; e++)
        solid->panels.at[plate].edges.at[e].pocket = true;
    if (is_closed(end))
        return;
    size_t count;
    struct space *points = profile_points(solid, inward, end, &count);
    panel_opening(solid, plate, points, count, "duct");
}

/* Taps stand within the box's sides: else the opening would be cut off. */
static void check_opening(struct solid *solid, const struct box_size *box, const struct wall_opening *opening) {
    enum side side = (enum side)opening->side;
    bool flat = side == SIDE_TOP || side == SIDE_BOTTOM;
    double across = flat ? opening->section.width : opening->section.height;
    double along = flat ? opening->section.height : opening->section.width;
    if (across > (flat ? box->width : box->height) + SAME_POINT)
        solid_fault(solid, "box 24 x 24 x 36", "an opening is wider than the side of the box that it is cut into");
    if (opening->station - along / 2 < -SAME_POINT || opening->station + along / 2 > box->length + SAME_POINT)
        solid_fault(solid, "box 24 x 24 x 36", "an opening reaches over the end of the box that it is cut into");
}

void shape_box(struct solid *solid, const void *size) {
    const struct box_size *box = size;
    const struct wall_opening *openings = (const struct wall_opening *)(box + 1);
    size_t count = (size_t)box->openings;
    struct profile section = {box->width, box->height, 0};
    struct frame end = frame_moved(&frame_near, 0, box->length, 0), back = frame_turned(&end, PI);
    struct tapped *taps = ARENA_ARRAY(solid->arena, struct tapped, count + 1);
    for (size_t i = 0; i < count; i++) {
        check_opening(solid, box, &openings[i]);
        taps[i] = wall_tapped(solid, &openings[i], section);
    }
    struct prism prism = {
        .frame = frame_near,
        .section = section,
        .near = {.kind = CUT_ARC},
        .far = {.kind = CUT_PLANE, .point = end.origin, .way = end.along},
        .wrap = WRAP_HALVES,
        .name = "wrap",
    };
    enum port_use far_use = box->face > 0 ? PORT_USE_FACE : PORT_USE_DUCT;
    prism.near_end = box_end(solid, box, box->near, PORT_USE_DUCT, "toward the unit", &frame_near);
    prism.far_end = box_end(solid, box, box->far, far_use, box->face > 0 ? "the face" : "away from the unit", &back);
    if (solid->fault)
        return;
    solid_tapped_prism(solid, &prism, taps, count);
    if (prism.near_end.join == JOIN_SEAM)
        add_plate(solid, box, box->near, &frame_near, "near end");
    if (prism.far_end.join == JOIN_SEAM)
        add_plate(solid, box, box->far, &back, "far end");
}

/* ---- Caps -------------------------------------------------------------------------------------------------------- */

static const double rim = 1 * INCH;

double cap_rim(void) {
    return rim;
}

/* A round rim is stretched, not bent: the blank is larger by it all round, and is turned over a stake or in a burring machine. */
static void add_turned(struct solid *solid, struct profile duct) {
    struct profile blank = {duct.width + 2 * rim, duct.height + 2 * rim, duct.radius + rim};
    struct frame inward = frame_turned(&frame_near, PI);
    solid_plate(solid, &inward, blank, "cap", JOIN_FREE, NO_PORT);
    solid_note(solid, "Scribe a line 1 in inside the edge and turn the rim there, toward the duct.");
}

/* Each side's rim on its own bend; the corners between them are notched. */
static void add_bent(struct solid *solid, struct profile duct) {
    static const double right[] = {0.5, 0.5, -0.5, -0.5}, up[] = {-0.5, 0.5, 0.5, -0.5};
    struct space corner[4], edge[4];
    for (int k = 0; k < 4; k++) {
        corner[k] = frame_point(&frame_near, right[k] * duct.width, 0, up[k] * duct.height);
        edge[k] = space_add(corner[k], (struct space){0, -rim, 0});
    }
    /* The duct lies at y < 0: seen from there, right is left. */
    const struct space plate[4] = {corner[3], corner[2], corner[1], corner[0]};
    static const struct quad_edge bend = {JOIN_BEND, NO_PORT, false}, free = {JOIN_FREE, NO_PORT, false};
    solid_quad(solid, "cap", plate, (struct quad_edge[4]){bend, bend, bend, bend});
    for (int k = 0; k < 4; k++) {
        int next = (k + 1) % 4;
        const struct space side[4] = {corner[k], corner[next], edge[next], edge[k]};
        solid_quad(solid, "rim", side, (struct quad_edge[4]){bend, free, free, free});
    }
    solid_note(solid, "The rim is bent toward the duct and goes over it.");
}

void shape_cap(struct solid *solid, const void *size) {
    const struct profile *duct = size;
    struct frame out = frame_turned(&frame_near, PI);
    solid_port(solid, PORT_USE_BASE, "over the duct", &out, profile_size(*duct));
    if (duct->radius > SAME_POINT)
        add_turned(solid, *duct);
    else
        add_bent(solid, *duct);
}

/* ---- Blades ------------------------------------------------------------------------------------------------------ */

void shape_blade(struct solid *solid, const void *size) {
    static const double clearance = 0.25 * INCH;
    const struct profile *duct = size;
    struct profile blade = {duct->width - clearance, duct->height - clearance, fmax(duct->radius - clearance / 2, 0)};
    if (blade.width <= SAME_POINT || blade.height <= SAME_POINT) {
        solid_fault(solid, "size 4 round", "the duct is too small for a damper's blade");
        return;
    }
    solid_plate(solid, &frame_near, blade, "blade", JOIN_FREE, NO_PORT);
    solid_note(solid, "Clamp the blade to a rod across its middle, along its longer side; the rod goes through both sides of the duct, "
                      "with a quadrant that locks it outside.");
}
