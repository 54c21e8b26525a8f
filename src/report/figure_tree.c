/* The system as a tree: runs, sizes and air in the order of hanging, the costliest path drawn thick. */
#include "report/figure_tree.h"

#include "model/item_words.h"
#include "model/words.h"
#include "report/figure_page.h"

/* Where the columns stand, pt: one step of depth, and the left edge of each. */
static const double deeper = 11, room_from = 182, size_from = 322, flow_to = 436, place_from = 446;

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

static void draw_head(struct figure *figure, const struct job *job, double y) {
    diagram_small(figure, "Run", 0, y, TOWARD_RIGHT, 0);
    diagram_small(figure, "Room or title", room_from, y, TOWARD_RIGHT, 0);
    diagram_small(figure, "Size", size_from, y, TOWARD_RIGHT, 0);
    diagram_small(figure, measure_show(job->system, SHOW_FLOW)->unit, flow_to, y, TOWARD_LEFT, 0);
    diagram_small(figure, "Hangs at", place_from, y, TOWARD_RIGHT, 0);
}

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

static void draw_texts(struct figure *figure, const struct job *job, const struct tree *tree,
                       const struct tree_row *row, double y) {
    struct arena *arena = figure->arena;
    double left = row->depth ? line_at(row->depth - 1) + 10 : 0;
    if (!row->run) {
        const char *unit = tree->network->unit->name;
        diagram_text(figure, arena_format(arena, "%s, %s", unit, row->supply ? "supply" : "return"), left, y,
                     TOWARD_RIGHT, room_from - left - 6);
        diagram_text(figure, row->supply ? tree->network->unit->title : NULL, room_from, y, TOWARD_RIGHT,
                     size_from - room_from - 6);
    } else if (row->goes_on) {
        diagram_text(figure, arena_format(arena, "%s goes on", row->run->name), left, y, TOWARD_RIGHT,
                     room_from - left - 6);
    } else {
        diagram_text(figure, row->run->name, left, y, TOWARD_RIGHT, room_from - left - 6);
        diagram_text(figure, row->run->room ? row->run->room : row->run->title, room_from, y, TOWARD_RIGHT,
                     size_from - room_from - 6);
        diagram_text(figure, place_words(arena, job, &row->run->from), place_from, y, TOWARD_RIGHT,
                     PAGE_ROOM - place_from);
    }
    if (row->duct)
        diagram_text(figure, size_text(arena, job->system, row->duct->size), size_from, y, TOWARD_RIGHT,
                     flow_to - 40 - size_from);
    diagram_text(figure, measure_figure(arena, job->system, SHOW_FLOW, row->flow), flow_to, y, TOWARD_LEFT, 36);
}

struct figure *figure_tree(struct arena *arena, const struct job *job, const struct tree *tree, size_t page) {
    const struct air_unit *unit = tree->network->unit;
    size_t pages = tree_pages(tree), first = page * PAGE_ROWS, end = first + PAGE_ROWS;
    const char *title = arena_format(arena, "What hangs from %s", unit->name);
    struct figure *figure = diagram_new(
        arena, title, pages > 1 ? arena_format(arena, "sheet %zu of %zu", page + 1, pages) : "sizes and design airflow");
    figure->key[STROKE_CUT] = "costliest path";
    figure->key[STROKE_NET] = "other runs";
    draw_head(figure, job, row_at(0) - PAGE_ROW);
    diagram_line(figure, STROKE_NET, 0, row_at(0) - 0.55 * PAGE_ROW, PAGE_ROOM, row_at(0) - 0.55 * PAGE_ROW);
    bool clamped = false;
    for (size_t i = first; i < end && i < tree->rows.count; i++) {
        const struct tree_row *row = &tree->rows.at[i];
        draw_lines(figure, row, row_at(i - first));
        draw_texts(figure, job, tree, row, row_at(i - first));
        clamped |= row->clamped;
    }
    if (clamped)
        figure_note(figure, arena_format(arena, "Runs that hang more than %d deep are drawn in line.", TREE_DEEPEST));
    return figure;
}
