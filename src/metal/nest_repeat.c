/* Ways to cut one sheet, each used as often as its blanks last: for jobs with very many blanks, most of which are alike. */
#include <stdlib.h>

#include "metal/nest_search.h"

enum { RULES_TRIED = 4 };

struct repeating {
    struct arena *arena;
    const struct nest_problem *problem;
    size_t *left;
    int32_t *order;   /* of rectangles, the largest first; those that are used up are dropped now and then */
    size_t order_count;
    size_t *used;     /* by the sheet at hand */
    struct plate best;
    double best_rate; /* area of blanks for its cost */
};

struct by_area {
    int64_t area;
    int32_t rectangle;
};

static int largest_first(const void *left, const void *right) {
    const struct by_area *a = left, *b = right;
    if (a->area != b->area)
        return a->area > b->area ? -1 : 1;
    return (a->rectangle > b->rectangle) - (a->rectangle < b->rectangle);
}

static void put_in_order(struct repeating *repeating) {
    size_t count = repeating->problem->rectangle_count;
    struct by_area *all = ARENA_ARRAY(repeating->arena, struct by_area, count + 1);
    repeating->order = ARENA_ARRAY(repeating->arena, int32_t, count + 1);
    for (size_t i = 0; i < count; i++)
        all[i] = (struct by_area){rectangle_area(&repeating->problem->rectangles[i]), (int32_t)i};
    qsort(all, count, sizeof *all, largest_first);
    for (size_t i = 0; i < count; i++)
        if (repeating->left[all[i].rectangle])
            repeating->order[repeating->order_count++] = all[i].rectangle;
}

/* Fills one sheet of a kind; blanks as the order has them, each as often as it goes on and there are any. */
static void fill_one(struct repeating *repeating, struct pack *pack, size_t kind) {
    const struct nest_rectangle *rectangles = repeating->problem->rectangles;
    pack_clear(pack);
    for (size_t i = 0; i < repeating->order_count; i++)
        repeating->used[repeating->order[i]] = 0;
    pack->only = (int32_t)kind;
    pack->most_cost = repeating->problem->sheets[kind].cost;
    for (size_t i = 0; i < repeating->order_count; i++) {
        int32_t rectangle = repeating->order[i];
        if (!pack_fits(&rectangles[rectangle], &repeating->problem->sheets[kind]))
            continue;
        while (repeating->used[rectangle] < repeating->left[rectangle] && pack_insert(pack, rectangle, NULL, NULL))
            repeating->used[rectangle]++;
    }
}

static void try_kind(struct repeating *repeating, struct pack *pack, size_t kind) {
    const struct nest_sheet *sheet = &repeating->problem->sheets[kind];
    for (int way = 0; way < RULES_TRIED; way++) {
        pack->rule = way < 2 ? PACK_VALUE : PACK_SHORT_SIDE;
        pack->split = way % 2 ? SPLIT_ACROSS : SPLIT_LARGEST;
        fill_one(repeating, pack, kind);
        if (!pack->taken[kind])
            return;
        double rate = (double)pack->plates.at[0].blank_area / (double)sheet->cost;
        if (rate > repeating->best_rate) {
            repeating->best_rate = rate;
            plate_copy(repeating->arena, &repeating->best, &pack->plates.at[0]);
        }
    }
}

/* How often the best sheet can be cut of what is left. */
static size_t count_times(struct repeating *repeating, size_t limit) {
    const struct plate *plate = &repeating->best;
    size_t times = limit;
    for (size_t i = 0; i < repeating->order_count; i++)
        repeating->used[repeating->order[i]] = 0;
    for (int32_t i = 0; i < plate->node_count; i++)
        if (plate->nodes[i].used && plate->nodes[i].rectangle != PLATE_NONE)
            repeating->used[plate->nodes[i].rectangle]++;
    for (size_t i = 0; i < repeating->order_count; i++) {
        int32_t rectangle = repeating->order[i];
        size_t used = repeating->used[rectangle];
        if (used && repeating->left[rectangle] / used < times)
            times = repeating->left[rectangle] / used;
    }
    return times;
}

static size_t take_away(struct repeating *repeating, size_t times) {
    size_t taken = 0, kept = 0;
    for (size_t i = 0; i < repeating->order_count; i++) {
        int32_t rectangle = repeating->order[i];
        taken += times * repeating->used[rectangle];
        repeating->left[rectangle] -= times * repeating->used[rectangle];
        if (repeating->left[rectangle])
            repeating->order[kept++] = rectangle;
    }
    repeating->order_count = kept;
    return taken;
}

/* Sheets of limited number are left to the search. */
void nest_repeat(struct arena *arena, const struct nest_problem *problem, size_t few, size_t *left,
                 layout_list *layouts) {
    struct repeating repeating = {.arena = arena, .problem = problem, .left = left};
    size_t total = 0;
    for (size_t i = 0; i < problem->rectangle_count; i++)
        total += left[i];
    if (total <= few)
        return;
    struct pack pack;
    pack_init(&pack, arena, problem);
    repeating.used = ARENA_ARRAY(arena, size_t, problem->rectangle_count + 1);
    put_in_order(&repeating);
    while (total > few) {
        repeating.best_rate = 0;
        for (size_t kind = 0; kind < problem->sheet_count; kind++)
            if (!problem->sheets[kind].limit)
                try_kind(&repeating, &pack, kind);
        if (!(repeating.best_rate > 0))
            return;
        size_t times = count_times(&repeating, total);
        struct nest_layout *layout = list_add(arena, layouts);
        plate_layout(arena, &repeating.best, problem, layout);
        layout->times = times;
        total -= take_away(&repeating, times);
    }
}
