/* Ways out that were found: the cheapest are kept, in words. */
#include "check/budget_offer.h"

#include <math.h>
#include <string.h>

#include "cost/price.h"

/* Whether there is still time for another trial. */
bool ways_may_try(struct ways *ways) {
    size_t items = 10 * ways->network->sections.count;
    if (items > ways->items_left)
        return false;
    ways->items_left -= items;
    return true;
}

/* ---- Keeping the cheapest ---------------------------------------------------------------------------------------- */

/* Ranked by money where the shop prices sheet, else by sheet. */
static bool goes_before(const struct ways *ways, const struct way *one, const struct way *other) {
    double cost = ways->look->job->worth->priced ? one->cost - other->cost : one->sheet - other->sheet;
    if (one->unpriced != other->unpriced)
        return other->unpriced;
    return fabs(cost) > 1e-9 ? cost < 0 : one->spare > other->spare;
}

/* Whether a way that is told does with no other changes than these; of a freer face, with that face (`at`) besides. */
bool ways_told_with_less(const struct ways *ways, const struct changes *changes, const struct span *face) {
    for (int i = 0; i < ways->count; i++) {
        const struct way *told = &ways->told[i];
        size_t same = 0;
        for (size_t k = 0; k < told->changes.count; k++)
            same += changes_have(changes, &told->changes.at[k]);
        bool same_face = !told->unpriced || (face && face->text == told->at.text && face->begin == told->at.begin);
        if (same == told->changes.count && same_face && !told->is_rate)
            return true;
    }
    return false;
}

void ways_offer(struct ways *ways, struct way way) {
    int place = ways->count;
    while (place > 0 && goes_before(ways, &way, &ways->told[place - 1]))
        place--;
    if (place >= WAYS_TOLD)
        return;
    if (ways->count < WAYS_TOLD)
        ways->count++;
    memmove(&ways->told[place + 1], &ways->told[place], (size_t)(ways->count - place - 1) * sizeof way);
    ways->told[place] = way;
}

/* ---- What a change may break ------------------------------------------------------------------------------------- */

/* What is warned of taps and changes of size, as the network stands. */
struct diagnostics *ways_warnings(const struct ways *ways) {
    struct job *job = ways->look->job;
    struct diagnostics *own = job->diagnostics, *quiet = ARENA_NEW(job->arena, struct diagnostics);
    struct check_result result = {0};
    quiet->arena = job->arena;
    job->diagnostics = quiet;
    check_tap_fit(job, &(struct check){.name = "tap-fit", .everything = true}, &result);
    check_transition(job, &(struct check){.name = "transition", .everything = true}, &result);
    job->diagnostics = own;
    return quiet;
}

static bool is_among(const struct diagnostic *said, const struct diagnostics *all) {
    for (size_t i = 0; i < all->all.count; i++)
        if (all->all.at[i]->at.text == said->at.text && all->all.at[i]->at.begin == said->at.begin &&
            strcmp(all->all.at[i]->check, said->check) == 0)
            return true;
    return false;
}

bool ways_break_rules(const struct ways *ways) {
    const struct diagnostics *now = ways_warnings(ways);
    for (size_t i = 0; i < now->all.count; i++)
        if (!is_among(now->all.at[i], ways->warned))
            return true;
    return false;
}

/* ---- How a way is told ------------------------------------------------------------------------------------------- */

/* "takes 8.4 ft2 more sheet ($31.20 of walls) and leaves 0.011 in. w.g."; of several changes "take", "leave". */
const char *ways_takes_words(const struct ways *ways, const struct way *way, bool several) {
    struct job *job = ways->look->job;
    const char *s = several ? "" : "s";
    struct currency currency = cost_currency(job);
    const char *price = "", *takes = "";
    if (job->worth->priced && way->cost >= 0.005)
        price =
            arena_format(job->arena, "%s of walls", money_text(job->arena, &currency, (money)llround(way->cost * 100)));
    if (way->sheet > 1e-6)
        takes = arena_format(job->arena, "take%s %s more sheet%s%s%s and ", s,
                             check_text(ways->look->job, SHOW_AREA, way->sheet), *price ? " (" : "", price,
                             *price ? ")" : "");
    else if (*price)
        takes = arena_format(job->arena, "take%s %s more and ", s, price);
    return arena_format(job->arena, "%sleave%s %s", takes, s, check_text(ways->look->job, SHOW_PRESSURE, way->spare));
}

/* "A, B and C". */
const char *ways_changes_words(const struct ways *ways, const struct changes *changes) {
    const char *words = "";
    for (size_t i = 0; i < changes->count; i++)
        words = arena_format(ways->look->job->arena, "%s%s%s", words,
                             i == 0                   ? ""
                             : i + 1 < changes->count ? ", "
                                                      : " and ",
                             change_words(&ways->bench, &changes->at[i]));
    return words;
}

static const char *way_words(const struct ways *ways, const struct way *way) {
    bool several = way->changes.count > 1;
    return arena_format(ways->look->job->arena, "way out: %s%s %s", ways_changes_words(ways, &way->changes),
                        several ? " together" : "", ways_takes_words(ways, way, several));
}

/* ---- Ways that are enough ---------------------------------------------------------------------------------------- */

/* Leaves out what is not needed. */
static void make_least(struct ways *ways, struct changes *changes) {
    for (size_t i = 0; changes->count > 1 && i < changes->count && ways_may_try(ways);) {
        struct changes less = *changes;
        memmove(&less.at[i], &less.at[i + 1], (less.count - i - 1) * sizeof less.at[0]);
        less.count--;
        if (bench_make(&ways->bench, &less) >= 0)
            *changes = less;
        else
            i++;
    }
}

/* These are enough.  False: they break a rule. */
bool ways_offer_changes(struct ways *ways, struct changes changes) {
    make_least(ways, &changes);
    struct way way = {.changes = changes, .at = changes.at[0].at};
    way.spare = bench_make(&ways->bench, &changes);
    if (ways_told_with_less(ways, &changes, NULL))
        return true;
    if (ways_break_rules(ways)) {
        ways->broke_rules = true;
        return false;
    }
    bench_cost(&ways->bench, &way.sheet, &way.cost);
    way.words = way_words(ways, &way);
    ways_offer(ways, way);
    return true;
}
