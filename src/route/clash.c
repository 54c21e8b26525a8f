/* What is nearer to something else than it may be. */
#include <stdlib.h>

#include "base/constant.h"
#include "route/box_tree.h"
#include "route/hull.h"
#include "route/route.h"

/* Nearer by less than this is not worth a word: metal is hung to an eighth of an inch.  Common practice, no source. */
static const double slack = 0.125 * INCH;

/* So many are found before the search ends: nobody reads more. */
enum { ENOUGH = 20000 };

/* A nearness of two stretches, or of one and an obstacle, before the worst of each pair is picked. */
struct contact {
    size_t a, b; /* stretches; b from `stretches` on: obstacles */
    double apart, overlap;
};

struct search {
    struct arena *arena;
    const struct job *job;
    struct route *route;
    struct box_tree *tree;
    size_t stretches;
    const struct box *at; /* the stretch at hand */
    struct hull hull;
    LIST(struct contact) contacts;
};

static const struct placed_piece *piece_of(const struct search *search, size_t stretch) {
    return &search->route->pieces.at[search->route->stretches.at[stretch].piece];
}

static struct hull hull_at(const struct search *search, size_t what) {
    if (what < search->stretches)
        return hull_of_stretch(&search->route->stretches.at[what]);
    const struct obstacle *obstacle = search->job->obstacles.at[what - search->stretches];
    return hull_of_box(obstacle->low, obstacle->high);
}

/* ---- What is joined ---------------------------------------------------------------------------------------------- */

static double greatest_side(const struct stretch *stretch) {
    return fmax(fmax(stretch->from.width, stretch->from.height), fmax(stretch->to.width, stretch->to.height));
}

/* So far along the way from where two are joined they may be near each other. */
static double joined_reach(const struct stretch *a, const struct stretch *b, double clearance) {
    return fmax(greatest_side(a), greatest_side(b)) + a->around + b->around + clearance;
}

/* Of one run: neighbours, and what is as near along the way as a duct is wide. */
static bool follows(const struct stretch *a, const struct stretch *b, double clearance) {
    double between = fmax(b->begins - a->ends, a->begins - b->ends);
    return between < joined_reach(a, b, clearance);
}

/* Where along the parent a run begins. */
static double joins_at(const struct search *search, const struct run *child) {
    const struct placed_run *placed = &search->route->runs[child->id];
    return child->from.kind == PORT_TAP ? placed->tap_station : search->route->runs[child->parent->id].length;
}

/* `a` is of a run that hangs from the run of `b`. */
static bool hangs(const struct search *search, const struct stretch *a, const struct stretch *b, const struct run *child,
                  double clearance) {
    double reach = joined_reach(a, b, clearance), at = joins_at(search, child);
    return a->begins < reach && b->begins < at + reach && b->ends > at - reach;
}

/* Both hang from one run, and begin near each other. */
static bool side_by_side(const struct search *search, const struct stretch *a, const struct stretch *b,
                         const struct run *one, const struct run *other, double clearance) {
    double reach = joined_reach(a, b, clearance);
    return a->begins < reach && b->begins < reach &&
           fabs(joins_at(search, one) - joins_at(search, other)) < reach;
}

static bool are_joined(const struct search *search, size_t a, size_t b, double clearance) {
    const struct stretch *one = &search->route->stretches.at[a], *other = &search->route->stretches.at[b];
    const struct run *run = piece_of(search, a)->run, *other_run = piece_of(search, b)->run;
    if (run == other_run)
        return one->piece == other->piece || follows(one, other, clearance);
    if (run->parent == other_run)
        return hangs(search, one, other, run, clearance);
    if (other_run->parent == run)
        return hangs(search, other, one, other_run, clearance);
    return run->parent && run->parent == other_run->parent &&
           side_by_side(search, one, other, run, other_run, clearance);
}

/* ---- The search -------------------------------------------------------------------------------------------------- */

/* What two things ask for: the greater of both. */
static double clearance_of(const struct search *search, size_t a, size_t b) {
    double own = piece_of(search, a)->run->settings.clearance;
    return b < search->stretches ? fmax(own, piece_of(search, b)->run->settings.clearance) : own;
}

/* Two units are known beside each other only where both have a position. */
static bool comparable(const struct search *search, size_t a, size_t b) {
    const struct placed_piece *one = piece_of(search, a);
    if (b >= search->stretches)
        return one->positioned;
    const struct placed_piece *other = piece_of(search, b);
    return one->run->unit == other->run->unit || (one->positioned && other->positioned);
}

static int see(void *context, const struct box *box) {
    struct search *search = context;
    size_t a = search->at->what, b = box->what;
    if (b <= a || !comparable(search, a, b))
        return 1;
    double clearance = clearance_of(search, a, b);
    if (b < search->stretches && are_joined(search, a, b, clearance))
        return 1;
    search->route->pairs++;
    struct hull other = hull_at(search, b);
    double apart = hull_distance(&search->hull, &other);
    double overlap = apart > 0 ? 0 : hull_overlap(&search->hull, &other);
    if (apart - overlap < clearance - slack)
        *list_add(search->arena, &search->contacts) = (struct contact){a, b, apart, overlap};
    return search->contacts.count < ENOUGH;
}

static struct box box_of(const struct search *search, size_t what) {
    struct box box = {.what = what};
    struct hull hull = hull_at(search, what);
    hull_bounds(&hull, box.low, box.high);
    double grown = what < search->stretches ? piece_of(search, what)->run->settings.clearance : 0;
    for (int i = 0; i < 3; i++) {
        box.low[i] -= grown;
        box.high[i] += grown;
    }
    return box;
}

static struct box *boxes_of(const struct search *search, size_t *count) {
    size_t all = search->stretches + search->job->obstacles.count;
    struct box *boxes = ARENA_ARRAY(search->arena, struct box, all + 1);
    for (size_t i = 0; i < all; i++)
        if (i >= search->stretches || !piece_of(search, i)->free)
            boxes[(*count)++] = box_of(search, i);
    return boxes;
}

/* ---- The worst of each pair -------------------------------------------------------------------------------------- */

/* Who meets whom, without regard to where: obstacles behind runs. */
struct pair {
    size_t run, other;
    const struct contact *contact;
};

static int by_pair(const void *left, const void *right) {
    const struct pair *a = left, *b = right;
    if (a->run != b->run)
        return a->run < b->run ? -1 : 1;
    if (a->other != b->other)
        return a->other < b->other ? -1 : 1;
    double worse = (a->contact->apart - a->contact->overlap) - (b->contact->apart - b->contact->overlap);
    if (fabs(worse) > 1e-9)
        return worse < 0 ? -1 : 1;
    if (a->contact->a != b->contact->a)
        return a->contact->a < b->contact->a ? -1 : 1;
    return (a->contact->b > b->contact->b) - (a->contact->b < b->contact->b);
}

static struct pair pair_of(const struct search *search, const struct contact *contact) {
    struct pair pair = {.run = piece_of(search, contact->a)->run->id, .contact = contact};
    if (contact->b >= search->stretches) {
        pair.other = search->job->runs.count + contact->b - search->stretches;
        return pair;
    }
    pair.other = piece_of(search, contact->b)->run->id;
    if (pair.other < pair.run) {
        size_t keep = pair.run;
        pair.run = pair.other;
        pair.other = keep;
    }
    return pair;
}

static void add_clash(struct search *search, const struct pair *pair) {
    const struct contact *contact = pair->contact;
    bool swapped = piece_of(search, contact->a)->run->id != pair->run;
    size_t a = swapped ? contact->b : contact->a, b = swapped ? contact->a : contact->b;
    struct hull one = hull_at(search, a), other = hull_at(search, b);
    struct clash *clash = list_add(search->arena, &search->route->clashes);
    *clash = (struct clash){
        .run = piece_of(search, a)->run,
        .piece = piece_of(search, a)->piece,
        .at = hull_meeting(&one, &other),
        .apart = contact->apart,
        .overlap = contact->overlap,
        .clearance = clearance_of(search, a, b),
    };
    if (b >= search->stretches) {
        clash->obstacle = search->job->obstacles.at[b - search->stretches];
    } else {
        clash->other = piece_of(search, b)->run;
        clash->other_piece = piece_of(search, b)->piece;
    }
}

static void pick(struct search *search) {
    struct pair *pairs = ARENA_ARRAY(search->arena, struct pair, search->contacts.count + 1);
    for (size_t i = 0; i < search->contacts.count; i++)
        pairs[i] = pair_of(search, &search->contacts.at[i]);
    qsort(pairs, search->contacts.count, sizeof *pairs, by_pair);
    for (size_t i = 0; i < search->contacts.count; i++)
        if (i == 0 || pairs[i].run != pairs[i - 1].run || pairs[i].other != pairs[i - 1].other)
            add_clash(search, &pairs[i]);
}

void route_clashes(struct arena *arena, const struct job *job, struct route *route) {
    struct search search = {.arena = arena, .job = job, .route = route, .stretches = route->stretches.count};
    size_t count = 0;
    struct box *boxes = boxes_of(&search, &count);
    search.tree = box_tree_new(arena, boxes, count);
    for (size_t i = 0; i < count && !route->cut_short; i++) {
        if (boxes[i].what >= search.stretches)
            continue;
        search.at = &boxes[i];
        search.hull = hull_at(&search, boxes[i].what);
        route->cut_short = !box_tree_each(search.tree, &boxes[i], see, &search);
    }
    pick(&search);
}
