/* Things of a job by their names.  Each looks through all of them: for few names; for many there is model/names.h. */
#ifndef CLEAT_MODEL_CALLED_H
#define CLEAT_MODEL_CALLED_H

#include "model/job.h"

/* The run, outlet or inlet of the base job that is called so.  NULL: none is, or `name` is NULL. */
const struct run *job_run_called(const struct job *job, const char *name);

/* The name nearest to `name` among units, runs, outlets and inlets, those of alternates too; NULL: none is near. */
const char *job_nearest_name(const struct job *job, const char *name);

#endif
