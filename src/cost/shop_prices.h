/* What the shop asks for things, by their words: read once, for who counts and for who prices. */
#ifndef CLEAT_COST_SHOP_PRICES_H
#define CLEAT_COST_SHOP_PRICES_H

#include "cost/unit.h"
#include "model/names.h"

struct shop_prices {
    struct arena *arena;
    struct names entries; /* item: its struct shop_entry */
    double waste;         /* added to what is measured and holds no loss yet, as a share; 0: none is stated */
};

/* What the shop of that job says.  Memory from `arena`. */
struct shop_prices shop_prices_of(const struct job *job, struct arena *arena);

/* The statement of the most particular word for a line: "duct_wrap R-8 foil", then "duct_wrap R-8", then "duct_wrap";
 * NULL: none. */
const struct shop_entry *shop_price_for(const struct shop_prices *prices, const struct bill_line *line);

/* How much of the line's measure one package holds, SI; 0: it is not sold by the package, or not of that measure. */
double shop_package(const struct shop_prices *prices, const struct bill_line *line);

#endif
