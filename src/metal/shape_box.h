/* Plenum boxes, caps, and blades of volume dampers. */
#ifndef CLEAT_METAL_SHAPE_BOX_H
#define CLEAT_METAL_SHAPE_BOX_H

#include "metal/shape_straight.h"

/* Followed in memory by `openings` of struct wall_opening. */
struct box_size {
    double width, height, length; /* m */
    struct profile near,
        far;     /* what joins its ends; width 0: closed.  As wide or as high as the box: no plate beside it */
    double face; /* 1: a register, grille or filter sits on the far end; else 0 */
    double openings;
};
HOLDS_DOUBLES(struct box_size);

/* shape_builder.  A wrap of four sides, and plates with openings on its ends.  Ports: the near end, then the far one,
 * where they are open. */
void shape_box(struct solid *solid, const void *size);

/* Whether the opening lies within one side of the box, with metal round it: ask before, else it is a fault. */
bool box_takes(const struct box_size *box, const struct wall_opening *opening);

/* A cap's rim, m: common practice, no source. */
double cap_rim(void);

/* By how much it is larger than the duct on every side, m. */
double cap_slip(void);

/* shape_builder of a struct profile, the duct's: a plate with a rim turned toward the duct all round, of one sheet; the
 * rim goes over the duct. */
void shape_cap(struct solid *solid, const void *size);

/* shape_builder of a struct profile, the duct's: the blade of a volume damper, 1/4 in less than the duct each way
 * (common practice, no source). */
void shape_blade(struct solid *solid, const void *size);

#endif
