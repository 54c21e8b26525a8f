/* Boots: from a round or rectangular runout to the register. */
#include "metal/metal.h"
#include "metal/shape_boot.h"
#include "model/lined.h"
#include "piece/common.h"
#include "piece/kinds.h"

#include <math.h>

enum { STYLE, OVER, MOVED };
enum style { STRAIGHT, ELBOW };

static const char *const style_words[] = {"straight", "elbow", NULL};
static const char example[] = "boot elbow over 8 in";
static const char moved_example[] = "boot straight over 8 in, left 4 in";

/* Length where none is given: common practice, no source. */
static const double inch_length = 8 * INCH;

static double usual_length(const struct piece *piece) {
    return measure_chosen(piece->system, inch_length);
}

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

/* From the duct to the face or back, brought to the velocity pressure of the duct: a loss on the smaller end's is
 * (duct area / smaller area)^2 as much on the duct's. */
static struct coefficient change_to_face(const struct piece_flow *flow, struct duct_size face, double length) {
    struct duct_size duct = flow->far.size;
    const char *name = trace_as(flow->trace, "Cend");
    struct coefficient change = flow->supply ? change_coefficient(flow->trace, duct, face, length)
                                             : change_coefficient(flow->trace, face, duct, length);
    trace_as(flow->trace, name);
    double smaller = fmin(size_area(duct), size_area(face)), ratio = size_area(duct) / smaller;
    TRACE_COEFFICIENT(flow->trace, "From the smaller end's velocity pressure to the duct's", "Cend x (A / Aend)^2",
                      change.value * ratio * ratio, SOURCE_NONE, trace_number("Cend", change.value),
                      trace_of(TRACE_AREA, "A", size_area(duct)), trace_of(TRACE_AREA, "Aend", smaller));
    change.value *= ratio * ratio;
    return change;
}

/* What the far end of the boot adds: a change to its face; with no face the duct is open to the room. */
static struct coefficient far_end(const struct piece_flow *flow, double length) {
    struct duct_size face = run_face(flow->piece->run);
    if (size_known(face))
        return change_to_face(flow, face, length);
    bool in_room = flow->piece->run && flow->piece->run->role != RUN_DUCT;
    if (in_room)
        return (struct coefficient){.value = flow->supply ? fitting_exit(flow->trace) : fitting_entry(flow->trace)};
    trace_read(flow->trace, "Its far end", "Cface", 0, SOURCE_NEAREST_BOOT, "with duct behind it");
    return (struct coefficient){0};
}

/* No relation; nearest: a square elbow of square duct in an elbow boot, a step aside in one that is moved, and the
 * change of area to the face. */
static void loss(const struct piece_flow *flow, struct loss *loss) {
    if (stream_still(flow->far))
        return;
    double length = piece_number(flow->piece, OVER, usual_length(flow->piece));
    const char *name = trace_as(flow->trace, "Cface");
    struct coefficient sum = far_end(flow, length);
    double face = sum.value, turn = 0;
    trace_as(flow->trace, "Cmove");
    double moved = move_coefficient(flow->trace, piece_move(flow->piece, MOVED), length, flow->far.size).value;
    trace_as(flow->trace, "Cturn");
    if (style_of(flow->piece) == ELBOW)
        turn = fitting_mitre(flow->trace, 90 * DEGREE, 1).value;
    trace_as(flow->trace, name);
    sum.value = face + moved + turn;
    TRACE_COEFFICIENT(flow->trace,
                      turn > 0    ? "Its face and its turn"
                      : moved > 0 ? "Its face and its step aside"
                                  : "Its face alone",
                      turn > 0    ? "Cface + Cturn"
                      : moved > 0 ? "Cface + Cmove"
                                  : "Cface",
                      sum.value, SOURCE_NEAREST_BOOT, trace_number("Cface", face), trace_number("Cmove", moved),
                      trace_number("Cturn", turn));
    loss_set(flow, loss, sum, flow->far, "duct", SOURCE_NEAREST_BOOT);
    loss_add_friction(loss, stream_friction(flow, flow->far, piece_number(flow->piece, OVER, 0)));
}

static double centre_line(const struct piece *piece, struct duct_size size) {
    (void)size;
    return piece_number(piece, OVER, usual_length(piece));
}

static const char *describe(const struct piece *piece, enum measure_system system, struct arena *arena) {
    const char *length = measure_text(arena, system, SHOW_CUT, piece_number(piece, OVER, usual_length(piece)));
    return arena_format(arena, "Boot, %s, %s long%s%s", style_words[style_of(piece)], length,
                        piece_given(piece, OVER) ? "" : " (assumed)", piece_move_words(piece, MOVED, system, arena));
}

static const char *title(const struct piece *piece, struct making *making, struct duct_size duct,
                         struct duct_size face) {
    struct arena *arena = making_scratch(making);
    return arena_format(arena, "%s, to a face of %s", made_words_sized(piece, making, duct),
                        size_text(arena, making_job(making)->system, face));
}

/* Its length is from the collar's end to the middle of the face.  One that does not say how long it is is longer where
 * its face needs it. */
static struct elbow_boot elbow_of(const struct piece *piece, struct duct_size duct, struct duct_size face) {
    double usual = fmax(usual_length(piece), face.height / 2 + 2 * elbow_boot_collar());
    return (struct elbow_boot){
        .duct = profile_of(duct),
        .face = profile_of(face),
        .collar = piece_number(piece, OVER, usual) - face.height / 2,
    };
}

static struct straight_boot straight_of(const struct piece *piece, struct duct_size duct, struct duct_size face) {
    struct move move = piece_move(piece, MOVED);
    return (struct straight_boot){
        .duct = profile_of(duct),
        .face = profile_of(face),
        .length = piece_number(piece, OVER, usual_length(piece)),
        .right = move.right,
        .up = move.up,
    };
}

/* The longer side lies across the duct. */
static struct duct_size face_across(struct duct_size face) {
    return (struct duct_size){face.shape, fmax(face.width, face.height), fmin(face.width, face.height)};
}

/* The longer side of the face takes the collar of an elbow boot. */
static void make(const struct piece *piece, struct making *making) {
    struct duct_size face = run_face(piece->run);
    if (!piece->near || !size_known(piece->near->size) || !size_known(face))
        return;
    struct duct_size duct = duct_metal(piece->near);
    struct order order = {
        .title = title(piece, making, duct, face),
        .near = duct,
        .far = face,
        .station = piece->station,
        .length = piece_number(piece, OVER, usual_length(piece)),
        .ready = "boot",
    };
    if (style_of(piece) == STRAIGHT) {
        struct straight_boot boot = straight_of(piece, duct, face);
        order.shape = "straight boot", order.build = shape_straight_boot;
        order.size = &boot, order.size_bytes = sizeof boot;
        make_part(making, &order);
        return;
    }
    struct duct_size turned = face_across(face);
    struct elbow_boot boot = elbow_of(piece, duct, turned);
    order.shape = "elbow boot", order.build = shape_elbow_boot;
    order.size = &boot, order.size_bytes = sizeof boot;
    order.length = boot.collar + turned.height / 2;
    make_part(making, &order);
}

/* Steeper than this a duct goes up or down, and its register faces a wall.  Chosen here: no source. */
static const double steep = 0.7;

/* Whether the face lies on the upper side of the duct's axes: under a floor it looks up, elsewhere down.  Behind a duct
 * that goes up or down it looks the way of that duct's top. */
static bool faces_up(const struct piece *piece, const struct frame *frame) {
    enum location location = piece->run->settings.location;
    bool upward = location == LOCATION_CRAWL || location == LOCATION_BASEMENT;
    return fabs(frame->along.z) > steep || upward == (frame->up.z >= 0);
}

static void place_elbow(const struct piece *piece, struct motion *motion, struct duct_size face) {
    struct duct_size duct = motion_size(motion), turned = face_across(face);
    struct elbow_boot boot = elbow_of(piece, duct, turned);
    double depth = elbow_boot_depth(boot.duct), up = faces_up(piece, motion_frame(motion)) ? 1 : -1;
    struct duct_size box = {SHAPE_RECTANGULAR, fmax(turned.width, duct.width), depth};
    motion_on(motion, boot.collar);
    struct frame far = frame_moved(&frame_near, 0, turned.height, 0);
    motion_fill(motion, &frame_near, box, &far, box);
    struct frame out = {
        .origin = {0, turned.height / 2, up * depth / 2}, .right = {1, 0, 0}, .along = {0, 0, up}, .up = {0, -up, 0}};
    motion_turn(motion, &out, turned);
    motion_face(motion, turned);
}

static void place(const struct piece *piece, struct motion *motion) {
    struct duct_size face = run_face(piece->run);
    if (!piece->near || !size_known(piece->near->size))
        return;
    double length = piece_number(piece, OVER, usual_length(piece));
    struct move move = piece_move(piece, MOVED);
    if (!size_known(face))
        motion_on(motion, length);
    else if (style_of(piece) == STRAIGHT)
        motion_change(motion, move.right, length, move.up, 0, face);
    else
        place_elbow(piece, motion, face);
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
    .traits = PIECE_FITS_FACE | PIECE_SQUARE,
    .prepare = prepare,
    .loss = loss,
    .centre_line = centre_line,
    .describe = describe,
    .make = make,
    .place = place,
};
