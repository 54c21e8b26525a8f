/* The search for the cheapest sizes of a whole network within a pressure.
 *
 * From the outlets toward the unit, each duct learns, for each size it may have, what all that hangs from it costs at
 * the least for the pressure that is left behind it: a staircase (steps.h).  Losses come from air/ with the real sizes
 * on both sides of each junction, of its taps and of all legs of a split, so nothing is guessed and corrected
 * afterwards.  From the unit outward the sizes are then read off.
 */
#ifndef CLEAT_SIZE_SEARCH_H
#define CLEAT_SIZE_SEARCH_H

#include "size/options.h"

/* The children of a section. */
struct fork {
    struct section *next;              /* in the same duct; NULL: none */
    int count;                         /* of those below */
    struct section *branch[LEG_COUNT]; /* each the first of a duct */
};

/* Steps that are worked with: of the sizes of one fork, then of the climb along a duct. */
enum search_work {
    WORK_SHIFTED, /* scratch: the next result, before it is swapped in */
    WORK_SUM,     /* one choice of sizes */
    WORK_ALL,     /* the choices so far */
    WORK_GROUP,   /* of those, the ones with which the next section loses the same */
    WORK_NEXT,    /* what hangs behind a section */
    WORK_HERE,    /* what hangs from its end */
    WORK_COUNT,
};

struct search {
    const struct sizing *sizing;
    struct options *options; /* of each duct, by id */
    const struct wall_cost *cost;
    struct arena *arena;
    struct fork *forks;            /* of each section, by id */
    struct section ***along;       /* of each duct, by id: its sections toward the outlets, ended by NULL */
    double pressure;               /* Pa that there is for both sides; infinite: not known */
    enum tap_rule taps;            /* what taps must have */
    bool bound;                    /* looks for a lower bound of the cost, not for sizes */
    bool thinned;                  /* steps were taken together somewhere */
    struct steps work[WORK_COUNT]; /* STEPS_ROOM each */
};

struct search search_make(const struct sizing *sizing, const struct wall_cost *cost, struct options *options,
                          double pressure, struct arena *arena);

/* Gives every duct its size: the cheapest within the pressure; when there are none, those that take the least.  Gives
 * what the cheapest costs; infinite: none is within the pressure; NAN: the limits contradict each other, and no sizes
 * were given. */
double search_sizes(struct search *search);

/* A lower bound of the cost of all sizes within the pressure; infinite: there are none.  Leaves the ducts with sizes
 * that mean nothing. */
double search_bound(struct search *search);

/* ---- What search.c and search_fork.c share ----------------------------------------------------------------------- */

/* Pa.  Pressures closer than this are equal: the same sum in another order. */
#define SEARCH_ROUNDING 1e-9

/* Pa that `section` loses to the duct that it leaves, or to what is tapped in ahead of it, with the sizes at hand. */
double search_joint_loss(const struct search *search, const struct section *section);

/* Drops the steps beyond the pressure and takes neighbours together where there are too many. */
void search_trim(struct search *search, struct steps *steps);

/* What hangs from the end of `section`, into `out`, with its duct's size at hand; `next` is that of its fork's next
 * (NULL: none), without its joint. `out` and `next` are none of a fork's. */
void search_fork(struct search *search, const struct section *section, const struct steps *next, struct steps *out);

/* Gives the ducts behind `section` the sizes that are cheapest with `pressure` left at its end; nothing
 * within it: those that need least.  Fills what is left at the end of the first section of each of fork->branch, then
 * behind the joint of next. */
void search_choose(struct search *search, const struct section *section, const struct steps *next, double pressure,
                   double left[LEG_COUNT + 1]);

#endif
