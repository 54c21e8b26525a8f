/* Building the syntax tree. */
#include "lang/scan.h"

#include <string.h>

struct statements *syntax_new(struct scan *scan) {
    return ARENA_NEW(scan->arena, struct statements);
}

struct statements *syntax_add(struct scan *scan, struct statements *statements, struct statement *statement) {
    *list_add(scan->arena, &statements->list) = statement;
    return statements;
}

void syntax_finish(struct scan *scan, struct statements *statements) {
    scan->result = statements;
}

struct value syntax_size(struct scan *scan, struct span at, int count, const struct quantity *quantity) {
    struct quantity *copy = ARENA_ARRAY(scan->arena, struct quantity, (size_t)count);
    memcpy(copy, quantity, (size_t)count * sizeof *copy);
    return (struct value){
        .kind = count == 1 ? VALUE_QUANTITY : VALUE_SIZE,
        .at = at,
        .quantity = copy,
        .quantity_count = count,
    };
}

/* Whether `value` begins with inches that belong to the feet at the end of `before`. */
static bool goes_on(const struct value *before, const struct value *value) {
    if (before->quantity_count == 0 || value->quantity_count == 0)
        return false;
    if (before->quantity_count + value->quantity_count > 4)
        return false;
    return measure_is(before->quantity[before->quantity_count - 1].measure, "ft") &&
           measure_is(value->quantity[0].measure, "in");
}

/* 14 ft and 6 in; in a size also 1 ft 6 in x 20, where the second of the two values goes on with a second side. */
static void merge(struct scan *scan, struct value *before, const struct value *value) {
    struct quantity joined[3];
    int count = before->quantity_count;
    memcpy(joined, before->quantity, (size_t)count * sizeof *joined);
    struct quantity *feet = &joined[count - 1];
    if (value->quantity[0].number >= 12)
        scan_inches(scan, span_join(before->at, value->at), feet->number * 12 + value->quantity[0].number);
    feet->number += (feet->number < 0 ? -value->quantity[0].number : value->quantity[0].number) / 12;
    for (int i = 1; i < value->quantity_count; i++)
        joined[count++] = value->quantity[i];
    *before = syntax_size(scan, span_join(before->at, value->at), count, joined);
}

void syntax_value(struct scan *scan, const struct value *value) {
    struct value *before = scan->values.count ? &scan->values.at[scan->values.count - 1] : NULL;
    if (before && goes_on(before, value))
        merge(scan, before, value);
    else
        *list_add(scan->arena, &scan->values) = *value;
}

struct statement *syntax_statement(struct scan *scan, const char *word, struct span word_at) {
    struct statement *statement = ARENA_NEW(scan->arena, struct statement);
    size_t count = scan->values.count;
    statement->word = word;
    statement->word_at = word_at;
    statement->at = count ? span_join(word_at, scan->values.at[count - 1].at) : word_at;
    statement->faulty = scan->faulty;
    if (count) { /* exactly as many as there are: a large job has a million values */
        statement->values.at = arena_take(scan->arena, count * sizeof *statement->values.at);
        statement->values.count = statement->values.room = count;
        memcpy(statement->values.at, scan->values.at, count * sizeof *statement->values.at);
    }
    scan->values.count = 0;
    scan->faulty = false;
    return statement;
}

struct statement *syntax_unreadable(struct scan *scan, struct span at) {
    scan->values.count = 0;
    scan->faulty = true;
    return syntax_statement(scan, "", at);
}

struct statement *syntax_block(struct scan *scan, struct statement *statement, const struct statements *block,
                               struct span open, struct span close) {
    scan->faulty = false;
    statement->has_block = true;
    statement->block_at = span_join(open, close);
    statement->block.at = block->list.at;
    statement->block.count = block->list.count;
    statement->block.room = block->list.room;
    return statement;
}
