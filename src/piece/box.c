/* Plenum boxes. */
#include "metal/metal.h"
#include "metal/shape_box.h"
#include "model/taps.h"
#include "piece/common.h"
#include "piece/kinds.h"

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
    if (in)
        sum.value += fitting_abrupt_expansion(fmin(ratio, 1)).value;
    if (out)
        sum.value += fitting_abrupt_contraction(fmin(ratio, 1)).value;
    loss_set(loss, sum, stream_pressure(flow->air, flow->far), "duct", SOURCE_NEAREST_BOX);
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
    return run->taps.at + low;
}

static bool is_made(const struct run *tapped) {
    return !tapped->faulty && tapped->first_section && tapped->first_section->parent && tapped->first_duct &&
           size_known(tapped->first_duct->size);
}

/* A box on its way to its part. */
struct boxed {
    struct box_size *size; /* with its openings behind it */
    const char *left_out;  /* runs whose openings have no room; NULL: none */
};

/* An opening that has no room (the check tap-fit warns of it) is left to whoever hangs the box. */
static void take_openings(const struct piece *box, struct making *making, struct boxed *boxed, struct run *const *taps,
                          size_t count) {
    struct wall_opening *openings = (struct wall_opening *)(boxed->size + 1);
    size_t taken = 0;
    for (size_t i = 0; i < count; i++) {
        if (!is_made(taps[i]))
            continue;
        openings[taken] = tap_wall_opening(taps[i], box->station);
        if (box_takes(boxed->size, &openings[taken]))
            taken++;
        else
            boxed->left_out = boxed->left_out
                                  ? arena_format(making_scratch(making), "%s, %s", boxed->left_out, taps[i]->name)
                                  : taps[i]->name;
    }
    boxed->size->openings = (double)taken;
}

static struct boxed boxed(const struct piece *box, struct making *making) {
    const struct piece *after = behind(box);
    size_t most;
    struct run *const *taps = taps_of(box, &most);
    struct duct_size of = body(box), face = run_face(box->run), none = {0};
    bool faces = after && after->kind->face && size_known(face);
    bool capped =
        after && (after->kind->traits & PIECE_ENDS_RUN) && !after->kind->face && !(after->kind->traits & PIECE_SPLITS);
    struct duct_size far = capped || !box->far ? none : faces ? face : box->far->size;
    struct boxed boxed = {0};
    boxed.size = arena_take(making_scratch(making), sizeof *boxed.size + (most + 1) * sizeof(struct wall_opening));
    *boxed.size =
        (struct box_size){of.width, of.height, box->length, profile_of(box->near->size), profile_of(far), faces, 0};
    take_openings(box, making, &boxed, taps, most);
    return boxed;
}

static void make(const struct piece *piece, struct making *making) {
    if (!piece->near || !size_known(piece->near->size) || !size_known(body(piece)))
        return;
    struct boxed box = boxed(piece, making);
    const char *note = NULL;
    if (box.left_out)
        note = arena_format(making_scratch(making),
                            "the opening for %s has no room in this box and is not on its pattern: cut it in place",
                            box.left_out);
    make_part(making, &(struct order){
                          .title = made_words(piece, making),
                          .shape = "plenum box",
                          .build = shape_box,
                          .size = box.size,
                          .size_bytes = sizeof *box.size + (size_t)box.size->openings * sizeof(struct wall_opening),
                          .near = body(piece),
                          .far = body(piece),
                          .station = piece->station,
                          .length = piece->length,
                          .about = piece_argument(piece, SIZE)->about,
                          .note = note,
                      });
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
};
