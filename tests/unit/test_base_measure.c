/* Units against published factors, and figures as they are shown. */
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <setjmp.h>
#include <cmocka.h>

#include <math.h>
#include <string.h>

#include "base/constant.h"
#include "base/measure.h"

static int setup(void **state) {
    *state = arena_new(NULL);
    return *state ? 0 : -1;
}

static int teardown(void **state) {
    arena_free(*state);
    return 0;
}

static const struct measure *found(const char *word) {
    const struct measure *measure = measure_find(word, strlen(word));
    if (!measure)
        fail_msg("'%s' is not a unit", word);
    return measure;
}

struct published {
    const char *word;
    enum measure_kind kind;
    double factor;
    double tolerance; /* half a unit in the last place printed */
};

/* NIST Special Publication 811 (2008), appendix B.8, as printed there to seven figures (the inch of water to five).
 * From memory. */
static const struct published nist[] = {
    {.word = "ft", .kind = MEASURE_LENGTH, .factor = 0.3048, .tolerance = 0},
    {.word = "in", .kind = MEASURE_LENGTH, .factor = 0.0254, .tolerance = 0},
    {.word = "cfm", .kind = MEASURE_FLOW, .factor = 4.719474e-4, .tolerance = 0.5e-10},
    {.word = "in.wg", .kind = MEASURE_PRESSURE, .factor = 248.84, .tolerance = 0.5e-2},
    {.word = "fpm", .kind = MEASURE_VELOCITY, .factor = 5.08e-3, .tolerance = 1e-15},
    {.word = "btu/h", .kind = MEASURE_POWER, .factor = 0.2930711, .tolerance = 0.5e-7},
    {.word = "ton", .kind = MEASURE_POWER, .factor = 3516.853, .tolerance = 0.5e-3},
    {.word = "lb", .kind = MEASURE_MASS, .factor = 0.4535924, .tolerance = 0.5e-7},
    {.word = "oz", .kind = MEASURE_MASS, .factor = 0.02834952, .tolerance = 0.5e-8},
    {.word = "ft2", .kind = MEASURE_AREA, .factor = 0.09290304, .tolerance = 0.5e-8},
    {.word = "in2", .kind = MEASURE_AREA, .factor = 6.4516e-4, .tolerance = 1e-15},
    {.word = "R", .kind = MEASURE_RESISTANCE, .factor = 0.1761102, .tolerance = 0.5e-7},
    {.word = "degrees", .kind = MEASURE_ANGLE, .factor = 0.01745329, .tolerance = 0.5e-8},
    {.word = "days", .kind = MEASURE_TIME, .factor = 8.64e4, .tolerance = 0},
    {.word = "hours", .kind = MEASURE_TIME, .factor = 3600, .tolerance = 0},
    {.word = "min", .kind = MEASURE_TIME, .factor = 60, .tolerance = 0},
};

static void factors_are_those_of_nist_sp_811(void **state) {
    (void)state;
    for (size_t i = 0; i < sizeof nist / sizeof *nist; i++) {
        const struct measure *measure = found(nist[i].word);
        assert_int_equal(measure->kind, nist[i].kind);
        if (!(fabs(measure_to_si(measure, 1) - nist[i].factor) <= nist[i].tolerance))
            fail_msg("%s is %.10g, want %.10g", nist[i].word, measure->factor, nist[i].factor);
    }
}

/* NIST SP 811, B.8: 1 in. of water (60 F) = 248.84 Pa and 1 ft = 0.3048 m; over 100 ft: 248.84 / 30.48. */
static void friction_is_pressure_over_a_hundred_feet(void **state) {
    (void)state;
    const struct measure *friction = found("in.wg/100ft");
    assert_int_equal(friction->kind, MEASURE_FRICTION);
    assert_true(fabs(measure_to_si(friction, 0.08) - 0.08 * 8.164042) < 1e-7);
}

/* The SI Brochure (9th edition), table 7 (prefixes) and table 8 (litre, hour). */
static void metric_units_are_powers_of_ten(void **state) {
    (void)state;
    assert_true(measure_to_si(found("mm"), 250) == 0.25);
    assert_true(measure_to_si(found("cm"), 25) == 0.25);
    assert_true(measure_to_si(found("m"), 2) == 2);
    assert_true(measure_to_si(found("L/s"), 66) == 0.066);
    assert_true(fabs(measure_to_si(found("m3/h"), 36) - 0.01) < 1e-17);
    assert_true(measure_to_si(found("m3/s"), 0.2) == 0.2);
    assert_true(measure_to_si(found("kPa"), 0.5) == 500);
    assert_true(measure_to_si(found("Pa/m"), 0.8) == 0.8);
    assert_true(measure_to_si(found("kW"), 3.5) == 3500);
    assert_true(measure_to_si(found("%"), 50) == 0.5);
}

/* No choice is longer than it was meant: what is the most stays the most. */
static void what_the_program_chooses_is_round_in_either_system(void **state) {
    (void)state;
    assert_true(measure_chosen(MEASURE_US, 10 * FOOT) == 10 * FOOT);
    assert_true(fabs(measure_chosen(MEASURE_METRIC, 10 * FOOT) - 3) < 1e-15);
    assert_true(fabs(measure_chosen(MEASURE_METRIC, 4 * FOOT) - 1.2) < 1e-15);
    assert_true(fabs(measure_chosen(MEASURE_METRIC, 8 * INCH) - 0.2) < 1e-15);
    assert_true(measure_chosen(MEASURE_METRIC, 5 * FOOT) < 5 * FOOT);
}

/* The fixed points of water and the point where both scales meet: 32 F = 0 C = 273.15 K, 212 F = 100 C, -40 F = -40 C
 * (NIST SP 811, B.8: T/K = (t/F + 459.67) / 1.8). */
static void temperatures_have_their_zero_where_it_is(void **state) {
    (void)state;
    const struct measure *f = found("F"), *c = found("C"), *k = found("K");
    assert_true(fabs(measure_to_si(f, 32) - 273.15) < 1e-12);
    assert_true(fabs(measure_to_si(f, 212) - 373.15) < 1e-12);
    assert_true(fabs(measure_to_si(f, -40) - measure_to_si(c, -40)) < 1e-12);
    assert_true(measure_to_si(c, 0) == 273.15);
    assert_true(measure_to_si(k, 300) == 300);
    assert_true(fabs(measure_to_si(f, 70) - 294.2611111111111) < 1e-9);
}

/* Spellings of one unit each: what a mechanic may write. */
static void spellings_of_one_unit_mean_the_same(void **state) {
    (void)state;
    const char *const alike[][8] = {
        {"ft", "foot", "feet", "FT", "Ft"},
        {"in", "inch", "inches", "IN"},
        {"cfm", "CFM", "ft3/min"},
        {"L/s", "l/s", "l/S"},
        {"m3/h", "m³/h", "M3/H"},
        {"in.wg", "inwg", "in.wc", "in.w.g", "inwc", "in.WG", "IWG"},
        {"Pa", "pa", "PA"},
        {"in.wg/100ft", "inwg/100ft", "in.wc/100ft", "in.WG/100FT"},
        {"fpm", "FPM", "ft/min"},
        {"btu/h", "btuh", "Btu/h", "BTU/H", "BTUH", "btu/hr"},
        {"ton", "tons", "Tons"},
        {"ft2", "sqft", "ft²"},
        {"F", "degF", "f", "°F"},
        {"C", "degC", "c", "°C"},
        {"deg", "degrees", "degree", "°"},
        {"h", "hr", "hours"},
        {"m", "M"},
        {"kW", "kw", "KW"},
        {"m2K/W", "m2k/w"},
    };
    for (size_t i = 0; i < sizeof alike / sizeof *alike; i++)
        for (size_t j = 1; j < 8 && alike[i][j]; j++) {
            const struct measure *first = found(alike[i][0]), *other = found(alike[i][j]);
            assert_int_equal(other->kind, first->kind);
            assert_true(other->factor == first->factor && other->offset == first->offset);
        }
}

static void other_words_are_no_units(void **state) {
    (void)state;
    const char *const words[] = {"", "left", "x", "over", "at", "cfn", "in.", "in.wg/", "dollar", "MPa", "flat", "t"};
    for (size_t i = 0; i < sizeof words / sizeof *words; i++)
        if (measure_find(words[i], strlen(words[i])))
            fail_msg("'%s' is taken for a unit", words[i]);
    assert_null(measure_find("ft\0x", 4));
    assert_string_equal(measure_find("ft 6 in", 2)->name, "ft"); /* the length counts, not what stands behind */
}

static void every_kind_has_words_and_an_example_with_its_unit(void **state) {
    (void)state;
    for (int kind = 0; kind < MEASURE_KIND_COUNT; kind++) {
        const struct measure_words *words = measure_words((enum measure_kind)kind);
        assert_non_null(words->name);
        assert_non_null(words->example);
        const char *unit = strrchr(words->example, ' ');
        if (kind == MEASURE_NUMBER)
            assert_null(unit);
        else if (kind == MEASURE_RESISTANCE) /* R-8: the unit stands in front */
            assert_int_equal(measure_find(words->example, 1)->kind, kind);
        else
            assert_int_equal(found(unit + 1)->kind, kind);
        if (words->metric_example)
            assert_int_equal(found(strrchr(words->metric_example, ' ') + 1)->kind, kind);
    }
}

static void an_example_is_in_the_units_of_the_job(void **state) {
    (void)state;
    assert_string_equal(measure_example(MEASURE_FLOW, MEASURE_US), "140 cfm");
    assert_string_equal(measure_example(MEASURE_FLOW, MEASURE_METRIC), "66 L/s");
    assert_string_equal(measure_example(MEASURE_PERCENT, MEASURE_METRIC), "96 %");
}

static void the_nearest_unit_is_of_the_kind_that_is_wanted(void **state) {
    (void)state;
    assert_string_equal(measure_nearest("cfn", MEASURE_FLOW), "cfm");
    assert_null(measure_nearest("cfn", MEASURE_LENGTH));
    assert_string_equal(measure_nearest("inc", MEASURE_LENGTH), "in");
    assert_string_equal(measure_nearest("btu", MEASURE_POWER), "btuh");
    assert_null(measure_nearest("furlong", MEASURE_LENGTH));
}

struct shown {
    enum measure_system system;
    enum measure_use use;
    double si;
    const char *text;
};

/* Worked by hand with the factors of NIST SP 811, B.8. */
static const struct shown shown[] = {
    {MEASURE_US, SHOW_SIZE, 0.254, "10 in"},
    {MEASURE_US, SHOW_SIZE, 0.2667, "10.5 in"},
    {MEASURE_US, SHOW_SIZE, 0.08255, "3.25 in"},
    {MEASURE_METRIC, SHOW_SIZE, 0.25, "250 mm"},
    {MEASURE_METRIC, SHOW_SIZE, 0.08255, "82.5 mm"},
    {MEASURE_US, SHOW_RUN, 4.4196, "14 ft 6 in"},
    {MEASURE_US, SHOW_RUN, 10 * 0.3048 + 6.5 * 0.0254, "10 ft 6-1/2 in"},
    {MEASURE_US, SHOW_RUN, 0.3048 + 0.25 * 0.0254, "1 ft 1/4 in"},
    {MEASURE_US, SHOW_RUN, 0.3048 - 0.05 * 0.0254, "1 ft"}, /* nearest to no eighth but 12 in */
    {MEASURE_US, SHOW_RUN, 11.875 * 0.0254, "11-7/8 in"},
    {MEASURE_US, SHOW_RUN, 0, "0 ft"},
    {MEASURE_US, SHOW_RUN, -1e-9, "0 ft"},
    {MEASURE_US, SHOW_RUN, -0.4572, "-1 ft 6 in"},
    {MEASURE_US, SHOW_RUN, 6.096, "20 ft"},
    {MEASURE_METRIC, SHOW_RUN, 4.4196, "4.42 m"},
    {MEASURE_METRIC, SHOW_RUN, 20, "20 m"},
    {MEASURE_US, SHOW_FLOW, 140 * 4.719474e-4, "140 cfm"},
    {MEASURE_METRIC, SHOW_FLOW, 0.06604, "66.0 L/s"},
    {MEASURE_US, SHOW_PRESSURE, 13, "0.052 in. w.g."},
    {MEASURE_US, SHOW_PRESSURE, 0, "0.000 in. w.g."},
    {MEASURE_METRIC, SHOW_PRESSURE, 12.96, "13.0 Pa"},
    {MEASURE_US, SHOW_FRICTION, 0.6531, "0.080 in. w.g./100 ft"},
    {MEASURE_METRIC, SHOW_FRICTION, 0.6531, "0.65 Pa/m"},
    {MEASURE_US, SHOW_VELOCITY, 3.556, "700 fpm"},
    {MEASURE_METRIC, SHOW_VELOCITY, 3.556, "3.56 m/s"},
    {MEASURE_US, SHOW_AREA, 0.9290304, "10.0 ft2"},
    {MEASURE_METRIC, SHOW_AREA, 0.9290304, "0.93 m2"},
    {MEASURE_US, SHOW_COOLING, 3516.853 * 3.5, "3.5 ton"},
    {MEASURE_US, SHOW_COOLING, 3516.853 * 3, "3 ton"},
    {MEASURE_METRIC, SHOW_COOLING, 3516.853, "3.52 kW"},
    {MEASURE_US, SHOW_HEAT, 0.2930711 * 36000, "36000 btu/h"},
    {MEASURE_METRIC, SHOW_HEAT, 0.2930711 * 36000, "10.55 kW"},
    {MEASURE_US, SHOW_DENSITY, 1.2014, "0.0750 lb/ft3"},
    {MEASURE_METRIC, SHOW_DENSITY, 1.2014, "1.201 kg/m3"},
    {MEASURE_US, SHOW_TEMPERATURE, 285.92778, "55 F"},
    {MEASURE_METRIC, SHOW_TEMPERATURE, 285.92778, "12.8 C"},
    {MEASURE_US, SHOW_ALTITUDE, 381, "1250 ft"},
    {MEASURE_METRIC, SHOW_ALTITUDE, 381, "381 m"},
    {MEASURE_US, SHOW_RESISTANCE, 8 / 5.678263, "8.0 h ft2 F/btu"},
    {MEASURE_METRIC, SHOW_RESISTANCE, 8 / 5.678263, "1.41 m2K/W"},
    {MEASURE_US, SHOW_CUT, 9.25 * 0.0254, "9-1/4 in"},
    {MEASURE_US, SHOW_CUT, 9.99 * 0.0254, "10 in"},
    {MEASURE_US, SHOW_CUT, 12.3 * 0.0254, "12-5/16 in"},
    {MEASURE_US, SHOW_CUT, 0.25 * 0.0254, "1/4 in"},
    {MEASURE_US, SHOW_CUT, 0, "0 in"},
    {MEASURE_METRIC, SHOW_CUT, 0.23526, "235.5 mm"},
    {MEASURE_METRIC, SHOW_CUT, 0.2352, "235 mm"},
    {MEASURE_US, SHOW_WEIGHT, 4.5359237, "10.0 lb"},
    {MEASURE_METRIC, SHOW_WEIGHT, 4.5359237, "4.5 kg"},
};

static void figures_have_the_decimals_of_their_use(void **state) {
    for (size_t i = 0; i < sizeof shown / sizeof *shown; i++)
        assert_string_equal(measure_text(*state, shown[i].system, shown[i].use, shown[i].si), shown[i].text);
}

static void nothing_is_never_less_than_nothing(void **state) {
    assert_string_equal(measure_figure(*state, MEASURE_US, SHOW_PRESSURE, -0.01), "0.000");
    assert_string_equal(measure_figure(*state, MEASURE_US, SHOW_PRESSURE, -0.2), "-0.001");
    assert_string_equal(measure_figure(*state, MEASURE_US, SHOW_SIZE, -0.0), "0");
    assert_string_equal(measure_figure(*state, MEASURE_US, SHOW_FLOW, -1e-9), "0");
    assert_string_equal(measure_figure(*state, MEASURE_METRIC, SHOW_ALTITUDE, -10), "-10");
    assert_string_equal(measure_figure(*state, MEASURE_US, SHOW_CUT, -1e-6), "0");
    assert_string_equal(measure_figure(*state, MEASURE_METRIC, SHOW_CUT, -1e-6), "0");
    assert_string_equal(measure_figure(*state, MEASURE_US, SHOW_CUT, -0.5 * 0.0254), "-1/2");
    assert_string_equal(measure_figure(*state, MEASURE_US, SHOW_FLOW, 100 * 4.719474e-4), "100");
}

/* What has to be enough is never shown as less than it is, what must not be passed never as more; what can be shown
 * as it is stays as it is. */
static void figures_that_must_hold_are_rounded_to_the_safe_side(void **state) {
    assert_string_equal(measure_text_up(*state, MEASURE_US, SHOW_AREA, 0.34 * 0.09290304), "0.4 ft2");
    assert_string_equal(measure_text_up(*state, MEASURE_US, SHOW_AREA, 0.31 * 0.09290304), "0.4 ft2");
    assert_string_equal(measure_text_up(*state, MEASURE_US, SHOW_SIZE, 14 * 0.0254), "14 in");
    assert_string_equal(measure_text_down(*state, MEASURE_US, SHOW_PRESSURE, 0.0129 * 248.84), "0.012 in. w.g.");
    assert_string_equal(measure_text_down(*state, MEASURE_US, SHOW_FLOW, 1200 * 4.719474432e-4), "1200 cfm");
    assert_string_equal(measure_text_down(*state, MEASURE_METRIC, SHOW_RUN, 0.999), "0.99 m");
    assert_string_equal(measure_text_up(*state, MEASURE_US, SHOW_CUT, 9.01 * 0.0254), "9-1/16 in");
    assert_string_equal(measure_text_down(*state, MEASURE_METRIC, SHOW_CUT, 0.0999), "99.5 mm");
}

static void a_unit_is_the_same_in_every_spelling(void **state) {
    (void)state;
    assert_true(measure_is(found("feet"), "ft"));
    assert_true(measure_is(found("inches"), "in"));
    assert_false(measure_is(found("m"), "ft"));
    assert_false(measure_is(found("ton"), "W"));
    assert_false(measure_is(NULL, "ft"));
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(factors_are_those_of_nist_sp_811),
        cmocka_unit_test(friction_is_pressure_over_a_hundred_feet),
        cmocka_unit_test(metric_units_are_powers_of_ten),
        cmocka_unit_test(what_the_program_chooses_is_round_in_either_system),
        cmocka_unit_test(temperatures_have_their_zero_where_it_is),
        cmocka_unit_test(spellings_of_one_unit_mean_the_same),
        cmocka_unit_test(other_words_are_no_units),
        cmocka_unit_test(every_kind_has_words_and_an_example_with_its_unit),
        cmocka_unit_test(an_example_is_in_the_units_of_the_job),
        cmocka_unit_test(the_nearest_unit_is_of_the_kind_that_is_wanted),
        cmocka_unit_test(figures_have_the_decimals_of_their_use),
        cmocka_unit_test(figures_that_must_hold_are_rounded_to_the_safe_side),
        cmocka_unit_test(a_unit_is_the_same_in_every_spelling),
        cmocka_unit_test(nothing_is_never_less_than_nothing),
    };
    return cmocka_run_group_tests(tests, setup, teardown);
}
