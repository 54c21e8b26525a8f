/* Proves a shape: everything that a fitting must be for its patterns to go together.
 *
 *     struct transition_size size = {...};                       nothing but doubles
 *     solid_prove("transition", shape_transition, &size, sizeof size);
 *
 * fails the test, with the seed and the least parameters that it found to fail too.  Where a random size need not be
 * one that can be, solid_prove_or_fault gives false for those that the shape itself calls impossible.  Include it
 * behind cmocka.h.
 */
#ifndef TESTS_UNIT_SOLID_PROVE_H
#define TESTS_UNIT_SOLID_PROVE_H

#include "random.h"
#include "solid_whole.h"

static inline double extent_of(const struct solid *solid) {
    double most = 0;
    for (size_t p = 0; p < solid->panels.count; p++)
        for (size_t e = 0; e < solid->panels.at[p].edges.count; e++)
            for (size_t i = 0; i < solid->panels.at[p].edges.at[e].count; i++)
                most = fmax(most, space_distance(solid->panels.at[p].edges.at[e].space[i],
                                                 solid->panels.at[0].edges.at[0].space[0]));
    return most;
}

/* Built finer, a shape has the same panels and edges, only more points. */
static inline bool is_alike(const struct solid *a, const struct solid *b) {
    if (a->panels.count != b->panels.count || a->ports.count != b->ports.count)
        return false;
    for (size_t p = 0; p < a->panels.count; p++) {
        if (a->panels.at[p].edges.count != b->panels.at[p].edges.count)
            return false;
        for (size_t e = 0; e < a->panels.at[p].edges.count; e++)
            if (a->panels.at[p].edges.at[e].mate_panel != b->panels.at[p].edges.at[e].mate_panel)
                return false;
    }
    return true;
}

/* Made finer until its curves are near enough, as the shop's patterns are. */
static inline void prove_drawn(struct proof *proof) {
    size_t level = 0;
    while (level + 4 < SERIES_MOST && solid_chord_error(series_at(proof, level)) > CHORD_LIMIT)
        level++;
    holds(proof, solid_chord_error(proof->at[level]) <= CHORD_LIMIT,
          "its curves are still off by %g m when drawn %u times finer", solid_chord_error(proof->at[level]),
          1u << level);
    for (size_t p = 0; p < proof->at[0]->panels.count && !proof->property; p++)
        prove_chords(proof, level, (int)p);
}

static inline void prove_everything(struct proof *proof) {
    const struct solid *solid = proof->at[0];
    proof->extent = extent_of(solid);
    proof->exact = ARENA_ARRAY(proof->arena, bool, solid->panels.count + 1);
    holds(proof, solid->panels.count > 0 && solid->ports.count > 0, "it has no panels or no ports");
    for (size_t level = 0; level < SERIES_LEAST && !proof->property; level++) {
        holds(proof, !series_at(proof, level)->fault, "drawn %u times finer, it faults: %s", 1u << level,
              proof->at[level]->fault);
        holds(proof, is_alike(solid, proof->at[level]), "drawn %u times finer, it has other edges", 1u << level);
        if (!proof->property)
            prove_joins(proof, proof->at[level]);
    }
    for (size_t i = 0; i < solid->ports.count; i++)
        holds(proof, size_known(solid->ports.at[i].size), "the end %s has no size", solid->ports.at[i].name);
    for (size_t p = 0; p < solid->panels.count && !proof->property; p++)
        prove_panel(proof, (int)p);
    if (!proof->property)
        prove_mating_lengths(proof);
    if (!proof->property)
        prove_inside(proof, solid);
    for (size_t i = 0; i < solid->ports.count && !proof->property; i++)
        prove_port(proof, (int)i);
    for (size_t p = 0; p < solid->panels.count && !proof->property; p++)
        for (size_t e = 0; e < solid->panels.at[p].edges.count && !proof->property; e++)
            prove_bend(proof, (int)p, (int)e);
    if (!proof->property)
        prove_blanks(proof, solid);
    if (!proof->property)
        prove_cut(proof, solid, 0);
    for (size_t p = 0; p < solid->panels.count && !proof->property; p++)
        if (has_join(panel_at(solid, (int)p), JOIN_BEND)) { /* the deduction is taken off at bends only */
            prove_cut(proof, solid, INCH / 16);
            break;
        }
    if (!proof->property)
        prove_drawn(proof);
}

/* What came of a proof. */
struct verdict {
    const char *property; /* that does not hold; NULL: all do */
    char said[512];
    bool fault; /* the shape says that it cannot be */
};

static inline struct verdict verdict_on(shape_builder *build, const void *size) {
    struct verdict verdict = {0};
    struct proof *proof = calloc(1, sizeof *proof);
    if (!proof || !(proof->arena = arena_new(NULL)) || setjmp(proof->no_memory))
        abort();
    arena_on_failure(proof->arena, &proof->no_memory);
    proof->build = build;
    proof->size = size;
    verdict.fault = series_at(proof, 0)->fault != NULL;
    if (verdict.fault) {
        verdict.property = "a shape that can be";
        snprintf(verdict.said, sizeof verdict.said, "%s", proof->at[0]->fault);
    } else {
        prove_everything(proof);
        verdict.property = proof->property;
        memcpy(verdict.said, proof->said, sizeof verdict.said);
    }
    arena_free(proof->arena);
    free(proof);
    return verdict;
}

/* Rounder values for one parameter, the roundest first. */
static inline double rounder(double value, int try) {
    static const double steps[] = {1, 12 * INCH, 6 * INCH, INCH, 15 * DEGREE, INCH / 8};
    return try == 0 ? 0 : steps[try - 1] * round(value / steps[try - 1]);
}
enum { ROUNDER = 7 };

/* Takes every rounder value with which the same property still fails. */
static inline struct verdict shrink(shape_builder *build, double *size, size_t count, struct verdict verdict) {
    for (size_t i = 0; i < count; i++)
        for (int try = 0; try < ROUNDER; try++) {
            double kept = size[i];
            size[i] = rounder(kept, try);
            struct verdict again = verdict_on(build, size);
            if (again.property && strcmp(again.property, verdict.property) == 0) {
                verdict = again;
                break;
            }
            size[i] = kept;
        }
    return verdict;
}

enum { SIZE_DOUBLES = 64, SIZE_TEXT = SIZE_DOUBLES * 26 };

static inline void say_size(char text[SIZE_TEXT], const double *size, size_t count) {
    size_t used = 0;
    text[0] = 0;
    for (size_t i = 0; i < count; i++)
        used += (size_t)snprintf(text + used, SIZE_TEXT - used, "%s%.17g", i ? ", " : "", size[i]);
}

static inline void fail_proof(const char *shape, shape_builder *build, const void *size, size_t bytes,
                              struct verdict verdict) {
    double least[SIZE_DOUBLES] = {0};
    char given[SIZE_TEXT], shrunk[SIZE_TEXT];
    size_t count = bytes / sizeof *least;
    assert_true(count <= SIZE_DOUBLES);
    memcpy(least, size, count * sizeof *least);
    say_size(given, least, count);
    if (!verdict.fault)
        verdict = shrink(build, least, count, verdict);
    say_size(shrunk, least, count);
    fail_msg("seed %llu: %s {%s}, or simpler {%s}: %s [%s]", (unsigned long long)seed, shape, given, shrunk,
             verdict.said, verdict.property);
}

static inline bool solid_prove_or_fault(const char *shape, shape_builder *build, const void *size, size_t bytes) {
    struct verdict verdict = verdict_on(build, size);
    if (verdict.property && !verdict.fault)
        fail_proof(shape, build, size, bytes, verdict);
    return !verdict.property;
}

static inline void solid_prove(const char *shape, shape_builder *build, const void *size, size_t bytes) {
    struct verdict verdict = verdict_on(build, size);
    if (verdict.property)
        fail_proof(shape, build, size, bytes, verdict);
}

#endif
