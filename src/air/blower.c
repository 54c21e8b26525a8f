/* A blower's pressure between the points that its maker gives: Fritsch and Carlson's monotone cubic. */
#include "air/air.h"

#include <math.h>

#include "air/trace.h"

/* Airflows that are sums of outlets may miss an end point by rounding. */
#define END_SLACK 1e-6

/* Slope of the chord between points `i` and `i + 1`. */
static double chord(const struct blower_point *points, size_t i) {
    return (points[i + 1].pressure - points[i].pressure) / (points[i + 1].flow - points[i].flow);
}

static double width(const struct blower_point *points, size_t i) {
    return points[i + 1].flow - points[i].flow;
}

/* The working of a chord, called `name`. */
static void trace_chord(struct trace *trace, const struct blower_point *points, size_t i, const char *name) {
    TRACE(trace, TRACE_SLOPE, "Chord between two points", name, "(p1 - p0) / (Q1 - Q0)", chord(points, i), SOURCE_NONE,
          trace_of(TRACE_PRESSURE, "p1", points[i + 1].pressure), trace_of(TRACE_PRESSURE, "p0", points[i].pressure),
          trace_of(TRACE_FLOW, "Q1", points[i + 1].flow), trace_of(TRACE_FLOW, "Q0", points[i].flow));
}

/* Slope at an end point: three points' parabola, held back so that the curve keeps its direction. `own`: the interval
 * at the end, `next`: its neighbour. */
static double end_slope(struct trace *trace, const struct blower_point *points, size_t own, size_t next) {
    double h0 = width(points, own), h1 = width(points, next), d0 = chord(points, own), d1 = chord(points, next);
    double slope = ((2 * h0 + h1) * d0 - h0 * d1) / (h0 + h1);
    trace_chord(trace, points, own, "d0");
    trace_chord(trace, points, next, "d1");
    if (slope * d0 <= 0) {
        trace_read(trace, "Slope at the last point", trace_name(trace), 0, SOURCE_BLOWER_CURVE,
                   "as the parabola of three points would turn back");
        return 0;
    }
    if (d0 * d1 <= 0 && fabs(slope) > 3 * fabs(d0)) {
        TRACE(trace, TRACE_SLOPE, "Slope at the last point, held back", trace_name(trace), "3 x d0", 3 * d0,
              SOURCE_BLOWER_CURVE, trace_of(TRACE_SLOPE, "d0", d0));
        return 3 * d0;
    }
    TRACE(trace, TRACE_SLOPE, "Slope at the last point", trace_name(trace),
          "((2 x b0 + b1) x d0 - b0 x d1) / (b0 + b1)", slope, SOURCE_BLOWER_CURVE, trace_of(TRACE_FLOW, "b0", h0),
          trace_of(TRACE_FLOW, "b1", h1), trace_of(TRACE_SLOPE, "d0", d0), trace_of(TRACE_SLOPE, "d1", d1));
    return slope;
}

/* Slope of the curve at point `i`.  Fritsch and Carlson, SIAM Journal on Numerical Analysis 17, 1980, with the weighted
 * harmonic mean of Fritsch and Butland, SIAM Journal on Scientific and Statistical Computing 5, 1984 (from memory). */
static double slope_at(struct trace *trace, const struct blower_point *points, size_t count, size_t i) {
    if (count == 2) {
        trace_chord(trace, points, 0, trace_name(trace));
        return chord(points, 0);
    }
    if (i == 0)
        return end_slope(trace, points, 0, 1);
    if (i == count - 1)
        return end_slope(trace, points, i - 1, i - 2);
    double before = chord(points, i - 1), behind = chord(points, i);
    trace_chord(trace, points, i - 1, "d0");
    trace_chord(trace, points, i, "d1");
    if (before * behind <= 0) {
        trace_read(trace, "Slope at the point", trace_name(trace), 0, SOURCE_BLOWER_CURVE, "as the curve turns there");
        return 0;
    }
    double h0 = width(points, i - 1), h1 = width(points, i), w1 = 2 * h1 + h0, w2 = h1 + 2 * h0;
    double slope = (w1 + w2) / (w1 / before + w2 / behind);
    TRACE(trace, TRACE_SLOPE, "Slope at the point", trace_name(trace),
          "3 x (b0 + b1) / ((2 x b1 + b0) / d0 + (b1 + 2 x b0) / d1)", slope, SOURCE_BLOWER_CURVE,
          trace_of(TRACE_FLOW, "b0", h0), trace_of(TRACE_FLOW, "b1", h1), trace_of(TRACE_SLOPE, "d0", before),
          trace_of(TRACE_SLOPE, "d1", behind));
    return slope;
}

/* The interval that holds `flow`, by halving. */
static size_t interval_of(const struct blower_point *points, size_t count, double flow) {
    size_t low = 0, high = count - 1;
    while (high - low > 1) {
        size_t middle = (low + high) / 2;
        if (points[middle].flow <= flow)
            low = middle;
        else
            high = middle;
    }
    return low;
}

bool air_blower_span(struct trace *trace, const struct blower_point *points, size_t count, double flow,
                     struct blower_span *span) {
    if (count < 2)
        return false;
    size_t i = interval_of(points, count, flow);
    double h = width(points, i);
    *span = (struct blower_span){.first = i, .width = h, .share = fmin(fmax((flow - points[i].flow) / h, 0), 1)};
    trace_as(trace, "m0");
    span->slope[0] = slope_at(trace, points, count, i);
    trace_as(trace, "m1");
    span->slope[1] = slope_at(trace, points, count, i + 1);
    return true;
}

bool air_blower_pressure(const struct blower_point *points, size_t count, double flow, double *pressure) {
    if (count == 0)
        return false;
    double first = points[0].flow, last = points[count - 1].flow;
    if (flow < first * (1 - END_SLACK) || flow > last * (1 + END_SLACK))
        return false;
    struct blower_span span;
    if (!air_blower_span(NULL, points, count, flow, &span)) {
        *pressure = points[0].pressure;
        return true;
    }
    double t = span.share, h = span.width;
    /* Hermite's cubic through two points with their slopes. */
    *pressure = (1 + 2 * t) * (1 - t) * (1 - t) * points[span.first].pressure +
                t * (1 - t) * (1 - t) * h * span.slope[0] + t * t * (3 - 2 * t) * points[span.first + 1].pressure -
                t * t * (1 - t) * h * span.slope[1];
    return true;
}

bool air_blower_at(const struct blower_point *points, size_t count, double flow, const struct air *air,
                   double *pressure) {
    if (!air_blower_pressure(points, count, flow, pressure))
        return false;
    *pressure *= air->density_ratio;
    return true;
}

double air_blower_slope(const struct blower_point *points, size_t count, double flow) {
    size_t i = interval_of(points, count, flow);
    double h = width(points, i), t = fmin(fmax((flow - points[i].flow) / h, 0), 1);
    double d0 = slope_at(NULL, points, count, i), d1 = slope_at(NULL, points, count, i + 1);
    /* Hermite's cubic, once differentiated. */
    return 6 * t * (1 - t) * chord(points, i) + (1 - t) * (1 - 3 * t) * d0 + t * (3 * t - 2) * d1;
}
