/* JSON written piece by piece: the outer arrays and objects as they come, each inner object through jansson, so that a
 * job of any length needs no more memory than its longest object.
 */
#ifndef CLEAT_REPORT_JSON_STREAM_H
#define CLEAT_REPORT_JSON_STREAM_H

#include <jansson.h>
#include <stdbool.h>

#include "base/diagnostics.h"
#include "base/money.h"
#include "base/output.h"
#include "model/shape.h"

struct json {
    struct output *out;
    const struct arena_source *memory;
    struct arena *arena; /* for words, until the next json_end */
    jmp_buf out_of_memory;
    json_t *building;     /* the object between json_begin and json_end */
    bool failed;          /* jansson had no memory */
    bool discreet;        /* it is for the customer: what a thing costs is left out, and what is earned */
    bool comma;           /* something stands before the next member */
    char buffer[1 << 14]; /* for an object as text */
};

/* Runs `write` with a stream on `out`.  False when memory ran out. */
bool json_stream(struct output *out, const struct arena_source *memory,
                 void (*write)(struct json *json, const void *what), const void *what);

/* Outer brackets, '{' or '[', under `key` (NULL: an element); and their end, '}' or ']'. */
void json_open(struct json *json, const char *key, char bracket);
void json_close(struct json *json, char bracket);

/* An inner object under `key` (NULL: an element).  Between the two it is filled with the functions below. */
json_t *json_begin(struct json *json, const char *key);
void json_end(struct json *json);

/* A member that stands by itself in the outer object. */
void json_count(struct json *json, const char *key, size_t count);

/* ---- Filling an inner object ------------------------------------------------------------------------------------- */

void put_text(struct json *json, json_t *object, const char *key, const char *text); /* NULL: null */
void put_real(struct json *json, json_t *object, const char *key, double number);    /* not finite: null */
void put_given(struct json *json, json_t *object, const char *key, double number); /* 0, which means not given: null */
void put_count(struct json *json, json_t *object, const char *key, size_t count);
void put_whole(struct json *json, json_t *object, const char *key, int64_t number); /* of money and the like: exact */
void put_bool(struct json *json, json_t *object, const char *key, bool truth);
void put_null(struct json *json, json_t *object, const char *key);
json_t *put_object(struct json *json, json_t *object, const char *key);
json_t *put_array(struct json *json, json_t *object, const char *key);
json_t *add_object(struct json *json, json_t *array);
json_t *add_array(struct json *json, json_t *array);
void add_text(struct json *json, json_t *array, const char *text);
void add_real(struct json *json, json_t *array, double number);

/* "shape", "width_m" and "height_m"; and these as an object of that key, null when it is not known. */
void put_size(struct json *json, json_t *object, struct duct_size size);
void put_size_as(struct json *json, json_t *object, const char *key, struct duct_size size);

/* "file", "line", "column" and the end of a span; nothing when it has no place. */
void put_span(struct json *json, json_t *object, struct span at);

/* All about one diagnostic. */
void put_diagnostic(struct json *json, json_t *object, const struct diagnostic *diagnostic);

#endif
