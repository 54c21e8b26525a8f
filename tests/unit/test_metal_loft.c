/* Tubes of any section: lofts and prisms, proved. */
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <setjmp.h>
#include <cmocka.h>

#include "metal/body.h"
#include "solid_prove.h"

/* ---- Lofts ------------------------------------------------------------------------------------------------------- */

struct loft_size {
    double near_shape, near_width, near_height, far_shape, far_width, far_height;
    double length, right, up, turned; /* of the far end */
    double wrap;
};

static struct duct_size duct_of(double shape, double width, double height) {
    struct duct_size size = {(enum shape)(int)shape, width, height};
    if (size.shape == SHAPE_ROUND)
        size.height = width;
    return size;
}

static void shape_loft(struct solid *solid, const void *what) {
    const struct loft_size *size = what;
    struct duct_size from = duct_of(size->near_shape, size->near_width, size->near_height);
    struct duct_size to = duct_of(size->far_shape, size->far_width, size->far_height);
    struct frame far = frame_moved(&frame_near, size->right, size->length, size->up);
    far = frame_rolled(&far, size->turned);
    struct frame out = frame_turned(&frame_near, PI);
    struct loft loft = {
        .near = frame_near,
        .far = far,
        .from = section_of(from),
        .to = section_of(to),
        .wrap = (enum wrap)(int)size->wrap,
        .near_end = {.join = JOIN_PORT, .port = solid_port(solid, PORT_USE_DUCT, "toward the unit", &out, from)},
        .far_end = {.join = JOIN_PORT, .port = solid_port(solid, PORT_USE_DUCT, "away from the unit", &far, to)},
        .name = "body",
    };
    solid_loft(solid, &loft);
}

static double random_inches(double low, double high) {
    /* Half of them whole: equal sizes, and ends that stand in line, come by chance. */
    double inches = random_between(low, high);
    return (random_chance(0.5) ? round(inches) : inches) * INCH;
}

static struct loft_size random_loft(void) {
    struct loft_size size = {
        .near_shape = random_below(SHAPE_COUNT),
        .near_width = random_inches(3, 40),
        .near_height = random_inches(3, 40),
        .far_shape = random_below(SHAPE_COUNT),
        .far_width = random_inches(3, 40),
        .far_height = random_inches(3, 40),
        .length = random_inches(2, 60),
        .right = random_chance(0.3) ? 0 : random_inches(-20, 20),
        .up = random_chance(0.3) ? 0 : random_inches(-20, 20),
        .wrap = random_below(3),
    };
    return size;
}

static void lofts_are_proved(void **state) {
    (void)state;
    for (int n = 0; n < 300; n++) {
        struct loft_size size = random_loft();
        solid_prove("loft", shape_loft, &size, sizeof size);
    }
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(lofts_are_proved),
    };
    return cmocka_run_group_tests(tests, seed_random, NULL);
}
