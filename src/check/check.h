/* The named checks: one row each. */
#ifndef CLEAT_CHECK_CHECK_H
#define CLEAT_CHECK_CHECK_H

#include "model/job.h"

struct look; /* check/checks.h */

struct check {
    const char *name;     /* stable: what `accept` names */
    const char *looks_at; /* one line for reports and help */
    const char *limit;    /* what it holds that against, in words; figures are those of `figures` */
    const char *(*figures)(struct arena *arena); /* the limit with its figures, from where the check has them; NULL: it
                                                    has none of its own */
    void (*run)(const struct look *look);
    enum source_id source; /* of its limit; SOURCE_NONE: it has none, the job itself decides */
};

const struct check *checks(size_t *count);

/* The one of that name; NULL: none. */
const struct check *check_named(const char *name);

/* The limit of a check in words, with its figures in both systems of units. */
const char *check_limit(const struct check *check, struct arena *arena);

/* Runs all, applies the job's acceptances (an acceptance that matches nothing is a warning). */
void check_job(struct job *job);

#endif
