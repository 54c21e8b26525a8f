/* Pages: what is laid out stays on its page, in order, and what belongs together stays together.  The tests read what
 * the writer has put into the spool; tests/oracle/pages.py reads what comes out of the press. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "random.h"
#include "ration.h"
#include "draw/lettering.h"
#include "report/drawings.h"
#include "report/packet.h"
#include "report/pdf.h"
#include "report_bench.h"

/* ---- A paper of one part ----------------------------------------------------------------------------------------- */

struct bench {
    struct document document;
    struct paper paper;
    struct pdf *pdf;
    jmp_buf full;
};

static struct arena *arena_of(struct bench *bench) {
    struct arena *arena = arena_new(NULL);
    assert_non_null(arena);
    arena_on_failure(arena, &bench->full);
    return arena;
}

static struct bench *open_bench(void) {
    struct bench *bench = calloc(1, sizeof *bench);
    assert_non_null(bench);
    bench->document.arena = arena_of(bench);
    bench->paper.arena = arena_of(bench);
    bench->paper.scratch = arena_of(bench);
    bench->paper.title = "Kiln house";
    bench->paper.reader = "shop";
    bench->pdf = pdf_writer.open(&bench->paper);
    assert_non_null(bench->pdf);
    return bench;
}

static void close_bench(struct bench *bench) {
    pdf_writer.release(bench->pdf);
    arena_free(bench->document.arena);
    arena_free(bench->paper.arena);
    arena_free(bench->paper.scratch);
    free(bench);
}

/* A word where it stands. */
struct placed {
    size_t page;
    const char *text; /* in the bench's arena */
    double x, y, right, size;
    bool bold;
};

struct placed_list {
    LIST(struct placed) words;
    size_t pages, sheets;
    size_t last_sheet; /* the page of the last drawing */
};

/* Hands the part over and reads the spool back.  Every mark must be on its page. */
static struct placed_list lay_out(struct bench *bench) {
    struct pdf *pdf = bench->pdf;
    struct placed_list list = {0};
    pdf_writer.part(pdf, &bench->document);
    assert_true(spool_rewind(pdf->spool));
    struct spool_mark mark;
    const char *text;
    while (spool_next(pdf->spool, &mark, &text)) {
        if (mark.kind == SPOOL_PAGE) {
            list.pages++;
            continue;
        }
        double right = fmax(mark.x, mark.right), lower = fmax(mark.y, mark.bottom);
        if (mark.kind == SPOOL_WORDS) {
            right = mark.x + type_width(pdf->type, mark.face, text, mark.length) * mark.size;
            *list_add(bench->paper.arena, &list.words) = (struct placed){
                .page = list.pages,
                .text = arena_copy(bench->paper.arena, text, mark.length),
                .x = mark.x,
                .y = mark.y,
                .right = right,
                .size = mark.size,
                .bold = mark.face == TYPE_BOLD,
            };
        }
        if (mark.kind == SPOOL_HEADING || mark.kind == SPOOL_PLACE)
            continue;
        if (mark.kind == SPOOL_SHEET) {
            const struct sheet *sheet = spool_read_sheet(pdf->spool);
            assert_non_null(sheet);
            right = mark.x + mark.size * sheet->width;
            lower = mark.y + mark.size * sheet->height;
            list.sheets++;
            list.last_sheet = list.pages;
            for (size_t i = 0; i < sheet->letters.count; i++)
                assert_true(mark.size * lettering_size(sheet->letters.at[i].size) > LETTERS_LEAST - 0.01);
        }
        if (mark.x < pdf->left - 0.1 || right > pdf->right + 0.1 || mark.y < pdf->top - 0.1 ||
            lower > pdf->bottom + 0.1)
            fail_msg("page %zu: '%.*s' of kind %d at (%g, %g) reaches to (%g, %g)", list.pages, (int)mark.length, text,
                     (int)mark.kind, mark.x, mark.y, right, lower);
    }
    assert_true(spool_sound(pdf->spool));
    return list;
}

/* Words of one line must not meet. */
static void expect_apart(const struct placed_list *list) {
    for (size_t i = 1; i < list->words.count; i++) {
        const struct placed *a = &list->words.at[i - 1], *b = &list->words.at[i];
        if (a->page == b->page && a->y == b->y && b->x < a->right - 0.1 && b->right > a->x + 0.1)
            fail_msg("'%s' and '%s' meet on page %zu", a->text, b->text, a->page);
    }
}

static size_t count_of(const struct placed_list *list, const char *text) {
    size_t count = 0;
    for (size_t i = 0; i < list->words.count; i++)
        count += strcmp(list->words.at[i].text, text) == 0;
    return count;
}

/* ---- Tables ------------------------------------------------------------------------------------------------------ */

static const struct column columns[] = {
    {.head = "Mark", .kind = COLUMN_NUMBER},
    {.head = "Airflow", .kind = COLUMN_FIGURE, .use = SHOW_FLOW},
    {.head = "Room", .kind = COLUMN_TEXT},
};
enum { COLUMN_COUNT = sizeof columns / sizeof columns[0] };

static struct table *add_rows(struct bench *bench, size_t count) {
    struct table *table = document_table(&bench->document, columns, COLUMN_COUNT);
    for (size_t i = 0; i < count; i++) {
        union cell *row = table_row(table);
        row[0].figure = (double)i;
        row[1].figure = 0.1;
        row[2].text = "Hall";
    }
    return table;
}

static void a_long_table_has_its_head_on_every_page_and_every_row_once(void **state) {
    (void)state;
    struct bench *bench = open_bench();
    add_rows(bench, 10000);
    struct placed_list list = lay_out(bench);
    expect_apart(&list);
    assert_int_equal(count_of(&list, "Hall"), 10000);
    assert_int_equal(count_of(&list, "Mark"), list.pages);
    assert_true(list.pages > 100 && list.pages < 250);
    for (size_t i = 1; i < list.words.count; i++) /* each page begins with the head */
        if (list.words.at[i].page != list.words.at[i - 1].page)
            assert_string_equal(list.words.at[i].text, "Mark");
    close_bench(bench);
}

static void expect_rows_in_company(size_t rows, size_t above) {
    struct bench *bench = open_bench();
    for (size_t i = 0; i < above; i++)
        document_paragraph(&bench->document, "Something above.");
    add_rows(bench, rows);
    struct placed_list list = lay_out(bench);
    size_t on_page[64] = {0};
    for (size_t i = 0; i < list.words.count; i++)
        on_page[list.words.at[i].page] += strcmp(list.words.at[i].text, "Hall") == 0;
    for (size_t page = 1; page <= list.pages; page++)
        if (on_page[page] > 0 && on_page[page] < 4)
            fail_msg("%zu rows below %zu paragraphs: %zu alone on page %zu", rows, above, on_page[page], page);
    close_bench(bench);
}

/* However many rows there are, and wherever they begin: four at least on each page. */
static void no_row_stands_alone(void **state) {
    (void)state;
    for (size_t rows = 9; rows < 60; rows++)
        expect_rows_in_company(rows, 2);
    for (size_t above = 20; above < 38; above++)
        expect_rows_in_company(20, above);
}

/* ---- Drawings ---------------------------------------------------------------------------------------------------- */

static size_t page_of(const struct placed_list *list, const char *text) {
    for (size_t i = 0; i < list->words.count; i++)
        if (strcmp(list->words.at[i].text, text) == 0)
            return list->words.at[i].page;
    fail_msg("'%s' is nowhere", text);
    return 0;
}

/* A blank of 8 x 40 in at 1:8 or less, below so many paragraphs, under its heading and two paragraphs. */
static void expect_drawing_in_company(size_t above) {
    struct bench *bench = open_bench();
    bench->document.drawings = drawings_on_page();
    for (size_t i = 0; i < above; i++)
        document_paragraph(&bench->document, "Something above.");
    document_heading(&bench->document, 2, "Plan");
    document_paragraph(&bench->document, "Introduced");
    document_paragraph(&bench->document, "again");
    struct figure *figure = figure_new(bench->document.arena, "Drawn", NULL);
    struct spot corners[] = {{0, 0}, {0.2, 0}, {0.2, 1}, {0, 1}};
    figure_polygon(figure, STROKE_CUT, SHADE_NONE, corners, 4);
    document_drawing(&bench->document, figure, "plan-1.svg", "Below");
    struct placed_list list = lay_out(bench);
    size_t page = page_of(&list, "Plan");
    assert_int_equal(page_of(&list, "Introduced"), page);
    assert_int_equal(page_of(&list, "Below"), page);
    if (above < 15) /* so much room it has at least */
        assert_int_equal(page, 1);
    close_bench(bench);
}

static void a_drawing_stands_with_its_heading_and_its_words(void **state) {
    (void)state;
    for (size_t above = 0; above < 60; above++)
        expect_drawing_in_company(above);
}

/* A plan that leaves no room for an elevation and a view until it is a little smaller; below so many paragraphs. */
static void drawings_that_go_together_stand_on_one_page(void **state) {
    (void)state;
    static const char *const names[] = {"Plan of it", "Elevation of it", "View of it"};
    for (size_t above = 0; above < 3; above++) {
        struct bench *bench = open_bench();
        bench->document.drawings = drawings_on_page();
        for (size_t i = 0; i < above; i++)
            document_paragraph(&bench->document, "Something above.");
        for (int i = 0; i < 3; i++) {
            struct figure *figure = figure_new(bench->document.arena, names[i], NULL);
            double height = i == 0 ? 14 : i == 1 ? 1 : 6;
            struct spot corners[] = {{0, 0}, {12, 0}, {12, height}, {0, height}};
            figure_polygon(figure, STROKE_CUT, SHADE_NONE, corners, 4);
            figure->sketch = i == 2;
            figure->follows = i > 0;
            document_drawing(&bench->document, figure, "plan-1.svg", names[i]);
        }
        struct placed_list list = lay_out(bench);
        assert_int_equal(list.sheets, 3);
        assert_int_equal(list.last_sheet, 1);
        for (int i = 0; i < 3; i++) /* their titles say it */
            assert_int_equal(count_of(&list, names[i]), 0);
        close_bench(bench);
    }
}

static void what_asks_for_a_new_page_begins_one(void **state) {
    (void)state;
    struct bench *bench = open_bench();
    document_new_page(&bench->document); /* nothing stands there yet */
    document_paragraph(&bench->document, "Signed");
    document_new_page(&bench->document);
    document_paragraph(&bench->document, "Record");
    struct placed_list list = lay_out(bench);
    assert_int_equal(page_of(&list, "Signed"), 1);
    assert_int_equal(page_of(&list, "Record"), 2);
    assert_int_equal(list.pages, 2);
    close_bench(bench);
}

static void figures_are_flush_right(void **state) {
    (void)state;
    struct bench *bench = open_bench();
    struct table *table = document_table(&bench->document, columns, 1);
    static const double figures[] = {1, 10, 12345};
    for (size_t i = 0; i < 3; i++)
        table_row(table)[0].figure = figures[i];
    struct placed_list list = lay_out(bench);
    assert_int_equal(list.words.count, 4);
    for (size_t i = 0; i < 4; i++)
        assert_true(fabs(list.words.at[i].right - list.words.at[3].right) < 0.01);
    close_bench(bench);
}

static void a_table_of_many_columns_is_made_small_and_nothing_is_cut(void **state) {
    (void)state;
    for (size_t count = 1; count <= 60; count += 7) {
        struct bench *bench = open_bench();
        struct column *many = ARENA_ARRAY(bench->document.arena, struct column, count);
        for (size_t c = 0; c < count; c++)
            many[c] = (struct column){.head = "Circumference", .kind = COLUMN_TEXT};
        union cell *row = table_row(document_table(&bench->document, many, count));
        for (size_t c = 0; c < count; c++)
            row[c].text = "unreinforced galvanised sheet of the heaviest gauge";
        struct placed_list list = lay_out(bench);
        expect_apart(&list);
        size_t letters = 0;
        for (size_t i = 0; i < list.words.count; i++)
            letters += strlen(list.words.at[i].text);
        assert_true(letters >=
                    count * (strlen("Circumference") + strlen("unreinforcedgalvanisedsheetoftheheaviestgauge")));
        close_bench(bench);
    }
}

static void a_row_that_no_page_has_room_for_goes_on_on_the_next(void **state) {
    (void)state;
    struct bench *bench = open_bench();
    struct table *table = document_table(&bench->document, columns, COLUMN_COUNT);
    char *text = arena_take(bench->document.arena, 5 * 8000 + 1);
    for (size_t i = 0; i < 8000; i++)
        memcpy(text + 5 * i, "hall ", 5);
    table_row(table)[2].text = "before";
    table_row(table)[2].text = text;
    table_row(table)[2].text = "behind";
    struct placed_list list = lay_out(bench);
    expect_apart(&list);
    assert_true(list.pages > 2);
    assert_int_equal(count_of(&list, "hall"), 8000);
    assert_int_equal(count_of(&list, "behind"), 1);
    close_bench(bench);
}

/* ---- Any paper --------------------------------------------------------------------------------------------------- */

static const char *const syllables[] = {"duct",   "a",      "galvanised", "12-1/2",     "in",        "Übergang",
                                        "elbow,", "0.0125", "x",          "transition", "(assumed)", "of"};

static size_t random_count(int most) {
    return 1 + (size_t)random_below(most);
}

/* Some words, every one of them marked by its number, so that it can be told from all others. */
static const char *random_text(struct bench *bench, size_t words, size_t *serial) {
    const char *text = "";
    for (size_t i = 0; i < words; i++)
        text = arena_format(bench->document.arena, "%s%s~%zu ", text,
                            syllables[random_below(sizeof syllables / sizeof syllables[0])], (*serial)++);
    return text;
}

static void add_block(struct bench *bench, size_t *serial) {
    struct document *document = &bench->document;
    switch (random_below(7)) {
    case 0:
        document_heading(document, 1 + random_below(4), random_text(bench, random_count(12), serial));
        break;
    case 1:
        document_paragraph(document, "%s", random_text(bench, random_count(90), serial));
        break;
    case 2:
        document_caution(document, random_text(bench, random_count(60), serial));
        break;
    case 3:
        document_bullet(document, "%s", random_text(bench, random_count(40), serial));
        break;
    case 4: {
        const char *key = random_text(bench, random_count(4), serial);
        document_fact(document, key, random_text(bench, random_count(30), serial));
        break;
    }
    case 5:
        document_blank(document, random_text(bench, random_count(4), serial));
        break;
    default: {
        size_t rows = random_count(40);
        struct table *table = document_table(document, columns, COLUMN_COUNT);
        for (size_t i = 0; i < rows; i++)
            table_row(table)[2].text = random_text(bench, random_count(25), serial);
    }
    }
}

/* Reads the words in their order; a heading must not be the last thing on its page. */
static void expect_whole(const struct placed_list *list, size_t count) {
    size_t next = 0;
    for (size_t i = 0; i < list->words.count; i++) {
        const struct placed *word = &list->words.at[i];
        const char *number = strrchr(word->text, '~');
        if (!number)
            continue;
        assert_int_equal(strtoul(number + 1, NULL, 10), next);
        next++;
        bool heading = word->bold && word->size > 10;
        if (heading && i + 1 < list->words.count && list->words.at[i + 1].page != word->page)
            fail_msg("the heading '%s' is the last on page %zu, at %g; then %s", word->text, word->page, word->y,
                     list->words.at[i + 1].text);
    }
    assert_int_equal(next, count);
}

static void whatever_the_blocks_nothing_is_lost_cut_or_parted_from_its_heading(void **state) {
    (void)state;
    for (int run = 0; run < 40; run++) {
        struct bench *bench = open_bench();
        size_t serial = 0, blocks = random_count(40);
        for (size_t i = 0; i < blocks; i++)
            add_block(bench, &serial);
        document_paragraph(&bench->document, "%s", random_text(bench, 5, &serial));
        struct placed_list list = lay_out(bench);
        expect_apart(&list);
        expect_whole(&list, serial);
        close_bench(bench);
    }
}

/* ---- Odd texts --------------------------------------------------------------------------------------------------- */

static void a_word_of_any_length_is_broken_and_not_cut(void **state) {
    (void)state;
    struct bench *bench = open_bench();
    enum { LETTERS = 30000 };
    char *word = arena_take(bench->document.arena, LETTERS + 1);
    for (size_t i = 0; i < LETTERS; i++)
        word[i] = (char)('a' + i % 26);
    document_heading(&bench->document, 1, word);
    document_paragraph(&bench->document, "before %s behind", word);
    struct table *table = document_table(&bench->document, columns, COLUMN_COUNT);
    table_row(table)[2].text = word;
    struct placed_list list = lay_out(bench);
    size_t letters = 0, at = 0;
    for (size_t i = 0; i < list.words.count; i++) {
        const char *text = list.words.at[i].text;
        if (strstr("before behind Mark Airflow, cfm Room", text))
            continue;
        for (; *text; text++, letters++)
            assert_int_equal(*text, word[at++ % LETTERS]);
    }
    assert_int_equal(letters, 3 * LETTERS);
    close_bench(bench);
}

static char *pressed(struct bench *bench, size_t *length) {
    bench->paper.out = output_open_memory();
    pdf_writer.part(bench->pdf, &bench->document);
    assert_true(pdf_writer.end(bench->pdf));
    char *bytes = output_take_memory(bench->paper.out, length);
    assert_non_null(bytes);
    assert_memory_equal(bytes, "%PDF-", 5);
    return bytes;
}

static void any_script_is_set_in_some_font(void **state) {
    (void)state;
    static const char *const texts[] = {
        "窯場の送風管",
        "\xD7\x97\xD7\x93\xD7\xA8 \xD7\x9B\xD7\x91\xD7\xA9\xD7\x9F 12 cfm (\xD7\x90)",
        "\xD8\xBA\xD8\xB1\xD9\x81\xD8\xA9 \xD8\xA7\xD9\x84\xD9\x81\xD8\xB1\xD9\x86",
        "e\xCC\x81\xCC\x88\xCC\xA7",
        "\xF0\x9F\x94\xA5\xF0\x9F\x8F\xBD\xE2\x80\x8D\xF0\x9F\x94\xA7",
        "\xEF\xBF\xBF \xF3\xA0\x80\x81 \xEE\x80\x80",
        ("\xE2\x80\x8F\xE2\x80\xAE"
         "abc\xE2\x80\xAC"),
        "\xEF\xAC\x81 \xC2\xAD \xE2\x80\x8B \xC2\xA0",
        "\x01\x02 \x7F",
    };
    struct bench *bench = open_bench();
    bench->paper.title = texts[1];
    for (size_t i = 0; i < sizeof texts / sizeof texts[0]; i++) {
        document_heading(&bench->document, 2, texts[i]);
        document_paragraph(&bench->document, "%s %s", texts[i], texts[i]);
        document_fact(&bench->document, texts[i], texts[i]);
        table_row(document_table(&bench->document, columns, COLUMN_COUNT))[2].text = texts[i];
    }
    size_t length;
    free(pressed(bench, &length));
    close_bench(bench);
}

static void a_paper_of_nothing_has_one_page(void **state) {
    (void)state;
    struct bench *bench = open_bench();
    document_table(&bench->document, columns, COLUMN_COUNT);
    document_paragraph(&bench->document, "%s", "");
    document_heading(&bench->document, 2, "");
    size_t length;
    free(pressed(bench, &length));
    assert_int_equal(spool_pages(bench->pdf->spool), 1);
    close_bench(bench);
    bench = open_bench();
    free(pressed(bench, &length));
    assert_int_equal(spool_pages(bench->pdf->spool), 1);
    close_bench(bench);
}

/* Where the text stands among the bytes; NULL: nowhere. */
static const char *memmem_of(const char *bytes, size_t length, const char *text) {
    size_t size = strlen(text);
    for (size_t i = 0; i + size <= length; i++)
        if (memcmp(bytes + i, text, size) == 0)
            return bytes + i;
    return NULL;
}

static void the_same_paper_gives_the_same_bytes(void **state) {
    (void)state;
    size_t lengths[2];
    char *bytes[2];
    for (int i = 0; i < 2; i++) {
        struct bench *bench = open_bench();
        add_rows(bench, 100);
        bytes[i] = pressed(bench, &lengths[i]);
        close_bench(bench);
    }
    assert_int_equal(lengths[0], lengths[1]);
    assert_memory_equal(bytes[0], bytes[1], lengths[0]);
    assert_null(memmem_of(bytes[0], lengths[0], "CreationDate")); /* nobody gave one, and the clock has no word in it */
    free(bytes[0]);
    free(bytes[1]);
}

/* ---- Memory ------------------------------------------------------------------------------------------------------ */

static void running_out_of_memory_is_said_at_any_moment(void **state) {
    struct fixture *fixture = *state;
    expect_any_shortage_said(&fixture->job, &pdf_writer);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_long_table_has_its_head_on_every_page_and_every_row_once),
        cmocka_unit_test(no_row_stands_alone),
        cmocka_unit_test(a_drawing_stands_with_its_heading_and_its_words),
        cmocka_unit_test(drawings_that_go_together_stand_on_one_page),
        cmocka_unit_test(what_asks_for_a_new_page_begins_one),
        cmocka_unit_test(figures_are_flush_right),
        cmocka_unit_test(a_table_of_many_columns_is_made_small_and_nothing_is_cut),
        cmocka_unit_test(a_row_that_no_page_has_room_for_goes_on_on_the_next),
        cmocka_unit_test(whatever_the_blocks_nothing_is_lost_cut_or_parted_from_its_heading),
        cmocka_unit_test(a_word_of_any_length_is_broken_and_not_cut),
        cmocka_unit_test(any_script_is_set_in_some_font),
        cmocka_unit_test(a_paper_of_nothing_has_one_page),
        cmocka_unit_test(the_same_paper_gives_the_same_bytes),
        cmocka_unit_test_setup_teardown(running_out_of_memory_is_said_at_any_moment, set_up, tear_down),
    };
    return cmocka_run_group_tests(tests, seed_random, NULL);
}
