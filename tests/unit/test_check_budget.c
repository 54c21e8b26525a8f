/* The budget and the balance of paths. */
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <setjmp.h>
#include <cmocka.h>

#include "air/operation.h"
#include "compiled.h"
#include "near.h"

#define INCH_OF_WATER 248.84

/* Two outlets that mirror each other, east and west, behind a bullhead; one inlet.  `east` goes into one of them. */
static struct compiled mirrored(double pressure, const char *east) {
    return compiled_text(
        "job \"Mirrored\" {\n}\n"
        "unit fan { blower 600 cfm at %.6f in.wg; drop \"coil\" 0.1 in.wg; supply 14 x 10; return 20 x 12 }\n"
        "run trunk from fan.supply { straight 6 ft; split bullhead over 18 in }\n"
        "outlet west from trunk.left { size 12 x 8; airflow 300 cfm; straight 20 ft; register 14 x 8 }\n"
        "outlet east from trunk.right { size 12 x 8; airflow 300 cfm; %s straight 20 ft; register 14 x 8 }\n"
        "run back from fan.return { straight 10 ft }\n"
        "inlet hall from back { grille 24 x 20 }\n",
        pressure, east);
}

/* What the mirrored job asks of the blower, in. w.g. */
static double asked(const char *east) {
    struct compiled job = mirrored(2, east);
    const struct network *network = compiled_network(&job);
    double pressure = (network->blower_pressure - network->surplus) / INCH_OF_WATER;
    compiled_free(&job);
    return pressure;
}

/* ---- Budget ------------------------------------------------------------------------------------------------------ */

static void a_blower_that_just_does_is_enough_and_one_a_hair_weaker_is_an_error(void **state) {
    (void)state;
    /* The rate is at its bound from here down, so that the sizes and the asking stay. */
    double low = 0.1, high = 2;
    for (int i = 0; i < 40; i++) {
        double middle = (low + high) / 2;
        struct compiled job = mirrored(middle, "");
        bool enough = compiled_network(&job)->surplus >= 0;
        bool error = compiled_said(&job, "budget", "fan", 0) != NULL;
        assert_int_equal(enough, !error);
        compiled_free(&job);
        *(enough ? &high : &low) = middle;
    }
    assert_true(high - low < 1e-5);
    assert_true(high > 0.1 && high < asked("") + 1e-6);
}

static void a_deficit_is_one_error_with_its_figures_and_three_pieces(void **state) {
    (void)state;
    struct compiled job = mirrored(0.12, "");
    const struct network *network = compiled_network(&job);
    const struct diagnostic *said = compiled_said(&job, "budget", "fan", 0);
    assert_true(network->surplus < 0);
    assert_non_null(said);
    assert_int_equal(said->level, DIAGNOSTIC_ERROR);
    assert_null(compiled_said(&job, "budget", NULL, 1));
    assert_true(said->related.count > 3); /* and the ways out */
    char *budget = measure_text(job.job->arena, MEASURE_US, SHOW_PRESSURE, 0.02 * INCH_OF_WATER);
    char *deficit = measure_text(job.job->arena, MEASURE_US, SHOW_PRESSURE, -network->surplus);
    char *needed = measure_text(job.job->arena, MEASURE_US, SHOW_PRESSURE, -network->surplus + 0.02 * INCH_OF_WATER);
    assert_non_null(strstr(said->message, budget));
    assert_non_null(strstr(said->message, deficit));
    assert_non_null(strstr(said->message, needed));
    assert_non_null(strstr(said->message, "1 more outlet"));
    compiled_free(&job);
}

/* The dearest item of a way, and how many cost more than `pressure`. */
static size_t dearer(const struct path *path, double pressure) {
    size_t count = 0;
    for (const struct section *at = path->end; at; at = at->parent)
        for (size_t i = 0; i < at->items.count; i++)
            count += at->items.at[i].loss.pressure > pressure;
    return count;
}

/* One small duct among large ones: it is the dearest, and the size that would do is named.  With that size the job is
 * inside its budget. */
static struct compiled narrow(int inches) {
    return compiled_text("job \"Narrow\" {\n}\n"
                         "unit fan { blower 300 cfm at 0.16 in.wg; supply 16 x 12; return 20 x 12 }\n"
                         "run trunk from fan.supply { straight 4 ft }\n"
                         "outlet kiln from trunk { size %d; airflow 300 cfm; straight 40 ft; register 20 x 12 }\n"
                         "inlet hall from fan.return { straight 4 ft; grille 24 x 20 }\n",
                         inches);
}

static void the_size_that_is_named_mends_the_budget(void **state) {
    (void)state;
    struct compiled job = narrow(7);
    const struct diagnostic *said = compiled_said(&job, "budget", "fan", 0);
    assert_non_null(said);
    assert_true(said->related.count > 3);              /* and the ways out */
    const char *dearest = said->related.at[1].message; /* behind what it will deliver */
    assert_non_null(strstr(dearest, "7 in round"));
    const char *become = strstr(dearest, "would have to be ");
    assert_non_null(become);
    int inches = atoi(become + strlen("would have to be "));
    assert_true(inches > 7 && inches < 20);
    struct compiled mended = narrow(inches);
    assert_null(compiled_said(&mended, "budget", NULL, 0));
    assert_true(compiled_network(&mended)->surplus >= 0);
    assert_true(dearer(compiled_network(&job)->governing_supply, 0.05 * INCH_OF_WATER) >= 1);
    compiled_free(&job);
    compiled_free(&mended);
}

/* ---- Balance ----------------------------------------------------------------------------------------------------- */

static void paths_within_0_05_are_balanced(void **state) {
    (void)state;
    struct compiled even = mirrored(1, ""), at = mirrored(1, "drop \"screen\" 0.05 in.wg;");
    struct compiled over = mirrored(1, "drop \"screen\" 0.0501 in.wg;");
    struct compiled damped = mirrored(1, "drop \"screen\" 0.0501 in.wg; damper volume;");
    assert_null(compiled_said(&even, "unbalanced", NULL, 0));
    assert_null(compiled_said(&at, "unbalanced", NULL, 0));
    const struct diagnostic *said = compiled_said(&over, "unbalanced", "west", 0);
    assert_non_null(said);
    assert_int_equal(said->level, DIAGNOSTIC_WARNING);
    assert_string_equal(said->hint, "damper volume");
    assert_null(compiled_said(&over, "unbalanced", "east", 0));
    /* A damper on the governing path helps nobody else. */
    assert_non_null(compiled_said(&damped, "unbalanced", "west", 0));
    compiled_free(&even);
    compiled_free(&at);
    compiled_free(&over);
    compiled_free(&damped);
}

static void a_damper_of_its_own_settles_an_easy_path(void **state) {
    (void)state;
    struct compiled job =
        compiled_text("job \"Damped\" {\n}\n"
                      "unit fan { blower 600 cfm at 1 in.wg; supply 14 x 10; return 20 x 12 }\n"
                      "run trunk from fan.supply { straight 6 ft; split bullhead over 18 in }\n"
                      "outlet west from trunk.left { size 12 x 8; airflow 300 cfm; damper volume; register 14 x 8 }\n"
                      "outlet east from trunk.right { size 12 x 8; airflow 300 cfm; drop \"screen\" 0.3 in.wg; "
                      "register 14 x 8 }\n"
                      "run back from fan.return { straight 10 ft }\ninlet hall from back { grille 24 x 20 }\n");
    assert_null(compiled_said(&job, "unbalanced", NULL, 0));
    assert_int_equal(job.job->diagnostics->error_count, 0);
    compiled_free(&job);
}

/* Two inlets on one trunk, of which one stands at the end of a long duct that its airflow hardly loads: by pressure
 * they are within 0.05 in. w.g., by air they are not. */
static void what_will_flow_decides_where_it_is_known(void **state) {
    (void)state;
    static const char words[] =
        "job \"Returns\" {\n}\n"
        "unit fan { blower 700 cfm at 0.10 in.wg, 600 cfm at 0.30 in.wg, 400 cfm at 0.5 in.wg; supply 14 x 10; return "
        "14 x 10 }\n"
        "outlet east from fan.supply { airflow 600 cfm; boot; register 24 x 14 }\n"
        "run back from fan.return { straight 10 ft; cap }\n"
        "inlet one from back at 3 ft left { airflow 500 cfm; size 14 x 10; straight 4 ft; boot; grille 24 x 20 }\n"
        "inlet two from back at 8 ft left { airflow 100 cfm; size 12 x 10; straight 2 ft; %s boot; grille 24 x 20 }\n";
    struct compiled easy = compiled_text(words, ""), damped = compiled_text(words, "damper;");
    const struct network *network = compiled_network(&easy);
    const struct diagnostic *said = compiled_said(&easy, "unbalanced", "two", 0);
    assert_non_null(said);
    assert_non_null(strstr(said->message, "balanced, two will take "));
    assert_string_equal(said->hint, "damper volume");
    assert_true(fabs(network->return_paths.at[0].loss - network->return_paths.at[1].loss) < 0.05 * INCH_OF_WATER);
    assert_null(compiled_said(&easy, "unbalanced", "one", 0));
    assert_null(compiled_said(&damped, "unbalanced", NULL, 0));
    compiled_free(&easy);
    compiled_free(&damped);
}

/* What balancing opens again, no other outlet needs a damper for. */
static void a_damper_that_the_job_closes_too_far_is_to_be_opened(void **state) {
    (void)state;
    static const char words[] =
        "job \"Closed\" {\n}\n"
        "unit fan { blower 700 cfm at 0.10 in.wg, 600 cfm at 0.40 in.wg, 400 cfm at 0.6 in.wg; supply 14 x 10; return "
        "20 x 12 }\n"
        "run trunk from fan.supply { straight 6 ft; split bullhead over 18 in }\n"
        "outlet west from trunk.left { size 12 x 8; airflow 300 cfm; straight 4 ft; register 14 x 8 }\n"
        "outlet east from trunk.right { size 12 x 8; airflow 300 cfm; damper volume%s; straight 4 ft; register 14 x 8 "
        "}\n"
        "run back from fan.return { straight 10 ft }\ninlet hall from back { grille 24 x 20 }\n";
    struct compiled closed = compiled_text(words, ", open 35"), open = compiled_text(words, "");
    const struct diagnostic *said = compiled_said(&closed, "unbalanced", "west", 0);
    assert_non_null(said);
    assert_string_equal(said->hint, "damper volume, without `open`, in east");
    assert_null(compiled_said(&open, "unbalanced", NULL, 0));
    const struct damper_setting *east = &compiled_network(&closed)->operation->supply_settings[1];
    assert_true(east->declared);
    assert_true(fabs(east->declared_blade - 55 * 3.14159265358979 / 180) < 1e-6);
    compiled_free(&closed);
    compiled_free(&open);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_blower_that_just_does_is_enough_and_one_a_hair_weaker_is_an_error),
        cmocka_unit_test(a_deficit_is_one_error_with_its_figures_and_three_pieces),
        cmocka_unit_test(the_size_that_is_named_mends_the_budget),
        cmocka_unit_test(paths_within_0_05_are_balanced),
        cmocka_unit_test(a_damper_of_its_own_settles_an_easy_path),
        cmocka_unit_test(what_will_flow_decides_where_it_is_known),
        cmocka_unit_test(a_damper_that_the_job_closes_too_far_is_to_be_opened),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
