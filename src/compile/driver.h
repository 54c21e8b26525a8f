/* A compilation from within: what compile.c and write.c share. */
#ifndef CLEAT_COMPILE_DRIVER_H
#define CLEAT_COMPILE_DRIVER_H

#include <setjmp.h>

#include "compile/compile.h"
#include "compile/variants.h"
#include "lang/syntax.h"

struct cleat {
    struct arena *arena, *scratch;
    struct arena *spare, *beside; /* for what the job would be with a change, and for what that is held against */
    struct diagnostics diagnostics;
    struct syntax syntax;
    struct job job;
    struct effort effort; /* for estimates; a test gives less */
    jmp_buf out_of_memory;
    const char *shop_folder;
    char problem[512];
};

/* Gives `status`, and keeps the words for cleat_problem. */
enum cleat_status driver_problem(struct cleat *cleat, enum cleat_status status, const char *format, ...)
    __attribute__((format(printf, 3, 4)));

/* When memory runs out from now on, cleat->out_of_memory is where to go: right behind its setjmp. */
void driver_guard(struct cleat *cleat);

/* Asks what one more of each thing costs, once: each answer takes as long as compiling. */
void driver_what_ifs(struct cleat *cleat);

/* Asks what one step more of each estimated dimension does, once; likewise, within a bound. */
void driver_effects(struct cleat *cleat);

/* The job with one of its alternates, counted from 1.  Good until the next of these is called. */
const struct job *driver_with_alternate(struct cleat *cleat, size_t alternate);

#endif
