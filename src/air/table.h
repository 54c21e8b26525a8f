/* Tables of one variable, as the handbooks print them: straight lines between the points, the end value beyond them. */
#ifndef CLEAT_AIR_TABLE_H
#define CLEAT_AIR_TABLE_H

#include <stdbool.h>
#include <stddef.h>

#include "base/source.h"

struct table_point {
    double x, y;
};

/* Points ascending in x, at least one. */
struct table {
    const struct table_point *points;
    size_t count;
};

#define TABLE(array) ((struct table){.points = (array), .count = sizeof(array) / sizeof *(array)})

/* The value at `x`.  Outside the table, or when `x` is not a number, the value of
 * its end, and `*outside` becomes true. */
double table_at(struct table table, double x, bool *outside);

/* What a reading is called in a working: "Factor of its turn", "A1", over "the angle". */
struct table_words {
    const char *what, *name, *over;
    enum source_id source;
};

struct trace; /* air/trace.h */

/* The same, and tells `trace` (NULL: nobody) how it was read; a `name` of NULL is that of the coefficient asked for. */
double table_read(struct table table, double x, bool *outside, struct trace *trace, const struct table_words *words);

#endif
