/* The customer's bid, from a network made by hand: nothing the job says may break the page, every piece is there once,
 * and what the budget says can be added up from what is printed. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "model/estimate.h"
#include "model/piece.h"
#include "report/bid.h"
#include "report/packet.h"
#include "report_bench.h"
#include "paper_text.h"

/* ---- A trunk with taps, and a return, by hand -------------------------------------------------------------------- */

static const struct piece_kind straight = {
    .form = {.word = "straight"}, .title = "Straight duct", .traits = PIECE_LENGTH};

static struct section *add_section(struct job *job, struct network *network, struct run *run, struct section *parent,
                                   double flow) {
    struct duct *duct = parent && parent->run == run ? parent->duct : ARENA_NEW(job->arena, struct duct);
    if (!duct->run) {
        *duct = (struct duct){.id = (uint32_t)network->ducts.count, .run = run, .reason = SIZE_FRICTION, .flow = flow};
        duct->size = (struct duct_size){SHAPE_ROUND, 0.2, 0.2};
        run->first_duct = duct;
        *list_add(job->arena, &network->ducts) = duct;
    }
    struct section *section = ARENA_NEW(job->arena, struct section);
    section->id = (uint32_t)network->sections.count;
    section->run = run;
    section->duct = duct;
    section->parent = parent;
    section->flow = flow;
    if (!run->first_section)
        run->first_section = section;
    run->last_section = section;
    *list_add(job->arena, &network->sections) = section;
    return section;
}

static void add_item(struct job *job, struct section *section, double loss) {
    struct piece *piece = ARENA_NEW(job->arena, struct piece);
    piece->kind = &straight;
    piece->run = section->run;
    *list_add(job->arena, &section->run->pieces) = piece;
    *list_add(job->arena, &section->items) =
        (struct item){.piece = piece, .length = 1, .loss = {.pressure = loss, .friction = loss}};
    section->loss += loss;
    section->loss_to_unit = section->loss + (section->parent ? section->parent->loss_to_unit : 0);
}

static struct run *add_run(struct job *job, const char *name, enum run_role role, bool supply, struct run *parent) {
    struct run *run = ARENA_NEW(job->arena, struct run);
    run->name = name;
    run->role = role;
    run->supply = supply;
    run->parent = parent;
    run->from = (struct port){.kind = parent ? PORT_TAP : PORT_UNIT,
                              .name = parent ? parent->name : "AHU",
                              .run = parent,
                              .supply = supply,
                              .unit = job->units.at[0],
                              .side = SIDE_LEFT};
    *list_add(job->arena, &job->runs) = run;
    return run;
}

/* A trunk with `taps` outlets; 3 Pa in each stretch of the trunk, 2 Pa in each outlet, 5 Pa in the return. */
static struct network *trunk_with_taps(struct job *job, size_t taps) {
    struct air_unit *unit = ARENA_NEW(job->arena, struct air_unit);
    unit->name = "AHU";
    unit->airflow = 0.1 * (double)taps;
    struct network *network = unit->network = ARENA_NEW(job->arena, struct network);
    network->unit = unit;
    *list_add(job->arena, &job->units) = unit;
    struct run *trunk = add_run(job, "trunk", RUN_DUCT, true, NULL);
    struct section *section = NULL;
    for (size_t i = 0; i < taps; i++) {
        section = add_section(job, network, trunk, section, 0.1 * (double)(taps - i));
        add_item(job, section, 3);
        struct run *outlet = add_run(job, arena_format(job->arena, "outlet_%zu", i), RUN_OUTLET, true, trunk);
        outlet->room = "Glaze | room";
        *list_add(job->arena, &trunk->taps) = outlet;
        struct section *end = add_section(job, network, outlet, section, 0.1);
        end->terminal = outlet;
        add_item(job, end, 2);
        double loss = end->loss_to_unit;
        *list_add(job->arena, &network->supply_paths) =
            (struct path){.end = end, .loss = loss, .total = loss + 5, .surplus = 100 - loss - 5};
    }
    struct run *back = add_run(job, "back", RUN_INLET, false, NULL);
    struct section *end = add_section(job, network, back, NULL, unit->airflow);
    end->terminal = back;
    add_item(job, end, 5);
    *list_add(job->arena, &network->return_paths) = (struct path){.end = end, .loss = 5, .total = 100};
    network->governing_supply = &network->supply_paths.at[taps - 1];
    network->governing_return = &network->return_paths.at[0];
    network->blower_known = true;
    network->blower_pressure = 100;
    network->surplus = network->governing_supply->surplus;
    network->supply_flow = network->return_flow = unit->airflow;
    return network;
}

/* ---- What a bid must hold ---------------------------------------------------------------------------------------- */

static void the_first_page_gives_way_to_code_and_licensed_practice(void **state) {
    struct fixture *fixture = *state;
    char *text = packet_text(&fixture->job, NULL);
    expect_in(text, "# Kiln house\n");
    const char *deference = strstr(text, "authority having jurisdiction"), *second = strstr(text, "\n## ");
    assert_non_null(deference);
    assert_true(deference < second);
    free(text);
}

static void no_text_of_the_job_breaks_the_page(void **state) {
    struct fixture *fixture = *state;
    fixture->job.title = "# <b>Kiln</b> | ##";
    fixture->job.customer = "- *Potters*";
    *list_add(fixture->job.arena, &fixture->job.excludes) = "1. `Wiring`";
    char *text = packet_text(&fixture->job, NULL);
    expect_in(text, "# \\# \\<b>Kiln\\</b> \\| \\#\\#\n");
    expect_in(text, "- **Customer:** - \\*Potters\\*\n");
    expect_in(text, "- 1\\. \\`Wiring\\`\n");
    free(text);
}

static void every_piece_stands_once_and_the_budget_adds_up(void **state) {
    struct fixture *fixture = *state;
    fixture->job.system = MEASURE_METRIC;
    trunk_with_taps(&fixture->job, 3);
    char *text = packet_text(&fixture->job, NULL);
    char *losses = strstr(text, "## Pressure losses of every run"), *end = strstr(losses, "## How the sizes");
    *end = 0;
    assert_int_equal(times(losses, "Straight duct"), 7);
    expect_in(losses, "11.00"); /* 3 + 3 + 3 + 2 Pa from the unit to the last register */
    *losses = 0;
    char *budget = strstr(text, "## Pressure budget");
    expect_in(budget, " 84.0 |"); /* 100 - 5 - 11 */
    expect_in(budget, "16.00");   /* 5 + 11, the last line of the costliest path */
    free(text);
}

static void there_is_no_price_and_no_word_of_a_program(void **state) {
    struct fixture *fixture = *state;
    trunk_with_taps(&fixture->job, 2);
    char *text = packet_text(&fixture->job, NULL);
    expect_in(text, "\nThe price stands on a separate sheet; this paper carries none.\n");
    assert_int_equal(times(text, "rice"), 1);
    static const char *const words[] = {"$", " node", "pars", " token", "(null)", "nan"};
    for (size_t i = 0; i < sizeof words / sizeof words[0]; i++)
        assert_int_equal(times(text, words[i]), 0);
    free(text);
}

static void every_caution_is_in_the_list(void **state) {
    struct fixture *fixture = *state;
    struct run attic = {.name = "attic", .settings = {.location_set = true, .location = LOCATION_ATTIC}};
    struct run crawl = {.name = "crawl", .settings = {.location_set = true, .location = LOCATION_CRAWL}};
    *list_add(fixture->job.arena, &fixture->job.runs) = &attic;
    *list_add(fixture->job.arena, &fixture->job.runs) = &crawl;
    char *text = packet_text(&fixture->job, NULL);
    const char *list = strstr(text, "## Cautions");
    static const char *const subjects[] = {"gloves",         "1910.95",  "Ladders",         "heat",     "vermin",
                                           "lock out",       "asbestos", "carbon monoxide", "garage",   "fire dampers",
                                           "Only certified", "Zinc",     "joist",           "drain pan"};
    assert_int_equal(sizeof subjects / sizeof subjects[0], CAUTION_COUNT);
    for (size_t i = 0; i < CAUTION_COUNT; i++)
        expect_in(list, subjects[i]);
    free(text);
}

/* In the customer's paper a mark says how a source is known, and the legend what the mark says. */
static void a_source_bears_its_mark(void **state) {
    struct fixture *fixture = *state;
    fixture->job.source_used[SOURCE_COLEBROOK] = fixture->job.source_used[SOURCE_BALANCE] = true;
    fixture->job.source_used[SOURCE_DARCY] = true;
    char *text = packet_text(&fixture->job, NULL);
    expect_in(text, "1939\u00a0\\*");
    expect_in(text, "here\u00a0\u2020");
    expect_in(text, "computed again\n");
    expect_in(text, "marks what is quoted");
    assert_int_equal(times(text, "(from memory)") + times(text, "(read)") + times(text, "library"), 0);
    free(text);
}

static void nobody_is_warned_of_an_attic_or_crawl_space_that_is_not_there(void **state) {
    struct fixture *fixture = *state;
    struct run room = {.name = "room", .settings = {.location_set = true, .location = LOCATION_CONDITIONED}};
    *list_add(fixture->job.arena, &fixture->job.runs) = &room;
    char *text = packet_text(&fixture->job, NULL);
    assert_int_equal(times(text, "attic") + times(text, "rawl space"), 0);
    free(text);
}

static void an_estimate_is_listed_in_plain_words(void **state) {
    struct fixture *fixture = *state;
    const char bytes[] = "run back from AHU.return {\n  straight about   10 ft # \"guess\"\n}\n";
    struct arena *arena = fixture->job.arena;
    const struct text *file = text_new(arena, "kiln.job", bytes, sizeof bytes - 1);
    uint32_t begin = (uint32_t)(strstr(bytes, "straight") - bytes), end = (uint32_t)(strstr(bytes, " #") - bytes);
    struct statement piece = {.word = "straight", .at = {file, begin, end}};
    struct estimate estimate = {.statement = &piece, .where = "back"};
    *list_add(arena, &fixture->job.estimates) = &estimate;
    char *text = packet_text(&fixture->job, NULL);
    expect_in(text, "- **back:** 10 ft of straight duct, estimated");
    free(text);
}

static void open_warnings_and_accepted_ones_stand_apart(void **state) {
    struct fixture *fixture = *state;
    struct span nowhere = {0};
    diagnose(&fixture->diagnostics, DIAGNOSTIC_WARNING, "aspect", nowhere, "long side is 5 times the short one");
    struct diagnostic *accepted =
        diagnose(&fixture->diagnostics, DIAGNOSTIC_WARNING, "velocity", nowhere, "950 fpm in trunk");
    accepted->accepted_because = "behind a wall";
    accepted->subject = "trunk";
    fixture->diagnostics.warning_count = 1;
    *list_add(fixture->job.arena, &fixture->job.acceptances) = ARENA_NEW(fixture->job.arena, struct acceptance);
    char *text = packet_text(&fixture->job, NULL);
    expect_in(text, "- aspect: long side is 5 times the short one\n");
    assert_int_equal(times(text, "- velocity"), 0);
    expect_in(text, "- **trunk, velocity:** 950 fpm in trunk. Accepted because: behind a wall\n");
    free(text);
}

static void what_is_said_of_accept_lines_is_no_open_warning(void **state) {
    struct fixture *fixture = *state;
    struct span nowhere = {0};
    diagnose(&fixture->diagnostics, DIAGNOSTIC_WARNING, "accept", nowhere,
             "there is no aspect warning on trunk to accept");
    char *text = packet_text(&fixture->job, NULL);
    expect_in(text, "No warnings are open.");
    assert_int_equal(times(text, "to accept"), 0);
    free(text);
}

static void each_list_of_sizes_says_whose_it_is(void **state) {
    struct fixture *fixture = *state;
    struct shop *shop = &fixture->job.shop;
    *list_add(fixture->job.arena, &shop->round_sizes) = 0.2;
    *list_add(fixture->job.arena, &shop->widths) = 0.3;
    shop->sizes_assumed[SHAPE_RECTANGULAR] = true;
    char *text = packet_text(&fixture->job, NULL);
    expect_in(text, "**Standard diameters of round duct:** 1, as the shop declares\n");
    expect_in(text, "**Standard sides of rectangular duct:** 1, the common list (the shop declares none)\n");
    free(text);
}

/* alternate porch { outlet step ... { straight about 6 ft } } */
static void an_estimate_in_an_alternate_is_listed_too(void **state) {
    struct fixture *fixture = *state;
    struct arena *arena = fixture->job.arena;
    const char bytes[] = "straight about 6 ft";
    const struct text *file = text_new(arena, "kiln.job", bytes, sizeof bytes - 1);
    struct span all = {file, 0, sizeof bytes - 1};
    struct statement piece = {.word = "straight", .at = all};
    struct alternate alternate = {.name = "porch"};
    struct estimate estimate = {.statement = &piece, .where = "step", .alternate = &alternate};
    *list_add(arena, &fixture->job.estimates) = &estimate;
    *list_add(arena, &fixture->job.estimates) = &estimate; /* a statement with two of them is one line */
    char *text = packet_text(&fixture->job, NULL);
    expect_in(text, "- **step:** 6 ft of straight duct, estimated");
    assert_int_equal(times(text, "- **step:**"), 1);
    free(text);
}

/* Of 22 units with ductwork 20 are listed; one without any is not among those left out. */
static void the_summary_counts_only_units_with_ductwork(void **state) {
    struct fixture *fixture = *state;
    struct job *job = &fixture->job;
    for (size_t i = 0; i < 23; i++) {
        struct air_unit *unit = ARENA_NEW(job->arena, struct air_unit);
        unit->name = "AHU";
        if (i) {
            unit->network = ARENA_NEW(job->arena, struct network);
            unit->network->unit = unit;
        }
        *list_add(job->arena, &job->units) = unit;
    }
    const char *summary = report_summary(job);
    assert_int_equal(times(summary, "AHU: "), 20);
    expect_in(summary, "... and 2 more units\n");
}

/* Of the loss of one stretch of the trunk a gain is made, which has to be explained, and only then. */
static void a_gain_of_pressure_is_explained_once(void **state) {
    struct fixture *fixture = *state;
    struct network *network = trunk_with_taps(&fixture->job, 3);
    char *text = packet_text(&fixture->job, NULL);
    assert_int_equal(times(text, "below zero"), 0);
    free(text);
    network->sections.at[2]->items.at[0].loss.pressure = -1;
    text = packet_text(&fixture->job, NULL);
    assert_int_equal(times(text, "A loss below zero"), 1);
    assert_int_equal(times(text, "each figure is rounded"), 1);
    free(text);
}

/* A cell that is longer than any other, in a short table, still ends under the others. */
static void every_line_of_a_short_table_is_as_wide_as_the_next(void **state) {
    struct fixture *fixture = *state;
    trunk_with_taps(&fixture->job, 3);
    fixture->job.runs.at[1]->room =
        "The room behind the second door on the left of the long passage that leads from the "
        "kiln to the yard";
    char *text = packet_text(&fixture->job, NULL);
    const char *line = strstr(text, "| Outlet ");
    assert_non_null(line);
    for (size_t width = strcspn(line, "\n"); *line == '|';
         line += width + 1) /* nothing here is escaped or wide but " \|" */
        assert_int_equal(strcspn(line, "\n"), width);
    free(text);
}

static void the_same_job_gives_the_same_bytes(void **state) {
    struct fixture *fixture = *state;
    trunk_with_taps(&fixture->job, 5);
    char *first = packet_text(&fixture->job, NULL), *second = packet_text(&fixture->job, NULL);
    assert_string_equal(first, second);
    free(first);
    free(second);
}

/* ---- Size -------------------------------------------------------------------------------------------------------- */

static void a_trunk_of_many_taps_takes_memory_in_proportion(void **state) {
    struct fixture *fixture = *state;
    trunk_with_taps(&fixture->job, 50000);
    char *text = packet_text(&fixture->job, NULL);
    char *losses = strstr(text, "## Pressure losses of every run"), *end = strstr(losses, "## How the sizes");
    *end = 0;
    assert_int_equal(times(losses, "Straight duct"), 100001);
    assert_int_equal(times(losses, "| Run "), 100001 / TABLE_PART + 1); /* the head comes again with each part */
    assert_true(end - text < 50000 * 1200L);
    free(text);
}

/* ---- Memory ------------------------------------------------------------------------------------------------------ */

static void running_out_of_memory_is_said_and_nothing_is_lost(void **state) {
    struct fixture *fixture = *state;
    trunk_with_taps(&fixture->job, 3);
    expect_any_shortage_said(&fixture->job, &markdown_writer);
}

int main(void) {
#define TEST(name) cmocka_unit_test_setup_teardown(name, set_up, tear_down)
    const struct CMUnitTest tests[] = {
        TEST(the_first_page_gives_way_to_code_and_licensed_practice),
        TEST(no_text_of_the_job_breaks_the_page),
        TEST(every_piece_stands_once_and_the_budget_adds_up),
        TEST(there_is_no_price_and_no_word_of_a_program),
        TEST(every_caution_is_in_the_list),
        TEST(a_source_bears_its_mark),
        TEST(nobody_is_warned_of_an_attic_or_crawl_space_that_is_not_there),
        TEST(an_estimate_is_listed_in_plain_words),
        TEST(open_warnings_and_accepted_ones_stand_apart),
        TEST(what_is_said_of_accept_lines_is_no_open_warning),
        TEST(each_list_of_sizes_says_whose_it_is),
        TEST(an_estimate_in_an_alternate_is_listed_too),
        TEST(the_summary_counts_only_units_with_ductwork),
        TEST(a_gain_of_pressure_is_explained_once),
        TEST(every_line_of_a_short_table_is_as_wide_as_the_next),
        TEST(the_same_job_gives_the_same_bytes),
        TEST(a_trunk_of_many_taps_takes_memory_in_proportion),
        TEST(running_out_of_memory_is_said_and_nothing_is_lost),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
