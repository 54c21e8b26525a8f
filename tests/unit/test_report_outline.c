/* Outlines of bodies on a drawing, and what they cover. */
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <setjmp.h>
#include <cmocka.h>

#include "draw_bench.h"
#include "near.h"
#include "report/figure_outline.h"

static double turning(struct spot a, struct spot b, struct spot c) {
    return (b.x - a.x) * (c.y - a.y) - (b.y - a.y) * (c.x - a.x);
}

static double area_of(const struct outline *outline) {
    double twice = 0;
    for (size_t i = 0; i < outline->count; i++) {
        struct spot a = outline->corners[i].at, b = outline->corners[(i + 1) % outline->count].at;
        twice += a.x * b.y - a.y * b.x;
    }
    return twice / 2;
}

/* The middle of an elbow, seen so: its corners come in any order along the line, and off it by rounding.  By hand: one
 * end 0.6 m tall, the other 0.4, 0.1 m apart: (0.6 + 0.4) / 2 * 0.1. */
static void a_section_seen_from_its_edge_keeps_all_its_corners(void **state) {
    (void)state;
    uint64_t seed = 77;
    for (int trial = 0; trial < 2000; trial++) {
        static const double near[4] = {0, 0.6, 0.2, 0.41}, far[4] = {0.3, 0.1, 0.5, 0.17};
        struct outline outline = {0};
        for (int i = 0; i < 8; i++) {
            int at = (i % 4 + trial) % 4;
            double noise = 2e-16 * floor(5 * chance(&seed) - 2);
            outline_add(&outline, (struct spot){(i < 4 ? 1.25 : 1.35) + noise, i < 4 ? near[at] : far[at]}, i / 4);
        }
        outline_enclose(&outline);
        assert_int_equal(outline.count, 4);
        assert_near(area_of(&outline), 0.05, 1e-8);
    }
}

static void all_corners_lie_in_the_outline(void **state) {
    (void)state;
    uint64_t seed = 5;
    for (int trial = 0; trial < 500; trial++) {
        struct outline outline = {0};
        size_t count = 3 + (size_t)(chance(&seed) * (OUTLINE_CORNERS - 3));
        for (size_t i = 0; i < count; i++)
            outline_add(&outline, (struct spot){chance(&seed), chance(&seed)}, i % 2);
        struct outline all = outline;
        outline_enclose(&outline);
        assert_true(outline.count >= 3 && outline.count <= count);
        for (size_t i = 0; i < count; i++)
            for (size_t k = 0; k < outline.count; k++)
                assert_true(turning(outline.corners[k].at, outline.corners[(k + 1) % outline.count].at,
                                    all.corners[i].at) > -1e-9);
    }
}

/* A square from 0 to 1, by hand. */
static void what_an_outline_covers_of_a_line(void **state) {
    (void)state;
    struct outline square = {0};
    for (int i = 0; i < 4; i++)
        outline_add(&square, (struct spot){i % 2, i / 2}, 0);
    outline_enclose(&square);
    static const struct {
        struct spot a, b;
        double from, to;
    } rows[] = {
        {{-1, 0.5}, {3, 0.5}, 0.25, 0.5},
        {{0.2, 0.2}, {0.8, 0.9}, 0, 1},
        {{0.5, 0.5}, {0.5, 2.5}, 0, 0.25},
        {{-1, -0.5}, {1, 1.5}, 0.5, 0.75},
    };
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        struct line_part part = outline_covers(&square, rows[i].a, rows[i].b);
        assert_near(part.from, rows[i].from, 1e-9);
        assert_near(part.to, rows[i].to, 1e-9);
    }
    struct line_part none = outline_covers(&square, (struct spot){-1, 1.5}, (struct spot){2, 1.2});
    assert_true(none.to <= none.from);
    struct line_part past = outline_covers(&square, (struct spot){-1, 0.5}, (struct spot){0.5, 3});
    assert_true(past.to <= past.from);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_section_seen_from_its_edge_keeps_all_its_corners),
        cmocka_unit_test(all_corners_lie_in_the_outline),
        cmocka_unit_test(what_an_outline_covers_of_a_line),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
