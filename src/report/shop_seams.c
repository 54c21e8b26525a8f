/* What holds the parts: seams along them, joints between them; and what the figures rest on. */
#include "report/shop.h"

#include <assert.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "metal/nest.h"
#include "model/piece.h"
#include "model/words.h"
#include "report/basis.h"
#include "report/bid.h"

/* ---- Seams ------------------------------------------------------------------------------------------------------- */

/* "1, 3 to 5": numbers in rising order, one at a time.  There may be very many. */
struct number_text {
    struct arena *arena;
    LIST(char) text;
    size_t first, last; /* of the span not yet written; 0: none */
};

static void add_text(struct number_text *numbers, const char *text) {
    for (; *text; text++)
        *list_add(numbers->arena, &numbers->text) = *text;
}

static void add_figure(struct number_text *numbers, const char *before, size_t number) {
    char figure[24];
    snprintf(figure, sizeof figure, "%zu", number);
    add_text(numbers, before);
    add_text(numbers, figure);
}

static void end_span(struct number_text *numbers) {
    if (!numbers->last)
        return;
    add_figure(numbers, numbers->text.count ? ", " : "", numbers->first);
    if (numbers->last > numbers->first)
        add_figure(numbers, numbers->last == numbers->first + 1 ? ", " : " to ", numbers->last);
    numbers->first = numbers->last = 0;
}

static void add_number(struct number_text *numbers, size_t number) {
    if (numbers->last && number == numbers->last + 1) {
        numbers->last = number;
        return;
    }
    end_span(numbers);
    numbers->first = numbers->last = number;
}

/* NULL when there were none. */
static const char *end_numbers(struct number_text *numbers) {
    end_span(numbers);
    if (!numbers->text.count)
        return NULL;
    *list_add(numbers->arena, &numbers->text) = 0;
    return numbers->text.at;
}

enum { SEAM_WHAT, SEAM_POCKET, SEAM_FLANGE, SEAM_PARTS, SEAM_COLUMNS };

static const struct column seam_columns[SEAM_COLUMNS] = {
    [SEAM_WHAT] = {.head = "Seam"},
    [SEAM_POCKET] = {.head = "Pocket", .kind = COLUMN_FIGURE, .use = SHOW_CUT},
    [SEAM_FLANGE] = {.head = "Flange", .kind = COLUMN_FIGURE, .use = SHOW_CUT},
    [SEAM_PARTS] = {.head = "Parts"},
};

static const char *seam_parts(const struct job *job, struct document *document, enum seam_kind kind) {
    struct number_text numbers = {.arena = document->arena};
    for (size_t i = 0; i < job->metal->parts.count; i++) {
        const struct part *part = job->metal->parts.at[i];
        if (part->seamed[kind])
            add_number(&numbers, part->number);
    }
    return end_numbers(&numbers);
}

void shop_seams(const struct job *job, struct document *document) {
    document_paragraph(document, "What each seam takes of the sheet beyond the net line. Which edge takes the pocket "
                                 "and which the flange stands with each blank.");
    struct table *table = document_table(document, seam_columns, SEAM_COLUMNS);
    for (enum seam_kind kind = 0; kind < SEAM_COUNT; kind++) {
        const char *parts = seam_parts(job, document, kind);
        if (!parts)
            continue;
        struct edge_allowance takes = metal_seam(&job->shop, kind);
        union cell *cells = table_row(table);
        cells[SEAM_WHAT].text = metal_seam_rule(kind)->title;
        cells[SEAM_POCKET].figure = takes.pocket;
        cells[SEAM_FLANGE].figure = takes.flange;
        cells[SEAM_PARTS].text = parts;
    }
}

/* ---- Joints in hanging order ------------------------------------------------------------------------------------- */

enum { JOINT_RUN, JOINT_PART, JOINT_NEXT, JOINT_WHAT, JOINT_SIZE, JOINT_SLIPS, JOINT_DRIVES, JOINT_COLUMNS };

static const struct column joint_columns[JOINT_COLUMNS] = {
    [JOINT_RUN] = {.head = "Run"},
    [JOINT_PART] = {.head = "Part", .kind = COLUMN_NUMBER},
    [JOINT_NEXT] = {.head = "Onto"},
    [JOINT_WHAT] = {.head = "Joint"},
    [JOINT_SIZE] = {.head = "Size"},
    [JOINT_SLIPS] = {.head = "On top and bottom"},
    [JOINT_DRIVES] = {.head = "On left and right"},
};

/* What a side of that pair gets: "S slip". */
static const char *strip_on(const struct connection_rule *rule, struct duct_size size, enum side_pair pair) {
    if (size.shape != SHAPE_RECTANGULAR)
        return NULL;
    const struct strip_rule *strip = metal_slip_pair(size) == pair ? rule->slip : rule->other;
    return strip ? strip->title : NULL;
}

static void joint_row(struct document *document, struct table **table, const struct hung_part *hung, const char *to,
                      enum joint_kind joint, struct duct_size size) {
    const struct connection_rule *rule = metal_connection_rule(joint);
    union cell *cells = document_row(document, table);
    cells[JOINT_RUN].text = hung->use->run->name;
    cells[JOINT_PART].figure = (double)hung->part->number;
    cells[JOINT_NEXT].text = to;
    cells[JOINT_WHAT].text = rule->title;
    cells[JOINT_SIZE].text = size_text(document->arena, document->system, size);
    cells[JOINT_SLIPS].text = strip_on(rule, size, PAIR_TOP_BOTTOM);
    cells[JOINT_DRIVES].text = strip_on(rule, size, PAIR_LEFT_RIGHT);
}

/* A piece that something is bought for. */
struct bought_piece {
    const struct piece *piece;
    const char *title;
};

/* By address, only to find them again: the order is not printed.  Titles of one piece by their text. */
static int by_piece(const void *a, const void *b) {
    const struct bought_piece *one = a, *other = b;
    uintptr_t at = (uintptr_t)one->piece, than = (uintptr_t)other->piece;
    if (at != than)
        return (at > than) - (at < than);
    return one->title && other->title ? strcmp(one->title, other->title) : 0;
}

/* What of a run has been hung so far. */
struct hanging {
    const struct job *job;
    struct bought_piece *bought; /* sorted by piece */
    size_t bought_count;
    const struct run *run;
    const struct part *last;   /* the last part that is duct; NULL: none in this run yet */
    const struct piece *piece; /* whose it is */
    size_t next;               /* of the run's pieces: the first that has not been passed */
    const char *between;       /* what is bought and hangs behind `last`; NULL: nothing */
};

static void list_bought(struct hanging *hanging, struct arena *arena) {
    const struct metal *metal = hanging->job->metal;
    size_t count = 0;
    for (size_t i = 0; i < metal->bought.count; i++)
        count += metal->bought.at[i].pieces.count;
    hanging->bought = ARENA_ARRAY(arena, struct bought_piece, count + 1);
    for (size_t i = 0; i < metal->bought.count; i++)
        for (size_t k = 0; k < metal->bought.at[i].pieces.count; k++)
            hanging->bought[hanging->bought_count++] =
                (struct bought_piece){metal->bought.at[i].pieces.at[k], metal->bought.at[i].title};
    qsort(hanging->bought, count, sizeof *hanging->bought, by_piece);
}

/* "flexible duct"; "Fire damper, 14 x 8 in, bought"; NULL: nothing is bought for it. */
static const char *bought_words(const struct hanging *hanging, const struct document *document,
                                const struct piece *piece) {
    struct bought_piece key = {.piece = piece};
    const struct bought_piece *found = bsearch(&key, hanging->bought, hanging->bought_count, sizeof key, by_piece);
    if (!found)
        return NULL;
    if (piece->kind->traits & PIECE_FLEXIBLE)
        return "flexible duct";
    return arena_format(document->keep, "%s, bought", found->title);
}

/* Goes on to the piece that a part is of.  Not among the run's pieces are a tap's hole and what joins the run to what
 * it hangs from: these come before all of them. */
static void go_on_to(struct hanging *hanging, const struct document *document, const struct part_use *use) {
    assert(use->run);
    if (hanging->run != use->run) {
        hanging->run = use->run;
        hanging->last = NULL;
        hanging->piece = NULL;
        hanging->next = 0;
        hanging->between = NULL;
    }
    if (!use->piece || use->piece == use->run->connect || use->piece == hanging->piece)
        return;
    while (hanging->next < use->run->pieces.count) {
        const struct piece *passed = use->run->pieces.at[hanging->next++];
        if (passed == use->piece)
            return;
        const char *words = bought_words(hanging, document, passed);
        if (words)
            hanging->between = words;
    }
}

/* A joint belongs to the part behind it: at that part's near end.  What lies before it is what is bought and hangs
 * there, or the part hung before it in the same run; at the run's start, what the run hangs from. */
static const char *before(const struct document *document, const struct hanging *hanging) {
    const struct run *run = hanging->run;
    assert(run); /* a use has been come to */
    if (hanging->between)
        return hanging->between;
    if (hanging->last)
        return arena_format(document->arena, "part %zu", hanging->last->number);
    switch (run->from.kind) {
    case PORT_UNIT:
        return arena_format(document->arena, "the collar of %s", run->from.name);
    case PORT_TAP:
        return arena_format(document->arena, "%s at %s", run->from.name,
                            measure_text(document->arena, document->system, SHOW_RUN, run->from.station));
    case PORT_LEG:
        return arena_format(document->arena, "the %s leg of %s", leg_name(run->from.leg), run->from.name);
    default:
        return arena_format(document->arena, "the end of %s", run->from.name);
    }
}

/* A damper's blade stands in a duct and is none: it has no port. */
void shop_joints(const struct job *job, struct document *document) {
    document_paragraph(
        document, "Each part and what lies before it, toward the unit: another part of this packet, what is bought and "
                  "hangs there, or what the run hangs from.");
    struct hanging hanging = {.job = job};
    list_bought(&hanging, document->keep);
    const struct hung_part *all = job->metal->hung;
    struct table *table = document_table(document, joint_columns, JOINT_COLUMNS);
    for (size_t i = 0; i < job->metal->pieces; i++) {
        const struct part *part = all[i].part;
        if (part_is_within(part))
            continue;
        go_on_to(&hanging, document, all[i].use);
        if (part->joined[0])
            joint_row(document, &table, &all[i], before(document, &hanging), part->joints[0],
                      part->solid->ports.at[0].size);
        hanging.last = part;
        hanging.piece = all[i].use->piece;
        hanging.between = NULL;
    }
}

/* ---- Basis ------------------------------------------------------------------------------------------------------- */

void shop_basis(const struct job *job, struct document *document) {
    document_paragraph(
        document,
        "Each fitting is a solid, of flat panels and of cylinders and cones that are rolled; a blank is that "
        "surface laid flat by exact laws, with what its seams and joints take. Lengths to cut are shown to %s "
        "and computed unrounded; all marks are counted from one edge, so that rounding does not add up.",
        document->system == MEASURE_METRIC ? "the half millimetre" : "the sixteenth of an inch");
    document_paragraph(document, "%s",
                       job->shop.bend_deduction > 0
                           ? arena_format(document->arena, "Each bend of 90 degrees takes %s off, as the shop says.",
                                          shop_length(document, job->shop.bend_deduction))
                           : "No allowance is made for the thickness of the sheet at bends: the shop declares none.");
    basis_list(job, BASIS_METAL, document);
}
