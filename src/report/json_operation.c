/* What will really flow, as data. */
#include "report/json_operation.h"

#include <math.h>

#include "air/operation.h"
#include "base/constant.h"

static const char *const outcome_names[OPERATES_OUTCOMES] = {
    [OPERATES] = "found",
    [OPERATES_NO_CURVE] = "no-curve",
    [OPERATES_BEYOND] = "beyond",
    [OPERATES_SHORT_OF] = "short-of",
    [OPERATES_UNSETTLED] = "unsettled",
};

static const char *const setting_names[] = {
    [SETTING_OPEN] = "open",           [SETTING_BLADE] = "blade", [SETTING_TOO_FAR] = "too-far",
    [SETTING_NO_DAMPER] = "no-damper", [SETTING_NONE] = "none",
};

static void put_sections(struct json *json, json_t *object, const struct operating_point *point, size_t count) {
    if (!point->sections) {
        put_null(json, object, "section_flows_m3_s");
        return;
    }
    json_t *flows = put_array(json, object, "section_flows_m3_s");
    for (size_t i = 0; i < count; i++)
        add_real(json, flows, point->sections[i]);
}

static void write_point(struct json *json, const char *key, const struct operating_point *point, size_t count) {
    json_t *object = json_begin(json, key);
    put_text(json, object, "outcome", outcome_names[point->outcome]);
    bool found = point->sections != NULL;
    put_real(json, object, "flow_m3_s", found ? point->flow : NAN);
    put_real(json, object, "blower_Pa", found ? point->pressure : NAN);
    put_real(json, object, "unit_drops_Pa", found ? point->drops : NAN);
    put_real(json, object, "supply_Pa", found ? point->supply : NAN);
    put_real(json, object, "return_Pa", found ? point->back : NAN);
    if (found)
        put_count(json, object, "backward", point->backward);
    else
        put_null(json, object, "backward");
    put_real(json, object, "closure_Pa", found ? point->closure : NAN);
    put_count(json, object, "steps", (size_t)point->steps);
    put_sections(json, object, point, count);
    json_end(json);
}

static void put_flow(struct json *json, json_t *object, const char *key, const struct operating_point *point,
                     const struct path *path) {
    if (point->sections)
        put_real(json, object, key, operating_flow(point, path));
    else
        put_null(json, object, key);
}

static void write_terminal(struct json *json, const struct operation *operation, const struct path *path,
                           const struct damper_setting *setting) {
    json_t *object = json_begin(json, NULL);
    put_text(json, object, "terminal", path->end->terminal ? path->end->terminal->name : NULL);
    put_real(json, object, "design_m3_s", path->end->flow);
    put_flow(json, object, "open_m3_s", &operation->dampers_open, path);
    put_flow(json, object, "set_m3_s", &operation->balanced, path);
    if (operation->dirty_known)
        put_flow(json, object, "dirty_m3_s", &operation->balanced_dirty, path);
    put_text(json, object, "setting", setting_names[setting->kind]);
    bool set = setting->section && setting->kind != SETTING_NONE;
    if (set)
        put_count(json, object, "damper_section", setting->section->id);
    else
        put_null(json, object, "damper_section");
    put_real(json, object, "coefficient", set ? setting->coefficient : NAN);
    put_real(json, object, "blade_from_open_deg", set ? setting->blade / DEGREE : NAN);
    json_end(json);
}

void json_operation(struct json *json, const struct network *network) {
    const struct operation *operation = network->operation;
    if (!operation)
        return;
    size_t count = network->sections.count;
    json_open(json, "operation", '{');
    write_point(json, "open", &operation->dampers_open, count);
    write_point(json, "set", &operation->balanced, count);
    if (operation->dirty_known)
        write_point(json, "dirty", &operation->balanced_dirty, count);
    json_open(json, "supply", '[');
    for (size_t i = 0; i < network->supply_paths.count; i++)
        write_terminal(json, operation, &network->supply_paths.at[i], &operation->supply_settings[i]);
    json_close(json, ']');
    json_open(json, "return", '[');
    for (size_t i = 0; i < network->return_paths.count; i++)
        write_terminal(json, operation, &network->return_paths.at[i], &operation->return_settings[i]);
    json_close(json, ']');
    json_close(json, '}');
}
