/* What seams and connections take of the sheet, and the strips between them. */
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <setjmp.h>
#include <cmocka.h>

#include "base/constant.h"
#include "compiled.h"
#include "metal/seam.h"
#include "model/words.h"
#include "near.h"

static const struct shop no_shop;

static struct duct_size rectangle(double width, double height) {
    return (struct duct_size){SHAPE_RECTANGULAR, width * INCH, height * INCH};
}

static const struct duct_size round_8 = {SHAPE_ROUND, 8 * INCH, 8 * INCH};

/* ---- Seams ------------------------------------------------------------------------------------------------------- */

static void a_pittsburgh_lock_takes_an_inch_and_a_quarter_inch(void **state) {
    (void)state;
    struct edge_allowance edges = metal_seam(&no_shop, SEAM_PITTSBURGH);
    assert_near(edges.pocket, 1 * INCH, 1e-12);
    assert_near(edges.flange, 0.25 * INCH, 1e-12);
    assert_false(edges.declared);
    assert_int_equal(edges.source, SOURCE_PITTSBURGH);
}

/* Three times the width of the lock, which is its flange. */
static void a_grooved_seam_takes_three_widths(void **state) {
    (void)state;
    struct edge_allowance edges = metal_seam(&no_shop, SEAM_GROOVED);
    assert_near(edges.pocket + edges.flange, 3 * edges.flange, 1e-12);
}

/* Machinery's Handbook, 31st edition. */
static void a_snap_lock_has_its_limits(void **state) {
    (void)state;
    const struct seam_rule *rule = metal_seam_rule(SEAM_SNAPLOCK);
    assert_near(rule->pressure_limit, 4 * INCH_OF_WATER, 1e-9);
    assert_true(rule->heaviest == 20 && rule->lightest == 26 && !rule->aluminium);
    assert_true(rule->pocket >= 0.625 * INCH);
}

static void the_shops_own_figures_go_first(void **state) {
    (void)state;
    struct compiled job = compiled_text("job \"J\"\nshop \"S\" {\nseam pittsburgh, pocket 15/16 in\n"
                                        "seam grooved, pocket 3/8 in, flange 3/16 in\n"
                                        "connection slip-and-drive, end 1 in\n}\n");
    const struct shop *shop = &job.job->shop;
    struct edge_allowance lock = metal_seam(shop, SEAM_PITTSBURGH), groove = metal_seam(shop, SEAM_GROOVED);
    assert_true(lock.declared && groove.declared && !metal_seam(shop, SEAM_LAP).declared);
    assert_near(lock.pocket, 15.0 / 16 * INCH, 1e-12);
    assert_near(lock.flange, 0.25 * INCH, 1e-12);
    assert_near(groove.flange, 3.0 / 16 * INCH, 1e-12);
    struct end_allowance end = metal_connection(shop, JOINT_SLIP_AND_DRIVE, rectangle(20, 10), false);
    assert_true(end.declared);
    assert_near(metal_end_depth(&end), 1 * INCH, 1e-12);
    assert_near(metal_finished(shop, JOINT_SLIP_AND_DRIVE, 60 * INCH), 58 * INCH, 1e-9);
    compiled_free(&job);
}

static void a_seam_is_used_where_it_fits(void **state) {
    (void)state;
    struct settings none = {0}, grooved = {.seam_set = true, .seam = SEAM_GROOVED};
    assert_int_equal(metal_seam_used(&none, SHAPE_RECTANGULAR, false), SEAM_PITTSBURGH);
    assert_int_equal(metal_seam_used(&none, SHAPE_ROUND, false), SEAM_GROOVED);
    assert_int_equal(metal_seam_used(&none, SHAPE_ROUND, true), SEAM_LAP);
    assert_int_equal(metal_seam_used(&grooved, SHAPE_RECTANGULAR, false), SEAM_PITTSBURGH);
    assert_int_equal(metal_seam_used(&grooved, SHAPE_ROUND, true), SEAM_GROOVED);
}

/* ---- Connections ------------------------------------------------------------------------------------------------- */

/* Makers' guides: half an inch each end, S on the long sides, drives on the short ones. */
static void slips_go_on_the_long_sides_and_drives_on_the_short_ones(void **state) {
    (void)state;
    static const struct {
        double width, height;
        enum side_pair slip;
    } cases[] = {{20, 10, PAIR_TOP_BOTTOM}, {10, 20, PAIR_LEFT_RIGHT}, {12, 12, PAIR_TOP_BOTTOM}};
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        struct duct_size size = rectangle(cases[i].width, cases[i].height);
        struct end_allowance end = metal_connection(&no_shop, JOINT_SLIP_AND_DRIVE, size, false);
        assert_int_equal(end.slip, cases[i].slip);
        assert_int_equal(end.sides[cases[i].slip].edge, EDGE_RAW);
        assert_int_equal(end.sides[!cases[i].slip].edge, EDGE_TURNED);
        assert_near(end.sides[0].allowance, 0.5 * INCH, 1e-12);
        assert_near(end.sides[1].allowance, 0.5 * INCH, 1e-12);
    }
}

/* A slip stops 3/4 in short, a drive is 2 in longer; two of each. */
static void strips_are_cut_to_their_sides(void **state) {
    (void)state;
    struct strip_set set = metal_strips(JOINT_SLIP_AND_DRIVE, rectangle(10, 20));
    assert_true(set.fits);
    assert_int_equal(set.count, 2);
    assert_int_equal(set.at[0].pair, PAIR_LEFT_RIGHT);
    assert_near(set.at[0].length, 19.25 * INCH, 1e-12);
    assert_near(set.at[1].length, 12 * INCH, 1e-12);
    assert_near(set.at[1].rule->width, 2.125 * INCH, 1e-12);
    assert_true(set.at[0].count == 2 && set.at[1].count == 2);
    set = metal_strips(JOINT_STANDING_S, rectangle(30, 12));
    assert_near(set.at[0].length, 29.25 * INCH, 1e-12);
    assert_near(set.at[0].rule->width - metal_strips(JOINT_SLIP_AND_DRIVE, rectangle(30, 12)).at[0].rule->width,
                2 * INCH, 1e-12);
    assert_int_equal(metal_strips(JOINT_FLANGE, rectangle(30, 12)).count, 0);
    assert_false(metal_strips(JOINT_SLIP_AND_DRIVE, rectangle(0.5, 0.5)).fits);
}

/* The layers between folds: a drive of 1-1/8 in with hems of 1/2 in, an S of three layers of 1 in and a lip of 1/4 in,
 * a standing S with a rib 1 in high besides.  A strip that ends as flat as it began is folded up as much as down, but
 * for its lip. */
static void strips_are_folded_in_layers(void **state) {
    (void)state;
    static const double layers[3][STRIP_FOLDS + 1] = {{1, 1, 1, 0.25}, {0.5, 1.125, 0.5}, {1, 1, 1, 1, 1, 0.25}};
    const struct strip_rule *rules[] = {
        metal_connection_rule(JOINT_SLIP_AND_DRIVE)->slip,
        metal_connection_rule(JOINT_SLIP_AND_DRIVE)->other,
        metal_connection_rule(JOINT_STANDING_S)->slip,
    };
    for (int i = 0; i < 3; i++) {
        double at = 0, turned = 0;
        for (size_t k = 0; k <= rules[i]->fold_count; k++) {
            bool last = k == rules[i]->fold_count;
            assert_near((last ? rules[i]->width : rules[i]->folds[k].at) - at, layers[i][k] * INCH, 1e-12);
            if (last)
                break;
            at = rules[i]->folds[k].at;
            turned += rules[i]->folds[k].angle / DEGREE;
        }
        assert_near(turned, i == 0 ? 30 : i == 1 ? 360 : 0, 1e-9);
    }
}

/* A maker's sheet: 60 and 72 in of coil make 56-1/4 and 68-1/4 in of duct. */
static void rolled_flanges_take_what_the_maker_says(void **state) {
    (void)state;
    assert_near(metal_finished(&no_shop, JOINT_FLANGE, 60 * INCH), 56.25 * INCH, 1e-9);
    assert_near(metal_finished(&no_shop, JOINT_FLANGE, 72 * INCH), 68.25 * INCH, 1e-9);
}

static void only_one_end_of_round_duct_is_crimped(void **state) {
    (void)state;
    struct end_allowance male = metal_connection(&no_shop, JOINT_CRIMP, round_8, true);
    struct end_allowance female = metal_connection(&no_shop, JOINT_CRIMP, round_8, false);
    assert_true(metal_end_depth(&male) >= 1 * INCH);
    assert_near(metal_end_depth(&female), 0, 0);
    assert_int_equal(male.sides[0].edge, EDGE_CRIMPED);
    assert_int_equal(female.sides[0].edge, EDGE_RAW);
    assert_near(metal_finished(&no_shop, JOINT_CRIMP, 60 * INCH), 60 * INCH - metal_end_depth(&male), 1e-12);
}

static void a_wide_side_gets_a_standing_s(void **state) {
    (void)state;
    struct settings none = {0}, flange = {.joint_set = true, .joint = JOINT_FLANGE};
    assert_int_equal(metal_joint_used(&none, rectangle(20, 10)), JOINT_SLIP_AND_DRIVE);
    assert_int_equal(metal_joint_used(&none, rectangle(10, 20.5)), JOINT_STANDING_S);
    assert_int_equal(metal_joint_used(&none, round_8), JOINT_CRIMP);
    struct settings declared = {.joint_set = true, .joint = JOINT_SLIP_AND_DRIVE};
    struct settings standing = {.joint_set = true, .joint = JOINT_STANDING_S};
    assert_int_equal(metal_joint_used(&declared, rectangle(20, 10)), JOINT_SLIP_AND_DRIVE);
    assert_int_equal(metal_joint_used(&declared, rectangle(20.5, 10)), JOINT_STANDING_S);
    assert_int_equal(metal_joint_used(&declared, round_8), JOINT_CRIMP);
    assert_int_equal(metal_joint_used(&standing, rectangle(12, 10)), JOINT_STANDING_S);
    assert_int_equal(metal_joint_used(&flange, rectangle(10, 20.5)), JOINT_FLANGE);
    assert_int_equal(metal_joint_used(&flange, round_8), JOINT_CRIMP);
}

/* ---- Notches ----------------------------------------------------------------------------------------------------- */

static void the_corner_is_notched_on_the_drives_side(void **state) {
    (void)state;
    struct end_allowance end = metal_connection(&no_shop, JOINT_SLIP_AND_DRIVE, rectangle(20, 10), false);
    struct notch notch = metal_notch(&end, 0);
    assert_int_equal(notch.shape, NOTCH_SQUARE);
    assert_near(notch.depth, 0.5 * INCH, 1e-12);
    assert_near(notch.width[PAIR_TOP_BOTTOM], 0, 0);
    assert_near(notch.width[PAIR_LEFT_RIGHT], 0.5 * INCH, 1e-12);
    notch = metal_notch(&end, 0.375 * INCH);
    assert_near(notch.depth, 0.375 * INCH, 1e-12);
    assert_near(notch.width[PAIR_LEFT_RIGHT], 0.375 * INCH, 1e-12);
}

static void flanges_are_notched_at_45_degrees_and_raw_ends_not_at_all(void **state) {
    (void)state;
    struct end_allowance flange = metal_connection(&no_shop, JOINT_FLANGE, rectangle(20, 10), false);
    struct end_allowance raw = metal_connection(&no_shop, JOINT_RAW, rectangle(20, 10), false);
    struct notch notch = metal_notch(&flange, 0);
    assert_int_equal(notch.shape, NOTCH_VEE);
    assert_near(notch.width[0], notch.depth, 1e-12);
    assert_near(notch.width[1], notch.depth, 1e-12);
    assert_int_equal(metal_notch(&raw, 0.5 * INCH).shape, NOTCH_NONE);
}

/* ---- The tables -------------------------------------------------------------------------------------------------- */

static void every_seam_and_connection_has_a_row_and_a_source(void **state) {
    (void)state;
    for (int kind = 0; kind < SEAM_COUNT; kind++) {
        const struct seam_rule *rule = metal_seam_rule((enum seam_kind)kind);
        assert_true(rule->title && rule->shapes && rule->heaviest < rule->lightest && seam_words[kind]);
        assert_non_null(source_of(rule->source)->method);
        assert_true(rule->pocket + rule->flange > 0 && rule->pressure_limit > 0);
    }
    for (int kind = 0; kind < JOINT_COUNT; kind++) {
        const struct connection_rule *rule = metal_connection_rule((enum joint_kind)kind);
        assert_true(rule->title && rule->shapes && rule->longest_side > 0 && joint_words[kind]);
        assert_non_null(source_of(rule->source)->method);
        assert_true((rule->end > 0) == (kind != JOINT_RAW) && rule->pressure_limit > 0);
    }
}

/* Inches that nobody can mark with a metric rule: 25.4, 6.35 and 12.7 mm. */
static void a_metric_shop_marks_whole_millimetres(void **state) {
    (void)state;
    const struct shop metric = {.system = MEASURE_METRIC};
    struct edge_allowance lock = metal_seam(&metric, SEAM_PITTSBURGH);
    assert_near(lock.pocket, 25 * MILLIMETRE, 1e-12);
    assert_near(lock.flange, 6 * MILLIMETRE, 1e-12);
    struct end_allowance end = metal_connection(&metric, JOINT_SLIP_AND_DRIVE, rectangle(20, 10), false);
    assert_near(end.sides[0].allowance, 13 * MILLIMETRE, 1e-12);
    assert_near(metal_notch(&end, 0).depth, 13 * MILLIMETRE, 1e-12);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_metric_shop_marks_whole_millimetres),
        cmocka_unit_test(a_pittsburgh_lock_takes_an_inch_and_a_quarter_inch),
        cmocka_unit_test(a_grooved_seam_takes_three_widths),
        cmocka_unit_test(a_snap_lock_has_its_limits),
        cmocka_unit_test(the_shops_own_figures_go_first),
        cmocka_unit_test(a_seam_is_used_where_it_fits),
        cmocka_unit_test(slips_go_on_the_long_sides_and_drives_on_the_short_ones),
        cmocka_unit_test(strips_are_cut_to_their_sides),
        cmocka_unit_test(strips_are_folded_in_layers),
        cmocka_unit_test(rolled_flanges_take_what_the_maker_says),
        cmocka_unit_test(only_one_end_of_round_duct_is_crimped),
        cmocka_unit_test(a_wide_side_gets_a_standing_s),
        cmocka_unit_test(the_corner_is_notched_on_the_drives_side),
        cmocka_unit_test(flanges_are_notched_at_45_degrees_and_raw_ends_not_at_all),
        cmocka_unit_test(every_seam_and_connection_has_a_row_and_a_source),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
