/* The slots of what a shop says about money and time, by name: for the table of statements and for who prices. */
#ifndef CLEAT_MODEL_ENTRIES_H
#define CLEAT_MODEL_ENTRIES_H

#include <stddef.h>

/* Statements that are kept as they are read, by what they say. */
enum says {
    SAYS_NOTHING, /* to a later pass */
    SAYS_STOCK,
    SAYS_PRICE,
    SAYS_HOURS,
    SAYS_ACCESS,
    SAYS_RATE,
    SAYS_BURDEN,
    SAYS_WASTE,
    SAYS_TAX,
    SAYS_FIXED,
    SAYS_SUBCONTRACT,
    SAYS_OVERHEAD,
    SAYS_CONTINGENCY,
    SAYS_MARKUP,
    SAYS_MARGIN,
    SAYS_BOND,
    SAYS_ROUND
};

struct shop;
struct shop_entry;

/* The next statement that says it and that no later one overrides, from the `*at`th on, which is moved behind it; NULL:
 * there is none. */
struct shop_entry *shop_says(const struct shop *shop, enum says says, size_t *at);

enum { STOCK_SIZE, STOCK_GAUGE, STOCK_PRICE, STOCK_PER, STOCK_MATERIAL };
enum { PRICE_ITEM, PRICE_AMOUNT, PRICE_PER, PRICE_OF };
enum { HOURS_ITEM, HOURS_SHOP, HOURS_FIELD, HOURS_PER };
enum { RATE_OF, RATE_AMOUNT, RATE_PER };
enum { ACCESS_PLACE, ACCESS_FACTOR, ACCESS_ABOVE };
enum { TAX_RATE, TAX_ON };
enum { ROUND_TO, ROUND_UP };
enum { FIXED_TITLE, FIXED_AMOUNT, FIXED_TAXED };
enum { SUBCONTRACT_TITLE, SUBCONTRACT_AMOUNT, SUBCONTRACT_MARKUP };

/* What a tax is on, in the order of tax_choices. */
enum tax_base { TAX_MATERIAL, TAX_LABOUR, TAX_PRICE, TAX_BASE_COUNT };

extern const char *const tax_choices[];

/* Kinds of labour, in the order of labour_choices. */
enum labour_kind { LABOUR_SHOP, LABOUR_FIELD, LABOUR_KIND_COUNT };

extern const char *const labour_choices[];

#endif
