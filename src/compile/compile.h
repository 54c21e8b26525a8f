/* What a test needs of the driver and the public header does not offer. */
#ifndef CLEAT_COMPILE_COMPILE_H
#define CLEAT_COMPILE_COMPILE_H

#include "base/arena.h"
#include "cleat/cleat.h"
#include "model/job.h"

/* cleat_new with its memory from `source` (NULL: malloc and free), so that a test can make it run out. */
struct cleat *cleat_new_from(const struct arena_source *source, const char *shop_folder);

/* The compiled job, to look at. Owned by `cleat`. */
const struct job *cleat_job(const struct cleat *cleat);

#endif
