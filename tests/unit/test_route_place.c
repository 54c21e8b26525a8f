/* Places: by hand on a small job, by what must be true of any route, and against the ports of the solids that the shop
 * makes. */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "base/constant.h"
#include "compiled.h"
#include "metal/metal.h"
#include "near.h"
#include "random.h"
#include "route/hull.h"
#include "route/route.h"

static void assert_space(struct space found, double x, double y, double z, double unit) {
    struct space expected = {x * unit, y * unit, z * unit};
    if (!(space_distance(found, expected) < 1e-9))
        fail_msg("(%.6f, %.6f, %.6f) is not (%.6f, %.6f, %.6f)", found.x / unit, found.y / unit, found.z / unit, x, y,
                 z);
}

static const struct placed_run *placed(const struct compiled *job, const char *name) {
    const struct placed_run *run = route_of(job->job, compiled_run(job, name));
    assert_non_null(run);
    return run;
}

/* The piece of that word which is the `which`th (from 0) in its run. */
static const struct placed_piece *piece_of(const struct compiled *job, const char *run, const char *word, int which) {
    const struct placed_run *on = placed(job, run);
    for (size_t i = on->first; i < on->first + on->count; i++) {
        const struct placed_piece *piece = &job->job->route->pieces.at[i];
        if (!piece->piece->implied && strcmp(piece->piece->kind->form.word, word) == 0 && which-- == 0)
            return piece;
    }
    fail_msg("no such piece");
    return NULL;
}

/* ---- By hand ----------------------------------------------------------------------------------------------------- */

#define UNIT                                                                                                           \
    "job \"Place\"\nunit fan { blower 460 cfm at 0.20 in.wg, 400 cfm at 0.35 in.wg; supply 12 x 8; return 14 x 10"
#define RETURN "run back from fan.return { straight 4 ft }\ninlet floor from back { grille 24 x 12 }\n"

/* Every figure below is in inches, and was added up by hand. */
static void each_piece_stands_where_a_rule_would_find_it(void **state) {
    (void)state;
    struct compiled job =
        compiled_until("place", UNIT "; at 1 ft, 2 ft, 3 ft; faces north }\n"
                                     "run trunk from fan.supply { straight 10 ft; elbow 90 left; straight 4 ft; "
                                     "offset 6 in up over 24 in; transition to 8 x 4 over 12 in, flat top; "
                                     "elbow 90 down; straight 2 ft; cap }\n"
                                     "outlet east from trunk at 5 ft right { airflow 200 cfm; size 6; straight "
                                     "1 ft; elbow 90 left; register 6 x 6 }\n"
                                     "outlet top from trunk at 8 ft top { airflow 200 cfm; size 6; straight 2 "
                                     "ft; register 6 x 6 }\n" RETURN);
    assert_space(placed(&job, "trunk")->begin.origin, 12, 24, 36, INCH);
    assert_space(piece_of(&job, "trunk", "straight", 0)->far.origin, 12, 144, 36, INCH);
    /* Radius 1.0 over 12 in, and 2 in of collar at both ends. */
    const struct placed_piece *elbow = piece_of(&job, "trunk", "elbow", 0);
    assert_space(elbow->far.origin, 12 - 12 - 2, 144 + 2 + 12, 36, INCH);
    assert_space(elbow->far.along, -1, 0, 0, 1);
    assert_space(elbow->far.up, 0, 0, 1, 1);
    assert_space(piece_of(&job, "trunk", "straight", 1)->far.origin, -50, 158, 36, INCH);
    assert_space(piece_of(&job, "trunk", "offset", 0)->far.origin, -74, 158, 42, INCH);
    assert_space(piece_of(&job, "trunk", "offset", 0)->far.along, -1, 0, 0, 1);
    /* 8 in high to 4 in: the top stays, so that the middle rises by 2 in. */
    assert_space(piece_of(&job, "trunk", "transition", 0)->far.origin, -86, 158, 44, INCH);
    /* Radius 1.0 over 4 in. */
    assert_space(piece_of(&job, "trunk", "elbow", 1)->far.origin, -86 - 2 - 4, 158, 44 - 4 - 2, INCH);
    assert_space(piece_of(&job, "trunk", "elbow", 1)->far.along, 0, 0, -1, 1);
    assert_space(piece_of(&job, "trunk", "elbow", 1)->far.up, -1, 0, 0, 1);
    assert_space(piece_of(&job, "trunk", "straight", 2)->far.origin, -92, 158, 14, INCH);
    /* Tapped in at the right of a duct that goes north: east, from its side, with 4 in of tap. */
    assert_space(placed(&job, "east")->begin.origin, 12 + 6, 24 + 60, 36, INCH);
    assert_space(placed(&job, "east")->begin.along, 1, 0, 0, 1);
    assert_space(piece_of(&job, "east", "straight", 0)->far.origin, 18 + 4 + 12, 84, 36, INCH);
    /* Round: radius 1.5 over 6 in.  Left of east is north. */
    assert_space(placed(&job, "east")->end.origin, 34 + 2 + 9, 84 + 9 + 2, 36, INCH);
    assert_space(placed(&job, "top")->begin.origin, 12, 24 + 96, 36 + 4, INCH);
    assert_space(placed(&job, "top")->end.origin, 12, 120, 40 + 4 + 24, INCH);
    assert_space(placed(&job, "top")->end.up, 0, -1, 0, 1);
    /* Opposite the supply, as far behind it as the cabinet is long. */
    assert_space(placed(&job, "back")->begin.origin, 12, 24 - 48, 36, INCH);
    assert_space(placed(&job, "back")->begin.along, 0, -1, 0, 1);
    compiled_free(&job);
}

static void a_return_stands_where_it_is_said_and_a_run_without_a_position_has_none(void **state) {
    (void)state;
    struct compiled said =
        compiled_until("place", UNIT " at 1 ft, -2 ft, 3 ft, faces up }\n"
                                     "outlet out from fan.supply { airflow 400 cfm; straight 4 ft; flex 3 ft; "
                                     "register 8 x 8 }\n" RETURN);
    assert_space(placed(&said, "back")->begin.origin, 12, -24, 36, INCH);
    assert_space(placed(&said, "back")->end.origin, 12, -24, 36 + 48, INCH);
    assert_false(placed(&said, "out")->positioned);
    assert_true(placed(&said, "out")->free);
    assert_false(piece_of(&said, "out", "straight", 0)->free);
    assert_true(piece_of(&said, "out", "flex", 0)->free);
    compiled_free(&said);
}

/* m round the first stretch of the flexible duct, and round the straight before it. */
static void around_is(const char *settings, const char *flex, double straight, double around) {
    struct compiled job =
        compiled_until("place",
                       UNIT " }\noutlet out from fan.supply { size 12 round; airflow 400 cfm; %s; straight 4 "
                            "ft; %s; register 8 x 8 }\n" RETURN,
                       settings, flex);
    const struct route *route = job.job->route;
    const struct placed_piece *pieces[] = {piece_of(&job, "out", "straight", 0), piece_of(&job, "out", "flex", 0)};
    double expected[] = {straight, around};
    for (int i = 0; i < 2; i++) {
        assert_true(pieces[i]->count > 0);
        double found = route->stretches.at[pieces[i]->first].around / INCH;
        if (fabs(found - expected[i]) > 1e-9)
            fail_msg("%s, %s: %g in round piece %d, not %g", settings, flex, found, i, expected[i]);
    }
    compiled_free(&job);
}

/* 3/8 in for each R, by the jacket that flexible duct comes with; wrap is pressed to three quarters, a crimp stands out
 * 1/8 in. */
static void flexible_duct_has_its_jacket_round_it(void **state) {
    (void)state;
    around_is("insulation R-4", "flex 3 ft, R-8", 4 * 0.375 * 0.75, 8 * 0.375);
    around_is("insulation R-8", "flex 3 ft, R-6", 8 * 0.375 * 0.75, 6 * 0.375);
    around_is("insulation R-8", "flex 3 ft", 8 * 0.375 * 0.75, 8 * 0.375);
    around_is("insulation R-8", "flex 3 ft, R-0", 8 * 0.375 * 0.75, 0.125);
}

/* ---- What must be true of any ------------------------------------------------------------------------------------ */

/* A duct that has come to go level has its top up: back at the other level, it is to go down to where it came from. */
static void four_elbows_of_a_square_come_back_to_where_they_began(void **state) {
    (void)state;
    static const char *const turns[][4] = {
        {"left", "left", "left", "left"},
        {"right", "right", "right", "right"},
        {"up", "up", "down", "down"},
        {"down", "down", "up", "up"},
    };
    for (int w = 0; w < 4; w++) {
        struct compiled job = compiled_until(
            "place",
            UNIT
            " }\noutlet round from fan.supply { airflow 400 cfm; straight 6 ft; elbow 90 %s; straight 12 ft; elbow 90 "
            "%s; straight 12 ft; elbow 90 %s; straight 12 ft; elbow 90 %s; straight 6 ft; register 8 x 8 }\n" RETURN,
            turns[w][0], turns[w][1], turns[w][2], turns[w][3]);
        assert_space(placed(&job, "round")->end.origin, 0, 0, 0, 1);
        assert_space(placed(&job, "round")->end.along, 1, 0, 0, 1);
        assert_space(placed(&job, "round")->end.up, 0, 0, 1, 1);
        compiled_free(&job);
    }
}

/* ---- Furnaces ---------------------------------------------------------------------------------------------------- */

/* A trunk from a unit that faces up or down, its taps and their registers. */
static struct compiled furnace(const char *faces, const char *turn) {
    return compiled_text(
        "job \"Furnace\" { place basement }\n"
        "unit F { blower 900 cfm at 0.30 in.wg, 800 cfm at 0.50 in.wg; supply 18 x 16; return 18 x 16 at 3 ft, 0 ft, "
        "1 ft faces east; at 0 ft, 0 ft, 20 ft; faces %s }\n"
        "run trunk from F.supply { straight 3 ft; elbow 90 %s, square, vanes; transition to 18 x 12 over 18 in; "
        "straight 16 ft; cap }\n"
        "outlet above from trunk at 8 ft top { airflow 200 cfm; size 8; straight 4 ft; register 14 x 8 }\n"
        "outlet below from trunk at 10 ft bottom { airflow 200 cfm; size 8; straight 4 ft; register 14 x 8 }\n"
        "outlet rises from trunk at 12 ft left { airflow 200 cfm; size 8; straight 4 ft; elbow 90 up; straight 2 ft; "
        "register 14 x 8 }\n"
        "outlet hangs from trunk at 14 ft right { airflow 200 cfm; size 8; straight 4 ft; elbow 90 down; straight 2 "
        "ft; "
        "register 14 x 8 }\n"
        "run back from F.return { straight 4 ft }\ninlet floor from back { grille 24 x 20 }\n",
        faces, turn);
}

/* The way of `at` seen from the middle of the trunk. */
static void assert_furnace(const char *faces, const char *turn, struct space heading) {
    struct compiled job = furnace(faces, turn);
    if (cleat_error_count(job.cleat))
        cleat_print_diagnostics(job.cleat, stderr, false, false);
    assert_int_equal(cleat_error_count(job.cleat), 0);
    const struct placed_piece *trunk = piece_of(&job, "trunk", "straight", 1);
    assert_space(trunk->near.along, heading.x, heading.y, heading.z, 1);
    assert_space(trunk->near.up, 0, 0, 1, 1);
    double level = trunk->near.origin.z;
    assert_true(fabs(level - 20 * FOOT) > 3 * FOOT && (level > 20 * FOOT) == (strncmp(faces, "up", 2) == 0));
    assert_space(placed(&job, "above")->begin.along, 0, 0, 1, 1);
    assert_space(placed(&job, "below")->begin.along, 0, 0, -1, 1);
    /* From the side: 4 ft and an elbow of 12 in with 2 in at its ends. */
    assert_true(placed(&job, "above")->end.origin.z > level + 4 * FOOT);
    assert_true(placed(&job, "below")->end.origin.z < level - 4 * FOOT);
    assert_true(placed(&job, "rises")->end.origin.z > level + 2 * FOOT);
    assert_true(placed(&job, "hangs")->end.origin.z < level - 2 * FOOT);
    struct space left = space_cross(trunk->near.up, trunk->near.along), way = placed(&job, "rises")->begin.along;
    assert_space(way, left.x, left.y, left.z, 1);
    compiled_free(&job);
}

static void a_trunk_from_a_furnace_has_its_top_up(void **state) {
    (void)state;
    assert_furnace("up", "up", (struct space){-1, 0, 0}); /* toward the front, west when nothing is said */
    assert_furnace("up", "down", (struct space){1, 0, 0});
    assert_furnace("down", "up", (struct space){1, 0, 0}); /* looking down, one's top is away from one */
    assert_furnace("down", "down", (struct space){-1, 0, 0});
    assert_furnace("up, front south", "up", (struct space){0, -1, 0});
    assert_furnace("up, front south", "down", (struct space){0, 1, 0});
    assert_furnace("up, front east", "down", (struct space){-1, 0, 0});
    assert_furnace("down, front north", "up", (struct space){0, -1, 0});
    assert_furnace("down, front north", "down", (struct space){0, 1, 0});
}

/* Left and right are one's own, before the unit and looking along the duct.  What is round lies as it comes; what is
 * not stands on its edge, and that is said. */
static void what_leaves_a_plenum_by_its_sides_is_upright_where_it_is_round(void **state) {
    (void)state;
    static const char job_words[] =
        "job \"Plenum\" { place basement }\n"
        "unit F { blower 900 cfm at 0.30 in.wg, 800 cfm at 0.50 in.wg; supply 18 x 16; return 18 x 16 at 3 ft, 0 ft, "
        "1 ft faces east; at 0 ft, 0 ft, 4 ft; faces up, front south }\n"
        "run plenum from F.supply { straight 4 ft; cap }\n"
        "outlet west from plenum at 2 ft left { airflow 400 cfm; size %s; straight 4 ft; elbow 90 up; straight 2 ft; "
        "register 14 x 8 }\n"
        "outlet east from plenum at 2 ft right { airflow 400 cfm; size %s; straight 4 ft; elbow 90 down; straight 2 "
        "ft; "
        "register 14 x 8 }\n"
        "run back from F.return { straight 4 ft }\ninlet floor from back { grille 24 x 20 }\n";
    struct compiled round = compiled_text(job_words, "10", "10"), flat = compiled_text(job_words, "14 x 8", "10");
    assert_space(piece_of(&round, "west", "straight", 0)->near.along, -1, 0, 0, 1);
    assert_space(piece_of(&round, "west", "straight", 0)->near.up, 0, 0, 1, 1);
    assert_true(placed(&round, "west")->end.origin.z > 6 * FOOT + 2 * FOOT);
    assert_space(piece_of(&round, "east", "straight", 0)->near.along, 1, 0, 0, 1);
    assert_true(placed(&round, "east")->end.origin.z < 6 * FOOT - 2 * FOOT);
    assert_null(compiled_said(&round, "on-edge", NULL, 0));
    assert_space(piece_of(&flat, "west", "straight", 0)->near.up, 0, -1, 0, 1); /* toward the front */
    const struct diagnostic *said = compiled_said(&flat, "on-edge", "west", 0);
    assert_non_null(said);
    assert_non_null(strstr(said->message, "14 in high and 8 in wide"));
    assert_non_null(strstr(said->message, "its top looks south"));
    assert_null(compiled_said(&flat, "on-edge", "east", 0));
    assert_null(compiled_said(&flat, "on-edge", NULL, 1));
    compiled_free(&round);
    compiled_free(&flat);
}

/* Duct that goes up or down again has no edge to stand on. */
static void a_trunk_that_lies_flat_and_goes_up_again_is_not_on_edge(void **state) {
    (void)state;
    static const char job_words[] =
        "job \"Flat\"\n"
        "unit F { blower 900 cfm at 0.50 in.wg, 800 cfm at 0.70 in.wg; supply 18 x 16; return 18 x 14; at 0 ft, 0 ft, "
        "5 "
        "ft; faces up, front south }\n"
        "run trunk from F.supply { straight 3 ft; elbow 90 %s; straight 12 ft; elbow 90 %s; straight 10 ft; elbow 90 "
        "down; straight 2 ft; cap }\n"
        "outlet a from trunk at 8 ft left { airflow 800 cfm; damper; straight 3 ft; boot; register 20 x 8 }\n"
        "run back from F.return { straight 2 ft }\ninlet hall from back { boot straight; filter 24 x 24 x 2 }\n";
    static const char *const turns[][2] = {{"down", "up"}, {"down", "down"}, {"up", "up"}, {"left", "left"}};
    for (size_t i = 0; i < sizeof turns / sizeof turns[0]; i++) {
        struct compiled job = compiled_text(job_words, turns[i][0], turns[i][1]);
        bool edge = strcmp(turns[i][0], "left") == 0;
        assert_int_equal(compiled_said(&job, "on-edge", "trunk", 0) != NULL, edge);
        compiled_free(&job);
    }
}

static void a_front_is_for_what_faces_up_or_down(void **state) {
    (void)state;
    struct compiled job = furnace("north, front south", "up");
    const struct diagnostic *said = compiled_said(&job, "value", NULL, 0);
    assert_non_null(said);
    assert_non_null(strstr(said->message, "a front is said of a unit that faces up or down"));
    compiled_free(&job);
}

static int whole(int low, int high) {
    return low + random_below(high - low + 1);
}

/* A random run as text; with `mirrored`, right for left. */
static void put_pieces(FILE *out, bool mirrored) {
    static const char *const ways[2][4] = {{"left", "right", "up", "down"}, {"right", "left", "up", "down"}};
    fprintf(out, "size 12 x 8; ");
    for (int i = 0; i < 8; i++) {
        const char *way = ways[mirrored][whole(0, 3)];
        int a = whole(1, 90), b = whole(30, 60);
        switch (whole(0, 3)) {
        case 0:
            fprintf(out, "straight %d in; ", b);
            break;
        case 1:
            fprintf(out, "elbow %d %s, radius 1.%d; ", a, way, b % 10);
            break;
        case 2:
            fprintf(out, "offset %d in %s over %d in%s; ", a % 20 + 1, way, b, a % 2 ? ", ogee" : "");
            break;
        default:
            fprintf(out, "transition to 12 x 8 over %d in, %s %d in; ", b, way, a % 10 + 1);
        }
    }
}

/* Of the state that the random numbers are in: the same each time. */
static struct compiled random_job(uint64_t from, const char *faces, bool mirrored) {
    random_state = from;
    char *pieces = NULL;
    size_t length = 0;
    FILE *out = open_memstream(&pieces, &length);
    put_pieces(out, mirrored);
    fclose(out);
    struct compiled job = compiled_until(
        "place",
        UNIT
        "; at 0 ft, 0 ft, 0 ft; faces %s }\noutlet out from fan.supply { airflow 400 cfm; %s register 8 x 8 }\n" RETURN,
        faces, pieces);
    free(pieces);
    return job;
}

static struct space quarter_turned(struct space at) {
    return (struct space){-at.y, at.x, at.z};
}

static void a_unit_that_faces_elsewhere_turns_everything_and_a_mirror_mirrors_it(void **state) {
    (void)state;
    for (int round = 0; round < 40; round++) {
        uint64_t from = random_state;
        struct compiled east = random_job(from, "east", false), north = random_job(from, "north", false);
        struct compiled mirror = random_job(from, "east", true);
        const struct placed_run *run = placed(&east, "out");
        for (size_t i = run->first; i < run->first + run->count; i++) {
            struct space at = east.job->route->pieces.at[i].far.origin, turned = quarter_turned(at);
            assert_space(north.job->route->pieces.at[i].far.origin, turned.x, turned.y, turned.z, 1);
            assert_space(mirror.job->route->pieces.at[i].far.origin, at.x, -at.y, at.z, 1);
        }
        compiled_free(&east);
        compiled_free(&north);
        compiled_free(&mirror);
    }
}

/* ---- Against the solids ------------------------------------------------------------------------------------------ */

/* `at` in the axes of `frame`. */
static struct space seen_from(const struct frame *frame, struct space at) {
    return (struct space){space_dot(at, frame->right), space_dot(at, frame->along), space_dot(at, frame->up)};
}

/* The part of a bend is laid out for one way, and hung rolled: to the right as to the left half round. */
static bool agrees(struct space found, struct space port, bool round) {
    struct space rolled = {-port.x, port.y, -port.z};
    if (round)
        return fabs(found.y - port.y) < 1e-6 && fabs(hypot(found.x, found.z) - hypot(port.x, port.z)) < 1e-6;
    return space_distance(found, port) < 1e-6 || space_distance(found, rolled) < 1e-6;
}

static void hold(const struct part *part, const struct part_use *use, const struct frame *near, const struct frame *far,
                 const struct solid_port *port) {
    bool round = port->size.shape == SHAPE_ROUND && strcmp(part->shape, "tee with a collar") != 0;
    struct space at = seen_from(near, space_sub(far->origin, near->origin)), along = seen_from(near, far->along);
    if (!agrees(at, port->frame.origin, round) || !agrees(along, port->frame.along, round))
        fail_msg("%s in %s: its %s is placed at (%.4f, %.4f, %.4f), and made at (%.4f, %.4f, %.4f)", part->title,
                 use->run->name, port->name, at.x, at.y, at.z, port->frame.origin.x, port->frame.origin.y,
                 port->frame.origin.z);
}

static const struct placed_piece *placed_piece(const struct job *job, const struct piece *piece) {
    const struct placed_run *run = route_of(job, piece->run);
    for (size_t i = run->first; i < run->first + run->count; i++)
        if (job->route->pieces.at[i].piece == piece)
            return &job->route->pieces.at[i];
    return NULL;
}

/* How many ends were compared. */
static int hold_use(const struct job *job, const struct part *part, const struct part_use *use) {
    static const char *const whole[] = {"radius elbow", "square elbow",  "gored elbow", "angled offset",
                                        "ogee offset",  "straight boot", "transition",  "elbow boot"};
    static const char *const splits[] = {"wye", "round wye", "tee", "tee with a collar", "bullhead"};
    static const char *const legs[] = {"left leg", "right leg", "straight leg"};
    const struct placed_piece *at = use->piece ? placed_piece(job, use->piece) : NULL;
    int held = 0;
    for (size_t i = 0; at && i < sizeof whole / sizeof whole[0]; i++)
        for (size_t p = 1; strcmp(part->shape, whole[i]) == 0 && p < part->solid->ports.count; p++) {
            const struct solid_port *port = &part->solid->ports.at[p];
            if ((port->use != PORT_USE_DUCT && port->use != PORT_USE_FACE))
                continue;
            if (use->piece->kind->traits & PIECE_SPLITS)
                continue; /* the change behind a tee */
            hold(part, use, &at->near, &at->far, port);
            held++;
        }
    for (size_t i = 0; at && i < sizeof splits / sizeof splits[0]; i++)
        for (size_t p = 1; strcmp(part->shape, splits[i]) == 0 && p < part->solid->ports.count; p++)
            for (int leg = 0; leg < LEG_COUNT; leg++) {
                const struct solid_port *port = &part->solid->ports.at[p];
                bool changes = leg == LEG_STRAIGHT && strcmp(part->shape, "tee with a collar") == 0;
                if (strcmp(port->name, legs[leg]) != 0 || changes)
                    continue;
                hold(part, use, &at->near, &route_of(job, use->run)->legs[leg], port);
                held++;
            }
    return held;
}

static int hold_all(const struct job *job) {
    int held = 0;
    for (size_t i = 0; i < job->metal->parts.count; i++)
        for (size_t k = 0; k < job->metal->parts.at[i]->uses.count; k++)
            held += hold_use(job, job->metal->parts.at[i], &job->metal->parts.at[i]->uses.at[k]);
    return held;
}

static void ends_are_placed_where_the_parts_have_them(void **state) {
    (void)state;
    static const char *const jobs[] = {"tests/golden/kinds.job", "jobs/choirhouse.job", "jobs/cooperage.job"};
    int held = 0;
    for (size_t i = 0; i < sizeof jobs / sizeof jobs[0]; i++) {
        struct cleat *cleat = cleat_new(NULL);
        assert_int_equal(cleat_compile(cleat, jobs[i]), CLEAT_OK);
        held += hold_all(cleat_job(cleat));
        cleat_free(cleat);
    }
    assert_true(held >= 40);
}

static void random_fittings_are_placed_where_their_parts_have_them(void **state) {
    (void)state;
    static const char *const splits[] = {"wye", "tee", "bullhead"};
    static const char *const shapes[] = {"rectangular", "round", "oval"}, *const faces[] = {"east", "up", "down"};
    int held = 0;
    for (int i = 0; i < 40; i++) {
        int style = whole(0, 2);
        struct compiled job = compiled_until(
            "place",
            "job \"Random\"\nunit fan { blower 1000 cfm at 2 in.wg, 500 cfm at 2.4 in.wg; supply %d x %d; return 20 x "
            "14; faces %s }\n"
            "run trunk from fan.supply { shape %s; straight 2 ft; elbow %d %s; elbow 45 up, square; transition over 30 "
            "in; "
            "straight 1 ft; split %s over %d in }\n"
            "outlet a from trunk.%s { airflow %d cfm; shape %s; straight 3 ft; boot straight over 9 in, left 2 in; "
            "register 10 x 8 }\n"
            "outlet b from trunk.%s { airflow 450 cfm; shape %s; straight 3 ft; elbow 90 right; boot; register 12 x 8 "
            "}\n" RETURN,
            2 * whole(6, 10), 2 * whole(4, 7), faces[whole(0, 2)], shapes[whole(0, 1)], whole(10, 90),
            whole(0, 1) ? "left" : "down", splits[style], whole(50, 70), whole(0, 1) || style != 1 ? "left" : "right",
            whole(150, 450), shapes[whole(0, 2)], style == 1 ? "straight" : "right", shapes[whole(0, 2)]);
        if (job.job->metal && job.job->route && cleat_error_count(job.cleat) == 0)
            held += hold_all(job.job); /* what cannot be made is another's to test */
        compiled_free(&job);
    }
    assert_true(held >= 60);
}

/* The side of a furnace is where its return collar stands, and the collar is within it. */
static void a_cabinet_reaches_its_return_collar(void **state) {
    (void)state;
    static const struct {
        const char *back, *faces;
        double low[3], high[3]; /* in, from the supply collar: east, north, up */
    } cabinets[] = {
        /* 18 x 16 and 3 in more all round; the collar 18 wide and 14 high, 4 ft below */
        {"2 ft, 0 ft, 1 ft faces east", "up, front south", {-12, -12, -58}, {24, 12, 0}},
        {"-10 in, 0 ft, 1 ft faces west", "up, front south", {-10, -12, -58}, {12, 12, 0}},
        {"0 ft, 1 ft, 1 ft faces north", "up, front south", {-12, -11, -58}, {12, 12, 0}},
        {"9 ft, 0 ft, 1 ft faces east", "up, front south", {-12, -11, -48}, {12, 11, 0}}, /* too far */
        {"0 ft, 0 ft, 1 ft faces down", "up, front south", {-12, -11, -48}, {12, 11, 0}},
    };
    for (size_t i = 0; i < sizeof cabinets / sizeof cabinets[0]; i++) {
        struct compiled job = compiled_text(
            "job \"Furnace\"\nunit fan { blower 1000 cfm at 0.6 in.wg, 800 cfm at 0.8 in.wg; supply 18 x 16; return 18 "
            "x "
            "14 at %s; at 0 ft, 0 ft, 5 ft; faces %s }\nrun trunk from fan.supply { straight 4 ft; cap }\n"
            "outlet a from trunk at 2 ft left { airflow 800 cfm; straight 3 ft; boot; register 10 x 8 }\n" RETURN,
            cabinets[i].back, cabinets[i].faces);
        struct stretch box;
        double low[3], high[3], up = 5 * FOOT;
        assert_true(route_cabinet_box(job.job, job.job->units.at[0], &box));
        struct hull hull = hull_of_stretch(&box);
        hull_bounds(&hull, low, high);
        for (int axis = 0; axis < 3; axis++) {
            assert_near(low[axis] - (axis == 2 ? up : 0), cabinets[i].low[axis] * INCH, 1e-6);
            assert_near(high[axis] - (axis == 2 ? up : 0), cabinets[i].high[axis] * INCH, 1e-6);
        }
        compiled_free(&job);
    }
}

/* ---- Taps -------------------------------------------------------------------------------------------------------- */

/* A tap is as wide as its run; a shoe and a cone are wider at the wall, and no more than their opening. */
static void a_tap_is_as_wide_as_it_is_made(void **state) {
    (void)state;
    struct compiled job = compiled_text(
        "job \"Taps\"\nunit fan { blower 1000 cfm at 0.6 in.wg, 800 cfm at 0.8 in.wg; supply 20 x 16; return 20 x 14; "
        "at "
        "0 ft, 0 ft, 9 ft; faces east }\nrun trunk from fan.supply { size 20 x 16; straight 20 ft; cap }\n"
        "outlet a from trunk at 4 ft left { airflow 200 cfm; size 9; straight 3 ft; boot; register 10 x 8 }\n"
        "outlet b from trunk at 8 ft right { airflow 200 cfm; size 12 x 6; tap shoe; straight 3 ft; boot; register 10 "
        "x "
        "8 }\n"
        "outlet c from trunk at 12 ft left { airflow 200 cfm; size 8; tap conical; straight 3 ft; boot; register 10 x "
        "8 "
        "}\n"
        "outlet d from trunk at 16 ft top { airflow 200 cfm; size 12 x 6; tap shoe; straight 3 ft; boot; register 10 x "
        "8 }\n" RETURN);
    static const struct {
        const char *run;
        double low, high, across, out; /* in: toward the unit and away from it; across; of the wall from the middle */
    } taps[] = {{"a", 4.5, 4.5, 4.5, 10}, {"b", 6 + 4, 6, 3, 10}, {"c", 4.5, 4.5, 4.5, 10}, {"d", 3 + 4, 3, 6, 8}};
    for (size_t i = 0; i < sizeof taps / sizeof taps[0]; i++) {
        const struct run *run = compiled_run(&job, taps[i].run);
        const struct placed_piece *tap = placed_piece(job.job, run->pieces.at[0]);
        double low[3] = {INFINITY, INFINITY, INFINITY}, high[3] = {-INFINITY, -INFINITY, -INFINITY};
        for (size_t k = tap->first; k < tap->first + tap->count; k++) {
            struct stretch bare = job.job->route->stretches.at[k];
            double least[3], most[3];
            bare.around = 0;
            struct hull hull = hull_of_stretch(&bare);
            hull_bounds(&hull, least, most);
            for (int axis = 0; axis < 3; axis++) {
                low[axis] = fmin(low[axis], least[axis]);
                high[axis] = fmax(high[axis], most[axis]);
            }
        }
        bool top = run->from.side == SIDE_TOP;
        int across = top ? 1 : 2;
        double middle = top ? 0 : 9 * FOOT, out = top ? low[2] - 9 * FOOT : fmin(fabs(low[1]), fabs(high[1]));
        assert_near(low[0], run->from.station - taps[i].low * INCH, 1e-6);
        assert_near(high[0], run->from.station + taps[i].high * INCH, 1e-6);
        assert_near(low[across], middle - taps[i].across * INCH, 1e-6);
        assert_near(high[across], middle + taps[i].across * INCH, 1e-6);
        assert_near(out, taps[i].out * INCH, 1e-6);
    }
    compiled_free(&job);
}

/* The width of the duct is that which the face had better lie along; one that fits as it is said stays so. */
static void a_face_lies_the_way_that_covers_its_duct(void **state) {
    (void)state;
    static const struct {
        const char *face;
        double width, height;
    } rows[] = {{"20 x 24", 24, 20}, {"24 x 20", 24, 20}, {"24 x 30", 24, 30}, {"12 x 20", 12, 20}};
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        struct compiled job = compiled_until(
            "place",
            UNIT "; faces north }\nrun trunk from fan.supply { straight 3 ft }\noutlet end from trunk { airflow 400 "
                 "cfm; register 12 x 8 }\nrun back from fan.return { straight 4 ft }\n"
                 "inlet floor from back { transition to 24 x 20 over 10 in; grille %s }\n",
            rows[i].face);
        struct duct_size face = placed(&job, "floor")->face;
        if (fabs(face.width - rows[i].width * INCH) > 1e-9 || fabs(face.height - rows[i].height * INCH) > 1e-9)
            fail_msg("%s: %g x %g", rows[i].face, face.width / INCH, face.height / INCH);
        compiled_free(&job);
    }
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(each_piece_stands_where_a_rule_would_find_it),
        cmocka_unit_test(a_return_stands_where_it_is_said_and_a_run_without_a_position_has_none),
        cmocka_unit_test(flexible_duct_has_its_jacket_round_it),
        cmocka_unit_test(four_elbows_of_a_square_come_back_to_where_they_began),
        cmocka_unit_test(a_trunk_from_a_furnace_has_its_top_up),
        cmocka_unit_test(what_leaves_a_plenum_by_its_sides_is_upright_where_it_is_round),
        cmocka_unit_test(a_trunk_that_lies_flat_and_goes_up_again_is_not_on_edge),
        cmocka_unit_test(a_tap_is_as_wide_as_it_is_made),
        cmocka_unit_test(a_cabinet_reaches_its_return_collar),
        cmocka_unit_test(a_front_is_for_what_faces_up_or_down),
        cmocka_unit_test(a_unit_that_faces_elsewhere_turns_everything_and_a_mirror_mirrors_it),
        cmocka_unit_test(a_face_lies_the_way_that_covers_its_duct),
        cmocka_unit_test(ends_are_placed_where_the_parts_have_them),
        cmocka_unit_test(random_fittings_are_placed_where_their_parts_have_them),
    };
    return cmocka_run_group_tests(tests, seed_random, NULL);
}
