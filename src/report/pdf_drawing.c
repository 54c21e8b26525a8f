/* How a drawing is made for the room that a page has. */
#include <math.h>

#include "draw/lettering.h"
#include "report/pdf.h"

/* The size that letters on a drawing keep at least, and how much smaller than it might be a drawing is made for the
 * room that is left on a page. */
static const double least_letters = 6;                     /* pt */
static const double most_smaller = 2.1, most_sketched = 3; /* times the ratio of its scale */

/* Above a drawing on a page of its own stands its heading at least. */
static const double heading_room = 34; /* pt */

const struct sheet *pdf_whole_drawing(struct pdf *pdf, const struct document *part, size_t index) {
    if (!pdf->drawings[index].whole)
        pdf->drawings[index].whole =
            sheet_lay_out_in(part->blocks.at[index]->figure, 1, INFINITY, pdf_page_room(pdf) - heading_room);
    return pdf->drawings[index].whole;
}

/* The one that was last laid out for less room, if it fits, else one laid out for this; NULL: that would be at a
 * smaller scale than 1:`smallest`. */
static const struct sheet *small_sheet(struct pdf *pdf, const struct document *part, size_t index, double smallest,
                                       double room) {
    struct pdf_drawing *drawing = &pdf->drawings[index];
    if (drawing->small && drawing->small->height <= room)
        return drawing->small;
    double largest = drawing->small ? drawing->small->ratio : drawing->whole->ratio;
    const struct sheet *small = sheet_lay_out_in(part->blocks.at[index]->figure, largest, smallest, room);
    return small ? drawing->small = small : NULL;
}

/* A diagram, which has no scale, may be printed smaller as long as its letters can be read. */
static double least_scale(const struct sheet *sheet) {
    double smallest = INFINITY;
    for (size_t i = 0; i < sheet->letters.count; i++)
        smallest = fmin(smallest, lettering_size(sheet->letters.at[i].size));
    return fmin(1, least_letters / smallest);
}

double pdf_print_height(const struct pdf_print *print) {
    return print->sheet->height * print->scale;
}

bool pdf_fit_drawing(struct pdf *pdf, const struct document *part, size_t index, double room, struct pdf_print *print) {
    const struct figure *figure = part->blocks.at[index]->figure;
    const struct sheet *whole = pdf_whole_drawing(pdf, part, index);
    double width = (pdf->right - pdf->left) / whole->width;
    *print = (struct pdf_print){whole, fmin(1, width)};
    if (pdf_print_height(print) <= room)
        return true;
    if (figure->diagram || figure->sketch) {
        print->scale = fmin(print->scale, room / whole->height);
        if (print->scale >= least_scale(whole))
            return true;
    }
    double most = figure->sketch ? most_sketched : most_smaller;
    struct pdf_drawing *drawing = &pdf->drawings[index];
    if (figure->diagram || room * most < whole->height || drawing->too_small)
        return false;
    *print = (struct pdf_print){small_sheet(pdf, part, index, most * whole->ratio, room), fmin(1, width)};
    drawing->too_small = !print->sheet;
    return print->sheet && pdf_print_height(print) <= room;
}

struct pdf_print pdf_squeeze_drawing(struct pdf *pdf, const struct document *part, size_t index, double room) {
    struct pdf_print print;
    if (pdf_fit_drawing(pdf, part, index, room, &print))
        return print;
    print.sheet = part->blocks.at[index]->figure->diagram ? pdf_whole_drawing(pdf, part, index)
                                                          : small_sheet(pdf, part, index, INFINITY, room);
    print.scale = fmin(1, fmin(room / print.sheet->height, (pdf->right - pdf->left) / print.sheet->width));
    return print;
}
