/* What holds of every take-off, on random jobs: hangers where they must be and no more, and totals that grow with the
 * duct and add up. */
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <setjmp.h>
#include <cmocka.h>

#include "model/taps.h"
#include "near.h"
#include "random.h"
#include "takeoff_line.h"

/* ---- Random jobs ------------------------------------------------------------------------------------------------- */

enum { PIECES = 6, TAPS = 4, PIECES_ROOM = 600, TAPS_ROOM = 1200 };

/* A trunk of one size: straights with elbows between some of them, so that every tap has its straight; all in feet. */
struct trunk {
    int straights;
    double length[PIECES];
    bool elbow[PIECES]; /* before that straight */
    double taps[TAPS];
    int tap_count;
    double flex[TAPS];
    const char *size, *settings;
    bool capped;
};

static struct trunk random_trunk(void) {
    static const char *const sizes[] = {"14 x 10", "20 x 12", "12 round", "28 x 10", "16 x 12"};
    static const char *const settings[] = {"seal A; insulation R-8", "seal B", "", "lining 1 in",
                                           "joint flange; seal C"};
    struct trunk trunk = {
        .straights = 1 + random_below(PIECES), .size = sizes[random_below(5)], .settings = settings[random_below(5)]};
    double station = 0;
    for (int i = 0; i < trunk.straights; i++) {
        trunk.length[i] = 3 + random_below(18);
        trunk.elbow[i] = i > 0 && random_chance(0.6);
        if (trunk.tap_count < TAPS && random_chance(0.7)) {
            trunk.taps[trunk.tap_count] = station + trunk.length[i] / 2;
            trunk.flex[trunk.tap_count++] = random_chance(0.7) ? 1 + random_below(14) : 0;
        }
        station += trunk.length[i];
    }
    trunk.capped = random_chance(0.5);
    return trunk;
}

static void write_pieces(const struct trunk *trunk, char text[PIECES_ROOM]) {
    size_t at = 0;
    for (int i = 0; i < trunk->straights; i++)
        at += (size_t)snprintf(text + at, PIECES_ROOM - at, "%sstraight %g ft;",
                               trunk->elbow[i] ? "elbow 90 left;" : "", trunk->length[i]);
    snprintf(text + at, PIECES_ROOM - at, "%s", trunk->capped ? " cap" : "");
}

static void write_taps(const struct trunk *trunk, const char *unit, char text[TAPS_ROOM]) {
    size_t at = 0;
    for (int i = 0; i < trunk->tap_count; i++) {
        char flex[40] = "straight 5 ft;";
        if (trunk->flex[i] > 0)
            snprintf(flex, sizeof flex, "flex %g ft;", trunk->flex[i]);
        at += (size_t)snprintf(text + at, TAPS_ROOM - at,
                               "outlet %s_%d from %s_trunk at %g ft left { size 6 round; airflow 80 cfm; tap straight\n"
                               "    damper volume; %s boot; register 10 x 6 }\n",
                               unit, i, unit, trunk->taps[i], flex);
    }
    if (!trunk->capped)
        snprintf(text + at, TAPS_ROOM - at, "outlet %s_end from %s_trunk { airflow 100 cfm; register 12 x 8 }\n", unit,
                 unit);
}

/* The text of one unit's runs, to be freed. */
static char *system_text(const struct trunk *trunk, const char *unit) {
    char pieces[PIECES_ROOM], taps[TAPS_ROOM] = "", *text = NULL;
    size_t length;
    write_pieces(trunk, pieces);
    write_taps(trunk, unit, taps);
    FILE *out = open_memstream(&text, &length);
    assert_non_null(out);
    fprintf(
        out,
        "unit %s { airflow %d cfm; blower 900 cfm at 0.2 in.wg, 100 cfm at 3 in.wg\n    supply %s; return 14 x 12 }\n"
        "run %s_trunk from %s.supply { size %s; %s }\n%s"
        "run %s_back from %s.return { straight 6 ft }\ninlet %s_hall from %s_back { grille 14 x 12 }\n",
        unit, 80 * trunk->tap_count + (trunk->capped ? 0 : 100), trunk->size, unit, unit, trunk->size, pieces, taps,
        unit, unit, unit, unit);
    fclose(out);
    return text;
}

static struct compiled compile_trunk(const struct trunk *trunk, bool twice) {
    char *one = system_text(trunk, "a"), *two = twice ? system_text(trunk, "b") : NULL;
    struct compiled job = compiled_text("job \"t\" { %s }\n%s%s", trunk->settings, one, two ? two : "");
    assert_non_null(job.job->takeoff);
    free(one);
    free(two);
    return job;
}

static struct trunk next_trunk(void) {
    struct trunk trunk = random_trunk();
    while (trunk.capped && trunk.tap_count == 0)
        trunk = random_trunk();
    return trunk;
}

/* ---- Hangers ----------------------------------------------------------------------------------------------------- */

struct supports {
    double at[64]; /* ft */
    int count;
};

static struct supports supports_of(const struct compiled *job, const char *run) {
    struct supports supports = {0};
    for (size_t i = 0; i < job->job->takeoff->hangers.count; i++) {
        const struct hanger *hanger = &job->job->takeoff->hangers.at[i];
        if (strcmp(hanger->run->name, run) == 0)
            supports.at[supports.count++] = hanger->station / FOOT;
    }
    return supports;
}

static bool near_one(const struct supports *supports, double station, double within) {
    for (int i = 0; i < supports->count; i++)
        if (fabs(supports->at[i] - station) <= within + 1e-6)
            return true;
    return false;
}

/* What must have a hanger: between `low` and `high`, ft. */
struct need {
    double low, high;
};

static int needs_of(const struct trunk *trunk, struct need needs[PIECES + TAPS + 1], double *length) {
    int count = 0;
    *length = 0;
    for (int i = 0; i < trunk->straights; i++) {
        if (trunk->elbow[i])
            needs[count++] = (struct need){*length - 2, *length + 2};
        *length += trunk->length[i];
    }
    for (int i = 0; i < trunk->tap_count; i++)
        needs[count++] = (struct need){trunk->taps[i] - 4, trunk->taps[i] + 4};
    int kept = 0;
    for (int i = 0; i < count; i++) /* a register at the end bears what is near it */
        if (trunk->capped || needs[i].high < *length)
            needs[kept++] = needs[i];
    if (trunk->capped)
        needs[kept++] = (struct need){*length - 5, *length};
    return kept;
}

/* Where none may stand for the openings of taps on the sides and below, with 3 in kept clear, in order. */
static int openings_of(const struct compiled *job, struct need *openings) {
    const struct run *trunk = compiled_run(job, "a_trunk");
    for (size_t i = 0; i < trunk->taps.count; i++) {
        double station = trunk->taps.at[i]->from.station;
        struct tap_reach reach = tap_reach_of(trunk->taps.at[i]);
        openings[i] = (struct need){(station - reach.toward) / FOOT - 0.25, (station + reach.away) / FOOT + 0.25};
    }
    return (int)trunk->taps.count;
}

/* There, or where no opening is next away from the unit. */
static double beyond_openings(const struct need *openings, int count, double at) {
    for (int moves = 0; moves < count; moves++)
        for (int i = 0; i < count; i++)
            if (openings[i].low < at - 1e-9 && at < openings[i].high - 1e-9)
                at = openings[i].high;
    return at;
}

/* The fewest, found from the far end: each as near the unit as the needs behind it, the spacing and the openings
 * allow. */
static int fewest(const struct need *needs, int count, double length, const struct need *openings, int opening_count) {
    double last = length;
    int hangers = 0;
    bool open[PIECES + TAPS + 1];
    for (int i = 0; i < count; i++)
        open[i] = true;
    for (;;) {
        double low = last - 10;
        bool needed = low > 1e-9;
        for (int i = 0; i < count; i++)
            if (open[i]) {
                low = needed ? fmax(low, needs[i].low) : fmax(needs[i].low, fmax(low, 0));
                needed = true;
            }
        if (!needed)
            return hangers;
        last = beyond_openings(openings, opening_count, fmax(low, 0));
        hangers++;
        for (int i = 0; i < count; i++)
            open[i] = open[i] && !(needs[i].low <= last + 1e-9 && last <= needs[i].high + 1e-9);
    }
}

static void hangers_are_where_they_must_be_and_no_more(void **state) {
    (void)state;
    for (int round = 0; round < 40; round++) {
        struct trunk trunk = next_trunk();
        struct compiled job = compile_trunk(&trunk, false);
        struct supports supports = supports_of(&job, "a_trunk");
        struct need needs[PIECES + TAPS + 1];
        struct need openings[TAPS + 1];
        double length, last = 0;
        int count = needs_of(&trunk, needs, &length), opening_count = openings_of(&job, openings);
        for (int i = 0; i < count; i++)
            assert_true(near_one(&supports, (needs[i].low + needs[i].high) / 2, (needs[i].high - needs[i].low) / 2));
        for (int i = 0; i < supports.count; i++) {
            assert_true(supports.at[i] > last && supports.at[i] - last < 10 + 1e-6);
            last = supports.at[i];
        }
        assert_true(length - last < 10 + 1e-6);
        for (int i = 0; i < supports.count; i++)
            assert_near(beyond_openings(openings, opening_count, supports.at[i]), supports.at[i], 1e-6);
        int few = fewest(needs, count, length, openings, opening_count), least = few == 0 && length > 2 ? 1 : few;
        if (supports.count != least) {
            for (int i = 0; i < count; i++)
                print_message("need %g..%g\n", needs[i].low, needs[i].high);
            for (int i = 0; i < supports.count; i++)
                print_message("at %g\n", supports.at[i]);
            fail_msg("length %g: %d hangers, %d would do", length, supports.count, least);
        }
        compiled_free(&job);
    }
}

static void flexible_duct_is_borne_every_four_feet(void **state) {
    (void)state;
    for (int round = 0; round < 15; round++) {
        struct trunk trunk = next_trunk();
        struct compiled job = compile_trunk(&trunk, false);
        for (int i = 0; i < trunk.tap_count; i++) {
            char name[16];
            snprintf(name, sizeof name, "a_%d", i);
            struct supports supports = supports_of(&job, name);
            double last = 0;
            for (int s = 0; s < supports.count && trunk.flex[i] > 0; s++) {
                assert_true(supports.at[s] - last < 4 + 1e-6);
                last = supports.at[s];
            }
            assert_true(!(trunk.flex[i] > 0) || trunk.flex[i] - last < 4 + 1e-6);
        }
        compiled_free(&job);
    }
}

/* ---- Totals ------------------------------------------------------------------------------------------------------ */

static double total_of(const struct compiled *job, const struct bill_line *like) {
    for (size_t i = 0; i < job->job->takeoff->lines.count; i++) {
        const struct bill_line *line = &job->job->takeoff->lines.at[i];
        bool same = line->item == like->item &&
                    (line->key == like->key || (line->key && like->key && strcmp(line->key, like->key) == 0));
        if (same)
            return line->net;
    }
    return 0;
}

/* Sheets are not compared: more blanks may lie better. */
static bool is_nested(const struct bill_line *line) {
    return line->item->group == BILL_SHEET;
}

static void ten_feet_more_never_lower_a_line(void **state) {
    (void)state;
    for (int round = 0; round < 25; round++) {
        struct trunk trunk = next_trunk();
        struct compiled before = compile_trunk(&trunk, false);
        trunk.length[trunk.straights - 1] += 10;
        struct compiled after = compile_trunk(&trunk, false);
        const struct takeoff *takeoff = before.job->takeoff;
        for (size_t i = 0; i < takeoff->lines.count; i++) {
            const struct bill_line *line = &takeoff->lines.at[i];
            if (!is_nested(line) && total_of(&after, line) < line->net - 1e-9)
                fail_msg("%s: %g, with 10 ft more %g", line->title, line->net, total_of(&after, line));
        }
        assert_true(net_of(&after, "screws") > net_of(&before, "screws") || strstr(trunk.settings, "flange"));
        compiled_free(&before);
        compiled_free(&after);
    }
}

static void two_alike_are_twice_one(void **state) {
    (void)state;
    for (int round = 0; round < 15; round++) {
        struct trunk trunk = next_trunk();
        struct compiled one = compile_trunk(&trunk, false), two = compile_trunk(&trunk, true);
        const struct takeoff *takeoff = one.job->takeoff;
        for (size_t i = 0; i < takeoff->lines.count; i++) {
            const struct bill_line *line = &takeoff->lines.at[i];
            if (!is_nested(line))
                assert_near(total_of(&two, line), 2 * line->net, 1e-9 * line->net);
        }
        assert_int_equal(two.job->takeoff->hangers.count, 2 * takeoff->hangers.count);
        compiled_free(&one);
        compiled_free(&two);
    }
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(hangers_are_where_they_must_be_and_no_more),
        cmocka_unit_test(flexible_duct_is_borne_every_four_feet),
        cmocka_unit_test(ten_feet_more_never_lower_a_line),
        cmocka_unit_test(two_alike_are_twice_one),
    };
    return cmocka_run_group_tests(tests, seed_random, NULL);
}
