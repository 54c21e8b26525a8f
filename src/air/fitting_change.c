/* Changes of size: I. E. Idelchik, Handbook of Hydraulic Resistance, diagrams 5-4, 5-23, 4-1 and 4-9. */
#include "air/fitting.h"

#include <math.h>
#include <stddef.h>

#include "base/constant.h"

/* A ratio of small to large; anything else is the edge it lies beyond. */
static double within(double value, double low, double high, bool *outside) {
    double clamped = value >= low ? fmin(value, high) : low;
    *outside = *outside || !(fabs(value - clamped) <= 1e-9);
    return clamped;
}

static const char *say(bool outside) {
    return outside ? "smaller over larger area 0 to 1, angle 0 to 180 degrees" : NULL;
}

/* Diagram 4-9, read: 0.5 (1 - n)^(3/4). */
struct coefficient fitting_abrupt_contraction(double area_ratio) {
    bool outside = false;
    double n = within(area_ratio, 0, 1, &outside);
    return (struct coefficient){.value = 0.5 * pow(1 - n, 0.75), .outside = say(outside)};
}

/* Diagram 4-1, read; Borda and Carnot: (1 - n)^2. */
struct coefficient fitting_abrupt_expansion(double area_ratio) {
    bool outside = false;
    double n = within(area_ratio, 0, 1, &outside);
    return (struct coefficient){.value = (1 - n) * (1 - n), .outside = say(outside)};
}

/* Diagram 5-23, read:
 *     (-0.0125 n^4 + 0.0224 n^3 - 0.00723 n^2 + 0.00444 n - 0.00745) (a^3 - 2 pi a^2 - 10 a)
 * It leaves 0.003 where nothing contracts; so never more than the abrupt contraction. */
struct coefficient fitting_contraction(double area_ratio, double angle) {
    bool outside = false;
    double n = within(area_ratio, 0, 1, &outside), a = within(angle, 0, PI, &outside);
    double of_area = (((-0.0125 * n + 0.0224) * n - 0.00723) * n + 0.00444) * n - 0.00745;
    double of_angle = ((a - 2 * PI) * a - 10) * a;
    double value = fmin(of_area * of_angle, fitting_abrupt_contraction(n).value);
    return (struct coefficient){.value = value, .outside = say(outside)};
}

/* The fit, of degrees: A (1 - exp(-b a)) (1 - n)^p. */
static double diffuser_fit(double n, double degrees) {
    return 0.9453 * (1 - exp(-0.0541 * degrees)) * pow(1 - n, 1.9196);
}

/* Diagram 5-4 (conical, uniform flow at its inlet): a fit made here through twenty values read,
 * 8 to 45 degrees and areas 1.5 to 4, all within 0.00005; it goes to 0 as it should where the angle or the change does.
 * A diffuser of more than 45 degrees no longer holds the air to its walls: from there a straight line to the abrupt
 * expansion at 60 degrees, which is also the most that any is given; that line is chosen here, no source. */
struct coefficient fitting_diffuser(double area_ratio, double angle) {
    bool outside = false;
    double n = within(area_ratio, 0, 1, &outside), degrees = within(angle, 0, PI, &outside) * 180 / PI;
    double abrupt = fitting_abrupt_expansion(n).value;
    double value = fmin(diffuser_fit(n, fmin(degrees, 45)), abrupt);
    double share = fmin(fmax((degrees - 45) / (60 - 45), 0), 1);
    return (struct coefficient){.value = value + share * (abrupt - value), .outside = say(outside)};
}

/* tan(angle/2) = (D2 - D1) / (2 L), with D = 2 sqrt(A / pi). */
double fitting_cone_angle(double area, double other_area, double length) {
    double difference = 2 * fabs(sqrt(fmax(area, 0) / PI) - sqrt(fmax(other_area, 0) / PI));
    if (!(difference > 0))
        return 0;
    return 2 * atan2(difference, 2 * fmax(length, 0));
}
