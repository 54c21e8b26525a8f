/* Tables on pages: columns as narrow as they may be, rows that break over pages under a repeated head. */
#include <math.h>
#include <stdint.h>
#include <string.h>

#include "report/pdf.h"

/* Own look.  Smaller type is tried in this order when the columns find no room. */
static const double sizes[] = {8, 7.5, 7, 6.5, 6};
enum { SIZE_COUNT = sizeof sizes / sizeof sizes[0] };

static const double most_apart = 10; /* pt between columns; less when there are very many */
static const double air = 1.5;       /* pt above and below the text of a row */

struct grid {
    struct pdf *pdf;
    const struct table *table;
    enum measure_system system;
    struct style text, head;
    const char **heads; /* with their units */
    double *widths, apart;
};

/* ---- Cells ------------------------------------------------------------------------------------------------------- */

static const char *head_text(struct arena *arena, const struct column *column, enum measure_system system) {
    if (column->kind != COLUMN_FIGURE || column->bare || measure_show(system, column->use)->by_tape)
        return column->head;
    const char *unit = measure_show(system, column->use)->unit;
    return arena_format(arena, "%s%s%s", column->head, *column->head ? ", " : "", unit);
}

/* Uses `room` for a figure. */
static const char *cell_text(const struct grid *grid, size_t row, size_t c, char room[FIGURE_ROOM]) {
    const struct column *column = &grid->table->columns[c];
    union cell cell = grid->table->cells[row * grid->table->column_count + c];
    if (column_is_text(column))
        return cell.text ? cell.text : "";
    figure_print(room, column, grid->system, cell.figure);
    return room;
}

/* ---- Widths ------------------------------------------------------------------------------------------------------ */

/* What a column asks for, for a type size of 1. */
struct wish {
    double word, text; /* widest word and widest text of its cells */
    double head_word, head;
    double head_pair; /* in which the head takes two lines */
};

/* A longer word is broken rather than given its room, for a type size of 1: some 28 letters. */
static const double most_word = 16;

static double pair_width(const struct grid *grid, const struct style *style, const char *head) {
    double best = pdf_text_width(grid->pdf, style, head);
    for (const char *at = strchr(head, ' '); at; at = strchr(at + 1, ' ')) {
        const char *first = arena_format(grid->table->arena, "%.*s", (int)(at - head), head);
        best = fmin(best, fmax(pdf_text_width(grid->pdf, style, first), pdf_text_width(grid->pdf, style, at + 1)));
    }
    return best;
}

static struct wish *wishes_of(const struct grid *grid) {
    static const struct style plain = {.face = TYPE_PLAIN, .size = 1}, bold = {.face = TYPE_BOLD, .size = 1};
    size_t columns = grid->table->column_count;
    struct wish *wishes = ARENA_ARRAY(grid->table->arena, struct wish, columns + 1);
    for (size_t c = 0; c < columns; c++) {
        wishes[c].head_word = pdf_word_width(grid->pdf, &bold, grid->heads[c]);
        wishes[c].head = pdf_text_width(grid->pdf, &bold, grid->heads[c]);
        wishes[c].head_pair = pair_width(grid, &bold, grid->heads[c]);
    }
    for (size_t i = 0; i < grid->table->row_count * columns; i++) {
        char room[FIGURE_ROOM];
        struct wish *wish = &wishes[i % columns];
        const char *text = cell_text(grid, i / columns, i % columns, room);
        double width = pdf_text_width(grid->pdf, &plain, text);
        if (width > wish->text)
            wish->text = width;
        if (width > wish->word) /* else no word of it can be the widest */
            wish->word = fmin(most_word, fmax(wish->word, pdf_word_width(grid->pdf, &plain, text)));
    }
    return wishes;
}

/* Between its least and its most a column gets `share` of the square root of its most: a long text is given more room
 * than a short one, but not in proportion, or the short ones would be broken for it. */
static double width_at(double least, double most, double share) {
    return fmin(most, fmax(least, share * sqrt(most)));
}

/* Widths whose sum is `room`, or all of `most` when that is less.  False: not even `least` has room. */
static bool share_out(const double *least, const double *most, double *widths, size_t count, double room) {
    double low = 0, high = 1, sum = 0;
    for (size_t c = 0; c < count; c++)
        sum += least[c];
    if (sum > room)
        return false;
    for (size_t c = 0; c < count; c++)
        high = fmax(high, sqrt(most[c]));
    for (int i = 0; i < 50; i++) {
        double middle = (low + high) / 2;
        sum = 0;
        for (size_t c = 0; c < count; c++)
            sum += width_at(least[c], most[c], middle);
        if (sum > room)
            high = middle;
        else
            low = middle;
    }
    for (size_t c = 0; c < count; c++)
        widths[c] = width_at(least[c], most[c], low);
    return true;
}

/* How far columns may be narrowed. */
struct narrowing {
    bool texts; /* texts are broken into lines, not heads alone */
    bool heads; /* heads of figures more than once */
};

static bool widths_for(const struct grid *grid, const struct wish *wishes, double size, double room,
                       struct narrowing narrowing) {
    struct arena *arena = grid->table->arena;
    size_t count = grid->table->column_count;
    double *least = ARENA_ARRAY(arena, double, count + 1), *most = ARENA_ARRAY(arena, double, count + 1);
    for (size_t c = 0; c < count; c++) {
        const struct column *column = &grid->table->columns[c];
        bool apart = narrowing.heads || column_is_text(column);
        double head = apart ? wishes[c].head_word : wishes[c].head_pair;
        double whole = fmax(wishes[c].text, head), broken = fmax(wishes[c].word, head);
        least[c] = fmax(column->by_hand, size * (narrowing.texts && column_is_text(column) ? broken : whole));
        most[c] = fmax(column->by_hand, size * (narrowing.texts ? whole : fmax(whole, wishes[c].head)));
    }
    return share_out(least, most, grid->widths, count, room);
}

/* The least narrowing that is enough. */
static bool widths_at(const struct grid *grid, const struct wish *wishes, double size, double room) {
    static const struct narrowing narrowings[] = {{false, false}, {true, false}, {false, true}, {true, true}};
    for (size_t i = 0; i < sizeof narrowings / sizeof *narrowings; i++)
        if (widths_for(grid, wishes, size, room, narrowings[i]))
            return true;
    return false;
}

static double sum_below(const double *widths, size_t count, double level) {
    double sum = 0;
    for (size_t c = 0; c < count; c++)
        sum += fmin(widths[c], level);
    return sum;
}

/* Not even the smallest type gives every word its room: the widest columns are made narrower until all have it, and
 * their words are broken. */
static void squeeze(const struct grid *grid, const struct wish *wishes, double size, double room) {
    size_t count = grid->table->column_count;
    for (size_t c = 0; c < count; c++)
        grid->widths[c] = size * fmax(wishes[c].word, wishes[c].head_word);
    double low = 0, high = room;
    for (int i = 0; i < 50; i++) {
        double middle = (low + high) / 2;
        if (sum_below(grid->widths, count, middle) > room)
            high = middle;
        else
            low = middle;
    }
    for (size_t c = 0; c < count; c++)
        grid->widths[c] = fmin(grid->widths[c], low);
}

static void set_size(struct grid *grid, double size) {
    grid->text = (struct style){.face = TYPE_PLAIN, .ink = INK_BLACK, .size = size, .leading = 1.28 * size};
    grid->head = grid->text;
    grid->head.face = TYPE_BOLD;
}

static struct grid new_grid(struct pdf *pdf, const struct table *table, enum measure_system system) {
    struct grid grid = {.pdf = pdf, .table = table, .system = system};
    grid.heads = ARENA_ARRAY(table->arena, const char *, table->column_count + 1);
    grid.widths = ARENA_ARRAY(table->arena, double, table->column_count + 1);
    for (size_t c = 0; c < table->column_count; c++)
        grid.heads[c] = head_text(table->arena, &table->columns[c], system);
    const struct wish *wishes = wishes_of(&grid);
    double across = pdf->right - pdf->left, count = (double)table->column_count;
    grid.apart = fmin(most_apart, across / (4 * count));
    double room = across - grid.apart * (count - 1);
    size_t i = 0;
    while (i < SIZE_COUNT && !widths_at(&grid, wishes, sizes[i], room))
        i++;
    /* So small at last that each column has room for the widest letter. */
    set_size(&grid, i < SIZE_COUNT ? sizes[i] : fmin(sizes[SIZE_COUNT - 1], 0.9 * room / count));
    if (i == SIZE_COUNT)
        squeeze(&grid, wishes, grid.text.size, room);
    return grid;
}

/* ---- Rows -------------------------------------------------------------------------------------------------------- */

/* HEAD is the row above the first. */
#define HEAD SIZE_MAX

static const char *text_at(const struct grid *grid, size_t row, size_t c, char room[FIGURE_ROOM]) {
    return row == HEAD ? grid->heads[c] : cell_text(grid, row, c, room);
}

static const struct style *style_at(const struct grid *grid, size_t row) {
    return row == HEAD ? &grid->head : &grid->text;
}

static size_t lines_of(const struct grid *grid, size_t row) {
    size_t most = 1;
    for (size_t c = 0; c < grid->table->column_count; c++) {
        char room[FIGURE_ROOM];
        size_t lines = pdf_wrap(grid->pdf, style_at(grid, row), text_at(grid, row, c, room), grid->widths[c], 0, NULL);
        if (lines > most)
            most = lines;
    }
    return most;
}

static double height_of(const struct grid *grid, size_t row) {
    return (double)lines_of(grid, row) * grid->text.leading + 2 * air;
}

/* The lines `from` to `to` of one cell, its left edge at x; a head stands at the foot of its row. */
static void put_cell(const struct grid *grid, size_t row, size_t c, double x, size_t from, size_t to) {
    char room[FIGURE_ROOM];
    struct text_line *lines;
    const struct style *style = style_at(grid, row);
    size_t count = pdf_wrap(grid->pdf, style, text_at(grid, row, c, room), grid->widths[c], 0, &lines);
    double y = grid->pdf->y + air;
    if (row == HEAD)
        y += (double)(to - from - count) * style->leading;
    for (size_t i = from; i < to && i < count; i++) {
        bool right = grid->table->columns[c].kind != COLUMN_TEXT;
        double shift = right ? grid->widths[c] - pdf_line_width(grid->pdf, style, lines[i]) : 0;
        pdf_put_line(grid->pdf, style, lines[i], x + shift, y + (double)(i - from) * style->leading);
    }
    arena_clear(grid->pdf->scratch);
}

static double table_width(const struct grid *grid) {
    double width = grid->apart * (double)(grid->table->column_count - 1);
    for (size_t c = 0; c < grid->table->column_count; c++)
        width += grid->widths[c];
    return width;
}

static void rule_below(const struct grid *grid, enum ink ink, double width) {
    struct pdf *pdf = grid->pdf;
    pdf_rule(pdf, ink, width, (struct spot){pdf->left, pdf->y}, (struct spot){pdf->left + table_width(grid), pdf->y});
}

static void put_row(const struct grid *grid, size_t row, size_t from, size_t to) {
    struct pdf *pdf = grid->pdf;
    double x = pdf->left;
    for (size_t c = 0; c < grid->table->column_count; c++) {
        put_cell(grid, row, c, x, from, to);
        x += grid->widths[c] + grid->apart;
    }
    pdf->y += (double)(to - from) * grid->text.leading + 2 * air;
    pdf->fresh = false;
    rule_below(grid, row == HEAD ? INK_BLACK : INK_GREY, row == HEAD ? 0.8 : 0.2);
}

static void put_head(const struct grid *grid) {
    put_row(grid, HEAD, 0, lines_of(grid, HEAD));
}

/* A row that no page has room for, line by line. */
static void put_tall_row(const struct grid *grid, size_t row) {
    struct pdf *pdf = grid->pdf;
    size_t lines = lines_of(grid, row), done = 0;
    while (done < lines) {
        double room = floor((pdf->bottom - pdf->y - 2 * air) / grid->text.leading);
        size_t here = room >= 1 ? (size_t)room : 1;
        if (here > lines - done)
            here = lines - done;
        put_row(grid, row, done, done + here);
        done += here;
        if (done < lines) {
            pdf_new_page(pdf);
            put_head(grid);
        }
    }
}

/* A table of no more rows than ROWS_WHOLE is not broken, unless it is taller than a page; on each page of another stand
 * ROWS_LEAST at least. */
enum { ROWS_WHOLE = 12, ROWS_LEAST = 4 };

static double rows_height(const struct grid *grid, size_t from, size_t to) {
    double height = 0;
    for (size_t row = from; row < to; row++)
        height += height_of(grid, row);
    return height;
}

/* What must go with a row: the last ones are not parted. */
static double together(const struct grid *grid, size_t row, double height) {
    size_t rows = grid->table->row_count;
    return row + ROWS_LEAST == rows ? rows_height(grid, row, rows) : height;
}

static double start_of(const struct grid *grid) {
    size_t rows = grid->table->row_count, first = rows > ROWS_WHOLE ? ROWS_LEAST : rows;
    return fmin(height_of(grid, HEAD) + rows_height(grid, 0, first), pdf_page_room(grid->pdf));
}

double pdf_table_height(struct pdf *pdf, const struct table *table, enum measure_system system) {
    struct grid grid = new_grid(pdf, table, system);
    return height_of(&grid, HEAD) + rows_height(&grid, 0, table->row_count);
}

double pdf_table_start(struct pdf *pdf, const struct table *table, enum measure_system system) {
    struct grid grid = new_grid(pdf, table, system);
    return start_of(&grid);
}

void pdf_put_table(struct pdf *pdf, const struct table *table, enum measure_system system) {
    struct grid grid = new_grid(pdf, table, system);
    double whole = pdf_page_room(pdf) - height_of(&grid, HEAD);
    pdf_need(pdf, start_of(&grid));
    put_head(&grid);
    bool first = true; /* of its page */
    for (size_t row = 0; row < table->row_count; row++) {
        double height = height_of(&grid, row);
        if (!first && !pdf_has_room(pdf, fmin(together(&grid, row, height), whole))) {
            pdf_new_page(pdf);
            put_head(&grid);
        }
        if (pdf_has_room(pdf, height))
            put_row(&grid, row, 0, lines_of(&grid, row));
        else
            put_tall_row(&grid, row);
        first = false;
    }
}
