/* Dimensions that the job gives only about: to be measured before anything is cut by them. */
#include "report/bid.h"

#include <string.h>

#include "lang/syntax.h"

static bool is_estimate(const struct statement *statement) {
    for (size_t i = 0; i < statement->values.count; i++)
        if (statement->values.at[i].kind == VALUE_WORD && strcmp(statement->values.at[i].text, "about") == 0)
            return true;
    return false;
}

static const char *declared_name(const struct statement *statement) {
    return statement->values.count && statement->values.at[0].text ? statement->values.at[0].text : statement->word;
}

/* The statement as it is written, on one line and without comments. */
static const char *as_written(struct arena *arena, const struct statement *statement) {
    const char *bytes = statement->at.text->bytes;
    char *text = arena_take(arena, statement->at.end - statement->at.begin + 1), *end = text;
    bool quoted = false;
    for (size_t i = statement->at.begin; i < statement->at.end; i++) {
        if (quoted && bytes[i] == '\\' && i + 1 < statement->at.end)
            *end++ = bytes[i++];
        else if (bytes[i] == '"')
            quoted = !quoted;
        if (bytes[i] == '#' && !quoted)
            while (i < statement->at.end && bytes[i] != '\n')
                i++;
        *end++ = bytes[i] == '\n' || i == statement->at.end ? ' ' : bytes[i];
    }
    *end = 0;
    return text;
}

/* The way through the statements. */
struct looking {
    struct arena *arena; /* NULL: nothing is visited, only counted */
    estimate_visitor *visit;
    void *context;
    size_t count;
};

/* A statement and all in its block, wherever it stands: no deeper than NESTING_LIMIT. */
static void look_in(struct looking *looking, const char *where, const struct statement *statement) {
    if (statement->has_block || !where)
        where = declared_name(statement);
    if (statement->at.text && is_estimate(statement)) {
        looking->count++;
        if (looking->arena)
            looking->visit(looking->context, where, as_written(looking->arena, statement));
    }
    for (size_t i = 0; i < statement->block.count; i++)
        look_in(looking, where, statement->block.at[i]);
}

static void look_everywhere(const struct job *job, struct looking *looking) {
    for (size_t i = 0; job->syntax && i < job->syntax->statements.count; i++)
        look_in(looking, NULL, job->syntax->statements.at[i]);
}

size_t bid_estimates(const struct job *job) {
    struct looking looking = {0};
    look_everywhere(job, &looking);
    return looking.count;
}

void bid_each_estimate(const struct job *job, struct arena *arena, estimate_visitor *visit, void *context) {
    struct looking looking = {.arena = arena, .visit = visit, .context = context};
    look_everywhere(job, &looking);
}

static void list_one(void *context, const char *where, const char *words) {
    document_fact(context, where, words);
}

void bid_to_verify(const struct job *job, struct document *document) {
    bid_each_estimate(job, document->arena, list_one, document);
    document_paragraph(
        document, "%s",
        bid_estimates(job)
            ? "These dimensions are estimates, as the job has them. The figures of this paper hold if they are found so."
            : "No dimension is marked as an estimate; the usual field measurement before fabrication remains.");
    bid_caution(document, CAUTION_HEIGHT);
}
