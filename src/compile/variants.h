/* The job compiled anew with a change: with each alternate, and with one foot or one outlet more. */
#ifndef CLEAT_COMPILE_VARIANTS_H
#define CLEAT_COMPILE_VARIANTS_H

#include "model/variant.h"

/* What may be spent on all questions of estimates together, counted in runs compiled: `whole` through all passes,
 * where each job counts some more runs for its nest; `sizes` through sizing only. */
struct effort {
    size_t whole, sizes;
};

/* All passes over a job, those through its sizes, and memory for the changed one: what is to stay is copied from it,
 * and it is cleared. */
struct compiler {
    void (*passes)(struct job *job), (*sizes)(struct job *job);
    struct arena *spare, *beside; /* the second for one that others are held against */
    struct effort effort;
};

/* The job compiled with a change, in `arena`, which is cleared first.  Its diagnostics are its own. */
struct job *variants_compile(const struct job *job, struct variant change, void (*passes)(struct job *),
                             struct arena *arena);

/* The same with all passes, in compiler->spare: good until the next change is compiled there. */
const struct job *variants_with(const struct job *job, struct variant change, const struct compiler *compiler);

/* ---- Alternates (alternates.c) ----------------------------------------------------------------------------------- */

/* Compiles the job with each of its alternates, one at a time, and fills their offers.  Errors that come of an
 * alternate are errors of the job and name it; warnings become notes.  Nothing is done for a job with errors. */
void variants_alternates(struct job *job, const struct compiler *compiler);

/* ---- Questions (what_ifs.c) -------------------------------------------------------------------------------------- */

/* Of a job whose sizing method is compared with another (least-cost with equal-friction), is priced and has no errors:
 * fills job->price->compared, and warns where the other is cheaper, since least-cost has the least of walls and not of
 * whole sheets, boxes and hours.  Before the checks, which count and accept the warning. */
void variants_compared(struct job *job, const struct compiler *compiler);

/* Fills job->price->what_ifs, when the job is priced and has no errors; once. */
void variants_what_ifs(struct job *job, const struct compiler *compiler);

#endif
