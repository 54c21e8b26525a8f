/* What one step more of an estimate does is what the job with that step written into it differs by. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include <math.h>

#include "base/constant.h"
#include "compile/driver.h"
#include "near.h"
#include "estimates_bench.h"
#include "shortage.h"

static double left_on(const struct compiled *compiled, const char *terminal) {
    const struct network *network = compiled_network(compiled);
    for (size_t i = 0; i < network->supply_paths.count; i++)
        if (strcmp(network->supply_paths.at[i].end->terminal->name, terminal) == 0)
            return network->supply_paths.at[i].surplus;
    fail_msg("no path to %s", terminal);
    return 0;
}

/* Everything that is told of each estimate against two jobs written out. */
static void expect_differences(const char *size, double blower) {
    struct compiled base = with_more(BENCH_SHOP, size, blower, ESTIMATES, "");
    money price = bench_price(&base)->build_up.unrounded;
    double left = compiled_network(&base)->surplus;
    ask(&base);
    assert_int_equal(base.job->estimates.count, ESTIMATES);
    for (size_t i = 0; i < ESTIMATES; i++) {
        struct compiled longer = with_more(BENCH_SHOP, size, blower, i, "");
        const struct effect *effect = effect_of(&base, i);
        assert_null(effect->fault);
        assert_true(effect->depth == EFFECT_WHOLE && effect->priced);
        assert_int_equal(effect->difference, bench_price(&longer)->build_up.unrounded - price);
        assert_near(effect->governing.left, compiled_network(&longer)->surplus, 1e-9);
        assert_near(effect->governing.change, compiled_network(&longer)->surplus - left, 1e-9);
        if (effect->terminal) {
            assert_near(effect->path.left, left_on(&longer, effect->terminal), 1e-9);
            assert_near(effect->path.change, left_on(&longer, effect->terminal) - left_on(&base, effect->terminal),
                        1e-9);
        }
        compiled_free(&longer);
    }
    compiled_free(&base);
}

static void it_is_the_difference_of_two_jobs_written_out(void **state) {
    (void)state;
    expect_differences(FIXED, 0.60);
}

static void it_is_so_where_sizes_follow_from_the_budget(void **state) {
    (void)state;
    expect_differences(FREE, 0.40);
}

/* Friction alone, where no size moves: so much a foot of that section. */
static void a_foot_of_the_governing_runout_costs_its_friction(void **state) {
    (void)state;
    struct compiled base = with_more(BENCH_SHOP, FIXED, 0.60, ESTIMATES, "");
    ask(&base);
    const struct path *governing = compiled_network(&base)->governing_supply;
    size_t which = strcmp(governing->end->terminal->name, "desk") == 0 ? DESK : COUCH;
    const struct effect *effect = effect_of(&base, which), *other = effect_of(&base, DESK + COUCH - which);
    const struct item *flex = NULL;
    for (size_t i = 0; i < governing->end->items.count; i++)
        if (governing->end->items.at[i].length > 0)
            flex = &governing->end->items.at[i];
    assert_non_null(flex);
    assert_near(effect->governing.change, -flex->loss.friction / flex->length * FOOT, 1e-9);
    assert_null(effect->terminal);
    assert_true(effect->governing.change < -0.01);
    /* and one of the other runout nothing there, but on its own way */
    assert_near(other->governing.change, 0, 1e-12);
    assert_string_equal(other->terminal, which == DESK ? "couch" : "desk");
    assert_true(other->path.change < -0.01);
    /* nor does duct behind the last tap */
    assert_near(effect_of(&base, SECOND)->governing.change, 0, 1e-12);
    assert_null(effect_of(&base, SECOND)->terminal);
    compiled_free(&base);
}

/* As short a blower as still is enough; with one foot more it is not, and the job written out says so too. */
static void it_says_when_the_blower_then_falls_short(void **state) {
    (void)state;
    struct compiled base = with_more(BENCH_SHOP, FIXED, 0.60, ESTIMATES, "");
    double least = 0.60 - compiled_network(&base)->surplus / INCH_OF_WATER / base.job->air.density_ratio;
    size_t which = strcmp(compiled_network(&base)->governing_supply->end->terminal->name, "desk") == 0 ? DESK : COUCH;
    compiled_free(&base);

    base = with_more(BENCH_SHOP, FIXED, least + 0.0002, ESTIMATES, "");
    assert_int_equal(cleat_error_count(base.cleat), 0);
    ask(&base);
    assert_true(effect_of(&base, which)->falls_short);
    assert_false(effect_of(&base, which)->priced);
    assert_null(effect_of(&base, which)->fault);
    assert_false(effect_of(&base, SECOND)->falls_short);
    struct compiled longer = with_more(BENCH_SHOP, FIXED, least + 0.0002, which, "");
    assert_non_null(compiled_said(&longer, "budget", NULL, 0));
    compiled_free(&longer);
    compiled_free(&base);

    /* With somewhat more to spare: straight on, it is used up after so many feet, and the job so long has nothing left.
     */
    base = with_more(BENCH_SHOP, FIXED, least + 0.01, ESTIMATES, "");
    ask(&base);
    double steps = effect_of(&base, which)->short_after, feet[ESTIMATES];
    assert_true(steps > 1 && steps < EFFECT_STEPS);
    memcpy(feet, given, sizeof feet);
    feet[which] += steps;
    longer = with(BENCH_SHOP, FIXED, least + 0.01, feet, "");
    assert_near(compiled_network(&longer)->surplus, 0, 0.02); /* feet have two places in the text */
    assert_true(effect_of(&base, SECOND)->short_after == 0);
    compiled_free(&longer);
    compiled_free(&base);
}

/* Duct by duct, what has another size in the job written out. */
static size_t sizes_that_differ(const struct network *a, const struct network *b) {
    size_t count = 0;
    assert_int_equal(a->ducts.count, b->ducts.count);
    for (size_t i = 0; i < a->ducts.count; i++)
        count += !size_equal(a->ducts.at[i]->size, b->ducts.at[i]->size);
    return count;
}

/* Of blowers that are hardly enough, some leave sizes that one foot more moves. */
static void a_size_that_jumps_is_named(void **state) {
    (void)state;
    size_t named = 0;
    for (double blower = 0.107; blower < 0.113 && !named; blower += 0.001) {
        struct compiled base = with_more("", FREE, blower, ESTIMATES, "");
        if (cleat_error_count(base.cleat) == 0) {
            ask(&base);
            for (size_t i = 0; i < ESTIMATES; i++) {
                struct compiled longer = with_more("", FREE, blower, i, "");
                const struct effect *effect = effect_of(&base, i);
                assert_int_equal(effect->resized,
                                 sizes_that_differ(compiled_network(&base), compiled_network(&longer)));
                named += effect->sizes.count;
                compiled_free(&longer);
            }
        }
        compiled_free(&base);
    }
    assert_true(named > 0);
}

static const char hall[] = "outlet hall from trunk at about 4 ft left { airflow 60 cfm; size 6 round; damper; flex "
                           "about %d ft; boot; register 8 x 4 }";

/* In an alternate it is held against the job with that alternate. */
static void one_in_an_alternate_is_held_against_the_job_with_it(void **state) {
    (void)state;
    char outlet[2][300], alternate[400];
    for (int i = 0; i < 2; i++)
        snprintf(outlet[i], sizeof outlet[i], hall, 5 + i);
    snprintf(alternate, sizeof alternate, "alternate A { %s }\n", outlet[0]);
    struct compiled base = with_more(BENCH_SHOP, FIXED, 0.60, ESTIMATES, alternate);
    struct compiled one = with_more(BENCH_SHOP, FIXED, 0.60, ESTIMATES, outlet[0]);
    struct compiled more = with_more(BENCH_SHOP, FIXED, 0.60, ESTIMATES, outlet[1]);
    ask(&base);
    const struct effect *effect = effect_of(&base, ESTIMATES + 1);
    assert_string_equal(base.job->estimates.at[ESTIMATES + 1]->alternate->name, "A");
    assert_int_equal(effect->difference,
                     bench_price(&more)->build_up.unrounded - bench_price(&one)->build_up.unrounded);
    assert_near(effect->governing.left, compiled_network(&more)->surplus, 1e-9);
    assert_string_equal(effect->terminal, "hall");
    assert_near(effect->path.change, left_on(&more, "hall") - left_on(&one, "hall"), 1e-9);
    compiled_free(&base);
    compiled_free(&one);
    compiled_free(&more);
}

/* A tap that would stand past the end of its trunk, which the job written out is told as an error. */
static void what_cannot_be_built_then_is_said(void **state) {
    (void)state;
    const double feet[ESTIMATES] = {9.5, 0.2, 6, 9, 7, 4};
    struct compiled base = with(BENCH_SHOP, FIXED, 0.60, feet, "");
    assert_int_equal(cleat_error_count(base.cleat), 0);
    ask(&base);
    const struct effect *effect = effect_of(&base, STATION);
    assert_non_null(effect->fault);
    double past[ESTIMATES];
    memcpy(past, feet, sizeof past);
    past[STATION] += 1;
    struct compiled longer = with(BENCH_SHOP, FIXED, 0.60, past, "");
    assert_string_equal(effect->fault, longer.job->diagnostics->all.at[0]->message);
    assert_null(effect_of(&base, FIRST)->fault);
    compiled_free(&longer);
    compiled_free(&base);
}

/* Nothing of a job with errors; of one that only has no price, all but that. */
static void a_faulty_job_is_not_asked(void **state) {
    (void)state;
    struct compiled faulty =
        with_more(BENCH_SHOP, FIXED, 0.60, ESTIMATES, "outlet lost from nowhere { airflow 5 cfm }\n");
    assert_int_equal(cleat_write(faulty.cleat, NULL, "json", "/dev/null"), CLEAT_ERRORS);
    for (size_t i = 0; i < faulty.job->estimates.count; i++)
        assert_null(faulty.job->estimates.at[i]->effect);
    compiled_free(&faulty);
    struct compiled wanting = with_more("shop \"S\" { rate shop 38 per hour }\n", FIXED, 0.60, ESTIMATES, "");
    assert_true(cleat_error_count(wanting.cleat) > 0);
    assert_int_equal(cleat_write(wanting.cleat, "field", "md", "/dev/null"), CLEAT_ERRORS);
    assert_false(effect_of(&wanting, COUCH)->priced);
    assert_null(effect_of(&wanting, COUCH)->fault);
    assert_true(effect_of(&wanting, COUCH)->path.change + effect_of(&wanting, COUCH)->governing.change < 0);
    compiled_free(&wanting);
}

/* A riser of 4 ft needs no support; one foot more does, and that has no price. */
static void what_has_no_price_then_is_said(void **state) {
    (void)state;
    char shop[] = BENCH_SHOP;
    char *price = strstr(shop, "price riser_support"), *next = strstr(price, "price flex_strap");
    memmove(price, next, strlen(next) + 1);
    struct compiled base = compiled_text(
        "job \"Riser\"\n%s"
        "unit fan { blower 460 cfm at 0.50 in.wg, 400 cfm at 0.60 in.wg; supply 14 x 14; return 14 x 8; faces up }\n"
        "run trunk from fan.supply { straight about 4 ft; elbow 90 left; straight 12 ft; cap }\n"
        "outlet desk from trunk at 9 ft left { airflow 400 cfm; damper; flex 6 ft; boot; register 12 x 8 }\n"
        "run back from fan.return { straight 4 ft }\ninlet floor from back { boot; grille 24 x 12 }\n",
        shop);
    ask(&base);
    const struct effect *effect = effect_of(&base, 0);
    assert_null(effect->fault);
    assert_false(effect->priced);
    assert_string_equal(effect->unpriced, "the shop has no price for riser_support");
    compiled_free(&base);
}

/* Once asked, they are not asked again: not one thing more is taken from the arena. */
static void each_is_asked_once(void **state) {
    (void)state;
    struct compiled base = with_more("", FIXED, 0.60, ESTIMATES, "");
    driver_effects(base.cleat);
    size_t used = arena_used(base.cleat->arena);
    driver_effects(base.cleat);
    assert_int_equal(arena_used(base.cleat->arena), used);
    compiled_free(&base);
}

/* Of what is no length along duct: a size is asked narrower, an angle by degrees, in metric jobs by round millimetres.
 */
static void the_step_is_of_the_thing(void **state) {
    (void)state;
    struct compiled compiled = compiled_until(
        "build", "job \"J\" { units metric; altitude about 200 m }\nunit fan { blower 200 L/s at 80 Pa; drop \"coil\" "
                 "about 20 Pa }\n"
                 "run trunk from fan.supply { straight about 3 m; elbow about 45 left; transition over about 300; size "
                 "about 300 x 200; cap }\n"
                 "outlet desk from trunk at about 2 m left { airflow about 95 L/s; flex 2 m; register 300 x 150 }\n"
                 "obstacle \"beam\" from about 1 m, 2 m, 3 m to 2 m, 3 m, 4 m\n");
    static const struct {
        const char *where;
        double value, step;
    } expected[] = {{"J", NAN, 0},         {"fan", 20, 5},        {"trunk", 3, 0.3}, {"trunk", 45 * DEGREE, 5 * DEGREE},
                    {"trunk", 0.3, 0.025}, {"trunk", 0.3, -0.05}, {"desk", 2, 0.3},  {"desk", 0.095, 0.005},
                    {"beam", NAN, 0}};
    assert_int_equal(compiled.job->estimates.count, sizeof expected / sizeof expected[0]);
    for (size_t i = 0; i < compiled.job->estimates.count; i++) {
        const struct estimate *estimate = compiled.job->estimates.at[i];
        assert_string_equal(estimate->where, expected[i].where);
        assert_near(estimate->step, expected[i].step, 1e-9);
        if (estimate->step != 0)
            assert_near(estimate->value, expected[i].value, 1e-9);
    }
    compiled_free(&compiled);
}

/* A run of that name is no estimate. */
static void a_name_is_no_estimate(void **state) {
    (void)state;
    struct compiled compiled = compiled_until("build", "job \"J\"\nunit about { blower 400 cfm at 0.5 in.wg }\n"
                                                       "run trunk from about.supply { straight 3 ft; cap }\n");
    assert_int_equal(compiled.job->estimates.count, 0);
    compiled_free(&compiled);
}

/* Whenever memory runs out while they are asked, it is said and all is given back. */
static void memory_may_run_out_at_any_time(void **state) {
    (void)state;
    struct compiled text = with_more("", FIXED, 0.60, ESTIMATES,
                                     "alternate A { outlet hall from trunk at 4 ft left { "
                                     "airflow 60 cfm; size 6; flex about 5 ft; register "
                                     "8 x 4 } }\n");
    expect_shortages_said(text.text, (const struct shortage_paper[]){{"field", "md"}, {NULL, NULL}});
    compiled_free(&text);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(it_is_the_difference_of_two_jobs_written_out),
        cmocka_unit_test(it_is_so_where_sizes_follow_from_the_budget),
        cmocka_unit_test(a_foot_of_the_governing_runout_costs_its_friction),
        cmocka_unit_test(it_says_when_the_blower_then_falls_short),
        cmocka_unit_test(a_size_that_jumps_is_named),
        cmocka_unit_test(one_in_an_alternate_is_held_against_the_job_with_it),
        cmocka_unit_test(what_cannot_be_built_then_is_said),
        cmocka_unit_test(what_has_no_price_then_is_said),
        cmocka_unit_test(a_faulty_job_is_not_asked),
        cmocka_unit_test(each_is_asked_once),
        cmocka_unit_test(the_step_is_of_the_thing),
        cmocka_unit_test(a_name_is_no_estimate),
        cmocka_unit_test(memory_may_run_out_at_any_time),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
