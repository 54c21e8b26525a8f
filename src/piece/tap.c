/* Taps: what joins a run to the side of another. */
#include "metal/shape_tap_wall.h"
#include "model/lined.h"
#include "piece/common.h"
#include "model/taps.h"
#include "piece/kinds.h"

#include <math.h>

enum { STYLE };

static const char *const style_words[] = {"straight", "shoe", "conical", "spin", "saddle", NULL};

/* The words in the order of enum tap_style.  Each as a plain branch of some angle: straight and spin collars by the
 * diagram; for the others there is none, and these are the nearest: common practice, no source. */
static const struct {
    double angle;
    bool nearest;
} styles[] = {
    [TAP_STRAIGHT] = {90 * DEGREE, false}, [TAP_SHOE] = {45 * DEGREE, true},   [TAP_CONICAL] = {60 * DEGREE, true},
    [TAP_SPIN] = {90 * DEGREE, false},     [TAP_SADDLE] = {90 * DEGREE, true},
};

static enum tap_style style_of(const struct piece *piece) {
    return (enum tap_style)piece_choice(piece, STYLE, TAP_STRAIGHT);
}

/* The relations hold for a duct that keeps its size past the tap; a transition right behind it has its own loss. */
static void loss(const struct piece_flow *flow, struct loss *loss) {
    if (stream_still(flow->common) || !size_known(flow->branch.size))
        return;
    enum tap_style style = style_of(flow->piece);
    double share = flow->branch.flow / flow->common.flow;
    double area = size_area(flow->branch.size) / size_area(flow->common.size);
    double angle = styles[style].angle;
    struct trace *trace = flow->trace;
    enum source_id own = flow->supply ? SOURCE_IDELCHIK_TAP : SOURCE_IDELCHIK_JOIN;
    enum source_id source = styles[style].nearest ? SOURCE_NEAREST_TAP : own;
    stream_shares(trace, flow->branch, flow->common);
    trace_read(trace, "Its angle to the way on, degrees", "a", angle / DEGREE, source, "as a plain branch");
    struct coefficient found;
    if (flow->role == ITEM_PAST)
        found = flow->supply ? fitting_tap_run(trace, share, area) : fitting_join_run(trace, angle, share, area);
    else
        found = flow->supply ? fitting_tap_branch(trace, angle, share, area)
                             : fitting_join_branch(trace, angle, share, area);
    loss_set(flow, loss, found, flow->common, "common", source);
}

/* A shoe is longer on the inside of the turn, where it slopes at 45 degrees: by a quarter of its length along the
 * parent, 4 in at least.  From memory: SMACNA HVAC Duct Construction Standards, 45-degree entry.  Supply air comes from
 * the unit and return air goes to it, so that the inside of the turn is toward the unit either way. A cone is an inch
 * larger than its run all round: common practice, no source.  The flange of a saddle lies outside its hole. */
static void opening(const struct piece *piece, struct duct_size run, struct tap_opening *opening) {
    enum tap_style style = style_of(piece);
    if (style == TAP_CONICAL)
        *opening = (struct tap_opening){.across = 1 * INCH, .upstream = 0.5 * INCH, .downstream = 0.5 * INCH};
    else if (style == TAP_SHOE)
        opening->upstream = fmax(4 * INCH, tap_along(piece->run->from.side, run) / 4);
}

static const char *describe(const struct piece *piece, enum measure_system system, struct arena *arena) {
    (void)system;
    return arena_format(arena, "Tap, %s", style_words[style_of(piece)]);
}

struct tap_size tap_size_of(const struct run *tapped) {
    const struct piece *piece = tapped->pieces.count ? tapped->pieces.at[0] : NULL;
    struct duct_size run = duct_metal(tapped->first_duct);
    struct tap_size tap = {.style = TAP_STRAIGHT, .run = profile_of(run)};
    if (piece && piece->kind == &piece_tap) {
        tap.style = (double)style_of(piece);
        opening(piece, run, &tap.base);
    }
    tap_on(&tap, tapped->from.side,
           profile_of(tapped_metal(&tapped->from, duct_metal(tapped->first_section->parent->duct))));
    tap_lengths(&tap);
    return tap;
}

/* m2 of its walls, as a tube that spreads evenly, but for its collar. */
static double walls_of(enum tap_style style, const struct tap_size *tap) {
    struct tap_size as = *tap;
    as.style = (double)style;
    tap_lengths(&as);
    double girth = size_perimeter(profile_size(tap->run)), spread = tap->base.upstream + tap->base.downstream;
    return girth * as.length + (tap->base.across + spread) * (as.length - as.collar);
}

/* A conical tap, then a shoe.  The openings that they need are for who looks after the wall. */
static bool easier(const struct piece *piece, int nth, struct piece *other, double *sheet, struct arena *arena) {
    static const enum tap_style freer[] = {TAP_CONICAL, TAP_SHOE};
    enum tap_style now = style_of(piece);
    const struct run *run = piece->run;
    for (int first = 0; first < 2 && !(styles[freer[first]].angle < styles[now].angle); first++)
        nth++;
    if (nth >= 2 || !run || !run->first_section || !run->first_section->parent)
        return false;
    struct argument *argument = ARENA_ARRAY(arena, struct argument, SLOT_LIMIT);
    argument[STYLE] = *piece_argument(piece, STYLE);
    argument[STYLE].given = true;
    argument[STYLE].choice = (int)freer[nth];
    *other = *piece;
    other->reading.argument = argument;
    struct duct_size size = duct_metal(run->first_duct);
    struct tap_size before = {.run = profile_of(size)}, after = before;
    opening(piece, size, &before.base);
    opening(other, size, &after.base);
    *sheet = fmax(walls_of(freer[nth], &after) - walls_of(now, &before), 0);
    return true;
}

/* "Tap, shoe, 10 x 6 in, on a flat wall". */
static const char *title(const struct piece *piece, struct making *making, const struct tap_size *tap) {
    struct arena *arena = making_scratch(making);
    enum measure_system system = making_job(making)->system;
    const char *wall =
        tap->wall > 0 ? arena_format(arena, ", on a wall %s round", measure_text(arena, system, SHOW_SIZE, tap->wall))
                      : "";
    return arena_format(arena, "%s, %s%s", describe(piece, system, arena),
                        size_text(arena, system, profile_size(tap->run)), wall);
}

static void make(const struct piece *piece, struct making *making) {
    const struct run *run = piece->run;
    if (!piece->far || !run->first_section || !run->first_section->parent || !size_known(piece->far->size))
        return;
    if (tap_is_wider(run))
        return; /* the check tap-fit says so */
    struct tap_size tap = tap_size_of(run);
    bool even = !(fabs(tap.aside) > 0), shoe = tap.style == TAP_SHOE;
    if (even && !shoe && !(tap.wall > 0) && piece->far->size.shape == SHAPE_ROUND)
        tap.toward = 0; /* as good any way round */
    else if (even)      /* turned half round, the tap of the other side is the same */
        tap.toward = fmod(tap.toward, PI);
    make_part(making, &(struct order){
                          .title = title(piece, making, &tap),
                          .shape = "tap",
                          .build = shape_tap,
                          .size = &tap,
                          .size_bytes = sizeof tap,
                          .near = duct_metal(piece->far),
                          .far = duct_metal(piece->far),
                          .station = piece->station,
                          .length = tap.length,
                      });
}

/* From the wall, or the plane that touches a round one: what spreads as wide there as its opening. */
static void place_spread(const struct tap_size *tap, struct motion *motion) {
    struct frame wise = tap_parent_wise(tap), base = tap_base_frame(tap);
    struct profile run = tap_run_wise(tap), wide = tap_spread(run, tap->base);
    if (tap->style == TAP_SHOE)
        wide.radius = 0;
    double slope = tap->length - tap->collar;
    base.origin.y = 0;
    wise = frame_moved(&wise, 0, slope, 0);
    motion_fill(motion, &base, profile_size(wide), &wise, profile_size(run));
    struct frame shoulder = frame_moved(&frame_near, 0, slope, 0);
    motion_turn(motion, &shoulder, profile_size(tap->run));
}

static void place(const struct piece *piece, struct motion *motion) {
    const struct run *run = piece->run;
    if (!piece->far || !run->first_section || !run->first_section->parent || !size_known(piece->far->size))
        return;
    struct tap_size tap = tap_size_of(run);
    bool spreads = tap.style == TAP_SHOE || tap.style == TAP_CONICAL;
    if (spreads)
        place_spread(&tap, motion);
    motion_body(motion, spreads ? tap.collar : tap.length, profile_size(tap.run));
}

const struct piece_kind piece_tap = {
    .form =
        {
            .word = "tap",
            .places = IN_ANY_RUN,
            .slots =
                {
                    [STYLE] = {.kind = SLOT_CHOICE,
                               .choices = style_words,
                               .meaning = "its kind: straight, shoe, conical, spin or saddle"},
                },
            .meaning = "joins a run to the side of another; straight when it says nothing",
            .example = "tap shoe",
        },
    .title = "Tap",
    .traits = PIECE_TAP | PIECE_IMPLIED_TAP,
    .loss = loss,
    .describe = describe,
    .opening = opening,
    .easier = easier,
    .make = make,
    .place = place,
};
