/* Which form a statement has. */
#include <string.h>

#include "lang/reader.h"

/* What each place is called. */
static const struct place_words {
    enum form_place place;
    const char *in;    /* "in a run" */
    const char *block; /* "run"; NULL: the top of a file */
} places[] = {
    {IN_FILE, "at the top of a file, outside all { }", NULL},
    {IN_JOB, "in a job", "job"},
    {IN_SHOP, "in a shop", "shop"},
    {IN_UNIT, "in a unit", "unit"},
    {IN_RUN, "in a run", "run"},
    {IN_OUTLET, "in an outlet", "outlet"},
    {IN_INLET, "in an inlet", "inlet"},
    {IN_ALTERNATE, "in an alternate", "alternate"},
};

enum { PLACE_COUNT = sizeof places / sizeof places[0] };

/* More words than this are no help. */
enum { LISTED_LIMIT = 12 };

const struct form *form_named(const struct form_table *table, const char *word) {
    for (size_t i = 0; i < table->count; i++)
        if (strcmp(table->forms[i]->word, word) == 0)
            return table->forms[i];
    return NULL;
}

static const struct form *form_in(const struct form_table *table, const char *word, enum form_place place) {
    for (size_t i = 0; i < table->count; i++) {
        const struct form *form = table->forms[i];
        if (form->word[0] == word[0] && strcmp(form->word, word) == 0 && (form->places & (unsigned)place))
            return form;
    }
    return NULL;
}

static const char *in_place(enum form_place place) {
    for (size_t i = 0; i < PLACE_COUNT; i++)
        if (places[i].place == place)
            return places[i].in;
    return "here";
}

/* The places where `word` may stand, over all its forms. */
static unsigned places_of(const struct form_table *table, const char *word) {
    unsigned set = 0;
    for (size_t i = 0; i < table->count; i++)
        if (strcmp(table->forms[i]->word, word) == 0)
            set |= table->forms[i]->places;
    return set;
}

/* "in a run, in an outlet or in an inlet". */
static const char *list_places(struct arena *arena, unsigned set) {
    const char *list = "";
    size_t left = 0;
    for (size_t i = 0; i < PLACE_COUNT; i++)
        left += (set & (unsigned)places[i].place) != 0;
    for (size_t i = 0; i < PLACE_COUNT; i++)
        if (set & (unsigned)places[i].place) {
            left--;
            list = arena_format(arena, "%s%s%s", list, places[i].in, left > 1 ? ", " : left == 1 ? " or " : "");
        }
    return list;
}

/* The words that may stand in any of `set`. */
static size_t words_of(struct arena *arena, const struct form_table *table, unsigned set, const char ***words) {
    size_t count = 0;
    *words = ARENA_ARRAY(arena, const char *, table->count + 1);
    for (size_t i = 0; i < table->count; i++)
        if (table->forms[i]->places & set)
            (*words)[count++] = table->forms[i]->word;
    return count;
}

static const char *list_words(struct arena *arena, const char *const *words, size_t count) {
    const char *list = words[0];
    for (size_t i = 1; i < count; i++)
        list = arena_format(arena, "%s%s%s", list, i + 1 == count ? " or " : ", ", words[i]);
    return list;
}

static void diagnose_elsewhere(const struct form_table *table, const struct statement *statement, enum form_place place,
                               struct diagnostics *diagnostics) {
    const char *in = list_places(diagnostics->arena, places_of(table, statement->word));
    struct diagnostic *diagnostic = diagnose(diagnostics, DIAGNOSTIC_ERROR, "statement", statement->word_at,
                                             "'%s' does not stand %s", statement->word, in_place(place));
    diagnostic_hint(diagnostics, diagnostic, "it stands %s", in);
}

/* Diagnoses a word that no form has; gives the form it is taken for, or NULL. */
static const struct form *diagnose_unknown(const struct form_table *table, const struct statement *statement,
                                           enum form_place place, struct diagnostics *diagnostics) {
    struct arena *arena = diagnostics->arena;
    struct diagnostic *diagnostic = diagnose(diagnostics, DIAGNOSTIC_ERROR, "statement", statement->word_at,
                                             "'%s' is not a word that stands %s", statement->word, in_place(place));
    const char **words;
    size_t count = words_of(arena, table, (unsigned)place, &words);
    const char *nearest = text_nearest(statement->word, words, count);
    if (nearest) {
        diagnostic_hint(diagnostics, diagnostic, "write %s", nearest);
        return form_in(table, nearest, place);
    }
    const char **all;
    size_t all_count = words_of(arena, table, ~0u, &all);
    nearest = text_nearest(statement->word, all, all_count);
    if (nearest)
        diagnostic_hint(diagnostics, diagnostic, "'%s' stands %s", nearest,
                        list_places(arena, places_of(table, nearest)));
    else if (count > 0 && count <= LISTED_LIMIT)
        diagnostic_hint(diagnostics, diagnostic, "one of these stands here: %s", list_words(arena, words, count));
    return NULL;
}

const struct form *form_find(const struct form_table *table, const struct statement *statement, enum form_place place,
                             struct diagnostics *diagnostics) {
    const struct form *form = form_in(table, statement->word, place);
    if (form || statement->faulty)
        return form;
    if (!form_named(table, statement->word))
        return diagnose_unknown(table, statement, place, diagnostics);
    diagnose_elsewhere(table, statement, place, diagnostics);
    return NULL;
}
