/* What is to be made and where it goes: parts, places, cut list, what is bought, weight. */
#include "report/shop.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#include "model/item_words.h"
#include "model/words.h"
#include "report/bid.h"
#include "report/csv.h"

/* ---- Parts ------------------------------------------------------------------------------------------------------- */

enum { PART_NUMBER, PART_WHAT, PART_SHEET, PART_PIECES, PART_LENGTH, PART_NOTE, PART_COLUMNS };

static const struct column part_columns[PART_COLUMNS] = {
    [PART_NUMBER] = {.head = "Part", .kind = COLUMN_NUMBER},
    [PART_WHAT] = {.head = "What"},
    [PART_SHEET] = {.head = "Sheet"},
    [PART_PIECES] = {.head = "How many", .kind = COLUMN_NUMBER},
    [PART_LENGTH] = {.head = "Finished length", .kind = COLUMN_FIGURE, .use = SHOW_CUT},
    [PART_NOTE] = {.head = "Note"},
};

static const char *joined(struct document *document, const char *text, const char *more) {
    return text ? arena_format(document->arena, "%s; %s", text, more) : more;
}

static const char *part_note(struct document *document, const struct part *part) {
    const char *note = shop_lined_words(document->arena, document->system, part);
    if (shop_measured_first(part))
        note = joined(document, note, "measure first");
    if (part->cross_break)
        note = joined(document, note, "cross-break or bead");
    if (part->reinforce)
        note = joined(document, note, "reinforce: beyond the gauge table");
    return note;
}

void shop_parts(const struct job *job, struct document *document) {
    document_paragraph(document, "Sizes are those of the metal, inside, width x height: what is lined is clear "
                                 "by so much less. The number of a part stands on its blanks, its drawings and every "
                                 "list below: write it on the metal.");
    struct table *table = document_table(document, part_columns, PART_COLUMNS);
    for (size_t i = 0; i < job->metal->parts.count; i++) {
        const struct part *part = job->metal->parts.at[i];
        union cell *cells = document_row(document, &table);
        cells[PART_NUMBER].figure = (double)part->number;
        cells[PART_WHAT].text = part->title;
        cells[PART_SHEET].text = shop_sheet_words(document->arena, shop_sheet_of(part));
        cells[PART_PIECES].figure = (double)part->uses.count;
        if (part->finished_length > 0)
            cells[PART_LENGTH].figure = part->finished_length;
        cells[PART_NOTE].text = part_note(document, part);
    }
}

/* ---- Places ------------------------------------------------------------------------------------------------------ */

enum { PLACE_PART, PLACE_COUNT, PLACE_RUN, PLACE_ROOM, PLACE_STATION, PLACE_PIECE, PLACE_NOTE, PLACE_COLUMNS };

static const struct column place_columns[PLACE_COLUMNS] = {
    [PLACE_PART] = {.head = "Part", .kind = COLUMN_NUMBER},
    [PLACE_COUNT] = {.head = "How many", .kind = COLUMN_NUMBER},
    [PLACE_RUN] = {.head = "Run"},
    [PLACE_ROOM] = {.head = "Room or title"},
    [PLACE_STATION] = {.head = "From the run's start", .kind = COLUMN_FIGURE, .use = SHOW_RUN},
    [PLACE_PIECE] = {.head = "For"},
    [PLACE_NOTE] = {.head = "Note"},
};

static bool is_same(const char *a, const char *b) {
    return a == b || (a && b && strcmp(a, b) == 0);
}

/* How many uses from `first` on are the same said again: the vanes of one elbow. */
static size_t uses_alike(const struct part *part, size_t first) {
    const struct part_use *use = &part->uses.at[first];
    size_t next = first + 1;
    for (; next < part->uses.count; next++) {
        const struct part_use *other = &part->uses.at[next];
        if (other->run != use->run || other->station != use->station || other->piece != use->piece ||
            other->about != use->about || !is_same(other->note, use->note))
            break;
    }
    return next - first;
}

static void place_row(struct document *document, struct table **table, const struct part *part,
                      const struct part_use *use, size_t count) {
    union cell *cells = document_row(document, table);
    cells[PLACE_PART].figure = (double)part->number;
    cells[PLACE_COUNT].figure = (double)count;
    cells[PLACE_RUN].text = use->run->name;
    cells[PLACE_ROOM].text = use->run->room ? use->run->room : use->run->title;
    cells[PLACE_STATION].figure = use->station;
    cells[PLACE_PIECE].text = use->piece ? piece_words(use->piece, document->system, document->arena) : NULL;
    cells[PLACE_NOTE].text = use->about ? "measure first" : NULL;
    if (use->note)
        cells[PLACE_NOTE].text = joined(document, cells[PLACE_NOTE].text, use->note);
}

static void places(const struct job *job, struct document *document, bool estimates_only) {
    struct table *table = document_table(document, place_columns, PLACE_COLUMNS);
    for (size_t i = 0; i < job->metal->parts.count; i++) {
        const struct part *part = job->metal->parts.at[i];
        for (size_t k = 0, count; k < part->uses.count; k += count) {
            count = uses_alike(part, k);
            if (part->uses.at[k].about || !estimates_only)
                place_row(document, &table, part, &part->uses.at[k], count);
        }
    }
}

void shop_places(const struct job *job, struct document *document) {
    document_paragraph(document, "A run is counted from the end toward the unit.");
    places(job, document, false);
}

void shop_measure_first(const struct job *job, struct document *document) {
    document_paragraph(document,
                       "These rest on a dimension that the job gives only about. Do not cut them before it has been "
                       "measured at the place and the job has been put right: their sizes may change.");
    places(job, document, true);
}

/* ---- Cut list ---------------------------------------------------------------------------------------------------- */

enum { CUT_BLANK, CUT_WHAT, CUT_COUNT, CUT_WIDTH, CUT_LENGTH, CUT_NOTE, CUT_COLUMNS };

static const struct column cut_columns[CUT_COLUMNS] = {
    [CUT_BLANK] = {.head = "Blank"},
    [CUT_WHAT] = {.head = "What"},
    [CUT_COUNT] = {.head = "How many", .kind = COLUMN_NUMBER},
    [CUT_WIDTH] = {.head = "Width", .kind = COLUMN_FIGURE, .use = SHOW_CUT},
    [CUT_LENGTH] = {.head = "Length", .kind = COLUMN_FIGURE, .use = SHOW_CUT},
    [CUT_NOTE] = {.head = "Note"},
};

static size_t how_many(const struct part *part, const struct blank *blank) {
    return blank->quantity * part->uses.count;
}

static const char *hand_words(struct arena *arena, const struct part *part, const struct blank *blank) {
    size_t opposite = blank->opposite * part->uses.count;
    if (!opposite)
        return NULL;
    if (opposite == how_many(part, blank))
        return "opposite hand";
    return arena_format(arena, "%zu of them of the opposite hand", opposite);
}

static const char *cut_note(struct document *document, const struct part *part, const struct blank *blank) {
    const char *note = hand_words(document->arena, part, blank);
    if (shop_measured_first(part))
        note = joined(document, note, "measure first");
    if (blank->openings.count)
        note = joined(document, note, bid_count(document, blank->openings.count, "opening"));
    if (blank->reliefs.count)
        note = joined(document, note, bid_count(document, blank->reliefs.count, "relief cut"));
    return note;
}

static void cut_row(struct document *document, struct table **table, const struct part *part,
                    const struct blank *blank) {
    union cell *cells = document_row(document, table);
    cells[CUT_BLANK].text = shop_blank_name(document->arena, part, blank);
    cells[CUT_WHAT].text = blank->name;
    cells[CUT_COUNT].figure = (double)how_many(part, blank);
    cells[CUT_WIDTH].figure = blank->height < blank->width ? blank->height : blank->width;
    cells[CUT_LENGTH].figure = blank->height < blank->width ? blank->width : blank->height;
    cells[CUT_NOTE].text = cut_note(document, part, blank);
}

void shop_cuts(const struct job *job, struct document *document) {
    document_paragraph(document, "The rectangle that each blank is cut out of, allowances of seams and joints "
                                 "included; length is the longer way. How many is for the whole job.");
    sheet_kind_list kinds = {0};
    shop_sheets(job, document->keep, &kinds);
    for (size_t k = 0; k < kinds.count; k++) {
        document_heading(document, 3, shop_sheet_words(document->arena, kinds.at[k]));
        struct table *table = document_table(document, cut_columns, CUT_COLUMNS);
        for (size_t i = 0; i < job->metal->parts.count; i++) {
            const struct part *part = job->metal->parts.at[i];
            if (!shop_is_of(part, kinds.at[k]))
                continue;
            for (size_t b = 0; b < part->blanks.count; b++)
                cut_row(document, &table, part, &part->blanks.at[b]);
        }
    }
}

static void csv_head(struct csv *csv, const char *unit, const char *area_unit) {
    static const char *const plain[] = {"part",  "blank",   "what", "how many", "of the opposite hand",
                                        "gauge", "material"};
    for (size_t i = 0; i < sizeof plain / sizeof plain[0]; i++)
        csv_text(csv, plain[i]);
    char head[64];
    snprintf(head, sizeof head, "width (%s)", unit);
    csv_text(csv, head);
    snprintf(head, sizeof head, "length (%s)", unit);
    csv_text(csv, head);
    snprintf(head, sizeof head, "area of one (%s)", area_unit);
    csv_text(csv, head);
    csv_text(csv, "measure first");
    csv_end(csv);
}

static void csv_row(struct csv *csv, const struct job *job, const struct part *part, const struct blank *blank) {
    const struct measure_show *cut = measure_show(job->system, SHOW_CUT), *area = measure_show(job->system, SHOW_AREA);
    double width = blank->height < blank->width ? blank->height : blank->width;
    double length = blank->height < blank->width ? blank->width : blank->height;
    csv_count(csv, part->number);
    csv_text(csv, blank->letter);
    csv_text(csv, blank->name);
    csv_count(csv, how_many(part, blank));
    csv_count(csv, blank->opposite * part->uses.count);
    if (part->gauge)
        csv_count(csv, (size_t)part->gauge);
    else
        csv_text(csv, NULL);
    csv_text(csv, material_name(part->material));
    csv_real(csv, width / cut->factor, cut->decimals);
    csv_real(csv, length / cut->factor, cut->decimals);
    csv_real(csv, blank->cut_area / area->factor, area->decimals + 2);
    csv_text(csv, shop_measured_first(part) ? "yes" : "no");
    csv_end(csv);
}

void shop_cuts_csv(const struct job *job, struct output *out) {
    struct csv csv = {.out = out};
    csv_head(&csv, measure_show(job->system, SHOW_CUT)->unit, measure_show(job->system, SHOW_AREA)->unit);
    for (size_t i = 0; job->metal && i < job->metal->parts.count; i++) {
        const struct part *part = job->metal->parts.at[i];
        for (size_t b = 0; b < part->blanks.count; b++)
            csv_row(&csv, job, part, &part->blanks.at[b]);
    }
}

/* ---- What is bought, weight -------------------------------------------------------------------------------------- */

enum { BOUGHT_WHAT, BOUGHT_COUNT, BOUGHT_LENGTH, BOUGHT_COLUMNS };

static const struct column bought_columns[BOUGHT_COLUMNS] = {
    [BOUGHT_WHAT] = {.head = "What"},
    [BOUGHT_COUNT] = {.head = "How many", .kind = COLUMN_NUMBER},
    [BOUGHT_LENGTH] = {.head = "Length in all", .kind = COLUMN_FIGURE, .use = SHOW_RUN},
};

/* A row for each thickness. */
static void liner_bought(const struct job *job, struct document *document, struct table **table) {
    const struct metal *metal = job->metal;
    for (size_t i = 0; i < metal->parts.count; i++) {
        double thickness = metal->parts.at[i]->lining;
        size_t before = 0;
        while (before < i && fabs(metal->parts.at[before]->lining - thickness) > 1e-6)
            before++;
        if (!(thickness > 0) || before < i)
            continue;
        union cell *cells = document_row(document, table);
        cells[BOUGHT_WHAT].text =
            arena_format(document->arena, "Duct liner, %s thick, for %s, with its pins and adhesive",
                         measure_text(document->arena, document->system, SHOW_SIZE, thickness),
                         measure_text(document->arena, document->system, SHOW_AREA, shop_liner_area(job, thickness)));
    }
}

void shop_bought(const struct job *job, struct document *document) {
    document_paragraph(
        document,
        "Not made in the shop. Where a part must fit one of them, measure the one that was delivered before cutting.");
    struct table *table = document_table(document, bought_columns, BOUGHT_COLUMNS);
    for (size_t i = 0; i < job->metal->bought.count; i++) {
        const struct bought *bought = &job->metal->bought.at[i];
        union cell *cells = document_row(document, &table);
        cells[BOUGHT_WHAT].text = bought->title;
        cells[BOUGHT_COUNT].figure = (double)bought->count;
        if (bought->length > 0)
            cells[BOUGHT_LENGTH].figure = bought->length;
    }
    liner_bought(job, document, &table);
}

enum { WEIGHT_SHEET, WEIGHT_PARTS, WEIGHT_AREA, WEIGHT_WEIGHT, WEIGHT_COLUMNS };

static const struct column weight_columns[WEIGHT_COLUMNS] = {
    [WEIGHT_SHEET] = {.head = "Sheet"},
    [WEIGHT_PARTS] = {.head = "Pieces", .kind = COLUMN_NUMBER},
    [WEIGHT_AREA] = {.head = "Blanks", .kind = COLUMN_FIGURE, .use = SHOW_AREA},
    [WEIGHT_WEIGHT] = {.head = "Finished weight", .kind = COLUMN_FIGURE, .use = SHOW_WEIGHT},
};

static void weight_row(const struct job *job, struct document *document, struct table **table, struct sheet_kind kind) {
    double pieces = 0, area = 0, weight = 0;
    for (size_t i = 0; i < job->metal->parts.count; i++) {
        const struct part *part = job->metal->parts.at[i];
        double count = shop_is_of(part, kind) ? (double)part->uses.count : 0;
        pieces += count;
        area += count * part->area;
        weight += count * part->weight;
    }
    union cell *cells = document_row(document, table);
    cells[WEIGHT_SHEET].text = shop_sheet_words(document->arena, kind);
    cells[WEIGHT_PARTS].figure = pieces;
    cells[WEIGHT_AREA].figure = area;
    cells[WEIGHT_WEIGHT].figure = weight;
}

void shop_weight(const struct job *job, struct document *document) {
    document_paragraph(
        document,
        "Blanks with their allowances, as they are cut, and the weight of what is made of them, openings taken "
        "off. Strips, hangers, sealant and what is bought are not in it.");
    sheet_kind_list kinds = {0};
    shop_sheets(job, document->keep, &kinds);
    struct table *table = document_table(document, weight_columns, WEIGHT_COLUMNS);
    for (size_t k = 0; k < kinds.count; k++)
        weight_row(job, document, &table, kinds.at[k]);
    document_paragraph(document, "In all %s of sheet, %s.", bid_figure(document, SHOW_AREA, job->metal->area),
                       bid_figure(document, SHOW_WEIGHT, job->metal->weight));
}
