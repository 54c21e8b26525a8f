/* Laying a figure out: the scale that fits, and what every part of the layout shares. */
#include "draw/layout.h"

#include <math.h>

#include "base/constant.h"
#include "draw/lettering.h"
#include "draw/page.h"

struct spot layout_spot(const struct layout *layout, struct spot in_figure) {
    return (struct spot){in_figure.x * layout->scale, -in_figure.y * layout->scale};
}

/* ---- Lines ------------------------------------------------------------------------------------------------------- */

void layout_stroke(struct layout *layout, struct sheet_stroke stroke) {
    *list_add(layout->arena, &layout->sheet->strokes) = stroke;
    if (stroke.stroke == STROKE_NONE && stroke.shade != SHADE_INK)
        return; /* a text may stand on a light fill */
    for (size_t i = 1; i < stroke.count; i++)
        obstacles_add_line(layout->obstacles, stroke.points[i - 1], stroke.points[i]);
    if (stroke.closed && stroke.count > 2)
        obstacles_add_line(layout->obstacles, stroke.points[stroke.count - 1], stroke.points[0]);
}

void layout_line(struct layout *layout, enum stroke stroke, struct spot from, struct spot to) {
    struct spot *points = ARENA_ARRAY(layout->arena, struct spot, 2);
    points[0] = from;
    points[1] = to;
    layout_stroke(layout, (struct sheet_stroke){.points = points, .count = 2, .stroke = stroke});
}

void layout_clear_line(struct layout *layout, struct spot from, struct spot to) {
    struct spot *ends;
    size_t count = obstacles_clear_parts(layout->obstacles, from, to, &ends);
    for (size_t i = 0; i + 1 < count; i += 2)
        layout_line(layout, STROKE_THIN, ends[i], ends[i + 1]);
}

void layout_head(struct layout *layout, struct spot tip, struct spot toward, double length) {
    double half = length / 5; /* slender, by look */
    struct spot *points = ARENA_ARRAY(layout->arena, struct spot, 3);
    struct spot back = {tip.x - length * toward.x, tip.y - length * toward.y};
    points[0] = tip;
    points[1] = (struct spot){back.x - half * toward.y, back.y + half * toward.x};
    points[2] = (struct spot){back.x + half * toward.y, back.y - half * toward.x};
    layout_stroke(layout, (struct sheet_stroke){
                              .points = points, .count = 3, .closed = true, .stroke = STROKE_NONE, .shade = SHADE_INK});
}

void layout_ring(struct layout *layout, struct spot centre, double radius, enum shade shade) {
    enum { CORNERS = 24 };
    struct spot *points = ARENA_ARRAY(layout->arena, struct spot, CORNERS);
    for (int i = 0; i < CORNERS; i++) {
        double angle = 2 * PI * i / CORNERS;
        points[i] = (struct spot){centre.x + radius * cos(angle), centre.y + radius * sin(angle)};
    }
    layout_stroke(layout, (struct sheet_stroke){.points = points,
                                                .count = CORNERS,
                                                .closed = true,
                                                .stroke = shade == SHADE_INK ? STROKE_NONE : STROKE_THIN,
                                                .shade = shade});
}

/* ---- Texts ------------------------------------------------------------------------------------------------------- */

struct sheet_letters letters_of(const struct layout *layout, const char *text, enum letter_size size, double wrap) {
    struct sheet_letters letters = {.text = text, .size = size, .wrap = wrap, .box.along = {1, 0}};
    double width, height;
    lettering_measure(layout->lettering, text, size, wrap, &width, &height);
    letters.box.half_width = width / 2;
    letters.box.half_height = height / 2;
    return letters;
}

bool layout_is_free(struct layout *layout, struct sheet_box box) {
    return !obstacles_meet_box(layout->obstacles, box_grown(box, TEXT_MARGIN),
                               OBSTACLE_LINE | OBSTACLE_TEXT | OBSTACLE_DIMENSION | OBSTACLE_PLACE);
}

void layout_letters(struct layout *layout, struct sheet_letters letters) {
    *list_add(layout->arena, &layout->sheet->letters) = letters;
    obstacles_add_box(layout->obstacles, box_grown(letters.box, TEXT_MARGIN), OBSTACLE_TEXT);
}

/* ---- The whole --------------------------------------------------------------------------------------------------- */

static void widen(struct spot *low, struct spot *high, struct spot by) {
    *low = (struct spot){fmin(low->x, by.x), fmin(low->y, by.y)};
    *high = (struct spot){fmax(high->x, by.x), fmax(high->y, by.y)};
}

bool layout_bounds(const struct layout *layout, struct spot *low, struct spot *high) {
    const struct sheet *sheet = layout->sheet;
    *low = (struct spot){INFINITY, INFINITY};
    *high = (struct spot){-INFINITY, -INFINITY};
    for (size_t i = 0; i < sheet->strokes.count; i++)
        for (size_t j = 0; j < sheet->strokes.at[i].count; j++)
            widen(low, high, sheet->strokes.at[i].points[j]);
    for (size_t i = 0; i < sheet->letters.count; i++) {
        struct spot corners[4];
        box_corners(sheet->letters.at[i].box, corners);
        for (int j = 0; j < 4; j++)
            widen(low, high, corners[j]);
    }
    return low->x <= high->x;
}

/* Its lines alone, at 1:`ratio`. */
static struct layout *lines_at(const struct figure *figure, struct lettering *lettering, double ratio) {
    struct layout *layout = ARENA_NEW(figure->arena, struct layout);
    layout->arena = figure->arena;
    layout->lettering = lettering;
    layout->figure = figure;
    layout->sheet = ARENA_NEW(figure->arena, struct sheet);
    layout->sheet->ratio = ratio;
    layout->obstacles = obstacles_new(figure->arena);
    layout->scale = 1 / (POINT * ratio);
    layout->room = PAGE_ROOM;
    for (size_t i = 0; i < figure->list.count; i++)
        *list_add(layout->arena, &layout->list) = figure->list.at[i];
    layout_paths(layout);
    return layout;
}

/* The drawing without its frame. */
static struct layout *lay_out_at(const struct figure *figure, struct lettering *lettering, double ratio) {
    struct layout *layout = lines_at(figure, lettering, ratio);
    double spare = fmax(0, layout->room - (layout->high.x - layout->low.x)) / 2;
    layout->left = layout->low.x - spare;
    layout->right = layout->high.x + spare;
    layout_ordinates(layout);
    layout_dimensions(layout);
    layout_labels(layout);
    return layout;
}

static bool fits(struct spot low, struct spot high, double tallest) {
    return high.x - low.x <= PAGE_ROOM && high.y - low.y <= tallest;
}

/* The scales in use, each from the one before: 1, 2, 3, 4, 6, 8, 12, 16 ...; metric 1, 2, 5, 10, 20, 50 ...  A sketch
 * that may fill a page has none, and its steps are small. */
static double next_ratio(const struct figure *figure, double ratio) {
    if (figure->sketch && !(figure->tallest > 0))
        return ratio * 1.08;
    if (figure->metric)
        return fabs(log10(ratio / 2) - round(log10(ratio / 2))) < 1e-9 ? ratio * 2.5 : ratio * 2;
    if (ratio < 2)
        return 2;
    return fabs(log2(ratio) - round(log2(ratio))) < 1e-9 ? ratio * 1.5 : ratio * 4 / 3;
}

/* Under this size of the drawing itself a smaller scale helps no more: then the page grows. */
static const double smallest_drawing = 72; /* pt */

/* At `ratio` or the next that keeps the drawing under `tallest` pt. */
static struct layout *lay_out_to_fit(const struct figure *figure, struct lettering *lettering, double ratio,
                                     double tallest) {
    if (figure->diagram)
        return lay_out_at(figure, lettering, ratio);
    ratio = fmax(ratio, figure->largest);
    const struct layout *lines = lines_at(figure, lettering, ratio);
    double width = ratio * (lines->high.x - lines->low.x), height = ratio * (lines->high.y - lines->low.y);
    for (;;) {
        while (!fits((struct spot){0, 0}, (struct spot){width / ratio, height / ratio}, tallest))
            ratio = next_ratio(figure, ratio);
        struct layout *layout = lay_out_at(figure, lettering, ratio);
        struct spot low = {0, 0}, high = {0, 0};
        layout_bounds(layout, &low, &high);
        if (fits(low, high, tallest) || fmax(width, height) / ratio <= smallest_drawing)
            return layout;
        ratio = next_ratio(figure, ratio);
    }
}

/* What stands round the drawing is as tall as it is: the drawing gives way, as long as a smaller one helps. */
static struct layout *lay_out_in(const struct figure *figure, struct lettering *lettering, double largest,
                                 double tallest) {
    double room = figure->tallest > 0 ? figure->tallest : PAGE_TALLEST;
    struct layout *layout = lay_out_to_fit(figure, lettering, largest, room);
    for (;;) {
        struct spot low = {0, 0}, high = {0, 0};
        layout_bounds(layout, &low, &high);
        layout_frame(layout, SHEET_FIT);
        double over = layout->sheet->height - tallest, ratio = layout->sheet->ratio;
        room = high.y - low.y - over;
        if (over <= 0 || figure->diagram || room < smallest_drawing)
            return layout;
        struct layout *smaller = lay_out_to_fit(figure, lettering, ratio, room);
        if (smaller->sheet->ratio <= ratio)
            return layout;
        layout = smaller;
    }
}

/* NULL when memory ran out. */
static struct sheet *lay_out(const struct figure *figure, enum sheet_mode mode, double largest, double tallest,
                             struct lettering *lettering, jmp_buf *failure) {
    if (setjmp(*failure))
        return NULL;
    if (mode == SHEET_FIT)
        return lay_out_in(figure, lettering, largest, tallest)->sheet;
    struct layout *layout = lay_out_at(figure, lettering, 1);
    layout_frame(layout, mode);
    return layout->sheet;
}

/* The lettering is not the arena's: it is given back before the jump goes on to where it was to go. */
static struct sheet *lay_out_safely(const struct figure *figure, enum sheet_mode mode, double largest, double tallest) {
    jmp_buf failure, *further = arena_on_failure(figure->arena, &failure);
    struct lettering *lettering = lettering_new();
    struct sheet *sheet = lay_out(figure, mode, largest, tallest, lettering, &failure);
    lettering_free(lettering);
    arena_on_failure(figure->arena, further);
    if (!sheet)
        longjmp(*further, 1);
    return sheet;
}

struct sheet *sheet_lay_out(const struct figure *figure, enum sheet_mode mode) {
    return lay_out_safely(figure, mode, 1, INFINITY);
}

struct sheet *sheet_lay_out_in(const struct figure *figure, double largest, double tallest) {
    return lay_out_safely(figure, SHEET_FIT, largest, tallest);
}
