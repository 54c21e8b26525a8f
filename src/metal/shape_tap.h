/* Taps: the collars that join a run to the wall of another, and the openings that they need there.
 *
 * A tap's own run begins at the wall: y goes out along it.  y = 0 is the plane of a flat wall; of a round one the plane
 * that touches it, at its radius from the parent's line, and the collar reaches down from there to the wall.  The far
 * end stands at y = length.
 */
#ifndef CLEAT_METAL_SHAPE_TAP_H
#define CLEAT_METAL_SHAPE_TAP_H

#include "metal/body.h"
#include "model/job.h"
#include "model/piece.h"

enum tap_style {
    TAP_STRAIGHT, /* as wide as its run */
    TAP_SHOE,     /* slopes on the side toward the unit */
    TAP_CONICAL,  /* spreads on all sides */
    TAP_SPIN,     /* a short round collar on a flat wall */
    TAP_SADDLE    /* straight, on a plate that lies round the opening */
};

struct tap_size {
    double style;            /* enum tap_style */
    struct profile run;      /* of the run that begins there */
    struct tap_opening base; /* how much larger the opening is: of a shoe and a conical tap.  On a round wall at its
                                deepest, and less above */
    double toward; /* rad: which way the unit lies, along the parent, seen along the tap: from its right anticlockwise,
                      in quarters */
    double wall;   /* m: diameter of the parent's wall; 0: flat */
    /* No piece gives these two: the published collars that the shape is held against do. */
    double aside; /* m: by how much the tap's line passes the parent's, on the right of who stands on the wall and looks
                     away from the unit */
    double lean;  /* rad: how far a straight tap leans away from the unit; 0: square to the wall */
    double length; /* m, over 0 */
    double collar; /* m: straight part at the far end of a shoe or conical tap */
};
HOLDS_DOUBLES(struct tap_size);

/* How long a tap is made, with its collar: common practice, no source.  A shoe slopes at 45 degrees, so that it is as
 * high as it is longer, on a round wall more steeply (from memory: SMACNA HVAC Duct Construction Standards, 45-degree
 * entry). */
void tap_lengths(struct tap_size *tap);

/* shape_builder.  Ports: the base, then the far end. */
void shape_tap(struct solid *solid, const void *size);

/* The border of its base, a loop whose first point is not repeated; faults the solid, and gives NULL, when the edges
 * there do not close to one. */
struct space *tap_base_border(struct solid *solid, struct arena *arena, size_t *count);

/* Where a tap on `side` finds itself: its `toward` and `wall`. */
void tap_on(struct tap_size *tap, enum side side, struct profile parent);

/* The opening that a tap needs in the wall of a straight duct or box of section `parent`, whose near end stands in
 * frame_near and where the tap's line passes the parent's (or meets a flat wall) `station` m along: the border of the
 * tap's own base, or, of a tap that cannot be (which is told where it is made), the section of one. */
struct tapped tap_opening_in(struct solid *solid, const struct tap_size *tap, enum side side, double station,
                             struct profile parent);

#endif
