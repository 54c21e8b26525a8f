/* What registers, grilles and filters share: a face of a size, and a drop. */
#include "piece/common.h"

static const struct sense drop_sense = {
    .low = 0,
    .high = 5 * INCH_OF_WATER, /* common practice, no source */
    .expected = "a drop of 0 to 5 in.wg (1245 Pa)",
    .hint = "0.03 in.wg",
};

static const struct sense flow_sense = {
    .low = 1e-6,
    .high = 500, /* common practice, no source */
    .expected = "an airflow of more than 0, a million cfm (500 m3/s) at most",
    .hint = "at 140 cfm",
};

struct duct_size run_face(const struct run *run) {
    const struct piece *face = run ? run->face : NULL;
    if (!face && run && run->end)
        face = run->end->face;
    return face ? face->kind->face(face) : (struct duct_size){0};
}

struct duct_size face_size(const struct piece *piece) {
    return piece_size(piece, FACE_SIZE);
}

void face_loss(const struct piece_flow *flow, struct loss *loss, double assumed) {
    if (piece_given(flow->piece, FACE_PRESSURE))
        loss_drop(flow, loss, piece_number(flow->piece, FACE_PRESSURE, 0), piece_number(flow->piece, FACE_FLOW, 0),
                  SOURCE_DECLARED_DROP);
    else
        loss_drop(flow, loss, assumed, 0, SOURCE_ASSUMED_DROP);
}

const char *face_describe(const struct piece *piece, enum measure_system system, struct arena *arena) {
    const char *size = piece_size_words(piece, FACE_SIZE, system, arena), *title = piece->kind->title;
    return size ? arena_format(arena, "%s, %s", title, size) : title;
}

void face_prepare(struct piece *piece, struct diagnostics *diagnostics, int dimensions) {
    const char *hint = piece->kind->form.example;
    if (!piece_size_sensible(piece, diagnostics, FACE_SIZE, dimensions, hint))
        return;
    if (!piece_sensible(piece, diagnostics, FACE_PRESSURE, &drop_sense))
        return;
    if (!piece_sensible(piece, diagnostics, FACE_FLOW, &flow_sense))
        return;
    if (piece_given(piece, FACE_FLOW) && !piece_given(piece, FACE_PRESSURE))
        piece_error(piece, diagnostics, piece_argument(piece, FACE_FLOW)->at, hint,
                    "expected the drop at this airflow before it");
}
