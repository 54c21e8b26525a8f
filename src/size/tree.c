/* One round of sizing: what each duct needs, and the size that gives it. */
#include "size/tree.h"

#include <math.h>

#include "air/air.h"
#include "base/constant.h"
#include "model/taps.h"
#include "size/limits.h"
#include "size/room.h"

bool tree_dictated(const struct duct *duct) {
    return duct->fixed || duct->leg_start;
}

struct tree tree_make(struct job *job, struct network *network, const struct catalogue *catalogue,
                      double (*velocity)(const struct run *run)) {
    struct tree tree = {.job = job, .network = network, .catalogue = catalogue, .velocity = velocity, .share = 1};
    tree.needs = ARENA_ARRAY(job->arena, struct size_need, network->ducts.count);
    tree.firsts = ARENA_ARRAY(job->arena, const struct section *, network->ducts.count);
    for (size_t i = network->sections.count; i-- > 0;)
        tree.firsts[network->sections.at[i]->duct->id] = network->sections.at[i];
    network->rounds = 0;
    return tree;
}

/* ---- What each duct needs ---------------------------------------------------------------------------------------- */

static struct size_need need_of(const struct tree *tree, const struct duct *duct) {
    struct size_need need = {0};
    double velocity = tree->share * tree->velocity(duct->run);
    if (duct->flow <= 0)
        return need;
    if (velocity > 0)
        need.area = duct->flow / velocity;
    if (tree->rate > 0)
        need.diameter = air_duct_diameter(&tree->job->air, duct, tree->rate);
    return need;
}

/* ---- One round --------------------------------------------------------------------------------------------------- */

struct duct *tree_chosen_upstream(const struct duct *duct) {
    struct duct *upstream = duct->upstream;
    return upstream && upstream->run == duct->run && !tree_dictated(upstream) ? upstream : NULL;
}

/* A run never grows away from the unit: what a later stretch needs, every stretch before it in the run must have. */
static void carry_needs_back(struct tree *tree) {
    for (size_t i = tree->network->ducts.count; i-- > 0;) {
        const struct duct *duct = tree->network->ducts.at[i];
        const struct duct *upstream = tree_dictated(duct) ? NULL : tree_chosen_upstream(duct);
        if (!upstream)
            continue;
        struct size_need *before = &tree->needs[upstream->id];
        before->diameter = fmax(before->diameter, tree->needs[i].diameter);
        before->area = fmax(before->area, tree->needs[i].area);
    }
}

static struct duct_size nearest_round(const struct catalogue *catalogue, double diameter) {
    double nearest = catalogue_nearest(catalogue->round, catalogue->round_count, diameter);
    return (struct duct_size){SHAPE_ROUND, nearest, nearest};
}

/* A leg leaves a split with its share of the width, by flow, at the split's height. */
struct duct_size tree_leg_size(const struct catalogue *catalogue, const struct duct *leg) {
    struct duct_size split = leg->upstream->size;
    /* Of the air at the split: its duct may have carried more, and lost it to taps. */
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

struct size_bounds tree_bounds(const struct tree *tree, const struct duct *duct) {
    struct size_bounds bounds = run_bounds(&tree->job->shop, duct->run);
    const struct duct *upstream = duct->upstream, *chosen = tree_chosen_upstream(duct);
    if (chosen && chosen->size.shape == duct->size.shape)
        bounds.area = size_area(chosen->size);
    if (upstream && upstream->run == duct->run && upstream->size.shape == duct->size.shape)
        bounds.keep_height = upstream->size.height;
    return bounds;
}

struct size_need tree_need_of_air(const struct tree *tree, const struct duct *duct) {
    const struct size_need *need = &tree->needs[duct->id];
    return (struct size_need){.diameter = need->diameter, .area = need->area};
}

bool tree_choose(const struct tree *tree, const struct duct *duct, enum shape shape, const struct size_bounds *bounds,
                 struct duct_size *size) {
    const struct size_need *need = &tree->needs[duct->id];
    const struct size_need air = tree_need_of_air(tree, duct);
    return choose_size(tree->catalogue, shape, need, bounds, size) ||
           choose_size(tree->catalogue, shape, &air, bounds, size);
}

/* Whether it would be another size, were nothing tapped in. */
static bool is_for_taps(const struct tree *tree, const struct duct *duct, const struct size_bounds *bounds) {
    const struct size_need air = tree_need_of_air(tree, duct);
    struct duct_size size;
    return choose_size(tree->catalogue, duct->size.shape, &air, bounds, &size) && !size_equal(size, duct->size);
}

/* A run that what it is tapped into has no room for goes flatter, if it can. */
static void fit_tap(const struct tree *tree, struct duct *duct) {
    const struct duct *trunk = duct->upstream;
    if (!duct_is_tapped(duct) || !trunk || !size_known(trunk->size) ||
        tap_has_width(duct->run, duct->size, trunk->size) ||
        !room_flatter(tree, duct, duct->size, tap_has(duct->run, trunk->size), &duct->size))
        return;
    duct->reason = SIZE_TAP;
}

static void choose_one(struct tree *tree, struct duct *duct) {
    duct->size.shape = room_shape(duct);
    struct size_bounds bounds = tree_bounds(tree, duct);
    bool enough = tree_choose(tree, duct, duct->size.shape, &bounds, &duct->size);
    duct->reason = !enough ? SIZE_LIMITED : is_for_taps(tree, duct, &bounds) ? SIZE_TAP : SIZE_FRICTION;
    if (!enough)
        return;
    fit_tap(tree, duct);
    if (tree->grow)
        tree->grow(tree, duct, &bounds);
}

/* Gives whether the size is another than before. */
static bool size_one(struct tree *tree, struct duct *duct) {
    struct duct_size before = duct->size;
    if (duct->leg_start && duct->upstream)
        duct->size = tree_leg_size(tree->catalogue, duct);
    if (!tree_dictated(duct))
        choose_one(tree, duct);
    return !size_equal(before, duct->size);
}

void tree_find_needs(struct tree *tree, double rate) {
    const struct network *network = tree->network;
    tree->rate = rate;
    for (size_t i = 0; i < network->ducts.count; i++)
        if (!tree_dictated(network->ducts.at[i]))
            tree->needs[i] = need_of(tree, network->ducts.at[i]);
    carry_needs_back(tree);
}

void tree_size(struct tree *tree, double rate) {
    struct network *network = tree->network;
    bool changed = network->rounds == 0;
    tree_find_needs(tree, rate);
    room_ask(tree);
    for (size_t i = 0; i < network->ducts.count; i++)
        changed |= size_one(tree, network->ducts.at[i]);
    network->rounds++;
    /* Sizes that stand as they were lose what they lost. */
    if (!changed)
        return;
    air_losses(network, &tree->job->air);
    air_budget(network, &tree->job->air, NULL, tree->job->system);
}
