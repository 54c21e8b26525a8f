/* Where taps may stand along a run, and what they are cut into. */
#include "model/taps.h"

bool piece_takes_taps(const struct piece *piece) {
    unsigned traits = piece->kind->traits;
    return (traits & PIECE_TAKES_TAPS) || ((traits & PIECE_LENGTH) && !(traits & PIECE_FLEXIBLE));
}

bool tap_in_piece(const struct piece *piece, double station) {
    return station >= piece->station - SAME_STATION && station <= piece->station + piece->length + SAME_STATION;
}

struct duct_size tapped_size(const struct port *port, struct duct_size duct) {
    const struct piece *into = port->into;
    struct duct_size body = into && into->kind->body ? into->kind->body(into) : (struct duct_size){0};
    return size_known(body) ? body : duct;
}
