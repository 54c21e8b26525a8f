/* Plenum boxes. */
#include "piece/common.h"
#include "piece/kinds.h"

#include <math.h>

enum { SIZE };

static const char example[] = "box 20 x 20 x 24";

static void prepare(struct piece *piece, struct diagnostics *diagnostics) {
    const struct argument *size = piece_argument(piece, SIZE);
    if (!piece_size_sensible(piece, diagnostics, SIZE, 3, example))
        return;
    if (size->given && (size->count != 3 || size->text)) {
        piece_error(piece, diagnostics, size->at, example, "expected the box's width, height and length");
        return;
    }
    piece->length = size->given ? size->point[2] : 0;
}

static struct duct_size body(const struct piece *piece) {
    struct duct_size size = piece_size(piece, SIZE);
    size.shape = SHAPE_RECTANGULAR;
    return size;
}

/* Nearest relation: an abrupt enlargement into the box, an abrupt contraction out of it, both on the duct's velocity,
 * at the ends that the air passes here. */
static void loss(const struct piece_flow *flow, struct loss *loss) {
    struct duct_size size = body(flow->piece);
    if (stream_still(flow->far) || !size_known(size))
        return;
    bool in = flow->supply ? !flow->skips_near : !flow->skips_far;
    bool out = flow->supply ? !flow->skips_far : !flow->skips_near;
    double ratio = size_area(flow->far.size) / size_area(size);
    struct coefficient sum = {.outside = ratio > 1 ? "a box no smaller than its duct" : NULL};
    if (in)
        sum.value += fitting_abrupt_expansion(fmin(ratio, 1)).value;
    if (out)
        sum.value += fitting_abrupt_contraction(fmin(ratio, 1)).value;
    loss_set(loss, sum, stream_pressure(flow->air, flow->far), "duct", SOURCE_NEAREST_BOX);
}

static const char *describe(const struct piece *piece, enum measure_system system, struct arena *arena) {
    const char *size = piece_size_words(piece, SIZE, system, arena);
    return size ? arena_format(arena, "Plenum box, %s", size) : piece->kind->title;
}

const struct piece_kind piece_box = {
    .form =
        {
            .word = "box",
            .places = IN_ANY_RUN,
            .slots =
                {
                    [SIZE] = {.kind = SLOT_SIZE, .use = SLOT_REQUIRED, .meaning = "its width, height and length"},
                },
            .meaning = "a plenum box, width x height x length",
            .example = example,
        },
    .title = "Plenum box",
    .traits = PIECE_TAKES_TAPS | PIECE_FITS_FACE,
    .prepare = prepare,
    .loss = loss,
    .body = body,
    .describe = describe,
};
