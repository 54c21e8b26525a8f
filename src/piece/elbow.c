/* Elbows: radius or square throat, with or without vanes; round ones gored; rectangular ones may change size. */
#include "metal/shape_elbow.h"
#include "metal/shape_vane.h"
#include "model/lined.h"
#include "piece/bend.h"
#include "piece/common.h"
#include "piece/kinds.h"
#include "piece/vanes.h"

#include <math.h>

enum { ANGLE, WAY, RADIUS, SQUARE, VANES, PIECES, TO };

static const char example[] = "elbow 90 left, radius 1.0";
static const char changing_example[] = "elbow 90 left to 14 x 8";

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

/* Gores have one diameter, and flat oval is bent of gores too. */
static bool to_sensible(struct piece *piece, struct diagnostics *diagnostics) {
    struct span to = piece_argument(piece, TO)->at;
    if (!piece_given(piece, TO))
        return true;
    if (!piece_size_sensible(piece, diagnostics, TO, 2, changing_example))
        return false;
    if (piece_size(piece, TO).shape != SHAPE_RECTANGULAR)
        piece_error(piece, diagnostics, to, "transition to 8 over 12 in, on its own line",
                    "only a rectangular elbow changes its size: expected a width and a height, or a transition");
    else if (piece_given(piece, PIECES))
        piece_error(piece, diagnostics, to, changing_example,
                    "an elbow of so many pieces is round, and does not change its size: expected one or the other");
    return !piece->reading.faulty;
}

static bool resizes(const struct piece *piece) {
    return piece_given(piece, TO);
}

static struct duct_size resize(const struct piece *piece) {
    return piece_size(piece, TO);
}

static const char *misfit(const struct piece *piece, enum shape near) {
    if (!resizes(piece) || near == SHAPE_RECTANGULAR)
        return NULL;
    return near == SHAPE_ROUND ? "only a rectangular elbow changes its size, and the duct before this one is round: "
                                 "expected a transition"
                               : "only a rectangular elbow changes its size, and the duct before this one is oval: "
                                 "expected a transition";
}

static void prepare(struct piece *piece, struct diagnostics *diagnostics) {
    if (!piece_sensible(piece, diagnostics, ANGLE, &angle_sense) ||
        !piece_sensible(piece, diagnostics, RADIUS, &radius_sense) ||
        !piece_whole(piece, diagnostics, PIECES, &pieces_sense) || !to_sensible(piece, diagnostics))
        return;
    struct span square = piece_argument(piece, SQUARE)->at;
    if (piece_given(piece, SQUARE) && piece_given(piece, RADIUS))
        piece_error(piece, diagnostics, square, "elbow 90 left, square, vanes",
                    "a square elbow has no radius: expected one or the other");
    else if (piece_given(piece, SQUARE) && piece_given(piece, PIECES))
        piece_error(piece, diagnostics, square, "elbow 90 left, pieces 2",
                    "a square elbow is not made of so many pieces: expected one or the other");
}

static void loss(const struct piece_flow *flow, struct loss *loss) {
    const struct piece *piece = flow->piece;
    bool round = flow->far.size.shape == SHAPE_ROUND, square = piece_given(piece, SQUARE);
    struct bend bend = {
        .angle = piece_number(piece, ANGLE, 90 * DEGREE),
        .way = (enum way)piece_choice(piece, WAY, WAY_LEFT),
        .radius = piece_number(piece, RADIUS, round ? usual_round_radius : usual_radius),
        .vanes = piece_given(piece, VANES),
    };
    if (stream_still(flow->far) || stream_still(flow->near))
        return;
    if (resizes(piece)) {
        bend_changing_loss(flow, &bend, piece_lining(piece), square, loss);
        return;
    }
    if (square) {
        bend_square_loss(flow, &bend, loss);
        return;
    }
    bend.radius = bend_clear_radius(flow->trace, flow->far.size, bend.way, piece_lining(piece), bend.radius);
    if (round)
        bend_gored_loss(flow, &bend, (int)piece_number(piece, PIECES, usual_pieces), loss);
    else
        bend_radius_loss(flow, &bend, loss);
    /* The relations leave out the friction along the arc. */
    double side = bend_side(flow->far.size, bend.way), arc = bend.angle * bend.radius * side;
    TRACE(flow->trace, TRACE_LENGTH, "Its arc", "L", "a x pi / 180 x R x W", arc, SOURCE_NONE,
          trace_of(TRACE_ANGLE, "a", bend.angle), trace_number("R", bend.radius), trace_of(TRACE_LENGTH, "W", side));
    loss_add_friction(loss, stream_friction(flow, flow->far, arc));
}

/* The arc; of a square one, from the middle of the one end to the corner and on. */
static double centre_line(const struct piece *piece, struct duct_size size) {
    bool round = size.shape == SHAPE_ROUND;
    double angle = piece_number(piece, ANGLE, 90 * DEGREE);
    enum way way = (enum way)piece_choice(piece, WAY, WAY_LEFT);
    double side = bend_side(size, way), radius = piece_number(piece, RADIUS, round ? usual_round_radius : usual_radius);
    if (piece_given(piece, SQUARE))
        return (side + 2 * piece_lining(piece)) * tan(fmin(angle, 90 * DEGREE) / 2);
    return angle * side * bend_clear_radius(NULL, size, way, piece_lining(piece), radius);
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
    const char *words = make_words(piece, false, duct_metal(piece->far), arena);
    return *words ? arena_format(arena, "%s (assumed)", words) : "";
}

static const char *describe(const struct piece *piece, enum measure_system system, struct arena *arena) {
    struct duct_size to = resize(piece);
    const char *size = size_known(to) ? arena_format(arena, " to %s", size_text(arena, system, to)) : "";
    const char *form = piece_given(piece, SQUARE) ? ", square" : make_words(piece, true, (struct duct_size){0}, arena);
    return arena_format(arena, "Elbow, %s %s%s%s%s%s",
                        piece_figure(arena, piece_number(piece, ANGLE, 90 * DEGREE) / DEGREE),
                        way_words[piece_choice(piece, WAY, WAY_LEFT)], size, form,
                        piece_given(piece, VANES) ? ", vanes" : "", assumed_words(piece, arena));
}

/* ---- What the shop makes ----------------------------------------------------------------------------------------- */

/* Straight at each end of an elbow, for the joint and its tools; of a square throat a little more, for the brake.
 * Common practice, no source. */
static const double usual_collar = 2 * INCH, usual_leg = 4 * INCH;

/* An elbow on its way to its parts. */
struct elbowing {
    const struct piece *piece;
    struct making *making;
    struct duct_size near, far;
    double angle;
    enum way way; /* that it is laid out for */
};

/* "Radius elbow, 14 x 8 in, 90 degrees, left or right". */
static const char *part_title(const struct elbowing *elbow, const char *name, const char *how) {
    struct arena *arena = making_scratch(elbow->making);
    enum measure_system system = making_job(elbow->making)->system;
    const char *to =
        size_equal(elbow->near, elbow->far) ? "" : arena_format(arena, " to %s", size_text(arena, system, elbow->far));
    return arena_format(arena, "%s, %s%s, %s degrees%s%s", name, size_text(arena, system, elbow->near), to,
                        piece_figure(arena, elbow->angle / DEGREE), bend_ways(elbow->near, elbow->way), how);
}

static const char *length_words(const struct elbowing *elbow, double length) {
    return measure_text(making_scratch(elbow->making), making_job(elbow->making)->system, SHOW_CUT, length);
}

/* What all its parts have of the elbow. */
static struct order part_of(const struct elbowing *elbow) {
    return (struct order){
        .near = elbow->near,
        .far = elbow->far,
        .station = elbow->piece->station,
        .length = elbow->piece->length,
    };
}

/* The line of an elbow of this angle and way that can be made: of one size, with a throat; behind it, the change. */
static const char *sound_line(const struct elbowing *elbow) {
    const struct piece *piece = elbow->piece;
    struct arena *arena = making_scratch(elbow->making);
    bool round = elbow->near.shape != SHAPE_RECTANGULAR, changes = !size_equal(elbow->near, elbow->far);
    bool square = piece_given(piece, SQUARE) && elbow->angle <= greatest_square_turn;
    double usual = round ? usual_round_radius : usual_radius, radius = piece_number(piece, RADIUS, usual);
    const char *line =
        arena_format(arena, "elbow %s %s, %s", piece_figure(arena, elbow->angle / DEGREE),
                     way_words[piece_choice(piece, WAY, WAY_LEFT)],
                     square && changes ? "square"
                                       : arena_format(arena, "radius %s%s", radius_words(fmax(radius, usual), arena),
                                                      round ? ", pieces 5" : ""));
    if (!changes)
        return line;
    enum measure_system system = making_job(elbow->making)->system;
    return arena_format(arena, "%s; %s", line, transition_hint(arena, system, elbow->near, elbow->far));
}

static void order_part(const struct elbowing *elbow, struct order order) {
    struct order part = part_of(elbow);
    enum way way = (enum way)piece_choice(elbow->piece, WAY, WAY_LEFT);
    part.title = order.title;
    part.shape = order.shape;
    part.build = order.build;
    part.size = order.size;
    part.size_bytes = order.size_bytes;
    part.line = sound_line(elbow);
    part.note = arena_format(making_scratch(elbow->making), "hung to turn %s", way_words[way]);
    make_part(elbow->making, &part);
}

/* The dimension of the near end across the plane of the bend. */
static double bend_depth(const struct elbowing *elbow) {
    return elbow->way == WAY_LEFT ? elbow->near.height : elbow->near.width;
}

static void make_radius(const struct elbowing *elbow) {
    double ratio = piece_number(elbow->piece, RADIUS, usual_radius);
    struct radius_elbow shape = {
        .near = shape_duct_of(elbow->near),
        .far = shape_duct_of(elbow->far),
        .way = elbow->way,
        .angle = elbow->angle,
        .throat = fmax((ratio - 0.5) * bend_side(elbow->near, elbow->way), 0),
        .collar = usual_collar,
    };
    const char *throat =
        arena_format(making_scratch(elbow->making), ", throat radius %s", length_words(elbow, shape.throat));
    order_part(elbow, (struct order){
                          .title = part_title(elbow, "Radius elbow", throat),
                          .shape = "radius elbow",
                          .build = shape_radius_elbow,
                          .size = &shape,
                          .size_bytes = sizeof shape,
                      });
    struct bend_passage passage = {
        .throat = shape.throat,
        .width = fmin(bend_side(elbow->near, elbow->way), bend_side(elbow->far, elbow->way)),
        .angle = elbow->angle,
        .depth = bend_depth(elbow),
    };
    struct order in = part_of(elbow);
    if (piece_given(elbow->piece, VANES))
        make_bend_vanes(elbow->making, &in, passage);
}

/* Between two rails as long as the mitre. */
static void make_mitre_vanes(const struct elbowing *elbow) {
    double near = bend_side(elbow->near, elbow->way), far = bend_side(elbow->far, elbow->way);
    struct vane_rail rail = vane_rail(square_mitre_line(near, far, elbow->angle).length);
    struct order in = part_of(elbow);
    make_railed_vanes(elbow->making, &in, rail, elbow->angle, bend_depth(elbow), "between the rails of the elbow");
}

static void make_square(const struct elbowing *elbow) {
    bool vanes = piece_given(elbow->piece, VANES);
    struct square_elbow shape = {
        .near = shape_duct_of(elbow->near),
        .far = shape_duct_of(elbow->far),
        .way = elbow->way,
        .angle = elbow->angle,
        .leg = usual_leg,
        .vanes = vanes ? (double)making_job(elbow->making)->system + 1 : 0,
    };
    order_part(elbow, (struct order){
                          .title = part_title(elbow, "Square elbow", vanes ? ", with vanes" : ""),
                          .shape = "square elbow",
                          .build = shape_square_elbow,
                          .size = &shape,
                          .size_bytes = sizeof shape,
                      });
    if (vanes && elbow->angle <= greatest_square_turn)
        make_mitre_vanes(elbow);
}

/* Square, it is a mitre of two pieces with the legs of a square throat. */
static void make_gored(const struct elbowing *elbow) {
    bool round = elbow->near.shape == SHAPE_ROUND, square = piece_given(elbow->piece, SQUARE);
    double ratio = piece_number(elbow->piece, RADIUS, round ? usual_round_radius : usual_radius);
    struct gored_elbow shape = {
        .duct = shape_duct_of(elbow->near),
        .way = elbow->way,
        .angle = elbow->angle,
        .radius = (square ? 0.5 : ratio) * bend_side(elbow->near, elbow->way),
        .pieces = square ? 2 : piece_number(elbow->piece, PIECES, usual_pieces),
        .collar = square ? usual_leg : usual_collar,
    };
    struct arena *arena = making_scratch(elbow->making);
    if (piece_given(elbow->piece, VANES)) {
        make_fault(elbow->making, sound_line(elbow),
                   "turning vanes are laid out between flat cheeks, and a round or oval elbow has none");
        return;
    }
    order_part(elbow, (struct order){
                          .title = part_title(elbow, "Gored elbow",
                                              arena_format(arena, ", %.0f pieces, radius %s", shape.pieces,
                                                           length_words(elbow, shape.radius))),
                          .shape = "gored elbow",
                          .build = shape_gored_elbow,
                          .size = &shape,
                          .size_bytes = sizeof shape,
                      });
}

static void make(const struct piece *piece, struct making *making) {
    if (!piece->near || !piece->far || !size_known(piece->near->size) || !size_known(piece->far->size))
        return;
    enum way way = (enum way)piece_choice(piece, WAY, WAY_LEFT);
    struct elbowing elbow = {
        .piece = piece,
        .making = making,
        .near = duct_metal(piece->near),
        .far = duct_metal(piece->far),
        .angle = piece_number(piece, ANGLE, 90 * DEGREE),
        .way = bend_way(duct_metal(piece->near), way),
    };
    if (elbow.near.shape != SHAPE_RECTANGULAR)
        make_gored(&elbow);
    else if (piece_given(piece, SQUARE))
        make_square(&elbow);
    else
        make_radius(&elbow);
}

/* ---- Where it leads ---------------------------------------------------------------------------------------------- */

/* Its throat, from which the middles of both ends lie half their side away, and the straight at its ends. */
static void place(const struct piece *piece, struct motion *motion) {
    if (!piece->near || !piece->far || !size_known(piece->near->size) || !size_known(piece->far->size))
        return;
    enum way way = (enum way)piece_choice(piece, WAY, WAY_LEFT);
    double near = bend_side(duct_metal(piece->near), way), far = bend_side(duct_metal(piece->far), way);
    bool square = piece_given(piece, SQUARE), round = piece->near->size.shape == SHAPE_ROUND;
    double ratio = piece_number(piece, RADIUS, round ? usual_round_radius : usual_radius);
    double throat = fmax(ratio - 0.5, 0) * near, angle = piece_number(piece, ANGLE, 90 * DEGREE);
    motion_on(motion, square ? usual_leg : usual_collar);
    if (square)
        motion_corner(motion, way, fmin(angle, greatest_square_turn), duct_metal(piece->far));
    else
        motion_bend(motion, way, angle, throat + near / 2, throat + far / 2, duct_metal(piece->far));
    motion_on(motion, square ? usual_leg : usual_collar);
}

/* ---- What would be easier ---------------------------------------------------------------------------------------- */

/* Vanes in a square throat; else a wider radius, as far as it still pays. */
static bool easier(const struct piece *piece, int nth, struct piece *other, double *sheet, struct arena *arena) {
    static const double wide = 1.5;
    bool square = piece_given(piece, SQUARE);
    if (nth > 0 || !piece->reading.statement || resizes(piece) || piece_given(piece, VANES) ||
        (!square && piece_number(piece, RADIUS, usual_radius) >= wide) ||
        (!square && !piece_given(piece, RADIUS) && piece->far && piece->far->size.shape == SHAPE_ROUND))
        return false;
    struct argument *argument = ARENA_ARRAY(arena, struct argument, SLOT_LIMIT);
    for (int i = 0; i <= TO; i++)
        argument[i] = *piece_argument(piece, i);
    argument[square ? VANES : RADIUS].given = true;
    if (!square)
        argument[RADIUS].number = wide;
    *other = *piece;
    other->reading.argument = argument;
    *sheet = square && piece->far ? mitre_vanes_sheet(piece->far->size) : 0;
    return true;
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
                    [TO] = {.kind = SLOT_SIZE,
                            .key = "to",
                            .meaning = "the size behind a rectangular one that changes it"},
                },
            .meaning = "a turn; radius 1.0 when it says nothing, 1.5 and five pieces when round",
            .example = example,
        },
    .title = "Elbow",
    .traits = PIECE_TURNS,
    .resizes = resizes,
    .resize = resize,
    .misfit = misfit,
    .easier = easier,
    .prepare = prepare,
    .loss = loss,
    .centre_line = centre_line,
    .describe = describe,
    .make = make,
    .place = place,
};
