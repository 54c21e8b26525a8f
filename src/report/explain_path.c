/* An outlet's or inlet's airflow, and its way to the unit: what it takes, what is left over,
 * what its damper takes up. */
#include <math.h>

#include "base/constant.h"
#include "model/model.h"
#include "model/piece.h"
#include "air/air.h"
#include "air/operation.h"
#include "report/explain.h"

/* ---- Airflow ----------------------------------------------------------------------------------------------------- */

static void explain_difference(struct working *working, const struct run *outlet) {
    const struct working_units *units = working->units;
    double supply, room;
    model_load_air(outlet->unit, &supply, &room);
    work(working, "Temperature difference", SOURCE_NONE, units->difference, outlet->difference,
         "dT = abs(room - supply) = abs(%s - %s)", working_value(working, units->temperature, room),
         working_value(working, units->temperature, supply));
}

/* Q = load / (k difference), k = rho cp in the units at hand: 1.08 in standard air. */
static void explain_load(struct working *working, const struct run *outlet) {
    const struct working_units *units = working->units;
    const struct air *air = &working->job->air;
    bool metric = working->job->system == MEASURE_METRIC;
    double carries =
        air->density * air->specific_heat * units->flow.factor * units->difference.factor / units->heat.factor;
    const char *k = working_number(working, carries);
    work(working, "Heat that a unit of airflow carries", SOURCE_SENSIBLE_HEAT, working_plain, carries,
         metric ? "k = rho x cp / 1000 = %s x %s / 1000" : "k = 60 x rho x cp = 60 x %s x %s",
         working_value(working, units->density, air->density),
         working_value(working, units->capacity, air->specific_heat));
    if (outlet->difference_assumed)
        work_given(working, "Temperature difference, assumed", SOURCE_SUPPLY_AIR, "dT = %s",
                   working_text(working, units->difference, outlet->difference));
    else
        explain_difference(working, outlet);
    work(working, "Airflow for its load", SOURCE_SENSIBLE_HEAT, units->flow, outlet->airflow,
         "Q = q / (k x dT) = %s / (%s x %s)", working_value(working, units->heat, outlet->load), k,
         working_value(working, units->difference, outlet->difference));
}

/* What other inlets leave, shared by face areas; equally where one of these is not known. */
static void explain_share(struct working *working, const struct run *inlet) {
    const struct working_units *units = working->units;
    struct inlet_rest rest = model_inlet_rest(inlet->unit->network);
    const char *left = working_value(working, units->flow, rest.flow);
    if (rest.areas_known)
        work(working, "Its share of what the outlets take, by the area of its face", SOURCE_SUPPLY_RETURN, units->flow,
             inlet->airflow, "Q = Qrest x A / Aall = %s x %s / %s", left,
             working_value(working, units->area, model_face_area(inlet)),
             working_value(working, units->area, rest.area));
    else
        work(working, "Its equal share of what the outlets take", SOURCE_SUPPLY_RETURN, units->flow, inlet->airflow,
             "Q = Qrest / n = %s / %zu", left, rest.sharing);
}

void explain_airflow(struct working *working, const struct run *terminal) {
    document_heading(working->document, 2, "Airflow");
    if (terminal->load > 0)
        explain_load(working, terminal);
    else if (terminal->airflow_given)
        work_given(working, "Airflow, as the job gives it", SOURCE_NONE, "Q = %s",
                   working_text(working, working->units->flow, terminal->airflow));
    else
        explain_share(working, terminal);
}

/* ---- The way to the unit ----------------------------------------------------------------------------------------- */

const struct section **explain_outward(struct working *working, const struct path *path) {
    size_t count = 0;
    for (const struct section *at = path->end; at; at = at->parent)
        count++;
    const struct section **way = ARENA_ARRAY(working->arena, const struct section *, count + 1);
    for (const struct section *at = path->end; at; at = at->parent)
        way[--count] = at;
    return way;
}

/* The sections from the unit to the end; their own working stands with their runs. */
static void explain_way(struct working *working, const struct path *path) {
    struct working_sum sum = {0};
    const struct section **way = explain_outward(working, path);
    for (size_t i = 0; way[i]; i++) {
        const struct section *at = way[i];
        *list_add(working->arena, &sum.terms) = at->loss;
        work_given(working, explain_place(working, at), SOURCE_NONE, "h = %s, through %s at %s",
                   working_text(working, working->units->pressure, at->loss),
                   size_text(working->arena, working->job->system, at->duct->size),
                   measure_text(working->arena, working->job->system, SHOW_FLOW, at->flow));
    }
    work_sum(working, path->end->run->supply ? "The way from the unit" : "The way to the unit", "h",
             working->units->pressure, &sum);
}

static void explain_left(struct working *working, const struct network *network, const struct path *path) {
    const struct working_units *units = working->units;
    bool supply = path->end->run->supply;
    const struct path *other = network_side(network, !supply).governing;
    const struct path *worst = network_side(network, supply).governing;
    struct working_sum total = {0};
    *list_add(working->arena, &total.terms) = path->loss;
    *list_add(working->arena, &total.terms) = other ? other->loss : 0;
    *list_add(working->arena, &total.terms) = network->unit_drops;
    work_sum(working,
             other ? arena_format(working->arena, "With the costliest path of the other side (%s) and the unit's drops",
                                  other->end->terminal->name)
                   : "With the unit's drops",
             "htotal", units->pressure, &total);
    if (network->blower_known)
        work(working, path->surplus < 0 ? "Short of what the blower gives" : "Left of what the blower gives",
             SOURCE_NONE, units->pressure, path->surplus, "s = pblower - htotal = %s - %s",
             working_value(working, units->pressure, network->blower_pressure),
             working_value(working, units->pressure, path->total));
    if (worst)
        work(
            working,
            arena_format(working->arena, "Easier than the costliest path of its side (%s)", worst->end->terminal->name),
            SOURCE_BALANCE, units->pressure, worst->loss - path->loss, "d = hworst - h = %s - %s",
            working_value(working, units->pressure, worst->loss), working_value(working, units->pressure, path->loss));
}

/* ---- What will really flow --------------------------------------------------------------------------------------- */

static void explain_setting(struct working *working, const struct path *path, const struct damper_setting *setting) {
    if (!setting->section || !path->damper)
        return;
    work_given(working, "Its damper, balanced", SOURCE_DAMPER_BLADE, "C = %s, the blade %.0f degrees open",
               working_number(working, setting->coefficient), 90 - round(setting->blade / DEGREE));
}

/* Found by Newton's method over the whole system, and no line of paper. */
static void explain_really(struct working *working, const struct network *network, const struct path *path,
                           size_t index) {
    const struct operation *operation = network->operation;
    if (!operation || !operation->dampers_open.sections)
        return;
    const struct working_unit flow = working->units->flow;
    work_given(working, "What will flow, found by trial over the whole system", SOURCE_OPERATING_POINT,
               "%s with dampers open, %s balanced",
               working_text(working, flow, operating_flow(&operation->dampers_open, path)),
               working_text(working, flow, operating_flow(&operation->balanced, path)));
    const struct damper_setting *settings = operation_settings(operation, path->end->run->supply);
    if (settings)
        explain_setting(working, path, &settings[index]);
}

void explain_path(struct working *working, const struct network *network, const struct path *path, size_t index) {
    document_heading(working->document, 2, "The path");
    explain_way(working, path);
    explain_left(working, network, path);
    explain_really(working, network, path, index);
}
