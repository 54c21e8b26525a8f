/* The system as a tree: runs, sizes and air in the order of hanging, the costliest path drawn thick. */
#include "report/figure_tree.h"

#include <math.h>
#include <string.h>

#include "base/width.h"
#include "model/item_words.h"
#include "model/words.h"
#include "report/figure_page.h"

/* One step of depth, pt. */
static const double deeper = 11;

/* Where the columns stand, pt, from the left edge. */
struct columns {
    double room, size, flow, place; /* of the flow its right edge */
};

/* What a letter takes at most on the whole, pt: it is cut short where it takes more. */
static const double letter = 4.6;

/* What no column is narrower than, and the last and the first not wider; and the room between two. */
static const double least_place = 43, most_place = 110, least_run = 70, most_run = 176, apart = 6;

static double line_at(int depth) {
    return depth * deeper + 4;
}

static double row_at(size_t row) {
    return PAGE_ROW * ((double)row + 1.6);
}

size_t tree_pages(const struct tree *tree) {
    return (tree->rows.count + PAGE_ROWS - 1) / PAGE_ROWS;
}

/* ---- Lines ------------------------------------------------------------------------------------------------------- */

/* Down to the row and into it, and past it to what comes below. */
static void draw_lines(struct figure *figure, const struct tree_row *row, double y) {
    double half = PAGE_ROW / 2;
    for (int depth = 0; depth < row->depth - 1; depth++)
        if (row->lines & 1u << depth)
            diagram_line(figure, row->thick & 1u << depth ? STROKE_CUT : STROKE_NET, line_at(depth), y - half,
                         line_at(depth), y + half);
    if (row->depth > 0) {
        int depth = row->depth - 1;
        bool below = row->lines & 1u << depth, thick_below = row->thick & 1u << depth;
        enum stroke own = row->costliest ? STROKE_CUT : STROKE_NET;
        diagram_line(figure, row->costliest || thick_below ? STROKE_CUT : STROKE_NET, line_at(depth), y - half,
                     line_at(depth), y);
        diagram_line(figure, own, line_at(depth), y, line_at(depth) + 7, y);
        if (below)
            diagram_line(figure, thick_below ? STROKE_CUT : STROKE_NET, line_at(depth), y, line_at(depth), y + half);
    }
}

/* ---- Texts ------------------------------------------------------------------------------------------------------- */

/* "6 ft, left", "left leg", "end". */
static const char *place_words(struct arena *arena, const struct job *job, const struct port *port) {
    switch (port->kind) {
    case PORT_TAP:
        return arena_format(arena, "%s, %s", measure_text(arena, job->system, SHOW_RUN, port->station),
                            side_name(port->side));
    case PORT_LEG:
        return arena_format(arena, "%s leg", leg_name(port->leg));
    case PORT_END:
        return "end";
    case PORT_UNIT:
        return "collar";
    case PORT_NONE:
        break;
    }
    return NULL;
}

/* "trunk", "trunk goes on", "F, supply". */
static const char *run_words(struct arena *arena, const struct tree *tree, const struct tree_row *row) {
    if (!row->run)
        return arena_format(arena, "%s, %s", tree->network->unit->name, row->supply ? "supply" : "return");
    return row->goes_on ? arena_format(arena, "%s goes on", row->run->name) : row->run->name;
}

static double left_of(const struct tree_row *row) {
    return row->depth ? line_at(row->depth - 1) + 10 : 0;
}

static double width_of(const char *words) {
    return words ? letter * (double)text_columns(words, strlen(words)) : 0;
}

/* The first and the last are as wide as the rows of the sheet need; the room's has what they leave. */
static struct columns columns_of(struct arena *arena, const struct job *job, const struct tree *tree, size_t first,
                                 size_t end) {
    double run = least_run, place = least_place;
    for (size_t i = first; i < end; i++) {
        const struct tree_row *row = &tree->rows.at[i];
        run = fmax(run, left_of(row) + width_of(run_words(arena, tree, row)));
        if (row->run && !row->goes_on)
            place = fmax(place, width_of(place_words(arena, job, &row->run->from)));
    }
    struct columns at = {.room = fmin(run, most_run) + apart, .place = PAGE_ROOM - fmin(place, most_place)};
    at.flow = at.place - 10;
    at.size = at.flow - 114;
    return at;
}

static void draw_head(struct figure *figure, const struct job *job, const struct columns *at, double y) {
    diagram_small(figure, "Run", 0, y, TOWARD_RIGHT, 0);
    diagram_small(figure, "Room or title", at->room, y, TOWARD_RIGHT, 0);
    diagram_small(figure, "Size", at->size, y, TOWARD_RIGHT, 0);
    diagram_small(figure, measure_show(job->system, SHOW_FLOW)->unit, at->flow, y, TOWARD_LEFT, 0);
    diagram_small(figure, "Hangs at", at->place, y, TOWARD_RIGHT, 0);
}

static void draw_texts(struct figure *figure, const struct job *job, const struct tree *tree,
                       const struct tree_row *row, const struct columns *at, double y) {
    struct arena *arena = figure->arena;
    double left = left_of(row), room = at->size - at->room - apart;
    diagram_text(figure, run_words(arena, tree, row), left, y, TOWARD_RIGHT, at->room - left - apart);
    if (!row->run) {
        diagram_text(figure, row->supply ? tree->network->unit->title : NULL, at->room, y, TOWARD_RIGHT, room);
    } else if (!row->goes_on) {
        diagram_text(figure, row->run->room ? row->run->room : row->run->title, at->room, y, TOWARD_RIGHT, room);
        diagram_text(figure, place_words(arena, job, &row->run->from), at->place, y, TOWARD_RIGHT,
                     PAGE_ROOM - at->place);
    }
    if (row->duct)
        diagram_text(figure, size_text(arena, job->system, row->duct->size), at->size, y, TOWARD_RIGHT,
                     at->flow - 40 - at->size);
    diagram_text(figure, measure_figure(arena, job->system, SHOW_FLOW, row->flow), at->flow, y, TOWARD_LEFT, 36);
}

struct figure *figure_tree(struct arena *arena, const struct job *job, const struct tree *tree, size_t page) {
    const struct air_unit *unit = tree->network->unit;
    size_t pages = tree_pages(tree), first = page * PAGE_ROWS, end = first + PAGE_ROWS;
    const char *title = arena_format(arena, "What hangs from %s", unit->name);
    struct figure *figure =
        diagram_new(arena, title,
                    pages > 1 ? arena_format(arena, "sheet %zu of %zu", page + 1, pages) : "sizes and design airflow");
    figure->key[STROKE_CUT] = "costliest path";
    figure->key[STROKE_NET] = "other runs";
    const struct columns at = columns_of(arena, job, tree, first, end < tree->rows.count ? end : tree->rows.count);
    draw_head(figure, job, &at, row_at(0) - PAGE_ROW);
    diagram_line(figure, STROKE_NET, 0, row_at(0) - 0.55 * PAGE_ROW, PAGE_ROOM, row_at(0) - 0.55 * PAGE_ROW);
    bool clamped = false;
    for (size_t i = first; i < end && i < tree->rows.count; i++) {
        const struct tree_row *row = &tree->rows.at[i];
        draw_lines(figure, row, row_at(i - first));
        draw_texts(figure, job, tree, row, &at, row_at(i - first));
        clamped |= row->clamped;
    }
    if (clamped)
        figure_note(figure, arena_format(arena, "Runs that hang more than %d deep are drawn in line.", TREE_DEEPEST));
    return figure;
}
