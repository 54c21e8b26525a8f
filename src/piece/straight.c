/* Straight duct. */
#include <stdlib.h>

#include "metal/joint_blank.h"
#include "metal/joints.h"
#include "model/taps.h"
#include "piece/common.h"
#include "piece/kinds.h"

enum { LENGTH };

static const struct sense length_sense = {
    .low = MORE_THAN_NOTHING,
    .high = 10000 * FOOT, /* catches a slip of the unit; common practice, no source */
    .expected = "a length of more than 0, 10000 ft (3048 m) at most",
    .hint = "straight 16 ft",
};

static void prepare(struct piece *piece, struct diagnostics *diagnostics) {
    if (piece_sensible(piece, diagnostics, LENGTH, &length_sense))
        piece->length = piece_number(piece, LENGTH, 0);
}

/* ---- Joints ------------------------------------------------------------------------------------------------ */

/* Metal between an opening and the line of a joint, for the tabs and the cleat: common practice, no source. */
static const double joint_margin = 2 * INCH;

/* A piece of straight duct on its way to its joints. */
struct dividing {
    struct making *making;
    const struct piece *piece;
    struct duct_size size;
    size_t tap, taps; /* of its run: the first that is cut into it, and behind the last */
};

static void find_taps(struct dividing *dividing) {
    const struct run *run = dividing->piece->run;
    size_t tap = 0;
    while (tap < run->taps.count && run->taps.at[tap]->from.into != dividing->piece)
        tap++;
    dividing->tap = dividing->taps = tap;
    while (dividing->taps < run->taps.count && run->taps.at[dividing->taps]->from.into == dividing->piece)
        dividing->taps++;
}

static double along_of(const struct wall_opening *opening) {
    bool flat = (enum side)opening->side == SIDE_TOP || (enum side)opening->side == SIDE_BOTTOM;
    return flat ? opening->section.height : opening->section.width;
}

static int by_low(const void *left, const void *right) {
    const struct joint_zone *a = left, *b = right;
    return (a->low > b->low) - (a->low < b->low);
}

static bool is_made(const struct run *tapped) {
    return !tapped->faulty && tapped->first_duct && size_known(tapped->first_duct->size);
}

static struct joint_zone *zones_of(const struct dividing *dividing, size_t *count) {
    const struct run *run = dividing->piece->run;
    struct joint_zone *zones =
        ARENA_ARRAY(making_arena(dividing->making), struct joint_zone, dividing->taps - dividing->tap + 1);
    for (size_t i = dividing->tap; i < dividing->taps; i++) {
        if (!is_made(run->taps.at[i]))
            continue;
        struct wall_opening opening = tap_wall_opening(run->taps.at[i], dividing->piece->station);
        double half = along_of(&opening) / 2 + joint_margin;
        zones[(*count)++] = (struct joint_zone){opening.station - half, opening.station + half};
    }
    qsort(zones, *count, sizeof *zones, by_low);
    return zones;
}

/* How the blank of a joint is parted, and whether any sheet takes it. */
static enum blanking blanking_of(const struct dividing *dividing, double length) {
    const struct job *job = making_job(dividing->making);
    const struct run *run = making_run(dividing->making);
    enum joint_kind kind = metal_joint_used(&run->settings, dividing->size);
    struct end_allowance end = metal_connection(&job->shop, kind, dividing->size, true);
    struct straight_joint joint = {
        .size = dividing->size,
        .length = length,
        .ends = {metal_end_depth(&end), metal_end_depth(&end)},
        .seam = metal_seam(&job->shop, metal_seam_used(&run->settings, dividing->size.shape, false)),
        .bend_deduction = job->shop.bend_deduction,
    };
    struct stock stock = metal_stock(making_arena(dividing->making), &job->shop, making_gauge(dividing->making, dividing->size));
    return joint_plan_of(&joint, &stock).way;
}

/* The finished length of the longest joint: by the shop's joint length, or, where no sheet is large enough for that, by the narrow side of its widest sheet. */
static double greatest_joint(const struct dividing *dividing) {
    const struct job *job = making_job(dividing->making);
    enum joint_kind kind = metal_joint_used(&making_run(dividing->making)->settings, dividing->size);
    double greatest = metal_finished(&job->shop, kind, job->shop.joint_length), narrow = 0;
    if (dividing->size.shape != SHAPE_RECTANGULAR || blanking_of(dividing, greatest) != BLANK_NONE)
        return greatest;
    struct stock stock = metal_stock(making_arena(dividing->making), &job->shop, making_gauge(dividing->making, dividing->size));
    for (size_t i = 0; i < stock.sheets.count; i++)
        narrow = fmax(narrow, fmin(stock.sheets.at[i].sides[0], stock.sheets.at[i].sides[1]));
    return fmin(greatest, metal_finished(&job->shop, kind, narrow));
}

static enum wrap wrap_of(const struct dividing *dividing, double length) {
    if (dividing->size.shape != SHAPE_RECTANGULAR)
        return WRAP_ONE;
    switch (blanking_of(dividing, length)) {
    case BLANK_WRAP:
        return WRAP_ONE;
    case BLANK_HALVES:
        return WRAP_HALVES;
    default:
        return WRAP_SIDES;
    }
}

static const char *joint_title(const struct dividing *dividing, double length, size_t openings) {
    struct arena *arena = making_arena(dividing->making);
    enum measure_system system = making_job(dividing->making)->system;
    const char *cut = openings ? arena_format(arena, ", %zu opening%s", openings, openings == 1 ? "" : "s") : "";
    return arena_format(arena, "Straight joint, %s, %s long%s", size_text(arena, system, dividing->size),
                        measure_text(arena, system, SHOW_SIZE, length), cut);
}

/* The openings whose middles lie in the joint; its shape with them behind it. */
static struct straight_shape *shape_of(const struct dividing *dividing, const struct joint *joint, size_t *count) {
    const struct run *run = dividing->piece->run;
    size_t most = dividing->taps - dividing->tap;
    struct straight_shape *shape = arena_take(making_arena(dividing->making),
                                              sizeof *shape + (most + 1) * sizeof(struct wall_opening));
    struct wall_opening *openings = (struct wall_opening *)(shape + 1);
    double begins = dividing->piece->station + joint->station;
    for (size_t i = dividing->tap; i < dividing->taps; i++) {
        if (!is_made(run->taps.at[i]))
            continue;
        struct wall_opening opening = tap_wall_opening(run->taps.at[i], begins);
        if (opening.station >= 0 && opening.station < joint->length)
            openings[(*count)++] = opening;
    }
    *shape = (struct straight_shape){
        .section = shape_section_of(dividing->size),
        .length = joint->length,
        .wrap = wrap_of(dividing, joint->length),
        .openings = (double)*count,
    };
    return shape;
}

static void make_joint(const struct dividing *dividing, const struct joint *joint, bool last) {
    size_t openings = 0;
    struct straight_shape *shape = shape_of(dividing, joint, &openings);
    make_part(dividing->making, &(struct order){
                                    .title = joint_title(dividing, joint->length, openings),
                                    .shape = "straight joint",
                                    .build = shape_straight,
                                    .size = shape,
                                    .size_bytes = sizeof *shape + openings * sizeof(struct wall_opening),
                                    .near = dividing->size,
                                    .far = dividing->size,
                                    .station = dividing->piece->station + joint->station,
                                    .length = joint->length,
                                    .finished_length = joint->length,
                                    .about = last && piece_argument(dividing->piece, LENGTH)->about,
                                });
}

/* An estimated length changes its last joint only. */
static void make(const struct piece *piece, struct making *making) {
    struct dividing dividing = {.making = making, .piece = piece};
    if (!piece->near || !size_known(piece->near->size))
        return;
    dividing.size = piece->near->size;
    find_taps(&dividing);
    size_t zone_count = 0;
    struct joint_zone *zones = zones_of(&dividing, &zone_count);
    double greatest = greatest_joint(&dividing);
    if (!(greatest > 0)) {
        make_fault(making, "joint-length 5 ft", "its joints would be shorter than what their ends take");
        return;
    }
    struct joint_list list = metal_joints(making_arena(making), piece->length, greatest, zones, zone_count);
    for (size_t i = 0; i < list.joints.count; i++)
        make_joint(&dividing, &list.joints.at[i], i + 1 == list.joints.count);
}

const struct piece_kind piece_straight = {
    .form =
        {
            .word = "straight",
            .places = IN_ANY_RUN,
            .slots =
                {
                    [LENGTH] = {.kind = SLOT_QUANTITY,
                                .use = SLOT_REQUIRED,
                                .measure = MEASURE_LENGTH,
                                .meaning = "how long it is"},
                },
            .meaning = "straight duct",
            .example = "straight 16 ft",
        },
    .title = "Straight duct",
    .traits = PIECE_LENGTH | PIECE_TAKES_TAPS,
    .prepare = prepare,
    .make = make,
};
