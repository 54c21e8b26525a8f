/* Square metres of wall in money, by the shop's stock and prices, or in weight. */
#include "metal/worth.h"

#include <math.h>
#include <string.h>

#include "base/constant.h"
#include "metal/gauge.h"
#include "metal/metal.h"
#include "metal/stock.h"
#include "model/built_for.h"
#include "model/entries.h"

/* ---- Sheet ------------------------------------------------------------------------------------------------------- */

static int gauge_of(const struct job *job, const struct run *run, struct duct_size size) {
    int gauge = metal_choose(&job->shop, &run->settings, size, run_built_for(run)).gauge;
    return metal_gauge(gauge) ? gauge : 0;
}

/* Money for a kilogram in the cheapest priced sheet of that material and gauge; 0: none is priced. */
static double price_of_weight(struct arena *arena, const struct shop *shop, enum material material, int gauge) {
    const struct stock stock = metal_stock(arena, shop, material, gauge);
    double least = 0;
    for (size_t i = 0; i < stock.sheets.count; i++) {
        const struct stock_sheet *sheet = &stock.sheets.at[i];
        double area = sheet->sides[0] * sheet->sides[1];
        if (!sheet->priced || sheet->material != material || sheet->gauge != gauge || !(area > 0))
            continue;
        double price = (double)sheet->price / PRICE_PARTS / (area * metal_weight(gauge, material));
        if (!(least > 0) || price < least)
            least = price;
    }
    return least;
}

/* A gauge that the shop does not price costs, by weight, what the nearest one does that it prices; of two equally near,
 * the lighter. */
static double nearest_price(const double *by_weight, int gauge) {
    for (int away = 0; away <= GAUGE_LIGHTEST - GAUGE_HEAVIEST; away++) {
        if (gauge + away <= GAUGE_LIGHTEST && by_weight[gauge + away] > 0)
            return by_weight[gauge + away];
        if (gauge - away >= GAUGE_HEAVIEST && by_weight[gauge - away] > 0)
            return by_weight[gauge - away];
    }
    return 0;
}

/* Prices by weight of each material and gauge. */
struct sheet_prices {
    double of[MATERIAL_COUNT][GAUGE_LIGHTEST + 1];
    bool some[MATERIAL_COUNT]; /* the shop prices some sheet of it */
};

static struct sheet_prices read_prices(struct job *job) {
    struct sheet_prices prices = {0};
    for (enum material of = 0; of < MATERIAL_COUNT; of++)
        for (int gauge = GAUGE_HEAVIEST; gauge <= GAUGE_LIGHTEST; gauge++) {
            if (!(metal_weight(gauge, of) > 0)) /* no sheet metal */
                continue;
            prices.of[of][gauge] = price_of_weight(job->scratch, &job->shop, of, gauge);
            prices.some[of] |= prices.of[of][gauge] > 0;
        }
    arena_clear(job->scratch);
    return prices;
}

/* A sheet whose material the shop prices nowhere costs what a kilogram of another does that it prices. */
static enum material priced_like(const struct sheet_prices *prices, enum material material) {
    for (enum material of = 0; of < MATERIAL_COUNT && !prices->some[material]; of++)
        if (prices->some[of])
            return of;
    return material;
}

static void value_sheet(struct job *job, struct wall_worth *worth) {
    const struct sheet_prices prices = read_prices(job);
    for (enum material of = 0; of < MATERIAL_COUNT; of++)
        worth->priced |= prices.some[of];
    for (enum material of = 0; of < MATERIAL_COUNT; of++)
        for (int gauge = GAUGE_HEAVIEST; gauge <= GAUGE_LIGHTEST; gauge++) {
            double price = worth->priced ? nearest_price(prices.of[priced_like(&prices, of)], gauge) : 1;
            worth->gauge[of][gauge] = metal_weight(gauge, of) * price;
        }
    worth->light = worth->gauge[MATERIAL_GALVANISED][GAUGE_LIGHTEST];
}

/* ---- What covers it ---------------------------------------------------------------------------------------------- */

/* m2 that a price is for; 0: it is for something else. */
static double area_of(const char *per) {
    static const struct {
        const char *word;
        double area;
    } areas[] = {{"ft2", FOOT * FOOT}, {"sqft", FOOT * FOOT}, {"m2", 1}};
    for (size_t i = 0; i < sizeof areas / sizeof areas[0]; i++)
        if (strcmp(areas[i].word, per) == 0)
            return areas[i].area;
    return 0;
}

/* Money for a m2 of `thing`, by the first price that names it, alone or with its kind behind it ("duct_wrap R-8"); 0:
 * none. */
static double price_of_area(const struct shop *shop, const char *thing) {
    size_t length = strlen(thing);
    const struct shop_entry *entry;
    for (size_t i = 0; (entry = shop_says(shop, SAYS_PRICE, &i));) {
        const struct argument *argument = entry->reading.argument;
        const char *item = argument[PRICE_ITEM].text;
        if (strncmp(item, thing, length) != 0 || (item[length] && item[length] != ' '))
            continue;
        double area = area_of(argument[PRICE_PER].text);
        if (area > 0)
            return argument[PRICE_AMOUNT].number / area;
    }
    return 0;
}

void metal_worth(struct job *job) {
    struct wall_worth *worth = ARENA_NEW(job->arena, struct wall_worth);
    worth->gauge_of = gauge_of;
    value_sheet(job, worth);
    if (worth->priced) {
        worth->wrap = price_of_area(&job->shop, "duct_wrap");
        worth->lining = price_of_area(&job->shop, "duct_liner");
        worth->wrap_priced = worth->wrap > 0;
        worth->lining_priced = worth->lining > 0;
    }
    job->worth = worth;
}
