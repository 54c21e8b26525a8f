/* Taps have room: whatever the method, no trunk is too small for what is tapped into it, unless a limit is named. */
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <setjmp.h>
#include <cmocka.h>
#include <math.h>

#include "air/air.h"
#include "compiled.h"
#include "near.h"
#include "model/taps.h"
#include "size/limits.h"
#include "size/size.h"
#include "standard_size.h"

#define INCH 0.0254

/* ---- Random trees ------------------------------------------------------------------------------------------------ */

/* Marsaglia's xorshift, 64 bit (from memory: Journal of Statistical Software 8, 2003). */
static unsigned roll(uint64_t *seed, unsigned sides) {
    *seed ^= *seed << 13;
    *seed ^= *seed >> 7;
    *seed ^= *seed << 17;
    return (unsigned)((*seed >> 33) % sides);
}

static const char *pick(uint64_t *seed, const char *const *words, unsigned count) {
    return words[roll(seed, count)];
}

static const char *const sides[] = {"left", "right", "top", "bottom"};
static const char *const shapes[] = {"", "", "", "shape rectangular", "shape round", "shape oval"};
static const char *const taps[] = {"", "", "tap straight", "tap conical", "tap shoe"};

static void write_limits(FILE *out, uint64_t *seed) {
    if (roll(seed, 3) == 0)
        fprintf(out, "limit height %u in; ", 6 + roll(seed, 12));
    if (roll(seed, 6) == 0)
        fprintf(out, "limit width %u in; ", 8 + roll(seed, 12));
    if (roll(seed, 5) == 0)
        fprintf(out, "lining 1 in; ");
}

/* A conical tap is round; what is lined or rectangular has none. */
static void write_outlet(FILE *out, uint64_t *seed, const char *parent, unsigned number, unsigned at) {
    fprintf(out, "outlet %s_%u from %s at %u ft %s { ", parent, number, parent, at, pick(seed, sides, 4));
    unsigned kind = roll(seed, 3);
    const char *shape = kind ? pick(seed, shapes, 6) : "", *tap = pick(seed, taps, 5);
    bool round = kind == 0 || strcmp(shape, "shape round") == 0 || !*shape;
    if (*shape)
        fprintf(out, "%s; ", shape);
    if (*tap && (round || strcmp(tap, "tap conical") != 0))
        fprintf(out, "%s; ", tap);
    fprintf(out, "airflow %u cfm; %s %u ft; boot; register 14 x 12 }\n", 40 + roll(seed, 500),
            kind ? "straight" : "flex", 4 + roll(seed, 8));
}

/* A trunk with reducing transitions, outlets, and now and then a smaller trunk tapped in.  `first`: what it begins
 * with. */
static void write_trunk(FILE *out, uint64_t *seed, const char *name, const char *from, const char *first) {
    unsigned parts = 1 + roll(seed, 3);
    fprintf(out, "run %s from %s { %s; %s\n", name, from, pick(seed, shapes, 6), first);
    write_limits(out, seed);
    for (unsigned i = 0; i < parts; i++)
        fprintf(out, "straight 19 ft%s", i + 1 < parts ? "; transition over 1 ft; " : " }\n");
    for (unsigned i = 0; i < parts; i++)
        for (unsigned k = 0; k < 1 + roll(seed, 2); k++)
            write_outlet(out, seed, name, 2 * i + k, 20 * i + 5 + 6 * k);
}

/* `collar`: the trunk goes on in the size of the unit's collar, which is as it comes. */
static char *random_tree(uint64_t *seed, const char *method, bool collar) {
    static const char *const change = "transition over 1 ft";
    char *text = NULL;
    size_t length = 0;
    FILE *out = open_memstream(&text, &length);
    assert_non_null(out);
    fprintf(out, "job \"Random\" { sizing %s }\n", method);
    fprintf(out, "unit fan { blower 10 cfm at 1 in.wg, 9000 cfm at 0.%u in.wg; ", 30 + roll(seed, 60));
    if (collar)
        fprintf(out, "supply %u x %u; return 40 x 30 }\n", 14 + roll(seed, 20), 6 + roll(seed, 10));
    else
        fprintf(out, "supply 30 x 24; return 40 x 30 }\n");
    write_trunk(out, seed, "trunk", "fan.supply", collar ? "straight 1 ft" : change);
    if (roll(seed, 2)) {
        char from[64];
        snprintf(from, sizeof from, "trunk at 16 ft %s", pick(seed, sides, 4));
        write_trunk(out, seed, "twig", from, change);
    }
    fprintf(out, "run back from fan.return { straight 8 ft }\ninlet hall from back { boot; grille 48 x 36 }\n");
    fclose(out);
    return text;
}

/* ---- What holds of each ------------------------------------------------------------------------------------------ */

static bool is_chosen(const struct duct *duct) {
    return !duct->fixed && !duct->leg_start;
}

/* Inches of metal that are left over, by the trade's rule written out once more: half an inch beside the opening on
 * either side. */
static double room_left(const struct run *run) {
    const struct duct *duct = run->first_duct, *trunk = duct->upstream;
    bool flat = run->from.side == SIDE_TOP || run->from.side == SIDE_BOTTOM;
    double across = (flat ? duct->size.width : duct->size.height) + 2 * duct->lining;
    double wall = (flat ? trunk->size.width : trunk->size.height) + 2 * trunk->lining;
    if (flat && trunk->size.shape == SHAPE_OVAL)
        wall -= trunk->size.height + 2 * trunk->lining;
    double more = tap_opening_of(run->pieces.at[0], duct->size).across; /* of a cone */
    return (wall - across - more) / INCH - 1;
}

struct tally {
    /* All; trunks with room for their sake; runouts that went flatter; smaller; limits named; holes wider than walls */
    int taps, larger, flatter, smaller, named, wider;
};

/* The whole job comes with it: cmocka cuts what it prints. */
static void fail_in(const struct compiled *job, const struct duct *duct, const char *wrong) {
    fputs(job->text, stderr);
    cleat_print_diagnostics(job->cleat, stderr, false, false);
    fail_msg("a duct of %s, %.0f x %.0f in, %s", duct->run->name, duct->size.width / INCH, duct->size.height / INCH,
             wrong);
}

/* Whether a standard size of the run's own shape is within its limits and the velocity limit of a supply duct, 900 fpm,
 * and has no less than `over` inches too little room: by trying all. */
static bool smaller_would_do(const struct compiled *job, const struct run *run, double over) {
    const struct shop *shop = &job->job->shop;
    struct duct_size size = run->first_duct->size;
    bool flat = run->from.side == SIDE_TOP || run->from.side == SIDE_BOTTOM;
    double around = 2 * run->first_duct->lining, high = run->settings.limit_height, wide = run->settings.limit_width;
    double across = (flat ? size.width : size.height) - over * INCH, least = run->first_duct->flow / (900 * 0.00508);
    size_t columns = size.shape == SHAPE_ROUND ? shop->round_sizes.count : shop->widths.count;
    size_t rows = size.shape == SHAPE_OVAL ? shop->oval_heights.count : columns;
    for (size_t i = 0; i < columns; i++) {
        for (size_t k = 0; k < rows; k++) {
            struct duct_size try = {size.shape, shop->widths.at[i], shop->widths.at[k]};
            if (size.shape == SHAPE_OVAL)
                try.height = shop->oval_heights.at[k];
            if (size.shape == SHAPE_ROUND)
                try.width = try.height = shop->round_sizes.at[i];
            bool within = (high <= 0 || try.height + around <= high) && (wide <= 0 || try.width + around <= wide);
            bool made = size.shape != SHAPE_OVAL || try.width > try.height;
            if (within && made && size_area(try) >= least && (flat ? try.width : try.height) <= across + 1e-6 &&
                (size.shape == SHAPE_ROUND || size_aspect(try) <= shop->aspect_limit))
                return true;
        }
    }
    return false;
}

/* What cannot be cut is an error that says why, and only where nothing smaller would have done. */
static void look_at_hole(const struct compiled *job, const struct run *run, struct tally *tally) {
    const struct duct *duct = run->first_duct;
    const struct diagnostic *said = compiled_said(job, "tap-fit", run->name, 0);
    const char *kept = run->tap_kept.dictated ? run->tap_kept.dictated : run->tap_kept.limit;
    if (compiled_network(job)->surplus < 0)
        return; /* the budget is the error, and sizes only stand in */
    tally->wider++;
    if (!(said && said->level == DIAGNOSTIC_ERROR))
        fail_in(job, duct, "has a hole wider than its wall, and that is no error");
    if (!kept || !said || !strstr(said->message, kept))
        fail_in(job, duct, "has a hole wider than its wall, and nobody says why");
    if (is_chosen(duct) && smaller_would_do(job, run, -room_left(run)))
        fail_in(job, duct, "has a hole wider than its wall, and a smaller one would do");
}

/* No trunk ends smaller than what leaves it, where nothing keeps it small. */
static void look_at_area(const struct compiled *job, const struct run *run) {
    const struct duct *duct = run->first_duct, *trunk = duct->upstream;
    const struct settings *settings = &trunk->run->settings;
    bool free = settings->limit_height <= 0 && settings->limit_width <= 0 && trunk->run->from.kind == PORT_UNIT;
    if (is_chosen(trunk) && is_chosen(duct) && free && size_area(duct->size) > size_area(trunk->size) * (1 + 1e-9))
        fail_in(job, duct, "is larger than what it is tapped into, which was free to be as large");
}

static void look_at_tap(const struct compiled *job, const struct run *run, struct tally *tally) {
    const struct duct *duct = run->first_duct, *trunk = duct->upstream;
    tally->taps++;
    tally->larger += trunk->reason == SIZE_TAP;
    tally->flatter += duct->reason == SIZE_TAP;
    tally->smaller += duct->reason == SIZE_WALL;
    look_at_area(job, run);
    if (room_left(run) < -1 - 1e-3)
        look_at_hole(job, run, tally);
    if (duct->reason == SIZE_WALL && duct->flow > size_area(duct->size) * 900 * 0.00508 * (1 + 1e-9))
        fail_in(job, duct, "was made so small that air is too fast in it");
    if (room_left(run) >= -1e-3 || !is_chosen(trunk) || !is_chosen(duct))
        return;
    tally->named += run->tap_kept.limit != NULL;
    const struct diagnostic *said = compiled_said(job, "tap-fit", run->name, 0);
    const char *kept = run->tap_kept.limit;
    bool stand_in = compiled_network(job)->surplus < 0;
    if (!kept || (!stand_in && !(said && strstr(said->message, kept) && said->related.count > 0)))
        fail_in(job, duct, "has a tap without room, and nobody says why");
}

static void look_at_duct(const struct compiled *job, const struct duct *duct) {
    const struct duct *upstream = duct->upstream;
    const struct settings *settings = &duct->run->settings;
    double round_it = 2 * duct->lining;
    const char *wrong = NULL;
    if (!is_chosen(duct))
        return;
    if (!is_standard(&job->job->shop, duct->size))
        wrong = "is not standard";
    if (upstream && upstream->run == duct->run && is_chosen(upstream) && upstream->size.shape == duct->size.shape &&
        size_area(duct->size) > size_area(upstream->size) * (1 + 1e-9))
        wrong = "grows away from the unit";
    if (duct->reason != SIZE_LIMITED && settings->limit_height > 0 &&
        duct->size.height + round_it > settings->limit_height + 1e-9)
        wrong = "is over its height limit";
    if (duct->reason != SIZE_LIMITED && settings->limit_width > 0 &&
        duct->size.width + round_it > settings->limit_width + 1e-9)
        wrong = "is over its width limit";
    if (duct->reason != SIZE_LIMITED && duct->size.shape != SHAPE_ROUND &&
        size_aspect(duct->size) > job->job->shop.aspect_limit + 1e-9)
        wrong = "is over the aspect limit";
    if (wrong)
        fail_in(job, duct, wrong);
}

static struct tally try_trees(const char *method, int count, bool collar) {
    struct tally tally = {0, 0, 0, 0, 0, 0};
    uint64_t seed = 20260611;
    for (int i = 0; i < count; i++) {
        char *text = random_tree(&seed, method, collar);
        struct compiled job = compiled_text("%s", text);
        const struct network *network = compiled_network(&job);
        for (size_t k = 0; k < network->ducts.count; k++) {
            const struct duct *duct = network->ducts.at[k];
            look_at_duct(&job, duct);
            if (duct_is_tapped(duct))
                look_at_tap(&job, duct->run, &tally);
        }
        /* Once; where the budget is short of what walls hold, with bare walls, without them, and back again. */
        assert_true(network->rounds <= 4 * 16);
        compiled_free(&job);
        free(text);
    }
    return tally;
}

enum { TREES = 30 };

/* The trees are such that each of the ways is taken; least cost has its own reason for what it takes. */
static void try_free(const char *method) {
    struct tally tally = try_trees(method, TREES, false);
    assert_true(tally.taps > 100 && tally.named > 0 && tally.named < tally.taps / 5);
    if (strcmp(method, "least-cost") != 0)
        assert_true(tally.larger > tally.taps / 5 && tally.flatter > 0);
}

static void try_collars(const char *method) {
    struct tally tally = try_trees(method, TREES, true);
    assert_true(tally.taps > 100 && tally.smaller > 0 && tally.wider > 0 && tally.wider < tally.taps / 5);
}

static void every_tap_has_room_or_a_limit_is_named(void **state) {
    (void)state;
    size_t count;
    const struct sizing_method *const *methods = sizing_methods(&count);
    for (size_t i = 0; i < count; i++)
        try_free(methods[i]->name);
}

static void every_tap_of_a_collars_trunk_can_be_cut_or_the_cause_is_named(void **state) {
    (void)state;
    size_t count;
    const struct sizing_method *const *methods = sizing_methods(&count);
    for (size_t i = 0; i < count; i++)
        try_collars(methods[i]->name);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(every_tap_has_room_or_a_limit_is_named),
        cmocka_unit_test(every_tap_of_a_collars_trunk_can_be_cut_or_the_cause_is_named),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
