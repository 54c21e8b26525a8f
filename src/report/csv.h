/* Comma-separated values, RFC 4180: fields one after the other, then the end of the line. */
#ifndef CLEAT_REPORT_CSV_H
#define CLEAT_REPORT_CSV_H

#include <stdbool.h>
#include <stddef.h>

#include "base/output.h"

struct csv {
    struct output *out;
    bool comma; /* a field stands before the next one on this line */
};

void csv_text(struct csv *csv, const char *text); /* NULL: an empty field */
void csv_count(struct csv *csv, size_t count);
void csv_real(struct csv *csv, double number, int decimals);
void csv_end(struct csv *csv);

#endif
