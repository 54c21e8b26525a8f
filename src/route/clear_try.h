/* Trying a detour: what clears a clash is told only when it has been tried. */
#ifndef CLEAT_ROUTE_CLEAR_TRY_H
#define CLEAT_ROUTE_CLEAR_TRY_H

#include "route/route.h"

struct clearing {
    struct arena *arena; /* of one trial: cleared after each */
    const struct job *job;
    const struct route *route;
    const struct box_tree *tree; /* of the route */
    size_t laid;                 /* stretches laid again so far */
};

/* Whether both clashes are of the same two things. */
bool clash_is_same(const struct clash *a, const struct clash *b);

/* How much farther `way` one side of a clash must go to be clear of the other, m: the other side where `swapped`.  The
 * clash is of `laid`, with what was laid again; NULL: of the route. */
double clear_farther(const struct clearing *clearing, const struct route *laid, const struct clash *clash, bool swapped,
                     struct space way);

/* Lays again with the detour, whose offset goes `toward`: 0 when the route has no clash then but those that were there,
 * none of them worse, and not this one, and nothing hangs too low for it; else how much farther it must go, at least,
 * m; infinite: that does not help. */
double clear_try(struct clearing *clearing, const struct detour *detour, struct space toward,
                 const struct clash *clash);

#endif
