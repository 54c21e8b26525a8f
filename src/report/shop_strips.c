/* Strips: what closes joints and holds vanes, listed by length, and each profile drawn once. */
#include "report/shop.h"

#include "report/figures.h"

enum { STRIP_NAME, STRIP_NUMBER, STRIP_WHAT, STRIP_SHEET, STRIP_COUNT, STRIP_LENGTH, STRIP_WIDTH, STRIP_COLUMNS };

static const struct column strip_columns[STRIP_COLUMNS] = {
    [STRIP_NAME] = {.head = "Name"},
    [STRIP_NUMBER] = {.head = "Drawing", .kind = COLUMN_NUMBER},
    [STRIP_WHAT] = {.head = "Strip"},
    [STRIP_SHEET] = {.head = "Sheet"},
    [STRIP_COUNT] = {.head = "How many", .kind = COLUMN_NUMBER},
    [STRIP_LENGTH] = {.head = "Length", .kind = COLUMN_FIGURE, .use = SHOW_CUT},
    [STRIP_WIDTH] = {.head = "Width before it is folded", .kind = COLUMN_FIGURE, .use = SHOW_CUT},
};

/* How many strips from the one at `first` on have its profile. */
static size_t alike_from(const struct metal *metal, size_t first) {
    size_t count = 1;
    while (first + count < metal->strips.count &&
           strips_alike(&metal->strips.at[first], &metal->strips.at[first + count]))
        count++;
    return count;
}

static void strip_table(const struct job *job, struct document *document) {
    const struct metal *metal = job->metal;
    struct table *table = document_table(document, strip_columns, STRIP_COLUMNS);
    for (size_t i = 0, number = 0; i < metal->strips.count; i++) {
        const struct made_strip *strip = &metal->strips.at[i];
        number += i == 0 || !strips_alike(&metal->strips.at[i - 1], strip);
        union cell *cells = document_row(document, &table);
        cells[STRIP_NAME].text = shop_strip_name(document->arena, job, strip);
        cells[STRIP_NUMBER].figure = (double)number;
        cells[STRIP_WHAT].text = strip->name;
        cells[STRIP_SHEET].text = shop_sheet_words(document->arena, (struct sheet_kind){strip->gauge, strip->material});
        cells[STRIP_COUNT].figure = (double)strip->count;
        cells[STRIP_LENGTH].figure = strip->length;
        cells[STRIP_WIDTH].figure = strip->width;
    }
}

void shop_strips(const struct job *job, struct document *document) {
    const struct metal *metal = job->metal;
    strip_table(job, document);
    for (size_t i = 0, number = 1; document->drawings && i < metal->strips.count; number++) {
        size_t alike = alike_from(metal, i);
        const char *words = arena_format(document->arena, "Strip %zu: %s", number, metal->strips.at[i].name);
        document_drawing(document, figure_strip(document->arena, job, number, &metal->strips.at[i], alike),
                         arena_format(document->arena, "strip-%zu.svg", number), words);
        i += alike;
    }
}
