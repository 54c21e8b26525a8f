/* What a detour would bring: the route laid again with it, and compared with what was there. */
#include "route/clear_try.h"

#include <math.h>

#include "base/constant.h"
#include "route/hull.h"

/* A trial with more new clashes is given up; each trial counts as so many stretches at least.  Chosen here:
 * no source. */
enum { BAD = 16, LAID_AT_LEAST = 100 };

/* The least that a trial asks to go farther, m: less than any step.  Chosen here: no source. */
static const double least_more = 1 * MILLIMETRE;

/* Lower, or deeper in what is met, by less is rounding, m; what has gone less far has not moved.
 * Chosen here: no source. */
static const double drop = 1e-6, deeper = 1e-5, gone = 1e-6;

/* ---- How far aside ----------------------------------------------------------------------------------------------- */

/* How far `stretch` must go along `way` to have passed what it meets. */
static double beyond(const struct stretch *stretch, const struct hull *other, struct space way) {
    struct hull hull = hull_of_stretch(stretch);
    return space_dot(hull_support(other, way), way) - space_dot(hull_support(&hull, space_scale(way, -1)), way);
}

/* The route that has the run's current place. */
static const struct route *route_with(const struct clearing *clearing, const struct route *laid,
                                      const struct run *run) {
    return laid && laid->runs[run->id].run ? laid : clearing->route;
}

static const struct stretch *stretch_at(const struct clearing *clearing, const struct route *laid,
                                        const struct run *run, size_t index) {
    return &route_with(clearing, laid, run)->stretches.at[index];
}

/* The other side of `clash`, at its current place. */
static struct hull hull_met(const struct clearing *clearing, const struct route *laid, const struct clash *clash,
                            bool swapped) {
    if (!clash->other)
        return hull_of_box(clash->obstacle->low, clash->obstacle->high);
    return hull_of_stretch(swapped ? stretch_at(clearing, laid, clash->run, clash->stretch)
                                   : stretch_at(clearing, laid, clash->other, clash->other_stretch));
}

double clear_farther(const struct clearing *clearing, const struct route *laid, const struct clash *clash, bool swapped,
                     struct space way) {
    struct hull met = hull_met(clearing, laid, clash, swapped);
    const struct stretch *stretch = swapped ? stretch_at(clearing, laid, clash->other, clash->other_stretch)
                                            : stretch_at(clearing, laid, clash->run, clash->stretch);
    return beyond(stretch, &met, way) + clash->clearance;
}

/* ---- Held against what was there --------------------------------------------------------------------------------- */

bool clash_is_same(const struct clash *a, const struct clash *b) {
    return a->run == b->run && a->other == b->other && a->obstacle == b->obstacle;
}

/* Whether the stretch has moved as a whole; those of the offset itself have not. */
static bool has_moved(const struct clearing *clearing, const struct route *laid, const struct run *run,
                      size_t stretch) {
    if (!laid->runs[run->id].run)
        return false;
    size_t now = laid->stretches.at[stretch].piece;
    size_t was = clearing->route->runs[run->id].first + now - laid->runs[run->id].first;
    return stretch >= laid->pieces.at[now].first &&
           space_distance(laid->pieces.at[now].near.origin, clearing->route->pieces.at[was].near.origin) > gone;
}

/* How much farther that way it must go for this clash; infinite: that does not help. */
static double still_needed(const struct clearing *clearing, const struct route *laid, struct space toward,
                           const struct clash *clash) {
    bool one = has_moved(clearing, laid, clash->run, clash->stretch);
    bool other = clash->other && has_moved(clearing, laid, clash->other, clash->other_stretch);
    return one == other ? INFINITY : fmax(clear_farther(clearing, laid, clash, other, toward), 0);
}

/* Whether a run that was laid again hangs under its headroom or its floor, and lower than it did; what was under the
 * floor already has another one. */
static bool hangs_too_low(const struct clearing *clearing, const struct route *laid) {
    for (size_t i = 0; i < laid->pieces.count;) {
        const struct placed_run *placed = &laid->runs[laid->pieces.at[i].run->id];
        double level = 0, was = INFINITY;
        i = placed->first + placed->count;
        if (!placed->positioned || !route_lowest(laid, placed, &level))
            continue;
        route_lowest(clearing->route, &clearing->route->runs[placed->run->id], &was);
        double floor = placed->run->settings.floor,
               asked = fmax(route_headroom(placed), was < floor ? -INFINITY : floor);
        if (level < asked - drop && level < was - drop)
            return true;
    }
    return false;
}

static double nearness(const struct clash *clash) {
    return clash->overlap - clash->apart;
}

double clear_try(struct clearing *clearing, const struct detour *detour, struct space toward,
                 const struct clash *clash) {
    const struct route *route = clearing->route;
    struct route *laid = route_lay_again(clearing->arena, clearing->job, route, detour);
    clearing->laid += laid->stretches.count + LAID_AT_LEAST;
    route_clashes_again(clearing->arena, clearing->job, laid, route, clearing->tree);
    double need = laid->cut_short || hangs_too_low(clearing, laid) ? INFINITY : 0;
    size_t known = 0, bad = 0; /* both lists are in the same order */
    for (size_t i = 0; i < laid->clashes.count && isfinite(need); i++) {
        const struct clash *now = &laid->clashes.at[i];
        size_t at = known;
        while (at < route->clashes.count && !clash_is_same(&route->clashes.at[at], now))
            at++;
        bool fresh = at == route->clashes.count;
        known = fresh ? known : at;
        bool worse = !fresh && nearness(now) > nearness(&route->clashes.at[at]) + deeper;
        if (fresh || worse || clash_is_same(now, clash))
            need = bad++ < BAD ? fmax(fmax(need, least_more), still_needed(clearing, laid, toward, now)) : INFINITY;
    }
    arena_clear(clearing->arena);
    return need;
}
