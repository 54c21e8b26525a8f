/* The pressure loss of every item of a network, and the sums along the sections toward the unit. */
#include "air/losses.h"

#include "air/trace.h"
#include "air/wall.h"

#include <math.h>

#include "model/taps.h"

/* The network as it was designed, or with one duct of another size, or with other airflows. */
struct view {
    const struct air *air;
    const struct duct *changed; /* NULL: none */
    struct duct_size size;      /* of that one */
    const double *flows;        /* m3/s by section id, negative backward; NULL: the design's */
    bool loaded;                /* filters have taken up what dust they hold */
    struct wall_spans *spans;   /* NULL: friction is not noted */
    struct trace *trace;        /* NULL: nobody asks how it comes about */
};

/* The duct of a section, as it is seen. */
struct reach {
    struct duct_size size;
    double equivalent; /* m */
    struct wall wall;
    struct wall of_run;
    double friction_rate; /* Pa/m */
};

bool air_divides(const struct item *item) {
    return item->role == ITEM_BRANCH || item->role == ITEM_PAST || item->role == ITEM_LEG;
}

/* ---- What a piece's loss depends on ------------------------------------------------------------------------------ */

static struct duct_size size_of(const struct view *view, const struct duct *duct) {
    return duct == view->changed ? view->size : duct->size;
}

static double flow_in(const struct view *view, const struct section *section) {
    return view->flows ? view->flows[section->id] : section->flow;
}

static struct stream stream_of(const struct view *view, const struct section *section) {
    return (struct stream){.size = size_of(view, section->duct), .flow = flow_in(view, section)};
}

/* The air just ahead of a section, toward the unit: its parent's, or the collar's. */
static struct stream stream_before(const struct view *view, const struct section *section) {
    if (section->parent)
        return stream_of(view, section->parent);
    const struct air_unit *unit = section->run->unit;
    struct stream before = stream_of(view, section);
    struct duct_size collar = section->run->supply ? unit->supply : unit->return_;
    if (size_known(collar))
        before.size = collar;
    return before;
}

/* The other legs of the split that `section` leaves: all their air, with the size of the largest flow. */
static struct stream other_legs(const struct view *view, const struct piece *split, const struct section *section) {
    struct stream other = {0};
    double most = -1;
    for (int leg = 0; leg < LEG_COUNT; leg++) {
        const struct run *run = split->run->legs[leg];
        if (!run || run == section->run || !run->first_section)
            continue;
        const struct section *first = run->first_section;
        other.flow += flow_in(view, first);
        /* By the design's flows, so that the legs do not swap roles as the air shifts. */
        if (first->flow > most)
            other.size = size_of(view, first->duct);
        most = fmax(most, first->flow);
    }
    return other;
}

static void set_junction(const struct view *view, struct piece_flow *flow, const struct item *item,
                         const struct section *section) {
    flow->common = flow->near;
    switch (item->role) {
    case ITEM_BRANCH:
        flow->common.size = tapped_size(&section->run->from, flow->near.size);
        flow->branch = flow->far;
        flow->through = flow->near;
        flow->through.flow = fmax(0, flow->near.flow - flow->far.flow);
        break;
    case ITEM_PAST:
        flow->common.size = tapped_size(&item->tapped->from, flow->near.size);
        flow->through = flow->far;
        if (item->tapped->first_section)
            flow->branch = stream_of(view, item->tapped->first_section);
        break;
    case ITEM_LEG:
        flow->branch = flow->far;
        flow->through = other_legs(view, item->piece, section);
        flow->leg = section->run->from.leg;
        break;
    default:
        break;
    }
}

/* Junction relations have no reverse flow: clamp to 0.  Any other piece is computed as if the air went as designed. */
static void set_forward(struct piece_flow *flow, bool divides) {
    struct stream *streams[] = {&flow->near, &flow->far, &flow->common, &flow->branch, &flow->through};
    for (size_t i = 0; i < sizeof streams / sizeof streams[0]; i++)
        streams[i]->flow = divides ? fmax(streams[i]->flow, 0) : fabs(streams[i]->flow);
}

static struct piece_flow flow_of(const struct view *view, const struct item *item, const struct section *section,
                                 double roughness) {
    struct piece_flow flow = {
        .piece = item->piece,
        .air = view->air,
        .role = item->role,
        .supply = section->run->supply,
        .length = item->length,
        .roughness = roughness,
        .design = section->flow,
        .loaded = view->loaded,
        .spans = view->spans,
        .trace = view->trace,
        .near = stream_of(view, section),
        .far = stream_of(view, section),
        .skips_near = item->skips_near,
        .skips_far = item->skips_far,
    };
    if (item->role != ITEM_PIECE || piece_resizes(item->piece))
        flow.near = stream_before(view, section);
    bool divides = air_divides(item);
    if (divides)
        set_junction(view, &flow, item, section);
    if (view->flows)
        set_forward(&flow, divides);
    return flow;
}

/* ---- Losses ------------------------------------------------------------------------------------------------------ */

/* All but the friction, which takes longest to find. */
static struct reach still_reach(const struct view *view, const struct section *section) {
    const struct duct *duct = section->duct;
    struct reach reach = {
        .size = size_of(view, duct),
        .equivalent = duct->equivalent_diameter,
        .wall = {.roughness = duct->roughness, .factor = duct->friction_multiplier},
        .of_run = wall_of_run(section->run),
    };
    if (duct == view->changed) {
        reach.equivalent = air_equivalent_diameter(reach.size);
        reach.wall = wall_of_duct(duct, reach.equivalent);
    }
    return reach;
}

static struct reach reach_of(const struct view *view, const struct section *section) {
    struct reach reach = still_reach(view, section);
    reach.friction_rate =
        air_friction_rate(view->air, section->flow, reach.equivalent, reach.wall.roughness) * reach.wall.factor;
    return reach;
}

/* Friction along `length` of a section's duct: at the section's rate, unless the piece has another wall. */
static double length_friction(const struct view *view, const struct section *section, const struct reach *reach,
                              struct wall wall, double length) {
    if (wall.roughness == reach->wall.roughness && wall.factor == reach->wall.factor)
        return reach->friction_rate * length;
    return air_friction_rate(view->air, section->flow, reach->equivalent, wall.roughness) * wall.factor * length;
}

/* Without the friction of a length of duct. */
static struct loss fitting_loss(const struct view *view, const struct section *section, const struct item *item,
                                double roughness) {
    const struct piece_kind *kind = item->piece->kind;
    struct piece_flow flow = flow_of(view, item, section, roughness);
    struct loss loss = {0};
    /* Two runs of one size just join. */
    if (item->role == ITEM_CONNECT && size_equal(flow.near.size, flow.far.size))
        return loss;
    if (kind->loss)
        kind->loss(&flow, &loss);
    return loss;
}

static struct loss item_loss(const struct view *view, const struct section *section, const struct item *item,
                             const struct reach *reach) {
    struct wall wall = wall_of_piece(item->piece, reach->equivalent, reach->of_run);
    struct loss loss = fitting_loss(view, section, item, wall.roughness);
    if (!(item->piece->kind->traits & PIECE_LENGTH))
        return loss;
    double friction = length_friction(view, section, reach, wall, item->length);
    if (view->trace)
        *list_add(view->trace->arena, &view->trace->rubbings) =
            (struct trace_rubbing){stream_of(view, section), wall.roughness, wall.factor, item->length, friction};
    loss.friction += friction;
    loss.pressure += friction;
    return loss;
}

/* No air, no loss; both have been diagnosed. */
static bool is_still(const struct view *view, const struct section *section) {
    return section->flow <= 0 || !size_known(size_of(view, section->duct));
}

static void section_loss(const struct view *view, struct section *section) {
    section->velocity = section->friction_rate = section->loss = 0;
    for (size_t i = 0; i < section->items.count; i++)
        section->items.at[i].loss = (struct loss){0};
    if (is_still(view, section))
        return;
    struct reach reach = reach_of(view, section);
    section->velocity = section->flow / section->duct->area;
    section->friction_rate = reach.friction_rate;
    for (size_t i = 0; i < section->items.count; i++) {
        section->items.at[i].loss = item_loss(view, section, &section->items.at[i], &reach);
        section->loss += section->items.at[i].loss.pressure;
    }
}

void air_losses(struct network *network, const struct air *air) {
    struct view view = {.air = air};
    air_walls(network);
    /* Parents come before children, so one sweep sums the way to the unit. */
    for (size_t i = 0; i < network->sections.count; i++) {
        struct section *section = network->sections.at[i];
        section_loss(&view, section);
        section->loss_to_unit = section->loss + (section->parent ? section->parent->loss_to_unit : 0);
    }
}

double air_trial_loss(const struct air *air, const struct section *section, const struct item *item,
                      const struct duct *duct, struct duct_size size) {
    struct view view = {.air = air, .changed = duct, .size = size};
    if (is_still(&view, section))
        return 0;
    struct reach reach = reach_of(&view, section);
    return item_loss(&view, section, item, &reach).pressure;
}

struct loss air_traced_loss(const struct air *air, const struct section *section, const struct item *item,
                            struct trace *trace) {
    struct view view = {.air = air, .trace = trace};
    if (is_still(&view, section))
        return (struct loss){0};
    struct reach reach = reach_of(&view, section);
    return item_loss(&view, section, item, &reach);
}

/* ---- At other airflows ------------------------------------------------------------------------------------------- */

struct wall air_item_wall(const struct section *section, const struct item *item) {
    return wall_of_piece(item->piece, section->duct->equivalent_diameter, wall_of_run(section->run));
}

double air_fitting_loss(const struct air_flows *flows, const struct section *section, const struct item *item,
                        double roughness) {
    struct view view = {.air = flows->air, .flows = flows->at, .loaded = flows->loaded};
    double pressure = fitting_loss(&view, section, item, roughness).pressure;
    return flows->at[section->id] < 0 && !air_divides(item) ? -pressure : pressure;
}

double air_item_loss(const struct air_flows *flows, const struct section *section, const struct item *item) {
    struct wall wall = air_item_wall(section, item);
    double loss = air_fitting_loss(flows, section, item, wall.roughness), flow = flows->at[section->id];
    if (!(item->piece->kind->traits & PIECE_LENGTH))
        return loss;
    double rate = air_friction_rate(flows->air, fabs(flow), section->duct->equivalent_diameter, wall.roughness);
    return loss + copysign(rate * wall.factor * item->length, flow);
}

/* Whether the spans tell all of the friction. */
static bool spans_tell(const struct air_flows *flows, const struct section *section, const struct wall_spans *spans,
                       double friction) {
    double sum = 0;
    for (int i = 0; i < spans->count && i < WALL_SPANS; i++)
        sum += spans->at[i].length * air_friction_rate(flows->air, fabs(flows->at[section->id]), spans->at[i].diameter,
                                                       spans->at[i].roughness);
    return spans->count <= WALL_SPANS && fabs(sum - friction) <= 1e-12 * friction;
}

/* No coefficient and no loss at the design: the piece never takes anything. */
enum air_course air_course_of(const struct air_flows *flows, const struct section *section, const struct item *item,
                              struct wall_spans *spans) {
    *spans = (struct wall_spans){.count = 0};
    struct view view = {.air = flows->air, .flows = flows->at, .loaded = flows->loaded, .spans = spans};
    if (!item->piece->kind->loss)
        return AIR_NOTHING;
    struct loss loss = fitting_loss(&view, section, item, air_item_wall(section, item).roughness);
    if (loss.pressure == 0 && !loss.reference_name && loss.source == SOURCE_NONE)
        return AIR_NOTHING;
    bool square = item->piece->kind->traits & PIECE_SQUARE;
    return square && spans_tell(flows, section, spans, loss.friction) ? AIR_SQUARE : AIR_OTHER;
}

double air_square_loss(const struct air_flows *flows, const struct section *section, const struct item *item) {
    struct view view = {.air = flows->air, .flows = flows->at, .loaded = flows->loaded};
    struct loss loss = fitting_loss(&view, section, item, air_item_wall(section, item).roughness);
    return loss.pressure - loss.friction;
}

/* ---- At sizes on trial ------------------------------------------------------------------------------------------- */

/* With the duct's present size, even if it changed since air_losses. */
static struct view view_at_hand(const struct air *air, const struct section *section) {
    return (struct view){.air = air, .changed = section->duct, .size = section->duct->size};
}

double air_item_trial(const struct air *air, const struct section *section, const struct item *item) {
    struct view view = view_at_hand(air, section);
    if (is_still(&view, section))
        return 0;
    struct reach reach =
        item->piece->kind->traits & PIECE_LENGTH ? reach_of(&view, section) : still_reach(&view, section);
    return item_loss(&view, section, item, &reach).pressure;
}

double air_section_trial(const struct air *air, const struct section *section) {
    struct view view = view_at_hand(air, section);
    double sum = 0;
    if (is_still(&view, section))
        return 0;
    struct reach reach = reach_of(&view, section);
    for (size_t i = 0; i < section->items.count; i++)
        sum += item_loss(&view, section, &section->items.at[i], &reach).pressure;
    return sum;
}

double air_rubbed_length(const struct air *air, const struct section *section, const struct item *item) {
    struct view view = view_at_hand(air, section);
    if (is_still(&view, section))
        return 0;
    struct reach reach = reach_of(&view, section);
    return reach.friction_rate > 0 ? item_loss(&view, section, item, &reach).friction / reach.friction_rate : 0;
}
