/* Areas, perimeters and words of cross-sections. */
#include "model/shape.h"

#include <math.h>

#include "base/constant.h"

const char *const shape_choices[] = {
    [SHAPE_RECTANGULAR] = "rectangular", [SHAPE_ROUND] = "round", [SHAPE_OVAL] = "oval", NULL};

const char *shape_name(enum shape shape) {
    return shape < SHAPE_COUNT ? shape_choices[shape] : "";
}

double size_area(struct duct_size size) {
    double lesser = fmin(size.width, size.height), greater = fmax(size.width, size.height);
    switch (size.shape) {
    case SHAPE_ROUND:
        return PI * size.width * size.width / 4;
    case SHAPE_OVAL: /* a rectangle between two half circles */
        return PI * lesser * lesser / 4 + (greater - lesser) * lesser;
    default:
        return size.width * size.height;
    }
}

double size_perimeter(struct duct_size size) {
    double lesser = fmin(size.width, size.height), greater = fmax(size.width, size.height);
    switch (size.shape) {
    case SHAPE_ROUND:
        return PI * size.width;
    case SHAPE_OVAL:
        return PI * lesser + 2 * (greater - lesser);
    default:
        return 2 * (size.width + size.height);
    }
}

double size_aspect(struct duct_size size) {
    double lesser = fmin(size.width, size.height), greater = fmax(size.width, size.height);
    return lesser > 0 ? greater / lesser : 1;
}

double size_hydraulic_diameter(struct duct_size size) {
    double perimeter = size_perimeter(size);
    return perimeter > 0 ? 4 * size_area(size) / perimeter : 0;
}

bool size_equal(struct duct_size a, struct duct_size b) {
    return a.shape == b.shape && fabs(a.width - b.width) < SAME_SIZE && fabs(a.height - b.height) < SAME_SIZE;
}

bool size_known(struct duct_size size) {
    return size.width > 0 && size.height > 0;
}

char *size_figures(struct arena *arena, enum measure_system system, struct duct_size size) {
    const char *width = measure_figure(arena, system, SHOW_SIZE, size.width);
    if (size.shape == SHAPE_ROUND)
        return arena_format(arena, "%s", width);
    const char *height = measure_figure(arena, system, SHOW_SIZE, size.height);
    return arena_format(arena, "%s x %s%s", width, height, size.shape == SHAPE_OVAL ? " oval" : "");
}

char *size_text(struct arena *arena, enum measure_system system, struct duct_size size) {
    const char *unit = measure_show(system, SHOW_SIZE)->unit;
    const char *width = measure_figure(arena, system, SHOW_SIZE, size.width);
    if (size.shape == SHAPE_ROUND)
        return arena_format(arena, "%s %s round", width, unit);
    const char *height = measure_figure(arena, system, SHOW_SIZE, size.height);
    return arena_format(arena, "%s x %s %s%s", width, height, unit, size.shape == SHAPE_OVAL ? " oval" : "");
}
