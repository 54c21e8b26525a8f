/* Losses at other airflows than those of the design: what the operating point is found with. */
#ifndef CLEAT_AIR_LOSSES_H
#define CLEAT_AIR_LOSSES_H

#include "air/air.h"
#include "air/wall.h"

/* Airflows of a network's sections. */
struct air_flows {
    const struct air *air;
    const double *at; /* m3/s, by section id: as designed where positive, backward where negative */
    bool loaded;      /* filters have taken up what dust they hold */
};

/* Whether air divides or joins at the item: its loss then depends on the air of its section's parent and of the
 * sections beside it.  All other items depend on their own section's air alone. */
bool air_divides(const struct item *item);

/* Wall of the duct there, for a piece that is a length of it. */
struct wall air_item_wall(const struct section *section, const struct item *item);

/* Pa of total pressure that the item takes in the designed direction, without the friction of a length of duct
 * (PIECE_LENGTH); negative where air goes backward.  `roughness`, m, is of its wall. */
double air_fitting_loss(const struct air_flows *flows, const struct section *section, const struct item *item,
                        double roughness);

/* The same of the whole item, with the friction of a length of duct. */
double air_item_loss(const struct air_flows *flows, const struct section *section, const struct item *item);

/* How air_fitting_loss depends on the item's own airflow: not at all, since it is 0; with the square, plus the
 * friction of the `spans`; in no known way, so that it has to be computed anew. */
enum air_course { AIR_NOTHING, AIR_SQUARE, AIR_OTHER };
enum air_course air_course_of(const struct air_flows *flows, const struct section *section, const struct item *item,
                              struct wall_spans *spans);

/* The loss of an AIR_SQUARE item without its friction, Pa. */
double air_square_loss(const struct air_flows *flows, const struct section *section, const struct item *item);

#endif
