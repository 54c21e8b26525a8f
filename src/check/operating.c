/* What will really flow: units off their blower's points, outlets that will be short of air. */
#include <string.h>

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

/* Whether the piece says what it takes when it is full of dust. */
static bool takes_up_dust(const struct piece *piece) {
    const struct slot *slots = piece->reading.form->slots;
    for (size_t i = 0; i < SLOT_LIMIT && slots[i].kind != SLOT_NONE; i++)
        if (slots[i].key && strcmp(slots[i].key, "loaded") == 0)
            return piece->reading.argument[i].given;
    return false;
}

/* Notes every filter of the unit that says what it takes when it is full of dust. */
static void relate_filters(const struct look *look, struct diagnostic *said, const struct air_unit *unit) {
    static const char note[] = "this filter, full of dust";
    for (size_t i = 0; i < unit->drops.count; i++)
        if (unit->drops.at[i].loaded > 0)
            diagnostic_relate(look->job->diagnostics, said, unit->drops.at[i].at, note);
    for (size_t i = 0; i < unit->network->return_paths.count; i++) {
        const struct run *inlet = unit->network->return_paths.at[i].end->terminal;
        for (size_t k = 0; k < inlet->pieces.count; k++)
            if (takes_up_dust(inlet->pieces.at[k]))
                diagnostic_relate(look->job->diagnostics, said, inlet->pieces.at[k]->at, note);
    }
}

/* With clean filters all is well. */
static void look_at_dirty(const struct look *look, const struct network *network) {
    const struct air_unit *unit = network->unit;
    const struct operation *operation = network->operation;
    enum operating_outcome dirty = operation->dirty_known ? operation->balanced_dirty.outcome : OPERATES;
    if (air_budget_short(network) || (dirty != OPERATES_SHORT_OF && dirty != OPERATES_UNSETTLED))
        return;
    const char *begin = check_text(look->job, SHOW_FLOW, unit->blower.at[0].flow);
    struct diagnostic *said =
        check_warn(look, unit->blower_at, unit->name,
                   dirty == OPERATES_UNSETTLED
                       ? "with its filters full of dust no airflow of %s was found at which every path closes"
                       : "with its filters full of dust %s will move less than %s, where the points of its blower "
                         "begin, in place of the %s that it moves with clean ones",
                   unit->name, begin, check_text(look->job, SHOW_FLOW, operation_left(operation)->flow));
    diagnostic_hint(look->job->diagnostics, said,
                    "change them before they take so much, or filters with more face, or points of its blower below "
                    "%s",
                    begin);
    relate_filters(look, said, unit);
}

/* More air than the last point of a blower is no fault: tables often end there.  The
 * bid says so, and guesses nothing. */
static void look_at_unit(const struct look *look, const struct network *network) {
    const struct air_unit *unit = network->unit;
    const struct operation *operation = network->operation;
    enum operating_outcome open = operation->dampers_open.outcome, set = operation->balanced.outcome;
    if (open == OPERATES_NO_CURVE || !network->blower_known)
        return;
    look->result->looked_at++;
    if (open == OPERATES_UNSETTLED || set == OPERATES_UNSETTLED)
        check_warn(look, unit->at, unit->name,
                   "no airflow was found at which every path of %s closes%s: what it will move is not known",
                   unit->name, open == OPERATES_UNSETTLED ? "" : " when it is balanced");
    /* Where the budget does not come out, that says what will be moved. */
    if (air_budget_short(network))
        check_pass_over(look, unit->name);
    else if (open == OPERATES_SHORT_OF || set == OPERATES_SHORT_OF)
        warn_short_of(look, unit, open == OPERATES_SHORT_OF ? "open or balanced," : "balanced,");
    else if (open != OPERATES_UNSETTLED && set != OPERATES_UNSETTLED)
        look_at_dirty(look, network);
}

void check_operating(const struct look *look) {
    for (size_t i = 0; i < look->job->units.count; i++) {
        const struct network *network = look->job->units.at[i]->network;
        if (network && network->operation)
            look_at_unit(look, network);
    }
}

/* ---- Short of air ------------------------------------------------------------------------------------------------ */

/* Whether an outlet takes more than its design that no damper holds back. */
static bool takes_too_much(const struct network *network, const struct operating_point *point) {
    for (size_t i = 0; i < network->supply_paths.count; i++) {
        const struct path *path = &network->supply_paths.at[i];
        if (!path->damper && operating_flow(point, path) > path->end->flow)
            return true;
    }
    return false;
}

/* `too_much`: another outlet takes what it lacks. */
static void look_at_outlet(const struct look *look, const struct path *path, const struct operating_point *point,
                           bool too_much) {
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
    if (too_much)
        diagnostic_hint(look->job->diagnostics, said,
                        "outlets that take more than theirs need a damper: damper volume");
}

void check_airflow_short(const struct look *look) {
    for (size_t i = 0; i < look->job->units.count; i++) {
        const struct network *network = look->job->units.at[i]->network;
        /* That the blower cannot move the design's air is told of by the budget, and more than its points tell by
         * another check. */
        if (!network || !network->operation)
            continue;
        if (air_budget_short(network)) {
            for (size_t k = 0; k < network->supply_paths.count; k++)
                check_pass_over(look, network->supply_paths.at[k].end->terminal->name);
            continue;
        }
        const struct operating_point *point = operation_left(network->operation);
        bool too_much = point->sections && takes_too_much(network, point);
        for (size_t k = 0; point->sections && point->outcome != OPERATES_BEYOND && k < network->supply_paths.count; k++)
            look_at_outlet(look, &network->supply_paths.at[k], point, too_much);
    }
}

const char *short_limit(struct arena *arena) {
    return arena_format(arena, "%g %% of the design airflow", least_share * 100);
}
