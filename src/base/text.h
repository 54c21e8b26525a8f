/* Source texts and places in them. */
#ifndef CLEAT_BASE_TEXT_H
#define CLEAT_BASE_TEXT_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

#include "base/arena.h"

/* One job or shop file, as read: UTF-8, at most 64 MiB. */
struct text {
    const char *name;      /* as the user wrote it, for messages */
    const char *bytes;     /* followed by two 0 bytes, which flex wants */
    size_t length;         /* bytes, without the two 0 */
    uint32_t *line_starts; /* offset of the first byte of each line */
    size_t line_count;
    size_t order; /* greater for each further text of an arena: the job, which is read first, has the least */
};

/* Bytes [begin, end) of a text.  `text` NULL: no place (a value that the tool supplied). */
struct span {
    const struct text *text;
    uint32_t begin, end;
};

/* Line and column, from 1; the column counts characters (code points), a tab as one. */
struct place {
    size_t line, column;
};

/* Takes `bytes` (copied into the arena) as a text and finds its lines. */
struct text *text_new(struct arena *arena, const char *name, const char *bytes, size_t length);

/* The place of a byte offset (0..length). */
struct place text_place(const struct text *text, uint32_t offset);

/* The bytes of line `line` (from 1), without its newline (LF or CR LF). */
const char *text_line(const struct text *text, size_t line, size_t *length);

/* From the start of `first` to the end of `last`; both in the same text. */
struct span span_join(struct span first, struct span last);

/* What text_character gives for a byte that is not UTF-8 (U+10FFFF is the highest character). */
#define TEXT_NOT_A_CHARACTER UINT32_MAX

/* The character at `bytes` (length at least 1) and how many bytes it has; a bad byte is one byte. */
size_t text_character(const char *bytes, size_t length, uint32_t *character);

/* Offset of the first byte that is not valid UTF-8 or is NUL; `length` when all is well. */
size_t text_first_bad_byte(const char *bytes, size_t length);

/* Of ASCII; any other byte is itself. */
static inline char text_lower(char letter) {
    return letter >= 'A' && letter <= 'Z' ? (char)(letter - 'A' + 'a') : letter;
}

/* Where words part on paper.  Control characters too: none may reach the page. */
static inline bool text_is_space(char byte) {
    return (byte >= 0 && byte <= ' ') || byte == 0x7F;
}

/* The candidate nearest to `word` in spelling (edit distance at most a third of its length, at least 1, and
 * some letter in common); else the first that begins with it, when it has three letters or more; or NULL.  The first of
 * equals. */
const char *text_nearest(const char *word, const char *const *candidates, size_t count);

/* Edit distance with swaps of neighbours counted as one (optimal string alignment), ASCII case ignored;
 * anything over `limit` is returned as limit + 1. Words over 64 bytes are compared on their first 64. */
size_t text_distance(const char *a, const char *b, size_t limit);

#endif
