/* Pages laid out and not yet painted, in a temporary file: a page can say how many there are only when all are known,
 * and a long paper must not be held in memory.  Places are points from the left top corner of the page, y down. */
#ifndef CLEAT_DRAW_SPOOL_H
#define CLEAT_DRAW_SPOOL_H

#include "draw/sheet.h"
#include "draw/type.h"

enum ink { INK_BLACK, INK_ACCENT, INK_GREY, INK_WASH };

enum spool_kind {
    SPOOL_PAGE,    /* what follows stands on the next page */
    SPOOL_WORDS,   /* text, its baseline beginning at (x, y) */
    SPOOL_LINE,    /* from (x, y) to (right, bottom), `size` wide */
    SPOOL_FILL,    /* a filled box */
    SPOOL_SHEET,   /* a drawing, its left top corner at (x, y), `size` times its size */
    SPOOL_HEADING, /* an entry of the outline: text, `level` deep, at height y */
    SPOOL_PLACE,   /* height y is place number `level`, which links lead to */
    SPOOL_LINK /* the number of the page of place `level`, flush right in the box to (right, bottom), which leads there
                */
};

struct spool_mark {
    enum spool_kind kind;
    enum ink ink;
    enum type_face face;
    int level;
    double size; /* of type, of a line, of a drawing */
    double x, y, right, bottom;
    size_t length; /* of the text, which follows the mark */
};

struct spool;

/* NULL: there is no memory, or no temporary file. */
struct spool *spool_new(void);
void spool_free(struct spool *spool); /* NULL is allowed */

void spool_put(struct spool *spool, struct spool_mark mark, const char *text);
void spool_sheet(struct spool *spool, const struct sheet *sheet, double x, double y, double scale);

/* Pages begun so far. */
size_t spool_pages(const struct spool *spool);

/* Begins to read from the start.  False: not all was written, or it cannot be read. */
bool spool_rewind(struct spool *spool);

/* Reads the next mark, its text into *text (a 0 behind it; good until the next).  False: that was all, or a failure:
 * spool_sound. */
bool spool_next(struct spool *spool, struct spool_mark *mark, const char **text);

/* Reads the drawing behind a mark of SPOOL_SHEET; good until the next.  NULL: a failure. */
const struct sheet *spool_read_sheet(struct spool *spool);

bool spool_sound(const struct spool *spool);

#endif
