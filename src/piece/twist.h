/* The free section of a transition whose far end is turned, and how sharply its sides are broken. */
#ifndef CLEAT_PIECE_TWIST_H
#define CLEAT_PIECE_TWIST_H

#include "metal/shape_change.h"

struct twist {
    double broken; /* rad: the sharpest bend on a diagonal; 0: no side is broken */
    double open;   /* the least section on the way, over the smaller end; 1: it is nowhere less than that */
};

/* Of one between two rectangular ends.  Geometry: each side is broken on the shorter of its diagonals, as
 * metal/plane.c breaks it, and a section across is the polygon of its edges and diagonals there. */
struct twist twist_of(const struct change_shape *shape);

#endif
