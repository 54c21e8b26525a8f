/* What a unit delivers whose blower has less than is asked of it. */
#ifndef CLEAT_CHECK_BUDGET_DELIVERS_H
#define CLEAT_CHECK_BUDGET_DELIVERS_H

#include "check/checks.h"

/* "; as sized and balanced fan will move 372 cfm of 400 cfm"; "" when it is not known. */
const char *delivers_words(const struct look *look, const struct network *network);

/* Tells, as a place related to `said`, what each outlet that is short will get, or why that is not known. */
void delivers_tell(const struct look *look, const struct network *network, struct diagnostic *said);

#endif
