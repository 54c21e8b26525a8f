/* Collecting and sorting what there is to say about a job.  print_diagnostics.c prints it. */
#include "base/diagnostics.h"

#include <stdlib.h>
#include <string.h>

#include "base/hash.h"

/* The message of a record that is not kept: nobody will read it, so that nothing is spent on it. */
static const char not_kept[] = "";

/* A few dozen checks at most. */
static struct diagnostic_tally *tally_of(const struct diagnostics *all, const char *check) {
    for (size_t i = 0; i < all->tallies.count; i++)
        if (strcmp(all->tallies.at[i].check, check) == 0)
            return &all->tallies.at[i];
    return NULL;
}

static void count(struct diagnostics *all, enum diagnostic_level level, const char *check) {
    all->error_count += level == DIAGNOSTIC_ERROR;
    all->price_error_count += level == DIAGNOSTIC_ERROR && strcmp(check, "price") == 0;
    if (level != DIAGNOSTIC_WARNING)
        return;
    all->warning_count++;
    struct diagnostic_tally *tally = tally_of(all, check);
    if (!tally) {
        tally = list_add(all->arena, &all->tallies);
        *tally = (struct diagnostic_tally){.check = check};
    }
    tally->warnings++;
}

size_t diagnostics_warned(const struct diagnostics *all, const char *check) {
    const struct diagnostic_tally *tally = tally_of(all, check);
    return tally ? tally->warnings : 0;
}

/* Stands before and behind a name until the message is put together: the unit separator of ASCII. */
enum { NAME_MARK = 0x1f };

const char *diagnostic_named(const struct diagnostics *all, const char *name) {
    return arena_format(all->arena, "%c%s%c", NAME_MARK, name, NAME_MARK);
}

/* Takes the marks out of a message, and notes where they were. */
static const char *note_names(struct diagnostics *all, struct diagnostic *diagnostic, const char *marked) {
    if (!strchr(marked, NAME_MARK))
        return marked;
    char *message = ARENA_ARRAY(all->arena, char, strlen(marked) + 1);
    size_t length = 0, begin = 0;
    bool within = false;
    for (; *marked; marked++) {
        if (*marked != NAME_MARK) {
            message[length++] = *marked;
            continue;
        }
        if (within)
            *list_add(all->arena, &diagnostic->names) = (struct diagnostic_name){begin, length};
        begin = length;
        within = !within;
    }
    return message;
}

/* The chain of errors in which one of these words at that place is, or goes. */
static struct diagnostic **chain_of(struct diagnostics *all, const struct diagnostic *error) {
    if (!all->errors)
        all->errors = ARENA_ARRAY(all->arena, struct diagnostic *, DIAGNOSTICS_CHAINS);
    uint64_t hash = hash_bytes(HASH_EMPTY, error->message, strlen(error->message));
    hash = hash_bytes(hash, &error->at.begin, sizeof error->at.begin);
    return &all->errors[hash % DIAGNOSTICS_CHAINS];
}

/* Whether the error was told before; else it is from now on. */
static bool told_before(struct diagnostics *all, struct diagnostic *error) {
    struct diagnostic **chain = chain_of(all, error);
    for (const struct diagnostic *other = *chain; other; other = other->told)
        if (other->at.text == error->at.text && other->at.begin == error->at.begin && other->at.end == error->at.end &&
            strcmp(other->check, error->check) == 0 && strcmp(other->message, error->message) == 0)
            return true;
    error->told = *chain;
    *chain = error;
    return false;
}

struct diagnostic *diagnose(struct diagnostics *all, enum diagnostic_level level, const char *check, struct span at,
                            const char *format, ...) {
    struct diagnostic *diagnostic = ARENA_NEW(all->arena, struct diagnostic);
    diagnostic->level = level;
    diagnostic->check = check;
    diagnostic->at = at;
    diagnostic->message = not_kept;
    if (all->kept[level] >= DIAGNOSTICS_KEPT) {
        count(all, level, check);
        all->dropped++;
        return diagnostic;
    }
    va_list list;
    va_start(list, format);
    diagnostic->message = note_names(all, diagnostic, arena_format_list(all->arena, format, list));
    va_end(list);
    if (level == DIAGNOSTIC_ERROR && at.text && told_before(all, diagnostic)) {
        diagnostic->message = not_kept;
        return diagnostic;
    }
    count(all, level, check);
    all->kept[level]++;
    *list_add(all->arena, &all->all) = diagnostic;
    return diagnostic;
}

bool diagnostic_is_open(const struct diagnostic *diagnostic) {
    return diagnostic->level == DIAGNOSTIC_WARNING && !diagnostic->accepted_because;
}

void diagnostic_relate(struct diagnostics *all, struct diagnostic *diagnostic, struct span at, const char *format,
                       ...) {
    if (diagnostic->message == not_kept)
        return;
    va_list list;
    va_start(list, format);
    const char *message = arena_format_list(all->arena, format, list);
    va_end(list);
    *list_add(all->arena, &diagnostic->related) = (struct diagnostic_related){.at = at, .message = message};
}

void diagnostic_hint(struct diagnostics *all, struct diagnostic *diagnostic, const char *format, ...) {
    if (diagnostic->message == not_kept)
        return;
    va_list list;
    va_start(list, format);
    diagnostic->hint = arena_format_list(all->arena, format, list);
    va_end(list);
}

/* qsort does not keep the order of equals; the position does. */
struct placed {
    struct diagnostic *diagnostic;
    size_t position;
};

static int compare_sizes(size_t a, size_t b) {
    return (a > b) - (a < b);
}

static int compare_placed(const void *left, const void *right) {
    const struct placed *a = left, *b = right;
    const struct span *a_at = &a->diagnostic->at, *b_at = &b->diagnostic->at;
    int order = compare_sizes(a_at->text == NULL, b_at->text == NULL);
    if (order == 0 && a_at->text) {
        order = compare_sizes(a_at->text->order, b_at->text->order);
        if (order == 0)
            order = compare_sizes(a_at->begin, b_at->begin);
        if (order == 0)
            order = compare_sizes(b->diagnostic->level == DIAGNOSTIC_ERROR, a->diagnostic->level == DIAGNOSTIC_ERROR);
    }
    return order ? order : compare_sizes(a->position, b->position);
}

void diagnostics_sort(struct diagnostics *all) {
    size_t total = all->all.count;
    if (total < 2)
        return;
    struct placed *placed = ARENA_ARRAY(all->arena, struct placed, total);
    for (size_t i = 0; i < total; i++)
        placed[i] = (struct placed){.diagnostic = all->all.at[i], .position = i};
    qsort(placed, total, sizeof *placed, compare_placed);
    for (size_t i = 0; i < total; i++)
        all->all.at[i] = placed[i].diagnostic;
}
