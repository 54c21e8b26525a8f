/* The Markdown writer: what the user wrote must come out as written, and a table must also read as plain text.
 * The rules that the expected texts rest on: GitHub Flavored Markdown Spec, version 0.29-gfm, section by section as
 * named. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "report/document.h"

struct fixture {
    struct document document;
    jmp_buf full;
};

static int set_up(void **state) {
    struct fixture *fixture = calloc(1, sizeof *fixture);
    fixture->document.arena = arena_new(NULL);
    arena_on_failure(fixture->document.arena, &fixture->full);
    *state = fixture;
    return 0;
}

static int tear_down(void **state) {
    struct fixture *fixture = *state;
    arena_free(fixture->document.arena);
    free(fixture);
    return 0;
}

static char *written(const struct document *document, size_t *length) {
    struct output *out = output_open_memory();
    markdown_writer.part(out, document);
    char *text = output_take_memory(out, length);
    assert_non_null(text);
    return text;
}

static void expect(struct document *document, const char *expected) {
    size_t length;
    char *text = written(document, &length);
    assert_string_equal(text, expected);
    free(text);
    document->blocks.count = 0;
}

static void expect_paragraph(struct document *document, const char *text, const char *expected) {
    document_paragraph(document, "%s", text);
    expect(document, arena_format(document->arena, "%s\n\n", expected));
}

/* ---- Escapes ----------------------------------------------------------------------------------------------------- */

static void ordinary_words_stay_as_they_are(void **state) {
    struct document *document = &((struct fixture *)*state)->document;
    expect_paragraph(document, "glaze_room, 3-1/2 in, R&D, 5 * 4, a < b, C#, (see below): 40 % ~ half!",
                     "glaze_room, 3-1/2 in, R&D, 5 * 4, a < b, C#, (see below): 40 % ~ half!");
    expect_paragraph(document, "a__b_c kiln.left 1.5 2026-04-18 É µ", "a__b_c kiln.left 1.5 2026-04-18 É µ");
}

static void what_would_be_emphasis_code_or_a_link_is_escaped(void **state) { /* 6.3, 6.4, 6.5, 6.6 */
    struct document *document = &((struct fixture *)*state)->document;
    expect_paragraph(document, "*a* _b_ __c__ ~~d~~ `e` [f](g) \\h",
                     "\\*a\\* \\_b\\_ \\_\\_c\\_\\_ \\~\\~d\\~\\~ \\`e\\` \\[f](g) \\\\h");
}

static void html_and_character_references_are_escaped(void **state) { /* 2.5, 6.10 */
    struct document *document = &((struct fixture *)*state)->document;
    expect_paragraph(document, "<b>x</b> &amp; &#35; & AT&T;", "\\<b>x\\</b> \\&amp; \\&#35; & AT\\&T;");
}

static void addresses_do_not_become_links(void **state) { /* 6.9: inside a link a backslash would show */
    struct document *document = &((struct fixture *)*state)->document;
    expect_paragraph(document, "http://a.b/_c_ www.d.e", "http\\://a.b/\\_c\\_ www\\.d.e");
}

static void a_line_cannot_open_a_block(void **state) { /* 4.1, 4.2, 4.3, 4.10, 5.1, 5.2 */
    struct document *document = &((struct fixture *)*state)->document;
    expect_paragraph(document, "# a", "\\# a");
    expect_paragraph(document, "> a", "\\> a");
    expect_paragraph(document, "- a", "\\- a");
    expect_paragraph(document, "+ a", "\\+ a");
    expect_paragraph(document, "12. a", "12\\. a");
    expect_paragraph(document, "3) a", "3\\) a");
    expect_paragraph(document, "---", "\\---");
    expect_paragraph(document, "_ _ _", "\\_ _ _");
    expect_paragraph(document, "    code", "code");
    expect_paragraph(document, "-5 F and 3.5 in", "-5 F and 3.5 in");
}

static void control_characters_never_reach_the_page(void **state) {
    struct document *document = &((struct fixture *)*state)->document;
    expect_paragraph(document, "a\x1b[31mb\nc\td\x7f", "a \\[31mb c d");
}

static void a_heading_keeps_its_closing_number_signs(void **state) { /* 4.2 */
    struct document *document = &((struct fixture *)*state)->document;
    document_heading(document, 2, "Kiln ##");
    expect(document, "## Kiln \\#\\#\n\n");
}

static void a_bar_stays_in_its_cell(void **state) { /* 4.10 */
    struct document *document = &((struct fixture *)*state)->document;
    static const struct column columns[] = {{.head = "A"}, {.head = "B"}};
    struct table *table = document_table(document, columns, 2);
    union cell *row = table_row(table);
    row[0].text = "x|y";
    expect(document, "| A    | B   |\n"
                     "| ---- | --- |\n"
                     "| x\\|y |     |\n\n");
}

/* ---- Folding ----------------------------------------------------------------------------------------------------- */

static void paragraphs_are_folded_and_no_fold_opens_a_block(void **state) {
    struct document *document = &((struct fixture *)*state)->document;
    char text[128];
    memset(text, 'a', 98);
    snprintf(text + 98, sizeof text - 98, " - b");
    document_paragraph(document, "%s", text);
    text[98] = 0;
    expect(document, arena_format(document->arena, "%s -\nb\n\n", text));
    snprintf(text + 98, sizeof text - 98, "xx - b");
    document_paragraph(document, "%s", text);
    text[100] = 0;
    expect(document, arena_format(document->arena, "%s\n\\- b\n\n", text));
}

static void bullets_facts_and_cautions_fold_under_themselves(void **state) {
    struct document *document = &((struct fixture *)*state)->document;
    char word[98];
    memset(word, 'a', 97);
    word[97] = 0;
    const char *text = arena_format(document->arena, "%s bb", word);
    document_bullet(document, "%s", text);
    document_fact(document, "Key", text);
    document_caution(document, text);
    expect(document, arena_format(document->arena, "- %s\n  bb\n\n- **Key:** %s\n  bb\n\n> **Caution:** %s\n> bb\n\n",
                                  word, word, word));
}

static void lines_to_sign_on_are_plain_rules(void **state) {
    struct document *document = &((struct fixture *)*state)->document;
    document_blank(document, "Name");
    document_blank(document, "Date");
    expect(document, "Name: ________________________________________\n\n"
                     "Date: ________________________________________\n\n");
}

/* ---- Tables ------------------------------------------------------------------------------------------------------ */

static void columns_stand_under_each_other(void **state) {
    struct document *document = &((struct fixture *)*state)->document;
    static const struct column columns[] = {
        {.head = "Room"},
        {.head = "C", .kind = COLUMN_NUMBER, .decimals = 2},
    };
    struct table *table = document_table(document, columns, 2);
    union cell *row = table_row(table);
    row[0].text = "Küche";
    row[1].figure = 12.5;
    row = table_row(table);
    row[0].text = "窯場"; /* each two columns wide: Unicode Standard Annex 11 */
    row = table_row(table);
    row[0].text = "a";
    row[1].figure = -0.001;
    expect(document, "| Room  |     C |\n"
                     "| ----- | ----: |\n"
                     "| Küche | 12.50 |\n"
                     "| 窯場  |       |\n"
                     "| a     |  0.00 |\n\n");
}

static void figures_are_shown_in_the_jobs_units_with_the_unit_in_the_head(void **state) {
    struct document *document = &((struct fixture *)*state)->document;
    static const struct column columns[] = {
        {.head = "Loss", .kind = COLUMN_FIGURE, .use = SHOW_PRESSURE, .decimals = 1},
    };
    for (int system = MEASURE_US; system <= MEASURE_METRIC; system++) {
        document->system = (enum measure_system)system;
        const struct measure_show *show = measure_show(document->system, SHOW_PRESSURE);
        struct table *table = document_table(document, columns, 1);
        table_row(table)[0].figure = 24.884;
        char figure[32];
        int width = snprintf(figure, sizeof figure, "%.*f", show->decimals + 1, 24.884 / show->factor);
        char head[64];
        int head_width = snprintf(head, sizeof head, "Loss, %s", show->unit);
        char rule[64];
        memset(rule, '-', sizeof rule);
        expect(document, arena_format(document->arena, "| %s |\n| %.*s: |\n| %*s%s |\n\n", head, head_width - 1, rule,
                                      head_width - width, "", figure));
    }
}

static void a_long_cell_costs_only_its_own_length(void **state) {
    struct document *document = &((struct fixture *)*state)->document;
    static const struct column columns[] = {{.head = "A"}};
    enum { LONG = 60000, ROWS = 10000 };
    char *text = arena_take(document->arena, LONG + 1);
    memset(text, 'a', LONG);
    struct table *table = document_table(document, columns, 1);
    table_row(table)[0].text = text;
    for (size_t i = 1; i < ROWS; i++)
        table_row(table)[0].text = "b";
    size_t length;
    free(written(document, &length));
    assert_in_range(length, LONG + ROWS * 5, LONG + (ROWS + 2) * 85);
}

static void a_tables_memory_grows_with_its_rows_only(void **state) {
    struct document *document = &((struct fixture *)*state)->document;
    static const struct column columns[] = {
        {.head = "A"},
        {.head = "B", .kind = COLUMN_NUMBER, .decimals = 3},
    };
    enum { ROWS = 200000 };
    struct table *table = document_table(document, columns, 2);
    for (size_t i = 0; i < ROWS; i++) {
        union cell *row = table_row(table);
        row[0].text = "kilnside";
        row[1].figure = (double)i / 1000;
    }
    size_t length;
    char *text = written(document, &length);
    assert_int_equal(length, (ROWS + 2) * strlen("| kilnside | 199.999 |\n") + 1);
    assert_string_equal(text + length - strlen("| kilnside | 199.999 |\n\n"), "| kilnside | 199.999 |\n\n");
    free(text);
    assert_true(arena_used(document->arena) < ROWS * 2 * sizeof(union cell) * 6);
}

/* ---- Figures ----------------------------------------------------------------------------------------------------- */

/* The outside source is the C library's printf, which rounds the exact binary value. */
static void figures_are_rounded_as_printf_rounds_them(void **state) {
    (void)state;
    static const double hard[] = {
        0.5,        1.5,  2.5,  0.125, 0.375,   1.005,   2.675, 0.0005, 0.00049999999999999, 999.9995, 1e8, 123456789.5,
        1e14 + 0.5, 0.05, 0.15, 0.25,  1 / 3.0, 2 / 3.0, 4.35,  8.345};
    for (int decimals = 0; decimals <= 5; decimals++) {
        struct column column = {.kind = COLUMN_NUMBER, .decimals = decimals};
        for (size_t i = 0; i < sizeof hard / sizeof hard[0]; i++) {
            char figure[FIGURE_ROOM], expected[64];
            snprintf(expected, sizeof expected, "%.*f", decimals, hard[i]);
            assert_int_equal(figure_print(figure, &column, MEASURE_US, hard[i]), strlen(expected));
            assert_string_equal(figure, expected);
        }
        uint64_t seed = 20260418;
        for (size_t i = 0; i < 100000; i++) {
            seed = seed * 6364136223846793005u + 1442695040888963407u;
            double number = (double)(int64_t)(seed >> 20) / 1e9 - 5000;
            char figure[FIGURE_ROOM], expected[64];
            snprintf(expected, sizeof expected, "%.*f", decimals, number);
            figure_print(figure, &column, MEASURE_US, number);
            if (strspn(expected, "-0.") == strlen(expected))
                continue;
            assert_string_equal(figure, expected);
        }
    }
}

static void zero_has_no_sign_and_no_number_is_blank(void **state) {
    (void)state;
    struct column column = {.kind = COLUMN_NUMBER, .decimals = 3};
    char figure[FIGURE_ROOM];
    figure_print(figure, &column, MEASURE_US, -0.0004);
    assert_string_equal(figure, "0.000");
    figure_print(figure, &column, MEASURE_US, -0.0);
    assert_string_equal(figure, "0.000");
    assert_int_equal(figure_print(figure, &column, MEASURE_US, NAN), 0);
    assert_string_equal(figure, "");
}

static void absurd_figures_stay_inside_their_room(void **state) {
    (void)state;
    struct column column = {.kind = COLUMN_NUMBER, .decimals = 5};
    char figure[FIGURE_ROOM];
    assert_true(figure_print(figure, &column, MEASURE_US, 1.7e308) < FIGURE_ROOM);
    assert_true(figure_print(figure, &column, MEASURE_US, -9.99e14) < FIGURE_ROOM);
    assert_string_equal(figure, "-999000000000000.00000");
    assert_true(figure_print(figure, &column, MEASURE_US, -INFINITY) < FIGURE_ROOM);
}

int main(void) {
#define TEST(name) cmocka_unit_test_setup_teardown(name, set_up, tear_down)
    const struct CMUnitTest tests[] = {
        TEST(ordinary_words_stay_as_they_are),
        TEST(what_would_be_emphasis_code_or_a_link_is_escaped),
        TEST(html_and_character_references_are_escaped),
        TEST(addresses_do_not_become_links),
        TEST(a_line_cannot_open_a_block),
        TEST(control_characters_never_reach_the_page),
        TEST(a_heading_keeps_its_closing_number_signs),
        TEST(a_bar_stays_in_its_cell),
        TEST(paragraphs_are_folded_and_no_fold_opens_a_block),
        TEST(bullets_facts_and_cautions_fold_under_themselves),
        TEST(lines_to_sign_on_are_plain_rules),
        TEST(columns_stand_under_each_other),
        TEST(figures_are_shown_in_the_jobs_units_with_the_unit_in_the_head),
        TEST(a_long_cell_costs_only_its_own_length),
        TEST(a_tables_memory_grows_with_its_rows_only),
        TEST(figures_are_rounded_as_printf_rounds_them),
        TEST(zero_has_no_sign_and_no_number_is_blank),
        TEST(absurd_figures_stay_inside_their_room),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
