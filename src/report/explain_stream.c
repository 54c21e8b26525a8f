/* Air in a duct: its area, velocity and velocity pressure, and the friction of the wall. */
#include <math.h>

#include "air/air.h"
#include "base/constant.h"
#include "report/explain.h"

/* ---- Size and velocity ------------------------------------------------------------------------------------------- */

static const char *side(struct working *working, double si) {
    return working_value(working, working->units->side, si);
}

/* A = w h / 144, pi D^2 / 4 / 144; of flat oval the middle and two half circles. */
void explain_area(struct working *working, struct duct_size size) {
    const struct working_units *units = working->units;
    double in_area = units->sides_of_length * units->sides_of_length;
    const char *per = working_number(working, in_area), *w = side(working, size.width), *h = side(working, size.height);
    switch (size.shape) {
    case SHAPE_ROUND:
        work(working, "Area", SOURCE_NONE, units->area, size_area(size), "A = pi / 4 x D^2 = pi / 4 x %s^2 / %s", w,
             per);
        break;
    case SHAPE_OVAL: {
        const char *lesser = side(working, fmin(size.width, size.height));
        const char *flat = side(working, fabs(size.width - size.height));
        work(working, "Area", SOURCE_NONE, units->area, size_area(size),
             "A = (w - h) x h + pi / 4 x h^2 = (%s x %s + pi / 4 x %s^2) / %s", flat, lesser, lesser, per);
        break;
    }
    default:
        work(working, "Area", SOURCE_NONE, units->area, size_area(size), "A = w x h = %s x %s / %s", w, h, per);
    }
}

/* V = Q / A, in the units at hand. */
static const char *flow_over(struct working *working, double flow, double area) {
    bool metric = working->job->system == MEASURE_METRIC;
    return arena_format(working->arena, metric ? "%s / (1000 x %s)" : "%s / %s",
                        working_value(working, working->units->flow, flow),
                        working_value(working, working->units->area, area));
}

void explain_velocity(struct working *working, const char *what, const char *name, double flow, double area) {
    work(working, what, SOURCE_NONE, working->units->velocity, flow / area, "%s = Q / A = %s", name,
         flow_over(working, flow, area));
}

/* pv = rho V^2 / 2; in the trade's units rho (V / 1097)^2. */
void explain_pressure(struct working *working, const char *what, const char *name, double velocity) {
    const struct working_units *units = working->units;
    const struct air *air = &working->job->air;
    const char *rho = working_value(working, units->density, air->density);
    const char *speed = working_value(working, units->velocity, velocity);
    double pressure = air_velocity_pressure(air, velocity);
    if (working->job->system == MEASURE_METRIC) {
        work(working, what, SOURCE_NONE, units->pressure, pressure, "%s = rho x V^2 / 2 = %s x %s^2 / 2", name, rho,
             speed);
        return;
    }
    double constant = sqrt(2 * units->pressure.factor / units->density.factor) / units->velocity.factor;
    const char *of = working_number(working, constant);
    work(working, what, SOURCE_INCH_OF_WATER, units->pressure, pressure, "%s = rho x (V / %s)^2 = %s x (%s / %s)^2",
         name, of, rho, speed, of);
}

void explain_equivalent(struct working *working, struct duct_size size, double diameter) {
    const char *w = side(working, size.width), *h = side(working, size.height);
    if (size.shape == SHAPE_RECTANGULAR)
        work(working, "Round duct with the same friction", SOURCE_HUEBSCHER, working->units->side, diameter,
             "De = k x (w x h)^0.625 / (w + h)^0.25 = %g x (%s x %s)^0.625 / (%s + %s)^0.25", AIR_HUEBSCHER, w, h, w,
             h);
    if (size.shape != SHAPE_OVAL)
        return;
    double factor = working->units->side.factor;
    work(working, "Round duct with the same friction", SOURCE_HEYT_DIAZ, working->units->side, diameter,
         "De = k x A^0.625 / P^0.25 = %g x %s^0.625 / %s^0.25", AIR_HEYT_DIAZ,
         working_number(working, size_area(size) / (factor * factor)), side(working, size_perimeter(size)));
}

/* ---- Friction ---------------------------------------------------------------------------------------------------- */

static void explain_factor(struct working *working, double reynolds, double relative, double factor) {
    const char *re = working_number(working, reynolds), *rough = working_number(working, relative);
    const char *f = working_number(working, factor);
    if (reynolds <= AIR_LAMINAR_BELOW) {
        work(working, "Friction factor", SOURCE_LAMINAR, working_plain, factor, "f = k / Re = %g / %s",
             AIR_LAMINAR_FACTOR, re);
        return;
    }
    if (reynolds < AIR_TURBULENT_ABOVE) {
        double turbulent = air_friction_factor(AIR_TURBULENT_ABOVE, relative);
        explain_factor(working, AIR_TURBULENT_ABOVE, relative, turbulent);
        work(working,
             arena_format(working->arena, "Friction factor, between Re %g and %g", AIR_LAMINAR_BELOW,
                          AIR_TURBULENT_ABOVE),
             SOURCE_LAMINAR, working_plain, factor,
             "f = f1 + (f2 - f1) x (Re - Re1) / (Re2 - Re1) = %g / %g + (%s - %g / %g) x (%s - %g) / (%g - %g)",
             AIR_LAMINAR_FACTOR, AIR_LAMINAR_BELOW, working_number(working, turbulent), AIR_LAMINAR_FACTOR,
             AIR_LAMINAR_BELOW, re, AIR_LAMINAR_BELOW, AIR_TURBULENT_ABOVE, AIR_LAMINAR_BELOW);
        return;
    }
    work_given(working, "Friction factor, found by trial", SOURCE_COLEBROOK, "f = %s", f);
    work(working, "It satisfies", SOURCE_NONE, working_plain, 1 / sqrt(factor),
         "1 / sqrt(f) = -2 x log10(e/D / k1 + k2 / (Re x sqrt(f))) = -2 x log10(%s / %g + %g / (%s x sqrt(%s)))", rough,
         AIR_COLEBROOK_ROUGH, AIR_COLEBROOK_SMOOTH, re, f);
}

/* The factor of flexible duct that is not pulled straight, whose percent short follows from it. */
static void explain_compression(struct working *working, double diameter, double factor) {
    const char *percent = working_number(working, air_flex_percent_short(diameter, factor));
    work_given(working, "Not pulled straight: percent short of its length", SOURCE_NONE, "K = %s", percent);
    work(working, "More friction for it, D in inches", SOURCE_FLEX_COMPRESSION, working_plain, factor,
         "F = 1 + k1 x K x exp(-k2 x D) = 1 + %g x %s x exp(-%g x %s)", AIR_FLEX_MORE, percent, AIR_FLEX_FALLS,
         working_number(working, diameter / INCH));
}

double explain_friction(struct working *working, struct stream stream, struct wall wall) {
    const struct working_units *units = working->units;
    const struct air *air = &working->job->air;
    double diameter = air_equivalent_diameter(stream.size), area = PI / 4 * diameter * diameter;
    double velocity = stream.flow / area, nu = air->viscosity / air->density;
    double reynolds = velocity * diameter / nu, relative = wall.roughness / diameter;
    double factor = air_friction_factor(reynolds, relative), pressure = air_velocity_pressure(air, velocity);
    const char *long_diameter = working_value(working, units->length, diameter);
    bool round = stream.size.shape == SHAPE_ROUND, metric = working->job->system == MEASURE_METRIC;
    if (!round) {
        explain_velocity(working, "Velocity in that round duct", "Ve", stream.flow, area);
        explain_pressure(working, "Its velocity pressure", "pe", velocity);
    }
    work(working, "Reynolds number", SOURCE_SUTHERLAND, working_plain, reynolds,
         metric ? "Re = %s / nu = %s x %s / %s" : "Re = %s / nu = %s / 60 x %s / %s", round ? "V x D" : "Ve x De",
         working_value(working, units->velocity, velocity), long_diameter,
         working_value(working, units->kinematic, nu));
    work(working, "Roughness over diameter", SOURCE_ROUGHNESS, working_plain, relative, "e/D = %s / %s",
         working_value(working, units->length, wall.roughness), long_diameter);
    explain_factor(working, reynolds, relative, factor);
    bool bent = fabs(wall.factor - 1) > 1e-12;
    if (bent)
        explain_compression(working, diameter, wall.factor);
    double rate = factor / diameter * pressure * wall.factor;
    work(working, "Friction", SOURCE_DARCY, units->rate, rate, "r = f x %s / %s%s = %s x %s / %s x %s%s",
         working_number(working, units->per_length), round ? "D x pv" : "De x pe", bent ? " x F" : "",
         working_number(working, factor), working_number(working, units->per_length), long_diameter,
         working_value(working, units->pressure, pressure),
         bent ? arena_format(working->arena, " x %s", working_number(working, wall.factor)) : "");
    return rate;
}
