/* What ducts are made of on the inside, as far as the air feels it. */
#include "air/wall.h"

#include "air/friction.h"

struct wall wall_of_run(const struct run *run) {
    double roughness = run->settings.lining > 0 ? air_lining_roughness() : air_roughness(run->settings.material);
    return (struct wall){.roughness = roughness, .factor = 1};
}

struct wall wall_of_piece(const struct piece *piece, double diameter, struct wall of_run) {
    struct wall wall = of_run;
    if (piece->kind->wall)
        piece->kind->wall(piece, diameter, &wall.roughness, &wall.factor);
    return wall;
}

struct wall wall_of_duct(const struct duct *duct, double diameter) {
    struct wall of_run = wall_of_run(duct->run);
    return duct->wall ? wall_of_piece(duct->wall, diameter, of_run) : of_run;
}

/* ---- Figures of its size ----------------------------------------------------------------------------------------- */

static void settle_size(struct duct *duct) {
    bool known = size_known(duct->size);
    duct->equivalent_diameter = known ? air_equivalent_diameter(duct->size) : 0;
    duct->hydraulic_diameter = known ? size_hydraulic_diameter(duct->size) : 0;
    duct->area = known ? size_area(duct->size) : 0;
    duct->aspect = known ? size_aspect(duct->size) : 0;
}

/* ---- What a duct is mostly made of ------------------------------------------------------------------------------- */

/* Finds what a duct is mostly made of, from its last section; gives the section before the duct. */
static struct section *settle_wall(struct section *section) {
    struct duct *duct = section->duct;
    const struct piece *own = NULL;
    double plain_length = 0, own_length = 0;
    for (; section && section->duct == duct; section = section->parent)
        for (size_t i = 0; i < section->items.count; i++) {
            const struct item *item = &section->items.at[i];
            if (!(item->piece->kind->traits & PIECE_LENGTH))
                continue;
            if (item->piece->kind->wall) {
                own = item->piece;
                own_length += item->length;
            } else
                plain_length += item->length;
        }
    duct->wall = own_length > plain_length ? own : NULL;
    struct wall wall = wall_of_duct(duct, duct->equivalent_diameter);
    duct->roughness = wall.roughness;
    duct->friction_multiplier = wall.factor;
    return section;
}

void air_walls(struct network *network) {
    for (size_t i = 0; i < network->ducts.count; i++)
        settle_size(network->ducts.at[i]);
    for (size_t i = 0; i < network->ducts.count; i++) {
        const struct run *run = network->ducts.at[i]->run;
        if (network->ducts.at[i] != run->first_duct)
            continue;
        struct section *section = run->last_section;
        while (section && section->run == run)
            section = settle_wall(section);
    }
}

/* ---- The diameter for a rate ------------------------------------------------------------------------------------- */

struct walled_duct {
    const struct air *air;
    const struct duct *duct;
};

static double rate_at(const void *walled, double diameter) {
    const struct walled_duct *at = walled;
    struct wall wall = wall_of_duct(at->duct, diameter);
    return wall.factor * air_friction_rate(at->air, at->duct->flow, diameter, wall.roughness);
}

double air_duct_diameter(const struct air *air, const struct duct *duct, double rate) {
    struct walled_duct walled = {.air = air, .duct = duct};
    struct rate_curve curve = {.rate = rate_at, .duct = &walled};
    return air_search_diameter(&curve, air, duct->flow, rate);
}
