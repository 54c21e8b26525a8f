/* Straight duct. */
#include <stdlib.h>

#include "metal/blanking.h"
#include "metal/joints.h"
#include "model/lined.h"
#include "model/taps.h"
#include "piece/common.h"
#include "piece/kinds.h"
#include "piece/openings.h"

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

/* ---- Joints ------------------------------------------------------------------------------------------------------ */

/* Metal between an opening and the line of a joint, for the tabs and the cleat: common practice, no source. */
static const double joint_margin = 2 * INCH;

/* No opening's middle is farther from its tap's station: half of what the longest base adds, a shoe's, which is a
 * quarter of a side of 20 ft at most. */
static const double opening_reach = 4 * FOOT;

/* A piece of straight duct on its way to its joints. */
struct dividing {
    struct making *making;
    const struct piece *piece;
    struct duct_size size;
    size_t tap, taps; /* of its run: the first that is cut into it, and behind the last */
};

/* Taps stand by station. */
static void find_taps(struct dividing *dividing) {
    const struct run *run = dividing->piece->run;
    size_t low = 0, high = run->taps.count;
    while (low < high) {
        size_t middle = low + (high - low) / 2;
        if (run->taps.at[middle]->from.station < dividing->piece->station - joint_margin)
            low = middle + 1;
        else
            high = middle;
    }
    while (low < run->taps.count && run->taps.at[low]->from.into != dividing->piece &&
           run->taps.at[low]->from.station <= dividing->piece->station + dividing->piece->length)
        low++;
    dividing->tap = dividing->taps = low;
    while (dividing->taps < run->taps.count && run->taps.at[dividing->taps]->from.into == dividing->piece)
        dividing->taps++;
}

static int by_low(const void *left, const void *right) {
    const struct joint_zone *a = left, *b = right;
    return (a->low > b->low) - (a->low < b->low);
}

static struct joint_zone *zones_of(const struct dividing *dividing, size_t *count) {
    const struct run *run = dividing->piece->run;
    struct joint_zone *zones =
        ARENA_ARRAY(making_scratch(dividing->making), struct joint_zone, dividing->taps - dividing->tap + 1);
    for (size_t i = dividing->tap; i < dividing->taps; i++) {
        if (!opening_is_made(run->taps.at[i]))
            continue;
        struct wall_opening opening = tap_wall_opening(run->taps.at[i], dividing->piece->station);
        double half = opening_along(&opening) / 2 + joint_margin;
        zones[(*count)++] = (struct joint_zone){opening.station - half, opening.station + half};
    }
    qsort(zones, *count, sizeof *zones, by_low);
    return zones;
}

/* How the blank of a joint is parted; false: no sheet takes it.  Round and oval duct is one wrap. */
static bool wrap_fits(const struct dividing *dividing, double length, enum wrap *wrap) {
    const struct job *job = making_job(dividing->making);
    const struct run *run = making_run(dividing->making);
    const struct stock *stock = making_stock(dividing->making, dividing->size);
    enum joint_kind kind = metal_joint_used(&run->settings, dividing->size);
    struct end_allowance near = metal_connection(&job->shop, kind, dividing->size, false);
    struct end_allowance far = metal_connection(&job->shop, kind, dividing->size, true);
    struct straight_joint joint = {
        .size = dividing->size,
        .length = length,
        .ends = {metal_end_depth(&near), metal_end_depth(&far)},
        .seam = metal_seam(&job->shop, metal_seam_used(&run->settings, dividing->size.shape, false)),
        .bend_deduction = job->shop.bend_deduction,
    };
    if (dividing->size.shape == SHAPE_RECTANGULAR)
        return joint_wrap(&joint, stock, wrap);
    double girth = size_perimeter(dividing->size) + joint.seam.pocket + joint.seam.flange;
    *wrap = WRAP_ONE;
    return stock_for(stock, joint_blank_length(&joint), girth) != NULL;
}

/* The finished length of the longest joint: by the shop's joint length; where no sheet is large enough for that, as
 * long as some side of a sheet that it can be cut along. */
static double greatest_joint(const struct dividing *dividing) {
    const struct job *job = making_job(dividing->making);
    enum joint_kind kind = metal_joint_used(&making_run(dividing->making)->settings, dividing->size);
    double greatest = metal_finished(&job->shop, kind, job->shop.joint_length), longest = 0;
    enum wrap wrap;
    if (wrap_fits(dividing, greatest, &wrap))
        return greatest;
    const struct stock *stock = making_stock(dividing->making, dividing->size);
    for (size_t i = 0; i < 2 * stock->sheets.count; i++) {
        double along = metal_finished(&job->shop, kind, stock->sheets.at[i / 2].sides[i % 2]);
        if (along < greatest && along > longest && wrap_fits(dividing, along, &wrap))
            longest = along;
    }
    return longest > 0 ? longest : greatest;
}

/* What the far end of a joint takes in a run of those settings. */
static double far_end(const struct dividing *dividing, const struct settings *settings) {
    enum joint_kind kind = metal_joint_used(settings, dividing->size);
    bool male = making_run(dividing->making)->supply;
    struct end_allowance end = metal_connection(&making_job(dividing->making)->shop, kind, dividing->size, male);
    return metal_end_depth(&end);
}

/* The last joint of a run ends as the run behind it begins: where that takes more of the
 * sheet, it is so much shorter. */
static double greatest_last(const struct dividing *dividing, double greatest) {
    const struct run *run = making_run(dividing->making);
    if (!run->end || run->pieces.at[run->pieces.count - 1] != dividing->piece)
        return greatest;
    double more = far_end(dividing, &run->end->settings) - far_end(dividing, &run->settings);
    return fmin(greatest, fmax(greatest - more, greatest / 4));
}

/* Where not even one side fits a sheet, four sides all the same: how they are pieced is the shop's to say. */
static enum wrap wrap_of(const struct dividing *dividing, double length) {
    enum wrap wrap;
    wrap_fits(dividing, length, &wrap);
    return wrap;
}

static const char *joint_title(const struct dividing *dividing, double length, size_t openings) {
    struct arena *arena = making_scratch(dividing->making);
    enum measure_system system = making_job(dividing->making)->system;
    const char *cut = openings ? arena_format(arena, ", %zu opening%s", openings, openings == 1 ? "" : "s") : "";
    return arena_format(arena, "Straight joint, %s, %s long%s", size_text(arena, system, dividing->size),
                        measure_text(arena, system, SHOW_CUT, length), cut);
}

/* A joint with the openings whose middles lie in it. */
struct cut_joint {
    struct straight_shape *shape; /* the openings stand behind it */
    struct openings openings;
};

static void take_opening(struct cut_joint *cut, const struct dividing *dividing, const struct run *tapped,
                         double begins) {
    struct wall_opening opening = tap_wall_opening(tapped, begins);
    if (opening.station < 0 || opening.station >= cut->shape->length)
        return;
    unsigned sides = cut->openings.sides | (1u << (enum side)opening.side);
    openings_add(&cut->openings, making_scratch(dividing->making), tapped, &opening,
                 straight_takes(cut->shape, &opening) && straight_has_seam(cut->shape, sides));
}

/* The middle of an opening is not far from its station: where the next joint's taps begin, by stations alone. */
static size_t taps_within(const struct dividing *dividing, double end) {
    const struct run *run = dividing->piece->run;
    size_t count = 0;
    while (dividing->tap + count < dividing->taps && run->taps.at[dividing->tap + count]->from.station < end)
        count++;
    return count;
}

static struct cut_joint cut_joint(const struct dividing *dividing, const struct joint *joint) {
    const struct run *run = dividing->piece->run;
    double ends = dividing->piece->station + joint->station + joint->length;
    size_t most = taps_within(dividing, ends + opening_reach);
    struct cut_joint cut = {
        .shape =
            arena_take(making_scratch(dividing->making), sizeof *cut.shape + (most + 1) * sizeof(struct wall_opening)),
    };
    *cut.shape = (struct straight_shape){
        .section = shape_duct_of(dividing->size),
        .length = joint->length,
        .wrap = wrap_of(dividing, joint->length),
    };
    cut.openings.at = (struct wall_opening *)(cut.shape + 1);
    for (size_t i = dividing->tap; i < dividing->tap + most; i++)
        if (opening_is_made(run->taps.at[i]))
            take_opening(&cut, dividing, run->taps.at[i], dividing->piece->station + joint->station);
    cut.shape->openings = (double)cut.openings.count;
    return cut;
}

static void make_joint(struct dividing *dividing, const struct joint *joint) {
    struct cut_joint cut = cut_joint(dividing, joint);
    dividing->tap += taps_within(dividing, dividing->piece->station + joint->station + joint->length - opening_reach);
    make_part(dividing->making, &(struct order){
                                    .title = joint_title(dividing, joint->length, cut.openings.count),
                                    .shape = "straight joint",
                                    .build = shape_straight,
                                    .size = cut.shape,
                                    .size_bytes = sizeof *cut.shape + cut.openings.count * sizeof(struct wall_opening),
                                    .near = dividing->size,
                                    .far = dividing->size,
                                    .station = dividing->piece->station + joint->station,
                                    .length = joint->length,
                                    .finished_length = joint->length,
                                    .note = openings_note(&cut.openings, making_scratch(dividing->making), "joint"),
                                });
}

static void make(const struct piece *piece, struct making *making) {
    struct dividing dividing = {.making = making, .piece = piece};
    if (!piece->near || !size_known(piece->near->size))
        return;
    dividing.size = duct_metal(piece->near);
    find_taps(&dividing);
    size_t zone_count = 0;
    struct joint_zone *zones = zones_of(&dividing, &zone_count);
    double greatest = greatest_joint(&dividing);
    if (!(greatest > 0)) {
        const struct job *job = making_job(making);
        make_fault(making, job->system == MEASURE_METRIC ? "joint-length 1.5 m" : "joint-length 5 ft",
                   "its joints would be shorter than what their ends take");
        return;
    }
    struct joint_list list = metal_joints(making_scratch(making), piece->length, greatest,
                                          greatest_last(&dividing, greatest), zones, zone_count);
    for (size_t i = 0; i < list.joints.count; i++)
        make_joint(&dividing, &list.joints.at[i]);
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
    .length_slot = LENGTH,
    .prepare = prepare,
    .make = make,
};
