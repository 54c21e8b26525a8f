/* The syntax tree: what the text says, before anyone asks what it means.
 *
 * A job is a list of statements.  A statement is a word, the values behind it, and perhaps a block of statements:
 *     transition over 18 in, flat top
 *     ^word      ^values: over(word) 18 in(quantity) ,(comma) flat(word) top(word)
 */
#ifndef CLEAT_LANG_SYNTAX_H
#define CLEAT_LANG_SYNTAX_H

#include "base/diagnostics.h"
#include "base/list.h"
#include "base/measure.h"
#include "base/text.h"

enum value_kind {
    VALUE_WORD,     /* a name or keyword, with its dots: kilnside, plenum.left, equal-friction */
    VALUE_STRING,   /* "in quotes" */
    VALUE_QUANTITY, /* a number, with or without a unit: 14 ft 6 in, 3-1/2 in, 90, 96 % */
    VALUE_SIZE,     /* two or three quantities: 18 x 14, 20 x 25 x 1 */
    VALUE_DATE,     /* 2026-04-18 */
    VALUE_COMMA     /* between values */
};

/* A number and the unit written behind it.  Fractions are summed; feet-and-inches are already one quantity, in feet. */
struct quantity {
    double number;
    const struct measure *measure; /* NULL: bare */
};

struct value {
    enum value_kind kind;
    struct span at;
    const char *text;                /* word, string (escapes resolved) or date */
    const struct quantity *quantity; /* quantity: [0]; size: width, height, third */
    int quantity_count;
};

struct statement {
    const char *word;    /* "": it has none, which has been diagnosed */
    struct span word_at; /* the word alone */
    struct span at;      /* the word and its values, without the block */
    LIST(struct value) values;
    bool faulty; /* something in it has been diagnosed: say no more about it */
    bool has_block;
    struct span block_at; /* from { to } */
    LIST(struct statement *) block;
};

/* A whole file and, in place of each `use`, what it read. */
struct syntax {
    LIST(struct statement *) statements;
    LIST(const struct text *) texts; /* the job first, then each file used, in order */
};

/* Limits of the text (docs/language.md). */
enum { TEXT_LIMIT = 64 * 1024 * 1024, LINE_LIMIT = 64 * 1024, WORD_LIMIT = 200, NESTING_LIMIT = 64, USE_LIMIT = 16 };

/* Scans and parses one text into `syntax->statements`.  Faults go to the diagnostics; what could be read is kept. */
void syntax_parse(struct syntax *syntax, const struct text *text, struct arena *arena, struct diagnostics *diagnostics);

/* Reads the job at `path` and everything it uses (see lang/use.h for where `use` looks).  False when the job itself
 * cannot be read; then `*cannot` says why ("No such file or directory") and nothing was diagnosed. */
bool syntax_read(struct syntax *syntax, const char *path, const char *shop_folder, struct arena *arena,
                 struct diagnostics *diagnostics, const char **cannot);

/* The same for a job that is in memory; `name` stands for its path. */
void syntax_read_text(struct syntax *syntax, const char *name, const char *bytes, size_t length,
                      const char *shop_folder, struct arena *arena, struct diagnostics *diagnostics);

#endif
