/* Dimensions that the job gives only `about`, as they are read. */
#include "model/estimate.h"

#include "base/constant.h"
#include "model/build.h"
#include "model/piece.h"
#include "model/variant.h"

/* What a figure of a measure is moved by: as much as a first look is easily off by, in round figures of either system.
 * Chosen here, no source. */
struct step {
    enum measure_kind measure;
    enum measure_use use;
    double us, metric;
};

static const struct step step_along = {MEASURE_LENGTH, SHOW_RUN, FOOT, 300 * MILLIMETRE};
/* What is built wider gives way easier: a size is asked narrower. */
static const struct step step_of_size = {MEASURE_LENGTH, SHOW_SIZE, -2 * INCH, -50 * MILLIMETRE};
static const struct step steps[] = {
    {MEASURE_LENGTH, SHOW_SIZE, INCH, 25 * MILLIMETRE},
    {MEASURE_ANGLE, MEASURE_USE_COUNT, 5 * DEGREE, 5 * DEGREE},
    {MEASURE_FLOW, SHOW_FLOW, 10 * CFM, 5 * LITRE},
    {MEASURE_POWER, SHOW_HEAT, 500 * BTU_HOUR, 150},
    {MEASURE_PRESSURE, SHOW_PRESSURE, 0.02 * INCH_OF_WATER, 5},
    {MEASURE_TEMPERATURE, SHOW_TEMPERATURE, 5 * RANKINE, 3},
};

/* Whether it is a length along duct: of straight or flexible duct, or where a tap stands. */
static bool is_along(const struct build *build, const struct form *form, size_t slot) {
    for (size_t i = 0; i < build->pieces->count; i++) {
        const struct piece_kind *kind = build->pieces->kinds[i];
        if (&kind->form == form)
            return (kind->traits & PIECE_LENGTH) && slot == kind->length_slot;
    }
    return slot == RUN_AT && form->slots[RUN_FROM].kind == SLOT_PORT;
}

/* NULL: no estimate of it is varied.  Settings of the job and the shop are not measured on site. */
static const struct step *step_for(const struct build *build, const struct form *form, size_t slot) {
    if (build->place == IN_JOB || build->place == IN_SHOP)
        return NULL;
    if (form->slots[slot].kind == SLOT_SIZE)
        return &step_of_size;
    if (form->slots[slot].kind != SLOT_QUANTITY)
        return NULL;
    if (is_along(build, form, slot))
        return &step_along;
    for (size_t i = 0; i < sizeof steps / sizeof steps[0]; i++)
        if (steps[i].measure == form->slots[slot].measure)
            return &steps[i];
    return NULL;
}

static double *figure_of(const struct slot *slot, struct argument *argument) {
    return slot->kind == SLOT_SIZE ? &argument->point[0] : &argument->number;
}

static void take_one(struct build *build, const struct reading *reading, size_t slot, struct argument *argument) {
    const struct step *step = step_for(build, reading->form, slot);
    struct estimate *estimate = ARENA_NEW(build->job->arena, struct estimate);
    *estimate = (struct estimate){
        .statement = reading->statement,
        .at = argument->at,
        .where = build->where,
        .alternate = build->alternate,
        .slot = &reading->form->slots[slot],
        .use = step ? step->use : MEASURE_USE_COUNT,
        .value = *figure_of(&reading->form->slots[slot], argument),
        .step = !step                             ? 0
                : build->system == MEASURE_METRIC ? step->metric
                                                  : step->us,
    };
    *list_add(build->job->arena, &build->job->estimates) = estimate;
    const struct variant *variant = build->job->variant;
    const struct estimate *moved = variant ? variant->moved : NULL;
    if (moved && moved->statement == estimate->statement && moved->at.begin == estimate->at.begin)
        *figure_of(estimate->slot, argument) += moved->step;
}

void estimates_take(struct build *build, struct reading *reading) {
    for (size_t i = 0; i < SLOT_LIMIT && reading->form->slots[i].kind != SLOT_NONE; i++)
        for (struct argument *a = &reading->argument[i]; a && a->given; a = a->next)
            if (a->about)
                take_one(build, reading, i, a);
}
