/* Staircases of cost over pressure, against what they mean at every pressure. */
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <setjmp.h>
#include <cmocka.h>

#include <math.h>
#include <stdlib.h>

#include "random.h"
#include "size/steps.h"

enum { ROOM = 2 * 1200 };

static struct steps staircase(int count) {
    struct steps steps = {.count = (size_t)count, .at = malloc(ROOM * sizeof(struct step))};
    double need = random_between(-5, 20), cost = 1000;
    for (int i = 0; i < count; i++) {
        steps.at[i] = (struct step){i == 0 && random_chance(0.1) ? -INFINITY : need, cost};
        /* Whole numbers now and then, so that needs meet. */
        need += random_chance(0.5) ? 1 + random_below(4) : random_between(0.01, 4);
        cost -= random_between(0.01, 1000.0 / count);
    }
    return steps;
}

static void expect_sound(const struct steps *steps) {
    for (size_t i = 1; i < steps->count; i++)
        assert_true(steps->at[i].need > steps->at[i - 1].need && steps->at[i].cost < steps->at[i - 1].cost);
}

/* A pressure just enough for a step, or any. */
static double some_pressure(const struct steps *a) {
    return random_chance(0.5) ? a->at[random_below((int)a->count)].need + 1e-9 : random_between(-10, 80);
}

static double least(double a, double b) {
    return a < b ? a : b;
}

static bool same(double a, double b) {
    return (isinf(a) && isinf(b)) || fabs(a - b) < 1e-9;
}

static void sums_and_minima_hold_at_every_pressure(void **state) {
    (void)state;
    for (int i = 0; i < 2000; i++) {
        struct steps a = staircase(1 + random_below(20)), b = staircase(1 + random_below(20)), out = staircase(1);
        double loss_a = random_below(5), loss_b = random_below(5);
        steps_both(&out, &a, loss_a, &b, loss_b);
        expect_sound(&out);
        assert_true(out.count <= a.count + b.count);
        for (int k = 0; k < 20; k++) {
            double at = some_pressure(&out);
            assert_true(same(steps_cost(&out, at), steps_cost(&a, at - loss_a) + steps_cost(&b, at - loss_b)));
        }
        steps_either(&out, &a, &b);
        expect_sound(&out);
        for (int k = 0; k < 20; k++) {
            double at = random_chance(0.5) ? some_pressure(&a) : some_pressure(&b);
            assert_true(same(steps_cost(&out, at), least(steps_cost(&a, at), steps_cost(&b, at))));
        }
        free(a.at), free(b.at), free(out.at);
    }
}

static struct steps copy_of(const struct steps *steps) {
    struct steps copy = staircase(1);
    copy.count = steps->count;
    for (size_t i = 0; i < steps->count; i++)
        copy.at[i] = steps->at[i];
    return copy;
}

static bool has_step(const struct steps *steps, struct step step) {
    for (size_t i = 0; i < steps->count; i++)
        if (!(steps->at[i].need < step.need) && !(steps->at[i].need > step.need))
            return !(steps->at[i].cost < step.cost) && !(steps->at[i].cost > step.cost);
    return false;
}

/* The truth lies between both, and is found again within one part of the range. */
static void thinned_steps_hold_the_truth_between_them(void **state) {
    (void)state;
    for (int i = 0; i < 300; i++) {
        struct steps whole = staircase(STEPS_LIMIT + 1 + random_below(900)), kept = copy_of(&whole),
                     bound = copy_of(&whole);
        double last = whole.at[whole.count - 1].need, width = (last - whole.at[1].need) / (STEPS_LIMIT - 2);
        assert_true(steps_thin(&kept, last, false) && steps_thin(&bound, last, true));
        assert_true(kept.count <= STEPS_LIMIT + 2 && bound.count <= STEPS_LIMIT + 2);
        expect_sound(&kept);
        expect_sound(&bound);
        for (size_t k = 0; k < kept.count; k++)
            assert_true(has_step(&whole, kept.at[k]));
        for (int k = 0; k < 50; k++) {
            double at = whole.at[random_below((int)whole.count)].need, truth = steps_cost(&whole, at);
            assert_true(steps_cost(&kept, at) >= truth && steps_cost(&bound, at) <= truth);
            assert_true(steps_cost(&kept, at + width * (1 + 1e-9)) <= truth);
            assert_true(steps_cost(&bound, at - width * (1 + 1e-9)) >= truth || at - width < whole.at[1].need + width);
        }
        free(whole.at), free(kept.at), free(bound.at);
    }
}

static void what_needs_too_much_is_dropped_but_the_least_stays(void **state) {
    (void)state;
    struct step some[] = {{3, 9}, {5, 7}, {8, 2}};
    struct steps steps = {3, some};
    assert_false(steps_thin(&steps, 6, false));
    assert_int_equal(steps.count, 2);
    assert_false(steps_thin(&steps, 1, false));
    assert_int_equal(steps.count, 1);
    assert_true(isinf(steps_cost(&steps, 2.9)) && same(steps_cost(&steps, 3), 9));
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup(sums_and_minima_hold_at_every_pressure, seed_random),
        cmocka_unit_test_setup(thinned_steps_hold_the_truth_between_them, seed_random),
        cmocka_unit_test(what_needs_too_much_is_dropped_but_the_least_stays),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
