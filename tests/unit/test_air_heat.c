/* Temperatures along ducts, against the closed form, a published example and small steps; dew points against published
 * ones. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "air/heat.h"
#include "air/leakage.h"
#include "base/constant.h"
#include "compiled.h"
#include "metal/metal.h"
#include "near.h"
#include "random.h"

#define R_ONE (FOOT * FOOT * HOUR * RANKINE / BTU)

static double kelvin(double fahrenheit) {
    return (fahrenheit + 459.67) * RANKINE;
}

static double fahrenheit(double temperature) {
    return temperature / RANKINE - 459.67;
}

static struct compiled one_duct(double flow, double length, const char *of_unit, const char *place) {
    return compiled_text("job \"t\"\n"
                         "unit fan { blower %.12g cfm at 2 in.wg; %s }\n"
                         "run trunk from fan.supply { shape round; size 8; %s; straight %.12g ft }\n"
                         "outlet far from trunk { airflow %.12g cfm; register 8 x 6 }\n"
                         "run back from fan.return { size 12 x 12; straight 4 ft }\n"
                         "inlet hall from back { grille 12 x 12 }\n",
                         flow, of_unit, place, length, flow);
}

static struct heat_arrival arrival(const struct compiled *compiled, size_t outlet, enum heat_season season) {
    return compiled_network(compiled)->heat->outlets[outlet][season];
}

/* The example of a public insulation design guide: 8 in duct, 200 cfm, 30 ft, 55 F air in 130 F, R-8 and 0.85 for both
 * films: it leaves at 57.43 F, computed independently (1.08 btu/h per cfm and F). */
static void a_duct_in_an_attic_warms_as_the_published_example(void **state) {
    (void)state;
    struct compiled job = one_duct(200, 30, "leaves 55 F; room 75 F", "insulation R-8; place attic 130 F");
    assert_near(fahrenheit(arrival(&job, 0, HEAT_SUMMER).temperature), 57.43, 0.01);
    assert_near(arrival(&job, 0, HEAT_SUMMER).share, 2.43 / 20, 0.001);
    assert_near(arrival(&job, 0, HEAT_SUMMER).lost / BTU_HOUR, 1.08 * 200 * 2.43, 3);
    assert_true(isnan(arrival(&job, 0, HEAT_WINTER).share));
    assert_near(arrival(&job, 0, HEAT_WINTER).temperature, 0, 0);
    compiled_free(&job);
}

/* dT/dx = U P (Ts - T) / (m cp), in ten thousand steps of the midpoint rule. */
static double by_steps(double flow, double length, double insulation, double in, double around) {
    double girth = PI * 8 / 12, conductance = girth / (insulation + 0.85), capacity = 60 * 0.075 * 0.24 * flow;
    double step = length / 10000, at = in;
    for (int i = 0; i < 10000; i++) {
        double middle = at + step / 2 * conductance * (around - at) / capacity;
        at += step * conductance * (around - middle) / capacity;
    }
    return at;
}

static void temperatures_agree_with_small_steps(void **state) {
    (void)state;
    for (int round = 0; round < 40; round++) {
        double flow = random_between(60, 300), length = random_between(1, 120);
        double value = floor(random_between(0, 13)), around = floor(random_between(10, 140));
        char place[120];
        snprintf(place, sizeof place, "insulation R-%g; place crawl %g F, winter %g F, minimum R-0", value, around,
                 around);
        struct compiled job = one_duct(flow, length, "leaves 55 F, heating 105 F; room 75 F, heating 70 F", place);
        assert_near(fahrenheit(arrival(&job, 0, HEAT_SUMMER).temperature), by_steps(flow, length, value, 55, around),
                    0.02);
        assert_near(fahrenheit(arrival(&job, 0, HEAT_WINTER).temperature), by_steps(flow, length, value, 105, around),
                    0.02);
        compiled_free(&job);
    }
}

static void a_longer_duct_is_two_shorter_ones(void **state) {
    (void)state;
    double half = heat_after(kelvin(55), kelvin(130), 2.5, 100);
    assert_near(heat_after(half, kelvin(130), 2.5, 100), heat_after(kelvin(55), kelvin(130), 5, 100), 1e-12);
    assert_near(heat_after(kelvin(55), kelvin(130), 1e9, 100), kelvin(130), 1e-9);
}

/* Two inlets, one through a hot attic: what comes back is their mean by airflow.  Its tap is 4 in more of the same
 * duct.
 */
static void airs_that_meet_mix(void **state) {
    (void)state;
    struct compiled job =
        compiled_text("job \"t\"\n"
                      "unit fan { blower 400 cfm at 2 in.wg; leaves 55 F; room 75 F }\n"
                      "run trunk from fan.supply { size 12 x 12; straight 4 ft }\n"
                      "outlet far from trunk { airflow 400 cfm; register 12 x 12 }\n"
                      "run back from fan.return { insulation R-100; size 12 x 12; straight 10 ft; cap }\n"
                      "inlet hot from back at 5 ft left { airflow 100 cfm; place attic 130 F; insulation R-6; size 8; "
                      "straight 20 ft; grille 12 x 8 }\n"
                      "inlet cool from back at 9 ft right { insulation R-0; airflow 300 cfm; size 10; straight 5 ft; "
                      "grille 12 x 12 }\n");
    double conductance = PI * 8 / 12 * (20 + 4.0 / 12) / 6.85, capacity = 60 * 0.075 * 0.24 * 100;
    double hot = 130 + (75 - 130) * exp(-conductance / capacity);
    assert_near(fahrenheit(compiled_network(&job)->heat->total[HEAT_SUMMER].returns), (100 * hot + 300 * 75) / 400,
                0.01);
    compiled_free(&job);
}

/* What the job does not give is not guessed. */
static void an_unknown_space_leaves_the_rest_unknown(void **state) {
    (void)state;
    struct compiled job = one_duct(200, 30, "leaves 55 F; room 75 F", "insulation R-8; place attic");
    assert_near(arrival(&job, 0, HEAT_SUMMER).temperature, 0, 0);
    assert_false(compiled_network(&job)->heat->total[HEAT_SUMMER].known);
    compiled_free(&job);
}

/* Flexible duct has the R-value that it comes with; lining counts, and not in flexible duct. */
static void walls_are_what_the_job_says(void **state) {
    (void)state;
    struct compiled job = compiled_text(
        "job \"t\" { insulation R-4 }\n"
        "unit fan { blower 200 cfm at 2 in.wg }\n"
        "run trunk from fan.supply { size 10 x 10; lining 1 in; straight 9 ft; elbow 90 left, radius 1.0 }\n"
        "outlet far from trunk { airflow 200 cfm; flex 9 ft, R-8; register 8 x 6 }\n"
        "run back from fan.return { size 12 x 12; straight 4 ft }\n"
        "inlet hall from back { grille 12 x 12 }\n");
    const struct run *trunk = compiled_run(&job, "trunk"), *far = compiled_run(&job, "far");
    assert_near(heat_item_insulation(trunk, trunk->pieces.at[0]) / R_ONE, 8, 1e-9);
    assert_near(heat_item_insulation(far, far->pieces.at[0]) / R_ONE, 8, 1e-9);
    /* Its metal is 48 in round, over 9 ft, over a quarter of a circle of 12 in (Pappus) and 2 in at both ends of that.
     */
    double surface = 48.0 / 12 * (9 + (PI / 2 * 12 + 4) / 12);
    assert_near(compiled_network(&job)->heat->sections[trunk->first_section->id].surface / (FOOT * FOOT), surface,
                1e-6);
    compiled_free(&job);
}

static double square_feet(const struct compiled *job, const char *run) {
    const struct run *at = compiled_run(job, run);
    double surface = 0;
    for (const struct section *s = at->last_section; s && s->run == at; s = s->parent)
        surface += compiled_network(job)->heat->sections[s->id].surface / (FOOT * FOOT);
    return surface;
}

/* By hand, in inches.  The box: its walls and collars of 4 in, less the holes of both and of two runouts; the duct
 * behind it, less the hole of one; a cap 1/16 in larger on every side, with a rim of 1 in.  A straight tap is 4 in of
 * duct; a straight boot whose face is as large as its duct is what duct of its length would be. */
static void boxes_boots_and_taps_count_by_their_metal(void **state) {
    (void)state;
    struct compiled job =
        compiled_text("job \"t\"\n"
                      "unit fan { blower 400 cfm at 2 in.wg; supply 12 x 10 }\n"
                      "run trunk from fan.supply { size 12 x 10; box 24 x 16 x 30; straight 4 ft; cap }\n"
                      "outlet one from trunk at 15 in left { airflow 100 cfm; size 10 x 6; tap straight; straight 2 "
                      "ft; boot straight "
                      "over 9 in; register 10 x 6 }\n"
                      "outlet two from trunk at 15 in right { airflow 100 cfm; size 8 round; tap straight; flex 5 ft; "
                      "register 10 x 6 "
                      "}\n"
                      "outlet three from trunk at 54 in left { airflow 200 cfm; size 8 x 8; tap straight; straight 2 "
                      "ft; register 8 x "
                      "8 }\n"
                      "run back from fan.return { size 12 x 12; straight 4 ft }\n"
                      "inlet hall from back { grille 12 x 12 }\n");
    double in2 = 1.0 / 144, round = PI * 8 * 8 / 4;
    double box = 2 * (24 * 16 + 24 * 30 + 16 * 30) + 2 * 4 * 44 - 2 * 12 * 10 - 10 * 6 - round;
    double cap = 12.125 * 10.125 + 2 * (12.125 + 10.125) * 1;
    assert_near(square_feet(&job, "trunk"), (box + 48 * 44 - 8 * 8 + cap) * in2, 1e-4);
    assert_near(square_feet(&job, "back"), 48 * 48 * in2, 1e-9);
    assert_near(square_feet(&job, "one"), (4 + 24 + 9) * 32 * in2, 1e-9);
    assert_near(square_feet(&job, "two"), (4 + 60) * PI * 8 * in2, 1e-9);
    assert_near(square_feet(&job, "three"), (4 + 24) * 32 * in2, 1e-9);
    compiled_free(&job);
}

/* What the take-off wraps, and flexible duct besides: nothing is lost between taps, legs and boxes, or there twice. */
static void all_of_the_metal_counts_once(void **state) {
    (void)state;
    static const char *const paths[] = {"tests/golden/kinds.job", "jobs/choirhouse.job", "jobs/cooperage.job",
                                        "jobs/fieldstation.job"};
    for (size_t p = 0; p < sizeof paths / sizeof paths[0]; p++) {
        struct cleat *cleat = cleat_new(NULL);
        assert_int_not_equal(cleat_compile(cleat, paths[p]), CLEAT_IO);
        const struct job *job = cleat_job(cleat);
        double walls = 0, made = 0;
        for (size_t i = 0; i < job->metal->parts.count; i++)
            made += job->metal->parts.at[i]->surface * (double)job->metal->parts.at[i]->uses.count;
        for (size_t u = 0; u < job->units.count; u++) {
            const struct network *network = job->units.at[u]->network;
            walls += network->leakage->surface;
            for (size_t s = 0; s < network->sections.count; s++)
                for (size_t i = 0; i < network->sections.at[s]->items.count; i++) {
                    const struct item *item = &network->sections.at[s]->items.at[i];
                    if (!(item->piece->surface > 0))
                        made += heat_item_surface(network->sections.at[s], item);
                }
        }
        if (fabs(walls - made) > 1e-9 * made)
            fail_msg("%s: walls of %.6f m2, metal of %.6f", paths[p], walls, made);
        cleat_free(cleat);
    }
}

/* From memory: ASHRAE Handbook, Fundamentals, psychrometrics: saturation over water 611.2 Pa at 0 C, 1228.0 at 10,
 * 2338.8 at 20, 4246.0 at 30, 7383.5 at 40. */
static void saturated_vapour_has_the_published_pressure(void **state) {
    (void)state;
    static const double published[][2] = {{0, 611.2}, {10, 1228.0}, {20, 2338.8}, {30, 4246.0}, {40, 7383.5}};
    for (size_t i = 0; i < sizeof published / sizeof published[0]; i++)
        assert_near(heat_saturation_pressure(273.15 + published[i][0]) / published[i][1], 1, 0.003);
}

/* 75 F at 50 %: 55.1 to 55.2 F by two published sets of constants.  From memory, psychrometric chart: 80 F at 50 % 59.7
 * F, 70 F at 50 % 50.5 F, 95 F at 40 % 67 F (to the width of a line: half a degree). */
static void dew_points_are_the_published_ones(void **state) {
    (void)state;
    assert_near(fahrenheit(heat_dew_point_of(kelvin(75), 0.5)), 55.15, 0.1);
    assert_near(fahrenheit(heat_dew_point_of(kelvin(80), 0.5)), 59.7, 0.2);
    assert_near(fahrenheit(heat_dew_point_of(kelvin(70), 0.5)), 50.5, 0.2);
    assert_near(fahrenheit(heat_dew_point_of(kelvin(95), 0.4)), 67.0, 0.6);
    assert_near(heat_dew_point_of(kelvin(75), 1), kelvin(75), 1e-9);
    for (double t = 250; t < 330; t += 7)
        assert_near(heat_saturation_pressure(heat_dew_point_of(t, 0.37)) / heat_saturation_pressure(t), 0.37, 1e-9);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_duct_in_an_attic_warms_as_the_published_example),
        cmocka_unit_test(temperatures_agree_with_small_steps),
        cmocka_unit_test(a_longer_duct_is_two_shorter_ones),
        cmocka_unit_test(airs_that_meet_mix),
        cmocka_unit_test(an_unknown_space_leaves_the_rest_unknown),
        cmocka_unit_test(walls_are_what_the_job_says),
        cmocka_unit_test(boxes_boots_and_taps_count_by_their_metal),
        cmocka_unit_test(all_of_the_metal_counts_once),
        cmocka_unit_test(saturated_vapour_has_the_published_pressure),
        cmocka_unit_test(dew_points_are_the_published_ones),
    };
    return cmocka_run_group_tests(tests, seed_random, NULL);
}
