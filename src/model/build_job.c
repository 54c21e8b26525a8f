/* What stands at the top of a file and in the job's own block. */
#include "base/constant.h"
#include "model/build.h"
#include "model/directions.h"

/* The text of `use` has been read in its place already. */
void take_use(struct build *build, const struct reading *reading) {
    (void)build;
    (void)reading;
}

void take_job(struct build *build, const struct reading *reading) {
    struct job *job = build->job;
    const struct argument *title = &reading->argument[0];
    if (job->title) {
        struct diagnostic *error = build_error(build, "repeat", title->at, "there are two jobs: expected one");
        diagnostic_relate(job->diagnostics, error, job->at, "the first is here");
        return;
    }
    job->title = title->given ? title->text : "";
    job->at = title->at;
    build_block(build, reading->statement, IN_JOB, job, &job->settings, NULL);
}

void take_revision(struct build *build, const struct reading *reading) {
    int revision; /* the range catches slips of the pen: common practice, no source */
    if (build_whole(build, &reading->argument[0], "a revision", 0, 1000000, &revision))
        build->job->revision = arena_format(build->job->arena, "%d", revision);
}

/* That it is a day of the calendar was seen to when it was read. */
void take_date(struct build *build, const struct reading *reading) {
    build->job->date = reading->argument[0].text;
}

/* Altitudes are said in feet or metres: a bare figure would be inches, which nobody means. */
void take_altitude(struct build *build, const struct reading *reading) {
    const struct statement *statement = reading->statement;
    const struct value *value = statement->values.count ? &statement->values.at[0] : NULL;
    if (value && value->kind == VALUE_QUANTITY && !value->quantity[0].measure && value->quantity[0].number != 0) {
        struct diagnostic *error = build_error(build, "unit", value->at, "expected an altitude with its unit");
        diagnostic_hint(build->job->diagnostics, error, "altitude %g %s", value->quantity[0].number,
                        build->system == MEASURE_METRIC ? "m" : "ft");
        return;
    }
    take_number(build, reading);
}

/* Heeded before the block was read (build_units). */
void take_units(struct build *build, const struct reading *reading) {
    (void)build;
    (void)reading;
}

void take_paper(struct build *build, const struct reading *reading) {
    build->job->paper = (enum paper_wish)(PAPER_IS_LETTER + reading->argument[0].choice);
}

void take_valid(struct build *build, const struct reading *reading) {
    struct argument days = reading->argument[0];
    days.number /= 24 * HOUR;
    /* At most ten years: common practice, no source. */
    build_whole(build, &days, "the days that a bid stands", 1, 3650, &build->job->valid_days);
}

/* A list of texts joins what was there before. */
#define ADD_TEXTS(list)                                                                                                \
    do {                                                                                                               \
        for (const struct argument *a = &reading->argument[0]; a && a->given; a = a->next)                             \
            *list_add(build->job->arena, list) = a->text;                                                              \
    } while (0)

void take_include(struct build *build, const struct reading *reading) {
    ADD_TEXTS(&build->job->includes);
}

void take_exclude(struct build *build, const struct reading *reading) {
    ADD_TEXTS(&build->job->excludes);
}

void take_note(struct build *build, const struct reading *reading) {
    ADD_TEXTS(&build->job->notes);
}

void take_assume(struct build *build, const struct reading *reading) {
    ADD_TEXTS(&build->job->assumes);
}

/* A shop's later list is said instead of an earlier one. */
void take_terms(struct build *build, const struct reading *reading) {
    if (build->place != IN_SHOP) {
        ADD_TEXTS(&build->job->terms);
        return;
    }
    build->job->shop.terms.count = 0;
    ADD_TEXTS(&build->job->shop.terms);
}

void take_contact(struct build *build, const struct reading *reading) {
    build->job->shop.contacts.count = 0;
    ADD_TEXTS(&build->job->shop.contacts);
}

/* What has no thickness is nowhere, and nothing can be led round it. */
static bool obstacle_has_size(struct build *build, const struct obstacle *obstacle, struct span at) {
    int flat = 0, first = -1;
    for (int axis = 0; axis < 3; axis++) {
        if (obstacle->high[axis] - obstacle->low[axis] > 1e-6)
            continue;
        flat++;
        first = first < 0 ? axis : first;
    }
    if (!flat)
        return true;
    struct diagnostic *error;
    if (flat == 3)
        error = build_error(build, "value", at, "the obstacle \"%s\" is a point: its two corners are one place",
                            obstacle->title);
    else
        error = build_error(build, "value", at, "the obstacle \"%s\" has no thickness: both its corners are %s %s",
                            obstacle->title,
                            measure_text(build->job->arena, build->job->system, SHOW_RUN, obstacle->low[first]),
                            axis_word(first, false));
    diagnostic_hint(build->job->diagnostics, error,
                    "give it two opposite corners, which differ in all of east, north and up");
    return false;
}

void take_obstacle(struct build *build, const struct reading *reading) {
    struct obstacle *obstacle = ARENA_NEW(build->job->arena, struct obstacle);
    const struct argument *from = &reading->argument[OBSTACLE_FROM], *to = &reading->argument[OBSTACLE_TO];
    obstacle->title = reading->argument[OBSTACLE_TITLE].text;
    obstacle->at = reading->argument[OBSTACLE_TITLE].at;
    for (int axis = 0; axis < 3; axis++) {
        double a = from->point[axis], b = to->point[axis];
        if (!build_within(build, from->at, a, &range_coordinate) || !build_within(build, to->at, b, &range_coordinate))
            return;
        obstacle->low[axis] = a < b ? a : b;
        obstacle->high[axis] = a < b ? b : a;
    }
    if (obstacle_has_size(build, obstacle, to->at))
        *list_add(build->job->arena, &build->job->obstacles) = obstacle;
}

void take_accept(struct build *build, const struct reading *reading) {
    struct acceptance *acceptance = ARENA_NEW(build->job->arena, struct acceptance);
    acceptance->check = reading->argument[ACCEPT_CHECK].text;
    acceptance->name = reading->argument[ACCEPT_NAME].text;
    acceptance->because = reading->argument[ACCEPT_BECAUSE].text;
    acceptance->at = reading->statement->at;
    *list_add(build->job->arena, &build->job->acceptances) = acceptance;
}
