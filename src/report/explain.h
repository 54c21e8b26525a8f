/* The working for one run, outlet, inlet or unit, as a careful engineer writes it on paper. */
#ifndef CLEAT_REPORT_EXPLAIN_H
#define CLEAT_REPORT_EXPLAIN_H

#include "air/wall.h"
#include "report/working.h"

/* explain_stream.c: A = w h / 144, pi D^2 / 4 / 144; of flat oval the middle and two half circles. */
void explain_area(struct working *working, struct duct_size size);
/* V = Q / A. */
void explain_velocity(struct working *working, const char *what, const char *name, double flow, double area);
/* pv = rho V^2 / 2; in the trade's units rho (V / 1097)^2. */
void explain_pressure(struct working *working, const char *what, const char *name, double velocity);
/* The round duct with the same friction, `diameter` m, of what is not round. */
void explain_equivalent(struct working *working, struct duct_size size, double diameter);
/* The friction of that air in such a wall; gives it, Pa/m.  Its velocity pressure stands above. */
double explain_friction(struct working *working, struct stream stream, struct wall wall);

/* explain_section.c: a stretch of duct: size, velocity, friction, each piece, their sum. */
void explain_section(struct working *working, const struct section *section);

/* explain_heat.c: temperature along a section; the same summed for a unit. */
extern const char *const explain_seasons[];
/* m cp = rho Q cp; gives it in figures. */
const char *explain_capacity(struct working *working, double flow);
void explain_section_heat(struct working *working, const struct section *section);
void explain_arrival(struct working *working, const struct path *path, size_t index);
void explain_unit_heat(struct working *working, const struct network *network);

/* explain_leakage.c: what a section leaks, and all of a unit. */
void explain_section_leak(struct working *working, const struct section *section);
void explain_unit_leakage(struct working *working, const struct network *network);

/* explain_path.c: an outlet's or inlet's airflow; its way to the unit, what is left over, its damper. */
void explain_airflow(struct working *working, const struct run *terminal);
void explain_path(struct working *working, const struct network *network, const struct path *path, size_t index);

/* explain_unit.c: the unit's airflow, its drops and its budget. */
void explain_unit(struct working *working, const struct air_unit *unit);
/* The unit's own drops at that airflow, with the filters as they are; named `hunit`. */
void explain_drops(struct working *working, const struct air_unit *unit, double flow, bool loaded);

/* explain_blower.c: what the blower gives at the design airflow, on its other speeds, and where it really works. */
void explain_blower(struct working *working, const struct network *network);
void explain_speeds(struct working *working, const struct network *network);
void explain_operation(struct working *working, const struct network *network);

/* The constants of the air that all lines rest on. */
void explain_air(struct working *working);

/* The sections of a path from the unit to its end, and NULL behind them. */
const struct section **explain_outward(struct working *working, const struct path *path);

/* "hallside, from 12 ft on". */
const char *explain_place(struct working *working, const struct section *section);

#endif
