/* Friction of straight duct: Darcy-Weisbach with the Colebrook factor. */
#include "air/friction.h"

#include <math.h>

#include "base/constant.h"

double air_equivalent_diameter(struct duct_size size) {
    double area = size_area(size), root = sqrt(area);
    switch (size.shape) {
    case SHAPE_RECTANGULAR:
        /* With s = sqrt(a b) the powers are roots: (a b)^0.625 / (a + b)^0.25 = s (s / (a + b))^0.25. */
        return AIR_HUEBSCHER * root * sqrt(sqrt(root / (size.width + size.height)));
    case SHAPE_OVAL:
        return AIR_HEYT_DIAZ * root * sqrt(sqrt(root / size_perimeter(size)));
    default:
        return size.width;
    }
}

/* With x = 1/sqrt(f) Colebrook's equation is x + k ln(b + a x) = 0, smooth and nearly straight, so that Newton's steps
 * double the digits; the start, the same equation with a middling x on the right, is within 0.4 and three steps reach
 * the last bit. */
static double colebrook(double reynolds, double relative) {
    const double k = 0.86858896380650365530; /* 2 / ln 10 */
    double a = AIR_COLEBROOK_SMOOTH / reynolds, b = relative / AIR_COLEBROOK_ROUGH;
    double x = -k * log(b + 7 * a);
    for (int step = 0; step < 3; step++) {
        double inside = b + a * x;
        x -= (x + k * log(inside)) * inside / (inside + k * a);
    }
    return 1 / (x * x);
}

double air_friction_factor(double reynolds, double relative) {
    if (reynolds >= AIR_TURBULENT_ABOVE)
        return colebrook(reynolds, relative);
    if (reynolds <= AIR_LAMINAR_BELOW)
        return AIR_LAMINAR_FACTOR / reynolds;
    double share = (reynolds - AIR_LAMINAR_BELOW) / (AIR_TURBULENT_ABOVE - AIR_LAMINAR_BELOW);
    return (1 - share) * (AIR_LAMINAR_FACTOR / AIR_LAMINAR_BELOW) + share * colebrook(AIR_TURBULENT_ABOVE, relative);
}

double air_friction_rate(const struct air *air, double flow, double diameter, double roughness) {
    if (flow <= 0)
        return 0;
    double velocity = flow / (PI / 4 * diameter * diameter);
    double reynolds = air->density * velocity * diameter / air->viscosity;
    /* Darcy-Weisbach: dp/L = f/D rho V^2/2 */
    return air_friction_factor(reynolds, roughness / diameter) / diameter * air_velocity_pressure(air, velocity);
}

/* Of the Colebrook factor, d f / d Re: with x = 1/sqrt(f), a = 2.51/Re and x + k ln(b + a x) = 0,
 * dx/dRe = k a x / (Re (b + a x + k a)). */
static double colebrook_slope(double reynolds, double relative, double factor) {
    const double k = 0.86858896380650365530; /* 2 / ln 10 */
    double a = AIR_COLEBROOK_SMOOTH / reynolds, b = relative / AIR_COLEBROOK_ROUGH, x = 1 / sqrt(factor);
    return -2 * factor / x * k * a * x / (reynolds * (b + a * x + k * a));
}

static double factor_slope(double reynolds, double relative, double factor) {
    if (reynolds >= AIR_TURBULENT_ABOVE)
        return colebrook_slope(reynolds, relative, factor);
    if (reynolds <= AIR_LAMINAR_BELOW)
        return -factor / reynolds;
    return (colebrook(AIR_TURBULENT_ABOVE, relative) - AIR_LAMINAR_FACTOR / AIR_LAMINAR_BELOW) /
           (AIR_TURBULENT_ABOVE - AIR_LAMINAR_BELOW);
}

double air_friction_slope(const struct air *air, double flow, double diameter, double roughness, double *slope) {
    double area = PI / 4 * diameter * diameter, velocity = flow / area;
    double reynolds = air->density * velocity * diameter / air->viscosity;
    /* dp/L = 32 mu V / D^2: Hagen and Poiseuille. */
    if (!(reynolds > AIR_LAMINAR_BELOW)) {
        *slope = 32 * air->viscosity / (diameter * diameter * area);
        return *slope * fmax(flow, 0);
    }
    double factor = air_friction_factor(reynolds, roughness / diameter);
    double rate = factor / diameter * air_velocity_pressure(air, velocity);
    double with_reynolds = factor_slope(reynolds, roughness / diameter, factor) * reynolds / factor;
    *slope = rate / flow * (2 + with_reynolds);
    return rate;
}

/* ---- The diameter for a rate ------------------------------------------------------------------------------------- */

/* Secant steps on ln(rate) against ln(D), a curve that is all but straight between slopes -4 (laminar) and -6.  The
 * last step is of less than 1e-7 and leaves far less. */
double air_search_diameter(const struct rate_curve *curve, const struct air *air, double flow, double rate) {
    if (flow <= 0 || rate <= 0)
        return 0;
    /* Start: D^5 = 8 f rho Q^2 / (pi^2 rate) with f = 0.02. */
    double diameter = pow(8 * 0.02 * air->density * flow * flow / (PI * PI * rate), 0.2);
    double slope = -5, miss = log(curve->rate(curve->duct, diameter) / rate), step = -miss / slope;
    for (int round = 0; round < 50 && fabs(step) > 1e-7; round++) {
        diameter *= exp(step);
        double before = miss;
        miss = log(curve->rate(curve->duct, diameter) / rate);
        slope = fmin((miss - before) / step, -3);
        step = -miss / slope;
    }
    return diameter * exp(step);
}

/* ---- Walls ------------------------------------------------------------------------------------------------------- */

double air_flex_factor(double diameter, double stretch) {
    double compression = 100 * fmax(0, 1 - stretch);
    return 1 + AIR_FLEX_MORE * compression * exp(-AIR_FLEX_FALLS * diameter / INCH);
}

double air_flex_percent_short(double diameter, double factor) {
    return (factor - 1) / (AIR_FLEX_MORE * exp(-AIR_FLEX_FALLS * diameter / INCH));
}

/* From memory: ASHRAE Fundamentals, duct design, table of roughness. Galvanised is that of 4 ft joints and of spiral
 * duct, which gives all 28 sizes of a published table of round duct; the older friction chart rests on 0.0005 ft. */
double air_roughness(enum material material) {
    static const double feet[MATERIAL_COUNT] = {
        [MATERIAL_GALVANISED] = 0.0003,
        [MATERIAL_ALUMINIUM] = 0.0001,
        [MATERIAL_FIBROUS_BOARD] = 0.003,
        [MATERIAL_PVC] = 0.0001,
    };
    return feet[material] * FOOT;
}

/* From the same table: fibrous liner. */
double air_lining_roughness(void) {
    return 0.003 * FOOT;
}

/* From the same table: flexible duct, extended. */
double air_flex_roughness(void) {
    return 0.01 * FOOT;
}
