/* A run that goes past its end into something: its last straight, made shorter. */
#include "route/shorter.h"

#include <math.h>

#include "base/constant.h"
#include "model/piece.h"
#include "model/taps.h"
#include "route/tap_room.h"

/* What is left of it at least, m, and how much shorter it is made at most: as far as a tap is moved without a word to
 * anybody.  What is met farther from the end is in the way.  Chosen here: no source. */
static const double least_left = 1 * FOOT, most_shorter = 2 * FOOT;

/* The straight that nothing but fittings and a face stand behind, and no other run hangs from; past all pieces: there
 * is none. */
static size_t last_straight(const struct run *run) {
    bool goes_on = run->end != NULL;
    for (int leg = 0; leg < LEG_COUNT; leg++)
        goes_on = goes_on || run->legs[leg];
    for (size_t i = run->pieces.count; i-- > 0 && !goes_on;) {
        const struct piece *piece = run->pieces.at[i];
        unsigned traits = piece->kind->traits;
        if ((traits & PIECE_LENGTH) && !(traits & PIECE_FLEXIBLE) && piece_takes_taps(piece))
            return i;
        goes_on = (traits & PIECE_LENGTH) || piece_takes_taps(piece);
    }
    return run->pieces.count;
}

/* Whether what meets is of it or stands behind it. */
static bool is_from(const struct run *run, size_t first, const struct piece *piece) {
    for (size_t i = first; i < run->pieces.count; i++)
        if (run->pieces.at[i] == piece)
            return true;
    return false;
}

bool clear_by_shortening(struct clearing *clearing, struct clash *clash, const struct run *run) {
    if (!run || clash->run == clash->other)
        return false;
    bool swapped = run == clash->other, metric = clearing->job->system == MEASURE_METRIC;
    size_t at = last_straight(run);
    if (!is_from(run, at, swapped ? clash->other_piece : clash->piece))
        return false;
    const struct piece *straight = run->pieces.at[at];
    const struct placed_run *placed = &clearing->route->runs[run->id];
    const struct placed_piece *there = &clearing->route->pieces.at[placed->first + at + (run->connect != NULL ? 1 : 0)];
    struct space toward = space_scale(there->far.along, -1);
    double need = clear_farther(clearing, NULL, clash, swapped, toward), step = metric ? 10 * MILLIMETRE : INCH;
    if (!(need > 0))
        return false;
    double length = floor((straight->length - need) / step + 1e-6) * step, less = straight->length - length;
    if (length < fmax(least_left, taps_reach_along(run, straight)) || less > most_shorter)
        return false;
    struct detour detour = {.run = run, .before = at, .less = less};
    if (clear_try(clearing, &detour, toward, clash) > 0)
        return false;
    clash->shortened = straight;
    clash->length = length;
    return true;
}
