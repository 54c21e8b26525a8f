/* Gauges of sheet against the printed table, and the least sheet that a duct asks for. */
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <setjmp.h>
#include <cmocka.h>

#include "base/constant.h"
#include "compiled.h"
#include "csv.h"
#include "metal/gauge.h"
#include "metal/stock.h"
#include "near.h"

#define POUND_PER_FOOT2 (POUND / (FOOT * FOOT))

static struct duct_size rectangle(double width, double height) {
    return (struct duct_size){SHAPE_RECTANGULAR, width * INCH, height * INCH};
}

static struct duct_size circle(double diameter) {
    return (struct duct_size){SHAPE_ROUND, diameter * INCH, diameter * INCH};
}

static struct metal_demand steel(struct duct_size size, enum pressure_class of) {
    return metal_demand(size, of, MATERIAL_GALVANISED);
}

/* ---- The table --------------------------------------------------------------------------------------------------- */

static void every_row_of_the_gauge_table_agrees_with_the_printed_one(void **state) {
    (void)state;
    struct csv csv;
    size_t rows = 0;
    csv_open(&csv, "tests/reference/gauges.csv");
    for (; csv_next(&csv); rows++) {
        const struct sheet_gauge *row = metal_gauge((int)csv_number(&csv, "gauge"));
        assert_non_null(row);
        assert_near(row->gauge, csv_number(&csv, "gauge"), 0);
        assert_near(row->thickness, csv_number(&csv, "thickness_in") * INCH, 1e-9);
        assert_near(row->thickness, csv_number(&csv, "thickness_mm") * MILLIMETRE, 1e-7);
        assert_near(row->least, csv_number(&csv, "min_in") * INCH, 1e-9);
        assert_near(metal_weight(row->gauge, MATERIAL_GALVANISED), csv_number(&csv, "lb_ft2") * POUND_PER_FOOT2, 1e-9);
    }
    csv_close(&csv);
    assert_int_equal(rows, GAUGE_LIGHTEST - GAUGE_HEAVIEST + 1);
    assert_null(metal_gauge(15));
    assert_null(metal_gauge(31));
    assert_near(metal_thickness(31), 0, 0);
    assert_near(metal_weight(31, MATERIAL_GALVANISED), 0, 0);
}

/* Cost book's 14.5 lb/ft of 40 x 18 at 22 gauge less its 6.7 % for seams: 13.59 lb/ft of bare metal. */
static void a_foot_of_duct_weighs_what_it_should(void **state) {
    (void)state;
    double foot = 2 * (40 + 18) * INCH * FOOT * metal_weight(22, MATERIAL_GALVANISED);
    assert_near(foot / POUND, 13.59, 0.005);
}

/* Density of alloy 3003, 0.0987 lb/in3. */
static void aluminium_weighs_by_its_thickness(void **state) {
    (void)state;
    for (int gauge = GAUGE_HEAVIEST; gauge <= GAUGE_LIGHTEST; gauge++) {
        double want = metal_thickness(gauge) * 0.0987 * POUND / (INCH * INCH * INCH);
        assert_near(metal_weight(gauge, MATERIAL_ALUMINIUM), want, 0.002 * want);
        assert_near(metal_weight(gauge, MATERIAL_PVC), 0, 0);
    }
}

/* ---- Pressure classes -------------------------------------------------------------------------------------------- */

static void the_class_is_the_least_one_that_is_enough(void **state) {
    (void)state;
    static const struct {
        double inches;
        enum pressure_class want;
    } cases[] = {{0.05, CLASS_HALF}, {0.5, CLASS_HALF}, {0.51, CLASS_ONE}, {1, CLASS_ONE},   {1.0047, CLASS_ONE},
                 {1.02, CLASS_TWO},  {2, CLASS_TWO},    {2.1, CLASS_OVER}, {10, CLASS_OVER}, {-0.8, CLASS_ONE}};
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        enum pressure_class of = metal_class(cases[i].inches * INCH_OF_WATER);
        assert_int_equal(of, cases[i].want);
        assert_true(metal_class_pressure(of) >=
                    fabs(cases[i].inches) * INCH_OF_WATER * (1 - 0.01)); /* 250 Pa is 1 in. w.g. */
    }
    assert_int_equal(metal_class(0), CLASS_ONE);
}

/* ---- Least sheet ------------------------------------------------------------------------------------------------- */

/* International Mechanical Code 2015, table 603.4: 0.013, 0.016, 0.019, 0.024 in are 30, 28, 26, 24 gauge. */
static void the_code_table_is_read_by_shape_side_and_pressure(void **state) {
    (void)state;
    static const struct {
        double size;
        int round[2], rectangular[2];
    } rows[] = {
        {4, {30, 30}, {30, 30}},    {8, {30, 30}, {30, 30}},    {8.5, {30, 30}, {30, 28}}, {10, {30, 30}, {30, 28}},
        {11, {30, 30}, {28, 26}},   {11.9, {30, 30}, {28, 26}}, {12, {30, 28}, {28, 26}},  {14, {30, 28}, {26, 26}},
        {14.5, {28, 26}, {26, 26}}, {16, {28, 26}, {26, 26}},   {17, {28, 26}, {26, 24}},  {18, {28, 24}, {26, 24}},
        {19, {26, 24}, {24, 24}},   {20, {26, 24}, {24, 24}},
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++)
        for (int of = CLASS_HALF; of <= CLASS_ONE; of++) {
            struct metal_demand round = steel(circle(rows[i].size), (enum pressure_class)of);
            struct metal_demand flat = steel(rectangle(4, rows[i].size), (enum pressure_class)of);
            assert_int_equal(round.gauge, rows[i].round[of]);
            assert_int_equal(flat.gauge, rows[i].rectangular[of]);
            assert_true(round.source == SOURCE_SHEET_CODE && flat.source == SOURCE_SHEET_CODE);
            assert_false(round.reinforce || flat.reinforce);
        }
}

static void beyond_the_code_other_tables_go_on_and_say_so(void **state) {
    (void)state;
    static const struct {
        double side;
        enum pressure_class of;
        int gauge;
        bool reinforce;
    } flat[] = {{21, CLASS_HALF, 24, false}, {30, CLASS_HALF, 24, false}, {36, CLASS_HALF, 22, false},
                {43, CLASS_HALF, 22, true},  {21, CLASS_ONE, 24, false},  {31, CLASS_ONE, 22, false},
                {60, CLASS_ONE, 20, true},   {97, CLASS_ONE, 18, true},   {8, CLASS_TWO, 26, false},
                {11, CLASS_TWO, 22, false},  {18, CLASS_TWO, 18, false},  {19, CLASS_TWO, 18, true},
                {8, CLASS_OVER, 26, true}};
    for (size_t i = 0; i < sizeof flat / sizeof flat[0]; i++) {
        struct metal_demand demand = steel(rectangle(flat[i].side, 6), flat[i].of);
        assert_int_equal(demand.gauge, flat[i].gauge);
        assert_int_equal(demand.reinforce, flat[i].reinforce);
        assert_int_equal(demand.source, flat[i].of < CLASS_TWO ? SOURCE_SHEET_CITY : SOURCE_SHEET_SIDES);
    }
    assert_int_equal(steel(circle(24), CLASS_ONE).gauge, 24);
    assert_int_equal(steel(circle(36), CLASS_ONE).gauge, 22);
    assert_int_equal(steel(circle(60), CLASS_ONE).gauge, 18);
    assert_false(steel(circle(60), CLASS_ONE).reinforce);
    assert_int_equal(steel(circle(60), CLASS_ONE).source, SOURCE_SHEET_ROUND);
    assert_int_equal(steel(circle(10), CLASS_TWO).source, SOURCE_SHEET_ROUND_HIGH);
}

/* More pressure, or more size, never asks for thinner sheet; what is asked for is no thinner than its thickness. */
static void sheet_grows_with_size_and_pressure(void **state) {
    (void)state;
    for (int material = MATERIAL_GALVANISED; material <= MATERIAL_ALUMINIUM; material++)
        for (int shape = 0; shape < SHAPE_COUNT; shape++) {
            double under[CLASS_COUNT] = {0};
            for (double inches = 3; inches <= 80; inches += 0.25) {
                struct duct_size size = {(enum shape)shape, inches * INCH, (shape == SHAPE_ROUND ? inches : 3) * INCH};
                double before = 0;
                for (int of = 0; of < CLASS_COUNT; of++) {
                    struct metal_demand demand = metal_demand(size, (enum pressure_class)of, (enum material)material);
                    assert_true(demand.thickness >= before && demand.thickness >= under[of]);
                    assert_true(demand.reinforce ||
                                metal_gauge(demand.gauge)->least >= demand.thickness - 0.0005 * INCH - 1e-12);
                    before = under[of] = demand.thickness;
                }
            }
        }
}

/* The code's pairs: 0.013 of steel is 0.018 of aluminium, 0.024 is 0.034. */
static void aluminium_has_to_be_thicker(void **state) {
    (void)state;
    static const double pairs[][2] = {{6, 0.018}, {12, 0.023}, {16, 0.027}, {20, 0.034}};
    for (size_t i = 0; i < sizeof pairs / sizeof pairs[0]; i++) {
        struct metal_demand demand = metal_demand(rectangle(pairs[i][0], 6), CLASS_HALF, MATERIAL_ALUMINIUM);
        assert_near(demand.thickness, pairs[i][1] * INCH, 1e-9);
    }
    struct metal_demand heavy = metal_demand(rectangle(90, 6), CLASS_HALF, MATERIAL_ALUMINIUM);
    assert_true(heavy.reinforce);
    assert_int_equal(metal_demand(rectangle(6, 6), CLASS_HALF, MATERIAL_FIBROUS_BOARD).gauge, 0);
    assert_int_equal(steel((struct duct_size){0}, CLASS_HALF).gauge, 0);
}

static void only_wide_light_long_sides_are_cross_broken(void **state) {
    (void)state;
    assert_true(metal_cross_break(30 * INCH, 58 * INCH, 24));
    assert_false(metal_cross_break(18.9 * INCH, 120 * INCH, 24));
    assert_true(metal_cross_break(19 * INCH, 120 * INCH, 20));
    assert_false(metal_cross_break(19 * INCH, 120 * INCH, 18));
    assert_false(metal_cross_break(24 * INCH, 60 * INCH, 24)); /* 10 ft2, not more */
}

/* ---- The gauge to use -------------------------------------------------------------------------------------------- */

static struct compiled with_stock(const char *stock) {
    return compiled_text("job \"J\"\nshop \"S\" {\n%s\n}\n", stock);
}

static void the_lightest_stocked_sheet_that_is_allowed_is_used(void **state) {
    (void)state;
    struct compiled job = with_stock("stock 48 x 120, gauge 26\nstock 48 x 120, gauge 22\nstock 36 x 96, gauge 24");
    const struct shop *shop = &job.job->shop;
    struct settings settings = {0};
    struct metal_choice small = metal_choose(shop, &settings, rectangle(8, 6), 0.5 * INCH_OF_WATER);
    assert_int_equal(small.demand.gauge, 30);
    assert_int_equal(small.gauge, 26);
    assert_true(!small.declared && !small.thin);
    assert_int_equal(metal_choose(shop, &settings, rectangle(20, 6), 0.5 * INCH_OF_WATER).gauge, 24);
    struct metal_choice heavy = metal_choose(shop, &settings, rectangle(60, 6), 0.5 * INCH_OF_WATER);
    assert_int_equal(heavy.gauge, 20);
    compiled_free(&job);
}

static void a_declared_gauge_stands_and_is_told_thin(void **state) {
    (void)state;
    struct compiled job = with_stock("stock 48 x 120, gauge 26");
    const struct shop *shop = &job.job->shop;
    struct settings settings = {.gauge = 28};
    struct metal_choice choice = metal_choose(shop, &settings, rectangle(20, 10), INCH_OF_WATER);
    assert_true(choice.declared && choice.thin);
    assert_int_equal(choice.gauge, 28);
    assert_int_equal(choice.demand.gauge, 24);
    settings.gauge = 22;
    assert_false(metal_choose(shop, &settings, rectangle(20, 10), INCH_OF_WATER).thin);
    settings.gauge = 12;
    assert_true(metal_choose(shop, &settings, rectangle(20, 10), INCH_OF_WATER).thin);
    compiled_free(&job);
}

static void an_overridden_sheet_is_not_stocked_twice(void **state) {
    (void)state;
    struct compiled job = with_stock("stock 48 x 120, gauge 26, price 40 per sheet\n"
                                     "stock 48 x 120, gauge 26, price 41 per sheet\nstock 36 x 96, gauge 24");
    struct arena *arena = job.job->arena;
    assert_int_equal(metal_stock(arena, &job.job->shop, MATERIAL_GALVANISED, 0).sheets.count, 2);
    assert_int_equal(metal_stock(arena, &job.job->shop, MATERIAL_GALVANISED, 26).sheets.count, 1);
    assert_int_equal(metal_stock(arena, &job.job->shop, MATERIAL_GALVANISED, 22).sheets.count, 2);
    assert_false(metal_stock(arena, &job.job->shop, MATERIAL_GALVANISED, 22).assumed);
    compiled_free(&job);
}

static void a_shop_without_sheets_has_the_usual_one(void **state) {
    (void)state;
    struct compiled job = with_stock("aspect 4");
    struct stock stock = metal_stock(job.job->arena, &job.job->shop, MATERIAL_GALVANISED, 26);
    assert_true(stock.assumed);
    assert_non_null(stock_for(&stock, 120 * INCH, 48 * INCH));
    assert_non_null(stock_for(&stock, 48 * INCH, 120 * INCH));
    assert_null(stock_for(&stock, 48.1 * INCH, 48.1 * INCH));
    compiled_free(&job);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(every_row_of_the_gauge_table_agrees_with_the_printed_one),
        cmocka_unit_test(a_foot_of_duct_weighs_what_it_should),
        cmocka_unit_test(aluminium_weighs_by_its_thickness),
        cmocka_unit_test(the_class_is_the_least_one_that_is_enough),
        cmocka_unit_test(the_code_table_is_read_by_shape_side_and_pressure),
        cmocka_unit_test(beyond_the_code_other_tables_go_on_and_say_so),
        cmocka_unit_test(sheet_grows_with_size_and_pressure),
        cmocka_unit_test(aluminium_has_to_be_thicker),
        cmocka_unit_test(only_wide_light_long_sides_are_cross_broken),
        cmocka_unit_test(the_lightest_stocked_sheet_that_is_allowed_is_used),
        cmocka_unit_test(a_declared_gauge_stands_and_is_told_thin),
        cmocka_unit_test(an_overridden_sheet_is_not_stocked_twice),
        cmocka_unit_test(a_shop_without_sheets_has_the_usual_one),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
