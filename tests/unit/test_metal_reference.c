/* Cones, cut cylinders, square-to-rounds and transitions against independent figures of their flat patterns. */
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <setjmp.h>
#include <cmocka.h>

#include "metal/body.h"
#include "near.h"
#include "pattern_cases.h"
#include "solid_prove.h"

/* The figures say x, y and height; here that is right, up and along. */
static struct arena *arena;
static jmp_buf no_memory;

static int set_up(void **state) {
    (void)state;
    arena = arena_new(NULL);
    if (!arena || setjmp(no_memory))
        return 1;
    arena_on_failure(arena, &no_memory);
    return 0;
}

static int tear_down(void **state) {
    (void)state;
    arena_free(arena);
    return 0;
}

static double inches(const struct pattern_case *reference, const char *name) {
    return case_input(reference, name) * INCH;
}

static double square_inches(double area) {
    return area / INCH / INCH;
}

static struct profile rectangle(double width, double height) {
    return (struct profile){width, height, 0};
}

static struct profile circle(double diameter) {
    return (struct profile){diameter, diameter, diameter / 2};
}

static struct loft loft_between(struct profile from, struct profile to, double right, double along, double up) {
    return (struct loft){
        .near = frame_near,
        .far = frame_moved(&frame_near, right, along, up),
        .from = from,
        .to = to,
        .near_end = {.join = JOIN_PORT, .port = 0},
        .far_end = {.join = JOIN_PORT, .port = 1},
        .name = "body",
    };
}

static const struct solid *lofted(const struct loft *loft, double fineness) {
    struct solid *solid = solid_new(arena, fineness);
    solid_loft(solid, loft);
    solid_close(solid);
    assert_null(solid->fault);
    return solid;
}

/* Of the panels of a name; NULL: of all. */
static double named_area(const struct solid *solid, const char *name) {
    double area = 0;
    for (size_t i = 0; i < solid->panels.count; i++)
        if (!name || strcmp(solid->panels.at[i].name, name) == 0)
            area += panel_area(&solid->panels.at[i]);
    return area;
}

/* ---- Cones and cylinders ----------------------------------------------------------------------------------------- */

static void cone_case(const struct pattern_case *reference) {
    struct loft loft = loft_between(circle(inches(reference, "D_big")), circle(inches(reference, "D_small")), 0,
                                    inches(reference, "height"), 0);
    const struct solid_panel *cone = &lofted(&loft, 1)->panels.at[0];
    const struct solid_edge *outer = &cone->edges.at[0], *inner = &cone->edges.at[2];
    case_near(reference, "slant", flat_distance(cone->near_flat[0], cone->far_flat[0]) / INCH);
    case_near(reference, "R_outer", outer->radius / INCH);
    case_near(reference, "R_inner", inner->radius / INCH);
    case_near(reference, "sector_angle_deg", fabs(outer->sweep) / DEGREE);
    case_near(reference, "arc_outer", edge_length(outer) / INCH);
    case_near(reference, "arc_inner", edge_length(inner) / INCH);
    case_near(reference, "chord_outer", flat_distance(outer->flat[0], flat_end(outer)) / INCH);
    case_near(reference, "chord_inner", flat_distance(inner->flat[0], flat_end(inner)) / INCH);
    case_near(reference, "area", square_inches(panel_area(cone)));
}

/* All round from `from` on, in so many parts. */
static const struct solid_panel *rolled(const struct roll *like, double from, size_t parts) {
    struct solid *solid = solid_new(arena, 1);
    struct roll roll = *like;
    roll.arc.from = from;
    roll.arc.to = from + 2 * PI;
    roll.divisions = parts;
    roll.near_join = roll.far_join = JOIN_FREE;
    roll.from_join = roll.to_join = JOIN_SEAM;
    solid_roll(solid, &roll);
    assert_null(solid->fault);
    return &solid->panels.at[0];
}

enum row { NEAR_ROW, FAR_ROW, AREA };

static double row_of(const struct solid_panel *panel, enum row row) {
    const struct flat *points = row == NEAR_ROW ? panel->near_flat : panel->far_flat;
    double sum = 0;
    if (row == AREA)
        return panel_area(panel);
    for (size_t i = 0; i + 1 < panel->rulings; i++)
        sum += flat_distance(points[i], points[i + 1]);
    return sum;
}

/* What a row's length or the area tends to. */
static double limit_rolled(const struct roll *roll, enum row row) {
    double parts[SERIES_LEAST], values[SERIES_LEAST];
    for (int i = 0; i < SERIES_LEAST; i++) {
        parts[i] = 48 << i;
        values[i] = row_of(rolled(roll, 0, (size_t)parts[i]), row);
    }
    return series_limit(parts, values, SERIES_LEAST).value;
}

static void cut_cylinder_case(const struct pattern_case *reference) {
    double slope = tan(case_input(reference, "cut_angle_deg") * DEGREE), length = inches(reference, "axis_length");
    struct roll roll = {
        .name = "pipe",
        .arc = {.u = {1, 0, 0}, .v = {0, 0, 1}, .radius = inches(reference, "D") / 2},
        .way = {0, 1, 0},
        .far = {.kind = CUT_PLANE, .point = {0, length, 0}, .way = space_unit((struct space){slope, 1, 0})},
    };
    size_t stations = (size_t)case_input(reference, "stations");
    const struct solid_panel *pipe = rolled(&roll, 0, stations);
    case_near(reference, "stretchout", pipe->near_flat[stations].x / INCH);
    for (size_t i = 0; i <= stations; i++) {
        case_near_at(reference, "stations_x", i, pipe->far_flat[i].x / INCH);
        case_near_at(reference, "ordinates", i, flat_distance(pipe->near_flat[i], pipe->far_flat[i]) / INCH);
    }
    case_near(reference, "cut_edge_length", limit_rolled(&roll, FAR_ROW) / INCH);
    case_near(reference, "area", square_inches(limit_rolled(&roll, AREA)));
}

static void oblique_cone_case(const struct pattern_case *reference) {
    double from = inches(reference, "D_bottom") / 2, to = inches(reference, "D_top") / 2;
    struct space top = {inches(reference, "offset"), inches(reference, "height"), 0};
    struct roll roll = {
        .name = "cone",
        .arc = {.u = {1, 0, 0}, .v = {0, 0, 1}, .radius = from},
        .cone = true,
        .apex = space_scale(top, from / (from - to)),
        .far = {.kind = CUT_PLANE, .point = top, .way = {0, 1, 0}},
    };
    size_t stations = (size_t)case_input(reference, "stations");
    const struct solid_panel *cone = rolled(&roll, 0, stations);
    for (size_t i = 0; i <= stations; i++)
        case_near_at(reference, "ruling_lengths", i, flat_distance(cone->near_flat[i], cone->far_flat[i]) / INCH);
    for (size_t i = 0; i < stations; i++)
        case_near_at(reference, "diagonals_bottom_i_to_top_i1", i,
                     space_distance(cone->near[i], cone->far[i + 1]) / INCH);
    const struct solid_panel *seamed = rolled(&roll, case_input(reference, "seam_phi_deg") * DEGREE, 48);
    struct flat first = seamed->near_flat[0], last = seamed->near_flat[48];
    case_near(reference, "apex_sector_angle_deg", fabs(atan2(flat_cross(first, last), flat_dot(first, last))) / DEGREE);
    case_near(reference, "seam_to_seam_chord_bottom", flat_distance(first, last) / INCH);
    case_near(reference, "seam_to_seam_chord_top", flat_distance(seamed->far_flat[0], seamed->far_flat[48]) / INCH);
    case_near(reference, "rim_bottom", limit_rolled(&roll, NEAR_ROW) / INCH);
    case_near(reference, "rim_top", limit_rolled(&roll, FAR_ROW) / INCH);
    case_near(reference, "area", square_inches(limit_rolled(&roll, AREA)));
}

static void cones_and_cylinders_agree(void **state) {
    (void)state;
    assert_int_equal(each_pattern_case("right_cone_frustum", cone_case), 2);
    assert_int_equal(each_pattern_case("truncated_cylinder", cut_cylinder_case), 2);
    assert_int_equal(each_pattern_case("oblique_cone_frustum", oblique_cone_case), 2);
}

/* ---- Square to round --------------------------------------------------------------------------------------------- */

/* The rolled panel about the corner in whose quarter of the round end it ends. */
static const struct solid_panel *corner_cone(const struct solid *solid, int quarter, struct space middle) {
    for (size_t i = 0; i < solid->panels.count; i++) {
        const struct solid_panel *panel = &solid->panels.at[i];
        if (panel->kind != PANEL_ROLLED)
            continue;
        struct space from = space_sub(panel->far[panel->rulings / 2], middle);
        double turn = atan2(from.z, from.x) / (PI / 2);
        if ((int)floor(turn < 0 ? turn + 4 : turn) == quarter)
            return panel;
    }
    fail_msg("no cone in quarter %d", quarter);
    return NULL;
}

/* What the area of a corner (NULL: of all) tends to. */
static double limit_area(const struct loft *loft, int quarter) {
    double parts[SERIES_LEAST + 1], values[SERIES_LEAST + 1];
    for (int i = 0; i <= SERIES_LEAST; i++) {
        const struct solid *solid = lofted(loft, 1 << i);
        const struct solid_panel *cone = corner_cone(solid, quarter < 0 ? 0 : quarter, loft->far.origin);
        parts[i] = (double)cone->rulings - 1;
        values[i] = quarter < 0 ? named_area(solid, NULL) : panel_area(cone);
    }
    return series_limit(parts, values, SERIES_LEAST + 1).value;
}

/* Divided so that there are rulings at 30, 45 and 60 degrees. */
static const struct solid *with_stations(const struct loft *loft) {
    for (double fineness = 1; fineness < 8; fineness += 0.03125) {
        const struct solid *solid = lofted(loft, fineness);
        if ((corner_cone(solid, 0, loft->far.origin)->rulings - 1) % 6 == 0)
            return solid;
    }
    fail_msg("no fineness gives rulings each 15 degrees");
    return NULL;
}

static const char *const corners[] = {"NE", "NW", "SW", "SE"}; /* by quarter */

static void corner_lengths(const struct pattern_case *reference, const struct loft *loft, const struct solid *solid,
                           int quarter) {
    static const size_t degrees[] = {0, 30, 45, 60, 90};
    const struct solid_panel *cone = corner_cone(solid, quarter, loft->far.origin);
    size_t last = cone->rulings - 1;
    char name[64];
    snprintf(name, sizeof name, "true_lengths_corner_%s_at_0_30_45_60_90", corners[quarter]);
    for (size_t i = 0; i < 5; i++) {
        size_t at = degrees[i] * last / 90;
        case_near_at(reference, name, i, flat_distance(cone->near_flat[at], cone->far_flat[at]) / INCH);
    }
    struct flat first = flat_sub(cone->far_flat[0], cone->near_flat[0]),
                end = flat_sub(cone->far_flat[last], cone->near_flat[last]);
    snprintf(name, sizeof name, "fan_angle_deg_%s", corners[quarter]);
    case_near(reference, name, fabs(atan2(flat_cross(first, end), flat_dot(first, end))) / DEGREE);
    snprintf(name, sizeof name, "cone_area_%s", corners[quarter]);
    case_near(reference, name, square_inches(limit_area(loft, quarter)));
}

/* Where the blank has a point of the solid; of the seam, the place that is found first. */
static struct flat on_blank(const struct solid *solid, const struct blank *blank, struct space point) {
    for (size_t i = 0; i < blank->edges.count; i++) {
        const struct solid_edge *edge = edge_of_panel(solid, blank->edges.at[i].panel, blank->edges.at[i].edge);
        for (size_t k = 0; k < edge->count; k++)
            if (space_distance(edge->space[k], point) < 1e-9)
                return blank->edges.at[i].points[k];
    }
    fail_msg("a point is not on the outline");
    return (struct flat){0, 0};
}

static struct flat expected_point(const struct pattern_case *reference, const char *name) {
    const json_t *pair = json_object_get(json_object_get(reference->expected, "pattern_points"), name);
    return (struct flat){json_number_value(json_array_get(pair, 0)), json_number_value(json_array_get(pair, 1))};
}

/* The whole pattern, as distances between its points: corners, and the quarters of the round end. */
static void pattern_agrees(const struct pattern_case *reference, const struct loft *loft, const struct solid *solid) {
    static const char *const names[] = {"NE", "NW", "SW", "SE", "E", "N", "W"};
    blank_list blanks = {0};
    solid_blanks(solid, 0, &blanks);
    assert_int_equal(blanks.count, 1);
    double x = loft->from.width / 2, y = loft->from.height / 2, r = loft->to.radius;
    struct space at[] = {{x, 0, y},
                         {-x, 0, y},
                         {-x, 0, -y},
                         {x, 0, -y},
                         frame_point(&loft->far, r, 0, 0),
                         frame_point(&loft->far, 0, 0, r),
                         frame_point(&loft->far, -r, 0, 0)};
    for (int i = 0; i < 7; i++)
        for (int k = 0; k < i; k++) {
            double own = flat_distance(on_blank(solid, &blanks.at[0], at[i]), on_blank(solid, &blanks.at[0], at[k]));
            double want = flat_distance(expected_point(reference, names[i]), expected_point(reference, names[k]));
            assert_near(own / INCH, want, 1e-6);
        }
    const struct blank_edge *seams[2] = {NULL, NULL};
    for (size_t i = 0, found = 0; i < blanks.at[0].edges.count; i++)
        if (blanks.at[0].edges.at[i].join == JOIN_SEAM && found < 2)
            seams[found++] = &blanks.at[0].edges.at[i];
    assert_non_null(seams[1]);
    double one = flat_distance(seams[0]->points[0], seams[1]->points[1]) / INCH;
    double other = flat_distance(seams[0]->points[1], seams[1]->points[0]) / INCH;
    case_near(reference, "seam_to_seam_foot", fmax(one, other));
    case_near(reference, "seam_to_seam_round", fmin(one, other));
}

static void square_to_round_case(const struct pattern_case *reference) {
    struct profile square = rectangle(inches(reference, "rect_x"), inches(reference, "rect_y"));
    struct loft loft = loft_between(square, circle(inches(reference, "D")), inches(reference, "round_offset_x"),
                                    inches(reference, "height"), inches(reference, "round_offset_y"));
    const struct solid *solid = with_stations(&loft);
    for (int quarter = 0; quarter < 4; quarter++)
        corner_lengths(reference, &loft, solid, quarter);
    static const char *const sides[] = {"right side", "top", "left side", "bottom"};
    for (size_t i = 0; i < 4; i++) {
        double area = named_area(solid, sides[i]), base = i % 2 ? square.width : square.height;
        case_near_at(reference, "flat_triangle_areas_E_N_W_S", i, square_inches(area));
        case_near_at(reference, "flat_triangle_altitudes_E_N_W_S", i, 2 * area / base / INCH);
    }
    case_near(reference, "area", square_inches(limit_area(&loft, -1)));
    pattern_agrees(reference, &loft, solid);
}

static void square_to_rounds_agree(void **state) {
    (void)state;
    assert_int_equal(each_pattern_case("rect_to_round", square_to_round_case), 3);
}

/* ---- Transitions ------------------------------------------------------------------------------------------------- */

static const struct {
    const char *side, *name;
    int from, to; /* corners: SE, NE, NW, SW */
} sides[] = {
    {"side_E", "right side", 0, 1},
    {"side_N", "top", 1, 2},
    {"side_W", "left side", 2, 3},
    {"side_S", "bottom", 3, 0},
};

/* What a case says of one of its sides. */
static struct pattern_case of_side(const struct pattern_case *reference, const char *name) {
    struct pattern_case side = *reference;
    side.expected = json_object_get(reference->expected, name);
    return side;
}

static double bend_between(const struct solid *solid, const char *one, const char *other) {
    for (size_t p = 0; p < solid->panels.count; p++)
        for (size_t e = 0; e < solid->panels.at[p].edges.count; e++) {
            const struct solid_edge *edge = edge_of_panel(solid, (int)p, (int)e);
            if (edge->mate_panel != NO_PANEL && strcmp(solid->panels.at[p].name, one) == 0 &&
                strcmp(solid->panels.at[edge->mate_panel].name, other) == 0)
                return solid_bend(solid, (int)p, (int)e);
        }
    fail_msg("the %s and the %s do not meet", one, other);
    return 0;
}

/* Of the edge that begins or ends at a corner of the near end, and is not that end. */
static double corner_length(const struct solid *solid, const struct loft *loft, int corner) {
    double right = corner < 2 ? 0.5 : -0.5, up = corner == 1 || corner == 2 ? 0.5 : -0.5;
    struct space at = frame_point(&loft->near, right * loft->from.width, 0, up * loft->from.height);
    for (size_t p = 0; p < solid->panels.count; p++)
        for (size_t e = 0; e < solid->panels.at[p].edges.count; e++) {
            const struct solid_edge *edge = edge_of_panel(solid, (int)p, (int)e);
            bool there = space_distance(edge->space[0], at) < 1e-9 || space_distance(space_end(edge), at) < 1e-9;
            if (edge->join != JOIN_PORT && there)
                return edge_length(edge);
        }
    fail_msg("no edge leaves corner %d", corner);
    return 0;
}

static void transition_case(const struct pattern_case *reference) {
    struct profile from = rectangle(inches(reference, "W_bottom"), inches(reference, "H_bottom"));
    struct profile to = rectangle(inches(reference, "W_top"), inches(reference, "H_top"));
    struct loft loft = loft_between(from, to, inches(reference, "offset_x"), inches(reference, "length"),
                                    inches(reference, "offset_y"));
    const struct solid *solid = lofted(&loft, 1);
    assert_int_equal(solid->panels.count, 4);
    for (size_t i = 0; i < 4; i++) {
        struct pattern_case side = of_side(reference, sides[i].side);
        double ends = i % 2 ? from.width + to.width : from.height + to.height, area = named_area(solid, sides[i].name);
        case_near(&side, "area", square_inches(area));
        case_near(&side, "slant_height", 2 * area / ends / INCH);
        case_near_at(reference, "corner_interior_dihedral_deg_SE_NE_NW_SW", i,
                     180 - bend_between(solid, sides[i].name, sides[(i + 3) % 4].name) / DEGREE);
    }
    for (size_t corner = 0; corner < 4; corner++) {
        double length = corner_length(solid, &loft, (int)corner);
        case_near_at(reference, "corner_edge_lengths_SE_NE_NW_SW", corner, length / INCH);
    }
    case_near(reference, "area", square_inches(named_area(solid, NULL)));
}

/* The longest edge that two panels of a name share: their broken diagonal. */
static double broken_along(const struct solid *solid, const char *name) {
    for (size_t p = 0; p < solid->panels.count; p++)
        for (size_t e = 0; e < solid->panels.at[p].edges.count; e++) {
            const struct solid_edge *edge = edge_of_panel(solid, (int)p, (int)e);
            if (edge->mate_panel != NO_PANEL && strcmp(solid->panels.at[p].name, name) == 0 &&
                strcmp(solid->panels.at[edge->mate_panel].name, name) == 0)
                return edge_length(edge);
        }
    fail_msg("the %s is not broken", name);
    return 0;
}

/* Broken along the shorter diagonal, which the figures have both ways. */
static void broken_agrees(const struct pattern_case *side, const struct solid *solid, const char *name) {
    double first = json_number_value(json_object_get(side->expected, "diagonal_02"));
    double second = json_number_value(json_object_get(side->expected, "diagonal_13"));
    case_near(side, first < second ? "diagonal_02" : "diagonal_13", broken_along(solid, name) / INCH);
    case_near(side, first < second ? "area_fold_02" : "area_fold_13", square_inches(named_area(solid, name)));
}

static void twisted_case(const struct pattern_case *reference) {
    struct loft loft = loft_between(rectangle(inches(reference, "W_bottom"), inches(reference, "H_bottom")),
                                    rectangle(inches(reference, "W_top"), inches(reference, "H_top")), 0,
                                    inches(reference, "length"), 0);
    loft.far = frame_rolled(&loft.far, -case_input(reference, "top_rotation_deg") * DEGREE);
    const struct solid *solid = lofted(&loft, 1);
    for (size_t i = 0; i < 2; i++) {
        struct pattern_case side = of_side(reference, sides[i].side);
        broken_agrees(&side, solid, sides[i].name);
    }
}

/* Four corners and their two ways of being broken, by themselves. */
static void tilted_side(const struct pattern_case *reference, const char *name, const struct space c[4]) {
    static const struct quad_edge free_edge = {JOIN_FREE, NO_PORT, false};
    struct pattern_case side = of_side(reference, name);
    struct solid *solid = solid_new(arena, 1);
    solid_quad(solid, "side", c, (struct quad_edge[4]){free_edge, free_edge, free_edge, free_edge});
    solid_close(solid);
    assert_null(solid->fault);
    if (json_is_true(json_object_get(side.expected, "planar"))) {
        assert_int_equal(solid->panels.count, 1);
        case_near(&side, "area_fold_02", square_inches(named_area(solid, NULL)));
        for (size_t i = 0; i < 4; i++)
            case_near_at(&side, "edges", i, edge_length(&solid->panels.at[0].edges.at[i]) / INCH);
    } else {
        assert_int_equal(solid->panels.count, 2);
        broken_agrees(&side, solid, "side");
    }
}

static void tilted_case(const struct pattern_case *reference) {
    double tilt = case_input(reference, "top_tilt_about_y_deg") * DEGREE;
    double bottom[] = {inches(reference, "W_bottom") / 2, inches(reference, "H_bottom") / 2};
    double top[] = {inches(reference, "W_top") / 2, inches(reference, "H_top") / 2};
    static const double right[] = {1, 1, -1, -1}, up[] = {-1, 1, 1, -1}; /* SE, NE, NW, SW */
    struct space low[4], high[4];
    for (int i = 0; i < 4; i++) {
        low[i] = (struct space){right[i] * bottom[0], 0, up[i] * bottom[1]};
        high[i] = (struct space){inches(reference, "top_centre_x") + right[i] * top[0] * cos(tilt),
                                 inches(reference, "top_centre_z") - right[i] * top[0] * sin(tilt), up[i] * top[1]};
    }
    static const char *const names[] = {"E_heel_or_throat", "N_cheek", "W_heel_or_throat", "S_cheek"};
    for (int i = 0; i < 4; i++) {
        int next = (i + 1) % 4;
        tilted_side(reference, names[i], (struct space[4]){low[i], low[next], high[next], high[i]});
    }
}

static void transitions_agree(void **state) {
    (void)state;
    assert_int_equal(each_pattern_case("rect_transition", transition_case), 4);
    assert_int_equal(each_pattern_case("rect_transition_rotated", twisted_case), 2);
    assert_int_equal(each_pattern_case("rect_transition_tilted_end", tilted_case), 2);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup_teardown(cones_and_cylinders_agree, set_up, tear_down),
        cmocka_unit_test_setup_teardown(square_to_rounds_agree, set_up, tear_down),
        cmocka_unit_test_setup_teardown(transitions_agree, set_up, tear_down),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
