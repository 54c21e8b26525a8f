/* What will really flow, balanced, item by item: for who reads a gauge between the ends of a section. */
#ifndef CLEAT_AIR_FLOWING_H
#define CLEAT_AIR_FLOWING_H

#include "air/losses.h"
#include "air/operation.h"

/* The balanced operating point, and what is lost on the way there. */
struct flowing {
    const struct operating_point *point; /* NULL: none is known */
    struct air_flows flows;
    double *lost;        /* Pa between the unit and the end of each section, by id */
    const double *blade; /* of each section, by id: what its damper's coefficient is over that of the design */
};

/* From network->operation; its lists from `arena`.  O(items). */
void flowing_fill(struct flowing *flowing, const struct network *network, const struct air *air, struct arena *arena);

/* Pa that an item takes of what flows; there is a point. */
double flowing_loss(const struct flowing *flowing, const struct section *section, const struct item *item);

/* Static pressure against the room, Pa, in duct of `area` m2 where `lost` Pa has been lost between there and the unit;
 * not a number: it is not known. */
double flowing_static(const struct flowing *flowing, const struct section *section, double lost, double area);

#endif
