/* Straight duct, with the openings of what is tapped into it. */
#ifndef CLEAT_METAL_SHAPE_STRAIGHT_H
#define CLEAT_METAL_SHAPE_STRAIGHT_H

#include "metal/body.h"
#include "metal/shape.h"
#include "metal/shape_tap.h"

/* An opening in the wall of a duct or box, for what is tapped into it. */
struct wall_opening {
    double side;               /* an enum side (model/run.h): left, right, top, bottom */
    double station;            /* m from the near end to its middle */
    struct shape_duct section; /* its width and height as its run has them: on the top and bottom the width is across
                                  the duct, on the left and right along it */
    struct tap_size tap;       /* what stands there; the border of its base is the opening's */
};
HOLDS_DOUBLES(struct wall_opening);

/* Followed in memory by `openings` of struct wall_opening. */
struct straight_shape {
    struct shape_duct section;
    double length; /* m, finished */
    double wrap;   /* an enum wrap */
    double openings;
};
HOLDS_DOUBLES(struct straight_shape);

/* Seams: of one wrap at the lower right corner, of round duct at the bottom; moved by quarter turns to where no opening
 * is.  An opening that is larger than its wall, or across a seam wherever that is put, is a fault: ask before. */
void shape_straight(struct solid *solid, const void *size);

/* Whether the opening lies within one wall of the joint. */
bool straight_takes(const struct straight_shape *shape, const struct wall_opening *opening);
/* Whether some side is left for its seam; `tapped` are those that have openings, by 1u << enum side. */
bool straight_has_seam(const struct straight_shape *shape, unsigned tapped);

/* An opening as a prism of section `parent` wants it; the prism's frame is at the near end. */
struct tapped wall_tapped(struct solid *solid, const struct wall_opening *opening, struct profile parent);

#endif
