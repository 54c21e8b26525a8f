/* What tubes are made of: the border of a section, its corners and flat sides, and where the seams go.  For the files
 * of tubes only. */
#ifndef CLEAT_METAL_OUTLINE_H
#define CLEAT_METAL_OUTLINE_H

#include "metal/body.h"

/* Corner k is the arc from k to k + 1 quarter turns, anticlockwise from the right; side k leads from corner k to the
 * next. */
enum { SIDE_TOP_OF, SIDE_LEFT_OF, SIDE_BOTTOM_OF, SIDE_RIGHT_OF, SIDES };

extern const char *const outline_names[SIDES]; /* of the sides, as panels */

int outline_turn(int k); /* the corner or side that k comes to after whole turns */
struct space outline_centre(const struct frame *frame, struct profile section, int k); /* of corner k */

/* Where corner k begins, and with `end` where it ends: the ends of its sides. */
struct space outline_point(const struct frame *frame, struct profile section, int k, bool end);

/* The arc of `corners` corners from k on. */
struct arc outline_arc(const struct frame *frame, struct profile section, int k, int corners);

/* Whether side k has no length. */
bool outline_closed(struct profile section, int k);

/* A tube from one section to another: flat sides, and corners between them; corners with no side between are one. */
struct outline {
    struct profile from, to;
    bool sharp;          /* rectangular at both ends: its corners are lines */
    bool open[SIDES];    /* there is a flat side k */
    bool seam[SIDES];    /* sharp: at corner k; else in the middle of side k, or, all round, where side k would be */
    bool round;          /* no flat side at all */
    bool pockets_across; /* four sides of straight duct: on the top and bottom */
};

/* `moved`: quarter turns by which the seam stands off its usual place. */
struct outline outline_of(struct profile from, struct profile to, enum wrap wrap, double moved);

/* What the tube's lengthwise edge is at the end of side k where its anticlockwise neighbour begins (`after`), or at its
 * beginning; and what an end's edges are. */
struct quad_edge outline_edge(const struct outline *outline, int k, bool after);
struct quad_edge outline_end(const struct tube_end *end);

/* Calls `add` for each run of corners that is rolled as one: those between two flat sides, or, all round, between two
 * seams. */
void outline_corners(const struct outline *outline, void *what,
                     void (*add)(void *what, int k, int corners, enum join from, enum join to));

/* Joins of a rolled corner's four edges. */
void outline_roll(struct roll *roll, const struct tube_end *near, const struct tube_end *far, enum join from,
                  enum join to);

#endif
