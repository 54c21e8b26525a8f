/* A strip as it lies flat: where it is folded, from one edge, and where it has holes. */
#include <math.h>

#include "report/figures.h"

/* A strip much longer than wide is drawn so much shorter: the length stands in the list. */
static const double most_drawn = 4;

struct strip_drawing {
    struct arena *arena;
    const struct job *job;
    const struct made_strip *strip; /* the longest of its profile */
    struct figure *figure;
    double length; /* m, as drawn */
};

static const char *text_of(const struct strip_drawing *drawing, double length) {
    return measure_text(drawing->arena, drawing->job->system, SHOW_CUT, length);
}

static const char *figure_of(const struct strip_drawing *drawing, double length) {
    return measure_figure(drawing->arena, drawing->job->system, SHOW_CUT, length);
}

static void draw_outline(struct strip_drawing *drawing) {
    double width = drawing->strip->width, length = drawing->length;
    const struct spot corners[] = {{0, 0}, {length, 0}, {length, width}, {0, width}};
    figure_polygon(drawing->figure, STROKE_CUT, SHADE_NONE, corners, 4);
}

/* Along it, every one measured from the lower edge. */
static void draw_folds(struct strip_drawing *drawing) {
    const struct strip_rule *rule = drawing->strip->rule;
    struct figure_ordinates *stick = figure_ordinates(drawing->figure, (struct spot){0, 0}, FIGURE_LEFT, false, "0");
    for (size_t i = 0; rule && i < rule->fold_count; i++) {
        const struct strip_fold *fold = &rule->folds[i];
        struct spot from = {0, fold->at}, to = {drawing->length, fold->at};
        const char *way = fold->angle < 0 ? "down" : "up", *number = arena_format(drawing->arena, "%zu", i + 1);
        figure_line(drawing->figure, fold->angle < 0 ? STROKE_BEND_DOWN : STROKE_BEND_UP, from, to);
        figure_list(drawing->figure,
                    arena_format(drawing->arena, "fold %s: %s %.0f°", number, way, fabs(fold->angle) / DEGREE));
        ordinates_mark(drawing->figure, stick, fold->at,
                       arena_format(drawing->arena, "fold %s: %s", number, figure_of(drawing, fold->at)));
    }
    ordinates_mark(drawing->figure, stick, drawing->strip->width, figure_of(drawing, drawing->strip->width));
}

/* ---- As it is folded --------------------------------------------------------------------------------------------- */

/* The strip seen from its left end, from the lower edge on: layers stand a little apart. */
struct folded {
    struct spot at;
    double heading; /* rad; 0: on across the strip */
};

static const double enlarged = 2;

/* One straight part of it, as a line of the drawing. */
static void section_go(struct strip_drawing *drawing, struct folded *folded, double length) {
    struct spot to = {folded->at.x + length * cos(folded->heading), folded->at.y + length * sin(folded->heading)};
    figure_line(drawing->figure, STROKE_CUT, folded->at, to);
    folded->at = to;
}

/* A fold back on itself goes round the width of a gap. */
static void section_fold(struct strip_drawing *drawing, struct folded *folded, double angle, double gap) {
    bool back = fabs(angle) > 170 * DEGREE;
    folded->heading += back ? angle / 2 : angle;
    if (!back)
        return;
    section_go(drawing, folded, gap);
    folded->heading += angle / 2;
}

static double section_width(const struct strip_rule *rule, double width) {
    double x = 0, low = 0, heading = -rule->folds[0].angle, before = 0;
    for (size_t i = 0; i <= rule->fold_count; i++) {
        double at = i < rule->fold_count ? rule->folds[i].at : width;
        x += (at - before) * cos(heading);
        low = fmin(low, x);
        before = at;
        heading += i < rule->fold_count ? rule->folds[i].angle : 0;
    }
    return -low;
}

/* Right of the flat strip, its folds by their numbers. */
static void draw_section(struct strip_drawing *drawing) {
    const struct strip_rule *rule = drawing->strip->rule;
    if (!rule || !rule->fold_count)
        return;
    double width = drawing->strip->width, gap = enlarged * INCH / 8, before = 0;
    struct folded folded = {.at = {drawing->length + 0.6 * width + enlarged * section_width(rule, width), width / 2},
                            .heading = -rule->folds[0].angle}; /* what follows the first fold lies flat */
    for (size_t i = 0; i <= rule->fold_count; i++) {
        double at = i < rule->fold_count ? rule->folds[i].at : width;
        section_go(drawing, &folded, enlarged * (at - before));
        before = at;
        if (i == rule->fold_count)
            break;
        figure_label(drawing->figure, arena_format(drawing->arena, "%zu", i + 1), folded.at,
                     (cos(folded.heading) > 0 ? TOWARD_RIGHT : TOWARD_LEFT) | TOWARD_CORNERS, LETTER_SMALL);
        section_fold(drawing, &folded, rule->folds[i].angle, gap);
    }
    figure_note(drawing->figure, "Beside it the folded strip in section, twice as large, from its left end, the lower "
                                 "edge first: its folds by number, its layers drawn apart.");
}

/* At both ends, folded over when the strip is on. */
static void draw_tabs(struct strip_drawing *drawing) {
    double tab = drawing->strip->rule ? drawing->strip->rule->tab : 0, width = drawing->strip->width;
    if (!(tab > 0))
        return;
    for (int end = 0; end < 2; end++) {
        double at = end ? drawing->length - tab : tab, tip = end ? drawing->length : 0;
        figure_line(drawing->figure, STROKE_BEND_DOWN, (struct spot){at, 0}, (struct spot){at, width});
        figure_dimension(drawing->figure, (struct spot){fmin(at, tip), width}, (struct spot){fmax(at, tip), width},
                         FIGURE_ABOVE, text_of(drawing, tab));
    }
    figure_note(drawing->figure, "The ends are tabs: they are folded down round the corners when the strip is on.");
}

/* Along the middle, measured from the left end. */
static void draw_holes(struct strip_drawing *drawing) {
    double apart = drawing->strip->apart, width = drawing->strip->width;
    if (!(apart > 0))
        return;
    struct figure_ordinates *stick =
        figure_ordinates(drawing->figure, (struct spot){0, width}, FIGURE_ABOVE, false, "0");
    size_t count = (size_t)round(drawing->strip->length / apart) - 1;
    for (size_t i = 1; i <= count; i++) {
        double at = apart * (double)i;
        figure_line(drawing->figure, STROKE_CENTRE, (struct spot){at, 0}, (struct spot){at, width});
        ordinates_mark(drawing->figure, stick, at, figure_of(drawing, at));
    }
    figure_note(drawing->figure, "A vane stands on each centre line: all are measured from the end at the throat.");
}

static void list_lengths(struct strip_drawing *drawing, size_t count) {
    for (size_t i = 0; i < count; i++)
        figure_list(drawing->figure, arena_format(drawing->arena, "%zu of %s long", drawing->strip[i].count,
                                                  text_of(drawing, drawing->strip[i].length)));
}

struct figure *figure_strip(struct arena *arena, const struct job *job, size_t number, const struct made_strip *strips,
                            size_t count) {
    struct strip_drawing drawing = {.arena = arena, .job = job, .strip = strips};
    bool cut_short = !(strips->apart > 0) && strips->length > most_drawn * strips->width;
    drawing.length = cut_short ? most_drawn * strips->width : strips->length;
    drawing.figure = figure_new(arena, arena_format(arena, "Strip %zu: %s", number, strips->name),
                                arena_format(arena, strips->rule ? "%s wide before it is folded" : "%s wide",
                                             text_of(&drawing, strips->width)));
    drawing.figure->metric = job->system == MEASURE_METRIC;
    draw_outline(&drawing);
    draw_folds(&drawing);
    draw_section(&drawing);
    draw_tabs(&drawing);
    draw_holes(&drawing);
    figure_dimension(drawing.figure, (struct spot){0, 0}, (struct spot){drawing.length, 0}, FIGURE_BELOW,
                     cut_short || count > 1 ? "its length" : text_of(&drawing, strips->length));
    list_lengths(&drawing, count);
    if (strips->rule && strips->rule->fold_count)
        figure_note(drawing.figure, "Folds are measured from the lower edge; up comes toward you.");
    if (cut_short)
        figure_note(drawing.figure, "Drawn shorter than it is.");
    return drawing.figure;
}
