/* What is measured before anything is cut: each estimate, a blank for what was found, and what waits for it. */
#include <stdlib.h>
#include <string.h>

#include "metal/metal.h"
#include "report/bid.h"
#include "report/effects.h"
#include "report/field.h"

enum { VERIFY_RUN, VERIFY_WORDS, VERIFY_FOUND, VERIFY_WAITS, VERIFY_COLUMNS };

static const struct column verify_columns[VERIFY_COLUMNS] = {
    [VERIFY_RUN] = {.head = "Run"},
    [VERIFY_WORDS] = {.head = "As the job has it"},
    [VERIFY_FOUND] = {.head = "Measured", .by_hand = 70},
    [VERIFY_WAITS] = {.head = "What waits for it"},
};

/* More than this are not named. */
enum { PARTS_NAMED = 8 };

/* The parts of a run that rest on an estimate. */
struct waiting {
    const char *parts; /* "4, 9", or NULL */
    size_t count, last;
};

struct verifying {
    const struct job *job;
    struct document *document;
    struct table *table;
    struct waiting *waiting;    /* by run id */
    const struct run **by_name; /* sorted */
};

static void add_part(struct arena *arena, struct waiting *waiting, size_t number) {
    if (waiting->last == number)
        return;
    waiting->last = number;
    if (++waiting->count <= PARTS_NAMED)
        waiting->parts = waiting->parts ? arena_format(arena, "%s, %zu", waiting->parts, number)
                                        : arena_format(arena, "%zu", number);
}

static struct waiting *find_waiting(const struct job *job, struct arena *arena) {
    struct waiting *waiting = ARENA_ARRAY(arena, struct waiting, job->runs.count + 1);
    for (size_t p = 0; job->metal && p < job->metal->parts.count; p++) {
        const struct part *part = job->metal->parts.at[p];
        for (size_t u = 0; u < part->uses.count; u++)
            if (part->uses.at[u].about)
                add_part(arena, &waiting[part->uses.at[u].run->id], part->number);
    }
    return waiting;
}

static int by_name(const void *a, const void *b) {
    return strcmp((*(const struct run *const *)a)->name, (*(const struct run *const *)b)->name);
}

static const struct run **sort_runs(const struct job *job, struct arena *arena) {
    const struct run **runs = ARENA_ARRAY(arena, const struct run *, job->runs.count + 1);
    for (size_t i = 0; i < job->runs.count; i++)
        runs[i] = job->runs.at[i];
    if (job->runs.count)
        qsort(runs, job->runs.count, sizeof *runs, by_name);
    return runs;
}

static const struct run *run_called(const struct verifying *verifying, const char *name) {
    struct run key = {.name = name};
    const struct run *wanted = &key, **found = NULL;
    if (verifying->job->runs.count)
        found = bsearch(&wanted, verifying->by_name, verifying->job->runs.count, sizeof *found, by_name);
    return found ? *found : NULL;
}

/* Where a tap stands only about, it is its parent's opening that waits. */
static const char *waits_words(const struct verifying *verifying, const char *name) {
    const struct run *run = run_called(verifying, name);
    if (!run)
        return NULL; /* of an alternate: nothing is made for it yet */
    const struct run *cut = run->from.station_about && run->parent ? run->parent : run;
    const struct waiting *waiting = &verifying->waiting[cut->id];
    if (!waiting->count)
        return "nothing that is cut";
    const char *more = waiting->count > PARTS_NAMED
                           ? arena_format(verifying->document->arena, " and %zu more", waiting->count - PARTS_NAMED)
                           : "";
    return arena_format(verifying->document->arena, "part%s %s%s", waiting->count == 1 ? "" : "s", waiting->parts,
                        more);
}

static void verify_one(void *context, const char *where, const char *words) {
    struct verifying *verifying = context;
    union cell *cells = table_row(verifying->table);
    cells[VERIFY_RUN].text = where;
    cells[VERIFY_WORDS].text = words;
    cells[VERIFY_WAITS].text = waits_words(verifying, where);
}

void field_verify(const struct job *job, struct document *document) {
    document_paragraph(document,
                       "These are estimates. Write down what is found and tell the shop before the parts that wait "
                       "for it are cut; the job is then put right and sized again.");
    struct verifying verifying = {.job = job, .document = document};
    verifying.waiting = find_waiting(job, document->keep);
    verifying.by_name = sort_runs(job, document->keep);
    verifying.table = document_table(document, verify_columns, VERIFY_COLUMNS);
    bid_each_estimate(job, document->arena, verify_one, &verifying);
    effects_write(job, document);
}
