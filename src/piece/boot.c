/* Boots: from a round or rectangular runout to the register. */
#include "piece/common.h"
#include "piece/kinds.h"

#include <math.h>

enum { STYLE, OVER, MOVED };
enum style { STRAIGHT, ELBOW };

static const char *const style_words[] = {"straight", "elbow", NULL};
static const char example[] = "boot elbow over 8 in";
static const char moved_example[] = "boot straight over 8 in, left 4 in";

/* Length where none is given: common practice, no source. */
static const double usual_length = 8 * INCH;

static const struct sense over_sense = {
    .low = MORE_THAN_NOTHING,
    .high = 10 * FOOT, /* common practice, no source */
    .expected = "a length of more than 0, 10 ft (3 m) at most",
    .hint = example,
};

/* An elbow boot when it does not say: its loss is the greater. */
static enum style style_of(const struct piece *piece) {
    return (enum style)piece_choice(piece, STYLE, ELBOW);
}

static void prepare(struct piece *piece, struct diagnostics *diagnostics) {
    if (!piece_sensible(piece, diagnostics, OVER, &over_sense) ||
        !piece_move_sensible(piece, diagnostics, MOVED, moved_example))
        return;
    piece->length = piece_number(piece, OVER, 0);
    const struct argument *moved = piece_move_given(piece, MOVED, WAY_LEFT, WAY_DOWN);
    if (moved && style_of(piece) == ELBOW)
        piece_error(piece, diagnostics, moved->at, moved_example,
                    "an elbow boot is not moved aside: expected a straight one");
}

/* The face that the boot opens to: in its run, or in what hangs from the end of it; unknown when there is none. */
static struct duct_size face_of(const struct piece *boot) {
    const struct run *run = boot->run;
    const struct piece *face = run ? run->face : NULL;
    if (!face && run && run->end)
        face = run->end->face;
    return face ? face->kind->face(face) : (struct duct_size){0};
}

/* From the duct to the face or back, brought to the velocity pressure of the duct: a loss on the smaller end's is
 * (duct area / smaller area)^2 as much on the duct's. */
static struct coefficient change_to_face(const struct piece_flow *flow, struct duct_size face, double length) {
    struct duct_size duct = flow->far.size;
    struct coefficient change =
        flow->supply ? change_coefficient(duct, face, length) : change_coefficient(face, duct, length);
    double ratio = size_area(duct) / fmin(size_area(duct), size_area(face));
    change.value *= ratio * ratio;
    return change;
}

/* What the far end of the boot adds: a change to its face; with no face the duct is open to the room. */
static struct coefficient far_end(const struct piece_flow *flow, double length) {
    struct duct_size face = face_of(flow->piece);
    if (size_known(face))
        return change_to_face(flow, face, length);
    bool in_room = flow->piece->run && flow->piece->run->role != RUN_DUCT;
    double open = flow->supply ? fitting_exit() : fitting_entry();
    return (struct coefficient){.value = in_room ? open : 0};
}

/* No relation; nearest: a square elbow of square duct in an elbow boot, a step aside in one that is moved, and the
 * change of area to the face. */
static void loss(const struct piece_flow *flow, struct loss *loss) {
    if (stream_still(flow->far))
        return;
    double length = piece_number(flow->piece, OVER, usual_length);
    struct coefficient sum = far_end(flow, length);
    sum.value += move_coefficient(piece_move(flow->piece, MOVED), length, flow->far.size).value;
    if (style_of(flow->piece) == ELBOW)
        sum.value += fitting_mitre(90 * DEGREE, 1).value;
    loss_set(loss, sum, stream_pressure(flow->air, flow->far), "duct", SOURCE_NEAREST_BOOT);
    loss_add_friction(loss, stream_friction(flow, flow->far, piece_number(flow->piece, OVER, 0)));
}

static const char *describe(const struct piece *piece, enum measure_system system, struct arena *arena) {
    double whole = system == MEASURE_METRIC ? round(usual_length / MILLIMETRE) * MILLIMETRE : usual_length;
    const char *length = measure_text(arena, system, SHOW_SIZE, piece_number(piece, OVER, whole));
    return arena_format(arena, "Boot, %s, %s long%s%s", style_words[style_of(piece)], length,
                        piece_given(piece, OVER) ? "" : " (assumed)", piece_move_words(piece, MOVED, system, arena));
}

const struct piece_kind piece_boot = {
    .form =
        {
            .word = "boot",
            .places = IN_ANY_RUN,
            .slots =
                {
                    [STYLE] = {.kind = SLOT_CHOICE, .choices = style_words, .meaning = "its kind: straight or elbow"},
                    [OVER] =
                        {.kind = SLOT_QUANTITY, .key = "over", .measure = MEASURE_LENGTH, .meaning = "how long it is"},
                    MOVE_SLOTS(MOVED),
                },
            .meaning = "joins a runout to its register or grille; an elbow boot when it says nothing",
            .example = example,
        },
    .title = "Boot",
    .traits = PIECE_FITS_FACE,
    .prepare = prepare,
    .loss = loss,
    .describe = describe,
};
