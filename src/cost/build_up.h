/* From cost to price, step by step: each line with what it is worked on, its rate and its amount.
 *
 * The order, as docs/language.md states it: material, with its waste in the quantities; sales tax on material; labour
 * by kind; sales tax on labour; burden; fixed lines and subcontracts: direct cost.  Overhead on direct cost;
 * contingency on both: cost. Profit as a markup, cost x (1 + p), or as a margin, cost / (1 - p).  Subcontracts with a
 * markup of their own.  A bond as a share of the price.  Rounding.  Sales tax on the price.  Each line is rounded to
 * the cent, half up. */
#ifndef CLEAT_COST_BUILD_UP_H
#define CLEAT_COST_BUILD_UP_H

#include "base/list.h"
#include "base/money.h"
#include "model/entries.h"

/* How profit is reckoned. */
enum profit { PROFIT_NONE, PROFIT_MARKUP, PROFIT_MARGIN };

/* A cost of a fixed amount, or what a subcontractor asks. */
struct extra {
    const char *title;
    money amount;
    bool taxed; /* sales tax on material is due on it */
    bool subcontract;
    bool apart;        /* a subcontract with a markup of its own: it bears no overhead, contingency or profit */
    percentage markup; /* of a subcontract apart */
};

/* What is particular to a kind of labour. */
extern const struct labour_row {
    const char *title;   /* "Shop labour" */
    int hours;           /* the slot of `hours` for it: HOURS_SHOP */
    const char *example; /* "rate shop 38 per hour" */
    bool by_access;      /* it takes longer where it is hard to get at */
} labour_rows[LABOUR_KIND_COUNT];

/* The percentages and rates that shop and job state; 0: not stated. */
struct terms {
    bool waste; /* some is stated: it is in the quantities */
    percentage burden, overhead, contingency, bond;
    percentage tax[TAX_BASE_COUNT];
    enum profit profit;
    percentage profit_share;
    bool rated[LABOUR_KIND_COUNT];      /* the next is stated */
    unit_price rate[LABOUR_KIND_COUNT]; /* for an hour */
    money round_to;
    bool round_up;
    LIST(struct extra) extras;
};

/* What is counted. */
struct sums {
    money material; /* all that is bought, its loss and waste among it */
    thousandths hours[LABOUR_KIND_COUNT];
};

enum step_kind {
    STEP_MATERIAL,
    STEP_TAX_MATERIAL,
    STEP_LABOUR,
    STEP_TAX_LABOUR,
    STEP_BURDEN,
    STEP_FIXED,
    STEP_SUBCONTRACT,
    STEP_DIRECT, /* a subtotal, like all that step_is_subtotal says yes to */
    STEP_OVERHEAD,
    STEP_CONTINGENCY,
    STEP_COST,
    STEP_PROFIT,
    STEP_SUBCONTRACT_APART,
    STEP_SUBCONTRACT_MARKUP,
    STEP_BOND,
    STEP_BEFORE_ROUNDING,
    STEP_ROUNDING,
    STEP_PRICE,
    STEP_TAX_PRICE,
    STEP_TOTAL
};

/* One line. */
struct step {
    enum step_kind kind;
    const char *title; /* "Overhead" */
    const char *on;    /* what it is worked on: "direct cost"; NULL: nothing */
    money base;        /* that; only with `on` */
    bool has_rate;
    percentage rate;
    thousandths hours; /* STEP_LABOUR, at `price` each; else 0 */
    unit_price price;
    money amount; /* a subtotal: the sum of all lines above it that are none */
};

struct build_up {
    LIST(struct step) steps;
    money material;
    money tax;    /* on material and labour */
    money labour; /* by its rates */
    money direct, cost;
    money profit; /* in money, markups of subcontracts included */
    money apart;  /* subcontracts with a markup of their own, without it */
    money bond;
    money unrounded; /* the price before rounding and a tax on it */
    money price;     /* rounded, before a tax on the price */
    money rounding;  /* what rounding adds, or less than 0: takes off */
    money tax_on_price;
    money total;    /* what the customer pays */
    money spent;    /* cost, subcontracts apart and bond: all that is not kept of the price */
    money kept;     /* price less that: profit, and what rounding gives or takes */
    bool too_great; /* some amount reached MONEY_MOST */
};

bool step_is_subtotal(enum step_kind kind);

/* Works it out.  Steps that change nothing because nobody states them are left out.  Memory from `arena`. */
void build_up_work(struct build_up *build_up, const struct terms *terms, const struct sums *sums, struct arena *arena);

/* What is kept, as a share of the price before tax on it; and as a share of what is spent.  0 where it is less. */
percentage build_up_margin(const struct build_up *build_up);
percentage build_up_markup(const struct build_up *build_up);

#endif
