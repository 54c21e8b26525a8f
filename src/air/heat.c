/* Temperature of the air along its way, from section to section. */
#include "air/heat.h"

#include <math.h>

/* ---- What the job gives ------------------------------------------------------------------------------------------ */

double heat_leaves(const struct air_unit *unit, enum heat_season season) {
    return season == HEAT_SUMMER ? unit->supply_air : unit->heating_air;
}

double heat_room(const struct air_unit *unit, enum heat_season season) {
    return season == HEAT_SUMMER ? unit->room_air : unit->heating_room;
}

double heat_around(const struct run *run, enum heat_season season) {
    const struct settings *settings = &run->settings;
    double given = season == HEAT_SUMMER ? settings->location_temperature : settings->location_winter;
    if (given > 0 || settings->location != LOCATION_CONDITIONED)
        return given;
    return heat_room(run->unit, season);
}

/* The sensible heat of an airflow for each degree, W/K: rho Q cp. */
static double capacity_of(const struct air *air, double flow) {
    return air->density * flow * air->specific_heat;
}

double heat_after(double in, double around, double conductance, double capacity) {
    return around + (in - around) * exp(-conductance / capacity);
}

/* ---- Walls ------------------------------------------------------------------------------------------------------- */

static void see_wall(struct heat_section *wall, const struct section *section, const struct item *item) {
    double surface = heat_item_surface(section, item);
    if (!(surface > 0))
        return;
    double value = heat_item_insulation(section->run, item->piece);
    double films = heat_film_inside() + heat_film_outside(section->run->settings.location);
    wall->surface += surface;
    wall->conductance += surface / (value + films);
    wall->insulation = wall->insulation < 0 ? value : fmin(wall->insulation, value);
}

static void see_walls(struct heat *heat, const struct network *network) {
    for (size_t s = 0; s < network->sections.count; s++) {
        const struct section *section = network->sections.at[s];
        struct heat_section *wall = &heat->sections[section->id];
        wall->insulation = -1;
        for (size_t i = 0; i < section->items.count; i++)
            see_wall(wall, section, &section->items.at[i]);
    }
}

/* ---- Temperatures ------------------------------------------------------------------------------------------------ */

struct warming {
    const struct air *air;
    const struct network *network;
    struct heat *heat;
    enum heat_season season;
};

static struct heat_air *air_in(const struct warming *warming, const struct section *section) {
    return &warming->heat->sections[section->id].air[warming->season];
}

/* Computes `out` from `in`.  Unknown if the space's temperature is, unless the section has no wall. */
static void pass_through(const struct warming *warming, const struct section *section) {
    struct heat_air *air = air_in(warming, section);
    double conductance = warming->heat->sections[section->id].conductance;
    air->around = heat_around(section->run, warming->season);
    if (!(air->in > 0) || !(section->flow > 0))
        return;
    if (conductance <= 0)
        air->out = air->in;
    else if (air->around > 0)
        air->out = heat_after(air->in, air->around, conductance, capacity_of(warming->air, section->flow));
}

/* Parents come first: one sweep from the unit outward. */
static void warm_supply(const struct warming *warming) {
    const struct network *network = warming->network;
    for (size_t s = 0; s < network->sections.count; s++) {
        const struct section *section = network->sections.at[s];
        if (!section->run->supply)
            continue;
        air_in(warming, section)->in =
            section->parent ? air_in(warming, section->parent)->out : heat_leaves(network->unit, warming->season);
        pass_through(warming, section);
    }
}

/* Streams that meet mix.  `in` holds the sum of flow x temperature until the sweep from the back reaches the
 * section: by then all have been added.  An unknown one makes the sum unknown (NAN). */
static void warm_return(const struct warming *warming) {
    const struct network *network = warming->network;
    double room = heat_room(network->unit, warming->season);
    for (size_t s = network->sections.count; s-- > 0;) {
        const struct section *section = network->sections.at[s];
        struct heat_air *air = air_in(warming, section);
        if (section->run->supply || !(section->flow > 0))
            continue;
        if (section->terminal)
            air->in += section->terminal->airflow * (room > 0 ? room : NAN);
        air->in = isnan(air->in) ? 0 : air->in / section->flow;
        pass_through(warming, section);
        if (section->parent)
            air_in(warming, section->parent)->in += section->flow * (air->out > 0 ? air->out : NAN);
    }
}

/* ---- What it comes to -------------------------------------------------------------------------------------------- */

/* Under 0: the air gained what the room needs. */
static struct heat_arrival arrival_of(const struct warming *warming, const struct section *end) {
    double leaves = heat_leaves(warming->network->unit, warming->season);
    double room = heat_room(warming->network->unit, warming->season);
    struct heat_arrival arrival = {.temperature = air_in(warming, end)->out, .share = NAN};
    if (!(arrival.temperature > 0))
        return arrival;
    /* What cools loses by warming, what heats by cooling. */
    double lost = warming->season == HEAT_SUMMER ? arrival.temperature - leaves : leaves - arrival.temperature;
    arrival.lost = lost * capacity_of(warming->air, end->flow);
    double brings = warming->season == HEAT_SUMMER ? room - leaves : leaves - room;
    if (room > 0 && brings > 0)
        arrival.share = lost / brings;
    return arrival;
}

static void sum_return(const struct warming *warming, struct heat_total *total) {
    const struct run *back = warming->network->unit->return_run;
    const struct section *collar = back ? back->first_section : NULL;
    double room = heat_room(warming->network->unit, warming->season);
    if (!collar || !(air_in(warming, collar)->out > 0))
        return;
    total->returns = air_in(warming, collar)->out;
    double more = warming->season == HEAT_SUMMER ? total->returns - room : room - total->returns;
    total->return_lost = more * capacity_of(warming->air, collar->flow);
}

static void sum_up(const struct warming *warming) {
    const struct network *network = warming->network;
    struct heat_total *total = &warming->heat->total[warming->season];
    double brings = 0;
    total->known = network->supply_paths.count > 0;
    for (size_t p = 0; p < network->supply_paths.count; p++) {
        const struct section *end = network->supply_paths.at[p].end;
        struct heat_arrival *arrival = &warming->heat->outlets[p][warming->season];
        *arrival = arrival_of(warming, end);
        total->known &= arrival->temperature > 0;
        total->lost += arrival->lost;
        brings += capacity_of(warming->air, end->flow) *
                  fabs(heat_room(network->unit, warming->season) - heat_leaves(network->unit, warming->season));
    }
    sum_return(warming, total);
    total->share = total->known && heat_room(network->unit, warming->season) > 0 && brings > 0
                       ? (total->lost + total->return_lost) / brings
                       : NAN;
}

/* ---- Where it is coldest ----------------------------------------------------------------------------------------- */

/* Surface = around - (around - air) Rout / R, of the air as it comes to the piece. */
static void find_coldest(const struct warming *warming, const struct section *section) {
    struct heat_section *wall = &warming->heat->sections[section->id];
    const struct heat_air *air = &wall->air[HEAT_SUMMER];
    double outside = heat_film_outside(section->run->settings.location), at = air->in, passed = 0;
    wall->dew_point = heat_dew_point(&section->run->settings, air->around);
    for (size_t i = 0; i < section->items.count && air->out > 0 && air->around > 0; i++) {
        double surface = heat_item_surface(section, &section->items.at[i]);
        if (!(surface > 0))
            continue;
        double value = heat_item_insulation(section->run, section->items.at[i].piece) + heat_film_inside() + outside;
        double skin = air->around - (air->around - at) * outside / value;
        if (!(wall->coldest > 0) || skin < wall->coldest) {
            wall->coldest = skin;
            wall->coldest_air = at;
            wall->coldest_wall = value;
        }
        passed += surface / value;
        at = heat_after(air->in, air->around, passed, capacity_of(warming->air, section->flow));
    }
}

/* ---- The whole --------------------------------------------------------------------------------------------------- */

/* Whether the R-value of some wall is that of its lining or its material. */
static bool has_own_value(const struct network *network) {
    for (size_t i = 0; i < network->ducts.count; i++) {
        const struct settings *settings = &network->ducts.at[i]->run->settings;
        if (settings->lining > 0 || settings->material == MATERIAL_FIBROUS_BOARD)
            return true;
    }
    return false;
}

static void heat_network(struct job *job, struct network *network) {
    struct heat *heat = ARENA_NEW(job->arena, struct heat);
    heat->sections = ARENA_ARRAY(job->arena, struct heat_section, network->sections.count + 1);
    heat->outlets = (struct heat_arrival(*)[HEAT_SEASON_COUNT])ARENA_ARRAY(
        job->arena, struct heat_arrival, (network->supply_paths.count + 1) * HEAT_SEASON_COUNT);
    network->heat = heat;
    see_walls(heat, network);
    for (int season = 0; season < HEAT_SEASON_COUNT; season++) {
        struct warming warming = {&job->air, network, heat, (enum heat_season)season};
        warm_supply(&warming);
        warm_return(&warming);
        sum_up(&warming);
    }
    struct warming summer = {&job->air, network, heat, HEAT_SUMMER};
    for (size_t s = 0; s < network->sections.count; s++)
        if (network->sections.at[s]->run->supply)
            find_coldest(&summer, network->sections.at[s]);
    bool known = heat->total[HEAT_SUMMER].known || heat->total[HEAT_WINTER].known;
    job->source_used[SOURCE_DUCT_HEAT] |= known;
    job->source_used[SOURCE_FILMS] |= known;
    job->source_used[SOURCE_LINING_VALUE] |= known && has_own_value(network);
}

void heat_fill(struct job *job) {
    for (size_t u = 0; u < job->units.count && !job->incomplete; u++)
        if (job->units.at[u]->network)
            heat_network(job, job->units.at[u]->network);
}
