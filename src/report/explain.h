/* The working for one run, outlet, inlet or unit, as a careful engineer writes it on paper. */
#ifndef CLEAT_REPORT_EXPLAIN_H
#define CLEAT_REPORT_EXPLAIN_H

#include "report/working.h"

/* explain_section.c: a stretch of duct: size, velocity, friction, each piece, their sum. */
void explain_section(struct working *working, const struct section *section);

/* explain_heat.c: temperature along a section, and what it leaks; the same summed for a unit. */
void explain_section_heat(struct working *working, const struct section *section);
void explain_arrival(struct working *working, const struct path *path, size_t index);
void explain_unit_heat(struct working *working, const struct network *network);

/* explain_path.c: an outlet's or inlet's airflow; its way to the unit, what is left over, its damper. */
void explain_airflow(struct working *working, const struct run *terminal);
void explain_path(struct working *working, const struct network *network, const struct path *path, size_t index);

/* explain_unit.c: the unit's airflow, its blower, its drops and its budget. */
void explain_unit(struct working *working, const struct air_unit *unit);
void explain_blower(struct working *working, const struct network *network);

/* The constants of the air that all lines rest on. */
void explain_air(struct working *working);

/* The sections of a path from the unit to its end, and NULL behind them. */
const struct section **explain_outward(struct working *working, const struct path *path);

/* "hallside, from 12 ft on". */
const char *explain_place(struct working *working, const struct section *section);

#endif
