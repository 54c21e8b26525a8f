/* The smallest offset that clears a clash, makes no other and leaves the headroom: every one that is told has been
 * tried, by laying what hangs behind it again.
 *
 * An offset takes its length from nothing: what stands behind it is hung so much farther on.  What is tapped in keeps
 * its stations, which count the length of the offset too, and so stays where it was along the way. */
#include <math.h>
#include <stdint.h>

#include "base/constant.h"
#include "metal/shape_offset.h"
#include "model/piece.h"
#include "model/taps.h"
#include "route/hull.h"
#include "route/motion.h"
#include "route/tap_room.h"

/* So many clashes are looked at, so many places before each on either side, so far up the runs that it hangs from; so
 * often each is tried, and so many stretches are laid again in all: a job with more is not one that a line mends.
 * Chosen here: no source. */
enum { HINTED = 12, PLACES = 24, WAYS = 4, PARENTS = 8, TRIED = 60, LAID_AGAIN = 60000, LAID_AT_LEAST = 100 };
/* What makes more new clashes is not looked at further, likewise. */
enum { BAD = 16 };

/* An offset goes on so much farther than aside, where that is enough for its two mitres: they turn 22 degrees, which is
 * gentle, and within the table that the loss of mitres is read from.  Common practice, no source. */
static const double slope = 2.5;
/* What does not clear goes on by this at least, m: less than any step.  Chosen here: no source. */
static const double least_more = 1 * MILLIMETRE;

/* Lower by less is rounding, m. */
static const double drop = 1e-6;

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
    size_t laid;
};

struct trial {
    struct detour detour;
    enum way way;
    struct space toward; /* of length 1 */
    double aside;
    size_t before; /* how far back it stands: places count from the clash */
};

/* Those of one clash that are not yet tried. */
struct trials {
    struct trial at[2 * PLACES * WAYS];
    size_t count;
};

/* ---- How far aside ----------------------------------------------------------------------------------------------- */

/* How far `stretch` must go along `way` to have passed what it meets. */
static double beyond(const struct stretch *stretch, const struct hull *other, struct space way) {
    struct hull hull = hull_of_stretch(stretch);
    return space_dot(hull_support(other, way), way) - space_dot(hull_support(&hull, space_scale(way, -1)), way);
}

/* Where a run lies now. */
static const struct route *route_with(const struct clearing *clearing, const struct route *laid,
                                      const struct run *run) {
    return laid && laid->runs[run->id].run ? laid : clearing->route;
}

static const struct stretch *stretch_at(const struct clearing *clearing, const struct route *laid,
                                        const struct run *run, size_t index) {
    return &route_with(clearing, laid, run)->stretches.at[index];
}

/* What `clash` has at its other side, if it has not moved. */
static struct hull hull_met(const struct clearing *clearing, const struct route *laid, const struct clash *clash,
                            bool swapped) {
    if (clash->obstacle)
        return hull_of_box(clash->obstacle->low, clash->obstacle->high);
    return hull_of_stretch(swapped ? stretch_at(clearing, laid, clash->run, clash->stretch)
                                   : stretch_at(clearing, laid, clash->other, clash->other_stretch));
}

/* How much farther one side of a clash must go to be clear of the other. */
static double farther(const struct clearing *clearing, const struct route *laid, const struct clash *clash,
                      bool swapped, struct space way) {
    struct hull met = hull_met(clearing, laid, clash, swapped);
    const struct stretch *stretch = swapped ? stretch_at(clearing, laid, clash->other, clash->other_stretch)
                                            : stretch_at(clearing, laid, clash->run, clash->stretch);
    return beyond(stretch, &met, way) + clash->clearance;
}

/* ---- Where ------------------------------------------------------------------------------------------------------- */

static const struct placed_piece *placed_at(const struct route *route, const struct run *run, size_t piece) {
    return &route->pieces.at[route->runs[run->id].first + piece + (run->connect != NULL ? 1 : 0)];
}

/* What an offset may stand before: what is written, and has duct of one size before it. */
static bool takes_offset(const struct piece *piece) {
    return !piece->implied && !(piece->kind->traits & (PIECE_TAP | PIECE_FLEXIBLE)) && !piece->kind->face;
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

/* Writes the offset of a trial that goes aside by `aside` at least.  False: it cannot be hung there. */
static bool set_aside(const struct clearing *clearing, struct trial *trial, double aside) {
    const struct detour *detour = &trial->detour;
    struct duct_size size = detour->run->pieces.at[detour->before]->near->size;
    bool metric = clearing->job->system == MEASURE_METRIC;
    double step = metric ? 10 * MILLIMETRE : 0.5 * INCH, whole = metric ? 10 * MILLIMETRE : INCH;
    bool across = trial->way == WAY_LEFT || trial->way == WAY_RIGHT;
    trial->aside = up_to(aside, step);
    double least = angled_least_length(across ? size.width : size.height, trial->aside) + spare(size.shape);
    trial->detour.right = across ? (trial->way == WAY_RIGHT ? trial->aside : -trial->aside) : 0;
    trial->detour.up = across ? 0 : (trial->way == WAY_UP ? trial->aside : -trial->aside);
    trial->detour.along = up_to(fmax(slope * trial->aside, least), whole);
    if (taps_stay(&trial->detour))
        return true;
    trial->detour.along = up_to(least, whole); /* steeper, but it leaves the taps more room */
    return taps_stay(&trial->detour);
}

/* The smallest first; of several the nearest to the clash. */
static bool goes_before(const struct trial *a, const struct trial *b) {
    if (fabs(a->aside - b->aside) > 1e-9)
        return a->aside < b->aside;
    if (a->before != b->before)
        return a->before < b->before;
    return a->way < b->way;
}

static struct trial take_smallest(struct trials *trials) {
    size_t best = 0;
    for (size_t i = 1; i < trials->count; i++)
        if (goes_before(&trials->at[i], &trials->at[best]))
            best = i;
    struct trial trial = trials->at[best];
    trials->at[best] = trials->at[--trials->count];
    return trial;
}

static bool is_same(const struct clash *a, const struct clash *b) {
    return a->run == b->run && a->other == b->other && a->obstacle == b->obstacle;
}

/* Whether what is there has gone somewhere else; what is in the offset itself has not: it does not go as a whole. */
static bool has_moved(const struct clearing *clearing, const struct route *laid, const struct run *run,
                      size_t stretch) {
    if (!laid->runs[run->id].run)
        return false;
    size_t now = laid->stretches.at[stretch].piece;
    size_t was = clearing->route->runs[run->id].first + now - laid->runs[run->id].first;
    return stretch >= laid->pieces.at[now].first &&
           space_distance(laid->pieces.at[now].near.origin, clearing->route->pieces.at[was].near.origin) > 1e-6;
}

/* How much farther aside the trial must go for this clash; infinite: that does not help. */
static double still_needed(const struct clearing *clearing, const struct route *laid, const struct trial *trial,
                           const struct clash *clash) {
    bool one = has_moved(clearing, laid, clash->run, clash->stretch);
    bool other = clash->other && has_moved(clearing, laid, clash->other, clash->other_stretch);
    return one == other ? INFINITY : fmax(farther(clearing, laid, clash, other, trial->toward), 0);
}

/* Whether a run that was laid again hangs under its headroom, and lower than it did. */
static bool hangs_too_low(const struct clearing *clearing, const struct route *laid) {
    for (size_t i = 0; i < laid->pieces.count;) {
        const struct placed_run *placed = &laid->runs[laid->pieces.at[i].run->id];
        double asked = route_headroom(placed), level = 0, was = INFINITY;
        i = placed->first + placed->count;
        if (!isfinite(asked) || !route_lowest(laid, placed, &level) || level > asked - drop)
            continue;
        route_lowest(clearing->route, &clearing->route->runs[placed->run->id], &was);
        if (level < was - drop)
            return true;
    }
    return false;
}

/* Laid again with it, and held against all that stays where it was: 0 when the route has no clash then but those that
 * were there, and not this one, and nothing hangs too low for it; else how much farther aside it must go, at least. */
static double try_it(struct clearing *clearing, const struct trial *trial, const struct clash *clash) {
    const struct route *route = clearing->route;
    struct route *laid = route_lay_again(clearing->arena, clearing->job, route, &trial->detour);
    clearing->laid += laid->stretches.count + LAID_AT_LEAST;
    route_clashes_again(clearing->arena, clearing->job, laid, route, clearing->tree);
    double need = laid->cut_short || hangs_too_low(clearing, laid) ? INFINITY : 0;
    size_t known = 0, bad = 0; /* both lists are in one order */
    for (size_t i = 0; i < laid->clashes.count && isfinite(need); i++) {
        const struct clash *now = &laid->clashes.at[i];
        size_t at = known;
        while (at < route->clashes.count && !is_same(&route->clashes.at[at], now))
            at++;
        bool fresh = at == route->clashes.count;
        known = fresh ? known : at;
        if (fresh || is_same(now, clash))
            need = bad++ < BAD ? fmax(fmax(need, least_more), still_needed(clearing, laid, trial, now)) : INFINITY;
    }
    arena_clear(clearing->arena);
    return need;
}

/* ---- All ways and places ----------------------------------------------------------------------------------------- */

static size_t index_of(const struct run *run, const struct piece *piece) {
    size_t index = 0;
    while (index < run->pieces.count && run->pieces.at[index] != piece)
        index++;
    return index;
}

/* The piece of `parent` that bears what hangs from it by `from`. */
static size_t bearer_of(const struct run *parent, const struct port *from) {
    return from->kind == PORT_TAP ? index_of(parent, from->into) : parent->pieces.count;
}

/* What of `run` the other side of the clash stands on or hangs from; a number past all pieces: nothing. */
static size_t other_on(const struct run *run, const struct run *other, const struct piece *piece) {
    if (other == run)
        return index_of(run, piece);
    for (int up = 0; other->parent && up < PARENTS; up++) {
        if (other->parent == run)
            return bearer_of(run, &other->from);
        other = other->parent;
    }
    return SIZE_MAX;
}

/* All ways before one piece. */
static void add_ways(const struct clearing *clearing, const struct clash *clash, bool swapped, const struct run *run,
                     size_t before, size_t place, struct trials *trials) {
    struct frame frame = placed_at(clearing->route, run, before)->near;
    for (int way = WAY_LEFT; way <= WAY_DOWN; way++) {
        struct trial trial = {.detour = {.run = run, .before = before},
                              .way = (enum way)way,
                              .toward = way_in(&frame, (enum way)way),
                              .before = place};
        double needed = farther(clearing, NULL, clash, swapped, trial.toward);
        if (needed > 0 && set_aside(clearing, &trial, needed))
            trials->at[trials->count++] = trial;
    }
}

/* From all places before one side of the clash that do not move the other too, in its run and in those that it hangs
 * from. */
static void add_trials(const struct clearing *clearing, const struct clash *clash, bool swapped,
                       struct trials *trials) {
    const struct run *run = swapped ? clash->other : clash->run, *other = swapped ? clash->run : clash->other;
    const struct piece *other_piece = swapped ? clash->piece : clash->other_piece;
    size_t end = index_of(run, swapped ? clash->other_piece : clash->piece), places = 0;
    for (int up = 0; run && up < PARENTS; up++) {
        size_t stays = other ? other_on(run, other, other_piece) : SIZE_MAX, low = stays == SIZE_MAX ? 0 : stays + 1;
        for (size_t i = end + 1; i-- > low && places < PLACES;) {
            if (i >= run->pieces.count || !takes_offset(run->pieces.at[i]) || !run->pieces.at[i]->near ||
                !size_known(run->pieces.at[i]->near->size))
                continue;
            add_ways(clearing, clash, swapped, run, i, places++, trials);
        }
        if (stays != SIZE_MAX || places == PLACES)
            return;
        end = run->parent ? bearer_of(run->parent, &run->from) : 0;
        run = run->parent;
    }
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
    clash->aside = trial->aside;
    clash->along = trial->detour.along;
    clash->before = trial->detour.run->pieces.at[trial->detour.before]->at;
}

/* ---- A tap put elsewhere ----------------------------------------------------------------------------------------- */

/* So many steps to either side are tried, each of so much, m: what a tap can be moved without a word to anybody. Chosen
 * here: no source. */
enum { STEPS = 8 };
static const double step_inches = 3 * INCH, step_metric = 50 * MILLIMETRE;

static bool move_tap(struct clearing *clearing, struct clash *clash, const struct run *tapped) {
    if (!tapped || tapped->from.kind != PORT_TAP || !tapped->from.into || !tapped->parent)
        return false;
    bool metric = clearing->job->system == MEASURE_METRIC;
    double step = metric ? step_metric : step_inches, from = tapped->from.station;
    const struct placed_piece *into =
        placed_at(clearing->route, tapped->parent, index_of(tapped->parent, tapped->from.into));
    for (int i = 2; i <= 2 * STEPS + 1 && clearing->laid < LAID_AGAIN; i++) {
        int steps = i % 2 ? -(i / 2) : i / 2;
        double station = (round(from / step) + steps) * step;
        if (!tap_has_room(tapped, station))
            continue;
        struct trial trial = {.toward = into->near.along,
                              .detour = {.run = tapped,
                                         .before = SIZE_MAX,
                                         .on = station - from,
                                         .shift = space_scale(into->near.along, station - from)}};
        if (try_it(clearing, &trial, clash) > 0)
            continue;
        clash->moved = tapped;
        clash->station = station;
        return true;
    }
    return false;
}

/* ---- What clears it ---------------------------------------------------------------------------------------------- */

static void clear(struct clearing *clearing, struct clash *clash) {
    struct trials trials = {.count = 0};
    add_trials(clearing, clash, false, &trials);
    if (clash->other)
        add_trials(clearing, clash, true, &trials);
    for (int tried = 0; trials.count && tried < TRIED && clearing->laid < LAID_AGAIN; tried++) {
        struct trial trial = take_smallest(&trials);
        double need = try_it(clearing, &trial, clash);
        if (!(need > 0)) {
            tell(clearing, &trial, clash);
            return;
        }
        if (isfinite(need) && set_aside(clearing, &trial, trial.aside + need))
            trials.at[trials.count++] = trial;
    }
}

void route_clear(const struct job *job, struct route *route) {
    if (!route->clashes.count || route->cut_short)
        return;
    struct clearing clearing = {.arena = job->scratch, .job = job, .route = route};
    clearing.tree = route_tree(job->arena, job, route);
    for (size_t i = 0; i < route->clashes.count && i < HINTED; i++) {
        struct clash *clash = &route->clashes.at[i];
        if (!move_tap(&clearing, clash, clash->run))
            move_tap(&clearing, clash, clash->other);
        if (!taps_share_a_place(clash->run, clash->other))
            clear(&clearing, clash);
    }
}
