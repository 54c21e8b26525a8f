/* Changes of size: I. E. Idelchik, Handbook of Hydraulic Resistance, diagrams 5-4, 5-23, 4-1 and 4-9. */
#include "air/fitting.h"

#include <math.h>
#include <stddef.h>

#include "air/trace.h"
#include "base/constant.h"

/* Degrees at which the air leaves a diffuser's walls, and at which the diffuser is as good as abrupt. */
#define DIFFUSER_HOLDS 45.0
#define DIFFUSER_ABRUPT 60.0

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
static double abrupt_contraction(double n) {
    return 0.5 * pow(1 - n, 0.75);
}
#define ABRUPT_CONTRACTION "0.5 x (1 - n)^0.75"

struct coefficient fitting_abrupt_contraction(struct trace *trace, double area_ratio) {
    bool outside = false;
    double n = within(area_ratio, 0, 1, &outside), value = abrupt_contraction(n);
    TRACE_COEFFICIENT(trace, "Abrupt contraction", ABRUPT_CONTRACTION, value, SOURCE_NEAREST_BOX, trace_number("n", n));
    return (struct coefficient){.value = value, .outside = say(outside)};
}

/* Diagram 4-1, read; Borda and Carnot: (1 - n)^2. */
static double abrupt_expansion(double n) {
    return (1 - n) * (1 - n);
}
#define ABRUPT_EXPANSION "(1 - n)^2"

struct coefficient fitting_abrupt_expansion(struct trace *trace, double area_ratio) {
    bool outside = false;
    double n = within(area_ratio, 0, 1, &outside), value = abrupt_expansion(n);
    TRACE_COEFFICIENT(trace, "Abrupt enlargement", ABRUPT_EXPANSION, value, SOURCE_NEAREST_BOX, trace_number("n", n));
    return (struct coefficient){.value = value, .outside = say(outside)};
}

/* Diagram 5-23, read:
 *     (-0.0125 n^4 + 0.0224 n^3 - 0.00723 n^2 + 0.00444 n - 0.00745) (a^3 - 2 pi a^2 - 10 a)
 * It leaves 0.003 where nothing contracts; so never more than the abrupt contraction. */
struct coefficient fitting_contraction(struct trace *trace, double area_ratio, double angle) {
    bool outside = false;
    double n = within(area_ratio, 0, 1, &outside), a = within(angle, 0, PI, &outside);
    double of_area = (((-0.0125 * n + 0.0224) * n - 0.00723) * n + 0.00444) * n - 0.00745;
    double of_angle = ((a - 2 * PI) * a - 10) * a;
    double value = fmin(of_area * of_angle, abrupt_contraction(n));
    TRACE(trace, TRACE_NUMBER, "Factor of the areas", "Fn",
          "-0.0125 x n^4 + 0.0224 x n^3 - 0.00723 x n^2 + 0.00444 x n - 0.00745", of_area, SOURCE_IDELCHIK_CONTRACTION,
          trace_number("n", n));
    TRACE(trace, TRACE_NUMBER, "Factor of the angle, its radians", "Fa",
          "(d x pi / 180)^3 - 2 x pi x (d x pi / 180)^2 - 10 x (d x pi / 180)", of_angle, SOURCE_IDELCHIK_CONTRACTION,
          trace_of(TRACE_ANGLE, "d", a));
    TRACE_COEFFICIENT(trace, "Contraction, no more than an abrupt one", "min(Fn x Fa, " ABRUPT_CONTRACTION ")", value,
                      SOURCE_IDELCHIK_CONTRACTION, trace_number("Fn", of_area), trace_number("Fa", of_angle),
                      trace_number("n", n));
    return (struct coefficient){.value = value, .outside = say(outside)};
}

/* The fit, of degrees: A (1 - exp(-b a)) (1 - n)^p. */
static double diffuser_fit(double n, double degrees) {
    return 0.9453 * (1 - exp(-0.0541 * degrees)) * pow(1 - n, 1.9196);
}
#define DIFFUSER_FIT "min(0.9453 x (1 - exp(-0.0541 x d)) x (1 - n)^1.9196, " ABRUPT_EXPANSION ")"

static void trace_diffuser(struct trace *trace, double n, double degrees, double held, double value) {
    struct trace_symbol d = trace_number("d", fmin(degrees, DIFFUSER_HOLDS)), of_n = trace_number("n", n);
    if (degrees <= DIFFUSER_HOLDS) {
        TRACE_COEFFICIENT(trace, "Diffuser, no more than an abrupt enlargement", DIFFUSER_FIT, value,
                          SOURCE_IDELCHIK_DIFFUSER, d, of_n);
        return;
    }
    TRACE(trace, TRACE_NUMBER, "Diffuser of 45 degrees", "C45", DIFFUSER_FIT, held, SOURCE_IDELCHIK_DIFFUSER, d, of_n);
    TRACE_COEFFICIENT(trace, "Steeper: toward the abrupt enlargement at 60 degrees",
                      "C45 + (" ABRUPT_EXPANSION " - C45) x min((d - d1) / (d2 - d1), 1)", value,
                      SOURCE_IDELCHIK_DIFFUSER, trace_number("C45", held), of_n, trace_number("d", degrees),
                      trace_number("d1", DIFFUSER_HOLDS), trace_number("d2", DIFFUSER_ABRUPT));
}

/* Diagram 5-4 (conical, uniform flow at its inlet): a fit made here through twenty values read,
 * 8 to 45 degrees and areas 1.5 to 4, all within 0.00005; it goes to 0 as it should where the angle or the change does.
 * A diffuser of more than 45 degrees no longer holds the air to its walls: from there a straight line to the abrupt
 * expansion at 60 degrees, which is also the most that any is given; that line is chosen here, no source. */
struct coefficient fitting_diffuser(struct trace *trace, double area_ratio, double angle) {
    bool outside = false;
    double n = within(area_ratio, 0, 1, &outside), degrees = within(angle, 0, PI, &outside) * 180 / PI;
    double abrupt = abrupt_expansion(n);
    double held = fmin(diffuser_fit(n, fmin(degrees, DIFFUSER_HOLDS)), abrupt);
    double share = fmin(fmax((degrees - DIFFUSER_HOLDS) / (DIFFUSER_ABRUPT - DIFFUSER_HOLDS), 0), 1);
    double value = held + share * (abrupt - held);
    if (trace)
        trace_diffuser(trace, n, degrees, held, value);
    return (struct coefficient){.value = value, .outside = say(outside)};
}

/* tan(angle/2) = (D2 - D1) / (2 L), with D = 2 sqrt(A / pi). */
double fitting_cone_angle(struct trace *trace, double area, double other_area, double length) {
    double one = fmax(area, 0), other = fmax(other_area, 0), along = fmax(length, 0);
    double difference = 2 * fabs(sqrt(one / PI) - sqrt(other / PI));
    double angle = difference > 0 ? 2 * atan2(difference, 2 * along) : 0;
    if (!(along > 0))
        trace_read(trace, "Angle between its sides, degrees", "d", angle / DEGREE, SOURCE_NONE, "in no length");
    else
        TRACE(trace, TRACE_ANGLE, "Angle between the sides of the cone", "d",
              "2 x atan(abs(sqrt(A1 / pi) - sqrt(A2 / pi)) / L)", angle, SOURCE_NONE, trace_of(TRACE_AREA, "A1", one),
              trace_of(TRACE_AREA, "A2", other), trace_of(TRACE_LENGTH, "L", along));
    return angle;
}
