/* Letters: how much room a text takes and how it is painted, by one font, so that layout and drawing agree. */
#ifndef CLEAT_DRAW_LETTERING_H
#define CLEAT_DRAW_LETTERING_H

#include <cairo.h>

#include "draw/sheet.h"

/* Nothing drawn has smaller letters on paper, in a drawing's own file or on a page: capitals of this font are 1.8 mm
 * tall then, the smallest nominal size of ISO 3098 (from memory).  pt. */
#define LETTERS_LEAST 7.0

/* NULL when the font is there; its name when the system has no such font, so that texts would be set in another. */
const char *lettering_missing(void);

/* In pt. */
double lettering_size(enum letter_size size);

/* What texts are measured with, or painted on one surface. */
struct lettering;
struct lettering *lettering_new(void);
void lettering_free(struct lettering *lettering);

/* Width and height in points of `text`, with lines broken at `wrap` (0: never).  Not with what has painted. */
void lettering_measure(struct lettering *lettering, const char *text, enum letter_size size, double wrap, double *width,
                       double *height);

/* Paints it into its box with the current colour. */
void lettering_paint(struct lettering *lettering, cairo_t *cairo, const struct sheet_letters *letters);

#endif
