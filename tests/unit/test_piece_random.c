/* Every kind of piece, in any duct and air: the loss is a number, nothing stands still at a cost, and what is twice the
 * air costs four times as much. */
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <setjmp.h>
#include <cmocka.h>

#include "piece_bench.h"
#include "random.h"

static const char *const lines[] = {
    "straight 16 ft",
    "elbow 90 left, radius 0.75",
    "elbow 37 up, square",
    "elbow 90 down, square, vanes",
    "elbow 60 right, vanes",
    "elbow 90 left, pieces 3",
    "elbow 90 left to 14 x 8",
    "elbow 45 up to 30 x 4, radius 0.5, vanes",
    "elbow 90 down to 10 x 22, square",
    "offset 8 in left over 24 in",
    "offset 8 in up over 24 in, ogee",
    "transition over 18 in",
    "transition to 14 x 8 over 1 in, flat top",
    "transition over 18 in, flat bottom-right",
    "transition over 18 in, flat left, up 4 in",
    "transition over 6 in, left 40 in, down 9 in, turned 40",
    "transition over 30 in, turned -90",
    "boot straight over 6 in, left 4 in",
    "split wye over 24 in",
    "split tee",
    "split bullhead, vanes",
    "tap",
    "tap shoe",
    "tap conical",
    "flex 9 ft, bends 2",
    "connector 4 in",
    "damper",
    "damper volume, open 35",
    "damper backdraft",
    "boot",
    "boot straight over 6 in",
    "box 20 x 20 x 24",
    "cap",
    "drop \"coil\" 0.22 in.wg at 900 cfm",
    "register 10 x 6, 0.03 in.wg at 140 cfm",
    "grille 20 x 14",
    "filter 20 x 25 x 1",
};
enum { LINES = sizeof lines / sizeof *lines };

static struct duct_size random_size(void) {
    struct duct_size size = {.shape = (enum shape)(int)random_between(0, SHAPE_COUNT - 1e-9)};
    size.width = random_between(2, 40) * INCH;
    size.height = size.shape == SHAPE_ROUND ? size.width : random_between(2, 40) * INCH;
    return size;
}

static struct piece_flow random_flow(const struct piece_bench *bench, const struct piece *piece) {
    struct stream common = {random_size(), random_between(20, 4000) * CFM};
    struct stream branch = {random_size(), common.flow * random_between(0, 1)};
    struct stream through = {random_size(), common.flow - branch.flow};
    static const enum item_role roles[] = {ITEM_PIECE, ITEM_BRANCH, ITEM_PAST, ITEM_LEG, ITEM_CONNECT};
    struct piece_flow flow = flow_through(bench, piece, random_between(0, 1) < 0.5, common, common);
    flow.role = roles[(int)random_between(0, 5 - 1e-9)];
    flow.leg = (enum leg)(int)random_between(0, LEG_COUNT - 1e-9);
    flow.far.size = random_size();
    flow.length = piece->length;
    flow.common = common;
    flow.branch = branch;
    flow.through = through;
    return flow;
}

/* Adds up, and is a number. */
static void assert_whole(const char *line, const struct loss *loss) {
    double sum = loss->coefficient * loss->reference + loss->friction;
    bool finite = isfinite(loss->pressure) && isfinite(loss->friction) && isfinite(loss->coefficient) &&
                  isfinite(loss->reference);
    if (!finite || loss->friction < 0 || loss->reference < 0)
        fail_msg("seed %llu: %s: no loss that can be", (unsigned long long)seed, line);
    if (loss->reference_name && !(fabs(loss->pressure - sum) <= 1e-9 * (1 + fabs(sum))))
        fail_msg("seed %llu: %s: %g is not %g", (unsigned long long)seed, line, loss->pressure, sum);
    if (loss->reference_name && (loss->source == SOURCE_NONE || !source_of(loss->source)->method))
        fail_msg("seed %llu: %s: a coefficient from nowhere", (unsigned long long)seed, line);
}

static void losses_are_numbers_that_add_up(void **state) {
    struct piece_bench *bench = *state;
    for (size_t i = 0; i < LINES; i++) {
        const struct piece *piece = sound_piece(bench, lines[i]);
        for (int n = 0; n < 2000; n++) {
            struct piece_flow flow = random_flow(bench, piece);
            struct loss loss = loss_of(&flow);
            assert_whole(lines[i], &loss);
        }
    }
}

/* The coefficients depend on how the air divides, not on how much of it there is; but those of elbows fall with the
 * Reynolds number, by less than half for twice the air. */
static void twice_the_air_costs_four_times_as_much(void **state) {
    struct piece_bench *bench = *state;
    for (size_t i = 0; i < LINES; i++) {
        const struct piece *piece = sound_piece(bench, lines[i]);
        for (int n = 0; n < 500; n++) {
            struct piece_flow flow = random_flow(bench, piece);
            struct loss once = loss_of(&flow);
            double *flows[] = {&flow.near.flow, &flow.far.flow, &flow.common.flow, &flow.branch.flow,
                               &flow.through.flow};
            for (size_t f = 0; f < 5; f++)
                *flows[f] *= 2;
            struct loss twice = loss_of(&flow);
            double local = once.pressure - once.friction, doubled = twice.pressure - twice.friction;
            bool fixed = !once.reference_name && !(once.source == SOURCE_DECLARED_DROP && strstr(lines[i], " at "));
            double want = fixed ? local : 4 * local; /* a drop at the design airflow, whatever that is */
            bool falls = once.factor_source == SOURCE_ELBOW_REYNOLDS && doubled <= want && doubled >= want / 2;
            if (!falls && !(fabs(doubled - want) <= 1e-9 * (1 + fabs(want))))
                fail_msg("seed %llu: %s: %g, want %g", (unsigned long long)seed, lines[i], doubled, want);
        }
    }
}

static void still_air_and_ducts_without_a_size_cost_nothing(void **state) {
    struct piece_bench *bench = *state;
    for (size_t i = 0; i < LINES; i++) {
        const struct piece *piece = sound_piece(bench, lines[i]);
        for (int n = 0; n < 200; n++) {
            struct piece_flow flow = random_flow(bench, piece);
            struct piece_flow still = flow;
            still.near.flow = still.far.flow = still.common.flow = still.branch.flow = still.through.flow = 0;
            struct loss loss = loss_of(&still);
            assert_near(loss.pressure, 0, 0);
            assert_near(loss.friction, 0, 0);
            struct piece_flow shapeless = flow;
            shapeless.near.size = shapeless.far.size = shapeless.common.size = shapeless.branch.size =
                shapeless.through.size = (struct duct_size){0};
            loss = loss_of(&shapeless);
            assert_whole(lines[i], &loss);
            if (!piece->kind->face && strcmp(piece->kind->form.word, "drop") != 0)
                assert_near(loss.pressure, 0, 0);
        }
    }
}

#define test(name) cmocka_unit_test_setup_teardown(name, piece_bench_set_up, piece_bench_tear_down)

int main(void) {
    const struct CMUnitTest tests[] = {
        test(losses_are_numbers_that_add_up),
        test(twice_the_air_costs_four_times_as_much),
        test(still_air_and_ducts_without_a_size_cost_nothing),
    };
    return cmocka_run_group_tests(tests, seed_random, NULL);
}
