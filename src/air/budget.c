/* The budget: what the blower has at the design airflow against what every path asks for.
 *
 * Losses are of total pressure.  What the pieces and terminals may use is the blower's external static pressure less
 * the unit's own drops; the difference of the two collars' velocity pressures is not counted, and the basis of
 * calculation says so.
 */
#include <math.h>

#include "air/air.h"
#include "model/model.h"

/* Sums of airflows that differ by less are one airflow. */
#define SUM_ROUNDING 1e-9

/* ---- The unit ---------------------------------------------------------------------------------------------------- */

static void say_no_blower(const struct air_unit *unit, struct diagnostics *diagnostics, enum measure_system system) {
    struct diagnostic *said = diagnose(diagnostics, DIAGNOSTIC_ERROR, "blower", unit->at,
                                       "unit %s has no blower point, so there is no pressure to design to", unit->name);
    diagnostic_hint(diagnostics, said, "give a point of its blower table, such as: blower %s at %s",
                    measure_text(diagnostics->arena, system, SHOW_FLOW, unit->airflow),
                    system == MEASURE_US ? "0.50 in.wg" : "125 Pa");
}

static void say_outside(const struct network *network, struct diagnostics *diagnostics, enum measure_system system) {
    struct arena *arena = diagnostics->arena;
    const struct air_unit *unit = network->unit;
    const struct blower_point *first = &unit->blower.at[0], *last = &unit->blower.at[unit->blower.count - 1];
    const char *low = measure_text(arena, system, SHOW_FLOW, first->flow);
    const char *high = measure_text(arena, system, SHOW_FLOW, last->flow);
    const char *design = measure_text(arena, system, SHOW_FLOW, unit->airflow);
    const char *range = unit->blower.count == 1 ? arena_format(arena, "its only point is at %s", low)
                                                : arena_format(arena, "its points go from %s to %s", low, high);
    struct diagnostic *said =
        diagnose(diagnostics, DIAGNOSTIC_ERROR, "blower", unit->blower_at,
                 "the blower of %s is not known at the design airflow of %s: %s", unit->name, design, range);
    diagnostic_hint(diagnostics, said, "add a point of its blower table at %s %s", design,
                    unit->airflow > last->flow ? "or more" : "or less");
    if (unit->airflow_given && fabs(unit->airflow - network->supply_flow) > AIRFLOW_TOLERANCE * unit->airflow)
        diagnostic_relate(diagnostics, said, unit->airflow_at, "the outlets of %s take %s together", unit->name,
                          measure_text(arena, system, SHOW_FLOW, network->supply_flow));
}

/* Fills blower_known and blower_pressure. */
static void read_blower(struct network *network, const struct air *air, struct diagnostics *diagnostics,
                        enum measure_system system) {
    const struct air_unit *unit = network->unit;
    network->blower_pressure = 0;
    network->blower_known = unit->airflow > 0 && air_blower_at(unit->blower.at, unit->blower.count, unit->airflow, air,
                                                               &network->blower_pressure);
    /* Without airflow there is nothing to read off the curve; its absence has been diagnosed. */
    if (network->blower_known || !diagnostics || unit->airflow <= 0)
        return;
    if (unit->blower.count == 0)
        say_no_blower(unit, diagnostics, system);
    else
        say_outside(network, diagnostics, system);
}

double air_drop(const struct air_unit *unit, const struct drop *drop, bool loaded, double flow, const struct air *air) {
    double pressure = loaded && drop->loaded > 0 ? drop->loaded : drop->pressure;
    double rated = drop->flow > 0 ? drop->flow : unit->airflow;
    double ratio =
        rated > 0 ? flow / rated : 1; /* without air there is nothing to scale by, which has been diagnosed */
    return pressure * ratio * ratio * air->density_ratio;
}

/* Drops of the unit at the design airflow. */
static double scale_drops(struct air_unit *unit, const struct air *air) {
    double sum = 0;
    for (size_t i = 0; i < unit->drops.count; i++) {
        struct drop *drop = &unit->drops.at[i];
        drop->actual = air_drop(unit, drop, false, unit->airflow, air);
        sum += drop->actual;
    }
    return sum;
}

/* ---- Paths ------------------------------------------------------------------------------------------------------- */

static bool takes_surplus(const struct piece *piece) {
    const struct piece_kind *kind = piece->kind;
    return (kind->traits & PIECE_BALANCES) && (!kind->balances || kind->balances(piece));
}

/* The last volume damper of a section, the one nearest to the terminal. */
static const struct piece *damper_in(const struct section *section) {
    for (size_t i = section->items.count; i-- > 0;) {
        const struct item *item = &section->items.at[i];
        if (item->role == ITEM_PIECE && takes_surplus(item->piece))
            return item->piece;
    }
    return NULL;
}

/* The first volume damper from the terminal toward the unit that only this terminal's air passes.  Without air we
 * cannot tell which sections serve it alone, so only its own is searched. */
static const struct piece *damper_of(const struct section *end) {
    const struct piece *damper = NULL;
    for (const struct section *at = end; at && !damper; at = at->parent) {
        if (at != end && !(at->flow > 0 && at->flow <= end->flow * (1 + SUM_ROUNDING)))
            break;
        damper = damper_in(at);
    }
    return damper;
}

/* Sums one side; gives its costliest path, NULL when it has none. */
static struct path *sum_side(struct path *paths, size_t count) {
    struct path *worst = NULL;
    for (size_t i = 0; i < count; i++) {
        paths[i].loss = paths[i].end->loss_to_unit;
        paths[i].damper = damper_of(paths[i].end);
        if (!worst || paths[i].loss > worst->loss)
            worst = &paths[i];
    }
    return worst;
}

static void set_surplus(const struct network *network, struct path *paths, size_t count, double other_side) {
    for (size_t i = 0; i < count; i++) {
        paths[i].total = paths[i].loss + other_side + network->unit_drops;
        paths[i].surplus = network->blower_known ? network->blower_pressure - paths[i].total : 0;
    }
}

void air_budget(struct network *network, const struct air *air, struct diagnostics *diagnostics,
                enum measure_system system) {
    read_blower(network, air, diagnostics, system);
    network->unit_drops = scale_drops(network->unit, air);
    struct path *supply = sum_side(network->supply_paths.at, network->supply_paths.count);
    struct path *back = sum_side(network->return_paths.at, network->return_paths.count);
    double supply_loss = supply ? supply->loss : 0, back_loss = back ? back->loss : 0;
    set_surplus(network, network->supply_paths.at, network->supply_paths.count, back_loss);
    set_surplus(network, network->return_paths.at, network->return_paths.count, supply_loss);
    network->governing_supply = supply;
    network->governing_return = back;
    double total = supply_loss + back_loss + network->unit_drops;
    network->surplus = network->blower_known ? network->blower_pressure - total : 0;
}

bool air_budget_short(const struct network *network) {
    return network->blower_known && network->surplus < 0;
}
