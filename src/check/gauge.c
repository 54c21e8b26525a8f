/* Sheet that is thinner than its table asks, and sizes beyond the tables for plain duct. */
#include <math.h>

#include "check/checks.h"
#include "metal/gauge.h"
#include "metal/metal.h"

/* "1.000 in. w.g."; over the last class there is none to name. */
static const char *class_text(const struct look *look, const struct part *part) {
    if (isfinite(part->pressure_class))
        return check_text(look->job, SHOW_PRESSURE, part->pressure_class);
    return arena_format(look->job->arena, "more than %s",
                        check_text(look->job, SHOW_PRESSURE, metal_class_pressure(CLASS_TWO)));
}

static void warn_thin(const struct look *look, const struct part *part, const struct run *run) {
    struct diagnostic *said =
        check_warn(look, run->at, run->name, "%d gauge sheet in %s: %s asks for %d gauge at %s", part->gauge,
                   check_name(look, run), part->title, part->gauge_needed, class_text(look, part));
    diagnostic_hint(look->job->diagnostics, said, "gauge %d", part->gauge_needed);
}

static void warn_bare(const struct look *look, const struct part *part, const struct run *run) {
    struct diagnostic *said =
        check_warn(look, run->at, run->name, "%s in %s is beyond the tables for duct without reinforcement, at %s",
                   part->title, check_name(look, run), class_text(look, part));
    diagnostic_hint(look->job->diagnostics, said,
                    "its stiffening is not laid out here: take it from the construction standard that the job names");
}

/* Once a run. */
void check_gauge(const struct look *look) {
    const struct job *job = look->job;
    bool *warned = ARENA_ARRAY(job->arena, bool, job->runs.count + 1);
    for (size_t i = 0; job->metal && i < job->metal->parts.count; i++) {
        const struct part *part = job->metal->parts.at[i];
        look->result->looked_at++;
        for (size_t u = 0; u < part->uses.count && (part->gauge_thin || part->reinforce); u++) {
            const struct run *run = part->uses.at[u].run;
            if (warned[run->id])
                continue;
            warned[run->id] = true;
            if (part->gauge_thin)
                warn_thin(look, part, run);
            else
                warn_bare(look, part, run);
        }
    }
}
