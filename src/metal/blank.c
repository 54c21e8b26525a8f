/* Blanks: panels laid flat together. */
#include "metal/blank.h"

#include <stdlib.h>
#include <string.h>

/* ---- Laying panels beside each other ----------------------------------------------------------------------------- */

/* A panel's place, with the sine and cosine that every point of it takes. */
struct placed {
    double cosine, sine;
};

struct laying {
    const struct solid *solid;
    struct arena *arena;
    double deduction;
    struct blank_panel *placed; /* by panel; .panel is NO_PANEL until it has a place */
    struct placed *turned;      /* by panel, once it has one */
    int *blank_of;              /* by panel */
    LIST(int) waiting;
};

static struct flat on_blank(const struct laying *laying, int panel, struct flat point) {
    const struct placed *turned = &laying->turned[panel];
    struct flat way = {point.x * turned->cosine - point.y * turned->sine,
                       point.x * turned->sine + point.y * turned->cosine};
    return flat_add(laying->placed[panel].origin, way);
}

static void place(struct laying *laying, int panel, struct blank_panel placed) {
    laying->placed[panel] = placed;
    laying->turned[panel] = (struct placed){cos(placed.turn), sin(placed.turn)};
}

static bool is_inner(const struct solid_edge *edge) {
    return edge->mate_panel != NO_PANEL && (edge->join == JOIN_BEND || edge->join == JOIN_SMOOTH);
}

static const struct solid_edge *edge_at(const struct solid *solid, int panel, int edge) {
    return &solid->panels.at[panel].edges.at[edge];
}

/* What the bend along an edge takes off. */
static double bend_takes(const struct laying *laying, int panel, int edge) {
    if (!(laying->deduction > 0) || edge_at(laying->solid, panel, edge)->join != JOIN_BEND)
        return 0;
    return laying->deduction * fabs(solid_bend(laying->solid, panel, edge)) / (PI / 2);
}

/* Puts a panel so that its edge lies on that of its neighbour, the other way round; nearer
 * by what the bend takes off. */
static struct blank_panel beside(const struct laying *laying, int panel, int edge) {
    const struct solid_edge *from = edge_at(laying->solid, panel, edge);
    const struct solid_edge *to = edge_at(laying->solid, from->mate_panel, from->mate_edge);
    struct flat begin = on_blank(laying, panel, from->flat[0]);
    struct flat end = on_blank(laying, panel, from->flat[from->count - 1]);
    struct flat way = flat_sub(begin, end), own = flat_sub(to->flat[to->count - 1], to->flat[0]);
    struct blank_panel beside = {.panel = from->mate_panel};
    beside.turn = atan2(flat_cross(own, way), flat_dot(own, way));
    struct flat inward = flat_scale(flat_right(flat_unit(flat_sub(end, begin))), -bend_takes(laying, panel, edge));
    beside.origin = flat_add(inward, flat_sub(end, flat_turn(to->flat[0], beside.turn)));
    return beside;
}

static void lay_neighbours(struct laying *laying, int panel) {
    const struct solid_panel *at = &laying->solid->panels.at[panel];
    for (size_t e = 0; e < at->edges.count; e++) {
        int mate = at->edges.at[e].mate_panel;
        if (!is_inner(&at->edges.at[e]) || laying->placed[mate].panel != NO_PANEL)
            continue;
        place(laying, mate, beside(laying, panel, (int)e));
        laying->blank_of[mate] = laying->blank_of[panel];
        *list_add(laying->arena, &laying->waiting) = mate;
    }
}

/* All panels that hang together with `first` by bends and smooth joins. */
static void lay_from(struct laying *laying, int first, int number) {
    place(laying, first, (struct blank_panel){.panel = first});
    laying->blank_of[first] = number;
    *list_add(laying->arena, &laying->waiting) = first;
    while (laying->waiting.count)
        lay_neighbours(laying, laying->waiting.at[--laying->waiting.count]);
}

/* ---- The net outline --------------------------------------------------------------------------------------------- */

/* The edge behind edge `e` of a panel on the border: past inner edges, over to the neighbours. */
static void next_border(const struct solid *solid, int *panel, int *edge) {
    for (;;) {
        const struct solid_panel *at = &solid->panels.at[*panel];
        *edge = (*edge + 1) % (int)at->edges.count;
        const struct solid_edge *next = &at->edges.at[*edge];
        if (!is_inner(next))
            return;
        *panel = next->mate_panel;
        *edge = next->mate_edge;
    }
}

static void add_border(const struct laying *laying, struct blank *blank, int panel, int edge) {
    const struct solid_edge *from = edge_at(laying->solid, panel, edge);
    struct blank_edge *to = list_add(laying->arena, &blank->edges);
    *to = (struct blank_edge){
        .shape = from->shape,
        .count = from->count,
        .points = ARENA_ARRAY(laying->arena, struct flat, from->count),
        .centre = on_blank(laying, panel, from->centre),
        .radius = from->radius,
        .sweep = from->sweep,
        .panel = panel,
        .edge = edge,
        .join = from->join,
        .port = from->port,
    };
    for (size_t i = 0; i < from->count; i++)
        to->points[i] = on_blank(laying, panel, from->flat[i]);
}

/* Some border edge of the blank; false when it has none. */
static bool first_border(const struct laying *laying, int number, int *panel, int *edge) {
    for (size_t p = 0; p < laying->solid->panels.count; p++)
        for (size_t e = 0; laying->blank_of[p] == number && e < laying->solid->panels.at[p].edges.count; e++)
            if (!is_inner(&laying->solid->panels.at[p].edges.at[e])) {
                *panel = (int)p;
                *edge = (int)e;
                return true;
            }
    return false;
}

/* What a bend takes off leaves the edges on either side of it past each other: they meet halfway. */
static void meet_halfway(struct blank *blank) {
    for (size_t i = 0; i < blank->edges.count; i++) {
        struct blank_edge *edge = &blank->edges.at[i], *next = &blank->edges.at[(i + 1) % blank->edges.count];
        struct flat *end = &edge->points[edge->count - 1];
        if (edge->panel != next->panel)
            *end = next->points[0] = flat_between(*end, next->points[0], 0.5);
    }
}

static void walk_border(const struct laying *laying, struct blank *blank, int number) {
    int panel, edge;
    if (!first_border(laying, number, &panel, &edge))
        return;
    int first_panel = panel, first_edge = edge;
    do {
        add_border(laying, blank, panel, edge);
        next_border(laying->solid, &panel, &edge);
    } while (panel != first_panel || edge != first_edge);
    if (laying->deduction > 0)
        meet_halfway(blank);
}

/* ---- What lies within -------------------------------------------------------------------------------------------- */

/* Each bend once: from the panel of the lower index. */
static void add_bends(const struct laying *laying, struct blank *blank, int panel) {
    const struct solid_panel *at = &laying->solid->panels.at[panel];
    for (size_t e = 0; e < at->edges.count; e++) {
        const struct solid_edge *edge = &at->edges.at[e];
        if (edge->join != JOIN_BEND || edge->mate_panel <= panel)
            continue;
        struct blank_bend *bend = list_add(laying->arena, &blank->bends);
        const struct solid_edge *mate = edge_at(laying->solid, edge->mate_panel, edge->mate_edge);
        bend->from = flat_between(on_blank(laying, panel, edge->flat[0]),
                                  on_blank(laying, edge->mate_panel, mate->flat[mate->count - 1]), 0.5);
        bend->to = flat_between(on_blank(laying, panel, edge->flat[edge->count - 1]),
                                on_blank(laying, edge->mate_panel, mate->flat[0]), 0.5);
        bend->angle = solid_bend(laying->solid, panel, (int)e);
        bend->name = laying->solid->panels.at[edge->mate_panel].name;
    }
}

static void add_openings(const struct laying *laying, struct blank *blank, int panel) {
    const struct solid_panel *at = &laying->solid->panels.at[panel];
    for (size_t i = 0; i < at->openings.count; i++) {
        const struct opening *from = &at->openings.at[i];
        struct blank_opening *to = list_add(laying->arena, &blank->openings);
        *to = (struct blank_opening){
            .count = from->count, .round = from->round, .radius = from->radius, .name = from->name};
        to->middle = on_blank(laying, panel, from->middle);
        to->points = ARENA_ARRAY(laying->arena, struct flat, from->count);
        for (size_t p = 0; p < from->count; p++)
            to->points[p] = on_blank(laying, panel, from->flat[p]);
    }
}

static void add_rulings(const struct laying *laying, struct blank *blank, int panel) {
    const struct solid_panel *at = &laying->solid->panels.at[panel];
    for (size_t i = 0; i < at->rulings; i++) {
        struct blank_ruling *ruling = list_add(laying->arena, &blank->rulings);
        ruling->from = on_blank(laying, panel, at->near_flat[i]);
        ruling->to = on_blank(laying, panel, at->far_flat[i]);
    }
}

/* Whether a seam of the blank joins it to itself: it goes all the way round. */
static bool goes_round(const struct laying *laying, int number) {
    for (size_t p = 0; p < laying->solid->panels.count; p++)
        for (size_t e = 0; laying->blank_of[p] == number && e < laying->solid->panels.at[p].edges.count; e++) {
            const struct solid_edge *edge = &laying->solid->panels.at[p].edges.at[e];
            if (edge->join == JOIN_SEAM && laying->blank_of[edge->mate_panel] == number)
                return true;
        }
    return false;
}

/* Of panels that all have one name that name; else by how far round it goes. */
static const char *name_of(const struct laying *laying, int number, int blanks) {
    const char *name = NULL;
    for (size_t p = 0; p < laying->solid->panels.count; p++) {
        const char *own = laying->solid->panels.at[p].name;
        if (laying->blank_of[p] != number)
            continue;
        if (name && strcmp(name, own) != 0)
            return goes_round(laying, number) ? "wrap" : blanks == 2 ? "half" : name;
        name = name ? name : own;
    }
    return name;
}

static void fill_blank(const struct laying *laying, struct blank *blank, int number) {
    walk_border(laying, blank, number);
    for (size_t p = 0; p < laying->solid->panels.count; p++) {
        if (laying->blank_of[p] != number)
            continue;
        const struct solid_panel *panel = &laying->solid->panels.at[p];
        *list_add(laying->arena, &blank->panels) = laying->placed[p];
        blank->net_area += panel_area(panel);
        add_bends(laying, blank, (int)p);
        add_openings(laying, blank, (int)p);
        add_rulings(laying, blank, (int)p);
    }
}

double blank_edge_length(const struct blank_edge *edge) {
    double length = 0;
    for (size_t i = 0; i + 1 < edge->count; i++)
        length += flat_distance(edge->points[i], edge->points[i + 1]);
    return length;
}

void solid_blanks(const struct solid *solid, double deduction, blank_list *blanks) {
    size_t count = solid->panels.count;
    struct laying laying = {
        .solid = solid,
        .arena = solid->arena,
        .deduction = deduction,
        .placed = ARENA_ARRAY(solid->arena, struct blank_panel, count + 1),
        .turned = ARENA_ARRAY(solid->arena, struct placed, count + 1),
        .blank_of = ARENA_ARRAY(solid->arena, int, count + 1),
    };
    for (size_t p = 0; p < count; p++)
        laying.placed[p].panel = NO_PANEL;
    int number = 0;
    for (size_t p = 0; p < count; p++)
        if (laying.placed[p].panel == NO_PANEL)
            lay_from(&laying, (int)p, number++);
    for (int i = 0; i < number; i++) {
        struct blank *blank = list_add(solid->arena, blanks);
        blank->quantity = 1;
        blank->name = name_of(&laying, i, number);
        fill_blank(&laying, blank, i);
    }
}
