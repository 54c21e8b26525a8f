/* How thick wrap is, by what it resists: one figure for who counts it and who looks for room. */
#ifndef CLEAT_MODEL_INSULATION_H
#define CLEAT_MODEL_INSULATION_H

/* m as it comes, and as flexible duct has it, for m2 K/W; 0 of none.  SOURCE_WRAP: 3/8 in for each R of the trade, so
 * that R-8 is 3 in. */
double insulation_thickness(double resistance);

/* m as it is hung, pressed to three quarters (R-8: 2-1/4 in): that it keeps its R is what that table is for. */
double insulation_hung(double resistance);

#endif
