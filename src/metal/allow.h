/* What seams and connections ask of each edge of a blank. */
#ifndef CLEAT_METAL_ALLOW_H
#define CLEAT_METAL_ALLOW_H

#include "metal/metal.h"

/* Whose settings name the joint at a port: of the part's own run, of the run hung from its end, or of one on a leg. */
enum joint_side { JOINT_OWN, JOINT_BEHIND, JOINT_LEGS, JOINT_SIDES = JOINT_LEGS + LEG_COUNT };

struct allowing {
    const struct shop *shop;
    const struct settings *settings;            /* of the run the part is for */
    const struct settings *joints[JOINT_SIDES]; /* where two runs meet, those of the one behind: its near end says */
    bool capped;   /* a cap closes it: the far end stays raw, for the cap's rim goes over it */
    bool seam_own; /* the run declares its seam itself: what cannot be made so is noted */
    bool supply;   /* the air goes from the near to the far ports, and a crimped end goes with it */
};

/* The seams that the part is locked by, and the connections at its ports; notes what was declared and is not used. */
void part_connections(struct part *part, const struct allowing *allowing);

/* Sets kind, allowance, notch and label of all edges of the part's blanks.  False: one does not fit, *why says which,
 * and the solid's hint what would. */
bool part_allow(struct part *part, const struct allowing *allowing, const char **why);

#endif
