/* The cheapest sets of changes with which a network is inside its budget: best first. */
#include "check/budget_search.h"

#include <math.h>
#include <string.h>

#include "check/budget_bound.h"

/* Together options may gain more than the sum of what they gain alone: a tap's loss goes with both its ducts.  Chosen
 * here, no source; with it the search finds what trying everything finds (tests/unit/test_check_ways.c). */
static const double margin = 1.5;

/* ---- Rules ---------------------------------------------------------------------------------------------------------
 */

/* The job with nothing but the unit of the network in it. */
static struct job job_of(const struct bench *bench) {
    struct job only = *bench->look->job;
    only.runs.at = bench->runs;
    only.runs.count = bench->run_count;
    only.units.at = (struct air_unit **)&bench->network->unit;
    only.units.count = 1;
    only.diagnostics = ARENA_NEW(only.arena, struct diagnostics);
    only.diagnostics->arena = only.arena;
    return only;
}

struct diagnostics *search_warnings(const struct bench *bench) {
    struct job only = job_of(bench);
    struct check_result result = {0};
    check_tap_fit(&only, &(struct check){.name = "tap-fit", .everything = true}, &result);
    check_transition(&only, &(struct check){.name = "transition", .everything = true}, &result);
    return only.diagnostics;
}

static bool same_text(const char *one, const char *other) {
    return one == other || (one && other && strcmp(one, other) == 0);
}

bool search_warned(const struct diagnostics *all, const struct diagnostic *said) {
    for (size_t i = 0; i < all->all.count; i++)
        if (same_text(all->all.at[i]->check, said->check) && same_text(all->all.at[i]->subject, said->subject))
            return true;
    return false;
}

static bool taps_fit(const struct bench *bench) {
    for (size_t i = 0; i < bench->made.count; i++)
        if (bench->made.at[i].duct && !bench_tap_fits(bench->made.at[i].duct->run->first_duct))
            return false;
    return true;
}

bool search_rules_hold(const struct search_ways *search) {
    if (!taps_fit(search->bench) || bench_grows(search->bench))
        return false;
    const struct diagnostics *now = search_warnings(search->bench);
    for (size_t i = 0; i < now->all.count; i++)
        if (!search_warned(search->warned, now->all.at[i]))
            return false;
    return true;
}

/* ---- Sets that wait: a heap, the cheapest first
 * ---------------------------------------------------------------------- */

struct set {
    double least; /* of what it will cost until it is enough */
    double cost;
    int count;
    unsigned char at[CHANGES_TOGETHER]; /* options, by slot */
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

/* ---- What was found
 * --------------------------------------------------------------------------------------------------- */

static double cost_of(const struct search_ways *search, const struct changes *changes) {
    double sum = 0;
    for (size_t i = 0; i < changes->count; i++)
        for (int k = 0; k < search->options.count; k++)
            if (change_contains(&changes->at[i], &search->options.at[k].change) &&
                change_contains(&search->options.at[k].change, &changes->at[i]))
                sum += search->options.at[k].cost;
    return sum;
}

/* Leaves out what is not needed; false: they break a rule. */
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

static bool goes_with(const struct found *one, const struct found *other) {
    return changes_contain(&one->changes, &other->changes) || changes_contain(&other->changes, &one->changes);
}

/* Of two of which one contains the other the cheaper stays; of equals the smaller. */
static void keep(struct search_ways *search, const struct found *found) {
    int kept = 0;
    for (int i = 0; i < search->count; i++) {
        const struct found *old = &search->found[i];
        bool stays =
            old->cost < found->cost || (old->cost <= found->cost && changes_contain(&found->changes, &old->changes));
        if (stays && goes_with(old, found))
            return;
    }
    for (int i = 0; i < search->count; i++)
        if (!goes_with(&search->found[i], found))
            search->found[kept++] = search->found[i];
    int place = kept;
    while (place > 0 && found->cost < search->found[place - 1].cost)
        place--;
    search->count = kept + (kept < search->wanted);
    if (place >= search->count)
        return;
    memmove(&search->found[place + 1], &search->found[place],
            (size_t)(search->count - place - 1) * sizeof search->found[0]);
    search->found[place] = *found;
}

static void note_nearest(struct search_ways *search, const struct changes *changes, double spare) {
    if (!search->nearest.changes.count || spare > search->nearest.spare)
        search->nearest = (struct found){.changes = *changes, .spare = spare};
}

/* The set is made.  Whether it is enough, and breaks no rule: then nothing that contains it is looked at. */
static bool settle(struct search_ways *search, const struct changes *changes, double spare) {
    if (spare < 0) {
        note_nearest(search, changes, spare);
        return false;
    }
    struct found found = {.changes = *changes};
    if (!make_least(search, &found)) {
        search->broke_rules = true;
        return false;
    }
    keep(search, &found);
    return true;
}

/* ---- Best first
 * ---------------------------------------------------------------------------------------------------------- */

static struct changes changes_of(const struct options *options, const struct set *set) {
    struct changes changes = {.count = (size_t)set->count};
    for (int i = 0; i < set->count; i++)
        changes.at[i] = options->at[set->at[i]].change;
    return changes;
}

static void put_next(const struct search_ways *search, struct waiting *waiting, const struct set *set) {
    const struct options *options = &search->options;
    const struct network *network = search->bench->network;
    int last = set->count ? options->at[set->at[set->count - 1]].slot : -1;
    struct bound bound;
    bound_make(&bound, options, network, last + 1, margin);
    for (int i = 0; i < options->count; i++) {
        const struct option *option = &options->at[i];
        if (option->slot <= last)
            continue;
        struct set next = *set;
        next.at[next.count++] = (unsigned char)i;
        next.cost += option->cost;
        double need = -network->surplus - margin * fmax(bound_gain(&bound, option), 0);
        next.least = fmax(set->least, next.cost + bound_least(&bound, need, option->slot + 1));
        if (isfinite(next.least))
            put(waiting, next);
    }
}

/* What costs more than the last that is wanted is not among them. */
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
            contains |= changes_contain(&changes, &search->found[i].changes);
        if (contains)
            continue;
        search->taken_up++;
        double spare = bench_make(search->bench, &changes);
        if (settle(search, &changes, spare) || set.count >= CHANGES_TOGETHER)
            continue;
        if (spare >= 0) /* it broke a rule: that is another state of the network by now */
            bench_make(search->bench, &changes);
        put_next(search, &waiting, &set);
    }
    bool told = search->count >= WAYS_TOLD && waiting.sets.count &&
                waiting.sets.at[0].least >= search->found[WAYS_TOLD - 1].cost;
    search->complete = (told || is_settled(search, &waiting)) && !waiting.full && !search->options.more;
}

/* ---- Whatever gains most
 * -------------------------------------------------------------------------------------------------- */

/* The one that gains most on the paths that govern, of a thing that is not changed yet; NULL: none gains. */
static const struct option *most_gaining(const struct search_ways *search, const struct changes *made) {
    const struct options *options = &search->options;
    const struct network *network = search->bench->network;
    int supply = options_watched(options, network->governing_supply);
    int back = options_watched(options, network->governing_return);
    const struct option *best = NULL;
    double most = NO_GAIN;
    for (int i = 0; i < options->count; i++) {
        const struct option *option = &options->at[i];
        double gain = option_gain(option, supply, back);
        bool there = false;
        for (size_t k = 0; k < made->count; k++)
            there |= change_same_thing(&made->at[k], &option->change);
        if (!there && gain > most) {
            most = gain;
            best = option;
        }
    }
    return best;
}

/* Something that is enough, or what comes nearest, whatever it costs: before the search, which may come to an end. */
static void most_at_once(struct search_ways *search) {
    struct changes made = {0};
    bench_make(search->bench, &made);
    while (made.count < CHANGES_TOGETHER && effort_may(search->effort)) {
        const struct option *option = most_gaining(search, &made);
        if (!option)
            return;
        made.at[made.count++] = option->change;
        if (settle(search, &made, bench_make(search->bench, &made)))
            return;
        bench_make(search->bench, &made);
    }
}

void search_for_ways(struct search_ways *search) {
    search->warned = search_warnings(search->bench);
    options_collect(&search->options, search->bench, search->effort);
    most_at_once(search);
    best_first(search);
}
