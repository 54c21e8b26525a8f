/* The passes from the syntax tree to a network with its design airflows.  Each reports to job->diagnostics. */
#ifndef CLEAT_MODEL_MODEL_H
#define CLEAT_MODEL_MODEL_H

#include "model/piece.h"

/* Reads every statement against its form and makes units, runs, pieces, settings, shop.  `job` holds arena, diagnostics
 * and syntax already; the rest is zero. */
void model_build(struct job *job, const struct piece_table *pieces);

/* Finds what each run hangs from; inherits settings; orders taps; inserts implied pieces.  Diagnoses: unknown names
 * (with the nearest), two things of one name, a run that hangs from nothing, a loop, two runs on one port, a tap beyond
 * the end or inside a fitting, a leg the split does not have, a piece behind a split or terminal, an outlet on the
 * return side ... */
void model_resolve(struct job *job, const struct piece_table *pieces);

/* Makes each unit's ducts, sections and items. */
void model_network(struct job *job);

/* Takes that curve, one of the unit's own, for its blower. */
void unit_speed(struct air_unit *unit, const struct blower_speed *speed);

/* The temperatures that an airflow for a load is computed from: those of cooling, else those of heating.  False: of
 * neither season both are given. */
bool model_load_air(const struct air_unit *unit, double *supply, double *room);

/* Sums of airflow that differ by more, as a share, are told of.  Common practice, no source. */
#define AIRFLOW_TOLERANCE 0.01

/* Airflow of each terminal (given, from its load, or the rest shared among return inlets by face area), summed toward
 * the unit. Needs job->air.  Diagnoses an outlet without airflow, supply and return that differ, a unit's airflow and
 * its outlets that differ. */
void model_airflow(struct job *job);

/* What inlets that are given no airflow divide among them: by the areas of their faces; equally where one of these is
 * not known.  Common practice, no source. */
struct inlet_rest {
    double given;     /* m3/s, what the others take */
    double flow;      /* m3/s, what they leave of the outlets' */
    double area;      /* m2 of face of those that divide it */
    size_t sharing;   /* how many they are */
    bool areas_known; /* of all of them */
};
struct inlet_rest model_inlet_rest(const struct network *network);

/* Face area of an inlet's last grille or filter, m2; 0: not known. */
double model_face_area(const struct run *inlet);

/* All statements that are not pieces, for lookup and for the language's documentation. */
struct form_table model_forms(struct arena *arena);

/* "tap shoe into kilnside at 6 ft, left", "end of back": where a run hangs, for reports. */
const char *port_text(const struct port *port, enum measure_system system, struct arena *arena);

/* Whether something hangs from a run: a tap, a leg of its split, or what goes on from its end. */
bool run_bears(const struct run *run);

#endif
