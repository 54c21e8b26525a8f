/* Dampers, entries and exits. */
#include "air/fitting.h"

#include <math.h>

#include "air/table.h"
#include "air/trace.h"
#include "base/constant.h"

/* A single blade by its angle from wide open, degrees.  From memory: J. Weisbach's tests of throttle plates as tabled
 * by I. E. Idelchik, Handbook of Hydraulic Resistance.  The value wide open is taken: common practice, no source. */
static const struct table_point round_blade[] = {
    {0, 0.20},  {5, 0.24},  {10, 0.52}, {15, 0.90}, {20, 1.54}, {25, 2.51}, {30, 3.91}, {35, 6.22},
    {40, 10.8}, {45, 18.7}, {50, 32.6}, {55, 58.8}, {60, 118},  {65, 256},  {70, 751},
};

static const struct table_point rectangular_blade[] = {
    {0, 0.20},  {5, 0.28},   {10, 0.45}, {15, 0.77}, {20, 1.34}, {25, 2.16}, {30, 3.54}, {35, 5.72},
    {40, 9.27}, {45, 15.07}, {50, 24.9}, {55, 43.4}, {60, 77.4}, {65, 158},  {70, 368},
};

static const struct table_words blade_words = {"Blade by its angle from wide open", NULL, "an angle of",
                                               SOURCE_DAMPER_BLADE};

struct coefficient fitting_damper(struct trace *trace, double angle, bool round) {
    struct table blade = round ? TABLE(round_blade) : TABLE(rectangular_blade);
    bool outside = false;
    double value = table_read(blade, angle / DEGREE, &outside, trace, &blade_words);
    return (struct coefficient){.value = value,
                                .outside = outside ? "damper blade up to 70 degrees from wide open" : NULL};
}

bool fitting_damper_blade(double coefficient, bool round, double *angle) {
    struct table blade = round ? TABLE(round_blade) : TABLE(rectangular_blade);
    const struct table_point *last = &blade.points[blade.count - 1];
    *angle = last->x * DEGREE;
    if (coefficient > last->y)
        return false;
    size_t i = 1;
    while (i + 1 < blade.count && blade.points[i].y < coefficient)
        i++;
    const struct table_point *a = &blade.points[i - 1], *b = &blade.points[i];
    double share = fmin(fmax((coefficient - a->y) / (b->y - a->y), 0), 1);
    *angle = (a->x + (b->x - a->x) * share) * DEGREE;
    return true;
}

static double open_end(struct trace *trace, const char *what, double value) {
    trace_read(trace, what, trace_name(trace), value, SOURCE_NEAREST_BOOT, "of the duct's velocity pressure");
    return value;
}

/* An open end, flush: from memory, ASHRAE Handbook, Fundamentals, and Idelchik. */
double fitting_entry(struct trace *trace) {
    return open_end(trace, "Air that comes in by an open end", 0.5);
}

/* All the velocity is lost in the room. */
double fitting_exit(struct trace *trace) {
    return open_end(trace, "Air that leaves by an open end", 1.0);
}
