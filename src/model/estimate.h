/* Dimensions that the job gives only `about`, and how far one is moved to see what it does. */
#ifndef CLEAT_MODEL_ESTIMATE_H
#define CLEAT_MODEL_ESTIMATE_H

#include "model/job.h"

struct effect; /* cost/effect.h */
struct waits;  /* metal/waits.h */

struct estimate {
    const struct statement *statement; /* it stands in */
    struct span at;                    /* its figure */
    const char *where;                 /* the name of the run, unit, job it belongs to, as declared */
    const struct alternate *alternate; /* the alternate it stands in; NULL: the base job */
    const struct slot *slot;           /* what it is for */
    enum measure_use use;              /* how it is shown; of an angle, as `slot` says: MEASURE_USE_COUNT */
    double value;                      /* as given, SI; of a size its width */
    double step;                       /* what it is moved by, SI; 0: nothing is asked of it */
    struct waits *waits;               /* by metal_make: what waits for its statement; NULL: nothing is made */
    struct effect *effect;             /* filled when somebody asks (compile/effects.h); NULL: it has not been */
};

struct build;

/* Adds what `reading` has of estimates to the job, in the order of the file, and moves the one that the job's variant
 * names. */
void estimates_take(struct build *build, struct reading *reading);

#endif
