/* Plenum boxes, caps, and blades of volume dampers. */
#include "metal/shape_box.h"

/* ---- Boxes ------------------------------------------------------------------------------------------------------- */

enum { NEAR, FAR, ENDS };
enum { TOP, LEFT, BOTTOM, RIGHT, SIDES };

/* One end on its way to its plates. */
struct box_end {
    struct profile duct;
    struct frame inward; /* `along` points into the box */
    int port;            /* NO_PORT: closed */
    bool wide, high;     /* rectangular, and as wide or as high as the box: no plate beside it */
};

struct boxing {
    struct solid *solid;
    const struct box_size *box;
    struct box_end ends[ENDS];
};

static struct box_end box_end(struct solid *solid, const struct box_size *box, struct profile duct, enum port_use use,
                              const char *name, const struct frame *inward) {
    struct box_end end = {.duct = duct, .inward = *inward, .port = NO_PORT};
    if (duct.width <= 0 || duct.height <= 0)
        return end;
    struct frame out = frame_turned(inward, PI);
    bool square = duct.radius <= SAME_POINT;
    end.port = solid_port(solid, use, name, &out, profile_size(duct));
    end.wide = square && fabs(duct.width - box->width) <= SAME_POINT;
    end.high = square && fabs(duct.height - box->height) <= SAME_POINT;
    double slack = square ? SAME_POINT : -SAME_POINT;
    if (duct.width > box->width + slack || duct.height > box->height + slack)
        solid_fault(solid, "box 24 x 24 x 24",
                    "the duct is larger than the box that it joins: the box has to be as wide and as high");
    return end;
}

/* ---- Their plates ------------------------------------------------------------------------------------------------ */

/* Beside an opening as wide or as high as the box; `open` is the edge where it is, from the left one clockwise in the end's frame. */
static void add_strip(const struct boxing *boxing, const struct box_end *end, const double right[2], const double up[2], int open) {
    const struct space corners[4] = {
        frame_point(&end->inward, right[0], 0, up[0]),
        frame_point(&end->inward, right[0], 0, up[1]),
        frame_point(&end->inward, right[1], 0, up[1]),
        frame_point(&end->inward, right[1], 0, up[0]),
    };
    struct quad_edge edges[4];
    for (int e = 0; e < 4; e++)
        edges[e] = (struct quad_edge){e == open ? JOIN_PORT : JOIN_SEAM, e == open ? end->port : NO_PORT, e != open};
    solid_quad(boxing->solid, end == &boxing->ends[NEAR] ? "near end" : "far end", corners, edges);
}

static void add_strips(const struct boxing *boxing, const struct box_end *end) {
    double right = boxing->box->width / 2, up = boxing->box->height / 2;
    double w = end->duct.width / 2, h = end->duct.height / 2;
    if (end->high) {
        add_strip(boxing, end, (double[2]){-right, -w}, (double[2]){-up, up}, 2);
        add_strip(boxing, end, (double[2]){w, right}, (double[2]){-up, up}, 0);
    } else {
        add_strip(boxing, end, (double[2]){-right, right}, (double[2]){h, up}, 3);
        add_strip(boxing, end, (double[2]){-right, right}, (double[2]){-up, -h}, 1);
    }
}

/* Its edges take the pockets of the lock all round. */
static void add_plates(const struct boxing *boxing, const struct box_end *end) {
    struct solid *solid = boxing->solid;
    if (end->wide && end->high)
        return;
    if (end->wide || end->high) {
        add_strips(boxing, end);
        return;
    }
    struct profile whole = {boxing->box->width, boxing->box->height, 0};
    int plate = solid_plate(solid, &end->inward, whole, end == &boxing->ends[NEAR] ? "near end" : "far end", JOIN_SEAM, NO_PORT);
    for (size_t e = 0; plate != NO_PANEL && e < solid->panels.at[plate].edges.count; e++)
        solid->panels.at[plate].edges.at[e].pocket = true;
    if (end->port == NO_PORT)
        return;
    size_t count;
    struct space *points = profile_points(solid, &end->inward, end->duct, &count);
    panel_opening(solid, plate, points, count, "duct");
}

/* ---- Its sides --------------------------------------------------------------------------------------------------- */

/* An end of side k, from where its loop is to `to`: a seam to the plate, but for what the duct takes of it. */
static void add_end_edge(struct plane *plane, const struct boxing *boxing, const struct box_end *end, int k, struct space to) {
    bool flat = k == TOP || k == BOTTOM, reaches = flat ? end->high : end->wide;
    double part = flat ? end->duct.width / boxing->box->width : end->duct.height / boxing->box->height;
    struct space from = plane->at;
    if (reaches) {
        plane_line(plane, space_between(from, to, (1 - part) / 2), JOIN_SEAM, NO_PORT);
        plane_line(plane, space_between(from, to, (1 + part) / 2), JOIN_PORT, end->port);
    }
    plane_line(plane, to, JOIN_SEAM, NO_PORT);
}

/* Seams at two corners opposite each other, the pocket on the narrower side. */
static void add_corner(struct plane *plane, const struct boxing *boxing, int k, int corner, struct space to) {
    bool seam = corner % 2 == 1, narrow = (k % 2 == 1) == (boxing->box->height <= boxing->box->width);
    plane_line(plane, to, seam ? JOIN_SEAM : JOIN_BEND, NO_PORT);
    if (seam && narrow)
        plane_pocket(plane);
}

static int add_side(const struct boxing *boxing, int k) {
    static const char *const names[SIDES] = {"top", "left side", "bottom", "right side"};
    static const double right[SIDES] = {0.5, -0.5, -0.5, 0.5}, up[SIDES] = {0.5, 0.5, -0.5, -0.5};
    const struct box_size *box = boxing->box;
    int next = (k + 1) % SIDES;
    struct space a = {right[k] * box->width, 0, up[k] * box->height}, b = {right[next] * box->width, 0, up[next] * box->height};
    struct space along = {0, box->length, 0};
    struct plane plane = plane_begin(boxing->solid, names[k], a);
    add_end_edge(&plane, boxing, &boxing->ends[NEAR], k, b);
    add_corner(&plane, boxing, k, next, space_add(b, along));
    add_end_edge(&plane, boxing, &boxing->ends[FAR], k, space_add(a, along));
    add_corner(&plane, boxing, k, k, a);
    return plane_end(&plane, JOIN_SEAM, NO_PORT);
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

static int side_index(enum side side) {
    return side == SIDE_LEFT ? LEFT : side == SIDE_RIGHT ? RIGHT : side == SIDE_BOTTOM ? BOTTOM : TOP;
}

static void add_opening(const struct boxing *boxing, int panel, const struct wall_opening *opening) {
    struct profile section = {boxing->box->width, boxing->box->height, 0};
    struct tapped tapped = wall_tapped(boxing->solid, opening, section);
    size_t count = tapped.count;
    const struct space *points = tapped.points;
    if (!points)
        points = profile_points(boxing->solid, &tapped.tap, tapped.section, &count);
    panel_opening(boxing->solid, panel, points, count, tapped.name);
}

void shape_box(struct solid *solid, const void *size) {
    const struct box_size *box = size;
    const struct wall_opening *openings = (const struct wall_opening *)(box + 1);
    struct frame far = frame_moved(&frame_near, 0, box->length, 0), back = frame_turned(&far, PI);
    enum port_use use = box->face > 0 ? PORT_USE_FACE : PORT_USE_DUCT;
    struct boxing boxing = {.solid = solid, .box = box};
    boxing.ends[NEAR] = box_end(solid, box, box->near, PORT_USE_DUCT, "toward the unit", &frame_near);
    boxing.ends[FAR] = box_end(solid, box, box->far, use, box->face > 0 ? "the face" : "away from the unit", &back);
    for (size_t i = 0; i < (size_t)box->openings; i++)
        check_opening(solid, box, &openings[i]);
    if (solid->fault)
        return;
    int panels[SIDES];
    for (int k = 0; k < SIDES; k++)
        panels[k] = add_side(&boxing, k);
    for (size_t i = 0; i < (size_t)box->openings; i++)
        add_opening(&boxing, panels[side_index((enum side)openings[i].side)], &openings[i]);
    add_plates(&boxing, &boxing.ends[NEAR]);
    add_plates(&boxing, &boxing.ends[FAR]);
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

/* The duct lies at y < 0.  Each side's rim on its own bend; the corners between them are notched. */
static void add_bent(struct solid *solid, struct profile duct) {
    static const double right[] = {0.5, 0.5, -0.5, -0.5}, up[] = {-0.5, 0.5, 0.5, -0.5};
    struct space corner[4], edge[4];
    for (int k = 0; k < 4; k++) {
        corner[k] = frame_point(&frame_near, right[k] * duct.width, 0, up[k] * duct.height);
        edge[k] = space_add(corner[k], (struct space){0, -rim, 0});
    }
    static const struct quad_edge bend = {JOIN_BEND, NO_PORT, false}, free = {JOIN_FREE, NO_PORT, false};
    solid_quad(solid, "cap", corner, (struct quad_edge[4]){bend, bend, bend, bend});
    for (int k = 0; k < 4; k++) {
        int next = (k + 1) % 4;
        const struct space side[4] = {corner[next], corner[k], edge[k], edge[next]};
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
