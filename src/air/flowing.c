/* What will really flow, item by item. */
#include "air/flowing.h"

#include <assert.h>
#include <math.h>

/* How much more each damper's coefficient is, balanced, than in the design's losses. */
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
double flowing_loss(const struct flowing *flowing, const struct section *section, const struct item *item) {
    assert(item->piece); /* every item is of one */
    if (section->velocity <= 0)
        return 0;
    double loss = air_item_loss(&flowing->flows, section, item);
    if (!(item->piece->kind->traits & PIECE_BALANCES) || item->role != ITEM_PIECE)
        return loss;
    double flow = flowing->flows.at[section->id];
    double pressure = air_velocity_pressure(flowing->flows.air, flow / section->duct->area);
    return loss + copysign(flowing->blade[section->id] * pressure, flow);
}

void flowing_fill(struct flowing *flowing, const struct network *network, const struct air *air, struct arena *arena) {
    const struct operation *operation = network->operation;
    *flowing = (struct flowing){.point = NULL};
    if (!operation || !operation->balanced.sections || operation->balanced.outcome == OPERATES_NO_CURVE)
        return;
    double *blade = ARENA_ARRAY(arena, double, network->sections.count);
    add_blades(network->supply_paths.at, network->supply_paths.count, operation->supply_settings, blade);
    add_blades(network->return_paths.at, network->return_paths.count, operation->return_settings, blade);
    flowing->point = &operation->balanced;
    flowing->flows = (struct air_flows){.air = air, .at = operation->balanced.sections};
    flowing->blade = blade;
    flowing->lost = ARENA_ARRAY(arena, double, network->sections.count);
    for (size_t i = 0; i < network->sections.count; i++) {
        const struct section *section = network->sections.at[i];
        double lost = section->parent ? flowing->lost[section->parent->id] : 0;
        for (size_t k = 0; k < section->items.count; k++)
            lost += flowing_loss(flowing, section, &section->items.at[k]);
        flowing->lost[i] = lost;
    }
}

double flowing_static(const struct flowing *flowing, const struct section *section, double lost, double area) {
    if (!flowing->point)
        return NAN;
    double total = section->run->supply ? flowing->point->supply - lost : lost - flowing->point->back;
    return total - air_velocity_pressure(flowing->flows.air, flowing->flows.at[section->id] / area);
}
