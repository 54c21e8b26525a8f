/* Statements become things; what makes no sense in a building is said where it stands. */
#include "model_bench.h"

#define TAIL                                                                                                           \
    "inlet hall from AHU.return { grille 20 x 14 }\n"                                                                  \
    "outlet a from AHU.supply { airflow 300 cfm; register 8 x 4 }\n"
#define UNIT "unit AHU { airflow 300 cfm }\n"
#define JOB "job \"T\" { revision 1 }\n"

static void a_job_and_its_terms(void **state) {
    (void)state;
    struct bench *bench =
        bench_clean("job \"Studio\" {\n"
                    "    customer \"Potters\"; location \"7 Kiln Lane\"; revision 2; date 2026-04-18\n"
                    "    altitude 1250 ft; sizing velocity; friction 0.08 in.wg/100ft; valid 30 days\n"
                    "    include \"Start-up\"\n    exclude \"Wiring\", \"Paint\"\n    exclude \"Roof\"\n"
                    "    note \"Weekdays\"\n}\n" UNIT TAIL);
    const struct job *job = &bench->job;
    assert_string_equal(job->title, "Studio");
    assert_string_equal(job->customer, "Potters");
    assert_string_equal(job->revision, "2");
    assert_string_equal(job->date, "2026-04-18");
    assert_near(job->altitude, 381, 1e-9);
    assert_string_equal(job->sizing, "velocity");
    assert_near(job->friction_rate, 0.08 * 248.84 / 30.48, 1e-3);
    assert_int_equal(job->valid_days, 30);
    assert_int_equal(job->excludes.count, 3);
    assert_string_equal(job->excludes.at[1], "Paint");
    assert_int_equal(job->includes.count, 1);
    assert_int_equal(job->notes.count, 1);
    bench_free(bench);
}

static void a_unit(void **state) {
    (void)state;
    struct bench *bench =
        bench_clean(JOB "unit AHU \"Air handler\" {\n"
                        "    airflow 300 cfm; cooling 3 ton; supply 18 x 14; return 12\n"
                        "    blower 320 cfm at 0.30 in.wg, 280 cfm at 0.70 in.wg, 300 cfm at 0.50 in.wg\n"
                        "    drop \"coil\" 0.22 in.wg at 400 cfm\n    drop \"heater\" 0.05 in.wg\n"
                        "    at 1 ft, 2 ft, 3 ft\n    faces east\n}\n" TAIL);
    const struct air_unit *unit = bench->job.units.at[0];
    assert_string_equal(unit->title, "Air handler");
    assert_near(unit->cooling, 3 * 3516.85, 1);
    assert_near(unit->supply.width, 18 * INCH, 1e-9);
    assert_int_equal(unit->return_.shape, SHAPE_ROUND);
    assert_int_equal(unit->blower.count, 3);
    assert_near(unit->blower.at[1].flow, 300 * CFM, 1e-9); /* in order of flow, whatever the order written */
    assert_int_equal(unit->drops.count, 2);
    assert_near(unit->drops.at[0].flow, 400 * CFM, 1e-9);
    assert_near(unit->drops.at[1].flow, 0, 0);
    assert_near(unit->position[2], 3 * FOOT, 1e-9);
    assert_string_equal(unit->faces, "east");
    bench_free(bench);
}

static void bare_lengths_are_in_the_units_of_the_job_and_of_the_shop(void **state) {
    (void)state;
    struct bench *bench = bench_clean("shop \"S\" { units us; sizes round 6, 4, 5, 5 }\njob \"T\" { units metric }\n"
                                      "unit AHU { airflow 300 cfm; supply 450 x 350 }\n" TAIL);
    assert_int_equal(bench->job.system, MEASURE_METRIC);
    assert_near(bench->job.units.at[0]->supply.width, 0.45, 1e-9);
    assert_int_equal(bench->job.shop.round_sizes.count, 3); /* in order, each once */
    assert_near(bench->job.shop.round_sizes.at[0], 4 * INCH, 1e-9);
    assert_near(bench->job.shop.round_sizes.at[2], 6 * INCH, 1e-9);
    bench_free(bench);
}

static void a_shop_overrides_and_says_so(void **state) {
    (void)state;
    struct bench *bench =
        bench_new("shop \"First\" {\n    aspect 3\n    sizes round 4, 5\n    price sealant 18 per gallon\n"
                  "    price tape 9 per roll\n    tax 6 %\n}\n"
                  "shop \"Second\" {\n    aspect 5\n    sizes round 6, 7\n    price sealant 20 per gallon\n"
                  "    stock 48 x 120, gauge 26\n    stock 48 x 120, gauge 24\n}\n" JOB UNIT TAIL);
    assert_int_equal(bench->diagnostics.error_count, 0);
    assert_int_equal(bench->diagnostics.warning_count, 0);
    assert_int_equal(bench->diagnostics.all.count, 3);
    static const char *const later[] = {"aspect 5", "sizes round 6, 7", "price sealant 20 per gallon"};
    static const char *const first[] = {"aspect 3", "sizes round 4, 5", "price sealant 18 per gallon"};
    for (size_t i = 0; i < 3; i++) {
        const struct diagnostic *note = bench->diagnostics.all.at[i];
        assert_int_equal(note->level, DIAGNOSTIC_NOTE);
        assert_string_equal(note->check, "override");
        assert_true(span_is(note->at, later[i]));
        assert_true(span_is(note->related.at[0].at, first[i]));
    }
    const struct shop *shop = &bench->job.shop;
    assert_near(shop->aspect_limit, 5, 0);
    assert_near(shop->round_sizes.at[0], 6 * INCH, 1e-9);
    assert_string_equal(shop->name, "Second");
    assert_int_equal(shop->entries.count, 6);
    size_t overridden = 0;
    for (size_t i = 0; i < shop->entries.count; i++)
        overridden += shop->entries.at[i]->overridden;
    assert_int_equal(overridden, 1);
    assert_true(shop->entries.at[0]->overridden);
    bench_free(bench);
}

static void a_shop_says_what_its_seams_take_and_how_it_marks(void **state) {
    (void)state;
    struct bench *bench =
        bench_new("shop \"S\" {\n"
                  "    seam pittsburgh, pocket 1 in, flange 1/4 in; seam lap, pocket 0 in\n"
                  "    seam snaplock; connection slip-and-drive, end 1/2 in; connection raw\n"
                  "    stack 6; stations 24; notch 3/4 in; bend-deduction 1/16 in\n"
                  "}\n"
                  "shop \"Later\" { seam pittsburgh, pocket 15/16 in; connection raw, end 0 in }\n" JOB UNIT TAIL);
    assert_int_equal(bench->diagnostics.error_count, 0);
    assert_int_equal(bench->diagnostics.all.count, 2); /* two notes of overriding */
    assert_true(span_is(bench->diagnostics.all.at[0]->at, "seam pittsburgh, pocket 15/16 in"));
    const struct shop *shop = &bench->job.shop;
    assert_true(shop->settings.seam_set);
    assert_int_equal(shop->settings.seam, SEAM_SNAPLOCK); /* with no figures: the seam it uses */
    assert_int_equal(shop->seams.count, 2);
    assert_int_equal(shop->seams.at[0].kind, SEAM_PITTSBURGH);
    assert_near(shop->seams.at[0].pocket, 15.0 / 16 * INCH, 1e-12); /* the latest, whole */
    assert_false(shop->seams.at[0].flange_given);
    assert_int_equal(shop->seams.at[1].kind, SEAM_LAP);
    assert_true(shop->seams.at[1].pocket_given && !shop->seams.at[1].flange_given); /* none is a figure too */
    assert_int_equal(shop->connections.count, 2);
    assert_near(shop->connections.at[0].end, INCH / 2, 1e-12);
    assert_int_equal(shop->connections.at[1].kind, JOINT_RAW);
    assert_true(shop->connections.at[1].end_given);
    assert_int_equal(shop->stack, 6);
    assert_int_equal(shop->stations, 24);
    assert_near(shop->notch, 0.75 * INCH, 1e-12);
    assert_near(shop->bend_deduction, INCH / 16, 1e-12);
    assert_int_equal(shop->entries.count, 6); /* they stay entries, for what prices */
    bench_free(bench);
}

static void what_no_shop_says_has_a_default(void **state) {
    (void)state;
    struct bench *bench = bench_clean(JOB UNIT TAIL);
    assert_near(bench->job.shop.joint_length, 5 * FOOT, 1e-9);
    assert_near(bench->job.shop.aspect_limit, 4, 0);
    assert_near(bench->job.shop.flex_stretch, 0.96, 1e-12);
    assert_int_equal(bench->job.shop.trunk_shape, SHAPE_RECTANGULAR);
    assert_int_equal(bench->job.shop.runout_shape, SHAPE_ROUND);
    assert_int_equal(bench->job.shop.stack, 8);
    assert_int_equal(bench->job.shop.stations, 16);
    assert_near(bench->job.shop.notch, 0, 0);
    assert_near(bench->job.shop.bend_deduction, 0, 0);
    assert_int_equal(bench->job.shop.seams.count, 0);
    bench_free(bench);
}

static void things_said_twice(void **state) {
    (void)state;
    static const struct fault faults[] = {
        {.text = JOB "job \"Other\" { revision 2 }\n" UNIT TAIL,
         .level = DIAGNOSTIC_ERROR,
         .check = "repeat",
         .at = "\"Other\"",
         .says = "two jobs",
         .related = "\"T\""},
        {.text = JOB "unit AHU { airflow 300 cfm; airflow 400 cfm }\n" TAIL,
         .level = DIAGNOSTIC_ERROR,
         .check = "repeat",
         .at = "airflow 400 cfm",
         .says = "'airflow' is given twice",
         .related = "airflow 300 cfm"},
        {.text = "job \"T\" { revision 1; revision 2 }\n" UNIT TAIL,
         .level = DIAGNOSTIC_ERROR,
         .check = "repeat",
         .at = "revision 2",
         .says = "given twice",
         .related = "revision 1"},
        {.text = JOB UNIT
         "inlet hall from AHU.return { grille 20 x 14 }\n"
         "outlet a from AHU.supply { limit height 8 in; limit height 9 in; airflow 300 cfm; register 8 x 4 }\n",
         .level = DIAGNOSTIC_ERROR,
         .check = "repeat",
         .at = "9 in",
         .says = "this limit is given twice",
         .related = "limit height 8 in"},
        {.text = UNIT TAIL,
         .level = DIAGNOSTIC_ERROR,
         .check = "job",
         .at = "",
         .says = "there is no 'job'",
         .hint = "job \"Millrace pottery studio\" { customer \"Millrace Potters\" }"},
    };
    assert_faults("", faults, sizeof faults / sizeof faults[0]);
    /* The same word in two blocks is two things. */
    bench_free(bench_clean(JOB UNIT "run trunk from AHU.supply { limit height 8 in; straight 9 ft }\n"
                                    "inlet hall from AHU.return { grille 20 x 14 }\n"
                                    "outlet a from trunk at 2 ft left { airflow 100 cfm; register 8 x 4 }\n"
                                    "outlet b from trunk at 4 ft left { airflow 200 cfm; register 8 x 4 }\n"));
}

static void values_that_make_no_sense(void **state) {
    (void)state;
#define JOB_SAYS(words) "job \"T\" { " words " }\n" UNIT TAIL
#define UNIT_SAYS(words) JOB "unit AHU { " words " }\n" TAIL
#define OUTLET_SAYS(words)                                                                                             \
    JOB UNIT "inlet hall from AHU.return { grille 20 x 14 }\noutlet a from AHU.supply { " words "; register 8 x 4 }\n"
#define SHOP_SAYS(words) "shop \"S\" { " words " }\n" JOB UNIT TAIL
    static const struct fault faults[] = {
        {.text = OUTLET_SAYS("airflow 0 cfm"),
         .level = DIAGNOSTIC_ERROR,
         .check = "value",
         .at = "0 cfm",
         .says = "an airflow of 0 cfm is out of range: expected more than 0 cfm"},
        {.text = OUTLET_SAYS("airflow -40 cfm"),
         .level = DIAGNOSTIC_ERROR,
         .check = "value",
         .at = "-40 cfm",
         .says = "an airflow of -40 cfm"},
        {.text = OUTLET_SAYS("airflow 1000001 cfm"),
         .level = DIAGNOSTIC_ERROR,
         .check = "value",
         .at = "1000001 cfm",
         .says = "at most 1000000 cfm"},
        {.text = JOB_SAYS("altitude 31000 ft"),
         .level = DIAGNOSTIC_ERROR,
         .check = "value",
         .at = "31000 ft",
         .says = "expected at least -1500 ft, at most 30000 ft"},
        {.text = JOB_SAYS("altitude 1250"),
         .level = DIAGNOSTIC_ERROR,
         .check = "unit",
         .at = "1250",
         .says = "expected an altitude with its unit",
         .hint = "altitude 1250 ft"},
        {.text = JOB_SAYS("date 2026-02-29"),
         .level = DIAGNOSTIC_ERROR,
         .check = "value",
         .at = "2026-02-29",
         .says = "there is no day 2026-02-29"},
        {.text = JOB_SAYS("revision 2.5"),
         .level = DIAGNOSTIC_ERROR,
         .check = "value",
         .at = "2.5",
         .says = "whole number"},
        {.text = SHOP_SAYS("seam pitsburgh, pocket 1 in"),
         .level = DIAGNOSTIC_ERROR,
         .check = "value",
         .at = "pitsburgh",
         .says = "wants pittsburgh, snaplock, grooved, lap or standing",
         .hint = "write pittsburgh"},
        {.text = SHOP_SAYS("seam pittsburgh, pocket 0 in, flange 0 in"),
         .level = DIAGNOSTIC_ERROR,
         .check = "value",
         .at = "0 in",
         .says = "a pittsburgh seam without a pocket holds nothing",
         .hint = "leave the 0 out"},
        {.text = SHOP_SAYS("seam lap, flange 0 in"),
         .level = DIAGNOSTIC_ERROR,
         .check = "value",
         .at = "0 in",
         .says = "a lap seam without a flange holds nothing",
         .hint = "seam lap, flange 3/4 in"},
        {.text = SHOP_SAYS("connection welded"),
         .level = DIAGNOSTIC_ERROR,
         .check = "value",
         .at = "welded",
         .says = "wants slip-and-drive, standing-s, flange, crimp or raw"},
        {.text = JOB_SAYS("seam snap-lock"),
         .level = DIAGNOSTIC_ERROR,
         .check = "value",
         .at = "snap-lock",
         .says = "pittsburgh, snaplock",
         .hint = "write snaplock"},
        {.text = OUTLET_SAYS("airflow 300 cfm; joint slip_and_drive"),
         .level = DIAGNOSTIC_ERROR,
         .check = "value",
         .at = "slip_and_drive",
         .says = "standing-s",
         .hint = "write slip-and-drive"},
        {.text = JOB_SAYS("pressure-class 0 in.wg"),
         .level = DIAGNOSTIC_ERROR,
         .check = "value",
         .at = "0 in.wg",
         .says = "a pressure class of 0 in. w.g.",
         .hint = "pressure-class 1 in.wg"},
        {.text = SHOP_SAYS("pressure-class 12 in.wg"),
         .level = DIAGNOSTIC_ERROR,
         .check = "value",
         .at = "12 in.wg",
         .says = "at most 10 in. w.g."},
        {.text = SHOP_SAYS("connection flange, end 5 in"),
         .level = DIAGNOSTIC_ERROR,
         .check = "value",
         .at = "5 in",
         .says = "at most 4 in"},
        {.text = SHOP_SAYS("stack 21"),
         .level = DIAGNOSTIC_ERROR,
         .check = "value",
         .at = "21",
         .says = "a whole number from 1 to 20"},
        {.text = SHOP_SAYS("stations 18"),
         .level = DIAGNOSTIC_ERROR,
         .check = "value",
         .at = "18",
         .says = "a multiple of 4",
         .hint = "write 20"},
        {.text = SHOP_SAYS("stations 100"),
         .level = DIAGNOSTIC_ERROR,
         .check = "value",
         .at = "100",
         .says = "from 8 to 96"},
        {.text = SHOP_SAYS("bend-deduction 1 in"),
         .level = DIAGNOSTIC_ERROR,
         .check = "value",
         .at = "1 in",
         .says = "at most 0.5 in"},
        {.text = UNIT_SAYS("supply 300 x 14"),
         .level = DIAGNOSTIC_ERROR,
         .check = "value",
         .at = "300 x 14",
         .says = "a duct's size of 300 in"},
        {.text = UNIT_SAYS("supply 20 x 25 x 1"),
         .level = DIAGNOSTIC_ERROR,
         .check = "value",
         .at = "20 x 25 x 1",
         .says = "expected a width and a height"},
        {.text = UNIT_SAYS("blower 300 cfm at 0.5 in.wg, 300 cfm at 0.4 in.wg"),
         .level = DIAGNOSTIC_ERROR,
         .check = "value",
         .at = "300 cfm at 0.4 in.wg",
         .says = "two points at one airflow",
         .related = "300 cfm at 0.5 in.wg"},
        {.text = UNIT_SAYS("blower 300 cfm at 0.5 in.wg, 320 cfm at 0.6 in.wg"),
         .level = DIAGNOSTIC_WARNING,
         .check = "blower-rise",
         .at = "320 cfm at 0.6 in.wg",
         .says = "gives no less pressure here",
         .related = "300 cfm at 0.5 in.wg"},
        {.text = UNIT_SAYS("drop \"coil\" -0.1 in.wg"),
         .level = DIAGNOSTIC_ERROR,
         .check = "value",
         .at = "-0.1 in.wg",
         .says = "a pressure of"},
        {.text = OUTLET_SAYS("airflow 300 cfm; limit"),
         .level = DIAGNOSTIC_ERROR,
         .check = "value",
         .at = "limit",
         .says = "expected what is limited"},
        {.text = OUTLET_SAYS("airflow 300 cfm; shape round; size 8 x 6"),
         .level = DIAGNOSTIC_ERROR,
         .check = "value",
         .at = "8 x 6",
         .says = "expected them to agree"},
        {.text = SHOP_SAYS("margin 100 %"),
         .level = DIAGNOSTIC_ERROR,
         .check = "value",
         .at = "100 %",
         .says = "a margin of 100 % is out of range: expected at least 0 %, at most 99 %"},
        {.text = SHOP_SAYS("stretch 40 %"),
         .level = DIAGNOSTIC_ERROR,
         .check = "value",
         .at = "40 %",
         .says = "expected at least 50 %, at most 100 %"},
        {.text = SHOP_SAYS("sizes round 4, 0, 5"),
         .level = DIAGNOSTIC_ERROR,
         .check = "value",
         .at = "0",
         .says = "more than 0 in"},
        {.text = SHOP_SAYS("price sealant -1 per gallon"),
         .level = DIAGNOSTIC_ERROR,
         .check = "value",
         .at = "-1",
         .says = "an amount of -1"},
    };
    assert_faults("", faults, sizeof faults / sizeof faults[0]);
}

static void no_infinite_figure_gets_through(void **state) {
    (void)state;
    char digits[500], text[1200];
    memset(digits, '9', 400);
    digits[400] = 0;
    snprintf(text, sizeof text, JOB UNIT "run t from AHU.supply { straight %s ft }\n" TAIL, digits);
    struct bench *bench = bench_new(text);
    assert_true(bench->diagnostics.error_count >= 1);
    assert_true(bench_run(bench, "t")->faulty);
    bench_free(bench);
}

static void every_statement_has_words_for_its_manual(void **state) {
    (void)state;
    struct arena *arena = arena_new(NULL);
    assert_non_null(arena);
    jmp_buf failed;
    assert_int_equal(setjmp(failed), 0);
    arena_on_failure(arena, &failed);
    struct form_table table = model_forms(arena);
    assert_true(table.count > 50);
    for (size_t i = 0; i < table.count; i++) {
        const struct form *form = table.forms[i];
        assert_non_null(form->meaning);
        assert_non_null(form->example);
        assert_int_equal(strncmp(form->example, form->word, strlen(form->word)), 0);
        assert_true(form->places != 0);
        for (size_t s = 0; s < SLOT_LIMIT && form->slots[s].kind != SLOT_NONE; s++)
            assert_non_null(form->slots[s].meaning);
        for (size_t j = 0; j < i; j++) /* a word has one form in one place */
            if (strcmp(table.forms[j]->word, form->word) == 0)
                assert_int_equal(table.forms[j]->places & form->places, 0);
    }
    arena_free(arena);
}

/* A statement where it may stand, in the first of its places. */
static void write_in_place(char *text, size_t room, const struct form *form) {
    static const struct {
        unsigned place;
        const char *before, *after;
    } blocks[] = {
        {IN_FILE, "", ""},
        {IN_JOB, "job \"T\" {\n", "\n}"},
        {IN_SHOP, "shop \"S\" {\n", "\n}"},
        {IN_UNIT, "unit AHU {\n", "\n}"},
        {IN_RUN, "run r from AHU.supply {\n", "\n}"},
        {IN_OUTLET, "outlet o from AHU.supply {\n", "\n}"},
        {IN_INLET, "inlet i from AHU.return {\n", "\n}"},
        {IN_ALTERNATE, "alternate A {\n", "\n}"},
    };
    size_t i = 0;
    while (!(form->places & blocks[i].place))
        i++;
    bool is_job = blocks[i].place == IN_JOB || strcmp(form->word, "job") == 0;
    snprintf(text, room, "%s%s%s%s\n", is_job ? "" : JOB, blocks[i].before, form->example, blocks[i].after);
}

static void every_example_of_the_manual_can_be_typed_in(void **state) {
    (void)state;
    struct bench *forms = bench_new(JOB UNIT TAIL);
    struct form_table table = model_forms(forms->arena);
    for (size_t i = 0; i < table.count; i++) {
        char text[600];
        write_in_place(text, sizeof text, table.forms[i]);
        struct bench *bench = bench_read(text);
        model_build(&bench->job, piece_kinds());
        if (bench->diagnostics.all.count) {
            bench_print(bench);
            fail_msg("the example of '%s' is not right", table.forms[i]->word);
        }
        bench_free(bench);
    }
    bench_free(forms);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_job_and_its_terms),
        cmocka_unit_test(a_unit),
        cmocka_unit_test(bare_lengths_are_in_the_units_of_the_job_and_of_the_shop),
        cmocka_unit_test(a_shop_overrides_and_says_so),
        cmocka_unit_test(a_shop_says_what_its_seams_take_and_how_it_marks),
        cmocka_unit_test(what_no_shop_says_has_a_default),
        cmocka_unit_test(things_said_twice),
        cmocka_unit_test(values_that_make_no_sense),
        cmocka_unit_test(no_infinite_figure_gets_through),
        cmocka_unit_test(every_example_of_the_manual_can_be_typed_in),
        cmocka_unit_test(every_statement_has_words_for_its_manual),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
