/* Filters, and grilles that hold one.  The drop has in it what the air loses by entering the face from the room. */
#include "piece/common.h"
#include "piece/kinds.h"

/* Where the job gives none, at the design airflow: common practice, no source. */
static const double assumed_drop = 0.10 * INCH_OF_WATER;

enum { LOADED = FACE_FLOW + 1 };

static const char example[] = "filter 20 x 25 x 1, 0.12 in.wg at 1200 cfm";

static const struct sense loaded_sense = {
    .low = 0,
    .high = 5 * INCH_OF_WATER, /* common practice, no source */
    .expected = "a drop of 0 to 5 in.wg (1245 Pa)",
    .hint = "filter 20 x 25 x 1, 0.12 in.wg at 1200 cfm, loaded 0.30 in.wg",
};

static void prepare(struct piece *piece, struct diagnostics *diagnostics) {
    face_prepare(piece, diagnostics, 3);
    if (piece->reading.faulty || !piece_sensible(piece, diagnostics, LOADED, &loaded_sense))
        return;
    if (piece_given(piece, LOADED) && piece_number(piece, LOADED, 0) < piece_number(piece, FACE_PRESSURE, assumed_drop))
        piece_error(piece, diagnostics, piece_argument(piece, LOADED)->at, loaded_sense.hint,
                    "a filter full of dust takes more than a clean one");
}

static void loss(const struct piece_flow *flow, struct loss *loss) {
    if (flow->loaded && piece_given(flow->piece, LOADED))
        loss_drop(flow, loss, piece_number(flow->piece, LOADED, 0), piece_number(flow->piece, FACE_FLOW, 0),
                  SOURCE_DECLARED_DROP);
    else
        face_loss(flow, loss, assumed_drop);
}

const struct piece_kind piece_filter = {
    .form =
        {
            .word = "filter",
            .places = IN_INLET,
            .slots =
                {
                    FACE_SLOTS("the size of its face, and how thick it is"),
                    [LOADED] = {.kind = SLOT_QUANTITY,
                                .key = "loaded",
                                .measure = MEASURE_PRESSURE,
                                .meaning = "what it takes when it is full of dust, at the same airflow"},
                },
            .meaning = "a filter at an inlet, alone or with a grille; 0.10 in.wg is assumed when it does not say",
            .example = example,
        },
    .title = "Filter",
    .traits = PIECE_INLET | PIECE_FILTER | PIECE_ENDS_RUN | PIECE_SQUARE,
    .prepare = prepare,
    .loss = loss,
    .describe = face_describe,
    .make = make_face,
    .face = face_size,
};
