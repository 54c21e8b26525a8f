/* Offsets: angled and ogee. */
#include "metal/shape_offset.h"

#include "metal/bent.h"

/* What all of them stand on. */
struct offsetting {
    struct solid *solid;
    const struct offset *offset;
    struct frame frame;
    struct profile section;
};

static struct offsetting begin(struct solid *solid, const struct offset *offset) {
    return (struct offsetting){solid, offset, frame_for_way(offset->way), section_for_way(offset->duct, offset->way)};
}

static int far_port(const struct offsetting *making) {
    const struct offset *offset = making->offset;
    struct frame out = frame_moved(&making->frame, -offset->aside, offset->along, 0);
    return shape_far_port(making->solid, &out, offset->way, offset->duct);
}

/* Between cheeks: the side that it goes to first, on the left, and the other. */
static void between_cheeks(const struct offsetting *making, struct course left, struct course right) {
    struct cheeks cheeks = {
        .frame = making->frame,
        .width = making->section.width,
        .depth = making->section.height,
        .left = left,
        .right = right,
        .left_name = "inner side",
        .right_name = "outer side",
        .near_port = shape_near_port(making->solid, making->offset->duct),
        .far_port = far_port(making),
    };
    solid_cheeks(making->solid, &cheeks);
}

/* Seams at their usual place: in the bottom of the plane of the offset, the same in all pieces, for throat and heel
 * change sides. */
static void of_pieces(const struct offsetting *making, struct course course) {
    struct mitred mitred = {
        .frame = making->frame,
        .section = making->section,
        .course = course,
        .end_name = "end piece",
        .name = "middle piece",
        .near_port = shape_near_port(making->solid, making->offset->duct),
        .far_port = far_port(making),
    };
    solid_mitred(making->solid, &mitred);
}

/* What nobody can lay out, and what arcs would need radii of miles for: a hundredth of a millimetre, less what is lost
 * in reading it. */
static const double least_aside = 0.99e-5;

/* Of an offset that is `least` long: an oval with a flat throat needs a collar at each end besides that a joint
 * can be made on, which the piece gives it where there are 8 in to spare. */
static const char *longer_hint(const struct offsetting *making, double least) {
    struct arena *arena = making->solid->arena;
    double spare = flat_throat(making->section) ? 8 * INCH : 0;
    return arena_format(arena, "over %s", enough_length(arena, making->solid->system, least + spare));
}

/* Says that it is too short, and a length that does. */
static bool long_enough(const struct offsetting *making, double least) {
    const struct offset *offset = making->offset;
    if (offset->aside <= least_aside) {
        struct arena *arena = making->solid->arena;
        const char *length = measure_text(arena, making->solid->system, SHOW_RUN, offset->along);
        solid_fault(making->solid, arena_format(arena, "straight %s", length),
                    "an offset that does not go aside is straight duct");
        return false;
    }
    if (offset->along - 2 * offset->collar >= least - SAME_POINT)
        return true;
    solid_fault(making->solid, longer_hint(making, least + 2 * offset->collar),
                "the offset is too short: a duct so wide does not go so far aside in that length (its throat would be "
                "below zero)");
    return false;
}

/* Where a sharp throat leaves a piece of an oval no metal in its flat side. */
static bool bare_throat(const struct offsetting *making, bool bare, double least) {
    if (bare && flat_throat(making->section))
        solid_fault(making->solid, longer_hint(making, least),
                    "a throat of the offset is a bare corner, with no metal in it: make the offset longer");
    return making->solid->fault != NULL;
}

/* ---- Angled ------------------------------------------------------------------------------------------------------ */

static const double usual_collar = 2 * INCH, smallest_collar = 1 * INCH;

double offset_collar(double along, double least) {
    double collar = fmin(usual_collar, (along - least) / 4);
    return collar < smallest_collar - SAME_POINT ? 0 : collar; /* an inch to the eye is one */
}

/* Of W u + F (1 - u2) / (2 u), the length as a function of u = tan of half the angle, the least up to u = 1. */
double angled_least_length(double side, double aside) {
    return aside < side ? sqrt(aside * (2 * side - aside)) : side;
}

/* L = W u + F / tan(angle): both mitres take W/2 u of the length on the inside.  As (2 W - F) u2 - 2 L u + F = 0; its
 * lesser root, in the form that stays exact. */
static double half_angle_tangent(double side, double aside, double length) {
    double root = sqrt(fmax(length * length - aside * (2 * side - aside), 0));
    return fmin(aside / fmax(length + root, aside), 1);
}

/* The middle line keeps half of what a mitre takes on the inside. */
static struct offset_bend angled_bend(double side, double aside, double along, double collar) {
    double u = half_angle_tangent(side, aside, fmax(along - 2 * collar, 0)), angle = 2 * atan(u);
    return (struct offset_bend){
        .collar = collar, .angle = angle, .end = collar + side * u / 2, .between = aside / sin(angle)};
}

struct offset_bend angled_offset(double side, double aside, double along) {
    return angled_bend(side, aside, along, offset_collar(along, angled_least_length(side, aside)));
}

/* Without collars it is W u + F (1 - u2) / (2 u), which has its least at u2 = F / (2 W - F); what is over the least,
 * the collars take as much of again. */
double angled_length(double side, double aside, double angle) {
    double steepest = aside < side ? sqrt(aside / (2 * side - aside)) : 1, u = fmin(tan(angle / 2), steepest);
    double bare = side * u + aside * (1 - u * u) / (2 * u), over = bare - angled_least_length(side, aside);
    return bare + 2 * (over < 2 * smallest_collar ? 0 : fmin(over / 2, usual_collar));
}

double offset_centre_line(const struct offset_bend *bend) {
    return 2 * bend->end + bend->between + 2 * bend->radius * bend->angle;
}

void shape_angled_offset(struct solid *solid, const void *size) {
    const struct offset *offset = size;
    struct offsetting making = begin(solid, offset);
    double side = making.section.width, collar = offset->collar, least = angled_least_length(side, offset->aside);
    if (!long_enough(&making, least))
        return;
    struct offset_bend bend = angled_bend(side, offset->aside, offset->along, collar);
    double angle = bend.angle, slant = bend.between, outer = collar + 2 * (bend.end - collar);
    if (bare_throat(&making, collar <= SAME_POINT, least))
        return;
    if (making.section.radius > SAME_POINT) {
        const struct step steps[] = {{bend.end, 0, angle}, {slant, 0, -angle}, {bend.end, 0, 0}};
        of_pieces(&making, (struct course){steps, 3});
        return;
    }
    const struct step left[] = {{collar, 0, angle}, {slant, 0, -angle}, {outer, 0, 0}};
    const struct step right[] = {{outer, 0, angle}, {slant, 0, -angle}, {collar, 0, 0}};
    between_cheeks(&making, (struct course){left, 3}, (struct course){right, 3});
}

/* ---- Ogee -------------------------------------------------------------------------------------------------------- */

/* The radius is no less than half the side, and the arcs turn no more than 90 degrees each. */
double ogee_least_length(double side, double aside) {
    return aside < side ? sqrt(aside * (2 * side - aside)) : aside;
}

/* Two equal tangent arcs: radius (L2 + F2) / (4 F), angle 2 atan(F / L): geometry. */
static struct offset_bend ogee_bend(double aside, double along, double collar) {
    double length = fmax(along - 2 * collar, 0);
    return (struct offset_bend){.collar = collar,
                                .angle = 2 * atan2(aside, length),
                                .radius = (length * length + aside * aside) / (4 * aside),
                                .end = collar};
}

struct offset_bend ogee_offset(double side, double aside, double along) {
    return ogee_bend(aside, along, offset_collar(along, ogee_least_length(side, aside)));
}

static void rectangular_ogee(const struct offsetting *making, struct offset_bend ogee) {
    double inner = fmax(ogee.radius - making->section.width / 2, 0), outer = ogee.radius + making->section.width / 2;
    double collar = making->offset->collar, angle = ogee.angle;
    const struct step left[] = {{collar, inner, angle}, {0, outer, -angle}, {collar, 0, 0}};
    const struct step right[] = {{collar, outer, angle}, {0, inner, -angle}, {collar, 0, 0}};
    between_cheeks(making, (struct course){left, 3}, (struct course){right, 3});
}

/* What one mitre of a gored bend turns at most: that of five pieces at 90 degrees.  Common practice, no source. */
static const double greatest_mitre = 22.5 * DEGREE;

int ogee_mitres(double angle) {
    return (int)fmax(ceil(angle / greatest_mitre - 1e-9), 1);
}

/* Two gored bends of n mitres each; the pieces that meet in the middle are one. */
static void mitred_ogee(const struct offsetting *making, struct offset_bend ogee) {
    size_t mitres = (size_t)ogee_mitres(ogee.angle), count = 2 * mitres + 1;
    double turn = ogee.angle / (double)mitres, back = ogee.radius * tan(turn / 2);
    bool sharp = ogee.radius <= making->section.width / 2 + SAME_POINT;
    if (bare_throat(making, sharp && (mitres > 1 || making->offset->collar <= SAME_POINT),
                    ogee_least_length(making->section.width, making->offset->aside)))
        return;
    struct step *steps = ARENA_ARRAY(making->solid->arena, struct step, count);
    for (size_t i = 0; i < count; i++) {
        bool end = i == 0 || i == count - 1;
        double onward = i < mitres ? turn : -turn;
        steps[i] = (struct step){end ? making->offset->collar + back : 2 * back, 0, i == count - 1 ? 0 : onward};
    }
    of_pieces(making, (struct course){steps, count});
}

void shape_ogee_offset(struct solid *solid, const void *size) {
    const struct offset *offset = size;
    struct offsetting making = begin(solid, offset);
    if (!long_enough(&making, ogee_least_length(making.section.width, offset->aside)))
        return;
    struct offset_bend ogee = ogee_bend(offset->aside, offset->along, offset->collar);
    if (making.section.radius > SAME_POINT)
        mitred_ogee(&making, ogee);
    else
        rectangular_ogee(&making, ogee);
}
