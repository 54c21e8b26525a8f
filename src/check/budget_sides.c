/* Sides of taps that follow from other changes. */
#include "check/budget_sides.h"

#include <string.h>

#include "model/taps.h"

static void add_side(struct changes *changes, struct run *run, enum side side) {
    if (changes->count < CHANGES_ALL && run->from.side_at.text)
        changes->at[changes->count++] = (struct change){
            .kind = CHANGE_SIDE, .at = run->from.side_at, .run = run, .side = side, .own_side = run->from.side};
}

/* The tap that the change is about; NULL: of none. */
static struct run *tapped_by(const struct change *change) {
    if (change->kind == CHANGE_SIZE && duct_is_tapped(change->duct))
        return change->duct->run;
    bool tap = change->kind == CHANGE_PIECE && (change->piece->kind->traits & PIECE_TAP);
    return tap ? change->section->run : NULL;
}

void sides_turn(struct bench *bench) {
    for (size_t i = 0, count = bench->made.count; i < count; i++) {
        struct run *run = tapped_by(&bench->made.at[i]);
        enum side side;
        size_t before = bench->made.count;
        if (!run || bench_tap_fits(run->first_duct) || !tap_side_with_room(run, &side))
            continue;
        add_side(&bench->made, run, side);
        if (bench->made.count > before)
            run->from.side = side;
    }
}

/* The side of the unit's own run of that name. */
static bool add_cure(const struct bench *bench, const char *name, enum side side, struct changes *cures) {
    size_t before = cures->count;
    for (size_t i = 0; i < bench->run_count; i++)
        if (strcmp(bench->runs[i]->name, name) == 0)
            add_side(cures, bench->runs[i], side);
    return cures->count > before;
}

void sides_widen(const struct bench *bench, const struct network *network, struct changes *cures) {
    for (size_t i = 0; i < network->ducts.count; i++) {
        const struct duct *duct = network->ducts.at[i];
        const struct run *run = duct->run;
        enum side side;
        if (duct->reason == SIZE_WALL && duct_is_tapped(duct) && tap_side_with_room(run, &side) &&
            tap_wall(duct->upstream->size, side) > tap_wall(duct->upstream->size, run->from.side))
            add_cure(bench, run->name, side, cures);
    }
}

bool sides_cure(const struct bench *bench, const struct diagnostic *said, const struct run *run,
                struct changes *cures) {
    enum side side;
    if (!said->check || strcmp(said->check, "tap-fit") != 0 || !run || run->from.kind != PORT_TAP ||
        !tap_side_with_room(run, &side))
        return false;
    return add_cure(bench, run->name, side, cures);
}
