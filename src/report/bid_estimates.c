/* Dimensions that the job gives only about: to be measured before anything is cut by them. */
#include "report/bid.h"

#include <string.h>

#include "lang/syntax.h"
#include "model/estimate.h"
#include "model/names.h"

const char *bid_estimate_words(struct arena *arena, const struct estimate *estimate) {
    const struct statement *statement = estimate->statement;
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

/* The first of those in one statement stands for all. */
static bool is_first(const struct job *job, size_t i) {
    return i == 0 || job->estimates.at[i]->statement != job->estimates.at[i - 1]->statement;
}

size_t bid_estimates(const struct job *job) {
    size_t count = 0;
    for (size_t i = 0; i < job->estimates.count; i++)
        count += is_first(job, i);
    return count;
}

void bid_each_estimate(const struct job *job, struct arena *arena, estimate_visitor *visit, void *context) {
    for (size_t i = 0; i < job->estimates.count; i++)
        if (is_first(job, i))
            visit(context, job->estimates.at[i], bid_estimate_words(arena, job->estimates.at[i]));
}

struct listing {
    struct names runs;
    struct document *document;
};

/* Behind `word`, which `words` begins with, and the blanks behind it; NULL: it does not. */
static const char *behind(const char *words, const char *word) {
    size_t length = strlen(word);
    if (strncmp(words, word, length) != 0 || words[length] != ' ')
        return NULL;
    return words + length + strspn(words + length, " ");
}

/* "8 ft of straight duct", of the words "straight about 8 ft"; others without their "about". */
static const char *plain_words(struct arena *arena, const char *words) {
    static const struct {
        const char *word, *means;
    } ducts[] = {{"straight", "straight duct"}, {"flex", "flexible duct"}};
    for (size_t i = 0; i < sizeof ducts / sizeof ducts[0]; i++) {
        const char *about = behind(words, ducts[i].word), *length = about ? behind(about, "about") : NULL;
        if (length)
            return arena_format(arena, "%s of %s", length, ducts[i].means);
    }
    const char *about = strstr(words, "about "), *rest = about ? behind(about, "about") : NULL;
    return rest ? arena_format(arena, "%.*s%s", (int)(about - words), words, rest) : words;
}

static void list_one(void *context, const struct estimate *estimate, const char *words) {
    const char *where = estimate->where;
    const struct listing *listing = context;
    struct document *document = listing->document;
    const struct name *known = names_find(&listing->runs, where);
    const struct run *run = known ? known->thing : NULL;
    const char *name = run ? bid_plain_name(run) : where;
    if (run && run->from.station_about && run->parent && strncmp(words, "from ", 5) != 0 && strstr(words, " from "))
        words = arena_format(document->arena, "its place on %s, %s from where that begins", bid_plain_name(run->parent),
                             bid_figure(document, SHOW_RUN, run->from.station));
    else
        words = plain_words(document->arena, words);
    document_fact(document, name, arena_format(document->arena, "%s, estimated", words));
}

void bid_to_verify(const struct job *job, struct document *document) {
    struct listing listing = {.runs = {.arena = document->keep}, .document = document};
    for (size_t i = 0; i < job->runs.count; i++)
        if (job->runs.at[i]->name)
            names_add(&listing.runs, job->runs.at[i]->name)->thing = job->runs.at[i];
    bid_each_estimate(job, document->arena, list_one, &listing);
    document_paragraph(
        document, "%s",
        bid_estimates(job)
            ? "These dimensions are estimates. The figures of this paper hold if they are found so."
            : "No dimension is marked as an estimate; the usual field measurement before fabrication remains.");
    if (!bid_place_cautions(job, document))
        bid_caution(document, CAUTION_HEIGHT);
}
