/* The sheets and coils that a shop has, as its `stock` entries say. */
#ifndef CLEAT_METAL_STOCK_H
#define CLEAT_METAL_STOCK_H

#include "base/money.h"
#include "model/job.h"

struct stock_sheet {
    double sides[2]; /* m, as declared; a blank may lie on it either way round */
    enum material material;
    int gauge;   /* 0: the shop did not say */
    bool priced; /* the shop says what one costs */
    unit_price price;
    struct span at; /* the entry */
};

struct stock {
    LIST(struct stock_sheet) sheets; /* in the order of the shop */
    bool assumed; /* the shop lists none: one sheet of 48 x 120 in, common practice, no source (SOURCE_STOCK_SHEET) */
};

/* The sheets of `material` that are of `gauge`, and those whose gauge nobody said.  When there are none, the sizes of
 * all of the shop's sheets of it, else of all of its sheets; when it lists none at all, the assumed one.  `gauge` 0:
 * all.  Memory from `arena`. */
struct stock metal_stock(struct arena *arena, const struct shop *shop, enum material material, int gauge);

/* The lightest gauge of `material` that the shop stocks among those that `allows`, which is given `of`; 0: none. */
int stock_gauge(const struct shop *shop, enum material material, bool (*allows)(int gauge, const void *of),
                const void *of);

/* A blank of `length` x `width` m fits a sheet one way round or the other, to a hundredth of a millimetre. */
bool stock_fits(const struct stock_sheet *sheet, double length, double width);

/* The smallest sheet (the first of equals) that takes the blank; NULL: none does.  Lives as long as `stock`. */
const struct stock_sheet *stock_for(const struct stock *stock, double length, double width);

#endif
