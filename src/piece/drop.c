/* A piece that is none of the others: the job gives its drop. */
#include "piece/common.h"
#include "piece/kinds.h"

enum { LABEL, PRESSURE, FLOW };

static const char example[] = "drop \"fire-rated grille\" 0.05 in.wg at 400 cfm";

static const struct sense pressure_sense = {
    .low = 0,
    .high = 20 * INCH_OF_WATER, /* common practice, no source */
    .expected = "a drop of 0 to 20 in.wg (4977 Pa)",
    .hint = example,
};

static const struct sense flow_sense = {
    .low = 1e-6,
    .high = 500, /* common practice, no source */
    .expected = "an airflow of more than 0, a million cfm (500 m3/s) at most",
    .hint = example,
};

static void prepare(struct piece *piece, struct diagnostics *diagnostics) {
    if (piece_sensible(piece, diagnostics, PRESSURE, &pressure_sense))
        piece_sensible(piece, diagnostics, FLOW, &flow_sense);
}

static void loss(const struct piece_flow *flow, struct loss *loss) {
    loss_drop(flow, loss, piece_number(flow->piece, PRESSURE, 0), piece_number(flow->piece, FLOW, 0),
              SOURCE_DECLARED_DROP);
}

static const char *describe(const struct piece *piece, enum measure_system system, struct arena *arena) {
    (void)system;
    (void)arena;
    return piece_given(piece, LABEL) ? piece_argument(piece, LABEL)->text : piece->kind->title;
}

/* What it is the job alone knows: it is priced by its label. */
static void make(const struct piece *piece, struct making *making) {
    make_bought(making, &(struct purchase){.item = "other", .title = made_words(piece, making)});
}

const struct piece_kind piece_drop = {
    .form =
        {
            .word = "drop",
            .places = IN_ANY_RUN,
            .slots =
                {
                    [LABEL] = {.kind = SLOT_TEXT, .use = SLOT_REQUIRED, .meaning = "what takes it, in quotes"},
                    [PRESSURE] = {.kind = SLOT_QUANTITY,
                                  .use = SLOT_REQUIRED,
                                  .measure = MEASURE_PRESSURE,
                                  .meaning = "how much pressure it takes"},
                    [FLOW] = {.kind = SLOT_QUANTITY,
                              .key = "at",
                              .measure = MEASURE_FLOW,
                              .meaning = "the airflow at which it takes so much"},
                },
            .meaning = "an odd piece with a known drop; it goes with the square of the airflow",
            .example = example,
        },
    .title = "Drop",
    .traits = PIECE_SQUARE,
    .prepare = prepare,
    .loss = loss,
    .describe = describe,
    .make = make,
};
