/* Tubes: what most fittings are made of.  A section is a rectangle with rounded corners: sharp ones are rectangular
 * duct, corners that are half circles flat oval, a quarter circle each round duct.  A tube is the surface between two
 * sections (a loft), or one section pushed along a line and cut off at each end (a prism).
 */
#ifndef CLEAT_METAL_BODY_H
#define CLEAT_METAL_BODY_H

#include "metal/solid.h"

struct profile {
    double width, height, radius; /* m; radius of the corners */
};
struct profile profile_of(struct duct_size size);
/* The duct of a section: round when its corners are all there is of it, oval when they fill one side. */
struct duct_size profile_size(struct profile section);

/* How a tube is parted into blanks. */
enum wrap {
    WRAP_ONE,    /* one blank, one seam */
    WRAP_HALVES, /* two blanks, seams opposite each other */
    WRAP_SIDES   /* a blank for each side, seams at the corners: rectangular only, else as WRAP_HALVES */
};

/* What an end of a tube is. */
struct tube_end {
    enum join join; /* JOIN_PORT, JOIN_SEAM (to the next tube), JOIN_BEND */
    int port;
    bool pocket; /* JOIN_SEAM */
};

/* The surface between a section at each end.  The ends are parallel planes: far's axes are near's turned about `along`
 * only, or not at all (turned: both rectangular; sides are then broken on a diagonal).  From corner to corner and side
 * to side.  `prefix` of panel names, or NULL ("top", "left", ... "body"). */
struct loft {
    struct frame near, far; /* both `along` point from near to far */
    struct profile from, to;
    enum wrap wrap;
    struct tube_end near_end, far_end;
    const char *name; /* of rolled or single panels: "cone", "body" */
};
void solid_loft(struct solid *solid, const struct loft *loft);

/* A collar on the far end of a loft, whose far_end is JOIN_SEAM: its far section pushed on by `length`, divided as the
 * loft is, with the seam behind the loft's. */
void solid_loft_collar(struct solid *solid, const struct loft *loft, double length, const char *name,
                       const struct tube_end *end);

/* A section pushed along frame.along, between two cuts.  `frame` is anywhere along it: its origin lies between the cuts
 * or at one.  near lies before far at every ruling: else a fault. */
struct prism {
    struct frame frame;
    struct profile section;
    struct cut near, far; /* planes, or cylinders (a saddle) */
    enum wrap wrap;
    double seam; /* turns of 90 degrees by which the seam is moved from its usual place (the bottom of round duct, the
                    right bottom corner) */
    struct tube_end near_end, far_end;
    const char *name;
};
void solid_prism(struct solid *solid, const struct prism *prism);

/* The same, for a duct that is tapped: an opening in it, of the tap's section in `tap` (whose `along` points out of the
 * duct, and whose origin lies on the duct's line or outside), or of the border through `points` in space, moved along
 * the tap onto the wall. */
struct tapped {
    struct frame tap;
    struct profile section;
    const char *name;
    const struct space *points; /* NULL: the section's */
    size_t count;
};
void solid_tapped_prism(struct solid *solid, const struct prism *prism, const struct tapped *taps, size_t count);

/* A flat plate closing or framing an end: the section of `frame`'s plane, with its border joined as told; seen from the
 * inside, which is where `along` points. Gives its panel. */
int solid_plate(struct solid *solid, const struct frame *frame, struct profile section, const char *name,
                enum join join, int port);

/* The points of a section's border in a frame's plane, anticlockwise seen against `along`; sharp corners are one point,
 * arcs are divided for CHORD_LIMIT. In the arena. */
struct space *profile_points(const struct solid *solid, const struct frame *frame, struct profile section,
                             size_t *count);

#endif
