/* Boots: from a duct to the face that a register, grille or filter sits on. */
#include "metal/shape_boot.h"

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

/* Four sides round the face, a top, and the opening for the collar in the side toward the duct. */
static void add_box(struct solid *solid, const struct elbow_boot *boot) {
    static const char *const names[] = {"back", "left side", "front", "right side"};
    double depth = elbow_boot_depth(boot->duct);
    struct frame top = {.right = {1, 0, 0}, .along = {0, 0, -1}, .up = {0, 1, 0}};
    top.origin = frame_point(&frame_near, 0, boot->collar + boot->face.height / 2, depth / 2);
    struct tapped hole = {.tap = frame_turned(&frame_near, PI), .section = boot->duct, .name = "collar"};
    hole.tap.origin = frame_point(&frame_near, 0, boot->collar, 0);
    struct prism box = {
        .frame = top,
        .section = boot->face,
        .near = {.kind = CUT_ARC},
        .far = {.kind = CUT_PLANE, .point = frame_point(&top, 0, depth, 0), .way = top.along},
        .wrap = WRAP_ONE,
        .near_end = {JOIN_SEAM, NO_PORT, false},
        .far_end = {JOIN_PORT, FACE, false},
        .name = "box",
    };
    size_t first = solid->panels.count;
    solid_tapped_prism(solid, &box, &hole, 1);
    for (size_t i = 0; i < 4 && first + i < solid->panels.count; i++)
        solid->panels.at[first + i].name = names[i];
    /* The top takes the pocket: SOURCE_PITTSBURGH has it on the lesser panel, and its edges are all straight. */
    int plate = solid_plate(solid, &top, boot->face, "top", JOIN_SEAM, NO_PORT);
    for (size_t e = 0; plate != NO_PANEL && e < solid->panels.at[plate].edges.count; e++)
        solid->panels.at[plate].edges.at[e].pocket = true;
}

static bool can_be(struct solid *solid, const struct elbow_boot *boot) {
    const double most = boot->face.width - 2 * sheet_beside;
    if (boot->face.radius > SAME_POINT)
        solid_fault(solid, "boot straight over 8 in", "an elbow boot is a box, and its face is not rectangular");
    else if (boot->duct.width > most + SAME_POINT)
        solid_fault(solid, "boot straight over 8 in",
                    "the duct does not fit the side of the boot: its collar needs half an inch of sheet on either side");
    else if (boot->collar < least_collar - SAME_POINT)
        solid_fault(solid, "boot elbow over 12 in",
                    "the boot is too short: half of its face and a collar of 1 in do not go into its length");
    return !solid->fault;
}

void shape_elbow_boot(struct solid *solid, const void *size) {
    const struct elbow_boot *boot = size;
    struct frame out = frame_turned(&frame_near, PI), wall = frame_moved(&frame_near, 0, boot->collar, 0);
    /* The duct's width and the face's lie alike. */
    struct frame face = {.right = {1, 0, 0}, .along = {0, 0, -1}, .up = {0, 1, 0}};
    face.origin = frame_point(&frame_near, 0, boot->collar + boot->face.height / 2, -elbow_boot_depth(boot->duct) / 2);
    solid_port(solid, PORT_USE_DUCT, "toward the unit", &out, profile_size(boot->duct));
    solid_port(solid, PORT_USE_FACE, "the face", &face, profile_size(boot->face));
    solid_port(solid, PORT_USE_BASE, "into the box", &wall, profile_size(boot->duct));
    if (!can_be(solid, boot))
        return;
    add_collar(solid, boot);
    add_box(solid, boot);
    solid_note(solid, "Drawn with its face down and the collar on the side that is %s: turn it as the room needs.",
               boot->face.width >= boot->face.height ? "the longer" : "the shorter");
}
