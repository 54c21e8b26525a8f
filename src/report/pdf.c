/* The PDF writer: pages are laid out as the parts come, and painted when all have come, since each says how many there
 * are. */
#include "report/pdf.h"

#include <setjmp.h>

/* Letter and A4 (ISO 216), in pt. */
static const struct { double width, height; } papers[] = {[PAPER_LETTER] = {612, 792}, [PAPER_A4] = {595.276, 841.890}};

double paper_width(enum paper_size size) {
    return papers[size].width;
}

double paper_height(enum paper_size size) {
    return papers[size].height;
}

/* As wide as the drawings are made for (draw/page.h), on either paper. */
static const double text_width = 518.4, top = 64, foot = 34; /* pt */

static struct pdf *new_pdf(const struct paper *paper) {
    struct pdf *pdf = ARENA_NEW(paper->arena, struct pdf);
    pdf->paper = paper;
    pdf->scratch = paper->scratch;
    pdf->left = (paper_width(paper->size) - text_width) / 2;
    pdf->right = pdf->left + text_width;
    pdf->top = top;
    pdf->bottom = paper_height(paper->size) - 1.6 * foot;
    pdf->places = ARENA_ARRAY(paper->arena, size_t, paper->headings.count + 1);
    return pdf;
}

/* What the libraries give comes last: nothing of the arena can fail behind it. */
static void *open_pdf(const struct paper *paper) {
    struct pdf *pdf = new_pdf(paper);
    pdf->spool = spool_new();
    pdf->type = type_new();
    return pdf;
}

static bool is_sound(const struct pdf *pdf) {
    return pdf->spool && pdf->type && spool_sound(pdf->spool) && type_sound(pdf->type);
}

static void put_part(void *state, const struct document *part) {
    struct pdf *pdf = state;
    if (!is_sound(pdf))
        return;
    pdf->drawings = ARENA_ARRAY(part->arena, struct pdf_drawing, part->blocks.count + 1);
    pdf->last_heading = NULL;
    for (size_t i = 0; i < part->blocks.count; i++)
        pdf_put_block(pdf, part, i);
}

static const char *above_right(const struct paper *paper) {
    const char *text = arena_format(paper->arena, "For the %s", paper->reader);
    if (paper->revision)
        text = arena_format(paper->arena, "%s, revision %s", text, paper->revision);
    return paper->date ? arena_format(paper->arena, "%s, %s", text, paper->date) : text;
}

static bool end_pdf(void *state) {
    struct pdf *pdf = state;
    if (!is_sound(pdf))
        return false;
    if (!pdf->begun)
        pdf_new_page(pdf);
    const struct paper *paper = pdf->paper;
    const char *above = type_clean(paper->arena, above_right(paper));
    const char *title = type_clean(paper->arena, paper->title);
    const char *author = paper->author ? type_clean(paper->arena, paper->author) : NULL;
    struct press press = {
        .spool = pdf->spool,
        .type = pdf->type,
        .width = paper_width(paper->size),
        .height = paper_height(paper->size),
        .left = pdf->left,
        .right = pdf->right,
        .head = 40,
        .foot = paper_height(paper->size) - foot,
        .above_left = title,
        .above_right = above,
        .below = author,
        .title = title,
        .author = author,
        .subject = above,
        .date = paper->date,
        .places = pdf->places,
    };
    return press_pdf(&press, paper->out);
}

static void release_pdf(void *state) {
    struct pdf *pdf = state;
    spool_free(pdf->spool);
    type_free(pdf->type);
}

const struct page_writer pdf_writer = {.open = open_pdf, .part = put_part, .end = end_pdf, .release = release_pdf};
