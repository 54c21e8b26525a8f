/* Loss coefficients of fittings, as pure functions of their geometry and of how the air divides.
 *
 * In these files "read" means read as reprinted in general hydraulics libraries that name the handbook and its diagram.
 *
 * Angles are in radians, all else are ratios.  Each function says on which velocity pressure its coefficient is.
 * Outside its tables a function takes the value at their edge and says so in `outside`.  Whatever it is given, it gives
 * a finite number.  `trace` (air/trace.h; NULL: nobody asks) is told how each came about.
 */
#ifndef CLEAT_AIR_FITTING_H
#define CLEAT_AIR_FITTING_H

#include <stdbool.h>

struct trace;

struct coefficient {
    double value;
    const char *outside; /* the range that was left, and so clamped; NULL: inside */
};

/* ---- Bends (fitting_bend.c) -------------------------------------------------------------------------------------- */

/* On the duct's velocity pressure, without the friction along the arc.  `radius` is the centre line's over the
 * dimension in the plane of the bend; `aspect` is the dimension along the axis of the bend over the one in its plane:
 * over 1 bends the easy way. */

struct coefficient fitting_radius_elbow(struct trace *trace, double angle, double radius, double aspect);
struct coefficient fitting_round_elbow(struct trace *trace, double angle, double radius);
/* `smooth_factor` multiplies its smooth part: fitting_elbow_reynolds, or 1. */
struct coefficient fitting_gored_elbow(struct trace *trace, double angle, double radius, int pieces,
                                       double smooth_factor);
/* What the coefficient of a radius elbow is multiplied by at `reynolds`, on the hydraulic diameter: 1 from 2e5 on. */
struct coefficient fitting_elbow_reynolds(struct trace *trace, double reynolds, double radius);
struct coefficient fitting_mitre(struct trace *trace, double angle, double aspect);
/* An angled offset: one of that angle and one back, each as if it stood alone. */
struct coefficient fitting_two_mitres(struct trace *trace, double angle, double aspect);
struct coefficient fitting_vaned_mitre(struct trace *trace, double angle);

/* ---- Changes of size (fitting_change.c) -------------------------------------------------------------------------- */

/* On the velocity pressure of the smaller end.  `area_ratio` is small over large, 0 to 1; `angle` the full angle
 * between opposite sides, 0 to pi. */

struct coefficient fitting_contraction(struct trace *trace, double area_ratio, double angle);
struct coefficient fitting_diffuser(struct trace *trace, double area_ratio, double angle);
struct coefficient fitting_abrupt_contraction(struct trace *trace, double area_ratio);
struct coefficient fitting_abrupt_expansion(struct trace *trace, double area_ratio);
/* Full angle of the cone between round ducts of these areas, `length` apart; pi when there is no length. */
double fitting_cone_angle(struct trace *trace, double area, double other_area, double length);

/* ---- Junctions (fitting_junction.c) ------------------------------------------------------------------------------ */

/* On the velocity pressure of all the air, on the unit's side.  `flow` is the branch's share of the air, 0 to 1; `area`
 * the branch's area over that of the duct with all the air; `angle` between the branch and the way on. */

struct coefficient fitting_tap_branch(struct trace *trace, double angle, double flow, double area);
struct coefficient fitting_tap_run(struct trace *trace, double flow, double area);
struct coefficient fitting_split_leg(struct trace *trace, double angle, double flow, double area);
struct coefficient fitting_split_straight(struct trace *trace, double flow,
                                          double area); /* of the straight leg itself */
struct coefficient fitting_bullhead(struct trace *trace, double flow, double area, bool smooth);
struct coefficient fitting_join_branch(struct trace *trace, double angle, double flow, double area);
struct coefficient fitting_join_run(struct trace *trace, double angle, double flow,
                                    double area); /* flow and area are the branch's */
struct coefficient fitting_join_bullhead(struct trace *trace, double flow, double area);

/* ---- Dampers, entries, exits (fitting_device.c) ------------------------------------------------------------------ */

/* On the duct's velocity pressure.  `angle` is the blade's from wide open. */

struct coefficient fitting_damper(struct trace *trace, double angle, bool round);
/* The blade's angle from wide open, rad, at which it has that coefficient; false: no blade closes so far, and `angle`
 * is the table's last. */
bool fitting_damper_blade(double coefficient, bool round, double *angle);
double fitting_entry(struct trace *trace); /* into an open end of duct */
double fitting_exit(struct trace *trace);  /* out of one */

#endif
