/* A blower's pressure between the points that its maker gives: Fritsch and Carlson's monotone cubic. */
#include "air/air.h"

#include <math.h>

/* Airflows that are sums of outlets may miss an end point by rounding. */
#define END_SLACK 1e-6

/* Slope of the chord between points `i` and `i + 1`. */
static double chord(const struct blower_point *points, size_t i) {
    return (points[i + 1].pressure - points[i].pressure) / (points[i + 1].flow - points[i].flow);
}

static double width(const struct blower_point *points, size_t i) {
    return points[i + 1].flow - points[i].flow;
}

/* Slope at an end point: three points' parabola, held back so that the curve keeps its direction. `h0`, `m0`: width and
 * chord of the interval at the end, `h1`, `m1`: of its neighbour. */
static double end_slope(double h0, double h1, double m0, double m1) {
    double slope = ((2 * h0 + h1) * m0 - h0 * m1) / (h0 + h1);
    if (slope * m0 <= 0)
        return 0;
    if (m0 * m1 <= 0 && fabs(slope) > 3 * fabs(m0))
        return 3 * m0;
    return slope;
}

/* Slope of the curve at point `i`.  Fritsch and Carlson, SIAM Journal on Numerical Analysis 17, 1980, with the weighted
 * harmonic mean of Fritsch and Butland, SIAM Journal on Scientific and Statistical Computing 5, 1984 (from memory). */
static double slope_at(const struct blower_point *points, size_t count, size_t i) {
    if (count == 2)
        return chord(points, 0);
    if (i == 0)
        return end_slope(width(points, 0), width(points, 1), chord(points, 0), chord(points, 1));
    if (i == count - 1)
        return end_slope(width(points, i - 1), width(points, i - 2), chord(points, i - 1), chord(points, i - 2));
    double before = chord(points, i - 1), behind = chord(points, i);
    if (before * behind <= 0)
        return 0;
    double w1 = 2 * width(points, i) + width(points, i - 1);
    double w2 = width(points, i) + 2 * width(points, i - 1);
    return (w1 + w2) / (w1 / before + w2 / behind);
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

bool air_blower_span(const struct blower_point *points, size_t count, double flow, struct blower_span *span) {
    if (count < 2)
        return false;
    size_t i = interval_of(points, count, flow);
    double h = width(points, i);
    *span = (struct blower_span){.first = i,
                                 .width = h,
                                 .share = fmin(fmax((flow - points[i].flow) / h, 0), 1),
                                 .slope = {slope_at(points, count, i), slope_at(points, count, i + 1)}};
    return true;
}

bool air_blower_pressure(const struct blower_point *points, size_t count, double flow, double *pressure) {
    if (count == 0)
        return false;
    double first = points[0].flow, last = points[count - 1].flow;
    if (flow < first * (1 - END_SLACK) || flow > last * (1 + END_SLACK))
        return false;
    struct blower_span span;
    if (!air_blower_span(points, count, flow, &span)) {
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
    double d0 = slope_at(points, count, i), d1 = slope_at(points, count, i + 1);
    /* Hermite's cubic, once differentiated. */
    return 6 * t * (1 - t) * chord(points, i) + (1 - t) * (1 - 3 * t) * d0 + t * (3 * t - 2) * d1;
}
