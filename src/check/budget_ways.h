/* Ways out for a unit that asks more of its blower than it has. */
#ifndef CLEAT_CHECK_BUDGET_WAYS_H
#define CLEAT_CHECK_BUDGET_WAYS_H

#include "check/checks.h"

/* Tells, as places related to `said`, the cheapest three single changes with which the network is inside its budget:
 * each was tried on the network and everything computed again.  They are ranked by the sheet that they take more, then
 * by what they leave over.  The trials are made on the network itself, which would be as large to copy
 * as to compute anew; at the end it is as it was, byte for byte. */
void budget_ways(const struct look *look, struct network *network, struct diagnostic *said);

#endif
