/* The static pressure that duct is built for. */
#include "model/built_for.h"

#include <math.h>

bool run_built_for_said(const struct run *run) {
    return run->settings.pressure_class > 0;
}

double run_built_for(const struct run *run) {
    if (run_built_for_said(run))
        return run->settings.pressure_class;
    double highest = 0;
    /* At whichever speed it may be set to one day. */
    for (size_t k = 0; k < run->unit->speeds.count; k++)
        for (size_t i = 0; i < run->unit->speeds.at[k].points.count; i++)
            highest = fmax(highest, run->unit->speeds.at[k].points.at[i].pressure);
    return highest;
}
