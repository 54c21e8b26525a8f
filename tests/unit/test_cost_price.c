/* Prices of things and hours: what the shop says, what has none, and what does not fit. */
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <setjmp.h>
#include <cmocka.h>

#include "base/constant.h"
#include "piece/kinds.h"
#include "price_bench.h"

/* ---- A take-off made by hand ---------------------------------------------------------------------------------------
 */

static const struct bill_item strap_item = {
    .key = "strap", .group = BILL_HANGING, .measure = BILL_LENGTH, .example = "price strap 0.21 per foot"};
static const struct bill_item face_item = {
    .key = "register", .group = BILL_FACES, .measure = BILL_EACH, .example = "price register 14.20 per each"};
static const struct bill_item paste_item = {
    .key = "paste", .group = BILL_SEALING, .measure = BILL_VOLUME, .example = "price paste 18.50 per gallon"};

/* A job that is nothing but a shop, with these lines counted; priced. */
static struct compiled by_hand(const char *shop, const struct bill_line *lines, size_t count) {
    struct compiled compiled = compiled_text("shop \"Hand\" {\n%s}\n", shop);
    struct job *job = (struct job *)(uintptr_t)compiled.job;
    job->metal = ARENA_NEW(job->arena, struct metal);
    job->takeoff = ARENA_NEW(job->arena, struct takeoff);
    for (size_t i = 0; i < count; i++)
        *list_add(job->arena, &job->takeoff->lines) = lines[i];
    cost_price(job);
    return compiled;
}

static void whole_packages_are_bought_at_the_most_particular_price(void **state) {
    (void)state;
    const struct bill_line lines[] = {
        {.item = &strap_item, .title = "wide strap", .key = "strap 1 x 18", .net = 30, .wanted = 40},
        {.item = &strap_item, .title = "strap", .key = "strap 1 x 22", .net = 25.01 * FOOT, .wanted = 25.01 * FOOT},
        {.item = &face_item, .title = "large face", .key = "register 14 x 8", .net = 3, .wanted = 3},
        {.item = &face_item, .title = "face", .key = "register 12 x 6", .net = 7, .wanted = 7},
        {.item = &paste_item, .title = "paste", .net = 0.002, .wanted = 0.0076},
    };
    struct compiled compiled = by_hand("rate shop 38 per hour\nmarkup 0 %\nwaste 10 %\n"
                                       "price strap 0.125 per foot\nprice \"strap 1 x\" 21 per roll of 100 ft\n"
                                       "price \"strap 1 x 22\" 9.99 per coil of 25 ft\n"
                                       "price register 14.20 per each\nprice \"register 14 x 8\" 19.80 per each\n"
                                       "price paste 18.50 per gallon\n",
                                       lines, 5);
    const struct price *price = compiled.job->price;
    assert_non_null(price);
    assert_true(price->complete);
    /* 40 m are 131.23 ft: 2 rolls of 100 ft, 42.00 */
    assert_int_equal(price->lines.at[0].bought, 2000);
    assert_int_equal(price->lines.at[0].amount, 4200);
    assert_string_equal(price->lines.at[0].unit, "roll of 100 ft");
    /* 25.01 ft: 2 coils of 25 ft, 19.98 */
    assert_int_equal(price->lines.at[1].amount, 1998);
    /* 3 at 19.80, 7 at 14.20 */
    assert_int_equal(price->lines.at[2].amount, 5940);
    assert_int_equal(price->lines.at[3].amount, 9940);
    /* 7.6 L are 2.008 gallons: 3 at 18.50 */
    assert_int_equal(price->lines.at[4].amount, 5550);
    /* the straps of the second line alone hold no loss: 10 % of 19.98 is 2.00 */
    assert_int_equal(bench_step(price, STEP_WASTE)->amount, 200);
    assert_int_equal(price->groups[BILL_HANGING], 6198);
    /* 42.00 19.98 59.40 99.40 55.50: 276.28, and the waste */
    assert_int_equal(price->build_up.total, 27828);
    compiled_free(&compiled);
}

static void measured_things_are_billed_to_the_tenth(void **state) {
    (void)state;
    const struct bill_line line = {.item = &strap_item, .title = "strap", .net = 57.21 * FOOT, .wanted = 57.21 * FOOT};
    struct compiled compiled = by_hand("markup 0 %\nprice strap 1.85 per foot\n", &line, 1);
    assert_int_equal(compiled.job->price->lines.at[0].bought, 57300);
    assert_int_equal(compiled.job->price->lines.at[0].amount, 10601); /* 57.3 x 1.85 = 106.005 */
    compiled_free(&compiled);
}

/* ---- What is wrong -------------------------------------------------------------------------------------------------
 */

struct wrong {
    const char *shop, *message, *hint;
};

static void what_has_no_price_or_does_not_fit_is_told_with_a_line_to_type(void **state) {
    (void)state;
    static const struct wrong wrongs[] = {
        {"", "'strap' has no price: strap", "price strap 0.21 per foot"},
        {"price strap 3 per gallon\n", "'strap' is measured by length, and 'gallon' is not",
         "price strap 0.21 per foot"},
        {"price strap 3 per rol of 10 ft\n", "nothing is sold per 'rol'", "write per roll"},
        {"price strap 3 per roll\n", "how much is in a roll is not said, and 'strap' is measured by length",
         "per roll of 25 ft"},
        {"price strap 3 per roll of 500\n", "'strap' is measured by length, and 'roll' is not",
         "price strap 0.21 per foot"},
        {"price strap 3 per foot of 2 ft\n", "'strap' is measured by length, and 'foot' is not",
         "price strap 0.21 per foot"},
        {"price strap 0.00001 per foot\n", "this is finer than prices are counted: expected at most four decimals",
         NULL},
        {"price strap 1 per foot\nmarkup 5 %\nmargin 5 %\n", "there is a markup and a margin: expected one of them",
         "leave out one of them, or state the one that counts in the job itself; a markup of 25 % is a margin of 20 %"},
        {"price strap 1 per foot\nrate roof 5 per hour\n", "there is no 'roof' labour: hours are shop or field hours",
         "rate field 5 per hour"},
        {"price strap 1 per foot\nrate shop 5 per day\n", "labour is paid per hour, not per 'day'",
         "rate shop 5 per hour"},
    };
    const struct bill_line lines[] = {{.item = &strap_item, .title = "strap", .net = 1, .wanted = 1},
                                      {.item = &strap_item, .title = "other strap", .net = 1, .wanted = 1}};
    for (size_t i = 0; i < sizeof wrongs / sizeof wrongs[0]; i++) {
        char shop[300];
        snprintf(shop, sizeof shop, "%s%s", strstr(wrongs[i].shop, "markup") ? "" : "markup 0 %\n", wrongs[i].shop);
        struct compiled compiled = by_hand(shop, lines, 2);
        const struct diagnostic *said = compiled_said(&compiled, "price", NULL, 0);
        assert_non_null(said);
        assert_string_equal(said->message, wrongs[i].message);
        assert_int_equal(said->level, DIAGNOSTIC_ERROR);
        if (wrongs[i].hint)
            assert_string_equal(said->hint, wrongs[i].hint);
        assert_null(compiled_said(&compiled, "price", NULL, 1)); /* once, for both lines */
        assert_false(compiled.job->price->complete);
        compiled_free(&compiled);
    }
}

static void a_shop_that_states_no_rate_prices_nothing(void **state) {
    (void)state;
    struct compiled compiled = compiled_text(
        "job \"Plain\"\nshop \"S\" { price flex 1 per foot; hours flex, field 1 h; tax 5 %% }\n" BENCH_JOB);
    assert_int_equal(compiled.job->diagnostics->error_count, 0);
    assert_non_null(compiled.job->takeoff);
    assert_null(compiled.job->price);
    compiled_free(&compiled);
}

/* ---- Hours ---------------------------------------------------------------------------------------------------------
 */

static const struct labour_line *work_of(const struct price *price, const char *word) {
    for (size_t i = 0; i < price->labour.count; i++)
        if (strcmp(price->labour.at[i].count.word, word) == 0)
            return &price->labour.at[i];
    return NULL;
}

static void hours_are_counts_times_what_one_takes_times_access(void **state) {
    (void)state;
    struct compiled compiled = compiled_text("job \"Hours\" { place crawl 60 F }\n%s"
                                             "shop \"More\" { access crawl 130 %%; hours flex, shop 6 min per joint; "
                                             "hours flex, field 0.1 h per foot }\n" BENCH_JOB,
                                             BENCH_SHOP);
    const struct price *price = bench_price(&compiled);
    /* two tapped runs: 2 x 0.30 h in the shop, 2 x 0.35 h x 130 % in the field */
    const struct labour_line *tap = work_of(price, "tap");
    assert_int_equal(tap->hours[LABOUR_SHOP], 600);
    assert_int_equal(tap->hours[LABOUR_FIELD], 910);
    /* 13 ft of flexible duct at 0.1 h a foot, 130 %: 1.69 h; shop by the joint */
    const struct labour_line *flex = work_of(price, "flex");
    assert_string_equal(flex->per[LABOUR_FIELD], "foot");
    assert_int_equal(flex->amount[LABOUR_FIELD], 13000);
    assert_int_equal(flex->hours[LABOUR_FIELD], 1690);
    assert_int_equal(flex->amount[LABOUR_SHOP], (int64_t)flex->count.joints * 1000);
    assert_int_equal(flex->hours[LABOUR_SHOP], (int64_t)flex->count.joints * 100);
    thousandths sums[LABOUR_KIND_COUNT] = {0};
    for (size_t i = 0; i < price->labour.count; i++)
        for (enum labour_kind kind = 0; kind < LABOUR_KIND_COUNT; kind++)
            sums[kind] += price->labour.at[i].hours[kind];
    assert_int_equal(price->sums.hours[LABOUR_SHOP], sums[LABOUR_SHOP]);
    assert_int_equal(price->sums.hours[LABOUR_FIELD], sums[LABOUR_FIELD]);
    compiled_free(&compiled);
}

static void high_work_takes_longer_besides(void **state) {
    (void)state;
    struct compiled compiled =
        compiled_text("job \"High\" { place attic 100 F, up 14 ft }\n%s"
                      "shop \"More\" { access attic 130 %%; access high 120 %%, above 12 ft }\n" BENCH_JOB,
                      BENCH_SHOP);
    /* 2 x 0.35 h x 130 % x 120 % */
    assert_int_equal(work_of(bench_price(&compiled), "tap")->hours[LABOUR_FIELD], 1090);
    compiled_free(&compiled);
    compiled = compiled_text("job \"Low\" { place attic 100 F, up 12 ft }\n%s"
                             "shop \"More\" { access attic 130 %%; access high 120 %%, above 12 ft }\n" BENCH_JOB,
                             BENCH_SHOP);
    assert_int_equal(work_of(bench_price(&compiled), "tap")->hours[LABOUR_FIELD], 910);
    compiled_free(&compiled);
    compiled = compiled_text("job \"No\"\nshop \"More\" { access attic 130 %%, above 12 ft }\n" BENCH_JOB);
    assert_string_equal(compiled_said(&compiled, "value", NULL, 0)->message, "a height is only for high work");
    compiled_free(&compiled);
}

static void work_without_hours_and_hours_without_rate_are_told(void **state) {
    (void)state;
    struct compiled compiled = compiled_text("job \"Hours\"\nshop \"S\" {\n" BENCH_PRICES
                                             "hours register, field 0.2 h per pice\nmarkup 5 %%\n}\n" BENCH_JOB);
    assert_non_null(compiled_said(&compiled, "price", NULL, 0));
    size_t boots = 0, pice = 0;
    for (size_t i = 0; i < compiled.job->diagnostics->all.count; i++) {
        const struct diagnostic *said = compiled.job->diagnostics->all.at[i];
        boots += strcmp(said->message, "no hours are given for 'boot'") == 0;
        pice += strcmp(said->message, "no hours are per 'pice'") == 0 && strcmp(said->hint, "write per piece") == 0;
    }
    assert_int_equal(boots, 1);
    assert_int_equal(pice, 1);
    compiled_free(&compiled);
    compiled =
        compiled_text("job \"Hours\"\nshop \"S\" {\n" BENCH_PRICES BENCH_HOURS "rate shop 38 per hour\n}\n" BENCH_JOB);
    const struct diagnostic *said = compiled_said(&compiled, "price", NULL, 0);
    assert_string_equal(said->message, "there are field hours in the job, and no rate for them");
    assert_string_equal(said->hint, "rate field 44 per hour");
    compiled_free(&compiled);
}

/* ---- The job's own words -------------------------------------------------------------------------------------------
 */

static void what_the_job_says_goes_before_the_shop(void **state) {
    (void)state;
    struct compiled compiled = compiled_text(
        "job \"Own\" { margin 20 %%; fixed \"Permit\" 180; tax 5 %% on price; currency \"EUR\"; round to 10 up }\n"
        "shop \"Fixed\" { fixed \"Permit\" 90; fixed \"Truck\" 60 }\n%s" BENCH_JOB,
        BENCH_SHOP);
    const struct price *price = bench_price(&compiled);
    assert_int_equal(price->terms.profit, PROFIT_MARGIN);
    assert_int_equal(price->terms.profit_share, 200000);
    assert_int_equal(price->terms.extras.count, 2);
    assert_string_equal(price->terms.extras.at[0].title, "Truck");
    assert_int_equal(price->terms.extras.at[1].amount, 18000);
    assert_int_equal(price->terms.tax[TAX_MATERIAL], 62500);
    assert_int_equal(price->terms.tax[TAX_PRICE], 50000);
    assert_string_equal(price->currency.mark, "EUR");
    assert_int_equal(price->build_up.price % 1000, 0);
    assert_true(price->build_up.price >= price->build_up.unrounded);
    compiled_free(&compiled);
}

static bool says(const struct shop *shop, const char *word, const char *item) {
    for (size_t i = 0; i < shop->entries.count; i++) {
        const struct reading *reading = &shop->entries.at[i]->reading;
        if (strcmp(reading->form->word, word) == 0 && strcmp(reading->argument[0].text, item) == 0)
            return true;
    }
    print_message("jobs/standard.shop lacks %s %s\n", word, item);
    return false;
}

/* What only a job can name has no price there. */
static void the_standard_shop_prices_every_item_and_all_work(void **state) {
    (void)state;
    static const char text[] = "use \"standard.shop\"\njob \"Any\"\n";
    struct cleat *cleat = cleat_new(NULL);
    cleat_compile_text(cleat, "jobs/any.job", text, strlen(text));
    const struct shop *shop = &cleat_job(cleat)->shop;
    assert_non_null(shop->name);
    size_t count, missing = 0;
    const struct bill_item *items = bill_items(&count);
    for (size_t i = 0; i < count; i++)
        if (strcmp(items[i].key, "sheet") != 0 && strcmp(items[i].key, "ready_made") != 0 &&
            strcmp(items[i].key, "other") != 0)
            missing += !says(shop, "price", items[i].key);
    for (size_t i = 0; i < piece_kinds()->count; i++)
        missing += piece_kinds()->kinds[i]->make && !says(shop, "hours", piece_kinds()->kinds[i]->form.word);
    static const char *const works[] = {"hanger", "sealing", "wrapping", "lining"};
    for (size_t i = 0; i < sizeof works / sizeof works[0]; i++)
        missing += !says(shop, "hours", works[i]);
    assert_int_equal(missing, 0);
    cleat_free(cleat);
}

static void every_line_of_a_compiled_job_is_its_price_times_its_quantity(void **state) {
    (void)state;
    struct compiled compiled = compiled_text("job \"Lines\" { insulation R-8 }\n%s" BENCH_JOB, BENCH_SHOP);
    const struct price *price = bench_price(&compiled);
    money groups[BILL_GROUP_COUNT] = {0}, sum = 0;
    assert_int_equal(price->lines.count, compiled.job->takeoff->lines.count);
    for (size_t i = 0; i < price->lines.count; i++) {
        const struct priced_line *line = &price->lines.at[i];
        assert_true(line->priced);
        assert_true((double)line->bought / 1000 * line->package >= line->line->wanted * (1 - 1e-9));
        assert_true(((double)line->bought / 1000 - 1) * line->package < line->line->wanted);
        assert_int_equal(line->amount, ((__extension__(__int128) line->price) * line->bought * 2 + 100000) / 200000);
        groups[line->line->item->group] += line->amount;
        sum += line->amount;
    }
    for (size_t i = 0; i < BILL_GROUP_COUNT; i++)
        assert_int_equal(groups[i], price->groups[i]);
    assert_int_equal(bench_step(price, STEP_MATERIAL)->amount, sum);
    compiled_free(&compiled);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(whole_packages_are_bought_at_the_most_particular_price),
        cmocka_unit_test(measured_things_are_billed_to_the_tenth),
        cmocka_unit_test(what_has_no_price_or_does_not_fit_is_told_with_a_line_to_type),
        cmocka_unit_test(a_shop_that_states_no_rate_prices_nothing),
        cmocka_unit_test(hours_are_counts_times_what_one_takes_times_access),
        cmocka_unit_test(high_work_takes_longer_besides),
        cmocka_unit_test(work_without_hours_and_hours_without_rate_are_told),
        cmocka_unit_test(what_the_job_says_goes_before_the_shop),
        cmocka_unit_test(the_standard_shop_prices_every_item_and_all_work),
        cmocka_unit_test(every_line_of_a_compiled_job_is_its_price_times_its_quantity),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
