/* What is measured before anything is cut: each estimate, a blank for what was found, and what waits for it. */
#include "metal/waits.h"
#include "model/estimate.h"
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
enum { NAMED = 8 };

struct verifying {
    struct document *document;
    struct table *table;
};

/* "all of trunk, b". */
static const char *whole_words(struct arena *arena, const struct waits *waits) {
    const char *words = NULL;
    for (size_t i = 0; i < waits->whole.count && i < NAMED; i++)
        words = words ? arena_format(arena, "%s, %s", words, waits->whole.at[i]->name)
                      : arena_format(arena, "all of %s", waits->whole.at[i]->name);
    return waits->whole.count > NAMED ? arena_format(arena, "%s and %zu runs more", words, waits->whole.count - NAMED)
                                      : words;
}

/* "parts 4, 9". */
static const char *parts_words(struct arena *arena, const size_t *numbers, size_t count) {
    const char *words = NULL;
    for (size_t i = 0; i < count && i < NAMED; i++)
        words = words ? arena_format(arena, "%s, %zu", words, numbers[i])
                      : arena_format(arena, "part%s %zu", count > 1 ? "s" : "", numbers[i]);
    return count > NAMED ? arena_format(arena, "%s and %zu more", words, count - NAMED) : words;
}

static const char *with(struct arena *arena, const char *words, const char *more) {
    return words && more ? arena_format(arena, "%s; %s", words, more) : more ? more : words;
}

static const char *waits_words(struct arena *arena, const struct estimate *estimate) {
    const struct waits *waits = estimate->waits;
    if (!waits)
        return "not known";
    if (!waits->made)
        return arena_format(arena, "nothing yet: it is of alternate %s", estimate->alternate->name);
    const char *openings = parts_words(arena, waits->openings.at, waits->openings.count);
    if (openings)
        openings = arena_format(arena, "%s, for the opening%s", openings, waits->openings.count > 1 ? "s" : "");
    const char *words = with(arena, whole_words(arena, waits), parts_words(arena, waits->parts.at, waits->parts.count));
    words = with(arena, words, openings);
    return words ? words : "nothing that is cut";
}

static void verify_one(void *context, const struct estimate *estimate, const char *words) {
    struct verifying *verifying = context;
    union cell *cells = table_row(verifying->table);
    cells[VERIFY_RUN].text = estimate->where;
    cells[VERIFY_WORDS].text = words;
    cells[VERIFY_WAITS].text = waits_words(verifying->document->arena, estimate);
}

void field_verify(const struct job *job, struct document *document) {
    document_paragraph(document,
                       "These are estimates. Write down what is found and tell the shop before the parts that wait "
                       "for it are cut; the job is then put right and sized again.");
    struct verifying verifying = {.document = document,
                                  .table = document_table(document, verify_columns, VERIFY_COLUMNS)};
    bid_each_estimate(job, document->arena, verify_one, &verifying);
    effects_write(job, document);
}
