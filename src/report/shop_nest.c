/* Sheets and cuts: how the blanks lie on the sheets, and the cuts in their order. */
#include <math.h>

#include "metal/nest.h"
#include "report/bid.h"
#include "report/drawings.h"
#include "report/figures.h"
#include "report/shop.h"

/* ---- Words ------------------------------------------------------------------------------------------------------- */

const char *shop_nest_name(struct arena *arena, const struct job *job, const struct nest_piece *piece) {
    if (piece->blank)
        return shop_blank_name(arena, piece->part, piece->blank);
    return shop_strip_name(arena, job, piece->strip);
}

static const char *kind_words(const struct document *document, const struct nest_group *group) {
    return shop_sheet_words(document->arena, (struct sheet_kind){group->gauge, group->material});
}

static const char *size_words(const struct document *document, double one, double other) {
    return arena_format(document->arena, "%s x %s", measure_figure(document->arena, document->system, SHOW_CUT, one),
                        shop_length(document, other));
}

static const char *node_size(const struct document *document, const struct nest_node *node) {
    return size_words(document, nest_metres(node->length), nest_metres(node->width));
}

/* The lesser side first, as stock is named. */
static const char *stock_words(const struct document *document, const struct stock_sheet *sheet) {
    return size_words(document, fmin(sheet->sides[0], sheet->sides[1]), fmax(sheet->sides[0], sheet->sides[1]));
}

static const char *percent(const struct document *document, double share) {
    return arena_format(document->arena, "%.1f %%", 100 * share);
}

/* ---- All sheets -------------------------------------------------------------------------------------------------- */

enum { ALL_KIND, ALL_SIZE, ALL_SHEETS, ALL_AREA, ALL_COLUMNS };

static const struct column all_columns[ALL_COLUMNS] = {
    [ALL_KIND] = {.head = "Sheet"},
    [ALL_SIZE] = {.head = "Size"},
    [ALL_SHEETS] = {.head = "How many", .kind = COLUMN_NUMBER},
    [ALL_AREA] = {.head = "Area", .kind = COLUMN_FIGURE, .use = SHOW_AREA},
};

static void sheet_table(struct document *document, const struct nest *nest) {
    struct table *table = document_table(document, all_columns, ALL_COLUMNS);
    for (size_t i = 0; i < nest->groups.count; i++) {
        const struct nest_group *group = &nest->groups.at[i];
        for (size_t k = 0; k < group->stock.count; k++) {
            const struct nest_stock *stock = &group->stock.at[k];
            if (!stock->count)
                continue;
            union cell *cells = document_row(document, &table);
            cells[ALL_KIND].text = kind_words(document, group);
            cells[ALL_SIZE].text = stock_words(document, stock->sheet);
            cells[ALL_SHEETS].figure = (double)stock->count;
            cells[ALL_AREA].figure = stock->area;
        }
    }
}

/* ---- One gauge --------------------------------------------------------------------------------------------------- */

static const char *bound_words(const struct document *document, const struct nest_group *group) {
    const struct nest_solution *solution = group->solution;
    const char *fewest = arena_format(document->arena, "by area alone %zu, by the better bound %zu",
                                      solution->area_bound, solution->sheet_bound);
    double gap = (double)solution->cost / (double)solution->cost_bound - 1;
    if (solution->cost <= solution->cost_bound)
        return arena_format(document->arena, "%s; no way of cutting costs less sheet", fewest);
    return arena_format(document->arena, "%s; at most %s above the least that sheet can cost", fewest,
                        percent(document, gap));
}

static const char *kept_words(const struct document *document, const struct nest_group *group) {
    if (!group->kept_count)
        return "none";
    return arena_format(document->arena, "%zu, %s in all", group->kept_count,
                        bid_figure(document, SHOW_AREA, group->kept_area));
}

static void group_facts(struct document *document, const struct nest_group *group) {
    double scrap = group->sheet_area - group->kept_area - group->metal_area;
    document_fact(document, "Sheets",
                  arena_format(document->arena, "%zu for %zu blanks and strips", group->sheets, group->blanks));
    document_fact(document, "Area of the sheets", bid_figure(document, SHOW_AREA, group->sheet_area));
    document_fact(document, "Area of the blanks", bid_figure(document, SHOW_AREA, group->blank_area));
    document_fact(document, "Offcuts kept", kept_words(document, group));
    document_fact(document, "Left over and not kept", percent(document, group->waste));
    document_fact(document, "Scrap in all",
                  arena_format(document->arena, "%s, %s of what is used up",
                               bid_figure(document, SHOW_AREA, fmax(scrap, 0)), percent(document, group->scrap)));
    document_fact(document, "Fewest sheets possible", bound_words(document, group));
}

static void stock_note(struct document *document, const struct nest_group *group) {
    if (group->stock_assumed)
        document_paragraph(document, "The shop lists no sheets: they are assumed to be %s.",
                           stock_words(document, group->stock.at[0].sheet));
    else if (group->stock_borrowed)
        document_paragraph(
            document, "The shop lists no sheet of this gauge and material: it is assumed to come in the sizes of the "
                      "others.");
}

static void unplaced_list(const struct job *job, struct document *document, const struct nest_group *group) {
    if (!group->unplaced)
        return;
    document_paragraph(document, "On no sheet, since none is so large:");
    for (size_t i = 0; i < group->pieces.count; i++) {
        const struct nest_piece *piece = &group->pieces.at[i];
        if (piece->unplaced)
            document_bullet(document, "%zu of %s, %s", piece->unplaced, shop_nest_name(document->arena, job, piece),
                            size_words(document, piece->length, piece->width));
    }
}

/* ---- One sheet --------------------------------------------------------------------------------------------------- */

enum { CUT_NUMBER, CUT_WHAT, CUT_WAY, CUT_FROM, CUT_AT, CUT_FIRST, CUT_SECOND, CUT_COLUMNS };

static const struct column cut_columns[CUT_COLUMNS] = {
    [CUT_NUMBER] = {.head = "Cut"},
    [CUT_WHAT] = {.head = "Of"},
    [CUT_WAY] = {.head = "Which way"},
    [CUT_FROM] = {.head = "From its"},
    [CUT_AT] = {.head = "At", .kind = COLUMN_FIGURE, .use = SHOW_CUT},
    [CUT_FIRST] = {.head = "Left or lower piece"},
    [CUT_SECOND] = {.head = "Right or upper piece"},
};

struct cutting {
    const struct job *job;
    struct document *document;
    const struct nest_group *group;
    const struct nest_layout *layout;
    size_t *number;    /* of each node's cut */
    const char **what; /* what each node is called before it is cut */
};

static const char *piece_words(const struct cutting *cutting, size_t index) {
    struct arena *arena = cutting->document->arena;
    const struct nest_node *node = &cutting->layout->nodes.at[index];
    switch (node->kind) {
    case NEST_BLANK:
        return shop_nest_name(arena, cutting->job, &cutting->group->pieces.at[node->rectangle]);
    case NEST_KEPT:
        return arena_format(arena, "keep, %s", node_size(cutting->document, node));
    case NEST_CUT:
        return arena_format(arena, "on to cut %zu", cutting->number[index]);
    default:
        return "scrap";
    }
}

/* Of equal cuts, each counted from the one edge: rounding does not add up. */
static const char *marks_text(const struct document *document, double at, size_t count) {
    const char *text = "";
    for (size_t i = 1; i <= count; i++)
        text = arena_format(document->arena, "%s%s%s", text, i > 1 ? ", " : "",
                            measure_figure(document->arena, document->system, SHOW_CUT, at * (double)i));
    return text;
}

/* One cut, or as many as are the same cut made again; gives the node of the last. */
static size_t cut_row(struct cutting *cutting, struct table **table, size_t index) {
    struct arena *arena = cutting->document->arena, *keep = cutting->document->keep;
    size_t number = cutting->number[index], alike = nest_alike_cuts(cutting->layout, index);
    size_t last = index + 2 * (alike - 1);
    const struct nest_node *node = &cutting->layout->nodes.at[last];
    union cell *cells = document_row(cutting->document, table);
    cells[CUT_NUMBER].text = arena_format(arena, "%zu", number);
    cells[CUT_WHAT].text = cutting->what[index];
    cells[CUT_WAY].text = node->across ? "across" : "lengthwise";
    cells[CUT_FROM].text = node->across ? "left edge" : "lower edge";
    cells[CUT_AT].figure = nest_metres(node->at);
    cells[CUT_FIRST].text = piece_words(cutting, node->first);
    cells[CUT_SECOND].text = piece_words(cutting, node->second);
    if (alike > 1) {
        cells[CUT_NUMBER].text = arena_format(arena, "%zu-%zu", number, number + alike - 1);
        cells[CUT_FIRST].text = arena_format(arena, "%s, %zu times; marks from that edge: %s", cells[CUT_FIRST].text,
                                             alike, marks_text(cutting->document, nest_metres(node->at), alike));
    }
    number += alike - 1;
    cutting->what[node->first] = arena_format(keep, "%s of %zu", node->across ? "left" : "lower", number);
    cutting->what[node->second] = arena_format(keep, "%s of %zu", node->across ? "right" : "upper", number);
    return last;
}

static void cut_table(const struct job *job, struct document *document, const struct nest_group *group,
                      const struct nest_layout *layout) {
    struct cutting cutting = {job, document, group, layout, NULL, NULL};
    cutting.number = ARENA_ARRAY(document->keep, size_t, layout->nodes.count);
    cutting.what = ARENA_ARRAY(document->keep, const char *, layout->nodes.count);
    size_t cuts = 0;
    for (size_t i = 0; i < layout->nodes.count; i++)
        if (layout->nodes.at[i].kind == NEST_CUT)
            cutting.number[i] = ++cuts;
    if (!cuts) {
        document_paragraph(document, "No cut: the whole sheet is %s.", piece_words(&cutting, 0));
        return;
    }
    cutting.what[0] = "the sheet";
    struct table *table = document_table(document, cut_columns, CUT_COLUMNS);
    for (size_t i = 0; i < layout->nodes.count; i++)
        if (layout->nodes.at[i].kind == NEST_CUT)
            i = cut_row(&cutting, &table, i);
}

/* "Sheets 3 to 7 of 26 ga galvanised, 48 x 120 in, 5 alike". */
static const char *layout_words(const struct document *document, const struct nest_group *group,
                                const struct nest_layout *layout, size_t first) {
    const char *size = stock_words(document, group->stock.at[layout->sheet].sheet);
    const char *kind = kind_words(document, group);
    if (layout->times == 1)
        return arena_format(document->arena, "Sheet %zu of %s, %s", first, kind, size);
    return arena_format(document->arena, "Sheets %zu to %zu of %s, %s, %zu alike", first, first + layout->times - 1,
                        kind, size, layout->times);
}

static void layout_sheet(const struct job *job, struct document *document, const struct nest_group *group,
                         const struct nest_layout *layout, size_t sheet, size_t drawing) {
    document_relieve(document);
    const char *words = layout_words(document, group, layout, sheet);
    const struct nest_node *whole = &layout->nodes.at[0];
    document_heading(document, 4, words);
    document_paragraph(document, "%zu blanks, %s of the sheet.", layout->blank_count,
                       percent(document, (double)layout->blank_area / ((double)whole->length * whole->width)));
    if (document->drawings)
        document_drawing(document, figure_nest(document->arena, job, group, layout, words),
                         arena_format(document->arena, "sheet-%zu.svg", drawing), words);
    cut_table(job, document, group, layout);
}

/* ---- The section ------------------------------------------------------------------------------------------------- */

static const char *lead(const struct job *job, const struct document *document) {
    const struct nest *nest = job->metal->nest;
    return arena_format(
        document->arena,
        "Every cut runs from edge to edge, as a shear makes it; nothing is allowed for a kerf or for "
        "trimming. Blanks are named by part and letter, strips as in the list of strips; a blank lies as its "
        "box, and what is cut out of that is in its pattern. %s Offcuts of %s and over are kept%s.",
        nest->grain ? "The longer side of each lies along the sheet, as the shop wants it."
                    : "Blanks are turned as they fit.",
        size_words(document, nest->keep[0], nest->keep[1]),
        nest->keep_assumed ? ", since the shop does not say otherwise" : ", as the shop says");
}

void shop_nest(const struct job *job, struct document *document) {
    const struct nest *nest = job->metal->nest;
    document_paragraph(document, "%s", lead(job, document));
    document_paragraph(document,
                       "Lift sheets with two people and cut-resistant gloves; offcuts have sharp corners. Keep fingers "
                       "behind the guard of the shear.");
    sheet_table(document, nest);
    size_t drawing = 0;
    for (size_t i = 0; i < nest->groups.count; i++) {
        const struct nest_group *group = &nest->groups.at[i];
        size_t sheet = 1;
        document_relieve(document);
        document_heading(document, 3, kind_words(document, group));
        stock_note(document, group);
        group_facts(document, group);
        unplaced_list(job, document, group);
        for (size_t n = 0; n < group->solution->layouts.count; n++) {
            const struct nest_layout *layout = &group->solution->layouts.at[n];
            layout_sheet(job, document, group, layout, sheet, ++drawing);
            sheet += layout->times;
        }
    }
}
