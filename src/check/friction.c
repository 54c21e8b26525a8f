/* Friction of each run, and the rate that all were sized for. */
#include "check/checks.h"

/* A stretch without length has no friction to speak of; what a limit keeps too small has been diagnosed when it was
 * sized. */
static double friction_of(const struct section *section) {
    return section->length > 0 && section->duct->reason != SIZE_LIMITED ? section->friction_rate : 0;
}

/* What is cut into a wall that holds no more would be larger on another. */
static const char *keeps_small(const struct look *look, const struct duct *duct) {
    const char *dictated = duct->run->tap_kept.dictated;
    if (duct->reason != SIZE_WALL)
        return "";
    return arena_format(look->job->arena, "; what it is cut into holds no larger there%s%s", dictated ? ": " : "",
                        dictated ? dictated : "");
}

static void hint_larger(const struct look *look, struct diagnostic *said, const struct duct *duct, double limit) {
    struct size_need need = {.diameter = air_duct_diameter(&look->job->air, duct, limit)};
    struct duct_size size;
    if (!check_larger(look, duct, &need, &size))
        return;
    if (duct->reason != SIZE_WALL) {
        diagnostic_hint(look->job->diagnostics, said, "%s would do", check_size_text(look->job, size));
        return;
    }
    const char *aside = check_other_side(look, duct->run, size);
    if (aside)
        diagnostic_hint(look->job->diagnostics, said, "%s", aside);
}

static void look_at_run(const struct look *look, const struct run *run) {
    const struct section *worst = check_worst(run, friction_of);
    double limit = friction_grid(FRICTION_MOST);
    if (!worst)
        return;
    look->result->looked_at++;
    const struct duct *duct = worst->duct;
    if (!check_over(worst->friction_rate, limit))
        return;
    struct diagnostic *said =
        check_warn(look, duct->at, run->name, "%s in %s: %s through %s is over %s%s",
                   check_text(look->job, SHOW_FRICTION, worst->friction_rate), check_name(look, run),
                   check_text(look->job, SHOW_FLOW, worst->flow), check_size_text(look->job, duct->size),
                   check_text(look->job, SHOW_FRICTION, limit), keeps_small(look, duct));
    hint_larger(look, said, duct, limit);
}

/* A rate that the job declares is taken as it is, and held against the range. */
static void look_at_rate(const struct look *look, const struct network *network) {
    double low = friction_grid(FRICTION_GRID_LOW), high = friction_grid(FRICTION_GRID_HIGH);
    double rate = network->friction_rate;
    look->result->looked_at++;
    if (rate <= 0 || (!check_over(rate, high) && !check_over(low, rate)))
        return;
    check_warn(look, network->unit->at, network->unit->name,
               "the ducts of %s are sized for %s; the usual range is %s to %s", network->unit->name,
               check_text(look->job, SHOW_FRICTION, rate), check_text(look->job, SHOW_FRICTION, low),
               check_text(look->job, SHOW_FRICTION, high));
}

/* A method without a rate has no use for the one that the job declares; said once, of the first unit. */
static void look_at_use(const struct look *look, const struct network *network) {
    const struct job *job = look->job;
    if (job->friction_rate <= 0 || network->friction_rate > 0)
        return;
    struct diagnostic *said = check_warn(look, job->friction_rate_at, network->unit->name,
                                         "the friction rate of %s is not used: sizing %s goes by none",
                                         check_text(job, SHOW_FRICTION, job->friction_rate), job->sizing_used);
    diagnostic_hint(job->diagnostics, said, "leave the line out, or write sizing equal-friction");
}

void check_friction(const struct look *look) {
    const struct job *job = look->job;
    const struct network *first = NULL;
    for (size_t i = 0; i < job->units.count; i++) {
        const struct network *network = job->units.at[i]->network;
        if (!network)
            continue;
        if (!first)
            look_at_use(look, network);
        first = first ? first : network;
        look_at_rate(look, network);
    }
    for (size_t i = 0; i < job->runs.count; i++)
        look_at_run(look, job->runs.at[i]);
}

const char *friction_limits(struct arena *arena) {
    return arena_format(arena, "%s in any run; the rate for all within %s and %s",
                        check_both(arena, SHOW_FRICTION, friction_grid(FRICTION_MOST)),
                        check_both(arena, SHOW_FRICTION, friction_grid(FRICTION_GRID_LOW)),
                        check_both(arena, SHOW_FRICTION, friction_grid(FRICTION_GRID_HIGH)));
}
