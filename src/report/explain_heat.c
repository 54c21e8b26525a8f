/* What passes through the walls of a section, and what that comes to at an outlet. */
#include <math.h>

#include "air/heat.h"
#include "base/constant.h"
#include "report/explain.h"

const char *const explain_seasons[HEAT_SEASON_COUNT] = {[HEAT_SUMMER] = "Cooling", [HEAT_WINTER] = "Heating"};

/* ---- The wall ---------------------------------------------------------------------------------------------------- */

/* R of each kind of piece, and what all of them pass: UA = A1 / R1 + A2 / R2. */
static void explain_wall(struct working *working, const struct section *section) {
    const struct working_units *units = working->units;
    double inside = heat_film_inside(), outside = heat_film_outside(section->run->settings.location), last = -1;
    const char *sum = NULL;
    for (size_t i = 0; i < section->items.count; i++) {
        const struct item *item = &section->items.at[i];
        double surface = heat_item_surface(section, item);
        if (!(surface > 0))
            continue;
        double value = heat_item_insulation(section->run, item->piece), wall = inside + value + outside;
        if (value != last)
            work(working, "Wall, with the films of air inside and outside", SOURCE_FILMS, units->resistance, wall,
                 "R = Rin + Rwall + Rout = %s + %s + %s", working_value(working, units->resistance, inside),
                 working_value(working, units->resistance, value), working_value(working, units->resistance, outside));
        last = value;
        const char *term = arena_format(working->arena, "%s / %s", working_value(working, units->area, surface),
                                        working_value(working, units->resistance, wall));
        sum = sum ? arena_format(working->arena, "%s + %s", sum, term) : term;
    }
    if (sum)
        work(working, "What its surface passes", SOURCE_NONE, units->conductance,
             section->run->unit->network->heat->sections[section->id].conductance, "UA = %s = %s", "sum of A / R", sum);
}

/* ---- Temperatures ------------------------------------------------------------------------------------------------ */

/* m cp = rho Q cp. */
const char *explain_capacity(struct working *working, double flow) {
    const struct working_units *units = working->units;
    const struct air *air = &working->job->air;
    double capacity = air->density * air->specific_heat * flow;
    const char *factor = working->job->system == MEASURE_METRIC ? " / 1000" : " x 60";
    work(working, "Heat that its airflow carries for each degree", SOURCE_SENSIBLE_HEAT, units->conductance, capacity,
         "mc = rho x Q x cp%s = %s x %s x %s%s", factor, working_value(working, units->density, air->density),
         working_value(working, units->flow, flow), working_value(working, units->capacity, air->specific_heat),
         factor);
    return working_value(working, units->conductance, capacity);
}

/* Airs that meet in the return: T0 = (Q1 T1 + Q2 T2) / Q. */
static void explain_meeting(struct working *working, const struct section *section, enum heat_season season) {
    const struct working_units *units = working->units;
    const struct network *network = section->run->unit->network;
    const struct heat_air *air = &network->heat->sections[section->id].air[season];
    const char *sum = NULL;
    size_t count = 0;
    if (section->run->supply || !(air->in > 0))
        return;
    for (size_t i = section->id + 1; i < network->sections.count; i++) {
        const struct section *from = network->sections.at[i];
        if (from->parent != section || !(from->flow > 0))
            continue;
        const char *term =
            arena_format(working->arena, "%s x %s", working_value(working, units->flow, from->flow),
                         working_value(working, units->temperature, network->heat->sections[i].air[season].out));
        sum = sum ? arena_format(working->arena, "%s + %s", sum, term) : term;
        count++;
    }
    if (count > 1)
        work(working, arena_format(working->arena, "%s, the airs that meet in it", explain_seasons[season]),
             SOURCE_DUCT_HEAT, units->temperature, air->in, "T0 = sum of Q x T / Q = (%s) / %s", sum,
             working_value(working, units->flow, section->flow));
}

static void explain_passing(struct working *working, const char *what, const struct section *section,
                            const struct heat_air *air, const char *capacity) {
    const struct working_units *units = working->units;
    const char *around = working_value(working, units->temperature, air->around);
    const char *in = working_value(working, units->temperature, air->in);
    const char *conductance = working_value(working, units->conductance,
                                            section->run->unit->network->heat->sections[section->id].conductance);
    work(working, what, SOURCE_DUCT_HEAT, units->temperature, air->out,
         "T = Ts + (T0 - Ts) x exp(-UA / mc) = %s + (%s - %s) x exp(-%s / %s)", around, in, around, conductance,
         capacity);
}

/* Surface = Ts - (Ts - T) Rout / R, at its coldest piece. */
static void explain_surface(struct working *working, const struct section *section, const struct heat_section *wall) {
    const struct working_units *units = working->units;
    double around = wall->air[HEAT_SUMMER].around, outside = heat_film_outside(section->run->settings.location);
    if (!(wall->coldest > 0) || !section->run->supply)
        return;
    const char *space = working_value(working, units->temperature, around);
    work(working, "Its coldest surface, cooling", SOURCE_FILMS, units->temperature, wall->coldest,
         "Tsurface = Ts - (Ts - T) x Rout / R = %s - (%s - %s) x %s / %s", space, space,
         working_value(working, units->temperature, wall->coldest_air),
         working_value(working, units->resistance, outside),
         working_value(working, units->resistance, wall->coldest_wall));
    double humidity = section->run->settings.location_humidity;
    if (!(wall->dew_point > 0)) {
        work_given(working, "Dew point of the space", SOURCE_NONE, "not known: the job gives no humidity there");
        return;
    }
    if (section->run->settings.location_dew_point > 0) {
        work_given(working, "Dew point of the space, as the job gives it", SOURCE_NONE, "Tdew = %s",
                   working_text(working, units->temperature, wall->dew_point));
        return;
    }
    const struct working_unit celsius = {"C", 1, ZERO_CELSIUS};
    double dew = wall->dew_point - ZERO_CELSIUS, t = around - ZERO_CELSIUS,
           g = MAGNUS_SLOPE * dew / (MAGNUS_OFFSET + dew);
    work(working, "Dew point of the space, an auxiliary", SOURCE_DEW_POINT, working_plain, g,
         "g = ln(humidity) + k1 x t / (k2 + t) = ln(%s) + %g x %s / (%g + %s)", working_number(working, humidity),
         MAGNUS_SLOPE, working_number(working, t), MAGNUS_OFFSET, working_number(working, t));
    work(working, "Dew point of the space", SOURCE_DEW_POINT, celsius, wall->dew_point,
         "Tdew = k2 x g / (k1 - g) = %g x %s / (%g - %s)", MAGNUS_OFFSET, working_number(working, g), MAGNUS_SLOPE,
         working_number(working, g));
    if (working->job->system == MEASURE_US)
        work(working, "In the other scale", SOURCE_NONE, units->temperature, wall->dew_point,
             "Tdew = 1.8 x Tdew + 32 = 1.8 x %s + 32", working_value(working, celsius, wall->dew_point));
}

static void explain_temperatures(struct working *working, const struct section *section) {
    const struct heat_section *wall = &section->run->unit->network->heat->sections[section->id];
    const char *capacity = NULL;
    for (int season = 0; season < HEAT_SEASON_COUNT; season++) {
        explain_meeting(working, section, (enum heat_season)season);
        if (!(wall->air[season].out > 0) || !(wall->conductance > 0))
            continue;
        if (!capacity) {
            explain_wall(working, section);
            capacity = explain_capacity(working, section->flow);
        }
        explain_passing(working, arena_format(working->arena, "%s, the air at its end", explain_seasons[season]),
                        section, &wall->air[season], capacity);
    }
    explain_surface(working, section, wall);
}

void explain_section_heat(struct working *working, const struct section *section) {
    const struct network *network = section->run->unit->network;
    if (!(section->flow > 0) || !network->heat)
        return;
    explain_temperatures(working, section);
}

/* ---- An outlet --------------------------------------------------------------------------------------------------- */

static void explain_lost(struct working *working, const struct section *end, const struct heat_arrival *arrival,
                         enum heat_season season) {
    const struct working_units *units = working->units;
    const struct network *network = end->run->unit->network;
    const char *leaves = working_value(working, units->temperature, heat_leaves(network->unit, season));
    const char *arrives = working_value(working, units->temperature, arrival->temperature);
    double capacity = working->job->air.density * working->job->air.specific_heat * end->flow;
    bool warms = season == HEAT_SUMMER;
    work(working, arena_format(working->arena, "%s, lost on the way", explain_seasons[season]), SOURCE_DUCT_HEAT,
         units->heat, arrival->lost, "q = mc x (%s) = %s x (%s - %s)", warms ? "T - T0" : "T0 - T",
         working_value(working, units->conductance, capacity), warms ? arrives : leaves, warms ? leaves : arrives);
    if (isnan(arrival->share))
        return;
    work(working, arena_format(working->arena, "%s, share of its capacity lost on the way", explain_seasons[season]),
         SOURCE_NONE, working_plain, arrival->share, "(T - T0) / (Troom - T0) = (%s - %s) / (%s - %s)", arrives, leaves,
         working_value(working, units->temperature, heat_room(network->unit, season)), leaves);
}

void explain_arrival(struct working *working, const struct path *path, size_t index) {
    const struct network *network = path->end->run->unit->network;
    if (!network->heat || !path->end->run->supply)
        return;
    for (int season = 0; season < HEAT_SEASON_COUNT; season++) {
        const struct heat_arrival *arrival = &network->heat->outlets[index][season];
        if (!(arrival->temperature > 0))
            continue;
        if (season == HEAT_SUMMER || !(network->heat->outlets[index][HEAT_SUMMER].temperature > 0))
            document_heading(working->document, 2, "Temperature");
        work_given(
            working, arena_format(working->arena, "%s, leaves the unit at", explain_seasons[season]), SOURCE_NONE,
            "T0 = %s",
            working_text(working, working->units->temperature, heat_leaves(network->unit, (enum heat_season)season)));
        const struct section **way = explain_outward(working, path);
        for (const struct section *at = *way; at; at = *++way)
            work_given(
                working, arena_format(working->arena, "at the end of %s", explain_place(working, at)), SOURCE_NONE,
                "T = %s",
                working_text(working, working->units->temperature, network->heat->sections[at->id].air[season].out));
        explain_lost(working, path->end, arrival, (enum heat_season)season);
    }
}

/* ---- A unit ------------------------------------------------------------------------------------------------------ */

/* What the return ducts add to the load; 0 where it is not known. */
static double explain_return(struct working *working, const struct network *network, enum heat_season season) {
    const struct working_units *units = working->units;
    const struct heat_total *total = &network->heat->total[season];
    if (!(total->returns > 0))
        return 0;
    bool warms = season == HEAT_SUMMER;
    const char *back = working_value(working, units->temperature, total->returns);
    const char *room = working_value(working, units->temperature, heat_room(network->unit, season));
    work_given(working, "Comes back to the unit at", SOURCE_DUCT_HEAT, "Tback = %s, as the working of %s has it",
               working_text(working, units->temperature, total->returns), network->unit->return_run->name);
    const char *capacity = explain_capacity(working, network->unit->return_run->first_section->flow);
    work(working, arena_format(working->arena, "%s, what the return adds", explain_seasons[season]), SOURCE_DUCT_HEAT,
         units->heat, total->return_lost, "qreturn = mc x (%s) = %s x (%s - %s)",
         warms ? "Tback - Troom" : "Troom - Tback", capacity, warms ? back : room, warms ? room : back);
    return total->return_lost;
}

/* Both, of what the airflow brings to the rooms. */
static void explain_whole(struct working *working, const struct network *network, enum heat_season season,
                          double back) {
    const struct working_units *units = working->units;
    const struct heat_total *total = &network->heat->total[season];
    const struct air *air = &working->job->air;
    double leaves = heat_leaves(network->unit, season), room = heat_room(network->unit, season), flow = 0;
    for (size_t p = 0; p < network->supply_paths.count; p++)
        flow += network->supply_paths.at[p].end->flow;
    double brings = air->density * air->specific_heat * flow * fabs(room - leaves);
    const char *capacity = explain_capacity(working, flow);
    work(working, arena_format(working->arena, "%s, what the airflow would bring", explain_seasons[season]),
         SOURCE_SENSIBLE_HEAT, units->heat, brings, "qall = mc x abs(Troom - T0) = %s x abs(%s - %s)", capacity,
         working_value(working, units->temperature, room), working_value(working, units->temperature, leaves));
    work(working, arena_format(working->arena, "%s, share of it lost", explain_seasons[season]), SOURCE_NONE,
         working_plain, total->share, "(q + qreturn) / qall = (%s + %s) / %s",
         working_value(working, units->heat, total->lost), working_value(working, units->heat, back),
         working_value(working, units->heat, brings));
}

static void explain_season(struct working *working, const struct network *network, enum heat_season season) {
    const struct working_units *units = working->units;
    const struct heat_total *total = &network->heat->total[season];
    if (!total->known)
        return;
    struct working_sum lost = {0};
    for (size_t p = 0; p < network->supply_paths.count; p++)
        *list_add(working->arena, &lost.terms) = network->heat->outlets[p][season].lost;
    work_sum(working, arena_format(working->arena, "%s, lost on the way to all outlets", explain_seasons[season]), "q",
             units->heat, &lost);
    double back = explain_return(working, network, season);
    if (!isnan(total->share))
        explain_whole(working, network, season, back);
}

void explain_unit_heat(struct working *working, const struct network *network) {
    if (!network->heat || (!network->heat->total[HEAT_SUMMER].known && !network->heat->total[HEAT_WINTER].known))
        return;
    document_heading(working->document, 2, "Heat");
    for (int season = 0; season < HEAT_SEASON_COUNT; season++)
        explain_season(working, network, (enum heat_season)season);
}
