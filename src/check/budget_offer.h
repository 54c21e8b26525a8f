/* Ways out that were found: the cheapest are kept, in words. */
#ifndef CLEAT_CHECK_BUDGET_OFFER_H
#define CLEAT_CHECK_BUDGET_OFFER_H

#include "check/budget_changes.h"

/* Ways that are told; changes that others are tried with: chosen here, no source. */
enum { WAYS_TOLD = 3, SEEDS = 8 };

struct way {
    struct changes changes;
    bool is_rate;       /* without the friction rate that is asked for */
    bool unpriced;      /* a face, whose price is not known here: such a way comes last */
    double cost, sheet; /* of walls, more: money or kg, m2 */
    double spare;       /* Pa left over then */
    struct span at;
    const char *words;
};

/* A change with which others may be enough. */
struct seed {
    struct change change;
    double score; /* Pa less short, of all paths, for what it costs */
};

struct ways {
    const struct look *look;
    struct network *network;
    struct bench bench;
    struct way told[WAYS_TOLD];
    int count;
    struct seed seeds[SEEDS];
    int seed_count;
    size_t items_left;
    bool broke_rules;                 /* a change that was enough was not told for it */
    const struct diagnostics *warned; /* of what a change can break, as it is */
    double shortage, small; /* Pa of all paths before a change; what costs less than this costs nothing to speak of */
    double least_short;     /* Pa: with all that was tried it was still short by this */
};

/* Whether there is still time for another trial; counts it. */
bool ways_may_try(struct ways *ways);

/* Whether a way that is told does with no other changes than these; of a freer face, with that face (where it stands)
 * besides. */
bool ways_told_with_less(const struct ways *ways, const struct changes *changes, const struct span *face);

/* Warnings of taps and changes of size as the network stands; and whether there are others than before the trials. */
struct diagnostics *ways_warnings(const struct ways *ways);
bool ways_break_rules(const struct ways *ways);

/* Keeps it if it is among the cheapest. */
void ways_offer(struct ways *ways, struct way way);

/* Offers these changes, which are enough, without those that are not needed.  False: they break a rule. */
bool ways_offer_changes(struct ways *ways, struct changes changes);

/* "A, B and C"; "takes 8.4 ft2 more sheet ($31.20 of walls) and leaves 0.011 in. w.g.", of several changes "take",
 * "leave". */
const char *ways_changes_words(const struct ways *ways, const struct changes *changes);
const char *ways_takes_words(const struct ways *ways, const struct way *way, bool several);

#endif
