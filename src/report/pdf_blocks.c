/* Blocks on pages. */
#include <math.h>
#include <string.h>

#include "draw/figure.h"
#include "report/pdf.h"

/* Own look: black on white, one dark accent, which headings and cautions share with the drawings. */
const struct style style_text = {.face = TYPE_PLAIN, .ink = INK_BLACK, .size = 9, .leading = 12.5};
const struct style style_small = {.face = TYPE_PLAIN, .ink = INK_BLACK, .size = 8, .leading = 11};
const struct style style_bold = {.face = TYPE_BOLD, .ink = INK_BLACK, .size = 9, .leading = 12.5};
static const struct style style_caution = {.face = TYPE_BOLD, .ink = INK_ACCENT, .size = 9, .leading = 12.5};

const double pdf_block_gap = 6;
static const double line_gap = 2, indent = 11; /* pt */

/* ---- Headings ---------------------------------------------------------------------------------------------------- */

static const struct heading_look {
    struct style style;
    double above, below;
} looks[] = {
    {.style = {.face = TYPE_BOLD, .ink = INK_BLACK, .size = 19, .leading = 24}, .above = 4, .below = 6},
    {.style = {.face = TYPE_BOLD, .ink = INK_ACCENT, .size = 13, .leading = 17}, .above = 18, .below = 2},
    {.style = {.face = TYPE_BOLD, .ink = INK_BLACK, .size = 10.5, .leading = 14}, .above = 13, .below = 0},
    {.style = {.face = TYPE_BOLD, .ink = INK_BLACK, .size = 9, .leading = 12.5}, .above = 9, .below = 0},
};
enum { LOOK_COUNT = sizeof looks / sizeof looks[0] };

static const struct heading_look *look_of(int level) {
    return &looks[level < 1 ? 0 : level > LOOK_COUNT ? LOOK_COUNT - 1 : level - 1];
}

static double text_height(struct pdf *pdf, const struct style *style, const char *text, double room) {
    return (double)pdf_wrap(pdf, style, text, room, 0, NULL) * style->leading;
}

static double heading_height(struct pdf *pdf, const struct block *block) {
    const struct heading_look *look = look_of(block->level);
    return text_height(pdf, &look->style, block->text, pdf->right - pdf->left) + look->below + pdf_block_gap;
}

/* ---- What must stand together ------------------------------------------------------------------------------------ */

static const double blank_height = 24; /* pt */

static double text_start(struct pdf *pdf, const struct style *style, const char *text, double room) {
    size_t lines = pdf_wrap(pdf, style, text, room, 0, NULL);
    return (double)(lines < 4 ? lines : 2) * style->leading;
}

/* Where what stands behind the names begins: right of the widest, but no more than a third over. */
static double facts_margin(struct pdf *pdf, const struct block *block) {
    double widest = 0;
    for (size_t i = 0; i < block->facts.count; i++)
        widest = fmax(widest, pdf_text_width(pdf, &style_bold, block->facts.at[i].key));
    return pdf->left + fmin(widest, (pdf->right - pdf->left) / 3) + indent;
}

static double fact_start(struct pdf *pdf, const struct fact *fact, double margin) {
    return fmax(text_height(pdf, &style_bold, fact->key, margin - indent - pdf->left),
                text_start(pdf, &style_text, fact->value, pdf->right - margin));
}

/* A paragraph longer than this (pt) stands for itself; and so much is kept with the drawing below it. */
static const double announcing = 80, led_in = 190;

double pdf_block_height(struct pdf *pdf, const struct document *part, size_t index) {
    const struct block *block = part->blocks.at[index];
    double room = pdf->right - pdf->left, height = 0, margin;
    switch (block->kind) {
    case PARAGRAPH:
        return text_height(pdf, &style_text, block->text, room);
    case BULLETS:
        for (size_t i = 0; i < block->items.count; i++)
            height += text_height(pdf, &style_text, block->items.at[i], room - indent) + line_gap;
        return height;
    case FACTS:
        margin = facts_margin(pdf, block);
        for (size_t i = 0; i < block->facts.count; i++)
            height +=
                line_gap + fmax(text_height(pdf, &style_bold, block->facts.at[i].key, margin - indent - pdf->left),
                                text_height(pdf, &style_text, block->facts.at[i].value, pdf->right - margin));
        return height;
    case CAUTION:
        return text_height(pdf, &style_text, block->text, room - 2 * indent) + style_text.leading;
    case TABLE:
        return pdf_table_height(pdf, &block->table, part->system);
    default:
        return 0;
    }
}

bool pdf_is_lead(const struct block *block) {
    return block->kind == PARAGRAPH || block->kind == FACTS || block->kind == BULLETS;
}

/* Whether it stands, with at most a few others of its like, right above a drawing. */
static bool leads_to_drawing(const struct document *part, size_t index) {
    enum { MOST = 4 };
    size_t end = index + MOST < part->blocks.count ? index + MOST : part->blocks.count;
    while (index < end && pdf_is_lead(part->blocks.at[index]))
        index++;
    return part->drawings && index < end && part->blocks.at[index]->kind == DRAWING;
}

/* Whether it is a short text right above a table, or above another that is. */
static bool leads_to_table(const struct document *part, size_t index) {
    enum { MOST = 3 };
    size_t end = index + MOST < part->blocks.count ? index + MOST : part->blocks.count;
    while (index < end && (part->blocks.at[index]->kind == PARAGRAPH || part->blocks.at[index]->kind == CAUTION))
        index++;
    return index < end && part->blocks.at[index]->kind == TABLE;
}

/* Whether it is a paragraph that says what the table or the list below it holds, or what leads to a drawing. */
static bool announces(struct pdf *pdf, const struct document *part, size_t index) {
    const struct block *block = part->blocks.at[index];
    if (pdf_is_lead(block) && leads_to_drawing(part, index))
        return pdf_block_height(pdf, part, index) < led_in;
    if (leads_to_table(part, index))
        return block->kind != TABLE && pdf_block_height(pdf, part, index) < announcing;
    size_t length = block->kind == PARAGRAPH ? strlen(block->text) : 0;
    return length && index + 1 < part->blocks.count && block->text[length - 1] == ':';
}

/* The height of the beginning of a block that must not be parted from a heading above it. */
static double block_start(struct pdf *pdf, const struct document *part, size_t index) {
    const struct block *block = part->blocks.at[index];
    double room = pdf->right - pdf->left;
    switch (block->kind) {
    case PARAGRAPH:
        return text_start(pdf, &style_text, block->text, room);
    case CAUTION:
        return text_height(pdf, &style_text, block->text, room) + 2 * style_text.leading;
    case BULLETS:
        return text_start(pdf, &style_text, block->items.at[0], room - indent);
    case FACTS:
        return fact_start(pdf, &block->facts.at[0], facts_margin(pdf, block));
    case TABLE:
        return pdf_table_start(pdf, &block->table, part->system);
    case BLANKS:
        return blank_height * (double)block->items.count;
    case DRAWING:
    case NEW_PAGE:
    case HEADING:
    case REFERENCES:
        break;
    }
    return 0;
}

/* Of any block, so much at least (pt). */
static const double least_start = 40;

/* Of the headings from `index` on and what follows them, where so much room is left. */
static double start_at(struct pdf *pdf, const struct document *part, size_t index, double room) {
    double height = 0;
    for (; index < part->blocks.count; index++) {
        const struct block *block = part->blocks.at[index];
        if (block->kind == HEADING) {
            height += heading_height(pdf, block) + (height > 0 ? look_of(block->level)->above : 0);
            continue;
        }
        if (block->kind == DRAWING)
            return height + pdf_block_gap + pdf_drawing_start(pdf, part, index, room - height - pdf_block_gap);
        if (!announces(pdf, part, index))
            return height + fmax(least_start, block_start(pdf, part, index));
        height += pdf_block_height(pdf, part, index) + pdf_block_gap;
    }
    return height + 4 * style_text.leading;
}

/* Goes to the next page unless what must stand together from here on has room. */
static void need_start(struct pdf *pdf, const struct document *part, size_t index) {
    double room = pdf->begun ? pdf->bottom - pdf->y : 0;
    pdf_need(pdf, fmin(start_at(pdf, part, index, room), pdf_page_room(pdf)));
    pdf->kept = part->blocks.at[index]->kind == HEADING ? spool_pages(pdf->spool) : pdf->kept;
}

/* ---- The blocks -------------------------------------------------------------------------------------------------- */

static void note_place(struct pdf *pdf, const struct block *block) {
    size_t next = pdf->headings_met;
    const char *text = type_clean(pdf->scratch, block->text);
    spool_put(
        pdf->spool,
        (struct spool_mark){.kind = SPOOL_HEADING, .level = block->level, .y = pdf->y - 4, .length = strlen(text)},
        text);
    if (block->level != 2 || next >= pdf->paper->headings.count ||
        strcmp(pdf->paper->headings.at[next], block->text) != 0)
        return;
    spool_put(pdf->spool, (struct spool_mark){.kind = SPOOL_PLACE, .level = (int)next, .y = pdf->y - 4}, NULL);
    pdf->places[next] = spool_pages(pdf->spool);
    pdf->headings_met++;
}

static void put_heading(struct pdf *pdf, const struct document *part, size_t index) {
    const struct block *block = part->blocks.at[index];
    const struct heading_look *look = look_of(block->level);
    struct text_line *lines;
    if (block->level == 2 && !pdf->contents_put)
        pdf_put_contents(pdf);
    bool below_heading = index > 0 && part->blocks.at[index - 1]->kind == HEADING;
    pdf_gap(pdf, below_heading ? look->above / 3 : look->above);
    need_start(pdf, part, index);
    note_place(pdf, block);
    size_t count = pdf_wrap(pdf, &look->style, block->text, pdf->right - pdf->left, 0, &lines);
    pdf_put_lines(pdf, &look->style, lines, count, pdf->left);
    arena_clear(pdf->scratch);
    pdf->y += look->below;
    if (block->level <= 2)
        pdf_rule(pdf, INK_ACCENT, block->level == 1 ? 1.4 : 0.6, (struct spot){pdf->left, pdf->y},
                 (struct spot){pdf->right, pdf->y});
    pdf->last_heading = block->text;
    pdf->below_heading = true;
}

void pdf_put_text(struct pdf *pdf, const struct style *style, const char *text, double x) {
    struct text_line *lines;
    size_t count = pdf_wrap(pdf, style, text, pdf->right - x, 0, &lines);
    pdf_put_lines(pdf, style, lines, count, x);
    arena_clear(pdf->scratch);
}

static void put_paragraph(struct pdf *pdf, const struct document *part, size_t index) {
    const struct block *block = part->blocks.at[index];
    if (announces(pdf, part, index))
        need_start(pdf, part, index);
    pdf_put_text(pdf, &style_text, block->text, pdf->left);
}

static void put_bullet(struct pdf *pdf, const struct style *style, const char *text) {
    pdf_need(pdf, text_start(pdf, style, text, pdf->right - pdf->left - indent));
    pdf_put_line(pdf, style, pdf_whole("\xE2\x80\xA2"), pdf->left + 2, pdf->y);
    pdf_put_text(pdf, style, text, pdf->left + indent);
    pdf->y += line_gap;
}

static void put_bullets(struct pdf *pdf, const struct block *block) {
    for (size_t i = 0; i < block->items.count; i++)
        put_bullet(pdf, &style_text, block->items.at[i]);
}

static void put_references(struct pdf *pdf, const struct block *block, struct arena *arena) {
    for (size_t i = 0; i < block->sources.count; i++)
        put_bullet(pdf, &style_small, reference_text(arena, block, block->sources.at[i]));
}

static void put_fact(struct pdf *pdf, const struct fact *fact, double margin) {
    struct text_line *key;
    pdf_need(pdf, fact_start(pdf, fact, margin));
    size_t count = pdf_wrap(pdf, &style_bold, fact->key, margin - indent - pdf->left, 0, &key);
    size_t page = spool_pages(pdf->spool);
    double below = pdf->y + (double)count * style_bold.leading;
    for (size_t i = 0; i < count; i++)
        pdf_put_line(pdf, &style_bold, key[i], pdf->left, pdf->y + (double)i * style_bold.leading);
    pdf_put_text(pdf, &style_text, fact->value, margin);
    pdf->y = (page == spool_pages(pdf->spool) ? fmax(pdf->y, below) : pdf->y) + line_gap;
    pdf->fresh = false;
}

/* Names in one column, and what they are in the other. */
static void put_facts(struct pdf *pdf, const struct block *block) {
    double margin = facts_margin(pdf, block);
    for (size_t i = 0; i < block->facts.count; i++)
        put_fact(pdf, &block->facts.at[i], margin);
}

/* Washed, with a bar on its left; broken over pages only when no page has room for it. */
static void put_caution(struct pdf *pdf, const struct block *block) {
    static const char lead[] = "Caution:";
    struct text_line *lines;
    double x = pdf->left + indent, pad = 3, leading = style_text.leading;
    double shift = pdf_text_width(pdf, &style_caution, lead) + type_space(pdf->type, TYPE_PLAIN) * style_text.size;
    size_t count = pdf_wrap(pdf, &style_text, block->text, pdf->right - x - pad, shift, &lines);
    pdf_need(pdf, (double)count * leading + 2 * pad);
    for (size_t done = 0; done < count;) {
        size_t here = (size_t)fmax(1, floor((pdf->bottom - pdf->y - 2 * pad) / leading + 0.01));
        if (here > count - done)
            here = count - done;
        double bottom = pdf->y + (double)here * leading + 2 * pad;
        pdf_fill(pdf, INK_WASH, (struct spot){pdf->left, pdf->y}, (struct spot){pdf->right, bottom});
        pdf_fill(pdf, INK_ACCENT, (struct spot){pdf->left, pdf->y}, (struct spot){pdf->left + 3, bottom});
        if (done == 0)
            pdf_put_line(pdf, &style_caution, pdf_whole(lead), x, pdf->y + pad);
        for (size_t i = 0; i < here; i++)
            pdf_put_line(pdf, &style_text, lines[done + i], done + i == 0 ? x + shift : x,
                         pdf->y + pad + (double)i * leading);
        pdf->y = bottom;
        pdf->fresh = false;
        done += here;
        if (done < count)
            pdf_new_page(pdf);
    }
    arena_clear(pdf->scratch);
}

static void put_blanks(struct pdf *pdf, const struct block *block) {
    double widest = 0, length = 260;
    for (size_t i = 0; i < block->items.count; i++)
        widest = fmax(widest, pdf_text_width(pdf, &style_text, block->items.at[i]));
    widest = fmin(widest, (pdf->right - pdf->left) / 2);
    pdf_need(pdf, fmin(blank_height * (double)block->items.count, pdf_page_room(pdf)));
    for (size_t i = 0; i < block->items.count; i++) {
        struct text_line *lines;
        size_t count = pdf_wrap(pdf, &style_text, block->items.at[i], widest + 0.1, 0, &lines);
        double height = (double)(count ? count : 1) * style_text.leading, above = blank_height - style_text.leading;
        pdf_need(pdf, above + height);
        pdf->y += above;
        for (size_t j = 0; j < count; j++)
            pdf_put_line(pdf, &style_text, lines[j], pdf->left, pdf->y + (double)j * style_text.leading);
        pdf->y += height;
        double x = pdf->left + widest + indent;
        pdf_rule(pdf, INK_BLACK, 0.5, (struct spot){x, pdf->y - 1},
                 (struct spot){fmin(x + length, pdf->right), pdf->y - 1});
        pdf->fresh = false;
        arena_clear(pdf->scratch);
    }
}

void pdf_put_block(struct pdf *pdf, const struct document *part, size_t index) {
    const struct block *block = part->blocks.at[index];
    if (block->kind != HEADING)
        pdf_gap(pdf, pdf_block_gap);
    switch (block->kind) {
    case HEADING:
        put_heading(pdf, part, index);
        break;
    case PARAGRAPH:
        put_paragraph(pdf, part, index);
        break;
    case BULLETS:
        put_bullets(pdf, block);
        break;
    case FACTS:
        put_facts(pdf, block);
        break;
    case TABLE:
        pdf_put_table(pdf, &block->table, part->system);
        break;
    case CAUTION:
        put_caution(pdf, block);
        break;
    case REFERENCES:
        put_references(pdf, block, part->arena);
        break;
    case BLANKS:
        put_blanks(pdf, block);
        break;
    case DRAWING:
        pdf_put_drawing(pdf, part, index);
        break;
    case NEW_PAGE:
        if (pdf->begun && !pdf->fresh)
            pdf_new_page(pdf);
        break;
    }
}
