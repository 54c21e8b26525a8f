/* Room for taps along their parent. */
#include "route/tap_room.h"

#include <math.h>

#include "model/lined.h"
#include "model/taps.h"

bool taps_stay(const struct detour *detour) {
    const struct run *run = detour->run;
    double put = run->pieces.at[detour->before]->station;
    size_t at = detour->before;
    for (size_t i = 0; i < run->taps.count; i++) {
        double station = run->taps.at[i]->from.station, toward, away;
        tap_reach(run->taps.at[i], &toward, &away);
        if (station + away <= put)
            continue;
        while (at < run->pieces.count &&
               run->pieces.at[at]->station + detour->along + run->pieces.at[at]->length <= station)
            at++;
        if (at == run->pieces.count || !piece_takes_taps(run->pieces.at[at]))
            return false;
        double begins = run->pieces.at[at]->station + detour->along;
        if (station - toward < begins || station + away > begins + run->pieces.at[at]->length)
            return false;
    }
    return true;
}

bool tap_has_room(const struct run *tapped, double station) {
    double toward, away, other_toward, other_away;
    const struct run *parent = tapped->parent;
    const struct piece *into = tapped->from.into;
    tap_reach(tapped, &toward, &away);
    if (station - toward < into->station || station + away > into->station + into->length)
        return false;
    for (size_t i = 0; i < parent->taps.count; i++) {
        const struct run *other = parent->taps.at[i];
        double at = other->from.station;
        if (other == tapped)
            continue;
        if ((at < tapped->from.station) != (at < station) || fabs(at - station) < SAME_STATION)
            return false; /* past it: other airflow, other sizes */
        tap_reach(other, &other_toward, &other_away);
        if (other->from.side == tapped->from.side && (at < station ? at + other_away + tap_edge > station - toward
                                                                   : at - other_toward - tap_edge < station + away))
            return false;
    }
    return true;
}

double taps_reach_along(const struct run *run, const struct piece *into) {
    double reach = 0, toward, away;
    for (size_t i = 0; i < run->taps.count; i++) {
        if (run->taps.at[i]->from.into != into)
            continue;
        tap_reach(run->taps.at[i], &toward, &away);
        reach = fmax(reach, run->taps.at[i]->from.station + away - into->station);
    }
    return reach;
}

bool taps_share_a_place(const struct run *run, const struct run *other) {
    double toward, away, other_toward, other_away;
    if (!other || run == other || run->from.kind != PORT_TAP || other->from.kind != PORT_TAP ||
        run->parent != other->parent || run->from.side != other->from.side)
        return false;
    tap_reach(run, &toward, &away);
    tap_reach(other, &other_toward, &other_away);
    double on = other->from.station - run->from.station;
    return on < 0 ? -on < other_away + toward - SAME_STATION : on < away + other_toward - SAME_STATION;
}
