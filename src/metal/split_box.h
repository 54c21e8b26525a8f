/* Boxes of flat sheet with mouths, told by their outline as seen from above: what splits are made of.
 *
 * A top and a bottom cheek alike, and walls that stand square to the middle plane.  Cheeks take the flange of their
 * seams, walls the pocket; walls that follow each other are one strip, bent at the corners.
 */
#ifndef CLEAT_METAL_SPLIT_BOX_H
#define CLEAT_METAL_SPLIT_BOX_H

#include "metal/body.h"

enum { BOX_CORNERS = 12, BOX_MOUTHS = 3, BOX_FACES = 3 };

struct box_corner {
    double x, y, half; /* m; the cheeks stand `half` above and below the middle plane there */
};

/* Where a duct joins.  Square to its side of the box, as wide and high as that side. */
struct box_mouth {
    const char *name; /* of its port */
    enum port_use use;
    struct profile to; /* the duct's section */
    double loft;       /* m outward from the box to the port, where `to` is not the mouth's own section */
    bool inward;       /* the unit is on this side */
    int port;          /* by split_box */
};

struct box_side {
    const char *name; /* a wall's; NULL: a mouth */
    int mouth;
};

/* A plane part of the cheeks: its corners, anticlockwise seen from above. */
struct box_face {
    int count;
    int corner[BOX_CORNERS];
};

struct box {
    int corners, mouths, faces;            /* faces 0: each cheek is one plane */
    struct box_corner corner[BOX_CORNERS]; /* anticlockwise seen from above */
    struct box_side side[BOX_CORNERS];     /* from corner i to the next */
    struct box_mouth mouth[BOX_MOUTHS];    /* in the order of the ports */
    struct box_face face[BOX_FACES];       /* two that share a line that is no side are bent there */
};

/* Adds a corner and the side that leads from it to the next. */
void box_wall(struct box *box, double x, double y, double half, const char *name);
void box_open(struct box *box, double x, double y, double half, int mouth);

/* Left for right. */
void box_mirror(struct box *box);

/* Adds its panels, ports and lofts to the solid. */
void split_box(struct solid *solid, struct box *box);

#endif
