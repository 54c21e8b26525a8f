/* The sizes that each duct of a network may have, when all are weighed against each other. */
#ifndef CLEAT_SIZE_OPTIONS_H
#define CLEAT_SIZE_OPTIONS_H

#include "size/steps.h"
#include "size/sizing.h"
#include "size/wall_cost.h"

/* One size of a duct. */
struct option {
    struct duct_size size;
    double cost;     /* of the duct's own walls */
    double own_loss; /* Pa of its first section, without what depends on the duct it leaves */
    /* Of it and all that hangs from it, without what its first section loses to the duct that it leaves. */
    struct steps beyond;
};

/* What is asked of a tap, each with what stands before it. */
enum tap_rule {
    TAPS_ANYHOW, /* nothing */
    TAPS_CUT,    /* its hole is no wider than the wall */
    TAPS_FIT,    /* metal beside it */
    TAPS_HELD    /* no more area than what it is cut into */
};

struct options {
    size_t count;
    struct option *at;
    bool limited; /* no size within the limits is enough: the one that carries most */
    bool held;    /* what it may be was cut down, and so is what stands behind it in the run */
    /* Among them: what the wall holds that its run is tapped into, which is less than it needs; unknown: all suffice.
     */
    struct duct_size narrow;
    enum tap_rule most; /* of a tapped run: the most that some size of it keeps to with some size of what it is tapped
                           into, so that it must */
};

/* At most so many sizes of a duct; of a leg of a split, whose loss depends on the other legs', so many with one other
 * leg and with two.  Chosen here, no source: so that all combinations at a split are a few hundred. */
enum { OPTIONS_LIMIT = 48, OPTIONS_LEG = 20, OPTIONS_CROSS = 8 };

/* Fills options of each duct, by id: sizes and costs.  `sizing` has its needs; counts in `search` what is weighed and
 * what is left out. */
struct options *options_make(const struct sizing *sizing, const struct wall_cost *cost, struct arena *arena,
                             struct size_search *search);

/* Whether a duct may have that size, given the current size of the duct it leaves.  `taps`: taps must have room. */
bool options_allow(const struct sizing *sizing, const struct options *options, const struct duct *duct,
                   struct duct_size size, enum tap_rule taps);

#endif
