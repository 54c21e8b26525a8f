/* What passes through the walls of ducts: temperatures, capacity lost, and where water may gather.
 *
 * All at the design airflow, in summer (the unit cools) and in winter (it heats), as far as the job gives the
 * temperatures.  Air is taken as it is with no leaks, each section's in the space that its run passes.
 */
#ifndef CLEAT_AIR_HEAT_H
#define CLEAT_AIR_HEAT_H

#include "air/air.h"

enum heat_season { HEAT_SUMMER, HEAT_WINTER, HEAT_SEASON_COUNT };

/* Air on its way through a section, K; 0: not known. */
struct heat_air {
    double around;  /* of the space */
    double in, out; /* as the air goes: on the return side `in` is the end away from the unit */
};

struct heat_section {
    double surface;     /* m2 of duct wall */
    double conductance; /* W/K, through all of it */
    double insulation;  /* m2 K/W, without the films of air, where it has least; under 0: it has no wall */
    struct heat_air air[HEAT_SEASON_COUNT];
    double dew_point;    /* K, of the space in summer; 0: not known */
    double coldest;      /* K, of the outer surface of its coldest piece in summer; 0: not known */
    double coldest_air;  /* K, of the air in that piece */
    double coldest_wall; /* m2 K/W of that piece, both films included */
};

/* What arrives at an outlet. */
struct heat_arrival {
    double temperature; /* K; 0: not known */
    double lost;        /* W that the air brings less (or, under 0, more) than it left the unit with */
    double share;       /* of what it would bring to the room; NAN: not known */
};

/* Of a unit: the same for all outlets, and of its return. */
struct heat_total {
    bool known;         /* what follows */
    double lost;        /* W, between the unit and its outlets */
    double returns;     /* K, of the air that comes back to the unit; 0: not known */
    double return_lost; /* W that the return ducts add to the load of the unit; 0: not known, too */
    double share;       /* both, of what the unit's airflow would bring to the rooms; NAN: not known */
};

struct heat {
    struct heat_section *sections;                     /* by the id of the section */
    struct heat_arrival (*outlets)[HEAT_SEASON_COUNT]; /* by the index of the supply path */
    struct heat_total total[HEAT_SEASON_COUNT];
};

/* ---- Walls (air/heat_wall.c) ------------------------------------------------------------------------------------- */

/* m2 of duct wall of an item of `section`: the sheet that it is made of; of what is made of none its length along the
 * centre line and its girth.  Faces are left out. */
double heat_item_surface(const struct section *section, const struct item *item);

/* m2 K/W of a piece in `run`: insulation, lining and the material itself, without the films of air. */
double heat_item_insulation(const struct run *run, const struct piece *piece);

/* The film of still or moving air inside and outside, m2 K/W. */
double heat_film_inside(void);
double heat_film_outside(enum location location);

/* m2 K/W that duct in such a place is to have at least: what the job declares, else the code's; 0: nothing is asked.
 * `cited`: it is the code's. */
double heat_least_insulation(const struct settings *settings, bool *cited);

/* ---- Moist air (air/moisture.c) ---------------------------------------------------------------------------------- */

/* Magnus' equation over water with Sonntag's constants, as the World Meteorological Organization gives them (from
 * memory: Guide to Instruments and Methods of Observation, WMO-No. 8, annex 4.B): e = 611.2 exp(17.62 t / (243.12 +
 * t)), t in C. */
#define MAGNUS_PRESSURE 611.2 /* Pa */
#define MAGNUS_SLOPE 17.62
#define MAGNUS_OFFSET 243.12 /* K */

/* Pressure of saturated vapour over water, Pa, at `temperature` K (230..370). */
double heat_saturation_pressure(double temperature);
/* K; `humidity` over 0, at most 1. */
double heat_dew_point_of(double temperature, double humidity);

/* The dew point in such a place in summer, K; 0: the job does not tell it.  `temperature` K there; 0: not known. */
double heat_dew_point(const struct settings *settings, double temperature);

/* ---- The whole (air/heat.c) -------------------------------------------------------------------------------------- */

/* The temperature of the space that a run passes, K; 0: not known. */
double heat_around(const struct run *run, enum heat_season season);

/* Of the supply air at the unit and of the rooms, K; 0: not known. */
double heat_leaves(const struct air_unit *unit, enum heat_season season);
double heat_room(const struct air_unit *unit, enum heat_season season);

/* Temperature of air that came at `in` along a wall of `conductance` W/K in a space at `around`, with `capacity` W/K
 * of airflow: T = Ts + (T0 - Ts) exp(-UA / (m cp)). */
double heat_after(double in, double around, double conductance, double capacity);

/* Fills network->heat of every unit.  After the last sizing; O(items). */
void heat_fill(struct job *job);

#endif
