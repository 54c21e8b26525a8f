/* Sheets as trees of cuts: putting blanks in and clearing regions again. */
#include "metal/nest_plate.h"

#include <string.h>

/* ---- Nodes and holes --------------------------------------------------------------------------------------------- */

static int32_t new_node(struct arena *arena, struct plate *plate, int32_t up, nest_steps length, nest_steps width) {
    int32_t index = plate->unused;
    if (index != PLATE_NONE) {
        plate->unused = plate->nodes[index].up;
    } else {
        if (plate->node_count == plate->node_room) {
            int32_t room = 2 * plate->node_room + 16;
            plate->nodes = arena_resize(arena, plate->nodes, (size_t)plate->node_room * sizeof *plate->nodes,
                                        (size_t)room * sizeof *plate->nodes);
            plate->node_room = room;
        }
        index = plate->node_count++;
    }
    plate->nodes[index] = (struct plate_node){
        .length = length,
        .width = width,
        .up = up,
        .first = PLATE_NONE,
        .second = PLATE_NONE,
        .rectangle = PLATE_NONE,
        .hole = PLATE_NONE,
        .used = true,
    };
    return index;
}

static void drop_node(struct plate *plate, int32_t index) {
    plate->nodes[index].used = false;
    plate->nodes[index].up = plate->unused;
    plate->unused = index;
}

static void add_hole(struct arena *arena, struct plate *plate, int32_t node) {
    if (plate->hole_count == plate->hole_room) {
        int32_t room = 2 * plate->hole_room + 8;
        plate->holes = arena_resize(arena, plate->holes, (size_t)plate->hole_room * sizeof *plate->holes,
                                    (size_t)room * sizeof *plate->holes);
        plate->hole_room = room;
    }
    struct plate_node *at = &plate->nodes[node];
    at->hole = plate->hole_count;
    plate->holes[plate->hole_count++] = (struct plate_hole){at->length, at->width, node};
    plate->value += hole_value(at->length, at->width);
}

static void drop_hole(struct plate *plate, int32_t node) {
    struct plate_node *at = &plate->nodes[node];
    struct plate_hole last = plate->holes[--plate->hole_count];
    plate->holes[at->hole] = last;
    plate->nodes[last.node].hole = at->hole;
    at->hole = PLATE_NONE;
    plate->value -= hole_value(at->length, at->width);
}

static void find_largest_hole(struct plate *plate) {
    plate->largest_hole = 0;
    for (int32_t i = 0; i < plate->hole_count; i++) {
        int64_t area = (int64_t)plate->holes[i].length * plate->holes[i].width;
        if (area > plate->largest_hole)
            plate->largest_hole = area;
    }
}

void plate_start(struct arena *arena, struct plate *plate, int32_t sheet, const struct nest_sheet *kind) {
    plate->sheet = sheet;
    plate->node_count = plate->hole_count = plate->blank_count = 0;
    plate->unused = PLATE_NONE;
    plate->blank_area = 0;
    plate->value = 0;
    add_hole(arena, plate, new_node(arena, plate, PLATE_NONE, kind->length, kind->width));
    find_largest_hole(plate);
}

/* ---- Putting a blank in ------------------------------------------------------------------------------------------ */

/* Cuts `node`, a hole no more, at `at`; gives the first half.  The second is a hole. */
static int32_t cut(struct arena *arena, struct plate *plate, int32_t node, bool across, nest_steps at) {
    nest_steps length = plate->nodes[node].length, width = plate->nodes[node].width;
    int32_t first = new_node(arena, plate, node, across ? at : length, across ? width : at);
    int32_t second = new_node(arena, plate, node, across ? length - at : length, across ? width : width - at);
    plate->nodes[node].across = across;
    plate->nodes[node].first = first;
    plate->nodes[node].second = second;
    add_hole(arena, plate, second);
    return first;
}

void plate_put(struct arena *arena, struct plate *plate, const struct nest_rectangle *rectangles, int32_t rectangle,
               struct plate_spot spot) {
    const struct nest_rectangle *blank = &rectangles[rectangle];
    nest_steps length = spot.turned ? blank->width : blank->length;
    nest_steps width = spot.turned ? blank->length : blank->width;
    int32_t node = plate->holes[spot.hole].node;
    drop_hole(plate, node);
    for (int pass = 0; pass < 2; pass++) {
        bool across = (pass == 0) == spot.across;
        nest_steps at = across ? length : width;
        if (at < (across ? plate->nodes[node].length : plate->nodes[node].width))
            node = cut(arena, plate, node, across, at);
    }
    plate->nodes[node].rectangle = rectangle;
    plate->nodes[node].turned = spot.turned;
    plate->blank_count++;
    plate->blank_area += rectangle_area(blank);
    find_largest_hole(plate);
}

/* ---- Clearing ---------------------------------------------------------------------------------------------------- */

/* All below `top`, without recursion: the way down goes by `first`, the way up drops what was left. */
static void clear_below(struct plate *plate, const struct nest_rectangle *rectangles, struct arena *arena, int32_t top,
                        rectangle_list *out) {
    int32_t node = top;
    for (;;) {
        struct plate_node *at = &plate->nodes[node];
        int32_t below = at->first != PLATE_NONE ? at->first : at->second;
        if (below != PLATE_NONE) {
            node = below;
            continue;
        }
        if (at->rectangle != PLATE_NONE) {
            *list_add(arena, out) = at->rectangle;
            plate->blank_count--;
            plate->blank_area -= rectangle_area(&rectangles[at->rectangle]);
            at->rectangle = PLATE_NONE;
        }
        if (at->hole != PLATE_NONE)
            drop_hole(plate, node);
        if (node == top)
            return;
        struct plate_node *up = &plate->nodes[at->up];
        if (up->first == node)
            up->first = PLATE_NONE;
        else
            up->second = PLATE_NONE;
        int32_t left = node;
        node = at->up;
        drop_node(plate, left);
    }
}

void plate_clear(struct arena *arena, struct plate *plate, const struct nest_rectangle *rectangles, int32_t node,
                 rectangle_list *out) {
    clear_below(plate, rectangles, arena, node, out);
    while (plate->nodes[node].up != PLATE_NONE) {
        const struct plate_node *up = &plate->nodes[plate->nodes[node].up];
        int32_t other = up->first == node ? up->second : up->first;
        if (plate->nodes[other].hole == PLATE_NONE)
            break;
        node = plate->nodes[node].up;
        clear_below(plate, rectangles, arena, node, out);
    }
    add_hole(arena, plate, node);
    find_largest_hole(plate);
}

void plate_copy(struct arena *arena, struct plate *to, const struct plate *from) {
    struct plate_node *nodes = to->nodes;
    struct plate_hole *holes = to->holes;
    int32_t node_room = to->node_room, hole_room = to->hole_room;
    if (node_room < from->node_count)
        nodes = ARENA_ARRAY(arena, struct plate_node, (size_t)(node_room = from->node_room));
    if (hole_room < from->hole_count)
        holes = ARENA_ARRAY(arena, struct plate_hole, (size_t)(hole_room = from->hole_room));
    *to = *from;
    to->nodes = nodes;
    to->holes = holes;
    to->node_room = node_room;
    to->hole_room = hole_room;
    if (from->sheet == PLATE_NONE)
        return;
    memcpy(nodes, from->nodes, (size_t)from->node_count * sizeof *nodes);
    memcpy(holes, from->holes, (size_t)from->hole_count * sizeof *holes);
}
