/* The working of a loss: every relation as it is told comes to what was computed, whatever it is asked with; and what a
 * coefficient rests on is all there. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "air/air.h"
#include "air/fitting.h"
#include "air/table.h"
#include "compiled.h"
#include "evaluate.h"
#include "near.h"
#include "random.h"

#define check(what, ...)                                                                                               \
    do {                                                                                                               \
        if (!(what)) {                                                                                                 \
            print_error("seed %llu: ", (unsigned long long)seed);                                                      \
            fail_msg(__VA_ARGS__);                                                                                     \
        }                                                                                                              \
    } while (0)

/* ---- Steps ------------------------------------------------------------------------------------------------------- */

static void assert_worked(const struct trace *trace) {
    for (size_t i = 0; i < trace->steps.count; i++) {
        const struct trace_step *step = &trace->steps.at[i];
        double scale = fmax(fabs(step->result), 1);
        check(!step->relation || fabs(evaluate(step) - step->result) <= 1e-9 * scale, "%s: %s = %s is %g, not %g",
              step->what, step->name, step->relation, evaluate(step), step->result);
    }
}

/* Its last step is the coefficient, under the name it was asked for. */
static void assert_told(struct trace *trace, struct coefficient found) {
    assert_worked(trace);
    assert_true(trace->steps.count > 0);
    const struct trace_step *last = &trace->steps.at[trace->steps.count - 1];
    check(strcmp(last->name, "C9") == 0, "the last step is %s", last->name);
    assert_near(last->result, found.value, 0);
    check(last->source != SOURCE_NONE, "%s has no source", last->what);
    trace->steps.count = 0;
}

static void every_coefficient_tells_how_it_came_about(void **state) {
    (void)state;
    struct trace trace = {.arena = arena_new(NULL), .name = "C9"};
    struct trace *t = &trace;
    jmp_buf failed;
    if (setjmp(failed))
        fail();
    arena_on_failure(trace.arena, &failed);
    for (int i = 0; i < 3000; i++) {
        double angle = random_between(-0.1, 3.3), share = random_between(-0.05, 1.05);
        double area = random_between(-0.05, 1.1), radius = random_between(0.3, 12);
        double aspect = random_between(0.1, 10), right = random_between(0.1, 1.7);
        assert_told(t, fitting_radius_elbow(t, angle, radius, aspect));
        assert_told(t, fitting_round_elbow(t, angle, radius));
        assert_told(t, fitting_gored_elbow(t, fmin(fabs(angle), PI), radius, (int)random_between(2, 9), 1.3));
        assert_told(t, fitting_mitre(t, fmin(fabs(angle), PI), aspect));
        assert_told(t, fitting_vaned_mitre(t, angle));
        assert_told(t, fitting_contraction(t, area, angle));
        assert_told(t, fitting_diffuser(t, area, angle));
        assert_told(t, fitting_abrupt_contraction(t, area));
        assert_told(t, fitting_abrupt_expansion(t, area));
        assert_told(t, fitting_tap_branch(t, right, share, area));
        assert_told(t, fitting_tap_branch(t, 1, random_between(0.39, 0.43), area)); /* where a factor jumps */
        assert_told(t, fitting_tap_branch(t, 1, random_between(0.59, 0.63), area));
        assert_told(t, fitting_tap_run(t, share, area));
        assert_told(t, fitting_split_leg(t, right, share, area));
        assert_told(t, fitting_split_straight(t, share, area));
        assert_told(t, fitting_bullhead(t, share, area, i % 2 == 0));
        assert_told(t, fitting_join_branch(t, right, share, area));
        assert_told(t, fitting_join_branch(t, right, random_between(0.395, 0.41), area));
        assert_told(t, fitting_join_run(t, right, share, area));
        assert_told(t, fitting_join_bullhead(t, share, area));
        assert_told(t, fitting_damper(t, random_between(0, 1.3), i % 2 == 0));
        fitting_elbow_reynolds(t, random_between(1000, 300000), random_between(0.4, 0.9));
        fitting_cone_angle(t, fabs(area), fabs(share), random_between(0, 2));
        assert_worked(t);
        trace.steps.count = 0;
    }
    assert_told(t, (struct coefficient){.value = fitting_entry(t)});
    assert_told(t, (struct coefficient){.value = fitting_exit(t)});
    arena_free(trace.arena);
}

static void a_table_tells_where_it_was_read(void **state) {
    (void)state;
    static const struct table_point points[] = {{1, 10}, {2, 20}, {4, 0}};
    static const struct table_words words = {"Factor", "F", "a width of", SOURCE_DARCY};
    struct trace trace = {.arena = arena_new(NULL)};
    bool outside = false;
    jmp_buf failed;
    if (setjmp(failed))
        fail();
    arena_on_failure(trace.arena, &failed);
    const double at[] = {1, 1.5, 2, 3, 4, 0.5, 9};
    for (size_t i = 0; i < sizeof at / sizeof *at; i++)
        assert_near(table_read(TABLE(points), at[i], &outside, &trace, &words),
                    table_at(TABLE(points), at[i], &outside), 0);
    assert_worked(&trace);
    assert_string_equal(trace.steps.at[0].words, "in its table at a width of 1");
    assert_string_equal(trace.steps.at[1].what, "Factor, in its table between a width of 1 and 2");
    assert_string_equal(trace.steps.at[2].words, "in its table at a width of 2");
    assert_non_null(trace.steps.at[3].relation);
    assert_string_equal(trace.steps.at[4].words, "in its table at a width of 4");
    assert_string_equal(trace.steps.at[5].words, "at the end of its table, a width of 1");
    assert_string_equal(trace.steps.at[6].words, "at the end of its table, a width of 4");
    arena_free(trace.arena);
}

/* ---- Pieces ------------------------------------------------------------------------------------------------------ */

static const char job_text[] =
    "job \"t\" { altitude 5000 ft; sizing velocity }\n"
    "unit u { airflow 1200 cfm; blower 1100 cfm at 1.0 in.wg, 1300 cfm at 0.9 in.wg; supply 20 x 14; return 20 x 14 }\n"
    "run t from u.supply { connector 4 in; straight 6 ft; transition to 14 x 20 over 12 in; straight 8 ft; split wye "
    "over 24 in }\n"
    "outlet a from t.left { airflow 400 cfm; elbow 30 left, square; damper; straight 4 ft; boot; register 14 x 8 }\n"
    "run b from t.right { shape oval; limit height 16 in; straight 10 ft; elbow 90 left, radius 0.6; straight 4 ft; "
    "cap }\n"
    "outlet c from b at 4 ft left { airflow 400 cfm; size 8 x 6; tap conical; flex 8 ft, bends 1; boot straight; "
    "register 12 x 8 }\n"
    "outlet d from b at 8 ft left { airflow 400 cfm; size 8 x 6; tap shoe; elbow 45 up; offset 4 in left over 12 in; "
    "boot; register 12 x 8 }\n"
    "run r from u.return { straight 10 ft; box 30 x 20 x 24; split bullhead over 24 in }\n"
    "inlet e from r.left { airflow 700 cfm; elbow 90 left to 14 x 10; straight 3 ft; elbow 90 left, vanes; filter 24 x "
    "20 x 1 }\n"
    "run f from r.right { straight 8 ft; offset 6 in up over 24 in, ogee; split tee over 20 in }\n"
    "inlet g from f.straight { airflow 300 cfm; lining 1 in; straight 2 ft; elbow 90 up; straight 2 ft; boot }\n"
    "inlet h from f.left { airflow 200 cfm; straight 2 ft; transition to 8 x 12 over 18 in, right 3 in; straight 2 ft; "
    "grille 14 x 10 }\n";

static void assert_traced(const struct job *job, const struct section *section, const struct item *item,
                          struct arena *arena) {
    struct trace trace = {.arena = arena, .name = "C"};
    struct loss loss = air_traced_loss(&job->air, section, item, &trace);
    const char *word = item->piece->kind->form.word;
    assert_worked(&trace);
    check(fabs(loss.pressure - item->loss.pressure) <= 1e-12 * fabs(loss.pressure), "%s: %g, not %g", word,
          loss.pressure, item->loss.pressure);
    double friction = 0;
    for (size_t i = 0; i < trace.rubbings.count; i++)
        friction += trace.rubbings.at[i].pressure;
    check(fabs(friction - loss.friction) <= 1e-12 * friction, "%s: friction of %g, not %g", word, friction,
          loss.friction);
    if (!loss.reference_name)
        return;
    double velocity = loss.on.flow / size_area(loss.on.size), told = NAN;
    check(fabs(air_velocity_pressure(&job->air, velocity) - loss.reference) <= 1e-12 * loss.reference,
          "%s: on another velocity pressure", word);
    for (size_t i = 0; i < trace.steps.count; i++)
        if (strcmp(trace.steps.at[i].name, "C") == 0)
            told = trace.steps.at[i].result;
    check(told == loss.coefficient, "%s: the working has C = %g, the loss %g", word, told, loss.coefficient);
}

static void what_a_piece_takes_is_all_told(void **state) {
    (void)state;
    struct compiled job = compiled_text("%s", job_text);
    struct arena *arena = arena_new(NULL);
    const struct network *network = compiled_network(&job);
    size_t items = 0;
    jmp_buf failed;
    if (setjmp(failed))
        fail();
    arena_on_failure(arena, &failed);
    for (size_t s = 0; s < network->sections.count; s++)
        for (size_t i = 0; i < network->sections.at[s]->items.count; i++, items++)
            assert_traced(job.job, network->sections.at[s], &network->sections.at[s]->items.at[i], arena);
    assert_true(items > 40);
    arena_free(arena);
    compiled_free(&job);
}

/* ---- Blower ------------------------------------------------------------------------------------------------------ */

static void the_slopes_of_a_blower_are_told(void **state) {
    (void)state;
    struct trace trace = {.arena = arena_new(NULL)};
    jmp_buf failed;
    if (setjmp(failed))
        fail();
    arena_on_failure(trace.arena, &failed);
    for (int i = 0; i < 2000; i++) {
        struct blower_point points[5] = {{.flow = random_between(0.1, 1), .pressure = 100}};
        size_t count = 2 + (size_t)random_between(0, 3.99);
        for (size_t k = 1; k < count; k++) {
            points[k].flow = points[k - 1].flow + random_between(0.1, 1);
            points[k].pressure = points[k - 1].pressure + random_between(-60, 20);
        }
        struct blower_span span, untold;
        double flow = random_between(points[0].flow, points[count - 1].flow);
        assert_true(air_blower_span(&trace, points, count, flow, &span));
        assert_true(air_blower_span(NULL, points, count, flow, &untold));
        double told[2] = {NAN, NAN};
        for (size_t k = 0; k < trace.steps.count; k++)
            if (trace.steps.at[k].name[0] == 'm')
                told[trace.steps.at[k].name[1] - '0'] = trace.steps.at[k].result;
        assert_worked(&trace);
        for (int end = 0; end < 2; end++) {
            assert_near(told[end], span.slope[end], 0);
            assert_near(told[end], untold.slope[end], 0);
        }
        trace.steps.count = 0;
    }
    arena_free(trace.arena);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(every_coefficient_tells_how_it_came_about),
        cmocka_unit_test(a_table_tells_where_it_was_read),
        cmocka_unit_test(what_a_piece_takes_is_all_told),
        cmocka_unit_test(the_slopes_of_a_blower_are_told),
    };
    return cmocka_run_group_tests(tests, seed_random, NULL);
}
