/* A packet as the Markdown that it becomes, and what stands in that.  Include it behind cmocka.h. */
#ifndef TESTS_UNIT_PAPER_TEXT_H
#define TESTS_UNIT_PAPER_TEXT_H

#include <stdlib.h>
#include <string.h>

#include "report/report.h"

/* For `reader` (NULL: the customer).  To be freed. */
static inline char *packet_text(const struct job *job, const char *reader) {
    struct output *out = output_open_memory();
    assert_true(report_write(job, reader, "md", NULL, out));
    size_t length;
    char *text = output_take_memory(out, &length);
    assert_int_equal(strlen(text), length);
    return text;
}

/* Not with strstr, which a sanitizer makes measure the whole text at each call. */
static inline size_t times(const char *text, const char *what) {
    size_t count = 0, length = strlen(what);
    for (const char *at = text; *at; at++)
        count += *at == *what && strncmp(at, what, length) == 0;
    return count;
}

static inline void expect_in(const char *text, const char *what) {
    if (!strstr(text, what))
        fail_msg("\"%s\" is not in:\n%.3000s", what, text);
}

#endif
