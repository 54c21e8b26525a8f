/* Building a document, block by block. */
#include "report/document.h"

#include <math.h>
#include <stdarg.h>
#include <stdio.h>
#include <string.h>

static struct block *new_block(struct document *document, enum block_kind kind) {
    struct block *block = ARENA_NEW(document->arena, struct block);
    block->kind = kind;
    *list_add(document->arena, &document->blocks) = block;
    return block;
}

/* The last block when it is of `kind`, else a new one. */
static struct block *going_on(struct document *document, enum block_kind kind) {
    size_t count = document->blocks.count;
    if (count && document->blocks.at[count - 1]->kind == kind)
        return document->blocks.at[count - 1];
    return new_block(document, kind);
}

void document_heading(struct document *document, int level, const char *text) {
    struct block *block = new_block(document, HEADING);
    block->level = level;
    block->text = text;
}

void document_paragraph(struct document *document, const char *format, ...) {
    va_list list;
    va_start(list, format);
    new_block(document, PARAGRAPH)->text = arena_format_list(document->arena, format, list);
    va_end(list);
}

void document_caution(struct document *document, const char *text) {
    new_block(document, CAUTION)->text = text;
}

void document_bullet(struct document *document, const char *format, ...) {
    struct block *block = going_on(document, BULLETS);
    va_list list;
    va_start(list, format);
    *list_add(document->arena, &block->items) = arena_format_list(document->arena, format, list);
    va_end(list);
}

void document_fact(struct document *document, const char *key, const char *value) {
    struct block *block = going_on(document, FACTS);
    *list_add(document->arena, &block->facts) = (struct fact){.key = key, .value = value};
}

void document_reference(struct document *document, const struct source *source) {
    struct block *block = going_on(document, REFERENCES);
    *list_add(document->arena, &block->sources) = source;
}

void document_reference_marked(struct document *document, const struct source *source) {
    document_reference(document, source);
    document->blocks.at[document->blocks.count - 1]->marked = true;
}

const char reference_legend[] =
    "A star (*) marks what is quoted, in whole or in part, without the page of the work itself at hand; a dagger "
    "(\u2020) what is common practice or a choice made here. What bears no mark was read in the work that it names, or "
    "computed. The contractor's own papers say how each is known.";

static const char *mark_of(enum source_known known) {
    switch (known) {
    case SOURCE_READ:
    case SOURCE_COMPUTED:
        return "";
    case SOURCE_REPRINTED:
    case SOURCE_MEMORY:
        return "\u00a0*";
    case SOURCE_PRACTICE:
        break;
    }
    return "\u00a0\u2020";
}

const char *reference_text(struct arena *arena, const struct block *block, const struct source *source) {
    if (block->marked)
        return arena_format(arena, "%s \u2013 %s%s", source->method, source->text, mark_of(source->known));
    return arena_format(arena, "%s \u2013 %s%s%s (%s)", source->method, source->text, source->trace ? "; " : "",
                        source->trace ? source->trace : "", source_known_words(source->known));
}

void document_blank(struct document *document, const char *name) {
    struct block *block = going_on(document, BLANKS);
    *list_add(document->arena, &block->items) = name;
}

void document_drawing(struct document *document, const struct figure *figure, const char *file, const char *caption) {
    struct block *block = new_block(document, DRAWING);
    block->figure = figure;
    block->file = file;
    block->text = caption;
}

void document_new_page(struct document *document) {
    new_block(document, NEW_PAGE);
}

struct table *document_table(struct document *document, const struct column *columns, size_t column_count) {
    struct table *table = &new_block(document, TABLE)->table;
    table->arena = document->arena;
    table->columns = columns;
    table->column_count = column_count;
    return table;
}

static void make_room(struct table *table) {
    size_t room = table->row_room ? table->row_room * 2 : 16;
    size_t row_size = table->column_count * sizeof *table->cells;
    table->cells = arena_resize(table->arena, table->cells, table->row_room * row_size, room * row_size);
    table->row_room = room;
}

bool column_is_text(const struct column *column) {
    return column->kind == COLUMN_TEXT || column->kind == COLUMN_AMOUNT;
}

union cell *table_row(struct table *table) {
    if (table->row_count == table->row_room)
        make_room(table);
    union cell *row = table->cells + table->row_count++ * table->column_count;
    for (size_t i = 0; i < table->column_count; i++) {
        if (column_is_text(&table->columns[i]))
            row[i].text = NULL;
        else
            row[i].figure = NAN;
    }
    return row;
}

union cell *document_row(struct document *document, struct table **table) {
    const struct column *columns = (*table)->columns;
    size_t column_count = (*table)->column_count;
    if ((*table)->row_count >= TABLE_PART && document->hand_on) {
        document->hand_on(document);
        *table = document_table(document, columns, column_count);
    }
    return table_row(*table);
}

/* When what has been made takes more bytes than this, it is handed on. */
enum { BYTES_KEPT = 1 << 22 };

void document_relieve(struct document *document) {
    if (arena_used(document->arena) > BYTES_KEPT && document->hand_on)
        document->hand_on(document);
}

/* Over this many places behind the point nothing is shown. */
enum { DECIMALS_LIMIT = 9 };

static const double powers[DECIMALS_LIMIT + 1] = {1, 1e1, 1e2, 1e3, 1e4, 1e5, 1e6, 1e7, 1e8, 1e9};

static size_t print_slowly(char text[FIGURE_ROOM], int decimals, double shown) {
    if (fabs(shown) >= 1e15 || !isfinite(shown))
        return (size_t)snprintf(text, FIGURE_ROOM, "%.6g", shown);
    size_t length = (size_t)snprintf(text, FIGURE_ROOM, "%.*f", decimals, shown);
    if (text[0] == '-' && strspn(text + 1, "0.") == length - 1)
        memmove(text, text + 1, length--); /* never "-0.000" */
    return length;
}

/* `digits` in units of the last decimal. */
static size_t print_digits(char text[FIGURE_ROOM], int decimals, bool negative, unsigned long long digits) {
    char reversed[FIGURE_ROOM];
    size_t count = 0;
    for (int place = 0; digits || place <= decimals; place++, digits /= 10) {
        if (place == decimals && decimals > 0)
            reversed[count++] = '.';
        reversed[count++] = (char)('0' + digits % 10);
    }
    size_t length = 0;
    if (negative)
        text[length++] = '-';
    while (count)
        text[length++] = reversed[--count];
    text[length] = 0;
    return length;
}

/* printf costs most of the time of a big report.  Where rounding is beyond doubt the digits are made here. */
static size_t print_decimal(char text[FIGURE_ROOM], int decimals, double shown) {
    double scaled = fabs(shown) * powers[decimals];
    if (!(scaled < 1e9))
        return print_slowly(text, decimals, shown);
    double whole = floor(scaled), rest = scaled - whole;
    if (fabs(rest - 0.5) < 1e-6)
        return print_slowly(text, decimals, shown);
    unsigned long long digits = (unsigned long long)whole + (rest > 0.5);
    return print_digits(text, decimals, shown < 0 && digits > 0, digits);
}

size_t figure_print(char text[FIGURE_ROOM], const struct column *column, enum measure_system system, double figure) {
    text[0] = 0;
    if (isnan(figure))
        return 0;
    if (column->kind == COLUMN_NUMBER)
        return print_decimal(text, column->decimals, figure);
    const struct measure_show *show = measure_show(system, column->use);
    if (show->by_tape)
        return measure_tape(text, figure);
    if (show->parts)
        return measure_parts(text, show, figure);
    return print_decimal(text, show->decimals + column->decimals, (figure - show->offset) / show->factor);
}
