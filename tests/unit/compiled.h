/* A job compiled from text in a test, to look at. */
#ifndef TESTS_UNIT_COMPILED_H
#define TESTS_UNIT_COMPILED_H

#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "compile/compile.h"

struct compiled {
    struct cleat *cleat;
    const struct job *job;
    char *text;
};

static inline struct compiled compiled_text(const char *format, ...) __attribute__((format(printf, 1, 2)));
static inline struct compiled compiled_until(const char *pass, const char *format, ...)
    __attribute__((format(printf, 2, 3)));

/* Through the pass of that name; NULL: all. */
static inline struct compiled compiled_list(const char *pass, const char *format, va_list list) {
    struct compiled compiled = {.cleat = cleat_new(NULL)};
    size_t length = 0;
    FILE *out = open_memstream(&compiled.text, &length);
    if (!compiled.cleat || !out)
        abort();
    vfprintf(out, format, list);
    fclose(out);
    if (!pass)
        cleat_compile_text(compiled.cleat, "test.job", compiled.text, length);
    else if (!cleat_compile_until(compiled.cleat, pass, "test.job", compiled.text, length))
        abort();
    compiled.job = cleat_job(compiled.cleat);
    return compiled;
}

/* Compiles what the format gives; faults in it are the test's to look for. */
static inline struct compiled compiled_text(const char *format, ...) {
    va_list list;
    va_start(list, format);
    struct compiled compiled = compiled_list(NULL, format, list);
    va_end(list);
    return compiled;
}

/* The same, stopping behind a pass of the table in compile.c: for a test of what that one fills. */
static inline struct compiled compiled_until(const char *pass, const char *format, ...) {
    va_list list;
    va_start(list, format);
    struct compiled compiled = compiled_list(pass, format, list);
    va_end(list);
    return compiled;
}

static inline void compiled_free(struct compiled *compiled) {
    cleat_free(compiled->cleat);
    free(compiled->text);
}

/* The `which`th (from 0) diagnostic of a check about `subject` (NULL: about anything), or NULL. */
static inline const struct diagnostic *compiled_said(const struct compiled *compiled, const char *check,
                                                     const char *subject, size_t which) {
    const struct diagnostics *all = compiled->job->diagnostics;
    for (size_t i = 0; i < all->all.count; i++) {
        const struct diagnostic *one = all->all.at[i];
        if (strcmp(one->check, check) != 0 || (subject && (!one->subject || strcmp(one->subject, subject) != 0)))
            continue;
        if (which-- == 0)
            return one;
    }
    return NULL;
}

/* The run, outlet or inlet of that name; the test ends when there is none. */
static inline const struct run *compiled_run(const struct compiled *compiled, const char *name) {
    for (size_t i = 0; i < compiled->job->runs.count; i++)
        if (strcmp(compiled->job->runs.at[i]->name, name) == 0)
            return compiled->job->runs.at[i];
    fprintf(stderr, "no run is called %s in:\n%s\n", name, compiled->text);
    cleat_print_diagnostics(compiled->cleat, stderr, false, false);
    abort();
}

/* The first unit's network; the test ends when there is none. */
static inline const struct network *compiled_network(const struct compiled *compiled) {
    if (compiled->job->units.count && compiled->job->units.at[0]->network)
        return compiled->job->units.at[0]->network;
    fprintf(stderr, "nothing to size in:\n%s\n", compiled->text);
    cleat_print_diagnostics(compiled->cleat, stderr, false, false);
    abort();
}

#endif
