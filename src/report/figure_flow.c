/* What each outlet takes, of what it was designed for: bars with the dampers open, dots when balanced. */
#include <math.h>

#include "air/operation.h"
#include "report/bid.h"
#include "report/figures.h"

/* Sizes of the figure, which has no scale: a metre across. */
static const double row_step = 0.055, bar_height = 0.026, dot = 0.009, width = 0.62;

struct flow_chart {
    struct figure *figure;
    const struct job *job;
    const struct network *network;
    double full; /* the share at the right edge */
};

static double share_of(const struct operating_point *point, const struct path *path) {
    return path->end->flow > 0 ? operating_flow(point, path) / path->end->flow : 0;
}

static double across(const struct flow_chart *chart, double share) {
    return width * fmin(fmax(share, 0), chart->full) / chart->full;
}

static void bar(const struct flow_chart *chart, double y, double share) {
    double x = across(chart, share);
    struct spot corners[] = {
        {0, y - bar_height / 2}, {x, y - bar_height / 2}, {x, y + bar_height / 2}, {0, y + bar_height / 2}};
    figure_polygon(chart->figure, STROKE_NET, SHADE_LIGHT, corners, 4);
}

static void mark(const struct flow_chart *chart, double y, double share) {
    double x = across(chart, share);
    struct spot corners[] = {{x - dot, y}, {x, y - dot}, {x + dot, y}, {x, y + dot}};
    figure_polygon(chart->figure, STROKE_THIN, SHADE_INK, corners, 4);
}

/* "145 cfm, 97 %". */
static const char *row_words(const struct flow_chart *chart, const struct path *path) {
    const struct operation *operation = chart->network->operation;
    struct arena *arena = chart->figure->arena;
    return arena_format(
        arena, "%s, %.0f %%",
        measure_text(arena, chart->job->system, SHOW_FLOW, operating_flow(&operation->dampers_open, path)),
        100 * share_of(&operation->dampers_open, path));
}

static void row(const struct flow_chart *chart, const struct path *path, double y) {
    const struct operation *operation = chart->network->operation;
    bar(chart, y, share_of(&operation->dampers_open, path));
    if (operation->balanced.sections)
        mark(chart, y, share_of(&operation->balanced, path));
    figure_label(chart->figure, bid_room(path->end->terminal), (struct spot){0, y}, TOWARD_LEFT, LETTER_PLAIN);
    figure_label(chart->figure, row_words(chart, path), (struct spot){width, y}, TOWARD_RIGHT, LETTER_SMALL);
}

/* Lines at 0, 50, 100 ... percent; the design's is drawn through. */
static void scale(const struct flow_chart *chart, double bottom) {
    int halves = (int)(2 * chart->full + 0.5);
    for (int half = 0; half <= halves; half++) {
        double share = half / 2.0, x = across(chart, share);
        enum stroke stroke = half == 2 ? STROKE_CENTRE : STROKE_THIN;
        figure_line(chart->figure, stroke, (struct spot){x, bottom}, (struct spot){x, row_step * 0.6});
        figure_label(chart->figure, arena_format(chart->figure->arena, "%.0f %%", 100 * share),
                     (struct spot){x, bottom}, TOWARD_DOWN, LETTER_SMALL);
    }
}

/* Room for the names and the figures beside the bars, which the layout would else spend on longer bars. */
static void keep_margins(const struct flow_chart *chart, double bottom) {
    struct spot corners[] = {{-0.30, bottom}, {width + 0.22, bottom}, {width + 0.22, 0}, {-0.30, 0}};
    figure_polygon(chart->figure, STROKE_NONE, SHADE_WHITE, corners, 4);
}

struct figure *figure_flow(struct arena *arena, const struct job *job, const struct network *network, size_t from,
                           size_t count) {
    const struct operation *operation = network->operation;
    struct flow_chart chart = {.job = job, .network = network, .full = 1.5};
    chart.figure = figure_new(arena, arena_format(arena, "Airflow of each outlet of %s", network->unit->name),
                              "of its design airflow");
    chart.figure->sketch = true;
    chart.figure->tallest = 300; /* pt, by look */
    chart.figure->key[STROKE_CENTRE] = "the design airflow";
    chart.figure->key[STROKE_NET] = "dampers open (bars, and the figures behind them)";
    for (size_t i = from; i < from + count; i++)
        chart.full = fmax(chart.full, ceil(2 * share_of(&operation->dampers_open, &network->supply_paths.at[i])) / 2);
    chart.full = fmin(chart.full, 3);
    keep_margins(&chart, -row_step * ((double)count - 0.4));
    scale(&chart, -row_step * ((double)count - 0.4));
    for (size_t i = 0; i < count; i++)
        row(&chart, &network->supply_paths.at[from + i], -row_step * (double)i);
    if (operation->balanced.sections)
        figure_note(chart.figure, "Dark marks: balanced.");
    return chart.figure;
}
