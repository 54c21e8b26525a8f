/* Static regain: behind each take-off of the supply side, the smallest duct in which the regain pays the loss as far as
 * the next take-off (behind the last there is none), so that all see nearly the same static pressure.
 *
 *     R (Pv before the take-off - Pv behind) >= losses from the take-off to the next
 *
 * The losses are those of the pieces between; that of going straight past the take-off is what R leaves out. Everything
 * else, and the return side, where air gathers speed toward the unit, goes by velocity: one share of each run's limit,
 * the highest that the budget allows.
 */
#include "size/static_regain.h"

#include "size/limits.h"
#include "size/sizing.h"

/* From memory: ASHRAE Handbook, Fundamentals, and SMACNA, HVAC Systems Duct Design (SOURCE_STATIC_REGAIN). */
static const double regain = 0.75;

/* Shares of the velocity limits that are tried, in hundredths, from the first down to the last.  Chosen here, no
 * source. */
enum { SHARE_HIGH = 100, SHARE_LOW = 30, SHARE_STEP = 5 };

/* ---- From take-off to take-off ----------------------------------------------------------------------------------- */

/* The way of the air from a take-off to the end of the first section of a duct behind it. */
struct reach {
    const struct section *before; /* what ends at the take-off */
    const struct section *passed; /* what begins there */
    const struct section *first;  /* of the duct that is sized */
};

static const struct item *first_item(const struct section *section) {
    return section->items.count ? &section->items.at[0] : NULL;
}

/* Where air is still taken off: a tap or a split on the line of each section, at its end or farther on. */
static const bool *find_take_offs(const struct network *network, struct arena *arena) {
    bool *leads_on = ARENA_ARRAY(arena, bool, network->sections.count);
    for (size_t i = network->sections.count; i-- > 0;) {
        const struct section *section = network->sections.at[i];
        const struct item *item = first_item(section);
        bool leaves = item && (item->role == ITEM_BRANCH || item->role == ITEM_LEG);
        if (section->parent && section->flow > 0)
            leads_on[section->parent->id] |= leaves || leads_on[i];
    }
    return leads_on;
}

/* False: no take-off lies ahead of it on its own line, from the unit, a split or the tap that the line itself is. */
static bool find_reach(const struct sizing *sizing, const struct duct *duct, struct reach *reach) {
    reach->first = sizing->firsts[duct->id];
    for (reach->passed = reach->first; reach->passed; reach->passed = reach->passed->parent) {
        const struct item *item = first_item(reach->passed);
        reach->before = reach->passed->parent;
        if (item && item->role == ITEM_PAST)
            return reach->before;
        if (item && (item->role == ITEM_BRANCH || item->role == ITEM_LEG))
            return false;
    }
    return false;
}

/* Losses between the take-off and the duct that is sized: of ducts that have their sizes. */
static double loss_ahead(const struct air *air, const struct reach *reach) {
    double sum = 0;
    for (const struct section *at = reach->first; at != reach->passed;) {
        at = at->parent;
        sum += air_section_trial(air, at);
    }
    if (reach->first != reach->passed)
        sum -= air_item_trial(air, reach->passed, first_item(reach->passed));
    return sum;
}

static double velocity_pressure(const struct air *air, const struct section *section) {
    return air_velocity_pressure(air, section->flow / size_area(section->duct->size));
}

/* ---- One duct ---------------------------------------------------------------------------------------------------- */

/* Never larger than the duct ahead (which may be the collar): where even that size does not regain enough, the duct
 * keeps it. */
static void grow(struct sizing *sizing, struct duct *duct, const struct size_bounds *bounds) {
    const struct air *air = &sizing->job->air;
    struct size_bounds within = *bounds;
    struct reach reach;
    /* Behind the last take-off no outlet needs the pressure regained. */
    if (!duct->run->supply || !(duct->flow > 0) || !find_reach(sizing, duct, &reach) ||
        !sizing->leads_on[reach.first->id])
        return;
    double ahead = loss_ahead(air, &reach), given = velocity_pressure(air, reach.before);
    within.area = size_area(duct->upstream->size);
    for (;;) {
        double back = regain * (given - velocity_pressure(air, reach.first));
        if (back >= ahead + air_section_trial(air, reach.first) ||
            !choose_next(sizing->catalogue, &sizing->needs[duct->id], &within, &duct->size))
            return;
        duct->reason = SIZE_REGAIN;
    }
}

/* ---- The whole --------------------------------------------------------------------------------------------------- */

static void find_share(struct sizing *sizing) {
    int share = SHARE_HIGH + SHARE_STEP;
    do {
        share -= SHARE_STEP;
        sizing->share = share / 100.0;
        sizing_size(sizing, friction_grid(FRICTION_MOST));
    } while (air_budget_short(sizing->network) && share > SHARE_LOW);
    sizing->network->velocity_share = sizing->share;
}

static void static_regain(struct job *job, struct network *network, const struct catalogue *catalogue,
                          struct diagnostics *said) {
    struct sizing sizing = sizing_make(job, network, catalogue, velocity_limit);
    sizing.said = said;
    sizing.grow = grow;
    sizing.leads_on = find_take_offs(network, job->arena);
    sizing_with_walls(&sizing, find_share);
    network->regain = regain;
    sizing.share = 1; /* errors about a duct are about its limits, not about the share */
    sizing_find_needs(&sizing, friction_grid(FRICTION_MOST));
    sizing_explain(&sizing, 0);
    job->source_used[SOURCE_FRICTION_RANGE] = job->source_used[SOURCE_STATIC_REGAIN] = true;
}

const struct sizing_method sizing_static_regain = {
    .name = "static-regain",
    .meets_budget = true,
    .follows_losses = true,
    .words =
        "Behind each take-off of the supply side a duct is the smallest standard size in which the pressure regained "
        "from the air's slowing down pays its way to the next take-off, as far as it need not be larger than the duct "
        "before "
        "it; all other ducts are the smallest in which the air moves no faster than one share of the velocity limits, "
        "the "
        "highest, in steps of 5 %, at which the governing path keeps inside the blower's pressure.",
    .size = static_regain,
};
