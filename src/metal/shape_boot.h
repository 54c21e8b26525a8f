/* Boots: from a duct to the face that a register, grille or filter sits on. */
#ifndef CLEAT_METAL_SHAPE_BOOT_H
#define CLEAT_METAL_SHAPE_BOOT_H

#include "metal/body.h"

/* In line with the duct, or moved aside. */
struct straight_boot {
    struct profile duct, face;
    double length;    /* m, > 0 */
    double right, up; /* m: where the face's middle lies, from the duct's line */
};
HOLDS_DOUBLES(struct straight_boot);

/* shape_builder.  Ports: the duct, the face. */
void shape_straight_boot(struct solid *solid, const void *size);

/* A box that opens downward to the face, with a collar for the duct on its side.  The face's width lies across the
 * duct; the box is wider than the face where the duct is.  It is built with the face down; it hangs whichever way the
 * room needs. */
struct elbow_boot {
    struct profile duct, face;
    double collar; /* m, > 0: from the end of the collar to the box */
};
HOLDS_DOUBLES(struct elbow_boot);

/* How deep the box is, m: the duct, and half an inch of sheet above and below it, which hold the collar (common
 * practice, no source). */
double elbow_boot_depth(struct profile duct);

/* The least collar, m: what a joint takes (common practice, no source). */
double elbow_boot_collar(void);

/* shape_builder.  Ports: the duct, the face, the collar's base on the box. */
void shape_elbow_boot(struct solid *solid, const void *size);

#endif
