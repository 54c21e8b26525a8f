/* Which openings a joint is cut with, and what is said of the others. */
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <setjmp.h>
#include <cmocka.h>

#include "base/constant.h"
#include "piece/openings.h"

struct bench {
    struct arena *arena;
    jmp_buf out;
    struct openings openings;
};

static void bench_new(struct bench *bench, size_t most) {
    bench->arena = arena_new(NULL);
    if (!bench->arena || setjmp(bench->out))
        fail_msg("no memory");
    arena_on_failure(bench->arena, &bench->out);
    bench->openings = (struct openings){.at = ARENA_ARRAY(bench->arena, struct wall_opening, most + 1)};
}

/* Round, of a straight tap; inches. */
static void add(struct bench *bench, const struct run *run, enum side side, double station, double wall, bool fits) {
    double size = 8 * INCH;
    struct wall_opening opening = {.side = side, .station = station * INCH, .section = {SHAPE_ROUND, size, size}};
    opening.tap.wall = wall * INCH;
    openings_add(&bench->openings, bench->arena, run, &opening, fits);
}

static void openings_that_cross_are_left_out(void **state) {
    (void)state;
    static const struct run a = {.name = "a"}, b = {.name = "b"};
    struct bench bench;
    bench_new(&bench, 8);
    add(&bench, &a, SIDE_LEFT, 10, 0, true);
    add(&bench, &b, SIDE_LEFT, 17.9, 0, true);
    assert_int_equal(bench.openings.count, 1);
    assert_string_equal(openings_note(&bench.openings, bench.arena, "joint"),
                        "the opening for b has no room in this joint and is not on its pattern: cut it in place");
    add(&bench, &a, SIDE_RIGHT, 17.9, 0, true);
    add(&bench, &a, SIDE_TOP, 17.9, 0, true);
    add(&bench, &a, SIDE_LEFT, 18, 0, true); /* b is not there: they touch in one point */
    assert_int_equal(bench.openings.count, 4);
    arena_free(bench.arena);
}

/* On 10 in round duct each takes 53 degrees either way, on 12 in 42. */
static void openings_a_quarter_apart_meet_on_narrow_round_duct(void **state) {
    (void)state;
    static const struct run run = {.name = "a"};
    static const double walls[] = {10, 12};
    for (size_t i = 0; i < 2; i++) {
        struct bench bench;
        bench_new(&bench, 8);
        add(&bench, &run, SIDE_LEFT, 10, walls[i], true);
        add(&bench, &run, SIDE_TOP, 10, walls[i], true);
        add(&bench, &run, SIDE_RIGHT, 10, walls[i], true);
        assert_int_equal(bench.openings.count, i ? 3 : 2);
        arena_free(bench.arena);
    }
}

static void of_many_the_first_are_named(void **state) {
    (void)state;
    enum { MANY = 16000 };
    struct bench bench;
    bench_new(&bench, 1);
    struct run *runs = ARENA_ARRAY(bench.arena, struct run, MANY);
    for (int i = 0; i < MANY; i++) {
        runs[i].name = arena_format(bench.arena, "r%d", i);
        add(&bench, &runs[i], SIDE_LEFT, 10, 0, false);
    }
    assert_int_equal(bench.openings.count, 0);
    assert_string_equal(openings_note(&bench.openings, bench.arena, "box"),
                        "the openings for r0, r1, r2, r3, r4, r5, r6, r7, r8, r9 and 15990 more have no room in this "
                        "box and are not on its pattern: cut them in place");
    arena_free(bench.arena);
}

static void nothing_is_said_of_none(void **state) {
    (void)state;
    struct bench bench;
    bench_new(&bench, 1);
    assert_null(openings_note(&bench.openings, bench.arena, "box"));
    arena_free(bench.arena);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(openings_that_cross_are_left_out),
        cmocka_unit_test(openings_a_quarter_apart_meet_on_narrow_round_duct),
        cmocka_unit_test(of_many_the_first_are_named),
        cmocka_unit_test(nothing_is_said_of_none),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
