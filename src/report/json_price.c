/* Prices in the JSON; of one for the customer the sums alone.  Amounts are whole cents, quantities whole thousandths,
 * percentages whole millionths, prices and rates whole ten-thousandths: all exact. */
#include "report/json_price.h"

#include "cost/offer.h"
#include "cost/price.h"
#include "model/shape.h"
#include "model/words.h"

static const char *const step_keys[] = {
    [STEP_MATERIAL] = "material",
    [STEP_TAX_MATERIAL] = "tax_on_material",
    [STEP_LABOUR] = "labour",
    [STEP_TAX_LABOUR] = "tax_on_labour",
    [STEP_BURDEN] = "burden",
    [STEP_FIXED] = "fixed",
    [STEP_SUBCONTRACT] = "subcontract",
    [STEP_DIRECT] = "direct",
    [STEP_OVERHEAD] = "overhead",
    [STEP_CONTINGENCY] = "contingency",
    [STEP_COST] = "cost",
    [STEP_PROFIT] = "profit",
    [STEP_SUBCONTRACT_APART] = "subcontract_apart",
    [STEP_SUBCONTRACT_MARKUP] = "subcontract_markup",
    [STEP_BOND] = "bond",
    [STEP_BEFORE_ROUNDING] = "before_rounding",
    [STEP_ROUNDING] = "rounding",
    [STEP_PRICE] = "price",
    [STEP_TAX_PRICE] = "tax_on_price",
    [STEP_TOTAL] = "total",
};

static void write_line(struct json *json, const struct priced_line *line) {
    json_t *object = json_begin(json, NULL);
    put_text(json, object, "title", line->line->title);
    put_bool(json, object, "priced", line->priced);
    put_text(json, object, "by", line->key);
    put_text(json, object, "unit", line->unit);
    put_whole(json, object, "bought_thousandths", line->bought);
    put_whole(json, object, "price_ten_thousandths", line->price);
    put_whole(json, object, "amount_cents", line->amount);
    json_end(json);
}

static void write_labour(struct json *json, const struct labour_line *line) {
    json_t *object = json_begin(json, NULL);
    put_text(json, object, "work", line->count.word);
    put_text(json, object, "place", location_name(line->count.place));
    put_bool(json, object, "high", line->count.high);
    put_whole(json, object, "access_millionths", line->access);
    for (enum labour_kind kind = 0; kind < LABOUR_KIND_COUNT; kind++) {
        json_t *part = put_object(json, object, labour_choices[kind]);
        put_text(json, part, "per", line->per[kind]);
        put_whole(json, part, "amount_thousandths", line->amount[kind]);
        put_real(json, part, "each_h", line->each[kind]);
        put_whole(json, part, "hours_thousandths", line->hours[kind]);
    }
    json_end(json);
}

static void write_step(struct json *json, const struct step *step) {
    json_t *object = json_begin(json, NULL);
    put_text(json, object, "step", step_keys[step->kind]);
    put_text(json, object, "title", step->title);
    put_bool(json, object, "sum", step_is_subtotal(step->kind));
    if (step->on) {
        put_text(json, object, "on", step->on);
        put_whole(json, object, "base_cents", step->base);
    }
    if (step->has_rate)
        put_whole(json, object, "rate_millionths", step->rate);
    if (step->kind == STEP_LABOUR) {
        put_whole(json, object, "hours_thousandths", step->hours);
        put_whole(json, object, "rate_ten_thousandths", step->price);
    }
    put_whole(json, object, "amount_cents", step->amount);
    json_end(json);
}

static void write_what_if(struct json *json, const struct what_if *what_if) {
    json_t *object = json_begin(json, NULL);
    put_text(json, object, "title", what_if->title);
    put_text(json, object, "how", what_if->how);
    if (what_if->known)
        put_whole(json, object, "difference_cents", what_if->difference);
    else
        put_null(json, object, "difference_cents");
    json_end(json);
}

static void write_parts(struct json *json, json_t *object, const struct price *price) {
    put_whole(json, object, "material_cents", price->build_up.material);
    put_whole(json, object, "labour_cents", price->build_up.labour);
    put_whole(json, object, "direct_cents", price->build_up.direct);
    put_whole(json, object, "cost_cents", price->build_up.cost);
    put_whole(json, object, "profit_cents", price->build_up.profit);
    put_whole(json, object, "subcontracts_apart_cents", price->build_up.apart);
    put_whole(json, object, "bond_cents", price->build_up.bond);
    put_whole(json, object, "spent_cents", price->build_up.spent);
    put_whole(json, object, "kept_cents", price->build_up.kept);
    put_whole(json, object, "markup_millionths", build_up_markup(&price->build_up));
    put_whole(json, object, "margin_millionths", build_up_margin(&price->build_up));
}

static void write_sums(struct json *json, const struct price *price) {
    json_t *object = json_begin(json, "sums");
    put_text(json, object, "currency", price->currency.mark);
    put_bool(json, object, "complete", price->complete);
    if (!json->discreet)
        write_parts(json, object, price);
    put_whole(json, object, "price_cents", price->build_up.price);
    put_whole(json, object, "total_cents", price->build_up.total);
    json_end(json);
}

void json_price(struct json *json, const struct job *job) {
    const struct price *whole = job->price, *price = json->discreet ? NULL : whole;
    json_open(json, "price", '{');
    if (whole)
        write_sums(json, whole);
    json_open(json, "material", '[');
    for (size_t i = 0; price && i < price->lines.count; i++)
        write_line(json, &price->lines.at[i]);
    json_close(json, ']');
    json_open(json, "hours", '[');
    for (size_t i = 0; price && i < price->labour.count; i++)
        write_labour(json, &price->labour.at[i]);
    json_close(json, ']');
    json_open(json, "build_up", '[');
    for (size_t i = 0; price && i < price->build_up.steps.count; i++)
        write_step(json, &price->build_up.steps.at[i]);
    json_close(json, ']');
    json_open(json, "one_more", '[');
    for (size_t i = 0; price && i < price->what_ifs.count; i++)
        write_what_if(json, &price->what_ifs.at[i]);
    json_close(json, ']');
    json_close(json, '}');
}

/* ---- Alternates -------------------------------------------------------------------------------------------------- */

static void put_names(struct json *json, json_t *object, const char *key, const char *const *at, size_t count) {
    json_t *array = put_array(json, object, key);
    for (size_t i = 0; i < count; i++)
        add_text(json, array, at[i]);
}

static void put_changes(struct json *json, json_t *object, const struct offer *offer) {
    put_count(json, object, "change_count", offer->change_count);
    json_t *array = put_array(json, object, "changes");
    for (size_t i = 0; i < offer->changes.count; i++) {
        const struct offer_change *change = &offer->changes.at[i];
        json_t *item = add_object(json, array);
        put_text(json, item, "run", change->run);
        put_real(json, item, "station_m", change->station);
        put_size_as(json, item, "size_without", change->before);
        put_size_as(json, item, "size_with", change->after);
        put_real(json, item, "flow_without_m3_s", change->flow_before);
        put_real(json, item, "flow_with_m3_s", change->flow_after);
    }
}

void json_offer(struct json *json, json_t *object, const struct alternate *alternate) {
    json_t *without = put_array(json, object, "without");
    for (size_t i = 0; i < alternate->without.count; i++)
        add_text(json, without, alternate->without.at[i].name);
    const struct offer *offer = alternate->offer;
    if (!offer) {
        put_null(json, object, "offer");
        return;
    }
    json_t *part = put_object(json, object, "offer");
    put_bool(json, part, "priced", offer->priced);
    put_whole(json, part, "total_cents", offer->total);
    put_whole(json, part, "difference_cents", offer->difference);
    put_names(json, part, "added", offer->added.at, offer->added.count);
    put_names(json, part, "left_out", offer->removed.at, offer->removed.count);
    put_changes(json, part, offer);
    json_t *warnings = put_array(json, part, "warnings");
    for (size_t i = 0; i < offer->warnings.count; i++)
        add_text(json, warnings,
                 arena_format(json->arena, "%s: %s", offer->warnings.at[i].check, offer->warnings.at[i].message));
}
