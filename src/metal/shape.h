/* What the shapes of fittings share: sizes as doubles, and the two ports of a piece.
 *
 * A shape is a struct of doubles and a function that builds it: it adds panels and ports to a solid, or says by
 * solid_fault why it cannot be.  The caller closes the solid.
 */
#ifndef CLEAT_METAL_SHAPE_H
#define CLEAT_METAL_SHAPE_H

#include "metal/solid.h"
#include "model/directions.h"

/* A duct's size as doubles: the struct of a shape holds nothing else. */
struct shape_duct {
    double shape, width, height; /* enum shape; m */
};
struct shape_duct shape_duct_of(struct duct_size size);
struct duct_size shape_duct_size(struct shape_duct duct);

/* For hints: a length no less than this, whole inches or centimetres, in the units of a job; and a size likewise. */
const char *enough_length(struct arena *arena, enum measure_system system, double length);
double enough_whole(enum measure_system system, double length);

/* "transition to 14 x 8 in over 8 in", in which no side leaves the way by more than the check `transition` asks. */
const char *transition_hint(struct arena *arena, enum measure_system system, struct duct_size near,
                            struct duct_size far);

/* The near port's frame rolled so that a bend going `way` goes left in it. */
struct frame frame_for_way(double way);
/* A frame that stands as frame_for_way rolled it, rolled back about its own `along`: the axes of its duct. */
struct frame frame_unrolled(const struct frame *frame, double way);

/* The near port, toward the unit, its middle at the origin; the first of a solid. */
int shape_near_port(struct solid *solid, struct shape_duct duct);
/* The far port; `frame` as frame_for_way rolled it, `along` out of the solid. */
int shape_far_port(struct solid *solid, const struct frame *frame, double way, struct shape_duct duct);

#endif
