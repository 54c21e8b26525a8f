/* Drawings of the route: what hides what. */
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <setjmp.h>
#include <cmocka.h>

#include <math.h>

#include "compiled.h"
#include "report/route_figures.h"

/* ---- What hides what --------------------------------------------------------------------------------------------- */

/* Where in the order the first stretch of a run comes. */
static size_t place_of(const struct job *job, const struct route_drawn *drawn, size_t count, const char *run) {
    for (size_t i = 0; i < count; i++)
        if (strcmp(job->route->pieces.at[drawn[i].stretch->piece].run->name, run) == 0)
            return i;
    fail_msg("%s is not drawn", run);
    return 0;
}

/* By depth of their middles alone, the taps at the near end of a long trunk come before it on both of its sides, and
 * those at its far end behind it. */
static void what_is_tapped_in_behind_a_trunk_is_hidden_by_it(void **state) {
    (void)state;
    struct compiled compiled = compiled_text(
        "job \"Long\"\nunit fan { blower 500 cfm at 0.20 in.wg, 400 cfm at 0.35 in.wg; supply 14 x 12; return 14 x 10; "
        "at 0 ft, 0 ft, 9 ft; faces east }\n"
        "run trunk from fan.supply { size 14 x 12; straight 40 ft; cap }\n"
        "outlet behind_first from trunk at 3 ft left { airflow 100 cfm; size 6; straight 1 ft; boot; register 8 x 6 }\n"
        "outlet before_first from trunk at 3 ft right { airflow 100 cfm; size 6; straight 1 ft; boot; register 8 x 6 "
        "}\n"
        "outlet behind_last from trunk at 38 ft left { airflow 100 cfm; size 6; straight 1 ft; boot; register 8 x 6 }\n"
        "outlet before_last from trunk at 38 ft right { airflow 100 cfm; size 6; straight 1 ft; boot; register 8 x 6 "
        "}\n"
        "run back from fan.return { straight 2 ft }\ninlet floor from back { grille 24 x 12 }\n");
    const struct job *job = compiled.job;
    struct route_sheet sheet = {.unit = job->units.at[0]};
    struct route_drawing drawing = {.arena = job->arena, .job = job, .sheet = &sheet, .view = ROUTE_VIEW};
    drawing.right = space_unit((struct space){1, 1, 0});
    drawing.up = space_unit((struct space){-1, 1, 2});
    drawing.eye = space_cross(drawing.right, drawing.up);
    size_t count = job->route->stretches.count;
    struct route_drawn *drawn = ARENA_ARRAY(job->arena, struct route_drawn, count);
    for (size_t i = 0; i < count; i++)
        drawn[i] = (struct route_drawn){.stretch = &job->route->stretches.at[i], .index = i};
    drawn = route_in_order(&drawing, drawn, count);
    size_t trunk = place_of(job, drawn, count, "trunk");
    assert_true(place_of(job, drawn, count, "behind_first") < trunk);
    assert_true(place_of(job, drawn, count, "behind_last") < trunk);
    assert_true(place_of(job, drawn, count, "before_first") > trunk);
    assert_true(place_of(job, drawn, count, "before_last") > trunk);
    bool *there = ARENA_ARRAY(job->arena, bool, count);
    for (size_t i = 0; i < count; i++) {
        assert_false(there[drawn[i].index]);
        there[drawn[i].index] = true;
    }
    compiled_free(&compiled);
}

/* ---- Obstacles --------------------------------------------------------------------------------------------------- */

/* Posts in a row away from a trunk, the farthest first, and one in another part of the building. */
static void of_many_obstacles_the_nearest_are_drawn(void **state) {
    (void)state;
    char posts[8000] = "";
    size_t length = 0;
    for (int i = 0; i < 60; i++)
        length += (size_t)snprintf(posts + length, sizeof posts - length,
                                   "obstacle \"post %d\" from 10 ft, %d in, 0 ft to 10 ft 1 in, %d in, 12 ft\n", i,
                                   100 - i, 101 - i);
    struct compiled compiled =
        compiled_text("job \"Posts\"\nunit fan { blower 500 cfm at 0.20 in.wg, 400 cfm at 0.35 in.wg; supply 14 x 12; "
                      "return 14 x 10; "
                      "at 0 ft, 0 ft, 9 ft; faces east }\n"
                      "run trunk from fan.supply { size 14 x 12; straight 40 ft }\n"
                      "outlet out from trunk { airflow 400 cfm; register 14 x 8 }\n"
                      "run back from fan.return { straight 2 ft }\ninlet floor from back { grille 24 x 12 }\n"
                      "%sobstacle \"far\" from 10 ft, 40 ft, 0 ft to 11 ft, 41 ft, 9 ft\n",
                      posts);
    const struct job *job = compiled.job;
    struct route_sheet sheet = {.unit = job->units.at[0]};
    struct route_drawing drawing = {.arena = job->arena, .job = job, .sheet = &sheet};
    size_t count = job->route->stretches.count, near = 0, most = 0;
    struct route_drawn *drawn = ARENA_ARRAY(job->arena, struct route_drawn, count);
    for (size_t i = 0; i < count; i++)
        drawn[i] = (struct route_drawn){.stretch = &job->route->stretches.at[i], .index = i};
    const bool *shown = route_obstacles_shown(&drawing, drawn, count, &near, &most);
    assert_int_equal(near, 60);
    assert_in_range(most, 10, 59);
    for (size_t i = 0; i < 60; i++)
        assert_int_equal(shown[i], i >= 60 - most);
    assert_false(shown[60]);
    compiled_free(&compiled);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(what_is_tapped_in_behind_a_trunk_is_hidden_by_it),
        cmocka_unit_test(of_many_obstacles_the_nearest_are_drawn),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
