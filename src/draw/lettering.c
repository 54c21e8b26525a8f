/* Texts by pango, in one named font and without hinting, so that they are as wide everywhere. */
#include "draw/lettering.h"

#include <math.h>
#include <pango/pangocairo.h>
#include <stdbool.h>
#include <stdlib.h>
#include <string.h>

#define FAMILY "DejaVu Sans"

static const double sizes[] = {[LETTER_SMALL] = 6.5, [LETTER_PLAIN] = 8, [LETTER_LARGE] = 10}; /* pt */

double lettering_size(enum letter_size size) {
    return sizes[size];
}

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
    } else {
        /* Unicode has line ends that a text of a job may hold. */
        pango_layout_set_single_paragraph_mode(layout, TRUE);
    }
    pango_layout_set_text(layout, text, -1);
    return layout;
}

/* Texts that were measured, each in the place that its bytes hash to: a drawing is tried at several scales, and its
 * texts are as wide at all of them.  Longer texts are measured each time. */
enum { MEASURED = 512, MEASURED_LENGTH = 64 };

struct measured {
    char text[MEASURED_LENGTH]; /* "": none yet */
    enum letter_size size;
    double wrap, width, height;
};

struct lettering {
    PangoContext *context;
    struct measured measured[MEASURED];
};

struct lettering *lettering_new(void) {
    struct lettering *lettering = calloc(1, sizeof *lettering);
    if (!lettering)
        abort(); /* as the library does, which gives no context either then */
    lettering->context = new_context();
    return lettering;
}

void lettering_free(struct lettering *lettering) {
    g_object_unref(lettering->context);
    free(lettering);
}

static PangoContext *context_of(struct lettering *lettering) {
    return lettering->context;
}

/* Where a text is kept, whole and wrapped apart; MEASURED: nowhere. */
static size_t place_of(const char *text, enum letter_size size, double wrap) {
    size_t hash = 2 * (size_t)size + (wrap > 0), length = 0;
    for (; text[length]; length++) {
        if (length + 1 == MEASURED_LENGTH)
            return MEASURED;
        hash = hash * 31 + (unsigned char)text[length];
    }
    return length ? hash % MEASURED : MEASURED;
}

/* A library of fonts gives another font, and no error, for one that it has not; without any it gives none. */
const char *lettering_missing(void) {
    PangoContext *context = new_context();
    PangoFontDescription *wanted = pango_font_description_new();
    pango_font_description_set_family_static(wanted, FAMILY);
    PangoFont *font = pango_context_load_font(context, wanted);
    PangoFontDescription *found = font ? pango_font_describe(font) : NULL;
    const char *family = found ? pango_font_description_get_family(found) : NULL;
    bool missing = !family || strcmp(family, FAMILY) != 0;
    pango_font_description_free(found);
    if (font)
        g_object_unref(font);
    pango_font_description_free(wanted);
    g_object_unref(context);
    return missing ? FAMILY : NULL;
}

void lettering_measure(struct lettering *lettering, const char *text, enum letter_size size, double wrap, double *width,
                       double *height) {
    size_t kept = place_of(text, size, wrap);
    struct measured *place = &lettering->measured[kept < MEASURED ? kept : 0];
    if (kept < MEASURED && place->size == size && !(place->wrap < wrap) && !(place->wrap > wrap) &&
        strcmp(place->text, text) == 0) {
        *width = place->width;
        *height = place->height;
        return;
    }
    PangoLayout *layout = new_layout(context_of(lettering), text, size, wrap);
    PangoRectangle logical;
    pango_layout_get_extents(layout, NULL, &logical);
    *width = (double)logical.width / PANGO_SCALE;
    *height = (double)logical.height / PANGO_SCALE;
    g_object_unref(layout);
    if (kept == MEASURED)
        return;
    *place = (struct measured){.size = size, .wrap = wrap, .width = *width, .height = *height};
    strcpy(place->text, text);
}

void lettering_paint(struct lettering *lettering, cairo_t *cairo, const struct sheet_letters *letters) {
    const struct sheet_box *box = &letters->box;
    cairo_save(cairo);
    cairo_translate(cairo, box->centre.x, box->centre.y);
    cairo_rotate(cairo, atan2(box->along.y, box->along.x));
    cairo_move_to(cairo, -box->half_width, -box->half_height);
    pango_cairo_update_context(cairo, context_of(lettering));
    PangoLayout *layout = new_layout(context_of(lettering), letters->text, letters->size, letters->wrap);
    pango_cairo_show_layout(cairo, layout);
    cairo_restore(cairo);
    g_object_unref(layout);
}
