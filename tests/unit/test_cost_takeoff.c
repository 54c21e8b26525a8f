/* The take-off of a job small enough to be counted by hand, and what holds of every item. */
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <setjmp.h>
#include <cmocka.h>

#include "cost/labour_count.h"
#include "metal/nest.h"
#include "near.h"
#include "takeoff_line.h"

/* Twelve feet of 12 x 8 from the collar to a register, and four back: by joints of a 5 ft blank, less 1/2 in at each
 * end, pieces of 59, 59 and 26 in, and one of 48. */
static struct compiled two_ducts(const char *settings) {
    return compiled_text("job \"t\" { %s }\n"
                         "unit fan { airflow 300 cfm; blower 340 cfm at 0.2 in.wg, 300 cfm at 0.4 in.wg\n"
                         "    supply 12 x 8; return 12 x 8 }\n"
                         "run trunk from fan.supply { straight 12 ft }\n"
                         "outlet room from trunk { airflow 300 cfm; register 12 x 8 }\n"
                         "run back from fan.return { straight 4 ft }\n"
                         "inlet hall from back { grille 12 x 8 }\n",
                         settings);
}

#define CUBIC_INCH (INCH * INCH * INCH)
#define SQUARE_INCH (INCH * INCH)

/* Four joints of 40 in round; seams of 144 and 48 in; no openings cut in a wall. */
static void sealant_is_a_band_along_what_the_class_asks(void **state) {
    (void)state;
    struct {
        const char *settings;
        double length; /* in */
    } jobs[] = {{"seal C", 160}, {"seal B", 160 + 192}, {"seal A", 160 + 192}, {"", 160}};
    for (size_t i = 0; i < sizeof jobs / sizeof jobs[0]; i++) {
        struct compiled job = two_ducts(jobs[i].settings);
        const struct bill_line *line = line_of(&job, "duct_sealant", NULL);
        assert_non_null(line);
        assert_near(line->net, jobs[i].length * 2 * 0.020 * CUBIC_INCH, 1e-12);
        assert_near(line->wanted, 2 * line->net, 1e-12);
        compiled_free(&job);
    }
}

/* A gallon is 231 in3: 5775 in of a band 2 in x 20 mil, a little over 480 ft. */
static void a_gallon_reaches_as_far_as_its_maker_says(void **state) {
    (void)state;
    struct compiled job = two_ducts("");
    const struct bill_line *line = line_of(&job, "duct_sealant", NULL);
    double feet = 160.0 / 12, gallons = line->net / (231 * CUBIC_INCH);
    assert_near(feet / gallons, 480, 2);
    compiled_free(&job);
}

/* Slips on the two 12 in sides: a screw within 2 in of each corner is 8 in apart, so 2 a side, 4 a joint, in 4 joints;
 * one in each of the two straps of the two hangers.  A tenth for those that drop: 22. */
static void screws_stand_in_the_slips(void **state) {
    (void)state;
    struct compiled job = two_ducts("");
    const struct bill_line *line = line_of(&job, "screws", NULL);
    assert_near(line->net, 4 * 4 + 4, 0);
    assert_near(line->wanted, 22, 0);
    compiled_free(&job);
}

/* One hanger at 10 ft; the register bears the far end, the unit the near one, and between them are 12 ft; and one in
 * the middle of the 4 ft back.  Each strap goes down 12 in and 8 in of duct, and has 4 in for its ends. */
static void twelve_feet_hang_by_one_pair_of_straps(void **state) {
    (void)state;
    struct compiled job = two_ducts("");
    const struct takeoff *takeoff = job.job->takeoff;
    assert_int_equal(takeoff->hangers.count, 2);
    assert_near(takeoff->hangers.at[0].station, 10 * FOOT, 1e-9);
    assert_near(takeoff->hangers.at[1].station, 2 * FOOT, 1e-9);
    const struct bill_line *line = line_of(&job, "hanger_strap", "hanger_strap 1 x 22");
    assert_non_null(line);
    assert_near(line->net, 4 * (12 + 8 + 4) * INCH, 1e-9);
    assert_near(line->wanted, 1.05 * line->net, 1e-9);
    assert_near(net_of(&job, "hanger_fastener"), 4, 0);
    compiled_free(&job);
}

/* 192 in of a girth of 40 in; R-8 wrap is 8 x 3/8 = 3 in thick, so that its girth is 40 + 2 + 4 x 3 = 54 in;
 * a tenth is lost. */
static void wrap_is_as_wide_as_its_girth(void **state) {
    (void)state;
    struct compiled job = two_ducts("insulation R-8");
    const struct bill_line *line = line_of(&job, "duct_wrap", "duct_wrap R-8");
    assert_non_null(line);
    assert_near(line->net, 192 * 40 * SQUARE_INCH, 1e-9);
    assert_near(line->wanted, 192 * 54 * 1.1 * SQUARE_INCH, 1e-9);
    compiled_free(&job);
}

/* Pins of a side 59 in long: 3 in from each end and 18 in apart at most, 4 of them; 26 in: 3; 48 in: 4.  Across 12 or 8
 * in,
 * 2.  Four sides each.  A gallon of adhesive covers 100 ft2.  The metal is that of the collar, 12 x 8. */
static void lining_has_its_pins_and_adhesive(void **state) {
    (void)state;
    struct compiled job = two_ducts("lining 1 in");
    const struct bill_line *line = line_of(&job, "duct_liner", "duct_liner 1");
    assert_non_null(line);
    assert_near(line->net, 192 * 40 * SQUARE_INCH, 1e-9);
    assert_near(line->wanted, 1.1 * line->net, 1e-9);
    assert_near(net_of(&job, "liner_pin"), 4 * 2 * (4 + 4 + 3 + 4), 0);
    assert_near(net_of(&job, "liner_adhesive"), 192 * 40 / 144.0 / 100 * 231 * CUBIC_INCH, 1e-9);
    compiled_free(&job);
}

static void flanges_have_corners_bolts_and_a_gasket(void **state) {
    (void)state;
    struct compiled job = two_ducts("joint flange");
    size_t joints = 0;
    for (size_t i = 0; i < job.job->takeoff->connections.count; i++)
        joints += job.job->takeoff->connections.at[i].closing == CLOSED_JOINT;
    assert_true(joints >= 4);
    assert_near(net_of(&job, "flange_corner"), 8.0 * (double)joints, 0);
    assert_near(net_of(&job, "flange_bolt"), 4.0 * (double)joints, 0);
    assert_near(net_of(&job, "gasket"), 40 * INCH * (double)joints, 1e-9);
    assert_null(line_of(&job, "duct_sealant", NULL)); /* the gasket seals */
    assert_near(net_of(&job, "screws"), 4, 0);        /* those of the straps */
    compiled_free(&job);
}

/* A runout of 9 ft of flexible duct between a tap and a boot: supports 3 ft apart, ties and tape at two ends. */
static struct compiled runout(const char *settings) {
    return compiled_text("job \"t\" { %s }\n"
                         "unit fan { airflow 150 cfm; blower 180 cfm at 0.1 in.wg, 150 cfm at 0.4 in.wg\n"
                         "    supply 12 x 10; return 12 x 10 }\n"
                         "run trunk from fan.supply { straight 8 ft; cap }\n"
                         "outlet room from trunk at 4 ft left { size 8 round; airflow 150 cfm; tap straight\n"
                         "    damper volume; flex 9 ft, stretched 90 %%; boot straight over 8 in; register 12 x 6 }\n"
                         "run back from fan.return { straight 4 ft }\n"
                         "inlet hall from back { grille 12 x 10 }\n",
                         settings);
}

static void flexible_duct_has_supports_ties_and_tape(void **state) {
    (void)state;
    struct compiled job = runout("");
    const struct bill_line *flex = line_of(&job, "flex", "flex 8");
    assert_non_null(flex);
    assert_near(flex->wanted, 10 * FOOT, 1e-9); /* 9 ft at 90 % */
    assert_near(net_of(&job, "flex_tie"), 2, 0);
    assert_near(net_of(&job, "duct_tape"), 2 * 2 * PI * 8 * INCH, 1e-9); /* two turns at two ends */
    size_t saddles = 0;
    for (size_t i = 0; i < job.job->takeoff->hangers.count; i++)
        saddles += job.job->takeoff->hangers.at[i].kind == HANGER_SADDLE;
    assert_int_equal(saddles, 2);
    /* Each half round 8 in, up 12 in and 4 in beside the duct on both sides, 4 in for the ends. */
    assert_near(net_of(&job, "flex_strap"), 2 * (PI * 4 + 2 * (12 + 4) + 4) * INCH, 1e-9);
    compiled_free(&job);
}

/* The jacket has a tie and two turns of tape of its own, 2 x 2.25 in wider; the flexible duct is not wrapped. */
static void insulated_flexible_duct_has_a_jacket(void **state) {
    (void)state;
    struct compiled job = runout("insulation R-6");
    assert_non_null(line_of(&job, "flex", "flex 8 R-6"));
    assert_near(net_of(&job, "flex_tie"), 4, 0);
    assert_near(net_of(&job, "duct_tape"), 4 * PI * (8 + 8 + 2 * 6 * 0.375) * INCH, 1e-9);
    double surface = 0;
    for (size_t i = 0; i < job.job->metal->parts.count; i++) {
        const struct part *part = job.job->metal->parts.at[i];
        for (size_t p = 0; p < part->solid->panels.count && part->solid->ports.count; p++)
            for (size_t o = 0; o < part->solid->panels.at[p].openings.count; o++)
                surface -= opening_area(&part->solid->panels.at[p].openings.at[o]) * (double)part->uses.count;
        for (size_t p = 0; p < part->solid->panels.count && part->solid->ports.count; p++)
            surface += panel_area(&part->solid->panels.at[p]) * (double)part->uses.count;
    }
    assert_near(net_of(&job, "duct_wrap"), surface, 1e-9);
    compiled_free(&job);
}

/* What flexible duct comes with goes before what its run says. */
static void a_flex_of_its_own_insulation_has_its_jacket(void **state) {
    (void)state;
    static const struct {
        const char *insulation;
        double value;
    } flexes[] = {{"", 8}, {"insulation R-4", 8}, {"insulation R-8", 0}};
    for (size_t i = 0; i < sizeof flexes / sizeof flexes[0]; i++) {
        double value = flexes[i].value, across = 8 + 2 * value * 0.375;
        struct compiled job = compiled_text(
            "job \"t\" { %s }\n"
            "unit fan { airflow 150 cfm; blower 180 cfm at 0.1 in.wg, 150 cfm at 0.4 in.wg; supply 12 x 10; return 12 "
            "x 10 }\n"
            "run trunk from fan.supply { straight 8 ft; cap }\n"
            "outlet room from trunk at 4 ft left { size 8 round; airflow 150 cfm; flex 9 ft, R-%g; boot straight over "
            "8 in; register 12 x 6 }\n"
            "run back from fan.return { straight 4 ft }\ninlet hall from back { grille 12 x 10 }\n",
            flexes[i].insulation, value);
        double turns = 2 * 2 * PI * (8 + (value > 0 ? across : 0)) * INCH;
        assert_near(net_of(&job, "flex_tie"), value > 0 ? 4 : 2, 0);
        assert_near(net_of(&job, "duct_tape"), turns, 1e-9);
        assert_near(net_of(&job, "flex_strap"), 2 * (PI * across / 2 + 2 * (12 + across / 2) + 4) * INCH, 1e-9);
        compiled_free(&job);
    }
}

static void penetrations_count_in_class_a(void **state) {
    (void)state;
    struct compiled b = runout("seal B"), a = runout("seal A");
    /* The face of the boot, 12 x 6, and two ends of the damper's rod, 3 in round each. */
    assert_near(net_of(&a, "duct_sealant") - net_of(&b, "duct_sealant"), (36 + 6) * 2 * 0.020 * CUBIC_INCH, 1e-12);
    compiled_free(&a);
    compiled_free(&b);
}

static size_t closed(const struct compiled *compiled, enum closing closing) {
    size_t count = 0;
    for (size_t i = 0; i < compiled->job->takeoff->connections.count; i++)
        count += compiled->job->takeoff->connections.at[i].closing == closing;
    return count;
}

/* 8 ft of trunk are two joints of straight, the return is one: three of 44 in, the first two at the unit's collars and
 * between.  The tap sits on the wall, the cap over the trunk's end.  The boot behind the flexible duct brings none, for
 * the duct's own end is tied there. */
static void each_connection_is_counted_once(void **state) {
    (void)state;
    struct compiled job = runout("seal C");
    assert_int_equal(closed(&job, CLOSED_JOINT), 3);
    assert_int_equal(closed(&job, CLOSED_BASE), 2);
    assert_int_equal(closed(&job, CLOSED_NECK), 0);
    assert_int_equal(closed(&job, CLOSED_FLEX), 2);
    assert_int_equal(closed(&job, CLOSED_FACE), 1);
    assert_int_equal(closed(&job, CLOSED_ROD), 1);
    double length = 3 * 44 + 44 + 8 * PI;
    assert_near(net_of(&job, "duct_sealant"), length * 2 * 0.020 * CUBIC_INCH, 1e-12);
    compiled_free(&job);
}

/* Canvas is screwed at both ends and brings both: 40 in every 6 in is 7 screws an end.  The straight behind it has one
 * joint of its own less. */
static void canvas_brings_both_of_its_ends(void **state) {
    (void)state;
    struct compiled job =
        compiled_text("job \"t\" {}\nunit fan { airflow 300 cfm; blower 340 cfm at 0.2 in.wg, 300 cfm at 0.4 in.wg\n"
                      "    supply 12 x 8; return 12 x 8 }\n"
                      "run trunk from fan.supply { connector 4 in; straight 8 ft; damper fire }\n"
                      "outlet room from trunk { airflow 300 cfm; register 12 x 8 }\n"
                      "run back from fan.return { straight 4 ft }\ninlet hall from back { grille 12 x 8 }\n");
    assert_int_equal(closed(&job, CLOSED_CANVAS), 2);
    /* One between the two pieces of straight, one before the fire damper, which is bought,
     * one at the return's collar. */
    assert_int_equal(closed(&job, CLOSED_JOINT), 3);
    assert_non_null(line_of(&job, "fire_damper", "fire_damper 12 x 8"));
    assert_null(line_of(&job, "damper", NULL));
    assert_non_null(line_of(&job, "canvas_connector", "canvas_connector 4"));
    size_t straps = 2 * job.job->takeoff->hangers.count;
    assert_near(net_of(&job, "screws"), 2 * 7 + 3 * 4 + (double)straps, 0);
    compiled_free(&job);
}

/* Board is bought piece by piece, and taped once round each: 40 in, three pieces of trunk and one of return. */
static void board_is_bought_ready_made(void **state) {
    (void)state;
    struct compiled job = two_ducts("material board; insulation R-6");
    double pieces = 0;
    for (size_t i = 0; i < job.job->takeoff->lines.count; i++)
        if (strcmp(job.job->takeoff->lines.at[i].item->key, "ready_made") == 0) {
            pieces += job.job->takeoff->lines.at[i].net;
            assert_string_equal(job.job->takeoff->lines.at[i].key, job.job->takeoff->lines.at[i].title);
        }
    assert_near(pieces, 4, 0);
    assert_null(line_of(&job, "sheet", NULL));
    assert_null(line_of(&job, "duct_wrap", NULL));
    assert_near(net_of(&job, "duct_tape"), pieces * 40 * INCH, 1e-9);
    compiled_free(&job);
}

/* Sheets are those of the nest, at the price that stands with them; what none takes is bought by its area, with the
 * waste that the shop declares. */
static void sheets_are_those_of_the_nest(void **state) {
    (void)state;
    struct compiled job =
        compiled_text("shop \"s\" { stock 48 x 120, gauge 26, price 41.50 per sheet; waste 10 %% }\n"
                      "job \"t\" { gauge 26 }\n"
                      "unit fan { airflow 300 cfm; blower 340 cfm at 0.2 in.wg, 300 cfm at 0.4 in.wg\n"
                      "    supply 12 x 8; return 12 x 8 }\n"
                      "run trunk from fan.supply { straight 30 ft }\n"
                      "outlet room from trunk { airflow 300 cfm; register 12 x 8 }\n"
                      "run back from fan.return { straight 4 ft }\ninlet hall from back { grille 12 x 8 }\n");
    const struct nest *nest = job.job->metal->nest;
    const struct bill_line *line = line_of(&job, "sheet", "sheet 48 x 120 gauge 26");
    assert_non_null(line);
    assert_non_null(line->sheet);
    assert_true(line->sheet->priced);
    assert_near(line->net, (double)nest->sheets, 0);
    assert_true(line->net >= 4); /* seven blanks of 41-1/4 in by 60 in or less: two a sheet */
    assert_null(line_of(&job, "sheet_metal", NULL));
    compiled_free(&job);

    job = compiled_text("shop \"s\" { stock 20 x 22, gauge 26; waste 10 %% }\njob \"t\" { gauge 26 }\n"
                        "unit fan { airflow 300 cfm; blower 340 cfm at 0.2 in.wg, 300 cfm at 0.4 in.wg\n"
                        "    supply 24 x 24; return 24 x 24 }\nrun trunk from fan.supply { straight 10 ft }\n"
                        "outlet room from trunk { airflow 300 cfm; register 24 x 24 }\n"
                        "run back from fan.return { straight 4 ft }\ninlet hall from back { grille 24 x 24 }\n");
    line = line_of(&job, "sheet_metal", "sheet_metal gauge 26");
    assert_non_null(line);
    assert_near(line->wanted, 1.1 * line->net, 1e-9);
    compiled_free(&job);
}

/* ---- The work ---------------------------------------------------------------------------------------------------- */

static const struct labour_count *work_of(const struct compiled *compiled, const char *word) {
    const struct labour_counts *work = compiled->job->takeoff->work;
    for (size_t i = 0; i < work->lines.count; i++)
        if (strcmp(work->lines.at[i].word, word) == 0)
            return &work->lines.at[i];
    fail_msg("no work is called %s", word);
    return NULL;
}

/* 26 gauge weighs 0.906 lb/ft2 (the published gauge table).  A blank of 59 in is 60 in long and 40 + 1-1/4 in wide,
 * less its notches. */
static void straight_duct_is_counted_by_the_joint(void **state) {
    (void)state;
    struct compiled job = two_ducts("gauge 26; seal B");
    const struct labour_count *straight = work_of(&job, "straight");
    assert_int_equal(straight->pieces, 2);
    assert_int_equal(straight->parts, 4);
    assert_int_equal(labour_times(straight), 4);
    assert_int_equal(straight->joints, 4);
    assert_near(straight->length, 16 * FOOT, 1e-9);
    assert_near(straight->seam, 192 * INCH, 1e-9);
    double whole = 41.25 * (60 + 60 + 27 + 49) * SQUARE_INCH;
    assert_true(straight->area < whole && straight->area > 0.98 * whole);
    assert_near(straight->weight, straight->area / (FOOT * FOOT) * 0.906 * POUND, straight->weight * 1e-3);
    assert_near(work_of(&job, "sealing")->length, (160 + 192) * INCH, 1e-9);
    assert_int_equal(work_of(&job, "hanger")->pieces, 2);
    assert_int_equal(labour_times(work_of(&job, "register")), 1);
    compiled_free(&job);
}

static void the_work_adds_up_to_the_metal(void **state) {
    (void)state;
    struct compiled job = runout("insulation R-6; place attic");
    double area = 0, weight = 0;
    size_t parts = 0;
    const struct labour_counts *work = job.job->takeoff->work;
    for (size_t i = 0; i < work->lines.count; i++) {
        const struct labour_count *count = &work->lines.at[i];
        assert_int_equal(count->place, LOCATION_ATTIC);
        parts += count->parts + count->inserts;
        weight += count->weight;
        if (count->parts + count->inserts > 0)
            area += count->area;
    }
    assert_int_equal(parts, job.job->metal->pieces);
    assert_near(area, job.job->metal->area, 1e-9);
    assert_near(weight, job.job->metal->weight, 1e-9);
    assert_int_equal(work_of(&job, "damper")->inserts, 1);
    assert_int_equal(work_of(&job, "flex")->joints, 2);
    assert_near(work_of(&job, "wrapping")->area, net_of(&job, "duct_wrap"), 1e-9);
    compiled_free(&job);
}

/* ---- The table --------------------------------------------------------------------------------------------------- */

static void items_stand_by_group(void **state) {
    (void)state;
    size_t count;
    const struct bill_item *items = bill_items(&count);
    assert_true(count > 20);
    for (size_t i = 1; i < count; i++) {
        assert_true(items[i].group >= items[i - 1].group);
        for (size_t j = 0; j < i; j++)
            assert_string_not_equal(items[i].key, items[j].key);
    }
}

/* Nothing that a piece says is bought is lost. */
static void all_that_is_bought_has_a_line(void **state) {
    (void)state;
    static const char *const files[] = {"jobs/choirhouse.job", "jobs/cooperage.job", "jobs/fieldstation.job",
                                        "jobs/smallest.job", "tests/golden/kinds.job"};
    for (size_t f = 0; f < sizeof files / sizeof files[0]; f++) {
        struct compiled job = {.cleat = cleat_new(NULL)};
        cleat_compile(job.cleat, files[f]);
        job.job = cleat_job(job.cleat);
        for (size_t i = 0; i < job.job->metal->bought.count; i++) {
            const struct bill_line *line = line_of(&job, job.job->metal->bought.at[i].item, NULL);
            if (!line)
                fail_msg("%s: %s is bought and not in the bill", files[f], job.job->metal->bought.at[i].title);
            assert_non_null(line->basis);
        }
        cleat_free(job.cleat);
    }
}

/* A particular key begins with the general one, so that a price may name as much of it as it likes. */
static void keys_go_from_the_general_to_the_particular(void **state) {
    (void)state;
    struct compiled job = runout("insulation R-6; lining 1 in");
    const struct takeoff *takeoff = job.job->takeoff;
    for (size_t i = 0; i < takeoff->lines.count; i++) {
        const struct bill_line *line = &takeoff->lines.at[i];
        size_t length = strlen(line->item->key);
        if (line->key)
            assert_true(strncmp(line->key, line->item->key, length) == 0 && line->key[length] == ' ');
        if (i)
            assert_true(line->item >= takeoff->lines.at[i - 1].item);
        assert_true(line->wanted >= line->net - 1e-12 && line->net > 0);
    }
    compiled_free(&job);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(sealant_is_a_band_along_what_the_class_asks),
        cmocka_unit_test(a_gallon_reaches_as_far_as_its_maker_says),
        cmocka_unit_test(screws_stand_in_the_slips),
        cmocka_unit_test(twelve_feet_hang_by_one_pair_of_straps),
        cmocka_unit_test(wrap_is_as_wide_as_its_girth),
        cmocka_unit_test(lining_has_its_pins_and_adhesive),
        cmocka_unit_test(flanges_have_corners_bolts_and_a_gasket),
        cmocka_unit_test(flexible_duct_has_supports_ties_and_tape),
        cmocka_unit_test(insulated_flexible_duct_has_a_jacket),
        cmocka_unit_test(a_flex_of_its_own_insulation_has_its_jacket),
        cmocka_unit_test(penetrations_count_in_class_a),
        cmocka_unit_test(each_connection_is_counted_once),
        cmocka_unit_test(canvas_brings_both_of_its_ends),
        cmocka_unit_test(board_is_bought_ready_made),
        cmocka_unit_test(sheets_are_those_of_the_nest),
        cmocka_unit_test(straight_duct_is_counted_by_the_joint),
        cmocka_unit_test(the_work_adds_up_to_the_metal),
        cmocka_unit_test(items_stand_by_group),
        cmocka_unit_test(all_that_is_bought_has_a_line),
        cmocka_unit_test(keys_go_from_the_general_to_the_particular),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
