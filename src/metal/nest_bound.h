/* What no way of cutting can do better than.  Internal to the solver. */
#ifndef CLEAT_METAL_NEST_BOUND_H
#define CLEAT_METAL_NEST_BOUND_H

#include "metal/nest_solve.h"

struct nest_bound {
    size_t area;   /* sheets, by area alone, were all as large as the largest */
    size_t sheets; /* sheets, by dual feasible functions too */
    int64_t cost;
};

/* Of `counts` blanks of each rectangle, all of which fit some sheet. */
struct nest_bound nest_bound(struct arena *arena, const struct nest_problem *problem, const size_t *counts);

#endif
