/* Equipment: its airflow, blower, drops and collars. */
#include "model/build.h"

#include <stdlib.h>
#include <string.h>

void take_unit(struct build *build, const struct reading *reading) {
    struct air_unit *unit = ARENA_NEW(build->job->arena, struct air_unit);
    const struct argument *name = &reading->argument[NAMED_NAME];
    unit->faulty = reading->faulty;
    unit->name = name->given ? name->text : "";
    unit->title = reading->argument[NAMED_TITLE].text;
    unit->at = name->given ? name->at : reading->statement->word_at;
    build_block(build, reading->statement, IN_UNIT, unit, NULL, &unit->faulty);
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
static void check_blower(struct build *build, const struct air_unit *unit) {
    struct diagnostics *all = build->job->diagnostics;
    for (size_t i = 1; i < unit->blower.count; i++) {
        const struct blower_point *a = &unit->blower.at[i - 1], *b = &unit->blower.at[i];
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
    unit->blower_at = reading->statement->at;
    for (const struct argument *a = &reading->argument[0]; a && a->given; a = a->next) {
        if (!build_within(build, a->at, a->number, &range_airflow) ||
            !build_within(build, a->at, a->second, &range_pressure))
            return;
        *list_add(build->job->arena, &unit->blower) =
            (struct blower_point){.flow = a->number, .pressure = a->second, .at = a->at};
    }
    if (unit->blower.count > 1)
        qsort(unit->blower.at, unit->blower.count, sizeof *unit->blower.at, by_flow);
    check_blower(build, unit);
}

void take_unit_drop(struct build *build, const struct reading *reading) {
    struct air_unit *unit = build->thing;
    const struct argument *pressure = &reading->argument[DROP_PRESSURE], *flow = &reading->argument[DROP_FLOW];
    if (!build_within(build, pressure->at, pressure->number, &range_pressure))
        return;
    if (flow->given && !build_within(build, flow->at, flow->number, &range_airflow))
        return;
    *list_add(build->job->arena, &unit->drops) = (struct drop){
        .label = reading->argument[DROP_LABEL].text,
        .pressure = pressure->number,
        .flow = flow->given ? flow->number : 0,
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
    if (faces->given)
        unit->return_faces = reading->form->slots[COLLAR_FACES].choices[faces->choice];
}

void take_position(struct build *build, const struct reading *reading) {
    struct air_unit *unit = build->thing;
    unit->position_given = take_point(build, &reading->argument[0], unit->position);
}

void take_faces(struct build *build, const struct reading *reading) {
    struct air_unit *unit = build->thing;
    unit->faces = reading->form->slots[0].choices[reading->argument[0].choice];
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
}

void take_room_air(struct build *build, const struct reading *reading) {
    struct air_unit *unit = build->thing;
    take_seasons(build, reading, &range_room_air, &unit->room_air, &unit->heating_room);
}
