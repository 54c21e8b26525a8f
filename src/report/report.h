/* The papers of a compiled job.  A writer computes nothing but the running totals of its tables: every other
 * figure is in the job already. */
#ifndef CLEAT_REPORT_REPORT_H
#define CLEAT_REPORT_REPORT_H

#include <stdio.h>

#include "base/output.h"
#include "model/job.h"

/* Names of the formats ("md", "json"). */
const char *const *report_formats(size_t *count);

/* The format that the extension of `path` means; NULL: none. */
const char *report_format_of(const char *path);

/* Whether a job with errors can be written in this format. */
bool report_format_shows_errors(const char *format);

/* Writes the customer's bid (or, for json, everything) into `out`.  `format` is one of report_formats.  False when memory ran out in a
 * library that does not use the arena. */
bool report_write(const struct job *job, const char *format, struct output *out);

/* The outcome in a line or two a unit, for the terminal.  In the job's arena; "" when there is nothing to say. */
const char *report_summary(const struct job *job);

/* The diagnostics as one JSON array. */
void report_diagnostics_json(const struct diagnostics *diagnostics, FILE *file);

#endif
