/* Pressure, density and viscosity of air, and the sources behind every figure. */
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <setjmp.h>
#include <cmocka.h>

#include "air/air.h"
#include "csv.h"
#include "near.h"

#define FOOT 0.3048
#define FPM (FOOT / 60)
#define CFM (FOOT * FOOT * FOOT / 60)
#define INCH_OF_WATER 248.84
#define POUND_PER_CUBIC_FOOT (0.45359237 / (FOOT * FOOT * FOOT))

/* US Standard Atmosphere 1976 as computed by the fluids library 1.0.22. */
static void pressure_falls_with_altitude_as_in_the_standard_atmosphere(void **state) {
    (void)state;
    struct csv csv;
    size_t rows = 0;
    csv_open(&csv, "tests/reference/standard_atmosphere.csv");
    for (; csv_next(&csv); rows++) {
        double pressure = air_pressure(csv_number(&csv, "altitude_ft") * FOOT);
        double want = csv_number(&csv, "pressure_pa");
        /* Within 1e-6 in a hundred thousand (printed to 1e-6 Pa); the two write the gas
         * constant with different digits. */
        if (fabs(pressure / want - 1) > 1e-7)
            fail_msg("%s ft: %.6f Pa, want %.6f", csv_text(&csv, "altitude_ft"), pressure, want);
    }
    csv_close(&csv);
    assert_int_equal(rows, 11);
}

/* Reference: 5000 ft has a pressure ratio of 0.8321 and 0.075 x ratio = 0.06241 lb/ft3. */
static void density_at_altitude_is_standard_times_the_pressure_ratio(void **state) {
    (void)state;
    struct air air = air_state(5000 * FOOT);
    assert_near(air.pressure / 101325, 0.8321, 0.00005);
    assert_near(air.density / POUND_PER_CUBIC_FOOT, 0.06241, 0.000005);
    assert_near(air_state(0).density, 1.201385, 5e-7);
}

/* Sutherland's law at 70 F: mu = 1.818718e-5 Pa s, nu = 1.513851e-5 m2/s; the standard atmosphere's own table gives
 * 1.7894e-5 at 288.15 K. */
static void viscosity_is_sutherlands(void **state) {
    (void)state;
    struct air air = air_state(0);
    assert_near(air.viscosity, 1.818718e-5, 5e-12);
    assert_near(air.viscosity / air.density, 1.513851e-5, 5e-12);
    assert_near(air_viscosity(288.15), 1.7894e-5, 5e-10);
}

/* The trade's (V/4005)^2, and its two printed values. */
static void velocity_pressure_is_the_trades_within_a_thousandth(void **state) {
    (void)state;
    struct air air = air_state(0);
    for (int fpm = 100; fpm <= 5000; fpm += 100) {
        double trade = (fpm / 4005.0) * (fpm / 4005.0);
        assert_near(air_velocity_pressure(&air, fpm * FPM) / INCH_OF_WATER / trade, 1, 0.001);
    }
    assert_near(air_velocity_pressure(&air, 900 * FPM) / INCH_OF_WATER, 0.05050, 0.00005);
    assert_near(air_velocity_pressure(&air, 1000 * FPM) / INCH_OF_WATER, 0.06234, 0.00006);
}

/* 1.08 btu/h for each cfm and F in standard air (ASHRAE Fundamentals, from memory): density times specific heat. */
static void a_cfm_carries_the_heat_of_the_trades_rule(void **state) {
    (void)state;
    struct air air = air_state(0);
    double btu_per_hour = 1055.05585262 / 3600;
    assert_near(air.density * air.specific_heat * CFM / 1.8 / btu_per_hour, 1.08, 1e-9);
}

static void every_source_says_what_it_gives_where_from_and_how_known(void **state) {
    (void)state;
    for (int id = SOURCE_NONE + 1; id < SOURCE_COUNT; id++) {
        const struct source *source = source_of((enum source_id)id);
        assert_non_null(source->method);
        assert_non_null(source->text);
        assert_true(strlen(source->method) >= 5 && strlen(source->text) > 8);
        assert_non_null(source_known_words(source->known));
        for (int other = SOURCE_NONE + 1; other < id; other++)
            assert_string_not_equal(source->method, source_of((enum source_id)other)->method);
    }
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(pressure_falls_with_altitude_as_in_the_standard_atmosphere),
        cmocka_unit_test(density_at_altitude_is_standard_times_the_pressure_ratio),
        cmocka_unit_test(viscosity_is_sutherlands),
        cmocka_unit_test(velocity_pressure_is_the_trades_within_a_thousandth),
        cmocka_unit_test(a_cfm_carries_the_heat_of_the_trades_rule),
        cmocka_unit_test(every_source_says_what_it_gives_where_from_and_how_known),
    };
    return cmocka_run_group_tests_name("properties", tests, NULL, NULL);
}
