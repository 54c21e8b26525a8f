/* Alternates are the job compiled with them: their add or deduct is what the job written out so would cost. */
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <setjmp.h>
#include <cmocka.h>

#include <math.h>

#include "near.h"
#include "cost/offer.h"
#include "price_bench.h"
#include "shortage.h"

static const char hall[] =
    "outlet hall from trunk at 4 ft left { airflow 60 cfm; size 6 round; damper; flex 5 ft; boot; register 8 x 4 }\n";
static const char smaller_couch[] = "outlet couch from trunk at 11 ft right { airflow 140 cfm; size 7 round; damper; "
                                    "flex 7 ft; boot; register 12 x 6 }\n";

/* The bench's job with something in the place of a line, or behind all. */
static char *written_out(const char *line, const char *instead, const char *more) {
    static char text[4000];
    const char *at = line ? strstr(BENCH_JOB, line) : &BENCH_JOB[strlen(BENCH_JOB)];
    assert_non_null(at);
    const char *behind = line ? strchr(at, '\n') + 1 : at;
    snprintf(text, sizeof text, "%.*s%s%s%s", (int)(at - BENCH_JOB), BENCH_JOB, instead, behind, more);
    return text;
}

/* To whole fives: what is compared is what is asked. */
#define ROUNDED BENCH_SHOP "shop \"Rounded\" { round to 5 }\n"

static money total_of(const char *shop, const char *job) {
    struct compiled compiled = compiled_text("job \"Written out\"\n%s%s", shop, job);
    money total = bench_price(&compiled)->build_up.total;
    compiled_free(&compiled);
    return total;
}

static const struct offer *offer_of(const struct compiled *compiled, size_t index) {
    assert_true(compiled->job->alternates.count > index);
    const struct offer *offer = compiled->job->alternates.at[index]->offer;
    assert_non_null(offer);
    return offer;
}

static void an_alternate_costs_what_the_job_written_out_with_it_would(void **state) {
    (void)state;
    struct compiled compiled = compiled_text("job \"Base\"\n%s" BENCH_JOB "alternate A \"Hall\" { %s }\n"
                                             "alternate B \"No couch\" { without couch }\n"
                                             "alternate C \"Smaller\" { without couch; %s }\n",
                                             ROUNDED, hall, smaller_couch);
    money base = bench_price(&compiled)->build_up.total;
    assert_int_equal(base, total_of(ROUNDED, written_out(NULL, "", "")));
    money with[] = {total_of(ROUNDED, written_out(NULL, "", hall)), 0, 0};
    with[1] = total_of(ROUNDED, written_out("outlet couch", "", ""));
    with[2] = total_of(ROUNDED, written_out("outlet couch", smaller_couch, ""));
    for (size_t i = 0; i < 3; i++) {
        const struct offer *offer = offer_of(&compiled, i);
        assert_true(offer->priced);
        assert_int_equal(offer->total, with[i]);
        assert_int_equal(offer->difference, with[i] - base);
    }
    assert_true(offer_of(&compiled, 0)->difference > 0);
    assert_true(offer_of(&compiled, 1)->difference < 0);
    assert_string_equal(offer_of(&compiled, 0)->added.at[0], "hall");
    assert_string_equal(offer_of(&compiled, 1)->removed.at[0], "couch");
    assert_int_equal(offer_of(&compiled, 2)->added.count + offer_of(&compiled, 2)->removed.count, 0);
    compiled_free(&compiled);
}

static void it_tells_the_sizes_and_the_air_that_it_changes(void **state) {
    (void)state;
    struct compiled compiled =
        compiled_text("job \"Base\"\n%s" BENCH_JOB "alternate C { without couch; %s }\n", BENCH_SHOP, smaller_couch);
    const struct offer *offer = offer_of(&compiled, 0);
    bool couch = false, trunk = false;
    for (size_t i = 0; i < offer->changes.count; i++) {
        const struct offer_change *change = &offer->changes.at[i];
        if (strcmp(change->run, "couch") == 0) {
            couch = true;
            assert_true(change->after.width < change->before.width);
            assert_true(change->flow_after < change->flow_before);
        }
        trunk |= strcmp(change->run, "trunk") == 0;
        assert_string_not_equal(change->run, "desk");
    }
    assert_true(couch && trunk);
    compiled_free(&compiled);
}

/* ---- Where the sizes of a run change ----------------------------------------------------------------------------- */

/* A job whose one run is left out by its alternate, and comes back under the same name as `changed`. */
static struct compiled stepped(const char *plain, const char *changed) {
    return compiled_text("job \"Stepped\"\nunit fan { blower 400 cfm at 0.5 in.wg; supply 12 x 8; return 14 x 10 }\n"
                         "run way from fan.supply { %s }\noutlet out from way { airflow 400 cfm; register 12 x 8 }\n"
                         "inlet hall from fan.return { straight 4 ft; grille 24 x 20 }\n"
                         "alternate A { without way; without out; run way from fan.supply { %s }\n"
                         "outlet out from way { airflow 400 cfm; register 12 x 8 } }\n",
                         plain, changed);
}

static const struct offer_change *change_at(const struct offer *offer, size_t i, double feet, double before,
                                            double after) {
    const struct offer_change *change = &offer->changes.at[i];
    assert_string_equal(change->run, "way");
    assert_near(change->station, feet * FOOT, 1e-9);
    assert_near(change->before.width, before * INCH, 1e-9);
    assert_near(change->after.width, after * INCH, 1e-9);
    return change;
}

/* The second size begins 4 ft further on: between, and only there, the sizes differ. */
static void a_size_that_begins_elsewhere_is_a_change_between(void **state) {
    (void)state;
    struct compiled compiled = stepped("straight 9 ft; transition to 10 x 8 over 1 ft; straight 20 ft",
                                       "straight 13 ft; transition to 10 x 8 over 1 ft; straight 16 ft");
    const struct offer *offer = offer_of(&compiled, 0);
    assert_int_equal(offer->changes.count, 1);
    const struct offer_change *change = change_at(offer, 0, 10, 10, 12);
    assert_near(change->flow_before, 400 * CFM, 1e-9);
    assert_near(change->flow_after, 400 * CFM, 1e-9);
    compiled_free(&compiled);
}

/* One stretch more ahead of those that stay: by their numbers all of them would be others. */
static void a_stretch_more_is_told_with_what_was_there(void **state) {
    (void)state;
    struct compiled compiled = stepped(
        "straight 20 ft; transition to 10 x 8 over 1 ft; straight 9 ft",
        "straight 9 ft; transition to 14 x 8 over 1 ft; straight 10 ft; transition to 10 x 8 over 1 ft; straight 9 ft");
    const struct offer *offer = offer_of(&compiled, 0);
    assert_int_equal(offer->changes.count, 1);
    change_at(offer, 0, 10, 12, 14);
    assert_int_equal(offer->change_count, 1);
    compiled_free(&compiled);
}

/* And the other way round: a stretch that is not there with the change. */
static void a_stretch_less_is_told_with_what_is_there(void **state) {
    (void)state;
    struct compiled compiled = stepped(
        "straight 9 ft; transition to 14 x 8 over 1 ft; straight 10 ft; transition to 10 x 8 over 1 ft; straight 9 ft",
        "straight 20 ft; transition to 10 x 8 over 1 ft; straight 9 ft");
    const struct offer *offer = offer_of(&compiled, 0);
    assert_int_equal(offer->changes.count, 1);
    change_at(offer, 0, 10, 14, 12);
    compiled_free(&compiled);
}

/* A run that ends earlier with the change has neither size nor air beyond. */
static void what_a_shorter_run_no_longer_has_is_told_as_nothing(void **state) {
    (void)state;
    struct compiled compiled =
        stepped("straight 9 ft; transition to 10 x 8 over 1 ft; straight 20 ft", "straight 9 ft");
    const struct offer *offer = offer_of(&compiled, 0);
    assert_int_equal(offer->changes.count, 1);
    const struct offer_change *change = change_at(offer, 0, 10, 10, 0);
    assert_near(change->flow_before, 400 * CFM, 1e-9);
    assert_near(change->flow_after, 0, 0);
    compiled_free(&compiled);
    compiled = stepped("straight 9 ft", "straight 9 ft; transition to 10 x 8 over 1 ft; straight 20 ft");
    assert_int_equal(offer_of(&compiled, 0)->changes.count, 1);
    change_at(offer_of(&compiled, 0), 0, 10, 0, 10);
    compiled_free(&compiled);
}

static void its_errors_are_errors_of_the_job_and_name_it(void **state) {
    (void)state;
    static const struct {
        const char *alternate, *check, *message;
    } wrongs[] = {
        {"alternate A { without trunk }", "port", "with alternate A: "},
        {"alternate A { without divan }", "name", "there is no run, outlet or inlet called 'divan' to leave out"},
        {"alternate A { outlet desk from trunk at 4 ft left { airflow 9 cfm; register 8 x 4 } }", "name",
         "there are two things called 'desk'"},
        {"alternate A { outlet hall from trunk at 4 ft left { airflow 60 cfm; drop \"grate\" 0.01 in.wg; register 8 x "
         "4 } }",
         "price", "with alternate A: "},
    };
    for (size_t i = 0; i < sizeof wrongs / sizeof wrongs[0]; i++) {
        const char *shop =
            strstr(wrongs[i].alternate, "grate")
                ? "shop \"S\" {" BENCH_PRICES BENCH_TERMS
                  "hours straight, shop 1 h\nhours tap, shop 1 h\nhours cap, shop 1 h\nhours boot, shop 1 h\n"
                  "hours damper, shop 1 h\nhours flex, field 1 h\nhours register, field 1 h\nhours grille, field 1 h\n"
                  "hours hanger, field 1 h\nhours sealing, field 1 min per foot\nhours transition, shop 1 h\n}\n"
                : BENCH_SHOP;
        struct compiled base = compiled_text("job \"Base\"\n%s" BENCH_JOB, shop);
        bench_price(&base);
        compiled_free(&base);
        struct compiled compiled = compiled_text("job \"Base\"\n%s" BENCH_JOB "%s\n", shop, wrongs[i].alternate);
        bool said = false;
        for (size_t d = 0; d < compiled.job->diagnostics->all.count; d++) {
            const struct diagnostic *one = compiled.job->diagnostics->all.at[d];
            said |= one->level == DIAGNOSTIC_ERROR &&
                    strncmp(one->message, wrongs[i].message, strlen(wrongs[i].message)) == 0;
        }
        if (!said) {
            cleat_print_diagnostics(compiled.cleat, stderr, false, false);
            fail_msg("nothing names the alternate in: %s", wrongs[i].alternate);
        }
        compiled_free(&compiled);
    }
}

static void its_warnings_are_notes_and_stand_with_its_offer(void **state) {
    (void)state;
    struct compiled compiled = compiled_text("job \"Base\"\n%s" BENCH_JOB
                                             "alternate A { without couch; outlet couch from trunk at 11 ft right { "
                                             "airflow 200 cfm; size 8 round; flex 60 ft; boot; register 12 x 6 } }\n",
                                             BENCH_SHOP);
    const struct offer *offer = offer_of(&compiled, 0);
    assert_true(offer->warnings.count > 0);
    size_t notes = 0;
    for (size_t i = 0; i < compiled.job->diagnostics->all.count; i++) {
        const struct diagnostic *said = compiled.job->diagnostics->all.at[i];
        notes += said->level == DIAGNOSTIC_NOTE && strncmp(said->message, "with alternate A: ", 18) == 0;
    }
    assert_int_equal(notes, offer->warnings.count);
    compiled_free(&compiled);
}

/* What the office sheet and the JSON say of one more, against the job written out so. */
static void one_more_is_the_difference_of_two_jobs(void **state) {
    (void)state;
    struct compiled compiled = compiled_text("job \"Base\"\n%s" BENCH_JOB, BENCH_SHOP);
    const struct price *price = bench_price(&compiled);
    money base = price->build_up.total;
    assert_int_equal(price->what_ifs.count, 0);
    assert_int_equal(cleat_write(compiled.cleat, NULL, "json", "/dev/null"), CLEAT_OK);
    assert_true(price->what_ifs.count >= 3);
    money longer =
        total_of(BENCH_SHOP, written_out("run trunk", "run trunk from fan.supply { straight 22 ft; cap }\n", ""));
    money flexible =
        total_of(BENCH_SHOP, written_out("outlet couch",
                                         "outlet couch from trunk at 11 ft right { airflow 200 cfm; size 8 round; "
                                         "damper; flex 17 ft; boot; register 12 x 6 }\n",
                                         ""));
    money without = total_of(BENCH_SHOP, written_out("outlet couch", "", ""));
    size_t seen = 0;
    for (size_t i = 0; i < price->what_ifs.count; i++) {
        const struct what_if *what_if = &price->what_ifs.at[i];
        assert_true(what_if->known);
        if (strstr(what_if->title, "supply trunk"))
            seen += llabs(what_if->difference * 10 - (longer - base)) <= 5;
        if (strstr(what_if->title, "flexible duct"))
            seen += llabs(what_if->difference * 10 - (flexible - base)) <= 5;
        if (strstr(what_if->title, "outlet more"))
            seen += what_if->difference == base - without;
    }
    assert_int_equal(seen, 3);
    compiled_free(&compiled);
}

/* With an alternate and every question asked, whenever memory runs out it is said and all is given back. */
static void memory_may_run_out_at_any_time(void **state) {
    (void)state;
    char text[8000];
    snprintf(text, sizeof text, "job \"Base\"\n%s" BENCH_JOB "alternate A { %s }\n", BENCH_SHOP, hall);
    expect_shortages_said(text, (const struct shortage_paper[]){{"office", "csv"}, {NULL, "json"}, {NULL, NULL}});
}

/* What an alternate brings hangs in the building like all else: its runs are held against obstacles, the floor and the
 * returns as if they were written in the job. */
static void the_runs_of_an_alternate_have_their_place(void **state) {
    (void)state;
    struct compiled compiled = compiled_text(
        "job \"Base\" { headroom 7 ft }\n"
        "unit fan { blower 460 cfm at 0.10 in.wg, 400 cfm at 0.35 in.wg; supply 12 x 12; return 14 x 10; at 0 ft, 0 "
        "ft, "
        "8 ft; faces east }\n"
        "run trunk from fan.supply { size 12 x 12; straight 12 ft; cap }\n"
        "outlet desk from trunk at 8 ft left { airflow 400 cfm; size 10; straight 3 ft; register 14 x 8 }\n"
        "run back from fan.return { straight 1 ft }\ninlet floor from back { grille 24 x 12 }\n"
        "obstacle \"post\" from 10 ft, 2 ft, 0 ft to 10 ft 6 in, 2 ft 6 in, 10 ft\n"
        "alternate A { outlet high from trunk at 10 ft left { airflow 20 cfm; size 6; straight 4 ft; register 8 x 4 } "
        "}\n"
        "alternate B { outlet low from trunk at 5 ft bottom { airflow 20 cfm; size 6; straight 2 ft; register 8 x 4 } "
        "}\n"
        "alternate C { without back, floor; inlet wall from fan.return { straight 1 ft; elbow 90 right; straight 2 ft; "
        "elbow 90 right; straight 12 ft; grille 24 x 12 } }\n");
    static const char *const checks[] = {"clash", "headroom", "short-cycle"};
    assert_int_equal(cleat_error_count(compiled.cleat), 0);
    for (size_t i = 0; i < 3; i++) {
        const struct offer *offer = offer_of(&compiled, i);
        bool told = false;
        for (size_t k = 0; k < offer->warnings.count; k++)
            told |= strcmp(offer->warnings.at[k].check, checks[i]) == 0;
        if (!told)
            fail_msg("nothing is told of %s", checks[i]);
        assert_int_equal(compiled_said(&compiled, checks[i], NULL, 0)->level, DIAGNOSTIC_NOTE);
    }
    compiled_free(&compiled);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(an_alternate_costs_what_the_job_written_out_with_it_would),
        cmocka_unit_test(it_tells_the_sizes_and_the_air_that_it_changes),
        cmocka_unit_test(a_size_that_begins_elsewhere_is_a_change_between),
        cmocka_unit_test(a_stretch_more_is_told_with_what_was_there),
        cmocka_unit_test(what_a_shorter_run_no_longer_has_is_told_as_nothing),
        cmocka_unit_test(a_stretch_less_is_told_with_what_is_there),
        cmocka_unit_test(its_errors_are_errors_of_the_job_and_name_it),
        cmocka_unit_test(its_warnings_are_notes_and_stand_with_its_offer),
        cmocka_unit_test(memory_may_run_out_at_any_time),
        cmocka_unit_test(one_more_is_the_difference_of_two_jobs),
        cmocka_unit_test(the_runs_of_an_alternate_have_their_place),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
