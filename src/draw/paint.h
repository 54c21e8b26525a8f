/* A sheet on any surface of cairo's: what the writers share. */
#ifndef CLEAT_DRAW_PAINT_H
#define CLEAT_DRAW_PAINT_H

#include <cairo.h>

#include "draw/lettering.h"
#include "draw/sheet.h"

/* One user unit must be a point. */
void paint_sheet(cairo_t *cairo, const struct sheet *sheet);

/* The same on what stands there already, without a white ground. */
void paint_on(cairo_t *cairo, const struct sheet *sheet, struct lettering *lettering);

#endif
