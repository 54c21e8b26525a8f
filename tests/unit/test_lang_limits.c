/* What is too much, too long, too deep or no text at all is said at its place; nothing crashes. */
#include "lang_bench.h"

static struct bench *read_bytes(const char *bytes, size_t length) {
    struct bench *bench = bench_new();
    syntax_read_text(&bench->syntax, "test.job", bytes, length, NULL, bench->arena, &bench->diagnostics);
    return bench;
}

/* `count` times `text`, to be freed. */
static char *repeated(const char *text, size_t count) {
    size_t length = strlen(text);
    char *all = malloc(length * count + 1);
    assert_non_null(all);
    for (size_t i = 0; i < count; i++)
        memcpy(all + i * length, text, length);
    all[length * count] = 0;
    return all;
}

static size_t depth_of(const struct statement *statement) {
    size_t depth = 0;
    for (; statement->has_block && statement->block.count; statement = statement->block.at[0])
        depth++;
    return depth;
}

static void blocks_nest_to_the_limit_and_no_deeper(void **state) {
    (void)state;
    for (size_t over = 0; over < 2; over++) {
        char *open = repeated("a {\n", NESTING_LIMIT + over), *close = repeated("}\n", NESTING_LIMIT + over);
        char text[NESTING_LIMIT * 6 + 30];
        snprintf(text, sizeof text, "%sb\n%sc\n", open, close);
        struct bench *bench = bench_parse(text);
        if (over)
            assert_one_error(bench,
                             &(struct expected){"", "syntax", "{", "blocks stand in blocks more than 64 deep", NULL});
        else
            assert_int_equal(bench->diagnostics.all.count, 0);
        assert_int_equal(depth_of(bench->syntax.statements.at[0]), NESTING_LIMIT);
        assert_int_equal(bench->syntax.statements.count, 2);
        assert_string_equal(bench->syntax.statements.at[1]->word, "c");
        bench_free(bench);
        free(open);
        free(close);
    }
}

static void a_million_braces_are_no_harm(void **state) {
    (void)state;
    static const char *const texts[] = {"{", "}", "a{", "a{}", "a\n{\n", "\"", "1 x ", ", ", "a ", "\n#{"};
    for (size_t i = 0; i < sizeof texts / sizeof texts[0]; i++) {
        char *text = repeated(texts[i], 1000000);
        struct bench *bench = bench_parse(text);
        bool well = strcmp(texts[i], "a{}") == 0 || strcmp(texts[i], "a ") == 0 || strcmp(texts[i], "\n#{") == 0;
        assert_true(well == (bench->diagnostics.error_count == 0));
        bench_free(bench);
        free(text);
    }
}

static void a_word_has_200_bytes(void **state) {
    (void)state;
    char *word = repeated("w", WORD_LIMIT);
    struct bench *bench = bench_parse(word);
    assert_int_equal(bench->diagnostics.all.count, 0);
    assert_string_equal(bench->syntax.statements.at[0]->word, word);
    bench_free(bench);
    char *longer = repeated("w", WORD_LIMIT + 1);
    bench = bench_parse(longer);
    assert_one_error(bench,
                     &(struct expected){"", "syntax", longer,
                                        "a name this long cannot be told from the next: at most 200 letters", NULL});
    bench_free(bench);
    free(word);
    free(longer);
}

static void a_line_has_64_kib(void **state) {
    (void)state;
    char *line = repeated("x", LINE_LIMIT - 2);
    char *text = malloc(LINE_LIMIT + 20);
    assert_non_null(text);
    for (int over = 0; over < 2; over++) {
        int length = snprintf(text, LINE_LIMIT + 20, "a\n# %s%s\nb\n", line, over ? "x" : "");
        struct bench *bench = read_bytes(text, (size_t)length);
        if (over)
            assert_one_error(bench, &(struct expected){"", "text", "#",
                                                       "this line has 65537 bytes: a line has at most 65536", NULL});
        else
            assert_int_equal(bench->diagnostics.all.count, 0);
        assert_string_equal(bench_tree(bench), "a; b");
        bench_free(bench);
    }
    free(line);
    free(text);
}

static void a_file_has_64_mib(void **state) {
    (void)state;
    size_t length = (size_t)TEXT_LIMIT + 1;
    char *bytes = malloc(length);
    assert_non_null(bytes);
    memset(bytes, '\n', length);
    struct bench *bench = read_bytes(bytes, length);
    assert_one_error(bench,
                     &(struct expected){"", "text", "", "this file is too large: a file has at most 64 MiB", NULL});
    bench_free(bench);
    bench = read_bytes(bytes, length - 1);
    assert_int_equal(bench->diagnostics.all.count, 0);
    bench_free(bench);
    free(bytes);
}

static void bytes_that_are_not_utf8(void **state) {
    (void)state;
    static const char text[] =
        "job \"Caf\xE9\" { note \"na\xEFve\" }\nrun a from b { cap }\n# padding, so that this is text\n";
    struct bench *bench = read_bytes(text, sizeof text - 1);
    assert_int_equal(bench->diagnostics.all.count, 1);
    const struct diagnostic *diagnostic = bench->diagnostics.all.at[0];
    assert_string_equal(diagnostic->message, "the byte E9 here is not UTF-8 text");
    assert_string_equal(diagnostic->hint, "save the file in the encoding UTF-8");
    assert_int_equal(diagnostic->at.begin, 8);
    assert_string_equal(bench_tree(bench), "job <Caf_> { note <na_ve> }; run a from b { cap }");
    bench_free(bench);
}

static void a_nul_byte(void **state) {
    (void)state;
    static const char text[] = "# a remark\njob \"a\0b\" { }\n";
    struct bench *bench = read_bytes(text, sizeof text - 1);
    assert_int_equal(bench->diagnostics.all.count, 1);
    assert_string_equal(bench->diagnostics.all.at[0]->message, "there is a NUL byte in the text");
    assert_int_equal(bench->diagnostics.all.at[0]->at.begin, 17);
    assert_string_equal(bench_tree(bench), "job <a_b> { }");
    bench_free(bench);
}

static void bytes_that_are_no_text_at_all(void **state) {
    (void)state;
    static const char text[] = "j\0o\0b\0 \0\"\0a\0\"\0";
    struct bench *bench = read_bytes(text, sizeof text - 1);
    assert_int_equal(bench->diagnostics.error_count, 1);
    assert_int_equal(bench->syntax.statements.count, 0);
    bench_free(bench);
}

/* xorshift64 (Marsaglia 2003), from a fixed seed. */
static unsigned next_random(uint64_t *state) {
    *state ^= *state << 13;
    *state ^= *state >> 7;
    *state ^= *state << 17;
    return (unsigned)(*state >> 32);
}

static void garbage_is_read_to_its_end(void **state) {
    (void)state;
    static const char alphabet[] = "ab {}\n\";,x18./-#%'\\\t\xC3\x97\xE2\x80\x9C\xFF";
    uint64_t seed = 88172645463325252u;
    for (int round = 0; round < 3000; round++) {
        char text[120];
        size_t length = next_random(&seed) % (sizeof text - 1);
        for (size_t i = 0; i < length; i++)
            text[i] = alphabet[next_random(&seed) % (sizeof alphabet - 1)];
        text[length] = 0;
        struct bench *bench = bench_parse(text);
        for (size_t i = 0; i < bench->diagnostics.all.count; i++) {
            const struct diagnostic *diagnostic = bench->diagnostics.all.at[i];
            assert_true(diagnostic->at.begin <= diagnostic->at.end && diagnostic->at.end <= length);
        }
        bench_free(bench);
    }
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(blocks_nest_to_the_limit_and_no_deeper),
        cmocka_unit_test(a_million_braces_are_no_harm),
        cmocka_unit_test(a_word_has_200_bytes),
        cmocka_unit_test(a_line_has_64_kib),
        cmocka_unit_test(a_file_has_64_mib),
        cmocka_unit_test(bytes_that_are_not_utf8),
        cmocka_unit_test(a_nul_byte),
        cmocka_unit_test(bytes_that_are_no_text_at_all),
        cmocka_unit_test(garbage_is_read_to_its_end),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
