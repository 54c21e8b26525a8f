/* The papers that tell what one step more of an estimate does, and those that do not. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "compile/driver.h"
#include "estimates_bench.h"
#include "near.h"
#include "report/report.h"

/* The papers of the customer and the shop tell none, and do not wait for any. */
static void only_papers_that_tell_it_ask(void **state) {
    (void)state;
    static const struct {
        const char *reader, *format;
        bool asks;
    } papers[] = {{NULL, "md", false},     {"customer", "json", false}, {"shop", "md", false}, {"office", "csv", false},
                  {"field", "md", true},   {"office", "md", true},      {NULL, "json", true},  {"shop", "csv", false},
                  {"field", "json", true}, {"customer", "md", false}};
    for (size_t i = 0; i < sizeof papers / sizeof papers[0]; i++)
        assert_int_equal(report_asks_effects(papers[i].reader, papers[i].format), papers[i].asks);
}

static char *paper(const struct job *job, const char *reader, const char *format) {
    struct output *out = output_open_memory();
    assert_true(report_write(job, reader, format, NULL, out));
    size_t length;
    return output_take_memory(out, &length);
}

/* Nor do they tell it when it has been asked for another. */
static void the_customer_is_told_nothing_of_it(void **state) {
    (void)state;
    static const char *const formats[] = {"md", "json"};
    struct compiled base = with_more(BENCH_SHOP, FIXED, 0.60, ESTIMATES, "");
    char *before[2];
    for (size_t i = 0; i < 2; i++)
        before[i] = paper(base.job, "customer", formats[i]);
    ask(&base);
    for (size_t i = 0; i < 2; i++) {
        char *after = paper(base.job, "customer", formats[i]);
        assert_string_equal(after, before[i]);
        free(after);
        free(before[i]);
    }
    char *field = paper(base.job, "field", "md"), *office = paper(base.job, "office", "md");
    assert_non_null(strstr(field, "### What if it comes out otherwise"));
    assert_non_null(strstr(office, "### What if it comes out otherwise"));
    free(field);
    free(office);
    compiled_free(&base);
}

/* Seven runs: what may be spent is enough for two whole, then for three through their sizes. */
static void past_what_may_be_spent_less_is_asked(void **state) {
    (void)state;
    struct compiled base = with_more(BENCH_SHOP, FIXED, 0.60, ESTIMATES, "");
    size_t runs = base.job->runs.count;
    base.cleat->effort = (struct effort){.whole = 2 * (runs + 80), .sizes = 3 * runs};
    ask(&base);
    char *text = paper(base.job, "field", "md");
    for (char *at = text; *at; at++)
        if (*at == '\n')
            *at = ' ';
    for (size_t i = 0; i < ESTIMATES; i++) {
        const struct effect *effect = base.job->estimates.at[i]->effect;
        assert_int_equal(effect != NULL, i < 5);
        if (!effect)
            continue;
        assert_int_equal(effect->depth, i < 2 ? EFFECT_WHOLE : EFFECT_SIZES);
        assert_int_equal(effect->priced, i < 2);
        struct compiled longer = with_more("", FIXED, 0.60, i, "");
        assert_near(effect->governing.left, compiled_network(&longer)->surplus, 1e-9);
        compiled_free(&longer);
    }
    assert_non_null(strstr(text, "For the first 2 all was; for 3 that"));
    assert_non_null(strstr(text, "for 1 nothing was"));
    free(text);
    compiled_free(&base);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(only_papers_that_tell_it_ask),
        cmocka_unit_test(the_customer_is_told_nothing_of_it),
        cmocka_unit_test(past_what_may_be_spent_less_is_asked),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
