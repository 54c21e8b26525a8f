/* What the papers say of the price: the customer is told no cost, hour, rate or markup; a change in the job moves the
 * figures that depend on it and no other. */
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <setjmp.h>
#include <cmocka.h>

#include <glob.h>
#include <jansson.h>
#include <math.h>
#include <unistd.h>

#include "cost/offer.h"
#include "price_bench.h"
#include "random.h"
#include "report/report.h"

static char *written(const struct job *job, const char *reader, const char *format) {
    struct output *out = output_open_memory();
    assert_true(report_write(job, reader, format, NULL, out));
    size_t length;
    char *text = output_take_memory(out, &length);
    assert_non_null(text);
    return text;
}

/* ---- Discretion -------------------------------------------------------------------------------------------------- */

/* Amounts with the mark of money that the text has and `allowed` has not. */
static size_t amounts_told(const char *text, const char *mark, const char *const *allowed, size_t count) {
    size_t told = 0;
    for (const char *at = strstr(text, mark); at; at = strstr(at + 1, mark)) {
        size_t length = strlen(mark) + strspn(at + strlen(mark), " 0123456789,.");
        bool known = false;
        for (size_t i = 0; i < count && !known; i++)
            known = strlen(allowed[i]) <= length && strncmp(at, allowed[i], strlen(allowed[i])) == 0;
        told += !known;
    }
    return told;
}

/* Amounts of the price that stand in the text, marked or not. */
static size_t figures_told(const struct price *price, const char *text, struct arena *arena, const char *const *allowed,
                           size_t count) {
    size_t told = 0;
    for (size_t i = 0; i < price->build_up.steps.count; i++) {
        const struct step *step = &price->build_up.steps.at[i];
        const char *figure = money_figure(arena, step->amount, true);
        bool known = strlen(figure) < 6; /* too short to be told from a size */
        for (size_t k = 0; k < count && !known; k++)
            known = strstr(allowed[k], figure) != NULL;
        told += !known && strstr(text, figure);
    }
    return told;
}

static size_t words_told(const char *text) {
    static const char *const words[] = {"markup",   "Markup",      "overhead",    "Overhead", "burden",
                                        "Burden",   "contingency", "Contingency", "profit",   "Profit",
                                        "per hour", "man-hour",    "wage",        "margin",   "Margin"};
    size_t told = 0;
    for (size_t i = 0; i < sizeof words / sizeof words[0]; i++) {
        if (strstr(text, words[i]))
            print_message("it says: %s\n", words[i]);
        told += strstr(text, words[i]) != NULL;
    }
    return told;
}

static char *file_text(const char *path) {
    char *text = NULL;
    size_t length = 0;
    FILE *in = fopen(path, "r"), *out = open_memstream(&text, &length);
    assert_true(in && out);
    for (int c = getc(in); c != EOF; c = getc(in))
        putc(c, out);
    fclose(in);
    fclose(out);
    return text;
}

/* The bid written to a file, with its drawings beside it; all is taken away again. */
static void keep_discretion_in_drawings(const struct compiled *compiled, const char *const *allowed, size_t count) {
    char folder[] = "/tmp/cleat-price-XXXXXX", path[100];
    assert_non_null(mkdtemp(folder));
    snprintf(path, sizeof path, "%s/bid.md", folder);
    assert_int_equal(cleat_write(compiled->cleat, NULL, "md", path), CLEAT_OK);
    assert_int_equal(unlink(path), 0);
    snprintf(path, sizeof path, "%s/bid-figures/*.svg", folder);
    glob_t drawings;
    assert_int_equal(glob(path, 0, NULL, &drawings), 0);
    for (size_t i = 0; i < drawings.gl_pathc; i++) {
        char *text = file_text(drawings.gl_pathv[i]);
        assert_int_equal(amounts_told(text, compiled->job->price->currency.mark, allowed, count), 0);
        assert_int_equal(figures_told(compiled->job->price, text, compiled->job->arena, allowed, count), 0);
        assert_int_equal(words_told(text), 0);
        free(text);
        assert_int_equal(unlink(drawings.gl_pathv[i]), 0);
    }
    globfree(&drawings);
    snprintf(path, sizeof path, "%s/bid-figures", folder);
    assert_int_equal(rmdir(path), 0);
    assert_int_equal(rmdir(folder), 0);
}

static void keep_discretion(const struct compiled *compiled) {
    const struct price *price = bench_price(compiled);
    struct arena *arena = compiled->job->arena;
    const char *allowed[20];
    size_t count = 0;
    allowed[count++] = money_text(arena, &price->currency, price->build_up.total);
    for (size_t i = 0; i < compiled->job->alternates.count && count < 18; i++) {
        money difference = compiled->job->alternates.at[i]->offer->difference;
        allowed[count++] = money_text(arena, &price->currency, difference < 0 ? -difference : difference);
    }
    if (price->terms.tax[TAX_PRICE]) {
        allowed[count++] = money_text(arena, &price->currency, price->build_up.price);
        allowed[count++] = money_text(arena, &price->currency, price->build_up.total - price->build_up.price);
    }
    char *bid = written(compiled->job, NULL, "md");
    assert_non_null(strstr(bid, allowed[0]));
    assert_int_equal(amounts_told(bid, price->currency.mark, allowed, count), 0);
    assert_int_equal(figures_told(price, bid, arena, allowed, count), 0);
    assert_int_equal(words_told(bid), 0);
    free(bid);
    keep_discretion_in_drawings(compiled, allowed, count);
    /* the same eyes see it all in the office sheet */
    char *office = written(compiled->job, "office", "md");
    assert_true(amounts_told(office, price->currency.mark, allowed, count) > 0);
    assert_true(figures_told(price, office, arena, allowed, count) > 5);
    free(office);
}

static void no_demo_tells_the_customer_a_cost(void **state) {
    (void)state;
    glob_t jobs;
    size_t priced = 0;
    assert_int_equal(glob("jobs/*.job", 0, NULL, &jobs), 0);
    assert_int_equal(glob("tests/golden/*.job", GLOB_APPEND, NULL, &jobs), 0);
    for (size_t i = 0; i < jobs.gl_pathc; i++) {
        struct compiled compiled = {.cleat = cleat_new(NULL)};
        cleat_compile(compiled.cleat, jobs.gl_pathv[i]);
        compiled.job = cleat_job(compiled.cleat);
        if (compiled.job->price) {
            print_message("%s\n", jobs.gl_pathv[i]);
            compiled.text = strdup(jobs.gl_pathv[i]);
            keep_discretion(&compiled);
            priced++;
        } else {
            char *bid = written(compiled.job, NULL, "md");
            assert_non_null(strstr(bid, "The price stands on a separate sheet; this paper carries none."));
            assert_int_equal(words_told(bid), 0);
            free(bid);
        }
        compiled_free(&compiled);
    }
    assert_true(priced >= 3);
    globfree(&jobs);
}

/* ---- What depends on what ---------------------------------------------------------------------------------------- */

static json_t *data_of(const struct compiled *compiled) {
    bench_price(compiled);
    char *text = written(compiled->job, NULL, "json");
    json_t *data = json_loads(text, 0, NULL);
    assert_non_null(data);
    free(text);
    return data;
}

static json_t *compiled_data(const char *format, ...) __attribute__((format(printf, 1, 2)));

static json_t *compiled_data(const char *format, ...) {
    char text[8000];
    va_list list;
    va_start(list, format);
    vsnprintf(text, sizeof text, format, list);
    va_end(list);
    struct compiled compiled = compiled_text("%s", text);
    json_t *data = data_of(&compiled);
    compiled_free(&compiled);
    return data;
}

static void expect_same(const json_t *one, const json_t *other, const char *const *keys, size_t count) {
    for (size_t i = 0; i < count; i++)
        if (!json_equal(json_object_get(one, keys[i]), json_object_get(other, keys[i])))
            fail_msg("seed %llu: %s has changed", (unsigned long long)seed, keys[i]);
}

/* All but the price, and what alternates come to. */
static const char *const unpriced[] = {"job",     "air",       "shop",   "units",       "runs",   "metal",
                                       "takeoff", "obstacles", "checks", "diagnostics", "sources"};

#define SAME(one, other, keys) expect_same(one, other, keys, sizeof(keys) / sizeof(keys)[0])

static bool title_begins(const json_t *line, const char *word) {
    return strncmp(json_string_value(json_object_get(line, "by")), word, strlen(word)) == 0;
}

/* Another price moves its own lines, the sums they enter, and nothing else. */
static void a_price_moves_its_own_lines_alone(void **state) {
    (void)state;
    static const struct {
        const char *word, *unit;
    } items[] = {{"register", "each"},     {"flex", "box of 25 ft"}, {"duct_sealant", "gallon"},
                 {"screws", "box of 500"}, {"gasket", "foot"},       {"hanger_fastener", "each"}};
    json_t *base = compiled_data("job \"Base\"\n%s" BENCH_JOB, BENCH_SHOP);
    for (size_t i = 0; i < sizeof items / sizeof items[0]; i++) {
        int cents = 1 + random_below(5000);
        json_t *other = compiled_data("job \"Base\"\n%s" BENCH_JOB "shop \"Other\" { price %s %d.%02d per %s }\n",
                                      BENCH_SHOP, items[i].word, 100 + cents / 100, cents % 100, items[i].unit);
        static const char *const same[] = {"job",     "air",       "units",  "runs",   "metal",
                                           "takeoff", "obstacles", "checks", "sources"};
        SAME(base, other, same);
        json_t *was = json_object_get(base, "price"), *is = json_object_get(other, "price");
        assert_true(json_equal(json_object_get(was, "hours"), json_object_get(is, "hours")));
        const json_t *lines = json_object_get(was, "material"), *now = json_object_get(is, "material");
        assert_int_equal(json_array_size(lines), json_array_size(now));
        size_t moved = 0;
        for (size_t k = 0; k < json_array_size(lines); k++) {
            bool own =
                title_begins(json_array_get(lines, k), items[i].word) &&
                strlen(json_string_value(json_object_get(json_array_get(lines, k), "by"))) == strlen(items[i].word);
            bool changed = !json_equal(json_array_get(lines, k), json_array_get(now, k));
            if (own != changed)
                fail_msg("seed %llu: %s moved %zu", (unsigned long long)seed, items[i].word, k);
            moved += changed;
        }
        bool unused = strcmp(items[i].word, "gasket") == 0; /* no flange is in the job */
        assert_int_equal(moved > 0, !unused);
        assert_int_equal(json_equal(json_object_get(was, "sums"), json_object_get(is, "sums")), unused);
        json_decref(other);
    }
    json_decref(base);
}

static void a_rate_moves_its_own_labour_alone(void **state) {
    (void)state;
    json_t *base = compiled_data("job \"Base\"\n%s" BENCH_JOB, BENCH_SHOP);
    json_t *other =
        compiled_data("job \"Base\"\n%s" BENCH_JOB "shop \"Other\" { rate shop 41.25 per hour }\n", BENCH_SHOP);
    static const char *const same[] = {"job", "air", "units", "runs", "metal", "takeoff", "checks", "sources"};
    SAME(base, other, same);
    json_t *was = json_object_get(base, "price"), *is = json_object_get(other, "price");
    static const char *const of_price[] = {"material", "hours"};
    SAME(was, is, of_price);
    const json_t *steps = json_object_get(was, "build_up"), *now = json_object_get(is, "build_up");
    for (size_t i = 0; i < json_array_size(steps); i++) {
        const json_t *step = json_array_get(steps, i);
        const char *kind = json_string_value(json_object_get(step, "step")),
                   *title = json_string_value(json_object_get(step, "title"));
        bool before = strcmp(kind, "material") == 0 || strcmp(kind, "waste") == 0 ||
                      strcmp(kind, "tax_on_material") == 0 || strcmp(title, "Field labour") == 0;
        assert_int_equal(json_equal(step, json_array_get(now, i)), before);
    }
    json_decref(base);
    json_decref(other);
}

/* Elements of a list by a member, or NULL. */
static const json_t *element(const json_t *list, const char *key, const char *value) {
    for (size_t i = 0; i < json_array_size(list); i++)
        if (strcmp(json_string_value(json_object_get(json_array_get(list, i), key)), value) == 0)
            return json_array_get(list, i);
    return NULL;
}

/* A runout made longer, where all its sizes are given: its own figures, flexible duct and its supports move. */
static void a_length_moves_its_own_run_and_what_it_is_made_of(void **state) {
    (void)state;
    json_t *base = compiled_data("job \"Base\"\n%s" BENCH_JOB, BENCH_SHOP);
    for (int round = 0; round < 4; round++) {
        char line[200], job[2000];
        snprintf(line, sizeof line, "flex %d in; boot; register 12 x 6", 85 + random_below(60));
        const char *at = strstr(BENCH_JOB, "flex 7 ft; boot; register 12 x 6");
        snprintf(job, sizeof job, "%.*s%s%s", (int)(at - BENCH_JOB), BENCH_JOB, line,
                 at + strlen("flex 7 ft; boot; register 12 x 6"));
        json_t *other = compiled_data("job \"Base\"\n%s%s", BENCH_SHOP, job);
        static const char *const same[] = {"job", "air", "shop", "obstacles"};
        SAME(base, other, same);
        const json_t *runs = json_object_get(base, "runs"), *now = json_object_get(other, "runs");
        for (size_t i = 0; i < json_array_size(runs); i++) {
            bool couch = strcmp(json_string_value(json_object_get(json_array_get(runs, i), "name")), "couch") == 0;
            assert_int_equal(json_equal(json_array_get(runs, i), json_array_get(now, i)), !couch);
        }
        const json_t *lines = json_object_get(json_object_get(base, "takeoff"), "lines"),
                     *new_lines = json_object_get(json_object_get(other, "takeoff"), "lines");
        static const char *const still[] = {"sheet",        "register",     "grille",   "damper",
                                            "duct_sealant", "hanger_strap", "flex_tie", "duct_tape"};
        for (size_t i = 0; i < sizeof still / sizeof still[0]; i++)
            assert_true(json_equal(element(lines, "item", still[i]), element(new_lines, "item", still[i])));
        assert_false(json_equal(element(lines, "item", "flex"), element(new_lines, "item", "flex")));
        const json_t *hours = json_object_get(json_object_get(base, "price"), "hours"),
                     *new_hours = json_object_get(json_object_get(other, "price"), "hours");
        for (size_t i = 0; i < json_array_size(hours); i++) {
            const char *work = json_string_value(json_object_get(json_array_get(hours, i), "work"));
            if (strcmp(work, "hanger") != 0)
                assert_true(json_equal(json_array_get(hours, i), json_array_get(new_hours, i)));
        }
        json_decref(other);
    }
    json_decref(base);
}

/* Other sheets: how blanks lie on them and what they cost, not what is made, hung or worked. */
static void a_stock_size_moves_sheets_and_price_alone(void **state) {
    (void)state;
    json_t *base = compiled_data("job \"Base\"\n%s" BENCH_JOB, BENCH_SHOP);
    json_t *other = compiled_data(
        "job \"Base\"\n%s" BENCH_JOB "shop \"Other\" { stock 60 x 144, gauge 26, price 71 per sheet }\n", BENCH_SHOP);
    static const char *const same[] = {"job", "air", "units", "runs", "obstacles", "checks"};
    SAME(base, other, same);
    const json_t *lines = json_object_get(json_object_get(base, "takeoff"), "lines"),
                 *now = json_object_get(json_object_get(other, "takeoff"), "lines");
    for (size_t i = 0; i < json_array_size(lines); i++) {
        const json_t *line = json_array_get(lines, i);
        const char *item = json_string_value(json_object_get(line, "item"));
        if (strcmp(item, "sheet") != 0)
            assert_true(json_equal(line, element(now, "title", json_string_value(json_object_get(line, "title")))));
    }
    static const char *const hours[] = {"hours"};
    SAME(json_object_get(base, "price"), json_object_get(other, "price"), hours);
    json_decref(base);
    json_decref(other);
}

/* A shop's percentages move no count; waste does. */
static void a_percentage_moves_no_count(void **state) {
    (void)state;
    static const char *const words[] = {"burden", "overhead", "contingency", "tax", "markup"};
    json_t *base = compiled_data("job \"Base\"\n%s" BENCH_JOB, BENCH_SHOP);
    for (size_t i = 0; i < sizeof words / sizeof words[0]; i++) {
        json_t *other = compiled_data("job \"Base\"\n%s" BENCH_JOB "shop \"Bench\" { %s %d.5 %% }\n", BENCH_SHOP,
                                      words[i], 40 + random_below(10));
        expect_same(base, other, unpriced, 7);
        json_t *was = json_object_get(base, "price"), *is = json_object_get(other, "price");
        static const char *const of_price[] = {"material", "hours"};
        SAME(was, is, of_price);
        assert_false(json_equal(json_object_get(was, "sums"), json_object_get(is, "sums")));
        json_decref(other);
    }
    json_decref(base);
}

/* Waste is in the quantity of what is measured and holds no loss yet: here flexible duct alone. */
static void waste_moves_what_is_measured_without_loss_alone(void **state) {
    (void)state;
    json_t *base = compiled_data("job \"Base\"\n%s" BENCH_JOB, BENCH_SHOP);
    json_t *other = compiled_data("job \"Base\"\n%s" BENCH_JOB "shop \"Bench\" { waste 50 %% }\n", BENCH_SHOP);
    json_t *was = json_object_get(json_object_get(base, "takeoff"), "lines");
    json_t *is = json_object_get(json_object_get(other, "takeoff"), "lines");
    assert_int_equal(json_array_size(was), json_array_size(is));
    for (size_t i = 0; i < json_array_size(was); i++) {
        const json_t *line = json_array_get(was, i), *with = json_array_get(is, i);
        double net = json_real_value(json_object_get(line, "net"));
        if (strcmp(json_string_value(json_object_get(line, "item")), "flex") == 0) {
            assert_true(fabs(json_real_value(json_object_get(line, "wanted")) - 1.08 * net) < 1e-9);
            assert_true(fabs(json_real_value(json_object_get(with, "wanted")) - 1.50 * net) < 1e-9);
        } else {
            assert_true(json_equal(line, with));
        }
    }
    json_decref(base);
    json_decref(other);
}

/* ---- The office sheet -------------------------------------------------------------------------------------------- */

static void the_csv_has_every_line_with_its_amount(void **state) {
    (void)state;
    struct compiled compiled = compiled_text("job \"Base\"\n%s" BENCH_JOB, BENCH_SHOP);
    const struct price *price = bench_price(&compiled);
    char *csv = written(compiled.job, "office", "csv");
    size_t lines = 0;
    for (const char *at = csv; (at = strstr(at, "\r\n")); at += 2)
        lines++;
    assert_int_equal(lines, price->lines.count + 1);
    for (size_t i = 0; i < price->lines.count; i++) {
        char wanted[100];
        snprintf(wanted, sizeof wanted, ",%s,%s,%s,", price->lines.at[i].unit,
                 price_figure(compiled.job->arena, price->lines.at[i].price),
                 money_figure(compiled.job->arena, price->lines.at[i].amount, false));
        assert_non_null(strstr(csv, wanted));
    }
    free(csv);
    compiled_free(&compiled);
}

static void an_unpriced_job_has_an_office_sheet_that_says_so(void **state) {
    (void)state;
    struct compiled compiled = compiled_text("job \"Plain\"\n" BENCH_JOB "alternate A { without couch }\n");
    char *office = written(compiled.job, "office", "md");
    assert_non_null(strstr(office, "The job is not priced"));
    assert_non_null(strstr(office, "## Take-off"));
    assert_non_null(strstr(office, "Leaves out:** couch"));
    free(office);
    compiled_free(&compiled);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(no_demo_tells_the_customer_a_cost),
        cmocka_unit_test(a_price_moves_its_own_lines_alone),
        cmocka_unit_test(a_rate_moves_its_own_labour_alone),
        cmocka_unit_test(a_length_moves_its_own_run_and_what_it_is_made_of),
        cmocka_unit_test(a_stock_size_moves_sheets_and_price_alone),
        cmocka_unit_test(a_percentage_moves_no_count),
        cmocka_unit_test(waste_moves_what_is_measured_without_loss_alone),
        cmocka_unit_test(the_csv_has_every_line_with_its_amount),
        cmocka_unit_test(an_unpriced_job_has_an_office_sheet_that_says_so),
    };
    return cmocka_run_group_tests(tests, seed_random, NULL);
}
