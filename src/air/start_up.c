/* What is read at start-up: expected pressures where a gauge is put, and the blower's and the system's curve.
 *
 * All is at the design airflow, the blower set so that nothing is left over on the costliest path and each other path's
 * damper taking up what that path leaves over.  The total pressure against the room is then, on the supply side, the
 * loss of the costliest path less what is lost from the collar to the place; on the return side, what is lost from the
 * place to the collar less the loss of the costliest path.  Beside it stands what the gauge will show of the air that
 * will really flow, balanced, where that is known.  Static pressure is total less velocity pressure, on both sides
 * (Bernoulli's equation; any textbook of fluid mechanics).
 */
#include <assert.h>
#include <math.h>

#include "air/air.h"
#include "air/fitting.h"
#include "air/losses.h"
#include "air/operation.h"
#include "base/constant.h"

/* ---- What will really flow --------------------------------------------------------------------------------------- */

/* The balanced operating point, and what is lost on the way there. */
struct running {
    const struct operating_point *point; /* NULL: none is known */
    struct air_flows flows;
    double *lost;        /* Pa between the unit and the end of each section, by id */
    const double *blade; /* of each section, by id: what its damper's coefficient is over that of the design */
};

/* By what the damper of each path is set to, over how it stands in the losses at the design. */
static void add_blades(const struct path *paths, size_t count, const struct damper_setting *settings, double *blade) {
    for (size_t i = 0; i < count; i++) {
        const struct section *section = settings[i].section;
        for (size_t k = 0; section && paths[i].damper && k < section->items.count; k++) {
            const struct item *item = &section->items.at[k];
            /* One that was never set has none. */
            if (settings[i].coefficient > 0 && paths[i].damper && item->piece == paths[i].damper &&
                item->role == ITEM_PIECE)
                blade[section->id] = settings[i].coefficient - item->loss.coefficient;
        }
    }
}

/* As the design's losses are, but for the airflow and the blade. */
static double running_loss(const struct running *running, const struct section *section, const struct item *item) {
    double flow = running->flows.at[section->id], loss = 0;
    assert(item->piece); /* every item is of one */
    if (section->velocity <= 0)
        return 0;
    if (item->piece->kind->traits & PIECE_LENGTH) {
        struct wall wall = air_item_wall(section, item);
        double rate =
            air_friction_rate(running->flows.air, fabs(flow), section->duct->equivalent_diameter, wall.roughness);
        loss = copysign(rate * wall.factor * item->length, flow);
    }
    if ((item->piece->kind->traits & PIECE_BALANCES) && item->role == ITEM_PIECE)
        loss += copysign(
            running->blade[section->id] * air_velocity_pressure(running->flows.air, flow / section->duct->area), flow);
    return loss + air_fitting_loss(&running->flows, section, item, air_item_wall(section, item).roughness);
}

static void run_network(struct running *running, const struct network *network, const struct air *air,
                        struct arena *arena) {
    const struct operation *operation = network->operation;
    *running = (struct running){.point = NULL};
    if (!operation || !operation->set.sections || operation->set.outcome == OPERATES_NO_CURVE)
        return;
    double *blade = ARENA_ARRAY(arena, double, network->sections.count);
    add_blades(network->supply_paths.at, network->supply_paths.count, operation->supply_settings, blade);
    add_blades(network->return_paths.at, network->return_paths.count, operation->return_settings, blade);
    running->point = &operation->set;
    running->flows = (struct air_flows){.air = air, .at = operation->set.sections};
    running->blade = blade;
    running->lost = ARENA_ARRAY(arena, double, network->sections.count);
    for (size_t i = 0; i < network->sections.count; i++) {
        const struct section *section = network->sections.at[i];
        double lost = section->parent ? running->lost[section->parent->id] : 0;
        for (size_t k = 0; k < section->items.count; k++)
            lost += running_loss(running, section, &section->items.at[k]);
        running->lost[i] = lost;
    }
}

/* Static pressure against the room where `lost` has been lost between there and the unit; not a number: it is not
 * known. */
static double running_static(const struct running *running, const struct section *section, double lost, double area) {
    if (!running->point)
        return NAN;
    double total = section->run->supply ? running->point->supply - lost : lost - running->point->back;
    return total - air_velocity_pressure(running->flows.air, running->flows.at[section->id] / area);
}

/* ---- Test points ------------------------------------------------------------------------------------------------- */

static struct test_point *add_point(struct network *network, struct arena *arena, enum test_kind kind, bool supply) {
    struct test_point *point = list_add(arena, &network->test_points);
    *point = (struct test_point){.kind = kind, .supply = supply, .operating = NAN};
    return point;
}

double air_total_pressure(const struct network *network, bool supply, double lost) {
    if (supply)
        return (network->governing_supply ? network->governing_supply->loss : 0) - lost;
    return lost - (network->governing_return ? network->governing_return->loss : 0);
}

static void set_pressure(struct test_point *point, double total, double velocity_pressure) {
    point->total = total;
    point->velocity_pressure = velocity_pressure;
    point->expected = total - velocity_pressure;
}

/* ---- In the runs ------------------------------------------------------------------------------------------------- */

/* The middle of a straight of a run, where a gauge is as far from fittings and taps as it can be. */
struct straight {
    const struct section *section;
    double lost;    /* Pa of total pressure between the unit and there */
    double station; /* m along the run */
    double running; /* Pa lost likewise of what will really flow; 0: that is not known */
};

/* A gauge is put into made duct, not into flexible duct, which no hole is made in. */
static bool takes_gauge(const struct item *item) {
    unsigned traits = item->piece ? item->piece->kind->traits : 0;
    return item->role == ITEM_PIECE && (traits & PIECE_LENGTH) && !(traits & PIECE_FLEXIBLE) && item->length > 0;
}

static void add_filter(struct network *network, struct arena *arena, const struct running *running,
                       const struct section *section, const struct item *item) {
    if (item->role != ITEM_PIECE || !item->piece || !(item->piece->kind->traits & PIECE_FILTER))
        return;
    struct test_point *point = add_point(network, arena, TEST_FACE, section->run->supply);
    point->run = section->run;
    point->station = item->piece->station;
    point->piece = item->piece;
    point->total = point->expected = item->loss.pressure;
    if (running->point)
        point->operating = running_loss(running, section, item);
}

/* The first and the last straight of one section; none: `section` stays NULL.  Its loss is friction, even along it. */
static void look_at(const struct running *running, const struct section *section, struct straight *first,
                    struct straight *last) {
    double flowing = running->point && section->parent ? running->lost[section->parent->id] : 0;
    double lost = section->parent ? section->parent->loss_to_unit : 0, station = section->station;
    for (size_t i = 0; i < section->items.count; i++) {
        const struct item *item = &section->items.at[i];
        double near = item->role == ITEM_PIECE && item->piece ? fmax(station, item->piece->station) : station;
        double loss = item->loss.pressure;
        station = near + item->length;
        double flowing_loss = running->point ? running_loss(running, section, item) : 0;
        lost += loss;
        flowing += flowing_loss;
        if (!takes_gauge(item))
            continue;
        *last = (struct straight){section, lost - loss / 2, near + item->length / 2, flowing - flowing_loss / 2};
        if (!first->section)
            *first = *last;
    }
}

static void add_in_run(struct network *network, const struct air *air, struct arena *arena,
                       const struct running *running, const struct straight *at, enum test_kind kind) {
    struct test_point *point = add_point(network, arena, kind, at->section->run->supply);
    point->run = at->section->run;
    point->station = at->station;
    set_pressure(point, air_total_pressure(network, point->supply, at->lost),
                 air_velocity_pressure(air, at->section->velocity));
    point->operating = running_static(running, at->section, at->running, at->section->duct->area);
}

/* From the run's last section back to its first; what lies behind the last tap has no air. */
static void add_run(struct job *job, struct network *network, const struct running *running, const struct run *run) {
    struct straight first = {0}, last = {0};
    for (const struct section *section = run->last_section; section && section->run == run; section = section->parent) {
        struct straight own_first = {0}, own_last = {0};
        if (section->velocity <= 0)
            continue;
        look_at(running, section, &own_first, &own_last);
        if (own_first.section)
            first = own_first;
        if (!last.section)
            last = own_last;
    }
    if (!first.section)
        return;
    add_in_run(network, &job->air, job->arena, running, &first, TEST_RUN_START);
    if (last.station > first.station)
        add_in_run(network, &job->air, job->arena, running, &last, TEST_RUN_END);
}

static void add_runs(struct job *job, struct network *network, const struct running *running, bool supply) {
    for (size_t s = 0; s < network->sections.count; s++) {
        const struct section *section = network->sections.at[s];
        if (section->run->supply != supply)
            continue;
        if (section->run->role == RUN_DUCT && section == section->run->first_section)
            add_run(job, network, running, section->run);
        for (size_t i = 0; i < section->items.count; i++)
            add_filter(network, job->arena, running, section, &section->items.at[i]);
    }
}

/* ---- At the unit ------------------------------------------------------------------------------------------------- */

/* The run's first air at the unit; NULL: nothing hangs there, or nothing flows. */
static const struct section *at_collar(const struct run *run) {
    const struct section *section = run ? run->first_section : NULL;
    return section && section->velocity > 0 ? section : NULL;
}

/* Of the collar where it has a size of its own, else of the duct on it. */
static double collar_area(const struct section *section) {
    const struct air_unit *unit = section->run->unit;
    struct duct_size collar = section->run->supply ? unit->supply : unit->return_;
    return size_known(collar) ? size_area(collar) : section->duct->area;
}

/* NULL: there is no such collar. */
static const struct test_point *add_collar(struct job *job, struct network *network, const struct running *running,
                                           const struct section *section) {
    if (!section)
        return NULL;
    double area = collar_area(section);
    struct test_point *point = add_point(network, job->arena, TEST_COLLAR, section->run->supply);
    point->run = section->run;
    set_pressure(point, air_total_pressure(network, point->supply, 0),
                 air_velocity_pressure(&job->air, section->flow / area));
    point->operating = running_static(running, section, 0, area);
    return point;
}

static void add_unit(struct job *job, struct network *network, const struct running *running) {
    const struct air_unit *unit = network->unit;
    const struct test_point *point = add_collar(job, network, running, at_collar(unit->return_run));
    struct test_point behind = point ? *point : (struct test_point){.expected = 0}; /* the list may move */
    bool both = point != NULL;
    for (size_t i = 0; i < unit->drops.count; i++) {
        struct test_point *drop = add_point(network, job->arena, TEST_DROP, false);
        drop->drop = &unit->drops.at[i];
        drop->total = drop->expected = unit->drops.at[i].actual;
        if (running->point)
            drop->operating = air_drop(unit, &unit->drops.at[i], false, running->point->flow, &job->air);
    }
    point = add_collar(job, network, running, at_collar(unit->supply_run));
    if (!both || !point)
        return;
    struct test_point before = *point;
    struct test_point *across = add_point(network, job->arena, TEST_UNIT, true);
    across->total = air_total_pressure(network, true, 0) - air_total_pressure(network, false, 0);
    across->expected = before.expected - behind.expected;
    across->operating = before.operating - behind.operating;
}

void air_start_up(struct job *job) {
    if (job->incomplete)
        return;
    for (size_t u = 0; u < job->units.count; u++) {
        struct network *network = job->units.at[u]->network;
        struct running running;
        if (!network)
            continue;
        run_network(&running, network, &job->air, job->arena);
        add_runs(job, network, &running, false);
        add_unit(job, network, &running);
        add_runs(job, network, &running, true);
        air_curves(network, &job->air, job->arena);
    }
}
