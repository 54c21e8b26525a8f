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

/* Top or bottom. */
bool side_is_flat(enum side side);

/* What a tapped run of size `run` takes of the side that it is cut into, m: across the parent, and along it. */
double tap_across(enum side side, struct duct_size run);
double tap_along(enum side side, struct duct_size run);

/* How much larger than the run that it begins the hole of a tap is; nothing for what is no tap or says nothing. */
struct tap_opening tap_opening_of(const struct piece *tap, struct duct_size run);

/* Whether a tap at `station` stands in `piece`, its ends included. */
bool tap_in_piece(const struct piece *piece, double station);

#endif
