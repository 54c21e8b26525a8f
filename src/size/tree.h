/* All ducts of one network sized together, toward the outlets, whatever the method: it only says what each duct needs. */
#ifndef CLEAT_SIZE_TREE_H
#define CLEAT_SIZE_TREE_H

#include "size/choose.h"

struct tree {
    struct job *job;
    struct network *network;
    const struct catalogue *catalogue;
    struct size_need *needs; /* of each duct, by id; the method fills them before each tree_size */
};

struct tree tree_make(struct job *job, struct network *network, const struct catalogue *catalogue);

/* The need of a duct that may lose `rate` Pa/m and move air at `velocity` m/s at most (0: no matter). */
struct size_need tree_need(const struct tree *tree, const struct duct *duct, double rate, double velocity);

/* Sizes every duct that nothing else dictates; then losses and budget.  One round. */
void tree_size(struct tree *tree);

/* Once the sizes stand: why each is what it is; diagnoses those that the limits keep too small.  `excess` is the friction rate, Pa/m, up
 * to which a duct may go over its need with no more than a warning; 0: none may. */
void tree_explain(struct tree *tree, double excess);

#endif
