/* The cheapest sets of changes with which a network is inside its budget: best first. */
#include "check/budget_search.h"

#include <math.h>
#include <string.h>

#include "check/budget_bound.h"

/* Together options may gain more than the sum of what they gain alone: a tap's loss goes with both its ducts.  Chosen
 * here, no source; with it the search finds what trying everything finds (tests/unit/test_check_search.c). */
static const double margin = 1.5;

/* What costs less of all walls costs nothing to speak of.  Chosen here, no source: nobody weighs a hundredth of the
 * sheet against a line in the job. */
static const double no_cost = 0.01;

/* ---- Rules ------------------------------------------------------------------------------------------------------- */

static bool taps_fit(const struct bench *bench) {
    for (size_t i = 0; i < bench->made.count; i++)
        if (bench->made.at[i].duct && !bench_tap_fits(bench->made.at[i].duct->run->first_duct))
            return false;
    return true;
}

bool search_rules_hold(const struct search_ways *search) {
    return taps_fit(search->bench) && !bench_grows(search->bench) && bench_warns_of_nothing(search->bench);
}

/* ---- Sets that wait: a heap, the cheapest first ------------------------------------------------------------------ */

struct set {
    double least; /* of what it will cost until it is enough */
    double cost;
    int count;
    unsigned char at[CHANGES_TOGETHER];      /* options */
    unsigned char barred[(OPTIONS + 7) / 8]; /* options that are for other sets, as bits */
};

struct waiting {
    struct arena *arena;
    LIST(struct set) sets;
    bool full;
};

/* Of two that cost the same the one with fewer changes; else the order in which the options were found. */
static bool goes_before(const struct set *one, const struct set *other) {
    if (one->least != other->least)
        return one->least < other->least;
    if (one->count != other->count)
        return one->count < other->count;
    return memcmp(one->at, other->at, (size_t)one->count) < 0;
}

static void put(struct waiting *waiting, struct set set) {
    if (waiting->sets.count >= SETS_WAITING) {
        waiting->full = true;
        return;
    }
    size_t place = waiting->sets.count;
    list_add(waiting->arena, &waiting->sets);
    struct set *sets = waiting->sets.at;
    for (; place > 0 && goes_before(&set, &sets[(place - 1) / 2]); place = (place - 1) / 2)
        sets[place] = sets[(place - 1) / 2];
    sets[place] = set;
}

static struct set take(struct waiting *waiting) {
    struct set *sets = waiting->sets.at;
    struct set first = sets[0], last = sets[--waiting->sets.count];
    size_t place = 0;
    for (size_t below = 1; below < waiting->sets.count; below = 2 * place + 1) {
        below += below + 1 < waiting->sets.count && goes_before(&sets[below + 1], &sets[below]);
        if (!goes_before(&sets[below], &last))
            break;
        sets[place] = sets[below];
        place = below;
    }
    sets[place] = last;
    return first;
}

/* ---- What was found ---------------------------------------------------------------------------------------------- */

static double cost_of(const struct search_ways *search, const struct changes *changes) {
    double sum = 0;
    for (size_t i = 0; i < changes->count; i++)
        for (int k = 0; k < search->options.count; k++)
            if (change_contains(&changes->at[i], &search->options.at[k].change) &&
                change_contains(&search->options.at[k].change, &changes->at[i]))
                sum += search->options.at[k].cost;
    return sum;
}

/* Takes out changes that are not needed; false: the rest breaks a rule. */
static bool make_least(struct search_ways *search, struct found *found) {
    for (size_t i = 0; found->changes.count > 1 && i < found->changes.count && effort_may(search->effort);) {
        struct changes less = found->changes;
        memmove(&less.at[i], &less.at[i + 1], (less.count - i - 1) * sizeof less.at[0]);
        less.count--;
        if (bench_make(search->bench, &less) >= 0 && search_rules_hold(search))
            found->changes = less;
        else
            i++;
    }
    found->spare = bench_make(search->bench, &found->changes);
    found->cost = cost_of(search, &found->changes);
    return search_rules_hold(search);
}

/* Cheapest first; of those that cost the same, that with fewer changes. */
static bool is_before(const struct found *one, const struct found *other) {
    return one->cost < other->cost || (one->cost <= other->cost && one->changes.count < other->changes.count);
}

/* Of two that are alike the one that stands before the other; since what is like a third need not be like its like, all
 * are gone through again. */
static void choose_found(struct search_ways *search) {
    search->count = 0;
    for (int i = 0; i < search->kept_count && search->count < search->wanted; i++) {
        bool alike = false;
        for (int k = 0; k < search->count && !alike; k++)
            alike = changes_are_alike(&search->found[k].changes, &search->kept[i].changes);
        if (!alike)
            search->found[search->count++] = search->kept[i];
    }
}

/* The dearest gives way. */
static void keep(struct search_ways *search, const struct found *found) {
    int place = search->kept_count;
    for (int i = 0; i < search->kept_count; i++)
        if (changes_are_same(&search->kept[i].changes, &found->changes))
            return;
    while (place > 0 && is_before(found, &search->kept[place - 1]))
        place--;
    if (place >= WAYS_KEPT)
        return;
    search->kept_count += search->kept_count < WAYS_KEPT;
    memmove(&search->kept[place + 1], &search->kept[place],
            (size_t)(search->kept_count - place - 1) * sizeof search->kept[0]);
    search->kept[place] = *found;
    choose_found(search);
}

static void note_nearest(struct search_ways *search, const struct changes *changes, double spare) {
    if ((!search->nearest.changes.count || spare > search->nearest.spare) && search_rules_hold(search))
        search->nearest = (struct found){.changes = *changes, .spare = spare};
}

/* The set is made.  Whether it is enough, and breaks no rule: then `found` is what of it is needed, and nothing that
 * contains it is looked at. */
static bool settle(struct search_ways *search, const struct changes *changes, double spare, struct found *found) {
    if (spare < 0) {
        note_nearest(search, changes, spare);
        return false;
    }
    *found = (struct found){.changes = *changes};
    if (!make_least(search, found)) {
        search->broke_rules = true;
        return false;
    }
    keep(search, found);
    return true;
}

/* ---- Best first -------------------------------------------------------------------------------------------------- */

static struct changes changes_of(const struct options *options, const struct set *set) {
    struct changes changes = {.count = (size_t)set->count};
    for (int i = 0; i < set->count; i++)
        changes.at[i] = options->at[set->at[i]].change;
    return changes;
}

static bool is_barred(const struct set *set, int option) {
    return set->barred[option / 8] >> (option % 8) & 1;
}

/* Options that belong to other sets, or to things that are changed already. */
static void bar(const struct options *options, const struct set *set, const bool taken[SLOTS], bool barred[OPTIONS]) {
    for (int i = 0; i < options->count; i++)
        barred[i] = is_barred(set, i) || taken[options->at[i].slot];
}

/* Things that are changed already, or not to be. */
static void take_slots(const struct search_ways *search, const struct set *set, bool taken[SLOTS]) {
    memcpy(taken, search->barred, sizeof search->barred);
    for (int i = 0; i < set->count; i++)
        taken[search->options.at[set->at[i]].slot] = true;
}

/* A tap or a change of size without room may get it from another size of the duct before or behind it. */
static bool may_make_room(const struct bench *bench, const struct option *option) {
    const struct duct *duct = option->change.duct;
    for (size_t i = 0; duct && i < bench->made.count; i++) {
        const struct duct *made = bench->made.at[i].duct;
        if (made && (made->upstream == duct || duct->upstream == made))
            return true;
    }
    return false;
}

/* The set is made, and not enough: whatever contains it and is enough has some option that the governing paths gain by.
 * So one set for each of these, from which the later ones are barred: no set comes twice.  Options stand by slots, so
 * for a later one all that gain and stand in an earlier slot are barred.  One that is enough and broke a rule may be
 * mended by its neighbours. */
static void put_next(const struct search_ways *search, struct waiting *waiting, const struct set *set) {
    const struct options *options = &search->options;
    const struct network *network = search->bench->network;
    struct bound bound;
    struct set base = *set;
    bool barred[OPTIONS], taken[SLOTS];
    take_slots(search, set, taken);
    bar(options, set, taken, barred);
    bound_make(&bound, options, barred, network, margin);
    for (int i = 0; i < options->count; i++) {
        const struct option *option = &options->at[i];
        double gain = bound_gain(&bound, option);
        bool helps = air_budget_short(network) ? bound.unknown || gain > NO_GAIN : may_make_room(search->bench, option);
        if (barred[i] || !helps)
            continue;
        struct set next = base;
        next.at[next.count++] = (unsigned char)i;
        next.cost += option->cost;
        next.least =
            fmax(set->least, next.cost + bound_least(&bound, -network->surplus - margin * fmax(gain, 0), option->slot));
        if (isfinite(next.least))
            put(waiting, next);
        base.barred[i / 8] |= (unsigned char)(1 << (i % 8));
    }
}

/* A set that costs more than the last one wanted cannot be among the results. */
static bool is_settled(const struct search_ways *search, const struct waiting *waiting) {
    return !waiting->sets.count ||
           (search->count == search->wanted && waiting->sets.at[0].least >= search->found[search->count - 1].cost);
}

static void best_first(struct search_ways *search) {
    struct waiting waiting = {.arena = search->bench->look->job->arena};
    struct set none = {0};
    bench_make(search->bench, &(struct changes){0});
    put_next(search, &waiting, &none);
    while (!is_settled(search, &waiting) && effort_may(search->effort)) {
        struct set set = take(&waiting);
        struct changes changes = changes_of(&search->options, &set);
        bool contains = false;
        for (int i = 0; i < search->count; i++)
            contains |= search->found[i].cost <= set.cost && changes_contain(&changes, &search->found[i].changes);
        if (contains)
            continue;
        search->taken_up++;
        double spare = bench_make(search->bench, &changes);
        struct found found;
        if (settle(search, &changes, spare, &found) || set.count >= CHANGES_TOGETHER)
            continue;
        if (spare >= 0) /* it broke a rule; the network has changed since */
            bench_make(search->bench, &changes);
        put_next(search, &waiting, &set);
    }
    bool first = search->count && waiting.sets.count && waiting.sets.at[0].least >= search->found[0].cost;
    search->complete = (first || is_settled(search, &waiting)) && !waiting.full && !search->options.more;
}

/* ---- One after another ------------------------------------------------------------------------------------------- */

/* Of the things that are not changed yet, the option that eases all short paths together by most, for what it costs or
 * whatever it costs; false: none does, or there is no time. */
static bool best_next(struct search_ways *search, const struct changes *made, bool for_cost, struct change *best) {
    const struct options *options = &search->options;
    double shortage = bench_shortage(search->bench), most = 0;
    for (int i = 0; i < options->count; i++) {
        const struct option *option = &options->at[i];
        struct changes with = *made;
        bool there = search->barred[option->slot];
        for (size_t k = 0; k < made->count; k++)
            there |= change_same_thing(&made->at[k], &option->change);
        if (there || search->effort->left < search->effort_kept || !effort_may(search->effort))
            continue;
        with.at[with.count++] = option->change;
        bench_make(search->bench, &with);
        double gain = shortage - bench_shortage(search->bench);
        double score = for_cost ? gain / (option->cost + search->small) : gain;
        if (gain > NO_GAIN && score > most && taps_fit(search->bench) && !bench_grows(search->bench)) {
            most = score;
            *best = option->change;
        }
    }
    return most > 0;
}

static bool may_stand_in(const struct search_ways *search, const struct changes *changes, size_t place,
                         const struct option *option) {
    bool may = !search->barred[option->slot];
    for (size_t k = 0; k < changes->count; k++)
        may &= k == place || !change_same_thing(&changes->at[k], &option->change);
    return may;
}

/* Puts the option in the place of one change with which most is saved; false: nothing is, or there is no time. */
static bool exchange_one(struct search_ways *search, struct found *found) {
    struct found best = *found;
    for (size_t place = 0; place < found->changes.count; place++) {
        double cost = cost_of(search, &(struct changes){.count = 1, .at = {found->changes.at[place]}});
        for (int i = 0; i < search->options.count; i++) {
            const struct option *option = &search->options.at[i];
            struct found with = {.changes = found->changes, .cost = found->cost - cost + option->cost};
            if (with.cost >= best.cost - 1e-9 || !may_stand_in(search, &found->changes, place, option))
                continue;
            if (search->effort->left < search->effort_kept || !effort_may(search->effort))
                return false;
            with.changes.at[place] = option->change;
            if (bench_make(search->bench, &with.changes) >= 0 && search_rules_hold(search))
                best = with;
        }
    }
    if (!(best.cost < found->cost))
        return false;
    *found = best;
    return true;
}

static void cheapen(struct search_ways *search, struct found *found) {
    while (exchange_one(search, found))
        if (make_least(search, found))
            keep(search, found);
}

/* A quick first result, enough or near it, in case the search runs out of time. */
static void one_after_another(struct search_ways *search, bool for_cost) {
    struct changes made = {0};
    bench_make(search->bench, &made);
    while (made.count < CHANGES_TOGETHER) {
        struct change best;
        if (!best_next(search, &made, for_cost, &best))
            return;
        made.at[made.count++] = best;
        struct found found;
        if (settle(search, &made, bench_make(search->bench, &made), &found)) {
            cheapen(search, &found);
            return;
        }
        bench_make(search->bench, &made);
    }
}

void search_begin(struct search_ways *search) {
    options_collect(&search->options, search->bench, search->effort);
    search->small = no_cost * search->bench->walls_ranked + 1e-9;
}

void search_for_ways(struct search_ways *search) {
    search->count = search->kept_count = 0;
    search->effort_kept = search->effort->left / 2;
    one_after_another(search, false);
    one_after_another(search, true);
    best_first(search);
}

void search_bar(struct search_ways *search, const struct changes *changes) {
    for (size_t i = 0; i < changes->count; i++)
        for (int k = 0; k < search->options.count; k++)
            if (change_same_thing(&changes->at[i], &search->options.at[k].change))
                search->barred[search->options.at[k].slot] = true;
}
