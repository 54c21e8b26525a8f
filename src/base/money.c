/* Exact money. */
#include "base/money.h"

#include <math.h>
#include <string.h>

/* Wide enough for the product of any two amounts. */
__extension__ typedef __int128 wide;

/* What a double can tell apart in ten-thousandths, with room to spare. */
static const double price_limit = 1e10;

/* `number` in whole parts; false: it has finer ones, is negative or too great.  A decimal number read from a text is
 * off by the rounding of a double alone. */
static bool whole_parts(double number, double parts_of_one, int64_t *parts) {
    if (!(number >= 0 && number <= price_limit))
        return false;
    double nearest = round(number * parts_of_one);
    if (fabs(nearest / parts_of_one - number) > 1e-15 * (1 + number))
        return false;
    *parts = (int64_t)nearest;
    return true;
}

bool price_from(double number, unit_price *price) {
    return whole_parts(number, PRICE_PARTS, price);
}

bool money_from(double number, money *amount) {
    return whole_parts(number, 100, amount);
}

bool share_from(double number, percentage *part) {
    return whole_parts(number, SHARE_WHOLE, part);
}

static int64_t within(wide amount) {
    return amount > MONEY_MOST ? MONEY_MOST : amount < -MONEY_MOST ? -MONEY_MOST : (int64_t)amount;
}

/* One over the other, to the nearest whole number, half up; `divisor` > 0. */
static int64_t divided(wide dividend, wide divisor) {
    wide twice = 2 * dividend + divisor, whole = twice / (2 * divisor);
    return within(whole - (twice % (2 * divisor) < 0));
}

static thousandths stepped(double number, thousandths step, double (*to_whole)(double)) {
    double steps = to_whole(number * QUANTITY_PARTS / (double)step);
    if (!(steps > 0))
        return 0;
    double most = (double)(MONEY_MOST / step);
    return (thousandths)(steps < most ? steps : most) * step;
}

static double up(double steps) {
    return ceil(steps - 1e-6);
}

thousandths quantity_nearest(double number, thousandths step) {
    return stepped(number, step, round);
}

thousandths quantity_up(double number, thousandths step) {
    return stepped(number, step, up);
}

thousandths quantity_times(thousandths amount, int64_t each, percentage factor, thousandths step) {
    /* Hours are at most 10,000 and factors at most 10, so the product of the last two stays within 128 bits with any
     * amount. */
    return within((wide)divided((wide)amount * each * factor, (wide)SHARE_WHOLE * SHARE_WHOLE * step) * step);
}

money money_add(money one, money other) {
    return within((wide)one + other);
}

money money_times(unit_price price, thousandths amount) {
    return divided((wide)price * amount, PRICE_PARTS / 100 * QUANTITY_PARTS);
}

money money_share(money base, percentage part) {
    return divided((wide)base * part, SHARE_WHOLE);
}

money money_gross(money base, percentage part) {
    return divided((wide)base * SHARE_WHOLE, SHARE_WHOLE - part);
}

percentage money_part(money part, money whole) {
    const percentage step = SHARE_WHOLE / 10000;
    return whole > 0 ? divided((wide)part * (SHARE_WHOLE / step), whole) * step : 0;
}

money money_round(money amount, money step, bool upward) {
    if (step <= 0)
        return amount;
    wide steps = ((wide)amount + (upward ? step - 1 : step / 2)) / step;
    return within(steps * step);
}

/* ---- In words ---------------------------------------------------------------------------------------------------- */

/* "1,234,567". */
static const char *grouped(struct arena *arena, int64_t whole) {
    const char *text = arena_format(arena, "%lld", (long long)(whole % 1000));
    for (int64_t left = whole / 1000, group = whole % 1000; left; group = left % 1000, left /= 1000) {
        /* the digits so far were of a number without leading zeros */
        int missing = group < 10 ? 2 : group < 100 ? 1 : 0;
        text = arena_format(arena, "%lld,%.*s%s", (long long)(left % 1000), missing, "00", text);
    }
    return text;
}

const char *money_figure(struct arena *arena, money amount, bool commas) {
    int64_t cents = amount < 0 ? -amount : amount;
    const char *whole = commas ? grouped(arena, cents / 100) : arena_format(arena, "%lld", (long long)(cents / 100));
    return arena_format(arena, "%s%s.%02lld", amount < 0 ? "-" : "", whole, (long long)(cents % 100));
}

static bool is_letter(char c) {
    return (c >= 'A' && c <= 'Z') || (c >= 'a' && c <= 'z') || c == '.';
}

const char *money_text(struct arena *arena, const struct currency *currency, money amount) {
    const char *mark = currency->mark ? currency->mark : "";
    size_t length = strlen(mark);
    return arena_format(arena, "%s%s%s%s", amount < 0 ? "-" : "", mark,
                        length && is_letter(mark[length - 1]) ? " " : "",
                        money_figure(arena, amount < 0 ? -amount : amount, true));
}

/* The decimals of a whole number of parts, the zeros behind the first `least` left out. */
static const char *decimals(struct arena *arena, int64_t parts, int64_t of_one, int count, int least) {
    while (count > least && parts % 10 == 0) {
        parts /= 10;
        of_one /= 10;
        count--;
    }
    if (!count)
        return arena_format(arena, "%lld", (long long)parts);
    return arena_format(arena, "%lld.%0*lld", (long long)(parts / of_one), count, (long long)(parts % of_one));
}

const char *price_figure(struct arena *arena, unit_price price) {
    return decimals(arena, price, PRICE_PARTS, 4, 2);
}

const char *quantity_figure(struct arena *arena, thousandths amount) {
    return decimals(arena, amount, QUANTITY_PARTS, 3, 0);
}

const char *hours_figure(struct arena *arena, thousandths hours) {
    return decimals(arena, hours, QUANTITY_PARTS, 3, 2);
}

const char *share_text(struct arena *arena, percentage part) {
    return arena_format(arena, "%s %%", decimals(arena, part, SHARE_WHOLE / 100, 4, 0));
}
