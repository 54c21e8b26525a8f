/* The blower and the system over the airflow: what a figure of both is drawn from. */
#include "air/air.h"

/* Points of a curve: so many that no chord shows on a page. */
enum { CURVE_POINTS = 61 };

static void add_blower(struct network *network, const struct air *air, struct arena *arena) {
    const struct air_unit *unit = network->unit;
    size_t count = unit->blower.count;
    if (count == 0)
        return;
    double low = unit->blower.at[0].flow, high = unit->blower.at[count - 1].flow;
    size_t points = count > 1 ? CURVE_POINTS : 1;
    for (size_t i = 0; i < points; i++) {
        struct blower_point point = {.flow = points > 1 ? low + (high - low) * (double)i / (CURVE_POINTS - 1) : low};
        if (air_blower_at(unit->blower.at, count, point.flow, air, &point.pressure))
            *list_add(arena, &network->blower_curve) = point;
    }
}

/* How far past the design airflow the system's curve goes at least, so that the design point is not at its end.  Chosen
 * here, no source. */
static const double past_design = 1.25;

/* p = p_design (Q / Q_design)^2, turbulent flow: from no air to the blower's last point, or to `past_design`. */
static void add_system(struct network *network, struct arena *arena) {
    const struct air_unit *unit = network->unit;
    double most = past_design * unit->airflow;
    if (unit->blower.count && unit->blower.at[unit->blower.count - 1].flow > most)
        most = unit->blower.at[unit->blower.count - 1].flow;
    for (size_t i = 0; i < CURVE_POINTS; i++) {
        double flow = most * (double)i / (CURVE_POINTS - 1), ratio = flow / unit->airflow;
        *list_add(arena, &network->system_curve) =
            (struct blower_point){.flow = flow, .pressure = network->system_pressure * ratio * ratio};
    }
}

void air_curves(struct network *network, const struct air *air, struct arena *arena) {
    const struct path *supply = network->governing_supply, *back = network->governing_return;
    network->system_pressure = network->unit_drops + (supply ? supply->loss : 0) + (back ? back->loss : 0);
    add_blower(network, air, arena);
    if ((supply || back) && network->unit->airflow > 0)
        add_system(network, arena);
}
