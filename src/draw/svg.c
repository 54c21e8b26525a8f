/* Sheets as SVG, by cairo. */
#include "draw/svg.h"

#include <cairo-svg.h>

#include "draw/paint.h"

static cairo_status_t put(void *out, const unsigned char *bytes, unsigned length) {
    output_put(out, (const char *)bytes, length);
    return CAIRO_STATUS_SUCCESS;
}

bool sheet_write_svg(const struct sheet *sheet, struct output *out) {
    cairo_surface_t *surface = cairo_svg_surface_create_for_stream(put, out, sheet->width, sheet->height);
    cairo_svg_surface_set_document_unit(surface, CAIRO_SVG_UNIT_PT);
    cairo_svg_surface_restrict_to_version(surface, CAIRO_SVG_VERSION_1_1);
    cairo_t *cairo = cairo_create(surface);
    paint_sheet(cairo, sheet);
    cairo_status_t drawn = cairo_status(cairo);
    cairo_destroy(cairo);
    cairo_surface_finish(surface);
    bool whole = drawn == CAIRO_STATUS_SUCCESS && cairo_surface_status(surface) == CAIRO_STATUS_SUCCESS;
    cairo_surface_destroy(surface);
    return whole;
}

bool figure_write_svg(const struct figure *figure, struct output *out, enum sheet_mode mode) {
    return sheet_write_svg(sheet_lay_out(figure, mode), out);
}
