/* Ways out, proved and priced: with their lines in the job, as far as there is time, else sized anew in place. */
#ifndef CLEAT_CHECK_BUDGET_WEIGH_H
#define CLEAT_CHECK_BUDGET_WEIGH_H

#include "check/budget_search.h"
#include "cost/price.h"

struct way {
    struct changes changes;
    bool is_face;          /* one of them is a face whose price is not known here: such a way comes last */
    const char *comes_out; /* "the tap of desk then wants room": what was wrong before, untold; NULL: nothing */
    bool priced;           /* the job was compiled with it, and has its price with and without */
    money more;            /* of the price, before rounding; may be less */
    double sheet;          /* m2 of walls and vanes more, of all ducts */
    double walls;          /* money for the walls more (or kg) */
    double spare;          /* Pa left over then */
    bool chosen;           /* to be told */
};

struct weighing {
    struct search_ways *search;
    bool retypes; /* there is time to compile the job with each */
};

/* Fills all of `way`, and adds to its changes the sides of taps that cannot be cut otherwise.  False: with it the unit
 * is not inside its budget, or something else is wrong. */
bool way_weigh(const struct weighing *weighing, struct way *way);

/* Whether the one is told before the other: by price where both have one, else by what the walls are worth, or their
 * sheet where the shop prices none. */
bool way_goes_before(const struct job *job, const struct way *one, const struct way *other);

/* "$31.20 more", "42.0 ft2 more sheet". */
const char *way_takes_words(const struct job *job, const struct way *way);

#endif
