/* What a kind of piece says of where it leads: its `place` (model/piece.h).
 *
 * The motion stands at the near end of the piece, and in its duct's size; each call moves it on and fills the way
 * behind it.  A piece that says nothing stays where it is.
 */
#ifndef CLEAT_ROUTE_MOTION_H
#define CLEAT_ROUTE_MOTION_H

#include "metal/shape.h"
#include "metal/shape_offset.h"
#include "route/route.h"

struct motion;

/* The size that the duct has where the motion stands; what the next calls begin with. */
struct duct_size motion_size(const struct motion *motion);
/* Where it stands. */
const struct frame *motion_frame(const struct motion *motion);

/* Straight on. */
void motion_on(struct motion *motion, double length);

/* Straight on through a body of another section, which the duct goes on behind with its size. */
void motion_body(struct motion *motion, double length, struct duct_size section);

/* To a section whose middle lies aside, turned clockwise by `turned`, with the heading kept. */
void motion_change(struct motion *motion, double right, double along, double up, double turned, struct duct_size to);

/* Round a bend about a line that lies `near` from the middle of the duct at its near end and `far` at its far end, in
 * duct that comes to the size `to` on the way. */
void motion_bend(struct motion *motion, enum way way, double angle, double near, double far, struct duct_size to);

/* Round a square corner: both sides of the throat meet at the motion's own section. */
void motion_corner(struct motion *motion, enum way way, double angle, struct duct_size to);

/* A step aside, in two mitres or two arcs. */
void motion_step(struct motion *motion, enum way way, const struct offset_bend *bend);

/* A leg of a split: where it begins, in the axes of the piece's near end. */
void motion_leg(struct motion *motion, enum leg leg, const struct frame *at);

/* Fills a body beside the motion's way: from a section to one at `far`, in the axes of where the motion stands. */
void motion_fill(struct motion *motion, const struct frame *near, struct duct_size from, const struct frame *far,
                 struct duct_size to);

/* Turns on the spot: a box whose air leaves by another side. */
void motion_turn(struct motion *motion, const struct frame *to, struct duct_size size);

/* How the face of the run lies in its duct's axes, where that is not as it is written. */
void motion_face(struct motion *motion, struct duct_size face);

/* From here on the run is free (struct placed_piece): flexible duct, led where there is room. */
void motion_free(struct motion *motion);

/* ---- For the pass ------------------------------------------------------------------------------------------------ */

struct motion {
    struct arena *arena;
    const struct job *job;
    struct route *route;
    struct placed_run *run;
    const struct piece *piece; /* NULL: an offset that the job does not have */
    struct frame start, at;    /* of the piece; of the motion */
    struct duct_size size;
    double way; /* m from the beginning of the run */
    bool free;
};

#endif
