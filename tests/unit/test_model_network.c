/* The network of a small job: ducts, sections and items as the pieces hang. */
#include "model_bench.h"

#define HEAD                                                                                                           \
    "job \"T\" { revision 1 }\n"                                                                                       \
    "unit AHU { airflow 300 cfm; supply 18 x 14; return 20 x 14 }\n"                                                   \
    "inlet hall from AHU.return { grille 20 x 14 }\n"

/* A section's items in short: role, word, and feet of duct. */
static void items_text(const struct section *section, char *out, size_t room) {
    static const char *const roles[] = {"", "branch:", "past:", "leg:", "connect:"};
    size_t used = 0;
    out[0] = 0;
    for (size_t i = 0; i < section->items.count && used < room; i++) {
        const struct item *item = &section->items.at[i];
        used += (size_t)snprintf(out + used, room - used, "%s%s%s", i ? " " : "", roles[item->role],
                                 item->piece->kind->form.word);
        if (item->length > 0)
            used += (size_t)snprintf(out + used, room - used, "(%.4g)", item->length / FOOT);
    }
}

static void assert_items(const struct section *section, const char *expected) {
    char found[400];
    items_text(section, found, sizeof found);
    assert_string_equal(found, expected);
}

static void taps_cut_a_run_into_sections(void **state) {
    (void)state;
    struct bench *bench = bench_clean(
        HEAD "run trunk from AHU.supply { straight 10 ft; elbow 90 left; straight 5 ft }\n"
             "outlet c from trunk at 12 ft left { airflow 50 cfm; tap conical; flex 4 ft; register 8 x 4 }\n"
             "outlet a from trunk at 4 ft left { airflow 100 cfm; tap shoe; straight 3 ft; register 8 x 4 }\n"
             "outlet b from trunk at 4 ft right { airflow 150 cfm; straight 2 ft; register 8 x 4 }\n");
    const struct run *trunk = bench_run(bench, "trunk");
    assert_int_equal(trunk->taps.count, 3);
    assert_string_equal(trunk->taps.at[0]->name, "a"); /* by station, then in file order */
    assert_string_equal(trunk->taps.at[1]->name, "b");
    assert_string_equal(trunk->taps.at[2]->name, "c");

    const struct section *last = trunk->last_section, *third = last->parent, *between = third->parent;
    const struct section *first = between->parent;
    assert_ptr_equal(first, trunk->first_section);
    assert_null(first->parent);
    assert_items(first, "straight(4)");
    assert_items(between, "past:tap"); /* two taps at one station: nothing between them */
    assert_items(third, "past:tap straight(6) elbow straight(2)");
    assert_items(last, "past:tap straight(3) cap");
    assert_ptr_equal(between->items.at[0].tapped, bench_run(bench, "a"));
    assert_ptr_equal(third->items.at[0].tapped, bench_run(bench, "b"));
    assert_ptr_equal(bench_run(bench, "a")->first_section->parent, first);
    assert_ptr_equal(bench_run(bench, "b")->first_section->parent, between);
    assert_ptr_equal(bench_run(bench, "c")->first_section->parent, third);
    assert_items(bench_run(bench, "a")->first_section, "branch:tap straight(3) register");
    assert_items(bench_run(bench, "b")->first_section, "branch:tap straight(2) register"); /* its tap is implied */
    assert_true(bench_run(bench, "b")->pieces.at[0]->implied);
    assert_false(bench_run(bench, "a")->pieces.at[0]->implied);

    assert_near(first->flow, 300 * CFM, 1e-12);
    assert_near(between->flow, 200 * CFM, 1e-12);
    assert_near(third->flow, 50 * CFM, 1e-12);
    assert_near(last->flow, 0, 1e-12);
    assert_near(first->station, 0, 1e-12);
    assert_near(third->station, 4 * FOOT, 1e-12);
    assert_near(third->length, 8 * FOOT, 1e-12);
    assert_near(last->station, 12 * FOOT, 1e-12);
    assert_ptr_equal(first->duct, last->duct); /* one size all along */
    assert_near(first->duct->length, 15 * FOOT, 1e-12);
    assert_near(first->duct->flow, 300 * CFM, 1e-12);
    assert_near(trunk->length, 15 * FOOT, 1e-12);
    bench_free(bench);
}

static void a_tap_at_an_end_leaves_no_empty_piece(void **state) {
    (void)state;
    struct bench *bench =
        bench_clean(HEAD "run trunk from AHU.supply { straight 10 ft }\n"
                         "outlet a from trunk at 0 ft left { airflow 100 cfm; straight 1 ft; register 8 x 4 }\n"
                         "outlet b from trunk at 10 ft right { airflow 200 cfm; straight 1 ft; register 8 x 4 }\n");
    const struct run *trunk = bench_run(bench, "trunk");
    assert_int_equal(trunk->first_section->items.count, 0);
    assert_items(trunk->last_section->parent, "past:tap straight(10)");
    assert_items(trunk->last_section, "past:tap cap");
    bench_free(bench);
}

static void a_resizing_piece_starts_a_duct(void **state) {
    (void)state;
    struct bench *bench = bench_clean(HEAD "run trunk from AHU.supply {\n"
                                           "    straight 4 ft\n    transition to 14 x 8 over 18 in\n    straight 6 ft\n"
                                           "    transition over 12 in\n    straight 2 ft\n}\n"
                                           "outlet a from trunk { airflow 300 cfm; register 8 x 4 }\n");
    const struct run *trunk = bench_run(bench, "trunk");
    const struct section *last = trunk->last_section, *middle = last->parent, *first = middle->parent;
    assert_items(first, "straight(4)");
    assert_items(middle, "transition straight(6)");
    assert_items(last, "transition straight(2)");
    assert_true(first->duct->fixed);
    assert_int_equal(first->duct->reason, SIZE_COLLAR);
    assert_near(first->duct->size.width, 18 * INCH, 1e-9);
    assert_true(middle->duct->fixed);
    assert_int_equal(middle->duct->reason, SIZE_DECLARED);
    assert_near(middle->duct->size.height, 8 * INCH, 1e-9);
    assert_false(last->duct->fixed);
    assert_ptr_equal(last->duct->upstream, middle->duct);
    assert_ptr_equal(middle->duct->upstream, first->duct);
    assert_ptr_equal(middle->items.at[0].piece->near, first->duct);
    assert_ptr_equal(middle->items.at[0].piece->far, middle->duct);
    assert_near(last->station, 11.5 * FOOT, 1e-9);
    bench_free(bench);
}

static void an_elbow_that_says_to_what_size_starts_a_duct(void **state) {
    (void)state;
    struct bench *bench = bench_clean(HEAD "run trunk from AHU.supply {\n"
                                           "    straight 4 ft\n    elbow 90 left to 14 x 8\n    straight 6 ft\n"
                                           "    elbow 90 right\n    straight 2 ft\n}\n"
                                           "run on from trunk { elbow 45 up to 10 x 8; straight 3 ft }\n"
                                           "outlet a from on { airflow 300 cfm; register 8 x 4 }\n");
    const struct section *last = bench_run(bench, "trunk")->last_section, *first = last->parent;
    assert_items(first, "straight(4)");
    assert_items(last, "elbow straight(6) elbow straight(2)");
    assert_near(first->duct->size.width, 18 * INCH, 1e-9);
    assert_near(last->duct->size.width, 14 * INCH, 1e-9);
    assert_true(last->duct->fixed);
    assert_ptr_equal(last->items.at[0].piece->near, first->duct);
    assert_ptr_equal(last->items.at[0].piece->far, last->duct);
    assert_ptr_equal(last->items.at[2].piece->near, last->duct); /* the plain one changes nothing */
    /* At the beginning of a run it joins the duct before, so that nothing is put in. */
    const struct run *on = bench_run(bench, "on");
    assert_null(on->connect);
    assert_items(on->first_section, "elbow straight(3)");
    assert_near(on->first_section->duct->size.width, 10 * INCH, 1e-9);
    bench_free(bench);
}

static void an_elbow_changes_no_round_duct(void **state) {
    (void)state;
    static const struct fault faults[] = {
        {.text = "run trunk from AHU.supply { straight 4 ft }\n"
                 "outlet a from trunk { airflow 300 cfm; shape round; straight 2 ft; elbow 90 left to 14 x 8; "
                 "straight 2 ft; register 8 x 4 }\n",
         .level = DIAGNOSTIC_ERROR,
         .check = "piece",
         .at = "elbow 90 left to 14 x 8",
         .says = "the duct before this one is round"},
        /* The first stretch of a leg has the shape of its split. */
        {.text =
             "run trunk from AHU.supply { transition to 12 over 18 in; split wye }\n"
             "outlet a from trunk.left { airflow 150 cfm; shape rectangular; elbow 90 left to 14 x 8; straight 2 ft; "
             "register 8 x 4 }\n"
             "outlet b from trunk.right { airflow 150 cfm; shape round; straight 2 ft; register 8 x 4 }\n",
         .level = DIAGNOSTIC_ERROR,
         .check = "piece",
         .at = "elbow 90 left to 14 x 8",
         .says = "the duct before this one is round"},
    };
    assert_faults(HEAD, faults, sizeof faults / sizeof faults[0]);
}

static void a_split_starts_its_legs(void **state) {
    (void)state;
    struct bench *bench =
        bench_clean(HEAD "run plenum from AHU.supply { straight 20 in; split wye over 24 in }\n"
                         "run kilnside from plenum.left { transition over 18 in, flat top; straight 16 ft }\n"
                         "outlet a from kilnside { airflow 100 cfm; register 8 x 4 }\n"
                         "outlet b from plenum.right { airflow 200 cfm; straight 3 ft; register 8 x 4 }\n");
    const struct run *left = bench_run(bench, "kilnside"), *right = bench_run(bench, "b");
    assert_items(left->first_section, "leg:split");
    assert_items(left->last_section, "transition straight(16)");
    assert_true(left->first_duct->leg_start); /* empty, and followed by a transition */
    assert_false(left->last_section->duct->leg_start);
    assert_items(right->first_section, "leg:split straight(3) register");
    assert_false(right->first_duct->leg_start);
    assert_ptr_equal(right->first_section->parent, bench_run(bench, "plenum")->last_section);
    assert_ptr_equal(left->first_duct->upstream, bench_run(bench, "plenum")->first_duct);
    assert_near(left->first_section->flow, 100 * CFM, 1e-12);
    assert_items(bench_run(bench, "plenum")->last_section, "straight(1.667)");
    bench_free(bench);
}

static void a_plain_end_is_joined_by_an_implied_change(void **state) {
    (void)state;
    struct bench *bench = bench_clean(HEAD "run trunk from AHU.supply { straight 4 ft }\n"
                                           "run on from trunk { straight 6 ft }\n"
                                           "run further from on { transition over 1 ft; straight 3 ft }\n"
                                           "outlet a from further { airflow 300 cfm; register 8 x 4 }\n");
    const struct run *on = bench_run(bench, "on"), *further = bench_run(bench, "further");
    assert_items(on->first_section, "connect:transition straight(6)");
    assert_true(on->first_section->items.at[0].piece->implied);
    assert_ptr_equal(on->connect->near, bench_run(bench, "trunk")->first_duct);
    assert_ptr_equal(on->connect->far, on->first_duct);
    assert_items(further->first_section, "transition straight(3)"); /* its own change makes its first duct */
    assert_ptr_equal(further->first_duct->upstream, on->first_duct);
    assert_ptr_equal(further->first_section->items.at[0].piece->near, on->first_duct);
    assert_null(further->connect);
    bench_free(bench);
}

static void a_face_on_a_plain_end_has_no_duct_of_its_own(void **state) {
    (void)state;
    struct bench *bench = bench_clean(HEAD "run trunk from AHU.supply { straight 4 ft }\n"
                                           "run spur from trunk at 2 ft left { straight 6 ft }\n"
                                           "outlet face from trunk { airflow 100 cfm; boot; register 8 x 4 }\n"
                                           "outlet sized from spur { airflow 200 cfm; size 8 x 4; register 8 x 4 }\n");
    const struct run *face = bench_run(bench, "face"), *sized = bench_run(bench, "sized");
    assert_items(face->first_section, "boot register");
    assert_ptr_equal(face->first_section->duct, bench_run(bench, "trunk")->first_duct);
    assert_ptr_equal(face->first_duct, bench_run(bench, "trunk")->first_duct);
    assert_ptr_equal(face->first_section->terminal, face);
    assert_items(sized->first_section, "connect:transition register");
    assert_ptr_not_equal(sized->first_duct, bench_run(bench, "spur")->first_duct);
    bench_free(bench);
}

static void a_run_that_differs_from_its_collar_goes_on_by_an_implied_change(void **state) {
    (void)state;
    struct bench *bench = bench_clean(HEAD "run trunk from AHU.supply { size 20 x 12; straight 4 ft }\n"
                                           "outlet a from trunk { airflow 300 cfm; register 8 x 4 }\n");
    const struct run *trunk = bench_run(bench, "trunk");
    assert_int_equal(trunk->first_section->items.count, 0);
    assert_near(trunk->first_duct->size.width, 18 * INCH, 1e-9);
    assert_items(trunk->last_section, "connect:transition straight(4)");
    assert_near(trunk->last_section->duct->size.width, 20 * INCH, 1e-9);
    bench_free(bench);
}

static void the_first_duct_on_a_collar_has_its_shape_up_to_a_transition_of_the_run(void **state) {
    (void)state;
    struct bench *bench = bench_clean(HEAD "run trunk from AHU.supply { shape round; connector 4 in; straight 4 ft; "
                                           "transition over 18 in; straight 9 ft }\n"
                                           "outlet a from trunk { airflow 300 cfm; register 8 x 4 }\n");
    const struct run *trunk = bench_run(bench, "trunk");
    assert_items(trunk->first_section, "connector straight(4)");
    assert_int_equal(trunk->first_duct->reason, SIZE_COLLAR);
    assert_int_equal(trunk->first_duct->size.shape, SHAPE_RECTANGULAR);
    assert_int_equal(trunk->last_section->duct->size.shape, SHAPE_ROUND);
    bench_free(bench);
}

static void the_return_side_is_a_tree_of_its_own(void **state) {
    (void)state;
    struct bench *bench =
        bench_clean("job \"T\" { revision 1 }\nunit AHU { airflow 300 cfm }\n"
                    "run trunk from AHU.supply { straight 4 ft }\n"
                    "outlet a from trunk { airflow 300 cfm; register 8 x 4 }\n"
                    "run back from AHU.return { straight 6 ft }\n"
                    "inlet hall from back { filter 20 x 25 x 1, 0.12 in.wg }\n"
                    "inlet den from back at 2 ft left { airflow 120 cfm; straight 1 ft; grille 10 x 10 }\n");
    const struct network *network = bench_network(bench, 0);
    assert_int_equal(network->supply_paths.count, 1);
    assert_int_equal(network->return_paths.count, 2);
    assert_ptr_equal(network->return_paths.at[0].end->terminal, bench_run(bench, "hall")); /* in file order */
    assert_false(bench_run(bench, "den")->supply);
    assert_true(bench_run(bench, "a")->supply);
    size_t supply_last = 0, return_first = network->sections.count;
    for (size_t i = 0; i < network->sections.count; i++) {
        if (network->sections.at[i]->run->supply)
            supply_last = i;
        else if (i < return_first)
            return_first = i;
    }
    assert_true(supply_last < return_first);
    bench_free(bench);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(taps_cut_a_run_into_sections),
        cmocka_unit_test(a_tap_at_an_end_leaves_no_empty_piece),
        cmocka_unit_test(a_resizing_piece_starts_a_duct),
        cmocka_unit_test(an_elbow_that_says_to_what_size_starts_a_duct),
        cmocka_unit_test(an_elbow_changes_no_round_duct),
        cmocka_unit_test(a_split_starts_its_legs),
        cmocka_unit_test(a_plain_end_is_joined_by_an_implied_change),
        cmocka_unit_test(a_face_on_a_plain_end_has_no_duct_of_its_own),
        cmocka_unit_test(a_run_that_differs_from_its_collar_goes_on_by_an_implied_change),
        cmocka_unit_test(the_first_duct_on_a_collar_has_its_shape_up_to_a_transition_of_the_run),
        cmocka_unit_test(the_return_side_is_a_tree_of_its_own),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
