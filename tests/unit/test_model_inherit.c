/* Settings: what a run takes from its own words, its parent, the job, the shop and the tool. */
#include "model_bench.h"

#define TAIL                                                                                                           \
    "inlet hall from AHU.return { grille 20 x 14 }\n"                                                                  \
    "run trunk from AHU.supply {\n"                                                                                    \
    "    shape rectangular; limit height 8 in, velocity 800 fpm; lining 1 in; insulation R-6; material aluminium\n"    \
    "    place attic 130 F; seam pittsburgh; pressure-class 0.5 in.wg; gauge 24; straight 10 ft\n}\n"                  \
    "run on from trunk { straight 5 ft }\n"                                                                            \
    "run bare from trunk at 2 ft left { insulation R-0; lining 0 in; straight 5 ft }\n"                                \
    "outlet a from on { airflow 100 cfm; register 8 x 4 }\n"                                                           \
    "outlet b from bare { airflow 100 cfm; straight 1 ft; register 8 x 4 }\n"                                          \
    "outlet c from trunk at 4 ft left { airflow 100 cfm; flex 4 ft; register 8 x 4 }\n"

static const struct settings *settings_of(const struct bench *bench, const char *name) {
    return &bench_run(bench, name)->settings;
}

static void what_hangs_from_a_run_takes_its_fabric(void **state) {
    (void)state;
    struct bench *bench = bench_clean("job \"T\" { seal B }\nunit AHU { airflow 300 cfm }\n" TAIL);
    static const char *const hanging[] = {"trunk", "on", "bare", "a", "b", "c"};
    for (size_t i = 0; i < sizeof hanging / sizeof hanging[0]; i++) {
        const struct settings *settings = settings_of(bench, hanging[i]);
        assert_int_equal(settings->material, MATERIAL_ALUMINIUM);
        assert_int_equal(settings->location, LOCATION_ATTIC);
        assert_near(settings->location_temperature, (130 + 459.67) / 1.8, 1e-6);
        assert_true(settings->seam_set);
        assert_int_equal(settings->seam, SEAM_PITTSBURGH);
        assert_near(settings->pressure_class, 0.5 * 248.84, 1e-9);
        assert_int_equal(settings->gauge, 24);
        assert_int_equal(settings->seal, SEAL_B); /* the job's */
    }
    assert_near(settings_of(bench, "on")->lining, INCH, 1e-9);
    assert_near(settings_of(bench, "a")->insulation, 6 / 5.678263, 1e-5); /* 1 m2K/W = 5.678263 h ft2 F/btu */
    assert_near(settings_of(bench, "bare")->lining, 0, 0);                /* its own word, though it says none */
    assert_near(settings_of(bench, "b")->insulation, 0, 0);
    bench_free(bench);
}

static void the_space_of_a_run_is_that_of_its_ends_but_not_of_its_taps(void **state) {
    (void)state;
    struct bench *bench = bench_clean("job \"T\" { limit width 30 in }\nunit AHU { airflow 300 cfm }\n" TAIL);
    assert_near(settings_of(bench, "on")->limit_height, 8 * INCH, 1e-9);
    assert_near(settings_of(bench, "a")->limit_height, 8 * INCH, 1e-9);
    assert_near(settings_of(bench, "bare")->limit_height, 0, 0);
    assert_near(settings_of(bench, "bare")->limit_width, 30 * INCH, 1e-9); /* the job's reaches all */
    assert_near(settings_of(bench, "trunk")->limit_velocity, 800 * FOOT / 60, 1e-9);
    assert_near(settings_of(bench, "on")->limit_velocity, 0, 0); /* a velocity limit stays with its run */
    bench_free(bench);
}

static void shapes(void **state) {
    (void)state;
    struct bench *bench = bench_clean("job \"T\" { revision 1 }\nunit AHU { airflow 300 cfm }\n" TAIL);
    assert_int_equal(settings_of(bench, "on")->shape, SHAPE_RECTANGULAR);
    assert_int_equal(settings_of(bench, "bare")->shape, SHAPE_ROUND); /* a tapped run is a runout */
    assert_int_equal(settings_of(bench, "b")->shape, SHAPE_ROUND);    /* and an outlet with duct of its own */
    assert_int_equal(settings_of(bench, "c")->shape, SHAPE_ROUND);
    assert_int_equal(settings_of(bench, "hall")->shape, SHAPE_RECTANGULAR); /* from a unit: a trunk */
    bench_free(bench);
    bench = bench_clean(
        "shop \"S\" { trunk oval; runout rectangular }\njob \"T\" { revision 1 }\nunit AHU { airflow 200 cfm }\n"
        "inlet hall from AHU.return { grille 20 x 14 }\n"
        "run trunk from AHU.supply { straight 10 ft }\n"
        "outlet a from trunk at 2 ft left { airflow 100 cfm; straight 2 ft; register 8 x 4 }\n"
        "outlet b from trunk at 4 ft left { airflow 100 cfm; flex 2 ft; register 8 x 4 }\n");
    assert_int_equal(settings_of(bench, "trunk")->shape, SHAPE_OVAL);
    assert_int_equal(settings_of(bench, "a")->shape, SHAPE_RECTANGULAR);
    assert_int_equal(settings_of(bench, "b")->shape, SHAPE_ROUND); /* flexible duct is round whatever the shop makes */
    bench_free(bench);
}

/* From a plain end: as before, of a run and of an outlet or inlet alike, and as it is there. */
static void what_goes_on_from_an_end_keeps_its_shape(void **state) {
    (void)state;
    struct bench *bench = bench_clean(
        "job \"T\" { revision 1 }\nunit AHU { airflow 400 cfm; supply 18 x 12; return 16 }\n"
        "run trunk from AHU.supply { straight 10 ft }\n"
        "run on from trunk { straight 5 ft }\n"
        "outlet a from on { airflow 100 cfm; straight 2 ft; boot; register 8 x 4 }\n"
        "run branch from trunk at 2 ft left { straight 4 ft }\n"
        "outlet b from branch { airflow 100 cfm; straight 2 ft; boot; register 8 x 4 }\n"
        "run changed from trunk at 4 ft right { straight 4 ft; transition to 8 x 6 over 12 in; straight 2 ft }\n"
        "outlet c from changed { airflow 100 cfm; straight 2 ft; register 8 x 4 }\n"
        "run other from trunk at 6 ft right { straight 4 ft }\n"
        "outlet d from other { airflow 100 cfm; shape oval; straight 2 ft; boot; register 8 x 4 }\n"
        "run back from AHU.return { straight 4 ft }\n"
        "inlet hall from back { straight 2 ft; boot; grille 20 x 14 }\n");
    assert_int_equal(settings_of(bench, "a")->shape, SHAPE_RECTANGULAR);
    assert_int_equal(settings_of(bench, "b")->shape, SHAPE_ROUND);
    assert_int_equal(settings_of(bench, "c")->shape, SHAPE_RECTANGULAR); /* as it has become */
    assert_int_equal(settings_of(bench, "d")->shape, SHAPE_OVAL);        /* its own word */
    assert_int_equal(settings_of(bench, "hall")->shape, SHAPE_ROUND);    /* as the collar is */
    bench_free(bench);
}

static void a_size_stays_with_its_run_but_tells_its_shape(void **state) {
    (void)state;
    struct bench *bench = bench_clean("job \"T\" { revision 1 }\nunit AHU { airflow 100 cfm }\n"
                                      "inlet hall from AHU.return { grille 20 x 14 }\n"
                                      "run trunk from AHU.supply { size 12; straight 10 ft }\n"
                                      "run on from trunk { straight 10 ft }\n"
                                      "outlet a from on { airflow 100 cfm; register 8 x 4 }\n");
    assert_int_equal(settings_of(bench, "trunk")->shape, SHAPE_ROUND);
    assert_near(bench_run(bench, "trunk")->first_duct->size.width, 12 * INCH, 1e-9);
    assert_true(bench_run(bench, "trunk")->first_duct->fixed);
    assert_int_equal(settings_of(bench, "on")->shape, SHAPE_ROUND);
    assert_false(size_known(settings_of(bench, "on")->size));
    assert_false(bench_run(bench, "on")->first_duct->fixed);
    bench_free(bench);
}

static void the_job_is_heard_before_the_shop(void **state) {
    (void)state;
    struct bench *bench =
        bench_clean("shop \"S\" { seal C; joint crimp; material pvc; pressure-class 2 in.wg }\njob \"T\" { seal A; "
                    "pressure-class 1 in.wg }\n"
                    "unit AHU { airflow 100 cfm }\ninlet hall from AHU.return { grille 20 x 14 }\n"
                    "outlet a from AHU.supply { airflow 100 cfm; joint standing-s; register 8 x 4 }\n");
    assert_int_equal(settings_of(bench, "a")->seal, SEAL_A);
    assert_int_equal(settings_of(bench, "a")->material, MATERIAL_PVC);
    assert_int_equal(settings_of(bench, "a")->joint, JOINT_STANDING_S);
    assert_int_equal(settings_of(bench, "hall")->joint, JOINT_CRIMP);
    assert_near(settings_of(bench, "a")->pressure_class, 248.84, 1e-9);
    assert_false(settings_of(bench, "a")->seam_set);
    bench_free(bench);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(what_hangs_from_a_run_takes_its_fabric),
        cmocka_unit_test(the_space_of_a_run_is_that_of_its_ends_but_not_of_its_taps),
        cmocka_unit_test(shapes),
        cmocka_unit_test(what_goes_on_from_an_end_keeps_its_shape),
        cmocka_unit_test(a_size_stays_with_its_run_but_tells_its_shape),
        cmocka_unit_test(the_job_is_heard_before_the_shop),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
