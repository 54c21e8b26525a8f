/* A freer register, grille or filter as a way out. */
#ifndef CLEAT_CHECK_BUDGET_FACE_H
#define CLEAT_CHECK_BUDGET_FACE_H

#include "check/budget_changes.h"

/* The face with which the changes that are made would be enough: at the end of the governing supply path, or of the
 * return's.  False: none would, or only one that cannot be had. */
bool face_that_mends(const struct bench *bench, bool supply, struct change *change);

#endif
