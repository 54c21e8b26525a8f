/* The two halves of the search for a nest: building it blank by blank in many orders, and improving the best of these.
 * Internal to the solver. */
#ifndef CLEAT_METAL_NEST_SEARCH_H
#define CLEAT_METAL_NEST_SEARCH_H

#include "metal/nest_pack.h"

/* The best way found so far to lie all of `blanks`. */
struct nest_best {
    LIST(struct plate) plates;
    int64_t cost;   /* INT64_MAX: none was found */
    int64_t offcut; /* steps2: the largest rectangle that is left over in one */
};

/* The largest rectangle left over on one of the sheets, steps2. */
int64_t pack_offcut(const struct pack *pack, struct arena *scratch);

/* Keeps what the pack holds when it is better than the best. */
void nest_keep(struct nest_best *best, const struct pack *pack, struct arena *arena);

/* `blanks` in many orders and by all rules, until one costs no more than `bound` and a few others were tried beside it, or `work`
 * is done.  At least one order is tried.  Gives the work done. */
size_t nest_build(struct arena *arena, const struct nest_problem *problem, const rectangle_list *blanks, int64_t bound,
                  size_t work, struct nest_best *best);

/* One nest of as many of `blanks` as go on the sheets that there are; those that do not are added to `unplaced`, by rectangle. */
void nest_some(struct arena *arena, const struct nest_problem *problem, const rectangle_list *blanks,
               struct nest_best *best, size_t *unplaced);

/* Takes a cheaper kind for each sheet whose blanks it takes too. */
size_t nest_cheapen(struct arena *arena, const struct nest_problem *problem, struct nest_best *best);

/* Clears regions at random and fills them again, with less to spend than the best did, for so much work. */
size_t nest_improve(struct arena *arena, const struct nest_problem *problem, int64_t bound, size_t work,
                    struct nest_best *best);

/* Finds ways to cut one sheet, and uses each as often as its blanks last, until no more than `few` blanks are left of
 * `left` (counts by rectangle, which become what is left).  For jobs with more blanks than can be placed one by one. */
typedef LIST(struct nest_layout) layout_list;
void nest_repeat(struct arena *arena, const struct nest_problem *problem, size_t few, size_t *left,
                 layout_list *layouts);

#endif
