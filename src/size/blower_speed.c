/* Which of a blower's speeds a unit runs at: the least that meets the budget, since it is the quietest and takes least
 * power. */
#include "size/blower_speed.h"

#include "model/model.h"

/* Its pressure at the design airflow, by which speeds are ordered; less than nothing where it is not known. */
static double pressure_at(const struct air_unit *unit, const struct blower_speed *speed) {
    double pressure;
    return air_blower_pressure(speed->points.at, speed->points.count, unit->airflow, &pressure) ? pressure : -1;
}

/* The next greater after `last` (NULL: the least) of those that know the design airflow; NULL: none. */
static struct blower_speed *next_speed(const struct air_unit *unit, const struct blower_speed *last) {
    struct blower_speed *next = NULL;
    for (size_t i = 0; i < unit->speeds.count; i++) {
        struct blower_speed *speed = &unit->speeds.at[i];
        double pressure = pressure_at(unit, speed);
        if (pressure < 0 || speed->tried || (last && pressure < pressure_at(unit, last)))
            continue;
        if (!next || pressure < pressure_at(unit, next))
            next = speed;
    }
    return next;
}

void choose_speed(struct job *job, struct network *network, const struct sizing_method *method) {
    struct air_unit *unit = network->unit;
    if (unit->speeds.count < 2 || unit->speed_wanted)
        return;
    const struct blower_speed *last = NULL;
    for (struct blower_speed *speed = next_speed(unit, NULL); speed; speed = next_speed(unit, last)) {
        unit_speed(unit, speed);
        /* Faults of the ducts are told once, for the speed that is taken. */
        method->size(job, network, job->catalogue, NULL);
        air_budget(network, &job->air, NULL, job->system);
        speed->tried = true;
        note_speed(network);
        last = speed;
        if (network->blower_known && !air_budget_short(network))
            break;
    }
}

void note_speed(struct network *network) {
    const struct air_unit *unit = network->unit;
    for (size_t i = 0; i < unit->speeds.count; i++)
        if (&unit->speeds.at[i] == unit->speed) {
            unit->speeds.at[i].tried = true;
            unit->speeds.at[i].known = network->blower_known;
            unit->speeds.at[i].surplus = network->surplus;
        }
}
