/* Text as it flows: lines of words, and pages of lines. */
#include <math.h>
#include <stddef.h>
#include <string.h>

#include "base/text.h"
#include "report/pdf.h"

/* ---- Room -------------------------------------------------------------------------------------------------------- */

double pdf_page_room(const struct pdf *pdf) {
    return pdf->bottom - pdf->top;
}

void pdf_new_page(struct pdf *pdf) {
    spool_put(pdf->spool, (struct spool_mark){.kind = SPOOL_PAGE}, NULL);
    pdf->begun = pdf->fresh = true;
    pdf->below_heading = false;
    pdf->y = pdf->top;
}

/* A hundredth of a point is no reason for a new page. */
bool pdf_has_room(const struct pdf *pdf, double height) {
    return pdf->begun && pdf->y + height <= pdf->bottom + 0.01;
}

void pdf_need(struct pdf *pdf, double height) {
    if (pdf->below_heading && pdf_has_room(pdf, 3 * style_text.leading))
        return;
    if (!pdf->begun || (!pdf->fresh && !pdf_has_room(pdf, height)))
        pdf_new_page(pdf);
}

void pdf_gap(struct pdf *pdf, double height) {
    if (pdf->begun && !pdf->fresh)
        pdf->y += height;
}

/* ---- Words ------------------------------------------------------------------------------------------------------- */

static bool is_digit(char byte) {
    return byte >= '0' && byte <= '9';
}

/* The units that are not parted from their figure. */
static bool is_unit(const char *from, size_t length) {
    static const char *const units[] = {"in", "ft", "mm", "m", "cfm", "fpm", "ga", "L/s", "Pa", "lb", "kg", "F", "%"};
    while (length > 0 && strchr(".,;:)", from[length - 1]))
        length--;
    for (size_t i = 0; i < sizeof units / sizeof units[0]; i++)
        if (strlen(units[i]) == length && memcmp(units[i], from, length) == 0)
            return true;
    return false;
}

/* Behind what belongs to the figure that ends at `at`: " in", or " x 6"; `at` where that is nothing. */
static const char *behind_figure(const char *at, const char *end) {
    if (end - at < 3 || at[0] != ' ' || !is_digit(at[-1]))
        return at;
    if (end - at > 3 && at[1] == 'x' && at[2] == ' ' && is_digit(at[3])) {
        for (at += 3; at < end && !text_is_space(*at);)
            at++;
        return at;
    }
    const char *unit = at + 1, *behind = unit;
    while (behind < end && !text_is_space(*behind))
        behind++;
    return is_unit(unit, (size_t)(behind - unit)) ? behind : at;
}

/* The next word at or behind *cursor and before `end`, a figure with its unit being one; of no bytes when there is
 * none.
 */
static struct text_line next_word(const char **cursor, const char *end) {
    while (*cursor < end && text_is_space(**cursor))
        (*cursor)++;
    struct text_line word = {.from = *cursor};
    while (*cursor < end && !text_is_space(**cursor))
        (*cursor)++;
    if (*cursor > word.from)
        for (const char *further; (further = behind_figure(*cursor, end)) > *cursor;)
            *cursor = further;
    word.to = *cursor;
    return word;
}

static double word_width(struct pdf *pdf, const struct style *style, struct text_line word) {
    return type_width(pdf->type, style->face, word.from, (size_t)(word.to - word.from)) * style->size;
}

struct text_line pdf_whole(const char *text) {
    return (struct text_line){.from = text, .to = text + strlen(text)};
}

double pdf_line_width(struct pdf *pdf, const struct style *style, struct text_line line) {
    double width = 0, space = type_space(pdf->type, style->face) * style->size;
    const char *cursor = line.from;
    for (struct text_line word = next_word(&cursor, line.to); word.to > word.from; word = next_word(&cursor, line.to))
        width += (width > 0 ? space : 0) + word_width(pdf, style, word);
    return width;
}

double pdf_text_width(struct pdf *pdf, const struct style *style, const char *text) {
    return pdf_line_width(pdf, style, pdf_whole(text));
}

double pdf_word_width(struct pdf *pdf, const struct style *style, const char *text) {
    double widest = 0;
    struct text_line whole = pdf_whole(text);
    const char *cursor = text;
    for (struct text_line word = next_word(&cursor, whole.to); word.to > word.from; word = next_word(&cursor, whole.to))
        widest = fmax(widest, word_width(pdf, style, word));
    return widest;
}

/* ---- Lines ------------------------------------------------------------------------------------------------------- */

/* Back to where a letter begins. */
static const char *letter_at(const char *at, const char *first) {
    while (at > first && ((unsigned char)*at & 0xC0) == 0x80)
        at--;
    return at;
}

/* The letter behind the one at `at`. */
static const char *letter_behind(const char *at, const char *end) {
    do
        at++;
    while (at < end && ((unsigned char)*at & 0xC0) == 0x80);
    return at;
}

/* Where a word that is wider than a line ends on it: behind the last letter that has room, the first in any case.
 * Found in steps that double and then halve, so that only so much of a very long word is measured. */
static const char *break_word(struct pdf *pdf, const struct style *style, struct text_line word, double room) {
    const char *low = word.from, *high = word.to;
    for (ptrdiff_t step = 16; low < word.to; step *= 2) {
        high = word.to - low > step ? letter_at(low + step, low) : word.to;
        if (high == low || word_width(pdf, style, (struct text_line){word.from, high}) > room)
            break;
        low = high;
    }
    while (low < high) {
        const char *middle = letter_at(low + (high - low + 1) / 2, low);
        if (middle == low || middle == high) {
            middle = letter_behind(low, high);
            if (middle == high)
                break;
        }
        if (word_width(pdf, style, (struct text_line){word.from, middle}) <= room)
            low = middle;
        else
            high = middle;
    }
    return low > word.from ? low : letter_behind(word.from, word.to);
}

/* Longer words than this are measured only as far as they fit. */
enum { LONG_WORD = 200 };

struct wrapping {
    struct pdf *pdf;
    bool kept;
    LIST(struct text_line) lines;
    size_t count;
};

static void end_line(struct wrapping *wrapping, struct text_line line) {
    wrapping->count++;
    if (wrapping->kept)
        *list_add(wrapping->pdf->scratch, &wrapping->lines) = line;
}

/* A line may be too wide by this much: the column's width was summed in another order. */
static const double hair = 0.01; /* pt */

size_t pdf_wrap(struct pdf *pdf, const struct style *style, const char *text, double room, double lead,
                struct text_line **lines) {
    struct wrapping wrapping = {.pdf = pdf, .kept = lines};
    double space = type_space(pdf->type, style->face) * style->size, x = lead;
    struct text_line line = {NULL, NULL}, whole = pdf_whole(text);
    const char *cursor = text;
    for (struct text_line word = next_word(&cursor, whole.to); word.to > word.from;
         word = next_word(&cursor, whole.to)) {
        double width = word_width(pdf, style, word);
        if (line.from && x + space + width > room + hair) {
            end_line(&wrapping, line);
            line.from = NULL;
            x = 0;
        }
        while (!line.from && x + width > room + hair && word.to > word.from) {
            struct text_line piece = {word.from, x > 0 ? word.from : break_word(pdf, style, word, room)};
            end_line(&wrapping, piece);
            word.from = piece.to;
            x = 0;
            width = word.to - word.from > LONG_WORD ? INFINITY : word_width(pdf, style, word);
        }
        if (word.to == word.from)
            continue;
        x += (line.from ? space : 0) + width;
        line = (struct text_line){line.from ? line.from : word.from, word.to};
    }
    if (line.from)
        end_line(&wrapping, line);
    if (lines)
        *lines = wrapping.lines.at;
    return wrapping.count;
}

static void put_word(struct pdf *pdf, const struct style *style, struct text_line word, double x, double baseline) {
    spool_put(pdf->spool,
              (struct spool_mark){.kind = SPOOL_WORDS,
                                  .ink = style->ink,
                                  .face = style->face,
                                  .size = style->size,
                                  .x = x,
                                  .y = baseline,
                                  .length = (size_t)(word.to - word.from)},
              word.from);
}

void pdf_put_line(struct pdf *pdf, const struct style *style, struct text_line line, double x, double y) {
    double space = type_space(pdf->type, style->face) * style->size;
    double baseline = y + (style->leading + 0.72 * style->size) / 2; /* capitals stand in the middle of the line */
    const char *cursor = line.from;
    pdf->below_heading = false;
    if (type_turns(line.from, (size_t)(line.to - line.from))) {
        put_word(pdf, style, line, x, baseline);
        return;
    }
    for (struct text_line word = next_word(&cursor, line.to); word.to > word.from; word = next_word(&cursor, line.to)) {
        put_word(pdf, style, word, x, baseline);
        x += word_width(pdf, style, word) + space;
    }
}

/* How many of `left` lines go on this page. */
static size_t lines_here(const struct pdf *pdf, double leading, size_t left) {
    double room = floor((pdf->bottom - pdf->y) / leading + 0.01);
    size_t fit = room > 0 ? (size_t)room : 0;
    if (left <= fit)
        return left;
    if (fit + 1 == left && fit > 0)
        fit--;
    if (pdf->fresh)
        return fit ? fit : 1;
    return fit < 2 ? 0 : fit;
}

void pdf_put_lines(struct pdf *pdf, const struct style *style, const struct text_line *lines, size_t count, double x) {
    if (!pdf->begun)
        pdf_new_page(pdf);
    for (size_t done = 0; done < count;) {
        size_t here = lines_here(pdf, style->leading, count - done);
        for (size_t i = 0; i < here; i++) {
            pdf_put_line(pdf, style, lines[done + i], x, pdf->y);
            pdf->y += style->leading;
        }
        if (here)
            pdf->fresh = false;
        done += here;
        if (done < count)
            pdf_new_page(pdf);
    }
}

/* ---- Lines and boxes --------------------------------------------------------------------------------------------- */

void pdf_rule(struct pdf *pdf, enum ink ink, double width, struct spot from, struct spot to) {
    spool_put(
        pdf->spool,
        (struct spool_mark){
            .kind = SPOOL_LINE, .ink = ink, .size = width, .x = from.x, .y = from.y, .right = to.x, .bottom = to.y},
        NULL);
}

void pdf_fill(struct pdf *pdf, enum ink ink, struct spot from, struct spot to) {
    spool_put(
        pdf->spool,
        (struct spool_mark){.kind = SPOOL_FILL, .ink = ink, .x = from.x, .y = from.y, .right = to.x, .bottom = to.y},
        NULL);
}
