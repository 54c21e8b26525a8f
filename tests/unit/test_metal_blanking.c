/* Blanks of straight rectangular joints against separately computed girths; their marks as the
 * shop gets them; stacks. */
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <setjmp.h>
#include <cmocka.h>

#include "base/constant.h"
#include "compiled.h"
#include "metal/blanking.h"
#include "metal/gauge.h"
#include "metal/metal.h"
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

/* ---- Girths ------------------------------------------------------------------------------------------------------ */

/* Separately computed: blank length, girth of one wrap, of an L, of the two kinds of side, in; net weight of the metal
 * and gross weight of two L's, lb. */
static const struct {
    double width, height, length;
    int gauge;
    double blank, wrap, half, sides[2], net, gross;
} computed[] = {
    {20, 10, 58, 24, 59, 61.25, 31.25, {22, 10.5}, 27.93666667, 29.60243056},
    {14, 8, 48, 26, 49, 45.25, 23.25, {16, 8.5}, 13.288, 14.3355625},
};
enum { COMPUTED = sizeof computed / sizeof computed[0] };

static void girths_agree_with_the_computed_ones(void **state) {
    (void)state;
    for (size_t i = 0; i < COMPUTED; i++) {
        struct straight_joint joint = joint_of(computed[i].width, computed[i].height, computed[i].length);
        double girths[2], weight = metal_weight(computed[i].gauge, MATERIAL_GALVANISED) / POUND;
        assert_near(joint_blank_length(&joint) / INCH, computed[i].blank, 1e-9);
        assert_int_equal(joint_girths(&joint, WRAP_ONE, girths), 1);
        assert_near(girths[0] / INCH, computed[i].wrap, 1e-9);
        assert_int_equal(joint_girths(&joint, WRAP_SIDES, girths), 2);
        assert_near(girths[0] / INCH, computed[i].sides[0], 1e-9);
        assert_near(girths[1] / INCH, computed[i].sides[1], 1e-9);
        assert_int_equal(joint_girths(&joint, WRAP_HALVES, girths), 1);
        assert_near(girths[0] / INCH, computed[i].half, 1e-9);
        assert_near(size_perimeter(joint.size) * joint.length * weight, computed[i].net, 1e-6);
        assert_near(2 * joint_blank_length(&joint) * girths[0] * weight, computed[i].gross, 1e-6);
    }
}

/* ---- The blanks themselves --------------------------------------------------------------------------------------- */

/* The first straight joint of a trunk of that size and length, of a shop with that sheet. */
static struct compiled trunk_of(const char *shop, const char *size, double length) {
    return compiled_text("job \"Blanks\"\nshop \"Shop\" { %s }\n"
                         "unit fan { blower 400 cfm at 0.4 in.wg; supply %s; return %s }\n"
                         "run trunk from fan.supply { straight %g in }\n"
                         "outlet end from trunk { airflow 400 cfm; register 30 x 20 }\n"
                         "inlet hall from fan.return { straight 4 ft; grille 30 x 20 }\n",
                         shop, size, size, length);
}

static const struct part *first_part(const struct compiled *job) {
    assert_int_equal(job->job->diagnostics->error_count, 0);
    assert_string_equal(job->job->metal->parts.at[0]->shape, "straight joint");
    return job->job->metal->parts.at[0];
}

static void blank_is(const struct blank *blank, double length, double girth, size_t quantity) {
    assert_near(blank->width / INCH, fmax(length, girth), 1e-9);
    assert_near(blank->height / INCH, fmin(length, girth), 1e-9);
    assert_int_equal(blank->quantity, quantity);
}

/* The same figures, laid flat from the solid with its allowances.  The sheet decides in how many pieces. */
static void blanks_laid_flat_have_the_computed_girths(void **state) {
    (void)state;
    static const char *const sheets[] = {"stock 60 x 120", "stock 60 x 60", "stock 59.5 x 23"};
    for (size_t i = 0; i < COMPUTED; i++)
        for (size_t s = 0; s < sizeof sheets / sizeof *sheets; s++) {
            char size[32];
            snprintf(size, sizeof size, "%g x %g", computed[i].width, computed[i].height);
            struct compiled job = trunk_of(sheets[s], size, computed[i].length);
            const struct part *part = first_part(&job);
            bool wrap = computed[i].wrap <= (s == 0 ? 120 : s == 1 ? 60 : 23);
            if (wrap)
                blank_is(&part->blanks.at[0], computed[i].blank, computed[i].wrap, 1);
            else if (s < 2)
                blank_is(&part->blanks.at[0], computed[i].blank, computed[i].half, 2);
            else
                for (size_t b = 0; b < 2; b++)
                    blank_is(&part->blanks.at[b], computed[i].blank, computed[i].sides[b], 2);
            compiled_free(&job);
        }
}

/* Marks from the one edge, in; s is a seam, b a bend. */
static void marks_are(const struct blank *blank, const double *want, const char *kinds, size_t count) {
    assert_int_equal(blank->marks.count, count);
    for (size_t i = 0; i < count; i++) {
        assert_near(blank->marks.at[i].at / INCH, want[i], 1e-9);
        assert_int_equal(blank->marks.at[i].kind, kinds[i] == 'b' ? LINE_BEND : LINE_SEAM);
    }
}

/* A fact of the trade (common practice, no source): with a pocket of 1 in the first mark of an
 * 8 in side stands at 9. */
static void the_first_brake_mark_of_an_8_in_side_stands_at_9_in(void **state) {
    (void)state;
    struct compiled job = trunk_of("stock 60 x 120", "20 x 8", 58);
    marks_are(&first_part(&job)->blanks.at[0], (const double[]){1, 9, 29, 37, 57}, "sbbbs", 5);
    compiled_free(&job);
}

static void each_bend_takes_its_deduction(void **state) {
    (void)state;
    struct compiled job = trunk_of("stock 60 x 120; bend-deduction 1/16 in", "20 x 8", 58);
    const struct blank *blank = &first_part(&job)->blanks.at[0];
    const double half = 1.0 / 32;
    marks_are(blank, (const double[]){1, 9 - half, 29 - 3 * half, 37 - 5 * half, 57 - 6 * half}, "sbbbs", 5);
    assert_near(fmax(blank->width, blank->height) / INCH, 59, 1e-9);
    assert_near(fmin(blank->width, blank->height) / INCH, 57.25 - 6 * half, 1e-9);
    compiled_free(&job);
}

/* ---- Sheets ------------------------------------------------------------------------------------------------------ */

static void the_fewest_pieces_that_the_sheets_take_are_cut(void **state) {
    (void)state;
    static const struct {
        double width, height, length;
        bool fits;
        enum wrap wrap;
    } cases[] = {
        {14, 8, 48, true, WRAP_ONE},  /* 49 x 45.25 lies along the sheet */
        {20, 10, 47, true, WRAP_ONE}, /* 48 x 61.25, the other way round */
        {20, 10, 58, true, WRAP_HALVES}, {36, 20, 58, true, WRAP_SIDES},
        {47, 20, 58, false, WRAP_SIDES}, {20, 10, 120, false, WRAP_SIDES},
    };
    struct stock_sheet sheet = {.sides = {48 * INCH, 120 * INCH}, .gauge = 26};
    struct stock stock = {.sheets = {.at = &sheet, .count = 1}};
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        struct straight_joint joint = joint_of(cases[i].width, cases[i].height, cases[i].length);
        enum wrap wrap;
        assert_int_equal(joint_wrap(&joint, &stock, &wrap), cases[i].fits);
        assert_int_equal(wrap, cases[i].wrap);
    }
}

/* ---- Stacks ------------------------------------------------------------------------------------------------------ */

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

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(girths_agree_with_the_computed_ones),
        cmocka_unit_test(blanks_laid_flat_have_the_computed_girths),
        cmocka_unit_test(the_first_brake_mark_of_an_8_in_side_stands_at_9_in),
        cmocka_unit_test(each_bend_takes_its_deduction),
        cmocka_unit_test(the_fewest_pieces_that_the_sheets_take_are_cut),
        cmocka_unit_test(stacks_are_six_to_eight_light_sheets_and_fewer_heavy_ones),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
