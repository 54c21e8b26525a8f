/* The standard sizes of the shop, with what sizing asks of each worked out once a job. */
#ifndef CLEAT_SIZE_CATALOGUE_H
#define CLEAT_SIZE_CATALOGUE_H

#include "model/job.h"

/* Sizes of two dimensions: every standard height with every standard width. */
struct size_grid {
    enum shape shape;
    size_t rows, columns;
    const double *height, *width;   /* m, ascending: of the rows, of the columns */
    const double *equivalent;       /* m, circular equivalent at [row * columns + column]; 0: there is no such duct */
    const double *area, *perimeter; /* m2, m, likewise */
};

struct catalogue {
    size_t round_count;
    const double *round; /* m, ascending */
    struct size_grid rectangular, oval;
};

/* At most this many sizes of one list are used. */
enum { CATALOGUE_LIMIT = 256 };

/* Makes the catalogue in the job's arena.  Lists that the shop left empty are filled with the tool's own and marked
 * assumed. */
const struct catalogue *catalogue_make(struct job *job);

/* How many sizes of that shape there are. */
size_t catalogue_count(const struct catalogue *catalogue, enum shape shape);

/* The entry of `list` (ascending, count > 0) nearest to `value`; of two equally near, the larger. */
double catalogue_nearest(const double *list, size_t count, double value);

#endif
