/* Straight duct divided into joints. */
#ifndef CLEAT_METAL_JOINTS_H
#define CLEAT_METAL_JOINTS_H

#include <stdbool.h>

#include "base/list.h"

/* Where no joint line may fall: a tap's opening with its margin.  m from the start of the straight duct. */
struct joint_zone {
    double low, high;
};

struct joint {
    double station, length; /* m from the start; finished length */
    bool crossed;           /* the line at its far end falls in a zone: there was no other way */
    bool too_short;         /* shorter than 4 in: hardly to be made */
};

struct joint_list {
    LIST(struct joint) joints; /* in order; their lengths add up to the duct */
    size_t crossed;            /* how many are marked */
};

/* Divides `length` m (over 0) into joints of `greatest` m (over 0) at most, the last one of `last` m (at most
 * `greatest`): full ones first, the leftover at the far end. A line that would fall within one of `zones` (by `low`
 * ascending, may overlap) is pulled back out of it; a leftover under 12 in (common practice, no source) is shared with
 * the joint before it.  Memory from `arena`. */
struct joint_list metal_joints(struct arena *arena, double length, double greatest, double last,
                               const struct joint_zone *zones, size_t zone_count);

#endif
