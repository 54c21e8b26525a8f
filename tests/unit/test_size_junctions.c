/* Whole jobs: what splits, boxes with taps, declared sizes, loads and altitude come to. */
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <setjmp.h>
#include <cmocka.h>

#include "air/air.h"
#include "base/constant.h"
#include "compiled.h"
#include "near.h"

#define UNIT                                                                                                           \
    "unit fan { airflow 1000 cfm; blower 1000 cfm at 0.80 in.wg; supply 20 in x 10 in; return 20 in x 14 in }\n"       \
    "run back from fan.return { straight 10 ft }\ninlet hall from back { grille 30 in x 20 in }\n"

static void assert_no_errors(const struct compiled *job) {
    if (!job->job->diagnostics->error_count)
        return;
    cleat_print_diagnostics(job->cleat, stderr, false, false);
    fail_msg("errors in %s", job->text);
}

static const struct item *item_of(const struct section *section, enum item_role role, const char *word) {
    for (size_t i = 0; section && i < section->items.count; i++) {
        const struct item *item = &section->items.at[i];
        if (item->role == role && strcmp(item->piece->kind->form.word, word) == 0)
            return item;
    }
    return NULL;
}

/* ---- Splits ------------------------------------------------------------------------------------------------------ */

/* The air at the split divides its width: 600 cfm of the trunk's 1000 come that far, 300 into
 * each leg, half of 20 in. */
static void legs_behind_a_tap_share_the_width_by_the_air_at_the_split(void **state) {
    (void)state;
    struct compiled job = compiled_until(
        "size",
        "job \"T\" { revision 1 }\n" UNIT
        "run trunk from fan.supply { size 20 in x 10 in; straight 20 ft; split wye }\n"
        "outlet hob from trunk at 6 ft left { airflow 400 cfm; straight 4 ft; register 14 in x 8 in }\n"
        "outlet east from trunk.left { airflow 300 cfm; transition over 12 in; straight 9 ft; register 12 in x 6 in }\n"
        "outlet west from trunk.right { airflow 300 cfm; transition over 12 in; straight 9 ft; register 12 in x 6 in "
        "}\n");
    assert_no_errors(&job);
    const struct duct *east = compiled_run(&job, "east")->first_duct;
    assert_true(east->leg_start);
    assert_near(east->size.width, 10 * INCH, 1e-9);
    assert_near(east->size.height, 10 * INCH, 1e-9);
    compiled_free(&job);
}

/* ---- Plenum boxes ------------------------------------------------------------------------------------------------ */

#define BOXED(behind)                                                                                                  \
    "job \"T\" { revision 1 }\n" UNIT                                                                                  \
    "run trunk from fan.supply { size 20 in x 10 in; straight 4 ft; box 36 in x 24 in x 24 in; " behind " }\n"         \
    "outlet east from trunk at 5 ft left { airflow 500 cfm; size 12 in x 12 in; straight 9 ft; register 14 in x 8 in " \
    "}\n"

static void taps_in_a_box_leave_from_its_body(void **state) {
    (void)state;
    struct compiled job =
        compiled_text(BOXED("straight 10 ft") "outlet far from trunk { airflow 500 cfm; register 14 in x 8 in }\n");
    assert_no_errors(&job);
    /* rho / 2 (1000 cfm / 6 ft2)^2 */
    const struct air *air = &job.job->air;
    double reference = air_velocity_pressure(air, 1000 * CFM / (36 * INCH * 24 * INCH));
    const struct run *east = compiled_run(&job, "east");
    const struct item *branch = item_of(east->first_section, ITEM_BRANCH, "tap");
    assert_near(branch->loss.reference, reference, 1e-9);
    /* 12 in of tap fit the box's 24 in of height, though not the duct's 10. */
    assert_null(compiled_said(&job, "tap-fit", "east", 0));
    compiled_free(&job);
}

/* Borda and Carnot (1 - 200/864)^2 into the box on all the air; 0.5 (1 - 200/864)^0.75 out of it, but that is for the
 * air that goes on, at its velocity in the duct behind. */
static void what_leaves_a_box_by_a_tap_does_not_pay_for_its_far_end(void **state) {
    (void)state;
    struct compiled job = compiled_until(
        "size", BOXED("straight 10 ft") "outlet far from trunk { airflow 500 cfm; register 14 in x 8 in }\n");
    assert_no_errors(&job);
    const struct section *first = compiled_run(&job, "east")->first_section->parent;
    const struct section *behind = compiled_run(&job, "trunk")->last_section;
    const struct item *in = item_of(first, ITEM_PIECE, "box"), *out = item_of(behind, ITEM_PIECE, "box");
    double n = 200.0 / (36 * 24);
    assert_non_null(in);
    assert_non_null(out);
    assert_near(in->loss.coefficient, (1 - n) * (1 - n), 1e-9);
    assert_near(out->loss.coefficient, 0.5 * pow(1 - n, 0.75), 1e-9);
    double whole = air_velocity_pressure(&job.job->air, 1000 * CFM / (200 * INCH * INCH));
    assert_near(in->loss.reference, whole, 1e-9);
    assert_near(out->loss.reference, whole / 4, 1e-9);
    compiled_free(&job);
}

static void a_box_that_only_taps_leave_is_not_charged_for_going_on(void **state) {
    (void)state;
    struct compiled job = compiled_until(
        "size",
        BOXED("cap") "outlet far from trunk at 5 ft right { airflow 500 cfm; size 12 in x 12 in; straight 9 ft; "
                     "register 14 in x 8 in }\n");
    assert_no_errors(&job);
    const struct section *first = compiled_run(&job, "east")->first_section->parent;
    double n = 200.0 / (36 * 24);
    assert_near(item_of(first, ITEM_PIECE, "box")->loss.coefficient, (1 - n) * (1 - n), 1e-9);
    assert_null(item_of(compiled_run(&job, "trunk")->last_section, ITEM_PIECE, "box"));
    compiled_free(&job);
}

static void a_box_that_nothing_taps_has_both_ends_in_one_item(void **state) {
    (void)state;
    struct compiled job =
        compiled_until("size", "job \"T\" { revision 1 }\n" UNIT
                               "run trunk from fan.supply { size 20 in x 10 in; straight 4 ft; box 36 in x 24 "
                               "in x 24 in; straight 10 ft }\n"
                               "outlet far from trunk { airflow 1000 cfm; register 20 in x 14 in }\n");
    assert_no_errors(&job);
    double n = 200.0 / (36 * 24);
    const struct item *box = item_of(compiled_run(&job, "trunk")->first_section, ITEM_PIECE, "box");
    assert_near(box->loss.coefficient, (1 - n) * (1 - n) + 0.5 * pow(1 - n, 0.75), 1e-9);
    compiled_free(&job);
}

static void a_box_before_a_register_has_no_duct_to_go_into(void **state) {
    (void)state;
    struct compiled job = compiled_until(
        "size", "job \"T\" { revision 1 }\n" UNIT "run trunk from fan.supply { size 20 in x 10 in; straight 14 ft }\n"
                "outlet far from trunk { airflow 1000 cfm; size 20 in x 10 in; straight 2 ft; "
                "box 36 in x 24 in x 24 in; register 20 in x 14 in }\n");
    assert_no_errors(&job);
    double n = 200.0 / (36 * 24);
    const struct item *box = item_of(compiled_run(&job, "far")->last_section, ITEM_PIECE, "box");
    assert_near(box->loss.coefficient, (1 - n) * (1 - n), 1e-9);
    compiled_free(&job);
}

/* ---- A run's own size -------------------------------------------------------------------------------------------- */

static void a_runs_size_ends_at_its_first_transition(void **state) {
    (void)state;
    struct compiled job = compiled_until(
        "size",
        "job \"T\" { revision 1 }\n" UNIT "run trunk from fan.supply { size 24 in x 14 in; straight 10 ft; transition "
        "over 18 in; straight 20 ft }\n"
        "outlet hob from trunk at 6 ft left { airflow 700 cfm; straight 4 ft; register 20 in x 10 in }\n"
        "outlet far from trunk { airflow 300 cfm; register 14 in x 8 in }\n");
    assert_no_errors(&job);
    const struct duct *last = compiled_run(&job, "trunk")->last_section->duct, *before = last->upstream;
    assert_int_equal(before->reason, SIZE_DECLARED);
    assert_near(before->size.width, 24 * INCH, 1e-9);
    /* 300 cfm need far less. */
    assert_false(last->fixed);
    assert_true(last->area < before->area / 2);
    compiled_free(&job);
}

static void behind_a_collar_the_first_transition_goes_to_the_runs_size(void **state) {
    (void)state;
    struct compiled job = compiled_until(
        "size",
        "job \"T\" { revision 1 }\n" UNIT "run trunk from fan.supply { size 24 in x 14 in; transition over 18 in; "
        "straight 20 ft }\noutlet far from trunk { airflow 1000 cfm; register 20 in x 14 in }\n");
    assert_no_errors(&job);
    const struct duct *last = compiled_run(&job, "trunk")->last_section->duct;
    assert_int_equal(last->reason, SIZE_DECLARED);
    assert_near(last->size.width, 24 * INCH, 1e-9);
    assert_int_equal(last->upstream->reason, SIZE_COLLAR);
    compiled_free(&job);
}

/* ---- Loads, methods, altitude ------------------------------------------------------------------------------------ */

#define LOADED(temperatures)                                                                                           \
    "job \"T\" { revision 1 }\n"                                                                                       \
    "unit fan { blower 300 cfm at 0.80 in.wg; " temperatures " }\n"                                                    \
    "outlet far from fan.supply { load 6480 btu/h; straight 9 ft; register 14 in x 8 in }\n"                           \
    "inlet hall from fan.return { straight 2 ft; grille 20 in x 14 in }\n"

/* 1.08 btu/h a cfm and F (ASHRAE Fundamentals, from memory): 1.08 x 20 x 300 = 6480. */
static void a_load_takes_the_airflow_of_the_trades_rule(void **state) {
    (void)state;
    struct compiled job = compiled_until("size", LOADED("leaves 55 F; room 75 F"));
    assert_near(compiled_run(&job, "far")->airflow / CFM, 300, 0.001);
    assert_false(job.job->source_used[SOURCE_SUPPLY_AIR]);
    compiled_free(&job);
}

static void an_assumed_difference_of_temperature_is_in_the_basis_with_its_figure(void **state) {
    (void)state;
    struct compiled job = compiled_until("size", LOADED("airflow 300 cfm"));
    assert_near(compiled_run(&job, "far")->airflow / CFM, 300, 0.001);
    assert_true(job.job->source_used[SOURCE_SUPPLY_AIR]);
    assert_non_null(strstr(source_of(SOURCE_SUPPLY_AIR)->method, "20 F"));
    compiled_free(&job);
}

static void a_job_with_a_misspelt_method_is_not_complete(void **state) {
    (void)state;
    struct compiled job =
        compiled_until("size", "job \"T\" { sizing equal-fricton }\n" UNIT
                               "outlet far from fan.supply { airflow 1000 cfm; straight 9 ft; register 20 in x "
                               "14 in }\n");
    assert_non_null(compiled_said(&job, "sizing", NULL, 0));
    assert_true(job.job->incomplete);
    compiled_free(&job);
}

/* Blower, drops and losses all go with the density (fan laws), but for the friction factor, which thin air raises a
 * little: no job is easier in the mountains. */
static double surplus_at(double feet) {
    struct compiled job = compiled_text("job \"T\" { altitude %.0f ft }\n" UNIT
                                        "run trunk from fan.supply { size 20 in x 10 in; straight 60 ft }\n"
                                        "outlet far from trunk { airflow 1000 cfm; register 20 in x 14 in }\n",
                                        feet);
    double surplus = compiled_network(&job)->surplus;
    assert_no_errors(&job);
    assert_true(job.job->source_used[SOURCE_RATED_AIR] == (feet > 0));
    compiled_free(&job);
    return surplus;
}

static void altitude_does_not_give_a_blower_more_to_spare(void **state) {
    (void)state;
    double sea = surplus_at(0), high = surplus_at(7000);
    assert_true(sea > 0);
    /* 0.772 of the density. */
    assert_true(high < 0.772 * sea);
    assert_true(high > 0.70 * sea);
}

/* ---- Trial sizes ------------------------------------------------------------------------------------------------- */

/* What a trial gives is what the duct then loses, and the trial leaves all as it was. */
static void a_trial_of_a_size_tells_its_loss_and_changes_nothing(void **state) {
    (void)state;
    static const char text[] =
        "job \"T\" { revision 1 }\n" UNIT "run trunk from fan.supply { size %s; straight 20 ft }\n"
        "outlet hob from trunk at 6 ft left { airflow 400 cfm; straight 4 ft; register 14 in x 8 in }\n"
        "outlet far from trunk { airflow 600 cfm; register 20 in x 10 in }\n";
    struct compiled now = compiled_text(text, "18 in x 12 in"), then = compiled_until("size", text, "24 in x 14 in");
    struct section *section = compiled_run(&now, "hob")->first_section;
    const struct item *item = item_of(section, ITEM_BRANCH, "tap");
    double before = item->loss.pressure,
           after = item_of(compiled_run(&then, "hob")->first_section, ITEM_BRANCH, "tap")->loss.pressure;
    struct duct_size larger = {SHAPE_RECTANGULAR, 24 * INCH, 14 * INCH};
    assert_near(air_trial_loss(&now.job->air, section, item, section->parent->duct, larger), after, 1e-9);
    assert_true(fabs(after - before) > 0.01);
    assert_near(item->loss.pressure, before, 0);
    assert_near(section->parent->duct->size.width, 18 * INCH, 1e-9);
    compiled_free(&now);
    compiled_free(&then);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(legs_behind_a_tap_share_the_width_by_the_air_at_the_split),
        cmocka_unit_test(taps_in_a_box_leave_from_its_body),
        cmocka_unit_test(what_leaves_a_box_by_a_tap_does_not_pay_for_its_far_end),
        cmocka_unit_test(a_box_that_only_taps_leave_is_not_charged_for_going_on),
        cmocka_unit_test(a_box_that_nothing_taps_has_both_ends_in_one_item),
        cmocka_unit_test(a_box_before_a_register_has_no_duct_to_go_into),
        cmocka_unit_test(a_runs_size_ends_at_its_first_transition),
        cmocka_unit_test(behind_a_collar_the_first_transition_goes_to_the_runs_size),
        cmocka_unit_test(a_load_takes_the_airflow_of_the_trades_rule),
        cmocka_unit_test(an_assumed_difference_of_temperature_is_in_the_basis_with_its_figure),
        cmocka_unit_test(a_job_with_a_misspelt_method_is_not_complete),
        cmocka_unit_test(altitude_does_not_give_a_blower_more_to_spare),
        cmocka_unit_test(a_trial_of_a_size_tells_its_loss_and_changes_nothing),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
