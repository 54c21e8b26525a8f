/* What passes through the walls of ducts, and what leaks, as data. */
#include "report/json_heat.h"

#include "air/heat.h"
#include "air/leakage.h"

static const char *const season_names[HEAT_SEASON_COUNT] = {[HEAT_SUMMER] = "summer", [HEAT_WINTER] = "winter"};

/* ---- A section --------------------------------------------------------------------------------------------------- */

static void put_wall(struct json *json, json_t *object, const struct heat_section *wall) {
    json_t *inner = put_object(json, object, "heat");
    put_real(json, inner, "surface_m2", wall->surface);
    put_real(json, inner, "conductance_W_K", wall->conductance);
    if (wall->insulation < 0)
        put_null(json, inner, "insulation_m2K_W");
    else
        put_real(json, inner, "insulation_m2K_W", wall->insulation);
    for (int season = 0; season < HEAT_SEASON_COUNT; season++) {
        json_t *air = put_object(json, inner, season_names[season]);
        put_given(json, air, "around_K", wall->air[season].around);
        put_given(json, air, "in_K", wall->air[season].in);
        put_given(json, air, "out_K", wall->air[season].out);
    }
    put_given(json, inner, "dew_point_K", wall->dew_point);
    put_given(json, inner, "coldest_surface_K", wall->coldest);
}

static void put_leak(struct json *json, json_t *object, const struct leakage_section *at) {
    json_t *inner = put_object(json, object, "leakage");
    put_real(json, inner, "class", at->leakage_class);
    put_real(json, inner, "static_pressure_Pa", at->static_pressure);
    put_real(json, inner, "leaks_m3_s", at->leaks);
}

void json_section_heat(struct json *json, json_t *object, const struct section *section) {
    const struct network *network = section->run->unit ? section->run->unit->network : NULL;
    if (network && network->heat)
        put_wall(json, object, &network->heat->sections[section->id]);
    if (network && network->leakage)
        put_leak(json, object, &network->leakage->sections[section->id]);
}

/* ---- A unit ------------------------------------------------------------------------------------------------------ */

static void write_season(struct json *json, const struct network *network, enum heat_season season) {
    const struct heat_total *total = &network->heat->total[season];
    json_open(json, season_names[season], '{');
    json_t *object = json_begin(json, "total");
    put_bool(json, object, "known", total->known);
    put_given(json, object, "leaves_K", heat_leaves(network->unit, season));
    put_given(json, object, "room_K", heat_room(network->unit, season));
    put_real(json, object, "lost_W", total->lost);
    put_given(json, object, "returns_K", total->returns);
    put_real(json, object, "return_lost_W", total->return_lost);
    put_real(json, object, "share", total->share);
    json_end(json);
    json_open(json, "outlets", '[');
    for (size_t p = 0; p < network->supply_paths.count; p++) {
        const struct heat_arrival *arrival = &network->heat->outlets[p][season];
        object = json_begin(json, NULL);
        put_text(json, object, "terminal", network->supply_paths.at[p].end->terminal->name);
        put_given(json, object, "arrives_K", arrival->temperature);
        put_real(json, object, "lost_W", arrival->lost);
        put_real(json, object, "share", arrival->share);
        json_end(json);
    }
    json_close(json, ']');
    json_close(json, '}');
}

static void write_leakage(struct json *json, const struct leakage *leakage) {
    json_t *object = json_begin(json, "leakage");
    put_real(json, object, "surface_m2", leakage->surface);
    put_real(json, object, "supply_m3_s", leakage->supply);
    put_real(json, object, "return_m3_s", leakage->back);
    put_real(json, object, "outside_m3_s", leakage->outside);
    put_real(json, object, "share", leakage->share);
    put_real(json, object, "limit", leakage->limit);
    put_bool(json, object, "limit_assumed", leakage->limit_assumed);
    put_real(json, object, "built_for_Pa", leakage->built_for);
    json_t *tests = put_array(json, object, "tests");
    for (size_t t = 0; t < leakage->tests; t++) {
        json_t *test = add_object(json, tests);
        put_real(json, test, "pressure_Pa", leakage->test[t].pressure);
        put_real(json, test, "allowed_m3_s", leakage->test[t].allowed);
    }
    json_end(json);
}

void json_heat(struct json *json, const struct network *network) {
    if (network->heat) {
        json_open(json, "heat", '{');
        for (int season = 0; season < HEAT_SEASON_COUNT; season++)
            write_season(json, network, (enum heat_season)season);
        json_close(json, '}');
    }
    if (network->leakage)
        write_leakage(json, network->leakage);
}
