/* Snips where an outline turns in, and allowances cut off where their line would cross itself. */
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <setjmp.h>
#include <cmocka.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "metal/allow.h"
#include "metal/shape_boot.h"
#include "metal/shape_elbow.h"
#include "metal/shape_split.h"
#include "metal/shape_straight.h"
#include "near.h"

struct laid {
    struct arena *arena;
    struct part part;
};

static jmp_buf no_memory;

/* As the shop cuts it, with seams of that kind. */
static struct laid lay_out(shape_builder *build, const void *size, enum seam_kind seam) {
    struct laid laid = {.arena = arena_new(NULL)};
    if (!laid.arena || setjmp(no_memory))
        abort();
    arena_on_failure(laid.arena, &no_memory);
    struct settings settings = {.seam = seam, .seam_set = true};
    struct shop shop = {0};
    struct allowing allowing = {.shop = &shop, .settings = &settings, .supply = true};
    for (int side = 0; side < JOINT_SIDES; side++)
        allowing.joints[side] = &settings;
    laid.part.solid = solid_new(laid.arena, 1);
    build(laid.part.solid, size);
    solid_close(laid.part.solid);
    assert_null(laid.part.solid->fault);
    const char *why = NULL;
    solid_blanks(laid.part.solid, 0, &laid.part.blanks);
    part_connections(&laid.part, &allowing);
    assert_true(part_allow(&laid.part, &allowing, &why));
    for (size_t b = 0; b < laid.part.blanks.count; b++) {
        assert_true(blank_cut(&laid.part.blanks.at[b], laid.arena, &why));
        blank_settle(&laid.part.blanks.at[b]);
    }
    return laid;
}

static const struct blank *blank_called(const struct laid *laid, const char *name) {
    for (size_t b = 0; b < laid->part.blanks.count; b++)
        if (strcmp(laid->part.blanks.at[b].name, name) == 0)
            return &laid->part.blanks.at[b];
    fail_msg("no blank is called %s", name);
    return NULL;
}

static double relief_length(const struct blank *blank, size_t i) {
    return flat_distance(blank->reliefs.at[i].from, blank->reliefs.at[i].to);
}

static double cut_distance(const struct blank *blank, struct flat at) {
    double least = INFINITY;
    for (size_t i = 0; i < blank->cut_count; i++) {
        struct flat a = blank->cut[i], way = flat_sub(blank->cut[(i + 1) % blank->cut_count], a);
        double share = fmax(0, fmin(1, flat_dot(flat_sub(at, a), way) / flat_dot(way, way)));
        least = fmin(least, flat_distance(at, flat_add(a, flat_scale(way, share))));
    }
    return least;
}

/* Two flanges of 1/4 in that meet in an angle of 2 h inside: the snip between them is 1/4 / sin h long. */
static void the_crotch_of_a_wye_is_snipped(void **state) {
    (void)state;
    struct profile main = {24 * INCH, 12 * INCH, 0}, leg = {12 * INCH, 12 * INCH, 0};
    struct wye wye = {.main = main,
                      .left = {leg, -15 * INCH, 24 * INCH, 0},
                      .right = {leg, 15 * INCH, 24 * INCH, 0},
                      .crotch_along = 8 * INCH};
    struct laid laid = lay_out(shape_wye, &wye, SEAM_PITTSBURGH);
    const struct blank *cheek = blank_called(&laid, "top cheek");
    /* From the crotch the inner sides go 9 in aside over 16 in: sin h = 9 / hypot(9, 16). */
    assert_int_equal(cheek->reliefs.count, 1);
    assert_near(relief_length(cheek, 0), 0.25 * INCH * hypot(9, 16) / 9, 1e-9);
    assert_true(cut_distance(cheek, cheek->reliefs.at[0].from) < 1e-12);
    assert_near(cut_distance(cheek, cheek->reliefs.at[0].to), relief_length(cheek, 0), 1e-9);
    assert_int_equal(blank_called(&laid, "outer side, left leg")->reliefs.count, 0);
    arena_free(laid.arena);
}

/* The corner of a square throat, where 90 degrees meet. */
static void the_throat_of_a_square_elbow_is_snipped(void **state) {
    (void)state;
    struct shape_duct both = {SHAPE_RECTANGULAR, 14 * INCH, 8 * INCH};
    struct square_elbow elbow = {both, both, 0, 90 * DEGREE, 4 * INCH, 0};
    struct laid laid = lay_out(shape_square_elbow, &elbow, SEAM_PITTSBURGH);
    const struct blank *cheek = blank_called(&laid, "cheek");
    assert_int_equal(cheek->reliefs.count, 1);
    assert_near(relief_length(cheek, 0), 0.25 * INCH * sqrt(2), 1e-9);
    arena_free(laid.arena);
}

/* A flange of 1 in on a throat of 3 in must stretch by half: snipped, an inch apart at most.
 * One of 1/4 in need not. */
static void a_flange_that_cannot_stretch_is_snipped(void **state) {
    (void)state;
    struct shape_duct both = {SHAPE_RECTANGULAR, 14 * INCH, 8 * INCH};
    struct radius_elbow elbow = {both, both, 0, 90 * DEGREE, 3 * INCH, 0};
    struct laid standing = lay_out(shape_radius_elbow, &elbow, SEAM_STANDING);
    struct laid pittsburgh = lay_out(shape_radius_elbow, &elbow, SEAM_PITTSBURGH);
    const struct blank *cheek = blank_called(&standing, "cheek");
    assert_int_equal(cheek->reliefs.count, 4); /* 4.71 in in five parts */
    for (size_t i = 0; i < 4; i++) {
        assert_near(relief_length(cheek, i), 1 * INCH, 1e-9);
        assert_true(cut_distance(cheek, cheek->reliefs.at[i].from) < CHORD_LIMIT);
    }
    assert_int_equal(blank_called(&pittsburgh, "cheek")->reliefs.count, 0);
    arena_free(standing.arena);
    arena_free(pittsburgh.arena);
}

/* At a bend up a flange that is turned in, up too, would meet its neighbour: a vee.  One turned out opens: a slit, and
 * the flange stays whole. */
static void a_flange_turned_out_is_slit_at_a_bend(void **state) {
    (void)state;
    struct elbow_boot boot = {{6 * INCH, 6 * INCH, 3 * INCH}, {12 * INCH, 6 * INCH, 0}, 5 * INCH};
    struct laid laid = lay_out(shape_elbow_boot, &boot, SEAM_PITTSBURGH);
    const struct blank *wrap = blank_called(&laid, "back");
    assert_int_equal(wrap->bends.count, 1);
    assert_int_equal(wrap->reliefs.count, 1);
    assert_near(relief_length(wrap, 0), 1 * INCH, 1e-9);
    size_t vees = 0;
    for (size_t e = 0; e < wrap->edges.count; e++) {
        vees += wrap->edges.at[e].kind == ALLOW_FLANGE && wrap->edges.at[e].end_cut > 0;
        assert_true(wrap->edges.at[e].kind != ALLOW_FACE || !(wrap->edges.at[e].start_cut > 0));
    }
    assert_int_equal(vees, 1);
    arena_free(laid.arena);
}

static void plain_duct_has_no_snips(void **state) {
    (void)state;
    struct straight_shape joint = {.section = {SHAPE_RECTANGULAR, 14 * INCH, 8 * INCH}, .length = 58 * INCH};
    struct laid laid = lay_out(shape_straight, &joint, SEAM_PITTSBURGH);
    assert_int_equal(laid.part.blanks.count, 1);
    assert_int_equal(laid.part.blanks.at[0].reliefs.count, 0);
    arena_free(laid.arena);
}

/* ---- A lap in a bay narrower than it is wide --------------------------------------------------------------------- */

enum { TIP = 33, BAY = TIP + 2 };

/* A sheet with a bay from its right side: two straight sides, each at the angle h to the middle line, and between them
 * a round tip, of `radius` about the origin. */
static struct blank_edge bay(struct flat points[BAY], double h, double radius) {
    double far = 10 * INCH;
    for (int i = 0; i < TIP; i++) {
        double t = -(90 * DEGREE + h) - (180 * DEGREE - 2 * h) * i / (TIP - 1); /* over the left, from below */
        points[i + 1] = (struct flat){radius * cos(t), radius * sin(t)};
    }
    struct flat above = {cos(h), sin(h)}, below = {cos(h), -sin(h)};
    points[0] = flat_add(points[1], flat_scale(below, far));
    points[BAY - 1] = flat_add(points[TIP], flat_scale(above, far));
    return (struct blank_edge){
        .shape = EDGE_CURVE, .count = BAY, .points = points, .kind = ALLOW_FLANGE, .label = "lap"};
}

/* The lines of the two laps meet a / sin h from where the sides would, which is radius / sin h behind the origin: what
 * is cut has its tip there, and nothing beyond. */
static void a_lap_is_cut_off_where_its_line_crosses_itself(void **state) {
    (void)state;
    struct arena *arena = arena_new(NULL);
    if (!arena || setjmp(no_memory))
        abort();
    arena_on_failure(arena, &no_memory);
    double h = 20 * DEGREE, radius = 0.4 * INCH, lap = 0.75 * INCH;
    struct flat curve[BAY], back[5];
    struct blank_edge edges[2] = {bay(curve, h, radius)};
    edges[0].allowance = lap;
    back[0] = curve[BAY - 1];
    back[1] = (struct flat){curve[BAY - 1].x, 20 * INCH};
    back[2] = (struct flat){-20 * INCH, 20 * INCH};
    back[3] = (struct flat){-20 * INCH, -20 * INCH};
    back[4] = (struct flat){curve[0].x, -20 * INCH};
    struct flat last[2] = {back[4], curve[0]}, first[2] = {back[0], back[1]}, upper[2] = {back[1], back[2]},
                left[2] = {back[2], back[3]}, lower[2] = {back[3], back[4]};
    struct flat *lines[] = {first, upper, left, lower, last};
    struct blank blank = {.name = "sheet"};
    *list_add(arena, &blank.edges) = edges[0];
    for (int i = 0; i < 5; i++)
        *list_add(arena, &blank.edges) =
            (struct blank_edge){.shape = EDGE_LINE, .count = 2, .points = lines[i], .join = JOIN_FREE};
    const char *why = NULL;
    assert_true(blank_cut(&blank, arena, &why));
    double tip = INFINITY;
    for (size_t i = 0; i < blank.cut_count; i++)
        if (fabs(blank.cut[i].y) < 1e-9 && blank.cut[i].x > -10 * INCH)
            tip = blank.cut[i].x;
    assert_near(tip, (lap - radius) / sin(h), 1e-9);
    assert_false(loop_crosses(blank.cut, blank.cut_count, arena));
    for (size_t i = 0; i < blank.cut_count; i++)
        assert_false(fabs(blank.cut[i].y) < 0.3 * INCH && blank.cut[i].x > -10 * INCH && blank.cut[i].x < tip - 1e-9);
    arena_free(arena);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_crotch_of_a_wye_is_snipped),
        cmocka_unit_test(the_throat_of_a_square_elbow_is_snipped),
        cmocka_unit_test(a_flange_that_cannot_stretch_is_snipped),
        cmocka_unit_test(a_flange_turned_out_is_slit_at_a_bend),
        cmocka_unit_test(plain_duct_has_no_snips),
        cmocka_unit_test(a_lap_is_cut_off_where_its_line_crosses_itself),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
