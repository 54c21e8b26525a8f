/* One shape built finer and finer, and what a measure of its drawn curves tends to.
 *
 * A sum over the n equal parts of a smooth curve is its limit + a / n^2 + b / n^4 + ... (Euler and Maclaurin), so that
 * a polynomial in 1 / n^2 through a few of them, taken at 0, gives the limit to rounding (Richardson; Neville's
 * scheme).  Include it behind cmocka.h.
 */
#ifndef TESTS_UNIT_SOLID_SERIES_H
#define TESTS_UNIT_SOLID_SERIES_H

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "metal/metal.h"

enum {
    SERIES_LEAST = 4, /* finenesses 1, 2, 4, 8 */
    SERIES_MOST = 9   /* .. 256, where the series needs it */
};

struct proof {
    struct arena *arena;
    jmp_buf no_memory;
    shape_builder *build;
    const void *size;
    struct solid *at[SERIES_MOST]; /* at fineness 1, 2, 4, ...; NULL: not built yet */
    double extent;                 /* m: of the solid at most */
    bool *exact;                   /* by panel: a plane, or rolled by a law that was proved point by point */
    const char *property;          /* the first that does not hold; NULL: all do */
    char said[512];
};

/* Notes the first property that does not hold; gives back whether it does. */
#define holds(proof, fact, ...)                                                                                        \
    ((fact) || (proof)->property                                                                                       \
         ? !(proof)->property                                                                                          \
         : (snprintf((proof)->said, sizeof(proof)->said, __VA_ARGS__), (proof)->property = #fact, false))

/* The shape at fineness 2^level, closed. */
static inline const struct solid *series_at(struct proof *proof, size_t level) {
    if (!proof->at[level]) {
        proof->at[level] = solid_new(proof->arena, (double)(1u << level));
        proof->build(proof->at[level], proof->size);
        solid_close(proof->at[level]);
    }
    return proof->at[level];
}

/* What is measured of a solid: `parts` is by how many parts the curve is drawn. */
struct measure_of {
    int panel, edge;
    int way; /* for the measure itself */
    struct frame frame;
};
typedef double solid_measure(const struct solid *solid, const struct measure_of *of, double *parts);

struct limit {
    double value, doubt;
};

/* Neville's scheme at 0, in place; the doubt is what the last step changed. */
static inline struct limit series_limit(const double *parts, const double *values, size_t count) {
    double t[SERIES_MOST], x[SERIES_MOST];
    double before = values[0];
    for (size_t i = 0; i < count; i++) {
        x[i] = 1 / (parts[i] * parts[i]);
        t[i] = values[i];
        for (size_t k = i; k-- > 0;)
            t[k] = t[k + 1] + (t[k + 1] - t[k]) * x[i] / (x[k] - x[i]);
        if (i + 2 == count)
            before = t[0];
    }
    return (struct limit){t[0], fabs(t[0] - before)};
}

/* Finer until the doubt is under `enough` and the limit within as much of `want` (NAN: wherever it is), or no finer
 * shape is built: a few coarse shapes may seem to agree by chance. */
static inline struct limit limit_near(struct proof *proof, solid_measure *measure, const struct measure_of *of,
                                      double want, double enough) {
    double parts[SERIES_MOST], values[SERIES_MOST];
    struct limit limit = {0, INFINITY};
    for (size_t level = 0; level < SERIES_MOST; level++) {
        values[level] = measure(series_at(proof, level), of, &parts[level]);
        if (level > 0 && parts[level] <= parts[level - 1]) /* not divided: the same at any fineness */
            return (struct limit){values[0], fabs(values[level] - values[0])};
        if (level + 1 >= SERIES_LEAST)
            limit = series_limit(parts, values, level + 1);
        if (limit.doubt <= enough && !(fabs(limit.value - want) > enough))
            break;
    }
    return limit;
}

static inline struct limit limit_of(struct proof *proof, solid_measure *measure, const struct measure_of *of,
                                    double enough) {
    return limit_near(proof, measure, of, NAN, enough);
}

/* Whether a measure tends to `want`, to a billionth of `whole`.  One whose series does not settle says nothing where
 * `may_doubt`. */
static inline bool tends_to(struct proof *proof, solid_measure *measure, const struct measure_of *of, double want,
                            double whole, bool may_doubt, struct limit *limit) {
    double enough = 1e-9 * whole + 1e-13 * proof->extent;
    *limit = limit_near(proof, measure, of, want, enough / 10);
    if (limit->doubt > enough)
        return may_doubt;
    return fabs(limit->value - want) <= enough + limit->doubt;
}

#endif
