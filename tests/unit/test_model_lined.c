/* Lined duct, by hand: sizes are clear, and the metal is larger by the lining on every side. */
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <setjmp.h>
#include <cmocka.h>

#include "air/fitting.h"
#include "base/constant.h"
#include "compiled.h"
#include "metal/metal.h"
#include "model/lined.h"
#include "model/piece.h"
#include "near.h"
#include "route/route.h"

/* 16 x 12 clear. */
static struct compiled trunk_with(const char *collar, const char *said, const char *more) {
    return compiled_text(
        "job \"Lined\"\n"
        "unit fan { blower 1200 cfm at 0.5 in.wg; supply %s; return 20 x 14 }\n"
        "inlet hall from fan.return { straight 4 ft; grille 30 x 20 }\n"
        "run trunk from fan.supply { %s; straight 4 ft; elbow 90 left; straight 5 ft; cap }\n"
        "outlet desk from trunk at 7 ft left { airflow 1200 cfm; size 10 x 8; straight 4 ft; register 30 x 10 }\n"
        "%s",
        collar, said, more);
}

/* The part of the `which`th use (from 0) in a run whose title begins so. */
static const struct part *part_of(const struct compiled *job, const char *run, const char *begins, size_t which) {
    assert_int_equal(job->job->diagnostics->error_count, 0);
    for (size_t i = 0; i < job->job->metal->parts.count; i++) {
        const struct part *part = job->job->metal->parts.at[i];
        for (size_t u = 0; u < part->uses.count; u++)
            if (strcmp(part->uses.at[u].run->name, run) == 0 && strncmp(part->title, begins, strlen(begins)) == 0 &&
                which-- == 0)
                return part;
    }
    fail_msg("%s has no %s", run, begins);
    return NULL;
}

static void is_size(struct duct_size size, double width, double height) {
    assert_near(size.width, width * INCH, 1e-9);
    assert_near(size.height, height * INCH, 1e-9);
}

static double velocity_of(const struct compiled *job, const char *name) {
    return compiled_run(job, name)->first_section->velocity;
}

/* 1200 cfm through 192 in2 is 900 fpm, lined or not. */
static void the_air_sees_the_size_that_is_written(void **state) {
    (void)state;
    struct compiled bare = trunk_with("16 x 12", "size 16 x 12", "");
    struct compiled lined = trunk_with("16 x 12", "size 16 x 12; lining 2 in", "");
    double fpm = FOOT / 60;
    assert_near(velocity_of(&bare, "trunk"), 900 * fpm, 1e-9);
    assert_near(velocity_of(&lined, "trunk"), 900 * fpm, 1e-9);
    is_size(compiled_run(&lined, "trunk")->last_section->duct->size, 16, 12);
    compiled_free(&bare);
    compiled_free(&lined);
}

/* 16 + 2 x 2 by 12 + 2 x 2; the tap, lined by its parent's, 14 x 12, and its hole. */
static void the_metal_is_larger_by_the_lining_all_round(void **state) {
    (void)state;
    struct compiled job = trunk_with("16 x 12", "size 16 x 12; lining 2 in", "");
    const struct part *straight = part_of(&job, "trunk", "Straight joint", 0);
    is_size(straight->solid->ports.at[0].size, 20, 16);
    assert_near(straight->lining, 2 * INCH, 1e-12);
    /* Beyond its length a blank has its girth and what the seam takes: 2 x (20 + 16) = 72 in and more. */
    double wide = 0;
    for (size_t b = 0; b < straight->blanks.count; b++)
        wide +=
            fmin(straight->blanks.at[b].width, straight->blanks.at[b].height) * (double)straight->blanks.at[b].quantity;
    assert_true(wide > 72 * INCH);
    is_size(part_of(&job, "trunk", "Radius elbow", 0)->solid->ports.at[1].size, 20, 16);
    is_size(part_of(&job, "trunk", "Cap", 0)->solid->ports.at[0].size, 20, 16);
    const struct part *tap = part_of(&job, "desk", "Tap", 0);
    assert_string_equal(tap->title, "Tap, straight, 14 x 12 in");
    is_size(part_of(&job, "desk", "Straight joint", 0)->solid->ports.at[0].size, 14, 12);
    compiled_free(&job);
}

/* The collar is metal: 20 x 16 lined 2 in all round is 16 x 12 clear, and nothing is between. */
static void a_collar_is_metal(void **state) {
    (void)state;
    struct compiled fits = trunk_with("20 x 16", "lining 2 in", ""),
                    says = trunk_with("20 x 16", "size 16 x 12; lining 2 in", "");
    const struct duct *first = compiled_run(&fits, "trunk")->first_duct;
    is_size(first->size, 16, 12);
    is_size(duct_metal(first), 20, 16);
    assert_int_equal(first->reason, SIZE_COLLAR);
    is_size(compiled_run(&says, "trunk")->first_duct->size, 16, 12);
    for (size_t i = 0; i < says.job->metal->parts.count; i++)
        assert_true(strncmp(says.job->metal->parts.at[i]->title, "Transition", 10) != 0);
    compiled_free(&fits);
    compiled_free(&says);
    struct compiled full = trunk_with("4 x 4", "lining 2 in", "");
    assert_non_null(compiled_said(&full, "lining", NULL, 0));
    compiled_free(&full);
}

/* Of one clear size, the metal differs: a transition is made that costs the air nothing. */
static void lined_meets_bare_by_a_change_of_the_metal(void **state) {
    (void)state;
    struct compiled job = compiled_text("job \"Lined\"\n"
                                        "unit fan { blower 1200 cfm at 0.5 in.wg; supply 20 x 16; return 20 x 14 }\n"
                                        "inlet hall from fan.return { straight 4 ft; grille 30 x 20 }\n"
                                        "run near from fan.supply { lining 2 in; straight 4 ft }\n"
                                        "run far from near { lining 0 in; size 16 x 12; straight 5 ft }\n"
                                        "outlet desk from far { airflow 1200 cfm; register 30 x 10 }\n");
    const struct part *change = part_of(&job, "far", "Transition", 0);
    is_size(change->solid->ports.at[0].size, 20, 16);
    is_size(change->solid->ports.at[1].size, 16, 12);
    is_size(part_of(&job, "far", "Straight joint", 0)->solid->ports.at[0].size, 16, 12);
    assert_near(compiled_run(&job, "far")->first_section->items.at[0].loss.pressure, 0, 1e-12);
    compiled_free(&job);
}

/* What stands in the room is the metal: the tapped run begins half of 20 in beside the middle of its parent. */
static void the_way_is_that_of_the_metal(void **state) {
    (void)state;
    struct compiled job =
        compiled_text("job \"Lined\"\n"
                      "unit fan { blower 1200 cfm at 0.5 in.wg; supply 16 x 12; return 20 x 14 }\n"
                      "inlet hall from fan.return { straight 4 ft; grille 30 x 20 }\n"
                      "run trunk from fan.supply { size 16 x 12; lining 2 in; straight 9 ft; cap }\n"
                      "outlet desk from trunk at 7 ft left { airflow 1200 cfm; flex 4 ft; register 30 x 10 }\n");
    const struct placed_run *trunk = route_of(job.job, compiled_run(&job, "trunk"));
    const struct placed_run *desk = route_of(job.job, compiled_run(&job, "desk"));
    double aside = fmax(fabs(desk->begin.origin.x - trunk->begin.origin.x), 0),
           across = desk->begin.origin.y - trunk->begin.origin.y;
    assert_true(aside > 0);
    assert_near(fabs(across), 10 * INCH, 1e-9);
    /* Flexible duct is not lined, nor the tap that it begins with. */
    struct duct_size flex = compiled_run(&job, "desk")->first_duct->size;
    is_size(duct_metal(compiled_run(&job, "desk")->first_duct), flex.width / INCH, flex.height / INCH);
    compiled_free(&job);
}

/* The only elbow's item in a trunk 16 x 12 clear. */
static const struct item *elbow_item(const struct compiled *job) {
    const struct run *run = compiled_run(job, "trunk");
    for (const struct section *at = run->last_section; at && at->run == run; at = at->parent)
        for (size_t i = 0; i < at->items.count; i++)
            if (strcmp(at->items.at[i].piece->kind->form.word, "elbow") == 0)
                return &at->items.at[i];
    fail_msg("no elbow");
    return NULL;
}

/* The metal and what is clear in it have one centre line: radius 1.0 over metal of 20 in is 1.25 over 16 in clear;
 * round, 1.5 over 18 in is 27/14 over 14 in.  One that narrows to 10 x 12: a throat of 10 in of metal is 12 in of air,
 * and the bend of its smaller end has (12 + 5) / 10. */
static void a_bend_has_the_centre_line_of_its_metal(void **state) {
    (void)state;
    static const struct {
        const char *collar, *lined, *bare;
        double arc; /* in, of the centre line; 0: not compared */
    } bends[] = {
        {"20 x 16", "size 16 x 12; lining 2 in; straight 4 ft; elbow 90 left",
         "size 16 x 12; straight 4 ft; elbow 90 left, radius 1.25", 20 * PI / 2},
        {"20 x 16", "size 14 round; lining 2 in; transition over 2 ft; straight 4 ft; elbow 90 left",
         "size 14 round; transition over 2 ft; straight 4 ft; elbow 90 left, radius 1.928571428571", 27 * PI / 2},
        {"20 x 16", "size 16 x 12; lining 2 in; straight 4 ft; elbow 90 left to 10 x 12",
         "size 16 x 12; straight 4 ft; elbow 90 left to 10 x 12, radius 1.25", 0},
        {"20 x 16", "size 16 x 12; lining 2 in; straight 4 ft; elbow 90 left, square",
         "size 16 x 12; straight 4 ft; elbow 90 left, square", 20},
    };
    for (size_t i = 0; i < sizeof bends / sizeof bends[0]; i++) {
        struct compiled jobs[2];
        for (int k = 0; k < 2; k++)
            jobs[k] = compiled_text("job \"Lined\"\n"
                                    "unit fan { blower 1200 cfm at 2 in.wg; supply %s; return 20 x 14 }\n"
                                    "inlet hall from fan.return { straight 4 ft; grille 30 x 20 }\n"
                                    "run trunk from fan.supply { %s; straight 5 ft; cap }\n"
                                    "outlet desk from trunk at %s left { airflow 1200 cfm; size 10 x 8; straight 4 ft; "
                                    "register 30 x 10 }\n",
                                    bends[i].collar, k ? bends[i].bare : bends[i].lined, i == 1 ? "8 ft" : "6 ft");
        const struct item *lined = elbow_item(&jobs[0]), *bare = elbow_item(&jobs[1]);
        assert_true(bare->loss.coefficient > 0);
        assert_near(lined->loss.coefficient, bare->loss.coefficient, 1e-9);
        assert_near(lined->loss.reference, bare->loss.reference, 1e-9);
        struct duct_size clear = lined->piece->near->size;
        if (bends[i].arc > 0)
            assert_near(lined->piece->kind->centre_line(lined->piece, clear), bends[i].arc * INCH, 1e-9);
        compiled_free(&jobs[0]);
        compiled_free(&jobs[1]);
    }
}

/* 12 in aside over 24 in metal of 16 in that is clear for 12: collars (24 - sqrt(12 x 20)) / 4 > 2 in, and 20 in
 * between, 20 u2 - 40 u + 12 = 0. */
static void an_offset_is_cut_in_its_metal(void **state) {
    (void)state;
    struct compiled job = compiled_text("job \"Lined\"\n"
                                        "unit fan { blower 1200 cfm at 2 in.wg; supply 20 x 16; return 20 x 14 }\n"
                                        "inlet hall from fan.return { straight 4 ft; grille 30 x 20 }\n"
                                        "run trunk from fan.supply { size 16 x 12; lining 2 in; straight 4 ft; offset "
                                        "12 in up over 24 in; straight 5 ft; cap }\n"
                                        "outlet desk from trunk at 8 ft left { airflow 1200 cfm; size 10 x 8; straight "
                                        "4 ft; register 30 x 10 }\n");
    double u = (40 - sqrt(40 * 40 - 4 * 20 * 12)) / 40;
    const struct section *section = compiled_run(&job, "trunk")->first_section;
    double found = 0;
    for (size_t i = 0; i < section->items.count; i++)
        if (strcmp(section->items.at[i].piece->kind->form.word, "offset") == 0)
            found = section->items.at[i].loss.coefficient;
    assert_near(found, 2 * fitting_mitre(NULL, 2 * atan(u), 16.0 / 12).value, 1e-9);
    compiled_free(&job);
}

/* A limit is room for the metal: 14 in high with 1 in of lining leaves 12. */
static void a_limit_is_for_the_metal(void **state) {
    (void)state;
    struct compiled job = trunk_with("20 x 16", "limit height 14 in; lining 1 in; transition over 2 ft", "");
    double height = compiled_run(&job, "trunk")->last_section->duct->size.height;
    assert_true(height <= 12 * INCH + 1e-9);
    compiled_free(&job);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_air_sees_the_size_that_is_written),
        cmocka_unit_test(the_metal_is_larger_by_the_lining_all_round),
        cmocka_unit_test(a_collar_is_metal),
        cmocka_unit_test(lined_meets_bare_by_a_change_of_the_metal),
        cmocka_unit_test(the_way_is_that_of_the_metal),
        cmocka_unit_test(a_bend_has_the_centre_line_of_its_metal),
        cmocka_unit_test(an_offset_is_cut_in_its_metal),
        cmocka_unit_test(a_limit_is_for_the_metal),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
