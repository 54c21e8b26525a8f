/* An empty job for the tests of the writers, to be filled by hand. Include it behind cmocka.h. */
#ifndef TESTS_UNIT_REPORT_BENCH_H
#define TESTS_UNIT_REPORT_BENCH_H

#include <setjmp.h>
#include <stdlib.h>

#include "model/job.h"
#include "ration.h"
#include "report/packet.h"

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

/* Writes the customer's packet with fewer blocks of memory than it takes, one more each time, until it is whole. */
static inline void expect_any_shortage_said(const struct job *job, const struct page_writer *writer) {
    for (size_t blocks = 0; blocks < 1000; blocks++) {
        size_t left = blocks;
        struct arena_source memory = ration_of(&left);
        struct output *out = output_open_memory();
        bool whole = packet_write(packet_for(NULL), job, writer, NULL, &memory, out);
        output_abandon(out);
        if (whole) {
            assert_true(blocks > 10);
            return;
        }
    }
    fail_msg("1000 blocks were not enough");
}

#endif
