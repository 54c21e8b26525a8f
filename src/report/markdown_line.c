/* A line of Markdown in the making: only what Markdown would misread is escaped. */
#include "report/markdown_line.h"

#include <assert.h>
#include <string.h>

#include "base/text.h"
#include "base/width.h"

enum { LINE_WIDTH = 100 }; /* where paragraphs are folded */

void line_room(struct markdown_line *line, size_t more) {
    if (line->length + more <= line->room)
        return;
    size_t room = (line->length + more) * 2;
    line->bytes = arena_resize(line->arena, line->bytes, line->room, room);
    line->room = room;
}

void line_put(struct markdown_line *line, const char *bytes, size_t length) {
    line_room(line, length);
    memcpy(line->bytes + line->length, bytes, length);
    line->length += length;
}

void line_text(struct markdown_line *line, const char *text) {
    line_put(line, text, strlen(text));
}

void line_repeat(struct markdown_line *line, char byte, size_t count) {
    if (count == 0)
        return;
    line_room(line, count);
    assert(line->bytes); /* there is room for at least one */
    memset(line->bytes + line->length, byte, count);
    line->length += count;
}

void line_out(struct markdown_line *line, struct output *out) {
    line_put(line, "\n", 1);
    output_put(out, line->bytes, line->length);
    line->length = 0;
}

/* ---- Escapes (GitHub Flavored Markdown Spec 0.29, sections 2.4, 4 to 6) ------------------------------------------ */

static bool is_digit(char byte) {
    return byte >= '0' && byte <= '9';
}

static bool is_letter(char byte) {
    return (byte >= 'a' && byte <= 'z') || (byte >= 'A' && byte <= 'Z');
}

static bool is_alnum(char byte) {
    return is_digit(byte) || is_letter(byte);
}

struct word {
    const char *bytes;
    size_t length;
};

/* The next word at or behind *cursor; length 0 at the end. */
static struct word next_word(const char **cursor) {
    while (**cursor && text_is_space(**cursor))
        (*cursor)++;
    struct word word = {.bytes = *cursor};
    while (**cursor && !text_is_space(**cursor))
        (*cursor)++;
    word.length = (size_t)(*cursor - word.bytes);
    return word;
}

static bool starts(struct word word, size_t at, const char *with) {
    size_t length = strlen(with);
    return word.length - at >= length && memcmp(word.bytes + at, with, length) == 0;
}

/* An underscore run between letters or digits is plain: glaze_room. */
static bool inside_word(struct word word, size_t at) {
    size_t first = at, last = at;
    while (first > 0 && word.bytes[first - 1] == '_')
        first--;
    while (last + 1 < word.length && word.bytes[last + 1] == '_')
        last++;
    return first > 0 && is_alnum(word.bytes[first - 1]) && last + 1 < word.length && is_alnum(word.bytes[last + 1]);
}

/* "&deg;" or "&#176;": an ampersand that would be read as a character reference. */
static bool is_reference(struct word word, size_t at) {
    size_t i = at + 1;
    if (i < word.length && word.bytes[i] == '#')
        i++;
    size_t first = i;
    while (i < word.length && is_alnum(word.bytes[i]))
        i++;
    return i > first && i < word.length && word.bytes[i] == ';';
}

/* Whether the word has no other bytes than these. */
static bool only(struct word word, const char *bytes) {
    for (size_t i = 0; i < word.length; i++)
        if (!strchr(bytes, word.bytes[i]))
            return false;
    return true;
}

/* At the start of a line: what would open a heading, quotation, list, rule or table. */
static bool opens_block(struct word word, size_t at) {
    switch (word.bytes[at]) {
    case '#':
    case '>':
    case '=':
    case ':':
        return at == 0;
    case '-':
    case '+':
        return at == 0 && only(word, "+-:");
    case '.':
    case ')': {
        if (at == 0 || at + 1 != word.length)
            return false;
        for (size_t i = 0; i < at; i++)
            if (!is_digit(word.bytes[i]))
                return false;
        return true;
    }
    default:
        return false;
    }
}

static bool must_escape(struct word word, size_t at, bool line_start) {
    switch (word.bytes[at]) {
    case '\\':
    case '`':
    case '[':
    case '|':
        return true;
    case '*':
    case '~':
        return line_start || word.length > 1; /* with a space on both sides it is plain */
    case '_':
        return (line_start && at == 0) || (word.length > 1 && !inside_word(word, at));
    case '<':
        return at + 1 < word.length;
    case '&':
        return is_reference(word, at);
    case '#':
        return (line_start && at == 0) || only(word, "#"); /* at the end of a heading it would vanish */
    case ':':
        return (line_start && at == 0) || starts(word, at, "://"); /* else it becomes a link, backslashes and all */
    case '.':
        if (at >= 3 && memcmp(word.bytes + at - 3, "www", 3) == 0)
            return true;
        return line_start && opens_block(word, at);
    default:
        return line_start && opens_block(word, at);
    }
}

static void put_word(struct markdown_line *line, struct word word, bool line_start) {
    line_room(line, 2 * word.length);
    assert(line->bytes); /* a word has a byte at least */
    for (size_t i = 0; i < word.length; i++) {
        if (must_escape(word, i, line_start))
            line->bytes[line->length++] = '\\';
        line->bytes[line->length++] = word.bytes[i];
    }
}

void line_unfolded(struct markdown_line *line, const char *text, bool line_start) {
    const char *cursor = text;
    for (struct word word = next_word(&cursor); word.length; word = next_word(&cursor)) {
        put_word(line, word, line_start);
        line_start = false;
        line_put(line, " ", 1);
    }
    if (cursor != text && line->length && line->bytes[line->length - 1] == ' ')
        line->length--;
}

void line_folded(struct markdown_line *line, const char *text, bool at_start, const char *indent, struct output *out) {
    size_t width = text_columns(line->bytes, line->length);
    bool first = true;
    for (struct word word = next_word(&text); word.length; word = next_word(&text)) {
        size_t columns = text_columns(word.bytes, word.length);
        if (!first && width + 1 + columns > LINE_WIDTH) {
            line_out(line, out);
            line_text(line, indent);
            width = strlen(indent);
            at_start = first = true;
        }
        if (!first) {
            line_put(line, " ", 1);
            width++;
        }
        put_word(line, word, at_start);
        width += columns;
        at_start = first = false;
    }
    line_out(line, out);
}
