/* The job compiled anew with other lines in its text. */
#ifndef CLEAT_COMPILE_RETYPE_H
#define CLEAT_COMPILE_RETYPE_H

#include "compile/variants.h"
#include "model/retype.h"

/* What job->retyper points to: `base` first, since that is what the checks are given. */
struct retypist {
    struct retyper base;
    struct compiler compiler;
    const char *shop_folder;
};

struct retypist retypist_make(struct compiler compiler, const char *shop_folder);

#endif
