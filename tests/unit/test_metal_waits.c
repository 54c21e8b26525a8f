/* What waits for an estimate: of one job with one figure at a time only about, then with several at once. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "compiled.h"
#include "metal/waits.h"
#include "model/estimate.h"

/* In each line one figure can be an estimate: what stands there for it is a %s. */
enum { BACK, TRUNK_DUCT, CHANGE, TAP, AIRFLOW_B, STRAIGHT_B, TURN, SIZE_C, AIRFLOW_D, DROP, FACE, FLEX, FIGURES };

static const char *const text = "job \"t\" { place basement 70 F, winter 62 F }\n"
                                "unit fan { blower 1400 cfm at 0.42 in.wg, 1200 cfm at 0.58 in.wg\n"
                                "    drop \"coil\" %s0.10 in.wg at 1200 cfm\n"
                                "    supply 20 x 14; return 20 x 18 }\n"
                                "run trunk from fan.supply { straight %s10 ft; straight 14 ft\n"
                                "    transition to %s14 x 12 over 18 in; straight 12 ft; cap }\n"
                                "outlet a from trunk at 6 ft left { airflow 300 cfm; flex %s8 ft; boot\n"
                                "    register %s14 x 8 }\n"
                                "outlet b from trunk at %s14 ft right { airflow %s300 cfm; size 9; straight %s6 ft\n"
                                "    elbow %s90 left; straight 5 ft; boot; register 14 x 8 }\n"
                                "outlet c from trunk at 20 ft left { airflow 300 cfm; size %s9; straight 8 ft; boot\n"
                                "    register 14 x 8 }\n"
                                "outlet d from trunk at 32 ft right { airflow %s300 cfm; flex 8 ft; boot\n"
                                "    register 14 x 8 }\n"
                                "run back from fan.return { straight %s5 ft }\n"
                                "inlet hall from back { grille 24 x 24 }\n";

static struct compiled with_abouts(const bool *about) {
    const char *words[FIGURES];
    for (int i = 0; i < FIGURES; i++)
        words[i] = about[i] ? "about " : "";
    return compiled_text(text, words[DROP], words[TRUNK_DUCT], words[CHANGE], words[FLEX], words[FACE], words[TAP],
                         words[AIRFLOW_B], words[STRAIGHT_B], words[TURN], words[SIZE_C], words[AIRFLOW_D],
                         words[BACK]);
}

/* Which uses a figure lets wait, by run and from where to where along it; an opening by the station in it. */
struct awaited {
    const char *whole;  /* "trunk, b" */
    const char *run;    /* of the parts; NULL: none */
    double from, to;    /* ft: the parts that begin there or between */
    double openings[2]; /* ft along the trunk */
};

static const struct awaited awaited[FIGURES] = {
    [BACK] = {"", "back", 2.5, 4.9, {0}},   [TRUNK_DUCT] = {"", "trunk", 7, 9.9, {0}},
    [CHANGE] = {"", "trunk", 24, 40, {0}}, /* and the duct behind it to the end */
    [TAP] = {"", NULL, 0, 0, {14}},         [AIRFLOW_B] = {"b", NULL, 0, 0, {14}},
    [STRAIGHT_B] = {"", "b", 4, 5.9, {0}},  [TURN] = {"", "b", 6, 6, {0}},
    [SIZE_C] = {"c", NULL, 0, 0, {20}},     [AIRFLOW_D] = {"d", NULL, 0, 0, {32}},
    [DROP] = {"a, d", NULL, 0, 0, {6, 32}}, [FACE] = {"", "a", 8, 8, {0}},
    [FLEX] = {"", NULL, 0, 0, {0}},
};

static bool is_named(const char *list, const char *name) {
    const char *at = strstr(list, name);
    return at && (at == list || at[-1] == ' ') && (at[strlen(name)] == 0 || at[strlen(name)] == ',');
}

static bool is_opening(const struct part_use *use, const double *openings) {
    for (int i = 0; i < 2; i++)
        if (openings[i] > 0 && strcmp(use->run->name, "trunk") == 0 && use->station < openings[i] * FOOT &&
            use->station + use->length > openings[i] * FOOT)
            return true;
    return false;
}

static bool waits_for(const struct part_use *use, int figure) {
    const struct awaited *wanted = &awaited[figure];
    bool turn = use->piece->kind->form.word[0] == 'e';
    if (is_named(wanted->whole, use->run->name) || is_opening(use, wanted->openings))
        return true;
    return wanted->run && strcmp(use->run->name, wanted->run) == 0 && use->station > (wanted->from - 1e-6) * FOOT &&
           use->station < (wanted->to + 1e-6) * FOOT && (figure != TURN || turn);
}

static bool is_in(const size_t *numbers, size_t count, size_t number) {
    for (size_t i = 0; i < count; i++)
        if (numbers[i] == number)
            return true;
    return false;
}

/* Of a job with these estimates: what is marked, and what the one of them in the order of the file tells. */
static void expect(const bool *about) {
    struct compiled job = with_abouts(about);
    const struct metal *metal = job.job->metal;
    assert_non_null(metal);
    for (size_t i = 0; i < metal->pieces; i++) {
        bool waits = false;
        for (int figure = 0; figure < FIGURES; figure++)
            waits |= about[figure] && waits_for(metal->hung[i].use, figure);
        if (metal->hung[i].use->about != waits)
            fail_msg("%s at %g ft in %s", metal->hung[i].part->title, metal->hung[i].use->station / FOOT,
                     metal->hung[i].use->run->name);
    }
    compiled_free(&job);
}

static void tells_its_own(int figure) {
    bool all[FIGURES] = {0}, alone[FIGURES] = {0};
    size_t index = 0;
    static const int in_file[FIGURES] = {DROP,      TRUNK_DUCT, CHANGE, FLEX,   FACE,      TAP,
                                         AIRFLOW_B, STRAIGHT_B, TURN,   SIZE_C, AIRFLOW_D, BACK};
    for (int i = 0; i < FIGURES; i++)
        all[i] = true;
    while (in_file[index] != figure)
        index++;
    alone[figure] = true;
    expect(alone);
    struct compiled job = with_abouts(all);
    const struct metal *metal = job.job->metal;
    assert_int_equal(job.job->estimates.count, FIGURES);
    const struct waits *waits = job.job->estimates.at[index]->waits;
    assert_true(waits->made);
    for (size_t i = 0; i < metal->pieces; i++) {
        const struct part_use *use = metal->hung[i].use;
        size_t number = metal->hung[i].part->number;
        if (waits_for(use, figure) && !is_named(awaited[figure].whole, use->run->name) &&
            !is_in(waits->parts.at, waits->parts.count, number) &&
            !is_in(waits->openings.at, waits->openings.count, number))
            fail_msg("figure %d does not tell part %zu", figure, number);
    }
    size_t parts = 0;
    for (size_t p = 0; p < metal->parts.count; p++) {
        bool its = false;
        for (size_t u = 0; u < metal->parts.at[p]->uses.count; u++)
            its |= waits_for(&metal->parts.at[p]->uses.at[u], figure) &&
                   !is_named(awaited[figure].whole, metal->parts.at[p]->uses.at[u].run->name);
        parts += its;
    }
    assert_int_equal(waits->parts.count + waits->openings.count, parts);
    for (size_t i = 0; i < waits->whole.count; i++)
        assert_true(is_named(awaited[figure].whole, waits->whole.at[i]->name));
    assert_int_equal(waits->whole.count,
                     (awaited[figure].whole[0] != 0) + (strchr(awaited[figure].whole, ',') != NULL));
    compiled_free(&job);
}

static void each_tells_its_own_parts(void **state) {
    (void)state;
    for (int figure = 0; figure < FIGURES; figure++)
        tells_its_own(figure);
}

static void several_let_the_parts_of_all_wait(void **state) {
    (void)state;
    bool about[FIGURES] = {0};
    expect(about);
    for (int i = 0; i < FIGURES; i++) {
        about[i] = true;
        expect(about);
    }
}

/* Nothing is made of an alternate; a run of its that is called like one of the job does not tell that one's parts. */
static void an_alternate_waits_for_itself(void **state) {
    (void)state;
    struct compiled job = compiled_text(
        "job \"t\" {}\nunit fan { airflow 400 cfm; blower 460 cfm at 0.2 in.wg, 400 cfm at 0.4 in.wg; supply 12 x 8\n"
        "    return 20 x 14 }\nrun trunk from fan.supply { straight 12 ft; cap }\n"
        "outlet one from trunk at 6 ft left { airflow 400 cfm; straight 6 ft; boot; register 12 x 6 }\n"
        "run back from fan.return { straight 4 ft }\ninlet hall from back { grille 20 x 14 }\n"
        "alternate A \"longer\" { without one\n"
        "    outlet one from trunk at 6 ft left { airflow 400 cfm; straight about 9 ft; boot; register 12 x 6 } }\n");
    assert_int_equal(job.job->estimates.count, 1);
    assert_false(job.job->estimates.at[0]->waits->made);
    for (size_t i = 0; i < job.job->metal->pieces; i++)
        assert_false(job.job->metal->hung[i].use->about);
    compiled_free(&job);
}

/* A trunk whose size the tool finds waits for the airflow of what hangs from it, and then no opening in it is told. */
static void a_trunk_waits_for_an_airflow_that_sizes_it(void **state) {
    (void)state;
    struct compiled job = compiled_text(
        "job \"t\" {}\nunit fan { airflow 400 cfm; blower 460 cfm at 0.2 in.wg, 400 cfm at 0.4 in.wg; supply 12 x 8\n"
        "    return 20 x 14 }\nrun trunk from fan.supply { straight 3 ft; transition over 18 in; straight 12 ft; cap "
        "}\n"
        "outlet one from trunk at 9 ft left { airflow about 400 cfm; straight 6 ft; boot; register 12 x 6 }\n"
        "run back from fan.return { straight 4 ft }\ninlet hall from back { grille 20 x 14 }\n");
    const struct waits *waits = job.job->estimates.at[0]->waits;
    assert_int_equal(waits->whole.count, 2);
    assert_string_equal(waits->whole.at[0]->name, "trunk");
    assert_string_equal(waits->whole.at[1]->name, "one");
    assert_int_equal(waits->parts.count + waits->openings.count, 0);
    for (size_t i = 0; i < job.job->metal->pieces; i++)
        assert_int_equal(job.job->metal->hung[i].use->about, job.job->metal->hung[i].use->run->supply);
    compiled_free(&job);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(each_tells_its_own_parts),
        cmocka_unit_test(several_let_the_parts_of_all_wait),
        cmocka_unit_test(a_trunk_waits_for_an_airflow_that_sizes_it),
        cmocka_unit_test(an_alternate_waits_for_itself),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
