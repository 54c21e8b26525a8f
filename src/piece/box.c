/* Plenum boxes. */
#include "metal/metal.h"
#include "metal/shape_box.h"
#include "metal/shape_tap.h"
#include "model/lined.h"
#include "model/taps.h"
#include "piece/common.h"
#include "piece/kinds.h"
#include "piece/openings.h"

#include <math.h>

enum { SIZE };

static const char example[] = "box 20 x 20 x 24";

static void prepare(struct piece *piece, struct diagnostics *diagnostics) {
    const struct argument *size = piece_argument(piece, SIZE);
    if (!piece_size_sensible(piece, diagnostics, SIZE, 3, example))
        return;
    if (size->given && (size->count != 3 || size->text)) {
        piece_error(piece, diagnostics, size->at, example, "expected the box's width, height and length");
        return;
    }
    piece->length = size->given ? size->point[2] : 0;
}

static struct duct_size body(const struct piece *piece) {
    struct duct_size size = piece_size(piece, SIZE);
    size.shape = SHAPE_RECTANGULAR;
    return size;
}

/* Round its lining: as its duct has it. */
static struct duct_size metal_body(const struct piece *piece) {
    return size_around(body(piece), piece_lining(piece));
}

/* Nearest relation: an abrupt enlargement into the box, an abrupt contraction out of it, both on the duct's velocity,
 * at the ends that the air passes here. */
static void loss(const struct piece_flow *flow, struct loss *loss) {
    struct duct_size size = body(flow->piece);
    if (stream_still(flow->far) || !size_known(size))
        return;
    bool in = flow->supply ? !flow->skips_near : !flow->skips_far;
    bool out = flow->supply ? !flow->skips_far : !flow->skips_near;
    double ratio = size_area(flow->far.size) / size_area(size);
    struct coefficient sum = {.outside = ratio > 1 ? "a box no smaller than its duct" : NULL};
    TRACE(flow->trace, TRACE_NUMBER, "Area of the duct over the box", "n", "A / Abox", ratio, SOURCE_NONE,
          trace_of(TRACE_AREA, "A", size_area(flow->far.size)), trace_of(TRACE_AREA, "Abox", size_area(size)));
    const char *name = trace_as(flow->trace, "Cin");
    double into = in ? fitting_abrupt_expansion(flow->trace, fmin(ratio, 1)).value : 0;
    trace_as(flow->trace, "Cout");
    double out_of = out ? fitting_abrupt_contraction(flow->trace, fmin(ratio, 1)).value : 0;
    trace_as(flow->trace, name);
    sum.value = into + out_of;
    TRACE_COEFFICIENT(flow->trace, "Into the box and out of it, as far as its air does",
                      in && out ? "Cin + Cout"
                      : in      ? "Cin"
                      : out     ? "Cout"
                                : "0",
                      sum.value, SOURCE_NEAREST_BOX, trace_number("Cin", into), trace_number("Cout", out_of));
    loss_set(flow, loss, sum, flow->far, "duct", SOURCE_NEAREST_BOX);
}

static const char *describe(const struct piece *piece, enum measure_system system, struct arena *arena) {
    const char *size = piece_size_words(piece, SIZE, system, arena);
    return size ? arena_format(arena, "Plenum box, %s", size) : piece->kind->title;
}

/* The piece behind a box, in its run or in what hangs from its end: pieces stand by station, and a box is longer than
 * nothing. */
static const struct piece *behind(const struct piece *box) {
    const struct run *run = box->run;
    size_t low = 0, high = run->pieces.count;
    while (low < high) {
        size_t middle = low + (high - low) / 2;
        if (run->pieces.at[middle]->station <= box->station)
            low = middle + 1;
        else
            high = middle;
    }
    if (low < run->pieces.count)
        return run->pieces.at[low];
    return run->end && run->end->pieces.count ? run->end->pieces.at[0] : NULL;
}

/* The taps of the box: `*count` of them from the one given on.  They stand by station. */
static struct run *const *taps_of(const struct piece *box, size_t *count) {
    const struct run *run = box->run;
    size_t low = 0, high = run->taps.count;
    while (low < high) {
        size_t middle = low + (high - low) / 2;
        if (run->taps.at[middle]->from.station < box->station - SAME_STATION)
            low = middle + 1;
        else
            high = middle;
    }
    while (low < run->taps.count && run->taps.at[low]->from.into != box &&
           tap_in_piece(box, run->taps.at[low]->from.station))
        low++;
    *count = 0;
    while (low + *count < run->taps.count && run->taps.at[low + *count]->from.into == box)
        (*count)++;
    return *count ? run->taps.at + low : NULL;
}

/* A box on its way to its part. */
struct ordered_box {
    struct box_size *size; /* with its openings behind it */
    struct openings openings;
};

static void take_openings(const struct piece *box, struct making *making, struct ordered_box *ordered,
                          struct run *const *taps, size_t count) {
    ordered->openings.at = (struct wall_opening *)(ordered->size + 1);
    for (size_t i = 0; i < count; i++) {
        if (!opening_is_made(taps[i]))
            continue;
        struct wall_opening opening = tap_wall_opening(taps[i], box->station);
        openings_add(&ordered->openings, making_scratch(making), taps[i], &opening, box_takes(ordered->size, &opening));
    }
    ordered->size->openings = (double)ordered->openings.count;
}

static struct ordered_box ordered_box(const struct piece *box, struct making *making) {
    const struct piece *after = behind(box);
    size_t most;
    struct run *const *taps = taps_of(box, &most);
    struct duct_size of = metal_body(box), face = run_face(box->run), none = {0};
    bool faces = after && after->kind->face && size_known(face);
    bool capped =
        after && (after->kind->traits & PIECE_ENDS_RUN) && !after->kind->face && !(after->kind->traits & PIECE_SPLITS);
    struct duct_size far = capped || !box->far ? none : faces ? face : duct_metal(box->far);
    struct ordered_box ordered = {0};
    ordered.size = arena_take(making_scratch(making), sizeof *ordered.size + (most + 1) * sizeof(struct wall_opening));
    *ordered.size = (struct box_size){
        .width = of.width,
        .height = of.height,
        .length = box->length,
        .near = profile_of(duct_metal(box->near)),
        .far = profile_of(far),
        .face = faces,
    };
    take_openings(box, making, &ordered, taps, most);
    return ordered;
}

/* What joins the duct to the hole in an end plate.  An end as wide or as high as its duct has no plate round it. */
static void make_collar(const struct piece *piece, struct making *making, const struct box_size *box,
                        struct profile duct, double station) {
    bool plate = duct.width < box->width - SAME_POINT && duct.height < box->height - SAME_POINT;
    if (!(duct.width > 0) || !plate)
        return;
    struct tap_size collar = {.style = TAP_STRAIGHT, .run = duct};
    struct duct_size size = profile_size(duct);
    tap_lengths(&collar);
    make_part(making, &(struct order){
                          .title = arena_format(making_scratch(making), "Collar of a plenum box, %s",
                                                size_text(making_scratch(making), making_job(making)->system, size)),
                          .shape = "tap",
                          .build = shape_tap,
                          .size = &collar,
                          .size_bytes = sizeof collar,
                          .near = size,
                          .far = size,
                          .station = piece->station + station,
                          .length = collar.length,
                      });
}

static void make(const struct piece *piece, struct making *making) {
    if (!piece->near || !size_known(piece->near->size) || !size_known(body(piece)))
        return;
    struct ordered_box box = ordered_box(piece, making);
    make_part(making, &(struct order){
                          .title = made_words(piece, making),
                          .shape = "plenum box",
                          .build = shape_box,
                          .size = box.size,
                          .size_bytes = sizeof *box.size + box.openings.count * sizeof(struct wall_opening),
                          .near = metal_body(piece),
                          .far = metal_body(piece),
                          .station = piece->station,
                          .length = piece->length,
                          .note = openings_note(&box.openings, making_scratch(making), "box"),
                      });
    make_collar(piece, making, box.size, box.size->near, 0);
    if (!(box.size->face > 0))
        make_collar(piece, making, box.size, box.size->far, box.size->length);
}

static void place(const struct piece *piece, struct motion *motion) {
    motion_body(motion, piece->length, metal_body(piece));
}

const struct piece_kind piece_box = {
    .form =
        {
            .word = "box",
            .places = IN_ANY_RUN,
            .slots =
                {
                    [SIZE] = {.kind = SLOT_SIZE, .use = SLOT_REQUIRED, .meaning = "its width, height and length"},
                },
            .meaning = "a plenum box, width x height x length",
            .example = example,
        },
    .title = "Plenum box",
    .traits = PIECE_TAKES_TAPS | PIECE_FITS_FACE,
    .prepare = prepare,
    .loss = loss,
    .body = body,
    .describe = describe,
    .make = make,
    .place = place,
};
