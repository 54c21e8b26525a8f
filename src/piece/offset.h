/* What an angled offset costs, for those who look at one that the job does not have. */
#ifndef CLEAT_PIECE_OFFSET_H
#define CLEAT_PIECE_OFFSET_H

#include "metal/shape_offset.h"
#include "model/piece.h"

/* Adds the loss of one that goes `way` and is bent so, in the duct at the flow's far end. */
void angled_offset_loss(const struct piece_flow *flow, enum way way, const struct offset_bend *bend, struct loss *loss);

#endif
