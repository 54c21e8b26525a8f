/* Changes that would ease a network, made on it and taken back. */
#include "check/budget_changes.h"

#include <string.h>

#include "check/budget_sides.h"
#include "model/model.h"
#include "model/taps.h"
#include "size/size.h"

/* ---- Rules ------------------------------------------------------------------------------------------------------- */

/* The job with nothing but the unit of the network in it. */
static struct job job_of(const struct bench *bench) {
    struct job only = *bench->look->job;
    only.runs.at = bench->runs;
    only.runs.count = bench->run_count;
    only.units.at = (struct air_unit **)&bench->network->unit;
    only.units.count = 1;
    only.diagnostics = ARENA_NEW(only.arena, struct diagnostics);
    only.diagnostics->arena = only.arena;
    return only;
}

static struct diagnostics *bench_warnings(const struct bench *bench, bool trial) {
    struct job only = job_of(bench);
    struct check_result result = {0};
    check_tap_fit(&(struct look){&only, check_named("tap-fit"), &result, trial});
    check_transition(&(struct look){&only, check_named("transition"), &result, trial});
    return only.diagnostics;
}

static bool same_text(const char *one, const char *other) {
    return one == other || (one && other && strcmp(one, other) == 0);
}

static bool is_as_grave(const struct diagnostic *one, const struct diagnostic *other) {
    return one->level == DIAGNOSTIC_ERROR || other->level != DIAGNOSTIC_ERROR;
}

bool bench_warned(const struct diagnostics *all, const struct diagnostic *said) {
    for (size_t i = 0; i < all->all.count; i++)
        if (same_text(all->all.at[i]->check, said->check) && same_text(all->all.at[i]->subject, said->subject) &&
            is_as_grave(all->all.at[i], said))
            return true;
    return false;
}

bool bench_warns_of_nothing(const struct bench *bench) {
    const struct diagnostics *now = bench_warnings(bench, true);
    for (size_t i = 0; i < now->all.count; i++)
        if (!bench_warned(bench->warned[true], now->all.at[i]))
            return false;
    return true;
}

bool bench_comes_out(const struct bench *bench, const struct diagnostic *said) {
    return said->level != DIAGNOSTIC_ERROR && bench_warned(bench->warned[true], said) &&
           !bench_warned(bench->warned[false], said);
}

/* ---- The bench --------------------------------------------------------------------------------------------------- */

/* What is ranked of one duct's walls. */
static double walls_of(const struct bench *bench, const struct duct *duct) {
    if (bench->look->job->worth->priced)
        return wall_cost_of(&bench->cost, duct);
    return wall_area_of(&bench->cost, duct);
}

static void list_runs(struct bench *bench) {
    const struct job *job = bench->look->job;
    LIST(struct run *) runs = {0};
    for (size_t i = 0; i < job->runs.count; i++)
        if (job->runs.at[i]->unit == bench->network->unit)
            *list_add(job->arena, &runs) = job->runs.at[i];
    bench->runs = runs.at;
    bench->run_count = runs.count;
}

void bench_set_up(struct bench *bench, const struct look *look, struct network *network) {
    struct arena *arena = look->job->arena;
    struct duct_size *sizes = ARENA_ARRAY(arena, struct duct_size, network->ducts.count);
    double *costs = ARENA_ARRAY(arena, double, network->ducts.count);
    *bench = (struct bench){.look = look, .network = network, .sizes = sizes, .costs = costs};
    bench->cost = wall_cost_make(look->job, network, arena);
    bench->lengths = ARENA_ARRAY(arena, struct wall_length, network->ducts.count);
    memcpy(bench->lengths, bench->cost.lengths, network->ducts.count * sizeof *bench->lengths);
    bench->cost.lengths = bench->lengths;
    bench->speed = network->unit->speed;
    list_runs(bench);
    bench->warned[false] = bench_warnings(bench, false);
    bench->warned[true] = bench_warnings(bench, true);
    bench->walls_cost = wall_cost_sum(&bench->cost, network);
    bench->walls_area = wall_area(&bench->cost, network);
    bench->walls_ranked = look->job->worth->priced ? bench->walls_cost : bench->walls_area;
    for (size_t i = 0; i < network->ducts.count; i++) {
        sizes[i] = network->ducts.at[i]->size;
        costs[i] = size_known(sizes[i]) ? walls_of(bench, network->ducts.at[i]) : 0;
    }
}

bool bench_on_collar(const struct duct *duct) {
    return duct->reason == SIZE_COLLAR && duct->run->connect;
}

bool bench_changeable(const struct duct *duct) {
    return size_known(duct->size) && (duct->reason != SIZE_COLLAR || bench_on_collar(duct)) && !duct->leg_start &&
           duct->length > 0;
}

bool bench_tap_fits(const struct duct *duct) {
    return !duct_is_tapped(duct) || !duct->upstream || !size_known(duct->upstream->size) ||
           tap_has_width(duct->run, duct->size, duct->upstream->size);
}

/* ---- A size ------------------------------------------------------------------------------------------------------ */

/* The change of size that a run larger than its collar begins with. */
static void widen_collar(struct bench *bench, struct duct *duct) {
    struct section *section = duct->run->first_section;
    struct widened *widened = &bench->widened[duct->run->supply];
    if (widened->section)
        return;
    widened->section = section;
    widened->collar = *duct;
    widened->collar.size = bench->sizes[duct->id];
    widened->connect = *duct->run->connect;
    widened->connect.near = &widened->collar;
    widened->connect.far = duct;
    if (!widened->items)
        widened->items = ARENA_ARRAY(bench->look->job->arena, struct item, section->items.count + 1);
    widened->items[0] = (struct item){.piece = &widened->connect, .role = ITEM_CONNECT};
    for (size_t i = 0; i < section->items.count; i++)
        widened->items[i + 1] = section->items.at[i];
    widened->own_items = section->items.at;
    section->items.at = widened->items;
    section->items.count++;
}

static void narrow_collar(struct widened *widened) {
    struct section *section = widened->section;
    if (!section)
        return;
    section->items.at = widened->own_items;
    section->items.count--;
    widened->section = NULL;
}

static void take_size(struct bench *bench, const struct change *change) {
    change->duct->size = change->size;
    if (bench_on_collar(change->duct))
        widen_collar(bench, change->duct);
}

bool bench_grows(const struct bench *bench) {
    for (size_t i = 0; i < bench->made.count; i++) {
        const struct duct *duct = bench->made.at[i].duct, *before = duct ? duct->upstream : NULL;
        if (before && before->run == duct->run && size_area(duct->size) > size_area(before->size) &&
            size_area(bench->sizes[duct->id]) <= size_area(bench->sizes[before->id]))
            return true;
    }
    return false;
}

/* ---- A piece ----------------------------------------------------------------------------------------------------- */

static void exchange_in(struct section *section, const struct piece *piece, const struct piece *other) {
    for (size_t i = 0; i < section->items.count; i++)
        if (section->items.at[i].piece == piece)
            section->items.at[i].piece = other;
}

/* Of a run, whose sections stand one behind another. */
static void exchange_along(struct network *network, const struct run *run, const struct piece *piece,
                           const struct piece *other) {
    for (size_t s = run->first_section->id; s < network->sections.count && network->sections.at[s]->run == run; s++)
        exchange_in(network->sections.at[s], piece, other);
}

/* Taps may divide a piece: it then stands in several sections of its run.  A tap is met in the section that goes on
 * past it too.
 */
static void exchange(struct bench *bench, const struct change *change, const struct piece *piece,
                     const struct piece *other) {
    struct run *run = change->section->run;
    exchange_along(bench->network, run, piece, other);
    if ((piece->kind->traits & PIECE_TAP) && run->parent)
        exchange_along(bench->network, run->parent, piece, other);
    for (size_t i = 0; i < run->pieces.count; i++)
        if (run->pieces.at[i] == piece)
            memcpy(&run->pieces.at[i], &other, sizeof other); /* the list is not of const pieces; none is written to */
}

static void take_piece(struct bench *bench, const struct change *change) {
    exchange(bench, change, change->piece, change->other);
}

static void give_piece(struct bench *bench, const struct change *change) {
    exchange(bench, change, change->other, change->piece);
}

/* ---- Speeds and sides -------------------------------------------------------------------------------------------- */

static void take_speed(struct bench *bench, const struct change *change) {
    unit_speed(bench->network->unit, change->speed);
}

static void take_side(struct bench *bench, const struct change *change) {
    (void)bench;
    change->run->from.side = change->side;
}

static void give_side(struct bench *bench, const struct change *change) {
    (void)bench;
    change->run->from.side = change->own_side;
}

/* ---- All of them ------------------------------------------------------------------------------------------------- */

/* Sizes are given back all together, as the speed is. */
static const struct {
    void (*take)(struct bench *bench, const struct change *change);
    void (*give_back)(struct bench *bench, const struct change *change);
} kinds[CHANGE_KINDS] = {
    [CHANGE_SIZE] = {take_size, NULL},   [CHANGE_PIECE] = {take_piece, give_piece},
    [CHANGE_SPEED] = {take_speed, NULL}, [CHANGE_SIDE] = {take_side, give_side},
    [CHANGE_RATE] = {NULL, NULL},
};

/* A section with exchanged items gets its own items back first, then their pieces. */
void bench_take_back(struct bench *bench) {
    struct network *network = bench->network;
    narrow_collar(&bench->widened[false]);
    narrow_collar(&bench->widened[true]);
    for (size_t i = 0; i < bench->made.count; i++)
        if (kinds[bench->made.at[i].kind].give_back)
            kinds[bench->made.at[i].kind].give_back(bench, &bench->made.at[i]);
    for (size_t i = 0; i < network->ducts.count; i++)
        network->ducts.at[i]->size = bench->sizes[i];
    if (network->unit->speed != bench->speed)
        unit_speed(network->unit, bench->speed);
    bench->made.count = 0;
}

/* Pieces are exchanged first, so that both item lists of a section on a collar have them. */
double bench_make(struct bench *bench, const struct changes *changes) {
    const struct job *job = bench->look->job;
    struct changes wanted = *changes; /* a copy: the caller may pass bench->made */
    bench_take_back(bench);
    for (int pieces = 1; pieces >= 0; pieces--)
        for (size_t i = 0; i < wanted.count; i++)
            if ((wanted.at[i].kind == CHANGE_PIECE) == pieces && kinds[wanted.at[i].kind].take)
                kinds[wanted.at[i].kind].take(bench, &wanted.at[i]);
    bench->made = wanted;
    sides_turn(bench);
    air_losses(bench->network, &job->air);
    air_budget(bench->network, &job->air, NULL, job->system);
    return bench->network->surplus;
}

struct changes bench_completed(struct bench *bench, const struct changes *changes) {
    bench_make(bench, changes);
    return bench->made;
}

/* ---- What came of it --------------------------------------------------------------------------------------------- */

static double short_side(const struct path *paths, size_t count) {
    double sum = 0;
    for (size_t i = 0; i < count; i++)
        sum += paths[i].surplus < 0 ? -paths[i].surplus : 0;
    return sum;
}

double bench_shortage(const struct bench *bench) {
    const struct network *network = bench->network;
    return short_side(network->supply_paths.at, network->supply_paths.count) +
           short_side(network->return_paths.at, network->return_paths.count);
}

/* ---- Sized anew -------------------------------------------------------------------------------------------------- */

static double surplus_now(struct bench *bench) {
    const struct job *job = bench->look->job;
    air_losses(bench->network, &job->air);
    air_budget(bench->network, &job->air, NULL, job->system);
    return bench->network->surplus;
}

/* What pieces take besides the walls. */
static double other_sheet(const struct changes *changes) {
    double sum = 0;
    for (size_t i = 0; i < changes->count; i++)
        sum += changes->at[i].sheet;
    return sum;
}

static void note_warnings(const struct bench *bench, struct resized *resized) {
    const struct diagnostics *now = bench_warnings(bench, false);
    resized->sound = resized->surplus >= 0;
    for (size_t i = 0; i < now->all.count; i++) {
        const struct diagnostic *said = now->all.at[i];
        if (bench_comes_out(bench, said)) {
            resized->comes_out = said;
            continue;
        }
        if (bench_warned(bench->warned[false], said))
            continue;
        resized->sound = false;
        for (size_t k = 0; k < bench->run_count; k++)
            if (same_text(bench->runs[k]->name, said->subject))
                sides_cure(bench, said, bench->runs[k], &resized->cures);
    }
}

struct resized bench_resize(struct bench *bench, const struct changes *changes, bool rate) {
    struct job *job = bench->look->job;
    const struct sizing_method *method = sizing_method_used(job);
    bench_make(bench, changes);
    struct network before = *bench->network;
    struct duct *ducts = ARENA_ARRAY(job->arena, struct duct, before.ducts.count);
    for (size_t i = 0; i < before.ducts.count; i++)
        ducts[i] = *before.ducts.at[i];
    for (size_t i = 0; i < changes->count; i++)
        if (changes->at[i].kind == CHANGE_SIZE)
            changes->at[i].duct->fixed = true;
    double asked = job->friction_rate;
    job->friction_rate = rate ? 0 : asked;
    if (method)
        method->size(job, bench->network, job->catalogue, NULL);
    job->friction_rate = asked;
    struct resized resized = {.surplus = surplus_now(bench), .friction_rate = bench->network->friction_rate};
    note_warnings(bench, &resized);
    if (resized.surplus < 0)
        sides_widen(bench, bench->network, &resized.cures);
    resized.sheet = wall_area(&bench->cost, bench->network) - bench->walls_area + other_sheet(changes);
    resized.cost = wall_cost_sum(&bench->cost, bench->network) - bench->walls_cost;
    for (size_t i = 0; i < before.ducts.count; i++)
        *before.ducts.at[i] = ducts[i];
    *bench->network = before;
    bench_make(bench, &(struct changes){0});
    return resized;
}

/* ---- What it takes ----------------------------------------------------------------------------------------------- */

/* Of flexible duct: it becomes sheet. */
static void move_length(struct bench *bench, const struct change *change, double sign) {
    struct wall_length *length = &bench->lengths[change->section->duct->id];
    length->flexible -= sign * change->piece->length;
    length->sheet += sign * change->piece->length;
}

static bool becomes_pipe(const struct change *change) {
    return change->kind == CHANGE_PIECE && (change->piece->kind->traits & PIECE_FLEXIBLE) &&
           !(change->other->kind->traits & PIECE_FLEXIBLE);
}

double bench_change_cost(struct bench *bench, const struct change *change) {
    const struct duct *duct = change->kind == CHANGE_SIZE    ? change->duct
                              : change->kind == CHANGE_PIECE ? change->section->duct
                                                             : NULL;
    if (!duct || change->is_face)
        return 0;
    if (becomes_pipe(change))
        move_length(bench, change, 1);
    double walls = walls_of(bench, duct), area = wall_area_of(&bench->cost, duct);
    if (becomes_pipe(change))
        move_length(bench, change, -1);
    /* Pipe has its price as a wall; what it takes of sheet counts where that is all there is to rank by. */
    bool counts = !becomes_pipe(change) || !bench->look->job->worth->priced;
    return walls - bench->costs[duct->id] + (counts && area > 0 ? change->sheet * walls / area : 0);
}
