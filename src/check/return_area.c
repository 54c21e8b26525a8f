/* Air velocity at return grilles and filters. */
#include "check/checks.h"

void check_return_area(const struct look *look) {
    for (size_t i = 0; i < look->job->runs.count; i++) {
        const struct run *run = look->job->runs.at[i];
        for (size_t k = 0; k < run->pieces.count; k++) {
            const struct piece *piece = run->pieces.at[k];
            unsigned traits = piece->kind->traits;
            if (piece->kind->face && traits & (PIECE_INLET | PIECE_FILTER))
                check_face(look, piece, traits & PIECE_FILTER ? FACE_FILTER : FACE_GRILLE);
        }
    }
}

const char *return_area_limit(struct arena *arena) {
    const struct velocity_guide *grille = face_guide(FACE_GRILLE), *filter = face_guide(FACE_FILTER);
    return arena_format(arena, "%s at the face of %s, %s of %s", check_both(arena, SHOW_VELOCITY, grille->limit),
                        grille->name, check_both(arena, SHOW_VELOCITY, filter->limit), filter->name);
}
