/* A sheet as it is cut: blanks by name and size, cuts by number, offcuts that are kept shaded. */
#include <string.h>

#include "metal/nest.h"
#include "report/figures.h"
#include "report/shop.h"

struct drawing {
    struct arena *arena;
    const struct job *job;
    const struct nest_group *group;
    const struct nest_layout *layout;
    struct figure *figure;
    size_t cuts, alike;  /* so far; how many more are the last one again */
    LIST(size_t) listed; /* rectangles */
};

struct region {
    struct spot low, high;
};

static struct region region_of(const struct nest_node *node) {
    double x = nest_metres(node->x), y = nest_metres(node->y);
    return (struct region){{x, y}, {x + nest_metres(node->length), y + nest_metres(node->width)}};
}

static const char *size_words(const struct drawing *drawing, const struct nest_node *node) {
    enum measure_system system = drawing->job->system;
    return arena_format(drawing->arena, "%s x %s",
                        measure_figure(drawing->arena, system, SHOW_CUT, nest_metres(node->length)),
                        measure_figure(drawing->arena, system, SHOW_CUT, nest_metres(node->width)));
}

/* Along the middle of the longer side, where there is room for most. */
static void name_region(struct drawing *drawing, const struct nest_node *node, const char *text) {
    struct region at = region_of(node);
    struct spot middle = {(at.low.x + at.high.x) / 2, (at.low.y + at.high.y) / 2};
    bool lying = node->length >= node->width;
    struct spot from = lying ? (struct spot){at.low.x, middle.y} : (struct spot){middle.x, at.low.y};
    struct spot to = lying ? (struct spot){at.high.x, middle.y} : (struct spot){middle.x, at.high.y};
    figure_label_briefly(drawing->figure, text, from, to, LETTER_SMALL);
}

/* About how many letters fit along so much of the sheet, which is drawn some 5 in long. */
static double letters_in(const struct drawing *drawing, nest_steps length) {
    static const double on_the_sheet = 82;
    return on_the_sheet * length / drawing->layout->nodes.at[0].length;
}

/* In the list under the drawing, once. */
static void list_size(struct drawing *drawing, size_t rectangle, const char *text) {
    for (size_t i = 0; i < drawing->listed.count; i++)
        if (drawing->listed.at[i] == rectangle)
            return;
    *list_add(drawing->arena, &drawing->listed) = rectangle;
    figure_list(drawing->figure, text);
}

/* With its size where there is room; by its name, and with its size under the drawing; or by a letter, which is
 * explained there. */
static void name_blank(struct drawing *drawing, const struct nest_node *node) {
    const struct nest_piece *piece = &drawing->group->pieces.at[node->rectangle];
    const char *name = shop_nest_name(drawing->arena, drawing->job, piece);
    const char *whole = arena_format(drawing->arena, "%s  %s", name, size_words(drawing, node));
    nest_steps longer = node->length > node->width ? node->length : node->width;
    double along = letters_in(drawing, longer), across = letters_in(drawing, node->length + node->width - longer);
    if (across < 3.5 || along >= (double)strlen(whole) + 1) {
        name_region(drawing, node, whole);
        if (across < 3.5) /* a letter may stand beside it: a dot tells what it is for */
            drawing->figure->labels.at[drawing->figure->labels.count - 1].toward = TOWARD_HERE | TOWARD_DOT;
        return;
    }
    list_size(drawing, node->rectangle, arena_format(drawing->arena, "%s: %s", name, size_words(drawing, node)));
    name_region(drawing, node, name);
}

static void draw_region(struct drawing *drawing, const struct nest_node *node, enum stroke stroke, enum shade shade) {
    struct region at = region_of(node);
    const struct spot corners[] = {at.low, {at.high.x, at.low.y}, at.high, {at.low.x, at.high.y}};
    figure_polygon(drawing->figure, stroke, shade, corners, 4);
}

/* A cut gets no number where too many lines crowd: the list of cuts has it. */
static bool has_room(const struct drawing *drawing, const struct nest_node *node) {
    const struct nest_node *first = &drawing->layout->nodes.at[node->first];
    const struct nest_node *second = &drawing->layout->nodes.at[node->second];
    double beside = letters_in(drawing, node->across ? first->length : first->width);
    double behind = letters_in(drawing, node->across ? second->length : second->width);
    return letters_in(drawing, node->across ? node->width : node->length) >= 3.5 && (beside >= 3.5 || behind >= 3.5);
}

static void draw_cut(struct drawing *drawing, const struct nest_node *node) {
    struct region at = region_of(node);
    double where = nest_metres(node->at);
    struct spot from =
        node->across ? (struct spot){at.low.x + where, at.low.y} : (struct spot){at.low.x, at.low.y + where};
    struct spot to = node->across ? (struct spot){from.x, at.high.y} : (struct spot){at.high.x, from.y};
    figure_line(drawing->figure, STROKE_NET, from, to);
    drawing->cuts++;
    if (drawing->alike) {
        drawing->alike--;
        return;
    }
    size_t alike = nest_alike_cuts(drawing->layout, (size_t)(node - drawing->layout->nodes.at));
    drawing->alike = alike - 1;
    const char *number = arena_format(drawing->arena, "%zu", drawing->cuts);
    if (alike > 1)
        number = arena_format(drawing->arena, "%zu-%zu", drawing->cuts, drawing->cuts + alike - 1);
    if (has_room(drawing, node))
        figure_label_line(drawing->figure, number, from, to, LETTER_SMALL);
}

struct figure *figure_nest(struct arena *arena, const struct job *job, const struct nest_group *group,
                           const struct nest_layout *layout, const char *title) {
    struct drawing drawing = {.arena = arena, .job = job, .group = group, .layout = layout};
    drawing.figure = figure_new(arena, title, NULL);
    drawing.figure->metric = job->system == MEASURE_METRIC;
    drawing.figure->key[STROKE_NET] = "cut";
    drawing.figure->key[STROKE_CUT] = "sheet";
    for (size_t i = 0; i < layout->nodes.count; i++)
        if (layout->nodes.at[i].kind == NEST_KEPT)
            draw_region(&drawing, &layout->nodes.at[i], STROKE_NONE, SHADE_LIGHT);
    draw_region(&drawing, &layout->nodes.at[0], STROKE_CUT, SHADE_NONE);
    for (size_t i = 0; i < layout->nodes.count; i++) {
        const struct nest_node *node = &layout->nodes.at[i];
        if (node->kind == NEST_CUT)
            draw_cut(&drawing, node);
        else if (node->kind == NEST_BLANK)
            name_blank(&drawing, node);
        else if (node->kind == NEST_KEPT)
            name_region(&drawing, node, arena_format(arena, "kept  %s", size_words(&drawing, node)));
    }
    figure_note(drawing.figure,
                "Plain numbers are cuts, in their order; the list has them all. What is shaded is kept; what "
                "has no name is scrap.");
    return drawing.figure;
}
