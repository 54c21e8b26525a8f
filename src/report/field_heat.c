/* What a leakage test may find, and how warm the air is to arrive, with blanks for what was found. */
#include "air/heat.h"
#include "air/leakage.h"
#include "report/bid.h"
#include "report/field.h"

/* ---- Leakage ----------------------------------------------------------------------------------------------------- */

enum { LEAK_UNIT, LEAK_SURFACE, LEAK_PRESSURE, LEAK_ALLOWED, LEAK_FOUND, LEAK_COLUMNS };

static const struct column leak_columns[LEAK_COLUMNS] = {
    [LEAK_UNIT] = {.head = "Ducts of"},
    [LEAK_SURFACE] = {.head = "Surface", .kind = COLUMN_FIGURE, .use = SHOW_AREA},
    [LEAK_PRESSURE] = {.head = "Test pressure", .kind = COLUMN_FIGURE, .use = SHOW_PRESSURE},
    [LEAK_ALLOWED] = {.head = "At most", .kind = COLUMN_FIGURE, .use = SHOW_FLOW, .decimals = 1},
    [LEAK_FOUND] = {.head = "Found", .by_hand = 48},
};

void field_leakage(const struct job *job, struct document *document) {
    document_paragraph(
        document,
        "Before insulation covers the joints: registers, grilles and the unit's collars closed off, a fan "
        "with a calibrated orifice on one opening, the ducts held at the pressure of a row. More than the "
        "figure means that the seal class is not reached; mist or soap shows where. At 25 Pa (0.1 in. w.g.) "
        "residential codes test, whose own limit, by floor area, goes before this. Never test above what the "
        "ducts are built for: the last row of a unit is the least of that, 1 in. w.g. (250 Pa) at most. Where "
        "that is assumed, ask the shop before the test.");
    struct table *table = document_table(document, leak_columns, LEAK_COLUMNS);
    for (size_t i = 0; i < job->units.count; i++) {
        const struct network *network = job->units.at[i]->network;
        for (size_t t = 0; network && network->leakage && t < network->leakage->tests; t++) {
            union cell *cells = document_row(document, &table);
            cells[LEAK_UNIT].text = network->unit->name;
            cells[LEAK_SURFACE].figure = network->leakage->surface;
            cells[LEAK_PRESSURE].figure = network->leakage->test[t].pressure;
            cells[LEAK_ALLOWED].figure = network->leakage->test[t].allowed;
        }
    }
}

/* ---- Temperatures ------------------------------------------------------------------------------------------------ */

static bool has_leaving(const struct air_unit *unit) {
    return heat_leaves(unit, HEAT_SUMMER) > 0 || heat_leaves(unit, HEAT_WINTER) > 0;
}

bool field_has_temperatures(const struct job *job) {
    for (size_t i = 0; i < job->units.count; i++)
        if (job->units.at[i]->network && job->units.at[i]->network->heat && has_leaving(job->units.at[i]))
            return true;
    return false;
}

enum { AIR_WHERE, AIR_COOLING, AIR_COOLING_FOUND, AIR_HEATING, AIR_HEATING_FOUND, AIR_COLUMNS };

static const struct column air_columns[AIR_COLUMNS] = {
    [AIR_WHERE] = {.head = "Where"},
    [AIR_COOLING] = {.head = "Cooling", .kind = COLUMN_FIGURE, .use = SHOW_TEMPERATURE},
    [AIR_COOLING_FOUND] = {.head = "Found", .by_hand = 48},
    [AIR_HEATING] = {.head = "Heating", .kind = COLUMN_FIGURE, .use = SHOW_TEMPERATURE},
    [AIR_HEATING_FOUND] = {.head = "Found", .by_hand = 48},
};

static void air_row(struct document *document, struct table **table, const char *where, double cooling,
                    double heating) {
    union cell *cells = document_row(document, table);
    cells[AIR_WHERE].text = where;
    if (cooling > 0)
        cells[AIR_COOLING].figure = cooling;
    if (heating > 0)
        cells[AIR_HEATING].figure = heating;
}

void field_temperatures(const struct job *job, struct document *document) {
    document_paragraph(document, "In the middle of the stream, at the design airflow and the temperatures that the job "
                                 "gives for the spaces; on a milder day the air arrives nearer to how it left. A blank "
                                 "figure was not computed. An outlet that is off by itself has insulation that is "
                                 "missing or wet, or too little air.");
    for (size_t i = 0; i < job->units.count; i++) {
        const struct network *network = job->units.at[i]->network;
        if (!network || !network->heat || !has_leaving(network->unit))
            continue;
        bid_unit_heading(job, document, network->unit);
        struct table *table = document_table(document, air_columns, AIR_COLUMNS);
        air_row(document, &table, arena_format(document->arena, "%s, supply collar", network->unit->name),
                heat_leaves(network->unit, HEAT_SUMMER), heat_leaves(network->unit, HEAT_WINTER));
        for (size_t p = 0; p < network->supply_paths.count; p++)
            air_row(document, &table, bid_terminal(document, network->supply_paths.at[p].end->terminal),
                    network->heat->outlets[p][HEAT_SUMMER].temperature,
                    network->heat->outlets[p][HEAT_WINTER].temperature);
        air_row(document, &table, arena_format(document->arena, "%s, return collar", network->unit->name),
                network->heat->total[HEAT_SUMMER].returns, network->heat->total[HEAT_WINTER].returns);
    }
}
