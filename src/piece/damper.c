/* Dampers. */
#include "metal/metal.h"
#include "metal/shape_box.h"
#include "piece/common.h"
#include "piece/kinds.h"

#include <math.h>

enum { STYLE, OPEN };
enum style { VOLUME, BACKDRAFT, FIRE };

static const char *const style_words[] = {"volume", "backdraft", "fire", NULL};
static const char example[] = "damper volume, open 60";

/* The blade of a backdraft damper, which the air holds up, from wide open: the nearest relation, common practice. */
static const double hanging_blade = 20 * DEGREE;

static const struct sense open_sense = {
    .low = 1 * DEGREE,
    .high = 90 * DEGREE,
    .expected = "a blade open by 1 to 90 degrees; 90 is wide open",
    .hint = example,
};

static enum style style_of(const struct piece *piece) {
    return (enum style)piece_choice(piece, STYLE, VOLUME);
}

static void prepare(struct piece *piece, struct diagnostics *diagnostics) {
    if (!piece_sensible(piece, diagnostics, OPEN, &open_sense))
        return;
    if (piece_given(piece, OPEN) && style_of(piece) != VOLUME)
        piece_error(piece, diagnostics, piece_argument(piece, OPEN)->at, example,
                    "a %s damper is not set by hand: expected a volume damper", style_words[style_of(piece)]);
}

static bool balances(const struct piece *piece) {
    return style_of(piece) == VOLUME;
}

static void loss(const struct piece_flow *flow, struct loss *loss) {
    if (stream_still(flow->far))
        return;
    double from_open = 90 * DEGREE - piece_number(flow->piece, OPEN, 90 * DEGREE);
    if (style_of(flow->piece) == BACKDRAFT)
        from_open = hanging_blade;
    enum shape shape = flow->far.size.shape;
    struct coefficient blade = fitting_damper(flow->trace, fmax(from_open, 0), shape == SHAPE_ROUND);
    bool nearest = style_of(flow->piece) != VOLUME || shape == SHAPE_OVAL;
    loss_set(flow, loss, blade, flow->far, "duct", nearest ? SOURCE_NEAREST_DAMPER : SOURCE_DAMPER_BLADE);
}

static const char *describe(const struct piece *piece, enum measure_system system, struct arena *arena) {
    (void)system;
    const char *open =
        piece_given(piece, OPEN)
            ? arena_format(arena, ", open %s", piece_figure(arena, piece_number(piece, OPEN, 0) / DEGREE))
            : "";
    return arena_format(arena, "Damper, %s%s", style_words[style_of(piece)], open);
}

static void buy_device(const struct piece *piece, struct making *making, struct duct_size duct) {
    struct arena *arena = making_scratch(making);
    const char *item = style_of(piece) == FIRE ? "fire_damper" : "backdraft_damper";
    const char *size = size_figures(arena, making_job(making)->system, duct);
    make_bought(making, &(struct purchase){
                            .item = item,
                            .key = arena_format(arena, "%s %s", item, size),
                            .title = made_words_sized(piece, making, duct),
                        });
}

/* The shop makes the blades of volume dampers; the others are tested and bought. */
static void make(const struct piece *piece, struct making *making) {
    if (!piece->far || !size_known(piece->far->size))
        return;
    struct duct_size duct = piece->far->size;
    if (style_of(piece) != VOLUME) {
        buy_device(piece, making, duct);
        return;
    }
    struct profile blade = profile_of(duct);
    struct arena *arena = making_scratch(making);
    make_part(making, &(struct order){
                          .title = arena_format(arena, "Blade of a volume damper, for %s duct",
                                                size_text(arena, making_job(making)->system, duct)),
                          .shape = "damper blade",
                          .build = shape_blade,
                          .size = &blade,
                          .size_bytes = sizeof blade,
                          .near = duct,
                          .far = duct,
                          .station = piece->station,
                      });
    make_hardware(making,
                  &(struct purchase){.item = "damper", .title = "Rod, quadrant and bearings of a volume damper"});
}

const struct piece_kind piece_damper = {
    .form =
        {
            .word = "damper",
            .places = IN_ANY_RUN,
            .slots =
                {
                    [STYLE] = {.kind = SLOT_CHOICE,
                               .choices = style_words,
                               .meaning = "its kind: volume, backdraft or fire"},
                    [OPEN] = {.kind = SLOT_QUANTITY,
                              .key = "open",
                              .measure = MEASURE_ANGLE,
                              .meaning = "how far its blade is open; 90 is wide open"},
                },
            .meaning = "a damper; volume and wide open when it says nothing",
            .example = example,
        },
    .title = "Damper",
    .traits = PIECE_BALANCES | PIECE_SQUARE,
    .prepare = prepare,
    .loss = loss,
    .describe = describe,
    .make = make,
    .balances = balances,
};
