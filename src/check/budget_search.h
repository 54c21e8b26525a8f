/* The cheapest sets of changes with which a network is inside its budget.
 *
 * Best first: sets of options, each thing changed once at most, are taken up in the order of what they cost and at the
 * least would cost until enough; that is bounded from below by what the options gain alone (the linear relaxation of a
 * knapsack with one choice a thing), times a margin, since together they may gain more.  Each set that is taken up is
 * made on the network and everything computed again, so that nothing counts as enough that was not computed so. */
#ifndef CLEAT_CHECK_BUDGET_SEARCH_H
#define CLEAT_CHECK_BUDGET_SEARCH_H

#include "check/budget_compare.h"
#include "check/budget_options.h"

/* Ways that are told, and that are weighed for the first of them; those that are kept until it is clear which are
 * alike; sets that wait at most.  Chosen here, no source. */
enum { WAYS_TOLD = 3, WAYS_WEIGHED = 6, WAYS_KEPT = 64, SETS_WAITING = 20000 };

struct found {
    struct changes changes;
    double cost;  /* sum of the options' */
    double spare; /* Pa */
};

struct search_ways {
    struct bench *bench;
    struct effort *effort;
    struct options options;
    int wanted;                       /* so many at most: WAYS_WEIGHED */
    struct found found[WAYS_WEIGHED]; /* cheapest first; no two are alike */
    int count;
    struct found kept[WAYS_KEPT]; /* likewise, alike or not */
    int kept_count;
    bool barred[SLOTS];   /* things that are not to be changed */
    bool complete;        /* no set that was not taken up is cheaper than the first, as far as the margin holds */
    bool broke_rules;     /* something that was enough left no room for taps or changes of size */
    struct found nearest; /* what was short by the least; spare is under 0 */
    size_t taken_up;
    size_t effort_kept; /* for the search itself */
    double small; /* what costs less costs nothing to speak of: the share no_cost (budget_search.c) of all walls */
};

/* Fills options.  Leaves the network with whatever was tried last, as the next does. */
void search_begin(struct search_ways *search);

/* Fills found and what follows anew, of the things that are not barred. */
void search_for_ways(struct search_ways *search);

/* Bars all things that these change. */
void search_bar(struct search_ways *search, const struct changes *changes);

/* Whether the changes that are made leave room for taps and changes of size as before, and no run grows away from the
 * unit. */
bool search_rules_hold(const struct search_ways *search);

#endif
