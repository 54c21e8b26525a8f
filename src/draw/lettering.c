/* Texts by pango, in one named font and without hinting, so that they are as wide everywhere. */
#include "draw/lettering.h"

#include <math.h>
#include <pango/pangocairo.h>

#define FAMILY "DejaVu Sans"

static const double sizes[] = {[LETTER_SMALL] = 6.5, [LETTER_PLAIN] = 8, [LETTER_LARGE] = 10}; /* pt */

static PangoContext *new_context(void) {
    PangoContext *context = pango_font_map_create_context(pango_cairo_font_map_get_default());
    cairo_font_options_t *options = cairo_font_options_create();
    cairo_font_options_set_hint_style(options, CAIRO_HINT_STYLE_NONE);
    cairo_font_options_set_hint_metrics(options, CAIRO_HINT_METRICS_OFF);
    cairo_font_options_set_antialias(options, CAIRO_ANTIALIAS_GRAY);
    pango_cairo_context_set_font_options(context, options);
    cairo_font_options_destroy(options);
    pango_context_set_round_glyph_positions(context, FALSE);
    /* Else the locale's language would choose among the font's shapes. */
    pango_context_set_language(context, pango_language_from_string("en"));
    return context;
}

static PangoLayout *new_layout(PangoContext *context, const char *text, enum letter_size size, double wrap) {
    PangoLayout *layout = pango_layout_new(context);
    PangoFontDescription *font = pango_font_description_new();
    pango_font_description_set_family_static(font, FAMILY);
    pango_font_description_set_absolute_size(font, sizes[size] * PANGO_SCALE);
    if (size == LETTER_LARGE)
        pango_font_description_set_weight(font, PANGO_WEIGHT_BOLD);
    pango_layout_set_font_description(layout, font);
    pango_font_description_free(font);
    if (wrap > 0) {
        pango_layout_set_width(layout, (int)lround(wrap * PANGO_SCALE));
        pango_layout_set_wrap(layout, PANGO_WRAP_WORD_CHAR);
    }
    pango_layout_set_text(layout, text, -1);
    return layout;
}

void lettering_measure(const char *text, enum letter_size size, double wrap, double *width, double *height) {
    PangoContext *context = new_context();
    PangoLayout *layout = new_layout(context, text, size, wrap);
    PangoRectangle logical;
    pango_layout_get_extents(layout, NULL, &logical);
    *width = (double)logical.width / PANGO_SCALE;
    *height = (double)logical.height / PANGO_SCALE;
    g_object_unref(layout);
    g_object_unref(context);
}

void lettering_paint(cairo_t *cairo, const struct sheet_letters *letters) {
    PangoContext *context = new_context();
    const struct sheet_box *box = &letters->box;
    cairo_save(cairo);
    cairo_translate(cairo, box->centre.x, box->centre.y);
    cairo_rotate(cairo, atan2(box->along.y, box->along.x));
    cairo_move_to(cairo, -box->half_width, -box->half_height);
    pango_cairo_update_context(cairo, context);
    PangoLayout *layout = new_layout(context, letters->text, letters->size, letters->wrap);
    pango_cairo_show_layout(cairo, layout);
    cairo_restore(cairo);
    g_object_unref(layout);
    g_object_unref(context);
}
