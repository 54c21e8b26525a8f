/* The pressure along the costliest path: a row a piece, and a line that falls to the left from row to row. */
#include "report/figure_pressure.h"

#include <math.h>

#include "model/item_words.h"
#include "report/figure_page.h"

/* Where the columns stand, pt. */
static const double piece_from = 66, chart_from = 258, chart_to = 410, loss_to = 454;

static double row_at(size_t row) {
    return PAGE_ROW * ((double)row + 2.2);
}

/* ---- Steps ------------------------------------------------------------------------------------------------------- */

static void add_step(struct arena *arena, struct pressure_line *line, const char *run, const char *piece, double loss,
                     double *pressure) {
    *list_add(arena, &line->steps) = (struct pressure_step){
        .run = run, .piece = piece, .before = *pressure, .behind = *pressure - loss, .rises = loss < 0};
    *pressure -= loss;
    line->low = fmin(line->low, *pressure);
    line->high = fmax(line->high, *pressure);
}

static void add_item(struct arena *arena, const struct job *job, struct pressure_line *line,
                     const struct section *section, const struct item *item, double *pressure) {
    if (item_is_nothing(item))
        return;
    add_step(arena, line, section->run->name, item_words(section, item, job->system, arena), item->loss.pressure,
             pressure);
}

static void add_return(struct arena *arena, const struct job *job, struct pressure_line *line, double *pressure) {
    const struct path *path = line->network->governing_return;
    for (const struct section *at = path ? path->end : NULL; at; at = at->parent)
        for (size_t i = at->items.count; i-- > 0;)
            add_item(arena, job, line, at, &at->items.at[i], pressure);
}

/* The job does not say which parts of the unit stand before its blower: the sum is the same. */
static void add_unit(struct arena *arena, struct pressure_line *line, double *pressure) {
    const struct air_unit *unit = line->network->unit;
    for (size_t i = 0; i < unit->drops.count; i++)
        add_step(arena, line, unit->name, unit->drops.at[i].label, unit->drops.at[i].actual, pressure);
    add_step(arena, line, unit->name, "Blower", -line->network->blower_pressure, pressure);
}

static void add_supply(struct arena *arena, const struct job *job, struct pressure_line *line, double *pressure) {
    const struct path *path = line->network->governing_supply;
    size_t count = 0;
    for (const struct section *at = path ? path->end : NULL; at; at = at->parent)
        count++;
    const struct section **sections = ARENA_ARRAY(arena, const struct section *, count + 1);
    size_t s = count;
    for (const struct section *at = path ? path->end : NULL; at; at = at->parent)
        sections[--s] = at;
    for (s = 0; s < count; s++)
        for (size_t i = 0; i < sections[s]->items.count; i++)
            add_item(arena, job, line, sections[s], &sections[s]->items.at[i], pressure);
}

const struct pressure_line *pressure_line_of(struct arena *arena, const struct job *job,
                                             const struct network *network) {
    struct pressure_line *line = ARENA_NEW(arena, struct pressure_line);
    line->network = network;
    double pressure = 0;
    add_return(arena, job, line, &pressure);
    add_unit(arena, line, &pressure);
    add_supply(arena, job, line, &pressure);
    return line;
}

size_t pressure_pages(const struct pressure_line *line) {
    return (line->steps.count + PAGE_ROWS - 1) / PAGE_ROWS;
}

/* ---- The drawing ------------------------------------------------------------------------------------------------- */

static void draw_head(struct figure *figure, const struct axis *axis) {
    double y = row_at(0) - 1.2 * PAGE_ROW;
    diagram_small(figure, "Run", 0, y, TOWARD_RIGHT, 0);
    diagram_small(figure, "Piece", piece_from, y, TOWARD_RIGHT, 0);
    diagram_small(figure, "loses", loss_to, y, TOWARD_LEFT, 0);
    diagram_small(figure, "behind it", PAGE_ROOM, y, TOWARD_LEFT, 0);
    for (size_t i = 0; i < axis_ticks(axis); i++)
        diagram_small(figure, axis_words(figure->arena, axis, i), axis_tick(axis, i), y, TOWARD_HERE, 0);
}

/* Upright lines at the ticks; that of the room's own pressure is dashed. */
static void draw_grid(struct figure *figure, const struct axis *axis, double top, double bottom) {
    for (size_t i = 0; i < axis_ticks(axis); i++) {
        double x = axis_tick(axis, i);
        bool zero = fabs(x - axis_at(axis, 0)) < 0.1;
        diagram_line(figure, zero ? STROKE_HIDDEN : STROKE_THIN, x, top, x, bottom);
    }
}

static const char *pressure_words(struct arena *arena, const struct job *job, double pressure) {
    const struct measure_show *show = measure_show(job->system, SHOW_PRESSURE);
    double shown = pressure / show->factor, least = 0.5 * pow(10, -show->decimals - 1);
    return arena_format(arena, "%.*f", show->decimals + 1, fabs(shown) < least ? 0.0 : shown);
}

static void draw_step(struct figure *figure, const struct job *job, const struct axis *axis,
                      const struct pressure_step *step, double y, bool shaded) {
    double half = PAGE_ROW / 2;
    if (shaded)
        diagram_band(figure, 0, y - half, PAGE_ROOM, y + half);
    diagram_text(figure, step->run, 0, y, TOWARD_RIGHT, piece_from - 6);
    diagram_text(figure, step->piece, piece_from, y, TOWARD_RIGHT, chart_from - 8 - piece_from);
    const char *loss = pressure_words(figure->arena, job, fabs(step->before - step->behind));
    diagram_text(figure, step->rises ? arena_format(figure->arena, "+%s", loss) : loss, loss_to, y, TOWARD_LEFT, 0);
    diagram_text(figure, pressure_words(figure->arena, job, step->behind), PAGE_ROOM, y, TOWARD_LEFT, 0);
    diagram_line(figure, STROKE_CUT, axis_at(axis, step->before), y - half, axis_at(axis, step->behind), y + half);
}

static const char *way_words(struct arena *arena, const struct network *network) {
    const struct path *back = network->governing_return, *supply = network->governing_supply;
    return arena_format(arena, "%s%s through %s%s%s", back ? "from " : "",
                        back ? arena_format(arena, "%s,", back->end->terminal->name) : "", network->unit->name,
                        supply ? ", to " : "", supply ? supply->end->terminal->name : "");
}

struct figure *figure_pressure(struct arena *arena, const struct job *job, const struct pressure_line *line,
                               size_t page) {
    size_t pages = pressure_pages(line), first = page * PAGE_ROWS;
    const char *sheet = pages > 1 ? arena_format(arena, ", sheet %zu of %zu", page + 1, pages) : "";
    const char *unit = measure_show(job->system, SHOW_PRESSURE)->unit;
    struct figure *figure = diagram_new(
        arena, arena_format(arena, "Pressure along the costliest path, %s", unit),
        arena_format(arena, "total pressure against the room, %s%s", way_words(arena, line->network), sheet));
    struct axis axis = axis_over(job->system, SHOW_PRESSURE, line->low, line->high, 5);
    axis.from = chart_from;
    axis.to = chart_to;
    size_t end = first + PAGE_ROWS < line->steps.count ? first + PAGE_ROWS : line->steps.count;
    double half = PAGE_ROW / 2;
    draw_head(figure, &axis);
    for (size_t i = first; i < end; i++)
        draw_step(figure, job, &axis, &line->steps.at[i], row_at(i - first), (i - first) % 2);
    draw_grid(figure, &axis, row_at(0) - half, row_at(end - first) - half);
    if (page + 1 == pages)
        figure_note(
            figure,
            "What stands behind the last piece is left over; + is a gain. Whether a part of the unit stands before "
            "its blower or behind it does not change the sum; here all stand before it.");
    figure->key[STROKE_CUT] = "total pressure";
    figure->key[STROKE_HIDDEN] = "the room's own pressure";
    return figure;
}
