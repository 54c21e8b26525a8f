/* What the air gains or loses on its way, where water may gather, and what leaks. */
#include <math.h>

#include "air/heat.h"
#include "air/leakage.h"
#include "model/words.h"
#include "report/bid.h"

static const char *percent(struct document *document, double share) {
    return arena_format(document->arena, "%.1f %%", share * 100);
}

static const char *temperature(const struct document *document, double kelvin) {
    return bid_figure(document, SHOW_TEMPERATURE, kelvin);
}

/* ---- Temperatures ------------------------------------------------------------------------------------------------ */

enum { HEAT_OUTLET, HEAT_FLOW, HEAT_ARRIVES, HEAT_LOST, HEAT_SHARE, HEAT_COLUMNS };

static const struct column heat_columns[HEAT_COLUMNS] = {
    [HEAT_OUTLET] = {.head = "Outlet"},
    [HEAT_FLOW] = {.head = "Airflow", .kind = COLUMN_FIGURE, .use = SHOW_FLOW},
    [HEAT_ARRIVES] = {.head = "Arrives at", .kind = COLUMN_FIGURE, .use = SHOW_TEMPERATURE},
    [HEAT_LOST] = {.head = "Lost on the way", .kind = COLUMN_FIGURE, .use = SHOW_HEAT},
    [HEAT_SHARE] = {.head = "Share lost, %", .kind = COLUMN_NUMBER, .decimals = 1},
};

static void arrival_row(struct document *document, struct table **table, const struct path *path,
                        const struct heat_arrival *arrival) {
    union cell *cells = document_row(document, table);
    cells[HEAT_OUTLET].text = bid_terminal(document, path->end->terminal);
    cells[HEAT_FLOW].figure = path->end->flow;
    if (!(arrival->temperature > 0))
        return;
    cells[HEAT_ARRIVES].figure = arrival->temperature;
    cells[HEAT_LOST].figure = arrival->lost;
    cells[HEAT_SHARE].figure = arrival->share * 100;
}

static void season_words(struct document *document, const struct network *network, enum heat_season season) {
    const struct heat_total *total = &network->heat->total[season];
    double room = heat_room(network->unit, season);
    document_paragraph(document, "%s: the air leaves %s at %s%s%s.", season == HEAT_SUMMER ? "Cooling" : "Heating",
                       network->unit->name, temperature(document, heat_leaves(network->unit, season)),
                       room > 0 ? "; the rooms are at " : "", room > 0 ? temperature(document, room) : "");
    if (!total->known)
        document_paragraph(document, "Where a cell is blank the job does not give the temperature of a space on the "
                                     "way.");
}

static void total_words(struct document *document, const struct heat_total *total) {
    if (total->returns > 0)
        document_fact(document, "Air comes back to the unit at", temperature(document, total->returns));
    if (!isnan(total->share))
        document_fact(document, "Supply and return together lose",
                      arena_format(document->arena, "%s of what the airflow brings to the rooms",
                                   percent(document, total->share)));
}

static bool write_season(struct document *document, const struct network *network, enum heat_season season) {
    if (!(heat_leaves(network->unit, season) > 0) || !network->supply_paths.count)
        return false;
    season_words(document, network, season);
    struct table *table = document_table(document, heat_columns, HEAT_COLUMNS);
    for (size_t p = 0; p < network->supply_paths.count; p++)
        arrival_row(document, &table, &network->supply_paths.at[p], &network->heat->outlets[p][season]);
    total_words(document, &network->heat->total[season]);
    return true;
}

/* ---- Moisture ---------------------------------------------------------------------------------------------------- */

/* The section of supply whose surface is farthest under the dew point, or least over it; and whether some cold section
 * runs where nobody says how moist it is. */
static const struct section *dampest(const struct network *network, const struct section **unknown) {
    const struct section *worst = NULL;
    double least = INFINITY;
    for (size_t s = 0; s < network->sections.count; s++) {
        const struct section *section = network->sections.at[s];
        const struct heat_section *at = &network->heat->sections[section->id];
        if (!(at->coldest > 0))
            continue;
        if (!(at->dew_point > 0))
            *unknown = *unknown ? *unknown : section;
        else if (at->coldest - at->dew_point < least) {
            least = at->coldest - at->dew_point;
            worst = section;
        }
    }
    return worst;
}

static void write_moisture(struct document *document, const struct network *network) {
    const struct section *unknown = NULL, *worst = dampest(network, &unknown);
    if (worst) {
        const struct heat_section *at = &network->heat->sections[worst->id];
        document_fact(document, "Water on the duct",
                      arena_format(document->arena, "%s: the outside of %s comes down to %s, the dew point of %s is %s",
                                   at->coldest < at->dew_point ? "yes" : "no", bid_plain_name(worst->run),
                                   temperature(document, at->coldest), whereabouts_words(worst->run->settings.location),
                                   temperature(document, at->dew_point)));
    }
    if (unknown)
        document_fact(document, "Not checked for water on the duct",
                      arena_format(document->arena, "what runs in %s: the job does not say how moist the air is there",
                                   whereabouts_words(unknown->run->settings.location)));
}

/* ---- Leakage ----------------------------------------------------------------------------------------------------- */

static void write_leakage(struct document *document, const struct leakage *leakage) {
    document_fact(document, "Surface of the ducts", bid_figure(document, SHOW_AREA, leakage->surface));
    document_fact(document, "They leak, by their seal class and pressure",
                  arena_format(document->arena, "%s of supply, %s of return: %s of the airflow; %s are allowed%s",
                               bid_figure(document, SHOW_FLOW, leakage->supply),
                               bid_figure(document, SHOW_FLOW, leakage->back), percent(document, leakage->share),
                               percent(document, leakage->limit), leakage->limit_assumed ? " (assumed)" : ""));
    document_fact(document, "Of that outside the rooms", bid_figure(document, SHOW_FLOW, leakage->outside));
}

void bid_heat(const struct job *job, struct document *document) {
    document_paragraph(
        document, "At the design airflow, of all that the air passes: what is made of sheet, boots, taps and boxes "
                  "among it, counts by its metal, less the holes cut in it; flexible duct, and what is bought, by "
                  "its length and girth. Registers, grilles, filters and the unit are left out. Temperatures are "
                  "those of air that does not leak.");
    for (size_t i = 0; i < job->units.count; i++) {
        const struct network *network = job->units.at[i]->network;
        if (!network || !network->heat || !network->leakage)
            continue;
        bid_unit_heading(job, document, network->unit);
        bool known = write_season(document, network, HEAT_SUMMER);
        known |= write_season(document, network, HEAT_WINTER);
        if (!known)
            document_paragraph(document,
                               "The job does not say how warm the air leaves %s: temperatures on the way are "
                               "not computed.",
                               network->unit->name);
        write_moisture(document, network);
        write_leakage(document, network->leakage);
    }
}
