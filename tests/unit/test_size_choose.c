/* The choice of one duct's size: against published tables, by hand, and against trying every size there is. */
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <setjmp.h>
#include <cmocka.h>

#include "air/air.h"
#include "csv.h"
#include "diameter.h"
#include "near.h"
#include "size/choose.h"
#include "size/limits.h"

#define FOOT 0.3048
#define INCH 0.0254
#define CFM (FOOT * FOOT * FOOT / 60)
#define FPM (FOOT / 60)
/* 1 in. w.g. per 100 ft, at 248.84 Pa. */
#define PER_100_FT (248.84 / (100 * FOOT))

struct bench {
    struct arena *arena;
    jmp_buf failed; /* never gone to: see take */
    struct diagnostics diagnostics;
    struct job job;
};

/* Memory that does not run out: a test that gets none ends there. */
static void *take(void *context, size_t size) {
    (void)context;
    void *block = malloc(size);
    if (!block)
        abort();
    return block;
}

static void give(void *context, void *block) {
    (void)context;
    free(block);
}

static struct bench *bench_new(enum measure_system system) {
    static const struct arena_source source = {take, give, NULL};
    struct bench *bench = calloc(1, sizeof *bench);
    assert_non_null(bench);
    bench->arena = arena_new(&source);
    assert_non_null(bench->arena);
    arena_on_failure(bench->arena, &bench->failed);
    bench->diagnostics.arena = bench->arena;
    bench->job = (struct job){.arena = bench->arena, .diagnostics = &bench->diagnostics, .system = system};
    return bench;
}

static void bench_free(struct bench *bench) {
    arena_free(bench->arena);
    free(bench);
}

/* A shop that stocks every whole inch of round duct. */
static void stock_whole_inches(struct bench *bench) {
    for (int i = 4; i <= 60; i++)
        *list_add(bench->arena, &bench->job.shop.round_sizes) = i * INCH;
}

static void assert_size(struct duct_size size, double width, double height) {
    assert_near(size.width / INCH, width, 1e-9);
    assert_near(size.height / INCH, height, 1e-9);
}

/* ---- Published sizes --------------------------------------------------------------------------------------------- */

/* A residential duct sizing guide's table, read; galvanised of 0.0003 ft at 0.10 in. w.g. per 100 ft. */
static void the_28_published_round_sizes_come_out(void **state) {
    (void)state;
    struct bench *bench = bench_new(MEASURE_US);
    stock_whole_inches(bench);
    const struct catalogue *catalogue = catalogue_make(&bench->job);
    struct air air = air_state(0);
    struct size_bounds none = {0};
    struct csv csv;
    int rows = 0;
    csv_open(&csv, "tests/reference/sizing_round_0p10.csv");
    for (; csv_next(&csv); rows++) {
        double flow = csv_number(&csv, "cfm") * CFM;
        struct size_need need = {.diameter = diameter_for_rate(&air, flow, 0.10 * PER_100_FT, 0.0003 * FOOT)};
        struct duct_size size;
        assert_true(choose_size(catalogue, SHAPE_ROUND, &need, &none, &size));
        assert_near(size.width / INCH, csv_number(&csv, "published_in"), 1e-9);
    }
    csv_close(&csv);
    assert_int_equal(rows, 28);
    bench_free(bench);
}

/* An office system in Handbook of Air Conditioning System Design (McGraw-Hill, 1965; the example read, the book from
 * memory): 0.145 in. w.g. per 100 ft.  The printed sizes are all at or under the rate, and ours must be; ours may not
 * be larger in outline than the printed ones, which also will do. */
static void the_office_system_keeps_to_its_friction_rate(void **state) {
    (void)state;
    static const double printed[][3] = {{3600, 24, 18}, {1800, 24, 10}, {1500, 20, 10}, {1200, 16, 10},
                                        {900, 14, 10},  {600, 10, 10},  {300, 10, 6}};
    struct bench *bench = bench_new(MEASURE_US);
    const struct catalogue *catalogue = catalogue_make(&bench->job);
    struct air air = air_state(0);
    struct size_bounds bounds = {.aspect = 4};
    double roughness = 0.0005 * FOOT, rate = 0.145 * PER_100_FT;
    for (size_t i = 0; i < sizeof printed / sizeof printed[0]; i++) {
        double flow = printed[i][0] * CFM;
        struct duct_size book = {SHAPE_RECTANGULAR, printed[i][1] * INCH, printed[i][2] * INCH}, size;
        struct size_need need = {.diameter = diameter_for_rate(&air, flow, rate, roughness)};
        assert_true(air_friction_rate(&air, flow, air_equivalent_diameter(book), roughness) <= rate);
        assert_true(choose_size(catalogue, SHAPE_RECTANGULAR, &need, &bounds, &size));
        assert_true(air_friction_rate(&air, flow, air_equivalent_diameter(size), roughness) <= rate);
        assert_true(size_perimeter(size) <= size_perimeter(book) + 1e-9);
    }
    bench_free(bench);
}

/* ---- By hand ----------------------------------------------------------------------------------------------------- */

/* 3 tons at 400 cfm: 1200 cfm. At 700 fpm that is 1200 / 700 x 144 = 246.9 in2.  Even sides give outlines
 * of 60 in (at most 14 x 16, 224 in2: too little) and 64 in (14 x 18, 252 in2, and 16 x 16, 256 in2: the squarer). */
static void a_three_ton_trunk_is_16_by_16(void **state) {
    (void)state;
    struct bench *bench = bench_new(MEASURE_US);
    const struct catalogue *catalogue = catalogue_make(&bench->job);
    struct size_need need = {.area = 3 * 400 * CFM / (700 * FPM)};
    struct size_bounds bounds = {.aspect = 4};
    struct duct_size size;
    assert_true(choose_size(catalogue, SHAPE_RECTANGULAR, &need, &bounds, &size));
    assert_size(size, 16, 16);
    /* Under 8 in of joists 246.9 / 8 = 30.9: 32 wide, just 4 to 1. */
    bounds.height = 8 * INCH;
    assert_true(choose_size(catalogue, SHAPE_RECTANGULAR, &need, &bounds, &size));
    assert_size(size, 32, 8);
    /* At 3.9 to 1 nothing will do, and 30 x 8 carries most: 3.75 to 1. */
    bounds.aspect = 3.9;
    assert_false(choose_size(catalogue, SHAPE_RECTANGULAR, &need, &bounds, &size));
    assert_size(size, 30, 8);
    /* A kept height of 10 wants 26 (260 in2; 24 gives 240). */
    bounds = (struct size_bounds){.aspect = 4, .keep_height = 10 * INCH};
    assert_true(choose_size(catalogue, SHAPE_RECTANGULAR, &need, &bounds, &size));
    assert_size(size, 26, 10);
    /* A kept height that takes much more sheet than 16 x 16 (64 in round) is not kept: 8 wants
     * 32, 80 in round, 25 %. */
    bounds = (struct size_bounds){.aspect = 4, .keep_height = 8 * INCH};
    assert_true(choose_size(catalogue, SHAPE_RECTANGULAR, &need, &bounds, &size));
    assert_size(size, 16, 16);
    /* A kept height that the limit forbids is not kept. */
    bounds = (struct size_bounds){.aspect = 4, .height = 8 * INCH, .keep_height = 10 * INCH};
    assert_true(choose_size(catalogue, SHAPE_RECTANGULAR, &need, &bounds, &size));
    assert_size(size, 32, 8);
    /* A shaft 8 in wide: the same on end. */
    bounds = (struct size_bounds){.aspect = 4, .width = 8 * INCH};
    assert_true(choose_size(catalogue, SHAPE_RECTANGULAR, &need, &bounds, &size));
    assert_size(size, 8, 32);
    bench_free(bench);
}

/* 140 cfm at 600 fpm: 33.6 in2, a circle of 6.54 in. */
static void a_branch_of_140_cfm_is_7_round(void **state) {
    (void)state;
    struct bench *bench = bench_new(MEASURE_US);
    const struct catalogue *catalogue = catalogue_make(&bench->job);
    struct size_need need = {.area = 140 * CFM / (600 * FPM)};
    struct size_bounds bounds = {0};
    struct duct_size size;
    assert_true(choose_size(catalogue, SHAPE_ROUND, &need, &bounds, &size));
    assert_size(size, 7, 7);
    bounds.height = 6 * INCH;
    assert_false(choose_size(catalogue, SHAPE_ROUND, &need, &bounds, &size));
    assert_size(size, 6, 6);
    /* Within 3 in there is no standard size at all: the smallest is given, and said not to do. */
    bounds.height = 3 * INCH;
    assert_false(choose_size(catalogue, SHAPE_ROUND, &need, &bounds, &size));
    assert_size(size, 4, 4);
    bench_free(bench);
}

/* A need that a size meets exactly is met: 10 in round, 14 x 8 in. */
static void a_size_that_is_just_enough_is_enough(void **state) {
    (void)state;
    struct bench *bench = bench_new(MEASURE_US);
    const struct catalogue *catalogue = catalogue_make(&bench->job);
    struct size_bounds bounds = {.aspect = 4, .height = 8 * INCH};
    struct size_need round = {.diameter = 10 * INCH};
    struct size_need rectangular = {.area = 14 * 8 * INCH * INCH};
    struct duct_size size;
    assert_true(choose_size(catalogue, SHAPE_ROUND, &round, &(struct size_bounds){0}, &size));
    assert_size(size, 10, 10);
    assert_true(choose_size(catalogue, SHAPE_RECTANGULAR, &rectangular, &bounds, &size));
    assert_size(size, 14, 8);
    round.diameter *= 1.00001;
    rectangular.area *= 1.00001;
    assert_true(choose_size(catalogue, SHAPE_ROUND, &round, &(struct size_bounds){0}, &size));
    assert_size(size, 12, 12);
    assert_true(choose_size(catalogue, SHAPE_RECTANGULAR, &rectangular, &bounds, &size));
    assert_size(size, 16, 8);
    bench_free(bench);
}

/* ---- The lists --------------------------------------------------------------------------------------------------- */

static void a_shop_without_sizes_gets_lists_that_are_marked_assumed(void **state) {
    (void)state;
    struct bench *us = bench_new(MEASURE_US), *metric = bench_new(MEASURE_METRIC);
    stock_whole_inches(us);
    const struct catalogue *in = catalogue_make(&us->job), *mm = catalogue_make(&metric->job);
    assert_false(us->job.shop.sizes_assumed[SHAPE_ROUND]);
    assert_true(us->job.shop.sizes_assumed[SHAPE_RECTANGULAR]);
    assert_true(us->job.source_used[SOURCE_STANDARD_SIZES]);
    assert_true(metric->job.shop.sizes_assumed[SHAPE_ROUND]);
    assert_int_equal(in->round_count, 57);
    assert_near(in->rectangular.width[0], 6 * INCH, 1e-12);
    assert_near(mm->round[0], 0.100, 1e-12);
    assert_near(mm->round[mm->round_count - 1], 1.250, 1e-12);
    assert_int_equal(metric->job.shop.round_sizes.count, mm->round_count);
    for (size_t i = 1; i < mm->rectangular.columns; i++)
        assert_true(mm->rectangular.width[i] > mm->rectangular.width[i - 1]);
    bench_free(us);
    bench_free(metric);
}

static void a_list_longer_than_can_be_used_is_an_error(void **state) {
    (void)state;
    struct bench *bench = bench_new(MEASURE_US);
    for (int i = 0; i < CATALOGUE_LIMIT + 1; i++)
        *list_add(bench->arena, &bench->job.shop.widths) = (4 + i) * INCH;
    const struct catalogue *catalogue = catalogue_make(&bench->job);
    assert_int_equal(catalogue->rectangular.columns, CATALOGUE_LIMIT);
    assert_int_equal(bench->diagnostics.error_count, 1);
    /* Asked again, the list has been cut: one fault, one error. */
    catalogue_make(&bench->job);
    assert_int_equal(bench->diagnostics.error_count, 1);
    bench_free(bench);
}

static void the_nearest_of_a_list_is_found(void **state) {
    (void)state;
    static const double list[] = {4, 6, 8, 10};
    assert_near(catalogue_nearest(list, 4, 1), 4, 0);
    assert_near(catalogue_nearest(list, 4, 4.9), 4, 0);
    assert_near(catalogue_nearest(list, 4, 5.1), 6, 0);
    assert_near(catalogue_nearest(list, 4, 9), 10, 0); /* as near to 8: the larger */
    assert_near(catalogue_nearest(list, 4, 50), 10, 0);
    assert_near(catalogue_nearest(list, 1, 7), 4, 0);
}

/* ---- Against trying every size ----------------------------------------------------------------------------------- */

/* Marsaglia's xorshift, 64 bit (from memory: Journal of Statistical Software 8, 2003). */
static double random_in(uint64_t *seed, double low, double high) {
    *seed ^= *seed << 13;
    *seed ^= *seed >> 7;
    *seed ^= *seed << 17;
    return low + (high - low) * (double)(*seed >> 11) / 9007199254740992.0;
}

static bool within(struct duct_size size, const struct size_bounds *bounds) {
    return (bounds->height <= 0 || size.height <= bounds->height + 1e-9) &&
           (bounds->width <= 0 || size.width <= bounds->width + 1e-9) &&
           (bounds->area <= 0 || size_area(size) <= bounds->area + 1e-12) &&
           (bounds->aspect <= 0 || size.shape == SHAPE_ROUND || size_aspect(size) <= bounds->aspect + 1e-9);
}

static bool enough(struct duct_size size, const struct size_need *need) {
    return air_equivalent_diameter(size) >= need->diameter && size_area(size) >= need->area &&
           size.height >= need->height - 1e-9 && size.width >= need->width - 1e-9 &&
           (size.shape == SHAPE_ROUND || size.width - size.height >= need->flat - 1e-9 || !(need->flat > 0));
}

struct tried {
    bool some;              /* any will do */
    double outline, aspect; /* of the best */
    bool kept;              /* one of the kept height will do */
    double kept_width;
    double greatest; /* equivalent of the largest within the bounds; 0: none */
};

static void try_one(struct tried *tried, struct duct_size size, const struct size_need *need,
                    const struct size_bounds *bounds) {
    if (!within(size, bounds))
        return;
    tried->greatest = fmax(tried->greatest, air_equivalent_diameter(size));
    if (!enough(size, need))
        return;
    double outline = size_perimeter(size), aspect = size_aspect(size);
    if (!tried->some || outline < tried->outline - 1e-9 ||
        (outline < tried->outline + 1e-9 && aspect < tried->aspect)) {
        tried->outline = outline;
        tried->aspect = aspect;
    }
    tried->some = true;
    bool keeps = fabs(size.height - bounds->keep_height) < 1e-9;
    if (keeps && size.shape != SHAPE_ROUND && (!tried->kept || size.width < tried->kept_width)) {
        tried->kept = true;
        tried->kept_width = size.width;
    }
}

static struct tried try_all(const struct job *job, enum shape shape, const struct size_need *need,
                            const struct size_bounds *bounds) {
    struct tried tried = {false, 0, 0, false, 0, 0};
    const struct shop *shop = &job->shop;
    if (shape == SHAPE_ROUND)
        for (size_t i = 0; i < shop->round_sizes.count; i++)
            try_one(&tried, (struct duct_size){shape, shop->round_sizes.at[i], shop->round_sizes.at[i]}, need, bounds);
    for (size_t i = 0; i < shop->widths.count && shape == SHAPE_RECTANGULAR; i++)
        for (size_t k = 0; k < shop->widths.count; k++)
            try_one(&tried, (struct duct_size){shape, shop->widths.at[i], shop->widths.at[k]}, need, bounds);
    for (size_t i = 0; i < shop->widths.count && shape == SHAPE_OVAL; i++)
        for (size_t k = 0; k < shop->oval_heights.count; k++)
            if (shop->widths.at[i] > shop->oval_heights.at[k])
                try_one(&tried, (struct duct_size){shape, shop->widths.at[i], shop->oval_heights.at[k]}, need, bounds);
    return tried;
}

/* What taps ask of the sides: in a part of the choices. */
static void add_sides(struct size_need *need, uint64_t *seed) {
    if (random_in(seed, 0, 1) < 0.3)
        need->height = random_in(seed, 2, 40) * INCH;
    if (random_in(seed, 0, 1) < 0.3)
        need->width = random_in(seed, 2, 40) * INCH;
    if (random_in(seed, 0, 1) < 0.3)
        need->flat = random_in(seed, 2, 20) * INCH;
}

static struct size_bounds random_bounds(uint64_t *seed) {
    struct size_bounds bounds = {.aspect = floor(random_in(seed, 1, 7))};
    if (random_in(seed, 0, 1) < 0.5)
        bounds.height = random_in(seed, 2, 40) * INCH;
    if (random_in(seed, 0, 1) < 0.3)
        bounds.width = random_in(seed, 2, 60) * INCH;
    if (random_in(seed, 0, 1) < 0.3)
        bounds.area = random_in(seed, 0.1, 8) * FOOT * FOOT;
    if (random_in(seed, 0, 1) < 0.4)
        bounds.keep_height = floor(random_in(seed, 2, 15)) * 2 * INCH;
    return bounds;
}

static void compare_choice(const struct job *job, const struct catalogue *catalogue, uint64_t *seed) {
    uint64_t started = *seed;
    struct air air = air_state(0);
    enum shape shape = (enum shape)random_in(seed, 0, SHAPE_COUNT);
    double flow = exp(random_in(seed, log(20), log(20000))) * CFM, velocity = random_in(seed, 300, 1500) * FPM;
    double rate = random_in(seed, 0.02, 0.2) * PER_100_FT, roughness = random_in(seed, 1e-4, 1e-2) * FOOT;
    struct size_need need = {.diameter = diameter_for_rate(&air, flow, rate, roughness), .area = flow / velocity};
    struct size_bounds bounds = random_bounds(seed);
    add_sides(&need, seed);
    struct tried tried = try_all(job, shape, &need, &bounds);
    struct duct_size size;
    bool found = choose_size(catalogue, shape, &need, &bounds, &size);
    bool good = found == tried.some && size.shape == shape;
    double kept_outline = size_perimeter((struct duct_size){shape, tried.kept_width, bounds.keep_height});
    if (found && tried.kept && kept_outline <= 1.2 * tried.outline * (1 + 1e-9))
        good = good && within(size, &bounds) && enough(size, &need) && fabs(size.height - bounds.keep_height) < 1e-9 &&
               fabs(size.width - tried.kept_width) < 1e-9;
    else if (found)
        good = good && within(size, &bounds) && enough(size, &need) &&
               fabs(size_perimeter(size) - tried.outline) < 1e-6 && fabs(size_aspect(size) - tried.aspect) < 1e-6;
    else if (tried.greatest > 0)
        good = good && within(size, &bounds) && fabs(air_equivalent_diameter(size) - tried.greatest) < 1e-9;
    if (found)
        good = good && air_friction_rate(&air, flow, air_equivalent_diameter(size), roughness) <= rate * (1 + 1e-8) &&
               flow / size_area(size) <= velocity * (1 + 1e-8);
    if (!good)
        fail_msg("seed %llu: %s of %.3f x %.3f in for %.1f cfm", (unsigned long long)started, shape_name(shape),
                 size.width / INCH, size.height / INCH, flow / CFM);
}

static void twenty_thousand_choices_are_the_best_there_is(void **state) {
    (void)state;
    struct bench *bench = bench_new(MEASURE_US);
    const struct catalogue *catalogue = catalogue_make(&bench->job);
    uint64_t seed = 20260418;
    for (int i = 0; i < 20000; i++)
        compare_choice(&bench->job, catalogue, &seed);
    bench_free(bench);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_28_published_round_sizes_come_out),
        cmocka_unit_test(the_office_system_keeps_to_its_friction_rate),
        cmocka_unit_test(a_three_ton_trunk_is_16_by_16),
        cmocka_unit_test(a_branch_of_140_cfm_is_7_round),
        cmocka_unit_test(a_size_that_is_just_enough_is_enough),
        cmocka_unit_test(a_shop_without_sizes_gets_lists_that_are_marked_assumed),
        cmocka_unit_test(a_list_longer_than_can_be_used_is_an_error),
        cmocka_unit_test(the_nearest_of_a_list_is_found),
        cmocka_unit_test(twenty_thousand_choices_are_the_best_there_is),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
