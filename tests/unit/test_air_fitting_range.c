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
    assert_clamped(fitting_radius_elbow(NULL, 90 * DEGREE, 0.3, 1), fitting_radius_elbow(NULL, 90 * DEGREE, 0.5, 1));
    assert_clamped(fitting_radius_elbow(NULL, 90 * DEGREE, 60, 1), fitting_radius_elbow(NULL, 90 * DEGREE, 40, 1));
    assert_clamped(fitting_radius_elbow(NULL, 90 * DEGREE, 1, 0.1), fitting_radius_elbow(NULL, 90 * DEGREE, 1, 0.25));
    assert_clamped(fitting_radius_elbow(NULL, 90 * DEGREE, 1, 10), fitting_radius_elbow(NULL, 90 * DEGREE, 1, 8));
    assert_clamped(fitting_radius_elbow(NULL, 200 * DEGREE, 1, 1), fitting_radius_elbow(NULL, 180 * DEGREE, 1, 1));
    assert_clamped(fitting_mitre(NULL, 90 * DEGREE, 0.1), fitting_mitre(NULL, 90 * DEGREE, 0.25));
    assert_clamped(fitting_mitre(NULL, 90 * DEGREE, 12), fitting_mitre(NULL, 90 * DEGREE, 8));
    assert_non_null(fitting_mitre(NULL, 10 * DEGREE, 1).outside);
    assert_clamped(fitting_tap_branch(NULL, 90 * DEGREE, 0.5, 1.5), fitting_tap_branch(NULL, 90 * DEGREE, 0.5, 1));
    assert_clamped(fitting_tap_branch(NULL, 120 * DEGREE, 0.5, 0.5), fitting_tap_branch(NULL, 90 * DEGREE, 0.5, 0.5));
    assert_clamped(fitting_tap_run(NULL, 1.2, 0.5), fitting_tap_run(NULL, 1, 0.5));
    assert_clamped(fitting_split_leg(NULL, 5 * DEGREE, 0.5, 0.5), fitting_split_leg(NULL, 15 * DEGREE, 0.5, 0.5));
    assert_clamped(fitting_split_straight(NULL, 1, 0.4), fitting_split_straight(NULL, 0.64, 0.4));
    assert_clamped(fitting_join_run(NULL, 45 * DEGREE, -0.1, 0.4), fitting_join_run(NULL, 45 * DEGREE, 0, 0.4));
    assert_clamped(fitting_damper(NULL, 80 * DEGREE, true), fitting_damper(NULL, 70 * DEGREE, true));
    assert_clamped(fitting_contraction(NULL, 1.5, 1), fitting_contraction(NULL, 1, 1));
    assert_clamped(fitting_diffuser(NULL, 0.5, 4), fitting_diffuser(NULL, 0.5, 180 * DEGREE));
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
        assert_sane(fitting_radius_elbow(NULL, a, b, c));
        assert_sane(fitting_gored_elbow(NULL, a, b, (int)(i % 7) - 3, 1));
        assert_sane(fitting_elbow_reynolds(NULL, a, b));
        assert_sane(fitting_join_bullhead(NULL, a, b));
        assert_sane(fitting_mitre(NULL, a, b));
        assert_sane(fitting_vaned_mitre(NULL, a));
        assert_sane(fitting_contraction(NULL, a, b));
        assert_sane(fitting_diffuser(NULL, a, b));
        assert_sane(fitting_abrupt_contraction(NULL, a));
        assert_sane(fitting_abrupt_expansion(NULL, a));
        assert_sane(fitting_tap_branch(NULL, a, b, c));
        assert_sane(fitting_tap_run(NULL, a, b));
        assert_sane(fitting_split_leg(NULL, a, b, c));
        assert_sane(fitting_split_straight(NULL, a, b));
        assert_sane(fitting_bullhead(NULL, a, b, true));
        assert_sane(fitting_join_branch(NULL, a, b, c));
        assert_sane(fitting_join_run(NULL, a, b, c));
        assert_sane(fitting_damper(NULL, a, false));
    }
}

/* ---- Between the points ------------------------------------------------------------------------------------------ */

static void a_damper_takes_more_the_further_it_closes(void **state) {
    (void)state;
    for (int round = 0; round < 2; round++)
        for (double angle = 0.5; angle <= 70; angle += 0.5) {
            double before = fitting_damper(NULL, (angle - 0.5) * DEGREE, round).value;
            assert_true(fitting_damper(NULL, angle * DEGREE, round).value > before);
        }
    assert_near(fitting_damper(NULL, 0, true).value, 0.20, 0);
}

static void a_change_of_size_takes_more_the_greater_or_steeper_it_is(void **state) {
    (void)state;
    for (int i = 0; i < 20000; i++) {
        double ratio = random_between(0.05, 1), angle = random_between(0, 180 * DEGREE);
        double less = ratio - random_between(0, 0.05), steeper = fmin(angle + random_between(0, 0.2), 180 * DEGREE);
        double wide = fitting_diffuser(NULL, ratio, angle).value,
               narrow = fitting_contraction(NULL, ratio, angle).value;
        check(wide >= 0 && narrow >= 0, "%g %g: less than nothing", ratio, angle);
        check(wide <= fitting_abrupt_expansion(NULL, ratio).value + 1e-12, "%g %g: over the abrupt one", ratio, angle);
        check(narrow <= fitting_abrupt_contraction(NULL, ratio).value + 1e-12, "%g %g: over the abrupt one", ratio,
              angle);
        check(fitting_diffuser(NULL, less, angle).value >= wide - 1e-12, "%g %g: diffuser of less area", ratio, angle);
        check(fitting_diffuser(NULL, ratio, steeper).value >= wide - 1e-12, "%g %g: steeper diffuser", ratio, angle);
        check(fitting_contraction(NULL, ratio, steeper).value >= narrow - 1e-12, "%g %g: steeper contraction", ratio,
              angle);
    }
    assert_near(fitting_diffuser(NULL, 1, 1).value, 0, 0);
    assert_near(fitting_contraction(NULL, 1, 1).value, 0, 0);
    assert_near(fitting_diffuser(NULL, 0.25, 0).value, 0, 1e-12);
    assert_near(fitting_contraction(NULL, 0.25, 0).value, 0, 1e-12);
}

/* The steps of the branch factors are the handbook's own; all else has none. */
static void relations_have_no_steps_of_their_own(void **state) {
    (void)state;
    const double step = 1e-7;
    for (int i = 0; i < 20000; i++) {
        double angle = random_between(16, 89) * DEGREE, radius = random_between(0.5, 20);
        double aspect = random_between(0.25, 8), flow = random_between(0.01, 0.99), area = random_between(0.05, 0.99);
        check(fabs(fitting_radius_elbow(NULL, angle, radius, aspect).value -
                   fitting_radius_elbow(NULL, angle + step, radius + step, aspect + step).value) < 1e-4,
              "elbow %g %g %g", angle, radius, aspect);
        check(fabs(fitting_mitre(NULL, angle, aspect).value - fitting_mitre(NULL, angle + step, aspect + step).value) <
                  1e-4,
              "mitre %g %g", angle, aspect);
        check(fabs(fitting_diffuser(NULL, area, angle).value -
                   fitting_diffuser(NULL, area + step, angle + step).value) < 1e-4,
              "diffuser %g %g", area, angle);
        check(fabs(fitting_split_leg(NULL, angle, flow, area).value -
                   fitting_split_leg(NULL, angle + step, flow + step, area + step).value) < 0.05,
              "split %g %g %g", angle, flow, area);
        check(fabs(fitting_split_straight(NULL, flow, area).value -
                   fitting_split_straight(NULL, flow + step, area).value) < 1e-4,
              "straight leg %g %g", flow, area);
        check(fabs(fitting_join_run(NULL, angle, flow, area).value -
                   fitting_join_run(NULL, angle, flow + step, area).value) < 1e-3,
              "joined run %g %g %g", angle, flow, area);
    }
}

/* Nothing turns in no angle, and a tap that takes nothing takes the run nothing. */
static void limits_that_need_no_handbook_hold(void **state) {
    (void)state;
    assert_near(fitting_radius_elbow(NULL, 0, 1, 1).value, 0, 0);
    assert_near(fitting_mitre(NULL, 1e-9, 1).value, 0, 1e-12);
    assert_near(fitting_tap_run(NULL, 0, 0.3).value, 0, 0);
    assert_near(fitting_join_run(NULL, 90 * DEGREE, 0, 0.3).value, 0, 1e-12);
    assert_near(fitting_split_straight(NULL, 0.6, 0.6).value, 0, 1e-12);
    /* A leg that takes no air: all of its velocity pressure is lost on it. */
    assert_near(fitting_tap_branch(NULL, 90 * DEGREE, 0, 0.3).value, 1, 0);
    assert_near(fitting_bullhead(NULL, 0, 0.5, true).value, 1, 0);
    /* Cones: no change, no angle; no length, a step. A 12 in duct to 6 in over 12 in: tan(a/2) = 1/4. */
    assert_near(fitting_cone_angle(NULL, 1, 1, 0), 0, 0);
    assert_near(fitting_cone_angle(NULL, 1, 2, 0), 180 * DEGREE, 1e-12);
    assert_near(fitting_cone_angle(NULL, 113.0973355, 28.27433388, 12), 2 * 14.03624347 * DEGREE, 1e-9);
    assert_near(fitting_cone_angle(NULL, 28.27433388, 113.0973355, 12), 2 * 14.03624347 * DEGREE, 1e-9);
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
