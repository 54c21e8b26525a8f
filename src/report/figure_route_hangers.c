/* The hangers of the take-off on a drawing, each where its station is. */
#include <math.h>
#include <stdlib.h>

#include "cost/takeoff.h"
#include "report/field.h"
#include "report/figure_route.h"

/* ---- Bars -------------------------------------------------------------------------------------------------------- */

struct seen_way {
    struct spot way; /* of length 1 */
    double half;     /* m, as seen */
};

static struct seen_way seen_way(const struct route_drawing *drawing, struct space way, double half) {
    double x = space_dot(way, drawing->right), y = space_dot(way, drawing->up), length = hypot(x, y);
    if (!(length > 1e-6))
        return (struct seen_way){{0, 0}, 0};
    return (struct seen_way){{x / length, y / length}, half * length};
}

/* Across the duct as it is seen: of its width and its height that which is less shortened. */
static struct seen_way across(const struct route_drawing *drawing, const struct route_point *point) {
    struct seen_way width = seen_way(drawing, point->frame.right, point->size.width / 2);
    struct seen_way height = seen_way(drawing, point->frame.up, point->size.height / 2);
    double wide = width.half / fmax(point->size.width, 1e-9), tall = height.half / fmax(point->size.height, 1e-9);
    bool plan = drawing->view == ROUTE_PLAN;
    return wide > tall + 1e-6 || (plan && wide > tall - 1e-6) ? width : height;
}

static void draw_hanger(struct route_drawing *drawing, const struct hanger *hanger) {
    struct route_point point;
    if (!route_at(drawing->job, hanger->run, hanger->station, &point) || !size_known(point.size))
        return;
    struct seen_way seen = across(drawing, &point);
    figure_bar(drawing->figure, figure_route_spot(drawing, point.frame.origin), seen.way, seen.half);
}

/* ---- What they are ----------------------------------------------------------------------------------------------- */

static bool is_alike(const struct hanger *a, const struct hanger *b) {
    return a->kind == b->kind && fabs(a->strap_width - b->strap_width) < 1e-9;
}

typedef LIST(const struct hanger *) hanger_list;

static void tell_once(const struct route_drawing *drawing, hanger_list *told, const struct hanger *hanger) {
    for (size_t i = 0; i < told->count; i++)
        if (is_alike(told->at[i], hanger) && told->at[i]->strap_gauge == hanger->strap_gauge)
            return;
    *list_add(drawing->arena, told) = hanger;
}

static int by_kind(const void *left, const void *right) {
    const struct hanger *a = *(const struct hanger *const *)left, *b = *(const struct hanger *const *)right;
    if (a->kind != b->kind)
        return a->kind < b->kind ? -1 : 1;
    if (!is_alike(a, b))
        return a->strap_width < b->strap_width ? -1 : 1;
    return a->strap_gauge - b->strap_gauge;
}

/* "hangers: two straps, 1 in wide, 22 ga or 18 ga; flexible: a saddle of webbing, 1-1/2 in wide". */
static const char *key_of(const struct route_drawing *drawing, hanger_list *told) {
    const char *key = "hangers: ";
    qsort(told->at, told->count, sizeof *told->at, by_kind);
    for (size_t i = 0; i < told->count; i++) {
        const struct hanger *hanger = told->at[i];
        if (i > 0 && is_alike(told->at[i - 1], hanger))
            key = arena_format(drawing->arena, "%s or %d ga", key, hanger->strap_gauge);
        else
            key = arena_format(drawing->arena, "%s%s%s%s", key, i ? "; " : "",
                               hanger->kind == HANGER_SADDLE ? "flexible: " : "",
                               hanger_words(drawing->arena, drawing->job->system, hanger));
    }
    return key;
}

/* More on a sheet than this make its ducts black.  By look. */
enum { HANGERS_MOST = 150 };

void figure_route_hangers(struct route_drawing *drawing) {
    const struct takeoff *takeoff = drawing->job->takeoff;
    hanger_list all = {0}, told = {0};
    for (size_t i = 0; takeoff && i < takeoff->hangers.count; i++)
        if (figure_route_told_on_sheet(drawing->sheet, takeoff->hangers.at[i].run))
            *list_add(drawing->arena, &all) = &takeoff->hangers.at[i];
    if (all.count > HANGERS_MOST) {
        figure_note(drawing->figure, arena_format(drawing->arena,
                                                  "The %zu hangers of these ducts are too many to be "
                                                  "drawn; their places stand under Hangers.",
                                                  all.count));
        return;
    }
    for (size_t i = 0; i < all.count; i++) {
        draw_hanger(drawing, all.at[i]);
        tell_once(drawing, &told, all.at[i]);
    }
    if (told.count)
        drawing->figure->bar_key = key_of(drawing, &told);
}
