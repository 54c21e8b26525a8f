/* What sizing and the checks hold a duct to.  Data, each with its source; SI. */
#ifndef CLEAT_SIZE_LIMITS_H
#define CLEAT_SIZE_LIMITS_H

#include "model/job.h"

/* What a stretch of duct is for: it decides how fast air may move in it. */
enum duct_use { USE_SUPPLY_TRUNK, USE_SUPPLY_BRANCH, USE_RETURN_TRUNK, USE_RETURN_BRANCH, DUCT_USE_COUNT };

/* Faces that air passes into or out of a room, and filters. */
enum face_use { FACE_REGISTER, FACE_GRILLE, FACE_FILTER, FACE_USE_COUNT };

struct velocity_guide {
    const char *name;          /* "a supply trunk" */
    double recommended, limit; /* m/s */
};

/* A branch is an outlet or inlet that nothing hangs from; every other run, also one with a single outlet at its end, is
 * a trunk. */
enum duct_use duct_use_of(const struct run *run);
const struct velocity_guide *duct_guide(enum duct_use use);
const struct velocity_guide *face_guide(enum face_use use);

/* The velocity, m/s, that no size may exceed: the run's own limit, else the guide's. */
double velocity_limit(const struct run *run);
/* The velocity, m/s, that the velocity method aims at: the run's own limit, else what the guide recommends. */
double velocity_target(const struct run *run);

/* Friction rates between which equal friction looks, in thousandths of an inch of water per 100 ft: common practice, no
 * source (SOURCE_FRICTION_RANGE). */
enum { FRICTION_GRID_LOW = 30, FRICTION_GRID_HIGH = 100 };
/* No duct over this, likewise: civil engineers' practice, read. */
enum { FRICTION_MOST = 150 };

/* `thousandths` of 0.001 in. w.g. per 100 ft in Pa/m. */
double friction_grid(int thousandths);

#endif
