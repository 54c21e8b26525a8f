/* Lined duct.  The size of duct is clear: what the air passes.  Its metal is larger, by the lining on every side. */
#ifndef CLEAT_MODEL_LINED_H
#define CLEAT_MODEL_LINED_H

#include "model/job.h"

/* The metal round a lining of that thickness, m; negative: what is clear within metal.  A size that is not known stays
 * so. */
struct duct_size size_around(struct duct_size size, double lining);

/* The metal of a duct: what is cut, joined, hung and stands in the room; unknown when it has no size, or is NULL. */
struct duct_size duct_metal(const struct duct *duct);

/* The metal that a run at `port` (PORT_TAP) is cut into: that of the piece there, or `duct`,
 * the metal that it leaves. */
struct duct_size tapped_metal(const struct port *port, struct duct_size duct);

/* How thick a piece is lined, m: as the duct behind it, or that before it where that is lined and
 * it is no tap; 0: not. */
double piece_lining(const struct piece *piece);

#endif
