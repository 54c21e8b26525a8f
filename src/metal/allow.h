/* What seams and connections ask of each edge of a blank. */
#ifndef CLEAT_METAL_ALLOW_H
#define CLEAT_METAL_ALLOW_H

#include "metal/metal.h"

struct allowing {
    const struct shop *shop;
    const struct settings *settings; /* of the run the part is for */
    bool supply;                     /* the air goes from the near to the far ports, and a crimped end goes with it */
};

/* The seam that the part is locked by, and the connections at its ports. */
void part_connections(struct part *part, const struct allowing *allowing);

/* Sets kind, allowance, notch and label of all edges of the part's blanks.  False: one does not fit, and *why says
 * which. */
bool part_allow(struct part *part, const struct allowing *allowing, const char **why);

#endif
