/* Sizing: one interface, one row a method. */
#ifndef CLEAT_SIZE_SIZE_H
#define CLEAT_SIZE_SIZE_H

#include "air/air.h"

struct catalogue; /* size/catalogue.h */

struct sizing_method {
    const char *name;    /* as written behind `sizing` */
    const char *words;   /* how the bid explains it, one sentence */
    bool meets_budget;   /* it chooses sizes so that the governing path meets the budget, where a job gives no rate */
    bool follows_losses; /* what any fitting loses may move its sizes, though the budget has room for it */
    const struct sizing_method *compared; /* whose price is told beside it, in a priced job; NULL: none is */
    /* Fills ducts, losses, budget, rate, rounds.  Ducts for which no standard size fits are told to `said`; NULL:
     * nothing is. */
    void (*size)(struct job *job, struct network *network, const struct catalogue *catalogue, struct diagnostics *said);
};

/* The methods, in the order of the manual. */
const struct sizing_method *const *sizing_methods(size_t *count);

/* The one that size_ducts took; NULL before it. */
const struct sizing_method *sizing_method_used(const struct job *job);

/* Sizes every unit's ducts by the job's method.  Diagnoses an unknown method and a duct for which no standard size fits
 * its limits. */
void size_ducts(struct job *job);

#endif
