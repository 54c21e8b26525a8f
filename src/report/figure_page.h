/* Diagrams: figures whose places are those of the page, in points, y down, as wide as a page has room for; and even
 * steps for their axes. */
#ifndef CLEAT_REPORT_FIGURE_PAGE_H
#define CLEAT_REPORT_FIGURE_PAGE_H

#include "base/measure.h"
#include "draw/figure.h"
#include "draw/page.h"

/* From one row of a diagram to the next, pt: a line of plain letters with air around it. */
#define PAGE_ROW 12.5

/* So many rows stand in one diagram; what has more goes on in the next. */
enum { PAGE_ROWS = 44 };

struct figure *diagram_new(struct arena *arena, const char *title, const char *subtitle);

struct spot diagram_spot(double x, double y);
void diagram_line(struct figure *figure, enum stroke stroke, double x, double y, double to_x, double to_y);

/* In plain letters, no longer than `room` pt; which end stands at x, `toward` says (figure_text). */
void diagram_text(struct figure *figure, const char *text, double x, double y, enum toward toward, double room);
void diagram_small(struct figure *figure, const char *text, double x, double y, enum toward toward, double room);

/* A grey band behind a row. */
void diagram_band(struct figure *figure, double x, double y, double to_x, double to_y);

/* An axis of a quantity in the units that papers show: from `low` to `high` in steps of 1, 2 or
 * 5 times a power of ten. */
struct axis {
    const struct measure_show *show;
    double low, high, step; /* in the units shown */
    int decimals;           /* that a step needs */
    double from, to;        /* pt: where low and high stand */
};

/* Holds `low` to `high` (SI), and 0 where that is near, in about `steps` steps. */
struct axis axis_over(enum measure_system system, enum measure_use use, double low, double high, int steps);

/* Where a value (SI) stands, pt. */
double axis_at(const struct axis *axis, double si);

/* How many ticks there are, where one stands, and its figure. */
size_t axis_ticks(const struct axis *axis);
double axis_tick(const struct axis *axis, size_t index);
const char *axis_words(struct arena *arena, const struct axis *axis, size_t index);

#endif
