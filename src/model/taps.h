/* Where taps may stand along a run. */
#ifndef CLEAT_MODEL_TAPS_H
#define CLEAT_MODEL_TAPS_H

#include "model/piece.h"

/* Stations nearer than this are the same place, m. */
#define SAME_STATION 1e-5

/* Whether runs may be tapped into this piece. */
bool piece_takes_taps(const struct piece *piece);

/* What a run at `port` (PORT_TAP) is cut into: a size of the piece there, or `duct`, the size of the duct it leaves. */
struct duct_size tapped_size(const struct port *port, struct duct_size duct);

/* Whether a tap at `station` stands in `piece`, its ends included. */
bool tap_in_piece(const struct piece *piece, double station);

#endif
