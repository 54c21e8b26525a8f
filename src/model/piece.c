/* What a piece does, asked of its kind. */
#include "model/piece.h"

#include <assert.h>

const struct piece_kind *piece_kind_with(const struct piece_table *table, unsigned traits) {
    for (size_t i = 0; i < table->count; i++)
        if (table->kinds[i]->traits & traits)
            return table->kinds[i];
    assert(false && "every trait that the passes ask for has its kind in the table");
    return NULL;
}

double piece_insulation(const struct piece *piece, const struct run *run) {
    double own = piece->kind->insulation ? piece->kind->insulation(piece) : -1;
    return own < 0 ? run->settings.insulation : own;
}

bool piece_resizes(const struct piece *piece) {
    return piece->kind->resizes ? piece->kind->resizes(piece) : (piece->kind->traits & PIECE_RESIZES) != 0;
}
