/* Parts as they are hung, and what of them can be wrapped and sealed. */
#include "cost/count.h"

/* How many of the parts before `end` are of that piece, from the first on. */
static size_t parts_of(const struct hung_part *parts, const struct hung_part *end, const struct piece *piece) {
    const struct hung_part *next = parts;
    while (next < end && next->use->piece == piece)
        next++;
    return (size_t)(next - parts);
}

size_t pieces_as_hung(struct arena *arena, const struct metal *metal, const struct hung_piece **list) {
    const struct hung_part *part = metal->hung, *end = part + metal->pieces;
    size_t room = 0, count = 0, ready = 0;
    for (size_t r = 0; r < metal->runs.count; r++)
        room += metal->runs.at[r]->pieces.count + 1;
    struct hung_piece *all = ARENA_ARRAY(arena, struct hung_piece, room + 1);
    for (size_t r = 0; r < metal->runs.count; r++) {
        const struct run *run = metal->runs.at[r];
        for (size_t i = 0; i <= run->pieces.count; i++) {
            const struct piece *piece = i ? run->pieces.at[i - 1] : run->connect;
            if (!piece)
                continue;
            struct hung_piece hung = {run, piece, part, parts_of(part, end, piece), 0};
            part += hung.count;
            for (; ready < metal->ready.count && metal->ready.at[ready] == piece; ready++)
                hung.ready++;
            all[count++] = hung;
        }
    }
    *list = all;
    return count;
}

static double part_seams(const struct part *part) {
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

const struct part_measure *parts_measured(struct arena *arena, const struct metal *metal) {
    struct part_measure *all = ARENA_ARRAY(arena, struct part_measure, metal->parts.count + 1);
    for (size_t i = 0; i < metal->parts.count; i++)
        all[i] = (struct part_measure){metal->parts.at[i]->surface, part_seams(metal->parts.at[i])};
    return all;
}
