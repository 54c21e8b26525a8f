/* A sheet's tree of cuts as the shop gets it: pushed together, so that what is left over is in few large pieces. */
#include "metal/nest_search.h"

/* A region of the plate, with the least box that its blanks need when they are pushed together. */
struct need {
    nest_steps length, width;
};

struct laying {
    struct arena *arena;
    const struct plate *plate;
    const struct nest_problem *problem;
    struct nest_layout *layout;
    struct need *needs; /* by node of the plate */
};

/* ---- What each region needs, from the leaves up ------------------------------------------------------------------ */

static nest_steps greater(nest_steps one, nest_steps other) {
    return one > other ? one : other;
}

static struct need need_of(const struct laying *laying, const struct plate_node *node) {
    if (node->rectangle != PLATE_NONE)
        return (struct need){node->length, node->width};
    if (node->first == PLATE_NONE)
        return (struct need){0, 0};
    struct need first = laying->needs[node->first], second = laying->needs[node->second];
    if (node->across)
        return (struct need){first.length + second.length, greater(first.width, second.width)};
    return (struct need){greater(first.length, second.length), first.width + second.width};
}

/* The nodes of the plate, each before what lies below it. */
static int32_t *downward(const struct laying *laying, int32_t *count) {
    const struct plate *plate = laying->plate;
    int32_t *order = ARENA_ARRAY(laying->arena, int32_t, (size_t)plate->node_count);
    *count = 0;
    order[(*count)++] = 0;
    for (int32_t i = 0; i < *count; i++) {
        const struct plate_node *node = &plate->nodes[order[i]];
        if (node->first == PLATE_NONE)
            continue;
        order[(*count)++] = node->first;
        order[(*count)++] = node->second;
    }
    return order;
}

static void find_needs(struct laying *laying) {
    int32_t count, *order = downward(laying, &count);
    laying->needs = ARENA_ARRAY(laying->arena, struct need, (size_t)laying->plate->node_count);
    while (count-- > 0)
        laying->needs[order[count]] = need_of(laying, &laying->plate->nodes[order[count]]);
}

/* ---- Regions of the layout, from the sheet down ------------------------------------------------------------------ */

/* Of the layout, to be filled with what a region of the plate holds; PLATE_NONE: with nothing. */
struct waiting {
    struct nest_node region;
    int32_t from;
    size_t up;    /* the cut it comes from */
    bool second;  /* of that cut */
};

typedef LIST(struct waiting) waiting_list;

static bool is_kept(const struct nest_problem *problem, const struct nest_node *node) {
    nest_steps length = problem->keep_length, width = problem->keep_width;
    return length > 0 && width > 0 &&
           ((node->length >= length && node->width >= width) || (node->length >= width && node->width >= length));
}

/* The two halves wait, the first to be taken up first. */
static void wait_for_halves(struct laying *laying, waiting_list *waiting, struct nest_node region, bool across,
                            nest_steps at, int32_t first_from, int32_t second_from) {
    struct nest_node first = region, second = region;
    size_t up = laying->layout->nodes.count;
    if (across) {
        first.length = at;
        second.x += at;
        second.length -= at;
    } else {
        first.width = at;
        second.y += at;
        second.width -= at;
    }
    region.kind = NEST_CUT;
    region.across = across;
    region.at = at;
    *list_add(laying->arena, &laying->layout->nodes) = region;
    laying->layout->cut_count++;
    *list_add(laying->arena, waiting) = (struct waiting){second, second_from, up, true};
    *list_add(laying->arena, waiting) = (struct waiting){first, first_from, up, false};
}

static void add_leaf(struct laying *laying, struct nest_node region, int32_t from) {
    struct nest_layout *layout = laying->layout;
    if (from == PLATE_NONE) {
        region.kind = is_kept(laying->problem, &region) ? NEST_KEPT : NEST_OFFCUT;
    } else {
        const struct plate_node *node = &laying->plate->nodes[from];
        region.kind = NEST_BLANK;
        region.rectangle = (size_t)node->rectangle;
        region.turned = node->turned;
        layout->blank_count++;
        layout->blank_area += (int64_t)region.length * region.width;
    }
    *list_add(laying->arena, &layout->nodes) = region;
}

/* Which of the two strips beside what is needed is cut off whole: the one that leaves the larger rectangle. */
static bool spare_across(struct nest_node region, struct need need) {
    int64_t beside = (int64_t)(region.length - need.length) * region.width;
    int64_t above = (int64_t)(region.width - need.width) * region.length;
    return beside >= above;
}

/* Past the cuts of the plate that part blanks from nothing. */
static int32_t parting(const struct laying *laying, int32_t from) {
    while (from != PLATE_NONE && laying->plate->nodes[from].first != PLATE_NONE) {
        const struct plate_node *node = &laying->plate->nodes[from];
        bool first = laying->needs[node->first].length > 0, second = laying->needs[node->second].length > 0;
        if (first && second)
            break;
        from = first ? node->first : node->second;
    }
    return from;
}

/* What is spare is cut off first; then the plate's own cut is made. */
static void lay(struct laying *laying, waiting_list *waiting, struct nest_node region, int32_t from) {
    from = parting(laying, from);
    struct need need = from == PLATE_NONE ? (struct need){0, 0} : laying->needs[from];
    if (!need.length) {
        add_leaf(laying, region, PLATE_NONE);
        return;
    }
    if (region.length > need.length || region.width > need.width) {
        bool across = spare_across(region, need);
        wait_for_halves(laying, waiting, region, across, across ? need.length : need.width, from, PLATE_NONE);
        return;
    }
    const struct plate_node *node = &laying->plate->nodes[from];
    if (node->rectangle != PLATE_NONE) {
        add_leaf(laying, region, from);
        return;
    }
    struct need first = laying->needs[node->first];
    wait_for_halves(laying, waiting, region, node->across, node->across ? first.length : first.width, node->first,
                    node->second);
}

void plate_layout(struct arena *arena, const struct plate *plate, const struct nest_problem *problem,
                  struct nest_layout *layout) {
    struct laying laying = {.arena = arena, .plate = plate, .problem = problem, .layout = layout};
    const struct nest_sheet *sheet = &problem->sheets[plate->sheet];
    waiting_list waiting = {0};
    *layout = (struct nest_layout){.sheet = (size_t)plate->sheet, .times = 1};
    find_needs(&laying);
    *list_add(arena, &waiting) = (struct waiting){.region = {.length = sheet->length, .width = sheet->width}};
    while (waiting.count) {
        struct waiting next = waiting.at[--waiting.count];
        size_t index = layout->nodes.count;
        lay(&laying, &waiting, next.region, next.from);
        if (!index)
            continue;
        if (next.second)
            layout->nodes.at[next.up].second = index;
        else
            layout->nodes.at[next.up].first = index;
    }
}

/* ---- What is left over -------------------------------------------------------------------------------------------- */

static int64_t area_of(nest_steps length, nest_steps width) {
    return (int64_t)length * width;
}

static int64_t plate_offcut(const struct plate *plate, const struct nest_problem *problem, struct arena *scratch) {
    struct laying laying = {.arena = scratch, .plate = plate, .problem = problem};
    const struct nest_sheet *sheet = &problem->sheets[plate->sheet];
    find_needs(&laying);
    struct need need = laying.needs[0];
    int64_t beside = area_of(sheet->length - need.length, sheet->width);
    int64_t above = area_of(sheet->length, sheet->width - need.width);
    int64_t spare = beside > above ? beside : above;
    return spare > plate->largest_hole ? spare : plate->largest_hole;
}

int64_t pack_offcut(const struct pack *pack, struct arena *scratch) {
    int64_t largest = 0;
    for (size_t i = 0; i < pack->plates.count; i++) {
        if (pack->plates.at[i].sheet == PLATE_NONE)
            continue;
        int64_t offcut = plate_offcut(&pack->plates.at[i], pack->problem, scratch);
        if (offcut > largest)
            largest = offcut;
    }
    return largest;
}
