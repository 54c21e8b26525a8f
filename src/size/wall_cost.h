/* What the walls of a duct cost at a size: what least-cost sizing has the least of. */
#ifndef CLEAT_SIZE_WALL_COST_H
#define CLEAT_SIZE_WALL_COST_H

#include "air/air.h"
#include "model/worth.h"

/* The walls of one duct, as lengths of its own section. */
struct wall_length {
    double sheet;    /* m of straight duct, changes and offsets */
    double flexible; /* m */
    bool bends;      /* it has pieces besides whose length goes with the size */
};

struct wall_cost {
    const struct job *job;
    const struct wall_length *lengths; /* of each duct of the network, by id */
    const struct section **sections;   /* of each duct, by id: its first */
    const struct section **next;       /* of each section, by id: the next in the same duct, NULL: none */
};

/* How it counts, in a sentence or two for the bid: with or without prices, as the shop has them. */
const char *wall_cost_words(const struct job *job);

struct wall_cost wall_cost_make(const struct job *job, const struct network *network, struct arena *arena);

/* Of a duct at the size that it has at hand: money, or kg where the shop prices no sheet. */
double wall_cost_of(const struct wall_cost *cost, const struct duct *duct);

/* m2 of the walls of it that are counted. */
double wall_area_of(const struct wall_cost *cost, const struct duct *duct);

/* The same of all ducts together. */
double wall_cost_sum(const struct wall_cost *cost, const struct network *network);
double wall_area(const struct wall_cost *cost, const struct network *network);

#endif
