/* All ducts of one network sized together, toward the outlets, whatever the method: it only says what air may do in
 * them. */
#ifndef CLEAT_SIZE_TREE_H
#define CLEAT_SIZE_TREE_H

#include "size/choose.h"

struct tree {
    struct job *job;
    struct network *network;
    const struct catalogue *catalogue;
    const struct section **firsts;             /* of each duct, by id: its first section */
    struct size_need *needs;                   /* of each duct, by id: of the air, and in tree_size of the taps too */
    double rate;                               /* Pa/m that no duct may lose; 0: no matter */
    double (*velocity)(const struct run *run); /* m/s that no duct of a run may pass */
    struct diagnostics *said;                  /* who is told of what is wrong; NULL, from tree_make: nobody */
    const bool *leads_on; /* of each section, by id: air is taken off behind it; static regain's own, else NULL */
    double share;         /* of that velocity, what may be used; 1 from tree_make */

    /* Makes a duct that is large enough by now larger, where the method wants it so, and says
     * why; NULL: it never does. */
    void (*grow)(struct tree *tree, struct duct *duct, const struct size_bounds *bounds);
};

/* `velocity` is velocity_limit, velocity_target or the like. */
struct tree tree_make(struct job *job, struct network *network, const struct catalogue *catalogue,
                      double (*velocity)(const struct run *run));

/* Sizes for `rate` (0: by velocity alone) every duct that nothing else dictates, with room for what is tapped in; then
 * losses and budget.  One round; what it gives does not depend on the rounds before. */
void tree_size(struct tree *tree, double rate);

/* Once the sizes stand: why each is what it is; diagnoses those that the limits keep too small.  `excess` is the
 * friction rate, Pa/m, up to which a duct may go over its need with no more than a warning; 0: none may. */
void tree_explain(struct tree *tree, double excess); /* explain.c */

/* ---- What methods and explain.c share with tree.c ---------------------------------------------------------------- */

/* The size of a duct, of that shape, within bounds: with room for its taps, or where none is within them without.
 * False, and the size, as choose_size. */
bool tree_choose(const struct tree *tree, const struct duct *duct, enum shape shape, const struct size_bounds *bounds,
                 struct duct_size *size);

/* What it needs, were nothing tapped in. */
struct size_need tree_need_of_air(const struct tree *tree, const struct duct *duct);

/* Fills rate and needs of the air, and no sizes. */
void tree_find_needs(struct tree *tree, double rate);

/* The size of a leg that begins with a change: its share of the split it leaves, which has its size at hand. */
struct duct_size tree_leg_size(const struct catalogue *catalogue, const struct duct *leg);

/* Whether something other than sizing says how large a duct is. */
bool tree_dictated(const struct duct *duct);

/* The duct before it in the same run, if sizing chose that one too; or NULL. */
struct duct *tree_chosen_upstream(const struct duct *duct);

/* What a duct's place allows, with the sizes at hand toward the unit. */
struct size_bounds tree_bounds(const struct tree *tree, const struct duct *duct);

#endif
