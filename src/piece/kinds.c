/* The table of kinds of piece. */
#include "piece/kinds.h"

static const struct piece_kind *const kinds[] = {
    &piece_straight, &piece_elbow,     &piece_offset, &piece_transition, &piece_split, &piece_tap,
    &piece_flex,     &piece_connector, &piece_damper, &piece_boot,       &piece_box,   &piece_cap,
    &piece_drop,     &piece_register,  &piece_grille, &piece_filter,
};

const struct piece_table *piece_kinds(void) {
    static const struct piece_table table = {.kinds = kinds, .count = sizeof kinds / sizeof *kinds};
    return &table;
}
