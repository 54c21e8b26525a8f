/* Single changes that a way out may be made of. */
#include "check/budget_options.h"

#include <math.h>

#include "check/budget_lines.h"

bool effort_may(struct effort *effort) {
    if (effort->each > effort->left) {
        effort->short_of = true;
        return false;
    }
    effort->left -= effort->each;
    return true;
}

int options_watched(const struct options *options, const struct path *path) {
    for (int i = 0; path && i < options->watched; i++)
        if (options->end[i] == path->end)
            return i;
    return -1;
}

/* ---- The paths that are watched ---------------------------------------------------------------------------------- */

/* The `most` paths that are short by the most, the governing one first. */
static void watch(struct options *options, const struct path *paths, size_t count, int most) {
    int first = options->watched;
    for (size_t i = 0; i < count; i++) {
        if (!(paths[i].surplus < 0))
            continue;
        int place = options->watched;
        while (place > first && paths[i].loss > options->loss[place - 1])
            place--;
        if (place - first >= most)
            continue;
        options->watched += options->watched - first < most;
        for (int k = options->watched - 1; k > place; k--) {
            options->end[k] = options->end[k - 1];
            options->loss[k] = options->loss[k - 1];
        }
        options->end[place] = paths[i].end;
        options->loss[place] = paths[i].loss;
    }
}

/* ---- One change -------------------------------------------------------------------------------------------------- */

struct collector {
    struct options *options;
    struct bench *bench;
    struct effort *effort;
    double pressure;     /* Pa of the blower as it is, less the unit's drops */
    bool *seen, *passed; /* ducts and sections, by id */
};

/* Tries it alone.  NULL: it gains nothing, or there is no room for it, or no time. */
static const struct option *try_option(struct collector *collector, const struct change *change, int slot) {
    struct options *options = collector->options;
    if (options->count >= OPTIONS || slot >= SLOTS) {
        options->more = true;
        return NULL;
    }
    if (!effort_may(collector->effort))
        return NULL;
    bench_make(collector->bench, &(struct changes){.count = 1, .at = {*change}});
    const struct network *network = collector->bench->network;
    struct option *option = &options->at[options->count];
    *option = (struct option){.change = *change, .slot = slot};
    option->lift = network->blower_pressure - network->unit_drops - collector->pressure;
    double most = option->lift;
    for (int i = 0; i < options->watched; i++) {
        option->gain[i] = options->loss[i] - options->end[i]->loss_to_unit;
        most = fmax(most, option->gain[i]);
    }
    if (!(most > NO_GAIN))
        return NULL;
    option->cost = fmax(bench_change_cost(collector->bench, change), 0);
    options->count++;
    return option;
}

/* Larger sizes, until one is enough alone or the next gains nothing more. */
static void larger(struct collector *collector, struct duct *duct) {
    struct options *options = collector->options;
    struct change change = {.kind = CHANGE_SIZE, .at = duct->at, .duct = duct};
    int slot = options->slots;
    change.size = collector->bench->sizes[duct->id];
    for (int i = 0; i < SIZES_OF_ONE; i++) {
        if (!check_next(collector->bench->look, duct, &change.size))
            break;
        const struct option *option = try_option(collector, &change, slot);
        if (!option)
            break;
        /* A tap that does not fit alone may fit when its trunk becomes larger too. */
        bool fits = bench_tap_fits(duct->run->first_duct);
        if (!fits && !(duct->upstream && bench_changeable(duct->upstream))) {
            options->count--;
            break;
        }
        options->slots = slot + 1;
        if (fits && !air_budget_short(collector->bench->network))
            break;
    }
}

/* Each that is easier by more, until there are no more of the kind. */
static void easier(struct collector *collector, struct section *section, const struct item *item) {
    const struct piece *piece = item->piece;
    struct arena *arena = collector->bench->look->job->arena;
    int slot = collector->options->slots;
    /* Pipe in place of flexible duct would be sized smaller for the same friction, and gain nothing. */
    if ((piece->kind->traits & PIECE_FLEXIBLE) && !section->duct->fixed)
        return;
    for (int i = 0; i < collector->options->count; i++) /* divided by taps, it is met again */
        if (collector->options->at[i].change.piece == piece)
            return;
    for (int nth = 0;; nth++) {
        struct piece *other = ARENA_NEW(arena, struct piece);
        struct change change = {.kind = CHANGE_PIECE, .section = section, .piece = piece, .other = other, .step = nth};
        change.at = piece->at;
        bench_take_back(collector->bench);
        if (!piece->kind->easier(piece, nth, other, &change.sheet, arena))
            return;
        if (!try_option(collector, &change, slot))
            continue;
        bool tap = piece->kind->traits & PIECE_TAP;
        if (tap && !bench_tap_fits(section->duct) && !bench_changeable(section->duct->upstream))
            collector->options->count--;
        else
            collector->options->slots = slot + 1;
    }
}

static void speeds(struct collector *collector) {
    const struct air_unit *unit = collector->bench->network->unit;
    int slot = collector->options->slots;
    for (size_t i = 0; i < unit->speeds.count; i++) {
        const struct blower_speed *speed = &unit->speeds.at[i];
        struct change change = {.kind = CHANGE_SPEED, .speed = speed};
        double pressure;
        if (!budget_statement(unit->speed_at, "speed", &change.at))
            change.at = unit->at;
        if (speed == collector->bench->speed || !speed->name ||
            !air_blower_pressure(speed->points.at, speed->points.count, unit->airflow, &pressure))
            continue;
        if (try_option(collector, &change, slot))
            collector->options->slots = slot + 1;
    }
}

/* ---- All of them ------------------------------------------------------------------------------------------------- */

/* What the section passes is another's. */
static bool is_own(const struct item *item) {
    return item->role == ITEM_PIECE || item->role == ITEM_BRANCH;
}

/* A trial may replace the items of a section on a collar, so it is taken back before they are looked through. */
static void along(struct collector *collector, struct section *end) {
    for (struct section *at = end; at && !collector->passed[at->id]; at = at->parent) {
        collector->passed[at->id] = true;
        for (size_t i = 0; i < at->items.count; i++) {
            bench_take_back(collector->bench);
            if (is_own(&at->items.at[i]) && at->items.at[i].piece->kind->easier)
                easier(collector, at, &at->items.at[i]);
        }
        bench_take_back(collector->bench);
        if (!collector->seen[at->duct->id] && bench_changeable(at->duct))
            larger(collector, at->duct);
        collector->seen[at->duct->id] = true;
        bench_take_back(collector->bench);
    }
}

void options_collect(struct options *options, struct bench *bench, struct effort *effort) {
    struct network *network = bench->network;
    struct collector collector = {.options = options, .bench = bench, .effort = effort};
    bench_make(bench, &(struct changes){0});
    collector.pressure = network->blower_pressure - network->unit_drops;
    collector.seen = ARENA_ARRAY(bench->look->job->arena, bool, network->ducts.count);
    collector.passed = ARENA_ARRAY(bench->look->job->arena, bool, network->sections.count);
    watch(options, network->supply_paths.at, network->supply_paths.count, WATCHED_SUPPLY);
    watch(options, network->return_paths.at, network->return_paths.count, WATCHED_RETURN);
    speeds(&collector);
    for (int i = 0; i < options->watched; i++)
        along(&collector, network->sections.at[options->end[i]->id]);
}
