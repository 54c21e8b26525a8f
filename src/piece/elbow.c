/* Elbows: radius or square throat, with or without vanes; round ones gored. */
#include "piece/common.h"
#include "piece/kinds.h"

#include <math.h>

enum { ANGLE, WAY, RADIUS, SQUARE, VANES, PIECES };

static const char example[] = "elbow 90 left, radius 1.0";

/* Centre-line radius where none is given, over the side in the plane of the bend or the diameter; and the pieces of a
 * round elbow at any angle.  Common practice, no source. */
static const double usual_radius = 1.0, usual_round_radius = 1.5;
static const int usual_pieces = 5;

static const struct sense angle_sense = {
    .low = 1 * DEGREE,
    .high = 180 * DEGREE,
    .expected = "a turn of 1 to 180 degrees",
    .hint = example,
};

/* At 0.5 the throat is a sharp corner; the table ends at 40. */
static const struct sense radius_sense = {
    .low = 0.5,
    .high = 40,
    .expected = "a centre-line radius of 0.5 to 40 times the side that bends",
    .hint = example,
};

static const struct sense pieces_sense = {
    .low = 2,
    .high = 12, /* common practice, no source */
    .expected = "2 to 12 pieces",
    .hint = "elbow 90 left, radius 1.5, pieces 5",
};

static void prepare(struct piece *piece, struct diagnostics *diagnostics) {
    if (!piece_sensible(piece, diagnostics, ANGLE, &angle_sense) ||
        !piece_sensible(piece, diagnostics, RADIUS, &radius_sense) ||
        !piece_whole(piece, diagnostics, PIECES, &pieces_sense))
        return;
    struct span square = piece_argument(piece, SQUARE)->at;
    if (piece_given(piece, SQUARE) && piece_given(piece, RADIUS))
        piece_error(piece, diagnostics, square, "elbow 90 left, square, vanes",
                    "a square elbow has no radius: expected one or the other");
    else if (piece_given(piece, SQUARE) && piece_given(piece, PIECES))
        piece_error(piece, diagnostics, square, "elbow 90 left, pieces 2",
                    "a square elbow is not made of so many pieces: expected one or the other");
}

static void square_loss(const struct piece_flow *flow, struct loss *loss, double angle, enum way way) {
    struct duct_size size = flow->far.size;
    double reference = stream_pressure(flow->air, flow->far);
    if (!piece_given(flow->piece, VANES)) {
        loss_set(loss, fitting_mitre(angle, bend_aspect(size, way)), reference, "duct", SOURCE_IDELCHIK_MITRE);
        return;
    }
    bool as_tested = fabs(angle - 90 * DEGREE) < 1e-6;
    loss_set(loss, fitting_vaned_mitre(angle), reference, "duct", as_tested ? SOURCE_VANED_ELBOW : SOURCE_NEAREST_BEND);
}

/* Rectangular; flat oval by the same relation, as the nearest.  Vanes: no relation; never worse than a square elbow
 * with vanes, never better than the smoother of the two. */
static void radius_loss(const struct piece_flow *flow, struct loss *loss, double angle, enum way way, double radius) {
    struct duct_size size = flow->far.size;
    struct coefficient elbow = fitting_radius_elbow(angle, radius, bend_aspect(size, way));
    struct coefficient factor = bend_reynolds(flow, radius), vaned = fitting_vaned_mitre(angle);
    double reference = stream_pressure(flow->air, flow->far);
    bool vanes = piece_given(flow->piece, VANES);
    elbow.value *= factor.value;
    if (vanes && vaned.value < elbow.value) {
        loss_set(loss, vaned, reference, "duct", SOURCE_NEAREST_BEND);
        return;
    }
    bool nearest = vanes || size.shape == SHAPE_OVAL;
    loss_set(loss, elbow, reference, "duct", nearest ? SOURCE_NEAREST_BEND : SOURCE_IDELCHIK_BEND);
    loss_mark_reynolds(loss, factor);
}

/* The correction is for the smooth part; a mitre's loss hardly depends on the Reynolds number (common practice, no
 * source). */
static void gored_loss(const struct piece_flow *flow, struct loss *loss, double angle, double radius) {
    int pieces = (int)piece_number(flow->piece, PIECES, usual_pieces);
    struct coefficient factor = bend_reynolds(flow, radius);
    struct coefficient elbow = fitting_gored_elbow(angle, radius, pieces, factor.value);
    loss_set(loss, elbow, stream_pressure(flow->air, flow->far), "duct", SOURCE_GORED_ELBOW);
    loss_mark_reynolds(loss, factor);
}

static void loss(const struct piece_flow *flow, struct loss *loss) {
    const struct piece *piece = flow->piece;
    double angle = piece_number(piece, ANGLE, 90 * DEGREE);
    enum way way = (enum way)piece_choice(piece, WAY, WAY_LEFT);
    bool round = flow->far.size.shape == SHAPE_ROUND;
    double radius = piece_number(piece, RADIUS, round ? usual_round_radius : usual_radius);
    if (stream_still(flow->far))
        return;
    if (piece_given(piece, SQUARE)) {
        square_loss(flow, loss, angle, way);
        return;
    }
    if (round)
        gored_loss(flow, loss, angle, radius);
    else
        radius_loss(flow, loss, angle, way, radius);
    /* The relations leave out the friction along the arc. */
    loss_add_friction(loss, stream_friction(flow, flow->far, angle * radius * bend_side(flow->far.size, way)));
}

/* With one decimal at least, as it is written: "1.0", "1.25". */
static const char *radius_words(double radius, struct arena *arena) {
    return radius == floor(radius) ? arena_format(arena, "%.1f", radius) : piece_figure(arena, radius);
}

/* ", radius 1.5, 5 pieces": only what the job gives, or only what is assumed of an elbow in a duct of that size. */
static const char *make_words(const struct piece *piece, bool given, struct duct_size size, struct arena *arena) {
    const char *radius = "", *pieces = "";
    bool round = size.shape == SHAPE_ROUND;
    if (piece_given(piece, RADIUS) == given)
        radius =
            arena_format(arena, ", radius %s",
                         radius_words(piece_number(piece, RADIUS, round ? usual_round_radius : usual_radius), arena));
    if (piece_given(piece, PIECES) == given && (given || round))
        pieces = arena_format(arena, ", %.0f pieces", piece_number(piece, PIECES, usual_pieces));
    return arena_format(arena, "%s%s", radius, pieces);
}

/* What is assumed shows once the duct has its size. */
static const char *assumed_words(const struct piece *piece, struct arena *arena) {
    if (piece_given(piece, SQUARE) || !piece->far || !size_known(piece->far->size))
        return "";
    const char *words = make_words(piece, false, piece->far->size, arena);
    return *words ? arena_format(arena, "%s (assumed)", words) : "";
}

static const char *describe(const struct piece *piece, enum measure_system system, struct arena *arena) {
    (void)system;
    const char *form = piece_given(piece, SQUARE) ? ", square" : make_words(piece, true, (struct duct_size){0}, arena);
    return arena_format(arena, "Elbow, %s %s%s%s%s",
                        piece_figure(arena, piece_number(piece, ANGLE, 90 * DEGREE) / DEGREE),
                        way_words[piece_choice(piece, WAY, WAY_LEFT)], form, piece_given(piece, VANES) ? ", vanes" : "",
                        assumed_words(piece, arena));
}

const struct piece_kind piece_elbow = {
    .form =
        {
            .word = "elbow",
            .places = IN_ANY_RUN,
            .slots =
                {
                    [ANGLE] = {.kind = SLOT_QUANTITY,
                               .use = SLOT_REQUIRED,
                               .measure = MEASURE_ANGLE,
                               .meaning = "how far it turns"},
                    [WAY] = {.kind = SLOT_CHOICE,
                             .use = SLOT_REQUIRED,
                             .choices = way_words,
                             .meaning = "which way it turns: left, right, up or down"},
                    [RADIUS] = {.kind = SLOT_QUANTITY,
                                .key = "radius",
                                .measure = MEASURE_NUMBER,
                                .meaning = "the centre-line radius over the side that bends, or over the diameter"},
                    [SQUARE] = {.kind = SLOT_FLAG, .key = "square", .meaning = "a square throat and heel"},
                    [VANES] = {.kind = SLOT_FLAG, .key = "vanes", .meaning = "turning vanes"},
                    [PIECES] = {.kind = SLOT_QUANTITY,
                                .key = "pieces",
                                .measure = MEASURE_NUMBER,
                                .meaning = "how many pieces a round elbow is made of"},
                },
            .meaning = "a turn; radius 1.0 when it says nothing, 1.5 and five pieces when round",
            .example = example,
        },
    .title = "Elbow",
    .prepare = prepare,
    .loss = loss,
    .describe = describe,
};
