/* Tables of one variable, as the handbooks print them: straight lines between the points, the end value beyond them. */
#ifndef CLEAT_AIR_TABLE_H
#define CLEAT_AIR_TABLE_H

#include <stdbool.h>
#include <stddef.h>

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

#endif
