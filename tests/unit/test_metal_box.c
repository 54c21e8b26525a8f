/* Plenum boxes, caps and damper blades: proved for random sizes, held against closed forms, and faulted; and what a job
 * asks for. */
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <setjmp.h>
#include <cmocka.h>

#include "compiled.h"
#include "metal/shape_box.h"
#include "model/job.h"
#include "near.h"
#include "solid_prove.h"
#include "solid_sums.h"

enum { TRIES = 200, MOST_TAPS = 1 };

struct tapped_box {
    struct box_size box;
    struct wall_opening openings[MOST_TAPS];
    double room[64]; /* the prover copies as much when it looks for the least failure */
};

/* Smaller than the box, as large, as wide, as high, or none. */
static struct profile random_end(const struct box_size *box) {
    double least = fmin(box->width, box->height);
    if (random_chance(0.2))
        return (struct profile){0, 0, 0};
    if (random_chance(0.3))
        return (struct profile){box->width, box->height, 0};
    if (random_chance(0.3))
        return (struct profile){box->width, box->height * 0.6, 0};
    if (random_chance(0.3))
        return (struct profile){box->width * 0.6, box->height, 0};
    if (random_chance(0.5))
        return (struct profile){least * 0.8, least * 0.8, least * 0.4};
    return (struct profile){box->width * 0.7, box->height * 0.9, 0};
}

static struct wall_opening random_opening(const struct box_size *box) {
    double most = fmin(fmin(box->width, box->height), box->length) * 0.6, width = random_between(0.3, 1) * most;
    struct tap_size tap = {.style = TAP_STRAIGHT, .run = {width, width, random_chance(0.5) ? width / 2 : 0}};
    enum side side = (enum side)(SIDE_LEFT + random_below(4));
    tap_on(&tap, side, (struct profile){box->width, box->height, 0});
    tap_lengths(&tap);
    return (struct wall_opening){
        .side = side,
        .station = box->length / 2,
        .section = {tap.run.radius > 0 ? SHAPE_ROUND : SHAPE_RECTANGULAR, width, width},
        .tap = tap,
    };
}

static void boxes_are_proved(void **state) {
    (void)state;
    for (int n = 0; n < TRIES; n++) {
        struct tapped_box tapped = {0};
        struct box_size *box = &tapped.box;
        *box = (struct box_size){.width = random_between(6, 40) * INCH,
                                 .height = random_between(6, 40) * INCH,
                                 .length = random_between(6, 60) * INCH};
        box->near = random_end(box);
        box->far = random_end(box);
        if (box->near.width <= 0)
            box->near = (struct profile){box->width / 2, box->height / 2, 0};
        box->face = random_chance(0.3);
        box->openings = random_below(MOST_TAPS + 1);
        tapped.openings[0] = random_opening(box);
        solid_prove("plenum box", shape_box, &tapped,
                    sizeof *box + (size_t)box->openings * sizeof(struct wall_opening));
    }
}

static void a_box_is_its_six_sides(void **state) {
    (void)state;
    struct tapped_box tapped = {
        .box = {20 * INCH, 16 * INCH, 24 * INCH, {8 * INCH, 8 * INCH, 4 * INCH}, {0, 0, 0}, 0, 0}};
    struct sums sums = sums_of(shape_box, &tapped, 1);
    assert_near(sums_area(&sums, NULL) / (INCH * INCH), 2 * (20 * 16 + 20 * 24 + 16 * 24), 1e-9);
    assert_int_equal(sums.solid->ports.count, 1);
    const struct solid_panel *near = NULL;
    for (size_t p = 0; p < sums.solid->panels.count; p++)
        if (strcmp(sums.solid->panels.at[p].name, "near end") == 0)
            near = &sums.solid->panels.at[p];
    assert_non_null(near);
    assert_int_equal(near->openings.count, 1);
    assert_true(near->openings.at[0].round);
    assert_near(near->openings.at[0].radius / INCH, 4, 1e-9);
    sums_free(&sums);
    /* Ends as large as the box have no plate. */
    tapped.box.near = tapped.box.far = (struct profile){20 * INCH, 16 * INCH, 0};
    sums = sums_of(shape_box, &tapped, 1);
    assert_near(sums_area(&sums, NULL) / (INCH * INCH), 2 * (20 * 24 + 16 * 24), 1e-9);
    sums_free(&sums);
}

static void impossible_boxes_are_told(void **state) {
    (void)state;
    struct tapped_box tapped = {.box = {20 * INCH, 16 * INCH, 24 * INCH, {22 * INCH, 8 * INCH, 0}, {0, 0, 0}, 0, 0}};
    assert_fault(shape_box, &tapped, "larger than the box");
    tapped.box.near = (struct profile){8 * INCH, 8 * INCH, 0};
    tapped.box.openings = 1;
    tapped.openings[0] = random_opening(&tapped.box);
    assert_true(box_takes(&tapped.box, &tapped.openings[0]));
    tapped.openings[0].station = 1 * INCH;
    assert_false(box_takes(&tapped.box, &tapped.openings[0]));
    assert_fault(shape_box, &tapped, "larger than the side of the box");
    tapped.openings[0].station = 12 * INCH;
    tapped.openings[0].section.width = tapped.openings[0].section.height = 21 * INCH;
    assert_fault(shape_box, &tapped, "larger than the side of the box");
}

/* ---- Caps and blades --------------------------------------------------------------------------------------------- */

static void a_cap_is_one_sheet_with_a_rim(void **state) {
    (void)state;
    for (int n = 0; n < TRIES; n++) {
        double width = random_between(2, 60) * INCH, height = random_between(2, 60) * INCH, rim = cap_rim();
        struct profile duct = {width, height, 0};
        struct sums sums = sums_of(shape_cap, &duct, 1);
        assert_null(sums.solid->fault);
        double over_width = width + INCH / 8, over_height = height + INCH / 8; /* 1/16 in on each side */
        assert_near(sums_area(&sums, NULL), over_width * over_height + 2 * rim * (over_width + over_height), 1e-12);
        blank_list blanks = {0};
        solid_blanks(sums.solid, 0, &blanks);
        assert_int_equal(blanks.count, 1);
        assert_int_equal(blanks.at[0].bends.count, 4);
        for (size_t i = 0; i < 4; i++)
            assert_near(blanks.at[0].bends.at[i].angle, PI / 2, 1e-9); /* up, toward the duct */
        sums_free(&sums);
        struct profile round = {width, width, width / 2};
        sums = sums_of(shape_cap, &round, 1);
        assert_null(sums.solid->fault);
        assert_near(sums_area(&sums, NULL), PI * pow(width / 2 + INCH / 16 + rim, 2), 1e-9);
        sums_free(&sums);
    }
}

static void a_blade_is_a_quarter_inch_less(void **state) {
    (void)state;
    struct profile rectangle = {14 * INCH, 8 * INCH, 0}, round = {8 * INCH, 8 * INCH, 4 * INCH},
                   oval = {14 * INCH, 8 * INCH, 4 * INCH};
    struct sums sums = sums_of(shape_blade, &rectangle, 1);
    assert_near(sums_area(&sums, NULL) / (INCH * INCH), 13.75 * 7.75, 1e-9);
    /* Half of 7-3/4; 10-3/4 between the ends' holes is one space of a foot at most. */
    assert_non_null(strstr(sums.solid->notes.at[0], "3-7/8 in from its edges, and punch 2 holes of 1/4 in"));
    assert_non_null(strstr(sums.solid->notes.at[1], "1-15/16 in from each long edge"));
    sums_free(&sums);
    sums = sums_of(shape_blade, &round, 1);
    assert_near(sums_area(&sums, NULL) / (INCH * INCH), PI * 7.75 * 7.75 / 4, 1e-9);
    sums_free(&sums);
    sums = sums_of(shape_blade, &oval, 1);
    assert_near(sums_area(&sums, NULL) / (INCH * INCH), PI * 7.75 * 7.75 / 4 + 6 * 7.75, 1e-9);
    sums_free(&sums);
    struct profile tiny = {0.2 * INCH, 8 * INCH, 0};
    assert_fault(shape_blade, &tiny, "too small for a damper");
}

/* ---- What a job asks for ----------------------------------------------------------------------------------------- */

static const struct part *part_of(const struct compiled *compiled, const char *title) {
    const struct metal *metal = compiled->job->metal;
    for (size_t i = 0; metal && i < metal->parts.count; i++)
        if (strstr(metal->parts.at[i]->title, title))
            return metal->parts.at[i];
    fail_msg("no part is called %s in:\n%s", title, compiled->text);
    return NULL;
}

static double bought_length(const struct compiled *compiled, const char *title) {
    const struct metal *metal = compiled->job->metal;
    for (size_t i = 0; metal && i < metal->bought.count; i++)
        if (strstr(metal->bought.at[i].title, title))
            return metal->bought.at[i].length;
    fail_msg("nothing bought is called %s in:\n%s", title, compiled->text);
    return 0;
}

static void pieces_say_what_is_made_and_bought(void **state) {
    (void)state;
    struct compiled compiled =
        compiled_text("job \"test\"\n"
                      "unit u { airflow 400 cfm; blower 400 cfm at 0.5 in.wg; supply 20 x 16; return 20 x 16 }\n"
                      "run plenum from u.supply { connector 4 in; box 22 x 20 x 36; cap }\n"
                      "outlet a from plenum at 18 in left { airflow 400 cfm; shape round; size 8 round; tap conical;"
                      " damper volume; flex 9 ft, stretched 90 %%; boot elbow; register 12 x 8 }\n"
                      "inlet b from u.return { boot straight; grille 24 x 20 }\n");
    assert_non_null(compiled.job->metal);
    const struct part *box = part_of(&compiled, "Plenum box");
    size_t openings = 0;
    for (size_t p = 0; p < box->solid->panels.count; p++)
        openings += box->solid->panels.at[p].openings.count;
    assert_int_equal(openings, 2); /* the collar's end and the tap; the far end is closed by the box */
    for (size_t i = 0; i < compiled.job->metal->parts.count; i++)
        assert_null(strstr(compiled.job->metal->parts.at[i]->title, "Cap"));
    assert_non_null(part_of(&compiled, "Tap, conical, 8 in round"));
    assert_non_null(part_of(&compiled, "Blade of a volume damper"));
    assert_non_null(part_of(&compiled, "Boot, elbow"));
    assert_non_null(part_of(&compiled, "Boot, straight"));
    assert_near(bought_length(&compiled, "Canvas") / INCH, 2 * (20 + 16) + 1, 1e-9);
    assert_near(bought_length(&compiled, "Flexible duct") / FOOT, 10, 1e-9);
    bought_length(&compiled, "Register, 12 x 8 in");
    bought_length(&compiled, "Grille, 24 x 20 in");
    compiled_free(&compiled);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(boxes_are_proved),
        cmocka_unit_test(a_box_is_its_six_sides),
        cmocka_unit_test(impossible_boxes_are_told),
        cmocka_unit_test(a_cap_is_one_sheet_with_a_rim),
        cmocka_unit_test(a_blade_is_a_quarter_inch_less),
        cmocka_unit_test(pieces_say_what_is_made_and_bought),
    };
    return cmocka_run_group_tests(tests, seed_random, NULL);
}
