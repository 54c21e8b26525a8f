/* Straight lines between the points of a table. */
#include "air/table.h"

#include <math.h>

#include "air/trace.h"

/* Index of the second of the two points that `x` lies between; 0: before the first, or not a number; `count`: on the
 * last, or behind it. */
static size_t point_behind(struct table table, double x) {
    if (!(x >= table.points[0].x))
        return 0;
    if (x >= table.points[table.count - 1].x)
        return table.count;
    size_t i = 1;
    while (table.points[i].x < x)
        i++;
    return i;
}

double table_at(struct table table, double x, bool *outside) {
    /* Ends count as inside despite the rounding of a ratio of sizes in metres. */
    const double slack = 1e-9;
    size_t i = point_behind(table, x);
    if (i == 0) {
        *outside = *outside || !(x >= table.points[0].x - slack);
        return table.points[0].y;
    }
    const struct table_point *a = &table.points[i - 1], *b = &table.points[i];
    if (i == table.count) {
        *outside = *outside || x > a->x + slack;
        return a->y;
    }
    return a->y + (b->y - a->y) * (x - a->x) / (b->x - a->x);
}

static void trace_table(struct table table, double x, double value, struct trace *trace,
                        const struct table_words *words) {
    const char *name = words->name ? words->name : trace->name;
    size_t i = point_behind(table, x);
    const struct table_point *a = &table.points[i ? i - 1 : 0], *b = &table.points[i < table.count ? i : i - 1];
    const double slack = 1e-9;
    if (a == b || fabs(x - a->x) <= slack || fabs(x - b->x) <= slack) {
        double at = fabs(x - a->x) <= slack ? a->x : b->x;
        bool inside = fabs(x - at) <= slack;
        trace_read(trace, words->what, name, value, words->source,
                   arena_format(trace->arena, inside ? "in its table at %s %.6g" : "at the end of its table, %s %.6g",
                                words->over, at));
        return;
    }
    const char *what =
        arena_format(trace->arena, "%s, in its table between %s %.6g and %.6g", words->what, words->over, a->x, b->x);
    TRACE(trace, TRACE_NUMBER, what, name, "y0 + (y1 - y0) x (t - t0) / (t1 - t0)", value, words->source,
          trace_number("y0", a->y), trace_number("y1", b->y), trace_number("t", x), trace_number("t0", a->x),
          trace_number("t1", b->x));
}

double table_read(struct table table, double x, bool *outside, struct trace *trace, const struct table_words *words) {
    double value = table_at(table, x, outside);
    if (trace)
        trace_table(table, x, value, trace, words);
    return value;
}
