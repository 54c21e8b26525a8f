/* A sheet on any surface of cairo's: what the writers share. */
#ifndef CLEAT_DRAW_PAINT_H
#define CLEAT_DRAW_PAINT_H

#include <cairo.h>

#include "draw/sheet.h"

/* One user unit must be a point. */
void paint_sheet(cairo_t *cairo, const struct sheet *sheet);

#endif
