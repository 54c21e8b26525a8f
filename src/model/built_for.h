/* The static pressure that duct is built for. */
#ifndef CLEAT_MODEL_BUILT_FOR_H
#define CLEAT_MODEL_BUILT_FOR_H

#include "model/job.h"

/* Pa: what the run says (`pressure-class`), else the highest that the points of its unit's blower show, at whichever
 * speed. */
double run_built_for(const struct run *run);

/* Whether the run says it itself, or the job for it: else it is the tool's assumption. */
bool run_built_for_said(const struct run *run);

#endif
