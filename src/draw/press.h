/* Spooled pages as a PDF: with outline, links, page numbers and what is known of the paper. */
#ifndef CLEAT_DRAW_PRESS_H
#define CLEAT_DRAW_PRESS_H

#include "base/output.h"
#include "draw/spool.h"

struct press {
    struct spool *spool;
    struct type *type;
    double width, height;                         /* of a page */
    double left, right;                           /* the margins, as places on the page */
    double head, foot;                            /* baselines of the lines that stand on every page */
    const char *above_left, *above_right, *below; /* "below" stands left of the page's number; NULL: none */
    const char *title, *author, *subject, *date;  /* NULL: not known; the date as 2026-04-18 */
    const size_t *places;                         /* the page of each place, from 1; 0: there is none, and no link */
};

/* False: there was no memory, or the spool could not be read.  A failure of `out` shows when that is committed. */
bool press_pdf(const struct press *press, struct output *out);

/* What cairo writes a surface with. */
cairo_status_t press_write(void *out, const unsigned char *bytes, unsigned length);

/* Sets title, author, subject and date of a PDF; never the time of day. */
void press_describe(cairo_surface_t *surface, const char *title, const char *author, const char *subject,
                    const char *date);

/* Sets the colour. */
void press_ink(cairo_t *cairo, enum ink ink);

#endif
