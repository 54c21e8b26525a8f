/* The definition of the language says what the compiler does: its job compiles, and no statement
 * or check is left out. */
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <setjmp.h>
#include <cmocka.h>

#include "check/checks.h"
#include "compiled.h"
#include "cost/takeoff.h"
#include "model/model.h"
#include "piece/kinds.h"
#include "route/route.h"

/* docs/language.md, to be freed. */
static char *manual(void) {
    FILE *file = fopen("docs/language.md", "r");
    assert_non_null(file);
    char *bytes = calloc(1, 1 << 17);
    assert_non_null(bytes);
    size_t length = fread(bytes, 1, (1 << 17) - 1, file);
    assert_true(length > 0 && length < (1 << 17) - 1);
    fclose(file);
    return bytes;
}

static bool has(const char *text, const char *format, const char *word) {
    char wanted[400];
    snprintf(wanted, sizeof wanted, format, word);
    if (strstr(text, wanted))
        return true;
    fprintf(stderr, "docs/language.md lacks %s\n", wanted);
    return false;
}

/* The `which`th job (from 0) that it shows, which compiles without a word. */
static struct compiled job_of(const char *text, int which) {
    const char *begin = text;
    for (int i = 0; i <= which; i++) {
        begin = strstr(begin, "```job\n");
        assert_non_null(begin);
        begin += 7;
    }
    const char *end = strstr(begin, "```");
    assert_non_null(end);
    struct compiled compiled = compiled_text("%.*s", (int)(end - begin), begin);
    if (compiled.job->diagnostics->all.count)
        cleat_print_diagnostics(compiled.cleat, stderr, false, false);
    assert_int_equal(compiled.job->diagnostics->all.count, 0);
    return compiled;
}

static void its_job_compiles_without_a_word(void **state) {
    (void)state;
    char *text = manual();
    struct compiled compiled = job_of(text, 0);
    assert_true(compiled_network(&compiled)->supply_paths.count == 2);
    compiled_free(&compiled);
    free(text);
}

/* North, as its comment says, and up. */
static void its_furnace_has_a_trunk_with_its_top_up(void **state) {
    (void)state;
    char *text = manual();
    struct compiled compiled = job_of(text, 1);
    const struct placed_run *trunk = route_of(compiled.job, compiled_run(&compiled, "trunk"));
    assert_true(trunk->end.along.y > 1 - 1e-9 && trunk->end.up.z > 1 - 1e-9);
    assert_true(route_of(compiled.job, compiled_run(&compiled, "above"))->end.along.z > 1 - 1e-9);
    assert_true(route_of(compiled.job, compiled_run(&compiled, "beside"))->end.along.z > 1 - 1e-9);
    compiled_free(&compiled);
    free(text);
}

static bool shows(const char *text, const struct form *form) {
    bool word = has(text, "| `%s`", form->word);
    return has(text, "`%s`", form->example) && word;
}

static void every_statement_is_in_it_with_its_example(void **state) {
    (void)state;
    char *text = manual();
    struct arena *arena = arena_new(NULL);
    assert_non_null(arena);
    jmp_buf out_of_memory;
    if (setjmp(out_of_memory))
        abort();
    arena_on_failure(arena, &out_of_memory);
    struct form_table table = model_forms(arena);
    size_t missing = 0;
    for (size_t i = 0; i < table.count; i++)
        missing += !shows(text, table.forms[i]);
    for (size_t i = 0; i < piece_kinds()->count; i++)
        missing += !shows(text, &piece_kinds()->kinds[i]->form);
    assert_int_equal(missing, 0);
    arena_free(arena);
    free(text);
}

static void every_key_and_choice_is_in_it(void **state) {
    (void)state;
    char *text = manual();
    size_t missing = 0;
    for (size_t i = 0; i < piece_kinds()->count; i++)
        for (const struct slot *slot = piece_kinds()->kinds[i]->form.slots; slot->kind; slot++) {
            missing += slot->key && !has(text, "`%s`", slot->key);
            for (size_t c = 0; slot->choices && slot->choices[c]; c++)
                missing += !has(text, "%s", slot->choices[c]);
        }
    assert_int_equal(missing, 0);
    free(text);
}

static void every_check_is_in_it(void **state) {
    (void)state;
    char *text = manual();
    size_t count, missing = 0;
    const struct check *all = checks(&count);
    for (size_t i = 0; i < count; i++)
        missing += !has(text, "| `%s` |", all[i].name);
    assert_int_equal(missing, 0);
    free(text);
}

/* And a shop that prices it as the table says compiles. */
static void everything_that_is_priced_is_in_it(void **state) {
    (void)state;
    char *text = manual();
    size_t count, missing = 0;
    const struct bill_item *items = bill_items(&count);
    for (size_t i = 0; i < count; i++) {
        missing += !has(text, "| `%s` |", items[i].key) || !has(text, "| `%s` |\n", items[i].example) ||
                   !has(text, "| %s", items[i].title);
        struct compiled compiled = compiled_text("job \"t\" {}\nshop \"s\" {\n%s\n}\n", items[i].example);
        assert_null(compiled_said(&compiled, "syntax", NULL, 0));
        assert_int_equal(compiled.job->shop.entries.count, 1);
        compiled_free(&compiled);
    }
    assert_int_equal(missing, 0);
    free(text);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(its_job_compiles_without_a_word),
        cmocka_unit_test(its_furnace_has_a_trunk_with_its_top_up),
        cmocka_unit_test(every_statement_is_in_it_with_its_example),
        cmocka_unit_test(every_key_and_choice_is_in_it),
        cmocka_unit_test(every_check_is_in_it),
        cmocka_unit_test(everything_that_is_priced_is_in_it),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
