/* Boxes of flat sheet: four sides round a line, and at each end a plate, strips beside an opening, or nothing. */
#ifndef CLEAT_METAL_BOX_BODY_H
#define CLEAT_METAL_BOX_BODY_H

#include "metal/body.h"

enum { BOX_NEAR, BOX_FAR, BOX_ENDS };
enum { BOX_TOP, BOX_LEFT, BOX_BOTTOM, BOX_RIGHT, BOX_SIDES };

struct box_end {
    struct profile duct;         /* what joins it there, in the middle of it; width 0: closed */
    struct frame inward;         /* its middle; `along` points into the box */
    int port;                    /* NO_PORT: closed */
    bool wide, high;             /* rectangular, and as wide or as high as the box: no plate beside it */
    const char *plate, *opening; /* what they are called */
};

struct box_body {
    struct frame frame;           /* the middle of the near end; `along` points to the far one */
    double width, height, length; /* m, along its right, up and along */
    struct box_end ends[BOX_ENDS];
    const char *const *sides; /* BOX_SIDES names */
};

/* An end for `duct`, whose port is added when it is open; `duct` larger than the box is a fault with that hint. */
struct box_end box_end_of(struct solid *solid, const struct box_body *box, int end, struct profile duct,
                          enum port_use use, const char *name, const char *hint);

/* Sides and plates.  Seams at two corners opposite each other and round the plates, which take the pockets; gives the
 * panels of the sides. */
void solid_box(struct solid *solid, const struct box_body *box, int panels[BOX_SIDES]);

#endif
