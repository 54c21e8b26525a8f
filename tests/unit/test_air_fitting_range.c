/* How the coefficient relations behave between, at and beyond the ends of their tables. */
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <setjmp.h>
#include <cmocka.h>

#include <stdio.h>

#include "air/fitting.h"
#include "air/table.h"
#include "near.h"
#include "random.h"

#define DEGREE (3.14159265358979323846 / 180)

/* ---- What random input gives ------------------------------------------------------------------------------------- */

#define check(what, ...)                                                                                               \
    do {                                                                                                               \
        if (!(what)) {                                                                                                 \
            print_error("seed %llu: ", (unsigned long long)seed);                                                      \
            fail_msg(__VA_ARGS__);                                                                                     \
        }                                                                                                              \
    } while (0)

/* ---- Tables ------------------------------------------------------------------------------------------------------ */

static void a_table_is_straight_between_its_points_and_clamped_beyond(void **state) {
    (void)state;
    static const struct table_point points[] = {{1, 10}, {2, 20}, {4, 0}};
    bool outside = false;
    assert_near(table_at(TABLE(points), 1, &outside), 10, 0);
    assert_near(table_at(TABLE(points), 1.25, &outside), 12.5, 1e-12);
    assert_near(table_at(TABLE(points), 2, &outside), 20, 0);
    assert_near(table_at(TABLE(points), 3.5, &outside), 5, 1e-12);
    assert_near(table_at(TABLE(points), 4, &outside), 0, 0);
    assert_false(outside);
    assert_near(table_at(TABLE(points), 0.5, &outside), 10, 0);
    assert_true(outside);
    outside = false;
    assert_near(table_at(TABLE(points), 9, &outside), 0, 0);
    assert_true(outside);
    outside = false;
    assert_near(table_at(TABLE(points), NAN, &outside), 10, 0);
    assert_true(outside);
}

/* ---- Beyond the tables ------------------------------------------------------------------------------------------- */

static void assert_clamped(struct coefficient beyond, struct coefficient edge) {
    assert_non_null(beyond.outside);
    assert_null(edge.outside);
    assert_near(beyond.value, edge.value, 1e-9);
}

static void beyond_a_table_its_edge_holds_and_is_said(void **state) {
    (void)state;
    assert_clamped(fitting_radius_elbow(90 * DEGREE, 0.3, 1), fitting_radius_elbow(90 * DEGREE, 0.5, 1));
    assert_clamped(fitting_radius_elbow(90 * DEGREE, 60, 1), fitting_radius_elbow(90 * DEGREE, 40, 1));
    assert_clamped(fitting_radius_elbow(90 * DEGREE, 1, 0.1), fitting_radius_elbow(90 * DEGREE, 1, 0.25));
    assert_clamped(fitting_radius_elbow(90 * DEGREE, 1, 10), fitting_radius_elbow(90 * DEGREE, 1, 8));
    assert_clamped(fitting_radius_elbow(200 * DEGREE, 1, 1), fitting_radius_elbow(180 * DEGREE, 1, 1));
    assert_clamped(fitting_mitre(90 * DEGREE, 0.1), fitting_mitre(90 * DEGREE, 0.25));
    assert_clamped(fitting_mitre(90 * DEGREE, 12), fitting_mitre(90 * DEGREE, 8));
    assert_non_null(fitting_mitre(10 * DEGREE, 1).outside);
    assert_clamped(fitting_tap_branch(90 * DEGREE, 0.5, 1.5), fitting_tap_branch(90 * DEGREE, 0.5, 1));
    assert_clamped(fitting_tap_branch(120 * DEGREE, 0.5, 0.5), fitting_tap_branch(90 * DEGREE, 0.5, 0.5));
    assert_clamped(fitting_tap_run(1.2, 0.5), fitting_tap_run(1, 0.5));
    assert_clamped(fitting_split_leg(5 * DEGREE, 0.5, 0.5), fitting_split_leg(15 * DEGREE, 0.5, 0.5));
    assert_clamped(fitting_split_straight(1, 0.4), fitting_split_straight(0.64, 0.4));
    assert_clamped(fitting_join_run(45 * DEGREE, -0.1, 0.4), fitting_join_run(45 * DEGREE, 0, 0.4));
    assert_clamped(fitting_damper(80 * DEGREE, true), fitting_damper(70 * DEGREE, true));
    assert_clamped(fitting_contraction(1.5, 1), fitting_contraction(1, 1));
    assert_clamped(fitting_diffuser(0.5, 4), fitting_diffuser(0.5, 180 * DEGREE));
}

static void assert_sane(struct coefficient c) {
    check(isfinite(c.value), "not a finite number");
}

static void nothing_that_is_given_makes_them_other_than_finite(void **state) {
    (void)state;
    static const double odd[] = {0, -1, 1e-300, 1e300, INFINITY, -INFINITY, NAN, 0.5, 1};
    enum { ODD = sizeof odd / sizeof *odd };
    for (size_t i = 0; i < ODD * ODD * ODD; i++) {
        double a = odd[i % ODD], b = odd[i / ODD % ODD], c = odd[i / ODD / ODD];
        assert_sane(fitting_radius_elbow(a, b, c));
        assert_sane(fitting_gored_elbow(a, b, (int)(i % 7) - 3, 1));
        assert_sane(fitting_elbow_reynolds(a, b));
        assert_sane(fitting_join_bullhead(a, b));
        assert_sane(fitting_mitre(a, b));
        assert_sane(fitting_vaned_mitre(a));
        assert_sane(fitting_contraction(a, b));
        assert_sane(fitting_diffuser(a, b));
        assert_sane(fitting_abrupt_contraction(a));
        assert_sane(fitting_abrupt_expansion(a));
        assert_sane(fitting_tap_branch(a, b, c));
        assert_sane(fitting_tap_run(a, b));
        assert_sane(fitting_split_leg(a, b, c));
        assert_sane(fitting_split_straight(a, b));
        assert_sane(fitting_bullhead(a, b, true));
        assert_sane(fitting_join_branch(a, b, c));
        assert_sane(fitting_join_run(a, b, c));
        assert_sane(fitting_damper(a, false));
    }
}

/* ---- Between the points ------------------------------------------------------------------------------------------ */

static void a_damper_takes_more_the_further_it_closes(void **state) {
    (void)state;
    for (int round = 0; round < 2; round++)
        for (double angle = 0.5; angle <= 70; angle += 0.5) {
            double before = fitting_damper((angle - 0.5) * DEGREE, round).value;
            assert_true(fitting_damper(angle * DEGREE, round).value > before);
        }
    assert_near(fitting_damper(0, true).value, 0.20, 0);
}

static void a_change_of_size_takes_more_the_greater_or_steeper_it_is(void **state) {
    (void)state;
    for (int i = 0; i < 20000; i++) {
        double ratio = random_between(0.05, 1), angle = random_between(0, 180 * DEGREE);
        double less = ratio - random_between(0, 0.05), steeper = fmin(angle + random_between(0, 0.2), 180 * DEGREE);
        double wide = fitting_diffuser(ratio, angle).value, narrow = fitting_contraction(ratio, angle).value;
        check(wide >= 0 && narrow >= 0, "%g %g: less than nothing", ratio, angle);
        check(wide <= fitting_abrupt_expansion(ratio).value + 1e-12, "%g %g: over the abrupt one", ratio, angle);
        check(narrow <= fitting_abrupt_contraction(ratio).value + 1e-12, "%g %g: over the abrupt one", ratio, angle);
        check(fitting_diffuser(less, angle).value >= wide - 1e-12, "%g %g: diffuser of less area", ratio, angle);
        check(fitting_diffuser(ratio, steeper).value >= wide - 1e-12, "%g %g: steeper diffuser", ratio, angle);
        check(fitting_contraction(ratio, steeper).value >= narrow - 1e-12, "%g %g: steeper contraction", ratio, angle);
    }
    assert_near(fitting_diffuser(1, 1).value, 0, 0);
    assert_near(fitting_contraction(1, 1).value, 0, 0);
    assert_near(fitting_diffuser(0.25, 0).value, 0, 1e-12);
    assert_near(fitting_contraction(0.25, 0).value, 0, 1e-12);
}

/* The steps of the branch factors are the handbook's own; all else has none. */
static void relations_have_no_steps_of_their_own(void **state) {
    (void)state;
    const double step = 1e-7;
    for (int i = 0; i < 20000; i++) {
        double angle = random_between(16, 89) * DEGREE, radius = random_between(0.5, 20);
        double aspect = random_between(0.25, 8), flow = random_between(0.01, 0.99), area = random_between(0.05, 0.99);
        check(fabs(fitting_radius_elbow(angle, radius, aspect).value -
                   fitting_radius_elbow(angle + step, radius + step, aspect + step).value) < 1e-4,
              "elbow %g %g %g", angle, radius, aspect);
        check(fabs(fitting_mitre(angle, aspect).value - fitting_mitre(angle + step, aspect + step).value) < 1e-4,
              "mitre %g %g", angle, aspect);
        check(fabs(fitting_diffuser(area, angle).value - fitting_diffuser(area + step, angle + step).value) < 1e-4,
              "diffuser %g %g", area, angle);
        check(fabs(fitting_split_leg(angle, flow, area).value -
                   fitting_split_leg(angle + step, flow + step, area + step).value) < 0.05,
              "split %g %g %g", angle, flow, area);
        check(fabs(fitting_split_straight(flow, area).value - fitting_split_straight(flow + step, area).value) < 1e-4,
              "straight leg %g %g", flow, area);
        check(fabs(fitting_join_run(angle, flow, area).value - fitting_join_run(angle, flow + step, area).value) < 1e-3,
              "joined run %g %g %g", angle, flow, area);
    }
}

/* Nothing turns in no angle, and a tap that takes nothing takes the run nothing. */
static void limits_that_need_no_handbook_hold(void **state) {
    (void)state;
    assert_near(fitting_radius_elbow(0, 1, 1).value, 0, 0);
    assert_near(fitting_mitre(1e-9, 1).value, 0, 1e-12);
    assert_near(fitting_tap_run(0, 0.3).value, 0, 0);
    assert_near(fitting_join_run(90 * DEGREE, 0, 0.3).value, 0, 1e-12);
    assert_near(fitting_split_straight(0.6, 0.6).value, 0, 1e-12);
    /* A leg that takes no air: all of its velocity pressure is lost on it. */
    assert_near(fitting_tap_branch(90 * DEGREE, 0, 0.3).value, 1, 0);
    assert_near(fitting_bullhead(0, 0.5, true).value, 1, 0);
    /* Cones: no change, no angle; no length, a step. A 12 in duct to 6 in over 12 in: tan(a/2) = 1/4. */
    assert_near(fitting_cone_angle(1, 1, 0), 0, 0);
    assert_near(fitting_cone_angle(1, 2, 0), 180 * DEGREE, 1e-12);
    assert_near(fitting_cone_angle(113.0973355, 28.27433388, 12), 2 * 14.03624347 * DEGREE, 1e-9);
    assert_near(fitting_cone_angle(28.27433388, 113.0973355, 12), 2 * 14.03624347 * DEGREE, 1e-9);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_table_is_straight_between_its_points_and_clamped_beyond),
        cmocka_unit_test(beyond_a_table_its_edge_holds_and_is_said),
        cmocka_unit_test(nothing_that_is_given_makes_them_other_than_finite),
        cmocka_unit_test(a_damper_takes_more_the_further_it_closes),
        cmocka_unit_test(a_change_of_size_takes_more_the_greater_or_steeper_it_is),
        cmocka_unit_test(relations_have_no_steps_of_their_own),
        cmocka_unit_test(limits_that_need_no_handbook_hold),
    };
    return cmocka_run_group_tests(tests, seed_random, NULL);
}
