/* The sheet that a part is made of. */
#include "metal/making.h"
#include "model/built_for.h"

int making_gauge(const struct making *making, struct duct_size size) {
    return metal_choose(&making->job->shop, &making->run->settings, size, run_built_for(making->run)).gauge;
}

const struct stock *making_stock(struct making *making, struct duct_size size) {
    int gauge = making_gauge(making, size);
    int row = gauge > 0 && gauge <= GAUGE_LIGHTEST ? gauge : 0;
    enum material material = making->run->settings.material;
    struct stock **stock = &making->stock[material][row];
    if (!*stock) {
        *stock = ARENA_NEW(making->arena, struct stock);
        **stock = metal_stock(making->arena, &making->job->shop, material, row);
    }
    return *stock;
}

/* Each end may be thin for the one gauge, or want reinforcement. */
struct metal_choice making_sheet(const struct making *making, const struct order *order, double pressure) {
    const struct settings *settings = &making->run->settings;
    struct metal_choice near = metal_choose(&making->job->shop, settings, order->near, pressure);
    struct metal_choice far = metal_choose(&making->job->shop, settings, order->far, pressure);
    if (!near.gauge || !far.gauge)
        return near.gauge ? near : far;
    struct metal_choice both = far.gauge < near.gauge ? far : near;
    both.demand = far.demand.gauge < near.demand.gauge ? far.demand : near.demand;
    both.demand.reinforce = near.demand.reinforce || far.demand.reinforce;
    both.thin = near.thin || far.thin;
    return both;
}
