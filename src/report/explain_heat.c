/* What passes through the walls of a section, what it leaks, and what that comes to. */
#include <math.h>

#include "air/heat.h"
#include "air/leakage.h"
#include "base/constant.h"
#include "report/explain.h"

static const char *const season_words[HEAT_SEASON_COUNT] = {[HEAT_SUMMER] = "Cooling", [HEAT_WINTER] = "Heating"};

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
static const char *explain_capacity(struct working *working, const struct section *section) {
    const struct working_units *units = working->units;
    const struct air *air = &working->job->air;
    double capacity = air->density * air->specific_heat * section->flow;
    const char *factor = working->job->system == MEASURE_METRIC ? " / 1000" : " x 60";
    work(working, "Heat that its airflow carries for each degree", SOURCE_SENSIBLE_HEAT, units->conductance, capacity,
         "mc = rho x Q x cp%s = %s x %s x %s%s", factor, working_value(working, units->density, air->density),
         working_value(working, units->flow, section->flow),
         working_value(working, units->capacity, air->specific_heat), factor);
    return working_value(working, units->conductance, capacity);
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
    const struct working_unit celsius = {"C", 1, 273.15};
    double t = around - 273.15, g = log(humidity) + 17.62 * t / (243.12 + t);
    work(working, "Dew point of the space, an auxiliary", SOURCE_NONE, working_plain, g,
         "g = ln(humidity) + 17.62 x t / (243.12 + t) = ln(%s) + 17.62 x %s / (243.12 + %s)",
         working_number(working, humidity), working_number(working, t), working_number(working, t));
    work(working, "Dew point of the space", SOURCE_DEW_POINT, celsius, wall->dew_point,
         "Tdew = 243.12 x g / (17.62 - g) = 243.12 x %s / (17.62 - %s)", working_number(working, g),
         working_number(working, g));
    if (working->job->system == MEASURE_US)
        work(working, "In the other scale", SOURCE_NONE, units->temperature, wall->dew_point,
             "Tdew = 1.8 x Tdew + 32 = 1.8 x %s + 32", working_value(working, celsius, wall->dew_point));
}

static void explain_temperatures(struct working *working, const struct section *section) {
    const struct heat_section *wall = &section->run->unit->network->heat->sections[section->id];
    const char *capacity = NULL;
    for (int season = 0; season < HEAT_SEASON_COUNT; season++) {
        if (!(wall->air[season].out > 0) || !(wall->conductance > 0))
            continue;
        if (!capacity) {
            explain_wall(working, section);
            capacity = explain_capacity(working, section);
        }
        explain_passing(working, arena_format(working->arena, "%s, the air at its end", season_words[season]), section,
                        &wall->air[season], capacity);
    }
    explain_surface(working, section, wall);
}

/* ---- Leakage ----------------------------------------------------------------------------------------------------- */

static void explain_leak(struct working *working, const struct section *section) {
    const struct working_units *units = working->units;
    const struct network *network = section->run->unit->network;
    const struct leakage_section *at = &network->leakage->sections[section->id];
    const struct path *worst = section->run->supply ? network->governing_supply : network->governing_return;
    if (!(at->surface > 0) || !worst)
        return;
    double lost = (at->lost[0] + at->lost[1]) / 2;
    work(working, "Lost between the unit and the middle of its wall", SOURCE_NONE, units->pressure, lost,
         "hto = (hstart + hend) / 2 = (%s + %s) / 2", working_value(working, units->pressure, at->lost[0]),
         working_value(working, units->pressure, at->lost[1]));
    const char *first = working_value(working, units->pressure, section->run->supply ? worst->loss : lost);
    const char *second = working_value(working, units->pressure, section->run->supply ? lost : worst->loss);
    work(working, "Static pressure there", SOURCE_STATIC_PRESSURE, units->pressure, at->static_pressure,
         section->run->supply ? "ps = hworst - hto - pv = %s - %s - %s" : "ps = hto - hworst - pv = %s - %s - %s",
         first, second,
         working_value(working, units->pressure, air_velocity_pressure(&working->job->air, section->velocity)));
    const char *class_ = working_number(working, at->leakage_class);
    const char *pressure = working_value(working, units->pressure, fabs(at->static_pressure));
    const char *surface = working_value(working, units->area, at->surface);
    if (working->job->system == MEASURE_US)
        work(working, "Leakage", SOURCE_LEAKAGE, units->flow, at->leaks,
             "q = CL x ps^0.65 x A / 100 = %s x %s^0.65 x %s / 100", class_, pressure, surface);
    else
        work(working, "Leakage, by the class in cfm and in. w.g.", SOURCE_LEAKAGE, units->flow, at->leaks,
             "q = CL x (ps / 248.84)^0.65 x A x 0.471947 / 9.2903 = %s x (%s / 248.84)^0.65 x %s x 0.471947 / 9.2903",
             class_, pressure, surface);
}

void explain_section_heat(struct working *working, const struct section *section) {
    const struct network *network = section->run->unit->network;
    if (!(section->flow > 0) || !network->heat || !network->leakage)
        return;
    explain_temperatures(working, section);
    explain_leak(working, section);
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
    work(working, arena_format(working->arena, "%s, lost on the way", season_words[season]), SOURCE_DUCT_HEAT,
         units->heat, arrival->lost, "q = mc x (%s) = %s x (%s - %s)", warms ? "T - T0" : "T0 - T",
         working_value(working, units->conductance, capacity), warms ? arrives : leaves, warms ? leaves : arrives);
    if (isnan(arrival->share))
        return;
    work(working, arena_format(working->arena, "%s, share of its capacity lost on the way", season_words[season]),
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
            working, arena_format(working->arena, "%s, leaves the unit at", season_words[season]), SOURCE_NONE,
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

static void explain_season(struct working *working, const struct network *network, enum heat_season season) {
    const struct working_units *units = working->units;
    const struct heat_total *total = &network->heat->total[season];
    if (!total->known)
        return;
    struct working_sum lost = {0};
    for (size_t p = 0; p < network->supply_paths.count; p++)
        *list_add(working->arena, &lost.terms) = network->heat->outlets[p][season].lost;
    work_sum(working, arena_format(working->arena, "%s, lost on the way to all outlets", season_words[season]), "q",
             units->heat, &lost);
    if (total->returns > 0)
        work_given(working, "What the return adds", SOURCE_DUCT_HEAT, "q = %s",
                   working_text(working, units->heat, total->return_lost));
    if (!isnan(total->share))
        work_given(working, "Both, of what the airflow brings to the rooms", SOURCE_NONE, "%s %%",
                   working_number(working, total->share * 100));
}

void explain_unit_heat(struct working *working, const struct network *network) {
    const struct working_units *units = working->units;
    const struct leakage *leakage = network->leakage;
    if (!network->heat || !leakage)
        return;
    document_heading(working->document, 2, "Heat and leakage");
    for (int season = 0; season < HEAT_SEASON_COUNT; season++)
        explain_season(working, network, (enum heat_season)season);
    work(working, "Leakage of all sections, supply and return", SOURCE_LEAKAGE, units->flow,
         leakage->supply + leakage->back, "q = qsupply + qreturn = %s + %s",
         working_value(working, units->flow, leakage->supply), working_value(working, units->flow, leakage->back));
    if (network->unit->airflow > 0)
        work(working, "Its share of the airflow", SOURCE_NONE, working_plain, leakage->share, "q / Q = %s / %s",
             working_value(working, units->flow, leakage->supply + leakage->back),
             working_value(working, units->flow, network->unit->airflow));
    work_given(working, "It may be", leakage->limit_assumed ? SOURCE_LEAKAGE_LIMIT : SOURCE_NONE, "%s",
               working_number(working, leakage->limit));
}
