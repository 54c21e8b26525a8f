/* What the walls of ducts are worth: what sizing weighs against pressure.  Filled by metal_worth from what the shop
 * says. */
#ifndef CLEAT_MODEL_WORTH_H
#define CLEAT_MODEL_WORTH_H

#include "model/job.h"

struct wall_worth {
    bool priced; /* sheet in money; false: the shop prices none, and a wall is worth its weight, kg */
    bool wrap_priced, lining_priced; /* a square metre of wrap or lining in money; false: they are left out */
    double wrap, lining;             /* money for a m2; 0 when not priced */
    double light; /* of a m2 of the lightest sheet of the table (30 gauge): what stands for a wall that is no sheet
                     metal */
    double gauge[MATERIAL_COUNT][31]; /* of a m2 of sheet of that material and gauge, money or kg; 0: no such sheet */
    /* The gauge of a run's duct of that size, by the shop's stock and the pressure; 0: no sheet metal. */
    int (*gauge_of)(const struct job *job, const struct run *run, struct duct_size size);
};

#endif
