/* Least-cost sizing against every other choice of sizes there is. */
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <setjmp.h>
#include <cmocka.h>

#include "air/air.h"
#include "compiled.h"
#include "model/taps.h"
#include "near.h"
#include "random.h"
#include "size/catalogue.h"
#include "size/limits.h"
#include "size/sizing.h"
#include "size/wall_cost.h"

#define PER_100_FT (248.84 / 30.48)

/* ---- A random small system --------------------------------------------------------------------------------------- */

static const char *const tap_words[] = {"straight", "conical", "shoe"};
static const char *const split_words[] = {"wye", "tee", "bullhead"};

static void write_shop(FILE *out) {
    int first = 4 + random_below(3), side = 6 + 2 * random_below(2);
    fprintf(out, "shop \"S\" { sizes round %d, %d, %d; sizes rectangular %d, %d, %d; aspect %d\n", first, first + 1,
            first + 3, side, side + 2, side + 6, 2 + random_below(3));
    if (random_chance(0.6))
        fprintf(out, "stock 48 x 120, gauge 26, price %.2f per sheet\n", random_between(20, 60));
    if (random_chance(0.5))
        fprintf(out, "stock 48 x 120, gauge 24, price %.2f per sheet\nprice duct_wrap 0.6 per ft2\n",
                random_between(20, 80));
    fprintf(out, "}\n");
}

static int outlets; /* of the job at hand */

/* A tapped outlet of 60 to 140 cfm; gives its airflow. */
static int write_outlet(FILE *out, const char *run, double station) {
    int flow = 60 + 10 * random_below(9);
    fprintf(out, "outlet o%d from %s at %.1f ft %s { airflow %d cfm; tap %s; ", outlets, run, station,
            outlets % 2 ? "left" : "right", flow, tap_words[random_below(3)]);
    if (random_chance(0.2))
        fprintf(out, "shape rectangular; ");
    if (random_chance(0.5))
        fprintf(out, "elbow 90 up, radius 1.0; ");
    fprintf(out, "%s %d ft; register 10 x 6 }\n", random_chance(0.5) ? "flex" : "straight", 4 + random_below(30));
    outlets++;
    return flow;
}

static void write_change(FILE *out) {
    if (random_chance(0.8))
        fprintf(out, "transition over %d in; ", 8 + random_below(20));
}

/* A trunk of two or three stretches with a tap in each. */
static int write_trunk(FILE *out, const char *name, const char *from) {
    int stretches = 1 + random_below(3), flow = 0;
    fprintf(out, "run %s from %s { ", name, from);
    if (random_chance(0.3))
        fprintf(out, "limit height %d in; ", 8 + random_below(6));
    if (random_chance(0.3))
        fprintf(out, "insulation R-6; ");
    for (int i = 0; i < stretches; i++) {
        if (i > 0)
            fprintf(out, "transition over %d in; ", 8 + random_below(20));
        fprintf(out, "straight 12 ft; ");
    }
    fprintf(out, "cap }\n");
    double station = 4;
    for (int i = 0; i < stretches; i++, station += 13)
        flow += write_outlet(out, name, station);
    return flow;
}

static int write_split(FILE *out) {
    int style = random_below(3), flow = 0;
    const char *legs[] = {"left", style == 1 ? "straight" : "right"};
    fprintf(out, "run trunk from fan.supply { straight 3 ft; split %s }\n", split_words[style]);
    for (int i = 0; i < 2; i++) {
        fprintf(out, "run leg%d from trunk.%s { ", i, legs[i]);
        write_change(out);
        fprintf(out, "straight 9 ft; cap }\n");
        char name[16];
        snprintf(name, sizeof name, "leg%d", i);
        flow += write_outlet(out, name, 7);
    }
    return flow;
}

static void write_return(FILE *out, int flow) {
    fprintf(out, "run back from fan.return { straight 6 ft }\n");
    if (random_chance(0.5)) {
        fprintf(out, "inlet hall from back { %s grille 24 x 14 }\n",
                random_chance(0.5) ? "transition over 12 in;" : "");
        return;
    }
    fprintf(out, "inlet near from back at 2 ft left { airflow %d cfm; straight %d ft; grille 14 x 10 }\n", flow / 3,
            3 + random_below(9));
    fprintf(out, "inlet hall from back { airflow %d cfm; grille 24 x 14 }\n", flow - flow / 3);
}

/* All but the head, which has the blower's pressure. */
static char *random_system(int *flow) {
    char *text = NULL;
    size_t length = 0;
    FILE *out = open_memstream(&text, &length);
    outlets = 0;
    write_shop(out);
    *flow = random_chance(0.6) ? write_trunk(out, "trunk", "fan.supply") : write_split(out);
    write_return(out, *flow);
    fclose(out);
    return text;
}

static struct compiled compile_at(const char *system, int flow, double pascals) {
    return compiled_until("size",
                          "job \"T\" { sizing least-cost }\nunit fan { airflow %d cfm; blower %d cfm at %.9f Pa }\n%s",
                          flow, flow, pascals, system);
}

/* ---- Every other choice ------------------------------------------------------------------------------------------ */

enum { DUCTS = 16, SIZES = 40, TRIES = 20000 };

struct brute {
    struct job *job;
    struct network *network;
    struct wall_cost cost;
    size_t counts[DUCTS];
    struct duct_size sizes[DUCTS][SIZES];
    int taps, most[DUCTS];  /* what a tap must have; the most that some sizes would give it */
    double cheapest, least; /* cost within the budget; Pa of the least deficit (as surplus, whatever it costs) */
};

/* Sizes of a duct by the words of the manual, each limit by itself. */
static bool within(const struct brute *brute, struct duct *duct, struct duct_size size) {
    const struct settings *settings = &duct->run->settings;
    double long_side = fmax(size.width, size.height), short_side = fmin(size.width, size.height);
    duct->size = size;
    air_walls(brute->network);
    double friction = duct->friction_multiplier *
                      air_friction_rate(&brute->job->air, duct->flow, duct->equivalent_diameter, duct->roughness);
    return (settings->limit_height <= 0 || size.height <= settings->limit_height + 1e-9) &&
           (settings->limit_width <= 0 || size.width <= settings->limit_width + 1e-9) &&
           long_side <= brute->job->shop.aspect_limit * short_side + 1e-9 &&
           duct->flow / size_area(size) <= velocity_limit(duct->run) * (1 + 1e-9) &&
           friction <= 0.15 * PER_100_FT * (1 + 1e-9);
}

static bool is_open(const struct duct *duct) {
    return !duct->fixed && !duct->leg_start;
}

static void list_sizes(struct brute *brute, struct duct *duct) {
    size_t *count = &brute->counts[duct->id];
    const struct shop *shop = &brute->job->shop;
    bool round = duct->size.shape == SHAPE_ROUND;
    size_t sides = round ? shop->round_sizes.count : shop->widths.count;
    for (size_t i = 0; i < sides; i++)
        for (size_t k = 0; k < (round ? 1 : sides); k++) {
            double width = round ? shop->round_sizes.at[i] : shop->widths.at[i];
            struct duct_size size = {duct->size.shape, width, round ? width : shop->widths.at[k]};
            if (within(brute, duct, size))
                brute->sizes[duct->id][(*count)++] = size;
        }
}

/* What a tap has: a wall that its hole can be cut into, a cone's being an inch wider than its run; half an inch of
 * metal on either side of it; and no more area than its trunk. */
enum { NOTHING, WALL, METAL, AREA };

static int what_it_has(const struct duct *duct) {
    const struct duct *trunk = duct->upstream;
    double hole = duct->size.height + tap_opening_of(duct->run->pieces.at[0], duct->size).across;
    if (hole > trunk->size.height + 1e-6)
        return NOTHING;
    if (hole + 2 * 0.5 * 0.0254 > trunk->size.height + 1e-6)
        return WALL;
    return size_area(duct->size) > size_area(trunk->size) * (1 + 1e-9) ? METAL : AREA;
}

static bool is_tap(const struct duct *duct) {
    return duct->run->from.kind == PORT_TAP && duct == duct->run->first_duct;
}

/* False: some tap has no size that its wall holds, and gets one that is less than it needs (test_size_taps.c). */
static bool find_room(struct brute *brute) {
    bool all = true;
    for (size_t i = 0; i < brute->network->ducts.count; i++) {
        struct duct *duct = brute->network->ducts.at[i];
        if (!is_tap(duct) || !is_open(duct->upstream))
            continue;
        for (size_t k = 0; k < brute->counts[duct->upstream->id]; k++)
            for (size_t m = 0; m < brute->counts[i]; m++) {
                duct->upstream->size = brute->sizes[duct->upstream->id][k];
                duct->size = brute->sizes[i][m];
                int has = what_it_has(duct);
                brute->most[i] = has > brute->most[i] ? has : brute->most[i];
            }
        all &= brute->most[i] >= METAL;
    }
    return all;
}

/* Lays one choice out, away from the unit. */
static bool lay_out(const struct brute *brute, const size_t *at) {
    for (size_t i = 0; i < brute->network->ducts.count; i++) {
        struct duct *duct = brute->network->ducts.at[i];
        const struct duct *ahead = duct->upstream;
        if (duct->leg_start && !duct->fixed)
            duct->size = sizing_leg_size(brute->job->catalogue, duct);
        if (!is_open(duct))
            continue;
        duct->size = brute->sizes[i][at[i]];
        if (ahead && ahead->run == duct->run && is_open(ahead) &&
            size_area(duct->size) > size_area(ahead->size) * (1 + 1e-9))
            return false;
        int must = brute->most[i] < brute->taps ? brute->most[i] : brute->taps;
        if (must > NOTHING && what_it_has(duct) < must)
            return false;
    }
    return true;
}

static bool next_choice(const struct brute *brute, size_t *at) {
    for (size_t i = 0; i < brute->network->ducts.count; i++) {
        if (!is_open(brute->network->ducts.at[i]))
            continue;
        if (++at[i] < brute->counts[i])
            return true;
        at[i] = 0;
    }
    return false;
}

/* False: no choice holds all limits, whatever it loses. */
static bool try_all(struct brute *brute) {
    size_t at[DUCTS] = {0};
    bool some = false;
    brute->cheapest = INFINITY;
    brute->least = -INFINITY;
    do {
        if (!lay_out(brute, at))
            continue;
        some = true;
        air_losses(brute->network, &brute->job->air);
        air_budget(brute->network, &brute->job->air, NULL, MEASURE_US);
        brute->least = fmax(brute->least, brute->network->surplus);
        if (brute->network->surplus >= 0)
            brute->cheapest = fmin(brute->cheapest, wall_cost_sum(&brute->cost, brute->network));
    } while (next_choice(brute, at));
    return some;
}

/* The number of choices; 0: some duct has no size that is enough, or too many of them. */
static double prepare(struct brute *brute, struct compiled *compiled) {
    double tries = 1;
    brute->job = (struct job *)compiled->job;
    brute->network = (struct network *)compiled_network(compiled);
    if (brute->network->ducts.count > DUCTS)
        return 0;
    brute->cost = wall_cost_make(brute->job, brute->network, brute->job->arena);
    for (size_t i = 0; i < brute->network->ducts.count; i++) {
        if (!is_open(brute->network->ducts.at[i]))
            continue;
        list_sizes(brute, brute->network->ducts.at[i]);
        tries *= (double)brute->counts[i];
    }
    return !find_room(brute) || tries > TRIES ? 0 : tries;
}

static void try_with_and_without_room(struct brute *brute) {
    bool some = false;
    for (brute->taps = AREA; brute->taps >= WALL; brute->taps--) {
        some = try_all(brute);
        if (some && !isinf(brute->cheapest))
            return;
    }
    brute->taps = NOTHING;
    assert_true(some || try_all(brute));
}

/* Pa that the sizes ask of the blower; where they are not enough, that the best ask. */
static double network_need(double pascals, const struct size_search *search, double need) {
    return search->met ? need : pascals + search->short_by;
}

/* What the search found in `system` at that pressure, against all choices.  Gives the pressure that the system then
 * needs, Pa; 0: it was too large to try. */
static double hold_against_all(const char *system, int flow, double pascals, int *met) {
    struct compiled found = compile_at(system, flow, pascals);
    const struct network *network = compiled_network(&found);
    struct size_search search = network->search;
    double cost = network->walls_cost, surplus = network->surplus, need = network->blower_pressure - surplus;
    struct brute brute = {.taps = AREA};
    assert_true(search.made && search.left_out == 0);
    if (prepare(&brute, &found) > 0) {
        try_with_and_without_room(&brute);
        bool same = search.met ? fabs(cost - brute.cheapest) <= 1e-9 * cost && surplus >= 0 &&
                                     search.bound <= cost * (1 + 1e-12)
                               : isinf(brute.cheapest) && fabs(-search.short_by - brute.least) < 1e-6;
        if (!same)
            fail_msg("seed %llu: met %d, cost %.9g, surplus %.9g; of all: cost %.9g, surplus %.9g\n%s",
                     (unsigned long long)seed, search.met, cost, surplus, brute.cheapest, brute.least, found.text);
        if (search.met)
            assert_near(search.bound, cost, 1e-9 * cost);
        need = network_need(pascals, &search, need);
        *met += search.met;
    } else {
        need = 0;
    }
    compiled_free(&found);
    return need;
}

static void nothing_is_cheaper_in_hundreds_of_small_systems(void **state) {
    (void)state;
    int tried = 0, met = 0, unmet = 0;
    for (int i = 0; i < 500 && tried < 200; i++) {
        int flow, easy = 0, none = 0, between = 0;
        char *system = random_system(&flow);
        double most = hold_against_all(system, flow, 900, &easy);
        if (most > 0) {
            double least = hold_against_all(system, flow, 0.5, &none);
            assert_true(easy == 1 && none == 0 && least <= most + 1e-6);
            hold_against_all(system, flow, least + random_between(-0.05, 1) * (most - least), &between);
            met += between;
            unmet += !between;
            tried++;
        }
        free(system);
    }
    assert_true(tried >= 120 && met > 50 && unmet > 0);
    print_message("%d systems\n", tried);
}

/* ---- A large system ---------------------------------------------------------------------------------------------- */

/* One trunk of 12 stretches with a branch trunk at each, of 4 stretches with two outlets each: too much for brute
 * force, and for staircases without thinning. */
static char *large_system(void) {
    char *text = NULL;
    size_t length = 0;
    FILE *out = open_memstream(&text, &length);
    fprintf(out, "run trunk from fan.supply { ");
    for (int i = 0; i < 12; i++)
        fprintf(out, "%sstraight 12 ft; ", i ? "transition over 12 in; " : "");
    fprintf(out, "cap }\n");
    for (int i = 0; i < 12; i++) {
        fprintf(out, "run side%d from trunk at %d ft %s { ", i, 5 + 13 * i, i % 2 ? "left" : "right");
        for (int k = 0; k < 4; k++)
            fprintf(out, "%sstraight 12 ft; ", k ? "transition over 12 in; " : "");
        fprintf(out, "cap }\n");
        for (int k = 0; k < 8; k++)
            fprintf(out, "outlet o%d_%d from side%d at %d ft %s { airflow %d cfm; flex %d ft; register 8 x 6 }\n", i, k,
                    i, 3 + 5 * (k % 2) + 13 * (k / 2), k % 2 ? "left" : "right", 40 + 7 * ((i + k) % 5),
                    4 + (3 * i + k) % 9);
    }
    fprintf(out, "inlet hall from fan.return { straight 2 ft; grille 60 x 40 }\n");
    fclose(out);
    return text;
}

/* The bound lies under the cost, near it, and more pressure never makes it dearer than what the bound then was. */
static void a_large_system_is_known_to_a_few_per_cent(void **state) {
    (void)state;
    char *system = large_system();
    double before = INFINITY;
    bool thinned = false;
    for (double pressure = 0.25; pressure < 0.45; pressure += 0.05) {
        struct compiled job = compiled_until(
            "size", "job \"T\" { sizing least-cost }\nunit fan { airflow 5136 cfm; blower 5136 cfm at %.2f in.wg }\n%s",
            pressure, system);
        const struct network *network = compiled_network(&job);
        double cost = network->walls_cost, bound = network->search.bound;
        if (!network->search.met) {
            compiled_free(&job);
            continue;
        }
        assert_true(network->surplus >= 0);
        assert_true(bound <= cost && cost - bound < 0.03 * cost);
        assert_true(bound <= before);
        thinned |= network->search.resolution > 0 && bound < cost;
        before = cost;
        compiled_free(&job);
    }
    assert_true(thinned);
    free(system);
}

/* ---- What is counted --------------------------------------------------------------------------------------------- */

/* 10 ft of 8 in pipe with an elbow of radius 1.5, wrapped, and 12 ft of flexible duct, by hand. */
static void walls_cost_their_area_at_the_shops_prices(void **state) {
    (void)state;
    struct compiled job = compiled_until(
        "size", "shop \"S\" { sizes round 8; stock 48 x 120, gauge 26, price 50 per sheet; stock 48 x 96, gauge "
                "26, price 30 per sheet\n"
                "price duct_wrap 0.70 per ft2 }\n"
                "job \"T\" { sizing least-cost; pressure-class 1 in.wg; shape round }\n"
                "unit fan { airflow 200 cfm; blower 200 cfm at 0.9 in.wg; supply 8 round; return 14 x 8 }\n"
                "run trunk from fan.supply { insulation R-6; straight 10 ft; elbow 90 left, radius 1.5 }\n"
                "outlet o from trunk { airflow 200 cfm; insulation R-0; flex 12 ft; register 10 x 6 }\n"
                "inlet hall from fan.return { shape rectangular; straight 2 ft; grille 14 x 8 }\n");
    const struct network *network = compiled_network(&job);
    double round = 3.14159265358979 * 8 / 12;                    /* ft of girth */
    double pipe = (10 + 1.5707963267949 * 1.5 * 8 / 12) * round; /* ft2 with the bend's arc */
    double flexible = 12 * round, box = 2 * 2 * (14 + 8) / 12.0; /* ft2 */
    double sheet = 30.0 / 32, light = sheet * 0.656 / 0.906; /* a ft2: the dearer sheet is larger, but dearer by area */
    double heavy = sheet * 1.156 / 0.906; /* 24 gauge by weight: 14 in is over the 26 of 1 in. w.g. */
    int gauge = job.job->worth->gauge_of(job.job, compiled_run(&job, "hall"),
                                         (struct duct_size){SHAPE_RECTANGULAR, 14 * 0.0254, 8 * 0.0254});
    assert_true(gauge == 24 || gauge == 26);
    double cost = pipe * (sheet + 0.70) + flexible * light + box * (gauge == 24 ? heavy : sheet);
    assert_true(network->walls_in_money);
    assert_near(network->walls_area / (0.3048 * 0.3048), pipe + flexible + box, 1e-3);
    assert_near(network->walls_cost, cost, cost * 1e-3);
    compiled_free(&job);
}

/* 24 gauge of each, by what its own sheet costs: galvanised 40 in 32 ft2, aluminium 96 in 32 ft2.  No price of its
 * material: by the weight of one that is priced. */
static double worth_of(const char *stock, enum material material) {
    struct compiled job = compiled_until("size",
                                         "shop \"S\" { stock 48 x 96, gauge 24, price 40 per sheet%s }\n"
                                         "job \"T\" { sizing least-cost }\n"
                                         "unit fan { airflow 200 cfm; blower 200 cfm at 0.9 in.wg }\n"
                                         "outlet o from fan.supply { airflow 200 cfm; straight 9 ft; register 10 x 6 "
                                         "}\n"
                                         "inlet hall from fan.return { straight 2 ft; grille 14 x 8 }\n",
                                         stock);
    double worth = job.job->worth->gauge[material][24] * (0.3048 * 0.3048);
    compiled_free(&job);
    return worth;
}

static void a_wall_costs_what_its_own_material_does(void **state) {
    (void)state;
    const char *both = "; stock 48 x 96, aluminium, gauge 24, price 96 per sheet";
    /* lb/ft2: the gauge table's galvanised 24, and 14.2 lb/ft2 for an inch of aluminium. */
    double pounds = 1.156, light = 0.0276 * 14.2;
    assert_near(worth_of("", MATERIAL_GALVANISED), 40.0 / 32, 1e-6);
    assert_near(worth_of("", MATERIAL_ALUMINIUM), 40.0 / 32 * light / pounds, 1e-6);
    assert_near(worth_of(both, MATERIAL_GALVANISED), 40.0 / 32, 1e-6);
    assert_near(worth_of(both, MATERIAL_ALUMINIUM), 96.0 / 32, 1e-6);
}

/* ---- What it says ------------------------------------------------------------------------------------------------ */

static void a_budget_that_no_sizes_meet_is_an_error(void **state) {
    (void)state;
    struct compiled job =
        compiled_text("job \"T\" { sizing least-cost }\n"
                      "unit fan { airflow 200 cfm; blower 200 cfm at 0.04 in.wg }\n"
                      "run trunk from fan.supply { straight 40 ft; cap }\n"
                      "outlet o from trunk at 30 ft left { airflow 200 cfm; flex 12 ft; register 10 x 6 }\n"
                      "inlet hall from fan.return { straight 2 ft; grille 24 x 14 }\n");
    const struct diagnostic *said = compiled_said(&job, "budget", NULL, 0);
    assert_false(compiled_network(&job)->search.met);
    assert_non_null(said);
    const char *note = said->related.at[said->related.count - 1].message;
    assert_non_null(strstr(note, "no standard sizes within the limits are enough: the best are short by 0.0"));
    compiled_free(&job);
}

/* 1200 cfm in 6 in of height: over 900 fpm in anything of less than 192 in2. */
static void a_limit_that_leaves_no_size_is_named(void **state) {
    (void)state;
    struct compiled job =
        compiled_text("job \"T\" { sizing least-cost }\n"
                      "unit fan { blower 1200 cfm at 0.9 in.wg; supply 18 x 14; return 30 x 14 }\n"
                      "run trunk from fan.supply { limit height 6 in; transition over 1 ft; straight 20 ft }\n"
                      "outlet a from trunk { airflow 1200 cfm; size 20 x 14; register 24 x 20 }\n"
                      "inlet hall from fan.return { straight 4 ft; grille 36 x 30 }\n");
    const struct diagnostic *said = compiled_said(&job, "size", "trunk", 0);
    assert_non_null(said);
    assert_non_null(strstr(said->message, "the height limit of 6 in"));
    assert_int_equal(compiled_run(&job, "trunk")->last_section->duct->reason, SIZE_LIMITED);
    compiled_free(&job);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup(nothing_is_cheaper_in_hundreds_of_small_systems, seed_random),
        cmocka_unit_test(a_large_system_is_known_to_a_few_per_cent),
        cmocka_unit_test(walls_cost_their_area_at_the_shops_prices),
        cmocka_unit_test(a_wall_costs_what_its_own_material_does),
        cmocka_unit_test(a_budget_that_no_sizes_meet_is_an_error),
        cmocka_unit_test(a_limit_that_leaves_no_size_is_named),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
