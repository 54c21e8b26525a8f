/* Prices of things and hours: what the shop says, what has none, and what does not fit. */
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <setjmp.h>
#include <cmocka.h>

#include "base/constant.h"
#include "cost/cut_lengths.h"
#include "cost/shop_prices.h"
#include "piece/kinds.h"
#include "price_bench.h"
#include "random.h"

/* ---- A take-off made by hand ------------------------------------------------------------------------------------- */

static const struct bill_item strap_item = {
    .key = "strap", .group = BILL_HANGING, .measure = BILL_LENGTH, .example = "price strap ... per foot"};
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
    struct shop_prices *prices = ARENA_NEW(job->arena, struct shop_prices);
    *prices = shop_prices_of(job, job->arena);
    job->takeoff->prices = prices;
    job->takeoff->work = ARENA_NEW(job->arena, struct labour_counts);
    cost_price(job);
    return compiled;
}

static void whole_packages_are_bought_at_the_most_particular_price(void **state) {
    (void)state;
    const struct bill_line lines[] = {
        {.item = &strap_item, .title = "wide strap", .key = "strap 1 x 18", .net = 30, .wanted = 40},
        {.item = &strap_item, .title = "strap", .key = "strap 1 x 22", .net = 25.2 * FOOT, .wanted = 25.2 * FOOT},
        {.item = &face_item, .title = "large face", .key = "register 14 x 8", .net = 3, .wanted = 3},
        {.item = &face_item, .title = "face", .key = "register 12 x 6", .net = 7, .wanted = 7},
        {.item = &paste_item, .title = "paste", .net = 0.002, .wanted = 0.0077},
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
    /* 25.2 ft: 2 coils of 25 ft, 19.98 */
    assert_int_equal(price->lines.at[1].amount, 1998);
    /* 3 at 19.80, 7 at 14.20 */
    assert_int_equal(price->lines.at[2].amount, 5940);
    assert_int_equal(price->lines.at[3].amount, 9940);
    /* 7.7 L are 2.034 gallons: 3 at 18.50 */
    assert_int_equal(price->lines.at[4].amount, 5550);
    assert_int_equal(price->groups[BILL_HANGING], 6198);
    /* 42.00 19.98 59.40 99.40 55.50: waste is in what was counted, or is not due */
    assert_int_equal(price->build_up.total, 27628);
    compiled_free(&compiled);
}

/* What is brushed or cut is counted no nearer than half a percent; what is counted is never short. */
static void what_is_short_by_nothing_is_not_bought_twice(void **state) {
    (void)state;
    static const double gallon = 231 * INCH * INCH * INCH;
    const struct bill_line lines[] = {
        {.item = &paste_item, .title = "paste", .net = 0.1 * gallon, .wanted = 0.2507 * gallon},
        {.item = &paste_item, .title = "paste", .key = "paste thick", .net = 0.1 * gallon, .wanted = 0.2514 * gallon},
        {.item = &strap_item, .title = "strap", .net = 11 * FOOT, .wanted = 11.83 * FOOT},
        {.item = &strap_item, .title = "strap", .key = "strap 1", .net = 5 * FOOT, .wanted = 5.84 * FOOT},
        {.item = &strap_item, .title = "strap", .key = "strap 2", .net = 0.01 * FOOT, .wanted = 0.01 * FOOT},
        {.item = &strap_item, .title = "strap", .key = "strap 3", .net = 900 * FOOT, .wanted = 1000.04 * FOOT},
        {.item = &face_item, .title = "face", .net = 501, .wanted = 501},
    };
    struct compiled compiled = by_hand("markup 0 %\nprice strap 1 per foot\nprice paste 5 per quart\n"
                                       "price register 8 per box of 500\n",
                                       lines, 7);
    static const thousandths bought[] = {1000, 2000, 11800, 5900, 100, 1000000, 2000};
    for (size_t i = 0; i < 7; i++)
        assert_int_equal(compiled.job->price->lines.at[i].bought, bought[i]);
    compiled_free(&compiled);
}

/* ---- Lengths that are not joined --------------------------------------------------------------------------------- */

static const struct labour_line *work_of(const struct price *price, const char *word) {
    for (size_t i = 0; i < price->labour.count; i++)
        if (strcmp(price->labour.at[i].count.word, word) == 0)
            return &price->labour.at[i];
    return NULL;
}

/* Three runs of that length of flexible duct, pulled tight; how it is sold and what else the shop says. */
static struct compiled three_runs(double feet, const char *shop) {
    return compiled_text("job \"Three\"\n%s"
                         "shop \"More\" { %s }\n"
                         "unit fan { blower 660 cfm at 0.30 in.wg, 600 cfm at 0.60 in.wg, 180 cfm at 0.80 in.wg; "
                         "cooling 1.5 ton; supply 10 x 10; return 14 x 8 }\n"
                         "run trunk from fan.supply { straight 12 ft; cap }\n"
                         "outlet a from trunk at 3 ft left { airflow 150 cfm; size 8 round; flex %g ft, stretched 100 "
                         "%%; boot; register 12 x 8 }\n"
                         "outlet b from trunk at 6 ft left { airflow 150 cfm; size 8 round; flex %g ft, stretched 100 "
                         "%%; boot; register 12 x 8 }\n"
                         "outlet c from trunk at 9 ft left { airflow 150 cfm; size 8 round; flex %g ft, stretched 100 "
                         "%%; boot; register 12 x 8 }\n"
                         "run back from fan.return { straight 4 ft }\ninlet floor from back { boot; grille 24 x 12 }\n",
                         BENCH_SHOP, shop, feet, feet, feet);
}

static void a_box_yields_whole_pieces(void **state) {
    (void)state;
    static const struct {
        double feet;
        const char *shop;
        thousandths bought;
        double sleeves;
    } ways[] = {
        {13.5, "waste 0 %", 3000, 0},                         /* 40.5 ft, but one run a box */
        {12.5, "waste 0 %", 2000, 0},                         /* two runs to a box */
        {8.2, "waste 0 %", 1000, 0},                          /* 24.6 ft */
        {8.2, "waste 8 %", 2000, 0},                          /* 26.6 ft with what is wasted */
        {30, "waste 0 %", 4000, 3},                           /* 25 and 5 ft each: the rests are of one box */
        {13.5, "waste 8 %; price flex 2 per foot", 43700, 0}, /* 43.74 ft, within half a percent */
    };
    for (size_t i = 0; i < sizeof ways / sizeof ways[0]; i++) {
        struct compiled compiled = three_runs(ways[i].feet, ways[i].shop);
        const struct price *price = bench_price(&compiled);
        const struct priced_line *flex = bench_line(price, "Flexible duct, 8");
        assert_int_equal(flex->bought, ways[i].bought);
        const struct bill_line *sleeve = NULL, *tie = NULL;
        for (size_t k = 0; k < price->lines.count; k++) {
            const struct bill_line *line = price->lines.at[k].line;
            sleeve = strcmp(line->item->key, "flex_sleeve") == 0 ? line : sleeve;
            tie = strcmp(line->item->key, "flex_tie") == 0 ? line : tie;
        }
        assert_true(ways[i].sleeves > 0 ? sleeve && sleeve->net == ways[i].sleeves : !sleeve);
        assert_true(tie->net == 6 + 2 * ways[i].sleeves);
        compiled_free(&compiled);
    }
    struct compiled compiled = three_runs(13.5, "waste 0 %");
    assert_string_equal(bench_line(bench_price(&compiled), "Flexible duct, 8")->line->basis,
                        "3 pieces, each cut from a single package of 25 ft: 3 of them");
    compiled_free(&compiled);
    compiled = three_runs(30, "waste 8 %");
    const struct labour_line *work = work_of(bench_price(&compiled), "splice");
    assert_int_equal(work->amount[LABOUR_FIELD], 3 * 1000);
    assert_int_equal(work->hours[LABOUR_FIELD], 750); /* of 0.25 h */
    assert_string_equal(
        bench_line(bench_price(&compiled), "Flexible duct, 8")->line->basis,
        "3 pieces, each cut from a single package of 25 ft: 4 of them; what is longer is joined, with 3 "
        "splices; 8 % waste, as the shop says");
    compiled_free(&compiled);
}

/* First fit decreasing as it is told, package by package. */
static size_t first_fit_plainly(double *pieces, size_t count, double length) {
    double rests[64];
    size_t whole = 0, opened = 0;
    for (size_t i = 0; i < count; i++)
        for (; pieces[i] > length * (1 + 1e-9); whole++)
            pieces[i] -= length;
    for (size_t done = 0; done < count; done++) {
        size_t longest = 0, k = 0;
        for (size_t i = 1; i < count; i++)
            longest = pieces[i] > pieces[longest] ? i : longest;
        while (k < opened && rests[k] < pieces[longest])
            k++;
        if (k == opened)
            rests[opened++] = length * (1 + 1e-9);
        rests[k] -= pieces[longest];
        pieces[longest] = -1;
    }
    return whole + opened;
}

static void lengths_are_cut_first_fit_the_longest_first(void **state) {
    (void)state;
    struct arena *arena = arena_new(NULL);
    jmp_buf full;
    if (setjmp(full))
        abort();
    arena_on_failure(arena, &full);
    static const double published[] = {0.7, 0.6, 0.5, 0.4, 0.3, 0.2, 0.2}; /* 2.9: three are fewest */
    assert_int_equal(cut_lengths(arena, published, 7, 1), 3);
    for (int round = 0; round < 300; round++) {
        double pieces[60], copy[60], sum = 0, length = random_between(5, 30);
        size_t count = (size_t)random_between(1, 60.99);
        for (size_t i = 0; i < count; i++)
            sum += pieces[i] = copy[i] = random_between(0.5, 35);
        size_t cut = cut_lengths(arena, pieces, count, length);
        if (cut != first_fit_plainly(copy, count, length) || (double)cut * length < sum * (1 - 1e-9))
            fail_msg("seed %llu: %zu packages of %g", (unsigned long long)seed, cut, length);
        arena_clear(arena);
    }
    arena_free(arena);
}

static void measured_things_are_billed_to_the_tenth(void **state) {
    (void)state;
    const struct bill_line line = {.item = &strap_item, .title = "strap", .net = 57.26 * FOOT, .wanted = 57.26 * FOOT};
    struct compiled compiled = by_hand("markup 0 %\nprice strap 1.85 per foot\n", &line, 1);
    assert_int_equal(compiled.job->price->lines.at[0].bought, 57300);
    assert_int_equal(compiled.job->price->lines.at[0].amount, 10601); /* 57.3 x 1.85 = 106.005 */
    compiled_free(&compiled);
}

/* ---- What is wrong ----------------------------------------------------------------------------------------------- */

struct wrong {
    const char *shop, *message, *hint;
};

static void what_has_no_price_or_does_not_fit_is_told_with_a_line_to_type(void **state) {
    (void)state;
    static const struct wrong wrongs[] = {
        {"", "'strap' has no price: strap", "price strap ... per foot"},
        {"price strap 3 per gallon\n", "'strap' is measured by length, and 'gallon' is not",
         "price strap ... per foot"},
        {"price strap 3 per rol of 10 ft\n", "nothing is sold per 'rol'", "write per roll"},
        {"price strap 3 per roll\n", "how much is in a roll is not said, and 'strap' is measured by length",
         "per roll of 25 ft"},
        {"price strap 3 per roll of 500\n", "'strap' is measured by length, and 'roll' is not",
         "price strap ... per foot"},
        {"price strap 3 per foot of 2 ft\n", "'strap' is measured by length, and 'foot' is not",
         "price strap ... per foot"},
        {"price strap 0.00001 per foot\n", "this is finer than prices are counted: expected at most four decimals",
         NULL},
        {"price strap 1 per foot\nmarkup 5 %\nmargin 5 %\n", "there is a markup and a margin: expected one of them",
         "leave out one of them, or state the one that counts in the job itself; a markup of 25 % is a margin of 20 %"},
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

/* ---- Hours ------------------------------------------------------------------------------------------------------- */

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
    assert_string_equal(said->hint, "rate field ... per hour");
    compiled_free(&compiled);
}

/* ---- The job's own words ----------------------------------------------------------------------------------------- */

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
    static const char *const works[] = {"hanger", "splice", "sealing", "wrapping", "lining"};
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
        double least = line->line->item->measure == BILL_EACH ? 1 - 1e-9 : 0.995;
        assert_true((double)line->bought / 1000 * line->package >= line->line->wanted * least);
        assert_true(line->line->packages || ((double)line->bought / 1000 - 1) * line->package < line->line->wanted);
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
        cmocka_unit_test(what_is_short_by_nothing_is_not_bought_twice),
        cmocka_unit_test(a_box_yields_whole_pieces),
        cmocka_unit_test(lengths_are_cut_first_fit_the_longest_first),
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
    return cmocka_run_group_tests(tests, seed_random, NULL);
}
