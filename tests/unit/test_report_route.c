/* Drawings of the route: what hides what. */
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <setjmp.h>
#include <cmocka.h>

#include <math.h>

#include "compiled.h"
#include "cost/takeoff.h"
#include "draw_bench.h"
#include "metal/metal.h"
#include "near.h"
#include "report/figure_route.h"

/* ---- What hides what --------------------------------------------------------------------------------------------- */

/* Where in the order the first stretch of a run comes. */
static size_t place_of(const struct job *job, const struct route_drawn *drawn, size_t count, const char *run) {
    for (size_t i = 0; i < count; i++)
        if (strcmp(job->route->pieces.at[drawn[i].stretch->piece].run->name, run) == 0)
            return i;
    fail_msg("%s is not drawn", run);
    return 0;
}

/* By depth of their middles alone, the taps at the near end of a long trunk come before it on both of its sides, and
 * those at its far end behind it. */
static void what_is_tapped_in_behind_a_trunk_is_hidden_by_it(void **state) {
    (void)state;
    struct compiled compiled = compiled_text(
        "job \"Long\"\nunit fan { blower 500 cfm at 0.20 in.wg, 400 cfm at 0.35 in.wg; supply 14 x 12; return 14 x 10; "
        "at 0 ft, 0 ft, 9 ft; faces east }\n"
        "run trunk from fan.supply { size 14 x 12; straight 40 ft; cap }\n"
        "outlet behind_first from trunk at 3 ft left { airflow 100 cfm; size 6; straight 1 ft; boot; register 8 x 6 }\n"
        "outlet before_first from trunk at 3 ft right { airflow 100 cfm; size 6; straight 1 ft; boot; register 8 x 6 "
        "}\n"
        "outlet behind_last from trunk at 38 ft left { airflow 100 cfm; size 6; straight 1 ft; boot; register 8 x 6 }\n"
        "outlet before_last from trunk at 38 ft right { airflow 100 cfm; size 6; straight 1 ft; boot; register 8 x 6 "
        "}\n"
        "run back from fan.return { straight 2 ft }\ninlet floor from back { grille 24 x 12 }\n");
    const struct job *job = compiled.job;
    struct route_sheet sheet = {.unit = job->units.at[0]};
    struct route_drawing drawing = {.arena = job->arena, .job = job, .sheet = &sheet, .view = ROUTE_VIEW};
    drawing.right = space_unit((struct space){1, 1, 0});
    drawing.up = space_unit((struct space){-1, 1, 2});
    drawing.eye = space_cross(drawing.right, drawing.up);
    size_t count = job->route->stretches.count;
    drawing.seen = ARENA_ARRAY(job->arena, struct line_part, count);
    struct route_drawn *drawn = ARENA_ARRAY(job->arena, struct route_drawn, count);
    for (size_t i = 0; i < count; i++)
        drawn[i] = (struct route_drawn){.stretch = &job->route->stretches.at[i], .index = i};
    drawn = figure_route_in_order(&drawing, drawn, count);
    size_t trunk = place_of(job, drawn, count, "trunk");
    assert_true(place_of(job, drawn, count, "behind_first") < trunk);
    assert_true(place_of(job, drawn, count, "behind_last") < trunk);
    assert_true(place_of(job, drawn, count, "before_first") > trunk);
    assert_true(place_of(job, drawn, count, "before_last") > trunk);
    bool *there = ARENA_ARRAY(job->arena, bool, count);
    for (size_t i = 0; i < count; i++) {
        assert_false(there[drawn[i].index]);
        there[drawn[i].index] = true;
    }
    compiled_free(&compiled);
}

/* ---- Obstacles --------------------------------------------------------------------------------------------------- */

/* Posts in a row away from a trunk, the farthest first, and one in another part of the building. */
static void of_many_obstacles_the_nearest_are_drawn(void **state) {
    (void)state;
    char posts[8000] = "";
    size_t length = 0;
    for (int i = 0; i < 60; i++)
        length += (size_t)snprintf(posts + length, sizeof posts - length,
                                   "obstacle \"post %d\" from 10 ft, %d in, 0 ft to 10 ft 1 in, %d in, 12 ft\n", i,
                                   100 - i, 101 - i);
    struct compiled compiled =
        compiled_text("job \"Posts\"\nunit fan { blower 500 cfm at 0.20 in.wg, 400 cfm at 0.35 in.wg; supply 14 x 12; "
                      "return 14 x 10; "
                      "at 0 ft, 0 ft, 9 ft; faces east }\n"
                      "run trunk from fan.supply { size 14 x 12; straight 40 ft }\n"
                      "outlet out from trunk { airflow 400 cfm; register 14 x 8 }\n"
                      "run back from fan.return { straight 2 ft }\ninlet floor from back { grille 24 x 12 }\n"
                      "%sobstacle \"far\" from 10 ft, 40 ft, 0 ft to 11 ft, 41 ft, 9 ft\n",
                      posts);
    const struct job *job = compiled.job;
    struct route_sheet sheet = {.unit = job->units.at[0]};
    struct route_drawing drawing = {.arena = job->arena, .job = job, .sheet = &sheet};
    size_t count = job->route->stretches.count, near = 0, most = 0;
    struct route_drawn *drawn = ARENA_ARRAY(job->arena, struct route_drawn, count);
    for (size_t i = 0; i < count; i++)
        drawn[i] = (struct route_drawn){.stretch = &job->route->stretches.at[i], .index = i};
    const bool *shown = figure_route_obstacles(&drawing, drawn, count, &near, &most);
    assert_int_equal(near, 60);
    assert_in_range(most, 10, 59);
    for (size_t i = 0; i < 60; i++)
        assert_int_equal(shown[i], i >= 60 - most);
    assert_false(shown[60]);
    compiled_free(&compiled);
}

/* ---- Hangers ----------------------------------------------------------------------------------------------------- */

/* A trunk that turns, branches of sheet and of flexible duct on both of its sides, beams and posts about it. */
static struct compiled attic(void) {
    return compiled_text(
        "job \"Attic\"\nunit fan { blower 1000 cfm at 0.30 in.wg, 900 cfm at 0.60 in.wg; supply 18 x 12; return 18 x "
        "14; at 2 ft, 3 ft, 9 ft; faces east }\n"
        "run trunk from fan.supply { straight 13 ft; elbow 90 left, radius 1.0; straight 17 ft; cap }\n"
        "outlet soft from trunk at 4 ft left { airflow 150 cfm; damper; flex 13 ft; boot; register 12 x 6 }\n"
        "outlet hard from trunk at 9 ft right { airflow 150 cfm; straight 11 ft; elbow 90 down, radius 1.0; straight 2 "
        "ft; boot; register 12 x 6 }\n"
        "outlet mixed from trunk at 20 ft left { airflow 150 cfm; straight 6 ft; flex 9 ft; boot; register 12 x 6 }\n"
        "outlet near from trunk at 23 ft right { airflow 150 cfm; flex 9 ft; boot; register 12 x 6 }\n"
        "outlet far from trunk at 27 ft left { airflow 150 cfm; flex 10 ft; boot; register 12 x 6 }\n"
        "run back from fan.return { straight 12 ft }\ninlet floor from back { boot; grille 24 x 20 }\n"
        "obstacle \"chimney\" from 8 ft, 6 ft, 0 ft to 10 ft, 8 ft, 20 ft\n"
        "obstacle \"ridge beam\" from -60 ft, 10 ft, 12 ft to 80 ft, 10 ft 6 in, 13 ft\n"
        "obstacle \"flue\" from 20 ft, 9 ft, 0 ft to 20 ft 6 in, 9 ft 6 in, 20 ft\n");
}

static const struct figure *drawing_of(const struct compiled *compiled, enum route_view view,
                                       enum route_detail detail) {
    const struct route_sheet sheet = {.unit = compiled->job->units.at[0]};
    return figure_route(compiled->job->arena, compiled->job, &sheet, view, detail);
}

/* Where a run is `station` on from its beginning, found step by step along its duct; a bend or the collar of a tap
 * counts for nothing. */
static struct space walked(const struct job *job, const struct run *run, double station) {
    const struct placed_run *placed = route_of(job, run);
    struct space at = placed->begin.origin;
    for (size_t p = placed->first; p < placed->first + placed->count; p++) {
        const struct placed_piece *piece = &job->route->pieces.at[p];
        double length = space_distance(piece->near.origin, piece->far.origin);
        at = piece->near.origin;
        if (!(piece->piece->length > 0)) {
            at = piece->far.origin;
            continue;
        }
        if (station < length - 1e-9)
            return space_between(at, piece->far.origin, station / length);
        station -= length;
        at = piece->far.origin;
    }
    assert_near(station, 0, 1e-9);
    return at;
}

static void expect_hangers(const struct compiled *compiled, enum route_view view) {
    const struct job *job = compiled->job;
    const struct takeoff *takeoff = job->takeoff;
    const struct figure *figure = drawing_of(compiled, view, ROUTE_FOR_FIELD);
    assert_int_equal(figure->bars.count, takeoff->hangers.count);
    for (size_t i = 0; i < takeoff->hangers.count; i++) {
        const struct hanger *hanger = &takeoff->hangers.at[i];
        const struct figure_bar *bar = &figure->bars.at[i];
        struct space at = walked(job, hanger->run, hanger->station);
        bool east = view == ROUTE_ELEVATION && strstr(figure->title, "from the east");
        assert_near(bar->at.x, east ? at.y : at.x, 1e-9);
        assert_near(bar->at.y, view == ROUTE_PLAN ? at.y : at.z, 1e-9);
        assert_near(hypot(bar->across.x, bar->across.y), 1, 1e-9);
        assert_true(bar->half > 0 && 2 * bar->half < fmax(hanger->size.width, hanger->size.height) + 1e-9);
    }
}

static void every_hanger_of_the_take_off_is_drawn_at_its_station(void **state) {
    (void)state;
    struct compiled compiled = attic();
    size_t kinds[3] = {0};
    for (size_t i = 0; i < compiled.job->takeoff->hangers.count; i++)
        kinds[compiled.job->takeoff->hangers.at[i].kind]++;
    assert_true(kinds[HANGER_STRAPS] > 3 && kinds[HANGER_BAND] > 0 && kinds[HANGER_SADDLE] > 5);
    expect_hangers(&compiled, ROUTE_PLAN);
    expect_hangers(&compiled, ROUTE_ELEVATION);
    compiled_free(&compiled);
}

/* By hand: at 2, 3, 9 ft the trunk goes 13 ft east, then round a bend whose middle line has a radius of 27 in, north.
 */
static void a_station_is_a_place(void **state) {
    (void)state;
    struct compiled compiled = attic();
    const struct run *trunk = compiled_run(&compiled, "trunk"), *soft = compiled_run(&compiled, "soft");
    static const struct { double station, x, y; } rows[] = {{0, 2, 3}, {5, 7, 3}, {12.5, 14.5, 3}};
    struct route_point point;
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        assert_true(route_at(compiled.job, trunk, rows[i].station * FOOT, &point));
        assert_near(point.frame.origin.x, rows[i].x * FOOT, 1e-9);
        assert_near(point.frame.origin.y, rows[i].y * FOOT, 1e-9);
        assert_near(point.frame.origin.z, 9 * FOOT, 1e-9);
        assert_near(point.frame.along.x, 1, 1e-9);
    }
    struct route_point bend, behind;
    assert_true(route_at(compiled.job, trunk, 13 * FOOT, &bend));
    assert_true(route_at(compiled.job, trunk, 19 * FOOT, &behind));
    assert_near(bend.frame.along.y, 1, 1e-9);
    assert_near(bend.frame.origin.x - 15 * FOOT, bend.frame.origin.y - 3 * FOOT, 1e-9); /* as far on as aside */
    assert_true(bend.frame.origin.y > 3.5 * FOOT);
    assert_near(behind.frame.origin.x, bend.frame.origin.x, 1e-9);
    assert_near(behind.frame.origin.y - bend.frame.origin.y, 6 * FOOT, 1e-9);
    assert_true(route_at(compiled.job, soft, 6 * FOOT, &point));
    assert_near(point.frame.origin.x, 6 * FOOT, 1e-9);
    assert_near(point.frame.along.y, 1, 1e-9);
    compiled_free(&compiled);
}

static void hangers_are_drawn_for_the_field_alone(void **state) {
    (void)state;
    struct compiled compiled = attic();
    const struct figure *plan = drawing_of(&compiled, ROUTE_PLAN, ROUTE_FOR_FIELD);
    assert_non_null(strstr(plan->bar_key, "two straps, 1 in wide"));
    assert_non_null(strstr(plan->bar_key, "a band, 1 in wide"));
    assert_non_null(strstr(plan->bar_key, "flexible: a saddle of webbing, 1-1/2 in wide"));
    assert_int_equal(drawing_of(&compiled, ROUTE_PLAN, ROUTE_FOR_CUSTOMER)->bars.count, 0);
    assert_int_equal(drawing_of(&compiled, ROUTE_VIEW, ROUTE_FOR_FIELD)->bars.count, 0);
    compiled_free(&compiled);
}

/* Of a unit in sheets each hanger stands on one: that of its trunk, or of all trunks where the trunk has none. */
static void each_hanger_is_told_on_one_sheet(void **state) {
    (void)state;
    struct compiled compiled = attic();
    const struct job *job = compiled.job;
    size_t drawn = 0;
    for (size_t i = 0; i <= job->runs.count; i++) {
        const struct run *trunk = i < job->runs.count ? job->runs.at[i] : NULL;
        if (trunk && (trunk->role != RUN_DUCT || figure_route_terminals(trunk) == 0))
            continue;
        const struct route_sheet sheet = {.unit = job->units.at[0], .trunk = trunk, .overview = !trunk};
        drawn += figure_route(job->arena, job, &sheet, ROUTE_PLAN, ROUTE_FOR_FIELD)->bars.count;
    }
    assert_int_equal(drawn, job->takeoff->hangers.count);
    compiled_free(&compiled);
}

/* ---- Bends ------------------------------------------------------------------------------------------------------- */

static bool holds(const struct figure_path *path, struct spot at) {
    bool inside = false;
    for (size_t i = 0; i < path->steps.count; i++) {
        struct spot a = path->steps.at[i].to, b = path->steps.at[(i + 1) % path->steps.count].to;
        if ((a.y < at.y) != (b.y < at.y) && at.x < a.x + (b.x - a.x) * (at.y - a.y) / (b.y - a.y))
            inside = !inside;
    }
    return inside;
}

static bool covered_later(const struct figure *figure, size_t line, struct spot at) {
    for (size_t i = line + 1; i < figure->paths.count; i++)
        if (figure->paths.at[i].stroke == STROKE_NONE && holds(&figure->paths.at[i], at))
            return true;
    return false;
}

/* How many thick lines have one side covered by what is drawn later, and not the other: half of their width is lost. */
static size_t lines_half_covered(const struct figure *figure, size_t *lines) {
    size_t count = 0;
    for (size_t i = 0; i < figure->paths.count; i++) {
        const struct figure_path *path = &figure->paths.at[i];
        if (path->stroke != STROKE_CUT || path->steps.count != 2)
            continue;
        struct spot a = path->steps.at[0].to, b = path->steps.at[1].to;
        double length = hypot(b.x - a.x, b.y - a.y), x = (a.x + b.x) / 2, y = (a.y + b.y) / 2;
        struct spot aside = {0.01 * INCH * (a.y - b.y) / length, 0.01 * INCH * (b.x - a.x) / length};
        count += covered_later(figure, i, (struct spot){x + aside.x, y + aside.y}) !=
                 covered_later(figure, i, (struct spot){x - aside.x, y - aside.y});
        ++*lines;
    }
    return count;
}

/* Round duct, of whose bends the chords as seen lie over each other: with a fill among their lines 18 of these are
 * half covered. */
static void the_sides_of_a_bend_are_drawn_whole(void **state) {
    (void)state;
    struct compiled compiled = compiled_text(
        "job \"Bend\"\nunit fan { blower 500 cfm at 0.30 in.wg, 400 cfm at 0.60 in.wg; supply 12 round; return 14 x "
        "12; "
        "at 0 ft, 0 ft, 9 ft; faces west }\n"
        "run trunk from fan.supply { straight 4 ft; elbow 90 left; straight 3 ft }\n"
        "outlet out from trunk { airflow 400 cfm; boot; register 14 x 8 }\n"
        "run back from fan.return { straight 2 ft }\ninlet floor from back { boot; grille 24 x 20 }\n");
    size_t lines = 0;
    assert_int_equal(lines_half_covered(drawing_of(&compiled, ROUTE_VIEW, ROUTE_FOR_FIELD), &lines), 0);
    assert_true(lines > 30);
    compiled_free(&compiled);
}

/* ---- Numbers and names ------------------------------------------------------------------------------------------- */

static const struct figure_label *label_of(const struct figure *figure, const char *text) {
    for (size_t i = 0; i < figure->labels.count; i++)
        if (strcmp(figure->labels.at[i].text, text) == 0)
            return &figure->labels.at[i];
    return NULL;
}

/* By hand: 13 ft on from 2, 3 ft the elbow goes on for 2 in, turns at a radius of 18 in, and goes on for 2 in more. The
 * straight from end to end passes 5 in beside its middle. */
static void numbers_of_a_bend_stand_on_its_duct(void **state) {
    (void)state;
    struct compiled compiled = attic();
    const struct job *job = compiled.job;
    const struct figure *plan = drawing_of(&compiled, ROUTE_PLAN, ROUTE_FOR_FIELD);
    const double on = 18 * sin(45 * DEGREE), aside = 18 - 18 * cos(45 * DEGREE);
    size_t found = 0;
    for (size_t i = 0; i < job->metal->pieces; i++) {
        const struct hung_part *hung = &job->metal->hung[i];
        if (strcmp(hung->use->run->name, "trunk") != 0 || !strstr(hung->part->title, "adius elbow"))
            continue;
        const struct figure_label *label = label_of(plan, arena_format(job->arena, "(%zu)", hung->part->number));
        assert_non_null(label);
        assert_near(label->from.x, 15 * FOOT + (2 + on) * INCH, 0.1 * INCH);
        assert_near(label->from.y, 3 * FOOT + aside * INCH, 0.1 * INCH);
        found++;
    }
    assert_int_equal(found, 1);
    compiled_free(&compiled);
}

/* The sheets of the trunks have the rest. */
static void trunks_alone_have_their_names_and_sizes_and_no_more(void **state) {
    (void)state;
    struct compiled compiled = attic();
    const struct job *job = compiled.job;
    const struct route_sheet sheet = {.unit = job->units.at[0], .overview = true};
    const struct figure *plan = figure_route(job->arena, job, &sheet, ROUTE_PLAN, ROUTE_FOR_FIELD);
    assert_int_equal(plan->dimensions.count, 0);
    assert_non_null(label_of(plan, "trunk, 18 x 12 in"));
    assert_non_null(label_of(plan, "back, 18 x 14 in"));
    for (size_t i = 0; i < plan->labels.count; i++)
        assert_null(strstr(plan->labels.at[i].text, "("));
    compiled_free(&compiled);
}

/* The name of a riser does not stand on the one that is drawn before it, nor that of the unit; and from another side
 * both are seen. */
static void a_name_stands_on_what_is_seen(void **state) {
    (void)state;
    struct compiled compiled =
        compiled_text("job \"Closet\"\nunit F { blower 900 cfm at 0.50 in.wg, 800 cfm at 0.70 in.wg; supply 18 x 16; "
                      "return 18 x 14 at "
                      "%s; at 0 ft, 0 ft, 5 ft; faces up, front south }\n"
                      "run trunk from F.supply { straight 4 ft; elbow 90 down; straight 16 ft; cap }\n"
                      "outlet bed from trunk at 9 ft left { airflow 800 cfm; straight 5 ft; boot; register 14 x 8 }\n"
                      "run back from F.return { straight 2 ft; elbow 90 up; straight 8 ft }\n"
                      "inlet hall from back { filter 24 x 24 x 2 }\n",
                      "2 ft, 0 ft, 1 ft faces east");
    const struct figure *side = drawing_of(&compiled, ROUTE_ELEVATION, ROUTE_FOR_CUSTOMER);
    const struct figure_label *trunk = NULL, *back = NULL, *unit = NULL;
    for (size_t i = 0; i < side->labels.count; i++) {
        const struct figure_label *label = &side->labels.at[i];
        trunk = strncmp(label->text, "trunk", 5) == 0 ? label : trunk;
        back = strncmp(label->text, "back", 4) == 0 ? label : back;
        unit = strcmp(label->text, "F") == 0 ? label : unit;
    }
    assert_non_null(trunk);
    assert_non_null(back);
    assert_non_null(unit);
    /* seen from the east, x is north: the level straight of the trunk lies past its elbow, the riser of the return
     * before both collars */
    assert_true(fmin(trunk->from.x, trunk->to.x) > 9 * INCH);
    assert_near(back->from.x, 0, 1e-6);
    assert_true(fmin(fabs(unit->from.x), fabs(unit->to.x)) > 8.9 * INCH);
    assert_int_equal(side->arrows.count, 0); /* the return leaves toward the viewer, behind its own riser */
    assert_int_equal(drawing_of(&compiled, ROUTE_VIEW, ROUTE_FOR_CUSTOMER)->arrows.count, 2);
    compiled_free(&compiled);
}

/* ---- On paper ---------------------------------------------------------------------------------------------------- */

static bool is_inside(const struct sheet_stroke *stroke, struct spot at) {
    bool inside = false;
    for (size_t i = 0; i < stroke->count; i++) {
        struct spot a = stroke->points[i], b = stroke->points[(i + 1) % stroke->count];
        if ((a.y < at.y) != (b.y < at.y) && at.x < a.x + (b.x - a.x) * (at.y - a.y) / (b.y - a.y))
            inside = !inside;
    }
    return inside;
}

/* Paths stand first on a sheet, in their order. */
static void assert_insides_clear(const struct figure *figure, const struct sheet *sheet) {
    size_t kept = 0;
    for (size_t p = 0; p < figure->paths.count; p++)
        for (size_t i = 0; figure->paths.at[p].kept && i < sheet->letters.count; i++, kept++)
            if (is_inside(&sheet->strokes.at[p], sheet->letters.at[i].box.centre))
                fail_msg("'%s' stands in a register or an obstacle", sheet->letters.at[i].text);
    assert_true(kept > 0);
}

/* Neither a line nor a hanger, a register, an obstacle or another text is under a text, and the whole fits a page as it
 * is. */
static void no_text_stands_on_what_is_drawn(void **state) {
    (void)state;
    struct compiled compiled = attic();
    for (int view = ROUTE_PLAN; view <= ROUTE_VIEW; view++)
        for (int tallest = 200; tallest < 700; tallest += 150) {
            const struct figure *figure = drawing_of(&compiled, (enum route_view)view, ROUTE_FOR_FIELD);
            const struct sheet *sheet = sheet_lay_out_in(figure, 1, INFINITY, tallest);
            assert_sheet_clear(sheet);
            assert_insides_clear(figure, sheet);
            assert_true(sheet->width < 518.5);
            assert_true(tallest < 500 || sheet->height <= tallest);
        }
    compiled_free(&compiled);
}

/* Where forty labels meet all are there, and the letters need not be smaller for the page. */
static void a_trunk_of_many_outlets_fits_a_page(void **state) {
    (void)state;
    enum { OUTLETS = 40 };
    char outlets[8000] = "";
    size_t length = 0;
    for (int i = 0; i < OUTLETS; i++)
        length += (size_t)snprintf(outlets + length, sizeof outlets - length,
                                   "outlet o%d_ from trunk at %d ft %s { airflow 20 cfm; damper; flex %d ft; boot; "
                                   "register 8 x 4 }\n",
                                   i, 3 + 4 * i, i % 2 ? "left" : "right", 6 + i % 5);
    struct compiled compiled = compiled_text(
        "job \"Floor\"\nunit fan { blower 1000 cfm at 0.50 in.wg, 800 cfm at 0.90 in.wg; supply 16 x 12; return 18 x "
        "14; faces east }\nrun trunk from fan.supply { size 16 x 12; straight 165 ft; cap }\n%s"
        "run back from fan.return { straight 2 ft }\ninlet floor from back { grille 30 x 24 }\n",
        outlets);
    const struct route_sheet sheet = {.unit = compiled.job->units.at[0], .trunk = compiled_run(&compiled, "trunk")};
    const struct figure *figure = figure_route(compiled.job->arena, compiled.job, &sheet, ROUTE_PLAN, ROUTE_FOR_FIELD);
    assert_true(figure->bars.count > OUTLETS);
    const struct sheet *page = sheet_lay_out_in(figure, 1, INFINITY, 670);
    assert_sheet_clear(page);
    assert_true(page->width < 518.5 && page->height <= 670);
    for (int i = 0; i < OUTLETS; i++)
        assert_true(letters_shown(page, arena_format(compiled.job->arena, "o%d_, 20 cfm", i)));
    compiled_free(&compiled);
}

/* A beam of 140 ft over ducts that reach 40. */
static void a_long_obstacle_does_not_make_the_ducts_small(void **state) {
    (void)state;
    struct compiled compiled = attic();
    const struct figure *figure = drawing_of(&compiled, ROUTE_PLAN, ROUTE_FOR_FIELD);
    double low = INFINITY, high = -INFINITY;
    for (size_t p = 0; p < figure->paths.count; p++)
        for (size_t i = 0; i < figure->paths.at[p].steps.count; i++) {
            low = fmin(low, figure->paths.at[p].steps.at[i].to.x);
            high = fmax(high, figure->paths.at[p].steps.at[i].to.x);
        }
    assert_true(high - low < 60 * FOOT);
    compiled_free(&compiled);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(what_is_tapped_in_behind_a_trunk_is_hidden_by_it),
        cmocka_unit_test(of_many_obstacles_the_nearest_are_drawn),
        cmocka_unit_test(every_hanger_of_the_take_off_is_drawn_at_its_station),
        cmocka_unit_test(a_station_is_a_place),
        cmocka_unit_test(hangers_are_drawn_for_the_field_alone),
        cmocka_unit_test(each_hanger_is_told_on_one_sheet),
        cmocka_unit_test(the_sides_of_a_bend_are_drawn_whole),
        cmocka_unit_test(numbers_of_a_bend_stand_on_its_duct),
        cmocka_unit_test(a_name_stands_on_what_is_seen),
        cmocka_unit_test(trunks_alone_have_their_names_and_sizes_and_no_more),
        cmocka_unit_test(no_text_stands_on_what_is_drawn),
        cmocka_unit_test(a_trunk_of_many_outlets_fits_a_page),
        cmocka_unit_test(a_long_obstacle_does_not_make_the_ducts_small),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
