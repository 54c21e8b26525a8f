/* Condensation and insulation: silent at the limit, told just beyond it, once for what hangs together. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "air/heat.h"
#include "base/constant.h"
#include "check/check.h"
#include "compiled.h"
#include "near.h"

static struct compiled crawl(const char *insulation, const char *place) {
    return compiled_text("job \"t\" { %s; place %s }\n"
                         "unit fan { blower 200 cfm at 2 in.wg; leaves 55 F; room 75 F }\n"
                         "run trunk from fan.supply { shape round; size 8; straight 10 ft }\n"
                         "outlet far from trunk { airflow 200 cfm; straight 4 ft; register 8 x 6 }\n"
                         "run back from fan.return { size 12 x 12; straight 4 ft }\n"
                         "inlet hall from back { grille 12 x 12 }\n",
                         insulation, place);
}

/* Bare: the surface is 80 - (80 - 55) 0.68 / 0.85 = 60 F. */
static void water_gathers_under_the_dew_point(void **state) {
    (void)state;
    struct compiled dry = crawl("insulation R-0", "crawl 80 F, dew-point 59.9 F, minimum R-0");
    struct compiled wet = crawl("insulation R-0", "crawl 80 F, dew-point 60.1 F, minimum R-0");
    assert_null(compiled_said(&dry, "condensation", NULL, 0));
    const struct diagnostic *said = compiled_said(&wet, "condensation", "trunk", 0);
    assert_non_null(said);
    assert_non_null(strstr(said->message, "comes down to 60 F in the crawl space, under the dew point there, 60.1 F"));
    assert_null(compiled_said(&wet, "condensation", NULL, 1)); /* what hangs from it is no colder */
    compiled_free(&dry);
    compiled_free(&wet);
}

/* A humidity of 49.5 % at 80 F has a dew point of 59.5 F, one of 51 % 60.3 F. */
static void humidity_tells_the_dew_point(void **state) {
    (void)state;
    struct compiled dry = crawl("insulation R-0", "crawl 80 F, humidity 49.5 %, minimum R-0");
    struct compiled wet = crawl("insulation R-0", "crawl 80 F, humidity 51 %, minimum R-0");
    assert_null(compiled_said(&dry, "condensation", NULL, 0));
    assert_non_null(compiled_said(&wet, "condensation", "trunk", 0));
    compiled_free(&dry);
    compiled_free(&wet);
}

/* The R-value of the hint, and one less. */
static void the_insulation_of_the_hint_keeps_it_dry_and_no_less(void **state) {
    (void)state;
    for (int humidity = 60; humidity <= 95; humidity += 5) {
        char place[80], value[40];
        snprintf(place, sizeof place, "crawl 80 F, humidity %d %%, minimum R-0", humidity);
        struct compiled wet = crawl("insulation R-0", place);
        const struct diagnostic *said = compiled_said(&wet, "condensation", "trunk", 0);
        int needed = 0;
        assert_non_null(said);
        assert_int_equal(sscanf(said->hint, "R-%d", &needed), 1);
        snprintf(value, sizeof value, "insulation R-%d", needed);
        struct compiled dry = crawl(value, place);
        assert_null(compiled_said(&dry, "condensation", NULL, 0));
        snprintf(value, sizeof value, "insulation R-%d", needed - 1);
        struct compiled less = crawl(value, place);
        assert_non_null(compiled_said(&less, "condensation", "trunk", 0));
        compiled_free(&wet);
        compiled_free(&dry);
        compiled_free(&less);
    }
}

/* Without a humidity nothing is looked at, and nothing is said. */
static void without_a_humidity_nothing_is_checked(void **state) {
    (void)state;
    struct compiled job = crawl("insulation R-0", "crawl 80 F, minimum R-0");
    for (size_t i = 0; i < job.job->checks.count; i++)
        if (strcmp(job.job->checks.at[i].name, "condensation") == 0)
            assert_int_equal(job.job->checks.at[i].looked_at, 0);
    assert_null(compiled_said(&job, "condensation", NULL, 0));
    compiled_free(&job);
}

static void insulation_is_held_against_the_place(void **state) {
    (void)state;
    static const struct {
        const char *insulation, *place;
        bool warns;
    } cases[] = {
        {"insulation R-8", "attic", false},
        {"insulation R-6", "attic", true},
        {"insulation R-6", "crawl", false},
        {"insulation R-4.2", "crawl", true},
        {"insulation R-0", "basement", false},
        {"insulation R-0", "conditioned", false},
        {"insulation R-6", "attic 120 F, minimum R-6", false},
        {"insulation R-6", "basement, minimum R-8", true},
        {"insulation 1.06 m2K/W", "crawl", false},
    };
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        struct compiled job = crawl(cases[i].insulation, cases[i].place);
        bool warned = compiled_said(&job, "insulation", "trunk", 0) != NULL;
        if (warned != cases[i].warns)
            fail_msg("%s in %s: %d", cases[i].insulation, cases[i].place, warned);
        assert_null(compiled_said(&job, "insulation", "far", 0)); /* the trunk's warning stands for it */
        compiled_free(&job);
    }
}

/* What cannot be is an error. */
static void moist_air_that_cannot_be_is_refused(void **state) {
    (void)state;
    struct compiled both = crawl("insulation R-8", "crawl 60 F, humidity 50 %, dew-point 41 F");
    struct compiled over = crawl("insulation R-8", "crawl 60 F, dew-point 61 F"),
                    much = crawl("insulation R-8", "crawl 60 F, humidity 120 %");
    assert_non_null(compiled_said(&both, "value", NULL, 0));
    assert_non_null(compiled_said(&over, "value", NULL, 0));
    assert_non_null(compiled_said(&much, "value", NULL, 0));
    compiled_free(&both);
    compiled_free(&over);
    compiled_free(&much);
}

static void seasons_may_stand_on_one_line_or_two_but_once(void **state) {
    (void)state;
    struct compiled job =
        compiled_text("job \"t\"\nunit fan { leaves heating 105 F; leaves 55 F; room 75 F, heating 70 F }\n");
    const struct air_unit *unit = job.job->units.at[0];
    assert_near(heat_leaves(unit, HEAT_WINTER), (105 + 459.67) / 1.8, 1e-9);
    assert_near(heat_leaves(unit, HEAT_SUMMER), (55 + 459.67) / 1.8, 1e-9);
    assert_near(heat_room(unit, HEAT_WINTER), (70 + 459.67) / 1.8, 1e-9);
    assert_null(compiled_said(&job, "repeat", NULL, 0));
    struct compiled twice = compiled_text("job \"t\"\nunit fan { leaves 55 F; leaves 56 F; room }\n");
    assert_non_null(compiled_said(&twice, "repeat", NULL, 0));
    assert_non_null(compiled_said(&twice, "value", NULL, 0));
    compiled_free(&job);
    compiled_free(&twice);
}

/* Every check tells its limit. */
static void every_check_has_a_limit_in_words(void **state) {
    (void)state;
    struct arena *arena = arena_new(NULL);
    size_t count;
    const struct check *all = checks(&count);
    for (size_t i = 0; i < count; i++) {
        assert_true((all[i].limit != NULL) != (all[i].figures != NULL));
        assert_true(strlen(check_limit(&all[i], arena)) > 5);
    }
    arena_free(arena);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(water_gathers_under_the_dew_point),
        cmocka_unit_test(humidity_tells_the_dew_point),
        cmocka_unit_test(the_insulation_of_the_hint_keeps_it_dry_and_no_less),
        cmocka_unit_test(without_a_humidity_nothing_is_checked),
        cmocka_unit_test(insulation_is_held_against_the_place),
        cmocka_unit_test(moist_air_that_cannot_be_is_refused),
        cmocka_unit_test(seasons_may_stand_on_one_line_or_two_but_once),
        cmocka_unit_test(every_check_has_a_limit_in_words),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
