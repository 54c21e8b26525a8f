/* Turning vanes. */
#include "metal/shape_vane.h"

#include <stdio.h>

void shape_vane(struct solid *solid, const void *size) {
    const struct vane *vane = size;
    struct roll roll = {
        .name = "vane",
        .arc = {.u = frame_near.right, .v = frame_near.along, .radius = vane->radius, .to = vane->sweep},
        .way = {0, 0, -1},
        .near = {.kind = CUT_ARC},
        .far = {.kind = CUT_PLANE, .point = {0, 0, -vane->length}, .way = frame_near.up},
        .divisions = solid_divisions(solid, vane->radius, vane->sweep),
        .near_join = JOIN_FREE,
        .far_join = JOIN_FREE,
        .from_join = JOIN_FREE,
        .to_join = JOIN_FREE,
        .near_port = NO_PORT,
        .far_port = NO_PORT,
    };
    solid_roll(solid, &roll);
}

/* ---- In a square elbow ------------------------------------------------------------------------------------------- */

/* From memory: SMACNA HVAC Duct Construction Standards, vanes and vane runners: single vanes of 2 in radius stand 1-1/2
 * in apart, of 4-1/2 in radius 3-1/4 in.  Up to which rail the small ones are used: common practice, no source. */
static const double small_radius = 2 * INCH, small_apart = 1.5 * INCH;
static const double large_radius = 4.5 * INCH, large_apart = 3.25 * INCH;
static const double small_rail = 36 * INCH;

struct vane_rail vane_rail(double length) {
    bool small = length <= small_rail + 1e-9;
    double parts = fmax(ceil(length / (small ? small_apart : large_apart) - 1e-9), 2);
    return (struct vane_rail){
        .length = length,
        .radius = small ? small_radius : large_radius,
        .apart = length / parts,
        .count = (size_t)parts - 1,
    };
}

/* "1-7/16, 2-15/16, 4-3/8": written into room made once, so that many marks cost no more than their length. */
static const char *rail_marks(struct arena *arena, enum measure_system system, struct vane_rail rail) {
    enum { MARK_ROOM = 32 };
    char *marks = ARENA_ARRAY(arena, char, rail.count *MARK_ROOM + 1), *at = marks;
    for (size_t i = 0; i < rail.count; i++) {
        const char *mark = measure_figure(arena, system, SHOW_CUT, rail.apart * (double)(i + 1));
        at += snprintf(at, MARK_ROOM, "%s%s", i ? ", " : "", mark);
    }
    return marks;
}

void note_rail(struct solid *solid, enum measure_system system, struct vane_rail rail) {
    const char *unit = measure_show(system, SHOW_SIZE)->unit;
    solid_note(
        solid,
        "%zu vane%s of %s %s radius stand%s along the mitre between two rails, one on each cheek, from the throat's "
        "corner to the heel's, %s %s long. Holes in each rail, from the throat's end: %s %s.",
        rail.count, rail.count == 1 ? "" : "s", measure_figure(solid->arena, system, SHOW_SIZE, rail.radius), unit,
        rail.count == 1 ? "s" : "", measure_figure(solid->arena, system, SHOW_SIZE, rail.length), unit,
        rail_marks(solid->arena, system, rail), unit);
}

/* ---- In a radius elbow ------------------------------------------------------------------------------------------- */

/* A sharp throat has no ratio: it is taken as an eighth of the width.  This and the greatest count: common practice, no
 * source.  That the radii stand in one ratio: from memory, SMACNA HVAC Duct Construction Standards, splitter vanes. */
size_t bend_vanes(double throat, double width, double radii[BEND_VANES]) {
    double inner = fmax(throat, width / 8), outer = throat + width;
    double passages = fmin(fmax(ceil(log2(outer / inner) - 1e-9), 2), BEND_VANES + 1);
    size_t count = (size_t)passages - 1;
    for (size_t i = 0; i < count; i++)
        radii[i] = inner * pow(outer / inner, (double)(i + 1) / passages);
    return count;
}
