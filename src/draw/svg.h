/* Sheets as SVG 1.1: one user unit is a point, and width and height are given in points, so that it prints in true
 * size. */
#ifndef CLEAT_DRAW_SVG_H
#define CLEAT_DRAW_SVG_H

#include "base/output.h"
#include "draw/sheet.h"

/* A comment near the beginning of every drawing, by which it is known again as one that may be written anew. */
#define SVG_MARK "<!-- Drawn by cleat -->"

/* False when there was no memory, and then nothing is written; a failure of `out` shows when that is committed. */
bool sheet_write_svg(const struct sheet *sheet, struct output *out);

#endif
