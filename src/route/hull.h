/* Convex bodies: how far two are apart, and how deep they are in each other.  Lengths are m. */
#ifndef CLEAT_ROUTE_HULL_H
#define CLEAT_ROUTE_HULL_H

#include "route/route.h"

/* A flat oval in space: all that lies within `radius` of a rectangle, in its plane. */
struct hull_end {
    struct space middle, right, up; /* axes of length 1 */
    double half_width, half_height; /* of the rectangle */
    double radius;
};

/* Everything between two ends. */
struct hull {
    struct hull_end ends[2];
};

/* The outside of a stretch: its sections, with what stands out round them. */
struct hull hull_of_stretch(const struct stretch *stretch);
struct hull hull_of_box(const double low[3], const double high[3]);

/* The point of the hull that lies farthest along `way` (of any length over 0). */
struct space hull_support(const struct hull *hull, struct space way);
void hull_bounds(const struct hull *hull, double low[3], double high[3]);

/* The distance between them, to a micrometre; 0 when they meet.  By the method of Gilbert, Johnson and Keerthi, "A fast
 * procedure for computing the distance between complex objects in three-dimensional space" (1988), from memory. */
double hull_distance(const struct hull *a, const struct hull *b);

/* How far one must be moved, at least, to leave the other, along an axis of either or one square to an axis of each:
 * for boxes that is the least of all.  0 when they do not meet. */
double hull_overlap(const struct hull *a, const struct hull *b);

/* A place between them, or in both: between their nearest points, or in the middle of what their bounds share. */
struct space hull_meeting(const struct hull *a, const struct hull *b);

#endif
