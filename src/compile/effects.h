/* What one step more of each estimated dimension does to pressure, sizes and price. */
#ifndef CLEAT_COMPILE_EFFECTS_H
#define CLEAT_COMPILE_EFFECTS_H

#include "compile/variants.h"

/* Fills the effects of job->estimates, once, of a job that has no errors but of its price.  Those in an alternate are
 * held against the job with that alternate.  As many as a bound on the work allows, in file order: first compiled
 * whole, then through their sizes; the rest keep none. */
void effects_ask(struct job *job, const struct compiler *compiler);

#endif
