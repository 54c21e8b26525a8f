/* Taps: proved for random sizes on flat and round walls, held against independent figures, and faulted. */
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <setjmp.h>
#include <cmocka.h>

#include "metal/shape_straight.h"
#include "near.h"
#include "pattern_cases.h"
#include "solid_prove.h"
#include "solid_sums.h"

/* ---- Everything that a fitting must be, for random sizes --------------------------------------------------------- */

enum { TRIES = 120 };

static struct profile random_run(void) {
    struct duct_size size = {(enum shape)random_below(SHAPE_COUNT), random_between(3, 20) * INCH,
                             random_between(3, 20) * INCH};
    if (random_chance(0.3))
        size.height = size.width;
    if (size.shape == SHAPE_ROUND)
        size.height = size.width;
    return profile_of(size);
}

static struct tap_size random_tap(enum tap_style style) {
    struct tap_size tap = {.style = style, .run = random_run(), .toward = random_below(4) * PI / 2};
    bool upright = random_chance(0.5);
    if (random_chance(0.6))
        tap.wall = random_between(6, 60) * INCH;
    if (random_chance(0.2))
        tap.aside = random_between(-4, 4) * INCH;
    if (style == TAP_SHOE)
        tap.base.upstream = random_between(1, 8) * INCH;
    if (style == TAP_CONICAL && upright)
        tap.base = (struct tap_opening){1 * INCH, 0.5 * INCH, 0.5 * INCH};
    else if (style == TAP_CONICAL)
        tap.base = (struct tap_opening){random_between(0, 3) * INCH, random_between(0.2, 3) * INCH,
                                        random_between(0.2, 3) * INCH};
    tap_lengths(&tap);
    if (style == TAP_STRAIGHT && random_chance(0.3)) {
        tap.lean = random_between(-60, 60) * DEGREE;
        tap.length += 2 * (tap.run.width + tap.run.height + tap.wall);
    }
    return tap;
}

static void taps_are_proved(void **state) {
    (void)state;
    for (enum tap_style style = TAP_STRAIGHT; style <= TAP_SADDLE; style++) {
        int built = 0;
        for (int n = 0; n < TRIES; n++) {
            struct tap_size tap = random_tap(style);
            built += solid_prove_or_fault("tap", shape_tap, &tap, sizeof tap);
        }
        assert_true(built > TRIES / 20);
    }
}

static void taps_as_wide_as_the_wall_are_proved(void **state) {
    (void)state;
    static const double sizes[] = {0.5 * INCH, 8 * INCH, 200 * INCH};
    for (int i = 0; i < 3; i++) {
        struct duct_size round = {SHAPE_ROUND, sizes[i], sizes[i]}, square = {SHAPE_RECTANGULAR, sizes[i], sizes[i]};
        struct tap_size tap = {.style = TAP_STRAIGHT, .run = profile_of(round), .wall = sizes[i], .length = sizes[i]};
        solid_prove("tap", shape_tap, &tap, sizeof tap);
        tap.run = profile_of(square);
        solid_prove("tap", shape_tap, &tap, sizeof tap);
        tap.style = TAP_SHOE;
        tap.base.upstream = sizes[i] / 2;
        solid_prove("tap", shape_tap, &tap, sizeof tap);
    }
}

/* ---- Independent figures ----------------------------------------------------------------------------------------- */

/* A round collar on a round duct, with the unit above: station 0 of the figures lies toward the unit. */
static struct tap_size collar_of(const struct pattern_case *reference, double main, double branch, double lean,
                                 double aside) {
    struct duct_size run = {SHAPE_ROUND, branch * INCH, branch * INCH};
    double length = case_input(reference, "branch_length_from_main_axis");
    return (struct tap_size){
        .style = TAP_STRAIGHT,
        .run = profile_of(run),
        .toward = PI / 2,
        .wall = main * INCH,
        .aside = aside * INCH,
        .lean = lean,
        .length = (length - main / 2) * INCH,
    };
}

/* Shoelace formula over the opening, unrolled from the wall. */
static double hole_area(const struct tap_size *tap, size_t parts) {
    struct sums sums = sums_of_divided(shape_tap, tap, parts, tap->run.radius, PI / 2);
    struct duct_size duct = {SHAPE_ROUND, tap->wall, tap->wall};
    struct tapped hole = tap_opening_in(sums.solid, tap, SIDE_TOP, 0, profile_of(duct));
    double twice = 0, radius = tap->wall / 2;
    for (size_t i = 0; i < hole.count; i++) {
        struct space a = hole.points[i], b = hole.points[(i + 1) % hole.count];
        assert_near(hypot(a.x, a.z), radius, 1e-12);
        twice += radius * (atan2(a.x, a.z) * b.y - atan2(b.x, b.z) * a.y);
    }
    sums_free(&sums);
    return fabs(twice) / 2;
}

struct drawn {
    double area, cut;
};

static struct drawn drawn_at(const struct tap_size *tap, size_t parts) {
    struct sums sums = sums_of_divided(shape_tap, tap, parts, tap->run.radius, PI / 2);
    const struct solid_panel *collar = &sums.solid->panels.at[0];
    struct drawn drawn = {.area = panel_area(collar)};
    for (size_t i = 0; i + 1 < collar->rulings; i++)
        drawn.cut += space_distance(collar->near[i], collar->near[i + 1]);
    sums_free(&sums);
    return drawn;
}

/* What chords are off goes with the square of their length (Richardson). */
static double limit_of_two(double coarse, double fine) {
    return (4 * fine - coarse) / 3;
}

enum { STATIONS = 16, PARTS = 256 };

static void figures_hold(const struct pattern_case *reference, const struct tap_size *tap) {
    struct sums sums = sums_of_divided(shape_tap, tap, PARTS, tap->run.radius, PI / 2);
    const struct solid_panel *collar = &sums.solid->panels.at[0];
    size_t found = 0;
    for (size_t i = 0; i + 1 < collar->rulings; i++) {
        double phi = atan2(collar->far[i].x, collar->far[i].z), station = phi / (2 * PI / STATIONS);
        if (fabs(station - floor(station + 0.5)) > 1e-6)
            continue;
        size_t at = ((size_t)(floor(station + 0.5) + STATIONS)) % STATIONS;
        case_near_at(reference, "t_from_main_axis", at, (collar->near[i].y + tap->wall / 2) / INCH);
        case_near_at(reference, "branch_ordinates_from_outer_end", at,
                     flat_distance(collar->near_flat[i], collar->far_flat[i]) / INCH);
        found++;
    }
    assert_int_equal(found, STATIONS);
    sums_free(&sums);
    struct drawn coarse = drawn_at(tap, PARTS), fine = drawn_at(tap, 2 * PARTS);
    case_near(reference, "branch_area", limit_of_two(coarse.area, fine.area) / (INCH * INCH));
    case_near(reference, "cut_edge_length", limit_of_two(coarse.cut, fine.cut) / INCH);
    case_near(reference, "hole_area_on_flat_main",
              limit_of_two(hole_area(tap, PARTS), hole_area(tap, 2 * PARTS)) / (INCH * INCH));
}

static void tap_figures_hold(const struct pattern_case *reference) {
    double lean = (90 - case_input(reference, "angle_deg")) * DEGREE;
    struct tap_size tap = collar_of(reference, case_input(reference, "D_main"), case_input(reference, "D_branch"), lean,
                                    case_input(reference, "axis_offset"));
    figures_hold(reference, &tap);
}

static void tee_figures_hold(const struct pattern_case *reference) {
    double diameter = case_input(reference, "D");
    struct tap_size tap = collar_of(reference, diameter, diameter, 0, 0);
    figures_hold(reference, &tap);
}

static void independent_figures_hold(void **state) {
    (void)state;
    assert_int_equal(each_pattern_case("round_tap", tap_figures_hold), 4);
    assert_int_equal(each_pattern_case("equal_round_tee", tee_figures_hold), 2);
}

/* ---- Closed forms ------------------------------------------------------------------------------------------------ */

static void a_shoe_is_cheeks_throat_and_heel(void **state) {
    (void)state;
    /* 10 x 6 in to the left: its width lies along the parent; 4 in longer, 4 in high, 2 in of collar. */
    struct tap_size tap = {.style = TAP_SHOE, .run = {10 * INCH, 6 * INCH, 0}, .toward = PI, .base = {0, 4 * INCH, 0}};
    tap_lengths(&tap);
    struct sums sums = sums_of(shape_tap, &tap, 1);
    assert_near(sums_area(&sums, "throat") / (INCH * INCH), 6 * (4 * sqrt(2) + 2), 1e-9);
    assert_near(sums_area(&sums, "heel") / (INCH * INCH), 6 * 6, 1e-9);
    assert_near(sums_area(&sums, "cheek") / (INCH * INCH), 2 * (10 * 6 + 4 * 4 / 2), 1e-9);
    assert_near(sums.solid->ports.at[0].size.width / INCH, 14, 1e-9);
    assert_near(sums.solid->ports.at[0].frame.origin.x / INCH, -2, 1e-9); /* toward the unit, on its left */
    sums_free(&sums);
}

static void a_cone_on_a_flat_wall_is_a_sector(void **state) {
    (void)state;
    struct tap_size tap = {
        .style = TAP_CONICAL, .run = {8 * INCH, 8 * INCH, 4 * INCH}, .base = {1 * INCH, 0.5 * INCH, 0.5 * INCH}};
    tap_lengths(&tap);
    struct sums sums = sums_of(shape_tap, &tap, 1);
    assert_near(sums_area(&sums, "cone") / (INCH * INCH), PI * (9 + 8) * hypot(4, 0.5) / 2, 1e-9);
    assert_near(sums_area(&sums, "collar") / (INCH * INCH), PI * 8 * 2, 1e-9);
    sums_free(&sums);
}

/* The base keeps within the opening that is declared for it, and fills it across. */
static void a_cone_on_a_round_wall_keeps_within_its_opening(void **state) {
    (void)state;
    struct tap_size tap = {.style = TAP_CONICAL,
                           .run = {8 * INCH, 8 * INCH, 4 * INCH},
                           .toward = PI / 2,
                           .wall = 10 * INCH,
                           .base = {1 * INCH, 0.5 * INCH, 0.5 * INCH}};
    tap_lengths(&tap);
    struct sums sums = sums_of(shape_tap, &tap, 1);
    struct tapped hole =
        tap_opening_in(sums.solid, &tap, SIDE_TOP, 20 * INCH, (struct profile){10 * INCH, 10 * INCH, 5 * INCH});
    double across = 0, along = 0;
    for (size_t i = 0; i < hole.count; i++) {
        across = fmax(across, fabs(hole.points[i].x));
        along = fmax(along, fabs(hole.points[i].y - 20 * INCH));
    }
    assert_near(across / INCH, 4.5, 1e-9);
    assert_true(along < 4.5 * INCH && along > 4 * INCH);
    sums_free(&sums);
}

static void a_saddle_lies_round_its_opening(void **state) {
    (void)state;
    struct tap_size tap = {.style = TAP_SADDLE, .run = {6 * INCH, 6 * INCH, 3 * INCH}, .wall = 12 * INCH};
    tap_lengths(&tap);
    struct sums sums = sums_of(shape_tap, &tap, 1);
    /* An inch of plate all round: 60 degrees of the wall and two inches. */
    assert_near(sums_area(&sums, "plate") / (INCH * INCH), (6 + 2) * (6 * 60 * DEGREE + 2), 1e-9);
    const struct solid_panel *plate = &sums.solid->panels.at[sums.solid->panels.count - 1];
    assert_int_equal(plate->openings.count, 1);
    assert_true(opening_area(&plate->openings.at[0]) < PI * 9.6 * INCH * INCH &&
                opening_area(&plate->openings.at[0]) > PI * 9 * INCH * INCH);
    sums_free(&sums);
}

/* ---- On a parent ------------------------------------------------------------------------------------------------- */

/* On every side the shoe's opening reaches farther toward the unit. */
static void openings_of_shoes_reach_toward_the_unit(void **state) {
    (void)state;
    struct profile parent = {30 * INCH, 20 * INCH, 0};
    for (enum side side = SIDE_LEFT; side <= SIDE_BOTTOM; side++) {
        struct tap_size tap = {.style = TAP_SHOE, .run = {10 * INCH, 6 * INCH, 0}, .base = {0, 4 * INCH, 0}};
        tap_on(&tap, side, parent);
        tap_lengths(&tap);
        struct sums sums = sums_of(shape_tap, &tap, 1);
        struct tapped hole = tap_opening_in(sums.solid, &tap, side, 40 * INCH, parent);
        double low = INFINITY, high = 0, half = side == SIDE_TOP || side == SIDE_BOTTOM ? 3 : 5;
        for (size_t i = 0; i < hole.count; i++) {
            low = fmin(low, hole.points[i].y);
            high = fmax(high, hole.points[i].y);
        }
        assert_near(low / INCH, 40 - half - 4, 1e-9);
        assert_near(high / INCH, 40 + half, 1e-9);
        sums_free(&sums);
    }
}

static void the_ends_of_an_oval_are_round_walls(void **state) {
    (void)state;
    struct tap_size tap = {0};
    struct profile oval = {20 * INCH, 8 * INCH, 4 * INCH};
    tap_on(&tap, SIDE_LEFT, oval);
    assert_near(tap.wall / INCH, 8, 1e-12);
    tap_on(&tap, SIDE_TOP, oval);
    assert_near(tap.wall, 0, 0);
}

/* ---- Faults ------------------------------------------------------------------------------------------------------ */

static void impossible_taps_are_told(void **state) {
    (void)state;
    struct tap_size tap = {
        .style = TAP_STRAIGHT, .run = {10 * INCH, 10 * INCH, 5 * INCH}, .wall = 8 * INCH, .length = 4 * INCH};
    assert_fault(shape_tap, &tap, "wider at its base than the round duct");
    tap.wall = 20 * INCH;
    tap.style = TAP_SPIN;
    assert_fault(shape_tap, &tap, "a spin collar sits on a flat wall");
    tap.style = TAP_SHOE;
    tap.base.upstream = 4 * INCH;
    assert_fault(shape_tap, &tap, "sits on a flat wall only");
    tap.run.radius = 0;
    tap.wall = 0;
    tap.style = TAP_SPIN;
    assert_fault(shape_tap, &tap, "a spin collar is round");
    tap.style = TAP_CONICAL;
    tap.lean = 30 * DEGREE;
    assert_fault(shape_tap, &tap, "only a straight tap leans");
    tap.style = TAP_SADDLE;
    assert_fault(shape_tap, &tap, "only a straight tap leans");
    tap.style = TAP_STRAIGHT;
    tap.lean = 76 * DEGREE;
    assert_fault(shape_tap, &tap, "more than 75 degrees");
    tap.lean = 0;
    tap.length = 0;
    assert_fault(shape_tap, &tap, "has no length");
}

/* What the hint names can be made where the tap cannot. */
static void the_hint_of_an_impossible_tap_can_be_made(void **state) {
    (void)state;
    const struct tap_size told[] = {
        {.style = TAP_SHOE, .run = {10 * INCH, 6 * INCH, 3 * INCH}, .wall = 20 * INCH, .base = {0, 4 * INCH, 0}},
        {.style = TAP_CONICAL, .run = {10 * INCH, 6 * INCH, 3 * INCH}, .wall = 20 * INCH, .base = {1 * INCH, 0, 0}},
        {.style = TAP_CONICAL, .run = {8 * INCH, 8 * INCH, 4 * INCH}, .wall = 8 * INCH, .base = {1 * INCH, 0, 0}},
    };
    for (size_t i = 0; i < sizeof told / sizeof *told; i++) {
        struct tap_size tap = told[i];
        tap_lengths(&tap);
        struct sums sums = sums_of(shape_tap, &tap, 1);
        assert_non_null(sums.solid->fault);
        assert_string_equal(sums.solid->hint, "tap straight");
        sums_free(&sums);
        tap = (struct tap_size){.style = TAP_STRAIGHT, .run = told[i].run, .wall = told[i].wall};
        tap_lengths(&tap);
        sums = sums_of(shape_tap, &tap, 1);
        assert_null(sums.solid->fault);
        sums_free(&sums);
    }
}

/* From one triangle the way along the base leads into another, and round that for ever. */
static void a_base_that_does_not_close_is_told(void **state) {
    (void)state;
    struct arena *arena = arena_new(NULL);
    jmp_buf out;
    if (!arena || setjmp(out))
        fail_msg("no memory");
    arena_on_failure(arena, &out);
    struct solid *solid = solid_new(arena, 1);
    static const struct space at[2][3] = {{{0, 0, 0}, {1, 0, 0}, {2, 1, 0}}, {{1, 0, 0}, {3, 0, 0}, {2, -1, 0}}};
    static const enum join joins[2][3] = {{JOIN_PORT, JOIN_FREE, JOIN_FREE}, {JOIN_PORT, JOIN_PORT, JOIN_PORT}};
    for (int p = 0; p < 2; p++) {
        struct plane plane = plane_begin(solid, "side", at[p][0]);
        for (int i = 0; i < 3; i++)
            plane_line(&plane, at[p][(i + 1) % 3], joins[p][i], joins[p][i] == JOIN_PORT ? 0 : NO_PORT);
        plane_end(&plane, JOIN_FREE, NO_PORT);
    }
    size_t count;
    assert_null(tap_base_border(solid, arena, &count));
    assert_non_null(strstr(solid->fault, "no closed line"));
    arena_free(arena);
}

/* An edge of no length is left out, and so is its pocket. */
static void an_edge_of_no_length_marks_no_pocket(void **state) {
    (void)state;
    struct arena *arena = arena_new(NULL);
    jmp_buf out;
    if (!arena || setjmp(out))
        fail_msg("no memory");
    arena_on_failure(arena, &out);
    static const struct quad_edge flange = {JOIN_SEAM, NO_PORT, false}, pocket = {JOIN_SEAM, NO_PORT, true};
    static const struct space from = {0, 0, 0}, to = {1, 0, 0};
    struct solid *solid = solid_new(arena, 1);
    struct plane plane = plane_begin(solid, "side", from);
    plane_edge(&plane, from, pocket);
    assert_int_equal(plane.panel.edges.count, 0);
    plane_edge(&plane, to, flange);
    plane_edge(&plane, to, pocket);
    assert_int_equal(plane.panel.edges.count, 1);
    assert_false(plane.panel.edges.at[0].pocket);
    plane_edge(&plane, from, pocket);
    assert_true(plane.panel.edges.at[1].pocket);
    arena_free(arena);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(taps_are_proved),
        cmocka_unit_test(taps_as_wide_as_the_wall_are_proved),
        cmocka_unit_test(independent_figures_hold),
        cmocka_unit_test(a_shoe_is_cheeks_throat_and_heel),
        cmocka_unit_test(a_cone_on_a_flat_wall_is_a_sector),
        cmocka_unit_test(a_cone_on_a_round_wall_keeps_within_its_opening),
        cmocka_unit_test(a_saddle_lies_round_its_opening),
        cmocka_unit_test(openings_of_shoes_reach_toward_the_unit),
        cmocka_unit_test(the_ends_of_an_oval_are_round_walls),
        cmocka_unit_test(impossible_taps_are_told),
        cmocka_unit_test(a_base_that_does_not_close_is_told),
        cmocka_unit_test(an_edge_of_no_length_marks_no_pocket),
        cmocka_unit_test(the_hint_of_an_impossible_tap_can_be_made),
    };
    return cmocka_run_group_tests(tests, seed_random, NULL);
}
