/* Sides of taps that follow from other changes: a tap that has no room with them is cut into another wall. */
#ifndef CLEAT_CHECK_BUDGET_SIDES_H
#define CLEAT_CHECK_BUDGET_SIDES_H

#include "check/budget_changes.h"

/* Turns the taps that the changes that are made leave no room, and adds that to what is made. */
void sides_turn(struct bench *bench);

/* Adds the wider sides of the taps that their walls keep smaller than was asked for (SIZE_WALL); `network`: the unit's,
 * or that of the same job with other lines. */
void sides_widen(const struct bench *bench, const struct network *network, struct changes *cures);

/* Adds the side on which the tap that `said` is about can be cut; `run`: that run as it would be, of the unit or of the
 * same job with other lines.  False: it is not about a tap, or there is no such side. */
bool sides_cure(const struct bench *bench, const struct diagnostic *said, const struct run *run, struct changes *cures);

#endif
