/* Trees of any form and size: what goes in at the unit comes out at the terminals, and nothing takes more than it
 * should. */
#include "model_bench.h"

#include <math.h>
#include <time.h>

/* A text that grows. */
struct writing {
    char *bytes;
    size_t length, room;
};

static void write_text(struct writing *writing, const char *format, ...) __attribute__((format(printf, 2, 3)));

static void write_text(struct writing *writing, const char *format, ...) {
    if (writing->room - writing->length < 400) {
        writing->room = writing->room ? writing->room * 2 : 4096;
        writing->bytes = realloc(writing->bytes, writing->room);
        assert_non_null(writing->bytes);
    }
    va_list list;
    va_start(list, format);
    int written = vsnprintf(writing->bytes + writing->length, writing->room - writing->length, format, list);
    va_end(list);
    assert_true(written >= 0 && written < 400);
    writing->length += (size_t)written;
}

/* The same numbers on every machine: xorshift64* (Vigna 2016, from memory). */
static uint64_t next_random(uint64_t *seed) {
    *seed ^= *seed >> 12;
    *seed ^= *seed << 25;
    *seed ^= *seed >> 27;
    return *seed * 2685821657736338717u;
}

static unsigned pick(uint64_t *seed, unsigned count) {
    return (unsigned)(next_random(seed) >> 33) % count;
}

/* Parents before children, every section reachable, flows that add up, terminals and paths one to one. */
static void assert_network_whole(const struct network *network) {
    size_t terminals = 0;
    double *below = calloc(network->sections.count + 1, sizeof *below);
    assert_non_null(below);
    for (size_t i = 0; i < network->sections.count; i++) {
        const struct section *section = network->sections.at[i];
        assert_int_equal(section->id, i);
        assert_true(!section->parent || section->parent->id < i);
        assert_true(section->duct->id < network->ducts.count);
        assert_ptr_equal(network->ducts.at[section->duct->id], section->duct);
        assert_true(section->duct->flow >= section->flow - 1e-12);
        if (section->terminal) {
            terminals++;
            below[i] += section->terminal->airflow;
        }
        for (size_t k = 0; k < section->items.count; k++)
            assert_non_null(section->items.at[k].piece);
    }
    for (size_t i = network->sections.count; i-- > 0;) {
        const struct section *section = network->sections.at[i];
        assert_near(section->flow, below[i], 1e-9 * (1 + below[i]));
        if (section->parent)
            below[section->parent->id] += below[i];
    }
    for (size_t i = 0; i < network->ducts.count; i++) {
        assert_int_equal(network->ducts.at[i]->id, i);
        assert_true(!network->ducts.at[i]->upstream || network->ducts.at[i]->upstream->id < i);
    }
    assert_int_equal(terminals, network->supply_paths.count + network->return_paths.count);
    free(below);
}

/* What is taken already of a run's far end. */
struct far_end {
    bool split; /* it ends in a wye */
    bool left, right, plain;
};

/* Where a new run hangs on `parent`: an open leg or plain end if the dice say so, else a tap. */
static void write_port(char *port, size_t room, unsigned parent, struct far_end *end, uint64_t *seed) {
    bool far = pick(seed, 2);
    if (far && end->split && !end->left) {
        snprintf(port, room, "r%u.left", parent);
        end->left = true;
    } else if (far && end->split && !end->right) {
        snprintf(port, room, "r%u.right", parent);
        end->right = true;
    } else if (far && !end->split && !end->plain) {
        snprintf(port, room, "r%u", parent);
        end->plain = true;
    } else {
        snprintf(port, room, "r%u at %u in right", parent, pick(seed, 121));
    }
}

static unsigned write_outlet(struct writing *job, unsigned outlet, const char *port, uint64_t *seed) {
    unsigned cfm = 20 + pick(seed, 200);
    write_text(job, "outlet o%u from %s { airflow %u cfm; straight 2 ft; boot; register 10 x 6 }\n", outlet, port, cfm);
    return cfm;
}

/* A random supply tree of `runs` runs: taps, plain ends and legs, transitions and elbows between; outlets at what is
 * left open and along the way.  Returns what all outlets take, m3/s. */
static double write_random_tree(struct writing *job, uint64_t *seed, unsigned runs) {
    unsigned outlets = 0, total = 0;
    struct far_end *ends = calloc(runs, sizeof *ends);
    char port[64] = "AHU.supply";
    assert_non_null(ends);
    write_text(job, "job \"Random\" { revision 1 }\nunit AHU { cooling 3 ton }\n"
                    "inlet hall from AHU.return { grille 20 x 14 }\n");
    for (unsigned i = 0; i < runs; i++) {
        unsigned parent = i ? pick(seed, i) : 0;
        if (i)
            write_port(port, sizeof port, parent, &ends[parent], seed);
        ends[i].split = !pick(seed, 4);
        write_text(job, "run r%u from %s {\n    straight 10 ft\n%s%s%s}\n", i, port,
                   pick(seed, 3) ? "" : "    transition over 1 ft\n    straight 2 ft\n",
                   pick(seed, 3) ? "" : "    elbow 90 left\n    straight 4 ft\n",
                   ends[i].split ? "    split wye over 24 in\n" : "");
    }
    for (unsigned i = 0; i < runs; i++) {
        for (unsigned taps = 1 + pick(seed, 3); taps > 0; taps--) {
            snprintf(port, sizeof port, "r%u at %u in left", i, pick(seed, 121));
            total += write_outlet(job, outlets++, port, seed);
        }
        static const char *const legs[] = {".left", ".right"};
        for (int leg = 0; leg < 2; leg++) {
            if (!ends[i].split || (leg ? ends[i].right : ends[i].left))
                continue;
            snprintf(port, sizeof port, "r%u%s", i, legs[leg]);
            total += write_outlet(job, outlets++, port, seed);
        }
    }
    free(ends);
    return total * CFM;
}

static void random_trees_keep_their_air(void **state) {
    (void)state;
    const char *given = getenv("MODEL_SEED");
    uint64_t first = given ? strtoull(given, NULL, 10) : 20260418;
    for (uint64_t round = 0; round < (given ? 1u : 60u); round++) {
        uint64_t seed = first + round * 7919, start = seed;
        struct writing job = {0};
        unsigned runs = 1 + pick(&seed, 40);
        double total = write_random_tree(&job, &seed, runs);
        struct bench *bench = bench_new(job.bytes);
        if (bench->diagnostics.error_count) {
            fprintf(stderr, "MODEL_SEED=%llu\n", (unsigned long long)start);
            bench_print(bench);
            fail_msg("a sound job has errors");
        }
        const struct network *network = bench_network(bench, 0);
        if (fabs(network->supply_flow - total) > 1e-9 * total)
            fprintf(stderr, "MODEL_SEED=%llu\n", (unsigned long long)start);
        assert_near(network->supply_flow, total, 1e-9 * total);
        assert_near(network->return_flow, total, 1e-9 * total);
        assert_near(bench_run(bench, "r0")->first_section->flow, total, 1e-9 * total);
        assert_network_whole(network);
        bench_free(bench);
        free(job.bytes);
    }
}

static void a_chain_of_50000_runs(void **state) {
    (void)state;
    struct writing job = {0};
    write_text(
        &job,
        "job \"Chain\" { revision 1 }\nunit AHU { airflow 100 cfm }\n"
        "inlet hall from AHU.return { grille 20 x 14 }\noutlet end from r49999 { airflow 100 cfm; register 8 x 4 }\n");
    for (unsigned i = 50000; i-- > 1;) /* the far end first, so that nothing is in order */
        write_text(&job, "run r%u from r%u { straight 1 ft }\n", i, i - 1);
    write_text(&job, "run r0 from AHU.supply { straight 1 ft }\n");
    struct bench *bench = bench_clean(job.bytes);
    assert_network_whole(bench_network(bench, 0));
    assert_near(bench_run(bench, "r0")->first_section->flow, 100 * CFM, 1e-12);
    bench_free(bench);
    free(job.bytes);
}

static void a_loop_of_50000_runs_is_one_error(void **state) {
    (void)state;
    struct writing job = {0};
    write_text(&job, "job \"Loop\" { revision 1 }\nunit AHU { airflow 100 cfm }\n");
    for (unsigned i = 0; i < 50000; i++)
        write_text(&job, "run r%u from r%u { straight 1 ft }\n", i, (i + 1) % 50000);
    struct bench *bench = bench_new(job.bytes);
    assert_int_equal(bench->diagnostics.error_count, 1);
    assert_string_equal(bench->diagnostics.all.at[0]->check, "loop");
    bench_free(bench);
    free(job.bytes);
}

static void ten_thousand_units(void **state) {
    (void)state;
    struct writing job = {0};
    write_text(&job, "job \"Units\" { revision 1 }\n");
    for (unsigned i = 0; i < 10000; i++)
        write_text(&job,
                   "unit U%u { airflow 100 cfm }\noutlet o%u from U%u.supply { airflow 100 cfm; register 8 x 4 }\n"
                   "inlet i%u from U%u.return { grille 20 x 14 }\n",
                   i, i, i, i, i);
    struct bench *bench = bench_clean(job.bytes);
    for (size_t i = 0; i < 10000; i += 999)
        assert_near(bench_network(bench, i)->return_flow, 100 * CFM, 1e-12);
    bench_free(bench);
    free(job.bytes);
}

/* Nearest names are sought for the first few only, and no more diagnostics are kept than can be read. */
static void a_job_full_of_unknown_names_is_still_read_through(void **state) {
    (void)state;
    struct writing job = {0};
    write_text(&job, "job \"Slips\" { revision 1 }\nunit AHU { airflow 100 cfm }\n");
    for (unsigned i = 0; i < 30000; i++)
        write_text(&job, "outlet o%u from nowhere%u at 1 ft left { airflow 100 cfm; register 8 x 4 }\n", i, i);
    struct bench *bench = bench_new(job.bytes);
    assert_int_equal(bench->diagnostics.error_count, 30000);
    assert_int_equal(bench->diagnostics.all.count, DIAGNOSTICS_KEPT);
    bench_free(bench);
    free(job.bytes);
}

/* A trunk with `count` taps, written from the far end, so that every order has to be made. */
static double seconds_for_taps(unsigned count) {
    struct writing job = {0};
    write_text(&job, "job \"Taps\" { revision 1 }\nunit AHU { cooling 3 ton }\n"
                     "inlet hall from AHU.return { grille 20 x 14 }\nrun trunk from AHU.supply {\n");
    for (unsigned i = 0; i < count / 10; i++)
        write_text(&job, "straight 10 ft\n");
    write_text(&job, "}\n");
    for (unsigned i = count; i-- > 0;)
        write_text(&job, "outlet o%u from trunk at %u in left { airflow 1 cfm; register 8 x 4 }\n", i, i * 12);
    clock_t start = clock();
    struct bench *bench = bench_clean(job.bytes);
    double seconds = (double)(clock() - start) / CLOCKS_PER_SEC;
    assert_network_whole(bench_network(bench, 0));
    assert_int_equal(bench_run(bench, "trunk")->taps.count, count);
    bench_free(bench);
    free(job.bytes);
    return seconds;
}

/* Ten times the job may take some more than ten times as long (caches, memory), but not a hundred times. */
static void taps_take_time_in_proportion_to_their_number(void **state) {
    (void)state;
    seconds_for_taps(2000);
    double few = seconds_for_taps(800), many = seconds_for_taps(8000);
    if (many > 40 * few + 0.05)
        fail_msg("800 taps took %.4f s, 8000 took %.4f s", few, many);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(random_trees_keep_their_air),
        cmocka_unit_test(a_chain_of_50000_runs),
        cmocka_unit_test(a_loop_of_50000_runs_is_one_error),
        cmocka_unit_test(ten_thousand_units),
        cmocka_unit_test(a_job_full_of_unknown_names_is_still_read_through),
        cmocka_unit_test(taps_take_time_in_proportion_to_their_number),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
