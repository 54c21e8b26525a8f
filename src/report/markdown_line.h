/* A line of Markdown in the making. */
#ifndef CLEAT_REPORT_MARKDOWN_LINE_H
#define CLEAT_REPORT_MARKDOWN_LINE_H

#include <stddef.h>

#include "base/arena.h"
#include "base/output.h"

struct markdown_line {
    struct arena *arena;
    char *bytes;
    size_t length, room;
};

/* Makes room for as many bytes more. */
void line_room(struct markdown_line *line, size_t more);

/* Bytes as they are. */
void line_put(struct markdown_line *line, const char *bytes, size_t length);
void line_text(struct markdown_line *line, const char *text);
void line_repeat(struct markdown_line *line, char byte, size_t count);

/* A whole text, escaped, words a space apart; `line_start`: it begins a line of Markdown. */
void line_unfolded(struct markdown_line *line, const char *text, bool line_start);

/* Writes a text escaped and folded, behind what already stands in `line` (`at_start`: nothing that matters); lines that
 * go on begin with `indent`. */
void line_folded(struct markdown_line *line, const char *text, bool at_start, const char *indent, struct output *out);

/* Writes the line and empties it. */
void line_out(struct markdown_line *line, struct output *out);

#endif
