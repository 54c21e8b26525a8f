/* The list of contents: the sections, each with its page. */
#include "report/pdf.h"

/* With fewer sections than this nobody looks for one. */
enum { CONTENTS_LEAST = 5 };

static void put_entry(struct pdf *pdf, size_t i, double x, double y, double width) {
    double size = style_small.size, room = width - 24;
    struct text_line *lines;
    size_t count = pdf_wrap(pdf, &style_small, pdf->paper->headings.at[i], room, 0, &lines);
    if (count)
        pdf_put_line(pdf, &style_small, lines[0], x, y);
    double from = x + (count ? pdf_line_width(pdf, &style_small, lines[0]) : 0) + 4;
    pdf_rule(pdf, INK_GREY, 0.2, (struct spot){from, y + 8}, (struct spot){x + room + 4, y + 8});
    arena_clear(pdf->scratch);
    spool_put(pdf->spool,
              (struct spool_mark){.kind = SPOOL_LINK,
                                  .ink = INK_BLACK,
                                  .face = style_small.face,
                                  .level = (int)i,
                                  .size = size,
                                  .x = x,
                                  .y = y,
                                  .right = x + width,
                                  .bottom = y + style_small.leading},
              NULL);
}

/* The sections in two columns, read downward; their pages are known when all is laid out. */
void pdf_put_contents(struct pdf *pdf) {
    size_t count = pdf->paper->headings.count, rows = (count + 1) / 2;
    pdf->contents_put = true;
    if (count < CONTENTS_LEAST)
        return;
    double leading = style_small.leading + 2, height = (double)rows * leading, between = 24;
    double width = (pdf->right - pdf->left - between) / 2;
    pdf_gap(pdf, 12);
    pdf_need(pdf, style_bold.leading + height);
    pdf_put_line(pdf, &style_bold, pdf_whole("Contents"), pdf->left, pdf->y);
    pdf->y += style_bold.leading + 2;
    for (size_t i = 0; i < count; i++) {
        size_t column = i / rows, row = i % rows;
        put_entry(pdf, i, pdf->left + (double)column * (width + between), pdf->y + (double)row * leading, width);
    }
    pdf->y += height;
    pdf->fresh = false;
}
