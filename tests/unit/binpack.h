/* The published random classes of two-dimensional bin packing: classes 1-6 of Berkey and Wang (1987), 7-10 of Martello
 * and Vigo (1998), made by the recipe of the generator that Lodi, Martello and Vigo published (1999): v becomes
 * (7141 v + 54773) mod 259200 from 0, u = v / 259200 in single precision, floor(31.47 n k + 2000) + 1 numbers are drawn and
 * forgotten before the k-th instance of n items, then height and width are drawn. */
#ifndef TESTS_UNIT_BINPACK_H
#define TESTS_UNIT_BINPACK_H

#include <string.h>

#include "metal/nest_solve.h"

enum { BINPACK_CLASSES = 10, BINPACK_MOST = 100, BINPACK_INSTANCES = 10 };

struct binpack {
    struct nest_rectangle items[BINPACK_MOST];
    struct nest_sheet bin;
};

static uint32_t binpack_state;

static inline float binpack_draw(void) {
    binpack_state = (binpack_state * 7141 + 54773) % 259200;
    return (float)(binpack_state / 259200.0);
}

/* An item of the classes 7 to 10: mostly of type class - 6. */
static inline void binpack_mixed(int class, int *height, int *width) {
    static const int low_width[] = {66, 1, 50, 1}, high_width[] = {100, 50, 100, 50};
    static const int low_height[] = {1, 66, 50, 1}, high_height[] = {50, 100, 100, 50};
    float draw = binpack_draw(), share = 0;
    int type = 0;
    for (; type < 3; type++) {
        share += type == class - 7 ? 0.7f : 0.1f;
        if (draw < share)
            break;
    }
    *height = (int)((float)(high_height[type] - low_height[type] + 1) * binpack_draw()) + low_height[type];
    *width = (int)((float)(high_width[type] - low_width[type] + 1) * binpack_draw()) + low_width[type];
}

/* The items one by one, each of count 1. */
static inline void binpack_make(struct binpack *binpack, int class, int n, int instance, bool turns) {
    static const nest_steps bins[] = {10, 30, 40, 100, 100, 300, 100, 100, 100, 100};
    static const float highest[] = {10, 10, 35, 35, 100, 100};
    binpack_state = 0;
    for (int i = (int)((float)(n * instance) * 31.47f + 2000.0f) + 1; i > 0; i--)
        binpack_draw();
    binpack->bin = (struct nest_sheet){.length = bins[class - 1], .width = bins[class - 1], .cost = 1};
    for (int i = 0; i < n; i++) {
        int height, width;
        if (class <= 6) {
            height = (int)(highest[class - 1] * binpack_draw()) + 1;
            width = (int)(highest[class - 1] * binpack_draw()) + 1;
        } else {
            binpack_mixed(class, &height, &width);
        }
        binpack->items[i] = (struct nest_rectangle){.length = width, .width = height, .count = 1, .turns = turns};
    }
}

#endif
