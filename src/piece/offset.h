/* An angled offset that the job does not have: what it costs, and its line. */
#ifndef CLEAT_PIECE_OFFSET_H
#define CLEAT_PIECE_OFFSET_H

#include "metal/shape_offset.h"
#include "model/piece.h"
#include "route/route.h"

/* Adds the loss of one that goes `way` and is bent so, in the duct at the flow's far end. */
void angled_offset_loss(const struct piece_flow *flow, enum way way, const struct offset_bend *bend, struct loss *loss);

/* "offset 5 in up over 20 in". */
const char *offset_line(struct arena *arena, enum measure_system system, const struct offset_told *told);

#endif
