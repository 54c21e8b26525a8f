/* Taps, splits and joints: I. E. Idelchik, Handbook of Hydraulic Resistance, section 7.
 *
 * Throughout: Q = branch flow / whole flow, f = branch area / area of the duct with all the air, x = Q / f the branch's
 * velocity over that of all the air.  All coefficients are on the velocity pressure of all the air. */
#include "air/fitting.h"

#include <math.h>

#include "air/table.h"
#include "air/trace.h"
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

static struct junction junction(struct trace *trace, double angle, double flow, double area) {
    struct junction j = {0};
    j.flow = within(flow, 0, 1, "branch airflow 0 to 1 of the whole", &j.outside);
    /* A branch is taken to have at least a hundredth of the area, so that the relations do not divide by 0. */
    j.area = within(area, 0.01, 1, "branch area 0.01 to 1 of the whole", &j.outside);
    j.angle = within(angle, PI / 12, right_angle, "branch angle 15 to 90 degrees", &j.outside);
    j.velocity = j.flow / j.area;
    trace_held(trace, "q", flow, j.flow);
    trace_held(trace, "f", area, j.area);
    return j;
}

/* The symbols of a working: q the share of the air, f of the area, v of the velocity, a the angle. */
static struct trace_symbol share_of_air(const struct junction *j) {
    return trace_number("q", j->flow);
}

static struct trace_symbol share_of_area(const struct junction *j) {
    return trace_number("f", j->area);
}

static struct trace_symbol velocity_of(const struct junction *j) {
    return trace_number("v", j->velocity);
}

static struct trace_symbol angle_of(const struct junction *j) {
    return trace_of(TRACE_ANGLE, "a", j->angle);
}

static void trace_velocity(struct trace *trace, const struct junction *j, enum source_id source) {
    TRACE(trace, TRACE_NUMBER, "Its velocity over that of all the air", "v", "q / f", j->velocity, source,
          share_of_air(j), share_of_area(j));
}

static bool is_square(double angle) {
    return angle > right_angle - 1e-6;
}

/* ---- Air that divides -------------------------------------------------------------------------------------------- */

/* A factor that falls with the branch's share of the air.  Where the handbook's value jumps as the share changes, a
 * straight line joins both over the next `width` of share; across a jump Newton's method may find no operating
 * point.  The widths are chosen here, no source. */
struct falling {
    double start, slope, until, width, behind;
};

static void trace_falling(struct trace *trace, const struct falling *f, double flow, double value,
                          enum source_id source) {
    if (flow >= f->until + f->width) {
        trace_read(trace, "Factor of the shares", "F", value, source,
                   arena_format(trace->arena, "as from q %.6g on", f->until + f->width));
        return;
    }
    TRACE(trace, TRACE_NUMBER, "Factor of the shares", flow <= f->until ? "F" : "F1", "F0 - k x min(q, q1)",
          f->start - f->slope * fmin(flow, f->until), source, trace_number("F0", f->start), trace_number("k", f->slope),
          trace_number("q", flow), trace_number("q1", f->until));
    if (flow > f->until)
        TRACE(trace, TRACE_NUMBER, "On the way to its next value", "F", "F1 + (F2 - F1) x (q - q1) / w", value, source,
              trace_number("F1", f->start - f->slope * f->until), trace_number("F2", f->behind),
              trace_number("q", flow), trace_number("q1", f->until), trace_number("w", f->width));
}

static double falling_at(const struct falling *f, double flow, struct trace *trace, enum source_id source) {
    double before = f->start - f->slope * fmin(flow, f->until);
    double share = fmin(fmax((flow - f->until) / f->width, 0), 1);
    double value = before + share * (f->behind - before);
    if (trace)
        trace_falling(trace, f, flow, value, source);
    return value;
}

/* Diagrams 7-16 and 7-18, read: the factor A' of a branch under 90 degrees (at 90 degrees it is 1).  The handbook gives
 * one value up to 0.35 of the area and another above: the coefficient jumps there, and no line is drawn between the
 * two, for no air crosses that. */
static const struct falling tap_small = {1.1, 0.7, 0.4, 0.02, 0.85}, tap_large = {1, 0.6, 0.6, 0.02, 0.6};

static double one(struct trace *trace, const char *words, enum source_id source) {
    trace_read(trace, "Factor of the shares", "F", 1, source, words);
    return 1;
}

/* Diagrams 7-16 and 7-18, read, for a run that keeps its area: A' (1 + x^2 - 2 x cos a). */
struct coefficient fitting_tap_branch(struct trace *trace, double angle, double flow, double area) {
    struct junction j = junction(trace, angle, flow, area);
    trace_velocity(trace, &j, SOURCE_NONE);
    double factor = is_square(j.angle)
                        ? one(trace, "at 90 degrees", SOURCE_IDELCHIK_TAP)
                        : falling_at(j.area <= 0.35 ? &tap_small : &tap_large, j.flow, trace, SOURCE_IDELCHIK_TAP);
    double value = factor * (1 + j.velocity * j.velocity - 2 * j.velocity * cos(j.angle));
    TRACE_COEFFICIENT(trace, "Branch of a tap", "F x (1 + v^2 - 2 x v x cos(a))", value, SOURCE_IDELCHIK_TAP,
                      trace_number("F", factor), velocity_of(&j), angle_of(&j));
    return (struct coefficient){.value = value, .outside = j.outside};
}

/* Diagram 7-20, read, for a run that keeps its area: tau Q^2.  Less than nothing where the air behind the tap slows
 * down and gains pressure; the same at every angle. */
struct coefficient fitting_tap_run(struct trace *trace, double flow, double area) {
    struct junction j = junction(trace, right_angle, flow, area);
    double tau = 0.4;
    if (j.area > 0.4) {
        double k = j.flow <= 0.5 ? 2 : 0.3;
        tau = k * (2 * j.flow - 1);
        TRACE(trace, TRACE_NUMBER, "Factor of an area over 0.4", "tau", "k x (2 x q - 1)", tau, SOURCE_IDELCHIK_TAP,
              trace_number("k", k), share_of_air(&j));
    } else
        trace_read(trace, "Factor of an area up to 0.4", "tau", tau, SOURCE_IDELCHIK_TAP, "whatever the airflow");
    double value = tau * j.flow * j.flow;
    TRACE_COEFFICIENT(trace, "Past a tap", "tau x q^2", value, SOURCE_IDELCHIK_TAP, trace_number("tau", tau),
                      share_of_air(&j));
    return (struct coefficient){.value = value, .outside = j.outside};
}

/* Diagram 7-16, read at 30, 45, 60 and 90 degrees, 15 from memory: K of a split whose legs have the whole area. */
static const struct table_point split_angle[] = {{15, 0.04}, {30, 0.16}, {45, 0.36}, {60, 0.64}, {90, 1.00}};

static const struct table_words split_words = {"Factor of the angle", "K", "an angle of", SOURCE_IDELCHIK_SPLIT};

/* 1 + x^2 - 2 x cos a - K x^2 */
struct coefficient fitting_split_leg(struct trace *trace, double angle, double flow, double area) {
    struct junction j = junction(trace, angle, flow, area);
    bool outside = false; /* the angle is inside already */
    trace_velocity(trace, &j, SOURCE_NONE);
    double k = table_read(TABLE(split_angle), j.angle * 180 / PI, &outside, trace, &split_words);
    double x = j.velocity, value = 1 + x * x - 2 * x * cos(j.angle) - k * x * x;
    TRACE_COEFFICIENT(trace, "Leg of a split", "1 + v^2 - 2 x v x cos(a) - K x v^2", value, SOURCE_IDELCHIK_SPLIT,
                      velocity_of(&j), angle_of(&j), trace_number("K", k));
    return (struct coefficient){.value = value, .outside = j.outside};
}

/* Diagram 7-17, from memory: the straight leg, by its velocity over that of all the air. */
static const struct table_point split_straight[] = {
    {0, 1.00},   {0.1, 0.81}, {0.2, 0.64}, {0.3, 0.50}, {0.4, 0.36}, {0.5, 0.25},
    {0.6, 0.16}, {0.8, 0.04}, {1, 0.00},   {1.2, 0.07}, {1.4, 0.39}, {1.6, 0.90},
};

static const struct table_words straight_words = {"Straight leg of a split", NULL, "v", SOURCE_IDELCHIK_SPLIT};

struct coefficient fitting_split_straight(struct trace *trace, double flow, double area) {
    struct junction j = junction(trace, right_angle, flow, area);
    bool outside = false;
    trace_velocity(trace, &j, SOURCE_NONE);
    double value = table_read(TABLE(split_straight), j.velocity, &outside, trace, &straight_words);
    if (!j.outside && outside)
        j.outside = "straight leg to 1.6 times the velocity of the whole";
    return (struct coefficient){.value = value, .outside = j.outside};
}

/* Diagram 7-29, read: 1 + k x^2, k = 1.5 with sharp corners, 0.3 with a smooth throat. */
struct coefficient fitting_bullhead(struct trace *trace, double flow, double area, bool smooth) {
    struct junction j = junction(trace, right_angle, flow, area);
    double k = smooth ? 0.3 : 1.5, value = 1 + k * j.velocity * j.velocity;
    trace_velocity(trace, &j, SOURCE_NONE);
    trace_read(trace, "Factor of its throat", "k", k, SOURCE_IDELCHIK_BULLHEAD, smooth ? "smooth" : "sharp corners");
    TRACE_COEFFICIENT(trace, "Leg of a bullhead", "1 + k x v^2", value, SOURCE_IDELCHIK_BULLHEAD, trace_number("k", k),
                      velocity_of(&j));
    return (struct coefficient){.value = value, .outside = j.outside};
}

/* ---- Air that comes together ------------------------------------------------------------------------------------- */

static const struct falling join_large = {0.9, 0.9, 0.4, 0.005, 0.55};

/* Diagrams 7-1 and following, from memory, for a run that keeps its area:
 *     A (1 + x^2 - 2 (1 - Q)^2 - 2 (Q^2 / f) cos a)
 * The same stands in Crane's Technical Paper 410, with which it is compared. Less than nothing where little air comes
 * in: the run draws it along.  A jumps at 0.35 of the area: so it is given; and at 0.4 of the air, where a line is
 * drawn. */
struct coefficient fitting_join_branch(struct trace *trace, double angle, double flow, double area) {
    struct junction j = junction(trace, angle, flow, area);
    trace_velocity(trace, &j, SOURCE_NONE);
    double factor = j.area > 0.35 ? falling_at(&join_large, j.flow, trace, SOURCE_IDELCHIK_JOIN)
                                  : one(trace, "of an area up to 0.35", SOURCE_IDELCHIK_JOIN);
    double straight = 2 * (1 - j.flow) * (1 - j.flow);
    double drawn = 2 * j.flow * j.flow / j.area * cos(j.angle);
    double value = factor * (1 + j.velocity * j.velocity - straight - drawn);
    TRACE_COEFFICIENT(trace, "Branch that joins", "F x (1 + v^2 - 2 x (1 - q)^2 - 2 x q^2 / f x cos(a))", value,
                      SOURCE_IDELCHIK_JOIN, trace_number("F", factor), velocity_of(&j), share_of_air(&j),
                      share_of_area(&j), angle_of(&j));
    return (struct coefficient){.value = value, .outside = j.outside};
}

/* Likewise: 1 - (1 - Q)^2 - 2 (Q^2 / f) cos a; at 90 degrees 1.55 Q - Q^2. */
struct coefficient fitting_join_run(struct trace *trace, double angle, double flow, double area) {
    struct junction j = junction(trace, angle, flow, area);
    double value;
    if (is_square(j.angle)) {
        value = 1.55 * j.flow - j.flow * j.flow;
        TRACE_COEFFICIENT(trace, "Past what joins at 90 degrees", "1.55 x q - q^2", value, SOURCE_IDELCHIK_JOIN,
                          share_of_air(&j));
    } else {
        value = 1 - (1 - j.flow) * (1 - j.flow) - 2 * j.flow * j.flow / j.area * cos(j.angle);
        TRACE_COEFFICIENT(trace, "Past what joins", "1 - (1 - q)^2 - 2 x q^2 / f x cos(a)", value, SOURCE_IDELCHIK_JOIN,
                          share_of_air(&j), share_of_area(&j), angle_of(&j));
    }
    return (struct coefficient){.value = value, .outside = j.outside};
}

/* Two streams that run against each other and leave by the side, legs of one size: 1 + 1/f^2 + 3 (Q^2 - Q) / f^2.  From
 * memory: Idelchik, merging of opposed streams in a symmetrical tee. */
struct coefficient fitting_join_bullhead(struct trace *trace, double flow, double area) {
    struct junction j = junction(trace, right_angle, flow, area);
    double value = 1 + (1 + 3 * (j.flow * j.flow - j.flow)) / (j.area * j.area);
    TRACE_COEFFICIENT(trace, "Leg of two that meet", "1 + (1 + 3 x (q^2 - q)) / f^2", value,
                      SOURCE_IDELCHIK_JOIN_BULLHEAD, share_of_air(&j), share_of_area(&j));
    return (struct coefficient){.value = value, .outside = j.outside};
}
