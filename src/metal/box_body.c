/* Boxes of flat sheet: four sides round a line, and at each end a plate, strips beside an opening, or nothing. */
#include "metal/box_body.h"

struct box_end box_end_of(struct solid *solid, const struct box_body *box, int end, struct profile duct,
                          enum port_use use, const char *name, const char *hint) {
    static const char *const plates[BOX_ENDS] = {"near end", "far end"};
    struct frame far = frame_moved(&box->frame, 0, box->length, 0);
    struct box_end at = {.duct = duct, .inward = box->frame, .port = NO_PORT, .plate = plates[end], .opening = "duct"};
    if (end == BOX_FAR)
        at.inward = frame_turned(&far, PI);
    if (duct.width <= 0 || duct.height <= 0)
        return at;
    struct frame out = frame_turned(&at.inward, PI);
    bool square = duct.radius <= SAME_POINT;
    double slack = square ? SAME_POINT : -SAME_POINT;
    if (duct.width > box->width + slack || duct.height > box->height + slack)
        solid_fault(solid, hint,
                    "the duct is larger than the box that it joins: the box has to be as wide and as high");
    at.port = solid_port(solid, use, name, &out, profile_size(duct));
    at.wide = square && fabs(duct.width - box->width) <= SAME_POINT;
    at.high = square && fabs(duct.height - box->height) <= SAME_POINT;
    return at;
}

/* ---- Their plates ------------------------------------------------------------------------------------------------ */

/* Beside an opening as wide or as high as the box; `open` is the edge where it is, from the left one clockwise in the
 * end's frame. */
static void add_strip(struct solid *solid, const struct box_end *end, const double right[2], const double up[2],
                      int open) {
    const struct space corners[4] = {
        frame_point(&end->inward, right[0], 0, up[0]),
        frame_point(&end->inward, right[0], 0, up[1]),
        frame_point(&end->inward, right[1], 0, up[1]),
        frame_point(&end->inward, right[1], 0, up[0]),
    };
    struct quad_edge edges[4];
    for (int e = 0; e < 4; e++)
        edges[e] = (struct quad_edge){e == open ? JOIN_PORT : JOIN_SEAM, e == open ? end->port : NO_PORT, e != open};
    solid_quad(solid, end->plate, corners, edges);
}

static void add_strips(struct solid *solid, const struct box_body *box, const struct box_end *end) {
    double right = box->width / 2, up = box->height / 2;
    double w = end->duct.width / 2, h = end->duct.height / 2;
    if (end->high) {
        add_strip(solid, end, (double[2]){-right, -w}, (double[2]){-up, up}, 2);
        add_strip(solid, end, (double[2]){w, right}, (double[2]){-up, up}, 0);
    } else {
        add_strip(solid, end, (double[2]){-right, right}, (double[2]){h, up}, 3);
        add_strip(solid, end, (double[2]){-right, right}, (double[2]){-up, -h}, 1);
    }
}

/* Its edges take the pockets of the lock all round. */
static void add_plates(struct solid *solid, const struct box_body *box, const struct box_end *end) {
    if (end->wide && end->high)
        return;
    if (end->wide || end->high) {
        add_strips(solid, box, end);
        return;
    }
    struct profile whole = {box->width, box->height, 0};
    int plate = solid_plate(solid, &end->inward, whole, end->plate, JOIN_SEAM, NO_PORT);
    for (size_t e = 0; plate != NO_PANEL && e < solid->panels.at[plate].edges.count; e++)
        solid->panels.at[plate].edges.at[e].pocket = true;
    if (end->port == NO_PORT)
        return;
    size_t count;
    struct space *points = profile_points(solid, &end->inward, end->duct, &count);
    panel_opening(solid, plate, points, count, end->opening);
}

/* ---- Its sides --------------------------------------------------------------------------------------------------- */

/* An end of side k, from where its loop is to `to`: a seam to the plate, but for what the duct takes of it. */
static void add_end_edge(struct plane *plane, const struct box_body *box, const struct box_end *end, int k,
                         struct space to) {
    bool flat = k == BOX_TOP || k == BOX_BOTTOM, reaches = flat ? end->high : end->wide;
    double part = flat ? end->duct.width / box->width : end->duct.height / box->height;
    struct space from = plane->at;
    if (reaches) {
        plane_line(plane, space_between(from, to, (1 - part) / 2), JOIN_SEAM, NO_PORT);
        plane_line(plane, space_between(from, to, (1 + part) / 2), JOIN_PORT, end->port);
    }
    plane_line(plane, to, JOIN_SEAM, NO_PORT);
}

/* Seams at two corners opposite each other, the pocket on the narrower side. */
static void add_corner(struct plane *plane, const struct box_body *box, int k, int corner, struct space to) {
    bool seam = corner % 2 == 1, narrow = (k % 2 == 1) == (box->height <= box->width);
    plane_edge(plane, to, (struct quad_edge){seam ? JOIN_SEAM : JOIN_BEND, NO_PORT, seam && narrow});
}

static int add_side(struct solid *solid, const struct box_body *box, int k) {
    static const double right[BOX_SIDES] = {0.5, -0.5, -0.5, 0.5}, up[BOX_SIDES] = {0.5, 0.5, -0.5, -0.5};
    int next = (k + 1) % BOX_SIDES;
    struct space a = frame_point(&box->frame, right[k] * box->width, 0, up[k] * box->height);
    struct space b = frame_point(&box->frame, right[next] * box->width, 0, up[next] * box->height);
    struct space along = frame_way(&box->frame, 0, box->length, 0);
    struct plane plane = plane_begin(solid, box->sides[k], a);
    add_end_edge(&plane, box, &box->ends[BOX_NEAR], k, b);
    add_corner(&plane, box, k, next, space_add(b, along));
    add_end_edge(&plane, box, &box->ends[BOX_FAR], k, space_add(a, along));
    add_corner(&plane, box, k, k, a);
    return plane_end(&plane, JOIN_SEAM, NO_PORT);
}

void solid_box(struct solid *solid, const struct box_body *box, int panels[BOX_SIDES]) {
    for (int k = 0; k < BOX_SIDES; k++)
        panels[k] = add_side(solid, box, k);
    add_plates(solid, box, &box->ends[BOX_NEAR]);
    add_plates(solid, box, &box->ends[BOX_FAR]);
}
