/* The operating point of odd networks: small ones, blowers that are steep, flat or too
 * short, air that goes backward. */
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <setjmp.h>
#include <cmocka.h>

#include "operate_proof.h"

#define TAIL "inlet back from u.return { grille 30 x 20, 0.03 in.wg at 400 cfm }\n"
#define ONE "outlet a from u.supply { airflow 400 cfm; straight 10 ft; register 14 x 8, 0.03 in.wg at 400 cfm }\n" TAIL

static const struct operation *operation_with(struct compiled *compiled, const char *unit, const char *rest) {
    *compiled = compiled_until("operate", "job \"T\" { }\nunit u { airflow 400 cfm; %s }\n%s", unit, rest);
    return operation_of(compiled);
}

static void one_outlet(void **state) {
    (void)state;
    struct compiled compiled;
    const struct operation *operation =
        operation_with(&compiled, "blower 200 cfm at 0.6 in.wg, 400 cfm at 0.4 in.wg, 900 cfm at 0.01 in.wg", ONE);
    assert_int_equal(operation->dampers_open.outcome, OPERATES);
    assert_closes(&compiled, &operation->dampers_open);
    compiled_free(&compiled);
}

/* Nothing but a register, a grille and a coil, each of which goes with the square, and a blower of two points, a
 * straight line: 0.5 - 0.001 (Q - 300) = (0.04 + 0.05 + 0.06) (Q / 400)^2 in in. w.g. and cfm. */
static void one_path_by_hand(void **state) {
    (void)state;
    struct compiled compiled = compiled_until(
        "operate", "job \"Hand\" { }\n"
                   "unit u { airflow 400 cfm; supply 14; return 14; blower 300 cfm at 0.5 in.wg, 700 cfm at "
                   "0.1 in.wg; drop \"coil\" 0.06 in.wg at 400 cfm }\n"
                   "outlet a from u.supply { airflow 400 cfm; register 14 x 8, 0.04 in.wg at 400 cfm }\n"
                   "inlet b from u.return { grille 30 x 20, 0.05 in.wg at 400 cfm }\n");
    const struct operation *operation = operation_of(&compiled);
    double c = 0.15 / (400 * 400), hand = (-0.001 + sqrt(0.001 * 0.001 + 4 * c * 0.8)) / (2 * c);
    assert_int_equal(operation->dampers_open.outcome, OPERATES);
    assert_near(hand, 1600.0 / 3, 1e-9); /* 0.8 - 0.5333 = 0.15 (4/3)^2 */
    assert_near(operation->dampers_open.flow / CFM, hand, 1e-6 * hand);
    assert_near(operation->dampers_open.pressure / INCH_OF_WATER, 0.8 - 0.001 * hand, 1e-6);
    assert_near(operation->dampers_open.supply / INCH_OF_WATER, 0.04 * (hand / 400) * (hand / 400), 1e-6);
    compiled_free(&compiled);
}

static void taps_at_one_station_and_a_run_that_leads_nowhere(void **state) {
    (void)state;
    struct compiled compiled;
    const struct operation *operation =
        operation_with(&compiled, "blower 200 cfm at 1.6 in.wg, 400 cfm at 1.2 in.wg, 900 cfm at 0.01 in.wg",
                       "run t from u.supply { straight 12 ft; cap }\n"
                       "outlet a from t at 6 ft left { airflow 200 cfm; damper; straight 5 ft; register 10 x 6 }\n"
                       "outlet b from t at 6 ft right { airflow 200 cfm; straight 9 ft; register 10 x 6 }\n"
                       "run dead from t at 9 ft left { straight 4 ft; cap }\n" TAIL);
    assert_int_equal(operation->dampers_open.outcome, OPERATES);
    assert_near(operation->dampers_open.sections[compiled_run(&compiled, "dead")->last_section->id], 0, 0);
    assert_continuous(compiled_network(&compiled), &operation->dampers_open);
    compiled_free(&compiled);
}

static void steep_flat_and_humped_blowers(void **state) {
    (void)state;
    static const char *const curves[] = {
        "blower 395 cfm at 4 in.wg, 405 cfm at 0.001 in.wg",
        "blower 100 cfm at 0.3 in.wg, 300 cfm at 0.3 in.wg, 2000 cfm at 0.3 in.wg",
        "blower 100 cfm at 0.2 in.wg, 300 cfm at 0.45 in.wg, 600 cfm at 0.3 in.wg, 1500 cfm at 0.01 in.wg",
        "blower 1 cfm at 0.01 in.wg, 2 cfm at 0.011 in.wg, 1900 cfm at 0.6 in.wg",
    };
    for (size_t i = 0; i < sizeof curves / sizeof curves[0]; i++) {
        struct compiled compiled;
        const struct operation *operation = operation_with(&compiled, curves[i], ONE);
        assert_int_equal(operation->dampers_open.outcome, OPERATES);
        assert_closes(&compiled, &operation->dampers_open);
        compiled_free(&compiled);
    }
}

static void beyond_its_points_a_blower_is_not_guessed_at(void **state) {
    (void)state;
    struct compiled compiled;
    const struct operation *operation =
        operation_with(&compiled, "blower 300 cfm at 2.4 in.wg, 410 cfm at 2 in.wg", ONE);
    assert_int_equal(operation->dampers_open.outcome, OPERATES_BEYOND);
    assert_near(operation->dampers_open.flow, 410 * CFM, 1e-9);
    assert_true(operation->dampers_open.pressure < 2 * INCH_OF_WATER);
    compiled_free(&compiled);
    operation = operation_with(&compiled, "blower 400 cfm at 0.02 in.wg, 900 cfm at 0.01 in.wg", ONE);
    assert_int_equal(operation->dampers_open.outcome, OPERATES_SHORT_OF);
    assert_near(operation->dampers_open.flow, 400 * CFM, 1e-9);
    assert_true(operation->dampers_open.pressure > 0.02 * INCH_OF_WATER);
    compiled_free(&compiled);
}

static void one_point_is_no_curve(void **state) {
    (void)state;
    struct compiled compiled;
    const struct operation *operation = operation_with(&compiled, "blower 400 cfm at 0.5 in.wg", ONE);
    assert_int_equal(operation->dampers_open.outcome, OPERATES_NO_CURVE);
    assert_near(operation->dampers_open.flow, 400 * CFM, 1e-9);
    compiled_free(&compiled);
}

/* A tap in a narrow throat, which opens into a wide duct: the static pressure there is under the room's, and air is
 * drawn in. */
static void air_that_is_drawn_in_is_counted(void **state) {
    (void)state;
    struct compiled compiled;
    const struct operation *operation =
        operation_with(&compiled, "supply 8; blower 200 cfm at 0.6 in.wg, 400 cfm at 0.4 in.wg, 900 cfm at 0.01 in.wg",
                       "run t from u.supply { straight 4 ft; transition to 18 over 60 in; straight 2 ft }\n"
                       "outlet a from t { airflow 380 cfm; register 30 x 30, 0.001 in.wg at 400 cfm }\n"
                       "outlet b from t at 3 ft left { airflow 20 cfm; straight 2 ft; register 10 x 6, 0.001 in.wg at "
                       "20 cfm }\n" TAIL);
    assert_int_equal(operation->dampers_open.outcome, OPERATES);
    assert_int_equal(operation->dampers_open.backward, 1);
    assert_true(flow_of_named(&compiled, "b") < 0);
    assert_continuous(compiled_network(&compiled), &operation->dampers_open);
    assert_true(operation->dampers_open.closure <= CLOSES);
    compiled_free(&compiled);
}

/* A branch that gains pressure by its own air (no duct does): no steps find where all paths close, and that
 * is said. */
static void what_does_not_settle_is_not_made_up(void **state) {
    (void)state;
    static struct hand hand;
    hand_begin(&hand);
    for (int i = 0; i < 3; i++)
        hand.blower[hand.unit.blower.count++] =
            (struct blower_point){.flow = 0.01 + 0.2 * i, .pressure = 300 - 140.0 * i};
    struct hand_section trunk = {
        .supply = true, .parent = -1, .size = {SHAPE_ROUND, 0.25, 0.25}, .multiplier = 1, .coefficient = 3};
    int top = hand_add(&hand, &trunk);
    struct hand_section drawn = {.supply = true,
                                 .parent = top,
                                 .size = {SHAPE_ROUND, 0.2, 0.2},
                                 .multiplier = 1,
                                 .coefficient = -0.5,
                                 .flow = 0.2};
    hand_add(&hand, &drawn);
    drawn.coefficient = 3;
    hand_add(&hand, &drawn);
    trunk.supply = false;
    trunk.flow = 0.4;
    hand_add(&hand, &trunk);
    const struct operation *operation = hand_operate(&hand);
    assert_int_equal(operation->dampers_open.outcome, OPERATES_UNSETTLED);
    assert_null(operation->dampers_open.sections);
    hand_end(&hand);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(one_outlet),
        cmocka_unit_test(one_path_by_hand),
        cmocka_unit_test(taps_at_one_station_and_a_run_that_leads_nowhere),
        cmocka_unit_test(steep_flat_and_humped_blowers),
        cmocka_unit_test(beyond_its_points_a_blower_is_not_guessed_at),
        cmocka_unit_test(one_point_is_no_curve),
        cmocka_unit_test(air_that_is_drawn_in_is_counted),
        cmocka_unit_test(what_does_not_settle_is_not_made_up),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
