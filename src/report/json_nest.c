/* The nest as JSON: what is cut, the sheets, and each way of cutting one with its blanks, cuts and offcuts. */
#include "metal/nest.h"

#include "model/words.h"
#include "report/json_metal.h"
#include "report/shop.h"

static void put_region(struct json *json, json_t *object, const struct nest_node *node) {
    put_real(json, object, "x_m", nest_metres(node->x));
    put_real(json, object, "y_m", nest_metres(node->y));
    put_real(json, object, "length_m", nest_metres(node->length));
    put_real(json, object, "width_m", nest_metres(node->width));
}

static void put_cut(struct json *json, json_t *object, const struct nest_node *node) {
    put_region(json, object, node);
    put_text(json, object, "way", node->across ? "across" : "lengthwise");
    put_real(json, object, "at_m", nest_metres(node->at));
}

static void put_layout(struct json *json, json_t *object, const struct job *job, const struct nest_group *group,
                       const struct nest_layout *layout) {
    put_count(json, object, "stock", layout->sheet);
    put_count(json, object, "times", layout->times);
    json_t *blanks = put_array(json, object, "blanks"), *cuts = put_array(json, object, "cuts");
    json_t *offcuts = put_array(json, object, "offcuts");
    for (size_t i = 0; i < layout->nodes.count; i++) {
        const struct nest_node *node = &layout->nodes.at[i];
        if (node->kind == NEST_CUT) {
            put_cut(json, add_object(json, cuts), node);
            continue;
        }
        json_t *region = add_object(json, node->kind == NEST_BLANK ? blanks : offcuts);
        put_region(json, region, node);
        if (node->kind == NEST_BLANK) {
            put_text(json, region, "name", shop_nest_name(json->arena, job, &group->pieces.at[node->rectangle]));
            put_count(json, region, "piece", node->rectangle);
            put_bool(json, region, "turned", node->turned);
        } else {
            put_bool(json, region, "kept", node->kind == NEST_KEPT);
        }
    }
}

static void put_stock(struct json *json, json_t *object, const struct nest_stock *stock) {
    json_t *size = put_array(json, object, "size_m");
    add_real(json, size, stock->sheet->sides[0]);
    add_real(json, size, stock->sheet->sides[1]);
    put_count(json, object, "sheets", stock->count);
    put_real(json, object, "area_m2", stock->area);
}

static void put_piece(struct json *json, json_t *object, const struct job *job, const struct nest_piece *piece) {
    put_text(json, object, "name", shop_nest_name(json->arena, job, piece));
    put_real(json, object, "length_m", piece->length);
    put_real(json, object, "width_m", piece->width);
    put_count(json, object, "count", piece->count);
    put_count(json, object, "unplaced", piece->unplaced);
}

static void put_sums(struct json *json, json_t *object, const struct nest_group *group) {
    const struct nest_solution *solution = group->solution;
    put_count(json, object, "sheets", group->sheets);
    put_count(json, object, "blanks", group->blanks);
    put_count(json, object, "unplaced", group->unplaced);
    put_real(json, object, "sheet_area_m2", group->sheet_area);
    put_real(json, object, "blank_area_m2", group->blank_area);
    put_real(json, object, "metal_area_m2", group->metal_area);
    put_real(json, object, "kept_area_m2", group->kept_area);
    put_count(json, object, "kept", group->kept_count);
    put_real(json, object, "waste", group->waste);
    put_real(json, object, "scrap", group->scrap);
    put_count(json, object, "fewest_by_area", solution->area_bound);
    put_count(json, object, "fewest", solution->sheet_bound);
    put_real(json, object, "cost_over_bound",
             solution->cost_bound ? (double)solution->cost / (double)solution->cost_bound - 1 : 0);
}

static void write_group(struct json *json, const struct job *job, const struct nest_group *group) {
    json_open(json, NULL, '{');
    json_t *sums = json_begin(json, "total");
    put_count(json, sums, "gauge", (size_t)group->gauge);
    put_text(json, sums, "material", material_name(group->material));
    put_bool(json, sums, "stock_assumed", group->stock_assumed);
    put_bool(json, sums, "stock_borrowed", group->stock_borrowed);
    put_bool(json, sums, "by_price", group->by_price);
    put_sums(json, sums, group);
    json_end(json);
    json_open(json, "stock", '[');
    for (size_t i = 0; i < group->stock.count; i++) {
        put_stock(json, json_begin(json, NULL), &group->stock.at[i]);
        json_end(json);
    }
    json_close(json, ']');
    json_open(json, "pieces", '[');
    for (size_t i = 0; i < group->pieces.count; i++) {
        put_piece(json, json_begin(json, NULL), job, &group->pieces.at[i]);
        json_end(json);
    }
    json_close(json, ']');
    json_open(json, "layouts", '[');
    for (size_t i = 0; i < group->solution->layouts.count; i++) {
        put_layout(json, json_begin(json, NULL), job, group, &group->solution->layouts.at[i]);
        json_end(json);
    }
    json_close(json, ']');
    json_close(json, '}');
}

void json_nest(struct json *json, const struct job *job) {
    const struct nest *nest = job->metal ? job->metal->nest : NULL;
    json_open(json, "nest", '{');
    json_t *asked = json_begin(json, "asked");
    json_t *keep = put_array(json, asked, "keep_m");
    for (int side = 0; nest && side < 2; side++)
        add_real(json, keep, nest->keep[side]);
    put_bool(json, asked, "keep_assumed", nest && nest->keep_assumed);
    put_bool(json, asked, "grain", nest && nest->grain);
    json_end(json);
    json_open(json, "groups", '[');
    for (size_t i = 0; nest && i < nest->groups.count; i++)
        write_group(json, job, &nest->groups.at[i]);
    json_close(json, ']');
    json_close(json, '}');
}
