/* Ways out of a budget are tried on the network itself: it is afterwards what it was before, to the byte. */
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <setjmp.h>
#include <cmocka.h>

#include "check/budget_ways.h"
#include "compiled.h"

/* Everything of a network that is no pointer's own. */
struct bytes {
    char *at;
    size_t count;
};

static void put(FILE *out, const void *at, size_t size, size_t count) {
    assert_int_equal(fwrite(at, size, count, out), count);
}

static struct bytes bytes_of(const struct network *network) {
    struct bytes bytes = {NULL, 0};
    FILE *out = open_memstream(&bytes.at, &bytes.count);
    assert_non_null(out);
    put(out, network, sizeof *network, 1);
    put(out, network->unit, sizeof *network->unit, 1);
    put(out, network->unit->drops.at, sizeof(struct drop), network->unit->drops.count);
    put(out, network->unit->speeds.at, sizeof(struct blower_speed), network->unit->speeds.count);
    put(out, network->supply_paths.at, sizeof(struct path), network->supply_paths.count);
    put(out, network->return_paths.at, sizeof(struct path), network->return_paths.count);
    for (size_t i = 0; i < network->ducts.count; i++)
        put(out, network->ducts.at[i], sizeof(struct duct), 1);
    for (size_t i = 0; i < network->sections.count; i++) {
        const struct section *section = network->sections.at[i];
        put(out, section, sizeof *section, 1);
        put(out, section->items.at, sizeof(struct item), section->items.count);
        for (size_t k = 0; k < section->items.count; k++)
            put(out, section->items.at[k].piece, sizeof(struct piece), 1);
    }
    fclose(out);
    return bytes;
}

/* A unit of several speeds, a friction rate that is asked for, elbows that could be easier, sizes that could be larger:
 * each kind of way is tried, and there are some of each. */
static struct compiled short_of_pressure(const char *settings, const char *pressure) {
    return compiled_until(
        "sources",
        "job \"Short\" { %s }\n"
        "unit fan { airflow 700 cfm; supply 14 x 10; return 18 x 12; drop \"coil\" 0.05 in.wg\n"
        "speed \"low\"\n"
        "blower \"low\" 600 cfm at %s in.wg, 800 cfm at %s in.wg\n"
        "blower \"high\" 600 cfm at 0.9 in.wg, 800 cfm at 0.8 in.wg\n}\n"
        "run trunk from fan.supply { straight 6 ft; transition over 1 ft; straight 20 ft; elbow 90 left; "
        "straight 20 ft }\n"
        "outlet loft from trunk at 9 ft left { airflow 300 cfm; elbow 90 right; straight 9 ft; "
        "register 12 x 8, 0.05 in.wg at 300 cfm }\n"
        "outlet barn from trunk { airflow 400 cfm; register 14 x 10, 0.06 in.wg at 400 cfm }\n"
        "run back from fan.return { straight 10 ft; elbow 90 up }\n"
        "inlet hall from back { grille 20 x 14, 0.05 in.wg at 700 cfm }\n",
        settings, pressure, pressure);
}

static size_t ways_leave_all_as_it_was(const char *settings, const char *pressure) {
    struct compiled compiled = short_of_pressure(settings, pressure);
    struct job *job = (struct job *)(uintptr_t)compiled.job;
    struct network *network = job->units.count ? job->units.at[0]->network : NULL;
    if (cleat_error_count(compiled.cleat) || !network) {
        cleat_print_diagnostics(compiled.cleat, stderr, false, false);
        fail_msg("not compiled:\n%s", compiled.text);
    }
    if (!(network->surplus < 0))
        fail_msg("%.1f Pa left with %s", network->surplus, settings);
    struct bytes before = bytes_of(network);
    double rate = job->friction_rate;
    bool incomplete = job->incomplete;
    struct look look = {.job = job};
    struct diagnostic *said = diagnose(job->diagnostics, DIAGNOSTIC_NOTE, "budget", network->unit->at, "short");
    budget_ways(&look, network, 1, said);
    struct bytes after = bytes_of(network);
    assert_int_equal(before.count, after.count);
    assert_memory_equal(before.at, after.at, before.count);
    assert_true(job->friction_rate == rate && job->incomplete == incomplete);
    assert_int_equal(cleat_error_count(compiled.cleat), 0);
    size_t told = said->related.count;
    free(before.at);
    free(after.at);
    compiled_free(&compiled);
    return told;
}

static void the_network_is_as_it_was(void **state) {
    (void)state;
    assert_true(ways_leave_all_as_it_was("friction 0.12 in.wg/100ft", "0.24") > 1);
    assert_true(ways_leave_all_as_it_was("friction 0.12 in.wg/100ft; sizing static-regain", "0.18") >= 1);
    assert_true(ways_leave_all_as_it_was("sizing velocity", "0.18") >= 1);
    assert_true(ways_leave_all_as_it_was("sizing least-cost", "0.12") >= 1);
    assert_true(ways_leave_all_as_it_was("altitude 5000 ft", "0.12") >= 1);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_network_is_as_it_was),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
