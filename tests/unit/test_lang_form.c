/* Statements read against forms: what is taken, and what is said of each fault. */
#include "lang_bench.h"

static const char *const sides[] = {"left", "right", "up", "down", NULL};

/* Forms of this test's own, with every kind of slot. */
static const struct form elbow = {
    .word = "elbow",
    .places = IN_RUN,
    .slots =
        {
            {.kind = SLOT_QUANTITY, .use = SLOT_REQUIRED, .measure = MEASURE_ANGLE, .meaning = "its angle"},
            {.kind = SLOT_CHOICE, .use = SLOT_REQUIRED, .choices = sides, .meaning = "where it turns"},
            {.kind = SLOT_QUANTITY, .key = "radius", .meaning = "radius over width"},
            {.kind = SLOT_FLAG, .key = "vanes", .meaning = "turning vanes"},
        },
    .example = "elbow 90 left, radius 1.0",
};
static const struct form straight = {
    .word = "straight",
    .places = IN_RUN | IN_OUTLET,
    .slots = {{.kind = SLOT_QUANTITY, .use = SLOT_REQUIRED, .measure = MEASURE_LENGTH, .meaning = "how long it is"}},
    .example = "straight 16 ft",
};
static const struct form airflow = {
    .word = "airflow",
    .places = IN_OUTLET,
    .slots = {{.kind = SLOT_QUANTITY, .use = SLOT_REQUIRED, .measure = MEASURE_FLOW, .meaning = "the airflow"}},
    .example = "airflow 140 cfm",
};
static const struct form grille = {
    .word = "grille",
    .places = IN_OUTLET,
    .slots =
        {
            {.kind = SLOT_SIZE, .use = SLOT_REQUIRED, .meaning = "the size of its face"},
            {.kind = SLOT_QUANTITY, .measure = MEASURE_PRESSURE, .meaning = "the pressure it takes"},
            {.kind = SLOT_QUANTITY, .key = "at", .measure = MEASURE_FLOW, .meaning = "the airflow of that"},
        },
    .example = "grille 10 x 6, 0.03 in.wg at 140 cfm",
};
static const struct form run = {
    .word = "run",
    .places = IN_FILE,
    .block = BLOCK_REQUIRED,
    .slots =
        {
            {.kind = SLOT_NAME, .use = SLOT_REQUIRED, .meaning = "its name"},
            {.kind = SLOT_PORT, .key = "from", .use = SLOT_REQUIRED, .meaning = "what it hangs from"},
            {.kind = SLOT_TEXT, .meaning = "what it is"},
        },
    .example = "run kilnside from plenum.left { straight 16 ft }",
};
static const struct form blower = {
    .word = "blower",
    .places = IN_UNIT,
    .slots = {{.kind = SLOT_PAIR, .use = SLOT_REQUIRED_LIST, .meaning = "points of its curve"}},
    .example = "blower 1320 cfm at 0.30 in.wg, 1200 cfm at 0.50 in.wg",
};
static const struct form sizes = {
    .word = "sizes",
    .places = IN_SHOP,
    .slots = {{.kind = SLOT_QUANTITY, .use = SLOT_REQUIRED_LIST, .measure = MEASURE_LENGTH, .meaning = "the sizes"}},
    .example = "sizes 4, 5, 6",
};
static const struct form exclude = {
    .word = "exclude",
    .places = IN_JOB,
    .slots = {{.kind = SLOT_TEXT, .use = SLOT_REQUIRED_LIST, .meaning = "what is left out"}},
    .example = "exclude \"Line-voltage wiring\"",
};
static const struct form date = {
    .word = "date",
    .places = IN_JOB,
    .slots = {{.kind = SLOT_DATE, .use = SLOT_REQUIRED, .meaning = "the date"}},
    .example = "date 2026-04-18",
};
static const struct form obstacle = {
    .word = "obstacle",
    .places = IN_FILE,
    .slots =
        {
            {.kind = SLOT_POINT, .key = "from", .use = SLOT_REQUIRED, .meaning = "one corner"},
            {.kind = SLOT_POINT, .key = "to", .use = SLOT_REQUIRED, .meaning = "the other corner"},
        },
    .example = "obstacle from 12 ft, 3 ft, 1 ft to 13 ft, 20 ft, 2 ft",
};
static const struct form price = {
    .word = "price",
    .places = IN_SHOP,
    .slots =
        {
            {.kind = SLOT_ITEM, .use = SLOT_REQUIRED, .meaning = "what is priced"},
            {.kind = SLOT_QUANTITY, .use = SLOT_REQUIRED, .meaning = "the price"},
            {.kind = SLOT_ITEM, .key = "per", .use = SLOT_REQUIRED, .meaning = "what it is for"},
        },
    .example = "price duct_sealant 18.50 per gallon",
};
static const struct form insulation = {
    .word = "insulation",
    .places = IN_RUN,
    .slots = {{.kind = SLOT_QUANTITY, .use = SLOT_REQUIRED, .measure = MEASURE_RESISTANCE, .meaning = "the R-value"}},
    .example = "insulation R-8",
};
static const struct form *const forms[] = {&run,    &obstacle, &date,     &exclude, &sizes,  &price,
                                           &blower, &elbow,    &straight, &airflow, &grille, &insulation};
static const struct form_table table = {.forms = forms, .count = sizeof forms / sizeof forms[0]};

/* The first statement read in the first place where its word may stand. */
static struct reading read_first(struct bench *bench, enum measure_system system) {
    const struct statement *statement = bench->syntax.statements.at[0];
    enum form_place place = IN_FILE;
    for (size_t i = 0; i < table.count; i++)
        if (strcmp(forms[i]->word, statement->word) == 0)
            place = (enum form_place)(forms[i]->places & (~forms[i]->places + 1));
    const struct form *form = form_find(&table, statement, place, &bench->diagnostics);
    struct reading reading = {.faulty = true};
    if (form)
        form_read(&reading, form, statement, system, &table, &bench->diagnostics);
    return reading;
}

static struct bench *read_well(const char *text, struct reading *reading) {
    struct bench *bench = bench_parse(text);
    *reading = read_first(bench, MEASURE_US);
    if (bench->diagnostics.all.count)
        diagnostics_print(stderr, &bench->diagnostics, false);
    assert_int_equal(bench->diagnostics.all.count, 0);
    assert_false(reading->faulty);
    return bench;
}

static void assert_faults(const struct expected *expected, size_t count) {
    for (size_t i = 0; i < count; i++) {
        struct bench *bench = bench_parse(expected[i].text);
        struct reading reading = read_first(bench, MEASURE_US);
        assert_one_error(bench, &expected[i]);
        assert_true(reading.faulty);
        bench_free(bench);
    }
}

#define ASSERT_FAULTS(expected) assert_faults(expected, sizeof(expected) / sizeof(expected)[0])
#define NEAR(a, b) assert_true((a) - (b) < 1e-9 && (b) - (a) < 1e-9)

/* ---- What is taken ----------------------------------------------------------------------------------------------- */

static void bare_and_keyed_slots(void **state) {
    (void)state;
    struct reading reading;
    struct bench *bench = read_well("elbow 90 left, radius 1.5, vanes", &reading);
    NEAR(reading.argument[0].number, 3.14159265358979323846 / 2);
    assert_int_equal(reading.argument[1].choice, 0);
    NEAR(reading.argument[2].number, 1.5);
    assert_true(reading.argument[3].given);
    bench_free(bench);
    bench = read_well("elbow vanes 45 down", &reading); /* keyed slots stand anywhere, commas may be left out */
    assert_int_equal(reading.argument[1].choice, 3);
    assert_false(reading.argument[2].given);
    assert_true(reading.argument[3].given);
    bench_free(bench);
}

static void a_bare_length_is_in_inches_or_millimetres(void **state) {
    (void)state;
    struct bench *bench = bench_parse("straight 100");
    NEAR(read_first(bench, MEASURE_US).argument[0].number, 2.54);
    NEAR(read_first(bench, MEASURE_METRIC).argument[0].number, 0.1);
    bench_free(bench);
    bench = bench_parse("straight 10 ft");
    NEAR(read_first(bench, MEASURE_METRIC).argument[0].number, 3.048);
    bench_free(bench);
}

static void about_marks_an_estimate(void **state) {
    (void)state;
    struct reading reading;
    struct bench *bench = read_well("straight about 10 ft", &reading);
    assert_true(reading.argument[0].about);
    NEAR(reading.argument[0].number, 3.048);
    bench_free(bench);
    bench = read_well("straight 10 ft", &reading);
    assert_false(reading.argument[0].about);
    bench_free(bench);
}

static void the_unit_behind_the_last_number_is_meant_for_all(void **state) {
    (void)state;
    struct reading reading;
    struct bench *bench = read_well("grille 350 x 200 mm", &reading);
    NEAR(reading.argument[0].point[0], 0.35);
    NEAR(reading.argument[0].point[1], 0.2);
    bench_free(bench);
    bench = read_well("sizes 100, 125, 160 mm", &reading);
    NEAR(reading.argument[0].number, 0.1);
    NEAR(reading.argument[0].next->next->number, 0.16);
    bench_free(bench);
    bench = read_well("sizes 4 in, 5, 100 mm", &reading); /* not when they differ */
    NEAR(reading.argument[0].next->number, 0.127);
    bench_free(bench);
    bench = read_well("obstacle from 1, 2, 3 ft to 4 ft, 5 ft, 6 ft", &reading);
    NEAR(reading.argument[0].point[0], 0.3048);
    bench_free(bench);
}

static void sizes_and_their_shape(void **state) {
    (void)state;
    struct reading reading;
    struct bench *bench = read_well("grille 18 x 14 oval, 0.03 in.wg at 140 cfm", &reading);
    assert_int_equal(reading.argument[0].count, 2);
    assert_string_equal(reading.argument[0].text, "oval");
    NEAR(reading.argument[1].number, 0.03 * 248.84);
    assert_true(reading.argument[2].given);
    bench_free(bench);
    bench = read_well("grille 8", &reading);
    assert_int_equal(reading.argument[0].count, 1);
    assert_null(reading.argument[0].text);
    NEAR(reading.argument[0].point[0], 0.2032);
    bench_free(bench);
}

static void names_ports_items_and_text(void **state) {
    (void)state;
    struct reading reading;
    struct bench *bench = read_well("run kiln-side \"Along the kiln\" from plenum.left { }", &reading);
    assert_string_equal(reading.argument[0].text, "kiln-side");
    assert_string_equal(reading.argument[1].text, "plenum");
    assert_string_equal(reading.argument[1].leg, "left");
    assert_string_equal(reading.argument[2].text, "Along the kiln");
    bench_free(bench);
    bench = read_well("run a from trunk { }", &reading);
    assert_string_equal(reading.argument[1].text, "trunk");
    assert_null(reading.argument[1].leg);
    bench_free(bench);
    bench = read_well("price \"duct sealant\" 18.50 per gallon", &reading);
    assert_string_equal(reading.argument[0].text, "duct sealant");
    assert_string_equal(reading.argument[2].text, "gallon");
    bench_free(bench);
}

static void lists_pairs_and_points(void **state) {
    (void)state;
    struct reading reading;
    struct bench *bench = read_well("blower 1320 cfm at 0.30 in.wg,\n 1200 cfm at 0.50 in.wg", &reading);
    NEAR(reading.argument[0].second, 0.30 * 248.84);
    NEAR(reading.argument[0].next->number, 1200 * 0.3048 * 0.3048 * 0.3048 / 60);
    assert_null(reading.argument[0].next->next);
    bench_free(bench);
    bench = read_well("exclude \"a\", \"b\", \"c\"", &reading);
    assert_string_equal(reading.argument[0].next->next->text, "c");
    bench_free(bench);
    bench = read_well("obstacle from 12 ft, 3 ft, 1 ft to 12 ft 4 in, 20 ft, 1 ft 4 in", &reading);
    NEAR(reading.argument[1].point[0], 12.0 * 0.3048 + 4 * 0.0254);
    NEAR(reading.argument[1].point[1], 20 * 0.3048);
    bench_free(bench);
}

static void leap_days(void **state) {
    (void)state;
    struct reading reading;
    bench_free(read_well("date 2028-02-29", &reading));
    bench_free(read_well("date 2000-02-29", &reading));
}

/* ---- What is said ------------------------------------------------------------------------------------------------ */

static void units(void **state) {
    (void)state;
    static const struct expected faults[] = {
        {"airflow 140 cfn", "unit", "cfn", "'cfn' is not a unit; an airflow is written like 140 cfm", "write 140 cfm"},
        {"straight 16 fet", "unit", "fet", "'fet' is not a unit; a length is written like 14 ft 6 in", "write 16 ft"},
        {"airflow 140", "unit", "140", "140 has no unit: an airflow is written like 140 cfm", "write 140 cfm"},
        {"insulation 8", "unit", "8", "8 has no unit: an R-value is written like R-8", "for example: insulation R-8"},
        {"straight 140 cfm", "unit", "140 cfm", "a length is wanted here, 140 cfm is an airflow",
         "a length is written like 14 ft 6 in"},
        {"airflow 14 ft 6 in", "unit", "14 ft 6 in", "an airflow is wanted here, 14 ft 6 in is a length",
         "an airflow is written like 140 cfm"},
        {"elbow 90 left, radius 1 ft", "unit", "1 ft", "a number is wanted here, 1 ft is a length",
         "for example: elbow 90 left, radius 1.0"},
        {"grille 10 x 6, 0.03 in.wg at 3 ft", "unit", "3 ft", "an airflow is wanted here, 3 ft is a length",
         "an airflow is written like 140 cfm"},
        {"grille 10 cfm x 6", "unit", "10 cfm x 6", "a length is wanted here, 10 cfm x 6 is an airflow",
         "a length is written like 14 ft 6 in"},
        {"sizes 4, 5 cfm", "unit", "5 cfm", "a length is wanted here, 5 cfm is an airflow",
         "a length is written like 14 ft 6 in"},
        {"straight 16 ft 6", "unit", "6", "6 behind feet has no unit", "write 16 ft 6 in"},
        {"blower 1320 at 0.30 in.wg", "unit", "1320", "1320 has no unit: an airflow is written like 140 cfm",
         "write 1320 cfm"},
    };
    ASSERT_FAULTS(faults);
}

static void values_that_are_missing(void **state) {
    (void)state;
    static const struct expected faults[] = {
        {"straight", "value", "straight", "'straight' does not say how long it is", "for example: straight 16 ft"},
        {"elbow 90", "value", "elbow", "'elbow' does not say where it turns", "for example: elbow 90 left, radius 1.0"},
        {"run from a { }", "value", "run", "'run' does not say its name",
         "for example: run kilnside from plenum.left { straight 16 ft }"},
        {"run a { }", "value", "run", "'run' does not say what it hangs from",
         "for example: run kilnside from plenum.left { straight 16 ft }"},
        {"elbow 90 left, radius", "value", "radius", "'radius' wants a number behind it",
         "for example: elbow 90 left, radius 1.0"},
        {"elbow 90 left, radius, vanes", "value", "radius", "'radius' wants a number behind it, not a comma",
         "for example: elbow 90 left, radius 1.0"},
        {"run a from { }", "value", "from", "'from' wants a run or a collar behind it",
         "for example: run kilnside from plenum.left { straight 16 ft }"},
        {"run a plenum.left { }", "value", "plenum.left", "the word 'from' is missing before 'plenum.left'",
         "write from plenum.left"},
        {"elbow 90 left, 1.0", "value", "1.0", "the word 'radius' is missing before 1.0", "write radius 1.0"},
        {"obstacle from 12 ft, 3 ft to 1, 2, 3", "value", "12 ft", "'from' wants a point of three lengths behind it",
         "for example: obstacle from 12 ft, 3 ft, 1 ft to 13 ft, 20 ft, 2 ft"},
        {"blower 1320 cfm, 1200 cfm", "value", "1320 cfm", "'blower' wants an airflow at a pressure behind it",
         "for example: blower 1320 cfm at 0.30 in.wg, 1200 cfm at 0.50 in.wg"},
    };
    ASSERT_FAULTS(faults);
}

static void values_that_nothing_takes(void **state) {
    (void)state;
    static const struct expected faults[] = {
        {"straight 16 ft elbow 90 left", "value", "elbow", "'elbow' begins a statement of its own",
         "start a new line before elbow"},
        {"straight 16 ft,\nelbow 90 left", "value", ",", "with this comma at its end, the line goes on to 'elbow'",
         "take the comma away"},
        {"elbow 90 left, radus 2", "value", "radus", "'radus' means nothing in 'elbow'", "write radius"},
        {"elbow 90 lift", "value", "lift", "'elbow' wants left, right, up or down behind it, not 'lift'", "write left"},
        {"elbow 90 left right", "value", "right", "only one of left, right, up or down goes with 'elbow'", NULL},
        {"elbow left 90", "value", "90", "90 stands too far behind in 'elbow'",
         "for example: elbow 90 left, radius 1.0"},
        {"elbow 90 left \"neat\"", "value", "\"neat\"", "nothing in 'elbow' takes \"neat\"",
         "for example: elbow 90 left, radius 1.0"},
        {"run \"Kiln\" from a { }", "value", "run", "'run' does not say its name",
         "for example: run kilnside from plenum.left { straight 16 ft }"},
        {"exclude wiring", "value", "wiring", "'exclude' wants text in quotes behind it, not 'wiring'",
         "put it in quotes: \"wiring\""},
        {"straight 6 x 8", "value", "6 x 8", "'straight' wants a length behind it, not 6 x 8",
         "for example: straight 16 ft"},
        {"elbow 90 left, vanes, vanes", "value", "vanes", "'vanes' is given twice", NULL},
        {"date today", "value", "today", "'date' wants a date behind it, not 'today'", "for example: date 2026-04-18"},
        {"date 2026-02-29", "value", "2026-02-29", "there is no day 2026-02-29",
         "a date is written year-month-day, like 2026-04-18"},
        {"run a.b from c { }", "value", "a.b", "a name has no '.' in it", NULL},
        {"run a from b.c.d { }", "value", "b.c.d",
         "a duct hangs from a run, or from one of its ends behind a single dot",
         "write it like AHU.supply, plenum.left or kilnside"},
    };
    ASSERT_FAULTS(faults);
}

static void commas(void **state) {
    (void)state;
    static const struct expected faults[] = {
        {"sizes 4, 5 6", "value", "6", "a comma is missing before 6", "write 5, 6"},
        {"exclude \"a\" \"b\"", "value", "\"b\"", "a comma is missing before \"b\"", "write \"a\", \"b\""},
        {"straight 16 ft,", "value", ",", "nothing stands behind this comma", "take it away"},
        {"elbow 90 left,, vanes", "value", ",", "nothing stands behind this comma", "take it away"},
        {"elbow, 90 left", "value", ",", "nothing stands before this comma", "take it away"},
    };
    ASSERT_FAULTS(faults);
}

static void blocks(void **state) {
    (void)state;
    static const struct expected faults[] = {
        {"run a from b", "statement", "run", "'run' wants what belongs to it in { } behind it",
         "for example: run kilnside from plenum.left { straight 16 ft }"},
        {"straight 6 ft { }", "statement", "{", "'straight' takes no block of statements",
         "for example: straight 16 ft"},
    };
    ASSERT_FAULTS(faults);
}

static void a_second_value_shows_the_first(void **state) {
    (void)state;
    struct bench *bench = bench_parse("elbow 90 left, radius 1.0, radius 2");
    read_first(bench, MEASURE_US);
    assert_one_error(bench, &(struct expected){"", "value", "radius", "'radius' is given twice", NULL});
    const struct diagnostic *diagnostic = bench->diagnostics.all.at[0];
    assert_int_equal(diagnostic->at.begin, 27);
    assert_int_equal(diagnostic->related.count, 1);
    assert_string_equal(diagnostic->related.at[0].message, "first given here");
    assert_int_equal(diagnostic->related.at[0].at.begin, 22);
    bench_free(bench);
}

/* The name is known though the statement is faulty, so that what hangs from it is not told wrong too. */
static void a_faulty_statement_is_read_as_far_as_it_goes(void **state) {
    (void)state;
    struct bench *bench = bench_parse("run @kiln frm from plenum.left { }");
    struct reading reading = read_first(bench, MEASURE_US);
    assert_int_equal(bench->diagnostics.all.count, 1); /* of the @, by the scanner */
    assert_true(reading.faulty);
    assert_string_equal(reading.argument[0].text, "kiln");
    assert_string_equal(reading.argument[1].text, "plenum");
    bench_free(bench);
}

static void words_that_belong_elsewhere_or_nowhere(void **state) {
    (void)state;
    static const struct place_fault {
        enum form_place place;
        struct expected expected;
    } faults[] = {
        {IN_RUN,
         {"airflow 140 cfm", "statement", "airflow", "'airflow' does not stand in a run", "it stands in an outlet"}},
        {IN_FILE,
         {"straight 6 ft", "statement", "straight", "'straight' does not stand at the top of a file, outside all { }",
          "it stands in a run or in an outlet"}},
        {IN_RUN,
         {"straigt 6 ft", "statement", "straigt", "'straigt' is not a word that stands in a run", "write straight"}},
        {IN_RUN,
         {"blowr 1", "statement", "blowr", "'blowr' is not a word that stands in a run", "'blower' stands in a unit"}},
        {IN_JOB,
         {"frobnicate", "statement", "frobnicate", "'frobnicate' is not a word that stands in a job",
          "one of these stands here: date or exclude"}},
        {IN_RUN,
         {"STRAIGHT 6 ft", "statement", "STRAIGHT", "'STRAIGHT' is not a word that stands in a run", "write straight"}},
    };
    for (size_t i = 0; i < sizeof faults / sizeof faults[0]; i++) {
        struct bench *bench = bench_parse(faults[i].expected.text);
        const struct statement *statement = bench->syntax.statements.at[0];
        const struct form *form = form_find(&table, statement, faults[i].place, &bench->diagnostics);
        bool near = faults[i].expected.hint && strncmp(faults[i].expected.hint, "write ", 6) == 0;
        assert_true(near == (form != NULL));
        if (form) {
            struct reading reading;
            form_read(&reading, form, statement, MEASURE_US, &table, &bench->diagnostics);
            assert_true(reading.faulty);
        }
        assert_one_error(bench, &faults[i].expected);
        bench_free(bench);
    }
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(bare_and_keyed_slots),
        cmocka_unit_test(a_bare_length_is_in_inches_or_millimetres),
        cmocka_unit_test(about_marks_an_estimate),
        cmocka_unit_test(the_unit_behind_the_last_number_is_meant_for_all),
        cmocka_unit_test(sizes_and_their_shape),
        cmocka_unit_test(names_ports_items_and_text),
        cmocka_unit_test(lists_pairs_and_points),
        cmocka_unit_test(leap_days),
        cmocka_unit_test(units),
        cmocka_unit_test(values_that_are_missing),
        cmocka_unit_test(values_that_nothing_takes),
        cmocka_unit_test(commas),
        cmocka_unit_test(blocks),
        cmocka_unit_test(a_second_value_shows_the_first),
        cmocka_unit_test(a_faulty_statement_is_read_as_far_as_it_goes),
        cmocka_unit_test(words_that_belong_elsewhere_or_nowhere),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
