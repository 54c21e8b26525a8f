/* Registers: where supply air enters a room.  The drop has in it what the air loses by
 * leaving the face into the room. */
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

const struct piece_kind piece_register = {
    .form =
        {
            .word = "register",
            .places = IN_OUTLET,
            .slots = {FACE_SLOTS("the size of its face")},
            .meaning = "the air terminal of an outlet; 0.03 in.wg is assumed when it does not say",
            .example = "register 10 x 6, 0.03 in.wg at 140 cfm",
        },
    .title = "Register",
    .traits = PIECE_OUTLET | PIECE_ENDS_RUN | PIECE_SQUARE,
    .prepare = prepare,
    .loss = loss,
    .describe = face_describe,
    .make = make_face,
    .face = face_size,
};
