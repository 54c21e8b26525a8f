/* What a run hangs from: each fault gives one diagnostic, with its place and a hint that can
 * be typed in, and no other. */
#include "model_bench.h"

static const char before[] = "job \"Kiln\" { customer \"Potters\" }\n"
                             "unit AHU { airflow 300 cfm }\n"
                             "run back from AHU.return { straight 6 ft }\n"
                             "inlet hall from back { grille 20 x 14 }\n";

/* A supply side that is whole, for faults beside it. */
#define SUPPLY                                                                                                         \
    "run trunk from AHU.supply { straight 10 ft }\n"                                                                   \
    "outlet glaze from trunk { airflow 300 cfm; register 12 x 6 }\n"
#define OUTLET(name, port) "outlet " name " from " port " { airflow 300 cfm; register 12 x 6 }\n"

static void names_and_ports(void **state) {
    (void)state;
    static const struct fault faults[] = {
        {.text = SUPPLY OUTLET("kiln", "trnk at 3 ft left"),
         .level = DIAGNOSTIC_ERROR,
         .check = "name",
         .at = "trnk",
         .says = "nothing is called 'trnk'",
         .hint = "from trunk"},
        {.text = SUPPLY OUTLET("kiln", "AHV"),
         .level = DIAGNOSTIC_ERROR,
         .check = "name",
         .at = "AHV",
         .says = "nothing is called 'AHV'",
         .hint = "from AHU.supply"},
        {.text = SUPPLY OUTLET("kiln", "AHU.suply"),
         .level = DIAGNOSTIC_ERROR,
         .check = "port",
         .at = "AHU.suply",
         .says = "expected its supply or its return",
         .hint = "from AHU.supply"},
        {.text = SUPPLY "inlet den from AHU { grille 20 x 14 }\n",
         .level = DIAGNOSTIC_ERROR,
         .check = "port",
         .at = "AHU",
         .says = "expected its supply or its return",
         .hint = "from AHU.return"},
        {.text = SUPPLY OUTLET("kiln", "AHU.supply at 2 ft left"),
         .level = DIAGNOSTIC_ERROR,
         .check = "port",
         .at = "2 ft",
         .says = "nothing can be tapped into it",
         .hint = "from AHU.supply"},
        {.text = SUPPLY OUTLET("kiln", "trunk.lft"),
         .level = DIAGNOSTIC_ERROR,
         .check = "port",
         .at = "trunk.lft",
         .says = "'lft' is not a leg",
         .hint = "from trunk.left"},
        {.text = SUPPLY OUTLET("kiln", "trunk.left"),
         .level = DIAGNOSTIC_ERROR,
         .check = "split",
         .at = "trunk.left",
         .says = "does not end in a split",
         .hint = "from trunk",
         .related = "trunk"},
        {.text = SUPPLY OUTLET("trunk", "trunk at 3 ft left"),
         .level = DIAGNOSTIC_ERROR,
         .check = "name",
         .at = "trunk",
         .says = "two things called 'trunk'",
         .related = "trunk"},
        {.text = SUPPLY OUTLET("AHU", "trunk at 3 ft left"),
         .level = DIAGNOSTIC_ERROR,
         .check = "name",
         .at = "AHU",
         .says = "two things called 'AHU'",
         .related = "AHU"},
        {.text = SUPPLY "unit AHU { airflow 500 cfm }\n",
         .level = DIAGNOSTIC_ERROR,
         .check = "name",
         .at = "AHU",
         .says = "two things called 'AHU'",
         .related = "AHU"},
        {.text = SUPPLY OUTLET("kiln", "trunk"),
         .level = DIAGNOSTIC_ERROR,
         .check = "port",
         .at = "trunk",
         .says = "'glaze' hangs from the end of 'trunk' already",
         .hint = "from trunk at 6 ft left",
         .related = "glaze"},
        {.text = SUPPLY OUTLET("kiln", "AHU.supply"),
         .level = DIAGNOSTIC_ERROR,
         .check = "port",
         .at = "AHU.supply",
         .says = "'trunk' hangs from AHU.supply already",
         .hint = "from trunk",
         .related = "trunk"},
        {.text = SUPPLY OUTLET("kiln", "glaze"),
         .level = DIAGNOSTIC_ERROR,
         .check = "port",
         .at = "glaze",
         .says = "'glaze' is an outlet: nothing hangs behind it",
         .hint = "from trunk at 6 ft left",
         .related = "register 12 x 6"},
        {.text = SUPPLY "outlet kiln from trunk left { airflow 9 cfm; register 8 x 4 }\n",
         .level = DIAGNOSTIC_ERROR,
         .check = "port",
         .at = "left",
         .says = "a side is only for a tap",
         .hint = "at 6 ft left"},
        {.text = SUPPLY OUTLET("kiln", "back at 3 ft left"),
         .level = DIAGNOSTIC_ERROR,
         .check = "port",
         .at = "back",
         .says = "is an outlet, but hangs on the return side",
         .hint = "inlet kiln from back"},
        {.text = SUPPLY "inlet den from trunk at 3 ft left { grille 20 x 14 }\n",
         .level = DIAGNOSTIC_ERROR,
         .check = "port",
         .at = "trunk",
         .says = "is an inlet, but hangs on the supply side",
         .hint = "outlet den from trunk"},
    };
    assert_faults(before, faults, sizeof faults / sizeof faults[0]);
}

static void loops(void **state) {
    (void)state;
    static const struct fault faults[] = {
        {.text = SUPPLY "run a from a { straight 6 ft }\n",
         .level = DIAGNOSTIC_ERROR,
         .check = "loop",
         .at = "a",
         .says = "'a' hangs from itself"},
        {.text =
             SUPPLY "run a from c { straight 6 ft }\nrun b from a { straight 6 ft }\nrun c from b { straight 6 ft }\n"
                    "run d from c at 3 ft left { straight 6 ft }\n" OUTLET("kiln", "d"),
         .level = DIAGNOSTIC_ERROR,
         .check = "loop",
         .at = "c",
         .says = "'a' from 'c' from 'b' from 'a'",
         .related = "b"},
    };
    assert_faults(before, faults, sizeof faults / sizeof faults[0]);
}

static void taps(void **state) {
    (void)state;
#define TRUNK "run trunk from AHU.supply { straight 6 ft; transition over 2 ft; straight 8 ft }\n"
    static const struct fault faults[] = {
        {.text = TRUNK OUTLET("kiln", "trunk at 16.5 ft left"),
         .level = DIAGNOSTIC_ERROR,
         .check = "tap",
         .at = "16.5 ft",
         .says = "beyond the end of 'trunk'",
         .hint = "at 15 ft left", /* half of a wide run from the end */
         .related = "trunk"},
        {.text = TRUNK "outlet kiln from trunk at 99 ft left { size 5; airflow 300 cfm; register 12 x 6 }\n",
         .level = DIAGNOSTIC_ERROR,
         .check = "tap",
         .at = "99 ft",
         .says = "beyond the end of 'trunk'",
         .hint = "at 15 ft 9-1/2 in left"},
        {.text = TRUNK "outlet kiln from trunk at 7.5 ft left { size 8; tap shoe; airflow 300 cfm; register 12 x 6 }\n",
         .level = DIAGNOSTIC_ERROR,
         .check = "tap",
         .at = "7.5 ft",
         .says = "is tapped into the 'transition' of 'trunk'",
         .hint = "at 8 ft 8 in left"},
        {.text = TRUNK "outlet near from trunk at 15 ft 6 in left { size 5; airflow 150 cfm; register 12 x 6 }\n"
                       "outlet kiln from trunk at 99 ft left { size 5; airflow 150 cfm; register 12 x 6 }\n",
         .level = DIAGNOSTIC_ERROR,
         .check = "tap",
         .at = "99 ft",
         .says = "beyond the end of 'trunk'",
         .hint = "another side: other taps stand where there is straight duct"},
        {.text = TRUNK OUTLET("kiln", "trunk at 6.5 ft top"),
         .level = DIAGNOSTIC_ERROR,
         .check = "tap",
         .at = "6.5 ft",
         .says = "is tapped into the 'transition' of 'trunk'",
         .hint = "at 5 ft top",
         .related = "transition over 2 ft"},
        {.text = TRUNK OUTLET("kiln", "trunk at 7.5 ft right"),
         .level = DIAGNOSTIC_ERROR,
         .check = "tap",
         .at = "7.5 ft",
         .says = "is tapped into the 'transition' of 'trunk'",
         .hint = "at 9 ft right"},
        {.text = "run trunk from AHU.supply { elbow 90 left }\n" OUTLET("kiln", "trunk at 0 ft left"),
         .level = DIAGNOSTIC_ERROR,
         .check = "tap",
         .at = "0 ft",
         .says = "has no straight duct there"},
        {.text = "run trunk from AHU.supply { straight 6 ft; connector 8 in; straight 6 ft }\n" OUTLET(
             "kiln", "trunk at 6 ft 4 in left"),
         .level = DIAGNOSTIC_ERROR,
         .check = "tap",
         .at = "6 ft 4 in",
         .says = "is tapped into the 'connector'"},
    };
    assert_faults(before, faults, sizeof faults / sizeof faults[0]);
    static const char *const fine[] = {"0 ft", "6 ft", "8 ft", "16 ft", "3 ft"};
    for (size_t i = 0; i < sizeof fine / sizeof fine[0]; i++) {
        char text[600];
        snprintf(text, sizeof text, "%s%soutlet kiln from trunk at %s left { airflow 300 cfm; register 12 x 6 }\n",
                 before, TRUNK, fine[i]);
        bench_free(bench_clean(text));
    }
}

static void order_of_pieces(void **state) {
    (void)state;
    static const struct fault faults[] = {
        {.text = "run trunk from AHU.supply { straight 6 ft }\n"
                 "outlet kiln from trunk { airflow 300 cfm; register 12 x 6; straight 2 ft }\n",
         .level = DIAGNOSTIC_ERROR,
         .check = "order",
         .at = "straight 2 ft",
         .says = "stands behind the 'register'",
         .related = "register 12 x 6"},
        {.text = "run trunk from AHU.supply { split wye over 24 in; straight 6 ft }\n" OUTLET("a", "trunk.left")
             OUTLET("b", "trunk.right"),
         .level = DIAGNOSTIC_ERROR,
         .check = "order",
         .at = "straight 6 ft",
         .says = "stands behind the 'split'"},
        {.text = "run trunk from AHU.supply { straight 6 ft }\n"
                 "outlet kiln from trunk at 3 ft left { airflow 300 cfm; straight 1 ft; tap shoe; register 12 x 6 }\n",
         .level = DIAGNOSTIC_ERROR,
         .check = "tap",
         .at = "tap shoe",
         .says = "it must be the first piece",
         .related = "straight 1 ft"},
        {.text = "run trunk from AHU.supply { straight 6 ft }\n"
                 "outlet kiln from trunk { airflow 300 cfm; tap shoe; register 12 x 6 }\n",
         .level = DIAGNOSTIC_ERROR,
         .check = "tap",
         .at = "tap shoe",
         .says = "is not tapped in",
         .hint = "from trunk at 6 ft left"},
    };
    assert_faults(before, faults, sizeof faults / sizeof faults[0]);
}

static void splits_and_legs(void **state) {
    (void)state;
#define WYE "run trunk from AHU.supply { straight 6 ft; split wye over 24 in }\n"
#define TEE "run trunk from AHU.supply { straight 6 ft; split tee }\n"
#define HALF(name, port) "outlet " name " from " port " { airflow 150 cfm; register 12 x 6 }\n"
    static const struct fault faults[] = {
        {.text = WYE HALF("a", "trunk.left") HALF("b", "trunk.right") HALF("c", "trunk.straight"),
         .level = DIAGNOSTIC_ERROR,
         .check = "split",
         .at = "trunk.straight",
         .says = "has no straight leg",
         .related = "split wye over 24 in"},
        {.text = WYE HALF("a", "trunk.left") HALF("b", "trunk.right") HALF("c", "trunk"),
         .level = DIAGNOSTIC_ERROR,
         .check = "port",
         .at = "trunk",
         .says = "ends in a split",
         .hint = "from trunk.left"},
        {.text = WYE HALF("a", "trunk.left") HALF("b", "trunk.right") HALF("c", "trunk.left"),
         .level = DIAGNOSTIC_ERROR,
         .check = "port",
         .at = "trunk.left",
         .says = "'a' hangs from the left leg of 'trunk' already",
         .related = "a"},
        {.text = TEE HALF("a", "trunk.left") HALF("b", "trunk.right"),
         .level = DIAGNOSTIC_ERROR,
         .check = "split",
         .at = "trunk.right",
         .says = "its other side is taken",
         .related = "a"},
        {.text = WYE OUTLET("a", "trunk.left"),
         .level = DIAGNOSTIC_WARNING,
         .check = "dead-end",
         .at = "trunk",
         .says = "only one leg",
         .hint = "run NAME from trunk.right { ... }"},
    };
    assert_faults(before, faults, sizeof faults / sizeof faults[0]);
    bench_free(bench_clean(
        "job \"T\" { revision 1 }\nunit AHU { airflow 300 cfm }\ninlet hall from AHU.return { grille 20 x 14 }\n" TEE
            HALF("a", "trunk.straight") HALF("b", "trunk.right")));
}

static void ends(void **state) {
    (void)state;
    static const struct fault faults[] = {
        {.text = SUPPLY "run spur from trunk at 3 ft left { straight 2 ft }\n",
         .level = DIAGNOSTIC_WARNING,
         .check = "dead-end",
         .at = "spur",
         .says = "leads nowhere"},
        {.text =
             "run trunk from AHU.supply { straight 6 ft }\noutlet kiln from trunk { airflow 300 cfm; straight 1 ft }\n",
         .level = DIAGNOSTIC_WARNING,
         .check = "register",
         .at = "kiln",
         .says = "has no register",
         .hint = "register 10 x 6, 0.03 in.wg at 140 cfm"},
        {.text = SUPPLY "inlet den from back at 2 ft left { straight 1 ft }\n",
         .level = DIAGNOSTIC_WARNING,
         .check = "register",
         .at = "den",
         .says = "has no grille",
         .hint = "grille 20 x 14, 0.03 in.wg at 600 cfm"},
    };
    assert_faults(before, faults, sizeof faults / sizeof faults[0]);
}

static void missing_sides(void **state) {
    (void)state;
    static const struct fault faults[] = {
        {.text = "job \"T\" { revision 1 }\nunit AHU { airflow 300 cfm }\n" SUPPLY,
         .level = DIAGNOSTIC_ERROR,
         .check = "unit",
         .at = "AHU",
         .says = "nothing hangs from AHU.return",
         .hint = "run NAME from AHU.return { straight 6 ft }"},
        {.text =
             "job \"T\" { revision 1 }\nunit AHU { airflow 300 cfm }\ninlet hall from AHU.return { grille 20 x 14 }\n",
         .level = DIAGNOSTIC_ERROR,
         .check = "unit",
         .at = "AHU",
         .says = "nothing hangs from AHU.supply"},
        {.text = "job \"T\" { revision 1 }\n",
         .level = DIAGNOSTIC_ERROR,
         .check = "unit",
         .at = "\"T\"",
         .says = "there is no 'unit'",
         .hint = "unit AHU { airflow 1200 cfm }"},
    };
    assert_faults("", faults, sizeof faults / sizeof faults[0]);
}

static void a_faulty_run_takes_down_what_hangs_from_it_and_nothing_else(void **state) {
    (void)state;
    struct bench *bench = bench_new("job \"T\" { revision 1 }\nunit AHU { airflow 300 cfm }\n"
                                    "inlet hall from AHU.return { grille 20 x 14 }\n"
                                    "run trunk from AHU.supply { straight 10 ft }\n"
                                    "run bad from trunk at 2 ft left { straight 4 fmp }\n"
                                    "outlet under from bad at 3 ft left { airflow 50 cfm }\n"
                                    "outlet deep from bad.left { register 8 x 4 }\n"
                                    "outlet good from trunk at 5 ft left { airflow 100 cfm; register 8 x 4 }\n");
    assert_int_equal(bench->diagnostics.error_count, 1);
    assert_int_equal(bench->diagnostics.warning_count, 0);
    assert_true(bench_run(bench, "bad")->faulty);
    assert_true(bench_run(bench, "under")->faulty);
    assert_true(bench_run(bench, "deep")->faulty);
    assert_false(bench_run(bench, "good")->faulty);
    assert_int_equal(bench_network(bench, 0)->supply_paths.count, 1);
    assert_near(bench_run(bench, "trunk")->first_section->flow, 100 * CFM, 1e-12);
    bench_free(bench);
}

static void declarations_stand_in_any_order(void **state) {
    (void)state;
    struct bench *bench = bench_clean("outlet a from trunk at 3 ft left { airflow 100 cfm; register 8 x 4 }\n"
                                      "run trunk from plenum { straight 6 ft }\n"
                                      "inlet hall from AHU.return { grille 20 x 14 }\n"
                                      "run plenum from AHU.supply { straight 2 ft }\n"
                                      "unit AHU { airflow 100 cfm }\n"
                                      "job \"T\" { revision 1 }\n");
    assert_ptr_equal(bench_run(bench, "a")->parent, bench_run(bench, "trunk"));
    assert_ptr_equal(bench_run(bench, "trunk")->parent, bench_run(bench, "plenum"));
    assert_ptr_equal(bench_run(bench, "a")->unit, bench->job.units.at[0]);
    bench_free(bench);
}

static void alternates_are_checked_and_kept_apart(void **state) {
    (void)state;
    static const char alternate[] = SUPPLY "alternate A \"More\" {\n"
                                           "    run spur from trunk at 4 ft right { straight 5 ft }\n"
                                           "    outlet more from spur { airflow 60 cfm; register 8 x 4 }\n"
                                           "}\n"
                                           "accept velocity on more because \"a spare\"\n";
    char text[1200];
    snprintf(text, sizeof text, "%s%s", before, alternate);
    struct bench *bench = bench_clean(text);
    assert_int_equal(bench->job.alternates.count, 1);
    assert_int_equal(bench->job.alternates.at[0]->runs.count, 2);
    assert_ptr_equal(bench->job.alternates.at[0]->runs.at[0]->alternate, bench->job.alternates.at[0]);
    assert_int_equal(bench_run(bench, "trunk")->taps.count, 0);
    assert_near(bench_network(bench, 0)->supply_flow, 300 * CFM, 1e-12);
    bench_free(bench);
    static const struct fault faults[] = {
        {.text = SUPPLY "alternate A { outlet more from trnk at 4 ft right { airflow 60 cfm; register 8 x 4 } }\n",
         .level = DIAGNOSTIC_ERROR,
         .check = "name",
         .at = "trnk",
         .says = "nothing is called",
         .hint = "from trunk"},
        {.text = SUPPLY "alternate A { outlet glaze from trunk at 4 ft right { airflow 60 cfm; register 8 x 4 } }\n",
         .level = DIAGNOSTIC_ERROR,
         .check = "name",
         .at = "glaze",
         .says = "two things called 'glaze'",
         .related = "glaze"},
        {.text = SUPPLY "alternate A { outlet more from trunk at 14 ft right { airflow 60 cfm; register 8 x 4 } }\n",
         .level = DIAGNOSTIC_ERROR,
         .check = "tap",
         .at = "14 ft",
         .says = "beyond the end of 'trunk'"},
    };
    assert_faults(before, faults, sizeof faults / sizeof faults[0]);
}

static void a_port_in_words(void **state) {
    (void)state;
    char text[1200];
    snprintf(text, sizeof text, "%s%s", before,
             WYE HALF("a", "trunk.left")
                 HALF("b", "trunk.right") "outlet c from trunk at about 3 ft top { airflow 1 cfm; register 8 x 4 }\n");
    struct bench *bench = bench_new(text);
    assert_string_equal(port_text(&bench_run(bench, "trunk")->from, MEASURE_US, bench->arena), "supply of AHU");
    assert_string_equal(port_text(&bench_run(bench, "a")->from, MEASURE_US, bench->arena), "left leg of trunk");
    assert_string_equal(port_text(&bench_run(bench, "hall")->from, MEASURE_US, bench->arena), "end of back");
    const char *tap = port_text(&bench_run(bench, "c")->from, MEASURE_US, bench->arena);
    assert_non_null(strstr(tap, "trunk at about 3"));
    assert_non_null(strstr(tap, "ft, top"));
    bench_free(bench);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(names_and_ports),
        cmocka_unit_test(loops),
        cmocka_unit_test(taps),
        cmocka_unit_test(order_of_pieces),
        cmocka_unit_test(splits_and_legs),
        cmocka_unit_test(ends),
        cmocka_unit_test(missing_sides),
        cmocka_unit_test(a_faulty_run_takes_down_what_hangs_from_it_and_nothing_else),
        cmocka_unit_test(declarations_stand_in_any_order),
        cmocka_unit_test(alternates_are_checked_and_kept_apart),
        cmocka_unit_test(a_port_in_words),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
