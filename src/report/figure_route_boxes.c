/* Boxes on the drawing of a route: its unit, and the obstacles about it. */
#include "base/constant.h"
#include "report/figure_route.h"
#include "route/hull.h"

/* Less than this is no length on paper, m. */
static const double a_hair = 0.02 * MILLIMETRE;

static void draw_box(const struct route_drawing *drawing, const struct hull *hull, enum stroke stroke,
                     enum shade shade) {
    struct outline outline = {0};
    for (int end = 0; end < 2; end++)
        for (int i = 0; i < 4; i++) {
            const struct hull_end *at = &hull->ends[end];
            struct space corner = space_add(
                at->middle, space_add(space_scale(at->right, i == 0 || i == 3 ? -at->half_width : at->half_width),
                                      space_scale(at->up, i < 2 ? -at->half_height : at->half_height)));
            outline_add(&outline, figure_route_spot(drawing, corner), end);
        }
    outline_enclose(&outline);
    struct spot corners[OUTLINE_CORNERS];
    for (size_t i = 0; i < outline.count; i++)
        corners[i] = outline.corners[i].at;
    figure_polygon(drawing->figure, stroke, shade, corners, outline.count);
}

/* Slanting lines across a box as seen. */
static void hatch(const struct route_drawing *drawing, struct spot low, struct spot high) {
    double width = high.x - low.x, height = high.y - low.y, apart = fmax(fmax(width, height) / 6, 3 * INCH);
    int lines = (int)ceil((width + height) / apart - 0.5);
    for (int i = 0; i < lines; i++) {
        double c = (i + 0.5) * apart;
        struct spot from = {low.x + fmin(c, width), low.y + fmax(c - width, 0)};
        struct spot to = {low.x + fmax(c - height, 0), low.y + fmin(c, height)};
        figure_line(drawing->figure, STROKE_HIDDEN, from, to);
    }
}

/* An obstacle that takes up more of a drawing than this share of either of its sides is hatched so widely that a label
 * may stand in it.  By look. */
static const double much_of_drawing = 0.25;

/* On the longest edge of the last path, the uppermost of several. */
static void name_last(const struct route_drawing *drawing, const char *name) {
    const struct figure_path *path = &drawing->figure->paths.at[drawing->figure->paths.count - 1];
    struct spot from = {0}, to = {0};
    double most = 0, highest = -INFINITY;
    for (size_t i = 0; i < path->steps.count; i++) {
        struct spot a = path->steps.at[i].to, b = path->steps.at[(i + 1) % path->steps.count].to;
        double length = hypot(b.x - a.x, b.y - a.y), height = (a.y + b.y) / 2;
        if (length < most - 1e-6 || (length < most + 1e-6 && height < highest))
            continue;
        most = length;
        highest = height;
        from = a;
        to = b;
    }
    figure_label_line(drawing->figure, name, from, to, LETTER_SMALL);
}

/* Whether any duct is drawn over it, which a spot of the unit is behind. */
static bool is_behind_duct(const struct route_drawing *drawing, struct space at, const struct route_drawn *drawn,
                           size_t count) {
    struct spot spot = figure_route_spot(drawing, at), beside = {spot.x + a_hair, spot.y};
    for (size_t i = 0; i < count; i++) {
        struct outline outline = figure_route_outline(drawing, drawn[i].stretch);
        struct line_part part = outline.count < 3 ? (struct line_part){1, 0} : outline_covers(&outline, spot, beside);
        if (part.to > part.from)
            return true;
    }
    return false;
}

void figure_route_unit(const struct route_drawing *drawing, const struct route_drawn *drawn, size_t count) {
    const struct air_unit *unit = drawing->sheet->unit;
    struct stretch box;
    if (!route_cabinet_box(drawing->job, unit, &box))
        return;
    struct hull hull = hull_of_stretch(&box);
    draw_box(drawing, &hull, STROKE_CUT, SHADE_LIGHT);
    struct space middle = space_between(box.near.origin, box.far.origin, 0.5);
    if (is_behind_duct(drawing, middle, drawn, count))
        name_last(drawing, unit->name);
    else
        figure_label(drawing->figure, unit->name, figure_route_spot(drawing, middle), TOWARD_HERE, LETTER_PLAIN);
}

static void draw_obstacle(const struct route_drawing *drawing, const struct obstacle *obstacle,
                          const struct route_part *part) {
    double least[3], most[3];
    figure_route_part_of(part, obstacle, least, most);
    struct hull hull = hull_of_box(least, most);
    struct spot a = figure_route_spot(drawing, (struct space){least[0], least[1], least[2]});
    struct spot b = figure_route_spot(drawing, (struct space){most[0], most[1], most[2]});
    struct spot low = {fmin(a.x, b.x), fmin(a.y, b.y)}, high = {fmax(a.x, b.x), fmax(a.y, b.y)};
    if (drawing->view != ROUTE_VIEW)
        hatch(drawing, low, high);
    draw_box(drawing, &hull, STROKE_HIDDEN, SHADE_NONE);
    if (fmin(high.x - low.x, high.y - low.y) < much_of_drawing * part->size)
        figure_keep_inside(drawing->figure);
    name_last(drawing, obstacle->title);
}

void figure_route_draw_obstacles(struct route_drawing *drawing, const struct route_drawn *drawn, size_t count) {
    const struct job *job = drawing->job;
    size_t near, most;
    struct route_part part = figure_route_part(drawn, count);
    bool *shown = figure_route_obstacles(drawing, drawn, count, &near, &most);
    for (size_t i = 0; i < job->obstacles.count; i++)
        if (shown[i]) {
            draw_obstacle(drawing, job->obstacles.at[i], &part);
            drawing->obstacles_cut = drawing->obstacles_cut || figure_route_part_cuts(&part, job->obstacles.at[i]);
        }
    if (near > most)
        figure_note(
            drawing->figure,
            arena_format(drawing->arena, "Of %zu obstacles about these ducts the %zu nearest are drawn.", near, most));
}
