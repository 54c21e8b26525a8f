/* A table of names: constant time however many runs a job has. */
#ifndef CLEAT_MODEL_NAMES_H
#define CLEAT_MODEL_NAMES_H

#include <stdint.h>

#include "base/arena.h"

struct name {
    const char *text; /* NULL: a free place */
    uint64_t hash;
    void *thing; /* what is called so; NULL when just added */
    int kind;    /* what kind of thing, as the owner of the table counts them */
};

struct names {
    struct arena *arena;
    struct name *at;
    size_t count, room; /* room is a power of two, or 0 */
};

/* The entry called `text`, or NULL. */
struct name *names_find(const struct names *names, const char *text);

/* The entry called `text`, added when it was not there (then its thing is NULL).  Valid until the next names_add. */
struct name *names_add(struct names *names, const char *text);

#endif
