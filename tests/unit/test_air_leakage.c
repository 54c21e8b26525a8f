/* Leakage: the class equation and its published table, and a duct worked by hand. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "air/leakage.h"
#include "base/constant.h"
#include "compiled.h"
#include "near.h"

#define HUNDRED (100 * FOOT * FOOT)

/* SMACNA HVAC Air Duct Leakage Test Manual, table 4-1 as reprinted: joints sealed, joints and seams, all. */
static void classes_are_those_of_the_published_table(void **state) {
    (void)state;
    static const double rectangular[] = {24, 12, 6}, round[] = {12, 6, 3};
    for (int seal = SEAL_C; seal <= SEAL_A; seal++) {
        assert_near(leakage_class(SHAPE_RECTANGULAR, (enum seal_class)seal), rectangular[seal - SEAL_C], 0);
        assert_near(leakage_class(SHAPE_ROUND, (enum seal_class)seal), round[seal - SEAL_C], 0);
    }
}

/* Class 6 at 0.5 in. w.g. 3.82 cfm per 100 ft2, class 24 15.29; at 1 in. any class is its own number. */
static void the_class_equation_gives_its_published_values(void **state) {
    (void)state;
    assert_near(leakage_flow(6, HUNDRED, 0.5 * INCH_OF_WATER) / CFM, 3.82, 0.005);
    assert_near(leakage_flow(24, HUNDRED, 0.5 * INCH_OF_WATER) / CFM, 15.29, 0.005);
    for (double leakage = 3; leakage <= 48; leakage *= 2)
        assert_near(leakage_flow(leakage, HUNDRED, INCH_OF_WATER) / CFM, leakage, 1e-9);
    assert_near(leakage_flow(6, HUNDRED, -INCH_OF_WATER) / CFM, 6, 1e-9); /* in as easily as out */
}

static struct compiled one_duct(const char *seal, const char *of_unit) {
    return compiled_text("job \"t\" { %s }\n"
                         "unit fan { blower 400 cfm at 0.40 in.wg; %s; supply 12 x 8; return 12 x 12 }\n"
                         "run trunk from fan.supply { straight 30 ft }\n"
                         "outlet desk from trunk { airflow 400 cfm; register 12 x 8, 0.05 in.wg at 400 cfm }\n"
                         "run back from fan.return { straight 6 ft }\n"
                         "inlet hall from back { grille 12 x 12, 0.03 in.wg at 400 cfm }\n",
                         seal, of_unit);
}

/* 100 ft2 of 12 x 8 in duct, 24 ft2 of 12 x 12 in.  In the middle of the supply: what is lost from there on, less the
 * velocity pressure of 600 fpm, 0.0224 in. w.g. by the trade's rule. */
static void a_duct_leaks_by_its_surface_and_pressure(void **state) {
    (void)state;
    struct compiled job = one_duct("seal B", "drop \"coil\" 0.1 in.wg");
    const struct network *network = compiled_network(&job);
    const struct leakage *leakage = network->leakage;
    const struct section *supply = compiled_run(&job, "trunk")->last_section;
    assert_near(leakage->surface / (FOOT * FOOT), 124, 1e-6);
    double friction = supply->items.at[0].loss.pressure / INCH_OF_WATER;
    double register_ = 0.05;
    double middle = friction / 2 + register_ - 0.0224;
    assert_near(leakage->sections[supply->id].static_pressure / INCH_OF_WATER, middle, 0.0003);
    assert_near(leakage->supply / CFM, 12 * pow(fabs(middle), 0.65), 0.05);
    assert_near(leakage->share, (leakage->supply + leakage->back) / (400 * CFM), 1e-9);
    /* Built for what the blower gives at the most, which no test goes over. */
    assert_int_equal(leakage->tests, 2);
    assert_near(leakage->test[1].pressure / INCH_OF_WATER, 0.40, 1e-9);
    assert_near(leakage->test[1].allowed / CFM, 12 * 1.24 * pow(0.40, 0.65), 1e-6);
    assert_near(leakage->test[0].allowed / CFM, 12 * 1.24 * pow(25 / INCH_OF_WATER, 0.65), 1e-6);
    assert_near(leakage->outside, 0, 0);
    compiled_free(&job);
}

/* 1 in. w.g. at most, 250 Pa in a metric job; the least of what the ducts of the unit are built for. */
static void no_test_asks_for_more_than_the_ducts_are_built_for(void **state) {
    (void)state;
    static const struct {
        const char *job, *unit;
        size_t tests;
        double least, most; /* Pa */
    } each[] = {
        {"pressure-class 2 in.wg", "", 2, 25, INCH_OF_WATER},
        {"pressure-class 2 in.wg; units metric", "", 2, 25, 250},
        {"pressure-class 1 in.wg", "", 2, 25, INCH_OF_WATER},
        {"pressure-class 0.5 in.wg", "", 2, 25, 0.5 * INCH_OF_WATER},
        {"", "blower \"high\" 500 cfm at 0.6 in.wg, 300 cfm at 0.9 in.wg; speed \"low\"", 2, 25, 0.9 * INCH_OF_WATER},
        {"pressure-class 25 Pa", "", 1, 25, 25},
        {"pressure-class 20 Pa", "", 1, 20, 20},
    };
    for (size_t i = 0; i < sizeof each / sizeof each[0]; i++) {
        struct compiled job =
            compiled_text("job \"t\" { %s }\n"
                          "unit fan { blower \"low\" 500 cfm at 0.30 in.wg, 400 cfm at 0.40 in.wg; %s }\n"
                          "run trunk from fan.supply { size 12 x 8 in; straight 30 ft }\n"
                          "outlet desk from trunk { airflow 400 cfm; register 12 x 8 in }\n"
                          "run back from fan.return { size 12 x 12 in; straight 6 ft }\n"
                          "inlet hall from back { grille 12 x 12 in }\n",
                          each[i].job, each[i].unit);
        const struct leakage *leakage = compiled_network(&job)->leakage;
        assert_int_equal(leakage->tests, each[i].tests);
        assert_near(leakage->test[0].pressure, each[i].least, 1e-9);
        assert_near(leakage->test[leakage->tests - 1].pressure, each[i].most, 1e-9);
        for (size_t t = 0; t < leakage->tests; t++)
            assert_true(leakage->test[t].pressure <= leakage->built_for && leakage->test[t].allowed > 0);
        compiled_free(&job);
    }
    /* One run that is built for less is enough. */
    struct compiled job = one_duct("pressure-class 1 in.wg", "drop \"coil\" 0.1 in.wg"),
                    mixed = compiled_text("%.*s pressure-class 0.5 in.wg; %s",
                                          (int)(strstr(job.text, "straight 6 ft") - job.text), job.text,
                                          strstr(job.text, "straight 6 ft"));
    assert_near(compiled_network(&job)->leakage->test[1].pressure, INCH_OF_WATER, 1e-9);
    assert_near(compiled_network(&mixed)->leakage->test[1].pressure, 0.5 * INCH_OF_WATER, 1e-9);
    compiled_free(&job);
    compiled_free(&mixed);
}

static void what_says_nothing_is_taken_as_sealed_at_its_joints(void **state) {
    (void)state;
    struct compiled job = one_duct("seal C", "drop \"coil\" 0.1 in.wg"), none = one_duct("", "drop \"coil\" 0.1 in.wg");
    assert_near(compiled_network(&none)->leakage->supply, compiled_network(&job)->leakage->supply, 0);
    assert_near(compiled_network(&none)->leakage->test[1].allowed / CFM, 24 * 1.24 * pow(0.40, 0.65), 1e-6);
    compiled_free(&job);
    compiled_free(&none);
}

/* The same table: flexible duct that is sealed 12, fibrous board 6, whatever the seal class. */
static void flexible_duct_and_board_have_one_class_of_any_seal(void **state) {
    (void)state;
    struct compiled job = compiled_text(
        "job \"t\" { seal A }\n"
        "unit fan { blower 400 cfm at 0.40 in.wg; supply 12 x 8; return 12 x 12 }\n"
        "run trunk from fan.supply { material board; straight 30 ft }\n"
        "outlet desk from trunk { airflow 400 cfm; transition to 12 over 12 in; flex 6 ft; register 12 x 8 }\n"
        "run back from fan.return { straight 6 ft }\n"
        "inlet hall from back { grille 12 x 12 }\n");
    const struct section *desk = compiled_run(&job, "desk")->last_section,
                         *trunk = compiled_run(&job, "trunk")->last_section;
    const struct piece *flex = desk->items.at[desk->items.count - 2].piece, *straight = trunk->items.at[0].piece;
    assert_string_equal(flex->kind->form.word, "flex");
    for (int seal = SEAL_C; seal <= SEAL_A; seal++) {
        assert_near(leakage_class_of(desk, flex, (enum seal_class)seal), 12, 0);
        assert_near(leakage_class_of(trunk, straight, (enum seal_class)seal), 6, 0);
    }
    assert_non_null(strstr(leakage_class_words(desk, flex, job.job->arena), "whatever the seal class"));
    assert_non_null(strstr(leakage_class_words(trunk, straight, job.job->arena), "whatever the seal class"));
    assert_string_equal(leakage_class_words(compiled_run(&job, "back")->last_section,
                                            compiled_run(&job, "back")->pieces.at[0], job.job->arena),
                        "rectangular duct, seal A");
    compiled_free(&job);
}

static void more_than_the_limit_is_told_with_what_would_do(void **state) {
    (void)state;
    struct compiled job = one_duct("seal C", "leakage 0.8 %"), loose = one_duct("seal C", "leakage 3 %");
    const struct diagnostic *said = compiled_said(&job, "leakage", "fan", 0);
    assert_non_null(said);
    assert_non_null(strstr(said->message, "more than 0.8 %"));
    assert_null(compiled_said(&loose, "leakage", NULL, 0));
    compiled_free(&job);
    compiled_free(&loose);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(classes_are_those_of_the_published_table),
        cmocka_unit_test(the_class_equation_gives_its_published_values),
        cmocka_unit_test(a_duct_leaks_by_its_surface_and_pressure),
        cmocka_unit_test(no_test_asks_for_more_than_the_ducts_are_built_for),
        cmocka_unit_test(what_says_nothing_is_taken_as_sealed_at_its_joints),
        cmocka_unit_test(flexible_duct_and_board_have_one_class_of_any_seal),
        cmocka_unit_test(more_than_the_limit_is_told_with_what_would_do),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
