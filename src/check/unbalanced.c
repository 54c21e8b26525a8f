/* Paths so much easier than the governing one that they would take too much air. */
#include "air/operation.h"
#include "base/constant.h"
#include "check/checks.h"

#include <math.h>

/* What a register's own blades can still take up, where it is not known what will flow: common practice, no source. */
static const double spread = 0.05 * INCH_OF_WATER;
/* Where it is known: an outlet or inlet with more of its design airflow takes what others should have.  Common practice
 * of balancing, no source. */
static const double most_share = 1.10;

/* ---- By what is lost --------------------------------------------------------------------------------------------- */

static void look_at_loss(const struct look *look, const struct path *path, const struct path *governing) {
    const struct run *run = path->end->terminal;
    /* Losses, not surpluses: a unit whose blower is not known is balanced all the same. */
    double easier = governing->loss - path->loss;
    if (!check_over(easier, spread))
        return;
    struct diagnostic *said = check_warn(
        look, run->at, run->name, "the path to %s is %s easier than that to %s, and %s has no volume damper of its own",
        check_name(look, run), check_text(look->job, SHOW_PRESSURE, easier), check_name(look, governing->end->terminal),
        check_name(look, run));
    diagnostic_hint(look->job->diagnostics, said, "damper volume");
}

/* ---- By what will flow ------------------------------------------------------------------------------------------- */

/* The airflows are those that flow, or all too small in one measure. */
static bool is_known(const struct operating_point *point) {
    return point->sections && (point->outcome == OPERATES || point->outcome == OPERATES_BEYOND);
}

/* Whether the path takes more than its part: that the unit moves more than its design is not the path's. */
static bool takes_more(const struct network_side *side, const struct operating_point *point, const struct path *path) {
    double part = side->flow > 0 ? fmax(point->flow / side->flow, 1) : 1;
    return check_over(operating_flow(point, path), most_share * part * path->end->flow);
}

/* The path that the job's own setting of a damper keeps shortest of air; NULL: none. */
static const struct path *kept_short(const struct network_side *side, const struct damper_setting *settings,
                                     const struct operation *operation) {
    const struct path *shortest = NULL;
    double least = 1;
    for (size_t i = 0; i < side->count; i++) {
        const struct path *path = &side->paths[i];
        if (!path->damper || !settings[i].declared)
            continue;
        double share = operating_flow(&operation->dampers_open, path) / path->end->flow;
        if (settings[i].blade < settings[i].declared_blade && share < least) {
            shortest = path;
            least = share;
        }
    }
    return shortest;
}

static struct diagnostic *say_takes(const struct look *look, const struct path *path,
                                    const struct operating_point *point, const char *when, const char *why) {
    const struct run *run = path->end->terminal;
    double takes = operating_flow(point, path), design = path->end->flow;
    return check_warn(look, run->at, run->name, "%s, %s will take %s, %.0f %% of the %s that it is designed for%s",
                      when, check_name(look, run), check_text(look->job, SHOW_FLOW, takes), 100 * takes / design,
                      check_text(look->job, SHOW_FLOW, design), why);
}

static void look_at_flow(const struct look *look, const struct network_side *side, const struct path *path,
                         const struct operation *operation) {
    const struct operating_point *left = operation_left(operation);
    struct diagnostics *all = look->job->diagnostics;
    if (takes_more(side, left, path)) {
        struct diagnostic *said = say_takes(look, path, left, left == &operation->balanced ? "balanced" : "open",
                                            ", and it has no volume damper of its own");
        diagnostic_hint(all, said, "damper volume");
        return;
    }
    const struct damper_setting *settings = operation_settings(operation, path->end->run->supply);
    const struct path *other = is_known(&operation->dampers_open) ? kept_short(side, settings, operation) : NULL;
    if (!other || !takes_more(side, &operation->dampers_open, path))
        return;
    const struct run *kept = other->end->terminal;
    struct diagnostic *said = say_takes(
        look, path, &operation->dampers_open, "as the job sets its dampers",
        arena_format(look->job->arena, ": that of %s is farther closed than balancing asks", check_name(look, kept)));
    diagnostic_hint(all, said, "damper volume, without `open`, in %s", kept->name);
    diagnostic_relate(all, said, other->damper->at, "the damper that keeps %s short of air", kept->name);
}

/* ---- Every path -------------------------------------------------------------------------------------------------- */

static void look_at_side(const struct look *look, const struct network *network, bool supply) {
    struct network_side side = network_side(network, supply);
    const struct operation *operation = network->operation;
    for (size_t i = 0; side.governing && i < side.count; i++) {
        const struct path *path = &side.paths[i];
        look->result->looked_at++;
        if (path->damper)
            continue;
        if (operation && is_known(operation_left(operation)))
            look_at_flow(look, &side, path, operation);
        else
            look_at_loss(look, path, side.governing);
    }
}

void check_unbalanced(const struct look *look) {
    for (size_t i = 0; i < look->job->units.count; i++) {
        const struct network *network = look->job->units.at[i]->network;
        if (!network)
            continue;
        look_at_side(look, network, true);
        look_at_side(look, network, false);
    }
}

const char *unbalanced_limit(struct arena *arena) {
    return arena_format(
        arena, "%g %% of the design airflow, balanced; where that is not known, %s less than the costliest path",
        most_share * 100, check_both(arena, SHOW_PRESSURE, spread));
}
