/* Where along a stretch its hangers stand: each as far along as the windows and the spacing allow, but off the openings
 * of taps.  One that would stand at an opening moves toward the unit.  Where that takes it out of a window that nothing
 * else is in, another stands beyond the opening, so that the place is borne from both sides. */
#include <stdlib.h>

#include "cost/hang.h"
#include "model/taps.h"

/* ---- Off the openings -------------------------------------------------------------------------------------------- */

/* Straps go down two sides and are turned under the duct; a band goes all round. */
static bool is_passed(const struct run *tapped, struct duct_size into) {
    bool on_top = tapped->from.side == SIDE_TOP && tapped->pieces.count && tapped->pieces.at[0]->upright;
    return into.shape == SHAPE_ROUND || !on_top;
}

void keep_clear(const struct hanging *hanging, struct stretch *stretch, const struct run *tapped) {
    double station = tapped->from.station;
    if (tapped->faulty || !tapped->from.into || !is_passed(tapped, hung_size(tapped->from.into)))
        return;
    struct tap_reach reach = tap_reach_of(tapped);
    struct kept_clear clear = {station - reach.toward - hanging->rules.clear,
                               station + reach.away + hanging->rules.clear};
    while (stretch->clear.count && stretch->clear.at[stretch->clear.count - 1].high > clear.low) {
        const struct kept_clear *before = &stretch->clear.at[--stretch->clear.count];
        clear = (struct kept_clear){fmin(clear.low, before->low), fmax(clear.high, before->high)};
    }
    *list_add(hanging->arena, &stretch->clear) = clear;
}

/* What is kept clear at that station; NULL: nothing.  `next` goes on from where it was left: stations ascend. */
static const struct kept_clear *clear_at(const struct stretch *stretch, double station, size_t *next) {
    while (*next < stretch->clear.count && stretch->clear.at[*next].high < station + 1e-9)
        ++*next;
    bool within = *next < stretch->clear.count && stretch->clear.at[*next].low < station - 1e-9;
    return within ? &stretch->clear.at[*next] : NULL;
}

/* Toward the unit from `wanted`, or else behind the opening; where neither is left in the stretch, at it all the same:
 * the duct must hang. */
static double off_openings(const struct stretch *stretch, double wanted, double most, size_t *next) {
    const struct kept_clear *clear = clear_at(stretch, wanted, next);
    if (!clear)
        return wanted;
    if (clear->low > stretch->from - 1e-9 && (!stretch->hung || clear->low > stretch->last + 1e-9))
        return clear->low;
    return clear->high < fmin(most, stretch->to) + 1e-9 ? clear->high : wanted;
}

/* ---- One after the other ----------------------------------------------------------------------------------------- */

/* Of those that end alike the narrowest is first: it says why. */
static int by_high(const void *left, const void *right) {
    const struct window *a = left, *b = right;
    if (a->high != b->high)
        return a->high > b->high ? 1 : -1;
    if (a->low != b->low)
        return a->low < b->low ? 1 : -1;
    return (a->reason > b->reason) - (a->reason < b->reason);
}

/* Hangers come by station, so that the piece each is at is found on the way. */
static void add_hanger(const struct hanging *hanging, const struct stretch *stretch, size_t *piece, double station,
                       enum hanger_reason reason) {
    const struct run *run = stretch->run;
    while (*piece + 1 < stretch->end && run->pieces.at[*piece + 1]->station <= station + 1e-9)
        ++*piece;
    struct hanger hanger = {
        .run = run, .station = station, .reason = reason, .size = hung_size(run->pieces.at[*piece])};
    hang_metal(&hanger, hanging->job, stretch->spacing);
    *list_add(hanging->takeoff->arena, &hanging->takeoff->hangers) = hanger;
}

void hang_along(const struct hanging *hanging, struct stretch *stretch) {
    if (stretch->windows.count)
        qsort(stretch->windows.at, stretch->windows.count, sizeof *stretch->windows.at, by_high);
    size_t open = 0, next = 0, piece = stretch->first;
    for (;;) {
        while (open < stretch->windows.count && stretch->hung && stretch->windows.at[open].low <= stretch->last + 1e-9)
            open++;
        /* Not before its own beginning, where it hangs closer than the run before. */
        double reach = fmax(stretch->last + stretch->spacing, stretch->from);
        bool done = open == stretch->windows.count;
        if (done && reach > stretch->to - 1e-9)
            return;
        bool apart = done || reach < stretch->windows.at[open].high + 1e-9;
        double wanted = apart ? reach : stretch->windows.at[open].high;
        stretch->last = off_openings(stretch, wanted, reach, &next);
        stretch->hung = true;
        add_hanger(hanging, stretch, &piece, stretch->last, apart ? HUNG_APART : stretch->windows.at[open].reason);
    }
}

void hang_middle(const struct hanging *hanging, struct stretch *stretch) {
    size_t next = 0, piece = stretch->first;
    stretch->last = off_openings(stretch, (stretch->from + stretch->to) / 2, stretch->to, &next);
    stretch->hung = true;
    add_hanger(hanging, stretch, &piece, stretch->last, HUNG_ALONE);
}
