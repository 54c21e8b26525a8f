/* Sheets in tiles, by cairo. */
#include "draw/tile.h"

#include <cairo-pdf.h>
#include <math.h>
#include <stdint.h>
#include <string.h>

#include "base/constant.h"
#include "draw/obstacles.h"
#include "draw/paint.h"
#include "draw/press.h"

/* What printers leave white at most, how far pages lie over each other, and room for bar and name (pt). */
static const double margin = 36, overlap = 36, strip = 58;

struct tiles {
    const struct sheet *sheet;
    const struct tiling *tiling;
    struct arena *arena;
    struct type *type;
    struct lettering *lettering;
    cairo_surface_t *surface;
    cairo_t *cairo;
    double page_width, page_height;
    double width, height; /* of what one page shows */
    size_t columns, rows;
    bool *printed; /* row by row */
};

/* ---- How many ---------------------------------------------------------------------------------------------------- */

static size_t count_along(double length, double window) {
    return length <= window ? 1 : (size_t)ceil((length - overlap) / (window - overlap) - 1e-9);
}

static void choose_way(struct tiles *tiles, double page_width, double page_height) {
    double width = page_width - 2 * margin, height = page_height - 2 * margin - strip;
    size_t columns = count_along(tiles->sheet->width, width), rows = count_along(tiles->sheet->height, height);
    if (tiles->columns && columns * rows >= tiles->columns * tiles->rows)
        return;
    tiles->page_width = page_width;
    tiles->page_height = page_height;
    tiles->width = width;
    tiles->height = height;
    tiles->columns = columns;
    tiles->rows = rows;
}

static struct spot corner_of(const struct tiles *tiles, size_t column, size_t row) {
    return (struct spot){(double)column * (tiles->width - overlap), (double)row * (tiles->height - overlap)};
}

/* A, B ... Z, AA, AB ...; then the row from 1. */
static const char *name_of(const struct tiles *tiles, size_t column, size_t row) {
    const char *letters = "";
    for (size_t left = column + 1; left > 0; left = (left - 1) / 26)
        letters = arena_format(tiles->arena, "%c%s", (char)('A' + (left - 1) % 26), letters);
    return arena_format(tiles->arena, "%s%zu", letters, row + 1);
}

/* ---- What a page shows ------------------------------------------------------------------------------------------- */

/* The part of the sheet that a page shows; `beyond` the strips that pages before it show too. */
static struct sheet_box window_of(const struct tiles *tiles, size_t column, size_t row, bool beyond) {
    struct spot corner = corner_of(tiles, column, row);
    double left = beyond && column > 0 ? overlap : 0, upper = beyond && row > 0 ? overlap : 0;
    return (struct sheet_box){
        .centre = {corner.x + (tiles->width + left) / 2, corner.y + (tiles->height + upper) / 2},
        .along = {1, 0},
        .half_width = (tiles->width - left) / 2,
        .half_height = (tiles->height - upper) / 2,
    };
}

/* Filled strokes are little ones: arrow heads, dots. */
static bool shows_stroke(struct sheet_box window, const struct sheet_stroke *stroke) {
    const double wide = 2; /* pt: half of the thickest line, and more */
    struct sheet_box box = box_grown(window, wide);
    double enter, leave;
    for (size_t i = stroke->closed ? 0 : 1; i < stroke->count; i++)
        if (box_meets_line(box, stroke->points[i ? i - 1 : stroke->count - 1], stroke->points[i], &enter, &leave))
            return true;
    return false;
}

/* The strokes and letters that the page shows some of; those of the sheet itself, which is not changed. */
static struct sheet sheet_at(const struct tiles *tiles, struct sheet_box window) {
    const struct sheet *all = tiles->sheet;
    struct sheet shown = {.width = all->width, .height = all->height, .ratio = all->ratio};
    for (size_t i = 0; i < all->strokes.count; i++)
        if (shows_stroke(window, &all->strokes.at[i]))
            *list_add(tiles->arena, &shown.strokes) = all->strokes.at[i];
    for (size_t i = 0; i < all->letters.count; i++)
        if (box_meets_box(window, all->letters.at[i].box))
            *list_add(tiles->arena, &shown.letters) = all->letters.at[i];
    return shown;
}

static bool shows_something(const struct tiles *tiles, size_t column, size_t row) {
    struct sheet_box window = window_of(tiles, column, row, true);
    for (size_t i = 0; i < tiles->sheet->strokes.count; i++)
        if (shows_stroke(window, &tiles->sheet->strokes.at[i]))
            return true;
    for (size_t i = 0; i < tiles->sheet->letters.count; i++)
        if (box_meets_box(window, tiles->sheet->letters.at[i].box))
            return true;
    return false;
}

/* Whether some page from there on, in steps of (right, down), shows something. */
static bool shows_further(const struct tiles *tiles, const bool *shows, size_t i, size_t right, size_t down) {
    size_t column = i % tiles->columns + right, row = i / tiles->columns + down;
    for (; column < tiles->columns && row < tiles->rows; column += right, row += down)
        if (shows[row * tiles->columns + column])
            return true;
    return false;
}

/* A page with nothing on it is printed only where it joins others on all four sides.  SIZE_MAX steps back by one. */
static void choose_printed(struct tiles *tiles) {
    size_t count = tiles->columns * tiles->rows;
    bool *shows = ARENA_ARRAY(tiles->arena, bool, count);
    tiles->printed = ARENA_ARRAY(tiles->arena, bool, count);
    for (size_t i = 0; i < count; i++)
        shows[i] = shows_something(tiles, i % tiles->columns, i / tiles->columns);
    for (size_t i = 0; i < count; i++)
        tiles->printed[i] =
            shows[i] || (shows_further(tiles, shows, i, 1, 0) && shows_further(tiles, shows, i, 0, 1) &&
                         shows_further(tiles, shows, i, SIZE_MAX, 0) && shows_further(tiles, shows, i, 0, SIZE_MAX));
}

static bool is_printed(const struct tiles *tiles, size_t column, size_t row) {
    return column < tiles->columns && row < tiles->rows && tiles->printed[row * tiles->columns + column];
}

/* ---- Marks ------------------------------------------------------------------------------------------------------- */

static void words(struct tiles *tiles, enum type_face face, double size, double x, double y, const char *text) {
    type_show(tiles->type, tiles->cairo, face, size, x, y, text, strlen(text));
    type_flush(tiles->type, tiles->cairo);
}

static double width_of(struct tiles *tiles, enum type_face face, double size, const char *text) {
    return type_width(tiles->type, face, text, strlen(text)) * size;
}

static void line(struct tiles *tiles, double width, double x, double y, double to_x, double to_y) {
    cairo_set_line_width(tiles->cairo, width);
    cairo_set_dash(tiles->cairo, NULL, 0, 0);
    cairo_move_to(tiles->cairo, x, y);
    cairo_line_to(tiles->cairo, to_x, to_y);
    cairo_stroke(tiles->cairo);
}

/* A bar of known length, with what to do with it; its upper edge at y. */
static void bar(struct tiles *tiles, double y) {
    bool metric = tiles->tiling->metric;
    double step = (metric ? 10 * MILLIMETRE : INCH) / POINT, tick = 5;
    int steps = metric ? 15 : 6;
    press_ink(tiles->cairo, INK_BLACK);
    line(tiles, 1.3, margin, y + tick, margin + step * steps, y + tick);
    for (int i = 0; i <= steps; i++) {
        double height = i == 0 || i == steps ? tick : tick / 2;
        line(tiles, 0.5, margin + step * i, y + tick - height, margin + step * i, y + tick + height);
    }
    words(tiles, TYPE_BOLD, 8, margin, y + 2 * tick + 10,
          metric ? "Measure this bar before cutting: it must be 150 mm long, or the print is not at full size."
                 : "Measure this bar before cutting: it must be 6 in long, or the print is not at full size.");
}

/* A cross in a ring, for pages to be laid over each other by. */
static void cross(struct tiles *tiles, double x, double y) {
    const double arm = 12, radius = 5;
    line(tiles, 0.4, x - arm, y, x + arm, y);
    line(tiles, 0.4, x, y - arm, x, y + arm);
    cairo_new_path(tiles->cairo);
    cairo_arc(tiles->cairo, x, y, radius, 0, 2 * PI);
    cairo_stroke(tiles->cairo);
}

/* In the middle of what this page and a neighbour both show.  Left of the first column is none at all, nor above the
 * first row. */
static void crosses(struct tiles *tiles, size_t column, size_t row) {
    bool beside[2] = {is_printed(tiles, column - 1, row), is_printed(tiles, column + 1, row)};
    bool over[2] = {is_printed(tiles, column, row - 1), is_printed(tiles, column, row + 1)};
    press_ink(tiles->cairo, INK_ACCENT);
    for (int i = 0; i < 4; i++) {
        int right = i & 1, below = i >> 1;
        if (beside[right] || over[below])
            cross(tiles, margin + (right ? tiles->width - overlap / 2 : overlap / 2),
                  margin + (below ? tiles->height - overlap / 2 : overlap / 2));
    }
}

/* ---- Pages ------------------------------------------------------------------------------------------------------- */

static void next_to(struct tiles *tiles, const char **text, const char *where, size_t column, size_t row) {
    if (is_printed(tiles, column, row))
        *text = arena_format(tiles->arena, "%s%s%s %s", *text, **text ? ", " : "", where, name_of(tiles, column, row));
}

/* "left A1, right C1, below B2" */
static const char *neighbours(struct tiles *tiles, size_t column, size_t row) {
    const char *text = "";
    next_to(tiles, &text, "left", column - 1, row);
    next_to(tiles, &text, "right", column + 1, row);
    next_to(tiles, &text, "above", column, row - 1);
    next_to(tiles, &text, "below", column, row + 1);
    return text;
}

static void foot(struct tiles *tiles, size_t column, size_t row) {
    double y = tiles->page_height - margin - strip + 8;
    bar(tiles, y);
    const char *name = name_of(tiles, column, row), *others = neighbours(tiles, column, row);
    words(tiles, TYPE_BOLD, 18, tiles->page_width - margin - width_of(tiles, TYPE_BOLD, 18, name), y + 16, name);
    words(tiles, TYPE_PLAIN, 7.5, margin, y + 34, tiles->tiling->title);
    words(tiles, TYPE_PLAIN, 7.5, tiles->page_width - margin - width_of(tiles, TYPE_PLAIN, 7.5, others), y + 46,
          others);
}

static void page(struct tiles *tiles, size_t column, size_t row) {
    struct spot corner = corner_of(tiles, column, row);
    struct sheet shown = sheet_at(tiles, window_of(tiles, column, row, false));
    cairo_save(tiles->cairo);
    cairo_rectangle(tiles->cairo, margin, margin, tiles->width, tiles->height);
    cairo_clip(tiles->cairo);
    cairo_translate(tiles->cairo, margin - corner.x, margin - corner.y);
    paint_on(tiles->cairo, &shown, tiles->lettering);
    cairo_restore(tiles->cairo);
    press_ink(tiles->cairo, INK_GREY);
    cairo_set_line_width(tiles->cairo, 0.3);
    cairo_set_dash(tiles->cairo, NULL, 0, 0);
    cairo_rectangle(tiles->cairo, margin, margin, tiles->width, tiles->height);
    cairo_stroke(tiles->cairo);
    crosses(tiles, column, row);
    press_ink(tiles->cairo, INK_BLACK);
    foot(tiles, column, row);
    cairo_show_page(tiles->cairo);
}

/* ---- The map ----------------------------------------------------------------------------------------------------- */

static void map_tile(struct tiles *tiles, double scale, size_t column, size_t row) {
    struct spot corner = corner_of(tiles, column, row);
    double x = margin + corner.x * scale, y = margin + 112 + corner.y * scale;
    double width = tiles->width * scale, height = tiles->height * scale, size = fmin(14, height / 3);
    bool empty = !is_printed(tiles, column, row);
    const char *name = empty ? "not printed" : name_of(tiles, column, row);
    if (empty)
        size = fmin(size, 0.8 * width / width_of(tiles, TYPE_PLAIN, 1, name));
    press_ink(tiles->cairo, INK_GREY);
    cairo_set_line_width(tiles->cairo, 0.4);
    cairo_rectangle(tiles->cairo, x, y, width, height);
    cairo_stroke(tiles->cairo);
    press_ink(tiles->cairo, empty ? INK_GREY : INK_ACCENT);
    enum type_face face = empty ? TYPE_PLAIN : TYPE_BOLD;
    words(tiles, face, size, x + (width - width_of(tiles, face, size, name)) / 2, y + (height + 0.7 * size) / 2, name);
}

static void map(struct tiles *tiles) {
    struct spot last = corner_of(tiles, tiles->columns - 1, tiles->rows - 1);
    double room = tiles->page_height - 2 * margin - strip - 120;
    double scale = fmin(tiles->width / (last.x + tiles->width), room / (last.y + tiles->height));
    struct sheet outline = *tiles->sheet;
    outline.letters.count = 0;
    cairo_save(tiles->cairo);
    cairo_translate(tiles->cairo, margin, margin + 112);
    cairo_scale(tiles->cairo, scale, scale);
    paint_on(tiles->cairo, &outline, tiles->lettering);
    cairo_restore(tiles->cairo);
    cairo_set_dash(tiles->cairo, NULL, 0, 0);
    for (size_t i = 0; i < tiles->columns * tiles->rows; i++)
        map_tile(tiles, scale, i % tiles->columns, i / tiles->columns);
}

/* As large as the width of the page has room for. */
static void heading(struct tiles *tiles, double y, const char *text) {
    double width = width_of(tiles, TYPE_BOLD, 1, text);
    words(tiles, TYPE_BOLD, fmin(14, tiles->width / fmax(width, 1)), margin, y, text);
}

static void first_page(struct tiles *tiles) {
    static const char *const lines[] = {
        "Print at full size: no scaling, no fitting to the page. Measure the bar on every page before cutting.",
        "Cut each page along its frame at the left and the upper edge, where it has a neighbour there, and lay",
        "it over that neighbour so that the crosses meet; then tape. Measure a long dimension across the joints,",
        "and compare it with the figure beside it.",
    };
    press_ink(tiles->cairo, INK_BLACK);
    heading(tiles, margin + 14, tiles->tiling->title);
    const char *count = arena_format(tiles->arena, "Full size on %zu x %zu pages; this map is not to scale.",
                                     tiles->columns, tiles->rows);
    words(tiles, TYPE_PLAIN, 9, margin, margin + 32, count);
    for (size_t i = 0; i < sizeof lines / sizeof lines[0]; i++)
        words(tiles, i == 0 ? TYPE_BOLD : TYPE_PLAIN, 9, margin, margin + 50 + 13 * (double)i, lines[i]);
    map(tiles);
    bar(tiles, tiles->page_height - margin - strip + 8);
    cairo_show_page(tiles->cairo);
}

/* ---- The whole --------------------------------------------------------------------------------------------------- */

static bool finish(struct tiles *tiles) {
    cairo_status_t drawn = cairo_status(tiles->cairo);
    cairo_destroy(tiles->cairo);
    cairo_surface_finish(tiles->surface);
    bool whole = drawn == CAIRO_STATUS_SUCCESS && cairo_surface_status(tiles->surface) == CAIRO_STATUS_SUCCESS &&
                 type_sound(tiles->type);
    cairo_surface_destroy(tiles->surface);
    lettering_free(tiles->lettering);
    type_free(tiles->type);
    return whole;
}

/* False when the arena ran out. */
static bool put_pages(struct tiles *tiles, jmp_buf *failure) {
    if (setjmp(*failure))
        return false;
    choose_printed(tiles);
    first_page(tiles);
    for (size_t i = 0; i < tiles->columns * tiles->rows; i++)
        if (tiles->printed[i])
            page(tiles, i % tiles->columns, i / tiles->columns);
    return true;
}

bool sheet_write_tiles(const struct sheet *sheet, const struct tiling *tiling, struct arena *arena,
                       struct output *out) {
    struct tiles tiles = {.sheet = sheet, .tiling = tiling, .arena = arena};
    choose_way(&tiles, tiling->width, tiling->height);
    choose_way(&tiles, tiling->height, tiling->width);
    tiles.type = type_new();
    if (!tiles.type)
        return false;
    tiles.surface = cairo_pdf_surface_create_for_stream(press_write, out, tiles.page_width, tiles.page_height);
    press_describe(tiles.surface, tiling->title, tiling->author, NULL, tiling->date);
    tiles.cairo = cairo_create(tiles.surface);
    tiles.lettering = lettering_new();
    jmp_buf failure, *further = arena_on_failure(arena, &failure);
    bool whole = put_pages(&tiles, &failure);
    arena_on_failure(arena, further);
    return finish(&tiles) && whole;
}
