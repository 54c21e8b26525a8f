/* Taps that have no room: across the side they are cut into, along the duct, or beside each other. */
#include <math.h>

#include "base/constant.h"
#include "check/checks.h"
#include "model/lined.h"

/* A tap and its place on its parent. */
struct placed {
    struct run *run;
    const struct duct *parent;   /* the duct that it leaves */
    struct duct_size into;       /* what it is cut into: a box, or that duct */
    double need, wall;           /* the wall that it needs, its edges among it, and the wall that it has */
    double base;                 /* how much wider across the parent its opening is than its run */
    struct tap_reach reach;      /* of its opening, from its station */
    bool wider;                  /* its hole is wider than the wall */
    const struct placed *before; /* the last tap on the same side, with the farthest reach; NULL: none */
};

static struct placed place_of(struct run *tapped) {
    struct duct_size size = duct_metal(tapped->first_duct);
    struct tap_opening opening = tap_opening_of(tapped->pieces.at[0], size);
    struct placed placed = {.run = tapped, .parent = tapped->first_section->parent->duct};
    placed.into = tapped_metal(&tapped->from, duct_metal(placed.parent));
    placed.base = opening.across;
    placed.need = tap_needs(tapped, tapped->first_duct->size);
    placed.wall = tap_has(tapped, placed.parent->size);
    placed.wider = tap_is_wider(tapped);
    placed.reach = tap_reach_of(tapped);
    return placed;
}

static double ends(const struct placed *placed) {
    return placed->run->from.station + placed->reach.away;
}

/* ---- What is said ------------------------------------------------------------------------------------------------ */

static const char *tap_text(const struct look *look, const struct placed *placed) {
    return check_size_text(look->job, placed->run->first_duct->size);
}

static void relate_into(const struct look *look, struct diagnostic *said, const struct placed *placed) {
    const struct piece *into = placed->run->from.into;
    diagnostic_relate(look->job->diagnostics, said, into ? into->at : placed->parent->at,
                      "what it is cut into begins here");
}

/* A hole wider than its wall cannot be cut, whoever chose the sizes; one that only leaves too little metal beside it is
 * a matter of care. */
static struct diagnostic *tell_wide(const struct look *look, const struct placed *placed) {
    const struct run *tapped = placed->run;
    const char *into = check_size_text(look->job, placed->into);
    const char *side = check_text_up(look->job, SHOW_LINE, placed->need);
    const char *kept = tapped->tap_kept.limit, *dictated = tapped->tap_kept.dictated;
    if (dictated)
        side = arena_format(look->job->arena, "%s: %s", side, dictated);
    else if (kept)
        side = arena_format(look->job->arena, "%s, which is kept from it by %s", side, kept);
    if (!placed->wider)
        return check_warn(look, tapped->from.at, tapped->name,
                          "the tap of %s, %s, does not fit the side of %s, which is %s there: it needs a side of "
                          "%s",
                          check_name(look, tapped), tap_text(look, placed), check_name(look, placed->parent->run), into,
                          side);
    struct diagnostic *said =
        diagnose(look->job->diagnostics, DIAGNOSTIC_ERROR, look->check->name, tapped->from.at,
                 "the tap of %s, %s, cannot be cut into %s, which is %s there: its hole is wider than that side; it "
                 "needs one of %s",
                 check_name(look, tapped), tap_text(look, placed), check_name(look, placed->parent->run), into, side);
    said->subject = tapped->name;
    return said;
}

/* Of the same area, with `across` of it on the wall, in whole units as sold; unknown: it would be flatter than the shop
 * allows, which the check aspect holds it to. */
static struct duct_size flatter(const struct look *look, const struct placed *placed, double across) {
    double unit = look->job->system == MEASURE_METRIC ? 10 * MILLIMETRE : INCH;
    struct duct_size size = placed->run->first_duct->size;
    across = floor(across / unit + 1e-6) * unit;
    double limit = look->job->shop.aspect_limit,
           along = across > 0 ? ceil(size_area(size) / across / unit - 1e-6) * unit : INFINITY;
    if (size.shape != SHAPE_RECTANGULAR || !(across > 0) || (limit > 0 && check_over(along, limit * across)))
        return (struct duct_size){0};
    bool flat = side_is_flat(placed->run->from.side);
    return (struct duct_size){SHAPE_RECTANGULAR, flat ? across : along, flat ? along : across};
}

/* The duct, with a side of `need` where the tap goes. */
static struct duct_size roomier(const struct placed *placed, double need) {
    struct duct_size size = placed->into;
    if (size.shape == SHAPE_ROUND)
        size.width = size.height = need;
    else if (!side_is_flat(placed->run->from.side))
        size.height = need;
    else
        size.width = size.shape == SHAPE_OVAL ? size.height + need : need;
    return size;
}

/* A transition of twice the change: 14 degrees on each of two sides. */
static void hint_transition(const struct look *look, struct diagnostic *said, const struct placed *placed) {
    double need = placed->need, more = need - placed->wall;
    struct duct_size size = roomier(placed, need);
    double unit = look->job->system == MEASURE_METRIC ? MILLIMETRE : INCH / 4;
    size.width = ceil(size.width / unit - 1e-6) * unit;
    size.height = ceil(size.height / unit - 1e-6) * unit;
    const struct piece *into = placed->run->from.into;
    if (into && into->kind->body) {
        diagnostic_relate(look->job->diagnostics, said, into->at, "a box with a side of %s would hold it",
                          check_text_up(look->job, SHOW_LINE, need));
        return;
    }
    diagnostic_hint(look->job->diagnostics, said, "transition to %s over %s",
                    size_figures(look->job->arena, look->job->system, size),
                    check_text_up(look->job, SHOW_LINE, 2 * more));
    diagnostic_relate(look->job->diagnostics, said, into ? into->at : placed->parent->at,
                      "the line goes into %s, before what the tap is cut into, which begins here",
                      placed->parent->run->name);
}

static void say_wide(const struct look *look, const struct placed *placed) {
    const struct run *tapped = placed->run;
    const char *aside = check_other_side(look, tapped, tapped->first_duct->size);
    struct diagnostic *said = tell_wide(look, placed);
    struct duct_size flat =
        flatter(look, placed, placed->wall - placed->base - 2 * (tap_edge + tapped->first_duct->lining));
    if (aside)
        diagnostic_hint(look->job->diagnostics, said, "%s", aside);
    else if (placed->base > 0 && !check_over(placed->need - placed->base, placed->wall))
        diagnostic_hint(look->job->diagnostics, said, "tap straight");
    else if (size_known(flat))
        diagnostic_hint(look->job->diagnostics, said, "size %s",
                        size_figures(look->job->arena, look->job->system, flat));
    else if (tapped->tap_kept.hint)
        diagnostic_hint(look->job->diagnostics, said, "%s", tapped->tap_kept.hint);
    else if (!tapped->tap_kept.limit) {
        hint_transition(look, said, placed);
        return;
    }
    relate_into(look, said, placed);
}

/* "4 in on either side of its middle"; of a shoe "8 in from its middle toward the unit, 4 in away from it". */
static const char *needs_along(const struct look *look, const struct placed *placed) {
    const char *toward = check_text_up(look->job, SHOW_LINE, placed->reach.toward);
    if (placed->reach.toward == placed->reach.away)
        return arena_format(look->job->arena, "%s on either side of its middle", toward);
    return arena_format(look->job->arena, "%s from its middle toward the unit, %s away from it", toward,
                        check_text_up(look->job, SHOW_LINE, placed->reach.away));
}

static void say_long(const struct look *look, const struct placed *placed, const struct tappable *tappable) {
    const struct run *tapped = placed->run;
    double along = placed->reach.toward + placed->reach.away;
    bool room = tappable->high - tappable->low >= along - SAME_STATION;
    struct diagnostic *said = check_warn(
        look, tapped->from.station_at, tapped->name,
        "the tap of %s, %s, is cut over the end of the straight duct of %s: it needs %s", check_name(look, tapped),
        tap_text(look, placed), check_name(look, placed->parent->run), needs_along(look, placed));
    if (room)
        diagnostic_hint(look->job->diagnostics, said, "from %s to %s along the run there is room for it",
                        check_text_up(look->job, SHOW_RUN, tappable->low + placed->reach.toward),
                        check_text_down(look->job, SHOW_RUN, tappable->high - placed->reach.away));
    else
        diagnostic_hint(look->job->diagnostics, said, "%s of straight duct there would hold it",
                        check_text_up(look->job, SHOW_LINE, along));
    relate_into(look, said, placed);
}

/* How far the tap's opening is from one before it on the same side, m; less than 0: they overlap. */
static double apart_from(const struct placed *placed, const struct placed *before) {
    return taps_apart(placed->run->from.station, placed->reach, before->run->from.station, before->reach);
}

/* Two holes that overlap are one, which nothing can be hung from; two with little metal between are a matter of care.
 */
static void say_near(const struct look *look, const struct placed *placed, const struct placed *before) {
    const struct run *tapped = placed->run, *other = before->run;
    struct diagnostics *all = look->job->diagnostics;
    bool overlap = apart_from(placed, before) < -SAME_STATION;
    double need = before->reach.away + placed->reach.toward + tap_edge;
    double apart = tapped->from.station - other->from.station;
    const char *stand = arena_format(
        look->job->arena, "%s and need %s from middle to middle",
        apart < SAME_STATION ? "in one place"
                             : arena_format(look->job->arena, "%s apart", check_text_down(look->job, SHOW_LINE, apart)),
        check_text_up(look->job, SHOW_LINE, need));
    struct diagnostic *said;
    if (overlap) {
        said =
            diagnose(all, DIAGNOSTIC_ERROR, look->check->name, tapped->from.station_at,
                     "the openings of %s and %s overlap on one side of %s, and cannot both be cut: they are %s",
                     check_name(look, other), check_name(look, tapped), check_name(look, placed->parent->run), stand);
        said->subject = tapped->name;
    } else {
        said =
            check_warn(look, tapped->from.station_at, tapped->name,
                       "the taps of %s and %s have little metal between them on one side of %s: they are %s",
                       check_name(look, other), check_name(look, tapped), check_name(look, placed->parent->run), stand);
    }
    diagnostic_hint(all, said, "put one of them on another side, or move it along");
    diagnostic_relate(all, said, other->from.station_at, "the other tap is here");
}

/* ---- Along one run ----------------------------------------------------------------------------------------------- */

/* Gives whether something was said of it. */
static bool tap_misfits(const struct look *look, const struct placed *placed, const struct tappable *tappable) {
    const struct placed *before = placed->before;
    bool overlaps = before && apart_from(placed, before) < -SAME_STATION;
    if (overlaps)
        say_near(look, placed, before);
    if (check_over(placed->need, placed->wall))
        say_wide(look, placed);
    else if (!tappable_holds(tappable, placed->run->from.station, placed->reach))
        say_long(look, placed, tappable);
    else if (before && !overlaps && apart_from(placed, before) < tap_edge - SAME_STATION)
        say_near(look, placed, before);
    else
        return overlaps;
    return true;
}

static void look_at_tap(const struct look *look, const struct placed *placed, const struct tappable *tappable) {
    struct run *run = placed->run;
    if (!look->trial && (check_stands_in(look->job, placed->parent) || check_stands_in(look->job, run->first_duct))) {
        check_pass_over(look, run->name);
        return;
    }
    look->result->looked_at++;
    bool misfits = tap_misfits(look, placed, tappable);
    if (!look->trial)
        run->tap_misfits = misfits;
}

/* Taps and pieces both come in order of station: one walk along the run. */
static void look_at_run(const struct look *look, const struct run *run) {
    struct placed farthest[SIDE_BOTTOM + 1] = {0};
    struct tappable tappable = {0};
    for (size_t i = 0; i < run->taps.count; i++) {
        struct run *tapped = run->taps.at[i];
        if (tapped->faulty || !tapped->first_duct || !size_known(tapped->first_duct->size))
            continue;
        struct placed placed = place_of(tapped);
        if (!size_known(placed.into))
            continue;
        struct placed *last = &farthest[tapped->from.side];
        placed.before = last->run ? last : NULL;
        tappable_find(run, tapped->from.into, &tappable);
        look_at_tap(look, &placed, &tappable);
        if (!last->run || ends(&placed) > ends(last))
            *last = placed;
    }
}

void check_tap_fit(const struct look *look) {
    const struct job *job = look->job;
    for (size_t i = 0; i < job->runs.count; i++)
        if (!job->runs.at[i]->faulty)
            look_at_run(look, job->runs.at[i]);
}

const char *tap_fit_limit(struct arena *arena) {
    return arena_format(arena, "%s of metal on either side of each opening, and between two",
                        check_both(arena, SHOW_SIZE, tap_edge));
}
