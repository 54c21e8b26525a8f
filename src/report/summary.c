/* The outcome of a job in a line or two a unit, and its price. */
#include "report/report.h"

#include "cost/offer.h"
#include "cost/price.h"

static const char *unit_summary(const struct job *job, const struct network *network) {
    struct arena *arena = job->arena;
    const struct air_unit *unit = network->unit;
    char *line = arena_format(arena, "%s: %zu outlet%s, %s", unit->name, network->supply_paths.count,
                              network->supply_paths.count == 1 ? "" : "s",
                              measure_text(arena, job->system, SHOW_FLOW, network->supply_flow));
    if (!network->blower_known || !network->governing_supply)
        return arena_format(arena, "%s\n", line);
    const char *more = network->surplus < 0 ? "short by" : "left over:";
    double amount = network->surplus < 0 ? -network->surplus : network->surplus;
    bool chosen = unit->speed && unit->speed->name;
    return arena_format(arena, "%s; blower%s%s%s %s, governed by the path to %s, %s %s\n", line, chosen ? " at \"" : "",
                        chosen ? unit->speed->name : "", chosen ? "\"" : "",
                        measure_text(arena, job->system, SHOW_PRESSURE, network->blower_pressure),
                        network->governing_supply->end->terminal->name, more,
                        measure_text(arena, job->system, SHOW_PRESSURE, amount));
}

/* More units than this are summed up, not listed. */
enum { UNITS_LISTED = 20 };

/* "price: $8,960.00; A adds $340.00; B deducts $740.00", or "" when the job is not priced. */
static const char *price_summary(const struct job *job) {
    struct arena *arena = job->arena;
    if (!job->price || !job->price->complete)
        return "";
    const struct currency *currency = &job->price->currency;
    const char *line = arena_format(arena, "price: %s", money_text(arena, currency, job->price->build_up.total));
    for (size_t i = 0; i < job->alternates.count && i < UNITS_LISTED; i++) {
        const struct offer *offer = job->alternates.at[i]->offer;
        if (!offer || !offer->priced)
            continue;
        money by = offer->difference < 0 ? -offer->difference : offer->difference;
        line = arena_format(arena, "%s; %s %s %s", line, job->alternates.at[i]->name,
                            offer->difference < 0 ? "deducts" : "adds", money_text(arena, currency, by));
    }
    return arena_format(arena, "%s\n", line);
}

const char *report_summary(const struct job *job) {
    const char *all = "";
    size_t count = 0;
    for (size_t i = 0; i < job->units.count; i++) {
        const struct network *network = job->units.at[i]->network;
        if (network && count++ < UNITS_LISTED)
            all = arena_format(job->arena, "%s%s", all, unit_summary(job, network));
    }
    size_t more = count > UNITS_LISTED ? count - UNITS_LISTED : 0;
    if (more)
        all = arena_format(job->arena, "%s... and %zu more unit%s\n", all, more, more == 1 ? "" : "s");
    return arena_format(job->arena, "%s%s", all, price_summary(job));
}
