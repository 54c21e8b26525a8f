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
        .from = profile_of(from),
        .to = profile_of(to),
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
    return (struct loft_size){
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
}

static void lofts_are_proved(void **state) {
    (void)state;
    for (int n = 0; n < 800; n++) {
        struct loft_size size = random_loft();
        solid_prove("loft", shape_loft, &size, sizeof size);
    }
}

/* Rectangular at both ends, and turned: each side is broken on a diagonal.  By sides: a short, steep one in one piece
 * would lie on itself. */
static void twisted_lofts_are_proved(void **state) {
    (void)state;
    for (int n = 0; n < 1500; n++) {
        struct loft_size size = random_loft();
        size.near_shape = size.far_shape = SHAPE_RECTANGULAR;
        size.wrap = WRAP_SIDES;
        size.turned = random_chance(0.2) ? 15 * DEGREE * random_below(7) : random_between(-90, 90) * DEGREE;
        solid_prove("twisted loft", shape_loft, &size, sizeof size);
    }
}

/* The least and the greatest that a shop may be asked for, and every pair of shapes in line. */
static void lofts_at_the_limits_are_proved(void **state) {
    (void)state;
    static const double widths[] = {1 * INCH, 4 * INCH, 8 * INCH, 8.001 * INCH, 120 * INCH};
    enum { WIDTHS = sizeof widths / sizeof *widths };
    for (int n = 0; n < SHAPE_COUNT * SHAPE_COUNT * WIDTHS * WIDTHS; n++) {
        struct loft_size size = {
            .near_shape = n % SHAPE_COUNT,
            .far_shape = n / SHAPE_COUNT % SHAPE_COUNT,
            .near_width = widths[n / SHAPE_COUNT / SHAPE_COUNT % WIDTHS],
            .near_height = 8 * INCH,
            .far_width = widths[n / SHAPE_COUNT / SHAPE_COUNT / WIDTHS],
            .far_height = 8 * INCH,
            .length = n % 2 ? INCH : 240 * INCH,
            .wrap = n % 3,
        };
        solid_prove("loft", shape_loft, &size, sizeof size);
    }
}

/* ---- Prisms ------------------------------------------------------------------------------------------------------ */

struct prism_size {
    double shape, width, height;
    double length, second; /* m along its line, before and behind the mitre */
    double half;           /* half the angle of the mitre, rad */
    double wrap, seam;     /* seam: 0 .. 3 */
};

static struct duct_size prism_duct(const struct prism_size *size) {
    return duct_of(size->shape, size->width, size->height);
}

static struct tube_end port_end(struct solid *solid, enum port_use use, const char *name, const struct frame *frame,
                                struct duct_size duct) {
    return (struct tube_end){.join = JOIN_PORT, .port = solid_port(solid, use, name, frame, duct)};
}

static struct cut square_cut(const struct frame *frame) {
    return (struct cut){.kind = CUT_PLANE, .point = frame->origin, .way = frame->along};
}

/* Two prisms that meet in the plane between them: a mitre. */
static void shape_mitre(struct solid *solid, const void *what) {
    const struct prism_size *size = what;
    struct duct_size duct = prism_duct(size);
    struct frame out = frame_turned(&frame_near, PI), corner = frame_moved(&frame_near, 0, size->length, 0);
    struct frame middle = frame_turned(&corner, size->half), second = frame_turned(&corner, 2 * size->half);
    struct frame far = frame_moved(&second, 0, size->second, 0);
    struct prism prism = {
        .frame = frame_near,
        .section = profile_of(duct),
        .near = square_cut(&frame_near),
        .far = square_cut(&middle),
        .wrap = (enum wrap)(int)size->wrap,
        .seam = size->seam,
        .near_end = port_end(solid, PORT_USE_DUCT, "toward the unit", &out, duct),
        .far_end = {.join = JOIN_SEAM, .pocket = true},
        .name = "gore",
    };
    solid_prism(solid, &prism);
    prism.frame = second;
    prism.near = square_cut(&middle);
    prism.far = square_cut(&far);
    prism.near_end = (struct tube_end){.join = JOIN_SEAM};
    prism.far_end = port_end(solid, PORT_USE_DUCT, "away from the unit", &far, duct);
    solid_prism(solid, &prism);
}

static struct prism_size random_prism(void) {
    return (struct prism_size){
        .shape = random_below(SHAPE_COUNT),
        .width = random_inches(3, 40),
        .height = random_inches(3, 40),
        .length = random_inches(1, 60),
        .second = random_inches(1, 60),
        .wrap = random_below(3),
        .seam = random_below(4),
    };
}

/* Room beside the corner for the half angle that the inner side needs, and a little more. */
static void give_room(struct prism_size *size) {
    double inner = size->width / 2 * tan(fabs(size->half));
    size->length += inner;
    size->second += inner;
}

static void mitres_are_proved(void **state) {
    (void)state;
    for (int n = 0; n < 800; n++) {
        struct prism_size size = random_prism();
        size.half = random_chance(0.3) ? 7.5 * DEGREE * random_below(7) : random_between(-70, 70) * DEGREE;
        give_room(&size);
        solid_prove("mitre", shape_mitre, &size, sizeof size);
    }
}

static void a_mitre_without_room_faults(void **state) {
    (void)state;
    struct prism_size size = {SHAPE_ROUND, 10 * INCH, 0, 4 * INCH, 4 * INCH, 45 * DEGREE, WRAP_ONE, 0};
    assert_false(solid_prove_or_fault("mitre", shape_mitre, &size, sizeof size));
    size.shape = SHAPE_RECTANGULAR;
    size.height = 8 * INCH;
    assert_false(solid_prove_or_fault("mitre", shape_mitre, &size, sizeof size));
}

/* ---- Saddles ----------------------------------------------------------------------------------------------------- */

struct saddle_size {
    struct prism_size collar;
    double main, beside; /* radius of the main, m; by how much the collar's line passes its axis */
};

/* A collar on a round main that runs from left to right below it. */
static void shape_saddle(struct solid *solid, const void *what) {
    const struct saddle_size *size = what;
    struct duct_size duct = prism_duct(&size->collar);
    struct frame base = frame_turned(&frame_near, PI), far = frame_moved(&frame_near, 0, size->collar.length, 0);
    struct prism prism = {
        .frame = frame_near,
        .section = profile_of(duct),
        .near = {.kind = CUT_CYLINDER,
                 .point = {0, -size->main, -size->beside},
                 .way = {1, 0, 0},
                 .radius = size->main},
        .far = square_cut(&far),
        .wrap = (enum wrap)(int)size->collar.wrap,
        .seam = size->collar.seam,
        .near_end = port_end(solid, PORT_USE_BASE, "onto the main", &base, duct),
        .far_end = port_end(solid, PORT_USE_DUCT, "away from the unit", &far, duct),
        .name = "collar",
    };
    solid_prism(solid, &prism);
}

static void saddles_are_proved(void **state) {
    (void)state;
    for (int n = 0; n < 400; n++) {
        struct saddle_size size = {.collar = random_prism()};
        double half = (size.collar.shape == SHAPE_ROUND ? size.collar.width : size.collar.height) / 2;
        size.main = half * random_between(1.1, 4);
        size.beside = random_chance(0.4) ? 0 : random_between(-0.9, 0.9) * (size.main / 1.05 - half);
        solid_prove("saddle", shape_saddle, &size, sizeof size);
    }
}

static void a_collar_wider_than_its_main_faults(void **state) {
    (void)state;
    struct saddle_size size = {{SHAPE_ROUND, 10 * INCH, 0, 12 * INCH, 0, 0, WRAP_ONE, 0}, 4 * INCH, 0};
    assert_false(solid_prove_or_fault("saddle", shape_saddle, &size, sizeof size));
}

/* ---- Openings ---------------------------------------------------------------------------------------------------- */

struct tapped_size {
    struct prism_size main;
    double tap_shape, tap_width, tap_height;
    double station, side; /* share of the length; 0 .. 3: which way it leaves */
};

static void shape_tapped(struct solid *solid, const void *what) {
    const struct tapped_size *size = what;
    struct duct_size duct = prism_duct(&size->main);
    struct frame out = frame_turned(&frame_near, PI), far = frame_moved(&frame_near, 0, size->main.length, 0);
    struct frame rolled = frame_rolled(&frame_near, size->side * PI / 2), tap = frame_turned(&rolled, PI / 2);
    tap.origin = (struct space){0, size->main.length * size->station, 0};
    struct prism prism = {
        .frame = frame_near,
        .section = profile_of(duct),
        .near = square_cut(&frame_near),
        .far = square_cut(&far),
        .wrap = (enum wrap)(int)size->main.wrap,
        .seam = size->main.seam,
        .near_end = port_end(solid, PORT_USE_DUCT, "toward the unit", &out, duct),
        .far_end = port_end(solid, PORT_USE_DUCT, "away from the unit", &far, duct),
        .name = "body",
    };
    struct tapped tapped = {
        .tap = tap,
        .section = profile_of(duct_of(size->tap_shape, size->tap_width, size->tap_height)),
        .name = "tap",
    };
    solid_tapped_prism(solid, &prism, &tapped, 1);
}

static void openings_are_proved(void **state) {
    (void)state;
    int proved = 0, count = 1500;
    for (int n = 0; n < count; n++) {
        struct tapped_size size = {
            .main = random_prism(),
            .tap_shape = random_below(SHAPE_COUNT),
            .station = random_between(0.3, 0.7),
            .side = random_below(4),
        };
        size.main.length += 20 * INCH;
        double room = fmin(size.main.width, size.main.shape == SHAPE_ROUND ? size.main.width : size.main.height);
        if (size.main.shape == SHAPE_OVAL)
            room =
                fmax(fabs(size.main.width - size.main.height), INCH); /* its flat side; the round one may be missed */
        size.tap_width = fmin(random_between(0.2, 0.8) * room, 0.5 * size.main.length);
        size.tap_height = fmin(random_between(0.2, 0.8) * room, 0.5 * size.main.length);
        proved += solid_prove_or_fault("tapped duct", shape_tapped, &size, sizeof size);
    }
    /* The rest: those that lie across a seam. */
    assert_true(proved > count / 2);
}

/* ---- Plates ------------------------------------------------------------------------------------------------------ */

/* A tube closed at its far end. */
static void shape_closed(struct solid *solid, const void *what) {
    const struct prism_size *size = what;
    struct duct_size duct = prism_duct(size);
    struct frame out = frame_turned(&frame_near, PI), far = frame_moved(&frame_near, 0, size->length, 0);
    struct prism prism = {
        .frame = frame_near,
        .section = profile_of(duct),
        .near = square_cut(&frame_near),
        .far = square_cut(&far),
        .wrap = (enum wrap)(int)size->wrap,
        .near_end = port_end(solid, PORT_USE_DUCT, "toward the unit", &out, duct),
        .far_end = {.join = JOIN_SEAM},
        .name = "body",
    };
    solid_prism(solid, &prism);
    struct frame back = frame_turned(&far, PI);
    solid_plate(solid, &back, prism.section, "end", JOIN_SEAM, NO_PORT);
}

static void closed_tubes_are_proved(void **state) {
    (void)state;
    for (int n = 0; n < 500; n++) {
        struct prism_size size = random_prism();
        size.wrap = WRAP_ONE;
        solid_prove("closed tube", shape_closed, &size, sizeof size);
    }
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(lofts_are_proved),
        cmocka_unit_test(twisted_lofts_are_proved),
        cmocka_unit_test(lofts_at_the_limits_are_proved),
        cmocka_unit_test(mitres_are_proved),
        cmocka_unit_test(a_mitre_without_room_faults),
        cmocka_unit_test(saddles_are_proved),
        cmocka_unit_test(a_collar_wider_than_its_main_faults),
        cmocka_unit_test(openings_are_proved),
        cmocka_unit_test(closed_tubes_are_proved),
    };
    return cmocka_run_group_tests(tests, seed_random, NULL);
}
