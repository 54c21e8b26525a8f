/* Elbows and turning vanes: proved for random sizes, held against closed forms and independent figures, and faulted. */
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <setjmp.h>
#include <cmocka.h>

#include "metal/metal.h"
#include "metal/shape_elbow.h"
#include "metal/shape_vane.h"
#include "bend_sizes.h"
#include "near.h"
#include "pattern_cases.h"
#include "solid_prove.h"
#include "solid_sums.h"

/* ---- Everything that a fitting must be, for random sizes --------------------------------------------------------- */

enum { TRIES = 1000 };

static double random_angle(void) {
    static const double common[] = {1, 15, 30, 45, 60, 90, 120, 179, 180};
    return (random_chance(0.5) ? common[random_below(9)] : random_between(1, 180)) * DEGREE;
}

static struct radius_elbow random_radius_elbow(void) {
    struct radius_elbow elbow = {
        .near = random_rectangle(),
        .way = random_below(4),
        .angle = random_angle(),
        .throat = random_chance(0.2) ? 0 : random_inches(0, 40),
        .collar = random_chance(0.3) ? 0 : random_inches(0.5, 6),
    };
    elbow.far = elbow.near;
    if (random_chance(0.5))
        *plane_side(&elbow.far, elbow.way) = random_inches(3, 60);
    return elbow;
}

static void radius_elbows_are_proved(void **state) {
    (void)state;
    int built = 0;
    for (int n = 0; n < TRIES; n++) {
        struct radius_elbow elbow = random_radius_elbow();
        built += solid_prove_or_fault("radius elbow", shape_radius_elbow, &elbow, sizeof elbow);
    }
    assert_true(built > TRIES / 2);
}

static struct square_elbow random_square_elbow(void) {
    struct square_elbow elbow = {
        .near = random_rectangle(),
        .way = random_below(4),
        .angle = fmin(random_angle(), 150 * DEGREE),
        .leg = random_inches(0.5, 12),
        .vanes = random_below(3),
    };
    elbow.far = random_chance(0.4) ? random_rectangle() : elbow.near;
    if (random_chance(0.3))
        *depth_side(&elbow.far, elbow.way) = *depth_side(&elbow.near, elbow.way);
    return elbow;
}

static void square_elbows_are_proved(void **state) {
    (void)state;
    int built = 0;
    for (int n = 0; n < TRIES; n++) {
        struct square_elbow elbow = random_square_elbow();
        built += solid_prove_or_fault("square elbow", shape_square_elbow, &elbow, sizeof elbow);
    }
    assert_true(built > TRIES / 2);
}

static struct gored_elbow random_gored_elbow(void) {
    struct gored_elbow elbow = {
        .duct = random_tube(),
        .way = random_below(4),
        .angle = random_angle(),
        .pieces = 2 + random_below(7),
        .collar = random_chance(0.5) ? 0 : random_inches(0.5, 6),
    };
    double half = *plane_side(&elbow.duct, elbow.way) / 2;
    elbow.radius = half + (random_chance(0.1) ? 0 : random_inches(0, 40));
    return elbow;
}

static void gored_elbows_are_proved(void **state) {
    (void)state;
    int built = 0;
    for (int n = 0; n < TRIES / 3; n++) {
        struct gored_elbow elbow = random_gored_elbow();
        built += solid_prove_or_fault("gored elbow", shape_gored_elbow, &elbow, sizeof elbow);
    }
    assert_true(built > TRIES / 6);
}

static void tiny_and_huge_elbows_are_proved(void **state) {
    (void)state;
    static const double scales[] = {0.5 * INCH, 400 * INCH};
    for (int i = 0; i < 2; i++) {
        double s = scales[i];
        struct shape_duct duct = {SHAPE_RECTANGULAR, s, s}, lesser = {SHAPE_RECTANGULAR, s / 2, s},
                          tube = {SHAPE_ROUND, s, s};
        struct radius_elbow radius = {duct, lesser, WAY_UP, 90 * DEGREE, s / 2, s / 10};
        radius.far = (struct shape_duct){SHAPE_RECTANGULAR, s, s / 2};
        struct square_elbow square = {duct, lesser, WAY_LEFT, 90 * DEGREE, s / 2, 0};
        struct gored_elbow gored = {tube, WAY_DOWN, 90 * DEGREE, 1.5 * s, 5, 0};
        solid_prove("radius elbow", shape_radius_elbow, &radius, sizeof radius);
        solid_prove("square elbow", shape_square_elbow, &square, sizeof square);
        solid_prove("gored elbow", shape_gored_elbow, &gored, sizeof gored);
    }
}

/* ---- Closed forms ------------------------------------------------------------------------------------------------ */

/* Where the far port of a turn about a point at the throat's radius from the near port's side stands. */
static void the_far_port_stands_where_the_turn_ends(void **state) {
    (void)state;
    static const struct space ends[] = {{-1, 1, 0}, {1, 1, 0}, {0, 1, 1}, {0, 1, -1}};
    for (int way = 0; way < 4; way++) {
        struct radius_elbow elbow = {rectangle(10, 10), rectangle(10, 10), way, 90 * DEGREE, 5 * INCH, 0};
        struct sums sums = sums_of(shape_radius_elbow, &elbow, 1);
        const struct solid_port *port = &sums.solid->ports.at[1];
        struct space out = {ends[way].x, 0, ends[way].z};
        assert_near(space_distance(port->frame.origin, space_scale(ends[way], 10 * INCH)), 0, 1e-12);
        assert_near(space_distance(port->frame.along, out), 0, 1e-12);
        assert_near(way < 2 ? port->frame.up.z : fabs(port->frame.right.x), 1, 1e-12);
        sums_free(&sums);
    }
}

static void a_heel_that_changes_width_has_one_arc_and_one_straight(void **state) {
    (void)state;
    struct radius_elbow elbow = {rectangle(12, 8), rectangle(18, 8), WAY_LEFT, 90 * DEGREE, 6 * INCH, 1 * INCH};
    struct sums sums = sums_of(shape_radius_elbow, &elbow, 1);
    /* Radius of throat and lesser width; the straight at the narrower end makes up for the difference. */
    assert_near(sums_length(&sums, "heel") / INCH, PI / 2 * 18 + (18 - 12) + 2, 1e-9);
    assert_near(sums_length(&sums, "throat") / INCH, PI / 2 * 6 + 2, 1e-9);
    /* The cheek: what the heel's arc spans about its own centre, with the straights, less the throat's quarter. */
    double heel_quarter = PI / 4 * 18 * 18 + 6 * 18, cheek = heel_quarter - PI / 4 * 6 * 6 + 1 * 12 + 1 * 18;
    assert_near(sums_area(&sums, "cheek") / INCH / INCH / 2, cheek, 1e-8);
    sums_free(&sums);
}

static void pieces_of_one_length_are_cut_alike(void **state) {
    (void)state;
    struct gored_elbow elbow = {{SHAPE_ROUND, 12 * INCH, 12 * INCH}, WAY_UP, 90 * DEGREE, 18 * INCH, 5, 2 * INCH};
    struct sums sums = sums_of(shape_gored_elbow, &elbow, 1);
    assert_int_equal(sums.solid->panels.count, 5);
    for (size_t i = 2; i < 4; i++)
        assert_near(panel_area(&sums.solid->panels.at[i]), panel_area(&sums.solid->panels.at[1]), 1e-12);
    assert_near(panel_area(&sums.solid->panels.at[4]), panel_area(&sums.solid->panels.at[0]), 1e-12);
    sums_free(&sums);
}

static void a_seam_of_gores_lies_in_the_throat(void **state) {
    (void)state;
    struct gored_elbow elbow = {{SHAPE_ROUND, 12 * INCH, 12 * INCH}, WAY_LEFT, 90 * DEGREE, 18 * INCH, 5, 0};
    struct sums sums = sums_of(shape_gored_elbow, &elbow, 1);
    const struct solid_panel *gore = &sums.solid->panels.at[1];
    double throat = 2 * (18 - 6) * tan(11.25 * DEGREE) * INCH;
    assert_near(space_distance(gore->near[0], gore->far[0]), throat, 1e-12);
    sums_free(&sums);
}

/* ---- Independent figures ----------------------------------------------------------------------------------------- */

static void radius_elbow_case(const struct pattern_case *reference) {
    double width = case_input(reference, "cheek_width"), depth = case_input(reference, "depth");
    struct radius_elbow elbow = {
        .near = rectangle(width, depth),
        .far = rectangle(width, depth),
        .angle = case_input(reference, "angle_deg") * DEGREE,
        .throat = case_input(reference, "throat_radius") * INCH,
        .collar = case_input(reference, "collar") * INCH,
    };
    struct sums sums = sums_of(shape_radius_elbow, &elbow, 1);
    case_near(reference, "cheek_area_each", sums_area(&sums, "cheek") / INCH / INCH / 2);
    case_near(reference, "throat_area", sums_area(&sums, "throat") / INCH / INCH);
    case_near(reference, "heel_area", sums_area(&sums, "heel") / INCH / INCH);
    case_near(reference, "throat_length", sums_length(&sums, "throat") / INCH);
    case_near(reference, "heel_length", sums_length(&sums, "heel") / INCH);
    case_near(reference, "total_area", sums_area(&sums, NULL) / INCH / INCH);
    sums_free(&sums);
}

static void square_elbow_case(const struct pattern_case *reference) {
    double near = case_input(reference, "inlet_width"), far = case_input(reference, "outlet_width");
    double depth = case_input(reference, "depth");
    struct square_elbow elbow = {
        .near = rectangle(near, depth),
        .far = rectangle(far, depth),
        .angle = 90 * DEGREE,
        .leg = case_input(reference, "throat_leg") * INCH,
    };
    struct sums sums = sums_of(shape_square_elbow, &elbow, 1);
    case_near(reference, "cheek_area_each", sums_area(&sums, "cheek") / INCH / INCH / 2);
    case_near(reference, "throat_length", sums_length(&sums, "throat") / INCH);
    case_near(reference, "heel_length", sums_length(&sums, "heel") / INCH);
    case_near(reference, "total_area", sums_area(&sums, NULL) / INCH / INCH);
    case_near(reference, "vane_line_length", square_mitre_line(near, far, 90 * DEGREE).length);
    sums_free(&sums);
}

/* Lengths of a gore at even stations round it, the throat first: where the divisions are not a multiple of the
 * stations, none. */
static void gore_ordinates(const struct pattern_case *reference, const struct solid_panel *gore, const char *name) {
    size_t stations = case_count(reference, name) - 1, divisions = gore->rulings - 1;
    assert_int_equal(divisions % stations, 0);
    for (size_t i = 0; i <= stations; i++) {
        size_t at = i * (divisions / stations);
        case_near_at(reference, name, i, space_distance(gore->near[at], gore->far[at]) / INCH);
    }
}

static double edge_drawn(const struct solid_panel *gore, bool far) {
    double length = 0;
    for (size_t i = 0; i + 1 < gore->rulings; i++)
        length +=
            far ? space_distance(gore->far[i], gore->far[i + 1]) : space_distance(gore->near[i], gore->near[i + 1]);
    return length;
}

static void gored_elbow_case(const struct pattern_case *reference) {
    double diameter = case_input(reference, "D") * INCH, pieces = case_input(reference, "pieces");
    struct gored_elbow elbow = {
        .duct = {SHAPE_ROUND, diameter, diameter},
        .angle = case_input(reference, "angle_deg") * DEGREE,
        .radius = case_input(reference, "centreline_radius") * INCH,
        .pieces = pieces,
    };
    /* So fine that the divisions are 32 times 16 at least: chord sums then need a correction of their square only. */
    struct sums sums = sums_of_divided(shape_gored_elbow, &elbow, 512, diameter / 2, 2 * PI);
    const struct solid_panel *first = &sums.solid->panels.at[0];
    gore_ordinates(reference, first, "end_piece_ordinates_from_throat");
    if (pieces > 2)
        gore_ordinates(reference, &sums.solid->panels.at[1], "middle_piece_lengths_from_throat");
    /* Sums over a whole period of a smooth curve: exact at any even division. */
    case_near(reference, "end_piece_area", panel_area(first) / INCH / INCH);
    case_near(reference, "total_area", sums_area(&sums, NULL) / INCH / INCH);
    case_near(reference, "stretchout", first->near_flat[first->rulings - 1].x / INCH);
    /* The mitre's length: chords fall short by their square, so twice as fine takes a quarter of it. */
    struct sums finer = sums_of_divided(shape_gored_elbow, &elbow, 1024, diameter / 2, 2 * PI);
    double one = edge_drawn(first, true), two = edge_drawn(&finer.solid->panels.at[0], true);
    case_near(reference, "miter_edge_length", (two + (two - one) / 3) / INCH);
    sums_free(&finer);
    sums_free(&sums);
}

static void independent_figures_agree(void **state) {
    (void)state;
    assert_int_equal(each_pattern_case("rect_radius_elbow", radius_elbow_case), 3);
    assert_int_equal(each_pattern_case("rect_square_elbow", square_elbow_case), 2);
    assert_int_equal(each_pattern_case("mitred_round_elbow", gored_elbow_case), 4);
}

/* ---- Vanes ------------------------------------------------------------------------------------------------------- */

static void a_vane_is_a_rolled_strip(void **state) {
    (void)state;
    struct vane vane = {2 * INCH, PI / 2, 12 * INCH};
    struct sums sums = sums_of(shape_vane, &vane, 1);
    assert_near(sums_area(&sums, NULL), PI * INCH * 12 * INCH, 1e-12);
    sums_free(&sums);
}

static void vanes_stand_evenly_and_no_farther_apart_than_their_radius_asks(void **state) {
    (void)state;
    for (double inches = 1; inches < 120; inches += 0.37) {
        struct vane_rail rail = vane_rail(inches * INCH);
        assert_true(rail.count >= 1);
        assert_near(rail.apart * (double)(rail.count + 1), rail.length, 1e-12);
        assert_true(rail.apart <= (inches <= 36 ? 1.5 : 3.25) * INCH + 1e-9);
        /* One less would be too few. */
        if (rail.count > 1)
            assert_true(rail.length / (double)rail.count > (inches <= 36 ? 1.5 : 3.25) * INCH);
        assert_near(rail.radius / INCH, inches <= 36 ? 2 : 4.5, 1e-12);
    }
}

static void marks_of_a_rail_are_measured_from_one_end(void **state) {
    (void)state;
    struct square_elbow elbow = {rectangle(3, 10), rectangle(4, 10), WAY_LEFT, 90 * DEGREE, 4 * INCH, MEASURE_US + 1};
    struct sums sums = sums_of(shape_square_elbow, &elbow, 1);
    assert_int_equal(sums.solid->notes.count, 1);
    assert_non_null(strstr(sums.solid->notes.at[0], "3 vanes of 2 in radius"));
    assert_non_null(strstr(sums.solid->notes.at[0], "5 in long"));
    assert_non_null(strstr(sums.solid->notes.at[0], "1-1/4, 2-1/2, 3-3/4 in"));
    sums_free(&sums);
}

static void long_vanes_part_a_bend_in_one_ratio(void **state) {
    (void)state;
    double radii[BEND_VANES];
    assert_int_equal(bend_vanes(4 * INCH, 12 * INCH, radii), 1);
    assert_near(radii[0] / INCH, 8, 1e-12);
    assert_int_equal(bend_vanes(12 * INCH, 12 * INCH, radii), 1);
    assert_near(radii[0] / INCH, 12 * sqrt(2), 1e-12);
    assert_int_equal(bend_vanes(0, 16 * INCH, radii), 2);
    assert_near(radii[0] / INCH, 4, 1e-12);
    assert_near(radii[1] / INCH, 8, 1e-12);
}

/* ---- What cannot be ---------------------------------------------------------------------------------------------- */

static void what_cannot_be_is_told(void **state) {
    (void)state;
    struct radius_elbow radius = {rectangle(10, 8), rectangle(10, 8), WAY_LEFT, 90 * DEGREE, -1 * INCH, 1 * INCH};
    assert_fault(shape_radius_elbow, &radius, "below zero");
    radius.throat = 0;
    radius.collar = 0;
    assert_fault(shape_radius_elbow, &radius, "no metal");
    radius.throat = 5 * INCH;
    radius.far = rectangle(10, 9);
    assert_fault(shape_radius_elbow, &radius, "flat cheeks");
    radius.far = rectangle(30, 8);
    radius.angle = 10 * DEGREE;
    assert_fault(shape_radius_elbow, &radius, "no room to change its width");

    struct square_elbow square = {rectangle(10, 8), rectangle(10, 8), WAY_LEFT, 151 * DEGREE, 4 * INCH, 0};
    assert_fault(shape_square_elbow, &square, "150 degrees at most");
    square.angle = 10 * DEGREE;
    square.far = rectangle(30, 8);
    assert_fault(shape_square_elbow, &square, "no room to change its width");
    square.far = square.near;
    square.leg = 0;
    assert_fault(shape_square_elbow, &square, "no metal");

    square.angle = 0;
    assert_fault(shape_square_elbow, &square, "and not 0");

    struct gored_elbow gored = {{SHAPE_ROUND, 10 * INCH, 10 * INCH}, WAY_LEFT, 90 * DEGREE, 4 * INCH, 5, 0};
    assert_fault(shape_gored_elbow, &gored, "below zero");
    gored.pieces = 1;
    assert_fault(shape_gored_elbow, &gored, "2 to 60 pieces");
    gored.radius = 15 * INCH;
    gored.angle = 179 * DEGREE;
    gored.pieces = 2;
    assert_fault(shape_gored_elbow, &gored, "too few");
    gored.angle = 90 * DEGREE;
    gored.radius = 5 * INCH;
    assert_fault(shape_gored_elbow, &gored, "no metal");
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(radius_elbows_are_proved),
        cmocka_unit_test(square_elbows_are_proved),
        cmocka_unit_test(gored_elbows_are_proved),
        cmocka_unit_test(tiny_and_huge_elbows_are_proved),
        cmocka_unit_test(the_far_port_stands_where_the_turn_ends),
        cmocka_unit_test(a_heel_that_changes_width_has_one_arc_and_one_straight),
        cmocka_unit_test(pieces_of_one_length_are_cut_alike),
        cmocka_unit_test(a_seam_of_gores_lies_in_the_throat),
        cmocka_unit_test(independent_figures_agree),
        cmocka_unit_test(a_vane_is_a_rolled_strip),
        cmocka_unit_test(vanes_stand_evenly_and_no_farther_apart_than_their_radius_asks),
        cmocka_unit_test(marks_of_a_rail_are_measured_from_one_end),
        cmocka_unit_test(long_vanes_part_a_bend_in_one_ratio),
        cmocka_unit_test(what_cannot_be_is_told),
    };
    return cmocka_run_group_tests(tests, seed_random, NULL);
}
