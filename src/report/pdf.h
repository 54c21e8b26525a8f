/* Shared by the parts of the PDF writer: the flow of text down a page and over to the next.  Places are points from the
 * left top corner of the page, y down. */
#ifndef CLEAT_REPORT_PDF_H
#define CLEAT_REPORT_PDF_H

#include "draw/press.h"
#include "report/document.h"

/* A drawing that has been laid out. */
struct pdf_drawing {
    const struct sheet *whole; /* as large as a page has room for */
    const struct sheet *small; /* for the room that was left; NULL: not asked for yet */
    bool too_small;            /* for the room that was left it would have to be smaller than it may be */
};

struct pdf {
    const struct paper *paper;
    struct spool *spool;
    struct type *type;
    double left, right, top, bottom; /* what text may fill */
    double y;                        /* where the next block begins */
    bool begun, fresh;               /* there is a page; nothing stands on it yet */
    bool below_heading;              /* nothing stands yet below a heading that has just been put */
    struct arena *scratch;           /* of the lines of one text */
    const char *last_heading;        /* of this part; NULL: none */
    struct pdf_drawing *drawings;    /* of this part, a block each */
    size_t kept;                     /* the page of the last heading */
    bool contents_put;
    size_t headings_met; /* of those that are known beforehand */
    size_t *places;      /* the pages that they stand on, from 1 */
};

struct style {
    enum type_face face;
    enum ink ink;
    double size, leading; /* pt, from baseline to baseline */
};

extern const struct style style_text, style_bold, style_small;

/* ---- Room -------------------------------------------------------------------------------------------------------- */

double pdf_page_room(const struct pdf *pdf); /* of an empty page */
void pdf_new_page(struct pdf *pdf);
bool pdf_has_room(const struct pdf *pdf, double height);

/* Goes to the next page unless so much has room here, or nothing stands here yet, or a heading would be left behind:
 * the heading has asked for all that a page can give. */
void pdf_need(struct pdf *pdf, double height);

/* Leaves space between what stands here and what follows. */
void pdf_gap(struct pdf *pdf, double height);

/* ---- Text -------------------------------------------------------------------------------------------------------- */

/* Some words of a text that fit on a line. */
struct text_line {
    const char *from, *to;
};

/* Breaks a text into lines no wider than `room`, the first by `lead` less; a word that is wider is broken where it
 * must. Gives their number; `lines` (NULL: they are only counted) gets them in pdf->scratch. */
size_t pdf_wrap(struct pdf *pdf, const struct style *style, const char *text, double room, double lead,
                struct text_line **lines);

/* Width of the whole text on one line, and of its widest word. */
double pdf_text_width(struct pdf *pdf, const struct style *style, const char *text);
double pdf_word_width(struct pdf *pdf, const struct style *style, const char *text);

/* Puts a line with its upper edge at y. */
void pdf_put_line(struct pdf *pdf, const struct style *style, struct text_line line, double x, double y);
double pdf_line_width(struct pdf *pdf, const struct style *style, struct text_line line);

/* The whole of a text as a line. */
struct text_line pdf_whole(const char *text);

/* Puts lines down the page and over to the next, never one alone before or behind the break. */
void pdf_put_lines(struct pdf *pdf, const struct style *style, const struct text_line *lines, size_t count, double x);

/* A straight line, and a filled box. */
void pdf_rule(struct pdf *pdf, enum ink ink, double width, struct spot from, struct spot to);
void pdf_fill(struct pdf *pdf, enum ink ink, struct spot from, struct spot to);

/* ---- Blocks ------------------------------------------------------------------------------------------------------ */

void pdf_put_block(struct pdf *pdf, const struct document *part, size_t index);

/* What stands before the first section. */
void pdf_put_contents(struct pdf *pdf);

/* A drawing as it is printed. */
struct pdf_print {
    const struct sheet *sheet;
    double scale;
};

double pdf_print_height(const struct pdf_print *print);

/* As large as a page has room for. */
const struct sheet *pdf_whole_drawing(struct pdf *pdf, const struct document *part, size_t index);

/* How the drawing goes into `room` pt, or false: it does not, or only when it is made too small. */
bool pdf_fit_drawing(struct pdf *pdf, const struct document *part, size_t index, double room, struct pdf_print *print);

/* However small it must be: it may not leave its heading. */
struct pdf_print pdf_squeeze_drawing(struct pdf *pdf, const struct document *part, size_t index, double room);

void pdf_put_table(struct pdf *pdf, const struct table *table, enum measure_system system);
/* How much of it must stand together at its beginning. */
double pdf_table_start(struct pdf *pdf, const struct table *table, enum measure_system system);
double pdf_table_height(struct pdf *pdf, const struct table *table, enum measure_system system);

#endif
