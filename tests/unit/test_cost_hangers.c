/* Where duct hangs, and by what: examples counted by hand. */
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <setjmp.h>
#include <cmocka.h>

#include "model/taps.h"
#include "near.h"
#include "takeoff_line.h"

/* A trunk of the given pieces, from a collar of its size. */
static struct compiled trunk_of(const char *shop, const char *size, const char *pieces) {
    return compiled_text(
        "shop \"s\" { %s }\n"
        "job \"t\" {}\n"
        "unit fan { airflow 400 cfm; blower 460 cfm at 0.2 in.wg, 400 cfm at 0.4 in.wg\n"
        "    supply %s; return 20 x 14 }\n"
        "run trunk from fan.supply { %s }\n"
        "outlet one from trunk at 3 ft left { size 8 round; airflow 400 cfm; tap straight; boot straight over 8 in\n"
        "    register 12 x 6 }\n"
        "run back from fan.return { straight 4 ft }\n"
        "inlet hall from back { grille 20 x 14 }\n",
        shop, size, pieces);
}

struct wanted {
    double feet;
    enum hanger_reason reason;
};

static void hangs(const char *shop, const char *pieces, const struct wanted *wanted, size_t count) {
    struct compiled job = trunk_of(shop, "12 x 8", pieces);
    const struct takeoff *takeoff = job.job->takeoff;
    assert_non_null(takeoff);
    size_t found = 0;
    for (size_t i = 0; i < takeoff->hangers.count; i++) {
        const struct hanger *hanger = &takeoff->hangers.at[i];
        if (strcmp(hanger->run->name, "trunk") != 0)
            continue;
        if (found >= count)
            fail_msg("%s: more than %zu hangers, one at %g ft", pieces, count, hanger->station / FOOT);
        assert_near(hanger->station, wanted[found].feet * FOOT, 1e-9);
        assert_int_equal(hanger->reason, wanted[found].reason);
        found++;
    }
    assert_int_equal(found, count);
    compiled_free(&job);
}

#define HANGS(shop, pieces, ...)                                                                                       \
    do {                                                                                                               \
        const struct wanted list[] = {__VA_ARGS__};                                                                    \
        hangs(shop, pieces, list, sizeof list / sizeof list[0]);                                                       \
    } while (0)

/* The tap at 3 ft wants one within 4 ft: by 7 ft.  From there every 10 ft; the cap wants one within 5 ft. */
static void hangers_are_as_far_apart_as_may_be(void **state) {
    (void)state;
    HANGS("", "straight 12 ft; cap", {7, HUNG_BRANCH});
    HANGS("", "straight 22 ft; cap", {7, HUNG_BRANCH}, {17, HUNG_APART});
    HANGS("", "straight 23 ft; cap", {7, HUNG_BRANCH}, {17, HUNG_APART}, {23, HUNG_END});
    HANGS("", "straight 28 ft; cap", {7, HUNG_BRANCH}, {17, HUNG_APART}, {27, HUNG_APART});
}

static void the_shop_says_how_far_apart(void **state) {
    (void)state;
    HANGS("hang every 5 ft", "straight 12 ft; cap", {5, HUNG_APART}, {10, HUNG_APART});
    HANGS("hang every 6 ft, below 2 ft", "straight 12 ft; cap", {6, HUNG_APART}, {12, HUNG_APART});
}

/* A tap at 1 m wants one within 1.2 m, from there every 3 m; a cap wants one within 1.5 m; webbing every 1.2 m. */
static void a_metric_job_hangs_by_metric_distances(void **state) {
    (void)state;
    struct compiled job = compiled_text(
        "job \"Loft\" { units metric }\nunit fan { blower 300 L/s at 50 Pa, 250 L/s at 90 Pa; supply 300 x 200; return "
        "400 x 250; at 0 m, 0 m, 3 m; faces east }\n"
        "run trunk from fan.supply { straight 9 m; cap }\n"
        "outlet desk from trunk at 1 m left { airflow 200 L/s; flex 4.8 m; boot; register 300 x 150 }\n"
        "run back from fan.return { straight 1 m }\ninlet hall from back { grille 500 x 350 }\n");
    static const struct {
        const char *run;
        double station;
    } wanted[] = {{"trunk", 2.2}, {"trunk", 5.2}, {"trunk", 8.2}, {"desk", 1.2},
                  {"desk", 2.4},  {"desk", 3.6},  {"back", 0.5}};
    enum { WANTED = sizeof wanted / sizeof wanted[0] };
    const struct takeoff *takeoff = job.job->takeoff;
    assert_non_null(takeoff);
    assert_int_equal(takeoff->hangers.count, WANTED);
    for (size_t i = 0; i < WANTED; i++) {
        assert_string_equal(takeoff->hangers.at[i].run->name, wanted[i].run);
        assert_near(takeoff->hangers.at[i].station, wanted[i].station, 1e-9);
    }
    const struct run *desk = compiled_run(&job, "desk");
    const struct piece *boot = desk->pieces.at[desk->pieces.count - 2];
    assert_non_null(strstr(boot->kind->describe(boot, MEASURE_METRIC, job.job->arena), "200 mm long (assumed)"));
    compiled_free(&job);
}

/* Turns at 10 ft and 14 ft: the first by 12 ft serves both; without a turn it would be 17. */
static void elbows_have_one_within_two_feet(void **state) {
    (void)state;
    HANGS("", "straight 10 ft; elbow 90 left; straight 12 ft; cap", {7, HUNG_BRANCH}, {12, HUNG_TURN},
          {22, HUNG_APART});
    HANGS("", "straight 10 ft; elbow 90 left; straight 4 ft; elbow 90 right; straight 8 ft; cap", {7, HUNG_BRANCH},
          {12, HUNG_TURN}, {22, HUNG_APART});
}

/* Canvas bears nothing: one within 2 ft of it, of what follows. */
static void duct_behind_canvas_bears_itself(void **state) {
    (void)state;
    HANGS("", "connector 4 in; straight 12 ft; cap", {4.0 / 12 + 2, HUNG_START}, {4.0 / 12 + 12, HUNG_APART});
}

/* A run that goes on from the end of another keeps the distance over the joint: half a spacing before, half behind. */
static void runs_that_go_on_keep_the_distance(void **state) {
    (void)state;
    struct compiled job =
        compiled_text("job \"t\" {}\n"
                      "unit fan { airflow 400 cfm; blower 460 cfm at 0.2 in.wg, 400 cfm at 0.4 in.wg\n"
                      "    supply 12 x 8; return 20 x 14 }\n"
                      "run trunk from fan.supply { straight 16 ft }\n"
                      "run more from trunk { straight 16 ft }\n"
                      "outlet one from more { airflow 400 cfm; register 12 x 8 }\n"
                      "run back from fan.return { straight 4 ft }\n"
                      "inlet hall from back { grille 20 x 14 }\n");
    const struct takeoff *takeoff = job.job->takeoff;
    double last = 0, starts = 0;
    for (size_t i = 0; i < takeoff->hangers.count; i++) {
        const struct hanger *hanger = &takeoff->hangers.at[i];
        if (strcmp(hanger->run->name, "back") == 0)
            continue;
        starts = strcmp(hanger->run->name, "more") == 0 ? 16 * FOOT : 0;
        assert_true(starts + hanger->station - last < 10 * FOOT + 1e-9);
        last = starts + hanger->station;
    }
    assert_true(32 * FOOT - last < 10 * FOOT + 1e-9);
    assert_int_equal(takeoff->hangers.count, 3 + 1); /* and that of the return */
    compiled_free(&job);
}

/* Wide duct hangs every 4 ft, also where the duct that it goes on from has its last support farther back. */
static void a_wider_run_hangs_from_its_beginning(void **state) {
    (void)state;
    struct compiled job =
        compiled_text("job \"t\" {}\n"
                      "unit fan { airflow 400 cfm; blower 460 cfm at 0.2 in.wg, 400 cfm at 0.4 in.wg\n"
                      "    supply 30 x 20; return 20 x 14 }\n"
                      "run trunk from fan.supply { straight 9 ft }\n"
                      "run more from trunk { size 60 x 20; straight 9 ft }\n"
                      "outlet one from more { airflow 400 cfm; register 60 x 20 }\n"
                      "run back from fan.return { straight 4 ft }\n"
                      "inlet hall from back { grille 20 x 14 }\n");
    const struct takeoff *takeoff = job.job->takeoff;
    assert_int_equal(takeoff->hangers.count, 3 + 1); /* and that of the return */
    for (size_t i = 0; i < 3; i++) {
        assert_string_equal(takeoff->hangers.at[i].run->name, "more");
        assert_near(takeoff->hangers.at[i].station, 4.0 * (double)i * FOOT, 1e-9);
    }
    compiled_free(&job);
}

/* The hangers of a trunk from a collar that faces so, with a tap 3 ft along it. */
static void faced_hangs(const char *faces, const char *pieces, const struct wanted *wanted, size_t count) {
    struct compiled job = compiled_text(
        "job \"t\" {}\n"
        "unit fan { airflow 400 cfm; blower 460 cfm at 0.2 in.wg, 400 cfm at 0.4 in.wg; supply 12 x 8; return 20 x 14; "
        "faces %s }\n"
        "run trunk from fan.supply { %s }\n"
        "outlet one from trunk at 3 ft left { size 8 round; airflow 400 cfm; tap straight; boot straight over 8 in\n"
        "    register 12 x 6 }\n"
        "run back from fan.return { straight 1 ft }\ninlet hall from back { grille 20 x 14 }\n",
        faces, pieces);
    const struct takeoff *takeoff = job.job->takeoff;
    size_t found = 0, risers = 0, straps = 0;
    assert_non_null(takeoff);
    for (size_t i = 0; i < takeoff->hangers.count; i++) {
        const struct hanger *hanger = &takeoff->hangers.at[i];
        bool riser = hanger->kind == HANGER_RISER;
        if (strcmp(hanger->run->name, "trunk") != 0 || found >= count)
            fail_msg("faces %s, %s: one in %s at %g ft", faces, pieces, hanger->run->name, hanger->station / FOOT);
        if (fabs(hanger->station / FOOT - wanted[found].feet) > 1e-9 || hanger->reason != wanted[found].reason)
            fail_msg("faces %s, %s: %s at %g ft", faces, pieces, hanger_reason_words(hanger->reason),
                     hanger->station / FOOT);
        assert_int_equal(riser, wanted[found++].reason == HUNG_RISER);
        assert_true(riser != (hanger->strap > 0));
        risers += riser;
        straps += !riser;
    }
    assert_int_equal(found, count);
    assert_near(net_of(&job, "riser_support"), (double)risers, 0);
    assert_near(net_of(&job, "hanger_fastener"), (double)(2 * straps + 2 * risers + 4), 0); /* 4 at the boot's face */
    compiled_free(&job);
}

#define FACED_HANGS(faces, pieces, ...)                                                                                \
    do {                                                                                                               \
        const struct wanted list[] = {__VA_ARGS__};                                                                    \
        faced_hangs(faces, pieces, list, sizeof list / sizeof list[0]);                                                \
    } while (0)

/* 16 ft ask for two supports, each in the middle of 8 ft; the level duct behind it counts on from the upper one and has
 * one near the elbow.  A riser of 4 ft is borne by what it is joined to. */
static void a_riser_stands_on_supports(void **state) {
    (void)state;
    FACED_HANGS("up", "straight 16 ft; elbow 90 left; straight 12 ft; cap", {4, HUNG_RISER}, {12, HUNG_RISER},
                {18, HUNG_TURN}, {28, HUNG_APART});
    FACED_HANGS("up", "straight 12 ft; cap", {6, HUNG_RISER});
    FACED_HANGS("down", "straight 6 ft; straight 6.5 ft; cap", {3.125, HUNG_RISER}, {9.375, HUNG_RISER});
    FACED_HANGS("east", "straight 6 ft; elbow 90 up; straight 5 ft; elbow 90 down; straight 6 ft; cap",
                {5.75, HUNG_TURN}, {8.5, HUNG_RISER}, {13, HUNG_TURN});
    FACED_HANGS("east", "straight 6 ft; elbow 45 up; straight 5 ft; elbow 45 down; straight 1 ft; cap",
                {7, HUNG_BRANCH}, {12, HUNG_TURN});
    for (int i = 0; i < 2; i++)
        FACED_HANGS(i ? "up" : "east", "straight 4 ft; elbow 90 left; straight 12 ft; cap", {6, HUNG_TURN},
                    {16, HUNG_APART});
}

/* However short: the level duct on either side has its own near the elbow, 3 in off its joint.  Canvas bears nothing,
 * but what is level behind the riser does. */
static void upright_duct_never_hangs(void **state) {
    (void)state;
    const double canvas = 4.0 / 12;
    FACED_HANGS("up", "connector 4 in; straight 4 ft; elbow 90 left; straight 16 ft; cap", {canvas + 6, HUNG_TURN},
                {canvas + 16, HUNG_APART});
    FACED_HANGS("up", "connector 4 in; straight 4 ft; cap", {canvas + 2, HUNG_RISER});
    faced_hangs("up", "straight 4 ft; cap", NULL, 0);
    FACED_HANGS("east", "straight 10 ft; elbow 90 down; straight 2 ft; cap", {7, HUNG_BRANCH}, {9.75, HUNG_TURN});
    FACED_HANGS("east", "straight 6 ft; elbow 90 up; straight 3 ft; elbow 90 down; straight 6 ft; cap",
                {5.75, HUNG_TURN}, {11, HUNG_TURN});
}

/* Of a job whose trunk has taps at the given stations, in inches, on the given sides: whether its hangers keep clear of
 * them, the spacing, and the distance from branches. */
static void keeps_clear(const char *shop, const char *pieces, const char *const *taps, size_t count) {
    const char *text = "", *flow = count == 1 ? "400" : "200";
    struct arena *arena = arena_new(NULL);
    for (size_t i = 0; i < count; i++)
        text = arena_format(arena,
                            "%soutlet tap%zu from trunk at %s { size 10 x 8; airflow %s cfm; boot straight over 8 in; "
                            "register 12 x 6 }\n",
                            text, i, taps[i], flow);
    struct compiled job =
        compiled_text("shop \"s\" { %s }\njob \"t\" {}\n"
                      "unit fan { airflow 400 cfm; blower 460 cfm at 0.2 in.wg, 400 cfm at 0.4 in.wg\n"
                      "    supply 16 x 12; return 20 x 14 }\n"
                      "run trunk from fan.supply { %s }\n%s"
                      "run back from fan.return { straight 4 ft }\n"
                      "inlet hall from back { grille 20 x 14 }\n",
                      shop, pieces, text);
    const struct takeoff *takeoff = job.job->takeoff;
    const struct run *trunk = compiled_run(&job, "trunk");
    assert_non_null(takeoff);
    assert_int_equal(trunk->taps.count, count);
    double last = 0;
    for (size_t h = 0; h < takeoff->hangers.count; h++) {
        const struct hanger *hanger = &takeoff->hangers.at[h];
        if (hanger->run != trunk)
            continue;
        assert_true(hanger->station - last < job.job->shop.hang_every + 1e-9);
        last = hanger->station;
        for (size_t i = 0; i < count; i++) {
            double on = hanger->station - trunk->taps.at[i]->from.station;
            struct tap_reach reach = tap_reach_of(trunk->taps.at[i]);
            assert_true(reach.toward > 2 * INCH && reach.away > 2 * INCH);
            if (on > -reach.toward - 3 * INCH + 1e-9 && on < reach.away + 3 * INCH - 1e-9)
                fail_msg("%s, %s: one at %g ft", taps[i], pieces, hanger->station / FOOT);
        }
    }
    assert_true(last > 0);
    compiled_free(&job);
    arena_free(arena);
}

static void hangers_keep_clear_of_taps(void **state) {
    (void)state;
    static const char *const sides[] = {"left", "right", "bottom"};
    for (int inches = 18; inches <= 126; inches += 3) {
        char text[2][40];
        for (int i = 0; i < 2; i++)
            snprintf(text[i], sizeof text[i], "%d in %s", inches + 14 * i, sides[(inches / 3 + i) % 3]);
        const char *const taps[] = {text[0], text[1]};
        keeps_clear("hang every 5 ft", "straight 14 ft; cap", taps, 1);
        keeps_clear("", "straight 14 ft; cap", taps, 1);
        keeps_clear("hang every 5 ft", "straight 14 ft; cap", taps, 2);
    }
}

/* What a tap with a collar of 10 in along the trunk takes from its station toward the unit and away from it, with what
 * is kept clear, ft. */
static double clear_of(const struct run *tapped, bool beyond) {
    struct tap_reach reach = tap_reach_of(tapped);
    return ((beyond ? reach.away : reach.toward) + 3 * INCH) / FOOT;
}

/* 10 ft would be at the tap.  Toward the unit; a tap on top is no straps' way, but a band's. */
static void a_hanger_moves_off_a_tap_toward_the_unit(void **state) {
    (void)state;
    static const struct {
        const char *size, *side;
        bool moves;
    } ways[] = {{"16 x 12", "left", true}, {"16 x 12", "bottom", true}, {"16 x 12", "top", false}, {"16", "top", true}};
    for (size_t i = 0; i < sizeof ways / sizeof ways[0]; i++) {
        struct compiled job = compiled_text(
            "job \"t\" {}\nunit fan { airflow 400 cfm; blower 460 cfm at 0.2 in.wg, 400 cfm at 0.4 in.wg\n"
            "    supply %s; return 20 x 14 }\nrun trunk from fan.supply { straight 14 ft; cap }\n"
            "outlet one from trunk at 10 ft %s { size 6; airflow 400 cfm; tap straight; boot straight over 8 in\n"
            "    register 12 x 6 }\n"
            "run back from fan.return { straight 4 ft }\ninlet hall from back { grille 20 x 14 }\n",
            ways[i].size, ways[i].side);
        const struct hanger *hanger = &job.job->takeoff->hangers.at[0];
        double back = ways[i].moves ? clear_of(compiled_run(&job, "one"), false) : 0;
        assert_true(!ways[i].moves || back > 5.9 / 12);
        assert_near(hanger->station, (10 - back) * FOOT, 1e-9);
        compiled_free(&job);
    }
}

/* The 2 ft behind the elbow are all opening: the first stands beyond it. */
static void a_tap_at_an_elbow_has_one_beyond(void **state) {
    (void)state;
    struct compiled job = compiled_text(
        "job \"t\" {}\nunit fan { airflow 400 cfm; blower 460 cfm at 0.2 in.wg, 400 cfm at 0.4 in.wg\n"
        "    supply 24 x 12; return 20 x 14; faces up }\n"
        "run trunk from fan.supply { straight 5 ft; elbow 90 left; straight 12 ft; cap }\n"
        "outlet one from trunk at 6 ft left { size 20 x 8; airflow 400 cfm; tap straight; boot straight over 8 in\n"
        "    register 12 x 6 }\n"
        "run back from fan.return { straight 1 ft }\ninlet hall from back { grille 20 x 14 }\n");
    const struct takeoff *takeoff = job.job->takeoff;
    double beyond = 6 + clear_of(compiled_run(&job, "one"), true);
    assert_int_equal(takeoff->hangers.at[0].kind, HANGER_RISER);
    assert_true(beyond > 7);
    assert_near(takeoff->hangers.at[1].station, beyond * FOOT, 1e-9);
    compiled_free(&job);
}

/* The straps of the trunk's first hanger. */
static void strap_is(const char *shop, const char *size, double width, int gauge, double length) {
    struct compiled job = trunk_of(shop, size, "straight 12 ft; cap");
    const struct takeoff *takeoff = job.job->takeoff;
    assert_true(takeoff->hangers.count > 0);
    const struct hanger *hanger = &takeoff->hangers.at[0];
    assert_near(hanger->strap_width, width * INCH, 1e-9);
    assert_int_equal(hanger->strap_gauge, gauge);
    assert_near(hanger->strap, length * INCH, 1e-9);
    compiled_free(&job);
}

/* By half the girth, with 12 in above the duct and 4 in for the ends; round duct has a band, 2 in of lap, one leg. */
static void straps_are_by_girth_and_spacing(void **state) {
    (void)state;
    strap_is("", "18 x 12", 1, 22, 2 * (12 + 12 + 4)); /* half girth 30 in */
    strap_is("", "20 x 12", 1, 18, 2 * (12 + 12 + 4)); /* 32 in, 10 ft apart */
    strap_is("hang every 8 ft", "20 x 12", 1, 20, 2 * (12 + 12 + 4));
    strap_is("hang every 5 ft", "20 x 12", 1, 22,
             2 * (12 + 12 + 4)); /* a shop's notes: 22 ga to 144 in of girth at 5 ft */
    strap_is("hang every 5 ft", "48 x 30", 1, 20, 2 * (12 + 30 + 4)); /* 78 in: 20 ga to 192 in of girth */
    strap_is("", "40 x 40", 1, 16, 2 * (12 + 40 + 4));
    strap_is("hang below 30 in", "12 x 8", 1, 22, 2 * (30 + 8 + 4));
    strap_is("", "10 round", 1, 22, PI * 10 + 2 + 12 + 2);
}

/* A side of 60 in hangs every 4 ft. */
static void wide_duct_hangs_closer(void **state) {
    (void)state;
    struct compiled job = trunk_of("", "60 x 20", "straight 12 ft; cap");
    const struct takeoff *takeoff = job.job->takeoff;
    double last = 0;
    for (size_t i = 0; i < takeoff->hangers.count && strcmp(takeoff->hangers.at[i].run->name, "trunk") == 0; i++) {
        assert_true(takeoff->hangers.at[i].station - last < 4 * FOOT + 1e-9);
        last = takeoff->hangers.at[i].station;
    }
    assert_true(last > 10 * FOOT - 1e-9);
    compiled_free(&job);
}

/* A stub to a boot is borne by both; a longer runout by one near its branch. */
static void short_runouts_need_none(void **state) {
    (void)state;
    static const struct {
        const char *straight;
        size_t count;
    } runouts[] = {{"2 ft", 0}, {"3 ft", 0}, {"6 ft", 1}, {"13 ft", 1}, {"15 ft", 2}};
    for (size_t i = 0; i < sizeof runouts / sizeof runouts[0]; i++) {
        struct compiled job = compiled_text(
            "job \"t\" {}\nunit fan { airflow 100 cfm; blower 120 cfm at 0.2 in.wg, 100 cfm at 0.4 in.wg; supply 12 x "
            "8; "
            "return 12 x 8 }\nrun trunk from fan.supply { straight 6 ft; cap }\n"
            "outlet one from trunk at 3 ft left { size 6 round; airflow 100 cfm; tap straight; straight %s; boot "
            "straight over 8 in; "
            "register 12 x 6 }\nrun back from fan.return { straight 1 ft }\ninlet hall from back { grille 12 x 8 }\n",
            runouts[i].straight);
        size_t found = 0;
        for (size_t h = 0; h < job.job->takeoff->hangers.count; h++)
            found += strcmp(job.job->takeoff->hangers.at[h].run->name, "one") == 0;
        if (found != runouts[i].count)
            fail_msg("%s: %zu hangers", runouts[i].straight, found);
        compiled_free(&job);
    }
}

/* Between the unit and a face: one in the middle, however short, but not of a stub. */
static void a_short_return_has_one(void **state) {
    (void)state;
    static const struct {
        const char *pieces;
        double at; /* ft; 0: none */
    } returns[] = {{"straight 4 ft", 2}, {"straight 9 ft", 4.5}, {"straight 12 ft", 10}, {"straight 2 ft", 0}};
    for (size_t i = 0; i < sizeof returns / sizeof returns[0]; i++) {
        struct compiled job = compiled_text(
            "job \"t\" {}\nunit fan { airflow 100 cfm; blower 120 cfm at 0.2 in.wg, 100 cfm at 0.4 in.wg; supply 12 x "
            "8; return 12 x 8 }\nrun trunk from fan.supply { straight 6 ft }\n"
            "outlet one from trunk { airflow 100 cfm; register 12 x 8 }\n"
            "run back from fan.return { %s }\ninlet hall from back { grille 12 x 8 }\n",
            returns[i].pieces);
        const struct hanger *found = NULL;
        for (size_t h = 0; h < job.job->takeoff->hangers.count; h++)
            if (strcmp(job.job->takeoff->hangers.at[h].run->name, "back") == 0)
                found = &job.job->takeoff->hangers.at[h];
        if (returns[i].at > 0) {
            assert_non_null(found);
            assert_near(found->station, returns[i].at * FOOT, 1e-9);
            assert_int_equal(found->reason, returns[i].at < 10 ? HUNG_ALONE : HUNG_APART);
        } else {
            assert_null(found);
        }
        compiled_free(&job);
    }
}

/* What a hanger behind it bears needs none of its own: 10 ft of trunk hung, 3 ft more to the face. */
static void a_short_run_is_borne_by_the_one_before(void **state) {
    (void)state;
    struct compiled job = compiled_text(
        "job \"t\" {}\nunit fan { airflow 100 cfm; blower 120 cfm at 0.2 in.wg, 100 cfm at 0.4 in.wg; supply 12 x "
        "8; return 12 x 8 }\nrun trunk from fan.supply { straight 12 ft }\nrun more from trunk { straight 3 ft }\n"
        "outlet one from more { airflow 100 cfm; register 12 x 8 }\n"
        "run back from fan.return { straight 1 ft }\ninlet hall from back { grille 12 x 8 }\n");
    assert_int_equal(job.job->takeoff->hangers.count, 1);
    assert_string_equal(job.job->takeoff->hangers.at[0].run->name, "trunk");
    compiled_free(&job);
}

static void a_spacing_out_of_range_is_told(void **state) {
    (void)state;
    struct compiled job = trunk_of("hang every 14 ft", "12 x 8", "straight 12 ft; cap");
    assert_non_null(compiled_said(&job, "value", NULL, 0));
    compiled_free(&job);
    job = trunk_of("hang", "12 x 8", "straight 12 ft; cap");
    const struct diagnostic *said = compiled_said(&job, "value", NULL, 0);
    assert_non_null(said);
    assert_non_null(said->hint);
    compiled_free(&job);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(hangers_are_as_far_apart_as_may_be),
        cmocka_unit_test(the_shop_says_how_far_apart),
        cmocka_unit_test(a_metric_job_hangs_by_metric_distances),
        cmocka_unit_test(elbows_have_one_within_two_feet),
        cmocka_unit_test(duct_behind_canvas_bears_itself),
        cmocka_unit_test(runs_that_go_on_keep_the_distance),
        cmocka_unit_test(a_wider_run_hangs_from_its_beginning),
        cmocka_unit_test(upright_duct_never_hangs),
        cmocka_unit_test(hangers_keep_clear_of_taps),
        cmocka_unit_test(a_hanger_moves_off_a_tap_toward_the_unit),
        cmocka_unit_test(a_tap_at_an_elbow_has_one_beyond),
        cmocka_unit_test(a_riser_stands_on_supports),
        cmocka_unit_test(straps_are_by_girth_and_spacing),
        cmocka_unit_test(wide_duct_hangs_closer),
        cmocka_unit_test(short_runouts_need_none),
        cmocka_unit_test(a_short_return_has_one),
        cmocka_unit_test(a_short_run_is_borne_by_the_one_before),
        cmocka_unit_test(a_spacing_out_of_range_is_told),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
