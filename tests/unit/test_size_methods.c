/* Whole jobs sized: the rate that is found, the limits that hold, what is kept, what is said when nothing fits. */
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <setjmp.h>
#include <cmocka.h>

#include "air/air.h"
#include "compiled.h"
#include "near.h"
#include "size/limits.h"
#include "size/size.h"
#include "standard_size.h"

#define INCH 0.0254
#define CFM (0.3048 * 0.3048 * 0.3048 / 60)
#define FPM (0.3048 / 60)
#define INCH_OF_WATER 248.84
/* 1 in. w.g. per 100 ft. */
#define PER_100_FT (INCH_OF_WATER / 30.48)

/* A trunk with four branches and a return.  `settings` goes into the job, `pressure` is the blower's, in. w.g. */
static struct compiled pottery(const char *settings, double pressure) {
    return compiled_until(
        "size",
        "job \"Pottery\" { %s }\n"
        "unit fan { airflow 800 cfm; blower 800 cfm at %.4f in.wg; supply 14 in x 12 in; return 18 in x 14 in }\n"
        "run trunk from fan.supply {\n"
        "  transition over 12 in\n straight 12 ft\n transition over 12 in\n straight 20 ft\n"
        "  elbow 90 left, radius 1.0\n transition over 12 in\n straight 20 ft\n}\n"
        "outlet glaze from trunk at 8 ft left { airflow 200 cfm; elbow 90 right, radius 1.0; straight 12 ft; "
        "register 12 in x 6 in }\n"
        "outlet wheel from trunk at 20 ft right { airflow 150 cfm; straight 10 ft; register 10 in x 6 in }\n"
        "outlet kiln from trunk at 30 ft left { airflow 250 cfm; straight 25 ft; register 14 in x 6 in }\n"
        "outlet store from trunk at 50 ft right { airflow 200 cfm; straight 10 ft; flex 9 ft; "
        "register 12 in x 6 in }\n"
        "run back from fan.return { straight 10 ft }\n"
        "inlet hall from back { grille 24 in x 18 in }\n",
        settings, pressure);
}

/* ---- The rate ---------------------------------------------------------------------------------------------------- */

/* Whether the governing path fits when the job declares the rate. */
static bool fits_at(double thousandths, double pressure) {
    char settings[64];
    snprintf(settings, sizeof settings, "friction %.3f in.wg/100ft", thousandths / 1000);
    struct compiled at = pottery(settings, pressure);
    bool fits = compiled_network(&at)->surplus >= 0;
    compiled_free(&at);
    return fits;
}

static void the_rate_fits_and_the_next_one_up_does_not(void **state) {
    (void)state;
    int bounded_above = 0, bounded_below = 0, between = 0;
    for (double pressure = 0.08; pressure < 0.3; pressure += 0.005) {
        struct compiled found = pottery("sizing equal-friction", pressure);
        const struct network *network = compiled_network(&found);
        double thousandths = round(network->friction_rate / PER_100_FT * 1000);
        assert_near(network->friction_rate, thousandths / 1000 * PER_100_FT, 1e-9);
        assert_true(network->rounds >= 1 && network->rounds <= 10);
        if (network->surplus < 0) {
            assert_near(thousandths, 30, 0);
            assert_false(fits_at(30, pressure));
            bounded_below++;
        } else if (thousandths == 100) {
            assert_int_equal(network->rounds, 1);
            bounded_above++;
        } else {
            assert_true(fits_at(thousandths, pressure));
            assert_false(fits_at(thousandths + 1, pressure));
            between++;
        }
        compiled_free(&found);
    }
    /* The pressures reach over all three. */
    assert_true(bounded_above > 0 && bounded_below > 0 && between > 2);
}

static void a_declared_rate_is_taken_in_one_round(void **state) {
    (void)state;
    struct compiled job = pottery("friction 0.06 in.wg/100ft", 0.5);
    const struct network *network = compiled_network(&job);
    assert_near(network->friction_rate, 0.06 * PER_100_FT, 1e-9);
    assert_int_equal(network->rounds, 1);
    compiled_free(&job);
}

static void what_is_found_does_not_depend_on_the_rounds_before(void **state) {
    (void)state;
    struct compiled found = pottery("sizing equal-friction", 0.13);
    char settings[64];
    double rate = compiled_network(&found)->friction_rate / PER_100_FT;
    assert_true(compiled_network(&found)->rounds > 2);
    snprintf(settings, sizeof settings, "friction %.3f in.wg/100ft", rate);
    struct compiled declared = pottery(settings, 0.13);
    const struct network *a = compiled_network(&found), *b = compiled_network(&declared);
    assert_int_equal(a->ducts.count, b->ducts.count);
    for (size_t i = 0; i < a->ducts.count; i++)
        assert_true(size_equal(a->ducts.at[i]->size, b->ducts.at[i]->size));
    compiled_free(&found);
    compiled_free(&declared);
}

/* ---- What holds for every duct ----------------------------------------------------------------------------------- */

/* Fails with the job's text unless the duct keeps to everything it must. */
static void look_at_duct(const struct compiled *job, const struct network *network, const struct duct *duct) {
    const char *wrong = NULL;
    const struct settings *settings = &duct->run->settings;
    struct duct_size size = duct->size;
    if (!duct->fixed && !is_standard(&job->job->shop, size))
        wrong = "not a standard size";
    if (duct->reason == SIZE_UNSET)
        wrong = "no reason";
    if (!duct->fixed && !duct->leg_start && duct->reason != SIZE_LIMITED) {
        double friction = duct->friction_multiplier *
                          air_friction_rate(&job->job->air, duct->flow, air_equivalent_diameter(size), duct->roughness);
        if (network->friction_rate > 0 && duct->reason != SIZE_WALL && friction > network->friction_rate * (1 + 1e-8))
            wrong = "over the friction rate";
        if (duct->flow / size_area(size) > velocity_limit(duct->run) * (1 + 1e-8))
            wrong = "over the velocity limit";
        if (settings->limit_height > 0 && size.height > settings->limit_height + 1e-9)
            wrong = "over the height limit";
        if (settings->limit_width > 0 && size.width > settings->limit_width + 1e-9)
            wrong = "over the width limit";
        if (size.shape != SHAPE_ROUND && size_aspect(size) > job->job->shop.aspect_limit + 1e-9)
            wrong = "over the aspect limit";
    }
    const struct duct *upstream = duct->upstream;
    bool follows = upstream && upstream->run == duct->run && !upstream->fixed && !upstream->leg_start && !duct->fixed;
    if (follows && size_area(size) > size_area(upstream->size) * (1 + 1e-9))
        wrong = "it grows";
    if (wrong)
        fail_msg("%s: a duct of %s, %.2f x %.2f in, in:\n%s", wrong, duct->run->name, size.width / INCH,
                 size.height / INCH, job->text);
}

static void look_at_all(const struct compiled *job) {
    const struct network *network = compiled_network(job);
    for (size_t i = 0; i < network->ducts.count; i++)
        look_at_duct(job, network, network->ducts.at[i]);
}

static void every_duct_keeps_to_its_limits(void **state) {
    (void)state;
    static const char *const settings[] = {
        "",           "limit height 8 in",      "limit width 10 in", "sizing velocity", "shape round",
        "shape oval", "limit velocity 500 fpm", "lining 1 in",       "units metric"};
    for (size_t i = 0; i < sizeof settings / sizeof settings[0]; i++) {
        struct compiled job = pottery(settings[i], 0.3);
        look_at_all(&job);
        compiled_free(&job);
    }
}

/* Marsaglia's xorshift, 64 bit (from memory: Journal of Statistical Software 8, 2003). */
static unsigned roll(uint64_t *seed, unsigned sides) {
    *seed ^= *seed << 13;
    *seed ^= *seed >> 7;
    *seed ^= *seed << 17;
    return (unsigned)((*seed >> 33) % sides);
}

static void write_leg(FILE *out, uint64_t *seed, const char *leg) {
    unsigned taps = 1 + roll(seed, 4), rooms = 0;
    fprintf(out, "run %s from main.%s {\n", leg, leg);
    if (roll(seed, 2))
        fprintf(out, "limit height %u in\n", 6 + roll(seed, 10));
    if (roll(seed, 4) == 0)
        fprintf(out, "limit velocity %u fpm\n", 400 + roll(seed, 600));
    for (unsigned i = 0; i < taps; i++)
        fprintf(out, "transition over 1 ft\nstraight 9 ft\n");
    fprintf(out, "}\n");
    for (unsigned i = 0; i < taps; i++, rooms++)
        fprintf(out, "outlet %s_%u from %s at %u ft %s { airflow %u cfm; %s %u ft; register 12 x 12 }\n", leg, rooms,
                leg, 10 * i + 5, i % 2 ? "right" : "left", 50 + roll(seed, 250), roll(seed, 2) ? "flex" : "straight",
                3 + roll(seed, 9));
}

static char *random_job(uint64_t *seed) {
    char *text = NULL;
    size_t length = 0;
    FILE *out = open_memstream(&text, &length);
    assert_non_null(out);
    fprintf(out, "job \"Random\" { %s }\n", roll(seed, 4) ? "sizing equal-friction" : "sizing velocity");
    fprintf(out, "unit fan { blower 10 cfm at 1 in.wg, 3000 cfm at 0.%u in.wg; supply 24 x 16; return 30 x 24 }\n",
            20 + roll(seed, 70));
    fprintf(out, "run main from fan.supply { straight %u ft; split wye over 2 ft }\n", 1 + roll(seed, 9));
    write_leg(out, seed, "left");
    write_leg(out, seed, "right");
    fprintf(out, "run back from fan.return { straight 8 ft }\ninlet hall from back { grille 48 x 36 }\n");
    fclose(out);
    return text;
}

static void random_jobs_keep_to_their_limits(void **state) {
    (void)state;
    uint64_t seed = 20260418;
    for (int i = 0; i < 3000; i++) {
        char *text = random_job(&seed);
        struct compiled job = compiled_until("size", "%s", text);
        look_at_all(&job);
        compiled_free(&job);
        free(text);
    }
}

/* ---- What is dictated -------------------------------------------------------------------------------------------- */

static void declared_sizes_and_collars_are_kept(void **state) {
    (void)state;
    struct compiled job =
        compiled_until("size", "job \"Kept\" {\n}\n"
                               "unit fan { blower 300 cfm at 0.5 in.wg; supply 10 x 10; return 12 x 12 }\n"
                               "run trunk from fan.supply { straight 10 ft; transition to 16 x 8 over 1 ft; "
                               "straight 10 ft }\n"
                               "outlet kiln from trunk at 15 ft left { airflow 300 cfm; size 9; straight 4 ft; "
                               "register 12 x 8 }\n"
                               "inlet hall from fan.return { straight 4 ft; grille 20 x 20 }\n");
    const struct duct *first = compiled_run(&job, "trunk")->first_duct;
    const struct duct *second = compiled_run(&job, "trunk")->last_section->duct;
    const struct duct *kiln = compiled_run(&job, "kiln")->first_duct;
    assert_int_equal(first->reason, SIZE_COLLAR);
    assert_near(first->size.width / INCH, 10, 1e-9);
    assert_int_equal(second->reason, SIZE_DECLARED);
    assert_near(second->size.width / INCH, 16, 1e-9);
    assert_near(second->size.height / INCH, 8, 1e-9);
    assert_int_equal(kiln->reason, SIZE_DECLARED);
    assert_near(kiln->size.width / INCH, 9, 1e-9);
    compiled_free(&job);
}

/* 18 x 14 in, 810 cfm to the left and 390 to the right: 12.15 and 5.85 in of the width, of which 12 and 6 are the
 * nearest. */
static void a_leg_starts_with_its_share_of_the_split(void **state) {
    (void)state;
    struct compiled job = compiled_until(
        "size", "job \"Legs\" {\n}\n"
                "unit fan { blower 1200 cfm at 0.5 in.wg; supply 18 x 14; return 30 x 14 }\n"
                "run main from fan.supply { straight 2 ft; split wye over 2 ft }\n"
                "run left from main.left { limit height 10 in; transition over 18 in; straight 10 ft }\n"
                "run right from main.right { transition over 18 in; straight 10 ft }\n"
                "outlet a from left { airflow 810 cfm; register 20 x 14 }\noutlet b from right { airflow 390 "
                "cfm; register 12 x 8 }\n"
                "inlet hall from fan.return { straight 4 ft; grille 36 x 30 }\n");
    const struct duct *left = compiled_run(&job, "left")->first_duct, *right = compiled_run(&job, "right")->first_duct;
    assert_true(left->leg_start && right->leg_start);
    assert_int_equal(left->reason, SIZE_SPLIT);
    assert_near(left->size.width / INCH, 12, 1e-9);
    assert_near(left->size.height / INCH, 14, 1e-9);
    assert_near(right->size.width / INCH, 6, 1e-9);
    assert_true(compiled_run(&job, "left")->last_section->duct->size.height <= 10 * INCH + 1e-9);
    compiled_free(&job);
}

/* ---- By velocity ------------------------------------------------------------------------------------------------- */

/* 1200 cfm at 700 fpm: 246.9 in2.  With the collar's height of 14 kept: 18 x 14 = 252.  300 cfm at 600 fpm: 72
 * in2, 9.57 in across, 10 round. */
static void the_velocity_method_gives_the_sizes_worked_by_hand(void **state) {
    (void)state;
    struct compiled job = compiled_until(
        "size", "job \"Three tons\" { sizing velocity }\n"
                "unit fan { cooling 3 ton; blower 1200 cfm at 0.5 in.wg; supply 20 x 14; return 30 x 14 }\n"
                "run trunk from fan.supply { transition over 1 ft; straight 40 ft }\n"
                "outlet a from trunk at 10 ft left { airflow 300 cfm; straight 5 ft; register 12 x 8 }\n"
                "outlet b from trunk at 20 ft left { airflow 300 cfm; straight 5 ft; register 12 x 8 }\n"
                "outlet c from trunk at 30 ft left { airflow 300 cfm; straight 5 ft; register 12 x 8 }\n"
                "outlet d from trunk at 40 ft left { airflow 300 cfm; straight 5 ft; register 12 x 8 }\n"
                "inlet hall from fan.return { straight 4 ft; grille 36 x 30 }\n");
    const struct duct *trunk = compiled_run(&job, "trunk")->last_section->duct;
    const struct duct *branch = compiled_run(&job, "c")->first_duct;
    assert_near(trunk->size.width / INCH, 18, 1e-9);
    assert_near(trunk->size.height / INCH, 14, 1e-9);
    assert_int_equal(trunk->reason, SIZE_HEIGHT_KEPT);
    assert_int_equal(branch->size.shape, SHAPE_ROUND);
    assert_near(branch->size.width / INCH, 10, 1e-9);
    assert_string_equal(job.job->sizing_used, "velocity");
    assert_near(compiled_network(&job)->friction_rate, 0, 0);
    compiled_free(&job);
}

static void an_unknown_method_is_an_error_with_the_nearest_name(void **state) {
    (void)state;
    struct compiled job = pottery("sizing equal-frictoin", 0.5);
    const struct diagnostic *said = compiled_said(&job, "sizing", NULL, 0);
    assert_non_null(said);
    assert_int_equal(said->level, DIAGNOSTIC_ERROR);
    assert_non_null(said->hint);
    assert_non_null(strstr(said->hint, "equal-friction"));
    assert_null(compiled_said(&job, "sizing", NULL, 1));
    compiled_free(&job);
}

static void every_method_has_its_words(void **state) {
    (void)state;
    size_t count;
    const struct sizing_method *const *methods = sizing_methods(&count);
    assert_true(count >= 2);
    assert_string_equal(methods[0]->name, "equal-friction");
    for (size_t i = 0; i < count; i++)
        assert_true(methods[i]->words && methods[i]->size && strlen(methods[i]->words) > 20);
}

/* ---- When nothing fits ------------------------------------------------------------------------------------------- */

/* 1200 cfm in a trunk: over 900 fpm in anything of less than 192 in2; 6 in high allows 24 x 6 = 144 in2. */
static void a_limit_that_leaves_no_size_is_an_error_that_names_it(void **state) {
    (void)state;
    struct compiled job = compiled_until(
        "size",
        "job \"Tight\" {\n}\n"
        "unit fan { blower 1200 cfm at 0.9 in.wg; supply 18 x 14; return 30 x 14 }\n"
        "run trunk from fan.supply { limit height 6 in; transition over 1 ft; straight 20 ft; transition over 1 ft; "
        "straight 4 ft }\n"
        "outlet a from trunk at 24 ft left { airflow 1200 cfm; straight 5 ft; register 24 x 20 }\n"
        "inlet hall from fan.return { straight 4 ft; grille 36 x 30 }\n");
    const struct diagnostic *said = compiled_said(&job, "size", "trunk", 0);
    assert_non_null(said);
    assert_int_equal(said->level, DIAGNOSTIC_ERROR);
    assert_non_null(strstr(said->message, "the height limit of 6 in"));
    assert_non_null(strstr(said->message, "24 x 6 in"));
    assert_non_null(said->hint);
    assert_non_null(strstr(said->hint, "limit height"));
    assert_null(compiled_said(&job, "size", "trunk", 1));
    assert_int_equal(compiled_run(&job, "trunk")->last_section->duct->reason, SIZE_LIMITED);
    compiled_free(&job);
}

/* 1200 cfm under 900 fpm needs 192 in2; at 4 to 1 the least height with that is 8 in. */
static void the_hint_is_the_least_limit_that_would_do(void **state) {
    (void)state;
    const char *text = "job \"Tight\" { friction 0.15 in.wg/100ft }\n"
                       "unit fan { blower 1200 cfm at 0.9 in.wg; supply 18 x 14; return 30 x 14 }\n"
                       "run trunk from fan.supply { limit height %d in; transition over 1 ft; straight 20 ft }\n"
                       "outlet a from trunk { airflow 1200 cfm; size 20 x 14; register 24 x 20 }\n"
                       "inlet hall from fan.return { straight 4 ft; grille 36 x 30 }\n";
    struct compiled tight = compiled_text(text, 4), eased = compiled_text(text, 8);
    const struct diagnostic *said = compiled_said(&tight, "size", "trunk", 0);
    assert_non_null(said);
    assert_string_equal(said->hint, "limit height 8 in");
    assert_int_equal(said->related.count, 1);
    /* Said once: neither the velocity nor the friction of that duct is warned about besides. */
    assert_null(compiled_said(&tight, "velocity", "trunk", 0));
    assert_null(compiled_said(&tight, "friction", "trunk", 0));
    assert_null(compiled_said(&eased, "size", NULL, 0));
    compiled_free(&tight);
    compiled_free(&eased);
}

/* The long branch brings the rate down to where the low trunk would have to be 22 x 8; as 24 x 6 it is still under 0.10
 * in. w.g. per 100 ft and 900 fpm, and the path is inside its budget. */
static void a_duct_that_is_tight_but_bearable_is_a_warning(void **state) {
    (void)state;
    struct compiled job =
        compiled_text("job \"Low\" {\n}\n"
                      "unit fan { blower 700 cfm at 0.18 in.wg; supply 24 x 10; return 30 x 14 }\n"
                      "run trunk from fan.supply { limit height 6 in; transition over 1 ft; straight 20 ft }\n"
                      "outlet a from trunk at 20 ft top { airflow 700 cfm; straight 100 ft; register 24 x 20 }\n"
                      "inlet hall from fan.return { straight 4 ft; grille 36 x 30 }\n"
                      "accept size on trunk because \"the beam stays\"\n");
    const struct diagnostic *said = compiled_said(&job, "size", "trunk", 0);
    const struct network *network = compiled_network(&job);
    assert_true(network->surplus >= 0 && network->friction_rate < friction_grid(FRICTION_GRID_HIGH));
    assert_non_null(said);
    assert_int_equal(said->level, DIAGNOSTIC_WARNING);
    assert_non_null(said->accepted_because);
    assert_int_equal(job.job->diagnostics->error_count, 0);
    compiled_free(&job);
}

static void a_limit_under_the_smallest_size_is_an_error(void **state) {
    (void)state;
    struct compiled job =
        compiled_until("size", "job \"Slot\" {\n}\n"
                               "unit fan { blower 20 cfm at 0.5 in.wg; supply 8 x 8; return 8 x 8 }\n"
                               "run trunk from fan.supply { limit height 3 in; transition over 1 ft; straight 9 ft }\n"
                               "outlet a from trunk { airflow 20 cfm; size 4; register 8 x 4 }\n"
                               "inlet hall from fan.return { straight 4 ft; grille 12 x 12 }\n");
    const struct diagnostic *said = compiled_said(&job, "size", "trunk", 0);
    assert_non_null(said);
    assert_int_equal(said->level, DIAGNOSTIC_ERROR);
    assert_non_null(strstr(said->message, "no standard side is 3 in or less"));
    compiled_free(&job);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_rate_fits_and_the_next_one_up_does_not),
        cmocka_unit_test(a_declared_rate_is_taken_in_one_round),
        cmocka_unit_test(what_is_found_does_not_depend_on_the_rounds_before),
        cmocka_unit_test(every_duct_keeps_to_its_limits),
        cmocka_unit_test(random_jobs_keep_to_their_limits),
        cmocka_unit_test(declared_sizes_and_collars_are_kept),
        cmocka_unit_test(a_leg_starts_with_its_share_of_the_split),
        cmocka_unit_test(the_velocity_method_gives_the_sizes_worked_by_hand),
        cmocka_unit_test(an_unknown_method_is_an_error_with_the_nearest_name),
        cmocka_unit_test(every_method_has_its_words),
        cmocka_unit_test(a_limit_that_leaves_no_size_is_an_error_that_names_it),
        cmocka_unit_test(the_hint_is_the_least_limit_that_would_do),
        cmocka_unit_test(a_duct_that_is_tight_but_bearable_is_a_warning),
        cmocka_unit_test(a_limit_under_the_smallest_size_is_an_error),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
