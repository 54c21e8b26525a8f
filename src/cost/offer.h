/* What an alternate changes in the job: found by compiling it with that (compile/variants.h). */
#ifndef CLEAT_COST_OFFER_H
#define CLEAT_COST_OFFER_H

#include "base/money.h"
#include "model/job.h"

/* A size or an airflow that an alternate changes. */
struct offer_change {
    const char *run;                /* its name */
    double station;                 /* m, where the stretch begins */
    struct duct_size before, after; /* unknown: the run does not reach so far */
    double flow_before, flow_after; /* m3/s */
};

/* A warning that an alternate raises and the job alone does not. */
struct offer_warning {
    const char *check, *message;
};

/* What an alternate changes; struct alternate holds it. */
struct offer {
    bool priced;
    money total;                       /* of the job with it */
    money difference;                  /* of that and the job's own: less than 0 is a deduct */
    LIST(const char *) added, removed; /* names of runs */
    LIST(struct offer_change) changes;
    size_t change_count; /* of all; `changes` has the first OFFER_CHANGES */
    LIST(struct offer_warning) warnings;
};
enum { OFFER_CHANGES = 40 };

#endif
