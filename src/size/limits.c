/* Velocity guides and the steps of the friction rate. */
#include "size/limits.h"

#include "base/constant.h"
#include "model/model.h"

/* From memory: residential duct standard ANSI/ACCA 1, and practice. */
static const struct velocity_guide duct_guides[DUCT_USE_COUNT] = {
    [USE_SUPPLY_TRUNK] = {.name = "a supply trunk", .recommended = 700 * FPM, .limit = 900 * FPM},
    [USE_SUPPLY_BRANCH] = {.name = "a supply branch", .recommended = 600 * FPM, .limit = 900 * FPM},
    [USE_RETURN_TRUNK] = {.name = "a return trunk", .recommended = 600 * FPM, .limit = 700 * FPM},
    [USE_RETURN_BRANCH] = {.name = "a return branch", .recommended = 400 * FPM, .limit = 700 * FPM},
};

/* The same source; on the face as listed, width times height.  A filter has one figure only. */
static const struct velocity_guide face_guides[FACE_USE_COUNT] = {
    [FACE_REGISTER] = {.name = "a register", .recommended = 500 * FPM, .limit = 700 * FPM},
    [FACE_GRILLE] = {.name = "a return grille", .recommended = 400 * FPM, .limit = 500 * FPM},
    [FACE_FILTER] = {.name = "a filter", .recommended = 300 * FPM, .limit = 300 * FPM},
};

enum duct_use duct_use_of(const struct run *run) {
    bool trunk = run->role == RUN_DUCT || run_bears(run);
    if (run->supply)
        return trunk ? USE_SUPPLY_TRUNK : USE_SUPPLY_BRANCH;
    return trunk ? USE_RETURN_TRUNK : USE_RETURN_BRANCH;
}

const struct velocity_guide *duct_guide(enum duct_use use) {
    return &duct_guides[use];
}

const struct velocity_guide *face_guide(enum face_use use) {
    return &face_guides[use];
}

double velocity_limit(const struct run *run) {
    double own = run->settings.limit_velocity;
    return own > 0 ? own : duct_guides[duct_use_of(run)].limit;
}

double velocity_target(const struct run *run) {
    double own = run->settings.limit_velocity;
    return own > 0 ? own : duct_guides[duct_use_of(run)].recommended;
}

double friction_grid(int thousandths) {
    return thousandths * 0.001 * INCH_PER_100_FEET;
}
