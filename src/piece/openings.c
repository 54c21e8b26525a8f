/* The openings that a joint of straight duct or a box is cut with, and those that have no room in it. */
#include "piece/openings.h"

#include "model/taps.h"

bool opening_is_made(const struct run *tapped) {
    return !tapped->faulty && tapped->first_section && tapped->first_section->parent && tapped->first_duct &&
           size_known(tapped->first_duct->size);
}

double opening_along(const struct wall_opening *opening) {
    return side_is_flat((enum side)opening->side) ? opening->section.height : opening->section.width;
}

/* ---- Whether they keep clear of each other ----------------------------------------------------------------------- */

/* Half of what it takes of the way round the duct, rad; 0: the wall is flat. */
static double half_angle(const struct wall_opening *opening) {
    bool flat = side_is_flat((enum side)opening->side);
    double across = flat ? opening->section.width : opening->section.height;
    return opening->tap.wall > 0 ? asin(fmin(across / opening->tap.wall, 1)) : 0;
}

/* On one side of the duct all lie on one line; on round duct two that stand a quarter apart may meet as well. */
static bool may_meet(const struct openings *openings, const struct wall_opening *opening, enum side other) {
    enum side side = (enum side)opening->side;
    if (side == other)
        return true;
    bool quarter = side_is_flat(side) != side_is_flat(other);
    return quarter && half_angle(opening) + openings->angle[other] > PI / 2 + 1e-9;
}

/* They come by station, and each opening has its station within it: one that begins behind the reach of those before
 * lies behind them. */
static bool keeps_clear(const struct openings *openings, const struct wall_opening *opening) {
    double begin = opening->station - opening_along(opening) / 2;
    for (enum side other = SIDE_LEFT; other <= SIDE_BOTTOM; other++)
        if ((openings->sides & (1u << other)) && begin < openings->reach[other] - SAME_STATION &&
            may_meet(openings, opening, other))
            return false;
    return true;
}

void openings_add(struct openings *openings, struct arena *arena, const struct run *tapped,
                  const struct wall_opening *opening, bool fits) {
    enum side side = (enum side)opening->side;
    if (!fits || !keeps_clear(openings, opening)) {
        *list_add(arena, &openings->left_out) = tapped->name;
        return;
    }
    openings->at[openings->count++] = *opening;
    openings->sides |= 1u << side;
    openings->reach[side] = opening->station + opening_along(opening) / 2;
    openings->angle[side] = half_angle(opening);
}

/* ---- What is said of those that do not --------------------------------------------------------------------------- */

/* More names than these nobody reads in a table: chosen here. */
enum { NAMES_SHOWN = 12 };

const char *openings_note(const struct openings *openings, struct arena *arena, const char *thing) {
    size_t count = openings->left_out.count, shown = count > NAMES_SHOWN ? NAMES_SHOWN - 2 : count;
    if (!count)
        return NULL;
    const char *names = openings->left_out.at[0];
    for (size_t i = 1; i < shown; i++)
        names = arena_format(arena, "%s, %s", names, openings->left_out.at[i]);
    if (shown < count)
        names = arena_format(arena, "%s and %zu more", names, count - shown);
    if (count == 1)
        return arena_format(arena,
                            "the opening for %s has no room in this %s and is not on its pattern: cut it in place",
                            names, thing);
    return arena_format(arena,
                        "the openings for %s have no room in this %s and are not on its pattern: cut them in place",
                        names, thing);
}
