/* What is in the SVG: true sizes, styles that differ without colour, the same bytes each time. */
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <setjmp.h>
#include <cmocka.h>

#include <stdio.h>

#include "draw_bench.h"
#include "draw/svg.h"
#include "near.h"
#include "ration.h"

static char *svg_of(const struct figure *figure, enum sheet_mode mode) {
    struct output *out = output_open_memory();
    assert_non_null(out);
    assert_true(sheet_write_svg(sheet_lay_out(figure, mode), out));
    size_t length;
    char *svg = output_take_memory(out, &length);
    assert_non_null(svg);
    assert_int_equal(strlen(svg), length);
    return svg;
}

/* The value of attribute `name` in the tag that begins at `tag`; "" when it has none. */
static void attribute(const char *tag, const char *name, char *value, size_t room) {
    const char *end = strchr(tag, '>'), *at = strstr(tag, name);
    size_t length = strlen(name);
    value[0] = '\0';
    while (at && at < end && at[length] != '=' && at[length] != ':')
        at = strstr(at + 1, name);
    if (!at || at >= end)
        return;
    at += length + 1 + (at[length] == '=');
    snprintf(value, room, "%.*s", (int)strcspn(at, "\";"), at);
}

/* The corners of the first path drawn with a line as thick as a cut. */
static size_t read_cut(const char *svg, struct spot *corners, size_t room) {
    for (const char *tag = strstr(svg, "<path"); tag; tag = strstr(tag + 1, "<path")) {
        char width[32];
        attribute(tag, "stroke-width", width, sizeof width);
        if (!(fabs(atof(width) - 1.3) < 1e-6))
            continue;
        size_t count = 0;
        const char *at = strstr(tag, " d=\"") + 4;
        while (*at != '"' && count < room) {
            if (*at == 'M' || *at == 'L') {
                char *next;
                corners[count].x = strtod(at + 1, &next);
                corners[count++].y = strtod(next, &next);
                at = next;
            } else {
                at++;
            }
        }
        return count;
    }
    return 0;
}

static double header_points(const char *svg, const char *name) {
    char value[32];
    attribute(strstr(svg, "<svg"), name, value, sizeof value);
    assert_non_null(strstr(value, "pt"));
    return atof(value);
}

static void test_full_size_is_true_to_a_thousandth_of_an_inch(void **state) {
    struct bench *bench = *state;
    const struct spot blank[] = {inches(0, 0), inches(41.1875, 0.0625), inches(40.3333, 23.71), inches(-1, 23.9)};
    struct figure *figure = figure_new(bench->arena, "Blank", NULL);
    figure_polygon(figure, STROKE_CUT, SHADE_NONE, blank, 4);
    char *svg = svg_of(figure, SHEET_FULL_SIZE);
    struct spot corners[8];
    assert_true(read_cut(svg, corners, 8) >= 4);
    for (int i = 0; i < 4; i++) {
        assert_near((corners[i].x - corners[0].x) / 72, blank[i].x / INCH, 1e-3);
        assert_near(-(corners[i].y - corners[0].y) / 72, blank[i].y / INCH, 1e-3);
    }
    /* A user unit is a point: the page is as many points as the view box has units. */
    double width = header_points(svg, "width"), height = header_points(svg, "height"), box[4];
    assert_int_equal(sscanf(strstr(svg, "viewBox"), "viewBox=\"%lf %lf %lf %lf", &box[0], &box[1], &box[2], &box[3]),
                     4);
    assert_near(box[0], 0, 0);
    assert_near(box[1], 0, 0);
    assert_near(box[2], width, 1e-6);
    assert_near(box[3], height, 1e-6);
    assert_true(width > 42.1875 * 72);
    free(svg);
}

static void test_the_bar_to_check_a_print_is_six_inches(void **state) {
    struct bench *bench = *state;
    for (int metric = 0; metric <= 1; metric++) {
        struct figure *figure = figure_new(bench->arena, "Nothing", NULL);
        figure->metric = metric;
        char *svg = svg_of(figure, SHEET_FULL_SIZE);
        struct spot ends[4];
        assert_int_equal(read_cut(svg, ends, 4), 2); /* in an empty figure nothing else is so thick */
        assert_near(hypot(ends[1].x - ends[0].x, ends[1].y - ends[0].y) / 72, metric ? 150 / 25.4 : 6, 1e-3);
        free(svg);
    }
}

static void test_lines_differ_in_width_or_dashes(void **state) {
    struct bench *bench = *state;
    char seen[STROKE_COUNT][96];
    for (int i = 0; i < STROKE_COUNT; i++) {
        struct figure *figure = figure_new(bench->arena, "Line", NULL);
        figure_line(figure, (enum stroke)i, inches(0, 0), inches(1, 0));
        char *svg = svg_of(figure, SHEET_FIT), width[32], dashes[48];
        const char *tag = strstr(svg, "stroke-width");
        while (*tag != '<')
            tag--;
        attribute(tag, "stroke-width", width, sizeof width);
        attribute(tag, "stroke-dasharray", dashes, sizeof dashes);
        snprintf(seen[i], sizeof seen[i], "%s / %s", width, dashes);
        for (int j = 0; j < i; j++)
            assert_string_not_equal(seen[i], seen[j]);
        free(svg);
    }
}

static struct figure *busy_figure(struct arena *arena) {
    struct figure *figure = figure_new(arena, "Été", "all of it");
    figure_circle(figure, STROKE_CUT, inches(5, 5), 5 * INCH);
    figure_line(figure, STROKE_CENTRE, inches(-1, 5), inches(11, 5));
    figure_label(figure, "hole", inches(5, 5), 0, LETTER_PLAIN);
    figure_label_line(figure, "bend", inches(0, 0), inches(10, 0), LETTER_SMALL);
    figure_dimension(figure, inches(0, 5), inches(10, 5), FIGURE_ABOVE, "10");
    figure_radius(figure, inches(5, 5), inches(5, 10), true, "R 5");
    figure_arrow(figure, inches(12, 0), inches(12, 5));
    figure_note(figure, "Note");
    struct figure_ordinates *stick = figure_ordinates(figure, inches(0, 0), FIGURE_LEFT, false, "0");
    ordinates_mark(figure, stick, 3 * INCH, "3");
    return figure;
}

static void test_the_same_figure_gives_the_same_bytes(void **state) {
    struct bench *bench = *state;
    for (int mode = SHEET_FIT; mode <= SHEET_FULL_SIZE; mode++) {
        char *first = svg_of(busy_figure(bench->arena), (enum sheet_mode)mode);
        free(svg_of(figure_new(bench->arena, "Another between", NULL), SHEET_FIT));
        char *second = svg_of(busy_figure(bench->arena), (enum sheet_mode)mode);
        assert_string_equal(first, second);
        free(first);
        free(second);
    }
}

/* Whether the layout came to its end with so many blocks of memory. */
static bool lays_out_in(size_t blocks) {
    struct arena_source source = ration_of(&blocks);
    struct arena *arena = arena_new(&source);
    jmp_buf full;
    assert_non_null(arena);
    if (setjmp(full)) {
        arena_free(arena);
        return false;
    }
    arena_on_failure(arena, &full);
    assert_sheet_clear(sheet_lay_out(busy_figure(arena), SHEET_FIT));
    arena_free(arena);
    return true;
}

static void test_memory_may_run_out_anywhere(void **state) {
    (void)state;
    assert_false(lays_out_in(1));
    size_t blocks = 2;
    while (blocks < 40 && !lays_out_in(blocks))
        blocks++;
    assert_true(blocks > 2 && blocks < 40);
}

int main(void) {
#define TEST(name) cmocka_unit_test_setup_teardown(name, bench_setup, bench_teardown)
    const struct CMUnitTest tests[] = {
        TEST(test_full_size_is_true_to_a_thousandth_of_an_inch),
        TEST(test_the_bar_to_check_a_print_is_six_inches),
        TEST(test_lines_differ_in_width_or_dashes),
        TEST(test_the_same_figure_gives_the_same_bytes),
        TEST(test_memory_may_run_out_anywhere),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
