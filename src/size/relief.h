/* Which limit keeps a duct from a size that would do, found by lifting one after the other. */
#ifndef CLEAT_SIZE_RELIEF_H
#define CLEAT_SIZE_RELIEF_H

#include "size/sizing.h"

/* What a duct of that shape needs. */
struct wish {
    const struct sizing *sizing;
    const struct duct *duct;
    enum shape shape;
    struct size_need need;
};

/* A limit that was lifted to see whether a size would do without it. */
struct relief {
    const char *limit;     /* the limit in words, with its figure, of the metal as the job says it */
    bool several;          /* it is more than one: they keep, it keeps */
    const char *hint;      /* what lifts it: the least that does */
    struct duct_size size; /* what would do */
};

/* The first limit of `bounds` without which some size will do; false: none will even without all limits. */
bool relief_find(const struct wish *wish, const struct size_bounds *bounds, struct relief *relief);

/* The least standard height (or width) of a duct of that shape, clear, m. */
double relief_least_side(const struct catalogue *catalogue, enum shape shape, bool heights);

/* A side as a limit is written, of the metal: "8 in" of 6 in clear within an inch of lining. */
const char *relief_side_text(const struct sizing *sizing, const struct duct *duct, double clear);

#endif
