/* Equal friction: one rate for all ducts, the highest that the budget allows. */
#include "size/equal_friction.h"

#include "size/limits.h"
#include "size/sizing.h"

/* The rate, in steps of the grid, at which the governing path is inside the budget and over which it is not, found by
 * halving: `low` fits and `high` does not.  Sizes come in steps, so that the budget's course over the rate has steps
 * too; what is promised is that the rate fits and the next one up does not. */
static int search(struct sizing *sizing, int low, int high) {
    int sized = low;
    while (high - low > 1) {
        sized = (low + high) / 2;
        sizing_size(sizing, friction_grid(sized));
        if (air_budget_short(sizing->network))
            high = sized;
        else
            low = sized;
    }
    if (sized != low)
        sizing_size(sizing, friction_grid(low));
    return low;
}

/* Finds the rate and leaves the ducts sized at it. */
static void find_rate(struct sizing *sizing) {
    struct network *network = sizing->network;
    sizing_size(sizing, friction_grid(FRICTION_GRID_HIGH));
    if (!air_budget_short(network)) {
        network->rate_note =
            network->blower_known ? "the upper end of the range" : "the upper end of the range; no budget is known";
        network->friction_rate = friction_grid(FRICTION_GRID_HIGH);
        return;
    }
    sizing_size(sizing, friction_grid(FRICTION_GRID_LOW));
    if (air_budget_short(network)) {
        network->rate_note = "the lower end of the range; the budget is not met";
        network->friction_rate = friction_grid(FRICTION_GRID_LOW);
        return;
    }
    network->rate_note = "the budget of the governing path";
    network->friction_rate = friction_grid(search(sizing, FRICTION_GRID_LOW, FRICTION_GRID_HIGH));
}

static void take_declared(struct sizing *sizing) {
    sizing_size(sizing, sizing->job->friction_rate);
}

static void equal_friction(struct job *job, struct network *network, const struct catalogue *catalogue,
                           struct diagnostics *said) {
    struct sizing sizing = sizing_make(job, network, catalogue, velocity_limit);
    sizing.said = said;
    if (job->friction_rate > 0) {
        network->friction_rate = job->friction_rate;
        network->rate_note = "the job, which declares it";
        sizing_with_walls(&sizing, take_declared);
        sizing_explain(&sizing, job->friction_rate);
    } else {
        sizing_with_walls(&sizing, find_rate);
        sizing_explain(&sizing, friction_grid(FRICTION_GRID_HIGH));
    }
    job->source_used[SOURCE_FRICTION_RANGE] = true;
}

const struct sizing_method sizing_equal_friction = {
    .name = "equal-friction",
    .meets_budget = true,
    .words = "Every duct is the smallest standard size whose friction is within one rate and whose velocity is within "
             "its limit; the rate is the highest of the usual range, in steps of 0.001 in. w.g./100 ft (0.008 Pa/m), "
             "at which "
             "the governing path keeps inside the blower's pressure.",
    .size = equal_friction,
};
