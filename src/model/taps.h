/* Where taps may stand along a run. */
#ifndef CLEAT_MODEL_TAPS_H
#define CLEAT_MODEL_TAPS_H

#include "model/piece.h"

/* Stations nearer than this are the same place, m. */
#define SAME_STATION 1e-5

/* Whether runs may be tapped into this piece. */
bool piece_takes_taps(const struct piece *piece);

/* Whether a tap at `station` stands in `piece`, its ends included. */
bool tap_in_piece(const struct piece *piece, double station);

#endif
