/* Problems that were solved, with their solutions. */
#include "metal/nest_memory.h"

#include <string.h>

struct solved {
    struct nest_problem problem;
    const struct nest_solution *solution;
};

/* There are as many as gauges times changes that differ, so that looking through them costs nothing. */
struct nest_memory {
    struct arena *arena;
    LIST(struct solved) solved;
};

struct nest_memory *nest_memory_new(struct arena *arena) {
    struct nest_memory *memory = ARENA_NEW(arena, struct nest_memory);
    memory->arena = arena;
    return memory;
}

static bool same_rectangle(const struct nest_rectangle *one, const struct nest_rectangle *other) {
    return one->length == other->length && one->width == other->width && one->count == other->count &&
           one->turns == other->turns;
}

static bool same_sheet(const struct nest_sheet *one, const struct nest_sheet *other) {
    return one->length == other->length && one->width == other->width && one->cost == other->cost &&
           one->limit == other->limit;
}

/* All that a solution depends on, the order of the rectangles too. */
static bool same_problem(const struct nest_problem *one, const struct nest_problem *other) {
    if (one->rectangle_count != other->rectangle_count || one->sheet_count != other->sheet_count ||
        one->keep_length != other->keep_length || one->keep_width != other->keep_width ||
        one->effort != other->effort || one->seed != other->seed)
        return false;
    for (size_t i = 0; i < one->rectangle_count; i++)
        if (!same_rectangle(&one->rectangles[i], &other->rectangles[i]))
            return false;
    for (size_t i = 0; i < one->sheet_count; i++)
        if (!same_sheet(&one->sheets[i], &other->sheets[i]))
            return false;
    return true;
}

static void *copied(struct arena *arena, const void *from, size_t bytes) {
    void *to = arena_take(arena, bytes);
    return bytes ? memcpy(to, from, bytes) : to;
}

static const struct nest_solution *remember(struct nest_memory *memory, const struct nest_problem *problem,
                                            const struct nest_solution *solution) {
    struct solved *solved = list_add(memory->arena, &memory->solved);
    solved->problem = *problem;
    solved->problem.rectangles =
        copied(memory->arena, problem->rectangles, problem->rectangle_count * sizeof *problem->rectangles);
    solved->problem.sheets = copied(memory->arena, problem->sheets, problem->sheet_count * sizeof *problem->sheets);
    solved->solution = solution;
    return solution;
}

const struct nest_solution *nest_remembered(struct nest_memory *memory, struct arena *scratch,
                                            const struct nest_problem *problem) {
    for (size_t i = 0; i < memory->solved.count; i++)
        if (same_problem(&memory->solved.at[i].problem, problem))
            return memory->solved.at[i].solution;
    return remember(memory, problem, nest_solve(memory->arena, scratch, problem));
}
