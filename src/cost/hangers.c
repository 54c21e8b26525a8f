/* Where duct hangs and by what: as few hangers as the spacing and what must be borne near ask for.
 *
 * Along each stretch that bears itself, from the end toward the unit: none farther from the one before than the
 * spacing; one within 2 ft of each elbow and 4 ft of each branch; ends that nothing else bears within half the spacing
 * of one.  A run that goes on from the end of another counts on from its last hanger.  Each of these is a window that
 * holds a hanger; each hanger goes as far along as the nearest end of an open window and the spacing allow, which makes
 * them as few as can be.  What would then have none has one at its middle, where it is long enough and no hanger of the
 * duct that it is joined to is near.
 *
 * What goes up or down hangs from nothing: a riser stands on supports, each of which bears its share. */
#include <stdlib.h>

#include "cost/count.h"
#include "model/lined.h"
#include "model/insulation.h"
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
const double riser_borne = 4 * FOOT;

/* Flexible duct: SOURCE_FLEX_HANGERS. */
static const double flex_spacing = 4 * FOOT, flex_sag = 2 * INCH;
const double flex_hanger_width = 1.5 * INCH;

struct hanging_rules hanging_rules_of(const struct job *job) {
    return (struct hanging_rules){
        .spacing = job->shop.hang_every,
        .near_turn = measure_chosen(job->system, near_turn),
        .near_branch = measure_chosen(job->system, near_branch),
        .wide_side = measure_chosen(job->system, wide_side),
        .wide_spacing = measure_chosen(job->system, wide_spacing),
        .riser = measure_chosen(job->system, riser_spacing),
        .flexible = measure_chosen(job->system, flex_spacing),
        .flexible_sag = measure_chosen(job->system, flex_sag),
    };
}

/* The pair of straps of one hanger, by half the girth of the duct and the spacing.  SOURCE_HANGER_STRAPS. */
enum { STRAP_ROWS = 4, STRAP_SPACINGS = 4 };
static const double strap_spacings[STRAP_SPACINGS] = {4 * FOOT, 5 * FOOT, 8 * FOOT, 10 * FOOT};
static const struct strap_row {
    double half_girth; /* m, at most */
    struct {
        double width;
        int gauge;
    } at[STRAP_SPACINGS];
} strap_rows[STRAP_ROWS] = {
    {30 * INCH, {{1 * INCH, 22}, {1 * INCH, 22}, {1 * INCH, 22}, {1 * INCH, 22}}},
    {72 * INCH, {{1 * INCH, 22}, {1 * INCH, 22}, {1 * INCH, 20}, {1 * INCH, 18}}},
    {96 * INCH, {{1 * INCH, 22}, {1 * INCH, 20}, {1 * INCH, 18}, {1 * INCH, 16}}},
    {120 * INCH, {{1 * INCH, 20}, {1 * INCH, 18}, {1 * INCH, 16}, {1.5 * INCH, 16}}},
};

/* What a strap has beyond the height and the drop: turned under the duct and fastened above, 2 in each; what a band
 * laps over itself.  Common practice, no source. */
static const double strap_ends = 4 * INCH, band_lap = 2 * INCH;

/* ---- One hanger -------------------------------------------------------------------------------------------------- */

static void choose_strap(struct hanger *hanger, double spacing) {
    double half = size_perimeter(hanger->size) / 2;
    int row = 0, column = 0;
    while (row + 1 < STRAP_ROWS && half > strap_rows[row].half_girth + 1e-9)
        row++;
    while (column + 1 < STRAP_SPACINGS && spacing > strap_spacings[column] + 1e-9)
        column++;
    hanger->strap_width = strap_rows[row].at[column].width;
    hanger->strap_gauge = strap_rows[row].at[column].gauge;
}

static void hang_metal(struct hanger *hanger, const struct job *job, double spacing) {
    double below = job->shop.hang_below;
    choose_strap(hanger, spacing);
    if (hanger->size.shape == SHAPE_ROUND) {
        hanger->kind = HANGER_BAND;
        hanger->strap = PI * hanger->size.width + band_lap + below + strap_ends / 2;
    } else {
        hanger->kind = HANGER_STRAPS;
        hanger->strap = 2 * (below + hanger->size.height + strap_ends);
    }
}

/* Half round the duct with its insulation, and up on both sides. */
static void hang_flex(struct hanger *hanger, const struct piece *piece, const struct job *job) {
    double across = hanger->size.width + 2 * insulation_thickness(piece_insulation(piece, hanger->run));
    hanger->kind = HANGER_SADDLE;
    hanger->strap_width = flex_hanger_width;
    hanger->strap = PI * across / 2 + 2 * (job->shop.hang_below + across / 2) + strap_ends;
}

/* ---- Stretches --------------------------------------------------------------------------------------------------- */

/* A hanger stands in it. */
struct window {
    double low, high; /* m along the run */
    enum hanger_reason reason;
};

/* Pieces first .. end - 1 of a run, which bear each other. */
struct stretch {
    const struct run *run;
    size_t first, end;
    double from, to; /* m along the run */
    bool soft_start; /* begins behind canvas or flexible duct */
    bool face;       /* ends at a face, which is fastened to the building */
    bool goes_on;    /* ends where another run goes on, of no flexible duct */
    bool hung;       /* `last` is a hanger, of this run or the one it goes on from */
    double last;     /* m along the run: the support before; less than `from` when the run before has it */
    double spacing;  /* m */
    LIST(struct window) windows;
};

/* How a run ends, for the one that goes on from it. */
struct run_end {
    bool soft;    /* with flexible duct or canvas */
    bool hung;    /* `since` is counted from a hanger */
    double since; /* m from its last support */
};

struct hanging {
    struct hanging_rules rules;
    struct takeoff *takeoff;
    const struct job *job;
    struct arena *arena;
    size_t tap; /* of the run: the first that no stretch before has passed */
};

static struct duct_size size_of(const struct piece *piece) {
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
        if (station > stretch->from - 1e-9)
            add_window(hanging, stretch, station - hanging->rules.near_branch, station + hanging->rules.near_branch,
                       HUNG_BRANCH);
    }
}

static void window_turns(const struct hanging *hanging, struct stretch *stretch) {
    const struct run *run = stretch->run;
    for (size_t i = stretch->first; i < stretch->end; i++) {
        const struct piece *piece = run->pieces.at[i];
        if (piece->kind->traits & PIECE_TURNS)
            add_window(hanging, stretch, piece->station - hanging->rules.near_turn,
                       piece->station + hanging->rules.near_turn, HUNG_TURN);
    }
}

static int by_high(const void *left, const void *right) {
    const struct window *a = left, *b = right;
    if (a->high != b->high)
        return a->high > b->high ? 1 : -1;
    if (a->low != b->low)
        return a->low > b->low ? 1 : -1;
    return (a->reason > b->reason) - (a->reason < b->reason);
}

/* Hangers come by station, so that the piece each is at is found on the way. */
static void add_hanger(const struct hanging *hanging, const struct stretch *stretch, size_t *piece, double station,
                       enum hanger_reason reason) {
    const struct run *run = stretch->run;
    while (*piece + 1 < stretch->end && run->pieces.at[*piece + 1]->station <= station + 1e-9)
        ++*piece;
    struct hanger hanger = {.run = run, .station = station, .reason = reason, .size = size_of(run->pieces.at[*piece])};
    hang_metal(&hanger, hanging->job, stretch->spacing);
    *list_add(hanging->takeoff->arena, &hanging->takeoff->hangers) = hanger;
}

static void place(const struct hanging *hanging, struct stretch *stretch) {
    if (stretch->windows.count)
        qsort(stretch->windows.at, stretch->windows.count, sizeof *stretch->windows.at, by_high);
    size_t open = 0, piece = stretch->first;
    for (;;) {
        while (open < stretch->windows.count && stretch->hung && stretch->windows.at[open].low <= stretch->last + 1e-9)
            open++;
        /* Not before its own beginning, where it hangs closer than the run before. */
        double reach = fmax(stretch->last + stretch->spacing, stretch->from);
        bool done = open == stretch->windows.count;
        if (done && reach > stretch->to - 1e-9)
            return;
        bool apart = done || reach < stretch->windows.at[open].high + 1e-9;
        stretch->last = apart ? reach : stretch->windows.at[open].high;
        stretch->hung = true;
        add_hanger(hanging, stretch, &piece, stretch->last, apart ? HUNG_APART : stretch->windows.at[open].reason);
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
    size_t piece = stretch->first;
    if (stretch->to - stretch->from < hung_once + 1e-9 || is_borne_beside(hanging, stretch))
        return;
    stretch->last = (stretch->from + stretch->to) / 2;
    stretch->hung = true;
    add_hanger(hanging, stretch, &piece, stretch->last, HUNG_ALONE);
}

static double spacing_of(const struct stretch *stretch, const struct hanging_rules *rules) {
    double spacing = rules->spacing;
    for (size_t i = stretch->first; i < stretch->end; i++) {
        struct duct_size size = size_of(stretch->run->pieces.at[i]);
        if (fmax(size.width, size.height) > rules->wide_side - 1e-9)
            spacing = fmin(spacing, rules->wide_spacing);
    }
    return spacing;
}

static bool is_soft(const struct piece *piece) {
    return piece->kind->traits & (PIECE_FLEXIBLE | PIECE_SOFT);
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

/* From the support before it, `since` m toward the unit. */
static void hang_stretch(struct hanging *hanging, struct stretch *stretch, double since) {
    const struct piece *last = stretch->run->pieces.at[stretch->end - 1];
    stretch->from = stretch->run->pieces.at[stretch->first]->station;
    stretch->to = last->station + last->length;
    stretch->last = stretch->from - since;
    if (!size_known(size_of(last)))
        return;
    find_end(stretch);
    stretch->spacing = spacing_of(stretch, &hanging->rules);
    window_turns(hanging, stretch);
    window_branches(hanging, stretch);
    if (stretch->windows.count || stretch->to - stretch->last > self_borne) {
        window_start(hanging, stretch);
        window_end(hanging, stretch);
        size_t before = hanging->takeoff->hangers.count;
        place(hanging, stretch);
        if (hanging->takeoff->hangers.count == before)
            hang_once(hanging, stretch);
    }
}

/* ---- Runs -------------------------------------------------------------------------------------------------------- */

/* Its two ends are borne by their collars. */
static void hang_flexible(const struct hanging *hanging, const struct piece *piece) {
    if (!size_known(size_of(piece)))
        return;
    double spacing = hanging->rules.flexible;
    size_t spaces = (size_t)whole_ones(piece->length / spacing);
    for (size_t i = 1; i < spaces; i++) {
        struct hanger hanger = {
            .run = piece->run,
            .station = piece->station + piece->length * (double)i / (double)spaces,
            .size = size_of(piece),
        };
        hang_flex(&hanger, piece, hanging->job);
        *list_add(hanging->takeoff->arena, &hanging->takeoff->hangers) = hanger;
    }
}

/* The end of the riser that begins at piece `first`, and whether it is one that needs supports. */
static size_t riser_end(const struct run *run, size_t first, bool *borne) {
    double length = 0;
    size_t end = first;
    for (; end < run->pieces.count && run->pieces.at[end]->upright && !is_soft(run->pieces.at[end]); end++)
        length += run->pieces.at[end]->length;
    *borne = !(length > riser_borne + 1e-9);
    return end;
}

/* As few supports as the spacing asks for, each in the middle of an equal share: floors are where the building has
 * them. */
static void hang_riser(const struct hanging *hanging, struct stretch *stretch) {
    const struct piece *last = stretch->run->pieces.at[stretch->end - 1];
    stretch->from = stretch->run->pieces.at[stretch->first]->station;
    stretch->to = last->station + last->length;
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
            .size = size_of(stretch->run->pieces.at[piece]),
        };
        stretch->last = station;
        stretch->hung = true;
    }
}

/* Where the stretch from piece `first` on ends: before what is soft, and before or behind a riser. */
static size_t stretch_end(const struct run *run, size_t first, bool *riser) {
    bool borne;
    size_t end = first, up = riser_end(run, first, &borne);
    *riser = up > first && !borne;
    if (*riser)
        return up;
    while (end < run->pieces.count && !is_soft(run->pieces.at[end])) {
        up = riser_end(run, end, &borne);
        if (up > end && !borne)
            break;
        end = up > end ? up : end + 1;
    }
    return end;
}

static struct run_end hang_run(struct hanging *hanging, const struct run *run, struct run_end before) {
    struct run_end at = before;
    hanging->tap = 0;
    for (size_t i = 0; i < run->pieces.count;) {
        if (is_soft(run->pieces.at[i])) {
            if (run->pieces.at[i]->kind->traits & PIECE_FLEXIBLE)
                hang_flexible(hanging, run->pieces.at[i]);
            at = (struct run_end){.soft = true};
            i++;
            continue;
        }
        struct stretch stretch = {.run = run, .first = i, .soft_start = at.soft, .hung = at.hung};
        bool riser;
        i = stretch.end = stretch_end(run, i, &riser);
        if (riser)
            hang_riser(hanging, &stretch);
        else
            hang_stretch(hanging, &stretch, at.since);
        at = (struct run_end){.hung = stretch.hung, .since = stretch.to - stretch.last};
        arena_clear(hanging->arena);
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
