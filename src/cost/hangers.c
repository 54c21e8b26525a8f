/* Where duct hangs and by what: as few hangers as the spacing and what must be borne near ask for.
 *
 * Along each stretch that bears itself, from the end toward the unit: none farther from the one before than the
 * spacing; one within 2 ft of each elbow and 4 ft of each branch; ends that nothing else bears within half the spacing
 * of one.  A run that goes on from the end of another counts on from its last hanger.  Each of these is a window that
 * holds a hanger; each hanger goes as far along as the nearest end of an open window and the spacing allow, which makes
 * them as few as can be (hang_along.c).  What would then have none has one at its middle, where it is long enough and
 * no hanger of the duct that it is joined to is near.
 *
 * What goes up or down hangs from nothing.  It ends a stretch, so that the level duct on either side has the hanger
 * that an elbow asks for.  A riser stands on supports, each of which bears its share; a short one is borne by what it
 * is joined to. */
#include "cost/hang.h"
#include "model/lined.h"
#include "model/piece.h"

/* ---- Rules ------------------------------------------------------------------------------------------------------- */

/* SOURCE_HANGERS: read in an excerpt of SMACNA, HVAC Duct Construction Standards, chapter 4. */
static const double near_turn = 2 * FOOT, near_branch = 4 * FOOT;

/* Sides from 60 in on are hung every 4 ft: the published city specification that SOURCE_HANGERS names. */
static const double wide_side = 60 * INCH, wide_spacing = 4 * FOOT;

/* A stretch shorter than this without an elbow is borne by what it is joined to; one up to near_branch when its
 * face is fastened to the building.  Common practice, no source. */
static const double self_borne = 1 * FOOT;

/* A longer stretch between a unit and a face does not rest on these two alone.  Common practice, no source. */
static const double hung_once = 2 * FOOT;

/* Risers stand on a support at each floor, and at least every 12 ft: SOURCE_RISERS.  One so short is borne by what it
 * is joined to: common practice, no source. */
static const double riser_spacing = 12 * FOOT;
static const double riser_borne = 4 * FOOT;

/* From the edge of a tap's opening, or the joint from which duct goes up or down, to the middle of a strap: room for
 * half a strap, the flange of a collar and its screws.  Chosen here, no source. */
static const double strap_clear = 3 * INCH;

/* Flexible duct: SOURCE_FLEX_HANGERS. */
static const double flex_spacing = 4 * FOOT, flex_sag = 2 * INCH;
const double flex_hanger_width = 1.5 * INCH;

struct hanging_rules hanging_rules_of(const struct job *job) {
    return (struct hanging_rules){
        .spacing = job->shop.hang_every,
        .near_turn = measure_chosen(job->system, near_turn),
        .near_branch = measure_chosen(job->system, near_branch),
        .clear = measure_chosen(job->system, strap_clear),
        .wide_side = measure_chosen(job->system, wide_side),
        .wide_spacing = measure_chosen(job->system, wide_spacing),
        .riser = measure_chosen(job->system, riser_spacing),
        .riser_borne = measure_chosen(job->system, riser_borne),
        .flexible = measure_chosen(job->system, flex_spacing),
        .flexible_sag = measure_chosen(job->system, flex_sag),
    };
}

/* ---- Stretches --------------------------------------------------------------------------------------------------- */

struct duct_size hung_size(const struct piece *piece) {
    if (piece->far && size_known(piece->far->size))
        return duct_metal(piece->far);
    return duct_metal(piece->near);
}

static void add_window(const struct hanging *hanging, struct stretch *stretch, double low, double high,
                       enum hanger_reason reason) {
    if (stretch->face && high > stretch->to - 1e-9) /* the face bears it */
        return;
    *list_add(hanging->arena, &stretch->windows) = (struct window){low, fmin(high, stretch->to), reason};
}

static void window_start(const struct hanging *hanging, struct stretch *stretch) {
    double from = stretch->from;
    enum port_kind kind = stretch->run->from.kind;
    if (stretch->soft_start)
        add_window(hanging, stretch, from, from + hanging->rules.near_turn, HUNG_START);
    else if (stretch->first > 0 || kind == PORT_UNIT || kind == PORT_END)
        return;
    else if (stretch->to - from > hanging->rules.near_branch)
        add_window(hanging, stretch, from, from + hanging->rules.near_branch, HUNG_BRANCH);
}

static void window_end(const struct hanging *hanging, struct stretch *stretch) {
    bool last = stretch->end == stretch->run->pieces.count;
    if (stretch->face || stretch->goes_on || stretch->to - stretch->last < self_borne)
        return;
    if (last && stretch->run->split)
        add_window(hanging, stretch, stretch->to - hanging->rules.near_branch, stretch->to, HUNG_BRANCH);
    else
        add_window(hanging, stretch, stretch->to - stretch->spacing / 2, stretch->to, HUNG_END);
}

/* Taps come by station. */
static void window_branches(struct hanging *hanging, struct stretch *stretch) {
    const struct run *run = stretch->run;
    for (; hanging->tap < run->taps.count; hanging->tap++) {
        double station = run->taps.at[hanging->tap]->from.station;
        if (station > stretch->to + 1e-9)
            return;
        if (station < stretch->from - 1e-9)
            continue;
        add_window(hanging, stretch, station - hanging->rules.near_branch, station + hanging->rules.near_branch,
                   HUNG_BRANCH);
        keep_clear(hanging, stretch, run->taps.at[hanging->tap]);
    }
}

/* On the level: what bears the duct beyond one that goes up or down does not count, and where it goes so behind the
 * elbow the straps are off the joint there. */
static void window_turns(const struct hanging *hanging, struct stretch *stretch) {
    const struct run *run = stretch->run;
    double least = stretch->behind_upright ? stretch->from : -INFINITY;
    double most = stretch->ends_upright ? fmax(stretch->from, stretch->to - hanging->rules.clear) : INFINITY;
    for (size_t i = stretch->first; i < stretch->end; i++) {
        const struct piece *piece = run->pieces.at[i];
        if (piece->kind->traits & PIECE_TURNS)
            add_window(hanging, stretch, fmax(least, piece->station - hanging->rules.near_turn),
                       fmin(most, piece->station + hanging->rules.near_turn), HUNG_TURN);
    }
}

/* Whether a hanger of the duct that it is joined to bears it too: one behind it is no farther than the spacing, one
 * stands within reach of each branch, and what goes on from it is hung by the same spacing. */
static bool is_borne_beside(const struct hanging *hanging, const struct stretch *stretch) {
    bool behind = stretch->hung && stretch->to - stretch->last < stretch->spacing + 1e-9;
    bool branch = stretch->first == 0 && stretch->run->from.kind == PORT_TAP &&
                  stretch->to - stretch->from < hanging->rules.near_branch + 1e-9;
    return behind || branch || (stretch->goes_on && !stretch->face);
}

static void hang_once(const struct hanging *hanging, struct stretch *stretch) {
    if (stretch->to - stretch->from < hung_once + 1e-9 || is_borne_beside(hanging, stretch))
        return;
    hang_middle(hanging, stretch);
}

static double spacing_of(const struct stretch *stretch, const struct hanging_rules *rules) {
    double spacing = rules->spacing;
    for (size_t i = stretch->first; i < stretch->end; i++) {
        struct duct_size size = hung_size(stretch->run->pieces.at[i]);
        if (fmax(size.width, size.height) > rules->wide_side - 1e-9)
            spacing = fmin(spacing, rules->wide_spacing);
    }
    return spacing;
}

static bool is_soft(const struct piece *piece) {
    return piece->kind->traits & (PIECE_FLEXIBLE | PIECE_SOFT);
}

static bool goes_upright(const struct stretch *stretch) {
    const struct run *run = stretch->run;
    const struct run *end = run->end && !run->end->faulty && run->end->pieces.count ? run->end : NULL;
    if (stretch->end < run->pieces.count)
        return run->pieces.at[stretch->end]->upright;
    return end && end->pieces.at[0]->upright;
}

/* The building bears its end: a face, a boot on one, or a run that goes on with one. */
static void find_end(struct stretch *stretch) {
    const struct run *run = stretch->run;
    const struct piece *last = run->pieces.at[stretch->end - 1];
    bool behind = stretch->end == run->pieces.count && run->end && !run->end->faulty && run->end->pieces.count;
    const struct piece *next = behind ? run->end->pieces.at[0] : NULL;
    stretch->face =
        last->kind->face || (last->kind->traits & PIECE_FITS_FACE && run->face) || (next && next->kind->face);
    stretch->goes_on = next && !is_soft(next);
}

static void hang_level(struct hanging *hanging, struct stretch *stretch) {
    if (!size_known(hung_size(stretch->run->pieces.at[stretch->end - 1])))
        return;
    find_end(stretch);
    stretch->spacing = spacing_of(stretch, &hanging->rules);
    window_turns(hanging, stretch);
    window_branches(hanging, stretch);
    if (stretch->windows.count || stretch->to - stretch->last > self_borne) {
        window_start(hanging, stretch);
        window_end(hanging, stretch);
        size_t before = hanging->takeoff->hangers.count;
        hang_along(hanging, stretch);
        if (hanging->takeoff->hangers.count == before)
            hang_once(hanging, stretch);
    }
}

/* ---- Runs -------------------------------------------------------------------------------------------------------- */

/* Its two ends are borne by their collars. */
static void hang_flexible(const struct hanging *hanging, const struct piece *piece) {
    if (!size_known(hung_size(piece)))
        return;
    double spacing = hanging->rules.flexible;
    size_t spaces = (size_t)whole_ones(piece->length / spacing);
    for (size_t i = 1; i < spaces; i++) {
        struct hanger hanger = {
            .run = piece->run,
            .station = piece->station + piece->length * (double)i / (double)spaces,
            .size = hung_size(piece),
        };
        hang_flex(&hanger, piece, hanging->job);
        *list_add(hanging->takeoff->arena, &hanging->takeoff->hangers) = hanger;
    }
}

/* Behind the last piece of the duct that goes up or down from piece `first` on. */
static size_t riser_end(const struct run *run, size_t first) {
    while (first < run->pieces.count && run->pieces.at[first]->upright && !is_soft(run->pieces.at[first]))
        first++;
    return first;
}

/* Whether it is so short that what it is joined to bears it: canvas and flexible duct do not. */
static bool is_riser_borne(const struct hanging *hanging, struct stretch *stretch) {
    const struct run *run = stretch->run;
    find_end(stretch);
    bool behind = stretch->end < run->pieces.count && !is_soft(run->pieces.at[stretch->end]);
    bool joined = !stretch->soft_start || behind || stretch->face || stretch->goes_on;
    return stretch->to - stretch->from < (joined ? hanging->rules.riser_borne + 1e-9 : self_borne);
}

/* As few supports as the spacing asks for, each in the middle of an equal share: floors are where the building has
 * them. */
static void stand_riser(const struct hanging *hanging, struct stretch *stretch) {
    double length = stretch->to - stretch->from;
    size_t piece = stretch->first, shares = (size_t)whole_ones(length / hanging->rules.riser);
    for (size_t i = 0; i < shares; i++) {
        double station = stretch->from + length * ((double)i + 0.5) / (double)shares;
        while (piece + 1 < stretch->end && stretch->run->pieces.at[piece + 1]->station <= station + 1e-9)
            piece++;
        *list_add(hanging->takeoff->arena, &hanging->takeoff->hangers) = (struct hanger){
            .run = stretch->run,
            .station = station,
            .kind = HANGER_RISER,
            .reason = HUNG_RISER,
            .size = hung_size(stretch->run->pieces.at[piece]),
        };
        stretch->last = station;
        stretch->hung = true;
    }
}

/* Where the stretch from piece `first` on ends: before what is soft, and before or behind a riser. */
static size_t stretch_end(const struct run *run, size_t first, bool *riser) {
    size_t end = riser_end(run, first);
    *riser = end > first;
    while (!*riser && end < run->pieces.count && !run->pieces.at[end]->upright && !is_soft(run->pieces.at[end]))
        end++;
    return end;
}

/* The stretch from piece `first` on; `next` is what comes behind it. */
static struct run_end hang_stretch(struct hanging *hanging, const struct run *run, size_t first, struct run_end at,
                                   size_t *next) {
    bool riser;
    struct stretch stretch = {.run = run, .first = first, .end = stretch_end(run, first, &riser)};
    const struct piece *last = run->pieces.at[stretch.end - 1];
    stretch.from = run->pieces.at[first]->station;
    stretch.to = last->station + last->length;
    stretch.soft_start = at.soft;
    stretch.behind_upright = at.upright;
    stretch.ends_upright = !riser && goes_upright(&stretch);
    stretch.hung = at.hung;
    stretch.last = stretch.from - at.since;
    if (!riser)
        hang_level(hanging, &stretch);
    else if (!is_riser_borne(hanging, &stretch))
        stand_riser(hanging, &stretch);
    *next = stretch.end;
    arena_clear(hanging->arena);
    return (struct run_end){.upright = riser, .hung = stretch.hung, .since = stretch.to - stretch.last};
}

static struct run_end hang_run(struct hanging *hanging, const struct run *run, struct run_end before) {
    struct run_end at = before;
    hanging->tap = 0;
    for (size_t i = 0; i < run->pieces.count;) {
        const struct piece *piece = run->pieces.at[i];
        if (!is_soft(piece)) {
            at = hang_stretch(hanging, run, i, at, &i);
            continue;
        }
        if (piece->kind->traits & PIECE_FLEXIBLE)
            hang_flexible(hanging, piece);
        at = (struct run_end){.soft = true};
        i++;
    }
    return at;
}

void hang_ducts(struct takeoff *takeoff, const struct job *job) {
    struct hanging hanging = {
        .rules = hanging_rules_of(job),
        .takeoff = takeoff,
        .job = job,
        .arena = job->scratch,
    };
    struct run_end *ends = ARENA_ARRAY(takeoff->arena, struct run_end, job->runs.count + 1); /* by run->id */
    for (size_t r = 0; r < job->metal->runs.count; r++) {
        const struct run *run = job->metal->runs.at[r];
        bool goes_on = run->from.kind == PORT_END && run->parent;
        ends[run->id] = hang_run(&hanging, run, goes_on ? ends[run->parent->id] : (struct run_end){0});
    }
}
