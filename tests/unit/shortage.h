/* A whole job with fewer blocks of memory than it takes, one more each time, until all is written. */
#ifndef TESTS_UNIT_SHORTAGE_H
#define TESTS_UNIT_SHORTAGE_H

#include <stdio.h>
#include <string.h>

#include "compile/compile.h"
#include "ration.h"

struct shortage_paper {
    const char *reader, *format;
};

/* Compiles `text` and writes each paper of the list, which ends with one without a format; ends when nothing is
 * missing. What was missing before must have been said. */
static inline void expect_shortages_said(const char *text, const struct shortage_paper *papers) {
    size_t failures = 0;
    bool done = false;
    for (size_t blocks = 1; !done; blocks++) {
        assert_true(blocks < 2000);
        size_t left = blocks;
        struct arena_source source = ration_of(&left);
        struct cleat *cleat = cleat_new_from(&source, NULL);
        if (!cleat)
            continue;
        enum cleat_status status = cleat_compile_text(cleat, "base.job", text, strlen(text));
        for (const struct shortage_paper *paper = papers; paper->format && status != CLEAT_IO; paper++)
            status = cleat_write(cleat, paper->reader, paper->format, "/dev/null");
        done = status == CLEAT_OK;
        failures += !done;
        if (!done)
            assert_non_null(strstr(cleat_problem(cleat), "memory"));
        cleat_free(cleat);
    }
    assert_true(failures >= 3);
}

#endif
