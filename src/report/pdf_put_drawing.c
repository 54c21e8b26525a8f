/* Drawings down the page and over to the next, each with what belongs to it. */
#include <math.h>
#include <string.h>

#include "draw/figure.h"
#include "report/pdf.h"

/* The words under a drawing, and what a drawing of another size than its scale's says of itself. */
static const double notes_room = 36; /* pt */

/* What stands below a drawing and belongs to it, as far as the next heading; nothing when that is much. */
static double below_drawing(struct pdf *pdf, const struct document *part, size_t index) {
    static const double much = 300; /* pt */
    double height = 0;
    for (index++; index < part->blocks.count && height < much; index++) {
        const struct block *block = part->blocks.at[index];
        if (block->kind == HEADING || block->kind == DRAWING)
            break;
        if (block->kind == TABLE && block->table.row_count > 30)
            return 0;
        height += pdf_block_height(pdf, part, index) + pdf_block_gap;
    }
    return height < much ? height : 0;
}

/* How it goes into `room` with what belongs to it, or else by itself. */
static bool fit_with_tables(struct pdf *pdf, const struct document *part, size_t index, double room,
                            struct pdf_print *print) {
    double below = below_drawing(pdf, part, index);
    return (below > 0 && room > below && pdf_fit_drawing(pdf, part, index, room - below, print)) ||
           pdf_fit_drawing(pdf, part, index, room, print);
}

double pdf_drawing_start(struct pdf *pdf, const struct document *part, size_t index, double room) {
    struct pdf_print print;
    if (!part->drawings)
        return 0;
    if (fit_with_tables(pdf, part, index, room - notes_room, &print))
        return pdf_print_height(&print) + notes_room;
    return pdf_whole_drawing(pdf, part, index)->height + notes_room;
}

/* Whether nothing but what leads to this drawing stands between it and its heading on this page. */
static bool below_own_heading(const struct pdf *pdf, const struct document *part, size_t index) {
    while (index > 0 && pdf_is_lead(part->blocks.at[index - 1]))
        index--;
    return index > 0 && part->blocks.at[index - 1]->kind == HEADING && pdf->begun &&
           pdf->kept == spool_pages(pdf->spool);
}

static const double least_drawing = 150; /* pt */

/* Whether it stands beside others: on this page, or on the next when it cannot stand here by itself either. */
static bool plan_page(struct pdf *pdf, const struct document *part, size_t index) {
    struct pdf_print print;
    const struct sheet *const *planned = &pdf->drawings[index].planned;
    if (!*planned && pdf->begun)
        pdf_plan_drawings(pdf, part, index, pdf->bottom - pdf->y);
    if (*planned || fit_with_tables(pdf, part, index, pdf->begun ? pdf->bottom - pdf->y - notes_room : 0, &print))
        return *planned != NULL;
    if (!pdf->begun || (!pdf->fresh && !below_own_heading(pdf, part, index))) {
        pdf_new_page(pdf);
        pdf_plan_drawings(pdf, part, index, pdf->bottom - pdf->y);
    }
    return *planned != NULL;
}

/* Its words stand under it, unless the heading or the drawing itself has just said them.  A drawing that had to be made
 * smaller than its scale says so. */
void pdf_put_drawing(struct pdf *pdf, const struct document *part, size_t index) {
    const struct block *block = part->blocks.at[index];
    if (!part->drawings)
        return;
    struct pdf_print print;
    bool said = (pdf->last_heading && strcmp(pdf->last_heading, block->text) == 0) || pdf_says_itself(block);
    double room = pdf->begun ? pdf->bottom - pdf->y - notes_room : 0;
    if (plan_page(pdf, part, index)) {
        print = (struct pdf_print){pdf->drawings[index].planned, 1};
    } else if (!fit_with_tables(pdf, part, index, room, &print)) {
        if (!pdf->begun || (!pdf->fresh && (room < least_drawing || !below_own_heading(pdf, part, index))))
            pdf_new_page(pdf);
        room = pdf->bottom - pdf->y - notes_room;
        if (!fit_with_tables(pdf, part, index, room, &print))
            print = pdf_squeeze_drawing(pdf, part, index, room);
    }
    const struct sheet *sheet = print.sheet;
    double width = sheet->width * print.scale;
    spool_sheet(pdf->spool, sheet, pdf->left + (pdf->right - pdf->left - width) / 2, pdf->y, print.scale);
    pdf->y += pdf_print_height(&print);
    pdf->fresh = pdf->below_heading = false;
    if (!said)
        pdf_put_text(pdf, &style_small, block->text, pdf->left);
    if (print.scale < 1 && !block->figure->sketch && !block->figure->diagram)
        pdf_put_text(pdf, &style_small,
                     arena_format(part->arena,
                                  "Printed at %.0f %% of its size, so that it fits the page: nothing can be "
                                  "measured on it by the scale it names.",
                                  floor(100 * print.scale)),
                     pdf->left);
}
