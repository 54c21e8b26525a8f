/* The member "takeoff": every line of the bill, the hangers, and the work. */
#include "report/json_takeoff.h"

#include "cost/labour_count.h"
#include "cost/takeoff.h"
#include "model/item_words.h"
#include "model/words.h"

static const char *const measures[] = {
    [BILL_EACH] = "each", [BILL_LENGTH] = "m", [BILL_AREA] = "m2", [BILL_VOLUME] = "m3", [BILL_WEIGHT] = "kg"};

static const char *const groups[BILL_GROUP_COUNT] = {
    [BILL_SHEET] = "sheet",       [BILL_FLEXIBLE] = "flexible",     [BILL_FACES] = "faces",
    [BILL_FITTINGS] = "fittings", [BILL_HANGING] = "hanging",       [BILL_FASTENING] = "fastening",
    [BILL_SEALING] = "sealing",   [BILL_INSULATION] = "insulation",
};

static const char *const closings[CLOSING_COUNT] = {
    [CLOSED_JOINT] = "joint",   [CLOSED_BASE] = "wall", [CLOSED_NECK] = "neck", [CLOSED_FLEX] = "flex",
    [CLOSED_CANVAS] = "canvas", [CLOSED_FACE] = "face", [CLOSED_ROD] = "rod",   [CLOSED_READY] = "ready_made",
};

static const char *const hanger_kinds[] = {
    [HANGER_STRAPS] = "straps", [HANGER_BAND] = "band", [HANGER_SADDLE] = "saddle", [HANGER_RISER] = "riser"};

static void write_line(struct json *json, const struct bill_line *line) {
    json_t *object = json_begin(json, NULL);
    put_text(json, object, "item", line->item->key);
    put_text(json, object, "key", line->key);
    put_text(json, object, "title", line->title);
    put_text(json, object, "group", groups[line->item->group]);
    put_text(json, object, "measure", measures[line->item->measure]);
    put_real(json, object, "net", line->net);
    put_real(json, object, "wanted", line->wanted);
    put_text(json, object, "basis", json->discreet ? NULL : line->basis); /* it may tell the shop's waste */
    put_text(json, object, "source", line->source ? source_name(line->source) : NULL);
    json_end(json);
}

static void write_hanger(struct json *json, const struct hanger *hanger) {
    json_t *object = json_begin(json, NULL);
    put_text(json, object, "run", hanger->run->name);
    put_real(json, object, "station_m", hanger->station);
    put_text(json, object, "kind", hanger_kinds[hanger->kind]);
    put_text(json, object, "reason", hanger_reason_words(hanger->reason));
    put_text(json, object, "shape", shape_name(hanger->size.shape));
    put_real(json, object, "width_m", hanger->size.width);
    put_real(json, object, "height_m", hanger->size.height);
    put_given(json, object, "strap_width_m", hanger->strap_width);
    put_given(json, object, "strap_gauge", hanger->strap_gauge);
    put_given(json, object, "strap_m", hanger->strap);
    json_end(json);
}

/* How many of each kind, and how far it is round them. */
static void write_connections(struct json *json, const struct takeoff *takeoff) {
    json_open(json, "connections", '[');
    for (int i = 0; i < CLOSING_COUNT; i++) {
        json_t *object = json_begin(json, NULL);
        put_text(json, object, "closing", closings[i]);
        put_count(json, object, "count", takeoff ? takeoff->closings[i].count : 0);
        put_real(json, object, "girth_m", takeoff ? takeoff->closings[i].girth : 0);
        json_end(json);
    }
    json_close(json, ']');
}

static void write_work(struct json *json, const struct labour_count *work) {
    json_t *object = json_begin(json, NULL);
    put_text(json, object, "work", work->word);
    put_text(json, object, "place", location_name(work->place));
    put_count(json, object, "pieces", work->pieces);
    put_count(json, object, "parts", work->parts);
    put_count(json, object, "ready", work->ready);
    put_count(json, object, "inserts", work->inserts);
    put_count(json, object, "times", labour_times(work));
    put_real(json, object, "length_m", work->length);
    put_real(json, object, "area_m2", work->area);
    put_real(json, object, "weight_kg", work->weight);
    put_real(json, object, "seam_m", work->seam);
    put_count(json, object, "joints", work->joints);
    json_end(json);
}

void json_takeoff(struct json *json, const struct job *job) {
    const struct takeoff *takeoff = job->takeoff;
    json_open(json, "takeoff", '{');
    json_open(json, "lines", '[');
    for (size_t i = 0; takeoff && i < takeoff->lines.count; i++)
        write_line(json, &takeoff->lines.at[i]);
    json_close(json, ']');
    json_open(json, "hangers", '[');
    for (size_t i = 0; takeoff && i < takeoff->hangers.count; i++)
        write_hanger(json, &takeoff->hangers.at[i]);
    json_close(json, ']');
    write_connections(json, takeoff);
    json_open(json, "work", '[');
    for (size_t i = 0; takeoff && i < takeoff->work->lines.count; i++)
        write_work(json, &takeoff->work->lines.at[i]);
    json_close(json, ']');
    json_close(json, '}');
}
