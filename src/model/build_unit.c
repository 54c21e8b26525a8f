/* Equipment: its airflow, blower, drops and collars. */
#include "model/build.h"

#include <stdlib.h>
#include <string.h>

/* ---- Blower speeds ----------------------------------------------------------------------------------------------- */

static bool same_speed(const struct blower_speed *a, const struct blower_speed *b) {
    return a->name && b->name ? strcmp(a->name, b->name) == 0 : !a->name && !b->name;
}

/* Several speeds are told apart by their names. */
static void check_names(struct build *build, const struct air_unit *unit) {
    struct diagnostics *all = build->job->diagnostics;
    for (size_t i = 1; i < unit->speeds.count; i++) {
        const struct blower_speed *at = &unit->speeds.at[i];
        for (size_t k = 0; k < i; k++) {
            const struct blower_speed *before = &unit->speeds.at[k];
            if (at->name && before->name && !same_speed(at, before))
                continue;
            bool twice = at->name && before->name;
            const struct blower_speed *bare = at->name ? before : at, *other = bare == at ? before : at;
            struct diagnostic *error =
                twice ? build_error(build, "repeat", at->at, "the speed \"%s\" is given twice", at->name)
                      : build_error(build, "repeat", bare->at,
                                    "one of several blower lines does not say which speed it is");
            diagnostic_relate(all, error, twice ? before->at : other->at, "the other is here");
            diagnostic_hint(all, error,
                            "name each: blower \"low\" ..., blower \"high\" ...; or put all points of one "
                            "speed behind one 'blower'");
            return;
        }
    }
}

/* A speed that no blower line is for: those there are, and what was most likely meant. */
static void unknown_speed(struct build *build, const struct air_unit *unit) {
    struct arena *arena = build->job->arena;
    const char **names = ARENA_ARRAY(arena, const char *, unit->speeds.count), *all = "";
    size_t count = 0;
    for (size_t i = 0; i < unit->speeds.count; i++) {
        if (!unit->speeds.at[i].name)
            continue;
        names[count++] = unit->speeds.at[i].name;
        all = arena_format(arena, "%s%s\"%s\"", count > 1 ? all : ": there is ", count > 1 ? ", " : "",
                           unit->speeds.at[i].name);
    }
    struct diagnostic *error =
        build_error(build, "name", unit->speed_at, "no blower line of '%s' is for the speed \"%s\"%s", unit->name,
                    unit->speed_wanted, count ? all : ": its blower has one, without a name");
    const char *meant = count == 1 ? names[0] : text_nearest(unit->speed_wanted, names, count);
    if (meant)
        diagnostic_hint(build->job->diagnostics, error, "speed \"%s\"", meant);
    else if (!count)
        diagnostic_hint(build->job->diagnostics, error, "leave 'speed' out");
}

/* The speed that the job asks for; else the first, until the ducts are sized. */
static void settle_speed(struct build *build, struct air_unit *unit) {
    check_names(build, unit);
    if (!unit->speeds.count) /* which is told of when its pressure is asked for */
        return;
    unit_speed(unit, &unit->speeds.at[0]);
    if (!unit->speed_wanted)
        return;
    for (size_t i = 0; i < unit->speeds.count; i++)
        if (unit->speeds.at[i].name && strcmp(unit->speeds.at[i].name, unit->speed_wanted) == 0) {
            unit_speed(unit, &unit->speeds.at[i]);
            return;
        }
    unknown_speed(build, unit);
    unit->speed_wanted = NULL;
}

void unit_speed(struct air_unit *unit, const struct blower_speed *speed) {
    unit->speed = speed;
    unit->blower_at = speed->at;
    unit->blower.at = speed->points.at;
    unit->blower.count = unit->blower.room = speed->points.count;
}

void take_speed(struct build *build, const struct reading *reading) {
    struct air_unit *unit = build->thing;
    unit->speed_wanted = reading->argument[0].text;
    unit->speed_at = reading->argument[0].at;
}

/* ---- The unit ---------------------------------------------------------------------------------------------------- */

void take_unit(struct build *build, const struct reading *reading) {
    struct air_unit *unit = ARENA_NEW(build->job->arena, struct air_unit);
    const struct argument *name = &reading->argument[NAMED_NAME];
    unit->faulty = reading->faulty;
    unit->name = name->given ? name->text : "";
    unit->title = reading->argument[NAMED_TITLE].text;
    unit->at = name->given ? name->at : reading->statement->word_at;
    build_block(build, reading->statement, IN_UNIT, unit, NULL, &unit->faulty);
    settle_speed(build, unit);
    if (name->given)
        *list_add(build->job->arena, &build->job->units) = unit;
}

void take_unit_airflow(struct build *build, const struct reading *reading) {
    struct air_unit *unit = build->thing;
    const struct argument *flow = &reading->argument[0];
    if (!build_within(build, flow->at, flow->number, &range_airflow))
        return;
    unit->airflow = flow->number;
    unit->airflow_given = true;
    unit->airflow_at = flow->at;
}

static int by_flow(const void *left, const void *right) {
    const struct blower_point *a = left, *b = right;
    return (a->flow > b->flow) - (a->flow < b->flow);
}

/* Points in order of flow: two at one flow contradict each other; pressure that rises with flow is worth a look. */
static void check_blower(struct build *build, const struct air_unit *unit, const struct blower_speed *speed) {
    struct diagnostics *all = build->job->diagnostics;
    for (size_t i = 1; i < speed->points.count; i++) {
        const struct blower_point *a = &speed->points.at[i - 1], *b = &speed->points.at[i];
        if (b->flow - a->flow < 1e-9 * b->flow) {
            struct diagnostic *error = build_error(build, "value", b->at, "the blower has two points at one airflow");
            diagnostic_relate(all, error, a->at, "the other is here");
        } else if (b->pressure >= a->pressure) {
            struct diagnostic *warning =
                diagnose(all, DIAGNOSTIC_WARNING, "blower-rise", b->at,
                         "the blower of '%s' gives no less pressure here than with less air: a blower's pressure falls "
                         "as it moves more",
                         unit->name);
            warning->subject = unit->name;
            diagnostic_relate(all, warning, a->at, "the point before");
            diagnostic_hint(all, warning, "see whether two figures changed places, or two blower speeds were mixed");
        }
    }
}

void take_blower(struct build *build, const struct reading *reading) {
    struct air_unit *unit = build->thing;
    struct blower_speed speed = {.name = reading->argument[BLOWER_SPEED].text, .at = reading->statement->at};
    for (const struct argument *a = &reading->argument[BLOWER_POINTS]; a && a->given; a = a->next) {
        if (!build_within(build, a->at, a->number, &range_airflow) ||
            !build_within(build, a->at, a->second, &range_pressure))
            return;
        *list_add(build->job->arena, &speed.points) =
            (struct blower_point){.flow = a->number, .pressure = a->second, .at = a->at};
    }
    if (speed.points.count > 1)
        qsort(speed.points.at, speed.points.count, sizeof *speed.points.at, by_flow);
    check_blower(build, unit, &speed);
    *list_add(build->job->arena, &unit->speeds) = speed;
}

void take_unit_drop(struct build *build, const struct reading *reading) {
    struct air_unit *unit = build->thing;
    const struct argument *pressure = &reading->argument[DROP_PRESSURE], *flow = &reading->argument[DROP_FLOW];
    if (!build_within(build, pressure->at, pressure->number, &range_pressure))
        return;
    if (flow->given && !build_within(build, flow->at, flow->number, &range_airflow))
        return;
    const struct argument *loaded = &reading->argument[DROP_LOADED];
    if (loaded->given && !build_within(build, loaded->at, loaded->number, &range_pressure))
        return;
    if (loaded->given && loaded->number < pressure->number) {
        build_error(build, "value", loaded->at, "a filter full of dust takes more than a clean one");
        return;
    }
    *list_add(build->job->arena, &unit->drops) = (struct drop){
        .label = reading->argument[DROP_LABEL].text,
        .pressure = pressure->number,
        .flow = flow->given ? flow->number : 0,
        .loaded = loaded->given ? loaded->number : 0,
        .at = reading->statement->at,
    };
}

/* False: diagnosed. */
static bool take_point(struct build *build, const struct argument *point, double position[3]) {
    for (int axis = 0; axis < 3; axis++) {
        if (!build_within(build, point->at, point->point[axis], &range_coordinate))
            return false;
        position[axis] = point->point[axis];
    }
    return true;
}

void take_collar(struct build *build, const struct reading *reading) {
    struct air_unit *unit = build->thing;
    bool supply = strcmp(reading->form->word, "supply") == 0;
    if (!build_size(build, &reading->argument[0], supply ? &unit->supply : &unit->return_))
        return;
    *(supply ? &unit->supply_at : &unit->return_at) = reading->argument[0].at;
    if (supply)
        return;
    const struct argument *at = &reading->argument[COLLAR_AT], *faces = &reading->argument[COLLAR_FACES];
    unit->return_position_given = at->given && take_point(build, at, unit->return_position);
    unit->return_position_at = at->at;
    if (faces->given)
        unit->return_faces = reading->form->slots[COLLAR_FACES].choices[faces->choice];
}

void take_position(struct build *build, const struct reading *reading) {
    struct air_unit *unit = build->thing;
    unit->position_given = take_point(build, &reading->argument[0], unit->position);
}

void take_faces(struct build *build, const struct reading *reading) {
    struct air_unit *unit = build->thing;
    const struct argument *front = &reading->argument[FACES_FRONT];
    unit->faces = reading->form->slots[FACES_WAY].choices[reading->argument[FACES_WAY].choice];
    if (!front->given)
        return;
    if (strcmp(unit->faces, "up") != 0 && strcmp(unit->faces, "down") != 0) {
        build_error(build, "value", front->at, "a front is said of a unit that faces up or down: this one faces %s",
                    unit->faces);
        return;
    }
    unit->front = reading->form->slots[FACES_FRONT].choices[front->choice];
}

/* Temperatures of the two seasons; each once, on one line or on two. */
static void take_seasons(struct build *build, const struct reading *reading, const struct range *range, double *cooling,
                         double *heating) {
    double *into[] = {[SEASON_COOLING] = cooling, [SEASON_HEATING] = heating};
    const struct argument *given = NULL;
    for (int season = SEASON_COOLING; season <= SEASON_HEATING; season++) {
        const struct argument *value = &reading->argument[season];
        if (!value->given)
            continue;
        given = value;
        if (*into[season] > 0)
            build_error(build, "repeat", value->at, "this temperature is given twice");
        else if (build_within(build, value->at, value->number, range))
            *into[season] = value->number;
    }
    if (given)
        return;
    struct diagnostic *error = build_error(build, "value", reading->statement->at, "expected a temperature");
    diagnostic_hint(build->job->diagnostics, error, "%s", reading->form->example);
}

void take_leaves(struct build *build, const struct reading *reading) {
    struct air_unit *unit = build->thing;
    take_seasons(build, reading, &range_supply_air, &unit->supply_air, &unit->heating_air);
    if (reading->argument[SEASON_COOLING].given)
        unit->supply_air_at = reading->argument[SEASON_COOLING].at;
    if (reading->argument[SEASON_HEATING].given)
        unit->heating_air_at = reading->argument[SEASON_HEATING].at;
}

void take_room_air(struct build *build, const struct reading *reading) {
    struct air_unit *unit = build->thing;
    take_seasons(build, reading, &range_room_air, &unit->room_air, &unit->heating_room);
}
