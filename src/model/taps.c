/* Where taps may stand along a run, and what they are cut into. */
#include "model/taps.h"

#include "base/constant.h"
#include "model/lined.h"

const double tap_edge = 0.5 * INCH;

bool piece_takes_taps(const struct piece *piece) {
    unsigned traits = piece->kind->traits;
    return (traits & PIECE_TAKES_TAPS) || ((traits & PIECE_LENGTH) && !(traits & PIECE_FLEXIBLE));
}

bool side_is_flat(enum side side) {
    return side == SIDE_TOP || side == SIDE_BOTTOM;
}

/* A run that leaves upward has its width across the parent, one that leaves sideways its height. */
double tap_across(enum side side, struct duct_size run) {
    return side_is_flat(side) ? run.width : run.height;
}

double tap_along(enum side side, struct duct_size run) {
    return side_is_flat(side) ? run.height : run.width;
}

double tap_wall(struct duct_size duct, enum side side) {
    if (side_is_flat(side))
        return duct.shape == SHAPE_OVAL ? duct.width - duct.height : duct.width;
    return duct.height;
}

double tap_needs(const struct run *tapped, struct duct_size run) {
    struct duct_size metal = size_around(run, tapped->first_duct->lining);
    double across = tap_across(tapped->from.side, metal) + tap_opening_of(tapped->pieces.at[0], metal).across;
    return across + 2 * tap_edge;
}

double tap_has(const struct run *tapped, struct duct_size duct) {
    const struct duct *upstream = tapped->first_duct->upstream;
    struct duct_size metal = size_around(duct, upstream ? upstream->lining : 0);
    return tap_wall(tapped_metal(&tapped->from, metal), tapped->from.side);
}

bool tap_is_wider(const struct run *tapped) {
    const struct duct *own = tapped->first_duct, *parent = tapped->first_section->parent->duct;
    double hole = tap_needs(tapped, own->size) - 2 * tap_edge;
    return tap_has(tapped, parent->size) < hole - SAME_STATION;
}

bool tap_is_larger(const struct run *tapped, struct duct_size run, struct duct_size duct) {
    return size_area(run) > size_area(tapped_size(&tapped->from, duct)) * (1 + 1e-9);
}

bool tap_has_width(const struct run *tapped, struct duct_size run, struct duct_size duct) {
    return tap_has(tapped, duct) >= tap_needs(tapped, run) - SAME_STATION;
}

bool duct_is_tapped(const struct duct *duct) {
    return duct->run->from.kind == PORT_TAP && duct->run->first_duct == duct;
}

/* m of the parent along which a tap on `side` is cut into it: from where to where. */
static void cut_along(const struct run *tapped, enum side side, double *from, double *to) {
    struct duct_size size = duct_metal(tapped->first_duct);
    struct tap_opening opening = tap_opening_of(tapped->pieces.at[0], size);
    *from = tapped->from.station - tap_along(side, size) / 2 - opening.upstream;
    *to = tapped->from.station + tap_along(side, size) / 2 + opening.downstream;
}

static bool is_free(const struct run *tapped, enum side side) {
    const struct run *parent = tapped->from.run;
    double from, to, other_from, other_to;
    cut_along(tapped, side, &from, &to);
    for (size_t i = 0; i < parent->taps.count; i++) {
        const struct run *other = parent->taps.at[i];
        if (other == tapped || other->from.side != side || !other->first_duct || !size_known(other->first_duct->size))
            continue;
        cut_along(other, side, &other_from, &other_to);
        if (other_from - to < tap_edge - SAME_STATION && from - other_to < tap_edge - SAME_STATION)
            return false;
    }
    return true;
}

static bool is_flexible(const struct run *run) {
    for (size_t i = 0; i < run->pieces.count; i++)
        if (run->pieces.at[i]->kind->traits & PIECE_FLEXIBLE)
            return true;
    return false;
}

bool tap_side_with_room(const struct run *tapped, enum side *side) {
    const struct duct *parent = tapped->first_duct->upstream;
    if (!parent || !size_known(parent->size) || !size_known(tapped->first_duct->size) || !is_flexible(tapped))
        return false;
    struct run turned = *tapped;
    enum side first = side_is_flat(tapped->from.side) ? SIDE_LEFT : SIDE_TOP;
    enum side second = side_is_flat(tapped->from.side) ? SIDE_RIGHT : SIDE_BOTTOM;
    for (int i = 0; i < 2; i++) {
        turned.from.side = *side = i ? second : first;
        if (tap_has_width(&turned, tapped->first_duct->size, parent->size) && is_free(tapped, *side))
            return true;
    }
    return false;
}

struct tap_opening tap_opening_of(const struct piece *tap, struct duct_size run) {
    struct tap_opening opening = {0};
    if (tap->kind->opening)
        tap->kind->opening(tap, run, &opening);
    return opening;
}

struct tap_reach tap_reach_of(const struct run *tapped) {
    struct duct_size size = tapped->first_duct ? duct_metal(tapped->first_duct) : (struct duct_size){0};
    struct tap_opening opening = {0};
    if (tapped->pieces.count)
        opening = tap_opening_of(tapped->pieces.at[0], size);
    double half = tap_along(tapped->from.side, size) / 2;
    return (struct tap_reach){.toward = half + opening.upstream, .away = half + opening.downstream};
}

double taps_apart(double station, struct tap_reach reach, double before, struct tap_reach before_reach) {
    return station - reach.toward - (before + before_reach.away);
}

bool tappable_next(const struct run *run, struct tappable *tappable) {
    if (tappable->next >= run->pieces.count)
        return false;
    const struct piece *piece = run->pieces.at[tappable->next++];
    tappable->low = piece->station;
    tappable->high = piece->station + piece->length;
    tappable->takes = piece_takes_taps(piece);
    while (!piece->kind->body && tappable->takes && tappable->next < run->pieces.count) {
        const struct piece *after = run->pieces.at[tappable->next];
        if (after->kind->body || !piece_takes_taps(after))
            break;
        tappable->high += after->length;
        tappable->next++;
    }
    return true;
}

void tappable_find(const struct run *run, const struct piece *into, struct tappable *tappable) {
    while (into && into->station + into->length > tappable->high + SAME_STATION && tappable_next(run, tappable))
        ;
}

bool tappable_holds(const struct tappable *tappable, double station, struct tap_reach reach) {
    return station - reach.toward >= tappable->low - SAME_STATION &&
           station + reach.away <= tappable->high + SAME_STATION;
}

bool tap_in_piece(const struct piece *piece, double station) {
    return station >= piece->station - SAME_STATION && station <= piece->station + piece->length + SAME_STATION;
}

struct duct_size tapped_size(const struct port *port, struct duct_size duct) {
    const struct piece *into = port->into;
    struct duct_size body = into && into->kind->body ? into->kind->body(into) : (struct duct_size){0};
    return size_known(body) ? body : duct;
}
