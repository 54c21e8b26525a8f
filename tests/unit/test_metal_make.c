/* What the pass through the job makes of runs that meet, of two ends, of declared seams and
 * of shapes that cannot be. */
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <setjmp.h>
#include <cmocka.h>

#include "base/constant.h"
#include "compiled.h"
#include "metal/allow.h"
#include "metal/metal.h"
#include "metal/shape_straight.h"
#include "near.h"
#include "outline.h"

/* A fan, its return, and what the test says of the supply. */
static struct compiled job_of(const char *supply, const char *said) {
    return compiled_text("job \"Make\"\n"
                         "unit fan { blower 400 cfm at 0.4 in.wg; supply %s; return 20 x 14 }\n"
                         "inlet hall from fan.return { straight 4 ft; grille 30 x 20 }\n%s",
                         supply, said);
}

static void has_no_errors(const struct compiled *job) {
    if (job->job->diagnostics->error_count)
        cleat_print_diagnostics(job->cleat, stderr, false, false);
    assert_int_equal(job->job->diagnostics->error_count, 0);
}

/* The part made for the `which`th (from 0) use in a run; the test ends when there is none. */
static struct part *part_of(const struct compiled *job, const char *run, size_t which) {
    has_no_errors(job);
    for (size_t hung = 1; hung <= job->job->metal->pieces; hung++)
        for (size_t i = 0; i < job->job->metal->parts.count; i++) {
            struct part *part = job->job->metal->parts.at[i];
            for (size_t u = 0; u < part->uses.count; u++)
                if (part->uses.at[u].hung == hung && strcmp(part->uses.at[u].run->name, run) == 0 && which-- == 0)
                    return part;
        }
    fail_msg("%s has no such part", run);
    return NULL;
}

/* The greatest allowance at a port. */
static double allowed_at(const struct part *part, const char *port) {
    double most = -1;
    for (size_t b = 0; b < part->blanks.count; b++)
        for (size_t e = 0; e < part->blanks.at[b].edges.count; e++) {
            const struct blank_edge *edge = &part->blanks.at[b].edges.at[e];
            if (edge->join == JOIN_PORT && strcmp(part->solid->ports.at[edge->port].name, port) == 0)
                most = fmax(most, edge->allowance);
        }
    return most;
}

/* ---- Where runs meet --------------------------------------------------------------------------------------------- */

static void two_ends_that_meet_are_made_for_one_joint(void **state) {
    (void)state;
    struct compiled job = job_of("14 x 8", "run trunk from fan.supply { straight 8 ft }\n"
                                           "run more from trunk { joint flange; straight 4 ft }\n"
                                           "outlet end from more { airflow 400 cfm; register 30 x 20 }\n");
    const struct part *first = part_of(&job, "trunk", 0), *last = part_of(&job, "trunk", 1);
    assert_int_equal(first->joints[1], JOINT_SLIP_AND_DRIVE);
    assert_int_equal(last->joints[0], JOINT_SLIP_AND_DRIVE);
    assert_int_equal(last->joints[1], JOINT_FLANGE);
    assert_near(allowed_at(last, "toward the unit"), 0.5 * INCH, 1e-9);
    assert_near(allowed_at(last, "away from the unit"), 1.875 * INCH, 1e-9);
    assert_int_equal(part_of(&job, "more", 0)->joints[0], JOINT_FLANGE);
    compiled_free(&job);
}

/* A round tee whose straight leg is smaller ends where the change begins, in the trunk: the leg's own joint is behind
 * that. */
static void a_tee_meets_the_change_behind_it_and_not_its_straight_leg(void **state) {
    (void)state;
    struct compiled job =
        job_of("12", "run trunk from fan.supply { joint crimp; straight 4 ft; split tee }\n"
                     "run on from trunk.straight { joint raw; size 10; straight 4 ft }\n"
                     "outlet a from trunk.left { size 8; airflow 100 cfm; straight 4 ft; register 30 x 20 }\n"
                     "outlet b from on { airflow 300 cfm; register 30 x 20 }\n");
    const struct part *tee = part_of(&job, "trunk", 1), *change = part_of(&job, "trunk", 2);
    assert_string_equal(tee->shape, "tee with a collar");
    assert_string_equal(change->shape, "transition");
    assert_int_equal(change->joints[0], JOINT_CRIMP);
    assert_near(allowed_at(tee, "straight leg"), 1.5 * INCH, 1e-9); /* what is crimped */
    assert_near(allowed_at(change, "away from the unit"), 0, 1e-9);
    compiled_free(&job);
}

static void each_leg_of_a_split_is_made_for_its_own_joint(void **state) {
    (void)state;
    struct compiled job = job_of("20 x 8", "run trunk from fan.supply { straight 4 ft; split wye }\n"
                                           "run one from trunk.left { joint flange; size 10 x 8; straight 4 ft }\n"
                                           "run other from trunk.right { size 10 x 8; straight 4 ft }\n"
                                           "outlet a from one { airflow 200 cfm; register 30 x 20 }\n"
                                           "outlet b from other { airflow 200 cfm; register 30 x 20 }\n");
    const struct part *wye = part_of(&job, "trunk", 1);
    assert_near(allowed_at(wye, "toward the unit"), 0.5 * INCH, 1e-9);
    assert_near(allowed_at(wye, "left leg"), 1.875 * INCH, 1e-9);
    assert_near(allowed_at(wye, "right leg"), 0.5 * INCH, 1e-9);
    compiled_free(&job);
}

/* ---- What two ends ask ------------------------------------------------------------------------------------------- */

static void a_declared_gauge_is_held_against_both_ends(void **state) {
    (void)state;
    static const char *const supplies[] = {"12 x 8", "60 x 30"};
    static const char *const others[] = {"60 x 30", "12 x 8"};
    for (size_t i = 0; i < 2; i++) {
        char said[400];
        snprintf(said, sizeof said,
                 "run trunk from fan.supply { gauge 26; size %s; transition to %s over 60 in; straight 2 ft }\n"
                 "outlet end from trunk { airflow 400 cfm; register 30 x 20 }\n",
                 supplies[i], others[i]);
        struct compiled job = job_of(supplies[i], said);
        const struct part *change = part_of(&job, "trunk", 0);
        assert_string_equal(change->shape, "transition");
        assert_int_equal(change->gauge, 26);
        assert_true(change->gauge_thin);
        assert_true(change->gauge_needed < 26);
        compiled_free(&job);
    }
}

/* ---- Notches ----------------------------------------------------------------------------------------------------- */

/* A joint of 14 x 8 in with what the shop and the run say; each notched edge of it has these points on its outline, and
 * not those: along, out, in. */
static void notches_are(const char *shop, const char *run, const double on[][2], size_t on_count, const double off[2]) {
    char said[500];
    snprintf(said, sizeof said,
             "shop \"Shop\" { stock 60 x 120; %s }\nrun trunk from fan.supply { %s; straight 3 ft }\n"
             "outlet end from trunk { %s; airflow 400 cfm; register 30 x 20 }\n",
             shop, run, run);
    struct compiled job = job_of("14 x 8", said);
    const struct part *part = part_of(&job, "trunk", 0);
    size_t notched = 0;
    for (size_t b = 0; b < part->blanks.count; b++)
        for (size_t e = 0; e < part->blanks.at[b].edges.count; e++) {
            const struct blank_edge *edge = &part->blanks.at[b].edges.at[e];
            if (!(edge->start_cut > 0))
                continue;
            notched++;
            for (size_t i = 0; i < on_count; i++)
                assert_near(outline_distance(&part->blanks.at[b], off_edge(edge, on[i][0] * INCH, on[i][1] * INCH)), 0,
                            1e-9);
            assert_true(outline_distance(&part->blanks.at[b], off_edge(edge, off[0] * INCH, off[1] * INCH)) > 1e-4);
        }
    assert_true(notched > 0);
    compiled_free(&job);
}

static void a_notch_is_as_deep_and_wide_as_the_shop_says(void **state) {
    (void)state;
    static const double whole[][2] = {{0.5, 0.5}, {0.5, 0}}, step[][2] = {{0.25, 0.5}, {0.25, 0.25}, {0.125, 0.25}};
    notches_are("", "gauge 26", whole, 2, (const double[2]){0.25, 0.5});
    notches_are("notch 1/4 in", "gauge 26", step, 3, (const double[2]){0.25, 0.125});
    static const double wide[][2] = {{0.75, 0.5}, {0.75, 0}};
    notches_are("notch 3/4 in", "gauge 26", wide, 2, (const double[2]){0.5, 0.5});
}

static void the_corners_of_a_rolled_flange_are_cut_at_45_degrees(void **state) {
    (void)state;
    static const double vee[][2] = {{0, 0}, {1, 1}, {1.875, 1.875}},
                        small[][2] = {{0, 1.375}, {0.25, 1.625}, {0.5, 1.875}};
    notches_are("", "joint flange", vee, 3, (const double[2]){1.875, 1});
    notches_are("notch 1/2 in", "joint flange", small, 3, (const double[2]){0.5, 1.375});
}

/* ---- Seams ------------------------------------------------------------------------------------------------------- */

/* An elbow boot on round duct is flat sheet but for its collar: its corners are locked, the collar is lapped. */
static void each_seam_is_as_its_own_sheet_wants(void **state) {
    (void)state;
    struct compiled job = job_of("8 round", "run trunk from fan.supply { size 8 round; straight 2 ft }\n"
                                            "outlet end from trunk { seam snaplock; airflow 400 cfm; boot elbow; "
                                            "register 30 x 20 }\n");
    const struct part *boot = part_of(&job, "end", 0);
    bool flat = false, rolled = false;
    for (size_t b = 0; b < boot->blanks.count; b++)
        for (size_t e = 0; e < boot->blanks.at[b].edges.count; e++) {
            const struct blank_edge *edge = &boot->blanks.at[b].edges.at[e];
            if (edge->kind == ALLOW_POCKET && boot->solid->panels.at[edge->panel].kind == PANEL_PLANE) {
                assert_near(edge->allowance, 1.125 * INCH, 1e-9);
                flat = true;
            }
            rolled = rolled || boot->solid->panels.at[edge->panel].kind == PANEL_ROLLED;
        }
    assert_true(flat && rolled && boot->seamed[SEAM_SNAPLOCK]);
    assert_int_equal(boot->notes.count, 0);
    compiled_free(&job);
}

/* Lapped where nothing is declared. */
static void the_corners_beside_a_round_collar_are_locked(void **state) {
    (void)state;
    struct compiled job =
        job_of("8 round", "run trunk from fan.supply { size 8 round; straight 2 ft }\n"
                          "outlet end from trunk { airflow 400 cfm; boot elbow; register 30 x 20 }\n");
    const struct part *boot = part_of(&job, "end", 0);
    assert_true(boot->seamed[SEAM_PITTSBURGH] && boot->seamed[SEAM_LAP]);
    compiled_free(&job);
}

static void a_seam_that_cannot_be_made_is_noted_and_warned_of(void **state) {
    (void)state;
    struct compiled job =
        job_of("8 round", "run trunk from fan.supply { size 8 round; seam pittsburgh; straight 2 ft }\n"
                          "outlet end from trunk { airflow 400 cfm; register 30 x 20 }\n");
    const struct part *part = part_of(&job, "trunk", 0);
    assert_int_equal(part->solid->notes.count, 1);
    assert_non_null(strstr(part->solid->notes.at[0], "Pittsburgh lock"));
    assert_true(part->seamed[SEAM_GROOVED] && !part->seamed[SEAM_PITTSBURGH]);
    compiled_free(&job);
}

static void a_side_too_short_for_its_slip_is_noted(void **state) {
    (void)state;
    static const struct settings settings;
    static const struct shop shop;
    for (double side = 0.7; side < 1; side += 0.2) {
        struct arena *arena = arena_new(NULL);
        struct duct_size size = {SHAPE_RECTANGULAR, side * INCH, side * INCH};
        struct straight_shape shape = {.section = shape_duct_of(size), .length = 1, .wrap = WRAP_ONE};
        struct part part = {.solid = solid_new(arena, 1), .finished_length = 1};
        struct allowing allowing = {.shop = &shop, .settings = &settings};
        for (int at = 0; at < JOINT_SIDES; at++)
            allowing.joints[at] = &settings;
        shape_straight(part.solid, &shape);
        solid_close(part.solid);
        part_connections(&part, &allowing);
        assert_int_equal(part.solid->notes.count, side < 0.75 ? 1 : 0);
        if (part.solid->notes.count)
            assert_non_null(strstr(part.solid->notes.at[0], "too short"));
        arena_free(arena);
    }
}

/* ---- Seams and joints beyond what they hold ---------------------------------------------------------------------- */

static void seams_and_joints_beyond_what_they_hold_are_warned_of(void **state) {
    (void)state;
    static const struct {
        const char *size, *settings, *says; /* NULL: nothing */
    } cases[] = {
        {"14 x 8", "pressure-class 2 in.wg", NULL},
        {"14 x 8", "pressure-class 3 in.wg", "Slip and drive in trunk holds to 2.000 in. w.g."},
        {"14 x 8", "pressure-class 3 in.wg; joint flange", NULL},
        {"14 x 8", "pressure-class 5 in.wg; joint flange; seam snaplock", "Snap lock in trunk holds to 4.000 in. w.g."},
        {"14 x 8", "pressure-class 3 in.wg; joint flange; seam snaplock", NULL},
        {"14 x 8", "gauge 26; seam snaplock", NULL},
        {"14 x 8", "gauge 18; seam snaplock", "Snap lock in trunk is made of 20 to 26 gauge"},
        {"14 x 8", "material aluminium; seam snaplock", "Snap lock in trunk does not hold in aluminium"},
        {"14 x 8", "seam grooved", "nothing in trunk takes the seam that it declares: Grooved seam"},
        {"8 round", "joint flange", "nothing in trunk takes the joint that it declares: Rolled flange"},
    };
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        char said[400];
        snprintf(said, sizeof said,
                 "run trunk from fan.supply { size %s; %s; straight 8 ft }\n"
                 "outlet end from trunk { airflow 400 cfm; register 30 x 20 }\n",
                 cases[i].size, cases[i].settings);
        struct compiled job = job_of(cases[i].size, said);
        has_no_errors(&job);
        const struct diagnostic *one = compiled_said(&job, "seam", "trunk", 0);
        if (!cases[i].says)
            assert_null(one);
        else {
            assert_non_null(one);
            assert_non_null(strstr(one->message, cases[i].says));
            assert_null(compiled_said(&job, "seam", "trunk", 1));
        }
        compiled_free(&job);
    }
}

/* ---- Bends ------------------------------------------------------------------------------------------------------- */

static void each_bend_names_the_panel_behind_it(void **state) {
    (void)state;
    struct compiled job = job_of("14 x 8", "run trunk from fan.supply { straight 4 ft }\n"
                                           "outlet end from trunk { airflow 400 cfm; register 30 x 20 }\n");
    const struct part *part = part_of(&job, "trunk", 0);
    assert_true(part->blanks.at[0].bends.count > 0);
    for (size_t i = 0; i < part->blanks.at[0].bends.count; i++) {
        const char *name = part->blanks.at[0].bends.at[i].name;
        bool known = false;
        for (size_t p = 0; p < part->solid->panels.count && name; p++)
            known = known || strcmp(part->solid->panels.at[p].name, name) == 0;
        assert_true(known);
    }
    compiled_free(&job);
}

/* ---- What cannot be ---------------------------------------------------------------------------------------------- */

/* A cylinder whose chords stay an inch off, however finely it is drawn. */
static void never_near(struct solid *solid, const void *size) {
    (void)size;
    struct duct_size round = {SHAPE_ROUND, 0.2, 0.2};
    struct frame near = {.along = {0, 0, -1}, .right = {1, 0, 0}, .up = {0, 1, 0}}, far = near;
    far.along.z = 1;
    far.origin.z = 1;
    struct roll roll = {
        .name = "wrap",
        .arc = {{0, 0, 0}, {1, 0, 0}, {0, 1, 0}, 0.1, 2 * PI, 0},
        .way = {0, 0, 1},
        .near = {.kind = CUT_ARC},
        .far = {.kind = CUT_PLANE, .point = {0, 0, 1}, .way = {0, 0, 1}},
        .divisions = 8,
        .near_join = JOIN_PORT,
        .far_join = JOIN_PORT,
        .from_join = JOIN_SEAM,
        .to_join = JOIN_SEAM,
        .near_port = solid_port(solid, PORT_USE_DUCT, "toward the unit", &near, round),
        .far_port = solid_port(solid, PORT_USE_DUCT, "away from the unit", &far, round),
        .from_pocket = true,
    };
    int panel = solid_roll(solid, &roll);
    solid->panels.at[panel].chord_error = INCH;
}

static void make_never_near(const struct piece *piece, struct making *making) {
    static const double size[] = {1};
    (void)piece;
    struct duct_size round = {SHAPE_ROUND, 0.2, 0.2};
    make_part(making, &(struct order){.title = "Never near",
                                      .shape = "never near",
                                      .build = never_near,
                                      .size = size,
                                      .size_bytes = sizeof size,
                                      .near = round,
                                      .far = round});
}

static void a_curve_that_is_never_near_enough_is_a_fault(void **state) {
    (void)state;
    struct compiled job = job_of("14 x 8", "run trunk from fan.supply { straight 4 ft }\n"
                                           "outlet end from trunk { airflow 400 cfm; register 30 x 20 }\n");
    has_no_errors(&job);
    struct piece_kind kind = *compiled_run(&job, "trunk")->pieces.at[0]->kind;
    kind.make = make_never_near;
    compiled_run(&job, "trunk")->pieces.at[0]->kind = &kind;
    metal_make((struct job *)job.job);
    const struct diagnostic *said = compiled_said(&job, "fitting", NULL, 0);
    assert_non_null(said);
    assert_non_null(strstr(said->message, "its curves are still off by more than 1/64 in"));
    compiled_free(&job);
}

/* ---- Equal parts ------------------------------------------------------------------------------------------------- */

/* 1/32 in is 7937.5 steps of the grid that sizes are told apart by; the two lengths are one but for rounding. */
static void sizes_that_differ_by_rounding_are_one_part(void **state) {
    (void)state;
    struct compiled job = job_of("14 x 8", "run trunk from fan.supply { straight 12.09375 in; elbow 90 left; "
                                           "straight 1.0078125 ft; elbow 90 left; straight 307.18125 mm }\n"
                                           "outlet end from trunk { airflow 400 cfm; register 30 x 20 }\n");
    const struct part *first = part_of(&job, "trunk", 0);
    assert_ptr_equal(first, part_of(&job, "trunk", 2));
    assert_ptr_equal(first, part_of(&job, "trunk", 4));
    compiled_free(&job);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(two_ends_that_meet_are_made_for_one_joint),
        cmocka_unit_test(a_tee_meets_the_change_behind_it_and_not_its_straight_leg),
        cmocka_unit_test(each_leg_of_a_split_is_made_for_its_own_joint),
        cmocka_unit_test(a_declared_gauge_is_held_against_both_ends),
        cmocka_unit_test(a_notch_is_as_deep_and_wide_as_the_shop_says),
        cmocka_unit_test(the_corners_of_a_rolled_flange_are_cut_at_45_degrees),
        cmocka_unit_test(each_seam_is_as_its_own_sheet_wants),
        cmocka_unit_test(the_corners_beside_a_round_collar_are_locked),
        cmocka_unit_test(a_seam_that_cannot_be_made_is_noted_and_warned_of),
        cmocka_unit_test(a_side_too_short_for_its_slip_is_noted),
        cmocka_unit_test(seams_and_joints_beyond_what_they_hold_are_warned_of),
        cmocka_unit_test(each_bend_names_the_panel_behind_it),
        cmocka_unit_test(a_curve_that_is_never_near_enough_is_a_fault),
        cmocka_unit_test(sizes_that_differ_by_rounding_are_one_part),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
