/* Paths so much easier than the governing one that they would take too much air. */
#include "base/constant.h"
#include "check/checks.h"

/* What a register's own blades can still take up: common practice, no source. */
static const double spread = 0.05 * INCH_OF_WATER;

static void look_at_path(const struct look *look, const struct path *path, const struct path *governing) {
    const struct run *run = path->end->terminal;
    /* Losses, not surpluses: a unit whose blower is not known is balanced all the same. */
    double easier = governing->loss - path->loss;
    look->result->looked_at++;
    if (path->damper || !check_over(easier, spread))
        return;
    struct diagnostic *said = check_warn(
        look, run->at, run->name, "the path to %s is %s easier than that to %s, and %s has no volume damper of its own",
        run->name, check_text(look->job, SHOW_PRESSURE, easier), governing->end->terminal->name, run->name);
    diagnostic_hint(look->job->diagnostics, said, "damper volume");
}

void check_unbalanced(struct job *job, const struct check *check, struct check_result *result) {
    struct look look = {job, check, result};
    for (size_t i = 0; i < job->units.count; i++) {
        const struct network *network = job->units.at[i]->network;
        if (!network)
            continue;
        for (size_t k = 0; k < network->supply_paths.count && network->governing_supply; k++)
            look_at_path(&look, &network->supply_paths.at[k], network->governing_supply);
        for (size_t k = 0; k < network->return_paths.count && network->governing_return; k++)
            look_at_path(&look, &network->return_paths.at[k], network->governing_return);
    }
}

const char *unbalanced_limit(struct arena *arena) {
    return arena_format(arena, "%s less than the costliest path", check_both(arena, SHOW_PRESSURE, spread));
}
