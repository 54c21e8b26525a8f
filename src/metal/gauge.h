/* Gauges of sheet: how thick and heavy each is, how heavy a duct asks for, and which one to use. */
#ifndef CLEAT_METAL_GAUGE_H
#define CLEAT_METAL_GAUGE_H

#include "model/job.h"

enum { GAUGE_HEAVIEST = 16, GAUGE_LIGHTEST = 30 }; /* the table's ends; a greater number is thinner sheet */

/* One gauge of galvanised sheet.  SOURCE_GAUGES. */
struct sheet_gauge {
    int gauge;
    double thickness; /* m, nominal, zinc included */
    double least;     /* m, the thinnest that may be sold as this gauge */
    double weight;    /* kg/m2, nominal, galvanised */
};

/* The row of a gauge; NULL outside the table. */
const struct sheet_gauge *metal_gauge(int gauge);

/* Nominal thickness, m; 0 outside the table. */
double metal_thickness(int gauge);

/* Weight of sheet, kg/m2.  Aluminium goes by the number of the galvanised sheet of its thickness (SOURCE_ALUMINIUM).
 * 0 outside the table and for what is no sheet metal. */
double metal_weight(int gauge, enum material material);

/* ---- What a duct asks for ---------------------------------------------------------------------------------------- */

/* Static pressure that a duct is built for: 1/2, 1, 2 in. w.g.; over that no table here goes. */
enum pressure_class { CLASS_HALF, CLASS_ONE, CLASS_TWO, CLASS_OVER, CLASS_COUNT };

/* The least class not under `pressure`, Pa; suction counts as much as pressure.  0, nobody said: CLASS_ONE (from
 * memory: SMACNA, HVAC Duct Construction Standards). */
enum pressure_class metal_class(double pressure);
double metal_class_pressure(enum pressure_class of); /* Pa; infinite for CLASS_OVER */

struct metal_demand {
    int gauge;             /* the lightest usual (even) gauge allowed; 0: of no sheet metal, or no size */
    double thickness;      /* m, the least */
    enum source_id source; /* of the row that decides */
    bool reinforce; /* its size or pressure is beyond the table's end: this gauge, and reinforcement by other rules */
};

/* Size: the long side of a rectangle, the diameter, the long side of a flat oval as if it were round
 * (SOURCE_SHEET_ROUND_HIGH).  Aluminium: thicker by SOURCE_ALUMINIUM_FOR_STEEL.  A higher class never asks for less. */
struct metal_demand metal_demand(struct duct_size size, enum pressure_class of, enum material material);

/* A flat panel that would drum is cross-broken or beaded: `side` 19 in and more, 20 gauge or lighter, more than 10 ft2
 * over its `length` between joints (m, m).  SOURCE_CROSS_BREAK. */
bool metal_cross_break(double side, double length, int gauge);

/* ---- What to use ------------------------------------------------------------------------------------------------- */

struct metal_choice {
    struct metal_demand demand;
    int gauge;     /* to use; 0: of no sheet metal, or no size */
    bool declared; /* the run's own setting decides */
    bool thin;     /* and it is thinner than the duct asks for, or no gauge of the table: a warning's matter */
};

/* The gauge that `settings` declare; else the lightest one that the shop stocks and the duct allows; else the one it
 * asks for.  Stock is of galvanised sheet.  `pressure` as in metal_class. */
struct metal_choice metal_choose(const struct shop *shop, const struct settings *settings, struct duct_size size,
                                 double pressure);

#endif
