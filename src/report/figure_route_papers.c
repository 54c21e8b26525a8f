/* The sections that show where the ducts run. */
#include "report/bid.h"
#include "report/figure_route.h"
#include "report/system_figures.h"

/* More outlets and inlets than this do not go on one drawing with what is written on it; more drawings than this nobody
 * looks through.  By look. */
static const size_t terminals_most[] = {[ROUTE_FOR_CUSTOMER] = 30, [ROUTE_FOR_FIELD] = 8};
enum { SHEETS_MOST = 24 };
/* A unit with more trunks is more than a sheet shows. */
enum { TRUNKS_MOST = 200 };

static const char *const drawing_words[] = {
    [ROUTE_PLAN] = "plan", [ROUTE_ELEVATION] = "elevation", [ROUTE_VIEW] = "view"};

/* ---- What is drawn ----------------------------------------------------------------------------------------------- */

static bool is_placed(const struct job *job, const struct run *run) {
    return run && !run->faulty && route_of(job, run);
}

bool figure_route_wanted(const struct job *job) {
    for (size_t i = 0; job->route && i < job->units.count; i++)
        if (is_placed(job, job->units.at[i]->supply_run) || is_placed(job, job->units.at[i]->return_run))
            return true;
    return false;
}

/* Of each unit, in the order of job->units: how many terminals it has. */
static size_t *count_terminals(const struct job *job, struct arena *arena) {
    size_t *counts = ARENA_ARRAY(arena, size_t, job->units.count + 1);
    for (size_t u = 0; u < job->units.count; u++) {
        const struct network *network = job->units.at[u]->network;
        counts[u] = network ? network->supply_paths.count + network->return_paths.count : 0;
    }
    return counts;
}

static void add_sheet(struct arena *arena, route_sheet_list *sheets, size_t *all, struct route_sheet sheet) {
    if ((*all)++ < SHEETS_MOST)
        *list_add(arena, sheets) = sheet;
}

static bool is_trunk(const struct job *job, const struct run *run, const struct air_unit *unit) {
    return run->unit == unit && run->role == RUN_DUCT && is_placed(job, run);
}

/* A sheet of its own for each trunk that has what fits on one, behind the trunks alone. */
static void add_trunks(const struct job *job, struct arena *arena, route_sheet_list *sheets, size_t *all,
                       const struct air_unit *unit) {
    size_t trunks = 0;
    for (size_t i = 0; i < job->runs.count; i++)
        trunks += is_trunk(job, job->runs.at[i], unit);
    if (trunks > TRUNKS_MOST) {
        (*all)++;
        return;
    }
    add_sheet(arena, sheets, all, (struct route_sheet){.unit = unit, .overview = true});
    for (size_t i = 0; i < job->runs.count; i++) {
        const struct run *run = job->runs.at[i];
        size_t terminals = is_trunk(job, run, unit) ? figure_route_terminals(run) : 0;
        if (terminals > ROUTE_TAPPED_MOST)
            (*all)++;
        else if (terminals > 0)
            add_sheet(arena, sheets, all, (struct route_sheet){.unit = unit, .trunk = run});
    }
}

/* All drawings of a job in their order, few enough to be looked through; `all` gets how many there would be. */
static void route_sheets(const struct job *job, enum route_detail detail, struct arena *arena, route_sheet_list *sheets,
                         size_t *all) {
    size_t *terminals = count_terminals(job, arena);
    *all = 0;
    for (size_t u = 0; job->route && u < job->units.count; u++) {
        const struct air_unit *unit = job->units.at[u];
        if (!is_placed(job, unit->supply_run) && !is_placed(job, unit->return_run))
            continue;
        if (sheets->count >= SHEETS_MOST)
            (*all)++;
        else if (terminals[u] > terminals_most[detail])
            add_trunks(job, arena, sheets, all, unit);
        else
            add_sheet(arena, sheets, all, (struct route_sheet){.unit = unit});
    }
}

static const char *drawing_file_of(struct arena *arena, size_t number, const char *word) {
    return arena_format(arena, "%s-%zu.svg", word, number);
}

/* ---- The sections ------------------------------------------------------------------------------------------------ */

static void draw(const struct job *job, struct document *document, const struct route_sheet *sheet, size_t number,
                 enum route_view view, enum route_detail detail) {
    const struct figure *figure = figure_route(document->arena, job, sheet, view, detail);
    document_drawing(document, figure, drawing_file_of(document->arena, number, drawing_words[view]), figure->title);
}

static void draw_all(const struct job *job, struct document *document, enum route_view last, enum route_detail detail) {
    route_sheet_list sheets = {0};
    size_t all;
    route_sheets(job, detail, document->keep, &sheets, &all);
    system_drawings_note(document);
    if (!document->drawings)
        return;
    for (size_t i = 0; i < sheets.count; i++)
        for (int view = ROUTE_PLAN; view <= (int)last; view++) {
            document_relieve(document);
            draw(job, document, &sheets.at[i], i + 1, (enum route_view)view, detail);
        }
    if (all > sheets.count)
        document_paragraph(document, "What of so large a job is not on these drawings is in its data (-o FILE.json).");
}

void figure_route_plan(const struct job *job, struct document *document) {
    document_paragraph(document,
                       "Where the ducts are meant to run, as far as the job says. What the building turns out to hold "
                       "is measured before work begins, and the drawing gives way to it.");
    draw_all(job, document, ROUTE_PLAN, ROUTE_FOR_CUSTOMER);
}

enum { PLACE_NAME, PLACE_EAST, PLACE_NORTH, PLACE_UP, PLACE_SURE, PLACE_COLUMNS };

static const struct column place_columns[PLACE_COLUMNS] = {
    [PLACE_NAME] = {.head = "Register or grille"},
    [PLACE_EAST] = {.head = "East", .kind = COLUMN_FIGURE, .use = SHOW_RUN},
    [PLACE_NORTH] = {.head = "North", .kind = COLUMN_FIGURE, .use = SHOW_RUN},
    [PLACE_UP] = {.head = "Up", .kind = COLUMN_FIGURE, .use = SHOW_RUN},
    [PLACE_SURE] = {.head = "How sure"},
};

static void list_faces(const struct job *job, struct document *document) {
    struct table *table = document_table(document, place_columns, PLACE_COLUMNS);
    for (size_t i = 0; i < job->runs.count; i++) {
        const struct run *run = job->runs.at[i];
        const struct placed_run *placed = run->role != RUN_DUCT ? route_of(job, run) : NULL;
        if (!placed)
            continue;
        struct space at = route_face(placed);
        union cell *cells = document_row(document, &table);
        cells[PLACE_NAME].text = bid_terminal(document, run);
        cells[PLACE_EAST].figure = at.x;
        cells[PLACE_NORTH].figure = at.y;
        cells[PLACE_UP].figure = at.z;
        cells[PLACE_SURE].text = placed->free ? "as far as its flexible duct allows" : "as laid out";
    }
}

void figure_route_drawings(const struct job *job, struct document *document) {
    document_paragraph(document,
                       "Levels and places are of the middle of the duct or face, from the point that the job counts "
                       "from (from the supply collar of a unit without a position). Measure before hanging; never cut "
                       "a structural member without approval.");
    draw_all(job, document, ROUTE_VIEW, ROUTE_FOR_FIELD);
    list_faces(job, document);
}
