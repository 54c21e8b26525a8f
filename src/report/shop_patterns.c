/* The marks of straight joints, and a pattern sheet for each part. */
#include "report/shop.h"

#include <math.h>
#include <string.h>

#include "base/constant.h"
#include "metal/stock.h"
#include "model/item_words.h"
#include "model/words.h"
#include "report/bid.h"
#include "report/drawings.h"
#include "report/figures.h"

/* ---- Marks along one edge ---------------------------------------------------------------------------------------- */

/* How far the sheet reaches the way that its marks are counted. */
static double across(const struct blank *blank) {
    return blank->marks_upward ? blank->height : blank->width;
}

static double along(const struct blank *blank) {
    return blank->marks_upward ? blank->width : blank->height;
}

static bool from_pocket(const struct blank *blank) {
    for (size_t i = 0; i < blank->edges.count; i++)
        if (blank->edges.at[i].kind == ALLOW_POCKET)
            return true;
    return false;
}

/* "90 up". */
static const char *bend_words(const struct document *document, double angle) {
    double degrees = round(fabs(angle) / DEGREE * 10) / 10;
    return arena_format(document->arena, "%.4g %s", degrees, angle < 0 ? "down" : "up");
}

/* Without unit. */
static const char *figure_of(const struct document *document, double si) {
    return measure_figure(document->arena, document->system, SHOW_CUT, si);
}

static const char *unit_words(const struct document *document) {
    return document->system == MEASURE_METRIC ? "millimetres" : "inches";
}

/* Sheets in each: "3 x 8 + 2"; "2 + 1". */
static const char *stack_words(const struct document *document, size_t sheets, size_t depth) {
    size_t whole = depth ? sheets / depth : 0, rest = depth ? sheets % depth : sheets;
    if (!whole)
        return arena_format(document->arena, "%zu", rest);
    const char *full = whole > 1 ? arena_format(document->arena, "%zu x %zu", whole, depth)
                                 : arena_format(document->arena, "%zu", depth);
    return rest ? arena_format(document->arena, "%s + %zu", full, rest) : full;
}

enum { MARK_BLANK, MARK_COUNT, MARK_STACKS, MARK_WIDTH, MARK_LENGTH, MARK_AT, MARK_TURNED, MARK_COLUMNS };

static const struct column mark_columns[MARK_COLUMNS] = {
    [MARK_BLANK] = {.head = "Blank"},
    [MARK_COUNT] = {.head = "Sheets", .kind = COLUMN_NUMBER},
    [MARK_STACKS] = {.head = "Sheets in each stack"},
    [MARK_WIDTH] = {.head = "Across", .kind = COLUMN_FIGURE, .use = SHOW_CUT},
    [MARK_LENGTH] = {.head = "Along", .kind = COLUMN_FIGURE, .use = SHOW_CUT},
    [MARK_AT] = {.head = "Marks from the first edge"},
    [MARK_TURNED] = {.head = "Turned end for end"},
};

/* "1, 15, 23": in rising order either way. */
static const char *marks_text(const struct document *document, const struct blank *blank, bool turned) {
    const char *text = "";
    for (size_t i = 0; i < blank->marks.count; i++) {
        const struct blank_mark *mark = &blank->marks.at[turned ? blank->marks.count - 1 - i : i];
        double at = turned ? across(blank) - mark->at : mark->at;
        text = arena_format(document->arena, "%s%s%s%s", text, *text ? ", " : "", figure_of(document, at),
                            mark->kind == LINE_SEAM ? " s" : "");
    }
    return text;
}

static void mark_row(struct document *document, struct table **table, const struct part *part,
                     const struct blank *blank) {
    size_t sheets = blank->quantity * part->uses.count;
    union cell *cells = document_row(document, table);
    cells[MARK_BLANK].text = shop_blank_name(document->arena, part, blank);
    cells[MARK_COUNT].figure = (double)sheets;
    cells[MARK_STACKS].text = stack_words(document, sheets, part->stack);
    cells[MARK_WIDTH].figure = across(blank);
    cells[MARK_LENGTH].figure = along(blank);
    cells[MARK_AT].text = marks_text(document, blank, false);
    cells[MARK_TURNED].text = marks_text(document, blank, true);
}

void shop_marks(const struct job *job, struct document *document) {
    document_paragraph(
        document,
        "All marks of a sheet are counted from one edge, the pocket's where it has one, and not from each other: mark "
        "a stick once and it serves the whole stack, at both ends of the sheet. A mark with s is where the allowance "
        "of a seam begins; the others are bends, all 90 degrees up. Whoever stands at the other end of the sheet turns "
        "the stick end for end, or takes the last column, which is counted from the edge across. Marks are in %s.",
        unit_words(document));
    struct table *table = document_table(document, mark_columns, MARK_COLUMNS);
    for (size_t i = 0; i < job->metal->parts.count; i++) {
        const struct part *part = job->metal->parts.at[i];
        for (size_t b = 0; part->finished_length > 0 && b < part->blanks.count; b++)
            if (part->blanks.at[b].marks.count)
                mark_row(document, &table, part, &part->blanks.at[b]);
    }
}

/* ---- The sheet of one blank -------------------------------------------------------------------------------------- */

enum { LINE_WHAT, LINE_BENDS, LINE_FROM, LINE_TO, LINE_COLUMNS };

static const struct column line_columns[LINE_COLUMNS] = {
    [LINE_WHAT] = {.head = "Bend toward"},
    [LINE_BENDS] = {.head = "Degrees"},
    [LINE_FROM] = {.head = "From: across, up"},
    [LINE_TO] = {.head = "To: across, up"},
};

static const char *point_text(const struct document *document, struct flat at) {
    return arena_format(document->arena, "%s, %s", figure_of(document, at.x), figure_of(document, at.y));
}

/* Each bend for itself, by its two ends. */
static void bend_table(struct document *document, const struct blank *blank) {
    struct table *table = document_table(document, line_columns, LINE_COLUMNS);
    for (size_t i = 0; i < blank->bends.count; i++) {
        const struct blank_bend *bend = &blank->bends.at[i];
        union cell *cells = document_row(document, &table);
        cells[LINE_WHAT].text = bend->name;
        cells[LINE_BENDS].text = bend_words(document, bend->angle);
        cells[LINE_FROM].text = point_text(document, bend->from);
        cells[LINE_TO].text = point_text(document, bend->to);
    }
}

enum { STICK_WHAT, STICK_AT, STICK_TURNED, STICK_COLUMNS };

static const struct column stick_columns[STICK_COLUMNS] = {
    [STICK_WHAT] = {.head = "Mark"},
    [STICK_AT] = {.head = "From the first edge", .kind = COLUMN_FIGURE, .use = SHOW_CUT},
    [STICK_TURNED] = {.head = "Turned end for end", .kind = COLUMN_FIGURE, .use = SHOW_CUT},
};

static void stick_table(struct document *document, const struct blank *blank) {
    struct table *table = document_table(document, stick_columns, STICK_COLUMNS);
    for (size_t i = 0; i < blank->marks.count; i++) {
        const struct blank_mark *mark = &blank->marks.at[i];
        union cell *cells = document_row(document, &table);
        cells[STICK_WHAT].text = mark->kind == LINE_SEAM
                                     ? "seam"
                                     : arena_format(document->arena, "bend %s", bend_words(document, mark->angle));
        cells[STICK_AT].figure = mark->at;
        cells[STICK_TURNED].figure = across(blank) - mark->at;
    }
}

/* The letter of the blank that a panel is part of; NULL: of one alike that is cut from the same pattern. */
static const struct blank *blank_with(const struct part *part, int panel) {
    for (size_t b = 0; b < part->blanks.count; b++)
        for (size_t i = 0; i < part->blanks.at[b].panels.count; i++)
            if (part->blanks.at[b].panels.at[i].panel == panel)
                return &part->blanks.at[b];
    return NULL;
}

/* "heel of 7B", "the end toward the unit", "nothing". */
static const char *meets(const struct document *document, const struct part *part, const struct blank_edge *edge) {
    const struct solid *solid = part->solid;
    if (edge->join == JOIN_PORT)
        return solid->ports.at[edge->port].name;
    const struct solid_edge *own = &solid->panels.at[edge->panel].edges.at[edge->edge];
    if (edge->join == JOIN_FREE || own->mate_panel < 0)
        return NULL;
    const struct blank *mate = blank_with(part, own->mate_panel);
    const char *name = solid->panels.at[own->mate_panel].name;
    return mate ? arena_format(document->arena, "%s of %s", name, shop_blank_name(document->arena, part, mate)) : name;
}

enum { EDGE_OF, EDGE_MEETS, EDGE_LENGTH, EDGE_TAKES, EDGE_WHAT, EDGE_TURN, EDGE_NOTCH, EDGE_COLUMNS };

static const struct column edge_columns[EDGE_COLUMNS] = {
    [EDGE_OF] = {.head = "Edge of"},
    [EDGE_MEETS] = {.head = "Meets"},
    [EDGE_LENGTH] = {.head = "Net length", .kind = COLUMN_FIGURE, .use = SHOW_CUT},
    [EDGE_TAKES] = {.head = "Allowance", .kind = COLUMN_FIGURE, .use = SHOW_CUT},
    [EDGE_WHAT] = {.head = "As"},
    [EDGE_TURN] = {.head = "Turned"},
    [EDGE_NOTCH] = {.head = "Cut back at its ends"},
};

/* Of one end: "1/2 square", "1 wide, 1/2 deep", "vee, 1/4 wide, 1/4 deep". */
static const char *notch_words(const struct document *document, const struct blank_edge *edge, double width) {
    const char *wide = figure_of(document, width), *deep = figure_of(document, edge->notch_depth);
    if (!(width > 0))
        return "none";
    if (!edge->notch_vee && strcmp(wide, deep) == 0)
        return arena_format(document->arena, "%s square", wide);
    return arena_format(document->arena, "%s%s wide, %s deep", edge->notch_vee ? "vee, " : "", wide, deep);
}

static const char *cut_back(const struct document *document, const struct blank_edge *edge) {
    if (edge->start_cut <= 0 && edge->end_cut <= 0)
        return NULL;
    const char *start = notch_words(document, edge, edge->start_cut), *end = notch_words(document, edge, edge->end_cut);
    return strcmp(start, end) == 0 ? start : arena_format(document->arena, "%s; and %s", start, end);
}

static const char *const turn_words[] = {[TURN_FLAT] = "flat", [TURN_IN] = "in, up", [TURN_OUT] = "out, down"};

static void edge_table(struct document *document, const struct part *part, const struct blank *blank) {
    struct table *table = document_table(document, edge_columns, EDGE_COLUMNS);
    for (size_t i = 0; i < blank->edges.count; i++) {
        const struct blank_edge *edge = &blank->edges.at[i];
        const struct solid_panel *panel = &part->solid->panels.at[edge->panel];
        union cell *cells = document_row(document, &table);
        cells[EDGE_OF].text = panel->name;
        cells[EDGE_MEETS].text = meets(document, part, edge);
        cells[EDGE_LENGTH].figure = edge_length(&panel->edges.at[edge->edge]);
        if (edge->allowance > 0) {
            cells[EDGE_TAKES].figure = edge->allowance;
            cells[EDGE_TURN].text = turn_words[edge->turn];
        }
        cells[EDGE_WHAT].text = edge->label;
        cells[EDGE_NOTCH].text = cut_back(document, edge);
    }
}

static void relief_list(struct document *document, const struct blank *blank) {
    if (!blank->reliefs.count)
        return;
    document_paragraph(document, "Relief cuts, to be snipped before anything is turned, from the outline in to the net "
                                 "size; across, up from the lower left corner of the sheet:");
    for (size_t i = 0; i < blank->reliefs.count; i++)
        document_bullet(document, "from %s to %s", point_text(document, blank->reliefs.at[i].from),
                        point_text(document, blank->reliefs.at[i].to));
}

static void opening_list(struct document *document, const struct blank *blank) {
    for (size_t i = 0; i < blank->openings.count; i++)
        document_bullet(document, "%s",
                        opening_words(document->arena, document->system, blank, &blank->openings.at[i]));
}

static const char *blank_words(const struct document *document, const struct part *part, const struct blank *blank) {
    const char *name = shop_blank_name(document->arena, part, blank);
    const char *hand = "";
    if (blank->opposite == blank->quantity)
        hand = ", of the opposite hand: turn over before bending";
    else if (blank->opposite)
        hand = arena_format(document->arena, ", %zu of them of the opposite hand: turn over before bending",
                            blank->opposite);
    return arena_format(document->arena, "Blank %s: %s, %zu a piece%s; %s x %s", name, blank->name, blank->quantity,
                        hand, figure_of(document, blank->width), shop_length(document, blank->height));
}

static void blank_sheet(const struct job *job, struct document *document, const struct part *part,
                        const struct blank *blank) {
    const char *words = blank_words(document, part, blank);
    document_heading(document, 4, words);
    if (document->drawings)
        document_drawing(document, figure_pattern(document->arena, job, part, blank),
                         drawing_file(document->arena, part->number, blank->letter), words);
    edge_table(document, part, blank);
    opening_list(document, blank);
    relief_list(document, blank);
    if (blank->marks.count) {
        document_paragraph(document, "Marks, counted from its %s edge%s:", shop_marks_from(blank),
                           from_pocket(blank) ? ", the pocket's" : "");
        stick_table(document, blank);
    } else if (blank->bends.count) {
        document_paragraph(document, "Bends, each by its two ends, counted from the lower left corner of the sheet:");
        bend_table(document, blank);
    }
}

/* ---- The sheet of one part --------------------------------------------------------------------------------------- */

/* More places than this are left to the list. */
enum { PLACES_NAMED = 8 };

static const char *places_text(struct document *document, const struct part *part) {
    const char *text = "";
    for (size_t i = 0; i < part->uses.count && i < PLACES_NAMED; i++)
        text = arena_format(document->arena, "%s%s%s", text, i ? "; " : "", shop_place(document, &part->uses.at[i]));
    if (part->uses.count > PLACES_NAMED)
        text = arena_format(document->arena, "%s; and %zu more, listed above", text, part->uses.count - PLACES_NAMED);
    return text;
}

static const char *joints_text(struct document *document, const struct part *part) {
    const char *near = part->joined[0] ? metal_connection_rule(part->joints[0])->title : NULL;
    const char *far = part->joined[1] ? metal_connection_rule(part->joints[1])->title : NULL;
    if (near && far && part->joints[0] != part->joints[1])
        return arena_format(document->arena, "%s toward the unit, %s away from it", near, far);
    return near ? near : far;
}

/* The kind of most of its seams first; NULL: it has none. */
static const char *seams_text(struct document *document, const struct part *part) {
    const char *text = part->seamed[part->seam] ? metal_seam_rule(part->seam)->title : NULL;
    for (enum seam_kind kind = 0; kind < SEAM_COUNT; kind++)
        if (part->seamed[kind] && kind != part->seam)
            text = arena_format(document->arena, "%s; %s", text, metal_seam_rule(kind)->title);
    return text;
}

static void part_facts(struct document *document, const struct part *part) {
    struct arena *arena = document->arena;
    document_fact(document, "How many", arena_format(arena, "%zu", part->uses.count));
    document_fact(document, "For", places_text(document, part));
    document_fact(document, "Sheet", shop_sheet_words(arena, shop_sheet_of(part)));
    if (part->finished_length > 0)
        document_fact(document, "Finished length", shop_length(document, part->finished_length));
    if (shop_lined_words(arena, document->system, part))
        document_fact(document, "Liner", shop_lined_words(arena, document->system, part));
    if (seams_text(document, part))
        document_fact(document, "Seams", seams_text(document, part));
    if (part->joined[0] || part->joined[1])
        document_fact(document, "Joints", joints_text(document, part));
    document_fact(document, "Sheets in a stack", arena_format(arena, "%zu", part->stack));
    document_fact(document, "Weight of one", bid_figure(document, SHOW_WEIGHT, part->weight));
}

/* To a thousandth: a sixteenth would show nothing. */
static const char *error_text(const struct document *document, double error) {
    const struct measure_show *show = measure_show(document->system, SHOW_SIZE);
    return arena_format(document->arena, "%.3f %s", error / show->factor, show->unit);
}

static void part_notes(struct document *document, const struct part *part) {
    double error = solid_chord_error(part->solid);
    if (shop_measured_first(part))
        document_bullet(document, "Measure at the place before cutting: the job gives a dimension only about.");
    if (part->cross_break)
        document_bullet(document, "Cross-break or bead the flat sides, or they drum.");
    if (part->reinforce)
        document_bullet(document, "Reinforce: its size or pressure class is beyond the gauge table. The reinforcement "
                                  "is not laid out here.");
    if (part->gauge_thin)
        document_bullet(document, "The sheet is thinner than the table asks for, which is %d ga.", part->gauge_needed);
    for (size_t i = 0; i < part->notes.count; i++)
        document_bullet(document, "%s", part->notes.at[i]);
    for (size_t i = 0; i < part->solid->notes.count; i++)
        document_bullet(document, "%s", part->solid->notes.at[i]);
    if (error > 0)
        document_bullet(document, "Curves are drawn by points; between them a straight line is off by %s at most.",
                        error_text(document, error));
}

/* One flat piece of sheet: a view of it shows nothing that its pattern does not. */
static bool is_flat(const struct part *part) {
    return part->solid->panels.count == 1 && part->solid->panels.at[0].kind == PANEL_PLANE;
}

static void part_sheet(const struct job *job, struct document *document, const struct part *part) {
    const char *words = arena_format(document->arena, "Part %zu: %s", part->number, part->title);
    document_heading(document, 3, words);
    part_facts(document, part);
    part_notes(document, part);
    if (document->drawings && !is_flat(part))
        document_drawing(document, figure_sketch(document->arena, job, part),
                         drawing_file(document->arena, part->number, NULL), words);
    for (size_t b = 0; b < part->blanks.count; b++)
        blank_sheet(job, document, part, &part->blanks.at[b]);
}

void shop_patterns(const struct job *job, struct document *document) {
    document_paragraph(document,
                       "Each blank is seen from the inside of the duct, as it lies on the bench: a bend up comes "
                       "toward you, and so does an edge that is turned in; one that is turned out goes down. "
                       "Dimensions in %s. The outline to cut holds all allowances; the thin line inside "
                       "it is the piece without them. The office can print each at full size.",
                       unit_words(document));
    for (size_t i = 0; i < job->metal->parts.count; i++) {
        document_relieve(document);
        part_sheet(job, document, job->metal->parts.at[i]);
    }
}
