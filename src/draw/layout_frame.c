/* Around the drawing: the title above; below it the list, the notes, the key of lines, the scale or the bar to check
 * by. */
#include "draw/layout.h"

#include <math.h>

#include "base/constant.h"
#include "draw/page.h"

static const double leading = 3; /* pt between lines of text */

/* What the key calls a line that the figure does not name itself. */
static const char *const key_words[STROKE_COUNT] = {
    [STROKE_CUT] = "cut",      [STROKE_BEND_UP] = "bend up", [STROKE_BEND_DOWN] = "bend down", [STROKE_SEAM] = "seam",
    [STROKE_NET] = "net size", [STROKE_HIDDEN] = "hidden",   [STROKE_CENTRE] = "centre",
};

/* Puts letters with their left top corner at (x, y). */
static void put(struct layout *layout, struct sheet_letters letters, double x, double y) {
    letters.box.centre = (struct spot){x + letters.box.half_width, y + letters.box.half_height};
    *list_add(layout->arena, &layout->sheet->letters) = letters;
}

/* ---- Above ------------------------------------------------------------------------------------------------------- */

static void shift(struct layout *layout, double x, double y) {
    for (size_t i = 0; i < layout->sheet->strokes.count; i++)
        for (size_t j = 0; j < layout->sheet->strokes.at[i].count; j++) {
            struct spot *point = &layout->sheet->strokes.at[i].points[j];
            *point = (struct spot){point->x + x, point->y + y};
        }
    for (size_t i = 0; i < layout->sheet->letters.count; i++) {
        struct spot *centre = &layout->sheet->letters.at[i].box.centre;
        *centre = (struct spot){centre->x + x, centre->y + y};
    }
}

/* NULL: it has none. */
static const char *scale_words(struct layout *layout, enum sheet_mode mode) {
    if (layout->figure->diagram)
        return NULL;
    if (mode == SHEET_FULL_SIZE)
        return "full size";
    if (layout->figure->sketch)
        return "sketch, not to scale";
    return arena_format(layout->arena, "scale 1:%.0f", layout->sheet->ratio);
}

static const double north_tall = 19, north_room = 16; /* pt */

/* An arrow up, its letter beside it, left of x. */
static void north(struct layout *layout, double x, double y) {
    static const double head = 8, beside = 3; /* pt */
    struct sheet_letters letter = letters_of(layout, "N", LETTER_PLAIN, 0);
    struct spot tip = {x - beside, y};
    layout_line(layout, STROKE_NET, (struct spot){tip.x, y + north_tall}, (struct spot){tip.x, y + head / 2});
    layout_head(layout, tip, (struct spot){0, -1}, head);
    put(layout, letter, tip.x - beside - 2 * letter.box.half_width, y + head / 2);
}

/* Title left, scale right, a rule under both; gives how far down it reaches. */
static double title(struct layout *layout, enum sheet_mode mode, double width) {
    const char *words = scale_words(layout, mode);
    struct sheet_letters scale = {0};
    if (words)
        scale = letters_of(layout, words, LETTER_PLAIN, 0);
    double right = width - PAGE_MARGIN - 2 * scale.box.half_width, wrap = right - 3 * PAGE_MARGIN, y = PAGE_MARGIN;
    if (words)
        put(layout, scale, right, y);
    double least = y + 2 * scale.box.half_height + leading;
    if (layout->figure->north) {
        north(layout, right - PAGE_MARGIN, y);
        wrap -= north_room + PAGE_MARGIN;
        least = fmax(least, y + north_tall + leading);
    }
    const char *const texts[] = {layout->figure->title, layout->figure->subtitle};
    for (int i = 0; i < 2; i++)
        if (texts[i]) {
            struct sheet_letters letters = letters_of(layout, texts[i], i ? LETTER_PLAIN : LETTER_LARGE, wrap);
            put(layout, letters, PAGE_MARGIN, y);
            y += 2 * letters.box.half_height + leading;
        }
    y = fmax(y, least);
    layout_line(layout, STROKE_NET, (struct spot){PAGE_MARGIN, y}, (struct spot){width - PAGE_MARGIN, y});
    return y;
}

/* ---- Below ------------------------------------------------------------------------------------------------------- */

/* The list in columns as wide as its widest entry, read downward. */
static double list(struct layout *layout, double y, double width) {
    size_t count = layout->list.count;
    if (count == 0)
        return y;
    double room = width - 2 * PAGE_MARGIN, widest = 0, tallest = 0, apart = 14;
    struct sheet_letters *entries = ARENA_ARRAY(layout->arena, struct sheet_letters, count);
    for (size_t i = 0; i < count; i++) {
        entries[i] = letters_of(layout, layout->list.at[i], LETTER_PLAIN, room);
        widest = fmax(widest, 2 * entries[i].box.half_width);
        tallest = fmax(tallest, 2 * entries[i].box.half_height);
    }
    size_t columns = (size_t)fmax(1, floor((room + apart) / (widest + apart)));
    size_t rows = (count + columns - 1) / columns;
    for (size_t i = 0; i < count; i++) {
        size_t column = i / rows, row = i % rows;
        put(layout, entries[i], PAGE_MARGIN + (double)column * (widest + apart), y + (double)row * (tallest + 1));
    }
    return y + (double)rows * (tallest + 1) + leading;
}

static double notes(struct layout *layout, double y, double width) {
    for (size_t i = 0; i < layout->figure->notes.count; i++) {
        struct sheet_letters note =
            letters_of(layout, layout->figure->notes.at[i], LETTER_PLAIN, width - 2 * PAGE_MARGIN);
        put(layout, note, PAGE_MARGIN, y);
        y += 2 * note.box.half_height + leading;
    }
    return y;
}

static bool is_used(const struct figure *figure, enum stroke stroke) {
    for (size_t i = 0; i < figure->paths.count; i++)
        if (figure->paths.at[i].stroke == stroke)
            return true;
    return false;
}

/* A sample of each line in use, with its word, in rows. */
static double key(struct layout *layout, double y, double width) {
    static const double sample = 40, apart = 16, beside = 4; /* pt */
    double x = PAGE_MARGIN, height = 0;
    for (int i = 0; i < STROKE_THIN && !layout->figure->keyless; i++) {
        if (!is_used(layout->figure, (enum stroke)i))
            continue;
        const char *own = layout->figure->key[i];
        if (layout->figure->diagram && !own)
            continue;
        struct sheet_letters word = letters_of(layout, own ? own : key_words[i], LETTER_PLAIN, width / 2);
        double taken = sample + beside + 2 * word.box.half_width;
        if (x > PAGE_MARGIN && x + taken > width - PAGE_MARGIN) {
            x = PAGE_MARGIN;
            y += height + leading;
            height = 0;
        }
        height = fmax(height, 2 * word.box.half_height);
        double middle = y + word.box.half_height;
        layout_line(layout, (enum stroke)i, (struct spot){x, middle}, (struct spot){x + sample, middle});
        put(layout, word, x + sample + beside, y);
        x += taken + apart;
    }
    return height > 0 ? y + height + leading : y;
}

/* A bar on a piece of duct, and what the bars are. */
static double bar_key(struct layout *layout, double y, double width) {
    static const double sample = 40, half = 2.5, beside = 4; /* pt */
    const struct figure *figure = layout->figure;
    if (!figure->bars.count || !figure->bar_key)
        return y;
    double x = PAGE_MARGIN + sample + beside;
    struct sheet_letters words = letters_of(layout, figure->bar_key, LETTER_PLAIN, width - PAGE_MARGIN - x);
    struct sheet_letters line = letters_of(layout, "0", LETTER_PLAIN, 0);
    struct spot middle = {PAGE_MARGIN + sample / 2, y + line.box.half_height};
    for (int side = -1; side <= 1; side += 2)
        layout_line(layout, STROKE_CUT, (struct spot){PAGE_MARGIN, middle.y + side * half},
                    (struct spot){PAGE_MARGIN + sample, middle.y + side * half});
    layout_bar(layout, middle, (struct spot){0, 1}, half);
    put(layout, words, x, y);
    return y + 2 * words.box.half_height + leading;
}

/* A bar of known length with a tick at every inch (or 10 mm). */
static double bar(struct layout *layout, double y) {
    bool metric = layout->figure->metric;
    double step = (metric ? 10 * MILLIMETRE : INCH) / POINT, tick = 6;
    int steps = metric ? 15 : 6;
    struct sheet_letters words =
        letters_of(layout,
                   metric ? "Measure this bar before cutting: it must be 150 mm long, or the print is not at full size."
                          : "Measure this bar before cutting: it must be 6 in long, or the print is not at full size.",
                   LETTER_PLAIN, PAGE_ROOM);
    layout_line(layout, STROKE_CUT, (struct spot){PAGE_MARGIN, y + tick},
                (struct spot){PAGE_MARGIN + step * steps, y + tick});
    for (int i = 0; i <= steps; i++) {
        double height = i == 0 || i == steps ? tick : tick / 2;
        layout_line(layout, STROKE_NET, (struct spot){PAGE_MARGIN + step * i, y + tick - height},
                    (struct spot){PAGE_MARGIN + step * i, y + tick + height});
    }
    put(layout, words, PAGE_MARGIN, y + 2 * tick + leading);
    return y + 2 * tick + 2 * leading + 2 * words.box.half_height;
}

void layout_frame(struct layout *layout, enum sheet_mode mode) {
    struct spot low, high;
    if (!layout_bounds(layout, &low, &high))
        low = high = (struct spot){0, 0};
    double width = fmax(PAGE_WIDTH, high.x - low.x + 2 * PAGE_MARGIN), apart = 8;
    double left = (width - (high.x - low.x)) / 2 - low.x;
    shift(layout, left, -low.y);
    struct sheet *sheet = layout->sheet;
    size_t strokes = sheet->strokes.count, letters = sheet->letters.count;
    double top = title(layout, mode, width) + apart;
    /* The title is known only now: the drawing, which stands first in the lists, moves below it. */
    size_t all_strokes = sheet->strokes.count, all_letters = sheet->letters.count;
    sheet->strokes.count = strokes;
    sheet->letters.count = letters;
    shift(layout, 0, top);
    sheet->strokes.count = all_strokes;
    sheet->letters.count = all_letters;
    double y = top + high.y - low.y + apart;
    y = notes(layout, list(layout, y, width), width);
    y = bar_key(layout, key(layout, y, width), width);
    if (mode == SHEET_FULL_SIZE)
        y = bar(layout, y);
    sheet->width = width;
    sheet->height = y + PAGE_MARGIN;
}
