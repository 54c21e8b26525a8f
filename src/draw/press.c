/* Spooled pages as a PDF, by cairo. */
#include "draw/press.h"

#include <cairo-pdf.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "draw/paint.h"

enum {
    LEVELS = 8,      /* of headings */
    LINK_ROOM = 160, /* of cairo's words for a link */
    NUMBER_ROOM = 64
};

static const double head_size = 7.5; /* pt */

struct pressing {
    const struct press *press;
    cairo_surface_t *surface;
    cairo_t *cairo;
    struct lettering *lettering;
    size_t page;
    enum ink ink;
    bool inked;               /* `ink` is the current colour */
    struct spool_mark *lines; /* of this page, to be drawn when it is full: few strokes cost less than many */
    size_t line_count, line_room;
    bool failed;
    int parents[LEVELS]; /* of the outline: the latest entry of each level */
};

/* The accent is that of the drawings, and prints as dark grey. */
void press_ink(cairo_t *cairo, enum ink ink) {
    static const double colours[][3] = {
        [INK_BLACK] = {0, 0, 0},
        [INK_ACCENT] = {0.42, 0.10, 0.28},
        [INK_GREY] = {0.45, 0.45, 0.45},
        [INK_WASH] = {0.94, 0.94, 0.94},
    };
    cairo_set_source_rgb(cairo, colours[ink][0], colours[ink][1], colours[ink][2]);
}

/* Letters that wait are shown in the colour that they were given. */
static void set_ink(struct pressing *pressing, enum ink ink) {
    if (pressing->inked && pressing->ink == ink)
        return;
    type_flush(pressing->press->type, pressing->cairo);
    press_ink(pressing->cairo, ink);
    pressing->ink = ink;
    pressing->inked = true;
}

/* ---- Outline and links ------------------------------------------------------------------------------------------- */

static int deep(int level) {
    return level < 1 ? 1 : level >= LEVELS ? LEVELS - 1 : level;
}

static void add_heading(struct pressing *pressing, const struct spool_mark *mark, const char *text) {
    char link[LINK_ROOM];
    int level = deep(mark->level);
    snprintf(link, sizeof link, "page=%zu pos=[%.0f %.0f]", pressing->page, pressing->press->left, mark->y);
    int entry = cairo_pdf_surface_add_outline(pressing->surface, pressing->parents[level - 1], text, link,
                                              level == 1 ? CAIRO_PDF_OUTLINE_FLAG_OPEN : 0);
    for (int i = level; i < LEVELS; i++)
        pressing->parents[i] = entry;
}

static double text_width(const struct press *press, enum type_face face, double size, const char *text) {
    return type_width(press->type, face, text, strlen(text)) * size;
}

static void name_place(struct pressing *pressing, const struct spool_mark *mark) {
    char words[LINK_ROOM];
    snprintf(words, sizeof words, "name='%d' x=%.0f y=%.0f", mark->level, pressing->press->left, mark->y);
    cairo_tag_begin(pressing->cairo, CAIRO_TAG_DEST, words);
    cairo_tag_end(pressing->cairo, CAIRO_TAG_DEST);
}

static void show_link(struct pressing *pressing, const struct spool_mark *mark) {
    size_t page = pressing->press->places[mark->level];
    if (!page)
        return;
    char text[LINK_ROOM];
    snprintf(text, sizeof text, "dest='%d' rect=[%.2f %.2f %.2f %.2f]", mark->level, mark->x, mark->y,
             mark->right - mark->x, mark->bottom - mark->y);
    type_flush(pressing->press->type, pressing->cairo);
    cairo_tag_begin(pressing->cairo, CAIRO_TAG_LINK, text);
    int length = snprintf(text, sizeof text, "%zu", page);
    double baseline = mark->bottom - mark->size * 0.3,
           width = text_width(pressing->press, mark->face, mark->size, text);
    set_ink(pressing, mark->ink);
    type_show(pressing->press->type, pressing->cairo, mark->face, mark->size, mark->right - width, baseline, text,
              (size_t)length);
    type_flush(pressing->press->type, pressing->cairo);
    cairo_tag_end(pressing->cairo, CAIRO_TAG_LINK);
}

/* ---- Pages ------------------------------------------------------------------------------------------------------- */

/* The longest beginning of a text that has room, behind it three dots when it is not the whole. */
static void show_within(struct pressing *pressing, const char *text, double x, double y, double room, bool right) {
    const struct press *press = pressing->press;
    static const char dots[] = "\xE2\x80\xA6";
    double width = text_width(press, TYPE_PLAIN, head_size, text),
           rest = text_width(press, TYPE_PLAIN, head_size, dots);
    size_t length = strlen(text);
    bool whole = width <= room;
    while (!whole && length > 0 && width + rest > room) {
        do
            length--;
        while (length > 0 && ((unsigned char)text[length] & 0xC0) == 0x80);
        width = length ? type_width(press->type, TYPE_PLAIN, text, length) * head_size : 0;
    }
    double from = right ? x - width - (whole ? 0 : rest) : x;
    if (length)
        type_show(press->type, pressing->cairo, TYPE_PLAIN, head_size, from, y, text, length);
    if (!whole)
        type_show(press->type, pressing->cairo, TYPE_PLAIN, head_size, from + width, y, dots, sizeof dots - 1);
}

static void keep_line(struct pressing *pressing, struct spool_mark mark) {
    if (pressing->line_count == pressing->line_room) {
        size_t room = 2 * pressing->line_room + 64;
        struct spool_mark *lines = realloc(pressing->lines, room * sizeof *lines);
        if (!lines) {
            pressing->failed = true;
            return;
        }
        pressing->lines = lines;
        pressing->line_room = room;
    }
    pressing->lines[pressing->line_count++] = mark;
}

static void head_and_foot(struct pressing *pressing) {
    const struct press *press = pressing->press;
    char number[NUMBER_ROOM];
    snprintf(number, sizeof number, "%zu of %zu", pressing->page, spool_pages(press->spool));
    set_ink(pressing, INK_GREY);
    double room = press->right - press->left, right = text_width(press, TYPE_PLAIN, head_size, press->above_right);
    if (right > room / 2)
        right = room / 2;
    show_within(pressing, press->above_left, press->left, press->head, room - right - 12, false);
    show_within(pressing, press->above_right, press->right, press->head, right, true);
    struct spool_mark rule = {.ink = INK_GREY, .size = 0.5, .x = press->left, .right = press->right};
    rule.y = rule.bottom = press->head + 4;
    keep_line(pressing, rule);
    if (press->below)
        show_within(pressing, press->below, press->left, press->foot, room * 0.8, false);
    show_within(pressing, number, press->right, press->foot, room * 0.2, true);
}

static void show_words(struct pressing *pressing, const struct spool_mark *mark, const char *text) {
    set_ink(pressing, mark->ink);
    type_show(pressing->press->type, pressing->cairo, mark->face, mark->size, mark->x, mark->y, text, mark->length);
}

static bool is_alike(const struct spool_mark *a, const struct spool_mark *b) {
    return a->ink == b->ink && !(a->size < b->size) && !(a->size > b->size);
}

/* Those of one look that follow each other are one stroke. */
static void show_lines(struct pressing *pressing) {
    for (size_t i = 0; i < pressing->line_count; i++) {
        const struct spool_mark *line = &pressing->lines[i];
        cairo_move_to(pressing->cairo, line->x, line->y);
        cairo_line_to(pressing->cairo, line->right, line->bottom);
        if (i + 1 < pressing->line_count && is_alike(line, line + 1))
            continue;
        set_ink(pressing, line->ink);
        cairo_set_line_width(pressing->cairo, line->size);
        cairo_set_dash(pressing->cairo, NULL, 0, 0);
        cairo_stroke(pressing->cairo);
    }
    pressing->line_count = 0;
}

static void end_page(struct pressing *pressing) {
    type_flush(pressing->press->type, pressing->cairo);
    show_lines(pressing);
}

static void show_fill(struct pressing *pressing, const struct spool_mark *mark) {
    type_flush(pressing->press->type, pressing->cairo);
    set_ink(pressing, mark->ink);
    cairo_rectangle(pressing->cairo, mark->x, mark->y, mark->right - mark->x, mark->bottom - mark->y);
    cairo_fill(pressing->cairo);
}

static void show_sheet(struct pressing *pressing, const struct spool_mark *mark) {
    const struct sheet *sheet = spool_read_sheet(pressing->press->spool);
    if (!sheet)
        return;
    type_flush(pressing->press->type, pressing->cairo);
    pressing->inked = false;
    cairo_save(pressing->cairo);
    cairo_translate(pressing->cairo, mark->x, mark->y);
    cairo_scale(pressing->cairo, mark->size, mark->size);
    paint_on(pressing->cairo, sheet, pressing->lettering);
    cairo_restore(pressing->cairo);
}

static void show_mark(struct pressing *pressing, const struct spool_mark *mark, const char *text) {
    switch (mark->kind) {
    case SPOOL_PAGE:
        if (pressing->page++) {
            end_page(pressing);
            cairo_show_page(pressing->cairo);
        }
        head_and_foot(pressing);
        break;
    case SPOOL_WORDS:
        show_words(pressing, mark, text);
        break;
    case SPOOL_LINE:
        keep_line(pressing, *mark);
        break;
    case SPOOL_FILL:
        show_fill(pressing, mark);
        break;
    case SPOOL_SHEET:
        show_sheet(pressing, mark);
        break;
    case SPOOL_HEADING:
        add_heading(pressing, mark, text);
        break;
    case SPOOL_PLACE:
        name_place(pressing, mark);
        break;
    case SPOOL_LINK:
        show_link(pressing, mark);
        break;
    }
}

/* ---- The whole --------------------------------------------------------------------------------------------------- */

cairo_status_t press_write(void *out, const unsigned char *bytes, unsigned length) {
    output_put(out, (const char *)bytes, length);
    return CAIRO_STATUS_SUCCESS;
}

/* A date that nobody gave would be the clock's. */
void press_describe(cairo_surface_t *surface, const char *title, const char *author, const char *subject,
                    const char *date) {
    cairo_pdf_surface_set_metadata(surface, CAIRO_PDF_METADATA_TITLE, title);
    if (author)
        cairo_pdf_surface_set_metadata(surface, CAIRO_PDF_METADATA_AUTHOR, author);
    if (subject)
        cairo_pdf_surface_set_metadata(surface, CAIRO_PDF_METADATA_SUBJECT, subject);
    cairo_pdf_surface_set_metadata(surface, CAIRO_PDF_METADATA_CREATOR, "cleat");
    cairo_pdf_surface_set_metadata(surface, CAIRO_PDF_METADATA_CREATE_DATE, date ? date : "");
}

static void show_all(struct pressing *pressing) {
    struct spool_mark mark;
    const char *text;
    while (spool_next(pressing->press->spool, &mark, &text))
        show_mark(pressing, &mark, text);
}

bool press_pdf(const struct press *press, struct output *out) {
    struct pressing pressing = {.press = press};
    if (!spool_rewind(press->spool))
        return false;
    pressing.surface = cairo_pdf_surface_create_for_stream(press_write, out, press->width, press->height);
    press_describe(pressing.surface, press->title, press->author, press->subject, press->date);
    pressing.cairo = cairo_create(pressing.surface);
    pressing.lettering = lettering_new();
    cairo_tag_begin(pressing.cairo, "Document",
                    NULL); /* else some versions of cairo leave out what a link belongs to */
    show_all(&pressing);
    end_page(&pressing);
    cairo_tag_end(pressing.cairo, "Document");
    cairo_status_t drawn = cairo_status(pressing.cairo);
    cairo_destroy(pressing.cairo);
    cairo_surface_finish(pressing.surface);
    bool whole = drawn == CAIRO_STATUS_SUCCESS && cairo_surface_status(pressing.surface) == CAIRO_STATUS_SUCCESS;
    cairo_surface_destroy(pressing.surface);
    lettering_free(pressing.lettering);
    free(pressing.lines);
    return whole && !pressing.failed && spool_sound(press->spool) && type_sound(press->type);
}
