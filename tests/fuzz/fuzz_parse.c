/* Any bytes, as a text: scanned, parsed, and every statement read against the forms of every place. */
#include <setjmp.h>
#include <stdint.h>
#include <stdlib.h>

#include "lang/form.h"
#include "model/model.h"
#include "piece/kinds.h"

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

/* Statements, then pieces, as model_build strings them together. */
static struct form_table all_forms(struct arena *arena) {
    struct form_table table = model_forms(arena);
    const struct piece_table *pieces = piece_kinds();
    const struct form **forms = ARENA_ARRAY(arena, const struct form *, table.count + pieces->count);
    size_t count = 0;
    for (size_t i = 0; i < table.count; i++)
        forms[count++] = table.forms[i];
    for (size_t i = 0; i < pieces->count; i++)
        forms[count++] = &pieces->kinds[i]->form;
    return (struct form_table){.forms = forms, .count = count};
}

static void read_statement(const struct form_table *table, const struct statement *statement,
                           struct diagnostics *diagnostics) {
    for (unsigned place = IN_FILE; place <= IN_ALTERNATE; place <<= 1) {
        const struct form *form = form_find(table, statement, (enum form_place)place, diagnostics);
        struct reading reading;
        if (form)
            form_read(&reading, form, statement, MEASURE_US, table, diagnostics);
    }
    for (size_t i = 0; i < statement->block.count; i++)
        read_statement(table, statement->block.at[i], diagnostics);
}

/* A span must lie in its text: whatever is underlined later depends on it. */
static void check_spans(const struct diagnostics *diagnostics) {
    for (size_t i = 0; i < diagnostics->all.count; i++) {
        struct span at = diagnostics->all.at[i]->at;
        if (!at.text || at.begin > at.end || at.end > at.text->length)
            abort();
    }
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size) {
    struct arena *arena = arena_new(NULL);
    jmp_buf out_of_memory;
    if (!arena)
        return 0;
    if (!setjmp(out_of_memory)) {
        arena_on_failure(arena, &out_of_memory);
        struct diagnostics diagnostics = {.arena = arena};
        struct syntax syntax = {0};
        struct form_table table = all_forms(arena);
        syntax_parse(&syntax, text_new(arena, "fuzz.job", (const char *)data, size), arena, &diagnostics);
        for (size_t i = 0; i < syntax.statements.count; i++)
            read_statement(&table, syntax.statements.at[i], &diagnostics);
        check_spans(&diagnostics);
    }
    arena_free(arena);
    return 0;
}
