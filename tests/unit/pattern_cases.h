/* Independent figures of flat patterns: tests/reference/patterns.json, in inches.  Include it behind cmocka.h. */
#ifndef TESTS_UNIT_PATTERN_CASES_H
#define TESTS_UNIT_PATTERN_CASES_H

#include <jansson.h>
#include <math.h>
#include <string.h>

struct pattern_case {
    const char *id;
    const json_t *inputs, *expected;
    double limit; /* what may be between a figure and the one here */
};

static inline double case_input(const struct pattern_case *reference, const char *name) {
    const json_t *value = json_object_get(reference->inputs, name);
    if (!json_is_number(value))
        fail_msg("%s has no input %s", reference->id, name);
    return json_number_value(value);
}

static inline void case_compare(const struct pattern_case *reference, const char *name, const json_t *want,
                                double value) {
    if (!json_is_number(want))
        fail_msg("%s has no figure %s", reference->id, name);
    if (!(fabs(value - json_number_value(want)) <= reference->limit))
        fail_msg("%s: %s is %.12g, want %.12g", reference->id, name, value, json_number_value(want));
}

static inline void case_near(const struct pattern_case *reference, const char *name, double value) {
    case_compare(reference, name, json_object_get(reference->expected, name), value);
}

/* Of a list of figures. */
static inline size_t case_count(const struct pattern_case *reference, const char *name) {
    return json_array_size(json_object_get(reference->expected, name));
}
static inline void case_near_at(const struct pattern_case *reference, const char *name, size_t i, double value) {
    case_compare(reference, name, json_array_get(json_object_get(reference->expected, name), i), value);
}

/* Calls `prove` for every case of a kind; gives how many there are. */
static inline int each_pattern_case(const char *kind, void (*prove)(const struct pattern_case *reference)) {
    json_error_t error;
    json_t *file = json_load_file("tests/reference/patterns.json", 0, &error);
    if (!file)
        fail_msg("tests/reference/patterns.json: %s", error.text);
    const json_t *cases = json_object_get(file, "cases");
    int count = 0;
    for (size_t i = 0; i < json_array_size(cases); i++) {
        const json_t *entry = json_array_get(cases, i);
        if (strcmp(json_string_value(json_object_get(entry, "kind")), kind) != 0)
            continue;
        struct pattern_case reference = {
            .id = json_string_value(json_object_get(entry, "id")),
            .inputs = json_object_get(entry, "inputs"),
            .expected = json_object_get(entry, "expected"),
            .limit = json_number_value(json_object_get(file, "pass_limit_abs")),
        };
        prove(&reference);
        count++;
    }
    json_decref(file);
    return count;
}

#endif
