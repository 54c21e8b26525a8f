/* The pressure that every item of a network takes, and what the sections' air meets on its way to or from the unit. */
#include "air/wall.h"

#include <math.h>

/* One pass over the sections.  Sections of one duct mostly follow each other, so its equivalent is kept. */
struct sweep {
    const struct air *air;
    const struct duct *duct; /* the one that `equivalent` is of */
    double equivalent;       /* m */
};

/* ---- What a piece's loss depends on --------------------------------------------------------------------------- */

static struct stream stream_of(const struct section *section) {
    return (struct stream){.size = section->duct->size, .flow = section->flow};
}

/* The air just ahead of a section, toward the unit: its parent's, or the collar's. */
static struct stream stream_before(const struct section *section) {
    if (section->parent)
        return stream_of(section->parent);
    const struct air_unit *unit = section->run->unit;
    struct stream before = stream_of(section);
    struct duct_size collar = section->run->supply ? unit->supply : unit->return_;
    if (size_known(collar))
        before.size = collar;
    return before;
}

/* The other legs of the split that `section` leaves: their air together, the size of the one with the most. */
static struct stream other_legs(const struct piece *split, const struct section *section) {
    struct stream other = {0};
    double most = -1;
    for (int leg = 0; leg < LEG_COUNT; leg++) {
        const struct run *run = split->run->legs[leg];
        if (!run || run == section->run || !run->first_section)
            continue;
        const struct section *first = run->first_section;
        other.flow += first->flow;
        if (first->flow > most)
            other.size = first->duct->size;
        most = fmax(most, first->flow);
    }
    return other;
}

static void set_junction(struct piece_flow *flow, const struct item *item, const struct section *section) {
    flow->common = flow->near;
    switch (item->role) {
    case ITEM_BRANCH:
        flow->branch = flow->far;
        flow->through = flow->near;
        flow->through.flow = fmax(0, flow->near.flow - flow->far.flow);
        break;
    case ITEM_PAST:
        flow->through = flow->far;
        if (item->tapped->first_section)
            flow->branch = stream_of(item->tapped->first_section);
        break;
    case ITEM_LEG:
        flow->branch = flow->far;
        flow->through = other_legs(item->piece, section);
        flow->leg = section->run->from.leg;
        break;
    default:
        break;
    }
}

static struct piece_flow flow_of(const struct item *item, const struct section *section, const struct air *air,
                                 double roughness) {
    struct piece_flow flow = {
        .piece = item->piece,
        .air = air,
        .role = item->role,
        .supply = section->run->supply,
        .length = item->length,
        .roughness = roughness,
        .near = stream_of(section),
        .far = stream_of(section),
    };
    if (item->role != ITEM_PIECE || item->piece->kind->traits & PIECE_RESIZES)
        flow.near = stream_before(section);
    if (item->role == ITEM_BRANCH || item->role == ITEM_PAST || item->role == ITEM_LEG)
        set_junction(&flow, item, section);
    return flow;
}

/* ---- Losses --------------------------------------------------------------------------------------------------- */

/* Friction along `length` of a section's duct.  Its own rate holds unless the piece has another wall. */
static double length_friction(const struct sweep *sweep, const struct section *section, struct wall wall,
                              double length) {
    const struct duct *duct = section->duct;
    if (wall.roughness == duct->roughness && wall.factor == duct->friction_multiplier)
        return section->friction_rate * length;
    return air_friction_rate(sweep->air, section->flow, sweep->equivalent, wall.roughness) * wall.factor * length;
}

static void item_loss(const struct sweep *sweep, const struct section *section, struct item *item, struct wall of_run) {
    const struct piece_kind *kind = item->piece->kind;
    struct wall wall = wall_of_piece(item->piece, sweep->equivalent, of_run);
    struct piece_flow flow = flow_of(item, section, sweep->air, wall.roughness);
    /* Two runs of one size just join. */
    if (item->role == ITEM_CONNECT && size_equal(flow.near.size, flow.far.size))
        return;
    if (kind->loss)
        kind->loss(&flow, &item->loss);
    if (!(kind->traits & PIECE_LENGTH))
        return;
    double friction = length_friction(sweep, section, wall, item->length);
    item->loss.friction += friction;
    item->loss.pressure += friction;
}

static void section_loss(struct sweep *sweep, struct section *section) {
    const struct duct *duct = section->duct;
    section->velocity = section->friction_rate = section->loss = 0;
    for (size_t i = 0; i < section->items.count; i++)
        section->items.at[i].loss = (struct loss){0};
    /* No air, no loss; both have been diagnosed. */
    if (section->flow <= 0 || !size_known(duct->size))
        return;
    if (sweep->duct != duct)
        sweep->equivalent = air_equivalent_diameter(duct->size);
    sweep->duct = duct;
    section->velocity = section->flow / size_area(duct->size);
    section->friction_rate =
        air_friction_rate(sweep->air, section->flow, sweep->equivalent, duct->roughness) * duct->friction_multiplier;
    struct wall of_run = wall_of_run(section->run);
    for (size_t i = 0; i < section->items.count; i++) {
        item_loss(sweep, section, &section->items.at[i], of_run);
        section->loss += section->items.at[i].loss.pressure;
    }
}

void air_losses(struct network *network, const struct air *air) {
    struct sweep sweep = {.air = air};
    air_walls(network);
    /* Parents come before children, so one sweep sums the way to the unit. */
    for (size_t i = 0; i < network->sections.count; i++) {
        struct section *section = network->sections.at[i];
        section_loss(&sweep, section);
        section->loss_to_unit = section->loss + (section->parent ? section->parent->loss_to_unit : 0);
    }
}

/* ---- Sources -------------------------------------------------------------------------------------------------- */

static void friction_sources(const struct section *section, const struct air *air, bool *used) {
    /* Re = rho V D / mu, of the round equivalent at the same flow. */
    double diameter = air_equivalent_diameter(section->duct->size);
    double reynolds = 4 * air->density * section->flow / (3.14159265358979323846 * diameter * air->viscosity);
    used[SOURCE_DARCY] = used[SOURCE_ROUGHNESS] = true;
    used[reynolds < 4000 ? SOURCE_LAMINAR : SOURCE_COLEBROOK] = true;
    if (section->duct->size.shape == SHAPE_RECTANGULAR)
        used[SOURCE_HUEBSCHER] = true;
    if (section->duct->size.shape == SHAPE_OVAL)
        used[SOURCE_HEYT_DIAZ] = true;
}

static void section_sources(const struct section *section, const struct air *air, bool *used) {
    double diameter = air_equivalent_diameter(section->duct->size);
    for (size_t i = 0; i < section->items.count; i++) {
        const struct item *item = &section->items.at[i];
        if (item->loss.source != SOURCE_NONE)
            used[item->loss.source] = true;
        if (item->loss.friction > 0)
            friction_sources(section, air, used);
        if (item->loss.friction > 0 && wall_of_piece(item->piece, diameter, wall_of_run(section->run)).factor != 1)
            used[SOURCE_FLEX_COMPRESSION] = true;
    }
}

static void unit_sources(const struct air_unit *unit, bool *used) {
    used[SOURCE_STANDARD_AIR] = used[SOURCE_SUTHERLAND] = used[SOURCE_INCH_OF_WATER] = true;
    if (unit->blower.count > 1)
        used[SOURCE_BLOWER_CURVE] = true;
    for (size_t i = 0; i < unit->drops.count; i++)
        used[unit->drops.at[i].assumed ? SOURCE_ASSUMED_DROP : SOURCE_DECLARED_DROP] = true;
}

void air_sources(struct job *job) {
    bool *used = job->source_used;
    if (job->altitude != 0)
        used[SOURCE_ATMOSPHERE] = used[SOURCE_IDEAL_GAS] = true;
    for (size_t i = 0; i < job->runs.count; i++)
        if (job->runs.at[i]->load > 0)
            used[SOURCE_SENSIBLE_HEAT] = true;
    for (size_t u = 0; u < job->units.count; u++) {
        const struct network *network = job->units.at[u]->network;
        if (!network)
            continue;
        unit_sources(job->units.at[u], used);
        for (size_t i = 0; i < network->sections.count; i++)
            section_sources(network->sections.at[i], &job->air, used);
    }
}
