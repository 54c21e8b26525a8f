/* The nest of a handful of blanks that costs the least, found by looking at all of them: every box that each set of
 * blanks can be cut from, and every way of sharing the blanks out among sheets. */
#include "metal/nest_search.h"

enum { SETS = 1 << NEST_EXACT_MOST };

/* A box that a set of blanks can be cut from; smaller ones of the same set are not as long, or not as wide. */
struct box {
    nest_steps length, width;
    bool across, turned;
    unsigned part;     /* the blanks left of or below the cut; 0: it is a blank */
    size_t one, other; /* which box of that part, and of the rest */
};

typedef LIST(struct box) box_list;

struct sharing {
    int64_t alone, least; /* cost on one sheet; on any */
    int32_t kind;         /* of that one sheet */
    size_t box;
    unsigned part; /* least: on one sheet with these, and the others on others */
};

struct looking {
    struct arena *arena;
    const struct nest_problem *problem;
    const rectangle_list *blanks;
    box_list boxes[SETS];
    struct sharing sharing[SETS];
};

static void add_box(struct looking *looking, unsigned set, struct box box) {
    box_list *boxes = &looking->boxes[set];
    size_t kept = 0;
    for (size_t i = 0; i < boxes->count; i++)
        if (boxes->at[i].length <= box.length && boxes->at[i].width <= box.width)
            return;
    for (size_t i = 0; i < boxes->count; i++)
        if (boxes->at[i].length < box.length || boxes->at[i].width < box.width)
            boxes->at[kept++] = boxes->at[i];
    boxes->count = kept;
    *list_add(looking->arena, boxes) = box;
}

static nest_steps greater(nest_steps one, nest_steps other) {
    return one > other ? one : other;
}

static void join_boxes(struct looking *looking, unsigned set, unsigned part) {
    const box_list *ones = &looking->boxes[part], *others = &looking->boxes[set ^ part];
    for (size_t i = 0; i < ones->count; i++)
        for (size_t k = 0; k < others->count; k++) {
            struct box one = ones->at[i], other = others->at[k];
            add_box(looking, set,
                    (struct box){one.length + other.length, greater(one.width, other.width), true, false, part, i, k});
            add_box(looking, set,
                    (struct box){greater(one.length, other.length), one.width + other.width, false, false, part, i, k});
        }
}

static void find_boxes(struct looking *looking, unsigned set) {
    for (size_t i = 0; i < looking->blanks->count; i++) {
        const struct nest_rectangle *blank = &looking->problem->rectangles[looking->blanks->at[i]];
        if (set != 1u << i)
            continue;
        add_box(looking, set, (struct box){.length = blank->length, .width = blank->width});
        if (blank->turns)
            add_box(looking, set, (struct box){.length = blank->width, .width = blank->length, .turned = true});
    }
    for (unsigned part = (set - 1) & set; part; part = (part - 1) & set)
        if (part > (set ^ part))
            join_boxes(looking, set, part);
}

/* The cheapest sheet that takes the set whole, then the cheapest way of sharing it out. */
static void share(struct looking *looking, unsigned set) {
    struct sharing *sharing = &looking->sharing[set];
    sharing->alone = INT64_MAX / 8;
    for (size_t kind = 0; kind < looking->problem->sheet_count; kind++) {
        const struct nest_sheet *sheet = &looking->problem->sheets[kind];
        for (size_t i = 0; i < looking->boxes[set].count && sheet->cost < sharing->alone; i++) {
            const struct box *box = &looking->boxes[set].at[i];
            if (box->length > sheet->length || box->width > sheet->width)
                continue;
            sharing->alone = sheet->cost;
            sharing->kind = (int32_t)kind;
            sharing->box = i;
        }
    }
    sharing->least = sharing->alone;
    sharing->part = set;
    for (unsigned part = (set - 1) & set; part; part = (part - 1) & set) {
        int64_t cost = looking->sharing[part].alone + looking->sharing[set ^ part].least;
        if (cost >= sharing->least)
            continue;
        sharing->least = cost;
        sharing->part = part;
    }
}

/* ---- As plates --------------------------------------------------------------------------------------------------- */

/* As deep as there are blanks. */
static void cut_box(const struct looking *looking, struct plate *plate, int32_t node, unsigned set, size_t index) {
    const struct box *box = &looking->boxes[set].at[index];
    if (!box->part) {
        size_t i = 0;
        while (set != 1u << i)
            i++;
        plate_put(looking->arena, plate, looking->problem->rectangles, looking->blanks->at[i],
                  (struct plate_spot){.hole = plate->nodes[node].hole, .turned = box->turned, .across = true});
        return;
    }
    const struct box *one = &looking->boxes[box->part].at[box->one];
    plate_cut(looking->arena, plate, node, box->across, box->across ? one->length : one->width);
    int32_t first = plate->nodes[node].first, second = plate->nodes[node].second;
    cut_box(looking, plate, first, box->part, box->one);
    cut_box(looking, plate, second, set ^ box->part, box->other);
}

static void keep_sharing(const struct looking *looking, unsigned all, struct nest_best *best) {
    best->cost = looking->sharing[all].least;
    best->offcut = 0;
    best->plates.count = 0;
    for (unsigned left = all; left; left ^= looking->sharing[left].part) {
        unsigned set = looking->sharing[left].part;
        const struct sharing *sharing = &looking->sharing[set];
        struct plate *plate = list_add(looking->arena, &best->plates);
        plate_start(looking->arena, plate, sharing->kind, &looking->problem->sheets[sharing->kind]);
        cut_box(looking, plate, 0, set, sharing->box);
    }
}

bool nest_exact(struct arena *arena, const struct nest_problem *problem, const rectangle_list *blanks,
                struct nest_best *best) {
    if (blanks->count > NEST_EXACT_MOST)
        return false;
    for (size_t kind = 0; kind < problem->sheet_count; kind++)
        if (problem->sheets[kind].limit)
            return false;
    struct looking *looking = ARENA_NEW(arena, struct looking);
    *looking = (struct looking){.arena = arena, .problem = problem, .blanks = blanks};
    unsigned all = (1u << blanks->count) - 1;
    for (unsigned set = 1; set <= all; set++) {
        find_boxes(looking, set);
        share(looking, set);
    }
    if (looking->sharing[all].least < best->cost)
        keep_sharing(looking, all, best);
    return true;
}
