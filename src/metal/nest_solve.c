/* The solver of nests: what fits, the bounds, building, improving, and the layouts that come of it. */
#include "metal/nest_solve.h"

#include <stdlib.h>
#include <string.h>

#include "metal/nest_bound.h"
#include "metal/nest_search.h"

/* Over so many blanks, most of them are alike, and ways to cut sheets are repeated. */
enum { FEW = 2000 };

struct solving {
    struct arena *arena, *scratch;
    const struct nest_problem *problem;
    struct nest_solution *solution;
    size_t *left; /* blanks of each rectangle that are not yet on a sheet, though one takes them */
    layout_list layouts;
};

static void sort_out_misfits(struct solving *solving) {
    const struct nest_problem *problem = solving->problem;
    for (size_t i = 0; i < problem->rectangle_count; i++) {
        size_t kind = 0;
        while (kind < problem->sheet_count && !pack_fits(&problem->rectangles[i], &problem->sheets[kind]))
            kind++;
        if (kind < problem->sheet_count)
            solving->left[i] = problem->rectangles[i].count;
        else
            solving->solution->unplaced[i] = problem->rectangles[i].count;
    }
}

static void find_bounds(struct solving *solving) {
    struct nest_bound bound = nest_bound(solving->scratch, solving->problem, solving->left);
    solving->solution->area_bound = bound.area;
    solving->solution->sheet_bound = bound.sheets;
    solving->solution->cost_bound = bound.cost;
}

/* ---- Searching --------------------------------------------------------------------------------------------------- */

static void list_blanks(const struct solving *solving, const size_t *counts, rectangle_list *blanks) {
    for (size_t i = 0; i < solving->problem->rectangle_count; i++)
        for (size_t n = 0; n < counts[i]; n++)
            *list_add(solving->scratch, blanks) = (int32_t)i;
}

/* A third of the effort goes into building, the rest into improving. */
static void search(struct solving *solving, const rectangle_list *blanks, int64_t bound, size_t effort,
                   struct nest_best *best) {
    const struct nest_problem *problem = solving->problem;
    bool choice = problem->sheet_count > 1 && effort;
    size_t work = nest_build(solving->scratch, problem, blanks, bound, effort / 3, best);
    if (best->cost == INT64_MAX)
        return;
    if (best->cost > bound && nest_exact(solving->scratch, problem, blanks, best))
        bound = best->cost;
    if (choice)
        work += nest_cheapen(solving->scratch, problem, best);
    if (work < effort) {
        size_t rest = effort - work;
        work += nest_improve(solving->scratch, problem, bound, best->cost <= bound ? rest / 8 : rest, best);
    }
    if (choice)
        work += nest_cheapen(solving->scratch, problem, best);
    solving->solution->work += work;
}

/* Each of the best's sheets, so many times. */
static void add_layouts(struct solving *solving, const struct nest_best *best, size_t times) {
    for (size_t i = 0; i < best->plates.count; i++) {
        struct nest_layout *layout = list_add(solving->scratch, &solving->layouts);
        plate_layout(solving->scratch, &best->plates.at[i], solving->problem, layout);
        layout->times = times;
    }
}

static bool has_limits(const struct nest_problem *problem) {
    for (size_t i = 0; i < problem->sheet_count; i++)
        if (problem->sheets[i].limit)
            return true;
    return false;
}

static size_t sum_counts(const struct solving *solving, const size_t *counts) {
    size_t sum = 0;
    for (size_t i = 0; i < solving->problem->rectangle_count; i++)
        sum += counts[i];
    return sum;
}

/* The like of the whole with a fraction of its blanks, searched once and used many times over.  False: so few are alike
 * that hardly any would be in the fraction. */
static bool search_fraction(struct solving *solving, size_t total, size_t effort) {
    size_t times = (total + FEW - 1) / FEW, kinds = solving->problem->rectangle_count;
    size_t *counts = ARENA_ARRAY(solving->scratch, size_t, kinds + 1);
    for (size_t i = 0; i < kinds; i++)
        counts[i] = solving->left[i] / times;
    if (sum_counts(solving, counts) < FEW / 4)
        return false;
    rectangle_list blanks = {0};
    struct nest_best best = {.cost = INT64_MAX};
    list_blanks(solving, counts, &blanks);
    search(solving, &blanks, nest_bound(solving->scratch, solving->problem, counts).cost, effort, &best);
    add_layouts(solving, &best, times);
    for (size_t i = 0; i < kinds; i++)
        solving->left[i] -= times * counts[i];
    return true;
}

/* Until few are left, for which every blank has its own place; the first fraction is the largest and gets the most. */
static void search_fractions(struct solving *solving) {
    size_t effort = solving->problem->effort, total = sum_counts(solving, solving->left);
    while (total > FEW && search_fraction(solving, total, effort)) {
        effort = solving->problem->effort / 4;
        total = sum_counts(solving, solving->left);
    }
    if (total > FEW)
        nest_repeat(solving->scratch, solving->problem, FEW, solving->left, &solving->layouts);
}

/* What is still left; what stands on the sheets already is not searched again. */
static void search_left(struct solving *solving) {
    const struct nest_problem *problem = solving->problem;
    struct nest_solution *solution = solving->solution;
    struct nest_best best = {.cost = INT64_MAX};
    rectangle_list blanks = {0};
    list_blanks(solving, solving->left, &blanks);
    if (!blanks.count)
        return;
    int64_t bound = solution->cost_bound; /* of all, which nothing was taken from as yet */
    if (solving->layouts.count)
        bound = nest_bound(solving->scratch, problem, solving->left).cost;
    search(solving, &blanks, bound, problem->effort, &best);
    if (best.cost == INT64_MAX) /* the limits of sheets are reached */
        nest_some(solving->scratch, problem, &blanks, &best, solution->unplaced);
    else if (!solving->layouts.count && blanks.count <= NEST_EXACT_MOST && !has_limits(problem))
        solution->cost_bound = best.cost; /* looked at in all ways */
    add_layouts(solving, &best, 1);
}

static int64_t cost_of(const struct solving *solving, const layout_list *layouts) {
    int64_t cost = 0;
    for (size_t i = 0; i < layouts->count; i++)
        cost += (int64_t)layouts->at[i].times * solving->problem->sheets[layouts->at[i].sheet].cost;
    return cost;
}

/* Sheet by sheet, and by fractions: neither is always the better. */
static void search_many(struct solving *solving) {
    size_t bytes = solving->problem->rectangle_count * sizeof *solving->left;
    size_t *all = memcpy(arena_take(solving->scratch, bytes), solving->left, bytes);
    nest_repeat(solving->scratch, solving->problem, FEW, solving->left, &solving->layouts);
    search_left(solving);
    layout_list by_sheet = solving->layouts;
    memcpy(solving->left, all, bytes);
    solving->layouts = (layout_list){0};
    search_fractions(solving);
    search_left(solving);
    if (cost_of(solving, &by_sheet) <= cost_of(solving, &solving->layouts))
        solving->layouts = by_sheet;
}

/* ---- Layouts ----------------------------------------------------------------------------------------------------- */

static bool same_node(const struct nest_node *one, const struct nest_node *other) {
    return one->kind == other->kind && one->x == other->x && one->y == other->y && one->length == other->length &&
           one->width == other->width && one->across == other->across && one->at == other->at &&
           one->first == other->first && one->second == other->second && one->rectangle == other->rectangle &&
           one->turned == other->turned;
}

static bool same_layout(const struct nest_layout *one, const struct nest_layout *other) {
    if (one->sheet != other->sheet || one->nodes.count != other->nodes.count)
        return false;
    for (size_t i = 0; i < one->nodes.count; i++)
        if (!same_node(&one->nodes.at[i], &other->nodes.at[i]))
            return false;
    return true;
}

/* The fullest first; of equally full ones those that are alike stand side by side. */
static int fullest_first(const void *left, const void *right) {
    const struct nest_layout *a = left, *b = right;
    if (a->blank_area != b->blank_area)
        return a->blank_area > b->blank_area ? -1 : 1;
    if (a->sheet != b->sheet)
        return a->sheet > b->sheet ? 1 : -1;
    if (a->nodes.count != b->nodes.count)
        return a->nodes.count > b->nodes.count ? 1 : -1;
    for (size_t i = 0; i < a->nodes.count; i++) {
        const struct nest_node *one = &a->nodes.at[i], *other = &b->nodes.at[i];
        if (one->rectangle != other->rectangle)
            return one->rectangle > other->rectangle ? 1 : -1;
        if (one->at != other->at)
            return one->at > other->at ? 1 : -1;
        if (one->across != other->across)
            return one->across ? 1 : -1;
    }
    return 0;
}

static void keep_layout(struct arena *arena, const struct nest_layout *layout, struct nest_layout *kept) {
    size_t bytes = layout->nodes.count * sizeof *layout->nodes.at;
    *kept = *layout;
    kept->nodes.at = memcpy(arena_take(arena, bytes), layout->nodes.at, bytes);
    kept->nodes.room = layout->nodes.count;
}

static void gather_layouts(struct solving *solving) {
    struct nest_solution *solution = solving->solution;
    if (solving->layouts.count)
        qsort(solving->layouts.at, solving->layouts.count, sizeof *solving->layouts.at, fullest_first);
    for (size_t i = 0; i < solving->layouts.count; i++) {
        const struct nest_layout *layout = &solving->layouts.at[i];
        struct nest_layout *last = solution->layouts.count ? &solution->layouts.at[solution->layouts.count - 1] : NULL;
        if (last && same_layout(last, layout))
            last->times += layout->times;
        else
            keep_layout(solving->arena, layout, list_add(solving->arena, &solution->layouts));
    }
}

static void sum_layout(const struct nest_problem *problem, const struct nest_layout *layout,
                       struct nest_solution *solution) {
    const struct nest_sheet *sheet = &problem->sheets[layout->sheet];
    int64_t times = (int64_t)layout->times;
    solution->sheets += layout->times;
    solution->sheets_of[layout->sheet] += layout->times;
    solution->cost += times * sheet->cost;
    solution->sheet_area += times * sheet->length * sheet->width;
    solution->blank_area += times * layout->blank_area;
    for (size_t i = 0; i < layout->nodes.count; i++) {
        const struct nest_node *node = &layout->nodes.at[i];
        int64_t area = (int64_t)node->length * node->width;
        if (node->kind == NEST_KEPT)
            solution->kept_area += times * area;
        if ((node->kind == NEST_KEPT || node->kind == NEST_OFFCUT) && area > solution->largest_offcut)
            solution->largest_offcut = area;
    }
}

struct nest_solution *nest_solve(struct arena *arena, struct arena *scratch, const struct nest_problem *problem) {
    struct nest_solution *solution = ARENA_NEW(arena, struct nest_solution);
    solution->unplaced = ARENA_ARRAY(arena, size_t, problem->rectangle_count + 1);
    solution->sheets_of = ARENA_ARRAY(arena, size_t, problem->sheet_count + 1);
    struct solving solving = {.arena = arena, .scratch = scratch, .problem = problem, .solution = solution};
    solving.left = ARENA_ARRAY(scratch, size_t, problem->rectangle_count + 1);
    sort_out_misfits(&solving);
    find_bounds(&solving);
    if (sum_counts(&solving, solving.left) > FEW && !has_limits(problem))
        search_many(&solving);
    else
        search_left(&solving);
    gather_layouts(&solving);
    for (size_t i = 0; i < solution->layouts.count; i++)
        sum_layout(problem, &solution->layouts.at[i], solution);
    return solution;
}
