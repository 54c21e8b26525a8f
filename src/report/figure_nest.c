/* A sheet as it is cut: blanks by name and size, cuts by number, offcuts that are kept shaded. */
#include "metal/nest.h"
#include "report/figures.h"
#include "report/shop.h"

struct drawing {
    struct arena *arena;
    const struct job *job;
    const struct nest_group *group;
    struct figure *figure;
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

static void draw_region(struct drawing *drawing, const struct nest_node *node, enum stroke stroke, enum shade shade) {
    struct region at = region_of(node);
    const struct spot corners[] = {at.low, {at.high.x, at.low.y}, at.high, {at.low.x, at.high.y}};
    figure_polygon(drawing->figure, stroke, shade, corners, 4);
}

static void draw_cut(struct drawing *drawing, const struct nest_node *node, size_t number) {
    struct region at = region_of(node);
    double where = nest_metres(node->at);
    struct spot from = node->across ? (struct spot){at.low.x + where, at.low.y} : (struct spot){at.low.x, at.low.y + where};
    struct spot to = node->across ? (struct spot){from.x, at.high.y} : (struct spot){at.high.x, from.y};
    struct spot middle = {(from.x + to.x) / 2, (from.y + to.y) / 2};
    figure_line(drawing->figure, STROKE_CUT, from, to);
    figure_label(drawing->figure, arena_format(drawing->arena, "%zu", number), middle,
                 node->across ? TOWARD_RIGHT | TOWARD_LEFT : TOWARD_UP | TOWARD_DOWN, LETTER_SMALL);
}

struct figure *figure_nest(struct arena *arena, const struct job *job, const struct nest_group *group,
                           const struct nest_layout *layout, const char *title) {
    struct drawing drawing = {.arena = arena, .job = job, .group = group};
    drawing.figure = figure_new(arena, title, NULL);
    drawing.figure->sketch = true;
    for (size_t i = 0; i < layout->nodes.count; i++)
        if (layout->nodes.at[i].kind == NEST_KEPT)
            draw_region(&drawing, &layout->nodes.at[i], STROKE_NONE, SHADE_LIGHT);
    draw_region(&drawing, &layout->nodes.at[0], STROKE_CUT, SHADE_NONE);
    size_t cuts = 0;
    for (size_t i = 0; i < layout->nodes.count; i++) {
        const struct nest_node *node = &layout->nodes.at[i];
        if (node->kind == NEST_CUT)
            draw_cut(&drawing, node, ++cuts);
        else if (node->kind == NEST_BLANK)
            name_region(&drawing, node,
                        arena_format(arena, "%s  %s", shop_nest_name(arena, job, &group->pieces.at[node->rectangle]),
                                     size_words(&drawing, node)));
        else if (node->kind == NEST_KEPT)
            name_region(&drawing, node, arena_format(arena, "kept  %s", size_words(&drawing, node)));
    }
    figure_note(drawing.figure, "Numbers without a letter are the cuts, in their order. What is shaded is kept; what has no "
                                "name is scrap.");
    return drawing.figure;
}
