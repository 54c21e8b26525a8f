/* Straight duct divided into joints: by hand, and whatever the lengths and zones are. */
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <setjmp.h>
#include <cmocka.h>

#include "base/constant.h"
#include "metal/joints.h"
#include "near.h"
#include "random.h"

struct bench {
    struct arena *arena;
    jmp_buf out;
};

static void bench_new(struct bench *bench) {
    bench->arena = arena_new(NULL);
    if (!bench->arena || setjmp(bench->out))
        fail_msg("no memory");
    arena_on_failure(bench->arena, &bench->out);
}

/* Lengths in inches of a duct `length` in long, against those that are wanted. */
static void joints_are(double length, double greatest, const struct joint_zone *zones, size_t zone_count,
                       const double *want, size_t count, size_t crossed) {
    struct bench bench;
    struct joint_zone in_metres[8];
    bench_new(&bench);
    for (size_t i = 0; i < zone_count; i++)
        in_metres[i] = (struct joint_zone){zones[i].low * INCH, zones[i].high * INCH};
    struct joint_list list =
        metal_joints(bench.arena, length * INCH, greatest * INCH, greatest * INCH, in_metres, zone_count);
    assert_int_equal(list.joints.count, count);
    for (size_t i = 0; i < count; i++)
        assert_near(list.joints.at[i].length / INCH, want[i], 1e-9);
    assert_int_equal(list.crossed, crossed);
    arena_free(bench.arena);
}

#define JOINTS_ARE(length, greatest, crossed, ...)                                                                     \
    joints_are((length), (greatest), NULL, 0, (const double[]){__VA_ARGS__},                                           \
               sizeof((const double[]){__VA_ARGS__}) / sizeof(double), (crossed))

static void full_joints_come_first_and_the_leftover_last(void **state) {
    (void)state;
    JOINTS_ARE(150, 58, 0, 58, 58, 34);
    JOINTS_ARE(116, 58, 0, 58, 58);
    JOINTS_ARE(40, 58, 0, 40);
    JOINTS_ARE(128, 58, 0, 58, 58, 12);
}

static void a_short_leftover_is_shared_with_the_joint_before_it(void **state) {
    (void)state;
    JOINTS_ARE(120, 58, 0, 58, 31, 31);
    JOINTS_ARE(59, 58, 0, 29.5, 29.5);
    JOINTS_ARE(5, 58, 0, 5);
}

static void a_line_is_pulled_back_out_of_a_tap(void **state) {
    (void)state;
    const struct joint_zone one[] = {{54, 64}}, touching[] = {{48, 58}, {58, 70}}, meeting[] = {{40, 56}, {50, 60}};
    joints_are(150, 58, one, 1, (const double[]){54, 58, 38}, 3, 0);
    joints_are(100, 58, touching, 2, (const double[]){58, 42}, 2, 0);
    joints_are(98, 58, meeting, 2, (const double[]){40, 58}, 2, 0);
}

/* The shared line would fall in a tap: it goes to the tap's nearer end that both joints allow. */
static void sharing_keeps_out_of_taps_too(void **state) {
    (void)state;
    const struct joint_zone middle[] = {{28, 36}};
    joints_are(62, 58, middle, 1, (const double[]){28, 34}, 2, 0);
}

/* Pulled back, the third joint would be 2 in: the line before it gives way. */
static void the_line_before_gives_way_to_a_pulled_back_one(void **state) {
    (void)state;
    const struct joint_zone zone[] = {{60, 117}};
    joints_are(170, 58, zone, 1, (const double[]){30, 30, 58, 52}, 4, 0);
}

static void a_zone_longer_than_a_joint_is_crossed_and_that_is_reported(void **state) {
    (void)state;
    const struct joint_zone zone[] = {{50, 130}};
    joints_are(180, 58, zone, 1, (const double[]){50, 58, 58, 14}, 4, 1);
}

static void a_short_duct_alone_is_a_stub(void **state) {
    (void)state;
    struct bench bench;
    bench_new(&bench);
    assert_int_equal(metal_joints(bench.arena, 3 * INCH, 58 * INCH, 58 * INCH, NULL, 0).joints.at[0].too_short, 1);
    assert_int_equal(metal_joints(bench.arena, 4 * INCH, 58 * INCH, 58 * INCH, NULL, 0).joints.at[0].too_short, 0);
    arena_free(bench.arena);
}

/* Where the end of the last joint takes more of the sheet, no more joints are made than that asks for. */
static void a_last_joint_may_be_shorter_than_others(void **state) {
    (void)state;
    struct bench bench;
    bench_new(&bench);
    const struct joint_zone tap[] = {{84 * INCH, 90 * INCH}};
    struct joint_list list = metal_joints(bench.arena, 116 * INCH, 58 * INCH, 56 * INCH, NULL, 0);
    assert_int_equal(list.joints.count, 3);
    assert_near(list.joints.at[0].length, 58 * INCH, 1e-9);
    assert_near(list.joints.at[2].length, 29 * INCH, 1e-9);
    list = metal_joints(bench.arena, 116 * INCH, 58 * INCH, 56 * INCH, tap, 1);
    assert_near(list.joints.at[1].length, 26 * INCH, 1e-9);
    list = metal_joints(bench.arena, 114 * INCH, 58 * INCH, 56 * INCH, NULL, 0);
    assert_int_equal(list.joints.count, 2);
    arena_free(bench.arena);
}

/* ---- Whatever is asked ------------------------------------------------------------------------------------------- */

enum { ZONE_LIMIT = 12 };

struct asked {
    double length, greatest;
    struct joint_zone zones[ZONE_LIMIT];
    size_t zone_count;
};

static struct asked random_duct(void) {
    struct asked asked = {.length = random_between(0.02, 40), .greatest = random_between(0.3, 3.5)};
    asked.zone_count = (size_t)random_between(0, ZONE_LIMIT + 0.99);
    double at = 0;
    for (size_t i = 0; i < asked.zone_count; i++) {
        at += random_between(0, 2 * asked.length / ZONE_LIMIT);
        double reach = random_between(0, 1) < 0.9 ? 0.6 : 4;
        asked.zones[i] = (struct joint_zone){at, at + random_between(0.02, reach)};
    }
    return asked;
}

static bool in_a_zone(const struct asked *asked, double line) {
    for (size_t i = 0; i < asked->zone_count; i++)
        if (line > asked->zones[i].low + 1e-6 && line < asked->zones[i].high - 1e-6)
            return true;
    return false;
}

/* Nearer to the end of a zone than the code's own rounding either verdict is right. */
static bool at_the_end_of_a_zone(const struct asked *asked, double line) {
    for (size_t i = 0; i < asked->zone_count; i++)
        if (fabs(line - asked->zones[i].low) <= 1e-6 || fabs(line - asked->zones[i].high) <= 1e-6)
            return true;
    return false;
}

static size_t shorts(const struct joint_list *list) {
    size_t count = 0;
    for (size_t i = 0; i < list->joints.count; i++)
        count += list->joints.at[i].too_short;
    return count;
}

/* What is wrong with the joints; NULL: nothing. */
static const char *fault(const struct asked *asked, const struct joint_list *list) {
    double sum = 0;
    size_t crossed = 0, least = (size_t)ceil(asked->length / asked->greatest - 1e-6);
    for (size_t i = 0; i < list->joints.count; i++) {
        const struct joint *joint = &list->joints.at[i];
        bool last = i + 1 == list->joints.count;
        if (fabs(joint->station - sum) > 1e-9)
            return "a joint does not begin where the one before it ends";
        if (!(joint->length > 0) || joint->length > asked->greatest + 1e-6)
            return "a joint is of no length, or over the greatest";
        sum += joint->length;
        if (joint->crossed != (!last && in_a_zone(asked, sum)) && !at_the_end_of_a_zone(asked, sum))
            return "a line in a zone is not reported, or one outside is";
        if (joint->too_short != (joint->length < fmin(4 * INCH, asked->greatest / 4) - 1e-7))
            return "a too_short is not marked, or none is";
        crossed += joint->crossed;
    }
    if (fabs(sum - asked->length) > 1e-9 * asked->length)
        return "the joints do not add up";
    if (list->joints.count < least || (!asked->zone_count && list->joints.count != least))
        return "so many joints are not needed, or too few";
    return crossed == list->crossed ? NULL : "the counts are wrong";
}

/* A duct with a zone less, for as long as the fault stays. */
static void shrink(struct arena *arena, struct asked *asked) {
    for (size_t i = 0; i < asked->zone_count;) {
        struct asked fewer = *asked;
        fewer.zone_count--;
        for (size_t k = i; k < fewer.zone_count; k++)
            fewer.zones[k] = fewer.zones[k + 1];
        struct joint_list list =
            metal_joints(arena, fewer.length, fewer.greatest, fewer.greatest, fewer.zones, fewer.zone_count);
        if (fault(&fewer, &list))
            *asked = fewer;
        else
            i++;
    }
}

static void give_up(struct arena *arena, struct asked *asked) {
    shrink(arena, asked);
    struct joint_list list =
        metal_joints(arena, asked->length, asked->greatest, asked->greatest, asked->zones, asked->zone_count);
    for (size_t i = 0; i < asked->zone_count; i++)
        print_message("zone %.17g to %.17g\n", asked->zones[i].low, asked->zones[i].high);
    for (size_t i = 0; i < list.joints.count; i++)
        print_message("joint at %.17g, %.17g long\n", list.joints.at[i].station, list.joints.at[i].length);
    fail_msg("%s: %.17g m, greatest %.17g m, CLEAT_SEED=%llu", fault(asked, &list), asked->length, asked->greatest,
             (unsigned long long)seed);
}

static void joints_add_up_and_keep_out_of_zones(void **state) {
    (void)state;
    struct bench bench;
    bench_new(&bench);
    size_t crossed = 0, clear = 0;
    for (int i = 0; i < 20000; i++) {
        struct asked asked = random_duct();
        struct joint_list list =
            metal_joints(bench.arena, asked.length, asked.greatest, asked.greatest, asked.zones, asked.zone_count);
        if (fault(&asked, &list))
            give_up(bench.arena, &asked);
        crossed += list.crossed > 0;
        clear += list.crossed == 0 && asked.zone_count > 0;
    }
    assert_true(crossed > 100 && clear > 100); /* both happen: neither claim above is empty */
    arena_free(bench.arena);
}

/* With room on both sides of every tap, no line has to fall in one and no joint is a too_short. */
static void taps_with_room_between_them_are_never_crossed(void **state) {
    (void)state;
    struct bench bench;
    bench_new(&bench);
    for (int i = 0; i < 5000; i++) {
        struct asked asked = {.greatest = random_between(48, 72) * INCH};
        double at = 0;
        for (; asked.zone_count < ZONE_LIMIT; asked.zone_count++) {
            at += random_between(26, 90) * INCH;
            asked.zones[asked.zone_count] = (struct joint_zone){at, at + random_between(6, 12) * INCH};
            at = asked.zones[asked.zone_count].high;
        }
        asked.length = at + random_between(26, 90) * INCH;
        struct joint_list list =
            metal_joints(bench.arena, asked.length, asked.greatest, asked.greatest, asked.zones, asked.zone_count);
        if (list.crossed || shorts(&list) || fault(&asked, &list))
            fail_msg("%zu lines crossed, %zu too short, CLEAT_SEED=%llu", list.crossed, shorts(&list),
                     (unsigned long long)seed);
    }
    arena_free(bench.arena);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(full_joints_come_first_and_the_leftover_last),
        cmocka_unit_test(a_short_leftover_is_shared_with_the_joint_before_it),
        cmocka_unit_test(a_line_is_pulled_back_out_of_a_tap),
        cmocka_unit_test(sharing_keeps_out_of_taps_too),
        cmocka_unit_test(the_line_before_gives_way_to_a_pulled_back_one),
        cmocka_unit_test(a_zone_longer_than_a_joint_is_crossed_and_that_is_reported),
        cmocka_unit_test(a_short_duct_alone_is_a_stub),
        cmocka_unit_test(a_last_joint_may_be_shorter_than_others),
        cmocka_unit_test(joints_add_up_and_keep_out_of_zones),
        cmocka_unit_test(taps_with_room_between_them_are_never_crossed),
    };
    return cmocka_run_group_tests(tests, seed_random, NULL);
}
