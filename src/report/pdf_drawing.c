/* How a drawing is made for the room that a page has. */
#include <math.h>
#include <string.h>

#include "draw/lettering.h"
#include "report/pdf.h"

/* How much smaller than it might be a drawing is made for the room that is left on a page, and so that another stands
 * beside it: times the ratio of its scale.  By look. */
static const double most_smaller = 2.1, most_sketched = 2.5;
static const double most_beside = 1.51, most_sketched_beside = 3;

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
    return fmin(1, LETTERS_LEAST / smallest);
}

bool pdf_says_itself(const struct block *drawing) {
    return drawing->figure->title && strcmp(drawing->figure->title, drawing->text) == 0;
}

double pdf_print_height(const struct pdf_print *print) {
    return print->sheet->height * print->scale;
}

static bool ends_group(const struct document *part, size_t index) {
    const struct block *next = index + 1 < part->blocks.count ? part->blocks.at[index + 1] : NULL;
    return !next || next->kind != DRAWING || !next->figure->follows;
}

/* The room at the end of a page: a drawing of a group is shrunk less for it, since its group can share the next page.
 */
static double most_smaller_of(const struct document *part, size_t index) {
    const struct figure *figure = part->blocks.at[index]->figure;
    if (figure->sketch)
        return most_sketched;
    return figure->follows || !ends_group(part, index) ? most_beside : most_smaller;
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
    double most = most_smaller_of(part, index);
    struct pdf_drawing *drawing = &pdf->drawings[index];
    if (figure->diagram || room * most < whole->height || drawing->too_small)
        return false;
    *print = (struct pdf_print){small_sheet(pdf, part, index, most * whole->ratio, room), fmin(1, width)};
    drawing->too_small = !print->sheet;
    return print->sheet && pdf_print_height(print) <= room;
}

/* ---- Several on a page ------------------------------------------------------------------------------------------- */

/* A view that is left over, and behind it a plan, an elevation and a view. */
enum { TOGETHER_MOST = 4 };

/* A page filled to this share by drawings of one group may end there.  By look. */
static const double filled = 0.7;

/* The words under a drawing. */
static const double words_room = 18; /* pt */

/* What drawings are made smaller by until they stand together, of their height: first the sketches; what has a scale
 * only so that all that goes together stands on one page. */
static const struct {
    double scaled, sketched;
} tries[] = {{1, 1}, {1, 0.75}, {1, 0.5}, {1, 0.4}, {0.95, 0.75}, {0.95, 0.5}, {0.95, 0.4}};
enum { TRIES = sizeof tries / sizeof tries[0] };

static size_t drawings_from(const struct document *part, size_t index) {
    size_t count = 0;
    while (count < TOGETHER_MOST && index + count < part->blocks.count &&
           part->blocks.at[index + count]->kind == DRAWING && !part->blocks.at[index + count]->figure->diagram)
        count++;
    return count;
}

/* Of a share of its height, or whole when that would make it too small. */
static const struct sheet *sheet_tried(struct pdf *pdf, const struct document *part, size_t index, int tried) {
    const struct figure *figure = part->blocks.at[index]->figure;
    const struct sheet *whole = pdf_whole_drawing(pdf, part, index);
    struct pdf_drawing *drawing = &pdf->drawings[index];
    double share = figure->sketch ? tries[tried].sketched : tries[tried].scaled;
    double most = figure->sketch ? most_sketched_beside : most_beside;
    if (share >= 1)
        return whole;
    size_t kept = share > 0.7 ? 0 : share > 0.45 ? 1 : 2;
    if (!drawing->beside[kept]) {
        const struct sheet *small = sheet_lay_out_in(figure, whole->ratio, most * whole->ratio, share * whole->height);
        drawing->beside[kept] = small && small->height < whole->height ? small : whole;
    }
    return drawing->beside[kept];
}

/* Sheets that stand on one page. */
struct together {
    const struct sheet *sheets[TOGETHER_MOST];
    size_t count;
    double height;
};

static bool fit_together(struct pdf *pdf, const struct document *part, size_t index, double room,
                         struct together *together) {
    bool whole = !part->blocks.at[index]->figure->follows && ends_group(part, index + together->count - 1);
    for (int tried = 0; tried < TRIES && (whole || tries[tried].scaled >= 1); tried++) {
        double width = 0;
        together->height = 0;
        for (size_t i = 0; i < together->count; i++) {
            const struct block *block = part->blocks.at[index + i];
            together->sheets[i] = sheet_tried(pdf, part, index + i, tried);
            together->height += together->sheets[i]->height + pdf_block_gap + (pdf_says_itself(block) ? 0 : words_room);
            width = fmax(width, together->sheets[i]->width);
        }
        if (together->height <= room && width <= pdf->right - pdf->left + 0.01)
            return true;
    }
    return false;
}

/* As many as have room; or fewer, when those end with what goes together and fill most of the page. */
void pdf_plan_drawings(struct pdf *pdf, const struct document *part, size_t index, double room) {
    struct together best = {.count = 0};
    for (size_t count = drawings_from(part, index); count > 1; count--) {
        struct together together = {.count = count};
        if (!fit_together(pdf, part, index, room, &together))
            continue;
        bool whole = ends_group(part, index + count - 1);
        if (!best.count || (whole && together.height > filled * room))
            best = together;
        if (whole)
            break;
    }
    for (size_t i = 0; i < best.count; i++)
        pdf->drawings[index + i].planned = best.sheets[i];
}

/* ---- However small ----------------------------------------------------------------------------------------------- */

struct pdf_print pdf_squeeze_drawing(struct pdf *pdf, const struct document *part, size_t index, double room) {
    struct pdf_print print;
    if (pdf_fit_drawing(pdf, part, index, room, &print))
        return print;
    print.sheet = part->blocks.at[index]->figure->diagram ? pdf_whole_drawing(pdf, part, index)
                                                          : small_sheet(pdf, part, index, INFINITY, room);
    print.scale = fmin(1, fmin(room / print.sheet->height, (pdf->right - pdf->left) / print.sheet->width));
    return print;
}
