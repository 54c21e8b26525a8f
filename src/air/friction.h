/* Inside src/air: the search for a diameter. */
#ifndef CLEAT_AIR_FRICTION_H
#define CLEAT_AIR_FRICTION_H

#include "air/air.h"

/* A duct as the search sees it: Pa/m at a diameter, m. */
struct rate_curve {
    double (*rate)(const void *duct, double diameter);
    const void *duct;
};

/* The diameter, m, at which `curve` is `rate`, to 1e-9 relative; `flow`, m3/s, places the start.  0 without either. */
double air_search_diameter(const struct rate_curve *curve, const struct air *air, double flow, double rate);

#endif
