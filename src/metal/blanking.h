/* How a joint of rectangular duct is parted into blanks, by what the shop's sheets take; and how many sheets are marked
 * and notched together. */
#ifndef CLEAT_METAL_BLANKING_H
#define CLEAT_METAL_BLANKING_H

#include "metal/body.h"
#include "metal/seam.h"
#include "metal/stock.h"

/* A joint of rectangular duct. */
struct straight_joint {
    struct duct_size size;
    double length;  /* m, finished */
    double ends[2]; /* m, what each end takes: the greater of its sides */
    struct edge_allowance seam;
    double bend_deduction; /* m off for each 90-degree bend; 0: none */
};

/* The blank's length along the duct, m. */
double joint_blank_length(const struct straight_joint *joint);

/* What its blanks measure round the duct, m, allowances included: of one wrap 2 (W + H) + p + f; of two L's W + H + p +
 * f each; of four sides W + 2 p twice and H + 2 f twice.  Arithmetic.  Gives how many kinds of blank there are, 1 or 2.
 */
int joint_girths(const struct straight_joint *joint, enum wrap wrap, double girths[2]);

/* The fewest pieces that a sheet of the stock takes.  False: not even one side fits, and *wrap is four sides. */
bool joint_wrap(const struct straight_joint *joint, const struct stock *stock, enum wrap *wrap);

/* How many sheets of `gauge` are marked and notched together where `declared` (shop.stack) of 26 gauge are: as thick a
 * stack, at least 1.  Outside the gauge table: `declared`.  SOURCE_STACK. */
int metal_stack(int declared, int gauge);

#endif
