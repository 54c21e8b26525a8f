/* The network as Newton's method sees it: what each section takes of its own air, and of that beside it. */
#include "air/operate.h"

#include <assert.h>
#include <math.h>
#include <string.h>

/* ---- Who hangs from whom --------------------------------------------------------------------------------------- */

/* Children stand behind their parents: from the back, what a terminal hangs from carries air. */
static void mark_carrying(struct flow_model *model) {
    for (size_t i = model->count; i-- > 0;) {
        const struct section *section = model->network->sections.at[i];
        struct flow_section *at = &model->sections[i];
        at->carries = at->carries || (section->terminal && section->flow > 0);
        if (at->carries && section->parent)
            model->sections[section->parent->id].carries = true;
    }
}

/* From the back, so that each list of children comes out in the order of the sections. */
static void link_children(struct flow_model *model) {
    for (size_t i = 0; i < model->count; i++)
        model->sections[i].parent = model->sections[i].child = model->sections[i].next = NO_SECTION;
    for (size_t i = model->count; i-- > 0;) {
        const struct section *section = model->network->sections.at[i];
        if (!model->sections[i].carries || !section->parent)
            continue;
        struct flow_section *parent = &model->sections[section->parent->id];
        model->sections[i].parent = section->parent->id;
        model->sections[i].next = parent->child;
        parent->child = (uint32_t)i;
    }
}

static uint32_t collar_of(const struct flow_model *model, bool supply) {
    for (size_t i = 0; i < model->count; i++) {
        const struct section *section = model->network->sections.at[i];
        if (model->sections[i].carries && !section->parent && section->run->supply == supply)
            return (uint32_t)i;
    }
    return NO_SECTION;
}

/* ---- What its items are ---------------------------------------------------------------------------------------- */

static struct air_flows flows_of(const struct flow_model *model) {
    return (struct air_flows){.air = model->air, .at = model->flow, .loaded = model->loaded};
}

static bool is_square(const struct item *item) {
    return (item->piece->kind->traits & PIECE_SQUARE) && !air_divides(item);
}

/* Lengths of one wall are one length. */
static void add_span(struct flow_section *at, struct wall wall, double length) {
    for (uint32_t i = 0; i < at->span_count; i++)
        if (at->spans[i].roughness == wall.roughness) {
            at->spans[i].length += length * wall.factor;
            return;
        }
    at->spans[at->span_count++] = (struct flow_span){wall.roughness, length * wall.factor};
}

static void sort_items(struct flow_model *model, struct arena *arena, const struct section *section) {
    struct flow_section *at = &model->sections[section->id];
    size_t count = section->items.count;
    at->spans = ARENA_ARRAY(arena, struct flow_span, count);
    at->others = ARENA_ARRAY(arena, const struct item *, count);
    at->junctions = ARENA_ARRAY(arena, const struct item *, count);
    at->per_blade = air_velocity_pressure(model->air, 1 / section->duct->area);
    for (size_t i = 0; i < count; i++) {
        const struct item *item = &section->items.at[i];
        const struct piece_kind *kind = item->piece->kind;
        if (air_divides(item)) {
            at->junctions[at->junction_count++] = item;
            continue;
        }
        if (kind->traits & PIECE_LENGTH)
            add_span(at, air_item_wall(section, item), item->length);
        if (kind->loss && !is_square(item))
            at->others[at->other_count++] = item;
    }
}

void flow_model_load(struct flow_model *model, bool loaded) {
    model->loaded = loaded;
    struct air_flows flows = flows_of(model);
    for (size_t i = 0; i < model->count; i++) {
        const struct section *section = model->network->sections.at[i];
        struct flow_section *at = &model->sections[i];
        at->square = 0;
        if (!at->carries)
            continue;
        /* What goes with the square is asked once, at the design. */
        model->flow[i] = section->flow;
        for (size_t k = 0; k < section->items.count; k++)
            if (is_square(&section->items.at[k]))
                at->square += air_fitting_loss(&flows, section, &section->items.at[k], 0);
        at->square /= section->flow * section->flow;
    }
}

bool flow_model_make(struct flow_model *model, struct arena *arena, const struct network *network,
                     const struct air *air) {
    size_t count = network->sections.count;
    *model = (struct flow_model){.network = network, .air = air, .count = count};
    model->sections = ARENA_ARRAY(arena, struct flow_section, count);
    model->flow = ARENA_ARRAY(arena, double, count);
    model->loss = ARENA_ARRAY(arena, double, count);
    model->slope = ARENA_ARRAY(arena, double, count);
    model->junction = arena_take(arena, count * sizeof *model->junction);
    mark_carrying(model);
    link_children(model);
    for (size_t i = 0; i < count; i++) {
        if (model->sections[i].carries && !size_known(network->sections.at[i]->duct->size))
            return false;
        if (model->sections[i].carries)
            sort_items(model, arena, network->sections.at[i]);
    }
    model->supply = collar_of(model, true);
    model->back = collar_of(model, false);
    if (model->supply == NO_SECTION || model->back == NO_SECTION)
        return false;
    flow_model_load(model, false);
    return true;
}

/* ---- Airflows -------------------------------------------------------------------------------------------------- */

void flow_sum(struct flow_model *model) {
    for (size_t i = 0; i < model->count; i++)
        if (model->sections[i].child != NO_SECTION || !model->sections[i].carries)
            model->flow[i] = 0;
    for (size_t i = model->count; i-- > 0;)
        if (model->sections[i].parent != NO_SECTION)
            model->flow[model->sections[i].parent] += model->flow[i];
}

/* ---- Losses ---------------------------------------------------------------------------------------------------- */

static double items_loss(const struct flow_model *model, const struct section *section, const struct item **items,
                         uint32_t count) {
    struct air_flows flows = flows_of(model);
    double roughness = count ? air_item_wall(section, items[0]).roughness : 0, sum = 0;
    for (uint32_t i = 0; i < count; i++)
        sum += air_fitting_loss(&flows, section, items[i], roughness);
    return sum;
}

/* Another airflow, to see what it does to a loss: a millionth more, which leaves ten digits of the slope. */
static double nudge_of(double flow, double design) {
    return 1e-6 * fmax(fabs(flow), 1e-3 * design);
}

/* More air in the section, and so in its parent. */
static void nudge(struct flow_model *model, uint32_t id, double by) {
    model->flow[id] += by;
    if (model->sections[id].parent != NO_SECTION)
        model->flow[model->sections[id].parent] += by;
}

static void own_loss(struct flow_model *model, const struct section *section, bool slopes) {
    struct flow_section *at = &model->sections[section->id];
    double flow = model->flow[section->id], size = fabs(flow), way = flow < 0 ? -1 : 1;
    double square = at->square + at->blade * at->per_blade;
    double loss = way * square * size * size, slope = 2 * square * size;
    for (uint32_t i = 0; i < at->span_count; i++) {
        double rate = 0, rate_slope = 0;
        rate = air_friction_slope(model->air, size, section->duct->equivalent_diameter, at->spans[i].roughness,
                                  &rate_slope);
        loss += way * rate * at->spans[i].length;
        slope += rate_slope * at->spans[i].length;
    }
    double others = items_loss(model, section, at->others, at->other_count);
    model->loss[section->id] = loss + others;
    if (!slopes)
        return;
    if (at->other_count) {
        double by = nudge_of(flow, section->flow), before = model->flow[section->id];
        double parent = at->parent != NO_SECTION ? model->flow[at->parent] : 0;
        nudge(model, section->id, by);
        slope += (items_loss(model, section, at->others, at->other_count) - others) / by;
        model->flow[section->id] = before;
        if (at->parent != NO_SECTION)
            model->flow[at->parent] = parent;
    }
    model->slope[section->id] = slope;
}

/* The junctions of all that leaves one section, and how each changes with the air of each. */
static void junction_losses(struct flow_model *model, uint32_t parent, bool slopes) {
    struct section *const *sections = model->network->sections.at;
    double before[CHILDREN_MOST];
    int place = 0;
    for (uint32_t id = model->sections[parent].child; id != NO_SECTION; id = model->sections[id].next) {
        struct flow_section *at = &model->sections[id];
        assert(place < CHILDREN_MOST);
        before[place] = items_loss(model, sections[id], at->junctions, at->junction_count);
        model->loss[id] += before[place++];
    }
    int column = 0;
    for (uint32_t by_id = model->sections[parent].child; slopes && by_id != NO_SECTION;
         by_id = model->sections[by_id].next, column++) {
        double flow = model->flow[by_id], whole = model->flow[parent];
        double by = nudge_of(flow, sections[by_id]->flow);
        nudge(model, by_id, by);
        place = 0;
        for (uint32_t id = model->sections[parent].child; id != NO_SECTION; id = model->sections[id].next, place++) {
            struct flow_section *at = &model->sections[id];
            double now = items_loss(model, sections[id], at->junctions, at->junction_count);
            model->junction[id][column] = (now - before[place]) / by;
        }
        model->flow[by_id] = flow;
        model->flow[parent] = whole;
    }
}

static bool has_junctions(const struct flow_model *model, uint32_t parent) {
    for (uint32_t id = model->sections[parent].child; id != NO_SECTION; id = model->sections[id].next)
        if (model->sections[id].junction_count)
            return true;
    return false;
}

void flow_evaluate(struct flow_model *model, bool slopes) {
    for (size_t i = 0; i < model->count; i++)
        if (model->sections[i].carries)
            own_loss(model, model->network->sections.at[i], slopes);
    for (size_t i = 0; i < model->count; i++) {
        if (slopes)
            memset(model->junction[i], 0, sizeof model->junction[i]);
    }
    for (size_t i = 0; i < model->count; i++)
        if (model->sections[i].carries && has_junctions(model, (uint32_t)i))
            junction_losses(model, (uint32_t)i, slopes);
}

struct flow_range flow_side(const struct flow_model *model, bool supply, double *path) {
    struct flow_range range = {INFINITY, -INFINITY};
    for (size_t i = 0; i < model->count; i++) {
        const struct flow_section *at = &model->sections[i];
        if (!at->carries || model->network->sections.at[i]->run->supply != supply)
            continue;
        path[i] = model->loss[i] + (at->parent != NO_SECTION ? path[at->parent] : 0);
        if (at->child != NO_SECTION)
            continue;
        range.least = fmin(range.least, path[i]);
        range.most = fmax(range.most, path[i]);
    }
    return range;
}

/* ---- The unit -------------------------------------------------------------------------------------------------- */

double flow_unit_drops(const struct flow_model *model, double flow, double *slope) {
    const struct air_unit *unit = model->network->unit;
    double sum = 0;
    for (size_t i = 0; i < unit->drops.count; i++) {
        const struct drop *drop = &unit->drops.at[i];
        double pressure = model->loaded && drop->loaded > 0 ? drop->loaded : drop->pressure;
        double at = drop->flow > 0 ? drop->flow : unit->airflow;
        sum += pressure * model->air->density_ratio / (at * at);
    }
    *slope = 2 * sum * fabs(flow);
    return sum * flow * fabs(flow);
}

double flow_blower(const struct flow_model *model, double flow, double *slope) {
    const struct air_unit *unit = model->network->unit;
    size_t count = unit->blower.count;
    double within = fmin(fmax(flow, unit->blower.at[0].flow), unit->blower.at[count - 1].flow), pressure = 0;
    double ratio = model->air->density_ratio;
    air_blower_pressure(unit->blower.at, count, within, &pressure);
    *slope = air_blower_slope(unit->blower.at, count, within) * ratio;
    pressure *= ratio;
    if (flow == within)
        return pressure;
    /* Falling at least enough that it comes to an end. */
    *slope = fmin(*slope, -0.1 * pressure / fmax(within, 0.01 * unit->blower.at[count - 1].flow));
    return pressure + *slope * (flow - within);
}
