/* What the compiler has to say about a job: collected as data, printed by one writer, compared by tests. */
#ifndef CLEAT_BASE_DIAGNOSTICS_H
#define CLEAT_BASE_DIAGNOSTICS_H

#include <stdbool.h>
#include <stdio.h>

#include "base/list.h"
#include "base/text.h"

enum diagnostic_level { DIAGNOSTIC_NOTE, DIAGNOSTIC_WARNING, DIAGNOSTIC_ERROR };

/* Another place involved: "first declared here". */
struct diagnostic_related {
    struct span at;
    const char *message;
};

/* A name that the job gives a run, within a message: bytes of it.  A paper for who has not seen the job's file tells it
 * in other words. */
struct diagnostic_name {
    size_t begin, end;
};

struct diagnostic {
    enum diagnostic_level level;
    const char *check; /* stable name of the fault: "syntax", "unit", "name", "velocity", ... */
    struct span at;
    const char *message;                /* one sentence, in the trade's words, without a full stop */
    LIST(struct diagnostic_name) names; /* in the order of the message */
    const char *hint;                   /* something that can be typed in or done; NULL: none */
    LIST(struct diagnostic_related) related;
    const char *subject;          /* the name of the run, outlet or unit that a named check looked at; NULL: none */
    const char *accepted_because; /* the reason in the job's `accept`; NULL: not accepted */
    struct diagnostic *told;      /* the next error in its chain of struct diagnostics */
};

/* How often one check has warned, whether the warnings were kept or not. */
struct diagnostic_tally {
    const char *check;
    size_t warnings;
};

struct diagnostics {
    struct arena *arena;
    LIST(struct diagnostic *) all;
    size_t error_count, warning_count; /* accepted warnings are not counted */
    /* Errors of the check "price" among them: they spoil the price, and nothing of the design. */
    size_t price_error_count;
    size_t dropped;                        /* over the limit of DIAGNOSTICS_KEPT */
    size_t kept[DIAGNOSTIC_ERROR + 1];     /* of each level */
    LIST(struct diagnostic_tally) tallies; /* one a check that has warned */
    struct diagnostic **errors;            /* the errors kept, in DIAGNOSTICS_CHAINS chains; NULL: none yet */
};

/* What finds an error that was told before: of 1000 a chain has four. */
#define DIAGNOSTICS_CHAINS 256

/* More than this many of one level are counted but not kept: a flood of notes never hides an error. */
#define DIAGNOSTICS_KEPT 1000

/* Adds one.  Never NULL; past the limit the record returned is not in the list.  An error in the same words at the same
 * place is told and counted once: the record returned for the second is not in the list either. */
struct diagnostic *diagnose(struct diagnostics *all, enum diagnostic_level level, const char *check, struct span at,
                            const char *format, ...) __attribute__((format(printf, 5, 6)));

/* Whether it is a warning that nobody has accepted. */
bool diagnostic_is_open(const struct diagnostic *diagnostic);

/* The name as it is to be put into the message of a diagnostic of `all`, which then knows where it stands; not for
 * hints and related places. */
const char *diagnostic_named(const struct diagnostics *all, const char *name);

/* Adds another place to `diagnostic`. */
void diagnostic_relate(struct diagnostics *all, struct diagnostic *diagnostic, struct span at, const char *format, ...)
    __attribute__((format(printf, 4, 5)));

/* Sets the hint. */
void diagnostic_hint(struct diagnostics *all, struct diagnostic *diagnostic, const char *format, ...)
    __attribute__((format(printf, 3, 4)));

/* How many warnings `check` has raised, those that were not kept and those accepted since among them. */
size_t diagnostics_warned(const struct diagnostics *all, const char *check);

/* Sorts by file (text.order; the job first), then place, errors first at one place; else keeps the order of equal
 * places.  Those without a place come last. */
void diagnostics_sort(struct diagnostics *all);

/* Prints one with its source line and the span underlined:
 *     kiln.job:12:15: error: 'cfn' is not a unit of airflow [unit]
 *        12 |     airflow   140 cfn
 *           |               ^~~~~~~
 *        hint: write 140 cfm
 * Lines are cut to 80 columns around the span; wide characters keep the caret under their column.  Related places
 * follow as notes with their own lines. */
void diagnostic_print(FILE *out, const struct diagnostic *diagnostic, bool colour);

/* More than this many are not printed: errors go before warnings, warnings before notes. */
#define DIAGNOSTICS_PRINTED 100

/* Prints all but the accepted ones (the papers list those), then a count: "2 errors, 1 warning", with
 * "3 accepted" and "12 not shown" behind it when there are any.  Prints nothing when there is nothing to say. */
void diagnostics_print(FILE *out, const struct diagnostics *all, bool colour);

#endif
