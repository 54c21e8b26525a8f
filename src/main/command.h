/* The commands, and what their words and those of the command line have in common. */
#ifndef CLEAT_MAIN_COMMAND_H
#define CLEAT_MAIN_COMMAND_H

#include <stdio.h>

#include "cleat/cleat.h"

struct options {
    const char *job;    /* the job file */
    const char *name;   /* of `pattern` the part, of `explain` the thing; NULL: none named */
    const char *reader; /* --for; NULL: the customer; "all": every packet */
    const char *output; /* -o; NULL: standard output */
    const char *format; /* --format; NULL: by the extension of the output */
    bool json_diagnostics;
};

struct command {
    const char *name;
    const char *usage;
    const char *words;
    int least, most; /* words that stand behind it: the job, and what is named in it */
    int (*run)(const struct options *options);
};

extern const struct command commands[];
extern const size_t command_count;

/* Says what is wrong with the command line, and about `what` (NULL: nothing in particular); gives CLEAT_USAGE. */
int usage_error(const char *message, const char *what);

/* "md, json or csv"; each with `before` before it. */
void print_names(FILE *out, const char *before, const char *const *names, size_t count);

#endif
