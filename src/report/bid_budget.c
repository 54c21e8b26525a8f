/* The pressure budget: what the blower gives, where it goes, piece by piece. */
#include "report/bid.h"

#include <math.h>

#include "model/item_words.h"
#include "model/model.h"

/* ---- What is available ------------------------------------------------------------------------------------------- */

enum { SUM_WHAT, SUM_PRESSURE, SUM_COLUMNS };

static const struct column sum_columns[SUM_COLUMNS] = {
    [SUM_WHAT] = {.head = "At the design airflow"},
    [SUM_PRESSURE] = {.head = "Pressure", .kind = COLUMN_FIGURE, .use = SHOW_PRESSURE},
};

static void sum_row(struct table *table, const char *what, double pressure) {
    union cell *cells = table_row(table);
    cells[SUM_WHAT].text = what;
    cells[SUM_PRESSURE].figure = pressure;
}

static const char *side_words(struct document *document, const char *side, const struct path *path) {
    return arena_format(document->arena, "less the %s side, costliest path: %s", side,
                        bid_terminal(document, path->end->terminal));
}

static void available(struct document *document, const struct network *network) {
    const struct air_unit *unit = network->unit;
    struct table *table = document_table(document, sum_columns, SUM_COLUMNS);
    sum_row(table,
            arena_format(document->arena, "Blower of %s, external static pressure at %s", unit->name,
                         bid_figure(document, SHOW_FLOW, unit->airflow)),
            network->blower_pressure);
    for (size_t i = 0; i < unit->drops.count; i++)
        sum_row(table, arena_format(document->arena, "less %s", unit->drops.at[i].label), -unit->drops.at[i].actual);
    if (unit->drops.count)
        sum_row(table, "Left for ducts, fittings, registers and grilles",
                network->blower_pressure - network->unit_drops);
    if (network->governing_return)
        sum_row(table, side_words(document, "return", network->governing_return), -network->governing_return->loss);
    if (network->governing_supply)
        sum_row(table, side_words(document, "supply", network->governing_supply), -network->governing_supply->loss);
    sum_row(table, network->surplus < 0 ? "Short" : "Left over", network->surplus);
}

/* What a maker's table says is not what stands above, but at sea level. */
static void thin_air_note(const struct job *job, struct document *document) {
    if (fabs(job->air.density_ratio - 1) < 0.0005)
        return;
    document_paragraph(
        document,
        "Makers' figures are for standard air. At %s the air is %.3f times as dense, so the blower gives, "
        "and the unit, registers, grilles and filters take, that share of what their makers state.",
        bid_figure(document, SHOW_ALTITUDE, job->altitude), job->air.density_ratio);
}

/* ---- The costliest path, item by item ---------------------------------------------------------------------------- */

enum {
    STEP_RUN,
    STEP_PIECE,
    STEP_FLOW,
    STEP_LENGTH,
    STEP_FRICTION,
    STEP_COEFFICIENT,
    STEP_REFERENCE,
    STEP_LOSS,
    STEP_TOTAL,
    STEP_COLUMNS
};

/* Pressures with one digit more than the budget has, so that a sum by hand comes out to the budget's last digit. */
static const struct column step_columns[STEP_COLUMNS] = {
    [STEP_RUN] = {.head = "Run"},
    [STEP_PIECE] = {.head = "Piece"},
    [STEP_FLOW] = {.head = "Airflow", .kind = COLUMN_FIGURE, .use = SHOW_FLOW},
    [STEP_LENGTH] = {.head = "Length", .kind = COLUMN_FIGURE, .use = SHOW_RUN},
    [STEP_FRICTION] = {.head = "Friction", .kind = COLUMN_FIGURE, .use = SHOW_PRESSURE, .decimals = 1, .bare = true},
    [STEP_COEFFICIENT] = {.head = "C", .kind = COLUMN_NUMBER, .decimals = 3},
    [STEP_REFERENCE] =
        {.head = "Vel. pressure", .kind = COLUMN_FIGURE, .use = SHOW_PRESSURE, .decimals = 1, .bare = true},
    [STEP_LOSS] = {.head = "Loss", .kind = COLUMN_FIGURE, .use = SHOW_PRESSURE, .decimals = 1, .bare = true},
    [STEP_TOTAL] = {.head = "Total so far", .kind = COLUMN_FIGURE, .use = SHOW_PRESSURE, .decimals = 1, .bare = true},
};

/* A coefficient is never guessed beyond its table, nor a drop made up in silence. */
static const char *step_words(struct document *document, const struct section *section, const struct item *item) {
    const char *words = item_words(section, item, document->system, document->arena);
    if (item->loss.source == SOURCE_ASSUMED_DROP)
        return arena_format(document->arena, "%s, drop (assumed)", words);
    return item->loss.outside ? arena_format(document->arena, "%s, at the end of its table", words) : words;
}

static void step_row(struct document *document, struct table **table, const struct section *section,
                     const struct item *item, double total) {
    const struct loss *loss = &item->loss;
    if (item_is_nothing(item))
        return;
    union cell *cells = document_row(document, table);
    cells[STEP_RUN].text = section->run->name;
    cells[STEP_PIECE].text = step_words(document, section, item);
    cells[STEP_FLOW].figure = section->flow;
    if (item->length > 0)
        cells[STEP_LENGTH].figure = item->length;
    if (loss->friction != 0)
        cells[STEP_FRICTION].figure = loss->friction;
    if (loss->reference_name) {
        cells[STEP_COEFFICIENT].figure = loss->coefficient;
        cells[STEP_REFERENCE].figure = loss->reference;
    }
    cells[STEP_LOSS].figure = loss->pressure;
    cells[STEP_TOTAL].figure = total;
}

/* From the return inlet to the unit: the items backwards, as the air meets them. */
static double return_steps(struct document *document, struct table **table, const struct path *path) {
    double total = 0;
    for (const struct section *section = path->end; section; section = section->parent) {
        for (size_t i = section->items.count; i-- > 0;) {
            total += section->items.at[i].loss.pressure;
            step_row(document, table, section, &section->items.at[i], total);
        }
    }
    return total;
}

static double drop_steps(struct document *document, struct table **table, const struct air_unit *unit, double total) {
    for (size_t i = 0; i < unit->drops.count; i++) {
        union cell *cells = document_row(document, table);
        total += unit->drops.at[i].actual;
        cells[STEP_RUN].text = unit->name;
        cells[STEP_PIECE].text = unit->drops.at[i].label;
        cells[STEP_LOSS].figure = unit->drops.at[i].actual;
        cells[STEP_TOTAL].figure = total;
    }
    return total;
}

/* The sections of a path, from the unit to its end. */
static const struct section **outward(struct document *document, const struct path *path, size_t *count) {
    *count = 0;
    for (const struct section *section = path->end; section; section = section->parent)
        ++*count;
    const struct section **sections = ARENA_ARRAY(document->keep, const struct section *, *count);
    size_t i = *count;
    for (const struct section *section = path->end; section; section = section->parent)
        sections[--i] = section;
    return sections;
}

static void supply_steps(struct document *document, struct table **table, const struct path *path, double total) {
    size_t count;
    const struct section **sections = outward(document, path, &count);
    for (size_t s = 0; s < count; s++) {
        for (size_t i = 0; i < sections[s]->items.count; i++) {
            total += sections[s]->items.at[i].loss.pressure;
            step_row(document, table, sections[s], &sections[s]->items.at[i], total);
        }
    }
}

static const char *pressure_unit(const struct document *document) {
    return measure_show(document->system, SHOW_PRESSURE)->unit;
}

static const char *rounding_note(enum measure_system system) {
    return system == MEASURE_US
               ? "Losses of single pieces are printed to 0.0001 in. w.g., budgets to 0.001; each figure is rounded for "
                 "itself, from the unrounded value, so a sum of printed figures can differ in its last digit."
               : "Losses of single pieces are printed to 0.01 Pa, budgets to 0.1; each figure is rounded for itself, "
                 "from the unrounded value, so a sum of printed figures can differ in its last digit.";
}

/* What in the tables of pieces has to be explained. */
struct oddities {
    bool held, gains;
};

static struct oddities oddities_of(const struct job *job) {
    struct oddities found = {false, false};
    for (size_t i = 0; i < job->units.count; i++) {
        const struct network *network = job->units.at[i]->network;
        for (size_t s = 0; network && s < network->sections.count; s++) {
            const struct section *section = network->sections.at[s];
            for (size_t k = 0; k < section->items.count; k++) {
                found.held |= section->items.at[k].loss.outside != NULL;
                found.gains |= section->items.at[k].loss.pressure < 0;
            }
        }
    }
    return found;
}

/* How the tables of pieces are read; said once. */
static void reading_notes(const struct job *job, struct document *document) {
    struct oddities found = oddities_of(job);
    document_paragraph(document,
                       "Losses are of total pressure. A piece loses its wall friction and C times the "
                       "velocity pressure shown, at taps and splits that of all the air in the duct they leave or "
                       "join; a drop that is declared, not computed, has neither. What is marked (assumed) the job "
                       "leaves open: there the shop's habit or common practice stands.");
    document_paragraph(document, "%s", rounding_note(document->system));
    if (found.gains)
        document_paragraph(document,
                           "A loss below zero at a tap is a gain: a tap draws off the slow air along the wall, so that "
                           "what goes on has a little more pressure than the whole had; and where air comes together, "
                           "the fast stream draws the slow one along.");
    if (found.held)
        document_paragraph(document,
                           "At the end of its table: the piece lies beyond what its source gives figures for; the "
                           "nearest one given stands.");
}

static void governing(struct document *document, const struct network *network, int level) {
    const struct path *supply = network->governing_supply, *back = network->governing_return;
    document_heading(document, level, "The costliest path, piece by piece");
    document_paragraph(document, "With the air%s%s, through the unit%s%s (all pressures: %s).", back ? " from " : "",
                       back ? bid_terminal(document, back->end->terminal) : "", supply ? ", to " : "",
                       supply ? bid_terminal(document, supply->end->terminal) : "", pressure_unit(document));
    struct table *table = document_table(document, step_columns, STEP_COLUMNS);
    double total = back ? return_steps(document, &table, back) : 0;
    total = drop_steps(document, &table, network->unit, total);
    if (supply)
        supply_steps(document, &table, supply, total);
}

/* ---- Every path -------------------------------------------------------------------------------------------------- */

enum { PATH_NAME, PATH_ROOM, PATH_OWN, PATH_OTHER, PATH_UNIT, PATH_TOTAL, PATH_SURPLUS, PATH_DAMPER, PATH_COLUMNS };

/* The "" lets nothing but a literal in. */
#define PATH_PRESSURE(words)                                                                                           \
    { .head = "" words, .kind = COLUMN_FIGURE, .use = SHOW_PRESSURE, .bare = true }

static const struct column supply_columns[PATH_COLUMNS] = {
    [PATH_NAME] = {.head = "Outlet"},
    [PATH_ROOM] = {.head = "Room"},
    [PATH_OWN] = PATH_PRESSURE("Supply"),
    [PATH_OTHER] = PATH_PRESSURE("Return"),
    [PATH_UNIT] = PATH_PRESSURE("Unit"),
    [PATH_TOTAL] = PATH_PRESSURE("Total"),
    [PATH_SURPLUS] = PATH_PRESSURE("Left over"),
    [PATH_DAMPER] = {.head = "Taken up by"},
};

static const struct column return_columns[PATH_COLUMNS] = {
    [PATH_NAME] = {.head = "Inlet"},
    [PATH_ROOM] = {.head = "Room"},
    [PATH_OWN] = PATH_PRESSURE("Return"),
    [PATH_OTHER] = PATH_PRESSURE("Supply"),
    [PATH_UNIT] = PATH_PRESSURE("Unit"),
    [PATH_TOTAL] = PATH_PRESSURE("Total"),
    [PATH_SURPLUS] = PATH_PRESSURE("Left over"),
    [PATH_DAMPER] = {.head = "Taken up by"},
};

static void path_row(struct document *document, struct table **table, const struct network *network,
                     const struct path *path, const struct path *other) {
    union cell *cells = document_row(document, table);
    cells[PATH_NAME].text = path->end->terminal->name;
    cells[PATH_ROOM].text = bid_room(path->end->terminal);
    cells[PATH_OWN].figure = path->loss;
    cells[PATH_OTHER].figure = other ? other->loss : 0;
    cells[PATH_UNIT].figure = network->unit_drops;
    cells[PATH_TOTAL].figure = path->total;
    cells[PATH_SURPLUS].figure = network->blower_known ? path->surplus : NAN;
    cells[PATH_DAMPER].text =
        path->damper ? arena_format(document->arena, "damper in %s", path->damper->run->name) : "no damper";
}

static void every_path(struct document *document, const struct network *network, int level) {
    document_heading(document, level, "Every path");
    document_paragraph(document,
                       "Each outlet with the costliest return path, the unit's own drops, and what is left of the "
                       "blower's pressure (%s).",
                       pressure_unit(document));
    struct table *table = document_table(document, supply_columns, PATH_COLUMNS);
    for (size_t i = 0; i < network->supply_paths.count; i++)
        path_row(document, &table, network, &network->supply_paths.at[i], network->governing_return);
    if (network->return_paths.count < 2)
        return;
    document_paragraph(document, "Each inlet likewise, with the costliest supply path:");
    table = document_table(document, return_columns, PATH_COLUMNS);
    for (size_t i = 0; i < network->return_paths.count; i++)
        path_row(document, &table, network, &network->return_paths.at[i], network->governing_supply);
}

static bool has_path(const struct network *network) {
    return network && (network->governing_supply || network->governing_return);
}

static bool any_path(const struct job *job) {
    for (size_t i = 0; i < job->units.count; i++)
        if (has_path(job->units.at[i]->network))
            return true;
    return false;
}

void bid_budget(const struct job *job, struct document *document) {
    int level = job->units.count > 1 ? 4 : 3; /* under the heading of its unit, if there is one */
    for (size_t i = 0; i < job->units.count; i++) {
        const struct network *network = job->units.at[i]->network;
        if (!has_path(network))
            continue;
        bid_unit_heading(job, document, network->unit);
        if (network->blower_known)
            available(document, network);
        else
            document_paragraph(document,
                               "The blower's pressure at %s is not known, so nothing can be said of what is left over.",
                               bid_figure(document, SHOW_FLOW, network->unit->airflow));
        governing(document, network, level);
        every_path(document, network, level);
    }
    if (!any_path(job))
        return;
    document_heading(document, 3, "How to read these figures");
    document_paragraph(document,
                       "What a path leaves over beyond the costliest one is taken up by its damper when the system is "
                       "balanced; a path without one takes more air than designed. What the costliest path leaves over "
                       "moves more air through all of them, unless the blower's speed is set for it.");
    thin_air_note(job, document);
    reading_notes(job, document);
}

/* ---- Every piece once -------------------------------------------------------------------------------------------- */

static void section_rows(struct document *document, struct table **table, const struct section *section) {
    double total = section->parent ? section->parent->loss_to_unit : 0;
    for (size_t i = 0; i < section->items.count; i++) {
        total += section->items.at[i].loss.pressure;
        step_row(document, table, section, &section->items.at[i], total);
    }
}

void bid_losses(const struct job *job, struct document *document) {
    document_paragraph(
        document,
        "Every piece once, away from the unit, at the design airflow (all pressures: %s). The last column is the loss "
        "between the unit's collar and the far end of the piece, so that any path can be followed and summed by hand.",
        pressure_unit(document));
    for (size_t i = 0; i < job->units.count; i++) {
        const struct network *network = job->units.at[i]->network;
        if (!network || !network->sections.count)
            continue;
        bid_unit_heading(job, document, network->unit);
        struct table *table = document_table(document, step_columns, STEP_COLUMNS);
        for (size_t s = 0; s < network->sections.count; s++)
            section_rows(document, &table, network->sections.at[s]);
    }
}
