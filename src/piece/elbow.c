/* Elbows: radius or square throat, with or without vanes; round ones gored; rectangular ones may change size. */
#include "metal/shape_elbow.h"
#include "metal/shape_vane.h"
#include "model/lined.h"
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

/* The radius of the centre line over the side that is clear, of an elbow that is made with `radius` over that of its
 * metal: the metal and what its lining leaves clear have one centre line. */
static double clear_radius(struct trace *trace, const struct piece *piece, struct duct_size clear, enum way way,
                           double radius) {
    double side = bend_side(clear, way), lining = piece_lining(piece), ratio = radius * (side + 2 * lining) / side;
    if (lining > 0)
        TRACE(trace, TRACE_NUMBER, "Radius of its centre line over the side that is clear", "R",
              "R0 x (W + 2 x lining) / W", ratio, SOURCE_NONE, trace_number("R0", radius),
              trace_of(TRACE_LENGTH, "W", side), trace_of(TRACE_LENGTH, "lining", lining));
    else
        trace_read(trace, "Radius of its centre line over the side that bends", "R", ratio, SOURCE_NONE, NULL);
    return ratio;
}

static void square_loss(const struct piece_flow *flow, struct loss *loss, double angle, enum way way) {
    struct duct_size size = flow->far.size;
    if (!piece_given(flow->piece, VANES)) {
        loss_set(flow, loss, fitting_mitre(flow->trace, angle, bend_aspect(size, way)), flow->far, "duct",
                 SOURCE_IDELCHIK_MITRE);
        return;
    }
    bool as_tested = fabs(angle - 90 * DEGREE) < 1e-6;
    loss_set(flow, loss, fitting_vaned_mitre(flow->trace, angle), flow->far, "duct",
             as_tested ? SOURCE_VANED_ELBOW : SOURCE_NEAREST_BEND);
}

/* The coefficient is called `name`.  False: the vanes make it no better than it is `plain`. */
static bool with_vanes(const struct piece_flow *flow, struct loss *loss, double angle, double plain, const char *name) {
    trace_as(flow->trace, "Cvaned");
    struct coefficient vaned = fitting_vaned_mitre(flow->trace, angle);
    trace_as(flow->trace, name);
    TRACE_COEFFICIENT(flow->trace, "The smoother of both", "min(Cplain, Cvaned)", fmin(plain, vaned.value),
                      SOURCE_NEAREST_BEND, trace_number("Cplain", plain), trace_number("Cvaned", vaned.value));
    if (vaned.value < plain)
        loss_set(flow, loss, vaned, flow->far, "duct", SOURCE_NEAREST_BEND);
    return vaned.value < plain;
}

/* Rectangular; flat oval by the same relation, as the nearest.  Vanes: no relation; never worse than a square elbow
 * with vanes, never better than the smoother of the two. */
static void radius_loss(const struct piece_flow *flow, struct loss *loss, double angle, enum way way, double radius) {
    struct duct_size size = flow->far.size;
    bool vanes = piece_given(flow->piece, VANES);
    const char *name = trace_as(flow->trace, "C0");
    struct coefficient elbow = fitting_radius_elbow(flow->trace, angle, radius, bend_aspect(size, way));
    struct coefficient factor = bend_reynolds(flow, radius);
    trace_as(flow->trace, vanes ? "Cplain" : name);
    TRACE_COEFFICIENT(flow->trace, "Elbow at that Reynolds number", "C0 x KRe", elbow.value * factor.value,
                      SOURCE_ELBOW_REYNOLDS, trace_number("C0", elbow.value), trace_number("KRe", factor.value));
    elbow.value *= factor.value;
    if (vanes && with_vanes(flow, loss, angle, elbow.value, name))
        return;
    bool nearest = vanes || size.shape == SHAPE_OVAL;
    loss_set(flow, loss, elbow, flow->far, "duct", nearest ? SOURCE_NEAREST_BEND : SOURCE_IDELCHIK_BEND);
    loss_mark_reynolds(loss, factor);
}

/* The correction is for the smooth part; a mitre's loss hardly depends on the Reynolds number (common practice, no
 * source). */
static void gored_loss(const struct piece_flow *flow, struct loss *loss, double angle, double radius) {
    int pieces = (int)piece_number(flow->piece, PIECES, usual_pieces);
    struct coefficient factor = bend_reynolds(flow, radius);
    struct coefficient elbow = fitting_gored_elbow(flow->trace, angle, radius, pieces, factor.value);
    loss_set(flow, loss, elbow, flow->far, "duct", SOURCE_GORED_ELBOW);
    loss_mark_reynolds(loss, factor);
}

/* Of an elbow that changes size: the bend is that of its smaller end, where the air is fastest. */
struct ends {
    struct stream fast;
    double radius, length; /* of that bend, over its side; of the arc along the centre line, m */
};

/* The throat is one arc, and the radius counts over the side of the metal at the near end. */
static struct ends ends_of(const struct piece_flow *flow, double angle, enum way way, double radius) {
    double near = bend_side(flow->near.size, way), far = bend_side(flow->far.size, way);
    bool narrows = size_area(flow->far.size) < size_area(flow->near.size);
    double lining = piece_lining(flow->piece), side = narrows ? far : near;
    double throat = (radius - 0.5) * (near + 2 * lining) + lining; /* of the air */
    TRACE(flow->trace, TRACE_LENGTH, "Radius of its throat", "Rt", "(R0 - 0.5) x (W + 2 x lining) + lining", throat,
          SOURCE_NONE, trace_number("R0", radius), trace_of(TRACE_LENGTH, "W", near),
          trace_of(TRACE_LENGTH, "lining", lining));
    TRACE(flow->trace, TRACE_NUMBER, "Radius of the centre line over the smaller end's side", "R", "(Rt + W / 2) / W",
          (throat + side / 2) / side, SOURCE_NONE, trace_of(TRACE_LENGTH, "Rt", throat),
          trace_of(TRACE_LENGTH, "W", side));
    TRACE(flow->trace, TRACE_LENGTH, "Its arc", "L", "a x pi / 180 x (Rt + (W1 + W2) / 4)",
          angle * (throat + (near + far) / 4), SOURCE_NONE, trace_of(TRACE_ANGLE, "a", angle),
          trace_of(TRACE_LENGTH, "Rt", throat), trace_of(TRACE_LENGTH, "W1", near), trace_of(TRACE_LENGTH, "W2", far));
    return (struct ends){
        .fast = narrows ? flow->far : flow->near,
        .radius = (throat + side / 2) / side,
        .length = angle * (throat + (near + far) / 4),
    };
}

/* Nearest relation: the elbow in duct of its smaller end, and the change of size over its arc; a square one has no arc
 * to change in. */
static void changing_loss(const struct piece_flow *flow, struct loss *loss, double angle, enum way way, double radius) {
    struct ends ends = ends_of(flow, angle, way, radius);
    struct piece_flow bend = *flow;
    bool square = piece_given(flow->piece, SQUARE);
    struct duct_size from = air_from(flow).size, to = air_to(flow).size;
    double length = square ? 0 : ends.length;
    const char *name = trace_as(flow->trace, "Cchange");
    struct coefficient change = change_coefficient(flow->trace, from, to, length);
    trace_as(flow->trace, "Cgrowing");
    double cone = change.value, growing = growing_side(flow->trace, from, to, length);
    change.value = fmax(cone, growing);
    trace_as(flow->trace, "Cbend");
    bend.far = ends.fast;
    if (square)
        square_loss(&bend, loss, angle, way);
    else
        radius_loss(&bend, loss, angle, way, ends.radius);
    trace_as(flow->trace, name);
    loss->reference_name = "smaller end";
    TRACE_COEFFICIENT(flow->trace, "The bend, and its change of size or the side that grows",
                      growing > 0 ? "Cbend + max(Cchange, Cgrowing)" : "Cbend + Cchange",
                      loss->coefficient + change.value, SOURCE_NEAREST_BEND, trace_number("Cbend", loss->coefficient),
                      trace_number("Cchange", cone), trace_number("Cgrowing", growing));
    loss_also(loss, change, SOURCE_NEAREST_BEND);
    loss_add_friction(loss,
                      stream_friction(flow, flow->near, length / 2) + stream_friction(flow, flow->far, length / 2));
}

static void loss(const struct piece_flow *flow, struct loss *loss) {
    const struct piece *piece = flow->piece;
    double angle = piece_number(piece, ANGLE, 90 * DEGREE);
    enum way way = (enum way)piece_choice(piece, WAY, WAY_LEFT);
    bool round = flow->far.size.shape == SHAPE_ROUND;
    double radius = piece_number(piece, RADIUS, round ? usual_round_radius : usual_radius);
    if (stream_still(flow->far) || stream_still(flow->near))
        return;
    if (resizes(piece)) {
        changing_loss(flow, loss, angle, way, piece_number(piece, RADIUS, usual_radius));
        return;
    }
    if (piece_given(piece, SQUARE)) {
        square_loss(flow, loss, angle, way);
        return;
    }
    radius = clear_radius(flow->trace, piece, flow->far.size, way, radius);
    if (round)
        gored_loss(flow, loss, angle, radius);
    else
        radius_loss(flow, loss, angle, way, radius);
    /* The relations leave out the friction along the arc. */
    double side = bend_side(flow->far.size, way), arc = angle * radius * side;
    TRACE(flow->trace, TRACE_LENGTH, "Its arc", "L", "a x pi / 180 x R x W", arc, SOURCE_NONE,
          trace_of(TRACE_ANGLE, "a", angle), trace_number("R", radius), trace_of(TRACE_LENGTH, "W", side));
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
    return angle * side * clear_radius(NULL, piece, size, way, radius);
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

/* They run with the throat, in one ratio. */
static void make_bend_vanes(const struct elbowing *elbow, double throat) {
    double radii[BEND_VANES];
    double width = fmin(bend_side(elbow->near, elbow->way), bend_side(elbow->far, elbow->way));
    size_t count = bend_vanes(throat, width, radii);
    struct order in = part_of(elbow);
    for (size_t i = 0; i < count; i++)
        make_vane(elbow->making, &in, (struct vane){radii[i], elbow->angle, bend_depth(elbow)},
                  arena_format(making_scratch(elbow->making), "in the elbow, %s from its throat",
                               length_words(elbow, radii[i] - throat)));
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
    if (piece_given(elbow->piece, VANES))
        make_bend_vanes(elbow, shape.throat);
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

/* Single vanes of 2 in radius, 1-1/2 in apart along the diagonal of a square elbow of w x h: so many w h of sheet
 * (90 degrees of each is 3.14 in, and the diagonal is 1.41 w).  From memory: SMACNA, HVAC Duct Construction Standards,
 * small single vanes. */
static const double vanes_sheet = 1.41 * 3.14 / 1.5;

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
    *sheet = square && piece->far ? vanes_sheet * size_area(piece->far->size) : 0;
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
