/* Money, exact: whole numbers of the smallest coin, never a double. */
#ifndef CLEAT_BASE_MONEY_H
#define CLEAT_BASE_MONEY_H

#include <stdbool.h>
#include <stdint.h>

/* An amount, in hundredths of the currency (cents). */
typedef int64_t money;

/* What one unit of a thing costs, in ten-thousandths of the currency, since wire and screws are priced finer than a cent:
 * 41.50 a sheet is 415000. */
typedef int64_t unit_price;
enum { PRICE_PARTS = 10000 };

/* The price that `number`, read from a job, stands for.  False: it has more than four decimals, is negative or not finite, or is
 * over ten thousand million; *price is then untouched. */
bool price_from(double number, unit_price *price);

#endif
