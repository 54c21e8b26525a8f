/* What pressure buys: the least cost of a part of the network, as a staircase over the pressure that it is given. */
#ifndef CLEAT_SIZE_STEPS_H
#define CLEAT_SIZE_STEPS_H

#include <stdbool.h>
#include <stddef.h>

/* From `need` Pa on the part can be had for `cost`. */
struct step {
    double need, cost;
};

/* Needs ascend and costs descend, strictly.  No steps: it cannot be had. */
struct steps {
    size_t count;
    struct step *at;
};

/* How long a staircase may get before neighbours are taken together; what has to have room for two of them.
 * Chosen here, no source: the resolution is then a two-hundredth of the pressure at most, 0.5 % of the budget. */
enum { STEPS_LIMIT = 192, STEPS_ROOM = 2 * STEPS_LIMIT + 4 };

/* The least cost with `pressure` Pa; infinite when no step needs so little. */
double steps_cost(const struct steps *steps, double pressure);

/* Into `out`, which has room for both together and is neither: */

/* both parts fed with the same pressure, each losing its own first. */
void steps_both(struct steps *out, const struct steps *a, double loss_a, const struct steps *b, double loss_b);
/* one or the other, whichever is cheaper. */
void steps_either(struct steps *out, const struct steps *a, const struct steps *b);

/* Into `out`, which has room for it: the part behind a loss. */
void steps_behind(struct steps *out, const struct steps *a, double loss);

/* Drops what needs more than `pressure`, but not the step that needs least.  Of more steps than STEPS_LIMIT, those
 * whose needs lie within one of STEPS_LIMIT equal parts of their range become one: the cheapest of them, which can be
 * had; or, `bound`, what is as cheap and needs no more than the least of them, which costs no more than the truth.
 * Gives whether any were taken together. */
bool steps_thin(struct steps *steps, double pressure, bool bound);

#endif
