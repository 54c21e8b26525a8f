/* What one step more of each estimated dimension does, beside the list of what is to be measured. */
#ifndef CLEAT_REPORT_EFFECTS_H
#define CLEAT_REPORT_EFFECTS_H

#include "model/job.h"
#include "report/document.h"

/* A heading of the third level, and a table with what was asked (compile/effects.h); nothing when nothing was. */
void effects_write(const struct job *job, struct document *document);

#endif
