/* Ways out for a unit that asks more of its blower than it has. */
#ifndef CLEAT_CHECK_BUDGET_WAYS_H
#define CLEAT_CHECK_BUDGET_WAYS_H

#include "check/checks.h"

/* Tells, as places related to `said`, three ways found with which the network is inside its budget, each as the
 * lines to write, at their places: larger sizes, easier elbows and taps, pipe for flexible duct, another speed, no
 * forced rate, alone or several together, and the sides of taps that have no room with them. The first is the
 * cheapest; each next is the cheapest that shares no change with those before it, or, where none is found, the next
 * cheapest. Besides, or where those are fewer, a freer face, whose price is not known. None leaves an error that was
 * not there. Each was compiled with its lines in the job, where there is time for that, and has the difference of
 * the two prices; else everything was sized anew on the network, and the difference is that of the walls, in money
 * or, where the shop prices no sheet, in sheet. Not looked at is whether a larger duct has room where it hangs.
 * Where nothing is enough, tells what comes nearest. `units` share the time there is for trials. The trials are made
 * on the network itself; at the end it is as it was, byte for byte. */
void budget_ways(const struct look *look, struct network *network, size_t units, struct diagnostic *said);

#endif
