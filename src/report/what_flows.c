/* What will really flow: where the blower's curve and the ducts meet, and how the dampers have to stand. */
#include "report/what_flows.h"

#include <math.h>

#include "base/constant.h"
#include "report/bid.h"
#include "report/drawings.h"
#include "report/figures.h"

bool report_knows_what_flows(const struct job *job) {
    for (size_t i = 0; i < job->units.count; i++)
        if (job->units.at[i]->network && job->units.at[i]->network->operation)
            return true;
    return false;
}

/* ---- The unit ---------------------------------------------------------------------------------------------------- */

enum { POINT_WHEN, POINT_FLOW, POINT_BLOWER, POINT_UNIT, POINT_RETURN, POINT_SUPPLY, POINT_COLUMNS };

static const struct column point_columns[POINT_COLUMNS] = {
    [POINT_WHEN] = {.head = "The unit"},
    [POINT_FLOW] = {.head = "Airflow", .kind = COLUMN_FIGURE, .use = SHOW_FLOW},
    [POINT_BLOWER] = {.head = "Blower", .kind = COLUMN_FIGURE, .use = SHOW_PRESSURE, .bare = true},
    [POINT_UNIT] = {.head = "In the unit", .kind = COLUMN_FIGURE, .use = SHOW_PRESSURE, .bare = true},
    [POINT_RETURN] = {.head = "Return side", .kind = COLUMN_FIGURE, .use = SHOW_PRESSURE, .bare = true},
    [POINT_SUPPLY] = {.head = "Supply side", .kind = COLUMN_FIGURE, .use = SHOW_PRESSURE, .bare = true},
};

/* Beyond its points we only know that the blower moves at least, or at most, so much. */
static const char *bound_words(const struct document *document, const char *when, enum operating_outcome outcome) {
    if (outcome == OPERATES_BEYOND)
        return arena_format(document->arena, "%s: more than", when);
    if (outcome == OPERATES_SHORT_OF)
        return arena_format(document->arena, "%s: less than", when);
    return outcome == OPERATES_NO_CURVE ? arena_format(document->arena, "%s, at the design airflow", when) : when;
}

static void point_row(const struct document *document, struct table *table, const char *when,
                      const struct operating_point *point) {
    if (!point->sections)
        return;
    union cell *cells = table_row(table);
    cells[POINT_WHEN].text = bound_words(document, when, point->outcome);
    cells[POINT_FLOW].figure = point->flow;
    cells[POINT_BLOWER].figure = point->pressure;
    cells[POINT_UNIT].figure = point->drops;
    cells[POINT_RETURN].figure = point->back;
    cells[POINT_SUPPLY].figure = point->supply;
}

static void unit_points(const struct job *job, struct document *document, const struct network *network) {
    const struct operation *operation = network->operation;
    document_paragraph(
        document, "Where the blower's curve meets what the ducts take (pressures: %s; the design is %s):",
        measure_show(job->system, SHOW_PRESSURE)->unit, bid_figure(document, SHOW_FLOW, network->supply_flow));
    struct table *table = document_table(document, point_columns, POINT_COLUMNS);
    point_row(document, table, "Dampers open", &operation->dampers_open);
    point_row(document, table, "Balanced", &operation->balanced);
    if (operation->dirty_known)
        point_row(document, table, "Balanced, filters full of dust", &operation->balanced_dirty);
}

/* Why there is less to be said than one would want. */
static void outcome_note(struct document *document, const struct network *network) {
    const struct air_unit *unit = network->unit;
    const struct blower_point *points = unit->blower.at;
    switch (network->operation->dampers_open.outcome) {
    case OPERATES_NO_CURVE:
        document_paragraph(document,
                           "The blower of %s is known at one point only, so that nothing tells what it will "
                           "move. The figures below are shares of the design airflow.",
                           unit->name);
        break;
    case OPERATES_BEYOND:
        document_paragraph(
            document,
            "With its dampers open %s will move more than %s, where the points of its blower end: how much more is "
            "not known, and is not guessed. The airflows are those of that point, and the pressures what the "
            "ducts take there.",
            unit->name, bid_figure(document, SHOW_FLOW, points[unit->blower.count - 1].flow));
        break;
    case OPERATES_SHORT_OF:
        document_paragraph(
            document,
            "%s will move less than %s, where the points of its blower begin: how much less is not known, and is "
            "not guessed. The airflows are those of that point, and the pressures what the ducts take there.",
            unit->name, bid_figure(document, SHOW_FLOW, points[0].flow));
        break;
    case OPERATES_UNSETTLED:
        document_paragraph(document,
                           "No airflow was found at which every path of %s closes, so that nothing is foretold of it.",
                           unit->name);
        break;
    default:
        break;
    }
}

/* ---- The blower's speed ------------------------------------------------------------------------------------------ */

static const char *tried_words(const struct document *document, const struct air_unit *unit) {
    const char *all = "";
    for (size_t i = 0; i < unit->speeds.count; i++) {
        const struct blower_speed *speed = &unit->speeds.at[i];
        if (speed == unit->speed || !speed->tried || !speed->known)
            continue;
        all = arena_format(document->arena, "%s%s%s is short by %s", all, *all ? ", " : "", speed->name,
                           bid_figure(document, SHOW_PRESSURE, -speed->surplus));
    }
    return all;
}

static void speed_note(struct document *document, const struct network *network) {
    const struct air_unit *unit = network->unit;
    if (!unit->speed || !unit->speed->name)
        return;
    const char *tried = tried_words(document, unit);
    if (unit->speed_wanted)
        document_paragraph(document, "The blower of %s runs at its speed %s, as the job asks.", unit->name,
                           unit->speed->name);
    else
        document_paragraph(
            document, "The blower of %s runs at its speed %s, the %s%s%s%s.", unit->name, unit->speed->name,
            network->surplus >= 0 ? "least that meets the budget" : "greatest, which does not meet the budget",
            *tried ? " (" : "", tried, *tried ? ")" : "");
}

/* ---- Outlets and inlets ------------------------------------------------------------------------------------------ */

enum {
    END_NAME,
    END_ROOM,
    END_DESIGN,
    END_OPEN,
    END_OPEN_SHARE,
    END_SET,
    END_SET_SHARE,
    END_DAMPER,
    END_DIRTY,
    END_COLUMNS
};

#define END_TABLE(what)                                                                                                \
    {                                                                                                                  \
        [END_NAME] = {.head = (what)}, [END_ROOM] = {.head = "Room"},                                                  \
        [END_DESIGN] = {.head = "Design", .kind = COLUMN_FIGURE, .use = SHOW_FLOW},                                    \
        [END_OPEN] = {.head = "Open", .kind = COLUMN_FIGURE, .use = SHOW_FLOW, .bare = true},                          \
        [END_OPEN_SHARE] = {.head = "% of design", .kind = COLUMN_NUMBER},                                             \
        [END_SET] = {.head = "Balanced", .kind = COLUMN_FIGURE, .use = SHOW_FLOW, .bare = true},                       \
        [END_SET_SHARE] = {.head = "% of design", .kind = COLUMN_NUMBER}, [END_DAMPER] = {.head = "Damper"},           \
        [END_DIRTY] = {.head = "Dusty filter", .kind = COLUMN_FIGURE, .use = SHOW_FLOW, .bare = true},                 \
    }

static const struct column supply_columns[END_COLUMNS] = END_TABLE("Outlet");
static const struct column return_columns[END_COLUMNS] = END_TABLE("Inlet");

static const char *setting_words(const struct document *document, const struct damper_setting *setting) {
    double open = 90 - setting->blade / DEGREE;
    switch (setting->kind) {
    case SETTING_OPEN:
        return setting->section ? "wide open" : "needs none";
    case SETTING_BLADE:
        return arena_format(document->arena, "open %.0f", open);
    case SETTING_TOO_FAR:
        return arena_format(document->arena, "open %.0f, not enough", open);
    case SETTING_NO_DAMPER:
        return "has none";
    default:
        return NULL;
    }
}

const char *report_damper_words(const struct document *document, const struct damper_setting *setting) {
    const char *words = setting_words(document, setting);
    if (!words || !setting->declared)
        return words;
    return arena_format(document->arena, "%s; the job says %.0f", words, 90 - setting->declared_blade / DEGREE);
}

static void end_row(const struct document *document, union cell *cells, const struct operation *operation,
                    const struct path *path, const struct damper_setting *setting) {
    double design = path->end->flow;
    cells[END_NAME].text = path->end->terminal->name;
    cells[END_ROOM].text = bid_room(path->end->terminal);
    cells[END_DESIGN].figure = design;
    if (operation->dampers_open.sections) {
        cells[END_OPEN].figure = operating_flow(&operation->dampers_open, path);
        cells[END_OPEN_SHARE].figure = 100 * cells[END_OPEN].figure / design;
    }
    if (operation->balanced.sections) {
        cells[END_SET].figure = operating_flow(&operation->balanced, path);
        cells[END_SET_SHARE].figure = 100 * cells[END_SET].figure / design;
    }
    cells[END_DAMPER].text = report_damper_words(document, setting);
    if (operation->dirty_known && operation->balanced_dirty.sections)
        cells[END_DIRTY].figure = operating_flow(&operation->balanced_dirty, path);
}

static void end_table(struct document *document, const struct network *network, bool supply) {
    const struct operation *operation = network->operation;
    const struct damper_setting *settings = operation_settings(operation, supply);
    struct network_side side = network_side(network, supply);
    struct table *table = document_table(document, supply ? supply_columns : return_columns,
                                         operation->dirty_known ? END_COLUMNS : END_DIRTY);
    for (size_t i = 0; i < side.count; i++) {
        union cell row[END_COLUMNS];
        for (size_t k = 0; k < END_COLUMNS; k++)
            row[k].figure = NAN;
        row[END_DAMPER].text = NULL;
        end_row(document, row, operation, &side.paths[i], &settings[i]);
        union cell *cells = document_row(document, &table);
        for (size_t k = 0; k < (operation->dirty_known ? END_COLUMNS : END_DIRTY); k++)
            cells[k] = row[k];
    }
}

/* ---- How to read it, and what to do with it ---------------------------------------------------------------------- */

static bool any_damper(const struct network *network) {
    for (size_t i = 0; i < network->supply_paths.count; i++)
        if (network->operation->supply_settings[i].section)
            return true;
    return false;
}

static void how_to_balance(struct document *document, const struct network *network) {
    const struct operation *operation = network->operation;
    if (!operation->balanced.sections || !(operation->share > 0))
        return;
    if (!any_damper(network)) {
        document_paragraph(document, "No outlet has a damper of its own, so that nothing can be balanced.");
        return;
    }
    document_paragraph(
        document,
        "Balanced, every outlet that has a damper takes %.0f %% of its design%s. The damper of the costliest "
        "path stays wide open. A blade open 90 degrees is wide open; the angles are from a table of "
        "blades, and are where to begin: what is measured at the register decides.",
        100 * operation->share,
        operation->balanced.outcome == OPERATES_BEYOND     ? ", and more"
        : operation->balanced.outcome == OPERATES_SHORT_OF ? " at the most"
                                                           : "");
    if (operation->share > 1.1 && operation->balanced.outcome != OPERATES_NO_CURVE)
        document_paragraph(document,
                           "That is more than was asked for. A lower blower speed, set before the dampers are, is "
                           "quieter and takes less power.");
}

static bool any_declared(const struct network *network) {
    const struct operation *operation = network->operation;
    for (size_t i = 0; i < network->supply_paths.count; i++)
        if (operation->supply_settings[i].declared)
            return true;
    for (size_t i = 0; i < network->return_paths.count; i++)
        if (operation->return_settings[i].declared)
            return true;
    return false;
}

static void backward_note(struct document *document, const struct network *network) {
    const struct operation *operation = network->operation;
    if (operation->dampers_open.backward || operation->balanced.backward)
        document_paragraph(
            document,
            "Figures under nothing are of air that goes backward: it is drawn in where it should come out, or "
            "comes out where it should be drawn in.");
}

/* More terminals than these do not go in one figure. */
enum { FIGURE_ROWS = 24 };

static void figures(const struct job *job, struct document *document, const struct network *network, size_t *number) {
    if (!document->drawings || !network->operation->dampers_open.sections)
        return;
    size_t count = network->supply_paths.count;
    for (size_t from = 0; from < count; from += FIGURE_ROWS) {
        size_t rows = count - from < FIGURE_ROWS ? count - from : FIGURE_ROWS;
        document_drawing(
            document, figure_flow(document->arena, job, network, from, rows),
            arena_format(document->arena, "airflow-%zu.svg", ++*number),
            arena_format(document->arena, "What each outlet of %s takes, of its design", network->unit->name));
    }
}

static void expected_unit(const struct job *job, struct document *document, const struct network *network,
                          size_t *drawings) {
    bid_unit_heading(job, document, network->unit);
    speed_note(document, network);
    outcome_note(document, network);
    if (!network->operation->dampers_open.sections && !network->operation->balanced.sections)
        return;
    unit_points(job, document, network);
    if (any_declared(network))
        document_paragraph(document, "A damper that the job itself sets stands so where dampers are called open.");
    end_table(document, network, true);
    figures(job, document, network, drawings);
    how_to_balance(document, network);
    document_paragraph(document, "What comes back:");
    end_table(document, network, false);
    backward_note(document, network);
}

void report_what_flows(const struct job *job, struct document *document) {
    document_paragraph(
        document, "What the system will do once it hangs, computed with the sizes above, all rooms at one pressure and "
                  "their doors open. A room that is shut tight takes less.");
    size_t drawings = 0;
    for (size_t i = 0; i < job->units.count; i++)
        if (job->units.at[i]->network && job->units.at[i]->network->operation)
            expected_unit(job, document, job->units.at[i]->network, &drawings);
}
