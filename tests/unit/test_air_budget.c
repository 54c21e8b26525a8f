/* The budget of a network built by hand (air_bench.h); the figures are worked in the comments. */
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <setjmp.h>
#include <cmocka.h>

#include <stdlib.h>

#include "air_bench.h"
#include "near.h"

struct budget_test {
    struct bench bench;
    struct arena *arena;
    jmp_buf out_of_memory;
    struct diagnostics diagnostics;
};

/* Losses to the unit: A 30, B 45 on the supply side; left 20, straight 12 on the return side. Blower: 200 Pa at 300
 * cfm, 120 at 500; so 160 at 400.  Drops: coil 40 Pa; filter 36 Pa at 600 cfm, so 36 x (400/600)^2 = 16 at 400. */
static void set_figures(struct bench *bench) {
    bench->sections[BRANCH_1].loss_to_unit = 30;
    bench->sections[END_1].loss_to_unit = 45;
    bench->sections[LEFT_1].loss_to_unit = 20;
    bench->sections[STRAIGHT_1].loss_to_unit = 12;
    bench->blower[0] = (struct blower_point){.flow = 300 * CFM, .pressure = 200};
    bench->blower[1] = (struct blower_point){.flow = 500 * CFM, .pressure = 120};
    bench->unit.blower.at = bench->blower;
    bench->unit.blower.count = 2;
    bench->drops[0] = (struct drop){.label = "coil", .pressure = 40};
    bench->drops[1] = (struct drop){.label = "filter", .pressure = 36, .flow = 600 * CFM};
    bench->unit.drops.at = bench->drops;
    bench->unit.drops.count = 2;
}

static int setup(void **state) {
    struct budget_test *test = calloc(1, sizeof *test);
    if (!test)
        return 1;
    bench_build(&test->bench);
    set_figures(&test->bench);
    test->arena = arena_new(NULL);
    test->diagnostics.arena = test->arena;
    arena_on_failure(test->arena, &test->out_of_memory);
    *state = test;
    return 0;
}

static int teardown(void **state) {
    struct budget_test *test = *state;
    arena_free(test->arena);
    free(test);
    return 0;
}

/* In standard air. */
static void add_up(struct bench *bench, struct diagnostics *diagnostics) {
    struct air air = air_state(0);
    air_budget(&bench->network, &air, diagnostics, MEASURE_US);
}

static void the_surplus_is_what_the_blower_has_less_the_costliest_way(void **state) {
    struct bench *bench = &((struct budget_test *)*state)->bench;
    const struct network *network = &bench->network;
    add_up(bench, NULL);
    assert_true(network->blower_known);
    assert_near(network->blower_pressure, 160, 1e-9);
    assert_near(bench->drops[0].actual, 40, 1e-12);
    assert_near(bench->drops[1].actual, 16, 1e-9);
    assert_near(network->unit_drops, 56, 1e-9);
    assert_ptr_equal(network->governing_supply, &bench->supply[1]);
    assert_ptr_equal(network->governing_return, &bench->back[0]);
    /* 160 - 56 - 45 - 20 = 39 */
    assert_near(network->surplus, 39, 1e-9);
}

static void every_path_is_summed_with_the_costliest_of_the_other_side(void **state) {
    struct bench *bench = &((struct budget_test *)*state)->bench;
    add_up(bench, NULL);
    /* A: 30 + 20 + 56 = 106; B: 45 + 20 + 56 = 121; left: 20 + 45 + 56 = 121; straight: 12 + 45 + 56 = 113; of 160. */
    assert_near(bench->supply[0].total, 106, 1e-9);
    assert_near(bench->supply[0].surplus, 54, 1e-9);
    assert_near(bench->supply[1].surplus, 39, 1e-9);
    assert_near(bench->back[0].surplus, 39, 1e-9);
    assert_near(bench->back[1].total, 113, 1e-9);
    assert_near(bench->back[1].surplus, 47, 1e-9);
    assert_near(bench->back[1].loss, 12, 1e-12);
}

static void a_blower_too_weak_leaves_a_deficit(void **state) {
    struct bench *bench = &((struct budget_test *)*state)->bench;
    bench->sections[END_1].loss_to_unit = 100;
    add_up(bench, NULL);
    /* 160 - 56 - 100 - 20 */
    assert_near(bench->network.surplus, -16, 1e-9);
    assert_near(bench->supply[1].surplus, -16, 1e-9);
    assert_near(bench->supply[0].surplus, 54, 1e-9);
}

static void a_side_without_paths_costs_nothing(void **state) {
    struct bench *bench = &((struct budget_test *)*state)->bench;
    bench->network.return_paths.count = 0;
    add_up(bench, NULL);
    assert_null(bench->network.governing_return);
    /* 160 - 56 - 45 */
    assert_near(bench->network.surplus, 59, 1e-9);
}

/* Fan laws (from memory: ASHRAE Handbook, HVAC Systems and Equipment): at one airflow a fan's pressure goes with the
 * density, and so does a drop; both are rated in standard air.  So the budget of a job in the mountains is that at sea
 * level times the density ratio, once the ducts' losses are. */
static void in_thin_air_blower_and_drops_shrink_like_the_losses(void **state) {
    struct bench *bench = &((struct budget_test *)*state)->bench;
    struct air air = air_state(7000 * FOOT);
    double ratio = air.density / air_state(0).density;
    assert_near(ratio, 0.7716, 0.0005); /* 7000 ft: 11.34 psi of 14.696 */
    enum bench_section ends[] = {BRANCH_1, END_1, LEFT_1, STRAIGHT_1};
    for (size_t i = 0; i < sizeof ends / sizeof ends[0]; i++)
        bench->sections[ends[i]].loss_to_unit *= ratio;
    air_budget(&bench->network, &air, NULL, MEASURE_US);
    assert_near(bench->network.blower_pressure, 160 * ratio, 1e-9);
    assert_near(bench->network.unit_drops, 56 * ratio, 1e-9);
    assert_near(bench->network.surplus, 39 * ratio, 1e-9);
}

/* ---- Dampers ----------------------------------------------------------------------------------------------------- */

static void a_damper_belongs_to_the_path_whose_air_it_holds(void **state) {
    struct bench *bench = &((struct budget_test *)*state)->bench;
    add_up(bench, NULL);
    assert_ptr_equal(bench->supply[0].damper, &bench->pieces[DAMPER].piece);
    assert_null(bench->supply[1].damper);
}

static void a_damper_ahead_of_a_tap_is_nobodys(void **state) {
    struct bench *bench = &((struct budget_test *)*state)->bench;
    bench->items[BRANCH_1][3].piece = &bench->pieces[REGISTER_A].piece;
    bench_add(bench, TRUNK_1, DAMPER, ITEM_PIECE, 0);
    add_up(bench, NULL);
    assert_null(bench->supply[0].damper);
    assert_null(bench->supply[1].damper);
    /* Behind the tap all the air is B's, though it stands in another run. */
    bench_add(bench, TRUNK_2, DAMPER, ITEM_PIECE, 0);
    add_up(bench, NULL);
    assert_null(bench->supply[0].damper);
    assert_ptr_equal(bench->supply[1].damper, &bench->pieces[DAMPER].piece);
}

/* ---- The blower's word ------------------------------------------------------------------------------------------- */

static const struct diagnostic *only(const struct budget_test *test) {
    assert_int_equal(test->diagnostics.all.count, 1);
    const struct diagnostic *said = test->diagnostics.all.at[0];
    assert_int_equal(said->level, DIAGNOSTIC_ERROR);
    assert_string_equal(said->check, "blower");
    assert_non_null(said->hint);
    return said;
}

static void expect_no_blower(const struct bench *bench) {
    assert_false(bench->network.blower_known);
    assert_true(bench->network.blower_pressure == 0 && bench->network.surplus == 0);
    assert_true(bench->supply[0].surplus == 0 && bench->back[1].surplus == 0);
}

/* A damper in the trunk is no terminal's just because nothing flows; looking for one would walk
 * the whole way of each. */
static void without_air_no_damper_is_sought_beyond_the_terminals_own_section(void **state) {
    struct bench *bench = &((struct budget_test *)*state)->bench;
    bench->items[BRANCH_1][3].piece = &bench->pieces[REGISTER_A].piece;
    bench_add(bench, TRUNK_1, DAMPER, ITEM_PIECE, 0);
    for (int i = 0; i < BENCH_SECTIONS; i++)
        bench->sections[i].flow = 0;
    add_up(bench, NULL);
    assert_null(bench->supply[0].damper);
    assert_null(bench->supply[1].damper);
}

static void more_air_than_the_blower_has_points_for_is_an_error(void **state) {
    struct budget_test *test = *state;
    test->bench.unit.airflow = 620 * CFM;
    test->bench.unit.blower_at = (struct span){.begin = 40, .end = 46};
    add_up(&test->bench, &test->diagnostics);
    const struct diagnostic *said = only(test);
    assert_int_equal(said->at.begin, 40);
    assert_string_equal(said->message, "the blower of AHU is not known at the design airflow of 620 cfm: "
                                       "its points go from 300 cfm to 500 cfm");
    assert_string_equal(said->hint, "add a point of its blower table at 620 cfm or more");
    expect_no_blower(&test->bench);
}

static void less_air_than_the_blower_has_points_for_is_an_error(void **state) {
    struct budget_test *test = *state;
    test->bench.unit.airflow = 200 * CFM;
    test->bench.unit.blower.count = 1;
    add_up(&test->bench, &test->diagnostics);
    const struct diagnostic *said = only(test);
    assert_non_null(strstr(said->message, "its only point is at 300 cfm"));
    assert_string_equal(said->hint, "add a point of its blower table at 200 cfm or less");
}

static void a_unit_without_blower_points_is_an_error_with_something_to_type(void **state) {
    struct budget_test *test = *state;
    test->bench.unit.blower.count = 0;
    test->bench.unit.at = (struct span){.begin = 5, .end = 8};
    add_up(&test->bench, &test->diagnostics);
    const struct diagnostic *said = only(test);
    assert_int_equal(said->at.begin, 5);
    assert_non_null(strstr(said->hint, "blower 400 cfm at 0.50 in.wg"));
    expect_no_blower(&test->bench);
}

static void while_sizing_nothing_is_said(void **state) {
    struct budget_test *test = *state;
    test->bench.unit.blower.count = 0;
    add_up(&test->bench, NULL);
    assert_int_equal(test->diagnostics.all.count, 0);
    expect_no_blower(&test->bench);
}

static void without_airflow_the_blower_is_not_blamed(void **state) {
    struct budget_test *test = *state;
    test->bench.unit.airflow = 0;
    add_up(&test->bench, &test->diagnostics);
    assert_int_equal(test->diagnostics.all.count, 0);
    expect_no_blower(&test->bench);
}

#define TEST(name) cmocka_unit_test_setup_teardown(name, setup, teardown)

int main(void) {
    const struct CMUnitTest tests[] = {
        TEST(the_surplus_is_what_the_blower_has_less_the_costliest_way),
        TEST(every_path_is_summed_with_the_costliest_of_the_other_side),
        TEST(a_blower_too_weak_leaves_a_deficit),
        TEST(a_side_without_paths_costs_nothing),
        TEST(a_damper_belongs_to_the_path_whose_air_it_holds),
        TEST(a_damper_ahead_of_a_tap_is_nobodys),
        TEST(without_air_no_damper_is_sought_beyond_the_terminals_own_section),
        TEST(in_thin_air_blower_and_drops_shrink_like_the_losses),
        TEST(more_air_than_the_blower_has_points_for_is_an_error),
        TEST(less_air_than_the_blower_has_points_for_is_an_error),
        TEST(a_unit_without_blower_points_is_an_error_with_something_to_type),
        TEST(while_sizing_nothing_is_said),
        TEST(without_airflow_the_blower_is_not_blamed),
    };
    return cmocka_run_group_tests_name("budget", tests, NULL, NULL);
}
