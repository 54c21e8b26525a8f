/* The search for the smallest standard size that will do. */
#include "size/choose.h"

#include <math.h>

#include "air/air.h"
#include "base/constant.h"

/* A millionth of a metre: sizes nearer than this are one size, whatever unit they were written in. */
#define SAME 1e-6

/* Relative; a size that is enough on paper is enough. */
#define ENOUGH (1 - 1e-9)

static bool allowed(double value, double bound) {
    return bound <= 0 || value <= bound * (1 + 1e-9);
}

static struct duct_size round_size(double diameter) {
    return (struct duct_size){SHAPE_ROUND, diameter, diameter};
}

/* ---- Round ------------------------------------------------------------------------------------------------------- */

static bool choose_round(const struct catalogue *catalogue, const struct size_need *need,
                         const struct size_bounds *bounds, struct duct_size *size) {
    double from_area = sqrt(4 * fmax(need->area, need->tapped) / PI);
    double least = fmax(fmax(need->diameter, from_area), fmax(need->height, need->width)) * ENOUGH;
    size_t low = 0, high = catalogue->round_count;
    while (low < high) {
        size_t middle = (low + high) / 2;
        if (catalogue->round[middle] < least)
            low = middle + 1;
        else
            high = middle;
    }
    size_t taken = low < catalogue->round_count ? low : catalogue->round_count - 1;
    bool enough = low < catalogue->round_count;
    for (;; taken--) {
        struct duct_size candidate = round_size(catalogue->round[taken]);
        bool within = allowed(candidate.width, bounds->width) && allowed(candidate.height, bounds->height) &&
                      allowed(size_area(candidate), bounds->area);
        if (within || taken == 0) {
            *size = candidate;
            return enough && within;
        }
        enough = false;
    }
}

/* ---- Two dimensions ---------------------------------------------------------------------------------------------- */

static bool is_enough(const struct size_grid *grid, size_t row, size_t column, const struct size_need *need) {
    size_t at = row * grid->columns + column;
    return grid->area[at] > 0 && grid->equivalent[at] >= need->diameter * ENOUGH &&
           grid->area[at] >= fmax(need->area, need->tapped) * ENOUGH && grid->height[row] >= need->height * ENOUGH &&
           grid->width[column] >= need->width * ENOUGH;
}

static bool is_flat(const struct size_grid *grid, size_t row, size_t column, const struct size_need *need) {
    return grid->width[column] - grid->height[row] >= need->flat * ENOUGH || !(need->flat > 0);
}

static double aspect_of(double width, double height) {
    return width > height ? width / height : height / width;
}

static bool is_within(const struct size_grid *grid, size_t row, size_t column, const struct size_bounds *bounds) {
    double width = grid->width[column], height = grid->height[row];
    double area = grid->area[row * grid->columns + column];
    return area > 0 && allowed(width, bounds->width) && allowed(height, bounds->height) &&
           allowed(aspect_of(width, height), bounds->aspect) && allowed(area, bounds->area);
}

/* Whether `a` is the better of two sizes that will do. */
static bool is_better(const struct size_grid *grid, const size_t a[2], const size_t b[2]) {
    double difference = grid->perimeter[a[0] * grid->columns + a[1]] - grid->perimeter[b[0] * grid->columns + b[1]];
    if (fabs(difference) > SAME)
        return difference < 0;
    double aspect_a = aspect_of(grid->width[a[1]], grid->height[a[0]]);
    double aspect_b = aspect_of(grid->width[b[1]], grid->height[b[0]]);
    if (fabs(aspect_a - aspect_b) > SAME)
        return aspect_a < aspect_b;
    return grid->width[a[1]] > grid->width[b[1]];
}

static struct duct_size size_at(const struct size_grid *grid, const size_t at[2]) {
    return (struct duct_size){grid->shape, grid->width[at[1]], grid->height[at[0]]};
}

/* The narrowest that will do in one row; false: none. */
static bool narrowest(const struct size_grid *grid, size_t row, const struct size_need *need,
                      const struct size_bounds *bounds, size_t *column) {
    for (size_t i = 0; i < grid->columns; i++) {
        if (is_enough(grid, row, i, need) && is_flat(grid, row, i, need) && is_within(grid, row, i, bounds)) {
            *column = i;
            return true;
        }
    }
    return false;
}

/* A kept height may take this many times the sheet of the best choice.  Chosen here: no source. */
static const double dear = 1.2;

static bool keep_height(const struct size_grid *grid, const struct size_need *need, const struct size_bounds *bounds,
                        struct duct_size *size) {
    for (size_t row = 0; bounds->keep_height > 0 && row < grid->rows; row++) {
        if (fabs(grid->height[row] - bounds->keep_height) > SAME)
            continue;
        size_t at[2] = {row, 0};
        if (!narrowest(grid, row, need, bounds, &at[1]))
            return false;
        *size = size_at(grid, at);
        return true;
    }
    return false;
}

/* From row to row, as the height grows, the least width that is enough only falls; the least width that the aspect
 * ratio allows, or that is flat enough, only rises.  So two indices that never turn back find the narrowest of every
 * row. */
static bool least_perimeter(const struct size_grid *grid, const struct size_need *need,
                            const struct size_bounds *bounds, struct duct_size *size) {
    size_t enough = grid->columns, slim = 0, best[2] = {0, 0};
    bool found = false;
    for (size_t row = 0; row < grid->rows && allowed(grid->height[row], bounds->height); row++) {
        while (enough > 0 && is_enough(grid, row, enough - 1, need))
            enough--;
        while (slim < grid->columns &&
               !(allowed(grid->height[row] / grid->width[slim], bounds->aspect) && is_flat(grid, row, slim, need)))
            slim++;
        size_t at[2] = {row, enough > slim ? enough : slim};
        while (at[1] < grid->columns && grid->area[row * grid->columns + at[1]] <= 0)
            at[1]++;
        if (at[1] >= grid->columns || !is_within(grid, row, at[1], bounds))
            continue;
        if (!found || is_better(grid, at, best)) {
            best[0] = row;
            best[1] = at[1];
            found = true;
        }
    }
    if (found)
        *size = size_at(grid, best);
    return found;
}

/* What carries most within the bounds. */
static struct duct_size most(const struct size_grid *grid, const struct size_bounds *bounds) {
    size_t best[2] = {0, 0};
    double greatest = 0;
    while (best[1] + 1 < grid->columns && grid->area[best[1]] <= 0)
        best[1]++;
    for (size_t row = 0; row < grid->rows; row++) {
        for (size_t column = 0; column < grid->columns; column++) {
            double equivalent = grid->equivalent[row * grid->columns + column];
            if (equivalent <= greatest || !is_within(grid, row, column, bounds))
                continue;
            greatest = equivalent;
            best[0] = row;
            best[1] = column;
        }
    }
    return size_at(grid, best);
}

/* A limit holds for the metal, which has to find room.  0: no limit. */
static double clear_within(const struct run *run, double limit) {
    return limit > 0 ? fmax(limit - 2 * run->settings.lining, SAME) : 0;
}

struct size_bounds run_bounds(const struct shop *shop, const struct run *run) {
    return (struct size_bounds){
        .height = clear_within(run, run->settings.limit_height),
        .width = clear_within(run, run->settings.limit_width),
        .aspect = shop->aspect_limit,
    };
}

bool choose_size(const struct catalogue *catalogue, enum shape shape, const struct size_need *need,
                 const struct size_bounds *bounds, struct duct_size *size) {
    if (shape == SHAPE_ROUND)
        return choose_round(catalogue, need, bounds, size);
    const struct size_grid *grid = shape == SHAPE_OVAL ? &catalogue->oval : &catalogue->rectangular;
    struct duct_size kept;
    if (!least_perimeter(grid, need, bounds, size)) {
        *size = most(grid, bounds);
        return false;
    }
    if (keep_height(grid, need, bounds, &kept) && size_perimeter(kept) <= dear * size_perimeter(*size) * (1 + 1e-9))
        *size = kept;
    return true;
}

/* Relative; sizes whose equivalent diameters differ by less carry the same.  Chosen here, no source: far under the step
 * between two standard sizes, far over rounding. */
static const double carries_more = 1 + 1e-6;

bool choose_next(const struct catalogue *catalogue, const struct size_need *need, const struct size_bounds *bounds,
                 struct duct_size *size) {
    struct size_need larger = *need;
    struct duct_size next;
    larger.diameter = air_equivalent_diameter(*size) * carries_more;
    if (!choose_size(catalogue, size->shape, &larger, bounds, &next))
        return false;
    *size = next;
    return true;
}

static size_t all_round(const struct catalogue *catalogue, const struct size_need *need,
                        const struct size_bounds *bounds, struct duct_size *sizes) {
    size_t count = 0;
    for (size_t i = 0; i < catalogue->round_count; i++) {
        struct duct_size size = round_size(catalogue->round[i]);
        bool enough = size.width >= need->diameter * ENOUGH && size_area(size) >= need->area * ENOUGH;
        if (enough && allowed(size.width, bounds->width) && allowed(size.height, bounds->height) &&
            allowed(size_area(size), bounds->area))
            sizes[count++] = size;
    }
    return count;
}

size_t choose_all(const struct catalogue *catalogue, enum shape shape, const struct size_need *need,
                  const struct size_bounds *bounds, struct duct_size *sizes) {
    if (shape == SHAPE_ROUND)
        return all_round(catalogue, need, bounds, sizes);
    const struct size_grid *grid = shape == SHAPE_OVAL ? &catalogue->oval : &catalogue->rectangular;
    size_t count = 0;
    for (size_t row = 0; row < grid->rows; row++)
        for (size_t column = 0; column < grid->columns; column++)
            if (is_enough(grid, row, column, need) && is_flat(grid, row, column, need) &&
                is_within(grid, row, column, bounds))
                sizes[count++] = size_at(grid, (const size_t[2]){row, column});
    return count;
}
