/* Filters, and grilles that hold one.  The drop has in it what the air loses by entering the face from the room. */
#include "piece/common.h"
#include "piece/kinds.h"

/* Where the job gives none, at the design airflow: common practice, no source. */
static const double assumed_drop = 0.10 * INCH_OF_WATER;

static void prepare(struct piece *piece, struct diagnostics *diagnostics) {
    face_prepare(piece, diagnostics, 3);
}

static void loss(const struct piece_flow *flow, struct loss *loss) {
    face_loss(flow, loss, assumed_drop);
}

const struct piece_kind piece_filter = {
    .form =
        {
            .word = "filter",
            .places = IN_INLET,
            .slots = FACE_SLOTS("the size of its face, and how thick it is"),
            .meaning = "a filter at an inlet, alone or with a grille; 0.10 in.wg is assumed when it does not say",
            .example = "filter 20 x 25 x 1, 0.12 in.wg at 1200 cfm",
        },
    .title = "Filter",
    .traits = PIECE_INLET | PIECE_FILTER | PIECE_ENDS_RUN | PIECE_SQUARE,
    .prepare = prepare,
    .loss = loss,
    .describe = face_describe,
    .make = make_as_bought,
    .face = face_size,
};
