/* All ducts of one network sized together, toward the outlets, whatever the method: it only says what air may do in
 * them. */
#ifndef CLEAT_SIZE_SIZING_H
#define CLEAT_SIZE_SIZING_H

#include "size/choose.h"

/* How far a run gives way to the wall that it is tapped into. */
enum wall_rule {
    WALLS_EDGED, /* it is made as small as the hole and metal beside it ask */
    WALLS_BARE,  /* as the hole alone asks: it may take the wall whole */
    WALLS_LEFT   /* it may go flatter but no smaller */
};

struct sizing {
    struct job *job;
    struct network *network;
    const struct catalogue *catalogue;
    const struct section **firsts;             /* of each duct, by id: its first section */
    struct size_need *needs;                   /* of each duct, by id: of the air, and in sizing_size of the taps too */
    double rate;                               /* Pa/m that no duct may lose; 0: no matter */
    double (*velocity)(const struct run *run); /* m/s that no duct of a run may pass */
    struct diagnostics *said;                  /* who is told of what is wrong; NULL, from sizing_make: nobody */
    const bool *leads_on; /* of each section, by id: air is taken off behind it; static regain's own, else NULL */
    double share;         /* of that velocity, what may be used; 1 from sizing_make */

    enum wall_rule walls; /* WALLS_EDGED from sizing_make */

    /* Enlarges a duct that is already large enough, where the method wants more, and sets the reason; NULL: it never
     * does. */
    void (*grow)(struct sizing *sizing, struct duct *duct, const struct size_bounds *bounds);
};

/* `velocity` is velocity_limit, velocity_target or the like. */
struct sizing sizing_make(struct job *job, struct network *network, const struct catalogue *catalogue,
                          double (*velocity)(const struct run *run));

/* One round: sizes for `rate` (0: by velocity alone) every duct that nothing else dictates, with room for its taps;
 * then losses and budget.  The result does not depend on earlier rounds. */
void sizing_size(struct sizing *sizing, double rate);

/* Sizes with `size_all`, and again with bare walls where runs that walls keep small cost the budget, if that mends it:
 * little metal beside a hole is a warning, air that does not arrive an error.  Sizes that would meet no budget whatever
 * walls held only stand in, and are as they would be without them. */
void sizing_with_walls(struct sizing *sizing, void (*size_all)(struct sizing *sizing));

/* Once the sizes stand: why each is what it is; diagnoses those that the limits keep too small.  `excess` is the
 * friction rate, Pa/m, up to which a duct may go over its need with no more than a warning; 0: none may. */
void sizing_explain(struct sizing *sizing, double excess); /* reasons.c */

/* ---- What methods and reasons.c share with sizing.c ----------------------------------------------------------------
 */

/* The size of a duct, of that shape, within bounds: with room for its taps if there is one, else without.
 * False, and the size, as choose_size. */
bool sizing_choose(const struct sizing *sizing, const struct duct *duct, enum shape shape,
                   const struct size_bounds *bounds, struct duct_size *size);

/* What it would need if nothing were tapped into it. */
struct size_need sizing_need_of_air(const struct sizing *sizing, const struct duct *duct);

/* Fills rate and needs of the air, and no sizes. */
void sizing_find_needs(struct sizing *sizing, double rate);

/* The size of a leg that begins with a change: its share of the split it leaves, which has its size at hand. */
struct duct_size sizing_leg_size(const struct catalogue *catalogue, const struct duct *leg);

/* Whether something other than sizing says how large a duct is. */
bool sizing_dictated(const struct duct *duct);

/* The duct before it in the same run, if sizing chose that one too; or NULL. */
struct duct *sizing_chosen_upstream(const struct duct *duct);

/* What a duct's place allows, with the sizes at hand toward the unit. */
struct size_bounds sizing_bounds(const struct sizing *sizing, const struct duct *duct);

#endif
