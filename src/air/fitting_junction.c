/* Taps, splits and joints: I. E. Idelchik, Handbook of Hydraulic Resistance, section 7.
 *
 * Throughout: Q = branch flow / whole flow, f = branch area / area of the duct with all the air, x = Q / f the branch's
 * velocity over that of all the air.  All coefficients are on the velocity pressure of all the air. */
#include "air/fitting.h"

#include <math.h>

#include "air/table.h"
#include "base/constant.h"

static const double right_angle = PI / 2;

/* What all junctions depend on, brought into the range that the relations hold for. */
struct junction {
    double angle, flow, area, velocity; /* a, Q, f, x */
    const char *outside;
};

static double within(double value, double low, double high, const char *range, const char **outside) {
    double clamped = value >= low ? fmin(value, high) : low;
    if (!*outside && !(fabs(value - clamped) <= 1e-9))
        *outside = range;
    return clamped;
}

static struct junction junction(double angle, double flow, double area) {
    struct junction j = {0};
    j.flow = within(flow, 0, 1, "branch airflow 0 to 1 of the whole", &j.outside);
    /* Under a hundredth of the area a branch is no longer a branch; the relations would divide by nothing. */
    j.area = within(area, 0.01, 1, "branch area 0.01 to 1 of the whole", &j.outside);
    j.angle = within(angle, PI / 12, right_angle, "branch angle 15 to 90 degrees", &j.outside);
    j.velocity = j.flow / j.area;
    return j;
}

static bool is_square(double angle) {
    return angle > right_angle - 1e-6;
}

/* ---- Air that divides -------------------------------------------------------------------------------------------- */

/* Where the handbook's value jumps as the air shifts, a straight line over the next `width` of the branch's share, so
 * that the operating point is somewhere.  Its widths are chosen here: no source. */
static double bridge(double flow, double from, double width, double before, double behind) {
    double share = fmin(fmax((flow - from) / width, 0), 1);
    return before + share * (behind - before);
}

/* Diagrams 7-16 and 7-18, read: the factor A' of a branch under 90 degrees (at 90 degrees it is 1).  The handbook gives
 * one value up to 0.35 of the area and another above: the coefficient jumps there, and no line is drawn between the
 * two, for no air crosses that. */
static double tap_factor(double flow, double area) {
    if (area <= 0.35)
        return bridge(flow, 0.4, 0.02, 1.1 - 0.7 * fmin(flow, 0.4), 0.85);
    return bridge(flow, 0.6, 0.02, 1 - 0.6 * fmin(flow, 0.6), 0.6);
}

/* Diagrams 7-16 and 7-18, read, for a run that keeps its area: A' (1 + x^2 - 2 x cos a). */
struct coefficient fitting_tap_branch(double angle, double flow, double area) {
    struct junction j = junction(angle, flow, area);
    double factor = is_square(j.angle) ? 1 : tap_factor(j.flow, j.area);
    double value = factor * (1 + j.velocity * j.velocity - 2 * j.velocity * cos(j.angle));
    return (struct coefficient){.value = value, .outside = j.outside};
}

/* Diagram 7-20, read, for a run that keeps its area: tau Q^2.  Less than nothing where the air behind the tap slows
 * down and gains pressure; the same at every angle. */
struct coefficient fitting_tap_run(double flow, double area) {
    struct junction j = junction(right_angle, flow, area);
    double tau = 0.4;
    if (j.area > 0.4)
        tau = (j.flow <= 0.5 ? 2 : 0.3) * (2 * j.flow - 1);
    return (struct coefficient){.value = tau * j.flow * j.flow, .outside = j.outside};
}

/* Diagram 7-16, read at 30, 45, 60 and 90 degrees, 15 from memory: K of a split whose legs have the whole area. */
static const struct table_point split_angle[] = {{15, 0.04}, {30, 0.16}, {45, 0.36}, {60, 0.64}, {90, 1.00}};

/* 1 + x^2 - 2 x cos a - K x^2 */
struct coefficient fitting_split_leg(double angle, double flow, double area) {
    struct junction j = junction(angle, flow, area);
    bool outside = false; /* the angle is inside already */
    double k = table_at(TABLE(split_angle), j.angle * 180 / PI, &outside);
    double x = j.velocity;
    return (struct coefficient){.value = 1 + x * x - 2 * x * cos(j.angle) - k * x * x, .outside = j.outside};
}

/* Diagram 7-17, from memory: the straight leg, by its velocity over that of all the air. */
static const struct table_point split_straight[] = {
    {0, 1.00},   {0.1, 0.81}, {0.2, 0.64}, {0.3, 0.50}, {0.4, 0.36}, {0.5, 0.25},
    {0.6, 0.16}, {0.8, 0.04}, {1, 0.00},   {1.2, 0.07}, {1.4, 0.39}, {1.6, 0.90},
};

struct coefficient fitting_split_straight(double flow, double area) {
    struct junction j = junction(right_angle, flow, area);
    bool outside = false;
    double value = table_at(TABLE(split_straight), j.velocity, &outside);
    if (!j.outside && outside)
        j.outside = "straight leg to 1.6 times the velocity of the whole";
    return (struct coefficient){.value = value, .outside = j.outside};
}

/* Diagram 7-29, read: 1 + k x^2, k = 1.5 with sharp corners, 0.3 with a smooth throat. */
struct coefficient fitting_bullhead(double flow, double area, bool smooth) {
    struct junction j = junction(right_angle, flow, area);
    double k = smooth ? 0.3 : 1.5;
    return (struct coefficient){.value = 1 + k * j.velocity * j.velocity, .outside = j.outside};
}

/* ---- Air that comes together ------------------------------------------------------------------------------------- */

/* Diagrams 7-1 and following, from memory, for a run that keeps its area:
 *     A (1 + x^2 - 2 (1 - Q)^2 - 2 (Q^2 / f) cos a)
 * The same stands in Crane's Technical Paper 410, with which it is compared. Less than nothing where little air comes
 * in: the run draws it along.  A jumps at 0.35 of the area: so it is given; and at 0.4 of the air, where a line is
 * drawn. */
struct coefficient fitting_join_branch(double angle, double flow, double area) {
    struct junction j = junction(angle, flow, area);
    double factor = 1;
    if (j.area > 0.35)
        factor = bridge(j.flow, 0.4, 0.005, 0.9 * (1 - fmin(j.flow, 0.4)), 0.55);
    double straight = 2 * (1 - j.flow) * (1 - j.flow);
    double drawn = 2 * j.flow * j.flow / j.area * cos(j.angle);
    double value = factor * (1 + j.velocity * j.velocity - straight - drawn);
    return (struct coefficient){.value = value, .outside = j.outside};
}

/* Likewise: 1 - (1 - Q)^2 - 2 (Q^2 / f) cos a; at 90 degrees 1.55 Q - Q^2. */
struct coefficient fitting_join_run(double angle, double flow, double area) {
    struct junction j = junction(angle, flow, area);
    double value = 1.55 * j.flow - j.flow * j.flow;
    if (!is_square(j.angle))
        value = 1 - (1 - j.flow) * (1 - j.flow) - 2 * j.flow * j.flow / j.area * cos(j.angle);
    return (struct coefficient){.value = value, .outside = j.outside};
}

/* Two streams that run against each other and leave by the side, legs of one size: 1 + 1/f^2 + 3 (Q^2 - Q) / f^2.  From
 * memory: Idelchik, merging of opposed streams in a symmetrical tee. */
struct coefficient fitting_join_bullhead(double flow, double area) {
    struct junction j = junction(right_angle, flow, area);
    double value = 1 + (1 + 3 * (j.flow * j.flow - j.flow)) / (j.area * j.area);
    return (struct coefficient){.value = value, .outside = j.outside};
}
