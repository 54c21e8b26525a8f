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

/* What the wall has beside the hole of a run with a tap, m; less than 0: the hole is the wider. */
static double wall_left(const struct run *tapped, struct duct_size run, struct duct_size duct) {
    const struct port *from = &tapped->from;
    const struct duct *own = tapped->first_duct;
    struct duct_size metal = size_around(run, own->lining);
    struct duct_size into = tapped_metal(from, size_around(duct, own->upstream ? own->upstream->lining : 0));
    return tap_wall(into, from->side) - tap_across(from->side, metal) -
           tap_opening_of(tapped->pieces.at[0], metal).across;
}

bool tap_is_wider(const struct run *tapped) {
    const struct duct *own = tapped->first_duct, *parent = tapped->first_section->parent->duct;
    return (own->fixed || parent->fixed) && wall_left(tapped, own->size, parent->size) < -SAME_STATION;
}

bool tap_has_width(const struct run *tapped, struct duct_size run, struct duct_size duct) {
    return wall_left(tapped, run, duct) >= 2 * tap_edge - SAME_STATION;
}

struct tap_opening tap_opening_of(const struct piece *tap, struct duct_size run) {
    struct tap_opening opening = {0};
    if (tap->kind->opening)
        tap->kind->opening(tap, run, &opening);
    return opening;
}

bool tap_in_piece(const struct piece *piece, double station) {
    return station >= piece->station - SAME_STATION && station <= piece->station + piece->length + SAME_STATION;
}

struct duct_size tapped_size(const struct port *port, struct duct_size duct) {
    const struct piece *into = port->into;
    struct duct_size body = into && into->kind->body ? into->kind->body(into) : (struct duct_size){0};
    return size_known(body) ? body : duct;
}
