/* Distances and overlaps of convex bodies, against sampling by brute force and closed forms; and the tree of boxes
 * against looking at all pairs. */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "base/constant.h"
#include "near.h"
#include "random.h"
#include "route/box_tree.h"
#include "route/hull.h"

/* ---- Bodies ------------------------------------------------------------------------------------------------------ */

static struct hull hull_moved(const struct hull *hull, struct space by) {
    struct hull moved = *hull;
    for (int i = 0; i < 2; i++)
        moved.ends[i].middle = space_add(hull->ends[i].middle, by);
    return moved;
}

static struct space random_way(void) {
    struct space way = {random_between(-1, 1), random_between(-1, 1), random_between(-1, 1)};
    return space_length(way) > 0.1 ? space_unit(way) : (struct space){0, 0, 1};
}

static struct frame random_frame(double reach) {
    struct frame frame;
    frame.along = random_way();
    frame.right = space_unit(space_cross(frame.along, random_way()));
    if (space_length(frame.right) < 0.5)
        frame.right =
            space_unit(space_cross(frame.along, (struct space){frame.along.y, frame.along.z, -frame.along.x}));
    frame.up = space_cross(frame.right, frame.along);
    frame.origin =
        (struct space){random_between(-reach, reach), random_between(-reach, reach), random_between(-reach, reach)};
    return frame;
}

static struct stretch random_stretch(enum shape shape, double reach) {
    struct stretch stretch = {.near = random_frame(reach), .around = random_between(0, 0.1)};
    double width = random_between(0.1, 1), height = shape == SHAPE_ROUND ? width : random_between(0.1, 1);
    if (shape == SHAPE_OVAL && height > width)
        height = width / 2;
    stretch.far = frame_moved(&stretch.near, 0, random_between(0.1, 3), 0);
    stretch.from = stretch.to = (struct duct_size){shape, width, height};
    return stretch;
}

/* A body as what it is: all within `half` of a frame, as a box or with its corners rounded. */
struct plain {
    struct frame frame; /* in its middle */
    double half_width, half_length, half_height, radius;
};

static struct plain plain_of(const struct stretch *stretch) {
    double length = space_distance(stretch->near.origin, stretch->far.origin), around = stretch->around;
    bool flat = stretch->from.shape == SHAPE_RECTANGULAR;
    double radius = flat ? 0 : fmin(stretch->from.width, stretch->from.height) / 2 + around;
    return (struct plain){
        .frame = frame_moved(&stretch->near, 0, length / 2, 0),
        .half_width = stretch->from.width / 2 + around - radius,
        .half_height = stretch->from.height / 2 + around - radius,
        .half_length = length / 2,
        .radius = radius,
    };
}

static double clamped(double value, double most) {
    return fmin(fmax(value, -most), most);
}

/* The nearest point of the body to `at`: exact. */
static struct space nearest_in(const struct plain *body, struct space at) {
    struct space from = space_sub(at, body->frame.origin);
    double x = space_dot(from, body->frame.right), y = space_dot(from, body->frame.along);
    double z = space_dot(from, body->frame.up), u = clamped(x, body->half_width), v = clamped(z, body->half_height);
    double off = hypot(x - u, z - v), share = off > body->radius ? body->radius / off : 1;
    return frame_point(&body->frame, u + (x - u) * share, clamped(y, body->half_length), v + (z - v) * share);
}

/* By going to and fro between the nearest points of both from many places: never less than the distance, and the
 * distance itself in the end (von Neumann: alternating projections onto convex sets). */
static double sampled_distance(const struct plain *a, const struct plain *b) {
    double least = INFINITY;
    for (int sample = 0; sample < 12; sample++) {
        struct space at = frame_point(&a->frame, random_between(-1, 1), random_between(-2, 2), random_between(-1, 1));
        for (int step = 0; step < 3000; step++) {
            struct space in_b = nearest_in(b, at), in_a = nearest_in(a, in_b);
            double apart = space_distance(in_a, in_b);
            bool still = space_distance(in_a, at) < 1e-10;
            least = fmin(least, apart);
            at = in_a;
            if (still)
                break;
        }
    }
    return least;
}

static void distances_are_those_of_sampled_points(void **state) {
    (void)state;
    int apart = 0, together = 0;
    for (int i = 0; i < 1500; i++) {
        struct stretch a = random_stretch((enum shape)random_below(3), 1.2),
                       b = random_stretch((enum shape)random_below(3), 1.2);
        struct plain plain_a = plain_of(&a), plain_b = plain_of(&b);
        struct hull hull_a = hull_of_stretch(&a), hull_b = hull_of_stretch(&b);
        double sampled = sampled_distance(&plain_a, &plain_b), found = hull_distance(&hull_a, &hull_b);
        if (sampled < 2e-3) { /* sampling comes to nothing slowly */
            assert_true(found < 2e-3);
            together++;
        } else {
            assert_near(found, sampled, 1e-5 + 1e-4 * sampled);
            apart++;
        }
        assert_near(hull_distance(&hull_b, &hull_a), found, 1e-6);
    }
    assert_true(apart > 300 && together > 100);
}

/* No random point is in both where they are apart; where they overlap, moving one by so much along the way that was
 * found must part them, so that no lesser figure is told; and the figure parts boxes. */
static void overlaps_part_them_and_no_point_is_in_two_that_are_apart(void **state) {
    (void)state;
    int overlapping = 0;
    for (int i = 0; i < 1500; i++) {
        struct stretch a = random_stretch(SHAPE_RECTANGULAR, 1), b = random_stretch(SHAPE_RECTANGULAR, 1);
        struct hull hull_a = hull_of_stretch(&a), hull_b = hull_of_stretch(&b);
        double overlap = hull_overlap(&hull_a, &hull_b), apart = hull_distance(&hull_a, &hull_b);
        assert_true((overlap > 1e-6) == (apart < 1e-6) || (overlap < 1e-4 && apart < 1e-4));
        if (overlap < 1e-3)
            continue;
        overlapping++;
        bool parted = false;
        for (int k = 0; k < 400; k++) { /* no way parts them with less */
            struct space way = random_way();
            struct hull moved = hull_moved(&hull_a, space_scale(way, overlap * 0.99));
            assert_true(hull_distance(&moved, &hull_b) < 1e-6);
        }
        struct space axes[] = {a.near.right, a.near.along, a.near.up, b.near.right, b.near.along,
                               b.near.up,    {0, 0, 0},    {0, 0, 0}, {0, 0, 0},    {0, 0, 0},
                               {0, 0, 0},    {0, 0, 0},    {0, 0, 0}, {0, 0, 0},    {0, 0, 0}};
        for (int k = 0; k < 9; k++)
            axes[6 + k] = space_unit(space_cross(axes[k / 3], axes[3 + k % 3]));
        for (int k = 0; k < 30 && !parted; k++) {
            struct hull moved = hull_moved(&hull_a, space_scale(axes[k / 2], (k % 2 ? 1.01 : -1.01) * overlap));
            parted = hull_distance(&moved, &hull_b) > 0;
        }
        if (!parted)
            fail_msg("an overlap of %.9g does not part them", overlap);
    }
    assert_true(overlapping > 200);
}

static void boxes_and_tubes_beside_each_other_have_their_closed_forms(void **state) {
    (void)state;
    struct stretch duct = {.near = frame_near, .far = frame_moved(&frame_near, 0, 4, 0)};
    duct.from = duct.to = (struct duct_size){SHAPE_ROUND, 0.5, 0.5};
    duct.around = 0.05;
    struct hull tube = hull_of_stretch(&duct);
    double low[3] = {1, 1, -1}, high[3] = {2, 2, 1};
    struct hull box = hull_of_box(low, high);
    assert_near(hull_distance(&tube, &box), 1 - 0.3, 1e-7);
    /* From the edge of the tube's end, 1 m behind it and beside it. */
    double behind_low[3] = {1, 5, -1}, behind_high[3] = {2, 6, 1};
    struct hull behind = hull_of_box(behind_low, behind_high);
    assert_near(hull_distance(&tube, &behind), hypot(1, 1 - 0.3), 1e-6);
    double into_low[3] = {0.2, 1, -1}, into_high[3] = {2, 2, 1};
    struct hull into = hull_of_box(into_low, into_high);
    assert_near(hull_distance(&tube, &into), 0, 1e-9);
    assert_near(hull_overlap(&tube, &into), 0.1, 1e-9);
    double least[3], most[3];
    hull_bounds(&tube, least, most);
    assert_near(least[0], -0.3, 1e-12);
    assert_near(most[1], 4, 1e-12);
    assert_near(most[2], 0.3, 1e-12);
}

/* ---- The tree ---------------------------------------------------------------------------------------------------- */

static struct box random_box(size_t what) {
    struct box box = {.what = what};
    for (int i = 0; i < 3; i++) {
        double at = random_between(0, 30), size = random_chance(0.05) ? random_between(0, 30) : random_between(0, 2);
        box.low[i] = at;
        box.high[i] = at + size;
    }
    return box;
}

static int count_one(void *context, const struct box *box) {
    bool *seen = context;
    assert_false(seen[box->what]); /* each once */
    seen[box->what] = true;
    return 1;
}

static bool boxes_meet(const struct box *a, const struct box *b) {
    for (int i = 0; i < 3; i++)
        if (a->high[i] < b->low[i] || b->high[i] < a->low[i])
            return false;
    return true;
}

static void the_tree_finds_what_looking_at_all_finds(void **state) {
    (void)state;
    for (size_t count = 0; count < 400; count = count * 2 + 1) {
        struct arena *arena = arena_new(NULL);
        struct box *boxes = calloc(count + 1, sizeof *boxes);
        bool *seen = calloc(count + 1, sizeof *seen);
        for (size_t i = 0; i < count; i++)
            boxes[i] = random_box(i);
        struct box_tree *tree = box_tree_new(arena, boxes, count);
        for (int ask = 0; ask < 50; ask++) {
            struct box box = random_box(0);
            for (size_t i = 0; i < count; i++)
                seen[i] = false;
            assert_true(box_tree_each(tree, &box, count_one, seen));
            for (size_t i = 0; i < count; i++)
                assert_int_equal(seen[boxes[i].what], boxes_meet(&boxes[i], &box));
        }
        free(boxes);
        free(seen);
        arena_free(arena);
    }
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(distances_are_those_of_sampled_points),
        cmocka_unit_test(overlaps_part_them_and_no_point_is_in_two_that_are_apart),
        cmocka_unit_test(boxes_and_tubes_beside_each_other_have_their_closed_forms),
        cmocka_unit_test(the_tree_finds_what_looking_at_all_finds),
    };
    return cmocka_run_group_tests(tests, seed_random, NULL);
}
