/* Caps.  No air goes past the last tap, so a cap loses nothing. */
#include "metal/metal.h"
#include "metal/shape_box.h"
#include "model/lined.h"
#include "piece/common.h"
#include "piece/kinds.h"

/* A box closes its end itself. */
static bool on_box(const struct piece *piece) {
    const struct run *run = piece->run;
    size_t count = run->pieces.count;
    return count > 1 && run->pieces.at[count - 1] == piece && run->pieces.at[count - 2]->kind->body;
}

static void make(const struct piece *piece, struct making *making) {
    if (!piece->near || !size_known(piece->near->size) || on_box(piece))
        return;
    struct profile duct = profile_of(duct_metal(piece->near));
    struct arena *arena = making_scratch(making);
    make_part(making, &(struct order){
                          .title = arena_format(arena, "Cap, for %s duct",
                                                size_text(arena, making_job(making)->system, duct_metal(piece->near))),
                          .shape = "cap",
                          .build = shape_cap,
                          .size = &duct,
                          .size_bytes = sizeof duct,
                          .near = duct_metal(piece->near),
                          .far = duct_metal(piece->near),
                          .station = piece->station,
                      });
}

const struct piece_kind piece_cap = {
    .form =
        {
            .word = "cap",
            .places = IN_RUN,
            .meaning = "closes the end of a run that only taps leave",
            .example = "cap",
        },
    .title = "Cap",
    .traits = PIECE_ENDS_RUN | PIECE_IMPLIED_CAP,
    .make = make,
};
