/* The job compiled anew with a change. */
#include "compile/variants.h"

struct job *variants_compile(const struct job *job, struct variant change, void (*passes)(struct job *),
                             struct arena *arena) {
    arena_clear(arena); /* of the change before this one */
    struct variant *variant = ARENA_NEW(arena, struct variant);
    *variant = change;
    struct job *changed = variant_new(job, variant, arena);
    passes(changed);
    return changed;
}

const struct job *variants_with(const struct job *job, struct variant change, const struct compiler *compiler) {
    return variants_compile(job, change, compiler->passes, compiler->spare);
}
