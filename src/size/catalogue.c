/* The standard sizes: the shop's, or the tool's own lists. */
#include "size/catalogue.h"

#include "air/air.h"
#include "base/constant.h"

/* The tool's own lists, for a shop that gives none. Common practice, no source: whole inches
 * to 10, even inches above. */
static const double round_inches[] = {4,  5,  6,  7,  8,  9,  10, 12, 14, 16, 18, 20, 22, 24, 26, 28,
                                      30, 32, 34, 36, 38, 40, 42, 44, 46, 48, 50, 52, 54, 56, 58, 60};

/* Common practice, no source: even inches, from the least that a public military handbook of the trade allows, 6 x 6
 * in. */
static const double side_inches[] = {6,  8,  10, 12, 14, 16, 18, 20, 22, 24, 26, 28, 30, 32, 34, 36, 38, 40, 42,
                                     44, 46, 48, 50, 52, 54, 56, 58, 60, 62, 64, 66, 68, 70, 72, 74, 76, 78, 80};

/* Common practice, no source: lesser sides of flat oval duct. */
static const double oval_inches[] = {3, 4, 5, 6, 7, 8, 9, 10, 12, 14, 16, 18, 20, 22, 24};

/* From memory: EN 1506, circular ducts, the recommended series with its intermediate sizes. */
static const double round_millimetres[] = {100, 125, 150, 160, 180, 200, 224, 250, 280,  315,  355,
                                           400, 450, 500, 560, 630, 710, 800, 900, 1000, 1120, 1250};

/* Common practice, no source: steps of 25, 50 and 100 mm from 150, among them the sides of EN 1505 (from memory). */
static const double side_millimetres[] = {150,  175,  200,  225,  250,  275,  300,  325,  350,  375,  400, 425,
                                          450,  475,  500,  550,  600,  650,  700,  750,  800,  850,  900, 950,
                                          1000, 1100, 1200, 1300, 1400, 1500, 1600, 1700, 1800, 1900, 2000};

/* Common practice, no source. */
static const double oval_millimetres[] = {75, 100, 125, 150, 175, 200, 225, 250, 300, 350, 400, 450, 500, 550, 600};

struct standard_list {
    const double *sizes;
    size_t count;
};

#define LIST_OF(array)                                                                                                 \
    { array, sizeof(array) / sizeof(array)[0] }

/* In the order of enum shape. */
static const struct standard_list lists_us[SHAPE_COUNT] = {
    [SHAPE_RECTANGULAR] = LIST_OF(side_inches),
    [SHAPE_ROUND] = LIST_OF(round_inches),
    [SHAPE_OVAL] = LIST_OF(oval_inches),
};

static const struct standard_list lists_metric[SHAPE_COUNT] = {
    [SHAPE_RECTANGULAR] = LIST_OF(side_millimetres),
    [SHAPE_ROUND] = LIST_OF(round_millimetres),
    [SHAPE_OVAL] = LIST_OF(oval_millimetres),
};

/* A size list of the shop, whichever it is. */
struct shop_list {
    double **at;
    size_t *count, *room;
};

#define SHOP_LIST(list)                                                                                                \
    { &(list).at, &(list).count, &(list).room }

/* Puts the list that is used into the shop, for the reports: the shop's own, cut at the limit, or the tool's when it
 * gives none. */
static void settle_list(struct job *job, enum shape shape, struct shop_list list) {
    bool metric = job->system == MEASURE_METRIC;
    const struct standard_list *own = metric ? &lists_metric[shape] : &lists_us[shape];
    size_t given = *list.count, count = given ? given : own->count;
    if (given > CATALOGUE_LIMIT) {
        diagnose(job->diagnostics, DIAGNOSTIC_ERROR, "size", job->shop.at,
                 "the shop lists %zu %s sizes; at most %d can be used", given, shape_name(shape), CATALOGUE_LIMIT);
        count = CATALOGUE_LIMIT;
    }
    if (!given)
        job->shop.sizes_assumed[shape] = job->source_used[SOURCE_STANDARD_SIZES] = true;
    double *sizes = ARENA_ARRAY(job->arena, double, count);
    for (size_t i = 0; i < count; i++)
        sizes[i] = given ? (*list.at)[i] : own->sizes[i] * (metric ? MILLIMETRE : INCH);
    *list.at = sizes;
    *list.count = *list.room = count;
}

/* A flat oval is wider than high, or it is round. */
static bool exists(struct duct_size size) {
    return size.shape != SHAPE_OVAL || size.width > size.height * (1 + 1e-9);
}

static struct size_grid make_grid(struct arena *arena, enum shape shape, struct shop_list row_heights,
                                  struct shop_list column_widths) {
    const double *height = *row_heights.at, *width = *column_widths.at;
    size_t rows = *row_heights.count, columns = *column_widths.count, cells = rows * columns;
    double *equivalent = ARENA_ARRAY(arena, double, cells);
    double *area = ARENA_ARRAY(arena, double, cells);
    double *perimeter = ARENA_ARRAY(arena, double, cells);
    for (size_t row = 0; row < rows; row++) {
        for (size_t column = 0; column < columns; column++) {
            struct duct_size size = {shape, width[column], height[row]};
            if (!exists(size))
                continue;
            size_t at = row * columns + column;
            equivalent[at] = air_equivalent_diameter(size);
            area[at] = size_area(size);
            perimeter[at] = size_perimeter(size);
        }
    }
    return (struct size_grid){.shape = shape,
                              .rows = rows,
                              .columns = columns,
                              .height = height,
                              .width = width,
                              .equivalent = equivalent,
                              .area = area,
                              .perimeter = perimeter};
}

const struct catalogue *catalogue_make(struct job *job) {
    struct catalogue *catalogue = ARENA_NEW(job->arena, struct catalogue);
    struct shop *shop = &job->shop;
    const struct shop_list lists[SHAPE_COUNT] = {
        [SHAPE_RECTANGULAR] = SHOP_LIST(shop->widths),
        [SHAPE_ROUND] = SHOP_LIST(shop->round_sizes),
        [SHAPE_OVAL] = SHOP_LIST(shop->oval_heights),
    };
    for (int shape = 0; shape < SHAPE_COUNT; shape++)
        settle_list(job, (enum shape)shape, lists[shape]);
    catalogue->round = shop->round_sizes.at;
    catalogue->round_count = shop->round_sizes.count;
    catalogue->rectangular =
        make_grid(job->arena, SHAPE_RECTANGULAR, lists[SHAPE_RECTANGULAR], lists[SHAPE_RECTANGULAR]);
    catalogue->oval = make_grid(job->arena, SHAPE_OVAL, lists[SHAPE_OVAL], lists[SHAPE_RECTANGULAR]);
    return catalogue;
}

double catalogue_nearest(const double *list, size_t count, double value) {
    size_t best = 0;
    for (size_t i = 1; i < count; i++)
        if (list[i] - value <= value - list[best] + 1e-9 || list[i] <= value)
            best = i;
    return list[best];
}

size_t catalogue_count(const struct catalogue *catalogue, enum shape shape) {
    const struct size_grid *grid = shape == SHAPE_OVAL ? &catalogue->oval : &catalogue->rectangular;
    return shape == SHAPE_ROUND ? catalogue->round_count : grid->rows * grid->columns;
}
