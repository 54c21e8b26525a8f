/* A blower: what it gives at an airflow, and where it really works. */
#include <math.h>

#include "air/air.h"
#include "air/operation.h"
#include "report/explain.h"

/* ---- Its curve --------------------------------------------------------------------------------------------------- */

/* Points as a maker gives them, and the span whose slopes have been worked: the index of its second point; 0: none. */
struct curve {
    const struct blower_point *at;
    size_t count, worked;
};

static void explain_cubic(struct working *working, const struct curve *curve, const struct blower_span *span,
                          double airflow, double pressure) {
    const struct working_units *units = working->units;
    const struct blower_point *low = &curve->at[span->first], *high = low + 1;
    double flow = fmin(fmax(airflow, low->flow), high->flow);
    const char *t = working_number(working, span->share), *b = working_value(working, units->flow, span->width);
    work(working, "How far from the first", SOURCE_NONE, working_plain, span->share,
         "t = (Q - Q0) / b = (%s - %s) / %s", working_value(working, units->flow, flow),
         working_value(working, units->flow, low->flow), b);
    work(working, "Between them, a cubic", SOURCE_BLOWER_CURVE, units->pressure, pressure,
         "p = (1 + 2 x t) x (1 - t)^2 x p0 + t x (1 - t)^2 x b x m0 + t^2 x (3 - 2 x t) x p1 - t^2 x (1 - t) x b x m1 "
         "= (1 + 2 x %s) x (1 - %s)^2 x %s + %s x (1 - %s)^2 x %s x %s + %s^2 x (3 - 2 x %s) x %s - %s^2 x (1 - %s) x "
         "%s x %s",
         t, t, working_value(working, units->pressure, low->pressure), t, t, b,
         working_value(working, units->slope, span->slope[0]), t, t,
         working_value(working, units->pressure, high->pressure), t, t, b,
         working_value(working, units->slope, span->slope[1]));
}

static void explain_given_point(struct working *working, const char *what, const char *pressure, const char *flow,
                                const struct blower_point *point) {
    work_given(working, what, SOURCE_NONE, "%s = %s, at %s %s", pressure,
               working_text(working, working->units->pressure, point->pressure), flow,
               working_text(working, working->units->flow, point->flow));
}

/* The points around, and the slopes there. */
static void explain_span(struct working *working, struct curve *curve, const struct blower_span *span,
                         const struct trace *trace) {
    const struct working_units *units = working->units;
    const struct blower_point *low = &curve->at[span->first], *high = low + 1;
    explain_given_point(working, "The point before it", "p0", "Q0", low);
    explain_given_point(working, "The point behind it", "p1", "Q1", high);
    if (curve->worked == span->first + 1)
        work_given(working, "Slopes there, as worked above", SOURCE_NONE, "m0 = %s; m1 is %s",
                   working_text(working, units->slope, span->slope[0]),
                   working_text(working, units->slope, span->slope[1]));
    for (size_t i = 0; i < trace->steps.count && curve->worked != span->first + 1; i++)
        work_step(working, &trace->steps.at[i]);
    curve->worked = span->first + 1;
    work(working, "From the one to the other", SOURCE_NONE, units->flow, span->width, "b = Q1 - Q0 = %s - %s",
         working_value(working, units->flow, high->flow), working_value(working, units->flow, low->flow));
}

/* What it gives at `flow`, in the job's air; false: it has no points there. */
static bool explain_curve(struct working *working, struct curve *curve, double flow) {
    const struct working_units *units = working->units;
    struct blower_span span;
    struct trace trace = {.arena = working->arena};
    double ratio = working->job->air.density_ratio, pressure;
    if (!air_blower_pressure(curve->at, curve->count, flow, &pressure))
        return false;
    if (air_blower_span(&trace, curve->at, curve->count, flow, &span)) {
        explain_span(working, curve, &span, &trace);
        explain_cubic(working, curve, &span, flow, pressure);
    } else
        work_given(working, "Its one point", SOURCE_NONE, "p = %s", working_text(working, units->pressure, pressure));
    work(working, "In the job's air", SOURCE_RATED_AIR, units->pressure, pressure * ratio, "pblower = p x s = %s x %s",
         working_value(working, units->pressure, pressure), working_number(working, ratio));
    return true;
}

static struct curve curve_of(const struct air_unit *unit) {
    return (struct curve){.at = unit->blower.at, .count = unit->blower.count};
}

void explain_blower(struct working *working, const struct network *network) {
    const struct air_unit *unit = network->unit;
    struct curve curve = curve_of(unit);
    if (!network->blower_known)
        return;
    document_heading(working->document, 2,
                     unit->speed && unit->speed->name
                         ? arena_format(working->arena, "Blower, speed %s", unit->speed->name)
                         : "Blower");
    explain_curve(working, &curve, unit->airflow);
}

/* ---- Its other speeds -------------------------------------------------------------------------------------------- */

static void explain_speed(struct working *working, const struct air_unit *unit, const struct blower_speed *speed) {
    struct curve curve = {.at = speed->points.at, .count = speed->points.count};
    document_heading(working->document, 3, arena_format(working->arena, "Speed %s", speed->name));
    if (!explain_curve(working, &curve, unit->airflow)) {
        work_given(working, "At the design airflow", SOURCE_NONE, "no point of it reaches there");
        return;
    }
    if (speed->tried && speed->known)
        work_given(working,
                   speed->surplus < 0 ? "Short, with ducts sized for this speed"
                                      : "Left over, with ducts sized for this speed",
                   SOURCE_NONE, "s = %s, of a budget as the one above",
                   working_text(working, working->units->pressure, speed->surplus));
}

void explain_speeds(struct working *working, const struct network *network) {
    const struct air_unit *unit = network->unit;
    if (unit->speeds.count < 2)
        return;
    document_heading(working->document, 2, "Other speeds");
    for (size_t i = 0; i < unit->speeds.count; i++)
        if (&unit->speeds.at[i] != unit->speed && unit->speeds.at[i].name)
            explain_speed(working, unit, &unit->speeds.at[i]);
}

/* ---- Where it works ---------------------------------------------------------------------------------------------- */

static void explain_terminals(struct working *working, const struct network *network,
                              const struct operating_point *point, bool supply) {
    struct working_sum sum = {0};
    struct network_side side = network_side(network, supply);
    for (size_t i = 0; i < side.count; i++)
        *list_add(working->arena, &sum.terms) = operating_flow(point, &side.paths[i]);
    work_sum(working, supply ? "What its outlets take there" : "What its inlets give there", "Q", working->units->flow,
             &sum);
}

static const char *const outcomes[OPERATES_OUTCOMES] = {
    [OPERATES_NO_CURVE] =
        "The blower has one point, so that what it gives at another airflow is not known: held at the "
        "design airflow.",
    [OPERATES_BEYOND] = "More air would flow than at the blower's last point: held there.",
    [OPERATES_SHORT_OF] = "Less air would flow than at the blower's first point: held there.",
};

static void explain_point(struct working *working, const struct network *network, struct curve *curve,
                          const struct operating_point *point, const char *title, bool loaded) {
    const struct working_units *units = working->units;
    if (!point->sections)
        return;
    document_heading(working->document, 3, title);
    if (outcomes[point->outcome])
        document_paragraph(working->document, "%s", outcomes[point->outcome]);
    explain_terminals(working, network, point, true);
    explain_terminals(working, network, point, false);
    explain_curve(working, curve, point->flow);
    explain_drops(working, network->unit, point->flow, loaded);
    work_given(working, "Every way of the supply, found by trial", SOURCE_OPERATING_POINT, "hsupply = %s",
               working_text(working, units->pressure, point->supply));
    work_given(working, "Every way of the return, found by trial", SOURCE_OPERATING_POINT, "hreturn = %s",
               working_text(working, units->pressure, point->back));
    work(working, "What unit and ducts take", SOURCE_NONE, units->pressure, point->drops + point->supply + point->back,
         "htotal = hunit + hsupply + hreturn = %s + %s + %s", working_value(working, units->pressure, point->drops),
         working_value(working, units->pressure, point->supply), working_value(working, units->pressure, point->back));
    work_given(working,
               point->outcome == OPERATES ? "No way round fails to meet what the blower gives by more than"
                                          : "No way of a side differs from another by more than",
               SOURCE_NONE, "%s", working_text(working, units->pressure, point->closure));
}

void explain_operation(struct working *working, const struct network *network) {
    const struct operation *operation = network->operation;
    struct curve curve = curve_of(network->unit);
    struct blower_span span;
    if (!operation || !operation->dampers_open.sections)
        return;
    if (network->blower_known && air_blower_span(NULL, curve.at, curve.count, network->unit->airflow, &span))
        curve.worked = span.first + 1;
    document_heading(working->document, 2, "Where blower and ducts meet");
    explain_point(working, network, &curve, &operation->dampers_open, "Dampers as the job has them", false);
    explain_point(working, network, &curve, &operation->balanced, "Balanced", false);
    if (operation->dirty_known)
        explain_point(working, network, &curve, &operation->balanced_dirty, "Balanced, filters full of dust", true);
}
