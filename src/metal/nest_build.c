/* Nests built blank by blank: in several orders, by several rules, the best of them is kept. */
#include <stdlib.h>

#include "metal/nest_search.h"

/* ---- Orders ------------------------------------------------------------------------------------------------------ */

enum order_key { ORDER_AREA, ORDER_LONG_SIDE, ORDER_SHORT_SIDE, ORDER_AROUND, ORDER_LENGTH, ORDER_WIDTH, ORDER_KEYS };

struct ordered {
    int64_t key, second;
    int32_t rectangle;
};

static struct ordered ordered_by(enum order_key key, const struct nest_rectangle *rectangle, int32_t index) {
    int64_t length = rectangle->length, width = rectangle->width;
    int64_t longer = length > width ? length : width, shorter = length + width - longer;
    switch (key) {
    case ORDER_AREA:
        return (struct ordered){length * width, longer, index};
    case ORDER_LONG_SIDE:
        return (struct ordered){longer, shorter, index};
    case ORDER_SHORT_SIDE:
        return (struct ordered){shorter, longer, index};
    case ORDER_AROUND:
        return (struct ordered){length + width, longer, index};
    case ORDER_LENGTH:
        return (struct ordered){length, width, index};
    default:
        return (struct ordered){width, length, index};
    }
}

static int largest_first(const void *left, const void *right) {
    const struct ordered *a = left, *b = right;
    if (a->key != b->key)
        return a->key > b->key ? -1 : 1;
    if (a->second != b->second)
        return a->second > b->second ? -1 : 1;
    return (a->rectangle > b->rectangle) - (a->rectangle < b->rectangle);
}

static void put_in_order(const struct nest_problem *problem, enum order_key key, const rectangle_list *blanks,
                         struct ordered *order) {
    for (size_t i = 0; i < blanks->count; i++)
        order[i] = ordered_by(key, &problem->rectangles[blanks->at[i]], blanks->at[i]);
    qsort(order, blanks->count, sizeof *order, largest_first);
}

/* ---- The best ---------------------------------------------------------------------------------------------------- */

void nest_keep(struct nest_best *best, const struct pack *pack, struct arena *arena) {
    if (pack->cost > best->cost)
        return;
    int64_t offcut = pack_offcut(pack, arena);
    if (pack->cost == best->cost && offcut <= best->offcut)
        return;
    best->cost = pack->cost;
    best->offcut = offcut;
    size_t count = 0;
    for (size_t i = 0; i < pack->plates.count; i++) {
        if (pack->plates.at[i].sheet == PLATE_NONE)
            continue;
        if (count == best->plates.count)
            list_add(arena, &best->plates);
        plate_copy(arena, &best->plates.at[count++], &pack->plates.at[i]);
    }
    best->plates.count = count;
}

/* ---- Building ---------------------------------------------------------------------------------------------------- */

/* A way of building, one of many: the first are those that are the best most often. */
static void set_rules(struct pack *pack, size_t way) {
    size_t sheets = pack->problem->sheet_count, choices = sheets > 1 ? OPEN_RULES + sheets : 1;
    size_t choice = way % choices;
    pack->rule = (enum pack_rule)(way / choices % PACK_RULES);
    pack->split = (enum split_rule)(way / choices / PACK_RULES % SPLIT_RULES);
    pack->open = choice < OPEN_RULES ? (enum open_rule)choice : OPEN_CHEAPEST_AREA;
    pack->only = choice < OPEN_RULES ? PLATE_NONE : (int32_t)(choice - OPEN_RULES);
}

static size_t count_ways(const struct nest_problem *problem) {
    size_t choices = problem->sheet_count > 1 ? OPEN_RULES + problem->sheet_count : 1;
    return choices * PACK_RULES * SPLIT_RULES;
}

static bool build_one(struct pack *pack, const struct ordered *order, size_t count) {
    pack_clear(pack);
    for (size_t i = 0; i < count; i++)
        if (!pack_insert(pack, order[i].rectangle, NULL, NULL))
            return false;
    return true;
}

size_t nest_build(struct arena *arena, const struct nest_problem *problem, const rectangle_list *blanks, int64_t bound,
                  size_t work, struct nest_best *best) {
    struct pack pack;
    pack_init(&pack, arena, problem);
    struct ordered *orders[ORDER_KEYS];
    for (enum order_key key = 0; key < ORDER_KEYS; key++) {
        orders[key] = ARENA_ARRAY(arena, struct ordered, blanks->count + 1);
        put_in_order(problem, key, blanks, orders[key]);
    }
    size_t ways = count_ways(problem);
    for (size_t way = 0; way < ways; way++) {
        for (enum order_key key = 0; key < ORDER_KEYS; key++) {
            if (pack.work > work && best->cost < INT64_MAX)
                return pack.work;
            set_rules(&pack, way);
            if (build_one(&pack, orders[key], blanks->count))
                nest_keep(best, &pack, arena);
        }
        if (best->cost <= bound && way + 1 >= ways / 3)
            break;
    }
    return pack.work;
}

void nest_some(struct arena *arena, const struct nest_problem *problem, const rectangle_list *blanks,
               struct nest_best *best, size_t *unplaced) {
    struct pack pack;
    pack_init(&pack, arena, problem);
    struct ordered *order = ARENA_ARRAY(arena, struct ordered, blanks->count + 1);
    put_in_order(problem, ORDER_AREA, blanks, order);
    for (size_t i = 0; i < blanks->count; i++)
        if (!pack_insert(&pack, order[i].rectangle, NULL, NULL))
            unplaced[order[i].rectangle]++;
    nest_keep(best, &pack, arena);
}

/* ---- Cheaper sheets ---------------------------------------------------------------------------------------------- */

/* The blanks of a plate. */
static void list_blanks(struct arena *arena, const struct plate *plate, rectangle_list *blanks) {
    blanks->count = 0;
    for (int32_t i = 0; i < plate->node_count; i++)
        if (plate->nodes[i].used && plate->nodes[i].rectangle != PLATE_NONE)
            *list_add(arena, blanks) = plate->nodes[i].rectangle;
}

/* Lays the blanks of one plate on one sheet of another kind; false: they do not go on it. */
static bool move_to(struct arena *arena, struct pack *pack, size_t kind, const rectangle_list *blanks) {
    struct ordered *order = ARENA_ARRAY(arena, struct ordered, blanks->count + 1);
    pack->only = (int32_t)kind;
    pack->most_cost = pack->problem->sheets[kind].cost;
    for (size_t way = 0; way < (size_t)PACK_RULES * SPLIT_RULES; way++) {
        pack->rule = (enum pack_rule)(way % PACK_RULES);
        pack->split = (enum split_rule)(way / PACK_RULES);
        for (enum order_key key = 0; key < ORDER_KEYS; key++) {
            put_in_order(pack->problem, key, blanks, order);
            if (build_one(pack, order, blanks->count) && pack->taken[kind] == 1)
                return true;
        }
    }
    return false;
}

static const struct plate *only_plate(const struct pack *pack) {
    size_t i = 0;
    while (pack->plates.at[i].sheet == PLATE_NONE)
        i++;
    return &pack->plates.at[i];
}

size_t nest_cheapen(struct arena *arena, const struct nest_problem *problem, struct nest_best *best) {
    struct pack pack;
    pack_init(&pack, arena, problem);
    size_t *taken = ARENA_ARRAY(arena, size_t, problem->sheet_count + 1);
    rectangle_list blanks = {0};
    for (size_t i = 0; i < best->plates.count; i++)
        taken[best->plates.at[i].sheet]++;
    for (size_t i = 0; i < best->plates.count; i++) {
        struct plate *plate = &best->plates.at[i];
        list_blanks(arena, plate, &blanks);
        for (size_t kind = 0; kind < problem->sheet_count; kind++) {
            const struct nest_sheet *sheet = &problem->sheets[kind], *now = &problem->sheets[plate->sheet];
            if (sheet->cost >= now->cost || (sheet->limit && taken[kind] >= sheet->limit) ||
                plate->blank_area > (int64_t)sheet->length * sheet->width || !move_to(arena, &pack, kind, &blanks))
                continue;
            best->cost -= now->cost - sheet->cost;
            taken[plate->sheet]--;
            taken[kind]++;
            plate_copy(arena, plate, only_plate(&pack));
        }
    }
    return pack.work;
}
