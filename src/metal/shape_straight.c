/* Straight duct, with the openings of what is tapped into it. */
#include "metal/shape_straight.h"

#include "model/job.h"
#include "model/taps.h"

struct tapped wall_tapped(struct solid *solid, const struct wall_opening *opening, struct profile parent) {
    double line = opening->station + (opening->tap.base.upstream - opening->tap.base.downstream) / 2;
    return tap_opening_in(solid, &opening->tap, (enum side)opening->side, line, parent);
}

/* ---- Whether it fits --------------------------------------------------------------------------------------------- */

/* What there is of wall across the duct, m: of a flat side its flat part, of a round one its diameter. */
static double wall_across(struct duct_size duct, enum side side) {
    bool ends_round = duct.shape == SHAPE_OVAL && side_is_flat(side) == (duct.width > duct.height);
    if (ends_round)
        return fabs(duct.width - duct.height);
    return side_is_flat(side) ? duct.width : duct.height;
}

/* Metal that has to be left beside an opening for it to be one.  Common practice, no source; tabs want more, which the
 * check tap-fit asks for. */
static const double least_edge = INCH / 16;

bool straight_takes(const struct straight_shape *shape, const struct wall_opening *opening) {
    enum side side = (enum side)opening->side;
    double across = side_is_flat(side) ? opening->section.width : opening->section.height;
    double along = side_is_flat(side) ? opening->section.height : opening->section.width;
    return across <= wall_across(shape_duct_size(shape->section), side) - 2 * least_edge &&
           opening->station - along / 2 >= least_edge && opening->station + along / 2 <= shape->length - least_edge;
}

/* ---- Where the seam goes ----------------------------------------------------------------------------------------- */

/* In the order of the seam's quarter turns from the bottom: which side it would lie in, of round and oval duct. */
static const enum side seam_sides[] = {SIDE_BOTTOM, SIDE_RIGHT, SIDE_TOP, SIDE_LEFT};

static unsigned tapped_sides(const struct straight_shape *shape, const struct wall_opening *openings) {
    unsigned sides = 0;
    for (size_t i = 0; i < (size_t)shape->openings; i++)
        sides |= 1u << (enum side)openings[i].side;
    return sides;
}

/* Quarter turns to a side that nothing is cut into; flat oval has seams in its flat sides only.  Rectangular duct has
 * them at corners.  -1: none is free. */
static int seam_turns(const struct straight_shape *shape, unsigned tapped) {
    struct duct_size size = shape_duct_size(shape->section);
    if (size.shape == SHAPE_RECTANGULAR)
        return 0;
    bool upright = size.shape == SHAPE_OVAL && size.height > size.width;
    for (int turns = 0; turns < 4; turns++) {
        enum side side = seam_sides[(turns + upright) % 4];
        bool flat = size.shape == SHAPE_ROUND || side_is_flat(side) != upright;
        if (flat && !(tapped & (1u << side)))
            return turns;
    }
    return -1;
}

bool straight_has_seam(const struct straight_shape *shape, unsigned tapped) {
    return seam_turns(shape, tapped) >= 0;
}

void shape_straight(struct solid *solid, const void *size) {
    const struct straight_shape *shape = size;
    const struct wall_opening *openings = (const struct wall_opening *)(shape + 1);
    size_t count = (size_t)shape->openings;
    struct duct_size duct = shape_duct_size(shape->section);
    struct frame end = frame_moved(&frame_near, 0, shape->length, 0), out = frame_turned(&frame_near, PI);
    struct tapped *taps = ARENA_ARRAY(solid->arena, struct tapped, count + 1);
    for (size_t i = 0; i < count; i++) {
        if (!straight_takes(shape, &openings[i]))
            solid_fault(solid, NULL, "an opening is larger than the wall that it is cut into");
        taps[i] = wall_tapped(solid, &openings[i], profile_of(duct));
    }
    struct prism prism = {
        .frame = frame_near,
        .section = profile_of(duct),
        .near = {.kind = CUT_ARC},
        .far = {.kind = CUT_PLANE, .point = end.origin, .way = end.along},
        .wrap = (enum wrap)shape->wrap,
        .seam =
            seam_turns(shape, tapped_sides(shape, openings)), /* -1 as good as 3: the opening there is then a fault */
        .name = "wrap",
    };
    prism.near_end =
        (struct tube_end){JOIN_PORT, solid_port(solid, PORT_USE_DUCT, "toward the unit", &out, duct), false};
    prism.far_end =
        (struct tube_end){JOIN_PORT, solid_port(solid, PORT_USE_DUCT, "away from the unit", &end, duct), false};
    if (!solid->fault)
        solid_tapped_prism(solid, &prism, taps, count);
}
