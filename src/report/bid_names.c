/* Messages in a customer's words: a run by its room or title, and not by the name that the job's file gives it. */
#include "report/bid.h"

#include "model/names.h"

struct bid_names {
    struct names runs;   /* by the name in the job's file */
    struct names called; /* how they are called; its kind counts how many are */
};

/* "Kitchen"; where the air of a room leaves it, "Kitchen (return)". */
static const char *called(struct arena *arena, const struct run *run) {
    const char *name = bid_plain_name(run);
    return run->role == RUN_INLET && name != run->name ? arena_format(arena, "%s (return)", name) : name;
}

const struct bid_names *bid_names_of(const struct job *job, struct arena *arena) {
    struct bid_names *names = ARENA_NEW(arena, struct bid_names);
    names->runs.arena = names->called.arena = arena;
    for (size_t i = 0; i < job->runs.count; i++) {
        struct run *run = job->runs.at[i];
        names_add(&names->runs, run->name)->thing = run;
        names_add(&names->called, called(arena, run))->kind++;
    }
    return names;
}

/* A room with several outlets does not tell which: then the name of the schedules stands behind it. */
static const char *words_for(const struct bid_names *names, struct arena *arena, const char *name) {
    const struct name *found = names_find(&names->runs, name);
    if (!found)
        return name;
    const char *words = called(arena, found->thing);
    return names_find(&names->called, words)->kind > 1 ? arena_format(arena, "%s (%s)", words, name) : words;
}

const char *bid_message(const struct bid_names *names, struct arena *arena, const struct diagnostic *said) {
    const char *words = "";
    size_t done = 0;
    for (size_t i = 0; i < said->names.count; i++) {
        struct diagnostic_name at = said->names.at[i];
        const char *name = arena_format(arena, "%.*s", (int)(at.end - at.begin), said->message + at.begin);
        words = arena_format(arena, "%s%.*s%s", words, (int)(at.begin - done), said->message + done,
                             words_for(names, arena, name));
        done = at.end;
    }
    return arena_format(arena, "%s%s", words, said->message + done);
}
