/* What the files of form_read share. */
#ifndef CLEAT_LANG_READER_H
#define CLEAT_LANG_READER_H

#include "lang/form.h"

struct reader {
    struct reading *reading;
    const struct form *form;
    const struct statement *statement;
    const struct form_table *table;
    enum measure_system system;
    struct diagnostics *diagnostics;
    size_t next;                  /* the value that is read next */
    size_t bare;                  /* bare slots before this one are passed: no value fills them any more */
    const struct measure *shared; /* the unit behind the last of several numbers; NULL: none */
};

/* ---- form_read.c ------------------------------------------------------------------------------------------------- */

/* The value `ahead` of the next one, or NULL. */
const struct value *reader_value(const struct reader *reader, size_t ahead);
bool value_is(const struct value *value, enum value_kind kind);
bool value_is_word(const struct value *value, const char *word);

/* The slot with `word` as its key, or NULL. */
const struct slot *reader_keyed(const struct reader *reader, const char *word);
struct argument *reader_argument(const struct reader *reader, const struct slot *slot);

/* ---- form_value.c ------------------------------------------------------------------------------------------------ */

/* Whether `value` could be what `slot` wants (of a quantity: in kind). */
bool slot_fits(const struct reader *reader, const struct slot *slot, const struct value *value);
bool slot_takes_numbers(const struct slot *slot);
enum measure_kind slot_measure(const struct slot *slot);    /* of the first number that such a slot takes */
int slot_choice(const struct slot *slot, const char *word); /* index, or -1 */

/* Reads what `slot` wants, from the next value on, into its argument.  False: it has
 * been diagnosed; nothing was taken. */
bool slot_read(struct reader *reader, const struct slot *slot, const struct value *key);

/* ---- form_say.c: what is wrong.  Only the first fault of a statement is told. ------------------------------------ */

/* NULL when the statement had its fault. */
struct diagnostic *say(struct reader *reader, const char *check, struct span at, const char *format, ...)
    __attribute__((format(printf, 4, 5)));
void say_hint(struct reader *reader, struct diagnostic *diagnostic, const char *format, ...)
    __attribute__((format(printf, 3, 4)));

/* Hints the form's example. */
void say_example(struct reader *reader, struct diagnostic *diagnostic);

/* What was written there, cut between characters when it is long. */
const char *reader_excerpt(const struct reader *reader, struct span at);
/* A value as it is shown in a message: words in quotes, the rest as written. */
const char *reader_shown(const struct reader *reader, const struct value *value);

void say_wrong_value(struct reader *reader, const struct slot *slot, const struct value *key,
                     const struct value *value); /* value NULL: there is none */
void say_twice(struct reader *reader, const struct slot *slot, const struct value *value); /* form_twice.c */
void say_missing(struct reader *reader, const struct slot *slot);
void say_comma(struct reader *reader, const struct value *comma);
void say_list_comma(struct reader *reader, const struct value *before, const struct value *value);
void say_block(struct reader *reader);
void say_leftover(struct reader *reader, const struct value *value);

/* ---- say_quantity.c ---------------------------------------------------------------------------------------------- */

void say_wrong_measure(struct reader *reader, enum measure_kind kind, const struct value *value,
                       const struct quantity *quantity);
void say_no_unit(struct reader *reader, enum measure_kind kind, const struct value *value);
/* The inches of "ft6in", as of 12ft6in; NULL: the word is none such. */
const char *feet_run_together(const struct reader *reader, const char *word);

void say_unknown_unit(struct reader *reader, enum measure_kind kind, const struct value *value,
                      const struct value *word);
/* 16 ft 6, where the inches lack their unit.  False: it is no such value, and nothing was told. */
bool say_no_inches(struct reader *reader, const struct value *value);

/* ---- form_find.c ------------------------------------------------------------------------------------------------- */

/* The form that begins with `word`, wherever it may stand, or NULL. */
const struct form *form_named(const struct form_table *table, const char *word);

#endif
