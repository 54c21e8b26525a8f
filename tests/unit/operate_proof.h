/* What has to be true of any operating point.  Include it behind cmocka.h. */
#ifndef TESTS_UNIT_OPERATE_PROOF_H
#define TESTS_UNIT_OPERATE_PROOF_H

#include "compiled.h"
#include "near.h"
#include "operate_bench.h"

#define CLOSES (1e-9 * INCH_OF_WATER)

static inline double sum_of_items(const struct network *network, const double *loss, const struct section *end) {
    double sum = 0;
    (void)network;
    for (const struct section *at = end; at; at = at->parent)
        sum += loss[at->id];
    return sum;
}

/* The air that leaves a section is that which comes to it. */
static inline void assert_continuous(const struct network *network, const struct operating_point *point) {
    double *sum = calloc(network->sections.count, sizeof *sum);
    assert_non_null(sum);
    bool *parent = calloc(network->sections.count, sizeof *parent);
    assert_non_null(parent);
    for (size_t i = 0; i < network->sections.count; i++) {
        const struct section *at = network->sections.at[i];
        if (at->parent) {
            sum[at->parent->id] += point->sections[i];
            parent[at->parent->id] = true;
        }
    }
    for (size_t i = 0; i < network->sections.count; i++) {
        if (parent[i])
            assert_near(point->sections[i], sum[i], 1e-12 * fmax(point->flow, 1e-3));
        if (!network->sections.at[i]->parent)
            assert_near(point->sections[i], point->flow, 1e-9 * point->flow);
    }
    free(sum);
    free(parent);
}

/* Losses at those airflows by the pass that the design is computed with, and not by the sweeps of the solver: a copy of
 * the network's design airflows makes way for them. */
static inline void assert_closes(const struct compiled *compiled, const struct operating_point *point) {
    const struct job *job = compiled->job;
    struct network *network = (struct network *)(uintptr_t)compiled_network(compiled);
    size_t count = network->sections.count;
    double *design = calloc(count, sizeof *design), *loss = calloc(count, sizeof *loss), pressure = 0;
    assert_true(design && loss);
    double least[2] = {INFINITY, INFINITY}, most[2] = {-INFINITY, -INFINITY};
    for (size_t i = 0; i < count; i++) {
        design[i] = network->sections.at[i]->flow;
        network->sections.at[i]->flow = point->sections[i];
    }
    air_losses(network, &job->air);
    for (size_t i = 0; i < count; i++)
        loss[i] = network->sections.at[i]->loss;
    for (int side = 0; side < 2; side++) {
        const struct path *paths = side ? network->return_paths.at : network->supply_paths.at;
        size_t paths_count = side ? network->return_paths.count : network->supply_paths.count;
        for (size_t i = 0; i < paths_count; i++) {
            double sum = sum_of_items(network, loss, paths[i].end);
            least[side] = fmin(least[side], sum);
            most[side] = fmax(most[side], sum);
        }
    }
    assert_true(air_blower_pressure(network->unit->blower.at, network->unit->blower.count, point->flow, &pressure));
    double has = pressure * job->air.density_ratio - point->drops;
    assert_near(least[0] + least[1], has, CLOSES);
    assert_near(most[0] + most[1], has, CLOSES);
    for (size_t i = 0; i < count; i++)
        network->sections.at[i]->flow = design[i];
    air_losses(network, &job->air);
    free(design);
    free(loss);
}

static inline const struct operation *operation_of(const struct compiled *compiled) {
    const struct operation *operation = compiled_network(compiled)->operation;
    if (!operation) {
        cleat_print_diagnostics(compiled->cleat, stderr, false, false);
        fail_msg("no operating point of:\n%s", compiled->text);
    }
    return operation;
}

static inline double flow_of_named(const struct compiled *compiled, const char *name) {
    return operation_of(compiled)->dampers_open.sections[compiled_run(compiled, name)->last_section->id];
}

#endif
