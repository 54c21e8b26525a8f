/* Bent ducts: rectangular ones between two flat cheeks, and round or oval ones of mitred pieces.
 *
 * Both follow a course: straight, a turn, straight, another turn ... in the plane of a frame's `right` and `along`.
 */
#ifndef CLEAT_METAL_BENT_H
#define CLEAT_METAL_BENT_H

#include "metal/body.h"
#include "metal/shape.h"

/* The section of a duct in the frame of its way (metal/shape.h): width in the plane of the bend, height across it. */
struct profile section_for_way(struct shape_duct duct, double way);

/* Whether an oval's side on the inside of a bend is flat: as long as it lasts, it needs metal there. */
bool flat_throat(struct profile section);

/* A step of a course. */
struct step {
    double length; /* m, straight */
    double radius; /* m, of the turn behind it; 0: a corner */
    double turn;   /* rad, of that turn: > 0 left, < 0 right, 0 none */
};

struct course {
    const struct step *steps;
    size_t count;
};

/* Where a course ends that begins at `frame`'s origin along it. */
struct frame course_end(const struct frame *frame, struct course course);

/* A duct between two flat cheeks, alike and parallel, each of one sheet; the strips between them go along two courses.
 * `frame` is that of the near end, its origin in the middle.  The strips take the pocket, the cheeks the flange (the
 * trade's rule: the pocket goes on the narrow, bent strip).  Both courses must end on one line square to their ends. */
struct cheeks {
    struct frame frame;
    double width, depth; /* m: of the near end, in the plane of the course; between the cheeks */
    struct course left, right;
    const char *left_name, *right_name; /* "throat", "heel" */
    int near_port, far_port;
};
void solid_cheeks(struct solid *solid, const struct cheeks *cheeks);

/* Straight pieces of one section along a course of corners only, cut at the mitres that halve the turns.  Lengths are
 * along the middle.  Each piece has one seam, all in one line (prism.seam of each), so that pieces of one length are
 * cut alike and each mitre's edges meet point by point; the piece farther from the unit slips over the mitre's edge of
 * the other. */
struct mitred {
    struct frame frame;
    struct profile section;
    struct course course;
    double seam;                 /* as of struct prism */
    const char *end_name, *name; /* of the first and last piece, and of the others */
    int near_port, far_port;
};
void solid_mitred(struct solid *solid, const struct mitred *mitred);

#endif
