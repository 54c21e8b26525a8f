/* What the edges and panels of a blank are called, written on it. */
#include "report/figure_blank.h"

#include <math.h>
#include <string.h>

static bool lies_in(const struct frame *frame, const struct solid_edge *edge) {
    for (size_t i = 0; i < edge->count; i++)
        if (fabs(space_dot(space_sub(edge->space[i], frame->origin), frame->along)) > same_mark)
            return false;
    return true;
}

/* Whether an edge that is no port's own lies in the plane of the near port, as that of a box whose end is closed round
 * the duct; the plate in the end itself has no such end. */
static bool is_toward_unit(const struct solid *solid, int index, const struct solid_edge *edge) {
    const struct solid_panel *panel = &solid->panels.at[index];
    if (solid->ports.count == 0 || solid->ports.at[0].use != PORT_USE_DUCT || !lies_in(&solid->ports.at[0].frame, edge))
        return false;
    for (size_t i = 0; i < panel->edges.count; i++)
        if (!lies_in(&solid->ports.at[0].frame, &panel->edges.at[i]))
            return true;
    return false;
}

/* As at bends: "up" comes toward the eye. */
static const char *const turn_words[] = {[TURN_FLAT] = "", [TURN_IN] = ", up", [TURN_OUT] = ", down"};

/* "toward the unit: S lip, left flat, 1/2 in", "pocket, 1 in, down", "throat". */
static const char *edge_words(const struct pattern *pattern, const struct blank_edge *edge) {
    const struct solid_edge *own = &pattern->part->solid->panels.at[edge->panel].edges.at[edge->edge];
    const char *name = own->name, *label = edge->label;
    if (!name && edge->join == JOIN_PORT)
        name = pattern->part->solid->ports.at[edge->port].name;
    if (!name && is_toward_unit(pattern->part->solid, edge->panel, own))
        name = pattern->part->solid->ports.at[0].name;
    if (label && edge->allowance > 0)
        label = arena_format(pattern->arena, "%s, %s%s", label, pattern_text(pattern, edge->allowance),
                             turn_words[edge->turn]);
    if (name && label)
        return arena_format(pattern->arena, "%s: %s", name, label);
    if (name || label)
        return name ? name : label;
    return edge->join == JOIN_SEAM ? "seam" : "free edge";
}

static double edge_span(const struct blank_edge *edge) {
    return flat_distance(edge->points[0], edge->points[edge->count - 1]);
}

/* Along a straight edge when there is room, else by a letter; at the middle of a curved one. */
static void name_edge(struct pattern *pattern, const struct blank_edge *edge, const char *words) {
    struct spot from = spot_of(edge->points[0]), to = spot_of(edge->points[edge->count - 1]);
    if (edge->shape != EDGE_LINE)
        from = to = spot_of(edge->points[edge->count / 2]);
    figure_label_briefly(pattern->figure, words, from, to, LETTER_SMALL);
}

/* The first edge whose words are not those of the edge before it, round the loop. */
static size_t first_named(const struct pattern *pattern) {
    const struct blank *blank = pattern->blank;
    for (size_t i = 1; i < blank->edges.count; i++)
        if (strcmp(edge_words(pattern, &blank->edges.at[i - 1]), edge_words(pattern, &blank->edges.at[i])) != 0)
            return i;
    return 0;
}

/* Neighbours with the same words are named once, at the longest. */
void pattern_edge_names(struct pattern *pattern) {
    size_t count = pattern->blank->edges.count, first = first_named(pattern);
    const struct blank_edge *longest = NULL;
    const char *said = NULL;
    for (size_t i = 0; i < count; i++) {
        const struct blank_edge *edge = &pattern->blank->edges.at[(first + i) % count];
        const char *words = edge_words(pattern, edge);
        if (said && strcmp(said, words) == 0) {
            longest = edge_span(edge) > edge_span(longest) ? edge : longest;
            continue;
        }
        if (said)
            name_edge(pattern, longest, said);
        longest = edge;
        said = words;
    }
    if (said)
        name_edge(pattern, longest, said);
}

/* Whether no other panel of the blank is called so. */
static bool has_own_name(const struct pattern *pattern, const struct solid_panel *panel) {
    const struct blank *blank = pattern->blank;
    size_t alike = 0;
    for (size_t i = 0; panel->name && i < blank->panels.count; i++) {
        const char *name = pattern->part->solid->panels.at[blank->panels.at[i].panel].name;
        alike += name && strcmp(name, panel->name) == 0;
    }
    return alike == 1;
}

/* The middle of a panel, or, where that is cut out, a place between it and a corner. */
static struct flat name_place(const struct pattern *pattern, const struct blank_panel *placed) {
    static const double aside = 0.75; /* of the way to the corner */
    const struct solid_panel *panel = &pattern->part->solid->panels.at[placed->panel];
    struct flat sum = {0, 0};
    for (size_t e = 0; e < panel->edges.count; e++)
        sum = flat_add(sum, panel->edges.at[e].flat[0]);
    struct flat middle = flat_scale(sum, 1 / fmax(1, (double)panel->edges.count));
    struct flat place = flat_add(placed->origin, flat_turn(middle, placed->turn));
    for (size_t e = 0; e < panel->edges.count && blank_is_open_at(pattern->blank, place); e++)
        place =
            flat_add(placed->origin, flat_turn(flat_between(middle, panel->edges.at[e].flat[0], aside), placed->turn));
    return place;
}

/* In the middle of each panel of several. */
void pattern_panel_names(struct pattern *pattern) {
    const struct blank *blank = pattern->blank;
    for (size_t i = 0; blank->panels.count > 1 && i < blank->panels.count; i++) {
        const struct blank_panel *placed = &blank->panels.at[i];
        const struct solid_panel *panel = &pattern->part->solid->panels.at[placed->panel];
        struct spot at = spot_of(name_place(pattern, placed));
        if (has_own_name(pattern, panel))
            figure_label_briefly(pattern->figure, panel->name, at, at, LETTER_PLAIN);
    }
}
