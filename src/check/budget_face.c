/* A freer register, grille or filter as a way out. */
#include "check/budget_face.h"

#include <math.h>
#include <stdlib.h>

#include "base/constant.h"

/* Less than a fifth of what it takes is no register, grille or filter that can be had.  Chosen here, no
 * source. */
static const double least_left = 0.2;

/* The costliest of a side's other paths. */
static double second_of(const struct path *paths, size_t count, const struct path *but) {
    double most = 0;
    for (size_t i = 0; i < count; i++)
        if (&paths[i] != but)
            most = fmax(most, paths[i].loss);
    return most;
}

/* What the face says of its drop. */
static int slot_of(const struct piece *piece, enum measure_kind measure) {
    const struct slot *slots = piece->kind->form.slots;
    for (int i = 0; i < SLOT_LIMIT && slots[i].kind != SLOT_NONE; i++)
        if (slots[i].kind == SLOT_QUANTITY && slots[i].measure == measure)
            return i;
    return -1;
}

/* As it is written, rounded down: what is tried is what the line says. */
static double as_written(const struct job *job, double pressure) {
    double figure = strtod(check_text_down(job, SHOW_PRESSURE, pressure), NULL);
    return job->system == MEASURE_METRIC ? figure : figure * INCH_OF_WATER;
}

/* The same face, but that it takes `left` Pa in the job's air at what flows through it. */
static bool freer(const struct bench *bench, const struct section *end, const struct piece *piece, double left,
                  struct change *change) {
    const struct job *job = bench->look->job;
    int pressure = slot_of(piece, MEASURE_PRESSURE), flow = slot_of(piece, MEASURE_FLOW);
    if (pressure < 0 || flow < 0 || !piece->reading.statement)
        return false;
    struct piece *other = ARENA_NEW(job->arena, struct piece);
    struct argument *argument = ARENA_ARRAY(job->arena, struct argument, SLOT_LIMIT);
    const struct slot *slots = piece->kind->form.slots;
    for (int i = 0; i < SLOT_LIMIT && slots[i].kind != SLOT_NONE; i++)
        argument[i] = piece->reading.argument[i];
    double rated = argument[flow].given ? argument[flow].number : end->flow, ratio = rated / end->flow;
    argument[pressure].given = true;
    argument[pressure].number = as_written(job, left / job->air.density_ratio * ratio * ratio);
    *other = *piece;
    other->reading.argument = argument;
    *change = (struct change){.kind = CHANGE_PIECE, .at = piece->at, .piece = piece, .other = other, .is_face = true};
    change->section = bench->network->sections.at[end->id];
    return true;
}

/* A face stands at the end of one path: with less there, that path or the next costliest governs. */
bool face_that_mends(const struct bench *bench, bool supply, struct change *change) {
    const struct network *network = bench->network;
    struct network_side side = network_side(network, supply);
    const struct path *path = side.governing;
    double deficit = -network->surplus;
    if (!path || path->loss - second_of(side.paths, side.count, path) < deficit)
        return false;
    const struct section *end = path->end;
    for (size_t i = end->items.count; i-- > 0;) {
        const struct item *item = &end->items.at[i];
        double left = item->loss.pressure - deficit;
        if ((item->piece->kind->traits & (PIECE_OUTLET | PIECE_INLET)) && left >= least_left * item->loss.pressure)
            return freer(bench, end, item->piece, left, change);
    }
    return false;
}
