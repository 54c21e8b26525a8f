/* The schedules: supply outlets, return inlets, ducts. */
#include "report/bid.h"

#include "model/item_words.h"
#include "model/model.h"

enum { TERMINAL_NAME, TERMINAL_ROOM, TERMINAL_FLOW, TERMINAL_DUCT, TERMINAL_FACE, TERMINAL_LOAD, TERMINAL_COLUMNS };

/* The last column is only there when some outlet's airflow comes from its load. */
static const struct column outlet_columns[TERMINAL_COLUMNS] = {
    [TERMINAL_NAME] = {.head = "Outlet"},
    [TERMINAL_ROOM] = {.head = "Room"},
    [TERMINAL_FLOW] = {.head = "Airflow", .kind = COLUMN_FIGURE, .use = SHOW_FLOW},
    [TERMINAL_DUCT] = {.head = "Runout"},
    [TERMINAL_FACE] = {.head = "Register"},
    [TERMINAL_LOAD] = {.head = "For a load of", .kind = COLUMN_FIGURE, .use = SHOW_HEAT},
};

static const struct column inlet_columns[TERMINAL_LOAD] = {
    [TERMINAL_NAME] = {.head = "Inlet"},
    [TERMINAL_ROOM] = {.head = "Room"},
    [TERMINAL_FLOW] = {.head = "Airflow", .kind = COLUMN_FIGURE, .use = SHOW_FLOW},
    [TERMINAL_DUCT] = {.head = "Duct"},
    [TERMINAL_FACE] = {.head = "Grille, filter"},
};

/* A register is named by the head of its column; a return may end in a grille, a filter, or both. */
static const char *faces_text(const struct job *job, struct document *document, const struct run *run) {
    const char *text = NULL;
    for (size_t i = 0; i < run->pieces.count; i++) {
        const struct piece *face = run->pieces.at[i];
        struct duct_size size = face->kind->face ? face->kind->face(face) : (struct duct_size){0};
        const char *words;
        if (!face->kind->face)
            continue;
        if (face->kind->traits & PIECE_OUTLET && size_known(size))
            words = size_text(document->arena, job->system, size);
        else
            words = piece_words(face, job->system, document->arena);
        text = text ? arena_format(document->arena, "%s; %s", text, words) : words;
    }
    return text;
}

static union cell *terminal_row(const struct job *job, struct document *document, struct table **table,
                                const struct path *path) {
    const struct run *run = path->end->terminal;
    union cell *cells = document_row(document, table);
    cells[TERMINAL_NAME].text = run->name;
    cells[TERMINAL_ROOM].text = bid_room(run);
    cells[TERMINAL_FLOW].figure = path->end->flow;
    cells[TERMINAL_DUCT].text = size_text(document->arena, job->system, path->end->duct->size);
    cells[TERMINAL_FACE].text = faces_text(job, document, run);
    return cells;
}

/* The first outlet whose airflow comes from its load, or NULL.  All of one unit have one temperature difference. */
static const struct run *first_with_load(const struct network *network) {
    for (size_t i = 0; i < network->supply_paths.count; i++)
        if (network->supply_paths.at[i].end->terminal->difference > 0)
            return network->supply_paths.at[i].end->terminal;
    return NULL;
}

/* A difference is not shown from the zero of its scale. */
static const char *difference_text(struct document *document, double kelvin) {
    const struct measure_show *show = measure_show(document->system, SHOW_TEMPERATURE);
    return arena_format(document->arena, "%.4g %s", kelvin / show->factor, show->unit);
}

static void unit_outlets(const struct job *job, struct document *document, const struct network *network) {
    const struct run *load = first_with_load(network);
    struct table *table = document_table(document, outlet_columns, load ? TERMINAL_COLUMNS : TERMINAL_LOAD);
    for (size_t i = 0; i < network->supply_paths.count; i++) {
        union cell *cells = terminal_row(job, document, &table, &network->supply_paths.at[i]);
        if (network->supply_paths.at[i].end->terminal->difference > 0)
            cells[TERMINAL_LOAD].figure = network->supply_paths.at[i].end->terminal->load;
    }
    document_paragraph(document, "%s in all: %s.", bid_count(document, network->supply_paths.count, "outlet"),
                       bid_figure(document, SHOW_FLOW, network->supply_flow));
    if (load)
        document_paragraph(document,
                           "Where a load is given, the airflow is what carries that much sensible heat at a difference "
                           "of %s%s between the supply air and the room.",
                           difference_text(document, load->difference), load->difference_assumed ? " (assumed)" : "");
}

void bid_outlets(const struct job *job, struct document *document) {
    for (size_t i = 0; i < job->units.count; i++) {
        const struct network *network = job->units.at[i]->network;
        if (!network || !network->supply_paths.count)
            continue;
        bid_unit_heading(job, document, network->unit);
        unit_outlets(job, document, network);
    }
}

void bid_returns(const struct job *job, struct document *document) {
    for (size_t i = 0; i < job->units.count; i++) {
        const struct network *network = job->units.at[i]->network;
        if (!network || !network->return_paths.count)
            continue;
        bid_unit_heading(job, document, network->unit);
        struct table *table = document_table(document, inlet_columns, TERMINAL_LOAD);
        for (size_t p = 0; p < network->return_paths.count; p++)
            terminal_row(job, document, &table, &network->return_paths.at[p]);
        document_paragraph(document, "%s in all: %s.", bid_count(document, network->return_paths.count, "inlet"),
                           bid_figure(document, SHOW_FLOW, network->return_flow));
    }
    bid_caution(document, CAUTION_RETURN);
}

/* ---- Ducts ------------------------------------------------------------------------------------------------------- */

enum {
    DUCT_RUN,
    DUCT_TITLE,
    DUCT_FROM,
    DUCT_FLOW,
    DUCT_SIZE,
    DUCT_LENGTH,
    DUCT_VELOCITY,
    DUCT_RATE,
    DUCT_REASON,
    DUCT_COLUMNS
};

static const struct column duct_columns[DUCT_COLUMNS] = {
    [DUCT_RUN] = {.head = "Run"},
    [DUCT_TITLE] = {.head = "Title or room"},
    [DUCT_FROM] = {.head = "From"},
    [DUCT_FLOW] = {.head = "Airflow", .kind = COLUMN_FIGURE, .use = SHOW_FLOW, .bare = true},
    [DUCT_SIZE] = {.head = "Size"},
    [DUCT_LENGTH] = {.head = "Length", .kind = COLUMN_FIGURE, .use = SHOW_RUN, .bare = true},
    [DUCT_VELOCITY] = {.head = "Velocity", .kind = COLUMN_FIGURE, .use = SHOW_VELOCITY, .bare = true},
    [DUCT_RATE] = {.head = "Friction", .kind = COLUMN_FIGURE, .use = SHOW_FRICTION, .bare = true},
    [DUCT_REASON] = {.head = "Size set by"},
};

/* `section` is the first of the duct, where it carries the most air. */
static void duct_row(const struct job *job, struct document *document, struct table **table,
                     const struct section *section) {
    const struct duct *duct = section->duct;
    const struct run *run = duct->run;
    union cell *cells = document_row(document, table);
    cells[DUCT_RUN].text = run->name;
    cells[DUCT_TITLE].text = run->title ? run->title : run->room;
    cells[DUCT_FROM].text =
        duct == run->first_duct ? port_text(&run->from, job->system, document->arena) : "the size before";
    cells[DUCT_FLOW].figure = duct->flow;
    cells[DUCT_SIZE].text = size_text(document->arena, job->system, duct->size);
    if (duct->length > 0)
        cells[DUCT_LENGTH].figure = duct->length;
    cells[DUCT_VELOCITY].figure = section->velocity;
    cells[DUCT_RATE].figure = section->friction_rate;
    cells[DUCT_REASON].text = size_reason_words(duct->reason);
}

enum { FLAT_RUN, FLAT_SIZE, FLAT_EQUIVALENT, FLAT_ASPECT, FLAT_COLUMNS };

static const struct column flat_columns[FLAT_COLUMNS] = {
    [FLAT_RUN] = {.head = "Run"},
    [FLAT_SIZE] = {.head = "Size"},
    [FLAT_EQUIVALENT] = {.head = "Equivalent diameter", .kind = COLUMN_FIGURE, .use = SHOW_SIZE, .decimals = -1},
    [FLAT_ASPECT] = {.head = "Aspect", .kind = COLUMN_NUMBER, .decimals = 1},
};

static void flat_row(const struct job *job, struct document *document, struct table **table, const struct duct *duct) {
    if (!*table) {
        document_paragraph(document, "Rectangular and oval ducts among them:");
        *table = document_table(document, flat_columns, FLAT_COLUMNS);
    }
    union cell *cells = document_row(document, table);
    cells[FLAT_RUN].text = duct->run->name;
    cells[FLAT_SIZE].text = size_text(document->arena, job->system, duct->size);
    cells[FLAT_EQUIVALENT].figure = duct->equivalent_diameter;
    cells[FLAT_ASPECT].figure = duct->aspect;
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
    struct table *table = document_table(document, duct_columns, DUCT_COLUMNS), *flat = NULL;
    for (size_t i = 0; i < network->ducts.count; i++)
        if (first[i])
            duct_row(job, document, &table, first[i]);
    for (size_t i = 0; i < network->ducts.count; i++)
        if (first[i] && network->ducts.at[i]->size.shape != SHAPE_ROUND)
            flat_row(job, document, &flat, network->ducts.at[i]);
}

static const char *unit_of(const struct document *document, enum measure_use use) {
    return measure_show(document->system, use)->unit;
}

void bid_ducts(const struct job *job, struct document *document) {
    const char *length = measure_show(document->system, SHOW_RUN)->by_tape
                             ? ""
                             : arena_format(document->keep, " Lengths are in %s.", unit_of(document, SHOW_RUN));
    document_paragraph(
        document,
        "Sizes are inside dimensions, width x height, clear of any lining: the metal of a lined duct is larger by the "
        "lining on every side, and one that fits a collar is smaller inside than the collar. The length is that of "
        "straight and flexible duct.%s Airflow (%s), velocity (%s) and friction (%s) are those at the start of each "
        "size, where it carries the most air. The equivalent diameter is "
        "that of the round duct with the same friction at the same airflow; aspect is the long side over "
        "the short.",
        length, unit_of(document, SHOW_FLOW), unit_of(document, SHOW_VELOCITY), unit_of(document, SHOW_FRICTION));
    for (size_t i = 0; i < job->units.count; i++) {
        const struct network *network = job->units.at[i]->network;
        if (!network || !network->ducts.count)
            continue;
        bid_unit_heading(job, document, network->unit);
        unit_ducts(job, document, network);
    }
    bid_caution(document, CAUTION_STRUCTURE);
    bid_caution(document, CAUTION_FIRE);
}
