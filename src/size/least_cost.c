/* Least cost: of all standard sizes that the limits allow, those that are cheapest together and keep every path inside
 * the budget. */
#include "size/least_cost.h"

#include <assert.h>
#include <math.h>

#include "size/equal_friction.h"
#include "size/limits.h"
#include "size/search.h"

/* What rounding may hide, Pa: nothing that a gauge could show.  Chosen here, no source.  The search has so much more
 * than the budget, so that sizes that use it to the last digit are not passed over; what then falls short is searched
 * again with so much less.
 */
static const double margin = 1e-6;

/* Searches again with less pressure when the sizes, as they are settled, need more than the search saw.  Chosen here,
 * no source: each takes away what the one before lacked, which is no more than rounding. */
enum { MENDS = 4 };

static void settle(struct sizing *sizing) {
    air_losses(sizing->network, &sizing->job->air);
    air_budget(sizing->network, &sizing->job->air, NULL, sizing->job->system);
    sizing->network->rounds++;
}

/* Pa for the ducts and faces of both sides; infinite: the blower is not known. */
static double pressure_at_hand(const struct network *network) {
    return network->blower_known ? network->blower_pressure - network->unit_drops + margin : INFINITY;
}

static enum size_reason reason_of(const struct duct *duct, const struct options *options) {
    if (options->limited)
        return SIZE_LIMITED;
    return size_known(options->narrow) && size_equal(duct->size, options->narrow) ? SIZE_WALL : SIZE_COST;
}

static void name_reasons(const struct network *network, const struct options *options) {
    for (size_t i = 0; i < network->ducts.count; i++)
        if (!sizing_dictated(network->ducts.at[i]))
            network->ducts.at[i]->reason = reason_of(network->ducts.at[i], &options[i]);
}

static struct duct_size *sizes_at_hand(const struct network *network, struct arena *arena) {
    struct duct_size *sizes = ARENA_ARRAY(arena, struct duct_size, network->ducts.count);
    for (size_t i = 0; i < network->ducts.count; i++)
        sizes[i] = network->ducts.at[i]->size;
    return sizes;
}

/* A lower bound of the cost, where taking steps together may have missed something cheaper; restores the sizes. */
static double find_bound(struct search *search, const struct network *network) {
    const struct duct_size *sizes = sizes_at_hand(network, search->arena);
    double bound = search_bound(search);
    for (size_t i = 0; i < network->ducts.count; i++)
        network->ducts.at[i]->size = sizes[i];
    return bound;
}

/* The search and the budget compute the same losses, so one search is enough but for rounding. */
static double search_within(struct search *search, struct sizing *sizing) {
    double cost = search_sizes(search);
    settle(sizing);
    for (int i = 0; i < MENDS && !isinf(cost) && !isnan(cost) && air_budget_short(sizing->network); i++) {
        search->pressure += sizing->network->surplus - 2 * margin;
        cost = search_sizes(search);
        settle(sizing);
    }
    return cost;
}

/* Fills `found` when sizes within the pressure were found. */
static void report(struct search *search, struct size_search *found, const struct network *network) {
    double costs = wall_cost_sum(search->cost, network);
    found->met = network->blower_known && !air_budget_short(network);
    found->resolution = search->thinned && !isinf(search->pressure) ? search->pressure / (STEPS_LIMIT - 2) : 0;
    found->bound = search->thinned ? fmin(find_bound(search, network), costs) : costs;
}

static void size_low(struct sizing *sizing) {
    sizing_size(sizing, friction_grid(FRICTION_GRID_LOW));
}

/* No sizes meet the budget: keeps by how much the best are short, for the error, and sizes the ducts at the lowest
 * usual friction rate: a plausible drawing, not one of the largest sizes there are. */
static void give_up(struct sizing *sizing, struct size_search *found, bool known) {
    if (known)
        found->short_by = fmax(0, -sizing->network->surplus);
    sizing_with_walls(sizing, size_low);
    sizing_explain(sizing, friction_grid(FRICTION_GRID_HIGH));
}

static void least_cost(struct job *job, struct network *network, const struct catalogue *catalogue,
                       struct diagnostics *said) {
    assert(job->worth); /* metal_worth comes first */
    struct sizing sizing = sizing_make(job, network, catalogue, velocity_limit);
    sizing.said = said;
    struct size_search found = {.made = true};
    network->search = (struct size_search){0};
    sizing_find_needs(&sizing, friction_grid(FRICTION_MOST));
    air_budget(network, &job->air, NULL, job->system); /* reads the blower */
    struct wall_cost cost = wall_cost_make(job, network, job->scratch);
    struct options *options = options_make(&sizing, &cost, job->scratch, &found);
    struct search search = search_make(&sizing, &cost, options, pressure_at_hand(network), job->scratch);
    double least = search_within(&search, &sizing);
    if (isnan(least) || isinf(least)) {
        give_up(&sizing, &found, isinf(least));
    } else {
        report(&search, &found, network);
        name_reasons(network, options);
        network->search = found; /* why a tap has no room depends on it */
        sizing_explain(&sizing, 0);
    }
    network->search = found;
    arena_clear(job->scratch);
    job->source_used[SOURCE_FRICTION_RANGE] = true;
}

const struct sizing_method sizing_least_cost = {
    .name = "least-cost",
    .meets_budget = true,
    .follows_losses = true,
    .compared = &sizing_equal_friction,
    .words = "Of all standard sizes within the limits of height, width, aspect ratio, velocity and friction (0.15 in. "
             "w.g./100 ft, 1.2 Pa/m), each run no larger away from the unit and each tap with room on its wall, those "
             "were taken that "
             "are cheapest together while every path keeps inside the blower's pressure.",
    .size = least_cost,
};
