/* Flexible duct. */
#include "metal/metal.h"
#include "model/words.h"
#include "piece/bend.h"
#include "piece/common.h"
#include "piece/kinds.h"

enum { LENGTH, INSULATED, STRETCHED, BENDS };

static const char example[] = "flex 9 ft, stretched 96 %";

/* Bends in flexible duct: no relation; each as a smooth round elbow of 90 degrees, centre-line radius one diameter. */
static const double bend_radius = 1.0;

static const struct sense length_sense = {
    .low = MORE_THAN_NOTHING,
    .high = 1000 * FOOT, /* common practice, no source */
    .expected = "a length of more than 0, 1000 ft (305 m) at most",
    .hint = example,
};

/* Under half its length it is no longer a duct: common practice, no source. */
static const struct sense stretched_sense = {
    .low = 0.50,
    .high = 1.00,
    .expected = "a stretch of 50 to 100 %: installed length over the length when pulled tight",
    .hint = example,
};

static const struct sense bends_sense = {
    .low = 0,
    .high = 20, /* common practice, no source */
    .expected = "0 to 20 bends of 90 degrees",
    .hint = "flex 9 ft, bends 2",
};

/* As wide as that of `insulation`. */
static const struct sense insulated_sense = {
    .low = 0,
    .high = 20, /* m2 K/W */
    .expected = "an R-value of R-0 to R-113",
    .hint = "flex 9 ft, R-6",
};

static void prepare(struct piece *piece, struct diagnostics *diagnostics) {
    if (piece_sensible(piece, diagnostics, LENGTH, &length_sense) &&
        piece_sensible(piece, diagnostics, INSULATED, &insulated_sense) &&
        piece_sensible(piece, diagnostics, STRETCHED, &stretched_sense) &&
        piece_whole(piece, diagnostics, BENDS, &bends_sense))
        piece->length = piece_number(piece, LENGTH, 0);
}

static double stretch_of(const struct piece *piece) {
    double of_shop = piece->run ? piece->run->settings.stretch : 0;
    return piece_number(piece, STRETCHED, of_shop > 0 ? of_shop : 1);
}

static double insulation_of(const struct piece *piece) {
    return piece_number(piece, INSULATED, -1);
}

static void wall(const struct piece *piece, double diameter, double *roughness, double *factor) {
    *roughness = air_flex_roughness();
    *factor = air_flex_factor(diameter, stretch_of(piece));
}

static void loss(const struct piece_flow *flow, struct loss *loss) {
    double bends = piece_number(flow->piece, BENDS, 0);
    if (!(bends > 0) || stream_still(flow->far) || !(flow->piece->length > 0))
        return;
    const char *name = trace_as(flow->trace, "C0");
    struct coefficient bend = fitting_round_elbow(flow->trace, 90 * DEGREE, bend_radius);
    trace_as(flow->trace, name);
    /* A piece that is divided has its share of the bends in each part. */
    struct coefficient factor = bend_reynolds(flow, bend_radius);
    double one = bend.value;
    bend.value *= factor.value * bends * flow->length / flow->piece->length;
    TRACE_COEFFICIENT(flow->trace, "Its bends, those of this part of its length", "C0 x KRe x bends x L / Lall",
                      bend.value, SOURCE_NEAREST_FLEX, trace_number("C0", one), trace_number("KRe", factor.value),
                      trace_number("bends", bends), trace_of(TRACE_LENGTH, "L", flow->length),
                      trace_of(TRACE_LENGTH, "Lall", flow->piece->length));
    loss_set(flow, loss, bend, flow->far, "duct", SOURCE_NEAREST_FLEX);
    loss_mark_reynolds(loss, factor);
}

static const char *describe(const struct piece *piece, enum measure_system system, struct arena *arena) {
    (void)system;
    const char *stretched = arena_format(arena, ", stretched %s %%", piece_figure(arena, stretch_of(piece) * 100));
    const char *bends = "";
    double count = piece_number(piece, BENDS, 0);
    if (count > 0)
        bends = arena_format(arena, ", %.0f bend%s", count, count == 1 ? "" : "s");
    if (piece_given(piece, STRETCHED))
        return arena_format(arena, "Flexible duct%s%s", stretched, bends);
    return arena_format(arena, "Flexible duct%s%s (assumed)", bends, stretched);
}

/* Bought by the length it has when pulled tight. */
static void make(const struct piece *piece, struct making *making) {
    if (!piece->far || !size_known(piece->far->size))
        return;
    struct arena *arena = making_scratch(making);
    enum measure_system system = making_job(making)->system;
    const char *size = size_text(arena, system, piece->far->size);
    const char *figures = size_figures(arena, system, piece->far->size);
    double insulation = piece_insulation(piece, making_run(making));
    const char *value = insulation > 0 ? arena_format(arena, " %s", insulation_name(arena, insulation)) : "";
    make_bought(making, &(struct purchase){
                            .item = "flex",
                            .key = arena_format(arena, "flex %s%s", figures, value),
                            .title = arena_format(arena, "Flexible duct, %s%s%s, pulled tight", size,
                                                  insulation > 0 ? "," : "", value),
                            .length = piece->length / stretch_of(piece),
                        });
}

/* It goes straight on as it is drawn; where it bends is for who hangs it. */
static void place(const struct piece *piece, struct motion *motion) {
    motion_free(motion);
    motion_on(motion, piece->length);
}

/* Pipe in its place, where it makes no bend that pipe would need elbows for, and brings no insulation of its own. */
static bool easier(const struct piece *piece, int nth, struct piece *other, double *sheet, struct arena *arena) {
    if (nth > 0 || !piece->reading.statement || piece_given(piece, INSULATED) || piece_number(piece, BENDS, 0) > 0)
        return false;
    struct argument *argument = ARENA_ARRAY(arena, struct argument, SLOT_LIMIT);
    argument[piece_straight.length_slot] = *piece_argument(piece, LENGTH);
    *other = *piece;
    other->kind = &piece_straight;
    other->reading.form = &piece_straight.form;
    other->reading.argument = argument;
    *sheet = piece->far ? size_perimeter(piece->far->size) * piece->length : 0;
    return true;
}

const struct piece_kind piece_flex = {
    .form =
        {
            .word = "flex",
            .places = IN_ANY_RUN,
            .slots =
                {
                    [LENGTH] = {.kind = SLOT_QUANTITY,
                                .use = SLOT_REQUIRED,
                                .measure = MEASURE_LENGTH,
                                .meaning = "how long it is, installed"},
                    [INSULATED] = {.kind = SLOT_QUANTITY,
                                   .measure = MEASURE_RESISTANCE,
                                   .meaning = "the R-value that it comes with"},
                    [STRETCHED] = {.kind = SLOT_QUANTITY,
                                   .key = "stretched",
                                   .measure = MEASURE_PERCENT,
                                   .meaning = "installed length over the length when pulled tight"},
                    [BENDS] = {.kind = SLOT_QUANTITY,
                               .key = "bends",
                               .measure = MEASURE_NUMBER,
                               .meaning = "how many bends of 90 degrees it makes"},
                },
            .meaning = "flexible duct; stretched as the shop does when it says nothing",
            .example = example,
        },
    .title = "Flexible duct",
    .traits = PIECE_LENGTH | PIECE_FLEXIBLE,
    .length_slot = LENGTH,
    .prepare = prepare,
    .loss = loss,
    .wall = wall,
    .insulation = insulation_of,
    .easier = easier,
    .describe = describe,
    .make = make,
    .place = place,
};
