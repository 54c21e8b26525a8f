/* Everything that must be true of any nest, held against the problem without a look at how it was found.  Include it
 * behind cmocka.h. */
#ifndef TESTS_UNIT_NEST_PROVE_H
#define TESTS_UNIT_NEST_PROVE_H

#include <stdlib.h>

#include "metal/nest_solve.h"

#define PROVE(truth)                                                                                                   \
    do {                                                                                                               \
        if (!(truth))                                                                                                  \
            fail_msg("not so: %s", #truth);                                                                            \
    } while (0)

struct lying {
    nest_steps left, lower, right, upper;
};

/* A cut at `at` that meets no blank and leaves some on either side. */
static inline bool parts_blanks(const struct lying *blanks, size_t count, bool across, nest_steps at) {
    size_t before = 0;
    for (size_t i = 0; i < count; i++) {
        nest_steps low = across ? blanks[i].left : blanks[i].lower, high = across ? blanks[i].right : blanks[i].upper;
        if (low < at && high > at)
            return false;
        before += high <= at;
    }
    return before > 0 && before < count;
}

/* Whether cuts from edge to edge can part them all: any cut that meets no blank may be made first, since it spoils none
 * of the others. */
static inline bool can_be_sheared(struct lying *blanks, size_t count) {
    if (count <= 1)
        return true;
    for (size_t i = 0; i < 2 * count; i++) {
        bool across = i % 2;
        nest_steps at = across ? blanks[i / 2].right : blanks[i / 2].upper;
        if (!parts_blanks(blanks, count, across, at))
            continue;
        size_t before = 0;
        for (size_t k = 0; k < count; k++) {
            if ((across ? blanks[k].right : blanks[k].upper) > at)
                continue;
            struct lying moved = blanks[before];
            blanks[before++] = blanks[k];
            blanks[k] = moved;
        }
        return can_be_sheared(blanks, before) && can_be_sheared(blanks + before, count - before);
    }
    return false;
}

static inline void prove_apart(const struct lying *blanks, size_t count) {
    for (size_t i = 0; i < count; i++)
        for (size_t k = 0; k < i; k++)
            PROVE(blanks[i].right <= blanks[k].left || blanks[k].right <= blanks[i].left ||
                  blanks[i].upper <= blanks[k].lower || blanks[k].upper <= blanks[i].lower);
}

/* The two halves of a cut are what it divides, without gap or overlap. */
static inline void prove_cut(const struct nest_layout *layout, size_t index) {
    const struct nest_node *node = &layout->nodes.at[index];
    PROVE(node->first == index + 1 && node->second > node->first && node->second < layout->nodes.count);
    const struct nest_node *first = &layout->nodes.at[node->first], *second = &layout->nodes.at[node->second];
    PROVE(node->at > 0 && node->at < (node->across ? node->length : node->width));
    PROVE(first->x == node->x && first->y == node->y);
    PROVE(first->length == (node->across ? node->at : node->length));
    PROVE(first->width == (node->across ? node->width : node->at));
    PROVE(second->x == node->x + (node->across ? node->at : 0));
    PROVE(second->y == node->y + (node->across ? 0 : node->at));
    PROVE(second->length == node->length - (node->across ? node->at : 0));
    PROVE(second->width == node->width - (node->across ? 0 : node->at));
}

static inline bool is_large(const struct nest_problem *problem, const struct nest_node *node) {
    return problem->keep_length > 0 && ((node->length >= problem->keep_length && node->width >= problem->keep_width) ||
                                        (node->width >= problem->keep_length && node->length >= problem->keep_width));
}

static inline void prove_layout(const struct nest_problem *problem, const struct nest_layout *layout, size_t *placed) {
    const struct nest_sheet *sheet = &problem->sheets[layout->sheet];
    const struct nest_node *whole = &layout->nodes.at[0];
    struct lying *blanks = calloc(layout->nodes.count, sizeof *blanks);
    size_t count = 0, cuts = 0;
    int64_t area = 0, blank_area = 0;
    PROVE(layout->times > 0);
    PROVE(whole->x == 0 && whole->y == 0 && whole->length == sheet->length && whole->width == sheet->width);
    for (size_t i = 0; i < layout->nodes.count; i++) {
        const struct nest_node *node = &layout->nodes.at[i];
        PROVE(node->x >= 0 && node->y >= 0 && node->length > 0 && node->width > 0);
        PROVE(node->x + node->length <= sheet->length && node->y + node->width <= sheet->width);
        if (node->kind == NEST_CUT) {
            prove_cut(layout, i);
            cuts++;
            continue;
        }
        area += (int64_t)node->length * node->width;
        if (node->kind != NEST_BLANK) {
            PROVE((node->kind == NEST_KEPT) == is_large(problem, node));
            continue;
        }
        const struct nest_rectangle *rectangle = &problem->rectangles[node->rectangle];
        PROVE(rectangle->turns || !node->turned);
        PROVE(node->length == (node->turned ? rectangle->width : rectangle->length));
        PROVE(node->width == (node->turned ? rectangle->length : rectangle->width));
        placed[node->rectangle] += layout->times;
        blank_area += (int64_t)node->length * node->width;
        blanks[count++] = (struct lying){node->x, node->y, node->x + node->length, node->y + node->width};
    }
    PROVE(area == (int64_t)sheet->length * sheet->width);
    PROVE(count > 0 && count == layout->blank_count && cuts == layout->cut_count && blank_area == layout->blank_area);
    prove_apart(blanks, count);
    PROVE(can_be_sheared(blanks, count));
    free(blanks);
}

static inline bool fits_some(const struct nest_problem *problem, const struct nest_rectangle *rectangle) {
    for (size_t i = 0; i < problem->sheet_count; i++) {
        const struct nest_sheet *sheet = &problem->sheets[i];
        if ((rectangle->length <= sheet->length && rectangle->width <= sheet->width) ||
            (rectangle->turns && rectangle->width <= sheet->length && rectangle->length <= sheet->width))
            return true;
    }
    return false;
}

static inline void prove_sums(const struct nest_problem *problem, const struct nest_solution *solution) {
    size_t sheets = 0;
    int64_t cost = 0, area = 0;
    for (size_t i = 0; i < problem->sheet_count; i++) {
        size_t used = 0;
        for (size_t n = 0; n < solution->layouts.count; n++)
            used += solution->layouts.at[n].sheet == i ? solution->layouts.at[n].times : 0;
        PROVE(used == solution->sheets_of[i]);
        PROVE(!problem->sheets[i].limit || used <= problem->sheets[i].limit);
        sheets += used;
        cost += (int64_t)used * problem->sheets[i].cost;
        area += (int64_t)used * problem->sheets[i].length * problem->sheets[i].width;
    }
    PROVE(sheets == solution->sheets && cost == solution->cost && area == solution->sheet_area);
}

/* No limit of any kind of sheet: all that fits is placed, on no more than a sheet each, and no bound is passed. */
static inline void prove_unlimited(const struct nest_problem *problem, const struct nest_solution *solution) {
    size_t blanks = 0;
    int64_t dearest = 0;
    for (size_t i = 0; i < problem->rectangle_count; i++) {
        const struct nest_rectangle *rectangle = &problem->rectangles[i];
        bool fits = fits_some(problem, rectangle);
        PROVE(solution->unplaced[i] == (fits ? 0 : rectangle->count));
        blanks += fits ? rectangle->count : 0;
    }
    for (size_t i = 0; i < problem->sheet_count; i++)
        dearest = problem->sheets[i].cost > dearest ? problem->sheets[i].cost : dearest;
    PROVE(solution->sheets <= blanks && solution->cost <= (int64_t)blanks * dearest);
    PROVE(solution->area_bound <= solution->sheet_bound && solution->sheet_bound <= solution->sheets);
    PROVE(solution->cost_bound <= solution->cost);
}

static inline void prove_nest(const struct nest_problem *problem, const struct nest_solution *solution) {
    size_t *placed = calloc(problem->rectangle_count + 1, sizeof *placed);
    bool limited = false;
    for (size_t i = 0; i < solution->layouts.count; i++)
        prove_layout(problem, &solution->layouts.at[i], placed);
    for (size_t i = 0; i < problem->rectangle_count; i++)
        PROVE(placed[i] + solution->unplaced[i] == problem->rectangles[i].count);
    free(placed);
    prove_sums(problem, solution);
    for (size_t i = 0; i < problem->sheet_count; i++)
        limited = limited || problem->sheets[i].limit;
    if (!limited)
        prove_unlimited(problem, solution);
}

#endif
