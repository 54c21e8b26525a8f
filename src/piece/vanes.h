/* Turning vanes as parts: single plates, and rows of them between two rails. */
#ifndef CLEAT_PIECE_VANES_H
#define CLEAT_PIECE_VANES_H

#include "metal/metal.h"
#include "metal/shape_vane.h"

/* `in` is an order that has the ends, the station and what else the vanes have of the fitting that they stand in;
 * `note` as of struct order. */
void make_vane(struct making *making, const struct order *in, struct vane vane, const char *note);

/* The vanes of a rail, which turn the air by `sweep`, `length` m long from cheek to cheek; and their two rails, as wide
 * as a vane is from lip to lip. */
void make_railed_vanes(struct making *making, const struct order *in, struct vane_rail rail, double sweep,
                       double length, const char *note);

/* What the air of a radius elbow passes: m and rad. */
struct bend_passage {
    double throat, width; /* the throat's radius; the lesser side that bends */
    double angle, depth;  /* depth: from cheek to cheek */
};

/* The vanes of a radius elbow: they run with the throat, in one ratio. */
void make_bend_vanes(struct making *making, const struct order *in, struct bend_passage passage);

/* About the sheet of the vanes of a square elbow in duct of that size, m2. */
double mitre_vanes_sheet(struct duct_size size);

#endif
