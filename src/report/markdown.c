/* Writes a document as GitHub-flavoured Markdown that also reads well as plain text: paragraphs are folded, tables are
 * padded so that their columns stand under each other, and only what Markdown would misread is escaped.
 */
#include "report/document.h"
#include "report/drawings.h"

#include <assert.h>
#include <string.h>

#include "base/text.h"
#include "base/width.h"

enum {
    LINE_WIDTH = 100,  /* where paragraphs are folded */
    PADDED_WIDTH = 80, /* a column is padded to its widest cell, but no wider than this or PADDED_TIMES its mean cell,
                          whichever is more, so that a long text costs its own length only */
    PADDED_TIMES = 4
};

/* ---- A line in the making -------------------------------------------------------------------------------------- */

struct line {
    struct arena *arena;
    char *bytes;
    size_t length, room;
};

static void line_room(struct line *line, size_t more) {
    if (line->length + more <= line->room)
        return;
    size_t room = (line->length + more) * 2;
    line->bytes = arena_resize(line->arena, line->bytes, line->room, room);
    line->room = room;
}

static void line_put(struct line *line, const char *bytes, size_t length) {
    line_room(line, length);
    memcpy(line->bytes + line->length, bytes, length);
    line->length += length;
}

static void line_text(struct line *line, const char *text) {
    line_put(line, text, strlen(text));
}

static void line_repeat(struct line *line, char byte, size_t count) {
    if (count == 0)
        return;
    line_room(line, count);
    assert(line->bytes); /* there is room for at least one */
    memset(line->bytes + line->length, byte, count);
    line->length += count;
}

static void line_out(struct line *line, struct output *out) {
    line_put(line, "\n", 1);
    output_put(out, line->bytes, line->length);
    line->length = 0;
}

/* ---- Escapes (GitHub Flavored Markdown Spec 0.29, sections 2.4, 4 to 6) ---------------------------------------- */

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

static void put_word(struct line *line, struct word word, bool line_start) {
    line_room(line, 2 * word.length);
    assert(line->bytes); /* a word has a byte at least */
    for (size_t i = 0; i < word.length; i++) {
        if (must_escape(word, i, line_start))
            line->bytes[line->length++] = '\\';
        line->bytes[line->length++] = word.bytes[i];
    }
}

/* Puts a whole text on one line, words a space apart. */
static void put_unfolded(struct line *line, const char *text, bool line_start) {
    const char *cursor = text;
    for (struct word word = next_word(&cursor); word.length; word = next_word(&cursor)) {
        put_word(line, word, line_start);
        line_start = false;
        line_put(line, " ", 1);
    }
    if (cursor != text && line->length && line->bytes[line->length - 1] == ' ')
        line->length--;
}

/* ---- Paragraphs, lists ----------------------------------------------------------------------------------------- */

/* Puts a text folded, behind what already stands in `line` (`at_start`: nothing that matters); lines that go on begin
 * with `indent`. */
static void write_folded(struct line *line, const char *text, bool at_start, const char *indent, struct output *out) {
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

static void write_heading(struct line *line, const struct block *block, struct output *out) {
    line_repeat(line, '#', (size_t)block->level);
    line_put(line, " ", 1);
    put_unfolded(line, block->text, true);
    line_out(line, out);
}

static void write_bullets(struct line *line, const struct block *block, struct output *out) {
    for (size_t i = 0; i < block->items.count; i++) {
        line_text(line, "- ");
        write_folded(line, block->items.at[i], true, "  ", out);
    }
}

static void write_facts(struct line *line, const struct block *block, struct output *out) {
    for (size_t i = 0; i < block->facts.count; i++) {
        line_text(line, "- **");
        put_unfolded(line, block->facts.at[i].key, true);
        line_text(line, ":** ");
        write_folded(line, block->facts.at[i].value, false, "  ", out);
    }
}

static void write_caution(struct line *line, const struct block *block, struct output *out) {
    line_text(line, "> **Caution:** ");
    write_folded(line, block->text, false, "> ", out);
}

static void write_references(struct line *line, const struct block *block, struct output *out) {
    for (size_t i = 0; i < block->sources.count; i++) {
        line_text(line, "- ");
        const char *text = reference_text(line->arena, block, block->sources.at[i]);
        write_folded(line, text, true, "  ", out);
    }
}

/* An unmatched run of underscores is plain text and prints as a rule to write on. */
static void write_blanks(struct line *line, const struct block *block, struct output *out) {
    for (size_t i = 0; i < block->items.count; i++) {
        if (i)
            output_text(out, "\n");
        put_unfolded(line, block->items.at[i], true);
        line_text(line, ": ");
        line_repeat(line, '_', 40);
        line_out(line, out);
    }
}

/* ---- Tables ---------------------------------------------------------------------------------------------------- */

static void put_cell(struct line *line, const struct column *column, enum measure_system system, union cell cell) {
    char figure[FIGURE_ROOM];
    if (!column_is_text(column))
        line_put(line, figure, figure_print(figure, column, system, cell.figure));
    else if (cell.text)
        put_unfolded(line, cell.text, false);
}

static void put_head(struct line *line, const struct column *column, enum measure_system system) {
    put_unfolded(line, column->head, false);
    if (column->kind != COLUMN_FIGURE || column->bare || measure_show(system, column->use)->by_tape)
        return;
    line_text(line, *column->head ? ", " : "");
    put_unfolded(line, measure_show(system, column->use)->unit, false);
}

/* What was put since `from` made `width` columns wide, on its left when it is a figure. */
static void pad(struct line *line, size_t from, const struct column *column, size_t width) {
    size_t columns = text_columns(line->bytes + from, line->length - from);
    if (columns >= width)
        return;
    size_t more = width - columns, length = line->length - from;
    line_repeat(line, ' ', more);
    if (column->kind == COLUMN_TEXT)
        return;
    memmove(line->bytes + from + more, line->bytes + from, length);
    memset(line->bytes + from, ' ', more);
}

/* Of the cells of one column, its head among them. */
struct widths {
    size_t widest, sum;
};

static void widen(struct widths *widths, struct line *line) {
    size_t columns = text_columns(line->bytes, line->length);
    if (columns > widths->widest)
        widths->widest = columns;
    widths->sum += columns;
    line->length = 0;
}

static size_t padded_width(const struct widths *widths, size_t cells) {
    size_t most = widths->sum * PADDED_TIMES / cells;
    if (most < PADDED_WIDTH)
        most = PADDED_WIDTH;
    return widths->widest < most ? widths->widest : most;
}

static size_t *column_widths(struct line *line, const struct table *table, enum measure_system system) {
    struct widths *found = ARENA_ARRAY(line->arena, struct widths, table->column_count + 1);
    size_t *widths = ARENA_ARRAY(line->arena, size_t, table->column_count + 1);
    for (size_t c = 0; c < table->column_count; c++) {
        found[c].widest = 3; /* "--:" */
        put_head(line, &table->columns[c], system);
        widen(&found[c], line);
    }
    for (size_t i = 0; i < table->row_count * table->column_count; i++) {
        size_t c = i % table->column_count;
        put_cell(line, &table->columns[c], system, table->cells[i]);
        widen(&found[c], line);
    }
    for (size_t c = 0; c < table->column_count; c++)
        widths[c] = padded_width(&found[c], table->row_count + 1);
    return widths;
}

static void write_head(struct line *line, const struct table *table, const size_t *widths, enum measure_system system,
                       struct output *out) {
    for (size_t c = 0; c < table->column_count; c++) {
        line_text(line, c ? " | " : "| ");
        size_t from = line->length;
        put_head(line, &table->columns[c], system);
        pad(line, from, &table->columns[c], widths[c]);
    }
    line_text(line, " |");
    line_out(line, out);
    for (size_t c = 0; c < table->column_count; c++) {
        line_text(line, c ? " | " : "| ");
        line_repeat(line, '-', widths[c] - 1);
        line_put(line, table->columns[c].kind == COLUMN_TEXT ? "-" : ":", 1);
    }
    line_text(line, " |");
    line_out(line, out);
}

static void write_table(struct line *line, const struct table *table, enum measure_system system, struct output *out) {
    const size_t *widths = column_widths(line, table, system);
    write_head(line, table, widths, system, out);
    for (size_t row = 0; row < table->row_count; row++) {
        for (size_t c = 0; c < table->column_count; c++) {
            line_text(line, c ? " | " : "| ");
            size_t from = line->length;
            put_cell(line, &table->columns[c], system, table->cells[row * table->column_count + c]);
            pad(line, from, &table->columns[c], widths[c]);
        }
        line_text(line, " |");
        line_out(line, out);
    }
}

/* ---- Drawings -------------------------------------------------------------------------------------------------- */

/* In the text of an image a bracket that closes would end it. */
static void escape_brackets(struct line *line, size_t from) {
    for (size_t i = from; i < line->length; i++) {
        if (line->bytes[i] != ']')
            continue;
        line_room(line, 1);
        memmove(line->bytes + i + 1, line->bytes + i, line->length - i);
        line->bytes[i++] = '\\';
        line->length++;
    }
}

/* Without a folder for them nothing stands there: the packet says at its beginning that they are left out. */
static void write_drawing(struct line *line, const struct document *part, const struct block *block,
                          struct output *out) {
    if (!part->drawings)
        return;
    drawings_write(part->drawings, block->file, block->figure);
    line_text(line, "![");
    put_unfolded(line, block->text, false);
    escape_brackets(line, 2);
    line_text(line, "](");
    line_text(line, drawings_link(part->drawings));
    line_text(line, "/");
    line_text(line, block->file);
    line_text(line, ")");
    line_out(line, out);
    output_text(out, "\n");
}

/* ---- All of it ------------------------------------------------------------------------------------------------- */

static void write_block(struct line *line, const struct document *part, const struct block *block, struct output *out) {
    switch (block->kind) {
    case HEADING:
        write_heading(line, block, out);
        break;
    case PARAGRAPH:
        write_folded(line, block->text, true, "", out);
        break;
    case BULLETS:
        write_bullets(line, block, out);
        break;
    case FACTS:
        write_facts(line, block, out);
        break;
    case TABLE:
        write_table(line, &block->table, part->system, out);
        break;
    case CAUTION:
        write_caution(line, block, out);
        break;
    case REFERENCES:
        write_references(line, block, out);
        break;
    case BLANKS:
        write_blanks(line, block, out);
        break;
    case NEW_PAGE:
        output_text(out, "---\n");
        break;
    case DRAWING:
        write_drawing(line, part, block, out);
        return;
    }
    output_text(out, "\n");
}

static void *open_markdown(const struct paper *paper) {
    return paper->out;
}

static void write_part(void *out, const struct document *part) {
    struct line line = {.arena = part->arena};
    for (size_t i = 0; i < part->blocks.count; i++)
        write_block(&line, part, part->blocks.at[i], out);
}

static bool end_markdown(void *out) {
    (void)out;
    return true;
}

const struct page_writer markdown_writer = {.open = open_markdown, .part = write_part, .end = end_markdown};
