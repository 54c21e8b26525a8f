/* The operating point: against a system solved by scipy, and by what has to be true of any. */
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <setjmp.h>
#include <cmocka.h>

#include "csv.h"
#include "operate_proof.h"
#include "random.h"

/* ---- A system solved elsewhere ----------------------------------------------------------------------------------- */

/* An inch of water there: what makes (V/4005)^2 exact. */
static double inch_there(void) {
    double fpm = 4005 * FPM;
    return air_state(0).density / 2 * fpm * fpm;
}

struct wanted {
    char id[HAND_SECTIONS][8];
    double flow[HAND_SECTIONS], total, pressure;
};

static int by_id(const struct wanted *wanted, size_t count, const char *id) {
    for (size_t i = 0; i < count; i++)
        if (strcmp(wanted->id[i], id) == 0)
            return (int)i;
    return -1;
}

static void take_section(struct hand *hand, struct wanted *wanted, const struct csv *csv) {
    double height = csv_number(csv, "height_in") * INCH, width = csv_number(csv, "width_in") * INCH;
    struct hand_section section = {
        .supply = strcmp(csv_text(csv, "row"), "supply") == 0,
        .parent = by_id(wanted, hand->network.sections.count, csv_text(csv, "parent")),
        .length = csv_number(csv, "length_ft") * FOOT,
        .size = {height > 0 ? SHAPE_RECTANGULAR : SHAPE_ROUND, width, height > 0 ? height : width},
        .roughness = csv_number(csv, "eps_ft") * FOOT,
        .multiplier = csv_number(csv, "multiplier"),
        .coefficient = csv_number(csv, "C"),
        .pressure = csv_number(csv, "pressure_inwg") * inch_there(),
        .flow = csv_number(csv, "at_cfm") * CFM,
    };
    int i = hand_add(hand, &section);
    snprintf(wanted->id[i], sizeof wanted->id[i], "%s", csv_text(csv, "id"));
    wanted->flow[i] = csv_number(csv, "cfm") * CFM;
}

static void take_row(struct hand *hand, struct wanted *wanted, const struct csv *csv) {
    const char *row = csv_text(csv, "row");
    double pressure = csv_number(csv, "pressure_inwg") * inch_there(), flow = csv_number(csv, "at_cfm") * CFM;
    if (strcmp(row, "blower") == 0) {
        hand->blower[hand->unit.blower.count++] = (struct blower_point){.flow = flow, .pressure = pressure};
    } else if (strcmp(row, "component") == 0) {
        hand->drops[hand->unit.drops.count++] = (struct drop){.pressure = pressure, .flow = flow};
    } else if (strcmp(row, "answer") == 0) {
        wanted->total = csv_number(csv, "cfm") * CFM;
        wanted->pressure = pressure;
    } else {
        take_section(hand, wanted, csv);
    }
}

static void a_system_of_seven_outlets_flows_as_scipy_says(void **state) {
    (void)state;
    static struct hand hand;
    struct wanted wanted = {0};
    struct csv csv;
    hand_begin(&hand);
    csv_open(&csv, "tests/reference/network.csv");
    while (csv_next(&csv))
        take_row(&hand, &wanted, &csv);
    csv_close(&csv);
    assert_int_equal(hand.network.sections.count, 13);
    const struct operation *operation = hand_operate(&hand);
    assert_non_null(operation);
    assert_int_equal(operation->dampers_open.outcome, OPERATES);
    assert_near(operation->dampers_open.flow, wanted.total, 1e-6 * wanted.total);
    assert_near(operation->dampers_open.pressure, wanted.pressure, 1e-6 * wanted.pressure);
    for (size_t i = 0; i < hand.network.sections.count; i++)
        assert_near(operation->dampers_open.sections[i], wanted.flow[i], 1e-6 * wanted.flow[i]);
    assert_true(operation->dampers_open.closure <= CLOSES);
    assert_true(operation->dampers_open.steps <= 12);
    hand_end(&hand);
}

/* ---- What has to be true of any network -------------------------------------------------------------------------- */

/* What a random job is made of; the text is made of it, so that one thing can be changed and all else kept. */
enum { OUTLETS_MOST = 8 };
struct plan {
    int outlets, style[OUTLETS_MOST], open[OUTLETS_MOST];
    double flow[OUTLETS_MOST], flex[OUTLETS_MOST], gap, curve;
    bool split, damped[OUTLETS_MOST];
};

static struct plan random_plan(void) {
    struct plan plan = {.outlets = 1 + random_below(OUTLETS_MOST), .gap = random_between(2, 6), .curve = 1};
    plan.split = plan.outlets > 3 && random_chance(0.5);
    for (int i = 0; i < plan.outlets; i++) {
        plan.style[i] = random_below(4);
        plan.flow[i] = floor(random_between(60, 260));
        plan.flex[i] = floor(random_between(3, 25));
        plan.damped[i] = random_chance(0.8);
        plan.open[i] = 40 + random_below(50);
    }
    return plan;
}

static void write_outlet(FILE *out, const struct plan *plan, int i, const char *run, int place) {
    static const char *const styles[] = {"straight", "shoe", "conical", "saddle"};
    fprintf(out, "outlet o%d from %s at %.2f ft %s { airflow %.0f cfm; tap %s; ", i, run, 4 + plan->gap * place,
            i % 2 ? "left" : "right", plan->flow[i], styles[plan->style[i]]);
    if (plan->damped[i])
        fprintf(out, "damper volume, open %d; ", plan->open[i]);
    fprintf(out, "flex %.0f ft; boot; register 12 x 6, 0.03 in.wg at 140 cfm }\n", plan->flex[i]);
}

static struct compiled compile_plan(const struct plan *plan) {
    char *text = NULL;
    size_t length = 0;
    FILE *out = open_memstream(&text, &length);
    assert_non_null(out);
    double flow = 0;
    for (int i = 0; i < plan->outlets; i++)
        flow += plan->flow[i];
    fprintf(out, "job \"R\" { date 2026-01-05; friction 0.08 in.wg/100ft }\nunit u { blower");
    static const double flows[] = {0.2, 0.7, 1, 1.4, 2.2}, pressures[] = {2.2, 2.0, 1.6, 1.0, 0.02};
    for (int i = 0; i < 5; i++)
        fprintf(out, "%s %.3f cfm at %.4f in.wg", i ? "," : "", flow * flows[i], pressures[i] * plan->curve);
    fprintf(out, "; drop \"coil\" 0.2 in.wg }\n");
    double end = 4 + plan->gap * (plan->outlets + 1);
    int on_left = plan->split ? plan->outlets / 2 : plan->outlets;
    if (plan->split)
        fprintf(out,
                "run p from u.supply { straight 3 ft; split wye over 2 ft }\n"
                "run a from p.left { transition over 2 ft; straight %.2f ft; cap }\n"
                "run b from p.right { transition over 2 ft; straight %.2f ft; cap }\n",
                end, end);
    else
        fprintf(out, "run a from u.supply { straight %.2f ft; cap }\n", end);
    for (int i = 0; i < plan->outlets; i++)
        write_outlet(out, plan, i, i < on_left ? "a" : "b", i < on_left ? i : i - on_left);
    fprintf(out,
            "run r from u.return { straight 6 ft; elbow 90 left; straight 9 ft }\n"
            "inlet i1 from r at 4 ft left { airflow %.2f cfm; straight 5 ft; grille 24 x 14, 0.03 in.wg at 400 cfm }\n"
            "inlet i2 from r { grille 30 x 20, 0.03 in.wg at 600 cfm }\n",
            flow * 0.4);
    fclose(out);
    struct compiled compiled = compiled_until("operate", "%s", text);
    free(text);
    return compiled;
}

static double flow_of_outlet(const struct compiled *compiled, int i) {
    char name[8];
    snprintf(name, sizeof name, "o%d", i);
    return flow_of_named(compiled, name);
}

static void every_path_closes_and_no_air_is_lost(void **state) {
    (void)state;
    for (int round = 0; round < 120; round++) {
        struct plan plan = random_plan();
        struct compiled compiled = compile_plan(&plan);
        const struct operation *operation = operation_of(&compiled);
        if (operation->dampers_open.outcome != OPERATES)
            fail_msg("outcome %d of:\n%s", operation->dampers_open.outcome, compiled.text);
        assert_continuous(compiled_network(&compiled), &operation->dampers_open);
        assert_closes(&compiled, &operation->dampers_open);
        assert_true(operation->dampers_open.closure <= CLOSES && operation->dampers_open.steps <= 12);
        assert_true(operation->balanced.outcome == OPERATES && operation->balanced.closure <= CLOSES);
        assert_continuous(compiled_network(&compiled), &operation->balanced);
        compiled_free(&compiled);
    }
}

static void opening_a_damper_brings_its_outlet_more(void **state) {
    (void)state;
    for (int round = 0; round < 60; round++) {
        struct plan plan = random_plan();
        int which = random_below(plan.outlets);
        plan.damped[which] = true;
        struct compiled before = compile_plan(&plan);
        double least = flow_of_outlet(&before, which);
        plan.open[which] = 90;
        struct compiled after = compile_plan(&plan);
        if (!(flow_of_outlet(&after, which) > least))
            fail_msg("%.9f m3/s, and open %.9f, to o%d of:\n%s", least, flow_of_outlet(&after, which), which,
                     after.text);
        compiled_free(&before);
        compiled_free(&after);
    }
}

static void a_stronger_blower_moves_more_to_every_outlet(void **state) {
    (void)state;
    for (int round = 0; round < 30; round++) {
        struct plan plan = random_plan();
        struct compiled before = compile_plan(&plan);
        plan.curve = 1.15;
        struct compiled after = compile_plan(&plan);
        for (int i = 0; i < plan.outlets; i++)
            assert_true(flow_of_outlet(&after, i) > flow_of_outlet(&before, i));
        compiled_free(&before);
        compiled_free(&after);
    }
}

/* With the same air, a blower of s times the flow and s squared times the pressure moves s times the air through what
 * goes with the square alone. */
static void without_friction_all_airflows_go_with_the_blowers(void **state) {
    (void)state;
    static struct hand hand;
    const double scale = 1.37;
    double flows[HAND_SECTIONS] = {0};
    for (int round = 0; round < 2; round++) {
        double s = round ? scale : 1;
        hand_begin(&hand);
        for (int i = 0; i < 4; i++)
            hand.blower[hand.unit.blower.count++] =
                (struct blower_point){.flow = s * 0.2 * (i + 1), .pressure = s * s * (210 - 45.0 * i)};
        struct hand_section trunk = {
            .supply = true, .parent = -1, .size = {SHAPE_ROUND, 0.3, 0.3}, .multiplier = 1, .coefficient = 0.7};
        int top = hand_add(&hand, &trunk);
        for (int i = 0; i < 4; i++)
            hand_add(&hand, &(struct hand_section){.supply = true,
                                                   .parent = top,
                                                   .size = {SHAPE_ROUND, 0.16, 0.16},
                                                   .multiplier = 1,
                                                   .coefficient = 1.1 + 0.3 * i,
                                                   .pressure = 8,
                                                   .flow = 0.08});
        trunk.supply = false;
        trunk.flow = 0.4;
        trunk.pressure = 10;
        hand_add(&hand, &trunk);
        const struct operation *operation = hand_operate(&hand);
        assert_int_equal(operation->dampers_open.outcome, OPERATES);
        for (size_t i = 0; i < hand.network.sections.count; i++) {
            if (round)
                assert_near(operation->dampers_open.sections[i], scale * flows[i], 1e-9);
            flows[i] = operation->dampers_open.sections[i];
        }
        hand_end(&hand);
    }
}

/* ---- The balance ------------------------------------------------------------------------------------------------- */

static void set_dampers_give_every_outlet_one_share(void **state) {
    (void)state;
    size_t blades = 0;
    for (int round = 0; round < 40; round++) {
        struct plan plan = random_plan();
        struct compiled compiled = compile_plan(&plan);
        const struct operation *operation = operation_of(&compiled);
        const struct network *network = compiled_network(&compiled);
        size_t open = 0;
        for (size_t i = 0; i < network->supply_paths.count; i++) {
            const struct damper_setting *setting = &operation->supply_settings[i];
            double share = operating_flow(&operation->balanced, &network->supply_paths.at[i]) /
                           network->supply_paths.at[i].end->flow;
            open += setting->kind == SETTING_OPEN;
            blades += setting->kind == SETTING_BLADE;
            if (setting->kind == SETTING_BLADE)
                assert_near(share, operation->share, 2e-4 * operation->share);
            if (setting->kind == SETTING_NO_DAMPER)
                assert_true(share > operation->share);
        }
        assert_true(open > 0);
        compiled_free(&compiled);
    }
    assert_true(blades >= 10);
}

/* The blades that were found, written into the job, bring what was foretold. */
static void the_settings_can_be_typed_in(void **state) {
    (void)state;
    size_t blades = 0;
    for (int round = 0; round < 20; round++) {
        struct plan plan = random_plan();
        for (int i = 0; i < plan.outlets; i++)
            plan.damped[i] = true;
        struct compiled found = compile_plan(&plan);
        const struct operation *operation = operation_of(&found);
        struct plan set = plan;
        for (int i = 0; i < plan.outlets; i++) {
            set.open[i] = 90 - (int)(operation->supply_settings[i].blade / DEGREE + 0.5);
            blades += operation->supply_settings[i].kind == SETTING_BLADE;
        }
        struct compiled again = compile_plan(&set);
        /* Blades to a whole degree: within a few percent. */
        for (int i = 0; i < plan.outlets; i++)
            assert_near(flow_of_outlet(&again, i),
                        operating_flow(&operation->balanced, &compiled_network(&found)->supply_paths.at[i]),
                        0.06 * plan.flow[i] * CFM);
        compiled_free(&found);
        compiled_free(&again);
    }
    assert_true(blades >= 10);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_system_of_seven_outlets_flows_as_scipy_says),
        cmocka_unit_test(every_path_closes_and_no_air_is_lost),
        cmocka_unit_test(opening_a_damper_brings_its_outlet_more),
        cmocka_unit_test(a_stronger_blower_moves_more_to_every_outlet),
        cmocka_unit_test(without_friction_all_airflows_go_with_the_blowers),
        cmocka_unit_test(set_dampers_give_every_outlet_one_share),
        cmocka_unit_test(the_settings_can_be_typed_in),
    };
    return cmocka_run_group_tests(tests, seed_random, NULL);
}
