/* The blanks and strips of a job, gauge by gauge, on the sheets that the shop has. */
#include "metal/nest.h"

#include <math.h>
#include <stdlib.h>

#include "base/constant.h"
#include "metal/nest_memory.h"

/* Common practice, no source (SOURCE_OFFCUT_KEPT). */
static const double keep_default[2][2] = {
    [MEASURE_US] = {12 * INCH, 24 * INCH},
    [MEASURE_METRIC] = {0.3, 0.6},
};

static const double steps_per_metre = NEST_STEPS_PER_MM * 1000.0;

double nest_metres(nest_steps steps) {
    return steps / steps_per_metre;
}

/* At least 1; what is longer than any sheet may be longer still. */
static nest_steps steps_of(double metres) {
    return (nest_steps)fmin(fmax(round(metres * steps_per_metre), 1), INT32_MAX / 4);
}

static double square_metres(int64_t area) {
    return (double)area / (steps_per_metre * steps_per_metre);
}

size_t nest_effort(size_t blanks) {
    const size_t least = 2000000, each = 10000, most = 24000000;
    return blanks < (most - least) / each ? least + blanks * each : most;
}

/* ---- Groups ------------------------------------------------------------------------------------------------------ */

static bool comes_before(const struct nest_group *one, const struct nest_group *other) {
    return one->material != other->material ? one->material < other->material : one->gauge < other->gauge;
}

/* There are as many as gauges and materials, so that each piece may be held against all of them. */
static struct nest_group *group_of(struct arena *arena, struct nest *nest, int gauge, enum material material) {
    struct nest_group group = {.gauge = gauge, .material = material};
    for (size_t i = 0; i < nest->groups.count; i++)
        if (nest->groups.at[i].gauge == gauge && nest->groups.at[i].material == material)
            return &nest->groups.at[i];
    struct nest_group *at = list_add(arena, &nest->groups);
    for (; at > nest->groups.at && comes_before(&group, at - 1); at--)
        *at = at[-1];
    *at = group;
    return at;
}

static void take_blanks(struct arena *arena, struct nest *nest, const struct metal *metal) {
    for (size_t i = 0; i < metal->parts.count; i++) {
        const struct part *part = metal->parts.at[i];
        struct nest_group *group = group_of(arena, nest, part->gauge, part->material);
        for (size_t b = 0; b < part->blanks.count; b++) {
            const struct blank *blank = &part->blanks.at[b];
            *list_add(arena, &group->pieces) = (struct nest_piece){
                .part = part,
                .blank = blank,
                .length = blank->width,
                .width = blank->height,
                .count = blank->quantity * part->uses.count,
            };
        }
    }
}

static void take_strips(struct arena *arena, struct nest *nest, const struct metal *metal) {
    for (size_t i = 0; i < metal->strips.count; i++) {
        const struct made_strip *strip = &metal->strips.at[i];
        if (!strip->gauge) /* on a duct that is no sheet metal */
            continue;
        struct nest_group *group = group_of(arena, nest, strip->gauge, strip->material);
        *list_add(arena, &group->pieces) = (struct nest_piece){
            .strip = strip,
            .length = strip->length,
            .width = strip->width,
            .count = strip->count,
        };
    }
}

/* ---- Stock ------------------------------------------------------------------------------------------------------- */

static bool same_sides(const struct stock_sheet *one, const struct stock_sheet *other) {
    return fabs(fmax(one->sides[0], one->sides[1]) - fmax(other->sides[0], other->sides[1])) < SAME_SIZE &&
           fabs(fmin(one->sides[0], one->sides[1]) - fmin(other->sides[0], other->sides[1])) < SAME_SIZE;
}

static bool has_size(const struct nest_group *group, const struct stock_sheet *sheet) {
    for (size_t i = 0; i < group->stock.count; i++)
        if (same_sides(group->stock.at[i].sheet, sheet))
            return true;
    return false;
}

/* Of a gauge or material that the shop does not list, sheets are taken to come in the sizes of the others; their prices
 * are not. */
static void take_stock(struct arena *arena, const struct shop *shop, struct nest_group *group) {
    struct stock stock = metal_stock(arena, shop, group->material, group->gauge);
    group->stock_assumed = stock.assumed;
    group->by_price = true;
    for (size_t i = 0; i < stock.sheets.count; i++) {
        struct stock_sheet *sheet = &stock.sheets.at[i];
        if (sheet->material != group->material || (sheet->gauge && sheet->gauge != group->gauge)) {
            group->stock_borrowed = true;
            if (has_size(group, sheet))
                continue;
            sheet->priced = false;
            sheet->price = 0;
        }
        group->by_price = group->by_price && sheet->priced;
        list_add(arena, &group->stock)->sheet = sheet;
    }
}

/* ---- The problem of one group ------------------------------------------------------------------------------------ */

/* The longer side along the sheet, which is declared either way round. */
static struct nest_rectangle rectangle_of(const struct nest_piece *piece, bool grain) {
    return (struct nest_rectangle){
        .length = steps_of(fmax(piece->length, piece->width)),
        .width = steps_of(fmin(piece->length, piece->width)),
        .count = piece->count,
        .turns = !grain,
    };
}

static void snap(nest_steps *side, nest_steps to) {
    if (abs(*side - to) <= (nest_steps)(SAME_SIZE * steps_per_metre))
        *side = to;
}

static struct nest_sheet sheet_of(const struct nest_group *group, const struct stock_sheet *stock) {
    struct nest_sheet sheet = {
        .length = steps_of(fmax(stock->sides[0], stock->sides[1])),
        .width = steps_of(fmin(stock->sides[0], stock->sides[1])),
    };
    sheet.cost = group->by_price ? stock->price : (int64_t)sheet.length * sheet.width;
    if (sheet.cost < 1)
        sheet.cost = 1;
    return sheet;
}

static size_t count_wanted(const struct nest_group *group) {
    size_t count = 0;
    for (size_t i = 0; i < group->pieces.count; i++)
        count += group->pieces.at[i].count;
    return count;
}

/* Sums of prices must stay whole numbers of 64 bits. */
static void mind_prices(struct nest_group *group) {
    size_t count = count_wanted(group) + 1;
    for (size_t i = 0; i < group->stock.count; i++)
        if (group->stock.at[i].sheet->price > INT64_MAX / 4 / (int64_t)count)
            group->by_price = false;
}

static void solve(struct job *job, struct nest *nest, struct nest_group *group) {
    struct arena *scratch = job->scratch;
    struct nest_rectangle *rectangles = ARENA_ARRAY(scratch, struct nest_rectangle, group->pieces.count + 1);
    struct nest_sheet *sheets = ARENA_ARRAY(scratch, struct nest_sheet, group->stock.count + 1);
    mind_prices(group);
    for (size_t k = 0; k < group->stock.count; k++)
        sheets[k] = sheet_of(group, group->stock.at[k].sheet);
    for (size_t i = 0; i < group->pieces.count; i++) {
        rectangles[i] = rectangle_of(&group->pieces.at[i], nest->grain);
        for (size_t k = 0; k < group->stock.count; k++) {
            snap(&rectangles[i].length, sheets[k].length);
            snap(&rectangles[i].length, sheets[k].width);
            snap(&rectangles[i].width, sheets[k].length);
            snap(&rectangles[i].width, sheets[k].width);
        }
    }
    group->solution = nest_remembered(job->nests, scratch,
                                      &(struct nest_problem){
                                          .rectangles = rectangles,
                                          .rectangle_count = group->pieces.count,
                                          .sheets = sheets,
                                          .sheet_count = group->stock.count,
                                          .keep_length = steps_of(nest->keep[0]),
                                          .keep_width = steps_of(nest->keep[1]),
                                          .effort = nest_effort(count_wanted(group)),
                                      });
    arena_clear(scratch);
}

/* ---- Sums -------------------------------------------------------------------------------------------------------- */

static double metal_of(const struct nest_piece *piece) {
    return piece->blank ? piece->blank->cut_area : piece->length * piece->width;
}

static void sum_pieces(struct nest_group *group) {
    for (size_t i = 0; i < group->pieces.count; i++) {
        struct nest_piece *piece = &group->pieces.at[i];
        piece->unplaced = group->solution->unplaced[i];
        group->unplaced += piece->unplaced;
        group->blanks += piece->count - piece->unplaced;
        group->metal_area += (double)(piece->count - piece->unplaced) * metal_of(piece);
    }
}

static size_t count_kept(const struct nest_solution *solution) {
    size_t count = 0;
    for (size_t i = 0; i < solution->layouts.count; i++)
        for (size_t n = 0; n < solution->layouts.at[i].nodes.count; n++)
            if (solution->layouts.at[i].nodes.at[n].kind == NEST_KEPT)
                count += solution->layouts.at[i].times;
    return count;
}

/* Whole coins, halves upward: the price of sheets is a sum to choose by, the bill rounds its own lines. */
static money rounded(int64_t parts) {
    const int64_t coin = PRICE_PARTS / 100;
    return (parts + coin / 2) / coin;
}

static void sum_group(struct nest_group *group) {
    const struct nest_solution *solution = group->solution;
    sum_pieces(group);
    group->sheets = solution->sheets;
    group->sheet_area = square_metres(solution->sheet_area);
    group->blank_area = square_metres(solution->blank_area);
    group->kept_area = square_metres(solution->kept_area);
    group->kept_count = count_kept(solution);
    for (size_t k = 0; k < group->stock.count; k++) {
        struct nest_stock *stock = &group->stock.at[k];
        stock->count = solution->sheets_of[k];
        stock->area = (double)stock->count * stock->sheet->sides[0] * stock->sheet->sides[1];
    }
    if (!group->sheets)
        return;
    group->waste = fmax(group->sheet_area - group->blank_area - group->kept_area, 0) / group->sheet_area;
    if (group->sheet_area > group->kept_area)
        group->scrap = fmax(1 - group->metal_area / (group->sheet_area - group->kept_area), 0);
    if (group->by_price)
        group->price = rounded(solution->cost);
}

static void add_up(struct nest *nest, const struct nest_group *group) {
    nest->sheets += group->sheets;
    nest->blanks += group->blanks;
    nest->unplaced += group->unplaced;
    nest->sheet_area += group->sheet_area;
    nest->blank_area += group->blank_area;
    nest->metal_area += group->metal_area;
    nest->kept_area += group->kept_area;
}

void metal_nest(struct job *job) {
    if (!job->metal || !job->metal->parts.count)
        return;
    struct nest *nest = job->metal->nest = ARENA_NEW(job->arena, struct nest);
    if (!job->nests)
        job->nests = nest_memory_new(job->arena);
    nest->keep_assumed = !(job->shop.offcut[0] > 0);
    for (int side = 0; side < 2; side++)
        nest->keep[side] = nest->keep_assumed ? keep_default[job->system][side] : job->shop.offcut[side];
    nest->grain = job->shop.grain;
    take_blanks(job->arena, nest, job->metal);
    take_strips(job->arena, nest, job->metal);
    for (size_t i = 0; i < nest->groups.count; i++) {
        struct nest_group *group = &nest->groups.at[i];
        take_stock(job->arena, &job->shop, group);
        solve(job, nest, group);
        sum_group(group);
        add_up(nest, group);
    }
}
