/* The openings of a blank, and what they are set out by. */
#include "report/figure_blank.h"

#include <math.h>
#include <string.h>

/* Its middle: of a round one its centre, else of the box around it. */
static struct flat middle_of(const struct blank_opening *opening, double *half_width, double *half_height) {
    struct flat low, high;
    opening_box(opening, &low, &high);
    *half_width = opening->round ? opening->radius : (high.x - low.x) / 2;
    *half_height = opening->round ? opening->radius : (high.y - low.y) / 2;
    return opening->round ? opening->middle : flat_between(low, high, 0.5);
}

/* Where the line from the middle along `way` meets its outline, which lies all round the middle. */
static struct flat on_opening(const struct blank_opening *opening, struct flat middle, struct flat way) {
    struct flat best = middle;
    for (size_t i = 0; i < opening->count; i++) {
        struct flat a = opening->points[i], side = flat_sub(opening->points[(i + 1) % opening->count], a);
        double across = flat_cross(way, side);
        if (fabs(across) < 1e-15)
            continue;
        double far = flat_cross(flat_sub(a, middle), side) / across;
        double along = flat_cross(flat_sub(a, middle), way) / across;
        if (far > 0 && along >= -1e-9 && along <= 1 + 1e-9)
            best = flat_add(middle, flat_scale(way, far));
    }
    return best;
}

enum { OPENING_POINTS = 16 };

/* Whether it is alike on both sides of both centre lines: then a quarter says all. */
static bool is_alike_all_round(const struct blank_opening *opening, struct flat middle) {
    for (int i = 1; i < OPENING_POINTS / 4; i++) {
        struct flat way = flat_turn((struct flat){1, 0}, 2 * PI * i / OPENING_POINTS);
        double far = flat_distance(middle, on_opening(opening, middle, way));
        struct flat mirrored[] = {{-way.x, way.y}, {-way.x, -way.y}, {way.x, -way.y}};
        for (int m = 0; m < 3; m++)
            if (fabs(flat_distance(middle, on_opening(opening, middle, mirrored[m])) - far) > CHORD_LIMIT)
                return false;
    }
    return true;
}

/* Of openings that are alike, once. */
static void list_once(struct pattern *pattern, const char *text) {
    for (size_t i = 0; i < pattern->figure->list.count; i++)
        if (strcmp(pattern->figure->list.at[i], text) == 0)
            return;
    figure_list(pattern->figure, text);
}

/* An opening that is alike on all sides of its centre, by its half widths: no point of it needs a number. */
static void add_half_widths(struct pattern *pattern, const struct blank_opening *opening, struct flat middle) {
    const char *name = opening->name ? opening->name : "opening";
    for (int i = 0; i <= OPENING_POINTS / 4; i++) {
        struct flat way = flat_turn((struct flat){1, 0}, 2 * PI * i / OPENING_POINTS);
        struct flat from = flat_sub(on_opening(opening, middle, way), middle);
        const char *half = pattern_figure(pattern, fabs(from.x)), *up = pattern_figure(pattern, from.y);
        list_once(pattern,
                  i == 0 ? arena_format(pattern->arena, "%s: half width %s at the centre", name, half)
                         : arena_format(pattern->arena, "%s: half width %s at %s above and below", name, half, up));
    }
    pattern->opening_widths = true;
}

/* Points of a curved opening, evenly round its centre, measured from its centre lines. */
static void add_opening_points(struct pattern *pattern, const struct blank_opening *opening, struct flat middle) {
    for (int i = 0; i < OPENING_POINTS; i++) {
        struct flat way = flat_turn((struct flat){1, 0}, 2 * PI * i / OPENING_POINTS);
        struct flat at = on_opening(opening, middle, way), from = flat_sub(at, middle);
        const char *number = arena_format(pattern->arena, "%zu", ++pattern->points);
        unsigned toward = fabs(way.x) > fabs(way.y) ? (way.x > 0 ? TOWARD_RIGHT : TOWARD_LEFT)
                                                    : (way.y > 0 ? TOWARD_UP : TOWARD_DOWN);
        figure_label(pattern->figure, number, spot_of(at), toward | TOWARD_DOT, LETTER_SMALL);
        figure_list(pattern->figure,
                    arena_format(pattern->arena, "%s: %s %s, %s %s the centre", number,
                                 pattern_figure(pattern, fabs(from.x)), from.x < -same_mark ? "left" : "right",
                                 pattern_figure(pattern, fabs(from.y)), from.y < -same_mark ? "below" : "above"));
    }
    pattern->opening_points = true;
}

static void draw_centre_lines(struct pattern *pattern, struct flat middle, double half_width, double half_height) {
    static const double past = 1.15;
    figure_line(pattern->figure, STROKE_CENTRE, (struct spot){middle.x - past * half_width, middle.y},
                (struct spot){middle.x + past * half_width, middle.y});
    figure_line(pattern->figure, STROKE_CENTRE, (struct spot){middle.x, middle.y - past * half_height},
                (struct spot){middle.x, middle.y + past * half_height});
}

/* "12 x 8", as it lies on the drawing: across, up. */
static const char *sides_text(struct arena *arena, enum measure_system system, const struct blank_opening *opening) {
    struct flat low, high;
    double wide, tall;
    opening_box(opening, &low, &high);
    wide = high.x - low.x, tall = high.y - low.y;
    if (opening->count == 4) { /* it may lie aslant */
        bool level =
            fabs(opening->points[1].x - opening->points[0].x) >= fabs(opening->points[1].y - opening->points[0].y);
        double one = flat_distance(opening->points[0], opening->points[1]);
        double other = flat_distance(opening->points[1], opening->points[2]);
        wide = level ? one : other, tall = level ? other : one;
    }
    return arena_format(arena, "%s x %s", measure_figure(arena, system, SHOW_CUT, wide),
                        measure_text(arena, system, SHOW_CUT, tall));
}

const char *opening_words(struct arena *arena, enum measure_system system, const struct blank *blank,
                          const struct blank_opening *opening) {
    double half_width, half_height;
    struct flat datum = blank_datum(blank), middle = middle_of(opening, &half_width, &half_height);
    const char *name = opening->name ? opening->name : "opening";
    const char *size =
        opening_has_corners(opening) ? arena_format(arena, " %s,", sides_text(arena, system, opening))
        : opening->round
            ? arena_format(arena, " %s across,", measure_text(arena, system, SHOW_CUT, 2 * opening->radius))
            : arena_format(arena, ", a curve within %s x %s,", measure_figure(arena, system, SHOW_CUT, 2 * half_width),
                           measure_text(arena, system, SHOW_CUT, 2 * half_height));
    return arena_format(
        arena, "%s%s its centre %s from the %s edge and %s from the %s", name, size,
        measure_figure(arena, system, SHOW_CUT, fabs(middle.x - datum.x)), datum.x > 0 ? "right" : "left",
        measure_figure(arena, system, SHOW_CUT, fabs(middle.y - datum.y)), datum.y > 0 ? "upper" : "lower");
}

void pattern_opening(struct pattern *pattern, const struct blank_opening *opening) {
    struct figure *figure = pattern->figure;
    double half_width = 0, half_height = 0;
    struct flat middle = middle_of(opening, &half_width, &half_height);
    const char *name = opening->name ? opening->name : "opening";
    if (opening->round) {
        const char *across = pattern_text(pattern, 2 * opening->radius);
        figure_circle(figure, STROKE_CUT, spot_of(middle), opening->radius);
        name = arena_format(pattern->arena, opening->name ? "%s: hole %s across" : "%s %s across", name, across);
    } else
        pattern_loop(pattern, opening->points, opening->count);
    if (opening_has_corners(opening)) {
        name = arena_format(pattern->arena, "%s %s", name, sides_text(pattern->arena, pattern->job->system, opening));
        list_once(pattern, opening_words(pattern->arena, pattern->job->system, pattern->blank, opening));
    } else {
        draw_centre_lines(pattern, middle, half_width, half_height);
        pattern_centre(pattern, middle);
    }
    if (!opening->round && !opening_has_corners(opening)) {
        if (is_alike_all_round(opening, middle))
            add_half_widths(pattern, opening, middle);
        else
            add_opening_points(pattern, opening, middle);
    }
    bool lined = opening->round || !opening_has_corners(opening); /* its name keeps off the centre lines */
    struct spot place = {middle.x + (lined ? half_width / 3 : 0), middle.y + (lined ? half_height / 3 : 0)};
    figure_label_briefly(figure, name, place, place, LETTER_SMALL);
}
