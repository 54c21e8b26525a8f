/* Which sources the papers name: what each reader's figures rest on. */
#ifndef CLEAT_REPORT_BASIS_H
#define CLEAT_REPORT_BASIS_H

#include "model/job.h"
#include "report/document.h"

/* Sets that can be joined. */
enum basis {
    BASIS_AIR = 1,     /* airflows, losses, sizes, checks */
    BASIS_METAL = 2,   /* parts, patterns, nests */
    BASIS_TAKEOFF = 4, /* what is counted and bought */
    BASIS_FIELD = 8,   /* hanging, sealing, measuring */
    BASIS_ALL = 15
};

/* Marks in `used` what these sets rest on; nothing is unmarked. */
void basis_mark(const struct job *job, unsigned sets, bool used[SOURCE_COUNT]);

/* Lists them, each with how it is known. */
void basis_list(const struct job *job, unsigned sets, struct document *document);

#endif
