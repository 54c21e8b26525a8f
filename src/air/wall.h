/* Inside src/air: the wall that a stretch of duct has. */
#ifndef CLEAT_AIR_WALL_H
#define CLEAT_AIR_WALL_H

#include "air/air.h"

struct wall {
    double roughness; /* m */
    double factor;    /* on friction */
};

/* Of the run's material or lining. */
struct wall wall_of_run(const struct run *run);

/* Of what the duct is mostly made of, were its diameter that, m. */
struct wall wall_of_duct(const struct duct *duct, double diameter);

/* Of a piece in duct of that diameter, m: its kind's own (flexible duct), else `of_run`. */
struct wall wall_of_piece(const struct piece *piece, double diameter, struct wall of_run);

#endif
