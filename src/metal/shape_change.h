/* Transitions: a tube from one section to another. */
#ifndef CLEAT_METAL_SHAPE_CHANGE_H
#define CLEAT_METAL_SHAPE_CHANGE_H

#include "metal/body.h"
#include "metal/shape.h"

struct change_shape {
    struct shape_duct near, far;
    double length;    /* m, > 0 */
    double right, up; /* m: where the far end's centre lies, from the near end's line */
    double turned;    /* rad, clockwise as you look away from the unit: rectangular to rectangular only */
};
HOLDS_DOUBLES(struct change_shape);

/* Rectangular to rectangular: four sides, seams at the corners.  Others: two halves, seams in the middle of the bottom
 * and the top. A cone is one sheet.  Sides of a turned one are broken on a diagonal. */
void shape_change(struct solid *solid, const void *size);

#endif
