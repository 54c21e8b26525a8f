/* Everything about a job as data: docs/json.md is its description.  Figures are SI, unrounded; keys name their unit. */
#include "report/basis.h"
#include "report/formats.h"

#include <stdlib.h>

#include "cost/takeoff.h"
#include "model/item_words.h"
#include "model/piece.h"
#include "model/words.h"
#include "report/json_estimates.h"
#include "report/json_metal.h"
#include "report/json_price.h"
#include "report/json_route.h"
#include "report/json_network.h"
#include "report/json_stream.h"
#include "report/json_takeoff.h"
#include "report/report.h"

/* Raised when a key changes its meaning or goes. */
enum { SCHEMA_VERSION = 3 };

/* Optional: only where something other than the default was said. */
static void put_settings(struct json *json, json_t *object, const struct settings *settings) {
    put_text(json, object, "shape", settings->shape_set ? shape_name(settings->shape) : NULL);
    put_given(json, object, "limit_height_m", settings->limit_height);
    put_given(json, object, "limit_width_m", settings->limit_width);
    put_given(json, object, "limit_velocity_m_s", settings->limit_velocity);
    put_text(json, object, "material", material_name(settings->material));
    put_given(json, object, "gauge", settings->gauge);
    put_given(json, object, "insulation_m2K_W", settings->insulation);
    put_given(json, object, "lining_m", settings->lining);
    put_text(json, object, "seal", settings->seal_set ? seal_name(settings->seal) : NULL);
    put_given(json, object, "pressure_class_Pa", settings->pressure_class);
    put_text(json, object, "seam", settings->seam_set ? seam_name(settings->seam) : NULL);
    put_text(json, object, "joint", settings->joint_set ? joint_name(settings->joint) : NULL);
    put_text(json, object, "place", settings->location_set ? location_name(settings->location) : NULL);
    put_given(json, object, "place_temperature_K", settings->location_temperature);
    put_given(json, object, "place_winter_K", settings->location_winter);
    put_given(json, object, "place_humidity", settings->location_humidity);
    put_given(json, object, "place_dew_point_K", settings->location_dew_point);
    if (settings->location_minimum_set)
        put_real(json, object, "place_minimum_m2K_W", settings->location_minimum);
    else
        put_null(json, object, "place_minimum_m2K_W");
    put_given(json, object, "place_height_m", settings->location_height);
    put_real(json, object, "clearance_m", settings->clearance);
    put_given(json, object, "headroom_m", settings->headroom);
    put_real(json, object, "headroom_over_m", settings->floor);
}

static void put_texts(struct json *json, json_t *object, const char *key, const char *const *texts, size_t count) {
    json_t *array = put_array(json, object, key);
    for (size_t i = 0; i < count; i++)
        add_text(json, array, texts[i]);
}

static void put_reals(struct json *json, json_t *object, const char *key, const double *numbers, size_t count) {
    json_t *array = put_array(json, object, key);
    for (size_t i = 0; i < count; i++)
        add_real(json, array, numbers[i]);
}

static void write_job(struct json *json, const struct job *job) {
    json_t *object = json_begin(json, "job");
    put_text(json, object, "title", job->title);
    put_text(json, object, "customer", job->customer);
    put_text(json, object, "location", job->location);
    put_text(json, object, "revision", job->revision);
    put_text(json, object, "date", job->date);
    put_text(json, object, "units", system_name(job->system));
    put_given(json, object, "valid_days", job->valid_days);
    put_texts(json, object, "includes", job->includes.at, job->includes.count);
    put_texts(json, object, "excludes", job->excludes.at, job->excludes.count);
    put_texts(json, object, "notes", job->notes.at, job->notes.count);
    put_texts(json, object, "assumes", job->assumes.at, job->assumes.count);
    put_texts(json, object, "terms", job->terms.at, job->terms.count);
    put_text(json, object, "sizing_asked", job->sizing);
    put_text(json, object, "sizing_used", job->sizing_used);
    put_given(json, object, "friction_rate_asked_Pa_m", job->friction_rate);
    put_settings(json, put_object(json, object, "settings"), &job->settings);
    json_end(json);
}

static void write_air(struct json *json, const struct air *air) {
    json_t *object = json_begin(json, "air");
    put_real(json, object, "altitude_m", air->altitude);
    put_real(json, object, "temperature_K", air->temperature);
    put_real(json, object, "pressure_Pa", air->pressure);
    put_real(json, object, "density_kg_m3", air->density);
    put_real(json, object, "density_ratio", air->density_ratio);
    put_real(json, object, "viscosity_Pa_s", air->viscosity);
    put_real(json, object, "specific_heat_J_kgK", air->specific_heat);
    json_end(json);
}

/* ---- How the papers show a figure -------------------------------------------------------------------------------- */

static const char *const use_names[MEASURE_USE_COUNT] = {
    [SHOW_SIZE] = "size",
    [SHOW_RUN] = "run",
    [SHOW_FLOW] = "flow",
    [SHOW_PRESSURE] = "pressure",
    [SHOW_FRICTION] = "friction",
    [SHOW_VELOCITY] = "velocity",
    [SHOW_AREA] = "area",
    [SHOW_COOLING] = "cooling",
    [SHOW_HEAT] = "heat",
    [SHOW_DENSITY] = "density",
    [SHOW_TEMPERATURE] = "temperature",
    [SHOW_ALTITUDE] = "altitude",
    [SHOW_RESISTANCE] = "resistance",
    [SHOW_CUT] = "cut",
    [SHOW_WEIGHT] = "weight",
};

static void write_shown(struct json *json, enum measure_system system) {
    json_t *object = json_begin(json, "shown_in");
    for (size_t i = 0; i < MEASURE_USE_COUNT; i++) {
        if (!use_names[i]) /* of lines to type in: no figure of the job is shown so */
            continue;
        const struct measure_show *show = measure_show(system, (enum measure_use)i);
        json_t *use = put_object(json, object, use_names[i]);
        put_text(json, use, "unit", show->unit);
        put_count(json, use, "decimals", (size_t)show->decimals);
        put_given(json, use, "parts", show->parts);
        put_real(json, use, "factor", show->factor);
        put_real(json, use, "offset", show->offset);
    }
    json_end(json);
}

/* ---- Shop -------------------------------------------------------------------------------------------------------- */

/* What was said of them; `null` where it was not. */
static void put_allowance(struct json *json, json_t *object, const char *key, bool given, double length) {
    if (given)
        put_real(json, object, key, length);
    else
        put_text(json, object, key, NULL);
}

static void put_seams(struct json *json, json_t *object, const struct shop *shop) {
    json_t *seams = put_array(json, object, "seams");
    for (size_t i = 0; i < shop->seams.count; i++) {
        const struct shop_seam *seam = &shop->seams.at[i];
        json_t *item = add_object(json, seams);
        put_text(json, item, "seam", seam_name(seam->kind));
        put_allowance(json, item, "pocket_m", seam->pocket_given, seam->pocket);
        put_allowance(json, item, "flange_m", seam->flange_given, seam->flange);
    }
    json_t *connections = put_array(json, object, "connections");
    for (size_t i = 0; i < shop->connections.count; i++) {
        const struct shop_connection *connection = &shop->connections.at[i];
        json_t *item = add_object(json, connections);
        put_text(json, item, "joint", joint_name(connection->kind));
        put_allowance(json, item, "end_m", connection->end_given, connection->end);
    }
}

static void write_shop(struct json *json, const struct shop *shop) {
    json_t *object = json_begin(json, "shop");
    put_text(json, object, "name", shop->name);
    put_texts(json, object, "contacts", shop->contacts.at, shop->contacts.count);
    put_text(json, object, "licence", shop->licence);
    put_texts(json, object, "terms", shop->terms.at, shop->terms.count);
    put_reals(json, object, "round_sizes_m", shop->round_sizes.at, shop->round_sizes.count);
    put_reals(json, object, "rectangular_sides_m", shop->widths.at, shop->widths.count);
    put_reals(json, object, "oval_lesser_sides_m", shop->oval_heights.at, shop->oval_heights.count);
    json_t *assumed = put_object(json, object, "sizes_assumed");
    for (size_t i = 0; i < SHAPE_COUNT; i++)
        put_bool(json, assumed, shape_name((enum shape)i), shop->sizes_assumed[i]);
    put_given(json, object, "joint_length_m", shop->joint_length);
    put_text(json, object, "trunk_shape", shape_name(shop->trunk_shape));
    put_text(json, object, "runout_shape", shape_name(shop->runout_shape));
    put_given(json, object, "aspect_limit", shop->aspect_limit);
    put_given(json, object, "flex_stretch", shop->flex_stretch);
    put_count(json, object, "stack", (size_t)shop->stack);
    put_count(json, object, "stations", (size_t)shop->stations);
    put_given(json, object, "notch_m", shop->notch);
    put_real(json, object, "bend_deduction_m", shop->bend_deduction);
    put_real(json, object, "hang_every_m", shop->hang_every);
    put_real(json, object, "hang_below_m", shop->hang_below);
    put_seams(json, object, shop);
    json_end(json);
}

/* ---- Runs -------------------------------------------------------------------------------------------------------- */

static const char *const port_names[] = {
    [PORT_NONE] = "none", [PORT_UNIT] = "unit", [PORT_END] = "end", [PORT_TAP] = "tap", [PORT_LEG] = "leg",
};

static const char *const role_names[] = {
    [RUN_DUCT] = "run",
    [RUN_OUTLET] = "outlet",
    [RUN_INLET] = "inlet",
};

static void put_port(struct json *json, json_t *object, const struct port *port) {
    put_text(json, object, "kind", port_names[port->kind]);
    put_text(json, object, "name", port->name);
    put_text(json, object, "leg", port->leg_name);
    if (port->kind != PORT_TAP)
        return;
    put_real(json, object, "station_m", port->station);
    put_bool(json, object, "station_about", port->station_about);
    put_text(json, object, "side", side_name(port->side));
}

static void put_piece(struct json *json, json_t *object, const struct piece *piece, enum measure_system system) {
    put_text(json, object, "kind", piece->kind->form.word);
    put_text(json, object, "words", piece_words(piece, system, json->arena));
    put_bool(json, object, "implied", piece->implied);
    put_real(json, object, "station_m", piece->station);
    put_real(json, object, "length_m", piece->length);
    if (piece->at.text)
        put_count(json, object, "line", text_place(piece->at.text, piece->at.begin).line);
}

static void write_run(struct json *json, const struct run *run, enum measure_system system) {
    json_t *object = json_begin(json, NULL);
    put_text(json, object, "name", run->name);
    put_text(json, object, "title", run->title);
    put_text(json, object, "role", role_names[run->role]);
    put_span(json, object, run->at);
    put_bool(json, object, "faulty", run->faulty);
    put_text(json, object, "unit", run->unit ? run->unit->name : NULL);
    put_text(json, object, "side", !run->unit ? NULL : run->supply ? "supply" : "return");
    put_port(json, put_object(json, object, "from"), &run->from);
    put_text(json, object, "room", run->room);
    put_given(json, object, "airflow_m3_s", run->airflow);
    put_bool(json, object, "airflow_given", run->airflow_given);
    put_given(json, object, "load_W", run->load);
    put_given(json, object, "difference_K", run->difference);
    if (run->difference > 0)
        put_bool(json, object, "difference_assumed", run->difference_assumed);
    put_real(json, object, "length_m", run->length);
    put_settings(json, put_object(json, object, "settings"), &run->settings);
    json_t *pieces = put_array(json, object, "pieces");
    for (size_t i = 0; i < run->pieces.count; i++)
        put_piece(json, add_object(json, pieces), run->pieces.at[i], system);
    json_end(json);
}

static void write_runs(struct json *json, const struct job *job) {
    json_open(json, "runs", '[');
    for (size_t i = 0; i < job->runs.count; i++)
        write_run(json, job->runs.at[i], job->system);
    json_close(json, ']');
}

/* ---- What is declared besides ------------------------------------------------------------------------------------ */

static void write_alternates(struct json *json, const struct job *job) {
    json_open(json, "alternates", '[');
    for (size_t i = 0; i < job->alternates.count; i++) {
        const struct alternate *alternate = job->alternates.at[i];
        json_t *object = json_begin(json, NULL);
        put_text(json, object, "name", alternate->name);
        put_text(json, object, "title", alternate->title);
        json_t *runs = put_array(json, object, "runs");
        for (size_t k = 0; k < alternate->runs.count; k++)
            add_text(json, runs, alternate->runs.at[k]->name);
        json_offer(json, object, alternate);
        json_end(json);
    }
    json_close(json, ']');
}

static void write_obstacles(struct json *json, const struct job *job) {
    json_open(json, "obstacles", '[');
    for (size_t i = 0; i < job->obstacles.count; i++) {
        const struct obstacle *obstacle = job->obstacles.at[i];
        json_t *object = json_begin(json, NULL);
        put_text(json, object, "title", obstacle->title);
        put_reals(json, object, "low_m", obstacle->low, 3);
        put_reals(json, object, "high_m", obstacle->high, 3);
        json_end(json);
    }
    json_close(json, ']');
}

static void write_acceptances(struct json *json, const struct job *job) {
    json_open(json, "acceptances", '[');
    for (size_t i = 0; i < job->acceptances.count; i++) {
        const struct acceptance *acceptance = job->acceptances.at[i];
        json_t *object = json_begin(json, NULL);
        put_text(json, object, "check", acceptance->check);
        put_text(json, object, "name", acceptance->name);
        put_text(json, object, "because", acceptance->because);
        put_bool(json, object, "used", acceptance->used);
        json_end(json);
    }
    json_close(json, ']');
}

/* ---- What was found ---------------------------------------------------------------------------------------------- */

static void write_checks(struct json *json, const struct job *job) {
    json_open(json, "checks", '[');
    for (size_t i = 0; i < job->checks.count; i++) {
        json_t *object = json_begin(json, NULL);
        put_text(json, object, "name", job->checks.at[i].name);
        put_count(json, object, "looked_at", job->checks.at[i].looked_at);
        put_count(json, object, "warned", job->checks.at[i].warned);
        put_count(json, object, "accepted", job->checks.at[i].accepted);
        json_end(json);
    }
    json_close(json, ']');
}

static void write_diagnostic_list(struct json *json, const struct diagnostics *diagnostics) {
    for (size_t i = 0; i < diagnostics->all.count; i++) {
        put_diagnostic(json, json_begin(json, NULL), diagnostics->all.at[i]);
        json_end(json);
    }
}

static void write_diagnostics(struct json *json, const struct diagnostics *diagnostics) {
    json_count(json, "errors", diagnostics->error_count);
    json_count(json, "warnings", diagnostics->warning_count);
    json_open(json, "diagnostics", '[');
    write_diagnostic_list(json, diagnostics);
    json_close(json, ']');
}

static void write_sources(struct json *json, const struct job *job) {
    bool used[SOURCE_COUNT] = {false};
    basis_mark(job, BASIS_ALL, used);
    json_open(json, "sources", '[');
    for (enum source_id id = SOURCE_NONE + 1; id < SOURCE_COUNT; id++) {
        if (!used[id])
            continue;
        json_t *object = json_begin(json, NULL);
        put_text(json, object, "id", source_name(id));
        put_text(json, object, "method", source_of(id)->method);
        put_text(json, object, "text", source_of(id)->text);
        put_text(json, object, "trace", source_of(id)->trace);
        put_text(json, object, "known", source_known_words(source_of(id)->known));
        json_end(json);
    }
    json_close(json, ']');
}

static void write_units(struct json *json, const struct job *job) {
    json_open(json, "units", '[');
    for (size_t i = 0; i < job->units.count; i++)
        json_unit(json, job, job->units.at[i]);
    json_close(json, ']');
}

/* ---- The whole --------------------------------------------------------------------------------------------------- */

struct whole {
    const struct job *job;
    bool discreet;
};

static void write_all(struct json *json, const void *what) {
    const struct whole *whole = what;
    const struct job *job = whole->job;
    json->discreet = whole->discreet;
    json_open(json, NULL, '{');
    json_count(json, "schema", SCHEMA_VERSION);
    write_job(json, job);
    write_air(json, &job->air);
    write_shown(json, job->system);
    write_shop(json, &job->shop);
    write_units(json, job);
    write_runs(json, job);
    json_metal(json, job);
    json_takeoff(json, job);
    json_price(json, job);
    json_route(json, job);
    write_obstacles(json, job);
    write_alternates(json, job);
    json_estimates(json, job);
    write_acceptances(json, job);
    write_checks(json, job);
    write_diagnostics(json, job->diagnostics);
    write_sources(json, job);
    json_close(json, '}');
    output_text(json->out, "\n");
}

bool json_write_job(const struct job *job, bool discreet, const struct arena_source *memory, struct output *out) {
    const struct whole whole = {job, discreet};
    return json_stream(out, memory, write_all, &whole);
}

static void write_diagnostics_alone(struct json *json, const void *what) {
    json_open(json, NULL, '[');
    write_diagnostic_list(json, what);
    json_close(json, ']');
    output_text(json->out, "\n");
}

void report_diagnostics_json(const struct diagnostics *diagnostics, FILE *file) {
    struct output *out = output_open_memory();
    if (!out)
        return;
    if (!json_stream(out, NULL, write_diagnostics_alone, diagnostics)) {
        output_abandon(out);
        return;
    }
    size_t length;
    char *bytes = output_take_memory(out, &length);
    if (bytes)
        fwrite(bytes, 1, length, file);
    free(bytes);
}
