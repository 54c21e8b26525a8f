/* Elbows: radius and square, which may change size, and gored.  Each is built by one function of type shape_builder. */
#ifndef CLEAT_METAL_SHAPE_ELBOW_H
#define CLEAT_METAL_SHAPE_ELBOW_H

#include "metal/shape.h"

/* Rectangular.  The throat is one arc between two collars.  Where the width changes, the heel is the greatest arc that
 * touches the heel lines of both ends and stays within the turn; a straight goes before or behind it at the narrower
 * end (one line and one arc: the heel runs on without a bend).  At 90 degrees its radius is that of the throat and the
 * lesser width.  The depth may not change: the cheeks are flat. */
struct radius_elbow {
    struct shape_duct near, far;
    double way, angle; /* enum way; rad, to 180 degrees */
    double throat;     /* m, radius; 0: a sharp corner */
    double collar;     /* m, straight at each end */
};
HOLDS_DOUBLES(struct radius_elbow);
void shape_radius_elbow(struct solid *solid, const void *size);

/* Rectangular, mitred from the throat's corner to the heel's; widths and depth may change.  The depth changes in the
 * far leg, about the middle of the duct: the near leg stays square and the vanes in the mitre are of one length; the
 * cheeks of the far leg then twist, and are broken on a diagonal. */
struct square_elbow {
    struct shape_duct near, far;
    double way, angle; /* rad, to 150 degrees */
    double leg;        /* m, of the throat, at each end */
    double vanes;      /* 0: none; else enum measure_system + 1, in which the marks of the rails are noted */
};
HOLDS_DOUBLES(struct square_elbow);
/* The greatest turn: beyond it the heel's corner goes far astray.  Common practice, no source. */
extern const double greatest_square_turn; /* rad */
void shape_square_elbow(struct solid *solid, const void *size);

/* Where the heel's corner lies, m: from the near end of the throat's corner along the duct, and to the far end's line;
 * and the way between the corners, which is the mitre and the line of the vane rails. */
struct mitre_line {
    double near_leg, far_leg; /* of the heel, beyond those of the throat */
    double length;
};
struct mitre_line square_mitre_line(double near_width, double far_width, double angle);

/* Round or oval, of `pieces` pieces (two is a plain mitre): the first and last are half as long in the turn as the
 * others, and have the collars.  All seams lie in the throat, where they are shortest: so the middle gores are cut
 * alike, and the end gores.  (Seams in turn at throat and heel would part the pile of metal at the mitres, but make two
 * blanks of each: common practice knows both, no source.)  An oval elbow with a round throat has them in the flat of a
 * cheek. */
struct gored_elbow {
    struct shape_duct duct;
    double way, angle; /* rad; no mitre turns more than 120 degrees */
    double radius;     /* m, of the centre line; at least half the duct */
    double pieces;     /* whole, 2 or more */
    double collar;     /* m, straight at each end */
};
HOLDS_DOUBLES(struct gored_elbow);
void shape_gored_elbow(struct solid *solid, const void *size);

#endif
