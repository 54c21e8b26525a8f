/* Source texts: lines, columns and the spelling of words. */
#include "base/text.h"

#include <string.h>

/* ---- Characters -------------------------------------------------------------------------------------------------- */

/* What the first byte of a character says: its length, its bits, and what the second byte must lie between. */
struct lead {
    size_t length;
    uint32_t bits;
    unsigned char low, high;
};

/* RFC 3629, section 4: the syntax of UTF-8 byte sequences, which leaves out overlong forms and surrogates. */
static struct lead lead_of(unsigned char byte) {
    if (byte < 0x80)
        return (struct lead){1, byte, 0, 0};
    if (byte >= 0xC2 && byte <= 0xDF)
        return (struct lead){2, byte & 0x1FU, 0x80, 0xBF};
    if (byte >= 0xE0 && byte <= 0xEF)
        return (struct lead){3, byte & 0x0FU, byte == 0xE0 ? 0xA0 : 0x80, byte == 0xED ? 0x9F : 0xBF};
    if (byte >= 0xF0 && byte <= 0xF4)
        return (struct lead){4, byte & 0x07U, byte == 0xF0 ? 0x90 : 0x80, byte == 0xF4 ? 0x8F : 0xBF};
    return (struct lead){0, 0, 0, 0};
}

size_t text_character(const char *bytes, size_t length, uint32_t *character) {
    const unsigned char *at = (const unsigned char *)bytes;
    struct lead lead = lead_of(at[0]);
    *character = TEXT_NOT_A_CHARACTER;
    if (lead.length == 0 || lead.length > length)
        return 1;
    uint32_t bits = lead.bits;
    for (size_t i = 1; i < lead.length; i++) {
        unsigned char low = i == 1 ? lead.low : 0x80, high = i == 1 ? lead.high : 0xBF;
        if (at[i] < low || at[i] > high)
            return 1;
        bits = bits << 6 | (at[i] & 0x3FU);
    }
    *character = bits;
    return lead.length;
}

size_t text_first_bad_byte(const char *bytes, size_t length) {
    for (size_t i = 0; i < length;) {
        uint32_t character;
        size_t step = text_character(bytes + i, length - i, &character);
        if (character == 0 || character == TEXT_NOT_A_CHARACTER)
            return i;
        i += step;
    }
    return length;
}

/* ---- Lines and places -------------------------------------------------------------------------------------------- */

static void find_lines(struct arena *arena, struct text *text) {
    size_t count = 1;
    for (size_t i = 0; i < text->length; i++)
        count += text->bytes[i] == '\n';
    text->line_starts = ARENA_ARRAY(arena, uint32_t, count);
    text->line_count = 1; /* the first line starts at 0 */
    for (size_t i = 0; i < text->length; i++)
        if (text->bytes[i] == '\n')
            text->line_starts[text->line_count++] = (uint32_t)(i + 1);
}

struct text *text_new(struct arena *arena, const char *name, const char *bytes, size_t length) {
    struct text *text = ARENA_NEW(arena, struct text);
    char *copy = arena_take(arena, length + 2);
    if (length > 0)
        memcpy(copy, bytes, length);
    text->order = arena_used(arena);
    text->name = arena_copy(arena, name, strlen(name));
    text->bytes = copy;
    text->length = length;
    find_lines(arena, text);
    return text;
}

/* Index of the last line that starts at or before `offset`. */
static size_t line_index(const struct text *text, uint32_t offset) {
    size_t low = 0, high = text->line_count;
    while (high - low > 1) {
        size_t middle = low + (high - low) / 2;
        if (text->line_starts[middle] <= offset)
            low = middle;
        else
            high = middle;
    }
    return low;
}

struct place text_place(const struct text *text, uint32_t offset) {
    if (offset > text->length)
        offset = (uint32_t)text->length;
    size_t line = line_index(text, offset), column = 1;
    for (size_t i = text->line_starts[line]; i < offset;) {
        uint32_t character;
        i += text_character(text->bytes + i, text->length - i, &character);
        column += i <= offset; /* a place inside a character is that character's */
    }
    return (struct place){.line = line + 1, .column = column};
}

const char *text_line(const struct text *text, size_t line, size_t *length) {
    size_t begin = text->line_starts[line - 1];
    size_t end = line < text->line_count ? text->line_starts[line] - 1 : text->length;
    if (end > begin && text->bytes[end - 1] == '\r')
        end--;
    *length = end - begin;
    return text->bytes + begin;
}

struct span span_join(struct span first, struct span last) {
    first.end = last.end > first.end ? last.end : first.end;
    return first;
}

/* ---- Spelling ---------------------------------------------------------------------------------------------------- */

enum { COMPARED = 64 }; /* bytes of a word */

static size_t least(size_t a, size_t b) {
    return a < b ? a : b;
}

static size_t compared_length(const char *word) {
    return strnlen(word, COMPARED);
}

/* One row of the table of distances: of the first `i` letters of `a` to each start of `b`, from the rows for i-1 and
 * i-2 letters.  Gives the least in the row, which never falls from row to row. */
static size_t distance_row(const char *a, size_t i, const char *b, size_t b_length, size_t *row, const size_t *before,
                           const size_t *before_that) {
    size_t row_least = row[0] = i;
    for (size_t j = 1; j <= b_length; j++) {
        char of_a = text_lower(a[i - 1]), of_b = text_lower(b[j - 1]);
        size_t cost = least(before[j - 1] + (of_a != of_b), least(before[j], row[j - 1]) + 1);
        if (i > 1 && j > 1 && of_a == text_lower(b[j - 2]) && text_lower(a[i - 2]) == of_b)
            cost = least(cost, before_that[j - 2] + 1);
        row[j] = cost;
        row_least = least(row_least, cost);
    }
    return row_least;
}

size_t text_distance(const char *a, const char *b, size_t limit) {
    size_t a_length = compared_length(a), b_length = compared_length(b);
    size_t apart = a_length > b_length ? a_length - b_length : b_length - a_length;
    if (apart > limit)
        return limit + 1;
    size_t rows[3][COMPARED + 1] = {{0}};
    for (size_t j = 0; j <= b_length; j++)
        rows[0][j] = j;
    for (size_t i = 1; i <= a_length; i++)
        if (distance_row(a, i, b, b_length, rows[i % 3], rows[(i + 2) % 3], rows[(i + 1) % 3]) > limit)
            return limit + 1;
    return least(rows[a_length % 3][b_length], limit + 1);
}

/* The first candidate that begins with all of `word`: some letters of a word left off at its end. */
static const char *begun_with(const char *word, size_t length, const char *const *candidates, size_t count) {
    for (size_t i = 0; length >= 3 && i < count; i++) {
        size_t same = 0;
        while (same < length && text_lower(word[same]) == text_lower(candidates[i][same]))
            same++;
        if (same == length)
            return candidates[i];
    }
    return NULL;
}

const char *text_nearest(const char *word, const char *const *candidates, size_t count) {
    size_t length = compared_length(word);
    size_t limit = length >= 3 ? length / 3 : 1;
    const char *nearest = NULL;
    for (size_t i = 0; i < count; i++) {
        size_t distance = text_distance(word, candidates[i], limit);
        /* Words that share no letter at all are not near, however short. */
        if (distance > limit || (distance > 0 && distance >= length && distance >= compared_length(candidates[i])))
            continue;
        nearest = candidates[i];
        if (distance == 0)
            return nearest;
        limit = distance - 1; /* only something nearer is wanted now */
    }
    return nearest ? nearest : begun_with(word, length, candidates, count);
}
