/* Boots: proved for random sizes, held against closed forms, and faulted. */
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <setjmp.h>
#include <cmocka.h>

#include "metal/shape_boot.h"
#include "near.h"
#include "solid_prove.h"
#include "solid_sums.h"

enum { TRIES = 200 };

static struct profile random_duct(double most) {
    struct duct_size size = {(enum shape)random_below(SHAPE_COUNT), random_between(3, most) * INCH,
                             random_between(3, most) * INCH};
    if (size.shape == SHAPE_ROUND)
        size.height = size.width;
    return profile_of(size);
}

static struct profile random_face(void) {
    return (struct profile){floor(random_between(4, 30)) * INCH, floor(random_between(4, 30)) * INCH, 0};
}

static void straight_boots_are_proved(void **state) {
    (void)state;
    for (int n = 0; n < TRIES; n++) {
        struct straight_boot boot = {
            .duct = random_duct(24), .face = random_face(), .length = random_between(1, 30) * INCH};
        if (random_chance(0.5))
            boot.right = random_between(-20, 20) * INCH;
        if (random_chance(0.5))
            boot.up = random_between(-20, 20) * INCH;
        solid_prove("straight boot", shape_straight_boot, &boot, sizeof boot);
    }
}

static void elbow_boots_are_proved(void **state) {
    (void)state;
    int built = 0;
    for (int n = 0; n < TRIES; n++) {
        struct elbow_boot boot = {
            .duct = random_duct(16), .face = random_face(), .collar = random_between(1, 12) * INCH};
        built += solid_prove_or_fault("elbow boot", shape_elbow_boot, &boot, sizeof boot);
    }
    assert_int_equal(built, TRIES);
}

/* 6 in round into a face of 12 x 6: the box is 7 in deep. */
static void an_elbow_boot_is_a_box_with_a_collar(void **state) {
    (void)state;
    struct elbow_boot boot = {{6 * INCH, 6 * INCH, 3 * INCH}, {12 * INCH, 6 * INCH, 0}, 5 * INCH};
    struct sums sums = sums_of(shape_elbow_boot, &boot, 1);
    assert_near(sums_area(&sums, "collar") / (INCH * INCH), PI * 6 * 5, 1e-9);
    assert_near(sums_area(&sums, "back") / (INCH * INCH), 12 * 7, 1e-9);
    assert_near(sums_area(&sums, "front") / (INCH * INCH), 12 * 7, 1e-9);
    assert_near(sums_area(&sums, "left side") / (INCH * INCH), 6 * 7, 1e-9);
    assert_near(sums_area(&sums, "cover") / (INCH * INCH), 12 * 6, 1e-9);
    /* The collar goes into the front, half an inch from its edges. */
    const struct solid *solid = sums.solid;
    for (size_t p = 0; p < solid->panels.count; p++)
        assert_int_equal(solid->panels.at[p].openings.count, strcmp(solid->panels.at[p].name, "front") == 0);
    /* The face lies below, its middle 8 in from the collar's end. */
    assert_near(space_distance(solid->ports.at[1].frame.origin, (struct space){0, 8 * INCH, -3.5 * INCH}), 0, 1e-12);
    assert_near(solid->ports.at[1].frame.along.z, -1, 1e-12);
    sums_free(&sums);
}

/* A duct of 14 x 8 to a face of 12 x 6: the box is 15 in wide, with strips of 1-1/2 in beside the face. */
static void a_box_under_a_wide_duct_is_wider_than_its_face(void **state) {
    (void)state;
    struct elbow_boot boot = {{14 * INCH, 8 * INCH, 0}, {12 * INCH, 6 * INCH, 0}, 5 * INCH};
    struct sums sums = sums_of(shape_elbow_boot, &boot, 1);
    assert_near(sums_area(&sums, "front") / (INCH * INCH), 15 * 9, 1e-9);
    assert_near(sums_area(&sums, "cover") / (INCH * INCH), 15 * 6, 1e-9);
    assert_near(sums_area(&sums, "strip beside the face") / (INCH * INCH), 2 * 1.5 * 6, 1e-9);
    assert_near(sums.solid->ports.at[1].size.width / INCH, 12, 1e-9);
    sums_free(&sums);
}

/* 12 x 6 to 12 x 6, 8 in long, moved 6 in up: two sides are sheared, two are 10 in along the slope. */
static void an_offset_boot_slopes(void **state) {
    (void)state;
    struct straight_boot boot = {{12 * INCH, 6 * INCH, 0}, {12 * INCH, 6 * INCH, 0}, 8 * INCH, 0, 6 * INCH};
    struct sums sums = sums_of(shape_straight_boot, &boot, 1);
    assert_near(sums_area(&sums, NULL) / (INCH * INCH), 2 * 12 * 10 + 2 * 6 * 8, 1e-9);
    sums_free(&sums);
}

static void impossible_boots_are_told(void **state) {
    (void)state;
    struct elbow_boot boot = {{11 * INCH, 8 * INCH, 0}, {12 * INCH, 6 * INCH, 0}, 0.5 * INCH};
    assert_fault(shape_elbow_boot, &boot, "too short");
    boot.face = (struct profile){12 * INCH, 12 * INCH, 6 * INCH};
    assert_fault(shape_elbow_boot, &boot, "not rectangular");
    struct straight_boot straight = {boot.duct, boot.face, 0, 0, 0};
    assert_fault(shape_straight_boot, &straight, "no length");
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(straight_boots_are_proved),
        cmocka_unit_test(elbow_boots_are_proved),
        cmocka_unit_test(an_elbow_boot_is_a_box_with_a_collar),
        cmocka_unit_test(a_box_under_a_wide_duct_is_wider_than_its_face),
        cmocka_unit_test(an_offset_boot_slopes),
        cmocka_unit_test(impossible_boots_are_told),
    };
    return cmocka_run_group_tests(tests, seed_random, NULL);
}
