/* Ways out for a unit that asks more of its blower than it has. */
#ifndef CLEAT_CHECK_BUDGET_WAYS_H
#define CLEAT_CHECK_BUDGET_WAYS_H

#include "check/checks.h"

/* Tells, as places related to `said`, the cheapest three ways with which the network is inside its budget: single
 * changes (a larger duct, an easier elbow, a freer face, another speed, no forced rate), and where those are fewer,
 * some together.  Each was tried on the network and everything computed again, taps and changes of size looked at too;
 * not whether a larger duct has room where it hangs.  They are ranked by the price of the walls that they take more, or
 * by the sheet where the shop prices none; a face, whose price is not known, comes last.  Fewer are told of with the
 * reason.  The trials are made on the network itself, which would be as large to copy as to compute anew; at the end it
 * is as it was, byte for byte. */
void budget_ways(const struct look *look, struct network *network, struct diagnostic *said);

#endif
