/* The job compiled anew with a change: each alternate, and the questions of what one foot or one outlet more costs. */
#ifndef CLEAT_COMPILE_VARIANTS_H
#define CLEAT_COMPILE_VARIANTS_H

#include "model/job.h"

/* All passes over a job. */
typedef void compile_passes(struct job *job);

/* Compiles the job with each of its alternates, one at a time, and fills their offers.  Errors that come of an alternate are errors of
 * the job and name it; warnings become notes.  Nothing is done for a job with errors. */
void variants_alternates(struct job *job, compile_passes *passes);

/* Fills job->price->what_ifs, when the job is priced and has no errors; once. */
void variants_what_ifs(struct job *job, compile_passes *passes);

#endif
