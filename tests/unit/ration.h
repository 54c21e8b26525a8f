/* Memory that runs out after so many blocks. */
#ifndef TESTS_UNIT_RATION_H
#define TESTS_UNIT_RATION_H

#include <stdlib.h>

#include "base/arena.h"

static void *ration_take(void *context, size_t size) {
    size_t *left = context;
    if (!*left)
        return NULL;
    --*left;
    return malloc(size);
}

static void ration_give(void *context, void *block) {
    (void)context;
    free(block);
}

/* A source of `*left` blocks; counts it down. */
static inline struct arena_source ration_of(size_t *left) {
    return (struct arena_source){.take = ration_take, .give = ration_give, .context = left};
}

#endif
