/* Ruin and recreate: regions are cleared at random and filled again, with less to spend than the best nest cost.  What
 * finds no place stays out; when nothing is out, the nest is better than the best.
 *
 * After the goal-driven search of Gardeyn and Wauters, "A goal-driven ruin and recreate heuristic for the 2D
 * variable-sized bin packing problem with guillotine constraints" (2022), and the late acceptance of Burke and Bykov
 * (2017), from memory; the ways of clearing, ordering and scoring are our own.
 */
#include <math.h>
#include <stdlib.h>

#include "metal/nest_search.h"

enum {
    HISTORY = 128,   /* a change is accepted when it is no worse than what was so many steps ago */
    MOST_CLEARED = 5 /* regions at once */
};

/* How much a large hole counts against blanks that are out.  Chosen here, by trial. */
static const double hole_weight = 0.02;

struct blank_order {
    double key;
    int32_t rectangle;
};

struct search {
    struct arena *arena;
    const struct nest_problem *problem;
    struct pack pack;
    struct nest_best *best;
    rectangle_list out, out_before;
    double sheet_area; /* of the largest kind */
    double standing;   /* of the nest at hand, the less the better */
    int64_t out_area;
    int64_t least_out; /* since the goal was set */
    double history[HISTORY];
    size_t step;

    /* What to go back to. */
    LIST(struct plate) saved;
    LIST(int32_t) saved_of; /* which plate each was */
    size_t saved_count;
    LIST(size_t) saved_at; /* by plate: the step it was last saved in */
    size_t *taken_before;
    int64_t cost_before;

    LIST(struct blank_order) order;
    size_t *failed_at; /* by rectangle: the step in which it found no place */
};

/* ---- Trying and going back --------------------------------------------------------------------------------------- */

static void save_plate(void *context, int32_t plate) {
    struct search *search = context;
    while (search->saved_at.count <= (size_t)plate)
        list_add(search->arena, &search->saved_at);
    if (search->saved_at.at[plate] == search->step)
        return;
    search->saved_at.at[plate] = search->step;
    if (search->saved_count == search->saved.count) {
        list_add(search->arena, &search->saved);
        list_add(search->arena, &search->saved_of);
    }
    plate_copy(search->arena, &search->saved.at[search->saved_count], &search->pack.plates.at[plate]);
    search->saved_of.at[search->saved_count++] = plate;
    search->pack.work += (size_t)search->pack.plates.at[plate].node_count / 8;
}

static void copy_list(struct arena *arena, rectangle_list *to, const rectangle_list *from) {
    to->count = 0;
    for (size_t i = 0; i < from->count; i++)
        *list_add(arena, to) = from->at[i];
}

static void begin_step(struct search *search) {
    search->step++;
    search->saved_count = 0;
    copy_list(search->arena, &search->out_before, &search->out);
    for (size_t i = 0; i < search->problem->sheet_count; i++)
        search->taken_before[i] = search->pack.taken[i];
    search->cost_before = search->pack.cost;
}

static void go_back(struct search *search) {
    for (size_t i = 0; i < search->saved_count; i++)
        plate_copy(search->arena, &search->pack.plates.at[search->saved_of.at[i]], &search->saved.at[i]);
    copy_list(search->arena, &search->out, &search->out_before);
    for (size_t i = 0; i < search->problem->sheet_count; i++)
        search->pack.taken[i] = search->taken_before[i];
    search->pack.cost = search->cost_before;
}

/* ---- Clearing and filling ---------------------------------------------------------------------------------------- */

static uint32_t chance(struct search *search, uint32_t count) {
    return pack_random(&search->pack, count);
}

/* A plate with something on it; PLATE_NONE: hardly any has. */
static int32_t some_plate(struct search *search) {
    for (int i = 0; search->pack.plates.count && i < 32; i++) {
        int32_t plate = (int32_t)chance(search, (uint32_t)search->pack.plates.count);
        if (search->pack.plates.at[plate].sheet != PLATE_NONE)
            return plate;
    }
    return PLATE_NONE;
}

/* A region with blanks on it; the whole plate when no other is hit on. */
static int32_t some_region(struct search *search, const struct plate *plate) {
    for (int i = 0; i < 16; i++) {
        int32_t node = (int32_t)chance(search, (uint32_t)plate->node_count);
        if (plate->nodes[node].used && plate->nodes[node].hole == PLATE_NONE)
            return node;
    }
    return 0;
}

static void clear_some(struct search *search) {
    uint32_t regions = 1 + chance(search, MOST_CLEARED);
    for (uint32_t i = 0; i < regions; i++) {
        int32_t index = some_plate(search);
        if (index == PLATE_NONE)
            return;
        save_plate(search, index);
        struct plate *plate = &search->pack.plates.at[index];
        plate_clear(search->arena, plate, search->problem->rectangles, some_region(search, plate), &search->out);
        if (!plate->blank_count)
            pack_close(&search->pack, index);
    }
}

static int greater_first(const void *left, const void *right) {
    const struct blank_order *a = left, *b = right;
    if (a->key != b->key)
        return a->key > b->key ? -1 : 1;
    return (a->rectangle > b->rectangle) - (a->rectangle < b->rectangle);
}

/* By area, longer side or shorter side, and not strictly. */
static void order_out(struct search *search) {
    uint32_t by = chance(search, 4);
    search->order.count = 0;
    for (size_t i = 0; i < search->out.count; i++) {
        const struct nest_rectangle *rectangle = &search->problem->rectangles[search->out.at[i]];
        double length = rectangle->length, width = rectangle->width, key = length * width;
        if (by == 1)
            key = fmax(length, width);
        else if (by == 2)
            key = fmin(length, width);
        key *= 1 + 0.6 * chance(search, 1 << 16) / (1 << 16);
        *list_add(search->arena, &search->order) = (struct blank_order){key, search->out.at[i]};
    }
    if (search->order.count)
        qsort(search->order.at, search->order.count, sizeof *search->order.at, greater_first);
}

/* In this order; the holes only shrink, so that what found no place once need not be tried again. */
static void fill(struct search *search) {
    search->out.count = 0;
    search->out_area = 0;
    for (size_t i = 0; i < search->order.count; i++) {
        int32_t rectangle = search->order.at[i].rectangle;
        if (search->failed_at[rectangle] != search->step && pack_insert(&search->pack, rectangle, save_plate, search))
            continue;
        search->failed_at[rectangle] = search->step;
        *list_add(search->arena, &search->out) = rectangle;
        search->out_area += rectangle_area(&search->problem->rectangles[rectangle]);
    }
}

/* What the nest at hand is worth: the area that is out, less a little for large holes. */
static double stand(const struct search *search) {
    double value = 0;
    for (size_t i = 0; i < search->pack.plates.count; i++)
        if (search->pack.plates.at[i].sheet != PLATE_NONE)
            value += search->pack.plates.at[i].value;
    return (double)search->out_area - hole_weight * value / search->sheet_area;
}

/* ---- Goals ------------------------------------------------------------------------------------------------------- */

/* From the best nest, less to spend by one coin: the emptiest sheets are cleared. */
static void set_goal(struct search *search) {
    struct pack *pack = &search->pack;
    pack_clear(pack);
    search->out.count = 0;
    for (size_t i = 0; i < search->best->plates.count; i++) {
        if (i >= pack->plates.count)
            list_add(search->arena, &pack->plates);
        const struct plate *plate = &search->best->plates.at[i];
        plate_copy(search->arena, &pack->plates.at[i], plate);
        pack->taken[plate->sheet]++;
    }
    pack->cost = search->best->cost;
    pack->most_cost = search->best->cost - 1;
    while (pack->cost > pack->most_cost) {
        int32_t emptiest = PLATE_NONE;
        for (int32_t i = 0; i < (int32_t)pack->plates.count; i++)
            if (pack->plates.at[i].sheet != PLATE_NONE &&
                (emptiest == PLATE_NONE || pack->plates.at[i].blank_area < pack->plates.at[emptiest].blank_area))
                emptiest = i;
        plate_clear(search->arena, &pack->plates.at[emptiest], search->problem->rectangles, 0, &search->out);
        pack_close(pack, emptiest);
    }
    search->out_area = 0;
    for (size_t i = 0; i < search->out.count; i++)
        search->out_area += rectangle_area(&search->problem->rectangles[search->out.at[i]]);
    search->least_out = INT64_MAX;
    search->standing = stand(search);
    for (size_t i = 0; i < HISTORY; i++)
        search->history[i] = search->standing;
}

/* What is out, on sheets that may cost as much as the best: the fewer are out, the larger is what is left over. */
static void try_rest(struct search *search) {
    if (search->out_area >= search->least_out)
        return;
    search->least_out = search->out_area;
    begin_step(search);
    search->pack.blink = false;
    search->pack.most_cost++;
    order_out(search);
    fill(search);
    if (!search->out.count)
        nest_keep(search->best, &search->pack, search->arena);
    search->pack.most_cost--;
    search->pack.blink = true;
    int64_t out = search->least_out;
    go_back(search);
    search->out_area = out;
}

static void take_step(struct search *search) {
    int64_t out_area = search->out_area;
    begin_step(search);
    clear_some(search);
    order_out(search);
    fill(search);
    double standing = stand(search), *past = &search->history[search->step % HISTORY];
    if (standing <= search->standing || standing <= *past) {
        search->standing = standing;
    } else {
        go_back(search);
        search->out_area = out_area;
    }
    *past = search->standing;
}

static void search_begin(struct search *search, struct arena *arena, const struct nest_problem *problem,
                         struct nest_best *best) {
    *search = (struct search){.arena = arena, .problem = problem, .best = best};
    pack_init(&search->pack, arena, problem);
    search->pack.blink = true;
    search->taken_before = ARENA_ARRAY(arena, size_t, problem->sheet_count + 1);
    search->failed_at = ARENA_ARRAY(arena, size_t, problem->rectangle_count + 1);
    for (size_t i = 0; i < problem->sheet_count; i++)
        search->sheet_area = fmax(search->sheet_area, (double)problem->sheets[i].length * problem->sheets[i].width);
}

size_t nest_improve(struct arena *arena, const struct nest_problem *problem, int64_t bound, size_t work,
                    struct nest_best *best) {
    struct search search;
    search_begin(&search, arena, problem, best);
    set_goal(&search);
    /* One sheet cannot be made fewer, only cheaper. */
    while (search.pack.work < work && (best->plates.count > 1 || problem->sheet_count > 1)) {
        take_step(&search);
        search.pack.work += 8;
        if (search.out.count) {
            try_rest(&search);
            continue;
        }
        nest_keep(best, &search.pack, arena);
        if (best->cost <= bound && search.pack.work < work)
            work = search.pack.work + (work - search.pack.work) / 8;
        set_goal(&search);
    }
    return search.pack.work;
}
