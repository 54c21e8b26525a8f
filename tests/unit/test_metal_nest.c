/* The nest of a job: what is laid out on which sheets, by gauge and material; what the
 * shop says of offcuts and grain. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>

#include <cmocka.h>
#include <math.h>
#include <string.h>

#include "base/constant.h"
#include "compiled.h"
#include "metal/nest.h"
#include "near.h"

#define SMALL_JOB(shop)                                                                                                \
    "shop \"Bench\" { " shop " }\n"                                                                                    \
    "job \"Nest\" { date 2026-01-05 }\n"                                                                               \
    "unit fan { blower 460 cfm at 0.20 in.wg, 400 cfm at 0.35 in.wg; supply 10 x 12; return 14 x 8 }\n"                \
    "run trunk from fan.supply { straight 12 ft; cap }\n"                                                              \
    "outlet desk from trunk at 8 ft left { airflow 400 cfm; flex 6 ft; boot; register 12 x 8 }\n"                      \
    "run back from fan.return { gauge 24; straight 4 ft }\n"                                                           \
    "inlet floor from back { boot; grille 24 x 12 }\n"

static const struct nest *nest_of(const struct compiled *compiled) {
    assert_non_null(compiled->job->metal);
    assert_non_null(compiled->job->metal->nest);
    return compiled->job->metal->nest;
}

/* All blanks of all parts, and all strips, each as often as it is wanted, in the group of its gauge. */
static void every_blank_and_strip_lies_on_a_sheet_of_its_gauge(void **state) {
    (void)state;
    struct compiled cleat = compiled_text("%s", SMALL_JOB("stock 48 x 120, gauge 28, price 40 per sheet; "
                                                          "stock 48 x 120, gauge 26, price 41.50 per sheet; "
                                                          "stock 48 x 120, gauge 24, price 52.25 per sheet"));
    const struct metal *metal = cleat.job->metal;
    const struct nest *nest = nest_of(&cleat);
    size_t wanted = 0, placed = 0;
    double area = 0;
    for (size_t i = 0; i < metal->parts.count; i++)
        for (size_t b = 0; b < metal->parts.at[i]->blanks.count; b++)
            wanted += metal->parts.at[i]->blanks.at[b].quantity * metal->parts.at[i]->uses.count;
    for (size_t i = 0; i < metal->strips.count; i++)
        wanted += metal->strips.at[i].count;
    assert_true(metal->strips.count > 0);
    for (size_t i = 0; i < nest->groups.count; i++) {
        const struct nest_group *group = &nest->groups.at[i];
        assert_true(group->by_price && !group->stock_assumed && !group->stock_borrowed);
        for (size_t n = 0; n < group->pieces.count; n++) {
            const struct nest_piece *piece = &group->pieces.at[n];
            assert_int_equal(piece->part ? piece->part->gauge : piece->strip->gauge, group->gauge);
            assert_int_equal(piece->unplaced, 0);
        }
        placed += group->blanks;
        area += group->metal_area;
        assert_int_equal(group->price, group->sheets * (group->gauge == 24 ? 5225 : group->gauge == 26 ? 4150 : 4000));
        assert_near(group->sheet_area, (double)group->sheets * 48 * 120 * INCH * INCH, 1e-9);
        assert_near(group->waste, (group->sheet_area - group->blank_area - group->kept_area) / group->sheet_area, 1e-9);
        assert_true(group->scrap >= group->waste - 1e-9); /* outlines are within their boxes */
    }
    assert_true(nest->groups.count >= 2);
    assert_int_equal(placed, wanted);
    assert_int_equal(nest->blanks, wanted);
    assert_near(nest->metal_area, area, 1e-9);
    compiled_free(&cleat);
}

static void what_no_sheet_takes_is_counted(void **state) {
    (void)state;
    struct compiled cleat = compiled_text("%s", SMALL_JOB("stock 12 x 30"));
    const struct nest *nest = nest_of(&cleat);
    assert_true(nest->unplaced > 0 && nest->blanks > 0);
    for (size_t i = 0; i < nest->groups.count; i++)
        for (size_t n = 0; n < nest->groups.at[i].pieces.count; n++) {
            const struct nest_piece *piece = &nest->groups.at[i].pieces.at[n];
            bool fits = stock_fits(nest->groups.at[i].stock.at[0].sheet, piece->length, piece->width);
            assert_int_equal(piece->unplaced, fits ? 0 : piece->count);
        }
    compiled_free(&cleat);
}

/* A gauge that the shop does not list: the sizes of the others, but not their prices. */
static void an_unlisted_gauge_has_sizes_but_no_prices(void **state) {
    (void)state;
    struct compiled cleat = compiled_text("%s", SMALL_JOB("stock 48 x 120, gauge 22, price 60 per sheet; "
                                                          "stock 48 x 120, gauge 20, price 70 per sheet"));
    const struct nest *nest = nest_of(&cleat);
    size_t looked = 0;
    for (size_t i = 0; i < nest->groups.count; i++) {
        if (nest->groups.at[i].gauge != 24)
            continue;
        looked++;
        assert_true(nest->groups.at[i].stock_borrowed);
        assert_false(nest->groups.at[i].by_price);
        assert_int_equal(nest->groups.at[i].stock.count, 1);
        assert_false(nest->groups.at[i].stock.at[0].sheet->priced);
        assert_int_equal(nest->groups.at[i].price, 0);
    }
    assert_int_equal(looked, 1);
    compiled_free(&cleat);
}

static void the_shop_says_what_offcuts_are_kept(void **state) {
    (void)state;
    struct compiled usual = compiled_text("%s", SMALL_JOB("stock 48 x 120"));
    struct compiled large = compiled_text("%s", SMALL_JOB("stock 48 x 120; offcut 48 x 119"));
    assert_true(nest_of(&usual)->keep_assumed);
    assert_near(nest_of(&usual)->keep[0], 12 * INCH, 1e-12);
    assert_near(nest_of(&usual)->keep[1], 24 * INCH, 1e-12);
    assert_true(nest_of(&usual)->kept_area > 0);
    assert_false(nest_of(&large)->keep_assumed);
    assert_near(nest_of(&large)->kept_area, 0, 1e-12);
    compiled_free(&usual);
    compiled_free(&large);
}

/* With the grain no blank is turned, and the longer side of each lies along the sheet. */
static void the_grain_keeps_blanks_lengthwise(void **state) {
    (void)state;
    struct compiled cleat = compiled_text("%s", SMALL_JOB("stock 120 x 48; grain lengthwise"));
    const struct nest *nest = nest_of(&cleat);
    assert_true(nest->grain);
    for (size_t i = 0; i < nest->groups.count; i++)
        for (size_t n = 0; n < nest->groups.at[i].solution->layouts.count; n++) {
            const struct nest_layout *layout = &nest->groups.at[i].solution->layouts.at[n];
            assert_near(nest_metres(layout->nodes.at[0].length), 120 * INCH, 1e-9);
            for (size_t k = 0; k < layout->nodes.count; k++)
                if (layout->nodes.at[k].kind == NEST_BLANK)
                    assert_true(!layout->nodes.at[k].turned && layout->nodes.at[k].length >= layout->nodes.at[k].width);
        }
    compiled_free(&cleat);
}

/* A sixty-fourth of an inch and a millimetre are whole steps, so that shop fractions add up exactly. */
static void shop_fractions_are_whole_steps(void **state) {
    (void)state;
    assert_near(nest_metres(127), INCH / 64, 1e-15);
    assert_near(nest_metres(NEST_STEPS_PER_MM), 1e-3, 1e-15);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(every_blank_and_strip_lies_on_a_sheet_of_its_gauge),
        cmocka_unit_test(what_no_sheet_takes_is_counted),
        cmocka_unit_test(an_unlisted_gauge_has_sizes_but_no_prices),
        cmocka_unit_test(the_shop_says_what_offcuts_are_kept),
        cmocka_unit_test(the_grain_keeps_blanks_lengthwise),
        cmocka_unit_test(shop_fractions_are_whole_steps),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
