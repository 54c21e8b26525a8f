/* Offsets: proved for random sizes, held against closed forms and independent figures, and faulted. */
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <setjmp.h>
#include <cmocka.h>

#include "bend_sizes.h"
#include "metal/metal.h"
#include "metal/shape_offset.h"
#include "near.h"
#include "pattern_cases.h"
#include "solid_prove.h"
#include "solid_sums.h"

/* ---- Everything that a fitting must be, for random sizes --------------------------------------------------------- */

enum { TRIES = 1000 };

static struct offset random_offset(bool rectangular) {
    return (struct offset){
        .duct = rectangular ? random_rectangle() : random_tube(),
        .way = random_below(4),
        /* Less than a thirty-second aside is an ogee of kilometres of radius, which doubles do not roll back to a
           billionth. */
        .aside = random_chance(0.1) ? random_between(1.0 / 32, 0.5) * INCH : random_inches(1, 40),
        .along = random_inches(6, 120),
        .collar = random_chance(0.3) ? 0 : random_inches(0.5, 3),
    };
}

static void prove_offsets(shape_builder *build, const char *name, bool rectangular, int tries) {
    int built = 0;
    for (int n = 0; n < tries; n++) {
        struct offset offset = random_offset(rectangular);
        built += solid_prove_or_fault(name, build, &offset, sizeof offset);
    }
    assert_true(built > tries / 2);
}

static void rectangular_offsets_are_proved(void **state) {
    (void)state;
    prove_offsets(shape_angled_offset, "angled offset", true, TRIES);
    prove_offsets(shape_ogee_offset, "ogee offset", true, TRIES);
}

static void round_and_oval_offsets_are_proved(void **state) {
    (void)state;
    prove_offsets(shape_angled_offset, "angled offset", false, TRIES / 5);
    prove_offsets(shape_ogee_offset, "ogee offset", false, TRIES / 10);
}

/* The least lengths can be built, an inch less can not. */
static void offsets_are_proved_up_to_their_least_length(void **state) {
    (void)state;
    static shape_builder *const builds[] = {shape_angled_offset, shape_ogee_offset};
    for (int n = 0; n < 200; n++) {
        bool ogee = random_chance(0.5);
        struct offset offset = random_offset(random_chance(0.7));
        if (offset.duct.shape == SHAPE_OVAL) /* a flat side needs a little more: below */
            offset.duct = round_duct(offset.duct.width / INCH);
        double side = *plane_side(&offset.duct, offset.way);
        double least = ogee ? ogee_least_length(side, offset.aside) : angled_least_length(side, offset.aside);
        offset.along = least + 2 * offset.collar;
        solid_prove(ogee ? "ogee offset" : "angled offset", builds[ogee], &offset, sizeof offset);
        offset.along -= least / 100;
        assert_fault(builds[ogee], &offset, "too short");
    }
}

/* ---- Closed forms ------------------------------------------------------------------------------------------------ */

static void the_far_port_stands_aside_and_looks_on(void **state) {
    (void)state;
    static const struct space ways[] = {{-1, 0, 0}, {1, 0, 0}, {0, 0, 1}, {0, 0, -1}};
    for (int way = 0; way < 4; way++) {
        struct offset offset = {rectangle(10, 12), way, 8 * INCH, 30 * INCH, 1 * INCH};
        struct sums sums = sums_of(way % 2 ? shape_ogee_offset : shape_angled_offset, &offset, 1);
        const struct solid_port *port = &sums.solid->ports.at[1];
        struct space want = space_add(space_scale(ways[way], 8 * INCH), (struct space){0, 30 * INCH, 0});
        assert_near(space_distance(port->frame.origin, want), 0, 1e-12);
        assert_near(port->frame.along.y, 1, 1e-12);
        assert_near(port->frame.up.z, 1, 1e-12);
        sums_free(&sums);
    }
}

/* A square duct goes aside by its own width in 45 degrees: u = tan 22.5, L = W u + F. */
static void an_angled_offset_keeps_its_section(void **state) {
    (void)state;
    double u = tan(22.5 * DEGREE), length = 10 * u + 10;
    struct offset offset = {rectangle(10, 6), WAY_LEFT, 10 * INCH, length * INCH, 0};
    struct sums sums = sums_of(shape_angled_offset, &offset, 1);
    double slant = 10 * sqrt(2), cheek = 10 * (10 * u + slant);
    assert_near(sums_area(&sums, "cheek") / INCH / INCH, 2 * cheek, 1e-9);
    assert_near(sums_length(&sums, "inner side") / INCH, slant + 10 * u, 1e-9);
    assert_near(sums_length(&sums, "outer side") / INCH, slant + 10 * u, 1e-9);
    assert_near(sums_area(&sums, NULL) / INCH / INCH, 2 * cheek + 2 * 6 * (slant + 10 * u), 1e-9);
    sums_free(&sums);
}

/* Girth times the length of the middle line: what mitres take on one side they give on the other. */
static void a_round_offset_has_the_area_of_its_middle_line(void **state) {
    (void)state;
    double u = tan(15 * DEGREE), length = 8 * u + 6 / tan(30 * DEGREE);
    struct offset offset = {round_duct(8), WAY_UP, 6 * INCH, (length + 2) * INCH, 1 * INCH};
    struct sums sums = sums_of(shape_angled_offset, &offset, 8);
    assert_int_equal(sums.solid->panels.count, 3);
    assert_near(sums_area(&sums, NULL) / INCH / INCH, PI * 8 * (2 + 8 * u + 6 / sin(30 * DEGREE)), 1e-9);
    sums_free(&sums);
}

static void a_round_ogee_is_of_gores_that_turn_little(void **state) {
    (void)state;
    /* Two turns of 53.13 degrees: three mitres each, and the two middle pieces are one. */
    struct offset offset = {round_duct(8), WAY_LEFT, 20 * INCH, 40 * INCH, 0};
    struct sums sums = sums_of(shape_ogee_offset, &offset, 8);
    double angle = 2 * atan2(20, 40), radius = (40 * 40 + 20 * 20) / (4 * 20.0);
    assert_int_equal(sums.solid->panels.count, 7);
    assert_near(sums_area(&sums, NULL) / INCH / INCH, PI * 8 * 12 * radius * tan(angle / 6), 1e-9);
    sums_free(&sums);
}

/* The near mitre of an angled offset to the left, from the corners of its cheek: it leans by half of the turn. */
static double mitre_angle(const struct solid *solid, double side, double along) {
    const struct solid_panel *cheek = &solid->panels.at[0];
    double left = NAN, right = NAN;
    for (size_t i = 0; i < cheek->edges.count; i++) {
        struct space at = cheek->edges.at[i].space[0];
        if (at.y < 1e-9 || at.y > along - 1e-9)
            continue; /* the ends */
        if (fabs(at.x + side / 2) < 1e-9)
            left = at.y;
        if (fabs(at.x - side / 2) < 1e-9)
            right = at.y;
    }
    return 2 * atan2(right - left, side);
}

/* What is said of an offset is what is cut. */
static void the_angle_is_that_of_the_cut(void **state) {
    (void)state;
    for (int n = 0; n < 300; n++) {
        double side = random_inches(6, 40), aside = random_inches(1, 40), least = angled_least_length(side, aside);
        double along = least + random_inches(5, 90);
        struct offset_bend bend = angled_offset(side, aside, along);
        struct offset offset = {{SHAPE_RECTANGULAR, side, 10 * INCH}, WAY_LEFT, aside, along, bend.collar};
        struct sums sums = sums_of(shape_angled_offset, &offset, 1);
        assert_near(mitre_angle(sums.solid, side, along), bend.angle, 1e-9);
        assert_near(2 * bend.end + bend.between * cos(bend.angle), along, 1e-9);
        assert_near(sums_area(&sums, "cheek") / 2, side * offset_centre_line(&bend), 1e-9);
        sums_free(&sums);
    }
}

/* The length for a turn gives that turn, or the steepest there is. */
static void a_length_can_be_had_for_a_turn(void **state) {
    (void)state;
    for (int n = 0; n < 500; n++) {
        double side = random_inches(4, 40), aside = random_inches(0.5, 60), turn = random_between(5, 90) * DEGREE;
        double length = angled_length(side, aside, turn), least = angled_least_length(side, aside);
        double angle = angled_offset(side, aside, length).angle;
        assert_true(length > least - 1e-12);
        if (length > least + 1e-9)
            assert_near(angle, turn, 1e-7);
        else
            assert_true(angle < turn + 1e-9);
    }
}

/* ---- Independent figures ----------------------------------------------------------------------------------------- */

static void ogee_case(const struct pattern_case *reference) {
    struct offset offset = {
        .duct = rectangle(case_input(reference, "cheek_width"), case_input(reference, "depth")),
        .aside = case_input(reference, "offset") * INCH,
        .along = case_input(reference, "length") * INCH,
    };
    struct sums sums = sums_of(shape_ogee_offset, &offset, 1);
    case_near(reference, "cheek_area_each", sums_area(&sums, "cheek") / INCH / INCH / 2);
    case_near(reference, "strip_length_each", sums_length(&sums, "inner side") / INCH);
    case_near(reference, "strip_length_other", sums_length(&sums, "outer side") / INCH);
    case_near(reference, "total_area", sums_area(&sums, NULL) / INCH / INCH);
    const struct solid_panel *cheek = &sums.solid->panels.at[0];
    double least = INFINITY, greatest = 0;
    for (size_t i = 0; i < cheek->edges.count; i++)
        if (cheek->edges.at[i].shape == EDGE_ARC) {
            least = fmin(least, cheek->edges.at[i].radius);
            greatest = fmax(greatest, cheek->edges.at[i].radius);
            case_near(reference, "arc_angle_deg", fabs(cheek->edges.at[i].sweep) / DEGREE);
        }
    case_near(reference, "inner_radius", least / INCH);
    case_near(reference, "centreline_radius", (least + greatest) / 2 / INCH);
    sums_free(&sums);
}

static void independent_figures_agree(void **state) {
    (void)state;
    assert_int_equal(each_pattern_case("ogee_offset", ogee_case), 2);
}

/* ---- What cannot be ---------------------------------------------------------------------------------------------- */

static void no_offset_is_straight_duct(void **state) {
    (void)state;
    struct offset offset = {rectangle(20, 8), WAY_UP, 0, 24 * INCH, 0};
    assert_fault(shape_ogee_offset, &offset, "straight duct");
    assert_fault(shape_angled_offset, &offset, "straight duct");
}

static void a_flat_side_of_an_oval_needs_metal_in_its_throat(void **state) {
    (void)state;
    struct offset offset = {{SHAPE_OVAL, 8 * INCH, 20 * INCH}, WAY_LEFT, 6 * INCH, 24 * INCH, 0};
    assert_fault(shape_angled_offset, &offset, "bare corner");
    offset.along = ogee_least_length(8 * INCH, 6 * INCH);
    assert_fault(shape_ogee_offset, &offset, "bare corner");
    offset.along += 1 * INCH;
    solid_prove("ogee offset", shape_ogee_offset, &offset, sizeof offset);
}

static void a_short_offset_is_told_what_is_enough(void **state) {
    (void)state;
    struct offset offset = {rectangle(20, 8), WAY_UP, 10 * INCH, 4 * INCH, 0};
    struct sums sums = sums_of(shape_ogee_offset, &offset, 1);
    assert_string_equal(sums.solid->hint, "over 10 in");
    offset.along = 10 * INCH;
    struct sums again = sums_of(shape_ogee_offset, &offset, 1);
    assert_null(again.solid->fault);
    sums_free(&again);
    sums_free(&sums);
    offset.way = WAY_RIGHT;
    sums = sums_of(shape_angled_offset, &offset, 1);
    assert_string_equal(sums.solid->hint, "over 18 in");
    sums_free(&sums);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(rectangular_offsets_are_proved),
        cmocka_unit_test(round_and_oval_offsets_are_proved),
        cmocka_unit_test(offsets_are_proved_up_to_their_least_length),
        cmocka_unit_test(the_far_port_stands_aside_and_looks_on),
        cmocka_unit_test(an_angled_offset_keeps_its_section),
        cmocka_unit_test(the_angle_is_that_of_the_cut),
        cmocka_unit_test(a_length_can_be_had_for_a_turn),
        cmocka_unit_test(a_round_offset_has_the_area_of_its_middle_line),
        cmocka_unit_test(a_round_ogee_is_of_gores_that_turn_little),
        cmocka_unit_test(independent_figures_agree),
        cmocka_unit_test(no_offset_is_straight_duct),
        cmocka_unit_test(a_flat_side_of_an_oval_needs_metal_in_its_throat),
        cmocka_unit_test(a_short_offset_is_told_what_is_enough),
    };
    return cmocka_run_group_tests(tests, seed_random, NULL);
}
