/* Figures of the whole system: no text meets a line or a text, every run stands in the tree once and below what it
 * hangs from, the pressure line ends where the budget does, and the axes hold what they show. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "compiled.h"
#include "draw_bench.h"
#include "near.h"
#include "report/figure_page.h"
#include "report/figure_pressure.h"
#include "report/figure_tree.h"
#include "report/figures.h"

static const char *const paths[] = {"tests/golden/kinds.job", "jobs/choirhouse.job", "jobs/cooperage.job",
                                    "jobs/fieldstation.job", "jobs/smallest.job"};
enum { PATHS = sizeof paths / sizeof *paths };

/* A job of a file or a text, and where to go when its arena has no more memory: the end of the test. */
struct drawn {
    struct compiled compiled;
    const struct job *job;
    jmp_buf full;
};

static void drawn_ready(struct drawn *drawn) {
    drawn->job = cleat_job(drawn->compiled.cleat);
    if (setjmp(drawn->full))
        abort();
    arena_on_failure(drawn->job->arena, &drawn->full);
    assert_true(drawn->job->units.count > 0 && drawn->job->units.at[0]->network);
}

static void drawn_open(struct drawn *drawn, const char *path) {
    drawn->compiled = (struct compiled){.cleat = cleat_new(NULL)};
    cleat_compile(drawn->compiled.cleat, path);
    drawn_ready(drawn);
}

/* A trunk with `taps` outlets, each called by a long name, and `deep` runs that hang from each other in a row. */
static void drawn_large(struct drawn *drawn, int taps, int deep) {
    char *text;
    size_t length;
    FILE *out = open_memstream(&text, &length);
    fprintf(out, "job \"Long house\"\nunit fan { blower %d cfm at 2.5 in.wg; supply 60 x 60; return 60 x 60 }\n",
            100 * (taps + 1));
    fprintf(out,
            "run trunk \"A trunk whose title is longer than any column has room for, or so one hopes\" from fan.supply "
            "{ straight %d ft; cap }\n",
            4 * taps + 8);
    for (int i = 0; i < taps; i++)
        fprintf(out,
                "outlet an_outlet_with_a_rather_long_name_%d from trunk at %d ft left { room \"Room %d,\xE2\x80\xA8 "
                "behind the "
                "WWWWWWWWWWWW "
                "of the great hall\"; airflow 100 cfm; damper; flex 6 ft; boot; register 12 x 8 }\n",
                i, 4 * i + 3, i);
    fprintf(out, "run deep_0 from trunk at %d ft right { straight 4 ft }\n", 4 * taps + 3);
    for (int i = 1; i < deep; i++)
        fprintf(out, "run deep_%d from deep_%d { straight 4 ft }\n", i, i - 1);
    fprintf(out, "outlet last from deep_%d { airflow 100 cfm; register 12 x 8 }\n", deep - 1);
    fprintf(out, "run back from fan.return { straight 4 ft }\ninlet hall from back { grille 60 x 60 }\n");
    fclose(out);
    drawn->compiled = compiled_text("%s", text);
    free(text);
    drawn_ready(drawn);
}

static void drawn_close(struct drawn *drawn) {
    compiled_free(&drawn->compiled);
}

/* ---- Nothing overlaps -------------------------------------------------------------------------------------------- */

static size_t assert_all_clear(const struct drawn *drawn) {
    struct arena *arena = drawn->job->arena;
    size_t figures = 0;
    for (size_t i = 0; i < drawn->job->units.count; i++) {
        const struct network *network = drawn->job->units.at[i]->network;
        const struct tree *tree = tree_of(arena, network);
        for (size_t page = 0; page < tree_pages(tree); page++, figures++)
            assert_sheet_clear(sheet_lay_out(figure_tree(arena, drawn->job, tree, page), SHEET_FIT));
        const struct pressure_line *line = pressure_line_of(arena, drawn->job, network);
        for (size_t page = 0; page < pressure_pages(line); page++, figures++)
            assert_sheet_clear(sheet_lay_out(figure_pressure(arena, drawn->job, line, page), SHEET_FIT));
        assert_sheet_clear(sheet_lay_out(figure_blower(arena, drawn->job, network), SHEET_FIT));
        figures++;
    }
    return figures;
}

static void no_text_meets_a_line_or_a_text(void **state) {
    (void)state;
    for (size_t i = 0; i < PATHS; i++) {
        struct drawn drawn;
        drawn_open(&drawn, paths[i]);
        assert_all_clear(&drawn);
        drawn_close(&drawn);
    }
}

static void long_names_and_many_rows_stay_in_their_columns(void **state) {
    (void)state;
    struct drawn drawn;
    drawn_large(&drawn, 60, 30);
    assert_true(assert_all_clear(&drawn) >= 5);
    const struct tree *tree = tree_of(drawn.job->arena, drawn.job->units.at[0]->network);
    assert_int_equal(tree_pages(tree), (tree->rows.count + PAGE_ROWS - 1) / PAGE_ROWS);
    const struct sheet *sheet = sheet_lay_out(figure_tree(drawn.job->arena, drawn.job, tree, 0), SHEET_FIT);
    assert_near(sheet->width, PAGE_WIDTH, 1e-6);
    assert_true(letters_shown(sheet, "…"));
    drawn_close(&drawn);
}

/* Where each run hangs is shown whole. */
static void a_place_is_not_cut_short(void **state) {
    (void)state;
    struct drawn drawn;
    drawn.compiled = compiled_text(
        "job \"t\" {}\nunit fan { airflow 400 cfm; blower 460 cfm at 0.2 in.wg, 400 cfm at 0.4 in.wg; supply 12 x 8\n"
        "    return 20 x 14 }\nrun trunk from fan.supply { straight 18 ft; cap }\n"
        "outlet one from trunk at 12 ft 10.5 in bottom { airflow 400 cfm; size 7; straight 6 ft; boot; register 12 x 6 "
        "}\n"
        "run back from fan.return { straight 4 ft }\ninlet hall from back { grille 20 x 14 }\n");
    drawn_ready(&drawn);
    assert_all_clear(&drawn);
    const struct tree *tree = tree_of(drawn.job->arena, drawn.job->units.at[0]->network);
    const struct sheet *sheet = sheet_lay_out(figure_tree(drawn.job->arena, drawn.job, tree, 0), SHEET_FIT);
    assert_true(letters_shown(sheet, "12 ft 10-1/2 in, bottom"));
    assert_false(letters_shown(sheet, "…"));
    drawn_close(&drawn);
}

/* ---- The tree ---------------------------------------------------------------------------------------------------- */

static void every_run_stands_once_below_what_it_hangs_from(void **state) {
    (void)state;
    for (size_t f = 0; f < PATHS; f++) {
        struct drawn drawn;
        drawn_open(&drawn, paths[f]);
        size_t *row_of = ARENA_ARRAY(drawn.job->arena, size_t, drawn.job->runs.count), total = 0;
        for (size_t u = 0; u < drawn.job->units.count; u++) {
            const struct tree *tree = tree_of(drawn.job->arena, drawn.job->units.at[u]->network);
            for (size_t i = 0; i < tree->rows.count; i++) {
                const struct tree_row *row = &tree->rows.at[i];
                if (!row->run || row->goes_on)
                    continue;
                assert_int_equal(row_of[row->run->id], 0);
                row_of[row->run->id] = i;
                total++;
                if (row->run->parent) {
                    assert_true(row_of[row->run->parent->id] < i);
                    assert_int_equal(row->depth, tree->rows.at[row_of[row->run->parent->id]].depth + 1);
                }
            }
        }
        assert_int_equal(total, drawn.job->runs.count);
        drawn_close(&drawn);
    }
}

/* Each size that a duct has is there, in the order of the run, and so are the taps by their stations. */
static void sizes_and_taps_come_as_they_are_hung(void **state) {
    (void)state;
    struct drawn drawn;
    drawn_open(&drawn, "jobs/choirhouse.job");
    const struct tree *tree = tree_of(drawn.job->arena, drawn.job->units.at[0]->network);
    static const char *const wanted[] = {NULL,          "plenum",    "hallside", "hall_west", "hall_stage", "hallside",
                                         "hall_middle", "hall_east", "hallside", "robing",    "streetside"};
    for (size_t i = 1; i < sizeof wanted / sizeof *wanted; i++)
        assert_string_equal(tree->rows.at[i].run->name, wanted[i]);
    assert_true(tree->rows.at[5].goes_on && tree->rows.at[8].goes_on && !tree->rows.at[2].goes_on);
    assert_near(tree->rows.at[2].duct->size.width, 12 * INCH, 1e-9);
    assert_near(tree->rows.at[5].duct->size.width, 7 * INCH, 1e-9);
    drawn_close(&drawn);
}

/* The rows that are drawn thick are those that the air of the governing paths goes through. */
static void the_costliest_path_is_marked_from_end_to_end(void **state) {
    (void)state;
    struct drawn drawn;
    drawn_open(&drawn, "jobs/choirhouse.job");
    const struct network *network = drawn.job->units.at[0]->network;
    const struct tree *tree = tree_of(drawn.job->arena, network);
    size_t marked = 0, wanted = 0;
    for (size_t i = 0; i < tree->rows.count; i++)
        marked += tree->rows.at[i].run && tree->rows.at[i].costliest;
    for (const struct run *run = network->governing_supply->end->run; run; run = run->parent)
        wanted++;
    for (const struct run *run = network->governing_return->end->run; run; run = run->parent)
        wanted++;
    assert_int_equal(marked, wanted);
    drawn_close(&drawn);
}

/* A job far deeper than the page is wide stays on it. */
static void what_hangs_deep_is_drawn_in_line(void **state) {
    (void)state;
    struct drawn drawn;
    drawn_large(&drawn, 1, 400);
    const struct tree *tree = tree_of(drawn.job->arena, drawn.job->units.at[0]->network);
    for (size_t i = 0; i < tree->rows.count; i++)
        assert_true(tree->rows.at[i].depth <= TREE_DEEPEST);
    drawn_close(&drawn);
}

/* ---- Pressure ---------------------------------------------------------------------------------------------------- */

static void the_line_ends_with_what_is_left_over(void **state) {
    (void)state;
    for (size_t f = 0; f < PATHS; f++) {
        struct drawn drawn;
        drawn_open(&drawn, paths[f]);
        const struct network *network = drawn.job->units.at[0]->network;
        const struct pressure_line *line = pressure_line_of(drawn.job->arena, drawn.job, network);
        assert_near(line->steps.at[0].before, 0, 0);
        for (size_t i = 1; i < line->steps.count; i++)
            assert_near(line->steps.at[i].before, line->steps.at[i - 1].behind, 0);
        assert_near(line->steps.at[line->steps.count - 1].behind, network->surplus, 1e-9);
        drawn_close(&drawn);
    }
}

/* ---- Blower and axes --------------------------------------------------------------------------------------------- */

static void the_blower_figure_says_the_budget(void **state) {
    (void)state;
    struct drawn drawn;
    drawn_open(&drawn, "jobs/choirhouse.job");
    const struct sheet *sheet =
        sheet_lay_out(figure_blower(drawn.job->arena, drawn.job, drawn.job->units.at[0]->network), SHEET_FIT);
    assert_true(letters_shown(sheet, "1200 cfm"));
    assert_true(letters_shown(sheet, "0.489 in. w.g."));
    assert_true(letters_shown(sheet, "0.471 in. w.g."));
    assert_true(letters_shown(sheet, "left over: 0.018 in. w.g."));
    drawn_close(&drawn);
}

static void an_axis_holds_its_values_in_even_steps(void **state) {
    (void)state;
    uint64_t seed = 20261129;
    for (int i = 0; i < 2000; i++) {
        double low = (chance(&seed) - 0.5) * 1000, high = low + exp((chance(&seed) - 0.5) * 16);
        struct axis axis = axis_over(MEASURE_US, SHOW_PRESSURE, low, high, 3 + (int)(chance(&seed) * 6));
        double factor = axis.show->factor, power = pow(10, floor(log10(axis.step) + 1e-9)), lead = axis.step / power;
        assert_true(axis.low * factor <= low + 1e-6 * axis.step * factor);
        assert_true(axis.high * factor >= high - 1e-6 * axis.step * factor);
        assert_true(fabs(lead - 1) < 1e-6 || fabs(lead - 2) < 1e-6 || fabs(lead - 5) < 1e-6);
        assert_in_range(axis_ticks(&axis), 2, 12);
        axis.from = 10;
        axis.to = 110;
        assert_near(axis_tick(&axis, 0), 10, 1e-6);
        assert_near(axis_tick(&axis, axis_ticks(&axis) - 1), 110, 1e-6);
    }
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(no_text_meets_a_line_or_a_text),
        cmocka_unit_test(long_names_and_many_rows_stay_in_their_columns),
        cmocka_unit_test(a_place_is_not_cut_short),
        cmocka_unit_test(every_run_stands_once_below_what_it_hangs_from),
        cmocka_unit_test(sizes_and_taps_come_as_they_are_hung),
        cmocka_unit_test(the_costliest_path_is_marked_from_end_to_end),
        cmocka_unit_test(what_hangs_deep_is_drawn_in_line),
        cmocka_unit_test(the_line_ends_with_what_is_left_over),
        cmocka_unit_test(the_blower_figure_says_the_budget),
        cmocka_unit_test(an_axis_holds_its_values_in_even_steps),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
