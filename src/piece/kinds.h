/* The table of all kinds of piece: the only place that lists them. */
#ifndef CLEAT_PIECE_KINDS_H
#define CLEAT_PIECE_KINDS_H

#include "model/piece.h"

extern const struct piece_kind piece_straight, piece_elbow, piece_offset, piece_transition, piece_split, piece_tap,
    piece_flex, piece_connector, piece_damper, piece_boot, piece_box, piece_cap, piece_drop, piece_register,
    piece_grille, piece_filter;

/* In the order of the manual. */
const struct piece_table *piece_kinds(void);

#endif
