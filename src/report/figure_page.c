/* Diagrams: places on the page, rows, axes. */
#include "report/figure_page.h"

#include <math.h>

#include "draw/sheet.h"

struct figure *diagram_new(struct arena *arena, const char *title, const char *subtitle) {
    struct figure *figure = figure_new(arena, title, subtitle);
    figure->diagram = true;
    return figure;
}

struct spot diagram_spot(double x, double y) {
    return (struct spot){x * POINT, -y * POINT};
}

void diagram_line(struct figure *figure, enum stroke stroke, double x, double y, double to_x, double to_y) {
    figure_line(figure, stroke, diagram_spot(x, y), diagram_spot(to_x, to_y));
}

void diagram_text(struct figure *figure, const char *text, double x, double y, enum toward toward, double room) {
    if (text && *text)
        figure_text(figure, text, diagram_spot(x, y), toward, room * POINT, LETTER_PLAIN);
}

void diagram_small(struct figure *figure, const char *text, double x, double y, enum toward toward, double room) {
    if (text && *text)
        figure_text(figure, text, diagram_spot(x, y), toward, room * POINT, LETTER_SMALL);
}

void diagram_band(struct figure *figure, double x, double y, double to_x, double to_y) {
    const struct spot corners[] = {diagram_spot(x, y), diagram_spot(to_x, y), diagram_spot(to_x, to_y),
                                   diagram_spot(x, to_y)};
    figure_polygon(figure, STROKE_NONE, SHADE_LIGHT, corners, 4);
}

/* ---- Axes -------------------------------------------------------------------------------------------------------- */

/* The least of 1, 2, 5 times a power of ten that is not under `least`. */
static double even_step(double least) {
    double power = pow(10, floor(log10(least)));
    static const double steps[] = {1, 2, 5};
    for (int i = 0; i < 3; i++)
        if (steps[i] * power >= least * (1 - 1e-9))
            return steps[i] * power;
    return 10 * power;
}

struct axis axis_over(enum measure_system system, enum measure_use use, double low, double high, int steps) {
    const struct measure_show *show = measure_show(system, use);
    struct axis axis = {.show = show, .low = low / show->factor, .high = high / show->factor};
    if (!(axis.high > axis.low))
        axis.high = axis.low + 1;
    axis.step = even_step((axis.high - axis.low) / steps);
    axis.low = floor(axis.low / axis.step + 1e-9) * axis.step;
    axis.high = ceil(axis.high / axis.step - 1e-9) * axis.step;
    axis.decimals = (int)fmax(0, -floor(log10(axis.step) + 1e-9));
    return axis;
}

double axis_at(const struct axis *axis, double si) {
    double share = (si / axis->show->factor - axis->low) / (axis->high - axis->low);
    return axis->from + share * (axis->to - axis->from);
}

size_t axis_ticks(const struct axis *axis) {
    return (size_t)lround((axis->high - axis->low) / axis->step) + 1;
}

double axis_tick(const struct axis *axis, size_t index) {
    return axis_at(axis, (axis->low + (double)index * axis->step) * axis->show->factor);
}

const char *axis_words(struct arena *arena, const struct axis *axis, size_t index) {
    double value = axis->low + (double)index * axis->step;
    return arena_format(arena, "%.*f", axis->decimals, fabs(value) < axis->step / 2 ? 0.0 : value);
}
