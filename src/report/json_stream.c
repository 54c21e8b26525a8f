/* The stream of JSON, over jansson. */
#include "report/json_stream.h"

#include <math.h>
#include <string.h>

/* ---- The outer structure ----------------------------------------------------------------------------------------- */

static void new_arena(struct json *json) {
    json->arena = arena_new(json->memory);
    if (!json->arena)
        longjmp(json->out_of_memory, 1);
    arena_on_failure(json->arena, &json->out_of_memory);
}

/* In a function of its own, so that `json` lies in its caller and keeps its values over the jump. */
static bool run(struct json *json, void (*write)(struct json *json, const void *what), const void *what) {
    if (setjmp(json->out_of_memory))
        return false;
    new_arena(json);
    write(json, what);
    return !json->failed;
}

bool json_stream(struct output *out, const struct arena_source *memory,
                 void (*write)(struct json *json, const void *what), const void *what) {
    struct json json = {.out = out, .memory = memory};
    bool whole = run(&json, write, what);
    json_decref(json.building);
    arena_free(json.arena);
    return whole;
}

/* Keys are ours: plain words that need no escape. */
static void key_text(struct json *json, const char *key) {
    if (json->comma)
        output_text(json->out, ",\n");
    if (key)
        output_format(json->out, "\"%s\": ", key);
    json->comma = true;
}

void json_open(struct json *json, const char *key, char bracket) {
    key_text(json, key);
    output_put(json->out, &bracket, 1);
    output_text(json->out, "\n");
    json->comma = false;
}

void json_close(struct json *json, char bracket) {
    if (json->comma)
        output_text(json->out, "\n");
    output_put(json->out, &bracket, 1);
    json->comma = true;
}

void json_count(struct json *json, const char *key, size_t count) {
    key_text(json, key);
    output_format(json->out, "%zu", count);
}

json_t *json_begin(struct json *json, const char *key) {
    key_text(json, key);
    json->building = json_object();
    json->failed |= !json->building;
    return json->building;
}

static int dump(const char *bytes, size_t length, void *out) {
    output_put(out, bytes, length);
    return 0;
}

/* Through the buffer when it fits: a call for each comma costs more than the rest. */
static void dump_building(struct json *json) {
    size_t length = json_dumpb(json->building, json->buffer, sizeof json->buffer, JSON_REAL_PRECISION(17));
    if (length > 0 && length <= sizeof json->buffer)
        output_put(json->out, json->buffer, length);
    else if (json_dump_callback(json->building, dump, json->out, JSON_REAL_PRECISION(17)) != 0)
        json->failed = true;
}

/* Texts are freed now and then, not after each object: clearing the arena costs more than an object. */
enum { WORDS_KEPT = 1 << 20 };

void json_end(struct json *json) {
    if (json->building)
        dump_building(json);
    json_decref(json->building);
    json->building = NULL;
    if (arena_used(json->arena) < WORDS_KEPT)
        return;
    arena_free(json->arena);
    json->arena = NULL;
    new_arena(json);
}

/* ---- Values ------------------------------------------------------------------------------------------------------ */

static void put(struct json *json, json_t *object, const char *key, json_t *value) {
    if (json_object_set_new_nocheck(object, key, value) != 0)
        json->failed = true;
}

static void add(struct json *json, json_t *array, json_t *value) {
    if (json_array_append_new(array, value) != 0)
        json->failed = true;
}

/* A file's name may hold any bytes; JSON may not: each bad one becomes a question mark. */
static json_t *text_value(struct json *json, const char *text) {
    size_t length = strlen(text), bad = text_first_bad_byte(text, length);
    if (bad == length)
        return json_stringn_nocheck(text, length);
    char *clean = arena_copy(json->arena, text, length);
    for (; bad < length; bad += text_first_bad_byte(clean + bad, length - bad))
        clean[bad] = '?';
    return json_stringn_nocheck(clean, length);
}

void put_null(struct json *json, json_t *object, const char *key) {
    put(json, object, key, json_null());
}

void put_text(struct json *json, json_t *object, const char *key, const char *text) {
    put(json, object, key, text ? text_value(json, text) : json_null());
}

void put_real(struct json *json, json_t *object, const char *key, double number) {
    put(json, object, key, isfinite(number) ? json_real(number) : json_null());
}

void put_given(struct json *json, json_t *object, const char *key, double number) {
    put_real(json, object, key, number != 0 ? number : NAN);
}

void put_count(struct json *json, json_t *object, const char *key, size_t count) {
    put(json, object, key, json_integer((json_int_t)count));
}

void put_whole(struct json *json, json_t *object, const char *key, int64_t number) {
    /* amounts are under 1e15 and would be exact as doubles, but they are written as integers */
    put(json, object, key, json_integer(number));
}

void put_bool(struct json *json, json_t *object, const char *key, bool truth) {
    put(json, object, key, json_boolean(truth));
}

json_t *put_object(struct json *json, json_t *object, const char *key) {
    json_t *inner = json_object();
    put(json, object, key, inner);
    return json->failed ? NULL : inner;
}

json_t *put_array(struct json *json, json_t *object, const char *key) {
    json_t *inner = json_array();
    put(json, object, key, inner);
    return json->failed ? NULL : inner;
}

json_t *add_object(struct json *json, json_t *array) {
    json_t *inner = json_object();
    add(json, array, inner);
    return json->failed ? NULL : inner;
}

json_t *add_array(struct json *json, json_t *array) {
    json_t *inner = json_array();
    add(json, array, inner);
    return json->failed ? NULL : inner;
}

void add_text(struct json *json, json_t *array, const char *text) {
    add(json, array, text_value(json, text));
}

void add_real(struct json *json, json_t *array, double number) {
    add(json, array, isfinite(number) ? json_real(number) : json_null());
}

/* ---- Places and diagnostics -------------------------------------------------------------------------------------- */

void put_size(struct json *json, json_t *object, struct duct_size size) {
    put_text(json, object, "shape", shape_name(size.shape));
    put_real(json, object, "width_m", size.width);
    put_real(json, object, "height_m", size.height);
}

void put_size_as(struct json *json, json_t *object, const char *key, struct duct_size size) {
    if (size_known(size))
        put_size(json, put_object(json, object, key), size);
    else
        put_null(json, object, key);
}

void put_span(struct json *json, json_t *object, struct span at) {
    if (!at.text)
        return;
    struct place from = text_place(at.text, at.begin), to = text_place(at.text, at.end);
    put_text(json, object, "file", at.text->name);
    put_count(json, object, "line", from.line);
    put_count(json, object, "column", from.column);
    put_count(json, object, "end_line", to.line);
    put_count(json, object, "end_column", to.column);
}

static const char *const level_names[] = {
    [DIAGNOSTIC_NOTE] = "note",
    [DIAGNOSTIC_WARNING] = "warning",
    [DIAGNOSTIC_ERROR] = "error",
};

void put_diagnostic(struct json *json, json_t *object, const struct diagnostic *diagnostic) {
    put_text(json, object, "level", level_names[diagnostic->level]);
    put_text(json, object, "check", diagnostic->check);
    put_span(json, object, diagnostic->at);
    put_text(json, object, "message", diagnostic->message);
    put_text(json, object, "hint", diagnostic->hint);
    put_text(json, object, "subject", diagnostic->subject);
    json_t *related = put_array(json, object, "related");
    for (size_t i = 0; i < diagnostic->related.count; i++) {
        json_t *other = add_object(json, related);
        put_span(json, other, diagnostic->related.at[i].at);
        put_text(json, other, "message", diagnostic->related.at[i].message);
    }
    put_text(json, object, "accepted_because", diagnostic->accepted_because);
}
