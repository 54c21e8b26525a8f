/* Clashes: the same as looking at everything finds; offsets that clear them when they are pasted; headroom and short
 * cycling. */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "base/constant.h"
#include "compiled.h"
#include "near.h"
#include "random.h"
#include "metal/shape_offset.h"
#include "piece/offset.h"
#include "model/insulation.h"
#include "model/lined.h"
#include "model/piece.h"
#include "route/hull.h"
#include "route/offset_choice.h"

#define UNIT                                                                                                           \
    "unit fan { blower 460 cfm at 0.20 in.wg, 400 cfm at 0.35 in.wg; supply 12 x 8; return 14 x 10; at 0 ft, 0 ft, 9 " \
    "ft; faces east }\n"
#define RETURN "run back from fan.return { straight 4 ft }\ninlet floor from back { grille 24 x 12 }\n"

/* ---- Found ------------------------------------------------------------------------------------------------------- */

static int whole(int low, int high) {
    return low + random_below(high - low + 1);
}

/* Pieces, a line each. */
static void put_run(FILE *out) {
    static const char *const ways[] = {"left", "right", "up", "down"};
    fprintf(out,
            "run trunk from fan.supply {\nsize 12 x 8\ninsulation R-%d\nclearance %d in\nheadroom %d ft\nstraight 4 "
            "ft\n",
            whole(0, 8), whole(0, 3), whole(0, 9));
    for (int i = 0; i < 4; i++) {
        fprintf(out, "elbow %d %s\n", random_chance(0.5) ? 90 : 45, ways[random_below(4)]);
        fprintf(out, "straight %d ft\n", whole(4, 10));
    }
    fprintf(out, "}\noutlet out from trunk {\nairflow 300 cfm\nstraight 1 ft\nregister 12 x 8\n}\n");
    fprintf(out,
            "outlet side from trunk at %d in %s {\nairflow 100 cfm\nsize 6\nstraight 3 ft\nelbow 90 down\nregister 6 x "
            "6\n}\n",
            48 + whole(10, 38), random_chance(0.5) ? "left" : "bottom");
}

static void put_obstacles(FILE *out, int count) {
    for (int i = 0; i < count; i++) {
        double at[3], size[3];
        for (int axis = 0; axis < 3; axis++) {
            at[axis] = random_between(axis ? -9 : 3, axis ? 7 : 20) + (axis == 2 ? 9 : 0);
            size[axis] = random_between(0.3, 4);
        }
        fprintf(out, "obstacle \"thing %d\" from %.3f ft, %.3f ft, %.3f ft to %.3f ft, %.3f ft, %.3f ft\n", i, at[0],
                at[1], at[2], at[0] + size[0], at[1] + size[1], at[2] + size[2]);
    }
}

static char *random_text(int obstacles) {
    char *text = NULL;
    size_t length = 0;
    FILE *out = open_memstream(&text, &length);
    fprintf(out, "job \"Random\"\n" UNIT);
    put_run(out);
    fprintf(out, RETURN);
    put_obstacles(out, obstacles);
    fclose(out);
    return text;
}

/* How much nearer than it may be any part of the run is to the obstacle: by looking at every stretch. */
static double nearness(const struct job *job, const struct run *run, const struct obstacle *obstacle) {
    struct hull box = hull_of_box(obstacle->low, obstacle->high);
    double worst = -INFINITY;
    for (size_t i = 0; i < job->route->stretches.count; i++) {
        const struct stretch *stretch = &job->route->stretches.at[i];
        if (job->route->pieces.at[stretch->piece].run != run)
            continue;
        struct hull hull = hull_of_stretch(stretch);
        double apart = hull_distance(&hull, &box), overlap = apart > 0 ? 0 : hull_overlap(&hull, &box);
        worst = fmax(worst, run->settings.clearance - apart + overlap);
    }
    return worst;
}

static const struct clash *clash_of(const struct job *job, const struct run *run, const char *obstacle) {
    for (size_t i = 0; i < job->route->clashes.count; i++) {
        const struct clash *clash = &job->route->clashes.at[i];
        if (clash->run == run && clash->obstacle && strcmp(clash->obstacle->title, obstacle) == 0)
            return clash;
    }
    return NULL;
}

static void clashes_are_those_that_looking_at_everything_finds(void **state) {
    (void)state;
    int found = 0;
    for (int i = 0; i < 60; i++) {
        char *text = random_text(40);
        struct compiled job = compiled_until("place", "%s", text);
        assert_int_equal(cleat_error_count(job.cleat), 0);
        for (size_t r = 0; r < job.job->runs.count; r++)
            for (size_t k = 0; k < job.job->obstacles.count; k++) {
                const struct run *run = job.job->runs.at[r];
                double nearer = nearness(job.job, run, job.job->obstacles.at[k]);
                const struct clash *clash = clash_of(job.job, run, job.job->obstacles.at[k]->title);
                if (fabs(nearer - 0.125 * INCH) < 1e-5)
                    continue;
                assert_int_equal(clash != NULL, nearer > 0.125 * INCH);
                if (clash)
                    assert_near(clash->overlap + clash->clearance - clash->apart, nearer, 1e-6);
                found += clash != NULL;
            }
        compiled_free(&job);
        free(text);
    }
    assert_true(found > 20);
}

/* ---- Cleared ----------------------------------------------------------------------------------------------------- */

/* The line of the offset that is told; "none". */
static const char *line_of(const struct job *job, const struct clash *clash) {
    return clash->offset.found ? offset_line(job->arena, job->system, &clash->offset) : "none";
}

/* The text with a line put before a place. */
static char *pasted(const struct job *job, const char *text, const struct clash *clash) {
    char *with = NULL;
    size_t length = 0;
    FILE *out = open_memstream(&with, &length);
    fprintf(out, "%.*s%s\n%s", (int)clash->before->at.begin, text, line_of(job, clash), text + clash->before->at.begin);
    fclose(out);
    return with;
}

/* The clash of the same two, or NULL. */
static const struct clash *same_clash(const struct job *job, const struct clash *like) {
    for (size_t i = 0; i < job->route->clashes.count; i++) {
        const struct clash *clash = &job->route->clashes.at[i];
        const char *a = clash->obstacle ? clash->obstacle->title : clash->other->name;
        const char *b = like->obstacle ? like->obstacle->title : like->other->name;
        if (strcmp(clash->run->name, like->run->name) == 0 && strcmp(a, b) == 0)
            return clash;
    }
    return NULL;
}

static bool has_clash(const struct job *job, const struct clash *like) {
    return same_clash(job, like) != NULL;
}

/* What is changed as a hint says clears the clash, makes no other, and makes none worse. */
static void assert_clears(const struct job *before, const struct clash *clash, const struct job *after) {
    assert_false(has_clash(after, clash));
    for (size_t n = 0; n < after->route->clashes.count; n++) {
        const struct clash *now = &after->route->clashes.at[n], *was = same_clash(before, now);
        assert_non_null(was);
        assert_true(now->overlap - now->apart < was->overlap - was->apart + 2e-5);
    }
}

/* The turn that a told offset is cut at, and its place: none is steep, and none goes under the floor. */
static void assert_sound(const struct job *before, const struct clash *clash, const struct job *after) {
    struct duct_size size = duct_metal(clash->before->near);
    bool across = way_is_level(clash->offset.way);
    struct offset_bend bend =
        angled_offset(across ? size.width : size.height, clash->offset.aside, clash->offset.along);
    if (!(bend.angle < 60 * DEGREE + 1e-9 && bend.collar > 0.99 * INCH))
        fail_msg("%s turns by %.3f degrees, with collars of %.3f in", line_of(before, clash), bend.angle / DEGREE,
                 bend.collar / INCH);
    for (size_t i = 0; i < after->runs.count; i++) {
        double was = INFINITY, level = INFINITY;
        route_lowest(before->route, &before->route->runs[i], &was);
        route_lowest(after->route, &after->route->runs[i], &level);
        assert_true(was < 0 || level > -1e-6); /* what is under the floor already has another one */
    }
}

/* How far any run hangs under its headroom that did not before, and how many might have. */
static double sinks(const struct job *before, const struct job *after, int *asked) {
    double most = 0;
    for (size_t i = 0; i < after->runs.count; i++) {
        double was = INFINITY, level = INFINITY, least = route_headroom(&after->route->runs[i]);
        route_lowest(before->route, &before->route->runs[i], &was);
        route_lowest(after->route, &after->route->runs[i], &level);
        *asked += isfinite(least) && level < was - 1e-6;
        most = fmax(most, fmin(least, was) - level);
    }
    return most;
}

static void an_offset_that_is_pasted_clears_its_clash_and_makes_no_other(void **state) {
    (void)state;
    int cleared = 0, clashes = 0, lower = 0;
    for (int i = 0; i < 200; i++) {
        char *text = random_text(6);
        struct compiled job = compiled_until("place", "%s", text);
        for (size_t k = 0; k < job.job->route->clashes.count; k++) {
            const struct clash *clash = &job.job->route->clashes.at[k];
            clashes++;
            if (!clash->offset.found)
                continue;
            char *with = pasted(job.job, text, clash);
            struct compiled after = compiled_until("place", "%s", with);
            if (cleat_error_count(after.cleat)) {
                cleat_print_diagnostics(after.cleat, stderr, false, false);
                fail_msg("%s\nis no job", with);
            }
            assert_clears(job.job, clash, after.job);
            assert_sound(job.job, clash, after.job);
            assert_true(sinks(job.job, after.job, &lower) < 1e-6);
            compiled_free(&after);
            free(with);
            cleared++;
        }
        compiled_free(&job);
        free(text);
    }
    print_message("%d of %d clashes have an offset that clears them, %d times a run hangs lower\n", cleared, clashes,
                  lower);
    assert_true(cleared > 5);
}

static char *moved(const char *text, const struct clash *clash) {
    char *with = NULL;
    size_t length = 0;
    struct span at = clash->moved->from.station_at;
    FILE *out = open_memstream(&with, &length);
    fprintf(out, "%.*s%.9f in%s", (int)at.begin, text, clash->station / INCH, text + at.end);
    fclose(out);
    return with;
}

static void a_tap_that_is_moved_clears_its_clash_and_makes_no_other(void **state) {
    (void)state;
    enum { ENOUGH = 5, ROUNDS = 1000 }; /* some one in fifteen has such a tap */
    int cleared = 0;
    for (int i = 0; i < ROUNDS && cleared < ENOUGH; i++) {
        char *text = random_text(12);
        struct compiled job = compiled_text("%s", text);
        for (size_t k = 0; k < job.job->route->clashes.count; k++) {
            const struct clash *clash = &job.job->route->clashes.at[k];
            if (!clash->moved)
                continue;
            char *with = moved(text, clash);
            struct compiled after = compiled_text("%s", with);
            assert_int_equal(cleat_error_count(after.cleat), 0);
            assert_clears(job.job, clash, after.job);
            assert_true(compiled_said(&job, "tap-fit", NULL, 0) || !compiled_said(&after, "tap-fit", NULL, 0));
            compiled_free(&after);
            free(with);
            cleared++;
        }
        compiled_free(&job);
        free(text);
    }
    assert_true(cleared >= ENOUGH);
}

static char *shortened(const char *text, const struct clash *clash) {
    char *with = NULL;
    size_t length = 0;
    struct span at = clash->shortened->at;
    FILE *out = open_memstream(&with, &length);
    fprintf(out, "%.*sstraight %.9f in%s", (int)at.begin, text, clash->length / INCH, text + at.end);
    fclose(out);
    return with;
}

static void a_straight_that_is_made_shorter_clears_its_clash_and_makes_no_other(void **state) {
    (void)state;
    enum { ENOUGH = 5, ROUNDS = 1000 };
    int cleared = 0;
    for (int i = 0; i < ROUNDS && cleared < ENOUGH; i++) {
        char *text = random_text(12);
        struct compiled job = compiled_until("place", "%s", text);
        for (size_t k = 0; k < job.job->route->clashes.count; k++) {
            const struct clash *clash = &job.job->route->clashes.at[k];
            if (!clash->shortened)
                continue;
            char *with = shortened(text, clash);
            struct compiled after = compiled_until("place", "%s", with);
            assert_int_equal(cleat_error_count(after.cleat), 0);
            assert_clears(job.job, clash, after.job);
            assert_true(clash->length < clash->shortened->length && clash->length > 1 * FOOT - 1e-9);
            compiled_free(&after);
            free(with);
            cleared++;
        }
        compiled_free(&job);
        free(text);
    }
    assert_true(cleared >= ENOUGH);
}

#define CAPPED                                                                                                         \
    "job \"Capped\" { place basement 72 F; clearance 1 in }\n"                                                         \
    "unit U { blower 1400 cfm at 0.50 in.wg, 1200 cfm at 0.70 in.wg; supply 20 x 12; return 20 x 16; at 0 ft, 0 ft, "  \
    "7 ft; faces east }\n"                                                                                             \
    "run trunk from U.supply { straight 26 ft; straight 12 ft; cap }\n"                                                \
    "outlet c from trunk at 20 ft left { airflow 600 cfm; size 10; damper; straight 6 ft; boot; register 14 x 10 }\n"  \
    "run back from U.return { straight 4 ft }\ninlet hall from back { boot straight; filter 24 x 30 x 2 }\n"

/* A trunk 38 ft long and a wall at 37 ft: 13 in shorter it keeps 1 in from it, and its last tap needs 5 in and a half
 * behind its middle. */
static void a_trunk_that_runs_past_its_end_into_a_wall_is_made_shorter(void **state) {
    (void)state;
    static const struct {
        int inches; /* of the last tap */
        const char *wall, *hint;
    } trunks[] = {
        {32 * 12, "37 ft", "straight 10 ft 11 in"},
        {36 * 12 + 6, "37 ft", "straight 10 ft 11 in"}, /* 5 in of tap: to 36 ft 11 in */
        {36 * 12 + 7, "37 ft", NULL},
        {32 * 12, "20 ft", NULL}, /* not the last */
    };
    for (size_t i = 0; i < sizeof trunks / sizeof trunks[0]; i++) {
        struct compiled job = compiled_text(
            CAPPED "outlet d from trunk at %d in right { airflow 600 cfm; size 10; damper; straight 6 ft; "
                   "boot; register 14 x 10 }\n"
                   "obstacle \"wall\" from %s, -3 ft, 0 ft to 37 ft 6 in, 3 ft, 9 ft\n",
            trunks[i].inches, trunks[i].wall);
        const struct diagnostic *said = compiled_said(&job, "clash", "trunk", 0);
        const struct clash *clash = &job.job->route->clashes.at[0];
        assert_non_null(said);
        if (!trunks[i].hint) {
            assert_null(clash->shortened);
        } else {
            assert_string_equal(said->hint, trunks[i].hint);
            assert_false(clash->offset.found);
            assert_string_equal(said->related.at[0].message, "this piece, so long, ends before it");
            char *with = shortened(job.text, clash);
            struct compiled after = compiled_text("%s", with);
            assert_null(compiled_said(&after, "clash", NULL, 0));
            assert_null(compiled_said(&after, "tap-fit", NULL, 0));
            compiled_free(&after);
            free(with);
        }
        compiled_free(&job);
    }
}

/* What a hint relies on is named where another is told too. */
static void a_note_names_the_remedy_that_it_relies_on(void **state) {
    (void)state;
    static const char job_words[] =
        "job \"Runouts\" { place basement 72 F }\n"
        "unit U { blower 1400 cfm at 0.50 in.wg, 1200 cfm at 0.70 in.wg; supply 20 x 12; return 20 x 16; at 0 ft, 0 "
        "ft, "
        "7 ft; faces east }\n"
        "run trunk from U.supply {\n connector 4 in\n straight 24 ft\n cap\n}\n"
        "outlet a from trunk at 8 ft left { airflow 600 cfm; size 9; damper; straight 6 ft; boot; register 14 x 8 }\n"
        "outlet c from trunk at 20 ft left { airflow 600 cfm; size 9; damper; straight 6 ft; boot; register 14 x 8 }\n"
        "run back from U.return { straight 5 ft }\ninlet hall from back { boot straight; filter 24 x 30 x 2 }\n"
        "obstacle \"pipe\" from 7 ft 4 in, 3 ft, 7 ft 2 in to 20 ft, 3 ft 4 in, 7 ft 5 in\n";
    struct compiled job = compiled_text(job_words);
    assert_int_equal(job.job->route->clashes.count, 2);
    assert_true(job.job->route->clashes.at[1].keeps);
    assert_string_equal(compiled_said(&job, "clash", "a", 0)->hint, "at 6 ft 9 in");
    const struct diagnostic *said = compiled_said(&job, "clash", "c", 0);
    assert_string_equal(said->related.at[0].message,
                        "the offset that is told for a here, `offset 3 in down over 12 in`, clears this too; its other "
                        "hint, `at 6 ft 9 in`, does not");
    char *with = moved(job.text, &job.job->route->clashes.at[0]);
    struct compiled after = compiled_text("%s", with);
    assert_null(compiled_said(&after, "clash", "a", 0));
    assert_non_null(compiled_said(&after, "clash", "c", 0));
    compiled_free(&after);
    free(with);
    compiled_free(&job);
}

/* So far aside is another route; and what has no straight duct for it takes no offset. */
static void no_offset_is_told_that_is_longer_than_its_run(void **state) {
    (void)state;
    struct compiled job =
        compiled_text(CAPPED "outlet d from trunk at 32 ft right { airflow 600 cfm; size 10; damper; straight 6 ft; "
                             "boot; register 14 x 10 }\n"
                             "obstacle \"huge\" from -999 ft, -999 ft, -999 ft to 999 ft, 999 ft, 999 ft\n");
    assert_true(job.job->route->clashes.count > 4);
    for (size_t i = 0; i < job.job->route->clashes.count; i++)
        assert_false(job.job->route->clashes.at[i].offset.found);
    compiled_free(&job);
    int told = 0;
    for (int i = 0; i < 60; i++) {
        char *text = random_text(6);
        job = compiled_until("place", "%s", text);
        for (size_t k = 0; k < job.job->route->clashes.count; k++) {
            const struct clash *clash = &job.job->route->clashes.at[k];
            double straight = 0;
            for (size_t n = 0; clash->offset.found && n < clash->before->run->pieces.count; n++)
                if (strcmp(clash->before->run->pieces.at[n]->kind->form.word, "straight") == 0)
                    straight += clash->before->run->pieces.at[n]->length;
            assert_true(!clash->offset.found ||
                        (clash->offset.along < straight && clash->offset.aside < 10 * FOOT + 1e-9));
            told += clash->offset.found;
        }
        compiled_free(&job);
        free(text);
    }
    assert_true(told > 5);
}

/* A duct 8 in high with its middle 9 ft up and half an inch of joint round it: its top is at 9 ft 4-1/2 in.  It must go
 * 4-1/2 + 3 in down to pass a beam whose bottom is at 9 ft 1-1/2 in with a clearance of 4 in, and less than that up or
 * aside in no way.  22-1/2 degrees take 8 tan 11.25 + 7 / tan 22.5 + 4 = 22.5 in. */
static void the_offset_is_the_smallest(void **state) {
    (void)state;
    struct compiled job = compiled_text(
        "job \"Beam\"\n" UNIT "run trunk from fan.supply { size 12 x 8; clearance 4 in; straight 20 ft }\n"
        "outlet out from trunk { airflow 400 cfm; register 12 x 8 }\n" RETURN
        "obstacle \"beam\" from 10 ft, -5 ft, 9 ft 1.5 in to 10 ft 6 in, 5 ft, 11 ft\n");
    const struct clash *clash = clash_of(job.job, compiled_run(&job, "trunk"), "beam");
    assert_non_null(clash);
    assert_near(clash->overlap, 3 * INCH, 1e-9);
    assert_string_equal(line_of(job.job, clash), "offset 7 in down over 23 in");
    const struct diagnostic *said = compiled_said(&job, "clash", "trunk", 0);
    assert_non_null(said);
    assert_string_equal(said->hint, "offset 7 in down over 23 in;");
    assert_int_equal(said->related.count, 2);
    compiled_free(&job);
}

/* Joints leave the bottom of the duct 8 ft 7-1/2 in up: 7 in down, which would be the smallest, leaves 8 ft 1/2 in. Up,
 * it must pass the beam's top, 11 ft - 8 ft 7-1/2 in + 4 in; what hangs from it counts as well. */
static void an_offset_leaves_the_headroom(void **state) {
    (void)state;
    static const struct {
        const char *trunk, *out, *offset;
    } rooms[] = {
        {"8 ft 0.5 in", "0 in", "offset 7 in down over 23 in"},
        {"8 ft 0.6 in", "0 in", "offset 32-1/2 in up over 85 in"},
        {"0 in", "8 ft 0.6 in", "offset 32-1/2 in up over 85 in"},
        {"8 ft 8 in", "0 in", "offset 32-1/2 in up over 85 in"}, /* it hangs too low already */
    };
    for (size_t i = 0; i < sizeof rooms / sizeof rooms[0]; i++) {
        struct compiled job = compiled_text(
            "job \"Beam\"\n" UNIT
            "run trunk from fan.supply { size 12 x 8; clearance 4 in; headroom %s; straight 20 ft }\n"
            "outlet out from trunk { headroom %s; airflow 400 cfm; straight 1 ft; register 12 x 8 }\n" RETURN
            "obstacle \"beam\" from 10 ft, -5 ft, 9 ft 1.5 in to 10 ft 6 in, 5 ft, 11 ft\n",
            rooms[i].trunk, rooms[i].out);
        const struct clash *clash = clash_of(job.job, compiled_run(&job, "trunk"), "beam");
        assert_non_null(clash);
        if (strcmp(line_of(job.job, clash), rooms[i].offset) != 0)
            fail_msg("headroom %s, %s: %s", rooms[i].trunk, rooms[i].out, line_of(job.job, clash));
        compiled_free(&job);
    }
}

/* What hangs beside its own tap is not to be passed.  Half an inch would do; in a duct 12 in wide no less than 3 in
 * turn by 20 degrees, where the table of the loss begins, with a collar of an inch at both ends. */
static void what_is_joined_need_not_be_passed(void **state) {
    (void)state;
    struct compiled job = compiled_text(
        "shop \"S\" { hours elbow, shop 1 h, field 1 h }\njob \"Loop\"\nunit fan { blower 460 cfm at 0.10 in.wg, 400 "
        "cfm at 0.20 in.wg; supply 12 x 12; return 14 x 8; "
        "at "
        "0 ft, 0 ft, 8 ft }\n"
        "run trunk from fan.supply { size 12 x 12; straight 10 ft; elbow 90 left; straight 6 ft; elbow 90 left; "
        "straight "
        "6 ft; cap }\n"
        "outlet desk from trunk at 8 ft left { airflow 400 cfm; size 12; damper; straight 6 ft; boot; register 12 x 8 "
        "}\n" RETURN);
    const struct clash *clash = &job.job->route->clashes.at[0];
    assert_int_equal(job.job->route->clashes.count, 1);
    assert_true(clash->overlap < 1 * INCH);
    assert_string_equal(line_of(job.job, clash), "offset 3 in right over 12 in");
    const struct diagnostic *said = compiled_said(&job, "clash", "trunk", 0);
    assert_ptr_equal(clash->shortened->run, compiled_run(&job, "desk"));
    assert_non_null(strstr(said->related.at[0].message, "what desk ends in comes 1 in nearer; so does offset 3 in"));
    assert_null(strstr(said->related.at[1].message, "it costs")); /* behind the only tap */
    assert_non_null(strstr(said->related.at[1].message, "hours offset"));
    compiled_free(&job);
}

/* A duct 8 in wide with half an inch of joint: 1 + 4-1/2 in to the left passes the post, but brings it into the wall,
 * which it passes with 9 + 4-1/2; to the right the pipe is farther, 10 + 4-1/2 in. */
static void it_goes_on_until_nothing_is_met(void **state) {
    (void)state;
    struct compiled job =
        compiled_text("job \"Posts\"\n" UNIT "run trunk from fan.supply { size 8 x 8; straight 20 ft }\n"
                      "outlet out from trunk { airflow 400 cfm; register 8 x 8 }\n" RETURN
                      "obstacle \"post\" from 10 ft, -2 in, 0 ft to 10 ft 6 in, 1 in, 20 ft\n"
                      "obstacle \"wall\" from 9 ft, 7 in, 0 ft to 12 ft, 9 in, 20 ft\n"
                      "obstacle \"pipe\" from 9 ft, -10 in, 0 ft to 12 ft, -9 in, 20 ft\n");
    const struct clash *clash = clash_of(job.job, compiled_run(&job, "trunk"), "post");
    assert_string_equal(line_of(job.job, clash), "offset 13-1/2 in left over 39 in");
    compiled_free(&job);
}

/* The taps stay in the duct that they are cut into, to the inch, and the first straight is a place like another. */
static void an_offset_may_stand_before_all(void **state) {
    (void)state;
    struct compiled job = compiled_text(
        "job \"Before\"\n" UNIT
        "run trunk from fan.supply { size 16 round; straight 6 ft; elbow 90 left; straight 10 ft; cap }\n"
        "outlet out from trunk at 9 ft left { size 8 round; airflow 400 cfm; straight 2 ft; boot; register 12 x 8 "
        "}\n" RETURN "obstacle \"bar\" from 4 ft 6 in, -3 in, 8 ft 6 in to 4 ft 10 in, 3 in, 9 ft 6 in\n");
    const struct clash *clash = clash_of(job.job, compiled_run(&job, "trunk"), "bar");
    assert_string_equal(line_of(job.job, clash), "offset 11-1/2 in left over 29 in");
    compiled_free(&job);
}

/* Two taps in one place: an offset of one would leave both there. */
static void no_offset_is_told_for_taps_in_one_place(void **state) {
    (void)state;
    struct compiled job = compiled_text(
        "job \"Twin\"\n" UNIT "run trunk from fan.supply { size 12 x 12; straight 12 ft; cap }\n"
        "outlet one from trunk at 5 ft left { airflow 200 cfm; size 8; straight 6 ft; boot; register 12 x 8 }\n"
        "outlet two from trunk at 5 ft left { airflow 200 cfm; size 8; straight 6 ft; boot; register 12 x 8 "
        "}\n" RETURN);
    const struct clash *clash = &job.job->route->clashes.at[0];
    assert_int_equal(job.job->route->clashes.count, 1);
    assert_false(clash->offset.found);
    assert_ptr_equal(clash->moved, compiled_run(&job, "one"));
    assert_true(clash->station <= 4 * FOOT + 1e-9); /* as wide as their registers */
    assert_non_null(compiled_said(&job, "tap-fit", "two", 0));
    compiled_free(&job);
}

/* ---- What comes with it ------------------------------------------------------------------------------------------ */

#define CRAWL                                                                                                          \
    "job \"Clash\" { place crawl; clearance 1 in; insulation R-6 }\n"                                                  \
    "unit H { cooling 2 ton; blower 900 cfm at 0.20 in.wg, 800 cfm at 0.50 in.wg; supply 16 x 12; return 16 x 12; at " \
    "0 ft, 0 ft, 4 ft; faces north }\n"
#define MAIN "run main from H.supply {\nconnector 4 in\nstraight 14 ft\nelbow 90 right\nstraight 12 ft\ncap\n}\n"
#define CRAWL_OUTLETS                                                                                                  \
    "outlet porch from main at 4 ft left { airflow 200 cfm; damper; straight 6 ft; boot; register 12 x 6 }\n"          \
    "outlet parlour from main at 8 ft right { airflow 200 cfm; tap conical; damper; straight 5 ft; elbow 45 left; "    \
    "straight 3 ft; boot; register 12 x 6 }\n"                                                                         \
    "outlet kit from main at 18 ft right { airflow 200 cfm; damper; straight 4 ft; boot; register 12 x 6 }\n"          \
    "outlet bed from main at 23 ft left { airflow 200 cfm; damper; flex 6 ft; boot; register 12 x 6 }\n"
#define CRAWL_RETURN                                                                                                   \
    "run ret from H.return { straight 4 ft; elbow 90 up, vanes; straight 34 in }\n"                                    \
    "inlet cold from ret { boot straight; filter 20 x 25 x 2, 0.10 in.wg at 800 cfm }\n"

/* What the tap meets its parent meets as well: an offset of the parent for the tap alone would push it deeper in. */
static void a_run_goes_before_what_is_tapped_into_it(void **state) {
    (void)state;
    static const char *const obstacles[] = {
        "obstacle \"beam\" from 6 in, 5 ft, 3 ft to 9 in, 13 ft, 5 ft\n",
        "obstacle \"pipe\" from -8 in, 4 ft, 2 ft to -4 in, 4 ft 4 in, 6 ft\n",
        "obstacle \"joist\" from -6 ft, 10 ft, 4 ft 4 in to 6 ft, 10 ft 2 in, 5 ft\n",
    };
    for (size_t i = 0; i < sizeof obstacles / sizeof obstacles[0]; i++) {
        struct compiled job = compiled_text("%s%s", CRAWL MAIN CRAWL_OUTLETS CRAWL_RETURN, obstacles[i]);
        assert_int_equal(job.job->route->clashes.count, 2);
        const struct clash *trunk = &job.job->route->clashes.at[0], *tapped = &job.job->route->clashes.at[1];
        assert_string_equal(trunk->run->name, "main");
        assert_null(trunk->with);
        assert_ptr_equal(tapped->with, trunk->run);
        assert_string_equal(line_of(job.job, tapped), line_of(job.job, trunk));
        assert_null(tapped->moved);
        const struct diagnostic *said = compiled_said(&job, "clash", tapped->run->name, 0);
        assert_null(said->hint);
        assert_non_null(strstr(said->related.at[0].message, "the offset that is told for main here"));
        char *with = pasted(job.job, job.text, trunk);
        struct compiled after = compiled_text("%s", with);
        assert_int_equal(after.job->route->clashes.count, 0);
        compiled_free(&after);
        free(with);
        compiled_free(&job);
    }
}

/* The loss of the only offset in the job, Pa. */
static const struct loss *offset_loss(const struct job *job) {
    const struct network *network = job->units.at[0]->network;
    for (size_t i = 0; i < network->sections.count; i++)
        for (size_t k = 0; k < network->sections.at[i]->items.count; k++)
            if (strcmp(network->sections.at[i]->items.at[k].piece->kind->form.word, "offset") == 0)
                return &network->sections.at[i]->items.at[k].loss;
    fail_msg("no offset");
    return NULL;
}

/* It is gentle where there is room, costs what is said, and brings no warning of its own. */
static void an_offset_costs_what_is_said_of_it(void **state) {
    (void)state;
    struct compiled job = compiled_text(CRAWL MAIN CRAWL_OUTLETS CRAWL_RETURN
                                        "obstacle \"joist\" from -6 ft, 10 ft, 4 ft 4 in to 6 ft, 10 ft 2 in, 5 ft\n");
    const struct clash *clash = &job.job->route->clashes.at[0];
    assert_string_equal(line_of(job.job, clash),
                        "offset 5 in down over 19 in"); /* 12 tan 11.25 + 5 / tan 22.5 + 4 = 18.5 */
    char *with = pasted(job.job, job.text, clash), cost[64];
    struct compiled after = compiled_text("%s", with);
    assert_null(compiled_said(&after, "table-range", NULL, 0));
    assert_null(offset_loss(after.job)->outside);
    snprintf(cost, sizeof cost, "it costs %.3f in. w.g.", offset_loss(after.job)->pressure / 249.08891);
    const char *said = compiled_said(&job, "clash", "main", 0)->related.at[0].message;
    if (!strstr(said, cost))
        fail_msg("%s: %s", said, cost);
    compiled_free(&after);
    free(with);
    compiled_free(&job);
}

/* What takes more than is left over changes the sizes: said, and so it is. */
static void an_offset_that_costs_more_than_is_left_says_that_ducts_are_sized_anew(void **state) {
    (void)state;
    static const char job_words[] =
        "job \"Tight\" { place basement 72 F%s }\n"
        "unit U { blower 1400 cfm at .32 in.wg, 1200 cfm at %s in.wg, 1000 cfm at .60 in.wg; drop \"coil\" 0.20 in.wg "
        "at 1200 cfm; supply 20 x 12; return 20 x 16; at 0 ft, 0 ft, 7 ft; faces east }\n"
        "run trunk from U.supply {\n connector 4 in\n straight 24 ft\n transition to 14 x 10 over 18 in, flat top\n "
        "straight 12 ft\n cap\n}\n"
        "outlet a from trunk at 8 ft left { airflow 300 cfm; damper; straight 6 ft; boot elbow; register 14 x 8 }\n"
        "outlet b from trunk at 14 ft right { airflow 300 cfm; damper; straight 6 ft; boot elbow; register 14 x 8 }\n"
        "outlet c from trunk at 20 ft left { airflow 300 cfm; damper; straight 6 ft; boot elbow; register 14 x 8 }\n"
        "outlet d from trunk at 32 ft right { airflow 300 cfm; damper; straight 6 ft; boot elbow; register 14 x 8 }\n"
        "run back from U.return { straight 5 ft; elbow 90 up, vanes; straight 6 ft }\n"
        "inlet hall from back { boot straight over 10 in; filter 24 x 30 x 2, 0.10 in.wg at 1200 cfm }\n"
        "obstacle \"beam\" from 5 ft, -10 ft, 6 ft 10 in to 5 ft 6 in, 10 ft, 8 ft 4 in\n";
    static const struct {
        const char *pressure, *settings, *words;
        bool changes;
    } jobs[] = {
        {".454", "", "left over there: ducts are then sized anew", true},
        {".500", "", "it costs 0.007 in. w.g.", false},
        {".500", "; sizing least-cost", ": ducts may then be sized anew", true},
    };
    for (size_t i = 0; i < sizeof jobs / sizeof jobs[0]; i++) {
        struct compiled job = compiled_text(job_words, jobs[i].settings, jobs[i].pressure);
        const char *said = compiled_said(&job, "clash", "trunk", 0)->related.at[0].message;
        if (!strstr(said, jobs[i].words) || (strstr(said, "sized anew") != NULL) != jobs[i].changes)
            fail_msg("%s: %s", jobs[i].words, said);
        char *with = pasted(job.job, job.text, &job.job->route->clashes.at[0]);
        struct compiled after = compiled_until("place", "%s", with);
        bool other = false;
        for (size_t r = 0; r < job.job->runs.count; r++)
            other =
                other || !size_equal(job.job->runs.at[r]->first_duct->size, after.job->runs.at[r]->first_duct->size);
        assert_true(jobs[i].changes || !other);
        assert_true(i > 0 || other);
        compiled_free(&after);
        free(with);
        compiled_free(&job);
    }
}

/* The first tap leaves room for 12 tan 15 + 15 / tan 30 + 4 = 33.2 in, and not for the 42.6 that 22-1/2 degrees take.
 */
static void a_tap_leaves_room_for_less(void **state) {
    (void)state;
    struct compiled job = compiled_text(
        CRAWL
        "run main from H.supply { connector 4 in; straight 14 ft; cap }\n"
        "outlet p from main at 4 ft left { airflow 400 cfm; size 8; damper; flex 6 ft; boot; register 14 x 8 }\n"
        "outlet q from main at 13 ft top { airflow 400 cfm; damper; flex 5 ft; boot; register 14 x 8 }\n" CRAWL_RETURN
        "obstacle \"duct\" from -6 ft, 7 ft, 42 in to 6 ft, 8 ft 9 in, 57 in\n");
    const struct clash *clash = &job.job->route->clashes.at[0];
    assert_string_equal(line_of(job.job, clash), "offset 15 in down over 34 in");
    compiled_free(&job);
}

/* Two straights that follow each other are one for a tap, as the check tap-fit has it. */
static void taps_may_be_cut_over_a_joint(void **state) {
    (void)state;
    static const char job_words[] =
        "job \"Joint\"\n" UNIT "run trunk from fan.supply { size 12 x 8; straight 10 ft; straight 10 ft; cap }\n"
        "outlet desk from trunk at %s left { airflow 400 cfm; size 6; straight 6 ft; register 8 x 8 }\n" RETURN
        "obstacle \"%s\" from %s\n";
    struct compiled moves =
        compiled_text(job_words, "9 ft 9 in", "post", "7 ft 6 in, 2 ft, 0 ft to 9 ft 8 in, 3 ft, 20 ft");
    const struct clash *post = clash_of(moves.job, compiled_run(&moves, "desk"), "post");
    assert_non_null(post);
    assert_ptr_equal(post->moved, compiled_run(&moves, "desk"));
    assert_near(post->station, 10 * FOOT, 1e-9);
    char *with = moved(moves.text, post);
    struct compiled after = compiled_text("%s", with);
    assert_int_equal(after.job->route->clashes.count, 0);
    assert_null(compiled_said(&after, "tap-fit", "desk", 0));
    compiled_free(&after);
    free(with);
    compiled_free(&moves);
    struct compiled stays =
        compiled_text(job_words, "11 ft 6 in", "beam", "5 ft, -5 ft, 9 ft 2 in to 5 ft 6 in, 5 ft, 11 ft");
    const struct clash *beam = clash_of(stays.job, compiled_run(&stays, "trunk"), "beam");
    assert_non_null(beam);
    assert_string_not_equal(line_of(stays.job, beam), "none");
    with = pasted(stays.job, stays.text, beam);
    after = compiled_text("%s", with);
    assert_int_equal(after.job->route->clashes.count, 0);
    assert_null(compiled_said(&after, "tap-fit", "desk", 0));
    compiled_free(&after);
    free(with);
    compiled_free(&stays);
}

/* A wall from the floor up: no way down, and up only so steep that it is two elbows. */
static void no_offset_goes_under_the_floor(void **state) {
    (void)state;
    struct compiled job = compiled_text(CRAWL MAIN CRAWL_OUTLETS CRAWL_RETURN
                                        "obstacle \"wall\" from -20 ft, 9 ft, 0 ft to 20 ft, 9 ft 6 in, 12 ft\n");
    const struct clash *clash = clash_of(job.job, compiled_run(&job, "main"), "wall");
    assert_non_null(clash);
    assert_false(clash->offset.found);
    compiled_free(&job);
}

/* In a block on one line it is typed with a semicolon. */
static void an_offset_can_be_typed_into_a_line(void **state) {
    (void)state;
    struct compiled job =
        compiled_text(CRAWL "run main from H.supply { connector 4 in; straight 14 ft; elbow 90 right; straight 12 ft; "
                            "cap }\n" CRAWL_OUTLETS CRAWL_RETURN
                            "obstacle \"joist\" from -6 ft, 10 ft, 4 ft 4 in to 6 ft, 10 ft 2 in, 5 ft\n");
    const struct clash *clash = &job.job->route->clashes.at[0];
    const struct diagnostic *said = compiled_said(&job, "clash", "main", 0);
    size_t at = said->related.at[0].at.begin;
    assert_string_equal(said->hint, "offset 5 in down over 19 in;");
    assert_non_null(strstr(said->related.at[0].message, "typed in this line, before this piece"));
    assert_int_equal(at, clash->before->at.begin);
    struct compiled after = compiled_text("%.*s%s %s", (int)at, job.text, said->hint, job.text + at);
    assert_int_equal(cleat_error_count(after.cleat), 0);
    assert_int_equal(after.job->route->clashes.count, 0);
    compiled_free(&after);
    compiled_free(&job);
}

/* 16 x 12 in, R 0: inches by hand, L = 12 u + F / tan(turn) + 4.  Less than 3 in is too slight for the table with an
 * inch of collar at both ends, and goes on to 3; the slight one stays as it is.  Nothing is steeper than 60 degrees. */
static void an_offset_is_as_long_as_its_turn_asks(void **state) {
    (void)state;
    static const struct {
        double aside;
        int grade;
        bool found;
        double goes, along;
    } choices[] = {
        {4.7, 0, true, 5, 19},              /* 2.39 + 12.07 + 4 */
        {4.7, 1, true, 5, 15},              /* over the least, 9.75 + 4, by the collars: 11.87 + 2.13 */
        {0.5, 0, true, 3, 12},              /* 7.94 + 4 */
        {0.5, 1, false, 0, 0},              /* no shorter */
        {0.5, OFFSET_SLIGHT, true, 0.5, 8}, /* 3.43 + 4 */
        {5, OFFSET_SLIGHT, false, 0, 0},
        {16.5, 1, true, 16.5, 36}, /* 3.22 + 28.58 + 4 */
        {16.5, 2, true, 16.5, 26}, /* 4.97 + 16.5 + 4 */
        {57, 3, true, 57, 44},     /* 6.93 + 32.91 + 4 */
    };
    struct duct duct = {.size = {SHAPE_RECTANGULAR, 16 * INCH, 12 * INCH}};
    for (size_t i = 0; i < sizeof choices / sizeof choices[0]; i++) {
        struct offset_choice choice;
        bool found = offset_choose(MEASURE_US, &duct, WAY_DOWN, choices[i].aside * INCH, choices[i].grade, &choice);
        if (found != choices[i].found)
            fail_msg("%zu: %s", i, found ? "found" : "not found");
        if (!found)
            continue;
        assert_near(choice.aside / INCH, choices[i].goes, 1e-9);
        assert_near(choice.along / INCH, choices[i].along, 1e-9);
    }
}

/* The offset that stands at the beginning of a leg takes the size of the leg from the split: said, where no other place
 * is left. */
static void an_offset_at_a_leg_says_that_it_is_sized_anew(void **state) {
    (void)state;
    static const char job_words[] =
        "job \"Legs\" { clearance 1 in }\n"
        "unit fan { blower 1000 cfm at 0.5 in.wg, 800 cfm at 0.7 in.wg; supply 20 x 14; return 20 x 16; at 0 ft, 0 ft, "
        "9 "
        "ft; faces east }\n"
        "run trunk from fan.supply { straight 4 ft; split wye over 24 in }\n"
        "outlet a from trunk.left { airflow 400 cfm; transition over 24 in; straight 12 ft; boot; register 14 x 8 }\n"
        "outlet b from trunk.right { airflow 400 cfm; transition over 24 in; straight 12 ft; boot; register 14 x 8 }\n"
        "run back from fan.return { straight 4 ft }\ninlet floor from back { grille 24 x 20 }\n"
        "obstacle \"shelf\" from 0 ft, -10 ft, 7 ft to 6 ft, 10 ft, 8 ft 2 in\n" /* the trunk is not to go down */
        "obstacle \"bar\" from %s, -10 ft, 9 ft 2 in to %s, 10 ft, 12 ft\n";
    struct compiled near = compiled_text(job_words, "8 ft 6 in", "8 ft 8 in");
    struct compiled far = compiled_text(job_words, "15 ft", "15 ft 2 in");
    const struct diagnostic *said = compiled_said(&near, "clash", "a", 0),
                            *other = compiled_said(&far, "clash", "a", 0);
    assert_non_null(said);
    assert_non_null(other);
    if (!strstr(said->related.at[0].message, "the leg is then sized anew") ||
        strstr(other->related.at[0].message, "sized anew"))
        fail_msg("%s\n%s", said->related.at[0].message, other->related.at[0].message);
    compiled_free(&near);
    compiled_free(&far);
}

/* ---- What is held against what ----------------------------------------------------------------------------------- */

static void without_a_position_only_the_units_own_runs_are_held_against_each_other(void **state) {
    (void)state;
    static const char job_words[] =
        "job \"Cross\"\nunit fan { blower 460 cfm at 0.20 in.wg, 400 cfm at 0.35 in.wg; supply 12 x 8; return 14 x "
        "10%s }\n"
        "run trunk from fan.supply { size 12 x 8; straight 20 ft; cap }\n"
        "outlet one from trunk at 5 ft left { airflow 200 cfm; size 6; straight 2 ft; elbow 90 right; straight 8 ft; "
        "register 6 x 6 }\n"
        "outlet two from trunk at 10 ft left { airflow 200 cfm; size 6; straight 6 ft; register 6 x 6 }\n" RETURN
        "obstacle \"post\" from 1 ft, -1 ft, -1 ft to 2 ft, 1 ft, 1 ft\n";
    struct compiled bare = compiled_text(job_words, "");
    struct compiled there = compiled_text(job_words, "; at 0 ft, 0 ft, 0 ft");
    assert_int_equal(bare.job->route->clashes.count, 1); /* the taps cross */
    assert_string_equal(bare.job->route->clashes.at[0].run->name, "one");
    assert_string_equal(bare.job->route->clashes.at[0].other->name, "two");
    assert_null(compiled_said(&bare, "clash", "trunk", 0));
    assert_non_null(compiled_said(&there, "clash", "trunk", 0));
    assert_int_equal(there.job->route->clashes.count, 2);
    compiled_free(&bare);
    compiled_free(&there);
}

/* The unit of UNIT reaches from its supply collar 4 ft back, 14 + 6 in wide and 10 + 6 in high. */
static void a_unit_is_in_the_way_as_it_is_drawn(void **state) {
    (void)state;
    static const char job_words[] =
        "job \"Cabinet\"\n%s"
        "run trunk from fan.supply { size 12 x 8; straight 3 ft; elbow 90 left; straight 2 ft; "
        "elbow 90 left; straight 5 ft; elbow 90 left; straight %d ft; cap }\n"
        "outlet near from trunk at 9 in right { airflow 100 cfm; size 6; straight 1 ft; boot; register 8 x 6 }\n"
        "outlet out from trunk at 7 ft right { airflow 300 cfm; straight 1 ft; boot; register 12 x 8 }\n" RETURN
        "obstacle \"crate\" from -2 ft, -2 ft, 8 ft 6 in to -1 ft, %s, 9 ft\n";
    struct compiled clear = compiled_text(job_words, UNIT, 1, "-10.2 in"),
                    crossed = compiled_text(job_words, UNIT, 6, "-10.2 in");
    struct compiled stood = compiled_text(job_words, UNIT, 1, "-9 in");
    assert_null(compiled_said(&clear, "clash", NULL, 0));
    const struct clash *clash = clash_of(crossed.job, compiled_run(&crossed, "trunk"), "body of fan (as drawn)");
    assert_non_null(clash);
    assert_true(clash->overlap > 6 * INCH);
    const struct diagnostic *said = compiled_said(&stood, "clash", "fan", 0);
    assert_non_null(said);
    assert_non_null(strstr(said->message, "the crate stands in fan, as that is drawn"));
    assert_non_null(strstr(said->message, "1 in overlap"));
    compiled_free(&clear);
    compiled_free(&crossed);
    compiled_free(&stood);
}

/* R-8 is 2-1/4 in: the bottom of a duct 8 in high whose middle is 9 ft up hangs at 8 ft 5-3/4 in. */
static void headroom_counts_from_the_outside_to_the_floor(void **state) {
    (void)state;
    static const char job_words[] =
        "job \"Low\"\n" UNIT "run trunk from fan.supply { size 12 x 8; insulation R-8; headroom %s; straight 20 ft }\n"
        "outlet out from trunk { headroom 0 in; airflow 400 cfm; elbow 90 down; straight 4 ft; register 12 x 8 "
        "}\n" RETURN;
    struct compiled low = compiled_text(job_words, "8 ft 6 in"), enough = compiled_text(job_words, "8 ft 5.75 in");
    struct compiled raised = compiled_text(job_words, "6 ft 8 in over 2 ft");
    assert_near(insulation_hung(low.job->runs.at[0]->settings.insulation), 2.25 * INCH, 1e-9);
    const struct diagnostic *said = compiled_said(&low, "headroom", "trunk", 0);
    assert_non_null(said);
    assert_string_equal(said->hint, "raise it by 1/4 in");
    assert_null(compiled_said(&low, "headroom", "out", 0));
    assert_null(compiled_said(&enough, "headroom", NULL, 0));
    assert_non_null(compiled_said(&raised, "headroom", "trunk", 0));
    compiled_free(&low);
    compiled_free(&enough);
    compiled_free(&raised);
}

static void an_outlet_beside_the_return_of_its_unit_is_told(void **state) {
    (void)state;
    static const char job_words[] =
        "job \"Short\"\n" UNIT "outlet out from fan.supply { airflow 400 cfm; straight %d ft; register 12 x 8 }\n"
        "inlet floor from fan.return { grille 24 x 12 }\n";
    struct compiled near = compiled_text(job_words, 1), far = compiled_text(job_words, 3);
    assert_non_null(compiled_said(&near, "short-cycle", "out", 0)); /* 4 ft of cabinet and 1 ft of duct */
    assert_null(compiled_said(&far, "short-cycle", NULL, 0));
    compiled_free(&near);
    compiled_free(&far);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(clashes_are_those_that_looking_at_everything_finds),
        cmocka_unit_test(an_offset_that_is_pasted_clears_its_clash_and_makes_no_other),
        cmocka_unit_test(a_tap_that_is_moved_clears_its_clash_and_makes_no_other),
        cmocka_unit_test(taps_may_be_cut_over_a_joint),
        cmocka_unit_test(a_straight_that_is_made_shorter_clears_its_clash_and_makes_no_other),
        cmocka_unit_test(a_trunk_that_runs_past_its_end_into_a_wall_is_made_shorter),
        cmocka_unit_test(a_note_names_the_remedy_that_it_relies_on),
        cmocka_unit_test(no_offset_is_told_that_is_longer_than_its_run),
        cmocka_unit_test(an_offset_that_costs_more_than_is_left_says_that_ducts_are_sized_anew),
        cmocka_unit_test(the_offset_is_the_smallest),
        cmocka_unit_test(an_offset_leaves_the_headroom),
        cmocka_unit_test(what_is_joined_need_not_be_passed),
        cmocka_unit_test(it_goes_on_until_nothing_is_met),
        cmocka_unit_test(an_offset_may_stand_before_all),
        cmocka_unit_test(no_offset_is_told_for_taps_in_one_place),
        cmocka_unit_test(a_run_goes_before_what_is_tapped_into_it),
        cmocka_unit_test(an_offset_costs_what_is_said_of_it),
        cmocka_unit_test(a_tap_leaves_room_for_less),
        cmocka_unit_test(no_offset_goes_under_the_floor),
        cmocka_unit_test(an_offset_is_as_long_as_its_turn_asks),
        cmocka_unit_test(an_offset_at_a_leg_says_that_it_is_sized_anew),
        cmocka_unit_test(an_offset_can_be_typed_into_a_line),
        cmocka_unit_test(without_a_position_only_the_units_own_runs_are_held_against_each_other),
        cmocka_unit_test(a_unit_is_in_the_way_as_it_is_drawn),
        cmocka_unit_test(headroom_counts_from_the_outside_to_the_floor),
        cmocka_unit_test(an_outlet_beside_the_return_of_its_unit_is_told),
    };
    return cmocka_run_group_tests(tests, seed_random, NULL);
}
