/* The coefficient relations against Idelchik's, point by point: tests/reference/fittings_idelchik.csv, evaluated from
 * three general hydraulics libraries that name the handbook and its diagrams. */
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <setjmp.h>
#include <cmocka.h>

#include "air/fitting.h"
#include "csv.h"
#include "near.h"

#define DEGREE (3.14159265358979323846 / 180)
#define TOLERANCE 0.005

/* One kind of fitting in the table, how often it must appear, and its coefficient here. */
struct relation {
    const char *fitting; /* how its name begins */
    int rows;
    double (*value)(const struct csv *csv, double angle, double first, double second);
};

static double radius_elbow(const struct csv *csv, double angle, double first, double second) {
    (void)csv;
    return fitting_radius_elbow(NULL, angle, first, second).value;
}

static double mitre(const struct csv *csv, double angle, double first, double second) {
    (void)csv;
    (void)first;
    return fitting_mitre(NULL, angle, second).value;
}

static double tap_branch(const struct csv *csv, double angle, double first, double second) {
    (void)csv;
    return fitting_tap_branch(NULL, angle, second, first).value;
}

static double tap_run(const struct csv *csv, double angle, double first, double second) {
    (void)csv;
    (void)angle;
    return fitting_tap_run(NULL, second, first).value;
}

static double split_leg(const struct csv *csv, double angle, double first, double second) {
    (void)csv;
    return fitting_split_leg(NULL, angle, second, first).value;
}

static double bullhead(const struct csv *csv, double angle, double first, double second) {
    (void)angle;
    return fitting_bullhead(NULL, second, first, strstr(csv_text(csv, "fitting"), "k=0.3") != NULL).value;
}

static double contraction(const struct csv *csv, double angle, double first, double second) {
    (void)csv;
    (void)second;
    return fitting_contraction(NULL, first, angle).value;
}

static double diffuser(const struct csv *csv, double angle, double first, double second) {
    (void)csv;
    (void)second;
    return fitting_diffuser(NULL, 1 / first, angle).value; /* the table has large over small */
}

static double abrupt_contraction(const struct csv *csv, double angle, double first, double second) {
    (void)csv;
    (void)angle;
    (void)second;
    return fitting_abrupt_contraction(NULL, first).value;
}

static double abrupt_expansion(const struct csv *csv, double angle, double first, double second) {
    (void)csv;
    (void)angle;
    (void)second;
    return fitting_abrupt_expansion(NULL, first).value;
}

static const struct relation relations[] = {
    {"rect radius elbow", 50, radius_elbow},
    {"rect mitred elbow", 20, mitre},
    {"\"diverging tap, run area constant: BRANCH", 11, tap_branch},
    {"\"diverging tap, run area constant: RUN", 11, tap_run},
    {"\"diverging split", 6, split_leg},
    {"\"bullhead dividing tee", 5, bullhead},
    {"\"gradual contraction", 18, contraction},
    {"\"conical diffuser", 20, diffuser},
    {"abrupt contraction", 3, abrupt_contraction},
    {"abrupt expansion", 3, abrupt_expansion},
};

enum { RELATIONS = sizeof relations / sizeof *relations };

static size_t relation_of(const char *fitting) {
    for (size_t i = 0; i < RELATIONS; i++)
        if (strncmp(fitting, relations[i].fitting, strlen(relations[i].fitting)) == 0)
            return i;
    fail_msg("no relation for %s", fitting);
    return 0;
}

static void every_row_of_the_handbook_is_reproduced(void **state) {
    (void)state;
    struct csv csv;
    int rows[RELATIONS] = {0};
    csv_open(&csv, "tests/reference/fittings_idelchik.csv");
    while (csv_next(&csv)) {
        size_t i = relation_of(csv_text(&csv, "fitting"));
        double angle = csv_number(&csv, "angle_deg") * DEGREE;
        double first = csv_number(&csv, "v1"), second = csv_number(&csv, "v2");
        double value = relations[i].value(&csv, angle, first, second);
        double want = csv_number(&csv, "K_ref");
        if (!(fabs(value - want) <= TOLERANCE))
            fail_msg("%s, angle %g, %g, %g: %g, want %g", relations[i].fitting, angle / DEGREE, first, second, value,
                     want);
        rows[i]++;
    }
    csv_close(&csv);
    for (size_t i = 0; i < RELATIONS; i++)
        assert_int_equal(rows[i], relations[i].rows);
}

/* Worked by hand from the published form of each relation, at points that the table does not have. */
static void points_between_the_rows_follow_the_relations(void **state) {
    (void)state;
    /* A1(52.5) = 0.69, B1(1.25) = 0.19, C1(1.25) = 0.95 */
    assert_near(fitting_radius_elbow(NULL, 52.5 * DEGREE, 1.25, 1.25).value, 0.69 * 0.19 * 0.95, 1e-9);
    /* A(52.5) = 1.685, C1(3) = 0.83, sin^2(26.25) = 0.195616, sin^4 = 0.038265 */
    assert_near(fitting_mitre(NULL, 52.5 * DEGREE, 3).value, 0.83 * 1.685 * (0.95 * 0.195616 + 2.05 * 0.038265), 1e-5);
    /* f 0.3, Q 0.45: A' = 0.85, x = 1.5, cos 60 = 0.5 */
    assert_near(fitting_tap_branch(NULL, 60 * DEGREE, 0.45, 0.3).value, 0.85 * (1 + 2.25 - 1.5), 1e-9);
    /* f 0.355, just over the step, Q 0.355: A' = 1 - 0.213, x = 1 */
    assert_near(fitting_tap_branch(NULL, 60 * DEGREE, 0.355, 0.355).value, 0.787 * (1 + 1 - 1), 1e-9);
    /* f 0.6, Q 0.7: 0.3 (1.4 - 1) 0.49 */
    assert_near(fitting_tap_run(NULL, 0.7, 0.6).value, 0.3 * 0.4 * 0.49, 1e-9);
    /* x = 0.8, K(75) = 0.82 between 0.64 and 1, cos 75 = 0.258819 */
    assert_near(fitting_split_leg(NULL, 75 * DEGREE, 0.4, 0.5).value, 1 + 0.64 - 1.6 * 0.258819 - 0.82 * 0.64, 1e-5);
    /* a straight leg at 0.45 of the velocity: between 0.36 and 0.25 */
    assert_near(fitting_split_straight(NULL, 0.36, 0.8).value, 0.305, 1e-9);
}

/* From memory: the fitting tables of the ASHRAE and SMACNA duct manuals, printed to two digits; they descend from the
 * same handbook. Rows r/W, columns H/W. */
static void radius_elbows_agree_with_the_duct_manuals(void **state) {
    (void)state;
    static const double aspects[] = {0.25, 0.5, 0.75, 1, 1.5, 2, 3, 4, 5, 6, 8};
    static const struct {
        double radius, values[11];
    } rows[] = {
        {0.5, {1.53, 1.38, 1.29, 1.18, 1.06, 1.00, 1.00, 1.06, 1.12, 1.16, 1.18}},
        {0.75, {0.57, 0.52, 0.48, 0.44, 0.40, 0.39, 0.39, 0.40, 0.42, 0.43, 0.44}},
        {1.0, {0.27, 0.25, 0.23, 0.21, 0.19, 0.18, 0.18, 0.19, 0.20, 0.21, 0.21}},
        {1.5, {0.22, 0.20, 0.19, 0.17, 0.15, 0.14, 0.14, 0.15, 0.16, 0.17, 0.17}},
        {2.0, {0.20, 0.18, 0.16, 0.15, 0.14, 0.13, 0.13, 0.14, 0.14, 0.15, 0.15}},
    };
    for (size_t r = 0; r < 5; r++)
        for (size_t a = 0; a < 11; a++)
            assert_near(fitting_radius_elbow(NULL, 90 * DEGREE, rows[r].radius, aspects[a]).value, rows[r].values[a],
                        0.02);
}

/* Likewise from memory; 0.06 from 1 to 2 diameters, which is what the share of the seams was chosen for.  Tighter
 * elbows are given more than the table has, never less. */
static void gored_elbows_lie_near_the_duct_manuals(void **state) {
    (void)state;
    static const struct {
        int pieces;
        double radius, value;
    } rows[] = {
        {5, 1, 0.33}, {5, 1.5, 0.24}, {5, 2, 0.19},   {4, 1, 0.37}, {4, 1.5, 0.27},
        {4, 2, 0.24}, {3, 1, 0.42},   {3, 1.5, 0.34}, {3, 2, 0.33},
    };
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++)
        assert_near(fitting_gored_elbow(NULL, 90 * DEGREE, rows[i].radius, rows[i].pieces, 1).value, rows[i].value,
                    0.06);
    static const struct {
        int pieces;
        double radius, value;
    } tight[] = {{5, 0.75, 0.46}, {4, 0.75, 0.50}, {3, 0.75, 0.54}, {3, 0.5, 0.98}};
    for (size_t i = 0; i < sizeof tight / sizeof *tight; i++)
        assert_true(fitting_gored_elbow(NULL, 90 * DEGREE, tight[i].radius, tight[i].pieces, 1).value >=
                    tight[i].value);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(every_row_of_the_handbook_is_reproduced),
        cmocka_unit_test(points_between_the_rows_follow_the_relations),
        cmocka_unit_test(radius_elbows_agree_with_the_duct_manuals),
        cmocka_unit_test(gored_elbows_lie_near_the_duct_manuals),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
