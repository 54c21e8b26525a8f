/* An empty job for the tests of the writers, to be filled by hand. Include it behind cmocka.h. */
#ifndef TESTS_UNIT_REPORT_BENCH_H
#define TESTS_UNIT_REPORT_BENCH_H

#include <setjmp.h>
#include <stdlib.h>

#include "model/job.h"

struct fixture {
    struct job job;
    struct diagnostics diagnostics;
    jmp_buf full;
};

static int set_up(void **state) {
    struct fixture *fixture = calloc(1, sizeof *fixture);
    struct arena *arena = arena_new(NULL);
    arena_on_failure(arena, &fixture->full);
    fixture->job.arena = fixture->diagnostics.arena = arena;
    fixture->job.diagnostics = &fixture->diagnostics;
    fixture->job.title = "Kiln house";
    *state = fixture;
    return 0;
}

static int tear_down(void **state) {
    struct fixture *fixture = *state;
    arena_free(fixture->job.arena);
    free(fixture);
    return 0;
}

#endif
