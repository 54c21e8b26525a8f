/* One round of sizing: what each duct needs, and the size that gives it. */
#include "size/sizing.h"

#include <math.h>

#include "air/air.h"
#include "base/constant.h"
#include "model/taps.h"
#include "size/limits.h"
#include "size/room.h"

bool sizing_dictated(const struct duct *duct) {
    return duct->fixed || duct->leg_start;
}

struct sizing sizing_make(struct job *job, struct network *network, const struct catalogue *catalogue,
                          double (*velocity)(const struct run *run)) {
    struct sizing sizing = {.job = job, .network = network, .catalogue = catalogue, .velocity = velocity, .share = 1};
    sizing.needs = ARENA_ARRAY(job->arena, struct size_need, network->ducts.count);
    sizing.firsts = ARENA_ARRAY(job->arena, const struct section *, network->ducts.count);
    for (size_t i = network->sections.count; i-- > 0;)
        sizing.firsts[network->sections.at[i]->duct->id] = network->sections.at[i];
    network->rounds = 0;
    return sizing;
}

/* ---- What each duct needs ---------------------------------------------------------------------------------------- */

static struct size_need need_of(const struct sizing *sizing, const struct duct *duct) {
    struct size_need need = {0};
    double velocity = sizing->share * sizing->velocity(duct->run);
    if (duct->flow <= 0)
        return need;
    if (velocity > 0)
        need.area = duct->flow / velocity;
    if (sizing->rate > 0)
        need.diameter = air_duct_diameter(&sizing->job->air, duct, sizing->rate);
    return need;
}

/* ---- One round --------------------------------------------------------------------------------------------------- */

struct duct *sizing_chosen_upstream(const struct duct *duct) {
    struct duct *upstream = duct->upstream;
    return upstream && upstream->run == duct->run && !sizing_dictated(upstream) ? upstream : NULL;
}

/* A run never grows away from the unit: each stretch needs at least what the stretches behind it need. */
static void carry_needs_back(struct sizing *sizing) {
    for (size_t i = sizing->network->ducts.count; i-- > 0;) {
        const struct duct *duct = sizing->network->ducts.at[i];
        const struct duct *upstream = sizing_dictated(duct) ? NULL : sizing_chosen_upstream(duct);
        if (!upstream)
            continue;
        struct size_need *before = &sizing->needs[upstream->id];
        before->diameter = fmax(before->diameter, sizing->needs[i].diameter);
        before->area = fmax(before->area, sizing->needs[i].area);
    }
}

static struct duct_size nearest_round(const struct catalogue *catalogue, double diameter) {
    double nearest = catalogue_nearest(catalogue->round, catalogue->round_count, diameter);
    return (struct duct_size){SHAPE_ROUND, nearest, nearest};
}

/* A leg leaves a split with its share of the width, by flow, at the split's height. */
struct duct_size sizing_leg_size(const struct catalogue *catalogue, const struct duct *leg) {
    struct duct_size split = leg->upstream->size;
    /* The air at the split itself: taps before it may have taken some of what its duct carried. */
    const struct section *first = leg->run->first_section;
    double whole = first->parent->flow, share = whole > 0 ? first->flow / whole : 1;
    const struct size_grid *grid = split.shape == SHAPE_OVAL ? &catalogue->oval : &catalogue->rectangular;
    if (split.shape == SHAPE_ROUND)
        return nearest_round(catalogue, split.width * sqrt(share));
    double width = catalogue_nearest(grid->width, grid->columns, split.width * share);
    /* A share of an oval that is no wider than high is a round duct of the same area. */
    if (split.shape == SHAPE_OVAL && width <= split.height)
        return nearest_round(catalogue, sqrt(4 / PI * share * size_area(split)));
    return (struct duct_size){split.shape, width, split.height};
}

struct size_bounds sizing_bounds(const struct sizing *sizing, const struct duct *duct) {
    struct size_bounds bounds = run_bounds(&sizing->job->shop, duct->run);
    const struct duct *upstream = duct->upstream, *chosen = sizing_chosen_upstream(duct);
    if (chosen && chosen->size.shape == duct->size.shape)
        bounds.area = size_area(chosen->size);
    if (upstream && upstream->run == duct->run && upstream->size.shape == duct->size.shape)
        bounds.keep_height = upstream->size.height;
    return bounds;
}

struct size_need sizing_need_of_air(const struct sizing *sizing, const struct duct *duct) {
    const struct size_need *need = &sizing->needs[duct->id];
    return (struct size_need){.diameter = need->diameter, .area = need->area};
}

bool sizing_choose(const struct sizing *sizing, const struct duct *duct, enum shape shape,
                   const struct size_bounds *bounds, struct duct_size *size) {
    const struct size_need *need = &sizing->needs[duct->id];
    const struct size_need air = sizing_need_of_air(sizing, duct);
    return choose_size(sizing->catalogue, shape, need, bounds, size) ||
           choose_size(sizing->catalogue, shape, &air, bounds, size);
}

/* Whether it would have another size if nothing were tapped into it. */
static bool is_for_taps(const struct sizing *sizing, const struct duct *duct, const struct size_bounds *bounds) {
    const struct size_need air = sizing_need_of_air(sizing, duct);
    struct duct_size size;
    return choose_size(sizing->catalogue, duct->size.shape, &air, bounds, &size) && !size_equal(size, duct->size);
}

/* A tapped run that is too large for the wall of its trunk goes flatter or smaller, if it can.  What its own limits
 * kept too small before that is still said to be kept by them. */
static void fit_tap(const struct sizing *sizing, struct duct *duct) {
    const struct duct *trunk = duct->upstream;
    if (!duct_is_tapped(duct) || !trunk || !size_known(trunk->size))
        return;
    enum size_reason given = room_give(sizing, duct, duct->size, trunk->size, &duct->size);
    if (given == SIZE_TAP || (given == SIZE_WALL && duct->reason != SIZE_LIMITED))
        duct->reason = given;
}

/* What the wall kept small at the start of a run stays so behind it, where more is asked for. */
static bool goes_on_small(struct duct *duct) {
    const struct duct *before = sizing_chosen_upstream(duct);
    if (!before || before->reason != SIZE_WALL)
        return false;
    duct->size = before->size;
    duct->reason = SIZE_WALL;
    return true;
}

static void choose_one(struct sizing *sizing, struct duct *duct) {
    duct->size.shape = room_shape(duct);
    struct size_bounds bounds = sizing_bounds(sizing, duct);
    bool enough = sizing_choose(sizing, duct, duct->size.shape, &bounds, &duct->size);
    if (!enough && goes_on_small(duct))
        return;
    duct->reason = !enough ? SIZE_LIMITED : is_for_taps(sizing, duct, &bounds) ? SIZE_TAP : SIZE_CHOSEN;
    fit_tap(sizing, duct);
    if (enough && sizing->grow)
        sizing->grow(sizing, duct, &bounds);
}

/* Gives whether the size is another than before. */
static bool size_one(struct sizing *sizing, struct duct *duct) {
    struct duct_size before = duct->size;
    if (duct->leg_start && duct->upstream)
        duct->size = sizing_leg_size(sizing->catalogue, duct);
    if (!sizing_dictated(duct))
        choose_one(sizing, duct);
    return !size_equal(before, duct->size);
}

void sizing_find_needs(struct sizing *sizing, double rate) {
    const struct network *network = sizing->network;
    sizing->rate = rate;
    for (size_t i = 0; i < network->ducts.count; i++)
        if (!sizing_dictated(network->ducts.at[i]))
            sizing->needs[i] = need_of(sizing, network->ducts.at[i]);
    carry_needs_back(sizing);
}

void sizing_size(struct sizing *sizing, double rate) {
    struct network *network = sizing->network;
    bool changed = network->rounds == 0;
    sizing_find_needs(sizing, rate);
    room_ask(sizing);
    for (size_t i = 0; i < network->ducts.count; i++)
        changed |= size_one(sizing, network->ducts.at[i]);
    network->rounds++;
    /* Unchanged sizes: the losses still hold. */
    if (!changed)
        return;
    air_losses(network, &sizing->job->air);
    air_budget(network, &sizing->job->air, NULL, sizing->job->system);
}

void sizing_with_walls(struct sizing *sizing, void (*size_all)(struct sizing *sizing)) {
    static const enum wall_rule rules[] = {WALLS_BARE, WALLS_LEFT};
    size_all(sizing);
    if (!air_budget_short(sizing->network) || !room_is_short(sizing->network))
        return;
    for (size_t i = 0; i < sizeof rules / sizeof rules[0]; i++) {
        sizing->walls = rules[i];
        size_all(sizing);
        if (!air_budget_short(sizing->network) != (rules[i] == WALLS_LEFT))
            return;
    }
    sizing->walls = WALLS_EDGED; /* the walls are what the budget falls short by */
    size_all(sizing);
}
