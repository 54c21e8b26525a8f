/* Elbows: radius and square, which may change size, and gored. */
#include "metal/shape_elbow.h"

#include "metal/bent.h"
#include "metal/shape_vane.h"

/* Sizes or angles nearer than this are the same. */
static const double same = 1e-9;

static bool same_depth(struct profile near, struct profile far) {
    return fabs(near.height - far.height) <= SAME_POINT;
}

/* What both rectangular elbows stand on: the near frame as the way rolls it, and the sections at the ends. */
struct elbow_ends {
    struct frame frame;
    struct profile near, far;
};

static struct elbow_ends elbow_ends(struct shape_duct near, struct shape_duct far, double way) {
    return (struct elbow_ends){frame_for_way(way), section_for_way(near, way), section_for_way(far, way)};
}

/* Beyond it the collars of a sharp throat lie on each other. */
static const double greatest_sharp_turn = 179 * DEGREE + 1e-9;

static bool turns(struct solid *solid, double angle) {
    if (!(angle > same) || angle > PI + same)
        solid_fault(solid, NULL, "an elbow turns no more than 180 degrees, and not 0");
    return !solid->fault;
}

/* ---- Radius elbows ----------------------------------------------------------------------------------------------- */

/* r = R + w - (W - w) cos A / (1 - cos A), for an arc that touches both heel lines, and the far or near one where the
 * throat's radial line of the wider end meets it.  w and W are the lesser and greater width. */
static double heel_radius(double throat, double lesser, double greater, double angle) {
    double half = sin(angle / 2);
    return throat + lesser - (greater - lesser) * cos(angle) / (2 * half * half);
}

static bool radius_elbow_sound(struct solid *solid, const struct radius_elbow *elbow, const struct elbow_ends *ends) {
    double angle = elbow->angle, lesser = fmin(ends->near.width, ends->far.width);
    double greater = fmax(ends->near.width, ends->far.width);
    if (!turns(solid, angle))
        return false;
    if (!same_depth(ends->near, ends->far))
        solid_fault(solid, NULL,
                    "a radius elbow has flat cheeks, and cannot change the side that does not bend: put a transition "
                    "behind it, or make it square");
    else if (elbow->throat < -SAME_POINT)
        solid_fault(solid, NULL, "the throat's radius is below zero: the radius is less than half the side that bends");
    else if (elbow->throat <= SAME_POINT && (elbow->collar <= SAME_POINT || angle > greatest_sharp_turn))
        solid_fault(solid, NULL, "the throat is a bare corner: there is no metal in it");
    else if (heel_radius(elbow->throat, lesser, greater, angle) < -SAME_POINT)
        solid_fault(solid, NULL, "an elbow that turns only %.4g degrees has no room to change its width so much",
                    angle / DEGREE);
    return !solid->fault;
}

void shape_radius_elbow(struct solid *solid, const void *size) {
    const struct radius_elbow *elbow = size;
    struct elbow_ends ends = elbow_ends(elbow->near, elbow->far, elbow->way);
    if (!radius_elbow_sound(solid, elbow, &ends))
        return;
    double near = ends.near.width, far = ends.far.width, collar = elbow->collar, angle = elbow->angle;
    double radius = fmax(heel_radius(elbow->throat, fmin(near, far), fmax(near, far), angle), 0);
    double more = fabs(far - near) > same ? fabs(far - near) / tan(angle / 2) : 0;
    const struct step throat[] = {{collar, elbow->throat, angle}, {collar, 0, 0}};
    const struct step heel[] = {{collar + (near < far ? more : 0), radius, angle},
                                {collar + (far < near ? more : 0), 0, 0}};
    struct frame left = frame_moved(&ends.frame, -near / 2, 0, 0);
    struct frame end = course_end(&left, (struct course){throat, 2});
    struct frame out = frame_moved(&end, far / 2, 0, 0);
    struct cheeks cheeks = {
        .frame = ends.frame,
        .width = near,
        .depth = ends.near.height,
        .left = {throat, 2},
        .right = {heel, 2},
        .left_name = "throat",
        .right_name = "heel",
        .near_port = shape_near_port(solid, elbow->near),
        .far_port = shape_far_port(solid, &out, elbow->way, elbow->far),
    };
    solid_cheeks(solid, &cheeks);
}

/* ---- Square elbows ----------------------------------------------------------------------------------------------- */

/* The heel lines of widths w and W meet (W - w cos A) / sin A beyond the throat's corner, seen along the near end. */
struct mitre_line square_mitre_line(double near_width, double far_width, double angle) {
    struct mitre_line line = {
        .near_leg = (far_width - near_width * cos(angle)) / sin(angle),
        .far_leg = (near_width - far_width * cos(angle)) / sin(angle),
    };
    line.length = hypot(near_width, line.near_leg);
    return line;
}

const double greatest_square_turn = 150 * DEGREE;

static bool square_elbow_sound(struct solid *solid, const struct square_elbow *elbow, const struct elbow_ends *ends) {
    if (!turns(solid, elbow->angle))
        return false;
    if (elbow->angle > greatest_square_turn + same) {
        solid_fault(solid, NULL, "a square elbow turns %.4g degrees at most: its heel would run far out",
                    greatest_square_turn / DEGREE);
        return false;
    }
    struct mitre_line line = square_mitre_line(ends->near.width, ends->far.width, elbow->angle);
    if (elbow->leg <= SAME_POINT)
        solid_fault(solid, NULL, "the throat is a bare corner: there is no metal in it");
    else if (elbow->leg + fmin(line.near_leg, line.far_leg) <= SAME_POINT)
        solid_fault(solid, NULL, "an elbow that turns only %.4g degrees has no room to change its width so much",
                    elbow->angle / DEGREE);
    return !solid->fault;
}

/* The corners of a far leg: on the mitre and at the end, throat and heel, lower and upper. */
enum { THROAT, HEEL };
struct square_corners {
    struct space near[2][2], mitre[2][2], far[2][2]; /* [throat or heel][lower or upper] */
};

static void raise(struct space corner[2], const struct frame *frame, double right, double along, double depth) {
    corner[0] = frame_point(frame, right, along, -depth / 2);
    corner[1] = frame_point(frame, right, along, depth / 2);
}

static struct square_corners square_corners(const struct square_elbow *elbow, const struct elbow_ends *ends,
                                            const struct frame *out) {
    double half = ends->near.width / 2, depth = ends->near.height, leg = elbow->leg;
    struct mitre_line line = square_mitre_line(ends->near.width, ends->far.width, elbow->angle);
    struct square_corners corners = {0};
    raise(corners.near[THROAT], &ends->frame, -half, 0, depth);
    raise(corners.near[HEEL], &ends->frame, half, 0, depth);
    raise(corners.mitre[THROAT], &ends->frame, -half, leg, depth);
    raise(corners.mitre[HEEL], &ends->frame, half, leg + line.near_leg, depth);
    raise(corners.far[THROAT], out, -ends->far.width / 2, 0, ends->far.height);
    raise(corners.far[HEEL], out, ends->far.width / 2, 0, ends->far.height);
    return corners;
}

static const struct quad_edge at_bend = {JOIN_BEND, NO_PORT, false}, at_flange = {JOIN_SEAM, NO_PORT, false},
                              at_pocket = {JOIN_SEAM, NO_PORT, true};

/* The four sides of one leg, from the corners at its near to those at its far end. */
static void add_leg(struct solid *solid, struct space near[2][2], struct space far[2][2], struct quad_edge near_end,
                    struct quad_edge far_end) {
    struct space lower[4] = {near[THROAT][0], near[HEEL][0], far[HEEL][0], far[THROAT][0]};
    struct space upper[4] = {near[HEEL][1], near[THROAT][1], far[THROAT][1], far[HEEL][1]};
    struct space throat[4] = {near[THROAT][1], near[THROAT][0], far[THROAT][0], far[THROAT][1]};
    struct space heel[4] = {near[HEEL][0], near[HEEL][1], far[HEEL][1], far[HEEL][0]};
    const struct quad_edge cheek[4] = {near_end, at_flange, far_end, at_flange};
    const struct quad_edge strip[4] = {near_end, at_pocket, far_end, at_pocket};
    solid_quad(solid, "cheek", lower, cheek);
    solid_quad(solid, "opposite cheek", upper, cheek);
    solid_quad(solid, "throat", throat, strip);
    solid_quad(solid, "heel", heel, strip);
}

static void deepening_square(struct solid *solid, const struct square_elbow *elbow, const struct elbow_ends *ends,
                             const struct frame *out, int near_port, int far_port) {
    struct square_corners corners = square_corners(elbow, ends, out);
    add_leg(solid, corners.near, corners.mitre, (struct quad_edge){JOIN_PORT, near_port, false}, at_bend);
    add_leg(solid, corners.mitre, corners.far, at_bend, (struct quad_edge){JOIN_PORT, far_port, false});
}

void shape_square_elbow(struct solid *solid, const void *size) {
    const struct square_elbow *elbow = size;
    struct elbow_ends ends = elbow_ends(elbow->near, elbow->far, elbow->way);
    if (!square_elbow_sound(solid, elbow, &ends))
        return;
    struct mitre_line line = square_mitre_line(ends.near.width, ends.far.width, elbow->angle);
    const struct step throat[] = {{elbow->leg, 0, elbow->angle}, {elbow->leg, 0, 0}};
    const struct step heel[] = {{elbow->leg + line.near_leg, 0, elbow->angle}, {elbow->leg + line.far_leg, 0, 0}};
    struct frame left = frame_moved(&ends.frame, -ends.near.width / 2, 0, 0);
    struct frame end = course_end(&left, (struct course){throat, 2});
    struct frame out = frame_moved(&end, ends.far.width / 2, 0, 0);
    int near_port = shape_near_port(solid, elbow->near);
    int far_port = shape_far_port(solid, &out, elbow->way, elbow->far);
    if (same_depth(ends.near, ends.far))
        solid_cheeks(solid, &(struct cheeks){
                                .frame = ends.frame,
                                .width = ends.near.width,
                                .depth = ends.near.height,
                                .left = {throat, 2},
                                .right = {heel, 2},
                                .left_name = "throat",
                                .right_name = "heel",
                                .near_port = near_port,
                                .far_port = far_port,
                            });
    else
        deepening_square(solid, elbow, &ends, &out, near_port, far_port);
    if (elbow->vanes > 0)
        note_rail(solid, (enum measure_system)((int)elbow->vanes - 1), vane_rail(line.length));
}

/* ---- Gored elbows ------------------------------------------------------------------------------------------------ */

/* Half of what one mitre may turn: beyond it the gores are long slivers.  Common practice, no source. */
static const double greatest_half_mitre = 60 * DEGREE;

/* An oval whose throat is one of its round ends. */
static bool round_throat(struct profile section) {
    return section.width > section.height + 2 * SAME_POINT;
}

/* Turns of the seam from its usual place to the throat, or to the flat of a cheek: as of struct prism. */
static double seam_at_throat(struct profile section) {
    if (round_throat(section))
        return 0;
    return flat_throat(section) ? 2 : 3;
}

/* A sharp throat needs metal: of collars, and of an oval's flat side besides in each gore.  Turned half round, its
 * collars would lie on each other. */
static bool bare_throat(const struct gored_elbow *elbow, struct profile section) {
    bool sharp = elbow->radius <= section.width / 2 + SAME_POINT;
    bool bare = elbow->collar <= SAME_POINT || elbow->angle > greatest_sharp_turn;
    return sharp && (bare || (flat_throat(section) && elbow->pieces > 2));
}

/* Common practice, no source: more is a smooth bend. */
static const double most_pieces = 60;

static bool gored_elbow_sound(struct solid *solid, const struct gored_elbow *elbow, struct profile section,
                              double half) {
    if (!turns(solid, elbow->angle))
        return false;
    if (!(elbow->pieces >= 2) || elbow->pieces > most_pieces)
        solid_fault(solid, NULL, "an elbow is made of 2 to %.0f pieces", most_pieces);
    else if (elbow->radius < section.width / 2 - SAME_POINT)
        solid_fault(solid, NULL, "the throat's radius is below zero: the radius is less than half the duct");
    else if (half > greatest_half_mitre + same)
        solid_fault(solid, NULL, "%.0f pieces are too few for so great a turn: no mitre turns more than %.4g degrees",
                    elbow->pieces, 2 * greatest_half_mitre / DEGREE);
    else if (bare_throat(elbow, section))
        solid_fault(solid, NULL, "the throat is a bare corner: there is no metal in it");
    return !solid->fault;
}

void shape_gored_elbow(struct solid *solid, const void *size) {
    const struct gored_elbow *elbow = size;
    struct profile section = section_for_way(elbow->duct, elbow->way);
    double half = elbow->angle / (2 * (elbow->pieces - 1)), back = elbow->radius * tan(half);
    if (!gored_elbow_sound(solid, elbow, section, half))
        return;
    size_t pieces = (size_t)elbow->pieces;
    struct step *steps = ARENA_ARRAY(solid->arena, struct step, pieces);
    for (size_t i = 0; i < pieces; i++) {
        bool end = i == 0 || i == pieces - 1;
        steps[i] = (struct step){end ? elbow->collar + back : 2 * back, 0, i == pieces - 1 ? 0 : 2 * half};
    }
    struct mitred mitred = {
        .frame = frame_for_way(elbow->way),
        .section = section,
        .course = {steps, pieces},
        .seam = seam_at_throat(section),
        .end_name = "end gore",
        .name = "gore",
    };
    struct frame out = course_end(&mitred.frame, mitred.course);
    mitred.near_port = shape_near_port(solid, elbow->duct);
    mitred.far_port = shape_far_port(solid, &out, elbow->way, elbow->duct);
    solid_mitred(solid, &mitred);
}
