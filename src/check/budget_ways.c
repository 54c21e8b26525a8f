/* Ways out for a unit that asks more of its blower than it has: changes, alone and together,
 * each tried on the network. */
#include "check/budget_ways.h"

#include <math.h>
#include <string.h>

#include "check/budget_offer.h"
#include "size/size.h"

/* Sizes of one duct that are tried alone, and with other changes; items that all trials together may compute: a large
 * job gets fewer.  Chosen here, no source. */
enum { SIZES_ALONE = 12, SIZES_TOGETHER = 5, ITEMS_TRIED = 4000000 };

static const char *words_of(const struct ways *ways, enum measure_use use, double figure) {
    return check_text(ways->look->job, use, figure);
}

/* ---- Trials ------------------------------------------------------------------------------------------------------ */

static void keep_seed(struct ways *ways, struct seed seed) {
    int place = ways->seed_count;
    for (int i = 0; i < ways->seed_count; i++)
        if (change_same_thing(&ways->seeds[i].change, &seed.change)) {
            if (seed.score <= ways->seeds[i].score)
                return;
            memmove(&ways->seeds[i], &ways->seeds[i + 1], (size_t)(ways->seed_count - i - 1) * sizeof seed);
            place = --ways->seed_count;
        }
    while (place > 0 && seed.score > ways->seeds[place - 1].score)
        place--;
    if (place >= SEEDS)
        return;
    if (ways->seed_count < SEEDS)
        ways->seed_count++;
    memmove(&ways->seeds[place + 1], &ways->seeds[place], (size_t)(ways->seed_count - place - 1) * sizeof seed);
    ways->seeds[place] = seed;
}

/* What has been made already, and the best that could come next. */
struct stage {
    struct changes made;
    struct seed best; /* score 0: nothing helps */
    bool enough;      /* some change was */
};

/* No tap is made larger than there is room for. */
static bool tap_fits(const struct change *change) {
    return change->kind != CHANGE_SIZE || bench_tap_fits(change->duct->run->first_duct);
}

/* Tries one change more.  Gives whether a larger one of its kind may still be of use. */
static bool try_change(struct ways *ways, struct stage *stage, const struct change *change) {
    struct changes trial = stage->made;
    trial.at[trial.count++] = *change;
    double spare = bench_make(&ways->bench, &trial), sheet, cost;
    ways->least_short = fmin(ways->least_short, -spare);
    if (!tap_fits(change)) {
        ways->broke_rules |= spare >= 0;
        return false;
    }
    if (spare >= 0) {
        stage->enough |= ways_offer_changes(ways, trial);
        return false;
    }
    bench_cost(&ways->bench, &sheet, &cost);
    double gain = ways->shortage - bench_shortage(&ways->bench);
    struct seed seed = {*change, gain / (fmax(cost, 0) + ways->small)};
    if (gain > 1e-3 && seed.score > stage->best.score)
        stage->best = seed;
    if (gain > 1e-3 && !stage->made.count)
        keep_seed(ways, seed);
    return true;
}

static void try_larger(struct ways *ways, struct stage *stage, struct duct *duct) {
    struct change change = {.kind = CHANGE_SIZE, .at = duct->at, .duct = duct};
    change.size = ways->bench.sizes[duct->id];
    if (changes_have(&stage->made, &change))
        return;
    int most = stage->made.count ? SIZES_TOGETHER : SIZES_ALONE;
    for (int i = 0; i < most && ways_may_try(ways); i++) {
        struct size_need need = {.diameter = air_equivalent_diameter(change.size) * (1 + 1e-6)};
        if (!check_larger(ways->look, duct, &need, &change.size) || !try_change(ways, stage, &change))
            return;
    }
}

static void try_easier(struct ways *ways, struct stage *stage, struct section *section, const struct item *item) {
    const struct piece *piece = item->piece;
    struct arena *arena = ways->look->job->arena;
    if (item->role != ITEM_PIECE || !piece->kind->easier)
        return;
    struct piece *easier = ARENA_NEW(arena, struct piece);
    struct change change = {.kind = CHANGE_ELBOW, .section = section, .piece = piece, .easier = easier};
    change.at = piece->at.text ? piece->at : section->run->at;
    change.words = piece->kind->easier(piece, easier, arena);
    if (change.words && !changes_have(&stage->made, &change) && ways_may_try(ways))
        try_change(ways, stage, &change);
}

static void try_speeds(struct ways *ways, struct stage *stage) {
    const struct air_unit *unit = ways->network->unit;
    for (size_t i = 0; i < unit->speeds.count; i++) {
        const struct blower_speed *speed = &unit->speeds.at[i];
        struct change change = {.kind = CHANGE_SPEED, .speed = speed};
        double pressure;
        change.at = unit->speed_at.text ? unit->speed_at : unit->at;
        if (speed == ways->bench.speed || !speed->name || changes_have(&stage->made, &change) ||
            !air_blower_pressure(speed->points.at, speed->points.count, unit->airflow, &pressure) ||
            !ways_may_try(ways))
            continue;
        try_change(ways, stage, &change);
    }
}

/* ---- A freer face: a register, grille or filter that takes less -------------------------------------------------- */

/* The costliest of a side's other paths. */
static double second_of(const struct path *paths, size_t count, const struct path *but) {
    double most = 0;
    for (size_t i = 0; i < count; i++)
        if (&paths[i] != but)
            most = fmax(most, paths[i].loss);
    return most;
}

/* Faces stand at the end of one path: with less there, that path or the next costliest governs.  The network stands as
 * the stage has it. */
static void try_face(struct ways *ways, struct stage *stage, const struct path *path, const struct path *paths,
                     size_t count) {
    const struct job *job = ways->look->job;
    const struct section *end = path->end;
    double deficit = -ways->network->surplus;
    if (path->loss - second_of(paths, count, path) < deficit)
        return;
    for (size_t i = end->items.count; i-- > 0;) {
        const struct item *item = &end->items.at[i];
        double left = item->loss.pressure - deficit;
        /* Less than a fifth of what it takes is no register, grille or filter that can be had.
         * Chosen here: no source. */
        if (!(item->piece->kind->traits & (PIECE_OUTLET | PIECE_INLET)) || left < 0.2 * item->loss.pressure)
            continue;
        struct way way = {.changes = stage->made, .unpriced = true, .at = item->piece->at};
        if (ways_told_with_less(ways, &stage->made, &way.at) || ways_break_rules(ways))
            return;
        bench_cost(&ways->bench, &way.sheet, &way.cost);
        way.words = arena_format(job->arena, "way out: a %s of %s that takes no more than %s at %s%s%s%s",
                                 item->piece->kind->form.word, end->run->name,
                                 check_text_down(job, SHOW_PRESSURE, left), words_of(ways, SHOW_FLOW, end->flow),
                                 stage->made.count ? ", with " : "", ways_changes_words(ways, &stage->made),
                                 job->worth->priced ? "; its price is not known here" : "");
        ways_offer(ways, way);
        return;
    }
}

/* ---- Without the rate that is asked for -------------------------------------------------------------------------- */

/* Sizes the ducts without the friction rate that the job asks for. */
static void try_own_rate(struct ways *ways) {
    struct job *job = ways->look->job;
    const struct sizing_method *method = sizing_method_used(job);
    if (!(job->friction_rate > 0) || !method || ways->network->sections.count > ITEMS_TRIED / 1000)
        return;
    struct network before = *ways->network;
    struct duct *ducts = ARENA_ARRAY(job->arena, struct duct, before.ducts.count);
    for (size_t i = 0; i < before.ducts.count; i++)
        ducts[i] = *before.ducts.at[i];
    double rate = job->friction_rate;
    job->friction_rate = 0;
    method->size(job, ways->network, job->catalogue, NULL);
    job->friction_rate = rate;
    air_losses(ways->network, &job->air);
    air_budget(ways->network, &job->air, NULL, job->system);
    struct way way = {.is_rate = true, .at = job->friction_rate_at, .spare = ways->network->surplus};
    bench_cost(&ways->bench, &way.sheet, &way.cost);
    if (way.spare >= 0 && !ways_break_rules(ways)) {
        way.words = arena_format(job->arena, "way out: without 'friction' the ducts are sized at %s, which %s",
                                 words_of(ways, SHOW_FRICTION, ways->network->friction_rate),
                                 ways_takes_words(ways, &way, false));
        ways_offer(ways, way);
    }
    for (size_t i = 0; i < before.ducts.count; i++)
        *before.ducts.at[i] = ducts[i];
    *ways->network = before;
}

/* ---- All of them ------------------------------------------------------------------------------------------------- */

/* The sections from a terminal to the unit, as they are listed before the trials change what governs. */
static void try_path(struct ways *ways, struct stage *stage, struct section *end) {
    const struct duct *last = NULL;
    for (struct section *at = end; at; at = at->parent) {
        for (size_t i = 0; i < at->items.count; i++)
            try_easier(ways, stage, at, &at->items.at[i]);
        if (at->duct != last && bench_changeable(at->duct))
            try_larger(ways, stage, at->duct);
        last = at->duct;
    }
}

static void try_all(struct ways *ways, struct stage *stage) {
    bench_make(&ways->bench, &stage->made);
    struct network *network = ways->network;
    const struct path *supply = network->governing_supply, *back = network->governing_return;
    struct section *supply_end = supply ? supply->end : NULL, *back_end = back ? back->end : NULL;
    ways->shortage = bench_shortage(&ways->bench);
    if (supply)
        try_face(ways, stage, supply, network->supply_paths.at, network->supply_paths.count);
    if (back)
        try_face(ways, stage, back, network->return_paths.at, network->return_paths.count);
    try_speeds(ways, stage);
    try_path(ways, stage, supply_end);
    try_path(ways, stage, back_end);
}

/* Beginning with that change, the best next one again and again, until some are enough. */
static void try_together(struct ways *ways, const struct change *first) {
    struct stage stage = {.made = {.count = 1, .at = {*first}}};
    while (stage.made.count < CHANGES_TOGETHER && ways_may_try(ways)) {
        stage.best = (struct seed){0};
        try_all(ways, &stage);
        if (stage.enough || !(stage.best.score > 0))
            return;
        stage.made.at[stage.made.count++] = stage.best.change;
    }
}

static void say_fewer(const struct ways *ways, struct diagnostic *said) {
    const struct network *network = ways->network;
    struct diagnostics *diagnostics = ways->look->job->diagnostics;
    struct span at = network->unit->at;
    if (network->unit_drops >= network->blower_pressure)
        diagnostic_relate(diagnostics, said, at,
                          "what is in the unit takes all that the blower has: no duct helps, a stronger blower does");
    else if (!ways->count)
        diagnostic_relate(
            diagnostics, said, at,
            "no larger sizes, easier elbows, freer faces or other speed, alone or %d together, were found to be "
            "enough: at best it is short by %s; a stronger blower, or another layout",
            CHANGES_TOGETHER, words_of(ways, SHOW_PRESSURE, ways->least_short));
    else if (ways->count < WAYS_TOLD)
        diagnostic_relate(diagnostics, said, at,
                          "no other larger sizes, easier elbows, freer faces or speed were found%s",
                          ways->broke_rules ? " that are enough and leave room for the taps and changes of size" : "");
}

void budget_ways(const struct look *look, struct network *network, struct diagnostic *said) {
    struct job *job = look->job;
    struct ways ways = {.look = look, .network = network, .items_left = ITEMS_TRIED};
    struct stage alone = {0};
    ways.least_short = -network->surplus;
    bench_set_up(&ways.bench, look, network);
    ways.small = 0.01 * wall_cost_sum(&ways.bench.cost, network) + 1e-9;
    ways.warned = ways_warnings(&ways);
    if (network->unit_drops < network->blower_pressure || network->unit->speeds.count > 1) {
        try_own_rate(&ways);
        try_all(&ways, &alone);
        for (int i = 0; i < ways.seed_count && ways.count < WAYS_TOLD; i++)
            try_together(&ways, &ways.seeds[i].change);
    }
    bench_make(&ways.bench, &(struct changes){0}); /* as it was */
    for (int i = 0; i < ways.count; i++)
        diagnostic_relate(job->diagnostics, said, ways.told[i].at, "%s", ways.told[i].words);
    say_fewer(&ways, said);
}
