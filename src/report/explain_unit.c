/* A unit: its airflow, what its parts take, and its budget. */
#include "air/air.h"
#include "report/explain.h"

/* ---- Airflow ----------------------------------------------------------------------------------------------------- */

static void explain_flows(struct working *working, const struct network *network) {
    const struct working_units *units = working->units;
    struct working_sum sum = {0};
    for (size_t i = 0; i < network->supply_paths.count; i++)
        *list_add(working->arena, &sum.terms) = network->supply_paths.at[i].end->terminal->airflow;
    document_heading(working->document, 2, "Airflow");
    work_sum(working, "What its outlets take", "Q", units->flow, &sum);
    if (network->unit->airflow_given)
        work_given(working, "Its design airflow, as the job gives it", SOURCE_NONE, "Q = %s",
                   working_text(working, units->flow, network->unit->airflow));
}

/* ---- Drops and budget -------------------------------------------------------------------------------------------- */

void explain_drops(struct working *working, const struct air_unit *unit, double flow, bool loaded) {
    const struct working_units *units = working->units;
    struct working_sum sum = {0};
    for (size_t i = 0; i < unit->drops.count; i++) {
        const struct drop *drop = &unit->drops.at[i];
        bool full = loaded && drop->loaded > 0;
        double takes = air_drop(unit, drop, loaded, flow, &working->job->air);
        work(working, full ? arena_format(working->arena, "%s, full of dust", drop->label) : drop->label,
             SOURCE_DECLARED_DROP, units->pressure, takes, "h = p x (Q / Q0)^2 x s = %s x (%s / %s)^2 x %s",
             working_value(working, units->pressure, full ? drop->loaded : drop->pressure),
             working_value(working, units->flow, flow),
             working_value(working, units->flow, drop->flow > 0 ? drop->flow : unit->airflow),
             working_number(working, working->job->air.density_ratio));
        *list_add(working->arena, &sum.terms) = takes;
    }
    work_sum(working, "All drops of the unit", "hunit", units->pressure, &sum);
}

static double side(struct working *working, const char *what, const struct path *path) {
    if (!path)
        return 0;
    work_given(working, arena_format(working->arena, "Costliest path of the %s, %s", what, path->end->terminal->name),
               SOURCE_NONE, "h%s = %s", what, working_text(working, working->units->pressure, path->loss));
    return path->loss;
}

void explain_unit(struct working *working, const struct air_unit *unit) {
    const struct network *network = unit->network;
    const struct working_units *units = working->units;
    explain_flows(working, network);
    explain_blower(working, network);
    document_heading(working->document, 2, "Budget");
    explain_drops(working, unit, unit->airflow, false);
    double back = side(working, "return", network->governing_return),
           supply = side(working, "supply", network->governing_supply);
    if (network->blower_known)
        work(working, network->surplus < 0 ? "Short" : "Left over", SOURCE_NONE, units->pressure, network->surplus,
             "s = pblower - hunit - hreturn - hsupply = %s - %s - %s - %s",
             working_value(working, units->pressure, network->blower_pressure),
             working_value(working, units->pressure, network->unit_drops),
             working_value(working, units->pressure, back), working_value(working, units->pressure, supply));
    explain_speeds(working, network);
    explain_operation(working, network);
    explain_unit_heat(working, network);
    explain_unit_leakage(working, network);
}
