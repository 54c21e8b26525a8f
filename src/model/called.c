/* Things of a job by their names. */
#include "model/called.h"

#include <string.h>

const struct run *job_run_called(const struct job *job, const char *name) {
    for (size_t i = 0; name && i < job->runs.count; i++)
        if (strcmp(job->runs.at[i]->name, name) == 0)
            return job->runs.at[i];
    return NULL;
}

const char *job_nearest_name(const struct job *job, const char *name) {
    size_t count = 0, room = job->units.count + job->runs.count;
    for (size_t i = 0; i < job->alternates.count; i++)
        room += job->alternates.at[i]->runs.count;
    const char **names = ARENA_ARRAY(job->arena, const char *, room + 1);
    for (size_t i = 0; i < job->units.count; i++)
        names[count++] = job->units.at[i]->name;
    for (size_t i = 0; i < job->runs.count; i++)
        names[count++] = job->runs.at[i]->name;
    for (size_t i = 0; i < job->alternates.count; i++)
        for (size_t k = 0; k < job->alternates.at[i]->runs.count; k++)
            names[count++] = job->alternates.at[i]->runs.at[k]->name;
    return text_nearest(name, names, count);
}
