/* Ways out for a unit that asks more of its blower than it has: found, weighed, told. */
#include "check/budget_ways.h"

#include <math.h>
#include <string.h>

#include "check/budget_compare.h"
#include "check/budget_face.h"
#include "check/budget_lines.h"
#include "check/budget_weigh.h"

/* Network items that the trials of all units may compute; sections of the whole job that may be compiled anew.  Chosen
 * here, no source: so that a job of 1,000 outlets takes about half as long again at most. */
enum { ITEMS_TRIED = 3000000, SECTIONS_RETYPED = 1500 };

/* Ways that are weighed for the second and for the third, and in all, with the rate and a face on either side. */
enum { WAYS_APART = 2, WAYS_MOST = WAYS_WEIGHED + (WAYS_TOLD - 1) * WAYS_APART + 3 };

struct ways {
    const struct look *look;
    struct network *network;
    struct bench bench;
    struct effort effort;
    struct search_ways search;
    struct weighing weighing;
    size_t items_left; /* of those that may be tried */
    bool complete;     /* no search ran out of time */
    struct way ways[WAYS_MOST];
    int count;
};

/* ---- Found and weighed ------------------------------------------------------------------------------------------- */

static void weigh(struct ways *ways, const struct changes *changes, bool is_face) {
    struct way way = {.changes = *changes, .is_face = is_face, .spare = -1};
    for (int i = 0; i < ways->count; i++)
        if (changes_are_same(&ways->ways[i].changes, changes))
            return;
    bool sound = ways->count < WAYS_MOST && way_weigh(&ways->weighing, &way);
    ways->search.broke_rules |= !sound && way.spare >= 0;
    if (!sound)
        return;
    int place = ways->count++;
    for (; place > 0 && way_goes_before(ways->look->job, &way, &ways->ways[place - 1]); place--)
        ways->ways[place] = ways->ways[place - 1];
    ways->ways[place] = way;
}

/* A face alone; else with what comes nearest without one. */
static void weigh_face(struct ways *ways, bool supply) {
    struct changes changes = {0};
    bench_make(&ways->bench, &changes);
    bool mends = face_that_mends(&ways->bench, supply, &changes.at[0]);
    if (!mends && !ways->count && ways->search.nearest.changes.count < CHANGES_TOGETHER) {
        changes = ways->search.nearest.changes;
        bench_make(&ways->bench, &changes);
        mends = search_rules_hold(&ways->search) && face_that_mends(&ways->bench, supply, &changes.at[changes.count]);
    }
    changes.count++;
    if (mends)
        weigh(ways, &changes, true);
}

static size_t sections_of(const struct job *job) {
    size_t count = 0;
    for (size_t i = 0; i < job->units.count; i++)
        count += job->units.at[i]->network ? job->units.at[i]->network->sections.count : 0;
    return count;
}

/* ---- Chosen ------------------------------------------------------------------------------------------------------ */

/* Searches with a share of what is left of the effort, and weighs what is found. */
static void search_and_weigh(struct ways *ways, int wanted, size_t share) {
    ways->effort.left = ways->items_left / share;
    ways->items_left -= ways->effort.left;
    ways->search.wanted = wanted;
    search_for_ways(&ways->search);
    ways->items_left += ways->effort.left;
    ways->complete &= ways->search.complete;
    for (int i = 0; i < ways->search.count; i++)
        weigh(ways, &ways->search.found[i].changes, false);
}

static bool is_apart(const struct ways *ways, const struct way *way) {
    for (int i = 0; i < ways->count; i++)
        if (ways->ways[i].chosen && changes_share(&ways->ways[i].changes, &way->changes))
            return false;
    return true;
}

static bool is_alike(const struct ways *ways, const struct way *way) {
    for (int i = 0; i < ways->count; i++)
        if (ways->ways[i].chosen && changes_are_alike(&ways->ways[i].changes, &way->changes))
            return true;
    return false;
}

/* The cheapest that shares no change with those that are chosen; else the cheapest that is not one of them. */
static void choose(struct ways *ways) {
    struct way *next = NULL, *apart = NULL;
    for (int i = ways->count - 1; i >= 0; i--) {
        struct way *way = &ways->ways[i];
        if (way->chosen || way->is_face)
            continue;
        next = is_alike(ways, way) ? next : way;
        apart = is_apart(ways, way) ? way : apart;
    }
    if (apart || next)
        (apart ? apart : next)->chosen = true;
}

/* For each after the first, what the ones before it change is barred, and searched again. */
static void choose_ways(struct ways *ways) {
    choose(ways);
    for (int told = 1; told < WAYS_TOLD && ways->count; told++) {
        for (int i = 0; i < ways->count; i++)
            if (ways->ways[i].chosen)
                search_bar(&ways->search, &ways->ways[i].changes);
        search_and_weigh(ways, WAYS_APART, told + 1 < WAYS_TOLD ? 2 : 1);
        choose(ways);
    }
}

static void find(struct ways *ways, size_t units) {
    struct job *job = ways->look->job;
    size_t items = 0;
    for (size_t i = 0; i < ways->network->sections.count; i++)
        items += ways->network->sections.at[i]->items.count + 1;
    ways->effort = (struct effort){.left = ITEMS_TRIED / units, .each = items};
    ways->search = (struct search_ways){.bench = &ways->bench, .effort = &ways->effort};
    ways->weighing.search = &ways->search;
    ways->weighing.retypes = job->retyper && sections_of(job) * units * WAYS_MOST <= SECTIONS_RETYPED;
    ways->complete = true;
    search_begin(&ways->search);
    ways->items_left = ways->effort.left;
    search_and_weigh(ways, ways->weighing.retypes ? WAYS_WEIGHED : WAYS_TOLD, 2);
    if (job->friction_rate > 0)
        weigh(ways, &(struct changes){.count = 1, .at = {{.kind = CHANGE_RATE, .at = job->friction_rate_at}}}, false);
    choose_ways(ways);
    weigh_face(ways, true);
    weigh_face(ways, false);
}

/* ---- Told -------------------------------------------------------------------------------------------------------- */

/* In the order in which they stand in the job, so that it can be gone through once. */
static struct changes in_order(const struct changes *changes) {
    struct changes sorted = {0};
    for (size_t i = 0; i < changes->count; i++) {
        size_t place = sorted.count++;
        for (; place > 0 && changes->at[i].at.begin < sorted.at[place - 1].at.begin; place--)
            sorted.at[place] = sorted.at[place - 1];
        sorted.at[place] = changes->at[i];
    }
    return sorted;
}

/* One line is one note at its own place; `first` is what the first begins with, `next` the others. */
static void tell_lines(const struct ways *ways, struct diagnostic *said, const struct changes *changes,
                       const char *first, const char *next) {
    struct changes sorted = in_order(changes);
    for (size_t i = 0; i < sorted.count; i++)
        diagnostic_relate(ways->look->job->diagnostics, said, sorted.at[i].at, "%s: %s", i ? next : first,
                          change_words(&ways->bench, &sorted.at[i]));
}

static void tell_way(const struct ways *ways, struct diagnostic *said, const struct way *way, int number) {
    const struct job *job = ways->look->job;
    const char *first = arena_format(job->arena, "way out %d (%s, leaves %s%s%s)", number, way_takes_words(job, way),
                                     check_text(job, SHOW_PRESSURE, way->spare), way->comes_out ? "; " : "",
                                     way->comes_out ? way->comes_out : "");
    tell_lines(ways, said, &way->changes, first, arena_format(job->arena, "way out %d, together with", number));
}

/* Three, and a freer face besides, which may be the simplest and has no price here. */
static int tell(const struct ways *ways, struct diagnostic *said) {
    int told = 0, faces = 0;
    for (int i = 0; i < ways->count; i++) {
        const struct way *way = &ways->ways[i];
        if (way->is_face ? told >= WAYS_TOLD && faces > 0 : !way->chosen)
            continue;
        tell_way(ways, said, way, ++told);
        faces += way->is_face;
    }
    return told;
}

static void say_nearest(struct ways *ways, struct diagnostic *said) {
    const struct job *job = ways->look->job;
    const struct found *nearest = &ways->search.nearest;
    diagnostic_relate(job->diagnostics, said, ways->network->unit->at,
                      "no way out was found among larger sizes, easier elbows and taps, pipe for flexible duct, freer "
                      "faces and other speeds, up to %d together%s%s: a stronger blower is one, or another layout",
                      CHANGES_TOGETHER,
                      ways->search.broke_rules ? ", that leaves room for the taps and changes of size" : "",
                      ways->complete ? "" : " (not everything was tried)");
    if (!nearest->changes.count || !(nearest->spare > ways->network->surplus))
        return;
    const char *first = arena_format(job->arena, "what comes nearest is still short by %s",
                                     check_text_up(job, SHOW_PRESSURE, -nearest->spare));
    struct changes changes = bench_completed(&ways->bench, &nearest->changes);
    bench_make(&ways->bench, &(struct changes){0});
    tell_lines(ways, said, &changes, first, "together with");
}

static void say_fewer(struct ways *ways, struct diagnostic *said, int told) {
    const struct network *network = ways->network;
    struct diagnostics *diagnostics = ways->look->job->diagnostics;
    struct span at = network->unit->at;
    if (network->unit_drops >= network->blower_pressure && !told)
        diagnostic_relate(diagnostics, said, at,
                          "what is in the unit takes all that the blower has: no duct helps, a stronger blower does");
    else if (!told)
        say_nearest(ways, said);
    else if (!ways->complete)
        diagnostic_relate(diagnostics, said, at, "not everything was tried: others may be cheaper");
    else if (told < WAYS_TOLD)
        diagnostic_relate(diagnostics, said, at, "no other way out was found%s",
                          ways->search.broke_rules ? " that leaves room for the taps and changes of size" : "");
}

void budget_ways(const struct look *look, struct network *network, size_t units, struct diagnostic *said) {
    struct ways *ways = ARENA_NEW(look->job->arena, struct ways);
    ways->look = look;
    ways->network = network;
    bench_set_up(&ways->bench, look, network);
    if (network->unit_drops < network->blower_pressure || network->unit->speeds.count > 1)
        find(ways, units);
    bench_make(&ways->bench, &(struct changes){0}); /* as it was */
    say_fewer(ways, said, tell(ways, said));
}
