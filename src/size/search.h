/* The search for the cheapest sizes of a whole network within a pressure.
 *
 * From the outlets toward the unit, each duct learns, for each size it may have, what all that hangs from it costs at
 * the least for the pressure that is left behind it: a staircase (steps.h).  Losses are those of air/, with the sizes
 * of both ducts at a junction, of what is tapped in there and of all legs of a split, so that nothing has to be guessed
 * and mended.  From the unit outward the sizes are then read off.
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

struct search {
    const struct sizing *sizing;
    struct options *options; /* of each duct, by id */
    const struct wall_cost *cost;
    struct arena *arena;
    struct fork *forks;      /* of each section, by id */
    struct section ***along; /* of each duct, by id: its sections, toward the outlets; NULL behind the last */
    double pressure;         /* Pa that there is for both sides; infinite: not known */
    enum tap_rule taps;      /* what taps must have */
    bool bound;              /* looks for what nothing can cost less than, not for sizes */
    bool thinned;            /* steps were taken together somewhere */
    struct steps work[6];    /* STEPS_ROOM each */
};

struct search search_make(const struct sizing *sizing, const struct wall_cost *cost, struct options *options,
                          double pressure, struct arena *arena);

/* Gives every duct its size: the cheapest within the pressure; when there are none, those that take the least.  Gives
 * what the cheapest costs; infinite: none is within the pressure; NAN: the limits contradict each other, and no sizes
 * were given. */
double search_sizes(struct search *search);

/* What no sizes within the pressure can cost less than; infinite: there are none.  Leaves the ducts with sizes that
 * mean nothing. */
double search_bound(struct search *search);

/* ---- What search.c and search_fork.c share ----------------------------------------------------------------------- */

/* Pressures that differ by less are one: a sum taken in another order.  Pa. */
#define SEARCH_ROUNDING 1e-9

/* Pa that `section` loses to the duct that it leaves, or to what is tapped in ahead of it, with the sizes at hand. */
double search_joint_loss(const struct search *search, const struct section *section);

/* Cuts and thins. */
void search_trim(struct search *search, struct steps *steps);

/* What hangs from the end of `section`, into `out`, with its duct's size at hand; `next` is that of its fork's next
 * (NULL: none), without its joint. `out` is none of search->work. */
void search_fork(struct search *search, const struct section *section, const struct steps *next, struct steps *out);

/* Gives the ducts behind `section` the sizes that are cheapest with `pressure` left at its end; nothing
 * within it: those that need least.  Fills what is left at the end of the first section of each of fork->branch, then
 * behind the joint of next. */
void search_choose(struct search *search, const struct section *section, const struct steps *next, double pressure,
                   double left[LEG_COUNT + 1]);

#endif
