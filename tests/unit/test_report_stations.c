/* What curves and openings of a blank are set out by. */
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <setjmp.h>
#include <cmocka.h>

#include "base/constant.h"
#include "compiled.h"
#include "near.h"
#include "report/figure_stations.h"
#include "report/figures.h"

static struct compiled trunk(const char *trunk, const char *hung) {
    return compiled_text(
        "job \"Stations\"\n"
        "unit fan { blower 300 cfm at 0.9 in.wg; supply 20 x 16; return 20 x 14 }\n"
        "inlet hall from fan.return { straight 4 ft; grille 30 x 20 }\n"
        "run trunk from fan.supply { %s }\n"
        "outlet desk from trunk at 4 ft left { airflow 300 cfm; %s; straight 2 ft; register 30 x 10 }\n",
        trunk, hung);
}

static void has_no_errors(const struct compiled *job) {
    if (job->job->diagnostics->error_count)
        cleat_print_diagnostics(job->cleat, stderr, false, false);
    assert_int_equal(job->job->diagnostics->error_count, 0);
}

static const struct part *part_of(const struct compiled *job, const char *begins) {
    has_no_errors(job);
    for (size_t i = 0; i < job->job->metal->parts.count; i++)
        if (strncmp(job->job->metal->parts.at[i]->title, begins, strlen(begins)) == 0)
            return job->job->metal->parts.at[i];
    fail_msg("there is no %s", begins);
    return NULL;
}

static size_t numbers_of(const station_list *stations) {
    size_t most = 0;
    for (size_t i = 0; i < stations->count; i++)
        most = stations->at[i].number > most ? stations->at[i].number : most;
    return most;
}

static void curve_is_near(const struct compiled *job, const struct blank *blank, const struct part *part, double most) {
    station_list stations = {0};
    struct arena *arena = job->job->arena;
    find_stations(arena, part->solid, blank, job->job->shop.stations, &stations);
    if (numbers_of(&stations) == 0)
        return;
    double off = stations_error(blank, &stations);
    if (off > most)
        fail_msg("%s %s: joined by straight lines its stations are off by %.3f in", part->title, blank->name,
                 off / INCH);
}

/* A full turn and its first point once more. */
static void a_cone_on_a_round_wall_has_the_stations_of_the_shop(void **state) {
    (void)state;
    struct compiled job = trunk("size 16 in round; transition to 16 in round over 1 ft; straight 8 ft; cap",
                                "tap conical; size 8 in round");
    const struct part *tap = part_of(&job, "Tap, conical");
    station_list stations = {0};
    find_stations(job.job->arena, tap->solid, &tap->blanks.at[0], 16, &stations);
    assert_true(numbers_of(&stations) >= 16);
    stations.count = 0;
    find_stations(job.job->arena, tap->solid, &tap->blanks.at[0], 32, &stations);
    assert_true(numbers_of(&stations) >= 30);
    compiled_free(&job);
}

/* By hand: two stations of a half round of 8 in leave it half a diameter off. */
static void their_error_is_that_of_the_chords(void **state) {
    (void)state;
    enum { POINTS = 65 };
    struct flat points[POINTS];
    for (int i = 0; i < POINTS; i++)
        points[i] = (struct flat){-cos(PI * i / (POINTS - 1)), sin(PI * i / (POINTS - 1))};
    struct blank_edge edge = {.shape = EDGE_CURVE, .count = POINTS, .points = points};
    struct blank blank = {.edges = {.at = &edge, .count = 1}};
    struct station at[] = {{.number = 1, .from = {.edge = &edge, .net = points[0]}},
                           {.number = 2, .from = {.edge = &edge, .net = points[POINTS - 1]}},
                           {.number = 3, .from = {.edge = &edge, .net = points[POINTS / 2]}}};
    station_list two = {.at = at, .count = 2}, three = {.at = at, .count = 3};
    assert_near(stations_error(&blank, &two), 1, 1e-9);
    assert_near(stations_error(&blank, &three), 1 - sqrt(0.5), 1e-3);
}

/* The shapes with curved edges that a job can ask for, at the shop's usual sixteen: the tolerance is a sixty-fourth of
 * a full turn's rise, 3/16 in for ducts of this size, and the drawing says so where it is over 1/64 in. */
static void joined_stations_are_near_the_curve(void **state) {
    (void)state;
    static const struct {
        const char *trunk, *hung;
    } jobs[] = {
        {"size 16 in round; transition to 16 in round over 1 ft; straight 8 ft; cap", "tap conical; size 8 in round"},
        {"size 16 in round; transition to 16 in round over 1 ft; straight 8 ft; cap", "tap saddle; size 10 in round"},
        {"size 16 in round; transition to 16 in round over 1 ft; straight 8 ft; cap", "size 10 in round"},
        {"size 16 in round; elbow 90 left; straight 8 ft; cap", "size 8 in round"},
        {"size 20 x 16; straight 6 ft; transition to 12 in round over 18 in; straight 8 ft; cap", "size 8 x 6"},
        {"size 20 x 16; straight 6 ft; transition to 20 x 8 oval over 18 in; straight 2 ft; cap",
         "tap shoe; size 8 in round"},
    };
    for (size_t i = 0; i < sizeof jobs / sizeof jobs[0]; i++) {
        struct compiled job = trunk(jobs[i].trunk, jobs[i].hung);
        has_no_errors(&job);
        for (size_t p = 0; p < job.job->metal->parts.count; p++)
            for (size_t b = 0; b < job.job->metal->parts.at[p]->blanks.count; b++)
                curve_is_near(&job, &job.job->metal->parts.at[p]->blanks.at[b], job.job->metal->parts.at[p],
                              3.0 / 16 * INCH);
        compiled_free(&job);
    }
}

static const struct blank *opened(const struct part *part) {
    for (size_t b = 0; b < part->blanks.count; b++)
        if (part->blanks.at[b].openings.count)
            return &part->blanks.at[b];
    fail_msg("%s has no opening", part->title);
    return NULL;
}

/* A shoe for an 8 in round run: 4 in more along the trunk, 8 across it, in the middle of 16. */
static void a_rectangle_is_told_by_its_sides(void **state) {
    (void)state;
    struct compiled job = trunk("size 20 x 16; straight 8 ft; cap", "tap shoe; size 8 in round");
    const struct blank *blank = opened(part_of(&job, "Straight joint, 20 x 16 in, 59 in long, 1 opening"));
    const char *words = opening_words(job.job->arena, job.job->system, blank, &blank->openings.at[0]);
    assert_non_null(strstr(words, "opening 12 x 8 in, its centre "));
    assert_null(strstr(words, "curve"));
    compiled_free(&job);
}

/* A straight-sided change from 16 to 20 in: each end is measured on its own side of the sheet, 2-1/4 in from the left
 * below (2 in narrower and the seam's 1/4), nothing of it above. */
static void what_is_measured_is_at_hand(void **state) {
    (void)state;
    struct compiled job =
        trunk("size 16 x 12; straight 8 ft; transition to 20 x 16 over 8 in; straight 1 ft; cap", "size 8 x 6");
    const struct part *part = part_of(&job, "Transition, 16 x 12 in to 20 x 16 in, 8 in long");
    const struct figure *figure = figure_pattern(job.job->arena, job.job, part, &part->blanks.at[0]);
    size_t below = 0, above = 0;
    for (size_t i = 0; i < figure->ordinates.count; i++)
        for (size_t m = 0; m < figure->ordinates.at[i].marks.count; m++)
            if (strcmp(figure->ordinates.at[i].marks.at[m].text, "2-1/4") == 0)
                *(figure->ordinates.at[i].side == FIGURE_BELOW ? &below : &above) += 1;
    assert_int_equal(below, 1);
    assert_int_equal(above, 0);
    compiled_free(&job);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_cone_on_a_round_wall_has_the_stations_of_the_shop),
        cmocka_unit_test(their_error_is_that_of_the_chords),
        cmocka_unit_test(joined_stations_are_near_the_curve),
        cmocka_unit_test(a_rectangle_is_told_by_its_sides),
        cmocka_unit_test(what_is_measured_is_at_hand),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
