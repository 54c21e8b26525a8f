/* Settings statements. */
#include "base/constant.h"
#include "model/build.h"
#include "model/words.h"

/* A size is of a shape: the two must agree. */
static void check_shape(struct build *build, struct span at) {
    const struct settings *settings = build->settings;
    if (!size_known(settings->size) || settings->size.shape == settings->shape)
        return;
    struct diagnostic *error = build_error(build, "value", at, "the size is %s, the shape %s: expected them to agree",
                                           shape_name(settings->size.shape), shape_name(settings->shape));
    diagnostic_relate(build->job->diagnostics, error, settings->size_at, "the size is given here");
}

void take_shape(struct build *build, const struct reading *reading) {
    build->settings->shape_set = true;
    build->settings->shape = (enum shape)reading->argument[0].choice;
    check_shape(build, reading->argument[0].at);
}

void take_size(struct build *build, const struct reading *reading) {
    struct settings *settings = build->settings;
    if (!build_size(build, &reading->argument[0], &settings->size))
        return;
    settings->size_at = reading->argument[0].at;
    if (settings->shape_set)
        check_shape(build, settings->size_at);
    settings->shape_set = true;
    settings->shape = settings->size.shape;
}

/* One of the limits; in a shop or when it stands alone the later holds, elsewhere a second one is an error. */
static void take_one_limit(struct build *build, const struct argument *argument, const struct range *range,
                           double *limit) {
    if (!argument->given || !build_within(build, argument->at, argument->number, range))
        return;
    if (*limit > 0 && build->place != IN_SHOP) {
        struct diagnostic *error = build_error(build, "repeat", argument->at, "this limit is given twice");
        diagnostic_relate(build->job->diagnostics, error, build->settings->limit_at, "limits are first given here");
        return;
    }
    *limit = argument->number;
}

void take_limit(struct build *build, const struct reading *reading) {
    struct settings *settings = build->settings;
    const struct argument *height = &reading->argument[LIMIT_HEIGHT], *width = &reading->argument[LIMIT_WIDTH];
    const struct argument *velocity = &reading->argument[LIMIT_VELOCITY];
    if (!height->given && !width->given && !velocity->given) {
        struct diagnostic *error = build_error(build, "value", reading->statement->at, "expected what is limited");
        diagnostic_hint(build->job->diagnostics, error, "limit height 8 in, or width, or velocity 900 fpm");
        return;
    }
    take_one_limit(build, height, &range_side, &settings->limit_height);
    take_one_limit(build, width, &range_side, &settings->limit_width);
    take_one_limit(build, velocity, &range_velocity, &settings->limit_velocity);
    if (!settings->limit_at.text)
        settings->limit_at = reading->statement->at;
}

void take_material(struct build *build, const struct reading *reading) {
    build->settings->material_set = true;
    build->settings->material = material_of_choice(reading->argument[0].choice);
}

/* From 8 to 36: the gauges that sheet metal is sold in; common practice, no source. */
void take_gauge(struct build *build, const struct reading *reading) {
    build_whole(build, &reading->argument[0], "a gauge", 8, 36, &build->settings->gauge);
}

void take_insulation(struct build *build, const struct reading *reading) {
    const struct argument *value = &reading->argument[0];
    if (!build_within(build, value->at, value->number, &range_insulation))
        return;
    build->settings->insulation = value->number;
    build->settings->insulation_set = true;
}

void take_lining(struct build *build, const struct reading *reading) {
    const struct argument *value = &reading->argument[0];
    if (!build_within(build, value->at, value->number, &range_lining))
        return;
    build->settings->lining = value->number;
    build->settings->lining_set = true;
}

void take_seal(struct build *build, const struct reading *reading) {
    build->settings->seal_set = true;
    build->settings->seal = (enum seal_class)(SEAL_C + reading->argument[0].choice);
}

void take_seam(struct build *build, const struct reading *reading) {
    build->settings->seam_set = true;
    build->settings->seam = (enum seam_kind)reading->argument[0].choice;
}

void take_joint(struct build *build, const struct reading *reading) {
    build->settings->joint_set = true;
    build->settings->joint = (enum joint_kind)reading->argument[0].choice;
}

/* Moist air has a humidity or a dew point: the one follows from the other. */
static bool check_moisture(struct build *build, const struct reading *reading) {
    const struct argument *humidity = &reading->argument[PLACE_HUMIDITY], *dew = &reading->argument[PLACE_DEW_POINT];
    const struct argument *summer = &reading->argument[PLACE_TEMPERATURE];
    if (humidity->given && dew->given) {
        build_error(build, "value", dew->at,
                    "a humidity and a dew point: expected one, since the other follows from it");
        return false;
    }
    if (dew->given && summer->given && dew->number > summer->number) {
        build_error(build, "value", dew->at,
                    "the dew point is over the temperature there: expected one at most as high");
        return false;
    }
    return true;
}

/* A heated space may be this much warmer in winter than in summer; outdoors and in an attic none is.  Chosen here,
 * no source. */
static const double heated_more = 10 * RANKINE;

/* Figures that changed places would turn gains into losses. */
static bool check_seasons(struct build *build, const struct reading *reading) {
    const struct argument *summer = &reading->argument[PLACE_TEMPERATURE], *winter = &reading->argument[PLACE_WINTER];
    enum location location = (enum location)reading->argument[PLACE_LOCATION].choice;
    bool open = location == LOCATION_ATTIC || location == LOCATION_OUTDOORS;
    if (!summer->given || !winter->given || winter->number <= summer->number + (open ? 0 : heated_more))
        return true;
    const struct job *job = build->job;
    struct diagnostic *error = build_error(build, "value", winter->at,
                                           "a place of %s in winter and %s in summer: the two seem to have changed "
                                           "places, for the first figure is that of summer",
                                           measure_text(job->arena, job->system, SHOW_TEMPERATURE, winter->number),
                                           measure_text(job->arena, job->system, SHOW_TEMPERATURE, summer->number));
    bool more = false;
    for (int slot = PLACE_WINTER + 1; slot <= PLACE_HEIGHT; slot++)
        more |= reading->argument[slot].given;
    diagnostic_hint(job->diagnostics, error, "place %s %s, winter %s%s",
                    reading->form->slots[PLACE_LOCATION].choices[location],
                    measure_text(job->arena, job->system, SHOW_TEMPERATURE, winter->number),
                    measure_text(job->arena, job->system, SHOW_TEMPERATURE, summer->number),
                    more ? ", and what stands behind it" : "");
    return false;
}

void take_place(struct build *build, const struct reading *reading) {
    static const struct range *const ranges[] = {
        [PLACE_LOCATION] = NULL,
        [PLACE_TEMPERATURE] = &range_design_air,
        [PLACE_WINTER] = &range_design_air,
        [PLACE_HUMIDITY] = &range_humidity,
        [PLACE_DEW_POINT] = &range_design_air,
        [PLACE_MINIMUM] = &range_insulation,
        [PLACE_HEIGHT] = &range_run,
    };
    const struct argument *argument = reading->argument;
    struct settings *settings = build->settings;
    double given[PLACE_HEIGHT + 1] = {0};
    for (int slot = PLACE_TEMPERATURE; slot <= PLACE_HEIGHT; slot++) {
        if (!argument[slot].given)
            continue;
        given[slot] = argument[slot].number;
        if (!build_within(build, argument[slot].at, given[slot], ranges[slot]))
            return;
    }
    if (!check_moisture(build, reading) || !check_seasons(build, reading))
        return;
    settings->location_set = true;
    settings->location = (enum location)argument[PLACE_LOCATION].choice;
    settings->location_temperature = given[PLACE_TEMPERATURE];
    settings->location_winter = given[PLACE_WINTER];
    settings->location_humidity = given[PLACE_HUMIDITY];
    settings->location_dew_point = given[PLACE_DEW_POINT];
    settings->location_minimum_set = argument[PLACE_MINIMUM].given;
    settings->location_minimum = given[PLACE_MINIMUM];
    settings->location_height = given[PLACE_HEIGHT];
}

void take_clearance(struct build *build, const struct reading *reading) {
    const struct argument *value = &reading->argument[0];
    if (!build_within(build, value->at, value->number, &range_clearance))
        return;
    build->settings->clearance = value->number;
    build->settings->clearance_set = true;
}

void take_headroom(struct build *build, const struct reading *reading) {
    const struct argument *height = &reading->argument[HEADROOM_HEIGHT], *over = &reading->argument[HEADROOM_OVER];
    if (!build_within(build, height->at, height->number, &range_headroom) ||
        (over->given && !build_within(build, over->at, over->number, &range_coordinate)))
        return;
    build->settings->headroom = height->number;
    build->settings->floor = over->given ? over->number : 0;
    build->settings->headroom_set = true;
}
