/* The route as data. */
#include "report/json_route.h"

#include "model/piece.h"
#include "model/words.h"
#include "piece/offset.h"
#include "route/route.h"

static void put_space(struct json *json, json_t *object, const char *key, struct space at) {
    json_t *array = put_array(json, object, key);
    add_real(json, array, at.x);
    add_real(json, array, at.y);
    add_real(json, array, at.z);
}

static void put_frame(struct json *json, json_t *object, const char *key, const struct frame *frame) {
    json_t *inner = put_object(json, object, key);
    put_space(json, inner, "at_m", frame->origin);
    put_space(json, inner, "along", frame->along);
    put_space(json, inner, "up", frame->up);
}

static void put_piece(struct json *json, json_t *object, const struct placed_piece *piece) {
    put_text(json, object, "kind", piece->piece->kind->form.word);
    put_bool(json, object, "free", piece->free);
    put_real(json, object, "begins_m", piece->begins);
    put_real(json, object, "ends_m", piece->ends);
    put_frame(json, object, "near", &piece->near);
    put_frame(json, object, "far", &piece->far);
}

static void write_run(struct json *json, const struct route *route, const struct placed_run *placed) {
    json_t *object = json_begin(json, NULL);
    put_text(json, object, "run", placed->run->name);
    put_bool(json, object, "positioned", placed->positioned);
    put_bool(json, object, "free", placed->free);
    put_real(json, object, "length_m", placed->length);
    put_frame(json, object, "begin", &placed->begin);
    put_frame(json, object, "end", &placed->end);
    json_t *legs = put_object(json, object, "legs");
    for (int leg = 0; leg < LEG_COUNT; leg++)
        if (placed->has_leg[leg])
            put_frame(json, legs, leg_name((enum leg)leg), &placed->legs[leg]);
    json_t *pieces = put_array(json, object, "pieces");
    for (size_t i = placed->first; i < placed->first + placed->count; i++)
        if (route->pieces.at[i].count || !route->pieces.at[i].piece->implied)
            put_piece(json, add_object(json, pieces), &route->pieces.at[i]);
    json_end(json);
}

static void write_clash(struct json *json, const struct job *job, const struct clash *clash) {
    json_t *object = json_begin(json, NULL);
    put_text(json, object, "run", clash->run->name);
    put_text(json, object, "other", clash->other ? clash->other->name : NULL);
    put_text(json, object, "obstacle", clash->obstacle ? clash->obstacle->title : NULL);
    put_space(json, object, "at_m", clash->at);
    put_real(json, object, "apart_m", clash->apart);
    put_real(json, object, "overlap_m", clash->overlap);
    put_real(json, object, "clearance_m", clash->clearance);
    bool found = clash->offset.found;
    put_text(json, object, "offset", found ? offset_line(json->arena, job->system, &clash->offset) : NULL);
    if (found)
        put_span(json, put_object(json, object, "before"), clash->before->at);
    put_text(json, object, "with", clash->with ? clash->with->name : NULL);
    put_text(json, object, "moved", clash->moved ? clash->moved->name : NULL);
    if (clash->moved)
        put_real(json, object, "station_m", clash->station);
    put_text(json, object, "shortened", clash->shortened ? clash->shortened->run->name : NULL);
    if (clash->shortened)
        put_real(json, object, "length_m", clash->length);
    json_end(json);
}

void json_route(struct json *json, const struct job *job) {
    const struct route *route = job->route;
    json_open(json, "route", '{');
    json_open(json, "runs", '[');
    for (size_t i = 0; route && i < job->runs.count; i++)
        if (route->runs[i].run)
            write_run(json, route, &route->runs[i]);
    json_close(json, ']');
    json_open(json, "clashes", '[');
    for (size_t i = 0; route && i < route->clashes.count; i++)
        write_clash(json, job, &route->clashes.at[i]);
    json_close(json, ']');
    json_close(json, '}');
}
