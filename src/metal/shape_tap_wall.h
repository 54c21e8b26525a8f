/* A tap and the wall that it sits on, for shape_tap.c and for its place in space; shape_tap.h has what others ask. */
#ifndef CLEAT_METAL_SHAPE_TAP_WALL_H
#define CLEAT_METAL_SHAPE_TAP_WALL_H

#include "metal/shape_tap.h"

/* The tap's frame, rolled so that up is toward the unit. */
struct frame tap_parent_wise(const struct tap_size *tap);

/* The run's section in parent_wise: its height is along the parent. */
struct profile tap_run_wise(const struct tap_size *tap);

/* The base's section, with the tap's own right and up. */
struct profile tap_base_section(const struct tap_size *tap);

/* The middle of the base: a shoe's lies toward the unit.  What spreads has its declared size where it is deepest. */
struct frame tap_base_frame(const struct tap_size *tap);

/* What the tap is cut by: the parent's line leads away from the unit, and leans under the tap. */
struct cut tap_wall_cut(const struct tap_size *tap);

/* A section in tap_parent_wise with what the base is wider than it. */
struct profile tap_spread(struct profile section, struct tap_opening base);

/* How far a round wall falls off under the widest part of the base. */
double tap_base_depth(const struct tap_size *tap);

#endif
