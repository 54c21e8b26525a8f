/* What the scanner (grammar/job.l) and the parser (grammar/job.y) have in common: the state of one text being read, and
 * the work behind their rules.
 */
#ifndef CLEAT_LANG_SCAN_H
#define CLEAT_LANG_SCAN_H

#include "lang/syntax.h"

/* A { that is open. */
struct brace {
    struct span at;
    uint32_t indent; /* of the line on which its statement begins */
    uint32_t inner;  /* of the first line within; 0: none seen yet; UINT32_MAX: the line of the { itself */
};

/* What the count of braces in the text says is missing; then indentation tells where. */
enum missing { MISSING_NOTHING, MISSING_CLOSE, MISSING_OPEN };

struct statements {
    LIST(struct statement *) list;
};

enum { WORDS_KEPT = 256 };

struct scan {
    const struct text *text;
    struct arena *arena;
    struct diagnostics *diagnostics;
    enum missing missing;

    struct span at;           /* what was matched last */
    struct span last, before; /* the last two tokens given to the parser */
    int behind;               /* kind of the last token given to the parser; 0: none */
    bool measured;            /* the number behind us already has its unit */
    bool faulty;              /* the statement at hand has a fault that was diagnosed */
    uint32_t indent;          /* of the line on which the statement at hand begins */

    uint32_t swallowed; /* where the last text without an end that holds a } begins; 0: none */

    struct brace open[NESTING_LIMIT];
    size_t depth;    /* how many of `open` are */
    size_t too_deep; /* braces open beyond that */

    const char *words[WORDS_KEPT]; /* met lately, by their hash */
    LIST(struct value) values;     /* of the statement at hand */
    struct statements *result;
};

/* ---- scan.c: for the scanner.  Functions that give an int give the kind of token. -------------------------------- */

/* Notes what was matched: `length` bytes at `match`, which lies in the text. */
struct span scan_place(struct scan *scan, const char *match, size_t length);

/* Counts a token without a value as given to the parser. */
int scan_take(struct scan *scan, int kind);

/* A newline and the empty lines behind it.  False: it means nothing here.  Cuts `at` to the newline itself.
 * `next`, here and below: the byte behind what was matched, in whose place flex keeps a 0 meanwhile. */
bool scan_newline(struct scan *scan, struct span *at, char next);

int scan_open(struct scan *scan);
int scan_close(struct scan *scan, char next);

/* 0, or for each { that is still open UNCLOSED. */
int scan_end(struct scan *scan);

/* False: the quote alone is an inch mark, which has been diagnosed. */
bool scan_string(struct scan *scan, const char **text, bool closed);
int scan_date(struct scan *scan, const char **text);
int scan_number(struct scan *scan, struct quantity *quantity);
int scan_resistance(struct scan *scan, struct quantity *quantity);

/* How much of a match like 1,200 is the number: all of it, which is diagnosed, or what stands before the comma. */
size_t scan_thousands(struct scan *scan, char next);

/* How much of a word to take: 1 where it is the x of a size, 0 where a missing } goes before it, else all. */
size_t scan_word_length(struct scan *scan);
int scan_word(struct scan *scan, const char **text, const struct measure **measure);

/* Inches behind feet that make a foot or more; `inches`: both together. */
void scan_inches(struct scan *scan, struct span at, double inches);

/* The sign of multiplication, and %.  False: it has been diagnosed. */
bool scan_times(struct scan *scan);
bool scan_percent(struct scan *scan, const struct measure **measure);

/* A character that nothing begins with. */
void scan_stray(struct scan *scan);

/* ---- scan.c: for the parser -------------------------------------------------------------------------------------- */

/* The place of a rule with `count` parts; an empty one lies behind what was matched last. */
struct span scan_join(const struct scan *scan, const struct span *parts, int count);

/* Diagnoses the token at `at`, which does not fit where it stands. */
void scan_misplaced(struct scan *scan, struct span at, bool wants_number);

/* ---- scan.c: for scan_number.c ----------------------------------------------------------------------------------- */

/* Diagnoses a fault of the statement at hand; NULL when it had one already: one fault, one error. */
struct diagnostic *scan_fault(struct scan *scan, struct span at, const char *format, ...)
    __attribute__((format(printf, 3, 4)));
/* Adds what to type; nothing to no diagnostic. */
void scan_hint(struct scan *scan, struct diagnostic *diagnostic, const char *text);
/* What was matched last, in the text itself. */
const char *scan_matched(const struct scan *scan, size_t *length);

/* ---- syntax.c: building the tree --------------------------------------------------------------------------------- */

struct statements *syntax_new(struct scan *scan);
struct statements *syntax_add(struct scan *scan, struct statements *statements, struct statement *statement);
void syntax_finish(struct scan *scan, struct statements *statements);

/* Adds a value to the statement at hand; feet behind which inches stand become one quantity. */
void syntax_value(struct scan *scan, const struct value *value);

/* One number makes a quantity, more make a size. */
struct value syntax_size(struct scan *scan, struct span at, int count, const struct quantity *quantity);

/* The statement at hand, with the values that have gathered. */
struct statement *syntax_statement(struct scan *scan, const char *word, struct span word_at);

/* A faulty statement without a word, in place of one that cannot be told. */
struct statement *syntax_unreadable(struct scan *scan, struct span at);

/* Gives `statement` its block. */
struct statement *syntax_block(struct scan *scan, struct statement *statement, const struct statements *block,
                               struct span open, struct span close);

#endif
