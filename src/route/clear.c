/* The smallest offset that clears a clash and makes no other: every one that is told has been tried, by laying what
 * hangs behind it again.
 *
 * An offset takes its length from nothing: what stands behind it is hung so much farther on.  What is tapped in keeps
 * its stations, which count the length of the offset too, and so stays where it was along the way. */
#include <stdlib.h>

#include "base/constant.h"
#include "metal/shape_offset.h"
#include "model/piece.h"
#include "model/taps.h"
#include "route/box_tree.h"
#include "route/hull.h"
#include "route/motion.h"

/* So many clashes are looked at, so many places before each, and so many stretches are laid again in all: a job with
 * more is not one that a line mends.  Chosen here: no source. */
enum { HINTED = 12, PLACES = 6, WAYS = 4, LAID_AGAIN = 20000, LAID_AT_LEAST = 100 };
/* So many stretches in all may be asked what is near them, likewise. */
enum { ASKED = 1000000 };

/* An offset goes on so much farther than aside, where that is enough for its two mitres: they turn 22 degrees, which is
 * gentle, and within the table that the loss of mitres is read from.  Common practice, no source. */
static const double slope = 2.5;
/* So much over the least length leaves an offset a straight at its ends (offset_collar) that the shop can make a joint
 * on: a crimp takes more of it. */
static double spare(enum shape shape) {
    return (shape == SHAPE_RECTANGULAR ? 4 : 8) * INCH;
}

struct clearing {
    struct arena *arena; /* of what is tried: cleared behind each */
    const struct job *job;
    const struct route *route;
    const struct box_tree *tree; /* of the route */
    size_t laid, asked;
};

struct trial {
    struct detour detour;
    enum way way;
    double aside;
};

/* ---- How far aside ----------------------------------------------------------------------------------------------- */

/* What the run meets: an obstacle, or a stretch of another run. */
static double beyond(const struct stretch *stretch, const struct hull *other, struct space way) {
    struct hull hull = hull_of_stretch(stretch);
    return space_dot(hull_support(other, way), way) - space_dot(hull_support(&hull, space_scale(way, -1)), way);
}

static size_t first_stretch(const struct route *route, const struct run *run) {
    const struct placed_run *placed = &route->runs[run->id];
    return placed->count ? route->pieces.at[placed->first].first : 0;
}

static size_t last_stretch(const struct route *route, const struct run *run) {
    const struct placed_run *placed = &route->runs[run->id];
    if (!placed->count)
        return 0;
    const struct placed_piece *last = &route->pieces.at[placed->first + placed->count - 1];
    return last->first + last->count;
}

/* What `run` must pass of one hull. */
struct passing {
    const struct clearing *clearing;
    const struct run *run;
    const struct hull *other;
    double clearance;
    struct space way;
    double far; /* how far it must go along `way`, the farthest */
};

static int pass_stretch(void *context, const struct box *box) {
    struct passing *passing = context;
    const struct route *route = passing->clearing->route;
    if (box->what < first_stretch(route, passing->run) || box->what >= last_stretch(route, passing->run))
        return true;
    const struct stretch *stretch = &route->stretches.at[box->what];
    struct hull hull = hull_of_stretch(stretch);
    if (hull_distance(&hull, passing->other) < passing->clearance || hull_overlap(&hull, passing->other) > 0)
        passing->far = fmax(passing->far, beyond(stretch, passing->other, passing->way) + passing->clearance);
    return true;
}

/* The tree knows which stretches come near enough to be looked at. */
static void pass(struct clearing *clearing, struct passing *passing, const struct hull *other) {
    struct box box = {.what = 0};
    clearing->asked++;
    passing->other = other;
    hull_bounds(other, box.low, box.high);
    for (int i = 0; i < 3; i++) {
        box.low[i] -= passing->clearance;
        box.high[i] += passing->clearance;
    }
    double apart = route_apart(&clearing->route->runs[passing->run->id]);
    box.low[0] += apart;
    box.high[0] += apart;
    box_tree_each(clearing->tree, &box, pass_stretch, passing);
}

static double aside_needed(struct clearing *clearing, const struct clash *clash, const struct run *run,
                           struct space way) {
    struct passing passing = {.clearing = clearing, .run = run, .clearance = clash->clearance, .way = way};
    if (clash->obstacle) {
        struct hull box = hull_of_box(clash->obstacle->low, clash->obstacle->high);
        pass(clearing, &passing, &box);
        return passing.far;
    }
    const struct run *other = run == clash->run ? clash->other : clash->run;
    size_t end = last_stretch(clearing->route, other);
    for (size_t i = first_stretch(clearing->route, other); i < end && clearing->asked < ASKED; i++) {
        struct hull hull = hull_of_stretch(&clearing->route->stretches.at[i]);
        pass(clearing, &passing, &hull);
    }
    return clearing->asked < ASKED ? passing.far : 0;
}

/* ---- Where ------------------------------------------------------------------------------------------------------- */

static const struct placed_piece *placed_at(const struct route *route, const struct run *run, size_t piece) {
    return &route->pieces.at[route->runs[run->id].first + piece + (run->connect != NULL ? 1 : 0)];
}

/* What an offset may stand before: what is written, and has duct of one size before it. */
static bool takes_offset(const struct piece *piece) {
    return !piece->implied && !(piece->kind->traits & (PIECE_TAP | PIECE_FLEXIBLE)) && !piece->kind->face;
}

/* Half of what a tap takes along its parent, with room for the widest base. */
static double tap_half(const struct run *tapped) {
    struct duct_size size = tapped->first_duct ? tapped->first_duct->size : (struct duct_size){0};
    return tap_along(tapped->from.side, size) / 2 + 4 * INCH;
}

/* Whether every tap that was within one piece is within one again.  Taps are in the order of their stations, and so the pieces that
 * hold them. */
static bool taps_stay(const struct detour *detour) {
    const struct run *run = detour->run;
    double put = run->pieces.at[detour->before]->station;
    size_t at = detour->before;
    for (size_t i = 0; i < run->taps.count; i++) {
        double station = run->taps.at[i]->from.station, half = tap_half(run->taps.at[i]);
        if (station + half <= put)
            continue;
        while (at < run->pieces.count &&
               run->pieces.at[at]->station + detour->along + run->pieces.at[at]->length <= station)
            at++;
        if (at == run->pieces.count || !(run->pieces.at[at]->kind->traits & PIECE_TAKES_TAPS))
            return false;
        double begins = run->pieces.at[at]->station + detour->along;
        if (station - half < begins || station + half > begins + run->pieces.at[at]->length)
            return false;
    }
    return true;
}

/* ---- Trials ------------------------------------------------------------------------------------------------------ */

/* To lengths that one would write: half inches aside and whole ones on, or centimetres. */
static double up_to(double length, double step) {
    return ceil(length / step - 1e-6) * step;
}

static struct space way_in(const struct frame *frame, enum way way) {
    return frame_way(frame, (double)(way == WAY_RIGHT) - (double)(way == WAY_LEFT), 0,
                     (double)(way == WAY_UP) - (double)(way == WAY_DOWN));
}

/* False: there is nothing to pass that way, or no size. */
static bool trial_of(struct clearing *clearing, const struct clash *clash, const struct run *run, size_t before,
                     enum way way, struct trial *trial) {
    const struct piece *piece = run->pieces.at[before];
    if (!piece->near || !size_known(piece->near->size))
        return false;
    struct frame frame = placed_at(clearing->route, run, before)->near;
    bool metric = clearing->job->system == MEASURE_METRIC;
    double needed = aside_needed(clearing, clash, run, way_in(&frame, way));
    double step = metric ? 10 * MILLIMETRE : 0.5 * INCH, whole = metric ? 10 * MILLIMETRE : INCH;
    bool across = way == WAY_LEFT || way == WAY_RIGHT;
    double side = across ? piece->near->size.width : piece->near->size.height;
    if (!(needed > 0))
        return false;
    trial->way = way;
    trial->aside = up_to(needed, step);
    double least = angled_least_length(side, trial->aside) + spare(piece->near->size.shape);
    trial->detour = (struct detour){
        .run = run,
        .before = before,
        .right = across ? (way == WAY_RIGHT ? trial->aside : -trial->aside) : 0,
        .up = across ? 0 : (way == WAY_UP ? trial->aside : -trial->aside),
        .along = up_to(fmax(slope * trial->aside, least), whole),
    };
    return taps_stay(&trial->detour);
}

static int by_aside(const void *left, const void *right) {
    const struct trial *a = left, *b = right;
    if (fabs(a->aside - b->aside) > 1e-9)
        return a->aside < b->aside ? -1 : 1;
    if (a->detour.before != b->detour.before)
        return a->detour.before > b->detour.before ? -1 : 1; /* the nearest place first */
    return (a->way > b->way) - (a->way < b->way);
}

static bool is_same(const struct clash *a, const struct clash *b) {
    return a->run == b->run && a->other == b->other && a->obstacle == b->obstacle;
}

/* Whether the route has no clash but those that were there, and not this one. */
static bool is_cleared(const struct clearing *clearing, const struct route *laid, const struct clash *clash) {
    const struct route *route = clearing->route;
    size_t known = 0; /* both lists are in one order */
    for (size_t i = 0; i < laid->clashes.count; i++) {
        const struct clash *now = &laid->clashes.at[i];
        while (known < route->clashes.count && !is_same(&route->clashes.at[known], now))
            known++;
        if (known == route->clashes.count || is_same(now, clash))
            return false;
    }
    return true;
}

/* Laid again with it, and held against all that stays where it was. */
static bool helps(struct clearing *clearing, const struct trial *trial, const struct clash *clash) {
    struct route *laid = route_lay_again(clearing->arena, clearing->job, clearing->route, &trial->detour);
    clearing->laid += laid->stretches.count + LAID_AT_LEAST;
    route_clashes_again(clearing->arena, clearing->job, laid, clearing->route, clearing->tree);
    bool cleared = !laid->cut_short && is_cleared(clearing, laid, clash);
    arena_clear(clearing->arena);
    return cleared;
}

/* All ways from the last few pieces before the clash in one of its runs. */
static size_t add_trials(struct clearing *clearing, const struct clash *clash, const struct run *run,
                         const struct piece *at, struct trial *trials) {
    size_t count = 0, index = 0, places = 0;
    while (index < run->pieces.count && run->pieces.at[index] != at)
        index++;
    for (size_t i = index + 1; i-- > 0 && places < PLACES;) {
        if (i >= run->pieces.count || !takes_offset(run->pieces.at[i]))
            continue;
        places++;
        for (int way = WAY_LEFT; way <= WAY_DOWN; way++)
            count += trial_of(clearing, clash, run, i, (enum way)way, &trials[count]);
    }
    return count;
}

static const char *length_words(const struct job *job, double length) {
    bool metric = job->system == MEASURE_METRIC;
    return arena_format(job->arena, "%g %s", round(length / (metric ? MILLIMETRE : INCH) * 100) / 100,
                        metric ? "mm" : "in");
}

static void tell(const struct clearing *clearing, const struct trial *trial, struct clash *clash) {
    static const char *const words[] = {
        [WAY_LEFT] = "left", [WAY_RIGHT] = "right", [WAY_UP] = "up", [WAY_DOWN] = "down"};
    clash->offset =
        arena_format(clearing->job->arena, "offset %s %s over %s", length_words(clearing->job, trial->aside),
                     words[trial->way], length_words(clearing->job, trial->detour.along));
    clash->before = trial->detour.run->pieces.at[trial->detour.before]->at;
}

static void clear(struct clearing *clearing, struct clash *clash) {
    struct trial trials[2 * PLACES * WAYS];
    size_t count = add_trials(clearing, clash, clash->run, clash->piece, trials);
    if (clash->other)
        count += add_trials(clearing, clash, clash->other, clash->other_piece, &trials[count]);
    qsort(trials, count, sizeof *trials, by_aside);
    for (size_t i = 0; i < count && !clash->offset && clearing->laid < LAID_AGAIN; i++)
        if (helps(clearing, &trials[i], clash))
            tell(clearing, &trials[i], clash);
}

void route_clear(const struct job *job, struct route *route) {
    if (!route->clashes.count || route->cut_short)
        return;
    struct clearing clearing = {.arena = job->scratch, .job = job, .route = route};
    clearing.tree = route_tree(job->arena, job, route);
    for (size_t i = 0; i < route->clashes.count && i < HINTED; i++)
        clear(&clearing, &route->clashes.at[i]);
}
