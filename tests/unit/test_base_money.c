/* Money: exact, rounded half up, never over its limit, and printed in one way. */
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <setjmp.h>
#include <cmocka.h>

#include <math.h>
#include <string.h>

#include "base/money.h"
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

static void a_number_of_a_job_becomes_exact_or_is_refused(void **state) {
    (void)state;
    unit_price price = -1;
    assert_true(price_from(41.5, &price));
    assert_int_equal(price, 415000);
    assert_true(price_from(0.0125, &price));
    assert_int_equal(price, 125);
    assert_false(price_from(0.00005, &price));
    assert_false(price_from(-1, &price));
    assert_false(price_from(NAN, &price));
    assert_int_equal(price, 125);
    money amount;
    assert_true(money_from(19.99, &amount));
    assert_int_equal(amount, 1999);
    assert_false(money_from(19.995, &amount));
    percentage part;
    assert_true(share_from(8.875 * 0.01, &part));
    assert_int_equal(part, 88750);
    assert_false(share_from(1.0 / 3, &part));
}

static void halves_go_up(void **state) {
    (void)state;
    assert_int_equal(money_times(5, 1000 * 10), 1);          /* 0.0005 x 10 = 0.5 cents */
    assert_int_equal(money_times(4, 1000 * 10), 0);          /* 0.4 cents */
    assert_int_equal(money_times(18500, 57300), 10601);      /* 1.85 x 57.3 = 106.005 */
    assert_int_equal(money_share(1018061, 120000), 122167);  /* 12 % of 10180.61 = 1221.6732 */
    assert_int_equal(money_gross(1018061, 120000), 1156888); /* 10180.61 / 0.88 = 11568.875, a tie */
    assert_int_equal(money_share(-50, 10000), 0);            /* -0.5: up */
    assert_int_equal(money_round(1151233, 500, false), 1151000);
    assert_int_equal(money_round(1151250, 500, false), 1151500);
    assert_int_equal(money_round(1151001, 500, true), 1151500);
    assert_int_equal(money_round(1151000, 500, true), 1151000);
    assert_int_equal(money_round(1234, 0, true), 1234);
}

static void quantities_are_what_is_printed(void **state) {
    assert_int_equal(quantity_up(2.28, QUANTITY_PARTS), 3000);
    assert_int_equal(quantity_up(3.0000000001, QUANTITY_PARTS), 3000);
    assert_int_equal(quantity_up(57.21, 100), 57300);
    assert_int_equal(quantity_nearest(57.249, 10), 57250);
    assert_int_equal(quantity_nearest(-3, 10), 0);
    assert_int_equal(quantity_up(NAN, 10), 0);
    assert_int_equal(quantity_up(INFINITY, QUANTITY_PARTS), MONEY_MOST);
    assert_int_equal(quantity_times(3000, 350000, SHARE_WHOLE, 10), 1050); /* 3 x 0.35 h */
    assert_int_equal(quantity_times(1000, 125000, SHARE_WHOLE, 10), 130);  /* 0.125 h: a tie */
    assert_int_equal(quantity_times(7000, 400000, 1300000, 10), 3640);     /* 7 x 0.4 h x 130 % */
    assert_string_equal(quantity_figure(*state, 57300), "57.3");
    assert_string_equal(quantity_figure(*state, 12000), "12");
    assert_string_equal(quantity_figure(*state, 375), "0.375");
    assert_string_equal(hours_figure(*state, 14700), "14.70");
}

static void nothing_passes_the_limit_or_comes_back_from_it(void **state) {
    (void)state;
    assert_int_equal(money_add(MONEY_MOST, MONEY_MOST), MONEY_MOST);
    assert_int_equal(money_add(MONEY_MOST - 1, 5), MONEY_MOST);
    assert_int_equal(money_times(INT64_C(100000000000000), MONEY_MOST), MONEY_MOST);
    assert_int_equal(money_share(MONEY_MOST, 10 * SHARE_WHOLE), MONEY_MOST);
    assert_int_equal(money_gross(MONEY_MOST, 990000), MONEY_MOST);
    assert_int_equal(quantity_times(MONEY_MOST, INT64_C(10000000000), 10 * SHARE_WHOLE, 10), MONEY_MOST);
}

static void it_is_printed_with_commas_and_its_mark(void **state) {
    struct arena *arena = *state;
    const struct currency dollar = {.mark = "$"}, euro = {.mark = "EUR"}, none = {.mark = ""};
    assert_string_equal(money_text(arena, &dollar, 1156888), "$11,568.88");
    assert_string_equal(money_text(arena, &dollar, -1200), "-$12.00");
    assert_string_equal(money_text(arena, &euro, 100000005), "EUR 1,000,000.05");
    assert_string_equal(money_text(arena, &none, 99999), "999.99");
    assert_string_equal(money_figure(arena, 100100100100, true), "1,001,001,001.00");
    assert_string_equal(money_figure(arena, MONEY_MOST, true), "10,000,000,000,000.00");
    assert_string_equal(money_figure(arena, -123456, false), "-1234.56");
    assert_string_equal(money_figure(arena, 7, true), "0.07");
    assert_string_equal(price_figure(arena, 415000), "41.50");
    assert_string_equal(price_figure(arena, 125), "0.0125");
    assert_string_equal(price_figure(arena, 10), "0.001");
    assert_string_equal(share_text(arena, 62500), "6.25 %");
    assert_string_equal(share_text(arena, 120000), "12 %");
    assert_string_equal(share_text(arena, 88750), "8.875 %");
    assert_string_equal(share_text(arena, 0), "0 %");
}

/* Against long double arithmetic, which is exact enough away from ties. */
static void random_amounts_agree_with_real_numbers(void **state) {
    (void)state;
    for (int i = 0; i < 20000; i++) {
        unit_price price = (unit_price)random_between(0, 1e9);
        thousandths amount = (thousandths)random_between(0, 1e8);
        percentage part = (percentage)random_between(0, 900000);
        long double product = (long double)price * (long double)amount / 1e5L;
        money got = money_times(price, amount);
        if (fabsl(product - (long double)got) > 0.5L + 1e-6L)
            fail_msg("seed %llu: %lld x %lld gave %lld", (unsigned long long)seed, (long long)price, (long long)amount,
                     (long long)got);
        long double gross = (long double)got * 1e6L / (long double)(SHARE_WHOLE - part);
        if (fabsl(gross - (long double)money_gross(got, part)) > 0.5L + 1e-4L)
            fail_msg("seed %llu: %lld / (1 - %lld)", (unsigned long long)seed, (long long)got, (long long)part);
    }
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_number_of_a_job_becomes_exact_or_is_refused),
        cmocka_unit_test(halves_go_up),
        cmocka_unit_test_setup_teardown(quantities_are_what_is_printed, set_up, tear_down),
        cmocka_unit_test(nothing_passes_the_limit_or_comes_back_from_it),
        cmocka_unit_test_setup_teardown(it_is_printed_with_commas_and_its_mark, set_up, tear_down),
        cmocka_unit_test(random_amounts_agree_with_real_numbers),
    };
    return cmocka_run_group_tests(tests, seed_random, NULL);
}
