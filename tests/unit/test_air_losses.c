/* Losses of a network built by hand (air_bench.h); friction from rows of
 * tests/reference/friction.csv (fluids 1.0.22). */
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <setjmp.h>
#include <cmocka.h>

#include <stdlib.h>

#include "air_bench.h"
#include "near.h"

/* Pa/m at 0.0003 ft, by diameter and cfm; printed to 1e-5. */
#define RATE_10_400 0.69806
#define RATE_10_250 0.29714
#define RATE_8_150 0.34901
#define RATE_8_250 0.88050
#define RATE_8_150_ROUGH 0.35919 /* at 0.0005 ft */
#define DIGIT 0.00001

/* 1 + 0.58 x 4 x exp(-0.126 x 8) = 1 + 2.32 x 0.364948 = 1.846680 */
#define FLEX_FACTOR_8 1.846680

static int setup(void **state) {
    struct bench *bench = malloc(sizeof *bench);
    if (!bench)
        return 1;
    bench_build(bench);
    *state = bench;
    return 0;
}

static int teardown(void **state) {
    free(*state);
    return 0;
}

static void run_losses(struct bench *bench) {
    struct air air = air_state(0);
    air_losses(&bench->network, &air);
}

static void straight_duct_loses_its_length_times_the_tables_rate(void **state) {
    struct bench *bench = *state;
    run_losses(bench);
    assert_near(bench->sections[TRUNK_1].friction_rate, RATE_10_400, DIGIT);
    assert_near(bench->sections[TRUNK_1].loss, 5 * RATE_10_400, 5 * DIGIT);
    assert_near(bench->sections[TRUNK_2].loss, 2 * RATE_10_250, 2 * DIGIT);
    assert_near(bench->sections[END_1].loss, 4 * RATE_8_250, 4 * DIGIT);
    assert_near(bench->items[END_1][1].loss.friction, 4 * RATE_8_250, 4 * DIGIT);
    /* 400 cfm in 10 in round: 733.39 fpm. */
    assert_near(bench->sections[TRUNK_1].velocity, 733.39 * FOOT / 60, 0.0001);
}

static void flexible_duct_has_its_own_wall(void **state) {
    struct bench *bench = *state;
    run_losses(bench);
    assert_near(bench->items[BRANCH_1][2].loss.friction, RATE_8_150_ROUGH * FLEX_FACTOR_8, 2 * DIGIT);
    assert_near(bench->sections[BRANCH_1].loss, 3 * RATE_8_150 + RATE_8_150_ROUGH * FLEX_FACTOR_8, 5 * DIGIT);
    /* 3 m of 4 are sheet metal. */
    assert_null(bench->ducts[BRANCH].wall);
    assert_near(bench->ducts[BRANCH].roughness, 0.0003 * FOOT, 1e-12);
    assert_near(bench->ducts[BRANCH].friction_multiplier, 1, 1e-12);
}

static void a_duct_is_what_it_is_mostly_made_of(void **state) {
    struct bench *bench = *state;
    bench->items[BRANCH_1][2].length = 3.5;
    run_losses(bench);
    assert_ptr_equal(bench->ducts[BRANCH].wall, &bench->pieces[FLEX].piece);
    assert_near(bench->ducts[BRANCH].roughness, 0.0005 * FOOT, 1e-12);
    assert_near(bench->ducts[BRANCH].friction_multiplier, FLEX_FACTOR_8, 1e-6);
    assert_near(bench->sections[BRANCH_1].friction_rate, RATE_8_150_ROUGH * FLEX_FACTOR_8, 2 * DIGIT);
    /* The straight part of it keeps its own wall. */
    assert_near(bench->items[BRANCH_1][1].loss.friction, 3 * RATE_8_150, 3 * DIGIT);
}

/* The diameter for a rate holds the flexible duct's factor at that very diameter. */
static void a_flexible_ducts_diameter_fits_its_own_factor(void **state) {
    struct bench *bench = *state;
    struct air air = air_state(0);
    bench->items[BRANCH_1][2].length = 3.5;
    bench->ducts[BRANCH].size = (struct duct_size){SHAPE_ROUND, 0, 0};
    bench->ducts[BRANCH].flow = 150 * CFM;
    air_walls(&bench->network);
    double diameter = air_duct_diameter(&air, &bench->ducts[BRANCH], 0.5);
    double rate = air_friction_rate(&air, 150 * CFM, diameter, 0.0005 * FOOT) * air_flex_factor(diameter, 0.96);
    assert_near(rate, 0.5, 1e-8);
    /* And 8 in is what the factor above asks for at the rate that 8 in has. */
    diameter = air_duct_diameter(&air, &bench->ducts[BRANCH], RATE_8_150_ROUGH * FLEX_FACTOR_8);
    assert_near(diameter / INCH, 8, 0.0001);
}

static void a_lined_run_is_as_rough_as_its_lining(void **state) {
    struct bench *bench = *state;
    struct air air = air_state(0);
    bench->runs[TRUNK].settings.lining = 1 * INCH;
    run_losses(bench);
    double rough = air_friction_rate(&air, 400 * CFM, 10 * INCH, 0.003 * FOOT);
    assert_near(bench->sections[TRUNK_1].friction_rate, rough, 1e-12);
    assert_true(rough > 1.2 * RATE_10_400);
}

static void the_way_to_the_unit_is_the_sum_of_its_sections(void **state) {
    struct bench *bench = *state;
    bench->pieces[TAP].pascals = 2;
    bench->pieces[CHANGE].pascals = 0.5;
    bench->pieces[REGISTER_B].pascals = 7.5;
    run_losses(bench);
    /* 3.49030 + (2 + 0.59428) + (0.5 + 3.52200 + 7.5) = 17.60658 */
    assert_near(bench->sections[END_1].loss_to_unit, 17.60658, 0.0001);
    assert_near(bench->sections[END_1].loss, 11.522, 4 * DIGIT);
}

/* ---- What a piece is told ---------------------------------------------------------------------------------------- */

static void a_stream_is(struct stream stream, double inches, double cfm) {
    assert_near(stream.size.width, inches * INCH, 1e-12);
    assert_near(stream.flow, cfm * CFM, 1e-12);
}

/* The tap is asked twice, the second time (sections in order) as the branch. */
static void a_branch_knows_all_three_streams(void **state) {
    struct bench *bench = *state;
    run_losses(bench);
    const struct piece_flow *seen = &bench->pieces[TAP].seen;
    assert_int_equal(bench->pieces[TAP].asked, 2);
    assert_int_equal(seen->role, ITEM_BRANCH);
    assert_true(seen->supply);
    a_stream_is(seen->common, 10, 400);
    a_stream_is(seen->branch, 8, 150);
    a_stream_is(seen->through, 10, 250);
    a_stream_is(seen->near, 10, 400);
    a_stream_is(seen->far, 8, 150);
}

static void air_that_goes_past_a_tap_knows_all_three_streams(void **state) {
    struct bench *bench = *state;
    bench->network.sections.count = TRUNK_2 + 1;
    run_losses(bench);
    const struct piece_flow *seen = &bench->pieces[TAP].seen;
    assert_int_equal(seen->role, ITEM_PAST);
    a_stream_is(seen->common, 10, 400);
    a_stream_is(seen->branch, 8, 150);
    a_stream_is(seen->through, 10, 250);
    a_stream_is(seen->far, 10, 250);
}

static void a_leg_knows_itself_and_the_other(void **state) {
    struct bench *bench = *state;
    run_losses(bench);
    const struct piece_flow *seen = &bench->pieces[SPLIT].seen;
    assert_int_equal(bench->pieces[SPLIT].asked, 2);
    assert_int_equal(seen->role, ITEM_LEG);
    assert_int_equal(seen->leg, LEG_STRAIGHT);
    assert_false(seen->supply);
    a_stream_is(seen->common, 10, 400);
    a_stream_is(seen->branch, 8, 150);
    a_stream_is(seen->through, 8, 250);
}

static void a_plain_connection_of_equal_sizes_costs_nothing(void **state) {
    struct bench *bench = *state;
    bench->pieces[CHANGE].pascals = 3;
    run_losses(bench);
    a_stream_is(bench->pieces[CHANGE].seen.near, 10, 250);
    a_stream_is(bench->pieces[CHANGE].seen.far, 8, 250);
    assert_near(bench->items[END_1][0].loss.pressure, 3, 1e-12);
    bench->ducts[END].size = bench->ducts[TRUNK].size;
    run_losses(bench);
    assert_true(bench->items[END_1][0].loss.pressure == 0);
    assert_int_equal(bench->pieces[CHANGE].asked, 1);
}

static void a_section_without_air_or_size_costs_nothing(void **state) {
    struct bench *bench = *state;
    bench->pieces[GRILLE_LEFT].pascals = 9;
    run_losses(bench);
    assert_true(bench->sections[LEFT_1].loss > 9);
    bench->sections[LEFT_1].flow = 0;
    bench->ducts[END].size = (struct duct_size){0};
    run_losses(bench);
    assert_true(bench->sections[LEFT_1].loss == 0 && bench->sections[LEFT_1].velocity == 0);
    assert_true(bench->sections[END_1].loss == 0 && bench->sections[END_1].friction_rate == 0);
    assert_near(bench->sections[END_1].loss_to_unit, bench->sections[TRUNK_2].loss_to_unit, 0);
}

static void losses_are_the_same_however_often_they_are_computed(void **state) {
    struct bench *bench = *state;
    bench->pieces[REGISTER_A].pascals = 5;
    run_losses(bench);
    double once = bench->sections[BRANCH_1].loss_to_unit;
    run_losses(bench);
    assert_true(bench->sections[BRANCH_1].loss_to_unit == once);
}

/* ---- Sources ----------------------------------------------------------------------------------------------------- */

static void the_sources_are_those_that_were_used(void **state) {
    struct bench *bench = *state;
    struct air_unit *units[] = {&bench->unit};
    struct job *job = calloc(1, sizeof *job);
    assert_non_null(job);
    job->units.at = units;
    job->units.count = 1;
    bench->pieces[SPLIT].source = SOURCE_IDELCHIK_JOIN;
    air_set(job);
    air_losses(&bench->network, &job->air);
    air_sources(job);
    assert_true(job->source_used[SOURCE_COLEBROOK] && job->source_used[SOURCE_DARCY]);
    assert_true(job->source_used[SOURCE_FLEX_COMPRESSION] && job->source_used[SOURCE_IDELCHIK_JOIN]);
    assert_true(job->source_used[SOURCE_STANDARD_AIR]);
    assert_false(job->source_used[SOURCE_HUEBSCHER] || job->source_used[SOURCE_LAMINAR]);
    assert_false(job->source_used[SOURCE_ATMOSPHERE] || job->source_used[SOURCE_NONE]);
    job->altitude = 1000;
    bench->ducts[TRUNK].size = (struct duct_size){SHAPE_RECTANGULAR, 0.3, 0.2};
    air_set(job);
    air_losses(&bench->network, &job->air);
    air_sources(job);
    assert_true(job->source_used[SOURCE_HUEBSCHER] && job->source_used[SOURCE_ATMOSPHERE]);
    free(job);
}

#define TEST(name) cmocka_unit_test_setup_teardown(name, setup, teardown)

int main(void) {
    const struct CMUnitTest tests[] = {
        TEST(straight_duct_loses_its_length_times_the_tables_rate),
        TEST(flexible_duct_has_its_own_wall),
        TEST(a_duct_is_what_it_is_mostly_made_of),
        TEST(a_flexible_ducts_diameter_fits_its_own_factor),
        TEST(a_lined_run_is_as_rough_as_its_lining),
        TEST(the_way_to_the_unit_is_the_sum_of_its_sections),
        TEST(a_branch_knows_all_three_streams),
        TEST(air_that_goes_past_a_tap_knows_all_three_streams),
        TEST(a_leg_knows_itself_and_the_other),
        TEST(a_plain_connection_of_equal_sizes_costs_nothing),
        TEST(a_section_without_air_or_size_costs_nothing),
        TEST(losses_are_the_same_however_often_they_are_computed),
        TEST(the_sources_are_those_that_were_used),
    };
    return cmocka_run_group_tests_name("losses", tests, NULL, NULL);
}
