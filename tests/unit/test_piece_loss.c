/* Losses of pieces: which relation, on which velocity pressure, in which direction of the air; worked by hand from the
 * relations' tables (test_air_fitting_idelchik.c holds those against the handbook). */
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <setjmp.h>
#include <cmocka.h>

#include "piece_bench.h"

#define PASCAL 1e-6 /* the sums are exact but for rounding */

/* coefficient x velocity pressure of `on`, plus `friction` */
static void assert_loss(const struct piece_bench *bench, struct loss loss, double coefficient, double tolerance,
                        struct stream on, double friction) {
    assert_near(loss.coefficient, coefficient, tolerance);
    assert_near(loss.reference, pressure_of(bench, on), PASCAL);
    assert_near(loss.friction, friction, PASCAL);
    assert_near(loss.pressure, loss.coefficient * loss.reference + friction, PASCAL);
    assert_non_null(loss.reference_name);
}

/* ---- Elbows ------------------------------------------------------------------------------------------------------ */

static void a_radius_elbow_bends_the_side_in_its_plane(void **state) {
    struct piece_bench *bench = *state;
    struct stream duct = rectangular(20, 10, 5000); /* fast enough for a Reynolds number over 200 000 */
    /* Left: W 20, H/W 0.5: 0.21 x 1.17; arc 20 in x pi/2.  Up: W 10, H/W 2: 0.21 x 0.85. */
    struct loss left = loss_in(bench, sound_piece(bench, "elbow 90 left, radius 1.0"), true, duct, duct);
    assert_loss(bench, left, 0.2457, 1e-9, duct, friction_of(bench, duct, 20 * INCH * 90 * DEGREE));
    struct loss up = loss_in(bench, sound_piece(bench, "elbow 90 up, radius 1.0"), true, duct, duct);
    assert_loss(bench, up, 0.1785, 1e-9, duct, friction_of(bench, duct, 10 * INCH * 90 * DEGREE));
    assert_int_equal(up.source, SOURCE_IDELCHIK_BEND);
    assert_string_equal(up.reference_name, "duct");
    assert_null(up.outside);
    /* 1.0 is also what it has when it says nothing. */
    struct loss usual = loss_in(bench, sound_piece(bench, "elbow 90 left"), true, duct, duct);
    assert_near(usual.pressure, left.pressure, PASCAL);
}

/* From memory: ASHRAE Handbook, Fundamentals, duct fitting tables: elbows of a radius of 0.75 and over at a Reynolds
 * number of 80 000 lose 1.38 times as much.  10 in round: Re = rho V D / mu, so V = 8e4 mu / (rho D). */
static void an_elbow_loses_more_at_a_low_reynolds_number(void **state) {
    struct piece_bench *bench = *state;
    double velocity = 8e4 * bench->air.viscosity / (bench->air.density * 10 * INCH);
    struct stream duct = {.size = {SHAPE_RECTANGULAR, 10 * INCH, 10 * INCH}, .flow = velocity * 100 * INCH * INCH};
    struct loss slow = loss_in(bench, sound_piece(bench, "elbow 90 left, radius 1.0"), true, duct, duct);
    assert_loss(bench, slow, 0.21 * 1.38, 1e-9, duct, friction_of(bench, duct, 10 * INCH * 90 * DEGREE));
    assert_int_equal(slow.factor_source, SOURCE_ELBOW_REYNOLDS);
    /* Of a gored elbow the smooth part alone: 0.21 x 0.38 more than at high Reynolds numbers. */
    struct stream round = round_duct(10, 1), fast = round_duct(10, 3000);
    round.flow = velocity * size_area(round.size);
    const struct piece *gored = sound_piece(bench, "elbow 90 left, radius 1.0");
    double more =
        loss_in(bench, gored, true, round, round).coefficient - loss_in(bench, gored, true, fast, fast).coefficient;
    assert_near(more, 0.21 * 0.38, 1e-9);
    assert_int_equal(loss_in(bench, gored, true, fast, fast).factor_source, SOURCE_NONE);
    /* Under the table's end its value holds, and that is said. */
    duct.flow /= 10;
    assert_non_null(loss_in(bench, sound_piece(bench, "elbow 90 left, radius 1.0"), true, duct, duct).outside);
}

static void a_square_elbow_is_a_mitre(void **state) {
    struct piece_bench *bench = *state;
    struct stream duct = rectangular(16, 8, 700);
    /* Right: H/W 0.5: 1.07 x 1.20 x (0.475 + 0.5125) */
    struct loss plain = loss_in(bench, sound_piece(bench, "elbow 90 right, square"), true, duct, duct);
    assert_loss(bench, plain, 1.26795, 1e-9, duct, 0);
    assert_int_equal(plain.source, SOURCE_IDELCHIK_MITRE);
    struct loss vaned = loss_in(bench, sound_piece(bench, "elbow 90 right, square, vanes"), true, duct, duct);
    assert_loss(bench, vaned, 0.12, 1e-9, duct, 0);
    assert_int_equal(vaned.source, SOURCE_VANED_ELBOW);
    struct loss less = loss_in(bench, sound_piece(bench, "elbow 45 right, square, vanes"), true, duct, duct);
    assert_near(less.coefficient, 0.12 * 0.60, 1e-9);
    assert_int_equal(less.source, SOURCE_NEAREST_BEND);
}

static void vanes_never_make_a_radius_elbow_worse(void **state) {
    struct piece_bench *bench = *state;
    struct stream duct = rectangular(16, 8, 2800);
    struct loss tight = loss_in(bench, sound_piece(bench, "elbow 90 left, radius 0.5, vanes"), true, duct, duct);
    assert_near(tight.coefficient, 0.12, 1e-9);
    assert_int_equal(tight.source, SOURCE_NEAREST_BEND);
    /* 60 degrees, radius 15: 0.78 x 0.06 x 1.17 without vanes, less than 0.12 x 0.78 */
    struct loss easy = loss_in(bench, sound_piece(bench, "elbow 60 left, radius 15, vanes"), true, duct, duct);
    assert_near(easy.coefficient, 0.78 * 0.06 * 1.17, 1e-9);
}

static void a_round_elbow_is_gored(void **state) {
    struct piece_bench *bench = *state;
    struct stream duct = round_duct(10, 2400);
    /* 0.17 + 0.6 x 4 x (0.95 sin^2 11.25 + 2.05 sin^4 11.25), sin^2 11.25 = 0.0380602 */
    double five = 0.17 + 2.4 * (0.95 * 0.0380602 + 2.05 * 0.0380602 * 0.0380602);
    struct loss usual = loss_in(bench, sound_piece(bench, "elbow 90 down"), true, duct, duct);
    assert_loss(bench, usual, five, 1e-6, duct, friction_of(bench, duct, 15 * INCH * 90 * DEGREE));
    assert_int_equal(usual.source, SOURCE_GORED_ELBOW);
    struct loss three = loss_in(bench, sound_piece(bench, "elbow 90 down, pieces 3"), true, duct, duct);
    assert_true(three.coefficient > usual.coefficient);
}

static void an_oval_elbow_says_that_its_relation_is_the_nearest(void **state) {
    struct piece_bench *bench = *state;
    struct stream duct = oval(20, 10, 3600);
    struct loss loss = loss_in(bench, sound_piece(bench, "elbow 90 left"), true, duct, duct);
    assert_loss(bench, loss, 0.2457, 1e-9, duct, friction_of(bench, duct, 20 * INCH * 90 * DEGREE));
    assert_int_equal(loss.source, SOURCE_NEAREST_BEND);
}

/* ---- Offsets ----------------------------------------------------------------------------------------------------- */

/* 20 x 10 to 12 x 10, radius 1.0 over the near 20 in: throat 10 in, arc pi/2 (10 + 32/4) = 28.27433 in.  In the smaller
 * end the radius is (10 + 6) / 12 = 1.33333, the sides 10 over 12; equivalent diameters 15.95769 and 12.36077 in, full
 * angle 2 atan(3.59692 / 56.54867) = 0.1270458 radian. */
static void an_elbow_that_changes_size_is_one_of_its_smaller_end_and_the_change(void **state) {
    struct piece_bench *bench = *state;
    struct stream large = rectangular(20, 10, 2000), small = rectangular(12, 10, 2000);
    const struct piece *piece = sound_piece(bench, "elbow 90 left to 12 x 10");
    double bend = (0.19 - 0.02 * (4.0 / 3 - 1.25) / 0.25) * (1.09 - 0.09 * (10.0 / 12 - 0.75) / 0.25);
    double n = 0.6, a = 0.1270458;
    double in = (((-0.0125 * n + 0.0224) * n - 0.00723) * n + 0.00444) * n - 0.00745;
    double out = 0.9453 * (1 - exp(-0.0541 * a * 180 / 3.14159265358979)) * pow(1 - n, 1.9196);
    double friction = (friction_of(bench, large, 28.27433 * INCH) + friction_of(bench, small, 28.27433 * INCH)) / 2;
    struct loss supply = loss_in(bench, piece, true, large, small), back = loss_in(bench, piece, false, large, small);
    assert_loss(bench, supply, bend + in * ((a - 6.2831853) * a - 10) * a, 1e-5, small, friction);
    assert_loss(bench, back, bend + out, 1e-5, small, friction);
    assert_int_equal(supply.source, SOURCE_NEAREST_BEND);
    assert_string_equal(supply.reference_name, "smaller end");
    /* To the size that it has it is a plain elbow. */
    struct loss same = loss_in(bench, sound_piece(bench, "elbow 90 left to 20 x 10"), true, large, large);
    assert_near(same.pressure, loss_in(bench, sound_piece(bench, "elbow 90 left"), true, large, large).pressure,
                PASCAL);
    /* Square: the mitre of the smaller end and the abrupt change. */
    struct loss square = loss_in(bench, sound_piece(bench, "elbow 90 left to 12 x 10, square"), true, large, small);
    struct loss mitre = loss_in(bench, sound_piece(bench, "elbow 90 left, square"), true, small, small);
    assert_near(square.coefficient, mitre.coefficient + 0.5 * pow(0.4, 0.75), 1e-9);
    assert_near(square.friction, 0, 0);
}

static void an_offset_is_two_elbows(void **state) {
    struct piece_bench *bench = *state;
    struct stream duct = rectangular(14, 14, 4000);
    /* 24 aside over 24, of which its collars take 4: 4 u2 - 40 u + 24 = 0, u = 0.6411 the tangent of 32.665 degrees.
     * Two mitres of 65.33: (1.50 - 0.22 x 5.33 / 15) x (0.95 s + 2.05 s2), s = sin2 32.665; the middle line is 4 in,
     * 14 u, and 24 / sin 65.33 long. */
    struct loss angled = loss_in(bench, sound_piece(bench, "offset 24 in left over 24 in"), true, duct, duct);
    double u = (40 - sqrt(40 * 40 - 4 * 4 * 24)) / 8, sine = u * u / (1 + u * u);
    double mitre = (1.50 - 0.22 * (2 * atan(u) / DEGREE - 60) / 15) * (0.95 * sine + 2.05 * sine * sine);
    double length = 4 + 14 * u + 24 * (1 + u * u) / (2 * u);
    assert_loss(bench, angled, 2 * mitre, 1e-9, duct, friction_of(bench, duct, length * INCH));
    /* 8 aside over 24, 20 between its collars: radius (400 + 64) / 32 = 14.5 in, 43.6028 degrees each; r/W 14.5/14,
     * A1 0.45 + 0.15 x 13.6028 / 15, B1 0.21 - 0.02 x 0.0357143 / 0.25 */
    struct loss ogee = loss_in(bench, sound_piece(bench, "offset 8 in left over 24 in, ogee"), true, duct, duct);
    double bend = (0.45 + 0.15 * 13.602818 / 15) * (0.21 - 0.02 * (14.5 / 14 - 1) / 0.25);
    length = 4 + 2 * 14.5 * 43.602818 * DEGREE;
    assert_loss(bench, ogee, 2 * bend, 1e-6, duct, friction_of(bench, duct, length * INCH));
    assert_int_equal(ogee.source, SOURCE_OFFSET_ELBOWS);
}

/* The angles that patterns of these have, measured on them with a protractor. */
static void an_offset_loses_what_two_square_elbows_of_its_cut_do(void **state) {
    struct piece_bench *bench = *state;
    static const struct {
        const char *offset, *elbow;
        double within;
    } cuts[] = {
        {"offset 12 in up over 24 in", "elbow 36.87 up, square", 1e-4},
        {"offset 5 in up over 14 in", "elbow 30 up, square", 0.02},
        {"offset 21 in up over 16 in", "elbow 79 up, square", 0.02},
        {"offset 57 in up over 16 in", "elbow 87 up, square", 0.03},
    };
    struct stream duct = rectangular(16, 12, 800);
    for (size_t i = 0; i < sizeof cuts / sizeof cuts[0]; i++) {
        struct loss offset = loss_in(bench, sound_piece(bench, cuts[i].offset), true, duct, duct);
        struct loss elbow = loss_in(bench, sound_piece(bench, cuts[i].elbow), true, duct, duct);
        assert_near(offset.coefficient, 2 * elbow.coefficient, cuts[i].within);
        assert_null(offset.outside);
    }
}

/* As round elbows are: 20 in over 40, 36 between its collars, is two of 58.109 degrees in four pieces each. */
static void a_round_ogee_is_two_gored_elbows(void **state) {
    struct piece_bench *bench = *state;
    struct stream duct = round_duct(12, 4000);
    struct loss ogee = loss_in(bench, sound_piece(bench, "offset 20 in left over 40 in, ogee"), true, duct, duct);
    double angle = 2 * atan2(20, 36), radius = (20 * 20 + 36 * 36) / 80.0;
    char elbow[96];
    snprintf(elbow, sizeof elbow, "elbow %.12g left, radius %.12g, pieces 4", angle / DEGREE, radius / 12);
    struct loss gored = loss_in(bench, sound_piece(bench, elbow), true, duct, duct);
    assert_near(ogee.coefficient, 2 * gored.coefficient, 1e-9);
    assert_near(ogee.friction, 2 * gored.friction + friction_of(bench, duct, 4 * INCH), PASCAL);
}

/* ---- Transitions ------------------------------------------------------------------------------------------------- */

static void a_transition_is_a_contraction_or_a_diffuser_by_the_airs_direction(void **state) {
    struct piece_bench *bench = *state;
    struct stream large = round_duct(12, 400), small = round_duct(6, 400);
    const struct piece *piece = sound_piece(bench, "transition over 12 in");
    double friction = (friction_of(bench, large, 12 * INCH) + friction_of(bench, small, 12 * INCH)) / 2;
    /* Full angle 28.07249 degrees = 0.489957 radian, n = 0.25. */
    double a = 0.4899573, narrow = (-0.0125 / 256 + 0.0224 / 64 - 0.00723 / 16 + 0.00444 / 4 - 0.00745) *
                                   (a * a * a - 6.2831853 * a * a - 10 * a);
    double wide = 0.9453 * (1 - exp(-0.0541 * 28.07249)) * pow(0.75, 1.9196);
    struct loss supply = loss_in(bench, piece, true, large, small), back = loss_in(bench, piece, false, large, small);
    assert_loss(bench, supply, narrow, 1e-5, small, friction);
    assert_int_equal(supply.source, SOURCE_IDELCHIK_CONTRACTION);
    assert_loss(bench, back, wide, 1e-5, small, friction);
    assert_int_equal(back.source, SOURCE_IDELCHIK_DIFFUSER);
    assert_string_equal(back.reference_name, "smaller end");
}

static void a_transition_is_what_its_ends_are_whichever_way_it_is_hung(void **state) {
    struct piece_bench *bench = *state;
    struct stream large = rectangular(20, 14, 900), small = rectangular(14, 10, 900);
    const struct piece *piece = sound_piece(bench, "transition over 20 in, flat top");
    struct loss supply = loss_in(bench, piece, true, large, small), back = loss_in(bench, piece, false, small, large);
    assert_near(supply.pressure, back.pressure, PASCAL);
    assert_int_equal(supply.source, SOURCE_NEAREST_CHANGE);
}

static void a_change_of_shape_alone_is_not_free(void **state) {
    struct piece_bench *bench = *state;
    struct stream flat = rectangular(24, 8, 900), tall = rectangular(16, 12, 900);
    struct loss loss = loss_in(bench, sound_piece(bench, "transition over 18 in"), true, flat, tall);
    /* The height grows by half in 2 atan(4 / 36) = 12.6804 degrees. */
    assert_near(loss.coefficient, 0.9453 * (1 - exp(-0.0541 * 12.6804)) * pow(1 - 8.0 / 12, 1.9196), 1e-5);
    struct loss none = loss_in(bench, sound_piece(bench, "transition over 18 in"), true, flat, flat);
    assert_near(none.coefficient, 0, 0);
    assert_near(none.pressure, friction_of(bench, flat, 18 * INCH), PASCAL);
}

/* 24 aside over 24 in a duct of one size leans by 45 degrees: two mitres of that; so do 14.4 and 19.2. */
static void a_transition_that_is_moved_costs_a_step_aside_besides(void **state) {
    struct piece_bench *bench = *state;
    struct stream duct = rectangular(14, 14, 4000), round = round_duct(8, 400);
    double mitres = 2 * loss_in(bench, sound_piece(bench, "elbow 45 left, square"), true, duct, duct).coefficient;
    struct loss left = loss_in(bench, sound_piece(bench, "transition over 24 in, left 24 in"), true, duct, duct);
    const struct piece *skewed = sound_piece(bench, "transition over 24 in, right 14.4 in, down 19.2 in");
    assert_near(left.coefficient, mitres, 1e-9);
    assert_near(left.friction, friction_of(bench, duct, 24 * sqrt(2) * INCH), PASCAL);
    assert_near(loss_in(bench, skewed, true, duct, duct).pressure, left.pressure, PASCAL);
    assert_int_equal(left.source, SOURCE_NEAREST_CHANGE);
    /* On the smaller end, with the change itself; by no relation of its own, round or not. */
    struct stream wide = round_duct(12, 400);
    struct loss moved = loss_in(bench, sound_piece(bench, "transition over 24 in, up 24 in"), true, wide, round);
    struct loss plain = loss_in(bench, sound_piece(bench, "transition over 24 in"), true, wide, round);
    assert_near(moved.coefficient - plain.coefficient, mitres, 1e-9);
    assert_near(moved.reference, pressure_of(bench, round), PASCAL);
    assert_int_equal(moved.source, SOURCE_NEAREST_CHANGE);
}

/* A square turned by 90 degrees is half its area halfway: equivalent diameters 15.79730 and 11.17038 in, half of 24 in
 * apart, 2 atan(4.62692 / 24) = 0.380904 radian.  The velocity pressure there is four times that of the ends. */
static void a_transition_that_is_turned_is_drawn_together_halfway(void **state) {
    struct piece_bench *bench = *state;
    struct stream duct = rectangular(14, 14, 900);
    struct loss loss = loss_in(bench, sound_piece(bench, "transition over 24 in, turned 90"), true, duct, duct);
    double n = 0.5, a = 0.3809039, degrees = a * 180 / 3.14159265358979;
    double in = (((-0.0125 * n + 0.0224) * n - 0.00723) * n + 0.00444) * n - 0.00745;
    double out = 0.9453 * (1 - exp(-0.0541 * degrees)) * pow(1 - n, 1.9196);
    assert_near(loss.coefficient, 4 * (in * ((a - 6.2831853) * a - 10) * a + out), 1e-5);
    struct loss back = loss_in(bench, sound_piece(bench, "transition over 24 in, turned -90"), false, duct, duct);
    assert_near(back.coefficient, loss.coefficient, 1e-12);
    /* Not of a round end. */
    struct stream round = round_duct(10, 900);
    struct loss turned = loss_in(bench, sound_piece(bench, "transition over 24 in, turned 45"), true, duct, round);
    assert_near(turned.pressure,
                loss_in(bench, sound_piece(bench, "transition over 24 in"), true, duct, round).pressure, 0);
}

static void a_connection_without_a_piece_is_twice_as_long_as_it_changes(void **state) {
    struct piece_bench *bench = *state;
    struct stream large = rectangular(18, 14, 900), small = rectangular(12, 12, 900);
    struct piece implied = {.kind = kind_named("transition"), .implied = true};
    struct piece_flow flow = flow_through(bench, &implied, true, large, small);
    flow.role = ITEM_CONNECT;
    struct loss written = loss_in(bench, sound_piece(bench, "transition over 12 in"), true, large, small);
    assert_near(loss_of(&flow).pressure, written.pressure, PASCAL);
    flow.near = small;
    assert_near(loss_of(&flow).pressure, 0, 0);
}

/* ---- Taps -------------------------------------------------------------------------------------------------------- */

static struct piece_flow at_tap(const struct piece_bench *bench, const struct piece *piece, bool supply, bool past) {
    struct stream common = rectangular(18, 8, 600), branch = round_duct(8, 180), through = rectangular(18, 8, 420);
    struct piece_flow flow = flow_through(bench, piece, supply, common, past ? through : branch);
    flow.role = past ? ITEM_PAST : ITEM_BRANCH;
    flow.common = common;
    flow.branch = branch;
    flow.through = through;
    return flow;
}

/* Q = 0.3, f = 50.2655 / 144 = 0.349066, x = 0.859437 */
static void a_tap_is_a_branch_of_its_angle(void **state) {
    struct piece_bench *bench = *state;
    static const struct {
        const char *line;
        double factor, cosine;
        enum source_id source;
    } rows[] = {
        {"tap", 1, 0, SOURCE_IDELCHIK_TAP},
        {"tap spin", 1, 0, SOURCE_IDELCHIK_TAP},
        {"tap saddle", 1, 0, SOURCE_NEAREST_TAP},
        {"tap shoe", 0.89, 0.70710678, SOURCE_NEAREST_TAP},
        {"tap conical", 0.89, 0.5, SOURCE_NEAREST_TAP},
    };
    const double x = 0.8594367;
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        struct piece_flow flow = at_tap(bench, sound_piece(bench, rows[i].line), true, false);
        struct loss loss = loss_of(&flow);
        assert_loss(bench, loss, rows[i].factor * (1 + x * x - 2 * x * rows[i].cosine), 1e-6, flow.common, 0);
        assert_int_equal(loss.source, rows[i].source);
        assert_string_equal(loss.reference_name, "common");
    }
}

static void air_past_a_tap_has_its_own_coefficient(void **state) {
    struct piece_bench *bench = *state;
    struct piece_flow flow = at_tap(bench, sound_piece(bench, "tap"), true, true);
    assert_loss(bench, loss_of(&flow), 0.4 * 0.09, 1e-9, flow.common, 0);
    /* Over 0.4 of the area, air behind the tap slows and gains pressure: 2 (0.6 - 1) 0.09. */
    flow.branch = round_duct(10, 180);
    struct loss gain = loss_of(&flow);
    assert_loss(bench, gain, -0.072, 1e-9, flow.common, 0);
    assert_true(gain.pressure < 0);
}

static void on_the_return_side_air_joins(void **state) {
    struct piece_bench *bench = *state;
    struct piece_flow branch = at_tap(bench, sound_piece(bench, "tap"), false, false);
    const double x = 0.8594367;
    struct loss joined = loss_of(&branch);
    assert_loss(bench, joined, 1 + x * x - 2 * 0.49, 1e-6, branch.common, 0);
    assert_int_equal(joined.source, SOURCE_IDELCHIK_JOIN);
    struct piece_flow past = at_tap(bench, sound_piece(bench, "tap"), false, true);
    assert_loss(bench, loss_of(&past), 1.55 * 0.3 - 0.09, 1e-9, past.common, 0);
}

/* ---- Splits ------------------------------------------------------------------------------------------------------ */

static struct piece_flow at_leg(const struct piece_bench *bench, const struct piece *piece, bool supply, enum leg leg) {
    struct stream common = rectangular(20, 10, 1000), one = rectangular(8, 10, 400), other = rectangular(12, 10, 600);
    struct piece_flow flow = flow_through(bench, piece, supply, common, leg == LEG_LEFT ? one : other);
    flow.role = ITEM_LEG;
    flow.leg = leg;
    flow.common = common;
    flow.branch = flow.far;
    flow.through = leg == LEG_LEFT ? other : one;
    return flow;
}

static void a_split_has_the_coefficient_of_its_kind(void **state) {
    struct piece_bench *bench = *state;
    /* Both legs run as fast as the whole: x = 1. */
    struct piece_flow wye = at_leg(bench, sound_piece(bench, "split wye over 24 in"), true, LEG_LEFT);
    struct loss loss = loss_of(&wye);
    double friction = friction_of(bench, wye.branch, 24 * INCH);
    assert_loss(bench, loss, 2 - 1.41421356 - 0.36, 1e-6, wye.common, friction);
    assert_int_equal(loss.source, SOURCE_IDELCHIK_SPLIT);

    struct piece_flow sharp = at_leg(bench, sound_piece(bench, "split bullhead"), true, LEG_RIGHT);
    assert_loss(bench, loss_of(&sharp), 2.5, 1e-9, sharp.common, 0);
    struct piece_flow vaned = at_leg(bench, sound_piece(bench, "split bullhead, vanes"), true, LEG_RIGHT);
    assert_loss(bench, loss_of(&vaned), 1.3, 1e-9, vaned.common, 0);
    assert_int_equal(loss_of(&vaned).source, SOURCE_NEAREST_SPLIT);

    /* Legs that share the whole area: 1 + x^2 - x^2 into the side, nothing straight on at the same velocity. */
    const struct piece *tee = sound_piece(bench, "split tee");
    struct piece_flow side = at_leg(bench, tee, true, LEG_LEFT), straight = at_leg(bench, tee, true, LEG_STRAIGHT);
    assert_loss(bench, loss_of(&side), 1, 1e-9, side.common, 0);
    assert_loss(bench, loss_of(&straight), 0, 1e-9, straight.common, 0);
    straight.branch = straight.far = rectangular(20, 10, 600);
    assert_loss(bench, loss_of(&straight), 0.16, 1e-9, straight.common, 0);
    /* A straight leg that keeps the whole area: a tap, 1 + x^2. */
    side.through = rectangular(20, 10, 600);
    assert_loss(bench, loss_of(&side), 2, 1e-9, side.common, 0);
    assert_int_equal(loss_of(&side).source, SOURCE_IDELCHIK_TAP);
    /* Areas that neither share the whole nor keep it: the leg's own velocity still counts, 1 + x^2. */
    side.through = rectangular(15, 10, 600);
    assert_loss(bench, loss_of(&side), 2, 1e-9, side.common, 0);
    assert_int_equal(loss_of(&side).source, SOURCE_NEAREST_SPLIT);
    side.branch = side.far = rectangular(16, 10, 400);
    assert_loss(bench, loss_of(&side), 1 + 0.5 * 0.5, 1e-9, side.common, 0);
}

static void on_the_return_side_legs_join(void **state) {
    struct piece_bench *bench = *state;
    /* Q = f = 0.4, x = 1, A = 0.9 x 0.6: A (2 - 2 x 0.36 - 0.8 cos a) */
    struct piece_flow wye = at_leg(bench, sound_piece(bench, "split wye"), false, LEG_LEFT);
    struct loss loss = loss_of(&wye);
    assert_loss(bench, loss, 0.54 * (2 - 0.72 - 0.8 * 0.70710678), 1e-6, wye.common, 0);
    assert_int_equal(loss.source, SOURCE_NEAREST_SPLIT);
    const struct piece *tee = sound_piece(bench, "split tee");
    struct piece_flow side = at_leg(bench, tee, false, LEG_LEFT), straight = at_leg(bench, tee, false, LEG_STRAIGHT);
    assert_loss(bench, loss_of(&side), 0.54 * 1.28, 1e-9, side.common, 0);
    assert_loss(bench, loss_of(&straight), 1.55 * 0.4 - 0.16, 1e-9, straight.common, 0);
}

/* From memory: Idelchik, merging of opposed streams: 1 + 1/f^2 + 3 (Q^2 - Q)/f^2; legs of half the area and half the
 * air each: 1 + 4 - 3 = 2. */
static void the_legs_of_a_bullhead_on_the_return_side_run_against_each_other(void **state) {
    struct piece_bench *bench = *state;
    struct piece_flow flow = at_leg(bench, sound_piece(bench, "split bullhead"), false, LEG_LEFT);
    flow.branch = flow.far = flow.through = rectangular(10, 10, 500);
    assert_loss(bench, loss_of(&flow), 2, 1e-9, flow.common, 0);
    assert_int_equal(loss_of(&flow).source, SOURCE_IDELCHIK_JOIN_BULLHEAD);
    flow.through = rectangular(14, 10, 500);
    assert_int_equal(loss_of(&flow).source, SOURCE_NEAREST_SPLIT);
}

/* Diagram 7-16's K is for legs that have the whole area, a return tee's relation for a straight leg that keeps it. */
static void a_split_of_other_areas_says_that_its_relation_is_the_nearest(void **state) {
    struct piece_bench *bench = *state;
    struct piece_flow wye = at_leg(bench, sound_piece(bench, "split wye"), true, LEG_LEFT);
    assert_int_equal(loss_of(&wye).source, SOURCE_IDELCHIK_SPLIT);
    wye.through = rectangular(20, 10, 600);
    assert_int_equal(loss_of(&wye).source, SOURCE_NEAREST_SPLIT);
    struct piece_flow straight = at_leg(bench, sound_piece(bench, "split tee"), false, LEG_STRAIGHT);
    assert_int_equal(loss_of(&straight).source, SOURCE_NEAREST_SPLIT);
    straight.branch = straight.far = rectangular(20, 10, 600);
    assert_int_equal(loss_of(&straight).source, SOURCE_IDELCHIK_JOIN);
}

/* ---- Devices ----------------------------------------------------------------------------------------------------- */

static void a_damper_goes_by_its_blade(void **state) {
    struct piece_bench *bench = *state;
    struct stream round = round_duct(8, 150), duct = rectangular(10, 8, 300);
    assert_loss(bench, loss_in(bench, sound_piece(bench, "damper"), true, round, round), 0.20, 1e-9, round, 0);
    assert_loss(bench, loss_in(bench, sound_piece(bench, "damper volume, open 60"), true, round, round), 3.91, 1e-9,
                round, 0);
    assert_loss(bench, loss_in(bench, sound_piece(bench, "damper volume, open 60"), true, duct, duct), 3.54, 1e-9, duct,
                0);
    struct loss shut = loss_in(bench, sound_piece(bench, "damper volume, open 10"), true, round, round);
    assert_near(shut.coefficient, 751, 1e-9);
    assert_non_null(shut.outside);
    struct loss back = loss_in(bench, sound_piece(bench, "damper backdraft"), true, round, round);
    assert_loss(bench, back, 1.54, 1e-9, round, 0);
    assert_int_equal(back.source, SOURCE_NEAREST_DAMPER);
}

static void a_damper_in_oval_duct_says_that_its_relation_is_the_nearest(void **state) {
    struct piece_bench *bench = *state;
    struct stream flat = oval(16, 8, 300), duct = rectangular(16, 8, 300);
    const struct piece *damper = sound_piece(bench, "damper volume, open 60");
    assert_int_equal(loss_in(bench, damper, true, flat, flat).source, SOURCE_NEAREST_DAMPER);
    assert_int_equal(loss_in(bench, damper, true, duct, duct).source, SOURCE_DAMPER_BLADE);
}

static void a_boot_is_an_elbow_and_a_change_to_the_face(void **state) {
    struct piece_bench *bench = *state;
    struct stream duct = round_duct(6, 100);
    struct loss bare = loss_in(bench, sound_piece(bench, "boot"), true, duct, duct);
    assert_loss(bench, bare, 1.185, 1e-9, duct, 0);
    bench->run.face = sound_piece(bench, "register 10 x 6");
    struct loss straight = loss_in(bench, sound_piece(bench, "boot straight"), true, duct, duct);
    /* 28.2743 to 60 in2 over 8 in: equivalent diameters 6 and 8.74039 in, 2 atan(2.74039 / 16) = 19.43801 degrees */
    double wide = 0.9453 * (1 - exp(-0.0541 * 19.43801)) * pow(1 - 28.27433 / 60, 1.9196);
    assert_loss(bench, straight, wide, 1e-5, duct, 0);
    struct loss elbow = loss_in(bench, sound_piece(bench, "boot elbow"), true, duct, duct);
    assert_loss(bench, elbow, 1.185 + wide, 1e-5, duct, 0);
    assert_int_equal(elbow.source, SOURCE_NEAREST_BOOT);
    /* The same air through a smaller face: on the velocity of the duct the loss of the face's counts the square of the
     * areas more. */
    bench->run.face = sound_piece(bench, "register 4 x 3");
    struct loss tight = loss_in(bench, sound_piece(bench, "boot straight"), true, duct, duct);
    struct stream face = rectangular(4, 3, 100);
    struct loss cone = loss_in(bench, sound_piece(bench, "transition over 8 in"), true, duct, face);
    assert_near(tight.pressure, cone.coefficient * cone.reference, 1e-6);
}

/* 8 aside over 8: two mitres of 45 degrees in square duct. */
static void a_boot_that_is_moved_costs_a_step_aside_besides(void **state) {
    struct piece_bench *bench = *state;
    struct stream duct = rectangular(10, 10, 300);
    bench->run.face = sound_piece(bench, "register 14 x 8");
    struct loss plain = loss_in(bench, sound_piece(bench, "boot straight"), true, duct, duct);
    struct loss moved = loss_in(bench, sound_piece(bench, "boot straight, up 8 in"), true, duct, duct);
    double mitre = 1.87 * (0.95 * 0.1464466 + 2.05 * 0.0214466);
    assert_near(moved.coefficient - plain.coefficient, 2 * mitre, 1e-6);
    assert_int_equal(moved.source, SOURCE_NEAREST_BOOT);
}

/* From memory: ASHRAE Handbook, Fundamentals: exit 1.0, flush entry 0.5. */
static void a_boot_without_a_face_is_open_to_the_room(void **state) {
    struct piece_bench *bench = *state;
    struct stream duct = round_duct(6, 100);
    bench->run.role = RUN_OUTLET;
    const struct piece *boot = sound_piece(bench, "boot straight");
    assert_loss(bench, loss_in(bench, boot, true, duct, duct), 1.0, 1e-9, duct, 0);
    assert_loss(bench, loss_in(bench, boot, false, duct, duct), 0.5, 1e-9, duct, 0);
    /* The face may be that of what hangs from the boot's run. */
    struct run outlet = {.role = RUN_OUTLET, .face = sound_piece(bench, "register 10 x 6")};
    bench->run.role = RUN_DUCT;
    bench->run.end = &outlet;
    assert_near(loss_in(bench, boot, true, duct, duct).coefficient, 0.18100, 1e-5);
}

static void a_box_is_a_step_up_and_a_step_down(void **state) {
    struct piece_bench *bench = *state;
    struct stream duct = rectangular(20, 10, 900);
    struct loss loss = loss_in(bench, sound_piece(bench, "box 20 x 20 x 24"), true, duct, duct);
    assert_loss(bench, loss, 0.25 + 0.5 * 0.59460356, 1e-6, duct, 0);
    struct loss small = loss_in(bench, sound_piece(bench, "box 8 x 8 x 24"), true, duct, duct);
    assert_near(small.pressure, 0, 0);
    assert_non_null(small.outside);
}

/* At the end where no duct follows, or that the air does not pass: nothing. */
static void a_box_costs_nothing_at_an_end_that_the_air_does_not_pass(void **state) {
    struct piece_bench *bench = *state;
    struct stream duct = rectangular(20, 10, 900);
    const struct piece *box = sound_piece(bench, "box 20 x 20 x 24");
    struct piece_flow first = flow_through(bench, box, true, duct, duct), last = first;
    first.skips_far = last.skips_near = true;
    assert_loss(bench, loss_of(&first), 0.25, 1e-9, duct, 0);
    assert_loss(bench, loss_of(&last), 0.5 * 0.59460356, 1e-6, duct, 0);
    first.supply = last.supply = false;
    assert_loss(bench, loss_of(&first), 0.5 * 0.59460356, 1e-6, duct, 0);
    assert_loss(bench, loss_of(&last), 0.25, 1e-9, duct, 0);
}

/* Makers give drops in standard air; the drop goes with the density, as the loss of a duct does. */
static void a_drop_in_thin_air_is_less_as_the_density(void **state) {
    struct piece_bench *bench = *state;
    struct stream duct = round_duct(8, 140);
    const struct piece *drop = sound_piece(bench, "drop \"coil\" 0.20 in.wg"),
                       *bare = sound_piece(bench, "register 10 x 6");
    bench->air = air_state(7000 * FOOT);
    double ratio = bench->air.density / air_state(0).density;
    assert_true(ratio < 0.8);
    assert_near(loss_in(bench, drop, true, duct, duct).pressure, 0.20 * INCH_OF_WATER * ratio, PASCAL);
    assert_near(loss_in(bench, bare, true, duct, duct).pressure, 0.03 * INCH_OF_WATER * ratio, PASCAL);
}

static void declared_drops_go_with_the_square_of_the_airflow(void **state) {
    struct piece_bench *bench = *state;
    struct stream duct = round_duct(8, 140);
    static const struct {
        const char *line;
        double inches;
        enum source_id source;
    } rows[] = {
        {"drop \"coil\" 0.20 in.wg at 280 cfm", 0.05, SOURCE_DECLARED_DROP},
        {"drop \"coil\" 0.20 in.wg", 0.20, SOURCE_DECLARED_DROP},
        {"register 10 x 6, 0.04 in.wg at 70 cfm", 0.16, SOURCE_DECLARED_DROP},
        {"register 10 x 6, 0.04 in.wg", 0.04, SOURCE_DECLARED_DROP},
        {"register 10 x 6", 0.03, SOURCE_ASSUMED_DROP},
        {"grille 20 x 14", 0.03, SOURCE_ASSUMED_DROP},
        {"filter 20 x 25 x 1", 0.10, SOURCE_ASSUMED_DROP},
        {"filter 20 x 25 x 1, 0.12 in.wg", 0.12, SOURCE_DECLARED_DROP},
    };
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        struct loss loss = loss_in(bench, sound_piece(bench, rows[i].line), true, duct, duct);
        assert_near(loss.pressure, rows[i].inches * INCH_OF_WATER, 1e-6);
        assert_near(loss.friction, 0, 0);
        assert_int_equal(loss.source, rows[i].source);
    }
}

static void faces_keep_their_width_and_height(void **state) {
    const struct piece *filter = sound_piece(*state, "filter 20 x 25 x 1");
    assert_true(size_equal(filter->kind->face(filter), rectangular(20, 25, 0).size));
    const struct piece *diffuser = sound_piece(*state, "register 8 round");
    assert_true(size_equal(diffuser->kind->face(diffuser), round_duct(8, 0).size));
}

static void flexible_duct_has_its_stretch_or_the_shops(void **state) {
    struct piece_bench *bench = *state;
    const struct piece *own = sound_piece(bench, "flex 9 ft, stretched 90 %");
    const struct piece *shops = sound_piece(bench, "flex 9 ft");
    double roughness = 0, factor = 0, diameter = 8 * INCH;
    bench->run.settings.stretch = 0.96;
    own->kind->wall(own, diameter, &roughness, &factor);
    assert_near(factor, air_flex_factor(diameter, 0.90), 0);
    assert_near(roughness, air_flex_roughness(), 0);
    shops->kind->wall(shops, diameter, &roughness, &factor);
    assert_near(factor, air_flex_factor(diameter, 0.96), 0);
    assert_true(factor > 1);
}

static void bends_of_flexible_duct_are_round_elbows(void **state) {
    struct piece_bench *bench = *state;
    struct stream duct = round_duct(8, 2000);
    struct piece_flow flow = flow_through(bench, sound_piece(bench, "flex 9 ft, bends 2"), true, duct, duct);
    flow.length = 9 * FOOT;
    assert_loss(bench, loss_of(&flow), 0.42, 1e-9, duct, 0);
    flow.length = 3 * FOOT;
    assert_loss(bench, loss_of(&flow), 0.14, 1e-9, duct, 0);
}

static void a_connector_is_as_rough_as_flexible_duct(void **state) {
    struct piece_bench *bench = *state;
    struct stream duct = rectangular(18, 14, 1200);
    struct loss loss = loss_in(bench, sound_piece(bench, "connector 4 in"), true, duct, duct);
    double rate = air_friction_rate(&bench->air, duct.flow, air_equivalent_diameter(duct.size), air_flex_roughness());
    assert_near(loss.friction, rate * 4 * INCH, PASCAL);
    assert_near(loss.pressure, loss.friction, 0);
}

#define test(name) cmocka_unit_test_setup_teardown(name, piece_bench_set_up, piece_bench_tear_down)

int main(void) {
    const struct CMUnitTest tests[] = {
        test(a_radius_elbow_bends_the_side_in_its_plane),
        test(an_elbow_loses_more_at_a_low_reynolds_number),
        test(a_square_elbow_is_a_mitre),
        test(vanes_never_make_a_radius_elbow_worse),
        test(a_round_elbow_is_gored),
        test(an_oval_elbow_says_that_its_relation_is_the_nearest),
        test(an_offset_is_two_elbows),
        test(an_offset_loses_what_two_square_elbows_of_its_cut_do),
        test(a_round_ogee_is_two_gored_elbows),
        test(a_transition_is_a_contraction_or_a_diffuser_by_the_airs_direction),
        test(a_transition_is_what_its_ends_are_whichever_way_it_is_hung),
        test(a_change_of_shape_alone_is_not_free),
        test(an_elbow_that_changes_size_is_one_of_its_smaller_end_and_the_change),
        test(a_transition_that_is_moved_costs_a_step_aside_besides),
        test(a_transition_that_is_turned_is_drawn_together_halfway),
        test(a_boot_that_is_moved_costs_a_step_aside_besides),
        test(a_connection_without_a_piece_is_twice_as_long_as_it_changes),
        test(a_tap_is_a_branch_of_its_angle),
        test(air_past_a_tap_has_its_own_coefficient),
        test(on_the_return_side_air_joins),
        test(a_split_has_the_coefficient_of_its_kind),
        test(on_the_return_side_legs_join),
        test(a_split_of_other_areas_says_that_its_relation_is_the_nearest),
        test(the_legs_of_a_bullhead_on_the_return_side_run_against_each_other),
        test(a_damper_goes_by_its_blade),
        test(a_damper_in_oval_duct_says_that_its_relation_is_the_nearest),
        test(a_boot_is_an_elbow_and_a_change_to_the_face),
        test(a_boot_without_a_face_is_open_to_the_room),
        test(a_box_is_a_step_up_and_a_step_down),
        test(a_drop_in_thin_air_is_less_as_the_density),
        test(a_box_costs_nothing_at_an_end_that_the_air_does_not_pass),
        test(declared_drops_go_with_the_square_of_the_airflow),
        test(faces_keep_their_width_and_height),
        test(flexible_duct_has_its_stretch_or_the_shops),
        test(bends_of_flexible_duct_are_round_elbows),
        test(a_connector_is_as_rough_as_flexible_duct),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
