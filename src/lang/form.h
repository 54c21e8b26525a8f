/* Forms: what may stand behind a word.  One table entry describes a statement; one reader checks any statement
 * against its entry and says, in the trade's words, what is wrong with it.
 *
 *     elbow 90 left, radius 1.0, vanes
 *           ^slot ^slot ^slot        ^flag
 *
 * Slots are filled as their values come: a keyed slot by its word ("radius"), a bare slot by the first value of its
 * kind.  Bare slots stay in order.  Commas may stand between slots; they must stand between the members of a list.
 */
#ifndef CLEAT_LANG_FORM_H
#define CLEAT_LANG_FORM_H

#include <stdbool.h>

#include "base/source.h"
#include "lang/syntax.h"

enum slot_kind {
    SLOT_NONE,     /* ends the table of slots */
    SLOT_QUANTITY, /* of `measure`; a bare number where the measure allows one (length, angle, number, percent) */
    SLOT_SIZE,     /* 18 x 14; 8 (round); 18 x 14 oval; 20 x 25 x 1 */
    SLOT_TEXT,     /* "in quotes" */
    SLOT_NAME,     /* a new or referred-to name */
    SLOT_PORT,     /* AHU.supply, plenum.left, kilnside: a name with at most one dot */
    SLOT_CHOICE,   /* one of `choices` */
    SLOT_FLAG,     /* the keyword alone */
    SLOT_DATE,
    SLOT_POINT, /* three lengths with commas */
    SLOT_PAIR,  /* flow `at` pressure */
    SLOT_ITEM,  /* any single word or string: what a price or an hour is for */
    SLOT_AMOUNT /* a quantity of whatever measure: how much is in a box */
};

enum slot_use {
    SLOT_OPTIONAL = 0,
    SLOT_REQUIRED = 1, /* its absence is an error */
    SLOT_LIST = 2,     /* may repeat, with commas */
    SLOT_REQUIRED_LIST = 3
};

struct slot {
    enum slot_kind kind;
    const char *key; /* the word before it ("over", "radius"); NULL: none; for SLOT_FLAG the flag itself */
    enum slot_use use;
    enum measure_kind measure;  /* SLOT_QUANTITY */
    const char *const *choices; /* SLOT_CHOICE: NULL-terminated */
    const char *meaning;        /* "how long it is": completes "expected ..." */
};

/* Where a statement may stand. */
enum form_place {
    IN_FILE = 1 << 0,
    IN_JOB = 1 << 1,
    IN_SHOP = 1 << 2,
    IN_UNIT = 1 << 3,
    IN_RUN = 1 << 4,
    IN_OUTLET = 1 << 5,
    IN_INLET = 1 << 6,
    IN_ALTERNATE = 1 << 7
};

enum form_block { BLOCK_NONE, BLOCK_OPTIONAL, BLOCK_REQUIRED };

enum { SLOT_LIMIT = 10 };

struct form {
    const char *word;
    unsigned places; /* of enum form_place */
    enum form_block block;
    struct slot slots[SLOT_LIMIT];
    const char *meaning; /* one line for help and docs */
    const char *example; /* a line that can be typed in */
    bool divides;        /* what it has behind its first value may be said in two statements, each with that value */
    const char
        *metric_example; /* likewise in a metric job, where `example` has lengths without a unit; NULL: as `example` */
};

/* What one slot was given.  There are millions in a large job: what no slot has at once shares its place. */
struct argument {
    bool given;
    bool about;          /* the dimension was marked as an estimate */
    unsigned char count; /* SLOT_SIZE: how many dimensions */
    int choice;          /* SLOT_CHOICE: index into choices; SLOT_AMOUNT: its enum measure_kind */
    struct span at;
    union {
        struct {
            double number; /* SLOT_QUANTITY, SLOT_AMOUNT in SI; SLOT_PAIR: the flow */
            double second; /* SLOT_PAIR: the pressure */
        };
        double point[3]; /* SLOT_POINT, m; SLOT_SIZE: width, height, third, m */
    };
    const char
        *text; /* text, name, port (before its dot), item, date; SLOT_SIZE: "round", "oval", "rectangular" or NULL */
    const char *leg;       /* SLOT_PORT: what follows the dot, or NULL */
    struct argument *next; /* SLOT_LIST: the next member */
};

struct reading {
    const struct form *form;
    const struct statement *statement;
    struct argument *argument; /* one a slot of the form, in the arena of the diagnostics */
    bool faulty;               /* something was wrong and has been diagnosed; do not trust it further */
};

/* A table of forms to look words up in. */
struct form_table {
    const struct form *const *forms;
    size_t count;
};

/* The form of `statement` among `table`, for use in `place`.  A word that is nearly one of them is diagnosed and taken
 * for it, so that a misspelt run is still known by its name: form_read then finds it faulty and says no more.  NULL
 * when there is none, which has been diagnosed, with where the word does belong when it is known. */
const struct form *form_find(const struct form_table *table, const struct statement *statement, enum form_place place,
                             struct diagnostics *diagnostics);

/* Reads `statement` against `form`.  `system` tells what a bare length means (in or mm).  At most one error a
 * statement. */
void form_read(struct reading *reading, const struct form *form, const struct statement *statement,
               enum measure_system system, const struct form_table *table, struct diagnostics *diagnostics);

#endif
