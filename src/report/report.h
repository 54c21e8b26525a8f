/* The papers of a compiled job.  A writer computes nothing but the running totals of its tables: every other
 * figure is in the job already. */
#ifndef CLEAT_REPORT_REPORT_H
#define CLEAT_REPORT_REPORT_H

#include <stdio.h>

#include "base/output.h"
#include "model/job.h"

struct drawings; /* report/drawings.h */

/* Names of the formats ("md", "pdf", "json", "csv"), and of those whom a packet can be for ("customer", "shop",
 * "field", "office"), the first being who it is for when nobody says. */
const char *const *report_formats(size_t *count);
const char *const *report_readers(size_t *count);

/* The format that the extension of `path` means; NULL: none. */
const char *report_format_of(const char *path);

/* Whether a job with errors can be written in this format. */
bool report_format_shows_errors(const char *format);

/* Whether the packet of that reader (NULL: the customer) tells the price, so that it is none without. */
bool report_tells_price(const char *reader);

/* Whether the format holds everything, whoever reads it. */
bool report_format_is_whole(const char *format);

/* Whether there are such a reader (NULL: the first) and format, and that reader's packet comes in it; and whether it
 * then has drawings. */
bool report_has(const char *reader, const char *format);
bool report_drawn(const char *reader, const char *format);

/* Whether it shows what one foot or one outlet more costs (price->what_ifs). */
bool report_asks_what_ifs(const char *reader, const char *format);

/* Whether it shows what one step more of an estimate does (estimate->effect): no paper of the customer's does. */
bool report_asks_effects(const char *reader, const char *format);

/* Writes the packet of `reader` (for json, everything) into `out`, and its figures into `drawings` (NULL: they are left
 * out). False when memory ran out in a library that does not use the arena, or report_has says no. */
bool report_write(const struct job *job, const char *reader, const char *format, struct drawings *drawings,
                  struct output *out);

/* Which pattern is asked for. */
struct pattern_order {
    const struct part *part;   /* metal/metal.h */
    const struct blank *blank; /* NULL: all of the part, beside each other */
    bool tiled;                /* over as many pages as it needs, and not on one sheet */
};

/* Reads "7" or "7B".  False: there is no such part, and *why says in one line what there is.  In the job's arena. */
bool report_find_pattern(const struct job *job, const char *words, struct pattern_order *order, const char **why);

/* Writes it at full size, as SVG or, tiled, as PDF.  False when memory ran out in a library that does not use the
 * arena. */
bool report_pattern(const struct job *job, const struct pattern_order *order, struct output *out);

/* The name of a font that drawings and patterns, or pages too, need and the system has not; NULL: it has all. */
const char *report_missing_font(bool pages);

/* Whether the format is set on pages. */
bool report_format_is_typeset(const char *format);

/* The parts, a line each, for the terminal.  In the job's arena. */
const char *report_parts(const struct job *job);

/* What is to be explained: a run, outlet, inlet or unit of a job. */
struct explained {
    const char *name;
    const struct job *job;             /* the base job, or the job compiled with the alternate that alone has it */
    const struct alternate *alternate; /* that one, of the base job; NULL: none */
    const struct alternate *other;     /* the next that has one of that name; NULL: none */
};

/* Which alternate, from `first` on and counted from 1, has the thing that the base job has not; 0: there is none. */
size_t report_alternate_of(const struct job *job, const char *name, size_t first);

/* Writes the working for it, as "md" or "pdf".  False when memory ran out.  What neither the job nor an alternate has:
 * why it cannot be explained, in one line; NULL: it can.  In the job's arena. */
const char *report_cannot_explain(const struct job *job, const char *name);
bool report_explain(const struct explained *explained, const char *format, struct output *out);

/* The named checks with their limits and sources, for the terminal.  In `arena`. */
const char *report_checks(struct arena *arena);

/* The outcome in a line or two a unit, for the terminal.  In the job's arena; "" when there is nothing to say. */
const char *report_summary(const struct job *job);

/* The diagnostics as one JSON array. */
void report_diagnostics_json(const struct diagnostics *diagnostics, FILE *file);

#endif
