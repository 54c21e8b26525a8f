/* Lines of the figure, arcs divided into short chords, and the arrows and radii that are drawn with them. */
#include "draw/layout.h"

#include <math.h>

#include "base/constant.h"

/* How far a chord may stand from its arc: a seventh of a thousandth of an inch on paper. */
static const double chord_error = 0.01; /* pt */

enum { CHORDS_MOST = 20000 };

struct points {
    LIST(struct spot) list;
};

/* A point of the chain from `from`: r = c / (2 sin(sweep/2)), and the centre stands c/2 / tan(sweep/2) left of the
 * chord's middle. */
static void add_arc(struct layout *layout, struct points *points, struct spot from, struct figure_step step) {
    struct spot to = step.to;
    double chord = hypot(to.x - from.x, to.y - from.y);
    if (step.sweep != 0 && chord > 0) {
        double left = 0.5 / tan(step.sweep / 2);
        struct spot centre = {(from.x + to.x) / 2 - left * (to.y - from.y),
                              (from.y + to.y) / 2 + left * (to.x - from.x)};
        double radius = hypot(from.x - centre.x, from.y - centre.y);
        double turn = 2 * acos(fmax(0, 1 - chord_error / (radius * layout->scale)));
        int chords = (int)fmin(ceil(fabs(step.sweep) / turn), CHORDS_MOST);
        double start = atan2(from.y - centre.y, from.x - centre.x);
        for (int i = 1; i < chords; i++) {
            double angle = start + step.sweep * i / chords;
            struct spot at = {centre.x + radius * cos(angle), centre.y + radius * sin(angle)};
            *list_add(layout->arena, &points->list) = layout_spot(layout, at);
        }
    }
    *list_add(layout->arena, &points->list) = layout_spot(layout, to);
}

/* Where the height y crosses the closed line. */
static bool crossing(const struct points *points, double y, double *left, double *right) {
    *left = INFINITY;
    *right = -INFINITY;
    for (size_t i = 0, count = points->list.count; i < count; i++) {
        struct spot a = points->list.at[i], b = points->list.at[(i + 1) % count];
        if ((a.y < y) == (b.y < y))
            continue;
        double x = a.x + (b.x - a.x) * (y - a.y) / (b.y - a.y);
        *left = fmin(*left, x);
        *right = fmax(*right, x);
    }
    return *left < *right;
}

/* Lines that are not drawn, nearer to each other than any text is tall. */
static void keep_inside(struct layout *layout, const struct points *points) {
    static const double apart = 4; /* pt */
    double low = INFINITY, high = -INFINITY, left, right;
    for (size_t i = 0; i < points->list.count; i++) {
        low = fmin(low, points->list.at[i].y);
        high = fmax(high, points->list.at[i].y);
    }
    size_t lines = high > low ? (size_t)((high - low) / apart + 0.5) : 0;
    for (size_t i = 0; i < lines; i++) {
        double y = low + ((double)i + 0.5) * apart;
        if (crossing(points, y, &left, &right))
            obstacles_add_line(layout->obstacles, (struct spot){left, y}, (struct spot){right, y});
    }
}

static void lay_path(struct layout *layout, const struct figure_path *path) {
    struct points points = {0};
    for (size_t i = 0; i < path->steps.count; i++)
        add_arc(layout, &points, path->steps.at[i ? i - 1 : 0].to, path->steps.at[i]);
    layout_stroke(layout, (struct sheet_stroke){.points = points.list.at,
                                                .count = points.list.count,
                                                .closed = path->closed,
                                                .stroke = path->stroke,
                                                .shade = path->shade});
    if (path->kept && layout->obstacles)
        keep_inside(layout, &points);
}

static void lay_arrow(struct layout *layout, const struct figure_arrow *arrow) {
    static const double head = 9; /* pt */
    struct spot from = layout_spot(layout, arrow->from), to = layout_spot(layout, arrow->to);
    double length = hypot(to.x - from.x, to.y - from.y);
    if (length < 1)
        return; /* seen from its end */
    struct spot toward = {(to.x - from.x) / length, (to.y - from.y) / length};
    layout_line(layout, STROKE_CUT, from, (struct spot){to.x - head / 2 * toward.x, to.y - head / 2 * toward.y});
    layout_head(layout, to, toward, head);
}

void layout_bar(struct layout *layout, struct spot at, struct spot across, double half) {
    static const double beyond = 2.6, radius = 1.3; /* pt */
    struct spot ends[2];
    for (int i = 0; i < 2; i++) {
        double to = (i ? 1 : -1) * (half + beyond);
        ends[i] = (struct spot){at.x + to * across.x, at.y + to * across.y};
        layout_ring(layout, ends[i], radius, SHADE_INK);
    }
    layout_line(layout, STROKE_NET, ends[0], ends[1]);
}

static void lay_bar(struct layout *layout, const struct figure_bar *bar) {
    layout_bar(layout, layout_spot(layout, bar->at), (struct spot){bar->across.x, -bar->across.y},
               bar->half * layout->scale);
}

static void lay_radius(struct layout *layout, const struct figure_radius *radius) {
    static const double cross = 5, part = 40, head = 6; /* pt */
    struct spot centre = layout_spot(layout, radius->centre), on = layout_spot(layout, radius->on);
    double length = hypot(on.x - centre.x, on.y - centre.y);
    if (radius->located) {
        layout_line(layout, STROKE_CENTRE, (struct spot){centre.x - cross, centre.y},
                    (struct spot){centre.x + cross, centre.y});
        layout_line(layout, STROKE_CENTRE, (struct spot){centre.x, centre.y - cross},
                    (struct spot){centre.x, centre.y + cross});
    }
    if (length < head)
        return;
    struct spot toward = {(on.x - centre.x) / length, (on.y - centre.y) / length};
    double shown = radius->located ? length : fmin(length, part);
    layout_line(layout, STROKE_THIN, (struct spot){on.x - shown * toward.x, on.y - shown * toward.y}, on);
    layout_head(layout, on, toward, head);
}

void layout_paths(struct layout *layout) {
    const struct figure *figure = layout->figure;
    for (size_t i = 0; i < figure->paths.count; i++)
        lay_path(layout, &figure->paths.at[i]);
    if (!layout_bounds(layout, &layout->low, &layout->high))
        layout->low = layout->high = (struct spot){0, 0};
    for (size_t i = 0; i < figure->bars.count; i++)
        lay_bar(layout, &figure->bars.at[i]);
    for (size_t i = 0; i < figure->arrows.count; i++)
        lay_arrow(layout, &figure->arrows.at[i]);
    for (size_t i = 0; i < figure->radii.count; i++)
        lay_radius(layout, &figure->radii.at[i]);
}
