/* The shape of the tree that a text gives. */
#include "lang_bench.h"

static void assert_tree(const char *text, const char *tree) {
    struct bench *bench = bench_parse(text);
    if (bench->diagnostics.all.count)
        diagnostics_print(stderr, &bench->diagnostics, false);
    assert_int_equal(bench->diagnostics.all.count, 0);
    assert_string_equal(bench_tree(bench), tree);
    bench_free(bench);
}

static void newlines_and_semicolons_end_statements(void **state) {
    (void)state;
    assert_tree("", "");
    assert_tree("\n\n  # nothing but a remark", "");
    assert_tree("boot\ncap", "boot; cap");
    assert_tree("boot;cap ; ; tap", "boot; cap; tap");
    assert_tree("boot # a remark; cap\ncap", "boot; cap");
    assert_tree("boot\r\ncap\r\n", "boot; cap");
    assert_tree("\xEF\xBB\xBFjob {}", "job { }");
}

static void blocks_hold_statements(void **state) {
    (void)state;
    assert_tree("run a from b { boot; cap }", "run a from b { boot; cap }");
    assert_tree("run a from b {\n  boot\n  cap\n}\nrun c from a {}\n", "run a from b { boot; cap }; run c from a { }");
    assert_tree("a { b { c { } } d }", "a { b { c { } }; d }");
    assert_tree("a { b } c { d }", "a { b }; c { d }");
}

static void a_block_may_open_on_the_next_line(void **state) {
    (void)state;
    assert_tree("run a from b\n{\n  boot\n}\n", "run a from b { boot }");
    assert_tree("run a from b\n\n # why not\n\n{ boot }\n", "run a from b { boot }");
}

static void a_comma_at_its_end_makes_a_line_go_on(void **state) {
    (void)state;
    assert_tree("flat top,\n\n  # remark\n  over 4\nboot", "flat top , over 4; boot");
    assert_tree("a 1, 2 ,3", "a 1 , 2 , 3");
}

static void words_take_dots_dashes_and_slashes(void **state) {
    (void)state;
    assert_tree("sizing equal-friction", "sizing equal-friction");
    assert_tree("from plenum.left AHU.supply glaze_room a/b", "from plenum.left AHU.supply glaze_room a/b");
    assert_tree("room caf\xC3\xA9", "room caf\xC3\xA9");
    assert_tree("x x14 X", "x x14 X"); /* not behind a number: a word like others */
}

static void numbers(void **state) {
    (void)state;
    assert_tree("a 14 0.30 .5 -5 -.25", "a 14 0.3 0.5 -5 -0.25");
    assert_tree("a 1/4 , 3-1/2 , 3 1/2 , -1-1/2", "a 0.25 , 3.5 , 3.5 , -1.5");
    assert_tree("sizes 4,5,6", "sizes 4 , 5 , 6");
    assert_tree("sizes 1,2000", "sizes 1 , 2000");
    assert_tree("gauge 0.1 0.2 0.3 41.50 18.5", "gauge 0.1 0.2 0.3 41.5 18.5");
}

/* The nearest double, as strtod gives it. */
static void decimals_are_read_to_the_nearest_double(void **state) {
    (void)state;
    static const char *const texts[] = {"0.1", "0.30", "6.25", "41.50", "0.0625", "123456.789", "999999999999.999"};
    for (size_t i = 0; i < sizeof texts / sizeof texts[0]; i++) {
        char line[40];
        snprintf(line, sizeof line, "a %s", texts[i]);
        struct bench *bench = bench_parse(line);
        assert_true(bench->syntax.statements.at[0]->values.at[0].quantity[0].number == strtod(texts[i], NULL));
        bench_free(bench);
    }
}

static void a_unit_stands_behind_its_number(void **state) {
    (void)state;
    assert_tree("a 140 cfm 140cfm 0.08 in.wg/100ft 96 % 96% 5 percent",
                "a 140cfm 140cfm 0.08in.wg/100ft 96% 96% 5percent");
    assert_tree("insulation R-8", "insulation 8R");
    assert_tree("insulation r-4.2", "insulation 4.2R");
    assert_tree("elbow 90 left", "elbow 90 left");
    assert_tree("in ft cfm", "in ft cfm"); /* without a number they are words */
    assert_tree("place attic 130 \xC2\xB0"
                "F",
                "place attic 130\xC2\xB0"
                "F");
}

static void feet_and_inches_are_one_length(void **state) {
    (void)state;
    assert_tree("a 14 ft 6 in", "a 14.5ft");
    assert_tree("a 14 ft 6-1/2 in", "a 14.54166667ft");
    assert_tree("a 14 ft 6 1/2 in", "a 14.54166667ft");
    assert_tree("a 14 feet 6 inches", "a 14.5feet");
    assert_tree("a -2 ft 6 in", "a -2.5ft");
    assert_tree("a 14 ft, 6 in", "a 14ft , 6in");
    assert_tree("a 14 ft 6 mm", "a 14ft 6mm");
    assert_tree("a 14 in 6 ft", "a 14in 6ft");
    assert_tree("a 12 ft 3 in, 1 ft 6 in", "a 12.25ft , 1.5ft");
}

static void sizes(void **state) {
    (void)state;
    assert_tree("size 18 x 14", "size 18 x 14");
    assert_tree("size 18x14", "size 18 x 14");
    assert_tree("size 18 X 14", "size 18 x 14");
    assert_tree("size 18\xC3\x97"
                "14",
                "size 18 x 14");
    assert_tree("size 20 x 25x1", "size 20 x 25 x 1");
    assert_tree("size 350 mm x 200 mm", "size 350mm x 200mm");
    assert_tree("box 14-1/2 x 8 1/2 in", "box 14.5 x 8.5in");
    assert_tree("box 1 ft 6 in x 20 x 2 ft 3 in", "box 1.5ft x 20 x 2.25ft");
    assert_tree("size 18 x 14 oval", "size 18 x 14 oval");
}

static void text_and_dates(void **state) {
    (void)state;
    assert_tree("job \"A # {not} a remark;\"", "job <A # {not} a remark;>");
    assert_tree("job \"6\\\" pipe \\\\ \"", "job <6\" pipe \\ >");
    assert_tree("job \"\" \"b\"", "job <> <b>");
    assert_tree("date 2026-04-18", "date date:2026-04-18");
}

static void places_are_those_of_the_text(void **state) {
    (void)state;
    struct bench *bench = bench_parse("\nrun a from b { boot\n }");
    const struct statement *run = bench->syntax.statements.at[0];
    assert_int_equal(run->word_at.begin, 1);
    assert_int_equal(run->word_at.end, 4);
    assert_int_equal(run->at.begin, 1);
    assert_int_equal(run->at.end, 13);
    assert_int_equal(run->block_at.begin, 14);
    assert_int_equal(run->block_at.end, 23);
    assert_int_equal(run->values.at[1].at.begin, 7);
    assert_int_equal(run->values.at[1].at.end, 11);
    bench_free(bench);
}

/* The scanner marks the text while it looks at it; a message shown later needs it as it was. */
static void the_text_is_left_as_it_was(void **state) {
    (void)state;
    static const char text[] = "run a from b { straight 14 ft 6 in, x 18x14 \"text\" 2026-04-18 @ }\n} \"open\n";
    struct bench *bench = bench_new();
    const struct text *taken = text_new(bench->arena, "test.job", text, sizeof text - 1);
    syntax_parse(&bench->syntax, taken, bench->arena, &bench->diagnostics);
    assert_memory_equal(taken->bytes, text, sizeof text);
    bench_free(bench);
}

static void the_order_of_pieces_is_kept(void **state) {
    (void)state;
    assert_tree("run a from AHU.supply {\n"
                "    transition over 18 in, flat top\n"
                "    elbow 90 left, radius 1.0, vanes\n"
                "    straight about 10 ft }",
                "run a from AHU.supply { transition over 18in , flat top; elbow 90 left , radius 1 , vanes; "
                "straight about 10ft }");
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(newlines_and_semicolons_end_statements),
        cmocka_unit_test(blocks_hold_statements),
        cmocka_unit_test(a_block_may_open_on_the_next_line),
        cmocka_unit_test(a_comma_at_its_end_makes_a_line_go_on),
        cmocka_unit_test(words_take_dots_dashes_and_slashes),
        cmocka_unit_test(numbers),
        cmocka_unit_test(decimals_are_read_to_the_nearest_double),
        cmocka_unit_test(a_unit_stands_behind_its_number),
        cmocka_unit_test(feet_and_inches_are_one_length),
        cmocka_unit_test(sizes),
        cmocka_unit_test(text_and_dates),
        cmocka_unit_test(places_are_those_of_the_text),
        cmocka_unit_test(the_text_is_left_as_it_was),
        cmocka_unit_test(the_order_of_pieces_is_kept),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
