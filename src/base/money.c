/* Exact money. */
#include "base/money.h"

#include <math.h>

/* What a double can tell apart in ten-thousandths, with room to spare. */
static const double price_limit = 1e10;

bool price_from(double number, unit_price *price) {
    if (!(number >= 0 && number <= price_limit))
        return false;
    double parts = round(number * PRICE_PARTS);
    /* A number with four decimals is off by rounding alone. */
    if (fabs(parts / PRICE_PARTS - number) > 1e-15 * (1 + number))
        return false;
    *price = (unit_price)parts;
    return true;
}
