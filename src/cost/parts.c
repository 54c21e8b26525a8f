/* Parts as they are hung, and what of them can be wrapped and sealed. */
#include "cost/count.h"

struct hung_part *parts_as_hung(struct arena *arena, const struct metal *metal) {
    struct hung_part *all = ARENA_ARRAY(arena, struct hung_part, metal->pieces + 1);
    for (size_t i = 0; i < metal->parts.count; i++)
        for (size_t u = 0; u < metal->parts.at[i]->uses.count; u++) {
            const struct part_use *use = &metal->parts.at[i]->uses.at[u];
            all[use->hung - 1] = (struct hung_part){.part = metal->parts.at[i], .use = use};
        }
    return all;
}

double part_surface(const struct part *part) {
    const struct solid *solid = part->solid;
    if (solid->ports.count == 0)
        return 0;
    double area = 0;
    for (size_t p = 0; p < solid->panels.count; p++) {
        area += panel_area(&solid->panels.at[p]);
        for (size_t i = 0; i < solid->panels.at[p].openings.count; i++)
            area -= opening_area(&solid->panels.at[p].openings.at[i]);
    }
    return area;
}

double part_seams(const struct part *part) {
    const struct solid *solid = part->solid;
    double length = 0;
    for (size_t p = 0; p < solid->panels.count; p++)
        for (size_t e = 0; e < solid->panels.at[p].edges.count; e++) {
            const struct solid_edge *edge = &solid->panels.at[p].edges.at[e];
            bool first = edge->mate_panel > (int)p || (edge->mate_panel == (int)p && edge->mate_edge > (int)e);
            if (edge->join == JOIN_SEAM && first)
                length += edge_length(edge);
        }
    return length;
}
