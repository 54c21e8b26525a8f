/* What is read at start-up: expected pressures where a gauge is put, and the blower's and the system's curve.
 *
 * All is at the design airflow, the blower set so that nothing is left over on the costliest path and each other path's
 * damper taking up what that path leaves over.  The total pressure against the room is then, on the supply side, the
 * loss of the costliest path less what is lost from the collar to the place; on the return side, what is lost from the
 * place to the collar less the loss of the costliest path.  Beside it stands what the gauge will show of the air that
 * will really flow, balanced, where that is known.  Static pressure is total less velocity pressure, on both sides
 * (Bernoulli's equation; any textbook of fluid mechanics).
 */
#include <math.h>

#include "air/air.h"
#include "air/flowing.h"

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
    double flowing; /* Pa lost likewise of what will really flow; 0: that is not known */
};

/* Gauges go into sheet metal or board: no hole is made in flexible duct. */
static bool takes_gauge(const struct item *item) {
    unsigned traits = item->piece ? item->piece->kind->traits : 0;
    return item->role == ITEM_PIECE && (traits & PIECE_LENGTH) && !(traits & PIECE_FLEXIBLE) && item->length > 0;
}

static void add_filter(struct network *network, struct arena *arena, const struct flowing *flowing,
                       const struct section *section, const struct item *item) {
    if (item->role != ITEM_PIECE || !item->piece || !(item->piece->kind->traits & PIECE_FILTER))
        return;
    struct test_point *point = add_point(network, arena, TEST_FACE, section->run->supply);
    point->run = section->run;
    point->station = item->piece->station;
    point->piece = item->piece;
    point->total = point->expected = item->loss.pressure;
    if (flowing->point)
        point->operating = flowing_loss(flowing, section, item);
}

/* The first and the last straight of one section; none: `section` stays NULL.  Its loss is friction, even along it. */
static void look_at(const struct flowing *flowing, const struct section *section, struct straight *first,
                    struct straight *last) {
    double lost_flowing = flowing->point && section->parent ? flowing->lost[section->parent->id] : 0;
    double lost = section->parent ? section->parent->loss_to_unit : 0, station = section->station;
    for (size_t i = 0; i < section->items.count; i++) {
        const struct item *item = &section->items.at[i];
        double near = item->role == ITEM_PIECE && item->piece ? fmax(station, item->piece->station) : station;
        double loss = item->loss.pressure;
        station = near + item->length;
        double loss_flowing = flowing->point ? flowing_loss(flowing, section, item) : 0;
        lost += loss;
        lost_flowing += loss_flowing;
        if (!takes_gauge(item))
            continue;
        *last = (struct straight){section, lost - loss / 2, near + item->length / 2, lost_flowing - loss_flowing / 2};
        if (!first->section)
            *first = *last;
    }
}

static void add_in_run(struct network *network, const struct air *air, struct arena *arena,
                       const struct flowing *flowing, const struct straight *at, enum test_kind kind) {
    struct test_point *point = add_point(network, arena, kind, at->section->run->supply);
    point->run = at->section->run;
    point->station = at->station;
    set_pressure(point, air_total_pressure(network, point->supply, at->lost),
                 air_velocity_pressure(air, at->section->velocity));
    point->operating = flowing_static(flowing, at->section, at->flowing, at->section->duct->area);
}

/* From the run's last section back to its first.  Behind the last tap there may be no air. */
static void add_run(struct job *job, struct network *network, const struct flowing *flowing, const struct run *run) {
    struct straight first = {0}, last = {0};
    for (const struct section *section = run->last_section; section && section->run == run; section = section->parent) {
        struct straight own_first = {0}, own_last = {0};
        if (section->velocity <= 0)
            continue;
        look_at(flowing, section, &own_first, &own_last);
        if (own_first.section)
            first = own_first;
        if (!last.section)
            last = own_last;
    }
    if (!first.section)
        return;
    add_in_run(network, &job->air, job->arena, flowing, &first, TEST_RUN_START);
    if (last.station > first.station)
        add_in_run(network, &job->air, job->arena, flowing, &last, TEST_RUN_END);
}

static void add_runs(struct job *job, struct network *network, const struct flowing *flowing, bool supply) {
    for (size_t s = 0; s < network->sections.count; s++) {
        const struct section *section = network->sections.at[s];
        if (section->run->supply != supply)
            continue;
        if (section->run->role == RUN_DUCT && section == section->run->first_section)
            add_run(job, network, flowing, section->run);
        for (size_t i = 0; i < section->items.count; i++)
            add_filter(network, job->arena, flowing, section, &section->items.at[i]);
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
static const struct test_point *add_collar(struct job *job, struct network *network, const struct flowing *flowing,
                                           const struct section *section) {
    if (!section)
        return NULL;
    double area = collar_area(section);
    struct test_point *point = add_point(network, job->arena, TEST_COLLAR, section->run->supply);
    point->run = section->run;
    set_pressure(point, air_total_pressure(network, point->supply, 0),
                 air_velocity_pressure(&job->air, section->flow / area));
    point->operating = flowing_static(flowing, section, 0, area);
    return point;
}

static void add_unit(struct job *job, struct network *network, const struct flowing *flowing) {
    const struct air_unit *unit = network->unit;
    const struct test_point *point = add_collar(job, network, flowing, at_collar(unit->return_run));
    struct test_point behind = point ? *point : (struct test_point){.expected = 0}; /* the list may move */
    bool both = point != NULL;
    for (size_t i = 0; i < unit->drops.count; i++) {
        struct test_point *drop = add_point(network, job->arena, TEST_DROP, false);
        drop->drop = &unit->drops.at[i];
        drop->total = drop->expected = unit->drops.at[i].actual;
        if (flowing->point)
            drop->operating = air_drop(unit, &unit->drops.at[i], false, flowing->point->flow, &job->air);
    }
    point = add_collar(job, network, flowing, at_collar(unit->supply_run));
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
        struct flowing flowing;
        if (!network)
            continue;
        flowing_fill(&flowing, network, &job->air, job->arena);
        add_runs(job, network, &flowing, false);
        add_unit(job, network, &flowing);
        add_runs(job, network, &flowing, true);
        air_curves(network, &job->air, job->arena);
    }
}
