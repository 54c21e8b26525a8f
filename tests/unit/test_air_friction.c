/* Friction of straight duct against published and separately computed tables. */
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <setjmp.h>
#include <cmocka.h>

#include "air/air.h"
#include "csv.h"
#include "diameter.h"
#include "near.h"

#define FOOT 0.3048
#define INCH 0.0254
#define CFM (FOOT * FOOT * FOOT / 60)
/* 1 in. w.g. of the tables that rest on (V/4005)^2 at 0.075 lb/ft3 (water at 68 F), per 100 ft. */
#define RATE_4005 (248.648 / (100 * FOOT))

/* Half of the last printed digit. */
#define HALF_OF_1E_5 0.5e-5
#define HALF_OF_1E_7 0.5e-7

static struct duct_size rectangle(double width, double height) {
    return (struct duct_size){SHAPE_RECTANGULAR, width * INCH, height * INCH};
}

static struct duct_size oval(double width, double height) {
    return (struct duct_size){SHAPE_OVAL, width * INCH, height * INCH};
}

/* ---- Against the fluids library's Colebrook ---------------------------------------------------------------------- */

/* Round duct, and rectangular duct by its round equivalent. */
static void compare_rate(const struct csv *csv, const struct air *air, double diameter) {
    double flow = csv_number(csv, "cfm") * CFM, roughness = csv_number(csv, "eps_ft") * FOOT;
    double rate = air_friction_rate(air, flow, diameter, roughness), want = csv_number(csv, "dp_Pa_per_m");
    assert_near(rate, want, 1e-6 * want + HALF_OF_1E_5);
}

/* Rectangular duct by its hydraulic diameter and true velocity: the factor alone is ours. */
static void compare_hydraulic(const struct csv *csv, const struct air *air, struct duct_size size) {
    double diameter = size_hydraulic_diameter(size), velocity = csv_number(csv, "cfm") * CFM / size_area(size);
    double reynolds = air->density * velocity * diameter / air->viscosity;
    double factor = air_friction_factor(reynolds, csv_number(csv, "eps_ft") * FOOT / diameter);
    double rate = factor / diameter * air_velocity_pressure(air, velocity), want = csv_number(csv, "dp_Pa_per_m");
    assert_near(rate, want, 1e-6 * want + HALF_OF_1E_5);
}

static void compare_factor(const struct csv *csv, const struct air *air, double diameter, double velocity) {
    double reynolds = air->density * velocity * diameter / air->viscosity;
    double factor = air_friction_factor(reynolds, csv_number(csv, "eps_ft") * FOOT / diameter);
    double want = csv_number(csv, "f_colebrook");
    assert_near(reynolds, csv_number(csv, "Re"), 0.5 + 1e-6 * reynolds);
    assert_near(factor, want, 1e-6 * want + HALF_OF_1E_7);
}

/* fluids 1.0.22, friction.Colebrook: 1e-6 relative, and what the printed digits leave out. */
static void every_row_of_the_friction_table_agrees_with_fluids(void **state) {
    (void)state;
    struct air air = air_state(0);
    struct csv csv;
    size_t rows = 0;
    csv_open(&csv, "tests/reference/friction.csv");
    for (; csv_next(&csv); rows++) {
        const char *shape = csv_text(&csv, "shape");
        double diameter = csv_number(&csv, "dim1_in") * INCH;
        struct duct_size size = rectangle(csv_number(&csv, "dim1_in"), csv_number(&csv, "dim2_in"));
        if (strcmp(shape, "rect-Dh") == 0) {
            compare_hydraulic(&csv, &air, size);
            compare_factor(&csv, &air, size_hydraulic_diameter(size), csv_number(&csv, "cfm") * CFM / size_area(size));
            continue;
        }
        if (strcmp(shape, "rect-De") == 0)
            diameter = air_equivalent_diameter(size);
        compare_rate(&csv, &air, diameter);
        compare_factor(&csv, &air, diameter,
                       csv_number(&csv, "cfm") * CFM / (3.14159265358979 / 4 * diameter * diameter));
    }
    csv_close(&csv);
    assert_int_equal(rows, 118);
}

/* Colebrook's own equation: what is left over, for every Reynolds number and roughness a duct can have. */
static void the_factor_solves_colebrooks_equation(void **state) {
    (void)state;
    for (double reynolds = 4000; reynolds < 1e9; reynolds *= 1.37)
        for (double relative = 0; relative<0.06; relative = relative> 0 ? relative * 1.7 : 1e-8) {
            double x = 1 / sqrt(air_friction_factor(reynolds, relative));
            assert_near(x + 2 * log10(relative / 3.7 + 2.51 * x / reynolds), 0, 1e-14 * x);
        }
}

/* The fit of the friction chart, 0.109136 q^1.9 / d^5.02 in. w.g. per 100 ft (q cfm, d in; read in a public engineering
 * forum that quotes it), on the roughness that the older chart rests on.  A few percent is what a single power law can
 * do: 6. */
static void the_friction_charts_fit_is_within_a_few_percent(void **state) {
    (void)state;
    struct air air = air_state(0);
    for (double diameter = 6; diameter <= 24; diameter += 2)
        for (double fpm = 600; fpm <= 1500; fpm += 100) {
            double flow = 3.14159265358979 / 4 * diameter * diameter / 144 * fpm;
            double chart = 0.109136 * pow(flow, 1.9) / pow(diameter, 5.02);
            double rate = air_friction_rate(&air, flow * CFM, diameter * INCH, 0.0005 * FOOT) / RATE_4005;
            assert_near(chart / rate, 1, 0.06);
        }
}

/* Industrial ventilation practice (read): 0.0307 V^0.533 / Q^0.612 velocity pressures a foot of galvanised duct, V fpm,
 * Q cfm.  Computed apart: 1.5 to 4.1 % above Colebrook at 0.0005 ft from 4 to 24 in and 1700 to 4500 fpm; 1.4 % where
 * every inch and every 100 fpm is tried, as here (4 in at 4500 fpm). */
static void industrial_practice_is_a_little_above_colebrook(void **state) {
    (void)state;
    struct air air = air_state(0);
    for (double diameter = 4; diameter <= 24; diameter += 1)
        for (double fpm = 1700; fpm <= 4500; fpm += 100) {
            double flow = 3.14159265358979 / 4 * diameter * diameter / 144 * fpm;
            double practice = 0.0307 * pow(fpm, 0.533) / pow(flow, 0.612);
            double rate = air_friction_rate(&air, flow * CFM, diameter * INCH, 0.0005 * FOOT);
            double a_foot = rate * FOOT / air_velocity_pressure(&air, fpm * FOOT / 60);
            assert_true(practice / a_foot > 1.0135 && practice / a_foot < 1.0415);
        }
}

/* ---- Slow flow --------------------------------------------------------------------------------------------------- */

/* 64/Re, exact (Hagen and Poiseuille); no step where the three laws meet; more air never costs less. */
static void slow_flow_is_laminar_and_joins_without_a_step(void **state) {
    (void)state;
    assert_near(air_friction_factor(1000, 0.001), 0.064, 1e-15);
    assert_near(air_friction_factor(2299.999999, 0.001), air_friction_factor(2300.000001, 0.001), 1e-9);
    assert_near(air_friction_factor(3999.999999, 0.001), air_friction_factor(4000.000001, 0.001), 1e-9);
    double middle = (64 / 2300.0 + air_friction_factor(4000, 0.001)) / 2;
    assert_near(air_friction_factor(3150, 0.001), middle, 1e-12);
}

static void more_air_always_costs_more(void **state) {
    (void)state;
    struct air air = air_state(0);
    double before = air_friction_rate(&air, 0, 0.2, 0.00009);
    assert_true(before == 0);
    for (double flow = 1e-5; flow < 2; flow *= 1.01) {
        double rate = air_friction_rate(&air, flow, 0.2, 0.00009);
        assert_true(rate > before);
        before = rate;
    }
}

/* ---- Equivalents ------------------------------------------------------------------------------------------------- */

static void compare_shape(const struct csv *csv, struct duct_size size) {
    assert_near(air_equivalent_diameter(size) / INCH, csv_number(csv, "De_in"), 0.00006);
    assert_near(size_hydraulic_diameter(size) / INCH, csv_number(csv, "Dh_in"), 0.00006);
    assert_near(size_area(size) / (INCH * INCH), csv_number(csv, "area_in2"), 0.0006);
    assert_near(size_perimeter(size) / INCH, csv_number(csv, "perimeter_in"), 0.0006);
    assert_near(size_aspect(size), csv_number(csv, "aspect"), 0.0006);
}

/* Huebscher 1948; Heyt and Diaz 1975: arithmetic done apart in python 3.11.2, to the printed digit. */
static void equivalents_agree_with_the_computed_table(void **state) {
    (void)state;
    struct csv csv;
    size_t ovals = 0, rectangles = 0;
    csv_open(&csv, "tests/reference/rect_equiv.csv");
    while (csv_next(&csv)) {
        bool flat_oval = strstr(csv_text(&csv, "shape"), "oval") != NULL;
        double a = csv_number(&csv, "a_in"), b = csv_number(&csv, "b_in");
        compare_shape(&csv, flat_oval ? oval(a, b) : rectangle(a, b));
        *(flat_oval ? &ovals : &rectangles) += 1;
    }
    csv_close(&csv);
    assert_int_equal(rectangles, 35);
    assert_int_equal(ovals, 8);
}

/* Heating Ventilating Air Conditioning Guide 1956, chapter 32, table 1: read, printed to 0.1 in.  0.13 in, because the
 * printed table itself departs from Huebscher's formula by that much (worst 26 x 19). */
static void equivalents_agree_with_the_guide_of_1956(void **state) {
    (void)state;
    struct csv csv;
    size_t rows = 0;
    csv_open(&csv, "tests/reference/rect_equiv_1956.csv");
    for (; csv_next(&csv); rows++) {
        struct duct_size size = rectangle(csv_number(&csv, "side_a_in"), csv_number(&csv, "side_b_in"));
        assert_near(air_equivalent_diameter(size) / INCH, csv_number(&csv, "De_in"), 0.13);
    }
    csv_close(&csv);
    assert_int_equal(rows, 134);
}

/* Published cross-checks: 300 x 500 mm is 420 mm; oval 30 x 24 in is 27.5 in, 30 x 26
 * in 28.4 in (course notes, read). */
static void equivalents_agree_with_published_single_values(void **state) {
    (void)state;
    assert_near(air_equivalent_diameter((struct duct_size){SHAPE_RECTANGULAR, 0.5, 0.3}), 0.420, 0.0005);
    assert_near(air_equivalent_diameter(oval(30, 24)) / INCH, 27.5, 0.05);
    assert_near(air_equivalent_diameter(oval(30, 26)) / INCH, 28.4, 0.05);
    assert_near(air_equivalent_diameter((struct duct_size){SHAPE_ROUND, 0.2, 0.2}), 0.2, 1e-15);
}

/* ---- Diameters --------------------------------------------------------------------------------------------------- */

/* Round sizes at 0.10 in. w.g. per 100 ft from a residential duct sizing guide (parts catalogue, 2017, page 426: read):
 * the next whole inch, all 28 of them.  With the older chart's roughness two come out otherwise, 700 and 1500 cfm. */
static void all_28_published_round_sizes_come_out(void **state) {
    (void)state;
    struct air air = air_state(0);
    struct csv csv;
    size_t rows = 0, as_published = 0, older = 0;
    csv_open(&csv, "tests/reference/sizing_round_0p10.csv");
    for (; csv_next(&csv); rows++) {
        double flow = csv_number(&csv, "cfm") * CFM, published = csv_number(&csv, "published_in");
        double galvanised = air_roughness(MATERIAL_GALVANISED);
        double diameter = diameter_for_rate(&air, flow, 0.10 * RATE_4005, galvanised) / INCH;
        double rough = diameter_for_rate(&air, flow, 0.10 * RATE_4005, 0.0005 * FOOT) / INCH;
        assert_near(diameter, csv_number(&csv, "exact_in_eps0.0003"), 0.00006);
        assert_near(rough, csv_number(&csv, "exact_in_eps0.0005"), 0.00006);
        as_published += ceil(diameter) == published;
        older += ceil(rough) == published;
    }
    csv_close(&csv);
    assert_int_equal(rows, 28);
    assert_int_equal(as_published, 28);
    assert_int_equal(older, 26);
}

/* A number between 0 and 1, the same on every machine. */
static double chance(uint64_t *seed) {
    *seed = *seed * 6364136223846793005u + 1442695040888963407u;
    return (double)(*seed >> 11) / 9007199254740992.0;
}

/* A diameter found for a rate loses that rate; one made from a diameter gives it back. */
static void diameter_and_rate_are_inverse(void **state) {
    (void)state;
    uint64_t seed = 20260418;
    print_message("seed %llu\n", (unsigned long long)seed);
    for (int i = 0; i < 20000; i++) {
        struct air air = air_state(3000 * chance(&seed));
        double diameter = 0.05 * pow(40, chance(&seed)), velocity = 0.02 * pow(1000, chance(&seed));
        double roughness = 0.003 * chance(&seed), flow = 3.14159265358979 / 4 * diameter * diameter * velocity;
        double rate = air_friction_rate(&air, flow, diameter, roughness);
        double found = diameter_for_rate(&air, flow, rate, roughness);
        if (!(fabs(found / diameter - 1) < 1e-9))
            fail_msg("case %d: D %.12g V %.12g roughness %.12g: found %.12g", i, diameter, velocity, roughness, found);
    }
}

static void no_air_needs_no_duct(void **state) {
    (void)state;
    struct air air = air_state(0);
    assert_true(diameter_for_rate(&air, 0, 1, 0.00009) == 0);
    assert_true(diameter_for_rate(&air, 1, 0, 0.00009) == 0);
}

/* ---- Walls ------------------------------------------------------------------------------------------------------- */

/* ASHRAE Fundamentals after tests of compressed flexible duct (from memory), 6 in: about 2 times at 4 %, 4 to 5 at 15
 * %, 9 at 30 %, each as loosely as it is quoted. */
static void a_flexible_duct_left_short_loses_as_tests_say(void **state) {
    (void)state;
    assert_near(air_flex_factor(6 * INCH, 0.96), 2, 0.1);
    assert_near(air_flex_factor(6 * INCH, 0.85), 4.5, 0.6);
    assert_near(air_flex_factor(6 * INCH, 0.70), 9, 0.2);
    assert_near(air_flex_factor(6 * INCH, 1), 1, 1e-15);
    assert_near(air_flex_factor(6 * INCH, 1.02), 1, 1e-15);
    assert_true(air_flex_factor(6 * INCH, 0.9) > air_flex_factor(10 * INCH, 0.9));
}

/* ASHRAE Fundamentals, table of duct roughness (from memory), ft. */
static void walls_are_as_rough_as_the_handbook_says(void **state) {
    (void)state;
    assert_near(air_roughness(MATERIAL_GALVANISED) / FOOT, 0.0003, 1e-12);
    assert_near(air_roughness(MATERIAL_ALUMINIUM) / FOOT, 0.0001, 1e-12);
    assert_near(air_roughness(MATERIAL_PVC) / FOOT, 0.0001, 1e-12);
    assert_near(air_roughness(MATERIAL_FIBROUS_BOARD) / FOOT, 0.003, 1e-12);
    assert_near(air_lining_roughness() / FOOT, 0.003, 1e-12);
    assert_near(air_flex_roughness() / FOOT, 0.01, 1e-12);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(every_row_of_the_friction_table_agrees_with_fluids),
        cmocka_unit_test(the_factor_solves_colebrooks_equation),
        cmocka_unit_test(the_friction_charts_fit_is_within_a_few_percent),
        cmocka_unit_test(industrial_practice_is_a_little_above_colebrook),
        cmocka_unit_test(slow_flow_is_laminar_and_joins_without_a_step),
        cmocka_unit_test(more_air_always_costs_more),
        cmocka_unit_test(equivalents_agree_with_the_computed_table),
        cmocka_unit_test(equivalents_agree_with_the_guide_of_1956),
        cmocka_unit_test(equivalents_agree_with_published_single_values),
        cmocka_unit_test(all_28_published_round_sizes_come_out),
        cmocka_unit_test(diameter_and_rate_are_inverse),
        cmocka_unit_test(no_air_needs_no_duct),
        cmocka_unit_test(a_flexible_duct_left_short_loses_as_tests_say),
        cmocka_unit_test(walls_are_as_rough_as_the_handbook_says),
    };
    return cmocka_run_group_tests_name("friction", tests, NULL, NULL);
}
