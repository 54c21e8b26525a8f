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
    if (!layout->obstacles || (stroke.stroke == STROKE_NONE && stroke.shade != SHADE_INK))
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

static void widen(struct layout_extent *extent, struct spot by) {
    extent->low = (struct spot){fmin(extent->low.x, by.x), fmin(extent->low.y, by.y)};
    extent->high = (struct spot){fmax(extent->high.x, by.x), fmax(extent->high.y, by.y)};
}

/* What has come since it was last asked for is added, as every balloon asks. */
bool layout_bounds(struct layout *layout, struct spot *low, struct spot *high) {
    const struct sheet *sheet = layout->sheet;
    struct layout_extent *extent = &layout->extent;
    for (; extent->strokes < sheet->strokes.count; extent->strokes++)
        for (size_t j = 0; j < sheet->strokes.at[extent->strokes].count; j++)
            widen(extent, sheet->strokes.at[extent->strokes].points[j]);
    for (; extent->letters < sheet->letters.count; extent->letters++) {
        struct spot corners[4];
        box_corners(sheet->letters.at[extent->letters].box, corners);
        for (int j = 0; j < 4; j++)
            widen(extent, corners[j]);
    }
    *low = extent->low;
    *high = extent->high;
    return low->x <= high->x;
}

bool layout_outgrown(struct layout *layout) {
    struct spot low, high;
    return layout_bounds(layout, &low, &high) &&
           !(high.x - low.x <= layout->widest && high.y - low.y <= layout->tallest);
}

/* What the layouts of a figure use one after the other; not in its arena. */
struct desk {
    struct lettering *lettering;
    struct arena *scratch; /* of the layout at hand: what stands where */
    double smallest;       /* scales under 1:`smallest` are not tried */
};

/* Its lines alone, at 1:`ratio`. */
static struct layout *lines_at(const struct figure *figure, const struct desk *desk, double ratio,
                               struct obstacles *obstacles) {
    struct layout *layout = ARENA_NEW(figure->arena, struct layout);
    layout->arena = figure->arena;
    layout->lettering = desk->lettering;
    layout->figure = figure;
    layout->sheet = ARENA_NEW(figure->arena, struct sheet);
    layout->sheet->ratio = ratio;
    layout->obstacles = obstacles;
    layout->extent.low = (struct spot){INFINITY, INFINITY};
    layout->extent.high = (struct spot){-INFINITY, -INFINITY};
    layout->scale = 1 / (POINT * ratio);
    layout->room = PAGE_ROOM;
    layout->widest = layout->tallest = INFINITY;
    for (size_t i = 0; i < figure->list.count; i++)
        *list_add(layout->arena, &layout->list) = figure->list.at[i];
    layout_paths(layout);
    return layout;
}

/* The drawing without its frame; unfinished where it becomes larger than that. */
static struct layout *lay_out_at(const struct figure *figure, const struct desk *desk, double ratio, double widest,
                                 double tallest) {
    arena_clear(desk->scratch);
    struct layout *layout = lines_at(figure, desk, ratio, obstacles_new(desk->scratch));
    layout->widest = widest;
    layout->tallest = tallest;
    double spare = fmax(0, layout->room - (layout->high.x - layout->low.x)) / 2;
    layout->left = layout->low.x - spare;
    layout->right = layout->high.x + spare;
    layout_ordinates(layout);
    layout_dimensions(layout);
    layout_labels(layout);
    return layout;
}

static bool fits(double width, double height, double tallest) {
    return width <= PAGE_ROOM && height <= tallest;
}

/* The scales in use, each from the one before: 1, 2, 3, 4, 6, 8, 12, 16 ...; metric 1, 2, 5, 10, 20, 50 ... */
static double next_ratio(double ratio, bool metric) {
    if (metric)
        return fabs(log10(ratio / 2) - round(log10(ratio / 2))) < 1e-9 ? ratio * 2.5 : ratio * 2;
    if (ratio < 2)
        return 2;
    return fabs(log2(ratio) - round(log2(ratio))) < 1e-9 ? ratio * 1.5 : ratio * 4 / 3;
}

/* Under this size of the drawing itself a smaller scale helps no more: then the page grows. */
static const double smallest_drawing = 72; /* pt */

/* At `ratio` or the next that keeps the drawing under `tallest` pt; NULL: that is too small. */
static struct layout *lay_out_to_fit(const struct figure *figure, const struct desk *desk, double ratio,
                                     double tallest) {
    if (figure->diagram)
        return lay_out_at(figure, desk, ratio, INFINITY, INFINITY);
    const struct layout *lines = lines_at(figure, desk, ratio, NULL);
    double width = ratio * (lines->high.x - lines->low.x), height = ratio * (lines->high.y - lines->low.y);
    for (;;) {
        while (!fits(width / ratio, height / ratio, tallest))
            ratio = next_ratio(ratio, figure->metric);
        if (ratio > desk->smallest)
            return NULL;
        if (fmax(width, height) / ratio <= smallest_drawing)
            return lay_out_at(figure, desk, ratio, INFINITY, INFINITY);
        struct layout *layout = lay_out_at(figure, desk, ratio, PAGE_ROOM, tallest);
        if (!layout_outgrown(layout))
            return layout;
        ratio = next_ratio(ratio, figure->metric);
    }
}

/* What stands round the drawing is as tall as it is: the drawing gives way, as long as a smaller one helps. */
static struct layout *lay_out_in(const struct figure *figure, const struct desk *desk, double largest, double tallest) {
    double room = figure->tallest > 0 ? figure->tallest : PAGE_TALLEST;
    struct layout *layout = lay_out_to_fit(figure, desk, largest, room);
    while (layout) {
        struct spot low = {0, 0}, high = {0, 0};
        layout_bounds(layout, &low, &high);
        layout_frame(layout, SHEET_FIT);
        double over = layout->sheet->height - tallest, ratio = layout->sheet->ratio;
        room = high.y - low.y - over;
        if (over <= 0 || figure->diagram || room < smallest_drawing)
            return layout;
        struct layout *smaller = lay_out_to_fit(figure, desk, ratio, room);
        if (smaller && smaller->sheet->ratio <= ratio)
            return layout;
        layout = smaller;
    }
    return NULL;
}

/* False when memory ran out. */
static bool lay_out(const struct figure *figure, enum sheet_mode mode, double largest, double tallest,
                    const struct desk *desk, jmp_buf *failure, struct sheet **sheet) {
    if (!desk->scratch || setjmp(*failure))
        return false;
    struct layout *layout = mode == SHEET_FIT ? lay_out_in(figure, desk, largest, tallest)
                                              : lay_out_at(figure, desk, 1, INFINITY, INFINITY);
    if (mode != SHEET_FIT)
        layout_frame(layout, mode);
    *sheet = layout ? layout->sheet : NULL;
    return true;
}

/* The desk is not the arena's: it is given back before the jump goes on to where it was to go. */
static struct sheet *lay_out_safely(const struct figure *figure, enum sheet_mode mode, double largest, double smallest,
                                    double tallest) {
    jmp_buf failure, *further = arena_on_failure(figure->arena, &failure);
    struct desk desk = {.lettering = lettering_new(), .scratch = arena_new(NULL), .smallest = smallest};
    struct sheet *sheet = NULL;
    if (desk.scratch)
        arena_on_failure(desk.scratch, &failure);
    bool done = lay_out(figure, mode, largest, tallest, &desk, &failure, &sheet);
    lettering_free(desk.lettering);
    arena_free(desk.scratch);
    arena_on_failure(figure->arena, further);
    if (!done)
        longjmp(*further, 1);
    return sheet;
}

struct sheet *sheet_lay_out(const struct figure *figure, enum sheet_mode mode) {
    return lay_out_safely(figure, mode, 1, INFINITY, INFINITY);
}

struct sheet *sheet_lay_out_in(const struct figure *figure, double largest, double smallest, double tallest) {
    return lay_out_safely(figure, SHEET_FIT, largest, smallest, tallest);
}
