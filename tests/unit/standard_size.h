/* Whether a size is one of the shop's. */
#ifndef TESTS_UNIT_STANDARD_SIZE_H
#define TESTS_UNIT_STANDARD_SIZE_H

#include <math.h>

#include "model/job.h"

static inline bool listed(const double *list, size_t count, double value) {
    for (size_t i = 0; i < count; i++)
        if (fabs(list[i] - value) < 1e-9)
            return true;
    return false;
}

static inline bool is_standard(const struct shop *shop, struct duct_size size) {
    if (size.shape == SHAPE_ROUND)
        return listed(shop->round_sizes.at, shop->round_sizes.count, size.width);
    const double *heights = size.shape == SHAPE_OVAL ? shop->oval_heights.at : shop->widths.at;
    size_t count = size.shape == SHAPE_OVAL ? shop->oval_heights.count : shop->widths.count;
    return listed(shop->widths.at, shop->widths.count, size.width) && listed(heights, count, size.height);
}

#endif
