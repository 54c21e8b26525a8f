/* Boxes in space, and which of them meet: a tree over them in the order of a curve that fills space, so that what is
 * near in space is near in the tree.  Building takes n log n, a question log n and what it finds. */
#ifndef CLEAT_ROUTE_BOX_TREE_H
#define CLEAT_ROUTE_BOX_TREE_H

#include "base/arena.h"

struct box {
    double low[3], high[3]; /* m */
    size_t what;            /* the caller's */
};

struct box_tree;

/* The boxes are put in the tree's order; they must live as long. */
struct box_tree *box_tree_new(struct arena *arena, struct box *boxes, size_t count);

/* Calls `found` for every box that meets `box`, in an order that depends on the boxes alone, until it says false; gives
 * false then. */
typedef int box_found(void *context, const struct box *box);
int box_tree_each(const struct box_tree *tree, const struct box *box, box_found *found, void *context);

#endif
