/* Ways out for a unit that asks more of its blower than it has: single changes, each tried on the network. */
#include "check/budget_ways.h"

#include <math.h>
#include <string.h>

#include "size/size.h"

/* Ways that are told; sizes of one duct that are tried; items that all trials together may compute: a large job gets
 * fewer. */
enum { WAYS_TOLD = 3, SIZES_TRIED = 12, ITEMS_TRIED = 4000000 };

struct way {
    double sheet; /* m2 more; less than nothing where sheet is saved */
    double spare; /* Pa left over then */
    struct span at;
    const char *words;
};

struct ways {
    const struct look *look;
    struct network *network;
    struct way told[WAYS_TOLD];
    int count;
    size_t items_left;
};

/* Keeps the cheapest in order. */
static void offer(struct ways *ways, struct way way) {
    int place = ways->count;
    while (place > 0 && (way.sheet < ways->told[place - 1].sheet - 1e-9 ||
                         (way.sheet < ways->told[place - 1].sheet + 1e-9 && way.spare > ways->told[place - 1].spare)))
        place--;
    if (place >= WAYS_TOLD)
        return;
    if (ways->count < WAYS_TOLD)
        ways->count++;
    memmove(&ways->told[place + 1], &ways->told[place], (size_t)(ways->count - place - 1) * sizeof way);
    ways->told[place] = way;
}

static const char *words_of(const struct ways *ways, enum measure_use use, double figure) {
    return check_text(ways->look->job, use, figure);
}

/* Everything again with what stands in the network now; what is left over, Pa. */
static double try_network(struct ways *ways) {
    const struct job *job = ways->look->job;
    air_losses(ways->network, &job->air);
    air_budget(ways->network, &job->air, NULL, job->system);
    return ways->network->surplus;
}

/* Whether there is still time for another trial. */
static bool may_try(struct ways *ways) {
    size_t items = 10 * ways->network->sections.count;
    if (items > ways->items_left)
        return false;
    ways->items_left -= items;
    return true;
}

/* ---- A larger size of one run ---- */

static bool changeable(const struct duct *duct) {
    return size_known(duct->size) && duct->reason != SIZE_COLLAR && !duct->leg_start && duct->length > 0;
}

/* The duct, and those of its run before it that would else be smaller: a run does not grow away from the unit. */
static double take_size(struct duct *duct, struct duct_size size) {
    double sheet = 0;
    for (struct duct *at = duct; at && at->run == duct->run; at = at->upstream) {
        if (!changeable(at) || at->size.shape != size.shape || (at != duct && size_area(at->size) >= size_area(size)))
            continue;
        sheet += (size_perimeter(size) - size_perimeter(at->size)) * at->length;
        at->size = size;
    }
    return sheet;
}

static void give_back(struct network *network, const struct duct_size *sizes) {
    for (size_t i = 0; i < network->ducts.count; i++)
        network->ducts.at[i]->size = sizes[i];
}

static const char *size_words(const struct ways *ways, const struct duct *duct, struct duct_size before, double sheet,
                              double spare) {
    const struct job *job = ways->look->job;
    return arena_format(job->arena, "way out: %s as %s in place of %s takes %s more sheet and leaves %s",
                        duct->run->name, check_size_text(job, duct->size), check_size_text(job, before),
                        words_of(ways, SHOW_AREA, sheet), words_of(ways, SHOW_PRESSURE, spare));
}

static void try_larger(struct ways *ways, struct duct *duct, const struct duct_size *sizes) {
    struct duct_size before = duct->size, size = before;
    for (int i = 0; i < SIZES_TRIED && may_try(ways); i++) {
        struct size_need need = {.diameter = air_equivalent_diameter(size) * (1 + 1e-6)};
        if (!check_larger(ways->look, duct, &need, &size))
            break;
        double sheet = take_size(duct, size), spare = try_network(ways);
        if (spare >= 0)
            offer(ways, (struct way){sheet, spare, duct->at, size_words(ways, duct, before, sheet, spare)});
        give_back(ways->network, sizes);
        if (spare >= 0)
            break;
    }
}

/* ---- An easier piece ---- */

static void try_easier(struct ways *ways, struct section *section, struct item *item) {
    const struct piece *piece = item->piece;
    struct job *job = ways->look->job;
    struct piece other;
    const char *words =
        piece->kind->easier && item->role == ITEM_PIECE ? piece->kind->easier(piece, &other, job->arena) : NULL;
    if (!words || !may_try(ways))
        return;
    item->piece = &other;
    double spare = try_network(ways);
    item->piece = piece;
    struct span at = piece->at.text ? piece->at : section->run->at;
    if (spare >= 0)
        offer(ways, (struct way){0, spare, at,
                                 arena_format(job->arena, "way out: '%s' here leaves %s", words,
                                              words_of(ways, SHOW_PRESSURE, spare))});
}

/* ---- A freer face: a register, grille or filter that takes less ---- */

/* The costliest of a side's other paths. */
static double second_of(const struct path *paths, size_t count, const struct path *but) {
    double most = 0;
    for (size_t i = 0; i < count; i++)
        if (&paths[i] != but)
            most = fmax(most, paths[i].loss);
    return most;
}

/* Faces stand at the end of one path: with less there, that path or the next costliest governs. */
static void try_face(struct ways *ways, const struct path *path, const struct path *paths, size_t count) {
    const struct network *network = ways->network;
    const struct section *end = path->end;
    double deficit = -network->surplus;
    if (path->loss - second_of(paths, count, path) < deficit)
        return;
    for (size_t i = end->items.count; i-- > 0;) {
        const struct item *item = &end->items.at[i];
        double left = item->loss.pressure - deficit;
        /* Less than a fifth of what it takes is no register, grille or filter that can be had.  Chosen here: no source.
         */
        if (!(item->piece->kind->traits & (PIECE_OUTLET | PIECE_INLET)) || left < 0.2 * item->loss.pressure)
            continue;
        const struct job *job = ways->look->job;
        offer(ways, (struct way){0, 0, item->piece->at,
                                 arena_format(job->arena, "way out: a %s of %s that takes no more than %s at %s",
                                              item->piece->kind->form.word, end->run->name,
                                              check_text_down(job, SHOW_PRESSURE, left),
                                              words_of(ways, SHOW_FLOW, end->flow))});
        return;
    }
}

/* ---- Another speed, another rate ---- */

static void try_speeds(struct ways *ways) {
    const struct network *network = ways->network;
    const struct air_unit *unit = network->unit;
    double needs = network->blower_pressure - network->surplus;
    for (size_t i = 0; i < unit->speeds.count; i++) {
        const struct blower_speed *speed = &unit->speeds.at[i];
        double pressure;
        if (speed == unit->speed || !speed->name ||
            !air_blower_at(speed->points.at, speed->points.count, unit->airflow, &ways->look->job->air, &pressure))
            continue;
        double spare = pressure - needs;
        if (spare >= 0)
            offer(ways, (struct way){0, spare, unit->speed_at.text ? unit->speed_at : unit->at,
                                     arena_format(ways->look->job->arena, "way out: speed \"%s\" leaves %s",
                                                  speed->name, words_of(ways, SHOW_PRESSURE, spare))});
    }
}

static double sheet_of(const struct network *network) {
    double sum = 0;
    for (size_t i = 0; i < network->ducts.count; i++)
        if (size_known(network->ducts.at[i]->size))
            sum += size_perimeter(network->ducts.at[i]->size) * network->ducts.at[i]->length;
    return sum;
}

/* Without the friction rate that the job asks for.  */
static void try_own_rate(struct ways *ways) {
    struct job *job = ways->look->job;
    const struct sizing_method *method = sizing_method_used(job);
    if (!(job->friction_rate > 0) || !method || ways->network->sections.count > ITEMS_TRIED / 1000)
        return;
    struct network before = *ways->network;
    struct duct *ducts = ARENA_ARRAY(job->arena, struct duct, before.ducts.count);
    for (size_t i = 0; i < before.ducts.count; i++)
        ducts[i] = *before.ducts.at[i];
    double rate = job->friction_rate, sheet = sheet_of(ways->network);
    job->friction_rate = 0;
    method->size(job, ways->network, job->catalogue, NULL);
    job->friction_rate = rate;
    double spare = try_network(ways), more = sheet_of(ways->network) - sheet;
    if (spare >= 0)
        offer(ways,
              (struct way){more, spare, job->friction_rate_at,
                           arena_format(job->arena,
                                        "way out: without 'friction' the ducts are sized at %s, which takes %s more "
                                        "sheet in all and leaves %s",
                                        words_of(ways, SHOW_FRICTION, ways->network->friction_rate),
                                        words_of(ways, SHOW_AREA, more), words_of(ways, SHOW_PRESSURE, spare))});
    for (size_t i = 0; i < before.ducts.count; i++)
        *before.ducts.at[i] = ducts[i];
    *ways->network = before;
}

/* ---- All of them ---- */

static void try_way_of(struct ways *ways, const struct path *path, const struct duct_size *sizes) {
    const struct duct *last = NULL;
    for (struct section *at = path ? path->end : NULL; at; at = at->parent) {
        for (size_t i = 0; i < at->items.count; i++)
            try_easier(ways, at, &at->items.at[i]);
        if (at->duct != last && changeable(at->duct))
            try_larger(ways, at->duct, sizes);
        last = at->duct;
    }
}

void budget_ways(const struct look *look, struct network *network, struct diagnostic *said) {
    struct job *job = look->job;
    struct ways ways = {.look = look, .network = network, .items_left = ITEMS_TRIED};
    struct duct_size *sizes = ARENA_ARRAY(job->arena, struct duct_size, network->ducts.count);
    for (size_t i = 0; i < network->ducts.count; i++)
        sizes[i] = network->ducts.at[i]->size;
    const struct path *supply = network->governing_supply, *back = network->governing_return;
    if (supply)
        try_face(&ways, supply, network->supply_paths.at, network->supply_paths.count);
    if (back)
        try_face(&ways, back, network->return_paths.at, network->return_paths.count);
    try_speeds(&ways);
    try_own_rate(&ways);
    try_way_of(&ways, supply, sizes);
    try_way_of(&ways, back, sizes);
    try_network(&ways); /* as it was */
    for (int i = 0; i < ways.count; i++)
        diagnostic_relate(job->diagnostics, said, ways.told[i].at, "%s", ways.told[i].words);
    if (!ways.count)
        diagnostic_relate(job->diagnostics, said, network->unit->at,
                          "no single change of a size, an elbow, a face or a speed is enough: several together, or a "
                          "stronger blower");
}
