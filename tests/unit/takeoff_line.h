/* Lines of a take-off, in the units of those who read them.  Include it behind cmocka.h. */
#ifndef TESTS_UNIT_TAKEOFF_LINE_H
#define TESTS_UNIT_TAKEOFF_LINE_H

#include "compiled.h"
#include "cost/takeoff.h"

/* The line of that item and key (NULL: the only one), or NULL. */
static inline const struct bill_line *line_of(const struct compiled *compiled, const char *item, const char *key) {
    const struct takeoff *takeoff = compiled->job->takeoff;
    assert_non_null(takeoff);
    for (size_t i = 0; i < takeoff->lines.count; i++) {
        const struct bill_line *line = &takeoff->lines.at[i];
        if (strcmp(line->item->key, item) == 0 && (!key || (line->key && strcmp(line->key, key) == 0)))
            return line;
    }
    return NULL;
}

static inline double net_of(const struct compiled *compiled, const char *item) {
    const struct bill_line *line = line_of(compiled, item, NULL);
    return line ? line->net : 0;
}

static inline double wanted_of(const struct compiled *compiled, const char *item) {
    const struct bill_line *line = line_of(compiled, item, NULL);
    return line ? line->wanted : 0;
}

#endif
