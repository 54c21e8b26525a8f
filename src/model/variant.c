/* A job as it would be with a change. */
#include "model/variant.h"

#include <string.h>

#include "model/names.h"
#include "model/piece.h"

struct job *variant_new(const struct job *job, const struct variant *variant, struct arena *arena) {
    struct job *changed = ARENA_NEW(arena, struct job);
    changed->arena = arena;
    changed->scratch = job->scratch;
    changed->diagnostics = ARENA_NEW(arena, struct diagnostics);
    changed->diagnostics->arena = arena;
    changed->syntax = job->syntax;
    changed->nests = job->nests;
    changed->variant = variant;
    return changed;
}

static void leave_out(struct job *job, const struct names *out) {
    size_t kept = 0;
    for (size_t i = 0; i < job->runs.count; i++) {
        struct run *run = job->runs.at[i];
        if (names_find(out, run->name))
            continue;
        run->id = (uint32_t)kept;
        job->runs.at[kept++] = run;
    }
    job->runs.count = kept;
}

static void take_in(struct job *job, struct alternate *alternate) {
    for (size_t i = 0; i < alternate->runs.count; i++) {
        struct run *run = alternate->runs.at[i];
        run->id = (uint32_t)job->runs.count;
        run->alternate = NULL; /* from here on a run of the job like any other */
        *list_add(job->arena, &job->runs) = run;
    }
}

static void lengthen(struct run *run, unsigned traits, double by) {
    const unsigned looked_at = PIECE_LENGTH | PIECE_FLEXIBLE;
    for (size_t i = run->pieces.count; i-- > 0;) {
        struct piece *piece = run->pieces.at[i];
        if ((piece->kind->traits & looked_at) != traits)
            continue;
        piece->length += by;
        piece->reading.argument[piece->kind->length_slot].number += by;
        return;
    }
}

/* What is accepted on a thing that is left out has nothing to be about. */
static void forget_acceptances(struct job *job, const struct names *out) {
    size_t kept = 0;
    for (size_t i = 0; i < job->acceptances.count; i++)
        if (!names_find(out, job->acceptances.at[i]->name))
            job->acceptances.at[kept++] = job->acceptances.at[i];
    job->acceptances.count = kept;
}

/* The other alternates are of the job without this one: nothing is asked of them. */
static void forget_alternates(struct job *job, struct names *out, const struct alternate *chosen) {
    for (size_t i = 0; i < job->alternates.count; i++) {
        const struct alternate *alternate = job->alternates.at[i];
        for (size_t r = 0; alternate != chosen && r < alternate->runs.count; r++)
            names_add(out, alternate->runs.at[r]->name);
    }
    job->alternates.count = 0;
}

/* A name that is left out and taken again, by a run that the alternate has in its place, is there. */
static void keep_names(struct names *out, const struct job *job) {
    struct names kept = {.arena = out->arena};
    struct names there = {.arena = out->arena};
    for (size_t i = 0; i < job->runs.count; i++)
        names_add(&there, job->runs.at[i]->name);
    for (size_t i = 0; i < out->room; i++)
        if (out->at[i].text && !names_find(&there, out->at[i].text))
            names_add(&kept, out->at[i].text);
    *out = kept;
}

void variant_apply(struct job *job) {
    const struct variant *variant = job->variant;
    if (!variant)
        return;
    struct names out = {.arena = job->arena};
    struct alternate *chosen = variant->alternate && variant->alternate <= job->alternates.count
                                   ? job->alternates.at[variant->alternate - 1]
                                   : NULL;
    for (size_t i = 0; chosen && i < chosen->without.count; i++)
        names_add(&out, chosen->without.at[i].name);
    if (variant->without)
        names_add(&out, variant->without);
    leave_out(job, &out);
    if (chosen)
        take_in(job, chosen);
    for (size_t i = 0; variant->longer && i < job->runs.count; i++)
        if (strcmp(job->runs.at[i]->name, variant->longer) == 0)
            lengthen(job->runs.at[i], variant->flexible ? PIECE_LENGTH | PIECE_FLEXIBLE : PIECE_LENGTH, variant->by);
    if (variant->sizing)
        job->sizing = variant->sizing;
    forget_alternates(job, &out, chosen);
    keep_names(&out, job);
    forget_acceptances(job, &out);
}
