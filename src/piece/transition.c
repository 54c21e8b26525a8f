/* Transitions: from one size to another, rectangular, round or oval; in line, flat on a side, moved aside or turned. */
#include "metal/metal.h"
#include "metal/shape_change.h"
#include "model/lined.h"
#include "piece/common.h"
#include "piece/kinds.h"
#include "piece/twist.h"

#include <math.h>

enum { TO, OVER, FLAT, CENTRED, TURNED, MOVED };

/* Which sides stay in line, each the way the change then goes: the far end's centre by half the change of the side. */
static const struct {
    int right, up; /* of the centre of a far end that is smaller; 0: that pair of sides shares the change */
} flats[] = {{0, 1}, {0, -1}, {-1, 0}, {1, 0}, {-1, 1}, {1, 1}, {-1, -1}, {1, -1}};
static const char *const flat_words[] = {"top",       "bottom",      "left",         "right", "top-left",
                                         "top-right", "bottom-left", "bottom-right", NULL};
static const char example[] = "transition to 14 x 8 over 18 in, flat top";
static const char moved_example[] = "transition to 14 x 8 over 18 in, flat top, left 4 in";
static const char turned_example[] = "transition to 14 x 8 over 18 in, turned 15";

/* Length of a transition that the job did not write, over the greater change of a side.  Common practice, no source: it
 * makes an angle of 14 degrees on each of two sides. */
static const double usual_length = 2;

static const struct sense over_sense = OVER_SENSE(example);

/* Beyond a quarter turn it is the other way round that is meant. */
static const struct sense turned_sense = {
    .low = -90 * DEGREE,
    .high = 90 * DEGREE,
    .expected = "a turn of 1 to 90 degrees, clockwise, or of -1 to -90 the other way",
    .hint = turned_example,
};
static const double least_turn = 1 * DEGREE;

/* A side that stays in line lets its end move along itself only, and not turn. */
static bool flat_sensible(struct piece *piece, struct diagnostics *diagnostics) {
    if (!piece_given(piece, FLAT))
        return true;
    int flat = piece_choice(piece, FLAT, 0);
    const char *side = flat_words[flat];
    const struct argument *across = flats[flat].right ? piece_move_given(piece, MOVED, WAY_LEFT, WAY_RIGHT) : NULL;
    const struct argument *along = flats[flat].up ? piece_move_given(piece, MOVED, WAY_UP, WAY_DOWN) : NULL;
    if (across || along)
        piece_error(piece, diagnostics, (across ? across : along)->at, moved_example,
                    "moved that way the %s is not flat: expected one or the other", side);
    else if (piece_given(piece, TURNED))
        piece_error(piece, diagnostics, piece_argument(piece, TURNED)->at, turned_example,
                    "a turned end has no flat %s: expected one or the other", side);
    return !piece->reading.faulty;
}

static bool centred_sensible(struct piece *piece, struct diagnostics *diagnostics) {
    struct span centred = piece_argument(piece, CENTRED)->at;
    if (!piece_given(piece, CENTRED))
        return true;
    if (piece_given(piece, FLAT))
        piece_error(piece, diagnostics, centred, example,
                    "a transition with a flat side is not centred: expected one or the other");
    else if (piece_move_given(piece, MOVED, WAY_LEFT, WAY_DOWN))
        piece_error(piece, diagnostics, centred, "transition to 14 x 8 over 18 in, left 4 in",
                    "a transition that is moved aside is not centred: expected one or the other");
    return !piece->reading.faulty;
}

static bool quarter(double angle) {
    return fabs(fabs(angle) - 90 * DEGREE) < 1e-9;
}

static bool even(struct duct_size size) {
    return fabs(size.width - size.height) < 1e-9;
}

static bool turned_sensible(struct piece *piece, struct diagnostics *diagnostics) {
    const struct argument *turned = piece_argument(piece, TURNED);
    if (!turned->given)
        return true;
    if (!piece_sensible(piece, diagnostics, TURNED, &turned_sense))
        return false;
    if (fabs(turned->number) < least_turn * (1 - 1e-9))
        piece_error(piece, diagnostics, turned->at, turned_example, "expected %s", turned_sense.expected);
    else if (piece_given(piece, TO) && piece_size(piece, TO).shape == SHAPE_ROUND)
        piece_error(piece, diagnostics, turned->at, turned_example, "a round end is the same however it is turned");
    else if (quarter(turned->number) && piece_given(piece, TO) && even(piece_size(piece, TO)))
        piece_error(piece, diagnostics, turned->at, NULL,
                    "a square end turned by 90 degrees is the same as one that is not turned: take it out");
    return !piece->reading.faulty;
}

static void prepare(struct piece *piece, struct diagnostics *diagnostics) {
    if (piece_size_sensible(piece, diagnostics, TO, 2, example) &&
        piece_sensible(piece, diagnostics, OVER, &over_sense) &&
        piece_move_sensible(piece, diagnostics, MOVED, moved_example) && flat_sensible(piece, diagnostics) &&
        centred_sensible(piece, diagnostics) && turned_sensible(piece, diagnostics))
        piece->length = piece_number(piece, OVER, 0);
}

static struct duct_size resize(const struct piece *piece) {
    return piece_size(piece, TO);
}

static double transition_length(const struct piece *piece, struct duct_size near, struct duct_size far) {
    double wider = fabs(near.width - far.width), higher = fabs(near.height - far.height);
    return piece_given(piece, OVER) ? piece_number(piece, OVER, 0) : usual_length * fmax(wider, higher);
}

/* Where the centre of the far end lies, by its flat sides and by what it is moved besides. */
static struct move centre(const struct piece *piece, struct duct_size near, struct duct_size far) {
    struct move move = piece_move(piece, MOVED);
    int flat = piece_choice(piece, FLAT, -1);
    if (flat < 0)
        return move;
    move.right += flats[flat].right * (near.width - far.width) / 2;
    move.up += flats[flat].up * (near.height - far.height) / 2;
    return move;
}

/* Clockwise as you look away from the unit, rad; round ends are the same however they are turned. */
static double turn(const struct piece *piece, struct duct_size from, struct duct_size to) {
    bool round = from.shape == SHAPE_ROUND || to.shape == SHAPE_ROUND;
    return round ? 0 : piece_number(piece, TURNED, 0);
}

/* An edge that goes `outward` so far in `length`. */
static void edge_taper(double outward, double length, double *widens, double *narrows) {
    double angle = atan2(fabs(outward), length);
    if (outward > 0)
        *widens = fmax(*widens, angle);
    else
        *narrows = fmax(*narrows, angle);
}

static void taper(const struct piece *piece, struct duct_size from, struct duct_size to, double *widens,
                  double *narrows) {
    double length = transition_length(piece, from, to), angle = turn(piece, from, to);
    struct move move = centre(piece, from, to); /* its sign is of no account: each edge has one opposite */
    *widens = *narrows = 0;
    for (int corner = 0; corner < 4; corner++) {
        int x = corner & 1 ? 1 : -1, y = corner & 2 ? 1 : -1;
        double right = x * to.width / 2, up = y * to.height / 2;
        double turned_right = right * cos(angle) + up * sin(angle), turned_up = up * cos(angle) - right * sin(angle);
        edge_taper(x * (turned_right + move.right) - from.width / 2, length, widens, narrows);
        edge_taper(y * (turned_up + move.up) - from.height / 2, length, widens, narrows);
    }
}

/* Between an end and the narrower section halfway: into it, or out of it. */
static double half_way(struct trace *trace, double middle, double end, double length, bool out) {
    double angle = fitting_cone_angle(trace, middle, end, length), ratio = middle / end;
    TRACE(trace, TRACE_NUMBER, "Section halfway over the end", "n", "Am / A", ratio, SOURCE_NONE,
          trace_of(TRACE_AREA, "Am", middle), trace_of(TRACE_AREA, "A", end));
    return out ? fitting_diffuser(trace, ratio, angle).value : fitting_contraction(trace, ratio, angle).value;
}

/* Edges that turn about the duct's line draw nearer to it halfway.  The sheet between them, broken on its shorter
 * diagonals, stands out beyond that (twist.h); for what the air loses as it is rolled round there is no relation, and
 * the nearest, on the safe side, leaves the sheet out: the air is drawn together to the section there and spreads
 * again, half the length each.  Its corners lie halfway between those of the ends: area
 * ((w + W cos a) (h + H cos a) + W H sin^2 a) / 4.  0 where that section is no smaller than the ends. */
static double twist_loss(struct trace *trace, const struct piece *piece, struct duct_size from, struct duct_size to,
                         double length) {
    double angle = turn(piece, from, to), c = cos(angle), s = sin(angle);
    double middle = ((from.width + to.width * c) * (from.height + to.height * c) + to.width * to.height * s * s) / 4;
    double before = size_area(from), after = size_area(to), smaller = fmin(before, after);
    if (angle == 0 || !(middle < smaller))
        return 0;
    const char *name = trace_as(trace, "Cin");
    TRACE(trace, TRACE_AREA, "Section halfway, the ends turned", "Am",
          "((w + W x cos(a)) x (h + H x cos(a)) + W x H x sin(a)^2) / 4", middle, SOURCE_NONE,
          trace_of(TRACE_LENGTH, "w", from.width), trace_of(TRACE_LENGTH, "W", to.width),
          trace_of(TRACE_LENGTH, "h", from.height), trace_of(TRACE_LENGTH, "H", to.height),
          trace_of(TRACE_ANGLE, "a", angle));
    double in = half_way(trace, middle, before, length / 2, false);
    trace_as(trace, "Cout");
    double out = half_way(trace, middle, after, length / 2, true);
    trace_as(trace, name);
    /* From the velocity there to the smaller end's. */
    double value = (in + out) * (smaller / middle) * (smaller / middle);
    TRACE_COEFFICIENT(trace, "Of its turn, on the smaller end", "(Cin + Cout) x (As / Am)^2", value,
                      SOURCE_NEAREST_CHANGE, trace_number("Cin", in), trace_number("Cout", out),
                      trace_of(TRACE_AREA, "As", smaller), trace_of(TRACE_AREA, "Am", middle));
    return value;
}

/* How a transition's coefficient is put together, of what there is. */
static const char *change_words(struct trace *trace, double growing, double turned, double moved) {
    const char *sides =
        arena_format(trace->arena, "Cchange%s%s", growing > 0 ? ", Cgrowing" : "", turned > 0 ? ", Cturn" : "");
    bool several = growing > 0 || turned > 0;
    return arena_format(trace->arena, "%s%s%s%s", several ? "max(" : "", sides, several ? ")" : "",
                        moved > 0 ? " + Cmove" : "");
}

/* By the cone between round ends of the same areas and the declared length, whichever side is flat; an end that is
 * moved (NULL: it is not) adds a step aside in the smaller of both. */
static struct coefficient change_of(const struct piece_flow *flow, struct duct_size from, struct duct_size to,
                                    double length, const struct move *move) {
    const char *name = trace_as(flow->trace, "Cchange");
    struct coefficient change = change_coefficient(flow->trace, from, to, length);
    double cone = change.value;
    trace_as(flow->trace, "Cgrowing");
    double growing = growing_side(flow->trace, from, to, length);
    trace_as(flow->trace, "Cturn");
    double turned = twist_loss(flow->trace, flow->piece, from, to, length);
    trace_as(flow->trace, "Cmove");
    struct duct_size smaller = size_area(to) > size_area(from) ? from : to;
    double moved = move ? move_coefficient(flow->trace, *move, length, smaller).value : 0;
    trace_as(flow->trace, name);
    change.value = fmax(fmax(cone, growing), turned) + moved;
    TRACE_COEFFICIENT(flow->trace, "The greatest of what its sides do, and a step aside",
                      change_words(flow->trace, growing, turned, moved), change.value, SOURCE_NEAREST_CHANGE,
                      trace_number("Cchange", cone), trace_number("Cgrowing", growing), trace_number("Cturn", turned),
                      trace_number("Cmove", moved));
    return change;
}

/* Friction at the mean of both ends. */
static void loss(const struct piece_flow *flow, struct loss *loss) {
    struct stream from = air_from(flow), to = air_to(flow);
    if (stream_still(from) || stream_still(to))
        return;
    double length = transition_length(flow->piece, flow->near.size, flow->far.size);
    bool round = from.size.shape == SHAPE_ROUND && to.size.shape == SHAPE_ROUND;
    bool widens = size_area(to.size) > size_area(from.size);
    enum source_id source = widens ? SOURCE_IDELCHIK_DIFFUSER : SOURCE_IDELCHIK_CONTRACTION;
    struct move move = piece_move(flow->piece, MOVED);
    bool moved = move.right != 0 || move.up != 0;
    struct coefficient change = change_of(flow, from.size, to.size, length, moved ? &move : NULL);
    bool faster_before = stream_pressure(flow->air, from) > stream_pressure(flow->air, to);
    loss_set(flow, loss, change, faster_before ? from : to, "smaller end",
             round && !moved ? source : SOURCE_NEAREST_CHANGE);
    double way = hypot(length, hypot(move.right, move.up));
    TRACE(flow->trace, TRACE_LENGTH, "Half its way, for each end", "L", "sqrt(over^2 + across^2 + up^2) / 2", way / 2,
          SOURCE_NONE, trace_of(TRACE_LENGTH, "over", length), trace_of(TRACE_LENGTH, "across", fabs(move.right)),
          trace_of(TRACE_LENGTH, "up", fabs(move.up)));
    loss_add_friction(loss, stream_friction(flow, from, way / 2) + stream_friction(flow, to, way / 2));
}

/* Of one that the job did not write, once its ends have sizes. */
static const char *assumed_length(const struct piece *piece, enum measure_system system, struct arena *arena) {
    bool known = piece->near && piece->far && size_known(piece->near->size) && size_known(piece->far->size);
    if (piece_given(piece, OVER) || !known)
        return "";
    double length = transition_length(piece, duct_metal(piece->near), duct_metal(piece->far));
    return arena_format(arena, ", %s long", measure_text(arena, system, SHOW_CUT, length));
}

static const char *describe(const struct piece *piece, enum measure_system system, struct arena *arena) {
    struct duct_size to = piece_size(piece, TO);
    const char *flat =
        piece_given(piece, FLAT) ? arena_format(arena, ", flat %s", flat_words[piece_choice(piece, FLAT, 0)]) : "";
    const char *size = size_known(to) ? arena_format(arena, " to %s", size_text(arena, system, to)) : "";
    const char *turned =
        piece_given(piece, TURNED)
            ? arena_format(arena, ", turned %s", piece_figure(arena, piece_number(piece, TURNED, 0) / DEGREE))
            : "";
    return arena_format(arena, "Transition%s%s%s%s%s%s", size, flat, piece_given(piece, CENTRED) ? ", centred" : "",
                        piece_move_words(piece, MOVED, system, arena), turned, assumed_length(piece, system, arena));
}

static const char *make_title(struct making *making, const struct change_shape *shape, struct duct_size near,
                              struct duct_size far) {
    struct arena *arena = making_scratch(making);
    enum measure_system system = making_job(making)->system;
    const char *turned = fabs(shape->turned) > 0 ? ", turned" : "";
    const char *aside = fabs(shape->right) > 0 || fabs(shape->up) > 0 ? ", off centre" : "";
    return arena_format(arena, "Transition, %s to %s, %s long%s%s", size_text(arena, system, near),
                        size_text(arena, system, far), measure_text(arena, system, SHOW_CUT, shape->length), aside,
                        turned);
}

/* Both of its ends have sizes. */
static struct change_shape shape_of(const struct piece *piece) {
    struct duct_size near = duct_metal(piece->near), far = duct_metal(piece->far);
    struct move move = centre(piece, near, far);
    return (struct change_shape){
        .near = shape_duct_of(near),
        .far = shape_duct_of(far),
        .length = transition_length(piece, near, far),
        .right = move.right,
        .up = move.up,
        .turned = turn(piece, near, far),
    };
}

static void make(const struct piece *piece, struct making *making) {
    if (!piece->near || !piece->far || !size_known(piece->near->size) || !size_known(piece->far->size))
        return;
    struct duct_size near = duct_metal(piece->near), far = duct_metal(piece->far);
    struct change_shape shape = shape_of(piece);
    if (!(shape.length > 0)) /* nothing changes, so that nothing joins */
        return;
    make_part(making, &(struct order){
                          .title = make_title(making, &shape, near, far),
                          .shape = "transition",
                          .build = shape_change,
                          .size = &shape,
                          .size_bytes = sizeof shape,
                          .near = near,
                          .far = far,
                          .station = piece->station,
                          .length = shape.length,
                      });
}

static bool twist(const struct piece *piece, double *broken, double *open) {
    struct change_shape shape = shape_of(piece);
    if (shape.turned == 0 || !(shape.length > 0))
        return false;
    struct twist twist = twist_of(&shape);
    *broken = twist.broken;
    *open = twist.open;
    return true;
}

/* Turned a quarter back, with its sides exchanged, an end is the same: beyond 45 degrees that is the shorter way. */
static const char *untwisted(const struct piece *piece, enum measure_system system, struct arena *arena) {
    struct duct_size far = piece->far->size;
    double angle = turn(piece, piece->near->size, far) / DEGREE;
    if (!(fabs(angle) > 45 + 1e-9))
        return NULL;
    double other = angle > 0 ? angle - 90 : angle + 90;
    struct duct_size exchanged = {far.shape, far.height, far.width};
    const char *turned = fabs(other) < 1 ? "" : arena_format(arena, ", turned %s", piece_figure(arena, other));
    return arena_format(arena, "transition to %s over %s%s%s", size_figures(arena, system, exchanged),
                        measure_text_up(arena, system, SHOW_LINE, transition_length(piece, piece->near->size, far)),
                        piece_move_line(piece, MOVED, system, arena), turned);
}

static void place(const struct piece *piece, struct motion *motion) {
    if (!piece->near || !piece->far || !size_known(piece->near->size) || !size_known(piece->far->size))
        return;
    struct duct_size near = duct_metal(piece->near), far = duct_metal(piece->far);
    struct move move = centre(piece, near, far);
    double length = transition_length(piece, near, far);
    if (length > 0) /* else nothing changes */
        motion_change(motion, move.right, length, move.up, turn(piece, near, far), far);
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
                              .meaning =
                                  "the side or corner that stays in line: top, bottom, left, right, top-left ..."},
                    [CENTRED] = {.kind = SLOT_FLAG, .key = "centred", .meaning = "the change is shared by both sides"},
                    [TURNED] = {.kind = SLOT_QUANTITY,
                                .key = "turned",
                                .measure = MEASURE_ANGLE,
                                .meaning = "how far the far end is rolled, clockwise as you look away from the unit"},
                    MOVE_SLOTS(MOVED),
                },
            .meaning = "a change of size or shape; its size follows from the air it still carries unless it says",
            .example = example,
        },
    .title = "Transition",
    .traits = PIECE_RESIZES | PIECE_IMPLIED_CHANGE | PIECE_SQUARE,
    .prepare = prepare,
    .resize = resize,
    .loss = loss,
    .describe = describe,
    .taper = taper,
    .twist = twist,
    .untwisted = untwisted,
    .make = make,
    .place = place,
};
