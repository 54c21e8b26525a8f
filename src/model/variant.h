/* A job as it would be with a change: an alternate, or a question of what something costs. */
#ifndef CLEAT_MODEL_VARIANT_H
#define CLEAT_MODEL_VARIANT_H

#include "model/job.h"

struct variant {
    size_t alternate;             /* 1.. : with that one of its alternates; 0: with none */
    const char *without;          /* a run, outlet or inlet that is left out; NULL: none */
    const char *longer;           /* a run whose last duct of that kind is longer; NULL: none */
    bool flexible;                /* its last flexible duct; false: its last straight one */
    double by;                    /* m */
    const char *sizing;           /* a sizing method in place of the job's; NULL: its own */
    const struct estimate *moved; /* of the job itself: it is its step more; NULL: none */
};

/* A new job from the same syntax tree as `job`, to be compiled with `variant`.  It lives in `arena`, has diagnostics
 * of its own, and uses the scratch memory of `job`. */
struct job *variant_new(const struct job *job, const struct variant *variant, struct arena *arena);

/* Makes the change in a job that has just been built (the end of model_build). */
void variant_apply(struct job *job);

#endif
