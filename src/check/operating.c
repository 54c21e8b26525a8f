/* What will really flow: units off their blower's points, outlets that will be short of air. */
#include "air/operation.h"
#include "check/checks.h"

/* An outlet with less of its design airflow is short.  Common practice of balancing, no source. */
static const double least_share = 0.90;

/* ---- Off the curve ----------------------------------------------------------------------------------------------- */

static void warn_short_of(const struct look *look, const struct air_unit *unit, const char *when) {
    const char *begin = check_text(look->job, SHOW_FLOW, unit->blower.at[0].flow);
    struct diagnostic *said = check_warn(look, unit->blower_at, unit->name,
                                         "%s %s will move less than %s, where the points of its blower begin: what it "
                                         "will move is not known",
                                         when, unit->name, begin);
    diagnostic_hint(look->job->diagnostics, said, "add a point of its blower table below %s", begin);
}

/* More air than the last point of a blower is no fault: tables often end there.  The
 * bid says so, and guesses nothing. */
static void look_at_unit(const struct look *look, const struct network *network) {
    const struct air_unit *unit = network->unit;
    const struct operation *operation = network->operation;
    enum operating_outcome open = operation->open.outcome, set = operation->set.outcome;
    if (open == OPERATES_NO_CURVE || !network->blower_known)
        return;
    look->result->looked_at++;
    if (open == OPERATES_UNSETTLED || set == OPERATES_UNSETTLED)
        check_warn(look, unit->at, unit->name,
                   "no airflow was found at which every path of %s closes%s: what it will move is not known",
                   unit->name, open == OPERATES_UNSETTLED ? "" : " when it is balanced");
    /* Where the budget does not come out, that says what will be moved. */
    if (network->surplus < 0)
        check_pass_over(look, unit->name);
    else if (open == OPERATES_SHORT_OF || set == OPERATES_SHORT_OF)
        warn_short_of(look, unit, open == OPERATES_SHORT_OF ? "open or balanced," : "balanced,");
}

void check_operating(struct job *job, const struct check *check, struct check_result *result) {
    struct look look = {job, check, result};
    for (size_t i = 0; i < job->units.count; i++) {
        const struct network *network = job->units.at[i]->network;
        if (network && network->operation)
            look_at_unit(&look, network);
    }
}

/* ---- Short of air ------------------------------------------------------------------------------------------------ */

static void look_at_outlet(const struct look *look, const struct path *path, const struct operating_point *point) {
    const struct run *run = path->end->terminal;
    double takes = operating_flow(point, path), design = path->end->flow;
    look->result->looked_at++;
    if (!(takes < least_share * design))
        return;
    if (takes < 0) {
        check_warn(look, run->at, run->name, "air will be drawn in at %s, where %s should come out",
                   check_name(look, run), check_text(look->job, SHOW_FLOW, design));
        return;
    }
    struct diagnostic *said =
        check_warn(look, run->at, run->name, "%s will take %s of the %s that it is designed for", check_name(look, run),
                   check_text(look->job, SHOW_FLOW, takes), check_text(look->job, SHOW_FLOW, design));
    diagnostic_hint(look->job->diagnostics, said, "outlets that take more than theirs need a damper: damper volume");
}

void check_airflow_short(struct job *job, const struct check *check, struct check_result *result) {
    struct look look = {job, check, result};
    for (size_t i = 0; i < job->units.count; i++) {
        const struct network *network = job->units.at[i]->network;
        /* That the blower cannot move the design's air is told of by the budget, and more than its points tell by
         * another check. */
        if (!network || !network->operation)
            continue;
        if (network->surplus < 0) {
            for (size_t k = 0; k < network->supply_paths.count; k++)
                check_pass_over(&look, network->supply_paths.at[k].end->terminal->name);
            continue;
        }
        const struct operating_point *point = operation_left(network->operation);
        for (size_t k = 0; point->sections && point->outcome != OPERATES_BEYOND && k < network->supply_paths.count; k++)
            look_at_outlet(&look, &network->supply_paths.at[k], point);
    }
}

const char *short_limit(struct arena *arena) {
    return arena_format(arena, "%g %% of the design airflow", least_share * 100);
}
