/* Ducts that leak more of a unit's air than they may. */
#include "air/leakage.h"
#include "check/checks.h"

static const char *percent(const struct look *look, double share) {
    return arena_format(look->job->arena, "%.1f %%", share * 100);
}

static void look_at_unit(const struct look *look, const struct air_unit *unit) {
    const struct leakage *leakage = unit->network ? unit->network->leakage : NULL;
    if (!leakage || !(leakage->surface > 0))
        return;
    look->result->looked_at++;
    if (leakage->limit_assumed)
        look->job->source_used[SOURCE_LEAKAGE_LIMIT] = true;
    if (!check_over(leakage->share, leakage->limit))
        return;
    struct diagnostic *said = check_warn(look, unit->at, unit->name,
                                         "the ducts of %s leak %s at their pressure, %s of its airflow, more than %s",
                                         unit->name, check_text(look->job, SHOW_FLOW, leakage->supply + leakage->back),
                                         percent(look, leakage->share), percent(look, leakage->limit));
    if (!check_over(leakage->sealed_share, leakage->limit))
        diagnostic_hint(look->job->diagnostics, said, "`seal A` for all of it would bring that to %s",
                        percent(look, leakage->sealed_share));
}

void check_leakage(const struct look *look) {
    for (size_t i = 0; i < look->job->units.count; i++)
        look_at_unit(look, look->job->units.at[i]);
}

const char *leakage_limit(struct arena *arena) {
    return arena_format(arena, "the share of the airflow that the unit declares; else %g %%",
                        leakage_usual_limit() * 100);
}
