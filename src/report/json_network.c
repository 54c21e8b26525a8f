/* Units, ducts, sections, items and paths as data. */
#include "report/json_network.h"

#include <math.h>

#include "model/item_words.h"
#include "report/json_heat.h"
#include "report/json_operation.h"

/* NULL: not given. */
static void put_place(struct json *json, json_t *object, const char *key, const double *position) {
    if (!position) {
        put_null(json, object, key);
        return;
    }
    json_t *array = put_array(json, object, key);
    for (int axis = 0; axis < 3; axis++)
        add_real(json, array, position[axis]);
}

/* ---- The unit itself --------------------------------------------------------------------------------------------- */

static void put_points(struct json *json, json_t *object, const char *key, const struct blower_point *at,
                       size_t count) {
    json_t *points = put_array(json, object, key);
    for (size_t i = 0; i < count; i++) {
        json_t *point = add_object(json, points);
        put_real(json, point, "flow_m3_s", at[i].flow);
        put_real(json, point, "pressure_Pa", at[i].pressure);
    }
}

/* The curve in use, and where the unit has several, all of them. */
static void put_blower(struct json *json, json_t *object, const struct air_unit *unit) {
    put_points(json, object, "blower", unit->blower.at, unit->blower.count);
    if (!unit->speed || !unit->speed->name)
        return;
    put_text(json, object, "speed", unit->speed->name);
    put_bool(json, object, "speed_given", unit->speed_wanted != NULL);
    json_t *speeds = put_array(json, object, "speeds");
    for (size_t i = 0; i < unit->speeds.count; i++) {
        const struct blower_speed *speed = &unit->speeds.at[i];
        json_t *inner = add_object(json, speeds);
        put_text(json, inner, "name", speed->name);
        put_points(json, inner, "points", speed->points.at, speed->points.count);
        put_bool(json, inner, "tried", speed->tried);
        if (speed->tried && speed->known)
            put_real(json, inner, "surplus_Pa", speed->surplus);
        else
            put_null(json, inner, "surplus_Pa");
    }
}

static void put_drops(struct json *json, json_t *object, const struct air_unit *unit) {
    json_t *drops = put_array(json, object, "drops");
    for (size_t i = 0; i < unit->drops.count; i++) {
        const struct drop *drop = &unit->drops.at[i];
        json_t *inner = add_object(json, drops);
        put_text(json, inner, "label", drop->label);
        put_real(json, inner, "pressure_Pa", drop->pressure);
        put_given(json, inner, "at_flow_m3_s", drop->flow);
        if (drop->loaded > 0)
            put_real(json, inner, "loaded_Pa", drop->loaded);
        put_real(json, inner, "actual_Pa", drop->actual);
    }
}

static void write_equipment(struct json *json, const struct air_unit *unit) {
    json_t *object = json_begin(json, "equipment");
    put_text(json, object, "name", unit->name);
    put_text(json, object, "title", unit->title);
    put_span(json, object, unit->at);
    put_bool(json, object, "faulty", unit->faulty);
    put_real(json, object, "airflow_m3_s", unit->airflow);
    put_bool(json, object, "airflow_given", unit->airflow_given);
    put_given(json, object, "cooling_W", unit->cooling);
    put_given(json, object, "heating_W", unit->heating);
    put_given(json, object, "supply_air_K", unit->supply_air);
    put_given(json, object, "room_air_K", unit->room_air);
    put_given(json, object, "heating_air_K", unit->heating_air);
    put_given(json, object, "heating_room_K", unit->heating_room);
    put_size_as(json, object, "supply_collar", unit->supply);
    put_size_as(json, object, "return_collar", unit->return_);
    put_place(json, object, "supply_at_m", unit->position_given ? unit->position : NULL);
    put_text(json, object, "supply_faces", unit->faces);
    put_text(json, object, "front", unit->front);
    put_place(json, object, "return_at_m", unit->return_position_given ? unit->return_position : NULL);
    put_text(json, object, "return_faces", unit->return_faces);
    put_blower(json, object, unit);
    put_drops(json, object, unit);
    json_end(json);
}

/* ---- Ducts ------------------------------------------------------------------------------------------------------- */

static void write_duct(struct json *json, const struct duct *duct) {
    json_t *object = json_begin(json, NULL);
    put_count(json, object, "id", duct->id);
    put_text(json, object, "run", duct->run->name);
    if (duct->upstream)
        put_count(json, object, "upstream", duct->upstream->id);
    else
        put_null(json, object, "upstream");
    put_size(json, object, duct->size);
    put_given(json, object, "lining_m", duct->lining);
    put_text(json, object, "reason", size_reason_name(duct->reason));
    put_bool(json, object, "fixed", duct->fixed);
    put_bool(json, object, "leg_start", duct->leg_start);
    put_given(json, object, "equivalent_diameter_m", duct->equivalent_diameter);
    put_given(json, object, "hydraulic_diameter_m", duct->hydraulic_diameter);
    put_given(json, object, "area_m2", duct->area);
    put_given(json, object, "aspect", duct->aspect);
    put_real(json, object, "flow_m3_s", duct->flow);
    put_real(json, object, "length_m", duct->length);
    put_real(json, object, "roughness_m", duct->roughness);
    put_real(json, object, "friction_multiplier", duct->friction_multiplier);
    json_end(json);
}

/* ---- Sections and their items ------------------------------------------------------------------------------------ */

static void put_item(struct json *json, json_t *object, const struct section *section, const struct item *item,
                     enum measure_system system) {
    const struct loss *loss = &item->loss;
    put_text(json, object, "role", item_role_name(item->role));
    put_text(json, object, "kind", item->piece ? item->piece->kind->form.word : NULL);
    put_text(json, object, "words", item_words(section, item, system, json->arena));
    if (item->length > 0)
        put_real(json, object, "length_m", item->length);
    if (item->tapped)
        put_text(json, object, "tapped", item->tapped->name);
    put_real(json, object, "loss_Pa", loss->pressure);
    put_real(json, object, "friction_Pa", loss->friction);
    bool has = loss->reference_name != NULL;
    put_real(json, object, "coefficient", has ? loss->coefficient : NAN);
    put_real(json, object, "reference_Pa", has ? loss->reference : NAN);
    put_text(json, object, "reference", loss->reference_name);
    if (loss->source != SOURCE_NONE)
        put_text(json, object, "source", source_name(loss->source));
    if (loss->factor_source != SOURCE_NONE)
        put_text(json, object, "factor_source", source_name(loss->factor_source));
    if (loss->outside)
        put_text(json, object, "outside", loss->outside);
}

static void write_section(struct json *json, const struct section *section, enum measure_system system) {
    json_t *object = json_begin(json, NULL);
    put_count(json, object, "id", section->id);
    if (section->parent)
        put_count(json, object, "parent", section->parent->id);
    else
        put_null(json, object, "parent");
    put_text(json, object, "run", section->run->name);
    put_count(json, object, "duct", section->duct->id);
    put_text(json, object, "terminal", section->terminal ? section->terminal->name : NULL);
    put_real(json, object, "flow_m3_s", section->flow);
    put_real(json, object, "velocity_m_s", section->velocity);
    put_real(json, object, "station_m", section->station);
    put_real(json, object, "length_m", section->length);
    put_real(json, object, "friction_rate_Pa_m", section->friction_rate);
    put_real(json, object, "loss_Pa", section->loss);
    put_real(json, object, "loss_to_unit_Pa", section->loss_to_unit);
    json_section_heat(json, object, section);
    json_t *items = put_array(json, object, "items");
    for (size_t i = 0; i < section->items.count; i++)
        put_item(json, add_object(json, items), section, &section->items.at[i], system);
    json_end(json);
}

/* ---- Paths and the budget ---------------------------------------------------------------------------------------- */

static const char *terminal_of(const struct path *path) {
    return path && path->end->terminal ? path->end->terminal->name : NULL;
}

static void write_path(struct json *json, const struct path *path, bool blower_known) {
    json_t *object = json_begin(json, NULL);
    put_text(json, object, "terminal", terminal_of(path));
    put_count(json, object, "end_section", path->end->id);
    put_real(json, object, "loss_Pa", path->loss);
    put_real(json, object, "total_Pa", path->total);
    if (blower_known)
        put_real(json, object, "surplus_Pa", path->surplus);
    else
        put_null(json, object, "surplus_Pa");
    put_text(json, object, "damper_in", path->damper ? path->damper->run->name : NULL);
    json_end(json);
}

/* How a search over all sizes at once went; null: the method makes none. */
static void put_search(struct json *json, json_t *object, const struct size_search *search) {
    if (!search->made) {
        put_null(json, object, "search");
        return;
    }
    json_t *inner = put_object(json, object, "search");
    put_bool(json, inner, "met", search->met);
    put_given(json, inner, "short_by_Pa", search->short_by);
    put_given(json, inner, "bound", search->bound);
    put_given(json, inner, "resolution_Pa", search->resolution);
    put_count(json, inner, "sizes", search->sizes);
    put_count(json, inner, "sizes_left_out", search->left_out);
}

static void put_sizing(struct json *json, json_t *object, const struct network *network) {
    put_given(json, object, "regain", network->regain);
    put_given(json, object, "velocity_share", network->velocity_share);
    put_real(json, object, "walls_m2", network->walls_area);
    if (json->discreet && network->walls_in_money)
        put_null(json, object, "walls_cost");
    else
        put_real(json, object, "walls_cost", network->walls_cost);
    put_text(json, object, "walls_cost_in", network->walls_in_money ? "money" : "kg");
    put_search(json, object, &network->search);
}

static void write_budget(struct json *json, const struct network *network) {
    bool known = network->blower_known;
    json_t *object = json_begin(json, "budget");
    put_real(json, object, "supply_flow_m3_s", network->supply_flow);
    put_real(json, object, "return_flow_m3_s", network->return_flow);
    put_given(json, object, "friction_rate_Pa_m", network->friction_rate);
    put_count(json, object, "rounds", (size_t)network->rounds);
    put_text(json, object, "rate_note", network->rate_note);
    put_sizing(json, object, network);
    put_bool(json, object, "blower_known", known);
    put_given(json, object, "blower_Pa", known ? network->blower_pressure : 0);
    put_real(json, object, "system_Pa", network->system_pressure);
    put_real(json, object, "unit_drops_Pa", network->unit_drops);
    put_text(json, object, "governing_supply", terminal_of(network->governing_supply));
    put_text(json, object, "governing_return", terminal_of(network->governing_return));
    if (known)
        put_real(json, object, "surplus_Pa", network->surplus);
    else
        put_null(json, object, "surplus_Pa");
    json_end(json);
}

/* ---- What is read at start-up ------------------------------------------------------------------------------------ */

static const char *const test_names[] = {
    [TEST_COLLAR] = "collar", [TEST_RUN_START] = "run-start", [TEST_RUN_END] = "run-end",
    [TEST_FACE] = "filter",   [TEST_DROP] = "drop",           [TEST_UNIT] = "unit",
};

static void write_test_point(struct json *json, const struct test_point *point) {
    bool difference = point->kind == TEST_FACE || point->kind == TEST_DROP || point->kind == TEST_UNIT;
    bool of_unit = point->kind == TEST_DROP || point->kind == TEST_UNIT;
    json_t *object = json_begin(json, NULL);
    put_text(json, object, "kind", test_names[point->kind]);
    put_text(json, object, "side", of_unit ? NULL : point->supply ? "supply" : "return");
    put_text(json, object, "run", point->run ? point->run->name : NULL);
    put_real(json, object, "station_m", point->station);
    put_text(json, object, "drop", point->drop ? point->drop->label : NULL);
    put_bool(json, object, "difference", difference);
    put_real(json, object, "total_Pa", point->total);
    put_real(json, object, "velocity_pressure_Pa", point->velocity_pressure);
    put_real(json, object, "expected_Pa", point->expected);
    put_real(json, object, "operating_Pa", point->operating);
    json_end(json);
}

static void write_curve(struct json *json, const char *key, const struct blower_point *points, size_t count) {
    json_open(json, key, '[');
    for (size_t i = 0; i < count; i++) {
        json_t *object = json_begin(json, NULL);
        put_real(json, object, "flow_m3_s", points[i].flow);
        put_real(json, object, "pressure_Pa", points[i].pressure);
        json_end(json);
    }
    json_close(json, ']');
}

static void write_start_up(struct json *json, const struct network *network) {
    json_open(json, "test_points", '[');
    for (size_t i = 0; i < network->test_points.count; i++)
        write_test_point(json, &network->test_points.at[i]);
    json_close(json, ']');
    write_curve(json, "blower_curve", network->blower_curve.at, network->blower_curve.count);
    write_curve(json, "system_curve", network->system_curve.at, network->system_curve.count);
}

static void write_network(struct json *json, const struct network *network, enum measure_system system) {
    write_budget(json, network);
    json_open(json, "ducts", '[');
    for (size_t i = 0; i < network->ducts.count; i++)
        write_duct(json, network->ducts.at[i]);
    json_close(json, ']');
    json_open(json, "sections", '[');
    for (size_t i = 0; i < network->sections.count; i++)
        write_section(json, network->sections.at[i], system);
    json_close(json, ']');
    json_open(json, "supply_paths", '[');
    for (size_t i = 0; i < network->supply_paths.count; i++)
        write_path(json, &network->supply_paths.at[i], network->blower_known);
    json_close(json, ']');
    json_open(json, "return_paths", '[');
    for (size_t i = 0; i < network->return_paths.count; i++)
        write_path(json, &network->return_paths.at[i], network->blower_known);
    json_close(json, ']');
    write_start_up(json, network);
    json_heat(json, network);
    json_operation(json, network);
}

void json_unit(struct json *json, const struct job *job, const struct air_unit *unit) {
    json_open(json, NULL, '{');
    write_equipment(json, unit);
    if (unit->network)
        write_network(json, unit->network, job->system);
    json_close(json, '}');
}
