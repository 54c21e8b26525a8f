/* Lines and letters by cairo: black on white, dimensions in one dark colour that prints as dark grey. */
#include "draw/paint.h"

/* Own look.  Widths are far enough apart to tell on a photocopy; dashes are points on, points off. */
static const struct {
    double width;
    double dashes[6];
    int dash_count;
} styles[STROKE_COUNT] = {
    [STROKE_CUT] = {.width = 1.3},
    [STROKE_BEND_UP] = {.width = 0.8, .dashes = {11, 3.5}, .dash_count = 2},
    [STROKE_BEND_DOWN] = {.width = 0.8, .dashes = {11, 2.2, 1.2, 2.2, 1.2, 2.2}, .dash_count = 6},
    [STROKE_SEAM] = {.width = 1.6, .dashes = {7, 2, 1.6, 2}, .dash_count = 4},
    [STROKE_NET] = {.width = 0.5},
    [STROKE_HIDDEN] = {.width = 0.5, .dashes = {2.5, 2}, .dash_count = 2},
    [STROKE_CENTRE] = {.width = 0.35, .dashes = {9, 1.6, 2.4, 1.6}, .dash_count = 4},
    [STROKE_THIN] = {.width = 0.4},
};

static void set_ink(cairo_t *cairo, enum stroke stroke) {
    if (stroke == STROKE_THIN || stroke == STROKE_NONE)
        cairo_set_source_rgb(cairo, 0.42, 0.10, 0.28);
    else
        cairo_set_source_rgb(cairo, 0, 0, 0);
}

static void fill(cairo_t *cairo, const struct sheet_stroke *stroke) {
    static const double greys[] = {[SHADE_WHITE] = 1, [SHADE_LIGHT] = 0.94, [SHADE_MIDDLE] = 0.86};
    if (stroke->shade == SHADE_INK)
        set_ink(cairo, stroke->stroke);
    else
        cairo_set_source_rgb(cairo, greys[stroke->shade], greys[stroke->shade], greys[stroke->shade]);
    cairo_fill_preserve(cairo);
}

static void paint_stroke(cairo_t *cairo, const struct sheet_stroke *stroke) {
    for (size_t i = 0; i < stroke->count; i++)
        cairo_line_to(cairo, stroke->points[i].x, stroke->points[i].y);
    if (stroke->closed)
        cairo_close_path(cairo);
    if (stroke->shade != SHADE_NONE)
        fill(cairo, stroke);
    if (stroke->stroke != STROKE_NONE) {
        set_ink(cairo, stroke->stroke);
        cairo_set_line_width(cairo, styles[stroke->stroke].width);
        /* lines that end where others begin leave no gap on the outside of the corner */
        cairo_set_line_cap(cairo, styles[stroke->stroke].dash_count ? CAIRO_LINE_CAP_BUTT : CAIRO_LINE_CAP_ROUND);
        cairo_set_dash(cairo, styles[stroke->stroke].dashes, styles[stroke->stroke].dash_count, 0);
        cairo_stroke(cairo);
    }
    cairo_new_path(cairo);
}

void paint_on(cairo_t *cairo, const struct sheet *sheet, struct lettering *lettering) {
    cairo_set_line_join(cairo, CAIRO_LINE_JOIN_ROUND);
    cairo_new_path(cairo); /* letters leave a place from which a line would begin */
    for (size_t i = 0; i < sheet->strokes.count; i++)
        paint_stroke(cairo, &sheet->strokes.at[i]);
    cairo_set_source_rgb(cairo, 0, 0, 0);
    for (size_t i = 0; i < sheet->letters.count; i++)
        lettering_paint(lettering, cairo, &sheet->letters.at[i]);
}

void paint_sheet(cairo_t *cairo, const struct sheet *sheet) {
    cairo_set_source_rgb(cairo, 1, 1, 1);
    cairo_paint(cairo);
    struct lettering *lettering = lettering_new();
    paint_on(cairo, sheet, lettering);
    lettering_free(lettering);
}
