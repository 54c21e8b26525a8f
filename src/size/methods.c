/* The table of sizing methods, and the pass that picks one. */
#include "size/size.h"

#include <string.h>

#include "size/catalogue.h"
#include "size/equal_friction.h"
#include "size/least_cost.h"
#include "size/blower_speed.h"
#include "size/static_regain.h"
#include "size/velocity.h"
#include "size/wall_cost.h"

/* In the order of the manual; the first is what a job gets that names none. */
static const struct sizing_method *const methods[] = {
    &sizing_equal_friction,
    &sizing_velocity,
    &sizing_static_regain,
    &sizing_least_cost,
};

enum { METHOD_COUNT = sizeof methods / sizeof methods[0] };

const struct sizing_method *const *sizing_methods(size_t *count) {
    *count = METHOD_COUNT;
    return methods;
}

static void diagnose_unknown(struct job *job) {
    const char *names[METHOD_COUNT];
    const char *all = "";
    for (size_t i = 0; i < METHOD_COUNT; i++) {
        names[i] = methods[i]->name;
        all = arena_format(job->arena, "%s%s%s", all, i ? ", " : "", names[i]);
    }
    const char *nearest = text_nearest(job->sizing, names, METHOD_COUNT);
    struct diagnostic *said = diagnose(job->diagnostics, DIAGNOSTIC_ERROR, "sizing", job->sizing_at,
                                       "'%s' is not a sizing method: %s", job->sizing, all);
    if (nearest)
        diagnostic_hint(job->diagnostics, said, "sizing %s", nearest);
}

/* The job's method; of a job that names an unknown one, the first, so that the rest can still be looked at. */
static const struct sizing_method *method_of(struct job *job) {
    if (!job->sizing)
        return methods[0];
    for (size_t i = 0; i < METHOD_COUNT; i++)
        if (strcmp(methods[i]->name, job->sizing) == 0)
            return methods[i];
    diagnose_unknown(job);
    return methods[0];
}

const struct sizing_method *sizing_method_used(const struct job *job) {
    for (size_t i = 0; job->sizing_used && i < METHOD_COUNT; i++)
        if (strcmp(methods[i]->name, job->sizing_used) == 0)
            return methods[i];
    return NULL;
}

/* What the walls cost, whatever the method, so that methods can be held against each other. */
static void count_walls(struct job *job, struct network *network) {
    struct wall_cost cost = wall_cost_make(job, network, job->scratch);
    network->walls_cost = wall_cost_sum(&cost, network);
    network->walls_in_money = job->worth->priced;
    network->walls_area = wall_area(&cost, network);
    arena_clear(job->scratch);
}

void size_ducts(struct job *job) {
    const struct sizing_method *method = method_of(job);
    job->incomplete = job->diagnostics->error_count > 0;
    job->catalogue = catalogue_make(job);
    job->sizing_used = method->name;
    for (size_t i = 0; i < job->units.count; i++) {
        struct network *network = job->units.at[i]->network;
        if (!network)
            continue;
        choose_speed(job, network, method);
        struct diagnostics *said = job->incomplete ? NULL : job->diagnostics;
        method->size(job, network, job->catalogue, said);
        count_walls(job, network);
        air_budget(network, &job->air, said, job->system);
        note_speed(network);
        job->source_used[SOURCE_VELOCITY_GUIDE] = job->source_used[SOURCE_ASPECT_RATIO] = true;
    }
}
