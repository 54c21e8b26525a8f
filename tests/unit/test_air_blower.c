/* The blower's curve against scipy's PchipInterpolator (tests/oracle/blower.py). */
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <setjmp.h>
#include <cmocka.h>

#include "air/air.h"
#include "csv.h"
#include "near.h"

enum { POINTS = 16 };

struct curve {
    char name[32];
    struct blower_point points[POINTS];
    size_t count;
};

/* Begins a new curve when the row is of another one. */
static void take_point(struct curve *curve, const struct csv *csv) {
    if (strcmp(curve->name, csv_text(csv, "curve")) != 0)
        *curve = (struct curve){0};
    snprintf(curve->name, sizeof curve->name, "%s", csv_text(csv, "curve"));
    assert_true(curve->count < POINTS);
    curve->points[curve->count++] =
        (struct blower_point){.flow = csv_number(csv, "flow"), .pressure = csv_number(csv, "pressure")};
}

static void between_points_it_is_scipys_monotone_cubic(void **state) {
    (void)state;
    struct csv csv;
    struct curve curve = {0};
    size_t compared = 0;
    csv_open(&csv, "tests/reference/blower.csv");
    while (csv_next(&csv)) {
        if (strcmp(csv_text(&csv, "row"), "point") == 0) {
            take_point(&curve, &csv);
            continue;
        }
        double pressure = NAN, want = csv_number(&csv, "pressure");
        assert_true(air_blower_pressure(curve.points, curve.count, csv_number(&csv, "flow"), &pressure));
        if (fabs(pressure - want) > 1e-11 * 400)
            fail_msg("curve %s at %s: %.15g, want %.15g", curve.name, csv_text(&csv, "flow"), pressure, want);
        compared++;
    }
    csv_close(&csv);
    assert_int_equal(compared, 26 * 24);
}

static const struct blower_point three[] = {
    {.flow = 0.40, .pressure = 200},
    {.flow = 0.50, .pressure = 150},
    {.flow = 0.60, .pressure = 80},
};

static void outside_its_points_there_is_no_curve(void **state) {
    (void)state;
    double pressure = -1;
    assert_false(air_blower_pressure(three, 3, 0.399, &pressure));
    assert_false(air_blower_pressure(three, 3, 0.601, &pressure));
    assert_false(air_blower_pressure(three, 0, 0.5, &pressure));
    assert_true(pressure == -1);
}

static void rounding_of_a_sum_does_not_fall_outside(void **state) {
    (void)state;
    double pressure = 0, sum = 0;
    for (int i = 0; i < 6; i++)
        sum += 0.1;
    assert_true(air_blower_pressure(three, 3, sum, &pressure));
    assert_near(pressure, 80, 1e-9);
    assert_true(air_blower_pressure(three, 3, 0.6 * (1 + 1e-9), &pressure));
    assert_true(pressure == 80);
}

static void one_point_is_known_at_its_own_flow_only(void **state) {
    (void)state;
    double pressure = 0;
    assert_true(air_blower_pressure(three, 1, 0.40 * (1 + 5e-7), &pressure));
    assert_true(pressure == 200);
    assert_false(air_blower_pressure(three, 1, 0.40 * (1 + 2e-6), &pressure));
    assert_false(air_blower_pressure(three, 1, 0.40 * (1 - 2e-6), &pressure));
}

/* By hand: a straight line between (0.40, 200) and (0.50, 150). */
static void two_points_are_a_straight_line(void **state) {
    (void)state;
    double pressure = 0;
    assert_true(air_blower_pressure(three, 2, 0.43, &pressure));
    assert_near(pressure, 185, 1e-9);
}

static void a_falling_curve_falls_everywhere(void **state) {
    (void)state;
    static const struct blower_point points[] = {
        {.flow = 0.1, .pressure = 300}, {.flow = 0.2, .pressure = 299}, {.flow = 0.3, .pressure = 120},
        {.flow = 0.7, .pressure = 118}, {.flow = 0.8, .pressure = 10},
    };
    double before = 301;
    for (int i = 0; i <= 7000; i++) {
        double pressure = 0;
        assert_true(air_blower_pressure(points, 5, 0.1 + 0.0001 * i, &pressure));
        assert_true(pressure < before);
        before = pressure;
    }
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(between_points_it_is_scipys_monotone_cubic),
        cmocka_unit_test(outside_its_points_there_is_no_curve),
        cmocka_unit_test(rounding_of_a_sum_does_not_fall_outside),
        cmocka_unit_test(one_point_is_known_at_its_own_flow_only),
        cmocka_unit_test(two_points_are_a_straight_line),
        cmocka_unit_test(a_falling_curve_falls_everywhere),
    };
    return cmocka_run_group_tests_name("blower", tests, NULL, NULL);
}
