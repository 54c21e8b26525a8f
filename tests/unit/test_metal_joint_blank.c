/* Blanks of straight rectangular joints against separately computed girths; marks; stacks. */
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <setjmp.h>
#include <cmocka.h>

#include "base/constant.h"
#include "metal/joint_blank.h"
#include "metal/gauge.h"
#include "near.h"

static const struct shop no_shop;

/* A Pittsburgh lock, 1/2 in at each end. */
static struct straight_joint joint_of(double width, double height, double length) {
    struct duct_size size = {SHAPE_RECTANGULAR, width * INCH, height * INCH};
    struct end_allowance end = metal_connection(&no_shop, JOINT_SLIP_AND_DRIVE, size, false);
    double depth = metal_end_depth(&end);
    return (struct straight_joint){
        .size = size,
        .length = length * INCH,
        .ends = {depth, depth},
        .seam = metal_seam(&no_shop, SEAM_PITTSBURGH),
    };
}

static struct stock stock_of(struct stock_sheet *sheets, size_t count) {
    struct stock stock = {0};
    stock.sheets.at = sheets;
    stock.sheets.count = count;
    return stock;
}

/* ---- Girths ---- */

/* Separately computed: blank length, girth of one wrap, of an L, of the two kinds of side, in; net weight of the metal
 * and gross weight of two L's, lb. */
static void blanks_agree_with_the_computed_ones(void **state) {
    (void)state;
    static const struct {
        double width, height, length;
        int gauge;
        double blank, wrap, half, sides[2], net, gross;
    } cases[] = {
        {20, 10, 58, 24, 59, 61.25, 31.25, {22, 10.5}, 27.93666667, 29.60243056},
        {14, 8, 48, 26, 49, 45.25, 23.25, {16, 8.5}, 13.288, 14.3355625},
    };
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        struct straight_joint joint = joint_of(cases[i].width, cases[i].height, cases[i].length);
        struct joint_blank wrap = joint_blanks(&joint, BLANK_WRAP).blanks[0],
                           half = joint_blanks(&joint, BLANK_HALVES).blanks[0];
        struct joint_plan sides = joint_blanks(&joint, BLANK_SIDES);
        double weight = metal_weight(cases[i].gauge, MATERIAL_GALVANISED) / POUND;
        assert_near(wrap.length / INCH, cases[i].blank, 1e-9);
        assert_near(wrap.girth / INCH, cases[i].wrap, 1e-9);
        assert_near(half.girth / INCH, cases[i].half, 1e-9);
        assert_near(sides.blanks[0].girth / INCH, cases[i].sides[0], 1e-9);
        assert_near(sides.blanks[1].girth / INCH, cases[i].sides[1], 1e-9);
        assert_true(wrap.count == 1 && half.count == 2 && sides.blanks[0].count == 2 && sides.blanks[1].count == 2);
        assert_near(size_perimeter(joint.size) * joint.length * weight, cases[i].net, 1e-6);
        assert_near(half.count * half.length * half.girth * weight, cases[i].gross, 1e-6);
    }
}

/* ---- Marks ---- */

static void marks_are(const struct joint_blank *blank, const double *want, size_t count) {
    assert_int_equal(blank->mark_count, count);
    for (size_t i = 0; i < count; i++)
        assert_near(blank->marks[i].at / INCH, want[i], 1e-9);
}

/* The trade's fact: an 8 in side behind a 1 in pocket is braked at 9 in. */
static void the_first_brake_mark_of_an_8_in_side_stands_at_9_in(void **state) {
    (void)state;
    struct straight_joint joint = joint_of(8, 14, 48);
    struct joint_blank wrap = joint_blanks(&joint, BLANK_WRAP).blanks[0];
    marks_are(&wrap, (const double[]){1, 9, 23, 31, 45}, 5);
    assert_int_equal(wrap.marks[0].kind, MARK_POCKET);
    assert_int_equal(wrap.marks[1].kind, MARK_BEND);
    assert_int_equal(wrap.marks[4].kind, MARK_FLANGE);
    assert_near(wrap.girth / INCH - wrap.marks[4].at / INCH, 0.25, 1e-9);
}

static void halves_and_sides_are_marked_from_one_edge(void **state) {
    (void)state;
    struct straight_joint joint = joint_of(20, 10, 58);
    struct joint_blank half = joint_blanks(&joint, BLANK_HALVES).blanks[0];
    struct joint_plan sides = joint_blanks(&joint, BLANK_SIDES);
    marks_are(&half, (const double[]){1, 21, 31}, 3);
    marks_are(&sides.blanks[0], (const double[]){1, 21}, 2);
    marks_are(&sides.blanks[1], (const double[]){0.25, 10.25}, 2);
    assert_int_equal(sides.blanks[0].marks[1].kind, MARK_POCKET);
    assert_int_equal(sides.blanks[1].marks[0].kind, MARK_FLANGE);
    assert_near(half.panels[0] + half.panels[1], 30 * INCH, 1e-12);
}

/* Four bends of a wrap, two of an L; each mark has half of its own bend before it. */
static void each_bend_takes_its_deduction(void **state) {
    (void)state;
    struct straight_joint joint = joint_of(20, 10, 58);
    joint.bend_deduction = 0.0625 * INCH;
    struct joint_blank wrap = joint_blanks(&joint, BLANK_WRAP).blanks[0],
                       half = joint_blanks(&joint, BLANK_HALVES).blanks[0];
    assert_near(wrap.girth / INCH, 61.25 - 4 * 0.0625, 1e-9);
    assert_near(half.girth / INCH, 31.25 - 2 * 0.0625, 1e-9);
    marks_are(&half, (const double[]){1, 21 - 0.03125, 31 - 0.09375}, 3);
}

static void a_raw_edge_has_no_mark(void **state) {
    (void)state;
    struct straight_joint joint = joint_of(20, 10, 58);
    joint.seam = metal_seam(&no_shop, SEAM_LAP);
    struct joint_blank half = joint_blanks(&joint, BLANK_HALVES).blanks[0];
    marks_are(&half, (const double[]){20, 30}, 2);
    assert_near(half.girth / INCH, 30.75, 1e-9);
}

/* ---- Sheets ---- */

static void the_fewest_pieces_that_the_sheets_take_are_cut(void **state) {
    (void)state;
    static const struct {
        double width, height, length;
        enum blanking way;
    } cases[] = {
        {14, 8, 48, BLANK_WRAP},  /* 49 x 45.25 lies along the sheet */
        {20, 10, 47, BLANK_WRAP}, /* 48 x 61.25, the other way round */
        {20, 10, 58, BLANK_HALVES}, {36, 20, 58, BLANK_SIDES}, {47, 20, 58, BLANK_NONE}, {20, 10, 120, BLANK_NONE},
    };
    struct stock_sheet sheet[] = {{{48 * INCH, 120 * INCH}, 26}};
    struct stock stock = stock_of(sheet, 1);
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        struct straight_joint joint = joint_of(cases[i].width, cases[i].height, cases[i].length);
        struct joint_plan plan = joint_plan_of(&joint, &stock);
        assert_int_equal(plan.way, cases[i].way);
        assert_non_null(blanking_words(plan.way));
        for (size_t b = 0; b < plan.count && plan.way != BLANK_NONE; b++)
            assert_ptr_equal(plan.blanks[b].sheet, &sheet[0]);
    }
}

static void the_smallest_sheet_that_takes_a_blank_is_named(void **state) {
    (void)state;
    struct stock_sheet sheets[] = {
        {{60 * INCH, 120 * INCH}, 26}, {{48 * INCH, 120 * INCH}, 26}, {{48 * INCH, 96 * INCH}, 26}};
    struct stock stock = stock_of(sheets, 3);
    struct straight_joint joint = joint_of(14, 8, 48);
    assert_ptr_equal(joint_plan_of(&joint, &stock).blanks[0].sheet, &sheets[2]);
    joint = joint_of(18, 9, 58);
    assert_int_equal(joint_plan_of(&joint, &stock).way, BLANK_WRAP);
    assert_ptr_equal(joint_plan_of(&joint, &stock).blanks[0].sheet, &sheets[0]);
}

/* ---- Stacks ---- */

/* Six to eight light sheets: common practice. */
static void stacks_are_six_to_eight_light_sheets_and_fewer_heavy_ones(void **state) {
    (void)state;
    assert_int_equal(metal_stack(8, 26), 8);
    assert_int_equal(metal_stack(8, 24), 6);
    assert_int_equal(metal_stack(8, 16), 2);
    assert_int_equal(metal_stack(1, 16), 1);
    for (int gauge = GAUGE_HEAVIEST; gauge <= GAUGE_LIGHTEST; gauge++) {
        double thick = metal_stack(8, gauge) * metal_thickness(gauge), most = 8 * metal_thickness(26);
        assert_true(thick <= most + 1e-12 && thick + metal_thickness(gauge) > most);
    }
    assert_int_equal(metal_stack(8, 12), 8);
}

static void equal_blanks_are_batched_in_the_order_in_which_they_come(void **state) {
    (void)state;
    struct arena *arena = arena_new(NULL);
    jmp_buf out;
    if (!arena || setjmp(out))
        fail_msg("no memory");
    arena_on_failure(arena, &out);
    struct straight_joint large = joint_of(20, 10, 58), small = joint_of(14, 8, 48), turned = joint_of(10, 20, 58);
    struct joint_use uses[40];
    for (size_t i = 0; i < 40; i++) {
        const struct straight_joint *joint = i % 4 == 0 ? &large : i % 4 == 1 ? &small : i % 4 == 2 ? &turned : &large;
        uses[i] =
            (struct joint_use){joint_blanks(joint, BLANK_HALVES).blanks[0], i % 4 == 3 ? 24 : 26, MATERIAL_GALVANISED};
    }
    struct batch_list list = joint_batches(arena, uses, 40, 8);
    assert_int_equal(list.batches.count, 4);
    for (size_t i = 0; i < 4; i++) {
        const struct joint_batch *batch = &list.batches.at[i];
        assert_near(batch->blank.marks[1].at, uses[i].blank.marks[1].at, 0);
        assert_int_equal(batch->gauge, uses[i].gauge);
        assert_int_equal(batch->blank.count, 20);
        assert_int_equal(batch->depth, i == 3 ? 6 : 8);
        assert_int_equal(batch->stacks, i == 3 ? 4 : 3);
    }
    assert_int_equal(joint_batches(arena, uses, 0, 8).batches.count, 0);
    arena_free(arena);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(blanks_agree_with_the_computed_ones),
        cmocka_unit_test(the_first_brake_mark_of_an_8_in_side_stands_at_9_in),
        cmocka_unit_test(halves_and_sides_are_marked_from_one_edge),
        cmocka_unit_test(each_bend_takes_its_deduction),
        cmocka_unit_test(a_raw_edge_has_no_mark),
        cmocka_unit_test(the_fewest_pieces_that_the_sheets_take_are_cut),
        cmocka_unit_test(the_smallest_sheet_that_takes_a_blank_is_named),
        cmocka_unit_test(stacks_are_six_to_eight_light_sheets_and_fewer_heavy_ones),
        cmocka_unit_test(equal_blanks_are_batched_in_the_order_in_which_they_come),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
