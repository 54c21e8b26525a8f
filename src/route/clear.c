/* The smallest gentle offset that clears a clash, makes no other and none worse, and leaves the headroom: every one
 * that is told has been tried, by laying what hangs behind it again.
 *
 * An offset adds its length to the run: what stands behind it moves on by so much.  What is tapped in keeps
 * its stations, which count the length of the offset too, and so stays where it was along the way. */
#include <math.h>
#include <stdint.h>
#include <stdlib.h>

#include "base/constant.h"
#include "model/piece.h"
#include "model/taps.h"
#include "route/clear_try.h"
#include "route/offset_choice.h"
#include "route/shorter.h"
#include "route/tap_room.h"

/* Limits: clashes looked at; places before each, on either side; ways; parents looked through; trials of each clash;
 * stretches laid again in all.  A job with more is not mended by one line. Chosen here: no source. */
enum { HINTED = 12, PLACES = 24, WAYS = 4, PARENTS = 8, TRIED = 60, LAID_AGAIN = 60000 };

/* What goes farther aside is another route, m.  Chosen here: no source. */
static const double most_aside = 10 * FOOT;

struct trial {
    struct detour detour;
    enum way way;
    struct space toward; /* of length 1 */
    int grade;           /* of the choice */
    struct offset_choice choice;
    bool follows;  /* a steeper form of another trial, whose distance aside has been raised already */
    size_t before; /* how many places before the clash it stands */
};

/* The trials of one clash that are not made yet. */
struct trials {
    struct trial at[4 * PLACES * WAYS + 2 * TRIED];
    size_t count;
};

/* ---- Where ------------------------------------------------------------------------------------------------------- */

static const struct placed_piece *placed_at(const struct route *route, const struct run *run, size_t piece) {
    return &route->pieces.at[route->runs[run->id].first + piece + (run->connect != NULL ? 1 : 0)];
}

/* Whether an offset may stand before the piece: it is written in the job, and has plain duct before it. */
static bool takes_offset(const struct piece *piece) {
    return !piece->implied && !(piece->kind->traits & (PIECE_TAP | PIECE_FLEXIBLE)) && !piece->kind->face;
}

/* ---- Trials ------------------------------------------------------------------------------------------------------ */

static struct space way_in(const struct frame *frame, enum way way) {
    return frame_way(frame, (double)(way == WAY_RIGHT) - (double)(way == WAY_LEFT), 0,
                     (double)(way == WAY_UP) - (double)(way == WAY_DOWN));
}

/* The straight duct of a run, m: no offset is longer. */
static double straight_of(const struct run *run) {
    double length = 0;
    for (size_t i = 0; i < run->pieces.count; i++)
        if (run->pieces.at[i]->kind->traits & PIECE_LENGTH)
            length += run->pieces.at[i]->length;
    return length;
}

/* Adds the trial with the first grade from `grade` on that goes aside by `aside` at least and can be hung there. */
static void add_trial(const struct clearing *clearing, struct trials *trials, struct trial trial, double aside,
                      int grade) {
    const struct detour *detour = &trial.detour;
    const struct duct *duct = detour->run->pieces.at[detour->before]->near;
    for (; grade < OFFSET_GRADES; grade++) {
        if (!offset_choose(clearing->job->system, duct, trial.way, aside, grade, &trial.choice))
            continue;
        double sign = trial.way == WAY_RIGHT || trial.way == WAY_UP ? 1 : -1;
        bool across = way_is_level(trial.way);
        trial.grade = grade;
        trial.detour.right = across ? sign * trial.choice.aside : 0;
        trial.detour.up = across ? 0 : sign * trial.choice.aside;
        trial.detour.along = trial.choice.along;
        if (trial.choice.aside > most_aside + 1e-9 || trial.choice.along > straight_of(detour->run))
            return; /* nor is a steeper one told in its stead */
        if (!taps_stay(detour))
            continue;
        trials->at[trials->count++] = trial;
        return;
    }
}

/* An offset that does not clear is tried farther aside, and steeper, which leaves more room behind it. */
static void go_on(const struct clearing *clearing, struct trials *trials, const struct trial *trial, double need) {
    struct trial next = *trial;
    if (!trial->follows)
        add_trial(clearing, trials, next, trial->choice.aside + need, 0);
    next.follows = true;
    add_trial(clearing, trials, next, trial->choice.aside, trial->grade + 1);
}

/* An offset before the first piece of a split's leg: the split then no longer sets the leg's size, which may change.
 * As dear as one that is longer than a sheet (offset_choice.c).  Chosen here: no source. */
enum { AT_LEG = 100 };

static double dearness(const struct trial *trial) {
    bool at_leg = trial->detour.run->pieces.at[trial->detour.before]->near->leg_start;
    return trial->choice.aside * trial->choice.dear * (at_leg ? AT_LEG : 1);
}

/* The smallest first, with dearer kinds counted as larger; among equals the nearest to the clash. */
static bool goes_before(const struct trial *a, const struct trial *b) {
    double one = dearness(a), other = dearness(b);
    if (fabs(one - other) > 1e-9)
        return one < other;
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

/* The index of the piece of `run` that the other side of the clash is, or hangs from; the count of pieces: it hangs
 * from the end; SIZE_MAX: neither. */
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
        double needed = clear_farther(clearing, NULL, clash, swapped, trial.toward);
        if (!(needed > 0))
            continue;
        size_t count = trials->count;
        add_trial(clearing, trials, trial, needed, 0);
        trial.follows = true;
        if (trials->count > count && trials->at[count].grade != OFFSET_SLIGHT)
            add_trial(clearing, trials, trial, needed, OFFSET_SLIGHT);
    }
}

/* From all places, in the run of one side of the clash and in its parents, where an offset does not move the other side
 * too. */
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

static void tell(const struct trial *trial, struct clash *clash) {
    clash->offset = (struct offset_told){
        .found = true, .way = trial->way, .aside = trial->choice.aside, .along = trial->choice.along};
    clash->before = trial->detour.run->pieces.at[trial->detour.before];
}

static bool meets_the_same(const struct clash *a, const struct clash *b) {
    return a->obstacle ? a->obstacle == b->obstacle : a->other == b->other;
}

/* Other clashes with the same thing, of runs that the offset moves, which it clears as well. */
static void tell_what_it_clears_too(const struct clearing *clearing, struct route *route, const struct trial *trial,
                                    struct clash *clash) {
    struct route *laid = route_lay_again(clearing->arena, clearing->job, route, &trial->detour);
    route_clashes_again(clearing->arena, clearing->job, laid, route, clearing->tree);
    for (size_t i = 0; i < route->clashes.count; i++) {
        struct clash *other = &route->clashes.at[i];
        bool stays = !laid->runs[other->run->id].run;
        for (size_t k = 0; k < laid->clashes.count && !stays; k++)
            stays = clash_is_same(&laid->clashes.at[k], other);
        if (other == clash || other->offset.found || other->moved || stays || !meets_the_same(other, clash))
            continue;
        other->offset = clash->offset;
        other->before = clash->before;
        other->with = clash->run;
    }
    arena_clear(clearing->arena);
}

/* A tap that is put at another station. */
static struct detour tap_moved(const struct clearing *clearing, const struct run *tapped, double station) {
    const struct placed_piece *into =
        placed_at(clearing->route, tapped->parent, index_of(tapped->parent, tapped->from.into));
    double on = station - tapped->from.station;
    return (struct detour){.run = tapped, .before = SIZE_MAX, .on = on, .shift = space_scale(into->near.along, on)};
}

/* The detour that a clash has for its hint besides an offset; false: it has none. */
static bool hinted(const struct clearing *clearing, const struct clash *clash, struct detour *detour) {
    if (clash->shortened) {
        const struct run *run = clash->shortened->run;
        *detour = (struct detour){
            .run = run, .before = index_of(run, clash->shortened), .less = clash->shortened->length - clash->length};
        return true;
    }
    if (clash->moved)
        *detour = tap_moved(clearing, clash->moved, clash->station);
    return clash->moved != NULL;
}

/* What an offset clears too, the hint that is told before it may leave as it is. */
static void tell_what_the_hint_leaves(const struct clearing *clearing, struct route *route, const struct clash *clash) {
    struct detour detour;
    if (!hinted(clearing, clash, &detour))
        return;
    struct route *laid = route_lay_again(clearing->arena, clearing->job, route, &detour);
    route_clashes_again(clearing->arena, clearing->job, laid, route, clearing->tree);
    for (size_t i = 0; i < route->clashes.count; i++) {
        struct clash *other = &route->clashes.at[i];
        if (other->with != clash->run || other->before != clash->before)
            continue;
        other->keeps = !laid->runs[other->run->id].run && !(other->other && laid->runs[other->other->id].run);
        for (size_t k = 0; k < laid->clashes.count; k++)
            other->keeps = other->keeps || clash_is_same(&laid->clashes.at[k], other);
    }
    arena_clear(clearing->arena);
}

/* ---- A tap put elsewhere ----------------------------------------------------------------------------------------- */

/* Steps tried to either side, and their length, m: as far as a tap can be moved without asking anybody. Chosen
 * here: no source. */
enum { STEPS = 8 };
static const double step_inches = 3 * INCH, step_metric = 50 * MILLIMETRE;

static bool move_tap(struct clearing *clearing, struct clash *clash, const struct run *tapped) {
    if (!tapped || tapped->from.kind != PORT_TAP || !tapped->from.into || !tapped->parent)
        return false;
    bool metric = clearing->job->system == MEASURE_METRIC;
    double step = metric ? step_metric : step_inches, from = tapped->from.station;
    for (int i = 2; i <= 2 * STEPS + 1 && clearing->laid < LAID_AGAIN; i++) {
        int steps = i % 2 ? -(i / 2) : i / 2;
        double station = (round(from / step) + steps) * step;
        if (!tap_has_room(tapped, station))
            continue;
        struct detour detour = tap_moved(clearing, tapped, station);
        if (clear_try(clearing, &detour, space_unit(detour.shift), clash) > 0)
            continue;
        clash->moved = tapped;
        clash->station = station;
        return true;
    }
    return false;
}

/* ---- What clears it ---------------------------------------------------------------------------------------------- */

static void clear(struct clearing *clearing, struct route *route, struct clash *clash) {
    struct trials trials = {.count = 0};
    add_trials(clearing, clash, false, &trials);
    if (clash->other)
        add_trials(clearing, clash, true, &trials);
    for (int tried = 0; trials.count && tried < TRIED && clearing->laid < LAID_AGAIN; tried++) {
        struct trial trial = take_smallest(&trials);
        double need = clear_try(clearing, &trial.detour, trial.toward, clash);
        if (!(need > 0)) {
            tell(&trial, clash);
            tell_what_it_clears_too(clearing, route, &trial, clash);
            tell_what_the_hint_leaves(clearing, route, clash);
            return;
        }
        if (isfinite(need))
            go_on(clearing, &trials, &trial, need);
    }
}

static size_t depth_of(const struct run *run) {
    size_t depth = 0;
    for (; run->parent; run = run->parent)
        depth++;
    return depth;
}

/* Runs before what hangs from them: an offset of the run may clear both. */
struct turn {
    size_t depth, index;
};

static int by_depth(const void *left, const void *right) {
    const struct turn *a = left, *b = right;
    if (a->depth != b->depth)
        return a->depth < b->depth ? -1 : 1;
    return (a->index > b->index) - (a->index < b->index);
}

/* A run that only taps leave is as long as they ask: shorter it is the better for it. */
static bool only_taps_leave(const struct piece *shortened) {
    return shortened && shortened->run->role == RUN_DUCT;
}

static void clear_one(struct clearing *clearing, struct route *route, struct clash *clash) {
    if (!clear_by_shortening(clearing, clash, clash->run))
        clear_by_shortening(clearing, clash, clash->other);
    if (only_taps_leave(clash->shortened))
        return;
    if (!clash->shortened && !move_tap(clearing, clash, clash->run))
        move_tap(clearing, clash, clash->other);
    if (!taps_share_a_place(clash->run, clash->other))
        clear(clearing, route, clash);
}

void route_clear(const struct job *job, struct route *route) {
    if (!route->clashes.count || route->cut_short)
        return;
    struct clearing clearing = {.arena = job->scratch, .job = job, .route = route};
    clearing.tree = route_tree(job->arena, job, route);
    struct turn *turns = ARENA_ARRAY(job->arena, struct turn, route->clashes.count);
    for (size_t i = 0; i < route->clashes.count; i++)
        turns[i] = (struct turn){depth_of(route->clashes.at[i].run), i};
    qsort(turns, route->clashes.count, sizeof *turns, by_depth);
    for (size_t i = 0, looked_at = 0; i < route->clashes.count && looked_at < HINTED; i++)
        if (!route->clashes.at[turns[i].index].with) {
            clear_one(&clearing, route, &route->clashes.at[turns[i].index]);
            looked_at++;
        }
}
