/* The JSON writers: what they write is valid, and each figure is the one in the structs, to the last bit.
 * The outside reader is jansson's parser. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>
#include <jansson.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "model/piece.h"
#include "report/formats.h"
#include "report/report.h"
#include "report_bench.h"
#include "ration.h"

static json_t *parsed(const struct job *job) {
    struct output *out = output_open_memory();
    assert_true(report_write(job, NULL, "json", NULL, out));
    size_t length;
    char *text = output_take_memory(out, &length);
    json_error_t error;
    json_t *root = json_loadb(text, length, JSON_REJECT_DUPLICATES, &error);
    if (!root)
        fail_msg("line %d: %s in %s", error.line, error.text, text);
    free(text);
    return root;
}

static double real_at(const json_t *object, const char *key) {
    const json_t *value = json_object_get(object, key);
    if (!json_is_number(value))
        fail_msg("%s is not a number", key);
    return json_number_value(value);
}

static const char *text_at(const json_t *object, const char *key) {
    return json_string_value(json_object_get(object, key));
}

/* ---- A small network by hand ------------------------------------------------------------------------------------- */

static const struct piece_kind straight = {.form = {.word = "straight"}, .title = "Straight", .traits = PIECE_LENGTH};

/* Figures that need all 17 digits. */
static const double third = 1 / 3.0, seventh = 1 / 7.0;

static struct run *add_run(struct job *job, const char *name) {
    struct run *run = ARENA_NEW(job->arena, struct run);
    run->name = name;
    *list_add(job->arena, &job->runs) = run;
    return run;
}

static struct section *add_section(struct job *job, struct network *network, struct run *run, struct section *parent) {
    struct duct *duct = ARENA_NEW(job->arena, struct duct);
    *duct = (struct duct){
        .id = (uint32_t)network->ducts.count,
        .run = run,
        .size = {.shape = SHAPE_RECTANGULAR, .width = 0.4, .height = 0.2},
        .reason = SIZE_FRICTION,
        .flow = third,
        .equivalent_diameter = third,
        .hydraulic_diameter = seventh,
    };
    *list_add(job->arena, &network->ducts) = duct;
    struct section *section = ARENA_NEW(job->arena, struct section);
    section->id = (uint32_t)network->sections.count;
    section->run = run;
    section->duct = duct;
    section->parent = parent;
    section->flow = third;
    section->loss = seventh;
    *list_add(job->arena, &network->sections) = section;
    return section;
}

static struct network *add_unit(struct job *job) {
    struct air_unit *unit = ARENA_NEW(job->arena, struct air_unit);
    unit->name = "AHU";
    unit->network = ARENA_NEW(job->arena, struct network);
    unit->network->unit = unit;
    *list_add(job->arena, &job->units) = unit;
    return unit->network;
}

static struct network *small_network(struct job *job) {
    struct network *network = add_unit(job);
    struct run *run = add_run(job, "glaze_room");
    run->role = RUN_OUTLET;
    struct section *trunk = add_section(job, network, add_run(job, "trunk"), NULL);
    struct section *end = add_section(job, network, run, trunk);
    end->terminal = run;
    struct piece *piece = ARENA_NEW(job->arena, struct piece);
    piece->kind = &straight;
    piece->run = run;
    *list_add(job->arena, &run->pieces) = piece;
    *list_add(job->arena, &end->items) = (struct item){
        .piece = piece,
        .length = third,
        .loss = {.pressure = seventh,
                 .friction = seventh / 2,
                 .coefficient = third,
                 .reference = 7.1,
                 .reference_name = "duct",
                 .source = SOURCE_IDELCHIK_BEND},
    };
    *list_add(job->arena, &network->supply_paths) =
        (struct path){.end = end, .loss = seventh, .total = third, .surplus = -third};
    network->governing_supply = &network->supply_paths.at[0];
    network->blower_known = true;
    network->surplus = -third;
    return network;
}

/* ---- Whole jobs -------------------------------------------------------------------------------------------------- */

static void an_empty_job_is_valid(void **state) {
    struct fixture *fixture = *state;
    fixture->job.title = NULL;
    json_t *root = parsed(&fixture->job);
    assert_int_equal(json_integer_value(json_object_get(root, "schema")), 3);
    assert_int_equal(json_array_size(json_object_get(root, "units")), 0);
    assert_true(json_is_null(json_object_get(json_object_get(root, "job"), "title")));
    json_decref(root);
}

static void figures_come_back_to_the_last_bit(void **state) {
    struct fixture *fixture = *state;
    small_network(&fixture->job);
    json_t *root = parsed(&fixture->job);
    const json_t *unit = json_array_get(json_object_get(root, "units"), 0);
    const json_t *section = json_array_get(json_object_get(unit, "sections"), 1);
    assert_true(real_at(section, "flow_m3_s") == third);
    assert_true(real_at(section, "loss_Pa") == seventh);
    assert_int_equal(json_integer_value(json_object_get(section, "parent")), 0);
    const json_t *item = json_array_get(json_object_get(section, "items"), 0);
    assert_true(real_at(item, "loss_Pa") == seventh);
    assert_true(real_at(item, "friction_Pa") == seventh / 2);
    assert_true(real_at(item, "coefficient") == third);
    assert_string_equal(text_at(item, "source"), "IDELCHIK_BEND");
    assert_string_equal(text_at(item, "words"), "Straight");
    const json_t *path = json_array_get(json_object_get(unit, "supply_paths"), 0);
    assert_true(real_at(path, "surplus_Pa") == -third);
    assert_int_equal(json_integer_value(json_object_get(path, "end_section")), 1);
    assert_string_equal(text_at(json_object_get(unit, "budget"), "governing_supply"), "glaze_room");
    const json_t *duct = json_array_get(json_object_get(unit, "ducts"), 0);
    assert_true(real_at(duct, "equivalent_diameter_m") == third);
    assert_true(real_at(duct, "hydraulic_diameter_m") == seventh);
    json_decref(root);
}

static void what_is_not_known_is_null_and_not_a_bad_number(void **state) {
    struct fixture *fixture = *state;
    struct network *network = small_network(&fixture->job);
    network->blower_known = false;
    network->sections.at[1]->velocity = NAN;
    network->sections.at[1]->friction_rate = INFINITY;
    network->ducts.at[0]->size = (struct duct_size){.shape = SHAPE_ROUND};
    network->ducts.at[0]->equivalent_diameter = 0;
    json_t *root = parsed(&fixture->job);
    const json_t *unit = json_array_get(json_object_get(root, "units"), 0);
    const json_t *section = json_array_get(json_object_get(unit, "sections"), 1);
    assert_true(json_is_null(json_object_get(section, "velocity_m_s")));
    assert_true(json_is_null(json_object_get(section, "friction_rate_Pa_m")));
    assert_true(
        json_is_null(json_object_get(json_array_get(json_object_get(unit, "ducts"), 0), "equivalent_diameter_m")));
    assert_true(json_is_null(json_object_get(json_object_get(unit, "budget"), "surplus_Pa")));
    json_decref(root);
}

static void a_unit_without_a_network_is_written(void **state) {
    struct fixture *fixture = *state;
    add_unit(&fixture->job);
    fixture->job.units.at[0]->network = NULL;
    json_t *root = parsed(&fixture->job);
    const json_t *unit = json_array_get(json_object_get(root, "units"), 0);
    assert_string_equal(text_at(json_object_get(unit, "equipment"), "name"), "AHU");
    assert_null(json_object_get(unit, "sections"));
    json_decref(root);
}

static void any_text_comes_back_as_it_was(void **state) {
    struct fixture *fixture = *state;
    fixture->job.title = "\"a\\b\"\t\x01 </script> 窯 \xF0\x9F\x94\xA5";
    json_t *root = parsed(&fixture->job);
    assert_string_equal(text_at(json_object_get(root, "job"), "title"), fixture->job.title);
    json_decref(root);
}

static void an_object_longer_than_the_buffer_is_whole(void **state) {
    struct fixture *fixture = *state;
    struct arena *arena = fixture->job.arena;
    for (size_t i = 0; i < 5000; i++)
        *list_add(arena, &fixture->job.notes) = arena_format(arena, "note %zu", i);
    json_t *root = parsed(&fixture->job);
    const json_t *notes = json_object_get(json_object_get(root, "job"), "notes");
    assert_int_equal(json_array_size(notes), 5000);
    assert_string_equal(json_string_value(json_array_get(notes, 4999)), "note 4999");
    json_decref(root);
}

static void bytes_that_are_not_utf8_cannot_spoil_it(void **state) {
    struct fixture *fixture = *state;
    fixture->job.title = "a\xFF\xC3(b\xE7\xAA";
    json_t *root = parsed(&fixture->job);
    assert_string_equal(text_at(json_object_get(root, "job"), "title"), "a?\?(b?\?");
    json_decref(root);
}

/* ---- Memory ------------------------------------------------------------------------------------------------------ */

static void running_out_of_memory_is_said_and_nothing_is_lost(void **state) {
    struct fixture *fixture = *state;
    small_network(&fixture->job);
    for (size_t blocks = 0; blocks < 50; blocks++) {
        size_t left = blocks;
        struct arena_source memory = ration_of(&left);
        struct output *out = output_open_memory();
        bool whole = json_write_job(&fixture->job, false, &memory, out);
        output_abandon(out);
        if (whole) {
            assert_true(blocks > 0);
            return;
        }
    }
    fail_msg("50 blocks were not enough");
}

/* jansson takes its memory through functions that are the whole program's. */
static size_t jansson_left;

static void *jansson_take(size_t size) {
    return jansson_left && jansson_left-- ? malloc(size) : NULL;
}

static void janssons_running_out_of_memory_is_said_too(void **state) {
    struct fixture *fixture = *state;
    small_network(&fixture->job);
    diagnose(&fixture->diagnostics, DIAGNOSTIC_WARNING, "velocity", (struct span){0}, "950 fpm");
    bool whole = false;
    json_set_alloc_funcs(jansson_take, free);
    size_t blocks = 0;
    for (; blocks < 5000 && !whole; blocks++) {
        jansson_left = blocks;
        struct output *out = output_open_memory();
        whole = json_write_job(&fixture->job, false, NULL, out);
        output_abandon(out);
    }
    json_set_alloc_funcs(malloc, free);
    assert_true(whole);
    assert_true(blocks > 20);
}

/* ---- Diagnostics ------------------------------------------------------------------------------------------------- */

static json_t *parsed_diagnostics(const struct diagnostics *diagnostics) {
    FILE *file = tmpfile();
    assert_non_null(file);
    report_diagnostics_json(diagnostics, file);
    rewind(file);
    json_error_t error;
    json_t *root = json_loadf(file, JSON_REJECT_DUPLICATES, &error);
    fclose(file);
    assert_non_null(root);
    return root;
}

static void diagnostics_are_one_array_with_their_places(void **state) {
    struct fixture *fixture = *state;
    struct arena *arena = fixture->job.arena;
    const char bytes[] = "unit fan {\n    cooling 3 tun\n}\n";
    const struct text *text = text_new(arena, "kiln.job", bytes, sizeof bytes - 1);
    uint32_t at = (uint32_t)(strstr(bytes, "tun") - bytes);
    struct diagnostic *said = diagnose(&fixture->diagnostics, DIAGNOSTIC_ERROR, "unit", (struct span){text, at, at + 3},
                                       "'tun' is not a unit of %s", "power");
    diagnostic_hint(&fixture->diagnostics, said, "write 3 ton");
    diagnostic_relate(&fixture->diagnostics, said, (struct span){text, 5, 8}, "in this unit");
    json_t *root = parsed_diagnostics(&fixture->diagnostics);
    assert_int_equal(json_array_size(root), 1);
    const json_t *first = json_array_get(root, 0);
    assert_string_equal(text_at(first, "level"), "error");
    assert_string_equal(text_at(first, "file"), "kiln.job");
    assert_int_equal(real_at(first, "line"), 2);
    assert_int_equal(real_at(first, "column"), 15);
    assert_int_equal(real_at(first, "end_column"), 18);
    assert_string_equal(text_at(first, "message"), "'tun' is not a unit of power");
    assert_string_equal(text_at(first, "hint"), "write 3 ton");
    const json_t *related = json_array_get(json_object_get(first, "related"), 0);
    assert_int_equal(real_at(related, "line"), 1);
    assert_int_equal(real_at(related, "column"), 6);
    assert_true(json_is_null(json_object_get(first, "accepted_because")));
    json_decref(root);
}

static void no_diagnostics_are_an_empty_array(void **state) {
    struct fixture *fixture = *state;
    json_t *root = parsed_diagnostics(&fixture->diagnostics);
    assert_true(json_is_array(root));
    assert_int_equal(json_array_size(root), 0);
    json_decref(root);
}

/* ---- Formats ----------------------------------------------------------------------------------------------------- */

static void the_extension_means_the_format(void **state) {
    (void)state;
    assert_string_equal(report_format_of("a/b.md"), "md");
    assert_string_equal(report_format_of("b.MARKDOWN"), "md");
    assert_string_equal(report_format_of("x.y/b.json"), "json");
    assert_null(report_format_of("x.md/b"));
    assert_string_equal(report_format_of("b.pdf"), "pdf");
    assert_null(report_format_of("b.txt"));
    assert_null(report_format_of("b"));
}

static void every_format_that_is_listed_can_be_written(void **state) {
    struct fixture *fixture = *state;
    size_t count, readers;
    const char *const *names = report_formats(&count);
    const char *const *reader = report_readers(&readers);
    assert_true(count >= 3 && readers >= 2);
    for (size_t i = 0; i < count * readers; i++) {
        struct output *out = output_open_memory();
        bool has = report_has(reader[i / count], names[i % count]);
        assert_true(has || strcmp(names[i % count], "csv") == 0);
        assert_int_equal(report_write(&fixture->job, reader[i / count], names[i % count], NULL, out), has);
        output_abandon(out);
    }
    assert_true(report_has("shop", "csv"));
    assert_false(report_has("customer", "csv"));
    assert_false(report_has("neighbour", "md"));
    assert_true(report_format_shows_errors("json"));
    assert_false(report_format_shows_errors("md"));
    assert_false(report_write(&fixture->job, NULL, "txt", NULL, NULL));
}

int main(void) {
#define TEST(name) cmocka_unit_test_setup_teardown(name, set_up, tear_down)
    const struct CMUnitTest tests[] = {
        TEST(an_empty_job_is_valid),
        TEST(figures_come_back_to_the_last_bit),
        TEST(what_is_not_known_is_null_and_not_a_bad_number),
        TEST(a_unit_without_a_network_is_written),
        TEST(any_text_comes_back_as_it_was),
        TEST(an_object_longer_than_the_buffer_is_whole),
        TEST(bytes_that_are_not_utf8_cannot_spoil_it),
        TEST(running_out_of_memory_is_said_and_nothing_is_lost),
        TEST(janssons_running_out_of_memory_is_said_too),
        TEST(diagnostics_are_one_array_with_their_places),
        TEST(no_diagnostics_are_an_empty_array),
        TEST(the_extension_means_the_format),
        TEST(every_format_that_is_listed_can_be_written),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
