/* Grilles: where return air leaves a room.  The drop has in it what the air loses by
 * entering the face from the room. */
#include "piece/common.h"
#include "piece/kinds.h"

/* Where the job gives none, at the design airflow: common practice, no source. */
static const double assumed_drop = 0.03 * INCH_OF_WATER;

static void prepare(struct piece *piece, struct diagnostics *diagnostics) {
    face_prepare(piece, diagnostics, 2);
}

static void loss(const struct piece_flow *flow, struct loss *loss) {
    face_loss(flow, loss, assumed_drop);
}

const struct piece_kind piece_grille = {
    .form =
        {
            .word = "grille",
            .places = IN_INLET,
            .slots = {FACE_SLOTS("the size of its face")},
            .meaning = "the air terminal of an inlet; 0.03 in.wg is assumed when it does not say",
            .example = "grille 20 x 14, 0.03 in.wg at 600 cfm",
        },
    .title = "Grille",
    .traits = PIECE_INLET | PIECE_ENDS_RUN | PIECE_SQUARE,
    .prepare = prepare,
    .loss = loss,
    .describe = face_describe,
    .make = make_face,
    .face = face_size,
};
