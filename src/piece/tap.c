/* Taps: what joins a run to the side of another. */
#include "piece/common.h"
#include "model/taps.h"
#include "piece/kinds.h"

#include <math.h>

enum { STYLE };
enum style { STRAIGHT, SHOE, CONICAL, SPIN, SADDLE };

static const char *const style_words[] = {"straight", "shoe", "conical", "spin", "saddle", NULL};

/* Each as a plain branch of some angle: straight and spin collars by the diagram; for the others there is none, and
 * these are the nearest: common practice, no source. */
static const struct {
    double angle;
    bool nearest;
} styles[] = {
    [STRAIGHT] = {90 * DEGREE, false}, [SHOE] = {45 * DEGREE, true},   [CONICAL] = {60 * DEGREE, true},
    [SPIN] = {90 * DEGREE, false},     [SADDLE] = {90 * DEGREE, true},
};

/* The relations hold for a duct that keeps its size past the tap; a transition right behind it has its own loss. */
static void loss(const struct piece_flow *flow, struct loss *loss) {
    if (stream_still(flow->common) || !size_known(flow->branch.size))
        return;
    enum style style = (enum style)piece_choice(flow->piece, STYLE, STRAIGHT);
    double share = flow->branch.flow / flow->common.flow;
    double area = size_area(flow->branch.size) / size_area(flow->common.size);
    double angle = styles[style].angle;
    struct coefficient found;
    if (flow->role == ITEM_PAST)
        found = flow->supply ? fitting_tap_run(share, area) : fitting_join_run(angle, share, area);
    else
        found = flow->supply ? fitting_tap_branch(angle, share, area) : fitting_join_branch(angle, share, area);
    enum source_id own = flow->supply ? SOURCE_IDELCHIK_TAP : SOURCE_IDELCHIK_JOIN;
    loss_set(loss, found, stream_pressure(flow->air, flow->common), "common",
             styles[style].nearest ? SOURCE_NEAREST_TAP : own);
}

/* A shoe is longer on the inside of the turn, where it slopes at 45 degrees: by a quarter of its length along the
 * parent, 4 in at least.  From memory: SMACNA HVAC Duct Construction Standards, 45-degree entry.  Supply air comes from
 * the unit and return air goes to it, so that the inside of the turn is toward the unit either way. A cone is an inch
 * larger than its run all round: common practice, no source.  The flange of a saddle lies outside its hole. */
static void opening(const struct piece *piece, struct duct_size run, struct tap_opening *opening) {
    enum style style = (enum style)piece_choice(piece, STYLE, STRAIGHT);
    if (style == CONICAL)
        *opening = (struct tap_opening){.across = 1 * INCH, .upstream = 0.5 * INCH, .downstream = 0.5 * INCH};
    else if (style == SHOE)
        opening->upstream = fmax(4 * INCH, tap_along(piece->run->from.side, run) / 4);
}

static const char *describe(const struct piece *piece, enum measure_system system, struct arena *arena) {
    (void)system;
    return arena_format(arena, "Tap, %s", style_words[piece_choice(piece, STYLE, STRAIGHT)]);
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
};
