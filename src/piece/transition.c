/* Transitions: from one size to another, rectangular, round or oval. */
#include "piece/common.h"
#include "piece/kinds.h"

#include <math.h>

enum { TO, OVER, FLAT, CENTRED };

enum { FLAT_TOP, FLAT_BOTTOM, FLAT_LEFT, FLAT_RIGHT };
static const char *const flat_words[] = {"top", "bottom", "left", "right", NULL};
static const char example[] = "transition to 14 x 8 over 18 in, flat top";

/* Length of a transition that the job did not write, over the greater change of a side.  Common practice, no source: it
 * makes an angle of 14 degrees on each of two sides. */
static const double usual_length = 2;

static const struct sense over_sense = OVER_SENSE(example);

static void prepare(struct piece *piece, struct diagnostics *diagnostics) {
    if (!piece_size_sensible(piece, diagnostics, TO, 2, example) ||
        !piece_sensible(piece, diagnostics, OVER, &over_sense))
        return;
    piece->length = piece_number(piece, OVER, 0);
    if (piece_given(piece, FLAT) && piece_given(piece, CENTRED))
        piece_error(piece, diagnostics, piece_argument(piece, CENTRED)->at, example,
                    "a transition with a flat side is not centred: expected one or the other");
}

static struct duct_size resize(const struct piece *piece) {
    return piece_size(piece, TO);
}

static double transition_length(const struct piece *piece, struct duct_size near, struct duct_size far) {
    double wider = fabs(near.width - far.width), higher = fabs(near.height - far.height);
    return piece_given(piece, OVER) ? piece_number(piece, OVER, 0) : usual_length * fmax(wider, higher);
}

/* Of two sides, one takes the whole change when the other is flat; else they share it. */
static void side_taper(double change, bool one_flat, double length, double *widens, double *narrows) {
    double angle = atan2(fabs(change) / (one_flat ? 1 : 2), length);
    if (change > 0)
        *widens = fmax(*widens, angle);
    else
        *narrows = fmax(*narrows, angle);
}

static void taper(const struct piece *piece, struct duct_size from, struct duct_size to, double *widens,
                  double *narrows) {
    double length = transition_length(piece, from, to);
    int flat = piece_choice(piece, FLAT, -1);
    *widens = *narrows = 0;
    side_taper(to.width - from.width, flat == FLAT_LEFT || flat == FLAT_RIGHT, length, widens, narrows);
    side_taper(to.height - from.height, flat == FLAT_TOP || flat == FLAT_BOTTOM, length, widens, narrows);
}

/* Where one side grows as the other shrinks, the ends' areas hide what the air meets: nearest relation, a diffuser of
 * the side that grows alone.  0 where the sides do not go opposite ways. */
static double growing_side(struct duct_size from, struct duct_size to, double length) {
    double wider = to.width - from.width, higher = to.height - from.height;
    if (!(wider * higher < 0))
        return 0;
    double small = wider > 0 ? from.width : from.height, growth = fmax(wider, higher);
    return fitting_diffuser(small / (small + growth), 2 * atan2(growth, 2 * length)).value;
}

/* By the cone between round ends of the same areas and the declared length, whichever side is flat.  Friction at the
 * mean of both ends. */
static void loss(const struct piece_flow *flow, struct loss *loss) {
    struct stream from = air_from(flow), to = air_to(flow);
    if (stream_still(from) || stream_still(to))
        return;
    double length = transition_length(flow->piece, flow->near.size, flow->far.size);
    bool round = from.size.shape == SHAPE_ROUND && to.size.shape == SHAPE_ROUND;
    bool widens = size_area(to.size) > size_area(from.size);
    struct coefficient change = change_coefficient(from.size, to.size, length);
    enum source_id source = widens ? SOURCE_IDELCHIK_DIFFUSER : SOURCE_IDELCHIK_CONTRACTION;
    change.value = fmax(change.value, growing_side(from.size, to.size, length));
    double reference = fmax(stream_pressure(flow->air, from), stream_pressure(flow->air, to));
    loss_set(loss, change, reference, "smaller end", round ? source : SOURCE_NEAREST_CHANGE);
    loss_add_friction(loss, (stream_friction(flow, from, length) + stream_friction(flow, to, length)) / 2);
}

/* Of one that the job did not write, once its ends have sizes. */
static const char *assumed_length(const struct piece *piece, enum measure_system system, struct arena *arena) {
    bool known = piece->near && piece->far && size_known(piece->near->size) && size_known(piece->far->size);
    if (piece_given(piece, OVER) || !known)
        return "";
    double length = transition_length(piece, piece->near->size, piece->far->size);
    return arena_format(arena, ", %s long", measure_text(arena, system, SHOW_SIZE, length));
}

static const char *describe(const struct piece *piece, enum measure_system system, struct arena *arena) {
    struct duct_size to = piece_size(piece, TO);
    const char *flat =
        piece_given(piece, FLAT) ? arena_format(arena, ", flat %s", flat_words[piece_choice(piece, FLAT, 0)]) : "";
    const char *size = size_known(to) ? arena_format(arena, " to %s", size_text(arena, system, to)) : "";
    const char *length = assumed_length(piece, system, arena);
    return arena_format(arena, "Transition%s%s%s%s", size, flat, piece_given(piece, CENTRED) ? ", centred" : "",
                        length);
}

const struct piece_kind piece_transition = {
    .form =
        {
            .word = "transition",
            .places = IN_ANY_RUN,
            .slots =
                {
                    [TO] = {.kind = SLOT_SIZE, .key = "to", .meaning = "the size behind it; found when not given"},
                    [OVER] = {.kind = SLOT_QUANTITY,
                              .key = "over",
                              .use = SLOT_REQUIRED,
                              .measure = MEASURE_LENGTH,
                              .meaning = "how long it is"},
                    [FLAT] = {.kind = SLOT_CHOICE,
                              .key = "flat",
                              .choices = flat_words,
                              .meaning = "the side that stays in line: top, bottom, left or right"},
                    [CENTRED] = {.kind = SLOT_FLAG, .key = "centred", .meaning = "the change is shared by both sides"},
                },
            .meaning = "a change of size or shape; its size follows from the air it still carries unless it says",
            .example = example,
        },
    .title = "Transition",
    .traits = PIECE_RESIZES | PIECE_IMPLIED_CHANGE,
    .prepare = prepare,
    .resize = resize,
    .loss = loss,
    .describe = describe,
    .taper = taper,
};
