/* A unit: its airflow, what its blower gives, what its parts take, and its budget. */
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

/* ---- Blower ------------------------------------------------------------------------------------------------------ */

static void explain_curve(struct working *working, const struct air_unit *unit, const struct blower_span *span,
                          double pressure) {
    const struct working_units *units = working->units;
    const struct blower_point *low = &unit->blower.at[span->first], *high = low + 1;
    struct working_unit slope = {"", units->pressure.factor / units->flow.factor, 0};
    double flow = unit->airflow < low->flow ? low->flow : unit->airflow > high->flow ? high->flow : unit->airflow;
    const char *t = working_number(working, span->share), *h = working_value(working, units->flow, span->width);
    work_given(working, "Points around it", SOURCE_NONE, "%s %s at %s %s, %s %s at %s %s",
               working_value(working, units->flow, low->flow), units->flow.name,
               working_value(working, units->pressure, low->pressure), units->pressure.name,
               working_value(working, units->flow, high->flow), units->flow.name,
               working_value(working, units->pressure, high->pressure), units->pressure.name);
    work(working, "How far from the first", SOURCE_NONE, working_plain, span->share,
         "t = (Q - Q0) / (Q1 - Q0) = (%s - %s) / %s", working_value(working, units->flow, flow),
         working_value(working, units->flow, low->flow), h);
    work_given(working, "Slopes of the curve at both", SOURCE_BLOWER_CURVE, "m0 = %s, m1 = %s %s a %s",
               working_value(working, slope, span->slope[0]), working_value(working, slope, span->slope[1]),
               units->pressure.name, units->flow.name);
    work(working, "Between them, a cubic", SOURCE_BLOWER_CURVE, units->pressure, pressure,
         "p = (1 + 2t)(1 - t)^2 p0 + t (1 - t)^2 b m0 + t^2 (3 - 2t) p1 - t^2 (1 - t) b m1 = "
         "(1 + 2 x %s) x (1 - %s)^2 x %s + %s x (1 - %s)^2 x %s x %s + %s^2 x (3 - 2 x %s) x %s - %s^2 x (1 - %s) x %s "
         "x %s",
         t, t, working_value(working, units->pressure, low->pressure), t, t, h,
         working_value(working, slope, span->slope[0]), t, t, working_value(working, units->pressure, high->pressure),
         t, t, h, working_value(working, slope, span->slope[1]));
}

void explain_blower(struct working *working, const struct network *network) {
    const struct air_unit *unit = network->unit;
    const struct working_units *units = working->units;
    struct blower_span span;
    double ratio = working->job->air.density_ratio, pressure = network->blower_pressure / ratio;
    if (!network->blower_known)
        return;
    document_heading(working->document, 2, "Blower");
    if (air_blower_span(unit->blower.at, unit->blower.count, unit->airflow, &span))
        explain_curve(working, unit, &span, pressure);
    else
        work_given(working, "Its one point", SOURCE_NONE, "p = %s", working_text(working, units->pressure, pressure));
    work(working, "In the job's air", SOURCE_RATED_AIR, units->pressure, network->blower_pressure,
         "pblower = p x rho / rho0 = %s x %s", working_value(working, units->pressure, pressure),
         working_number(working, ratio));
}

/* ---- Drops and budget -------------------------------------------------------------------------------------------- */

static void explain_drops(struct working *working, const struct network *network) {
    const struct air_unit *unit = network->unit;
    const struct working_units *units = working->units;
    struct working_sum sum = {0};
    for (size_t i = 0; i < unit->drops.count; i++) {
        const struct drop *drop = &unit->drops.at[i];
        work(working, drop->label, SOURCE_DECLARED_DROP, units->pressure, drop->actual,
             "h = p x (Q / Q0)^2 x rho / rho0 = %s x (%s / %s)^2 x %s",
             working_value(working, units->pressure, drop->pressure),
             working_value(working, units->flow, unit->airflow),
             working_value(working, units->flow, drop->flow > 0 ? drop->flow : unit->airflow),
             working_number(working, working->job->air.density_ratio));
        *list_add(working->arena, &sum.terms) = drop->actual;
    }
    if (sum.terms.count > 1)
        work_sum(working, "All drops of the unit", "hunit", units->pressure, &sum);
}

static double side(struct working *working, const char *what, const struct path *path) {
    if (!path)
        return 0;
    work_given(working, arena_format(working->arena, "Costliest path of the %s, %s", what, path->end->terminal->name),
               SOURCE_NONE, "h = %s", working_text(working, working->units->pressure, path->loss));
    return path->loss;
}

void explain_unit(struct working *working, const struct air_unit *unit) {
    const struct network *network = unit->network;
    const struct working_units *units = working->units;
    explain_flows(working, network);
    explain_blower(working, network);
    document_heading(working->document, 2, "Budget");
    explain_drops(working, network);
    double back = side(working, "return", network->governing_return),
           supply = side(working, "supply", network->governing_supply);
    if (network->blower_known)
        work(working, network->surplus < 0 ? "Short" : "Left over", SOURCE_NONE, units->pressure, network->surplus,
             "s = pblower - hunit - hreturn - hsupply = %s - %s - %s - %s",
             working_value(working, units->pressure, network->blower_pressure),
             working_value(working, units->pressure, network->unit_drops),
             working_value(working, units->pressure, back), working_value(working, units->pressure, supply));
    explain_unit_heat(working, network);
}
