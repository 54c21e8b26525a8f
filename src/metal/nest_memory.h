/* The nests that a compilation has found: a change of the job that leaves the blanks of a gauge as they are is laid out
 * without searching again.
 */
#ifndef CLEAT_METAL_NEST_MEMORY_H
#define CLEAT_METAL_NEST_MEMORY_H

#include "base/arena.h"
#include "metal/nest_solve.h"

struct nest_memory;

/* Both it and what it remembers are in `arena`. */
struct nest_memory *nest_memory_new(struct arena *arena);

/* As nest_solve, which gives equal solutions for equal problems; the solution lives as long as the memory. */
const struct nest_solution *nest_remembered(struct nest_memory *memory, struct arena *scratch,
                                            const struct nest_problem *problem);

#endif
