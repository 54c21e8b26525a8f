/* A sheet's tree of cuts as the shop gets it: pushed together, so that what is left over is in few large pieces. */
#include <stdlib.h>

#include "metal/nest_search.h"

/* The least box that the blanks of a region need when they are pushed together, and the first of them by number. */
struct need {
    nest_steps length, width;
    int32_t rectangle;
};

/* Regions side by side (or one above the other), in any order; one alone has no direction. */
struct row {
    const int32_t *members; /* nodes of the plate */
    size_t count;
    bool across; /* the cuts between them */
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
        return (struct need){node->length, node->width, node->rectangle};
    if (node->first == PLATE_NONE)
        return (struct need){0, 0, INT32_MAX};
    struct need first = laying->needs[node->first], second = laying->needs[node->second];
    int32_t rectangle = first.rectangle < second.rectangle ? first.rectangle : second.rectangle;
    if (node->across)
        return (struct need){first.length + second.length, greater(first.width, second.width), rectangle};
    return (struct need){greater(first.length, second.length), first.width + second.width, rectangle};
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

/* ---- Rows -------------------------------------------------------------------------------------------------------- */

/* Past the cuts of the plate that part blanks from nothing. */
static int32_t parting(const struct laying *laying, int32_t from) {
    while (laying->plate->nodes[from].first != PLATE_NONE) {
        const struct plate_node *node = &laying->plate->nodes[from];
        bool first = laying->needs[node->first].length > 0, second = laying->needs[node->second].length > 0;
        if (first && second)
            break;
        from = first ? node->first : node->second;
    }
    return from;
}

struct member {
    nest_steps beside, along; /* across the row, and along it */
    int32_t rectangle, node;
};

/* Those that need as much across the row together, so that what is spare beside them is cut off in one piece; alike
 * ones together, so that the same cut is made again; and equal rows in equal order. */
static int largest_first(const void *left, const void *right) {
    const struct member *a = left, *b = right;
    if (a->beside != b->beside)
        return a->beside > b->beside ? -1 : 1;
    if (a->along != b->along)
        return a->along > b->along ? -1 : 1;
    if (a->rectangle != b->rectangle)
        return a->rectangle < b->rectangle ? -1 : 1;
    return (a->node > b->node) - (a->node < b->node);
}

typedef LIST(struct member) member_list;

/* All that cuts of one direction part, however they are nested in each other. */
static void find_members(const struct laying *laying, int32_t from, bool across, member_list *members) {
    LIST(int32_t) waiting = {0};
    *list_add(laying->arena, &waiting) = from;
    while (waiting.count) {
        int32_t index = parting(laying, waiting.at[--waiting.count]);
        const struct plate_node *node = &laying->plate->nodes[index];
        if (node->first != PLATE_NONE && node->across == across) {
            *list_add(laying->arena, &waiting) = node->second;
            *list_add(laying->arena, &waiting) = node->first;
            continue;
        }
        struct need need = laying->needs[index];
        *list_add(laying->arena, members) = (struct member){
            .beside = across ? need.width : need.length,
            .along = across ? need.length : need.width,
            .rectangle = need.rectangle,
            .node = index,
        };
    }
}

static struct row row_of(const struct laying *laying, int32_t from) {
    bool across = laying->plate->nodes[from].across;
    member_list members = {0};
    find_members(laying, from, across, &members);
    if (members.count)
        qsort(members.at, members.count, sizeof *members.at, largest_first);
    int32_t *nodes = ARENA_ARRAY(laying->arena, int32_t, members.count);
    for (size_t i = 0; i < members.count; i++)
        nodes[i] = members.at[i].node;
    return (struct row){nodes, members.count, across};
}

static struct need row_need(const struct laying *laying, const struct row *row) {
    struct need all = {0};
    for (size_t i = 0; i < row->count; i++) {
        struct need need = laying->needs[row->members[i]];
        all.length = row->across ? all.length + need.length : greater(all.length, need.length);
        all.width = row->across ? greater(all.width, need.width) : all.width + need.width;
    }
    return all;
}

static nest_steps beside(const struct laying *laying, const struct row *row, size_t i) {
    struct need need = laying->needs[row->members[i]];
    return row->across ? need.width : need.length;
}

/* How many come first: those that need as much as the first does; one of them, when all do. */
static size_t first_part(const struct laying *laying, const struct row *row) {
    size_t count = 1;
    while (count < row->count && beside(laying, row, count) == beside(laying, row, 0))
        count++;
    return count < row->count ? count : 1;
}

static struct row part_of(const struct row *row, size_t from, size_t to) {
    return (struct row){row->members + from, to - from, row->across};
}

/* ---- Regions of the layout, from the sheet down ------------------------------------------------------------------ */

/* Of the layout, to be filled with a row of the plate; an empty one: with nothing. */
struct waiting {
    struct nest_node region;
    struct row row;
    size_t up;   /* the cut it comes from */
    bool second; /* of that cut */
};

typedef LIST(struct waiting) waiting_list;

static bool is_kept(const struct nest_problem *problem, const struct nest_node *node) {
    nest_steps length = problem->keep_length, width = problem->keep_width;
    return length > 0 && width > 0 &&
           ((node->length >= length && node->width >= width) || (node->length >= width && node->width >= length));
}

/* The two halves wait, the first to be taken up first. */
static void wait_for_halves(struct laying *laying, waiting_list *waiting, struct nest_node region, bool across,
                            nest_steps at, struct row first_row, struct row second_row) {
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
    *list_add(laying->arena, waiting) = (struct waiting){second, second_row, up, true};
    *list_add(laying->arena, waiting) = (struct waiting){first, first_row, up, false};
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

/* What is spare is cut off first; then the row is parted, and what stands alone is taken up by itself. */
static void lay(struct laying *laying, waiting_list *waiting, struct nest_node region, struct row row) {
    struct need need = row_need(laying, &row);
    if (!row.count) {
        add_leaf(laying, region, PLATE_NONE);
        return;
    }
    if (region.length > need.length || region.width > need.width) {
        bool across = spare_across(region, need);
        wait_for_halves(laying, waiting, region, across, across ? need.length : need.width, row, (struct row){0});
        return;
    }
    if (row.count == 1 && laying->plate->nodes[row.members[0]].rectangle != PLATE_NONE) {
        add_leaf(laying, region, row.members[0]);
        return;
    }
    if (row.count == 1)
        row = row_of(laying, row.members[0]);
    size_t count = first_part(laying, &row);
    struct row first = part_of(&row, 0, count), second = part_of(&row, count, row.count);
    need = row_need(laying, &first);
    wait_for_halves(laying, waiting, region, row.across, row.across ? need.length : need.width, first, second);
}

void plate_layout(struct arena *arena, const struct plate *plate, const struct nest_problem *problem,
                  struct nest_layout *layout) {
    struct laying laying = {.arena = arena, .plate = plate, .problem = problem, .layout = layout};
    const struct nest_sheet *sheet = &problem->sheets[plate->sheet];
    waiting_list waiting = {0};
    *layout = (struct nest_layout){.sheet = (size_t)plate->sheet, .times = 1};
    find_needs(&laying);
    int32_t whole = parting(&laying, 0);
    *list_add(arena, &waiting) =
        (struct waiting){.region = {.length = sheet->length, .width = sheet->width}, .row = {&whole, 1, false}};
    while (waiting.count) {
        struct waiting next = waiting.at[--waiting.count];
        size_t index = layout->nodes.count;
        lay(&laying, &waiting, next.region, next.row);
        if (!index)
            continue;
        if (next.second)
            layout->nodes.at[next.up].second = index;
        else
            layout->nodes.at[next.up].first = index;
    }
}

/* A blank that is cut off comes right behind its cut, and what is left right behind that. */
size_t nest_alike_cuts(const struct nest_layout *layout, size_t node) {
    const struct nest_node *nodes = layout->nodes.at, *cut = &nodes[node];
    const struct nest_node *blank = &nodes[cut->first];
    size_t count = 1;
    while (blank->kind == NEST_BLANK) {
        const struct nest_node *next = &nodes[node + 2 * count];
        if (next->kind != NEST_CUT || next->across != cut->across || next->at != cut->at ||
            nodes[next->first].kind != NEST_BLANK || nodes[next->first].rectangle != blank->rectangle)
            break;
        count++;
    }
    return count;
}

/* ---- What is left over ------------------------------------------------------------------------------------------- */

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
