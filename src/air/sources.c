/* What the final losses rest on: the sources that the basis of calculation lists. */
#include "air/losses.h"
#include "base/constant.h"

static void friction_sources(const struct section *section, const struct air *air, bool *used) {
    /* Re = rho V D / mu, of the round equivalent at the same flow. */
    double diameter = section->duct->equivalent_diameter;
    double reynolds = 4 * air->density * section->flow / (PI * diameter * air->viscosity);
    used[SOURCE_DARCY] = used[SOURCE_ROUGHNESS] = true;
    used[reynolds < AIR_TURBULENT_ABOVE ? SOURCE_LAMINAR : SOURCE_COLEBROOK] = true;
    if (section->duct->size.shape == SHAPE_RECTANGULAR)
        used[SOURCE_HUEBSCHER] = true;
    if (section->duct->size.shape == SHAPE_OVAL)
        used[SOURCE_HEYT_DIAZ] = true;
}

static void section_sources(const struct section *section, const struct air *air, bool *used) {
    for (size_t i = 0; i < section->items.count; i++) {
        const struct item *item = &section->items.at[i];
        used[item->loss.source] = used[item->loss.factor_source] = true;
        if (item->loss.friction > 0)
            friction_sources(section, air, used);
        if (item->loss.friction > 0 && air_item_wall(section, item).factor != 1)
            used[SOURCE_FLEX_COMPRESSION] = true;
    }
}

static void unit_sources(const struct air_unit *unit, bool *used) {
    used[SOURCE_STANDARD_AIR] = used[SOURCE_SUTHERLAND] = used[SOURCE_INCH_OF_WATER] = true;
    used[SOURCE_BLOWER_CURVE] |= unit->blower.count > 1;
    used[SOURCE_DECLARED_DROP] |= unit->drops.count > 0;
}

void air_sources(struct job *job) {
    bool *used = job->source_used;
    if (job->altitude != 0)
        used[SOURCE_ATMOSPHERE] = used[SOURCE_IDEAL_GAS] = used[SOURCE_RATED_AIR] = true;
    for (size_t u = 0; u < job->units.count; u++) {
        const struct network *network = job->units.at[u]->network;
        if (!network)
            continue;
        unit_sources(job->units.at[u], used);
        for (size_t i = 0; i < network->sections.count; i++)
            section_sources(network->sections.at[i], &job->air, used);
    }
    used[SOURCE_NONE] = false;
}
