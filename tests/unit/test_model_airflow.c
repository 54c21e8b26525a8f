/* Airflow: given, from a load, shared; sums toward the unit; what is said when they differ. */
#include "model_bench.h"

#define HEAD "job \"T\" { revision 1 }\n"
#define UNIT "unit AHU { airflow 300 cfm }\n"
#define TRUNK "run trunk from AHU.supply { straight 20 ft }\n"
#define BACK "run back from AHU.return { straight 20 ft }\n"
#define OUTLET(name, at, cfm) "outlet " name " from trunk at " at " left { airflow " cfm "; register 8 x 4 }\n"
#define INLET(name, at, words) "inlet " name " from back at " at " left { " words " }\n"

static void inlets_share_what_is_left_by_their_faces(void **state) {
    (void)state;
    struct bench *bench = bench_clean(
        HEAD UNIT TRUNK OUTLET("a", "4 ft", "300 cfm") BACK INLET("given", "2 ft", "airflow 60 cfm; grille 10 x 10")
            INLET("small", "4 ft", "grille 10 x 10") INLET("large", "6 ft", "grille 20 x 10"));
    assert_near(bench_run(bench, "given")->airflow, 60 * CFM, 1e-12);
    assert_near(bench_run(bench, "small")->airflow, 80 * CFM, 1e-12); /* a third of 240 */
    assert_near(bench_run(bench, "large")->airflow, 160 * CFM, 1e-12);
    assert_false(bench_run(bench, "small")->airflow_given);
    assert_near(bench_network(bench, 0)->return_flow, 300 * CFM, 1e-12);
    assert_near(bench_run(bench, "back")->first_section->flow, 300 * CFM, 1e-12);
    bench_free(bench);
}

/* 1.08 btu/h per cfm and F at sea level (common practice; ASHRAE Fundamentals): 3100 btu/h over 20 F is 143.5 cfm. */
static void a_load_gives_the_airflow_of_the_trade_rule(void **state) {
    (void)state;
    struct bench *bench = bench_new(HEAD "unit AHU { cooling 3 ton }\n" TRUNK
                                         "outlet a from trunk at 4 ft left { load 3100 btu/h; register 8 x 4 }\n"
                                         "inlet hall from AHU.return { grille 20 x 14 }\n");
    assert_int_equal(bench->diagnostics.error_count, 0);
    assert_near(bench_run(bench, "a")->airflow / CFM, 3100 / (1.08 * 20), 0.01 * 143.5);
    assert_near(bench_run(bench, "a")->difference, 20 / 1.8, 1e-9);
    assert_true(bench_run(bench, "a")->difference_assumed);
    assert_near(bench->job.units.at[0]->airflow, bench_run(bench, "a")->airflow, 1e-15); /* no airflow was declared */
    assert_true(bench->job.source_used[SOURCE_SENSIBLE_HEAT]);
    bench_free(bench);

    /* Of a job that only heats: the temperatures of heating. */
    bench = bench_new(HEAD "unit AHU { leaves heating 110 F; room heating 70 F }\n" TRUNK
                           "outlet a from trunk at 4 ft left { load 3100 btu/h; register 8 x 4 }\n"
                           "inlet hall from AHU.return { grille 20 x 14 }\n");
    assert_near(bench_run(bench, "a")->airflow / CFM, 3100 / (1.08 * 40), 0.01 * 71.8);
    assert_near(bench_run(bench, "a")->difference, 40 / 1.8, 1e-9);
    assert_false(bench_run(bench, "a")->difference_assumed);
    bench_free(bench);
}

/* Thinner air carries less heat: at 5000 ft the density is 0.832 of that at sea level (US Standard Atmosphere 1976,
 * pressure ratio at one temperature). */
static void a_load_needs_more_air_at_altitude(void **state) {
    (void)state;
    struct bench *bench = bench_new("job \"T\" { altitude 5000 ft }\nunit AHU { cooling 3 ton }\n" TRUNK
                                    "outlet a from trunk at 4 ft left { load 3100 btu/h; register 8 x 4 }\n"
                                    "inlet hall from AHU.return { grille 20 x 14 }\n");
    assert_near(bench_run(bench, "a")->airflow / CFM, 3100 / (1.08 * 20) / 0.832, 0.01 * 172.5);
    bench_free(bench);
}

static void sums_that_differ_are_named(void **state) {
    (void)state;
    static const struct fault faults[] = {
        {.text = UNIT TRUNK OUTLET("a", "4 ft", "280 cfm") BACK INLET("hall", "4 ft", "grille 20 x 14"),
         .level = DIAGNOSTIC_WARNING,
         .check = "airflow-sum",
         .at = "300 cfm",
         .says = "its outlets take 280 cfm",
         .related = "280 cfm"},
        {.text =
             UNIT TRUNK OUTLET("a", "4 ft", "300 cfm") BACK INLET("hall", "4 ft", "airflow 250 cfm; grille 20 x 14"),
         .level = DIAGNOSTIC_WARNING,
         .check = "supply-return",
         .at = "AHU",
         .says = "take 300 cfm, its inlets give 250 cfm",
         .related = "250 cfm"},
        {.text = UNIT TRUNK OUTLET("a", "4 ft", "300 cfm") BACK INLET("hall", "4 ft", "airflow 300 cfm; grille 20 x 14")
             INLET("den", "6 ft", "grille 20 x 14"),
         .level = DIAGNOSTIC_ERROR,
         .check = "airflow",
         .at = "AHU",
         .says = "nothing is left for the others"},
        {.text = UNIT TRUNK
         "outlet a from trunk at 4 ft left { register 8 x 4 }\n" BACK INLET("hall", "4 ft", "grille 20 x 14"),
         .level = DIAGNOSTIC_ERROR,
         .check = "airflow",
         .at = "a",
         .says = "neither an airflow nor a load",
         .hint = "airflow 140 cfm"},
        {.text =
             UNIT TRUNK "outlet a from trunk at 4 ft left { airflow 300 cfm; load 3 kW; register 8 x 4 }\n" BACK INLET(
                 "hall", "4 ft", "grille 20 x 14"),
         .level = DIAGNOSTIC_ERROR,
         .check = "airflow",
         .at = "3 kW",
         .says = "expected one of them",
         .related = "300 cfm"},
        {.text = "unit AHU { airflow 300 cfm; leaves 70 F; room 70 F }\n" TRUNK OUTLET("a", "4 ft", "300 cfm")
             BACK INLET("hall", "4 ft", "grille 20 x 14"),
         .level = DIAGNOSTIC_ERROR,
         .check = "airflow",
         .at = "70 F",
         .says = "as warm as the room when it cools"},
        {.text = "unit AHU { airflow 300 cfm; leaves 80 F; room 75 F }\n" TRUNK OUTLET("a", "4 ft", "300 cfm")
             BACK INLET("hall", "4 ft", "grille 20 x 14"),
         .level = DIAGNOSTIC_ERROR,
         .check = "airflow",
         .at = "80 F",
         .says = "leaves warmer than the room when it cools: at 80 F, into a room at 75 F",
         .hint = "leaves heating 80 F; room heating 75 F"},
        {.text = "unit AHU { airflow 300 cfm; leaves 55 F, heating 60 F; room 75 F, heating 70 F }\n" TRUNK OUTLET(
             "a", "4 ft", "300 cfm") BACK INLET("hall", "4 ft", "grille 20 x 14"),
         .level = DIAGNOSTIC_ERROR,
         .check = "airflow",
         .at = "60 F",
         .says = "leaves colder than the room when it heats: at 60 F, into a room at 70 F",
         .hint = "air that heats is warmer than its room, as in: leaves heating 105 F"},
    };
    assert_faults(HEAD, faults, sizeof faults / sizeof faults[0]);
}

static void a_difference_under_one_percent_is_let_be(void **state) {
    (void)state;
    bench_free(bench_clean(HEAD UNIT TRUNK OUTLET("a", "4 ft", "298 cfm")
                               BACK INLET("hall", "4 ft", "airflow 299 cfm; grille 20 x 14")));
}

static void warnings_name_the_unit_so_that_they_can_be_accepted(void **state) {
    (void)state;
    struct bench *bench =
        bench_new(HEAD UNIT TRUNK OUTLET("a", "4 ft", "200 cfm") BACK INLET("hall", "4 ft", "grille 20 x 14"));
    assert_int_equal(bench->diagnostics.all.count, 1);
    assert_string_equal(bench->diagnostics.all.at[0]->subject, "AHU");
    bench_free(bench);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(inlets_share_what_is_left_by_their_faces),
        cmocka_unit_test(a_load_gives_the_airflow_of_the_trade_rule),
        cmocka_unit_test(a_load_needs_more_air_at_altitude),
        cmocka_unit_test(sums_that_differ_are_named),
        cmocka_unit_test(a_difference_under_one_percent_is_let_be),
        cmocka_unit_test(warnings_name_the_unit_so_that_they_can_be_accepted),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
