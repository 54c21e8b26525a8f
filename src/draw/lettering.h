/* Letters: how much room a text takes and how it is painted, by one font, so that layout and drawing agree. */
#ifndef CLEAT_DRAW_LETTERING_H
#define CLEAT_DRAW_LETTERING_H

#include <cairo.h>

#include "draw/sheet.h"

/* Width and height in points of `text`, with lines broken at `wrap` (0: never). */
void lettering_measure(const char *text, enum letter_size size, double wrap, double *width, double *height);

/* Paints it into its box with the current colour. */
void lettering_paint(cairo_t *cairo, const struct sheet_letters *letters);

#endif
