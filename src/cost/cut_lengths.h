/* Lengths cut from boxes and rolls that are all of one length, where pieces are not joined. */
#ifndef CLEAT_COST_CUT_LENGTHS_H
#define CLEAT_COST_CUT_LENGTHS_H

#include <stddef.h>

#include "base/arena.h"

/* How many packages of `length` m the pieces need: the longest first, each from the first package that still holds it.
 * Never more than 11/9 of the fewest and one (Johnson's bound for first fit decreasing).  A piece longer than a package
 * takes whole ones and a rest.  `length` > 0, pieces > 0; in n log n.  Memory from `arena` while it runs. */
size_t cut_lengths(struct arena *arena, const double *pieces, size_t count, double length);

/* How many joints a piece has when it is put together of packages of that length. */
size_t cut_splices(double piece, double length);

#endif
