/* A run that goes past its end into something: its last straight, made shorter. */
#ifndef CLEAT_ROUTE_SHORTER_H
#define CLEAT_ROUTE_SHORTER_H

#include "route/clear_try.h"

/* Tries the last straight of `run`, one of the two of the clash, at a length that clears it, and fills the clash's
 * `shortened` and `length` when it does. */
bool clear_by_shortening(struct clearing *clearing, struct clash *clash, const struct run *run);

#endif
