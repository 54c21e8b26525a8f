/* Which of a blower's speeds is taken. */
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <setjmp.h>
#include <cmocka.h>

#include "compiled.h"

/* 400 cfm through a run that asks for little; `speeds` of the unit as text. */
static struct compiled with_speeds(const char *speeds) {
    return compiled_until(
        "size",
        "job \"Speeds\" { friction 0.08 in.wg/100ft }\n"
        "unit fan { airflow 400 cfm; supply 14 x 10; return 16 x 12\n%s\n}\n"
        "outlet hall from fan.supply { airflow 400 cfm; straight 20 ft; register 14 x 10, 0.05 in.wg at 400 cfm }\n"
        "inlet back from fan.return { straight 6 ft; grille 20 x 14, 0.05 in.wg at 400 cfm }\n",
        speeds);
}

static const struct air_unit *unit_of(const struct compiled *job) {
    if (cleat_error_count(job->cleat))
        cleat_print_diagnostics(job->cleat, stderr, false, false);
    assert_int_equal(cleat_error_count(job->cleat), 0);
    assert_int_equal(job->job->units.count, 1);
    return job->job->units.at[0];
}

static void assert_taken(const char *speeds, const char *name, size_t tried) {
    struct compiled job = with_speeds(speeds);
    const struct air_unit *unit = unit_of(&job);
    size_t count = 0;
    assert_non_null(unit->speed);
    assert_string_equal(unit->speed->name, name);
    for (size_t i = 0; i < unit->speeds.count; i++)
        count += unit->speeds.at[i].tried;
    assert_int_equal(count, tried);
    compiled_free(&job);
}

#define SPEED(name, pressure) "blower \"" name "\" 300 cfm at 0." pressure "1 in.wg, 500 cfm at 0." pressure " in.wg\n"
#define ELSEWHERE(name) "blower \"" name "\" 600 cfm at 0.5 in.wg, 800 cfm at 0.3 in.wg\n"

static void the_least_that_is_enough_is_taken_in_whatever_order_they_stand(void **state) {
    (void)state;
    assert_taken(SPEED("low", "05") SPEED("middle", "4") SPEED("high", "8"), "middle", 2);
    assert_taken(SPEED("high", "8") SPEED("middle", "4") SPEED("low", "05"), "middle", 2);
    assert_taken(SPEED("middle", "4") SPEED("high", "8") SPEED("low", "05"), "middle", 2);
}

static void of_two_alike_the_first_is_taken(void **state) {
    (void)state;
    assert_taken(SPEED("one", "4") SPEED("other", "4"), "one", 1);
    assert_taken(SPEED("other", "4") SPEED("one", "4"), "other", 1);
    /* Neither is enough: both are tried, and neither twice. */
    assert_taken(SPEED("weak", "03") SPEED("as weak", "03") SPEED("strong", "6"), "strong", 3);
}

static void when_none_is_enough_the_greatest_stays(void **state) {
    (void)state;
    assert_taken(SPEED("least", "02") SPEED("most", "04") SPEED("between", "03"), "most", 3);
    assert_taken(SPEED("a", "03") SPEED("b", "03"), "b", 2);
}

static void a_speed_that_does_not_know_the_airflow_is_not_tried(void **state) {
    (void)state;
    assert_taken(ELSEWHERE("far") SPEED("near", "4") SPEED("nearer", "7"), "near", 1);
}

static void the_speed_that_is_asked_for_is_kept(void **state) {
    (void)state;
    assert_taken("speed \"high\"\n" SPEED("low", "4") SPEED("high", "8"), "high", 1);
}

/* Each trial is silent: a duct that no size fits is told once, of the speed that is taken. */
static void what_is_wrong_with_a_duct_is_said_once(void **state) {
    (void)state;
    struct compiled job =
        compiled_until("size", "job \"Tight\" { friction 0.08 in.wg/100ft }\n"
                               "unit fan { airflow 1200 cfm; supply 18 x 14; return 30 x 14\n"
                               "blower \"low\" 900 cfm at 0.05 in.wg, 1500 cfm at 0.04 in.wg\n"
                               "blower \"high\" 900 cfm at 0.09 in.wg, 1500 cfm at 0.08 in.wg\n}\n"
                               "run trunk from fan.supply { limit height 6 in; transition over 1 ft; straight 20 ft }\n"
                               "outlet a from trunk { airflow 1200 cfm; size 20 x 14; register 24 x 20 }\n"
                               "inlet hall from fan.return { straight 4 ft; grille 36 x 30 }\n");
    assert_non_null(compiled_said(&job, "size", "trunk", 0));
    assert_null(compiled_said(&job, "size", "trunk", 1));
    assert_false(job.job->incomplete);
    compiled_free(&job);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_least_that_is_enough_is_taken_in_whatever_order_they_stand),
        cmocka_unit_test(of_two_alike_the_first_is_taken),
        cmocka_unit_test(when_none_is_enough_the_greatest_stays),
        cmocka_unit_test(a_speed_that_does_not_know_the_airflow_is_not_tried),
        cmocka_unit_test(the_speed_that_is_asked_for_is_kept),
        cmocka_unit_test(what_is_wrong_with_a_duct_is_said_once),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
