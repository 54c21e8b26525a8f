/* Splits as solids: one duct becomes two.
 *
 * A split of flat sheet is a box (split_box.h) with three mouths: a mouth that leads to round or oval duct, or to duct
 * of another height, gets a short loft.  Round wyes are two cones, round legs of tees in round and oval duct a collar
 * on a tube.
 *
 * The near port's middle is the origin, x goes to the right, y along the duct, z up.  Lengths are m.  All structs hold
 * nothing but doubles.  What is chosen here, not given by the job, is common practice without a source: see the *_for
 * functions. `enough` is a length over all in which the split is easily made: it goes into the hint when the shape
 * cannot be.
 */
#ifndef CLEAT_METAL_SHAPE_SPLIT_H
#define CLEAT_METAL_SHAPE_SPLIT_H

#include "metal/body.h"
#include "metal/shape_vane.h"

/* How long a change between two sections is made whose middles lie `aside` of each other: no side leaves the way by
 * more than 30 degrees, and it is 3 in at least; 0 when there is nothing to change. */
double split_change(struct profile from, struct profile to, double aside);

/* ---- Rules that all splits share (common practice, no source) ---------------------------------------------------- */

#define SPLIT_END                                                                                                      \
    (3 * INCH) /* straight at each end of a box, and of a side leg's collar: room for a joint and its tools */
#define SPLIT_LEAST (1 * INCH) /* the least of it that a joint can be made on */
#define SPLIT_GAP (4 * INCH)   /* between the legs of a wye, for the same reason */

/* How long a side must be that goes `aside`, so that it leaves the way by 30 degrees at most. */
double split_reach(double aside);

/* Up to the next whole inch. */
double split_whole(double length);

/* A line that can be typed, with a length in which the split is easily made. */
const char *split_hint(struct arena *arena, enum measure_system system, const char *style, double enough);

/* A section's upright box, of flat sheet. */
struct profile split_boxed(struct profile profile);

/* ---- Wyes -------------------------------------------------------------------------------------------------------- */

struct wye_leg {
    struct profile profile;
    double centre; /* of the leg, to the right */
    double along;  /* where the box ends, from the near port */
    double loft;   /* behind it; 0: the leg is rectangular */
};

/* Of flat sheet, depth growing evenly from the main duct to each leg.  Both legs end square to the main duct's way. */
struct wye {
    struct profile main;
    double loft; /* before the box; 0: the main duct is rectangular */
    struct wye_leg left, right;
    double crotch_across, crotch_along; /* from the middle of the near port */
    double enough;
};
HOLDS_DOUBLES(struct wye);
void shape_wye(struct solid *solid, const void *size);
double wye_slope(const struct wye *wye); /* how far its steepest side goes aside or up, per length */

/* `share` of the air goes left; `over` is its whole length, 0: not given.  The crotch stands across where the flows
 * part, a third of the way along the box; 4 in are left between the legs for their joints; no side leaves the way by
 * more than 30 degrees. */
struct wye wye_for(struct profile main, struct profile left, struct profile right, double share, double over);

/* Round: an oblique cone from the main circle to each leg's.  Two cones through one circle meet again in a plane curve:
 * the crotch. */
struct round_wye {
    double diameter;
    double left, right;               /* diameters of the legs */
    double left_centre, right_centre; /* to the right */
    double along;
    double enough;
};
HOLDS_DOUBLES(struct round_wye);
void shape_round_wye(struct solid *solid, const void *size);
double round_wye_slope(const struct round_wye *wye);

/* The same rules; the legs stand so that the crotch goes straight on from the main duct. */
struct round_wye round_wye_for(double diameter, double left, double right, double over);

/* ---- Tees -------------------------------------------------------------------------------------------------------- */

/* Of flat sheet.  The box keeps the height of the main duct; behind the side leg its wall comes in, or goes out, to the
 * width of the straight leg: the wall away from the side leg stays straight. */
struct tee {
    struct profile main, side, straight;
    double way;               /* 1: the side leg goes right, -1: left */
    double loft;              /* at the near end */
    double before, after;     /* straight before and behind the side leg */
    double taper;             /* to the straight leg's width */
    double straight_loft;     /* behind it */
    double collar, side_loft; /* of the side leg, from the wall on */
    double enough;
};
HOLDS_DOUBLES(struct tee);
void shape_tee(struct solid *solid, const void *size);
double tee_length(const struct tee *tee); /* over all */
double tee_slope(const struct tee *tee);  /* of the change to its straight leg */
struct tee tee_for(struct profile main, struct profile side, struct profile straight, double way, double over);

/* A round leg of round or oval duct: the main duct goes straight through, with an opening in its side and a collar on
 * it. */
struct collar_tee {
    struct profile main, side;
    double way;
    double before, after;
    double collar; /* from the duct's outermost line on */
    double enough;
};
HOLDS_DOUBLES(struct collar_tee);
void shape_collar_tee(struct solid *solid, const void *size);

/* Whether a side leg is made so: it is round, and fits into the side of round or oval main duct.  Others are of flat
 * sheet. */
bool collar_tee_fits(struct profile main, struct profile side);

/* `reducer` is the length that is left for the change to the straight leg, which is a
 * part of its own (shape_change.h). */
struct collar_tee collar_tee_for(struct profile main, struct profile side, struct profile straight, double way,
                                 double over, double *reducer);

/* ---- Bullheads --------------------------------------------------------------------------------------------------- */

/* The air runs against a wall and leaves to both sides.  The box keeps the height of the main duct; its far wall goes
 * straight from the far edge of one leg to that of the other. */
struct bullhead {
    struct profile main, left, right;
    double loft;                          /* at the near end */
    double neck;                          /* from there to the legs */
    double collar, left_loft, right_loft; /* of the legs, from the neck's line on */
    double vanes;         /* 0: none; else enum measure_system + 1, in which the note on them is written */
    double crotch_across; /* where the flows part */
    double enough;
};
HOLDS_DOUBLES(struct bullhead);
/* The row of turning vanes that leads to a leg: from a corner of the neck to where the flows part at the far wall. */
struct vane_rail bullhead_rail(const struct bullhead *bullhead, bool right);
void shape_bullhead(struct solid *solid, const void *size);
struct bullhead bullhead_for(struct profile main, struct profile left, struct profile right, double share, double over,
                             double vanes);

/* ---- Where the legs begin ---------------------------------------------------------------------------------------- */

/* Frames of the legs' ports, which look away from the unit.  (split_legs.c) */
struct frame wye_leg_frame(const struct wye *wye, bool right);
struct frame round_wye_leg_frame(const struct round_wye *wye, bool right);
struct frame tee_side_frame(const struct tee *tee);
struct frame tee_straight_frame(const struct tee *tee);
struct frame collar_tee_side_frame(const struct collar_tee *tee);
struct frame bullhead_leg_frame(const struct bullhead *bullhead, bool right);

#endif
