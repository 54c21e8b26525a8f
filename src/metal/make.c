/* What the shop makes for a job: every piece says what it is made of, and equal parts are laid out once. */
#include <string.h>

#include "metal/making.h"
#include "metal/waits.h"

/* ---- The pass at one piece --------------------------------------------------------------------------------------- */

struct arena *making_scratch(const struct making *making) {
    return making->job->scratch;
}

const struct job *making_job(const struct making *making) {
    return making->job;
}

const struct run *making_run(const struct making *making) {
    return making->run;
}

void make_fault(struct making *making, const char *hint, const char *why) {
    const struct piece *piece = making->piece;
    struct span at = piece->at.text ? piece->at : making->run->at;
    struct diagnostic *said =
        diagnose(making->job->diagnostics, DIAGNOSTIC_ERROR, "fitting", at, "this cannot be made: %s", why);
    if (hint)
        diagnostic_hint(making->job->diagnostics, said, "%s", hint);
}

const char *making_kept(const struct making *making, const char *text) {
    return text ? arena_copy(making->arena, text, strlen(text)) : NULL;
}

/* ---- What the pieces call ---------------------------------------------------------------------------------------- */

bool part_is_within(const struct part *part) {
    return part->solid->ports.count == 0;
}

static void add_use(const struct making *making, struct part *part, const struct order *order) {
    *list_add(making->arena, &part->uses) = (struct part_use){
        .hung = ++making->metal->pieces,
        .run = making->run,
        .piece = making->piece,
        .station = order->station,
        .length = order->length,
        .note = making_kept(making, order->note),
    };
    making->metal->area += part->area;
    making->metal->weight += part->weight;
}

/* The strips that close the connection at the part's near end. */
static void add_cleats(struct making *making, const struct part *part) {
    if (!part->joined[0])
        return;
    struct strip_set strips = metal_strips(part->joints[0], part->solid->ports.at[0].size);
    for (size_t i = 0; i < strips.count; i++) {
        const struct joint_strip *strip = &strips.at[i];
        make_strip(making, &(struct made_strip){.name = strip->rule->title,
                                                .length = strip->length,
                                                .width = strip->rule->width,
                                                .rule = strip->rule,
                                                .gauge = part->gauge,
                                                .count = (size_t)strip->count});
    }
}

void make_part(struct making *making, const struct order *order) {
    if (!(metal_weight(24, making->run->settings.material) > 0)) {
        const char *title = arena_format(making->job->scratch, "%s, not of sheet metal", order->title);
        *list_add(making->arena, &making->metal->ready) = making->piece;
        make_bought(making, &(struct purchase){.item = order->ready ? order->ready : "ready_made", .title = title});
        return;
    }
    const struct made *made = making_part(making, order);
    if (!made->part) {
        make_fault(making, made->shapeless && order->line ? order->line : made->hint, made->fault);
        return;
    }
    making->surface += made->part->surface;
    add_use(making, made->part, order);
    add_cleats(making, made->part);
}

/* ---- The way through the job: as it is hung ---------------------------------------------------------------------- */

static void make_piece(struct making *making, struct piece *piece) {
    making->piece = piece;
    making->surface = 0;
    if (piece->kind->make)
        piece->kind->make(piece, making);
    piece->surface = making->surface;
    arena_clear(making->job->scratch);
}

static void wait_for(struct making *making, struct run *run) {
    if (run && !run->faulty)
        *list_add(making->arena, &making->waiting) = run;
}

/* What hangs from the run: pushed so that what goes on is made first, then the taps in their order. */
static void push_hanging(struct making *making, const struct run *run) {
    for (size_t i = run->taps.count; i-- > 0;)
        wait_for(making, run->taps.at[i]);
    for (int leg = LEG_COUNT; leg-- > 0;)
        wait_for(making, run->legs[leg]);
    wait_for(making, run->end);
}

static void make_run(struct making *making, struct run *run) {
    making->run = run;
    making->behind = NULL;
    *list_add(making->arena, &making->metal->runs) = run;
    if (run->connect)
        make_piece(making, run->connect);
    for (size_t i = 0; i < run->pieces.count; i++) {
        making->behind = i + 1 < run->pieces.count ? run->pieces.at[i + 1] : NULL;
        make_piece(making, run->pieces.at[i]);
    }
    push_hanging(making, run);
}

static void make_tree(struct making *making, struct run *root) {
    wait_for(making, root);
    while (making->waiting.count)
        make_run(making, making->waiting.at[--making->waiting.count]);
}

/* Every number from 1 on is there once. */
static void list_hung(struct arena *arena, struct metal *metal) {
    metal->hung = ARENA_ARRAY(arena, struct hung_part, metal->pieces + 1);
    for (size_t i = 0; i < metal->parts.count; i++)
        for (size_t u = 0; u < metal->parts.at[i]->uses.count; u++) {
            const struct part_use *use = &metal->parts.at[i]->uses.at[u];
            metal->hung[use->hung - 1] = (struct hung_part){.part = metal->parts.at[i], .use = use};
        }
}

void metal_make(struct job *job) {
    if (job->incomplete)
        return;
    struct making *making = ARENA_NEW(job->arena, struct making);
    making->job = job;
    making->arena = job->arena;
    making->metal = job->metal = ARENA_NEW(job->arena, struct metal);
    for (size_t i = 0; i < job->units.count; i++) {
        if (!job->units.at[i]->network)
            continue;
        make_tree(making, job->units.at[i]->supply_run);
        make_tree(making, job->units.at[i]->return_run);
    }
    list_hung(job->arena, job->metal);
    metal_waits(job);
    making_sort_strips(job->metal);
}
