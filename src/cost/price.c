/* The pass that prices: the take-off at the shop's prices, hours at its rates, and the build-up. */
#include "cost/price.h"

#include <stdarg.h>
#include <string.h>

struct diagnostic *price_error(struct price *price, struct job *job, const char *check, struct span at,
                               const char *format, ...) {
    va_list list;
    va_start(list, format);
    const char *message = arena_format_list(job->arena, format, list);
    va_end(list);
    price->complete = false;
    return diagnose(job->diagnostics, DIAGNOSTIC_ERROR, check, at, "%s", message);
}

void price_hint(const struct job *job, struct diagnostic *error, const char *example) {
    const char *per = strstr(example, " per "), *amount = per;
    while (amount && amount > example && amount[-1] != ' ')
        amount--;
    if (amount)
        diagnostic_hint(job->diagnostics, error, "%.*s...%s", (int)(amount - example), example, per);
}

void cost_price(struct job *job) {
    if (!job->takeoff || !cost_is_priced(job))
        return;
    struct price *price = ARENA_NEW(job->arena, struct price);
    job->price = price;
    price->complete = true;
    price->currency = cost_currency(job);
    price_read_terms(price, job);
    price_material(price, job);
    price_labour(price, job);
    build_up_work(&price->build_up, &price->terms, &price->sums, job->arena);
    if (price->build_up.too_great)
        price_error(price, job, "price", job->at, "the price is too great to be counted to the cent");
}
