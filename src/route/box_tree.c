/* A tree of boxes. */
#include "route/box_tree.h"

#include <math.h>
#include <stdbool.h>
#include <stdint.h>
#include <stdlib.h>

/* Boxes in a leaf; levels of the tree at most.  Chosen here, no source: a few boxes are looked at as
 * fast as a level is gone down; more levels than memory can hold. */
enum { LEAF = 4, DEEPEST = 64 };

/* A node holds boxes `first` to `first + count`; its halves are nodes 2 i + 1 and 2 i + 2. */
struct box_tree {
    struct box *boxes;
    size_t count, leaves;
    struct box *nodes; /* bounds of each */
};

/* ---- Order ------------------------------------------------------------------------------------------------------- */

struct keyed {
    uint64_t key;
    struct box box;
};

/* 21 bits, two zeros behind each. */
static uint64_t spread(uint64_t bits) {
    bits = (bits | bits << 32) & 0x1f00000000ffff;
    bits = (bits | bits << 16) & 0x1f0000ff0000ff;
    bits = (bits | bits << 8) & 0x100f00f00f00f00f;
    bits = (bits | bits << 4) & 0x10c30c30c30c30c3;
    return (bits | bits << 2) & 0x1249249249249249;
}

/* Place of the middle along Morton's curve through the bounds of all. */
static uint64_t key_of(const struct box *box, const struct box *bounds) {
    uint64_t key = 0;
    for (int i = 0; i < 3; i++) {
        double room = bounds->high[i] - bounds->low[i], middle = (box->low[i] + box->high[i]) / 2;
        double share = room > 0 ? (middle - bounds->low[i]) / room : 0;
        key |= spread((uint64_t)(fmin(fmax(share, 0), 1) * 2097151)) << i;
    }
    return key;
}

static int by_key(const void *left, const void *right) {
    const struct keyed *a = left, *b = right;
    if (a->key != b->key)
        return a->key < b->key ? -1 : 1;
    return (a->box.what > b->box.what) - (a->box.what < b->box.what);
}

static void widen(struct box *box, const struct box *by) {
    for (int i = 0; i < 3; i++) {
        box->low[i] = fmin(box->low[i], by->low[i]);
        box->high[i] = fmax(box->high[i], by->high[i]);
    }
}

static const struct box nothing = {{INFINITY, INFINITY, INFINITY}, {-INFINITY, -INFINITY, -INFINITY}, 0};

static void put_in_order(struct arena *arena, struct box *boxes, size_t count) {
    struct keyed *keyed = ARENA_ARRAY(arena, struct keyed, count + 1);
    struct box bounds = nothing;
    for (size_t i = 0; i < count; i++)
        widen(&bounds, &boxes[i]);
    for (size_t i = 0; i < count; i++)
        keyed[i] = (struct keyed){key_of(&boxes[i], &bounds), boxes[i]};
    qsort(keyed, count, sizeof *keyed, by_key);
    for (size_t i = 0; i < count; i++)
        boxes[i] = keyed[i].box;
}

/* ---- Tree -------------------------------------------------------------------------------------------------------- */

static bool meets(const struct box *a, const struct box *b) {
    for (int i = 0; i < 3; i++)
        if (a->low[i] > b->high[i] || b->low[i] > a->high[i])
            return false;
    return true;
}

struct box_tree *box_tree_new(struct arena *arena, struct box *boxes, size_t count) {
    struct box_tree *tree = ARENA_NEW(arena, struct box_tree);
    put_in_order(arena, boxes, count);
    tree->boxes = boxes;
    tree->count = count;
    tree->leaves = 1;
    while (tree->leaves * LEAF < count)
        tree->leaves *= 2;
    tree->nodes = ARENA_ARRAY(arena, struct box, 2 * tree->leaves);
    for (size_t i = 0; i < 2 * tree->leaves; i++)
        tree->nodes[i] = nothing;
    for (size_t i = 0; i < count; i++)
        widen(&tree->nodes[tree->leaves - 1 + i / LEAF], &boxes[i]);
    for (size_t i = tree->leaves - 1; i-- > 0;) {
        widen(&tree->nodes[i], &tree->nodes[2 * i + 1]);
        widen(&tree->nodes[i], &tree->nodes[2 * i + 2]);
    }
    return tree;
}

static bool each_in_leaf(const struct box_tree *tree, size_t leaf, const struct box *box, box_found *found,
                         void *context) {
    for (size_t i = leaf * LEAF; i < tree->count && i < (leaf + 1) * LEAF; i++)
        if (meets(&tree->boxes[i], box) && !found(context, &tree->boxes[i]))
            return false;
    return true;
}

int box_tree_each(const struct box_tree *tree, const struct box *box, box_found *found, void *context) {
    size_t waiting[2 * DEEPEST], count = 0;
    waiting[count++] = 0;
    while (count) {
        size_t node = waiting[--count];
        if (!meets(&tree->nodes[node], box))
            continue;
        if (node + 1 < tree->leaves) {
            waiting[count++] = 2 * node + 2;
            waiting[count++] = 2 * node + 1;
        } else if (!each_in_leaf(tree, node + 1 - tree->leaves, box, found, context)) {
            return 0;
        }
    }
    return 1;
}
