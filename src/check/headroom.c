/* Ducts that hang too low to walk under. */
#include <math.h>

#include "check/checks.h"
#include "route/route.h"

/* The sine of 30 degrees: duct that climbs more steeply is a riser.  Chosen here, no source. */
static const double riser = 0.5;

/* What goes up or down somewhere stands where it does: a riser is not raised. */
static bool rises(const struct route *route, const struct placed_run *placed) {
    for (size_t i = placed->first; i < placed->first + placed->count; i++) {
        const struct placed_piece *piece = &route->pieces.at[i];
        /* a boot that turns up at the end, and what is in it, is no riser */
        if (!piece->free && piece->piece->length > 0 && fabs(piece->near.along.z) > riser)
            return true;
    }
    return false;
}

static void look_at(const struct look *look, const struct run *run) {
    const struct placed_run *placed = route_of(look->job, run);
    if (!placed || !isfinite(route_headroom(placed)))
        return;
    double level = 0, asked = run->settings.headroom, floor = run->settings.floor;
    const struct stretch *lowest = route_lowest(look->job->route, placed, &level);
    if (!lowest)
        return;
    look->result->looked_at++;
    if (!check_over(asked, level - floor + 1e-6))
        return;
    struct span at = look->job->route->pieces.at[lowest->piece].piece->at;
    struct diagnostic *said = check_warn(
        look, at, run->name, "%s leaves %s under it here: a headroom of %s is asked for", check_name(look, run),
        check_text_down(look->job, SHOW_RUN, fmax(level - floor, 0)), check_text(look->job, SHOW_RUN, asked));
    if (rises(look->job->route, placed))
        diagnostic_hint(look->job->diagnostics, said, "headroom 0, where nobody walks under it");
    else
        diagnostic_hint(look->job->diagnostics, said, "raise it by %s",
                        check_text_up(look->job, SHOW_LINE, asked - (level - floor)));
}

void check_headroom(const struct look *look) {
    const struct job *job = look->job;
    for (size_t i = 0; job->route && i < job->runs.count; i++)
        if (!job->runs.at[i]->faulty)
            look_at(look, job->runs.at[i]);
}
