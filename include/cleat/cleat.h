/* libcleat: compiles a duct job to its papers.
 *
 * One compilation is one `struct cleat`; several may live at once, in several threads.  Nothing is global.
 */
#ifndef CLEAT_CLEAT_H
#define CLEAT_CLEAT_H

#include <stdbool.h>
#include <stddef.h>
#include <stdio.h>

#define CLEAT_VERSION "0.1.0"

enum cleat_status {
    CLEAT_OK = 0,     /* no errors in the job; there may be warnings */
    CLEAT_ERRORS = 1, /* the job has errors */
    CLEAT_USAGE = 2, /* an unknown reader, format or part was asked for, or an output over one of the job's own files */
    CLEAT_IO = 3,    /* something could not be read or written, or memory ran out: see cleat_problem */
};

struct cleat;

/* A compiler that looks for installed shop files in `shop_folder` too (NULL: only beside the job).  The name is the
 * caller's, and stays until cleat_free.  NULL when there is no memory. */
struct cleat *cleat_new(const char *shop_folder);
void cleat_free(struct cleat *cleat);

/* Compiles the job at `path`, with all passes.  Of the two functions that compile one may be called, once. */
enum cleat_status cleat_compile(struct cleat *cleat, const char *path);

/* The same from memory; `name` stands for the path in messages and for finding what the job uses. */
enum cleat_status cleat_compile_text(struct cleat *cleat, const char *name, const char *bytes, size_t length);

/* Names of the formats ("md", "pdf", "json", "csv") and of the format that a file
 * name's extension means; NULL: none. */
const char *const *cleat_formats(size_t *count);
const char *cleat_format_of(const char *path);

/* Whom a packet can be for: "customer", "shop", "field", "office". */
const char *const *cleat_readers(size_t *count);

/* Whether `reader` has a packet in `format`.  False for json, which is the same whoever reads it. */
bool cleat_has(const char *reader, const char *format);

/* Writes the packet of `reader` (NULL: the customer) to `path` ("-": standard output) in `format`.
 *
 * md: the figures are files in a folder beside it, `shop-figures` beside shop.md; on standard output they are left out.
 * pdf: the figures are on its pages.
 * json: everything, whoever reads it; for the reader "customer" (not NULL) no more of the price than the bid tells.
 *
 * CLEAT_ERRORS when the job has errors, whether or not something was written: cleat_writes tells which. */
enum cleat_status cleat_write(struct cleat *cleat, const char *reader, const char *format, const char *path);

/* Whether cleat_write writes that for the job as it is.  Json always.  A packet not when the job has errors; but when
 * the price alone has them, the packets that tell none are written. */
bool cleat_writes(const struct cleat *cleat, const char *reader, const char *format);

/* Whether there are errors of more than the price. */
bool cleat_is_faulty(const struct cleat *cleat);

/* The parts that the shop makes, a line each, for the terminal.  Empty when cleat_is_faulty, or when there is no
 * memory. Owned by `cleat`. */
const char *cleat_parts(struct cleat *cleat);

/* Writes the pattern of `part` at full size: "7" is all blanks of part 7 beside each other, "7B" its blank B.  As SVG;
 * when `path` ends in .pdf, as pages to be taped together.  CLEAT_USAGE when there is no such part.  CLEAT_ERRORS when
 * the job has errors; nothing was written when cleat_is_faulty. */
enum cleat_status cleat_write_pattern(struct cleat *cleat, const char *part, const char *path);

/* Writes the working for a run, outlet, inlet or unit, every equation with its figures, to `path` ("-": standard
 * output) as "md" or "pdf".  CLEAT_USAGE when there is no such thing. */
enum cleat_status cleat_write_working(struct cleat *cleat, const char *name, const char *format, const char *path);

/* The named checks, what each looks at, its limit and the source of that; for the terminal.  Needs no job.  Empty when
 * there is no memory.  Owned by `cleat`. */
const char *cleat_checks(struct cleat *cleat);

/* The outcome in a line or two a unit, for the terminal: outlets, airflow, governing path, what is left over; and the
 * price of a priced job.  Empty when the job has errors, or when there is no memory.  Owned by `cleat`. */
const char *cleat_summary(struct cleat *cleat);

/* The diagnostics so far, for people or (`json`) machines. */
void cleat_print_diagnostics(const struct cleat *cleat, FILE *out, bool colour, bool json);
size_t cleat_error_count(const struct cleat *cleat);
size_t cleat_warning_count(const struct cleat *cleat);

/* Why the last call returned CLEAT_IO or CLEAT_USAGE, in one line; NULL otherwise. Owned by `cleat`. */
const char *cleat_problem(const struct cleat *cleat);

#endif
