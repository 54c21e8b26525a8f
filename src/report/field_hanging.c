/* What is hung, in which order and by what, and how it is sealed and covered. */
#include <stdlib.h>
#include <string.h>

#include "metal/metal.h"
#include "model/built_for.h"
#include "model/item_words.h"
#include "model/model.h"
#include "model/words.h"
#include "report/bid.h"
#include "report/field.h"

/* ---- Hanging order ----------------------------------------------------------------------------------------------- */

enum { HANG_NUMBER, HANG_COUNT, HANG_PART, HANG_WHAT, HANG_RUN, HANG_STATION, HANG_NOTE, HANG_COLUMNS };

static const struct column hang_columns[HANG_COLUMNS] = {
    [HANG_NUMBER] = {.head = "Order", .kind = COLUMN_NUMBER},
    [HANG_COUNT] = {.head = "How many", .kind = COLUMN_NUMBER},
    [HANG_PART] = {.head = "Part", .kind = COLUMN_NUMBER},
    [HANG_WHAT] = {.head = "What"},
    [HANG_RUN] = {.head = "Run"},
    [HANG_STATION] = {.head = "From the run's start", .kind = COLUMN_FIGURE, .use = SHOW_RUN},
    [HANG_NOTE] = {.head = "Note"},
};

/* Whether the next is one more of the same at the same place: the vanes of one elbow. */
static bool goes_with(const struct hung_part *a, const struct hung_part *b) {
    return a->part == b->part && a->use->run == b->use->run && a->use->station == b->use->station &&
           a->use->piece == b->use->piece && a->use->about == b->use->about &&
           (a->use->note == b->use->note || (a->use->note && b->use->note && strcmp(a->use->note, b->use->note) == 0));
}

/* Adds a clause to a note; either may be NULL. */
static const char *noted(struct document *document, const char *note, const char *more) {
    return note && more ? arena_format(document->arena, "%s; %s", note, more) : more ? more : note;
}

/* Of a tap where in its trunk it is cut. */
static const char *hang_note(struct document *document, const struct part_use *use) {
    const char *note = use->about ? "measure first" : NULL;
    if (use->piece->kind->traits & PIECE_TAP)
        note = noted(
            document, note,
            arena_format(document->arena, "into %s", port_text(&use->run->from, document->system, document->arena)));
    return noted(document, note, use->note);
}

void field_order(const struct job *job, struct document *document) {
    document_paragraph(document, "From the unit outward, each trunk before what hangs from it. The number of a part is "
                                 "written on its metal.");
    bid_caution(document, CAUTION_STRUCTURE);
    const struct hung_part *hung = job->metal->hung;
    struct table *table = document_table(document, hang_columns, HANG_COLUMNS);
    for (size_t i = 0, next; i < job->metal->pieces; i = next) {
        next = i + 1;
        while (next < job->metal->pieces && goes_with(&hung[i], &hung[next]))
            next++;
        union cell *cells = document_row(document, &table);
        cells[HANG_NUMBER].figure = (double)i + 1;
        cells[HANG_COUNT].figure = (double)(next - i);
        cells[HANG_PART].figure = (double)hung[i].part->number;
        cells[HANG_WHAT].text = hung[i].part->title;
        cells[HANG_RUN].text = hung[i].use->run->name;
        cells[HANG_STATION].figure = hung[i].use->station;
        cells[HANG_NOTE].text = hang_note(document, hung[i].use);
    }
}

/* ---- Bought ------------------------------------------------------------------------------------------------------ */

enum { BOUGHT_RUN, BOUGHT_ROOM, BOUGHT_WHAT, BOUGHT_STATION, BOUGHT_LENGTH, BOUGHT_COLUMNS };

static const struct column bought_columns[BOUGHT_COLUMNS] = {
    [BOUGHT_RUN] = {.head = "Run"},
    [BOUGHT_ROOM] = {.head = "Room or title"},
    [BOUGHT_WHAT] = {.head = "What"},
    [BOUGHT_STATION] = {.head = "From the run's start", .kind = COLUMN_FIGURE, .use = SHOW_RUN},
    [BOUGHT_LENGTH] = {.head = "Length", .kind = COLUMN_FIGURE, .use = SHOW_RUN},
};

static void bought_row(struct document *document, struct table **table, const struct bought *bought,
                       const struct piece *piece) {
    union cell *cells = document_row(document, table);
    cells[BOUGHT_WHAT].text = bought->title;
    cells[BOUGHT_RUN].text = piece->run->name;
    cells[BOUGHT_ROOM].text = piece->run->room ? piece->run->room : piece->run->title;
    cells[BOUGHT_STATION].figure = piece->station;
    if (bought->length > 0 && piece->length > 0)
        cells[BOUGHT_LENGTH].figure = piece->length;
}

/* A bought thing at its place. */
struct placed {
    const struct bought *bought;
    const struct piece *piece;
    size_t index; /* in the list of what is bought, to keep its order where the place is the same */
};

/* Run by run, as the job has them, outward from the unit. */
static int by_place(const void *a, const void *b) {
    const struct placed *one = a, *other = b;
    if (one->piece->run->id != other->piece->run->id)
        return one->piece->run->id < other->piece->run->id ? -1 : 1;
    if (one->piece->station != other->piece->station)
        return one->piece->station < other->piece->station ? -1 : 1;
    return (one->index > other->index) - (one->index < other->index);
}

static struct placed *in_places(const struct job *job, struct arena *arena, size_t *count) {
    *count = 0;
    for (size_t i = 0; i < job->metal->bought.count; i++)
        *count += job->metal->bought.at[i].pieces.count;
    struct placed *all = ARENA_ARRAY(arena, struct placed, *count + 1);
    size_t next = 0;
    for (size_t i = 0; i < job->metal->bought.count; i++) {
        const struct bought *bought = &job->metal->bought.at[i];
        for (size_t p = 0; p < bought->pieces.count; p++, next++)
            all[next] = (struct placed){.bought = bought, .piece = bought->pieces.at[p], .index = next};
    }
    qsort(all, *count, sizeof *all, by_place);
    return all;
}

void field_bought(const struct job *job, struct document *document) {
    size_t count;
    const struct placed *all = in_places(job, document->keep, &count);
    struct table *table = count ? document_table(document, bought_columns, BOUGHT_COLUMNS) : NULL;
    for (size_t i = 0; i < count; i++)
        bought_row(document, &table, all[i].bought, all[i].piece);
    field_used_up(job, document);
}

/* ---- Sealing and insulation -------------------------------------------------------------------------------------- */

enum {
    COVER_RUN,
    COVER_ROOM,
    COVER_WHERE,
    COVER_SEAL,
    COVER_PRESSURE,
    COVER_SAID,
    COVER_WRAP,
    COVER_LINING,
    COVER_COLUMNS
};

static const struct column cover_columns[COVER_COLUMNS] = {
    [COVER_RUN] = {.head = "Run"},
    [COVER_ROOM] = {.head = "Room or title"},
    [COVER_WHERE] = {.head = "Where"},
    [COVER_SEAL] = {.head = "Seal class"},
    [COVER_PRESSURE] = {.head = "Built for", .kind = COLUMN_FIGURE, .use = SHOW_PRESSURE, .decimals = -1},
    [COVER_SAID] = {.head = "As"},
    [COVER_WRAP] = {.head = "Insulation"},
    [COVER_LINING] = {.head = "Lining", .kind = COLUMN_FIGURE, .use = SHOW_CUT},
};

static void cover_row(struct document *document, struct table **table, const struct run *run) {
    const struct settings *settings = &run->settings;
    union cell *cells = document_row(document, table);
    cells[COVER_RUN].text = run->name;
    cells[COVER_ROOM].text = run->room ? run->room : run->title;
    cells[COVER_WHERE].text = settings->location_set ? location_name(settings->location) : NULL;
    cells[COVER_SEAL].text = settings->seal_set && settings->seal != SEAL_NONE ? seal_name(settings->seal) : NULL;
    cells[COVER_PRESSURE].figure = run_built_for(run);
    cells[COVER_SAID].text = run_built_for_said(run) ? "said" : "assumed";
    if (settings->insulation > 0)
        cells[COVER_WRAP].text = bid_r_value(document, settings->insulation);
    if (settings->lining > 0)
        cells[COVER_LINING].figure = settings->lining;
}

void field_covering(const struct job *job, struct document *document) {
    document_paragraph(
        document,
        "Seal class A: every joint, every seam and whatever goes through the wall of the duct; B: joints and "
        "seams; C: joints across the duct. Sealant goes on clean, dry metal, and is looked at before "
        "anything covers it. The jacket of the insulation is closed all round, at hangers, taps and boots "
        "too, or water condenses under it. Built for: the static pressure that the job says (pressure-class); "
        "where it says none, that is assumed to be the highest that the points of the unit's blower show.");
    struct table *table = document_table(document, cover_columns, COVER_COLUMNS);
    for (size_t i = 0; i < job->runs.count; i++)
        cover_row(document, &table, job->runs.at[i]);
}
