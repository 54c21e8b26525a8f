/* Which sizes are weighed. */
#include "size/options.h"

#include <math.h>
#include <stdlib.h>

#include "model/taps.h"
#include "size/room.h"

/* ---- Which of a duct's sizes are weighed ------------------------------------------------------------------------- */

struct candidate {
    struct option option;
    double equivalent; /* m */
    bool kept;
};

/* The cheapest first; of two that cost the same, that with less wall (a duct without length costs nothing at any size),
 * then that which carries more, then the wider: never the order in memory. */
static int by_cost(const void *a, const void *b) {
    const struct candidate *x = a, *y = b;
    if (x->option.cost < y->option.cost || x->option.cost > y->option.cost)
        return x->option.cost < y->option.cost ? -1 : 1;
    double wall = size_perimeter(x->option.size) - size_perimeter(y->option.size);
    if (fabs(wall) > SAME_SIZE)
        return wall < 0 ? -1 : 1;
    if (x->equivalent < y->equivalent || x->equivalent > y->equivalent)
        return x->equivalent > y->equivalent ? -1 : 1;
    double wider = x->option.size.width - y->option.size.width;
    return (wider < 0) - (wider > 0);
}

/* Whether the one at `place` of `count` is among about `limit` that are spread evenly over them, the first and the last
 * included. */
static bool is_spread(size_t place, size_t count, size_t limit) {
    if (count <= limit || place == 0 || place + 1 == count)
        return true;
    return place * limit / count != (place + 1) * limit / count;
}

/* Keeps those that carry more than any cheaper one, about `limit` of them; gives how many. */
static size_t keep_front(struct candidate *candidates, size_t count, size_t limit) {
    size_t front = 0, seen = 0, kept = 0;
    double most = 0;
    for (size_t i = 0; i < count; i++)
        if (candidates[i].equivalent > most) {
            most = candidates[i].equivalent;
            candidates[i].kept = true;
            front++;
        }
    for (size_t i = 0; i < count; i++) {
        if (!candidates[i].kept)
            continue;
        candidates[i].kept = is_spread(seen++, front, limit);
        kept += candidates[i].kept;
    }
    return kept;
}

/* The size of least area: whatever the duct before it in the run, this one is not larger. */
static size_t least_area(const struct candidate *candidates, size_t count) {
    size_t least = 0;
    for (size_t i = 1; i < count; i++)
        if (size_area(candidates[i].option.size) < size_area(candidates[least].option.size))
            least = i;
    return least;
}

/* Of more than `limit`: the least, those that carry more than any cheaper one, then the cheapest. */
static void keep(struct candidate *candidates, size_t count, size_t limit) {
    if (count <= limit) {
        for (size_t i = 0; i < count; i++)
            candidates[i].kept = true;
        return;
    }
    size_t kept = keep_front(candidates, count, limit / 4), least = least_area(candidates, count);
    kept += !candidates[least].kept;
    candidates[least].kept = true;
    for (size_t i = 0; i < count && kept < limit; i++) {
        kept += !candidates[i].kept;
        candidates[i].kept = true;
    }
}

/* ---- The sizes of one duct --------------------------------------------------------------------------------------- */

/* What the sizes are made with. */
struct sorting {
    const struct sizing *sizing;
    const struct wall_cost *cost;
    struct arena *arena;
    struct options *all;
    struct size_search *search;
    struct duct_size *sizes; /* room for all of a shape */
    struct candidate *candidates;
};

static void take_sizes(const struct sorting *sorting, struct duct *duct, size_t count, size_t limit) {
    struct candidate *candidates = sorting->candidates;
    struct options *options = &sorting->all[duct->id];
    for (size_t i = 0; i < count; i++) {
        duct->size = sorting->sizes[i];
        candidates[i] = (struct candidate){
            .option = {.size = duct->size, .cost = wall_cost_of(sorting->cost, duct)},
            .equivalent = air_equivalent_diameter(duct->size),
        };
    }
    qsort(candidates, count, sizeof *candidates, by_cost);
    keep(candidates, count, limit);
    options->at = ARENA_ARRAY(sorting->arena, struct option, count < limit ? count : limit);
    for (size_t i = 0; i < count; i++)
        if (candidates[i].kept)
            options->at[options->count++] = candidates[i].option;
    sorting->search->sizes += options->count;
    sorting->search->left_out += count - options->count;
}

/* How many runs leave the split that the duct is the first behind, with sizes of their own; 0: it is behind none. */
static int legs_beside(const struct duct *duct) {
    const struct run *run = duct->run;
    int count = 0;
    if (run->from.kind != PORT_LEG || run->first_duct != duct)
        return 0;
    for (int leg = 0; leg < LEG_COUNT; leg++) {
        const struct run *other = run->parent->legs[leg];
        count += other && other->first_duct && !sizing_dictated(other->first_duct);
    }
    return count;
}

static size_t limit_of(const struct duct *duct) {
    int legs = legs_beside(duct);
    return legs < 2 ? OPTIONS_LIMIT : legs == 2 ? OPTIONS_LEG : OPTIONS_CROSS;
}

static bool is_among(const struct duct_size *sizes, size_t count, struct duct_size size) {
    size_t at = 0;
    while (at < count && !size_equal(sizes[at], size))
        at++;
    return at < count;
}

static double most_area(const struct options *options) {
    double most = 0;
    for (size_t i = 0; i < options->count; i++)
        most = fmax(most, size_area(options->at[i].size));
    return most;
}

/* The sizes within its limits.  If none is enough: only the one that carries most, and nothing larger behind it in the
 * run.  What a wall kept small stays so. */
static void find_free(const struct sorting *sorting, struct duct *duct) {
    const struct sizing *sizing = sorting->sizing;
    const struct duct *upstream = sizing_chosen_upstream(duct);
    struct size_bounds bounds = run_bounds(&sizing->job->shop, duct->run);
    const struct size_need *need = &sizing->needs[duct->id];
    const struct options none = {0}, *before = upstream ? &sorting->all[upstream->id] : &none;
    struct options *own = &sorting->all[duct->id];
    if (before->limited || before->held)
        bounds.area = most_area(before);
    own->held = before->held;
    size_t count = choose_all(sizing->catalogue, duct->size.shape, need, &bounds, sorting->sizes);
    if (size_known(before->narrow) && !is_among(sorting->sizes, count, before->narrow)) {
        own->narrow = before->narrow;
        sorting->sizes[count++] = before->narrow;
    }
    if (!count) {
        own->limited = true;
        choose_size(sizing->catalogue, duct->size.shape, need, &bounds, &sorting->sizes[count++]);
    }
    take_sizes(sorting, duct, count, limit_of(duct));
}

/* A leg: one size for each size of the duct that it leaves. */
static void find_leg(const struct sorting *sorting, struct duct *duct) {
    const struct options *upstream = &sorting->all[duct->upstream->id];
    size_t count = 0;
    for (size_t i = 0; i < upstream->count; i++) {
        duct->upstream->size = upstream->at[i].size;
        struct duct_size size = sizing_leg_size(sorting->sizing->catalogue, duct);
        if (!is_among(sorting->sizes, count, size))
            sorting->sizes[count++] = size;
    }
    take_sizes(sorting, duct, count, count);
}

/* ---- Taps -------------------------------------------------------------------------------------------------------- */

static enum tap_rule kept_rule(const struct run *run, struct duct_size size, struct duct_size trunk) {
    double left = tap_has(run, trunk) - tap_needs(run, size);
    if (left < -2 * tap_edge - SAME_STATION)
        return TAPS_ANYHOW;
    if (!tap_has_width(run, size, trunk))
        return TAPS_CUT;
    return tap_is_larger(run, size, trunk) ? TAPS_FIT : TAPS_HELD;
}

static enum tap_rule most_kept(const struct options *parent, const struct run *run, struct duct_size size) {
    enum tap_rule most = TAPS_ANYHOW;
    for (size_t i = 0; i < parent->count && most < TAPS_HELD; i++) {
        enum tap_rule kept = kept_rule(run, size, parent->at[i].size);
        most = kept > most ? kept : most;
    }
    return most;
}

/* Finds the most, and leaves out what cannot be cut into any size of the trunk where others can: what is tapped into
 * the run is then held to what is left. */
static void find_rule(const struct sorting *sorting, const struct duct *duct) {
    const struct options *parent = &sorting->all[duct->upstream->id];
    struct options *own = &sorting->all[duct->id];
    size_t kept = 0;
    own->most = TAPS_ANYHOW;
    for (size_t i = 0; i < own->count; i++) {
        enum tap_rule most = most_kept(parent, duct->run, own->at[i].size);
        own->most = most > own->most ? most : own->most;
    }
    for (size_t i = 0; i < own->count && own->most > TAPS_ANYHOW; i++)
        if (most_kept(parent, duct->run, own->at[i].size) > TAPS_ANYHOW)
            own->at[kept++] = own->at[i];
    if (own->most == TAPS_ANYHOW || kept == own->count)
        return;
    own->held = true;
    own->count = kept;
}

/* Of the sizes that a run may be tapped into, that with the widest wall, then the largest. */
static struct duct_size widest(const struct options *parent, const struct run *run) {
    struct duct_size best = parent->at[0].size;
    for (size_t i = 1; i < parent->count; i++) {
        struct duct_size size = parent->at[i].size;
        double more = tap_has(run, size) - tap_has(run, best);
        if (more > SAME_STATION || (more > -SAME_STATION && size_area(size) > size_area(best)))
            best = size;
    }
    return best;
}

/* A run none of whose sizes its trunk holds with metal beside them may have the one that it does hold so. */
static void find_held(const struct sorting *sorting, struct duct *duct) {
    const struct sizing *sizing = sorting->sizing;
    struct options *own = &sorting->all[duct->id];
    find_rule(sorting, duct);
    if (own->most >= TAPS_FIT || sizing_dictated(duct))
        return;
    struct size_bounds bounds = run_bounds(&sizing->job->shop, duct->run);
    struct duct_size trunk = widest(&sorting->all[duct->upstream->id], duct->run), chosen;
    sizing_choose(sizing, duct, room_shape(duct), &bounds, &chosen);
    enum size_reason given = room_give(sizing, duct, chosen, trunk, &sorting->sizes[0]);
    if (given == SIZE_UNSET)
        return;
    size_t count = 1;
    for (size_t i = 0; i < own->count && own->most > TAPS_ANYHOW && count < OPTIONS_LIMIT; i++)
        sorting->sizes[count++] = own->at[i].size;
    if (given == SIZE_WALL && !own->limited)
        own->narrow = sorting->sizes[0];
    own->held |= given == SIZE_WALL;
    sorting->search->sizes -= own->count;
    own->count = 0;
    take_sizes(sorting, duct, count, count);
    find_rule(sorting, duct);
}

/* ---- All --------------------------------------------------------------------------------------------------------- */

static size_t most_sizes(const struct catalogue *catalogue) {
    size_t most = OPTIONS_LIMIT;
    for (int shape = 0; shape < SHAPE_COUNT; shape++) {
        size_t count = catalogue_count(catalogue, (enum shape)shape);
        most = count > most ? count : most;
    }
    return most;
}

struct options *options_make(const struct sizing *sizing, const struct wall_cost *cost, struct arena *arena,
                             struct size_search *search) {
    size_t most = most_sizes(sizing->catalogue) + 1; /* and one that a wall holds */
    struct sorting sorting = {
        .sizing = sizing,
        .cost = cost,
        .arena = arena,
        .all = ARENA_ARRAY(arena, struct options, sizing->network->ducts.count),
        .search = search,
        .sizes = ARENA_ARRAY(arena, struct duct_size, most),
        .candidates = ARENA_ARRAY(arena, struct candidate, most),
    };
    for (size_t i = 0; i < sizing->network->ducts.count; i++) {
        struct duct *duct = sizing->network->ducts.at[i];
        sorting.sizes[0] = duct->size;
        if (duct->leg_start && !duct->fixed)
            find_leg(&sorting, duct);
        else if (duct->fixed)
            take_sizes(&sorting, duct, 1, 1);
        else
            find_free(&sorting, duct);
        if (duct_is_tapped(duct))
            find_held(&sorting, duct);
    }
    return sorting.all;
}

bool options_allow(const struct sizing *sizing, const struct options *options, const struct duct *duct,
                   struct duct_size size, enum tap_rule taps) {
    const struct duct *upstream = duct->upstream;
    if (!upstream)
        return true;
    if (duct->leg_start && !duct->fixed)
        return size_equal(size, sizing_leg_size(sizing->catalogue, duct));
    enum tap_rule most = options[duct->id].most, asked = taps < most ? taps : most;
    if (asked > TAPS_ANYHOW && kept_rule(duct->run, size, upstream->size) < asked)
        return false;
    const struct duct *chosen = sizing_dictated(duct) ? NULL : sizing_chosen_upstream(duct);
    return !chosen || chosen->size.shape != size.shape || size_area(size) <= size_area(chosen->size) * (1 + 1e-9);
}
