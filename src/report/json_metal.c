/* Parts with every vertex, in space and flat, so that they can be checked from outside. */
#include "report/json_metal.h"

#include "metal/metal.h"
#include "model/item_words.h"
#include "model/words.h"
#include "report/shop.h"

/* ---- Points ------------------------------------------------------------------------------------------------------ */

static void add_flat(struct json *json, json_t *array, struct flat at) {
    add_real(json, array, at.x);
    add_real(json, array, at.y);
}

static void add_space(struct json *json, json_t *array, struct space at) {
    add_real(json, array, at.x);
    add_real(json, array, at.y);
    add_real(json, array, at.z);
}

static void put_flat(struct json *json, json_t *object, const char *key, struct flat at) {
    add_flat(json, put_array(json, object, key), at);
}

static void put_space(struct json *json, json_t *object, const char *key, struct space at) {
    add_space(json, put_array(json, object, key), at);
}

static void put_flats(struct json *json, json_t *object, const char *key, const struct flat *points, size_t count) {
    json_t *array = put_array(json, object, key);
    for (size_t i = 0; i < count; i++)
        add_flat(json, add_array(json, array), points[i]);
}

static void put_spaces(struct json *json, json_t *object, const char *key, const struct space *points, size_t count) {
    json_t *array = put_array(json, object, key);
    for (size_t i = 0; i < count; i++)
        add_space(json, add_array(json, array), points[i]);
}

static void put_index(struct json *json, json_t *object, const char *key, int index) {
    if (index < 0)
        put_null(json, object, key);
    else
        put_count(json, object, key, (size_t)index);
}

/* ---- The solid --------------------------------------------------------------------------------------------------- */

static const char *const join_names[] = {
    [JOIN_BEND] = "bend", [JOIN_SMOOTH] = "smooth", [JOIN_SEAM] = "seam", [JOIN_PORT] = "port", [JOIN_FREE] = "free",
};

static const char *const edge_names[] = {
    [EDGE_LINE] = "line",
    [EDGE_ARC] = "arc",
    [EDGE_CURVE] = "curve",
};

static const char *const port_uses[] = {
    [PORT_USE_DUCT] = "duct",
    [PORT_USE_FACE] = "face",
    [PORT_USE_BASE] = "base",
    [PORT_USE_BRANCH] = "branch",
};

static void put_arc(struct json *json, json_t *object, enum edge_shape shape, struct flat centre, double radius,
                    double sweep) {
    put_text(json, object, "shape", edge_names[shape]);
    if (shape != EDGE_ARC)
        return;
    put_flat(json, object, "centre_m", centre);
    put_real(json, object, "radius_m", radius);
    put_real(json, object, "sweep_rad", sweep);
}

static void put_port(struct json *json, json_t *object, const struct solid_port *port) {
    put_text(json, object, "name", port->name);
    put_text(json, object, "use", port_uses[port->use]);
    put_text(json, object, "shape", shape_name(port->size.shape));
    put_real(json, object, "width_m", port->size.width);
    put_real(json, object, "height_m", port->size.height);
    put_space(json, object, "middle_m", port->frame.origin);
    put_space(json, object, "right", port->frame.right);
    put_space(json, object, "along", port->frame.along);
    put_space(json, object, "up", port->frame.up);
}

static void put_edge(struct json *json, json_t *object, const struct solid_edge *edge) {
    put_arc(json, object, edge->shape, edge->centre, edge->radius, edge->sweep);
    put_text(json, object, "name", edge->name);
    put_text(json, object, "join", join_names[edge->join]);
    put_index(json, object, "port", edge->join == JOIN_PORT ? edge->port : NO_PORT);
    put_bool(json, object, "pocket", edge->pocket);
    put_index(json, object, "mate_panel", edge->mate_panel);
    put_index(json, object, "mate_edge", edge->mate_edge);
    put_spaces(json, object, "space_m", edge->space, edge->count);
    put_flats(json, object, "flat_m", edge->flat, edge->count);
}

static void put_round(struct json *json, json_t *object, bool round, struct flat middle, double radius) {
    put_bool(json, object, "round", round);
    if (!round)
        return;
    put_flat(json, object, "middle_m", middle);
    put_real(json, object, "radius_m", radius);
}

static void put_panel(struct json *json, json_t *object, const struct solid_panel *panel) {
    put_text(json, object, "name", panel->name);
    put_text(json, object, "kind", panel->kind == PANEL_PLANE ? "plane" : "rolled");
    put_real(json, object, "area_m2", panel_area(panel));
    put_real(json, object, "chord_error_m", panel->chord_error);
    json_t *edges = put_array(json, object, "edges");
    for (size_t i = 0; i < panel->edges.count; i++)
        put_edge(json, add_object(json, edges), &panel->edges.at[i]);
    json_t *openings = put_array(json, object, "openings");
    for (size_t i = 0; i < panel->openings.count; i++) {
        const struct opening *opening = &panel->openings.at[i];
        json_t *item = add_object(json, openings);
        put_text(json, item, "name", opening->name);
        put_round(json, item, opening->round, opening->middle, opening->radius);
        put_spaces(json, item, "space_m", opening->space, opening->count);
        put_flats(json, item, "flat_m", opening->flat, opening->count);
    }
}

static void put_solid(struct json *json, json_t *object, const struct solid *solid) {
    put_real(json, object, "chord_error_m", solid_chord_error(solid));
    json_t *ports = put_array(json, object, "ports");
    for (size_t i = 0; i < solid->ports.count; i++)
        put_port(json, add_object(json, ports), &solid->ports.at[i]);
    json_t *panels = put_array(json, object, "panels");
    for (size_t i = 0; i < solid->panels.count; i++)
        put_panel(json, add_object(json, panels), &solid->panels.at[i]);
}

/* ---- Blanks ------------------------------------------------------------------------------------------------------ */

static const char *const allowance_names[] = {
    [ALLOW_NONE] = "none",     [ALLOW_POCKET] = "pocket", [ALLOW_FLANGE] = "flange", [ALLOW_END] = "end",
    [ALLOW_TURNED] = "turned", [ALLOW_FACE] = "face",     [ALLOW_TABS] = "tabs",
};

static const char *const turn_names[] = {[TURN_FLAT] = "flat", [TURN_IN] = "in", [TURN_OUT] = "out"};

static const char *notch_shape(const struct blank_edge *edge) {
    if (!(edge->start_cut > 0) && !(edge->end_cut > 0))
        return NULL;
    return edge->notch_vee ? "vee" : "square";
}

static void put_blank_edge(struct json *json, json_t *object, const struct blank_edge *edge) {
    put_arc(json, object, edge->shape, edge->centre, edge->radius, edge->sweep);
    put_index(json, object, "panel", edge->panel);
    put_index(json, object, "edge", edge->edge);
    put_text(json, object, "join", join_names[edge->join]);
    put_index(json, object, "port", edge->join == JOIN_PORT ? edge->port : NO_PORT);
    put_text(json, object, "allowance", allowance_names[edge->kind]);
    put_real(json, object, "allowance_m", edge->allowance);
    put_text(json, object, "turn", edge->allowance > 0 ? turn_names[edge->turn] : NULL);
    put_real(json, object, "start_cut_m", edge->start_cut);
    put_real(json, object, "end_cut_m", edge->end_cut);
    put_real(json, object, "notch_depth_m", edge->start_cut > 0 || edge->end_cut > 0 ? edge->notch_depth : 0);
    put_text(json, object, "notch_shape", notch_shape(edge));
    put_text(json, object, "label", edge->label);
    put_flats(json, object, "points_m", edge->points, edge->count);
}

static void put_lines(struct json *json, json_t *object, const struct blank *blank) {
    json_t *bends = put_array(json, object, "bends");
    for (size_t i = 0; i < blank->bends.count; i++) {
        const struct blank_bend *bend = &blank->bends.at[i];
        json_t *item = add_object(json, bends);
        put_flat(json, item, "from_m", bend->from);
        put_flat(json, item, "to_m", bend->to);
        put_real(json, item, "angle_rad", bend->angle);
        put_text(json, item, "name", bend->name);
    }
    json_t *rulings = put_array(json, object, "rulings");
    for (size_t i = 0; i < blank->rulings.count; i++) {
        json_t *item = add_object(json, rulings);
        put_flat(json, item, "from_m", blank->rulings.at[i].from);
        put_flat(json, item, "to_m", blank->rulings.at[i].to);
    }
}

static void put_reliefs(struct json *json, json_t *object, const struct blank *blank) {
    json_t *reliefs = put_array(json, object, "reliefs");
    for (size_t i = 0; i < blank->reliefs.count; i++) {
        json_t *item = add_object(json, reliefs);
        put_flat(json, item, "from_m", blank->reliefs.at[i].from);
        put_flat(json, item, "to_m", blank->reliefs.at[i].to);
    }
}

static void put_blank_openings(struct json *json, json_t *object, const struct blank *blank) {
    json_t *openings = put_array(json, object, "openings");
    for (size_t i = 0; i < blank->openings.count; i++) {
        const struct blank_opening *opening = &blank->openings.at[i];
        json_t *item = add_object(json, openings);
        put_text(json, item, "name", opening->name);
        put_round(json, item, opening->round, opening->middle, opening->radius);
        put_flats(json, item, "points_m", opening->points, opening->count);
    }
}

static void put_marks(struct json *json, json_t *object, const struct blank *blank) {
    put_text(json, object, "marks_from", shop_marks_from(blank));
    json_t *marks = put_array(json, object, "marks");
    for (size_t i = 0; i < blank->marks.count; i++) {
        const struct blank_mark *mark = &blank->marks.at[i];
        json_t *item = add_object(json, marks);
        put_text(json, item, "kind", mark->kind == LINE_SEAM ? "seam" : "bend");
        put_real(json, item, "at_m", mark->at);
        put_real(json, item, "angle_rad", mark->kind == LINE_SEAM ? NAN : mark->angle);
    }
}

static void put_blank(struct json *json, json_t *object, const struct blank *blank) {
    put_text(json, object, "letter", blank->letter);
    put_text(json, object, "name", blank->name);
    put_count(json, object, "quantity", blank->quantity);
    put_count(json, object, "opposite", blank->opposite);
    put_real(json, object, "width_m", blank->width);
    put_real(json, object, "height_m", blank->height);
    put_real(json, object, "net_area_m2", blank->net_area);
    put_real(json, object, "cut_area_m2", blank->cut_area);
    json_t *panels = put_array(json, object, "panels");
    for (size_t i = 0; i < blank->panels.count; i++) {
        json_t *item = add_object(json, panels);
        put_index(json, item, "panel", blank->panels.at[i].panel);
        put_flat(json, item, "origin_m", blank->panels.at[i].origin);
        put_real(json, item, "turn_rad", blank->panels.at[i].turn);
    }
    json_t *edges = put_array(json, object, "edges");
    for (size_t i = 0; i < blank->edges.count; i++)
        put_blank_edge(json, add_object(json, edges), &blank->edges.at[i]);
    put_flats(json, object, "cut_m", blank->cut, blank->cut_count);
    put_lines(json, object, blank);
    put_reliefs(json, object, blank);
    put_marks(json, object, blank);
    put_blank_openings(json, object, blank);
}

/* ---- Parts ------------------------------------------------------------------------------------------------------- */

static void put_use(struct json *json, json_t *object, const struct part_use *use, enum measure_system system) {
    put_text(json, object, "run", use->run->name);
    put_text(json, object, "piece", use->piece ? piece_words(use->piece, system, json->arena) : NULL);
    put_real(json, object, "station_m", use->station);
    put_real(json, object, "length_m", use->length);
    put_bool(json, object, "about", use->about);
    put_text(json, object, "note", use->note);
}

static void put_sheet(struct json *json, json_t *object, const struct part *part) {
    put_text(json, object, "material", material_name(part->material));
    put_index(json, object, "gauge", part->gauge ? part->gauge : -1);
    put_text(json, object, "gauge_source", part->gauge_source ? source_name(part->gauge_source) : NULL);
    put_given(json, object, "pressure_class_Pa", part->pressure_class);
    put_given(json, object, "lining_m", part->lining);
    put_index(json, object, "gauge_needed", part->gauge_needed ? part->gauge_needed : -1);
    put_bool(json, object, "gauge_thin", part->gauge_thin);
    put_bool(json, object, "cross_break", part->cross_break);
    put_bool(json, object, "reinforce", part->reinforce);
    put_text(json, object, "seam", seam_name(part->seam));
    put_text(json, object, "joint_near", part->joined[0] ? joint_name(part->joints[0]) : NULL);
    put_text(json, object, "joint_far", part->joined[1] ? joint_name(part->joints[1]) : NULL);
    put_real(json, object, "area_m2", part->area);
    put_real(json, object, "weight_kg", part->weight);
    put_count(json, object, "stack", part->stack);
    put_given(json, object, "finished_length_m", part->finished_length);
}

static void write_part(struct json *json, const struct part *part, enum measure_system system) {
    json_t *object = json_begin(json, NULL);
    put_count(json, object, "number", part->number);
    put_text(json, object, "title", part->title);
    put_text(json, object, "shape", part->shape);
    put_sheet(json, object, part);
    json_t *notes = put_array(json, object, "notes");
    for (size_t i = 0; i < part->notes.count; i++)
        add_text(json, notes, part->notes.at[i]);
    for (size_t i = 0; i < part->solid->notes.count; i++)
        add_text(json, notes, part->solid->notes.at[i]);
    json_t *uses = put_array(json, object, "uses");
    for (size_t i = 0; i < part->uses.count; i++)
        put_use(json, add_object(json, uses), &part->uses.at[i], system);
    put_solid(json, object, part->solid);
    json_t *blanks = put_array(json, object, "blanks");
    for (size_t i = 0; i < part->blanks.count; i++)
        put_blank(json, add_object(json, blanks), &part->blanks.at[i]);
    json_end(json);
}

static void write_strip(struct json *json, const struct made_strip *strip) {
    json_t *object = json_begin(json, NULL);
    put_text(json, object, "name", strip->name);
    put_real(json, object, "length_m", strip->length);
    put_real(json, object, "width_m", strip->width);
    put_count(json, object, "count", strip->count);
    put_count(json, object, "gauge", (size_t)strip->gauge);
    put_text(json, object, "material", material_name(strip->material));
    put_given(json, object, "holes_apart_m", strip->apart);
    put_given(json, object, "tab_m", strip->rule ? strip->rule->tab : 0);
    json_t *folds = put_array(json, object, "folds");
    for (size_t i = 0; strip->rule && i < strip->rule->fold_count; i++) {
        json_t *fold = add_object(json, folds);
        put_real(json, fold, "at_m", strip->rule->folds[i].at);
        put_real(json, fold, "angle_rad", strip->rule->folds[i].angle);
    }
    json_end(json);
}

static void write_bought(struct json *json, const struct bought *bought) {
    json_t *object = json_begin(json, NULL);
    put_text(json, object, "title", bought->title);
    put_text(json, object, "item", bought->item);
    put_text(json, object, "key", bought->key);
    put_count(json, object, "count", bought->count);
    put_given(json, object, "length_m", bought->length);
    json_t *runs = put_array(json, object, "runs");
    for (size_t i = 0; i < bought->pieces.count; i++)
        add_text(json, runs, bought->pieces.at[i]->run->name);
    json_end(json);
}

void json_metal(struct json *json, const struct job *job) {
    static const struct metal nothing;
    const struct metal *metal = job->metal ? job->metal : &nothing;
    json_open(json, "metal", '{');
    json_open(json, "parts", '[');
    for (size_t i = 0; i < metal->parts.count; i++)
        write_part(json, metal->parts.at[i], job->system);
    json_close(json, ']');
    json_open(json, "strips", '[');
    for (size_t i = 0; i < metal->strips.count; i++)
        write_strip(json, &metal->strips.at[i]);
    json_close(json, ']');
    json_open(json, "bought", '[');
    for (size_t i = 0; i < metal->bought.count; i++)
        write_bought(json, &metal->bought.at[i]);
    json_close(json, ']');
    json_t *total = json_begin(json, "total");
    put_real(json, total, "area_m2", metal->area);
    put_real(json, total, "weight_kg", metal->weight);
    put_real(json, total, "chord_error_m", metal->chord_error);
    json_end(json);
    json_nest(json, job);
    json_close(json, '}');
}
