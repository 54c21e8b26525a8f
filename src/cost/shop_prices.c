/* The shop's `price` statements by their items. */
#include "cost/shop_prices.h"

#include <string.h>

#include "model/entries.h"

struct shop_prices shop_prices_of(const struct job *job, struct arena *arena) {
    struct shop_prices prices = {.arena = arena, .entries = {.arena = arena}};
    struct shop_entry *entry;
    for (size_t i = 0; (entry = shop_says(&job->shop, SAYS_PRICE, &i));)
        names_add(&prices.entries, entry->reading.argument[PRICE_ITEM].text)->thing = entry;
    for (size_t i = 0; (entry = shop_says(&job->shop, SAYS_WASTE, &i));)
        prices.waste = entry->reading.argument[0].number;
    return prices;
}

/* A key that does not begin with the item's is a title, which means itself alone. */
const struct shop_entry *shop_price_for(const struct shop_prices *prices, const struct bill_line *line) {
    const char *key = line->key ? line->key : line->item->key;
    bool words = strncmp(key, line->item->key, strlen(line->item->key)) == 0;
    while (key) {
        const struct name *name = names_find(&prices->entries, key);
        if (name)
            return name->thing;
        const char *blank = words ? strrchr(key, ' ') : NULL;
        key = blank ? arena_copy(prices->arena, key, (size_t)(blank - key)) : NULL;
    }
    const struct name *name = names_find(&prices->entries, line->item->key);
    return name ? name->thing : NULL;
}

double shop_package(const struct shop_prices *prices, const struct bill_line *line) {
    const struct shop_entry *entry = shop_price_for(prices, line);
    if (!entry)
        return 0;
    const struct argument *of = &entry->reading.argument[PRICE_OF];
    const struct sale_unit *unit = sale_unit_find(entry->reading.argument[PRICE_PER].text);
    enum bill_measure measure;
    bool fits = unit && unit->package && of->given && sale_measure_of((enum measure_kind)of->choice, &measure) &&
                measure == line->item->measure;
    return fits && of->number > 0 ? of->number : 0;
}
