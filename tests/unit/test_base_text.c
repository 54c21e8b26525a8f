/* Places in texts, bytes that are no text, and words that are nearly right. */
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <setjmp.h>
#include <cmocka.h>

#include <string.h>

#include "base/text.h"

static int setup(void **state) {
    *state = arena_new(NULL);
    return *state ? 0 : -1;
}

static int teardown(void **state) {
    arena_free(*state);
    return 0;
}

static struct text *text_of(void **state, const char *bytes) {
    return text_new(*state, "kiln.job", bytes, strlen(bytes));
}

static void assert_place(const struct text *text, uint32_t offset, size_t line, size_t column) {
    struct place place = text_place(text, offset);
    assert_int_equal(place.line, line);
    assert_int_equal(place.column, column);
}

static void places_are_lines_and_columns_from_one(void **state) {
    const struct text *text = text_of(state, "ab\n\ncd\n");
    assert_int_equal(text->line_count, 4);
    assert_place(text, 0, 1, 1);
    assert_place(text, 2, 1, 3); /* the newline is on the line it ends */
    assert_place(text, 3, 2, 1);
    assert_place(text, 4, 3, 1);
    assert_place(text, 5, 3, 2);
    assert_place(text, 7, 4, 1);
    assert_place(text, 7000, 4, 1); /* beyond the end is the end */
}

static void an_empty_text_has_one_empty_line(void **state) {
    const struct text *text = text_of(state, "");
    size_t length = 9;
    assert_place(text, 0, 1, 1);
    text_line(text, 1, &length);
    assert_int_equal(length, 0);
    assert_int_equal(text->bytes[0] | text->bytes[1], 0);
}

/* "é" is 2 bytes of UTF-8, "窯" 3, "𝄞" 4: RFC 3629, section 3. */
static void columns_count_characters_not_bytes(void **state) {
    const struct text *text = text_of(state, "\té窯𝄞x");
    assert_place(text, 1, 1, 2);
    assert_place(text, 2, 1, 2); /* inside the e: still the e */
    assert_place(text, 3, 1, 3);
    assert_place(text, 6, 1, 4);
    assert_place(text, 10, 1, 5);
    assert_place(text, 11, 1, 6);
}

static void bytes_that_are_no_characters_count_one_each(void **state) {
    const struct text *text = text_of(state, "\xFF\xC3(x");
    assert_place(text, 1, 1, 2);
    assert_place(text, 2, 1, 3);
    assert_place(text, 3, 1, 4);
}

static void lines_come_without_their_ends(void **state) {
    const struct text *text = text_of(state, "one\r\ntwo\n\rthree");
    size_t length;
    assert_memory_equal(text_line(text, 1, &length), "one", 3);
    assert_int_equal(length, 3);
    assert_memory_equal(text_line(text, 2, &length), "two", 3);
    assert_int_equal(length, 3);
    assert_memory_equal(text_line(text, 3, &length), "\rthree", 6);
    assert_int_equal(length, 6);
}

static void a_text_is_a_copy_with_two_zeros_behind(void **state) {
    char bytes[] = {'a', 'b'};
    const struct text *text = text_new(*state, "x.job", bytes, 2);
    bytes[0] = 'z';
    assert_memory_equal(text->bytes, "ab\0", 4);
    assert_string_equal(text->name, "x.job");
}

static void later_texts_come_later(void **state) {
    const struct text *job = text_of(state, "use"), *shop = text_of(state, "shop"), *other = text_of(state, "");
    assert_true(job->order < shop->order && shop->order < other->order);
}

static void a_joined_span_goes_from_first_to_last(void **state) {
    const struct text *text = text_of(state, "14 ft 6 in");
    struct span all = span_join((struct span){text, 0, 2}, (struct span){text, 6, 10});
    assert_ptr_equal(all.text, text);
    assert_int_equal(all.begin, 0);
    assert_int_equal(all.end, 10);
    assert_int_equal(span_join(all, (struct span){text, 3, 5}).end, 10);
}

struct utf8_case {
    const char *bytes;
    size_t length, bad;
};

/* The sequences are those of RFC 3629 (sections 3, 4 and 10) and of table 3-7 in The Unicode Standard: the first
 * and last of each length, the overlong forms, the surrogates, and what lies above U+10FFFF. */
static void bad_bytes_are_found_where_they_are(void **state) {
    (void)state;
    const struct utf8_case cases[] = {
        {"", 0, 0},
        {"plain\n\t", 7, 7},
        {"\x7F", 1, 1},
        {"\xC2\x80\xDF\xBF", 4, 4},
        {"\xE0\xA0\x80\xEF\xBF\xBF", 6, 6},
        {"\xF0\x90\x80\x80\xF4\x8F\xBF\xBF", 8, 8},
        {"\xED\x9F\xBF\xEE\x80\x80", 6, 6},
        {"ab\0c", 4, 2},            /* NUL */
        {"a\x80", 2, 1},            /* a tail without a head */
        {"a\xC0\x80", 3, 1},        /* overlong NUL */
        {"a\xC1\xBF", 3, 1},        /* overlong */
        {"\xE0\x9F\xBF", 3, 0},     /* overlong */
        {"\xF0\x8F\xBF\xBF", 4, 0}, /* overlong */
        {"é\xED\xA0\x80", 5, 2},    /* a surrogate */
        {"\xED\xBF\xBF", 3, 0},     /* a surrogate */
        {"\xF4\x90\x80\x80", 4, 0}, /* above U+10FFFF */
        {"\xF5\x80\x80\x80", 4, 0},
        {"ok \xE2\x82", 5, 3},  /* cut short */
        {"ok \xE2\x82x", 6, 3}, /* cut short by a letter */
        {"\xFF\xFE", 2, 0},     /* UTF-16 */
    };
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++)
        assert_int_equal(text_first_bad_byte(cases[i].bytes, cases[i].length), cases[i].bad);
}

static void characters_have_their_code_points(void **state) {
    (void)state;
    uint32_t character;
    assert_int_equal(text_character("A", 1, &character), 1);
    assert_int_equal(character, 'A');
    assert_int_equal(text_character("\xE2\x82\xAC", 3, &character), 3); /* the euro sign, U+20AC */
    assert_int_equal(character, 0x20AC);
    assert_int_equal(text_character("\xF0\x9D\x84\x9E", 4, &character), 4); /* RFC 2781: U+1D11E */
    assert_int_equal(character, 0x1D11E);
    assert_int_equal(text_character("\xE2\x82\xAC", 2, &character), 1);
    assert_true(character == TEXT_NOT_A_CHARACTER);
}

/* "kitten", "sitting": 3, the usual example for V. Levenshtein's distance (1966).  The swap of neighbours as one
 * fault: F. Damerau (1964); "ca", "abc" is 3 in the restricted form, where no letter is touched twice. */
static void distances_are_those_of_levenshtein_and_damerau(void **state) {
    (void)state;
    assert_int_equal(text_distance("kitten", "sitting", 9), 3);
    assert_int_equal(text_distance("elbow", "elobw", 9), 1);
    assert_int_equal(text_distance("ca", "abc", 9), 3);
    assert_int_equal(text_distance("", "abc", 9), 3);
    assert_int_equal(text_distance("Flex", "fLEX", 9), 0);
    assert_int_equal(text_distance("saturday", "sunday", 9), 3);
    assert_int_equal(text_distance("saturday", "sunday", 2), 3); /* over the limit */
    assert_int_equal(text_distance("saturday", "sun", 2), 3);
    assert_int_equal(text_distance("abcdef", "uvwxyz", 4), 5);
    assert_int_equal(text_distance("abcdef", "uvwxyz", 6), 6);
}

static void long_words_are_compared_on_their_first_64_bytes(void **state) {
    (void)state;
    char a[80], b[80];
    memset(a, 'a', sizeof a);
    memset(b, 'a', sizeof b);
    a[79] = b[70] = 0;
    b[69] = 'b';
    assert_int_equal(text_distance(a, b, 9), 0);
    b[63] = 'b';
    assert_int_equal(text_distance(a, b, 9), 1);
}

static void the_nearest_word_is_near_or_not_there(void **state) {
    (void)state;
    const char *const pieces[] = {"straight", "elbow", "offset", "transition", "tap", "cap", "boot"};
    const size_t count = sizeof pieces / sizeof *pieces;
    assert_string_equal(text_nearest("elbwo", pieces, count), "elbow");
    assert_string_equal(text_nearest("STRAIT", pieces, count), "straight");
    assert_string_equal(text_nearest("transishun", pieces, count), "transition");
    assert_string_equal(text_nearest("cap", pieces, count), "cap"); /* not the tap before it */
    assert_string_equal(text_nearest("bap", pieces, count), "tap"); /* the first of equals */
    assert_null(text_nearest("grille", pieces, count));
    assert_null(text_nearest("strange", pieces, count)); /* 4 away from straight, 2 allowed */
    assert_null(text_nearest("elbow", pieces, 0));
    assert_string_equal(text_nearest("tran", pieces, count), "transition"); /* begun, not ended */
    assert_null(text_nearest("tr", pieces, count));
}

static void words_without_a_letter_in_common_are_not_near(void **state) {
    (void)state;
    const char *const names[] = {"B", "bc"};
    assert_null(text_nearest("a", names, 1));
    assert_string_equal(text_nearest("b", names, 2), "B");
    assert_string_equal(text_nearest("c", names, 2), "bc");
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(places_are_lines_and_columns_from_one),
        cmocka_unit_test(an_empty_text_has_one_empty_line),
        cmocka_unit_test(columns_count_characters_not_bytes),
        cmocka_unit_test(bytes_that_are_no_characters_count_one_each),
        cmocka_unit_test(lines_come_without_their_ends),
        cmocka_unit_test(a_text_is_a_copy_with_two_zeros_behind),
        cmocka_unit_test(later_texts_come_later),
        cmocka_unit_test(a_joined_span_goes_from_first_to_last),
        cmocka_unit_test(bad_bytes_are_found_where_they_are),
        cmocka_unit_test(characters_have_their_code_points),
        cmocka_unit_test(distances_are_those_of_levenshtein_and_damerau),
        cmocka_unit_test(long_words_are_compared_on_their_first_64_bytes),
        cmocka_unit_test(the_nearest_word_is_near_or_not_there),
        cmocka_unit_test(words_without_a_letter_in_common_are_not_near),
    };
    return cmocka_run_group_tests(tests, setup, teardown);
}
