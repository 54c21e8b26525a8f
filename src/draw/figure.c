/* Putting a figure together. */
#include "draw/figure.h"

#include <math.h>

#include "base/constant.h"

struct figure *figure_new(struct arena *arena, const char *title, const char *subtitle) {
    struct figure *figure = ARENA_NEW(arena, struct figure);
    *figure = (struct figure){.arena = arena, .title = title, .subtitle = subtitle};
    return figure;
}

/* ---- Lines ------------------------------------------------------------------------------------------------------- */

struct figure_path *figure_path(struct figure *figure, enum stroke stroke, struct spot start) {
    struct figure_path *path = list_add(figure->arena, &figure->paths);
    path->stroke = stroke;
    path_line(figure, path, start);
    return path;
}

void path_line(struct figure *figure, struct figure_path *path, struct spot to) {
    path_arc(figure, path, to, 0);
}

void path_arc(struct figure *figure, struct figure_path *path, struct spot to, double sweep) {
    *list_add(figure->arena, &path->steps) = (struct figure_step){to, sweep};
}

void figure_line(struct figure *figure, enum stroke stroke, struct spot from, struct spot to) {
    path_line(figure, figure_path(figure, stroke, from), to);
}

void figure_polygon(struct figure *figure, enum stroke stroke, enum shade shade, const struct spot *corners,
                    size_t count) {
    if (count == 0)
        return;
    struct figure_path *path = figure_path(figure, stroke, corners[0]);
    for (size_t i = 1; i < count; i++)
        path_line(figure, path, corners[i]);
    path->closed = true;
    path->shade = shade;
}

void figure_keep_inside(struct figure *figure) {
    if (figure->paths.count)
        figure->paths.at[figure->paths.count - 1].kept = true;
}

void figure_circle(struct figure *figure, enum stroke stroke, struct spot centre, double radius) {
    struct spot right = {centre.x + radius, centre.y}, left = {centre.x - radius, centre.y};
    struct figure_path *path = figure_path(figure, stroke, right);
    path_arc(figure, path, left, PI);
    path_arc(figure, path, right, PI);
    path->closed = true;
}

/* ---- Words and measures ------------------------------------------------------------------------------------------ */

void figure_label(struct figure *figure, const char *text, struct spot at, unsigned toward, enum letter_size size) {
    *list_add(figure->arena, &figure->labels) =
        (struct figure_label){.text = text, .from = at, .to = at, .toward = toward, .size = size};
}

void figure_label_line(struct figure *figure, const char *text, struct spot from, struct spot to,
                       enum letter_size size) {
    *list_add(figure->arena, &figure->labels) =
        (struct figure_label){.text = text, .from = from, .to = to, .size = size};
}

void figure_label_band(struct figure *figure, const char *text, struct spot from, struct spot to, double half,
                       enum letter_size size) {
    *list_add(figure->arena, &figure->labels) =
        (struct figure_label){.text = text, .from = from, .to = to, .half = half, .size = size};
}

void figure_text(struct figure *figure, const char *text, struct spot at, enum toward toward, double room,
                 enum letter_size size) {
    *list_add(figure->arena, &figure->labels) = (struct figure_label){
        .text = text, .from = at, .to = at, .toward = (unsigned)toward | TOWARD_FIXED, .size = size, .room = room};
}

void figure_label_briefly(struct figure *figure, const char *text, struct spot from, struct spot to,
                          enum letter_size size) {
    *list_add(figure->arena, &figure->labels) =
        (struct figure_label){.text = text, .briefly = true, .from = from, .to = to, .size = size};
}

void figure_dimension(struct figure *figure, struct spot from, struct spot to, enum figure_side side,
                      const char *text) {
    *list_add(figure->arena, &figure->dimensions) =
        (struct figure_dimension){.from = from, .to = to, .side = side, .text = text};
}

void figure_radius(struct figure *figure, struct spot centre, struct spot on, bool located, const char *text) {
    *list_add(figure->arena, &figure->radii) =
        (struct figure_radius){.centre = centre, .on = on, .located = located, .text = text};
}

struct figure_ordinates *figure_ordinates(struct figure *figure, struct spot origin, enum figure_side side, bool back,
                                          const char *zero) {
    struct figure_ordinates *ordinates = list_add(figure->arena, &figure->ordinates);
    *ordinates = (struct figure_ordinates){.origin = origin, .side = side, .back = back, .zero = zero};
    return ordinates;
}

void ordinates_mark(struct figure *figure, struct figure_ordinates *ordinates, double distance, const char *text) {
    *list_add(figure->arena, &ordinates->marks) = (struct figure_mark){distance, text};
}

void figure_arrow(struct figure *figure, struct spot from, struct spot to) {
    *list_add(figure->arena, &figure->arrows) = (struct figure_arrow){from, to};
}

void figure_bar(struct figure *figure, struct spot at, struct spot across, double half) {
    *list_add(figure->arena, &figure->bars) = (struct figure_bar){at, across, half};
}

void figure_list(struct figure *figure, const char *text) {
    *list_add(figure->arena, &figure->list) = text;
}

void figure_note(struct figure *figure, const char *text) {
    *list_add(figure->arena, &figure->notes) = text;
}
