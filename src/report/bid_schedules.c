/* The schedules: supply outlets, return inlets, ducts. */
#include "report/bid.h"

#include "model/item_words.h"
#include "model/model.h"

enum { TERMINAL_NAME, TERMINAL_ROOM, TERMINAL_FLOW, TERMINAL_DUCT, TERMINAL_FACE, TERMINAL_COLUMNS };

static const struct column outlet_columns[TERMINAL_COLUMNS] = {
    [TERMINAL_NAME] = {.head = "Outlet"},
    [TERMINAL_ROOM] = {.head = "Room"},
    [TERMINAL_FLOW] = {.head = "Airflow", .kind = COLUMN_FIGURE, .use = SHOW_FLOW},
    [TERMINAL_DUCT] = {.head = "Runout"},
    [TERMINAL_FACE] = {.head = "Register"},
};

static const struct column inlet_columns[TERMINAL_COLUMNS] = {
    [TERMINAL_NAME] = {.head = "Inlet"},
    [TERMINAL_ROOM] = {.head = "Room"},
    [TERMINAL_FLOW] = {.head = "Airflow", .kind = COLUMN_FIGURE, .use = SHOW_FLOW},
    [TERMINAL_DUCT] = {.head = "Duct"},
    [TERMINAL_FACE] = {.head = "Grille or filter"},
};

/* A register is named by the head of its column; a return may end in a grille or a filter. */
static const char *face_text(const struct job *job, struct document *document, const struct piece *face) {
    struct duct_size size = face->kind->face ? face->kind->face(face) : (struct duct_size){0};
    if (face->kind->traits & PIECE_OUTLET && size_known(size))
        return size_text(document->arena, job->system, size);
    return piece_words(face, job->system, document->arena);
}

static void terminal_row(const struct job *job, struct document *document, struct table **table,
                         const struct path *path) {
    const struct run *run = path->end->terminal;
    const struct piece *face = run->face;
    union cell *cells = document_row(document, table);
    cells[TERMINAL_NAME].text = run->name;
    cells[TERMINAL_ROOM].text = run->room;
    cells[TERMINAL_FLOW].figure = path->end->flow;
    cells[TERMINAL_DUCT].text = size_text(document->arena, job->system, path->end->duct->size);
    if (face)
        cells[TERMINAL_FACE].text = face_text(job, document, face);
}

void bid_outlets(const struct job *job, struct document *document) {
    for (size_t i = 0; i < job->units.count; i++) {
        const struct network *network = job->units.at[i]->network;
        if (!network || !network->supply_paths.count)
            continue;
        bid_unit_heading(job, document, network->unit);
        struct table *table = document_table(document, outlet_columns, TERMINAL_COLUMNS);
        for (size_t p = 0; p < network->supply_paths.count; p++)
            terminal_row(job, document, &table, &network->supply_paths.at[p]);
        document_paragraph(document, "%s in all: %s.", bid_count(document, network->supply_paths.count, "outlet"),
                           bid_figure(document, SHOW_FLOW, network->supply_flow));
    }
}

void bid_returns(const struct job *job, struct document *document) {
    for (size_t i = 0; i < job->units.count; i++) {
        const struct network *network = job->units.at[i]->network;
        if (!network || !network->return_paths.count)
            continue;
        bid_unit_heading(job, document, network->unit);
        struct table *table = document_table(document, inlet_columns, TERMINAL_COLUMNS);
        for (size_t p = 0; p < network->return_paths.count; p++)
            terminal_row(job, document, &table, &network->return_paths.at[p]);
        document_paragraph(document, "%s in all: %s.", bid_count(document, network->return_paths.count, "inlet"),
                           bid_figure(document, SHOW_FLOW, network->return_flow));
    }
    bid_caution(document, CAUTION_RETURN);
}

/* ---- Ducts ----------------------------------------------------------------------------------------------------- */

enum {
    DUCT_RUN,
    DUCT_FROM,
    DUCT_TO,
    DUCT_FLOW,
    DUCT_SIZE,
    DUCT_LENGTH,
    DUCT_VELOCITY,
    DUCT_RATE,
    DUCT_EQUIVALENT,
    DUCT_ASPECT,
    DUCT_REASON,
    DUCT_COLUMNS
};

static const struct column duct_columns[DUCT_COLUMNS] = {
    [DUCT_RUN] = {.head = "Run"},
    [DUCT_FROM] = {.head = "From"},
    [DUCT_TO] = {.head = "To"},
    [DUCT_FLOW] = {.head = "Airflow", .kind = COLUMN_FIGURE, .use = SHOW_FLOW},
    [DUCT_SIZE] = {.head = "Size"},
    [DUCT_LENGTH] = {.head = "Length", .kind = COLUMN_FIGURE, .use = SHOW_RUN},
    [DUCT_VELOCITY] = {.head = "Velocity", .kind = COLUMN_FIGURE, .use = SHOW_VELOCITY},
    [DUCT_RATE] = {.head = "Friction", .kind = COLUMN_FIGURE, .use = SHOW_FRICTION, .bare = true},
    [DUCT_EQUIVALENT] = {.head = "Equiv. dia.", .kind = COLUMN_FIGURE, .use = SHOW_SIZE, .decimals = -1},
    [DUCT_ASPECT] = {.head = "Aspect", .kind = COLUMN_NUMBER, .decimals = 1},
    [DUCT_REASON] = {.head = "Size set by"},
};

/* What a run ends in. */
static const char *run_end(struct document *document, const struct run *run) {
    if (run->role != RUN_DUCT)
        return bid_room(run);
    if (run->end)
        return run->end->name;
    const char *legs = NULL;
    for (size_t i = 0; i < LEG_COUNT; i++)
        if (run->legs[i])
            legs = legs ? arena_format(document->arena, "%s, %s", legs, run->legs[i]->name) : run->legs[i]->name;
    if (legs)
        return legs;
    return run->taps.count ? arena_format(document->arena, "its last tap, %s", run->taps.at[run->taps.count - 1]->name)
                           : NULL;
}

/* `section` is the first of the duct, where it carries the most air. */
static void duct_row(const struct job *job, struct document *document, struct table **table,
                     const struct section *section, bool last_of_run) {
    const struct duct *duct = section->duct;
    union cell *cells = document_row(document, table);
    bool first_of_run = duct == duct->run->first_duct;
    cells[DUCT_RUN].text = duct->run->name;
    cells[DUCT_FROM].text =
        first_of_run ? port_text(&duct->run->from, job->system, document->arena) : "the size before";
    cells[DUCT_TO].text = last_of_run ? run_end(document, duct->run) : "the next size";
    cells[DUCT_FLOW].figure = duct->flow;
    cells[DUCT_SIZE].text = size_text(document->arena, job->system, duct->size);
    cells[DUCT_LENGTH].figure = duct->length;
    cells[DUCT_VELOCITY].figure = section->velocity;
    cells[DUCT_RATE].figure = section->friction_rate;
    cells[DUCT_EQUIVALENT].figure = duct->equivalent_diameter;
    if (duct->size.shape != SHAPE_ROUND)
        cells[DUCT_ASPECT].figure = duct->aspect;
    cells[DUCT_REASON].text = size_reason_words(duct->reason);
}

/* The first section of each duct, by the duct's id. */
static const struct section **first_sections(struct document *document, const struct network *network) {
    const struct section **first = ARENA_ARRAY(document->keep, const struct section *, network->ducts.count + 1);
    for (size_t i = 0; i < network->sections.count; i++) {
        const struct section *section = network->sections.at[i];
        if (!first[section->duct->id])
            first[section->duct->id] = section;
    }
    return first;
}

static void unit_ducts(const struct job *job, struct document *document, const struct network *network) {
    const struct section **first = first_sections(document, network);
    struct table *table = document_table(document, duct_columns, DUCT_COLUMNS);
    for (size_t i = 0; i < network->ducts.count; i++) {
        const struct duct *duct = network->ducts.at[i];
        const struct section *last = duct->run->last_section;
        if (first[i])
            duct_row(job, document, &table, first[i], !last || last->duct == duct);
    }
}

void bid_ducts(const struct job *job, struct document *document) {
    for (size_t i = 0; i < job->units.count; i++) {
        const struct network *network = job->units.at[i]->network;
        if (!network || !network->ducts.count)
            continue;
        bid_unit_heading(job, document, network->unit);
        unit_ducts(job, document, network);
    }
    document_paragraph(document,
                       "Sizes are inside dimensions, width x height. Airflow, velocity and friction (%s) are those at "
                       "the start of each size, where it carries the most air. The equivalent diameter is that of the "
                       "round duct with the same friction at the same airflow; aspect is the long side over the short.",
                       measure_show(document->system, SHOW_FRICTION)->unit);
    bid_caution(document, CAUTION_STRUCTURE);
    bid_caution(document, CAUTION_FIRE);
}
