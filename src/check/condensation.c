/* Supply ducts so cold outside that water gathers on them. */
#include <math.h>

#include "air/heat.h"
#include "base/constant.h"
#include "check/checks.h"
#include "model/words.h"

/* The section of a run whose surface is farthest under the dew point, or least over it; NULL: none of them is known. */
static const struct heat_section *worst_of(const struct run *run) {
    const struct heat *heat = run->unit && run->unit->network ? run->unit->network->heat : NULL;
    const struct heat_section *worst = NULL;
    for (const struct section *at = run->last_section; heat && at && at->run == run; at = at->parent) {
        const struct heat_section *section = &heat->sections[at->id];
        bool known = section->coldest > 0 && section->dew_point > 0;
        if (known && (!worst || section->coldest - section->dew_point < worst->coldest - worst->dew_point))
            worst = section;
    }
    return worst;
}

/* K: no insulation keeps what is in air more moist than that warm enough.  Chosen here, no source: nobody measures
 * less. */
static const double least_apart = 0.1;

/* With so much more insulation the surface is as warm as the dew point: Rout (around - air) / (around - dew) in all. */
static void hint_insulation(const struct look *look, struct diagnostic *said, const struct run *run,
                            const struct heat_section *at) {
    double around = at->air[HEAT_SUMMER].around;
    if (around - at->dew_point < least_apart)
        return;
    double outside = heat_film_outside(run->settings.location);
    double wall = outside * (around - at->coldest_air) / (around - at->dew_point);
    double needed = wall - heat_film_inside() - outside;
    /* R-values are sold in wholes, near enough. */
    diagnostic_hint(look->job->diagnostics, said, "R-%.0f all round it, its jacket closed, would do",
                    ceil(needed / R_VALUE - 1e-9));
}

static bool is_wet(const struct heat_section *worst) {
    return worst && check_over(worst->dew_point, worst->coldest);
}

static void warn(const struct look *look, const struct run *run, const struct heat_section *worst) {
    struct diagnostic *said = check_warn(
        look, run->at, run->name,
        "the outside of %s comes down to %s in %s, under the dew point there, %s: water gathers on it",
        check_name(look, run), check_text(look->job, SHOW_TEMPERATURE, worst->coldest),
        whereabouts_words(run->settings.location), check_text(look->job, SHOW_TEMPERATURE, worst->dew_point));
    hint_insulation(look, said, run, worst);
}

/* What hangs from a run, in the same place, and is no colder is not told again: the run's warning stands for it. */
void check_condensation(const struct look *look) {
    struct job *job = look->job;
    const struct heat_section **worst = ARENA_ARRAY(job->arena, const struct heat_section *, job->runs.count + 1);
    for (size_t i = 0; i < job->runs.count; i++) {
        const struct run *run = job->runs.at[i];
        worst[run->id] = run->supply ? worst_of(run) : NULL;
        look->result->looked_at += worst[run->id] != NULL;
    }
    for (size_t i = 0; i < job->runs.count; i++) {
        const struct run *run = job->runs.at[i];
        const struct heat_section *own = worst[run->id], *parent = run->parent ? worst[run->parent->id] : NULL;
        bool told = is_wet(parent) && run->parent->settings.location == run->settings.location && own &&
                    own->coldest >= parent->coldest;
        if (is_wet(own) && !told)
            warn(look, run, own);
    }
    if (look->result->looked_at)
        job->source_used[SOURCE_FILMS] = true;
}
