/* Room for taps: the sides that trunks must have for what is tapped into them, and runouts that go on less wall. */
#ifndef CLEAT_SIZE_ROOM_H
#define CLEAT_SIZE_ROOM_H

#include "size/sizing.h"

/* Adds to the needs of chosen trunks the sides that their taps take, as far as the limits allow, and to what stands
 * before them in the run likewise.  One pass from the outlets to the unit is enough: a tapped run depends on its trunk
 * only where the trunk cannot be large enough. */
void room_ask(const struct sizing *sizing);

/* The shape that sizing begins with: the run's own, whatever shape an earlier round gave the duct. */
enum shape room_shape(const struct duct *duct);

/* The size of a tapped duct, `chosen` without regard to what it is tapped into, that fits there, were the duct that it
 * leaves of size `trunk`: as large but flatter (SIZE_TAP); the largest of its shape that the wall holds, within the
 * velocity limit of its kind of run (SIZE_WALL); of another shape where nobody asked for round (SIZE_TAP).  SIZE_UNSET:
 * it fits as it is, or nothing does; `*size` stays. */
enum size_reason room_give(const struct sizing *sizing, const struct duct *duct, struct duct_size chosen,
                           struct duct_size trunk, struct duct_size *size);

/* Whether a wall made a run smaller than was asked for. */
bool room_is_short(const struct network *network);

/* For each tap without room between sizes that stand, why: fills run->tap_kept. */
void room_explain(const struct sizing *sizing);

#endif
