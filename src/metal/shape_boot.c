/* Boots: from a duct to the face that a register, grille or filter sits on. */
#include "metal/shape_boot.h"

#include "metal/box_body.h"
#include "metal/shape.h"

/* Beside a face in a wider box: room for the flange and the lock.  Common practice, no source. */
static const double strip = 1.25 * INCH;

static const double sheet_beside = 0.5 * INCH, least_collar = 1 * INCH;

double elbow_boot_depth(struct profile duct) {
    return duct.height + 2 * sheet_beside;
}

double elbow_boot_collar(void) {
    return least_collar;
}

/* ---- Straight ---------------------------------------------------------------------------------------------------- */

void shape_straight_boot(struct solid *solid, const void *size) {
    const struct straight_boot *boot = size;
    struct frame out = frame_turned(&frame_near, PI);
    struct loft loft = {
        .near = frame_near,
        .far = frame_moved(&frame_near, boot->right, boot->length, boot->up),
        .from = boot->duct,
        .to = boot->face,
        .wrap = WRAP_HALVES,
        .name = "body",
    };
    int duct = solid_port(solid, PORT_USE_DUCT, "toward the unit", &out, profile_size(boot->duct));
    int face = solid_port(solid, PORT_USE_FACE, "the face", &loft.far, profile_size(boot->face));
    loft.near_end = (struct tube_end){JOIN_PORT, duct, false};
    loft.far_end = (struct tube_end){JOIN_PORT, face, false};
    solid_loft(solid, &loft);
}

/* ---- Elbow ------------------------------------------------------------------------------------------------------- */

enum { DUCT, FACE, BASE };

static void add_collar(struct solid *solid, const struct elbow_boot *boot) {
    struct frame wall = frame_moved(&frame_near, 0, boot->collar, 0);
    struct prism collar = {
        .frame = frame_near,
        .section = boot->duct,
        .near = {.kind = CUT_ARC},
        .far = {.kind = CUT_PLANE, .point = wall.origin, .way = wall.along},
        .wrap = WRAP_ONE,
        .near_end = {JOIN_PORT, DUCT, false},
        .far_end = {JOIN_PORT, BASE, false},
        .name = "collar",
    };
    solid_prism(solid, &collar);
}

/* As wide as the face; where the duct asks for more, wider than it, so that a strip stays beside the face that its
 * flange goes on. */
static double box_width(const struct elbow_boot *boot) {
    double least = boot->duct.width + 2 * sheet_beside;
    return boot->face.width >= least - SAME_POINT ? boot->face.width : fmax(least, boot->face.width + 2 * strip);
}

/* A cover, four sides, and the opening for the collar in the side toward the duct. */
static struct box_body box_of(const struct elbow_boot *boot) {
    static const char *const sides[BOX_SIDES] = {"back", "left side", "front", "right side"};
    double depth = elbow_boot_depth(boot->duct);
    struct frame top = {{0, boot->collar + boot->face.height / 2, depth / 2}, {1, 0, 0}, {0, 0, -1}, {0, 1, 0}};
    return (struct box_body){top, box_width(boot), boot->face.height, depth, {{.port = NO_PORT}}, sides};
}

static void add_box(struct solid *solid, const struct elbow_boot *boot, const struct box_body *box) {
    struct frame wall = frame_moved(&frame_near, 0, boot->collar, 0);
    size_t count;
    struct space *points = profile_points(solid, &wall, boot->duct, &count);
    int panels[BOX_SIDES];
    solid_box(solid, box, panels);
    panel_opening(solid, panels[BOX_BOTTOM], points, count, "collar");
}

static bool can_be(struct solid *solid, const struct elbow_boot *boot) {
    struct arena *arena = solid->arena;
    double least = boot->face.height / 2 + least_collar;
    if (boot->face.radius > SAME_POINT)
        solid_fault(solid, "boot straight", "an elbow boot is a box, and its face is not rectangular");
    else if (boot->collar < least_collar - SAME_POINT)
        solid_fault(solid, arena_format(arena, "boot elbow over %s", enough_length(arena, solid->system, least)),
                    "the boot is too short: half of its face and a collar of 1 in do not go into its length");
    return !solid->fault;
}

void shape_elbow_boot(struct solid *solid, const void *size) {
    const struct elbow_boot *boot = size;
    if (!can_be(solid, boot))
        return;
    struct frame out = frame_turned(&frame_near, PI), wall = frame_moved(&frame_near, 0, boot->collar, 0);
    struct box_body box = box_of(boot);
    solid_port(solid, PORT_USE_DUCT, "toward the unit", &out, profile_size(boot->duct));
    box.ends[BOX_NEAR] = box_end_of(solid, &box, BOX_NEAR, (struct profile){0, 0, 0}, PORT_USE_FACE, "", NULL);
    box.ends[BOX_FAR] = box_end_of(solid, &box, BOX_FAR, boot->face, PORT_USE_FACE, "the face", NULL);
    box.ends[BOX_NEAR].plate = "cover";
    box.ends[BOX_FAR].plate = "strip beside the face";
    solid_port(solid, PORT_USE_BASE, "into the box", &wall, profile_size(boot->duct));
    add_collar(solid, boot);
    add_box(solid, boot, &box);
    solid_note(solid, "Drawn with its face down and the collar on the side that is %s: turn it as the room needs.",
               boot->face.width >= boot->face.height ? "the longer" : "the shorter");
}
