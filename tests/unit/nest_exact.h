/* The least cost of a handful of blanks, by looking at everything: for each set of them all boxes that it can be cut
 * from, then all ways of sharing the blanks out among sheets. */
#ifndef TESTS_UNIT_NEST_EXACT_H
#define TESTS_UNIT_NEST_EXACT_H

#include <string.h>

#include "metal/nest_solve.h"

enum { EXACT_MOST = 6, EXACT_SETS = 1 << EXACT_MOST, EXACT_BOXES = 400 };

struct exact_box {
    nest_steps length, width;
};

struct exact_boxes {
    struct exact_box at[EXACT_BOXES];
    size_t count;
};

/* Unless a box that is there is as small both ways. */
static inline void exact_add(struct exact_boxes *boxes, nest_steps length, nest_steps width) {
    size_t kept = 0;
    for (size_t i = 0; i < boxes->count; i++)
        if (boxes->at[i].length <= length && boxes->at[i].width <= width)
            return;
    for (size_t i = 0; i < boxes->count; i++)
        if (boxes->at[i].length < length || boxes->at[i].width < width)
            boxes->at[kept++] = boxes->at[i];
    assert_true(kept < EXACT_BOXES);
    boxes->at[kept] = (struct exact_box){length, width};
    boxes->count = kept + 1;
}

static inline nest_steps exact_greater(nest_steps one, nest_steps other) {
    return one > other ? one : other;
}

/* Side by side and one above the other. */
static inline void exact_join(struct exact_boxes *to, const struct exact_boxes *one, const struct exact_boxes *other) {
    for (size_t i = 0; i < one->count; i++)
        for (size_t k = 0; k < other->count; k++) {
            struct exact_box a = one->at[i], b = other->at[k];
            exact_add(to, a.length + b.length, exact_greater(a.width, b.width));
            exact_add(to, exact_greater(a.length, b.length), a.width + b.width);
        }
}

/* Of a problem whose rectangles are all of count 1, EXACT_MOST at most, and all of which fit some sheet. */
static inline int64_t exact_cost(const struct nest_problem *problem) {
    static struct exact_boxes boxes[EXACT_SETS];
    int64_t one[EXACT_SETS], least[EXACT_SETS] = {0};
    memset(boxes, 0, sizeof boxes);
    for (unsigned set = 1; set < 1u << problem->rectangle_count; set++) {
        for (size_t i = 0; i < problem->rectangle_count; i++) {
            const struct nest_rectangle *rectangle = &problem->rectangles[i];
            if (set != 1u << i)
                continue;
            exact_add(&boxes[set], rectangle->length, rectangle->width);
            if (rectangle->turns)
                exact_add(&boxes[set], rectangle->width, rectangle->length);
        }
        for (unsigned part = (set - 1) & set; part; part = (part - 1) & set)
            if (part > (set ^ part))
                exact_join(&boxes[set], &boxes[part], &boxes[set ^ part]);
        one[set] = INT64_MAX / 8;
        for (size_t k = 0; k < problem->sheet_count; k++)
            for (size_t i = 0; i < boxes[set].count; i++)
                if (boxes[set].at[i].length <= problem->sheets[k].length &&
                    boxes[set].at[i].width <= problem->sheets[k].width && problem->sheets[k].cost < one[set])
                    one[set] = problem->sheets[k].cost;
        least[set] = one[set];
        for (unsigned part = (set - 1) & set; part; part = (part - 1) & set)
            if (one[part] + least[set ^ part] < least[set])
                least[set] = one[part] + least[set ^ part];
    }
    return least[(1u << problem->rectangle_count) - 1];
}

#endif
