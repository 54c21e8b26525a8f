/* Dimensions: between two places, on the first free row beyond the drawing; short ones nearest. */
#include "draw/layout.h"

#include <math.h>
#include <stdlib.h>

static const double first_row = 14, row_step = 6; /* pt */
static const double head = 6, tail = 9; /* pt: the arrow head, and the line behind it when it stands outside */
static const double gap = 2, past = 3;  /* pt: where an extension line begins, and how far it goes on */
static const double text_wrap = 160;    /* pt */
static const double text_apart = 4;     /* pt: that heads and lines keep from texts */

enum { ROWS_MOST = 400 };

/* A dimension on its way onto the sheet. */
struct row {
    struct spot from, to;           /* what is measured */
    struct spot along, out;         /* unit vectors: along the dimension line, and away from the drawing */
    struct spot line_from, line_to; /* the dimension line */
    double length;
    bool inside;  /* text and heads stand between the ends */
    bool between; /* the text does, the heads stand outside */
    struct sheet_letters letters;
};

static double dot(struct spot a, struct spot b) {
    return a.x * b.x + a.y * b.y;
}

static struct spot moved(struct spot from, struct spot along, double by) {
    return (struct spot){from.x + by * along.x, from.y + by * along.y};
}

/* Sets the directions; a line that is measured along itself may be a mere point. */
static void set_directions(struct row *row, enum figure_side side) {
    static const struct spot out[] = {
        [FIGURE_ABOVE] = {0, -1}, [FIGURE_BELOW] = {0, 1}, [FIGURE_LEFT] = {-1, 0}, [FIGURE_RIGHT] = {1, 0}};
    if (side <= FIGURE_RIGHT) {
        row->out = out[side];
        row->along = side <= FIGURE_BELOW ? (struct spot){1, 0} : (struct spot){0, -1};
    } else {
        struct spot step = {row->to.x - row->from.x, row->to.y - row->from.y};
        double length = hypot(step.x, step.y);
        row->along = length > 0 ? (struct spot){step.x / length, step.y / length} : (struct spot){1, 0};
        row->out = (struct spot){row->along.y, -row->along.x};
        if (side == FIGURE_RIGHT_OF_LINE)
            row->out = (struct spot){-row->out.x, -row->out.y};
    }
    row->length = dot(row->along, row->to) - dot(row->along, row->from);
    if (row->length < 0) {
        struct spot swapped = row->from;
        row->from = row->to;
        row->to = swapped;
        row->length = -row->length;
    }
}

/* Letters stand upright or are read from the right. */
static struct spot readable(struct spot along) {
    bool turned = along.x < -1e-9 || (along.x < 1e-9 && along.y > 0);
    return turned ? (struct spot){-along.x, -along.y} : along;
}

/* How far out the first row stands. */
static double first_level(const struct layout *layout, const struct row *row, enum figure_side side) {
    double level = fmax(dot(row->out, row->from), dot(row->out, row->to));
    if (side <= FIGURE_RIGHT)
        level = fmax(level, fmax(dot(row->out, layout->low), dot(row->out, layout->high)));
    return level + first_row;
}

/* Moves the dimension line `level` out, and its text with it: between the ends, or beyond the second, or the first. */
static void set_level(struct row *row, double level, bool before) {
    row->line_from = moved(row->from, row->out, level - dot(row->out, row->from));
    row->line_to = moved(row->to, row->out, level - dot(row->out, row->to));
    double half = row->letters.box.half_width, at = row->length / 2;
    if (!row->inside && !row->between)
        at = before ? -head - tail - gap - half : row->length + head + tail + gap + half;
    row->letters.box.centre = moved(row->line_from, row->along, at);
    row->letters.box.along = readable(row->along);
}

/* The dimension line as a box: another may touch its ends only. */
static struct sheet_box line_box(const struct row *row) {
    double beyond = row->inside ? -1 : head + tail;
    return (struct sheet_box){.centre = moved(row->line_from, row->along, row->length / 2),
                              .along = row->along,
                              .half_width = fmax(0.1, row->length / 2 + beyond),
                              .half_height = 2};
}

static bool is_free(struct layout *layout, const struct row *row) {
    return layout_is_free(layout, row->letters.box) &&
           !obstacles_meet_box(layout->obstacles, line_box(row), OBSTACLE_DIMENSION) &&
           !obstacles_meet_box(layout->obstacles, box_grown(line_box(row), text_apart), OBSTACLE_TEXT);
}

static bool find_row(struct layout *layout, struct row *row, enum figure_side side) {
    double level = first_level(layout, row, side);
    for (int i = 0; i < ROWS_MOST; i++) {
        set_level(row, level + i * row_step, false);
        if (is_free(layout, row))
            return true;
        set_level(row, level + i * row_step, true);
        if (!row->inside && !row->between && is_free(layout, row))
            return true;
    }
    return false;
}

/* From what is measured to a little past the dimension line. */
static void draw_extension(struct layout *layout, const struct row *row, struct spot from, struct spot line) {
    double length = dot(row->out, line) - dot(row->out, from);
    if (length > gap)
        layout_clear_line(layout, moved(from, row->out, gap), moved(line, row->out, past));
}

static void draw(struct layout *layout, const struct row *row) {
    struct spot back = {-row->along.x, -row->along.y};
    layout_letters(layout, row->letters);
    draw_extension(layout, row, row->from, row->line_from);
    draw_extension(layout, row, row->to, row->line_to);
    if (row->inside) {
        double text = row->letters.box.half_width + TEXT_MARGIN + 1, half = row->length / 2;
        layout_line(layout, STROKE_THIN, row->line_from, moved(row->line_from, row->along, half - text));
        layout_line(layout, STROKE_THIN, moved(row->line_from, row->along, half + text), row->line_to);
        layout_head(layout, row->line_from, back, head);
        layout_head(layout, row->line_to, row->along, head);
    } else {
        layout_line(layout, STROKE_THIN, moved(row->line_from, back, head + tail), row->line_from);
        layout_line(layout, STROKE_THIN, row->line_to, moved(row->line_to, row->along, head + tail));
        layout_head(layout, row->line_from, row->along, head);
        layout_head(layout, row->line_to, back, head);
    }
    obstacles_add_box(layout->obstacles, line_box(row), OBSTACLE_DIMENSION);
}

static void lay_dimension(struct layout *layout, const struct figure_dimension *dimension) {
    struct row row = {.from = layout_spot(layout, dimension->from), .to = layout_spot(layout, dimension->to)};
    set_directions(&row, dimension->side);
    row.letters = letters_of(layout, dimension->text, LETTER_PLAIN, text_wrap);
    row.inside = row.length > 2 * (row.letters.box.half_width + head + gap + 2);
    row.between = !row.inside && row.length > 2 * (row.letters.box.half_width + gap);
    if (find_row(layout, &row, dimension->side))
        draw(layout, &row);
    else
        layout_balloon(layout, dimension->text,
                       (struct spot){(row.from.x + row.to.x) / 2, (row.from.y + row.to.y) / 2});
}

static double measured(const struct figure_dimension *dimension) {
    double x = dimension->to.x - dimension->from.x, y = dimension->to.y - dimension->from.y;
    if (dimension->side <= FIGURE_BELOW)
        return fabs(x);
    return dimension->side <= FIGURE_RIGHT ? fabs(y) : hypot(x, y);
}

/* By length; of equal ones the first in the figure (they stand in one array) first. */
static int by_length(const void *a, const void *b) {
    const struct figure_dimension *one = *(const struct figure_dimension *const *)a;
    const struct figure_dimension *other = *(const struct figure_dimension *const *)b;
    double difference = measured(one) - measured(other);
    if (fabs(difference) > 0)
        return difference > 0 ? 1 : -1;
    return (one > other) - (one < other);
}

void layout_dimensions(struct layout *layout) {
    const struct figure *figure = layout->figure;
    size_t count = figure->dimensions.count;
    const struct figure_dimension **sorted = ARENA_ARRAY(layout->arena, const struct figure_dimension *, count);
    for (size_t i = 0; i < count; i++)
        sorted[i] = &figure->dimensions.at[i];
    if (count > 1)
        qsort(sorted, count, sizeof *sorted, by_length);
    for (size_t i = 0; i < count; i++)
        lay_dimension(layout, sorted[i]);
}
