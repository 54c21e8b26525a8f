/* The job with other lines in its text: what the driver offers to a check that tells what to write. */
#ifndef CLEAT_MODEL_RETYPE_H
#define CLEAT_MODEL_RETYPE_H

#include "model/job.h"

/* What stands at `at` gives way to `text`; an empty span: `text` goes there. */
struct line_edit {
    struct span at;
    const char *text;
};

struct retyper {
    /* Reads the job's text with these edits, no two at one place, and runs all passes over it.  The job that comes of
     * it, with diagnostics of its own, is good until the next; NULL: some edit is in a file that the job uses, or in no
     * text. */
    const struct job *(*compile)(const struct retyper *retyper, const struct job *job, const struct line_edit *edits,
                                 size_t count);
};

#endif
