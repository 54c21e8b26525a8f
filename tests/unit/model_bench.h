/* A job text taken through the passes of the model, for its tests. */
#ifndef TEST_MODEL_BENCH_H
#define TEST_MODEL_BENCH_H

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

#include "air/air.h"
#include "lang/syntax.h"
#include "model/model.h"
#include "piece/kinds.h"

#define FOOT 0.3048
#define INCH 0.0254
#define CFM (FOOT * FOOT * FOOT / 60)

struct bench {
    struct arena *arena;
    jmp_buf out_of_memory;
    struct diagnostics diagnostics;
    struct syntax syntax;
    struct job job;
};

static inline void bench_passes(struct bench *bench) {
    model_build(&bench->job, piece_kinds());
    model_resolve(&bench->job, piece_kinds());
    model_network(&bench->job);
    air_set(&bench->job);
    model_airflow(&bench->job);
}

/* `text` as a syntax tree; to be given back with bench_free. */
static inline struct bench *bench_read(const char *text) {
    struct bench *bench = calloc(1, sizeof *bench);
    assert_non_null(bench);
    bench->arena = arena_new(NULL);
    assert_non_null(bench->arena);
    if (setjmp(bench->out_of_memory))
        fail_msg("out of memory");
    arena_on_failure(bench->arena, &bench->out_of_memory);
    bench->diagnostics.arena = bench->arena;
    bench->job.arena = bench->arena;
    bench->job.diagnostics = &bench->diagnostics;
    bench->job.syntax = &bench->syntax;
    const struct text *source = text_new(bench->arena, "test.job", text, strlen(text));
    *list_add(bench->arena, &bench->syntax.texts) = source;
    syntax_parse(&bench->syntax, source, bench->arena, &bench->diagnostics);
    return bench;
}

/* The job of `text`, with its network and airflows. */
static inline struct bench *bench_new(const char *text) {
    struct bench *bench = bench_read(text);
    bench_passes(bench);
    return bench;
}

static inline void bench_free(struct bench *bench) {
    arena_free(bench->arena);
    free(bench);
}

static inline void bench_print(const struct bench *bench) {
    diagnostics_print(stderr, &bench->diagnostics, false);
}

/* The job of `text`, which has neither errors nor warnings. */
static inline struct bench *bench_clean(const char *text) {
    struct bench *bench = bench_new(text);
    if (bench->diagnostics.all.count) {
        bench_print(bench);
        fail_msg("nothing should have been diagnosed");
    }
    return bench;
}

static inline struct run *bench_run(const struct bench *bench, const char *name) {
    for (size_t i = 0; i < bench->job.runs.count; i++)
        if (strcmp(bench->job.runs.at[i]->name, name) == 0)
            return bench->job.runs.at[i];
    fail_msg("no run is called '%s'", name);
    return NULL;
}

static inline struct network *bench_network(const struct bench *bench, size_t unit) {
    assert_true(unit < bench->job.units.count);
    assert_non_null(bench->job.units.at[unit]->network);
    return bench->job.units.at[unit]->network;
}

/* Whether the text under `span` is `words`. */
static inline bool span_is(struct span span, const char *words) {
    return span.text && span.end - span.begin == strlen(words) &&
           memcmp(span.text->bytes + span.begin, words, strlen(words)) == 0;
}

/* A fault and the one diagnostic that it must give. */
struct fault {
    const char *text;
    enum diagnostic_level level;
    const char *check;
    const char *at;      /* the words underlined */
    const char *says;    /* part of the message */
    const char *hint;    /* the whole hint; NULL: any or none */
    const char *related; /* the words of the first related place; NULL: any or none */
};

static inline bool fault_matches(const struct fault *fault, const struct diagnostic *found) {
    if (found->level != fault->level || strcmp(found->check, fault->check) != 0 || !span_is(found->at, fault->at))
        return false;
    if (!strstr(found->message, fault->says))
        return false;
    if (fault->hint && (!found->hint || strcmp(found->hint, fault->hint) != 0))
        return false;
    return !fault->related || (found->related.count && span_is(found->related.at[0].at, fault->related));
}

/* The job of `before` and the fault's text gives that diagnostic and no other. */
static inline void assert_fault(const char *before, const struct fault *fault) {
    char *text = malloc(strlen(before) + strlen(fault->text) + 1);
    assert_non_null(text);
    strcpy(text, before);
    strcat(text, fault->text);
    struct bench *bench = bench_new(text);
    if (bench->diagnostics.all.count != 1 || !fault_matches(fault, bench->diagnostics.all.at[0])) {
        fprintf(stderr, "%s\nexpected [%s] at '%s': ... %s ...; hint: %s\n", fault->text, fault->check, fault->at,
                fault->says, fault->hint ? fault->hint : "any");
        bench_print(bench);
        fail_msg("not that diagnostic, or not it alone");
    }
    bench_free(bench);
    free(text);
}

static inline void assert_faults(const char *before, const struct fault *faults, size_t count) {
    for (size_t i = 0; i < count; i++)
        assert_fault(before, &faults[i]);
}

static inline void assert_near(double found, double expected, double within) {
    if (!(found >= expected - within && found <= expected + within))
        fail_msg("%.12g is not %.12g within %g", found, expected, within);
}

#endif
