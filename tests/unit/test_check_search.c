/* The cheapest ways out of a budget, and the cheapest that share no change with them, against a trial of every set of
 * changes, on random small jobs. */
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <setjmp.h>
#include <cmocka.h>
#include <math.h>

#include "check/budget_search.h"
#include "ways_bench.h"

enum { JOBS = 1200, SETS_TRIED = 3000 };

/* ---- Every set --------------------------------------------------------------------------------------------------- */

struct every {
    struct search_ways *search;
    LIST(struct found) enough;
    size_t sets;
};

static void try_set(struct every *every, int slot, const struct found *so_far) {
    const struct options *options = &every->search->options;
    if (slot == options->slots) {
        struct found found = *so_far;
        every->sets++;
        found.spare = bench_make(every->search->bench, &found.changes);
        if (found.changes.count && found.spare >= 0 && search_rules_hold(every->search))
            *list_add(every->search->bench->look->job->arena, &every->enough) = found;
        return;
    }
    try_set(every, slot + 1, so_far);
    for (int i = 0; i < options->count && so_far->changes.count < CHANGES_TOGETHER; i++) {
        if (options->at[i].slot != slot)
            continue;
        struct found with = *so_far;
        with.changes.at[with.changes.count++] = options->at[i].change;
        with.cost += options->at[i].cost;
        try_set(every, slot + 1, &with);
    }
}

static int by_cost(const void *one, const void *other) {
    const struct found *a = one, *b = other;
    if (fabs(a->cost - b->cost) > 1e-12)
        return a->cost < b->cost ? -1 : 1;
    return (a->changes.count > b->changes.count) - (a->changes.count < b->changes.count);
}

/* Without any of its changes it is not enough, or breaks a rule. */
static bool is_least(struct search_ways *search, const struct found *found) {
    for (size_t i = 0; found->changes.count > 1 && i < found->changes.count; i++) {
        struct changes less = found->changes;
        less.at[i] = less.at[--less.count];
        if (bench_make(search->bench, &less) >= 0 && search_rules_hold(search))
            return false;
    }
    return true;
}

/* The cheapest that have nothing in them that is not needed, and of which no two are alike. */
static int cheapest(struct every *every, struct found best[WAYS_TOLD]) {
    int count = 0;
    if (every->enough.count)
        qsort(every->enough.at, every->enough.count, sizeof every->enough.at[0], by_cost);
    for (size_t i = 0; i < every->enough.count && count < WAYS_TOLD; i++) {
        const struct found *found = &every->enough.at[i];
        bool with = false;
        for (int k = 0; k < count; k++)
            with |= changes_are_alike(&found->changes, &best[k].changes);
        if (!with && is_least(every->search, found))
            best[count++] = *found;
    }
    return count;
}

static double sets_of(const struct options *options) {
    double sets = 1;
    for (int slot = 0; slot < options->slots; slot++) {
        int count = 1;
        for (int i = 0; i < options->count; i++)
            count += options->at[i].slot == slot;
        sets *= count;
    }
    return sets;
}

/* ---- The cheapest that share nothing ----------------------------------------------------------------------------- */

/* Of every set that is enough: it has nothing in it that is not needed, and nothing that the others change.  NULL:
 * there is none. */
static const struct found *apart_from(struct every *every, const struct changes *others, int count) {
    for (size_t i = 0; i < every->enough.count; i++) {
        bool shares = false;
        for (int k = 0; k < count; k++)
            shares |= changes_share(&every->enough.at[i].changes, &others[k]);
        if (!shares && is_least(every->search, &every->enough.at[i]))
            return &every->enough.at[i];
    }
    return NULL;
}

/* The second and the third, each searched with what those before it change barred.  How many there are; -1: one is not
 * the cheapest of its rule. */
static int ways_apart(struct every *every) {
    struct search_ways *search = every->search;
    struct changes chosen[WAYS_TOLD];
    int count = 0;
    while (search->count && count < WAYS_TOLD) {
        chosen[count++] = search->found[0].changes;
        search_bar(search, &chosen[count - 1]);
        search_for_ways(search);
        const struct found *best = apart_from(every, chosen, count);
        if (!best != !search->count || (best && fabs(best->cost - search->found[0].cost) > 1e-9))
            return -1;
    }
    return count;
}

struct tally {
    int jobs, same, apart, alone, ways, none, off;
    size_t every, taken_up;
    double worst;
};

static void hold_against_every(struct search_ways *search, struct tally *tally, uint64_t job_seed) {
    struct every every = {.search = search};
    struct found best[WAYS_TOLD], none = {0};
    try_set(&every, 0, &none);
    int count = cheapest(&every, best);
    bool same = count == search->count;
    for (int i = 0; i < count && i < search->count; i++) {
        same &= fabs(best[i].cost - search->found[i].cost) <= 1e-9;
        tally->worst = fmax(tally->worst, (search->found[i].cost - best[i].cost) / fmax(best[i].cost, 1e-3));
    }
    if (!same)
        print_message("seed %d: %d ways of %d; %.4f %.4f %.4f against %.4f %.4f %.4f\n", (int)job_seed, search->count,
                      count, search->found[0].cost, search->found[1].cost, search->found[2].cost,
                      count > 0 ? best[0].cost : 0, count > 1 ? best[1].cost : 0, count > 2 ? best[2].cost : 0);
    if (!search->complete)
        print_message("seed %d: not complete\n", (int)job_seed);
    tally->taken_up += search->taken_up;
    int apart = ways_apart(&every);
    if (apart < 0)
        print_message("seed %d: not the cheapest of those that share nothing\n", (int)job_seed);
    tally->jobs++;
    tally->same += same && apart >= 0;
    tally->apart += apart > 1;
    tally->alone += apart == 1;
    tally->ways += count;
    tally->none += count == 0;
    tally->every += every.sets;
}

static void one_job(uint64_t job_seed, struct tally *tally) {
    struct compiled compiled = short_job(job_seed);
    struct job *job = (struct job *)(uintptr_t)compiled.job;
    struct look look = {.job = job};
    struct bench bench;
    struct effort effort = {.left = 10000000, .each = 1};
    bench_set_up(&bench, &look, job->units.at[0]->network);
    struct search_ways search = {.bench = &bench, .effort = &effort, .wanted = WAYS_TOLD};
    struct options all = {0};
    if (job->units.at[0]->network->surplus < 0)
        options_collect(&all, &bench, &effort);
    if (all.count && sets_of(&all) <= SETS_TRIED) {
        search_begin(&search);
        search_for_ways(&search);
        hold_against_every(&search, tally, job_seed);
    }
    compiled_free(&compiled);
}

static void the_three_cheapest_are_found(void **state) {
    (void)state;
    struct tally tally = {0};
    for (uint64_t job_seed = 1; job_seed <= JOBS; job_seed++)
        one_job(job_seed, &tally);
    print_message("%d jobs, %d the same; %d ways, %d jobs without; %d with one that shares nothing, %d with none; %zu "
                  "sets in all, %zu taken up; worst %.3f\n",
                  tally.jobs, tally.same, tally.ways, tally.none, tally.apart, tally.alone, tally.every, tally.taken_up,
                  tally.worst);
    assert_true(tally.apart >= 100 && tally.alone >= 10);
    assert_true(tally.jobs >= 400);
    assert_int_equal(tally.same, tally.jobs);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_three_cheapest_are_found),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
