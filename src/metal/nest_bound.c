/* Lower bounds: area, dual feasible functions, and what sheets of that much area cost.
 *
 * A dual feasible function f maps shares of a side so that shares which together are at most 1 stay at most 1.  For two
 * of them, f and g, the sum of f(length / sheet's length) g(width / sheet's width) over all blanks of one sheet is at
 * most 1: so over all blanks it bounds the sheets from below.  A blank that may turn counts with the lesser of its two
 * ways.  Fekete and Schepers, "New classes of fast lower bounds for bin packing problems" (2001); Fekete and Schepers,
 * "A general framework for bounds for higher-dimensional orthogonal packing problems" (2004): from memory.  The
 * published values of tests/reference/binpack.csv hold them.
 */
#include "metal/nest_bound.h"

#include <math.h>
#include <stdlib.h>

/* By how much a bound gives way, so that what rounding adds to a sum never makes it more than the truth: shares of sums
 * of many products, and of one quotient; and part of a coin.  Chosen here. */
static const double sum_slack = 1e-9, area_slack = 1e-12, coin_slack = 1e-6;

/* ---- Dual feasible functions ------------------------------------------------------------------------------------- */

enum dff_kind {
    DFF_PLAIN, /* x itself */
    DFF_WHOLE, /* u(k): floor((k + 1) x) / k, and x itself where (k + 1) x is whole */
    DFF_LARGE, /* U(e): 1 over 1 - e, 0 under e, else x */
    DFF_STEPS  /* phi(e): by how many e the rest is short; 0 under e */
};

struct dff {
    enum dff_kind kind;
    nest_steps by; /* k, or e in steps */
};

/* f of `part` steps of a side of `whole` steps. */
static double dff(struct dff f, nest_steps part, nest_steps whole) {
    int64_t times, whole_parts;
    switch (f.kind) {
    case DFF_WHOLE:
        times = (int64_t)(f.by + 1) * part;
        whole_parts = times / whole;
        return times % whole ? (double)whole_parts / f.by : (double)part / whole;
    case DFF_LARGE:
        return part > whole - f.by ? 1 : part < f.by ? 0 : (double)part / whole;
    case DFF_STEPS:
        if (part < f.by)
            return 0;
        times = whole / f.by;
        whole_parts = (whole - part) / f.by;
        if (2 * (int64_t)part > whole)
            return 1 - (double)whole_parts / (double)times;
        return 1 / (double)times;
    default:
        return (double)part / whole;
    }
}

/* As many of each kind, so that the bound costs little; few sizes tell more than many. */
enum { MOST_K = 12, MOST_E = 40 };

typedef LIST(struct dff) dff_list;

static int rising(const void *left, const void *right) {
    nest_steps a = *(const nest_steps *)left, b = *(const nest_steps *)right;
    return (a > b) - (a < b);
}

/* The sizes that may be e: up to half of the side, spread evenly over all that occur. */
static void list_dffs(struct arena *arena, const struct nest_problem *problem, const size_t *counts, nest_steps whole,
                      dff_list *list) {
    nest_steps *sizes = ARENA_ARRAY(arena, nest_steps, 4 * problem->rectangle_count + 1);
    size_t count = 0, different = 0;
    for (size_t i = 0; i < problem->rectangle_count; i++) {
        const nest_steps sides[] = {problem->rectangles[i].length, problem->rectangles[i].width};
        for (int side = 0; side < 2 && counts[i]; side++) {
            nest_steps rest = whole - sides[side] + 1; /* over the rest is whole */
            if (2 * (int64_t)sides[side] <= whole)
                sizes[count++] = sides[side];
            else if (rest > 0 && 2 * (int64_t)rest <= whole)
                sizes[count++] = rest;
        }
    }
    qsort(sizes, count, sizeof *sizes, rising);
    for (size_t i = 0; i < count; i++)
        if (!different || sizes[different - 1] != sizes[i])
            sizes[different++] = sizes[i];
    *list_add(arena, list) = (struct dff){DFF_PLAIN, 0};
    for (nest_steps k = 1; k <= MOST_K; k++)
        *list_add(arena, list) = (struct dff){DFF_WHOLE, k};
    size_t step = different / MOST_E + 1;
    for (size_t i = different; i-- > 0;) {
        if ((different - 1 - i) % step)
            continue;
        *list_add(arena, list) = (struct dff){DFF_LARGE, sizes[i]};
        *list_add(arena, list) = (struct dff){DFF_STEPS, sizes[i]};
    }
}

/* ---- Sheets ------------------------------------------------------------------------------------------------------ */

/* f of every rectangle's two sides, along a sheet's side of `whole`; infinite: it is longer than that. */
static double *images(struct arena *arena, const struct nest_problem *problem, struct dff f, nest_steps whole) {
    double *image = ARENA_ARRAY(arena, double, 2 * problem->rectangle_count);
    for (size_t i = 0; i < problem->rectangle_count; i++) {
        const struct nest_rectangle *rectangle = &problem->rectangles[i];
        image[2 * i] = rectangle->length > whole ? INFINITY : dff(f, rectangle->length, whole);
        image[2 * i + 1] = rectangle->width > whole ? INFINITY : dff(f, rectangle->width, whole);
    }
    return image;
}

/* 0 times infinity does not fit either. */
static double product(double one, double other) {
    return isinf(one) || isinf(other) ? INFINITY : one * other;
}

static double share_of(const struct nest_rectangle *rectangle, const double *along, const double *across) {
    double straight = product(along[0], across[1]);
    return rectangle->turns ? fmin(straight, product(along[1], across[0])) : straight;
}

/* Sheets as large as `sheet`, which takes every blank. */
static size_t dff_bound(struct arena *arena, const struct nest_problem *problem, const size_t *counts,
                        struct nest_sheet sheet) {
    dff_list along = {0}, across = {0};
    list_dffs(arena, problem, counts, sheet.length, &along);
    list_dffs(arena, problem, counts, sheet.width, &across);
    double **image = ARENA_ARRAY(arena, double *, across.count), most = 0;
    for (size_t g = 0; g < across.count; g++)
        image[g] = images(arena, problem, across.at[g], sheet.width);
    for (size_t f = 0; f < along.count; f++) {
        const double *of_length = images(arena, problem, along.at[f], sheet.length);
        for (size_t g = 0; g < across.count; g++) {
            double sum = 0;
            for (size_t i = 0; i < problem->rectangle_count; i++)
                if (counts[i])
                    sum += (double)counts[i] * share_of(&problem->rectangles[i], &of_length[2 * i], &image[g][2 * i]);
            most = fmax(most, sum);
        }
    }
    return (size_t)ceil(most * (1 - sum_slack) - sum_slack);
}

/* ---- Cost -------------------------------------------------------------------------------------------------------- */

/* So many kinds of sheet, and so many ways to take them, are looked at; of more the bound is that of the area alone.
 * Chosen here. */
enum { COVER_KINDS = 8, COVER_LOOKS = 100000 };

/* Sheets together at least `area` large, that cost the least: kinds by what their area costs, and for each from most to
 * fewest of it.  What remains costs at least as the cheapest area of the kinds that are left. */
struct covering {
    const struct nest_sheet *kinds[COVER_KINDS];
    size_t count;
    int64_t best;
    size_t looked;
};

static double rate(const struct nest_sheet *sheet) {
    return (double)sheet->cost / ((double)sheet->length * sheet->width);
}

static double at_least(const struct covering *covering, size_t kind, double area) {
    return area > 0 ? area * rate(covering->kinds[kind]) : 0;
}

/* As deep as there are kinds.  False: too much was looked at. */
static bool cover(struct covering *covering, size_t kind, double area, int64_t cost) {
    if (covering->looked++ > COVER_LOOKS)
        return false;
    if (area <= 0) {
        if (cost < covering->best)
            covering->best = cost;
        return true;
    }
    if (kind == covering->count ||
        (double)cost + at_least(covering, kind, area) > (double)covering->best - 1 + coin_slack)
        return true;
    const struct nest_sheet *sheet = covering->kinds[kind];
    double one = (double)sheet->length * sheet->width;
    int64_t most = (int64_t)ceil(area / one);
    for (int64_t times = most; times >= 0; times--) {
        double rest = area - (double)times * one;
        int64_t so_far = cost + times * sheet->cost;
        bool hopeless =
            rest > 0 && (kind + 1 == covering->count ||
                         (double)so_far + at_least(covering, kind + 1, rest) > (double)covering->best - 1 + coin_slack);
        if (hopeless)
            break; /* fewer of the cheapest area make it dearer */
        if (!cover(covering, kind + 1, rest, so_far))
            return false;
    }
    return true;
}

static int64_t cover_cost(const struct nest_problem *problem, double area) {
    struct covering covering = {.best = INT64_MAX / 2};
    double cheapest = INFINITY;
    for (size_t i = 0; i < problem->sheet_count; i++)
        cheapest = fmin(cheapest, rate(&problem->sheets[i]));
    int64_t fluid = (int64_t)ceil(area * cheapest * (1 - sum_slack));
    if (problem->sheet_count > COVER_KINDS)
        return fluid;
    for (size_t i = 0; i < problem->sheet_count; i++) {
        size_t at = covering.count++;
        for (; at && rate(&problem->sheets[i]) < rate(covering.kinds[at - 1]); at--)
            covering.kinds[at] = covering.kinds[at - 1];
        covering.kinds[at] = &problem->sheets[i];
    }
    return cover(&covering, 0, area, 0) ? covering.best : fluid;
}

/* ---- Together ---------------------------------------------------------------------------------------------------- */

/* A sheet as long as the longest and as wide as the widest, at the least cost. */
static struct nest_sheet envelope(const struct nest_problem *problem) {
    struct nest_sheet most = problem->sheets[0];
    for (size_t i = 1; i < problem->sheet_count; i++) {
        const struct nest_sheet *sheet = &problem->sheets[i];
        most.length = sheet->length > most.length ? sheet->length : most.length;
        most.width = sheet->width > most.width ? sheet->width : most.width;
        most.cost = sheet->cost < most.cost ? sheet->cost : most.cost;
    }
    return most;
}

static double total_area(const struct nest_problem *problem, const size_t *counts) {
    double area = 0;
    for (size_t i = 0; i < problem->rectangle_count; i++)
        area += (double)counts[i] * problem->rectangles[i].length * problem->rectangles[i].width;
    return area;
}

struct nest_bound nest_bound(struct arena *arena, const struct nest_problem *problem, const size_t *counts) {
    double area = total_area(problem, counts), largest = 0;
    if (!(area > 0))
        return (struct nest_bound){0};
    for (size_t i = 0; i < problem->sheet_count; i++)
        largest = fmax(largest, (double)problem->sheets[i].length * problem->sheets[i].width);
    struct nest_sheet most = envelope(problem);
    struct nest_bound bound = {.area = (size_t)ceil(area / largest * (1 - area_slack))};
    size_t dffs = dff_bound(arena, problem, counts, most);
    bound.sheets = dffs > bound.area ? dffs : bound.area;
    bound.cost = cover_cost(problem, area);
    int64_t by_sheets = (int64_t)bound.sheets * most.cost;
    bound.cost = by_sheets > bound.cost ? by_sheets : bound.cost;
    return bound;
}
