/* What is drawn before what: two bodies that lie over each other on the drawing are parted by a plane along a side of
 * one, and the one on the viewer's side of it is drawn later.  What no plane parts is drawn by its depth. */
#include <math.h>
#include <stdlib.h>

#include "base/constant.h"
#include "report/figure_route.h"
#include "route/box_tree.h"
#include "route/hull.h"

/* Bodies may be in each other by so much, m, and are parted all the same: pieces that are joined.  By look. */
static const double joined = 1 * INCH;
/* A plane seen nearly from its edge separates nothing on the drawing; and a drawing with more pairs than this is
 * black all over.  By look. */
static const double edge_on = 0.02;
enum { PAIRS_MOST = 200000 };

/* `front` is drawn after `behind`: indices in the order of depth. */
struct pair {
    size_t front, behind;
};

struct ordering {
    const struct route_drawing *drawing;
    const struct route_drawn *drawn;
    struct hull *hulls;
    LIST(struct pair) pairs;
    size_t at;
};

static double extent(const struct hull *hull, struct space way) {
    return space_dot(hull_support(hull, way), way);
}

/* How far `a` lies beyond `b` along `way`; negative: they share so much of it. */
static double beyond(const struct hull *a, const struct hull *b, struct space way) {
    return -extent(a, space_scale(way, -1)) - extent(b, way);
}

/* 1: `a` is in front of `b`; -1: behind it; 0: nothing parts them. */
static int in_front(const struct hull *a, const struct hull *b, struct space eye) {
    double best = -joined;
    int front = 0;
    for (int i = 0; i < 12; i++) {
        const struct hull *own = i < 6 ? a : b;
        const struct hull_end *end = &own->ends[0];
        struct space along = space_unit(space_cross(end->up, end->right));
        struct space way = i % 3 == 0 ? end->right : i % 3 == 1 ? end->up : along;
        if (i % 6 >= 3)
            way = space_scale(way, -1);
        double toward = space_dot(way, eye), apart = beyond(a, b, way);
        if (fabs(toward) < edge_on || apart <= best)
            continue;
        best = apart;
        front = toward > 0 ? 1 : -1;
    }
    return front;
}

static int see(void *context, const struct box *box) {
    struct ordering *ordering = context;
    size_t one = ordering->at, other = box->what;
    if (other <= one)
        return 1;
    int front = in_front(&ordering->hulls[one], &ordering->hulls[other], ordering->drawing->eye);
    if (front != 0)
        *list_add(ordering->drawing->arena, &ordering->pairs) =
            front > 0 ? (struct pair){one, other} : (struct pair){other, one};
    return ordering->pairs.count < PAIRS_MOST;
}

/* What it covers of the drawing. */
static struct box seen_box(const struct route_drawing *drawing, const struct hull *hull, size_t what) {
    return (struct box){
        .low = {-extent(hull, space_scale(drawing->right, -1)), -extent(hull, space_scale(drawing->up, -1)), 0},
        .high = {extent(hull, drawing->right), extent(hull, drawing->up), 0},
        .what = what,
    };
}

static void find_pairs(struct ordering *ordering, size_t count) {
    struct arena *arena = ordering->drawing->arena;
    struct box *boxes = ARENA_ARRAY(arena, struct box, count), *kept = ARENA_ARRAY(arena, struct box, count);
    for (size_t i = 0; i < count; i++) {
        struct stretch bare = *ordering->drawn[i].stretch;
        bare.around = 0; /* as it is drawn */
        ordering->hulls[i] = hull_of_stretch(&bare);
        boxes[i] = kept[i] = seen_box(ordering->drawing, &ordering->hulls[i], i);
    }
    const struct box_tree *tree = box_tree_new(arena, boxes, count);
    for (size_t i = 0; i < count && ordering->pairs.count < PAIRS_MOST; i++) {
        ordering->at = i;
        box_tree_each(tree, &kept[i], see, ordering);
    }
}

static int by_front(const void *left, const void *right) {
    const struct pair *a = left, *b = right;
    if (a->front != b->front)
        return a->front < b->front ? -1 : 1;
    return (a->behind > b->behind) - (a->behind < b->behind);
}

/* Farthest first, and before each piece all that has to be behind it.  A cycle is cut where it is met. */
static void put_in_order(const struct ordering *ordering, size_t count, struct route_drawn *ordered) {
    struct arena *arena = ordering->drawing->arena;
    const struct pair *pairs = ordering->pairs.at;
    size_t *next = ARENA_ARRAY(arena, size_t, count), *stack = ARENA_ARRAY(arena, size_t, count), put = 0;
    bool *begun = ARENA_ARRAY(arena, bool, count);
    for (size_t i = ordering->pairs.count; i-- > 0;)
        next[pairs[i].front] = i + 1; /* 0: none is behind it */
    for (size_t i = 0; i < count; i++) {
        size_t depth = 0;
        if (!begun[i])
            stack[depth++] = i;
        begun[i] = true;
        while (depth > 0) {
            size_t top = stack[depth - 1], pair = next[top];
            if (pair == 0 || pair > ordering->pairs.count || pairs[pair - 1].front != top) {
                ordered[put++] = ordering->drawn[top];
                depth--;
                continue;
            }
            next[top]++;
            size_t behind = pairs[pair - 1].behind;
            if (!begun[behind])
                stack[depth++] = behind;
            begun[behind] = true;
        }
    }
}

/* ---- What is seen ------------------------------------------------------------------------------------------------ */

/* Takes what `front` covers of it from the middle line of what is behind it. */
static void hide(const struct route_drawing *drawing, const struct route_drawn *front,
                 const struct route_drawn *behind) {
    struct line_part *seen = &drawing->seen[behind->index];
    struct outline outline = figure_route_outline(drawing, front->stretch);
    struct line_part covered = {1, 0};
    if (front->stretch->piece != behind->stretch->piece && outline.count >= 3)
        covered = outline_covers(&outline, figure_route_spot(drawing, behind->stretch->near.origin),
                                 figure_route_spot(drawing, behind->stretch->far.origin));
    if (!(covered.to > covered.from) || covered.from >= seen->to || covered.to <= seen->from)
        return;
    if (covered.from - seen->from > seen->to - covered.to)
        seen->to = covered.from;
    else
        seen->from = fmin(covered.to, seen->to);
}

static void find_seen(const struct ordering *ordering, size_t count) {
    const struct route_drawn *drawn = ordering->drawn;
    for (size_t i = 0; i < count; i++)
        ordering->drawing->seen[drawn[i].index] = (struct line_part){0, 1};
    for (size_t i = 0; i < ordering->pairs.count; i++)
        hide(ordering->drawing, &drawn[ordering->pairs.at[i].front], &drawn[ordering->pairs.at[i].behind]);
}

struct route_drawn *figure_route_in_order(const struct route_drawing *drawing, const struct route_drawn *drawn,
                                          size_t count) {
    struct route_drawn *ordered = ARENA_ARRAY(drawing->arena, struct route_drawn, count + 1);
    if (count == 0)
        return ordered;
    struct ordering ordering = {.drawing = drawing, .drawn = drawn};
    ordering.hulls = ARENA_ARRAY(drawing->arena, struct hull, count);
    find_pairs(&ordering, count);
    find_seen(&ordering, count);
    if (ordering.pairs.count)
        qsort(ordering.pairs.at, ordering.pairs.count, sizeof *ordering.pairs.at, by_front);
    put_in_order(&ordering, count, ordered);
    return ordered;
}
