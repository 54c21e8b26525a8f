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

/* A trunk with reducing transitions, outlets, and now and then a smaller trunk tapped in. */
static void write_trunk(FILE *out, uint64_t *seed, const char *name, const char *from, const char *also) {
    unsigned parts = 1 + roll(seed, 3);
    fprintf(out, "run %s from %s { %s; %s%stransition over 1 ft\n", name, from, pick(seed, shapes, 6), also,
            *also ? "; " : "");
    write_limits(out, seed);
    for (unsigned i = 0; i < parts; i++)
        fprintf(out, "straight 19 ft%s", i + 1 < parts ? "; transition over 1 ft; " : " }\n");
    for (unsigned i = 0; i < parts; i++)
        for (unsigned k = 0; k < 1 + roll(seed, 2); k++)
            write_outlet(out, seed, name, 2 * i + k, 20 * i + 5 + 6 * k);
}

static char *random_tree(uint64_t *seed, const char *method) {
    char *text = NULL;
    size_t length = 0;
    FILE *out = open_memstream(&text, &length);
    assert_non_null(out);
    fprintf(out, "job \"Random\" { sizing %s }\n", method);
    fprintf(out, "unit fan { blower 10 cfm at 1 in.wg, 9000 cfm at 0.%u in.wg; supply 30 x 24; return 40 x 30 }\n",
            30 + roll(seed, 60));
    write_trunk(out, seed, "trunk", "fan.supply", "");
    if (roll(seed, 2)) {
        char from[64];
        snprintf(from, sizeof from, "trunk at 16 ft %s", pick(seed, sides, 4));
        write_trunk(out, seed, "twig", from, "");
    }
    fprintf(out, "run back from fan.return { straight 8 ft }\ninlet hall from back { boot; grille 48 x 36 }\n");
    fclose(out);
    return text;
}

/* ---- What holds of each ------------------------------------------------------------------------------------------ */

static bool listed(const double *list, size_t count, double value) {
    for (size_t i = 0; i < count; i++)
        if (fabs(list[i] - value) < 1e-9)
            return true;
    return false;
}

static bool is_standard(const struct shop *shop, struct duct_size size) {
    if (size.shape == SHAPE_ROUND)
        return listed(shop->round_sizes.at, shop->round_sizes.count, size.width);
    const double *heights = size.shape == SHAPE_OVAL ? shop->oval_heights.at : shop->widths.at;
    size_t count = size.shape == SHAPE_OVAL ? shop->oval_heights.count : shop->widths.count;
    return listed(shop->widths.at, shop->widths.count, size.width) && listed(heights, count, size.height);
}

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
    int taps, larger, flatter, named; /* all; trunks with room for their sake; runouts that gave way; limits named */
};

/* The whole job comes with it: cmocka cuts what it prints. */
static void fail_in(const struct compiled *job, const struct duct *duct, const char *wrong) {
    fputs(job->text, stderr);
    cleat_print_diagnostics(job->cleat, stderr, false, false);
    fail_msg("a duct of %s, %.0f x %.0f in, %s", duct->run->name, duct->size.width / INCH, duct->size.height / INCH,
             wrong);
}

static void look_at_tap(const struct compiled *job, const struct run *run, struct tally *tally) {
    const struct duct *duct = run->first_duct, *trunk = duct->upstream;
    tally->taps++;
    tally->larger += trunk->reason == SIZE_TAP;
    tally->flatter += duct->reason == SIZE_TAP;
    if (room_left(run) >= -1e-3)
        return;
    if (!is_chosen(trunk) || !is_chosen(duct))
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

static void try_trees(const char *method, int count) {
    struct tally tally = {0, 0, 0, 0};
    uint64_t seed = 20260611;
    for (int i = 0; i < count; i++) {
        char *text = random_tree(&seed, method);
        struct compiled job = compiled_text("%s", text);
        const struct network *network = compiled_network(&job);
        for (size_t k = 0; k < network->ducts.count; k++) {
            const struct duct *duct = network->ducts.at[k];
            look_at_duct(&job, duct);
            if (duct_is_tapped(duct))
                look_at_tap(&job, duct->run, &tally);
        }
        assert_true(network->rounds <= 16);
        compiled_free(&job);
        free(text);
    }
    /* The trees are such that each of the ways is taken; least cost has its own reason for what it takes. */
    assert_true(tally.taps > 100 && tally.named > 0 && tally.named < tally.taps / 5);
    if (strcmp(method, "least-cost") != 0)
        assert_true(tally.larger > tally.taps / 5 && tally.flatter > 0);
}

enum { TREES = 30 };

static void every_tap_has_room_or_a_limit_is_named(void **state) {
    (void)state;
    size_t count;
    const struct sizing_method *const *methods = sizing_methods(&count);
    for (size_t i = 0; i < count; i++)
        try_trees(methods[i]->name, TREES);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(every_tap_has_room_or_a_limit_is_named),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
