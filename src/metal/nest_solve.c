/* The solver of nests: what fits, the bounds, building, improving, and the layouts that come of it. */
#include "metal/nest_solve.h"

#include <stdlib.h>
#include <string.h>

#include "metal/nest_bound.h"
#include "metal/nest_search.h"

/* Over so many blanks, ways to cut one sheet are repeated first. */
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

static void list_left(const struct solving *solving, rectangle_list *blanks) {
    for (size_t i = 0; i < solving->problem->rectangle_count; i++)
        for (size_t n = 0; n < solving->left[i]; n++)
            *list_add(solving->scratch, blanks) = (int32_t)i;
}

/* ---- Searching --------------------------------------------------------------------------------------------------- */

/* What stands on the sheets already is not searched again. */
static int64_t cost_of_layouts(const struct solving *solving) {
    int64_t cost = 0;
    for (size_t i = 0; i < solving->layouts.count; i++)
        cost += (int64_t)solving->layouts.at[i].times * solving->problem->sheets[solving->layouts.at[i].sheet].cost;
    return cost;
}

/* A third of the effort goes into building, the rest into improving. */
static void search(struct solving *solving, const rectangle_list *blanks, struct nest_best *best) {
    const struct nest_problem *problem = solving->problem;
    int64_t bound = solving->solution->cost_bound - cost_of_layouts(solving);
    size_t work = nest_build(solving->scratch, problem, blanks, bound, problem->effort / 3, best);
    if (best->cost == INT64_MAX)
        return;
    if (problem->sheet_count > 1 && problem->effort)
        work += nest_cheapen(solving->scratch, problem, best);
    if (work < problem->effort) {
        size_t rest = problem->effort - work;
        work += nest_improve(solving->scratch, problem, bound, best->cost <= bound ? rest / 8 : rest, best);
    }
    if (problem->sheet_count > 1 && problem->effort)
        work += nest_cheapen(solving->scratch, problem, best);
    solving->solution->work += work;
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
    nest_repeat(scratch, problem, FEW, solving.left, &solving.layouts);
    rectangle_list blanks = {0};
    list_left(&solving, &blanks);
    struct nest_best best = {.cost = INT64_MAX};
    if (blanks.count)
        search(&solving, &blanks, &best);
    if (blanks.count && best.cost == INT64_MAX)
        nest_some(scratch, problem, &blanks, &best, solution->unplaced); /* the limits of sheets are reached */
    for (size_t i = 0; i < best.plates.count; i++)
        plate_layout(scratch, &best.plates.at[i], problem, list_add(scratch, &solving.layouts));
    gather_layouts(&solving);
    for (size_t i = 0; i < solution->layouts.count; i++)
        sum_layout(problem, &solution->layouts.at[i], solution);
    return solution;
}
