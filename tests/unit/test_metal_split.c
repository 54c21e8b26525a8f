/* Splits: proved for random sizes, held against independent figures and closed forms, laid out for the job, and faulted. */
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <setjmp.h>
#include <cmocka.h>

#include "metal/metal.h"
#include "metal/shape_split.h"
#include "near.h"
#include "solid_prove.h"

/* ---- Everything that a fitting must be, for random sizes --------------------------------------------------------- */

enum { TRIES = 1500 };

static double random_inches(double low, double high) {
    double inches = random_between(low, high);
    return (random_chance(0.5) ? round(inches) : inches) * INCH;
}

static struct profile random_rectangle(void) {
    return (struct profile){random_inches(4, 40), random_inches(4, 30), 0};
}

static struct profile random_round(double high) {
    double diameter = random_inches(3, high);
    return (struct profile){diameter, diameter, diameter / 2};
}

static struct profile random_oval(void) {
    struct profile oval = random_rectangle();
    oval.radius = fmin(oval.width, oval.height) / 2;
    return oval;
}

static struct profile random_profile(void) {
    switch (random_below(4)) {
    case 0:
        return random_round(30);
    case 1:
        return random_oval();
    default:
        return random_rectangle();
    }
}

static double random_share(void) {
    static const double edges[] = {0, 0.01, 0.5, 0.99, 1};
    return random_chance(0.2) ? edges[random_below(5)] : random_between(0, 1);
}

static double random_over(void) {
    return random_chance(0.5) ? 0 : random_inches(2, 80);
}

static struct profile profile_alike(struct profile section) {
    struct profile other = random_profile();
    if (random_chance(0.4))
        return section;
    if (random_chance(0.5) && section.radius <= 0) {
        section.width = other.width;
        return section;
    }
    return other;
}

static void wyes_are_proved(void **state) {
    (void)state;
    int built = 0;
    for (int n = 0; n < TRIES; n++) {
        struct profile main = random_profile(), left = profile_alike(main), right = profile_alike(left);
        struct wye wye = wye_for(main, left, right, random_share(), random_over());
        built += solid_prove_or_fault("wye", shape_wye, &wye, sizeof wye);
    }
    assert_true(built > TRIES / 2);
}

/* Any crotch and any place of the legs, not those that the rules choose. */
static void odd_wyes_are_proved(void **state) {
    (void)state;
    int built = 0;
    for (int n = 0; n < TRIES; n++) {
        struct profile main = random_rectangle(), left = profile_alike(main), right = profile_alike(left);
        struct wye wye = wye_for(main, left, right, random_share(), 0);
        wye.left.centre += random_inches(-10, 10);
        wye.right.centre += random_inches(-10, 10);
        wye.crotch_across = random_between(-0.6, 0.6) * main.width;
        wye.crotch_along = wye.loft + random_between(0, 1.05) * (wye.left.along - wye.loft);
        built += solid_prove_or_fault("wye", shape_wye, &wye, sizeof wye);
    }
    assert_true(built > TRIES / 3);
}

static void round_wyes_are_proved(void **state) {
    (void)state;
    int built = 0;
    for (int n = 0; n < TRIES / 3; n++) {
        double diameter = random_inches(3, 40), left = random_chance(0.2) ? diameter : random_inches(3, 40);
        double right = random_chance(0.2) ? left : random_inches(3, 40);
        struct round_wye wye = round_wye_for(diameter, left, right, random_over());
        if (random_chance(0.3)) {
            wye.left_centre -= random_inches(0, 10);
            wye.right_centre += random_inches(0, 10);
        }
        built += solid_prove_or_fault("round wye", shape_round_wye, &wye, sizeof wye);
    }
    assert_true(built > TRIES / 6);
}

static void tees_are_proved(void **state) {
    (void)state;
    int built = 0;
    for (int n = 0; n < TRIES; n++) {
        struct profile main = random_profile(), side = profile_alike(main), straight = profile_alike(main);
        double way = random_chance(0.5) ? 1 : -1;
        struct tee tee = tee_for(main, side, straight, way, random_over());
        built += solid_prove_or_fault("tee", shape_tee, &tee, sizeof tee);
    }
    assert_true(built > TRIES / 2);
}

static void collar_tees_are_proved(void **state) {
    (void)state;
    int built = 0;
    for (int n = 0; n < TRIES; n++) {
        struct profile main = random_chance(0.5) ? random_round(40) : random_oval(), side = profile_alike(main);
        double way = random_chance(0.5) ? 1 : -1, reducer;
        struct collar_tee tee = collar_tee_for(main, side, profile_alike(main), way, random_over(), &reducer);
        built += solid_prove_or_fault("collar tee", shape_collar_tee, &tee, sizeof tee);
    }
    assert_true(built > TRIES / 4);
}

static void bullheads_are_proved(void **state) {
    (void)state;
    int built = 0;
    for (int n = 0; n < TRIES; n++) {
        struct profile main = random_profile(), left = profile_alike(main), right = profile_alike(main);
        struct bullhead bullhead =
            bullhead_for(main, left, right, random_share(), random_over(), random_chance(0.5));
        built += solid_prove_or_fault("bullhead", shape_bullhead, &bullhead, sizeof bullhead);
    }
    assert_true(built > TRIES / 2);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(wyes_are_proved),        cmocka_unit_test(odd_wyes_are_proved),
        cmocka_unit_test(round_wyes_are_proved),  cmocka_unit_test(tees_are_proved),
        cmocka_unit_test(collar_tees_are_proved), cmocka_unit_test(bullheads_are_proved),
    };
    return cmocka_run_group_tests(tests, seed_random, NULL);
}
