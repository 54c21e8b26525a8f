/* What hangs where, run by run; and the rules of the trade that a table cannot show. */
#include <math.h>

#include "cost/takeoff.h"
#include "model/item_words.h"
#include "report/bid.h"
#include "report/field.h"
#include "report/office.h"

/* ---- The hangers of each run ------------------------------------------------------------------------------------- */

enum { HANGER_RUN, HANGER_DUCT, HANGER_COUNT, HANGER_WHAT, HANGER_CUT, HANGER_AT, HANGER_COLUMNS };

static const struct column hanger_columns[HANGER_COLUMNS] = {
    [HANGER_RUN] = {.head = "Run"},
    [HANGER_DUCT] = {.head = "Duct"},
    [HANGER_COUNT] = {.head = "How many", .kind = COLUMN_NUMBER},
    [HANGER_WHAT] = {.head = "Each of"},
    [HANGER_CUT] = {.head = "Strap for one", .kind = COLUMN_FIGURE, .use = SHOW_RUN},
    [HANGER_AT] = {.head = "At, from the run's start"},
};

const char *hanger_words(struct arena *arena, enum measure_system system, const struct hanger *hanger) {
    static const char *const words[] = {[HANGER_STRAPS] = "two straps",
                                        [HANGER_BAND] = "a band",
                                        [HANGER_SADDLE] = "a saddle of webbing",
                                        [HANGER_RISER] = "a pair of angles on a floor or a frame"};
    if (!(hanger->strap > 0))
        return words[hanger->kind];
    const char *text = arena_format(arena, "%s, %s wide", words[hanger->kind],
                                    measure_text(arena, system, SHOW_LINE, hanger->strap_width));
    return hanger->strap_gauge ? arena_format(arena, "%s, %d ga", text, hanger->strap_gauge) : text;
}

static bool is_alike(const struct hanger *a, const struct hanger *b) {
    return a->run == b->run && a->kind == b->kind && a->size.shape == b->size.shape && a->size.width == b->size.width &&
           a->size.height == b->size.height && a->strap_width == b->strap_width && a->strap_gauge == b->strap_gauge;
}

/* Those that are alike and follow each other stand in one row; it gives the first that does not. */
static size_t hanger_row(const struct takeoff *takeoff, struct document *document, struct table **table, size_t first) {
    const struct hanger *hanger = &takeoff->hangers.at[first];
    const char *at = NULL;
    size_t next = first;
    for (; next < takeoff->hangers.count && is_alike(hanger, &takeoff->hangers.at[next]); next++) {
        const char *station = bid_figure(document, SHOW_RUN, takeoff->hangers.at[next].station);
        at = at ? arena_format(document->arena, "%s; %s", at, station) : station;
    }
    union cell *cells = document_row(document, table);
    cells[HANGER_RUN].text = hanger->run->name;
    cells[HANGER_DUCT].text = size_text(document->arena, document->system, hanger->size);
    cells[HANGER_COUNT].figure = (double)(next - first);
    cells[HANGER_WHAT].text = hanger_words(document->arena, document->system, hanger);
    if (hanger->strap > 0)
        cells[HANGER_CUT].figure = hanger->strap;
    cells[HANGER_AT].text = at;
    return next;
}

void field_hangers(const struct job *job, struct document *document) {
    const struct takeoff *takeoff = job->takeoff;
    if (takeoff && takeoff->hangers.count) {
        document_paragraph(document, "As the take-off counts them and the shop sends them, from the start of each run. "
                                     "Where a joist or a beam is elsewhere a hanger moves, never farther from its "
                                     "neighbour than the rules below.");
        struct table *table = document_table(document, hanger_columns, HANGER_COLUMNS);
        for (size_t i = 0; i < takeoff->hangers.count;)
            i = hanger_row(takeoff, document, &table, i);
    }
    const struct hanging_rules rules = hanging_rules_of(job);
    document_bullet(document,
                    "Level metal duct: hangers at most %s apart, %s where a side is %s or more; one within %s of each "
                    "elbow and %s of each branch; no strap nearer than %s to the opening of a tap that it would pass.",
                    bid_figure(document, SHOW_RUN, rules.spacing),
                    bid_figure(document, SHOW_RUN, fmin(rules.spacing, rules.wide_spacing)),
                    bid_figure(document, SHOW_SIZE, rules.wide_side), bid_figure(document, SHOW_RUN, rules.near_turn),
                    bid_figure(document, SHOW_RUN, rules.near_branch), bid_figure(document, SHOW_CUT, rules.clear));
    document_bullet(document,
                    "Upright metal duct: a support at each floor, at most %s apart, under angles that are screwed to "
                    "two of its sides; it hangs from nothing. Up to %s of it is borne by what it is joined to.",
                    bid_figure(document, SHOW_RUN, rules.riser), bid_figure(document, SHOW_RUN, rules.riser_borne));
    document_bullet(document,
                    "Flexible duct: supports at most %s apart, with no more sag than %s between two; pulled tight, no "
                    "bend sharper than one diameter, and straight for one diameter before a bend.",
                    bid_figure(document, SHOW_RUN, rules.flexible), bid_figure(document, SHOW_CUT, rules.flexible_sag));
    document_paragraph(document,
                       "The local code may ask for more. What a hanger is fastened to must carry four times its "
                       "load; nothing hangs from pipes, wiring, ceilings or other duct.");
    bid_caution(document, CAUTION_HEIGHT);
}

/* ---- What is used up --------------------------------------------------------------------------------------------- */

enum { USED_WHAT, USED_AMOUNT, USED_COLUMNS };

static const struct column used_columns[USED_COLUMNS] = {
    [USED_WHAT] = {.head = "For the whole job"},
    [USED_AMOUNT] = {.head = "How much, with what is lost", .kind = COLUMN_AMOUNT},
};

static bool is_used_up(const struct bill_line *line) {
    enum bill_group group = line->item->group;
    return group == BILL_HANGING || group == BILL_FASTENING || group == BILL_SEALING || group == BILL_INSULATION;
}

void field_used_up(const struct job *job, struct document *document) {
    struct table *table = NULL;
    for (size_t i = 0; job->takeoff && i < job->takeoff->lines.count; i++) {
        const struct bill_line *line = &job->takeoff->lines.at[i];
        if (!is_used_up(line))
            continue;
        if (!table)
            table = document_table(document, used_columns, USED_COLUMNS);
        union cell *cells = table_row(table);
        cells[USED_WHAT].text = line->title;
        cells[USED_AMOUNT].text = office_quantity(document->arena, document->system, line->item->measure, line->wanted);
    }
}
