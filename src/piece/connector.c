/* Flexible connectors, of canvas or the like, that keep a unit's shaking out of the duct. */
#include "metal/metal.h"
#include "model/lined.h"
#include "piece/common.h"
#include "piece/kinds.h"

enum { LENGTH };

static const struct sense length_sense = {
    .low = MORE_THAN_NOTHING,
    .high = 3 * FOOT, /* common practice, no source */
    .expected = "a length of more than 0, 3 ft (914 mm) at most",
    .hint = "connector 4 in",
};

static void prepare(struct piece *piece, struct diagnostics *diagnostics) {
    if (piece_sensible(piece, diagnostics, LENGTH, &length_sense))
        piece->length = piece_number(piece, LENGTH, 0);
}

/* No relation; as flexible duct that is pulled straight.  Not a PIECE_LENGTH: nothing is tapped into canvas. */
static void loss(const struct piece_flow *flow, struct loss *loss) {
    struct piece_flow canvas = *flow;
    canvas.roughness = air_flex_roughness();
    loss_add_friction(loss, stream_friction(&canvas, flow->far, piece_number(flow->piece, LENGTH, 0)));
    loss->source = SOURCE_NEAREST_FLEX;
}

/* What the canvas laps over itself: common practice, no source. */
static const double lap = 1 * INCH;

/* Canvas is bought by its width, which is the connector's length, and cut to the girth. */
static void make(const struct piece *piece, struct making *making) {
    if (!piece->far || !size_known(piece->far->size))
        return;
    struct arena *arena = making_scratch(making);
    const char *width = measure_text(arena, making_job(making)->system, SHOW_SIZE, piece->length);
    const char *figure = measure_figure(arena, making_job(making)->system, SHOW_SIZE, piece->length);
    make_bought(making, &(struct purchase){
                            .item = "canvas_connector",
                            .key = arena_format(arena, "canvas_connector %s", figure),
                            .title = arena_format(arena, "Canvas for flexible connectors, %s wide", width),
                            .length = size_perimeter(duct_metal(piece->far)) + lap,
                        });
}

const struct piece_kind piece_connector = {
    .form =
        {
            .word = "connector",
            .places = IN_ANY_RUN,
            .slots =
                {
                    [LENGTH] = {.kind = SLOT_QUANTITY,
                                .use = SLOT_REQUIRED,
                                .measure = MEASURE_LENGTH,
                                .meaning = "how long it is"},
                },
            .meaning = "a flexible (canvas) connector",
            .example = "connector 4 in",
        },
    .title = "Flexible connector",
    .traits = PIECE_SOFT | PIECE_SQUARE,
    .prepare = prepare,
    .make = make,
    .loss = loss,
};
