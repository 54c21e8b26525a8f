/* Boxes of flat sheet with mouths, told by their outline as seen from above: what splits are made of.
 *
 * A top and a bottom cheek alike, and walls that stand square to the middle plane.  Cheeks take the flange of their
 * seams, walls the pocket; walls that follow each other are one strip, bent at the corners.
 */
#ifndef CLEAT_METAL_SPLIT_BOX_H
#define CLEAT_METAL_SPLIT_BOX_H

#include "metal/body.h"

enum { PLAN_CORNERS = 12, PLAN_MOUTHS = 3, PLAN_FACES = 3 };

struct plan_corner {
    double x, y, half; /* m; the cheeks stand `half` above and below the middle plane there */
};

/* Where a duct joins.  Square to its side of the box, as wide and high as that side. */
struct plan_mouth {
    const char *name; /* of its port */
    enum port_use use;
    struct profile to; /* the duct's section */
    double loft;       /* m outward from the box to the port, where `to` is not the mouth's own section */
    bool inward;       /* the unit is on this side */
    int port;          /* by split_box */
};

struct plan_side {
    const char *name; /* a wall's; NULL: a mouth */
    int mouth;
};

/* A plane part of the cheeks: its corners, anticlockwise seen from above. */
struct plan_face {
    int count;
    int corner[PLAN_CORNERS];
};

struct split_plan {
    int corners, mouths, faces;              /* faces 0: each cheek is one plane */
    struct plan_corner corner[PLAN_CORNERS]; /* anticlockwise seen from above */
    struct plan_side side[PLAN_CORNERS];     /* from corner i to the next */
    struct plan_mouth mouth[PLAN_MOUTHS];    /* in the order of the ports */
    struct plan_face face[PLAN_FACES];       /* two that share a line that is no side are bent there */
};

/* Adds a corner and the side that leads from it to the next. */
void plan_wall(struct split_plan *plan, double x, double y, double half, const char *name);
void plan_open(struct split_plan *plan, double x, double y, double half, int mouth);

/* Left for right. */
void plan_mirror(struct split_plan *plan);

/* Adds its panels, ports and lofts to the solid. */
void split_box(struct solid *solid, struct split_plan *plan);

#endif
