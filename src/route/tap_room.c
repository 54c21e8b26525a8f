/* Room for taps along their parent. */
#include "route/tap_room.h"

#include <math.h>

#include "model/taps.h"

bool taps_stay(const struct detour *detour) {
    const struct run *run = detour->run;
    double put = run->pieces.at[detour->before]->station;
    struct tappable behind = {.next = detour->before};
    tappable_next(run, &behind);
    for (size_t i = 0; i < run->taps.count; i++) {
        double station = run->taps.at[i]->from.station - detour->along; /* of the pieces behind, as they count now */
        struct tap_reach reach = tap_reach_of(run->taps.at[i]);
        if (run->taps.at[i]->from.station + reach.away <= put + SAME_STATION)
            continue;
        while (behind.high <= station && tappable_next(run, &behind))
            ;
        if (!behind.takes || !tappable_holds(&behind, station, reach))
            return false;
    }
    return true;
}

bool tap_has_room(const struct run *tapped, double station) {
    const struct run *parent = tapped->parent;
    struct tap_reach reach = tap_reach_of(tapped);
    struct tappable into = {0};
    tappable_find(parent, tapped->from.into, &into);
    if (!tappable_holds(&into, station, reach))
        return false;
    for (size_t i = 0; i < parent->taps.count; i++) {
        const struct run *other = parent->taps.at[i];
        double at = other->from.station;
        if (other == tapped)
            continue;
        if ((at < tapped->from.station) != (at < station) || fabs(at - station) < SAME_STATION)
            return false; /* past it: other airflow, other sizes */
        struct tap_reach its = tap_reach_of(other);
        double apart = at < station ? taps_apart(station, reach, at, its) : taps_apart(at, its, station, reach);
        if (other->from.side == tapped->from.side && apart < tap_edge - SAME_STATION)
            return false;
    }
    return true;
}

double taps_reach_along(const struct run *run, const struct piece *into) {
    double reach = 0;
    for (size_t i = 0; i < run->taps.count; i++) {
        if (run->taps.at[i]->from.into != into)
            continue;
        double ends = run->taps.at[i]->from.station + tap_reach_of(run->taps.at[i]).away;
        reach = fmax(reach, ends - into->station);
    }
    return reach;
}

bool taps_share_a_place(const struct run *run, const struct run *other) {
    if (!other || run == other || run->from.kind != PORT_TAP || other->from.kind != PORT_TAP ||
        run->parent != other->parent || run->from.side != other->from.side)
        return false;
    bool before = run->from.station <= other->from.station;
    const struct run *near = before ? run : other, *far = before ? other : run;
    return taps_apart(far->from.station, tap_reach_of(far), near->from.station, tap_reach_of(near)) < -SAME_STATION;
}
