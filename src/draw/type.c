/* Words by pango, each shaped once. */
#include "draw/type.h"

#include <pango/pangocairo.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

#include "base/hash.h"

/* Narrow, so that tables of ten columns stay readable, and of the family of the drawings' letters. */
#define FAMILY "DejaVu Sans Condensed"

enum {
    SHAPED_SIZE = 16,        /* pt at which words are shaped */
    BUCKETS = 1 << 12,       /* a power of two */
    WORDS_KEPT = 6 * BUCKETS /* then all are forgotten */
};

struct word {
    struct word *next; /* in its bucket */
    uint64_t hash;
    enum type_face face;
    double width; /* for a size of 1 */
    GSList *runs; /* PangoGlyphItem, from left to right */
    size_t length;
    const char *shown; /* `bytes`, or behind them what is shown instead */
    char bytes[];
};

/* Letters waiting to be shown at once: a surface does more for every call than for every letter. */
struct setting {
    PangoFont *font;
    double size;
    cairo_glyph_t *glyphs;
    cairo_text_cluster_t *clusters;
    char *bytes;
    size_t glyph_count, glyph_room, cluster_count, cluster_room, byte_count, byte_room;
};

struct type {
    struct setting setting;
    PangoLayout *layouts[TYPE_FACES];
    double spaces[TYPE_FACES];
    struct word *buckets[BUCKETS];
    size_t count;
    bool failed;
};

static PangoFontDescription *describe(enum type_face face) {
    PangoFontDescription *font = pango_font_description_from_string(FAMILY);
    pango_font_description_set_absolute_size(font, SHAPED_SIZE * PANGO_SCALE);
    if (face == TYPE_BOLD)
        pango_font_description_set_weight(font, PANGO_WEIGHT_BOLD);
    return font;
}

static PangoContext *new_context(void) {
    PangoContext *context = pango_font_map_create_context(pango_cairo_font_map_get_default());
    cairo_font_options_t *options = cairo_font_options_create();
    cairo_font_options_set_hint_style(options, CAIRO_HINT_STYLE_NONE);
    cairo_font_options_set_hint_metrics(options, CAIRO_HINT_METRICS_OFF);
    pango_cairo_context_set_font_options(context, options);
    cairo_font_options_destroy(options);
    pango_context_set_round_glyph_positions(context, FALSE);
    pango_context_set_language(context, pango_language_from_string("en"));
    return context;
}

/* A library of fonts gives another font, and no error, for one that it has not. */
const char *type_missing(void) {
    PangoContext *context = new_context();
    PangoFontDescription *wanted = describe(TYPE_PLAIN);
    PangoFont *font = pango_context_load_font(context, wanted);
    PangoFontDescription *found = font ? pango_font_describe(font) : NULL;
    const char *family = found ? pango_font_description_get_family(found) : NULL;
    bool there = family && strncmp(family, FAMILY, strlen("DejaVu Sans")) == 0 &&
                 pango_font_description_get_stretch(found) < PANGO_STRETCH_NORMAL;
    pango_font_description_free(found);
    if (font)
        g_object_unref(font);
    pango_font_description_free(wanted);
    g_object_unref(context);
    return there ? NULL : FAMILY;
}

struct type *type_new(void) {
    struct type *type = calloc(1, sizeof *type);
    if (!type)
        return NULL;
    PangoContext *context = new_context();
    for (enum type_face face = 0; face < TYPE_FACES; face++) {
        PangoFontDescription *font = describe(face);
        type->layouts[face] = pango_layout_new(context);
        pango_layout_set_font_description(type->layouts[face], font);
        pango_layout_set_single_paragraph_mode(type->layouts[face], TRUE);
        pango_font_description_free(font);
        type->spaces[face] = type_width(type, face, "\xC2\xA0", 2);
    }
    g_object_unref(context);
    return type;
}

static void forget_words(struct type *type) {
    for (size_t i = 0; i < BUCKETS; i++)
        while (type->buckets[i]) {
            struct word *word = type->buckets[i];
            type->buckets[i] = word->next;
            g_slist_free_full(word->runs, (GDestroyNotify)pango_glyph_item_free);
            free(word);
        }
    type->count = 0;
}

void type_free(struct type *type) {
    if (!type)
        return;
    forget_words(type);
    g_clear_object(&type->setting.font);
    free(type->setting.glyphs);
    free(type->setting.clusters);
    free(type->setting.bytes);
    for (enum type_face face = 0; face < TYPE_FACES; face++)
        g_object_unref(type->layouts[face]);
    free(type);
}

bool type_sound(const struct type *type) {
    return !type->failed;
}

/* ---- What is no character ---------------------------------------------------------------------------------------- */

/* From memory: Unicode 15, section 23.7. */
static bool is_no_character(gunichar letter) {
    return (letter & 0xFFFE) == 0xFFFE || (letter >= 0xFDD0 && letter <= 0xFDEF);
}

static bool is_clean(const char *bytes, size_t length) {
    for (const char *at = bytes; at < bytes + length; at = g_utf8_next_char(at))
        if ((unsigned char)*at >= 0xEF && is_no_character(g_utf8_get_char(at)))
            return false;
    return true;
}

/* Puts in its place what has as many bytes and is shown as a box: U+FFFD, and U+F0000 for private use. */
static void clean(char *bytes, size_t length) {
    static const char three[] = "\xEF\xBF\xBD", four[] = "\xF3\xB0\x80\x80";
    for (char *at = bytes; at < bytes + length; at = g_utf8_next_char(at)) {
        if ((unsigned char)*at < 0xEF || !is_no_character(g_utf8_get_char(at)))
            continue;
        if ((unsigned char)*at == 0xEF)
            memcpy(at, three, sizeof three - 1);
        else
            memcpy(at, four, sizeof four - 1);
    }
}

const char *type_clean(struct arena *arena, const char *text) {
    size_t length = strlen(text);
    if (is_clean(text, length))
        return text;
    char *copy = arena_copy(arena, text, length);
    clean(copy, length);
    return copy;
}

/* ---- Words ------------------------------------------------------------------------------------------------------- */

static void shape(struct type *type, struct word *word) {
    PangoLayout *layout = type->layouts[word->face];
    pango_layout_set_text(layout, word->shown, (int)word->length);
    PangoLayoutLine *line = pango_layout_get_line_readonly(layout, 0);
    double width = 0;
    for (GSList *at = line->runs; at; at = at->next) {
        PangoGlyphItem *run = pango_glyph_item_copy(at->data);
        width += pango_glyph_string_get_width(run->glyphs);
        word->runs = g_slist_append(word->runs, run);
    }
    word->width = width / PANGO_SCALE / SHAPED_SIZE;
}

static uint64_t hash_of(enum type_face face, const char *bytes, size_t length) {
    return hash_bytes(HASH_EMPTY ^ (uint64_t)face, bytes, length);
}

/* NULL: there was no memory. */
static const struct word *find_word(struct type *type, enum type_face face, const char *bytes, size_t length) {
    uint64_t hash = hash_of(face, bytes, length);
    struct word **bucket = &type->buckets[hash & (BUCKETS - 1)];
    for (struct word *word = *bucket; word; word = word->next)
        if (word->hash == hash && word->face == face && word->length == length &&
            memcmp(word->bytes, bytes, length) == 0)
            return word;
    if (type->count >= WORDS_KEPT)
        forget_words(type);
    bool odd = !is_clean(bytes, length);
    struct word *word = calloc(1, sizeof *word + (length + 1) * (odd ? 2 : 1));
    if (!word) {
        type->failed = true;
        return NULL;
    }
    word->hash = hash;
    word->face = face;
    word->length = length;
    memcpy(word->bytes, bytes, length);
    word->shown = word->bytes;
    if (odd) {
        char *shown = word->bytes + length + 1;
        clean(memcpy(shown, bytes, length), length);
        word->shown = shown;
    }
    shape(type, word);
    word->next = *bucket;
    *bucket = word;
    type->count++;
    return word;
}

double type_width(struct type *type, enum type_face face, const char *bytes, size_t length) {
    const struct word *word = find_word(type, face, bytes, length);
    return word ? word->width : 0;
}

double type_space(struct type *type, enum type_face face) {
    return type->spaces[face];
}

/* The blocks whose letters are written from right to left (from memory: Unicode 15, DerivedBidiClass). */
static bool is_leftward(gunichar letter) {
    return (letter >= 0x0590 && letter <= 0x08FF) || (letter >= 0xFB1D && letter <= 0xFDFF) ||
           (letter >= 0xFE70 && letter <= 0xFEFC) || (letter >= 0x10800 && letter <= 0x10FFF) ||
           (letter >= 0x1E800 && letter <= 0x1EFFF);
}

bool type_turns(const char *bytes, size_t length) {
    for (const char *at = bytes; at < bytes + length; at = g_utf8_next_char(at))
        if ((unsigned char)*at >= 0xD6 && is_leftward(g_utf8_get_char(at))) /* U+0590 is D6 90 */
            return true;
    return false;
}

/* ---- Showing ----------------------------------------------------------------------------------------------------- */

void type_flush(struct type *type, cairo_t *cairo) {
    struct setting *set = &type->setting;
    if (!set->glyph_count)
        return;
    double scale = set->size / SHAPED_SIZE;
    cairo_save(cairo);
    cairo_scale(cairo, scale, scale);
    cairo_set_scaled_font(cairo, pango_cairo_font_get_scaled_font((PangoCairoFont *)set->font));
    cairo_show_text_glyphs(cairo, set->bytes, (int)set->byte_count, set->glyphs, (int)set->glyph_count, set->clusters,
                           (int)set->cluster_count, 0);
    cairo_restore(cairo);
    cairo_new_path(cairo);
    set->glyph_count = set->cluster_count = set->byte_count = 0;
}

/* Makes room for `more` elements behind `count`. */
static bool make_room(struct type *type, void **at, size_t *room, size_t count, size_t more, size_t size) {
    if (count + more <= *room)
        return true;
    void *larger = realloc(*at, 2 * (count + more) * size);
    if (!larger) {
        type->failed = true;
        return false;
    }
    *at = larger;
    *room = 2 * (count + more);
    return true;
}

static bool make_rooms(struct type *type, const PangoGlyphItem *item) {
    struct setting *set = &type->setting;
    size_t bytes = (size_t)item->item->length, glyphs = (size_t)item->glyphs->num_glyphs;
    return make_room(type, (void **)&set->glyphs, &set->glyph_room, set->glyph_count, glyphs, sizeof *set->glyphs) &&
           make_room(type, (void **)&set->clusters, &set->cluster_room, set->cluster_count, bytes,
                     sizeof *set->clusters) &&
           make_room(type, (void **)&set->bytes, &set->byte_room, set->byte_count, bytes, 1);
}

/* Whether its glyphs are letters of its font, all of them seen, from left to right. */
static bool is_plain(const PangoGlyphItem *item) {
    for (int i = 0; i < item->glyphs->num_glyphs; i++)
        if (item->glyphs->glyphs[i].glyph == PANGO_GLYPH_EMPTY ||
            (item->glyphs->glyphs[i].glyph & PANGO_GLYPH_UNKNOWN_FLAG))
            return false;
    return item->item->analysis.level % 2 == 0 && item->item->analysis.font;
}

/* (x, y) is where it begins, in units of the size that it was shaped at. */
static void set_glyphs(struct setting *set, const PangoGlyphItem *item, double x, double y) {
    for (int i = 0; i < item->glyphs->num_glyphs; i++) {
        const PangoGlyphInfo *glyph = &item->glyphs->glyphs[i];
        set->glyphs[set->glyph_count++] = (cairo_glyph_t){
            .index = glyph->glyph,
            .x = x + (double)glyph->geometry.x_offset / PANGO_SCALE,
            .y = y + (double)glyph->geometry.y_offset / PANGO_SCALE,
        };
        x += (double)glyph->geometry.width / PANGO_SCALE;
    }
}

/* Which bytes each glyph stands for, so that the text can be found and copied. */
static void set_clusters(struct setting *set, PangoGlyphItem *item, const char *text) {
    PangoGlyphItemIter at;
    for (gboolean more = pango_glyph_item_iter_init_start(&at, item, text); more;
         more = pango_glyph_item_iter_next_cluster(&at))
        set->clusters[set->cluster_count++] = (cairo_text_cluster_t){.num_bytes = at.end_index - at.start_index,
                                                                     .num_glyphs = at.end_glyph - at.start_glyph};
    memcpy(set->bytes + set->byte_count, text + item->item->offset, (size_t)item->item->length);
    set->byte_count += (size_t)item->item->length;
}

/* Boxes for missing letters, and what is written leftward. */
static void show_alone(cairo_t *cairo, PangoGlyphItem *item, const char *text, double scale, double x, double y) {
    cairo_save(cairo);
    cairo_scale(cairo, scale, scale);
    cairo_move_to(cairo, x, y);
    pango_cairo_show_glyph_item(cairo, text, item);
    cairo_restore(cairo);
    cairo_new_path(cairo);
}

void type_show(struct type *type, cairo_t *cairo, enum type_face face, double size, double x, double y,
               const char *bytes, size_t length) {
    const struct word *word = find_word(type, face, bytes, length);
    struct setting *set = &type->setting;
    double scale = size / SHAPED_SIZE, at = x / scale;
    for (GSList *run = word ? word->runs : NULL; run; run = run->next) {
        PangoGlyphItem *item = run->data;
        bool plain = is_plain(item);
        if (!plain || set->font != item->item->analysis.font || set->size < size || set->size > size)
            type_flush(type, cairo);
        if (plain && make_rooms(type, item)) {
            g_set_object(&set->font, item->item->analysis.font);
            set->size = size;
            set_glyphs(set, item, at, y / scale);
            set_clusters(set, item, word->shown);
        } else if (!plain) {
            show_alone(cairo, item, word->shown, scale, at, y / scale);
        }
        at += (double)pango_glyph_string_get_width(item->glyphs) / PANGO_SCALE;
    }
}
