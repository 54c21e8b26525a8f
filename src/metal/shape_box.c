/* Plenum boxes, caps, and blades of volume dampers. */
#include "metal/shape_box.h"

#include "metal/box_body.h"

/* ---- Boxes ------------------------------------------------------------------------------------------------------- */

static int side_index(enum side side) {
    return side == SIDE_LEFT ? BOX_LEFT : side == SIDE_RIGHT ? BOX_RIGHT : side == SIDE_BOTTOM ? BOX_BOTTOM : BOX_TOP;
}

static void add_opening(struct solid *solid, const struct box_size *box, int panel,
                        const struct wall_opening *opening) {
    struct tapped tapped = wall_tapped(solid, opening, (struct profile){box->width, box->height, 0});
    size_t count = tapped.count;
    const struct space *points = tapped.points;
    if (!points)
        points = profile_points(solid, &tapped.tap, tapped.section, &count);
    panel_opening(solid, panel, points, count, tapped.name);
}

bool box_takes(const struct box_size *box, const struct wall_opening *opening) {
    struct straight_shape duct = {.section = {SHAPE_RECTANGULAR, box->width, box->height}, .length = box->length};
    return straight_takes(&duct, opening);
}

/* Large enough for the ducts at both ends.  A round or oval one keeps some plate round it. */
static const char *box_hint(const struct solid *solid, const struct box_size *box) {
    static const double plate = 1 * INCH; /* room for the collar's flange: common practice, no source */
    struct arena *arena = solid->arena;
    double beside[] = {box->near.radius > SAME_POINT ? 2 * plate : 0, box->far.radius > SAME_POINT ? 2 * plate : 0};
    double sides[] = {fmax(box->width, fmax(box->near.width + beside[0], box->far.width + beside[1])),
                      fmax(box->height, fmax(box->near.height + beside[0], box->far.height + beside[1])), box->length};
    const char *figures[3];
    for (int i = 0; i < 3; i++)
        figures[i] = measure_figure(arena, solid->system, SHOW_SIZE, enough_whole(solid->system, sides[i]));
    return arena_format(arena, "box %s x %s x %s %s", figures[0], figures[1], figures[2],
                        measure_show(solid->system, SHOW_SIZE)->unit);
}

void shape_box(struct solid *solid, const void *size) {
    static const char *const sides[BOX_SIDES] = {"top", "left side", "bottom", "right side"};
    const struct box_size *box = size;
    const struct wall_opening *openings = (const struct wall_opening *)(box + 1);
    struct box_body body = {frame_near, box->width, box->height, box->length, {{.port = NO_PORT}}, sides};
    bool face = box->face > 0;
    const char *hint = box_hint(solid, box);
    body.ends[BOX_NEAR] = box_end_of(solid, &body, BOX_NEAR, box->near, PORT_USE_DUCT, "toward the unit", hint);
    body.ends[BOX_FAR] = box_end_of(solid, &body, BOX_FAR, box->far, face ? PORT_USE_FACE : PORT_USE_DUCT,
                                    face ? "the face" : "away from the unit", hint);
    for (size_t i = 0; i < (size_t)box->openings; i++)
        if (!box_takes(box, &openings[i]))
            solid_fault(solid, NULL, "an opening is larger than the side of the box that it is cut into");
    if (solid->fault)
        return;
    int panels[BOX_SIDES];
    solid_box(solid, &body, panels);
    for (size_t i = 0; i < (size_t)box->openings; i++)
        add_opening(solid, box, panels[side_index((enum side)openings[i].side)], &openings[i]);
}

/* ---- Caps -------------------------------------------------------------------------------------------------------- */

/* Common practice, no source. */
static const double rim = 1 * INCH, slip = INCH / 16; /* what it is larger on each side, to go over the duct */

double cap_slip(void) {
    return slip;
}

double cap_rim(void) {
    return rim;
}

/* A round rim is stretched, not bent: the blank is larger by it all round, and is turned over a stake or in a burring
 * machine. */
static void add_turned(struct solid *solid, struct profile duct) {
    struct profile blank = {duct.width + 2 * rim, duct.height + 2 * rim, duct.radius + rim};
    struct frame inward = frame_turned(&frame_near, PI);
    solid_plate(solid, &inward, blank, "cap", JOIN_FREE, NO_PORT);
    solid_note(solid, "Scribe a line %s inside the edge and turn the rim there, toward the duct.",
               measure_text(solid->arena, solid->system, SHOW_CUT, rim));
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
    struct profile over = {duct->width + 2 * slip, duct->height + 2 * slip,
                           duct->radius > SAME_POINT ? duct->radius + slip : 0};
    struct frame out = frame_turned(&frame_near, PI);
    solid_port(solid, PORT_USE_BASE, "over the duct", &out, profile_size(*duct));
    if (over.radius > SAME_POINT)
        add_turned(solid, over);
    else
        add_bent(solid, over);
    solid_note(solid, "It is %s larger than the duct on every side, to slip over it.",
               measure_text(solid->arena, solid->system, SHOW_CUT, slip));
}

/* ---- Blades ------------------------------------------------------------------------------------------------------ */

/* Common practice, no source: bolts a quarter inch thick through blade and rod, 1-1/2 in from its ends and a foot apart
 * at most; a bead on either side of the rod, half way to the edge, which a small blade does without. */
static void note_blade(struct solid *solid, struct profile blade) {
    static const double margin = 1.5 * INCH, apart = 12 * INCH, stiff = 6 * INCH;
    double along = fmax(blade.width, blade.height), across = fmin(blade.width, blade.height);
    double spaces = fmax(1, ceil((along - 2 * margin) / apart - 1e-9));
    const char *line = measure_text(solid->arena, solid->system, SHOW_CUT, across / 2);
    const char *bead = measure_text(solid->arena, solid->system, SHOW_CUT, across / 4);
    solid_note(
        solid,
        "Scribe the rod's centre line along the longer side, %s from its edges, and punch %.0f holes of %s on it: "
        "the first %s from one end, the last as far from the other, %s between them. Clamp the rod there; it goes "
        "through both sides of the duct, with a quadrant that locks it outside.",
        line, spaces + 1, measure_text(solid->arena, solid->system, SHOW_CUT, INCH / 4),
        measure_text(solid->arena, solid->system, SHOW_CUT, fmin(margin, along / 4)),
        spaces > 1 ? "evenly spaced" : "none");
    if (across > stiff)
        solid_note(solid, "Stiffen it by two beads along the rod, %s from each long edge.", bead);
}

void shape_blade(struct solid *solid, const void *size) {
    static const double clearance = 0.25 * INCH; /* common practice, no source */
    const struct profile *duct = size;
    struct profile blade = {duct->width - clearance, duct->height - clearance, fmax(duct->radius - clearance / 2, 0)};
    if (blade.width <= SAME_POINT || blade.height <= SAME_POINT) {
        solid_fault(solid, solid->system == MEASURE_METRIC ? "size 100 round" : "size 4 round",
                    "the duct is too small for a damper's blade");
        return;
    }
    solid_plate(solid, &frame_near, blade, "blade", JOIN_FREE, NO_PORT);
    note_blade(solid, blade);
}
