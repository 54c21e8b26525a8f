/* Each check is silent at its limit and speaks just over it. */
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <setjmp.h>
#include <cmocka.h>

#include "air/air.h"
#include "check/check.h"
#include "compiled.h"
#include "near.h"
#include "size/limits.h"

#define INCH 0.0254
#define CFM (0.3048 * 0.3048 * 0.3048 / 60)
#define PER_100_FT (248.84 / 30.48)

/* One outlet, kiln, and one inlet, hall, both on the unit's trunks; what differs from test to test is filled in. */
struct words {
    double flow; /* cfm */
    const char *job, *unit, *trunk, *kiln, *hall;
};

static struct compiled workshop(struct words words) {
    return compiled_text("job \"Workshop\" { %s }\n"
                         "unit fan { blower %.9g cfm at 2 in.wg; %s }\n"
                         "run trunk from fan.supply { %s }\n"
                         "outlet kiln from trunk { airflow %.9g cfm; %s }\n"
                         "run back from fan.return { size 40 x 30; straight 5 ft }\n"
                         "inlet hall from back { %s }\n",
                         words.job ? words.job : "units us", words.flow,
                         words.unit ? words.unit : "drop \"coil\" 0.1 in.wg",
                         words.trunk ? words.trunk : "size 40 x 30; straight 5 ft", words.flow,
                         words.kiln ? words.kiln : "size 40 x 30; register 40 x 30",
                         words.hall ? words.hall : "size 40 x 30; grille 40 x 30");
}

/* Whether a check warns about a thing in that job. */
static bool warns(struct words words, const char *check, const char *subject) {
    struct compiled job = workshop(words);
    const struct diagnostic *said = compiled_said(&job, check, subject, 0);
    bool warned = said && said->level == DIAGNOSTIC_WARNING;
    if (job.job->diagnostics->error_count) {
        cleat_print_diagnostics(job.cleat, stderr, false, false);
        fail_msg("the job has errors:\n%s", job.text);
    }
    compiled_free(&job);
    return warned;
}

/* ---- Velocity: 1 ft2, so that cfm is fpm ------------------------------------------------------------------------- */

static void a_supply_trunk_may_reach_900_fpm(void **state) {
    (void)state;
    assert_false(warns((struct words){.flow = 900, .trunk = "size 12 x 12; straight 5 ft"}, "velocity", "trunk"));
    assert_true(warns((struct words){.flow = 901, .trunk = "size 12 x 12; straight 5 ft"}, "velocity", "trunk"));
    assert_true(warns((struct words){.flow = 900, .trunk = "size 12 x 10; straight 5 ft"}, "velocity", "trunk"));
}

static void a_supply_branch_may_reach_900_fpm(void **state) {
    (void)state;
    const char *kiln = "size 12 x 12; straight 5 ft; register 40 x 30";
    assert_false(warns((struct words){.flow = 900, .kiln = kiln}, "velocity", "kiln"));
    assert_true(warns((struct words){.flow = 901, .kiln = kiln}, "velocity", "kiln"));
}

static void a_return_branch_may_reach_700_fpm(void **state) {
    (void)state;
    const char *hall = "size 12 x 12; straight 5 ft; grille 40 x 30";
    assert_false(warns((struct words){.flow = 700, .hall = hall}, "velocity", "hall"));
    assert_true(warns((struct words){.flow = 701, .hall = hall}, "velocity", "hall"));
}

static void a_runs_own_velocity_limit_goes_before_the_guide(void **state) {
    (void)state;
    const char *low = "size 12 x 12; limit velocity 500 fpm; straight 5 ft";
    const char *high = "size 12 x 12; limit velocity 1200 fpm; straight 5 ft";
    assert_false(warns((struct words){.flow = 500, .trunk = low}, "velocity", "trunk"));
    assert_true(warns((struct words){.flow = 501, .trunk = low}, "velocity", "trunk"));
    assert_false(warns((struct words){.flow = 1200, .trunk = high}, "velocity", "trunk"));
    assert_true(warns((struct words){.flow = 1201, .trunk = high}, "velocity", "trunk"));
}

static void a_register_face_may_reach_700_fpm(void **state) {
    (void)state;
    assert_false(warns((struct words){.flow = 700, .kiln = "size 40 x 30; register 12 x 12"}, "velocity", "kiln"));
    assert_true(warns((struct words){.flow = 701, .kiln = "size 40 x 30; register 12 x 12"}, "velocity", "kiln"));
}

static void a_velocity_warning_gives_figures_and_a_size_that_would_do(void **state) {
    (void)state;
    struct compiled job = workshop((struct words){.flow = 1000, .trunk = "size 12 x 12; straight 5 ft"});
    const struct diagnostic *said = compiled_said(&job, "velocity", "trunk", 0);
    assert_non_null(said);
    assert_non_null(strstr(said->message, "1000 fpm"));
    assert_non_null(strstr(said->message, "900 fpm"));
    assert_non_null(strstr(said->message, "12 x 12 in"));
    /* 1000 / 900 x 144 = 160 in2, of which 12 in height takes 14: 168 in2, 857 fpm. */
    assert_non_null(said->hint);
    assert_non_null(strstr(said->hint, "14 x 12 in"));
    assert_non_null(strstr(said->hint, "857 fpm"));
    compiled_free(&job);
}

static void a_metric_job_is_warned_in_metres(void **state) {
    (void)state;
    struct compiled job =
        workshop((struct words){.flow = 1000, .job = "units metric", .trunk = "size 300 x 300; straight 2 m"});
    const struct diagnostic *said = compiled_said(&job, "velocity", "trunk", 0);
    assert_non_null(said);
    assert_non_null(strstr(said->message, "m/s"));
    assert_null(strstr(said->message, "fpm"));
    compiled_free(&job);
}

/* ---- Faces of the return ----------------------------------------------------------------------------------------- */

static void a_return_grille_may_reach_500_fpm(void **state) {
    (void)state;
    assert_false(warns((struct words){.flow = 500, .hall = "size 40 x 30; grille 12 x 12"}, "return-area", "hall"));
    assert_true(warns((struct words){.flow = 501, .hall = "size 40 x 30; grille 12 x 12"}, "return-area", "hall"));
}

static void a_filter_may_reach_300_fpm(void **state) {
    (void)state;
    assert_false(warns((struct words){.flow = 300, .hall = "size 40 x 30; filter 12 x 12 x 1"}, "return-area", "hall"));
    assert_true(warns((struct words){.flow = 301, .hall = "size 40 x 30; filter 12 x 12 x 1"}, "return-area", "hall"));
}

/* ---- Friction ---------------------------------------------------------------------------------------------------- */

/* The flow, cfm, that loses `rate` (in. w.g. per 100 ft) in a square duct of 12 in, by halving. */
static double flow_for(double rate) {
    struct air air = air_state(0);
    double diameter = air_equivalent_diameter((struct duct_size){SHAPE_RECTANGULAR, 12 * INCH, 12 * INCH});
    double low = 1, high = 10000;
    for (int i = 0; i < 100; i++) {
        double middle = (low + high) / 2;
        bool less =
            air_friction_rate(&air, middle * CFM, diameter, air_roughness(MATERIAL_GALVANISED)) < rate * PER_100_FT;
        *(less ? &low : &high) = middle;
    }
    return low;
}

static void no_duct_goes_over_0_15_in_a_hundred_feet(void **state) {
    (void)state;
    double flow = flow_for(0.15);
    const char *trunk = "size 12 x 12; straight 5 ft";
    assert_false(warns((struct words){.flow = flow * 0.9999, .trunk = trunk}, "friction", "trunk"));
    assert_true(warns((struct words){.flow = flow * 1.0001, .trunk = trunk}, "friction", "trunk"));
}

static void a_declared_rate_is_held_against_the_usual_range(void **state) {
    (void)state;
    const char *rates[] = {"friction 0.029 in.wg/100ft", "friction 0.03 in.wg/100ft", "friction 0.1 in.wg/100ft",
                           "friction 0.101 in.wg/100ft"};
    assert_true(warns((struct words){.flow = 400, .job = rates[0]}, "friction", "fan"));
    assert_false(warns((struct words){.flow = 400, .job = rates[1]}, "friction", "fan"));
    assert_false(warns((struct words){.flow = 400, .job = rates[2]}, "friction", "fan"));
    assert_true(warns((struct words){.flow = 400, .job = rates[3]}, "friction", "fan"));
}

/* ---- Shape, tonnage, flexible duct ------------------------------------------------------------------------------- */

static void four_to_one_is_flat_enough(void **state) {
    (void)state;
    assert_false(warns((struct words){.flow = 300, .trunk = "size 32 x 8; straight 5 ft"}, "aspect", "trunk"));
    assert_true(warns((struct words){.flow = 300, .trunk = "size 33 x 8; straight 5 ft"}, "aspect", "trunk"));
    assert_true(warns((struct words){.flow = 300, .trunk = "size 8 x 33; straight 5 ft"}, "aspect", "trunk"));
}

/* 350 to 450 cfm a ton; 3 tons. */
static void a_ton_wants_about_400_cfm(void **state) {
    (void)state;
    const char *unit = "cooling 3 ton";
    assert_true(warns((struct words){.flow = 1049, .unit = unit}, "tonnage", "fan"));
    assert_false(warns((struct words){.flow = 1050, .unit = unit}, "tonnage", "fan"));
    assert_false(warns((struct words){.flow = 1350, .unit = unit}, "tonnage", "fan"));
    assert_true(warns((struct words){.flow = 1351, .unit = unit}, "tonnage", "fan"));
    assert_false(warns((struct words){.flow = 100}, "tonnage", "fan"));
    struct compiled job = workshop((struct words){.flow = 900, .unit = unit});
    const struct diagnostic *said = compiled_said(&job, "tonnage", "fan", 0);
    assert_non_null(said);
    assert_non_null(strstr(said->message, "300 cfm a ton"));
    compiled_free(&job);
}

static void flexible_duct_may_be_14_ft_long(void **state) {
    (void)state;
    assert_false(
        warns((struct words){.flow = 100, .kiln = "size 8; flex 14 ft; register 12 x 12"}, "flex-length", "kiln"));
    assert_true(
        warns((struct words){.flow = 100, .kiln = "size 8; flex 14.1 ft; register 12 x 12"}, "flex-length", "kiln"));
    /* Two pieces of one run count together. */
    assert_true(
        warns((struct words){.flow = 100, .kiln = "size 8; flex 8 ft; elbow 90 left; flex 8 ft; register 12 x 12"},
              "flex-length", "kiln"));
}

/* ---- Taps -------------------------------------------------------------------------------------------------------- */

/* A trunk of one size with one tap of another into its side. */
static struct compiled tapped(const char *trunk, const char *tap, const char *side) {
    return compiled_text("job \"Taps\"\n"
                         "unit fan { blower 400 cfm at 2 in.wg }\n"
                         "run trunk from fan.supply { size %s; straight 20 ft }\n"
                         "outlet end from trunk { airflow 200 cfm; size 12 x 12; register 12 x 12 }\n"
                         "outlet kiln from trunk at 9 ft %s { airflow 200 cfm; size %s; straight 2 ft; "
                         "register 12 x 12 }\n"
                         "inlet hall from fan.return { size 20 x 20; straight 4 ft; grille 20 x 20 }\n",
                         trunk, side, tap);
}

static bool tap_warns(const char *check, const char *trunk, const char *tap, const char *side) {
    struct compiled job = tapped(trunk, tap, side);
    assert_int_equal(job.job->diagnostics->error_count, 0);
    bool warned = compiled_said(&job, check, "kiln", 0) != NULL;
    compiled_free(&job);
    return warned;
}

/* Half an inch of metal stays on either side of the opening. */
static void a_tap_and_an_inch_fit_the_side_it_is_cut_into(void **state) {
    (void)state;
    assert_false(tap_warns("tap-fit", "14 x 10", "9", "left"));
    assert_true(tap_warns("tap-fit", "14 x 10", "9.1", "left"));
    assert_false(tap_warns("tap-fit", "14 x 10", "13", "top"));
    assert_true(tap_warns("tap-fit", "14 x 10", "13.1", "bottom"));
    assert_false(tap_warns("tap-fit", "14 x 10", "20 x 9", "right"));
    assert_false(tap_warns("tap-fit", "12", "11", "left"));
    assert_true(tap_warns("tap-fit", "12", "11.1", "left"));
    /* An oval 20 x 8 is flat for 12 in of its width; its ends are as a round duct of 8. */
    assert_false(tap_warns("tap-fit", "20 x 8 oval", "11", "top"));
    assert_true(tap_warns("tap-fit", "20 x 8 oval", "11.1", "top"));
    assert_false(tap_warns("tap-fit", "20 x 8 oval", "7", "left"));
    assert_true(tap_warns("tap-fit", "20 x 8 oval", "7.1", "left"));
}

static void a_cone_takes_an_inch_more_across_and_a_shoe_does_not(void **state) {
    (void)state;
    assert_false(tap_warns("tap-fit", "14 x 10", "8; tap conical", "left"));
    assert_true(tap_warns("tap-fit", "14 x 10", "8.1; tap conical", "left"));
    assert_false(tap_warns("tap-fit", "14 x 10", "9; tap shoe", "left"));
    assert_true(tap_warns("tap-fit", "14 x 10", "9.1; tap shoe", "left"));
    assert_false(tap_warns("tap-fit", "14 x 10", "8.1; tap spin", "left"));
}

struct tap_said {
    enum diagnostic_level level;
    char hint[80];
};

static struct tap_said tap_said(const char *trunk, const char *tap, const char *side) {
    struct compiled job = tapped(trunk, tap, side);
    const struct diagnostic *said = compiled_said(&job, "tap-fit", "kiln", 0);
    assert_non_null(said);
    assert_int_equal(job.job->diagnostics->error_count, said->level == DIAGNOSTIC_ERROR); /* and no other */
    struct tap_said copy = {.level = said->level};
    snprintf(copy.hint, sizeof copy.hint, "%s", said->hint ? said->hint : "");
    compiled_free(&job);
    return copy;
}

static bool has_room(struct compiled job) {
    bool room = job.job->diagnostics->error_count == 0 && !compiled_said(&job, "tap-fit", "kiln", 0);
    compiled_free(&job);
    return room;
}

/* A hole that is wider than its wall cannot be cut.  What the hint says is typed in, and then there is room. */
static void a_tap_wider_than_its_wall_is_an_error_and_its_hint_makes_room(void **state) {
    (void)state;
    const struct {
        const char *trunk, *tap, *side, *hint;
    } narrow[] = {
        {"12 x 8", "20 x 14", "left", "transition to 12 x 15 over 14 in"},
        {"8", "10; tap saddle", "left", "transition to 11 over 6 in"},
        {"8", "9; tap", "top", "transition to 10 over 4 in"},
        {"20 x 8", "20 x 9", "right", "size 26 x 7"},
        {"20 x 8", "10 x 10", "left", "from trunk at 9 ft top"},
        {"8 x 20", "10 x 10", "bottom", "from trunk at 9 ft left"},
        {"20 x 8 oval", "13", "top", "transition to 22 x 8 oval over 4 in"},
        {"9 x 9", "8.5; tap conical", "left", "transition to 9 x 10.5 over 3 in"},
    };
    for (size_t i = 0; i < sizeof narrow / sizeof *narrow; i++) {
        struct tap_said said = tap_said(narrow[i].trunk, narrow[i].tap, narrow[i].side);
        assert_int_equal(said.level, DIAGNOSTIC_ERROR);
        assert_string_equal(said.hint, narrow[i].hint);
        char typed[120];
        const char *at;
        if (strncmp(said.hint, "transition", 10) == 0) {
            snprintf(typed, sizeof typed, "%s; %s", narrow[i].trunk, said.hint);
            assert_true(has_room(tapped(typed, narrow[i].tap, narrow[i].side)));
        } else if ((at = strstr(said.hint, "9 ft "))) {
            assert_true(has_room(tapped(narrow[i].trunk, narrow[i].tap, at + 5)));
        } else {
            assert_true(has_room(tapped(narrow[i].trunk, said.hint + strlen("size "), narrow[i].side)));
        }
    }
    assert_int_equal(tap_said("12 x 8", "8 x 8", "left").level, DIAGNOSTIC_WARNING);
    assert_int_equal(tap_said("8", "8", "left").level, DIAGNOSTIC_WARNING);
    struct tap_said cone = tap_said("10 x 10", "9; tap conical", "left");
    assert_int_equal(cone.level, DIAGNOSTIC_WARNING);
    assert_string_equal(cone.hint, "tap straight");
}

/* A run that is to go flatter goes no flatter than the shop allows: the check aspect would warn of it. */
static void a_flatter_tap_is_told_within_the_shops_aspect(void **state) {
    (void)state;
    const struct {
        const char *trunk, *tap, *aspect, *hint;
    } shops[] = {
        {"20 x 8", "20 x 9", "4", "size 26 x 7"}, /* 3.7 to 1 */
        {"20 x 8", "20 x 9", "3", "transition to 20 x 10 over 4 in"},
        {"12 x 8", "20 x 14", "4", "transition to 12 x 15 over 14 in"},
        {"12 x 8", "20 x 14", "6", "size 40 x 7"}, /* 5.7 to 1 */
    };
    for (size_t i = 0; i < sizeof shops / sizeof *shops; i++) {
        struct compiled plain = tapped(shops[i].trunk, shops[i].tap, "left");
        struct compiled job = compiled_text("shop \"S\" { aspect %s }\n%s", shops[i].aspect, plain.text);
        const struct diagnostic *said = compiled_said(&job, "tap-fit", "kiln", 0);
        assert_non_null(said);
        assert_string_equal(said->hint, shops[i].hint);
        compiled_free(&job);
        compiled_free(&plain);
    }
}

/* Two round taps of 8 in on a trunk of `trunk`, at two places; the second is a `tap`.  What is said of it: a note where
 * nothing is. */
static enum diagnostic_level second_tap_said(const char *trunk, const char *first, const char *second,
                                             const char *tap) {
    struct compiled job = compiled_text("job \"Taps\"\n"
                                        "unit fan { blower 400 cfm at 2 in.wg }\n"
                                        "run trunk from fan.supply { size 20 x 20; %s }\n"
                                        "outlet near from trunk at %s { airflow 200 cfm; size 8; register 8 }\n"
                                        "outlet far from trunk at %s { airflow 200 cfm; size 8; %s; register 8 }\n"
                                        "inlet hall from fan.return { size 20 x 20; straight 4 ft; grille 20 x 20 }\n",
                                        trunk, first, second, tap);
    assert_null(compiled_said(&job, "tap-fit", "near", 0));
    const struct diagnostic *said = compiled_said(&job, "tap-fit", "far", 0);
    enum diagnostic_level level = said ? said->level : DIAGNOSTIC_NOTE;
    assert_int_equal(job.job->diagnostics->error_count, level == DIAGNOSTIC_ERROR);
    compiled_free(&job);
    return level;
}

static bool second_tap_warns_with(const char *trunk, const char *first, const char *second, const char *tap) {
    return second_tap_said(trunk, first, second, tap) == DIAGNOSTIC_WARNING;
}

static bool second_tap_warns(const char *trunk, const char *first, const char *second) {
    return second_tap_warns_with(trunk, first, second, "tap");
}

static void taps_on_one_side_stand_beside_each_other(void **state) {
    (void)state;
    const char *trunk = "straight 9 ft; straight 9 ft";
    assert_false(second_tap_warns(trunk, "60 in left", "68.5 in left"));
    assert_true(second_tap_warns(trunk, "60 in left", "68.4 in left"));
    assert_true(second_tap_warns(trunk, "60 in left", "68 in left"));
    /* Openings that overlap are one hole. */
    assert_int_equal(second_tap_said(trunk, "60 in left", "67.9 in left", "tap"), DIAGNOSTIC_ERROR);
    assert_int_equal(second_tap_said(trunk, "60 in top", "60 in top", "tap"), DIAGNOSTIC_ERROR);
    assert_int_equal(second_tap_said(trunk, "60 in left", "71.9 in left", "tap shoe"), DIAGNOSTIC_ERROR);
    assert_false(second_tap_warns(trunk, "60 in left", "60 in right"));
}

/* One tap of `tap` at `station` along a run of 10 ft, of the supply or the return side. */
static const char *place_said(struct compiled *job, bool supply, const char *tap, const char *station) {
    *job = compiled_text("job \"Taps\"\n"
                         "unit fan { blower 400 cfm at 2 in.wg }\n"
                         "run out from fan.supply { size 30 x 30; straight 10 ft }\n"
                         "run back from fan.return { size 30 x 30; straight 10 ft }\n"
                         "outlet room from out at %s left { airflow 400 cfm; %s; straight 2 ft; register 30 x 30 }\n"
                         "inlet hall from back at %s left { %s; straight 2 ft; grille 30 x 30 }\n",
                         supply ? station : "5 ft", supply ? tap : "size 8", supply ? "5 ft" : station,
                         supply ? "size 8" : tap);
    assert_int_equal(job->job->diagnostics->error_count, 0);
    const struct diagnostic *said = compiled_said(job, "tap-fit", supply ? "room" : "hall", 0);
    return said ? said->message : NULL;
}

static bool place_warns(bool supply, const char *tap, const char *station) {
    struct compiled job;
    bool warned = place_said(&job, supply, tap, station) != NULL;
    compiled_free(&job);
    return warned;
}

/* A run of 20 in along the parent has 10 in on either side: a shoe 5 more toward the unit, a cone 1/2 either way; of
 * one of 8 in a shoe has 4 more.  Return air turns toward the unit as well. */
static void a_shoe_reaches_toward_the_unit_and_a_cone_both_ways(void **state) {
    (void)state;
    for (int supply = 0; supply < 2; supply++) {
        assert_false(place_warns(supply, "size 20 x 12; tap shoe", "15 in"));
        assert_true(place_warns(supply, "size 20 x 12; tap shoe", "14.9 in"));
        assert_false(place_warns(supply, "size 20 x 12; tap shoe", "110 in"));
        assert_true(place_warns(supply, "size 20 x 12; tap shoe", "110.1 in"));
        assert_false(place_warns(supply, "size 8; tap shoe", "8 in"));
        assert_true(place_warns(supply, "size 8; tap shoe", "7.9 in"));
        assert_false(place_warns(supply, "size 8; tap conical", "4.5 in"));
        assert_true(place_warns(supply, "size 8; tap conical", "4.4 in"));
        assert_false(place_warns(supply, "size 8; tap conical", "115.5 in"));
        assert_true(place_warns(supply, "size 8; tap conical", "115.6 in"));
        assert_false(place_warns(supply, "size 8; tap saddle", "4 in"));
    }
    struct compiled job;
    const char *said = place_said(&job, true, "size 20 x 12; tap shoe", "1 ft");
    assert_non_null(strstr(said, "it needs 15 in from its middle toward the unit, 10 in away from it"));
    assert_string_equal(compiled_said(&job, "tap-fit", "room", 0)->hint,
                        "from 1 ft 3 in to 9 ft 2 in along the run there is room for it");
    compiled_free(&job);
}

/* Of two taps the nearer needs what it has away from the unit, the farther what it has toward it. */
static void a_shoe_stands_off_from_the_tap_before_it(void **state) {
    (void)state;
    const char *trunk = "straight 9 ft; straight 9 ft", *shoe = "72.5 in left", *close = "72.4 in left";
    assert_false(second_tap_warns_with(trunk, "60 in left", shoe, "tap shoe"));
    assert_true(second_tap_warns_with(trunk, "60 in left", close, "tap shoe"));
    assert_false(second_tap_warns_with(trunk, "60 in left", "69 in left", "tap conical"));
    assert_true(second_tap_warns_with(trunk, "60 in left", "68.9 in left", "tap conical"));
}

static void a_tap_is_not_cut_over_the_end_of_its_duct(void **state) {
    (void)state;
    assert_false(second_tap_warns("straight 9 ft; elbow 90 left; straight 9 ft", "60 in left", "104 in left"));
    assert_true(second_tap_warns("straight 9 ft; elbow 90 left; straight 9 ft", "60 in left", "105 in left"));
    assert_true(second_tap_warns("straight 9 ft; elbow 90 left; straight 9 ft", "60 in left", "109 in left"));
    assert_false(second_tap_warns("straight 9 ft; straight 9 ft", "60 in left", "109 in left")); /* a joint only */
    assert_true(second_tap_warns("straight 9 ft; box 20 x 20 x 7", "60 in left", "111.5 in left"));
    assert_false(second_tap_warns("straight 9 ft; box 20 x 20 x 9", "60 in left", "112.5 in left"));
}

/* ---- Transitions and boots --------------------------------------------------------------------------------------- */

/* 10 in more in 27.5 in is 20 degrees on one flat side, in 13.8 in on two: tan 20 = 0.3640, tan 45 = 1. */
static void a_transition_may_widen_by_20_degrees_and_narrow_by_45(void **state) {
    (void)state;
    const char *trunk = "size 20 x 20; straight 5 ft; transition to %s over %s; straight 5 ft";
    static const struct {
        const char *to, *over;
        bool warned;
    } cases[] = {
        {"30 x 20", "27.5 in, flat left", false},
        {"30 x 20", "27.4 in, flat left", true},
        {"30 x 20", "13.8 in, centred", false},
        {"30 x 20", "13.7 in", true},
        {"30 x 20", "13.8 in, flat bottom", false},
        {"20 x 30", "13.8 in, flat bottom", true},
        {"10 x 20", "10 in, flat right", false},
        {"10 x 20", "9.9 in, flat right", true},
        {"10 x 20", "5 in", false},
        {"10 x 20", "4.9 in", true},
        {"20 x 20", "9 in", true}, /* changes nothing */
        /* a side that is moved slopes more, one that is flat not at all */
        {"30 x 30", "27.5 in, flat top-left", false},
        {"30 x 30", "27.4 in, flat top-left", true},
        {"20 x 20", "27.5 in, left 10 in", false},
        {"20 x 20", "27.4 in, left 10 in", true},
        {"20 x 10", "27.5 in, flat top, right 10 in", false},
        {"20 x 10", "27.4 in, flat top, right 10 in", true},
        {"10 x 20", "15 in, left 10 in", false}, /* one side 15 in inward, the other 5 in outward */
        {"10 x 20", "14.9 in, right 10 in", true},
        /* turned 15, a corner of 10, 10 goes to 12.247, 7.071: 2.247 outward in 6.175 is 20 degrees */
        {"20 x 20", "6.2 in, turned 15", false},
        {"20 x 20", "6.1 in, turned -15", true},
    };
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        char text[200];
        snprintf(text, sizeof text, trunk, cases[i].to, cases[i].over);
        assert_int_equal(warns((struct words){.flow = 100, .trunk = text}, "transition", "trunk"), cases[i].warned);
    }
}

static struct compiled changed_to(const char *over) {
    char text[200];
    snprintf(text, sizeof text, "size 20 x 20; straight 5 ft; transition %s; straight 5 ft", over);
    return workshop((struct words){.flow = 100, .trunk = text});
}

/* What no side of grows does not widen. */
static void a_transition_that_is_only_moved_leans(void **state) {
    (void)state;
    static const char *const cases[][2] = {
        {"to 20 x 20 over 20 in, left 10 in", " leans outward by 27 degrees on one side: 20 is"},
        {"to 18 x 18 over 10 in, right 8 in", " leans outward by 35 degrees on one side: 20 is"},
        {"to 24 x 20 over 3 in", " widens by 34 degrees a side: 20 is"},
        {"to 12 x 20 over 3 in", " narrows by 53 degrees a side: 45 is"},
    };
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        struct compiled job = changed_to(cases[i][0]);
        assert_non_null(strstr(compiled_said(&job, "transition", "trunk", 0)->message, cases[i][1]));
        compiled_free(&job);
    }
}

/* Of a square the two triangles of a side lean alike, as far apart as the ends are turned: a little more than that. */
static void a_twisted_transition_is_warned_of_and_beyond_a_limit_an_error(void **state) {
    (void)state;
    static const struct {
        const char *over;
        int level; /* -1: nothing is said */
        const char *hint;
    } cases[] = {
        {"to 20 x 20 over 60 in, turned 30", -1, NULL},
        {"to 20 x 20 over 60 in, turned 50", DIAGNOSTIC_WARNING, "transition to 20 x 20 over 60 in, turned -40"},
        {"to 20 x 20 over 60 in, turned 45", DIAGNOSTIC_WARNING, NULL},
        {"to 20 x 10 over 60 in, turned 90", DIAGNOSTIC_ERROR, "transition to 10 x 20 over 60 in"},
        {"to 20 x 10 over 60 in, left 4 in, turned -80", DIAGNOSTIC_ERROR,
         "transition to 10 x 20 over 60 in, left 4 in, turned 10"},
    };
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        struct compiled job = changed_to(cases[i].over);
        const struct diagnostic *said = compiled_said(&job, "transition", "trunk", 0);
        assert_int_equal(said ? (int)said->level : -1, cases[i].level);
        const char *hint = cases[i].hint;
        if (hint)
            assert_string_equal(said->hint, hint);
        compiled_free(&job);
        if (!hint)
            continue;
        struct compiled typed = changed_to(hint + strlen("transition "));
        assert_null(compiled_said(&typed, "transition", "trunk", 0));
        compiled_free(&typed);
    }
}

/* Return air goes the other way: what widens away from the unit narrows for the air. */
static void a_return_transition_is_seen_with_the_air(void **state) {
    (void)state;
    const char *hall = "size 20 x 20; straight 5 ft; transition to 30 x 20 over %s; grille 30 x 20";
    char steep[200], fair[200];
    snprintf(steep, sizeof steep, hall, "4.9 in");
    snprintf(fair, sizeof fair, hall, "5.1 in");
    assert_true(warns((struct words){.flow = 100, .hall = steep}, "transition", "hall"));
    assert_false(warns((struct words){.flow = 100, .hall = fair}, "transition", "hall"));
}

static void a_face_of_another_size_wants_a_boot(void **state) {
    (void)state;
    assert_true(warns((struct words){.flow = 100, .kiln = "size 10; straight 3 ft; register 14 x 8"}, "boot", "kiln"));
    assert_true(warns((struct words){.flow = 100, .hall = "size 10; straight 3 ft; grille 20 x 14"}, "boot", "hall"));
    assert_false(
        warns((struct words){.flow = 100, .kiln = "size 10; straight 3 ft; boot; register 14 x 8"}, "boot", "kiln"));
    assert_false(warns((struct words){.flow = 100, .hall = "size 10; straight 3 ft; box 24 x 18 x 10; grille 20 x 14"},
                       "boot", "hall"));
    assert_false(
        warns((struct words){.flow = 100, .kiln = "size 14 x 8; straight 3 ft; register 8 x 14"}, "boot", "kiln"));
    assert_false(
        warns((struct words){.flow = 100, .hall = "size 24 x 20; straight 3 ft; filter 20 x 25 x 1"}, "boot", "hall"));
    assert_true(
        warns((struct words){.flow = 100, .hall = "size 24 x 18; straight 3 ft; filter 20 x 24 x 1"}, "boot", "hall"));
}

static void a_blower_that_gives_more_with_more_air_is_told(void **state) {
    (void)state;
    const char *text = "job \"Rise\"\nunit fan { blower 100 cfm at %s in.wg, 200 cfm at 2 in.wg }\n"
                       "run trunk from fan.supply { size 20 x 20; straight 5 ft }\n"
                       "outlet kiln from trunk { airflow 200 cfm; size 20 x 20; register 20 x 20 }\n"
                       "inlet hall from fan.return { size 20 x 20; straight 4 ft; grille 20 x 20 }\n";
    struct compiled rising = compiled_text(text, "1.9"), falling = compiled_text(text, "2.1");
    const struct diagnostic *said = compiled_said(&rising, "blower-rise", "fan", 0);
    assert_non_null(said);
    assert_int_equal(said->level, DIAGNOSTIC_WARNING);
    assert_null(compiled_said(&falling, "blower-rise", NULL, 0));
    compiled_free(&rising);
    compiled_free(&falling);
}

/* The branch diagrams end where the branch is as large as the duct it leaves. */
static void a_loss_held_at_the_end_of_its_table_is_told(void **state) {
    (void)state;
    assert_false(tap_warns("table-range", "12 x 12", "13 x 11", "left"));
    assert_true(tap_warns("table-range", "12 x 12", "14 x 11", "left"));
    struct compiled job = tapped("12 x 12", "14 x 11", "left");
    const struct diagnostic *said = compiled_said(&job, "table-range", "kiln", 0);
    assert_non_null(
        strstr(said->message, "the tap of kiln, 14 x 11 in, is larger than the duct it is cut into, 12 x 12 in"));
    assert_null(compiled_said(&job, "table-range", "kiln", 1)); /* not for the air past the tap as well */
    compiled_free(&job);
    /* Of a tap that does not fit at all, tap-fit speaks, and that is enough. */
    assert_int_equal(tap_said("10 x 10", "14 x 14", "left").level, DIAGNOSTIC_ERROR);
    job = tapped("10 x 10", "14 x 14", "left");
    assert_null(compiled_said(&job, "table-range", "kiln", 0));
    compiled_free(&job);
}

/* ---- Hints ------------------------------------------------------------------------------------------------------- */

static void assert_hint(struct words words, const char *check, const char *subject, const char *hint) {
    struct compiled job = workshop(words);
    const struct diagnostic *said = compiled_said(&job, check, subject, 0);
    assert_non_null(said);
    assert_string_equal(said->hint, hint);
    compiled_free(&job);
}

/* 164 cfm at 500 fpm takes 0.328 ft2, 230 cfm at 700 fpm 0.3286 ft2: a face of 0.3 ft2 would not do. */
static void a_face_that_would_do_is_rounded_up(void **state) {
    (void)state;
    assert_hint((struct words){.flow = 164, .hall = "size 40 x 30; grille 8 x 5"}, "return-area", "hall",
                "a face of 0.4 ft2 would do");
    assert_hint((struct words){.flow = 230, .kiln = "size 40 x 30; register 8 x 5"}, "velocity", "kiln",
                "a face of 0.4 ft2 would do");
}

static void what_a_tap_needs_is_rounded_up(void **state) {
    (void)state;
    struct compiled job = tapped("5 x 5", "6.333", "left");
    assert_string_equal(compiled_said(&job, "tap-fit", "kiln", 0)->hint, "transition to 5 x 7.5 over 4-3/4 in");
    compiled_free(&job);
}

/* What the hint says can be typed in, and is then not warned about. */
static void the_airflow_for_a_ton_can_be_typed_in(void **state) {
    (void)state;
    assert_hint((struct words){.flow = 1000, .unit = "cooling 3 ton; airflow 1000 cfm"}, "tonnage", "fan",
                "airflow 1200 cfm");
    /* Where the outlets say how much air there is, an airflow of the unit would only be at odds with them. */
    assert_hint((struct words){.flow = 1000, .unit = "cooling 3 ton"}, "tonnage", "fan",
                "outlets that take 1200 cfm in all");
    assert_false(warns((struct words){.flow = 1200, .unit = "cooling 3 ton; airflow 1200 cfm"}, "tonnage", "fan"));
}

static void a_rate_that_the_method_does_not_use_is_told(void **state) {
    (void)state;
    const char *rate = "friction 0.08 in.wg/100ft", *both = "sizing velocity; friction 0.08 in.wg/100ft";
    assert_false(warns((struct words){.flow = 400, .job = rate}, "friction", "fan"));
    assert_false(warns((struct words){.flow = 400, .job = "sizing velocity"}, "friction", "fan"));
    assert_true(warns((struct words){.flow = 400, .job = both}, "friction", "fan"));
}

/* ---- The table --------------------------------------------------------------------------------------------------- */

static void every_check_is_counted_in_the_order_of_the_table(void **state) {
    (void)state;
    struct compiled job =
        workshop((struct words){.flow = 1000, .unit = "cooling 3 ton", .trunk = "size 12 x 12; straight 5 ft"});
    size_t count, warned = 0;
    const struct check *all = checks(&count);
    assert_int_equal(job.job->checks.count, count);
    for (size_t i = 0; i < count; i++) {
        assert_string_equal(job.job->checks.at[i].name, all[i].name);
        assert_true(all[i].looks_at && all[i].run);
        warned += job.job->checks.at[i].warned;
    }
    /* Those of the checks, and no warning beside them. */
    assert_int_equal(warned, job.job->diagnostics->warning_count);
    assert_true(warned >= 2);
    compiled_free(&job);
}

/* A thousand messages are kept; the table counts what was found. */
static void more_warnings_than_are_kept_are_all_counted(void **state) {
    (void)state;
    char *text = NULL;
    size_t length = 0;
    FILE *out = open_memstream(&text, &length);
    fputs("job \"Bare\"\nunit fan { blower 11000 cfm at 2 in.wg }\nrun trunk from fan.supply { straight 2000 ft }\n"
          "inlet hall from fan.return { grille 40 x 30 }\n",
          out);
    for (int i = 0; i < DIAGNOSTICS_KEPT + 100; i++)
        fprintf(out, "outlet bare%d from trunk at %d ft left { airflow 10 cfm; straight 4 ft }\n", i, i + 1);
    fclose(out);
    struct compiled job = compiled_text("%s", text);
    size_t found = 0;
    for (size_t i = 0; i < job.job->checks.count; i++)
        if (strcmp(job.job->checks.at[i].name, "register") == 0)
            found = job.job->checks.at[i].warned;
    assert_int_equal(found, DIAGNOSTICS_KEPT + 100);
    compiled_free(&job);
    free(text);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_supply_trunk_may_reach_900_fpm),
        cmocka_unit_test(a_supply_branch_may_reach_900_fpm),
        cmocka_unit_test(a_return_branch_may_reach_700_fpm),
        cmocka_unit_test(a_runs_own_velocity_limit_goes_before_the_guide),
        cmocka_unit_test(a_register_face_may_reach_700_fpm),
        cmocka_unit_test(a_velocity_warning_gives_figures_and_a_size_that_would_do),
        cmocka_unit_test(a_metric_job_is_warned_in_metres),
        cmocka_unit_test(a_return_grille_may_reach_500_fpm),
        cmocka_unit_test(a_filter_may_reach_300_fpm),
        cmocka_unit_test(no_duct_goes_over_0_15_in_a_hundred_feet),
        cmocka_unit_test(a_declared_rate_is_held_against_the_usual_range),
        cmocka_unit_test(four_to_one_is_flat_enough),
        cmocka_unit_test(a_ton_wants_about_400_cfm),
        cmocka_unit_test(flexible_duct_may_be_14_ft_long),
        cmocka_unit_test(a_tap_and_an_inch_fit_the_side_it_is_cut_into),
        cmocka_unit_test(a_shoe_reaches_toward_the_unit_and_a_cone_both_ways),
        cmocka_unit_test(a_shoe_stands_off_from_the_tap_before_it),
        cmocka_unit_test(a_tap_wider_than_its_wall_is_an_error_and_its_hint_makes_room),
        cmocka_unit_test(a_flatter_tap_is_told_within_the_shops_aspect),
        cmocka_unit_test(a_cone_takes_an_inch_more_across_and_a_shoe_does_not),
        cmocka_unit_test(taps_on_one_side_stand_beside_each_other),
        cmocka_unit_test(a_tap_is_not_cut_over_the_end_of_its_duct),
        cmocka_unit_test(a_transition_may_widen_by_20_degrees_and_narrow_by_45),
        cmocka_unit_test(a_transition_that_is_only_moved_leans),
        cmocka_unit_test(a_twisted_transition_is_warned_of_and_beyond_a_limit_an_error),
        cmocka_unit_test(a_return_transition_is_seen_with_the_air),
        cmocka_unit_test(a_face_of_another_size_wants_a_boot),
        cmocka_unit_test(a_blower_that_gives_more_with_more_air_is_told),
        cmocka_unit_test(a_loss_held_at_the_end_of_its_table_is_told),
        cmocka_unit_test(a_face_that_would_do_is_rounded_up),
        cmocka_unit_test(what_a_tap_needs_is_rounded_up),
        cmocka_unit_test(the_airflow_for_a_ton_can_be_typed_in),
        cmocka_unit_test(a_rate_that_the_method_does_not_use_is_told),
        cmocka_unit_test(more_warnings_than_are_kept_are_all_counted),
        cmocka_unit_test(every_check_is_counted_in_the_order_of_the_table),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
