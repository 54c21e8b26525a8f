/* Hours by kind of work, and what they come to. */
#include <string.h>

#include "model/words.h"
#include "report/office.h"

enum {
    HOUR_WORK,
    HOUR_PLACE,
    HOUR_SHOP_COUNT,
    HOUR_SHOP_EACH,
    HOUR_SHOP,
    HOUR_FIELD_COUNT,
    HOUR_FIELD_EACH,
    HOUR_ACCESS,
    HOUR_FIELD,
    HOUR_COLUMNS
};

static const struct column hour_columns[HOUR_COLUMNS] = {
    [HOUR_WORK] = {.head = "Work"},
    [HOUR_PLACE] = {.head = "Where"},
    [HOUR_SHOP_COUNT] = {.head = "Made", .kind = COLUMN_AMOUNT},
    [HOUR_SHOP_EACH] = {.head = "Each, h", .kind = COLUMN_AMOUNT},
    [HOUR_SHOP] = {.head = "Shop, h", .kind = COLUMN_AMOUNT},
    [HOUR_FIELD_COUNT] = {.head = "Hung", .kind = COLUMN_AMOUNT},
    [HOUR_FIELD_EACH] = {.head = "Each, h", .kind = COLUMN_AMOUNT},
    [HOUR_ACCESS] = {.head = "Access", .kind = COLUMN_AMOUNT},
    [HOUR_FIELD] = {.head = "Field, h", .kind = COLUMN_AMOUNT},
};

/* "12 parts", "57.3 ft". */
static const char *count_words(struct arena *arena, const struct labour_line *line, enum labour_kind kind) {
    const char *per = line->per[kind], *figure = quantity_figure(arena, line->amount[kind]);
    bool one = line->amount[kind] == QUANTITY_PARTS;
    static const char *const counted[] = {"piece", "part", "joint", "insert"};
    for (size_t i = 0; i < sizeof counted / sizeof counted[0]; i++)
        if (strcmp(per, counted[i]) == 0)
            return arena_format(arena, "%s %s%s", figure, per, one ? "" : "s");
    return arena_format(arena, "%s %s", figure,
                        strcmp(per, "foot") == 0    ? "ft"
                        : strcmp(per, "metre") == 0 ? "m"
                                                    : per);
}

static void kind_cells(struct arena *arena, union cell *cells, const struct labour_line *line, enum labour_kind kind) {
    static const struct {
        int count, each, hours;
    } at[] = {[LABOUR_SHOP] = {HOUR_SHOP_COUNT, HOUR_SHOP_EACH, HOUR_SHOP},
              [LABOUR_FIELD] = {HOUR_FIELD_COUNT, HOUR_FIELD_EACH, HOUR_FIELD}};
    if (!line->per[kind])
        return;
    cells[at[kind].count].text = count_words(arena, line, kind);
    cells[at[kind].each].text = arena_format(arena, "%.4g", line->each[kind]);
    cells[at[kind].hours].text = hours_figure(arena, line->hours[kind]);
}

void office_labour(const struct job *job, struct document *document) {
    const struct price *price = job->price;
    document_paragraph(
        document,
        "Hours are what is counted, times what the shop says one takes; field hours times access besides. Each line is "
        "kept to a hundredth of an hour.");
    struct table *table = document_table(document, hour_columns, HOUR_COLUMNS);
    for (size_t i = 0; i < price->labour.count; i++) {
        const struct labour_line *line = &price->labour.at[i];
        union cell *cells = document_row(document, &table);
        cells[HOUR_WORK].text = line->count.title;
        cells[HOUR_PLACE].text =
            arena_format(document->arena, "%s%s", location_name(line->count.place), line->count.high ? ", high" : "");
        for (enum labour_kind kind = 0; kind < LABOUR_KIND_COUNT; kind++)
            kind_cells(document->arena, cells, line, kind);
        if (line->access != SHARE_WHOLE && line->per[LABOUR_FIELD])
            cells[HOUR_ACCESS].text = share_text(document->arena, line->access);
    }
    union cell *cells = document_row(document, &table);
    cells[HOUR_WORK].text = "Sum";
    cells[HOUR_SHOP].text = hours_figure(document->arena, price->sums.hours[LABOUR_SHOP]);
    cells[HOUR_FIELD].text = hours_figure(document->arena, price->sums.hours[LABOUR_FIELD]);
}
