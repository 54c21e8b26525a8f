/* Rows of a reference table: comma-separated, `#` lines are its head, the first other line names the columns. */
#ifndef TESTS_UNIT_CSV_H
#define TESTS_UNIT_CSV_H

#include <math.h>
#include <stdbool.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { CSV_FIELDS = 32, CSV_LINE = 1024 };

struct csv {
    FILE *file;
    char names_line[CSV_LINE], line[CSV_LINE];
    char *names[CSV_FIELDS], *fields[CSV_FIELDS];
    size_t count; /* fields in the row at hand */
};

static inline void csv_give_up(const char *what, const char *which) {
    fprintf(stderr, "%s: %s\n", what, which);
    abort();
}

/* Cuts `line` at its commas (not those inside quotes); gives the number of fields. */
static inline size_t csv_cut(char *line, char **fields) {
    size_t count = 0;
    bool quoted = false;
    line[strcspn(line, "\r\n")] = 0;
    fields[count++] = line;
    for (char *at = line; *at; at++) {
        if (*at == '"')
            quoted = !quoted;
        if (*at != ',' || quoted)
            continue;
        *at = 0;
        if (count < CSV_FIELDS)
            fields[count++] = at + 1;
    }
    return count;
}

/* The next row; false at the end. */
static inline bool csv_next(struct csv *csv) {
    do {
        if (!fgets(csv->line, CSV_LINE, csv->file))
            return false;
    } while (csv->line[0] == '#' || csv->line[0] == '\n');
    csv->count = csv_cut(csv->line, csv->fields);
    return true;
}

/* Opens a table, from the project's folder, and reads the names of its columns.  A missing table ends the test. */
static inline void csv_open(struct csv *csv, const char *path) {
    *csv = (struct csv){.file = fopen(path, "r")};
    if (!csv->file || !csv_next(csv))
        csv_give_up("cannot read the table", path);
    memcpy(csv->names_line, csv->line, CSV_LINE);
    for (size_t i = 0; i < csv->count; i++)
        csv->names[i] = csv->names_line + (csv->fields[i] - csv->line);
}

static inline void csv_close(struct csv *csv) {
    fclose(csv->file);
}

/* The field of a column, "" when the row is too short. */
static inline const char *csv_text(const struct csv *csv, const char *column) {
    for (size_t i = 0; i < CSV_FIELDS && csv->names[i]; i++)
        if (strcmp(csv->names[i], column) == 0)
            return i < csv->count ? csv->fields[i] : "";
    csv_give_up("no such column", column);
    return "";
}

/* The same as a number; not a number when it is empty. */
static inline double csv_number(const struct csv *csv, const char *column) {
    const char *text = csv_text(csv, column);
    return *text ? strtod(text, NULL) : NAN;
}

#endif
