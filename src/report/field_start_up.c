/* What is measured and set when the system runs for the first time, with blanks for what was found. */
#include "air/operation.h"
#include "model/item_words.h"
#include "report/bid.h"
#include "report/what_flows.h"
#include "report/field.h"
#include "report/system_figures.h"

/* ---- Balancing --------------------------------------------------------------------------------------------------- */

enum {
    BALANCE_NAME,
    BALANCE_ROOM,
    BALANCE_FACE,
    BALANCE_FLOW,
    BALANCE_OPEN,
    BALANCE_SET,
    BALANCE_DAMPER,
    BALANCE_START,
    BALANCE_FOUND,
    BALANCE_FINAL,
    BALANCE_COLUMNS
};

static const struct column balance_columns[BALANCE_COLUMNS] = {
    [BALANCE_NAME] = {.head = "Outlet or inlet"},
    [BALANCE_ROOM] = {.head = "Room"},
    [BALANCE_FACE] = {.head = "Register or grille"},
    [BALANCE_FLOW] = {.head = "Design", .kind = COLUMN_FIGURE, .use = SHOW_FLOW},
    [BALANCE_OPEN] = {.head = "All open", .kind = COLUMN_FIGURE, .use = SHOW_FLOW, .bare = true},
    [BALANCE_SET] = {.head = "Balanced", .kind = COLUMN_FIGURE, .use = SHOW_FLOW, .bare = true},
    [BALANCE_DAMPER] = {.head = "Damper in"},
    [BALANCE_START] = {.head = "Start at"},
    [BALANCE_FOUND] = {.head = "Measured", .by_hand = 48},
    [BALANCE_FINAL] = {.head = "Damper set to", .by_hand = 48},
};

static void balance_row(struct document *document, struct table **table, const struct operation *operation,
                        const struct path *path, const struct damper_setting *setting) {
    const struct run *run = path->end->terminal;
    union cell *cells = document_row(document, table);
    cells[BALANCE_NAME].text = run->name;
    cells[BALANCE_ROOM].text = bid_room(run);
    cells[BALANCE_FACE].text = run->face ? piece_words(run->face, document->system, document->arena) : NULL;
    cells[BALANCE_FLOW].figure = path->end->flow;
    cells[BALANCE_DAMPER].text = path->damper ? path->damper->run->name : "none";
    if (operation && operation->dampers_open.sections)
        cells[BALANCE_OPEN].figure = operating_flow(&operation->dampers_open, path);
    if (operation && operation->balanced.sections)
        cells[BALANCE_SET].figure = operating_flow(&operation->balanced, path);
    if (operation)
        cells[BALANCE_START].text = report_damper_words(document, setting);
}

static void balance_side(struct document *document, struct table **table, const struct network *network, bool supply) {
    const struct operation *operation = network->operation;
    const struct damper_setting *settings = operation_settings(operation, supply);
    struct network_side side = network_side(network, supply);
    for (size_t i = 0; i < side.count; i++)
        balance_row(document, table, operation, &side.paths[i], settings ? &settings[i] : NULL);
}

void field_balance(const struct job *job, struct document *document) {
    document_paragraph(
        document, "What is expected stands beside the design: with all dampers open, and balanced. A blade open 90 "
                  "degrees is wide open, along the duct; where it starts is computed, and is where to begin, not where "
                  "to end. Measure every outlet, close a little what gives too much, the greatest excess first, and "
                  "measure all again until each is within a tenth of its design, or all take the same share of it "
                  "(common practice, no source). One damper at least stays wide open. Then lock and mark the handles.");
    for (size_t i = 0; i < job->units.count; i++) {
        const struct network *network = job->units.at[i]->network;
        if (!network)
            continue;
        bid_unit_heading(job, document, network->unit);
        struct table *table = document_table(document, balance_columns, BALANCE_COLUMNS);
        balance_side(document, &table, network, true);
        balance_side(document, &table, network, false);
    }
}

/* ---- Pressures --------------------------------------------------------------------------------------------------- */

void field_pressure(const struct job *job, struct document *document) {
    document_paragraph(document,
                       "Total pressure from piece to piece, at the design airflow. Where a reading at a test point "
                       "is off, look for the cause between it and the last one that was right.");
    system_drawings_note(document);
    system_pressure(job, document);
}

enum { TEST_NUMBER, TEST_WHERE, TEST_TOTAL, TEST_VELOCITY, TEST_EXPECTED, TEST_OPERATING, TEST_READ, TEST_COLUMNS };

static const struct column test_columns[TEST_COLUMNS] = {
    [TEST_NUMBER] = {.head = "No.", .kind = COLUMN_NUMBER},
    [TEST_WHERE] = {.head = "Where"},
    [TEST_TOTAL] = {.head = "Total", .kind = COLUMN_FIGURE, .use = SHOW_PRESSURE, .bare = true},
    [TEST_VELOCITY] = {.head = "Velocity", .kind = COLUMN_FIGURE, .use = SHOW_PRESSURE, .bare = true},
    [TEST_EXPECTED] = {.head = "Gauge shows", .kind = COLUMN_FIGURE, .use = SHOW_PRESSURE, .bare = true},
    [TEST_OPERATING] = {.head = "Balanced", .kind = COLUMN_FIGURE, .use = SHOW_PRESSURE, .bare = true},
    [TEST_READ] = {.head = "Read", .by_hand = 90},
};

static const char *side_words(const struct test_point *point) {
    return point->supply ? "supply" : "return";
}

static const char *test_words(struct document *document, const struct network *network,
                              const struct test_point *point) {
    struct arena *arena = document->arena;
    const char *unit = network->unit->name;
    switch (point->kind) {
    case TEST_COLLAR:
        return arena_format(arena, "%s, %s collar", unit, side_words(point));
    case TEST_RUN_START:
    case TEST_RUN_END:
        return arena_format(arena, "%s, %s straight, at %s", point->run->name,
                            point->kind == TEST_RUN_START ? "first" : "last",
                            bid_figure(document, SHOW_RUN, point->station));
    case TEST_FACE:
        return arena_format(arena, "%s, across %s", point->run->name,
                            piece_words(point->piece, document->system, arena));
    case TEST_DROP:
        return arena_format(arena, "%s, across %s", unit, point->drop->label);
    case TEST_UNIT:
        break;
    }
    return arena_format(arena, "%s, across it from collar to collar", unit);
}

static void test_row(struct document *document, struct table **table, const struct network *network, size_t index) {
    const struct test_point *point = &network->test_points.at[index];
    union cell *cells = document_row(document, table);
    cells[TEST_NUMBER].figure = (double)(index + 1);
    cells[TEST_WHERE].text = test_words(document, network, point);
    cells[TEST_EXPECTED].figure = point->expected;
    cells[TEST_OPERATING].figure = point->operating;
    if (point->velocity_pressure <= 0)
        return;
    cells[TEST_TOTAL].figure = point->total;
    cells[TEST_VELOCITY].figure = point->velocity_pressure;
}

void field_test_points(const struct job *job, struct document *document) {
    bid_caution(document, CAUTION_DRILLING);
    document_paragraph(
        document,
        "At the design airflow, filter clean, coil wet where it is stated so, blower set so that nothing is "
        "left over, dampers taking up the rest (%s). The gauge shows static pressure against the room: total "
        "less velocity pressure; across a thing, the difference of both its sides. A point in a run is the middle of a "
        "straight. Under Balanced stands what the gauge is to show of the air that will really flow, as sized and with "
        "the dampers at their start; nothing, where that is not known. Read with the probe's opening square to the "
        "air.",
        measure_show(document->system, SHOW_PRESSURE)->unit);
    for (size_t i = 0; i < job->units.count; i++) {
        const struct network *network = job->units.at[i]->network;
        if (!network || !network->test_points.count)
            continue;
        bid_unit_heading(job, document, network->unit);
        struct table *table = document_table(document, test_columns, TEST_COLUMNS);
        for (size_t p = 0; p < network->test_points.count; p++)
            test_row(document, &table, network, p);
    }
}

/* ---- Start-up ---------------------------------------------------------------------------------------------------- */

enum { STEP_NUMBER, STEP_WHAT, STEP_DONE, STEP_COLUMNS };

static const struct column step_columns[STEP_COLUMNS] = {
    [STEP_NUMBER] = {.head = "Step", .kind = COLUMN_NUMBER},
    [STEP_WHAT] = {.head = "What is done"},
    [STEP_DONE] = {.head = "By, date", .by_hand = 110},
};

/* In the order of the work; a caution stands above the step that it belongs to. */
static const struct {
    const char *what;
    enum caution caution;
    bool warns;
} start_up[] = {
    {"Estimated dimensions were measured, and the job was put right where they differed", 0, false},
    {"Hangers carry the duct without sag; nothing rubs, and flexible duct is tight and not crushed", 0, false},
    {"Joints and seams are sealed to their class, looked at before they were covered", 0, false},
    {"Insulation is whole, its jacket closed", 0, false},
    {"Fire and smoke dampers, where there are any, stand open and were tested by those licensed for it", CAUTION_FIRE,
     true},
    {"Registers open, volume dampers at their start, filter clean and the right way round", 0, false},
    {"The unit is closed, wired and released by those licensed for it; blower speed set for the design airflow",
     CAUTION_POWER, true},
    {"Air comes from every outlet, and nothing rattles or whistles", 0, false},
    {"Test points read, the sheet filled in", 0, false},
    {"Every outlet measured and balanced, the sheet filled in, handles locked and marked", 0, false},
    {"Test holes plugged and sealed", 0, false},
    {"Where anything in the building burns fuel: draft, combustion air and carbon monoxide tested by a qualified "
     "person, with this system running",
     CAUTION_COMBUSTION, true},
    {"The place is clean; the owner has these sheets, and knows the filter and when to change it", 0, false},
};

void field_checklist(const struct job *job, struct document *document) {
    (void)job;
    struct table *table = document_table(document, step_columns, STEP_COLUMNS);
    for (size_t i = 0; i < sizeof start_up / sizeof start_up[0]; i++) {
        if (start_up[i].warns)
            table_row(table)[STEP_WHAT].text =
                arena_format(document->arena, "Caution: %s", bid_caution_text(start_up[i].caution));
        union cell *cells = table_row(table);
        cells[STEP_NUMBER].figure = (double)(i + 1);
        cells[STEP_WHAT].text = start_up[i].what;
    }
}

void field_sign_off(const struct job *job, struct document *document) {
    (void)job;
    document_paragraph(document, "The readings on these sheets were taken with the system in working order:");
    document_blank(document, "Measured by");
    document_blank(document, "Instruments, and when they were last calibrated");
    document_blank(document, "Date, weather and outdoor temperature");
    document_blank(document, "Seen by, for the owner");
}
