/* A figure laid out on paper: every line and every text with its place, in points (1/72 in), y down.
 *
 * No text's box meets another or a drawn line, and nothing is off the page: tests prove it on this data, and the
 * writers draw this data and nothing else.
 */
#ifndef CLEAT_DRAW_SHEET_H
#define CLEAT_DRAW_SHEET_H

#include "draw/figure.h"

#define POINT (0.0254 / 72) /* m; the point of the PostScript and SVG standards */

enum sheet_mode {
    SHEET_FIT,      /* at the largest plain scale that a page 7.2 in wide has room for */
    SHEET_FULL_SIZE /* 1:1, as large as it needs, with a bar to check the print by */
};

/* A box that may stand askew: `along` is the unit vector of its width. */
struct sheet_box {
    struct spot centre, along;
    double half_width, half_height;
};

struct sheet_stroke {
    struct spot *points;
    size_t count;
    bool closed;
    enum stroke stroke;
    enum shade shade;
};

struct sheet_letters {
    const char *text;
    enum letter_size size;
    double wrap; /* the width at which lines are broken; 0: never */
    struct sheet_box box;
};

struct sheet {
    double width, height;
    double ratio;                      /* one on paper is so much in metal: 8 for 1:8 */
    LIST(struct sheet_stroke) strokes; /* drawn in this order */
    LIST(struct sheet_letters) letters;
};

/* Lays `figure` out.  Owned by the figure's arena. */
struct sheet *sheet_lay_out(const struct figure *figure, enum sheet_mode mode);

/* As SHEET_FIT, from the scale 1:`largest` on, at a smaller one where it would be taller than `tallest` pt with all
 * that stands above and below it. What cannot be made so small, and a diagram, is taller.  NULL: it would have to be at
 * a smaller scale than 1:`smallest`. */
struct sheet *sheet_lay_out_in(const struct figure *figure, double largest, double smallest, double tallest);

/* Several sheets as one, from left to right, their upper edges in line.  The sheets are taken over. */
struct sheet *sheets_beside(struct arena *arena, struct sheet *const *sheets, size_t count);

#endif
