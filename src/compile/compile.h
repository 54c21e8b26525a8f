/* What a test needs of the driver and the public header does not offer. */
#ifndef CLEAT_COMPILE_COMPILE_H
#define CLEAT_COMPILE_COMPILE_H

#include "base/arena.h"
#include "cleat/cleat.h"
#include "model/job.h"

/* cleat_new with its memory from `source` (NULL: malloc and free), so that a test can make it run out. */
struct cleat *cleat_new_from(const struct arena_source *source, const char *shop_folder);

/* cleat_compile_text that stops behind the pass of that name (the table in compile.c), so that a test of what it fills
 * does not wait for what comes behind it.  False: there is no such pass, or not enough memory. */
bool cleat_compile_until(struct cleat *cleat, const char *pass, const char *name, const char *bytes, size_t length);

/* The compiled job, to look at. Owned by `cleat`. */
const struct job *cleat_job(const struct cleat *cleat);

#endif
