/* Money, exact: whole numbers of the smallest coin, never a double.
 *
 * Every amount is rounded once, half up, to the cent, and is at most MONEY_MOST: what would be more is MONEY_MOST, and
 * stays so in every sum it enters, so that nothing overflows and who adds up sees at the end that it was too much. */
#ifndef CLEAT_BASE_MONEY_H
#define CLEAT_BASE_MONEY_H

#include <stdbool.h>
#include <stdint.h>

#include "base/arena.h"

/* An amount, in hundredths of the currency (cents). */
typedef int64_t money;

/* Ten million million of the currency. */
#define MONEY_MOST INT64_C(1000000000000000)

/* What one unit of a thing costs, in ten-thousandths of the currency, since wire and screws are priced finer than a
 * cent: 41.50 a sheet is 415000. */
typedef int64_t unit_price;
enum { PRICE_PARTS = 10000 };

/* How much of a thing there is, or for how long somebody works, as it is printed: in thousandths. */
typedef int64_t thousandths;
enum { QUANTITY_PARTS = 1000 };

/* A percentage, in millionths of the whole, so that 8.875 % is exact: 88750. */
typedef int64_t percentage;
enum { SHARE_WHOLE = 1000000 };

/* The price that `number`, read from a job, stands for.  False: it has more than four decimals, is negative or not
 * finite, or is over ten thousand million; *price is then untouched. */
bool price_from(double number, unit_price *price);

/* Likewise an amount, of two decimals; and a share, of six: 0.08875. */
bool money_from(double number, money *amount);
bool share_from(double number, percentage *part);

/* `number` in thousandths, to the nearest `step` thousandths or up to the next one; never negative, at most MONEY_MOST.
 * What lies within a millionth over a step is on it: it is there by rounding alone. */
thousandths quantity_nearest(double number, thousandths step);
thousandths quantity_up(double number, thousandths step);

/* So many, each taking `each` millionths, and that by `factor`, to the nearest `step` thousandths, half up. */
thousandths quantity_times(thousandths amount, int64_t each, percentage factor, thousandths step);

money money_add(money one, money other);
money money_times(unit_price price, thousandths amount);

/* So much of `base`; what is `base` when so much of the sum is to be kept: base / (1 - part), part < SHARE_WHOLE. */
money money_share(money base, percentage part);
money money_gross(money base, percentage part);

/* What share of `whole` is `part`, to the nearest hundredth of a percent; 0 of nothing. */
percentage money_part(money part, money whole);

/* To the nearest multiple of `step` cents, half up, or `up` to the next one; of amounts that are not negative.  `step`
 * 0: as it is. */
money money_round(money amount, money step, bool up);

/* How amounts are printed. */
struct currency {
    const char *mark; /* "$", "EUR"; "": none */
};

/* "$1,234.50", "-$12.00"; a mark that ends in a letter stands apart: "EUR 1,234.50". */
const char *money_text(struct arena *arena, const struct currency *currency, money amount);

/* "1,234.50", without a mark, for tables and data; `commas` between thousands. */
const char *money_figure(struct arena *arena, money amount, bool commas);

/* "41.50", "0.0125": two decimals at least, four at most. */
const char *price_figure(struct arena *arena, unit_price price);

/* "12", "57.3", "0.375". */
const char *quantity_figure(struct arena *arena, thousandths amount);

/* "14.70": to the hundredth. */
const char *hours_figure(struct arena *arena, thousandths hours);

/* "6.25 %", "12 %". */
const char *share_text(struct arena *arena, percentage part);

#endif
