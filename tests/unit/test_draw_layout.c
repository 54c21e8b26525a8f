/* Where the layout puts texts: never on a line or another text, never off the page, never nowhere. */
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <setjmp.h>
#include <cmocka.h>

#include <stdio.h>

#include "draw_bench.h"
#include "draw/lettering.h"
#include "near.h"

/* ---- Boxes ------------------------------------------------------------------------------------------------------- */

static struct sheet_box box_of(double x, double y, double half_width, double half_height, double degrees) {
    return (struct sheet_box){.centre = {x, y},
                              .along = {cos(degrees * DEGREE), sin(degrees * DEGREE)},
                              .half_width = half_width,
                              .half_height = half_height};
}

static void test_boxes_meet_only_when_they_share_room(void **state) {
    (void)state;
    struct sheet_box box = box_of(0, 0, 10, 2, 0);
    assert_true(box_meets_box(box, box_of(19, 0, 10, 2, 0)));
    assert_false(box_meets_box(box, box_of(20, 0, 10, 2, 0))); /* side by side */
    assert_false(box_meets_box(box, box_of(0, 4, 10, 2, 0)));
    assert_true(box_meets_box(box, box_of(0, 11, 10, 2, 90)));
    assert_false(box_meets_box(box, box_of(0, 12.1, 10, 2, 90)));
    struct sheet_box square = box_of(0, 0, 5, 5, 0);
    assert_true(box_meets_box(square, box_of(5.5, 5.5, 10, 1, 135)));
    assert_false(box_meets_box(square, box_of(6.4, 6.4, 10, 1, 135))); /* upright boxes around both would meet */
}

static void test_a_line_is_found_inside_a_box_and_where(void **state) {
    (void)state;
    double enter, leave;
    struct sheet_box box = box_of(0, 0, 10, 2, 0), turned = box_of(0, 0, 10, 2, 90);
    assert_true(box_meets_line(box, (struct spot){-20, 0}, (struct spot){20, 0}, &enter, &leave));
    assert_near(enter, 0.25, 1e-12);
    assert_near(leave, 0.75, 1e-12);
    assert_true(box_meets_line(turned, (struct spot){-20, 0}, (struct spot){20, 0}, &enter, &leave));
    assert_near(enter, 0.45, 1e-12);
    assert_false(box_meets_line(box, (struct spot){-20, 2}, (struct spot){20, 2}, &enter, &leave)); /* along its side */
    assert_true(box_meets_line(box, (struct spot){-1, 0}, (struct spot){1, 0}, &enter, &leave));    /* all inside */
    assert_false(box_meets_line(box, (struct spot){11, -5}, (struct spot){11, 5}, &enter, &leave));
}

/* Upright, level, or askew, and of any size. */
static struct sheet_box any_box(uint64_t *seed) {
    double turn = chance(seed) < 0.7 ? 90 * floor(4 * chance(seed)) : 360 * chance(seed);
    return box_of(600 * chance(seed) - 300, 600 * chance(seed) - 300, 60 * chance(seed), 10 * chance(seed), turn);
}

static struct spot any_spot(uint64_t *seed) {
    double x = 700 * chance(seed) - 350;
    return (struct spot){x, 700 * chance(seed) - 350};
}

/* However things lie on the grid, it tells what a look at each of them tells. */
static void test_the_grid_finds_what_a_look_at_everything_finds(void **state) {
    struct bench *bench = *state;
    enum { THINGS = 60, ASKED = 200 };
    size_t found = 0;
    for (uint64_t start = 1; start <= 20; start++) {
        uint64_t seed = start * 0x9e3779b97f4a7c15u;
        struct obstacles *all = obstacles_new(bench->arena);
        struct sheet_box boxes[THINGS];
        struct spot from[THINGS], to[THINGS];
        for (int i = 0; i < THINGS; i++) {
            obstacles_add_box(all, boxes[i] = any_box(&seed), i % 2 ? OBSTACLE_TEXT : OBSTACLE_PLACE);
            from[i] = any_spot(&seed);
            to[i] = i % 3 ? any_spot(&seed) : (struct spot){from[i].x, from[i].y + 200 * chance(&seed)};
            obstacles_add_line(all, from[i], to[i]);
        }
        for (int asked = 0; asked < ASKED; asked++) {
            struct sheet_box box = any_box(&seed);
            struct spot begin = any_spot(&seed), end = any_spot(&seed);
            bool texts = false, places = false, lines = false, covered = false;
            double enter, leave;
            for (int i = 0; i < THINGS; i++) {
                bool meets = box_meets_box(box, boxes[i]);
                texts |= i % 2 && meets;
                places |= i % 2 == 0 && meets;
                lines |= box_meets_line(box, from[i], to[i], &enter, &leave);
                covered |= i % 2 && box_meets_line(boxes[i], begin, end, &enter, &leave);
            }
            assert_int_equal(obstacles_meet_box(all, box, OBSTACLE_TEXT), texts);
            assert_int_equal(obstacles_meet_box(all, box, OBSTACLE_PLACE), places);
            assert_int_equal(obstacles_meet_box(all, box, OBSTACLE_LINE), lines);
            assert_int_equal(obstacles_meet_box(all, box, OBSTACLE_DIMENSION), false);
            assert_int_equal(obstacles_meet_line(all, begin, end), covered);
            found += (size_t)(texts + places + lines + covered);
        }
    }
    assert_in_range(found, 1000, 15000); /* neither nearly all nor nearly none of what was asked */
}

/* ---- Dense figures ----------------------------------------------------------------------------------------------- */

static const char *const words[] = {
    "flange", "bend up 90°", "seam A", "12-5/16", "ö", "8 in round toward the sacristy", "Café d'Été, 3-1/2 × 7",
    "drive"};

static struct spot anywhere(uint64_t *seed, double size) {
    double x = chance(seed), y = chance(seed);
    return inches(x * size, y * size);
}

static const char *numbered(struct arena *arena, const char *word, int i) {
    return arena_format(arena, "%s <%d>", word, i);
}

static void add_lines(struct figure *figure, uint64_t *seed, double size) {
    for (int i = 0; i < 12; i++) {
        enum stroke stroke = (enum stroke)(chance(seed) * STROKE_THIN);
        struct spot from = anywhere(seed, size), to = anywhere(seed, size);
        struct figure_path *path = figure_path(figure, stroke, from);
        path_arc(figure, path, to, chance(seed) < 0.5 ? 0 : 6 * chance(seed) - 3);
    }
    figure_circle(figure, STROKE_CUT, anywhere(seed, size), 0.2 * size * chance(seed) * INCH);
}

static void add_texts(struct figure *figure, uint64_t *seed, double size) {
    enum { WORDS = sizeof words / sizeof *words };
    for (int i = 0; i < 24; i++) {
        const char *text = numbered(figure->arena, words[i % WORDS], i);
        struct spot from = anywhere(seed, size), to = anywhere(seed, size);
        if (i % 3 == 0)
            figure_label(figure, text, from, (unsigned)(chance(seed) * 64), LETTER_PLAIN);
        else if (i % 3 == 1)
            figure_label_line(figure, text, from, to, LETTER_SMALL);
        else if (i % 9 == 8)
            figure_radius(figure, from, to, chance(seed) < 0.5, text);
        else
            figure_dimension(figure, from, to, (enum figure_side)(chance(seed) * 6), text);
    }
    struct figure_ordinates *stick =
        figure_ordinates(figure, anywhere(seed, size), (enum figure_side)(chance(seed) * 4), chance(seed) < 0.5, "0");
    double at = 0;
    for (int i = 24; i < 34; i++)
        ordinates_mark(figure, stick, (at += chance(seed) * size / 10) * INCH, numbered(figure->arena, "m", i));
}

/* Each text is marked with its number, so that none can stand for another. */
static void assert_all_shown(const struct sheet *sheet, int count, uint64_t seed) {
    char number[16];
    for (int i = 0; i < count; i++) {
        snprintf(number, sizeof number, "<%d>", i);
        if (!letters_shown(sheet, number))
            fail_msg("seed %llu: the text with %s is nowhere", (unsigned long long)seed, number);
    }
}

static void test_dense_figures_have_no_text_on_a_text_or_a_line(void **state) {
    struct bench *bench = *state;
    static const double sizes[] = {0.5, 4, 40, 400};
    for (uint64_t start = 1; start <= 120; start++) {
        uint64_t seed = start * 0x9e3779b97f4a7c15u;
        double size = sizes[start % 4];
        struct figure *figure = figure_new(bench->arena, "Dense", "made by chance");
        add_lines(figure, &seed, size);
        add_texts(figure, &seed, size);
        figure_note(figure, "A note that is so long that it takes more than a line of the page: the marks are measured "
                            "from the left edge, the holes from their centres, the bends from the first mark.");
        enum sheet_mode mode = size < 10 && start % 2 ? SHEET_FULL_SIZE : SHEET_FIT;
        const struct sheet *sheet = sheet_lay_out(figure, mode);
        assert_sheet_clear(sheet);
        assert_all_shown(sheet, 34, start);
    }
}

static void test_labels_of_one_place_all_find_room(void **state) {
    struct bench *bench = *state;
    struct figure *figure = figure_new(bench->arena, "Crowd", NULL);
    figure_circle(figure, STROKE_CUT, inches(10, 10), 10 * INCH);
    for (int i = 0; i < 80; i++)
        figure_label(figure, numbered(bench->arena, "hole", i), inches(10, 10), TOWARD_HERE, LETTER_PLAIN);
    const struct sheet *sheet = sheet_lay_out(figure, SHEET_FIT);
    assert_sheet_clear(sheet);
    assert_all_shown(sheet, 80, 0);
}

/* ---- Dimensions -------------------------------------------------------------------------------------------------- */

static const struct sheet_stroke *outline(const struct sheet *sheet) {
    assert_true(sheet->strokes.count > 0);
    return &sheet->strokes.at[0];
}

static void add_blank(struct figure *figure, double width, double height) {
    const struct spot corners[] = {inches(0, 0), inches(width, 0), inches(width, height), inches(0, height)};
    figure_polygon(figure, STROKE_CUT, SHADE_NONE, corners, 4);
}

static void test_a_dimension_stands_between_its_ends_when_it_has_room(void **state) {
    struct bench *bench = *state;
    struct figure *figure = figure_new(bench->arena, "Blank", NULL);
    add_blank(figure, 40, 20);
    figure_dimension(figure, inches(0, 0), inches(40, 0), FIGURE_BELOW, "40");
    figure_dimension(figure, inches(40, 0), inches(40, 0.5), FIGURE_RIGHT, "1/2");
    const struct sheet *sheet = sheet_lay_out(figure, SHEET_FIT);
    assert_sheet_clear(sheet);
    const struct spot *corners = outline(sheet)->points; /* left bottom, right bottom, right top, left top */
    struct sheet_box wide = letters_find(sheet, "40")->box, small = letters_find(sheet, "1/2")->box;
    assert_near(wide.centre.x, (corners[0].x + corners[1].x) / 2, 1e-9);
    assert_true(wide.centre.y > corners[0].y);
    assert_true(small.centre.x > corners[1].x);
    assert_true(small.centre.y + small.half_width < corners[1].y - 0.5 * 72 / sheet->ratio ||
                small.centre.y - small.half_width > corners[1].y);
    assert_near(small.along.y, -1, 1e-12); /* read from the right */
}

/* 18 pt of it have room for a digit, but not for two heads beside it: these stand outside. */
static void test_a_short_dimension_has_its_text_between_its_ends(void **state) {
    struct bench *bench = *state;
    double ratio = 6;
    const struct sheet *sheet = NULL;
    for (int i = 0; i < 2; i++, ratio = sheet->ratio) {
        struct figure *figure = figure_new(bench->arena, "Blank", NULL);
        add_blank(figure, 40, 20);
        figure_dimension(figure, inches(40, 0), inches(40, 18 * ratio / 72), FIGURE_RIGHT, "4");
        sheet = sheet_lay_out(figure, SHEET_FIT);
        assert_sheet_clear(sheet);
    }
    const struct spot *corners = outline(sheet)->points;
    struct sheet_box text = letters_find(sheet, "4")->box;
    assert_near(text.centre.y, corners[1].y - 9, 1e-6);
    assert_true(2 * text.half_width < 18 && 2 * text.half_width > 18 - 2 * 8);
}

static void test_short_dimensions_stand_nearer_than_long_ones(void **state) {
    struct bench *bench = *state;
    struct figure *figure = figure_new(bench->arena, "Blank", NULL);
    add_blank(figure, 40, 20);
    figure_dimension(figure, inches(0, 0), inches(40, 0), FIGURE_BELOW, "40");
    figure_dimension(figure, inches(0, 0), inches(15, 0), FIGURE_BELOW, "15");
    figure_dimension(figure, inches(15, 0), inches(40, 0), FIGURE_BELOW, "25");
    const struct sheet *sheet = sheet_lay_out(figure, SHEET_FIT);
    double near = letters_find(sheet, "15")->box.centre.y;
    assert_near(letters_find(sheet, "25")->box.centre.y, near, 1e-9); /* a chain stands on one row */
    assert_true(letters_find(sheet, "40")->box.centre.y > near + 5);
}

/* ---- Story sticks ------------------------------------------------------------------------------------------------ */

static void test_marks_keep_their_order_and_their_distance(void **state) {
    struct bench *bench = *state;
    struct figure *figure = figure_new(bench->arena, "Stick", NULL);
    add_blank(figure, 40, 20);
    struct figure_ordinates *stick = figure_ordinates(figure, inches(0, 20), FIGURE_ABOVE, false, "0");
    for (int i = 1; i <= 30; i++)
        ordinates_mark(figure, stick, (20 + i * 0.1) * INCH, numbered(bench->arena, "at", i));
    const struct sheet *sheet = sheet_lay_out(figure, SHEET_FIT);
    assert_sheet_clear(sheet);
    double before = letters_find(sheet, "0")->box.centre.x;
    for (int i = 1; i <= 30; i++) {
        const struct sheet_letters *letters = letters_find(sheet, numbered(bench->arena, "at", i));
        assert_non_null(letters);
        assert_true(letters->box.centre.x >= before + 2 * letters->box.half_height);
        before = letters->box.centre.x;
    }
}

static void test_too_many_marks_are_numbered_and_listed(void **state) {
    struct bench *bench = *state;
    struct figure *figure = figure_new(bench->arena, "Gore", NULL);
    add_blank(figure, 36, 8);
    struct figure_ordinates *stick = figure_ordinates(figure, inches(36, 0), FIGURE_BELOW, true, "0");
    for (int i = 1; i <= 144; i++)
        ordinates_mark(figure, stick, i * 0.25 * INCH, numbered(bench->arena, "at", i));
    const struct sheet *sheet = sheet_lay_out(figure, SHEET_FIT);
    assert_sheet_clear(sheet);
    assert_non_null(letters_find(sheet, "mark 1: at <1>"));
    assert_non_null(letters_find(sheet, "mark 144: at <144>"));
    assert_non_null(letters_find(sheet, "140"));
    assert_null(letters_find(sheet, "141"));
}

/* ---- Texts and pages --------------------------------------------------------------------------------------------- */

static void test_long_labels_are_broken_into_lines(void **state) {
    struct bench *bench = *state;
    struct figure *figure = figure_new(bench->arena, "Long", NULL);
    char text[600];
    for (size_t i = 0; i + 1 < sizeof text; i++)
        text[i] = i % 7 == 6 ? ' ' : 'm';
    text[sizeof text - 1] = '\0';
    figure_label(figure, text, inches(1, 1), 0, LETTER_PLAIN);
    const struct sheet *sheet = sheet_lay_out(figure, SHEET_FIT);
    assert_sheet_clear(sheet);
    struct sheet_box box = letters_find(sheet, text)->box;
    assert_true(2 * box.half_width <= 150);
    assert_true(box.half_height > 50);
}

static void test_accents_take_the_room_of_their_letters(void **state) {
    (void)state;
    double plain, accented, height, same;
    struct lettering *lettering = lettering_new();
    lettering_measure(lettering, "cote", LETTER_PLAIN, 0, &plain, &height);
    lettering_measure(lettering, "côté", LETTER_PLAIN, 0, &accented, &same);
    lettering_free(lettering);
    assert_near(plain, accented, 0.01);
    assert_near(height, same, 1e-9);
    assert_true(plain > 10 && plain < 30);
}

static void test_an_empty_figure_is_a_page_with_its_title(void **state) {
    struct bench *bench = *state;
    const struct sheet *sheet = sheet_lay_out(figure_new(bench->arena, "Nothing", NULL), SHEET_FIT);
    assert_sheet_clear(sheet);
    assert_non_null(letters_find(sheet, "Nothing"));
    assert_true(sheet->height < 100);
    const struct sheet *bare = sheet_lay_out(figure_new(bench->arena, NULL, NULL), SHEET_FULL_SIZE);
    assert_sheet_clear(bare);
}

static void test_the_scale_is_the_largest_plain_one_that_fits(void **state) {
    struct bench *bench = *state;
    static const struct {
        double width, height, ratio;
        bool metric;
    } rows[] = {{6, 4, 1, false},     {12, 4, 2, false},  {40, 20, 6, false}, {42, 50, 8, false},
                {600, 10, 96, false}, {40, 20, 10, true}, {12, 4, 2, true}};
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        struct figure *figure = figure_new(bench->arena, "Blank", NULL);
        figure->metric = rows[i].metric;
        add_blank(figure, rows[i].width, rows[i].height);
        const struct sheet *sheet = sheet_lay_out(figure, SHEET_FIT);
        assert_near(sheet->ratio, rows[i].ratio, 1e-9);
        assert_non_null(letters_find(sheet, arena_format(bench->arena, "scale 1:%.0f", rows[i].ratio)));
        assert_true(sheet->width <= 7.2 * 72 + 1e-9);
    }
}

static void test_a_drawing_is_made_for_the_room_there_is(void **state) {
    struct bench *bench = *state;
    double before = INFINITY;
    for (double tallest = 700; tallest >= 150; tallest -= 50) {
        struct figure *figure = figure_new(bench->arena, "Blank", NULL);
        add_blank(figure, 20, 30);
        const struct sheet *sheet = sheet_lay_out_in(figure, 1, INFINITY, tallest);
        assert_sheet_clear(sheet);
        assert_true(sheet->height <= tallest);
        assert_true(sheet->height <= before && sheet->height > 0.4 * tallest);
        before = sheet->height;
    }
}

static void test_a_drawing_that_would_be_too_small_is_not_made(void **state) {
    struct bench *bench = *state;
    struct figure *figure = figure_new(bench->arena, "Blank", NULL);
    add_blank(figure, 20, 30);
    const struct sheet *sheet = sheet_lay_out_in(figure, 1, INFINITY, 300);
    assert_true(sheet->ratio > 4);
    assert_null(sheet_lay_out_in(figure, 1, sheet->ratio - 1, 300));
    const struct sheet *just = sheet_lay_out_in(figure, 1, sheet->ratio, 300);
    assert_near(just->ratio, sheet->ratio, 1e-9);
    assert_near(just->height, sheet->height, 1e-9);
    assert_sheet_clear(just);
}

static void test_the_key_names_the_lines_in_use_and_no_others(void **state) {
    struct bench *bench = *state;
    struct figure *figure = figure_new(bench->arena, "Blank", NULL);
    add_blank(figure, 10, 10);
    figure_line(figure, STROKE_BEND_DOWN, inches(5, 0), inches(5, 10));
    figure->key[STROKE_CUT] = "shear";
    const struct sheet *sheet = sheet_lay_out(figure, SHEET_FIT);
    assert_non_null(letters_find(sheet, "shear"));
    assert_non_null(letters_find(sheet, "bend down"));
    assert_null(letters_find(sheet, "cut"));
    assert_null(letters_find(sheet, "bend up"));
}

/* ---- Marks, insides, sketches ------------------------------------------------------------------------------------ */

static void test_no_label_stands_inside_what_is_kept_free(void **state) {
    struct bench *bench = *state;
    for (int kept = 0; kept < 2; kept++) {
        struct figure *figure = figure_new(bench->arena, "Kept", NULL);
        add_blank(figure, 60, 40);
        if (kept)
            figure_keep_inside(figure);
        for (int i = 0; i < 12; i++)
            figure_label(figure, numbered(bench->arena, "in", i), inches(30, 20), TOWARD_HERE, LETTER_SMALL);
        const struct sheet *sheet = sheet_lay_out(figure, SHEET_FIT);
        assert_sheet_clear(sheet);
        assert_all_shown(sheet, 12, 0);
        const struct spot *corners = outline(sheet)->points;
        size_t inside = 0;
        for (size_t i = 0; i < sheet->letters.count; i++) {
            struct spot at = sheet->letters.at[i].box.centre;
            inside += at.x > corners[0].x && at.x < corners[1].x && at.y < corners[0].y && at.y > corners[2].y;
        }
        assert_int_equal(inside > 0, !kept);
    }
}

/* On any scale a bar reaches as far beyond what it stands across, and no text lies on it. */
static void test_bars_are_as_plain_on_any_scale(void **state) {
    struct bench *bench = *state;
    for (int size = 1; size < 2000; size *= 7) {
        struct figure *figure = figure_new(bench->arena, "Bars", NULL);
        add_blank(figure, 10 * size, size);
        figure_bar(figure, inches(5 * size, size / 2.0), (struct spot){0, 1}, size / 2.0 * INCH);
        figure_label(figure, "across", inches(5 * size, size / 2.0), TOWARD_HERE, LETTER_SMALL);
        figure->bar_key = "hangers";
        const struct sheet *sheet = sheet_lay_out(figure, SHEET_FIT);
        assert_sheet_clear(sheet);
        assert_true(letters_shown(sheet, "hangers"));
        const struct sheet_stroke *bar = &sheet->strokes.at[3]; /* behind the outline and its two dots */
        assert_int_equal(bar->count, 2);
        double length = fabs(bar->points[1].y - bar->points[0].y), across = size * 72 / sheet->ratio;
        assert_true(length > across + 4 && length < across + 8);
    }
}

static void test_a_sketch_fills_the_page(void **state) {
    struct bench *bench = *state;
    for (int size = 100; size < 200; size += 7) {
        struct figure *figure = figure_new(bench->arena, "View", NULL);
        figure->sketch = true;
        add_blank(figure, size, size / 2.0);
        const struct sheet *sheet = sheet_lay_out(figure, SHEET_FIT);
        double width = size * 72 / sheet->ratio;
        assert_true(width < 503 && width > 502 / 1.09);
        figure->largest = 48;
        assert_near(sheet_lay_out(figure, SHEET_FIT)->ratio, 48, 1e-9);
    }
}

static void test_north_stands_beside_the_title(void **state) {
    struct bench *bench = *state;
    struct figure *figure = figure_new(bench->arena,
                                       "A title that is long enough to come near to what stands beside it, "
                                       "and is broken into lines before it does",
                                       "and more");
    figure->north = true;
    add_blank(figure, 60, 40);
    const struct sheet *sheet = sheet_lay_out(figure, SHEET_FIT);
    assert_sheet_clear(sheet);
    assert_true(letters_find(sheet, "N")->box.centre.y < outline(sheet)->points[2].y - 5);
}

/* Two bands side by side, too thin and too near to each other for a text. */
static struct figure *two_bands(struct bench *bench, const char *upper, const char *lower) {
    struct figure *figure = figure_new(bench->arena, "Two bands", NULL);
    for (int i = 0; i < 2; i++) {
        double y = i ? -2 : 2;
        const struct spot corners[4] = {inches(0, y - 1), inches(150, y - 1), inches(150, y + 1), inches(0, y + 1)};
        figure_polygon(figure, STROKE_CUT, SHADE_NONE, corners, 4);
        figure_label_band(figure, i ? lower : upper, inches(30, y), inches(60, y), 1 * INCH, LETTER_SMALL);
    }
    return figure;
}

static bool crosses(struct spot a, struct spot b, struct spot c, struct spot d) {
    double one = (b.x - a.x) * (c.y - a.y) - (b.y - a.y) * (c.x - a.x);
    double other = (b.x - a.x) * (d.y - a.y) - (b.y - a.y) * (d.x - a.x);
    double from = (d.x - c.x) * (a.y - c.y) - (d.y - c.y) * (a.x - c.x);
    double to = (d.x - c.x) * (b.y - c.y) - (d.y - c.y) * (b.x - c.x);
    return one * other < 0 && from * to < 0;
}

/* How many sides of the bands, which stand first on the sheet, a leader passes. */
static int sides_passed(const struct sheet *sheet, const struct sheet_stroke *leader) {
    int passed = 0;
    for (size_t i = 0; i < 2; i++)
        for (size_t j = 0; j < 4; j++)
            passed += crosses(leader->points[0], leader->points[1], sheet->strokes.at[i].points[j],
                              sheet->strokes.at[i].points[(j + 1) % 4]);
    return passed;
}

static void test_a_leader_passes_no_band_but_its_own(void **state) {
    struct bench *bench = *state;
    struct figure *figure = two_bands(bench, "a long name of the upper one of two bands",
                                      "a long name of the lower one, which is as long as that of the upper");
    const struct sheet *sheet = sheet_lay_out(figure, SHEET_FIT);
    assert_sheet_clear(sheet);
    int leaders = 0;
    for (size_t i = 2; i < sheet->strokes.count; i++)
        if (sheet->strokes.at[i].stroke == STROKE_THIN) {
            assert_int_equal(sides_passed(sheet, &sheet->strokes.at[i]), 1);
            leaders++;
        }
    assert_int_equal(leaders, 2);
}

/* A name as short as the band stands beside it without a leader, on the side away from the other. */
static void test_a_short_name_stands_beside_its_band(void **state) {
    struct bench *bench = *state;
    const struct sheet *sheet = sheet_lay_out(two_bands(bench, "upper", "lower"), SHEET_FIT);
    assert_sheet_clear(sheet);
    double upper = letters_find(sheet, "upper")->box.centre.y, lower = letters_find(sheet, "lower")->box.centre.y;
    assert_true(upper < outline(sheet)->points[2].y && outline(sheet)->points[2].y - upper < 10);
    assert_true(lower > sheet->strokes.at[1].points[0].y && lower - sheet->strokes.at[1].points[0].y < 10);
    for (size_t i = 0; i < sheet->strokes.count; i++)
        assert_true(sheet->strokes.at[i].stroke != STROKE_THIN);
}

/* Each against a look at every line. */
static void test_the_grid_counts_the_lines_that_a_leader_passes(void **state) {
    struct bench *bench = *state;
    uint64_t seed = 9;
    for (int trial = 0; trial < 50; trial++) {
        struct obstacles *all = obstacles_new(bench->arena);
        struct spot from[40], to[40];
        for (int i = 0; i < 40; i++) {
            from[i] = any_spot(&seed);
            to[i] = any_spot(&seed);
            obstacles_add_line(all, from[i], to[i]);
        }
        for (int i = 0; i < 40; i++) {
            struct spot a = any_spot(&seed), b = any_spot(&seed);
            size_t passed = 0;
            for (int k = 0; k < 40; k++)
                passed += crosses(a, b, from[k], to[k]);
            assert_int_equal(obstacles_lines_passed(all, a, b), passed);
        }
    }
}

int main(void) {
#define TEST(name) cmocka_unit_test_setup_teardown(name, bench_setup, bench_teardown)
    const struct CMUnitTest tests[] = {
        TEST(test_boxes_meet_only_when_they_share_room),
        TEST(test_a_line_is_found_inside_a_box_and_where),
        TEST(test_the_grid_finds_what_a_look_at_everything_finds),
        TEST(test_dense_figures_have_no_text_on_a_text_or_a_line),
        TEST(test_labels_of_one_place_all_find_room),
        TEST(test_a_dimension_stands_between_its_ends_when_it_has_room),
        TEST(test_a_short_dimension_has_its_text_between_its_ends),
        TEST(test_short_dimensions_stand_nearer_than_long_ones),
        TEST(test_marks_keep_their_order_and_their_distance),
        TEST(test_too_many_marks_are_numbered_and_listed),
        TEST(test_long_labels_are_broken_into_lines),
        TEST(test_accents_take_the_room_of_their_letters),
        TEST(test_an_empty_figure_is_a_page_with_its_title),
        TEST(test_the_scale_is_the_largest_plain_one_that_fits),
        TEST(test_a_drawing_is_made_for_the_room_there_is),
        TEST(test_a_drawing_that_would_be_too_small_is_not_made),
        TEST(test_the_key_names_the_lines_in_use_and_no_others),
        TEST(test_no_label_stands_inside_what_is_kept_free),
        TEST(test_bars_are_as_plain_on_any_scale),
        TEST(test_a_sketch_fills_the_page),
        TEST(test_north_stands_beside_the_title),
        TEST(test_a_leader_passes_no_band_but_its_own),
        TEST(test_a_short_name_stands_beside_its_band),
        TEST(test_the_grid_counts_the_lines_that_a_leader_passes),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
