/* Straight duct. */
#include "piece/common.h"
#include "piece/kinds.h"

enum { LENGTH };

static const struct sense length_sense = {
    .low = MORE_THAN_NOTHING,
    .high = 10000 * FOOT, /* catches a slip of the unit; common practice, no source */
    .expected = "a length of more than 0, 10000 ft (3048 m) at most",
    .hint = "straight 16 ft",
};

static void prepare(struct piece *piece, struct diagnostics *diagnostics) {
    if (piece_sensible(piece, diagnostics, LENGTH, &length_sense))
        piece->length = piece_number(piece, LENGTH, 0);
}

const struct piece_kind piece_straight = {
    .form =
        {
            .word = "straight",
            .places = IN_ANY_RUN,
            .slots =
                {
                    [LENGTH] = {.kind = SLOT_QUANTITY,
                                .use = SLOT_REQUIRED,
                                .measure = MEASURE_LENGTH,
                                .meaning = "how long it is"},
                },
            .meaning = "straight duct",
            .example = "straight 16 ft",
        },
    .title = "Straight duct",
    .traits = PIECE_LENGTH | PIECE_TAKES_TAPS,
    .prepare = prepare,
};
