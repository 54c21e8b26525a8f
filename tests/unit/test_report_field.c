/* The field packet: what is hung stands there once and in order, every terminal and every test point has its row, and
 * nothing that belongs to the office. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "cost/takeoff.h"
#include <math.h>

#include "air/operation.h"
#include "base/constant.h"
#include "compiled.h"
#include "metal/metal.h"
#include "paper_text.h"
#include "ration.h"
#include "report/bid.h"
#include "report/packet.h"

/* The part of the text under a heading of the second level, cut off there.  Frees the whole. */
static char *section_of(char *text, const char *heading) {
    char head[100];
    snprintf(head, sizeof head, "\n## %s\n", heading);
    char *begin = strstr(text, head);
    if (!begin)
        fail_msg("there is no '%s' in:\n%.3000s", heading, text);
    char *end = begin ? strstr(begin + 1, "\n## ") : NULL;
    char *part = strndup(begin, end ? (size_t)(end - begin) : strlen(begin));
    free(text);
    return part;
}

/* Rows of the tables in a text: lines that begin with a bar, without heads and rules. */
static size_t rows_in(const char *text) {
    return times(text, "\n|") - 2 * times(text, "\n| -");
}

static const char house[] =
    "job \"House\" { place attic 130 F; seal B; insulation R-6 }\n"
    "shop \"Tinker Row\" { contact \"3 Tinker Row\"; price damper 11.75 per each; rate shop 38 per hour; markup 15 % "
    "}\n"
    "unit fan { blower 600 cfm at 0.70 in.wg; drop \"coil\" 0.20 in.wg; supply 14 x 14; return 18 x 12 }\n"
    "run trunk \"Trunk | one\" from fan.supply { straight 24 ft; cap }\n"
    "outlet a from trunk at 4 ft left { room \"Bed\"; airflow 200 cfm; damper; straight 5 ft; boot; register 12 x 8 }\n"
    "outlet b from trunk at 12 ft left { airflow 200 cfm; damper; flex 6 ft; boot; register 12 x 8 }\n"
    "outlet c from trunk at about 22 ft left { airflow 200 cfm; flex about 12 ft; boot; register 12 x 8 }\n"
    "run back from fan.return { straight 4 ft }\ninlet hall from back { filter 24 x 14 x 1 }\n";

static struct compiled a_house(void) {
    return compiled_text("%s", house);
}

static void the_first_page_gives_way_to_code_and_warns(void **state) {
    (void)state;
    struct compiled compiled = a_house();
    char *text = packet_text(compiled.job, "field");
    const char *deference = strstr(text, "authority having jurisdiction"), *second = strstr(text, "\n## ");
    assert_true(deference && deference < second);
    char *cautions = section_of(text, "Before anyone goes in");
    expect_in(cautions, "heat stroke"); /* the duct lies in an attic */
    assert_int_equal(times(cautions, "crawl"), 0);
    free(cautions);
    compiled_free(&compiled);
}

static void every_part_is_hung_once_in_order(void **state) {
    (void)state;
    struct compiled compiled = a_house();
    char *order = section_of(packet_text(compiled.job, "field"), "Hanging order");
    const char *at = order;
    size_t rows = 0, hung = 0;
    while (hung < compiled.job->metal->pieces) { /* a row says from which number on, and how many follow */
        char number[32];
        snprintf(number, sizeof number, "\n| %5zu |", hung + 1);
        at = strstr(at, number);
        assert_non_null(at);
        size_t count = strtoul(at + strlen(number), NULL, 10);
        assert_true(count > 0);
        hung += count;
        rows++;
    }
    assert_int_equal(hung, compiled.job->metal->pieces);
    assert_int_equal(rows_in(order), rows);
    free(order);
    compiled_free(&compiled);
}

static void every_bought_thing_has_its_place(void **state) {
    (void)state;
    struct compiled compiled = a_house();
    size_t wanted = 0;
    for (size_t i = 0; i < compiled.job->metal->bought.count; i++)
        wanted += compiled.job->metal->bought.at[i].pieces.count;
    for (size_t i = 0; i < compiled.job->takeoff->lines.count; i++) /* and what is used up everywhere, its sum */
        wanted += compiled.job->takeoff->lines.at[i].item->group >= BILL_HANGING;
    char *bought = section_of(packet_text(compiled.job, "field"), "Bought things and where they go");
    assert_int_equal(rows_in(bought), wanted);
    free(bought);
    compiled_free(&compiled);
}

/* All that the take-off has, by their number and by their stations. */
static void every_hanger_is_named(void **state) {
    (void)state;
    struct compiled compiled = a_house();
    const struct takeoff *takeoff = compiled.job->takeoff;
    char *section = section_of(packet_text(compiled.job, "field"), "Hangers");
    size_t named = 0;
    for (const char *line = strchr(section, '\n'); line; line = strchr(line + 1, '\n')) {
        const char *count = line[1] == '|' ? strchr(line + 2, '|') : NULL;
        count = count ? strchr(count + 1, '|') : NULL;
        size_t said = count ? strtoul(count + 1, NULL, 10) : 0;
        size_t stations = said ? 1 : 0;
        for (const char *at = line + 1; said && *at && *at != '\n'; at++)
            stations += *at == ';';
        assert_int_equal(stations, said);
        named += said;
    }
    assert_true(named > 3);
    assert_int_equal(named, takeoff->hangers.count);
    free(section);
    compiled_free(&compiled);
}

static void every_terminal_has_its_row_and_its_damper(void **state) {
    (void)state;
    struct compiled compiled = a_house();
    char *sheet = section_of(packet_text(compiled.job, "field"), "Balancing");
    assert_int_equal(rows_in(sheet), 4);
    const struct network *network = compiled_network(&compiled);
    char start[40];
    snprintf(start, sizeof start, "| open %.0f ", 90 - network->operation->supply_settings[1].blade / DEGREE);
    expect_in(sheet, start);
    expect_in(sheet, "| wide open ");
    expect_in(sheet, "needs none");
    expect_in(sheet, " 200 |");
    free(sheet);
    compiled_free(&compiled);
}

/* The printed figures are those of the pass, to the last printed digit. */
static void every_test_point_has_its_row(void **state) {
    (void)state;
    struct compiled compiled = a_house();
    const struct network *network = compiled_network(&compiled);
    char *sheet = section_of(packet_text(compiled.job, "field"), "Test points");
    assert_int_equal(rows_in(sheet), network->test_points.count);
    for (size_t i = 0; i < network->test_points.count; i++) {
        char figure[120];
        const struct test_point *at = &network->test_points.at[i];
        char operating[40] = "";
        if (isfinite(at->operating))
            snprintf(operating, sizeof operating, "%.3f", at->operating / INCH_OF_WATER);
        snprintf(figure, sizeof figure, " %.3f | %8s |      |", at->expected / INCH_OF_WATER, operating);
        expect_in(sheet, figure);
    }
    free(sheet);
    compiled_free(&compiled);
}

static void every_estimate_has_a_blank(void **state) {
    (void)state;
    struct compiled compiled = a_house();
    char *sheet = section_of(packet_text(compiled.job, "field"), "To be measured first");
    assert_int_equal(rows_in(sheet), 2);
    assert_int_equal(bid_estimates(compiled.job), 2);
    expect_in(sheet, "| flex about 12 ft ");
    expect_in(sheet, "| outlet c from trunk at about 22 ft left |          | part");
    free(sheet);
    compiled_free(&compiled);
    compiled = compiled_text("job \"None\"\nunit fan { blower 200 cfm at 0.5 in.wg; supply 12 x 8; return 12 x 8 }\n"
                             "run trunk from fan.supply { straight 4 ft }\n"
                             "outlet a from trunk { airflow 200 cfm; register 12 x 8 }\n"
                             "run back from fan.return { straight 4 ft }\ninlet hall from back { grille 12 x 12 }\n");
    char *text = packet_text(compiled.job, "field");
    assert_int_equal(times(text, "To be measured first"), 0);
    free(text);
    compiled_free(&compiled);
}

static void every_run_says_how_it_is_sealed_and_covered(void **state) {
    (void)state;
    struct compiled compiled = a_house();
    char *sheet = section_of(packet_text(compiled.job, "field"), "Sealing and insulation");
    assert_int_equal(rows_in(sheet), compiled.job->runs.count);
    assert_int_equal(times(sheet, "| R-6.0"), compiled.job->runs.count);
    assert_int_equal(times(sheet, "| attic | B  "), compiled.job->runs.count);
    free(sheet);
    compiled_free(&compiled);
}

static void no_money_and_no_word_of_a_program_goes_to_the_field(void **state) {
    (void)state;
    struct compiled compiled = a_house();
    char *text = packet_text(compiled.job, "field");
    static const char *const words[] = {"$", "11.75", "38", "markup", "price", "(null)", "nan", "token", "pars"};
    for (size_t i = 0; i < sizeof words / sizeof words[0]; i++)
        if (times(text, words[i]))
            fail_msg("'%s' is in:\n%s", words[i], strstr(text, words[i]));
    free(text);
    compiled_free(&compiled);
}

/* Blocks from the far end of one piece of memory: what is taken later lies before what was taken earlier. */
static void *take_from_behind(void *context, size_t size) {
    char **end = context;
    *end -= (size + 63) & ~(size_t)63;
    return memset(*end, 0xA5, size);
}

static void give_nothing(void *context, void *block) {
    (void)context;
    (void)block;
}

/* Nothing is in the order of its addresses, and nothing is read that was never written. */
static void where_memory_lies_does_not_change_a_byte(void **state) {
    (void)state;
    static char memory[64 << 20];
    char *end = memory + sizeof memory;
    struct arena_source source = {.take = take_from_behind, .give = give_nothing, .context = &end};
    struct compiled first = a_house();
    struct cleat *second = cleat_new_from(&source, NULL);
    cleat_compile_text(second, "test.job", first.text, strlen(first.text));
    static const char *const readers[] = {"customer", "shop", "field", "office"};
    for (size_t i = 0; i < sizeof readers / sizeof readers[0]; i++) {
        char *one = packet_text(first.job, readers[i]), *other = packet_text(cleat_job(second), readers[i]);
        assert_string_equal(one, other);
        free(one);
        free(other);
    }
    assert_true(end > memory);
    compiled_free(&first);
    cleat_free(second);
}

static void running_out_of_memory_is_said_and_nothing_is_lost(void **state) {
    (void)state;
    struct compiled compiled = a_house();
    bool whole = false;
    size_t blocks = 0;
    for (; blocks < 1000 && !whole; blocks++) {
        size_t left = blocks;
        struct arena_source memory = ration_of(&left);
        struct output *out = output_open_memory();
        whole = packet_write(packet_for("field"), compiled.job, &markdown_writer, NULL, &memory, out);
        output_abandon(out);
    }
    assert_true(whole && blocks > 10);
    compiled_free(&compiled);
}

/* ---- The offer that goes with it --------------------------------------------------------------------------------- */

static void the_scope_says_from_where_to_where(void **state) {
    (void)state;
    struct compiled compiled = a_house();
    char *scope = section_of(packet_text(compiled.job, NULL), "Scope of work");
    expect_in(scope, "Furnish and install the supply ductwork of fan, from its 14 x 14 in collar to 3 outlets with 600 "
                     "cfm\nin all, for Bed; b and c.\n");
    expect_in(scope, "from 1 inlet with 600 cfm in all, in hall, back to\nits 18 x 12 in collar.\n");
    expect_in(scope, "- **Balancing:** a volume damper for 2 of 3 outlets\n");
    expect_in(scope, "- **Flexible duct:** on 2 of 6 runs\n");
    free(scope);
    compiled_free(&compiled);
}

/* What is left open is counted out of the job itself. */
static void what_the_bid_rests_on_is_counted(void **state) {
    (void)state;
    struct compiled compiled = a_house();
    char *text = packet_text(compiled.job, NULL), *copy = strdup(text);
    char *rests = section_of(text, "What this bid rests on");
    expect_in(rests, "2 dimensions are estimated");
    expect_in(rests, "4 registers, grilles or filters take;");
    char *checked = section_of(copy, "How the design was checked");
    char taken[60];
    snprintf(taken, sizeof taken, "takes\n%.3f in. w.g.", compiled_network(&compiled)->system_pressure / INCH_OF_WATER);
    expect_in(checked, taken);
    free(rests);
    free(checked);
    compiled_free(&compiled);
}

/* The offer fits a few pages; all that is for checking stands behind it, and the signature before. */
static void the_offer_comes_before_the_record(void **state) {
    (void)state;
    struct compiled compiled = a_house();
    char *text = packet_text(compiled.job, NULL);
    const char *accepted = strstr(text, "\n## Acceptance\n"), *record = strstr(text, "\n# Design record\n");
    assert_true(accepted && record && accepted < record);
    for (const char *table = strstr(text, "\n|"); table && table < record; table = NULL)
        fail_msg("a table stands in the offer: %.200s", table);
    expect_in(record, "\n## Pressure losses of every run\n");
    free(text);
    compiled_free(&compiled);
}

static void the_hanging_order_says_where_each_tap_is_cut_in(void **state) {
    (void)state;
    struct compiled compiled = a_house();
    char *order = section_of(packet_text(compiled.job, "field"), "Hanging order");
    assert_int_equal(times(order, "into trunk at "), 3);
    assert_int_equal(times(order, "| into trunk at 4 ft, left "), 1);
    assert_int_equal(times(order, "| into trunk at 12 ft, left "), 1);
    assert_int_equal(times(order, "| into trunk at about 22 ft, left "), 1);
    free(order);
    compiled_free(&compiled);
}

/* A figure of which nothing follows for the metal has words too. */
static void what_waits_is_said_of_every_estimate(void **state) {
    (void)state;
    struct compiled compiled = compiled_text(
        "job \"t\" {}\nunit fan { airflow 400 cfm; blower 460 cfm at 0.2 in.wg, 400 cfm at 0.4 in.wg; supply 12 x 8\n"
        "    drop \"coil\" about 0.05 in.wg; return 20 x 14 }\nrun trunk from fan.supply { straight 12 ft; cap }\n"
        "outlet one from trunk at 6 ft left { airflow 400 cfm; size about 7; straight about 6 ft; boot; register 12 x "
        "6 }\n"
        "run back from fan.return { straight 4 ft }\ninlet hall from back { grille 20 x 14 }\n");
    char *text = packet_text(compiled.job, "field");
    assert_int_equal(times(text, "| nothing that is cut"), 1); /* the drop: every size is given */
    assert_int_equal(times(text, "| all of one; part 2, for the opening"), 1);
    assert_int_equal(times(text, "| part 7 "), 1);
    free(text);
    compiled_free(&compiled);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_first_page_gives_way_to_code_and_warns),
        cmocka_unit_test(the_hanging_order_says_where_each_tap_is_cut_in),
        cmocka_unit_test(what_waits_is_said_of_every_estimate),
        cmocka_unit_test(every_part_is_hung_once_in_order),
        cmocka_unit_test(every_bought_thing_has_its_place),
        cmocka_unit_test(every_hanger_is_named),
        cmocka_unit_test(every_terminal_has_its_row_and_its_damper),
        cmocka_unit_test(every_test_point_has_its_row),
        cmocka_unit_test(every_estimate_has_a_blank),
        cmocka_unit_test(every_run_says_how_it_is_sealed_and_covered),
        cmocka_unit_test(no_money_and_no_word_of_a_program_goes_to_the_field),
        cmocka_unit_test(where_memory_lies_does_not_change_a_byte),
        cmocka_unit_test(running_out_of_memory_is_said_and_nothing_is_lost),
        cmocka_unit_test(the_scope_says_from_where_to_where),
        cmocka_unit_test(what_the_bid_rests_on_is_counted),
        cmocka_unit_test(the_offer_comes_before_the_record),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
