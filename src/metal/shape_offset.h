/* Offsets: a step aside with the direction kept; angled or ogee, rectangular, round or oval.  Each is built by one
 * function of type shape_builder.
 */
#ifndef CLEAT_METAL_SHAPE_OFFSET_H
#define CLEAT_METAL_SHAPE_OFFSET_H

#include "metal/shape.h"

struct offset {
    struct shape_duct duct;
    double way;    /* enum way: where it goes */
    double aside;  /* m, between the middles of its ends */
    double along;  /* m, from end to end */
    double collar; /* m, at least straight at each end, on the inside of the bend there */
};
HOLDS_DOUBLES(struct offset);

/* How an offset is bent: two turns of one angle, one way and back. */
struct offset_bend {
    double collar;  /* m, straight at each end, on the inside of the bend there */
    double angle;   /* rad, of each turn: what is cut or rolled */
    double radius;  /* m, of its arcs, along the middle line; 0: mitres */
    double end;     /* m of the middle line before the first turn, and behind the last */
    double between; /* m of it from mitre to mitre; 0 between arcs, which meet */
};

/* As the shop makes it, with offset_collar() at its ends, in duct of that `side` (its metal) in the plane of the
 * offset.  Of one that is too short to be made, something near. */
struct offset_bend angled_offset(double side, double aside, double along);
struct offset_bend ogee_offset(double side, double aside, double along);

/* How long an angled one is that turns by `angle`, or as near to that as can be: the shortest. */
double angled_length(double side, double aside, double angle);

/* The whole middle line, m. */
double offset_centre_line(const struct offset_bend *bend);

/* The mitres that each arc of an ogee is made of in round and oval duct. */
int ogee_mitres(double angle);

/* Two mitres, each halving its turn, so that the duct keeps its section.  Rectangular: cheeks of one flat sheet, sides
 * bent at the mitres.  Round or oval: three pieces. */
void shape_angled_offset(struct solid *solid, const void *size);

/* Two arcs of one radius and angle, tangent to each other and to the ends.  Rectangular: cheeks of one flat sheet,
 * sides rolled. Round or oval: of pieces that turn 22-1/2 degrees at most at each mitre. */
void shape_ogee_offset(struct solid *solid, const void *size);

/* Straight at each end, for the joint and its tools: 2 in, where that takes no more than half of what an offset of the
 * length `along` has over the `least`; under 1 in it is left out, and the bend stands at the joint.  Common practice,
 * no source. */
double offset_collar(double along, double least);

/* The least length between its collars in which a duct of such a side in the plane of the offset can go `aside`. */
double angled_least_length(double side, double aside);
double ogee_least_length(double side, double aside);

#endif
