/* What is said about a job, as it is printed: compared whole. */
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <setjmp.h>
#include <cmocka.h>

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "base/diagnostics.h"

struct bench {
    struct arena *arena;
    struct diagnostics all;
    const struct text *text;
};

static int setup(void **state) {
    struct bench *bench = calloc(1, sizeof *bench);
    if (!bench)
        return -1;
    bench->arena = arena_new(NULL);
    bench->all.arena = bench->arena;
    *state = bench;
    return bench->arena ? 0 : -1;
}

static int teardown(void **state) {
    struct bench *bench = *state;
    arena_free(bench->arena);
    free(bench);
    return 0;
}

static void read_text(struct bench *bench, const char *name, const char *bytes) {
    bench->text = text_new(bench->arena, name, bytes, strlen(bytes));
}

/* The first place of `words` in the text. */
static struct span at(const struct bench *bench, const char *words) {
    const char *found = strstr(bench->text->bytes, words);
    if (!found)
        fail_msg("'%s' is not in the text", words);
    uint32_t begin = (uint32_t)(found - bench->text->bytes);
    return (struct span){.text = bench->text, .begin = begin, .end = begin + (uint32_t)strlen(words)};
}

static char *printed(struct bench *bench, bool colour) {
    char *text = NULL;
    size_t length = 0;
    FILE *out = open_memstream(&text, &length);
    assert_non_null(out);
    diagnostics_print(out, &bench->all, colour);
    fclose(out);
    char *copy = arena_copy(bench->arena, text, length);
    free(text);
    return copy;
}

/* Prints one, without the count behind it. */
static char *printed_one(struct bench *bench, const struct diagnostic *diagnostic, bool colour) {
    char *text = NULL;
    size_t length = 0;
    FILE *out = open_memstream(&text, &length);
    assert_non_null(out);
    diagnostic_print(out, diagnostic, colour);
    fclose(out);
    char *copy = arena_copy(bench->arena, text, length);
    free(text);
    return copy;
}

static struct diagnostic *fault(struct bench *bench, const char *words) {
    return diagnose(&bench->all, DIAGNOSTIC_ERROR, "word", at(bench, words), "a fault");
}

static void one_fault_is_shown_with_its_line_and_what_to_do(void **state) {
    struct bench *bench = *state;
    read_text(bench, "kiln.job", "\n\n\n\n\n\n\n\n\n\n\n    airflow   140 cfn\n");
    struct diagnostic *error =
        diagnose(&bench->all, DIAGNOSTIC_ERROR, "unit", at(bench, "140 cfn"), "'%s' is not a unit of airflow", "cfn");
    diagnostic_hint(&bench->all, error, "write %d cfm", 140);
    assert_string_equal(printed(bench, false), "kiln.job:12:15: error: 'cfn' is not a unit of airflow [unit]\n"
                                               "   12 |     airflow   140 cfn\n"
                                               "      |               ^~~~~~~\n"
                                               "   hint: write 140 cfm\n"
                                               "1 error\n");
}

static void the_other_place_follows_as_a_note(void **state) {
    struct bench *bench = *state;
    read_text(bench, "kiln.job", "run east from fan.supply\nrun west from fan.supply\nrun  east from west\n");
    struct diagnostic *error = diagnose(&bench->all, DIAGNOSTIC_ERROR, "name", at(bench, " east from west"),
                                        "there are two things called 'east'");
    diagnostic_relate(&bench->all, error, at(bench, "east"), "first declared %s", "here");
    diagnostic_relate(&bench->all, error, (struct span){0}, "a unit makes one of its own");
    diagnostic_hint(&bench->all, error, "give one of them another name");
    assert_string_equal(printed(bench, false), "kiln.job:3:5: error: there are two things called 'east' [name]\n"
                                               "   3 | run  east from west\n"
                                               "     |     ^~~~~~~~~~~~~~~\n"
                                               "   hint: give one of them another name\n"
                                               "kiln.job:1:5: note: first declared here\n"
                                               "   1 | run east from fan.supply\n"
                                               "     |     ^~~~\n"
                                               "note: a unit makes one of its own\n"
                                               "1 error\n");
}

static void names_in_a_message_are_known_and_not_marked(void **state) {
    struct bench *bench = *state;
    const struct diagnostic *said =
        diagnose(&bench->all, DIAGNOSTIC_WARNING, "tap-fit", (struct span){0}, "the taps of %s and '%s' overlap",
                 diagnostic_named(&bench->all, "desk"), diagnostic_named(&bench->all, "hall_2"));
    assert_string_equal(said->message, "the taps of desk and 'hall_2' overlap");
    assert_int_equal(said->names.count, 2);
    assert_memory_equal(said->message + said->names.at[0].begin, "desk", 4);
    assert_int_equal(said->names.at[0].end - said->names.at[0].begin, 4);
    assert_memory_equal(said->message + said->names.at[1].begin, "hall_2", 6);
    assert_int_equal(said->names.at[1].end - said->names.at[1].begin, 6);
}

static void what_has_no_place_is_said_without_one(void **state) {
    struct bench *bench = *state;
    diagnose(&bench->all, DIAGNOSTIC_WARNING, "supply-return", (struct span){0}, "no return");
    assert_string_equal(printed(bench, false), "warning: no return [supply-return]\n1 warning\n");
}

static void a_span_over_several_lines_is_marked_on_the_first(void **state) {
    struct bench *bench = *state;
    read_text(bench, "a.job", "run a {\n  cap\n}\n");
    const struct diagnostic *error = fault(bench, "a {\n  cap\n}");
    assert_string_equal(printed_one(bench, error, false), "a.job:1:5: error: a fault [word]\n"
                                                          "   1 | run a {\n"
                                                          "     |     ^~~\n");
}

static void the_end_of_a_line_and_of_the_text_have_a_place(void **state) {
    struct bench *bench = *state;
    read_text(bench, "a.job", "run a\r\nrun b");
    const struct diagnostic *error = fault(bench, "\r\nrun");
    assert_string_equal(printed_one(bench, error, false), "a.job:1:6: error: a fault [word]\n"
                                                          "   1 | run a\n"
                                                          "     |      ^\n");
    error = diagnose(&bench->all, DIAGNOSTIC_ERROR, "syntax", (struct span){bench->text, 12, 12}, "no }");
    assert_string_equal(printed_one(bench, error, false), "a.job:2:6: error: no } [syntax]\n"
                                                          "   2 | run b\n"
                                                          "     |      ^\n");
}

static void tabs_are_one_space_wide(void **state) {
    struct bench *bench = *state;
    read_text(bench, "a.job", "\t\tcap\tend");
    assert_string_equal(printed_one(bench, fault(bench, "end"), false), "a.job:1:7: error: a fault [word]\n"
                                                                        "   1 |   cap end\n"
                                                                        "     |       ^~~\n");
}

/* Unicode Standard Annex 11: U+7AAF is Wide, two columns; U+0301 is a combining mark (general category Mn), none;
 * U+00E9 is one. */
static void carets_stand_under_their_columns(void **state) {
    struct bench *bench = *state;
    read_text(bench, "a.job", "room \"窯é e\xCC\x81\" caap");
    assert_string_equal(printed_one(bench, fault(bench, "caap"), false), "a.job:1:14: error: a fault [word]\n"
                                                                         "   1 | room \"窯é e\xCC\x81\" caap\n"
                                                                         "     |              ^~~~\n");
    assert_string_equal(printed_one(bench, fault(bench, "窯é"), false), "a.job:1:7: error: a fault [word]\n"
                                                                        "   1 | room \"窯é e\xCC\x81\" caap\n"
                                                                        "     |       ^~~\n");
}

/* A file must not steer the terminal: escape, the C1 controls, and U+202E, which turns the line around. */
static void control_characters_and_bad_bytes_are_stood_in_for(void **state) {
    struct bench *bench = *state;
    read_text(bench, "a.job", "a\x1B[2J\xC2\x9B\xE2\x80\xAE\xFFz");
    const struct diagnostic *error =
        diagnose(&bench->all, DIAGNOSTIC_ERROR, "word", at(bench, "z"), "'\x1B[2J' is bad");
    assert_string_equal(printed_one(bench, error, false), "a.job:1:9: error: '?[2J' is bad [word]\n"
                                                          "   1 | a?[2J???z\n"
                                                          "     |         ^\n");
}

/* A line of 200 digits in tens, with `words` from `begin` on. */
static const char *long_line(struct bench *bench, size_t begin, const char *words) {
    char *line = arena_take(bench->arena, 201);
    for (size_t i = 0; i < 200; i++)
        line[i] = (char)('0' + i % 10);
    memcpy(line + begin, words, strlen(words));
    return line;
}

static void a_long_line_is_cut_around_its_middle(void **state) {
    struct bench *bench = *state;
    read_text(bench, "a.job", long_line(bench, 100, "caap"));
    assert_string_equal(printed_one(bench, fault(bench, "caap"), false),
                        "a.job:1:101: error: a fault [word]\n"
                        "   1 | ...9012345678901234567890123456789caap45678901234567890123456789012345...\n"
                        "     |                                   ^~~~\n");
}

static void a_long_line_is_cut_at_its_end(void **state) {
    struct bench *bench = *state;
    read_text(bench, "a.job", long_line(bench, 2, "caap"));
    assert_string_equal(printed_one(bench, fault(bench, "caap"), false),
                        "a.job:1:3: error: a fault [word]\n"
                        "   1 | 01caap6789012345678901234567890123456789012345678901234567890123456789...\n"
                        "     |   ^~~~\n");
}

static void a_long_line_is_cut_at_its_start(void **state) {
    struct bench *bench = *state;
    read_text(bench, "a.job", long_line(bench, 196, "caap"));
    assert_string_equal(printed_one(bench, fault(bench, "caap"), false),
                        "a.job:1:197: error: a fault [word]\n"
                        "   1 | ...012345678901234567890123456789012345678901234567890123456789012345caap\n"
                        "     |                                                                      ^~~~\n");
}

/* Columns of a line as the tests below write it: characters, of which U+7AAF (in UTF-8 from 0xE7) has two. */
static size_t columns(const char *line, size_t length) {
    size_t count = 0;
    for (size_t i = 0; i < length; i++)
        count += ((unsigned char)line[i] & 0xC0) != 0x80 ? ((unsigned char)line[i] == 0xE7 ? 2 : 1) : 0;
    return count;
}

/* Wherever the span stands and however wide it is: no line is over 80 columns, and the caret is under its start. */
static void no_line_is_over_80_columns_and_the_caret_is_right(void **state) {
    struct bench *bench = *state;
    char *line = arena_take(bench->arena, 1000);
    size_t length = 0;
    for (int i = 0; i < 120; i++)
        length += (size_t)sprintf(line + length, "%s", i % 3 ? "窯" : "a");
    read_text(bench, "a.job", line);
    for (uint32_t begin = 0; begin < length; begin++) {
        if (((unsigned char)line[begin] & 0xC0) == 0x80)
            continue;
        for (uint32_t wide = 1; wide < 300; wide += 50) {
            uint32_t end = begin + wide < length ? begin + wide : (uint32_t)length;
            const struct diagnostic one = {.message = "m", .check = "c", .at = {bench->text, begin, end}};
            const char *shown = strchr(printed_one(bench, &one, false), '\n') + 1;
            const char *mark = strchr(shown, '\n') + 1;
            assert_true(columns(shown, (size_t)(mark - shown) - 1) <= 80);
            assert_true(strlen(mark) - 1 <= 80);
            size_t caret = strcspn(mark, "^"), i = 0;
            while (columns(shown, i) < caret || ((unsigned char)shown[i] & 0xC0) == 0x80)
                i++;
            assert_int_equal(columns(shown, i), caret);
            assert_int_equal(shown[i], line[begin]);
        }
    }
}

static void colour_is_only_added_never_changed_for(void **state) {
    struct bench *bench = *state;
    read_text(bench, "a.job", "caap");
    const struct diagnostic *error = fault(bench, "caap");
    assert_string_equal(printed_one(bench, error, true),
                        "\033[1ma.job:1:1: \033[0m\033[1;31merror: \033[0ma fault [word]\n"
                        "   1 | caap\n"
                        "     | \033[1;32m^~~~\033[0m\n");
    assert_null(strchr(printed_one(bench, error, false), '\033'));
}

static void the_count_names_what_there_is(void **state) {
    struct bench *bench = *state;
    assert_string_equal(printed(bench, false), "");
    const struct span nowhere = {0};
    diagnose(&bench->all, DIAGNOSTIC_NOTE, "n", nowhere, "x");
    assert_string_equal(printed(bench, false), "note: x [n]\n");
    diagnose(&bench->all, DIAGNOSTIC_ERROR, "e", nowhere, "x");
    diagnose(&bench->all, DIAGNOSTIC_ERROR, "e", nowhere, "x");
    diagnose(&bench->all, DIAGNOSTIC_WARNING, "w", nowhere, "x");
    const struct diagnostic *last = diagnose(&bench->all, DIAGNOSTIC_WARNING, "w", nowhere, "x");
    assert_string_equal(printed(bench, false), "note: x [n]\nerror: x [e]\nerror: x [e]\nwarning: x [w]\n"
                                               "warning: x [w]\n2 errors, 2 warnings\n");
    assert_ptr_equal(last, bench->all.all.at[4]);
}

static void an_error_is_told_once_at_one_place(void **state) {
    struct bench *bench = *state;
    read_text(bench, "kiln.job", "cap cap\n");
    const struct span first = {.text = bench->text, .begin = 0, .end = 3}, next = {bench->text, 4, 7};
    struct diagnostic *told = diagnose(&bench->all, DIAGNOSTIC_ERROR, "fitting", first, "no room for %d", 3);
    struct diagnostic *again = diagnose(&bench->all, DIAGNOSTIC_ERROR, "fitting", first, "no room for %d", 3);
    diagnostic_hint(&bench->all, again, "more room"); /* may be written to, and nobody sees it */
    assert_int_equal(bench->all.all.count, 1);
    assert_int_equal(bench->all.error_count, 1);
    assert_int_equal(bench->all.dropped, 0);
    assert_null(told->hint);
    /* Other words, another check, another place, another level: each is something else. */
    diagnose(&bench->all, DIAGNOSTIC_ERROR, "fitting", first, "no room for %d", 4);
    diagnose(&bench->all, DIAGNOSTIC_ERROR, "seam", first, "no room for %d", 3);
    diagnose(&bench->all, DIAGNOSTIC_ERROR, "fitting", next, "no room for %d", 3);
    diagnose(&bench->all, DIAGNOSTIC_WARNING, "fitting", first, "no room for %d", 3);
    diagnose(&bench->all, DIAGNOSTIC_WARNING, "fitting", first, "no room for %d", 3);
    assert_int_equal(bench->all.error_count, 4);
    assert_int_equal(bench->all.warning_count, 2);
}

static void accepted_warnings_are_counted_not_shown(void **state) {
    struct bench *bench = *state;
    struct diagnostic *warning =
        diagnose(&bench->all, DIAGNOSTIC_WARNING, "velocity", (struct span){0}, "950 fpm in the trunk");
    warning->accepted_because = "behind a wall";
    bench->all.warning_count--;
    assert_string_equal(printed(bench, false), "1 accepted\n");
}

static void a_flood_is_counted_and_hides_no_error(void **state) {
    struct bench *bench = *state;
    const struct span nowhere = {0};
    for (int i = 0; i < DIAGNOSTICS_KEPT + 12; i++) {
        struct diagnostic *note = diagnose(&bench->all, DIAGNOSTIC_WARNING, "w", nowhere, "x");
        diagnostic_hint(&bench->all, note, "y");
        diagnostic_relate(&bench->all, note, nowhere, "z");
        note->subject = "anything"; /* what was not kept may still be written to */
    }
    diagnose(&bench->all, DIAGNOSTIC_ERROR, "e", nowhere, "the one that matters");
    assert_int_equal(bench->all.all.count, DIAGNOSTICS_KEPT + 1);
    assert_int_equal(bench->all.warning_count, DIAGNOSTICS_KEPT + 12);
    assert_int_equal(bench->all.error_count, 1);
    assert_int_equal(bench->all.dropped, 12);
    const char *text = printed(bench, false);
    assert_non_null(strstr(text, "error: the one that matters [e]\n1 error, 1012 warnings, 913 not shown\n"));
    size_t shown = 0;
    for (const char *found = text; (found = strstr(found, "warning: x")); found++)
        shown++;
    assert_int_equal(shown, DIAGNOSTICS_PRINTED - 1); /* and the error */
}

static void they_are_sorted_by_file_then_place_and_equals_stay(void **state) {
    struct bench *bench = *state;
    read_text(bench, "a.job", "one two three");
    struct span one = at(bench, "one"), three = at(bench, "three");
    read_text(bench, "b.shop", "four");
    struct span four = at(bench, "four");
    const struct span spans[] = {four, {0}, three, one, four, {0}, one, three};
    for (size_t i = 0; i < 8; i++)
        diagnose(&bench->all, DIAGNOSTIC_NOTE, "n", spans[i], "%zu", i);
    diagnostics_sort(&bench->all);
    char order[9] = "";
    for (size_t i = 0; i < 8; i++)
        order[i] = bench->all.all.at[i]->message[0];
    assert_string_equal(order, "36270415");
}

static void warnings_are_told_apart_by_check_however_many_there_are(void **state) {
    struct bench *bench = *state;
    struct span nowhere = {0};
    for (int i = 0; i < DIAGNOSTICS_KEPT + 500; i++)
        diagnose(&bench->all, DIAGNOSTIC_WARNING, "register", nowhere, "no register");
    diagnose(&bench->all, DIAGNOSTIC_WARNING, "size", nowhere, "too small");
    diagnose(&bench->all, DIAGNOSTIC_ERROR, "size", nowhere, "far too small");
    assert_int_equal(diagnostics_warned(&bench->all, "register"), DIAGNOSTICS_KEPT + 500);
    assert_int_equal(diagnostics_warned(&bench->all, "size"), 1);
    assert_int_equal(diagnostics_warned(&bench->all, "velocity"), 0);
}

int main(void) {
#define ON_BENCH(test) cmocka_unit_test_setup_teardown(test, setup, teardown)
    const struct CMUnitTest tests[] = {
        ON_BENCH(one_fault_is_shown_with_its_line_and_what_to_do),
        ON_BENCH(the_other_place_follows_as_a_note),
        ON_BENCH(names_in_a_message_are_known_and_not_marked),
        ON_BENCH(what_has_no_place_is_said_without_one),
        ON_BENCH(a_span_over_several_lines_is_marked_on_the_first),
        ON_BENCH(the_end_of_a_line_and_of_the_text_have_a_place),
        ON_BENCH(tabs_are_one_space_wide),
        ON_BENCH(carets_stand_under_their_columns),
        ON_BENCH(control_characters_and_bad_bytes_are_stood_in_for),
        ON_BENCH(a_long_line_is_cut_around_its_middle),
        ON_BENCH(a_long_line_is_cut_at_its_end),
        ON_BENCH(a_long_line_is_cut_at_its_start),
        ON_BENCH(no_line_is_over_80_columns_and_the_caret_is_right),
        ON_BENCH(colour_is_only_added_never_changed_for),
        ON_BENCH(the_count_names_what_there_is),
        ON_BENCH(an_error_is_told_once_at_one_place),
        ON_BENCH(accepted_warnings_are_counted_not_shown),
        ON_BENCH(a_flood_is_counted_and_hides_no_error),
        ON_BENCH(warnings_are_told_apart_by_check_however_many_there_are),
        ON_BENCH(they_are_sorted_by_file_then_place_and_equals_stay),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
