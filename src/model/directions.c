/* The words for directions. */
#include "model/directions.h"

#include <stddef.h>

#define LEVEL_WORDS                                                                                                    \
    [COMPASS_NORTH] = "north", [COMPASS_EAST] = "east", [COMPASS_SOUTH] = "south", [COMPASS_WEST] = "west"

const char *const way_words[] = {
    [WAY_LEFT] = "left", [WAY_RIGHT] = "right", [WAY_UP] = "up", [WAY_DOWN] = "down", NULL,
};
const char *const compass_words[] = {LEVEL_WORDS, [COMPASS_UP] = "up", [COMPASS_DOWN] = "down", NULL};
const char *const level_words[] = {LEVEL_WORDS, NULL};

bool way_is_level(enum way way) {
    return way == WAY_LEFT || way == WAY_RIGHT;
}

const char *axis_word(int axis, bool back) {
    static const enum compass forth_and_back[3][2] = {
        {COMPASS_EAST, COMPASS_WEST}, {COMPASS_NORTH, COMPASS_SOUTH}, {COMPASS_UP, COMPASS_DOWN}};
    return compass_words[forth_and_back[axis][back]];
}
