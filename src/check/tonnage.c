/* Airflow for the cooling capacity of each unit. */
#include "check/checks.h"

/* 400 cfm a ton, give or take an eighth: ASHRAE Fundamentals (from memory) and the trade's habit; the width of the band
 * is common practice, no source. */
static const double cfm_usual = 400, cfm_low = 350, cfm_high = 450;

/* Shown airflow per shown capacity: cfm a ton, L/s a kW. */
static double shown_ratio(const struct job *job, double flow_per_watt) {
    return flow_per_watt * measure_show(job->system, SHOW_COOLING)->factor /
           measure_show(job->system, SHOW_FLOW)->factor;
}

static double from_cfm_a_ton(double cfm) {
    return cfm * measure_show(MEASURE_US, SHOW_FLOW)->factor / measure_show(MEASURE_US, SHOW_COOLING)->factor;
}

static void look_at_unit(const struct look *look, const struct air_unit *unit) {
    double flow = unit->airflow, low = from_cfm_a_ton(cfm_low), high = from_cfm_a_ton(cfm_high);
    if (unit->cooling <= 0 || flow <= 0)
        return;
    look->result->looked_at++;
    double ratio = flow / unit->cooling;
    if (!check_over(ratio, high) && !check_over(low, ratio))
        return;
    struct span at = unit->airflow_at.text ? unit->airflow_at : unit->at;
    struct diagnostic *said =
        check_warn(look, at, unit->name, "%s for %s of cooling is %.0f %s a %s in %s; %.0f to %.0f is usual",
                   check_text(look->job, SHOW_FLOW, flow), check_text(look->job, SHOW_COOLING, unit->cooling),
                   shown_ratio(look->job, ratio), measure_show(look->job->system, SHOW_FLOW)->unit,
                   measure_show(look->job->system, SHOW_COOLING)->unit, unit->name, shown_ratio(look->job, low),
                   shown_ratio(look->job, high));
    const char *usual = check_text(look->job, SHOW_FLOW, from_cfm_a_ton(cfm_usual) * unit->cooling);
    diagnostic_hint(look->job->diagnostics, said, unit->airflow_given ? "airflow %s" : "outlets that take %s in all",
                    usual);
    if (unit->cooling_at.text)
        diagnostic_relate(look->job->diagnostics, said, unit->cooling_at, "the cooling capacity");
}

void check_tonnage(const struct look *look) {
    const struct job *job = look->job;
    for (size_t i = 0; i < job->units.count; i++)
        if (!job->units.at[i]->faulty)
            look_at_unit(look, job->units.at[i]);
}

const char *tonnage_limit(struct arena *arena) {
    double metric = from_cfm_a_ton(1) * measure_show(MEASURE_METRIC, SHOW_COOLING)->factor /
                    measure_show(MEASURE_METRIC, SHOW_FLOW)->factor;
    return arena_format(arena, "%.0f to %.0f cfm a ton (%.1f to %.1f L/s a kW)", cfm_low, cfm_high, cfm_low * metric,
                        cfm_high * metric);
}
