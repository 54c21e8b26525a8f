/* Faults that the scanner and the parser find: each is one error, and costs only its own statement. */
#include "lang_bench.h"

static void assert_fault(const struct expected *expected, const char *tree) {
    struct bench *bench = bench_parse(expected->text);
    assert_one_error(bench, expected);
    assert_string_equal(bench_tree(bench), tree);
    bench_free(bench);
}

static void characters_that_mean_nothing(void **state) {
    (void)state;
    assert_fault(&(struct expected){"a\nb @ c @ d\ne", "syntax", "@", "'@' has no meaning here", NULL}, "a; !b c d; e");
    assert_fault(&(struct expected){"@run a from b { cap }", "syntax", "@", "'@' has no meaning here", NULL},
                 "!run a from b { cap }");
    assert_fault(&(struct expected){"a \xE2\x98\x83\xE2\x80\x9Cx", "syntax", "\xE2\x80\x9C",
                                    "curly quotes are not read", "write straight ones: \"like this\""},
                 "!a \xE2\x98\x83 x");
    assert_fault(
        &(struct expected){"a \x01", "syntax", "\x01", "a character that cannot be shown (code 01) stands here", NULL},
        "!a");
    assert_fault(
        &(struct expected){"a \xFF", "syntax", "\xFF", "a character that cannot be shown (code FF) stands here", NULL},
        "!a");
    assert_fault(
        &(struct expected){"price x $5", "syntax", "$", "money is written without its sign", "write only the number"},
        "!price x 5");
    assert_fault(&(struct expected){"a %", "syntax", "%", "% belongs behind a number", NULL}, "!a");
}

static void marks_of_feet_and_inches(void **state) {
    (void)state;
    assert_fault(&(struct expected){"straight 14' 6\"\ncap", "syntax", "14'",
                                    "feet are written with their unit, not with a mark", "write 14 ft"},
                 "!straight 14 6; cap");
    assert_fault(&(struct expected){"flex 6\"", "syntax", "6\"", "inches are written with their unit, not with a mark",
                                    "write 6 in"},
                 "!flex 6");
    assert_fault(&(struct expected){"a { size 8\" ; cap }\nb", "syntax", "8\"",
                                    "inches are written with their unit, not with a mark", "write 8 in"},
                 "a { !size 8; cap }; b");
}

static void text_that_does_not_end(void **state) {
    (void)state;
    assert_fault(&(struct expected){"job \"Mill {\nb", "syntax", "\"Mill {", "this text does not end on its line",
                                    "put \" at its end"},
                 "!job <Mill {>; b");
    assert_fault(&(struct expected){"job \"a\\nb\"", "syntax", "\\n", "a \\ in text goes only before \" or \\",
                                    "write \\\\ for a single \\"},
                 "!job <anb>");
    assert_fault(
        &(struct expected){"job \"a\\", "syntax", "\"a\\", "this text does not end on its line", "put \" at its end"},
        "!job <a\\>");
}

static void numbers_that_are_none(void **state) {
    (void)state;
    assert_fault(
        &(struct expected){"airflow 1,200 cfm", "syntax", "1,200", "a number is written without commas", "write 1200"},
        "airflow 1200cfm");
    assert_fault(&(struct expected){"a 1,234,567.5", "syntax", "1,234,567.5", "a number is written without commas",
                                    "write 1234567.5"},
                 "a 1234567.5");
    assert_fault(&(struct expected){"a 3 1/0", "syntax", "3 1/0", "a fraction cannot have 0 below the line",
                                    "write it like 5/8"},
                 "!a 4");
    assert_fault(&(struct expected){"a 1234567890123456789", "syntax", "1234567890123456789",
                                    "this number has more digits than any measure needs", NULL},
                 "!a 0");
    assert_fault(&(struct expected){"date 4/18/2026", "syntax", "4/18/2026", "a date is written year-month-day",
                                    "write it like 2026-04-18"},
                 "!date date:4/18/2026");
}

static void sizes_that_are_none(void **state) {
    (void)state;
    assert_fault(&(struct expected){"size 18 x\ncap", "syntax", "x", "a number is missing behind this x",
                                    "write a size like 18 x 14"},
                 "!size; cap");
    assert_fault(&(struct expected){"size 18 x", "syntax", "x", "a number is missing behind this x",
                                    "write a size like 18 x 14"},
                 "!size");
    assert_fault(&(struct expected){"a { size 18 x wide }", "syntax", "x", "a number is missing behind this x",
                                    "write a size like 18 x 14"},
                 "a { !size }");
    assert_fault(&(struct expected){"a { size 18 x wide and, 3 x 4 in }", "syntax", "x",
                                    "a number is missing behind this x", "write a size like 18 x 14"},
                 "a { !size }");
    assert_fault(&(struct expected){"size 1 x 2 x 3 x 4; cap", "syntax", "x",
                                    "a size has at most three numbers, like 20 x 25 x 1", NULL},
                 "!size; cap");
}

static void statements_begin_with_a_word(void **state) {
    (void)state;
    assert_fault(&(struct expected){"a\n14 ft of duct\nb", "syntax", "14", "a statement begins with a word",
                                    "write it like straight 16 ft"},
                 "a; !; b");
    assert_fault(&(struct expected){"a { \"b\" c; d }", "syntax", "\"b\"", "a statement begins with a word",
                                    "write it like straight 16 ft"},
                 "a { !; d }");
    assert_fault(&(struct expected){"a\n, b\nc", "syntax", ",", "a statement cannot begin with a comma",
                                    "a line that goes on ends in its comma"},
                 "a; !; c");
    assert_fault(&(struct expected){"a;\n{ b; c }\nd", "syntax", "{", "this { does not stand behind a statement",
                                    "write what the block belongs to before it"},
                 "a; ! { b; c }; d");
}

static void every_line_has_its_own_fault(void **state) {
    (void)state;
    struct bench *bench = bench_parse("1 a\n2 b\n@ c\nd @\n\"e\n3;\n{ f }\n");
    assert_int_equal(bench->diagnostics.error_count, 7);
    assert_string_equal(bench_tree(bench), "!; !; !c; !d; !; !; ! { f }");
    bench_free(bench);
}

static void a_stray_brace(void **state) {
    (void)state;
    assert_fault(&(struct expected){"a { b }\n}\nc", "syntax", "}", "this } closes nothing",
                                    "take it away, or look for a { that is missing above"},
                 "a { b }; c");
}

static void a_brace_that_is_not_closed_points_at_where_it_opens(void **state) {
    (void)state;
    assert_fault(&(struct expected){"a { b; c", "syntax", "{", "this { is never closed", "close the block with }"},
                 "a { b; c }");
}

/* The indentation tells where the } is missing, so that what follows is read for what it is. */
static void a_missing_closing_brace_costs_one_error(void **state) {
    (void)state;
    struct bench *bench =
        bench_parse("run a from b {\n    boot\n    cap\n\nrun c from a {\n    boot\n}\nrun d from a { cap }\n");
    assert_one_error(bench, &(struct expected){"", "syntax", "{", "this { is never closed", "close the block with }"});
    const struct diagnostic *diagnostic = bench->diagnostics.all.at[0];
    assert_int_equal(diagnostic->at.begin, 13);
    assert_int_equal(diagnostic->related.count, 1);
    assert_string_equal(diagnostic->related.at[0].message, "a } is missing before this");
    assert_int_equal(text_place(diagnostic->related.at[0].at.text, diagnostic->related.at[0].at.begin).line, 5);
    assert_string_equal(bench_tree(bench), "run a from b { boot; cap }; run c from a { boot }; run d from a { cap }");
    bench_free(bench);
}

static void a_missing_opening_brace_costs_one_error(void **state) {
    (void)state;
    assert_fault(&(struct expected){"run a from b\n    boot\n    cap\n}\nrun c from a { cap }\n", "syntax", "b",
                                    "the lines below stand further in, but no { opens a block here",
                                    "put { at the end of this line"},
                 "!run a from b { boot; cap }; run c from a { cap }");
}

static void a_closing_brace_too_early_costs_one_error(void **state) {
    (void)state;
    assert_fault(&(struct expected){"run a from b {\n    boot }\n\n    cap\n}\nrun c from a { cap }\n", "syntax", "}",
                                    "this } closes the block, but the lines below stand further in", "take it away"},
                 "run a from b { !boot; cap }; run c from a { cap }");
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(characters_that_mean_nothing),
        cmocka_unit_test(marks_of_feet_and_inches),
        cmocka_unit_test(text_that_does_not_end),
        cmocka_unit_test(numbers_that_are_none),
        cmocka_unit_test(sizes_that_are_none),
        cmocka_unit_test(statements_begin_with_a_word),
        cmocka_unit_test(every_line_has_its_own_fault),
        cmocka_unit_test(a_stray_brace),
        cmocka_unit_test(a_brace_that_is_not_closed_points_at_where_it_opens),
        cmocka_unit_test(a_missing_closing_brace_costs_one_error),
        cmocka_unit_test(a_missing_opening_brace_costs_one_error),
        cmocka_unit_test(a_closing_brace_too_early_costs_one_error),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
