/* What changes must cost at the least that gain so much. */
#ifndef CLEAT_CHECK_BUDGET_BOUND_H
#define CLEAT_CHECK_BUDGET_BOUND_H

#include "check/budget_options.h"

/* A step from one size of a thing to a larger one: what it gains more, for what it costs more. */
struct bound_step {
    double gain, cost;
    int slot;
};

/* Steps of all things, for one pair of paths, the cheapest a pascal first. */
struct bound {
    int supply, back; /* watched paths; -1: there is none, or it is not watched */
    bool unknown;     /* one is not watched: nothing is known of what it gains */
    int count;
    struct bound_step at[OPTIONS];
};

/* Pa that the pair of paths, and the blower, gain by the option alone. */
double option_gain(const struct option *option, int supply, int back);
double bound_gain(const struct bound *bound, const struct option *option);

/* Of the paths that govern now, with the options that are not barred.  Each gain is counted `margin` times. */
void bound_make(struct bound *bound, const struct options *options, const bool barred[OPTIONS],
                const struct network *network, double margin);

/* The least that options of the slots behind `slot` cost that gain `need` Pa; infinite: they do not; 0 where a path is
 * not watched. */
double bound_least(const struct bound *bound, double need, int slot);

#endif
