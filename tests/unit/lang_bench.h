/* A text taken to its syntax tree, for the tests of the language. */
#ifndef TESTS_UNIT_LANG_BENCH_H
#define TESTS_UNIT_LANG_BENCH_H

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

#include "lang/form.h"

struct bench {
    struct arena *arena;
    jmp_buf out_of_memory;
    struct diagnostics diagnostics;
    struct syntax syntax;
};

static inline struct bench *bench_new(void) {
    struct bench *bench = calloc(1, sizeof *bench);
    assert_non_null(bench);
    bench->arena = arena_new(NULL);
    assert_non_null(bench->arena);
    if (setjmp(bench->out_of_memory))
        abort();
    arena_on_failure(bench->arena, &bench->out_of_memory);
    bench->diagnostics.arena = bench->arena;
    return bench;
}

static inline void bench_free(struct bench *bench) {
    arena_free(bench->arena);
    free(bench);
}

static inline struct bench *bench_parse(const char *text) {
    struct bench *bench = bench_new();
    syntax_parse(&bench->syntax, text_new(bench->arena, "test.job", text, strlen(text)), bench->arena,
                 &bench->diagnostics);
    return bench;
}

static inline void show_value(FILE *out, const struct value *value) {
    switch (value->kind) {
    case VALUE_WORD:
        fprintf(out, " %s", value->text);
        break;
    case VALUE_STRING:
        fprintf(out, " <%s>", value->text);
        break;
    case VALUE_DATE:
        fprintf(out, " date:%s", value->text);
        break;
    case VALUE_COMMA:
        fputs(" ,", out);
        break;
    case VALUE_QUANTITY:
    case VALUE_SIZE:
        for (int i = 0; i < value->quantity_count; i++)
            fprintf(out, "%s%.10g%s", i ? " x " : " ", value->quantity[i].number,
                    value->quantity[i].measure ? value->quantity[i].measure->name : "");
        break;
    }
}

static inline void show_statement(FILE *out, const struct statement *statement) {
    fprintf(out, "%s%s", statement->faulty ? "!" : "", statement->word);
    for (size_t i = 0; i < statement->values.count; i++)
        show_value(out, &statement->values.at[i]);
    if (statement->has_block) {
        fputs(" {", out);
        for (size_t i = 0; i < statement->block.count; i++) {
            fputs(i ? "; " : " ", out);
            show_statement(out, statement->block.at[i]);
        }
        fputs(" }", out);
    }
}

/* The tree on one line: words bare, text in < >, a faulty statement behind !. Owned by the arena. */
static inline const char *bench_tree(struct bench *bench) {
    char *text = NULL;
    size_t length = 0;
    FILE *out = open_memstream(&text, &length);
    assert_non_null(out);
    for (size_t i = 0; i < bench->syntax.statements.count; i++) {
        if (i)
            fputs("; ", out);
        show_statement(out, bench->syntax.statements.at[i]);
    }
    fclose(out);
    const char *copy = arena_copy(bench->arena, text, length);
    free(text);
    return copy;
}

/* What a diagnostic is expected to say. */
struct expected {
    const char *text; /* that is compiled */
    const char *check;
    const char *at; /* the bytes underlined */
    const char *message;
    const char *hint; /* NULL: none */
};

static inline void assert_said(const struct diagnostic *diagnostic, const struct expected *expected) {
    char at[256];
    snprintf(at, sizeof at, "%.*s", (int)(diagnostic->at.end - diagnostic->at.begin),
             diagnostic->at.text->bytes + diagnostic->at.begin);
    assert_string_equal(diagnostic->message, expected->message);
    assert_string_equal(at, expected->at);
    assert_string_equal(diagnostic->check, expected->check);
    assert_int_equal(diagnostic->level, DIAGNOSTIC_ERROR);
    if (expected->hint)
        assert_string_equal(diagnostic->hint ? diagnostic->hint : "(no hint)", expected->hint);
    else
        assert_null(diagnostic->hint);
}

/* One error, and that one. */
static inline void assert_one_error(const struct bench *bench, const struct expected *expected) {
    if (bench->diagnostics.all.count != 1)
        diagnostics_print(stderr, &bench->diagnostics, false);
    assert_int_equal(bench->diagnostics.all.count, 1);
    assert_said(bench->diagnostics.all.at[0], expected);
}

#endif
