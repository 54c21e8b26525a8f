/* What is read and set at start-up: static pressures against figures worked by hand, and dampers that, set to their
 * start, leave every path the same. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include <math.h>

#include "air/air.h"
#include "air/fitting.h"
#include "air/operation.h"
#include "base/constant.h"
#include "compiled.h"
#include "near.h"

/* 400 cfm in 12 x 8 in duct go at 600 fpm: velocity pressure (600 / 4005)^2 = 0.02244 in. w.g., by the trade's rule. */
static const char line_job[] =
    "job \"Line\"\n"
    "unit fan { blower 400 cfm at 0.40 in.wg; drop \"coil\" 0.10 in.wg; supply 12 x 8; return 12 x 12 }\n"
    "run trunk from fan.supply { straight 10 ft; elbow 90 left, radius 1.0; straight 20 ft }\n"
    "outlet desk from trunk { airflow 400 cfm; register 12 x 8, 0.05 in.wg at 400 cfm }\n"
    "run back from fan.return { straight 6 ft }\n"
    "inlet hall from back { filter 12 x 12 x 1, 0.08 in.wg at 400 cfm }\n";

/* The `which`th (from 0) test point of that kind and side. */
static const struct test_point *point(const struct network *network, enum test_kind kind, bool supply, size_t which) {
    for (size_t i = 0; i < network->test_points.count; i++) {
        const struct test_point *one = &network->test_points.at[i];
        bool sided = kind != TEST_DROP && kind != TEST_UNIT;
        if (one->kind == kind && (!sided || one->supply == supply) && which-- == 0)
            return one;
    }
    fail_msg("there is no such test point");
    return NULL;
}

static double loss_of(const struct run *run, size_t item) {
    return run->first_section->items.at[item].loss.pressure;
}

static void static_pressure_is_total_less_velocity_pressure(void **state) {
    (void)state;
    struct compiled compiled = compiled_until("start-up", "%s", line_job);
    const struct network *network = compiled_network(&compiled);
    const struct test_point *collar = point(network, TEST_COLLAR, true, 0);
    assert_near(collar->velocity_pressure / INCH_OF_WATER, 0.02244, 0.00002);
    assert_near(collar->total, network->governing_supply->loss, 1e-9);
    assert_near(collar->expected, collar->total - collar->velocity_pressure, 1e-12);
    /* 400 cfm in 12 x 12 in: 400 fpm, (400 / 4005)^2 = 0.00998; before the return collar all is less than the room. */
    const struct test_point *back = point(network, TEST_COLLAR, false, 0);
    assert_near(back->velocity_pressure / INCH_OF_WATER, 0.00998, 0.00002);
    assert_near(back->total, -network->governing_return->loss, 1e-9);
    assert_near(back->expected, back->total - back->velocity_pressure, 1e-12);
    compiled_free(&compiled);
}

/* In the middle of a straight half of its friction has been lost. */
static void points_of_a_run_lie_in_the_middle_of_straights(void **state) {
    (void)state;
    struct compiled compiled = compiled_until("start-up", "%s", line_job);
    const struct network *network = compiled_network(&compiled);
    const struct run *trunk = compiled_run(&compiled, "trunk");
    double collar = network->governing_supply->loss;
    const struct test_point *first = point(network, TEST_RUN_START, true, 0),
                            *last = point(network, TEST_RUN_END, true, 0);
    assert_near(first->station, 5 * FOOT, 1e-9);
    assert_near(first->total, collar - loss_of(trunk, 0) / 2, 1e-9);
    assert_near(last->station, 20 * FOOT, 1e-9);
    assert_near(last->total, collar - loss_of(trunk, 0) - loss_of(trunk, 1) - loss_of(trunk, 2) / 2, 1e-9);
    /* On the return side the air has lost all but what lies between the place and the unit. */
    const struct test_point *back = point(network, TEST_RUN_START, false, 0);
    assert_near(back->station, 3 * FOOT, 1e-9);
    assert_near(back->total, loss_of(compiled_run(&compiled, "back"), 0) / 2 - network->governing_return->loss, 1e-9);
    compiled_free(&compiled);
}

static void differences_are_those_of_the_things(void **state) {
    (void)state;
    struct compiled compiled = compiled_until("start-up", "%s", line_job);
    const struct network *network = compiled_network(&compiled);
    assert_near(point(network, TEST_DROP, false, 0)->expected / INCH_OF_WATER, 0.10, 1e-9);
    assert_near(point(network, TEST_FACE, false, 0)->expected / INCH_OF_WATER, 0.08, 1e-9);
    const struct test_point *unit = point(network, TEST_UNIT, true, 0);
    assert_near(unit->expected,
                point(network, TEST_COLLAR, true, 0)->expected - point(network, TEST_COLLAR, false, 0)->expected,
                1e-12);
    /* What the blower gives, less what the unit's parts take and what is left over, is what the ducts take. */
    assert_near(unit->total, network->blower_pressure - network->unit_drops - network->surplus, 1e-9);
    compiled_free(&compiled);
}

/* A gauge is not put into flexible duct, nor into duct that has no air. */
static void only_made_duct_with_air_in_it_has_points(void **state) {
    (void)state;
    struct compiled compiled = compiled_until(
        "start-up", "job \"Dead end\"\n"
                    "unit fan { blower 400 cfm at 0.60 in.wg; supply 12 x 8; return 14 x 12 }\n"
                    "run trunk from fan.supply { straight 10 ft; cap }\n"
                    "outlet desk from trunk at 6 ft left { airflow 300 cfm; flex 6 ft; boot; register 12 x 8 }\n"
                    "run spur from trunk at 4 ft right { flex 10 ft }\n"
                    "outlet lamp from spur { airflow 100 cfm; register 10 x 6 }\n"
                    "run back from fan.return { straight 4 ft }\ninlet hall from back { grille 24 x 12 }\n");
    const struct network *network = compiled_network(&compiled);
    for (size_t i = 0; i < network->test_points.count; i++) {
        const struct run *run = network->test_points.at[i].run;
        assert_true(!run || strcmp(run->name, "spur") != 0);
    }
    assert_near(point(network, TEST_RUN_START, true, 0)->station, 2 * FOOT, 1e-9);
    assert_near(point(network, TEST_RUN_END, true, 0)->station, 5 * FOOT, 1e-9); /* between the taps, not past them */
    compiled_free(&compiled);
}

/* ---- What will really flow --------------------------------------------------------------------------------------- */

/* More air than at the design, and a damper that takes up what its path has to spare. */
static void beside_the_design_stands_what_will_really_flow(void **state) {
    (void)state;
    struct compiled compiled = compiled_text(
        "job \"Real\" { friction 0.08 in.wg/100ft }\n"
        "unit fan { blower 300 cfm at 0.7 in.wg, 400 cfm at 0.6 in.wg, 700 cfm at 0.1 in.wg; drop \"coil\" 0.10 in.wg; "
        "supply 12 x 8; return 14 x 12 }\n"
        "run trunk from fan.supply { straight 20 ft; cap }\n"
        "outlet desk from trunk at 18 ft left { airflow 250 cfm; damper; straight 30 ft; register 12 x 8, 0.08 in.wg "
        "at 250 cfm }\n"
        "run spur from trunk at 4 ft right { size 8 round; damper; straight 10 ft }\n"
        "outlet lamp from spur { airflow 150 cfm; register 10 x 6, 0.02 in.wg at 150 cfm }\n"
        "run back from fan.return { straight 4 ft }\n"
        "inlet hall from back { filter 20 x 14 x 1, 0.05 in.wg at 400 cfm; grille 24 x 12 }\n");
    const struct network *network = compiled_network(&compiled);
    const struct operating_point *set = &network->operation->balanced;
    assert_non_null(set->sections);
    double share = set->flow / (400 * CFM), square = share * share;
    assert_true(share > 1.1);
    const struct test_point *supply = point(network, TEST_COLLAR, true, 0),
                            *back = point(network, TEST_COLLAR, false, 0);
    assert_near(supply->operating, set->supply - supply->velocity_pressure * square, 1e-9);
    assert_near(back->operating, -set->back - back->velocity_pressure * square, 1e-9);
    assert_near(point(network, TEST_UNIT, true, 0)->operating, supply->operating - back->operating, 1e-12);
    assert_near(point(network, TEST_DROP, false, 0)->operating / INCH_OF_WATER, 0.10 * square, 1e-9);
    assert_near(point(network, TEST_FACE, false, 0)->operating / INCH_OF_WATER, 0.05 * square, 1e-9);
    /* Behind the spur's damper only half of its duct and its register are left: with the square of what it takes, but
     * for friction, which goes with a little less. */
    const struct run *spur = compiled_run(&compiled, "spur"), *lamp = compiled_run(&compiled, "lamp");
    const struct section *section = spur->first_section, *face = lamp->first_section;
    double own = set->sections[section->id] / section->flow,
           left = section->items.at[section->items.count - 1].loss.pressure / 2;
    for (size_t i = 0; i < face->items.count; i++)
        left += face->items.at[i].loss.pressure;
    const struct test_point *in_spur = NULL;
    for (size_t i = 0; i < network->test_points.count; i++)
        if (network->test_points.at[i].run == spur)
            in_spur = &network->test_points.at[i];
    assert_non_null(in_spur);
    assert_near(in_spur->operating + in_spur->velocity_pressure * own * own, left * own * own, 0.02 * left);
    compiled_free(&compiled);
}

/* One point of a blower says nothing of another airflow. */
static void without_a_curve_nothing_is_told_of_it(void **state) {
    (void)state;
    struct compiled compiled = compiled_text("%s", line_job);
    const struct network *network = compiled_network(&compiled);
    for (size_t i = 0; i < network->test_points.count; i++)
        assert_true(isnan(network->test_points.at[i].operating));
    compiled_free(&compiled);
}

/* ---- Dampers ----------------------------------------------------------------------------------------------------- */

static void an_angle_is_found_again_from_its_coefficient(void **state) {
    (void)state;
    double angle;
    for (int round = 0; round < 2; round++)
        for (int tenth = 0; tenth <= 700; tenth += 7) {
            double wanted = tenth * DEGREE / 10;
            assert_true(fitting_damper_blade(fitting_damper(NULL, wanted, round).value, round, &angle));
            assert_near(angle, wanted, 1e-9);
        }
    assert_true(fitting_damper_blade(0, true, &angle));
    assert_near(angle, 0, 0);
    assert_false(fitting_damper_blade(1e6, true, &angle));
    assert_near(angle, 70 * DEGREE, 1e-9);
}

/* ---- Curves ------------------------------------------------------------------------------------------------------ */

static void curves_go_through_the_points_and_the_design(void **state) {
    (void)state;
    struct compiled compiled = compiled_until(
        "start-up", "job \"Curves\" { altitude 5000 ft }\n"
                    "unit fan { blower 460 cfm at 0.20 in.wg, 420 cfm at 0.5 in.wg, 340 cfm at 0.60 in.wg; airflow "
                    "400 cfm; drop \"coil\" 0.10 in.wg at 400 cfm; supply 12 x 8; return 14 x 12 }\n"
                    "run trunk from fan.supply { straight 10 ft }\n"
                    "outlet desk from trunk { airflow 400 cfm; register 12 x 8 }\n"
                    "run back from fan.return { straight 4 ft }\ninlet hall from back { grille 24 x 12 }\n");
    const struct network *network = compiled_network(&compiled);
    size_t last = network->blower_curve.count - 1;
    double thin = compiled.job->air.density_ratio;
    assert_true(thin < 0.9);
    assert_near(network->blower_curve.at[0].pressure, 0.60 * INCH_OF_WATER * thin, 1e-9);
    assert_near(network->blower_curve.at[last].flow, 460 * CFM, 1e-9);
    assert_near(network->blower_curve.at[last].pressure, 0.20 * INCH_OF_WATER * thin, 1e-9);
    for (size_t i = 1; i <= last; i++)
        assert_true(network->blower_curve.at[i].pressure <= network->blower_curve.at[i - 1].pressure);
    assert_near(network->system_pressure + network->surplus, network->blower_pressure, 1e-9);
    for (size_t i = 0; i < network->system_curve.count; i++) {
        struct blower_point at = network->system_curve.at[i];
        assert_near(at.pressure * 400 * CFM * 400 * CFM, network->system_pressure * at.flow * at.flow, 1e-12);
    }
    compiled_free(&compiled);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(static_pressure_is_total_less_velocity_pressure),
        cmocka_unit_test(points_of_a_run_lie_in_the_middle_of_straights),
        cmocka_unit_test(differences_are_those_of_the_things),
        cmocka_unit_test(only_made_duct_with_air_in_it_has_points),
        cmocka_unit_test(beside_the_design_stands_what_will_really_flow),
        cmocka_unit_test(without_a_curve_nothing_is_told_of_it),
        cmocka_unit_test(an_angle_is_found_again_from_its_coefficient),
        cmocka_unit_test(curves_go_through_the_points_and_the_design),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
