/* What the walls of ducts are worth. */
#ifndef CLEAT_METAL_WORTH_H
#define CLEAT_METAL_WORTH_H

#include "model/worth.h"

/* Fills job->worth from the shop's stock and prices. */
void metal_worth(struct job *job);

#endif
