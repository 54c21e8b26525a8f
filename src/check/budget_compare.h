/* How changes compare. */
#ifndef CLEAT_CHECK_BUDGET_COMPARE_H
#define CLEAT_CHECK_BUDGET_COMPARE_H

#include "check/budget_changes.h"

/* The two may be one change: of the same duct, piece or blower.  And whether the one goes at least as far. */
bool change_same_thing(const struct change *one, const struct change *other);
bool change_contains(const struct change *one, const struct change *other);

/* Whether all of `less` is in `more`, each as large or larger there. */
bool changes_contain(const struct changes *more, const struct changes *less);

/* Whether the two are one way out to who reads them: one contains the other, or they change the same things. */
bool changes_are_alike(const struct changes *one, const struct changes *other);

/* Whether both change some one thing; the side of a tap is none, since it follows from another change. */
bool changes_share(const struct changes *one, const struct changes *other);

/* Whether they are the same but for the sides of taps. */
bool changes_are_same(const struct changes *one, const struct changes *other);

#endif
