/* The job with each of its alternates: what it changes and has to say. */
#include <math.h>
#include <string.h>

#include "compile/variants.h"
#include "cost/offer.h"
#include "cost/price.h"
#include "model/names.h"

/* ---- What the change has to say ---------------------------------------------------------------------------------- */

static void hand_on(struct job *job, const struct alternate *alternate, const struct diagnostic *said,
                    enum diagnostic_level level) {
    struct diagnostics *all = job->diagnostics;
    struct diagnostic *named =
        diagnose(all, level, said->check, said->at, "with alternate %s: %s", alternate->name, said->message);
    if (said->hint)
        diagnostic_hint(all, named, "%s", said->hint);
    for (size_t i = 0; i < said->related.count; i++)
        diagnostic_relate(all, named, said->related.at[i].at, "%s", said->related.at[i].message);
}

static const char *words_of(const struct job *job, const struct diagnostic *said) {
    return arena_format(job->arena, "%s: %s", said->check, said->message);
}

/* Warnings that the job does not have without the change.  Those about `accept` lines belong to the job itself. */
static void new_warnings(struct job *job, const struct job *changed, const struct names *known,
                         struct alternate *alternate) {
    for (size_t i = 0; i < changed->diagnostics->all.count; i++) {
        const struct diagnostic *said = changed->diagnostics->all.at[i];
        if (!diagnostic_is_open(said) || strcmp(said->check, "accept") == 0 || names_find(known, words_of(job, said)))
            continue;
        *list_add(job->arena, &alternate->offer->warnings) =
            (struct offer_warning){.check = said->check, .message = arena_format(job->arena, "%s", said->message)};
        hand_on(job, alternate, said, DIAGNOSTIC_NOTE);
    }
}

static void errors(struct job *job, const struct job *changed, const struct alternate *alternate) {
    for (size_t i = 0; i < changed->diagnostics->all.count; i++)
        if (changed->diagnostics->all.at[i]->level == DIAGNOSTIC_ERROR)
            hand_on(job, alternate, changed->diagnostics->all.at[i], DIAGNOSTIC_ERROR);
}

/* ---- What it changes --------------------------------------------------------------------------------------------- */

/* The ducts of each run, in their order, by the run's name. */
struct run_ducts {
    LIST(const struct duct *) ducts;
};

static struct names ducts_by_run(const struct job *job) {
    struct names runs = {.arena = job->arena};
    for (size_t i = 0; i < job->runs.count; i++)
        names_add(&runs, job->runs.at[i]->name)->thing = ARENA_NEW(job->arena, struct run_ducts);
    for (size_t u = 0; u < job->units.count; u++) {
        const struct network *network = job->units.at[u]->network;
        for (size_t i = 0; network && i < network->ducts.count; i++) {
            const struct name *name = names_find(&runs, network->ducts.at[i]->run->name);
            if (name)
                *list_add(job->arena, &((struct run_ducts *)name->thing)->ducts) = network->ducts.at[i];
        }
    }
    return runs;
}

/* Where along its run a duct begins. */
static double begins_at(const struct duct *duct) {
    for (size_t i = 0; i < duct->run->pieces.count; i++) {
        const struct piece *piece = duct->run->pieces.at[i];
        if (piece->far == duct && piece->near != duct)
            return piece->station + piece->length;
    }
    return 0;
}

/* Airflows that differ by a smaller share than this are the same: they print alike. */
static const double same_flow = 0.002;
/* Stations nearer than this are one, m: they differ by rounding.  Chosen here. */
static const double same_place = 1e-6;

static bool same_size(struct duct_size a, struct duct_size b) {
    return a.shape == b.shape && fabs(a.width - b.width) < 1e-6 && fabs(a.height - b.height) < 1e-6;
}

/* What flows in the run there: its last section that begins no later. */
static double flow_at(const struct run *run, double station) {
    const struct section *at = run->last_section;
    while (at && at->parent && at->parent->run == run && at->station > station + same_place)
        at = at->parent;
    return at ? at->flow : 0;
}

/* From `station` on the run is `before` without the change and `after` with it.  Airflow is held against airflow only
 * where both stretches begin, since it is less further on. */
static void compare_ducts(struct offer *offer, struct arena *arena, double station, const struct duct *before,
                          const struct duct *after, bool both_begin) {
    /* A run that ends before it has neither size nor air there. */
    bool gone = station > 0 && after->run->length <= station + same_place;
    bool new = station > 0 && before->run->length <= station + same_place;
    struct duct_size none = {0}, without = new ? none : before->size, with = gone ? none : after->size;
    bool same_air = !both_begin || fabs(after->flow - before->flow) <= same_flow * before->flow;
    if ((same_air && same_size(without, with)) || offer->change_count++ >= OFFER_CHANGES)
        return;
    *list_add(arena, &offer->changes) = (struct offer_change){
        .run = arena_format(arena, "%s", after->run->name),
        .station = station,
        .before = without,
        .after = with,
        .flow_before = both_begin ? before->flow
                       : new      ? 0
                                  : flow_at(before->run, station),
        .flow_after = both_begin ? after->flow
                      : gone     ? 0
                                 : flow_at(after->run, station),
    };
}

/* Where the next stretch begins; infinite: it is the last. */
static double next_begin(const struct run_ducts *ducts, size_t i) {
    return i + 1 < ducts->ducts.count ? begins_at(ducts->ducts.at[i + 1]) : INFINITY;
}

/* Along the run, from each place where either begins a stretch: a size may change at another place with the change, or
 * more often. */
static void compare_runs(struct offer *offer, struct arena *arena, const struct run_ducts *then,
                         const struct run_ducts *now) {
    size_t a = 0, b = 0;
    double station = 0;
    bool both = true;
    if (!then->ducts.count || !now->ducts.count)
        return;
    while (isfinite(station)) {
        compare_ducts(offer, arena, station, then->ducts.at[a], now->ducts.at[b], both);
        double next_a = next_begin(then, a), next_b = next_begin(now, b);
        station = fmin(next_a, next_b);
        bool moved_a = next_a <= station + same_place, moved_b = next_b <= station + same_place;
        a += moved_a && isfinite(next_a);
        b += moved_b && isfinite(next_b);
        both = moved_a && moved_b;
    }
}

static void compare(struct offer *offer, const struct job *job, const struct names *before, const struct job *changed) {
    struct names after = ducts_by_run(changed);
    for (size_t i = 0; i < changed->runs.count; i++) {
        const char *run = changed->runs.at[i]->name;
        const struct name *old = names_find(before, run);
        if (old)
            compare_runs(offer, job->arena, old->thing, names_find(&after, run)->thing);
        else
            *list_add(job->arena, &offer->added) = arena_format(job->arena, "%s", run);
    }
    for (size_t i = 0; i < job->runs.count; i++)
        if (!names_find(&after, job->runs.at[i]->name))
            *list_add(job->arena, &offer->removed) = job->runs.at[i]->name;
}

static void price_offer(struct offer *offer, const struct job *job, const struct job *changed) {
    if (!job->price || !changed->price || !changed->price->complete)
        return;
    offer->priced = true;
    offer->total = changed->price->build_up.total;
    offer->difference = offer->total - job->price->build_up.total;
}

static void offer_alternate(struct job *job, size_t number, const struct names *warned, const struct names *ducts,
                            const struct compiler *compiler) {
    struct alternate *alternate = job->alternates.at[number - 1];
    const struct job *changed = variants_with(job, (struct variant){.alternate = number}, compiler);
    if (changed->diagnostics->error_count) {
        errors(job, changed, alternate);
        return;
    }
    alternate->offer = ARENA_NEW(job->arena, struct offer);
    price_offer(alternate->offer, job, changed);
    compare(alternate->offer, job, ducts, changed);
    new_warnings(job, changed, warned, alternate);
}

void variants_alternates(struct job *job, const struct compiler *compiler) {
    if (job->diagnostics->error_count || !job->alternates.count)
        return;
    struct names warned = {.arena = job->arena}, ducts = ducts_by_run(job);
    for (size_t i = 0; i < job->diagnostics->all.count; i++)
        if (diagnostic_is_open(job->diagnostics->all.at[i]))
            names_add(&warned, words_of(job, job->diagnostics->all.at[i]));
    for (size_t i = 1; i <= job->alternates.count; i++)
        offer_alternate(job, i, &warned, &ducts, compiler);
}
