/* The drawings of every part of the jobs: nothing overlaps, sizes are the blank's, and a sketch shows what is not
 * hidden. */
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <setjmp.h>
#include <cmocka.h>

#include "compiled.h"
#include "draw_bench.h"
#include "near.h"
#include "report/figure_stations.h"
#include "report/figures.h"

static const char *const paths[] = {"tests/golden/kinds.job", "jobs/choirhouse.job", "jobs/cooperage.job",
                                    "jobs/fieldstation.job"};
enum { PATHS = sizeof paths / sizeof *paths };

/* A job of a file, and where to go when its arena has no more memory: the end of the test. */
struct drawn {
    struct cleat *cleat;
    const struct job *job;
    jmp_buf full;
};

static void drawn_open(struct drawn *drawn, const char *path) {
    drawn->cleat = cleat_new(NULL);
    assert_non_null(drawn->cleat);
    cleat_compile(drawn->cleat, path);
    drawn->job = cleat_job(drawn->cleat);
    if (setjmp(drawn->full))
        abort();
    arena_on_failure(drawn->job->arena, &drawn->full);
    if (!drawn->job->metal || drawn->job->metal->parts.count == 0)
        fail_msg("%s makes no parts", path);
}

/* ---- Nothing overlaps -------------------------------------------------------------------------------------------- */

static void assert_strips_clear(const struct drawn *drawn) {
    const struct metal *metal = drawn->job->metal;
    for (size_t i = 0, count; i < metal->strips.count; i += count) {
        for (count = 1; i + count < metal->strips.count; count++)
            if (!strips_alike(&metal->strips.at[i], &metal->strips.at[i + count]))
                break;
        const struct figure *figure = figure_strip(drawn->job->arena, drawn->job, 1, &metal->strips.at[i], count);
        assert_sheet_clear(sheet_lay_out(figure, SHEET_FIT));
    }
}

static void test_no_drawing_of_a_job_has_a_text_on_a_line(void **state) {
    (void)state;
    for (size_t i = 0; i < PATHS; i++) {
        struct drawn drawn;
        drawn_open(&drawn, paths[i]);
        for (size_t p = 0; p < drawn.job->metal->parts.count; p++) {
            const struct part *part = drawn.job->metal->parts.at[p];
            assert_sheet_clear(sheet_lay_out(figure_sketch(drawn.job->arena, drawn.job, part), SHEET_FIT));
            for (size_t b = 0; b < part->blanks.count; b++) {
                const struct figure *figure = figure_pattern(drawn.job->arena, drawn.job, part, &part->blanks.at[b]);
                assert_sheet_clear(sheet_lay_out(figure, SHEET_FIT));
                assert_sheet_clear(sheet_lay_out(figure, SHEET_FULL_SIZE));
            }
        }
        assert_strips_clear(&drawn);
        cleat_free(drawn.cleat);
    }
}

static double distance_to(struct spot at, struct spot from, struct spot to) {
    double x = to.x - from.x, y = to.y - from.y, length = x * x + y * y;
    double share = length > 0 ? ((at.x - from.x) * x + (at.y - from.y) * y) / length : 0;
    share = fmin(1, fmax(0, share));
    return hypot(at.x - from.x - share * x, at.y - from.y - share * y);
}

/* ---- Sizes ------------------------------------------------------------------------------------------------------- */

/* The stroke that is the outline to cut: the first closed one drawn as a cut. */
static const struct sheet_stroke *cut_of(const struct sheet *sheet) {
    for (size_t i = 0; i < sheet->strokes.count; i++)
        if (sheet->strokes.at[i].stroke == STROKE_CUT && sheet->strokes.at[i].closed)
            return &sheet->strokes.at[i];
    return NULL;
}

/* How far a place is from the circle of some arc of the blank, moved out by its allowance. */
static double off_arcs(const struct blank *blank, struct flat at) {
    double nearest = INFINITY;
    for (size_t i = 0; i < blank->edges.count; i++) {
        const struct blank_edge *edge = &blank->edges.at[i];
        double radius = edge->radius + (edge->sweep > 0 ? edge->allowance : -edge->allowance);
        if (edge->shape == EDGE_ARC)
            nearest = fmin(nearest, fabs(flat_distance(at, edge->centre) - radius));
    }
    return nearest;
}

/* What is drawn lies on the outline, or, between the ends of a chord of an arc, on that arc: nearly, since chords that
 * are moved out meet a little outside of it. */
static void assert_on_outline(const struct blank *blank, double x, double y) {
    double nearest = INFINITY;
    for (size_t i = 0; i < blank->cut_count; i++) {
        struct flat from = blank->cut[i], to = blank->cut[(i + 1) % blank->cut_count];
        nearest =
            fmin(nearest, distance_to((struct spot){x, y}, (struct spot){from.x, from.y}, (struct spot){to.x, to.y}));
    }
    double off = nearest < 1e-9 ? 0 : off_arcs(blank, (struct flat){x, y});
    if (off > CHORD_LIMIT / 4 || nearest > 2 * CHORD_LIMIT)
        fail_msg("%s: drawn %g in off its arc, %g in off the chords", blank->name, off / INCH, nearest / INCH);
}

/* Each point of the blank comes in the stroke, in order; between them stand only points of arcs. */
static void assert_true_size(const struct sheet *sheet, const struct blank *blank) {
    const struct sheet_stroke *cut = cut_of(sheet);
    assert_non_null(cut);
    struct spot first = cut->points[0];
    size_t at = 0;
    for (size_t i = 0; i < blank->cut_count; i++) {
        double x = (blank->cut[i].x - blank->cut[0].x) / POINT, y = -(blank->cut[i].y - blank->cut[0].y) / POINT;
        while (at < cut->count && hypot(cut->points[at].x - first.x - x, cut->points[at].y - first.y - y) > 1e-6)
            at++;
        if (at == cut->count)
            fail_msg("point %zu of the outline is not in the drawing", i);
    }
    for (at = 0; at < cut->count; at++)
        assert_on_outline(blank, (cut->points[at].x - first.x) * POINT + blank->cut[0].x,
                          -(cut->points[at].y - first.y) * POINT + blank->cut[0].y);
}

static void test_full_size_patterns_are_the_blanks_themselves(void **state) {
    (void)state;
    struct drawn drawn;
    drawn_open(&drawn, paths[0]);
    for (size_t p = 0; p < drawn.job->metal->parts.count; p++) {
        const struct part *part = drawn.job->metal->parts.at[p];
        for (size_t b = 0; b < part->blanks.count; b++) {
            const struct blank *blank = &part->blanks.at[b];
            assert_true_size(sheet_lay_out(figure_pattern(drawn.job->arena, drawn.job, part, blank), SHEET_FULL_SIZE),
                             blank);
        }
    }
    cleat_free(drawn.cleat);
}

/* 8 in clear within lining of 1/2 in is a side of 9 in: behind a pocket of 1 in the
 * first brake mark stands at 10 in. */
static void test_brake_marks_are_all_measured_from_the_pocket(void **state) {
    (void)state;
    struct drawn drawn;
    size_t seen = 0;
    drawn_open(&drawn, paths[0]);
    for (size_t p = 0; p < drawn.job->metal->parts.count; p++) {
        const struct part *part = drawn.job->metal->parts.at[p];
        if (strncmp(part->title, "Straight joint, 9 x 9 in", 24) != 0 || part->seam != SEAM_PITTSBURGH)
            continue;
        const struct sheet *sheet =
            sheet_lay_out(figure_pattern(drawn.job->arena, drawn.job, part, part->blanks.at), SHEET_FIT);
        static const char *const marks[] = {"1", "10", "19", "28", "37", "37-1/4"};
        for (size_t i = 0; i < sizeof marks / sizeof *marks; i++)
            assert_non_null(letters_find(sheet, marks[i]));
        assert_true(letters_shown(sheet, "pocket, 1 in"));
        assert_true(letters_shown(sheet, "up 90°"));
        seen++;
    }
    assert_true(seen > 0);
    cleat_free(drawn.cleat);
}

/* ---- Stations ---------------------------------------------------------------------------------------------------- */

static const struct part *find_part(const struct drawn *drawn, const char *title) {
    for (size_t p = 0; p < drawn->job->metal->parts.count; p++)
        if (strncmp(drawn->job->metal->parts.at[p]->title, title, strlen(title)) == 0)
            return drawn->job->metal->parts.at[p];
    fail_msg("no part is called %s", title);
    return NULL;
}

/* A middle gore of 16 in round pipe is 2 radius 24 tan 11.25 degrees long through the middle, and there each edge rises
 * by 8 in x tan 11.25 degrees x cos of how far round a station is. */
static void test_a_gore_is_set_out_by_even_stations(void **state) {
    (void)state;
    struct drawn drawn;
    drawn_open(&drawn, paths[2]);
    const struct part *part = find_part(&drawn, "Gored elbow, 16 in round");
    const struct blank *gore = &part->blanks.at[1];
    station_list stations = {0};
    bool across = true;
    find_stations(drawn.job->arena, part->solid, gore, 16, &stations);
    assert_int_equal(stations.count, 17);
    assert_true(stations_square(&stations, &across));
    assert_false(across);
    for (size_t i = 0; i < stations.count; i++) {
        const struct station *station = &stations.at[i];
        double share = (double)i / 16, slope = tan(PI / 16);
        assert_int_equal(station->number, i + 1);
        assert_near(station->from.net.x, stations.at[0].from.net.x + share * PI * 16 * INCH, 1e-6);
        assert_near(fabs(station->to.net.y - station->from.net.y), 2 * slope * (24 - 8 * cos(2 * PI * share)) * INCH,
                    1e-6);
        const struct station_end *lapped = station->from.edge->allowance > 0 ? &station->from : &station->to;
        assert_true(fabs(lapped->cut.y - lapped->net.y) > lapped->edge->allowance - CHORD_LIMIT);
        assert_near(lapped->cut.x, lapped->net.x, 1e-9);
    }
    cleat_free(drawn.cleat);
}

static bool has_entry(const struct figure *figure, const char *part) {
    for (size_t i = 0; i < figure->list.count; i++)
        if (strstr(figure->list.at[i], part))
            return true;
    return false;
}

static bool has_note(const struct figure *figure, const char *part) {
    for (size_t i = 0; i < figure->notes.count; i++)
        if (strstr(figure->notes.at[i], part))
            return true;
    return false;
}

/* Each numbered station that starts in a corner is listed with its length from there, and nothing is numbered twice. */
static void test_form_lines_are_listed_with_their_lengths(void **state) {
    (void)state;
    struct drawn drawn;
    size_t seen = 0;
    drawn_open(&drawn, paths[1]);
    const struct part *part = find_part(&drawn, "Tap, shoe, 9 in round");
    const struct blank *blank = part->blanks.at;
    const struct figure *figure = figure_pattern(drawn.job->arena, drawn.job, part, blank);
    station_list stations = {0};
    find_stations(drawn.job->arena, part->solid, blank, drawn.job->shop.stations, &stations);
    for (size_t i = 0; i < stations.count; i++) {
        const struct station *station = &stations.at[i];
        if (station->from.corner + station->to.corner == 0)
            continue;
        double length = flat_distance(station->from.net, station->to.net);
        assert_true(
            has_entry(figure, arena_format(drawn.job->arena, " to %zu: %s", station->number,
                                           measure_figure(drawn.job->arena, drawn.job->system, SHOW_CUT, length))));
        seen++;
    }
    assert_true(seen >= 8);
    cleat_free(drawn.cleat);
}

/* The brake is spoken of where something is bent, and only there. */
static void test_brake_marks_are_named_only_where_something_is_bent(void **state) {
    (void)state;
    struct drawn drawn;
    drawn_open(&drawn, paths[0]);
    for (size_t p = 0; p < drawn.job->metal->parts.count; p++)
        for (size_t b = 0; b < drawn.job->metal->parts.at[p]->blanks.count; b++) {
            const struct blank *blank = &drawn.job->metal->parts.at[p]->blanks.at[b];
            bool bent = false;
            for (size_t i = 0; i < blank->marks.count; i++)
                bent = bent || blank->marks.at[i].kind == LINE_BEND;
            assert_int_equal(
                has_note(figure_pattern(drawn.job->arena, drawn.job, drawn.job->metal->parts.at[p], blank), "brake"),
                bent);
        }
    cleat_free(drawn.cleat);
}

/* By half widths or by points: the list has them, from the centre lines. */
static void test_curved_openings_are_listed_from_their_centre(void **state) {
    (void)state;
    struct drawn drawn;
    size_t seen = 0;
    for (size_t i = 0; i < PATHS; i++) {
        drawn_open(&drawn, paths[i]);
        for (size_t p = 0; p < drawn.job->metal->parts.count; p++)
            for (size_t b = 0; b < drawn.job->metal->parts.at[p]->blanks.count; b++) {
                const struct part *part = drawn.job->metal->parts.at[p];
                const struct blank *blank = &part->blanks.at[b];
                const struct figure *figure = figure_pattern(drawn.job->arena, drawn.job, part, blank);
                for (size_t o = 0; o < blank->openings.count; o++) {
                    if (blank->openings.at[o].round ||
                        strstr(opening_words(drawn.job->arena, drawn.job->system, blank, &blank->openings.at[o]),
                               "a curve") == NULL)
                        continue;
                    assert_true(has_note(figure, "openings"));
                    assert_true(has_entry(figure, "the centre"));
                    seen++;
                }
            }
        cleat_free(drawn.cleat);
    }
    assert_true(seen > 0);
}

/* ---- Sketches ---------------------------------------------------------------------------------------------------- */

/* Whether all panels are triangles and quadrilaterals, whose hiding is easy to compute another way. */
static bool is_plain(const struct solid *solid) {
    for (size_t i = 0; i < solid->panels.count; i++) {
        const struct solid_panel *panel = &solid->panels.at[i];
        if (panel->kind != PANEL_PLANE || panel->edges.count > 4 || panel->openings.count > 0)
            return false;
        for (size_t e = 0; e < panel->edges.count; e++)
            if (panel->edges.at[e].count != 2)
                return false;
    }
    return true;
}

/* Whether a ray meets a triangle farther than `least` from its start: by the triangle's three signed volumes. */
static bool ray_meets(struct space from, struct space way, const struct space corners[3], double least) {
    struct space a = space_sub(corners[1], corners[0]), b = space_sub(corners[2], corners[0]);
    struct space across = space_cross(way, b), start = space_sub(from, corners[0]);
    double volume = space_dot(a, across);
    if (fabs(volume) < 1e-12)
        return false;
    double u = space_dot(start, across) / volume;
    struct space turned = space_cross(start, a);
    double v = space_dot(way, turned) / volume, far = space_dot(b, turned) / volume;
    return u > 0 && v > 0 && u + v < 1 && far > least;
}

static bool is_hidden(const struct solid *solid, struct space at) {
    struct space way = space_unit(sketch_toward_eye);
    for (size_t i = 0; i < solid->panels.count; i++) {
        const struct solid_panel *panel = &solid->panels.at[i];
        for (size_t e = 1; e + 1 < panel->edges.count; e++) {
            struct space corners[3] = {panel->edges.at[0].space[0], panel->edges.at[e].space[0],
                                       panel->edges.at[e + 1].space[0]};
            if (ray_meets(at, way, corners, 1e-5))
                return true;
        }
    }
    return false;
}

static bool is_drawn(const struct figure *figure, struct spot at) {
    for (size_t i = 0; i < figure->paths.count; i++)
        for (size_t j = 1; j < figure->paths.at[i].steps.count; j++)
            if (distance_to(at, figure->paths.at[i].steps.at[j - 1].to, figure->paths.at[i].steps.at[j].to) < 1e-7)
                return true;
    return false;
}

static void assert_edge_seen(const struct part *part, const struct figure *figure, const struct solid_edge *edge) {
    enum { SAMPLES = 23 };
    struct space eye = space_unit(sketch_toward_eye), right = space_unit(space_cross((struct space){0, 0, 1}, eye));
    struct space up = space_cross(eye, right);
    for (int i = 0; i < SAMPLES; i++) {
        double share = (i + 0.5) / SAMPLES, beside = 1e-3;
        struct space at = space_between(edge->space[0], edge->space[1], share);
        bool hidden = is_hidden(part->solid, at);
        if (hidden != is_hidden(part->solid, space_between(edge->space[0], edge->space[1], share - beside)) ||
            hidden != is_hidden(part->solid, space_between(edge->space[0], edge->space[1], share + beside)))
            continue; /* just where it comes out from behind a panel */
        if (is_drawn(figure, (struct spot){space_dot(at, right), space_dot(at, up)}) == hidden)
            fail_msg("%s: an edge that is %s is %s", part->title, hidden ? "hidden" : "seen",
                     hidden ? "drawn" : "not drawn");
    }
}

static void test_a_sketch_shows_the_edges_that_are_not_hidden(void **state) {
    (void)state;
    size_t seen = 0;
    for (size_t i = 0; i < PATHS; i++) {
        struct drawn drawn;
        drawn_open(&drawn, paths[i]);
        for (size_t p = 0; p < drawn.job->metal->parts.count; p++) {
            const struct part *part = drawn.job->metal->parts.at[p];
            if (!is_plain(part->solid))
                continue;
            const struct figure *figure = figure_sketch(drawn.job->arena, drawn.job, part);
            for (size_t n = 0; n < part->solid->panels.count; n++)
                for (size_t e = 0; e < part->solid->panels.at[n].edges.count; e++)
                    if (part->solid->panels.at[n].edges.at[e].join != JOIN_SMOOTH)
                        assert_edge_seen(part, figure, &part->solid->panels.at[n].edges.at[e]);
            seen++;
        }
        cleat_free(drawn.cleat);
    }
    assert_true(seen >= 10);
}

static void test_a_sketch_names_every_port_with_its_size(void **state) {
    (void)state;
    struct drawn drawn;
    drawn_open(&drawn, paths[1]);
    for (size_t p = 0; p < drawn.job->metal->parts.count; p++) {
        const struct part *part = drawn.job->metal->parts.at[p];
        const struct sheet *sheet = sheet_lay_out(figure_sketch(drawn.job->arena, drawn.job, part), SHEET_FIT);
        for (size_t i = 0; i < part->solid->ports.count; i++) {
            const struct solid_port *port = &part->solid->ports.at[i];
            assert_true(!port->name || letters_shown(sheet, port->name));
            assert_true(letters_shown(sheet, size_text(drawn.job->arena, drawn.job->system, port->size)));
        }
    }
    cleat_free(drawn.cleat);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_no_drawing_of_a_job_has_a_text_on_a_line),
        cmocka_unit_test(test_full_size_patterns_are_the_blanks_themselves),
        cmocka_unit_test(test_brake_marks_are_all_measured_from_the_pocket),
        cmocka_unit_test(test_a_gore_is_set_out_by_even_stations),
        cmocka_unit_test(test_form_lines_are_listed_with_their_lengths),
        cmocka_unit_test(test_brake_marks_are_named_only_where_something_is_bent),
        cmocka_unit_test(test_curved_openings_are_listed_from_their_centre),
        cmocka_unit_test(test_a_sketch_shows_the_edges_that_are_not_hidden),
        cmocka_unit_test(test_a_sketch_names_every_port_with_its_size),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
