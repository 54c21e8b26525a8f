/* Plan, elevation and view of the ducts of a unit, with what is written on them. */
#include <math.h>

#include "base/constant.h"
#include "model/piece.h"
#include "report/bid.h"
#include "report/figure_route.h"

/* The largest scale, half an inch to the foot: beyond it a few feet of duct fill a page and show no more.  By look. */
static const double largest_inch = 24, largest_metric = 20;

/* ---- Views ------------------------------------------------------------------------------------------------------- */

bool figure_route_on_sheet(const struct route_sheet *sheet, const struct run *run) {
    if (run->unit != sheet->unit || run->alternate)
        return false;
    if (sheet->overview)
        return run->role == RUN_DUCT;
    return !sheet->trunk || run == sheet->trunk || (run->role != RUN_DUCT && run->parent == sheet->trunk);
}

size_t figure_route_terminals(const struct run *run) {
    size_t count = run->end && run->end->role != RUN_DUCT;
    for (size_t i = 0; i < run->taps.count; i++)
        count += run->taps.at[i]->role != RUN_DUCT;
    for (int leg = 0; leg < LEG_COUNT; leg++)
        count += run->legs[leg] && run->legs[leg]->role != RUN_DUCT;
    return count;
}

bool figure_route_told_on_sheet(const struct route_sheet *sheet, const struct run *run) {
    if (!figure_route_on_sheet(sheet, run))
        return false;
    size_t terminals = sheet->overview ? figure_route_terminals(run) : 0;
    return terminals == 0 || terminals > ROUTE_TAPPED_MOST;
}

/* How far the sheet's runs reach, and whether there are any. */
static bool bounds_of(const struct route_drawing *drawing, struct space *low, struct space *high) {
    const struct route *route = drawing->job->route;
    *low = (struct space){INFINITY, INFINITY, INFINITY};
    *high = (struct space){-INFINITY, -INFINITY, -INFINITY};
    for (size_t i = 0; i < route->pieces.count; i++) {
        const struct placed_piece *piece = &route->pieces.at[i];
        const struct space *ends[] = {&piece->near.origin, &piece->far.origin};
        for (int end = 0; end < 2 && figure_route_on_sheet(drawing->sheet, piece->run); end++) {
            *low = (struct space){fmin(low->x, ends[end]->x), fmin(low->y, ends[end]->y), fmin(low->z, ends[end]->z)};
            *high =
                (struct space){fmax(high->x, ends[end]->x), fmax(high->y, ends[end]->y), fmax(high->z, ends[end]->z)};
        }
    }
    return low->x <= high->x;
}

static const struct space eastward = {1, 0, 0}, northward = {0, 1, 0}, upward = {0, 0, 1};

static void set_axes(struct route_drawing *drawing) {
    struct space low, high;
    drawing->right = eastward;
    drawing->up = northward;
    if (drawing->view == ROUTE_ELEVATION) {
        drawing->up = upward;
        if (bounds_of(drawing, &low, &high) && high.y - low.y > high.x - low.x)
            drawing->right = northward;
    } else if (drawing->view == ROUTE_VIEW) {
        drawing->right = space_unit((struct space){1, 1, 0});
        drawing->up = space_unit((struct space){-1, 1, 2});
    }
    drawing->eye = space_cross(drawing->right, drawing->up);
}

/* ---- Names and sizes --------------------------------------------------------------------------------------------- */

static const char *quantity_text(const struct route_drawing *drawing, enum measure_use use, double si) {
    return measure_text(drawing->arena, drawing->job->system, use, si);
}

static bool is_straight(const struct placed_piece *placed) {
    unsigned traits = placed->piece->kind->traits;
    return (traits & PIECE_LENGTH) && !(traits & PIECE_FLEXIBLE) && placed->count > 0;
}

static double seen_length(const struct route_drawing *drawing, const struct placed_piece *placed) {
    struct spot a = figure_route_spot(drawing, placed->near.origin), b = figure_route_spot(drawing, placed->far.origin);
    return hypot(a.x - b.x, a.y - b.y);
}

/* "trunk, 18 x 10 in, 720 cfm" on the first size of a run that is told, the size alone on the others; on an elevation
 * how high its bottom hangs, what stands out round it included, as headroom is checked. */
static const char *duct_words(const struct route_drawing *drawing, const struct placed_piece *placed, bool first) {
    const struct duct *duct = placed->piece->near;
    const struct run *run = placed->run;
    const char *size = size_text(drawing->arena, drawing->job->system, duct->size);
    if (first && drawing->view == ROUTE_PLAN && drawing->sheet->overview)
        return arena_format(drawing->arena, "%s, %s", run->name, size);
    if (drawing->view == ROUTE_VIEW || !figure_route_told_on_sheet(drawing->sheet, run))
        return first ? run->name : NULL;
    if (drawing->view == ROUTE_ELEVATION) {
        const struct stretch *stretch = &drawing->job->route->stretches.at[placed->first];
        bool level = placed->positioned && fabs(placed->near.along.z) < 0.01;
        return level ? arena_format(drawing->arena, "%s, bottom at %s", first ? run->name : size,
                                    quantity_text(drawing, SHOW_RUN, stretch_lowest(stretch)))
                     : (first ? run->name : size);
    }
    return first ? arena_format(drawing->arena, "%s, %s, %s", run->name, size,
                                quantity_text(drawing, SHOW_FLOW, duct->flow))
                 : size;
}

/* Half of what it covers across its way. */
static double seen_half(const struct route_drawing *drawing, const struct placed_piece *placed) {
    const struct stretch *stretch = &drawing->job->route->stretches.at[placed->first];
    struct spot a = figure_route_spot(drawing, placed->near.origin), b = figure_route_spot(drawing, placed->far.origin);
    double length = hypot(b.x - a.x, b.y - a.y);
    struct spot across = {(a.y - b.y) / length, (b.x - a.x) / length};
    struct spot right = figure_route_spot(drawing, stretch->near.right),
                up = figure_route_spot(drawing, stretch->near.up);
    return (stretch->from.width * fabs(right.x * across.x + right.y * across.y) +
            stretch->from.height * fabs(up.x * across.x + up.y * across.y)) /
           2;
}

/* The part of a straight's middle line that a name may stand on: that which is seen. */
static void seen_line(const struct route_drawing *drawing, const struct placed_piece *placed, struct spot line[2]) {
    struct spot from = figure_route_spot(drawing, placed->near.origin),
                to = figure_route_spot(drawing, placed->far.origin);
    struct line_part seen = drawing->seen[placed->first];
    line[0] = (struct spot){from.x + (to.x - from.x) * seen.from, from.y + (to.y - from.y) * seen.from};
    line[1] = (struct spot){from.x + (to.x - from.x) * seen.to, from.y + (to.y - from.y) * seen.to};
}

/* On the longest straight of each size of the trunks, where that is seen. */
static void name_ducts(struct route_drawing *drawing, const struct placed_run *placed) {
    const struct route *route = drawing->job->route;
    size_t i = placed->first, end = placed->first + placed->count;
    bool first = true;
    while (i < end) {
        const struct duct *duct = route->pieces.at[i].piece->near;
        const struct placed_piece *longest = NULL;
        struct spot line[2], best[2] = {{0, 0}, {0, 0}};
        double most = 0.001 * MILLIMETRE;
        for (; i < end && route->pieces.at[i].piece->near == duct; i++) {
            if (!is_straight(&route->pieces.at[i]))
                continue;
            seen_line(drawing, &route->pieces.at[i], line);
            double length = hypot(line[1].x - line[0].x, line[1].y - line[0].y);
            if (length <= most)
                continue;
            most = length;
            longest = &route->pieces.at[i];
            best[0] = line[0];
            best[1] = line[1];
        }
        const char *words = longest && duct ? duct_words(drawing, longest, first) : NULL;
        if (words)
            figure_label_band(drawing->figure, words, best[0], best[1], seen_half(drawing, longest), LETTER_SMALL);
        first = first && !words;
    }
}

/* ---- Lengths and outlets ------------------------------------------------------------------------------------ */

static bool is_estimated(const struct piece *piece) {
    const struct slot *slots = piece->kind->form.slots;
    for (int slot = 0; piece->reading.argument && slot < SLOT_LIMIT && slots[slot].kind; slot++)
        if (piece->reading.argument[slot].about)
            return true;
    return false;
}

/* Along the side of each level straight of a trunk. */
static void measure_straights(struct route_drawing *drawing, const struct placed_run *placed) {
    for (size_t i = placed->first; i < placed->first + placed->count; i++) {
        const struct placed_piece *piece = &drawing->job->route->pieces.at[i];
        if (!is_straight(piece) || seen_length(drawing, piece) < piece->piece->length * 0.999)
            continue;
        double side = piece->piece->near ? piece->piece->near->size.width / 2 : 0;
        const char *about = is_estimated(piece->piece) ? "about " : "";
        figure_dimension(
            drawing->figure, figure_route_spot(drawing, frame_point(&piece->near, side, 0, 0)),
            figure_route_spot(drawing, frame_point(&piece->far, side, 0, 0)), FIGURE_RIGHT_OF_LINE,
            arena_format(drawing->arena, "%s%s", about, quantity_text(drawing, SHOW_RUN, piece->piece->length)));
    }
}

static void name_terminal(struct route_drawing *drawing, const struct run *run, const char *numbers) {
    const struct placed_run *placed = route_of(drawing->job, run);
    const char *name = drawing->detail == ROUTE_FOR_CUSTOMER ? bid_room(run) : run->name;
    const char *words = name;
    if (drawing->view == ROUTE_PLAN) {
        const char *flow = quantity_text(drawing, SHOW_FLOW, run->airflow);
        bool sized = run->first_duct && run->first_duct->run == run && size_known(run->first_duct->size);
        const char *size = sized ? arena_format(drawing->arena, ", %s",
                                                size_text(drawing->arena, drawing->job->system, run->first_duct->size))
                                 : "";
        words = arena_format(drawing->arena, "%s, %s%s", name, flow, size);
    }
    if (numbers)
        words = arena_format(drawing->arena, "%s %s", words, numbers);
    figure_label(drawing->figure, words, figure_route_spot(drawing, route_face(placed)),
                 TOWARD_RIGHT | TOWARD_LEFT | TOWARD_UP | TOWARD_DOWN, LETTER_SMALL);
}

/* ---- Round about ------------------------------------------------------------------------------------------------- */

static bool knows_north(const struct route_drawing *drawing) {
    const struct air_unit *unit = drawing->sheet->unit;
    return drawing->view == ROUTE_PLAN && (unit->position_given || unit->faces);
}

/* Whether most of the middle line of each of a run's pieces is seen, so far along it. */
static bool is_seen_for(const struct route_drawing *drawing, const struct placed_run *placed, double length) {
    const struct placed_piece *pieces = drawing->job->route->pieces.at;
    for (size_t i = placed->first; i < placed->first + placed->count && pieces[i].begins < length; i++) {
        const struct line_part *seen = &drawing->seen[pieces[i].first];
        if (pieces[i].count > 0 && seen->to - seen->from < 0.5)
            return false;
    }
    return true;
}

/* Into the first duct of a supply, out of that of a return. */
static void draw_air(struct route_drawing *drawing, const struct run *run) {
    const struct placed_run *placed = run ? route_of(drawing->job, run) : NULL;
    if (!placed || drawing->sheet->trunk || !placed->count)
        return;
    double length = fmin(placed->length, 0.6);
    if (!is_seen_for(drawing, placed, length))
        return;
    struct spot a = figure_route_spot(drawing, placed->begin.origin);
    struct spot b = figure_route_spot(drawing, frame_point(&placed->begin, 0, length, 0));
    figure_arrow(drawing->figure, run->supply ? a : b, run->supply ? b : a);
}

static const char *seen_from(const struct route_drawing *drawing) {
    if (drawing->view == ROUTE_PLAN)
        return "Plan";
    if (drawing->view == ROUTE_VIEW)
        return "View from above in the south-east";
    return drawing->right.x > 0.5 ? "Elevation, seen from the south" : "Elevation, seen from the east";
}

static const char *title_of(const struct route_drawing *drawing) {
    const struct route_sheet *sheet = drawing->sheet;
    const char *what = sheet->trunk ? sheet->trunk->name : sheet->unit->name;
    const char *only = sheet->overview ? ", trunks" : "";
    return arena_format(drawing->arena, "%s: %s%s", seen_from(drawing), what, only);
}

static bool has_free(const struct route_drawing *drawing) {
    const struct route *route = drawing->job->route;
    for (size_t i = 0; i < route->pieces.count; i++)
        if (route->pieces.at[i].free && figure_route_on_sheet(drawing->sheet, route->pieces.at[i].run))
            return true;
    return false;
}

static void add_words(struct route_drawing *drawing, const char **all, const char *words) {
    *all = *all ? arena_format(drawing->arena, "%s %s", *all, words) : words;
}

/* As one text, on the plan; the others of its sheet follow it and say what is their own. */
static void add_notes(struct route_drawing *drawing) {
    const struct route_sheet *sheet = drawing->sheet;
    const char *all = NULL;
    if (drawing->view == ROUTE_ELEVATION)
        figure_note(drawing->figure, "The bottom that is named is that of what stands out round the duct, insulation "
                                     "or joints.");
    if (drawing->view != ROUTE_PLAN)
        return;
    if (!sheet->unit->position_given)
        add_words(drawing, &all,
                  "The job does not say where the unit stands: the drawing is laid out from its supply collar, facing "
                  "east unless the job says.");
    if (!sheet->unit->return_position_given && sheet->unit->return_run && !sheet->trunk)
        add_words(drawing, &all, "Where the return collar stands is assumed: opposite the supply.");
    add_words(drawing, &all, "Ducts are drawn at their inside sizes, without insulation.");
    if (has_free(drawing))
        add_words(drawing, &all,
                  "Flexible duct, dashed, is drawn straight on and led where there is room: its registers stand where "
                  "the rooms need them.");
    if (drawing->obstacles_cut)
        add_words(drawing, &all, "Of obstacles only what is about these ducts is drawn.");
    if (sheet->overview)
        add_words(drawing, &all,
                  drawing->detail == ROUTE_FOR_FIELD
                      ? "A trunk with outlets or inlets is told in full on a sheet of its own; the "
                        "parts of one without stand in the hanging order."
                      : "A trunk with outlets or inlets is told in full on a sheet of its own.");
    if (drawing->numbered)
        add_words(drawing, &all, "Numbers in brackets are those of the parts.");
    figure_note(drawing->figure, all);
}

struct figure *figure_route(struct arena *arena, const struct job *job, const struct route_sheet *sheet,
                            enum route_view view, enum route_detail detail) {
    struct route_drawing drawing = {.arena = arena, .job = job, .sheet = sheet, .view = view, .detail = detail};
    const char *what = sheet->trunk ? sheet->trunk->title : sheet->unit->title;
    set_axes(&drawing);
    drawing.seen = ARENA_ARRAY(arena, struct line_part, job->route->stretches.count + 1);
    drawing.figure = figure_new(arena, title_of(&drawing), view == ROUTE_PLAN ? what : NULL);
    drawing.figure->metric = job->system == MEASURE_METRIC;
    drawing.figure->sketch = view == ROUTE_VIEW;
    drawing.figure->north = knows_north(&drawing);
    drawing.figure->follows = view != ROUTE_PLAN;
    drawing.figure->keyless = view == ROUTE_VIEW;
    drawing.figure->largest = drawing.figure->metric ? largest_metric : largest_inch;
    drawing.figure->key[STROKE_CUT] = "duct";
    drawing.figure->key[STROKE_NET] = "joint, crossing line";
    drawing.figure->key[STROKE_HIDDEN] = "flexible duct, obstacle";
    figure_route_lines(&drawing);
    if (detail == ROUTE_FOR_FIELD && view != ROUTE_VIEW)
        figure_route_hangers(&drawing);
    draw_air(&drawing, sheet->unit->supply_run);
    draw_air(&drawing, sheet->unit->return_run);
    const char **numbers = figure_route_numbers(&drawing);
    for (size_t i = 0; i < job->runs.count; i++) {
        const struct placed_run *placed = route_of(job, job->runs.at[i]);
        if (!placed || !figure_route_on_sheet(sheet, job->runs.at[i]))
            continue;
        if (job->runs.at[i]->role != RUN_DUCT) {
            if (view != ROUTE_ELEVATION)
                name_terminal(&drawing, job->runs.at[i], numbers[job->runs.at[i]->id]);
            continue;
        }
        name_ducts(&drawing, placed);
        if (detail == ROUTE_FOR_FIELD && view == ROUTE_PLAN && !sheet->overview)
            measure_straights(&drawing, placed);
    }
    add_notes(&drawing);
    return drawing.figure;
}
