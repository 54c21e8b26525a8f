/* The blower against the system: what it gives at each airflow, what ducts and unit take, and the design point. */
#include "report/figures.h"

#include <math.h>

#include "air/air.h"
#include "draw/sheet.h"
#include "report/figure_page.h"

/* The field of the diagram, pt. */
static const double left = 44, right = 470, top = 18, bottom = 258;

static void draw_axes(struct figure *figure, const struct axis *flow, const struct axis *pressure) {
    for (size_t i = 0; i < axis_ticks(flow); i++) {
        double x = axis_tick(flow, i);
        diagram_line(figure, STROKE_THIN, x, bottom, x, bottom + 4);
        diagram_small(figure, axis_words(figure->arena, flow, i), x, bottom + 11, TOWARD_HERE, 0);
    }
    for (size_t i = 0; i < axis_ticks(pressure); i++) {
        double y = axis_tick(pressure, i);
        diagram_line(figure, STROKE_THIN, left - 4, y, i ? right : left, y);
        diagram_small(figure, axis_words(figure->arena, pressure, i), left - 7, y, TOWARD_LEFT, 0);
    }
    diagram_line(figure, STROKE_NET, left, top, left, bottom);
    diagram_line(figure, STROKE_NET, left, bottom, right, bottom);
    diagram_small(figure, arena_format(figure->arena, "Pressure, %s", pressure->show->unit), left - 7, top - 13,
                  TOWARD_RIGHT, 0);
    diagram_small(figure, arena_format(figure->arena, "Airflow, %s", flow->show->unit), right, bottom + 22, TOWARD_LEFT,
                  0);
}

struct plot {
    struct figure *figure;
    struct axis flow, pressure;
};

static struct spot spot_at(const struct plot *plot, struct blower_point point) {
    return diagram_spot(axis_at(&plot->flow, point.flow), axis_at(&plot->pressure, point.pressure));
}

static void draw_curve(const struct plot *plot, enum stroke stroke, const struct blower_point *points, size_t count) {
    if (count < 2)
        return;
    struct figure_path *path = figure_path(plot->figure, stroke, spot_at(plot, points[0]));
    for (size_t i = 1; i < count; i++)
        path_line(plot->figure, path, spot_at(plot, points[i]));
}

/* A filled square, which prints as a dot does. */
static void draw_point(const struct plot *plot, struct blower_point point, double half) {
    struct spot at = spot_at(plot, point);
    double by = half * POINT;
    const struct spot corners[] = {
        {at.x - by, at.y - by}, {at.x + by, at.y - by}, {at.x + by, at.y + by}, {at.x - by, at.y + by}};
    figure_polygon(plot->figure, STROKE_NET, SHADE_INK, corners, 4);
}

static struct plot new_plot(struct arena *arena, const struct job *job, const struct network *network) {
    struct plot plot = {
        .figure = diagram_new(arena, arena_format(arena, "Blower of %s against the system", network->unit->name),
                              "in the air of the job")};
    double most_flow = network->unit->airflow, most_pressure = network->system_pressure;
    for (size_t i = 0; i < network->blower_curve.count; i++) {
        most_flow = fmax(most_flow, network->blower_curve.at[i].flow);
        most_pressure = fmax(most_pressure, network->blower_curve.at[i].pressure);
    }
    for (size_t i = 0; i < network->system_curve.count; i++)
        most_flow = fmax(most_flow, network->system_curve.at[i].flow);
    plot.flow = axis_over(job->system, SHOW_FLOW, 0, most_flow, 8);
    plot.pressure = axis_over(job->system, SHOW_PRESSURE, 0, 1.05 * most_pressure, 6);
    plot.flow.from = left;
    plot.flow.to = right;
    plot.pressure.from = bottom;
    plot.pressure.to = top;
    return plot;
}

/* How many points of the system curve lie inside the field: it is not drawn past its top. */
static size_t shown_of_system(const struct plot *plot, const struct network *network) {
    size_t count = 0;
    while (count < network->system_curve.count &&
           network->system_curve.at[count].pressure <= plot->pressure.high * plot->pressure.show->factor)
        count++;
    return count;
}

static void add_figure(struct figure *figure, const struct job *job, const char *what, enum measure_use use,
                       double value) {
    figure_list(figure,
                arena_format(figure->arena, "%s %s", what, measure_text(figure->arena, job->system, use, value)));
}

static void add_figures(struct figure *figure, const struct job *job, const struct network *network) {
    add_figure(figure, job, "design airflow:", SHOW_FLOW, network->unit->airflow);
    add_figure(figure, job, "the blower gives", SHOW_PRESSURE, network->blower_pressure);
    add_figure(figure, job, "ducts and unit take", SHOW_PRESSURE, network->system_pressure);
    add_figure(figure, job, network->surplus < 0 ? "short by" : "left over:", SHOW_PRESSURE, fabs(network->surplus));
}

struct figure *figure_blower(struct arena *arena, const struct job *job, const struct network *network) {
    struct plot plot = new_plot(arena, job, network);
    const struct air_unit *unit = network->unit;
    struct blower_point takes = {.flow = unit->airflow, .pressure = network->system_pressure};
    draw_axes(plot.figure, &plot.flow, &plot.pressure);
    draw_curve(&plot, STROKE_CUT, network->blower_curve.at, network->blower_curve.count);
    size_t shown = shown_of_system(&plot, network);
    draw_curve(&plot, STROKE_HIDDEN, network->system_curve.at, shown);
    for (size_t i = 0; i < unit->blower.count; i++) {
        struct blower_point given = unit->blower.at[i];
        if (air_blower_at(unit->blower.at, unit->blower.count, given.flow, &job->air, &given.pressure))
            draw_point(&plot, given, 1.6);
    }
    draw_point(&plot, takes, 2.6);
    diagram_line(plot.figure, STROKE_THIN, axis_at(&plot.flow, takes.flow), axis_at(&plot.pressure, takes.pressure),
                 axis_at(&plot.flow, takes.flow), bottom);
    figure_label(plot.figure, "design point", spot_at(&plot, takes), 0, LETTER_PLAIN);
    if (network->blower_curve.count)
        figure_label(plot.figure, "blower", spot_at(&plot, network->blower_curve.at[0]), 0, LETTER_PLAIN);
    if (shown)
        figure_label(plot.figure, "ducts and unit", spot_at(&plot, network->system_curve.at[shown / 2]), 0,
                     LETTER_PLAIN);
    add_figures(plot.figure, job, network);
    plot.figure->key[STROKE_CUT] = "blower, between its maker's points";
    plot.figure->key[STROKE_HIDDEN] = "ducts and unit, with the square of the airflow";
    return plot.figure;
}
