/* Limits, lifted one after the other. */
#include "size/relief.h"

#include <math.h>

#include "model/lined.h"

/* Limits hold for the metal, sizes are clear. */
const char *relief_side_text(const struct sizing *sizing, const struct duct *duct, double clear) {
    double metal = clear + 2 * duct->run->settings.lining;
    return measure_text(sizing->job->arena, sizing->job->system, SHOW_SIZE, metal);
}

static bool will_do(const struct wish *wish, const struct size_bounds *bounds, struct duct_size *size) {
    return choose_size(wish->sizing->catalogue, wish->shape, &wish->need, bounds, size);
}

/* Sides in the order of the shop's list: of the heights (or widths) of ducts of that shape. */
static const double *sides_of(const struct catalogue *catalogue, enum shape shape, bool heights, size_t *count) {
    const struct size_grid *grid = shape == SHAPE_OVAL ? &catalogue->oval : &catalogue->rectangular;
    *count = shape == SHAPE_ROUND ? catalogue->round_count : heights ? grid->rows : grid->columns;
    return shape == SHAPE_ROUND ? catalogue->round : heights ? grid->height : grid->width;
}

double relief_least_side(const struct catalogue *catalogue, enum shape shape, bool heights) {
    size_t count;
    return sides_of(catalogue, shape, heights, &count)[0];
}

/* The least of the shop's sides for one limit (`*limit`, in `bounds`) with which a size will do; false: none. */
static bool lift_side(const struct wish *wish, struct size_bounds *bounds, double *limit, bool heights,
                      struct duct_size *size) {
    size_t count;
    const double *sides = sides_of(wish->sizing->catalogue, wish->shape, heights, &count);
    double before = *limit;
    bounds->keep_height = 0;
    for (size_t i = 0; i < count; i++) {
        *limit = sides[i];
        if (sides[i] > before && will_do(wish, bounds, size))
            return true;
    }
    return false;
}

static bool lift_height(const struct wish *wish, struct size_bounds bounds, struct relief *relief) {
    struct arena *arena = wish->sizing->job->arena;
    if (bounds.height <= 0)
        return false;
    relief->limit =
        arena_format(arena, "the height limit of %s", relief_side_text(wish->sizing, wish->duct, bounds.height));
    if (!lift_side(wish, &bounds, &bounds.height, true, &relief->size))
        return false;
    relief->hint = arena_format(arena, "limit height %s", relief_side_text(wish->sizing, wish->duct, bounds.height));
    return true;
}

static bool lift_width(const struct wish *wish, struct size_bounds bounds, struct relief *relief) {
    struct arena *arena = wish->sizing->job->arena;
    if (bounds.width <= 0)
        return false;
    relief->limit =
        arena_format(arena, "the width limit of %s", relief_side_text(wish->sizing, wish->duct, bounds.width));
    if (!lift_side(wish, &bounds, &bounds.width, false, &relief->size))
        return false;
    relief->hint = arena_format(arena, "limit width %s", relief_side_text(wish->sizing, wish->duct, bounds.width));
    return true;
}

static bool lift_aspect(const struct wish *wish, struct size_bounds bounds, struct relief *relief) {
    if (bounds.aspect <= 0 || wish->shape == SHAPE_ROUND)
        return false;
    relief->limit = arena_format(wish->sizing->job->arena, "the aspect ratio limit of %g", bounds.aspect);
    bounds.aspect = 0;
    if (!will_do(wish, &bounds, &relief->size))
        return false;
    relief->hint = arena_format(wish->sizing->job->arena, "aspect %g in the shop",
                                ceil(10 * size_aspect(relief->size) - 1e-6) / 10);
    return true;
}

/* Both sides at once, with the aspect that the shop allows. */
static bool lift_sides(const struct wish *wish, struct size_bounds bounds, struct relief *relief) {
    struct arena *arena = wish->sizing->job->arena;
    struct size_bounds free = {.area = bounds.area, .aspect = bounds.aspect};
    if (bounds.height <= 0 || bounds.width <= 0 || !will_do(wish, &free, &relief->size))
        return false;
    relief->limit = "the limits of height and width";
    relief->several = true;
    relief->hint = arena_format(arena, "limit height %s, width %s",
                                relief_side_text(wish->sizing, wish->duct, relief->size.height),
                                relief_side_text(wish->sizing, wish->duct, relief->size.width));
    return true;
}

static bool lift_all(const struct wish *wish, struct size_bounds bounds, struct relief *relief) {
    struct size_bounds none = {.area = bounds.area};
    relief->limit = "the limits of height, width and aspect ratio";
    relief->several = true;
    relief->hint = "limit height and limit width with more room, or another way for the run";
    return will_do(wish, &none, &relief->size);
}

bool relief_find(const struct wish *wish, const struct size_bounds *bounds, struct relief *relief) {
    static bool (*const lifts[])(const struct wish *, struct size_bounds,
                                 struct relief *) = {lift_height, lift_width, lift_aspect, lift_sides, lift_all};
    for (size_t i = 0; i < sizeof lifts / sizeof lifts[0]; i++)
        if (lifts[i](wish, *bounds, relief))
            return true;
    return false;
}
