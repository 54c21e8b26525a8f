/* What the job gives only about, and what one step more of it does, as data. */
#include "report/json_estimates.h"

#include "cost/effect.h"
#include "report/bid.h"

/* By enum measure_kind; NULL: nothing is asked of such a thing. */
static const char *const measures[MEASURE_KIND_COUNT] = {
    [MEASURE_LENGTH] = "length", [MEASURE_ANGLE] = "angle",       [MEASURE_FLOW] = "airflow",
    [MEASURE_POWER] = "power",   [MEASURE_PRESSURE] = "pressure", [MEASURE_TEMPERATURE] = "temperature",
};

static const char *measured_in(const struct slot *slot) {
    if (slot->kind == SLOT_SIZE)
        return measures[MEASURE_LENGTH];
    return slot->kind == SLOT_QUANTITY ? measures[slot->measure] : NULL;
}

static void put_sizes(struct json *json, json_t *object, const struct effect *effect) {
    json_t *array = put_array(json, object, "sizes");
    for (size_t i = 0; i < effect->sizes.count; i++) {
        json_t *size = add_object(json, array);
        put_text(json, size, "run", effect->sizes.at[i].run);
        put_size_as(json, size, "size_without", effect->sizes.at[i].before);
        put_size_as(json, size, "size_with", effect->sizes.at[i].after);
    }
}

static void put_left(struct json *json, json_t *object, const struct effect *effect) {
    put_text(json, object, "unit", effect->unit->name);
    put_real(json, object, "left_Pa", effect->governing.left);
    put_real(json, object, "change_Pa", effect->governing.change);
    put_text(json, object, "terminal", effect->terminal);
    if (!effect->terminal)
        return;
    put_real(json, object, "terminal_left_Pa", effect->path.left);
    put_real(json, object, "terminal_change_Pa", effect->path.change);
}

static void put_effect(struct json *json, json_t *object, const struct effect *effect) {
    put_bool(json, object, "whole", effect->depth == EFFECT_WHOLE);
    put_text(json, object, "fault", effect->fault);
    if (effect->fault)
        return;
    if (effect->unit)
        put_left(json, object, effect);
    else
        put_null(json, object, "unit");
    put_bool(json, object, "falls_short", effect->falls_short);
    put_given(json, object, "short_after", effect->short_after);
    put_text(json, object, "speed", effect->speed);
    if (effect->priced)
        put_whole(json, object, "difference_cents", effect->difference);
    else
        put_null(json, object, "difference_cents");
    put_text(json, object, "unpriced", effect->unpriced);
    put_count(json, object, "resized", effect->resized);
    put_sizes(json, object, effect);
    put_count(json, object, "warned", effect->warned);
    json_t *warnings = put_array(json, object, "warnings");
    for (size_t i = 0; i < effect->warnings.count; i++)
        add_text(json, warnings, effect->warnings.at[i]);
}

static void write_estimate(struct json *json, const struct estimate *estimate) {
    const struct effect *effect = json->discreet ? NULL : estimate->effect;
    json_t *object = json_begin(json, NULL);
    put_text(json, object, "words", bid_estimate_words(json->arena, estimate));
    put_text(json, object, "where", estimate->where);
    put_text(json, object, "alternate", estimate->alternate ? estimate->alternate->name : NULL);
    put_span(json, object, estimate->at);
    put_text(json, object, "measures", measured_in(estimate->slot));
    if (estimate->step != 0)
        put_real(json, object, "value", estimate->value);
    else
        put_null(json, object, "value");
    put_given(json, object, "step", estimate->step);
    if (effect)
        put_effect(json, put_object(json, object, "effect"), effect);
    else
        put_null(json, object, "effect");
    json_end(json);
}

void json_estimates(struct json *json, const struct job *job) {
    json_open(json, "estimates", '[');
    for (size_t i = 0; i < job->estimates.count; i++)
        write_estimate(json, job->estimates.at[i]);
    json_close(json, ']');
}
