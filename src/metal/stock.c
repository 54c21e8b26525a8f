/* Sheets out of the shop's `stock` entries, and which of them takes a blank. */
#include "metal/stock.h"

#include <math.h>

#include "base/constant.h"
#include "model/entries.h"
#include "model/words.h"

/* Common practice, no source (SOURCE_STOCK_SHEET). */
static const struct stock_sheet assumed_sheet = {.sides = {48 * INCH, 120 * INCH}};

/* The sheet of an entry; false: it has no size. */
static bool sheet_of(const struct shop_entry *entry, struct stock_sheet *sheet) {
    const struct argument *argument = entry->reading.argument;
    if (argument[STOCK_SIZE].count < 2)
        return false;
    *sheet = (struct stock_sheet){.sides = {argument[STOCK_SIZE].point[0], argument[STOCK_SIZE].point[1]}};
    if (argument[STOCK_GAUGE].given)
        sheet->gauge = (int)lround(fmin(argument[STOCK_GAUGE].number, 1000)); /* no gauge comes near */
    if (argument[STOCK_MATERIAL].given)
        sheet->material = material_of_choice(argument[STOCK_MATERIAL].choice);
    sheet->at = argument[STOCK_SIZE].at;
    sheet->priced = argument[STOCK_PRICE].given && price_from(argument[STOCK_PRICE].number, &sheet->price);
    return true;
}

/* What a sheet must be. */
struct sheet_like {
    bool any; /* of any material */
    enum material material;
    int gauge; /* 0: of any */
};

static bool is_like(const struct stock_sheet *sheet, struct sheet_like like) {
    return (like.any || sheet->material == like.material) &&
           (!like.gauge || !sheet->gauge || sheet->gauge == like.gauge);
}

/* Unless the stock has some already. */
static void take_sheets(struct arena *arena, const struct shop *shop, struct sheet_like like, struct stock *stock) {
    if (stock->sheets.count)
        return;
    const struct shop_entry *entry;
    for (size_t i = 0; (entry = shop_says(shop, SAYS_STOCK, &i));) {
        struct stock_sheet sheet;
        if (sheet_of(entry, &sheet) && is_like(&sheet, like))
            *list_add(arena, &stock->sheets) = sheet;
    }
}

struct stock metal_stock(struct arena *arena, const struct shop *shop, enum material material, int gauge) {
    struct stock stock = {0};
    take_sheets(arena, shop, (struct sheet_like){.material = material, .gauge = gauge}, &stock);
    take_sheets(arena, shop, (struct sheet_like){.material = material}, &stock);
    take_sheets(arena, shop, (struct sheet_like){.any = true}, &stock);
    if (!stock.sheets.count) {
        *list_add(arena, &stock.sheets) = assumed_sheet;
        stock.sheets.at[0].material = material;
        stock.assumed = true;
    }
    return stock;
}

int stock_gauge(const struct shop *shop, enum material material, bool (*allows)(int gauge, const void *of),
                const void *of) {
    int lightest = 0;
    const struct shop_entry *entry;
    for (size_t i = 0; (entry = shop_says(shop, SAYS_STOCK, &i));) {
        struct stock_sheet sheet;
        if (sheet_of(entry, &sheet) && sheet.material == material && sheet.gauge > lightest && allows(sheet.gauge, of))
            lightest = sheet.gauge;
    }
    return lightest;
}

bool stock_fits(const struct stock_sheet *sheet, double length, double width) {
    double most = fmax(sheet->sides[0], sheet->sides[1]), least = fmin(sheet->sides[0], sheet->sides[1]);
    return fmax(length, width) <= most + SAME_SIZE && fmin(length, width) <= least + SAME_SIZE;
}

const struct stock_sheet *stock_for(const struct stock *stock, double length, double width) {
    const struct stock_sheet *best = NULL;
    for (size_t i = 0; i < stock->sheets.count; i++) {
        const struct stock_sheet *sheet = &stock->sheets.at[i];
        if (stock_fits(sheet, length, width) &&
            (!best || sheet->sides[0] * sheet->sides[1] < best->sides[0] * best->sides[1]))
            best = sheet;
    }
    return best;
}
