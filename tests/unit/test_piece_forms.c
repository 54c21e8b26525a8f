/* The table of kinds, their forms, and what they have to say about nonsense. */
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <setjmp.h>
#include <cmocka.h>

#include "model/taps.h"
#include "piece_bench.h"

static void every_kind_is_described(void **state) {
    (void)state;
    const struct piece_table *table = piece_kinds();
    assert_int_equal(table->count, 16);
    for (size_t i = 0; i < table->count; i++) {
        const struct piece_kind *kind = table->kinds[i];
        assert_true(strlen(kind->form.word) > 0 && strlen(kind->title) > 0);
        assert_true(strlen(kind->form.meaning) > 0 && strlen(kind->form.example) > 0);
        assert_true(kind->form.places & (IN_RUN | IN_OUTLET | IN_INLET));
        for (size_t s = 0; s < SLOT_LIMIT && kind->form.slots[s].kind != SLOT_NONE; s++)
            assert_true(strlen(kind->form.slots[s].meaning) > 0);
        for (size_t other = 0; other < i; other++)
            assert_string_not_equal(kind->form.word, table->kinds[other]->form.word);
    }
}

static size_t kinds_with(unsigned trait) {
    const struct piece_table *table = piece_kinds();
    size_t count = 0;
    for (size_t i = 0; i < table->count; i++)
        count += (table->kinds[i]->traits & trait) != 0;
    return count;
}

static void each_implied_piece_is_of_one_kind(void **state) {
    (void)state;
    assert_int_equal(kinds_with(PIECE_IMPLIED_TAP), 1);
    assert_int_equal(kinds_with(PIECE_IMPLIED_CHANGE), 1);
    assert_int_equal(kinds_with(PIECE_IMPLIED_CAP), 1);
    const struct piece_table *table = piece_kinds();
    for (size_t i = 0; i < table->count; i++) {
        const struct piece_kind *kind = table->kinds[i];
        if (kind->traits & PIECE_SPLITS)
            assert_non_null(kind->legs);
        if (kind->traits & (PIECE_OUTLET | PIECE_INLET))
            assert_non_null(kind->face);
    }
}

static void every_example_can_be_typed_in(void **state) {
    const struct piece_table *table = piece_kinds();
    for (size_t i = 0; i < table->count; i++) {
        const struct piece *piece = sound_piece(*state, table->kinds[i]->form.example);
        assert_ptr_equal(piece->kind, table->kinds[i]);
    }
}

/* A piece that the tool puts in has no words: its defaults must do. */
static void implied_pieces_have_defaults(void **state) {
    struct piece_bench *bench = *state;
    const struct piece_table *table = piece_kinds();
    for (size_t i = 0; i < table->count; i++) {
        const struct piece_kind *kind = table->kinds[i];
        struct piece piece = {.kind = kind, .run = &bench->run, .implied = true};
        if (kind->prepare)
            kind->prepare(&piece, &bench->diagnostics);
        if (kind->resize)
            assert_false(size_known(kind->resize(&piece)));
        if (kind->face)
            assert_false(size_known(kind->face(&piece)));
        if (kind->describe)
            assert_true(strlen(kind->describe(&piece, MEASURE_US, bench->arena)) > 0);
        assert_false(piece.reading.faulty);
        assert_int_equal(bench->diagnostics.all.count, 0);
    }
}

/* One error, at the words that are wrong, with a hint that holds. */
static void assert_nonsense(struct piece_bench *bench, const char *line, const char *at, const char *says) {
    size_t before = bench->diagnostics.all.count;
    struct piece *piece = piece_from(bench, line);
    if (!piece->reading.faulty || bench->diagnostics.all.count != before + 1)
        fail_msg("%s: %zu errors", line, bench->diagnostics.all.count - before);
    const struct diagnostic *error = bench->diagnostics.all.at[before];
    assert_int_equal(error->level, DIAGNOSTIC_ERROR);
    if (!strstr(error->message, says))
        fail_msg("%s: '%s' does not say '%s'", line, error->message, says);
    assert_int_equal(error->at.begin, strstr(line, at) - line);
    if (error->hint && strncmp(error->hint, piece->kind->form.word, strlen(piece->kind->form.word)) == 0) {
        const struct piece *hinted = piece_from(bench, error->hint);
        assert_false(hinted->reading.faulty);
        assert_int_equal(bench->diagnostics.all.count, before + 1);
    }
}

static void nonsense_is_said_where_it_stands(void **state) {
    assert_nonsense(*state, "straight 0 ft", "0 ft", "more than 0");
    assert_nonsense(*state, "straight -3 ft", "-3 ft", "more than 0");
    assert_nonsense(*state, "straight 90000 ft", "90000", "10000 ft");
    assert_nonsense(*state, "elbow 0 left", "0 left", "1 to 180 degrees");
    assert_nonsense(*state, "elbow 270 up", "270", "1 to 180 degrees");
    assert_nonsense(*state, "elbow 90 left, radius 0.3", "0.3", "0.5 to 40");
    assert_nonsense(*state, "elbow 90 left, radius 1.0, square", "square", "no radius");
    assert_nonsense(*state, "elbow 90 left, square, pieces 5", "square", "pieces");
    assert_nonsense(*state, "elbow 90 left, pieces 1", "1", "2 to 12 pieces");
    assert_nonsense(*state, "elbow 90 left, pieces 2.5", "2.5", "whole number");
    assert_nonsense(*state, "elbow 90 left to 8", "8", "only a rectangular elbow");
    assert_nonsense(*state, "elbow 90 left to 14 x 8 oval", "14 x 8", "only a rectangular elbow");
    assert_nonsense(*state, "elbow 90 left to 14 x 8, pieces 5", "14 x 8", "round");
    assert_nonsense(*state, "elbow 90 left to 14 x 0", "14 x 0", "more than 0");
    assert_nonsense(*state, "offset 0 in left over 24 in", "0 in", "more than 0");
    assert_nonsense(*state, "offset 8 in left over 0 in", "0 in", "more than 0");
    assert_nonsense(*state, "offset 30 in left over 24 in, ogee", "24 in", "no farther than it is long");
    assert_nonsense(*state, "transition over 0 in", "0 in", "more than 0");
    assert_nonsense(*state, "transition over 18 in, flat top, centred", "centred", "flat side");
    assert_nonsense(*state, "transition to 20 x 25 x 1 over 18 in", "20 x", "3 dimensions");
    assert_nonsense(*state, "transition to 0 x 8 over 18 in", "0 x 8", "more than 0");
    assert_nonsense(*state, "transition over 18 in, left 4 in, right 2 in", "2 in", "left and right at once");
    assert_nonsense(*state, "transition over 18 in, down 4 in, up 2 in", "4 in", "up and down at once");
    assert_nonsense(*state, "transition over 18 in, left 0 in", "0 in", "more than 0");
    assert_nonsense(*state, "transition over 18 in, flat left, right 2 in", "2 in", "the left is not flat");
    assert_nonsense(*state, "transition over 18 in, flat top, left 3 in, down 2 in", "2 in", "the top is not flat");
    assert_nonsense(*state, "transition over 18 in, flat bottom-right, up 2 in", "2 in",
                    "the bottom-right is not flat");
    assert_nonsense(*state, "transition over 18 in, centred, up 2 in", "centred", "moved aside");
    assert_nonsense(*state, "transition to 8 x 8 over 12 in, turned 90", "90", "the same as one that is not turned");
    assert_nonsense(*state, "transition over 18 in, turned 91", "91", "1 to 90 degrees");
    assert_nonsense(*state, "transition over 18 in, turned -91", "-91", "1 to 90 degrees");
    assert_nonsense(*state, "transition over 18 in, turned 0.5", "0.5", "1 to 90 degrees");
    assert_nonsense(*state, "transition over 18 in, flat top, turned 10", "10", "no flat top");
    assert_nonsense(*state, "transition to 8 over 18 in, turned 10", "10", "however it is turned");
    assert_nonsense(*state, "boot elbow over 8 in, left 4 in", "4 in", "expected a straight one");
    assert_nonsense(*state, "boot up 4 in", "4 in", "expected a straight one");
    assert_nonsense(*state, "boot straight left 4 in right 3 in", "3 in", "left and right at once");
    assert_nonsense(*state, "split wye over 24 in, vanes", "vanes", "bullhead");
    assert_nonsense(*state, "split tee over -1 in", "-1 in", "more than 0");
    assert_nonsense(*state, "flex 9 ft, stretched 40 %", "40 %", "50 to 100 %");
    assert_nonsense(*state, "flex 9 ft, stretched 104 %", "104 %", "50 to 100 %");
    assert_nonsense(*state, "flex 9 ft, bends 1.5", "1.5", "whole number");
    assert_nonsense(*state, "connector 4 ft", "4 ft", "3 ft");
    assert_nonsense(*state, "damper volume, open 0", "0", "90 is wide open");
    assert_nonsense(*state, "damper fire, open 45", "45", "volume damper");
    assert_nonsense(*state, "boot elbow over 40 ft", "40 ft", "10 ft");
    assert_nonsense(*state, "box 20 x 20", "20 x 20", "width, height and length");
    assert_nonsense(*state, "drop \"coil\" 90 in.wg", "90 in.wg", "20 in.wg");
    assert_nonsense(*state, "register 10 x 6 x 2", "10 x 6", "3 dimensions");
    assert_nonsense(*state, "register 10 x 6, 0.03 in.wg at 0 cfm", "0 cfm", "more than 0");
    assert_nonsense(*state, "grille 20 x 14, 30 in.wg", "30 in.wg", "5 in.wg");
    assert_nonsense(*state, "grille 20 x 14 at 600 cfm", "600 cfm", "drop at this airflow");
    assert_nonsense(*state, "filter 20 x 2500 x 1", "20 x 2500", "20 ft");
}

static void limits_themselves_are_allowed(void **state) {
    sound_piece(*state, "elbow 180 left");
    sound_piece(*state, "elbow 1 down, radius 0.5, pieces 2");
    sound_piece(*state, "flex 9 ft, stretched 50 %");
    sound_piece(*state, "flex 9 ft, stretched 100 %, bends 0");
    sound_piece(*state, "damper volume, open 90");
    sound_piece(*state, "offset 24 in left over 24 in, ogee");
    sound_piece(*state, "connector 36 in");
    sound_piece(*state, "transition over 18 in, turned 90");
    sound_piece(*state, "transition over 18 in, turned -1");
    sound_piece(*state, "transition over 18 in, flat left, up 4 in");
    sound_piece(*state, "transition over 18 in, left 4 in, up 3 in, turned -45");
    sound_piece(*state, "boot straight left 4 in");
}

static void stations_count_what_has_a_length_along_the_run(void **state) {
    static const struct {
        const char *line;
        double inches;
    } rows[] = {
        {"straight 16 ft", 192},
        {"elbow 90 left", 0},
        {"offset 8 in left over 24 in", 24},
        {"transition over 18 in", 18},
        {"split wye over 24 in", 24},
        {"split wye", 0},
        {"tap shoe", 0},
        {"flex 9 ft", 108},
        {"connector 4 in", 4},
        {"damper", 0},
        {"boot", 0},
        {"boot straight over 8 in", 8},
        {"box 20 x 20 x 24", 24},
        {"cap", 0},
        {"drop \"coil\" 0.1 in.wg", 0},
        {"register 10 x 6", 0},
    };
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++)
        assert_near(sound_piece(*state, rows[i].line)->length, rows[i].inches * INCH, 1e-9);
}

static void pieces_say_what_they_are(void **state) {
    struct piece_bench *bench = *state;
    static const struct {
        const char *line, *words;
    } rows[] = {
        {"elbow 90 left, radius 1.0", "Elbow, 90 left, radius 1.0"},
        {"elbow 45 up, square, vanes", "Elbow, 45 up, square, vanes"},
        {"elbow 90 left to 14 x 8, radius 1.0", "Elbow, 90 left to 14 x 8 in, radius 1.0"},
        {"elbow 90 up, to 14 x 8, square, vanes", "Elbow, 90 up to 14 x 8 in, square, vanes"},
        {"elbow 30 down, radius 1.5, pieces 3", "Elbow, 30 down, radius 1.5, 3 pieces"},
        {"offset 8 in left over 24 in, ogee", "Offset, 8 in left, ogee"},
        {"transition to 14 x 8 over 18 in, flat top", "Transition to 14 x 8 in, flat top"},
        {"transition over 18 in", "Transition"},
        {"transition to 14 x 8 over 18 in, flat bottom-left", "Transition to 14 x 8 in, flat bottom-left"},
        {"transition over 18 in, flat top, left 4 in", "Transition, flat top, moved 4 in left"},
        {"transition over 18 in, down 2-1/2 in, right 4 in, turned -15",
         "Transition, moved 4 in right and 2-1/2 in down, turned -15"},
        {"boot straight over 6 in, up 3 in", "Boot, straight, 6 in long, moved 3 in up"},
        {"split bullhead, vanes", "Split, bullhead, vanes"},
        {"tap", "Tap, straight"},
        {"tap shoe", "Tap, shoe"},
        {"flex 9 ft, stretched 96 %, bends 1", "Flexible duct, stretched 96 %, 1 bend"},
        {"damper", "Damper, volume"},
        {"damper volume, open 60", "Damper, volume, open 60"},
        {"boot", "Boot, elbow, 8 in long (assumed)"},
        {"boot straight over 6 in", "Boot, straight, 6 in long"},
        {"flex 9 ft, bends 2", "Flexible duct, 2 bends, stretched 90 % (assumed)"},
        {"split wye over 24 in", "Split, wye, 45 degrees (assumed)"},
        {"drop \"coil, wet\" 0.1 in.wg", "coil, wet"},
        {"register 10 x 6", "Register, 10 x 6 in"},
        {"register 8 round", "Register, 8 in round"},
        {"filter 20 x 25 x 1", "Filter, 20 x 25 x 1 in"},
        {"filter 20 x 25 x 1-1/2", "Filter, 20 x 25 x 1.5 in"},
        {"box 20 x 20 x 24", "Plenum box, 20 x 20 x 24 in"},
    };
    bench->run.settings.stretch = 0.90;
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        const struct piece *piece = sound_piece(bench, rows[i].line);
        assert_string_equal(piece->kind->describe(piece, MEASURE_US, bench->arena), rows[i].words);
    }
}

/* What the job leaves open of an elbow depends on the shape of its duct. */
static void an_elbow_says_what_is_assumed_of_it(void **state) {
    struct piece_bench *bench = *state;
    static const struct {
        const char *line, *in_round, *in_rectangular;
    } rows[] = {
        {"elbow 90 left", "Elbow, 90 left, radius 1.5, 5 pieces (assumed)", "Elbow, 90 left, radius 1.0 (assumed)"},
        {"elbow 90 left, radius 2", "Elbow, 90 left, radius 2.0, 5 pieces (assumed)", "Elbow, 90 left, radius 2.0"},
        {"elbow 90 left, pieces 3", "Elbow, 90 left, 3 pieces, radius 1.5 (assumed)",
         "Elbow, 90 left, 3 pieces, radius 1.0 (assumed)"},
        {"elbow 90 left, square", "Elbow, 90 left, square", "Elbow, 90 left, square"},
    };
    struct duct round = {.size = round_duct(8, 0).size}, box = {.size = rectangular(14, 8, 0).size};
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        struct piece *piece = piece_from(bench, rows[i].line);
        piece->far = &round;
        assert_string_equal(piece->kind->describe(piece, MEASURE_US, bench->arena), rows[i].in_round);
        piece->far = &box;
        assert_string_equal(piece->kind->describe(piece, MEASURE_US, bench->arena), rows[i].in_rectangular);
    }
}

static void splits_have_their_legs(void **state) {
    const struct piece *wye = sound_piece(*state, "split wye"), *tee = sound_piece(*state, "split tee");
    unsigned sides = 1u << LEG_LEFT | 1u << LEG_RIGHT;
    assert_int_equal(wye->kind->legs(wye), sides);
    assert_int_equal(tee->kind->legs(tee), sides | 1u << LEG_STRAIGHT);
}

static void assert_opening(const struct piece *tap, struct duct_size run, double across, double upstream,
                           double downstream) {
    struct tap_opening opening = tap_opening_of(tap, run);
    assert_near(opening.across, across * INCH, 1e-9);
    assert_near(opening.upstream, upstream * INCH, 1e-9);
    assert_near(opening.downstream, downstream * INCH, 1e-9);
}

/* A shoe is longer by a quarter of what its run takes along the parent: 20 in on a side, 12 in on the top; 4 in at
 * least. */
static void a_tap_says_how_much_larger_than_its_run_its_hole_is(void **state) {
    struct piece_bench *bench = *state;
    struct duct_size run = rectangular(20, 12, 0).size, wide = rectangular(12, 20, 0).size;
    const struct piece *shoe = sound_piece(bench, "tap shoe");
    bench->run.from.side = SIDE_LEFT;
    assert_opening(shoe, run, 0, 5, 0);
    assert_opening(shoe, wide, 0, 4, 0);
    bench->run.from.side = SIDE_TOP;
    assert_opening(shoe, run, 0, 4, 0);
    assert_opening(shoe, wide, 0, 5, 0);
    assert_opening(shoe, round_duct(30, 0).size, 0, 7.5, 0);
    assert_opening(sound_piece(bench, "tap conical"), run, 1, 0.5, 0.5);
    assert_opening(sound_piece(bench, "tap straight"), run, 0, 0, 0);
    assert_opening(sound_piece(bench, "tap spin"), run, 0, 0, 0);
    assert_opening(sound_piece(bench, "tap saddle"), run, 0, 0, 0);
    assert_opening(sound_piece(bench, "straight 3 ft"), run, 0, 0, 0);
}

static void only_volume_dampers_take_up_a_surplus(void **state) {
    const struct piece *volume = sound_piece(*state, "damper"), *fire = sound_piece(*state, "damper fire");
    assert_true(volume->kind->balances(volume));
    assert_false(fire->kind->balances(fire));
}

static void a_transition_may_say_the_size_behind_it(void **state) {
    const struct piece *piece = sound_piece(*state, "transition to 14 x 8 over 18 in");
    assert_true(size_equal(piece->kind->resize(piece), rectangular(14, 8, 0).size));
    piece = sound_piece(*state, "transition to 8 round over 18 in");
    assert_true(size_equal(piece->kind->resize(piece), round_duct(8, 0).size));
    piece = sound_piece(*state, "transition to 14 x 8 oval over 18 in");
    assert_true(size_equal(piece->kind->resize(piece), oval(14, 8, 0).size));
}

static void an_elbow_changes_the_size_only_when_it_says_to_what(void **state) {
    const struct piece *plain = sound_piece(*state, "elbow 90 left"),
                       *changing = sound_piece(*state, "elbow 90 left to 14 x 8");
    assert_false(piece_resizes(plain));
    assert_true(piece_resizes(changing));
    assert_true(size_equal(changing->kind->resize(changing), rectangular(14, 8, 0).size));
    assert_true(piece_resizes(sound_piece(*state, "transition over 18 in")));
    assert_false(piece_resizes(sound_piece(*state, "straight 3 ft")));
    assert_null(changing->kind->misfit(changing, SHAPE_RECTANGULAR));
    assert_non_null(strstr(changing->kind->misfit(changing, SHAPE_ROUND), "is round"));
    assert_non_null(strstr(changing->kind->misfit(changing, SHAPE_OVAL), "is oval"));
    assert_null(plain->kind->misfit(plain, SHAPE_ROUND));
}

#define test(name) cmocka_unit_test_setup_teardown(name, piece_bench_set_up, piece_bench_tear_down)

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(every_kind_is_described),
        cmocka_unit_test(each_implied_piece_is_of_one_kind),
        test(every_example_can_be_typed_in),
        test(implied_pieces_have_defaults),
        test(nonsense_is_said_where_it_stands),
        test(limits_themselves_are_allowed),
        test(stations_count_what_has_a_length_along_the_run),
        test(pieces_say_what_they_are),
        test(an_elbow_says_what_is_assumed_of_it),
        test(splits_have_their_legs),
        test(a_tap_says_how_much_larger_than_its_run_its_hole_is),
        test(only_volume_dampers_take_up_a_surplus),
        test(an_elbow_changes_the_size_only_when_it_says_to_what),
        test(a_transition_may_say_the_size_behind_it),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
