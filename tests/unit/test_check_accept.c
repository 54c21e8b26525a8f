/* What a job accepts, and what it cannot. */
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <setjmp.h>
#include <cmocka.h>

#include "compiled.h"

/* kilnside is too fast: 1000 cfm through 12 x 12 in. */
static struct compiled fast(const char *acceptances) {
    return compiled_text("job \"Fast\" {\n}\n"
                         "unit fan { blower 1000 cfm at 1 in.wg; supply 12 x 12; return 30 x 14 }\n"
                         "run kilnside from fan.supply { straight 12 ft }\n"
                         "outlet glaze from kilnside { size 24 x 12; airflow 1000 cfm; register 24 x 18 }\n"
                         "inlet hall from fan.return { straight 4 ft; grille 36 x 30 }\n"
                         "%s",
                         acceptances);
}

static const struct check_result *result_of(const struct compiled *job, const char *check) {
    for (size_t i = 0; i < job->job->checks.count; i++)
        if (strcmp(job->job->checks.at[i].name, check) == 0)
            return &job->job->checks.at[i];
    fail_msg("no check is called %s", check);
    return NULL;
}

static void an_accepted_warning_keeps_its_reason_and_is_not_counted(void **state) {
    (void)state;
    struct compiled plain = fast(""), accepted = fast("accept velocity on kilnside because \"behind masonry\"\n");
    const struct diagnostic *before = compiled_said(&plain, "velocity", "kilnside", 0);
    const struct diagnostic *after = compiled_said(&accepted, "velocity", "kilnside", 0);
    assert_non_null(before);
    assert_null(before->accepted_because);
    assert_non_null(after);
    assert_string_equal(after->accepted_because, "behind masonry");
    assert_int_equal(accepted.job->diagnostics->warning_count, plain.job->diagnostics->warning_count - 1);
    assert_int_equal(result_of(&plain, "velocity")->warned, 1);
    assert_int_equal(result_of(&plain, "velocity")->accepted, 0);
    assert_int_equal(result_of(&accepted, "velocity")->warned, 0);
    assert_int_equal(result_of(&accepted, "velocity")->accepted, 1);
    assert_true(accepted.job->acceptances.at[0]->used);
    compiled_free(&plain);
    compiled_free(&accepted);
}

/* What is said about an acceptance; the test ends when nothing is. */
static void assert_refused(const char *acceptances, enum diagnostic_level level, const char *words, const char *hint) {
    struct compiled job = fast(acceptances);
    const struct diagnostic *said = compiled_said(&job, "accept", NULL, 0);
    assert_non_null(said);
    assert_int_equal(said->level, level);
    assert_non_null(strstr(said->message, words));
    assert_true(!hint || (said->hint && strstr(said->hint, hint)));
    assert_null(compiled_said(&job, "accept", NULL, 1));
    compiled_free(&job);
}

static void an_acceptance_that_makes_no_sense_is_an_error_with_the_nearest_name(void **state) {
    (void)state;
    assert_refused("accept velocty on kilnside because \"x\"\n", DIAGNOSTIC_ERROR, "velocty", "velocity");
    assert_refused("accept velocity on kilnsdie because \"x\"\n", DIAGNOSTIC_ERROR, "kilnsdie", "kilnside");
    assert_refused("accept frobnicate on kilnside because \"x\"\n", DIAGNOSTIC_ERROR, "frobnicate", "unbalanced");
}

static void an_acceptance_that_matches_nothing_is_a_warning(void **state) {
    (void)state;
    assert_refused("accept aspect on kilnside because \"x\"\n", DIAGNOSTIC_WARNING, "no aspect warning on kilnside",
                   NULL);
    assert_refused("accept velocity on kilnside because \"x\"\naccept velocity on kilnside because \"y\"\n",
                   DIAGNOSTIC_WARNING, "twice", NULL);
}

static void an_error_cannot_be_accepted(void **state) {
    (void)state;
    struct compiled job =
        compiled_text("job \"Weak\" {\n}\n"
                      "unit fan { blower 1000 cfm at 0.01 in.wg; supply 18 x 12; return 30 x 14 }\n"
                      "outlet glaze from fan.supply { airflow 1000 cfm; straight 40 ft; register 24 x 18 }\n"
                      "inlet hall from fan.return { straight 4 ft; grille 36 x 30 }\n"
                      "accept budget on fan because \"it will do\"\n");
    const struct diagnostic *budget = compiled_said(&job, "budget", "fan", 0);
    const struct diagnostic *said = compiled_said(&job, "accept", NULL, 0);
    assert_non_null(budget);
    assert_null(budget->accepted_because);
    assert_non_null(said);
    assert_non_null(strstr(said->message, "only a warning can be accepted"));
    assert_true(job.job->diagnostics->error_count > 0);
    compiled_free(&job);
}

static void an_acceptance_on_an_alternates_run_waits_for_it(void **state) {
    (void)state;
    struct compiled job =
        fast("alternate A \"More\" { outlet extra from kilnside at 6 ft left { airflow 60 cfm; straight 4 ft; "
             "register 8 x 4 } }\n"
             "accept velocity on extra because \"short\"\n");
    assert_null(compiled_said(&job, "accept", NULL, 0));
    compiled_free(&job);
}

/* What is said of the acceptances of a unit whose blower gives so much, with its trunk sized as it says. */
static size_t unmatched(const char *pressure, const char *size, const char *acceptances) {
    struct compiled job = compiled_text(
        "job \"Weak\" { date 2026-01-05 }\n"
        "unit fan { blower 1000 cfm at %s in.wg, 720 cfm at %s in.wg; supply 20 x 12; return 20 x 14 }\n"
        "run s from fan.supply { %s; straight 14 ft; straight 10 ft; cap }\n"
        "outlet a from s at 6 ft left { size 8; airflow 240 cfm; damper; flex 8 ft; boot; register 12 x 6 }\n"
        "outlet b from s at 12 ft left { size 8; airflow 240 cfm; damper; flex 8 ft; boot; register 12 x 6 }\n"
        "outlet c from s at 20 ft left { size 8; airflow 240 cfm; damper; flex 8 ft; boot; register 12 x 6 }\n"
        "run r from fan.return { size 20 x 14; straight 6 ft }\ninlet i from r { boot; grille 24 x 14 }\n%s",
        pressure, pressure, size, acceptances);
    size_t said = 0;
    while (compiled_said(&job, "accept", NULL, said))
        said++;
    assert_true((compiled_said(&job, "budget", "fan", 0) != NULL) == (strcmp(pressure, "4") != 0));
    compiled_free(&job);
    return said;
}

/* Where the budget does not come out, what it passes over, and what sizes that only stand in make, is not known. */
static void what_was_not_looked_at_may_be_accepted(void **state) {
    (void)state;
    static const char open[] = "limit height 12 in; transition over 18 in", fixed[] = "size 20 x 12";
    static const char taps[] = "accept tap-fit on a because \"x\"\n", trunk[] = "accept aspect on s because \"x\"\n";
    static const char leaks[] = "accept leakage on fan because \"x\"\n";
    static const char shorts[] = "accept airflow-short on b because \"x\"\n"
                                 "accept operating-point on fan because \"x\"\n";
    static const char known[] = "accept return-area on i because \"x\"\n";
    assert_int_equal(unmatched("0.05", open, taps), 0);
    assert_int_equal(unmatched("0.05", open, trunk), 0);
    assert_int_equal(unmatched("0.05", open, leaks), 0);
    assert_int_equal(unmatched("0.05", open, shorts), 0);
    assert_int_equal(unmatched("0.05", fixed, shorts), 0);
    /* What was looked at is told. */
    assert_int_equal(unmatched("0.05", open, known), 1);
    assert_int_equal(unmatched("0.05", fixed, taps), 1);
    assert_int_equal(unmatched("0.05", fixed, trunk), 1);
    assert_int_equal(unmatched("4", open, taps), 1);
    assert_int_equal(unmatched("4", open, trunk), 1);
    assert_int_equal(unmatched("4", open, leaks), 1);
    assert_int_equal(unmatched("4", open, shorts), 2);
}

/* With an outlet lost to a fault, every figure is of another job than the one that was meant. */
static void a_job_with_faults_is_not_warned_about_its_figures(void **state) {
    (void)state;
    struct compiled job = fast("outlet lost from kilnsdie at 3 ft left { airflow 100 cfm; register 8 x 4 }\n"
                               "accept velocity on kilnside because \"behind masonry\"\n");
    assert_int_equal(job.job->diagnostics->error_count, 1);
    assert_int_equal(job.job->diagnostics->warning_count, 0);
    compiled_free(&job);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(an_accepted_warning_keeps_its_reason_and_is_not_counted),
        cmocka_unit_test(an_acceptance_that_makes_no_sense_is_an_error_with_the_nearest_name),
        cmocka_unit_test(an_acceptance_that_matches_nothing_is_a_warning),
        cmocka_unit_test(an_error_cannot_be_accepted),
        cmocka_unit_test(an_acceptance_on_an_alternates_run_waits_for_it),
        cmocka_unit_test(what_was_not_looked_at_may_be_accepted),
        cmocka_unit_test(a_job_with_faults_is_not_warned_about_its_figures),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
