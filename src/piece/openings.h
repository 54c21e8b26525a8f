/* The openings that a joint of straight duct or a box is cut with, and those that have no room in it. */
#ifndef CLEAT_PIECE_OPENINGS_H
#define CLEAT_PIECE_OPENINGS_H

#include "metal/shape_straight.h"
#include "model/job.h"

enum { OPENING_SIDES = SIDE_BOTTOM + 1 };

/* Taken in the order of their stations. */
struct openings {
    struct wall_opening *at; /* room for all that may be added; the caller's */
    size_t count;
    unsigned sides; /* that have one: bits, by 1u << enum side */
    /* By side: how far the openings there reach along the duct, m, and half the angle that the last of them takes of a
     * round wall. */
    double reach[OPENING_SIDES], angle[OPENING_SIDES];
    LIST(const char *) left_out; /* the runs of those that have no room */
};

/* Whether the tapped run has what an opening is made of: sizes, and a parent that it is cut into. */
bool opening_is_made(const struct run *tapped);

/* The extent of an opening along the duct, m. */
double opening_along(const struct wall_opening *opening);

/* Adds it when `fits`, by what it is cut into, and when it keeps clear of those that were added before; else `tapped`
 * is left out. */
void openings_add(struct openings *openings, struct arena *arena, const struct run *tapped,
                  const struct wall_opening *opening, bool fits);

/* What is left to whoever hangs the `thing` ("joint", "box"); NULL: nothing.  The check tap-fit warns of it. */
const char *openings_note(const struct openings *openings, struct arena *arena, const char *thing);

#endif
