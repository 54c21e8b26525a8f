/* Single changes that a way out may be made of: each tried alone, with what it costs and what each path gains. */
#ifndef CLEAT_CHECK_BUDGET_OPTIONS_H
#define CLEAT_CHECK_BUDGET_OPTIONS_H

#include "check/budget_changes.h"

/* Paths that are watched, the worst of each side; things that may be changed; sizes of one duct; all changes.  Chosen
 * here, no source: a short path of a small job has three to eight things, and its paths share most. */
enum { WATCHED_SUPPLY = 10, WATCHED_RETURN = 3, SLOTS = 24, SIZES_OF_ONE = 8, OPTIONS = 96 };
enum { WATCHED = WATCHED_SUPPLY + WATCHED_RETURN };

/* Pa that count as nothing gained.  Chosen here, no source: far under the last digit that is shown. */
#define NO_GAIN 1e-3

struct option {
    struct change change;
    int slot;             /* which thing it changes: one change of each at most */
    double cost;          /* by what is ranked, not under 0 */
    double lift;          /* Pa that the blower has more with it, less the unit's drops */
    double gain[WATCHED]; /* Pa that the path loses less with it alone; may be negative */
};

/* Network items that may still be computed: a large job gets fewer trials. */
struct effort {
    size_t left, each; /* each: of a trial */
    bool short_of;     /* some trial was not made for it */
};

bool effort_may(struct effort *effort);

struct options {
    int watched;
    const struct section *end[WATCHED]; /* of each watched path, supply first */
    double loss[WATCHED];               /* Pa, as it is */
    int count, slots;
    bool more; /* there are other things or sizes, which were not taken */
    struct option at[OPTIONS];
};

/* What of the short paths can be changed, from the outlet toward the unit, and of the unit.  Leaves the network with
 * whatever was tried last. */
void options_collect(struct options *options, struct bench *bench, struct effort *effort);

/* The watched path that ends there; -1: none. */
int options_watched(const struct options *options, const struct path *path);

#endif
