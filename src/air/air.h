/* The physics of air in duct.  SI throughout; every function is pure. */
#ifndef CLEAT_AIR_AIR_H
#define CLEAT_AIR_AIR_H

#include "model/piece.h"

/* ---- Properties (air/properties.c) ------------------------------------------------------------------------------- */

/* Barometric pressure, Pa, at `altitude` m (-500..11000), US Standard Atmosphere 1976. */
double air_pressure(double altitude);
/* Dynamic viscosity, Pa s, at `temperature` K, Sutherland's law. */
double air_viscosity(double temperature);
/* The state of air at `altitude` m and 70 F: standard density times the pressure ratio (air.md; the report says so). */
struct air air_state(double altitude);
/* rho V^2 / 2, Pa. */
double air_velocity_pressure(const struct air *air, double velocity);

/* ---- Friction (air/friction.c) ----------------------------------------------------------------------------------- */

/* Reynolds numbers: pipe flow is laminar under 2300 and turbulent over 4000 (from memory: F.  M.  White, Fluid
 * Mechanics).  Between the two a straight line is drawn: chosen here, no source. */
#define AIR_LAMINAR_BELOW 2300.0
#define AIR_TURBULENT_ABOVE 4000.0
/* f Re of laminar flow: Hagen and Poiseuille, exact. */
#define AIR_LAMINAR_FACTOR 64.0

/* 1/sqrt(f) = -2 log10(e/3.7 + 2.51/(Re sqrt(f))): Colebrook, Journal of the Institution of Civil Engineers 11, 1939
 * (from memory). */
#define AIR_COLEBROOK_ROUGH 3.7
#define AIR_COLEBROOK_SMOOTH 2.51

/* De = 1.30 (a b)^0.625 / (a + b)^0.25: Huebscher, ASHVE Transactions 54, 1948 (from memory).  De = 1.55 A^0.625 /
 * P^0.25: Heyt and Diaz, ASHRAE Transactions 81, 1975 (from memory). */
#define AIR_HUEBSCHER 1.30
#define AIR_HEYT_DIAZ 1.55

/* 1 + 0.58 K exp(-0.126 D), K percent of compression, D in inches: ASHRAE Fundamentals after tests by Abushakra, Walker
 * and Sherman (from memory). */
#define AIR_FLEX_MORE 0.58
#define AIR_FLEX_FALLS 0.126

/* Circular equivalent, m: the round duct with the same loss at the same flow (Huebscher; Heyt
 * and Diaz for flat oval). */
double air_equivalent_diameter(struct duct_size size);
/* Darcy friction factor: Colebrook to machine precision over Re 4000, 64/Re under 2300, linear in Re between.
 * `relative` is roughness/diameter. */
double air_friction_factor(double reynolds, double relative);
/* Pa/m in a round duct of `diameter` m carrying `flow` m3/s. */
double air_friction_rate(const struct air *air, double flow, double diameter, double roughness);
/* The same, and how fast it rises with the airflow, Pa/m for each m3/s; also of no air at all, where it is laminar. */
double air_friction_slope(const struct air *air, double flow, double diameter, double roughness, double *slope);
/* Correction of flexible duct that is not pulled straight: `stretch` is installed over extended length (1 = taut). */
double air_flex_factor(double diameter, double stretch);
/* The inverse: by how many percent a duct with that factor falls short of its full length. */
double air_flex_percent_short(double diameter, double factor);
/* Roughness of a material, m. */
double air_roughness(enum material material);
/* Roughness of a lining, and of flexible duct pulled straight (its factor comes on top), m. */
double air_lining_roughness(void);
double air_flex_roughness(void);

/* ---- Blower (air/blower.c) --------------------------------------------------------------------------------------- */

/* Between which two points `flow` lies, and the curve's slopes there.  `trace` is told how they come about, as m0
 * and m1; NULL: nobody asks.  False: there are fewer than two points. */
struct blower_span {
    size_t first;    /* index of the one before */
    double width;    /* m3/s between the two */
    double share;    /* 0..1, how far `flow` is from the first */
    double slope[2]; /* Pa per m3/s at both */
};
bool air_blower_span(struct trace *trace, const struct blower_point *points, size_t count, double flow,
                     struct blower_span *span);

/* Pressure, Pa, at `flow` by the monotone cubic through `points` (ascending flow).  False outside them; a flow within
 * 1e-6 of an end counts as that end, so that rounding in a sum of airflows does no harm. */
bool air_blower_pressure(const struct blower_point *points, size_t count, double flow, double *pressure);
/* The same in the air of the job.  Makers' points are for standard air: at one airflow a fan's pressure goes with the
 * density (fan laws, from memory: ASHRAE Handbook, HVAC Systems and Equipment). */
bool air_blower_at(const struct blower_point *points, size_t count, double flow, const struct air *air,
                   double *pressure);
/* The slope of the curve in standard air there, Pa for each m3/s; of two points or more, at an airflow from the first
 * to the last. */
double air_blower_slope(const struct blower_point *points, size_t count, double flow);

/* ---- Losses of a network and its budget -------------------------------------------------------------------------- */

/* Fills job->air from the altitude, and the walls of the ducts. */
void air_set(struct job *job);

/* Fills every item's loss, each section's velocity, friction rate and sums, from the sizes at hand (air/losses.c).
 * O(items). Diagnoses nothing: may be called again and again while sizing. */
void air_losses(struct network *network, const struct air *air);

/* The loss, Pa, of an item of `section`, were `duct` (the section's own or the one it leaves) of another size.  Changes
 * nothing. */
double air_trial_loss(const struct air *air, const struct section *section, const struct item *item,
                      const struct duct *duct, struct duct_size size);

/* The loss of an item as air_losses left it, and how it comes about (air/trace.h). */
struct loss air_traced_loss(const struct air *air, const struct section *section, const struct item *item,
                            struct trace *trace);

/* What an item, or all items, of `section` would lose, Pa, with the ducts' present sizes, even if air_losses has not
 * run since they changed.  Changes nothing. */
double air_item_trial(const struct air *air, const struct section *section, const struct item *item);
double air_section_trial(const struct air *air, const struct section *section);

/* Length, m, of the section's own duct with the same wall friction as the item, at the present sizes: of a bend, its
 * arc.  0: it has no friction. */
double air_rubbed_length(const struct air *air, const struct section *section, const struct item *item);

/* Fills every duct's equivalents, wall and roughness, and its friction multiplier at the present size, from what it
 * is mostly made of.  air_set and air_losses call it first.  O(items).  (air/wall.c) */
void air_walls(struct network *network);

/* The diameter, m, at which this duct loses `rate` Pa/m, with its own wall.  The multiplier of flexible duct depends
 * on the diameter sought, so dividing the rate by duct->friction_multiplier will not do.  (air/wall.c) */
double air_duct_diameter(const struct air *air, const struct duct *duct, double rate);

/* Fills what is read at start-up: test points, and the curves of blower and system.  After the last sizing and
 * air_operate; O(items).  (air/start_up.c, air/curves.c) */
void air_start_up(struct job *job);

/* Total pressure against the room, Pa, at a place with `lost` Pa of losses between it and the unit; start_up.c
 * derives it. */
double air_total_pressure(const struct network *network, bool supply, double lost);

/* Fills network->blower_curve, system_curve and system_pressure.  (air/curves.c) */
void air_curves(struct network *network, const struct air *air, struct arena *arena);

/* Marks in job->source_used the sources of the final losses; once, after sizing.  (air/sources.c) */
void air_sources(struct job *job);

/* Pa that one of the unit's drops takes at `flow`; `loaded`: with the filter full of dust, if the job gives that
 * figure.  It goes with the square of the airflow, as turbulent flow does (common practice, no source), and with the
 * density, since makers give drops for standard air.  (air/budget.c) */
double air_drop(const struct air_unit *unit, const struct drop *drop, bool loaded, double flow, const struct air *air);

/* Reads the blower and the unit's drops, brought from standard air to `air`, sums the paths, finds the governing ones
 * (air/budget.c). Diagnoses nothing but a blower that is missing or has no point at the design airflow (then surpluses
 * are 0), and that only when `diagnostics` is not NULL. */
void air_budget(struct network *network, const struct air *air, struct diagnostics *diagnostics,
                enum measure_system system);

/* Whether the governing path, as air_budget left it, takes more than the blower has.  A unit whose blower is not known
 * has no budget to break. */
bool air_budget_short(const struct network *network);

#endif
