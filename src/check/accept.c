/* Acceptances: a named warning about a named thing, put up with for a reason. */
#include <string.h>

#include "check/checks.h"
#include "model/called.h"
#include "model/names.h"

/* Names are suggested for the first few unknown ones only: every suggestion looks at all names.
 * Chosen here, no source. */
enum { SUGGESTIONS = 20 };

enum subject_kind { SUBJECT_UNIT, SUBJECT_RUN, SUBJECT_ALTERNATE };

struct acceptor {
    struct job *job;
    struct names subjects;    /* all that a warning may be about; their things are units and runs */
    struct names wanted;      /* the acceptances, by check and subject */
    struct names passed_over; /* what checks were not held against, likewise */
    int suggested;
};

static const char *key_of(const struct job *job, const char *check, const char *subject) {
    return arena_format(job->arena, "%s on %s", check, subject);
}

static void add_subject(struct acceptor *acceptor, const char *text, enum subject_kind kind, void *thing) {
    struct name *name = names_add(&acceptor->subjects, text);
    name->kind = (int)kind;
    name->thing = thing;
}

static void add_subjects(struct acceptor *acceptor) {
    const struct job *job = acceptor->job;
    for (size_t i = 0; i < job->alternates.count; i++)
        for (size_t k = 0; k < job->alternates.at[i]->runs.count; k++)
            add_subject(acceptor, job->alternates.at[i]->runs.at[k]->name, SUBJECT_ALTERNATE, NULL);
    for (size_t i = 0; i < job->units.count; i++)
        add_subject(acceptor, job->units.at[i]->name, SUBJECT_UNIT, job->units.at[i]);
    for (size_t i = 0; i < job->runs.count; i++)
        add_subject(acceptor, job->runs.at[i]->name, SUBJECT_RUN, job->runs.at[i]);
}

static const char *nearest_subject(struct acceptor *acceptor, const char *name) {
    if (acceptor->suggested++ >= SUGGESTIONS)
        return NULL;
    return job_nearest_name(acceptor->job, name);
}

static void diagnose_check(const struct job *job, const struct acceptance *acceptance) {
    size_t count;
    const struct check *all = checks(&count);
    const char **names = ARENA_ARRAY(job->arena, const char *, count);
    const char *list = "";
    for (size_t i = 0; i < count; i++) {
        names[i] = all[i].name;
        list = arena_format(job->arena, "%s%s%s", list, i ? ", " : "", all[i].name);
    }
    const char *nearest = text_nearest(acceptance->check, names, count);
    struct diagnostic *said = diagnose(job->diagnostics, DIAGNOSTIC_ERROR, "accept", acceptance->at,
                                       "'%s' is not a check", acceptance->check);
    if (nearest)
        diagnostic_hint(job->diagnostics, said, "accept %s on %s", nearest, acceptance->name);
    else
        diagnostic_hint(job->diagnostics, said, "the checks are %s", list);
}

/* Whether the acceptance names a check and a thing; diagnosed when not. */
static bool makes_sense(struct acceptor *acceptor, const struct acceptance *acceptance) {
    const struct job *job = acceptor->job;
    if (!check_named(acceptance->check)) {
        diagnose_check(job, acceptance);
        return false;
    }
    if (names_find(&acceptor->subjects, acceptance->name))
        return true;
    struct diagnostic *said = diagnose(job->diagnostics, DIAGNOSTIC_ERROR, "accept", acceptance->at,
                                       "there is no unit, run, outlet or inlet called '%s'", acceptance->name);
    const char *nearest = nearest_subject(acceptor, acceptance->name);
    if (nearest)
        diagnostic_hint(job->diagnostics, said, "accept %s on %s", acceptance->check, nearest);
    return false;
}

static void add_wanted(struct acceptor *acceptor, struct acceptance *acceptance) {
    const struct job *job = acceptor->job;
    struct name *name = names_add(&acceptor->wanted, key_of(job, acceptance->check, acceptance->name));
    const struct acceptance *first = name->thing;
    if (!first) {
        name->thing = acceptance;
        return;
    }
    struct diagnostic *said = diagnose(job->diagnostics, DIAGNOSTIC_WARNING, "accept", acceptance->at,
                                       "%s on %s is accepted twice", acceptance->check, acceptance->name);
    diagnostic_relate(job->diagnostics, said, first->at, "first accepted here");
    acceptance->used = true;
}

static void count_accepted(struct job *job, const char *check) {
    for (size_t i = 0; i < job->checks.count; i++) {
        struct check_result *result = &job->checks.at[i];
        if (strcmp(result->name, check) != 0)
            continue;
        result->accepted++;
        result->warned--;
    }
}

static void match(struct acceptor *acceptor, struct diagnostic *raised) {
    struct job *job = acceptor->job;
    if (!raised->subject || raised->accepted_because || raised->level == DIAGNOSTIC_NOTE)
        return;
    struct name *name = names_find(&acceptor->wanted, key_of(job, raised->check, raised->subject));
    if (!name)
        return;
    struct acceptance *acceptance = name->thing;
    bool first = !acceptance->used;
    acceptance->used = true;
    if (raised->level == DIAGNOSTIC_WARNING) {
        raised->accepted_because = acceptance->because;
        job->diagnostics->warning_count--;
        count_accepted(job, raised->check);
    } else if (first) {
        diagnose(job->diagnostics, DIAGNOSTIC_WARNING, "accept", acceptance->at,
                 "%s on %s is an error, and only a warning can be accepted", raised->check, raised->subject);
    }
}

/* ---- What matches nothing ---------------------------------------------------------------------------------------- */

static void add_passed_over(struct acceptor *acceptor) {
    const struct job *job = acceptor->job;
    for (size_t i = 0; i < job->checks.count; i++) {
        const struct check_result *result = &job->checks.at[i];
        for (size_t k = 0; k < result->passed_over.count; k++)
            names_add(&acceptor->passed_over, key_of(job, result->name, result->passed_over.at[k]));
    }
}

/* Whether the thing's sizes only stand in: a warning may come once it has its own. */
static bool is_open(const struct job *job, const struct name *subject) {
    if (subject->kind == SUBJECT_UNIT) {
        const struct network *network = ((const struct air_unit *)subject->thing)->network;
        for (size_t i = 0; network && i < network->ducts.count; i++)
            if (check_stands_in(job, network->ducts.at[i]))
                return true;
        return false;
    }
    const struct run *run = subject->thing;
    for (const struct section *at = run->last_section; at && at->run == run; at = at->parent)
        if (check_stands_in(job, at->duct))
            return true;
    return false;
}

/* An acceptance about an alternate's run waits for the job to be compiled with it, and one about what no sizes were
 * found for, or what was passed over, for a budget that comes out.  Among more warnings than are kept, what an
 * acceptance matches may be one of those dropped. */
static void diagnose_unused(const struct acceptor *acceptor, const struct acceptance *acceptance) {
    const struct job *job = acceptor->job;
    const struct name *subject = names_find(&acceptor->subjects, acceptance->name);
    if (acceptance->used || subject->kind == SUBJECT_ALTERNATE || job->diagnostics->dropped || job->incomplete)
        return;
    if (names_find(&acceptor->passed_over, key_of(job, acceptance->check, acceptance->name)) || is_open(job, subject))
        return;
    struct diagnostic *said = diagnose(job->diagnostics, DIAGNOSTIC_WARNING, "accept", acceptance->at,
                                       "there is no %s warning on %s to accept", acceptance->check, acceptance->name);
    diagnostic_hint(job->diagnostics, said, "leave the line out");
}

void accept_warnings(struct job *job) {
    struct acceptor acceptor = {.job = job,
                                .subjects = {.arena = job->arena},
                                .wanted = {.arena = job->arena},
                                .passed_over = {.arena = job->arena}};
    LIST(struct acceptance *) sound = {0};
    if (!job->acceptances.count)
        return;
    add_subjects(&acceptor);
    add_passed_over(&acceptor);
    for (size_t i = 0; i < job->acceptances.count; i++) {
        if (!makes_sense(&acceptor, job->acceptances.at[i]))
            continue;
        add_wanted(&acceptor, job->acceptances.at[i]);
        *list_add(job->arena, &sound) = job->acceptances.at[i];
    }
    size_t raised = job->diagnostics->all.count;
    for (size_t i = 0; i < raised; i++)
        match(&acceptor, job->diagnostics->all.at[i]);
    for (size_t i = 0; i < sound.count; i++)
        diagnose_unused(&acceptor, sound.at[i]);
}
