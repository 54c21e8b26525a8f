/* Sheets as SVG, by cairo. */
#include "draw/svg.h"

#include <cairo-svg.h>
#include <stdlib.h>
#include <string.h>

#include "draw/paint.h"

static cairo_status_t put(void *out, const unsigned char *bytes, unsigned length) {
    output_put(out, (const char *)bytes, length);
    return CAIRO_STATUS_SUCCESS;
}

static bool draw(const struct sheet *sheet, struct output *out) {
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

/* The mark stands on a line of its own behind the XML declaration, which must come first. */
static const char *put_mark(struct output *out, const char *svg) {
    const char *line = strncmp(svg, "<?xml", 5) == 0 ? strchr(svg, '\n') : NULL;
    const char *behind = line ? line + 1 : svg;
    output_put(out, svg, (size_t)(behind - svg));
    output_text(out, SVG_MARK "\n");
    return behind;
}

/* Some versions of cairo name the page's group by how many surfaces the process has had: the name, which nothing
 * refers to, is left out, so that the same figure gives the same bytes. */
static void put_without_count(struct output *out, const char *svg, size_t length) {
    static const char name[] = " id=\"surface";
    const char *at = strstr(svg, name), *end = at ? strchr(at + sizeof name - 1, '"') : NULL;
    if (!end) {
        output_put(out, svg, length);
        return;
    }
    output_put(out, svg, (size_t)(at - svg));
    output_put(out, end + 1, length - (size_t)(end + 1 - svg));
}

bool sheet_write_svg(const struct sheet *sheet, struct output *out) {
    struct output *memory = output_open_memory();
    if (!memory)
        return false;
    bool whole = draw(sheet, memory);
    size_t length;
    char *svg = output_take_memory(memory, &length);
    if (whole && svg) {
        const char *behind = put_mark(out, svg);
        put_without_count(out, behind, length - (size_t)(behind - svg));
    }
    free(svg);
    return whole && svg;
}
