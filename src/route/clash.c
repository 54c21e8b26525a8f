/* What is nearer to something else than it may be. */
#include <stdlib.h>

#include "base/constant.h"
#include "route/box_tree.h"
#include "route/hull.h"
#include "route/route.h"

/* So many are found before the search ends: nobody reads more.  Chosen here, no source. */
enum { ENOUGH = 20000 };

/* What may meet something; a tree of boxes numbers them in this order. */
enum thing_kind { THING_STRETCH, THING_OBSTACLE, THING_CABINET };

struct thing {
    const struct route *route;
    enum thing_kind kind;
    size_t index; /* of its kind: in the route, the job, the route's cabinets */
};

/* A stretch too near to another thing, before the worst of each pair is picked. */
struct contact {
    struct thing a, b;
    double apart, overlap;
};

struct clash_search {
    struct arena *arena;
    const struct job *job;
    struct route *route; /* whose stretches are compared with others */
    const struct route
        *other; /* whose stretches are in the tree: the same route, or the one that `route` is a changed copy of */
    const struct box_tree *tree;
    struct thing at; /* the stretch at hand */
    struct hull hull;
    LIST(struct contact) contacts;
};

static size_t number_of(const struct job *job, struct thing thing) {
    size_t before = thing.kind == THING_STRETCH ? 0 : thing.route->stretches.count;
    return before + (thing.kind == THING_CABINET ? job->obstacles.count : 0) + thing.index;
}

static struct thing thing_numbered(const struct job *job, const struct route *route, size_t number) {
    if (number < route->stretches.count)
        return (struct thing){route, THING_STRETCH, number};
    number -= route->stretches.count;
    if (number < job->obstacles.count)
        return (struct thing){route, THING_OBSTACLE, number};
    return (struct thing){route, THING_CABINET, number - job->obstacles.count};
}

static const struct stretch *stretch_of(struct thing thing) {
    return &thing.route->stretches.at[thing.index];
}

static const struct placed_piece *piece_of(struct thing thing) {
    return &thing.route->pieces.at[stretch_of(thing)->piece];
}

static const struct cabinet *cabinet_of(struct thing thing) {
    return &thing.route->cabinets.at[thing.index];
}

/* An obstacle or a cabinet, as an obstacle. */
static const struct obstacle *obstacle_of(const struct job *job, struct thing thing) {
    return thing.kind == THING_CABINET ? &cabinet_of(thing)->box : job->obstacles.at[thing.index];
}

static struct hull hull_of(const struct job *job, struct thing thing) {
    if (thing.kind == THING_STRETCH)
        return hull_of_stretch(stretch_of(thing));
    const struct obstacle *obstacle = obstacle_of(job, thing);
    return hull_of_box(obstacle->low, obstacle->high);
}

/* ---- What is joined ---------------------------------------------------------------------------------------------- */

static double greatest_side(const struct stretch *stretch) {
    return fmax(fmax(stretch->from.width, stretch->from.height), fmax(stretch->to.width, stretch->to.height));
}

/* How far from their joint two joined stretches may be near each other, along the way. */
static double joined_reach(const struct stretch *a, const struct stretch *b, double clearance) {
    return fmax(greatest_side(a), greatest_side(b)) + a->around + b->around + clearance;
}

/* Two stretches of one run: neighbours, or nearer along the way than a duct is wide. */
static bool follows(const struct stretch *a, const struct stretch *b, double clearance) {
    double between = fmax(b->begins - a->ends, a->begins - b->ends);
    return between < joined_reach(a, b, clearance);
}

/* The run as it was laid last. */
static const struct placed_run *placed_of(const struct clash_search *search, const struct run *run) {
    const struct placed_run *again = &search->route->runs[run->id];
    return again->run ? again : &search->other->runs[run->id];
}

/* Where along the parent a run begins. */
static double joins_at(const struct clash_search *search, const struct run *child) {
    return child->from.kind == PORT_TAP ? placed_of(search, child)->tap_station
                                        : placed_of(search, child->parent)->length;
}

/* The run of `a`, `child`, hangs from the run of `b`: whether both are near where it does. */
static bool hangs(const struct clash_search *search, const struct stretch *a, const struct stretch *b,
                  const struct run *child, double clearance) {
    double reach = joined_reach(a, b, clearance), at = joins_at(search, child);
    return a->begins < reach && b->begins < at + reach && b->ends > at - reach;
}

/* Both hang from one run, and begin near each other. */
static bool side_by_side(const struct clash_search *search, const struct stretch *a, const struct stretch *b,
                         const struct run *one, const struct run *other, double clearance) {
    double reach = joined_reach(a, b, clearance);
    return a->begins < reach && b->begins < reach && fabs(joins_at(search, one) - joins_at(search, other)) < reach;
}

static bool are_joined(const struct clash_search *search, struct thing a, struct thing b, double clearance) {
    const struct stretch *one = stretch_of(a), *other = stretch_of(b);
    const struct run *run = piece_of(a)->run, *other_run = piece_of(b)->run;
    if (run == other_run)
        return one->piece == other->piece || follows(one, other, clearance);
    if (run->parent == other_run)
        return hangs(search, one, other, run, clearance);
    if (other_run->parent == run)
        return hangs(search, other, one, other_run, clearance);
    return run->parent && run->parent == other_run->parent &&
           side_by_side(search, one, other, run, other_run, clearance);
}

/* Whether the stretch begins at a collar of the unit, or is tapped in close to one. */
static bool is_at_collar(const struct clash_search *search, const struct stretch *stretch, const struct run *run,
                         const struct cabinet *cabinet, double clearance) {
    double reach = joined_reach(stretch, stretch, clearance);
    if (run->unit != cabinet->unit || stretch->begins >= reach)
        return false;
    return !run->parent || (!run->parent->parent && joins_at(search, run) < reach);
}

/* ---- The search -------------------------------------------------------------------------------------------------- */

/* What two things ask for: the greater of both. */
static double clearance_of(struct thing a, struct thing b) {
    double own = piece_of(a)->run->settings.clearance;
    return b.kind == THING_STRETCH ? fmax(own, piece_of(b)->run->settings.clearance) : own;
}

/* Runs of two units can only be compared where both units have a position. */
static bool comparable(struct thing a, struct thing b) {
    const struct placed_piece *one = piece_of(a);
    if (b.kind == THING_OBSTACLE)
        return one->positioned;
    bool cabinet = b.kind == THING_CABINET;
    const struct air_unit *unit = cabinet ? cabinet_of(b)->unit : piece_of(b)->run->unit;
    bool positioned = cabinet ? cabinet_of(b)->positioned : piece_of(b)->positioned;
    return one->run->unit == unit || (one->positioned && positioned);
}

/* Whether a pair is looked at: each pair once, and nothing at the place it had before it was laid again. */
static bool is_looked_at(const struct clash_search *search, struct thing a, struct thing b) {
    if (search->route == search->other)
        return b.kind != THING_STRETCH || b.index > a.index;
    return b.kind != THING_STRETCH || !search->route->runs[piece_of(b)->run->id].run;
}

/* Whether the two are near each other because one hangs from the other. */
static bool is_joined(const struct clash_search *search, struct thing a, struct thing b, double clearance) {
    switch (b.kind) {
    case THING_STRETCH:
        return are_joined(search, a, b, clearance);
    case THING_CABINET:
        return is_at_collar(search, stretch_of(a), piece_of(a)->run, cabinet_of(b), clearance);
    case THING_OBSTACLE:
        break;
    }
    return false;
}

static int see(void *context, const struct box *box) {
    struct clash_search *search = context;
    struct thing a = search->at, b = thing_numbered(search->job, search->other, box->what);
    if (!is_looked_at(search, a, b) || !comparable(a, b))
        return 1;
    double clearance = clearance_of(a, b);
    if (is_joined(search, a, b, clearance))
        return 1;
    search->route->pairs++;
    struct hull other = hull_of(search->job, b);
    double apart = hull_distance(&search->hull, &other);
    double overlap = apart > 0 ? 0 : hull_overlap(&search->hull, &other);
    if (apart - overlap < clearance - route_slack)
        *list_add(search->arena, &search->contacts) = (struct contact){a, b, apart, overlap};
    return search->contacts.count < ENOUGH;
}

double route_apart(const struct placed_run *run) {
    static const double far_apart = 1e5; /* m, chosen here: farther than any building reaches */
    return run->positioned ? 0 : far_apart * (double)(run->unit + 1);
}

/* How far eastward it stands in the tree. */
static double apart_of(struct thing thing) {
    switch (thing.kind) {
    case THING_STRETCH:
        return route_apart(&thing.route->runs[piece_of(thing)->run->id]);
    case THING_CABINET:
        return cabinet_of(thing)->apart;
    case THING_OBSTACLE:
        break;
    }
    return 0;
}

static struct box box_of(const struct job *job, struct thing thing) {
    struct box box = {.what = number_of(job, thing)};
    struct hull hull = hull_of(job, thing);
    hull_bounds(&hull, box.low, box.high);
    double grown = thing.kind == THING_STRETCH ? piece_of(thing)->run->settings.clearance : 0;
    for (int i = 0; i < 3; i++) {
        box.low[i] -= grown;
        box.high[i] += grown;
    }
    double apart = apart_of(thing);
    box.low[0] += apart;
    box.high[0] += apart;
    return box;
}

static struct box_tree *tree_of(struct arena *arena, const struct job *job, const struct route *route, size_t all) {
    size_t count = 0;
    struct box *boxes = ARENA_ARRAY(arena, struct box, all + 1);
    for (size_t i = 0; i < all; i++) {
        struct thing thing = thing_numbered(job, route, i);
        if (thing.kind != THING_STRETCH || !piece_of(thing)->free)
            boxes[count++] = box_of(job, thing);
    }
    return box_tree_new(arena, boxes, count);
}

struct box_tree *route_tree(struct arena *arena, const struct job *job, const struct route *route) {
    return tree_of(arena, job, route, route->stretches.count + job->obstacles.count + route->cabinets.count);
}

/* Compares every stretch of the route with the tree. */
static void look_round(struct clash_search *search) {
    for (size_t i = 0; i < search->route->stretches.count && !search->route->cut_short; i++) {
        search->at = (struct thing){search->route, THING_STRETCH, i};
        if (piece_of(search->at)->free)
            continue;
        struct box box = box_of(search->job, search->at);
        search->hull = hull_of(search->job, search->at);
        search->route->cut_short = !box_tree_each(search->tree, &box, see, search);
    }
}

/* ---- The worst of each pair -------------------------------------------------------------------------------------- */

/* Which two meet, wherever: runs are numbered first, then obstacles. */
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
    if (a->contact->a.index != b->contact->a.index)
        return a->contact->a.index < b->contact->a.index ? -1 : 1;
    return (a->contact->b.index > b->contact->b.index) - (a->contact->b.index < b->contact->b.index);
}

static struct pair pair_of(const struct job *job, const struct contact *contact) {
    struct pair pair = {.run = piece_of(contact->a)->run->id, .contact = contact};
    if (contact->b.kind != THING_STRETCH) {
        pair.other = job->runs.count + number_of(job, contact->b) - contact->b.route->stretches.count;
        return pair;
    }
    pair.other = piece_of(contact->b)->run->id;
    if (pair.other < pair.run) {
        size_t keep = pair.run;
        pair.run = pair.other;
        pair.other = keep;
    }
    return pair;
}

static void add_clash(struct clash_search *search, const struct pair *pair) {
    const struct contact *contact = pair->contact;
    bool swapped = piece_of(contact->a)->run->id != pair->run;
    struct thing a = swapped ? contact->b : contact->a, b = swapped ? contact->a : contact->b;
    struct hull one = hull_of(search->job, a), other = hull_of(search->job, b);
    struct clash *clash = list_add(search->arena, &search->route->clashes);
    *clash = (struct clash){
        .run = piece_of(a)->run,
        .piece = piece_of(a)->piece,
        .stretch = a.index,
        .at = hull_meeting(&one, &other),
        .apart = contact->apart,
        .overlap = contact->overlap,
        .clearance = clearance_of(a, b),
    };
    if (b.kind != THING_STRETCH) {
        clash->obstacle = obstacle_of(search->job, b);
    } else {
        clash->other = piece_of(b)->run;
        clash->other_piece = piece_of(b)->piece;
        clash->other_stretch = b.index;
    }
}

static void pick(struct clash_search *search) {
    struct pair *pairs = ARENA_ARRAY(search->arena, struct pair, search->contacts.count + 1);
    for (size_t i = 0; i < search->contacts.count; i++)
        pairs[i] = pair_of(search->job, &search->contacts.at[i]);
    qsort(pairs, search->contacts.count, sizeof *pairs, by_pair);
    for (size_t i = 0; i < search->contacts.count; i++)
        if (i == 0 || pairs[i].run != pairs[i - 1].run || pairs[i].other != pairs[i - 1].other)
            add_clash(search, &pairs[i]);
}

void route_clashes(struct arena *arena, const struct job *job, struct route *route) {
    struct clash_search search = {.arena = arena, .job = job, .route = route, .other = route};
    search.tree = route_tree(arena, job, route);
    look_round(&search);
    pick(&search);
}

void route_clashes_again(struct arena *arena, const struct job *job, struct route *again, const struct route *route,
                         const struct box_tree *tree) {
    struct clash_search search = {.arena = arena, .job = job, .route = again, .other = route, .tree = tree};
    look_round(&search);
    search.other = again;
    search.tree = tree_of(arena, job, again, again->stretches.count); /* the pairs with the others are done */
    look_round(&search);
    pick(&search);
}
