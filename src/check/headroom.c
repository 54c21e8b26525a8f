/* Ducts that hang too low to walk under. */
#include "check/checks.h"
#include "route/route.h"

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
    diagnostic_hint(look->job->diagnostics, said, "raise it by %s",
                    check_text_up(look->job, SHOW_SIZE, asked - (level - floor)));
}

void check_headroom(struct job *job, const struct check *check, struct check_result *result) {
    struct look look = {job, check, result};
    for (size_t i = 0; job->route && i < job->runs.count; i++)
        if (!job->runs.at[i]->faulty)
            look_at(&look, job->runs.at[i]);
}
