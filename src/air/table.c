/* Straight lines between the points of a table. */
#include "air/table.h"

double table_at(struct table table, double x, bool *outside) {
    const struct table_point *last = &table.points[table.count - 1];
    /* Ends count as inside even when a size in metres has lost a digit on the way to its ratio. */
    const double slack = 1e-9;
    if (!(x >= table.points[0].x)) {
        *outside = *outside || !(x >= table.points[0].x - slack);
        return table.points[0].y;
    }
    if (x >= last->x) {
        *outside = *outside || x > last->x + slack;
        return last->y;
    }
    size_t i = 1;
    while (table.points[i].x < x)
        i++;
    const struct table_point *a = &table.points[i - 1], *b = &table.points[i];
    return a->y + (b->y - a->y) * (x - a->x) / (b->x - a->x);
}
