/* The network as Newton's method sees it: the loss of each section by its own airflow and by its neighbours'. */
#include "air/operate.h"

#include <assert.h>
#include <math.h>

/* ---- Who hangs from whom ----------------------------------------------------------------------------------------- */

/* Children come after their parents, so one sweep from the back marks all that a terminal with air hangs from. */
static void mark_carrying(struct flow_model *model) {
    for (size_t i = model->count; i-- > 0;) {
        const struct section *section = model->network->sections.at[i];
        struct flow_section *at = &model->sections[i];
        at->carries = at->carries || (section->terminal && section->flow > 0);
        if (at->carries && section->parent)
            model->sections[section->parent->id].carries = true;
    }
}

/* From the back, so that each list of children is in the order of the sections.  model_network makes no more than
 * CHILDREN_MOST of a section. */
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
        parent->children++;
        assert(parent->children <= CHILDREN_MOST);
    }
}

int flow_children(const struct flow_model *model, uint32_t parent, uint32_t child[CHILDREN_MOST]) {
    int count = 0;
    EACH_CHILD(model, parent, id)
        child[count++] = id;
    return count;
}

bool flow_is_end(const struct flow_model *model, size_t id) {
    return model->sections[id].carries && model->sections[id].child == NO_SECTION;
}

static uint32_t collar_of(const struct flow_model *model, bool supply) {
    for (size_t i = 0; i < model->count; i++) {
        const struct section *section = model->network->sections.at[i];
        if (model->sections[i].carries && !section->parent && section->run->supply == supply)
            return (uint32_t)i;
    }
    return NO_SECTION;
}

/* ---- What its items are ------------------------------------------------------------------------------------------ */

static struct air_flows flows_of(const struct flow_model *model) {
    return (struct air_flows){.air = model->air, .at = model->flow, .loaded = model->loaded};
}

/* Spans of a section while they are gathered.  Pieces that find no room are computed one by one. */
enum { SPANS_MOST = 24 };
struct gathering {
    struct flow_span spans[SPANS_MOST];
    uint32_t count;
};

/* Lengths of one wall and diameter are one length. */
static void add_span(struct gathering *gathering, double diameter, double roughness, double length) {
    for (uint32_t i = 0; i < gathering->count; i++)
        if (gathering->spans[i].roughness == roughness && gathering->spans[i].diameter == diameter) {
            gathering->spans[i].length += length;
            return;
        }
    assert(gathering->count < SPANS_MOST);
    gathering->spans[gathering->count++] = (struct flow_span){diameter, roughness, length};
}

/* Whether the spans of one more piece fit.  Half of the room is kept for the duct's own walls, which are few. */
static bool has_room(const struct gathering *gathering) {
    return gathering->count + WALL_SPANS <= SPANS_MOST / 2;
}

static void sort_item(struct flow_model *model, const struct section *section, const struct item *item,
                      struct gathering *gathering) {
    struct flow_section *at = &model->sections[section->id];
    struct air_flows flows = flows_of(model);
    struct wall_spans spans;
    if (air_divides(item)) {
        at->junctions[at->junction_count++] = item;
        return;
    }
    if (item->piece->kind->traits & PIECE_LENGTH) {
        struct wall wall = air_item_wall(section, item);
        add_span(gathering, section->duct->equivalent_diameter, wall.roughness, item->length * wall.factor);
    }
    enum air_course course = air_course_of(&flows, section, item, &spans);
    if (course == AIR_SQUARE && has_room(gathering)) {
        at->squares[at->square_count++] = item;
        for (int i = 0; i < spans.count; i++)
            add_span(gathering, spans.at[i].diameter, spans.at[i].roughness, spans.at[i].length);
    } else if (course != AIR_NOTHING) {
        at->others[at->other_count++] = item;
    }
}

static void sort_items(struct flow_model *model, struct arena *arena, const struct section *section) {
    struct flow_section *at = &model->sections[section->id];
    struct gathering gathering = {.count = 0};
    size_t count = section->items.count;
    const struct item **items = ARENA_ARRAY(arena, const struct item *, 3 * count);
    at->others = items;
    at->junctions = items + count;
    at->squares = items + 2 * count;
    at->roughness = wall_of_run(section->run).roughness;
    at->per_blade = air_velocity_pressure(model->air, 1 / section->duct->area);
    for (size_t i = 0; i < count; i++)
        sort_item(model, section, &section->items.at[i], &gathering);
    at->span_count = gathering.count;
    at->spans = ARENA_ARRAY(arena, struct flow_span, gathering.count);
    for (uint32_t i = 0; i < gathering.count; i++)
        at->spans[i] = gathering.spans[i];
}

void flow_model_load(struct flow_model *model, bool loaded) {
    model->loaded = loaded;
    struct air_flows flows = flows_of(model);
    for (size_t i = 0; i < model->count; i++) {
        const struct section *section = model->network->sections.at[i];
        struct flow_section *at = &model->sections[i];
        model->flow[i] = section->flow;
        if (!at->carries)
            continue;
        /* What goes with the square is asked once, at the design. */
        double sum = 0;
        for (uint32_t k = 0; k < at->square_count; k++)
            sum += air_square_loss(&flows, section, at->squares[k]);
        at->square = sum / (section->flow * section->flow);
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
    model->of_others = ARENA_ARRAY(arena, double, count);
    model->of_junctions = ARENA_ARRAY(arena, double, count);
    model->junction = arena_take(arena, count * sizeof *model->junction);
    mark_carrying(model);
    link_children(model);
    for (size_t i = 0; i < count; i++)
        model->flow[i] = network->sections.at[i]->flow;
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

/* ---- Airflows ---------------------------------------------------------------------------------------------------- */

void flow_sum(struct flow_model *model) {
    for (size_t i = 0; i < model->count; i++)
        if (!flow_is_end(model, i))
            model->flow[i] = 0;
    for (size_t i = model->count; i-- > 0;)
        if (model->sections[i].parent != NO_SECTION)
            model->flow[model->sections[i].parent] += model->flow[i];
}

/* ---- Losses ------------------------------------------------------------------------------------------------------ */

static double items_loss(const struct flow_model *model, uint32_t id, const struct item **items, uint32_t count) {
    struct air_flows flows = flows_of(model);
    double sum = 0;
    for (uint32_t i = 0; i < count; i++)
        sum += air_fitting_loss(&flows, model->network->sections.at[id], items[i], model->sections[id].roughness);
    return sum;
}

static double others_loss(const struct flow_model *model, uint32_t id) {
    return items_loss(model, id, model->sections[id].others, model->sections[id].other_count);
}

static double junctions_loss(const struct flow_model *model, uint32_t id) {
    return items_loss(model, id, model->sections[id].junctions, model->sections[id].junction_count);
}

/* The part known in closed form, friction and what goes with the square; and its slope. */
static double plain_loss(struct flow_model *model, uint32_t id) {
    const struct flow_section *at = &model->sections[id];
    double flow = model->flow[id], size = fabs(flow), square = at->square + at->blade * at->per_blade;
    double loss = square * size * size, slope = 2 * square * size;
    for (uint32_t i = 0; i < at->span_count; i++) {
        double of_span = 0;
        loss += at->spans[i].length *
                air_friction_slope(model->air, size, at->spans[i].diameter, at->spans[i].roughness, &of_span);
        slope += at->spans[i].length * of_span;
    }
    model->slope[id] = slope;
    return flow < 0 ? -loss : loss;
}

void flow_evaluate(struct flow_model *model) {
    for (uint32_t id = 0; id < model->count; id++) {
        if (!model->sections[id].carries)
            continue;
        model->of_others[id] = others_loss(model, id);
        model->of_junctions[id] = junctions_loss(model, id);
        model->loss[id] = plain_loss(model, id) + model->of_others[id] + model->of_junctions[id];
    }
}

/* ---- Slopes ------------------------------------------------------------------------------------------------------ */

/* The step of a difference quotient: a millionth of the airflow, which leaves ten digits of the slope, but at least
 * a millionth of a thousandth of the design's.  Chosen here, no source. */
static const double nudged_by = 1e-6, still = 1e-3;

static double nudge_of(const struct flow_model *model, uint32_t id) {
    return nudged_by * fmax(fabs(model->flow[id]), still * model->network->sections.at[id]->flow);
}

/* More air in the section, and so in its parent. */
static void nudge(struct flow_model *model, uint32_t id, double by) {
    model->flow[id] += by;
    if (model->sections[id].parent != NO_SECTION)
        model->flow[model->sections[id].parent] += by;
}

static void others_slope(struct flow_model *model, uint32_t id) {
    uint32_t parent = model->sections[id].parent;
    double by = nudge_of(model, id), flow = model->flow[id], whole = parent != NO_SECTION ? model->flow[parent] : 0;
    nudge(model, id, by);
    model->slope[id] += (others_loss(model, id) - model->of_others[id]) / by;
    model->flow[id] = flow;
    if (parent != NO_SECTION)
        model->flow[parent] = whole;
}

/* How the junction losses of all children of `parent` change with the air of one child. */
static void junction_column(struct flow_model *model, uint32_t parent, uint32_t nudged, int column) {
    double by = nudge_of(model, nudged), flow = model->flow[nudged], whole = model->flow[parent];
    nudge(model, nudged, by);
    EACH_CHILD(model, parent, id)
        model->junction[id][column] = (junctions_loss(model, id) - model->of_junctions[id]) / by;
    model->flow[nudged] = flow;
    model->flow[parent] = whole;
}

/* Junctions depend on how the air divides, and go with the square of all of it; so, by Euler's theorem, the flows times
 * their slopes add up to twice the loss, which gives the column of the largest from the others.  (The friction in a
 * split's legs goes with a little less than the square: the step is then not quite Newton's, its end is the same.) */
static void junction_slopes(struct flow_model *model, uint32_t parent) {
    uint32_t child[CHILDREN_MOST];
    int count = flow_children(model, parent, child), largest = 0;
    for (int k = 1; k < count; k++)
        if (model->flow[child[k]] > model->flow[child[largest]])
            largest = k;
    for (int k = 0; k < count; k++)
        if (k != largest)
            junction_column(model, parent, child[k], k);
    double most = model->flow[child[largest]];
    for (int i = 0; i < count; i++) {
        double rest = 2 * model->of_junctions[child[i]];
        for (int k = 0; k < count; k++)
            rest -= k == largest ? 0 : model->junction[child[i]][k] * model->flow[child[k]];
        model->junction[child[i]][largest] = most > 0 ? rest / most : 0;
    }
}

static bool has_junctions(const struct flow_model *model, uint32_t parent) {
    EACH_CHILD(model, parent, id)
        if (model->sections[id].junction_count)
            return true;
    return false;
}

void flow_slopes(struct flow_model *model) {
    for (uint32_t id = 0; id < model->count; id++) {
        if (!model->sections[id].carries)
            continue;
        if (model->sections[id].other_count)
            others_slope(model, id);
        if (has_junctions(model, id))
            junction_slopes(model, id);
    }
}

struct flow_range flow_side(const struct flow_model *model, bool supply, double *path) {
    struct flow_range range = {INFINITY, -INFINITY};
    for (size_t i = 0; i < model->count; i++) {
        const struct flow_section *at = &model->sections[i];
        if (!at->carries || model->network->sections.at[i]->run->supply != supply)
            continue;
        path[i] = model->loss[i] + (at->parent != NO_SECTION ? path[at->parent] : 0);
        if (!flow_is_end(model, i))
            continue;
        range.least = fmin(range.least, path[i]);
        range.most = fmax(range.most, path[i]);
    }
    return range;
}

/* ---- The unit ---------------------------------------------------------------------------------------------------- */

double flow_unit_drops(const struct flow_model *model, double flow, double *slope) {
    const struct air_unit *unit = model->network->unit;
    double sum = 0;
    for (size_t i = 0; i < unit->drops.count; i++)
        sum += air_drop(unit, &unit->drops.at[i], model->loaded, 1, model->air);
    *slope = 2 * sum * fabs(flow);
    return sum * flow * fabs(flow);
}

double flow_blower(const struct flow_model *model, double flow, double *slope) {
    const struct air_unit *unit = model->network->unit;
    size_t count = unit->blower.count;
    double within = fmin(fmax(flow, unit->blower.at[0].flow), unit->blower.at[count - 1].flow), pressure = 0;
    air_blower_at(unit->blower.at, count, within, model->air, &pressure);
    *slope = air_blower_slope(unit->blower.at, count, within) * model->air->density_ratio;
    if (flow == within)
        return pressure;
    /* Falling at least a tenth of the pressure when the airflow doubles, so that the line crosses 0 somewhere.
     * Chosen here. */
    const double falls = 0.1, least_air = 0.01;
    *slope = fmin(*slope, -falls * pressure / fmax(within, least_air * unit->blower.at[count - 1].flow));
    return pressure + *slope * (flow - within);
}
