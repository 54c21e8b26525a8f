/* Splits: proved for random sizes, held against independent figures and closed forms, laid out for the job, and
 * faulted. */
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <setjmp.h>
#include <cmocka.h>

#include "metal/metal.h"
#include "metal/shape_split.h"
#include "near.h"
#include "pattern_cases.h"
#include "solid_prove.h"
#include "solid_sums.h"

/* ---- Everything that a fitting must be, for random sizes --------------------------------------------------------- */

enum { TRIES = 1500 };

static double random_inches(double low, double high) {
    double inches = random_between(low, high);
    return (random_chance(0.5) ? round(inches) : inches) * INCH;
}

static struct profile random_rectangle(void) {
    return (struct profile){random_inches(4, 40), random_inches(4, 30), 0};
}

static struct profile random_round(double high) {
    double diameter = random_inches(3, high);
    return (struct profile){diameter, diameter, diameter / 2};
}

static struct profile random_oval(void) {
    struct profile oval = random_rectangle();
    oval.radius = fmin(oval.width, oval.height) / 2;
    return oval;
}

static struct profile random_profile(void) {
    switch (random_below(4)) {
    case 0:
        return random_round(30);
    case 1:
        return random_oval();
    default:
        return random_rectangle();
    }
}

static double random_share(void) {
    static const double edges[] = {0, 0.01, 0.5, 0.99, 1};
    return random_chance(0.2) ? edges[random_below(5)] : random_between(0, 1);
}

static double random_over(void) {
    return random_chance(0.5) ? 0 : random_inches(2, 80);
}

static struct profile profile_alike(struct profile section) {
    struct profile other = random_profile();
    if (random_chance(0.4))
        return section;
    if (random_chance(0.5) && section.radius <= 0) {
        section.width = other.width;
        return section;
    }
    return other;
}

static void wyes_are_proved(void **state) {
    (void)state;
    int built = 0;
    for (int n = 0; n < TRIES; n++) {
        struct profile main = random_profile(), left = profile_alike(main), right = profile_alike(left);
        struct wye wye = wye_for(main, left, right, random_share(), random_over());
        built += solid_prove_or_fault("wye", shape_wye, &wye, sizeof wye);
    }
    assert_true(built > TRIES / 2);
}

/* Any crotch and any place of the legs, not those that the rules choose. */
static void odd_wyes_are_proved(void **state) {
    (void)state;
    int built = 0;
    for (int n = 0; n < TRIES; n++) {
        struct profile main = random_rectangle(), left = profile_alike(main), right = profile_alike(left);
        struct wye wye = wye_for(main, left, right, random_share(), 0);
        wye.left.centre += random_inches(-10, 10);
        wye.right.centre += random_inches(-10, 10);
        wye.crotch_across = random_between(-0.6, 0.6) * main.width;
        wye.crotch_along = wye.loft + random_between(0, 1.05) * (wye.left.along - wye.loft);
        built += solid_prove_or_fault("wye", shape_wye, &wye, sizeof wye);
    }
    assert_true(built > TRIES / 3);
}

static void round_wyes_are_proved(void **state) {
    (void)state;
    int built = 0;
    for (int n = 0; n < TRIES / 3; n++) {
        double diameter = random_inches(3, 40), left = random_chance(0.2) ? diameter : random_inches(3, 40);
        double right = random_chance(0.2) ? left : random_inches(3, 40);
        struct round_wye wye = round_wye_for(diameter, left, right, random_over());
        if (random_chance(0.3)) {
            wye.left_centre -= random_inches(0, 10);
            wye.right_centre += random_inches(0, 10);
        }
        built += solid_prove_or_fault("round wye", shape_round_wye, &wye, sizeof wye);
    }
    assert_true(built > TRIES / 6);
}

static void tees_are_proved(void **state) {
    (void)state;
    int built = 0;
    for (int n = 0; n < TRIES; n++) {
        struct profile main = random_profile(), side = profile_alike(main), straight = profile_alike(main);
        double way = random_chance(0.5) ? 1 : -1;
        struct tee tee = tee_for(main, side, straight, way, random_over());
        built += solid_prove_or_fault("tee", shape_tee, &tee, sizeof tee);
    }
    assert_true(built > TRIES / 2);
}

static void collar_tees_are_proved(void **state) {
    (void)state;
    int built = 0;
    for (int n = 0; n < TRIES; n++) {
        struct profile main = random_chance(0.5) ? random_round(40) : random_oval(), side = random_round(30);
        if (random_chance(0.3) && profile_size(main).shape == SHAPE_ROUND)
            side = main;
        double way = random_chance(0.5) ? 1 : -1, reducer;
        struct collar_tee tee = collar_tee_for(main, side, profile_alike(main), way, random_over(), &reducer);
        built += solid_prove_or_fault("collar tee", shape_collar_tee, &tee, sizeof tee);
    }
    assert_true(built > TRIES / 4);
}

static void bullheads_are_proved(void **state) {
    (void)state;
    int built = 0;
    for (int n = 0; n < TRIES; n++) {
        struct profile main = random_profile(), left = profile_alike(main), right = profile_alike(main);
        struct bullhead bullhead = bullhead_for(main, left, right, random_share(), random_over(), random_chance(0.5));
        built += solid_prove_or_fault("bullhead", shape_bullhead, &bullhead, sizeof bullhead);
    }
    assert_true(built > TRIES / 2);
}

static void tiny_and_huge_splits_are_proved(void **state) {
    (void)state;
    static const double scales[] = {6 * INCH, 400 * INCH};
    for (int i = 0; i < 2; i++) {
        double s = scales[i];
        struct profile flat = {s, s, 0}, lesser = {s / 2, s / 3, 0}, tube = {s, s, s / 2}, oval = {s, s / 2, s / 4};
        struct wye wye = wye_for(flat, lesser, oval, 0.3, 0);
        struct round_wye round = round_wye_for(s, s, s / 2, 0);
        struct tee tee = tee_for(flat, tube, lesser, -1, 0);
        double reducer;
        struct collar_tee collar = collar_tee_for(tube, tube, tube, 1, 0, &reducer);
        struct bullhead bullhead = bullhead_for(flat, lesser, tube, 0.3, 0, 1);
        solid_prove("wye", shape_wye, &wye, sizeof wye);
        solid_prove("round wye", shape_round_wye, &round, sizeof round);
        solid_prove("tee", shape_tee, &tee, sizeof tee);
        solid_prove("collar tee", shape_collar_tee, &collar, sizeof collar);
        solid_prove("bullhead", shape_bullhead, &bullhead, sizeof bullhead);
    }
}

/* ---- Independent figures ----------------------------------------------------------------------------------------- */

#define SQUARE_INCH (INCH * INCH)

static void prove_wye_case(const struct pattern_case *reference) {
    double length = case_input(reference, "length") * INCH, offset = case_input(reference, "leg_centre_offset") * INCH;
    struct profile main = {case_input(reference, "main_width") * INCH, case_input(reference, "main_depth") * INCH, 0};
    struct profile leg = {case_input(reference, "leg_width") * INCH, case_input(reference, "leg_depth") * INCH, 0};
    struct wye wye = {
        .main = main,
        .left = {leg, -offset, length, 0},
        .right = {leg, offset, length, 0},
        .crotch_along = case_input(reference, "crotch_height") * INCH,
    };
    struct sums sums = sums_of(shape_wye, &wye, 1);
    assert_null(sums.solid->fault);
    struct pattern_case outer = *reference, inner = *reference;
    outer.expected = json_object_get(reference->expected, "outer_side");
    inner.expected = json_object_get(reference->expected, "inner_side");
    case_near(reference, "cheek_area_each", sums_area(&sums, "top cheek") / SQUARE_INCH);
    case_near(reference, "cheek_area_each", sums_area(&sums, "bottom cheek") / SQUARE_INCH);
    case_near(reference, "total_area", sums_area(&sums, NULL) / SQUARE_INCH);
    case_near(&outer, "area", sums_area(&sums, "outer side, left leg") / SQUARE_INCH);
    case_near(&inner, "area", sums_area(&sums, "inner side, right leg") / SQUARE_INCH);
    sums_free(&sums);
}

static void wyes_agree_with_independent_figures(void **state) {
    (void)state;
    assert_int_equal(each_pattern_case("rect_wye", prove_wye_case), 2);
}

/* The collar's area is exact on the curve that it is cut by; drawn, it tends to that
 * with the square of the divisions. */
static void prove_tee_case(const struct pattern_case *reference) {
    double d = case_input(reference, "D") * INCH, length = case_input(reference, "branch_length_from_main_axis") * INCH;
    struct profile tube = {d, d, d / 2};
    struct collar_tee tee = {tube, tube, 1, d, d, length - d / 2, 0};
    struct pattern_case drawn = *reference;
    drawn.limit = 2e-4;
    struct sums sums = sums_of(shape_collar_tee, &tee, 40);
    assert_null(sums.solid->fault);
    case_near(&drawn, "branch_area", sums_area(&sums, "collar") / SQUARE_INCH);
    const struct solid_panel *body = &sums.solid->panels.at[0];
    assert_int_equal(body->openings.count, 1);
    case_near(&drawn, "hole_area_on_flat_main", opening_area(&body->openings.at[0]) / SQUARE_INCH);
    sums_free(&sums);
}

static void tees_agree_with_independent_figures(void **state) {
    (void)state;
    assert_int_equal(each_pattern_case("equal_round_tee", prove_tee_case), 2);
}

/* ---- Closed forms ------------------------------------------------------------------------------------------------ */

/* Equal legs are mirror images; each leg's crotch edge lies in the middle plane. */
static void equal_legs_of_a_round_wye_part_in_the_middle(void **state) {
    (void)state;
    struct round_wye wye = round_wye_for(14 * INCH, 10 * INCH, 10 * INCH, 0);
    struct sums sums = sums_of(shape_round_wye, &wye, 1);
    assert_null(sums.solid->fault);
    assert_near(wye.left_centre, -7 * INCH, 1e-12);
    assert_near(sums_area(&sums, "left leg"), sums_area(&sums, "right leg"), 1e-12);
    const struct solid_panel *inner = &sums.solid->panels.at[2];
    double highest = 0;
    for (size_t i = 0; i < inner->rulings; i++) {
        assert_near(inner->near[i].x, 0, 1e-12);
        highest = fmax(highest, inner->near[i].y);
    }
    /* The inner sides, from 7 in beside the middle to 2 in on the other side of it, meet 7/9 of the way along. */
    assert_near(highest, wye.along * 7 / 9, 1e-12);
    sums_free(&sums);
}

/* A cheek's outline, by the corners of its plan: the shoelace of the tee's T and taper. */
static void a_tee_has_the_area_of_its_plan(void **state) {
    (void)state;
    struct profile main = {20 * INCH, 12 * INCH, 0}, side = {10 * INCH, 12 * INCH, 0},
                   straight = {14 * INCH, 12 * INCH, 0};
    for (int way = -1; way <= 1; way += 2) {
        struct tee tee = tee_for(main, side, straight, way, 36 * INCH);
        struct sums sums = sums_of(shape_tee, &tee, 1);
        assert_null(sums.solid->fault);
        assert_near(tee_length(&tee), 36 * INCH, 1e-12);
        /* 20 x 16 before the taper, the leg's 10 x 3, the taper of 20 in from 20 to 14. */
        assert_near(tee.taper, 20 * INCH, 1e-12);
        assert_near(sums_area(&sums, "top cheek"), (20 * 16 + 10 * 3 + 20 * 17) * SQUARE_INCH, 1e-12);
        assert_near(sums_area(&sums, "back"), 36 * 12 * SQUARE_INCH, 1e-12);
        assert_near(sums_area(&sums, "slanted side"), hypot(20, 6) * 12 * SQUARE_INCH, 1e-12);
        assert_near(way * sums.solid->ports.at[1].frame.origin.x, 13 * INCH, 1e-12);
        assert_near(way * sums.solid->ports.at[2].frame.origin.x, -3 * INCH, 1e-12);
        sums_free(&sums);
    }
}

static void a_bullhead_has_a_slanted_wall_between_unlike_legs(void **state) {
    (void)state;
    struct profile main = {16 * INCH, 10 * INCH, 0}, left = {12 * INCH, 10 * INCH, 0}, right = {6 * INCH, 10 * INCH, 0};
    struct bullhead bullhead = bullhead_for(main, left, right, 0.6, 16 * INCH, 0);
    struct sums sums = sums_of(shape_bullhead, &bullhead, 1);
    assert_null(sums.solid->fault);
    assert_near(bullhead.neck, 4 * INCH, 1e-12);
    assert_near(sums_area(&sums, "far wall"), hypot(22, 6) * 10 * SQUARE_INCH, 1e-12);
    /* The neck's 16 x 4, and 22 x 9 on average. */
    assert_near(sums_area(&sums, "bottom cheek"), (16 * 4 + 22 * 9) * SQUARE_INCH, 1e-12);
    sums_free(&sums);
}

/* ---- What the rules choose --------------------------------------------------------------------------------------- */

static void the_crotch_stands_where_the_flows_part(void **state) {
    (void)state;
    struct profile main = {20 * INCH, 10 * INCH, 0}, left = {12 * INCH, 10 * INCH, 0}, right = {8 * INCH, 10 * INCH, 0};
    struct wye wye = wye_for(main, left, right, 0.6, 24 * INCH);
    assert_near(wye.crotch_across, 2 * INCH, 1e-12);
    assert_near(wye.crotch_along, 8 * INCH, 1e-12);
    assert_near(wye.left.centre, -6 * INCH, 1e-12); /* its outer side at -12 */
    assert_near(wye.right.centre, 8 * INCH, 1e-12);
    /* Hardly any air does not put it into the side. */
    assert_near(wye_for(main, left, right, 0, 0).crotch_across, -8 * INCH, 1e-12);
}

/* The outer side of a leg that lies in line with the main duct's is a rectangle. */
static void a_leg_may_go_straight_back(void **state) {
    (void)state;
    struct profile main = {20 * INCH, 10 * INCH, 0}, left = {10 * INCH, 10 * INCH, 0}, right = {8 * INCH, 10 * INCH, 0};
    struct wye wye = wye_for(main, left, right, 0.6, 24 * INCH);
    assert_near(wye.left.centre - left.width / 2, -main.width / 2, 1e-12);
    struct sums sums = sums_of(shape_wye, &wye, 1);
    assert_null(sums.solid->fault);
    assert_near(sums_area(&sums, "outer side, left leg"), 240 * SQUARE_INCH, 1e-12);
    sums_free(&sums);
}

static void no_side_of_a_wye_leaves_the_way_by_more_than_30_degrees(void **state) {
    (void)state;
    for (int n = 0; n < TRIES; n++) {
        struct profile main = random_rectangle(), left = random_rectangle(), right = random_rectangle();
        struct wye wye = wye_for(main, left, right, random_share(), 0);
        double inner = wye.left.along - wye.crotch_along, most = tan(30 * DEGREE) + 1e-9;
        double left_out = -wye.left.centre + left.width / 2 - main.width / 2;
        double right_out = wye.right.centre + right.width / 2 - main.width / 2;
        assert_true(fabs(left_out) <= most * wye.left.along && fabs(right_out) <= most * wye.right.along);
        assert_true(wye.crotch_across - wye.left.centre - left.width / 2 <= most * inner);
    }
}

/* ---- What cannot be ---------------------------------------------------------------------------------------------- */

static void assert_faults_with(shape_builder *build, const void *size, const char *why, const char *hint) {
    struct sums sums = sums_of(build, size, 1);
    assert_non_null(sums.solid->fault);
    assert_non_null(strstr(sums.solid->fault, why));
    assert_string_equal(sums.solid->hint, hint);
    sums_free(&sums);
}

static void what_cannot_be_is_said_with_a_length_that_does(void **state) {
    (void)state;
    struct profile main = {20 * INCH, 10 * INCH, 0}, leg = {12 * INCH, 10 * INCH, 0},
                   tube = {10 * INCH, 10 * INCH, 5 * INCH};
    struct wye wye = wye_for(main, leg, leg, 0.5, 24 * INCH), touching = wye,
               round_leg = wye_for(main, leg, tube, 0.5, 3 * INCH);
    struct round_wye round = round_wye_for(10 * INCH, 8 * INCH, 8 * INCH, 0);
    struct tee tee = tee_for(main, leg, main, 1, 13 * INCH);
    struct bullhead bullhead = bullhead_for(main, leg, leg, 0.5, 12 * INCH, 0);
    double reducer;
    struct collar_tee wide =
        collar_tee_for(tube, (struct profile){12 * INCH, 12 * INCH, 6 * INCH}, tube, 1, 0, &reducer);
    wye.crotch_along = 24 * INCH;
    touching.left.centre = -6 * INCH;
    touching.right.centre = 6 * INCH;
    round.left_centre = -4 * INCH;
    round.right_centre = 4 * INCH;
    assert_faults_with(shape_wye, &wye, "crotch of the wye lies outside its body", "split wye over 8 in");
    assert_faults_with(shape_wye, &touching, "run into each other", "split wye over 8 in");
    assert_faults_with(shape_wye, &round_leg, "too short", "split wye over 12 in");
    assert_faults_with(shape_round_wye, &round, "run into each other", "split wye over 13 in");
    assert_faults_with(shape_tee, &tee, "too short", "split tee over 18 in");
    assert_faults_with(shape_bullhead, &bullhead, "too short", "split bullhead over 15 in");
    assert_faults_with(shape_collar_tee, &wide, "does not fit", "split tee over 18 in");
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(wyes_are_proved),
        cmocka_unit_test(odd_wyes_are_proved),
        cmocka_unit_test(round_wyes_are_proved),
        cmocka_unit_test(tees_are_proved),
        cmocka_unit_test(collar_tees_are_proved),
        cmocka_unit_test(bullheads_are_proved),
        cmocka_unit_test(tiny_and_huge_splits_are_proved),
        cmocka_unit_test(wyes_agree_with_independent_figures),
        cmocka_unit_test(tees_agree_with_independent_figures),
        cmocka_unit_test(equal_legs_of_a_round_wye_part_in_the_middle),
        cmocka_unit_test(a_tee_has_the_area_of_its_plan),
        cmocka_unit_test(a_bullhead_has_a_slanted_wall_between_unlike_legs),
        cmocka_unit_test(the_crotch_stands_where_the_flows_part),
        cmocka_unit_test(a_leg_may_go_straight_back),
        cmocka_unit_test(no_side_of_a_wye_leaves_the_way_by_more_than_30_degrees),
        cmocka_unit_test(what_cannot_be_is_said_with_a_length_that_does),
    };
    return cmocka_run_group_tests(tests, seed_random, NULL);
}
