/* Fields and lines of RFC 4180. */
#include "report/csv.h"

#include <string.h>

static void separate(struct csv *csv) {
    if (csv->comma)
        output_text(csv->out, ",");
    csv->comma = true;
}

/* Section 2, rules 5 to 7: in quotes when it holds a comma, a quote or the end of a line, a quote inside doubled. */
void csv_text(struct csv *csv, const char *text) {
    separate(csv);
    if (!text)
        return;
    if (!text[strcspn(text, ",\"\r\n")]) {
        output_text(csv->out, text);
        return;
    }
    output_text(csv->out, "\"");
    for (; *text; text++) {
        output_put(csv->out, text, 1);
        if (*text == '"')
            output_text(csv->out, "\"");
    }
    output_text(csv->out, "\"");
}

void csv_count(struct csv *csv, size_t count) {
    separate(csv);
    output_format(csv->out, "%zu", count);
}

void csv_real(struct csv *csv, double number, int decimals) {
    separate(csv);
    output_format(csv->out, "%.*f", decimals, number);
}

void csv_end(struct csv *csv) {
    output_text(csv->out, "\r\n");
    csv->comma = false;
}
