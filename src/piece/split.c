/* Splits: one duct becomes two. */
#include "metal/metal.h"
#include "metal/shape_change.h"
#include "metal/shape_split.h"
#include "model/lined.h"
#include "piece/common.h"
#include "piece/kinds.h"
#include "piece/vanes.h"

#include <math.h>

enum { STYLE, OVER, VANES };
enum style { WYE, TEE, BULLHEAD };

static const char *const style_words[] = {"wye", "tee", "bullhead", NULL};
static const char example[] = "split wye over 24 in";

/* Angle of each leg of a wye to the way on.  Common practice, no source. */
static const double wye_angle = 45 * DEGREE;
static const double square = 90 * DEGREE;

static const struct sense over_sense = OVER_SENSE(example);

static enum style style_of(const struct piece *piece) {
    return (enum style)piece_choice(piece, STYLE, WYE);
}

static void prepare(struct piece *piece, struct diagnostics *diagnostics) {
    if (!piece_sensible(piece, diagnostics, OVER, &over_sense))
        return;
    piece->length = piece_number(piece, OVER, 0);
    if (piece_given(piece, VANES) && style_of(piece) != BULLHEAD)
        piece_error(piece, diagnostics, piece_argument(piece, VANES)->at, "split bullhead over 24 in, vanes",
                    "vanes are for a bullhead: a %s has no wall that all the air runs against",
                    style_words[style_of(piece)]);
}

static unsigned legs(const struct piece *piece) {
    unsigned sides = 1u << LEG_LEFT | 1u << LEG_RIGHT;
    return style_of(piece) == TEE ? sides | 1u << LEG_STRAIGHT : sides;
}

/* What a leg of a split depends on. */
struct split {
    double flow, area;             /* this leg's share of the air, and its area over the whole duct's */
    double other_flow, other_area; /* the same of the other leg */
};

static struct split split_of(const struct piece_flow *flow) {
    double whole = size_area(flow->common.size);
    return (struct split){
        .flow = flow->branch.flow / flow->common.flow,
        .area = size_area(flow->branch.size) / whole,
        .other_flow = flow->through.flow / flow->common.flow,
        .other_area = size_area(flow->through.size) / whole,
    };
}

/* Areas farther apart than this are not those that a relation is for.  Chosen here: no source. */
static const double near_enough = 0.10;

/* Legs that together have the area of the whole, which K of diagram 7-16 is for. */
static bool legs_share(const struct split *s) {
    return fabs(s->area + s->other_area - 1) <= near_enough;
}

/* A tee's side leg: two diagrams, one for legs that share the whole area, one for a straight leg that keeps all of it.
 * At 90 degrees the first gives 1 whatever the leg's size: it is only for legs that do share; for all others the
 * second, which knows the leg's own velocity. */
static struct coefficient tee_side(struct trace *trace, const struct split *s, enum source_id *source) {
    double keeping = fabs(s->other_area - 1);
    bool shares = legs_share(s) && keeping > near_enough;
    if (shares)
        *source = SOURCE_IDELCHIK_SPLIT;
    else
        *source = keeping <= near_enough ? SOURCE_IDELCHIK_TAP : SOURCE_NEAREST_SPLIT;
    return shares ? fitting_split_leg(trace, square, s->flow, s->area)
                  : fitting_tap_branch(trace, square, s->flow, s->area);
}

static void dividing(const struct piece_flow *flow, const struct split *s, struct loss *loss) {
    struct trace *trace = flow->trace;
    bool smooth = piece_given(flow->piece, VANES);
    struct coefficient found = {0};
    enum source_id source = SOURCE_IDELCHIK_SPLIT;
    switch (style_of(flow->piece)) {
    case WYE:
        found = fitting_split_leg(trace, wye_angle, s->flow, s->area);
        source = legs_share(s) ? SOURCE_IDELCHIK_SPLIT : SOURCE_NEAREST_SPLIT;
        break;
    case TEE:
        found =
            flow->leg == LEG_STRAIGHT ? fitting_split_straight(trace, s->flow, s->area) : tee_side(trace, s, &source);
        break;
    case BULLHEAD:
        found = fitting_bullhead(trace, s->flow, s->area, smooth);
        source = smooth ? SOURCE_NEAREST_SPLIT : SOURCE_IDELCHIK_BULLHEAD;
        break;
    }
    loss_set(flow, loss, found, flow->common, "common", source);
}

/* Where the air comes together.  A tee is a branch into a run that goes on straight, and has its relation when the
 * straight leg is as large as the whole; a leg of a wye is taken as a branch of 45 degrees.  The two streams of a
 * bullhead run against each other: their relation is for legs of one size and no vanes. */
static void joining(const struct piece_flow *flow, const struct split *s, struct loss *loss) {
    struct trace *trace = flow->trace;
    struct coefficient found = {0};
    enum source_id source = SOURCE_NEAREST_SPLIT;
    switch (style_of(flow->piece)) {
    case WYE:
        found = fitting_join_branch(trace, wye_angle, s->flow, s->area);
        break;
    case TEE:
        found = flow->leg == LEG_STRAIGHT ? fitting_join_run(trace, square, s->other_flow, s->other_area)
                                          : fitting_join_branch(trace, square, s->flow, s->area);
        if (fabs((flow->leg == LEG_STRAIGHT ? s->area : s->other_area) - 1) <= near_enough)
            source = SOURCE_IDELCHIK_JOIN;
        break;
    case BULLHEAD:
        found = fitting_join_bullhead(trace, s->flow, s->area);
        if (fabs(s->area - s->other_area) <= near_enough * s->area && !piece_given(flow->piece, VANES))
            source = SOURCE_IDELCHIK_JOIN_BULLHEAD;
        break;
    }
    loss_set(flow, loss, found, flow->common, "common", source);
}

static void loss(const struct piece_flow *flow, struct loss *loss) {
    if (stream_still(flow->common) || stream_still(flow->branch))
        return;
    struct split split = split_of(flow);
    /* The straight leg of a joint is reckoned by what joins it. */
    bool other = !flow->supply && style_of(flow->piece) == TEE && flow->leg == LEG_STRAIGHT;
    stream_shares(flow->trace, other ? flow->through : flow->branch, flow->common);
    if (flow->supply)
        dividing(flow, &split, loss);
    else
        joining(flow, &split, loss);
    /* The leg's own way through the split. */
    loss_add_friction(loss, stream_friction(flow, flow->branch, piece_number(flow->piece, OVER, 0)));
}

static const char *describe(const struct piece *piece, enum measure_system system, struct arena *arena) {
    (void)system;
    const char *angle = "";
    if (style_of(piece) == WYE)
        angle = arena_format(arena, ", %s degrees (assumed)", piece_figure(arena, wye_angle / DEGREE));
    return arena_format(arena, "Split, %s%s%s", style_words[style_of(piece)],
                        piece_given(piece, VANES) ? ", vanes" : "", angle);
}

/* ---- What the shop makes ----------------------------------------------------------------------------------------- */

/* A split with the ducts at its ends. */
struct junction {
    struct making *making;
    const struct piece *piece;
    struct duct_size main, one, other; /* left and right leg; of a tee the side leg and the straight one */
    enum leg side;                     /* of a tee */
    double share;                      /* of the air that the first of them takes */
    double over;                       /* m; 0: not given */
};

/* The first duct of a leg; NULL: nothing hangs there, or it has no size. */
static const struct duct *leg_duct(const struct piece *piece, enum leg leg) {
    const struct run *run = piece->run->legs[leg];
    return run && run->first_duct && size_known(run->first_duct->size) ? run->first_duct : NULL;
}

/* False: an end has no size, so that there is nothing to lay out. */
static bool find_ends(struct junction *junction) {
    const struct piece *piece = junction->piece;
    bool tee = style_of(piece) == TEE;
    junction->side = tee && !leg_duct(piece, LEG_LEFT) ? LEG_RIGHT : LEG_LEFT;
    const struct duct *one = leg_duct(piece, junction->side), *other = leg_duct(piece, tee ? LEG_STRAIGHT : LEG_RIGHT);
    if (!piece->near || !size_known(piece->near->size) || !one || !other)
        return false;
    double all = one->flow + other->flow;
    junction->main = duct_metal(piece->near);
    junction->one = duct_metal(one);
    junction->other = duct_metal(other);
    junction->share = all > 0 ? one->flow / all : 0.5;
    junction->over = piece_number(piece, OVER, 0);
    return true;
}

static const char *junction_title(const struct junction *junction, const char *name, const char *one,
                                  const char *other) {
    struct arena *arena = making_scratch(junction->making);
    enum measure_system system = making_job(junction->making)->system;
    return arena_format(arena, "%s, %s; %s %s, %s %s", name, size_text(arena, system, junction->main), one,
                        size_text(arena, system, junction->one), other, size_text(arena, system, junction->other));
}

/* What all its parts have of the split. */
static struct order part_of(const struct junction *junction) {
    bool one_larger = size_area(junction->one) >= size_area(junction->other);
    return (struct order){
        .near = junction->main,
        .far = one_larger ? junction->one : junction->other,
        .station = junction->piece->station,
    };
}

/* `part` has the name, the builder and the size, and whether a change comes behind it. */
static void make_junction(const struct junction *junction, struct order part, double length) {
    struct order ends = part_of(junction);
    part.near = ends.near;
    part.far = ends.far;
    part.station = ends.station;
    part.length = length;
    make_part(junction->making, &part);
}

/* Steeper than this no side of a split goes: the air would run against it as in a bullhead.  Common practice, no
 * source. */
static const double steepest = 60 * DEGREE;

/* The longest side of a sheet that the shop has for it, m. */
static double longest_sheet(const struct junction *j) {
    const struct stock *stock = making_stock(j->making, j->main);
    double longest = 0;
    for (size_t i = 0; i < stock->sheets.count; i++)
        longest = fmax(longest, fmax(stock->sheets.at[i].sides[0], stock->sheets.at[i].sides[1]));
    return longest;
}

/* Whether a length that the job gives makes no sense of the split: `enough` m would do. */
static bool is_absurd(const struct junction *j, double slope, double enough) {
    const char *style = style_words[style_of(j->piece)];
    const char *hint = split_hint(making_scratch(j->making), making_job(j->making)->system, style, enough);
    if (j->over > enough && j->over > longest_sheet(j)) {
        make_fault(j->making, hint,
                   "the split is longer than any sheet of the shop: go on with straight duct behind it");
        return true;
    }
    if (j->over > 0 && slope > tan(steepest)) {
        make_fault(j->making, hint,
                   arena_format(making_scratch(j->making),
                                "a side of the split leaves the way by %.0f degrees, more than %.0f",
                                atan(slope) / DEGREE, steepest / DEGREE));
        return true;
    }
    return false;
}

static bool is_round(struct duct_size size) {
    return size.shape == SHAPE_ROUND;
}

static void make_wye(const struct junction *j) {
    const char *title = junction_title(j, "Wye", "left leg", "right leg");
    if (is_round(j->main) && is_round(j->one) && is_round(j->other)) {
        struct round_wye size = round_wye_for(j->main.width, j->one.width, j->other.width, j->over);
        struct order part = {
            .title = title, .shape = "round wye", .build = shape_round_wye, .size = &size, .size_bytes = sizeof size};
        if (!is_absurd(j, round_wye_slope(&size), size.enough))
            make_junction(j, part, size.along);
        return;
    }
    struct wye size = wye_for(profile_of(j->main), profile_of(j->one), profile_of(j->other), j->share, j->over);
    struct order part = {.title = title, .shape = "wye", .build = shape_wye, .size = &size, .size_bytes = sizeof size};
    if (!is_absurd(j, wye_slope(&size), size.enough))
        make_junction(j, part, size.left.along + size.left.loft);
}

/* Behind a tee in round or oval duct the change to the straight leg is a part of its own, flat on the side away from
 * the leg. */
static void make_reducer(const struct junction *j, const struct collar_tee *tee, double begins, double length) {
    struct arena *arena = making_scratch(j->making);
    enum measure_system system = making_job(j->making)->system;
    struct change_shape size = {
        .near = shape_duct_of(j->main),
        .far = shape_duct_of(j->other),
        .length = length,
        .right = -tee->way * (j->main.width - j->other.width) / 2,
    };
    const char *title = arena_format(arena, "Change behind a tee, %s to %s", size_text(arena, system, j->main),
                                     size_text(arena, system, j->other));
    make_part(j->making, &(struct order){
                             .title = title,
                             .shape = "transition",
                             .build = shape_change,
                             .size = &size,
                             .size_bytes = sizeof size,
                             .near = j->main,
                             .far = j->other,
                             .station = j->piece->station + begins,
                             .length = length,
                         });
}

static void make_collar_tee(const struct junction *j, const char *title, double way) {
    double reducer = 0;
    struct profile main = profile_of(j->main), side = profile_of(j->one);
    struct collar_tee size = collar_tee_for(main, side, profile_of(j->other), way, j->over, &reducer);
    double length = size.before + size.side.width + size.after;
    bool changes = !size_equal(j->main, j->other);
    if (changes && reducer < SPLIT_LEAST) {
        make_fault(j->making, split_hint(making_scratch(j->making), making_job(j->making)->system, "tee", size.enough),
                   "the tee is too short: there is no room to change to its straight leg's size");
        return;
    }
    struct order part = {.title = title,
                         .shape = "tee with a collar",
                         .build = shape_collar_tee,
                         .size = &size,
                         .size_bytes = sizeof size,
                         .changes_behind = changes};
    double slope = changes ? fabs(j->main.width - j->other.width) / reducer : 0;
    if (is_absurd(j, slope, size.enough))
        return;
    make_junction(j, part, length);
    if (changes)
        make_reducer(j, &size, length, reducer);
}

static void make_tee(const struct junction *j) {
    double way = j->side == LEG_RIGHT ? 1 : -1;
    const char *title = junction_title(j, "Tee", way > 0 ? "right leg" : "left leg", "straight leg");
    struct profile main = profile_of(j->main), side = profile_of(j->one);
    if (collar_tee_fits(main, side)) {
        make_collar_tee(j, title, way);
        return;
    }
    struct tee size = tee_for(main, side, profile_of(j->other), way, j->over);
    struct order part = {.title = title, .shape = "tee", .build = shape_tee, .size = &size, .size_bytes = sizeof size};
    if (!is_absurd(j, tee_slope(&size), size.enough))
        make_junction(j, part, tee_length(&size));
}

static void make_bullhead(const struct junction *j) {
    double vanes = piece_given(j->piece, VANES) ? (double)making_job(j->making)->system + 1 : 0;
    const char *title = junction_title(j, "Bullhead", "left leg", "right leg");
    struct bullhead size =
        bullhead_for(profile_of(j->main), profile_of(j->one), profile_of(j->other), j->share, j->over, vanes);
    struct order part = {
        .title = title, .shape = "bullhead", .build = shape_bullhead, .size = &size, .size_bytes = sizeof size};
    if (is_absurd(j, 0, size.enough))
        return;
    make_junction(j, part, size.loft + size.neck + fmax(size.left.width, size.right.width));
    struct order in = part_of(j);
    for (int right = 0; right < 2 && vanes > 0; right++)
        make_railed_vanes(j->making, &in, bullhead_rail(&size, right == 1), square, j->main.height,
                          right ? "between the rails to the right leg" : "between the rails to the left leg");
}

static void make(const struct piece *piece, struct making *making) {
    struct junction junction = {.making = making, .piece = piece};
    if (!find_ends(&junction))
        return;
    switch (style_of(piece)) {
    case WYE:
        make_wye(&junction);
        break;
    case TEE:
        make_tee(&junction);
        break;
    case BULLHEAD:
        make_bullhead(&junction);
        break;
    }
}

/* ---- Where its legs are ------------------------------------------------------------------------------------------ */

/* Both legs go on beside each other. */
static void place_wye(const struct junction *j, struct motion *motion) {
    struct round_wye round;
    struct wye flat;
    bool is_cones = is_round(j->main) && is_round(j->one) && is_round(j->other);
    if (is_cones)
        round = round_wye_for(j->main.width, j->one.width, j->other.width, j->over);
    else
        flat = wye_for(profile_of(j->main), profile_of(j->one), profile_of(j->other), j->share, j->over);
    for (int right = 0; right < 2; right++) {
        struct frame at = is_cones ? round_wye_leg_frame(&round, right) : wye_leg_frame(&flat, right);
        motion_fill(motion, &frame_near, j->main, &at, right ? j->other : j->one);
        motion_leg(motion, right ? LEG_RIGHT : LEG_LEFT, &at);
    }
}

/* A box from the near end to a leg of it ahead, and a collar of it to the side. */
static void fill_side(struct motion *motion, const struct frame *leg, struct duct_size size, struct duct_size main) {
    struct frame base = *leg;
    base.origin.x = copysign(main.width / 2, leg->origin.x);
    motion_fill(motion, &base, size, leg, size);
}

static void place_tee(const struct junction *j, struct motion *motion) {
    double way = j->side == LEG_RIGHT ? 1 : -1, reducer = 0;
    struct profile main = profile_of(j->main), side = profile_of(j->one), straight = profile_of(j->other);
    struct frame out, on, turn; /* of the side leg, of the straight one, and where the box begins to come in to that */
    if (collar_tee_fits(main, side)) {
        struct collar_tee tee = collar_tee_for(main, side, straight, way, j->over, &reducer);
        out = collar_tee_side_frame(&tee);
        bool changes = !size_equal(j->main, j->other);
        double length = tee.before + side.width + tee.after + (changes ? reducer : 0);
        on = frame_moved(&frame_near, changes ? -way * (main.width - straight.width) / 2 : 0, length, 0);
        turn = frame_moved(&frame_near, 0, tee.before + side.width + tee.after, 0);
    } else {
        struct tee tee = tee_for(main, side, straight, way, j->over);
        out = tee_side_frame(&tee);
        on = tee_straight_frame(&tee);
        turn = frame_moved(&frame_near, 0, tee.loft + tee.before + side.width + tee.after, 0);
    }
    motion_fill(motion, &frame_near, j->main, &turn, j->main);
    if (space_distance(turn.origin, on.origin) > SAME_POINT)
        motion_fill(motion, &turn, j->main, &on, j->other);
    fill_side(motion, &out, j->one, j->main);
    motion_leg(motion, j->side, &out);
    motion_leg(motion, LEG_STRAIGHT, &on);
}

static void place_bullhead(const struct junction *j, struct motion *motion) {
    struct bullhead size =
        bullhead_for(profile_of(j->main), profile_of(j->one), profile_of(j->other), j->share, j->over, 0);
    double length = size.loft + size.neck + fmax(size.left.width, size.right.width);
    struct frame wall = frame_moved(&frame_near, 0, length, 0);
    motion_fill(motion, &frame_near, j->main, &wall, j->main);
    for (int right = 0; right < 2; right++) {
        struct frame at = bullhead_leg_frame(&size, right);
        fill_side(motion, &at, right ? j->other : j->one, j->main);
        motion_leg(motion, right ? LEG_RIGHT : LEG_LEFT, &at);
    }
}

static void place(const struct piece *piece, struct motion *motion) {
    struct junction junction = {.piece = piece};
    if (!find_ends(&junction))
        return;
    switch (style_of(piece)) {
    case WYE:
        place_wye(&junction, motion);
        break;
    case TEE:
        place_tee(&junction, motion);
        break;
    case BULLHEAD:
        place_bullhead(&junction, motion);
        break;
    }
}

const struct piece_kind piece_split = {
    .form =
        {
            .word = "split",
            .places = IN_RUN,
            .slots =
                {
                    [STYLE] = {.kind = SLOT_CHOICE,
                               .use = SLOT_REQUIRED,
                               .choices = style_words,
                               .meaning = "its kind: wye, tee or bullhead"},
                    [OVER] =
                        {.kind = SLOT_QUANTITY, .key = "over", .measure = MEASURE_LENGTH, .meaning = "how long it is"},
                    [VANES] = {.kind = SLOT_FLAG, .key = "vanes", .meaning = "turning vanes in a bullhead"},
                },
            .meaning = "one duct becomes two: legs .left and .right, of a tee also .straight with one of them",
            .example = example,
        },
    .title = "Split",
    .traits = PIECE_SPLITS | PIECE_ENDS_RUN,
    .prepare = prepare,
    .legs = legs,
    .loss = loss,
    .describe = describe,
    .make = make,
    .place = place,
};
