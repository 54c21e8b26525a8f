/* Room for taps along their parent, when something is put before them or they are moved. */
#ifndef CLEAT_ROUTE_TAP_ROOM_H
#define CLEAT_ROUTE_TAP_ROOM_H

#include "route/route.h"

/* Whether every tap that was within straight duct is within straight duct again.  Taps are in the order of their
 * stations, and so the pieces that hold them. */
bool taps_stay(const struct detour *detour);

/* Whether a tap has room at another station (m): between the taps before and behind it, and in the straight duct that
 * it is cut into. */
bool tap_has_room(const struct run *tapped, double station);

/* How much of a piece its taps need, m from its beginning; 0: it has none. */
double taps_reach_along(const struct run *run, const struct piece *into);

/* Whether both runs are tapped in where only one has room.  `other` may be NULL. */
bool taps_share_a_place(const struct run *run, const struct run *other);

#endif
