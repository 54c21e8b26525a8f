/* Changes that would ease a network, made on it and taken back. */
#include "check/budget_changes.h"

#include "model/model.h"

/* ---- The bench --------------------------------------------------------------------------------------------------- */

void bench_set_up(struct bench *bench, const struct look *look, struct network *network) {
    struct arena *arena = look->job->arena;
    struct duct_size *sizes = ARENA_ARRAY(arena, struct duct_size, network->ducts.count);
    double *costs = ARENA_ARRAY(arena, double, network->ducts.count);
    *bench = (struct bench){.look = look, .network = network, .sizes = sizes, .costs = costs};
    bench->cost = wall_cost_make(look->job, network, arena);
    bench->speed = network->unit->speed;
    for (size_t i = 0; i < network->ducts.count; i++) {
        sizes[i] = network->ducts.at[i]->size;
        costs[i] = size_known(sizes[i]) ? wall_cost_of(&bench->cost, network->ducts.at[i]) : 0;
    }
}

/* A run on a collar has the collar's size, and goes over to another by a change that stands in no line. */
static bool on_collar(const struct duct *duct) {
    return duct->reason == SIZE_COLLAR && duct->run->connect;
}

bool bench_changeable(const struct duct *duct) {
    return size_known(duct->size) && (duct->reason != SIZE_COLLAR || on_collar(duct)) && !duct->leg_start &&
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

/* The duct, and those of its run before it that would else be smaller: a run does not grow away from the unit. */
static void take_size(struct bench *bench, const struct change *change) {
    struct duct *duct = change->duct;
    for (struct duct *at = duct; at && at->run == duct->run; at = at->upstream) {
        bool smaller = at == duct || size_area(at->size) < size_area(change->size);
        if (!bench_changeable(at) || !smaller || at->size.shape != change->size.shape || (at != duct && on_collar(at)))
            continue;
        at->size = change->size;
        if (on_collar(at))
            widen_collar(bench, at);
    }
}

/* ---- A piece ----------------------------------------------------------------------------------------------------- */

static void exchange(struct section *section, const struct piece *piece, const struct piece *other) {
    for (size_t i = 0; i < section->items.count; i++)
        if (section->items.at[i].piece == piece && section->items.at[i].role == ITEM_PIECE)
            section->items.at[i].piece = other;
}

/* ---- All of them ------------------------------------------------------------------------------------------------- */

/* A section whose items are exchanged for longer ones gets its own back before its pieces are. */
static void take_back(struct bench *bench) {
    struct network *network = bench->network;
    narrow_collar(&bench->widened[false]);
    narrow_collar(&bench->widened[true]);
    for (size_t i = 0; i < bench->made.count; i++)
        if (bench->made.at[i].kind == CHANGE_ELBOW)
            exchange(bench->made.at[i].section, bench->made.at[i].easier, bench->made.at[i].piece);
    for (size_t i = 0; i < network->ducts.count; i++)
        network->ducts.at[i]->size = bench->sizes[i];
    if (network->unit->speed != bench->speed)
        unit_speed(network->unit, bench->speed);
    bench->made.count = 0;
}

static void make(struct bench *bench, const struct change *change) {
    switch (change->kind) {
    case CHANGE_SIZE:
        take_size(bench, change);
        break;
    case CHANGE_ELBOW:
        exchange(change->section, change->piece, change->easier);
        break;
    case CHANGE_SPEED:
        unit_speed(bench->network->unit, change->speed);
        break;
    }
}

/* Pieces are exchanged first: then the section on the collar has them in both its lists. */
double bench_make(struct bench *bench, const struct changes *changes) {
    const struct job *job = bench->look->job;
    struct changes wanted = *changes; /* it may be what stands */
    take_back(bench);
    for (size_t i = 0; i < wanted.count; i++)
        if (wanted.at[i].kind == CHANGE_ELBOW)
            make(bench, &wanted.at[i]);
    for (size_t i = 0; i < wanted.count; i++)
        if (wanted.at[i].kind != CHANGE_ELBOW)
            make(bench, &wanted.at[i]);
    bench->made = wanted;
    air_losses(bench->network, &job->air);
    air_budget(bench->network, &job->air, NULL, job->system);
    return bench->network->surplus;
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

static bool has_other_piece(const struct bench *bench, const struct duct *duct) {
    for (size_t i = 0; i < bench->made.count; i++)
        if (bench->made.at[i].kind == CHANGE_ELBOW && bench->made.at[i].section->duct == duct)
            return true;
    return false;
}

void bench_cost(const struct bench *bench, double *sheet, double *cost) {
    *sheet = *cost = 0;
    for (size_t i = 0; i < bench->network->ducts.count; i++) {
        const struct duct *duct = bench->network->ducts.at[i];
        if (size_equal(duct->size, bench->sizes[i]) && !has_other_piece(bench, duct))
            continue;
        *sheet += (size_perimeter(duct->size) - size_perimeter(bench->sizes[i])) * duct->length;
        *cost += wall_cost_of(&bench->cost, duct) - bench->costs[i];
    }
}

bool change_same_thing(const struct change *one, const struct change *other) {
    return one->kind == other->kind && one->duct == other->duct && one->piece == other->piece;
}

bool changes_have(const struct changes *changes, const struct change *change) {
    for (size_t i = 0; i < changes->count; i++)
        if (change_same_thing(&changes->at[i], change))
            return true;
    return false;
}

const char *change_words(const struct bench *bench, const struct change *change) {
    const struct job *job = bench->look->job;
    switch (change->kind) {
    case CHANGE_SIZE:
        return arena_format(job->arena, "%s as %s in place of %s%s", change->duct->run->name,
                            check_size_text(job, change->size), check_size_text(job, bench->sizes[change->duct->id]),
                            on_collar(change->duct) ? " (behind a change of size on the collar)" : "");
    case CHANGE_ELBOW:
        return arena_format(job->arena, "'%s' in %s", change->words, change->section->run->name);
    case CHANGE_SPEED:
        return arena_format(job->arena, "speed \"%s\"", change->speed->name);
    }
    return "";
}
