/* Writes a document as GitHub-flavoured Markdown that also reads well as plain text: paragraphs are folded, tables are
 * padded so that their columns stand under each other.
 */
#include "report/document.h"
#include "report/drawings.h"
#include "report/markdown_line.h"

#include <assert.h>
#include <string.h>

#include "base/text.h"
#include "base/width.h"

enum {
    PADDED_WIDTH = 80, /* a column is padded to its widest cell, but no wider than this or PADDED_TIMES its mean cell,
                          whichever is more, so that a long text costs its own length only */
    PADDED_TIMES = 4
};

/* ---- Paragraphs, lists ------------------------------------------------------------------------------------------- */

static void write_heading(struct markdown_line *line, const struct block *block, struct output *out) {
    line_repeat(line, '#', (size_t)block->level);
    line_put(line, " ", 1);
    line_unfolded(line, block->text, true);
    line_out(line, out);
}

static void write_bullets(struct markdown_line *line, const struct block *block, struct output *out) {
    for (size_t i = 0; i < block->items.count; i++) {
        line_text(line, "- ");
        line_folded(line, block->items.at[i], true, "  ", out);
    }
}

static void write_facts(struct markdown_line *line, const struct block *block, struct output *out) {
    for (size_t i = 0; i < block->facts.count; i++) {
        line_text(line, "- **");
        line_unfolded(line, block->facts.at[i].key, true);
        line_text(line, ":** ");
        line_folded(line, block->facts.at[i].value, false, "  ", out);
    }
}

static void write_caution(struct markdown_line *line, const struct block *block, struct output *out) {
    line_text(line, "> **Caution:** ");
    line_folded(line, block->text, false, "> ", out);
}

static void write_references(struct markdown_line *line, const struct block *block, struct output *out) {
    for (size_t i = 0; i < block->sources.count; i++) {
        line_text(line, "- ");
        const char *text = reference_text(line->arena, block, block->sources.at[i]);
        line_folded(line, text, true, "  ", out);
    }
}

/* An unmatched run of underscores is plain text and prints as a rule to write on. */
static void write_blanks(struct markdown_line *line, const struct block *block, struct output *out) {
    for (size_t i = 0; i < block->items.count; i++) {
        if (i)
            output_text(out, "\n");
        line_unfolded(line, block->items.at[i], true);
        line_text(line, ": ");
        line_repeat(line, '_', 40);
        line_out(line, out);
    }
}

/* ---- Tables ------------------------------------------------------------------------------------------------------ */

static void put_cell(struct markdown_line *line, const struct column *column, enum measure_system system,
                     union cell cell) {
    char figure[FIGURE_ROOM];
    if (!column_is_text(column))
        line_put(line, figure, figure_print(figure, column, system, cell.figure));
    else if (cell.text)
        line_unfolded(line, cell.text, false);
}

static void put_head(struct markdown_line *line, const struct column *column, enum measure_system system) {
    line_unfolded(line, column->head, false);
    if (column->kind != COLUMN_FIGURE || column->bare || measure_show(system, column->use)->by_tape)
        return;
    line_text(line, *column->head ? ", " : "");
    line_unfolded(line, measure_show(system, column->use)->unit, false);
}

/* What was put since `from` made `width` columns wide, on its left when it is a figure. */
static void pad(struct markdown_line *line, size_t from, const struct column *column, size_t width) {
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

static void widen(struct widths *widths, struct markdown_line *line) {
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

static size_t *column_widths(struct markdown_line *line, const struct table *table, enum measure_system system) {
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

static void write_head(struct markdown_line *line, const struct table *table, const size_t *widths,
                       enum measure_system system, struct output *out) {
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

static void write_table(struct markdown_line *line, const struct table *table, enum measure_system system,
                        struct output *out) {
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

/* ---- Drawings ---------------------------------------------------------------------------------------------------- */

/* In the text of an image a bracket that closes would end it. */
static void escape_brackets(struct markdown_line *line, size_t from) {
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
static void write_drawing(struct markdown_line *line, const struct document *part, const struct block *block,
                          struct output *out) {
    if (!part->drawings)
        return;
    drawings_write(part->drawings, block->file, block->figure);
    line_text(line, "![");
    line_unfolded(line, block->text, false);
    escape_brackets(line, 2);
    line_text(line, "](");
    line_text(line, drawings_link(part->drawings));
    line_text(line, "/");
    line_text(line, block->file);
    line_text(line, ")");
    line_out(line, out);
    output_text(out, "\n");
}

/* ---- All of it --------------------------------------------------------------------------------------------------- */

static void write_block(struct markdown_line *line, const struct document *part, const struct block *block,
                        struct output *out) {
    switch (block->kind) {
    case HEADING:
        write_heading(line, block, out);
        break;
    case PARAGRAPH:
        line_folded(line, block->text, true, "", out);
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
    struct markdown_line line = {.arena = part->arena};
    for (size_t i = 0; i < part->blocks.count; i++)
        write_block(&line, part, part->blocks.at[i], out);
}

static bool end_markdown(void *out) {
    (void)out;
    return true;
}

const struct page_writer markdown_writer = {.open = open_markdown, .part = write_part, .end = end_markdown};
