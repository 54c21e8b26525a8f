/* The build-up of a price: both published-form checks to the cent, a small job worked by hand, and that every page adds
 * up. */
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <setjmp.h>
#include <cmocka.h>

#include <jansson.h>
#include <stdlib.h>
#include <string.h>

#include "cost/build_up.h"
#include "random.h"

static jmp_buf full;

static int set_up(void **state) {
    struct arena *arena = arena_new(NULL);
    arena_on_failure(arena, &full);
    *state = arena;
    return 0;
}

static int tear_down(void **state) {
    arena_free(*state);
    return 0;
}

static const struct step *step_of(const struct build_up *up, enum step_kind kind) {
    for (size_t i = 0; i < up->steps.count; i++)
        if (up->steps.at[i].kind == kind)
            return &up->steps.at[i];
    return NULL;
}

/* ---- tests/reference/cost_checks.json, exact decimal arithmetic -------------------------------------------------- */

/* A decimal text in parts of one, exactly. */
static int64_t parts(const json_t *object, const char *key, int decimals) {
    const char *text = json_string_value(json_object_get(object, key));
    assert_non_null(text);
    int64_t value = 0;
    int behind = -1;
    for (; *text; text++) {
        if (*text == '.')
            behind = 0;
        else {
            value = value * 10 + (*text - '0');
            behind += behind >= 0;
        }
    }
    for (behind = behind < 0 ? 0 : behind; behind < decimals; behind++)
        value *= 10;
    return value;
}

static struct terms terms_of(const json_t *inputs) {
    return (struct terms){
        .tax = {[TAX_MATERIAL] = parts(inputs, "sales_tax", 6)},
        .rated = {true, true},
        .rate = {[LABOUR_SHOP] = parts(inputs, "shop_rate", 4), [LABOUR_FIELD] = parts(inputs, "field_rate", 4)},
        .burden = parts(inputs, "burden", 6),
        .overhead = parts(inputs, "overhead", 6),
        .contingency = parts(inputs, "contingency", 6),
        .profit_share = parts(inputs, "profit", 6),
    };
}

static struct sums sums_of(const json_t *inputs) {
    money material = parts(inputs, "material", 2);
    return (struct sums){
        /* waste is in what is bought */
        .material = money_add(material, money_share(material, parts(inputs, "waste", 6))),
        .hours = {[LABOUR_SHOP] = parts(inputs, "shop_hours", 3), [LABOUR_FIELD] = parts(inputs, "field_hours", 3)},
    };
}

static money amount_of(const struct build_up *up, enum step_kind kind) {
    const struct step *step = step_of(up, kind);
    assert_non_null(step);
    return step->amount;
}

static void check_case(struct arena *arena, const json_t *one) {
    const json_t *inputs = json_object_get(one, "inputs"), *expected = json_object_get(one, "expected");
    static const struct {
        enum profit profit;
        bool bond;
        const char *price;
    } ways[] = {{PROFIT_MARKUP, false, "price_markup"},
                {PROFIT_MARGIN, false, "price_margin"},
                {PROFIT_MARKUP, true, "markup_with_bond"},
                {PROFIT_MARGIN, true, "margin_with_bond"}};
    for (size_t i = 0; i < sizeof ways / sizeof ways[0]; i++) {
        struct terms terms = terms_of(inputs);
        struct sums sums = sums_of(inputs);
        struct build_up up = {0};
        *list_add(arena, &terms.extras) = (struct extra){.title = "Other", .amount = parts(inputs, "other", 2)};
        terms.profit = ways[i].profit;
        terms.bond = ways[i].bond ? parts(inputs, "bond", 6) : 0;
        build_up_work(&up, &terms, &sums, arena);
        assert_int_equal(up.material, parts(expected, "material", 2));
        assert_int_equal(up.tax, parts(expected, "tax", 2));
        assert_int_equal(up.labour, parts(expected, "labour", 2));
        assert_int_equal(amount_of(&up, STEP_BURDEN), parts(expected, "burden", 2));
        assert_int_equal(up.direct, parts(expected, "direct", 2));
        assert_int_equal(amount_of(&up, STEP_OVERHEAD), parts(expected, "overhead", 2));
        assert_int_equal(amount_of(&up, STEP_CONTINGENCY), parts(expected, "contingency", 2));
        assert_int_equal(up.cost, parts(expected, "cost", 2));
        assert_int_equal(up.price, parts(expected, ways[i].price, 2));
        assert_int_equal(up.total, up.price);
    }
}

static void both_checks_come_out_to_the_cent(void **state) {
    json_t *checks = json_load_file("tests/reference/cost_checks.json", 0, NULL),
           *cases = json_object_get(checks, "cases");
    assert_int_equal(json_array_size(cases), 2);
    for (size_t i = 0; i < json_array_size(cases); i++)
        check_case(*state, json_array_get(cases, i));
    json_decref(checks);
}

/* ---- By hand ----------------------------------------------------------------------------------------------------- */

/* A small job with everything in it, each line worked on paper:
 *   2 sheets at 41.50                         83.00
 *   3 registers at 14.20                      42.60
 *   54 ft of flexible duct, 8 % waste among it, at 1.85     99.90
 *                              material      225.50
 *   permit 180.00, taxed: tax, 6.25 % of 225.50 + 180.00 = 405.50    25.34375 ->  25.34
 *   shop, 4.25 h at 38.00                    161.50
 *   field, 7.64 h at 44.00                   336.16
 *   burden, 32 % of 497.66                   159.2512 -> 159.25
 *   permit                                   180.00
 *   crane, by others                         250.00
 *                              direct       1337.75     (225.50 25.34 161.50 336.16 159.25 180.00 250.00)
 *   overhead, 12 %                           160.53
 *   contingency, 3 % of 1498.28               44.9484 ->  44.95
 *                              cost         1543.23
 *   margin 10 %: 1543.23 / 0.90 = 1714.70;   171.47
 *   insulation by others, apart              900.00
 *   its markup, 10 %                          90.00
 *   bond, 1.5 %: 2704.70 / 0.985 = 2745.8883 -> 2745.89;   41.19
 *                              before       2745.89
 *   to the nearest 5: 2745.00                 -0.89
 *                              price        2745.00
 *   tax on the price, 2 %                     54.90
 *                              total        2799.90 */
static void a_small_job_is_as_worked_by_hand(void **state) {
    struct arena *arena = *state;
    struct sums sums = {.material = 8300 + 4260 + 9990, .hours = {4250, 7640}};
    struct terms terms = {
        .tax = {[TAX_MATERIAL] = 62500, [TAX_PRICE] = 20000},
        .rated = {true, true},
        .rate = {380000, 440000},
        .burden = 320000,
        .overhead = 120000,
        .contingency = 30000,
        .profit = PROFIT_MARGIN,
        .profit_share = 100000,
        .bond = 15000,
        .round_to = 500,
    };
    *list_add(arena, &terms.extras) = (struct extra){.title = "Permit", .amount = 18000, .taxed = true};
    *list_add(arena, &terms.extras) = (struct extra){.title = "Crane", .amount = 25000, .subcontract = true};
    *list_add(arena, &terms.extras) =
        (struct extra){.title = "Insulation", .amount = 90000, .subcontract = true, .apart = true, .markup = 100000};
    static const struct {
        enum step_kind kind;
        money amount;
    } worked[] = {
        {STEP_MATERIAL, 22550},
        {STEP_TAX_MATERIAL, 2534},
        {STEP_LABOUR, 16150},
        {STEP_LABOUR, 33616},
        {STEP_BURDEN, 15925},
        {STEP_FIXED, 18000},
        {STEP_SUBCONTRACT, 25000},
        {STEP_DIRECT, 133775},
        {STEP_OVERHEAD, 16053},
        {STEP_CONTINGENCY, 4495},
        {STEP_COST, 154323},
        {STEP_PROFIT, 17147},
        {STEP_SUBCONTRACT_APART, 90000},
        {STEP_SUBCONTRACT_MARKUP, 9000},
        {STEP_BOND, 4119},
        {STEP_BEFORE_ROUNDING, 274589},
        {STEP_ROUNDING, -89},
        {STEP_PRICE, 274500},
        {STEP_TAX_PRICE, 5490},
        {STEP_TOTAL, 279990},
    };
    struct build_up up = {0};
    build_up_work(&up, &terms, &sums, arena);
    assert_int_equal(up.steps.count, sizeof worked / sizeof worked[0]);
    for (size_t i = 0; i < up.steps.count; i++) {
        assert_int_equal(up.steps.at[i].kind, worked[i].kind);
        assert_int_equal(up.steps.at[i].amount, worked[i].amount);
    }
    assert_int_equal(up.profit, 17147 + 9000);
    /* 2745.00 less 1543.23, 900.00 and 41.19: 260.58 kept, which is 261.47 of profit less 0.89 of rounding */
    assert_int_equal(up.spent, 154323 + 90000 + 4119);
    assert_int_equal(up.kept, 26058);
    assert_int_equal(build_up_margin(&up), 94900);  /* 260.58 / 2745.00 = 9.4929 % */
    assert_int_equal(build_up_markup(&up), 104900); /* 260.58 / 2484.42 = 10.4886 % */
}

/* ---- Always ------------------------------------------------------------------------------------------------------ */

static struct terms random_terms(struct arena *arena) {
    struct terms terms = {.rated = {true, true}};
    percentage *parts_of[] = {&terms.burden, &terms.overhead, &terms.contingency, &terms.bond,
                              &terms.tax[0], &terms.tax[1],   &terms.tax[2],      &terms.profit_share};
    for (size_t i = 0; i < sizeof parts_of / sizeof parts_of[0]; i++)
        *parts_of[i] = random_between(0, 1) < 0.5 ? 0 : (percentage)random_between(0, 500000);
    terms.rate[LABOUR_SHOP] = (unit_price)random_between(0, 900000);
    terms.rate[LABOUR_FIELD] = (unit_price)random_between(0, 900000);
    terms.profit = (enum profit)random_between(0, 2.99);
    terms.round_to = (money)random_between(0, 1000);
    terms.round_up = random_between(0, 1) < 0.5;
    for (int i = 0; i < 3; i++) {
        bool subcontract = random_between(0, 1) < 0.5;
        *list_add(arena, &terms.extras) = (struct extra){
            .title = "Line",
            .amount = (money)random_between(0, 1e6),
            .subcontract = subcontract,
            .apart = subcontract && random_between(0, 1) < 0.5,
            .markup = (percentage)random_between(0, 300000),
        };
    }
    return terms;
}

static void every_page_adds_up(void **state) {
    struct arena *arena = *state;
    for (int round = 0; round < 2000; round++) {
        struct terms terms = random_terms(arena);
        struct sums sums = {(money)random_between(0, 3e7),
                            {(thousandths)random_between(0, 1e5), (thousandths)random_between(0, 1e5)}};
        struct build_up up = {0};
        build_up_work(&up, &terms, &sums, arena);
        money sum = 0;
        for (size_t i = 0; i < up.steps.count; i++) {
            const struct step *step = &up.steps.at[i];
            if (step_is_subtotal(step->kind) && step->amount != sum)
                fail_msg("seed %llu: %s is %lld, its lines %lld", (unsigned long long)seed, step->title,
                         (long long)step->amount, (long long)sum);
            if (!step_is_subtotal(step->kind))
                sum += step->amount;
            bool margin = step->kind == STEP_BOND || (step->kind == STEP_PROFIT && terms.profit == PROFIT_MARGIN);
            /* as a share of what it is itself part of it is off by the rounding of that */
            if (step->has_rate && llabs(money_share(step->base, step->rate) - step->amount) > (margin ? 1 : 0))
                fail_msg("seed %llu: %s is not its rate", (unsigned long long)seed, step->title);
        }
        assert_int_equal(up.total, sum);
        assert_int_equal(up.kept + up.spent, up.price);
        assert_int_equal(up.kept, up.profit + up.price - up.unrounded);
        assert_true(!terms.round_to || up.price % terms.round_to == 0);
    }
}

static void what_is_too_great_is_told(void **state) {
    struct terms terms = {.rated = {true, true}, .rate = {380000, 440000}};
    struct sums sums = {.material = MONEY_MOST - 5, .hours = {1000, 1000}};
    struct build_up up = {0};
    build_up_work(&up, &terms, &sums, *state);
    assert_true(up.too_great);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup_teardown(both_checks_come_out_to_the_cent, set_up, tear_down),
        cmocka_unit_test_setup_teardown(a_small_job_is_as_worked_by_hand, set_up, tear_down),
        cmocka_unit_test_setup_teardown(every_page_adds_up, set_up, tear_down),
        cmocka_unit_test_setup_teardown(what_is_too_great_is_told, set_up, tear_down),
    };
    return cmocka_run_group_tests(tests, seed_random, NULL);
}
