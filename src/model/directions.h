/* Directions in the words of the language: as you look along a duct away from the unit, and in the building. */
#ifndef CLEAT_MODEL_DIRECTIONS_H
#define CLEAT_MODEL_DIRECTIONS_H

#include <stdbool.h>

/* The ways a bend may go, looking along the duct away from the unit. */
enum way { WAY_LEFT, WAY_RIGHT, WAY_UP, WAY_DOWN };

/* In the building: axis 0 goes east, 1 north, 2 up. */
enum compass { COMPASS_NORTH, COMPASS_EAST, COMPASS_SOUTH, COMPASS_WEST, COMPASS_UP, COMPASS_DOWN };

/* For the slots of forms; NULL-terminated. */
extern const char *const way_words[];     /* in the order of enum way */
extern const char *const compass_words[]; /* in the order of enum compass */
extern const char *const level_words[];   /* of those, north to west */

/* True for left and right: in the width of a duct, not in its height. */
bool way_is_level(enum way way);

/* Along an axis of the building, or `back` along it: 0, true is "west". */
const char *axis_word(int axis, bool back);

#endif
