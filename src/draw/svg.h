/* Sheets as SVG 1.1: one user unit is a point, and width and height are given in points, so that it prints in true
 * size. */
#ifndef CLEAT_DRAW_SVG_H
#define CLEAT_DRAW_SVG_H

#include "base/output.h"
#include "draw/sheet.h"

/* False when there was no memory, and then nothing is written; a failure of `out` shows when that is committed. */
bool sheet_write_svg(const struct sheet *sheet, struct output *out);

/* Lays the figure out and writes it. */
bool figure_write_svg(const struct figure *figure, struct output *out, enum sheet_mode mode);

#endif
