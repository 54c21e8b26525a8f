/* Areas and lengths of a shape's panels by their names, and the fault of one that cannot be.  Include it behind
 * cmocka.h. */
#ifndef TESTS_UNIT_SOLID_SUMS_H
#define TESTS_UNIT_SOLID_SUMS_H

#include <stdlib.h>
#include <string.h>

#include "metal/metal.h"

struct sums {
    struct arena *arena;
    struct solid *solid; /* closed, unless it faults */
};

static inline struct sums sums_of(shape_builder *build, const void *size, double fineness) {
    struct sums sums = {.arena = arena_new(NULL)};
    jmp_buf no_memory;
    if (!sums.arena || setjmp(no_memory))
        abort();
    arena_on_failure(sums.arena, &no_memory);
    sums.solid = solid_new(sums.arena, fineness);
    build(sums.solid, size);
    if (!sums.solid->fault)
        solid_close(sums.solid);
    return sums;
}

/* With an arc of that radius and sweep in just so many parts; more than it has at fineness 1. */
static inline struct sums sums_of_divided(shape_builder *build, const void *size, size_t parts, double radius,
                                          double sweep) {
    double low = 1, high = 1e6;
    while (high / low > 1 + 1e-12) {
        struct solid solid = {.fineness = sqrt(low * high)};
        if (solid_divisions(&solid, radius, sweep) < parts)
            low = solid.fineness;
        else
            high = solid.fineness;
    }
    return sums_of(build, size, high);
}

static inline void sums_free(struct sums *sums) {
    arena_free(sums->arena);
}

/* Of all panels of that name; of all when NULL; m2. */
static inline double sums_area(const struct sums *sums, const char *name) {
    double area = 0;
    for (size_t i = 0; i < sums->solid->panels.count; i++)
        if (!name || strcmp(sums->solid->panels.at[i].name, name) == 0)
            area += panel_area(&sums->solid->panels.at[i]);
    return area;
}

/* Of the edges of one cheek that are called so; m. */
static inline double sums_length(const struct sums *sums, const char *name) {
    double length = 0;
    const struct solid_panel *cheek = &sums->solid->panels.at[0];
    for (size_t i = 0; i < cheek->edges.count; i++)
        if (cheek->edges.at[i].name && strcmp(cheek->edges.at[i].name, name) == 0)
            length += edge_length(&cheek->edges.at[i]);
    return length;
}

static inline void assert_fault(shape_builder *build, const void *size, const char *words) {
    struct sums sums = sums_of(build, size, 1);
    if (!sums.solid->fault || !strstr(sums.solid->fault, words))
        fail_msg("got \"%s\", want \"%s\"", sums.solid->fault ? sums.solid->fault : "no fault", words);
    sums_free(&sums);
}

#endif
